"""Modes of action: which actives are of one group, and what each is expected to kill."""

from __future__ import annotations

from functools import cache
from typing import Literal

from pydantic import Field

from fieldnotes.trade.figures import Amount, Figure, Part, table


class Mode(Figure):
    """One group of actives that work alike. `group` is empty where the scheme gives no number."""

    agents: tuple[str, ...]
    group: str
    class_: str = Field(alias="class")
    kind: Literal["synthetic", "organic"]


class _File(Part):
    expected: dict[str, Amount]
    mode: tuple[Mode, ...]


@cache
def _file() -> _File:
    return _File.model_validate(table("modes"))


def mode_of(agent: str | None) -> Mode | None:
    """The mode of action of an active, None for one that is not on file."""
    return next((m for m in _file().mode if agent in m.agents), None)


def modes() -> tuple[Mode, ...]:
    """Every mode of action on file."""
    return _file().mode


def same_mode(one: str | None, other: str | None) -> bool:
    """Whether two actives work alike, so that one does not rotate with the other."""
    return one == other or (one is not None and mode_of(one) is not None and mode_of(one) == mode_of(other))


def expectation(agent: str | None) -> Amount:
    """Percent of mites that should be killed. An active not on file is held to the lower figure."""
    mode = mode_of(agent)
    return _file().expected[mode.kind if mode else "organic"]
