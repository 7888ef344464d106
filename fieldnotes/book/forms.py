"""The forms in which the book writes values."""

from __future__ import annotations

import json
import sqlite3
from typing import Any

_ENCODER = json.JSONEncoder(ensure_ascii=True, separators=(",", ":"))


def dump(value: Any) -> str:
    """JSON in one fixed form. ASCII only, because SQLite text cannot hold the lone surrogates that a note can."""
    return _ENCODER.encode(value)


def load(text: str) -> Any:
    """The value that `dump` wrote.

    Raises:
        sqlite3.DatabaseError: it is no JSON any more, so the file is damaged.
    """
    try:
        return json.loads(text)
    except ValueError:
        raise sqlite3.DatabaseError("a row holds something that was not written so") from None


def clean(words: str | None) -> str | None:
    """`cleaned`, where there are words; None for none."""
    return cleaned(words) if words else None


def cleaned(words: str) -> str:
    """Text that SQLite can hold: lone surrogates and NUL become U+FFFD. (The note's body keeps them as they came.)"""
    return words.encode("utf-16", "surrogatepass").decode("utf-16", "replace").replace("\0", "\ufffd")
