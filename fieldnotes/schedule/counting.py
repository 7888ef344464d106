"""Mite checks that are due: after a treatment ended, and before one that was given without a count."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field

from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.counted import AFTER_DAYS, FALL_DAYS
from fieldnotes.schedule.days import after, spoken, spoken_span
from fieldnotes.schedule.drafts import Draft, Place, of_piece
from fieldnotes.schedule.ledger import Ledger, is_single
from fieldnotes.schedule.pieces import End, Lot, Piece
from fieldnotes.schedule.shut import by_board
from fieldnotes.schedule.staying import name_of, waits_for_next
from fieldnotes.trade.cautions import work_caution
from fieldnotes.trade.growth import growth
from fieldnotes.trade.habits import habit
from fieldnotes.trade.words import is_many

Ending = tuple[Piece, End]


def check_after_items(ledger: Ledger) -> list[Draft]:
    """A treatment that ended wants a count after it. Of several ended ones in a colony the last one counts."""
    drafts = []
    for group in uncounted(ledger).values():
        for piece, end in group.endings:
            if not ledger.checks.any_after(piece, end.last):
                drafts.append(_check_after(ledger, piece, end, group))
    return drafts


def awaiting_places(ledger: Ledger) -> list[Place]:
    """Where a dose of a course was given and the next one may still be: a count after it comes up once that is over."""
    endings = last_endings(ledger).values()
    return [of_piece(piece) for piece, end in endings if _awaits_next_dose(ledger, piece, end)]


@dataclass(slots=True)
class Group:
    """Colonies of a yard in which a treatment ended on the same day; of those with names, how many were counted since.

    A sample of them is enough, as it is of a yard.
    """

    endings: list[Ending] = field(default_factory=list)
    named: int = 0
    counted: int = 0

    @property
    def wanted(self) -> int:
        """How many of them make a sample."""
        return min(self.named, int(growth().sample.value))


def uncounted(ledger: Ledger) -> dict[tuple[str, ...], Group]:
    """Where treatments ended and too few colonies were counted after it."""
    groups: dict[tuple[str, ...], Group] = {}
    for piece, end in last_endings(ledger).values():
        if _awaits_next_dose(ledger, piece, end):
            continue
        key = (piece.yard, piece.lot.get("agent") or "", piece.lot.get("form") or "", end.last.isoformat())
        apart = "" if piece.colony is not None else piece.lot.record.id
        group = groups.setdefault((*key, apart), Group())
        group.endings.append((piece, end))
        counted = ledger.checks.any_after(piece, end.last)
        group.named += piece.colony is not None
        group.counted += counted and piece.colony is not None
    return {
        key: group
        for key, group in groups.items()
        if (group.named and group.counted < group.wanted and not _sampled(ledger, group))
        or any(piece.colony is None and not ledger.checks.any_after(piece, end.last) for piece, end in group.endings)
    }


def _sampled(ledger: Ledger, group: Group) -> bool:
    """Whether it was named one by one but is the whole yard, of which some were counted: a sample of the yard."""
    colonies = {piece.colony for piece, _ in group.endings}
    yard = group.endings[0][0].yard
    return group.counted > 0 and yard in ledger.colonies.rostered and colonies >= set(ledger.colonies.of(yard))


def last_endings(ledger: Ledger) -> dict[Colony | tuple[str, str], Ending]:
    """The last treatment that ended in each colony, or in each yard whose hives are not named."""
    last: dict[Colony | tuple[str, str], Ending] = {}
    for lot in ledger.treatments:
        for piece in lot.pieces:
            end = _ended(piece)
            if end is None:
                continue
            place = ending_place(piece)
            known = last.get(place)
            if known is None or (known[1].last, known[0].lot.record.id) < (end.last, lot.record.id):
                last[place] = (piece, end)
    return last


def ending_place(piece: Piece) -> Colony | tuple[str, str]:
    """What the last ending is looked for by."""
    if piece.colony is not None or piece.count is None:
        return piece.colony or (piece.yard, "")
    # Hives that came out apart from the rest of their lot are others than the rest.
    apart = f" {piece.end.last}" if piece.apart and piece.end else ""
    return piece.yard, piece.lot.record.id + apart


def _ended(piece: Piece) -> End | None:
    """How a treatment ended for a piece, None while it runs or where the colony is gone."""
    if piece.end is None or piece.followed or piece.end.how not in ("out", "single"):
        return None
    if piece.colony is not None and piece.colony.left is not None:
        return None
    return piece.end


def _awaits_next_dose(ledger: Ledger, piece: Piece, end: End) -> bool:
    """Whether the dose is one of a course, of which the next one may still be given: then it is not time to count.

    It is the last ending there all the same: what ended before it can no longer be counted apart.
    """
    if end.how != "single" or not waits_for_next(ledger, piece.lot, piece):
        return False
    stay = ledger.stay(piece)
    return (
        stay is not None and stay.next_longest is not None and ledger.day <= after(piece.lot.first, stay.next_longest)
    )


def _check_after(ledger: Ledger, piece: Piece, end: End, group: Group) -> Draft:
    own = ledger.roster.practice.check_after_days
    usual = habit("check_after")
    first, most = own or (usual.first, usual.last)
    lot, name = piece.lot, name_of(piece.lot)
    due, latest = after(end.last, first), after(end.last, most)
    when = spoken_span(end.first, end.last, ledger.day)
    ended = f"{name} was given {when}" if is_single(lot) else f"{name} came out {when}"
    grounds = "the outfit's roster" if own else usual.cite
    draft = Draft(
        what="check_after",
        key=(lot.get("agent") or "", lot.get("form") or "", end.last.isoformat(), due.isoformat(), latest.isoformat()),
        due=due,
        latest=latest,
        do=_how_many(group),
        since=(f", {ended}" if not is_many(lot.get("form")) else f", the {ended}") + _so_far(group),
        records=[lot.record, end.record],
        reasons=[
            f"A count is due {first} to {most} days after a treatment ends: {grounds}",
            *_too_short(ledger, piece, end),
            *_too_late(ledger, end),
            *_sample(group),
        ],
        caution=work_caution("mite_check"),
        sure=end.first == end.last,
        at=of_piece(piece),
    )
    return by_board(ledger, draft, felled=ledger.day <= after(end.last, FALL_DAYS))


def _too_short(ledger: Ledger, piece: Piece, end: End) -> list[str]:
    """Said of what came out before the least stay of the label was up."""
    stay, days = ledger.stay(piece), (end.last - piece.lot.first).days
    if end.how != "out" or stay is None or stay.least is None or days >= stay.least or not piece.placing_known:
        return []
    return [f"It was in for {days} days at most, and the label's least stay is {stay.least}: it may have done less"]


def _too_late(ledger: Ledger, end: End) -> list[str]:
    """Said once a count would no longer be set against the treatment."""
    if ledger.day <= after(end.last, AFTER_DAYS):
        return []
    return [f"After {AFTER_DAYS} days it no longer shows what the treatment did, only how many mites there are now"]


def _how_many(group: Group) -> str:
    if group.wanted == group.named:
        return "count mites"
    more = group.wanted - group.counted
    return f"count mites in {more} more of them" if group.counted else f"count mites in {more} of them"


def _so_far(group: Group) -> str:
    return f"; {group.counted} of {group.named} counted since" if group.counted else ""


def _sample(group: Group) -> list[str]:
    if group.wanted == group.named:
        return []
    return [f"{group.wanted} colonies tell of all: {growth().sample.cite}"]


def check_before_items(ledger: Ledger) -> list[Draft]:
    """A treatment placed with no count in the days before: said on the placement day and the day after, no more."""
    drafts = []
    for lot in ledger.treatments:
        if not lot.last <= ledger.day <= after(lot.last, 1):
            continue
        for piece in lot.pieces:
            draft = _check_before(ledger, lot, piece)
            if draft:
                drafts.append(draft)
    return drafts


def _check_before(ledger: Ledger, lot: Lot, piece: Piece) -> Draft | None:
    if not ledger.starts_anew(piece) or _cut_off(piece):
        return None
    if piece.colony is not None and piece.colony.left is not None:
        return None
    days = ledger.roster.practice.check_before_days or habit("check_before").last
    since = lot.first - datetime.timedelta(days=days)
    # A sample of the colonies that were treated together tells of all of them.
    if any(ledger.checks.any_between(p, since, ledger.day) for p in piece.lot.pieces):
        return None
    grounds = "the outfit's roster" if ledger.roster.practice.check_before_days else habit("check_before").cite
    draft = Draft(
        what="check_before",
        key=(lot.get("agent") or "", lot.get("form") or "", lot.last.isoformat()),
        due=lot.last,
        latest=after(lot.last, 1),
        do="count mites now",
        since=f", {name_of(lot)} went in {spoken(lot.last, ledger.day)} without a count before",
        records=[lot.record, *lot.also],
        reasons=[f"No count in the {days} days before, so nobody will know what the treatment did: {grounds}"],
        caution=work_caution("mite_check"),
        sure=lot.first == lot.last,
        at=of_piece(piece),
    )
    return by_board(ledger, draft, felled=True)


def _cut_off(piece: Piece) -> bool:
    """A part that ended apart from the unnamed hives it belonged to: the rest of the lot speaks for it."""
    return piece.lot.whole and piece.colony is not None and any(p.colony is None for p in piece.lot.pieces)
