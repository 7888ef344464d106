"""Did it work? Percent reduction from counts before and after, with exact intervals."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fieldnotes.trade.counts import Count
from fieldnotes.trade.exact import clopper_pearson, odds_ratio
from fieldnotes.trade.modes import expectation

Verdict = Literal["worked", "fell short", "can't tell"]


@dataclass(frozen=True, slots=True)
class Efficacy:
    """Percent reduction with its interval; None where it cannot be computed, minus infinity where it is open."""

    percent: float | None
    lower: float | None
    upper: float | None


UNKNOWN = Efficacy(None, None, None)


def reduction(before: Count, after: Count, level: float = 0.95) -> Efficacy:
    """100 x (1 - rate after / rate before), with the exact conditional interval for the ratio of two Poisson rates.

    Given the mites of both samples together, those after are binomial with p = R·ea / (R·ea + eb) for a ratio R of
    the rates and exposures ea, eb; the Clopper-Pearson interval of p turned back into R is exact (Przyborowski and
    Wilenski 1940, Biometrika 31:313-323). Without a mite before nothing can be computed.

    Raises:
        ValueError: counts of two different kinds, which cannot be compared.
    """
    _comparable(before, after)
    if before.mites == 0:
        return UNKNOWN
    low, high = clopper_pearson(after.mites, before.mites + after.mites, level)
    scale = before.exposure / after.exposure
    return _percent(after.mites / before.mites, low / (1 - low), high / (1 - high) if high < 1 else math.inf, scale)


def henderson_tilton(
    treated_before: Count, treated_after: Count, control_before: Count, control_after: Count, level: float = 0.95
) -> Efficacy:
    """100 x (1 - (Ta x Cb) / (Tb x Ca)) with the exact conditional interval.

    Formula: Henderson and Tilton 1955, J Econ Entomol 48:157-161. Given its margins the table of the four counts
    follows Fisher's noncentral hypergeometric law, whose odds ratio is the ratio of the two ratios; mites are rounded
    to whole numbers for it. Where Tb or Ca is 0 it cannot be computed.

    Raises:
        ValueError: counts of different kinds.
    """
    counts = (treated_before, treated_after, control_before, control_after)
    for count in counts:
        _comparable(treated_before, count)
    if treated_before.mites == 0 or control_after.mites == 0:
        return UNKNOWN
    low, high = odds_ratio(
        round(treated_after.mites),
        round(treated_before.mites),
        round(control_after.mites),
        round(control_before.mites),
        level,
    )
    scale = (treated_before.exposure / treated_after.exposure) * (control_after.exposure / control_before.exposure)
    ratio = (treated_after.mites * control_before.mites) / (treated_before.mites * control_after.mites)
    return _percent(ratio, low, high, scale)


def _comparable(one: Count, other: Count) -> None:
    if one.family != other.family:
        raise ValueError(f"a {one.family} count and a {other.family} count cannot be compared")


def _percent(ratio: float, low: float, high: float, scale: float) -> Efficacy:
    return Efficacy(100 * (1 - scale * ratio), 100 * (1 - scale * high), 100 * (1 - scale * low))


def verdict(found: Efficacy, agent: str | None) -> Verdict:
    """Against the published expectation for the active, by the interval and not by the point alone."""
    if found.lower is None or found.upper is None:
        return "can't tell"
    wanted = expectation(agent).value
    if found.lower >= wanted:
        return "worked"
    return "fell short" if found.upper < wanted else "can't tell"


def why_unsure(before: Count, after: Count, agent: str | None) -> str:
    """Why the counts cannot tell: what was too few."""
    if before.mites == 0:
        return "no mites before, so there was nothing to bring down"
    best = reduction(before, Count(0, after.exposure, after.family))
    if best.lower is not None and best.lower < expectation(agent).value:
        return "too few mites before: even none after would not have shown it"
    return "too few bees after: the interval spans what is expected"
