"""An outfit over many years: a steady run of records for measuring, the same for the same numbers.

Each year a yard is looked through monthly, eight of its colonies are washed monthly, it is treated in spring and in
autumn and counted after, supers go on and come off, some colonies die and nucs take their place. About 25 records a
colony and year, as a busy outfit has them.
"""

from __future__ import annotations

import datetime
import hashlib
import random
from collections.abc import Iterator
from typing import Any

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster, Yard

HIVES = 24
FIRST_YEAR = 2006


def outfit_roster(colonies: int) -> Roster:
    """Yards of `HIVES` hives, numbered through."""
    yards = []
    for first in range(1, colonies + 1, HIVES):
        last = min(first + HIVES - 1, colonies)
        yards.append(Yard(name=f"Yard {len(yards) + 1}", colonies=[f"{first}-{last}"]))
    return Roster(outfit="Quillfeather Bee Yards", yard=yards)


def outfit_years(roster: Roster, years: int, seed: int = 1) -> Iterator[StoredRecord]:
    """The records of so many years, in the order of days."""
    chance = random.Random(seed)
    for year in range(FIRST_YEAR, FIRST_YEAR + years):
        found: list[tuple[str, str, str, dict[str, Any]]] = []
        for number, yard in enumerate(roster.yard):
            found += _yard_year(chance, year, number, yard)
        found.sort(key=lambda r: r[0])
        for n, (said, kind, at, slots) in enumerate(found):
            rid = hashlib.sha256(f"{year}-{n}".encode()).hexdigest()[:16]
            yield StoredRecord(
                id=rid, note_id=f"n{rid}", received=f"{said}T{at}", said=said, sender="Marit", kind=kind,
                slots=slots | ({} if slots.get("state") == "planned" else {"on": said}),
            )  # fmt: skip


def _yard_year(
    chance: random.Random, year: int, number: int, yard: Yard
) -> Iterator[tuple[str, str, str, dict[str, Any]]]:
    shift = datetime.timedelta(days=number % 14)

    def day(month: int, of: int) -> str:
        return (datetime.date(year, month, of) + shift).isoformat()

    where = {"yard": yard.name}
    every = where | {"every_colony": True}
    ids = list(yard.ids)
    for month in range(3, 11):
        for cid in ids:
            for of in (2, 16) if 3 < month < 9 else (9,):
                seen = {"queen": "right", "eggs": True, "brood_frames": chance.randint(2, 9)}
                yield day(month, of), "inspection", "10:00", where | {"colonies": [cid]} | seen
            if month in (4, 6, 8, 9) and chance.random() < 0.5:
                yield day(month, 12), "feed", "11:00", where | {"colonies": [cid], "feed": "syrup", "amount": 1}
        for cid in chance.sample(ids, min(8, len(ids))) if month not in (5, 9) else ():
            count = {"method": "alcohol_wash", "mites": chance.randint(0, 3), "bees": 300}
            yield day(month, 5), "mite_check", "12:00", where | {"colonies": [cid]} | count
    for cid in ids:
        yield day(5, 10), "gear", "13:00", where | {"colonies": [cid], "item": "super", "step": "on", "count": 2}
    yield day(7, 20), "gear", "13:00", every | {"item": "escape", "step": "on"}
    yield day(7, 22), "gear", "13:00", every | {"item": "super", "step": "off"}
    yield day(7, 22), "harvest", "14:00", every | {"amount": chance.randint(300, 900), "unit": "lb"}
    formic = {"agent": "formic_acid", "form": "pad"}
    strips = {"agent": "amitraz", "form": "strip"}
    yield day(4, 8), "treatment", "12:00", every | formic | {"step": "in", "amount": 2, "unit": "pad"}
    yield day(4, 22), "treatment", "12:00", every | formic | {"step": "out"}
    yield day(7, 24), "treatment", "12:00", every | strips | {"step": "in", "amount": 2, "unit": "strip"}
    yield day(7, 24), "treatment", "12:00", every | strips | {"step": "out", "state": "planned", "on": day(9, 8)}
    yield day(9, 8), "treatment", "12:00", every | strips | {"step": "out"}
    for cid in chance.sample(ids, min(8, len(ids))):
        count = {"method": "alcohol_wash", "mites": chance.randint(0, 2), "bees": 300}
        yield day(9, 20), "mite_check", "12:00", where | {"colonies": [cid]} | count
    for cid in chance.sample(ids, len(ids) // 8):
        yield day(2, 10), "change", "15:00", where | {"colonies": [cid], "step": "died"}
        yield day(5, 20), "change", "15:00", where | {"colonies": [ids[0]], "step": "nuc_made", "with": [cid]}
        yield day(5, 21), "queen_work", "15:00", where | {"colonies": [cid], "step": "introduced", "count": 1}
        yield day(6, 1), "inspection", "15:00", where | {"colonies": [cid], "queen": "seen", "eggs": True}
    if chance.random() < 0.1:
        yield day(10, 5), "todo", "16:00", where | {"text": "mend the gate", "state": "planned"}
