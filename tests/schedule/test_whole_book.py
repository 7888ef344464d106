"""What must hold for any book, through the book itself: notes are stored, read, settled and asked for day by day."""

import contextlib
import datetime
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_up import BOOK, CLOSERS, START, reach_of_item
from sched_helpers import ROSTER, rec

from fieldnotes.book import Message, create_book
from fieldnotes.commands import moment, needed
from fieldnotes.commands.morning import items_of
from fieldnotes.intake.files import Arrival, minute
from fieldnotes.records import Reading, Record


@pytest.fixture(autouse=True, scope="module")
def every_book_is_a_long_one():
    """What is over is settled in a book of any length, so that it is left out here too."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(needed, "FEW", 0)
        patch.setattr(needed, "PIECE", 4)
        yield


@contextlib.contextmanager
def a_book():
    with tempfile.TemporaryDirectory() as folder:
        book = create_book(Path(folder) / "book.db", "2026-04-01T00:00:00+00:00")
        try:
            yield book
        finally:
            book.close()


def take(book, record, day):
    """A note of one record, taken on a day."""
    text = f"{record.kind} {record.id}"
    received = record.received
    note = Arrival(text.encode(), "utf-8", received, minute(received), record.sender, "-")
    taken = book.add_note(note, f"{day}T20:00:00+00:00", "ann")
    read = Record(kind=record.kind, slots=record.slots, spans=[(0, len(text))])
    messages = [Message(0, len(text), received, record.sender, note.told_by)]
    book.add_reading(taken.note_id, text, Reading(id="", records=[read]), messages, "test")


def morning(book, day):
    """The digest of a day, as it is made on that day."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(moment, "now", lambda: datetime.datetime.combine(day, datetime.time(7)))
        return items_of(book, ROSTER, day)


def after(days):
    return START + datetime.timedelta(days=days)


@settings(max_examples=40, deadline=None)
@given(BOOK, st.integers(151, 400), st.lists(st.integers(0, 400)), st.randoms(use_true_random=False))
def test_the_order_of_taking_notes_and_of_mornings_does_not_matter(records, day, mornings, random):
    """Once note by note as they came; once in any order, with mornings between that settle what is over by then."""
    other = list(records)
    random.shuffle(other)
    between = sorted(n for n in mornings if n <= day)
    with a_book() as one, a_book() as two:
        for record in sorted(records, key=lambda r: r.received):
            take(one, record, record.said)
        for n, record in enumerate(other):
            take(two, record, after(day))
            if n < len(between):
                morning(two, after(between[n]))
        assert morning(two, after(day)) == morning(one, after(day))


@settings(max_examples=40, deadline=None)
@given(BOOK, st.integers(151, 350), st.integers(1, 200))
def test_a_day_later_nothing_is_less_overdue(records, day, more):
    with a_book() as book:
        for record in records:
            take(book, record, record.said)
        earlier = morning(book, after(day))
        later = {i.id: i for i in morning(book, after(day + more))}
    for item in earlier:
        if item.section == "overdue" and item.what not in ("supers_clash", "heat_clash"):  # these end with time
            assert later[item.id].days_over == item.days_over + more
            assert later[item.id].colonies == item.colonies


@settings(max_examples=40, deadline=None)
@given(BOOK, st.integers(151, 400), st.data())
def test_whatever_is_closed_nothing_that_was_due_before_it_comes_up(records, day, data):
    with a_book() as book:
        for record in records:
            take(book, record, record.said)
        before = morning(book, after(day))
        some = [i for i in before if i.what in CLOSERS]
        if not some:
            return
        item = data.draw(st.sampled_from(some))
        kind, slots = CLOSERS[item.what]
        where = {"yard": item.yard} if item.yard else {}
        take(book, rec(kind, after(day).isoformat(), at="21:00", **where, **reach_of_item(item), **slots), after(day))
        later = morning(book, after(day))
        planned = {r.id for r in book.records() if r.slots.get("state") == "planned"}
    known = {(i.what, i.due) for i in before}
    promised = {i.due for i in before if i.what == "promise"}
    joined = {record for i in before for record in i.because.records} & planned
    without_promise = {(i.what, frozenset(i.because.records) - planned) for i in before}
    for other in later:
        listed = (other.what, other.due) in known or other.due in promised or joined & set(other.because.records)
        listed = listed or (other.what, frozenset(other.because.records)) in without_promise
        assert listed or other.due >= item.due, (item.says, other.says)
