"""A mark about to be taken into a statement: what every decision about it is asked of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fieldnotes.reader.mark import Mark
from fieldnotes.reader.parting.statement import Statement

Tail = list[Mark] | None
"""What a new statement begins with, taken off the end of the one before (maybe nothing); None: none begins."""


@dataclass(slots=True)
class Place:
    """The mark `m` at `i` of the row, `q` after it, and the statement it would join, with its `marks`.

    `soft` is the boundary word or sign just passed, `strong` tells whether it parts statements by itself.
    """

    row: list[Mark]
    i: int
    m: Mark
    q: Mark | None
    statement: Statement
    marks: list[Mark]
    soft: Mark | None
    strong: bool
    _cols: list[Mark] | None = None

    @property
    def cols(self) -> list[Mark]:
        """The groups of colonies in the statement."""
        if self._cols is None:  # asked again and again of the same marks
            self._cols = [x for x in self.marks if x.label == "cols"]
        return self._cols

    @property
    def z(self) -> Mark | None:
        """The mark after the next."""
        return self.row[self.i + 2] if self.i + 2 < len(self.row) else None

    def has(self, label: str, *more: str) -> bool:
        """Whether a mark of one of the labels is in the statement."""
        for x in self.marks:  # noqa: SIM110 (asked at every mark; a plain loop takes half the time)
            if x.label == label or (more and x.label in more):
                return True
        return False

    def has_any(self, labels: frozenset[str]) -> bool:
        """Whether a mark of one of these labels is in the statement."""
        return not labels.isdisjoint([x.label for x in self.marks])

    def has_cue(self, *cues: str) -> bool:
        """Whether one of these cues is in the statement."""
        return any(x.label == "cue" and x.v.get("cue") in cues for x in self.marks)


def first_of(at: Place, decisions: tuple[Callable[[Place], Tail], ...]) -> Tail:
    """What the first of the decisions that has an answer says; None where none has."""
    for decide in decisions:
        tail = decide(at)
        if tail is not None:
            return tail
    return None
