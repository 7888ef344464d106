"""Who lives where: the colonies of each yard as the notes move, split, sell and lose them."""

from __future__ import annotations

import datetime
from collections.abc import Collection
from dataclasses import dataclass, field
from functools import lru_cache

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster, colony_key
from fieldnotes.schedule.days import first_day

_key = lru_cache(maxsize=100_000)(colony_key)
TOLD_OF = ("done", "planned")
"""States of records that tell of a colony as of one that is there."""
ARRIVALS = ("nuc_made", "split", "swarm_caught", "bought")


@dataclass(eq=False, slots=True)
class Colony:
    """One colony for as long as it lives. A new colony in an old hive is another `Colony`.

    `left` is the day it died, was sold or was combined away; `history` the records that brought it, moved it and
    took it; `names` the yards and numbers it had before.
    """

    yard: str
    cid: str
    left: datetime.date | None = None
    history: list[StoredRecord] = field(default_factory=list)
    names: set[tuple[str, str]] = field(default_factory=set)

    @property
    def order(self) -> tuple[str, tuple[str, int, str]]:
        """Sorts colonies by yard and number."""
        return self.yard, _key(self.cid)


@dataclass(frozen=True, slots=True)
class Past:
    """What became of a colony whose hive has a new one since `until`: before that day it still matters."""

    until: datetime.date
    names: frozenset[tuple[str, str]]
    history: tuple[StoredRecord, ...]


class Colonies:
    """The colonies known so far: those of the roster, and those the notes name. A yard not said is "".

    A number that the roster's yard does not have is kept apart: it is found by name, but "every colony" does not mean
    it, since it may have been misheard. Of a yard that is not in the roster only those named are known.
    """

    def __init__(self, roster: Roster) -> None:
        self.rostered = frozenset(y.name for y in roster.yard if y.ids)
        self._living: dict[str, dict[str, Colony]] = {
            yard.name: {cid: Colony(yard.name, cid) for cid in yard.ids} for yard in roster.yard
        }
        self.past: list[Past] = []
        self._changed: dict[Colony, None] = {}
        self._strange: dict[tuple[str, str], Colony] = {}
        self._went: dict[tuple[str, str], Colony] = {}
        self._gone: dict[tuple[str, str], Colony] = {}

    def of(self, yard: str) -> list[Colony]:
        """The living colonies of a yard, by number."""
        return sorted(self._living.get(yard, {}).values(), key=lambda c: c.order)

    def ids(self, yard: str) -> set[str]:
        """The ids of the living colonies of a yard."""
        return set(self._living.get(yard, {}))

    def named(self, yard: str, cid: str) -> Colony:
        """The colony of that name: where it lives, where it moved to, the one that is gone, or a new one."""
        home = self._living.get(yard, {})
        if not yard:
            # The one that there is by now, also where two were meant before.
            elsewhere = [cs[cid] for name, cs in self._living.items() if name and cid in cs]
            if len(elsewhere) == 1:
                return elsewhere[0]
        if cid in home:
            return home[cid]
        key = (yard, cid)
        for known in (self._strange, self._went, self._gone):
            if key in known:
                return known[key]
        colony = Colony(yard, cid)
        if yard in self.rostered:
            self._strange[key] = colony
        else:
            self._living.setdefault(yard, {})[cid] = colony
        return colony

    def unplaced(self, cid: str) -> Colony | None:
        """The colony of that number of which no yard was ever said."""
        return self._living.get("", {}).get(cid)

    def settle(self, yard: str, cid: str, record: StoredRecord) -> Colony:
        """The colony that lives there by this record: a new one where the last is gone or has moved away."""
        day = first_day(record)
        home = self._living.setdefault(yard, {})
        if cid in home:
            return home[cid]
        key = (yard, cid)
        earlier = self._gone.get(key)
        if earlier is not None and earlier.left is not None and earlier.left >= day:
            return earlier
        if earlier is not None:
            self.past.append(Past(day, frozenset({*earlier.names, key}), tuple(earlier.history)))
            self._changed.pop(earlier, None)
        self._gone.pop(key, None)
        self._went.pop(key, None)
        home[cid] = self._strange.pop(key) if key in self._strange else Colony(yard, cid)
        self._tell(home[cid], record)
        return home[cid]

    def revive(self, yard: str, cid: str, record: StoredRecord) -> Colony:
        """Like `named`, but work done in a hive whose colony is gone since an earlier day means a new colony."""
        known = self.named(yard, cid)
        return known if known.left is None else self.settle(known.yard, known.cid, record)

    def changed(self) -> list[Colony]:
        """Every colony that is not simply where the roster has it: moved, arrived or gone."""
        return list(self._changed)

    def _tell(self, colony: Colony, record: StoredRecord) -> None:
        colony.history.append(record)
        self._changed[colony] = None

    def lose(self, colony: Colony, record: StoredRecord, day: datetime.date, by_name: bool = True) -> None:
        """It died, was sold or was combined away. If not `by_name`, its number may name another one later."""
        if colony.left is not None:
            return
        colony.left = day
        self._tell(colony, record)
        self._forget(colony)
        if by_name:
            self._gone[colony.yard, colony.cid] = colony

    def move(
        self, colony: Colony, record: StoredRecord, to_yard: str, new_id: str | None, by_name: bool = True
    ) -> None:
        """It stands in `to_yard` now, perhaps under a new number. If `by_name`, its old name still finds it."""
        old = (colony.yard, colony.cid)
        new = (to_yard, new_id or colony.cid)
        if colony.left is not None or old == new:
            return
        self._forget(colony)
        if by_name:
            self._went[old] = colony
        self._went.pop(new, None)
        colony.names.add(old)
        colony.yard, colony.cid = new
        self._tell(colony, record)
        # Two hives of one number in a yard: the notes cannot tell them apart. The one of the roster keeps the name,
        # and both keep their own items.
        home = self._living.setdefault(to_yard, {})
        if to_yard not in self.rostered or colony.cid not in home:
            home[colony.cid] = colony

    def _forget(self, colony: Colony) -> None:
        key = (colony.yard, colony.cid)
        if self._living.get(colony.yard, {}).get(colony.cid) is colony:
            del self._living[colony.yard][colony.cid]
        if self._strange.get(key) is colony:
            del self._strange[key]


