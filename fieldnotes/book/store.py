"""The book: notes as they came, what was read from them, what people said about it, and the state today."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from fieldnotes.book import ids, settling
from fieldnotes.book.forms import clean, cleaned, dump, load
from fieldnotes.book.placing import Message, message_keys, place_records
from fieldnotes.book.search import index_all, index_notes
from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.files import Arrival
from fieldnotes.records import Reading, StoredQuestion, StoredRecord

RECORD_COLUMNS = "id, message_key, note_id, received, sender, kind, slots, fixed_by"
QUESTION_COLUMNS = "id, message_key, note_id, received, record_id, ask, choices, topic, word"
_STORED = "id, note_id, received, sender, kind, slots"
"""The columns that `stored_record` takes."""
CURRENT = {
    "current_records": (RECORD_COLUMNS, ("read_records", "kept_records")),
    "current_questions": (QUESTION_COLUMNS, ("live_questions",)),
}
"""Tables that hold the state today of messages, with the columns and the views that they are made from."""
STATE = {"current_readings": ("note_id, reading", ("live_readings",)), **CURRENT}
"""All tables that hold the state today, in the order in which they lean on each other."""
LATELY = 1000
"""So many notes back a longer form of a note is looked for."""
MINUTE = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d")
"""What tells most notes and messages from others with the same words (see `Arrival.told_by`)."""


@dataclass(frozen=True)
class Taken:
    """What became of a note: its id, the batch of entries it went into, and whether the book had it before."""

    note_id: str
    batch: int
    new: bool
    unread: bool


@dataclass(frozen=True)
class FirstReading:
    """What was first read from a note, with the note's text and the messages it falls into."""

    note_id: str
    text: str
    reading: Reading
    messages: Sequence[Message]


@dataclass(frozen=True)
class Kept:
    """A reading as it was kept: for each record its message (an index) and its id; and which messages were known."""

    placed: list[tuple[int, str]]
    known: frozenset[int]
    """Messages that stand in another note too, as in yesterday's paste: they count once."""
    alike: dict[int, str] = field(default_factory=dict)
    """Messages whose words another note has from the same sender a minute before or after, with that minute.

    Likely one message as two phones show it, but as likely said twice: both count, and people are told.
    """

    @property
    def record_ids(self) -> list[str]:
        return [rid for _, rid in self.placed]


