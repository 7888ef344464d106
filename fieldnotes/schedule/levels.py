"""From the level last found: treat now, or count again by a day (`treat`, `check_due`)."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldnotes.roster import colony_key
from fieldnotes.schedule.checks import Check, by_day
from fieldnotes.schedule.colonies import Colonies, Colony
from fieldnotes.schedule.counted import FALL_DAYS, on_board
from fieldnotes.schedule.days import after, spoken
from fieldnotes.schedule.drafts import Draft, Place
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.level_words import comes_from, counted, in_all, of_yard, sampled, stands
from fieldnotes.schedule.pieces import Lot, Piece
from fieldnotes.schedule.shut import by_board
from fieldnotes.schedule.wording import id_ranges
from fieldnotes.trade.cautions import closing, work_caution
from fieldnotes.trade.thresholds import growing_from, phase_on, threshold_on

if TYPE_CHECKING:
    from fieldnotes.trade.counts import Count
    from fieldnotes.trade.thresholds import Level, Standing

TREAT_DAYS = 7
"""Days from a count over the threshold until a treatment is late."""
PERHAPS = "perhaps"
"""Marks an item of a count that is over the threshold, but not for certain."""
ROUND_DAYS = 14
"""Samples of a yard this close together are one round. Common practice, no source."""


class Placings:
    """Which treatments were in, or went in, where and when."""

    def __init__(self, ledger: Ledger) -> None:
        self._of: dict[Colony | str, list[Piece]] = {}
        self._whole: dict[str, list[Lot]] = {}
        for lot in ledger.treatments:
            for piece in lot.pieces:
                self._of.setdefault(piece.colony or piece.yard, []).append(piece)
            for yard in {p.yard for p in lot.pieces} if lot.whole else ():
                self._whole.setdefault(yard, []).append(lot)

    def latest(self, place: Colony | str, day: datetime.date) -> Lot | None:
        """The last treatment that was in there on the day and after it, or went in since."""
        found = [p.lot for p in self._since(place, day)]
        return max(found, key=lambda lot: (lot.last, lot.record.id), default=None)

    def since(self, place: Colony | str, day: datetime.date) -> bool:
        """Whether a treatment was in there on the day and after it, or went in since."""
        return any(True for _ in self._since(place, day))

    def felling(self, place: Colony | str, check: Check) -> list[Lot]:
        """The treatments that had been given there when mites were counted on a board, and may still have felled some.

        What falls under a treatment, and for some time after it, is what it kills: it tells of no level.
        """
        if not on_board(check):
            return []
        found = []
        for piece in self._at(place):
            over = after(piece.end.last, FALL_DAYS) if piece.end else None
            if piece.lot.first < check.last and (over is None or check.first <= over):
                found.append(piece.lot)
        return found

    def tells(self, yard: str, check: Check, colonies: Colonies) -> bool:
        """Whether a count tells of the level, and not of what a treatment felled."""
        named: list[Colony | str] = [colonies.named(yard, cid) for cid in check.record.slots.get("colonies") or ()]
        return not any(self.felling(place, check) for place in named or [yard])

    def _at(self, place: Colony | str) -> list[Piece]:
        pieces = list(self._of.get(place, ()))
        if isinstance(place, Colony):
            return pieces + self._of.get(place.yard, [])
        return pieces + [p for lot in self._whole.get(place, ()) for p in lot.pieces]

    def _since(self, place: Colony | str, day: datetime.date) -> Iterator[Piece]:
        for piece in self._at(place):
            # What came out on the day of the count is over: that count is the level it left.
            placed = piece.placing_known and piece.lot.last >= day
            if placed or piece.end is None or piece.end.last > day:
                yield piece


def treat_items(ledger: Ledger, placings: Placings) -> list[Draft]:
    """A count over the outfit's threshold, and no treatment stayed in or went in since. The last count counts."""
    drafts = []
    for yard in ledger.checks.places():
        here = []
        for colony in ledger.checks.colonies(yard):
            if colony.left is None:
                here += _treat(ledger, placings, yard, colony, ledger.checks.named(colony))
        samples = ledger.checks.samples(yard)
        if samples and samples[-1].last == ledger.checks.in_yard(yard)[-1].last:
            here += _treat(ledger, placings, yard, None, samples)
        if here:
            _add_yard(ledger, placings, yard, here)
        drafts += here
    return drafts


