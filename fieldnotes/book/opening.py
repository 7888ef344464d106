"""Opening a book: is it one, is it ours, is it whole, and is it of a version we know?"""

from __future__ import annotations

import sqlite3
from pathlib import Path

from fieldnotes.book.store import Book
from fieldnotes.errors import FieldnotesError

APPLICATION_ID = 0x466E7473
"""Stands in the file's header, so that another program's SQLite file is not taken for a book ("Fnts")."""
VERSION = 1
"""The newest schema this code knows."""
BUSY_SECONDS = 60.0
"""How long a writer waits for the others before giving up."""
_HEADER = b"SQLite format 3\x00"


def open_book(path: Path) -> Book:
    """The book in the file `path`.

    Raises:
        FieldnotesError: no such file, not a book, damaged, or made by a newer fieldnotes.
    """
    _look_at_header(path)
    try:
        db = _connect(path)
        (application,) = db.execute("PRAGMA application_id").fetchone()
        if application != APPLICATION_ID:
            raise FieldnotesError(
                f"{path} is an SQLite file, but not a book of fieldnotes. Name the right home with --home."
            )
        (version,) = db.execute("SELECT max(version) FROM schema_version").fetchone()
    except sqlite3.DatabaseError as error:
        raise damaged(path, error) from None
    if version > VERSION:
        raise FieldnotesError(
            f"The book {path} was written by a newer fieldnotes (book version {version}, this one knows {VERSION}). "
            "Install the newer one; nothing was changed."
        )
    return Book(path, db)


def create_book(path: Path, at: str) -> Book:
    """A new, empty book in the file `path`, made at the moment `at` (ISO 8601).

    Raises:
        FieldnotesError: there is something already, or the disk refuses.
    """
    if path.exists():
        raise FieldnotesError(f"There is a book at {path} already; it is left as it is.")
    try:
        db = _connect(path)
        schema = (Path(__file__).parent / "schema_1.sql").read_text(encoding="utf-8")
        db.executescript(f"PRAGMA application_id = {APPLICATION_ID}; BEGIN IMMEDIATE; {schema}")
        db.execute("INSERT INTO schema_version VALUES (?, ?)", (1, at))
        db.execute("COMMIT")
    except sqlite3.Error as error:
        raise FieldnotesError(f"The book {path} cannot be made: {error}.") from None
    return Book(path, db)


def damaged(path: Path, error: Exception) -> FieldnotesError:
    """What to say of a file that SQLite stumbles over."""
    return FieldnotesError(f"The book {path} is damaged or cannot be used: {error}.")


def _look_at_header(path: Path) -> None:
    try:
        with path.open("rb") as file:
            head = file.read(len(_HEADER))
    except FileNotFoundError:
        raise FieldnotesError(f"There is no book at {path}. Make one with `fieldnotes setup`.") from None
    except OSError as error:
        raise FieldnotesError(f"The book {path} cannot be read: {error.strerror}.") from None
    if head != _HEADER:
        raise FieldnotesError(f"{path} is not a book: it is no SQLite file. Name the right home with --home.")


def _connect(path: Path) -> sqlite3.Connection:
    db = sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None)
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("PRAGMA foreign_keys = ON")
    # A note that was acknowledged must outlive a power cut, so each commit waits for the disk.
    db.execute("PRAGMA synchronous = FULL")
    return db
