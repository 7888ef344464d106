"""Notes of every kind of noise: no crash, no hang, no loss."""

import os
import random
import time
from datetime import datetime
from itertools import islice

import pytest
from harness import AT, FULL
from hypothesis import given, settings
from hypothesis import strategies as st
from noise import arrival, noisy, paste, pieces

from fieldnotes.book import create_book
from fieldnotes.book.soundness import faults
from fieldnotes.book.store import FirstReading
from fieldnotes.commands.many import in_order
from fieldnotes.commands.reading import messages_of, read_arrival, reader_mark
from fieldnotes.datafiles import data_folder
from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.files import Arrival, line_arrivals, plain_arrival
from fieldnotes.records import Reading
from fieldnotes.roster import Roster, load_roster

PARTS, COUNT = (50, 2_000) if FULL else (1, 1_500)
"""How many parts, each of a chance of its own, and notes in each: 100,000 at full length.

A run that was stopped goes on with the parts that are left: `--stepwise`, or the parts by name."""
LONGEST = 20.0
"""Seconds of processor time that one such note may take before it counts as hanging: hundreds of times its need."""


ROSTERS = (load_roster(data_folder("sample_notes") / "roster.toml"), Roster())


def read_in_time(note: Arrival, roster: Roster) -> Reading:
    """The reading of a note, with spans that lie in it, soon enough."""
    began = time.process_time()
    reading = read_arrival(note, roster)
    assert time.process_time() - began < LONGEST, note.text
    for record in reading.records:
        assert all(0 <= a < b <= len(note.text) for a, b in record.spans), note.text
    return reading


def read_one_of_many(numbered: tuple[int, Arrival]) -> Reading:
    """With the roster of the outfit and with none, in turn."""
    number, note = numbered
    return read_in_time(note, ROSTERS[number % 2])


@pytest.mark.parametrize("part", range(PARTS), ids="part{}".format)
def test_noisy_notes_and_pastes(tmp_path, part):
    chance = random.Random(part)
    words = pieces()
    makers = (noisy, noisy, noisy, paste)  # each of them for both rosters
    notes = [arrival(makers[number // 2 % 4](chance, words), part * COUNT + number) for number in range(COUNT)]
    book = create_book(tmp_path / "book.db", AT)
    kept = [taken.note_id for taken in book.add_notes(notes, AT, "ann")]
    assert len(set(kept)) == COUNT
    done = in_order(read_one_of_many, enumerate(notes), os.cpu_count() or 1)
    while some := list(islice(done, 100)):
        read = [
            FirstReading(kept[number], note.text, reading, messages_of(note, ROSTERS[number % 2]))
            for (number, note), reading in some
        ]
        book.add_readings(read, reader_mark())
    assert book.waiting() == []
    assert all(book.note(note_id).body == note.body for note_id, note in zip(kept, notes, strict=True))
    assert len(book.records()) > COUNT / 4
    assert list(faults(book)) == []


@settings(max_examples=2_000 if FULL else 150, deadline=None)
@given(st.text(min_size=1, alphabet=st.characters(categories=None)))
def test_any_text(any_book, text):
    note = arrival(text, 0)
    taken = any_book.add_note(note, AT, "ann")
    reading = read_in_time(note, Roster())
    any_book.add_reading(taken.note_id, note.text, reading, messages_of(note, Roster()), reader_mark())
    assert any_book.note(taken.note_id).text == text


@pytest.fixture(scope="module")
def any_book(tmp_path_factory):
    return create_book(tmp_path_factory.mktemp("any") / "book.db", AT)


@settings(max_examples=5_000 if FULL else 400, deadline=None)
@given(st.binary())
def test_any_bytes_are_text_or_named(data):
    now = datetime(2026, 6, 1)
    try:
        assert plain_arrival(data, "x", None, now, None).text.strip()
    except FieldnotesError as error:
        assert str(error).startswith("x is ")
    for item in line_arrivals(data.splitlines(), "x", None, now, None):
        assert str(item)
