"""Intervals against SciPy and printed tables; what a record's count amounts to."""

import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from fieldnotes.trade.counts import Count, count_of, pooled
from fieldnotes.trade.exact import chance_of_so_many, clopper_pearson, garwood, odds_ratio, student

# Garwood 95 % limits. k = 0 upper 3.689: documentation of an epidemiology package; k = 10: 4.80-18.39, an online
# statistics page; k = 25: 16.18-36.90, a statistics software's answer that cites Garwood 1936. The rest computed.
GARWOOD = {
    0: (0, 3.6889), 1: (0.0253, 5.5716), 2: (0.2422, 7.2247), 3: (0.6187, 8.7673), 4: (1.0899, 10.2416),
    5: (1.6235, 11.6683), 6: (2.2019, 13.0595), 7: (2.8144, 14.4227), 8: (3.4538, 15.7632), 9: (4.1154, 17.0848),
    10: (4.7954, 18.3904), 25: (16.1787, 36.9049),
}  # fmt: skip


@pytest.mark.parametrize(("k", "limits"), GARWOOD.items())
def test_garwood_against_the_table(k, limits):
    assert garwood(k) == pytest.approx(limits, abs=6e-5)


@given(st.integers(0, 500))
def test_garwood_against_scipy(k):
    lower = stats.chi2.ppf(0.025, 2 * k) / 2 if k else 0.0
    assert garwood(k) == pytest.approx((lower, stats.chi2.ppf(0.975, 2 * k + 2) / 2), rel=1e-9)


@pytest.mark.parametrize("k", [0.5, 1.5, 99.5, 700.5, 1e4, 2e5])
def test_garwood_of_halves_and_of_many(k):
    assert garwood(k) == pytest.approx((stats.gamma.ppf(0.025, k), stats.gamma.ppf(0.975, k + 1)), rel=1e-9)


@pytest.mark.parametrize("level", [0.5, 0.8, 0.9, 0.99, 0.999])
def test_other_levels_than_95(level):
    tail = (1 - level) / 2
    assert garwood(10, level) == pytest.approx((stats.chi2.ppf(tail, 20) / 2, stats.chi2.ppf(1 - tail, 22) / 2))
    ends = stats.binomtest(7, 300).proportion_ci(level, method="exact")
    assert clopper_pearson(7, 300, level) == pytest.approx((ends.low, ends.high))


def test_students_quantile():
    # any printed table of Student's t: 12.706, 4.303, 2.571, 2.042
    for freedom, printed in ((1, 12.706), (2, 4.303), (5, 2.571), (30, 2.042)):
        assert student(freedom) == pytest.approx(printed, abs=5e-4)
    for freedom in (1, 2, 3, 7, 50, 199, 900, 20_000):
        assert student(freedom) == pytest.approx(stats.t.ppf(0.975, freedom), rel=1e-9)


def cell():
    return st.integers(0, 60)


@settings(deadline=None)
@given(cell(), cell(), cell(), cell())
def test_the_odds_ratio_against_scipy(a, b, c, d):
    if 0 in (a + b, c + d, a + c, b + d):
        return
    ends = stats.contingency.odds_ratio([[a, b], [c, d]], kind="conditional").confidence_interval(0.95)
    assert odds_ratio(a, b, c, d) == pytest.approx((ends.low, ends.high), rel=1e-6)


