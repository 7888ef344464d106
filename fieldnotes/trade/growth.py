"""How a level grows, when it could cross a threshold, and what a count says of the whole colony."""

from __future__ import annotations

import datetime
import math
from functools import cache

from fieldnotes.trade.figures import Amount, Days, Part, table
from fieldnotes.trade.thresholds import northern_month


class _Board(Part):
    winter: Amount
    summer: Amount
    between: Amount


class Growth(Part):
    """Figures of growth and of how often to look."""

    rate: Amount
    interval: Days
    soonest: Days
    grace: Days
    winter: Days
    sample: Amount
    brood: Amount
    board: _Board


@cache
def growth() -> Growth:
    """The figures on file."""
    return Growth.model_validate(table("growth"))


def days_until(level: float, threshold: float, rate: float | None = None) -> float:
    """Days until a level that grows by e^(rate·days) reaches the threshold: ln(threshold / level) / rate.

    0 where it is there already, infinity where there is nothing to grow. `rate` is a day; the built-in one is 0.021.
    """
    if level >= threshold:
        return 0.0
    if level <= 0:
        return math.inf
    return math.log(threshold / level) / (rate or growth().rate.value)


def with_brood(per_100: float) -> float:
    """Mites per 100 bees and brood together, out of mites per 100 adult bees, where there is brood.

    Lee et al. 2010: double the rate on adult bees.
    """
    return per_100 * growth().brood.value


def mites_in_colony(a_day: float, day: datetime.date, hemisphere: str) -> tuple[float, Amount]:
    """Mites in the colony out of the daily drop on a board, by the UK rule, with the figure used.

    Other bodies use other multipliers, ten times as large in July, so the rule must be named with the number.
    """
    month = northern_month(day, hemisphere)
    rules = growth().board
    rule = rules.winter if month in (11, 12, 1, 2) else rules.summer if 5 <= month <= 8 else rules.between
    return a_day * rule.value, rule
