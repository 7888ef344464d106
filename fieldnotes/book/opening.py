"""Opening a book: is it one, is it ours, is it whole, and is it of a version we know?"""

from __future__ import annotations

import filecmp
import os
import sqlite3
import time
from contextlib import closing
from pathlib import Path

from fieldnotes.book.paths import as_uri, unused
from fieldnotes.book.search import index_all
from fieldnotes.book.store import Book, held, is_held
from fieldnotes.errors import FieldnotesError

APPLICATION_ID = 0x466E7473
"""Stands in the file's header, so that another program's SQLite file is not taken for a book ("Fnts")."""
VERSION = 2
"""The newest schema this code knows; the steps to it are the files schema_1.sql, schema_2.sql and so on."""
AFTER = {2: index_all}
"""What a step does beside its SQL, by version: a function of the book."""
BUSY_SECONDS = 60.0
"""How long a writer waits for the others before giving up."""
LOG_PAGES = 4000
"""How long SQLite's log may grow (in pages of 4 KB) before it is worked into the file."""
SMALLEST = 100
"""Bytes; a file without the whole of SQLite's header is no book (sqlite.org/fileformat.html, 1.3)."""


def open_book(path: Path, at: str) -> Book:
    """The book in the file `path`, brought up to today's version if it is older (at the moment `at`, ISO 8601).

    Raises:
        FieldnotesError: no such file, not a book, damaged, or made by a newer fieldnotes.
    """
    _look_at_file(path)
    try:
        db = _connect(path)
    except sqlite3.DatabaseError as error:
        raise _stumbled(path, error) from None
    try:
        version = _known_version(path, db)
        book = Book(path, db)
        if version < VERSION:
            _bring_up_to_date(book, at)
    except BaseException:
        db.close()
        raise
    return book


def _known_version(path: Path, db: sqlite3.Connection) -> int:
    """The version of a book that is ours, and none that is newer than this code."""
    try:
        (application,) = db.execute("PRAGMA application_id").fetchone()
        if application != APPLICATION_ID:
            raise FieldnotesError(
                f"{path} is an SQLite file, but not a book of fieldnotes. Name the right home with --home."
            )
        version = _version(db)
    except sqlite3.DatabaseError as error:
        raise _stumbled(path, error) from None
    if version > VERSION:
        raise FieldnotesError(
            f"The book {path} was written by a newer fieldnotes (book version {version}, this one knows {VERSION}). "
            "Install the newer one; nothing was changed."
        )
    return version


def create_book(path: Path, at: str) -> Book:
    """A new, empty book in the file `path`, made at the moment `at` (ISO 8601).

    Raises:
        FieldnotesError: there is something already, or the disk refuses.
    """
    if path.exists():
        raise FieldnotesError(f"There is a book at {path} already; it is left as it is.")
    try:
        db = _connect(path)
        try:
            db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            book = Book(path, db)
            migrate(book, at)
        except BaseException:
            db.close()
            raise
    except (sqlite3.Error, OSError) as error:
        raise FieldnotesError(f"The book {path} cannot be made: {error}.") from None
    return book


def migrate(book: Book, at: str, to: int = VERSION) -> None:
    """Bring a book to version `to`, all steps or none."""
    with book.writing():
        _take_steps(book, at, to)


def _bring_up_to_date(book: Book, at: str) -> None:
    """Keep a copy of an older book, then migrate it: both in one turn, in which nobody else writes.

    Without that, a process that comes late would keep its copy of a book that another has migrated meanwhile.
    """
    with book.writing():
        version = _known_version(book.path, book.db)
        if version < VERSION:  # else another process has done it while this one waited
            _copy_before_migrating(book.path, version)
            _take_steps(book, at, VERSION)


def _take_steps(book: Book, at: str, to: int) -> None:
    for version in range(_version(book.db) + 1, to + 1):
        for statement in statements(version):
            book.db.execute(statement)
        book.db.execute("INSERT INTO schema_version VALUES (?, ?)", (version, at))
        if version in AFTER:
            AFTER[version](book)


def damaged(path: Path, error: Exception | str) -> FieldnotesError:
    """What to say of a file that SQLite stumbles over."""
    if isinstance(error, sqlite3.Error) and is_held(error):
        return held(path)
    return FieldnotesError(
        f"The book {path} is damaged or cannot be used: {error}. Nothing was changed. "
        "`fieldnotes restore FILE` brings a backup back; the damaged book is kept beside it."
    )


