"""Leaving out what is settled never changes a digest."""

import random
from datetime import date, datetime, timedelta

import pytest
from test_store import AT

from fieldnotes.book import acts, create_book, settling
from fieldnotes.commands import moment, needed
from fieldnotes.commands.morning import items_of
from fieldnotes.commands.reading import messages_of, read_arrival, reader_mark
from fieldnotes.datafiles import data_folder
from fieldnotes.intake.files import file_lines, line_arrivals
from fieldnotes.roster import load_roster
from fieldnotes.schedule import due_items

SAMPLES = data_folder("sample_notes")
ROSTER = load_roster(SAMPLES / "roster.toml")


@pytest.fixture(scope="module")
def season():
    """The sample notes with their readings, by the day they came."""
    lines = file_lines(SAMPLES / "notes.jsonl")
    return [(note, read_arrival(note, ROSTER)) for note in line_arrivals(lines, "notes", None, moment.now(), None)]


@pytest.fixture
def book(tmp_path, monkeypatch):
    monkeypatch.setattr(needed, "FEW", 0)
    return create_book(tmp_path / "book.db", AT)


def take(book, note, reading, at):
    taken = book.add_note(note, f"{at}T20:00:00+00:00", "ann")
    book.add_reading(taken.note_id, note.text, reading, messages_of(note, ROSTER), reader_mark())


def same_with_all(book, day):
    whole = due_items(book.records(), book.open_questions(), ROSTER, day, closed=acts.closed(book))
    return items_of(book, ROSTER, day) == whole


def settled_now(book):
    return len(book.records()) - len(book.records(unsettled=True))


@pytest.mark.parametrize("piece", [10_000, 7])
@pytest.mark.parametrize("seed", range(3))
def test_through_a_season_with_late_notes_and_mending(book, season, seed, piece, monkeypatch):
    monkeypatch.setattr(needed, "PIECE", piece)
    chance = random.Random(seed)
    waiting = list(season)
    day = date(2026, 2, 14)
    most = 0
    while waiting or day < date(2026, 12, 24):
        here = [pair for pair in waiting if pair[0].received[:10] <= day.isoformat()]
        for pair in here:
            if chance.random() < 0.7:
                take(book, *pair, day)
                waiting.remove(pair)
        assert same_with_all(book, day)
        records = book.records()
        if records and chance.random() < 0.3:
            held = acts.find_record(book, chance.choice(records).id)
            act = chance.randrange(3)
            if act == 0:
                acts.reject(book, held, AT, "ann")
            elif act == 1:
                acts.fix(book, held, held.kind, held.slots | {"on": str(day - timedelta(days=40))}, AT, "ann")
            else:
                acts.undo(book, acts.last_batch(book), AT, "ann")
            assert same_with_all(book, day)
        most = max(most, settled_now(book))
        day += timedelta(days=chance.randrange(1, 9))
    assert most > 5


def test_an_earlier_day_and_another_roster_are_made_from_all(book, season):
    for note, reading in season:
        take(book, note, reading, note.received[:10])
    assert same_with_all(book, date(2026, 11, 1))
    assert settled_now(book) > 0
    assert same_with_all(book, date(2026, 8, 1))
    other = ROSTER.model_copy(update={"hemisphere": "south"})
    assert len(needed.needed_records(book, other, date(2026, 11, 1)).records) == len(book.records())


def test_names_and_words_alone_leave_what_is_settled(book, season):
    for note, reading in season:
        take(book, note, reading, note.received[:10])
    assert same_with_all(book, date(2026, 11, 1))
    other = ROSTER.model_copy(update={"outfit": "Another", "words": {"shinies": "amitraz strip"}})
    assert len(needed.needed_records(book, other, date(2026, 11, 1)).records) < len(book.records())


def test_a_day_ahead_settles_nothing(book, season, monkeypatch):
    monkeypatch.setattr(moment, "now", lambda: datetime(2026, 9, 9))
    for note, reading in season:
        take(book, note, reading, note.received[:10])
    items_of(book, ROSTER, date(2026, 9, 10))
    assert settling.mark_of(book) is None
    items_of(book, ROSTER, date(2026, 9, 9))
    assert settling.mark_of(book) is not None


def test_what_is_not_settled_is_found_without_reading_the_rest(book, season):
    for note, reading in season:
        take(book, note, reading, note.received[:10])
    items_of(book, ROSTER, date(2026, 11, 1))
    settled = {rid for (rid,) in book.db.execute("SELECT id FROM current_records WHERE settled = 2")}
    asked = []
    book.db.set_trace_callback(asked.append)
    found = book.records(unsettled=True)
    book.db.set_trace_callback(None)
    assert settled
    assert found == [r for r in book.records() if r.id not in settled]
    (plan, *_) = book.db.execute(f"EXPLAIN QUERY PLAN {asked[0]}").fetchall()
    assert "current_records_needed" in plan[3]


def test_what_is_new_and_what_was_closed_is_found_without_reading_the_rest(book, season):
    for note, reading in season:
        take(book, note, reading, note.received[:10])
    items_of(book, ROSTER, date(2026, 11, 1))
    asked = []
    book.db.set_trace_callback(asked.append)
    settling.new_since(book)
    acts.closed(book)
    book.db.set_trace_callback(None)
    for sql, index in zip(asked, ("current_records_needed", "entries_target"), strict=True):
        plan = " ".join(step[3] for step in book.db.execute(f"EXPLAIN QUERY PLAN {sql}"))
        assert index in plan and "SCAN" not in plan
