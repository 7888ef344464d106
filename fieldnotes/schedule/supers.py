"""What spoils honey: supers on, or honey taken, under a treatment or within its waiting time."""

from __future__ import annotations

import datetime

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.days import after, first_day, spoken
from fieldnotes.schedule.drafts import Draft, of_piece
from fieldnotes.schedule.ledger import Ledger, is_single
from fieldnotes.schedule.pieces import Lot, Piece, reach_of
from fieldnotes.schedule.staying import name_of
from fieldnotes.trade.cautions import closing
from fieldnotes.trade.labels import country_of, editions, own_figures
from fieldnotes.trade.words import is_many

HONEY_TAKEN = ("harvest",)
"""Begins the key of a clash that taking supers off does not end: the honey is in the buckets."""


def supers_clash_items(ledger: Ledger) -> list[Draft]:
    """Supers on, or honey taken, while a treatment that forbids it is in or its waiting time runs."""
    drafts = []
    for lot in ledger.treatments:
        rule = _rule(ledger, lot)
        if rule is None:
            continue
        wait, grounds = rule
        for piece in lot.pieces:
            free = after(piece.end.last, wait) if piece.end else datetime.date.max
            replaced = piece.followed or (piece.end is not None and piece.end.how in ("renewed", "left"))
            if replaced or ledger.day > free or (ledger.day == free and wait > 0):
                continue
            drafts += _supers_over(ledger, lot, piece, free, wait, grounds)
            drafts += _harvests_under(ledger, lot, piece, free, grounds)
    return drafts


def _rule(ledger: Ledger, lot: Lot) -> tuple[int, str] | None:
    """The waiting time in days, and the grounds; None where supers are allowed or nothing is known."""
    agent, form = lot.get("agent"), lot.get("form")
    own = own_figures(agent, form, ledger.roster)
    found = editions(agent, form, country_of(ledger.roster))[0] if agent else ()
    forbids = [c for c in found if c.supers is not None and not c.supers.value]
    allowed = own.supers_allowed if own else None
    if allowed is True or (allowed is None and not forbids):
        return None
    waits = [c.wait.days for c in found if c.wait is not None]
    wait = own.wait_days if own and own.wait_days is not None else max(waits, default=0)
    source = own.source if own and allowed is False else forbids[0].supers.cite if forbids and forbids[0].supers else ""
    time = f"no supers while it is in, and {wait} days after" if wait else "no supers while it is in"
    if not waits and not (own and own.wait_days is not None):
        time = "no supers while it is in, and the waiting time after is not on file, so read the label"
    return wait, f"{time}: {source}"


def _supers_over(ledger: Ledger, lot: Lot, piece: Piece, free: datetime.date, wait: int, grounds: str) -> list[Draft]:
    """Supers that are on over a treatment of the same hives."""
    name = name_of(lot)
    many = is_many(lot.get("form"))
    state = ("were given" if many else "was given") if is_single(lot) else "are in" if many else "is in"
    if piece.end and not is_single(lot):
        state = "came out too lately"
    until = f" until {spoken(free, ledger.day)}" if piece.end and wait else ""
    return [
        Draft(
            what="supers_clash",
            at=of_piece(super_ if super_.colony else piece),
            key=("supers", lot.get("agent") or "", lot.get("form") or "", _begun(super_, lot).isoformat()),
            due=_begun(super_, lot),
            latest=_begun(super_, lot),
            do=f"supers are on and {name} {state}: take them off{until}, and keep that honey from sale",
            records=[lot.record, super_.lot.record],
            reasons=[grounds],
            caution=closing(),
        )
        for super_ in _supers_with(ledger, piece)
    ]


def _begun(super_: Piece, lot: Lot) -> datetime.date:
    return max(super_.lot.first, lot.first)


def _harvests_under(ledger: Ledger, lot: Lot, piece: Piece, free: datetime.date, grounds: str) -> list[Draft]:
    """Honey taken from hives under a treatment, or within its waiting time."""
    drafts = []
    for record in ledger.harvests:
        day = first_day(record)
        under = lot.first <= day and (piece.end is None or day < free or day <= piece.end.last)
        if not under or not _same_hives(record, piece):
            continue
        name = f"{name_of(lot)} {'were' if is_many(lot.get('form')) else 'was'}"
        drafts.append(
            Draft(
                what="supers_clash",
                at=of_piece(piece),
                key=(*HONEY_TAKEN, lot.get("agent") or "", lot.get("form") or "", day.isoformat()),
                due=day,
                latest=day,
                do=f"honey was taken {spoken(day, ledger.day)} while {name} in or the waiting time ran: "
                "keep it apart and from sale",
                records=[lot.record, record],
                reasons=[grounds],
                caution=closing(),
            )
        )
    return drafts


def _supers_with(ledger: Ledger, piece: Piece) -> list[Piece]:
    """The supers that are on, on the colony of a piece or in its yard where hives are not named."""
    if piece.colony is not None:
        return ledger.supered.of(piece.colony) or ledger.supered.unnamed(piece.yard)
    return ledger.supered.in_yard(piece.yard)


def _same_hives(record: StoredRecord, piece: Piece) -> bool:
    reach = reach_of(record)
    if reach.yard != piece.yard:
        return False
    return piece.colony is None or not reach.cids or piece.colony.cid in reach.cids
