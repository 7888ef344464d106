"""The caution that goes with a piece of work: acids, vapour, alcohol, lifting, the law."""

from __future__ import annotations

from functools import cache

from fieldnotes.trade.figures import Figure, Part, table


class Caution(Figure):
    """Words of caution for some actives and forms, or for a piece of work. Empty means any."""

    agents: tuple[str, ...] = ()
    forms: tuple[str, ...] = ()
    work: tuple[str, ...] = ()
    words: str


class _File(Part):
    closing: str
    caution: tuple[Caution, ...]


@cache
def _file() -> _File:
    return _File.model_validate(table("cautions"))


def cautions() -> tuple[Caution, ...]:
    """Every caution, the more particular ones first."""
    return _file().caution


def closing() -> str:
    """The sentence that closes every caution about a treatment."""
    return _file().closing


def treatment_caution(agent: str | None, form: str | None) -> str:
    """The caution for handling this active and form, with the closing sentence."""
    fitting = (c for c in cautions() if agent in c.agents and (not c.forms or form in c.forms))
    found = next(fitting, None) or next(c for c in cautions() if "treatment" in c.work)
    return f"{found.words} {closing()}"


def work_caution(work: str) -> str:
    """The caution for "mite_check", "lifting" or "foulbrood"."""
    return next(c.words for c in cautions() if work in c.work)