def statements(version: int) -> list[str]:
    """The statements of a step, one by one: running them as a script would commit in the middle."""
    script = (Path(__file__).parent / f"schema_{version}.sql").read_text(encoding="utf-8")
    statements, start = [], 0
    for end, letter in enumerate(script, 1):
        if letter == ";" and sqlite3.complete_statement(script[start:end]):
            statements.append(script[start:end])
            start = end
    return statements


def _version(db: sqlite3.Connection) -> int:
    if not db.execute("SELECT 1 FROM sqlite_master WHERE name = 'schema_version'").fetchone():
        return 0
    (version,) = db.execute("SELECT coalesce(max(version), 0) FROM schema_version").fetchone()
    return int(version)


def _copy_before_migrating(path: Path, version: int) -> None:
    """Keep a copy of the older book beside it, while nobody else writes.

    A copy that is there already is left as it is: of a run that was cut short it is the same as this one.
    """
    draft = path.with_name(f".{path.stem}-version-{version}{path.suffix}.new")
    try:
        draft.unlink(missing_ok=True)
        # By connections of its own: the one that has the turn to write cannot be copied from.
        with closing(sqlite3.connect(as_uri(path, "ro"), uri=True)) as source, closing(sqlite3.connect(draft)) as copy:
            source.backup(copy)
        kept = path.with_name(f"{path.stem}-version-{version}{path.suffix}")
        if kept.is_file() and filecmp.cmp(draft, kept, shallow=False):
            draft.unlink()
        else:
            draft.replace(unused(kept))
    except (sqlite3.Error, OSError) as error:
        raise FieldnotesError(
            f"The book {path} is of an older version, and no copy of it could be made before bringing it up to "
            f"date: {error}. Nothing was changed."
        ) from None


def _look_at_file(path: Path) -> None:
    # By its name only: closing a file drops the locks that this process has on it through SQLite
    # (sqlite.org/howtocorrupt.html, 2.2), and with them what keeps another process from ending the log too early.
    try:
        size = path.stat().st_size
    except FileNotFoundError:
        raise FieldnotesError(f"There is no book at {path}. Make one with `fieldnotes setup`.") from None
    except OSError as error:
        raise FieldnotesError(f"The book {path} cannot be read: {error.strerror}.") from None
    if not path.is_file() or not os.access(path, os.R_OK):
        why = "it may not be read by you" if path.is_file() else "it is no file"
        raise FieldnotesError(f"The book {path} cannot be read: {why}.")
    if size < SMALLEST:
        raise _no_book(path)


def _stumbled(path: Path, error: sqlite3.DatabaseError) -> FieldnotesError:
    return _no_book(path) if getattr(error, "sqlite_errorname", "") == "SQLITE_NOTADB" else damaged(path, error)


def _no_book(path: Path) -> FieldnotesError:
    return FieldnotesError(f"{path} is not a book: it is no SQLite file. Name the right home with --home.")


def _connect(path: Path) -> sqlite3.Connection:
    if path.exists() and not (os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)):
        return _connect_to_read(path)
    db = sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None)
    try:
        _log_writes(db)
        db.execute("PRAGMA foreign_keys = ON")
        db.execute(f"PRAGMA wal_autocheckpoint = {LOG_PAGES}")
    except BaseException:
        db.close()
        raise
    return db


def _log_writes(db: sqlite3.Connection) -> None:
    """Have SQLite write to a log beside the book first, so that nobody who reads waits for one who writes."""
    until = time.monotonic() + BUSY_SECONDS
    while True:
        try:
            db.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as error:
            # For this, unlike all else, SQLite does not wait by itself: two may come at once to a copy put in place.
            if not is_held(error) or time.monotonic() > until:
                raise
            time.sleep(0.02)


def _connect_to_read(path: Path) -> sqlite3.Connection:
    """Where nothing may be written SQLite cannot keep its notes beside the book, so it is told that nobody writes."""
    log = path.with_name(path.name + "-wal")
    alone = "" if log.exists() and log.stat().st_size else "&immutable=1"
    return sqlite3.connect(as_uri(path, "ro") + alone, uri=True, isolation_level=None)
