"""What is carried along a note, and one message being read: the state that the makers of records share."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.outfit import Outfit
from fieldnotes.reader.scope import Draft, Held

OWN_SLOTS = frozenset("yard colonies every_colony except_colonies colony_count state on on_until by".split())
"""Slots that each record takes from its own statement: where, when, by whom and how meant."""
HOW_MUCH = frozenset(["amount", "unit", "count"])
"""Slots that say how much of a thing: they pass to no other colony unless they are said again."""
GIVEN = frozenset(["treatment", "gear", "feed"])
"""Kinds of records of what a hive is given or relieved of."""
LOOK_BACK = 300
"""How many records back a statement can refer to."""
NEAR = 60
"""How many statements back a statement can go on with."""


@dataclass(slots=True)
class Thread:
    """What is carried along a note: what holds for each sender, and the records so far."""

    outfit: Outfit
    held: dict[str | None, Held] = field(default_factory=dict)
    drafts: list[Draft] = field(default_factory=list)
    last_treatment: Draft | None = None
    statements: int = 0
    questions: list[tuple[Draft | None, str, list[str], str, str]] = field(default_factory=list)
    used: list[tuple[int, int]] = field(default_factory=list)

    def lately(self, first: int = 0) -> list[Draft]:
        """The records made last, none before the index `first`: looking back must not take longer as a note goes on."""
        return self.drafts[max(first, len(self.drafts) - LOOK_BACK) :]

    def place_of(self, draft: Draft) -> int:
        """The index of that very record."""
        return next(k for k in range(len(self.drafts) - 1, -1, -1) if self.drafts[k] is draft)

    def of(self, sender: str | None) -> Held:
        """What holds for that sender."""
        return self.held.setdefault(sender, Held())


class Message:
    """One message being read."""

    def __init__(
        self, thread: Thread, statements: list[Statement], today: date, sender: str | None, correcting: bool
    ) -> None:
        self.thread = thread
        self.outfit = thread.outfit
        self.held = thread.of(sender)
        if not self.held.waiting:
            self.held.method = self.held.bees = self.held.board_days = None
        self.held.titled = self.held.bees_by_any = False
        self.held.day = None
        self.today = today
        self.sender = sender
        self.statements = statements
        self.correcting = correcting
        self.first_draft = len(thread.drafts)
        self.hemisphere = thread.outfit.roster.hemisphere
        self.last_person: tuple[Mark, int] | None = None
        self.who_checked: tuple[Mark, int] | None = None
        self.reporter: Mark | None = None
        self.before: Statement | None = None
        self.headed: list[str | None] = []
        self.who_did: Mark | None = None
        self.head_cols: dict[str, Any] | None = None
        self.actor: tuple[Mark, int] | None = None
        self.column: str | None = None
        self.of_nucs: list[tuple[Draft, Mark]] = []
        self.stowing = -1  # the statement that last told of things in store
        self.from_store: list[Draft] = []
        self.line_day: tuple[int, tuple[date, date]] | None = None

    @property
    def newest(self) -> Draft | None:
        """The record made last in the note; None where there is none yet."""
        return self.thread.drafts[-1] if self.thread.drafts else None

    @property
    def newest_here(self) -> Draft | None:
        """The record made last in this message; None where it has none yet."""
        return self.thread.drafts[-1] if len(self.thread.drafts) > self.first_draft else None

    def just_told(self, draft: Draft) -> bool:
        """Whether the statement before this one made the record or was the last to add to it."""
        return draft.statement == self.thread.statements - 1

    def recent(self) -> list[Draft]:
        """The records made or added to by this statement."""
        return [d for d in self.thread.lately() if d.statement == self.thread.statements]

    def last(self, kind: str, sentence: int | None = None) -> Draft | None:
        """The newest record of that kind in the message, of one sentence if given."""
        drafts = self.thread.drafts
        for k in range(len(drafts) - 1, max(self.first_draft, len(drafts) - LOOK_BACK) - 1, -1):
            draft = drafts[k]
            if draft.kind == kind and (sentence is None or draft.sentence == sentence):
                return draft
        return None

    def add(self, i: int, s: Statement, draft: Draft) -> None:
        """Adds a finished record to the thread."""
        draft.sentence, draft.line, draft.statement = s.sentence, s.line, self.thread.statements
        self.thread.drafts.append(draft)


def same_again(d: Draft, without: frozenset[str] = frozenset()) -> Draft:
    """The same thing once more, for another place, day or doer, less the slots in `without`."""
    kept = {k: v for k, v in d.slots.items() if k not in OWN_SLOTS and k not in without}
    return Draft(d.kind, kept, [], dict(d.why))


def day_of(d: Draft) -> dict[str, Any]:
    """The slots of a record that say on which day it was or will be."""
    return {slot: d.slots[slot] for slot in ("on", "on_until") if slot in d.slots}


def without_how_much(d: Draft) -> Draft:
    """The same thing once more for others, where how much of it they got or will get was not said."""
    return same_again(d, HOW_MUCH | {"approx"})