def _add_yard(ledger: Ledger, placings: Placings, yard: str, drafts: list[Draft]) -> None:
    """Beside what is over the threshold, say how the yard stands as a whole, where more than one sample was taken."""
    from fieldnotes.trade.yard import yard_level

    found = last_round(ledger, placings, yard)
    if found is None or len(found.counts) < 2:
        return
    living = ledger.colonies.of(yard) if yard in ledger.colonies.rostered else []
    level = yard_level(found.counts, len(living) or None)
    words = [f"The yard: {of_yard(level)}", *sampled(level, found.called(level.outliers))]
    in_round = {c.record.id for c in found.checks}
    counted_now = [d for d in drafts if in_round.issuperset(r.id for r in d.records)]
    # Once: beside what is over it for certain, if anything is.
    for draft in [d for d in counted_now if d.key[-1] != PERHAPS] or counted_now:
        draft.notes += words


def _treat(ledger: Ledger, placings: Placings, yard: str, colony: Colony | None, checks: list[Check]) -> list[Draft]:
    from fieldnotes.trade.thresholds import standing

    if not checks or placings.since(colony or yard, checks[-1].last):
        return []
    last = [c for c in checks if c.last == checks[-1].last and not placings.felling(colony or yard, c)]
    count = _pooled(last)
    if count is None:
        return []
    level = _level(ledger, yard, colony, last[-1].last, count)
    if not level.wants_control(count.rate):
        return []
    when = last[-1].last
    above = standing(count, level) == "above"
    total, rules = in_all(count, when, ledger.roster, ledger.season(yard, colony, when)[0])
    who = f"{colony.cid}, " if colony else ""
    reasons = [f"{who}{counted(count)}: {stands(count, level)}{total}"]
    if count.assumed:
        reasons.append(count.assumed)
    over = f"over the threshold by the count of {spoken(when, ledger.day)}"
    do = f"{over}; treat" if above else f"{over}, but by too small a sample to be sure; treat, or count again now"
    return [
        Draft(
            what="treat",
            at=_where_counted(ledger, colony, last) if colony else Place(yard, said_all=True),
            key=(when.isoformat(), count.family, "" if above else PERHAPS),
            due=when,
            latest=after(when, TREAT_DAYS),
            do=do,
            records=[c.record for c in last],
            reasons=reasons,
            notes=[comes_from(level), *rules],
            caution=f"Choose by the season, the supers and the weather, and rotate groups. {closing()}",
            sure=above and not count.assumed,
        )
    ]


def _where_counted(ledger: Ledger, colony: Colony, checks: list[Check]) -> Place:
    """Where a colony is, and where it was counted with others, which may be elsewhere by now."""
    origin = checks[-1].record.slots.get("yard") or colony.yard
    beside = [
        ledger.colonies.named(origin, cid)
        for check in ledger.checks.in_yard(origin)
        if check.last == checks[-1].last
        for cid in check.record.slots.get("colonies") or ()
    ]
    return Place(colony.yard, origin=origin, colony=colony, parted=any(c.yard != colony.yard for c in beside))


def _level(ledger: Ledger, yard: str, colony: Colony | None, day: datetime.date, count: Count) -> Level:
    brood, flow = ledger.season(yard, colony, day)
    return threshold_on(day, ledger.roster, count.family == "board", brood, flow)


def _pooled(checks: list[Check]) -> Count | None:
    """The samples of one day as one, washes before boards; None where no number was said."""
    from fieldnotes.trade.counts import count_of, pooled

    counts = [c for k in checks if (c := count_of(k.record.slots)) and c.family != "drone_brood"]
    for family in ("wash", "co2", "roll", "board"):
        same = [c for c in counts if c.family == family]
        if same:
            return pooled(same)
    return None


