"""Dates worked out: which days an expression means, said on a day, of a plan or of a report."""

from __future__ import annotations

import calendar
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any


@dataclass(frozen=True, slots=True)
class When:
    """A date expression, not yet worked out. `form` says which rule of `resolve` reads `args`.

    `ahead` is True for what can only lie ahead ("tomorrow", "in ten days"), False for what can only
    lie behind ("two weeks ago"), None where the statement decides.
    """

    form: str
    args: tuple[Any, ...]
    ahead: bool | None = None

    @property
    def is_today(self) -> bool:
        """Whether it is the day of the message ("today", "this morning", "tonight")."""
        return self.form == "offset" and self.args[0] == 0

    @property
    def is_to_come(self) -> bool:
        """Whether the words by themselves say that it lies ahead."""
        return self.ahead is True or (self.form == "offset" and self.args[0] > 0)


def _month_end(year: int, month: int) -> date:
    return date(year, month, calendar.monthrange(year, month)[1])


def _shift_months(day: date, months: int) -> date:
    at = day.year * 12 + day.month - 1 + months
    year, month = divmod(at, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def day_of(year: int, month: int, day: int) -> date | None:
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
            found_day = day_of(*a)
            return (found_day, found_day) if found_day else None
        case "md":
            month, dom = a
            years = range(today.year, today.year + 9) if plan else range(today.year, today.year - 9, -1)
            for y in years:
                found_day = day_of(y, month, dom)
                if found_day and (found_day > today if plan else found_day <= today):
                    return found_day, found_day
            return None
        case "dom":
            for step in range(13):
                at = today.year * 12 + today.month - 1 + (step if plan else -step)
                found_day = day_of(at // 12, at % 12 + 1, a[0])
                if found_day and (found_day > today if plan else found_day <= today):
                    return found_day, found_day
            return None
        case "dom_of":  # the 20th of next month
            at = today.year * 12 + today.month - 1 + a[1]
            found_day = day_of(at // 12, at % 12 + 1, a[0])
            return (found_day, found_day) if found_day else None
        case "dom_week":  # Thursday the 15th: the next (or last) 15th that is a Thursday
            weekday, dom = a
            for step in range(60):
                at = today.year * 12 + today.month - 1 + (step if plan else -step)
                found_day = day_of(at // 12, at % 12 + 1, dom)
                if found_day and found_day.weekday() == weekday and (found_day > today if plan else found_day <= today):
                    return found_day, found_day
            return None
        case "wmd":  # Friday, July 18: the nearest July 18 that is a Friday, else July 18
            weekday, month, dom = a
            near = [d for y in range(today.year - 1, today.year + 3) if (d := day_of(y, month, dom))]
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
            month, part, of_year = a
            if of_year is not None:
                return _part_of(of_year, month, part)
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
