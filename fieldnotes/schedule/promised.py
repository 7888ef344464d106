"""When work that was done keeps a promise, and when a later plan takes the place of an earlier one."""

from __future__ import annotations

from fieldnotes.records import StoredRecord

_ALIKE = ("item", "agent", "form", "feed", "round", "text")
"""Slots in which a plan and the work must not differ, where both say them."""


def _agree(one: StoredRecord, other: StoredRecord) -> bool:
    if one.kind != other.kind or one.slots.get("step") != other.slots.get("step"):
        return False
    pairs = ((one.slots.get(name), other.slots.get(name)) for name in _ALIKE)
    return all(a is None or b is None or a == b for a, b in pairs)


def keeps(promise: StoredRecord, work: StoredRecord) -> bool:
    """Whether the work is of the promised kind and step: which colonies is another question."""
    return _agree(promise, work)


def same_promise(earlier: StoredRecord, later: StoredRecord) -> bool:
    """Whether a later note plans the same work again: the later day then counts. Two plans in one note are two."""
    if earlier.note_id == later.note_id or earlier.slots.get("round") != later.slots.get("round"):
        return False
    return _agree(earlier, later)
