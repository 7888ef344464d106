"""Date expressions: our conventions as a table, agreement with dateparser, outside phrases, and what is no date."""

import json
import os
from datetime import date, datetime
from pathlib import Path

import dateparser
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.reader import read
from fieldnotes.reader.dates import date_at, resolve
from fieldnotes.reader.outfit import outfit_of
from fieldnotes.reader.pipeline import parse
from fieldnotes.records import Note
from fieldnotes.roster import Roster

OUTSIDE = os.environ.get("FIELDNOTES_OUTSIDE", "")
MONDAY, WEDNESDAY, SATURDAY = date(2026, 6, 8), date(2026, 6, 10), date(2026, 6, 13)
PLAN, PAST = True, False


def meant(phrase: str, today: date, plan: bool, day_first: bool = False, hemisphere: str = "north") -> str:
    """The day of the date that is all of `phrase`, or "first..last"; "" where there is none."""
    heard = parse(phrase, outfit_of(Roster())).user_data["heard"].w
    found = date_at(heard, 0, day_first)
    if found is None or found[1] != len(heard):
        return ""
    days = resolve(found[0], today, plan, hemisphere)
    if days is None:
        return ""
    return days[0].isoformat() if days[0] == days[1] else f"{days[0]}..{days[1]}"


CONVENTIONS = [
    # the day of the message, and days counted from it
    ("today", PAST, "2026-06-10"),
    ("this morning", PAST, "2026-06-10"),
    ("just now", PAST, "2026-06-10"),
    ("tonight", PLAN, "2026-06-10"),
    ("tomorrow", PLAN, "2026-06-11"),
    ("tomorrow morning", PLAN, "2026-06-11"),
    ("day after tomorrow", PLAN, "2026-06-12"),
    ("yesterday", PAST, "2026-06-09"),
    ("last night", PAST, "2026-06-09"),
    ("the day before yesterday", PAST, "2026-06-08"),
    ("in ten days", PLAN, "2026-06-20"),
    ("in 10 to 14 days", PLAN, "2026-06-20..2026-06-24"),
    ("ten days from now", PLAN, "2026-06-20"),
    ("two weeks ago", PAST, "2026-05-27"),
    ("couple of weeks ago", PAST, "2026-05-27"),
    ("a couple weeks ago", PAST, "2026-05-27"),
    ("a fortnight ago", PAST, "2026-05-27"),
    ("a week ago", PAST, "2026-06-03"),
    ("3 days back", PAST, "2026-06-07"),
    ("a month ago", PAST, "2026-05-10"),
    ("in a month", PLAN, "2026-07-10"),
    ("in two months", PLAN, "2026-08-10"),
    # weekdays
    ("monday", PLAN, "2026-06-15"),
    ("monday", PAST, "2026-06-08"),
    ("wednesday", PLAN, "2026-06-17"),
    ("wednesday", PAST, "2026-06-03"),
    ("on friday", PLAN, "2026-06-12"),
    ("fri", PAST, "2026-06-05"),
    ("this wednesday", PLAN, "2026-06-10"),
    ("this friday", PLAN, "2026-06-12"),
    ("this monday", PAST, "2026-06-08"),
    ("next wednesday", PLAN, "2026-06-17"),
    ("next monday", PLAN, "2026-06-15"),
    ("last wednesday", PAST, "2026-06-03"),
    ("last monday", PAST, "2026-06-08"),
    ("a week from friday", PLAN, "2026-06-19"),
    ("two weeks from saturday", PLAN, "2026-06-27"),
    ("monday week", PLAN, "2026-06-22"),
    ("friday after next", PLAN, "2026-06-19"),
    ("monday of next week", PLAN, "2026-06-15"),
    ("monday last week", PAST, "2026-06-01"),
    ("three fridays from now", PLAN, "2026-06-26"),
    ("2 thursdays ago", PAST, "2026-05-28"),
    # days of the month and of the year
    ("the 14th", PLAN, "2026-06-14"),
    ("the 14th", PAST, "2026-05-14"),
    ("on the 10th", PAST, "2026-06-10"),
    ("on the 10th", PLAN, "2026-07-10"),
    ("june 3", PAST, "2026-06-03"),
    ("june 3", PLAN, "2027-06-03"),
    ("june 3rd", PAST, "2026-06-03"),
    ("june third", PAST, "2026-06-03"),
    ("3 june", PAST, "2026-06-03"),
    ("the third of june", PAST, "2026-06-03"),
    ("6/3", PAST, "2026-06-03"),
    ("6/3", PLAN, "2027-06-03"),
    ("25/6", PLAN, "2026-06-25"),
    ("june 10", PAST, "2026-06-10"),
    ("june 12", PAST, "2025-06-12"),
    ("february 29", PAST, "2024-02-29"),
    ("the 31st", PAST, "2026-05-31"),
    ("6/3/25", PAST, "2025-06-03"),
    ("june 3, 2025", PAST, "2025-06-03"),
    ("2026-06-03", PAST, "2026-06-03"),
    ("3.6.2026", PAST, "2026-03-06"),
    ("friday june 12", PLAN, "2026-06-12"),
    ("friday the 12th", PLAN, "2026-06-12"),
    ("the 20th of next month", PLAN, "2026-07-20"),
    ("20th of last month", PAST, "2026-05-20"),
    ("first monday of july", PLAN, "2026-07-06"),
    ("last friday of may", PAST, "2026-05-29"),
    ("the end of the month", PLAN, "2026-06-30"),
    # weeks, months and seasons
    ("last week", PAST, "2026-06-01..2026-06-07"),
    ("next week", PLAN, "2026-06-15..2026-06-21"),
    ("this week", PAST, "2026-06-08..2026-06-14"),
    ("in march", PAST, "2026-03-01..2026-03-31"),
    ("back in march", PAST, "2026-03-01..2026-03-31"),
    ("in march", PLAN, "2027-03-01..2027-03-31"),
    ("in june", PAST, "2026-06-01..2026-06-30"),
    ("in july", PAST, "2025-07-01..2025-07-31"),
    ("in july", PLAN, "2026-07-01..2026-07-31"),
    ("early june", PAST, "2026-06-01..2026-06-10"),
    ("mid june", PAST, "2025-06-11..2025-06-20"),
    ("mid june", PLAN, "2026-06-11..2026-06-20"),
    ("late may", PAST, "2026-05-21..2026-05-31"),
    ("late june", PLAN, "2026-06-21..2026-06-30"),
    ("late february", PAST, "2026-02-21..2026-02-28"),
    ("this spring", PAST, "2026-03-01..2026-05-31"),
    ("last fall", PAST, "2025-09-01..2025-11-30"),
    ("last winter", PAST, "2025-12-01..2026-02-28"),
    ("this summer", PLAN, "2026-06-01..2026-08-31"),
    ("next spring", PLAN, "2027-03-01..2027-05-31"),
]


