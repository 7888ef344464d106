"""A level in words: the count with its interval, where it stands, and what it says of the whole colony."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import TYPE_CHECKING

from fieldnotes.roster import Roster
from fieldnotes.trade.growth import growth, mites_in_colony, with_brood
from fieldnotes.trade.thresholds import phase_on, standing

if TYPE_CHECKING:
    from fieldnotes.trade.counts import Count
    from fieldnotes.trade.thresholds import Level
    from fieldnotes.trade.yard import YardLevel

_ON_ADULTS = ("wash", "roll", "co2")
_STANDS = {
    "above": "above the threshold",
    "near": "near the threshold",
    "below": "below the threshold",
    "can't tell yet": "can't tell yet whether that is over the threshold",
}


def counted(count: Count) -> str:
    """The count with its exact interval: "9 mites on 300 bees: 3.0 mites per 100 bees, between 1.4 and 5.7"."""
    lower, upper = count.interval()
    where = f"on {count.exposure:g} bees"
    if count.family == "board":
        where = f"in {count.exposure:g} {'day' if count.exposure == 1 else 'days'}"
    return f"{count.mites:g} mites {where}: {count.rate:.1f} {count.unit}, between {lower:.1f} and {upper:.1f}"


def stands(count: Count, level: Level) -> str:
    """Where the count stands to the threshold, and what the threshold is."""
    return f"{_STANDS[standing(count, level)]}, which is {level.treat:g}"


def comes_from(level: Level) -> str:
    """What the threshold rests on: said once, however many colonies are set against it."""
    return f"The threshold of {level.treat:g}: {level.cite}"


def of_yard(level: YardLevel) -> str:
    """The level of a yard: the mean, the interval of all samples as one, and how far the colonies differ."""
    lower, upper = level.pooled.interval()
    many = f"{level.colonies} {'colony' if level.colonies == 1 else 'colonies'}"
    words = f"{level.mean:.1f} {level.pooled.unit} in {many}, between {lower:.1f} and {upper:.1f} all samples as one"
    if level.between is not None:
        words += f", {level.between[0]:.1f} and {level.between[1]:.1f} by how the colonies differ"
    return words


def sampled(level: YardLevel, outliers: Sequence[str]) -> list[str]:
    """Which colonies stick out, and how many more to sample for the published plan."""
    words = []
    if outliers and len(level.outliers) < level.colonies:
        words.append(f"Sticking out: {', '.join(outliers)}")
    if level.more:
        were = "colony was" if level.colonies == 1 else "colonies were"
        plan = growth().sample.cite
        words.append(f"{level.colonies} {were} sampled, {level.more} more make the usual plan ({plan})")
    return words


def in_all(count: Count, day: datetime.date, roster: Roster, brood: bool | None) -> tuple[str, list[str]]:
    """What the count says of the whole colony, where a published rule does: mites in the brood too, or all mites.

    Returns:
        The words to follow the count, or none, and the rule they rest on.
    """
    if count.family == "board":
        mites, rule = mites_in_colony(count.rate, day, roster.hemisphere)
        return f"; about {mites:.0f} mites in a colony", [
            f"Mites in a colony, {rule.value:g} for each mite a day: {rule.cite}"
        ]
    if count.family not in _ON_ADULTS or not _has_brood(day, roster, brood):
        return "", []
    rule = growth().brood
    words = f"; with the mites in the brood about {with_brood(count.rate):.1f} per 100 bees and brood together"
    return words, [f"Mites in the brood: {rule.cite}"]


def _has_brood(day: datetime.date, roster: Roster, brood: bool | None) -> bool:
    return phase_on(day, roster.hemisphere) != "dormant" if brood is None else brood
