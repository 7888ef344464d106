"""Reading a note again: what would change, and the new revision. What people mended by hand survives it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from fieldnotes.book.forms import dump, load
from fieldnotes.book.placing import Message, message_keys, place_records
from fieldnotes.book.plain_words import describe
from fieldnotes.book.store import Book
from fieldnotes.records import Reading

Spans = list[tuple[int, int]]


@dataclass
class Change:
    """What a new reading of a note would take away and bring, a line each; both empty where only places moved."""

    note_id: str
    gone: list[str] = field(default_factory=list)
    come: list[str] = field(default_factory=list)


def what_changes(book: Book, note_id: str, reading: Reading, keys: Sequence[str]) -> Change | None:
    """What differs between the reading that counts and a new one; None where nothing does.

    `keys` are those of the messages that the note falls into now.
    """
    row = book.db.execute(
        "SELECT r.id, r.leftovers FROM current_readings c JOIN readings r ON r.id = c.reading WHERE c.note_id = ?",
        (note_id,),
    ).fetchone()
    if row is None:
        return None
    number, leftovers = row
    old = Counter(
        (kind, slots, spans)
        for kind, slots, spans in book.db.execute("SELECT kind, slots, spans FROM records WHERE reading = ?", (number,))
    )
    new: Counter[tuple[str, str, str]] = Counter(
        (r.kind, dump(r.slots), dump([list(s) for s in r.spans])) for r in reading.records
    )
    asked = Counter(ask for (ask,) in book.db.execute("SELECT ask FROM questions WHERE reading = ?", (number,)))
    asks = Counter(q.ask for q in reading.questions)
    left = dump([part.model_dump() for part in reading.leftovers])
    sql = "SELECT key FROM messages WHERE reading = ? ORDER BY ordinal"
    held = [key for (key,) in book.db.execute(sql, (number,))]
    if (old, asked, leftovers, held) == (new, asks, left, list(keys)):
        return None
    return Change(
        note_id,
        gone=[*_lines(old - new), *(f"? {ask}" for ask in (asked - asks).elements()), *_left(leftovers, left)],
        come=[*_lines(new - old), *(f"? {ask}" for ask in (asks - asked).elements()), *_left(left, leftovers)],
    )


def add_revision(
    book: Book,
    note_id: str,
    text: str,
    reading: Reading,
    messages: Sequence[Message],
    reader: str,
    at: str,
    who: str | None,
    batch: int | None,
) -> int | None:
    """Make a new reading the one that counts, and carry what was mended by hand over to it; gives the batch.

    A mended or rejected record that the new reading finds under another id passes its verdict to the one of the same
    message and kind that stands on most of the same words. A mended record that is found no more is kept as it is.
    Where the roster gives the message another day or sender, and so another name, it is known by its place in the note.
    """
    with book.writing():
        if book.live_take(note_id) is None:
            return batch
        verdicts = _verdicts(book, note_id)
        entry, batch = book.enter(batch, at, who, "reread", note_id=note_id)
        book.write_reading(note_id, entry, text, reading, messages, reader)
        keys = message_keys(text, messages)
        placed = place_records(reading.records, messages, keys)
        found = {rid for _, rid in placed}
        taken = {rid for rid, *_ in verdicts if rid in found}
        for rid, act, data, key, kind, spans, was in verdicts:
            if rid in found:
                continue
            here, start = _place_of(key, was, spans, messages, keys)
            heirs = [
                (_shared(spans, [(a - start, b - start) for a, b in r.spans]), other)
                for r, (home, other) in zip(reading.records, placed, strict=True)
                if home == here and r.kind == kind and other not in taken
            ]
            most, heir = max(heirs, default=(0, ""))
            if most:
                taken.add(heir)
                passed = "reject" if act == "reject" else "fix"
                book.enter(batch, at, who, passed, note_id=note_id, target=heir, data=data)
            if act != "reject":
                # Kept nowhere, where it has an heir: but should its own words be found again, the mending holds.
                kept = data | {"message": "" if most else keys[here]}
                book.enter(batch, at, who, "keep", note_id=note_id, target=rid, data=kept)
        book.refresh([note_id])
    return batch


def _place_of(key: str, was: int, spans: Spans, messages: Sequence[Message], keys: Sequence[str]) -> tuple[int, int]:
    """Which message a record belongs to that was read from one of that key at place `was`; and where that begins."""
    if key in keys:
        here = keys.index(key)
        return here, messages[here].first
    end = was + max((last for _, last in spans), default=1)
    return max((n for n, m in enumerate(messages) if m.first < end), default=0), was


def _verdicts(book: Book, note_id: str) -> list[tuple[str, str, dict[str, Any], str, str, Spans, int]]:
    """Records ever read from the note on which there is a verdict.

    Of each its id, the act, its data, message, kind as read, own spans, and where its message began.
    """
    sql = (
        "SELECT r.id, v.act, e.data, m.key, r.kind, r.spans, m.first, max(d.id) FROM readings d"
        " JOIN records r ON r.reading = d.id JOIN messages m ON m.reading = r.reading AND m.ordinal = r.message"
        " JOIN live_verdicts v ON v.record_id = r.id JOIN entries e ON e.seq = v.seq"
        " WHERE d.note_id = ? AND e.data ->> '$.message' IS NOT '' GROUP BY r.id ORDER BY v.seq"
    )
    return [
        (rid, act, load(data), key, kind, [(a - first, b - first) for a, b in load(spans)], first)
        for rid, act, data, key, kind, spans, first, _ in book.db.execute(sql, (note_id,))
    ]


def _shared(one: Spans, other: Spans) -> int:
    """How many characters two records share."""
    return len({n for a, b in one for n in range(a, b)} & {n for a, b in other for n in range(a, b)})


def _lines(records: Counter[tuple[str, str, str]]) -> list[str]:
    return [describe(kind, load(slots)) for kind, slots, _ in records.elements()]


def _left(some: str, others: str) -> list[str]:
    return [f"not read: {part['text']}" for part in load(some) if part not in load(others)]