class Book:
    """An open book. Every method that writes is one transaction; `at` is the moment of writing (ISO 8601)."""

    def __init__(self, path: Path, db: sqlite3.Connection) -> None:
        self.path = path
        self.db = db
        self._file = path.stat()
        self._put_in = put_in(db)
        self._durable: bool | None = None

    def close(self) -> None:
        self.db.close()

    @contextmanager
    def writing(self, durable: bool = True) -> Iterator[None]:
        """One transaction: all of it, or none.

        A `durable` one waits until the disk has it, so that it outlives a power cut. One that is not may be lost with
        the power, whole, which is enough for what can be made again.

        Raises:
            FieldnotesError: the file was replaced since it was opened (a restore), or the disk refuses.
        """
        try:
            if durable != self._durable:
                self.db.execute(f"PRAGMA synchronous = {'FULL' if durable else 'NORMAL'}")
                self._durable = durable
            self.db.execute("BEGIN IMMEDIATE")
        except sqlite3.Error as error:
            raise cannot_write(self.path, error) from None
        try:
            self._same_file()
            yield
            self.db.execute("COMMIT")
        except BaseException as error:
            if self.db.in_transaction:
                self.db.execute("ROLLBACK")
            if isinstance(error, sqlite3.OperationalError):
                raise cannot_write(self.path, error) from None
            raise

    def add_note(self, arrival: Arrival, at: str, who: str | None, batch: int | None = None) -> Taken:
        """Keep a note as it came. One that the book has is not stored again; one that was undone is taken anew."""
        return self.add_notes([arrival], at, who, batch)[0]

    def add_notes(self, arrivals: Sequence[Arrival], at: str, who: str | None, batch: int | None = None) -> list[Taken]:
        """Keep several notes, as `add_note` does, each in a transaction of its own.

        The disk is waited for once, at the end: it then has all that was written before, also by other processes.
        """
        taken: list[Taken] = []
        for number, arrival in enumerate(arrivals, 1):
            with self.writing(durable=number == len(arrivals)):
                one = self._add_note(arrival, at, who, batch)
            batch = one.batch if one.new else batch
            taken.append(one)
        if taken and not taken[-1].new:
            self._wait_for_disk()  # the last transaction wrote nothing, and so did not wait
        return taken

    def _wait_for_disk(self) -> None:
        """Returns when the disk has everything that any process committed so far."""
        with self.writing():
            # SQLite waits for its log only after writing to it: here it is the least that can be, and changes nothing.
            self.db.execute(f"PRAGMA user_version = {put_in(self.db)}")

    def _add_note(self, arrival: Arrival, at: str, who: str | None, batch: int | None) -> Taken:
        note_id = self._from_another_phone(arrival) or ids.arrival_id(arrival)
        row = (
            note_id, ids.content_hash(arrival.body), arrival.body, arrival.encoding, arrival.received,
            cleaned(arrival.told_by), clean(arrival.by), cleaned(arrival.source), cleaned(arrival.given_id),
        )  # fmt: skip
        self.db.execute("INSERT INTO notes VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING", row)
        entry = self.live_take(note_id)
        if entry is None:
            _, batch = self.enter(batch, at, who, "take", note_id=note_id)
            return Taken(note_id, batch, new=True, unread=True)
        return Taken(note_id, batch or entry, new=False, unread=not self._has_reading(note_id, entry))

    def _from_another_phone(self, arrival: Arrival) -> str | None:
        """The note that is this one, as another phone has it: its clock showed another minute, by seconds.

        Where the book knows the seconds of both, and they are less than a minute apart, the same words of one sender
        are one note. Within the same minute they are anyway (see `Arrival.told_by`).
        """
        if arrival.told_by != arrival.received[:16] or arrival.received[16:17] != ":":
            return None
        here = datetime.fromisoformat(arrival.received[:19])
        digest = ids.content_hash(arrival.body)
        for told_by in _minutes_beside(arrival.told_by):
            twin = ids.note_id(digest, clean(arrival.by), told_by)
            row = self.db.execute("SELECT received FROM notes WHERE id = ?", (twin,)).fetchone()
            if row and row[0][16:17] == ":" and row[0][19:] == arrival.received[19:]:
                if abs((datetime.fromisoformat(row[0][:19]) - here).total_seconds()) < 60:
                    return twin
        return None

    def add_reading(self, note_id: str, text: str, reading: Reading, messages: Sequence[Message], reader: str) -> Kept:
        """Keep what was first read from a note; `text` is the note's. Read by another process meanwhile: left alone."""
        return self.add_readings([FirstReading(note_id, text, reading, messages)], reader)[0]

    def add_readings(self, read: Sequence[FirstReading], reader: str) -> list[Kept]:
        """Keep what was first read from several notes, as `add_reading` does, in one transaction."""
        kept = []
        with self.writing(durable=False):
            fresh = []
            for one in read:
                keys = message_keys(one.text, one.messages)
                placed = place_records(one.reading.records, one.messages, keys)
                known = [n for n, key in enumerate(keys) if self._stands_elsewhere(key, one.note_id)]
                kept.append(Kept(placed, frozenset(known), self._alike(one, known)))
                entry = self.live_take(one.note_id)
                if entry is not None and not self._has_reading(one.note_id, entry):
                    self._write_reading(one.note_id, entry, one.reading, one.messages, reader, keys, placed)
                    fresh.append(one.note_id)
            self.refresh(fresh)
        return kept

    def make_findable(self, note_id: str) -> None:
        """Have a note found by its words though it cannot be read yet."""
        with self.writing(durable=False):
            index_notes(self, [note_id])

    def _alike(self, one: FirstReading, known: Sequence[int]) -> dict[int, str]:
        """See `Kept.alike`."""
        found = {}
        for number, message in enumerate(one.messages):
            if number not in known and MINUTE.fullmatch(message.told_by):
                words = one.text[message.first : message.last]
                for told_by in _minutes_beside(message.told_by):
                    if self._stands_elsewhere(ids.message_key(words, message.sender, told_by), one.note_id):
                        found[number] = told_by
        return found

    def _stands_elsewhere(self, key: str, note_id: str) -> bool:
        """Whether a message stands in another note that was read."""
        sql = (
            "SELECT 1 FROM messages m JOIN readings r ON r.id = m.reading JOIN live_entries e ON e.seq = r.entry"
            " WHERE m.key = ? AND r.note_id <> ? LIMIT 1"
        )
        return self.db.execute(sql, (key, note_id)).fetchone() is not None

    def begun_as(self, note_id: str) -> list[str]:
        """Notes of the same file, taken lately and not undone, with which this one begins: it is they, longer."""
        sql = (
            "SELECT n.id FROM (SELECT * FROM notes ORDER BY number DESC LIMIT ?) n JOIN notes m ON m.id = ?"
            " WHERE n.source = m.source AND n.id <> m.id AND length(n.body) < length(m.body)"
            " AND substr(m.body, 1, length(n.body)) = n.body"
            " AND EXISTS (SELECT 1 FROM current_readings c WHERE c.note_id = n.id) ORDER BY n.number"
        )
        return [other for (other,) in self.db.execute(sql, (LATELY, note_id))]

    def note(self, note_id: str) -> Arrival:
        """A note as it came.

        Raises:
            sqlite3.DatabaseError: it is not there, or not as it came: the file is damaged.
        """
        sql = "SELECT sha256, body, encoding, received, told_by, sender, source, given_id FROM notes WHERE id = ?"
        row = self.db.execute(sql, (note_id,)).fetchone()
        if row is None or ids.content_hash(row[1]) != row[0]:
            raise sqlite3.DatabaseError(f"note {note_id} is not as it came")
        arrival = Arrival(*row[1:])
        try:
            _ = arrival.text
        except (LookupError, UnicodeError):
            raise sqlite3.DatabaseError(f"note {note_id} is not as it came") from None
        return arrival

    def taken_notes(self) -> list[str]:
        """The ids of all notes that are taken and not undone, by the time they were received."""
        sql = (
            "SELECT n.id FROM notes n WHERE EXISTS"
            " (SELECT 1 FROM live_entries e WHERE e.note_id = n.id AND e.act = 'take') ORDER BY n.received, n.id"
        )
        return [note_id for (note_id,) in self.db.execute(sql)]

    def waiting(self) -> list[str]:
        """Notes that were taken but not read yet (a run was cut short), by id."""
        # A quick look first, since each reading belongs to one entry: mostly nothing waits.
        (readings,) = self.db.execute("SELECT count(*) FROM readings").fetchone()
        (wanted,) = self.db.execute("SELECT count(*) FROM entries WHERE act IN ('take', 'reread')").fetchone()
        if readings >= wanted:
            return []
        sql = (
            "SELECT DISTINCT e.note_id FROM live_entries e WHERE e.act = 'take'"
            " AND NOT EXISTS (SELECT 1 FROM readings r WHERE r.note_id = e.note_id AND r.entry >= e.seq) ORDER BY 1"
        )
        return [note_id for (note_id,) in self.db.execute(sql)]

    def number_of_records(self) -> int:
        """How many records hold today."""
        (number,) = self.db.execute("SELECT count(*) FROM current_records").fetchone()
        return int(number)

    def records(self, unsettled: bool = False) -> list[StoredRecord]:
        """Every record that holds today, by the time it was said; the order of taking plays no part.

        With `unsettled`, only those that a digest still needs (see `settling`).
        """
        # Left to itself, SQLite reads all that was ever said by its time, to be spared sorting the few it is asked for.
        which = "WHERE settled < 2 ORDER BY +received, id" if unsettled else "ORDER BY received, id"
        sql = f"SELECT {_STORED} FROM current_records {which}"
        return [stored_record(*row) for row in self.db.execute(sql)]

    def pieces(self, size: int) -> Iterator[list[StoredRecord]]:
        """Every record that holds today, by the time it was said, so many at a time."""
        # To go through the table and sort is several times faster than to look each record up by its time; where there
        # is no room to sort in, it is done all the same.
        try:
            rows = self.db.execute(f"SELECT {_STORED} FROM current_records ORDER BY +received, id")
            piece = rows.fetchmany(size)
        except sqlite3.OperationalError:
            rows = self.db.execute(f"SELECT {_STORED} FROM current_records ORDER BY received, id")
            piece = rows.fetchmany(size)
        while piece:
            yield [stored_record(*row) for row in piece]
            piece = rows.fetchmany(size)

    def told_later(self) -> list[StoredRecord]:
        """The records that tell of a time before the day on which they were said, and before the day before it."""
        sql = f"SELECT {_STORED} FROM current_records WHERE slots ->> '$.on' < date(substr(received, 1, 10), '-1 day')"
        return [stored_record(*row) for row in self.db.execute(sql)]

    def open_questions(self) -> list[StoredQuestion]:
        """Every question without an answer, the oldest first; asked by several notes, it is listed once.

        Of a record that was rejected nothing is asked.
        """
        sql = (
            "SELECT id, note_id, received, record_id, ask, choices, topic, word FROM current_questions"
            " WHERE record_id IS NULL OR record_id NOT IN (SELECT target FROM live_entries WHERE act = 'reject')"
            " OR record_id IN (SELECT id FROM current_records) ORDER BY received, id, message_key"
        )
        found: dict[str, StoredQuestion] = {}
        for qid, note_id, received, record, ask, choices, topic, word in self.db.execute(sql):
            question = StoredQuestion(
                id=qid, note_id=note_id, said=received[:10], record_id=record, ask=ask,
                choices=load(choices), topic=topic, word=word,
            )  # fmt: skip
            found.setdefault(qid, question)
        return list(found.values())

    def enter(
        self,
        batch: int | None,
        at: str,
        who: str | None,
        act: str,
        *,
        note_id: str | None = None,
        target: str | None = None,
        data: dict[str, Any] | None = None,
        undoes: int | None = None,
    ) -> tuple[int, int]:
        """Write an entry, inside a transaction; gives its seq and its batch (a new one where `batch` is None)."""
        if batch is None:
            (batch,) = self.db.execute("SELECT coalesce(max(seq), 0) + 1 FROM entries").fetchone()
        cursor = self.db.execute(
            "INSERT INTO entries (batch, at, who, act, note_id, target, data, undoes) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (batch, at, clean(who), act, note_id, target, dump(data or {}), undoes),
        )
        assert cursor.lastrowid is not None
        return cursor.lastrowid, batch

    def live_take(self, note_id: str) -> int | None:
        """The entry by which a note is taken, if it is."""
        sql = "SELECT max(seq) FROM live_entries WHERE note_id = ? AND act = 'take'"
        (entry,) = self.db.execute(sql, (note_id,)).fetchone()
        return entry if entry is None else int(entry)

    def write_reading(
        self, note_id: str, entry: int, text: str, reading: Reading, messages: Sequence[Message], reader: str
    ) -> None:
        """Write a reading under its entry, inside a transaction."""
        keys = message_keys(text, messages)
        placed = place_records(reading.records, messages, keys)
        self._write_reading(note_id, entry, reading, messages, reader, keys, placed)

    def _write_reading(
        self,
        note_id: str,
        entry: int,
        reading: Reading,
        messages: Sequence[Message],
        reader: str,
        keys: Sequence[str],
        placed: Sequence[tuple[int, str]],
    ) -> None:
        cursor = self.db.execute(
            "INSERT INTO readings (note_id, entry, reader, leftovers) VALUES (?, ?, ?, ?)",
            (note_id, entry, reader, dump([left.model_dump() for left in reading.leftovers])),
        )
        number = cursor.lastrowid
        self.db.executemany(
            "INSERT INTO messages VALUES (?, ?, ?, ?, ?, ?, ?)",
            [(number, n, keys[n], m.first, m.last, m.received, clean(m.sender)) for n, m in enumerate(messages)],
        )
        self.db.executemany(
            "INSERT INTO records VALUES (?, ?, ?, ?, ?, ?, ?)",
            [
                (number, n, rid, home, r.kind, dump(r.slots), dump([list(s) for s in r.spans]))
                for n, (r, (home, rid)) in enumerate(zip(reading.records, placed, strict=True))
            ],
        )
        questions: dict[tuple[int, str], tuple[Any, ...]] = {}
        for n, q in enumerate(reading.questions):
            home, rid = placed[q.about] if q.about is not None else (0, None)
            qid = ids.question_id(keys[home], q.topic, q.word, q.ask)
            row = (number, n, qid, home, rid, cleaned(q.ask), dump(q.choices), q.topic, cleaned(q.word))
            questions.setdefault((home, qid), row)  # the same thing, asked twice of one message, is asked once
        self.db.executemany("INSERT INTO questions VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", questions.values())

    def refresh(self, note_ids: Sequence[str]) -> None:
        """Make the state today again where these notes touch it, inside a transaction."""
        keys: set[str] = set()
        for note_id in note_ids:
            self.db.execute("DELETE FROM current_readings WHERE note_id = ?", (note_id,))
            self.db.execute("INSERT INTO current_readings SELECT * FROM live_readings WHERE note_id = ?", (note_id,))
            sql = "SELECT DISTINCT m.key FROM messages m JOIN readings r ON r.id = m.reading WHERE r.note_id = ?"
            keys.update(key for (key,) in self.db.execute(sql, (note_id,)))
        self.refresh_messages(keys, note_ids)

    def refresh_messages(self, keys: Iterable[str], notes: Iterable[str] = ()) -> None:
        """Make the state today again for these messages, and the words to find these notes by, inside a transaction."""
        self.db.execute("CREATE TEMP TABLE IF NOT EXISTS touched (key TEXT PRIMARY KEY) WITHOUT ROWID")
        self.db.execute("DELETE FROM touched")
        self.db.executemany("INSERT OR IGNORE INTO touched VALUES (?)", [(key,) for key in keys])
        touched = self._notes_touched().union(notes)
        stirred = settling.yards_of_settled(self)
        for table, (columns, views) in CURRENT.items():
            self.db.execute(f"DELETE FROM {table} WHERE message_key IN (SELECT key FROM touched)")
            for view in views:
                named = ", ".join(f"v.{column}" for column in columns.split(", "))
                self.db.execute(
                    f"INSERT INTO {table} ({columns})"
                    f" SELECT {named} FROM touched t CROSS JOIN {view} v ON v.message_key = t.key"
                )
        settling.unsettle(self, stirred)
        index_notes(self, sorted(touched | self._notes_touched()))

    def _notes_touched(self) -> set[str]:
        sql = "SELECT DISTINCT c.note_id FROM touched t CROSS JOIN current_records c ON c.message_key = t.key"
        return {note_id for (note_id,) in self.db.execute(sql)}

    def rebuild(self) -> None:
        """Make the whole state today again from the history, inside a transaction."""
        self.db.execute("DELETE FROM settling")
        for table, (columns, views) in STATE.items():
            self.db.execute(f"DELETE FROM {table}")
            for view in views:
                self.db.execute(f"INSERT INTO {table} ({columns}) SELECT {columns} FROM {view}")
        index_all(self)

    def _has_reading(self, note_id: str, entry: int) -> bool:
        sql = "SELECT 1 FROM readings WHERE note_id = ? AND entry >= ?"
        return self.db.execute(sql, (note_id, entry)).fetchone() is not None

    def _same_file(self) -> None:
        try:
            now = self.path.stat()
        except OSError:
            now = None
        same = now is not None and (now.st_dev, now.st_ino) == (self._file.st_dev, self._file.st_ino)
        if not same or put_in(self.db) != self._put_in:
            raise FieldnotesError(f"The book {self.path} was replaced while this was running. Do it once more.")


