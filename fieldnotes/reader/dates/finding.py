"""Date expressions found: whether one begins at a word, and where it ends."""

from __future__ import annotations

from fieldnotes.reader.dates.calendar_days import calendar_day
from fieldnotes.reader.dates.months import day_of_this_month, nth_weekday
from fieldnotes.reader.dates.relative import relative
from fieldnotes.reader.dates.when import When
from fieldnotes.reader.dates.words import Tables, tables
from fieldnotes.reader.numbers import Number, number_at, ordinal_at

_BEFORE_DATES = frozenset("on the in a an from at past over back some several few".split())
"""Words that begin a date only together with the word after them."""
_BEFORE_NUMBERS = frozenset(["in", "on", "at"])
_NUMBER_AND_MORE = frozenset("a an half couple dozen another".split())
"""Number words after which more of the number may come than the number alone has ("half a day ago")."""


def date_openers() -> frozenset[str]:
    """The words of letters with which a date can begin."""
    return tables().starts


def date_at(w: list[str], i: int, day_first: bool) -> tuple[When, int] | None:
    """The date expression that begins at word `i`, and the index after it; None where there is none."""
    t = tables()
    word = w[i]
    if i and w[i - 1] in _ITS and _names_today(w, i):
        return None
    if i and w[i - 1] in _BEFORE_HALF and w[i : i + 3] == ["1", "/", "2"]:
        return None  # "done 1/2, rest tomorrow"
    if word in _BEFORE_DATES:
        after = w[i + 1] if i + 1 < len(w) else " "
        if after not in t.seconds and not after[0].isdecimal() and after[0] != ".":
            return None
        if word in _BEFORE_NUMBERS and word not in t.before_numbers and after not in _NUMBER_AND_MORE:
            number = number_at(w, i + 1)  # "in twelve", "on 14": mostly a colony
            if number is not None and not _dates_by_number(w, i + 1, number, t):
                return None
    elif word not in t.starts:
        number = number_at(w, i)
        if number is None and not word[0].isdecimal():
            return None
        if number is not None and word not in _NUMBER_AND_MORE and not _dates_by_number(w, i, number, t):
            return None
    found = (
        _fixed(w, i, t)
        or nth_weekday(w, i, t)
        or day_of_this_month(w, i)
        or relative(w, i, t)
        or calendar_day(w, i, t, day_first)
    )
    if found is not None and i and w[i - 1] == "for" and w[found[1] : found[1] + 1] == ["'s"]:
        return None  # "banked three for next week's people": whose they are, and no day
    return found


_BEFORE_HALF = frozenset(["done", "did", "still", "about", "only", "just"])
_ITS = frozenset(["it's", "its", "today's"])


def _names_today(w: list[str], i: int) -> bool:
    """ "it's the fifth so the pads come out on the nineteenth": the day it is, and no day of any work."""
    at = next((k for k in range(i, min(len(w), i + 4)) if ordinal_at(w, k) is not None), None)
    return at is not None and w[at + 1 : at + 2] in (["so"], ["today"], ["already"], [","])


def _dates_by_number(w: list[str], i: int, number: Number, t: Tables) -> bool:
    """Whether the number at `i` can be part of a date, by what follows it."""
    after = w[number.end] if number.end < len(w) else " "
    return after in t.after_number or ordinal_at(w, i) is not None


def _fixed(w: list[str], i: int, t: Tables) -> tuple[When, int] | None:
    for length in range(t.longest.get(w[i], 0), 0, -1):
        entry = t.days.get(tuple(w[i : i + length]))
        if entry and i + length <= len(w):
            return When("offset", (entry[0],), entry[1]), i + length
    return None
