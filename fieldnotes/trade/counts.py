"""Mite counts and their exact intervals.

A count of mites on a sample of bees is a rate: several mites may ride one bee, so the interval is the Poisson one
(Garwood 1936, Biometrika 28:437-442). Clopper-Pearson (1934, Biometrika 26:404-413) is for things that are yes or no,
such as colonies over a threshold.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from fieldnotes.trade.exact import garwood

ASSUMED_BEES = 300
"""Sample size where none was said. Lee et al. 2010, J Econ Entomol 103:1039-1050: 300 bees for one colony."""

Family = Literal["wash", "roll", "co2", "board", "drone_brood"]

_FAMILIES: dict[str | None, Family] = {
    "alcohol_wash": "wash",
    "soap_wash": "wash",
    "wash": "wash",
    "sugar_roll": "roll",
    "roll": "roll",
    "co2": "co2",
    "board": "board",
    "drone_brood": "drone_brood",
    None: "wash",
}


@dataclass(frozen=True, slots=True)
class Count:
    """One sample: `mites` found on `exposure`, which is bees, or days for a board.

    `assumed` is what had to be assumed, in words ("300 bees assumed"), or "".
    """

    mites: float
    exposure: float
    family: Family
    assumed: str = ""

    @property
    def scale(self) -> float:
        """100 for mites per 100 bees, 1 for mites a day."""
        return 1.0 if self.family == "board" else 100.0

    @property
    def rate(self) -> float:
        """Mites per 100 bees, or a day on a board."""
        return self.scale * self.mites / self.exposure

    def interval(self, level: float = 0.95) -> tuple[float, float]:
        """The exact interval of the rate."""
        lower, upper = garwood(self.mites, level)
        return self.scale * lower / self.exposure, self.scale * upper / self.exposure

    @property
    def unit(self) -> str:
        """The unit of the rate, in words."""
        return "mites a day" if self.family == "board" else "mites per 100 bees"


def count_of(slots: dict[str, Any]) -> Count | None:
    """The sample that a `mite_check` record tells of, None where it has no number.

    A range ("5 or 6") counts as its middle. A percentage alone is turned back into mites on the sample said or
    assumed. A board with no days said is taken as one day.
    """
    family = _FAMILIES.get(slots.get("method"), "wash")
    assumed = []
    if family == "board":
        exposure = slots.get("board_days")
        if not exposure:
            exposure = 1
            assumed.append("one day on the board assumed")
    elif family == "drone_brood":
        exposure = slots.get("bees") or 100
    else:
        exposure = slots.get("bees")
        if not exposure:
            exposure = ASSUMED_BEES
            assumed.append(f"{ASSUMED_BEES} bees assumed")
    mites = slots.get("mites")
    if mites is None:
        if slots.get("per_100") is None or family == "board":
            return None
        mites = slots["per_100"] * exposure / 100
    elif slots.get("mites_high") is not None:
        mites = (mites + slots["mites_high"]) / 2
    if family == "roll":
        assumed.append("a sugar roll, which reads low")
    return Count(float(mites), float(exposure), family, "; ".join(assumed))


def pooled(counts: list[Count]) -> Count:
    """Samples of one family as one: mites and exposure added."""
    words = sorted({word for c in counts if c.assumed for word in c.assumed.split("; ")})
    return Count(sum(c.mites for c in counts), sum(c.exposure for c in counts), counts[0].family, "; ".join(words))
