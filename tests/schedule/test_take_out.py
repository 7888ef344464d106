"""`take_out`: windows, closing, partial closing, who is meant."""

import pytest
from sched_helpers import ROSTER, day, due, one, rec, strips_in, strips_out

from fieldnotes.roster import parse_roster

ALL = {"every_colony": True}


def test_window_is_the_labels_least_to_longest():
    item = one([strips_in("2026-08-14", **ALL)], "2026-09-25", "take_out")
    assert (item.due, item.latest, item.section) == ("2026-09-25", "2026-10-09", "today")
    assert item.every_colony and item.colonies == [] and item.truck == "Flatbed"
    assert "2012" in item.because.reason and item.caution


@pytest.mark.parametrize(
    ("on", "section", "over"),
    [
        ("2026-09-17", None, 0),
        ("2026-09-18", "coming", 0),
        ("2026-09-24", "coming", 0),
        ("2026-09-25", "today", 0),
        ("2026-10-09", "today", 0),
        ("2026-10-10", "overdue", 1),
        ("2026-11-09", "overdue", 31),
    ],
)
def test_sections(on, section, over):
    found = due([strips_in("2026-08-14", **ALL)], on, what="take_out")
    assert [(i.section, i.days_over) for i in found] == ([(section, over)] if section else [])


def test_a_matching_removal_closes():
    records = [strips_in("2026-08-14", **ALL), strips_out("2026-10-05", **ALL)]
    assert due(records, "2026-10-20", what="take_out") == []


def test_what_is_told_after_the_day_does_not_count():
    records = [strips_in("2026-08-14", **ALL), strips_out("2026-10-12", **ALL)]
    assert one(records, "2026-10-11", "take_out").days_over == 2
    assert due(records, "2026-10-12", what="take_out") == []


def test_some_colonies_done_leaves_the_rest():
    records = [strips_in("2026-08-14", **ALL), strips_out("2026-10-05", colonies=["1", "2", "N3"])]
    item = one(records, "2026-10-20", "take_out")
    assert "1" not in item.colonies and "N3" not in item.colonies
    assert len(item.colonies) == 27 and not item.every_colony
    assert "3–24, N1, N2, N4–N6" in item.says


def test_all_but_some():
    records = [strips_in("2026-08-14", **ALL), strips_out("2026-10-05", every_colony=True, except_colonies=["4", "9"])]
    assert one(records, "2026-10-20", "take_out").colonies == ["4", "9"]
    records = [strips_in("2026-08-14", every_colony=True, except_colonies=["4", "9"])]
    item = one(records, "2026-10-20", "take_out")
    assert {"4", "9"}.isdisjoint(item.colonies) and len(item.colonies) == 28


@pytest.mark.parametrize("removal", [{"agent": None}, {"form": None}, {"agent": None, "form": None}])
def test_what_a_removal_does_not_say_fits_anything(removal):
    slots = {"agent": "amitraz", "form": "strip"} | removal
    slots = {k: v for k, v in slots.items() if v}
    out = rec("treatment", "2026-10-05", yard="Millpond", every_colony=True, step="out", **slots)
    assert due([strips_in("2026-08-14", **ALL), out], "2026-10-20", what="take_out") == []


@pytest.mark.parametrize("wrong", [{"agent": "formic_acid"}, {"form": "pad"}, {"yard": "Quarry"}])
def test_a_removal_of_something_else_closes_nothing(wrong):
    out = strips_out("2026-10-05", **(ALL | wrong))
    assert due([strips_in("2026-08-14", **ALL), out], "2026-10-20", what="take_out") != []


def test_a_removal_before_the_placement_closes_nothing():
    records = [strips_in("2026-08-14", **ALL), strips_out("2026-08-10", **ALL)]
    assert one(records, "2026-10-20", "take_out").every_colony


def test_old_out_new_in_of_one_note_restarts():
    records = [
        strips_in("2026-03-01", colonies=["12"]),
        strips_out("2026-08-20", colonies=["12"], note="n"),
        strips_in("2026-08-20", colonies=["12"], note="n"),
    ]
    item = one(records, "2026-10-01", "take_out")
    assert item.due == "2026-10-01" and item.sure


