"""Date expressions: found in the words of a note, and worked out against the day of the message.

Finding and working out are apart, because which Monday is meant depends on whether the statement is a
plan or a report, and that is known only later. The conventions:

* "Monday" of a plan is the first one after the message, of a report the last one before it;
  "this Wednesday" is in the week of the message (weeks begin on Monday), "next Wednesday" in the
  next week, "last Wednesday" the last one before the day of the message.
* "The 14th", "June 3", "6/3": of a report the latest such day not after the message, of a plan the first one after it.
* "In March" is the whole month, "early/mid/late June" 1-10, 11-20, 21 to the end, seasons are
  meteorological (three whole months) by hemisphere.

Everything here is a pure function of the words and the day.
"""

from __future__ import annotations

import calendar
from dataclasses import dataclass
from datetime import MAXYEAR, MINYEAR, date, timedelta
from typing import Any

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.numbers import Number, is_number_word, number_at, number_openers, ordinal_at

PARTS = {
    "early": "early",
    "beginning": "early",
    "start": "early",
    "mid": "mid",
    "middle": "mid",
    "late": "late",
    "end": "late",
}
_BEFORE_DATES = frozenset("on the in a an from at past over back some several few".split())
"""Words that begin a date only together with the word after them."""
_BEFORE_NUMBERS = frozenset(["in", "on", "at"])
_NUMBER_AND_MORE = frozenset("a an half couple dozen another".split())
"""Number words after which more of the number may come than the number alone has ("half a day ago")."""
_NOT_SAT_BEFORE = frozenset("i we it she he they just have had has been bees and who that cluster queen".split())
_NOT_SAT_AFTER = frozenset("on in down there at around for under with".split())
_NOT_SUN_BEFORE = frozenset("the full in of hot morning afternoon evening more some no".split())
_NOT_MAY_AFTER = frozenset(
    "be have need get not want still also just well never yet swarm die make take go come have've as".split()
)
_NOT_MARCH_AFTER = frozenset("over across up down into out around through back".split())
_STAYING = frozenset(
    ("stay stays stayed been be left leave leaves sat sit kept keep were was had go going staying sits").split()
)
_NOT_DAY_AFTER = frozenset(
    (
        "round rounds rnd rnds time one ones dose doses treatment application colony hive hives frame frames box "
        "boxes super supers week weeks day days wash washes roll rolls check story deep pass batch row half year "
        "month strip strips queen cell cells pad pads tray split yard truck floor lot part side feed count visit "
        "year's"
    ).split()
)


@dataclass(frozen=True, slots=True)
class When:
    """A date expression, not yet worked out. `form` says which rule of `resolve` reads `args`.

    `ahead` is True for what can only lie ahead ("tomorrow", "in ten days"), False for what can only
    lie behind ("two weeks ago"), None where the statement decides.
    """

    form: str
    args: tuple[Any, ...]
    ahead: bool | None = None


def _month_end(year: int, month: int) -> date:
    return date(year, month, calendar.monthrange(year, month)[1])


