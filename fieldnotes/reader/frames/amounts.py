"""How many of a thing, how much of it, and for how many days."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of, neighbour, number_of
from fieldnotes.reader.grammar import listed, meanings
from fieldnotes.reader.mark import Mark

UNIT_OF = meanings("measures")
_BEFORE_THINGS = listed("before_things")
OWN_UNITS = frozenset(["strip", "pad", "wafer", "sponge"])
"""Forms that are their own unit: "two each" of them are two strips."""
HONEY_UNITS = frozenset(["bucket", "barrel", "gallon", "lb", "kg"])


def amount_of(m: Mark) -> tuple[float, str | None]:
    """Number and unit of an amount ("two gallons", "a bag")."""
    words: list[str] = m.v["words"]
    unit = next((UNIT_OF[w] for w in reversed(words) if w in UNIT_OF), None)
    if "and" in words:  # "a kilo and a half": the half is a number of its own
        return (m.v["n"].value + m.v["n2"].value if "n2" in m.v else 1 + m.v["n"].value), unit
    if "n" in m.v:
        return number_of(m).value, unit
    return (0.5 if "half" in words else 1), unit


def _of_the(statement: Statement, k: int) -> Mark | None:
    """The "one" of "one of the two strips", where "two" stands at `k`."""
    before = statement.marks[max(0, k - 3) : k]
    if [m.w for m in before[-2:]] == ["of", "the"] and len(before) == 3 and "n" in before[0].v:
        return before[0]
    return None


def _limit(statement: Statement, k: int) -> bool:
    """Whether the number at `k` is one not to be passed ("if the high stays under eighty five | formic pads go in")."""
    before = statement.marks[k - 1] if k else None
    over = before is not None and before.w in ("under", "over", "below", "above", "past")
    return over and any(m.label == "cue" and m.v.get("cue") == "if" for m in statement.marks[:k])


def count_before(statement: Statement, m: Mark) -> tuple[float | None, Mark | None]:
    """The number said of a thing: before it ("two supers"), as an article (1), or as "2 each" after it."""
    if m.label == "item" and "n" in m.v:
        return number_of(m).value, m
    k = index_of(statement, m)
    j = k - 1
    while j >= 0 and (
        statement.marks[j].label in ("filler", "approx", "agent")
        or (statement.marks[j].label == "w" and statement.marks[j].w in _BEFORE_THINGS)
    ):
        j -= 1
    if j >= 0:
        p = statement.marks[j]
        if p.label in ("number", "value") and "n" in p.v and not _limit(statement, j):
            p = _of_the(statement, j) or p
            return (number_of(p).value, p) if number_of(p).value > 0 else (None, None)
        if p.label == "w" and p.w in ("a", "an", "another"):
            half = statement.marks[j - 1] if j and statement.marks[j - 1].w == "half" else None
            return (0.5, half) if half is not None else (1, p)  # "half a pollen patty"
        if p.label == "each" and p.w in ("a box", "a nuc", "a hive"):
            return None, None
    for j in range(k + 1, len(statement.marks)):
        p = statement.marks[j]
        if p.label in ("number", "value") and "n" in p.v:
            after = neighbour(statement, j, 1)
            beyond = neighbour(statement, j + 1, 1)
            if after is not None and (
                after.label == "each"
                or (after.w in ("in", "on", "to", "for") and beyond is not None and beyond.label == "every")
            ):
                return number_of(p).value, p
        if p.label in ("item", "agent", "feed"):
            break
    for j in range(k + 1, len(statement.marks)):
        p = statement.marks[j]
        before, after = statement.marks[j - 1], statement.marks[j + 1] if j + 1 < len(statement.marks) else None
        apart = before.label in ("comma", "cols") or before.w in ("-", "–", ":", "=", "—")
        if (
            p.label in ("number", "value")
            and "n" in p.v
            and apart
            and (after is None or after.label in ("comma", "days"))
        ):
            return number_of(p).value, p  # "hop strips in, 2"; a row of a table: "L5, supers on, 2"
    for j in range(k - 1, -1, -1):
        p = statement.marks[j]
        if p.label == "number":
            after = neighbour(statement, j, 1)
            if after is not None and after.label == "each":
                return number_of(p).value, p
    return None, None


def days_of(m: Mark) -> float:
    if "days" in m.v:
        return float(m.v["days"])
    return float(round(number_of(m).value * float(m.v.get("times", 1)), 2))