def test_later_the_same_day_it_comes_out_again():
    records = [
        strips_in("2026-08-14", at="08:00", colonies=["12"]),
        strips_out("2026-08-14", at="17:00", colonies=["12"]),
    ]
    assert due(records, "2026-10-20", what="take_out") == []


@pytest.mark.parametrize("state", ["planned", "not_done", "conditional"])
def test_only_what_was_done_opens_or_closes(state):
    assert due([strips_in("2026-08-14", state=state, **ALL)], "2026-10-20", what="take_out") == []
    records = [strips_in("2026-08-14", **ALL), strips_out("2026-10-05", state=state, **ALL)]
    assert due(records, "2026-10-20", what="take_out")


def test_days_said_win_when_shorter_than_the_longest():
    item = one([strips_in("2026-08-14", days=42, **ALL)], "2026-10-20", "take_out")
    assert (item.due, item.latest) == ("2026-09-25", "2026-09-25")
    item = one([strips_in("2026-08-14", days=50, **ALL)], "2026-10-20", "take_out")
    assert (item.due, item.latest) == ("2026-09-25", "2026-10-03")
    item = one([strips_in("2026-08-14", days=30, **ALL)], "2026-10-20", "take_out")
    assert (item.due, item.latest) == ("2026-09-13", "2026-09-13")
    item = one([strips_in("2026-08-14", days=90, **ALL)], "2026-10-20", "take_out")
    assert (item.due, item.latest) == ("2026-09-25", "2026-10-09")
    assert "90 days" in item.because.reason


def test_the_outfits_own_figures_win():
    own = parse_roster('[[label]]\nagent = "amitraz"\nform = "strip"\ndays_in = [40, 45]\nsource = "our label"', "r")
    item = one([strips_in("2026-08-14", **ALL)], "2026-10-20", "take_out", own)
    assert (item.due, item.latest) == ("2026-09-23", "2026-09-28")
    assert "our label" in item.because.reason


def test_placed_over_a_range_of_days():
    item = one([strips_in("2026-08-24", on="2026-08-17", on_until="2026-08-23", **ALL)], "2026-10-06", "take_out")
    assert (item.due, item.latest) == ("2026-10-04", "2026-10-12")
    assert not item.sure


# who is meant


def test_records_one_by_one_share_an_item():
    records = [strips_in("2026-08-14", colonies=[c]) for c in ("3", "4", "5", "12")]
    item = one(records, "2026-10-20", "take_out")
    assert item.colonies == ["3", "4", "5", "12"] and "3–5, 12" in item.says
    assert len(item.because.records) == 4


def test_all_named_is_every_colony():
    records = [strips_in("2026-08-14", yard="Quarry", colonies=[str(n) for n in range(1, 19)])]
    assert one(records, "2026-10-20", "take_out").every_colony


def test_a_number_of_hives():
    placed = strips_in("2026-08-14", colony_count=10)
    item = one([placed], "2026-10-20", "take_out")
    assert item.colony_count == 10 and item.colonies == []
    item = one([placed, strips_out("2026-10-05", colony_count=4)], "2026-10-20", "take_out")
    assert item.colony_count == 6
    item = one([placed, strips_out("2026-10-05", colonies=["3", "5"])], "2026-10-20", "take_out")
    assert item.colony_count == 8
    assert due([placed, strips_out("2026-10-05", colony_count=10)], "2026-10-20", what="take_out") == []
    assert due([placed, strips_out("2026-10-05", **ALL)], "2026-10-20", what="take_out") == []


def test_as_many_hives_as_the_yard_has_are_every_colony():
    records = [
        strips_in("2026-08-14", yard="Quarry", colony_count=18),
        strips_out("2026-10-05", "Quarry", colonies=["7"]),
    ]
    item = one(records, "2026-10-20", "take_out")
    assert len(item.colonies) == 17 and "7" not in item.colonies


def test_hives_out_of_named_ones_leave_a_number():
    records = [strips_in("2026-08-14", yard="Quarry", **ALL), strips_out("2026-10-05", "Quarry", colony_count=15)]
    item = one(records, "2026-10-20", "take_out")
    assert item.colony_count == 3 and not item.sure
    records.append(strips_out("2026-10-07", "Quarry", colonies=["3"]))
    assert one(records, "2026-10-20", "take_out").colony_count == 2
    records.append(strips_out("2026-10-08", "Quarry", colony_count=2))
    assert due(records, "2026-10-20", what="take_out") == []


