"""What is open in which colonies: the parts of a placement or a promise, and how later records close them.

A record that opens something makes a `Lot`; the lot is cut into `Piece`s, one for each colony it names. Where
colonies are not named a piece stands for a number of hives, or for a whole yard whose colonies nobody listed.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass, field
from typing import Any

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.colonies import Colonies, Colony
from fieldnotes.schedule.days import first_day, last_day


@dataclass(frozen=True, slots=True)
class Reach:
    """Which colonies a record speaks of. With no ids and no count it is the yard as a whole."""

    yard: str
    cids: tuple[str, ...] = ()
    spared: frozenset[str] = frozenset()
    count: int | None = None
    said_all: bool = False

    @property
    def whole(self) -> bool:
        """The yard as a whole."""
        return not self.cids and self.count is None


def reach_of(record: StoredRecord) -> Reach:
    """The colonies that a record speaks of."""
    slots: dict[str, Any] = record.slots
    said_all = bool(slots.get("every_colony"))
    cids = () if said_all else tuple(slots.get("colonies", []))
    return Reach(
        yard=slots.get("yard") or "",
        cids=cids,
        spared=frozenset(slots.get("except_colonies", [])),
        count=None if said_all or cids else slots.get("colony_count"),
        said_all=said_all,
    )


@dataclass(frozen=True, slots=True)
class End:
    """When and by what a piece ended.

    `how`: "out" removed · "single" given and gone · "renewed" by the next dose · "left" the colony is gone ·
    "done" the promise was kept · "replaced" by a later plan.
    """

    first: datetime.date
    last: datetime.date
    how: str
    record: StoredRecord


_FORMS_OF = {"strip": "strip", "pad": "pad", "wafer": "wafer", "sponge": "sponge", "tray": "gel"}
"""The form of what is counted in these units."""


def form_of(record: StoredRecord) -> str | None:
    """The form of a treatment: as said, else as what was counted shows it."""
    said: str | None = record.slots.get("form")
    return said or _FORMS_OF.get(record.slots.get("unit", ""))


@dataclass(eq=False, slots=True)
class Lot:
    """What one record opened.

    `each` is the units in each colony, where known; `taken` and `lost` count hives that are out or gone without
    anybody saying which; `loose` is units still in somewhere, of `loose_of`; `event` names a lot of the queen
    calendar; `also` are records that tell of the same thing, `touched` those that changed it without ending a piece.
    `assumed` is the active and form of a treatment of which the note did not say them, `goes_on` the records of the
    treatments that it may go on with.
    """

    record: StoredRecord
    yard: str
    first: datetime.date
    last: datetime.date
    whole: bool = False
    each: float | None = None
    pieces: list[Piece] = field(default_factory=list)
    taken: int = 0
    lost: int = 0
    loose: float | None = None
    loose_of: float | None = None
    event: str = ""
    also: list[StoredRecord] = field(default_factory=list)
    touched: list[StoredRecord] = field(default_factory=list)
    assumed: dict[str, str] = field(default_factory=dict)
    goes_on: list[StoredRecord] = field(default_factory=list)

    def get(self, slot: str) -> Any:
        """A slot of the record that opened it; a form that was not said shows in what was counted, and an active in
        what it goes on with."""
        said = form_of(self.record) if slot == "form" else self.record.slots.get(slot)
        return self.assumed.get(slot) if said is None else said

    def open_pieces(self) -> list[Piece]:
        """The pieces not ended."""
        return [p for p in self.pieces if p.end is None]

    def told_by(self) -> list[StoredRecord]:
        """Every record that made it what it is."""
        ends = [p.end.record for p in self.pieces if p.end is not None]
        return [self.record, *self.also, *self.touched, *self.goes_on, *ends]

    def remaining(self) -> int | None:
        """Hives still open, None where the yard's colonies are not known."""
        pieces = self.open_pieces()
        if any(p.colony is None and p.count is None for p in pieces):
            return None
        return max(0, sum(1 if p.count is None else p.count for p in pieces) - self.taken - self.lost)


