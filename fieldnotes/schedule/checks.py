"""The mite checks of the book, found by colony and by yard."""

from __future__ import annotations

import datetime
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.colonies import Colonies, Colony
from fieldnotes.schedule.days import first_day, last_day
from fieldnotes.schedule.pieces import Piece, reach_of


@dataclass(frozen=True, slots=True)
class Check:
    """One mite check: the days it may have been done on, and its record."""

    first: datetime.date
    last: datetime.date
    record: StoredRecord


class Checks:
    """Every mite check done so far, in the order of days."""

    def __init__(self) -> None:
        self._of_colony: dict[Colony, list[Check]] = {}
        self._of_yard: dict[str, list[Check]] = {}
        self._any_in_yard: dict[str, list[Check]] = {}

    def add(self, colonies: Colonies, record: StoredRecord) -> None:
        """Take a check into account. Checks come in the order of their last day."""
        check = Check(first_day(record), last_day(record), record)
        reach = reach_of(record)
        for cid in reach.cids:
            self._of_colony.setdefault(colonies.named(reach.yard, cid), []).append(check)
        if not reach.cids:
            self._of_yard.setdefault(reach.yard, []).append(check)
        yards = {colonies.named(reach.yard, cid).yard for cid in reach.cids} | {reach.yard}
        for yard in yards:
            self._any_in_yard.setdefault(yard, []).append(check)

    def of(self, piece: Piece) -> list[Check]:
        """The checks that speak for a piece, by day: of its colony or of a sample of its yard.

        A sample of the yard is a check with no colony named; for a treatment given to the whole yard, or to
        unnamed hives, any check in that yard is one too.
        """
        if piece.lot.whole or piece.colony is None:
            found = list(self._any_in_yard.get(piece.yard, ()))
            if piece.colony is not None:
                found += self._of_colony.get(piece.colony, ())
        else:
            found = [*self._of_colony.get(piece.colony, ()), *self._of_yard.get(piece.yard, ())]
        return by_day(found)

    def within(self, piece: Piece, first: datetime.date, last: datetime.date, named: bool) -> list[Check]:
        """The checks that speak for a piece and end between two days, by day; with `named` only those of its colony."""
        lists = [self._of_colony.get(piece.colony, [])] if named and piece.colony else self._lists(piece)
        return by_day(c for checks in lists for c in self._between(checks, first, last))

    def named(self, colony: Colony) -> list[Check]:
        """The checks that name the colony, by day."""
        return by_day(self._of_colony.get(colony, ()))

    def colonies(self, yard: str) -> list[Colony]:
        """The colonies of a yard that were ever checked, by number."""
        return sorted((c for c in self._of_colony if c.yard == yard), key=lambda c: c.order)

    def yards(self) -> list[str]:
        """The yards with a check."""
        return sorted(self._any_in_yard)

    def places(self) -> list[str]:
        """The yards with a check, and those to which colonies that were checked have moved."""
        return sorted({*self._any_in_yard, *(c.yard for c in self._of_colony if c.left is None)})

    def samples(self, yard: str) -> list[Check]:
        """The checks of a yard that name no colony, by day."""
        return by_day(self._of_yard.get(yard, ()))

    def in_yard(self, yard: str) -> list[Check]:
        """Every check made in a yard, by day."""
        return by_day(self._any_in_yard.get(yard, ()))

    def by_place(self) -> Iterator[tuple[Colony | str, list[Check]]]:
        """The checks that name a colony, for each of them, and those made in a yard, for each yard."""
        yield from self._of_colony.items()
        yield from self._any_in_yard.items()

    def last_ones(self) -> list[Check]:
        """The checks of the last day in each living colony, of each yard's samples, and of each yard."""
        living = [checks for colony, checks in self._of_colony.items() if colony.left is None]
        lists = [*living, *self._of_yard.values(), *self._any_in_yard.values()]
        return by_day(c for checks in lists for c in checks if c.last == checks[-1].last)

    def any_between(self, piece: Piece, first: datetime.date, last: datetime.date) -> bool:
        """Whether a check for the piece lies between two days, both included."""
        return any(self._between(checks, first, last) for checks in self._lists(piece))

    def any_after(self, piece: Piece, day: datetime.date) -> bool:
        """Whether a check for the piece came after a day."""
        return any(checks and checks[-1].last > day for checks in self._lists(piece))

    def _lists(self, piece: Piece) -> list[list[Check]]:
        whole = piece.lot.whole or piece.colony is None
        lists = [(self._any_in_yard if whole else self._of_yard).get(piece.yard, [])]
        if piece.colony is not None:
            lists.append(self._of_colony.get(piece.colony, []))
        return lists

    @staticmethod
    def _between(checks: list[Check], first: datetime.date, last: datetime.date) -> list[Check]:
        low = bisect_left(checks, first, key=lambda c: c.last)
        return checks[low : bisect_right(checks, last, low, key=lambda c: c.last)]


def by_day(checks: Iterable[Check]) -> list[Check]:
    """Checks in the order of days, each once."""
    once = {c.record.id: c for c in checks}
    return sorted(once.values(), key=lambda c: (c.last, c.record.id))