def test_a_yard_not_in_the_roster():
    placed = strips_in("2026-08-14", yard="Gravel Pit", **ALL)
    assert one([placed], "2026-10-20", "take_out").every_colony
    item = one([placed, strips_out("2026-10-05", "Gravel Pit", colonies=["3"])], "2026-10-20", "take_out")
    assert item.every_colony and item.except_colonies == ["3"]
    rest = strips_out("2026-10-05", "Gravel Pit", every_colony=True, except_colonies=["8"])
    assert one([placed, rest], "2026-10-20", "take_out").colonies == ["8"]
    assert due([placed, strips_out("2026-10-05", "Gravel Pit", **ALL)], "2026-10-20", what="take_out") == []


def test_no_yard_said():
    placed = strips_in("2026-08-14", yard=None, colonies=["12"])
    item = one([placed], "2026-10-20", "take_out")
    assert item.yard is None and item.colonies == ["12"]
    assert due([placed, strips_out("2026-10-05", None, colonies=["12"])], "2026-10-20", what="take_out") == []
    assert due([placed, strips_out("2026-10-05", "Millpond", colonies=["12"])], "2026-10-20", what="take_out") == []
    elsewhere = strips_in("2026-08-14", "Quarry", colonies=["7"])
    assert due([elsewhere, strips_out("2026-10-05", None, colonies=["7"])], "2026-10-20", what="take_out") == []


def test_no_yard_said_and_two_that_could_be_meant():
    records = [
        strips_in("2026-08-14", "Quarry", colonies=["7"]),
        strips_in("2026-08-14", "Millpond", colonies=["7"]),
        strips_out("2026-10-05", None, colonies=["7"]),
    ]
    assert len(due(records, "2026-10-20", what="take_out")) == 2


def test_a_colony_that_is_not_in_the_roster_is_kept():
    item = one([strips_in("2026-08-14", yard="Quarry", colonies=["50"])], "2026-10-20", "take_out")
    assert item.colonies == ["50"]


# how many units


def test_fewer_strips_out_than_in_stays_open():
    placed = strips_in("2026-08-14", colonies=["5"], amount=2, unit="strip")
    item = one([placed, strips_out("2026-10-05", colonies=["5"], amount=1, unit="strip")], "2026-10-20", "take_out")
    assert item.colonies == ["5"] and "1 of 2 still in 5" in item.because.reason
    second = strips_out("2026-10-07", colonies=["5"], amount=1, unit="strip")
    first = strips_out("2026-10-05", colonies=["5"], amount=1, unit="strip")
    assert due([placed, first, second], "2026-10-20", what="take_out") == []


def test_the_last_strip_does_not_change_the_item():
    placed = strips_in("2026-08-14", colonies=["5"], amount=2, unit="strip")
    whole = one([placed], "2026-10-20", "take_out")
    part = one([placed, strips_out("2026-10-05", colonies=["5"], amount=1, unit="strip")], "2026-10-20", "take_out")
    assert whole.id == part.id


def test_amounts_each_or_in_all():
    placed = strips_in("2026-08-14", yard="Quarry", amount=2, unit="strip", **ALL)
    each = strips_out("2026-10-05", "Quarry", amount=2, unit="strip", **ALL)
    total = strips_out("2026-10-05", "Quarry", amount=36, unit="strip", **ALL)
    short = strips_out("2026-10-05", "Quarry", amount=35, unit="strip", **ALL)
    assert due([placed, each], "2026-10-20", what="take_out") == []
    assert due([placed, total], "2026-10-20", what="take_out") == []
    item = one([placed, short], "2026-10-20", "take_out")
    assert item.every_colony and "1 of 36 did not come out" in item.because.reason and not item.sure
    found = strips_out("2026-10-06", "Quarry", amount=1, unit="strip", colonies=["9"])
    assert due([placed, short, found], "2026-10-20", what="take_out") == []