@pytest.mark.parametrize(("phrase", "plan", "days"), CONVENTIONS)
def test_our_conventions(phrase: str, plan: bool, days: str) -> None:
    assert meant(phrase, WEDNESDAY, plan) == days


@pytest.mark.parametrize(
    ("phrase", "days"),
    [("6/3", "2026-03-06"), ("3.6.2026", "2026-06-03"), ("25/12", "2025-12-25"), ("12/25", "2025-12-25")],
)
def test_the_day_first(phrase: str, days: str) -> None:
    assert meant(phrase, WEDNESDAY, PAST, day_first=True) == days


@pytest.mark.parametrize(
    ("phrase", "plan", "days"),
    [
        ("this spring", PLAN, "2026-09-01..2026-11-30"),
        ("last spring", PAST, "2025-09-01..2025-11-30"),
        ("last fall", PAST, "2026-03-01..2026-05-31"),
        ("this winter", PAST, "2026-06-01..2026-08-31"),
    ],
)
def test_seasons_of_the_south(phrase: str, plan: bool, days: str) -> None:
    assert meant(phrase, WEDNESDAY, plan, hemisphere="south") == days


@settings(max_examples=300, deadline=None)
@given(today=st.dates(date(1990, 1, 1), date(2090, 12, 31)), case=st.sampled_from(CONVENTIONS))
def test_a_date_lies_on_the_side_it_was_said_to(today: date, case: tuple[str, bool, str]) -> None:
    """On any day of any year there is such a day, and it is not on the wrong side of the message."""
    phrase, plan, _ = case
    if "this " in phrase or "202" in phrase or "/25" in phrase or phrase == "friday june 12":
        return
    days = meant(phrase, today, plan)
    assert days
    first, last = (days.split("..") * 2)[:2]
    assert last >= today.isoformat() if plan else first <= today.isoformat()