@dataclass(eq=False, slots=True)
class Piece:
    """One colony of a lot; or, with no colony, `count` unnamed hives; or, with neither, a yard but for `spared`.

    `given` units went in, `units` are still in. `dose` is its number in the course, `counted` whether the keeper
    counts rounds, `before` the piece it follows, `followed` whether a further dose came. `partly` are the records
    by which only part came out. `placing_known` is False for what came out without going in. `apart` marks a part that
    ended apart from the rest of its lot. `stage` counts the looks of the queen calendar that were done, `looked` is the
    day of the last one.
    """

    lot: Lot
    colony: Colony | None = None
    count: int | None = None
    spared: set[str] = field(default_factory=set)
    end: End | None = None
    given: float | None = None
    units: float | None = None
    dose: int = 1
    counted: bool = False
    before: Piece | None = None
    followed: bool = False
    placing_known: bool = True
    apart: bool = False
    partly: list[StoredRecord] = field(default_factory=list)
    stage: int = 0
    looked: datetime.date | None = None

    @property
    def yard(self) -> str:
        """Where it is now."""
        return self.colony.yard if self.colony else self.lot.yard


Fits = Callable[[Lot], bool]


class Shelf:
    """The open pieces of one sort of thing, found by colony and by yard."""

    def __init__(self) -> None:
        self._by_colony: dict[Colony, list[Piece]] = {}
        self._in_yard: dict[str, dict[Colony, None]] = {}
        self._unnamed: dict[str, list[Piece]] = {}

    def put(self, piece: Piece) -> None:
        """Add an open piece."""
        if piece.colony is None:
            self._unnamed.setdefault(piece.lot.yard, []).append(piece)
        else:
            self._by_colony.setdefault(piece.colony, []).append(piece)
            self._in_yard.setdefault(piece.colony.yard, {})[piece.colony] = None

    def end(self, piece: Piece, end: End) -> None:
        """End a piece and take it off the shelf."""
        piece.end = end
        if piece.colony is None:
            self._unnamed[piece.lot.yard].remove(piece)
            return
        held = self._by_colony[piece.colony]
        held.remove(piece)
        if not held:
            del self._by_colony[piece.colony]
            self._in_yard[piece.colony.yard].pop(piece.colony, None)

    def moved(self, colony: Colony, came_from: str) -> None:
        """A colony stands in another yard now, its pieces with it."""
        if colony in self._by_colony:
            self._in_yard.get(came_from, {}).pop(colony, None)
            self._in_yard.setdefault(colony.yard, {})[colony] = None

    def of(self, colony: Colony) -> list[Piece]:
        """The open pieces of a colony."""
        return list(self._by_colony.get(colony, ()))

    def unnamed(self, yard: str) -> list[Piece]:
        """The open pieces of a yard that name no colony."""
        return list(self._unnamed.get(yard, ()))

    def in_yard(self, yard: str) -> list[Piece]:
        """Every open piece of a yard, named ones first, by number."""
        colonies = sorted(self._in_yard.get(yard, {}), key=lambda c: c.order)
        return [p for c in colonies for p in self._by_colony[c]] + self.unnamed(yard)

    def holds_none(self, colonies: Collection[Colony]) -> bool:
        """Whether nothing is open in these colonies, nor in unnamed hives that they may belong to."""
        if not self._by_colony and not any(self._unnamed.values()):
            return True
        return not self._unnamed.get("") and not any(
            c in self._by_colony or self._unnamed.get(c.yard) for c in colonies
        )

    def yards(self) -> list[str]:
        """The yards with something open."""
        names = {y for y, cs in self._in_yard.items() if cs} | {y for y, ps in self._unnamed.items() if ps}
        return sorted(names)

    def everything(self) -> list[Piece]:
        """Every open piece."""
        return [p for yard in self.yards() for p in self.in_yard(yard)]


