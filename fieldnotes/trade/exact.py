"""Exact limits: looked up in a table made by SciPy where it reaches, else SciPy itself.

The table is there because a digest is asked for every morning, and loading SciPy takes longer than all the rest of it.
"""

from __future__ import annotations

import json
import math
from functools import cache
from pathlib import Path
from typing import Any

LEVEL = 0.95


@cache
def _tables() -> dict[str, Any]:
    found: dict[str, Any] = json.loads((Path(__file__).parent / "tables.json").read_text(encoding="utf-8"))
    return found


def garwood(count: float, level: float = LEVEL) -> tuple[float, float]:
    """The exact interval of a Poisson count: chi-square quantiles, chi2(a/2; 2k)/2 and chi2(1-a/2; 2k+2)/2.

    Garwood 1936, Biometrika 28:437-442.
    """
    rows, place = _tables()["garwood_95"], 2 * count
    if level == LEVEL and place == int(place) and place < len(rows):
        lower, upper = rows[int(place)]
        return lower, upper
    from scipy.special import gammaincinv

    tail = (1 - level) / 2
    return (float(gammaincinv(count, tail)) if count > 0 else 0.0), float(gammaincinv(count + 1, 1 - tail))


def clopper_pearson(hits: float, of: float, level: float = LEVEL) -> tuple[float, float]:
    """The exact interval of a share: `hits` out of `of`, as fractions (Biometrika 1934, 26:404-413).

    Raises:
        ValueError: more hits than there were, or none to hit.
    """
    if not 0 <= hits <= of or of <= 0:
        raise ValueError(f"{hits} out of {of} is no share")
    from scipy.special import betaincinv

    tail = (1 - level) / 2
    lower = float(betaincinv(hits, of - hits + 1, tail)) if hits > 0 else 0.0
    upper = float(betaincinv(hits + 1, of - hits, 1 - tail)) if hits < of else 1.0
    return lower, upper


def student(freedom: int) -> float:
    """Student's 97.5 % quantile."""
    rows = _tables()["student_975"]
    if freedom <= len(rows):
        return float(rows[freedom - 1])
    from scipy.special import stdtrit

    return float(stdtrit(freedom, 0.975))


def chance_of_so_many(count: float, expected: float) -> float:
    """The chance of a Poisson count of `count` or more: 1 less the chances of all smaller whole numbers."""
    below = range(math.ceil(count))
    if expected <= 0:
        return 0.0 if count > 0 else 1.0
    return max(0.0, 1 - math.fsum(math.exp(n * math.log(expected) - expected - math.lgamma(n + 1)) for n in below))
