"""The trail of things: every act that bears on a note, a record or a colony, in order, a line each."""

from __future__ import annotations

from collections.abc import Iterable

from fieldnotes.book.acts import Entry, entry_of
from fieldnotes.book.forms import load
from fieldnotes.book.plain_words import describe, say_day
from fieldnotes.book.store import Book, stored_record
from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster

FIRST_WORDS = 60
"""About how many characters of a note tell people which it is."""


def last_acts(book: Book, limit: int) -> list[str]:
    """The last acts, the latest last."""
    rows = book.db.execute("SELECT * FROM entries ORDER BY seq DESC LIMIT ?", (limit,)).fetchall()
    return [line for row in reversed(rows) for line in _entry_lines(book, row)]


def of_id(book: Book, start: str) -> list[str]:
    """The trail of the notes and records whose id begins with `start`; empty where there are none."""
    lines = []
    for table, tell in (("notes", _of_note), ("records", _of_record)):
        sql = f"SELECT DISTINCT id FROM {table} WHERE id >= ? AND id < ? || 'g' ORDER BY id"
        for (found,) in book.db.execute(sql, (start, start)).fetchall():
            lines += tell(book, found)
    return lines


def of_colony(book: Book, colony: str, yard: str | None, roster: Roster) -> list[str]:
    """What the book holds about a colony, by day: by its id, or because the whole yard was meant.

    Below a record that somebody mended or rejected stands what was done to it; one that is about the colony no more,
    or was rejected, is shown as it was read.
    """
    yards = {yard} if yard else set(roster.yards_of.get(colony, ()))
    today = {record.id: record for record in book.records()}
    told: dict[str, tuple[StoredRecord, str]] = {
        record.id: (record, "") for record in today.values() if _is_about(record, colony, yard, yards)
    }
    handled = _handled(book)
    for record in handled:
        if record.id not in told and _is_about(record, colony, yard, yards):
            told[record.id] = (record, " (mended since)" if record.id in today else " (rejected)")
    lines = []
    for record, since in sorted(told.values(), key=lambda pair: (pair[0].slots.get("on", pair[0].said), pair[0].id)):
        day = record.slots.get("on", record.said)
        by = record.slots.get("by", record.sender)
        what = describe(record.kind, record.slots, day, by)
        lines.append(f"{say_day(day)}  {record.id[:6]}  {what}{f' [{by}]' if by else ''}{since}")
        lines += [f"    {line}" for line in _acts_on(book, record.id)]
    return lines


def _handled(book: Book) -> list[StoredRecord]:
    """Records as they were last read, of those that somebody ever mended or rejected."""
    sql = (
        "SELECT r.id, d.note_id, m.received, m.sender, r.kind, r.slots, max(d.id) FROM records r"
        " JOIN readings d ON d.id = r.reading JOIN messages m ON m.reading = r.reading AND m.ordinal = r.message"
        " WHERE r.id IN (SELECT target FROM live_entries WHERE act IN ('fix', 'reject', 'keep'))"
        " AND EXISTS (SELECT 1 FROM current_readings c WHERE c.note_id = d.note_id) GROUP BY r.id"
    )
    return [stored_record(*row[:-1]) for row in book.db.execute(sql)]


def _acts_on(book: Book, record_id: str) -> list[str]:
    sql = "SELECT seq FROM entries WHERE target = ? AND act IN ('fix', 'reject', 'keep') ORDER BY seq"
    return _entries(book, [seq for (seq,) in book.db.execute(sql, (record_id,)).fetchall()])


def _is_about(record: StoredRecord, colony: str, yard: str | None, yards: set[str]) -> bool:
    slots = record.slots
    if colony in slots.get("except_colonies", ()):
        return False
    if colony in (*slots.get("colonies", ()), *slots.get("with", ())):
        return yard is None or slots.get("yard") in (yard, None)
    return bool(slots.get("every_colony") or slots.get("except_colonies")) and slots.get("yard") in yards