@dataclass(slots=True)
class Aim:
    """What a later record means among the open pieces: whole pieces, single colonies out of an unnamed piece,
    a number of unnamed hives of a lot, and what it names that is not open."""

    pieces: list[Piece] = field(default_factory=list)
    out_of: list[tuple[Piece, Colony]] = field(default_factory=list)
    hives: list[tuple[Lot, int]] = field(default_factory=list)
    spared: frozenset[str] = frozenset()
    missed: list[Colony] = field(default_factory=list)
    surplus: int = 0
    yard: str = ""

    @property
    def hit(self) -> bool:
        """Whether anything open was meant."""
        return bool(self.pieces or self.out_of or self.hives)


def aim(shelf: Shelf, colonies: Colonies, reach: Reach, fits: Fits) -> Aim:
    """Find the open pieces that a later record of this reach means."""
    if reach.cids:
        return _aim_named(shelf, colonies, reach, fits)
    yard = _the_yard(shelf, reach.yard, fits)
    found = [p for p in shelf.in_yard(yard) if fits(p.lot)]
    if reach.count is not None:
        return _aim_count(found, reach.count, yard)
    kept = [p for p in found if p.colony is None or p.colony.cid not in reach.spared]
    return Aim(pieces=kept, spared=reach.spared, yard=yard)


def _the_yard(shelf: Shelf, yard: str, fits: Fits) -> str:
    """The yard itself if something fitting is open there. A yard that was not said may be the only one where
    something fitting is open; and what was placed with no yard said may be meant by one that names it."""
    if any(fits(p.lot) for p in shelf.in_yard(yard)):
        return yard
    if yard:
        return "" if any(fits(p.lot) for p in shelf.unnamed("")) else yard
    with_it = [y for y in shelf.yards() if any(fits(p.lot) for p in shelf.in_yard(y))]
    return with_it[0] if len(with_it) == 1 else yard


def _aim_named(shelf: Shelf, colonies: Colonies, reach: Reach, fits: Fits) -> Aim:
    found = Aim(yard=reach.yard)
    for cid in reach.cids:
        colony = colonies.named(reach.yard, cid)
        mine = [p for p in shelf.of(colony) if fits(p.lot)]
        if not mine and not reach.yard:
            mine = _only_yard_with(shelf, cid, fits)
        unplaced = colonies.unplaced(cid)
        if not mine and unplaced is not None:
            mine = [p for p in shelf.of(unplaced) if fits(p.lot)]
        found.pieces += mine
        if mine:
            continue
        pools = [p for p in shelf.unnamed(colony.yard) if fits(p.lot) and cid not in p.spared]
        pools = pools or [p for p in shelf.unnamed("") if fits(p.lot) and cid not in p.spared]
        found.out_of += [(p, colony) for p in pools]
        if not pools:
            found.missed.append(colony)
    return found


def _only_yard_with(shelf: Shelf, cid: str, fits: Fits) -> list[Piece]:
    """The open pieces of the one colony of that number that has something fitting; none if two have."""
    found: dict[Colony, list[Piece]] = {}
    for yard in shelf.yards():
        for piece in shelf.in_yard(yard):
            if piece.colony and piece.colony.cid == cid and fits(piece.lot):
                found.setdefault(piece.colony, []).append(piece)
    return next(iter(found.values())) if len(found) == 1 else []


def _aim_count(found: list[Piece], count: int, yard: str) -> Aim:
    result = Aim(yard=yard)
    lots = sorted({p.lot: None for p in found}, key=lambda lot: (lot.first, lot.record.id))
    left = count
    for lot in lots:
        if left <= 0:
            break
        remaining = lot.remaining()
        if remaining is None:
            # The yard's colonies are not known, so nobody can say whether these were all of them.
            result.hives.append((lot, left))
            return result
        if remaining <= left:
            result.pieces += [p for p in found if p.lot is lot]
            left -= remaining
        else:
            result.hives.append((lot, left))
            left = 0
    result.surplus = left if result.hit else 0
    return result


