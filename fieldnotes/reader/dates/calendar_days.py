"""Days of the calendar: Monday, Friday the 14th, June 3, the 14th."""

from __future__ import annotations

from fieldnotes.reader.dates.elements import day_of_month, month_at, short_year, weekday_at, year_at
from fieldnotes.reader.dates.figures import in_figures
from fieldnotes.reader.dates.months import month_alone
from fieldnotes.reader.dates.when import When
from fieldnotes.reader.dates.words import Tables
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.numbers import number_at, ordinal_at

_NOT_DAY_AFTER = listed("no_days")
_BEFORE_DAYS = listed("before_days")


def calendar_day(w: list[str], i: int, t: Tables, day_first: bool) -> tuple[When, int] | None:
    n = len(w)
    start = i
    prep = w[i] == "on"
    if prep and i and w[i - 1] in ("hang", "hold"):
        return None  # "no hang on | saturday"
    if prep and i + 1 < n:
        i += 1
    # weekday, alone or with a date
    weekday = weekday_at(w, i, t)
    if weekday is not None:
        j = i + 1
        if j < n and w[j] == ".":
            after = month_at(w, j + 1, t) is not None
            j += 1 if after or (w[i] in ("mon", "tue", "wed", "thu", "fri") and j + 1 < n and w[j + 1] == ",") else 0
        k = j + 1 if j < n and w[j] in (",", "the") else j
        if k < n and w[k - 1] == "," and w[k] == "the":
            k += 1
        if k < n and w[k] not in t.weekdays:
            dated = month_day(w, k, t)
            if dated:
                month, dom, year, end = dated
                return (When("ymd", (year, month, dom)) if year else When("wmd", (weekday, month, dom))), end
            dom_found = day_of_month(w, k)
            if dom_found and dom_found[2] and (dom_found[1] >= n or w[dom_found[1]] not in _NOT_DAY_AFTER):
                return When("dom_week", (weekday, dom_found[0])), dom_found[1]
            numeric = in_figures(w, k, day_first)
            if numeric:
                return numeric
        tail = w[j : j + 3]
        if tail[:2] == ["next", "week"]:
            return When("weekday", (weekday, "next", 0), True), j + 2
        if tail[:2] == ["last", "week"]:
            return When("weekday", (weekday, "this", -7), False), j + 2
        if tail[:2] == ["this", "week"]:
            return When("weekday", (weekday, "this", 0)), j + 2
        if tail in (["of", "next", "week"], ["from", "next", "week"]):
            return When("weekday", (weekday, "next", 0), True), j + 3
        if tail in (["of", "last", "week"], ["from", "last", "week"]):
            return When("weekday", (weekday, "this", -7), False), j + 3
        if tail == ["of", "this", "week"]:
            return When("weekday", (weekday, "this", 0)), j + 3
        if tail[:2] == ["after", "next"]:
            return When("weekday", (weekday, "plain", 7), True), j + 2
        if tail[:1] == ["week"]:
            return When("weekday", (weekday, "plain", 7), True), j + 1
        if tail[:1] in (["morning"], ["afternoon"], ["evening"], ["night"]):
            j += 1
        if tail[:1] == ["gone"]:
            return When("weekday", (weekday, "last", 0), False), j + 1
        return When("weekday", (weekday, "plain", 0)), j
    dated = month_day(w, i, t)
    if dated and not _numbers_something_else(w, i, start, t, day_first):
        month, dom, year, end = dated
        k = end + 1 if end < n and w[end] == "," else end
        weekday = weekday_at(w, k, t) if k > end and k < n else None
        if weekday is not None and not year:
            return When("wmd", (weekday, month, dom)), k + 1
        return (When("ymd", (year, month, dom)) if year else When("md", (month, dom))), end
    numeric = in_figures(w, i, day_first)
    if numeric:
        return numeric
    # the 14th
    j = i + 1 if w[i] == "the" and i + 1 < n else i
    told = start == i and i > 0 and w[i][:1].isdecimal() and w[i - 1] in _BEFORE_DAYS  # "out 24th"
    if j > i or prep or told:
        dom_found = day_of_month(w, j)
        if dom_found and (dom_found[2] or (j > i and n == dom_found[1] and w[j].isdecimal())):
            dom, end, _ = dom_found
            tail = w[end : end + 4]
            next_hive = prep and tail[:1] in (["hive"], ["colony"]) and number_at(w, end + 1) is not None
            high = dom > 12 and tail[:1] and tail[0] in ("cells", "queens", "strips", "pads", "supers")
            if (
                tail[:1] and tail[0] in _NOT_DAY_AFTER and not next_hive and not high
            ):  # "on the twenty fifth | hive two is weak"
                return None
            if w[j] in ("first", "second") and j == i and prep:
                return None  # "need to get the excluders on first"
            if (
                w[j] in ("first", "second")
                and not prep
                and not (start and w[start - 1] in ("by", "until", "till", "for", "due"))
            ):
                # "the first one", "the second": a date only where a date is asked for
                return None
            return When("dom", (dom,)), end
    return month_alone(w, i, start, t)


def month_day(w: list[str], i: int, t: Tables) -> tuple[int, int, int | None, int] | None:
    """Month and day in either order: (month, day, year or None, index after)."""
    n = len(w)
    month = month_at(w, i, t)
    if month:
        j = i + 1
        if j < n and w[j] == "." and w[i] not in ("may", "march", "june", "july"):
            j += 1
        if j < n and w[j] == "the":
            j += 1
        dom = day_of_month(w, j)
        if dom and not (dom[1] < n and w[dom[1]] in ("%", "percent")) and not _counts_something(w, i, dom):
            year, end = year_at(w, dom[1])
            return month, dom[0], year, end
        return None
    j = i + 1 if w[i] == "the" else i
    dom = day_of_month(w, j)
    if dom:
        k = dom[1]
        if k < n and w[k] == "day" and k + 1 < n and w[k + 1] == "of":
            k += 1
        if k < n and w[k] in ("of", "-", "/"):
            k += 1
        month = month_at(w, k, t)
        if month and (dom[2] or w[k] not in ("may", "march", "mar") or w[k - 1] == "of" or w[j].isdecimal()):
            k += 1
            if k < n and w[k] in (".",) and k + 1 < n and w[k + 1].isdecimal() and len(w[k + 1]) == 4:
                k += 1
            year, end = year_at(w, k)
            signed = (
                k + 1 < n and w[k] in ("-", "/") and w[k - 2 : k - 1] == w[k : k + 1]
            )  # "11-july-26", not "11 July - 30"
            if year is None and signed and short_year(w[k + 1]):
                year, end = short_year(w[k + 1]), k + 2
            return month, dom[0], year, end
    return None


def _counts_something(w: list[str], i: int, dom: tuple[int, int, bool]) -> bool:
    """ "may 5 hives …", "march 3 colonies over": a number of things after a word that is also a verb."""
    return (
        w[i] in ("may", "march", "mar") and not dom[2] and dom[1] < len(w) and w[dom[1]] in ("hives", "colonies", "of")
    )


def _numbers_something_else(w: list[str], i: int, start: int, t: Tables, day_first: bool) -> bool:
    """Whether a bare number before a month is no day of it, since the day comes after ("strips from 12 | june 3")."""
    dom = day_of_month(w, i)
    if (
        start != i
        or dom is None
        or dom[2]
        or month_at(w, dom[1], t) is None
        or w[i - 1 : i] in (["on"], ["the"], ["by"])
    ):
        return False
    after = month_day(w, dom[1], t)
    return after is not None and (not day_first or ordinal_at(w, dom[1] + 1) is not None)