# -- against dateparser ------------------------------------------------------------------------------------------------


def by_dateparser(phrase: str, today: date, plan: bool) -> str:
    found = dateparser.parse(
        phrase,
        languages=["en"],
        settings={
            "RELATIVE_BASE": datetime(today.year, today.month, today.day, 12),
            "PREFER_DATES_FROM": "future" if plan else "past",
        },
    )
    return found.date().isoformat() if found else ""


AGREED = [
    ("today", PAST),
    ("yesterday", PAST),
    ("tomorrow", PLAN),
    ("in 10 days", PLAN),
    ("in ten days", PLAN),
    ("two weeks ago", PAST),
    ("3 weeks ago", PAST),
    ("a month ago", PAST),
    ("in 2 months", PLAN),
    ("day after tomorrow", PLAN),
    ("last night", PAST),
    ("this morning", PAST),
    ("monday", PLAN),
    ("monday", PAST),
    ("friday", PLAN),
    ("sunday", PAST),
    ("last monday", PAST),
    ("last friday", PAST),
    ("june 3", PAST),
    ("june 3", PLAN),
    ("october 12", PLAN),
    ("6/3", PAST),
    ("2026-06-03", PAST),
    ("june 3, 2025", PAST),
    ("3 june 2025", PAST),
    ("6/3/2025", PAST),
    ("31-oct-2025", PAST),
]


@settings(max_examples=300, deadline=None)
@given(today=st.dates(date(2000, 1, 1), date(2060, 12, 31)), case=st.sampled_from(AGREED))
def test_where_dateparser_has_the_same_convention(today: date, case: tuple[str, bool]) -> None:
    phrase, plan = case
    assert meant(phrase, today, plan) == by_dateparser(phrase, today, plan)


DIFFERENCES = [
    ("in march", WEDNESDAY, PAST, "a month is all its days here, one day there"),
    ("early june", WEDNESDAY, PAST, "a third of a month here, unknown there"),
    ("last fall", WEDNESDAY, PAST, "seasons are unknown there"),
    ("last week", WEDNESDAY, PAST, "Monday to Sunday here, seven days ago there"),
    ("next week", WEDNESDAY, PLAN, "Monday to Sunday here, in seven days there"),
    ("a week from friday", WEDNESDAY, PLAN, "unknown there"),
    ("in 10 to 14 days", WEDNESDAY, PLAN, "one day there"),
    ("couple of weeks ago", WEDNESDAY, PAST, "unknown there"),
    ("first monday of july", WEDNESDAY, PLAN, "unknown there"),
    ("three fridays from now", WEDNESDAY, PLAN, "unknown there"),
    ("the 31st", WEDNESDAY, PAST, "the latest 31st there was here, none there"),
    ("the 14th", WEDNESDAY, PAST, "the latest 14th there was here, that of this month there"),
    ("next wednesday", MONDAY, PLAN, "of next week here, the coming one there"),
    ("this friday", SATURDAY, PAST, "of this week here, the coming one there"),
]


@pytest.mark.parametrize(("phrase", "today", "plan", "reason"), DIFFERENCES)
def test_where_dateparser_differs(phrase: str, today: date, plan: bool, reason: str) -> None:
    ours, theirs = meant(phrase, today, plan), by_dateparser(phrase, today, plan)
    assert ours, phrase
    assert ours != theirs, f"no difference any more: {phrase}: {reason}"


