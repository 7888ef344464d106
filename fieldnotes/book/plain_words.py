"""A record as one short line in plain words: "12, 14, 15 at Quarry: alcohol wash, 3 mites"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from functools import lru_cache
from typing import Any

from fieldnotes.roster import colony_key

_METHOD = {
    "alcohol_wash": "alcohol wash", "soap_wash": "soap wash", "wash": "wash", "sugar_roll": "sugar roll",
    "roll": "roll", "co2": "CO2 test", "board": "board", "drone_brood": "drone brood opened",
}  # fmt: skip
_TREATMENT_STEP = {"in": "in", "out": "out"}
_CHANGE = {
    "split": "split", "nuc_made": "nuc made", "combined": "combined", "moved": "moved", "died": "dead",
    "swarmed": "swarmed", "swarm_caught": "swarm caught", "sold": "sold", "bought": "bought",
}  # fmt: skip
_QUEEN = {
    "seen": "queen seen", "not_seen": "queen not seen", "right": "queen right", "less": "no queen",
    "virgin": "virgin queen", "drone_layer": "drone layer", "laying_workers": "laying workers",
}  # fmt: skip


def describe(kind: str, slots: Mapping[str, Any], day: str = "", sender: str | None = None) -> str:
    """The whole line: where, what, when, by whom and whether it was done.

    Things done on `day` (ISO) or by `sender`, the note's own, are said without naming these.
    """
    what = say_what(kind, slots)
    where = say_where(slots)
    aside = say_aside(slots, day, sender)
    return (f"{where}: " if where else "") + what + (f" ({aside})" if aside else "")


def say_where(slots: Mapping[str, Any]) -> str:
    """Which colonies, at which yard: "3-9 at Quarry", "all but 4 at Larkfield", "24 hives at Quarry"."""
    yard = slots.get("yard")
    if slots.get("except_colonies"):
        who = f"all but {list_ids(slots['except_colonies'])}"
    elif slots.get("every_colony"):
        who = "all"
    elif slots.get("colonies"):
        who = list_ids(slots["colonies"])
    elif "colony_count" in slots:
        who = _count(slots["colony_count"], "hive")
    else:
        return yard or ""
    return f"{who} at {yard}" if yard else who


def list_ids(ids: Sequence[str]) -> str:
    """Colony ids as a person lists them, three or more in a row as a range: "3-9, 12, N1"."""
    runs: list[list[str]] = []
    for cid in sorted(set(ids), key=colony_key):
        letters, number, rest = colony_key(cid)
        if runs and not rest and colony_key(runs[-1][-1]) == (letters, number - 1, ""):
            runs[-1].append(cid)
        else:
            runs.append([cid])
    return ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)


def say_aside(slots: Mapping[str, Any], day: str = "", sender: str | None = None) -> str:
    """State, day and doer: "planned, Mon 8 Jun 2026", "not done"; a `day` and `sender` that go without saying aside."""
    state = {"planned": "planned", "not_done": "not done", "conditional": "only if"}.get(slots.get("state", "done"))
    days = ""
    if "on" in slots and (state or "on_until" in slots or slots["on"] != day[:10]):
        days = say_day(slots["on"])
        if slots.get("on_until", slots["on"]) != slots["on"]:
            days += f" to {say_day(slots['on_until'])}"
    doer = f"by {slots['by']}" if slots.get("by") and slots["by"] != sender else ""
    return ", ".join(part for part in (state, days, doer) if part)


@lru_cache(maxsize=4096)
def say_day(iso: str) -> str:
    """ "2026-06-08" as "Mon 8 Jun 2026"."""
    day = date.fromisoformat(iso[:10])
    weekday = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")[day.weekday()]
    months = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    return f"{weekday} {day.day} {months[day.month - 1]} {day.year}"


def say_what(kind: str, slots: Mapping[str, Any]) -> str:
    """The fact itself, without where and when."""
    parts = {
        "mite_check": _mite_check, "treatment": _treatment, "inspection": _inspection, "gear": _gear, "feed": _feed,
        "harvest": _harvest, "queen_work": _queen_work, "change": _change, "conditions": _conditions, "todo": _todo,
    }[kind](slots)  # fmt: skip
    about = "about " if slots.get("approx") else ""
    return about + ", ".join(part for part in parts if part)


def _mite_check(slots: Mapping[str, Any]) -> list[str]:
    parts = [_METHOD.get(slots.get("method", ""), "mite check")]
    if "mites" in slots:
        high = slots.get("mites_high")
        count = f"{_number(slots['mites'])} or {_number(high)} mites" if high else _count(slots["mites"], "mite")
        parts.append(count if slots["mites"] or high else "no mites")
    if "per_100" in slots:
        parts.append(f"{_number(slots['per_100'])} per 100 bees")
    if "bees" in slots:
        parts.append(f"in {_number(slots['bees'])} bees")
    if "board_days" in slots:
        parts.append(f"over {_count(slots['board_days'], 'day')}")
    return parts


def _treatment(slots: Mapping[str, Any]) -> list[str]:
    stuff = " ".join(_words(slots[name]) for name in ("agent", "form") if name in slots)
    product = slots.get("product")
    name = f"{product} ({stuff})" if product and stuff else product or stuff or "treatment"
    parts = [f"{name} {_TREATMENT_STEP.get(slots.get('step', ''), '')}".strip()]
    if "amount" in slots:
        parts.append(_amount(slots))
    if "round" in slots:
        parts.append(f"round {_number(slots['round'])}")
    if "days" in slots:
        parts.append(f"for {_count(slots['days'], 'day')}")
    return parts


def _inspection(slots: Mapping[str, Any]) -> list[str]:
    parts = [_QUEEN.get(slots.get("queen", ""), "")]
    if "mark" in slots:
        parts.append(f"{slots['mark']} mark")
    for name in ("eggs", "open_brood", "capped_brood"):
        if name in slots:
            parts.append(_words(name) if slots[name] else f"no {_words(name)}")
    for name, words in (("brood_frames", "brood"), ("bee_frames", "bees"), ("food_frames", "food")):
        if name in slots:
            parts.append(f"{_count(slots[name], 'frame')} of {words}")
    cells = f"{slots['cell_type']} cell" if "cell_type" in slots else "queen cell"
    if "queen_cells" in slots:
        parts.append(_count(slots["queen_cells"], cells) if slots["queen_cells"] else f"no {cells}s")
    elif slots.get("cells_seen") or "cell_type" in slots:
        parts.append(f"{cells}s")
    parts.append(slots.get("temper", ""))
    parts.append(slots.get("strength", ""))
    if "stores" in slots:
        parts.append(f"{slots['stores']} stores")
    parts.extend(_words(sign) for sign in slots.get("signs", []))
    return [part for part in parts if part] or ["looked at"]


def _gear(slots: Mapping[str, Any]) -> list[str]:
    item = _words(slots.get("item", "gear"))
    return [f"{_count(slots['count'], item) if 'count' in slots else item} {slots.get('step', '')}".strip()]


def _feed(slots: Mapping[str, Any]) -> list[str]:
    ratio = f" {slots['ratio']}" if "ratio" in slots else ""
    return [f"{_words(slots.get('feed', 'feed'))}{ratio}", _amount(slots) if "amount" in slots else ""]


def _harvest(slots: Mapping[str, Any]) -> list[str]:
    moisture = f"{_number(slots['moisture'])} % water" if "moisture" in slots else ""
    return ["honey taken", _amount(slots) if "amount" in slots else "", moisture]


def _queen_work(slots: Mapping[str, Any]) -> list[str]:
    step = slots.get("step", "")
    thing = "cell" if step in ("grafted", "cells_placed") else "queen"
    words = {"cells_placed": "placed", "requeened": "new queen given"}.get(step, step)
    name = _count(slots["count"], thing) if "count" in slots else f"{thing}s" if thing == "cell" else thing
    if step == "requeened":
        return [words, f"{slots['mark']} mark" if "mark" in slots else ""]
    return [f"{name} {words}".strip(), f"{slots['mark']} mark" if "mark" in slots else ""]


def _change(slots: Mapping[str, Any]) -> list[str]:
    parts = [_CHANGE.get(slots.get("step", ""), "change")]
    if "count" in slots:
        parts.append(_number(slots["count"]))
    if slots.get("with"):
        parts.append(f"with {list_ids(slots['with'])}")
    if "to_yard" in slots:
        parts.append(f"to {slots['to_yard']}")
    return [" ".join(parts)]


def _conditions(slots: Mapping[str, Any]) -> list[str]:
    degrees = f" {slots['unit']}" if "unit" in slots else ""
    parts = [f"{_number(slots['temp'])}{degrees}"] if "temp" in slots else []
    parts += [f"{name} {_number(slots[name])}{degrees}" for name in ("high", "low") if name in slots]
    if "flow" in slots:
        parts.append(f"flow {slots['flow']}")
    parts.append(slots.get("sky", ""))
    return parts


def _todo(slots: Mapping[str, Any]) -> list[str]:
    return [f"to do: {slots.get('text', '')}"]


def _amount(slots: Mapping[str, Any]) -> str:
    unit = _words(slots.get("unit", ""))
    if unit in ("lb", "kg", "ml", "oz", ""):
        return f"{_number(slots['amount'])} {unit}".strip()
    return _count(slots["amount"], unit)


def _count(number: float, thing: str) -> str:
    plural = thing if number == 1 else {"patty": "patties", "box": "boxes"}.get(thing, f"{thing}s")
    if number != 1 and thing.endswith("box"):
        plural = f"{thing}es"
    return f"{_number(number)} {plural}"


def _number(value: float) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _words(name: str) -> str:
    return str(name).replace("_", " ")
