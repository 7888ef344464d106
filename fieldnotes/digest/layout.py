"""The lines of the digest, each with the style it has where there is colour.

A section holds trucks, a truck holds yards, a yard its items: how late, what to do, why, and what to take care of.
Within a section the yard with the most urgent item comes first.
"""

from __future__ import annotations

import datetime
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from fieldnotes.records import Due

WIDTH = 96
_INDENT = 17
_SECTIONS = (
    ("overdue", "OVERDUE", "bold red"),
    ("today", "TODAY", "bold yellow"),
    ("coming", "COMING", "bold cyan"),
    ("settle", "TO SETTLE", "bold magenta"),
)
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December")  # fmt: skip
NO_YARD = "Yard not said"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text and its style ("" for plain)."""

    text: str
    style: str = ""


def morning_lines(items: Sequence[Due], day: datetime.date, outfit: str = "") -> list[Line]:
    """The whole digest, line by line."""
    items = visits(items)
    title = f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"
    lines = [Line(f"{outfit}: {title}" if outfit else title, "bold"), Line(_summary(items))]
    for name, heading, style in _SECTIONS:
        here = [item for item in items if item.section == name]
        if here:
            lines += [Line(""), Line(f"{heading} ({len(here)})", style), *_section(here, day, style)]
    return lines


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


def _summary(items: Sequence[Due]) -> str:
    if not items:
        return "Nothing is due, and nothing comes up in the next seven days."
    parts = []
    for name, word in (("overdue", "overdue"), ("today", "for today"), ("coming", "coming"), ("settle", "to settle")):
        count = sum(item.section == name for item in items)
        if count:
            parts.append(f"{count} {word}")
    return f"{', '.join(parts)}."


def _section(items: list[Due], day: datetime.date, style: str) -> Iterator[Line]:
    rank = {id(item): n for n, item in enumerate(items)}
    by_truck = sorted(items, key=lambda i: (i.truck is None, i.truck or ""))
    many_trucks = any(item.truck for item in items)
    for truck, on_truck in groupby(by_truck, key=lambda i: i.truck):
        if many_trucks:
            yield Line(f" Truck {truck}" if truck else " No truck", "bold")
        yards: dict[str, list[Due]] = {}
        for item in sorted(on_truck, key=lambda i: rank[id(i)]):
            yards.setdefault(item.yard or "", []).append(item)
        for yard, here in yards.items():
            yield Line(f"  {yard or NO_YARD}", "bold")
            for item in here:
                yield from _item(item, day, style)


def _item(item: Due, day: datetime.date, style: str) -> Iterator[Line]:
    says = item.says
    if item.yard:
        says = says.removeprefix(f"{item.yard}, ").removeprefix(f"{item.yard} ").removeprefix(f"{item.yard}: ")
    says = says[:1].upper() + says[1:]
    yield from _wrapped(
        f"{_when(item, day):<14}", says, style.removeprefix("bold ") if item.section == "overdue" else ""
    )
    if item.because.reason:
        yield from _wrapped("", item.because.reason, "dim")
    if item.caution:
        yield from _wrapped("", f"Take care: {item.caution}", "italic")


def _wrapped(label: str, text: str, style: str) -> Iterator[Line]:
    head = f"   {label}".ljust(_INDENT)
    wrapped = textwrap.wrap(" ".join(text.split()), WIDTH - _INDENT, break_long_words=False, break_on_hyphens=False)
    for n, line in enumerate(wrapped):
        yield Line((head if n == 0 else " " * _INDENT) + line, style)


def _when(item: Due, day: datetime.date) -> str:
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
