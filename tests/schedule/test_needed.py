"""Letting go of what no digest needs changes no digest."""

import datetime

from hypothesis import given, settings
from hypothesis import strategies as st
from sched_helpers import ROSTER, day, rec, strips_in, strips_out, wash
from test_properties import BOOK, START, a_record

from fieldnotes.schedule import due_items, needed, needed_of_run, reaches_back, settled

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


@settings(max_examples=200, deadline=None)
@given(st.lists(told_late(), max_size=30, unique_by=lambda r: r.id), st.integers(1, 9), st.integers(20, 400))
def test_a_book_read_piece_by_piece(book, size, on):
    on = START + datetime.timedelta(days=on)
    said = sorted(book, key=lambda r: (r.received, r.id))
    late = [r for r in said if reaches_back(r, day(r.said))]
    pieces = [said[n : n + size] for n in range(0, len(said), size)]
    held, over = needed_of_run(pieces, late, ROSTER, on)
    assert {r.id for r in held} | set(over) == {r.id for r in said if r.said <= on.isoformat()}
    assert not {r.id for r in held} & set(over)
    assert digest(held, on) == digest(said, on)


@settings(max_examples=80, deadline=None)
@given(BOOK, st.integers(60, 200), st.integers(60, 200))
def test_settling_again_looks_only_at_what_is_left(book, first, second):
    one, two = (START + datetime.timedelta(days=d) for d in sorted((first, first + second)))
    let_go = settled([r for r in book if r.said <= one.isoformat()], ROSTER, one)
    left = [r for r in book if r.id not in let_go and r.said <= two.isoformat()]
    left = [r for r in left if r.id not in settled(left, ROSTER, two)]
    assert digest(left, two) == digest([r for r in book if r.said <= two.isoformat()], two)


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
