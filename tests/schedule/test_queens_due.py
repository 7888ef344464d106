"""`queen_look`, `call_inspector`, and the round of the year."""

import pytest
from sched_helpers import due, one, rec

from fieldnotes.roster import parse_roster
from fieldnotes.trade.queens import longest_in_bank, looks_after


def queen(on, step, **slots):
    return rec("queen_work", on, yard="Millpond", step=step, **({"colonies": ["N1"]} | slots))


def look(on, **slots):
    return rec("inspection", on, yard="Millpond", **({"colonies": ["N1"]} | slots))


# event, look, least, longest, source
CALENDAR = [
    # Cushman's timetable; a US young-farmer guide: cells ripe, to mating nucs on day 10; emerge day 11 to 12
    ("grafted", "move the cells", 10, 10),
    # the same: cells out on day 10, queens out about day 12
    ("cells_placed", "out of her cell", 2, 5),
    # a calendar of 2011: queens out 27 June + 7, flights from 5 days after, eggs from 12 days after; a UK blog of 2023:
    # 6 days to mature and 4 of flights, so 10 after emergence, a look in 2 weeks. Cells go out 2 days before emergence
    ("cells_placed", "mating flights", 7, 12),
    ("cells_placed", "look for eggs", 14, 16),
    ("introduced", "released", 3, 5),  # common practice
    ("introduced", "look for eggs", 7, 14),  # common practice
    ("requeened", "look for eggs", 7, 14),  # common practice
    # a bee supplier: lays within about 10 days of emergence; the UK blog of 2023: 12 as a rule, look in 2 weeks
    ("virgin", "look for eggs", 10, 14),
    ("queenless", "give eggs or a queen", 0, 7),  # common practice
    ("banked", "look into the queen bank", 7, 7),  # common practice
]


@pytest.mark.parametrize(("event", "words", "least", "longest"), CALENDAR)
def test_the_calendar(event, words, least, longest):
    found = [lk for lk in looks_after(event) if words in lk.look]
    assert [(lk.least.days, lk.longest.days) for lk in found] == [(least, longest)]
    assert found[0].cite


def test_the_whole_calendar_is_checked_above():
    for event in {e for e, *_ in CALENDAR}:
        assert len(looks_after(event)) == sum(e == event for e, *_ in CALENDAR)
    assert longest_in_bank().days == 21  # a US queen breeder, 2018: up to about 3 weeks


def test_a_graft_wants_its_cells_moved():
    graft = queen("2026-05-05", "grafted", count=45)
    item = one([graft], "2026-05-14", "queen_look")
    assert (item.due, item.section) == ("2026-05-15", "coming")
    placed = queen("2026-05-15", "cells_placed", colonies=["N2", "N3"])
    assert [i.colonies for i in due([graft, placed], "2026-05-17", what="queen_look")] == [["N2", "N3"]]
    early = queen("2026-05-07", "cells_placed", colonies=["N2"])
    assert any("move the cells" in i.says.lower() for i in due([graft, early], "2026-05-15", what="queen_look"))


def test_cells_run_through_their_looks():
    placed = queen("2026-05-15", "cells_placed")
    item = one([placed], "2026-05-17", "queen_look")
    assert (item.due, item.latest) == ("2026-05-17", "2026-05-20") and "29 May" in item.because.reason
    out = look("2026-05-18", queen="virgin")
    found = due([placed, out], "2026-05-29", what="queen_look")
    assert [(i.due, i.latest) for i in found] == [("2026-05-28", "2026-06-01")]
    laying = look("2026-05-30", eggs=True)
    assert due([placed, out, laying], "2026-06-10", what="queen_look") == []


def test_emergence_mating_and_laying_one_after_the_other():
    placed = queen("2026-05-15", "cells_placed")
    empty = look("2026-05-18", queen="not_seen")
    assert "mating flights" in one([placed, empty], "2026-05-22", "queen_look").says
    there = look("2026-05-26", queen="not_seen")
    item = one([placed, empty, there], "2026-05-29", "queen_look")
    assert "look for eggs" in item.says and (item.due, item.latest) == ("2026-05-29", "2026-05-31")
    assert due([placed, empty, there, look("2026-05-30", eggs=True)], "2026-06-10", what="queen_look") == []


