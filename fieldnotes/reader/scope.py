"""Which yard, colonies and day hold? What one statement leaves for the next, and how it is looked up."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from fieldnotes.reader.outfit import Outfit

WHOLE_YARD = "a yard and no colony named"
"""The rule behind `every_colony` where no word says it."""


@dataclass(slots=True)
class Draft:
    """A record being made: its slots, the spans it came from, the rules that filled its slots."""

    kind: str
    slots: dict[str, Any] = field(default_factory=dict)
    spans: list[tuple[int, int]] = field(default_factory=list)
    why: dict[str, str] = field(default_factory=dict)
    sentence: int = -1
    line: int = -1
    statement: int = -1
    group: int = -1
    heads: bool = False
    """Whether it may only head what follows: a treatment and a yard, with no verb and no colony."""

    def put(self, slot: str, value: Any, rule: str) -> None:
        """Fills a slot and remembers the rule."""
        self.slots[slot] = value
        self.why[slot] = rule


@dataclass(slots=True)
class Held:
    """What holds for one sender as the note goes on.

    `bees_by_any` is True where the sample size was said before any method, and so holds for each.
    `bees_of_one` is True where it was said of one count ("eleven out of three hundred"), and so of no percentage.
    `waiting` is True where a method was said and no count has followed yet; `titled` where it was said before any yard.
    """

    yard: str | None = None
    yard_since: int = -1
    moved_to: str | None = None
    cols: dict[str, Any] | None = None
    recent: list[tuple[str, str | None]] = field(default_factory=list)
    groups: list[tuple[list[str], str | None]] = field(default_factory=list)
    cols_sentence: int = -1
    cols_line: int = -1
    day: tuple[date, date] | None = None
    method: str | None = None
    bees: int | None = None
    bees_by_any: bool = False
    bees_of_one: bool = False
    board_days: int | float | None = None
    waiting: bool = False
    titled: bool = False


@dataclass(slots=True)
class Place:
    """The subject of a record: yard and colonies, as slots; `supposed` where no word says that each colony is meant."""

    yard: str | None = None
    colonies: list[str] | None = None
    every: bool = False
    except_: list[str] | None = None
    count: int | None = None
    supposed: bool = False

    def fill(self, draft: Draft) -> None:
        """Writes the place into the draft."""
        if self.yard:
            draft.put("yard", self.yard, "yard that holds")
        if self.colonies:
            draft.put("colonies", list(self.colonies), "colonies")
        if self.every:
            draft.put("every_colony", True, WHOLE_YARD if self.supposed else "every colony")
        if self.except_:
            draft.put("except_colonies", list(self.except_), "all but")
        if self.count is not None:
            draft.put("colony_count", self.count, "number of hives")


def place_of(draft: Draft) -> Place:
    """The subject that a record already has."""
    slots = draft.slots
    return Place(
        slots.get("yard"),
        slots.get("colonies"),
        bool(slots.get("every_colony")),
        slots.get("except_colonies"),
        slots.get("colony_count"),
    )


def settle_ids(ids: list[str], yard: str | None, outfit: Outfit) -> tuple[list[str], str | None]:
    """The ids as the roster has them, and the yard they stand in.

    At a yard whose ids all carry one letter a bare number means that id. An id that the yard that holds
    does not have, but exactly one other yard has, gives that yard. With no yard, ids that all stand in
    exactly one and the same yard give it.
    """
    if not outfit.known:
        return ids, yard
    here = outfit.yard_ids.get(yard or "", frozenset())
    if yard is not None and here.issuperset(ids):
        return list(ids), yard  # full ids of the yard that holds, as most are
    letter = outfit.single_letter.get(yard or "")
    settled = []
    for cid in ids:
        if letter and cid.isdecimal() and f"{letter}{cid}" in here:
            settled.append(f"{letter}{cid}")
        elif cid.isdecimal() and cid not in outfit.ids and len(outfit.by_number.get(cid, ())) == 1 and yard is None:
            settled.append(outfit.by_number[cid][0])
        else:
            settled.append(cid)
    if yard is not None and (not here or all(cid in here for cid in settled)):
        return settled, yard
    homes = {outfit.ids.get(cid, ()) for cid in settled}
    if len(homes) == 1:
        only = next(iter(homes))
        if len(only) == 1:
            return settled, only[0]
    if yard is None:
        common = set.intersection(*(set(outfit.ids.get(cid, ())) for cid in settled)) if settled else set()
        return settled, next(iter(common)) if len(common) == 1 else None
    return settled, yard