# -- inside notes ------------------------------------------------------------------------------------------------------


def first_day(text: str, kind: str, received: str = "2026-06-10T12:00") -> tuple[str | None, str | None]:
    """`on` and `on_until` of the first record of that kind."""
    reading = read(Note(text=text, received=received))
    slots = next((record.slots for record in reading.records if record.kind == kind), {})
    return slots.get("on"), slots.get("on_until")


@pytest.mark.parametrize(
    ("text", "on"),
    [
        ("pulled the amitraz strips from 12 monday", "2026-06-08"),
        ("need to pull the amitraz strips from 12 monday", "2026-06-15"),
        ("pulled the amitraz strips from 12 on the 14th", "2026-05-14"),
        ("will pull the amitraz strips from 12 on the 14th", "2026-06-14"),
        ("haven't pulled the amitraz strips from 12", "2026-06-10"),
        ("pulled the amitraz strips from 12 june 3", "2026-06-03"),
        ("need to pull the amitraz strips from 12 and 14 june 20", "2026-06-20"),
        ("need to pull the amitraz strips from 12", None),
    ],
)
def test_the_side_comes_from_the_sentence(text: str, on: str | None) -> None:
    assert first_day(text, "treatment") == (on, None)


NO_DATES = [
    "the bees sat down on the lid of 9",
    "queen in 9 sat on the comb",
    "9 may be queenless",
    "we may need a ladder",
    "might march over to the creek",
    "they march over the frames in 9",
    "the second one is calm",
    "the first frame of 9 has eggs",
    "the third box on 9 is full",
    "put the second super on 9",
    "9 had 5 over 5",
    "9 had 3 mites in 300 bees",
    "alcohol wash 9: 3/300",
    "fed 9 a gallon of 2:1",
    "fed 9 a gallon of 1:1",
    "full sun on 9",
    "the sun was out",
    "9 had a fall of mites",
    "the mites fall on the board",
    "spring is the best of all",
    "9 is 2 deep",
    "12-13-14 are calm",
    "3-9 are calm",
    "moved 5 of 12 frames in 9",
    "half a cup from 9",
    "9 had 1/2 cup of bees and 4 mites",
    "strips stay in 42 days",
    "leave them in six weeks",
    "the board in 9 was in 3 days",
    "second round of oxalic acid vapour in 9",
    "third dose in 9",
    "one of them is dead",
    "a week old brood in 9",
]


@pytest.mark.parametrize("text", NO_DATES)
def test_what_is_no_date(text: str) -> None:
    marks = parse(text, outfit_of(Roster())).user_data["marks"]
    assert [m.w for m in marks if m.label == "date"] == []


# -- outside phrases ---------------------------------------------------------------------------------------------------

# Phrases of an open-source parser of numbers and dates that looks ahead always; they are no part of this project, and
# are read where the environment variable FIELDNOTES_OUTSIDE names their folder.
OTHERWISE = {
    "2-15": "a range of colonies",
    "14th April 15": "a bare number after a date counts something",
}


@pytest.mark.skipif(not OUTSIDE, reason="FIELDNOTES_OUTSIDE names no folder")
def test_outside_phrases_inside_a_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    lines = (Path(OUTSIDE) / "dates.jsonl").read_text(encoding="utf-8").splitlines()
    cases = [case for case in map(json.loads, lines) if case["phrase"] not in OTHERWISE]
    assert len(cases) > 100
    misses = []
    for case in cases:
        text = f"need to pull the amitraz strips from 12 {case['phrase']}"
        on, until = first_day(text, "treatment", case["reference"])
        if on != case["value"] or until is not None:
            misses.append(f"{case['phrase']!r} on {case['reference'][:10]}: {on}, not {case['value']}")
    right = 1 - len(misses) / len(cases)
    with capsys.disabled():
        print("\n".join([f"\noutside date phrases right: {right:.3f} of {len(cases)}", *misses]))
    assert right >= 0.95
