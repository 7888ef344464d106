"""The records replayed in the order of days: what was placed, what came out, what was promised, what was checked.

Everything later is read off the `Ledger`. It looks only at what was said and had happened by the day asked for, and
it does not matter in which order notes were taken: facts sort by their day, then by when they were told.
"""

from __future__ import annotations

import datetime
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.checks import Checks
from fieldnotes.schedule.colonies import Colonies, Colony
from fieldnotes.schedule.days import first_day, iso, last_day
from fieldnotes.schedule.pieces import Lot, Piece, Shelf
from fieldnotes.trade.labels import Stay, stay_of

SINGLE_FORMS = frozenset({"dribble", "vapour", "spray"})
"""Forms that are given and gone: nothing is left in the hive to take out."""


SEASON_DAYS = 21
"""How long what a note said of brood and flow holds: one worker brood cycle."""
LOOKED_DAYS = 7
"""Looks into the hives of a yard this close together are one round. Common practice, no source."""


Word = TypeVar("Word")


@dataclass(frozen=True, slots=True)
class Said(Generic[Word]):
    """Something said of brood or flow, its day and its record."""

    day: datetime.date
    what: Word
    record: StoredRecord


def last_said(said: Sequence[Said[Word]], day: datetime.date) -> Said[Word] | None:
    """The last word by the end of a day, None where it came more than `SEASON_DAYS` before.

    What is said later does not count: brood that is seen in spring was not there at the count in winter. `said` is in
    the order of days.
    """
    at = bisect_right(said, day, key=lambda one: one.day)
    return said[at - 1] if at and (day - said[at - 1].day).days <= SEASON_DAYS else None


def brood_of_hive(said: Sequence[Said[bool]], day: datetime.date) -> list[Said[bool]]:
    """What was said last of the brood of a colony by the end of a day, if anything was."""
    last = last_said(said, day)
    return [] if last is None else [last]


def brood_of_yard(said: Sequence[Said[bool]], day: datetime.date) -> list[Said[bool]]:
    """What a round of looks says of the brood of a yard by the end of a day: the last look, then the last one of its
    round that found brood, where there is one.

    One hive without a queen does not make a yard without brood.
    """
    last = last_said(said, day)
    if last is None:
        return []
    first = bisect_left(said, last.day - datetime.timedelta(days=LOOKED_DAYS), key=lambda one: one.day)
    end = bisect_right(said, last.day, first, key=lambda one: one.day)
    found = next((s for s in reversed(said[first:end]) if s.what), None)
    return [last] if found is None else [last, found]


@dataclass(frozen=True, slots=True)
class Finding:
    """Something seen in a colony, or in a yard, that calls for the inspector: the signs, and the record."""

    record: StoredRecord
    yard: str
    colony: Colony | None
    signs: tuple[str, ...]


@dataclass(slots=True)
class Oddity:
    """Something in the records that only a person can settle: a sentence, and the colonies it is about."""

    record: StoredRecord
    yard: str
    words: str
    cids: tuple[str, ...] = ()


