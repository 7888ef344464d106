"""One record after another into the ledger."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.colonies import Colonies, Colony, apply_change
from fieldnotes.schedule.days import first_day, iso, last_day
from fieldnotes.schedule.ledger import Ledger, Oddity, in_order
from fieldnotes.schedule.pieces import End, Piece, Shelf, aim, expand, finish, open_lot, reach_of
from fieldnotes.schedule.promised import keeps, same_promise
from fieldnotes.schedule.treatments import place, take_out

LOOKED_AT = ("mite_check", "inspection", "harvest", "conditions")
"""Kinds of which some colonies of a yard stand for the yard: a sample keeps the promise to do the yard."""


def replay(records: Iterable[StoredRecord], roster: Roster, day: datetime.date) -> Ledger:
    """The ledger of what was said and had happened by the end of `day`."""
    ledger = Ledger(roster=roster, day=day, colonies=Colonies(roster))
    for record in in_order(records, day):
        _take(ledger, record)
    return ledger


def _take(ledger: Ledger, record: StoredRecord) -> None:
    if record.kind == "todo":
        ledger.todos.append(record)
        return
    state = record.slots.get("state", "done")
    if state == "planned":
        _plan(ledger, record)
    if state != "done":
        return
    if record.kind == "treatment":
        (take_out if record.slots.get("step") == "out" else place)(ledger, record)
    elif record.kind == "mite_check":
        ledger.checks.add(ledger.colonies, record)
    elif record.kind == "gear":
        _gear(ledger, record)
    elif record.kind == "harvest":
        _escapes_done(ledger, record)
    elif record.kind == "change":
        _change(ledger, record)
    _keep_promises(ledger, record)


def _gear(ledger: Ledger, record: StoredRecord) -> None:
    item, step = record.slots.get("item"), record.slots.get("step")
    if item == "escape" and step == "on":
        reach = reach_of(record)
        targets = expand(ledger.colonies, reach, first_day(record))
        again = ledger.escaping.in_yard(reach.yard) if targets is None else _of_all(ledger.escaping, targets)
        for piece in again if reach.count is None else ():
            ledger.escaping.end(piece, End(first_day(record), last_day(record), "renewed", record))
        ledger.escapes.append(open_lot(ledger.escaping, record, reach, targets))
    elif item in ("escape", "super") and step == "off":
        _escapes_done(ledger, record)


def _of_all(shelf: Shelf, targets: list[Colony]) -> list[Piece]:
    return [p for colony in targets for p in shelf.of(colony)]


def _escapes_done(ledger: Ledger, record: StoredRecord) -> None:
    target = aim(ledger.escaping, ledger.colonies, reach_of(record), lambda lot: True)
    end = End(first_day(record), last_day(record), "out", record)
    finish(ledger.escaping, ledger.colonies, target, end)


def _change(ledger: Ledger, record: StoredRecord) -> None:
    day = first_day(record)
    change = apply_change(ledger.colonies, record, day)
    gone = End(day, last_day(record), "left", record)
    for shelf in ledger.shelves():
        for colony in change.left:
            for piece in shelf.of(colony):
                shelf.end(piece, gone)
        for colony, came_from in change.moved:
            shelf.moved(colony, came_from)
    step, reach = record.slots.get("step"), reach_of(record)
    hives = reach.count or (record.slots.get("count") if step == "sold" else None)
    if reach.cids or reach.said_all or not hives or step not in ("died", "sold", "moved"):
        return
    inside = ledger.inside.in_yard(reach.yard)
    if step == "moved":
        if inside and record.slots.get("to_yard"):
            words = f"{hives} hives went to {record.slots['to_yard']} with a treatment in, so say which ones"
            ledger.oddities.append(Oddity(record, reach.yard, words))
        return
    for lot in dict.fromkeys(p.lot for p in inside if p.lot.whole):
        lot.lost += int(hives)
        if lot.remaining() == 0:
            for piece in lot.open_pieces():
                ledger.inside.end(piece, gone)


def _plan(ledger: Ledger, record: StoredRecord) -> None:
    shelf = ledger.promised.setdefault(record.kind, Shelf())
    reach = reach_of(record)
    as_yard = record.kind in LOOKED_AT and reach.whole
    targets = None if as_yard else expand(ledger.colonies, reach)
    earlier = shelf.in_yard(reach.yard) if targets is None else _of_all(shelf, targets)
    for piece in earlier:
        if same_promise(piece.lot.record, record):
            shelf.end(piece, End(iso(record.said), iso(record.said), "replaced", record))
    if targets == []:
        targets = None
    ledger.promises.append(open_lot(shelf, record, reach, targets))


def _keep_promises(ledger: Ledger, record: StoredRecord) -> None:
    shelf = ledger.promised.get(record.kind)
    if shelf is None:
        return
    target = aim(shelf, ledger.colonies, reach_of(record), lambda lot: keeps(lot.record, record))
    for piece, colony in list(target.out_of):
        if record.kind in LOOKED_AT or not piece.yard:
            target.out_of.remove((piece, colony))
            target.pieces.append(piece)
    for lot, hives in list(target.hives):
        if lot.remaining() is None:
            target.hives.remove((lot, hives))
            target.pieces += lot.open_pieces()
    finish(shelf, ledger.colonies, target, End(first_day(record), last_day(record), "done", record))