def test_fewer_out_than_in_is_a_question_until_the_rest_is_out():
    placed = strips_in("2026-08-14", colonies=["5", "6"], amount=2, unit="strip")
    part = strips_out("2026-10-05", colonies=["5"], amount=1, unit="strip")
    item = one([placed, part, strips_out("2026-10-05", colonies=["6"])], "2026-10-06", "answer")
    assert item.section == "settle" and not item.sure and item.colonies == ["5"]
    assert "1 of 2 amitraz strips came out by the note of 5 October; did the other come out?" in item.says
    assert due([placed, part], "2026-10-06", what="take_out")
    rest = strips_out("2026-10-07", colonies=["5"], amount=1, unit="strip")
    assert due([placed, part, rest], "2026-10-08", what="answer") == []
    assert due([placed, part], "2026-12-20", what="answer") == []


def test_fewer_out_of_a_yard_than_in_is_a_question():
    placed = strips_in("2026-08-14", yard="Quarry", amount=2, unit="strip", **ALL)
    short = strips_out("2026-10-05", "Quarry", amount=33, unit="strip", **ALL)
    item = one([placed, short], "2026-10-06", "answer")
    assert item.every_colony and "33 of 36 amitraz strips came out" in item.says and "other 3" in item.says


def test_more_out_than_in_is_a_question():
    placed = strips_in("2026-08-14", colonies=["5"], amount=2, unit="strip")
    records = [placed, strips_out("2026-10-05", colonies=["5"], amount=3, unit="strip")]
    assert due(records, "2026-10-06", what="take_out") == []
    item = one(records, "2026-10-06", "answer")
    assert item.section == "settle" and not item.sure and item.colonies == ["5"]
    assert "3 came out" in item.says


def test_out_of_a_colony_that_had_none_is_a_question():
    records = [strips_in("2026-08-14", colonies=["3", "4"]), strips_out("2026-10-05", colonies=["3", "4", "10"])]
    assert due(records, "2026-10-06", what="take_out") == []
    assert one(records, "2026-10-06", "answer").colonies == ["10"]


def test_the_same_removal_told_twice_is_no_question():
    records = [
        strips_in("2026-08-14", colonies=["3", "4"]),
        strips_out("2026-10-05", colonies=["3"]),
        strips_out("2026-10-06", by="Dov", colonies=["3", "4"]),
    ]
    assert due(records, "2026-10-07", what="answer") == []


# rounds and courses


def test_placed_again_while_in_restarts_and_says_so():
    records = [strips_in("2026-08-14", colonies=["12"]), strips_in("2026-09-20", colonies=["12"])]
    item = one(records, "2026-11-01", "take_out")
    assert item.due == "2026-11-01" and not item.sure
    assert "No note says that the amitraz strips of 14 August came out" in item.because.reason


def test_one_more_detail_does_not_restart():
    records = [
        strips_in("2026-08-14", note="a", amount=2, unit="strip", **ALL),
        strips_in("2026-08-14", note="b", colonies=["12"], amount=3, unit="strip"),
    ]
    assert one(records, "2026-10-20", "take_out").every_colony
    records.append(strips_out("2026-10-05", colonies=["12"], amount=2, unit="strip"))
    assert "1 of 3 still in 12" in one(records, "2026-10-20", "take_out").because.reason


def test_a_tray_is_of_gel():
    tray = rec("treatment", "2026-08-01", yard="Quarry", step="in", agent="thymol", amount=1, unit="tray", **ALL)
    item = one([tray], "2026-08-12", "take_out")
    assert "thymol gel" in item.says and "form was not said" not in item.because.reason


