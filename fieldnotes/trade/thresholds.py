"""When is a count too high? Thresholds by guide and phase of the season, the outfit's own first."""

from __future__ import annotations

import datetime
from functools import cache
from typing import Literal

from fieldnotes.roster import Roster
from fieldnotes.trade.figures import Figure, Part, table

Phase = Literal["dormant_brood", "dormant", "increase", "peak", "decrease"]

PHASE_BY_MONTH: dict[int, Phase] = {
    1: "dormant", 2: "dormant", 3: "increase", 4: "increase", 5: "increase", 6: "peak",
    7: "peak", 8: "decrease", 9: "decrease", 10: "decrease", 11: "dormant", 12: "dormant",
}  # fmt: skip
"""Phase of the season by month of the northern year. Common practice, no source."""


class Level(Figure):
    """One cell of a guide: below `watch` acceptable, above `treat` wants control."""

    watch: float
    treat: float


class Guide(Part):
    """One published table of thresholds. `phase` has the phases it tells apart, or "any"."""

    name: str
    title: str
    body: str
    year: int | None = None
    unit: Literal["per 100", "a day"]
    phase: dict[str, Level]


@cache
def guides() -> dict[str, Guide]:
    """The guides on file, by name."""
    return {g["name"]: Guide.model_validate(g) for g in table("thresholds")["guide"]}


def phase_on(day: datetime.date, hemisphere: str) -> Phase:
    """The phase of the season by the date alone."""
    month = day.month if hemisphere == "north" else (day.month + 5) % 12 + 1
    return PHASE_BY_MONTH[month]


def threshold_on(day: datetime.date, roster: Roster) -> Level:
    """The threshold that holds on a day: the outfit's own, else its guide's for the phase of the season."""
    own = roster.practice.threshold
    if own is not None:
        return Level(watch=own, treat=own, source="the outfit's roster", status="seen")
    guide = guides()[roster.practice.guide]
    return guide.phase.get(phase_on(day, roster.hemisphere)) or guide.phase["any"]
