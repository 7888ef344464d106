"""The treatment register: what inspectors ask for, gaps shown and not filled."""

import pytest
from sched_helpers import ROSTER, day, rec, strips_in, strips_out, wash

from fieldnotes.roster import parse_roster
from fieldnotes.schedule.register import lot_numbers, register

ALL = {"every_colony": True}


def rows(records, year=None, roster=ROSTER):
    return register(records, roster, day("2026-12-31"), year)


def test_a_treatment_from_in_to_out():
    book = [
        rec("conditions", "2026-08-14", yard="Quarry", high=78, unit="F"),
        wash("2026-08-10", "Quarry", mites=30, bees=300),
        strips_in("2026-08-14", "Quarry", amount=2, unit="strip", product="greenies", by_="Ines", **ALL),
        strips_out("2026-10-01", "Quarry", **ALL),
        wash("2026-10-12", "Quarry", mites=3, bees=300),
    ]
    (row,) = rows(book)
    assert (row.date_in, row.date_out, row.days_in) == ("2026-08-14", "2026-10-01", 48)
    assert (row.active, row.form, row.product, row.amount, row.unit) == ("amitraz", "strip", "greenies", 2, "strip")
    assert (row.yard, row.hives, row.who_in, row.who_out) == ("Quarry", 18, "Ines", "Marit")
    # amitraz strips, US emergency-use notice of 2012: 14 days before supers
    assert (row.waiting_days, row.free_from) == (14, "2026-10-15")
    assert (row.temperature, row.count_before, row.count_after) == (
        "78 F",
        "10.0 mites per 100 bees",
        "1.0 mites per 100 bees",
    )


def test_a_waiting_time_of_none_is_written_down_and_an_unknown_one_is_a_gap():
    formic = rec("treatment", "2026-08-14", yard="Quarry", **ALL, step="in", agent="formic_acid", form="pad")
    tau = rec("treatment", "2026-08-14", yard="Quarry", **ALL, step="in", agent="tau_fluvalinate", form="strip")
    assert {r.active: r.waiting_days for r in rows([formic, tau])} == {"formic acid": 0, "tau-fluvalinate": None}


def test_gaps_stay_gaps():
    (row,) = rows([rec("treatment", "2026-08-14", by=None, yard="Quarry", **ALL, step="in", product="shinies")])
    assert row.active is None and row.amount is None and row.lot is None and row.supplier is None and row.who_in is None
    assert (row.product, row.date_out, row.note) == ("shinies", None, "still in")


def test_taken_out_on_two_days_makes_two_rows():
    book = [
        strips_in("2026-08-14", colonies=["1", "2", "3"]),
        strips_out("2026-10-01", colonies=["1"]),
        strips_out("2026-10-03", colonies=["2"]),
    ]
    assert [(r.colonies, r.date_out, r.note) for r in rows(book)] == [
        (["1"], "2026-10-01", ""),
        (["2"], "2026-10-03", ""),
        (["3"], None, "still in"),
    ]


def test_out_without_in_shows_the_gap():
    (row,) = rows([strips_out("2026-10-01", "Quarry", **ALL)])
    assert row.date_in is None and row.note == "no note of it going in" and row.amount is None


def test_single_doses_and_rounds():
    def vapour(on, n):
        return rec("treatment", on, yard="Quarry", **ALL, step="in", agent="oxalic_acid", form="vapour", round=n)

    assert [
        (r.date_in, r.date_out, r.dose, r.note) for r in rows([vapour("2026-11-02", 1), vapour("2026-11-08", 2)])
    ] == [
        ("2026-11-02", "2026-11-02", 1, "given"),
        ("2026-11-08", "2026-11-08", 2, "given"),
    ]


def test_colonies_that_died_stay_in_the_register():
    book = [
        strips_in("2026-08-14", colonies=["1"]),
        rec("change", "2026-09-01", yard="Millpond", colonies=["1"], step="died"),
    ]
    (row,) = rows(book)
    assert row.colonies == ["1"] and row.note == "the colony is gone"


