"""Reads and runs the examples that stand beside the rules of the grammars.

An example is `"what is said => record; record"`, a record `kind slot=value slot=value`, or `nothing`. A value with
blanks stands in quotes, a list has commas, `true` and `false` are what they say, a number is a number ("2:1" is not).
"""

from __future__ import annotations

import json
import re
from typing import Any

from fieldnotes.reader.outfit import outfit_of
from fieldnotes.reader.pipeline import parse, read
from fieldnotes.records import COMMON_SLOTS, SLOTS, Note
from fieldnotes.roster import Roster

TODAY = "2026-06-10"
NOON = f"{TODAY}T12:00"
LISTS = frozenset(["colonies", "except_colonies", "with", "signs"])
ONLY_IF_GIVEN = frozenset(["by", "product", "approx"])
_PAIR = re.compile(r'\s+(\w+)=("[^"]*"|[^\s;]+)')
_KIND = re.compile(r"\s*(\w+)")


def expected_records(said: str) -> list[dict[str, Any]]:
    """The records written after the arrow of an example.

    Raises:
        ValueError: a kind or slot that does not exist, or something that is no `slot=value`.
    """
    if said.strip() == "nothing":
        return []
    found: list[dict[str, Any]] = []
    at = 0
    while True:
        kind = _KIND.match(said, at)
        if not kind or kind[1] not in SLOTS:
            raise ValueError(f"no kind of record stands at {said[at:]!r}")
        record: dict[str, Any] = {"kind": kind[1]}
        at = kind.end()
        while pair := _PAIR.match(said, at):
            slot = pair[1]
            if slot not in COMMON_SLOTS and slot not in SLOTS[kind[1]]:
                raise ValueError(f"a {kind[1]} has no slot {slot}")
            record[slot] = _value(slot, pair[2])
            at = pair.end()
        found.append(record)
        rest = said[at:].strip()
        if not rest:
            return found
        if not rest.startswith(";"):
            raise ValueError(f"no slot=value stands at {rest!r}")
        at = said.index(";", at) + 1


def _value(slot: str, written: str) -> Any:
    bare = written.strip('"')
    if slot in LISTS:
        return bare.split(",")
    if bare in ("true", "false"):
        return bare == "true"
    if re.fullmatch(r"-?\d+(\.\d+)?", bare) and not written.startswith('"'):
        return float(bare)
    return bare


def split_example(example: str) -> tuple[str, list[dict[str, Any]]]:
    """What is said, and the records that should come out."""
    said, arrow, records = example.rpartition("=>")
    if not arrow:
        raise ValueError(f"the example has no arrow: {example!r}")
    return said.strip(" "), expected_records(records)


def records_of(said: str) -> list[dict[str, Any]]:
    """The records read from `said`, flat, without roster and sender, on the day of the examples."""
    reading = read(Note(text=said, received=NOON), Roster())
    return [{"kind": record.kind} | record.slots for record in reading.records]


def what_differs(wanted: list[dict[str, Any]], got: list[dict[str, Any]]) -> str:
    """ "" where the records agree in every slot and in order, else both, for people to look at."""
    shown = [_comparable(record, wanted[k] if k < len(wanted) else {}) for k, record in enumerate(got)]
    if shown == [_comparable(record, record) for record in wanted]:
        return ""
    lines = ["wanted:", *(f"  {json.dumps(r)}" for r in wanted), "got:", *(f"  {json.dumps(r)}" for r in shown)]
    return "\n".join(lines)


def _comparable(record: dict[str, Any], wanted: dict[str, Any]) -> dict[str, Any]:
    kept = {k: v for k, v in record.items() if k in wanted or k not in ONLY_IF_GIVEN}
    if kept.get("state") == "done":
        del kept["state"]
    if "state" not in kept and kept.get("on") == TODAY and "on" not in wanted:
        del kept["on"]
    if kept.get("state") == "not_done" and kept.get("on") == TODAY and "on" not in wanted:
        del kept["on"]
    return {k: float(v) if isinstance(v, int) and not isinstance(v, bool) else v for k, v in kept.items()}


def rules_fired(said: str) -> set[str]:
    """The names of the rules whose marks stand in the reading of `said`."""
    return {mark.rule for mark in parse(said, outfit_of(Roster())).user_data["marks"]}


def name_in_tests(rule: str) -> str:
    """The rule's name as it stands in the names of tests."""
    return re.sub(r"\W+", "_", rule)
