"""`check_after` and `check_before`."""

import pytest
from sched_helpers import due, one, rec, strips_in, strips_out, wash

from fieldnotes.roster import parse_roster

ALL = {"every_colony": True}


def ended(**slots):
    return [strips_in("2026-08-14", **slots), strips_out("2026-10-01", **slots)]


def test_due_10_to_14_days_after_the_end():
    item = one(ended(**ALL), "2026-10-11", "check_after")
    assert (item.due, item.latest, item.section) == ("2026-10-11", "2026-10-15", "today")
    assert item.every_colony and "10 to 14 days" in item.because.reason and "alcohol" in item.caution
    late = one(ended(**ALL), "2026-10-20", "check_after")
    assert (late.section, late.days_over, late.id) == ("overdue", 5, item.id)


def test_long_after_it_says_that_a_count_no_longer_shows_what_the_treatment_did():
    words = "no longer shows what the treatment did"
    assert words not in one(ended(**ALL), "2026-11-30", "check_after").because.reason
    assert words in one(ended(**ALL), "2026-12-01", "check_after").because.reason


def test_not_while_the_treatment_is_in():
    assert due([strips_in("2026-08-14", **ALL)], "2026-12-20", what="check_after") == []


def test_a_single_dose_ends_when_it_is_given():
    dose = rec("treatment", "2026-11-20", yard="Quarry", **ALL, step="in", agent="oxalic_acid", form="dribble")
    assert one([dose], "2026-12-01", "check_after").due == "2026-11-30"


def test_a_removal_of_what_never_went_in_by_the_book_ends_a_treatment_too():
    assert one([strips_out("2026-10-01", **ALL)], "2026-10-12", "check_after").every_colony


def test_the_outfits_own_days():
    own = parse_roster("[practice]\ncheck_after_days = [3, 20]", "r")
    item = one(ended(colonies=["3"]), "2026-10-05", "check_after", own)
    assert (item.due, item.latest) == ("2026-10-04", "2026-10-21")
    assert "roster" in item.because.reason


@pytest.mark.parametrize(
    ("check", "open_"),
    [
        (wash("2026-10-12", colonies=["3"]), ["4", "5"]),
        (wash("2026-10-12", colonies=["3", "4", "5"]), []),
        (wash("2026-10-12"), []),  # a sample of the yard
        (wash("2026-10-12", colony_count=8), []),
        (wash("2026-10-12", **ALL), []),
        (wash("2026-10-12", colonies=["20"]), ["3", "4", "5"]),  # not one of them
        (wash("2026-10-12", yard="Quarry"), ["3", "4", "5"]),
        (wash("2026-10-01", colonies=["3", "4", "5"]), ["3", "4", "5"]),  # not after the end
        (wash("2026-10-12", colonies=["3", "4", "5"], state="not_done"), ["3", "4", "5"]),
    ],
)
def test_closed_by_a_check_of_these_colonies_or_of_a_sample_of_the_yard(check, open_):
    items = due([*ended(colonies=["3", "4", "5"]), check], "2026-10-20", what="check_after")
    assert [c for i in items for c in i.colonies] == open_


def test_any_colony_is_a_sample_when_the_whole_yard_was_treated():
    assert due([*ended(**ALL), wash("2026-10-12", colonies=["7", "9"])], "2026-10-20", what="check_after") == []


def test_ended_on_two_days_makes_two_items():
    records = [
        strips_in("2026-08-14", colonies=["3", "4"]),
        strips_out("2026-10-01", colonies=["3"]),
        strips_out("2026-10-03", colonies=["4"]),
    ]
    assert [(i.due, i.colonies) for i in due(records, "2026-10-14", what="check_after")] == [
        ("2026-10-11", ["3"]),
        ("2026-10-13", ["4"]),
    ]


