"""Letting go of what no digest needs changes no digest."""

import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_up import BOOK, SEEN, START, WHERE, a_record
from sched_helpers import ROSTER, day, rec, strips_in, strips_out, wash

from fieldnotes.schedule import due_items, needed, needed_of_run, reaches_back, settled
from fieldnotes.schedule.quiet import sift

ALL = {"every_colony": True}


def digest(records, on):
    return due_items(records, [], ROSTER, on)


@settings(max_examples=150, deadline=None)
@given(BOOK, st.integers(0, 400), st.integers(0, 200))
def test_the_digest_of_that_day_and_of_later_days_is_the_same(book, wait, more):
    kept_on = START + datetime.timedelta(days=100 + wait)
    told = [r for r in book if r.said <= kept_on.isoformat()]
    kept = needed(told, ROSTER, kept_on)
    some = [r for r in told if r.id in kept]
    for on in (kept_on, kept_on + datetime.timedelta(days=more)):
        assert digest(some, on) == digest(told, on)


@settings(max_examples=150, deadline=None)
@given(BOOK, st.lists(a_record(), max_size=5, unique_by=lambda r: r.id), st.integers(0, 150), st.integers(0, 60))
def test_new_records_meet_what_they_would_have_met(book, later, on, more):
    kept_on = START + datetime.timedelta(days=on)
    told = [r for r in book if r.said <= kept_on.isoformat()]
    new = [r for r in later if r.said > kept_on.isoformat() and r.slots.get("on", r.said) > kept_on.isoformat()]
    kept = needed(told, ROSTER, kept_on)
    some = [r for r in told if r.id in kept]
    day_after = kept_on + datetime.timedelta(days=more)
    assert digest([*some, *new], day_after) == digest([*told, *new], day_after)


@st.composite
def told_late(draw):
    """A record that may tell of a day long past."""
    record = draw(a_record())
    long_ago = draw(st.sampled_from([0, 0, 0, 20, 60, 120]))
    if not long_ago or record.slots.get("state", "done") == "planned":
        return record
    on = (day(record.said) - datetime.timedelta(days=long_ago)).isoformat()
    return record.model_copy(update={"slots": record.slots | {"on": on}})


def assert_pieces_tell_the_same(book, size, on, few):
    """A book read in pieces of `size` records parts into held and over with none lost, the held telling all it told."""
    on = START + datetime.timedelta(days=on)
    said = sorted(book, key=lambda r: (r.received, r.id))
    late = [r for r in said if reaches_back(r, day(r.said))]
    pieces = [said[n : n + size] for n in range(0, len(said), size)]
    held, over = needed_of_run(pieces, late, ROSTER, on, few=few)
    assert {r.id for r in held} | set(over) == {r.id for r in said if r.said <= on.isoformat()}
    assert not {r.id for r in held} & set(over)
    assert digest(held, on) == digest(said, on)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(told_late(), max_size=30, unique_by=lambda r: r.id),
    st.integers(1, 9),
    st.integers(20, 400),
    st.sampled_from([1, 10_000]),
)
def test_a_book_read_piece_by_piece(book, size, on, few):
    assert_pieces_tell_the_same(book, size, on, few)


LOOKS = st.one_of(
    st.builds(lambda seen: ("inspection", seen), st.sampled_from([{}, {"temper": "calm"}, {"queen": "seen"}])),
    st.builds(lambda seen: ("inspection", seen), SEEN),
    st.builds(lambda what: ("feed", {"feed": what}), st.sampled_from(["syrup", "fondant"])),
)
ELSE = st.one_of(
    st.builds(
        lambda step: ("queen_work", {"step": step}),
        st.sampled_from(["cells_placed", "introduced", "banked", "removed"]),
    ),
    st.builds(
        lambda step, to: ("change", {"step": step} | to),
        st.sampled_from(["died", "moved", "moved", "bought"]),
        st.sampled_from([{"to_yard": "Quarry"}, {"to_yard": "Gravel Pit"}, {"with": ["5"]}]),
    ),
    st.builds(lambda m: ("mite_check", {"mites": m, "bees": 300}), st.integers(0, 40)),
    st.builds(lambda step: ("treatment", {"step": step, "agent": "amitraz", "form": "strip"}), st.just("in")),
)


