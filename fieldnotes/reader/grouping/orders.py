"""Colonies whose counts follow "in that order"."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grouping.row import Row, colonies_of, id_of, number_in, whole
from fieldnotes.reader.mark import REACH, Mark


def listed_in_order(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "one three five eight and nine in that order they were …": colonies, where as many counts follow."""
    if i < r.no_order_until or r.row[i].label not in ("number", "colony"):
        return None
    run, j = numbers_from(r, i)
    if len(run) < 2 or not (m := r.at(j)) or m.w != "in" or not (m := r.at(j + 1)) or m.w not in ("that", "order"):
        return None
    if not all(x.label == "colony" or (whole(x) and r.outfit.could_be(id_of(x))) for x in run):
        return None
    k = j
    counts = 0
    while (
        k < i + 3 * REACH
        and (m := r.at(k))
        and m.label in ("w", "pronoun", "comma", "filler", "number", "mites", "clean", "verb")
    ):
        counts += m.label in ("number", "mites", "clean")
        k += 1
    if counts < len(run):
        return None
    return colonies_of(run, bare=True), j


_COUNTS_FOLLOW = frozenset(["are", "were", "had", "got", "read"])


def listed_then_counted(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "three five nine twelve were two two zero eleven": rising colonies, a verb, and as many counts."""
    if not r.checking or r.row[i].label not in ("number", "colony"):
        return None
    run, j = numbers_from(r, i, loosely=True)
    verb = r.at(j)
    if len(run) < 3 or verb is None or verb.w not in _COUNTS_FOLLOW or any(x.label == "clean" for x in run):
        return None
    counts, _ = numbers_from(r, j + 1, loosely=True)
    ids = [number_in(x) for x in run]
    rising = all(a < b for a, b in pairwise(ids))
    named = all(x.label == "colony" or (whole(x) and r.outfit.could_be(id_of(x))) for x in run)
    return (colonies_of(run, bare=True), j) if rising and named and len(counts) == len(run) else None


def numbers_from(r: Row, i: int, most: int = REACH, loosely: bool = False) -> tuple[list[Mark], int]:
    """The numbers that stand from `i` on with only commas and "and" between, and the index after them.

    `loosely` there may be fillers between too, and "none" counts as a number.
    """
    numbers = ("number", "colony", "clean") if loosely else ("number", "colony")
    between = ("comma", "filler") if loosely else ("comma",)
    run: list[Mark] = []
    j = i
    while len(run) < most and (m := r.at(j)) and (m.label in numbers or m.label in between or m.w == "and"):
        if m.label in numbers:
            run.append(m)
        j += 1
    return run, j


def in_that_order(r: Row, i: int) -> int | None:
    """How many numbers stand from `i` to "in that order"; None where nothing says so."""
    if i < r.no_order_until:
        return None
    count = 0
    k = i
    while k < i + 3 * REACH and (m := r.at(k)) and m.label not in ("line", "stop"):
        if m.w == "respectively" or (
            m.w == "in"
            and (a := r.at(k + 1))
            and a.w in ("that", "order")
            and (a.w == "order" or ((b := r.at(k + 2)) and b.w == "order"))
        ):
            return count
        if m.label in ("number", "colony", "mites", "clean"):
            count += 1
        elif m.label not in ("comma", "filler", "w", "method", "each", "sample", "feed", "pronoun", "date", "verb"):
            break
        k += 1
    if k < i + 3 * REACH:
        r.no_order_until = k
    return None