def test_part_of_the_strips_out_is_no_end():
    records = [
        strips_in("2026-08-14", colonies=["3"], amount=2, unit="strip"),
        strips_out("2026-10-01", colonies=["3"], amount=1, unit="strip"),
    ]
    assert due(records, "2026-10-14", what="check_after") == []


def test_of_two_treatments_the_last_end_counts():
    records = [*ended(colonies=["3"])]
    records.append(rec("treatment", "2026-10-10", yard="Millpond", colonies=["3"], step="in", agent="oxalic_acid",
                       form="dribble"))  # fmt: skip
    assert [i.due for i in due(records, "2026-10-20", what="check_after")] == ["2026-10-20"]


def test_a_running_series_has_not_ended():
    def vapour(on, n):
        return rec("treatment", on, yard="Quarry", **ALL, step="in", agent="oxalic_acid", form="vapour", round=n)

    assert due([vapour("2026-11-02", 1)], "2026-11-09", what="check_after") == []
    rounds = [vapour("2026-11-02", 1), vapour("2026-11-08", 2), vapour("2026-11-14", 3)]
    items = due(rounds, "2026-11-20", what="check_after")
    assert [i.due for i in items] == ["2026-11-24"]


def test_dead_colonies_are_not_counted():
    gone = rec("change", "2026-10-05", yard="Millpond", colonies=["3"], step="died")
    assert due([*ended(colonies=["3"]), gone], "2026-10-14", what="check_after") == []


def test_check_before_is_said_on_the_day_and_the_day_after_only():
    placed = strips_in("2026-08-14", **ALL)
    for on, shown in (("2026-08-13", 0), ("2026-08-14", 1), ("2026-08-15", 1), ("2026-08-16", 0)):
        found = due([placed], on, what="check_before")
        assert len(found) == shown
        assert all(i.section == "today" for i in found)


@pytest.mark.parametrize(
    ("check", "missing"),
    [
        (wash("2026-07-15", colonies=["12"]), False),  # 30 days before
        (wash("2026-07-14", colonies=["12"]), True),
        (wash("2026-08-14", colonies=["12"]), False),
        (wash("2026-08-15", colonies=["12"]), False),  # it closes then
        (wash("2026-08-01"), False),
        (wash("2026-08-01", colonies=["13"]), True),
        (wash("2026-08-01", yard="Quarry", colonies=["12"]), True),
    ],
)
def test_check_before_wants_a_check_in_the_30_days_before(check, missing):
    found = due([strips_in("2026-08-14", colonies=["12"]), check], "2026-08-15", what="check_before")
    assert bool(found) is missing


def test_the_next_dose_wants_no_check_before():
    records = [strips_in("2026-08-14", colonies=["12"]), strips_in("2026-09-01", colonies=["12"])]
    assert due(records, "2026-09-01", what="check_before") == []


# a list of colonies, some of them counted


def test_of_a_list_those_not_counted_are_asked_for_with_how_many_were():
    ids = [str(n) for n in range(1, 5)]
    records = [strips_in("2026-08-01", colonies=ids), strips_out("2026-09-20", colonies=ids)]
    records.append(wash("2026-10-01", colonies=["1", "2", "3"], mites=1, bees=300))
    item = one(records, "2026-10-02", "check_after")
    assert item.colonies == ["4"] and item.says.endswith("; 3 of 4 counted since.")


def test_of_a_long_list_a_sample_is_enough():
    ids = [str(n) for n in range(1, 13)]
    records = [strips_in("2026-08-01", colonies=ids), strips_out("2026-09-20", colonies=ids)]
    assert "count mites in 8 of them" in one(records, "2026-10-01", "check_after").says
    records += [wash("2026-10-01", colonies=[n], mites=1, bees=300) for n in ids[:3]]
    item = one(records, "2026-10-02", "check_after")
    assert item.colonies == ids[3:]
    assert "count mites in 5 more of them" in item.says and item.says.endswith("; 3 of 12 counted since.")
    assert "8 colonies" in item.because.reason
    records += [wash("2026-10-02", colonies=[n], mites=1, bees=300) for n in ids[3:8]]
    assert due(records, "2026-10-03", what="check_after") == []


