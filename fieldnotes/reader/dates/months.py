"""Months by themselves, and days within them: late June, the first Monday of June, the 20th of next month."""

from __future__ import annotations

from fieldnotes.reader.dates.elements import day_of_month, month_at, weekday_at, year_at
from fieldnotes.reader.dates.when import When
from fieldnotes.reader.dates.words import PARTS, Tables
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.numbers import ordinal_at

_NO_DAYS = listed("no_days")


def month_alone(w: list[str], i: int, start: int, t: Tables) -> tuple[When, int] | None:
    """ "in March", "late June", "the middle of July", "this spring" without a day."""
    n = len(w)
    j = i
    lead = w[j] in ("in", "back", "since", "during", "by", "until", "till", "around") and j + 1 < n
    if w[j : j + 2] == ["back", "in"]:
        j += 2
    elif lead and w[j] != "back":
        j += 1
    if j < n and w[j] == "the" and j + 1 < n:
        j += 1
    part = None
    if j + 1 < n and w[j] in PARTS:
        part = PARTS[w[j]]
        j += 1
        if w[j] in ("-", "of", "in"):
            j += 1
    month = month_at(w, j, t) if j < n else None
    if month is None:
        if part and j < n and w[j] in t.seasons:
            return When("season", (t.seasons[w[j]], "tense")), j + 1
        return None
    sure = (
        part
        or lead
        or w[i : i + 2] == ["back", "in"]
        or (start > 0 and w[start - 1] in ("in", "since", "of", "by", "late", "early"))
    )
    day = ordinal_at(w, j + 1)
    if not sure or (day is not None and not part and w[day[1] : day[1] + 1] and w[day[1]] not in _NO_DAYS):
        return None
    if day is not None and not part and day[1] == n:
        return None  # "they went in | april first"
    year, end = year_at(w, j + 1)
    return When("month", (month, part, year)), end


def nth_weekday(w: list[str], i: int, t: Tables) -> tuple[When, int] | None:
    """The first Monday of June, the last Friday in October, the last day of May."""
    j = i + 1 if w[i] == "the" else i
    if j + 2 >= len(w):
        return None
    nth: int | None = None
    if w[j] == "last":
        nth, j = -1, j + 1
    else:
        ordinal = ordinal_at(w, j)
        if ordinal:
            nth, j = ordinal
            if j < len(w) and w[j] == "last":
                nth, j = -nth, j + 1
    if nth is None or j + 1 >= len(w):
        return None
    if w[j] == "day":
        weekday = None
    else:
        weekday = weekday_at(w, j, t)
        if weekday is None:
            return None
    if w[j + 1] not in ("of", "in") or j + 2 >= len(w):
        return None
    k = j + 2
    if w[k] in ("the", "this", "next", "last", "current", "previous") and k + 1 < len(w):
        offset = {"next": "1", "last": "-1", "previous": "-1"}.get(w[k], "0")
        if w[k + 1] == "month":
            return When("nth", (nth, weekday, offset, None)), k + 2
        return None
    month = month_at(w, k, t)
    if not month:
        return None
    year, end = year_at(w, k + 1)
    return When("nth", (nth, weekday, month, year)), end


def day_of_this_month(w: list[str], i: int) -> tuple[When, int] | None:
    """The 20th of next month, 20 of this month."""
    j = i + 1 if w[i] == "on" else i
    j = j + 1 if w[j : j + 1] == ["the"] else j
    dom = day_of_month(w, j)
    if not dom:
        return None
    k = dom[1] + 1 if w[dom[1] : dom[1] + 1] == ["day"] else dom[1]
    if w[k : k + 1] != ["of"]:
        return None
    k = k + 2 if w[k + 1 : k + 2] == ["the"] else k + 1
    offset = {"this": 0, "current": 0, "next": 1, "coming": 1, "last": -1, "previous": -1}.get(" ".join(w[k : k + 1]))
    if offset is None or w[k + 1 : k + 2] != ["month"]:
        return None
    return When("dom_of", (dom[0], offset), {1: True, -1: False}.get(offset)), k + 2