def _of_note(book: Book, note_id: str) -> list[str]:
    note = book.note(note_id)
    lines = [f"Note {note_id}, {say_day(note.received)}{f', {note.by}' if note.by else ''}{_origin(note.source)}:"]
    lines += [f"  | {line}" for line in note.text.splitlines()]
    for row in book.db.execute("SELECT * FROM entries WHERE note_id = ? ORDER BY seq", (note_id,)).fetchall():
        lines += _entry_lines(book, row)
        lines += _read_then(book, row[0])
    return lines


def _origin(source: str) -> str:
    return ", typed or piped in" if source == "-" else f", from {source}"


def _of_record(book: Book, record_id: str) -> list[str]:
    """Every taking of its notes, every reading that read it otherwise, and everything done to it, in order."""
    sql = (
        "SELECT d.entry, r.kind, r.slots, d.note_id FROM records r JOIN readings d ON d.id = r.reading"
        " WHERE r.id = ? ORDER BY d.entry"
    )
    rows = book.db.execute(sql, (record_id,)).fetchall()
    said = {entry: f"read as: {describe(kind, load(slots))}" for entry, kind, slots, _ in rows}
    lines = [f"Record {record_id}, from note {rows[0][3]}:"]
    last = None
    sql = (
        "SELECT e.seq, e.act, EXISTS (SELECT 1 FROM readings r WHERE r.entry = e.seq) FROM entries e"
        " WHERE e.target = ?1 OR (e.act IN ('take', 'reread') AND e.note_id IN"
        " (SELECT d.note_id FROM records r JOIN readings d ON d.id = r.reading WHERE r.id = ?1)) ORDER BY e.seq"
    )
    for seq, act, was_read in book.db.execute(sql, (record_id,)).fetchall():
        now = said.get(seq, "not read any more" if last else None)
        if act == "reread" and now == last:
            continue
        lines += _entries(book, [seq])
        if was_read and now and now != last:
            lines.append(f"    {now}")
            last = now
    return lines


def _entries(book: Book, seqs: Iterable[int]) -> list[str]:
    rows = [book.db.execute("SELECT * FROM entries WHERE seq = ?", (seq,)).fetchone() for seq in seqs]
    return [line for row in rows for line in _entry_lines(book, row)]


def _read_then(book: Book, entry: int) -> list[str]:
    sql = (
        "SELECT r.id, r.kind, r.slots FROM readings d JOIN records r ON r.reading = d.id WHERE d.entry = ?"
        " ORDER BY r.ordinal"
    )
    return [f"    {rid[:6]}  {describe(kind, load(slots))}" for rid, kind, slots in book.db.execute(sql, (entry,))]


def _entry_lines(book: Book, row: tuple[object, ...]) -> list[str]:
    entry = entry_of(row)
    undone = book.db.execute("SELECT at FROM entries WHERE undoes = ?", (entry.seq,)).fetchone()
    line = f"{entry.at}  {entry.who or '?'}  {_said(book, entry, row[8])}"
    return [line + (f" (undone {undone[0]})" if undone else "")]


def _first_words(book: Book, note_id: str) -> str:
    words = " ".join(book.note(note_id).text.split())
    return words if len(words) <= FIRST_WORDS else words[:FIRST_WORDS].rsplit(" ", 1)[0] + " …"


def _said(book: Book, entry: Entry, undoes: object) -> str:
    target = (entry.target or "")[:6]
    match entry.act:
        case "take":
            return f"took note {(entry.note_id or '')[:6]}: {_first_words(book, entry.note_id or '')}"
        case "reread":
            return f"read note {(entry.note_id or '')[:6]} again"
        case "fix" | "keep":
            return f"mended record {target}: {describe(entry.data['kind'], entry.data['slots'])}"
        case "reject":
            return f"rejected record {target}"
        case "answer":
            return f'answered "{entry.data.get("ask", target)}": {entry.data.get("answer")}'
        case "close":
            return f"did by hand: {entry.data.get('says')}"
        case _:
            row = book.db.execute("SELECT * FROM entries WHERE seq = ?", (undoes,)).fetchone()
            return f"undid: {_said(book, entry_of(row), None)}"
