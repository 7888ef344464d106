"""The book's rows out and in again: the whole history, from which the state today is made anew.

A row is a flat mapping of column to value. `rows_of` gives the same rows, in the same order, for the same history, so
that what was exported, imported into an empty book and exported again is the same to the byte.
"""

from __future__ import annotations

import base64
import sqlite3
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from typing import Any

from fieldnotes.book import ids
from fieldnotes.book.soundness import faults
from fieldnotes.book.store import Book
from fieldnotes.errors import FieldnotesError

Row = dict[str, Any]

TABLES: dict[str, dict[str, type]] = {
    "notes": {
        "id": str, "sha256": str, "body": str, "encoding": str, "received": str, "told_by": str, "sender": str,
        "source": str, "given_id": str,
    },
    "entries": {
        "seq": int, "batch": int, "at": str, "who": str, "act": str, "note_id": str, "target": str, "data": str,
        "undoes": int,
    },
    "readings": {"id": int, "note_id": str, "entry": int, "reader": str, "leftovers": str},
    "messages": {
        "reading": int, "ordinal": int, "key": str, "first": int, "last": int, "received": str, "sender": str,
    },
    "records": {
        "reading": int, "ordinal": int, "id": str, "message": int, "kind": str, "slots": str, "spans": str,
    },
    "questions": {
        "reading": int, "ordinal": int, "id": str, "message": int, "record_id": str, "ask": str, "choices": str,
        "topic": str, "word": str,
    },
}  # fmt: skip
"""Tables of the history, in the order in which they lean on each other, with their columns. `body` is in base64."""
MAY_LACK = {"sender", "who", "note_id", "target", "undoes", "record_id"}
"""Columns that may hold nothing; none of them ever holds an empty text."""
MOST = 2**53
"""No number of ours gets near it; with a larger one there would be no next one."""
_ORDER = {"notes": "id", "entries": "seq", "readings": "id"}


def rows_of(book: Book, table: str) -> Iterator[Row]:
    """The rows of a table of the history."""
    columns = TABLES[table]
    order = _ORDER.get(table, "reading, ordinal")
    for values in book.db.execute(f"SELECT {', '.join(columns)} FROM {table} ORDER BY {order}"):
        row = dict(zip(columns, values, strict=True))
        if table == "notes":
            row["body"] = base64.b64encode(row["body"]).decode("ascii")
        yield row


def take_rows(book: Book, rows: Iterable[tuple[str, Row]]) -> Counter[str]:
    """Take a history in: all of it, or none. What the book has already is passed over; gives what was new, by table.

    `rows` are (table, row) in the order of `TABLES`.

    Raises:
        FieldnotesError: a row that is none of ours, or whose note is not as it came; or the book would not be sound.
    """
    with book.writing():
        history = _History(book)
        for number, (table, row) in enumerate(rows, 1):
            try:
                history.take(table, _checked(table, row))
            except (sqlite3.IntegrityError, KeyError, ValueError) as error:
                raise FieldnotesError(f"Row {number} ({table}) does not fit a book: {error}.") from None
        try:
            book.rebuild()
            wrong = next(faults(book), None)
        except sqlite3.OperationalError:
            raise  # the disk refuses
        except sqlite3.DatabaseError as error:
            wrong = f"{error}."
        if wrong:
            raise FieldnotesError(f"With this the book would not be sound: {wrong} Nothing was imported.")
    return history.new


class _History:
    """Takes rows in, giving entries and readings new numbers where the book has others under theirs."""

    def __init__(self, book: Book) -> None:
        self.db = book.db
        self.new: Counter[str] = Counter()
        self.entries: dict[int, int] = {}
        self.batches: dict[int, int] = {}
        self.readings: dict[int, int | None] = {}
        self.held: defaultdict[tuple[Any, ...], list[tuple[int, int]]] = defaultdict(list)
        for row in self.db.execute("SELECT seq, batch, at, who, act, note_id, target, data, undoes FROM entries"):
            self.held[row[2:]].append(row[:2])

    def take(self, table: str, row: Row) -> None:
        if table == "notes":
            self._note(row)
        elif table == "entries":
            self._entry(row)
        elif table == "readings":
            self._reading(row)
        else:
            number = self.readings[row["reading"]]
            if number is not None:
                self._add(table, row | {"reading": number})

    def _note(self, row: Row) -> None:
        body = base64.b64decode(row["body"], validate=True)
        name = ids.note_id(ids.content_hash(body), row["sender"], row["told_by"])
        if name != row["id"] or ids.content_hash(body) != row["sha256"]:
            raise ValueError(f"note {row['id']} is not as it came")
        if not self.db.execute("SELECT 1 FROM notes WHERE id = ?", (name,)).fetchone():
            self._add("notes", row | {"body": body})

    def _entry(self, row: Row) -> None:
        seq, batch = row["seq"], row["batch"]
        undoes = None if row["undoes"] is None else self.entries[row["undoes"]]
        same = self.held[(row["at"], row["who"], row["act"], row["note_id"], row["target"], row["data"], undoes)]
        if same:
            self.entries[seq], self.batches[batch] = same.pop(0)
            return
        new = self.entries[seq] = max(self._free("entries", "seq"), seq)
        self._add("entries", row | {"seq": new, "batch": self.batches.setdefault(batch, new), "undoes": undoes})

    def _reading(self, row: Row) -> None:
        entry = self.entries[row["entry"]]
        sql = "SELECT 1 FROM readings WHERE note_id = ? AND entry = ?"
        if self.db.execute(sql, (row["note_id"], entry)).fetchone():
            self.readings[row["id"]] = None
        else:
            new = self.readings[row["id"]] = max(self._free("readings", "id"), row["id"])
            self._add("readings", row | {"id": new, "entry": entry})

    def _free(self, table: str, column: str) -> int:
        (free,) = self.db.execute(f"SELECT coalesce(max({column}), 0) + 1 FROM {table}").fetchone()
        return int(free)

    def _add(self, table: str, row: Row) -> None:
        columns = TABLES[table]
        marks = ", ".join("?" * len(columns))
        sql = f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({marks})"
        self.db.execute(sql, [row[column] for column in columns])
        self.new[table] += 1


def _checked(table: str, row: Row) -> Row:
    columns = TABLES.get(table, {})
    if set(row) != set(columns):
        raise ValueError(f"its columns are not those of {table}")
    for column, value in row.items():
        empty_ok = column in MAY_LACK and not (table == "readings" and column == "note_id")
        if not (type(value) is columns[column] or (value is None and empty_ok)):
            raise ValueError(f"{column} is {value!r:.40}")
        if isinstance(value, int) and not 0 <= value < MOST:
            raise ValueError(f"{column} is {value}, which is no number of ours")
    return row
