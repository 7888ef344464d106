"""Treatments that failed by their counts: `did_not_work`."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from fieldnotes.schedule.checks import Check
from fieldnotes.schedule.days import after, first_day, spoken
from fieldnotes.schedule.drafts import Draft, Place, of_piece
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import Lot, Piece
from fieldnotes.schedule.staying import name_of
from fieldnotes.trade.habits import habit
from fieldnotes.trade.modes import same_mode
from fieldnotes.trade.thresholds import threshold_on

BEFORE_DAYS = 30
"""How far before the placement a count still is the count before. Common practice, no source."""
AFTER_DAYS = 60
"""How far after the end the first count still is the count after. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Pair:
    """The counts around one treatment of one piece: the samples of the day before it and of the day after it."""

    piece: Piece
    before: tuple[Check, ...]
    after: tuple[Check, ...]


def pairs_of(ledger: Ledger, lot: Lot) -> list[Pair]:
    """Counts before and after, paired: by colony where both were counted there, else for the yard as a whole."""
    found: list[Pair] = []
    loose: list[Pair] = []
    for piece in lot.pieces:
        if piece.end is None or piece.followed or piece.end.how not in ("out", "single") or not piece.placing_known:
            continue
        pair = _pair(ledger, piece)
        if pair is None:
            continue
        own = piece.colony is not None and _names(pair, piece.colony.cid)
        (found if own else loose).append(pair)
    if found or not lot.whole:
        return found
    return loose[:1]


def _names(pair: Pair, cid: str) -> bool:
    return all(cid in c.record.slots.get("colonies", []) for c in (*pair.before, *pair.after))


def _pair(ledger: Ledger, piece: Piece) -> Pair | None:
    start = _course_start(piece)
    end = piece.end
    assert end is not None
    checks = ledger.checks.of(piece)
    if piece.colony is not None:
        own = [c for c in checks if piece.colony.cid in c.record.slots.get("colonies", [])]
        has_both = any(c.last <= start for c in own) and any(c.first > end.last for c in own)
        checks = own if has_both or not piece.lot.whole else checks
    earliest = start - datetime.timedelta(days=BEFORE_DAYS)
    before = [c for c in checks if earliest <= c.last <= start]
    later = [c for c in checks if end.last < c.first <= after(end.last, AFTER_DAYS)]
    if not before or not later:
        return None
    return Pair(
        piece,
        tuple(c for c in before if c.last == before[-1].last),
        tuple(c for c in later if c.last == later[0].last),
    )


def _course_start(piece: Piece) -> datetime.date:
    """The day of the first dose of the course."""
    while piece.before is not None and piece.dose > 1:
        piece = piece.before
    return piece.lot.first


def did_not_work_items(ledger: Ledger) -> list[Draft]:
    """Counts before and after that show with enough certainty that a treatment fell short."""
    lots = [(lot, pairs) for lot in ledger.treatments if (pairs := pairs_of(ledger, lot))]
    return [d for lot, pairs in lots for d in _judged(ledger, lot, pairs)]


def _judged(ledger: Ledger, lot: Lot, pairs: list[Pair]) -> list[Draft]:
    from fieldnotes.trade.counts import count_of, pooled
    from fieldnotes.trade.efficacy import reduction, verdict, wanted

    befores = [c for p in pairs for k in p.before if (c := count_of(k.record.slots))]
    afters = [c for p in pairs for k in p.after if (c := count_of(k.record.slots))]
    families = {c.family for c in (*befores, *afters)}
    if not befores or not afters or len(families) != 1 or families & {"board", "drone_brood"}:
        return []
    before, later = pooled(befores), pooled(afters)
    found = reduction(before, later)
    second = max(k.last for p in pairs for k in p.after)
    level = threshold_on(second, ledger.roster)
    if verdict(found, lot.get("agent")) != "fell short" or later.rate <= level.treat:
        return []
    aim = wanted(lot.get("agent"))
    reason = (
        f"{before.rate:.1f} {before.unit} before, {later.rate:.1f} after: {found.percent:.0f} % fewer, "
        f"between {found.lower:.0f} and {found.upper:.0f} %; {aim.value:g} % is expected ({aim.cite})"
    )
    latest = after(second, habit("failed").last)
    drafts = []
    for pair in pairs:
        if _answered(ledger, pair.piece, lot, second):
            continue
        drafts.append(
            Draft(
                what="did_not_work",
                key=(lot.get("agent") or "", lot.get("form") or "", lot.first.isoformat(), second.isoformat()),
                due=second,
                latest=latest,
                do=f"the {name_of(lot)} did not work by the count of {spoken(second, ledger.day)}; "
                "treat with another mode of action",
                records=[lot.record, *(c.record for c in (*pair.before, *pair.after))],
                reasons=[reason, *_assumed(before.assumed, later.assumed)],
                caution=_caution(),
                sure=not (before.assumed or later.assumed),
                at=_place(pair),
            )
        )
    return drafts


def _place(pair: Pair) -> Place:
    """Where: the colony, or the whole yard where the counts were samples of it."""
    at = of_piece(pair.piece)
    if pair.piece.colony is not None and not _names(pair, pair.piece.colony.cid):
        return Place(at.yard, origin=at.origin, said_all=True)
    return at


def _assumed(*words: str) -> list[str]:
    said = sorted({w for w in words if w})
    return [f"Assumed: {'; '.join(said)}"] if said else []


def _caution() -> str:
    from fieldnotes.trade.cautions import closing

    return f"Choose one of another group, at the label's dose and no more. {closing()}"


def _answered(ledger: Ledger, piece: Piece, lot: Lot, second: datetime.date) -> bool:
    """Whether another mode of action was placed since, or a later check was under the threshold."""
    from fieldnotes.trade.counts import count_of

    for other in ledger.treatments:
        if (
            other.first < second
            or other.record.slots.get("step") == "out"
            or same_mode(other.get("agent"), lot.get("agent"))
        ):
            continue
        if any(p.colony is piece.colony and p.yard == piece.yard for p in other.pieces):
            return True
    for check in ledger.checks.of(piece):
        if first_day(check.record) > second:
            count = count_of(check.record.slots)
            if count and count.family != "board" and count.rate <= threshold_on(check.last, ledger.roster).treat:
                return True
    return False