def test_thymol_trays_run_as_a_course():
    def tray(on, **slots):
        return rec("treatment", on, yard="Quarry", colonies=["4"], step="in", agent="thymol", form="gel", **slots)

    first = [tray("2026-08-01", amount=1, unit="tray")]
    # US federal label, as a supplier's catalogue prints it: 12 to 14 days
    out = one(first, "2026-08-13", "take_out")
    assert (out.due, out.latest) == ("2026-08-13", "2026-08-15")
    dose = one(first, "2026-08-13", "next_dose")
    assert (dose.due, dose.latest) == ("2026-08-13", "2026-08-15") and "second" in dose.says
    assert "give the second dose" in one(first, "2026-09-14", "next_dose").says
    late = one(first, "2026-09-15", "next_dose")  # a month over: nobody would put it in now
    assert "say whether it was given" in late.says and late.id == dose.id and late.days_over == 31
    both = [*first, tray("2026-08-13", amount=1, unit="tray")]
    assert due(both, "2026-08-20", what="next_dose") == []
    item = one(both, "2026-08-27", "take_out")
    assert (item.due, item.latest) == ("2026-08-27", "2026-09-10")
    out = rec("treatment", "2026-08-28", yard="Quarry", colonies=["4"], step="out", agent="thymol")
    assert due([*both, out], "2026-09-30", what="take_out") == []


def test_one_formic_pad_is_followed_by_another_two_are_not():
    def pads(amount):
        return rec(
            "treatment", "2026-08-01", yard="Quarry", every_colony=True, step="in", agent="formic_acid", form="pad",
            amount=amount, unit="pad",
        )  # fmt: skip

    assert one([pads(1)], "2026-08-11", "next_dose").due == "2026-08-11"
    assert due([pads(2)], "2026-08-11", what="next_dose") == []
    assert one([pads(2)], "2026-08-15", "take_out").due == "2026-08-15"


def vapour(on, **slots):
    return rec(
        "treatment", on, yard="Quarry", every_colony=True, step="in", agent="oxalic_acid", form="vapour", **slots
    )


def test_vapour_is_a_series_only_when_rounds_are_counted():
    assert due([vapour("2026-11-02")], "2026-11-08", what="next_dose") == []
    item = one([vapour("2026-11-02", round=1)], "2026-11-08", "next_dose")
    assert (item.due, item.latest, item.section) == ("2026-11-07", "2026-11-09", "today")
    second = [vapour("2026-11-02", round=1), vapour("2026-11-08", round=2)]
    assert one(second, "2026-11-14", "next_dose").due == "2026-11-13"
    third = [*second, vapour("2026-11-14", round=3)]
    assert due(third, "2026-11-30", what="next_dose") == []
    assert due(third, "2026-11-30", what="take_out") == []


def test_form_not_said_is_asked():
    record = rec("treatment", "2026-11-02", yard="Quarry", every_colony=True, step="in", agent="oxalic_acid")
    assert due([record], "2026-12-30", what="take_out") == []
    item = one([record], "2026-11-03", "answer")
    assert "in what form" in item.says.lower() and not item.sure


def test_an_unknown_word_has_no_clock():
    record = rec("treatment", "2026-08-02", yard="Quarry", every_colony=True, step="in", product="shinies")
    assert due([record], "2026-12-03", what="take_out") == []


# colonies that leave


@pytest.mark.parametrize("step", ["died", "sold", "combined"])
def test_a_colony_that_is_gone_has_no_items(step):
    gone = rec("change", "2026-09-10", yard="Millpond", colonies=["12"], step=step, with_=["13"])
    assert due([strips_in("2026-08-14", colonies=["12"]), gone], "2026-10-20") == []
    item = one([strips_in("2026-08-14", **ALL), gone], "2026-10-20", "take_out")
    assert item.every_colony, "every colony that still lives"


def test_a_colony_dead_before_is_not_placed():
    gone = rec("change", "2026-08-10", yard="Quarry", colonies=["6"], step="died")
    item = one([gone, strips_in("2026-08-14", "Quarry", **ALL)], "2026-10-20", "take_out")
    assert item.every_colony
    named = strips_out("2026-10-05", "Quarry", colonies=[str(n) for n in range(1, 19) if n != 6])
    assert due([gone, strips_in("2026-08-14", "Quarry", **ALL), named], "2026-10-20", what="take_out") == []


def test_a_new_colony_in_an_old_hive():
    gone = rec("change", "2026-04-10", yard="Millpond", colonies=["N2"], step="died")
    nuc = rec("change", "2026-06-10", yard="Millpond", colonies=["14"], step="nuc_made", with_=["N2"])
    item = one([gone, nuc, strips_in("2026-08-14", colonies=["N2"])], "2026-10-20", "take_out")
    assert item.colonies == ["N2"]


