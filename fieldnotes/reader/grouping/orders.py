"""Colonies whose counts follow "in that order"."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grouping.row import ONE_HIVE_VERBS, Row, colonies_of, id_of, number_in, whole
from fieldnotes.reader.mark import COUNTED, REACH, THINGS, Mark


def listed_in_order(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "one three five eight and nine in that order they were …": colonies, where as many counts follow."""
    if i < r.no_order_until or r.row[i].label not in ("number", "colony"):
        return None
    run, j = numbers_from(r, i)
    if len(run) < 2 or not (m := r.at(j)) or m.w != "in" or not (m := r.at(j + 1)) or m.w not in ("that", "order"):
        return None
    if not _named(r, run):
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


def _named(r: Row, run: list[Mark]) -> bool:
    """Whether each of the numbers can be a colony's."""
    return all(x.label == "colony" or (whole(x) and r.outfit.could_be(id_of(x))) for x in run)


def _rising_colonies(r: Row, run: list[Mark]) -> bool:
    """Whether each of the numbers can be a colony's, and is greater than the one before it."""
    return _named(r, run) and all(a < b for a, b in pairwise(number_in(x) for x in run))


_COUNTS_FOLLOW = frozenset(["are", "were", "had", "got", "read"])
_THEN_COUNTS = frozenset(
    "at in the : = - – gave give came come back out up to with got found had were was it they and first before after "
    "beforehand afterwards results result counts numbers showed read said".split()
)
_BEFORE_COUNTS = frozenset("date yard sample filler comma pronoun each days method check".split())
_AFTER_COUNTS = frozenset("stop line question comma filler cue sample method date pronoun".split())
_FAR = 8
"""Marks that may stand between the colonies and their first count, or between them and the check they are of."""


def listed_then_counted(r: Row, i: int) -> tuple[Mark, int, int] | None:
    """ "three five nine twelve were two two zero eleven", "washed 1 3 5 before, six nine none": rising colonies, and as
    many counts after them. The colonies, the index after them, and how many counts are numbers.
    """
    if i < r.no_lists_until or r.row[i].label not in ("number", "colony"):
        return None
    if not (r.checking or _of_a_check(r, i)):
        return None
    run, j = numbers_from(r, i, loosely=True)
    found = _halves(r, i, run) or _counts_after(r, i, run, j)
    if found is None:
        r.no_lists_until = max(i, j)
        return None
    named, counts, end = found
    if any(x.label in ("clean", "mites") for x in named) or any(x.label == "colony" for x in counts):
        return None
    if not _rising_colonies(r, named):
        return None
    return colonies_of(named, bare=True), end, sum(x.label == "number" for x in counts)


_MOST_COUNTED = 20
"""A number over this that can be a colony's is hardly a count of mites. Common practice, no source."""


