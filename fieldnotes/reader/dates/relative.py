"""Dates counted from the day of the message: next Monday, last week, in ten days, two weeks ago."""

from __future__ import annotations

from fieldnotes.reader.dates.elements import weekday_at
from fieldnotes.reader.dates.when import When
from fieldnotes.reader.dates.words import Tables
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.numbers import number_at

_WEEK = 7
_STAYING = listed("staying")
_VAGUE_AMOUNTS: tuple[tuple[tuple[str, ...], float], ...] = (
    (("a", "couple", "of"), 2),
    (("a", "couple"), 2),
    (("couple", "of"), 2),
    (("couple",), 2),
    (("half", "a"), 0.5),
)


def relative(w: list[str], i: int, t: Tables) -> tuple[When, int] | None:
    n = len(w)
    word = w[i]
    # this/next/last/coming Monday, week, month, season
    j = i + 1 if word == "the" else i
    if j < n and w[j] in ("this", "next", "last", "coming", "past", "previous", "following") and j + 1 < n:
        mode = {"coming": "plain", "past": "last", "previous": "last", "following": "next"}.get(w[j], w[j])
        k = j + 1
        if mode == "this" and w[k] == "coming" and k + 1 < n:
            mode, k = "plain", k + 1
        if mode == "this" and w[k] == "past" and k + 1 < n:
            mode, k = "last", k + 1
        weekday = weekday_at(w, k, t)
        if weekday is not None:
            ahead = {"next": True, "last": False}.get(mode, True if w[j] == "coming" or w[k - 1] == "coming" else None)
            return When("weekday", (weekday, "plain" if mode == "plain" else mode, 0), ahead), k + 1
        offset = {"this": 0, "next": 1, "last": -1}.get(mode)
        if offset is not None and j == i:
            ahead = {1: True, -1: False}.get(offset)
            if w[k] in ("week", "wk"):
                weekday = weekday_at(w, k + 1, t)
                if weekday is not None:
                    return When("weekday", (weekday, "this", 7 * offset), ahead), k + 2
                return When("week", (offset,), ahead), k + 1
            if w[k] == "weekend":
                return When("weekend", (offset,), ahead), k + 1
            if w[k] == "month":
                return When("this_month", (offset, None), ahead), k + 1
            if w[k] in t.seasons:
                return When("season", (t.seasons[w[k]], mode), ahead), k + 1
            if w[k] in t.months and w[k] not in ("mar", "dec", "jan"):
                return When("month", (t.months[w[k]], None, None), ahead), k + 1
    if w[j : j + 3] == ["week", "after", "next"]:
        return When("week", (2,), True), j + 3
    if w[j : j + 1] in (["weekend"], ["wkend"]) and word == "the":
        return When("weekend", (0,)), j + 1  # "by the weekend"
    if word in ("over", "on") and w[i + 1 : i + 3] in (["the", "weekend"], ["the", "wkend"]):
        return When("weekend", (0,)), i + 3
    # in ten days, in 10 to 14 days
    if (
        word == "in"
        and i + 1 < n
        and not (
            i
            and (
                w[i - 1] in _STAYING
                or (
                    i > 1
                    and w[i - 1] in ("em", "them", "it", "those", "these")
                    and w[i - 2] in ("leave", "leaving", "left", "keep")
                )
            )
        )
    ):
        found = _span(w, i + 1, t)
        if found and w[found[1] : found[1] + 1] not in (["ago"], ["back"], ["later"], ["earlier"]):
            low, high, unit, end = found[0][0], found[0][1], found[0][2], found[1]
            if end < n and w[end] in ("time", "or", "s") and w[end : end + 2] != ["or", "so"]:
                end += 1 if w[end] == "time" else 0
            return _from_span(low, high, unit, +1), end
        if w[i + 1] == "the" and i + 2 < n and w[i + 2] in t.seasons:
            return When("season", (t.seasons[w[i + 2]], "tense")), i + 3
    # two weeks ago, ten days from now, a week from Friday
    found = _span(w, i, t)
    if found:
        (low, high, unit), j = found
        rest = w[j : j + 2]
        weekday = weekday_at(w, j + 1, t) if rest[:1] == ["ago"] and unit == _WEEK and low == high else None
        if weekday is not None:
            return When("weekday", (weekday, "last", -int(low * unit)), False), j + 2  # "a week ago friday"
        if rest[:1] == ["ago"] or rest == ["back", "then"]:
            return _from_span(low, high, unit, -1), j + 1
        if rest[:1] == ["back"] and (j + 1 >= n or w[j + 1] not in ("in", "on", "at", "to", "from")):
            return _from_span(low, high, unit, -1), j + 1
        if rest in (["from", "now"], ["from", "today"]) or rest[:1] == ["hence"]:
            return _from_span(low, high, unit, +1), j + (1 if rest[:1] == ["hence"] else 2)
        if rest == ["from", "tomorrow"] and unit > 0:
            return When("days", (low * unit + 1, high * unit + 1), True), j + 2
        if rest[:1] in (["from"], ["after"]) and unit > 0:
            k = j + 1
            mode = "plain"
            if k < n and w[k] in ("this", "next", "coming"):
                mode, k = ("next" if w[k] == "next" else "plain"), k + 1
            weekday = weekday_at(w, k, t)
            if weekday is not None:
                return When("weekday", (weekday, mode, int(low * unit)), True), k + 1
    # three Fridays from now, two Thursdays ago
    count = number_at(w, i)
    if count and count.end + 1 < n and w[count.end].rstrip("s") in t.weekdays and w[count.end].endswith("s"):
        weekday = t.weekdays[w[count.end].rstrip("s")]
        after = w[count.end + 1 : count.end + 3]
        weeks = 7 * (int(count.value) - 1)
        if after == ["from", "now"]:
            return When("weekday", (weekday, "plain", weeks), True), count.end + 3
        if after[:1] in (["ago"], ["back"]):
            return When("weekday", (weekday, "last", -weeks), False), count.end + 2
    # end of the month
    if w[i : i + 4] == ["end", "of", "the", "month"]:
        return When("month_end", ()), i + 4
    if w[i : i + 5] == ["the", "end", "of", "the", "month"]:
        return When("month_end", ()), i + 5
    return None


