"""The layout that every face of the digest shares, and its lines as text.

A section holds trucks, a truck holds yards, a yard its items: how late, what to do, why, and what to take care of.
Within a section the yard with the most urgent item comes first.
"""

from __future__ import annotations

import datetime
import re
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from fieldnotes.records import Due
from fieldnotes.schedule.days import spoken_span

WIDTH = 96
_INDENT = 17
_SECTIONS = (
    ("overdue", "Overdue", "overdue", "bold red"),
    ("today", "Today", "for today", "bold yellow"),
    ("coming", "Coming", "coming", "bold cyan"),
    ("settle", "To settle", "to settle", "bold magenta"),
)
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December")  # fmt: skip
NO_YARD = "Yard not said"
NOTHING = "Nothing is due, and nothing comes up in the next seven days."
_UNPRINTABLE = re.compile("[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text and its style ("" for plain)."""

    text: str
    style: str = ""


@dataclass(frozen=True, slots=True)
class Yard:
    """The items of a section in one yard."""

    name: str
    items: list[Due]


@dataclass(frozen=True, slots=True)
class Truck:
    """The yards of a section that one truck serves; no heading where no yard has a truck."""

    heading: str
    yards: list[Yard]


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the digest: its name, its heading, its count in words ("2 overdue"), its style, and what is in it."""

    name: str
    heading: str
    count: int
    words: str
    style: str
    trucks: list[Truck]


def sections(items: Sequence[Due]) -> list[Section]:
    """The sections that have something, in order, their items by truck and yard."""
    items = visits(items)
    found = []
    for name, heading, words, style in _SECTIONS:
        here = [item for item in items if item.section == name]
        if here:
            found.append(Section(name, heading, len(here), f"{len(here)} {words}", style, list(_trucks(here))))
    return found


def morning_lines(items: Sequence[Due], day: datetime.date, outfit: str = "") -> list[Line]:
    """The whole digest, line by line."""
    parts = sections(items)
    lines = [Line(title(day, outfit), "bold"), Line(summary(parts))]
    for section in parts:
        lines += [Line(""), Line(f"{section.heading.upper()} ({section.count})", section.style)]
        for truck in section.trucks:
            if truck.heading:
                lines.append(Line(f" {truck.heading}", "bold"))
            for yard in truck.yards:
                lines.append(Line(f"  {yard.name}", "bold"))
                for item in yard.items:
                    lines += _item(item, day, section.style)
    return lines


def title(day: datetime.date, outfit: str = "") -> str:
    """ "Two Ponds: Tuesday 13 October 2026"."""
    date = f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"
    return f"{printable(outfit)}: {date}" if outfit else date


def summary(parts: Sequence[Section]) -> str:
    """ "2 overdue, 1 coming."."""
    counts = ", ".join(section.words for section in parts)
    return f"{counts}." if counts else NOTHING


def visits(items: Sequence[Due]) -> list[Due]:
    """The items with one line a visit: the next dose of a course says that the one before it comes out."""
    doses = {_visit(item): item for item in items if item.what == "next_dose"}
    shown = []
    for item in items:
        dose = doses.get(_visit(item))
        if item.what != "take_out" or dose is None:
            shown.append(item)
    return shown


def _visit(item: Due) -> tuple[object, ...]:
    where = (item.yard, *item.colonies, item.every_colony, *item.except_colonies, item.colony_count)
    return (*where, item.due, item.latest, *item.because.records)


def _trucks(items: list[Due]) -> Iterator[Truck]:
    rank = {id(item): n for n, item in enumerate(items)}
    by_truck = sorted(items, key=lambda i: (i.truck is None, i.truck or ""))
    many_trucks = any(item.truck for item in items)
    for truck, on_truck in groupby(by_truck, key=lambda i: i.truck):
        yards: dict[str, list[Due]] = {}
        for item in sorted(on_truck, key=lambda i: rank[id(i)]):
            yards.setdefault(printable(item.yard or NO_YARD), []).append(item)
        heading = (f"Truck {printable(truck)}" if truck else "No truck") if many_trucks else ""
        yield Truck(heading, [Yard(name, here) for name, here in yards.items()])


def _item(item: Due, day: datetime.date, style: str) -> Iterator[Line]:
    style = style.removeprefix("bold ") if item.section == "overdue" else ""
    yield from _wrapped(f"{when(item, day):<14}", says_there(item), style)
    if item.because.reason:
        yield from _wrapped("", item.because.reason, "dim")
    if item.caution:
        yield from _wrapped("", f"Take care: {item.caution}", "italic")


def says_there(item: Due) -> str:
    """What an item says below the heading of its yard: without the yard's name."""
    says = item.says
    if item.yard:
        says = says.removeprefix(f"{item.yard}, ").removeprefix(f"{item.yard} ").removeprefix(f"{item.yard}: ")
    return printable(says[:1].upper() + says[1:])


def _wrapped(label: str, text: str, style: str) -> Iterator[Line]:
    head = f"   {label.rstrip()} ".ljust(_INDENT)
    wrapped = textwrap.wrap(printable(text), WIDTH - _INDENT, break_long_words=False, break_on_hyphens=False)
    for n, line in enumerate(wrapped):
        yield Line((head if n == 0 else " " * _INDENT) + line, style)


def when(item: Due, day: datetime.date) -> str:
    """ "4 days over", "till 16 Oct", "from 9 Oct"; nothing for a question."""
    if item.section == "overdue":
        return f"{item.days_over} {'day' if item.days_over == 1 else 'days'} over"
    if item.section == "today":
        latest = datetime.date.fromisoformat(item.latest)
        return "today" if latest == day else f"till {_short(latest, day)}"
    if item.section == "coming":
        return f"from {_short(datetime.date.fromisoformat(item.due), day)}"
    return ""


def _short(date: datetime.date, day: datetime.date) -> str:
    text = f"{date.day} {_MONTHS[date.month - 1][:3]}"
    return text if date.year == day.year else f"{text} {date.year}"


def window(item: Due, day: datetime.date) -> str:
    """ "in good time 14 to 20 August", "in good time on 14 August"; nothing for a question."""
    if item.section == "settle":
        return ""
    first, last = (datetime.date.fromisoformat(text) for text in (item.due, item.latest))
    return f"in good time {'on ' if last <= first else ''}{spoken_span(first, max(first, last), day)}"


def printable(text: str) -> str:
    """Text on one line, fit for any face: what would steer a terminal or turn the writing around shows as a mark."""
    return _UNPRINTABLE.sub("\ufffd", " ".join(text.split()))
