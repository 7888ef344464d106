"""Looks of the queen calendar that are due, and the inspector who must be called."""

from __future__ import annotations

from dataclasses import replace

from fieldnotes.schedule.days import after, first_day, spoken
from fieldnotes.schedule.drafts import Draft, Place, of_piece
from fieldnotes.schedule.ledger import Finding, Ledger
from fieldnotes.schedule.pieces import Lot, Piece, reach_of
from fieldnotes.trade.cautions import work_caution
from fieldnotes.trade.queens import Look, longest_in_bank, looks_after

_EVENTS = {
    "grafted": "grafted",
    "cells_placed": "cells placed",
    "introduced": "queen introduced",
    "requeened": "requeened",
    "virgin": "virgin found",
    "queenless": "no good queen found",
    "banked": "queens banked",
}
_DISEASES = {"afb": "American", "efb": "European"}


def queen_look_items(ledger: Ledger) -> list[Draft]:
    """The next look after each graft, cell, introduction and bank, and after a colony was found without a queen."""
    return [
        _look(ledger, lot, p) for lot in ledger.looks for p in lot.open_pieces() if not p.colony or not p.colony.left
    ]


def _look(ledger: Ledger, lot: Lot, piece: Piece) -> Draft:
    looks = looks_after(lot.event)
    now = looks[min(piece.stage, len(looks) - 1)]
    if lot.event == "banked":
        return _bank_look(ledger, lot, piece, now)
    due, latest = after(lot.last, now.least.days), after(lot.first, now.longest.days)
    due = min(due, latest)
    # By now a later look may have come: it answers the ones before it too.
    begun = [look for look in looks[piece.stage :] if after(lot.last, look.least.days) <= ledger.day]
    best = begun[-1] if begun else now
    missed = [f"Not told either: {look.look}, due until {_until(ledger, lot, look)}" for look in begun[:-1]]
    then = looks[looks.index(best) + 1 :]
    more = [f"Then {look.look}, from {spoken(after(lot.last, look.least.days), ledger.day)}" for look in then]
    vain = [f"No eggs yet on {spoken(piece.looked, ledger.day)}"] if piece.looked and best.eggs else []
    given = lot.event == "queenless" and piece.looked is not None
    return Draft(
        what="queen_look",
        at=_where(lot, piece),
        key=(lot.event, str(piece.stage), due.isoformat(), latest.isoformat()),
        due=due,
        latest=latest,
        do=best.look,
        since=f", {_EVENTS[lot.event]} {spoken(lot.first, ledger.day)}",
        records=[lot.record],
        reasons=[f"{_span(best)} days after: {best.cite}", *_of_whom(lot), *vain, *missed, *more],
        notes=[_brood_given(ledger, piece)] if given else [],
        sure=lot.first == lot.last and not _of_whom(lot),
    )


def _where(lot: Lot, piece: Piece) -> Place:
    """Where to look: of a graft, a bank or a queen whose colony was not named, every colony only if that was said."""
    at = of_piece(piece)
    return at if lot.record.slots.get("every_colony") else replace(at, said_all=False)


def _of_whom(lot: Lot) -> list[str]:
    """Said of a queen or a cell that went into some colony of a yard, and nobody knows which."""
    reach = reach_of(lot.record)
    if lot.event == "grafted" or reach.said_all or not reach.whole or reach.spared:
        return []
    return ["The note does not say which colonies"]


def _brood_given(ledger: Ledger, piece: Piece) -> str:
    """What was done already of "give eggs or a queen, and look again"."""
    who = f"{piece.colony.cid}: brood" if piece.colony else "Brood"
    return (
        f"{who} was given {spoken(piece.looked or piece.lot.first, ledger.day)}, so look whether they raise cells on it"
    )


def _span(look: Look) -> str:
    least, longest = look.least.days, look.longest.days
    return f"{least} to {longest}" if least != longest else f"{least}"


def _until(ledger: Ledger, lot: Lot, look: Look) -> str:
    return spoken(after(lot.first, look.longest.days), ledger.day)


def _bank_look(ledger: Ledger, lot: Lot, piece: Piece, look: Look) -> Draft:
    last = piece.looked or lot.first
    days = ledger.roster.practice.bank_days or look.longest.days
    day = after(last, days)
    held = f"{piece.units:g} queens" if piece.units else "queens"
    longest = longest_in_bank()
    limit = f"{held} in since {spoken(lot.first, ledger.day)}; about {longest.days} days is the most ({longest.cite})"
    grounds = "the outfit's roster" if ledger.roster.practice.bank_days else look.cite
    held_long = ledger.day > after(lot.first, longest.days)
    over = f"; queens are in since {spoken(lot.first, ledger.day)}, which is long" if held_long else ""
    return Draft(
        what="queen_look",
        at=_where(lot, piece),
        key=("banked", day.isoformat()),
        due=day,
        latest=day,
        do=look.look,
        since=f", last looked {spoken(last, ledger.day)}{over}",
        records=[lot.record, *lot.also],
        reasons=[f"Every {days} days: {grounds}", limit],
    )


def call_inspector_items(ledger: Ledger) -> list[Draft]:
    """Suspected foulbrood: the inspector, at once, and never a treatment. Only a hand closes it."""
    return [_call(ledger, finding) for finding in ledger.foulbrood]


def _found_where(ledger: Ledger, finding: Finding) -> Place:
    """The colony where it stands, and where it stood when it was seen."""
    colony = finding.colony
    if colony is None:
        return Place(finding.yard)
    day = first_day(finding.record)
    same = [f.colony for f in ledger.foulbrood if f.colony and f.yard == finding.yard and first_day(f.record) == day]
    return Place(colony.yard, origin=finding.yard, colony=colony, parted=any(c.yard != colony.yard for c in same))


def _call(ledger: Ledger, finding: Finding) -> Draft:
    day = first_day(finding.record)
    sick = " or ".join(_DISEASES[s] for s in finding.signs)
    return Draft(
        what="call_inspector",
        at=_found_where(ledger, finding),
        key=(*finding.signs, day.isoformat()),
        due=day,
        latest=day,
        do=f"call your inspector: {sick} foulbrood suspected {spoken(day, ledger.day)}",
        records=[finding.record],
        reasons=["Foulbrood is notifiable or reportable in most places: WOAH Terrestrial Code, chapters 9.2 and 9.3"],
        caution=work_caution("foulbrood"),
    )
