"""What must hold for any book: order, closing, and the passing of days."""

import datetime

from hypothesis import given, settings
from hypothesis import strategies as st
from made_up import BOOK, CLOSERS, DAY, PLACED, START, reach_of_item
from sched_helpers import ROSTER, rec

from fieldnotes.schedule import due_items


@settings(max_examples=150, deadline=None)
@given(BOOK, DAY, st.randoms(use_true_random=False))
def test_the_order_of_taking_notes_does_not_matter(book, day, random):
    other = list(book)
    random.shuffle(other)
    assert due_items(book, [], ROSTER, day) == due_items(other, [], ROSTER, day)


@settings(max_examples=150, deadline=None)
@given(BOOK, st.integers(0, 200), st.integers(1, 200))
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
@given(PLACED, st.integers(0, 250), st.data())
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


@settings(max_examples=300, deadline=None)
@given(BOOK, st.integers(0, 250), st.data())
def test_whatever_is_closed_nothing_that_was_due_before_it_comes_up(book, wait, data):
    """What work opens is due after it, and what it uncovers was not due before the item that it ended. A promise that
    was due already, by itself or within another item, may join what is opened, and keeps its day; one that is kept by
    it gives an item its own day back."""
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
    without_promise = {(i.what, frozenset(i.because.records) - planned) for i in before}
    for other in due_items([*book, closer], [], ROSTER, day):
        listed = (other.what, other.due) in known or other.due in promised or joined & set(other.because.records)
        listed = listed or (other.what, frozenset(other.because.records)) in without_promise
        assert listed or other.due >= item.due, (item.says, other.says)


@settings(max_examples=150, deadline=None)
@given(BOOK, DAY, st.data())
def test_closing_by_hand_takes_one_item_and_no_other(book, day, data):
    before = due_items(book, [], ROSTER, day)
    if not before:
        return
    item = data.draw(st.sampled_from(before))
    assert due_items(book, [], ROSTER, day, closed={item.id}) == [i for i in before if i.id != item.id]
