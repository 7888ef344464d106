"""The level of a yard out of samples of some of its colonies."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from fieldnotes.trade.counts import Count, pooled
from fieldnotes.trade.exact import chance_of_so_many, student
from fieldnotes.trade.growth import growth


@dataclass(frozen=True, slots=True)
class YardLevel:
    """Mites of a yard, all samples of one kind.

    `pooled` takes the samples as one; `mean` with `between` (95 %) takes each colony as one, so it shows how far
    colonies differ; fewer than three colonies tell nothing of that, so `between` is None. `more` is how many
    colonies are still to be sampled for the published plan; `outliers` are colonies that stick out above the others.
    """

    pooled: Count
    colonies: int
    mean: float
    between: tuple[float, float] | None
    more: int
    outliers: tuple[str, ...]

    @property
    def upper(self) -> float:
        """The careful upper bound of the yard's level: the larger of the two intervals."""
        top = self.pooled.interval()[1]
        return max(top, self.between[1]) if self.between else top


def yard_level(samples: Mapping[str, Count], hives: int | None = None) -> YardLevel:
    """The level of a yard out of one count a colony.

    Args:
        samples: a count for each colony sampled, all of one family.
        hives: how many colonies the yard has, where known.

    Raises:
        ValueError: no sample, or samples of two kinds.
    """
    counts = list(samples.values())
    if not counts or len({c.family for c in counts}) > 1:
        raise ValueError("the level of a yard needs samples of one kind")
    rates = [c.rate for c in counts]
    mean = sum(rates) / len(rates)
    plan = int(growth().sample.value)
    wanted = plan if hives is None else min(plan, hives)
    return YardLevel(
        pooled=pooled(counts),
        colonies=len(counts),
        mean=mean,
        between=_between(rates, mean),
        more=max(0, wanted - len(counts)),
        outliers=tuple(sorted(_outliers(samples))),
    )


def _between(rates: list[float], mean: float) -> tuple[float, float] | None:
    """Student's interval of the mean over colonies: mean ± t(0.975, n-1) · s / sqrt(n), no lower than 0."""
    n = len(rates)
    if n < 3:
        return None
    spread = math.sqrt(sum((r - mean) ** 2 for r in rates) / (n - 1))
    half = student(n - 1) * spread / math.sqrt(n)
    return max(0.0, mean - half), mean + half


def _outliers(samples: Mapping[str, Count], level: float = 0.05) -> list[str]:
    """Colonies with more mites than chance gives at the rate of all the others (Poisson tail, Bonferroni)."""
    total = pooled(list(samples.values()))
    found = []
    for name, count in samples.items():
        others = total.exposure - count.exposure
        if others <= 0 or count.mites < 1:
            continue
        expected = (total.mites - count.mites) / others * count.exposure
        if chance_of_so_many(count.mites, expected) < level / len(samples):
            found.append(name)
    return found
