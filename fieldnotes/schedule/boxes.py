"""Replaying gear and harvest: supers on and off, escapes on and off."""

from __future__ import annotations

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.days import first_day, last_day
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import End, Piece, Shelf, aim, expand, finish, open_lot, reach_of


def take_gear(ledger: Ledger, record: StoredRecord) -> None:
    """Something went on or came off."""
    ledger.gear.append(record)
    item, step = record.slots.get("item"), record.slots.get("step")
    if item == "escape" and step == "on":
        _escapes_on(ledger, record)
    elif item == "super" and step == "on":
        _supers_on(ledger, record)
    elif item in ("escape", "super") and step == "off":
        _off(ledger, ledger.escaping, record)
        if item == "super":
            _off(ledger, ledger.supered, record, record.slots.get("count"))


def take_harvest(ledger: Ledger, record: StoredRecord) -> None:
    """Honey was taken: whatever escapes were on did their work. Where the hives are not named and supers came off some
    of them, it is out of those."""
    ledger.harvests.append(record)
    reach = reach_of(record)
    of_some = reach.whole and not reach.said_all and any(_came_off(p) for p in _escaped(ledger, reach.yard))
    if not of_some:
        _off(ledger, ledger.escaping, record)


def _escaped(ledger: Ledger, yard: str) -> list[Piece]:
    """Every hive of the escapes that are on in a yard, those that are off again too."""
    return [p for lot in dict.fromkeys(p.lot for p in ledger.escaping.in_yard(yard)) for p in lot.pieces]


def _came_off(piece: Piece) -> bool:
    return piece.end is not None and piece.end.how == "out"


def _escapes_on(ledger: Ledger, record: StoredRecord) -> None:
    reach = reach_of(record)
    targets = expand(ledger.colonies, reach, record)
    again = ledger.escaping.in_yard(reach.yard) if targets is None else _of(ledger.escaping, targets)
    for piece in again if reach.count is None else ():
        ledger.escaping.end(piece, End(first_day(record), last_day(record), "renewed", record))
    ledger.escapes.append(open_lot(ledger.escaping, record, reach, targets))


def _supers_on(ledger: Ledger, record: StoredRecord) -> None:
    """Supers on a colony that has some already are more of the same."""
    reach = reach_of(record)
    targets = expand(ledger.colonies, reach, record)
    count = record.slots.get("count")
    if targets is not None:
        for piece in _of(ledger.supered, targets):
            piece.units = piece.units + count if piece.units is not None and count else None
            piece.lot.touched.append(record)
        targets = [c for c in targets if not ledger.supered.of(c)]
        if not targets:
            return
    elif reach.count is None and ledger.supered.unnamed(reach.yard):
        return
    lot = open_lot(ledger.supered, record, reach, targets)
    for piece in lot.pieces:
        piece.units = count
    ledger.supers.append(lot)


def _of(shelf: Shelf, targets: list[Colony]) -> list[Piece]:
    return [p for colony in targets for p in shelf.of(colony)]


def _off(ledger: Ledger, shelf: Shelf, record: StoredRecord, count: float | None = None) -> None:
    target = aim(shelf, ledger.colonies, reach_of(record), lambda lot: True)
    if count:
        for piece in list(target.pieces):
            if piece.units is not None and piece.units > count:
                piece.units -= count
                piece.lot.touched.append(record)
                target.pieces.remove(piece)
    finish(shelf, ledger.colonies, target, End(first_day(record), last_day(record), "out", record))
