"""The treatment register: the fields that inspectors ask for, and gaps shown where nothing was said.

Fields: Regulation (EU) 2019/6, article 108(2), and the UK Veterinary Medicines Regulations; both keep it five years,
also for colonies that died or were sold.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster, colony_key
from fieldnotes.schedule.counted import Counted, Treatment, treatments_of
from fieldnotes.schedule.days import first_day
from fieldnotes.schedule.ledger import Ledger, is_single
from fieldnotes.schedule.pieces import End, Lot, Piece, form_of
from fieldnotes.schedule.replay import replay
from fieldnotes.trade.labels import country_of, editions, own_figures
from fieldnotes.trade.words import AGENTS

if TYPE_CHECKING:
    from fieldnotes.trade.counts import Count

_LOT_NUMBER = re.compile(
    r"(?<!\ba )\b(?:lot|batch)\s*(?:(?:number|no\.?|nr\.?|#|:)\s*([a-z\d][a-z\d/-]*)"
    r"|((?=[\d/-]*[a-z])(?=[a-z/-]*\d)[a-z\d][a-z\d/-]{2,}|\d{4,}[a-z\d/-]*|\d+[-/]\d[\d/-]*))",
    re.IGNORECASE,
)
KEEP_YEARS = 5
"""Regulation (EU) 2019/6, article 108(5); UK Veterinary Medicines Regulations."""


class RegisterRow(BaseModel):
    """One treatment of some colonies of a yard, from going in to coming out. None is a gap: nothing was said.

    `waiting_days` is the waiting time of the label, 0 too; `free_from` the first day after it. `lot` is the number of
    the package where the note names one. `supplier`, `bought` and `vet` stay gaps to fill in by hand. `note` says what
    is open or odd.
    """

    date_in: str | None
    date_out: str | None
    days_in: int | None
    yard: str | None
    colonies: list[str]
    every_colony: bool
    hives: int | None
    active: str | None
    form: str | None
    product: str | None
    amount: float | None
    unit: str | None
    dose: int | None
    who_in: str | None
    who_out: str | None
    waiting_days: int | None
    free_from: str | None
    temperature: str | None
    count_before: str | None
    count_after: str | None
    lot: str | None = None
    supplier: str | None = None
    bought: str | None = None
    vet: str | None = None
    note: str = ""
    records: list[str]


def register(
    records: Sequence[StoredRecord],
    roster: Roster,
    day: datetime.date,
    year: int | None = None,
    text_of: Callable[[str], str] | None = None,
) -> list[RegisterRow]:
    """Every treatment up to `day`, in the order of days; with `year`, those in at any time of that year.

    `text_of` gives the words of a note by its id, where lot numbers are to be looked for.
    """
    ledger = replay(records, roster, day)
    packages = _Packages(records, text_of) if text_of else None
    counted = Counted(ledger)
    levels = {id(lot): both for t in treatments_of(ledger) for both in (_levels(counted, t),) for lot in t.lots}
    rows = []
    for lot in ledger.treatments:
        for pieces in _together(lot):
            row = _row(ledger, lot, pieces, levels.get(id(lot), (None, None)))
            if year is None or _touches(lot, pieces[0].end, year):
                rows.append(row.model_copy(update={"lot": packages.number(lot)}) if packages else row)
    return sorted(rows, key=lambda r: (r.date_in or r.date_out or "", r.yard or "", r.active or "", r.colonies))


def lot_numbers(text: str) -> list[str]:
    """The numbers of packages that a note names: "lot 4471B", "batch no. 2025-118"; not "a lot 12 and 13"."""
    return list(dict.fromkeys(m[1] or m[2] for m in _LOT_NUMBER.finditer(text)))


class _Packages:
    """Lot numbers, out of the notes that tell of a placement."""

    def __init__(self, records: Sequence[StoredRecord], text_of: Callable[[str], str]) -> None:
        self._text_of = text_of
        self._placed: dict[str, set[tuple[str | None, ...]]] = {}
        for record in records:
            if record.kind == "treatment" and record.slots.get("step") == "in":
                what = tuple(record.slots.get(name) for name in ("agent", "form", "product"))
                self._placed.setdefault(record.note_id, set()).add(what)

    def number(self, lot: Lot) -> str | None:
        """The lot number of a placement, None where its notes name none, or several things or numbers."""
        notes = {r.note_id for r in (lot.record, *lot.also)}
        if any(len(self._placed.get(note, ())) != 1 for note in notes):
            return None
        found = {number for note in notes for number in lot_numbers(self._text_of(note))}
        return found.pop() if len(found) == 1 else None


def _together(lot: Lot) -> list[list[Piece]]:
    """The pieces of a lot that have one end in common."""
    groups: dict[tuple[Any, ...], list[Piece]] = {}
    for piece in lot.pieces:
        end = piece.end
        key = (piece.colony is None, piece.dose, end and (end.first, end.last, end.how, end.record.id))
        groups.setdefault(key, []).append(piece)
    return list(groups.values())


def _touches(lot: Lot, end: End | None, year: int) -> bool:
    return lot.first.year <= year and (end is None or year <= end.last.year)


def _levels(counted: Counted, treatment: Treatment) -> tuple[str | None, str | None]:
    """The counts before and after a treatment in words, each also where the other is missing."""
    outcome = counted.outcome(treatment)
    both = (outcome.before, outcome.after) if outcome else counted.single(treatment)
    return _count(both[0]), _count(both[1])


def _row(ledger: Ledger, lot: Lot, pieces: list[Piece], levels: tuple[str | None, str | None]) -> RegisterRow:
    piece, end = pieces[0], pieces[0].end
    named = sorted({p.colony.cid for p in pieces if p.colony}, key=colony_key)
    unnamed = [p for p in pieces if p.colony is None]
    every = any(p.count is None for p in unnamed)
    placed = piece.placing_known
    wait = _waiting_days(ledger, lot)
    # A further dose tells that the one before came out. More of the same, or a new course on top, does not.
    noted = end is not None and (end.how in ("out", "single") or (end.how == "renewed" and piece.followed))
    out = end.last if end and noted else None
    slots = lot.record.slots
    return RegisterRow(
        date_in=_days(lot.first, lot.last) if placed else None,
        date_out=_days(end.first, end.last) if out and end else None,
        days_in=(end.last - lot.first).days if placed and end and out and not is_single(lot) else None,
        yard=lot.yard or None,
        colonies=named,
        every_colony=every,
        hives=None if every else len(named) + sum(p.count or 0 for p in unnamed),
        active=AGENTS.get(slots.get("agent") or ""),
        form=form_of(lot.record),
        product=lot.get("product"),
        amount=slots.get("amount") if placed else None,
        unit=slots.get("unit") if placed else None,
        dose=piece.dose if placed and (piece.dose > 1 or slots.get("round")) else None,
        who_in=_who(lot.record) if placed else None,
        who_out=_who(end.record) if end and end.how == "out" else None,
        waiting_days=wait,
        free_from=(out + datetime.timedelta(days=wait)).isoformat() if out and wait is not None else None,
        temperature=_temperature(ledger, lot) if placed else None,
        count_before=levels[0],
        count_after=levels[1],
        note=_note(lot, piece, end),
        records=sorted({lot.record.id, *(r.id for r in lot.also), *([end.record.id] if end else [])}),
    )


def _days(first: datetime.date, last: datetime.date) -> str:
    return first.isoformat() if first == last else f"{first.isoformat()} to {last.isoformat()}"


def _who(record: StoredRecord) -> str | None:
    return record.slots.get("by") or record.sender


def _waiting_days(ledger: Ledger, lot: Lot) -> int | None:
    # What the notes do not say is a gap here, even where it can be guessed.
    agent, form = lot.record.slots.get("agent"), lot.get("form")
    own = own_figures(agent, form, ledger.roster)
    if own and own.wait_days is not None:
        return own.wait_days
    clocks = editions(agent, form, country_of(ledger.roster))[0] if agent else ()
    return max((c.wait.days for c in clocks if c.wait is not None), default=None)


def _temperature(ledger: Ledger, lot: Lot) -> str | None:
    for record in ledger.conditions:
        high = record.slots.get("high", record.slots.get("temp"))
        if first_day(record) == lot.first and record.slots.get("yard") in (None, lot.yard) and high is not None:
            return f"{high:g} {record.slots.get('unit', 'F' if ledger.roster.units == 'us' else 'C')}"
    return None


def _count(count: Count | None) -> str | None:
    return f"{count.rate:.1f} {count.unit}" if count else None


def _note(lot: Lot, piece: Piece, end: End | None) -> str:
    words = _how_it_ended(lot, piece, end)
    likely = AGENTS.get(lot.assumed.get("agent", ""))
    return "; ".join(part for part in (words, f"likely {likely}" if likely else "") if part)


def _how_it_ended(lot: Lot, piece: Piece, end: End | None) -> str:
    if not piece.placing_known:
        return "no note of it going in"
    if end is None:
        return f"still in, {lot.taken} hives out but not named" if lot.taken else "still in"
    if end.how == "renewed" and not piece.followed:
        return f"no note of it coming out; more went in {end.first.isoformat()}"
    words = {"single": "given", "renewed": "followed by the next", "left": "the colony is gone"}
    return words.get(end.how, "")
