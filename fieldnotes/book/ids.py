"""Names for what the book holds, made from content alone: the same note gives the same names in any order of taking."""

from __future__ import annotations

import hashlib
import unicodedata

from fieldnotes.book.forms import clean, cleaned
from fieldnotes.intake.files import Arrival

LENGTH = 16
"""Hex digits of a name: 64 bits, so that a million notes collide with a chance of about 3 in 100 million."""


def content_hash(body: bytes) -> str:
    """SHA-256 of the bytes as they came, in hex."""
    return hashlib.sha256(body).hexdigest()


def arrival_id(arrival: Arrival) -> str:
    """The same bytes from the same sender at the same time are the same note."""
    return note_id(content_hash(arrival.body), clean(arrival.by), cleaned(arrival.told_by))


def note_id(digest: str, sender: str | None, told_by: str) -> str:
    """A note's id from the hash of its bytes, its sender and what tells it from its like (see `Arrival`)."""
    return _name("note", digest, sender_key(sender), told_by)


def sender_key(sender: str | None) -> str:
    """A sender's name, whatever its case."""
    return (sender or "").strip().casefold()


def message_key(text: str, sender: str | None, when: str) -> str:
    """One message, however it was pasted: same words (blanks and line breaks aside), sender and time."""
    words = " ".join(unicodedata.normalize("NFC", text).split())
    return _name("message", words, sender_key(sender), when)


def record_id(message: str, kind: str, spans: list[tuple[int, int]], twin: int) -> str:
    """A record by its message, its kind and where in the message it stands; `twin` counts those alike in all three."""
    return _name("record", message, kind, repr(sorted(spans)), str(twin))


def question_id(message: str, topic: str, word: str, ask: str) -> str:
    """A question. One about an unknown word is the same question in every note: it is asked once."""
    if topic == "unknown_word" and word:
        return _name("question", topic, word.casefold())
    return _name("question", message, topic, word.casefold(), ask)


def _name(*parts: str) -> str:
    whole = "\x1f".join(parts).encode("utf-8", "surrogatepass")
    return hashlib.sha256(whole).hexdigest()[:LENGTH]
