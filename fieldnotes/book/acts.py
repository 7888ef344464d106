"""What people say about the book: a record mended or rejected, a question answered, an act undone. Each is an entry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from fieldnotes.book.forms import dump, load
from fieldnotes.book.store import Book
from fieldnotes.errors import FieldnotesError

SHORTEST = 4
"""Fewest characters of an id that a person may type."""


@dataclass(frozen=True)
class Held:
    """A record as the book holds it today; `kept` where only a person's word keeps it alive.

    One that was `rejected` is as it was read; mended, it is in the book again.
    """

    id: str
    note_id: str
    message_key: str
    received: str
    sender: str | None
    kind: str
    slots: dict[str, Any]
    kept: bool
    rejected: bool = False


@dataclass(frozen=True)
class Entry:
    """One act in the book's history."""

    seq: int
    batch: int
    at: str
    who: str | None
    act: str
    note_id: str | None
    target: str | None
    data: dict[str, Any]


def find_record(book: Book, start: str) -> Held:
    """The record of today whose id begins with `start`.

    Raises:
        FieldnotesError: none, or several.
    """
    rid = full_id(book, start, "SELECT DISTINCT id FROM current_records WHERE id >= ? AND id < ? || 'g'", "record")
    row = book.db.execute(
        "SELECT c.note_id, c.message_key, c.received, c.sender, c.kind, c.slots,"
        " NOT EXISTS (SELECT 1 FROM read_records r WHERE r.message_key = c.message_key AND r.id = c.id)"
        " FROM current_records c WHERE c.id = ?",
        (rid,),
    ).fetchone()
    note_id, key, received, sender, kind, slots, kept = row
    return Held(rid, note_id, key, received, sender, kind, load(slots), bool(kept))


def find_rejected(book: Book, start: str) -> Held | None:
    """The record whose id begins with `start`, if there is one that was rejected and is still read so."""
    sql = (
        "SELECT r.id, m.note_id, m.key, m.received, m.sender, r.kind, r.slots FROM live_verdicts v"
        " JOIN records r ON r.id = v.record_id JOIN live_messages m ON m.reading = r.reading AND m.ordinal = r.message"
        " WHERE v.act = 'reject' AND v.record_id >= ?1 AND v.record_id < ?1 || 'g'"
    )
    rows = book.db.execute(sql, (start.strip().lower(),)).fetchall()
    if len(rows) != 1 or len(start.strip()) < SHORTEST:
        return None
    rid, note_id, key, received, sender, kind, slots = rows[0]
    return Held(rid, note_id, key, received, sender, kind, load(slots), kept=False, rejected=True)


def full_id(book: Book, start: str, sql: str, thing: str) -> str:
    """The one id that begins with `start`, out of those that `sql` gives for (start, start).

    Raises:
        FieldnotesError: none, several, or too short a start.
    """
    start = start.strip().lower()
    if len(start) < SHORTEST or not start.isalnum():
        raise FieldnotesError(f'"{start}" does not name a {thing}: give at least {SHORTEST} characters of its id.')
    found = [rid for (rid,) in book.db.execute(sql, (start, start))]
    if not found:
        raise FieldnotesError(f"There is no {thing} {start} in the book.")
    if len(found) > 1:
        raise FieldnotesError(f"{len(found)} {thing}s begin with {start}: give more of the id.")
    return str(found[0])


def fix(
    book: Book, held: Held, kind: str, slots: dict[str, Any], at: str, who: str | None, batch: int | None = None
) -> None:
    """Put a mended record in the place of this one."""
    _verdict(book, held, "keep" if held.kept else "fix", {"kind": kind, "slots": slots}, at, who, batch)


def reject(book: Book, held: Held, at: str, who: str | None) -> None:
    """Take this record out of the state today."""
    _verdict(book, held, "reject", {}, at, who, None)


def answer(
    book: Book, question_id: str, data: dict[str, Any], at: str, who: str | None, batch: int | None = None
) -> int:
    """Settle a question; gives the batch."""
    with book.writing():
        _, batch = book.enter(batch, at, who, "answer", target=question_id, data=data)
        book.refresh_messages(_messages_of_question(book, question_id))
    return batch


