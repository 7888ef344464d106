"""Backups of the book, made while others write, and bringing one back."""

from __future__ import annotations

import glob
import os
import random
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from pathlib import Path

from fieldnotes.book.paths import as_uri, sync_folder, unused
from fieldnotes.book.store import Book, held, is_held
from fieldnotes.errors import FieldnotesError

WAIT = 60.0
"""Seconds to wait for others who have the turn to write."""


def back_up(book: Book, target: Path) -> None:
    """A whole copy of the book as it is at one moment, in a new file `target`.

    Raises:
        FieldnotesError: there is such a file, or the disk refuses.
    """
    if target.exists():
        raise FieldnotesError(f"There is a file {target} already; a backup never overwrites. Name another.")
    _copy(book.db, target)


def restore(backup: Path, place: Path, now: datetime, check: Callable[[Path], None]) -> Path | None:
    """Make the book what `backup` is; the book that was there is kept beside it, and the path of that given.

    `check` raises where the backup is not a sound book; it is given a copy, so that the backup itself is not touched.

    Raises:
        FieldnotesError: no such backup, not a sound one, or the disk refuses.
    """
    if not backup.is_file():
        what = "a folder" if backup.is_dir() else "not there"
        raise FieldnotesError(f"The backup {backup} is {what}. Name the file that `fieldnotes backup` wrote.")
    draft = place.with_name(f".{place.stem}-restored-{os.getpid()}{place.suffix}")
    aside = place.with_name(f"{place.stem}-until-{now:%Y%m%d-%H%M%S}{place.suffix}")
    try:
        with closing(sqlite3.connect(as_uri(backup, "ro"), uri=True)) as source:
            source.execute("SELECT count(*) FROM sqlite_master").fetchone()
            _copy(source, draft)
    except sqlite3.Error as error:
        raise FieldnotesError(f"The backup {backup} cannot be read: {error}.") from None
    try:
        check(draft)
        if not place.exists():
            draft.replace(place)
            sync_folder(place.parent)
            return None
        if _is_in_order(place) and _page_size(place) == _page_size(
            draft
        ):  # else SQLite cannot write one into the other
            return _put_in(draft, place, aside)
        kept = _move_aside(place, aside)
        draft.replace(place)
        sync_folder(place.parent)
        return kept
    except FieldnotesError as error:
        raise FieldnotesError(str(error).replace(str(draft), f"in the backup {backup}")) from None
    except (OSError, sqlite3.Error) as error:
        raise FieldnotesError(f"The book {place} cannot be replaced: {error}.") from None
    finally:
        # An older book is brought up to date on the way, and a copy kept of it: the backup itself is that copy.
        for copy in place.parent.glob(f"{glob.escape(draft.stem)}-version-*"):
            _remove(copy)
        _remove(draft)


def _is_in_order(place: Path) -> bool:
    """Whether SQLite can work with the file, so that others may be at work with it now."""
    try:
        with closing(sqlite3.connect(as_uri(place, "rw"), uri=True, timeout=WAIT)) as db:
            if db.execute("PRAGMA journal_mode = WAL").fetchone() != ("wal",):
                return False
            (verdict,) = db.execute("PRAGMA quick_check(1)").fetchone()
            return bool(verdict == "ok")
    except sqlite3.Error as error:
        if is_held(error):
            raise held(place) from None
        return False


def _page_size(path: Path) -> int:
    with closing(sqlite3.connect(as_uri(path, "ro"), uri=True)) as db:
        (size,) = db.execute("PRAGMA page_size").fetchone()
    return int(size)


def _put_in(draft: Path, place: Path, aside: Path) -> Path:
    """Write a book into the file of another, in one transaction, after keeping a copy of that one; gives its path.

    A file that is moved or replaced while others have it open is soon damaged (sqlite.org/howtocorrupt.html, 2.5). So
    the file stays, and those who have it open go on, and are told what happened when they next write.
    """
    kept: list[Path] = []
    began = time.monotonic()

    with (
        closing(sqlite3.connect(draft)) as source,
        closing(sqlite3.connect(as_uri(place, "rw"), uri=True, timeout=WAIT)) as book,
        closing(sqlite3.connect(as_uri(place, "ro"), uri=True, timeout=WAIT)) as reader,
    ):

        def keep_what_was(status: int, _left: int, _all: int) -> None:
            if status != sqlite3.SQLITE_OK:  # somebody else has the turn to write
                if time.monotonic() - began > WAIT:
                    raise held(place)
            elif not kept:
                # The first page is written, so that nobody else can write: this is all that was ever acknowledged.
                kept.append(unused(aside))
                _copy(reader, kept[0])

        source.execute(f"PRAGMA user_version = {random.randrange(2**31)}")  # see `put_in`
        try:
            source.backup(book, pages=1, progress=keep_what_was, sleep=0.01)
        except BaseException:
            for copy in kept:
                _remove(copy)
            raise
    return kept[0]


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
        sync_folder(target.parent)
    except (sqlite3.Error, OSError) as error:
        _remove(draft)
        raise FieldnotesError(f"The copy {target} cannot be made: {error}.") from None


def _move_aside(place: Path, aside: Path) -> Path:
    """Move a damaged book and what SQLite keeps beside it, so that its log is not played into the new one."""
    aside = unused(aside)
    for ending in ("-wal", "-shm", ""):
        beside = place.with_name(place.name + ending)
        if beside.exists():
            beside.rename(aside.with_name(aside.name + ending))
    return aside


def _remove(path: Path) -> None:
    for ending in ("", "-wal", "-shm", "-journal"):
        path.with_name(path.name + ending).unlink(missing_ok=True)
