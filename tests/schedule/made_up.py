"""Books as Hypothesis makes them up: records of every kind in a few yards, in any order, over a season."""

import datetime

from hypothesis import strategies as st
from sched_helpers import rec

START = datetime.date(2026, 4, 1)
YARDS = st.sampled_from(["Millpond", "Quarry", "Gravel Pit"])
WHERE = st.one_of(*[YARDS.map(lambda yard: {"yard": yard})] * 4, st.just({}))
"""Now and then no yard is said, though a number stands in two."""
SOME_IDS = st.sets(st.sampled_from("12345678"), min_size=1)
AMOUNT = st.sampled_from(
    [{}, {"amount": 1, "unit": "strip"}, {"amount": 2, "unit": "strip"}, {"amount": 20}, {"days": 30}]
)
SEEN = st.sampled_from(
    [
        {"queen": "less"},
        {"queen": "virgin"},
        {"eggs": True},
        {"open_brood": False, "capped_brood": False},
        {"signs": ["afb"]},
    ]
)
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
        # 3 to 6 mites are over the threshold or under it, as there is brood or none.
        st.one_of(st.integers(3, 6), st.integers(0, 40)),
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
DAY = st.integers(0, 420).map(lambda n: START + datetime.timedelta(days=n))


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
    if item.colonies:
        return {"colonies": item.colonies}
    return {"colony_count": item.colony_count} if item.colony_count else {}