def test_a_moved_colony_takes_its_item_along():
    moved = rec("change", "2026-09-01", yard="Aunt Wen's", colonies=["79"], step="moved", to_yard="Quarry")
    placed = strips_in("2026-08-14", "Aunt Wen's", colonies=["79"])
    before, item = one([placed], "2026-10-20", "take_out"), one([placed, moved], "2026-10-20", "take_out")
    assert (item.yard, item.colonies) == ("Quarry", ["79"]) and item.id == before.id
    for yard in ("Quarry", "Aunt Wen's", None):
        out = strips_out("2026-10-05", yard, colonies=["79"])
        assert due([placed, moved, out], "2026-10-20", what="take_out") == []


def test_a_moved_colony_under_a_new_number():
    moved = rec(
        "change", "2026-09-01", yard="Aunt Wen's", colonies=["79"], step="moved", to_yard="Quarry", with_=["19"]
    )
    item = one([strips_in("2026-08-14", "Aunt Wen's", colonies=["79"]), moved], "2026-10-20", "take_out")
    assert (item.yard, item.colonies) == ("Quarry", ["19"])


def test_part_of_a_yard_moved_makes_two_items():
    moved = rec("change", "2026-09-01", yard="Aunt Wen's", colonies=["78", "79"], step="moved", to_yard="Quarry")
    placed = strips_in("2026-08-14", "Aunt Wen's", **ALL)
    items = due([placed, moved], "2026-10-20", what="take_out")
    assert {i.yard: i.colonies for i in items} == {"Aunt Wen's": [], "Quarry": ["78", "79"]}
    assert len({i.id for i in items}) == 2
    assert one([placed], "2026-10-20", "take_out").id in {i.id for i in items if i.yard == "Aunt Wen's"}


def test_lost_hives_that_nobody_named():
    records = [strips_in("2026-08-14", "Gravel Pit", colony_count=10)]
    records.append(rec("change", "2026-09-10", yard="Gravel Pit", colony_count=2, step="died"))
    assert one(records, "2026-10-20", "take_out").colony_count == 8
    records.append(strips_out("2026-10-05", "Gravel Pit", colony_count=8))
    assert due(records, "2026-10-20", what="take_out") == []


def test_moved_hives_that_nobody_named_are_asked_about():
    moved = rec("change", "2026-09-20", yard="Millpond", colony_count=8, step="moved", to_yard="Gravel Pit")
    item = one([strips_in("2026-08-14", **ALL), moved], "2026-09-21", "answer")
    assert "Gravel Pit" in item.says and not item.sure


def test_id_does_not_depend_on_the_day_or_on_what_else_is_told():
    placed = strips_in("2026-08-14", colonies=["3"])
    more = strips_in("2026-08-14", colonies=["4"], by="Dov")
    ids = {one([placed], on, "take_out").id for on in ("2026-09-20", "2026-10-20", "2027-10-20")}
    ids |= {one(records, "2026-10-20", "take_out").id for records in ([placed, more], [more, placed])}
    assert len(ids) == 1


def test_by_hand():
    from fieldnotes.schedule import due_items

    placed = strips_in("2026-08-14", colonies=["3"])
    item = one([placed], "2026-10-20", "take_out")
    assert due_items([placed], [], ROSTER, day("2026-10-20"), closed={item.id}) == []


def test_the_nearest_last_day_comes_first_today():
    book = [strips_in("2026-07-08", "Quarry", **ALL), strips_in("2026-07-01", "Millpond", **ALL)]
    items = due(book, "2026-08-20")
    assert [(i.section, i.yard, i.latest) for i in items] == [
        ("today", "Millpond", "2026-08-26"), ("today", "Quarry", "2026-09-02"),
    ]  # fmt: skip
    late = [strips_in("2026-07-08", "Millpond", **ALL), strips_in("2026-07-01", "Quarry", **ALL)]
    assert [i.yard for i in due(late, "2026-08-20")] == ["Quarry", "Millpond"]


