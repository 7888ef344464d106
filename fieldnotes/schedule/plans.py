"""Replaying plans: a promise opens, a later plan takes its place, work keeps it."""

from __future__ import annotations

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.days import first_day, iso, last_day
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import End, Shelf, aim, expand, finish, open_lot, reach_of
from fieldnotes.schedule.promised import keeps, same_promise

LOOKED_AT = ("mite_check", "inspection", "harvest", "conditions")
"""Kinds of which some colonies of a yard stand for the yard: a sample keeps the promise to do the yard."""


def take_plan(ledger: Ledger, record: StoredRecord) -> None:
    """A planned record opens a promise, in the place of an earlier plan of the same work."""
    shelf = ledger.promised.setdefault(record.kind, Shelf())
    reach = reach_of(record)
    as_yard = record.kind in LOOKED_AT and reach.whole
    targets = None if as_yard else expand(ledger.colonies, reach)
    earlier = shelf.in_yard(reach.yard) if targets is None else [p for c in targets for p in shelf.of(c)]
    said = iso(record.said)
    for piece in earlier:
        if same_promise(piece.lot.record, record):
            shelf.end(piece, End(said, said, "replaced", record))
    ledger.promises.append(open_lot(shelf, record, reach, targets or None))


def keep_promises(ledger: Ledger, record: StoredRecord) -> None:
    """Work that was done keeps the promises it fulfils."""
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
