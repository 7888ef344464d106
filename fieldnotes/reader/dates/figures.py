"""Dates in figures: 6/3, 6/3/26, 2026-06-03, 3.6.2026."""

from __future__ import annotations

from fieldnotes.reader.dates.elements import short_year
from fieldnotes.reader.dates.when import When
from fieldnotes.reader.grammar import listed

_DATED_WORK = listed("dated_work")


def in_figures(w: list[str], i: int, day_first: bool) -> tuple[When, int] | None:
    """6/3, 6/3/26, 2026-06-03, 3.6.2026."""
    n = len(w)
    if w[i].count(".") == 2 and w[i].replace(".", "").isdecimal():
        first, second, last = w[i].split(".")
        year = short_year(last)
        dotted = _order(first, second, year, day_first) if first and second and year else None
        return (dotted, i + 1) if dotted else None
    if not w[i].isdecimal() or i + 2 >= n or w[i + 1] not in ("/", "-", "–"):
        return None
    sign = w[i + 1]
    if not w[i + 2].isdecimal():
        return None
    if len(w[i]) == 4:
        if i + 4 < n and w[i + 3] == sign and w[i + 4].isdecimal():
            return When("ymd", (int(w[i]), int(w[i + 2]), int(w[i + 4]))), i + 5
        return None
    if sign == "/" and (w[i - 1 : i] == ["/"] or w[i + 3 : i + 6 : 2] == ["/", "/"]):
        return None  # "14/22/9/61": counts in a row
    if sign == "/" and w[i + 3 : i + 4] == [sign] and _no_year(int(w[i]), int(w[i + 2]), w[i + 4 : i + 5]):
        return None  # "fondant on 3/5/8", "3/9/15 dead": three colonies
    if i + 4 < n and w[i + 3] == sign and (year := short_year(w[i + 4])):
        if sign != "/" and int(w[i]) + 2 == int(w[i + 2]) + 1 == int(w[i + 4]):
            return None  # "12-13-14" is three colonies
        found = _order(w[i], w[i + 2], year, day_first)
        return (found, i + 5) if found else None
    if (
        sign != "/"
        or len(w[i + 2]) > 2
        or len(w[i]) > 2
        or w[i + 3 : i + 4]
        in (["cup"], ["cups"], ["c"], ["a"], ["frame"], ["gal"], ["gallon"], ["lb"], ["day"], ["days"])
    ):
        return None
    before = w[i - 1] if i else ""
    scored = bool(_SCORED.intersection(w[i + 3 : i + 4])) and before not in ("on", "by", "since", "\n", "")
    if (
        scored
        or before in _SCORED
        or before in ("rnd", "round", "rd", "dose", "but", "except", "bar")
        or (before == ":" and w[i - 2] in _SCORED)
    ):
        return None  # "brood 4/10, temper 1/5", "all but 3/8"
    part = int(w[i]) < int(w[i + 2]) < 5  # "wash 1/2 c", "3/4 full"
    found = _order(w[i], w[i + 2], None, day_first)
    if found is None or (
        before not in ("on", "by", "since", "from", "until", "till", "due", "out", "in", "of", "")
        and before.isalpha()
        and i + 3 < n
        and w[i + 3].isalpha()
        and (part or before not in _DATED_WORK or w[i + 3] in _COUNTED)
        and (part or w[i + 3] not in _DATED_WORK or not _opens_line(w, i))
    ):
        return None
    return found, i + 3


_FIRST_YEAR = 20
"""Of this century: lower numbers that rise with the two before them are colonies, since the notes are of today."""


def _no_year(first: int, second: int, third: list[str]) -> bool:
    if not third or not third[0].isdecimal():
        return False
    return len(third[0]) == 1 or (first < second < int(third[0]) < _FIRST_YEAR)


_SCORED = frozenset("brood bees food stores temper strength pattern score honey pollen bars seams".split())
_COUNTED = frozenset(["bees", "bee", "mites", "full", "cup", "c", "frames", "of", "in", "sample"])


def _opens_line(w: list[str], i: int) -> bool:
    """Whether at most two words stand before the date in its line ("Mill Lane 5/30 wash")."""
    return any(k < 0 or w[k].startswith("\n") for k in (i - 2, i - 3))


def _order(first: str, second: str, year: int | None, day_first: bool) -> When | None:
    month, dom = (int(second), int(first)) if day_first else (int(first), int(second))
    if month > 12 and dom <= 12:
        month, dom = dom, month
    if not (1 <= month <= 12 and 1 <= dom <= 31):
        return None
    return When("ymd", (year, month, dom)) if year else When("md", (month, dom))