@st.composite
def a_look(draw):
    """A record of a book of many seasons: mostly looks into hives and feeds, told at once or late."""
    usual = draw(st.integers(0, 3)) > 0
    kind, slots = draw(LOOKS if usual else ELSE)
    said = START + datetime.timedelta(days=draw(st.integers(0, 300)))
    reach = draw(st.sampled_from([{"colonies": ["1"]}, {"colonies": ["1", "2"]}, {"colonies": ["5"]}, ALL, {}]))
    more = draw(WHERE) | reach
    state = draw(st.sampled_from(["done"] * 6 + ["planned", "not_done"]))
    if state != "done":
        more["state"] = state
    if state == "done" and draw(st.integers(0, 4)) == 0:
        more["on"] = (said - datetime.timedelta(days=draw(st.sampled_from([1, 10, 20, 90])))).isoformat()
    return rec(kind, said.isoformat(), at=f"{draw(st.integers(6, 20)):02d}:00", **slots, **more)


@pytest.mark.parametrize("few", [1, 10_000])
@settings(max_examples=150, deadline=None)
@given(st.lists(a_look(), min_size=5, max_size=50, unique_by=lambda r: r.id), st.integers(1, 20), st.integers(60, 400))
def test_looks_that_answer_nothing_are_let_go_unseen(few, book, size, on):
    assert_pieces_tell_the_same(book, size, on, few)


def test_of_many_looks_only_those_that_matter_are_replayed():
    looks = [
        rec("inspection", f"2026-05-{n + 1:02d}", yard="Quarry", colonies=["5"], temper="calm", eggs=True)
        for n in range(9)
    ]
    fed = rec("feed", "2026-05-02", yard="Quarry", every_colony=True, feed="syrup")
    plan = rec("feed", "2026-05-01", yard="Quarry", every_colony=True, feed="syrup", state="planned")
    lost = rec("inspection", "2026-05-03", yard="Quarry", colonies=["6"], queen="less")
    assert sift([*looks, fed], [], (), ["Quarry"]).loud == [looks[-1]]
    assert fed in sift([*looks, fed], [plan], (), ["Quarry"]).loud
    assert set(map(id, looks)) <= set(map(id, sift([*looks, lost], [], (), ["Quarry"]).loud))
    assert fed in sift([*looks, fed], [], {"Quarry"}, ["Quarry"]).loud


@settings(max_examples=80, deadline=None)
@given(BOOK, st.integers(60, 200), st.integers(60, 200))
def test_settling_again_looks_only_at_what_is_left(book, first, second):
    one, two = (START + datetime.timedelta(days=d) for d in sorted((first, first + second)))
    let_go = settled([r for r in book if r.said <= one.isoformat()], ROSTER, one)
    left = [r for r in book if r.id not in let_go and r.said <= two.isoformat()]
    left = [r for r in left if r.id not in settled(left, ROSTER, two)]
    assert digest(left, two) == digest([r for r in book if r.said <= two.isoformat()], two)


def test_a_later_word_on_brood_is_kept_with_an_older_one():
    book = [
        rec("inspection", "2026-05-06", yard="Gravel Pit", colonies=["6"], capped_brood=False),
        wash("2026-05-27", "Gravel Pit", **ALL, mites=2, bees=300),
        rec("inspection", "2026-08-15", yard="Gravel Pit", **ALL, eggs=True),
    ]
    today = day("2026-09-15")
    left = [r for r in book if r.id not in settled(book, ROSTER, today)]
    assert digest(left, today) == digest(book, today)


