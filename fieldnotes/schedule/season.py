"""Gear that goes on or comes off by the calendar, where the roster asks for it."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from fieldnotes.records import StoredRecord
from fieldnotes.roster import SeasonTask
from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.days import first_day, spoken_span
from fieldnotes.schedule.drafts import Draft, Place
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import reach_of
from fieldnotes.schedule.tasks import task_words

OVER_DAYS = 60
"""So long after its last day a task of the season is asked for no more. Common practice, no source."""
EARLY_DAYS = 45
"""Gear that went on this long before its time was put on for it. Common practice, no source."""


def season_items(ledger: Ledger, promised: Iterable[Draft]) -> list[Draft]:
    """Feeders, mouse guards, wraps and the like, in the yards and at the time that the roster names.

    Where somebody promised the same work, the promise speaks for it.
    """
    by_hand = {(d.step, d.at.colony or d.at.yard) for d in promised if d.at.colony or d.at.said_all}
    drafts: list[Draft] = []
    for task in ledger.roster.practice.season:
        first, last = _window(task, ledger.day)
        if (ledger.day - last).days > OVER_DAYS:
            continue
        for yard in task.yards or [y.name for y in ledger.roster.yard]:
            drafts += _in_yard(ledger, task, yard, first, last)
    return [d for d in drafts if not {(d.step, d.at.colony), (d.step, d.at.yard)} & by_hand]


def _window(task: SeasonTask, day: datetime.date) -> tuple[datetime.date, datetime.date]:
    """The window of the task that began last, or begins within the coming week."""
    windows = []
    for year in (day.year - 1, day.year, day.year + 1):
        first, last = _date(year, task.first), _date(year, task.last)
        windows.append((first, last if last >= first else _date(year + 1, task.last)))
    begun = [w for w in windows if w[0] <= day + datetime.timedelta(days=7)]
    return begun[-1]


def _date(year: int, month_day: str) -> datetime.date:
    month, day = (int(part) for part in month_day.split("-"))
    for fitting in (day, 30, 29, 28):
        try:
            return datetime.date(year, month, min(day, fitting))
        except ValueError:
            continue
    return datetime.date(year, month, 28)


def _in_yard(ledger: Ledger, task: SeasonTask, yard: str, first: datetime.date, last: datetime.date) -> list[Draft]:
    done = _done_there(ledger, task, yard, first - datetime.timedelta(days=EARLY_DAYS))
    living = ledger.colonies.of(yard)
    places: list[Colony | None] = [c for c in living if c not in done] if living else [None]
    if None in done:
        return []
    words = task_words(
        StoredRecord(id="", note_id="", received="", said="", kind="gear", slots={"item": task.item, "step": task.step})
    )
    return [
        Draft(
            what="promise",
            at=Place(yard, colony=colony),
            key=("season", task.item, task.step, first.isoformat()),
            due=first,
            latest=last,
            do=words,
            since=f", every year {spoken_span(first, last, ledger.day)}",
            reasons=["The outfit's roster asks for it"],
            step=("gear", task.step, task.item),
        )
        for colony in places
    ]


def _done_there(ledger: Ledger, task: SeasonTask, yard: str, since: datetime.date) -> set[Colony | None]:
    """The colonies where it was done since a day; None among them stands for the whole yard."""
    done: set[Colony | None] = set()
    for record in ledger.gear:
        if (record.slots.get("item"), record.slots.get("step")) != (task.item, task.step) or first_day(record) < since:
            continue
        reach = reach_of(record)
        if reach.yard != yard:
            continue
        if reach.cids:
            done |= {ledger.colonies.named(yard, cid) for cid in reach.cids}
        elif reach.spared:
            done |= {c for c in ledger.colonies.of(yard) if c.cid not in reach.spared}
        else:
            done.add(None)
    return done
