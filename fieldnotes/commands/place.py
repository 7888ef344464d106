"""The home a command works on, with its book open."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fieldnotes.book import Book, open_book
from fieldnotes.book.opening import damaged
from fieldnotes.commands import moment
from fieldnotes.errors import FieldnotesError
from fieldnotes.home import Home, find_home
from fieldnotes.intake.files import shown


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
    except (ValueError, TypeError, LookupError, ArithmeticError, AttributeError):
        # A value that was never written so may be the reason: then it is the book's fault, and not the program's.
        if fault := _first_fault(book):
            raise damaged(home.book, fault) from None
        raise
    finally:
        book.close()


def not_the_book(place: Home, file: Path) -> Path:
    """The file, which is to be read as something else than the book.

    Raises:
        FieldnotesError: it is the book (see `Home.is_book`).
    """
    if place.is_book(file):
        raise FieldnotesError(f"{shown(file)} is the book itself, and no file to take in; it is left as it is.")
    return file


def _first_fault(book: Book) -> str | None:
    from fieldnotes.book.soundness import faults

    if book.db.in_transaction:
        book.db.execute("ROLLBACK")
    try:
        return next((fault.rstrip(".") for fault in faults(book)), None)
    except (ValueError, TypeError, LookupError, ArithmeticError, AttributeError):
        return "a row holds something that was not written so"
