"""A number and what stands around it: what every question about one number is asked of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fieldnotes.reader.grouping.row import BULLETS, Row, list_end
from fieldnotes.reader.grouping.surroundings import starts_here
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number


@dataclass(slots=True)
class Spot:
    """The number `m` at `i` of the row; `p` and `pp` stand before it, `q` and `z` after it, fillers passed over.

    `last` is what the last number in the sentence was: "cols", "value" or "". `after` stands after the list
    of bare numbers that begins here, at `after_index` of the row; it is `q` itself where no list does.
    """

    r: Row
    i: int
    last: str
    m: Mark
    number: Number
    p: Mark | None
    pp: Mark | None
    q: Mark | None
    z: Mark | None
    after: Mark | None
    after_index: int

    @property
    def starts(self) -> bool:
        """Whether a new statement may begin at the number."""
        return starts_here(self.r, self.i, self.p, self.last)

    @property
    def opens_line(self) -> bool:
        """Whether nothing stands before the number in its line."""
        return self.p is None or self.p.label == "line"


Question = Callable[[Spot], bool | None]
"""Asks one thing of a number: True, a colony; False, none; None, no answer: the next is asked."""


def spot_at(r: Row, i: int, last: str) -> Spot:
    """The number at `i` with its neighbours."""
    before, m = r.back(i), r.row[i]
    if before >= 0 and r.row[before].w in BULLETS:
        first = before
        while first >= 0 and r.row[first].w in BULLETS:
            first -= 1
        if first < 0 or r.row[first].label == "line":
            before = first  # a bullet only opens the line
    p = r.at(before)
    pp = r.at(r.back(before)) if p else None
    after = r.on(i)
    end = list_end(r, i)
    return Spot(r, i, last, m, m.v["n"], p, pp, r.at(after), r.at(r.on(after)), r.at(end), end)
