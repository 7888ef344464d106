"""Exact limits of counts, shares and odds, by the standard functions and their inverses.

A digest is asked for every morning, and loading a library of statistics takes longer than all the rest of it, so the
few functions wanted here are worked out in plain Python; the tests hold them against SciPy.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache

LEVEL = 0.95
_TINY = 1e-300
_CLOSE = 1e-15
_MOST_TERMS = 10_000


@cache
def garwood(count: float, level: float = LEVEL) -> tuple[float, float]:
    """The exact interval of a Poisson count: chi-square quantiles, chi2(a/2; 2k)/2 and chi2(1-a/2; 2k+2)/2.

    Garwood 1936, Biometrika 28:437-442.
    """
    tail = (1 - level) / 2
    return (_gamma_quantile(count, tail) if count > 0 else 0.0), _gamma_quantile(count + 1, 1 - tail)


@cache
def clopper_pearson(hits: float, of: float, level: float = LEVEL) -> tuple[float, float]:
    """The exact interval of a share: `hits` out of `of`, as fractions (Biometrika 1934, 26:404-413).

    Raises:
        ValueError: more hits than there were, or none to hit.
    """
    if not 0 <= hits <= of or of <= 0:
        raise ValueError(f"{hits} out of {of} is no share")
    tail = (1 - level) / 2
    lower = _beta_quantile(hits, of - hits + 1, tail) if hits > 0 else 0.0
    upper = 1 - _beta_quantile(of - hits, hits + 1, tail) if hits < of else 1.0
    return lower, upper


@cache
def student(freedom: int, level: float = LEVEL) -> float:
    """Student's quantile that leaves half of `1 - level` above it: 97.5 % by default."""
    x = _beta_quantile(freedom / 2, 0.5, 1 - level)
    return math.sqrt(freedom * (1 - x) / x)


def chance_of_so_many(count: float, expected: float) -> float:
    """The chance of a Poisson count of `count` or more: 1 less the chances of all smaller whole numbers."""
    below = range(math.ceil(count))
    if expected <= 0:
        return 0.0 if count > 0 else 1.0
    return max(0.0, 1 - math.fsum(math.exp(n * math.log(expected) - expected - math.lgamma(n + 1)) for n in below))


@cache
def odds_ratio(a: int, b: int, c: int, d: int, level: float = LEVEL) -> tuple[float, float]:
    """The exact conditional interval of the odds ratio of the table (a b / c d); open ends are 0 and infinity.

    Given its margins `a` follows Fisher's noncentral hypergeometric law, with chances as C(a+b, k) C(c+d, a+c-k) r^k
    for an odds ratio r (Fisher 1935, J R Stat Soc 98:39-82). The ends are the ratios that leave half of `1 - level`
    beyond `a`.
    """
    first, last = max(0, a - d), min(a + b, a + c)
    ways = [_ln_choose(a + b, k) + _ln_choose(c + d, a + c - k) for k in range(first, last + 1)]
    tail = (1 - level) / 2

    def at_least(ln_ratio: float) -> float:
        return _share_from(ways, a - first, ln_ratio)

    def at_most(ln_ratio: float) -> float:
        return 1 - _share_from(ways, a - first + 1, ln_ratio)

    lower = 0.0 if a == first else math.exp(_bisect(at_least, tail, rising=True))
    upper = math.inf if a == last else math.exp(_bisect(at_most, tail, rising=False))
    return lower, upper


def _ln_choose(n: int, k: int) -> float:
    return math.lgamma(n + 1) - math.lgamma(k + 1) - math.lgamma(n - k + 1)


def _share_from(ways: list[float], place: int, ln_ratio: float) -> float:
    """The share of the weights exp(ways[k] + k·ln_ratio) that stands from `place` on."""
    logs = [w + k * ln_ratio for k, w in enumerate(ways)]
    top = max(logs)
    weights = [math.exp(v - top) for v in logs]
    return math.fsum(weights[place:]) / math.fsum(weights)


