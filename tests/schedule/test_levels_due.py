"""`treat` and `check_due`: from the level last found."""

from sched_helpers import ROSTER, due, one, rec, strips_in, strips_out, wash

from fieldnotes.roster import parse_roster

ALL = {"every_colony": True}
EIGHT = [str(n) for n in range(1, 9)]


def counted(on, mites, yard="Quarry"):
    return [wash(on, yard, colonies=[c], mites=m, bees=300) for c, m in zip(EIGHT, mites, strict=False)]


def own(practice):
    return parse_roster('[[yard]]\nname = "Quarry"\ncolonies = ["1-18"]\n[practice]\n' + practice, "r")


def test_a_count_over_the_threshold():
    item = one([wash("2026-08-10", colonies=["12"], mites=15, bees=300)], "2026-08-10", "treat")
    assert (item.due, item.latest, item.section, item.colonies) == ("2026-08-10", "2026-08-17", "today", ["12"])
    assert item.sure and "5.0 mites per 100 bees, between 2.8 and 8.2" in item.because.reason
    assert "2026" in item.because.reason and "label" in item.caution


def test_a_count_that_spans_the_threshold_is_not_sure():
    item = one([wash("2026-08-10", colonies=["12"], mites=8, bees=300)], "2026-08-10", "treat")
    assert not item.sure
    assert due([wash("2026-08-10", colonies=["12"], mites=5, bees=300)], "2026-08-10", what="treat") == []


def test_the_outfits_own_threshold():
    counts = [wash("2026-08-10", "Quarry", colonies=["12"], mites=9, bees=300)]
    assert due(counts, "2026-08-10", own("threshold = 3"), what="treat") == []
    assert due(counts, "2026-08-10", own("threshold = 2.5"), what="treat")


def test_phase_changes_the_threshold():
    def four(on):
        return due([wash(on, colonies=["12"], mites=4, bees=300)], on, what="treat")

    assert four("2026-04-10") and not four("2026-07-10")  # 1 in spring, 2 in summer: 9th edition, table 1


def test_closed_by_a_treatment_placed():
    count = wash("2026-08-10", colonies=["12"], mites=15, bees=300)
    assert due([count, strips_in("2026-08-12", colonies=["12"])], "2026-08-20", what="treat") == []
    assert due([count, strips_in("2026-08-12", **ALL)], "2026-08-20", what="treat") == []
    assert due([count, strips_in("2026-08-10", at="17:00", colonies=["12"])], "2026-08-20", what="treat") == []
    assert one([count, strips_in("2026-08-12", colonies=["13"])], "2026-08-20", "treat").days_over == 3


def test_not_while_a_treatment_is_in_and_not_for_an_old_count():
    records = [strips_in("2026-08-01", colonies=["12"]), wash("2026-08-10", colonies=["12"], mites=15, bees=300)]
    assert due(records, "2026-08-11", what="treat") == []
    records = [
        wash("2026-08-10", colonies=["12"], mites=15, bees=300),
        wash("2026-08-14", colonies=["12"], mites=1, bees=300),
    ]
    assert due(records, "2026-08-20", what="treat") == []


def test_a_sample_of_the_yard_and_a_board():
    item = one([wash("2026-08-10", mites=15, bees=300)], "2026-08-10", "treat")
    assert item.every_colony
    board = wash("2026-08-10", colonies=["12"], method="board", mites=40, board_days=4)
    assert "mites a day" in one([board], "2026-08-10", "treat").because.reason
    board = wash("2026-08-10", colonies=["12"], method="board", mites=32, board_days=4)
    assert due([board], "2026-08-10", what="treat") == []


def test_the_next_count_monthly_at_a_low_level():
    item = one(counted("2026-06-10", [0, 0, 1, 0, 0, 0, 0, 0]), "2026-07-10", "check_due")
    assert (item.due, item.latest, item.colony_count) == ("2026-07-10", "2026-07-17", 8)
    assert "monthly" in item.because.reason and item.yard == "Quarry"


