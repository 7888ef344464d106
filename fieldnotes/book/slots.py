"""Slots as a person types them: "colonies=12,14", "mites=4", "on=2026-06-08"."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from fieldnotes.errors import FieldnotesError
from fieldnotes.records import COMMON_SLOTS, SLOTS
from fieldnotes.roster import colony_key, expand

_IDS = ("colonies", "except_colonies", "with")
_DAYS = ("on", "on_until")
_YES_NO = ("every_colony", "approx", "eggs", "open_brood", "capped_brood", "cells_seen")
_NUMBERS = (
    "colony_count", "mites", "mites_high", "bees", "per_100", "board_days", "amount", "round", "days", "brood_frames",
    "bee_frames", "food_frames", "queen_cells", "count", "moisture", "high", "low", "temp",
)  # fmt: skip
_CHOICES: dict[str, tuple[str, ...]] = {
    "state": ("done", "planned", "not_done", "conditional"),
    "method": ("alcohol_wash", "soap_wash", "wash", "sugar_roll", "roll", "co2", "board", "drone_brood"),
    "agent": (
        "amitraz", "tau_fluvalinate", "flumethrin", "coumaphos", "formic_acid", "oxalic_acid", "thymol", "hop_acids",
        "lactic_acid", "vadescana",
    ),
    "form": ("strip", "pad", "gel", "wafer", "vapour", "dribble", "spray", "sponge"),
    "queen": ("seen", "not_seen", "right", "less", "virgin", "drone_layer", "laying_workers"),
    "cell_type": ("swarm", "supersedure", "emergency"),
    "temper": ("calm", "jumpy", "hot"),
    "strength": ("strong", "fair", "weak"),
    "stores": ("heavy", "fair", "light", "empty"),
    "signs": (
        "chalkbrood", "sacbrood", "efb", "afb", "spotty_brood", "deformed_wings", "parasitic_mite_syndrome",
        "mites_seen", "hive_beetle", "wax_moth", "dysentery", "robbing", "ants", "mice", "wasps", "starving",
    ),
    "item": (
        "super", "escape", "excluder", "feeder", "brood_box", "brood_frame", "comb_frame", "entrance_reducer",
        "mouse_guard", "wrap", "trap",
    ),
    "feed": ("syrup", "fondant", "dry_sugar", "candy_board", "pollen_patty", "pollen_sub"),
    "ratio": ("1:1", "2:1"),
    "flow": ("on", "light", "off"),
    "sky": ("rain", "wind", "clear", "snow", "frost"),
}  # fmt: skip
_STEPS: dict[str, tuple[str, ...]] = {
    "treatment": ("in", "out"),
    "gear": ("on", "off"),
    "queen_work": (
        "grafted", "cells_placed", "caught", "banked", "introduced", "released", "marked", "clipped", "removed",
        "requeened",
    ),
    "change": (
        "split", "nuc_made", "combined", "moved", "died", "swarmed", "swarm_caught", "sold", "bought",
    ),
}  # fmt: skip


def slots_of(kind: str) -> tuple[str, ...]:
    """The slots a kind may have.

    Raises:
        FieldnotesError: no such kind.
    """
    if kind not in SLOTS:
        raise FieldnotesError(f'"{kind}" is not a kind of record: it is one of {", ".join(SLOTS)}.')
    return (*COMMON_SLOTS, *SLOTS[kind])


def slot_value(kind: str, slot: str, words: str) -> Any:
    """The value that `words` stand for in this slot.

    Raises:
        FieldnotesError: the kind has no such slot, or the words are no value of it.
    """
    if slot not in slots_of(kind):
        raise FieldnotesError(f"A {kind} record has no slot {slot}: it has {', '.join(slots_of(kind))}.")
    words = words.strip()
    if slot in _PARSERS:
        parse, wanted = _PARSERS[slot]
        try:
            return parse(words)
        except (ValueError, KeyError):
            raise FieldnotesError(f'"{words}" is not {wanted}, as {slot} wants.') from None
    choices = _STEPS.get(kind, ()) if slot == "step" else _CHOICES.get(slot, ())
    parts = [part.strip() for part in words.split(",")] if slot == "signs" else [words]
    for part in parts:
        if not part or (choices and part not in choices):
            one_of = f": it is one of {', '.join(choices)}" if choices else ""
            raise FieldnotesError(f'"{part}" is not a {slot}{one_of}.')
    return parts if slot == "signs" else words


def _ids(words: str) -> list[str]:
    ids = {cid for part in words.split(",") if part.strip() for cid in expand(part)}
    if not ids:
        raise ValueError(words)
    return sorted(ids, key=colony_key)


def _number(words: str) -> int | float:
    value = float(words)
    if not 0 <= value < 1e9:
        raise ValueError(words)
    return int(value) if value.is_integer() else value


def _day(words: str) -> str:
    return date.fromisoformat(words).isoformat()


def _yes_no(words: str) -> bool:
    return {"yes": True, "true": True, "no": False, "false": False}[words.lower()]


_PARSERS: dict[str, tuple[Callable[[str], Any], str]] = {
    **dict.fromkeys(_IDS, (_ids, "a list of colonies")),
    **dict.fromkeys(_DAYS, (_day, "a day like 2026-05-31")),
    **dict.fromkeys(_YES_NO, (_yes_no, "yes or no")),
    **dict.fromkeys(_NUMBERS, (_number, "a number")),
}