def washed_in_a_row(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "washed 41 43 45 at the cut": rising colonies of one yard, where not every other one can be a count."""
    if r.row[i].label not in ("number", "colony") or not _of_a_check(r, i):
        return None
    run, j = numbers_from(r, i)
    if len(run) < 3 or (len(run) % 2 == 0 and any(number_in(x) <= _MOST_COUNTED for x in run[1::2])):
        return None
    if not _rising_colonies(r, run):
        return None
    cols = colonies_of(run, bare=True)
    homes = [r.outfit.homes_of(cid) for cid in cols.v["ids"]]
    if r.outfit.known and not frozenset.intersection(*homes):
        return None
    after = r.at(j)
    return (cols, j) if after is None or after.label in _AFTER_COUNTS or after.w in ("at", "in", "and") else None


def _counts_after(r: Row, i: int, run: list[Mark], j: int) -> tuple[list[Mark], list[Mark], int] | None:
    """The `run` as colonies, where a turn of phrase at `j` leads to as many counts."""
    verb = r.at(j)
    if len(run) > 2 and verb is not None and verb.w in _COUNTS_FOLLOW:
        counts, _ = numbers_from(r, j + 1, loosely=True)
        if len(counts) == len(run):
            return run, counts, j
    if len(run) < 2:
        return None
    k, told, checked = j, False, False
    while k < j + _FAR and (m := r.at(k)) and (m.label in _BEFORE_COUNTS or not _THEN_COUNTS.isdisjoint(m.w.split())):
        told = told or m.w in (":", "=", "got", "found", "gave")
        checked = checked or m.label in ("method", "check")  # "44 45 46 47 tested 2 0 0 5"
        k += 1
    if not (checked or _of_a_check(r, i)):
        return None
    counts, end = numbers_from(r, k, loosely=True)
    if len(counts) > len(run) and _begins_next(r, counts[len(run)]):
        # "washed 43 50 and 61, two zero and one | 58 is starving"
        counts = counts[: len(run)]
        return (run, counts, j) if k > j and len(run) > 2 else None
    if k == j or len(counts) != len(run) or (len(run) == 2 and not told) or not _ends_counts(r, end):
        return None
    counted = (m := r.at(end)) is not None and (m.label == "sample" or m.w == "mites")
    return (run, counts, j) if counted or not _rising_on(run, counts) else None


def _begins_next(r: Row, m: Mark) -> bool:
    """Whether the number after the counts is a colony's of which something is told next."""
    high = m.label == "number" and whole(m) and m.v["n"].value > _MOST_COUNTED and id_of(m) in r.outfit.ids
    k = next(n for n in range(len(r.row)) if r.row[n] is m) + 1 if high else 0
    return high and k < len(r.row) and r.row[k].w in ONE_HIVE_VERBS


def _halves(r: Row, i: int, run: list[Mark]) -> tuple[list[Mark], list[Mark], int] | None:
    """The first half of the `run` as colonies, the other half as their counts: "1 4 and 13, two none and six"."""
    n = len(run) // 2
    if n < 3 or len(run) % 2 or _rising_on(run[:n], run[n:]) or not _of_a_check(r, i):
        return None
    last = next(k for k in range(i, len(r.row)) if r.row[k] is run[n - 1])
    inside = {m.w if m.label == "w" else m.label for m in r.row[i:last]}
    turn = r.at(last + 1)
    if turn is None or turn.label != "comma" or ("comma" in inside and r.row[last - 1].w != "and"):
        return None
    _, end = numbers_from(r, last + 1, loosely=True)
    return (run[:n], run[n:], last + 1) if _ends_counts(r, end) else None


def _rising_on(named: list[Mark], counts: list[Mark]) -> bool:
    """Whether the numbers go on rising from one list to the other: more colonies ("1 3 5 at the pond 41 43 45")."""
    if any(x.label == "clean" for x in (*named, *counts)):
        return False
    return all(a < b for a, b in pairwise(number_in(x) for x in (*named, *counts)))


def _of_a_check(r: Row, i: int) -> bool:
    """Whether a check is told of before `i` in its sentence, near by, and no colony or thing since."""
    for m in reversed(r.row[max(0, i - _FAR) : i]):
        if m.label in ("method", "check") or m.w in COUNTED:
            return True
        if m.label in ("stop", "line", "question", "number", "colony", "cols", "hive", "fact") or m.label in THINGS:
            return False
    return False


def _ends_counts(r: Row, end: int) -> bool:
    """Whether a list of counts may end before `end`: no thing that they count, no place of more colonies."""
    m, then = r.at(end), r.at(end + 1)
    if m is not None and m.w in ("in", "at", "per"):
        return then is not None and then.label == "sample"
    return m is None or m.label in _AFTER_COUNTS or m.w in _AFTER_ALL_COUNTS


_AFTER_ALL_COUNTS = frozenset("and so but then also while because cause since mites i we all that's okay".split())


def numbers_from(r: Row, i: int, most: int = REACH, loosely: bool = False) -> tuple[list[Mark], int]:
    """The numbers that stand from `i` on with only commas and "and" between, and the index after them.

    `loosely` there may be fillers between too, and "none" and "two mites" count as numbers.
    """
    numbers = ("number", "colony", "clean", "mites") if loosely else ("number", "colony")
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
