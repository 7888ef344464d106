"""Days: ISO text to dates and back, and a date as a person says it."""

from __future__ import annotations

import datetime
from functools import lru_cache
from typing import Any

from fieldnotes.records import StoredRecord

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December")  # fmt: skip


@lru_cache(maxsize=10_000)
def iso(text: str) -> datetime.date:
    """The date that begins an ISO date or date-time."""
    return datetime.date.fromisoformat(text[:10])


def after(day: datetime.date, days: int) -> datetime.date:
    """`days` later, held within the calendar's last day."""
    try:
        return day + datetime.timedelta(days=days)
    except OverflowError:
        return datetime.date.max


def first_day(record: StoredRecord) -> datetime.date:
    """The day of the fact, or the first day it may have been; the day it was said where no day was."""
    return iso(record.slots.get("on") or record.said)


def last_day(record: StoredRecord) -> datetime.date:
    """The last day the fact may have been: `on_until`, but for work done not past the day it was said."""
    first = first_day(record)
    until: Any = record.slots.get("on_until")
    if not until:
        return first
    last = iso(until)
    if record.slots.get("state", "done") == "done":
        last = min(last, max(first, iso(record.said)))
    return max(first, last)


def spoken(day: datetime.date, today: datetime.date) -> str:
    """ "14 August", with the year where it is not this one."""
    words = f"{day.day} {_MONTHS[day.month - 1]}"
    return words if day.year == today.year else f"{words} {day.year}"


def spoken_span(first: datetime.date, last: datetime.date, today: datetime.date) -> str:
    """ "14 August" or "14 to 20 August"."""
    if first == last:
        return spoken(first, today)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {spoken(last, today)}"
    return f"{spoken(first, today)} to {spoken(last, today)}"