def test_one_year():
    book = [
        strips_in("2025-08-14", colonies=["1"]),
        strips_out("2025-10-01", colonies=["1"]),
        strips_in("2025-11-20", colonies=["2"]),
        strips_out("2026-01-05", colonies=["2"]),
        strips_in("2026-08-14", colonies=["3"]),
    ]
    assert [r.colonies for r in rows(book, 2025)] == [["1"], ["2"]]
    assert [r.colonies for r in rows(book, 2026)] == [["2"], ["3"]]
    assert len(rows(book)) == 3


def test_the_outfits_own_waiting_time():
    own = parse_roster('[[label]]\nagent = "amitraz"\nwait_days = 21', "r")
    book = [strips_in("2026-08-14", "Quarry", **ALL), strips_out("2026-10-01", "Quarry", **ALL)]
    assert [(r.waiting_days, r.free_from) for r in rows(book, roster=own)] == [(21, "2026-10-22")]


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("strips in at the quarry, lot 4471B", ["4471B"]),
        ("batch no. 2025-118, two each", ["2025-118"]),
        ("Lot #77 and again lot number 77", ["77"]),
        ("lot: K9", ["K9"]),
        ("lot 20250811", ["20250811"]),
        ("lot A12/25 in 3 and lot B7-1 in 4", ["A12/25", "B7-1"]),
        ("they ate a lot 12 and 13 are light", []),
        ("the whole lot 14 had none", []),
        ("parked in the lot by the gate, allotment 4471B", []),
    ],
)
def test_lot_numbers(text, numbers):
    assert lot_numbers(text) == numbers


def test_the_lot_number_where_the_note_leaves_no_doubt():
    words = {
        "n1": "strips in at the quarry all of them, lot 4471B",
        "n2": "strips and pads in, lot 9001",
        "n3": "pads in",
    }
    pads = {"step": "in", "agent": "formic_acid", "form": "pad"}
    book = [
        strips_in("2026-03-01", "Quarry", note="n1", **ALL),
        strips_in("2026-05-01", "Millpond", note="n2", colonies=["1"]),
        rec("treatment", "2026-05-01", yard="Millpond", note="n2", colonies=["2"], **pads),
        rec("treatment", "2026-08-01", yard="Quarry", note="n3", **pads, **ALL),
    ]
    found = register(book, ROSTER, day("2026-12-31"), text_of=words.__getitem__)
    assert [(r.date_in, r.lot) for r in found] == [
        ("2026-03-01", "4471B"), ("2026-05-01", None), ("2026-05-01", None), ("2026-08-01", None),
    ]  # fmt: skip


def test_a_count_is_no_gap_where_the_other_one_was_never_made():
    ids = ["1", "2"]
    book = [
        wash("2026-06-20", mites=9, bees=300, colonies=["1"]),
        wash("2026-06-20", mites=3, bees=300, colonies=["2"]),
        strips_in("2026-07-01", colonies=ids),
    ]
    (row,) = rows(book)
    assert (row.count_before, row.count_after, row.note) == ("2.0 mites per 100 bees", None, "still in")
    late = [strips_in("2026-07-01", colonies=ids), strips_out("2026-08-20", colonies=ids),
            wash("2026-09-01", mites=3, bees=300, colonies=["1"])]  # fmt: skip
    assert [(r.count_before, r.count_after) for r in rows(late)] == [(None, "1.0 mites per 100 bees")]


def test_what_more_was_put_to_is_not_taken_for_out():
    first, _ = rows([strips_in("2026-05-20", colonies=["3"]), strips_in("2026-08-20", colonies=["3"])])
    assert (first.date_out, first.days_in, first.free_from) == (None, None, None)
    assert first.note == "no note of it coming out; more went in 2026-08-20"
    pads = [rec("treatment", on, yard="Quarry", colonies=["3"], step="in", agent="formic_acid", form="pad", amount=1,
                unit="pad") for on in ("2026-08-01", "2026-08-11")]  # fmt: skip
    assert [(r.date_out, r.note) for r in rows(pads)] == [("2026-08-11", "followed by the next"), (None, "still in")]


def test_a_colony_that_is_gone_is_in_no_later_years_register():
    book = [strips_in("2025-08-14", colonies=["3"]), rec("change", "2025-09-20", yard="Millpond", colonies=["3"],
                                                         step="died")]  # fmt: skip
    assert [r.note for r in rows(book, 2025)] == ["the colony is gone"] and rows(book, 2026) == []