def finish(shelf: Shelf, colonies: Colonies, target: Aim, end: End) -> list[Piece]:
    """End what was aimed at. Returns the pieces that ended, those cut off from unnamed ones included."""
    ended: list[Piece] = []
    for piece in target.pieces:
        if piece.end is not None:
            continue
        if piece.colony is None and target.spared:
            ended += _end_but_for(shelf, colonies, piece, target.spared, end)
            continue
        shelf.end(piece, end)
        ended.append(piece)
    for piece, colony in target.out_of:
        if piece.end is not None:
            continue
        ended.append(_cut(piece, end, colony=colony))
        piece.spared.add(colony.cid)
        if piece.count is not None:
            piece.count -= 1
            _end_if_empty(shelf, piece.lot, end)
    for lot, hives in target.hives:
        pool = next((p for p in lot.open_pieces() if p.colony is None), None)
        if pool and pool.count is not None:
            pool.count -= hives
            ended.append(_cut(pool, end, count=hives))
        else:
            lot.taken += hives
            lot.touched.append(end.record)
            ended.append(_cut(lot.open_pieces()[0], end, count=hives))
        _end_if_empty(shelf, lot, end)
    return ended


def _cut(piece: Piece, end: End, colony: Colony | None = None, count: int | None = None) -> Piece:
    """A part of an unnamed piece (or of a lot) that ended on its own."""
    part = Piece(
        lot=piece.lot,
        colony=colony,
        count=count,
        end=end,
        dose=piece.dose,
        counted=piece.counted,
        before=piece.before,
        apart=True,
    )
    piece.lot.pieces.append(part)
    return part


def _end_but_for(shelf: Shelf, colonies: Colonies, piece: Piece, spared: frozenset[str], end: End) -> list[Piece]:
    """A whole yard ends but for some colonies: these stay open under their names."""
    shelf.end(piece, end)
    for cid in sorted(spared - piece.spared):
        colony = colonies.named(piece.lot.yard, cid)
        if colony.left is not None:
            continue
        kept = Piece(
            lot=piece.lot,
            colony=colony,
            units=piece.units,
            dose=piece.dose,
            counted=piece.counted,
            before=piece.before,
        )
        piece.lot.pieces.append(kept)
        shelf.put(kept)
    return [piece]


def _end_if_empty(shelf: Shelf, lot: Lot, end: End) -> None:
    if lot.remaining() == 0:
        for piece in lot.open_pieces():
            shelf.end(piece, End(end.first, end.last, "left", end.record))


def open_lot(shelf: Shelf, record: StoredRecord, reach: Reach, targets: Iterable[Colony] | None) -> Lot:
    """A lot for the record: a piece for each of the `targets`; without any, one for its unnamed hives or yard."""
    lot = Lot(record=record, yard=reach.yard, first=first_day(record), last=last_day(record), whole=not reach.cids)
    if targets is None:
        lot.pieces = [Piece(lot=lot, count=reach.count, spared=set(reach.spared))]
    else:
        lot.pieces = [Piece(lot=lot, colony=c) for c in targets]
    for piece in lot.pieces:
        shelf.put(piece)
    return lot


def expand(colonies: Colonies, reach: Reach, work: StoredRecord | None = None) -> list[Colony] | None:
    """The colonies that a reach means, None where it names none and the roster cannot tell.

    `work` is the record of work done in them: a hive that had lost its colony before must have a new one.

    Every colony of a yard in the roster is each that lives there; so is a number of hives that is just as many.
    """
    if reach.cids:
        named = [
            colonies.revive(reach.yard, cid, work) if work else colonies.named(reach.yard, cid) for cid in reach.cids
        ]
        return [c for c in dict.fromkeys(named) if c.left is None]
    if reach.yard not in colonies.rostered:
        return None
    there = [c for c in colonies.of(reach.yard) if c.cid not in reach.spared]
    if reach.count is None or reach.count == len(there):
        return there
    return None
