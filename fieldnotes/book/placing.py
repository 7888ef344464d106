"""Which message of its note a record belongs to, and the names that follow from it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from fieldnotes.book import ids
from fieldnotes.records import Record


@dataclass(frozen=True)
class Message:
    """One message of a note: its place in the note's text (`first` to `last`), its time and its sender.

    `told_by` tells it from another with the same words: its minute, or what stands in for it (see `Arrival`).
    """

    first: int
    last: int
    received: str
    sender: str | None
    told_by: str


def message_keys(text: str, messages: Sequence[Message]) -> list[str]:
    """A key for each message; the second of two that are alike in words, sender and time gets one of its own."""
    seen: Counter[str] = Counter()
    keys = []
    for message in messages:
        key = ids.message_key(text[message.first : message.last], message.sender, message.told_by)
        seen[key] += 1
        keys.append(key if seen[key] == 1 else ids.message_key(key, None, str(seen[key])))
    return keys


def place_records(records: Sequence[Record], messages: Sequence[Message], keys: Sequence[str]) -> list[tuple[int, str]]:
    """For each record the message it belongs to (an index) and its id.

    A record may lean on words of an earlier message (the yard named there), so it belongs to the message of its last
    words, and its id is made from what it uses of that message only.
    """
    seen: Counter[str] = Counter()
    placed = []
    for record in records:
        end = max((last for _, last in record.spans), default=0)
        home = max((n for n, m in enumerate(messages) if m.first < end), default=0)
        start = messages[home].first
        own = [(a - start, b - start) for a, b in record.spans if a >= start]
        alike = ids.record_id(keys[home], record.kind, own, 0)
        placed.append((home, alike if not seen[alike] else ids.record_id(keys[home], record.kind, own, seen[alike])))
        seen[alike] += 1
    return placed
