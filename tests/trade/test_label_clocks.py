"""Every label clock against the published figure. The source stands beside each."""

import pytest

from fieldnotes.roster import parse_roster
from fieldnotes.trade.cautions import closing, treatment_caution
from fieldnotes.trade.habits import habit
from fieldnotes.trade.labels import clocks, editions, forms_of, stay_of
from fieldnotes.trade.words import AGENTS


def roster(country: str, more: str = ""):
    return parse_roster(f'[practice]\ncountry = "{country}"\n{more}', "roster.toml")


# agent, form, country, units each, dose, least, longest, next least, next longest, source
CLOCKS = [
    # US state emergency-use notice, October 2012: 42 days, may stay 14 more, 56 at most
    ("amitraz", "strip", "us", 2, 1, 42, 56, None, None),
    # German bee journal: out after 6 weeks; EU holder's questions and answers: not over 8 (the other SPC: to 10 weeks)
    ("amitraz", "strip", "eu", 2, 1, 42, 56, None, None),
    # US federal label, as a supplier's catalogue prints it: 42 to 56
    ("tau_fluvalinate", "strip", "us", None, 1, 42, 56, None, None),
    # UK SPC of 2014: at least 6 weeks, 6 to 8
    ("tau_fluvalinate", "strip", "uk", 2, 1, 42, 56, None, None),
    # UK data sheet, October 2006: six weeks at most; French veterinary weekly of March 2019: 4 to 6 weeks
    ("flumethrin", "strip", "uk", 4, 1, 28, 42, None, None),
    # Canadian label summary: 42 to 45
    ("coumaphos", "strip", "canada", None, 1, 42, 45, None, None),
    ("coumaphos", "strip", "us", None, 1, 42, 45, None, None),
    # US federal label, as a supplier's catalogue prints it: 2 pads for 14 days; label of the pads, as the bee chronicle
    # of Quebec's agricultural network gives it, June 2024: 2 for 14 days, or 1 for 10 days and then 1 for 10, 20 in all
    ("formic_acid", "pad", "us", 2, 1, 14, 14, None, None),
    ("formic_acid", "pad", "us", 1, 1, 10, 10, 10, 10),
    ("formic_acid", "pad", "us", 1, 2, 10, 10, None, None),
    ("formic_acid", "pad", "us", None, 1, 14, 20, None, None),
    # UK leaflet on formic acid gel strips: 7 days
    ("formic_acid", "strip", "uk", 2, 1, 7, 7, None, None),
    ("formic_acid", "gel", "uk", 2, 1, 7, 7, None, None),
    # US label of 7-day strips, quoted on a list in 2013
    ("formic_acid", "strip", "us", 2, 1, 7, 7, None, None),
    ("formic_acid", "strip", "germany", 2, 1, 7, 7, None, None),
    # US federal label, as a supplier's catalogue prints it: first tray 12 to 14 days, second 2 to 4 weeks
    ("thymol", "gel", "us", 1, 1, 12, 14, 12, 14),
    ("thymol", "gel", "us", 1, 2, 14, 28, None, None),
    # French leaflet: the second tray after two weeks; holder's answers, quoted on a UK forum: not before; as a supplier
    # prints them: it stays in 2 to 4 weeks
    ("thymol", "gel", "eu", 1, 1, 14, 14, 14, 14),
    ("thymol", "gel", "eu", 1, 2, 14, 28, None, None),
    # UK SPC of November 2011: 6 to 8 weeks in all; German SPC: two applications of 3 to 4 weeks
    ("thymol", "wafer", "uk", None, 1, 21, 28, 21, 28),
    ("thymol", "wafer", "uk", None, 2, 21, 28, None, None),
    # US federal label, as a supplier prints it: 7 to 10 days each, three times, the last tablet 12 days
    ("thymol", "wafer", "us", 1, 1, 7, 10, 7, 10),
    ("thymol", "wafer", "us", 1, 2, 7, 10, 7, 10),
    ("thymol", "wafer", "us", 1, 3, 12, 12, None, None),
    # single doses: nothing stays in
    ("oxalic_acid", "dribble", "us", None, 1, None, None, None, None),
    ("oxalic_acid", "dribble", "germany", None, 1, None, None, None, None),
    ("oxalic_acid", "dribble", "uk", None, 1, None, None, None, None),
    ("amitraz", "vapour", "eu", None, 1, None, None, None, None),
    ("oxalic_acid", "spray", "us", None, 1, None, None, None, None),
    # German SPC of November 2016: a single treatment
    ("oxalic_acid", "spray", "germany", None, 1, None, None, None, None),
    # vapour rounds 5 days apart in the 2022 trial in Georgia and Alabama, 7 by common practice
    ("oxalic_acid", "vapour", "us", None, 1, None, None, 5, 7),
    ("oxalic_acid", "vapour", "eu", None, 1, None, None, 5, 7),
    ("oxalic_acid", "vapour", "us", None, 3, None, None, None, None),
    # German associations on the powder authorised in September 2023: without brood; no second round was read of
    ("oxalic_acid", "vapour", "germany", None, 1, None, None, None, None),
    # US federal label of extended-release strips, as a supplier's catalogue prints it: 42 to 56
    ("oxalic_acid", "strip", "us", None, 1, 42, 56, None, None),
    ("oxalic_acid", "sponge", "us", None, 1, 42, 56, None, None),
    # Oliver, Am Bee J, February 2022: at least 14 days; emergency-use directions, as a US supplier prints them: out if
    # still in after 4 weeks (another supplier has 30 days for the third edition)
    ("hop_acids", "strip", "us", 2, 1, 14, 28, None, None),
    # German SPC of May 2022: two sprays, 3 days apart (leaflets have 7)
    ("lactic_acid", "spray", "germany", None, 1, None, None, 3, 3),
    # encyclopedia of a German bee journal, and a leaflet: two sprays, 7 days apart
    ("lactic_acid", "spray", "eu", None, 1, None, None, 7, 7),
    ("lactic_acid", "spray", "germany", None, 2, None, None, None, None),
]  # fmt: skip


