"""Questions that a person must settle: those of the reader, and what the records leave in doubt."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from fieldnotes.records import StoredQuestion, StoredRecord
from fieldnotes.schedule.days import iso, spoken
from fieldnotes.schedule.drafts import Draft, Place, of_piece
from fieldnotes.schedule.ledger import Ledger, Oddity
from fieldnotes.schedule.pieces import Lot, reach_of
from fieldnotes.schedule.staying import name_of
from fieldnotes.schedule.tasks import task_words
from fieldnotes.trade.words import is_many

ODDITY_DAYS = 60
"""How long a doubt about what was told is asked. Common practice, no source."""


def answer_items(ledger: Ledger, questions: Iterable[StoredQuestion], records: Iterable[StoredRecord]) -> list[Draft]:
    """Open questions of the reader, and what the records leave in doubt."""
    return [
        *_asked(ledger, questions, {r.id: r for r in records}),
        *(_odd(ledger, o) for o in ledger.oddities if _lately(o.record, ledger.day)),
        *_part_out(ledger),
        *_never_out(ledger),
    ]


def _asked(ledger: Ledger, questions: Iterable[StoredQuestion], by_id: dict[str, StoredRecord]) -> list[Draft]:
    """The questions of the reader."""
    drafts = []
    for question in sorted(questions, key=lambda q: q.id):
        said = iso(question.said)
        if said > ledger.day:
            continue
        record = by_id.get(question.record_id or "")
        reach = reach_of(record) if record else None
        choices = f" ({' / '.join(question.choices)})" if question.choices else ""
        drafts.append(
            Draft(
                what="answer",
                at=Place(reach.yard, cids=reach.cids) if reach else Place(""),
                key=("question", question.id),
                due=said,
                latest=said,
                do=f"{question.ask}{choices}",
                records=[record] if record else [],
                reasons=[f"Asked about the note of {spoken(said, ledger.day)}"],
                settle=True,
            )
        )
    return drafts


def _lately(record: StoredRecord, day: datetime.date) -> bool:
    return (day - iso(record.said)).days <= ODDITY_DAYS


def _odd(ledger: Ledger, oddity: Oddity) -> Draft:
    said = iso(oddity.record.said)
    return Draft(
        what="answer",
        at=Place(oddity.yard, cids=oddity.cids),
        key=("oddity", oddity.record.id, oddity.words),
        due=said,
        latest=said,
        do=f"{task_words(oddity.record, done=True)} by the note of {spoken(said, ledger.day)}, but {oddity.words}",
        records=[oddity.record],
        reasons=["What was told does not fit what the book has"],
        sure=False,
        settle=True,
    )


def _part_out(ledger: Ledger) -> list[Draft]:
    """Fewer came out than went in: forgotten in the hive, or in the note? The rest stays due out meanwhile."""
    drafts = []
    for lot in ledger.treatments:
        for piece in lot.open_pieces():
            if piece.partly and piece.given and piece.units and _lately(piece.partly[-1], ledger.day):
                at, given, left = of_piece(piece), piece.given, piece.units
                drafts.append(_part(ledger, lot, at, piece.partly, given - left, given))
        told = [r for r in lot.touched if r.kind == "treatment"]
        if lot.loose and lot.loose_of and told and _lately(told[-1], ledger.day):
            at = Place(lot.yard, cids=tuple(p.colony.cid for p in lot.open_pieces() if p.colony))
            drafts.append(_part(ledger, lot, at, told, lot.loose_of - lot.loose, lot.loose_of))
    return drafts


def _never_out(ledger: Ledger) -> list[Draft]:
    """A new course went in where the last one of the same never came out by the notes: is it in there still?"""
    drafts = []
    for lot in ledger.treatments:
        for piece in lot.pieces if _lately(lot.record, ledger.day) else ():
            old = piece.before
            gone = piece.colony is not None and piece.colony.left is not None
            if gone or old is None or not old.end or old.end.how != "renewed" or not ledger.starts_anew(piece):
                continue
            name, many = name_of(lot), is_many(lot.get("form"))
            drafts.append(
                Draft(
                    what="answer",
                    at=of_piece(piece),
                    key=("never out", lot.record.id, old.lot.record.id),
                    due=lot.first,
                    latest=lot.first,
                    do=f"{name} went in on {spoken(lot.first, ledger.day)}, and no note says that "
                    f"{'those' if many else 'that'} of {spoken(old.lot.first, ledger.day)} came out; "
                    f"did {'they' if many else 'it'}?",
                    records=[old.lot.record, lot.record],
                    reasons=["If so, say it in a note with the day; if not, take it out now, then close this"],
                    sure=False,
                    settle=True,
                )
            )
    return drafts


def _part(ledger: Ledger, lot: Lot, at: Place, told: list[StoredRecord], out: float, given: float) -> Draft:
    said = iso(told[-1].said)
    name = name_of(lot)
    unit = lot.get("unit") or told[-1].slots.get("unit") or "unit"
    of_what = name if is_many(lot.get("form")) else f"{unit}s of {name}"
    rest = "the other" if given - out == 1 else f"the other {given - out:g}"
    return Draft(
        what="answer",
        at=at,
        key=("part out", lot.record.id, told[-1].id),
        due=said,
        latest=said,
        do=f"{out:g} of {given:g} {of_what} came out by the note of {spoken(said, ledger.day)}; did {rest} come out?",
        records=[lot.record, *told],
        reasons=["If so, say it in a note; if not, close this, and what is left stays due out"],
        sure=False,
        settle=True,
    )