def test_a_list_that_is_the_whole_yard_is_told_of_by_a_sample():
    ids = [str(n) for n in range(70, 77)]
    yard = {"yard": "Aunt Wen's"}
    gone = [rec("change", "2026-07-01", **yard, colonies=["77", "78", "79"], step="died")]
    records = [*gone, strips_in("2026-08-01", colonies=ids, **yard), strips_out("2026-09-20", colonies=ids, **yard)]
    assert one(records, "2026-10-01", "check_after").every_colony
    counted = [wash("2026-10-01", **yard, colonies=[c], mites=1, bees=300) for c in ids[:4]]
    assert due([*records, *counted], "2026-10-06", what="check_after") == []
    # of the same list without its last colony, which is not the yard, all are asked for
    some = [
        *gone,
        strips_in("2026-08-01", colonies=ids[:-1], **yard),
        strips_out("2026-09-20", colonies=ids[:-1], **yard),
    ]
    assert one([*some, *counted], "2026-10-06", "check_after").colonies == ids[4:-1]


def test_of_colonies_treated_together_some_that_were_counted_before_tell_of_all():
    ids = [str(n) for n in range(1, 11)]
    placed = strips_in("2026-08-14", colonies=ids)
    assert due([placed, wash("2026-08-01", colonies=["2"], mites=1)], "2026-08-14", what="check_before") == []
    assert due([placed, wash("2026-08-01", colonies=["20"], mites=1)], "2026-08-14", what="check_before") != []


def test_in_winter_hives_stay_shut_and_mites_are_counted_on_a_board():
    """Weser-Ems breeders' association, varroa monitoring by the year: counts in November and in February, with a
    board in for 5 days."""
    missed = one(ended(**ALL), "2026-10-20", "check_after")
    assert "on a board" not in missed.says
    winter = one(ended(**ALL), "2027-01-20", "check_after")
    assert (winter.id, winter.days_over) == (missed.id, 97)
    assert "count mites in 8 of them on a board, with the hives shut" in winter.says
    assert "a board for 5 days, or else a wash from 1 March on" in winter.because.reason
    assert winter.caution is None and "may still be what the treatment killed" not in winter.because.reason
    board = wash("2027-01-25", colony_count=8, method="board", mites=3, board_days=5)
    assert due([*ended(**ALL), board], "2027-01-26", what="check_after") == []
    spring = one(ended(**ALL), "2027-03-01", "check_after")
    assert "board" not in spring.says and spring.days_over == 137


def test_a_winter_dose_is_counted_on_a_board_once_the_fall_is_over():
    dose = rec("treatment", "2026-12-20", yard="Quarry", **ALL, step="in", agent="oxalic_acid", form="dribble")
    assert "on a board" in one([dose], "2026-12-20", "check_before").says
    words = "What falls now may still be what the treatment killed"
    assert words in one([dose], "2027-01-10", "check_after").because.reason  # 3 weeks: leaflet, Germany
    assert words not in one([dose], "2027-01-11", "check_after").because.reason


def test_with_brood_in_it_a_colony_is_washed_in_winter_too():
    brood = rec("inspection", "2027-01-15", yard="Millpond", colonies=["3"], eggs=True, open_brood=True)
    assert "on a board" not in one([*ended(**ALL), brood], "2027-01-20", "check_after").says


def test_winter_is_in_july_in_the_south():
    south = parse_roster('hemisphere = "south"', "r")
    book = [strips_in("2026-02-14", **ALL), strips_out("2026-04-01", **ALL)]
    assert "on a board" in one(book, "2026-07-20", "check_after", south).says
    assert "a wash from 1 September on" in one(book, "2026-07-20", "check_after", south).because.reason
    assert "on a board" not in one(ended(**ALL), "2027-01-20", "check_after", south).says