def test_sooner_when_growth_could_cross_the_threshold():
    item = one(counted("2026-06-10", [3, 2, 4, 1, 3, 2, 5, 2]), "2026-07-05", "check_due")
    assert "2026-06-24" <= item.due < "2026-07-10"
    assert "could cross it in" in item.because.reason
    item = one(counted("2026-06-10", [5, 5, 4, 5]), "2026-06-24", "check_due")
    assert item.due == "2026-06-24" and "may be over already" in item.because.reason
    assert "4 colonies were sampled, 4 more" in item.because.reason


def test_colonies_that_stick_out_are_named():
    item = one(counted("2026-06-10", [1, 0, 1, 0, 0, 1, 0, 9]), "2026-06-30", "check_due")
    assert "Sticking out: 8" in item.because.reason


def test_no_growth_without_brood_in_winter():
    item = one(counted("2026-10-20", [0] * 8), "2027-03-02", "check_due")
    assert (item.due, item.section) == ("2027-03-01", "today")
    assert due(counted("2026-10-20", [0] * 8), "2026-12-15", what="check_due") == []


def test_closed_by_a_check():
    records = counted("2026-06-10", [0] * 8)
    assert one(records, "2026-08-01", "check_due").days_over == 15
    assert due([*records, *counted("2026-07-20", [0] * 8)], "2026-08-01", what="check_due") == []


def test_not_said_twice():
    low = counted("2026-06-10", [0] * 8)
    ended = [strips_in("2026-06-12", "Quarry", **ALL), strips_out("2026-07-24", "Quarry", **ALL)]
    assert due([*low, ended[0]], "2026-07-20", what="check_due") == []
    items = due([*low, *ended], "2026-08-04")
    assert [i.what for i in items] == ["check_after"]
    high = counted("2026-07-10", [20] * 8)
    assert "check_due" not in [i.what for i in due(high, "2026-08-20")]
    failed = [
        *counted("2026-06-10", [30] * 8),
        strips_in("2026-06-12", "Quarry", **ALL),
        strips_out("2026-07-24", "Quarry", **ALL),
        *counted("2026-08-04", [25] * 8),
    ]
    assert [i.what for i in due(failed, "2026-08-05")] == ["did_not_work"]


def test_a_yard_with_no_colony_left_is_not_counted():
    gone = rec("change", "2026-06-20", yard="Aunt Wen's", step="died", **ALL)
    records = [wash("2026-06-10", "Aunt Wen's", colonies=["70"], mites=0, bees=300), gone]
    assert due(records, "2026-09-01", ROSTER, what="check_due") == []


def test_where_it_stands_is_said_by_the_interval():
    def said(mites):
        return one([wash("2026-07-10", colonies=["12"], mites=mites, bees=300)], "2026-07-10", "treat")

    assert "treat, or count again now" in said(8).says
    assert "can't tell yet whether that is over the threshold, which is 2" in said(8).because.reason
    assert "again" not in said(15).says and "above the threshold, which is 2" in said(15).because.reason
    low = one(counted("2026-06-10", [0] * 8), "2026-07-10", "check_due").because.reason
    assert "0.0 mites per 100 bees in 8 colonies, between 0.0 and 0.2 all samples as one" in low
    assert "below the threshold" in low
    near = one(counted("2026-06-10", [4, 4, 4, 4, 4, 5, 4, 4]), "2026-06-30", "check_due").because.reason
    assert "near the threshold" in near and "1.3 and 1.5 by how the colonies differ" in near


def test_colonies_over_it_for_certain_and_perhaps_are_two_items_and_the_source_is_said_once():
    found = due(counted("2026-07-10", [8, 20, 30]), "2026-07-10", what="treat")
    assert sorted((i.colonies, "again" in i.says) for i in found) == [(["1"], True), (["2", "3"], False)]
    sure = next(i for i in found if i.colonies == ["2", "3"]).because.reason
    assert "2, 20 mites on 300 bees" in sure and "3, 30 mites on 300 bees" in sure
    assert sure.count("The threshold of 2") == sure.count("Mites in the brood:") == 1
    assert [("The yard:" in i.because.reason) for i in found if "again" in i.says] == [False] and "The yard:" in sure