def test_an_introduced_queen_is_looked_for_until_she_lays():
    put_in = queen("2026-07-03", "introduced")
    assert one([put_in], "2026-07-06", "queen_look").latest == "2026-07-08"
    item = one([put_in, queen("2026-07-07", "released")], "2026-07-10", "queen_look")
    assert (item.due, item.latest) == ("2026-07-10", "2026-07-17")
    assert due([put_in, look("2026-07-11", queen="seen")], "2026-07-30", what="queen_look") == []
    assert due([put_in, queen("2026-07-05", "removed")], "2026-07-30", what="queen_look") == []


def test_no_queen_found():
    less = look("2026-06-01", queen="less")
    item = one([less], "2026-06-03", "queen_look")
    assert (item.due, item.latest, item.colonies) == ("2026-06-01", "2026-06-08", ["N1"])
    assert due([less, look("2026-06-05", queen="right")], "2026-06-20", what="queen_look") == []
    cells = [less, queen("2026-06-05", "cells_placed")]
    assert [i.due for i in due(cells, "2026-06-06", what="queen_look")] == ["2026-06-07"]
    again = one([less, look("2026-06-06", queen="less")], "2026-06-07", "queen_look")
    assert again.due == "2026-06-06"
    gone = rec("change", "2026-06-05", yard="Millpond", colonies=["N1"], step="combined", with_=["4"])
    assert due([less, gone], "2026-06-20", what="queen_look") == []


def test_a_bank_is_looked_into_every_week():
    banked = queen("2026-06-13", "banked", colonies=["24"], count=3)
    item = one([banked], "2026-06-20", "queen_look")
    assert item.due == item.latest == "2026-06-20" and "3 weeks" not in item.says and "21 days" in item.because.reason
    seen = look("2026-06-19", colonies=["24"], temper="calm")
    assert one([banked, seen], "2026-06-26", "queen_look").due == "2026-06-26"
    more = queen("2026-06-18", "banked", colonies=["24"], count=4)
    assert "7 queens" in one([banked, more], "2026-06-25", "queen_look").because.reason
    own = parse_roster("[practice]\nbank_days = 3", "r")
    assert one([banked], "2026-06-16", "queen_look", own).due == "2026-06-16"


def test_an_empty_bank_is_left_alone():
    banked = queen("2026-06-13", "banked", colonies=["24"], count=2)
    given = queen("2026-06-15", "introduced", colonies=["3", "4"])
    assert [i.colonies for i in due([banked, given], "2026-06-20", what="queen_look")] == [["3", "4"]]
    emptied = queen("2026-06-15", "removed", colonies=["24"])
    assert due([banked, emptied], "2026-06-30", what="queen_look") == []


def test_one_queen_each_empties_a_bank_by_as_many_as_there_are_hives():
    banked = queen("2026-06-13", "banked", colonies=["24"], count=12)
    hives = [str(n) for n in range(1, 13)]
    for reach in ({"colonies": hives, "count": 1}, {"colonies": hives, "count": 12}, {"colony_count": 12, "count": 1},
                  {"colonies": hives}):  # fmt: skip
        given = queen("2026-06-17", "introduced", **reach)
        assert not [i for i in due([banked, given], "2026-06-20", what="queen_look") if i.colonies == ["24"]]
    some = queen("2026-06-17", "introduced", colonies=hives[:5], count=1)
    (bank,) = [i for i in due([banked, some], "2026-06-20", what="queen_look") if i.colonies == ["24"]]
    assert "7 queens" in bank.because.reason


