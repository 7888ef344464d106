"""What labels say beside days: supers, the wait after, how often, in what heat, how much. In the units printed."""

import pytest

from fieldnotes.trade.labels import clocks


def f(degrees: float) -> float:
    """Fahrenheit as printed, in Celsius."""
    return (degrees - 32) / 1.8


NO, YES = False, True
# agent, form, first country, edition begins: supers, wait, a year, low, high, danger, ml, grams
LIMITS = [
    # US state emergency-use notice, 2012: supers off, and on again 14 days after; spring and fall
    ("amitraz", "strip", "us", "emergency", NO, 14, 2, None, None, None, None, None),
    # a US supplier's catalogue, second type: supers off, out 14 days before they go on
    ("amitraz", "strip", "us", "6 to 10", NO, 14, None, None, None, None, None, None),
    # UK SPC of April 2016: not before the end of the honey season; German SPC of the other type: honey 0 days
    ("amitraz", "strip", "eu", "not over 8", NO, 0, None, None, None, None, None, None),
    # Austrian leaflet: not during flow; German SPC: honey 0 days
    ("amitraz", "strip", "eu", "6 weeks", NO, 0, None, None, None, None, None, None),
    # EU holder's questions and answers: above 10 C
    ("amitraz", "vapour", "eu", "fumigation", None, None, None, 10, None, None, None, None),
    # a US supplier's catalogue: supers off, above 50 F; Ohio fact sheet: early spring before the flow, fall after it
    ("tau_fluvalinate", "strip", "us", "federal", NO, None, 2, f(50), None, None, None, None),
    # French veterinary supplier: strips out before supers go on, after the last flow and in spring if it must be; Swiss
    # bee health service, as a federation quotes it: 0 days for every mite treatment
    ("tau_fluvalinate", "strip", "eu", "6 to 8", NO, 0, 2, None, None, None, None, None),
    # UK data sheet, October 2006: best after harvest; Swiss bee health service, as a federation quotes it: 0 days
    ("flumethrin", "strip", "uk", "data sheet", NO, 0, None, None, None, None, None, None),
    # Canadian label summary: supers off, 14 days, not more than twice a year
    ("coumaphos", "strip", "canada", "Canadian", NO, 14, 2, None, None, None, None, None),
    # a US supplier's catalogue: supers stay on; Oliver, Am Bee J, September 2022: 50 to 85 F, over 92 F does harm
    ("formic_acid", "pad", "us", "14 or 20", YES, 0, None, f(50), f(85), f(92), None, None),
    ("formic_acid", "pad", "us", "2 pads", YES, 0, None, f(50), f(85), f(92), None, None),
    ("formic_acid", "pad", "us", "1 pad", YES, 0, None, f(50), f(85), f(92), None, None),
    ("formic_acid", "strip", "us", "7-day", YES, 0, None, f(50), f(85), f(92), None, None),
    # UK leaflet: 10 to 29.5 C on the day, over 33 C in the first days; supers on, withdrawal 0 days
    ("formic_acid", "strip", "uk", "7-day", YES, 0, None, 10, 29.5, 33, None, None),
    # German SPC of a 7-day strip: supers with honey off first; honey stored meanwhile is not for eating
    ("formic_acid", "strip", "germany", "7-day", NO, 0, None, 10, 29.5, 33, None, None),
    # a US supplier's catalogue: supers off, 59 to 105 F; two courses a year from memory
    ("thymol", "gel", "us", "two trays", NO, 0, 2, f(59), f(105), None, None, None),
    # UK SPC of 2015: 15 to 40 C, not during flow; French leaflet: two courses a year
    ("thymol", "gel", "eu", "two trays", NO, 0, 2, 15, 40, None, None, None),
    # UK SPC of November 2011: mean under 15 C weak, not over 30 C; German SPC: honey 0 days
    ("thymol", "wafer", "uk", "15 g", NO, 0, 1, 15, 30, None, None, None),
    # a US supplier: 59 to 90 F, out 30 days before honey is taken, two courses
    ("thymol", "wafer", "us", "thymol blend", NO, 30, 2, f(59), f(90), None, None, None),
    # EPA, 23 February 2021: supers once the label says so; suppliers: 40 F, 5 ml a seam, 50 ml at most, once a winter
    ("oxalic_acid", "dribble", "us", "federal", YES, 0, 1, f(40), None, None, 50, None),
    # German leaflet: once, from 3 C, 30, 40 or 50 ml, not during flow; SPC of a concentrate: honey 0 days
    ("oxalic_acid", "dribble", "germany", "3.5 %", NO, 0, 1, 3, None, None, 50, None),
    # UK leaflets: never twice, over 3 C; Swiss label of the solution, as a federation quotes it: no waiting time;
    # French SPC of powder for syrup, as a farmers' health group prints it: 50 ml a hive at most
    ("oxalic_acid", "dribble", "uk", "once", NO, 0, 1, 3, None, None, 50, None),
    ("oxalic_acid", "spray", "us", "packages", None, None, None, None, None, None, None, None),
    # German SPC of a concentrate, November 2016: above 8 C; a later print: treat without supers, honey 0 days
    ("oxalic_acid", "spray", "germany", "3 %", NO, 0, None, 8, None, None, None, None),
    # EPA, 23 February 2021; a US supplier on the amended label: up to 4 g for each brood box
    ("oxalic_acid", "vapour", "us", "federal", YES, 0, None, None, None, None, None, 4),
    # older European device sheet: not under 4 C; Swiss label, as a federation quotes it: not with supers on, honey none
    ("oxalic_acid", "vapour", "eu", "older", NO, 0, None, 4, None, None, None, None),
    # the same in Germany, where associations tell of one powder authorised in September 2023
    ("oxalic_acid", "vapour", "germany", "powder", NO, 0, None, 4, None, None, None, None),
    # second-hand sources differ, so the stricter; EPA, 23 February 2021: no limit in honey
    ("oxalic_acid", "strip", "us", "extended", NO, 0, None, None, None, None, None, None),
    # Oliver, Am Bee J, February 2022: supers on; course on the 2022 guide: above 50 F; association: 3 times a year
    ("hop_acids", "strip", "us", "older", YES, 0, 3, f(50), None, None, None, None),
    # German SPC of May 2022: 4 to 10 C, honey 0 days; leaflet on lactic acid: 5 to 15 C; rules of a German organic
    # growers' association: not during flow
    ("lactic_acid", "spray", "germany", "15 %", NO, 0, None, 5, 10, None, None, None),
    # Danish Beekeepers' Association: up to eight weeks before the harvest; the rest as in Germany
    ("lactic_acid", "spray", "eu", "15 %", NO, 56, None, 5, 10, None, None, None),
]


def clock_of(agent, form, country, edition):
    (found,) = [
        c
        for c in clocks()
        if (c.agent, c.forms[0], c.countries[0]) == (agent, form, country) and c.edition.startswith(edition)
    ]
    return found


@pytest.mark.parametrize(
    ("agent", "form", "country", "edition", "supers", "wait", "year", "low", "high", "danger", "ml", "grams"), LIMITS
)
def test_limits_are_the_printed_ones(agent, form, country, edition, supers, wait, year, low, high, danger, ml, grams):
    clock = clock_of(agent, form, country, edition)
    assert (clock.supers and clock.supers.value, clock.wait and clock.wait.days) == (supers, wait)
    amounts = (clock.max_per_year, clock.max_ml, clock.max_grams)
    assert [a and a.value for a in amounts] == [year, ml, grams]
    heats = (clock.low_c, clock.high_c, clock.danger_c)
    for figure, printed in zip(heats, (low, high, danger), strict=True):
        assert (figure is None) == (printed is None)
        assert figure is None or figure.value == pytest.approx(printed, abs=0.06)
    assert clock.danger_c is None or clock.danger_days.days == 3


def test_every_clock_is_checked_above():
    assert len({id(clock_of(*row[:4])) for row in LIMITS}) == len(clocks())
