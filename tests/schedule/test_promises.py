"""Promises, escapes, questions, and that nothing is said twice."""

import pytest
from sched_helpers import due, one, rec, strips_in, strips_out, wash

from fieldnotes.records import StoredQuestion
from fieldnotes.roster import parse_roster

ALL = {"every_colony": True}
SUPERS_OFF = {"item": "super", "step": "off"}


def plan(kind, said, **slots):
    return rec(kind, said, state="planned", **slots)


def test_a_promise_with_a_day():
    promise = plan("gear", "2026-09-10", yard="Quarry", on="2026-09-14", **SUPERS_OFF, **ALL)
    item = one([promise], "2026-09-10", "promise")
    assert (item.section, item.due, item.latest, item.every_colony) == ("coming", "2026-09-14", "2026-09-14", True)
    assert "Take the supers off, promised 10 September for 14 September" in item.says.replace("take", "Take")
    assert one([promise], "2026-09-14", "promise").section == "today"
    assert one([promise], "2026-09-16", "promise").days_over == 2


def test_a_promise_over_some_days_and_one_with_none():
    promise = plan("mite_check", "2026-06-29", yard="Quarry", colonies=["13"], on="2026-07-09", on_until="2026-07-13")
    item = one([promise], "2026-07-11", "promise")
    assert (item.due, item.latest) == ("2026-07-09", "2026-07-13")
    bare = plan("feed", "2026-06-29", yard="Quarry", colonies=["13"], feed="fondant")
    assert (one([bare], "2026-06-29", "promise").due, one([bare], "2026-06-29", "promise").latest) == (
        "2026-07-06",
        "2026-07-06",
    )


@pytest.mark.parametrize(
    ("work", "kept"),
    [
        ({"on": "2026-09-12"}, True),
        ({"on": "2026-09-09"}, False),  # before it was said
        ({"step": "on"}, False),
        ({"item": "feeder"}, False),
        ({"yard": "Millpond"}, False),
    ],
)
def test_kept_by_the_same_kind_and_step_there_since(work, kept):
    promise = plan("gear", "2026-09-10", yard="Quarry", on="2026-09-14", **SUPERS_OFF, **ALL)
    done = rec("gear", "2026-09-13", **({"yard": "Quarry", **SUPERS_OFF, **ALL} | work))
    assert (due([promise, done], "2026-09-14", what="promise") == []) is kept


def test_kept_in_part():
    promise = plan("feed", "2026-10-13", yard="Quarry", colonies=["3", "4", "5"], on="2026-10-15", feed="fondant")
    done = rec("feed", "2026-10-15", yard="Quarry", colonies=["4"], feed="fondant")
    assert one([promise, done], "2026-10-16", "promise").colonies == ["3", "5"]
    syrup = rec("feed", "2026-10-15", yard="Quarry", colonies=["3", "4", "5"], feed="syrup")
    assert one([promise, syrup], "2026-10-16", "promise").colonies == ["3", "4", "5"]


def test_the_check_of_the_same_note_does_not_keep_the_recheck():
    records = [
        wash("2026-06-29", colonies=["12"], note="n", mites=9, bees=300),
        plan("mite_check", "2026-06-29", yard="Millpond", colonies=["12"], note="n", on="2026-07-13"),
    ]
    assert one(records, "2026-07-13", "promise").colonies == ["12"]
    assert due([*records, wash("2026-07-13", colonies=["12"])], "2026-07-14", what="promise") == []


def test_a_later_plan_takes_the_place_of_an_earlier_one():
    first = plan("gear", "2026-09-10", yard="Quarry", on="2026-09-14", **SUPERS_OFF, **ALL)
    second = plan("gear", "2026-09-15", yard="Quarry", on="2026-09-18", **SUPERS_OFF, **ALL)
    assert one([first, second], "2026-09-20", "promise").due == "2026-09-18"
    rounds = [
        plan("treatment", "2026-11-05", yard="Quarry", on=f"2026-11-{d}", step="in", agent="oxalic_acid",
             form="vapour", round=n, **ALL)
        for n, d in ((2, 12), (3, 19))
    ]  # fmt: skip
    assert len(due(rounds, "2026-11-18", what="promise")) == 2


def test_a_promise_with_no_colony_is_kept_by_any_there():
    promise = plan("inspection", "2026-04-04", yard="Quarry", on="2026-04-17", by_="Ines")
    item = one([promise], "2026-04-17", "promise")
    assert item.colonies == [] and not item.every_colony and "(Ines)" in item.says
    look = rec("inspection", "2026-04-17", yard="Quarry", colonies=["3"], eggs=True)
    assert due([promise, look], "2026-04-18", what="promise") == []