@pytest.mark.parametrize(("agent", "form", "country", "each", "dose", "least", "longest", "again", "again_by"), CLOCKS)
def test_clock_is_the_published_one(agent, form, country, each, dose, least, longest, again, again_by):
    stay = stay_of(agent, form, each, dose, roster(country))
    assert stay is not None
    assert (stay.least, stay.longest) == (least, longest)
    assert (stay.next_least, stay.next_longest) == (again, again_by)
    assert stay.sure


def test_every_built_in_clock_is_checked_above():
    checked = {(agent, form, country) for agent, form, country, *_ in CLOCKS}
    for clock in clocks():
        assert any((clock.agent, f, c) in checked for f in clock.forms for c in clock.countries), clock.edition


def test_every_figure_names_its_source():
    for clock in clocks():
        figures = [getattr(clock, n) for n in ("supers", "wait", "max_per_year", "low_c", "high_c", "amount")]
        figures += [getattr(d, n) for d in clock.dose for n in ("least", "longest", "next_least", "next_longest")]
        for figure in figures:
            assert figure is None or (figure.source.strip() and figure.status), clock.edition


def test_where_editions_differ_the_narrower_holds_and_the_other_is_named():
    for country in ("eu", "us"):
        stay = stay_of("amitraz", "strip", 2, 1, roster(country))
        assert (stay.least, stay.longest) == (42, 56)
        assert "70 days" in stay.grounds and "label" in stay.grounds


def test_amitraz_strips_stay_longer_where_there_is_brood():
    # German SPC: out after 6 weeks where there is no or least brood, after 10 weeks where there is brood
    (clock,) = [c for c in clocks() if c.edition == "6 weeks, to 10 with brood"]
    assert (clock.dose[0].least.days, clock.dose[0].longest.days) == (6 * 7, 10 * 7)


