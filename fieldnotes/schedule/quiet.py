"""Records that answer nothing: most looks into hives and most feeds, by far the larger part of a long book.

A look into a hive matters to a later digest only if something waited for it (a promise, a queen's calendar), if it
found what needs work, or if it was the last to speak of brood, by now or by the day of a count. To see that much takes
no replay of the book, so a book that is looked through piece by piece (`needed_of_run`) replays only the rest.
"""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.colonies import met_by
from fieldnotes.schedule.days import last_day
from fieldnotes.schedule.ledger import Said, brood_of_hive, brood_of_yard, event_day, place_in_line
from fieldnotes.schedule.queenwork import BAD
from fieldnotes.schedule.replay import CALLS_INSPECTOR, has_brood

QUIET_KINDS = ("inspection", "feed")
NOTHING_DONE = ("not_done", "conditional")


@dataclass
class Sifted:
    """`loud` records must be replayed; `quiet` ones are over as far as anybody can tell by what was said so far."""

    loud: list[StoredRecord] = field(default_factory=list)
    quiet: list[StoredRecord] = field(default_factory=list)


def sift(
    records: Sequence[StoredRecord],
    held: Sequence[StoredRecord],
    stirred: Collection[str],
    rostered: Collection[str],
) -> Sifted:
    """Part those that answer nothing from the others.

    Args:
        records: the records looked at.
        held: what was said before and is not over.
        stirred: yards that somebody tells of later; "" stands for all.
        rostered: yards whose colonies the roster names.
    """
    found = Sifted()
    if "" in stirred:
        found.loud = list(records)
        return found
    waiting = _waiting(records, held)
    for yards in waiting.values():
        yards.update(stirred)
    brood: dict[tuple[str, str], list[StoredRecord]] = {}
    for record in records:
        if not _is_quiet(record, waiting):
            found.loud.append(record)
            continue
        found.quiet.append(record)
        done = record.kind == "inspection" and record.slots.get("state") not in NOTHING_DONE
        if done and has_brood(record) is not None:
            for cid in ("", *record.slots.get("colonies", ())):
                brood.setdefault((record.slots["yard"], cid), []).append(record)
    last = _words_on_brood(brood, (r for some in (held, records) for r in some)) if brood else set()
    if any(met_by(record, rostered) for record in found.quiet):
        last |= {record.id for record in first_met([*held, *records], rostered).values()}
    if last:
        found.loud += [r for r in found.quiet if r.id in last]
        found.quiet = [r for r in found.quiet if r.id not in last]
    return found


def first_met(records: Iterable[StoredRecord], rostered: Collection[str]) -> dict[tuple[str, str], StoredRecord]:
    """The record that first names each colony of a yard that is not in the roster. A number said without a yard means
    the one colony of that number, so it matters which there are."""
    first: dict[tuple[str, str], StoredRecord] = {}
    for record in records:
        for name in met_by(record, rostered):
            if name not in first or place_in_line(record) < place_in_line(first[name]):
                first[name] = record
    return first


def _is_quiet(record: StoredRecord, waiting: dict[str, set[str]]) -> bool:
    slots = record.slots
    state = slots.get("state")
    if state in NOTHING_DONE:
        return record.kind != "todo"
    if record.kind not in QUIET_KINDS or state == "planned":
        return False
    yards = waiting[record.kind]
    yard = slots.get("yard")
    if not yard or yard in yards or "" in yards:
        return False
    return record.kind == "feed" or not _finds_trouble(record)


def _finds_trouble(record: StoredRecord) -> bool:
    slots = record.slots
    return slots.get("queen") in BAD or any(sign in CALLS_INSPECTOR for sign in slots.get("signs", ()))


def _waiting(records: Iterable[StoredRecord], held: Iterable[StoredRecord]) -> dict[str, set[str]]:
    """By kind of work, the yards in which a promise or a queen's calendar may wait for it; "" where any may."""
    yards: dict[str, set[str]] = {kind: set() for kind in QUIET_KINDS}
    moves = []
    for new, record in (*((True, r) for r in records), *((False, r) for r in held)):
        kind, slots = record.kind, record.slots
        if slots.get("state") == "planned" and kind in yards:
            yards[kind].add(slots.get("yard") or "")
        elif kind == "queen_work" or (kind == "inspection" and slots.get("queen") in BAD):
            yards["inspection"].add(slots.get("yard") or "")
        elif kind == "change" and slots.get("step") == "moved":
            moves.append({slots.get("yard") or "", slots.get("to_yard") or slots.get("yard") or ""})
            # Two names of one colony, or one of two: who speaks last of its brood is then for the replay to say.
            yards["inspection"].update(moves[-1] if new else ())
    for some in yards.values():
        # What waits in a colony goes with it where it goes.
        while reached := [m for m in moves if not some.isdisjoint(m) and not m <= some]:
            some.update(*reached)
    return yards


def _words_on_brood(told: dict[tuple[str, str], list[StoredRecord]], records: Iterable[StoredRecord]) -> set[str]:
    """Of what was said of the brood of colonies, and of yards (""), the ids of the words that a count is judged by:
    those at the day of each count, and the last ones, for counts to come."""
    days: dict[tuple[str, str], set[datetime.date]] = {}
    for record in records:
        if record.kind == "mite_check" and record.slots.get("state", "done") == "done":
            for cid in ("", *record.slots.get("colonies", ())):
                days.setdefault((record.slots.get("yard") or "", cid), set()).add(last_day(record))
    found = set()
    for (yard, cid), words in told.items():
        said = [Said(event_day(r), bool(has_brood(r)), r) for r in sorted(words, key=place_in_line)]
        tell = brood_of_hive if cid else brood_of_yard
        for day in {said[-1].day, *days.get((yard, cid), ()), *days.get(("", cid), ())}:
            found |= {one.record.id for one in tell(said, day)}
    return found
