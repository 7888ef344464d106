"""Treatments that failed by their counts: `did_not_work`."""

from __future__ import annotations

import datetime
import math
from typing import TYPE_CHECKING

from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.counted import Counted, Outcome, Pair, treatments_of
from fieldnotes.schedule.days import after, spoken
from fieldnotes.schedule.drafts import Draft, Place, of_piece
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import Piece
from fieldnotes.trade.cautions import closing
from fieldnotes.trade.habits import habit
from fieldnotes.trade.modes import expectation, mode_of, same_mode
from fieldnotes.trade.thresholds import threshold_on
from fieldnotes.trade.words import treatment_name

if TYPE_CHECKING:
    from fieldnotes.trade.efficacy import Efficacy


def did_not_work_items(ledger: Ledger) -> list[Draft]:
    """Counts before and after that show with enough certainty that a treatment fell short, and too much is left."""
    counted = Counted(ledger)
    drafts = []
    for treatment in treatments_of(ledger):
        outcome = counted.outcome(treatment)
        if outcome is not None and outcome.verdict == "fell short":
            drafts += _drafts(ledger, outcome)
    return _newest(drafts)


def _newest(drafts: list[Draft]) -> list[Draft]:
    """Of several treatments that failed in a place, the last one counted: what answers it answers the others too."""
    last: dict[tuple[str, Colony | None], datetime.date] = {}
    for draft in drafts:
        place = (draft.at.yard, draft.at.colony)
        last[place] = max(draft.due, last.get(place, draft.due))
    return [d for d in drafts if d.due == last[d.at.yard, d.at.colony]]


def _drafts(ledger: Ledger, outcome: Outcome) -> list[Draft]:
    treatment, second = outcome.treatment, outcome.counted
    board = outcome.after.family == "board"
    brood, flow = ledger.season(treatment.yard, None, second)
    if not threshold_on(second, ledger.roster, board, brood, flow).wants_control(outcome.after.rate):
        return []
    name = treatment_name(treatment.agent, treatment.form, treatment.product)
    key = (treatment.agent or treatment.product or "", treatment.form or "", treatment.start.isoformat())
    return [
        Draft(
            what="did_not_work",
            at=_place(pair),
            key=(*key, second.isoformat()),
            due=second,
            latest=after(second, habit("failed").last),
            do=f"the {name} fell short by the count of {spoken(second, ledger.day)}; "
            f"treat with another mode of action{_group_words(treatment.agent)}",
            records=[pair.piece.lot.record, *(c.record for c in (*pair.before, *pair.after))],
            reasons=[shown_by(outcome), *_assumed(outcome.before.assumed, outcome.after.assumed)],
            caution=f"Choose one of another group, at the label's dose and no more. {closing()}",
            sure=not (outcome.before.assumed or outcome.after.assumed),
        )
        for pair in outcome.pairs
        if not _answered(ledger, pair.piece, treatment.agent, second)
    ]


def shown_by(outcome: Outcome) -> str:
    """The counts, the reduction with its interval, and what is expected."""
    before, later = outcome.before, outcome.after
    aim = expectation(outcome.treatment.agent)
    words = f"{before.rate:.1f} {before.unit} before, {later.rate:.1f} after: {_fewer(outcome.found)}"
    if outcome.control is not None and outcome.control is outcome.judged:
        untreated = "colony" if outcome.controls == 1 else "colonies"
        words += f"; against {outcome.controls} untreated {untreated} of the yard {_fewer(outcome.control)}"
        words += " (Henderson-Tilton)"
    return f"{words}; {aim.value:g} % is expected ({aim.cite})"


def _fewer(found: Efficacy) -> str:
    if all(end is not None and math.isfinite(end) and end >= 0 for end in (found.lower, found.upper)):
        return f"{_share(found.percent)}, between {found.lower:.0f} and {found.upper:.0f} %"
    if all(end is not None and math.isfinite(end) and end < 0 for end in (found.lower, found.upper)):
        return f"{_share(found.percent)}, between {_share(found.upper)} and {_share(found.lower)}"
    return f"{_share(found.percent)}, between {_share(found.lower)} and {_share(found.upper)}"


def _share(percent: float | None) -> str:
    if percent is None or not math.isfinite(percent):
        return "no telling how many"
    return f"{-percent:.0f} % more" if percent < 0 else f"{percent:.0f} % fewer"


def _group_words(agent: str | None) -> str:
    mode = mode_of(agent)
    return f" ({treatment_name(agent, None)} is group {mode.group})" if mode and mode.group else ""


def _place(pair: Pair) -> Place:
    """Where: the colony, or the whole yard where the counts were samples of it."""
    at = of_piece(pair.piece)
    return at if pair.named else Place(at.yard, origin=at.origin, said_all=True)


def _assumed(*words: str) -> list[str]:
    said = sorted({w for w in words if w})
    return ["; ".join(said)] if said else []


def _answered(ledger: Ledger, piece: Piece, agent: str | None, second: datetime.date) -> bool:
    """Whether another mode of action was placed since, or a later check was under the threshold."""
    from fieldnotes.trade.counts import count_of

    for lot in ledger.treatments:
        if lot.first < second or lot.get("step") == "out" or same_mode(lot.get("agent"), agent):
            continue
        if any(p.colony is piece.colony and p.yard == piece.yard for p in lot.pieces):
            return True
    for check in ledger.checks.of(piece):
        count = count_of(check.record.slots) if check.first > second else None
        if count and count.family != "drone_brood":
            level = threshold_on(check.last, ledger.roster, count.family == "board")
            if not level.wants_control(count.rate):
                return True
    return False