def test_the_id_of_what_moved_stays_when_the_rest_is_over():
    """Some colonies went to another yard with their strips; when the others are done, nothing changes for them."""
    records = [
        strips_in("2026-07-11", "Quarry", **ALL),
        rec("change", "2026-08-15", yard="Quarry", colonies=["1", "2"], step="moved", to_yard="Millpond"),
    ]
    before = {i.yard: i.id for i in due(records, "2026-08-27", what="take_out")}
    assert set(before) == {"Quarry", "Millpond"} and before["Quarry"] != before["Millpond"]
    out = strips_out("2026-08-28", "Quarry", **ALL)
    (item,) = due([*records, out], "2026-08-29", what="take_out")
    assert (item.yard, item.id) == ("Millpond", before["Millpond"])


def test_two_colonies_that_went_to_two_yards_are_two_items():
    book = [
        strips_in("2026-04-01", colonies=["1", "2"]),
        rec("change", "2026-04-02", yard="Millpond", colonies=["1"], step="moved", to_yard="Aunt Wen's"),
        rec("change", "2026-04-03", yard="Millpond", colonies=["2"], step="moved", to_yard="Gravel Pit"),
    ]
    first, second = due(book, "2026-07-01", what="take_out")
    assert (first.yard, second.yard) == ("Aunt Wen's", "Gravel Pit") and first.id != second.id
    out = strips_out("2026-07-01", "Gravel Pit", colonies=["2"])
    assert one([*book, out], "2026-07-01", "take_out").id == first.id


def test_more_that_came_out_than_was_still_in_is_asked_about():
    """12 strips in, 10 out, then 4: two more than there were."""
    book = [strips_in("2026-07-01", colonies=["1", "2", "3", "4", "5", "6"], amount=2, unit="strip"),
            strips_out("2026-08-20", colonies=["1", "2", "3", "4", "5", "6"], amount=10, unit="strip")]  # fmt: skip
    last = strips_out("2026-08-21", amount=4, unit="strip", every_colony=True)
    assert "4 came out where the book has 2 in" in one([*book, last], "2026-08-21", "answer").says
    fits = strips_out("2026-08-21", amount=2, unit="strip", every_colony=True)
    assert due([*book, fits], "2026-08-21", what="answer") == []


def test_a_new_course_on_top_of_one_that_never_came_out():
    """After the least stay it is a course of its own: the old one is asked for, and a count before it is wanted."""
    old, new = strips_in("2026-05-20", colonies=["3"]), strips_in("2026-08-20", colonies=["3"])
    asked = one([old, new], "2026-08-20", "answer")
    assert asked.section == "settle" and "no note says that those of 20 May came out; did they?" in asked.says
    assert set(asked.because.records) == {old.id, new.id}
    assert due([old, new], "2026-08-20", what="check_before")
    out = strips_out("2026-07-10", colonies=["3"])
    assert due([old, out, new], "2026-08-20", what="answer") == []
    more = strips_in("2026-06-10", colonies=["3"])  # put to what was in for three weeks
    assert due([old, more], "2026-06-10") == []


def test_the_grounds_read_well_whosever_figures_they_are():
    own = parse_roster('[[label]]\nagent = "amitraz"\ndays_in = [42, 70]\nsource = "the label in my hand"', "r")
    book = [strips_in("2026-07-01", colonies=["3"])]
    assert "amitraz strips stay in 42 to 56 days" in one(book, "2026-08-12", "take_out").because.reason
    said = [strips_in("2026-07-01", colonies=["3"], days=90)]
    assert "amitraz strips, the note says 90 days" in one(said, "2026-08-12", "take_out").because.reason
    assert "amitraz strips, the label in my hand: 42 to 70" in one(book, "2026-08-12", "take_out", own).because.reason


def test_what_came_out_and_never_went_in_is_asked_about():
    out = strips_out("2026-08-20", colonies=["1", "2"])
    asked = one([out], "2026-08-20", "answer")
    assert asked.colonies == ["1", "2"] and "no note tells of it going in there" in asked.says
    told_late = strips_in("2026-07-01", colonies=["1", "2"])
    assert due([out, told_late], "2026-08-20", what="answer") == []
    again = strips_out("2026-09-20", colonies=["1", "2"])  # the same told once more, a month later
    assert due([told_late, out, again], "2026-09-20", what="answer") == []
