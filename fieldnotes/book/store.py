"""The book: notes as they came, what was read from them, what people said about it, and the state today."""

from __future__ import annotations

import json
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fieldnotes.book import ids
from fieldnotes.intake.files import Arrival
from fieldnotes.records import Reading, Record, StoredQuestion, StoredRecord


CURRENT = {"current_records": ("read_records", "kept_records"), "current_questions": ("live_questions",)}
"""Tables that hold the state today, and the views it is made from."""


@dataclass(frozen=True)
class Message:
    """One message of a note: its place in the note's text (`first` to `last`), its time and its sender.

    `told_by` tells it from another with the same words: its minute, or what stands in for it (see `Arrival`).
    """

    first: int
    last: int
    received: str
    sender: str | None
    told_by: str


@dataclass(frozen=True)
class Taken:
    """What became of a note: its id, the batch of entries it went into, and whether the book had it before."""

    note_id: str
    batch: int
    new: bool
    unread: bool


class Book:
    """An open book. Every method that writes is one transaction; `at` is the moment of writing (ISO 8601)."""

    def __init__(self, path: Path, db: sqlite3.Connection) -> None:
        self.path = path
        self.db = db

    def close(self) -> None:
        self.db.close()

    @contextmanager
    def writing(self) -> Iterator[None]:
        """One transaction: all of it, or none."""
        self.db.execute("BEGIN IMMEDIATE")
        try:
            yield
        except BaseException:
            self.db.execute("ROLLBACK")
            raise
        self.db.execute("COMMIT")

    def add_note(self, arrival: Arrival, at: str, who: str | None, batch: int | None = None) -> Taken:
        """Keep a note as it came. One that the book has is not stored again; one that was undone is taken anew."""
        note_id = ids.arrival_id(arrival)
        with self.writing():
            row = (
                note_id, ids.content_hash(arrival.body), arrival.body, arrival.encoding, arrival.received,
                clean(arrival.told_by), clean(arrival.by), clean(arrival.source), clean(arrival.given_id),
            )  # fmt: skip
            self.db.execute("INSERT INTO notes VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING", row)
            entry = self._live_take(note_id)
            if entry is None:
                batch = self._enter(batch, at, who, "take", note_id)
                return Taken(note_id, batch, new=True, unread=True)
            read = self.db.execute("SELECT 1 FROM readings WHERE note_id = ? AND entry = ?", (note_id, entry))
            return Taken(note_id, batch or entry, new=False, unread=read.fetchone() is None)

    def add_reading(self, note_id: str, text: str, reading: Reading, messages: Sequence[Message], reader: str) -> None:
        """Keep what was first read from a note; `text` is the note's. Read by another process meanwhile: left alone."""
        with self.writing():
            entry = self._live_take(note_id)
            done = self.db.execute("SELECT 1 FROM readings WHERE note_id = ? AND entry = ?", (note_id, entry))
            if entry is None or done.fetchone():
                return
            self._write_reading(note_id, entry, text, reading, messages, reader)
            self.refresh([note_id])

    def note(self, note_id: str) -> Arrival:
        """A note as it came."""
        row = self.db.execute(
            "SELECT body, encoding, received, told_by, sender, source, given_id FROM notes WHERE id = ?", (note_id,)
        ).fetchone()
        body, encoding, received, told_by, sender, source, given_id = row
        return Arrival(body, encoding, received, told_by, sender, source, given_id)

    def waiting(self) -> list[str]:
        """Notes that were taken but not read yet (a run was cut short), by id."""
        sql = (
            "SELECT DISTINCT e.note_id FROM live_entries e WHERE e.act = 'take'"
            " AND NOT EXISTS (SELECT 1 FROM readings r WHERE r.note_id = e.note_id AND r.entry >= e.seq) ORDER BY 1"
        )
        return [note_id for (note_id,) in self.db.execute(sql)]

    def records(self) -> list[StoredRecord]:
        """Every record that holds today, by the time it was said; the order of taking plays no part."""
        sql = "SELECT id, note_id, received, sender, kind, slots FROM current_records ORDER BY received, id"
        return [_stored_record(*row) for row in self.db.execute(sql)]

    def open_questions(self) -> list[StoredQuestion]:
        """Every question without an answer, the oldest first; asked by several notes, it is listed once."""
        sql = (
            "SELECT id, note_id, received, record_id, ask, choices, topic, word FROM current_questions"
            " ORDER BY received, id, message_key"
        )
        found: dict[str, StoredQuestion] = {}
        for qid, note_id, received, record, ask, choices, topic, word in self.db.execute(sql):
            found.setdefault(
                qid,
                StoredQuestion(
                    id=qid, note_id=note_id, said=received[:10], record_id=record, ask=ask,
                    choices=json.loads(choices), topic=topic, word=word,
                ),
            )  # fmt: skip
        return list(found.values())

    def refresh(self, note_ids: Iterable[str]) -> None:
        """Make the state today again where these notes, their messages, records and questions touch it."""
        self.db.execute("CREATE TEMP TABLE IF NOT EXISTS touched (key TEXT PRIMARY KEY)")
        for note_id in note_ids:
            self.db.execute("DELETE FROM touched")
            self.db.execute(
                "INSERT OR IGNORE INTO touched SELECT m.key FROM messages m JOIN readings r ON r.id = m.reading"
                " WHERE r.note_id = ?",
                (note_id,),
            )
            self.db.execute("DELETE FROM current_readings WHERE note_id = ?", (note_id,))
            self.db.execute("INSERT INTO current_readings SELECT * FROM live_readings WHERE note_id = ?", (note_id,))
            for table, views in CURRENT.items():
                self.db.execute(f"DELETE FROM {table} WHERE message_key IN (SELECT key FROM touched)")
                for view in views:
                    self.db.execute(
                        f"INSERT INTO {table} SELECT v.* FROM touched t CROSS JOIN {view} v ON v.message_key = t.key"
                    )

    def _enter(self, batch: int | None, at: str, who: str | None, act: str, note_id: str | None) -> int:
        """Write an entry; gives its batch."""
        if batch is None:
            (batch,) = self.db.execute("SELECT coalesce(max(seq), 0) + 1 FROM entries").fetchone()
        self.db.execute(
            "INSERT INTO entries (batch, at, who, act, note_id) VALUES (?, ?, ?, ?, ?)",
            (batch, at, clean(who), act, note_id),
        )
        return batch

    def _live_take(self, note_id: str) -> int | None:
        sql = "SELECT max(seq) FROM live_entries WHERE note_id = ? AND act = 'take'"
        (entry,) = self.db.execute(sql, (note_id,)).fetchone()
        return entry if entry is None else int(entry)

    def _write_reading(
        self, note_id: str, entry: int, text: str, reading: Reading, messages: Sequence[Message], reader: str
    ) -> None:
        leftovers = dump([left.model_dump() for left in reading.leftovers])
        cursor = self.db.execute(
            "INSERT INTO readings (note_id, entry, reader, leftovers) VALUES (?, ?, ?, ?)",
            (note_id, entry, reader, leftovers),
        )
        number = cursor.lastrowid
        keys = message_keys(text, messages)
        self.db.executemany(
            "INSERT INTO messages VALUES (?, ?, ?, ?, ?, ?, ?)",
            [
                (number, n, keys[n], m.first, m.last, m.received, clean(m.sender))
                for n, m in enumerate(messages)
            ],
        )  # fmt: skip
        placed = place_records(reading.records, messages, keys)
        self.db.executemany(
            "INSERT INTO records VALUES (?, ?, ?, ?, ?, ?, ?)",
            [
                (number, n, rid, home, r.kind, dump(r.slots), dump([list(s) for s in r.spans]))
                for n, (r, (home, rid)) in enumerate(zip(reading.records, placed, strict=True))
            ],
        )
        rows = []
        for n, question in enumerate(reading.questions):
            home, rid = placed[question.about] if question.about is not None else (0, None)
            qid = ids.question_id(keys[home], question.topic, question.word, question.ask)
            rows.append(
                (number, n, qid, home, rid, clean(question.ask), dump(question.choices), question.topic,
                 clean(question.word))
            )  # fmt: skip
        self.db.executemany("INSERT INTO questions VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", rows)


