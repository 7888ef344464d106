"""What must hold for any book: order, closing, and the passing of days."""

import datetime

from hypothesis import given, settings
from hypothesis import strategies as st
from sched_helpers import ROSTER, rec

from fieldnotes.schedule import due_items

START = datetime.date(2026, 4, 1)
YARDS = st.sampled_from(["Millpond", "Quarry", "Gravel Pit"])
WHERE = st.one_of(*[YARDS.map(lambda yard: {"yard": yard})] * 4, st.just({}))
"""Now and then no yard is said, though a number stands in two."""
SOME_IDS = st.sets(st.sampled_from("12345678"), min_size=1)
AMOUNT = st.sampled_from(
    [{}, {"amount": 1, "unit": "strip"}, {"amount": 2, "unit": "strip"}, {"amount": 20}, {"days": 30}]
)
SEEN = st.sampled_from([{"queen": "less"}, {"queen": "virgin"}, {"eggs": True}, {"eggs": False}, {"signs": ["afb"]}])
REACH = st.one_of(
    st.just({"every_colony": True}),
    st.builds(
        lambda ids: {"every_colony": True, "except_colonies": sorted(ids)},
        st.sets(st.sampled_from("12345"), min_size=1),
    ),
    st.builds(lambda ids: {"colonies": sorted(ids)}, SOME_IDS),
    st.builds(lambda n: {"colony_count": n}, st.integers(1, 18)),
)
WORK = st.one_of(
    st.builds(
        lambda step, what, more: ("treatment", {"step": step} | what | more),
        st.sampled_from(["in", "out"]),
        st.sampled_from(
            [
                {"agent": "amitraz", "form": "strip"},
                {"agent": "formic_acid", "form": "pad"},
                {"agent": "thymol", "form": "gel"},
                {"agent": "oxalic_acid", "form": "vapour", "round": 1},
                {"agent": "oxalic_acid", "form": "dribble"},
                {"form": "strip"},
                {"form": "pad"},
                {"form": "vapour"},
                {"form": "vapour", "round": 2},
                {"unit": "tray", "amount": 1},
                {"round": 2},
                {"product": "shinies"},
            ]
        ),
        st.sampled_from(
            [{}, {"amount": 1, "unit": "strip"}, {"amount": 2, "unit": "strip"}, {"amount": 20}, {"days": 30}]
        ),
    ),
    st.builds(
        lambda m, how: ("mite_check", {"mites": m, "bees": 300} | how),
        st.integers(0, 40),
        st.sampled_from([{}, {"method": "board", "board_days": 3}]),
    ),
    st.builds(
        lambda item, step: ("gear", {"item": item, "step": step}),
        st.sampled_from(["escape", "super", "brood_frame"]),
        st.sampled_from(["on", "off"]),
    ),
    st.just(("harvest", {"amount": 40, "unit": "lb"})),
    st.builds(
        lambda step, to: ("change", {"step": step} | to),
        st.sampled_from(["died", "sold", "moved", "nuc_made", "combined"]),
        st.sampled_from([{}, {"to_yard": "Quarry"}, {"to_yard": "Gravel Pit"}, {"with": ["5", "6"]}]),
    ),
    st.just(("todo", {"text": "bring the ladder"})),
    st.builds(lambda q: ("inspection", q), SEEN),
    st.builds(
        lambda step: ("queen_work", {"step": step, "count": 2}),
        st.sampled_from(["grafted", "cells_placed", "introduced", "released", "banked", "removed"]),
    ),
    st.just(("harvest", {"amount": 40, "unit": "lb"})),
    st.builds(
        lambda high, flow: ("conditions", {"high": high, "unit": "F", "flow": flow}),
        st.sampled_from([40, 97]),
        st.sampled_from(["on", "off"]),
    ),
)


@st.composite
def a_record(draw, where=WHERE):
    kind, slots = draw(WORK)
    said = START + datetime.timedelta(days=draw(st.integers(0, 150)))
    state = draw(st.sampled_from(["done", "done", "done", "planned", "not_done", "conditional"]))
    more = {} if state == "done" else {"state": state}
    if state == "planned" and draw(st.booleans()):
        more["on"] = (said + datetime.timedelta(days=draw(st.integers(0, 20)))).isoformat()
    if state == "done" and draw(st.integers(0, 6)) == 0:
        more["on"] = (said - datetime.timedelta(days=draw(st.integers(1, 12)))).isoformat()
    at = f"{draw(st.integers(6, 20)):02d}:00"
    return rec(kind, said.isoformat(), at=at, **draw(where), **draw(REACH), **slots, **more)


BOOK = st.lists(a_record(), max_size=14, unique_by=lambda r: r.id)
PLACED = st.lists(a_record(YARDS.map(lambda yard: {"yard": yard})), max_size=14, unique_by=lambda r: r.id)
DAY = st.integers(0, 260).map(lambda n: START + datetime.timedelta(days=n))


@settings(max_examples=150, deadline=None)
@given(BOOK, DAY, st.randoms(use_true_random=False))
def test_the_order_of_taking_notes_does_not_matter(book, day, random):
    other = list(book)
    random.shuffle(other)
    assert due_items(book, [], ROSTER, day) == due_items(other, [], ROSTER, day)