def test_a_dose_of_a_course_takes_the_place_of_a_missed_count_when_it_is_given():
    """Not a week later, when no further dose is due any more: days alone make nothing less overdue."""
    missed = ended(colonies=["1", "2"])
    dose = rec("treatment", "2027-04-01", yard="Millpond", colonies=["1"], step="in", agent="oxalic_acid",
               form="vapour", round=2)  # fmt: skip
    for on in ("2027-04-01", "2027-04-08"):
        assert one([*missed, dose], on, "check_after").colonies == ["2"]
    later = due([*missed, dose], "2027-04-09", what="check_after")
    assert [i.colonies for i in later] == [["2"], ["1"]]
    level = wash("2027-02-01", yard="Quarry", colonies=["1"], mites=0, bees=300)
    round_2 = rec("treatment", "2027-04-20", yard="Quarry", colonies=["1"], step="in", agent="oxalic_acid",
                  form="vapour", round=2)  # fmt: skip
    assert one([level], "2027-04-20", "check_due").days_over > 0
    for on in ("2027-04-20", "2027-04-27", "2027-04-28"):
        assert due([level, round_2], on, what="check_due") == []


def test_what_came_out_before_the_least_stay_is_said_to_have_done_less():
    # US state emergency-use notice, October 2012: 42 days
    early = [strips_in("2026-07-10", colonies=["3"]), strips_out("2026-07-20", colonies=["3"])]
    reason = one(early, "2026-08-01", "check_after").because.reason
    assert "in for 10 days at most, and the label's least stay is 42" in reason
    assert "least stay" not in one(ended(colonies=["3"]), "2026-10-12", "check_after").because.reason


@pytest.mark.parametrize("placed", [{"colony_count": 24}, ALL])
def test_hives_that_came_out_apart_from_the_rest_are_counted_apart(placed):
    """24 hives, 10 out: 10 to count, whatever became of the others, and also once the others are out."""
    book = [strips_in("2026-07-01", yard="Millpond", **placed), strips_out("2026-08-20", colony_count=10)]
    roster = parse_roster('[[yard]]\nname = "Millpond"\ncolonies = ["1-24"]', "r")
    assert one(book, "2026-08-30", "check_after", roster).colony_count == 10
    lost = rec("change", "2026-07-15", yard="Millpond", step="died", colony_count=3)
    assert one([*book, lost], "2026-08-30", "check_after", roster).colony_count == 10
    rest = strips_out("2026-08-28", **ALL)
    both = due([*book, lost, rest], "2026-09-08", roster, what="check_after")
    assert [(i.due, i.colony_count) for i in both] == [("2026-08-30", 10), ("2026-09-07", 11)]
    assert due([*book, rest, wash("2026-09-09")], "2026-09-09", roster, what="check_after") == []


def test_what_is_left_of_unnamed_hives_hangs_on_the_removal_and_the_loss():
    lost = rec("change", "2026-07-15", yard="Millpond", step="died", colony_count=3)
    book = [strips_in("2026-07-01", colony_count=24), lost, strips_out("2026-08-20", colony_count=10)]
    item = one(book, "2026-08-27", "take_out")
    assert item.colony_count == 11 and set(item.because.records) == {r.id for r in book}


def test_no_count_after_a_dose_while_the_next_one_may_come():
    """By the outfit's own course of four, or by a label's two sprays; once the next is late, a count is due."""
    own = parse_roster('[[label]]\nagent = "oxalic_acid"\nform = "vapour"\nrepeat_days = [4, 5]\ndoses = 4', "r")
    vapour = rec("treatment", "2026-07-02", yard="Quarry", **ALL, step="in", agent="oxalic_acid", form="vapour")
    assert [i.what for i in due([vapour], "2026-07-06", own)] == ["next_dose"]
    assert one([vapour], "2026-07-06", "check_after").due == "2026-07-12"  # no course
    assert {i.what for i in due([vapour], "2026-07-08", own)} == {"next_dose", "check_after"}
