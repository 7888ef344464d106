"""Intervals of the trade that stand on no label: when to count again, how long escapes stay on."""

from __future__ import annotations

from functools import cache

from fieldnotes.trade.figures import Days, Part, table


class Habit(Part):
    """A window in days after something, each end with its source. With no `least` it begins at once."""

    least: Days | None = None
    longest: Days

    @property
    def first(self) -> int:
        """Days until it is in good time."""
        return self.least.days if self.least else 0

    @property
    def last(self) -> int:
        """Days until it is late."""
        return self.longest.days

    @property
    def cite(self) -> str:
        """The sources of both ends in a few words."""
        if self.least is None or self.least.cite == self.longest.cite:
            return self.longest.cite
        return f"{self.first} by {self.least.cite}; {self.last} by {self.longest.cite}"


@cache
def habit(name: str) -> Habit:
    """The built-in habit of that name."""
    return Habit.model_validate(table("habits")[name])
