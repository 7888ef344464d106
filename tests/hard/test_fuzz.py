"""Notes of every kind of noise: no crash, no hang, no loss."""

import random
import time

import pytest
from harness import AT, FULL
from hypothesis import given, settings
from hypothesis import strategies as st
from noise import arrival, noisy, pieces

from fieldnotes.book import create_book
from fieldnotes.book.soundness import faults
from fieldnotes.commands.reading import messages_of, read_arrival, reader_mark
from fieldnotes.datafiles import data_folder
from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.files import line_arrivals, plain_arrival
from fieldnotes.roster import Roster, load_roster

COUNT = 100_000 if FULL else 1_500
LONGEST = 20.0
"""Seconds that one such note may take before it counts as hanging: hundreds of times what it needs."""


def taken(book, note, roster):
    """Take a note into a book, as the command does; gives its id."""
    note_id = book.add_note(note, AT, "ann").note_id
    began = time.monotonic()
    reading = read_arrival(note, roster)
    assert time.monotonic() - began < LONGEST, note.text
    for record in reading.records:
        assert all(0 <= a < b <= len(note.text) for a, b in record.spans), note.text
    book.add_reading(note_id, note.text, reading, messages_of(note, roster), reader_mark())
    return note_id


def test_noisy_notes(tmp_path):
    chance = random.Random(COUNT)
    words = pieces()
    rosters = (load_roster(data_folder("sample_notes") / "roster.toml"), Roster())
    book = create_book(tmp_path / "book.db", AT)
    kept = {}
    for number in range(COUNT):
        note = arrival(noisy(chance, words), number)
        kept[taken(book, note, rosters[number % 2])] = note.body
    assert len(kept) == COUNT
    assert all(book.note(note_id).body == body for note_id, body in kept.items())
    assert len(book.records()) > COUNT / 4
    assert book.open_questions() is not None
    assert list(faults(book)) == []


@settings(max_examples=2_000 if FULL else 150, deadline=None)
@given(st.text(min_size=1, alphabet=st.characters(categories=None)))
def test_any_text(any_book, text):
    taken(any_book, arrival(text, 0), Roster())


@pytest.fixture(scope="module")
def any_book(tmp_path_factory):
    return create_book(tmp_path_factory.mktemp("any") / "book.db", AT)


@settings(max_examples=5_000 if FULL else 400, deadline=None)
@given(st.binary())
def test_any_bytes_are_text_or_named(data):
    from datetime import datetime

    now = datetime(2026, 6, 1)
    try:
        assert plain_arrival(data, "x", None, now, None).text.strip()
    except FieldnotesError as error:
        assert str(error).startswith("x is ")
    for item in line_arrivals(data.splitlines(), "x", None, now, None):
        assert str(item)