@dataclass(frozen=True, slots=True)
class Round:
    """The last round of counting in a yard: one count a colony, the records, the days."""

    counts: dict[str, Count]
    checks: list[Check]
    last: datetime.date

    def called(self, names: Iterable[str]) -> list[str]:
        """What sticks out, by the numbers of colonies; a sample of which no colony was said by what it held."""
        unnamed = {c.record.id for c in self.checks}
        ids = sorted((n for n in names if n not in unnamed), key=colony_key)
        samples = [f"the sample with {self.counts[n].mites:g} mites" for n in names if n in unnamed]
        return [*([id_ranges(ids)] if ids else []), *samples]


def last_round(ledger: Ledger, placings: Placings, yard: str) -> Round | None:
    """The last round of counts of one kind that tell of the level in a yard, None where no number was said."""
    from fieldnotes.trade.counts import count_of

    told = _made_there(ledger, placings, yard) if _own(ledger, yard) else _brought_along(ledger, placings, yard)
    numbered = [(k, names, c) for k, names in told if (c := count_of(k.record.slots)) and c.family != "drone_brood"]
    if not numbered:
        return None
    last, family = numbered[-1][0].last, numbered[-1][2].family
    counts: dict[str, Count] = {}
    used = []
    for check, names, count in numbered:
        if count.family != family or check.last < last - datetime.timedelta(days=ROUND_DAYS):
            continue
        used.append(check)
        counts |= dict.fromkeys(names, count)
    return Round(counts, by_day(used), last)


def _own(ledger: Ledger, yard: str) -> bool:
    """Whether the last counts made in a yard are of hives that stand there, or nobody brought any other along."""
    own = ledger.checks.in_yard(yard)
    last = [c.record.slots.get("colonies") for c in own if c.last == own[-1].last]
    living = [c for c in ledger.checks.colonies(yard) if c.left is None]
    if any(not cids or any(ledger.colonies.named(yard, cid) in living for cid in cids) for cids in last):
        return True
    return bool(own) and not living


def _made_there(ledger: Ledger, placings: Placings, yard: str) -> list[tuple[Check, list[str]]]:
    """The counts made in a yard that tell of the level, by day, and the colonies of each."""
    checks = [c for c in ledger.checks.in_yard(yard) if placings.tells(yard, c, ledger.colonies)]
    return [(c, c.record.slots.get("colonies") or [c.record.id]) for c in checks]


def _brought_along(ledger: Ledger, placings: Placings, yard: str) -> list[tuple[Check, list[str]]]:
    """The counts that the colonies of a yard had where they stood before, by day; none where most came uncounted."""
    counted = [c for c in ledger.checks.colonies(yard) if c.left is None]
    if len(counted) * 2 < len(ledger.colonies.of(yard)):
        return []
    found = [
        (check, [colony.cid])
        for colony in counted
        for check in ledger.checks.named(colony)
        if not placings.felling(colony, check)
    ]
    return sorted(found, key=lambda pair: (pair[0].last, pair[0].record.id, pair[1]))


def check_due_items(ledger: Ledger, placings: Placings, taken: Iterable[Place]) -> list[Draft]:
    """The next count of each yard, by growth from the last level and no later than the guide's interval.

    `taken` are places of which as much is said already, for a yard or for at least half of the colonies that were
    counted last: a count after a treatment, or a treatment that is due.
    """
    said = set()
    named: dict[str, set[str]] = {}
    for at in taken:
        if at.colony is None:
            said.add(at.yard)
        else:
            named.setdefault(at.yard, set()).add(at.colony.cid)
    drafts = []
    for yard in ledger.checks.places():
        rostered = yard in ledger.colonies.rostered
        living = ledger.colonies.of(yard) if rostered else []
        found = last_round(ledger, placings, yard)
        if found is None or yard in said or (rostered and not living):
            continue
        covered = len(named.get(yard, set()) & set(found.counts)) * 2 >= len(found.counts)
        last = max(c.last for c in (*ledger.checks.in_yard(yard)[-1:], *found.checks))
        if not covered and not _treated(placings, yard, living or _counted_by_name(ledger, yard, found), last):
            drafts.append(_check_due(ledger, yard, found, len(living) or None))
    return drafts


