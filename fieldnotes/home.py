"""Where an outfit's roster and book are kept."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

import platformdirs

from fieldnotes.errors import FieldnotesError

_BESIDE = ("", "-wal", "-shm", "-journal")
"""What the names of the book and the files that SQLite keeps beside it end in."""


@dataclass(frozen=True)
class Home:
    """The folder that holds one outfit's roster and book."""

    folder: Path

    @property
    def roster(self) -> Path:
        return self.folder / "roster.toml"

    @property
    def book(self) -> Path:
        return self.folder / "book.db"

    def is_book(self, path: Path) -> bool:
        """Whether a file is the book, by whatever name, or one that SQLite keeps beside it.

        None of them is ever opened as a plain file: closing it would drop the locks that this process has on the book,
        and others could then write over each other's work (sqlite.org/howtocorrupt.html, 2.2).
        """
        ours = (self.book.with_name(self.book.name + ending) for ending in _BESIDE)
        try:
            return any(one.exists() and path.samefile(one) for one in ours)
        except OSError:
            return False

    def holds(self, path: Path) -> bool:
        """Whether a file is the book or the roster, or would stand where SQLite keeps what is beside the book."""
        names = (self.roster, *(self.book.with_name(self.book.name + ending) for ending in _BESIDE))
        return self.is_book(path) or os.path.realpath(path) in {os.path.realpath(one) for one in names}


def find_home(given: Path | None) -> Home:
    """The home in `given` (from `--home` or `$FIELDNOTES_HOME`), else where this system keeps user data."""
    return Home(given.expanduser() if given else platformdirs.user_data_path("fieldnotes", appauthor=False))


def make_home(home: Home) -> None:
    """Make the folder.

    Raises:
        FieldnotesError: something else is in the way, or the disk refuses.
    """
    try:
        home.folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FieldnotesError(
            f"The folder {home.folder} cannot be made: {error.strerror}. Name another with --home."
        ) from None
