"""The queen calendar: what to look for, and when, after a graft, cells, an introduction, a bank."""

from __future__ import annotations

from functools import cache

from fieldnotes.trade.figures import Days, Part, table


class Look(Part):
    """One look of the calendar: due `least` to `longest` days after the event. `eggs`: it is for eggs, so that finding
    none does not answer it."""

    after: str
    look: str
    eggs: bool = False
    least: Days
    longest: Days

    @property
    def cite(self) -> str:
        """The sources of both days in a few words."""
        if self.least.cite == self.longest.cite:
            return self.least.cite
        if self.least.days == self.longest.days:
            return f"{self.least.cite}; {self.longest.cite}"
        return f"{self.least.days} by {self.least.cite}; {self.longest.days} by {self.longest.cite}"


class _File(Part):
    look: tuple[Look, ...]
    holding: Days


@cache
def _file() -> _File:
    return _File.model_validate(table("queens"))


def looks_after(event: str) -> tuple[Look, ...]:
    """The looks that follow "grafted", "cells_placed", "introduced", "requeened", "virgin", "queenless" or "banked"."""
    return tuple(look for look in _file().look if look.after == event)


def longest_in_bank() -> Days:
    """How long queens are held in a bank."""
    return _file().holding
