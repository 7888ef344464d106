"""A season out of a paper, run through the schedule and the report.

Aurell, Wall, Bruckner and Williams 2024, J Insect Sci 24(3):12: combined treatment with amitraz and thymol, a field
trial in the south-east of the United States. The washes of its colonies that got amitraz strips alone are published
with the paper (data set under CC BY 4.0): mites found in three washes, and bees by weight, on 18 and 19 September, and
42 days after strips went in on 23 September. Six colonies that lost their queens are left out, as in the paper. Its
model has 8.99 mites per 100 bees before (5.80 to 13.92) and 2.80 after 42 days (1.70 to 4.62): 69 % fewer.

The yard, the year and the people are ours.
"""

import pytest
from sched_helpers import day, due, one, rec

from fieldnotes.roster import parse_roster
from fieldnotes.schedule.register import register
from fieldnotes.schedule.worked import worked
from fieldnotes.trade.counts import Count
from fieldnotes.trade.yard import yard_level

# colony, mites and bees before, mites and bees 42 days after (None: not counted then)
STRIPS = [
    ("D20", 26, 311, 30, 307), ("D5", 52, 318, 7, 335), ("9", 2, 307, 6, 392), ("D7", 22, 345, 10, 323),
    ("D11", 65, 373, 12, 353), ("D25", 29, 357, 13, 318), ("C33", 65, 333, 0, 381), ("L76", 22, 375, 4, 283),
    ("62", 5, 274, 1, 376), ("17", 19, 281, 17, 352), ("N22", 47, 347, None, None), ("C15", 51, 316, None, None),
]  # fmt: skip
IDS = [c for c, *_ in STRIPS]
ROSTER = parse_roster(f'outfit = "Quillfeather Bee Yards"\n[[yard]]\nname = "Quarry"\ncolonies = {IDS}', "r")
LIVED = [row for row in STRIPS if row[3] is not None]


def season():
    def washed(on, cid, mites, bees):
        return rec("mite_check", on, yard="Quarry", colonies=[cid], method="alcohol_wash", mites=mites, bees=bees)

    strips = {"agent": "amitraz", "form": "strip"}
    return [
        *(washed("2021-09-18", c, m, b) for c, m, b, *_ in STRIPS),
        rec("treatment", "2021-09-23", yard="Quarry", every_colony=True, step="in", amount=2, unit="strip", **strips),
        rec("change", "2021-10-30", yard="Quarry", colonies=["N22", "C15"], step="died"),
        rec("treatment", "2021-11-04", yard="Quarry", every_colony=True, step="out", **strips),
        *(washed("2021-11-04", c, m, b) for c, _, _, m, b in LIVED),
    ]


def test_the_level_before_is_that_of_the_paper():
    level = yard_level({c: Count(m, b, "wash") for c, m, b, *_ in STRIPS}, hives=12)
    assert 5.80 < level.mean < 13.92
    assert level.mean == pytest.approx(10.1, abs=0.05)
    assert level.more == 0
    assert set(level.outliers) == {"D5", "D11", "C33", "C15"}


def test_the_morning_before_and_while_they_are_in():
    book = season()
    before = due(book, "2021-09-20", ROSTER)
    assert [(i.what, i.section) for i in before] == [("treat", "today")] and len(before[0].colonies) == 10
    assert due(book, "2021-09-23", ROSTER, what="check_before") == []
    out = one(book, "2021-11-01", "take_out", ROSTER)
    assert (out.due, out.latest, out.section) == ("2021-11-04", "2021-11-18", "coming")


def test_the_morning_after_tells_that_it_failed():
    item = one(season(), "2021-11-05", "did_not_work", ROSTER)
    assert item.every_colony and item.section == "today"
    assert "9.4 mites per 100 bees before, 2.9 after: 69 % fewer" in item.because.reason
    assert "between 61 and 75 %" in item.because.reason


def test_the_report_has_the_numbers_of_the_paper():
    report = worked(season(), ROSTER, day("2021-12-01"))
    (result,) = report.treatments
    assert (result.start, result.end, result.counted, result.verdict) == ("2021-09-23", "2021-11-04", 10, "fell short")
    assert (result.before.mites, result.before.exposure) == (307, 3274)
    assert (result.after.mites, result.after.exposure) == (100, 3420)
    # the paper's model: 100 x (1 - 2.80239 / 8.98537) = 68.8
    assert result.reduction.percent == pytest.approx(100 * (1 - 2.80238623561682 / 8.98536688497111), abs=0.1)
    assert 1.70 < result.after.rate < 4.62 and 5.80 < result.before.rate < 13.92
    assert result.reduction.upper < 95
    assert report.agents[0].fell_short == 1


def test_the_register_has_the_two_ends_of_it():
    rows = register(season(), ROSTER, day("2021-12-01"), 2021)
    treated = [r for r in rows if r.date_out]
    assert [(r.date_in, r.date_out, r.days_in, r.waiting_days, r.free_from) for r in treated] == [
        ("2021-09-23", "2021-11-04", 42, 14, "2021-11-18")
    ]
    assert treated[0].hives == 10 and treated[0].count_before == "9.4 mites per 100 bees"
    lost = [r for r in rows if not r.date_out]
    assert [(r.colonies, r.note) for r in lost] == [(["C15", "N22"], "the colony is gone")]
