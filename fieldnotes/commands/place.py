"""The home a command works on, with its book open."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fieldnotes.book import Book, open_book
from fieldnotes.book.opening import damaged
from fieldnotes.commands import moment
from fieldnotes.home import Home, find_home


@contextmanager
def open_home(given: Path | None) -> Iterator[tuple[Home, Book]]:
    """The home and its book, closed again at the end.

    Raises:
        FieldnotesError: no book there, or one that SQLite stumbles over, now or later.
    """
    home = find_home(given)
    book = open_book(home.book, moment.stamp())
    try:
        yield home, book
    except sqlite3.DatabaseError as error:
        raise damaged(home.book, error) from None
    finally:
        book.close()