def test_mites_in_the_brood_where_there_is_brood():
    def said(on, *before):
        return one([*before, wash(on, colonies=["12"], mites=15, bees=300)], on, "treat").because.reason

    # Lee et al. 2010: double the rate on adult bees
    assert "about 10.0 per 100 bees and brood together" in said("2026-07-10")
    assert "and brood together" not in said("2026-12-10")
    brood = rec("inspection", "2026-12-08", yard="Millpond", colonies=["12"], capped_brood=True)
    none = rec("inspection", "2026-07-08", yard="Millpond", colonies=["12"], eggs=False, capped_brood=False)
    assert "and brood together" in said("2026-12-10", brood)
    assert "and brood together" not in said("2026-07-10", none)


def test_mites_in_a_colony_by_the_board():
    # UK scheme: 30 for each mite a day from May to August, 400 from November to February
    summer = wash("2026-08-10", colonies=["12"], method="board", mites=40, board_days=4)
    said = one([summer], "2026-08-10", "treat").because.reason
    assert "about 300 mites in a colony" in said and "Mites in a colony, 30 for each mite a day" in said
    winter = wash("2026-12-10", colonies=["12"], method="board", mites=40, board_days=4)
    assert "about 4000 mites in a colony" in one([winter], "2026-12-10", "treat").because.reason


def test_how_the_yard_stands_beside_what_is_over():
    item = one(counted("2026-07-10", [2, 1, 0, 30]), "2026-07-10", "treat")
    assert item.colonies == ["4"]
    assert "The yard: 2.8 mites per 100 bees in 4 colonies" in item.because.reason
    assert "Sticking out: 4" in item.because.reason and "4 more make the usual plan" in item.because.reason
    alone = one([wash("2026-07-10", "Quarry", colonies=["4"], mites=30, bees=300)], "2026-07-10", "treat")
    assert "The yard" not in alone.because.reason


def test_a_sample_of_no_colony_sticks_out_by_what_it_held():
    boards = [
        rec("mite_check", "2026-04-08", yard="Quarry", method="board", mites=m, board_days=3, at=f"{m}:00")
        for m in (12, 20)
    ]
    boards.append(rec("mite_check", "2026-04-08", yard="Quarry", method="board", mites=66, board_days=3, at="09:00"))
    reason = one(boards, "2026-04-09", "treat").because.reason
    assert "Sticking out: the sample with 66 mites" in reason
    assert all(r.id not in reason for r in boards)


def test_two_colonies_tell_nothing_of_how_colonies_differ():
    counts = [wash("2026-06-01", "Quarry", colonies=[c], mites=m, bees=300) for c, m in (("1", 1), ("2", 3))]
    assert "how the colonies differ" not in one(counts, "2026-06-12", "check_due").because.reason
    counts.append(wash("2026-06-01", "Quarry", colonies=["3"], mites=2, bees=300))
    assert "how the colonies differ" in one(counts, "2026-06-12", "check_due").because.reason


def test_a_yard_that_is_over_for_certain_is_not_said_to_be_so_perhaps():
    counts = [wash("2026-06-01", "Quarry", colonies=[str(c)], mites=20, bees=300) for c in (1, 2, 3)]
    strips = strips_in("2026-06-02", "Quarry", colonies=["1", "2", "3"])
    later = one([*counts, strips], "2026-06-12", "check_due")
    assert "It is over already" in later.because.reason and "may be over" not in later.because.reason


def test_a_count_on_the_day_the_strips_come_out_is_the_level_they_left():
    book = [
        strips_in("2026-08-01", "Quarry", colonies=["3", "4"]),
        strips_out("2026-09-15", "Quarry", colonies=["3", "4"]),
        wash("2026-09-15", "Quarry", colonies=["3"], mites=24, bees=347),
        wash("2026-09-15", "Quarry", colonies=["4"], mites=1, bees=320),
    ]
    assert one(book, "2026-09-16", "treat").colonies == ["3"]
    assert due(book[:1] + book[2:], "2026-09-16", what="treat") == []  # they are still in
    stray = rec("treatment", "2026-09-15", yard="Quarry", colonies=["3"], step="out", form="wafer")
    assert one([*book, stray], "2026-09-16", "treat").colonies == ["3"]  # it came out, whenever it went in
    again = rec("treatment", "2026-09-15", yard="Quarry", colonies=["3"], step="in", agent="thymol", form="gel")
    assert due([*book, again], "2026-09-16", what="treat") == []


