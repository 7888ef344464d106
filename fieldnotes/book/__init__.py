"""The book: one SQLite file that only grows."""

from fieldnotes.book.opening import create_book, open_book
from fieldnotes.book.placing import Message
from fieldnotes.book.store import Book, Taken

__all__ = ["Book", "Message", "Taken", "create_book", "open_book"]