def test_suspected_foulbrood_calls_the_inspector_and_never_a_treatment():
    sick = look("2026-06-01", colonies=["7"], signs=["afb", "spotty_brood"])
    item = one([sick], "2026-06-01", "call_inspector")
    assert item.section == "today" and item.colonies == ["7"] and "American foulbrood" in item.says
    assert "no medicine" in item.caution
    assert one([sick], "2026-06-04", "call_inspector").days_over == 3
    assert {i.what for i in due([sick], "2026-06-04")} == {"call_inspector"}
    well = look("2026-06-01", colonies=["7"], signs=["chalkbrood"])
    assert due([well], "2026-06-04", what="call_inspector") == []


def test_foulbrood_of_which_nobody_said_which_may_be_either():
    sick = rec("inspection", "2026-06-01", yard="Quarry", colonies=["3"], signs=["afb", "efb"])
    says = one([sick], "2026-06-01", "call_inspector").says
    assert "American or European foulbrood suspected" in says


GUARDS = parse_roster(
    """
[[yard]]
name = "Millpond"
colonies = ["1-3"]
[[practice.season]]
item = "mouse_guard"
step = "on"
first = "10-01"
last = "10-31"
""",
    "r",
)


def test_guards_by_season_only_if_the_roster_asks():
    assert due([], "2026-10-05") == []
    item = one([], "2026-10-05", "promise", GUARDS)
    assert (item.due, item.latest, item.every_colony) == ("2026-10-01", "2026-10-31", True)
    assert "mouse guards" in item.says
    assert one([], "2026-11-03", "promise", GUARDS).days_over == 3
    some = rec("gear", "2026-10-02", yard="Millpond", colonies=["1", "2"], item="mouse_guard", step="on")
    assert one([some], "2026-10-05", "promise", GUARDS).colonies == ["3"]
    every = rec("gear", "2026-10-02", yard="Millpond", every_colony=True, item="mouse_guard", step="on")
    assert due([every], "2026-11-05", GUARDS, what="promise") == []


def test_a_season_over_new_year():
    wraps = GUARDS.model_copy(
        update={
            "practice": GUARDS.practice.model_copy(
                update={
                    "season": [
                        GUARDS.practice.season[0].model_copy(update={"item": "wrap", "first": "11-15", "last": "01-10"})
                    ]
                }
            )
        }
    )
    item = one([], "2027-01-05", "promise", wraps)
    assert (item.due, item.latest, item.section) == ("2026-11-15", "2027-01-10", "today")


def test_a_season_that_is_over_is_asked_for_no_more():
    roster = parse_roster(
        '[[yard]]\nname = "Quarry"\ncolonies = ["1-3"]\n[[practice.season]]\nitem = "mouse_guard"\nstep = "on"\n'
        'first = "10-01"\nlast = "10-31"\n',
        "r",
    )
    assert due([], "2026-12-01", roster)[0].days_over == 31
    assert due([], "2026-07-12", roster) == []
    assert due([], "2026-09-28", roster)[0].section == "coming"


def test_the_calendar_promises_nothing_twice():
    plan = rec(
        "gear", "2026-10-02", yard="Quarry", every_colony=True, item="mouse_guard", step="on", state="planned",
        on="2026-10-09",
    )  # fmt: skip
    roster = parse_roster(
        '[[yard]]\nname = "Quarry"\ncolonies = ["1-3"]\n[[practice.season]]\nitem = "mouse_guard"\nstep = "on"\n'
        'first = "10-01"\nlast = "10-31"\n',
        "r",
    )
    item = one([plan], "2026-10-05", "promise", roster)
    assert "promised 2 October for 9 October" in item.says
    assert one([plan], "2026-10-12", "promise", roster).days_over == 3


def test_a_season_of_last_year_is_not_asked_for_in_spring():
    assert due([], "2026-11-20", GUARDS)[0].days_over == 20
    assert due([], "2027-01-15", GUARDS) == []