def test_what_falls_on_a_board_after_a_treatment_is_what_it_killed():
    acid = {"step": "in", "agent": "oxalic_acid", "form": "dribble"}
    before = wash("2026-12-23", "Quarry", colonies=["7"], method="board", mites=0, board_days=2)
    given = rec("treatment", "2026-12-23", yard="Quarry", colonies=["7"], **acid)
    fallen = wash("2026-12-25", "Quarry", colonies=["7"], method="board", mites=46, board_days=1)
    assert due([before, given, fallen], "2026-12-26", what="treat") == []
    assert one([before, fallen], "2026-12-26", "treat").colonies == ["7"]
    later = wash("2027-01-14", "Quarry", colonies=["7"], method="board", mites=46, board_days=1)
    assert one([before, given, fallen, later], "2027-01-15", "treat").colonies == ["7"]
    # a wash tells of the level at any time, and so does a board under a hive that was not treated
    washed = wash("2026-12-25", "Quarry", colonies=["7"], mites=20, bees=300)
    assert one([before, given, washed], "2026-12-26", "treat").colonies == ["7"]
    beside = wash("2026-12-25", "Quarry", colonies=["8"], method="board", mites=46, board_days=1)
    assert one([before, given, beside], "2026-12-26", "treat").colonies == ["8"]


def test_a_count_missed_in_autumn_stays_missed_and_in_winter_a_board_makes_up_for_it():
    """Weser-Ems breeders' association, varroa monitoring by the year: boards in November and February, for 5 days."""
    missed = one(counted("2026-09-01", [1] * 8), "2026-10-20", "check_due")
    assert missed.section == "overdue" and "board" not in missed.says
    winter = one(counted("2026-09-01", [1] * 8), "2027-01-20", "check_due")
    assert (winter.id, winter.days_over) == (missed.id, missed.days_over + 92)
    assert "count mites on a board, with the hives shut" in winter.says and winter.caution is None
    board = wash("2027-01-25", "Quarry", method="board", mites=2, board_days=5)
    assert due([*counted("2026-09-01", [1] * 8), board], "2027-01-26", what="check_due") == []


def test_of_a_yard_that_is_not_in_the_roster_the_counted_colonies_stand_for_it():
    book = [
        strips_in("2026-05-01", "Mill Lane", colonies=["1", "2", "3"]),
        wash("2026-05-02", "Mill Lane", colonies=["3"], mites=0, bees=300),
    ]
    assert due(book, "2026-06-20", what="check_due") == []
    alone = wash("2026-05-02", "Mill Lane", colonies=["3"], mites=0, bees=300)
    assert one([alone], "2026-06-20", "check_due").yard == "Mill Lane"


def moved(on, colonies, to, **slots):
    return rec("change", on, yard="Millpond", step="moved", colonies=colonies, to_yard=to, **slots)


def test_a_colony_that_moved_takes_what_its_count_asks_for_along():
    counts = [wash("2026-07-01", colonies=[c], mites=25, bees=300) for c in ("4", "5")]
    here = one(counts, "2026-07-02", "treat")
    gone = due([*counts, moved("2026-07-02", ["4"], "Aunt Wen's")], "2026-07-10", what="treat")
    assert sorted((i.yard, tuple(i.colonies), i.due, i.latest, i.days_over) for i in gone) == [
        ("Aunt Wen's", ("4",), "2026-07-01", "2026-07-08", 2),
        ("Millpond", ("5",), "2026-07-01", "2026-07-08", 2),
    ]
    ids = {i.yard: i.id for i in gone}
    assert ids["Millpond"] == here.id != ids["Aunt Wen's"]
    treated = strips_in("2026-07-11", colonies=["5"])
    after = one([*counts, moved("2026-07-02", ["4"], "Aunt Wen's"), treated], "2026-07-12", "treat")
    assert (after.yard, after.id) == ("Aunt Wen's", ids["Aunt Wen's"])