def _minutes_beside(told_by: str) -> Iterator[str]:
    """The minute before, and the minute after."""
    for minutes in (-1, 1):
        with suppress(OverflowError, ValueError):
            yield (datetime.fromisoformat(told_by) + timedelta(minutes=minutes)).isoformat(timespec="minutes")


def put_in(db: sqlite3.Connection) -> int:
    """Changes when another book is put into this file: who opened it before that knows another book.

    SQLite keeps the number in the file's header, and gives it no meaning of its own.
    """
    (number,) = db.execute("PRAGMA user_version").fetchone()
    return int(number)


def is_held(error: sqlite3.Error) -> bool:
    """Whether SQLite gave up waiting for somebody else."""
    return getattr(error, "sqlite_errorcode", 0) & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def held(path: Path) -> FieldnotesError:
    """What to say when another program has the book for itself, for longer than any of ours would."""
    return FieldnotesError(
        f"The book {path} is held by another program, which did not let go of it for a minute. Nothing is wrong with "
        "the book: close that program, and do it once more."
    )


def cannot_write(path: Path, error: sqlite3.Error) -> FieldnotesError:
    """What to say when SQLite will not write."""
    if is_held(error):
        return held(path)
    return FieldnotesError(f"The book {path} cannot be written: {error}. What was acknowledged before is kept.")


def stored_record(rid: str, note_id: str, received: str, sender: str | None, kind: str, slots: str) -> StoredRecord:
    """A row of the state today as a record; what was done without a day named was done the day it was said."""
    held = load(slots)
    said = received[:10]
    if "on" not in held and held.get("state", "done") in ("done", "not_done"):
        held["on"] = said
    row = {
        "id": rid, "note_id": note_id, "received": received, "said": said, "sender": sender,
        "kind": kind, "slots": held,
    }  # fmt: skip
    try:
        return StoredRecord.model_validate(row)
    except ValidationError:
        raise sqlite3.DatabaseError(f"record {rid} is not as it was written") from None