def met_by(record: StoredRecord, rostered: Collection[str]) -> list[tuple[str, str]]:
    """The colonies that exist because a record names them: those of a yard that is not in the roster, or not said."""
    yard = record.slots.get("yard") or ""
    if yard in rostered or record.kind == "todo" or record.slots.get("state", "done") not in TOLD_OF:
        return []
    return [(yard, cid) for cid in record.slots.get("colonies", ())]


@dataclass(frozen=True, slots=True)
class Change:
    """What a `change` record did: colonies that left, and colonies that moved with the yard they came from."""

    left: tuple[Colony, ...] = ()
    moved: tuple[tuple[Colony, str], ...] = ()


def apply_change(colonies: Colonies, record: StoredRecord, day: datetime.date) -> Change:
    """Take a done `change` record into account: who arrived, left or moved."""
    slots = record.slots
    step, yard = slots.get("step"), slots.get("yard") or ""
    others: list[str] = slots.get("with", [])
    if step in ARRIVALS:
        arrived = [(slots.get("to_yard") or yard, cid) for cid in others]
        if step in ("swarm_caught", "bought"):
            arrived += [(yard, cid) for cid in slots.get("colonies", [])]
        for place, cid in arrived:
            colonies.settle(place, cid, record)
        return Change()
    if slots.get("every_colony"):
        spared = set(slots.get("except_colonies", []))
        named = [c for c in colonies.of(yard) if c.cid not in spared]
    else:
        named = [colonies.named(yard, cid) for cid in slots.get("colonies", [])]
    named = [c for c in named if c.left is None]
    # Of a yard that is not in the roster only some colonies are known, so what befell "every colony" there says
    # nothing of the numbers themselves.
    by_name = not slots.get("every_colony") or yard in colonies.rostered
    if step in ("died", "sold", "combined"):
        for colony in named:
            colonies.lose(colony, record, day, by_name)
        return Change(left=tuple(named))
    if step == "moved":
        moved = []
        for n, colony in enumerate(named):
            came_from = colony.yard
            new_id = others[n] if len(others) == len(named) else None
            colonies.move(colony, record, slots.get("to_yard") or came_from, new_id, by_name)
            moved.append((colony, came_from))
        return Change(moved=tuple(moved))
    return Change()