@dataclass
class Ledger:
    """What the records up to a day amount to. `latest` holds, for each colony (or yard whose hives are not named),
    the last piece of each active that was placed or came out there; `brood` and `flow` what was said of them, by day:
    of a colony, and of a yard in any of its colonies."""

    roster: Roster
    day: datetime.date
    colonies: Colonies
    checks: Checks = field(default_factory=Checks)
    treatments: list[Lot] = field(default_factory=list)
    escapes: list[Lot] = field(default_factory=list)
    promises: list[Lot] = field(default_factory=list)
    todos: list[StoredRecord] = field(default_factory=list)
    supers: list[Lot] = field(default_factory=list)
    harvests: list[StoredRecord] = field(default_factory=list)
    looks: list[Lot] = field(default_factory=list)
    gear: list[StoredRecord] = field(default_factory=list)
    conditions: list[StoredRecord] = field(default_factory=list)
    foulbrood: list[Finding] = field(default_factory=list)
    brood: dict[Colony | str, list[Said[bool]]] = field(default_factory=dict)
    flow: dict[str, list[Said[str]]] = field(default_factory=dict)
    oddities: list[Oddity] = field(default_factory=list)
    inside: Shelf = field(default_factory=Shelf)
    escaping: Shelf = field(default_factory=Shelf)
    supered: Shelf = field(default_factory=Shelf)
    looking: Shelf = field(default_factory=Shelf)
    promised: dict[str, Shelf] = field(default_factory=dict)
    latest: dict[Colony | str, dict[str | None, Piece]] = field(default_factory=dict)
    _stays: dict[tuple[str | None, str | None, float | None, int], Stay | None] = field(default_factory=dict)

    def stay(self, piece: Piece) -> Stay | None:
        """The label window of a piece of a treatment, None where no label is known."""
        lot = piece.lot
        key = (lot.get("agent"), lot.get("form"), lot.each, piece.dose)
        if key not in self._stays:
            self._stays[key] = stay_of(*key, self.roster)
        return self._stays[key]

    def has_next(self, piece: Piece) -> bool:
        """Whether the label knows a further dose after this one."""
        stay = self.stay(piece)
        return stay is not None and stay.next_longest is not None

    def starts_anew(self, piece: Piece) -> bool:
        """Whether a treatment of its own began with a piece: no further dose, nor more put to what was in already.

        What goes in on top of the same is more of it until the label's least stay is up; after that it is a new one,
        of which only nobody noted that the old came out.
        """
        if not piece.placing_known or piece.dose > 1:
            return False
        old = piece.before
        if old is None:
            return True
        stay = self.stay(old)
        return stay is not None and stay.least is not None and (piece.lot.first - old.lot.last).days >= stay.least

    def shelves(self) -> list[Shelf]:
        """Every shelf with open pieces."""
        return [self.inside, self.escaping, self.supered, self.looking, *self.promised.values()]

    def season(self, yard: str, colony: Colony | None, day: datetime.date) -> tuple[bool | None, str | None]:
        """What the weeks before the end of a day say of brood (in the colony, else in the yard) and of the flow."""
        broods, flow = self.season_words(yard, colony, day)
        return broods[-1].what if broods else None, flow.what if flow else None

    def season_words(
        self, yard: str, colony: Colony | None, day: datetime.date
    ) -> tuple[list[Said[bool]], Said[str] | None]:
        """What `season` rests on: of brood as by `brood_of_yard`, and of the flow."""
        broods = brood_of_hive(self.brood.get(colony, []), day) if colony else []
        flows = [last_said(self.flow.get(place, []), day) for place in (yard, "")]
        return broods or brood_of_yard(self.brood.get(yard, []), day), flows[0] or flows[1]

    def lots(self) -> list[Lot]:
        """Everything that records opened."""
        return [*self.treatments, *self.escapes, *self.supers, *self.looks, *self.promises]


def is_single(lot: Lot) -> bool:
    """Whether the treatment is given and gone."""
    return lot.get("form") in SINGLE_FORMS and not lot.get("days")


def in_order(records: Iterable[StoredRecord], day: datetime.date) -> list[StoredRecord]:
    """The records that were said and had happened by the end of `day`, each once, in the order they count."""
    events = [(place_in_line(r), r) for r in {r.id: r for r in records}.values() if iso(r.said) <= day]
    events = [e for e in events if e[0][0] <= day]
    events.sort(key=lambda e: e[0])
    return [record for _, record in events]


def place_in_line(record: StoredRecord) -> tuple[datetime.date, str, int, str]:
    """What a record comes after and before, whatever the order in which notes were taken."""
    return event_day(record), record.received, _phase(record), record.id


def event_day(record: StoredRecord) -> datetime.date:
    """The day on which a record counts: a plan when it was said; what closes something on the last day it may
    have been; the rest on the first."""
    phase = _phase(record)
    if phase == 4:
        return iso(record.said)
    return last_day(record) if phase in (0, 3) else first_day(record)


def _phase(record: StoredRecord) -> int:
    """Within one note and day: first what came off and out, then who left or came, then what went in or on, then
    what was looked at, then plans. "Old strips out, new ones in" means it in this order."""
    if record.slots.get("state", "done") != "done" or record.kind == "todo":
        return 4
    if record.slots.get("step") in ("out", "off"):
        return 0
    if record.kind == "change":
        return 1
    return 3 if record.kind in ("mite_check", "harvest", "inspection") else 2
