"""Backups of the book, made while others write, and bringing one back."""

from __future__ import annotations

import glob
import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from pathlib import Path
from urllib.parse import quote

from fieldnotes.book.store import Book
from fieldnotes.errors import FieldnotesError


def back_up(book: Book, target: Path) -> None:
    """A whole copy of the book as it is at one moment, in a new file `target`.

    Raises:
        FieldnotesError: there is such a file, or the disk refuses.
    """
    if target.exists():
        raise FieldnotesError(f"There is a file {target} already; a backup never overwrites. Name another.")
    _copy(book.db, target)


def restore(backup: Path, place: Path, now: datetime, check: Callable[[Path], None]) -> Path | None:
    """Put a copy of `backup` where the book is; the book that was there is moved aside, and its new path given.

    `check` raises where the backup is not a sound book; it is given a copy, so that the backup itself is not touched.

    Raises:
        FieldnotesError: no such backup, not a sound one, or the disk refuses.
    """
    if not backup.is_file():
        what = "a folder" if backup.is_dir() else "not there"
        raise FieldnotesError(f"The backup {backup} is {what}. Name the file that `fieldnotes backup` wrote.")
    draft = place.with_name(f".{place.stem}-restored{place.suffix}")
    _remove(draft)
    try:
        with closing(sqlite3.connect(f"file:{quote(str(backup.absolute()))}?mode=ro", uri=True)) as source:
            source.execute("SELECT count(*) FROM sqlite_master").fetchone()
            _copy(source, draft)
    except sqlite3.Error as error:
        raise FieldnotesError(f"The backup {backup} cannot be read: {error}.") from None
    try:
        check(draft)
        aside = _move_aside(place, now)
        draft.replace(place)
    except FieldnotesError as error:
        raise FieldnotesError(str(error).replace(str(draft), f"in the backup {backup}")) from None
    except OSError as error:
        raise FieldnotesError(f"The book {place} cannot be replaced: {error.strerror}.") from None
    finally:
        # An older book is brought up to date on the way, and a copy kept of it: the backup itself is that copy.
        for copy in place.parent.glob(f"{glob.escape(draft.stem)}-version-*"):
            _remove(copy)
        _remove(draft)
    return aside


def _copy(source: sqlite3.Connection, target: Path) -> None:
    """Copy whole or not at all: under another name first, and only named right when it is safe on the disk."""
    draft = target.with_name(f".{target.name}.new")
    try:
        _remove(draft)
        with closing(sqlite3.connect(draft)) as copy:
            source.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
        with draft.open("rb") as file:
            os.fsync(file.fileno())
        draft.replace(target)
    except (sqlite3.Error, OSError) as error:
        _remove(draft)
        raise FieldnotesError(f"The copy {target} cannot be made: {error}.") from None


def _move_aside(place: Path, now: datetime) -> Path | None:
    """Move the book and what SQLite keeps beside it, so that the log of the old one is not played into the new one."""
    if not place.exists():
        return None
    aside = place.with_name(f"{place.stem}-until-{now:%Y%m%d-%H%M%S}{place.suffix}")
    for ending in ("-wal", "-shm", ""):
        beside = place.with_name(place.name + ending)
        if beside.exists():
            beside.rename(aside.with_name(aside.name + ending))
    return aside


def _remove(path: Path) -> None:
    for ending in ("", "-wal", "-shm", "-journal"):
        path.with_name(path.name + ending).unlink(missing_ok=True)
