"""The digest as a calendar (RFC 5545): an event of whole days for each item."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from icalendar import Calendar, Event

from fieldnotes.digest.layout import printable, visits, when, window
from fieldnotes.records import Due
from fieldnotes.schedule.days import after


def morning_calendar(items: Sequence[Due], day: datetime.date, outfit: str = "") -> bytes:
    """The digest as an iCalendar file, the same bytes for the same items and day.

    An event bears its item's id, so that taking in a later morning's file changes it and adds no second one.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//fieldnotes//morning//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", printable(outfit) or "fieldnotes")
    for item in visits(items):
        calendar.add_component(_event(item, day))
    made: bytes = calendar.to_ical()
    return made


def _event(item: Due, day: datetime.date) -> Event:
    """Over its window; what is late or asked goes on to the day asked for, since it is still to be done."""
    first, last = (datetime.date.fromisoformat(text) for text in (item.due, item.latest))
    last = max(first, last, day) if item.section in ("overdue", "settle") else max(first, last)
    event = Event()
    event.add("uid", f"{item.id}@fieldnotes")
    event.add("dtstamp", datetime.datetime.combine(day, datetime.time(), datetime.UTC))
    event.add("dtstart", first)
    if last < datetime.date.max:
        event.add("dtend", after(last, 1))
    event.add("summary", printable(_heading(item, day)))
    event.add("description", "\n".join(printable(line) for line in _grounds(item, day)))
    if item.yard:
        event.add("location", printable(item.yard))
    event.add("categories", [item.section])
    event.add("transp", "TRANSPARENT")
    if item.section == "overdue":
        event.add("priority", 1)
    return event


def _heading(item: Due, day: datetime.date) -> str:
    """What a phone shows: how late, and what to do where."""
    if item.section == "overdue":
        return f"{when(item, day)}: {item.says}"
    return f"To settle: {item.says}" if item.section == "settle" else item.says


def _grounds(item: Due, day: datetime.date) -> list[str]:
    good = window(item, day)
    lines = [item.says, f"{good[:1].upper()}{good[1:]}." if good else "", item.because.reason]
    if item.caution:
        lines.append(f"Take care: {item.caution}")
    return [line for line in lines if line]
