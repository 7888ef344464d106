"""What passes between the rooms: notes, records, readings and due items.

Everything else in the package speaks in these types. The slots of a record, by kind, stand in
`SLOTS`: the one table that says what a record may hold.
"""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, model_serializer

Kind = Literal[
    "mite_check", "treatment", "inspection", "gear", "feed", "harvest", "queen_work", "change", "conditions", "todo"
]
State = Literal["done", "planned", "not_done", "conditional"]

COMMON_SLOTS = (
    "state",
    "yard",
    "colonies",
    "every_colony",
    "except_colonies",
    "colony_count",
    "on",
    "on_until",
    "by",
    "approx",
)
SLOTS: dict[str, tuple[str, ...]] = {
    "mite_check": ("method", "mites", "mites_high", "bees", "per_100", "board_days"),
    "treatment": ("step", "agent", "product", "form", "amount", "unit", "round", "days"),
    "inspection": (
        "queen", "mark", "eggs", "open_brood", "capped_brood", "brood_frames", "bee_frames", "food_frames",
        "queen_cells", "cells_seen", "cell_type", "temper", "strength", "stores", "signs",
    ),
    "gear": ("item", "step", "count"),
    "feed": ("feed", "ratio", "amount", "unit"),
    "harvest": ("amount", "unit", "moisture"),
    "queen_work": ("step", "count", "mark"),
    "change": ("step", "count", "to_yard", "with"),
    "conditions": ("high", "low", "temp", "unit", "flow", "sky"),
    "todo": ("text",),
}  # fmt: skip
"""Slots each kind may have beside the common ones."""

ORDER = ("kind", *COMMON_SLOTS, *dict.fromkeys(s for slots in SLOTS.values() for s in slots))
"""The order in which slots are written out."""


class Note(BaseModel):
    """One thing that arrived: `text` said or sent by `by`, `received` at a local ISO 8601 date and time."""

    model_config = ConfigDict(extra="ignore", frozen=True)

    id: str = ""
    text: str
    received: str
    by: str | None = None


class Record(BaseModel):
    """One flat fact read from a note. A slot that was not said is absent.

    `slots` maps slot names (see `SLOTS` and `COMMON_SLOTS`) to values; `spans` are `(start, end)`
    character offsets into the note's text; `why` maps a slot to the grammar rule that filled it.
    """

    kind: Kind
    slots: dict[str, Any] = Field(default_factory=dict)
    spans: list[tuple[int, int]] = Field(default_factory=list)
    why: dict[str, str] = Field(default_factory=dict)

    def get(self, slot: str, default: Any = None) -> Any:
        """The slot's value, or `default` where it was not said. `state` defaults to "done"."""
        if slot == "state":
            return self.slots.get("state", "done")
        return self.slots.get(slot, default)

    @model_serializer
    def flat(self) -> dict[str, Any]:
        """The record as it crosses the edge: one flat object in a fixed slot order."""
        return flat_record(self.kind, self.slots) | {"spans": [list(s) for s in self.spans], "why": self.why}

    @classmethod
    def from_flat(cls, data: dict[str, Any]) -> Record:
        """The record that `flat` wrote.

        Raises:
            ValueError: a slot that the kind does not have.
        """
        kind = data["kind"]
        slots = {k: v for k, v in data.items() if k not in ("kind", "spans", "why")}
        strange = sorted(set(slots) - set(COMMON_SLOTS) - set(SLOTS[kind]))
        if strange:
            raise ValueError(f"a {kind} record has no slot {', '.join(strange)}")
        return cls(kind=kind, slots=slots, spans=[tuple(s) for s in data.get("spans", [])], why=data.get("why", {}))


def flat_record(kind: str, slots: dict[str, Any]) -> dict[str, Any]:
    """Kind and slots as one object in the fixed slot order."""
    return {"kind": kind} | {name: slots[name] for name in ORDER if name in slots}


class Leftover(BaseModel):
    """A span of the note that no record used."""

    start: int
    end: int
    text: str


class Question(BaseModel):
    """What a person must settle. `about` is the index of a record of the reading, or None.

    `topic` says what kind of doubt it is (such as "unknown_word" or "unknown_colony") and `word` the
    words in doubt, so that an answer can be kept and applied to other notes.
    """

    about: int | None = None
    ask: str
    choices: list[str] = Field(default_factory=list)
    topic: str = ""
    word: str = ""


class Reading(BaseModel):
    """What was understood of one note; every word of meaning is in a record's spans or in a leftover."""

    id: str
    records: list[Record] = Field(default_factory=list)
    leftovers: list[Leftover] = Field(default_factory=list)
    questions: list[Question] = Field(default_factory=list)


class StoredRecord(BaseModel):
    """A record of the book, with what the schedule needs to know about where it came from.

    `id` is made from the note's content, never from the order in which notes were taken.
    `on` is the day of the fact (ISO); for a plan without a day it is None. `said` is the day of
    the message in which it was said.
    """

    id: str
    note_id: str
    received: str
    said: str
    sender: str | None = None
    kind: Kind
    slots: dict[str, Any]


class StoredQuestion(BaseModel):
    """An open question of the book, with the note it came from and the day it was asked."""

    id: str
    note_id: str
    said: str
    record_id: str | None = None
    ask: str
    choices: list[str] = Field(default_factory=list)
    topic: str = ""
    word: str = ""


Section = Literal["overdue", "today", "coming", "settle"]


class Because(BaseModel):
    """Why an item is due: the records it hangs on, and the figure used with its source, in one sentence."""

    records: list[str]
    reason: str


class Due(BaseModel):
    """One thing to do. `due` and `latest` are the first and the last day on which it is in good time (ISO)."""

    id: str
    what: str
    section: Section
    yard: str | None = None
    truck: str | None = None
    colonies: list[str] = Field(default_factory=list)
    every_colony: bool = False
    except_colonies: list[str] = Field(default_factory=list)
    colony_count: int | None = None
    due: str
    latest: str
    days_over: int = 0
    says: str
    because: Because
    caution: str | None = None
    sure: bool = True