def message_keys(text: str, messages: Sequence[Message]) -> list[str]:
    """A key for each message; the second of two that are alike in words, sender and time gets one of its own."""
    seen: Counter[str] = Counter()
    keys = []
    for message in messages:
        key = ids.message_key(text[message.first : message.last], message.sender, message.told_by)
        seen[key] += 1
        keys.append(key if seen[key] == 1 else ids.message_key(key, None, str(seen[key])))
    return keys


def place_records(records: Sequence[Record], messages: Sequence[Message], keys: Sequence[str]) -> list[tuple[int, str]]:
    """For each record the message it belongs to (an index) and its id.

    A record may lean on words of an earlier message (the yard named there), so it belongs to the message of its last
    words, and its id is made from what it uses of that message only.
    """
    seen: Counter[str] = Counter()
    placed = []
    for record in records:
        end = max((last for _, last in record.spans), default=0)
        home = max((n for n, m in enumerate(messages) if m.first < end), default=0)
        start = messages[home].first
        own = [(a - start, b - start) for a, b in record.spans if a >= start]
        alike = ids.record_id(keys[home], record.kind, own, 0)
        placed.append((home, alike if not seen[alike] else ids.record_id(keys[home], record.kind, own, seen[alike])))
        seen[alike] += 1
    return placed


def dump(value: Any) -> str:
    """JSON in one fixed form. ASCII only, because SQLite text cannot hold the lone surrogates that a note can."""
    return json.dumps(value, ensure_ascii=True, separators=(",", ":"))


def clean(words: str | None) -> str | None:
    """Text that SQLite can hold: lone surrogates and NUL become U+FFFD. (The note's body keeps them as they came.)"""
    if words is None:
        return None
    return words.encode("utf-16", "surrogatepass").decode("utf-16", "replace").replace("\0", "\ufffd")


def _stored_record(rid: str, note_id: str, received: str, sender: str | None, kind: str, slots: str) -> StoredRecord:
    held = json.loads(slots)
    said = received[:10]
    if "on" not in held and held.get("state", "done") in ("done", "not_done"):
        held["on"] = said
    row = {"id": rid, "note_id": note_id, "received": received, "said": said, "sender": sender}
    return StoredRecord.model_validate(row | {"kind": kind, "slots": held})
