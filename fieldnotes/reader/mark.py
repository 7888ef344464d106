"""A mark: a span of a message that means something."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any


@dataclass(slots=True)
class Mark:
    """A span that means something: `label`, `v` its value, `w` the words heard, `rule` the grammar rule that made it.

    `s` and `e` are character offsets into the note. Plain words have the label "w".
    """

    label: str
    s: int
    e: int
    w: str
    v: dict[str, Any] = field(default_factory=dict)
    rule: str = ""

    def __repr__(self) -> str:
        return f"{self.label}:{self.w}"


REACH = 80
"""How many marks around a mark are looked at, at most: the time a note takes grows with its length only."""


def is_others(m: Mark) -> bool:
    """ "the other five", "those other two"."""
    return m.label == "pronoun" and "n" in m.v and "other" in m.w.split()