def test_a_closed_season_is_let_go():
    book = []
    for year in range(2015, 2026):
        book += [
            wash(f"{year}-08-10", "Quarry", colonies=["1"], mites=20, bees=300),
            strips_in(f"{year}-08-14", "Quarry", **ALL),
            strips_out(f"{year}-10-01", "Quarry", **ALL),
            wash(f"{year}-10-12", "Quarry", colonies=["1"], mites=0, bees=300),
        ]
    kept = needed(book, ROSTER, day("2026-06-01"))
    assert len(kept) <= 1 + 1
    assert {r.said for r in book if r.id in kept} <= {"2025-10-12"}


def test_what_is_open_stays_however_old():
    strips = strips_in("2016-08-14", "Quarry", colonies=["3"])
    todo = rec("todo", "2016-08-14", text="mend the gate", state="planned")
    dead = rec("change", "2016-08-14", yard="Quarry", colonies=["4"], step="died")
    old_look = rec("inspection", "2016-08-14", yard="Quarry", colonies=["5"], temper="calm")
    book = [strips, todo, dead, old_look]
    assert needed(book, ROSTER, day("2026-06-01")) == {strips.id, todo.id, dead.id}
    assert needed(book, ROSTER, day("2026-06-01"), closed={todo.id}) == {strips.id, dead.id}


def test_what_reaches_back():
    assert not reaches_back(wash("2026-06-01"), day("2026-06-10"))
    assert reaches_back(wash("2026-06-10", on="2026-05-01"), day("2026-06-10"))


def test_a_number_said_without_a_yard_means_what_it_meant():
    """Two yards have a number 1. Which one a note without a yard meant hangs on what was open and known then."""
    cells = {"step": "cells_placed", "colonies": ["1"]}
    two = [
        rec("queen_work", "2026-04-01", yard="Millpond", **cells),
        rec("inspection", "2026-04-01", yard="Quarry", colonies=["1"], queen="less", at="11:00"),
        rec("queen_work", "2026-04-01", at="13:00", **cells),
        rec("inspection", "2026-04-03", yard="Quarry", colonies=["1"], eggs=True),
        rec("inspection", "2026-04-04", yard="Millpond", colonies=["1"], temper="calm"),
        rec("queen_work", "2026-05-10", yard="Millpond", step="cells_placed", every_colony=True),
    ]
    died = {"yard": "Millpond", "every_colony": True, "step": "died"}
    known = [
        rec("change", "2026-04-01", **died),
        rec("harvest", "2026-04-01", yard="Gravel Pit", colonies=["1"], amount=40, unit="lb"),
        rec("harvest", "2026-04-01", colonies=["1"], state="planned"),
    ]
    for book in (two, known):
        for on in (day("2026-06-20"), day("2026-08-20")):
            kept = needed(book, ROSTER, on)
            assert digest([r for r in book if r.id in kept], on) == digest(book, on)


def test_the_last_word_on_brood_is_kept_with_one_that_is_kept_for_something_else():
    """The look of 1 April is kept with the cells it was for; the eggs of 23 April say what was last seen."""
    reach = {"yard": "Millpond", "colonies": ["1"]}
    book = [
        rec("queen_work", "2026-04-01", step="cells_placed", **reach),
        wash("2026-04-01", **reach, mites=0, bees=300),
        rec("inspection", "2026-04-02", on="2026-04-01", capped_brood=False, **reach),
        rec("inspection", "2026-04-15", **reach),
        rec("inspection", "2026-04-23", eggs=True, **reach),
        rec("queen_work", "2026-05-16", step="cells_placed", **reach),
    ]
    assert_pieces_tell_the_same(book, 1, 60, 1)


def test_who_is_known_of_no_yard_matters_to_what_befell_all_of_them():
    """With 6 known, three hives moved and got two new numbers, which names none of them; without it, 4 would be 5."""
    book = [
        rec("treatment", "2026-04-01", colonies=["1", "2", "3", "4", "5"], step="in", agent="amitraz", state="planned"),
        rec("harvest", "2026-04-01", colonies=["1", "2", "6"], amount=40, unit="lb"),
        rec("change", "2026-07-02", every_colony=True, except_colonies=["1", "2", "3"], step="moved", with_=["5", "6"]),
    ]
    assert_pieces_tell_the_same(book, 1, 92, 1)