def test_the_look_that_is_meant_by_now_is_the_one_asked_for():
    cells = rec("queen_work", "2026-04-24", yard="Quarry", colonies=["1"], step="cells_placed")
    first = one([cells], "2026-04-27", "queen_look")
    assert "out of her cell" in first.says
    later = one([cells], "2026-05-09", "queen_look")
    assert (later.id, later.latest, later.days_over) == (first.id, first.latest, 10)
    assert "look for eggs" in later.says and "out of her cell" in later.because.reason


def test_no_eggs_yet_is_no_answer_to_the_look_for_eggs():
    cells = rec("queen_work", "2026-04-24", yard="Quarry", colonies=["1"], step="cells_placed")
    none = rec("inspection", "2026-05-08", yard="Quarry", colonies=["1"], eggs=False)
    item = one([cells, none], "2026-05-13", "queen_look")
    assert (item.latest, item.days_over) == ("2026-05-10", 3)
    assert "No eggs yet on 8 May" in item.because.reason
    eggs = rec("inspection", "2026-05-13", yard="Quarry", colonies=["1"], eggs=True)
    assert due([cells, none, eggs], "2026-05-13", what="queen_look") == []
    late = rec("inspection", "2026-05-08", yard="Quarry", colonies=["1"], queen="not_seen")
    assert due([cells, late], "2026-05-13", what="queen_look") == []  # they did not say that there were none


def test_brood_given_to_a_bank_is_the_look_and_a_long_bank_is_told():
    bank = rec("queen_work", "2026-05-05", yard="Quarry", colonies=["1"], step="banked", count=12)
    brood = rec("gear", "2026-05-12", yard="Quarry", colonies=["1"], item="brood_frame", step="on", count=1)
    assert one([bank], "2026-05-12", "queen_look").section == "today"
    item = one([bank, brood], "2026-05-13", "queen_look")
    assert item.due == "2026-05-19" and "long" not in item.says
    assert "queens are in since 5 May, which is long" in one([bank, brood], "2026-05-27", "queen_look").says


def test_brood_given_to_a_queenless_colony_is_told_and_it_still_wants_a_look():
    found = rec("inspection", "2026-06-01", yard="Quarry", colonies=["7"], queen="less")
    brood = rec("gear", "2026-06-04", yard="Quarry", colonies=["7"], item="brood_frame", step="on", count=1)
    item = one([found, brood], "2026-06-05", "queen_look")
    assert "7: brood was given 4 June" in item.because.reason
    assert item.id == one([found], "2026-06-05", "queen_look").id
    assert "brood was given" not in one([found], "2026-06-05", "queen_look").because.reason
    looked = rec("inspection", "2026-06-10", yard="Quarry", colonies=["7"], queen="right")
    assert due([found, brood, looked], "2026-06-12", what="queen_look") == []


def test_a_graft_of_no_named_colony_is_not_one_of_every_colony():
    graft = rec("queen_work", "2026-06-10", step="grafted", count=20)
    item = one([graft], "2026-06-20", "queen_look")
    assert not item.every_colony and item.says == "Move the cells to where they will emerge, grafted 10 June."
    queen = rec("queen_work", "2026-06-10", yard="Quarry", step="introduced", count=1)
    some = one([queen], "2026-06-13", "queen_look")
    assert not some.sure and "does not say which colonies" in some.because.reason
    all_of_them = rec("queen_work", "2026-06-10", yard="Quarry", every_colony=True, step="cells_placed")
    every = one([all_of_them], "2026-06-12", "queen_look")
    assert every.every_colony and every.sure and "does not say" not in every.because.reason


def test_the_inspector_is_called_to_where_a_sick_colony_stands():
    sick = look("2026-06-01", colonies=["7"], signs=["afb"])
    moved = rec("change", "2026-06-02", yard="Millpond", step="moved", colonies=["7"], to_yard="Quarry", with_=["77"])
    before, item = one([sick], "2026-06-01", "call_inspector"), one([sick, moved], "2026-06-03", "call_inspector")
    assert (item.yard, item.colonies, item.id) == ("Quarry", ["77"], before.id)
