"""Which records a digest can do without, so that it costs what is open and not what was ever written.

What is settled is the schedule's to say (`fieldnotes.schedule.needed`); here it is kept, and given up where something
stirs it: a record that is mended, rejected, undone or read otherwise, or one that tells of long ago.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldnotes.book.store import Book

NO_YARD = ""
"""Stands for the yard of a record that names none: it may mean any."""
_NEW, _NEEDED, _SETTLED = 0, 1, 2


@dataclass(frozen=True)
class Mark:
    """For which day (ISO) and rules the settling holds, and how many records were needed then."""

    day: str
    rules: str
    needed: int


def mark_of(book: Book) -> Mark | None:
    """The settling that holds, if there is one."""
    row = book.db.execute("SELECT day, rules, needed FROM settling").fetchone()
    return Mark(*row) if row else None


def new_since(book: Book) -> dict[str, str]:
    """Records that came since the last look, by id, with the day their note was taken (ISO)."""
    # By `< _SETTLED` SQLite sees that the index of what is needed holds them, and does not look through every record.
    sql = (
        "SELECT c.id, substr(e.at, 1, 10) FROM current_records c JOIN entries e ON e.seq ="
        " (SELECT max(t.seq) FROM entries t WHERE t.note_id = c.note_id AND t.act IN ('take', 'reread'))"
        f" WHERE c.settled = {_NEW} AND c.settled < {_SETTLED}"
    )
    return dict(book.db.execute(sql).fetchall())


def looked_at(book: Book, ids: Collection[str], stirred: Collection[str]) -> None:
    """These new records were looked at; `stirred` are yards whose settled records matter again by them."""
    with book.writing(durable=False):
        unsettle(book, stirred)
        book.db.executemany(
            f"UPDATE current_records SET settled = {_NEEDED} WHERE id = ? AND settled = {_NEW}", [(i,) for i in ids]
        )


def settle(book: Book, kept: Collection[str], mark: Mark, anew: bool, last_entry: int) -> None:
    """All records said by the day of the mark are settled but those `kept`; `mark.needed` is worked out.

    If not `anew`, what is settled already stays so. Nothing is done if an entry came after `last_entry`: what is kept
    was worked out without it.
    """
    with book.writing(durable=False):
        if last_entry_of(book) != last_entry:
            return
        # In one pass through the table, and rows that are as they should be are left alone.
        book.db.execute("CREATE TEMP TABLE IF NOT EXISTS kept (id TEXT PRIMARY KEY) WITHOUT ROWID")
        book.db.execute("DELETE FROM kept")
        book.db.executemany("INSERT INTO kept VALUES (?)", [(i,) for i in kept])
        late = "substr(received, 1, 10) > ?"
        if anew:
            sql = (
                f"UPDATE current_records SET settled = {_NEEDED} WHERE settled = {_SETTLED} AND (id IN kept OR {late})"
            )
            book.db.execute(sql, (mark.day,))
        sql = f"UPDATE current_records SET settled = {_SETTLED} WHERE settled < {_SETTLED}"
        book.db.execute(f"{sql} AND id NOT IN kept AND NOT {late}", (mark.day,))
        sql = f"UPDATE current_records SET settled = {_NEEDED} WHERE settled = {_NEW}"
        book.db.execute(sql)
        sql = f"SELECT count(*) FROM current_records WHERE settled < {_SETTLED}"
        (needed,) = book.db.execute(sql).fetchone()
        book.db.execute("INSERT OR REPLACE INTO settling VALUES (1, ?, ?, ?)", (mark.day, mark.rules, needed))


def last_entry_of(book: Book) -> int:
    """The seq of the latest entry: whatever happens to the book raises it."""
    (seq,) = book.db.execute("SELECT coalesce(max(seq), 0) FROM entries").fetchone()
    return int(seq)


def yards_of_settled(book: Book) -> set[str]:
    """The yards of the settled records of the messages that are being touched (see `Book.refresh_messages`)."""
    sql = (
        "SELECT DISTINCT coalesce(c.slots ->> '$.yard', ''),"
        " coalesce(c.slots ->> '$.to_yard', c.slots ->> '$.yard', '')"
        f" FROM touched t CROSS JOIN current_records c ON c.message_key = t.key AND c.settled = {_SETTLED}"
    )
    return {yard for pair in book.db.execute(sql) for yard in pair}


def unsettle(book: Book, yards: Collection[str]) -> None:
    """The records of these yards matter again, and those that name no yard; inside a transaction."""
    if NO_YARD in yards:
        book.db.execute(f"UPDATE current_records SET settled = {_NEEDED} WHERE settled = {_SETTLED}")
    elif yards:
        marks = ", ".join("?" * len(yards))
        book.db.execute(
            f"UPDATE current_records SET settled = {_NEEDED} WHERE settled = {_SETTLED} AND (slots ->> '$.yard' IS NULL"
            f" OR slots ->> '$.yard' IN ({marks}) OR slots ->> '$.to_yard' IN ({marks}))",
            (*yards, *yards),
        )