def _bisect(share: Callable[[float], float], aim: float, rising: bool, reach: float = 64.0) -> float:
    """Where a share that only rises or only falls meets `aim`, between `-reach` and `reach`."""
    low, high = -reach, reach
    for _ in range(80):
        middle = (low + high) / 2
        if (share(middle) < aim) == rising:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _gamma_quantile(shape: float, aim: float) -> float:
    """The x with P(shape, x) = aim, from the guess of Wilson and Hilferty (Proc Natl Acad Sci 1931, 17:684-688)."""
    normal = 1.959964 if aim > 0.5 else -1.959964
    guess = shape * max(1 - 1 / (9 * shape) + normal / math.sqrt(9 * shape), 0.05) ** 3
    ln_gamma = math.lgamma(shape)
    return _inverse(
        lambda x: _gamma_share(shape, x, ln_gamma),
        lambda x: math.exp((shape - 1) * math.log(x) - x - ln_gamma),
        aim, guess, 0.0, math.inf,
    )  # fmt: skip


def _beta_quantile(a: float, b: float, aim: float) -> float:
    """The x with I_x(a, b) = aim."""
    ln_beta = math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)
    return _inverse(
        lambda x: _beta_share(a, b, x, ln_beta),
        lambda x: math.exp((a - 1) * math.log(x) + (b - 1) * math.log1p(-x) - ln_beta),
        aim, a / (a + b), 0.0, 1.0,
    )  # fmt: skip


def _inverse(
    share: Callable[[float], float],
    density: Callable[[float], float],
    aim: float,
    guess: float,
    low: float,
    high: float,
) -> float:
    """Where a rising share meets `aim`: Newton's step where it stays between what is known, else halving."""
    x = guess
    for _ in range(500):
        off = share(x) - aim
        if off < 0:
            low = x
        else:
            high = x
        steep = density(x)
        step = x - off / steep if steep > 0 else low
        if not low < step < high:
            step = (low + high) / 2 if high < math.inf else 2 * x
        if abs(step - x) <= 1e-14 * x:
            return step
        x = step
    return x


def _gamma_share(shape: float, x: float, ln_gamma: float) -> float:
    """The regularised lower incomplete gamma function: its series below `shape + 1`, else the continued fraction.

    Abramowitz and Stegun 1964, 6.5.29 and 6.5.31.
    """
    front = math.exp(shape * math.log(x) - x - ln_gamma)
    if x < shape + 1:
        term = total = 1 / shape
        for n in range(1, _MOST_TERMS):
            term *= x / (shape + n)
            total += term
            if term < total * _CLOSE:
                break
        return front * total
    return 1 - front / _fraction(x + 1 - shape, lambda n: (-n * (n - shape), x + 2 * n + 1 - shape))


def _beta_share(a: float, b: float, x: float, ln_beta: float) -> float:
    """The regularised incomplete beta function, by its continued fraction (Abramowitz and Stegun 1964, 26.5.8)."""
    if x > (a + 1) / (a + b + 2):
        return 1 - _beta_share(b, a, 1 - x, ln_beta)
    front = math.exp(a * math.log(x) + b * math.log1p(-x) - ln_beta) / a

    def step(n: int) -> tuple[float, float]:
        m = n // 2
        if n % 2:
            return -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)), 1.0
        return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)), 1.0

    return front / _fraction(1.0, step)


def _fraction(first: float, step: Callable[[int], tuple[float, float]]) -> float:
    """The continued fraction first + a1/(b1 + a2/(b2 + …)) with (a, b) = step(n).

    Lentz's method with Thompson and Barnett's change (J Comput Phys 1986, 64:490-509).
    """
    value = over = first or _TINY
    under = 0.0
    for n in range(1, _MOST_TERMS):
        a, b = step(n)
        under = 1 / (b + a * under or _TINY)
        over = b + a / over or _TINY
        change = over * under
        value *= change
        if abs(change - 1) < _CLOSE:
            break
    return value