def close(book: Book, item_id: str, says: str, at: str, who: str | None) -> None:
    """Close a thing that is due, by hand; `says` is its sentence."""
    with book.writing():
        book.enter(None, at, who, "close", target=item_id, data={"says": says})


def closed(book: Book) -> set[str]:
    """The ids of the things due that were closed by hand."""
    # All of them have a target, and few other entries do: so SQLite need not look through every note ever taken.
    sql = "SELECT target FROM live_entries WHERE act = 'close' AND target IS NOT NULL"
    return {item for (item,) in book.db.execute(sql)}


def last_batch(book: Book) -> list[Entry]:
    """The entries of the last command that are not undone, the latest first."""
    sql = "SELECT * FROM live_entries WHERE batch = (SELECT max(batch) FROM live_entries) ORDER BY seq DESC"
    return [entry_of(row) for row in book.db.execute(sql)]


def undo(book: Book, entries: list[Entry], at: str, who: str | None) -> None:
    """Undo these entries, all or none.

    Raises:
        FieldnotesError: one was undone meanwhile.
    """
    with book.writing():
        batch = None
        for entry in entries:
            if book.db.execute("SELECT 1 FROM entries WHERE undoes = ?", (entry.seq,)).fetchone():
                raise FieldnotesError("That was undone already, by another run.")
            _, batch = book.enter(batch, at, who, "undo", note_id=entry.note_id, target=entry.target, undoes=entry.seq)
        for entry in entries:
            refresh_after(book, entry)


def take_back(book: Book, note_id: str, at: str, who: str | None) -> bool:
    """Undo the taking of a note, if it is taken; whether it was."""
    entry = book.live_take(note_id)
    if entry is None:
        return False
    undo(book, [entry_of(book.db.execute("SELECT * FROM entries WHERE seq = ?", (entry,)).fetchone())], at, who)
    return True


def refresh_after(book: Book, entry: Entry) -> None:
    """Make the state today again where an entry bears on it, inside a transaction."""
    if entry.act in ("take", "reread") and entry.note_id:
        book.refresh([entry.note_id])
    elif entry.act == "answer" and entry.target:
        book.refresh_messages(_messages_of_question(book, entry.target))
    elif entry.act != "close" and entry.target:
        book.refresh_messages(_messages_of_record(book, entry.target))


def entry_of(row: tuple[Any, ...]) -> Entry:
    """An `Entry` from a row of `entries`."""
    seq, batch, at, who, act, note_id, target, data = row[:8]
    return Entry(seq, batch, at, who, act, note_id, target, load(data))


def _verdict(
    book: Book, held: Held, act: str, data: dict[str, Any], at: str, who: str | None, batch: int | None
) -> None:
    if act == "keep":
        data = data | {"message": held.message_key}
    with book.writing():
        now = book.db.execute("SELECT slots FROM current_records WHERE id = ?", (held.id,)).fetchone()
        if (now is None) != held.rejected or (now is not None and now[0] != dump(held.slots)):
            raise FieldnotesError(f"Record {held.id} was changed by another run meanwhile; look at it again.")
        book.enter(batch, at, who, act, note_id=held.note_id, target=held.id, data=data)
        book.refresh_messages([held.message_key])


def _messages_of_question(book: Book, question_id: str) -> list[str]:
    sql = (
        "SELECT DISTINCT m.key FROM questions q JOIN messages m ON m.reading = q.reading AND m.ordinal = q.message"
        " WHERE q.id = ?"
    )
    return [key for (key,) in book.db.execute(sql, (question_id,))]


def _messages_of_record(book: Book, record_id: str) -> list[str]:
    sql = (
        "SELECT m.key FROM records r JOIN messages m ON m.reading = r.reading AND m.ordinal = r.message WHERE r.id = ?"
        " UNION SELECT message_key FROM current_records WHERE id = ?"
    )
    return [key for (key,) in book.db.execute(sql, (record_id, record_id))]
