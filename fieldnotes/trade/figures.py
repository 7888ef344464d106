"""A figure of the trade never comes alone: it carries its source, the body behind it, the year and its status."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict

Status = Literal["seen", "seen second-hand", "from memory", "common practice, no source", "computed"]
"""How well a figure is known. Only "seen" was read in the source itself."""

_FOLDER = Path(__file__).parent


class Part(BaseModel):
    """Base of everything read from the trade's data files: frozen, and no stray fields."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Figure(Part):
    """Where a figure comes from. `year` is the year of the edition, where it is known."""

    source: str
    body: str = ""
    year: int | None = None
    status: Status

    @property
    def cite(self) -> str:
        """The source in a few words, fit for the end of a sentence."""
        inside = [p for p in (self.body, str(self.year) if self.year else "") if p]
        name = f"{self.source} ({', '.join(inside)})" if inside else self.source
        if self.status in ("seen", "computed") or self.status == self.source:
            return name
        return f"{name}, {self.status}"


class Days(Figure):
    """A number of whole days."""

    days: int


class Amount(Figure):
    """A number, in the unit its field says."""

    value: float


class YesNo(Figure):
    """Allowed or not."""

    value: bool


class Words(Figure):
    """A sentence that a source backs."""

    words: str


@cache
def table(name: str) -> dict[str, Any]:
    """The data file `name`.toml of this folder, read once."""
    return tomllib.loads((_FOLDER / f"{name}.toml").read_text(encoding="utf-8"))
