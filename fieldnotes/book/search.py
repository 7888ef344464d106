"""Finding notes by words: those of the note itself, and those of the records made of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldnotes.book.forms import cleaned, load
from fieldnotes.book.plain_words import describe

if TYPE_CHECKING:
    from fieldnotes.book.store import Book

PIECE = 150
"""About how many characters of a note are shown."""


@dataclass(frozen=True)
class Hit:
    """A note that holds all the words, and a piece of it around them."""

    note_id: str
    received: str
    sender: str | None
    piece: str
    undone: bool
    """Whether it was taken back."""


def index_notes(book: Book, note_ids: Iterable[str]) -> None:
    """Bring the words of these notes up to date, inside a transaction."""
    for note_id in note_ids:
        words, facts = cleaned(book.note(note_id).text), cleaned(_facts(book, note_id))
        (number,) = book.db.execute("SELECT number FROM notes WHERE id = ?", (note_id,)).fetchone()
        book.db.execute("DELETE FROM note_words WHERE rowid = ?", (number,))
        book.db.execute("INSERT INTO note_words (rowid, words, facts) VALUES (?, ?, ?)", (number, words, facts))


def index_all(book: Book) -> None:
    """The words of every note."""
    index_notes(book, [note_id for (note_id,) in book.db.execute("SELECT id FROM notes ORDER BY number").fetchall()])


def find(book: Book, words: str, limit: int) -> list[Hit]:
    """Up to `limit` notes that hold all these words, the best first; or those with words that begin so."""
    for query in (_query(words, ""), _query(words, "*")):
        if query:
            hits = _hits(book, query, words.casefold().split(), limit)
            if hits:
                return hits
    return []


def _hits(book: Book, query: str, words: list[str], limit: int) -> list[Hit]:
    # Alone, "ORDER BY rank LIMIT" lets the index keep only the best; the rest is looked up for these only.
    best = book.db.execute(
        "SELECT rowid, rank FROM note_words WHERE note_words MATCH ? ORDER BY rank LIMIT ?", (query, limit)
    ).fetchall()
    sql = (
        "SELECT n.id, n.received, n.sender, w.words,"
        " NOT EXISTS (SELECT 1 FROM live_entries e WHERE e.note_id = n.id AND e.act = 'take')"
        " FROM notes n JOIN note_words w ON w.rowid = n.number WHERE n.number = ?"
    )
    ranked = []
    for number, rank in best:
        note_id, received, sender, text, undone = book.db.execute(sql, (number,)).fetchone()
        ranked.append((rank, Hit(note_id, received, sender, _piece(text, words), bool(undone))))
    newest = sorted(ranked, key=lambda pair: (pair[1].received, pair[1].note_id), reverse=True)
    return [hit for _, hit in sorted(newest, key=lambda pair: pair[0])]


def _piece(text: str, words: list[str]) -> str:
    """The text around the first of the words that stands in it as it is; else its beginning."""
    low = text.casefold()
    places = [place for word in words if (place := low.find(word)) >= 0]
    # Whole words: back to a blank, some way before the place found.
    start = text.rfind(" ", 0, max(0, min(places, default=0) - PIECE // 3)) + 1
    end = text.find(" ", start + PIECE)
    return ("… " if start else "") + (text[start:end] + " …" if end > 0 else text[start:])


def _query(words: str, end: str) -> str:
    """Each word quoted, so that none of them is taken for a sign of the query language."""
    return " ".join(f'"{word}"{end}' for word in words.replace('"', " ").replace("\0", " ").split())


def _facts(book: Book, note_id: str) -> str:
    sql = "SELECT kind, slots FROM current_records WHERE note_id = ? ORDER BY id"
    return "\n".join(describe(kind, load(slots)) for kind, slots in book.db.execute(sql, (note_id,)))
