"""Is the book sound? Everything that can be checked about it without reading a note again."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import datetime
from typing import Any

from pydantic import ValidationError

from fieldnotes.book import ids
from fieldnotes.book.forms import cleaned, load
from fieldnotes.book.opening import VERSION, statements
from fieldnotes.book.plain_words import describe
from fieldnotes.book.store import MINUTE, STATE, Book
from fieldnotes.records import SLOTS, Leftover


def faults(book: Book) -> Iterator[str]:
    """A sentence for each thing that is wrong: none for a sound book.

    Looked at: the file's pages and indexes, its tables, views and guards, foreign keys, that each note's bytes still
    have their hash and its id, that what was read and mended can be told in words, that ids named in entries and
    questions exist, and that the state today and the index of words are what the history makes of them.
    """
    try:
        yield from (
            f"The file is damaged: {row}." for (row,) in book.db.execute("PRAGMA integrity_check") if row != "ok"
        )
        yield from _lacking(book)
        for table, row, parent, _ in book.db.execute("PRAGMA foreign_key_check"):
            yield f"A row of {table} ({row}) names a row of {parent} that is not there."
        yield from _changed_notes(book)
        yield from _strange_rows(book)
        yield from _orphans(book)
        yield from _stale_state(book)
        yield from _stale_words(book)
    except sqlite3.DatabaseError as error:
        yield f"The file is damaged: {error}."


def _lacking(book: Book) -> Iterator[str]:
    """Tables, indexes, views and guards of ours that somebody took away, or that are not as they were made."""
    sql = "SELECT type, name, CASE WHEN type IN ('trigger', 'view') THEN sql END FROM sqlite_master"
    with closing(sqlite3.connect(":memory:")) as new:
        for version in range(1, VERSION + 1):
            for statement in statements(version):
                new.execute(statement)
        wanted = new.execute(f"{sql} ORDER BY name").fetchall()
    there = {(kind, name): words for kind, name, words in book.db.execute(sql)}
    for kind, name, words in wanted:
        if (kind, name) not in there:
            yield f"The book lacks its {kind} {name}."
        elif there[kind, name] != words:
            yield f"The {kind} {name} is not as it was made."


def _changed_notes(book: Book) -> Iterator[str]:
    sql = "SELECT id, sha256, body, sender, told_by, received FROM notes ORDER BY number"
    for note_id, digest, body, sender, told_by, received in book.db.execute(sql):
        if ids.content_hash(body) != digest:
            yield f"Note {note_id} is not as it came: its bytes have another hash."
        elif ids.note_id(digest, sender, told_by) != note_id:
            yield f"Note {note_id} does not belong to its id: its sender or time was changed."
        elif not _is_time(received) or (MINUTE.fullmatch(told_by) and told_by != received[:16]):
            yield f"Note {note_id} is not as it came: the time it was received was changed."


def _is_time(words: str) -> bool:
    try:
        return bool(datetime.fromisoformat(words))
    except ValueError:
        return False


def _strange_rows(book: Book) -> Iterator[str]:
    """Values that are JSON, but not what is ever written there."""
    sql = (
        "SELECT 'read', kind, slots, min(id), count(*) FROM records GROUP BY kind, slots"
        " UNION ALL SELECT 'mended', data ->> '$.kind', data -> '$.slots', min(target), count(*) FROM entries"
        " WHERE act IN ('fix', 'keep') GROUP BY 2, 3"
    )
    for how, kind, slots, record, count in book.db.execute(sql):
        if not _can_be_told(kind, slots):
            more = f" and {count - 1} more like it" if count > 1 else ""
            yield f"Record {record}{more} was never {how} so: it cannot be told in words."
    for table, column, is_right in (
        ("records", "spans", _are_spans),
        ("readings", "leftovers", _are_leftovers),
        ("questions", "choices", _are_words),
    ):
        values = book.db.execute(f"SELECT DISTINCT {column} FROM {table}")
        wrong = sum(not is_right(load(value)) for (value,) in values)
        if wrong:
            yield f"{table} holds {column} that were never written so ({wrong})."


def _can_be_told(kind: str | None, slots: str | None) -> bool:
    if kind not in SLOTS or slots is None:
        return False
    try:
        held = load(slots)
        return isinstance(held, dict) and bool(describe(kind, held))
    except (ValueError, TypeError, LookupError, ArithmeticError, AttributeError):
        return False


def _are_spans(value: Any) -> bool:
    return isinstance(value, list) and all(
        isinstance(one, list) and len(one) == 2 and all(isinstance(place, int) for place in one) for one in value
    )


def _are_leftovers(value: Any) -> bool:
    try:
        return isinstance(value, list) and all(Leftover.model_validate(one) for one in value)
    except ValidationError:
        return False


def _are_words(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(one, str) for one in value)


def _orphans(book: Book) -> Iterator[str]:
    sql = (
        "SELECT e.seq, e.act, e.target FROM entries e WHERE (e.act IN ('fix', 'reject', 'keep')"
        " AND NOT EXISTS (SELECT 1 FROM records r WHERE r.id = e.target))"
        " OR (e.act = 'answer' AND NOT EXISTS (SELECT 1 FROM questions q WHERE q.id = e.target))"
    )
    for seq, act, target in book.db.execute(sql):
        yield f"Entry {seq} ({act}) is about {target}, which is not in the book."
    sql = (
        "SELECT id, record_id FROM questions q WHERE record_id IS NOT NULL"
        " AND NOT EXISTS (SELECT 1 FROM records r WHERE r.reading = q.reading AND r.id = q.record_id)"
    )
    for question, record in book.db.execute(sql):
        yield f"Question {question} is about record {record}, which is not in the book."
    for (note_id,) in book.db.execute(
        "SELECT id FROM notes n WHERE NOT EXISTS (SELECT 1 FROM entries WHERE note_id = n.id)"
    ):
        yield f"Note {note_id} stands in the book, but nobody took it."


def _stale_state(book: Book) -> Iterator[str]:
    for table, (columns, views) in STATE.items():
        held = f"SELECT {columns} FROM {table}"
        made = " UNION ALL ".join(f"SELECT {columns} FROM {view}" for view in views)
        for some, others, words in ((held, made, "has rows too many"), (made, held, "lacks rows")):
            sql = f"SELECT count(*) FROM (SELECT * FROM ({some}) EXCEPT SELECT * FROM ({others}))"
            (count,) = book.db.execute(sql).fetchone()
            if count:
                yield f"The state today is not what the history makes of it: {table} {words} ({count})."


def _stale_words(book: Book) -> Iterator[str]:
    missing = stale = 0
    numbers = book.db.execute(
        "SELECT n.id, n.number FROM notes n JOIN current_readings c ON c.note_id = n.id ORDER BY n.number"
    )
    for note_id, number in numbers:
        held = book.db.execute("SELECT words FROM note_words WHERE rowid = ?", (number,)).fetchone()
        missing += held is None
        stale += held is not None and held[0] != cleaned(book.note(note_id).text)
    if missing:
        yield f"{missing} notes cannot be found by their words."
    if stale:
        yield f"{stale} notes are found by words that are not theirs."
    try:
        book.db.execute("INSERT INTO note_words (note_words) VALUES ('integrity-check')")
    except sqlite3.DatabaseError as error:
        if getattr(error, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_READONLY:
            return  # this question takes the right to write, though it writes nothing
        yield f"The index of words is damaged: {error}."
