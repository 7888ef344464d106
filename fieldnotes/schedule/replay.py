"""One record after another into the ledger."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.boxes import take_gear, take_harvest
from fieldnotes.schedule.colonies import Colonies, Colony, apply_change, met_by
from fieldnotes.schedule.days import first_day, last_day
from fieldnotes.schedule.ledger import Finding, Ledger, Oddity, Said, event_day, in_order
from fieldnotes.schedule.pieces import End, reach_of
from fieldnotes.schedule.plans import keep_promises, take_plan
from fieldnotes.schedule.queenwork import brood_given, look_in, take_queen_work
from fieldnotes.schedule.treatments import place, take_out

CALLS_INSPECTOR = {"afb": "American foulbrood", "efb": "European foulbrood"}
"""Signs that are notifiable or reportable in most places: WOAH Terrestrial Code, chapters 9.2 and 9.3."""
BROOD_SLOTS = ("eggs", "open_brood", "capped_brood")


def replay(records: Iterable[StoredRecord], roster: Roster, day: datetime.date) -> Ledger:
    """The ledger of what was said and had happened by the end of `day`."""
    ledger = Ledger(roster=roster, day=day, colonies=Colonies(roster))
    for record in in_order(records, day):
        _take(ledger, record)
    return ledger


def _take(ledger: Ledger, record: StoredRecord) -> None:
    if record.kind == "todo":
        ledger.todos.append(record)
        return
    state = record.slots.get("state", "done")
    for yard, cid in met_by(record, ledger.colonies.rostered):
        ledger.colonies.named(yard, cid)
    if state == "planned":
        take_plan(ledger, record)
    if state != "done":
        return
    if record.kind == "treatment":
        (take_out if record.slots.get("step") == "out" else place)(ledger, record)
    elif record.kind == "mite_check":
        ledger.checks.add(ledger.colonies, record)
    elif record.kind == "gear":
        take_gear(ledger, record)
        if record.slots.get("item") == "brood_frame" and record.slots.get("step") == "on":
            brood_given(ledger, record)
    elif record.kind == "harvest":
        take_harvest(ledger, record)
    elif record.kind == "inspection":
        _inspection(ledger, record)
    elif record.kind == "queen_work":
        take_queen_work(ledger, record)
    elif record.kind == "change":
        _change(ledger, record)
    elif record.kind == "conditions":
        _conditions(ledger, record)
    keep_promises(ledger, record)


def has_brood(record: StoredRecord) -> bool | None:
    """Whether a look found brood; None where it does not say. Without eggs there is capped brood for three weeks."""
    found = [record.slots[n] for n in BROOD_SLOTS if n in record.slots]
    if any(found):
        return True
    return False if record.slots.get("capped_brood") is False else None


def _inspection(ledger: Ledger, record: StoredRecord) -> None:
    reach = reach_of(record)
    seen = [ledger.colonies.named(reach.yard, cid) for cid in reach.cids]
    brood = has_brood(record)
    if brood is not None:
        places: list[Colony | str] = [*seen, reach.yard]
        for key in places:
            ledger.brood.setdefault(key, []).append(Said(event_day(record), brood, record))
    signs = tuple(s for s in record.slots.get("signs", []) if s in CALLS_INSPECTOR)
    if signs:
        ledger.foulbrood += [Finding(record, c.yard, c, signs) for c in seen] or [
            Finding(record, reach.yard, None, signs)
        ]
    look_in(ledger, record, seen)


def _conditions(ledger: Ledger, record: StoredRecord) -> None:
    ledger.conditions.append(record)
    if record.slots.get("flow"):
        said = Said(event_day(record), record.slots["flow"], record)
        ledger.flow.setdefault(record.slots.get("yard") or "", []).append(said)


def _change(ledger: Ledger, record: StoredRecord) -> None:
    day = first_day(record)
    change = apply_change(ledger.colonies, record, day)
    gone = End(day, last_day(record), "left", record)
    for shelf in ledger.shelves():
        for colony in change.left:
            for piece in shelf.of(colony):
                shelf.end(piece, gone)
        for colony, came_from in change.moved:
            shelf.moved(colony, came_from)
    step, reach = record.slots.get("step"), reach_of(record)
    hives = reach.count or (record.slots.get("count") if step == "sold" else None)
    if reach.cids or reach.said_all or not hives or step not in ("died", "sold", "moved"):
        return
    inside = ledger.inside.in_yard(reach.yard)
    if step == "moved":
        if inside and record.slots.get("to_yard"):
            words = f"{hives} hives went to {record.slots['to_yard']} with a treatment in, so say which ones"
            ledger.oddities.append(Oddity(record, reach.yard, words))
        return
    for lot in dict.fromkeys(p.lot for p in inside if p.lot.whole):
        lot.lost += int(hives)
        lot.touched.append(record)
        if lot.remaining() == 0:
            for piece in lot.open_pieces():
                ledger.inside.end(piece, gone)
