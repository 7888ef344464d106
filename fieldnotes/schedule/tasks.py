"""A record said as work: "take the amitraz strips out", "put a super on", or, when done, "amitraz strips came out"."""

from __future__ import annotations

from typing import Any

from fieldnotes.records import StoredRecord
from fieldnotes.trade.words import is_many, treatment_name

_GEAR = {
    "super": "super",
    "escape": "escape",
    "excluder": "excluder",
    "feeder": "feeder",
    "brood_box": "brood box",
    "brood_frame": "brood frame",
    "comb_frame": "drawn frame",
    "entrance_reducer": "entrance reducer",
    "mouse_guard": "mouse guard",
    "wrap": "wrap",
    "trap": "trap",
}
_FEED = {
    "syrup": "syrup",
    "fondant": "fondant",
    "dry_sugar": "dry sugar",
    "candy_board": "a candy board",
    "pollen_patty": "pollen patties",
    "pollen_sub": "pollen substitute",
}
_QUEEN = {
    "grafted": "graft",
    "cells_placed": "place queen cells",
    "caught": "catch the queen",
    "banked": "bank queens",
    "introduced": "introduce a queen",
    "released": "release the queen",
    "marked": "mark the queen",
    "clipped": "clip the queen",
    "removed": "take the queen out",
    "requeened": "requeen",
}
_CHANGE = {
    "split": "split",
    "nuc_made": "make nucs",
    "combined": "combine",
    "moved": "move",
    "died": "clear the dead hive",
    "swarmed": "see to the swarm",
    "swarm_caught": "hive the swarm",
    "sold": "hand over the sale",
    "bought": "fetch what was bought",
}


def task_words(record: StoredRecord, done: bool = False) -> str:
    """What is to be done, in the words of an instruction; with `done`, what a removal did."""
    slots = record.slots
    if record.kind == "treatment":
        return _treatment(slots, done)
    if record.kind == "mite_check":
        return "count mites"
    if record.kind == "inspection":
        return "look in"
    if record.kind == "gear":
        return _gear(slots)
    if record.kind == "feed":
        ratio = f" {slots['ratio']}" if slots.get("ratio") else ""
        return f"feed {_FEED.get(slots.get('feed', ''), 'them')}{ratio}"
    if record.kind == "harvest":
        return "harvest"
    if record.kind == "queen_work":
        return _QUEEN.get(slots.get("step", ""), "queen work")
    if record.kind == "change":
        return _change(slots, done)
    return str(slots.get("text") or "note the weather").strip().rstrip(".")


def _treatment(slots: dict[str, Any], done: bool) -> str:
    name = treatment_name(slots.get("agent"), slots.get("form"), slots.get("product"))
    out = slots.get("step") == "out"
    if done:
        return f"{name} came out" if out else f"{name} went in"
    if out:
        return f"take the {name} out"
    verb = "put" if is_many(slots.get("form")) else "give"
    again = f" (round {slots['round']})" if slots.get("round") else ""
    return f"{verb} {name} in{again}" if verb == "put" else f"{verb} {name}{again}"


def _gear(slots: dict[str, Any]) -> str:
    item, count, on = slots.get("item", ""), slots.get("count"), slots.get("step") != "off"
    name = _GEAR.get(item, "gear")
    many = name if name.endswith("s") else f"{name}es" if name.endswith("x") else f"{name}s"
    if count == 1:
        what = f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
    elif count:
        what = f"{count:g} {many}"
    else:
        what = many if on else f"the {many}"
    return f"put {what} on" if on else f"take {what} off"


def _change(slots: dict[str, Any], done: bool) -> str:
    step = slots.get("step", "")
    if done:
        return {"moved": "hives moved", "died": "hives died", "sold": "hives were sold"}.get(step, "hives changed")
    words = _CHANGE.get(step, "see to it")
    if slots.get("with"):
        words += f" with {', '.join(slots['with'])}" if step == "combined" else f" to {', '.join(slots['with'])}"
    if slots.get("to_yard"):
        words += f" to {slots['to_yard']}"
    return words