def test_no_statistics_library_is_loaded():
    """All of them at once, in a fresh Python: a morning that shows an interval must not wait for SciPy."""
    code = (
        "import sys; from fieldnotes.trade.counts import Count; from fieldnotes.trade.efficacy import *;"
        "from fieldnotes.trade.yard import yard_level; w = lambda m: Count(m, 300, 'wash');"
        "reduction(w(30), w(2)); henderson_tilton(w(30), w(2), w(9), w(12)); yard_level({'1': w(3), '2': w(9)});"
        "assert not {'scipy', 'numpy'} & set(sys.modules), 'loaded'"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


@given(st.integers(0, 60), st.floats(0.01, 50))
def test_the_chance_of_so_many(count, expected):
    assert chance_of_so_many(count, expected) == pytest.approx(stats.poisson.sf(count - 1, expected), abs=1e-12)


def test_garwood_as_a_rate():
    # Welsh nickel workers, 137 deaths where 24.19893 were expected: 5.661407 (4.753125, 6.692709)
    lower, upper = garwood(137)
    assert (lower / 24.19893, upper / 24.19893) == pytest.approx((4.753125, 6.692709), abs=1e-6)


# hits, of, level, lower, upper, source
CLOPPER_PEARSON = [
    (4, 20, 0.90, 0.071354, 0.401028),  # NIST/SEMATECH e-Handbook 7.2.4.1, example
    (682, 925, 0.95, 0.707668, 0.765407),  # Conover 1971
    (0, 10, 0.95, 0, 0.308497),  # closed form 1 - 0.025^(1/10)
    (1, 10, 0.95, 0.002529, 0.445016),
    (5, 10, 0.95, 0.187086, 0.812914),
    (0, 300, 0.95, 0, 0.012221),
    (1, 300, 0.95, 0.000084, 0.018431),
    (2, 300, 0.95, 0.000808, 0.023873),
    (3, 300, 0.95, 0.002067, 0.028945),
    (6, 300, 0.95, 0.007374, 0.043021),
    (9, 300, 0.95, 0.013808, 0.056184),
    (15, 300, 0.95, 0.028251, 0.081127),
]


@pytest.mark.parametrize(("hits", "of", "level", "lower", "upper"), CLOPPER_PEARSON)
def test_clopper_pearson_against_the_table(hits, of, level, lower, upper):
    assert clopper_pearson(hits, of, level) == pytest.approx((lower, upper), abs=6e-7)


@settings(deadline=None)
@given(st.integers(0, 2000), st.integers(0, 2000))
def test_clopper_pearson_against_scipy(hits, misses):
    if hits + misses == 0:
        return
    ends = stats.binomtest(hits, hits + misses).proportion_ci(0.95, method="exact")
    assert clopper_pearson(hits, hits + misses) == pytest.approx((ends.low, ends.high), rel=1e-7, abs=1e-12)


def test_no_share_of_nothing():
    with pytest.raises(ValueError, match="no share"):
        clopper_pearson(0, 0)
    with pytest.raises(ValueError, match="no share"):
        clopper_pearson(3, 2)


# COLOSS BEEBOOK II, varroa 4.2.3.1.2.1: mites / bees counted x 100. Its own example (43 in 310) is misprinted as 14.3.
def test_mites_per_100_bees():
    assert Count(43, 310, "wash").rate == pytest.approx(13.87, abs=0.005)
    assert Count(9, 300, "wash").rate == 3.0


# Garwood for 300 bees, mites per 100: 0 -> 0-1.23; 3 -> 0.21-2.92; 6 -> 0.73-4.35; 9 -> 1.37-5.69 (computed)
@pytest.mark.parametrize(("mites", "lower", "upper"), [(0, 0, 1.23), (3, 0.21, 2.92), (6, 0.73, 4.35), (9, 1.37, 5.69)])
def test_the_interval_of_a_300_bee_wash(mites, lower, upper):
    assert Count(mites, 300, "wash").interval() == pytest.approx((lower, upper), abs=0.006)


def test_sample_size_unsaid_is_300_and_said():
    count = count_of({"mites": 6})
    assert count == Count(6, 300, "wash", "300 bees assumed")
    assert count_of({"mites": 6, "bees": 150}).assumed == ""


def test_a_sugar_roll_is_flagged_and_never_corrected():
    count = count_of({"method": "sugar_roll", "mites": 6, "bees": 300})
    assert count.rate == 2.0 and "reads low" in count.assumed


def test_a_board_is_mites_a_day():
    count = count_of({"method": "board", "mites": 21, "board_days": 3})
    assert (count.rate, count.unit, count.family) == (7.0, "mites a day", "board")
    assert "assumed" in count_of({"method": "board", "mites": 21}).assumed


def test_percentages_and_ranges():
    assert count_of({"per_100": 2}).mites == 6
    assert count_of({"mites": 5, "mites_high": 6, "bees": 300}).mites == 5.5
    assert count_of({"method": "alcohol_wash"}) is None
    assert count_of({"method": "board", "per_100": 2}) is None


def test_samples_add_up():
    both = pooled([Count(3, 300, "wash"), Count(5, 200, "wash", "300 bees assumed")])
    assert (both.mites, both.exposure, both.assumed) == (8, 500, "300 bees assumed")


def test_what_was_assumed_is_said_once_for_all_samples():
    rolls = [
        count_of({"method": "sugar_roll", "mites": 5}),
        count_of({"method": "sugar_roll", "mites": 2, "bees": 300}),
    ]
    assert pooled(rolls).assumed == "300 bees assumed; a sugar roll, which reads low"
