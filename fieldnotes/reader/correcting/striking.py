"""What corrections share: how marks are struck, what puts what right, how far back one looks."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.roster import id_parts

_COUNTS = frozenset("number value mites percent unit amount sample days temp moisture hives clean".split())
FAR = 30
COUNTED_THINGS = THINGS | {"noun", "queen_noun"}


def same_side(old: Mark, new: Mark) -> dict[str, Any]:
    """The day put right lies behind where the wrong one did, and ahead where that did ("yesterday, no, saturday")."""
    was, now = old.v["value"], new.v["value"]
    ahead = was.args[0] > 0 if was.ahead is None and was.form == "offset" and was.args[0] else was.ahead
    if ahead is None or now.ahead is not None:
        return dict(new.v)
    return {**new.v, "value": replace(now, ahead=ahead)}


def strike(row: list[Mark], i: int, j: int, keeper: int) -> None:
    """Takes the marks i..j-1 out of the row; their spans go to the mark that stays at `keeper` (an index before i)."""
    keep = row[keeper]
    keep.v.setdefault("struck", []).extend((x.s, x.e) for x in row[i:j])
    del row[i:j]


def family_of(m: Mark) -> str:
    if m.label in _COUNTS or (m.label == "fact" and "number" in m.v) or m.v.get("noun") == "frames":
        return "count"
    if m.label in ("agent", "form"):
        return "treatment"
    if m.label == "fact":
        return "fact:" + ",".join(sorted(m.v.get("set", {}))) + str(m.v.get("sign", "") and "sign")
    if m.label in ("verb", "change", "queen_work"):
        return "verb"
    return m.label


def cut(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int]:
    """Strikes mark `x` and the cue; the correction itself stays where it is."""
    keep = row[right]
    if keep.label == row[x].label and keep.label in ("amount", "unit", "date") and _moves_little(row, x, cue, right):
        return _in_place(row, x, cue, right)
    end = x + 1
    if keep.label == row[x].label == "date":
        keep.v = same_side(row[x], keep)
    if row[x].label in ("amount", "unit") and end + 1 < cue and row[end].w == "of" and row[end + 1].label == "pronoun":
        end += 2  # "got a quart of it, no, sorry, two quarts"
    keep.v.setdefault("struck", []).extend([(row[x].s, row[end - 1].e), (row[cue].s, row[cue].e)])
    new = row[:x] + row[end:cue] + row[cue + 1 :]
    return new, cue - (end - x)


def _moves_little(row: list[Mark], x: int, cue: int, right: int) -> bool:
    """Whether what is put right belongs where the wrong was: a full stop stands between, or its thing is said again."""
    if any(y.label in ("stop", "line") for y in row[x + 1 : cue]):
        return True
    return row[x].label != "date" and x + 2 < cue and row[x + 1].w == "of" and row[x + 2].label != "pronoun"


def _in_place(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int]:
    """Puts the correction in the place of `x`; the same thing said over after it goes ("a pound of fondant, no, two
    pounds of fondant").
    """
    m, keep = row[x], row[right]
    end = right + 1
    thing = row[x + 1 : x + 3]
    if [y.label for y in row[end : end + 2]] == [y.label for y in thing] and row[end].w == "of":
        end += 2
    m.v = {**(same_side(m, keep) if m.label == "date" else keep.v), "struck": [*m.v.get("struck", [])]}
    m.v["struck"] += [(y.s, y.e) for y in row[cue:end]]
    first = cue
    while first > x + 1 and row[first - 1].label in ("stop", "comma", "filler"):
        first -= 1
    return row[:first] + row[end:], first


SMALL = 12


def ends(row: list[Mark], k: int) -> bool:
    return k >= len(row) or row[k].label in ("stop", "line")


def plain_number(m: Mark) -> Number | None:
    """The number said, be it read as a count or as one colony."""
    if m.label == "cols":
        digits = id_parts(m.v["ids"][0])[1]
        return Number(int(digits), 0) if len(m.v["ids"]) == 1 and digits.isdecimal() else None
    return m.v.get("n") if m.label in ("number", "value", "mites", "clean") else None


def value_after(row: list[Mark], right: int) -> int | None:
    """The index of a count said again straight after the corrected colony ("55 with the 9")."""
    k = right + 1
    while k < len(row) and row[k].w in ("with", "the", "was", "had", "that", "got", "is", ":", "="):
        k += 1
    dose = k + 1 < len(row) and row[k + 1].label in ("each", "item", "form", "agent", "feed", "queen_noun")
    if k < len(row) and k > right and row[k].label in ("value", "number", "mites") and not dose:
        return k
    return None
