"""The records that a digest needs. In a book of many seasons most things are over, and not read each morning."""

from __future__ import annotations

import gc
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from fieldnotes import __version__
from fieldnotes.book import settling

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.records import StoredRecord
    from fieldnotes.roster import Roster

FEW = 5_000
"""So many records are read faster than it takes to think about which of them are needed."""
PIECE = 10_000
"""So many records are held at once when a book is looked through for the first time."""
MANY_OBJECTS = 200_000
"""So many new objects come between two looks for garbage then; a piece of the book makes about as many."""


@dataclass
class Needed:
    """The records from which the digest of a day is made, and the ids of those found to be over on the way."""

    records: list[StoredRecord]
    over: list[str] = field(default_factory=list)


def needed_records(book: Book, roster: Roster, day: date) -> Needed:
    """The records from which the digest of a day is made: all, or those that are not over."""
    from fieldnotes.schedule import reaches_back
    from fieldnotes.schedule.needed import yards_of

    if _mark_for(book, roster, day) is None or not _may_write(book):
        return _out_of_all(book, roster, day)
    records = book.records(unsettled=True)
    new = settling.new_since(book)
    if not new:
        return Needed(records)
    back = [r for r in records if r.id in new and reaches_back(r, date.fromisoformat(new[r.id]))]
    stirred = yards_of(back)
    settling.looked_at(book, new, stirred)
    return Needed(book.records(unsettled=True) if stirred else records)


def settle_what_is_over(book: Book, roster: Roster, day: date, found: Needed, last_entry: int) -> None:
    """Settle what no later digest needs, when there are twice as many records to read as there were after last time.

    `found` is what the digest of the day was made from, `last_entry` the book's latest before it was read. A day ahead
    settles nothing: the days until then still need it.
    """
    from fieldnotes.commands import moment
    from fieldnotes.schedule import settled

    if len(found.records) + len(found.over) < FEW or day > moment.now().date() or not _may_write(book):
        return
    last = settling.mark_of(book)
    if last and last.rules == _rules(roster) and last.day > day.isoformat():
        return  # an earlier day, asked for once, is no reason to give up what is settled for today
    mark = _mark_for(book, roster, day)
    if mark is not None and len(found.records) < 2 * mark.needed:
        return
    kept = {r.id for r in found.records}
    if not found.over:
        kept -= settled(found.records, roster, day) - _asked_about(book)
    new = settling.Mark(day.isoformat(), _rules(roster), 0)
    anew = mark is None and not (last is None and _is_whole(book, found))
    settling.settle(book, kept, new, anew, last_entry)


def _is_whole(book: Book, found: Needed) -> bool:
    """Whether no record of the book was left out, as those are that were said after the day asked for."""
    return book.number_of_records() == len(found.records) + len(found.over)


def _out_of_all(book: Book, roster: Roster, day: date) -> Needed:
    """The needed records out of the whole book: all of a short one; a long one is looked through piece by piece."""
    from fieldnotes.schedule import needed_of_run, reaches_back

    if book.number_of_records() <= PIECE:
        return Needed(book.records())
    late = [r for r in book.told_later() if reaches_back(r, date.fromisoformat(r.said))]
    with _collecting_rarely():
        return Needed(*needed_of_run(book.pieces(PIECE), late, roster, day, _asked_about(book)))


@contextmanager
def _collecting_rarely() -> Iterator[None]:
    """Look for garbage less often: going over all records again and again takes a third of the time."""
    before = gc.get_threshold()
    gc.set_threshold(MANY_OBJECTS, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)


def _asked_about(book: Book) -> set[str]:
    """Ids of records that an open question is about: the question names their yard and colonies."""
    return {question.record_id for question in book.open_questions() if question.record_id}


def _mark_for(book: Book, roster: Roster, day: date) -> settling.Mark | None:
    """The settling, if it holds for this roster and day."""
    mark = settling.mark_of(book)
    return mark if mark and mark.rules == _rules(roster) and mark.day <= day.isoformat() else None


def _rules(roster: Roster) -> str:
    """Names what decides whether a record is settled: this version, and what of the roster the schedule goes by.

    Names of people and the outfit's words matter to the reader alone; a change of them lets what is settled rest.
    """
    parts = roster.model_dump_json(include={"units", "hemisphere", "label", "practice", "yard"})
    return hashlib.sha256(f"{__version__} {parts}".encode()).hexdigest()[:16]


def _may_write(book: Book) -> bool:
    return os.access(book.path, os.W_OK) and os.access(book.path.parent, os.W_OK)
