"""Counts said after all their colonies, in the same order ("rolled 6, 7 and 8 … they came to one, none and four")."""

from __future__ import annotations

from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number, number_at

_BETWEEN = frozenset(
    "they those these it came come to we i got had were was gave showed read so and then with at in the first "
    ": - after afterwards counts count numbers results result know we'd i'd okay today here are is out up back".split()
)
_SEPARATORS = frozenset(["comma", "filler", "approx"])
RULE = "count in that order"
_FAR = 14
"""Marks that may stand between the colonies and their first count."""


def counts_in_order(row: list[Mark]) -> list[Mark]:
    """The row with a run of as many counts as there are colonies, after a check of several, made counts.

    Only a run of exactly that many becomes counts: of any other length, what is whose cannot be told.
    """
    k = 0
    sizes: set[int] = set()  # of the groups of colonies named so far
    while k < len(row):
        n = _named(row[k], sizes) if row[k].label in ("cols", "pronoun") else 0
        if n > 1 and _checked(row, k):
            start = _first_count(row, k)
            run = _run(row, start, n) if start is not None else None
            if run is not None and not all(row[j].label in ("value", "clean", "mites") for j in run):
                for j in run:
                    row[j] = _count(row[j])
                k = run[-1]
        k += 1
    return row


def _named(m: Mark, sizes: set[int]) -> int:
    """How many colonies the mark names, or points to ("rolled those four after: five, none, three and none")."""
    if m.label == "cols":
        sizes.add(len(m.v.get("ids", ())))
        return len(m.v.get("ids", ()))
    n = int(m.v["n"].value) if m.label == "pronoun" and "n" in m.v else 0
    return n if n in sizes else 0


def _checked(row: list[Mark], k: int) -> bool:
    """Whether a method of counting stands before the colonies in their sentence, near by, or straight after them."""
    if k + 1 < len(row) and row[k + 1].label == "method" and row[k].label == "cols":
        return True  # "fourteen fifteen seventeen boards in two days: thirty one, twenty six, about forty"
    for m in reversed(row[max(0, k - 8) : k]):
        if m.label in ("stop", "line", "question", "cols", "form", "agent", "fact"):
            return False
        if m.label in ("method", "check"):
            return True
    return False


def _first_count(row: list[Mark], k: int) -> int | None:
    stops = 0
    for j in range(k + 1, min(len(row), k + _FAR)):
        m = row[j]
        if _number(m) is not None:
            return j
        stops += m.label == "stop"
        if stops > 1 or not (
            m.label in ("date", "yard", "sample", "method", "filler", "each", "comma", "pronoun", "stop", "ordinal")
            or m.w in _BETWEEN
            or m.w == "alcohol"
        ):
            return None
    return None


def _run(row: list[Mark], start: int, n: int) -> list[int] | None:
    """The places of exactly `n` counts that follow each other."""
    found: list[int] = []
    j = start
    while j < len(row) and len(found) <= n:
        m = row[j]
        if _number(m) is not None or (found and m.label == "mites" and "n" in m.v):
            found.append(j)
        elif not (m.label in _SEPARATORS or m.w in ("and", "then", "&", "/")):
            break
        j += 1
    if len(found) != n:
        return None
    after = row[found[-1] + 1] if found[-1] + 1 < len(row) else None
    ends = after is None or (
        after.label in ("stop", "line", "question", "comma", "filler", "cue", "pronoun", "sample", "method")
        or after.w in ("in", "and", "so", "mites", "that's", "which", "okay", "i", "we")
    )
    return found if ends else None


def _number(m: Mark) -> Number | None:
    if m.label in ("number", "value", "clean") and "n" in m.v:
        return m.v["n"] if m.v["n"].whole else None
    words = m.w.split()
    plain = m.label == "cols" and len(m.v.get("ids", ())) == 1
    if plain or (m.label in ("w", "number", "value", "clean") and m.w in ("none", "zero", "nothing")):
        number = Number(0, 1) if m.w in ("none", "nothing") else number_at(words, 0)
        return number if number is not None and number.end == len(words) and number.whole else None
    return None


def _count(m: Mark) -> Mark:
    if m.label == "mites":
        return m
    return Mark("value", m.s, m.e, m.w, {**m.v, "n": _number(m)} if m.label == "value" else {"n": _number(m)}, RULE)
