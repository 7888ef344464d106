"""Replaying queens: grafts, cells, introductions and banks open looks; a look, or a later event, closes them."""

from __future__ import annotations

from collections.abc import Collection

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.days import after, first_day, last_day
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import End, Lot, aim, expand, finish, open_lot, reach_of
from fieldnotes.trade.queens import looks_after

MOVABLE_DAYS = 8
"""Cells are not placed sooner after the graft; all cells are sealed by day 5 or 6."""
GOOD = ("seen", "right")
BAD = {"less": "queenless", "drone_layer": "queenless", "laying_workers": "queenless", "virgin": "virgin"}
"""What an inspection finds, and the calendar it starts."""


def take_queen_work(ledger: Ledger, record: StoredRecord) -> None:
    """A step of queen work that was done."""
    step = record.slots.get("step")
    if step in ("introduced", "requeened", "cells_placed"):
        _close(ledger, record, ("queenless", "virgin", "introduced", "requeened", "cells_placed"))
    if step in ("introduced", "requeened"):
        _out_of_banks(ledger, record)
    if step == "cells_placed":
        _grafts_done(ledger, record)
    if step == "released":
        _advance(ledger, record, ("introduced",))
    if step == "removed":
        _close(ledger, record, ("introduced", "requeened", "cells_placed", "virgin", "banked"))
    if step == "banked":
        _bank(ledger, record)
    elif step in ("grafted", "introduced", "requeened", "cells_placed"):
        _open(ledger, record, step)


def look_in(ledger: Ledger, record: StoredRecord, seen: Collection[Colony]) -> None:
    """An inspection closes the looks it answers, and opens one where it finds no good queen.

    `seen` are the colonies that it names.
    """
    slots = record.slots
    found = BAD.get(slots.get("queen", ""))
    if found == "virgin":
        _close(ledger, record, ("cells_placed", "virgin"))  # she is out: from here on the virgin's own calendar runs
    if not found and _nothing_to_answer(ledger, record, seen):
        return
    good = slots.get("queen") in GOOD or bool(slots.get("eggs"))
    if good:
        _close(ledger, record, ("queenless", "virgin", "introduced", "requeened", "cells_placed"))
    else:
        _close(ledger, record, ("queenless",))
        _advance(ledger, record, ("cells_placed", "introduced", "requeened", "virgin"))
    _advance(ledger, record, ("banked",))
    if found and not good:
        _open(ledger, record, found)


def brood_given(ledger: Ledger, record: StoredRecord) -> None:
    """A frame of brood for a bank: somebody looked, and gave what it needs. Without a queen it still wants a look."""
    _advance(ledger, record, ("banked",))
    target = aim(ledger.looking, ledger.colonies, reach_of(record), lambda lot: lot.event == "queenless")
    for piece in target.pieces:
        piece.lot.touched.append(record)
        piece.looked = first_day(record)


def _nothing_to_answer(ledger: Ledger, record: StoredRecord, seen: Collection[Colony]) -> bool:
    """Whether no look is open where somebody looked. Most inspections answer nothing, and a book is full of them."""
    if not seen or not record.slots.get("yard"):
        return False
    unplaced = [c for cid in record.slots["colonies"] if (c := ledger.colonies.unplaced(cid))]
    return ledger.looking.holds_none([*seen, *unplaced])


def _open(ledger: Ledger, record: StoredRecord, event: str) -> Lot:
    reach = reach_of(record)
    lot = open_lot(ledger.looking, record, reach, expand(ledger.colonies, reach, record))
    lot.event = event
    ledger.looks.append(lot)
    return lot


def _end(record: StoredRecord, how: str) -> End:
    return End(first_day(record), last_day(record), how, record)


def _close(ledger: Ledger, record: StoredRecord, events: tuple[str, ...]) -> None:
    target = aim(ledger.looking, ledger.colonies, reach_of(record), lambda lot: lot.event in events)
    finish(ledger.looking, ledger.colonies, target, _end(record, "done"))


def _advance(ledger: Ledger, record: StoredRecord, events: tuple[str, ...]) -> None:
    """One look of the calendar is done, if it was in time for it; with the last one the piece is closed."""
    day = first_day(record)
    target = aim(ledger.looking, ledger.colonies, reach_of(record), lambda lot: lot.event in events)
    for piece in target.pieces:
        piece.lot.touched.append(record)
        if piece.lot.event == "banked":
            piece.looked = day
            continue
        looks = looks_after(piece.lot.event)
        none = record.slots.get("eggs") is False
        while piece.stage < len(looks) and day >= after(piece.lot.first, looks[piece.stage].least.days):
            if looks[piece.stage].eggs and none:
                piece.looked = day
                break
            piece.stage += 1
        if piece.stage >= len(looks):
            ledger.looking.end(piece, _end(record, "done"))


def _grafts_done(ledger: Ledger, record: StoredRecord) -> None:
    """Cells placed anywhere are those of the grafts that are old enough."""
    day = first_day(record)
    for piece in ledger.looking.everything():
        if piece.lot.event == "grafted" and day >= after(piece.lot.first, MOVABLE_DAYS):
            ledger.looking.end(piece, _end(record, "done"))


def _bank(ledger: Ledger, record: StoredRecord) -> None:
    """Queens into a bank: into one that is open already they are more of the same, and somebody looked."""
    count = record.slots.get("count")
    target = aim(ledger.looking, ledger.colonies, reach_of(record), lambda lot: lot.event == "banked")
    for piece in target.pieces:
        piece.looked = first_day(record)
        piece.units = piece.units + count if piece.units is not None and count else None
        piece.lot.also.append(record)
    if not target.pieces:
        for piece in _open(ledger, record, "banked").pieces:
            piece.units = count


def _out_of_banks(ledger: Ledger, record: StoredRecord) -> None:
    """Queens given to colonies come out of the banks, the oldest first. A bank that is empty needs no look."""
    targets = expand(ledger.colonies, reach_of(record))
    hives = record.slots.get("colony_count") or len(targets or ()) or 1
    said = record.slots.get("count") or 1
    # A number smaller than that of the hives is what each of them got.
    given = said if said >= hives else said * hives
    banks = [p for p in ledger.looking.everything() if p.lot.event == "banked" and p.units is not None]
    for piece in sorted(banks, key=lambda p: (p.lot.first, p.lot.record.id)):
        if given <= 0 or piece.units is None:
            break
        piece.lot.touched.append(record)
        taken = min(piece.units, given)
        piece.units -= taken
        given -= taken
        if piece.units <= 0:
            ledger.looking.end(piece, _end(record, "done"))
