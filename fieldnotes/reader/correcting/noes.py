"""Is a "no" between two numbers a correction? "had seven no eight"; and "13 should say 1"."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.mark import THINGS, Mark

_PASSED = frozenset("just only it was that that's it's make actually the wasn't isn't".split())
_NUMBERED = frozenset("number mites hives amount unit days item noun queen_noun".split())


def bare_noes(row: list[Mark]) -> bool:
    """ "had seven no eight", "on l nine no l ten": a "no" from one spoken number to another puts the first right.

    True where a colony "should say" something else than was said of it before.
    """
    anew = False
    for i, m in enumerate(row):
        if m.label == "cue" and m.w in _SHOULD:
            anew = _should_be(row, i) or anew
        if m.w != "no" or m.label != "cue":
            continue
        before = next((x for x in range(i - 1, max(-1, i - 4), -1) if row[x].label not in ("filler", "comma")), None)
        j = i + 1
        while j < len(row) and (
            row[j].label in ("filler", "comma")
            or row[j].w in _PASSED
            or (row[j].w in ("in", "on", "at") and before and row[before - 1].w == row[j].w)
        ):
            j += 1
        if before is not None and j < len(row) and (_puts_right(row, before, j) or _said_anew(row, i, j)):
            m.v = {"cue": "correct"}
    return anew


_SHOULD = frozenset(["should say", "should be", "should", "should have", "should've"])
_SAY = frozenset("read say be been said have".split())


def _should_be(row: list[Mark], i: int) -> bool:
    """ "13 should say 1", "S4 should have been 12": what a colony had, said anew."""
    before = row[i - 1] if i else None
    end = i + 1
    while end < len(row) and row[end].label == "w" and row[end].w in _SAY:
        end += 1
    after = row[end] if end < len(row) else None
    if before is None or before.label not in ("number", "colony") or after is None or after.label != "number":
        return False
    if i > 1 and not (row[i - 2].label in ("stop", "line", "filler", "comma", "hive") or row[i - 2].v.get("cue")):
        return False
    row[i].label, row[i].w, row[i].v, row[i].e = "w", "was", {}, row[end - 1].e
    del row[i + 1 : end]
    return True


_NEAR = 8
"""Marks back to the same thing with its other number."""


def _said_anew(row: list[Mark], no: int, j: int) -> bool:
    """ "moved eight hives to heath, no, ten hives", "a gallon on nine, no, two gallons": another number of it."""
    after = row[j]
    near = row[max(0, no - _NEAR) : no]
    if any(m.label in ("stop", "line", "question") for m in near):
        return False
    if after.label == "colony":  # "h two four, no, h two was fourteen"
        said = row[j + 1].w if j + 1 < len(row) else ""
        return said in ("had", "was", "is", "got", "has") and any(m.v.get("value") == after.v["value"] for m in near)
    if after.label == "number" and j + 1 < len(row) and row[j + 1].label in THINGS:
        # "took six supers of honey off the quarry, no, seven supers"
        return any(m.label == row[j + 1].label and before.label == "number" for before, m in pairwise(near))
    if after.label not in ("hives", "amount", "unit") or "n" not in after.v:
        return False
    return any(m.label == after.label and "n" in m.v and m.v.get("unit") == after.v.get("unit") for m in near)


def _puts_right(row: list[Mark], i: int, j: int) -> bool:
    """Whether the mark at `j`, said after "no", can stand in the place of the one at `i`."""
    before, after = row[i], row[j]
    if before.label == after.label == "colony":
        return True
    if before.label == "fact":
        return False
    if after.label == "number" and i and j + 1 < len(row) and _same_count(before, row[j + 1]):
        first = row[i - 1]
        return first.label == "number" and first.v["n"].digits == after.v["n"].digits  # "46 eleven, no, 47 eleven"
    if before.label == "yard" and after.label == "number":  # "two at the quarry, no, three at the quarry"
        again = [m for m in row[j + 1 : j + 4] if m.label == "yard"]
        return bool(again) and again[0].v == before.v and any(m.label == "number" for m in row[max(0, i - 3) : i])
    if after.label not in _NUMBERED or "n" not in after.v or after.v["n"].value <= 0:
        return False
    if after.v["n"].digits and not _in_one_breath(row, i, j):
        return False  # "12 yes, 13 no, 14 ..."
    end = row[j + 1] if j + 1 < len(row) else None
    if after.w == "one" and end is not None and end.label == "w" and end.w not in ("and", "so", "then"):
        return False  # "no one else"
    return "n" in before.v or (before.label == "item" and i > 0 and row[i - 1].label == "number")  # "4 supers, no, 3"


_BREATH = 8
_SIGNS = frozenset("stop line comma question".split())
_TICKS = frozenset("yes y ok okay".split())


def _in_one_breath(row: list[Mark], i: int, j: int) -> bool:
    """Whether the words around the numbers at `i` and `j` run on without a sign, as speech taken down does."""
    near = row[max(0, i - _BREATH) : j + _BREATH]
    return i > 0 and all(m.label not in _SIGNS and (m.w.isalnum() or len(m.w) > 1) and m.w not in _TICKS for m in near)


def _same_count(one: Mark, other: Mark) -> bool:
    """Whether both are counts, and the same."""
    counts = ("number", "mites", "value")
    return one.label in counts and other.label in counts and "n" in one.v and one.v["n"].value == other.v["n"].value