def test_a_todo_is_closed_by_hand_only():
    todo = rec("todo", "2026-02-24", text="bring the ladder", state="planned", on="2026-02-28", yard="Quarry")
    item = one([todo], "2026-03-05", "promise")
    assert item.days_over == 5 and "bring the ladder" in item.says.lower()


def test_conditional_plans_are_no_promise():
    record = rec("treatment", "2026-09-10", state="conditional", yard="Quarry", step="in", agent="formic_acid", **ALL)
    assert due([record], "2026-10-20") == []


def test_colonies_gone_or_moved():
    promise = plan("feed", "2026-10-13", yard="Aunt Wen's", colonies=["78", "79"], on="2026-10-15", feed="fondant")
    gone = rec("change", "2026-10-14", yard="Aunt Wen's", colonies=["78"], step="died")
    moved = rec("change", "2026-10-14", yard="Aunt Wen's", colonies=["79"], step="moved", to_yard="Quarry")
    item = one([promise, gone, moved], "2026-10-16", "promise")
    assert (item.yard, item.colonies) == ("Quarry", ["79"])


# nothing twice


def test_a_promise_to_do_what_is_due_anyway_joins_it():
    placed = strips_in("2026-08-21", "Aunt Wen's", **ALL)
    promise = plan("treatment", "2026-08-21", yard="Aunt Wen's", on="2026-10-09", step="out", agent="amitraz",
                   form="strip", **ALL)  # fmt: skip
    items = due([placed, promise], "2026-10-05")
    assert [i.what for i in items] == ["take_out"]
    assert promise.id in items[0].because.records and "9 October" in items[0].because.reason
    assert items[0].id == one([placed], "2026-10-05", "take_out").id
    assert (items[0].due, items[0].latest) == ("2026-10-02", "2026-10-09")


def test_a_promised_day_sooner_than_the_last_one_is_the_one_to_keep():
    placed = strips_in("2026-08-21", "Aunt Wen's", **ALL)
    promise = plan("treatment", "2026-09-30", yard="Aunt Wen's", on="2026-10-05", step="out", form="strip", **ALL)
    before, late = one([placed, promise], "2026-10-03", "take_out"), one([placed, promise], "2026-10-08", "take_out")
    assert (before.section, late.section, late.days_over) == ("today", "overdue", 3)
    assert before.id == late.id
    assert late.says.endswith("in since 21 August, promised for 5 October.")
    assert "the longest stay is until 16 October" in late.because.reason
    assert late.says.count("5 October") == 1


def test_a_promise_too_early_says_so_and_is_not_pressed():
    placed = strips_in("2026-08-21", "Aunt Wen's", **ALL)
    promise = plan("treatment", "2026-08-21", yard="Aunt Wen's", on="2026-09-07", step="out", form="strip", **ALL)
    item = one([placed, promise], "2026-09-10", "take_out")
    assert (item.section, item.latest) == ("today", "2026-10-16")
    assert "before the least stay is up: 2 October is the first day" in item.because.reason


def test_a_promise_for_an_earlier_day_brings_the_item_up():
    placed = strips_in("2026-08-21", "Aunt Wen's", **ALL)
    promise = plan("treatment", "2026-08-21", yard="Aunt Wen's", on="2026-09-20", step="out", form="strip", **ALL)
    items = due([placed, promise], "2026-09-20")
    assert [(i.what, i.section, i.due, i.latest) for i in items] == [("take_out", "today", "2026-09-20", "2026-10-16")]


def test_a_promise_past_the_longest_stay_says_so():
    placed = strips_in("2026-08-21", "Aunt Wen's", **ALL)
    promise = plan("treatment", "2026-08-21", yard="Aunt Wen's", on="2026-10-30", step="out", form="strip", **ALL)
    item = one([placed, promise], "2026-10-05", "take_out")
    assert item.latest == "2026-10-16" and "past the longest stay" in item.because.reason


def test_a_promise_for_some_of_the_colonies():
    placed = strips_in("2026-08-21", "Aunt Wen's", **ALL)
    promise = plan("treatment", "2026-10-03", yard="Aunt Wen's", colonies=["70", "71"], on="2026-10-06", step="out",
                   form="strip")  # fmt: skip
    items = due([placed, promise], "2026-10-05")
    assert [(i.what, i.latest) for i in items] == [("take_out", "2026-10-06"), ("take_out", "2026-10-16")]
    assert items[0].colonies == ["70", "71"] and items[1].colonies == [str(n) for n in range(72, 80)]
    assert items[0].id != items[1].id


def test_a_promised_recheck_joins_the_check_after():
    records = [strips_in("2026-08-14", colonies=["3", "4"]), strips_out("2026-10-01", colonies=["3", "4"])]
    records.append(plan("mite_check", "2026-10-01", yard="Millpond", on="2026-10-13"))
    assert [i.what for i in due(records, "2026-10-12")] == ["check_after"]


