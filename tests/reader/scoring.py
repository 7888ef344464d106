"""Scores readings against labelled notes, slot by slot.

Records of a note are paired by kind so that as many slots as possible agree; a pair that agrees in kind counts one
hit for that too. Slots at their default do not count: a day that is the note's own, the sender, the state "done".
What is a matter of wording does not either: `approx`, `product`, and of a todo its state and place.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from scipy.optimize import linear_sum_assignment

from fieldnotes.reader import read
from fieldnotes.records import Note
from fieldnotes.roster import Roster

NEVER_SCORED = frozenset(["kind", "spans", "why", "approx", "product"])
NOT_SCORED_OF_TODO = frozenset(["state", "yard", "colonies"])
LISTS = frozenset(["colonies", "except_colonies", "signs", "with"])
SMALL_WORDS = frozenset(
    re.findall(
        r"\w+",
        "a an and are at be for from get go i in is it must need of on or should that the them this to we will with",
    )
)

Slots = dict[str, Any]
Labelled = tuple[Note, list[dict[str, Any]]]


@dataclass
class Score:
    """Hits and misses of slots, records and notes; `wrong` shows the notes that are not right in every slot."""

    hits: int = 0
    read_slots: int = 0
    gold_slots: int = 0
    right_records: int = 0
    read_records: int = 0
    gold_records: int = 0
    right_notes: int = 0
    notes: int = 0
    wrong: list[str] = field(default_factory=list)

    @property
    def precision(self) -> float:
        return self.hits / self.read_slots if self.read_slots else 1.0

    @property
    def recall(self) -> float:
        return self.hits / self.gold_slots if self.gold_slots else 1.0

    @property
    def f1(self) -> float:
        return 2 * self.hits / (self.read_slots + self.gold_slots) if self.gold_slots else 1.0

    @property
    def records(self) -> float:
        """F1 over records right in every slot."""
        total = self.read_records + self.gold_records
        return 2 * self.right_records / total if total else 1.0

    @property
    def whole_notes(self) -> float:
        """The part of the notes that are right in every slot."""
        return self.right_notes / self.notes if self.notes else 1.0

    def __str__(self) -> str:
        return (
            f"{self.notes:4} notes  slots P {self.precision:.4f} R {self.recall:.4f} F1 {self.f1:.4f}  "
            f"records {self.records:.4f}  notes {self.whole_notes:.4f}"
        )


def labelled_notes(path: Path) -> list[Labelled]:
    """The notes of a file of labelled notes (one JSON object a line), each with its records."""
    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]
    return [(Note.model_validate(line), line["records"]) for line in lines]


def telling_slots(record: dict[str, Any], note: Note) -> Slots:
    """The slots that count, without defaults, lists as sorted tuples and numbers as floats."""
    todo = record["kind"] == "todo"
    own_day = note.received[:10]
    dated = todo or record.get("state") == "planned" or bool(record.get("on_until"))
    kept: Slots = {}
    for slot, value in record.items():
        if slot in NEVER_SCORED or value is None or (todo and slot in NOT_SCORED_OF_TODO):
            continue
        default = {
            "state": value == "done",
            "every_colony": value is False,
            "on": value == own_day and not dated,
            "on_until": value == record.get("on"),
            "by": value == note.by,
        }
        if default.get(slot) or value == []:
            continue
        if slot in LISTS:
            kept[slot] = tuple(sorted(value))
        elif isinstance(value, int | float) and not isinstance(value, bool):
            kept[slot] = float(value)
        else:
            kept[slot] = value
    return kept


def agrees(slot: str, gold: Any, read: Any) -> bool:
    """Whether two values of a slot say the same; texts do when they share at least half of gold's content words."""
    if slot != "text":
        return bool(gold == read)
    wanted, got = (set(re.findall(r"[a-z0-9']+", str(text).lower())) - SMALL_WORDS for text in (gold, read))
    return bool(wanted) and 2 * len(wanted & got) >= len(wanted)


def _hits(gold: Slots, read: Slots) -> int:
    return sum(slot in read and agrees(slot, value, read[slot]) for slot, value in gold.items())


def pairs(gold: list[Slots], read: list[Slots]) -> list[tuple[int, int]]:
    """Which of `gold` (of one kind) goes with which of `read`: the pairing with most hits and fewest slots astray."""
    if not gold or not read:
        return []
    gain = [[_hits(g, r) - 0.01 * (len(g) + len(r) - 2 * _hits(g, r)) for r in read] for g in gold]
    rows, columns = linear_sum_assignment(gain, maximize=True)
    return list(zip(map(int, rows), map(int, columns), strict=True))


def add_note(score: Score, note: Note, gold: list[dict[str, Any]], read_: list[dict[str, Any]]) -> None:
    """Counts one note into the score."""
    faults: list[str] = []
    for kind in dict.fromkeys(record["kind"] for record in [*gold, *read_]):
        wanted = [telling_slots(r, note) for r in gold if r["kind"] == kind]
        got = [telling_slots(r, note) for r in read_ if r["kind"] == kind]
        score.gold_records += len(wanted)
        score.read_records += len(got)
        score.gold_slots += sum(len(w) + 1 for w in wanted)
        score.read_slots += sum(len(g) + 1 for g in got)
        paired = pairs(wanted, got)
        for i, j in paired:
            hits = _hits(wanted[i], got[j])
            score.hits += hits + 1
            if hits == len(wanted[i]) == len(got[j]):
                score.right_records += 1
            else:
                faults += [f"  gold {kind} {wanted[i]}", f"  read {kind} {got[j]}"]
        faults += [f"  gold {kind} {w}" for i, w in enumerate(wanted) if i not in {p[0] for p in paired}]
        faults += [f"  read {kind} {g}" for j, g in enumerate(got) if j not in {p[1] for p in paired}]
    score.notes += 1
    if faults:
        score.wrong.append("\n".join([f"{note.id} {note.received} {note.by}: {note.text}", *faults]))
    else:
        score.right_notes += 1


def score_notes(notes: Iterable[Labelled], roster: Roster) -> Score:
    """Reads the notes and scores what was read."""
    score = Score()
    for note, gold in notes:
        reading = read(note, roster)
        add_note(score, note, gold, [{"kind": r.kind} | r.slots for r in reading.records])
    return score