def test_where_a_counted_yard_moves_its_next_count_goes_along():
    counts = [wash("2026-05-05", colonies=[c], mites=1, bees=300) for c in ("4", "5")]
    before = one(counts, "2026-05-25", "check_due")
    there = due([*counts, moved("2026-05-10", ["4", "5"], "Ridge")], "2026-05-25", what="check_due")
    assert [(i.due, i.latest) for i in there if i.yard == "Ridge"] == [(before.due, before.latest)]
    renamed = moved("2026-05-10", ["4", "5"], "Ridge", with_=["44", "45"])
    new = wash("2026-05-20", "Ridge", colonies=["44"], mites=0, bees=300)
    at_ridge = [i for i in due([*counts, renamed, new], "2026-06-20", what="check_due") if i.yard == "Ridge"]
    assert [i.says for i in at_ridge if "last counted 20 May" in i.says]


def test_a_few_that_came_counted_do_not_speak_for_a_yard():
    counts = [wash("2026-05-05", colonies=[c], mites=1, bees=300) for c in ("4", "5")]
    few = due([*counts, moved("2026-05-10", ["4", "5"], "Aunt Wen's")], "2026-06-20", what="check_due")
    assert {i.yard for i in few} == {"Millpond"}


def test_counts_brought_along_do_not_speak_for_a_yard_that_was_counted():
    own = wash("2026-05-01", "Aunt Wen's", colonies=["70"], mites=0, bees=300)
    theirs = wash("2026-05-12", colonies=["4"], mites=0, bees=300)
    alone = [i for i in due([own], "2026-05-20", what="check_due") if i.yard == "Aunt Wen's"]
    both = [
        i
        for i in due([own, theirs, moved("2026-05-13", ["4"], "Aunt Wen's")], "2026-05-20", what="check_due")
        if i.yard == "Aunt Wen's"
    ]
    assert [i.due for i in alone] == [i.due for i in both]


def test_a_count_that_comes_due_in_spring_is_no_count_on_a_board():
    """Told a week ahead, while hives are still shut, it says what is to be done once it is due."""
    item = one(counted("2026-10-20", [1, 0, 0, 0, 0, 0, 0, 0]), "2027-02-25", "check_due")
    assert (item.section, item.due) == ("coming", "2027-03-01") and "board" not in item.says


def test_what_is_said_of_brood_after_a_count_does_not_judge_it():
    # In July over 2, without brood over 1: 5 mites on 300 bees lie between.
    count = wash("2026-07-10", "Quarry", colonies=["12"], mites=5, bees=300)
    broodless = {"yard": "Quarry", "colonies": ["12"], "open_brood": False, "capped_brood": False}

    def treated(*looks):
        return [i.because.reason for i in due([count, *looks], "2026-07-25", what="treat")]

    assert treated() == []
    assert treated(rec("inspection", "2026-07-08", **broodless)) and treated(
        rec("inspection", "2026-07-10", **broodless)
    )
    assert treated(rec("inspection", "2026-07-20", **broodless)) == []
    seen = rec("inspection", "2026-07-20", yard="Quarry", colonies=["12"], eggs=True)
    assert treated(rec("inspection", "2026-07-08", **broodless), seen) == treated(
        rec("inspection", "2026-07-08", **broodless)
    )


def test_neither_missing_eggs_nor_one_hive_without_brood_is_a_yard_without_brood():
    def threshold(*looks):
        return one([*looks, *counted("2026-07-10", [0] * 8)], "2026-08-20", "check_due").because.reason

    def look(on, cid, **found):
        return rec("inspection", on, yard="Quarry", colonies=[cid], **found)

    none = {"open_brood": False, "capped_brood": False}
    assert "threshold of 2" in threshold()
    assert "threshold of 1" in threshold(look("2026-07-08", "9", **none))
    assert "threshold of 2" in threshold(look("2026-07-08", "9", eggs=False, queen="less"))
    assert "threshold of 2" in threshold(look("2026-07-04", "3", eggs=True), look("2026-07-08", "9", **none))
    assert "threshold of 1" in threshold(look("2026-06-30", "3", eggs=True), look("2026-07-08", "9", **none))
