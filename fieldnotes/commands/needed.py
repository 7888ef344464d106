"""The records that a digest needs. In a book of many seasons most things are over, and not read each morning."""

from __future__ import annotations

import hashlib
import os
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


def needed_records(book: Book, roster: Roster, day: date) -> list[StoredRecord]:
    """The records from which the digest of a day is made: all, or those that are not settled."""
    from fieldnotes.schedule import reaches_back

    if _mark_for(book, roster, day) is None or not _may_write(book):
        return book.records()
    records = book.records(unsettled=True)
    new = settling.new_since(book)
    if not new:
        return records
    back = [r for r in records if r.id in new and reaches_back(r, date.fromisoformat(new[r.id]))]
    stirred = {yard for record in back for yard in _yards(record)}
    settling.looked_at(book, new, stirred)
    return book.records(unsettled=True) if stirred else records


def settle_what_is_over(book: Book, roster: Roster, day: date, records: list[StoredRecord], last_entry: int) -> None:
    """Settle what no later digest needs, when there are twice as many records to read as there were after last time.

    `records` are those that the digest of the day was made from, `last_entry` the book's latest before they were read.
    A day ahead settles nothing: the days until then still need it.
    """
    from fieldnotes.commands import moment
    from fieldnotes.schedule import settled

    if len(records) < FEW or day > moment.now().date() or not _may_write(book):
        return
    mark = _mark_for(book, roster, day)
    if mark is None or len(records) >= 2 * mark.needed:
        new = settling.Mark(day.isoformat(), _rules(roster), 0)
        asked_about = {question.record_id for question in book.open_questions()}
        over = settled(records, roster, day) - asked_about
        settling.settle(book, over, new, mark is None, last_entry)


def _mark_for(book: Book, roster: Roster, day: date) -> settling.Mark | None:
    """The settling, if it holds for this roster and day."""
    mark = settling.mark_of(book)
    return mark if mark and mark.rules == _rules(roster) and mark.day <= day.isoformat() else None


def _yards(record: StoredRecord) -> set[str]:
    return {record.slots.get("yard") or settling.NO_YARD, record.slots.get("to_yard") or record.slots.get("yard") or ""}


def _rules(roster: Roster) -> str:
    """Names what decides whether a record is settled: the roster and this version."""
    return hashlib.sha256(f"{__version__} {roster.model_dump_json()}".encode()).hexdigest()[:16]


def _may_write(book: Book) -> bool:
    return os.access(book.path, os.W_OK) and os.access(book.path.parent, os.W_OK)
