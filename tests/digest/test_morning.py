"""The digest: the same bytes every time, and a text that was read and found right."""

import datetime
import io
import json
import re
from pathlib import Path

from rich.console import Console

from fieldnotes.digest import morning_json, morning_text, print_morning
from fieldnotes.records import StoredQuestion, StoredRecord
from fieldnotes.roster import parse_roster
from fieldnotes.schedule import due_items

DAY = datetime.date(2026, 10, 13)
EXPECTED = Path(__file__).parent / "morning_expected.txt"
ROSTER = parse_roster(
    """
outfit = "Quillfeather Bee Yards"
[[yard]]
name = "Millpond"
colonies = ["1-24", "N1-N6"]
truck = "Flatbed"
[[yard]]
name = "Quarry"
colonies = ["1-18"]
truck = "Pickup"
[[yard]]
name = "Larkfield"
colonies = ["L1-L30"]
""",
    "roster.toml",
)
ALL = {"every_colony": True}


def rec(n, kind, said, by="Marit", **slots):
    if slots.get("state") != "planned":
        slots.setdefault("on", said)
    return StoredRecord(
        id=f"r{n}", note_id=f"n{n}", received=f"{said}T12:00", said=said, sender=by, kind=kind, slots=slots
    )


BOOK = [
    rec(
        1,
        "treatment",
        "2026-08-14",
        yard="Millpond",
        step="in",
        agent="amitraz",
        form="strip",
        amount=2,
        unit="strip",
        **ALL,
    ),
    rec(2, "treatment", "2026-10-05", yard="Millpond", colonies=["1", "2", "3", "4"], step="out", form="strip"),
    rec(
        3,
        "treatment",
        "2026-10-06",
        "Dov",
        yard="Millpond",
        colonies=["5"],
        step="out",
        form="strip",
        amount=1,
        unit="strip",
    ),
    rec(4, "mite_check", "2026-09-18", yard="Quarry", colonies=["1", "2"], method="alcohol_wash", mites=30, bees=600),
    rec(
        5,
        "treatment",
        "2026-09-20",
        yard="Quarry",
        step="in",
        agent="formic_acid",
        form="pad",
        amount=2,
        unit="pad",
        except_colonies=["4", "9"],
        **ALL,
    ),
    rec(6, "treatment", "2026-10-04", yard="Quarry", step="out", form="pad", **ALL),
    rec(7, "mite_check", "2026-10-08", yard="Quarry", colonies=["1", "2"], method="alcohol_wash", mites=28, bees=600),
    rec(8, "gear", "2026-10-06", "Ines", yard="Larkfield", item="escape", step="on", **ALL),
    rec(
        9,
        "gear",
        "2026-10-08",
        "Ines",
        yard="Larkfield",
        state="planned",
        on="2026-10-12",
        item="super",
        step="off",
        **ALL,
    ),
    rec(
        10,
        "treatment",
        "2026-10-12",
        yard="Larkfield",
        colonies=["L1", "L2"],
        step="in",
        agent="thymol",
        form="gel",
        amount=1,
        unit="tray",
    ),
    rec(11, "todo", "2026-10-12", yard="Quarry", state="planned", on="2026-10-16", text="bring the ladder"),
    rec(
        12,
        "treatment",
        "2026-10-11",
        "Dov",
        yard="Gravel Pit",
        step="in",
        agent="oxalic_acid",
        form="vapour",
        round=1,
        **ALL,
    ),
    rec(13, "treatment", "2026-09-10", yard="Quarry", colonies=["4", "9"], step="in", product="shinies"),
]
QUESTIONS = [
    StoredQuestion(
        id="q1", note_id="n13", said="2026-09-10", record_id="r13", ask="What are shinies?",
        choices=["amitraz strips", "thymol gel"], topic="unknown_word", word="shinies",
    )
]  # fmt: skip


def items():
    return due_items(BOOK, QUESTIONS, ROSTER, DAY)


def test_the_text_as_it_was_read_and_found_right():
    assert morning_text(items(), DAY, ROSTER.outfit) == EXPECTED.read_text(encoding="utf-8")


def test_every_section_has_something():
    assert {i.section for i in items()} == {"overdue", "today", "coming", "settle"}


def test_json_is_the_contract():
    body = json.loads(morning_json(items(), DAY))
    assert list(body) == ["day", "items"] and body["day"] == "2026-10-13"
    wanted = {"id", "what", "section", "yard", "colonies", "every_colony", "colony_count", "due", "latest", "days_over",
              "says", "because", "caution", "sure"}  # fmt: skip
    for item in body["items"]:
        assert wanted <= set(item)
        assert set(item["because"]) == {"records", "reason"}
    assert morning_json(items(), DAY) == morning_json(due_items(BOOK[::-1], QUESTIONS, ROSTER, DAY), DAY)


def test_no_colour_unless_it_is_a_terminal():
    for terminal in (False, True):
        out = io.StringIO()
        console = Console(file=out, force_terminal=terminal, width=40, color_system="standard" if terminal else None)
        print_morning(items(), DAY, ROSTER.outfit, console)
        assert ("\x1b[" in out.getvalue()) is terminal
        plain = re.sub(r"\x1b\[[0-9;]*m", "", out.getvalue())
        assert plain == morning_text(items(), DAY, ROSTER.outfit)


def test_nothing_due():
    text = morning_text([], DAY)
    assert text.splitlines()[0] == "Tuesday 13 October 2026"
    assert "Nothing is due" in text


def test_lines_fit_and_have_no_stray_blanks():
    for line in morning_text(items(), DAY, ROSTER.outfit).splitlines():
        assert len(line) <= 96 and line == line.rstrip()


def test_most_urgent_first():
    over = [i.days_over for i in items() if i.section == "overdue"]
    assert over == sorted(over, reverse=True)


def test_one_line_a_visit():
    tray = rec(
        1, "treatment", "2026-10-01", yard="Quarry", step="in", agent="thymol", form="gel", amount=1, unit="tray", **ALL
    )
    due = due_items([tray], [], ROSTER, DAY)
    assert {i.what for i in due} == {"take_out", "next_dose"}
    text = morning_text(due, DAY)
    assert "1 for today." in text and text.count("Every colony") == 1
    assert "take the old out and give the second dose of thymol gel" in " ".join(text.split())