@settings(max_examples=150, deadline=None)
@given(BOOK, st.integers(0, 40), st.integers(1, 60))
def test_a_day_later_nothing_is_less_overdue(book, wait, more):
    last = START + datetime.timedelta(days=151 + wait)
    earlier = {i.id: i for i in due_items(book, [], ROSTER, last)}
    later = {i.id: i for i in due_items(book, [], ROSTER, last + datetime.timedelta(days=more))}
    for item in earlier.values():
        if item.section == "overdue" and item.what not in ("supers_clash", "heat_clash"):  # these end with time
            assert later[item.id].days_over == item.days_over + more
            assert later[item.id].colonies == item.colonies


@settings(max_examples=150, deadline=None)
@given(BOOK, DAY)
def test_ids_are_one_an_item_and_every_item_is_whole(book, day):
    items = due_items(book, [], ROSTER, day)
    assert len({i.id for i in items}) == len(items)
    known = {r.id for r in book}
    for item in items:
        assert item.due <= item.latest and item.says.endswith((".", "?", "!"))
        assert item.because.records and set(item.because.records) <= known
        assert (item.days_over > 0) == (item.section == "overdue")
        assert not (item.every_colony and item.colonies)


@settings(max_examples=150, deadline=None)
@given(PLACED, st.integers(0, 40), st.data())
def test_closing_an_item_never_opens_an_earlier_one(book, wait, data):
    """After a full removal (or supers off) in a yard, nothing is due out there, and no `take_out` appears anywhere
    that was not there before."""
    day = START + datetime.timedelta(days=155 + wait)
    before = due_items(book, [], ROSTER, day)
    open_ = [i for i in before if i.what in ("take_out", "supers_off")]
    if not open_:
        return
    item = data.draw(st.sampled_from(open_))
    said = (START + datetime.timedelta(days=152)).isoformat()
    work = {"step": "out"} if item.what == "take_out" else {"item": "super", "step": "off"}
    kind = "treatment" if item.what == "take_out" else "gear"
    closer = rec(kind, said, yard=item.yard, every_colony=True, **work)
    after = due_items([*book, closer], [], ROSTER, day)
    key = {(i.what, i.due, i.yard) for i in before}
    assert not [i for i in after if i.what == item.what and i.yard == item.yard]
    for other in after:
        if other.what in ("take_out", "supers_off", "next_dose"):
            assert (other.what, other.due, other.yard) in key


CLOSERS = {
    "take_out": ("treatment", {"step": "out"}),
    "next_dose": ("treatment", {"step": "out"}),
    "supers_off": ("gear", {"item": "super", "step": "off"}),
    "supers_clash": ("gear", {"item": "super", "step": "off"}),
    "check_after": ("mite_check", {"mites": 0, "bees": 300}),
    "check_before": ("mite_check", {"mites": 0, "bees": 300}),
    "check_due": ("mite_check", {"mites": 0, "bees": 300}),
    "did_not_work": ("mite_check", {"mites": 0, "bees": 300}),
    "treat": ("treatment", {"step": "in", "agent": "hop_acids", "form": "strip"}),
    "queen_look": ("inspection", {"queen": "right", "eggs": True}),
}
"""What ends an item of each sort, but for promises, which their own work ends, and what only a hand can close."""


def reach_of_item(item):
    if item.every_colony:
        return {"every_colony": True} | ({"except_colonies": item.except_colonies} if item.except_colonies else {})
    if item.what == "check_due":
        return {}
    return {"colonies": item.colonies} if item.colonies else {"colony_count": item.colony_count}


@settings(max_examples=300, deadline=None)
@given(BOOK, st.integers(0, 60), st.data())
def test_whatever_is_closed_nothing_that_was_due_before_it_comes_up(book, wait, data):
    """What work opens is due after it, and what it uncovers was not due before the item that it ended. A promise that
    was due already, by itself or within another item, may join what is opened, and keeps its day."""
    day = START + datetime.timedelta(days=151 + wait)
    before = due_items(book, [], ROSTER, day)
    some = [i for i in before if i.what in CLOSERS]
    if not some:
        return
    item = data.draw(st.sampled_from(some))
    kind, slots = CLOSERS[item.what]
    closer = rec(kind, day.isoformat(), at="21:00", yard=item.yard, **reach_of_item(item), **slots)
    known = {(i.what, i.due) for i in before}
    promised = {i.due for i in before if i.what == "promise"}
    planned = {r.id for r in book if r.slots.get("state") == "planned"}
    joined = {record for i in before for record in i.because.records} & planned
    for other in due_items([*book, closer], [], ROSTER, day):
        listed = (other.what, other.due) in known or other.due in promised or joined & set(other.because.records)
        assert listed or other.due >= item.due, (item.says, other.says)


@settings(max_examples=150, deadline=None)
@given(BOOK, DAY, st.data())
def test_closing_by_hand_takes_one_item_and_no_other(book, day, data):
    before = due_items(book, [], ROSTER, day)
    if not before:
        return
    item = data.draw(st.sampled_from(before))
    assert due_items(book, [], ROSTER, day, closed={item.id}) == [i for i in before if i.id != item.id]
