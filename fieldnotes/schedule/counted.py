"""Treatments and the counts around them: what they did, colony by colony and as a whole."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fieldnotes.schedule.checks import Check, by_day
from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.days import after
from fieldnotes.schedule.ledger import Ledger, is_single
from fieldnotes.schedule.pieces import End, Lot, Piece

if TYPE_CHECKING:
    from fieldnotes.trade.counts import Count
    from fieldnotes.trade.efficacy import Efficacy, Verdict

BEFORE_DAYS = 30
"""How far before the placement a count still is the count before. Common practice, no source."""
AFTER_DAYS = 60
"""How far after the end the first count still is the count after. Common practice, no source."""
FAILED_DAYS = 30
"""A count later than this after the end may show that a treatment worked, not that it failed: by then mites have had
time to come back. Common practice, no source."""
FALL_DAYS = 21
"""So long after a treatment a board catches what it killed: mites fall for about 3 weeks after an oxalic acid dribble
(leaflet, Germany), and a trial waits at least 14 days for the fall to be as before (COLOSS BEEBOOK II, varroa
4.5.4.2.6.1, 2013)."""
ROUND_DAYS = 7
"""Samples of a yard this close together are one round of counting. Common practice, no source."""


def on_board(check: Check) -> bool:
    """Whether mites were counted on a board under the hive."""
    return check.record.slots.get("method") == "board"


@dataclass(slots=True)
class Treatment:
    """One treatment of one yard: the lots placed at the same time, and the pieces that ran to their end.

    `start` is the day of the first dose. `pieces` are the last doses of ended ones; `running` those still in.
    """

    yard: str
    agent: str | None
    form: str | None
    product: str | None
    start: datetime.date
    lots: list[Lot] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)
    running: list[Piece] = field(default_factory=list)

    @property
    def ends(self) -> list[End]:
        """The ends of its pieces."""
        return [p.end for p in self.pieces if p.end is not None]

    @property
    def last_end(self) -> datetime.date | None:
        """The day on which the last of it ended, None while some is in or nothing ended."""
        return None if self.running or not self.ends else max(e.last for e in self.ends)

    @property
    def partly_out(self) -> datetime.date | None:
        """The day on which the last of what is out came out, where the rest is still in."""
        return max((e.last for e in self.ends), default=None) if self.running else None


@dataclass(frozen=True, slots=True)
class Pair:
    """The counts around one treatment of one piece: the samples of the day before it and of the day after it."""

    piece: Piece
    before: tuple[Check, ...]
    after: tuple[Check, ...]
    named: bool


@dataclass(frozen=True, slots=True)
class Outcome:
    """What counts say of a treatment. `before` and `after` are its pooled samples, `found` the plain reduction.

    `control` is the reduction set against the `controls` untreated colonies of the yard that were counted too;
    `judged` is the one of the two that the verdict rests on; `why` says what was too few.
    """

    treatment: Treatment
    pairs: tuple[Pair, ...]
    before: Count
    after: Count
    found: Efficacy
    verdict: Verdict
    why: str
    control: Efficacy | None
    controls: int
    counted: datetime.date
    judged: Efficacy


def treatments_of(ledger: Ledger) -> list[Treatment]:
    """The treatments of the book, in the order of days."""
    found: dict[tuple[object, ...], Treatment] = {}
    for lot in ledger.treatments:
        what = (lot.yard, lot.get("agent"), lot.get("form"), lot.get("product"))
        for piece in lot.pieces:
            first = course_start(piece)
            key = (*what, first)
            if key not in found:
                found[key] = Treatment(*what, first)
            treatment = found[key]
            if lot not in treatment.lots:
                treatment.lots.append(lot)
            if piece.end is None:
                treatment.running.append(piece)
            elif piece.end.how in ("out", "single") and not piece.followed:
                treatment.pieces.append(piece)
    return sorted(found.values(), key=lambda t: (t.start, t.yard, t.agent or "", t.form or "", t.product or ""))


def course_start(piece: Piece) -> datetime.date:
    """The day of the first dose of the course."""
    while piece.before is not None and piece.dose > piece.before.dose:
        piece = piece.before
    return piece.lot.first


def _late(pairs: Sequence[Pair]) -> str:
    """Why most of the counts after a treatment came too late to say that it failed; "" where they did not."""
    days = sorted((p.after[0].first - p.piece.end.last).days for p in pairs if p.piece.end is not None)
    usual = days[(len(days) - 1) // 2] if days else 0
    return f"counted {usual} days after it ended, when mites may have come back" if usual > FAILED_DAYS else ""


class Counted:
    """The counts of a ledger, set against its treatments."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self._starts: dict[Colony | str, list[tuple[datetime.date, datetime.date, Lot]]] = {}
        for lot in ledger.treatments:
            for piece in lot.pieces:
                last = piece.end.last if piece.end else datetime.date.max
                self._starts.setdefault(piece.colony or piece.yard, []).append((lot.first, last, lot))

    def outcome(self, treatment: Treatment) -> Outcome | None:
        """What the counts say, None where there is no count before or none after."""
        from fieldnotes.trade.counts import count_of, pooled
        from fieldnotes.trade.efficacy import reduction, verdict, why_unsure

        pairs = self._pairs(treatment)
        family = self._family(pairs)
        befores = [c for p in pairs for k in p.before if (c := count_of(k.record.slots)) and c.family == family]
        afters = [c for p in pairs for k in p.after if (c := count_of(k.record.slots)) and c.family == family]
        if not befores or not afters:
            return None
        before, later = pooled(befores), pooled(afters)
        found = reduction(before, later)
        control, controls = self._control(treatment, pairs, before, later)
        # Untreated colonies show what would have come of the mites anyway; where they are too few to tell, or say the
        # same, the plain counts speak.
        judged, said = found, verdict(found, treatment.agent)
        late = _late(pairs)
        if late and said == "fell short":
            said = "can't tell"
        if control is not None and verdict(control, treatment.agent) not in ("can't tell", said):
            judged, said = control, verdict(control, treatment.agent)
        return Outcome(
            treatment,
            tuple(pairs),
            before,
            later,
            found,
            said,
            (late or why_unsure(before, later, treatment.agent)) if said == "can't tell" else "",
            control,
            controls,
            max(k.last for p in pairs for k in p.after),
            judged,
        )

    def _pairs(self, treatment: Treatment) -> list[Pair]:
        """By colony where both counts were made there; else, for a whole yard, the rounds before and after it."""
        pieces = [p for p in treatment.pieces if p.placing_known]
        named = [pair for p in pieces if p.colony and (pair := self._pair(p, named=True))]
        if named:
            return named
        for piece in pieces:
            if piece.lot.whole and (pair := self._pair(piece, named=False)):
                return [pair]
        return []

    def single(self, treatment: Treatment) -> tuple[Count | None, Count | None]:
        """The counts before it and after it, each for itself, also where the other was never made."""
        return (
            self._side([*treatment.pieces, *treatment.running], self._before),
            self._side(treatment.pieces, self._after),
        )

    def _side(self, pieces: Sequence[Piece], counts: Callable[[Piece, bool], list[Check]]) -> Count | None:
        """One side of a treatment: by colony where any was counted by name; else, for a whole yard, a round of it."""
        from fieldnotes.trade.counts import count_of, pooled

        known = [p for p in pieces if p.placing_known]
        whole = next((p for p in known if p.lot.whole), None)
        found = [c for p in known if p.colony for c in counts(p, True)] or (counts(whole, False) if whole else [])
        told = [c for k in by_day(found) if (c := count_of(k.record.slots)) and c.family != "drone_brood"]
        families = [c.family for c in told]
        usual = max(sorted(set(families)), key=families.count, default=None)
        return pooled([c for c in told if c.family == usual]) if told else None

    def _pair(self, piece: Piece, named: bool) -> Pair | None:
        later = self._after(piece, named)
        before = self._before(piece, named) if later else []
        return Pair(piece, tuple(before), tuple(later), named) if before else None

    def _before(self, piece: Piece, named: bool) -> list[Check]:
        """The samples of the day, or of a yard the round, before the first dose."""
        start = course_start(piece)
        earliest = start - datetime.timedelta(days=BEFORE_DAYS)
        found = self._ledger.checks.within(piece, earliest, start, named)
        spread = datetime.timedelta(days=0 if named else ROUND_DAYS)
        return [c for c in found if c.last >= found[-1].last - spread]

    def _after(self, piece: Piece, named: bool) -> list[Check]:
        """The samples of the day, or of a yard the round, after its end."""
        start, end = course_start(piece), piece.end
        assert end is not None
        # A count on the day the strips come out is a count at the end; one on the day of a single dose came before it.
        from_day = after(end.last, 1) if is_single(piece.lot) else max(end.last, after(start, 1))
        until = min(after(end.last, AFTER_DAYS), self._next_start(piece, end.last))
        checks = self._ledger.checks
        found = [
            c
            for c in checks.within(piece, from_day, until, named)
            if from_day <= c.first and not (on_board(c) and c.first <= after(end.last, FALL_DAYS))
        ]
        return [c for c in found if c.last <= after(found[0].last, 0 if named else ROUND_DAYS)]

    def _next_start(self, piece: Piece, ended: datetime.date) -> datetime.date:
        """The day the next treatment went in there: counts after it say nothing of this one."""
        starts = self._starts.get(piece.colony or piece.yard, [])
        return min(
            (first for first, _, lot in starts if first >= ended and lot is not piece.lot), default=datetime.date.max
        )

    @staticmethod
    def _family(pairs: Iterable[Pair]) -> str | None:
        """The kind of count that most pairs have on both sides; brood of drones is never compared."""
        from fieldnotes.trade.counts import count_of

        tally: dict[str, int] = {}
        for pair in pairs:
            before = {c.family for k in pair.before if (c := count_of(k.record.slots))}
            later = {c.family for k in pair.after if (c := count_of(k.record.slots))}
            for family in (before & later) - {"drone_brood"}:
                tally[family] = tally.get(family, 0) + 1
        return max(sorted(tally), key=lambda f: tally[f], default=None)

    def _control(
        self, treatment: Treatment, pairs: list[Pair], before: Count, later: Count
    ) -> tuple[Efficacy | None, int]:
        """The Henderson-Tilton reduction, where colonies of the yard that were not treated were counted both times."""
        from fieldnotes.trade.counts import count_of, pooled
        from fieldnotes.trade.efficacy import henderson_tilton

        treated = {p.colony for lot in treatment.lots for p in lot.pieces}
        if any(c is None for c in treated):
            return None, 0
        first = min(k.last for p in pairs for k in p.before)
        second = max(k.last for p in pairs for k in p.after)
        befores, afters, colonies = [], [], 0
        for colony in self._ledger.checks.colonies(treatment.yard):
            if colony in treated or self._treated_between(colony, first, second):
                continue
            checks = self._ledger.checks.named(colony)
            early = [k for k in checks if first - datetime.timedelta(days=ROUND_DAYS) <= k.last <= treatment.start]
            late = [k for k in checks if treatment.start < k.first and k.last <= after(second, ROUND_DAYS)]
            one = count_of(early[-1].record.slots) if early else None
            two = count_of(late[-1].record.slots) if late else None
            if one and two and one.family == two.family == before.family:
                befores.append(one)
                afters.append(two)
                colonies += 1
        if not colonies:
            return None, 0
        return henderson_tilton(before, later, pooled(befores), pooled(afters)), colonies

    def _treated_between(self, colony: Colony, first: datetime.date, second: datetime.date) -> bool:
        spans = self._starts.get(colony, []) + self._starts.get(colony.yard, [])
        return any(start <= second and last >= first for start, last, _ in spans)
