"""Did it work? Percent reduction from counts before and after, with an exact interval."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldnotes.trade.counts import Count, clopper_pearson
from fieldnotes.trade.figures import Amount
from fieldnotes.trade.modes import expectation

Verdict = Literal["worked", "fell short", "can't tell"]


@dataclass(frozen=True, slots=True)
class Efficacy:
    """Percent reduction with its interval, None where there were no mites before."""

    percent: float | None
    lower: float | None
    upper: float | None


def reduction(before: Count, after: Count, level: float = 0.95) -> Efficacy:
    """100 x (1 - rate after / rate before), with the exact conditional interval for the ratio of two Poisson rates.

    Given the mites of both samples together, those after are binomial with p = R·ea / (R·ea + eb) for a ratio R of
    the rates and exposures ea, eb; the Clopper-Pearson interval of p turned back into R is exact (Przyborowski and
    Wilenski 1940, Biometrika 31:313-323).

    Raises:
        ValueError: counts of two different kinds, which cannot be compared.
    """
    if before.family != after.family:
        raise ValueError(f"a {before.family} count and a {after.family} count cannot be compared")
    total = before.mites + after.mites
    if total == 0 or before.mites == 0:
        return Efficacy(None, None, None)
    low, high = clopper_pearson(after.mites, total, level)
    scale = before.exposure / after.exposure
    ratio = scale * after.mites / before.mites
    most = scale * high / (1 - high) if high < 1 else float("inf")
    return Efficacy(100 * (1 - ratio), 100 * (1 - most), 100 * (1 - scale * low / (1 - low)))


def verdict(found: Efficacy, agent: str | None) -> Verdict:
    """Against the published expectation for the active, by the interval and not by the point alone."""
    if found.lower is None or found.upper is None:
        return "can't tell"
    wanted = expectation(agent).value
    if found.lower >= wanted:
        return "worked"
    return "fell short" if found.upper < wanted else "can't tell"


def wanted(agent: str | None) -> Amount:
    """The percent that should be killed, with its source."""
    return expectation(agent)