def _counted_by_name(ledger: Ledger, yard: str, found: Round) -> list[Colony]:
    """The colonies of a round that were named: of a yard that is not in the roster no others are known."""
    unnamed = {c.record.id for c in found.checks}
    return [ledger.colonies.named(yard, name) for name in found.counts if name not in unnamed]


def _treated(placings: Placings, yard: str, living: list[Colony], last: datetime.date) -> bool:
    """Whether a treatment is in at least half of the yard, or went in since the last count."""
    if not living:
        return placings.since(yard, after(last, 1))
    under = sum(placings.since(colony, after(last, 1)) for colony in living)
    return under * 2 >= len(living)


def _check_due(ledger: Ledger, yard: str, found: Round, hives: int | None) -> Draft:
    from fieldnotes.trade.growth import days_until, growth
    from fieldnotes.trade.thresholds import standing
    from fieldnotes.trade.yard import yard_level

    figures = growth()
    level = yard_level(found.counts, hives)
    brood, flow = ledger.season(yard, None, found.last)
    threshold = threshold_on(found.last, ledger.roster, level.pooled.family == "board", brood, flow)
    crossing = days_until(level.upper, threshold.treat)
    soonest, interval = figures.soonest.days, figures.interval.days
    wait = max(soonest, min(interval, math.floor(crossing) if math.isfinite(crossing) else interval))
    due = after(found.last, wait)
    latest = after(due, figures.grace.days)
    total, rules = in_all(level.pooled, found.last, ledger.roster, brood)
    reasons = [
        f"{of_yard(level)}: {stands(level.pooled, threshold)}{total}",
        _grounds(level.upper, crossing, interval, standing(level.pooled, threshold)),
        comes_from(threshold),
        *rules,
    ]
    if level.pooled.assumed:
        reasons.append(level.pooled.assumed)
    reasons += sampled(level, found.called(level.outliers))
    spring = _spring(due, ledger.roster.hemisphere, brood)
    if spring is not None:
        due, latest = spring, after(spring, interval)
        reasons.append("No brood to grow in before then")
    sample = int(min(figures.sample.value, hives or figures.sample.value))
    draft = Draft(
        what="check_due",
        at=Place(yard, count=sample),
        key=(found.last.isoformat(), due.isoformat(), latest.isoformat()),
        due=due,
        latest=latest,
        do="count mites",
        since=f", last counted {spoken(found.last, ledger.day)}",
        records=[c.record for c in found.checks],
        reasons=reasons,
        caution=work_caution("mite_check"),
        sure=not level.pooled.assumed,
    )
    return by_board(ledger, draft)


def _grounds(upper: float, crossing: float, interval: int, stands: Standing) -> str:
    """Why the next count is due when it is: the level could be over the threshold by then, or the interval is up."""
    from fieldnotes.trade.growth import growth

    if stands == "above":
        return "It is over already, so count again to see how it goes"
    if crossing <= 0:
        return f"At {upper:.1f}, the most it may be, it may be over already"
    if crossing < interval:
        rate = growth().rate
        return (
            f"From {upper:.1f}, the most it may be, it could cross it in {crossing:.0f} days with brood ({rate.cite})"
        )
    return f"Counted monthly in season ({growth().interval.cite})"


def _spring(due: datetime.date, hemisphere: str, brood: bool | None) -> datetime.date | None:
    """The first day of the growing season after a due day without brood, None where there is brood."""
    return growing_from(due, hemisphere) if not brood and phase_on(due, hemisphere) == "dormant" else None
