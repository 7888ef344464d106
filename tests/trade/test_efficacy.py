"""Did it work? Formulas against their printed checks, intervals against SciPy, verdicts in words."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from fieldnotes.trade.counts import Count
from fieldnotes.trade.efficacy import (
    UNKNOWN,
    henderson_tilton,
    reduction,
    verdict,
    why_unsure,
)
from fieldnotes.trade.modes import expectation, mode_of, modes, same_mode
from fieldnotes.trade.words import AGENTS


def wash(mites, bees=300):
    return Count(mites, bees, "wash")


def test_percent_reduction():
    # 3.2 to 0.4 per 100 bees: 87.5 % (computed)
    assert reduction(wash(32, 1000), wash(4, 1000)).percent == pytest.approx(87.5)


@settings(deadline=None)  # SciPy loads in the first call
@given(st.integers(1, 80), st.integers(0, 80), st.sampled_from([150, 300, 320]), st.sampled_from([200, 300]))
def test_the_interval_is_the_exact_one_of_two_poisson_rates(before, after, bees_before, bees_after):
    found = reduction(wash(before, bees_before), wash(after, bees_after))
    ends = stats.binomtest(after, before + after).proportion_ci(0.95, method="exact")
    for p, percent in ((ends.high, found.lower), (ends.low, found.upper)):
        ratio = p / (1 - p) * bees_before / bees_after if p < 1 else float("inf")
        assert percent == pytest.approx(100 * (1 - ratio), rel=1e-6, abs=1e-6)


@given(st.integers(1, 200), st.integers(0, 200))
def test_the_point_lies_within_its_interval(before, after):
    found = reduction(wash(before), wash(after))
    assert found.lower - 1e-9 <= found.percent <= found.upper + 1e-9


def test_nothing_before_cannot_be_computed():
    assert reduction(wash(0), wash(4)) == UNKNOWN
    assert verdict(reduction(wash(0), wash(4)), "amitraz") == "can't tell"


def test_kinds_are_never_mixed():
    with pytest.raises(ValueError, match="cannot be compared"):
        reduction(wash(5), Count(5, 3, "board"))


# Henderson and Tilton 1955: no worked numbers of theirs were found, so these are computed by hand from the formula.
@pytest.mark.parametrize(
    ("tb", "ta", "cb", "ca", "percent"), [(12, 3, 10, 15, 83.333333), (12, 3, 10, 5, 50.0), (12, 3, 10, 10, 75.0)]
)
def test_henderson_tilton(tb, ta, cb, ca, percent):
    found = henderson_tilton(wash(tb), wash(ta), wash(cb), wash(ca))
    assert found.percent == pytest.approx(percent)
    assert found.lower < found.percent < found.upper


def test_henderson_tilton_interval_against_scipy_and_with_unequal_samples():
    ends = stats.contingency.odds_ratio([[3, 12], [15, 10]], kind="conditional").confidence_interval(0.95)
    found = henderson_tilton(wash(12), wash(3), wash(10), wash(15))
    assert (found.lower, found.upper) == pytest.approx((100 * (1 - ends.high), 100 * (1 - ends.low)))
    # twice the bees after in the treated ones: half the rate
    assert henderson_tilton(wash(12), wash(3, 600), wash(10), wash(15)).percent == pytest.approx(91.666667)


def test_henderson_tilton_that_cannot_be_computed():
    assert henderson_tilton(wash(0), wash(3), wash(10), wash(15)) == UNKNOWN
    assert henderson_tilton(wash(12), wash(3), wash(10), wash(0)) == UNKNOWN


@pytest.mark.parametrize(
    ("before", "after", "agent", "said"),
    [
        (1, 0, "amitraz", "can't tell"),
        (3, 1, "amitraz", "can't tell"),
        (20, 0, "amitraz", "can't tell"),
        (80, 0, "amitraz", "worked"),
        (30, 25, "amitraz", "fell short"),
        (200, 8, "amitraz", "can't tell"),
        (60, 0, "thymol", "worked"),
        (12, 6, "formic_acid", "fell short"),
    ],
)
def test_verdicts_by_the_interval(before, after, agent, said):
    assert verdict(reduction(wash(before), wash(after)), agent) == said


def test_what_was_too_few():
    assert "too few mites before" in why_unsure(wash(1), wash(0), "amitraz")
    assert "no mites before" in why_unsure(wash(0), wash(0), "amitraz")
    assert "too few bees" in why_unsure(wash(200), wash(8), "amitraz")


def test_published_expectations():
    # EMA/CVMP/EWP/459883/2008, as summarised in COLOSS BEEBOOK II: 95 % synthetic, 90 % organic
    for agent in ("amitraz", "tau_fluvalinate", "flumethrin", "coumaphos"):
        assert expectation(agent).value == 95
    for agent in ("formic_acid", "oxalic_acid", "thymol", "hop_acids", "lactic_acid"):
        assert expectation(agent).value == 90


# IRAC mode of action classification, version 11.5 of February 2026, as an open data set of crop protection copies it
@pytest.mark.parametrize(
    ("agent", "group"),
    [("coumaphos", "1B"), ("tau_fluvalinate", "3A"), ("flumethrin", "3A"), ("amitraz", "19"), ("vadescana", "35"),
     ("thymol", ""), ("hop_acids", ""), ("formic_acid", ""), ("oxalic_acid", ""), ("lactic_acid", "")],
)  # fmt: skip
def test_groups(agent, group):
    assert mode_of(agent).group == group


def test_the_pyrethroids_do_not_rotate_with_each_other():
    assert same_mode("tau_fluvalinate", "flumethrin")
    assert not same_mode("tau_fluvalinate", "amitraz")
    assert not same_mode("formic_acid", "oxalic_acid")


def test_every_active_has_a_mode_and_a_source():
    assert {a for m in modes() for a in m.agents} == set(AGENTS)
    assert all(m.source for m in modes())
    assert all((m.year, m.status) == (2026, "seen second-hand") for m in modes())