def _shift_months(day: date, months: int) -> date:
    at = day.year * 12 + day.month - 1 + months
    year, month = divmod(at, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def _day_of(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def resolve(when: When, today: date, plan: bool, hemisphere: str = "north") -> tuple[date, date] | None:
    """First and last day meant by `when`, said on `today`; `plan` is True where what is said lies ahead.

    None where there is no such day (February 30) or it lies outside the calendar.
    """
    try:
        return _resolve(when, today, plan, hemisphere)
    except (ValueError, OverflowError):
        return None


def _resolve(when: When, today: date, plan: bool, hemisphere: str) -> tuple[date, date] | None:
    a = when.args
    if when.ahead is not None:
        plan = when.ahead
    monday = today - timedelta(days=today.weekday())
    match when.form:
        case "offset":
            found = today + timedelta(days=a[0])
            return found, found
        case "weekday":
            weekday, mode, extra = a
            if mode == "this":
                found = monday + timedelta(days=weekday)
                if plan and extra == 0 and found < today:
                    found += timedelta(days=7)  # a plan for "this Thursday", said on a Sunday
            elif mode == "next":
                found = monday + timedelta(days=7 + weekday)
            elif plan and mode != "last":
                found = today + timedelta(days=(weekday - today.weekday() - 1) % 7 + 1)
            else:
                found = today - timedelta(days=(today.weekday() - weekday - 1) % 7 + 1)
            found += timedelta(days=extra)
            return found, found
        case "days":
            low, high = a
            return today + timedelta(days=low), today + timedelta(days=high)
        case "months":
            found = _shift_months(today, a[0])
            return found, found
        case "ymd":
            found_day = _day_of(*a)
            return (found_day, found_day) if found_day else None
        case "md":
            month, dom = a
            years = range(today.year, today.year + 9) if plan else range(today.year, today.year - 9, -1)
            for year in years:
                found_day = _day_of(year, month, dom)
                if found_day and (found_day > today if plan else found_day <= today):
                    return found_day, found_day
            return None
        case "dom":
            for step in range(13):
                at = today.year * 12 + today.month - 1 + (step if plan else -step)
                found_day = _day_of(at // 12, at % 12 + 1, a[0])
                if found_day and (found_day > today if plan else found_day <= today):
                    return found_day, found_day
            return None
        case "dom_of":  # the 20th of next month
            at = today.year * 12 + today.month - 1 + a[1]
            found_day = _day_of(at // 12, at % 12 + 1, a[0])
            return (found_day, found_day) if found_day else None
        case "dom_week":  # Thursday the 15th: the next (or last) 15th that is a Thursday
            weekday, dom = a
            for step in range(60):
                at = today.year * 12 + today.month - 1 + (step if plan else -step)
                found_day = _day_of(at // 12, at % 12 + 1, dom)
                if found_day and found_day.weekday() == weekday and (found_day > today if plan else found_day <= today):
                    return found_day, found_day
            return None
        case "wmd":  # Friday, July 18: the nearest July 18 that is a Friday, else July 18
            weekday, month, dom = a
            near = [d for y in range(today.year - 1, today.year + 3) if (d := _day_of(y, month, dom))]
            fit = [d for d in near if d.weekday() == weekday]
            if not fit:
                return _resolve(When("md", (month, dom)), today, plan, hemisphere)
            found_day = min(fit, key=lambda d: abs((d - today).days))
            return found_day, found_day
        case "week":
            start = monday + timedelta(days=7 * a[0])
            return start, start + timedelta(days=6)
        case "weekend":
            start = monday + timedelta(days=5 + 7 * a[0])
            if a[0] == 0 and not plan and today.weekday() < 5:
                start -= timedelta(days=7)
            return start, start + timedelta(days=1)
        case "month":
            month, part, year = a
            if year is not None:
                return _part_of(year, month, part)
            days = _part_of(today.year, month, part)
            if plan and days[1] < today:
                return _part_of(today.year + 1, month, part)
            if not plan and days[0] > today:
                return _part_of(today.year - 1, month, part)
            return days
        case "this_month":
            offset, part = a
            first = _shift_months(today.replace(day=1), offset)
            return _part_of(first.year, first.month, part)
        case "month_end":
            found = _month_end(today.year, today.month)
            return found, found
        case "season":
            return _season(a[0], a[1], today, plan, hemisphere)
        case "nth":  # the first Tuesday of October; n < 0 counts from the end; weekday None: any day
            n, weekday, month, year = a
            return _nth(n, weekday, month, year, today, plan)
    raise ValueError(when.form)


def _part_of(year: int, month: int, part: str | None) -> tuple[date, date]:
    first, last = {"early": (1, 10), "mid": (11, 20), "late": (21, 31), None: (1, 31)}[part]
    end = _month_end(year, month)
    return date(year, month, first), min(end, date(year, month, min(last, end.day)))


def _season(season: int, mode: str, today: date, plan: bool, hemisphere: str) -> tuple[date, date]:
    first_month = (3, 6, 9, 12)[season] if hemisphere == "north" else (9, 12, 3, 6)[season]
    starts = [date(year, first_month, 1) for year in range(today.year - 2, today.year + 3)]
    spans = [(s, _shift_months(s, 3) - timedelta(days=1)) for s in starts]
    now = next((s for s in spans if s[0] <= today <= s[1]), None)
    if mode == "last":
        return [s for s in spans if s[1] < today][-1]
    if mode == "next":
        return next(s for s in spans if s[0] > today)
    if now:
        return now
    return next(s for s in spans if s[0] > today) if plan else [s for s in spans if s[1] < today][-1]


def _nth(
    n: int, weekday: int | None, month: int | str, year: int | None, today: date, plan: bool
) -> tuple[date, date] | None:
    if isinstance(month, str):
        base = _shift_months(today.replace(day=1), int(month))
        month, year = base.month, base.year
    years = [year] if year else [today.year + k for k in ((0, 1) if plan else (0, -1))]
    for candidate in years:
        end = _month_end(candidate, month)
        days = [date(candidate, month, d) for d in range(1, end.day + 1)]
        fitting = [d for d in days if weekday is None or d.weekday() == weekday]
        if abs(n) > len(fitting):
            continue
        found = fitting[n - 1] if n > 0 else fitting[n]
        if year or (found > today if plan else found <= today):
            return found, found
    return None


class _Tables:
    """The word tables, looked up once."""

    def __init__(self) -> None:
        tables = grammar().tables
        self.weekdays: dict[str, int] = tables["weekdays"]
        self.months: dict[str, int] = tables["months"]
        self.seasons: dict[str, int] = tables["seasons"]
        self.spans: dict[str, int] = tables["spans"]
        ahead = frozenset(tables["ahead"]["words"])
        self.days = {
            tuple(k.split()): (v, True if k in ahead else (False if v < 0 else None)) for k, v in tables["days"].items()
        }
        self.longest: dict[str, int] = {}
        """How many words the longest of `days` has, by its first word."""
        for k in self.days:
            self.longest[k[0]] = max(len(k), self.longest.get(k[0], 0))
        self.before_numbers = frozenset(k[0] for k in self.days if len(k) > 1 and is_number_word(k[1]))
        self.starts = (
            frozenset(self.weekdays) | frozenset(self.months) | frozenset(self.seasons) | {k[0] for k in self.days}
            | frozenset(
    (
    "on the this next last in a an one from at couple past over early mid late beginning end start middle back"
    ).split()
)
            | frozenset(["first", "second", "third", "fourth", "fifth"]) | frozenset(["few", "some", "several", "half"])
        )  # fmt: skip

        self.after_number = (
            frozenset(self.months) | frozenset(self.spans) | frozenset(f"{day}s" for day in self.weekdays)
            | frozenset("of day / - – to or more".split())
        )  # fmt: skip
        self.seconds = (
            frozenset(self.weekdays) | frozenset(self.months) | frozenset(self.seasons) | frozenset(self.spans)
            | frozenset(PARTS) | number_openers() | frozenset(word for k in self.days for word in k[1:2])
            | frozenset(
                "this next last coming past previous following the couple back day in of week weekend wkend "
                "month current few several some another pair to or more - –".split()
            )
        )  # fmt: skip


_tables: _Tables | None = None


def tables() -> _Tables:
    """The date words of the grammar."""
    global _tables
    if _tables is None:
        _tables = _Tables()
    return _tables


def date_openers() -> frozenset[str]:
    """The words of letters with which a date can begin."""
    return tables().starts


def date_at(w: list[str], i: int, day_first: bool) -> tuple[When, int] | None:
    """The date expression that begins at word `i`, and the index after it; None where there is none."""
    t = tables()
    word = w[i]
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
    return (
        _fixed(w, i, t)
        or _nth_weekday(w, i, t)
        or _dom_of_month(w, i)
        or _relative(w, i, t)
        or _calendar(w, i, t, day_first)
    )


def _dates_by_number(w: list[str], i: int, number: Number, t: _Tables) -> bool:
    """Whether the number at `i` can be part of a date, by what follows it."""
    after = w[number.end] if number.end < len(w) else " "
    return after in t.after_number or ordinal_at(w, i) is not None


def _fixed(w: list[str], i: int, t: _Tables) -> tuple[When, int] | None:
    for length in range(t.longest.get(w[i], 0), 0, -1):
        entry = t.days.get(tuple(w[i : i + length]))
        if entry and i + length <= len(w):
            return When("offset", (entry[0],), entry[1]), i + length
    return None


def _weekday(w: list[str], i: int, t: _Tables) -> int | None:
    """The weekday at word `i`, unless the word is more likely itself ("sat down", "full sun")."""
    if i >= len(w) or w[i] not in t.weekdays:
        return None
    before, after = (w[i - 1] if i else ""), (w[i + 1] if i + 1 < len(w) else "")
    if w[i] == "sat" and (before in _NOT_SAT_BEFORE or after in _NOT_SAT_AFTER):
        return None
    if w[i] == "sun" and (before in _NOT_SUN_BEFORE):
        return None
    return t.weekdays[w[i]]


_VAGUE_AMOUNTS: tuple[tuple[tuple[str, ...], float], ...] = (
    (("a", "couple", "of"), 2),
    (("a", "couple"), 2),
    (("couple", "of"), 2),
    (("couple",), 2),
    (("half", "a"), 0.5),
)


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


def _relative(w: list[str], i: int, t: _Tables) -> tuple[When, int] | None:
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
        weekday = _weekday(w, k, t)
        if weekday is not None:
            ahead = {"next": True, "last": False}.get(mode, True if w[j] == "coming" or w[k - 1] == "coming" else None)
            return When("weekday", (weekday, "plain" if mode == "plain" else mode, 0), ahead), k + 1
        offset = {"this": 0, "next": 1, "last": -1}.get(mode)
        if offset is not None and j == i:
            ahead = {1: True, -1: False}.get(offset)
            if w[k] in ("week", "wk"):
                weekday = _weekday(w, k + 1, t)
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
    if word == "over" and w[i + 1 : i + 3] in (["the", "weekend"], ["the", "wkend"]):
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
        if found and w[found[1] : found[1] + 1] not in (["ago"], ["back"]):
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
            weekday = _weekday(w, k, t)
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


def _span(w: list[str], i: int, t: _Tables) -> tuple[tuple[float, float, int], int] | None:
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


def _year(w: list[str], i: int) -> tuple[int | None, int]:
    """A year at word `i` (with or without a comma), and the index after it."""
    j = i + 1 if i < len(w) and w[i] in (",", "/", "-") else i
    if j < len(w) and w[j].isdecimal() and len(w[j]) == 4 and 1900 <= int(w[j]) <= 2100:
        return int(w[j]), j + 1
    return None, i


def _short_year(word: str) -> int | None:
    if word.isdecimal() and len(word) == 2:
        return 2000 + int(word) if int(word) < 70 else 1900 + int(word)
    if word.isdecimal() and len(word) == 4 and MINYEAR < int(word) < MAXYEAR:
        return int(word)
    return None


def _dom(w: list[str], i: int) -> tuple[int, int, bool] | None:
    """A day of the month: (day, index after, said as an ordinal)."""
    if i >= len(w):
        return None
    ordinal = ordinal_at(w, i)
    if ordinal and 1 <= ordinal[0] <= 31:
        return ordinal[0], ordinal[1], True
    found = number_at(w, i)
    if found and found.value == int(found.value) and 1 <= found.value <= 31 and found.whole:
        return int(found.value), found.end, False
    return None


def _month(w: list[str], i: int, t: _Tables) -> int | None:
    """The month at word `i`, unless the word is more likely itself ("9 may be queenless", "they march over")."""
    if i >= len(w):
        return None
    after = w[i + 1] if i + 1 < len(w) else ""
    if (w[i] == "may" and after in _NOT_MAY_AFTER) or (w[i] == "march" and after in _NOT_MARCH_AFTER):
        return None
    return t.months.get(w[i].rstrip("."))


def _calendar(w: list[str], i: int, t: _Tables, day_first: bool) -> tuple[When, int] | None:
    n = len(w)
    start = i
    prep = w[i] == "on"
    if prep and i + 1 < n:
        i += 1
    # weekday, alone or with a date
    weekday = _weekday(w, i, t)
    if weekday is not None:
        j = i + 1
        if j < n and w[j] == ".":
            after = _month(w, j + 1, t) is not None
            j += 1 if after or (w[i] in ("mon", "tue", "wed", "thu", "fri") and j + 1 < n and w[j + 1] == ",") else 0
        k = j + 1 if j < n and w[j] in (",", "the") else j
        if k < n and w[k - 1] == "," and w[k] == "the":
            k += 1
        if k < n and w[k] not in t.weekdays:
            dated = _month_day(w, k, t)
            if dated:
                month, dom, year, end = dated
                return (When("ymd", (year, month, dom)) if year else When("wmd", (weekday, month, dom))), end
            dom_found = _dom(w, k)
            if dom_found and dom_found[2] and (dom_found[1] >= n or w[dom_found[1]] not in _NOT_DAY_AFTER):
                return When("dom_week", (weekday, dom_found[0])), dom_found[1]
            numeric = _numeric(w, k, day_first)
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
    dated = _month_day(w, i, t)
    if dated and not _numbers_something_else(w, i, start, t, day_first):
        month, dom, year, end = dated
        k = end + 1 if end < n and w[end] == "," else end
        weekday = _weekday(w, k, t) if k > end and k < n else None
        if weekday is not None and not year:
            return When("wmd", (weekday, month, dom)), k + 1
        return (When("ymd", (year, month, dom)) if year else When("md", (month, dom))), end
    numeric = _numeric(w, i, day_first)
    if numeric:
        return numeric
    # the 14th
    j = i + 1 if w[i] == "the" and i + 1 < n else i
    if j > i or prep:
        dom_found = _dom(w, j)
        if dom_found and (dom_found[2] or (j > i and n == dom_found[1] and w[j].isdecimal())):
            dom, end, _ = dom_found
            tail = w[end : end + 4]
            if tail[:1] and tail[0] in _NOT_DAY_AFTER:
                return None
            if (
                w[j] in ("first", "second")
                and not prep
                and not (start and w[start - 1] in ("by", "until", "till", "for", "due"))
            ):
                # "the first one", "the second": a date only where a date is asked for
                return None
            return When("dom", (dom,)), end
    return _month_alone(w, i, start, t)


def _numbers_something_else(w: list[str], i: int, start: int, t: _Tables, day_first: bool) -> bool:
    """Whether a bare number before a month is no day of it, since the day comes after ("strips from 12 | june 3")."""
    dom = _dom(w, i)
    if start != i or dom is None or dom[2] or _month(w, dom[1], t) is None or w[i - 1 : i] in (["on"], ["the"], ["by"]):
        return False
    after = _month_day(w, dom[1], t)
    return after is not None and (not day_first or ordinal_at(w, dom[1] + 1) is not None)


def _dom_of_month(w: list[str], i: int) -> tuple[When, int] | None:
    """The 20th of next month, 20 of this month."""
    j = i + 1 if w[i] == "on" else i
    j = j + 1 if w[j : j + 1] == ["the"] else j
    dom = _dom(w, j)
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


def _month_day(w: list[str], i: int, t: _Tables) -> tuple[int, int, int | None, int] | None:
    """Month and day in either order: (month, day, year or None, index after)."""
    n = len(w)
    month = _month(w, i, t)
    if month:
        j = i + 1
        if j < n and w[j] == "." and w[i] not in ("may", "march", "june", "july"):
            j += 1
        if j < n and w[j] == "the":
            j += 1
        dom = _dom(w, j)
        if dom and not (dom[1] < n and w[dom[1]] in ("%", "percent")) and not _counts_something(w, i, dom):
            year, end = _year(w, dom[1])
            return month, dom[0], year, end
        return None
    j = i + 1 if w[i] == "the" else i
    dom = _dom(w, j)
    if dom:
        k = dom[1]
        if k < n and w[k] == "day" and k + 1 < n and w[k + 1] == "of":
            k += 1
        if k < n and w[k] in ("of", "-", "/"):
            k += 1
        month = _month(w, k, t)
        if month and (dom[2] or w[k] not in ("may", "march", "mar") or w[k - 1] == "of" or w[j].isdecimal()):
            k += 1
            if k < n and w[k] in (".",) and k + 1 < n and w[k + 1].isdecimal() and len(w[k + 1]) == 4:
                k += 1
            year, end = _year(w, k)
            signed = (
                k + 1 < n and w[k] in ("-", "/") and w[k - 2 : k - 1] == w[k : k + 1]
            )  # "11-july-26", not "11 July - 30"
            if year is None and signed and _short_year(w[k + 1]):
                year, end = _short_year(w[k + 1]), k + 2
            return month, dom[0], year, end
    return None


def _counts_something(w: list[str], i: int, dom: tuple[int, int, bool]) -> bool:
    """ "may 5 hives …", "march 3 colonies over": a number of things after a word that is also a verb."""
    return (
        w[i] in ("may", "march", "mar") and not dom[2] and dom[1] < len(w) and w[dom[1]] in ("hives", "colonies", "of")
    )


def _numeric(w: list[str], i: int, day_first: bool) -> tuple[When, int] | None:
    """6/3, 6/3/26, 2026-06-03, 3.6.2026."""
    n = len(w)
    if w[i].count(".") == 2 and w[i].replace(".", "").isdecimal():
        first, second, last = w[i].split(".")
        year = _short_year(last)
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
    if i + 4 < n and w[i + 3] == sign and (year := _short_year(w[i + 4])):
        if sign != "/" and int(w[i]) + 2 == int(w[i + 2]) + 1 == int(w[i + 4]):
            return None  # "12-13-14" is three colonies
        found = _order(w[i], w[i + 2], year, day_first)
        return (found, i + 5) if found else None
    if (
        sign != "/"
        or len(w[i + 2]) > 2
        or len(w[i]) > 2
        or w[i + 3 : i + 4] in (["cup"], ["cups"], ["a"], ["frame"], ["gal"], ["gallon"], ["lb"])
    ):
        return None
    before = w[i - 1] if i else ""
    found = _order(w[i], w[i + 2], None, day_first)
    if found is None or (
        before not in ("on", "by", "since", "from", "until", "till", "due", "out", "in", "of", "")
        and before.isalpha()
        and i + 3 < n
        and w[i + 3].isalpha()
    ):
        return None
    return found, i + 3


def _order(first: str, second: str, year: int | None, day_first: bool) -> When | None:
    month, dom = (int(second), int(first)) if day_first else (int(first), int(second))
    if month > 12 and dom <= 12:
        month, dom = dom, month
    if not (1 <= month <= 12 and 1 <= dom <= 31):
        return None
    return When("ymd", (year, month, dom)) if year else When("md", (month, dom))


def _nth_weekday(w: list[str], i: int, t: _Tables) -> tuple[When, int] | None:
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
        weekday = _weekday(w, j, t)
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
    month = _month(w, k, t)
    if not month:
        return None
    year, end = _year(w, k + 1)
    return When("nth", (nth, weekday, month, year)), end


def _month_alone(w: list[str], i: int, start: int, t: _Tables) -> tuple[When, int] | None:
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
    month = _month(w, j, t) if j < n else None
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
    if not sure:
        return None
    year, end = _year(w, j + 1)
    return When("month", (month, part, year)), end