def test_a_label_borrowed_from_another_country_is_said():
    stay = stay_of("flumethrin", "strip", 4, 1, roster("us"))
    assert stay.longest == 42 and not stay.sure
    assert "United Kingdom" in stay.grounds


def test_without_a_form_the_shortest_stay_holds_and_is_unsure():
    stay = stay_of("formic_acid", None, None, 1, roster("us"))
    assert stay.longest == 7 and not stay.sure


def test_forms_that_stay_in_and_forms_that_do_not_are_never_mixed():
    assert stay_of("oxalic_acid", None, None, 1, roster("us")) is None


def test_unknown_active_has_no_clock():
    assert stay_of("vadescana", None, None, 1, roster("us")) is None
    assert stay_of(None, "strip", 2, 1, roster("us")) is None


def test_the_outfits_own_figures_win():
    own = 'threshold = 2\n[[label]]\nagent = "amitraz"\nform = "strip"\ndays_in = [40, 50]\nsource = "our label, 2025"'
    stay = stay_of("amitraz", "strip", 2, 1, roster("us", own))
    assert (stay.least, stay.longest) == (40, 50)
    assert "our label, 2025" in stay.grounds


def test_own_repeat_makes_a_course():
    own = '[[label]]\nagent = "oxalic_acid"\nform = "vapour"\nrepeat_days = [4, 6]\ndoses = 4'
    stay = stay_of("oxalic_acid", "vapour", None, 3, roster("us", own))
    assert (stay.next_least, stay.next_longest, stay.doses) == (4, 6, 4)
    assert stay_of("oxalic_acid", "vapour", None, 4, roster("us", own)).next_least is None


def test_own_figures_without_days_keep_the_labels_days():
    own = '[[label]]\nagent = "amitraz"\nwait_days = 21'
    stay = stay_of("amitraz", "strip", 2, 1, roster("us", own))
    assert (stay.least, stay.longest) == (42, 56)


def test_forms_of_an_active():
    assert forms_of("oxalic_acid") == {"dribble", "spray", "vapour", "strip", "sponge", "pad"}
    assert editions("amitraz", "strip", "us")[1] is True


def test_every_active_has_a_caution_that_closes_with_the_label():
    for agent in AGENTS:
        for form in (*forms_of(agent), None):
            assert treatment_caution(agent, form).endswith(closing())
    assert "respirator" in treatment_caution("oxalic_acid", "vapour")
    assert "gloves" in treatment_caution("amitraz", "strip").lower()
    # Danish Beekeepers' Association, lactic acid: rubber gloves, protective glasses and masks
    assert all(w in treatment_caution("lactic_acid", "spray") for w in ("gloves", "goggles", "mask"))
    # state emergency exemption, as a farm-news page reports it: protective gloves for the treated strips
    assert "gloves" in treatment_caution("hop_acids", "strip").lower()


def test_habits_against_their_sources():
    # US bee supplier's education page: 10 to 14 days after treatment ends
    assert (habit("check_after").first, habit("check_after").last) == (10, 14)
    # trade questions and answers: 24 to 48 hours; the outer day is common practice
    assert (habit("escapes").first, habit("escapes").last) == (1, 3)


# what is in no source that was read; whoever finds one takes it from here
FROM_MEMORY = {
    ("thymol", "gel", "max_per_year"),  # US federal label: two courses a year
    ("oxalic_acid", "spray", "amount"),  # US federal label: 3 ml for 1 000 bees
}


def test_only_these_label_figures_are_from_memory():
    found = set()
    for clock in clocks():
        figures = {n: getattr(clock, n) for n in type(clock).model_fields}
        figures |= {f"dose {i} {n}": v for i, d in enumerate(clock.dose, 1) for n, v in d}
        found |= {
            (clock.agent, clock.forms[0], n) for n, v in figures.items() if getattr(v, "status", "") == "from memory"
        }
    assert found == FROM_MEMORY
