"""Forms: what was seen, each after the name of its field ("Queen: not seen", "Eggs: no", "Cells: 2").

A field is a heading of `table` before a colon; its value is read as a cell below that heading would be.
"""

from __future__ import annotations

from fieldnotes.reader.mark import Mark
from fieldnotes.reader.table import cell_below, column_of

_FIELDS = frozenset(["queen", "eggs", "cells"])
_LONGEST = 20
"""Marks in the value of a field."""
_BROOD = {"open": "open_brood", "capped": "capped_brood", "sealed": "capped_brood"}


def read_fields(row: list[Mark]) -> list[Mark]:
    """The row of marks with the values of named fields made what they say."""
    named = [k for k, m in enumerate(row) if m.w == ":"]
    if not named:
        return row
    out: list[Mark] = []
    at = 0
    for k in named:
        if k == 0 or k - 1 < at:
            continue
        column = column_of(row[k - 1 : k]) if _may_begin(row, k - 1) else None
        if column not in _FIELDS:
            continue
        end = _end(row, k + 1)
        made = cell_below(row[k + 1 : end], column)
        if made and any(m.label == "fact" for m in made):
            made[0].v.setdefault("struck", []).append((row[k - 1].s, row[k].e))
            out += [*row[at : k - 1], *made]
            at = end
    out += row[at:]
    _kinds_of_brood(out)
    return out


def _may_begin(row: list[Mark], k: int) -> bool:
    """Whether a field may begin there: at the start of a line, or after a comma, a stop or a dash."""
    return (
        k == 0 or row[k - 1].label in ("line", "comma", "stop", "colony") or row[k - 1].w in ("-", "–", "|", "*", "•")
    )


def _end(row: list[Mark], k: int) -> int:
    """Where the value ends: at the end of the line or sentence, or at a comma with another field after it."""
    start = k
    while k < len(row) and k - start < _LONGEST and row[k].label not in ("line", "stop"):
        if row[k].label == "comma" and k > start and any(":" in m.w.split() for m in row[k + 1 : k + 4]):
            return k
        k += 1
    return k


def _kinds_of_brood(row: list[Mark]) -> None:
    """ "Brood: 2 frames, open and capped": which brood was seen in those frames. In place."""
    inside = False
    for m in row:
        if m.label == "line":
            inside = False
        elif m.label == "fact" and m.v.get("number") == "brood_frames" and ":" in m.w.split():
            inside = True
        elif inside and m.w in _BROOD and m.label in ("w", "verb"):
            m.label, m.v = "fact", {"kind": "inspection", "set": {_BROOD[m.w]: True}}
            m.rule = "field of brood"
