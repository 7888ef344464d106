"""What spoils honey: supers on, or honey taken, under a treatment or within its waiting time."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.days import after, first_day, last_day, spoken
from fieldnotes.schedule.drafts import Draft, Place, of_piece
from fieldnotes.schedule.ledger import Ledger, is_single
from fieldnotes.schedule.pieces import Lot, Piece, reach_of
from fieldnotes.schedule.staying import guess_of, name_of
from fieldnotes.trade.cautions import closing
from fieldnotes.trade.labels import country_of, editions, own_figures
from fieldnotes.trade.thresholds import northern_month
from fieldnotes.trade.words import is_many

HONEY_KEPT_DAYS = 60
"""So long after supers came off honey may still be taken out of them. Common practice, no source."""
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


def warn_of_supers(ledger: Ledger, drafts: list[Draft]) -> None:
    """Say before it is done that promised supers would go on over a treatment, or a promised treatment under supers."""
    promised = [d for d in drafts if d.what == "promise"]
    for draft in [d for d in promised if d.step == ("gear", "on", "super")]:
        ruled = ((lot, rule) for lot in ledger.treatments if (rule := _rule(ledger, lot)) is not None)
        draft.notes += dict.fromkeys(w for lot, rule in ruled for w in _not_yet(ledger, draft, lot, *rule))
    for draft in promised:
        if draft.step[:2] == ("treatment", "in"):
            planned = Lot(draft.records[0], draft.at.yard, draft.due, draft.latest)
            rule = _rule(ledger, planned)
            if rule is not None and _has_supers(ledger, draft.at):
                draft.notes.append(f"Supers are on, and must come off first: {rule[1]}")


def _not_yet(ledger: Ledger, draft: Draft, lot: Lot, wait: int, grounds: str) -> Iterator[str]:
    """Why supers may not go on there yet."""
    for piece in lot.pieces:
        there = draft.at.colony is piece.colony if draft.at.colony and piece.colony else draft.at.yard == piece.yard
        if not there or piece.followed or (piece.end is not None and piece.end.how in ("renewed", "left")):
            continue
        free = after(piece.end.last, wait) if piece.end else None
        many = is_many(lot.get("form"))
        if free is None:
            yield f"Not while {name_of(lot)} {'are' if many else 'is'} in: {grounds}"
        elif draft.due < free and ledger.day < free:
            yield f"Not before {spoken(free, ledger.day)}, for {name_of(lot)}: {grounds}"


def _has_supers(ledger: Ledger, at: Place) -> bool:
    if at.colony is not None:
        return bool(ledger.supered.of(at.colony) or ledger.supered.unnamed(at.yard))
    return bool(ledger.supered.in_yard(at.yard))


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
    if not (own and own.wait_days is not None) and any(c.supers_next_year for c in found):
        wait = max(wait, _days_of_summer_left(ledger, lot.first))
    source = own.source if own and allowed is False else forbids[0].supers.cite if forbids and forbids[0].supers else ""
    time = f"no supers while it is in, and {wait} days after" if wait else "no supers while it is in"
    if not waits and not (own and own.wait_days is not None):
        time = "no supers while it is in, and the waiting time after is not on file, so read the label"
    return wait, f"{time}: {source}"


def _days_of_summer_left(ledger: Ledger, day: datetime.date) -> int:
    """Days from a summer's day to the new year, or to 1 July in the south; none from a winter's day."""
    hemisphere = ledger.roster.hemisphere
    if northern_month(day, hemisphere) not in _NORTHERN_SUMMER:
        return 0
    turns = 1 if hemisphere == "north" else 7
    return (datetime.date(day.year + (day.month >= turns), turns, 1) - day).days


_NORTHERN_SUMMER = range(4, 10)
"""April to September: the bees of a course in these months still meet a flow. Common practice, no source."""


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
            records=[*_told(lot, piece), super_.lot.record],
            reasons=[grounds, *guess_of(lot)],
            caution=closing(),
            sure=not lot.assumed,
        )
        for super_ in _supers_with(ledger, piece)
    ]


def _told(lot: Lot, piece: Piece) -> list[StoredRecord]:
    """What tells that it went in, and that it came out."""
    return [lot.record, *([piece.end.record] if piece.end else [])]


def _begun(super_: Piece, lot: Lot) -> datetime.date:
    return max(super_.lot.first, lot.first)


def _harvests_under(ledger: Ledger, lot: Lot, piece: Piece, free: datetime.date, grounds: str) -> list[Draft]:
    """Honey taken from hives under a treatment, or within its waiting time."""
    drafts = []
    for record in ledger.harvests:
        day = first_day(record)
        # What is taken on the day a treatment goes in is taken first: the supers come off, then it is given.
        under = lot.first < day and (piece.end is None or day < free or day <= piece.end.last)
        if not under or not _same_hives(record, piece) or _was_off_before(ledger, piece, lot.first, day):
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
                records=[*_told(lot, piece), record],
                reasons=[grounds, *guess_of(lot)],
                caution=closing(),
                sure=not lot.assumed,
            )
        )
    return drafts


def _supers_with(ledger: Ledger, piece: Piece) -> list[Piece]:
    """The supers that are on, on the colony of a piece or in its yard where hives are not named."""
    if piece.colony is not None:
        return ledger.supered.of(piece.colony) or ledger.supered.unnamed(piece.yard)
    on = ledger.supered.in_yard(piece.yard)
    # Of unnamed hives as many lost their supers as were treated: those are the ones, and not the others.
    return [p for p in on if p.colony is not None or piece.count is None or _hives_without(p.lot) < piece.count]


def _hives_without(supers: Lot) -> int:
    """Of how many unnamed hives the supers came off."""
    return sum(p.count or 0 for p in supers.pieces if p.colony is None and p.end is not None and p.end.how == "out")


def _was_off_before(ledger: Ledger, piece: Piece, start: datetime.date, taken: datetime.date) -> bool:
    """Whether the honey came from supers that were off these hives before the treatment went in, and not on since."""
    boxes = [g for g in ledger.gear if g.slots.get("item") == "super" and _same_hives(g, piece)]
    off = max((last_day(g) for g in boxes if g.slots.get("step") == "off" and last_day(g) <= start), default=None)
    if off is None or (taken - off).days > HONEY_KEPT_DAYS:
        return False
    return not any(g.slots.get("step") == "on" and off <= first_day(g) <= taken for g in boxes)


def _same_hives(record: StoredRecord, piece: Piece) -> bool:
    reach = reach_of(record)
    if reach.yard != piece.yard:
        return False
    if piece.colony is None:
        return reach.count is None or (piece.count is not None and piece.count <= reach.count)
    return piece.colony.cid in reach.cids if reach.cids else piece.colony.cid not in reach.spared
