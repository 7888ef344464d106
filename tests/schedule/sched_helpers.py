"""Short ways to write records, rosters and days in the schedule's tests."""

import datetime
import hashlib
import json

from fieldnotes.records import Due, StoredQuestion, StoredRecord
from fieldnotes.roster import Roster, parse_roster
from fieldnotes.schedule import due_items

ROSTER = parse_roster(
    """
outfit = "Quillfeather Bee Yards"

[[yard]]
name = "Millpond"
colonies = ["1-24", "N1-N6"]
truck = "Flatbed"

[[yard]]
name = "Quarry"
colonies = ["1-18"]

[[yard]]
name = "Aunt Wen's"
colonies = ["70-79"]
""",
    "roster.toml",
)


def day(text: str) -> datetime.date:
    return datetime.date.fromisoformat(text)


def rec(kind: str, said: str, *, note: str = "", at: str = "12:00", by: str = "Marit", **slots: object) -> StoredRecord:
    """A stored record, said at noon; done on the day it was said unless `on` or a plan says otherwise."""
    slots = {name.rstrip("_"): value for name, value in slots.items()}
    if slots.get("state", "done") != "planned" and kind != "todo":
        slots.setdefault("on", said)
    body = json.dumps([kind, said, at, by, note, slots], sort_keys=True)
    rid = hashlib.sha256(body.encode()).hexdigest()[:10]
    return StoredRecord(
        id=rid,
        note_id=note or f"note-{rid}",
        received=f"{said}T{at}",
        said=said,
        sender=by,
        kind=kind,
        slots=slots,
    )


def strips_in(said: str, yard: str | None = "Millpond", **slots: object) -> StoredRecord:
    body = {"step": "in", "agent": "amitraz", "form": "strip"} | ({"yard": yard} if yard else {}) | slots
    return rec("treatment", said, **body)


def strips_out(said: str, yard: str | None = "Millpond", **slots: object) -> StoredRecord:
    body = {"step": "out", "agent": "amitraz", "form": "strip"} | ({"yard": yard} if yard else {}) | slots
    return rec("treatment", said, **body)


def wash(said: str, yard: str | None = "Millpond", **slots: object) -> StoredRecord:
    body = {"method": "alcohol_wash"} | ({"yard": yard} if yard else {}) | slots
    return rec("mite_check", said, **body)


def due(
    records: list[StoredRecord],
    on: str,
    roster: Roster = ROSTER,
    questions: list[StoredQuestion] | None = None,
    what: str | None = None,
) -> list[Due]:
    items = due_items(records, questions or [], roster, day(on))
    return [i for i in items if what in (None, i.what)]


def one(records: list[StoredRecord], on: str, what: str, roster: Roster = ROSTER) -> Due:
    found = due(records, on, roster, what=what)
    assert len(found) == 1, [i.says for i in found]
    return found[0]