def _amount(w: list[str], i: int) -> tuple[float, int] | None:
    """A number of days, weeks or months: "ten", "a", "a couple of"."""
    if i >= len(w):
        return None
    for words, value in _VAGUE_AMOUNTS if w[i] in ("a", "couple", "half") else ():
        if tuple(w[i : i + len(words)]) == words:
            return value, i + len(words)
    if w[i] in ("a", "an", "another"):
        return 1, i + 1
    found = number_at(w, i)
    return (found.value, found.end) if found else None


def _span(w: list[str], i: int, t: Tables) -> tuple[tuple[float, float, int], int] | None:
    """A stretch of time: ((low, high, days a unit or minus months), index after)."""
    amount = _amount(w, i)
    if not amount:
        return None
    low, j = amount
    high = low
    if j < len(w) and w[j] in ("to", "or", "-", "–"):
        second = _amount(w, j + 1)
        if second and second[0] > low and second[1] < len(w) and w[second[1]] in t.spans:
            high, j = second
    if j < len(w) and w[j] == "more":
        j += 1
    if j < len(w) and w[j] in t.spans:
        return (low, high, t.spans[w[j]]), j + 1
    return None


def _from_span(low: float, high: float, unit: int, sign: int) -> When:
    if unit < 0:
        return When("months", (int(sign * low * -unit),), sign > 0)
    a, b = int(sign * low * unit), int(sign * high * unit)
    return When("days", (min(a, b), max(a, b)), sign > 0)