def test_a_promise_of_something_else_stays():
    placed = strips_in("2026-08-21", "Aunt Wen's", **ALL)
    promise = plan("treatment", "2026-10-03", yard="Aunt Wen's", on="2026-10-06", step="in", agent="formic_acid",
                   form="pad", **ALL)  # fmt: skip
    assert sorted(i.what for i in due([placed, promise], "2026-10-05")) == ["promise", "take_out"]


# escapes


def test_escapes_want_the_supers_off():
    on = rec("gear", "2026-07-28", yard="Quarry", item="escape", step="on", **ALL)
    item = one([on], "2026-07-29", "supers_off")
    assert (item.due, item.latest, item.section) == ("2026-07-29", "2026-07-31", "today")
    assert "heavy" in item.caution
    assert one([on], "2026-08-02", "supers_off").days_over == 2
    for closing in ("escape", "super"):
        off = rec("gear", "2026-07-30", yard="Quarry", item=closing, step="off", **ALL)
        assert due([on, off], "2026-08-02", what="supers_off") == []
    some = rec("gear", "2026-07-30", yard="Quarry", item="super", step="off", colonies=["1", "2"])
    assert len(one([on, some], "2026-08-02", "supers_off").colonies) == 16


def test_honey_of_hives_not_named_is_out_of_those_whose_supers_came_off():
    on = rec("gear", "2026-07-07", yard="Quarry", item="escape", step="on", colonies=["1", "2", "3", "4"])
    some = rec("gear", "2026-07-09", yard="Quarry", item="super", step="off", colonies=["1", "2"])
    honey = rec("harvest", "2026-07-10", yard="Quarry", amount=80, unit="lb")
    assert one([on, some, honey], "2026-07-11", "supers_off").colonies == ["3", "4"]
    assert due([on, honey], "2026-07-11", what="supers_off") == []
    named = rec("harvest", "2026-07-10", yard="Quarry", amount=80, unit="lb", colonies=["3", "4"])
    assert due([on, some, named], "2026-07-11", what="supers_off") == []


def test_escapes_by_the_outfits_own_days_and_with_a_promise():
    own = parse_roster("[practice]\nescape_days = [2, 5]", "r")
    on = rec("gear", "2026-07-28", yard="Quarry", item="escape", step="on", **ALL)
    assert (one([on], "2026-07-30", "supers_off", own).due, one([on], "2026-07-30", "supers_off", own).latest) == (
        "2026-07-30",
        "2026-08-02",
    )
    promise = plan("gear", "2026-07-28", yard="Quarry", on="2026-07-30", **SUPERS_OFF, **ALL)
    assert [i.what for i in due([on, promise], "2026-07-30")] == ["supers_off"]


# questions


def test_an_open_question_is_to_settle():
    record = strips_in("2026-08-14", colonies=["12"])
    question = StoredQuestion(
        id="q1", note_id="n", said="2026-08-14", record_id=record.id, ask="What are shinies?", choices=["a", "b"]
    )
    item = next(i for i in due([record], "2026-09-14", questions=[question]) if i.what == "answer")
    assert item.section == "settle" and item.days_over == 0
    assert (item.yard, item.colonies) == ("Millpond", ["12"])
    assert "What are shinies? (a / b)" in item.says
    assert due([record], "2026-08-13", questions=[question]) == []


def test_a_promise_to_take_strips_out_of_the_yard_means_the_hives_that_have_them():
    book = [
        strips_in("2026-07-29", colonies=["1", "2", "3"]),
        rec("treatment", "2026-08-20", yard="Millpond", every_colony=True, step="out", form="strip", state="planned",
            on="2026-09-10"),
    ]  # fmt: skip
    assert [(i.what, i.colonies) for i in due(book, "2026-09-08")] == [("take_out", ["1", "2", "3"])]
    named = rec("treatment", "2026-08-20", yard="Millpond", colonies=["3", "4"], step="out", form="strip",
                state="planned", on="2026-09-10")  # fmt: skip
    assert [(i.what, i.colonies) for i in due([book[0], named], "2026-09-08", what="promise")] == [("promise", ["4"])]


def test_a_promise_to_take_supers_off_does_not_join_honey_that_was_taken():
    every = {"yard": "Millpond", "every_colony": True}
    book = [
        rec("gear", "2026-06-01", item="super", step="on", **every),
        strips_in("2026-07-29", every_colony=True),
        rec("gear", "2026-07-25", item="super", step="off", state="planned", on="2026-08-01", **every),
        rec("harvest", "2026-08-01", amount=30, unit="lb", **every),
    ]
    found = due(book, "2026-08-02", what="supers_clash")
    promised = {"honey was taken" in i.says.lower(): "Promised" in i.because.reason for i in found}
    assert promised == {True: False, False: True}
