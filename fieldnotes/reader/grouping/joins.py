"""Hives joined at more length: "two and also five", "out of one and then four", "one all the way to six"."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import JOIN, PREPS, RANGE
from fieldnotes.reader.mark import THINGS, Mark

_AS_FAR_AS = listed("as_far_as")
_SHORT = frozenset(["to", "through"])
LONG_JOINS = frozenset(["plus", "also", "then", "up", "way", "right"])
"""One of them stands in each join that is looked for here."""
_NAMES = frozenset(["number", "colony"])
_HIVE = frozenset(["hive", "hives"])
_GOVERNS = frozenset(["verb", "method", "queen_work", "change"])
_COUNTED = THINGS | {"queen_noun", "noun"}


def shorten_joins(row: list[Mark]) -> None:
    """Between hives, "plus", "and also" and "and then" become "and", "up to" or "all the way to" becomes "through"."""
    for i in range(len(row) - 2, 0, -1):
        m = row[i]
        if m.label != "w" or row[i - 1].label not in _NAMES:
            continue
        meant, end = _join(row, i)
        if meant and _hive_at(row, i, end, meant):
            row[i:end] = [Mark("w", m.s, row[end - 1].e, meant)]


def _join(row: list[Mark], i: int) -> tuple[str, int]:
    """The one word meant by the words from `i` on, and the index after them; no word where nothing is joined."""
    m, after = row[i], row[i + 1]
    if m.w == "plus":
        return "and", i + 1
    if m.w == "and" and after.w == "also":
        return "and", i + 2
    end = i + 2 if m.w == "and" and after.w == "then" else i + 1 if m.w == "then" else i
    if end > i:
        return ("and", end) if _done_to(row, i) else ("", i)
    while end < len(row) and row[end].w in _AS_FAR_AS:
        end += 1
    long = any(x.w not in _SHORT for x in row[i:end]) and row[end - 1].w in _SHORT
    return ("through", end) if long else ("", i)


def _hive_at(row: list[Mark], i: int, k: int, meant: str) -> bool:
    """Whether a hive may be named at `k`, and after "through" no number of a thing ("three up to four supers")."""
    while k < len(row) and row[k].label in _HIVE:
        k += 1
    if k >= len(row) or row[k].label not in _NAMES:
        return False
    after = row[k + 1] if k + 1 < len(row) else None
    counts = row[k].label == "number" and after is not None and after.label in _COUNTED and after.w != "wrapped"
    return meant != "through" or not counts or row[i - 2].w in ("on", "in", "off", "of")


def _done_to(row: list[Mark], i: int) -> bool:
    """Whether something is done to the hives named before `i`, and their list is not at its end: a verb or "in" stands
    before the first of them, and "and" before the last only where one more stands here.
    """
    k = i - 1
    if row[i].w == "then" and row[k - 1].w == "and":
        return False  # "supers on fifty and fifty one | then sixty into sixty one"
    while k > 0 and (row[k].label in _NAMES | _HIVE or row[k].w in JOIN | RANGE or row[k].w == "then"):
        k -= 1
    m = row[k]
    return m.label in _GOVERNS or m.w in PREPS or m.v.get("cue") == "except"
