"""What holds for every text: nothing is lost in silence, spans are true, reading is a function, threads part."""

from __future__ import annotations

import re
from datetime import date

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from rule_examples import NOON
from sayings import OUTFIT
from wordings import ROSTERS, any_text, cut_notes, roster_named, shuffled_notes

from fieldnotes.intake.thread import messages
from fieldnotes.reader import read
from fieldnotes.reader.leftovers import SMALL_WORDS
from fieldnotes.records import Note, Reading
from fieldnotes.roster import Roster

RECEIVED = "2026-06-10T12:00"
ANY_TEXT = settings(
    deadline=None, max_examples=300, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")


def note_of(text: str, by: str | None = "Dov", received: str = RECEIVED) -> Note:
    return Note(text=text, received=received, by=by)


def heads_of(note: Note, roster: Roster) -> list[tuple[int, int]]:
    """Where the heads of a thread's messages stand: senders, times and days, which are no words of the message."""
    people = tuple(n.lower() for p in roster.person for n in (p.name, *p.also))
    parts = messages(note, people, roster.day_first)
    ends = [0, *(part.end for part in parts)]
    return [(end, part.start) for end, part in zip(ends, parts, strict=False) if part.start > end]


def words_in_silence(note: Note, reading: Reading, roster: Roster) -> list[str]:
    """Content words of the note that lie in no record, no leftover and no message's head."""
    held = [0] * (len(note.text) + 1)
    spans = [span for record in reading.records for span in record.spans]
    spans += [(left.start, left.end) for left in reading.leftovers]
    for start, end in spans + heads_of(note, roster):
        held[start] += 1
        held[end] -= 1
    depth, covered = 0, []
    for change in held[:-1]:
        depth += change
        covered.append(depth > 0)
    return [
        m.group()
        for m in _WORD.finditer(note.text)
        if m.group().lower().replace("’", "'") not in SMALL_WORDS and not all(covered[m.start() : m.end()])
    ]


def flat(reading: Reading, shift: int = 0) -> list[dict[str, object]]:
    """The records of a reading, their spans moved by `shift`."""
    return [
        {"kind": r.kind} | r.slots | {"spans": [(a + shift, b + shift) for a, b in r.spans]} for r in reading.records
    ]


@pytest.mark.parametrize("name", ROSTERS)
@ANY_TEXT
@example("Millpond\n12: 5\n\ntuesday\n")
@example("before it all\nTuesday:\nMarit 14:02\n9 had two mites\nDov 14:03\nok")
@example("½ ² ٣ mites 12mites")
@given(text=any_text())
def test_any_text_is_read_with_nothing_in_silence(name: str, text: str) -> None:
    roster = roster_named(name)
    note = note_of(text)
    reading = read(note, roster)
    for record in reading.records:
        assert record.spans
        assert set(record.why) == set(record.slots)
        for start, end in record.spans:
            assert 0 <= start < end <= len(text)
    for left in reading.leftovers:
        assert 0 <= left.start < left.end <= len(text)
        assert left.text == text[left.start : left.end]
    assert words_in_silence(note, reading, roster) == []
    assert read(note, roster) == reading


@ANY_TEXT
@example("a hive at Millpond is dead", "quillfeather")
@example("fed Millpond a gallon each, no, scratch that, out of", "quillfeather")
@example("rolls at Millpond came to ate and l twenty won nothing l twenty to a dozen and l twenty", "quillfeather")
@example("took the honey off Millpond fourteen supers um and Cut Bank made five supers at eighteen", "quillfeather")
@given(text=cut_notes(), name=st.sampled_from(ROSTERS))
def test_a_note_may_begin_and_end_at_any_word(text: str, name: str) -> None:
    roster = roster_named(name)
    note = note_of(text)
    reading = read(note, roster)
    assert all(0 <= start < end <= len(text) for record in reading.records for start, end in record.spans)
    assert words_in_silence(note, reading, roster) == []


@ANY_TEXT
@given(text=shuffled_notes(), name=st.sampled_from(ROSTERS))
def test_the_heads_of_a_thread_are_short(text: str, name: str) -> None:
    """What counts as the head of a message is no place where words can get lost."""
    roster = roster_named(name)
    for start, end in heads_of(note_of(text), roster):
        lines = [line for line in text[start:end].splitlines() if line.strip()]
        assert all(len(line.split()) <= 8 for line in lines), lines


SENDERS = ("Marit", "Dov", "Ines")
FACTS = (
    "{a} had {n} mites",
    "alcohol wash on {a} had {n} mites",
    "{yard} yard: alcohol wash {a} {n} mites, {b} none",
    "put amitraz strips in {a} and {b}",
    "pulled the formic pads from {a} yesterday",
    "will put supers on {a} and {b} friday",
    "{a} is queenless, {n} swarm cells",
    "fed {a} a gallon of 2:1",
    "{a}: eggs, calm, 5 frames of brood\n{b}: chalkbrood",
    "didn't check {a}",
    "split {a} into {b}",
    "bring the ladder tomorrow",
    "nothing much today 😳",
    "low of 28 last night at {yard} yard",
)
HEADS = (
    "{day} {clock} - {who}: ",
    "[{day}, {clock}] {who}: ",
    "{who} {day} {clock}\n",
    "{who} ({day} {clock}): ",
)


@st.composite
def simple_notes(draw: st.DrawFn) -> str:
    facts = draw(st.lists(st.sampled_from(FACTS), min_size=1, max_size=3))
    numbers = st.integers(min_value=1, max_value=99)
    yards = st.sampled_from(["Hilltop", "River", "Gravel Pit"])
    return "\n".join(f.format(a=draw(numbers), b=draw(numbers), n=draw(numbers), yard=draw(yards)) for f in facts)


@st.composite
def threads(draw: st.DrawFn) -> list[tuple[str, date, str, str]]:
    """Messages of a thread, each of another sender: (sender, day, clock time, text)."""
    senders = draw(st.permutations(SENDERS))[: draw(st.integers(min_value=1, max_value=3))]
    days = sorted(draw(st.lists(st.dates(date(2026, 4, 1), date(2026, 6, 9)), min_size=3, max_size=3)))
    hours = draw(st.lists(st.integers(min_value=10, max_value=23), min_size=3, max_size=3))
    return [
        (who, day, f"{hour}:05", draw(simple_notes())) for who, day, hour in zip(senders, days, hours, strict=False)
    ]


@settings(deadline=None, max_examples=300)
@given(thread=threads(), head=st.sampled_from(HEADS), gap=st.sampled_from(["\n", "\n\n"]))
def test_a_note_in_a_thread_reads_as_alone(thread: list[tuple[str, date, str, str]], head: str, gap: str) -> None:
    text, alone = "", []
    for who, day, clock, said in thread:
        text += head.format(day=day.isoformat(), clock=clock, who=who)
        received = f"{day.isoformat()}T{clock}"
        alone += flat(read(Note(text=said, received=received, by=who), Roster()), shift=len(text))
        text += said + gap
    assert flat(read(note_of(text, by="Tobiah"), Roster())) == alone


@pytest.mark.parametrize(
    ("text", "senders"),
    [
        ("before it all\nTuesday:\nMarit 14:02\n9 had two mites\nDov 14:03\nok", ["Tobiah", "Marit", "Dov"]),
        ("fyi\nMarit 14:02\n9 had two mites\nDov 14:03\nok", ["Tobiah", "Marit", "Dov"]),
    ],
)
def test_what_stands_before_the_first_head_is_the_senders(text: str, senders: list[str]) -> None:
    parts = messages(note_of(text, by="Tobiah"))
    assert [part.by for part in parts] == senders
    assert parts[0].start == 0


def test_a_dose_for_the_nucs_may_come_in_a_message_of_its_own() -> None:
    thread = "Ada, 9 Jun 2026 10:00: lactic acid spray on the nucs at low field\nAda, 9 Jun 2026 10:05: n1 30 mil"
    records = read(Note(text=thread, received=NOON), OUTFIT).records
    assert [r.slots.get("colonies") for r in records] == [["N1"]]
