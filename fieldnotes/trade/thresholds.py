"""When is a level too high? Thresholds by guide and phase of the season, the outfit's own first."""

from __future__ import annotations

import datetime
from functools import cache
from typing import Literal

from fieldnotes.errors import FieldnotesError
from fieldnotes.roster import Roster
from fieldnotes.trade.counts import Count
from fieldnotes.trade.figures import Figure, Part, table

Phase = Literal["dormant_brood", "dormant", "increase", "peak", "decrease"]
Standing = Literal["above", "near", "below", "can't tell yet"]

PHASE_BY_MONTH: dict[int, Phase] = {
    1: "dormant", 2: "dormant", 3: "increase", 4: "increase", 5: "increase", 6: "peak",
    7: "peak", 8: "decrease", 9: "decrease", 10: "decrease", 11: "dormant", 12: "dormant",
}  # fmt: skip
"""Phase of the season by month of the northern year. Common practice, no source."""


class Level(Figure):
    """One cell of a guide: below `watch` acceptable; control wanted `at` or over `treat`."""

    watch: float
    treat: float
    at: Literal["from", "over"] = "over"

    def wants_control(self, rate: float) -> bool:
        """Whether a rate calls for control."""
        return rate >= self.treat if self.at == "from" else rate > self.treat


class Guide(Part):
    """One published table of thresholds. `phase` has the phases it tells apart, or "any"."""

    name: str
    title: str
    unit: Literal["per 100", "a day"]
    at: Literal["from", "over"]
    phase: dict[str, Level]

    def level(self, phase: Phase) -> Level:
        """The cell for a phase."""
        brood = "dormant" if phase == "dormant_brood" else phase
        cell = self.phase.get(phase) or self.phase.get(brood) or self.phase["any"]
        return cell.model_copy(update={"at": self.at})


@cache
def guides() -> dict[str, Guide]:
    """The guides on file, by name."""
    return {g["name"]: Guide.model_validate(g) for g in table("thresholds")["guide"]}


def guide_named(name: str, unit: Literal["per 100", "a day"]) -> Guide:
    """The guide of that name.

    Raises:
        FieldnotesError: there is none of that name in that unit.
    """
    found = guides().get(name)
    if found is None or found.unit != unit:
        known = ", ".join(sorted(g.name for g in guides().values() if g.unit == unit))
        raise FieldnotesError(f'The roster names the guide "{name}", which is not on file. Choose one of: {known}.')
    return found


def northern_month(day: datetime.date, hemisphere: str) -> int:
    """The month of the northern year that has the same season."""
    return day.month if hemisphere == "north" else (day.month + 5) % 12 + 1


def phase_on(day: datetime.date, hemisphere: str, brood: bool | None = None, flow: str | None = None) -> Phase:
    """The phase of the season: by the date, then by what the notes say of brood and flow.

    No brood means dormant whatever the date; brood in the dormant months is "dormant_brood"; a full flow while the
    population still grows means it is at its peak.
    """
    phase = PHASE_BY_MONTH[northern_month(day, hemisphere)]
    if phase == "dormant":
        return "dormant_brood" if brood else "dormant"
    if brood is False:
        return "dormant"
    return "peak" if phase == "increase" and flow == "on" else phase


def growing_from(day: datetime.date, hemisphere: str) -> datetime.date:
    """The first day of the growing season that begins after a day of the dormant months; else that month's first."""
    day = day.replace(day=1)
    while PHASE_BY_MONTH[northern_month(day, hemisphere)] == "dormant":
        day = (day.replace(day=28) + datetime.timedelta(days=4)).replace(day=1)
    return day


def threshold_on(
    day: datetime.date, roster: Roster, board: bool = False, brood: bool | None = None, flow: str | None = None
) -> Level:
    """The threshold that holds on a day: the outfit's own, else its guide's for the phase of the season.

    With `board`, in mites a day; the outfit's own threshold is in mites per 100 bees and does not count there.
    """
    own = roster.practice.threshold
    if own is not None and not board:
        return Level(watch=own / 2, treat=own, source="the outfit's roster", status="seen")
    guide = (
        guide_named(roster.practice.board_guide, "a day") if board else guide_named(roster.practice.guide, "per 100")
    )
    return guide.level(phase_on(day, roster.hemisphere, brood, flow))


def standing(count: Count, level: Level) -> Standing:
    """How a count stands to a threshold, by its interval and not by the point alone.

    "above" or "below" only if the whole interval is; "near" if control is not wanted for certain, but the level is
    to be watched; "can't tell yet" where the interval spans the threshold.
    """
    lower, upper = count.interval()
    if level.wants_control(lower):
        return "above"
    if level.wants_control(upper):
        return "can't tell yet"
    return "near" if count.rate >= level.watch else "below"
