"""What is in and must come out, and what must be given again: `take_out` and `next_dose`."""

from __future__ import annotations

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.days import after, spoken, spoken_span
from fieldnotes.schedule.drafts import Draft, of_piece
from fieldnotes.schedule.ledger import Ledger, is_single
from fieldnotes.schedule.pieces import Lot, Piece
from fieldnotes.trade.cautions import treatment_caution
from fieldnotes.trade.labels import Stay, country_of, counts_rounds, forms_of, own_figures
from fieldnotes.trade.words import is_many, treatment_name

ASK_FORM_DAYS = 60
"""How long a treatment whose form was not said is asked about. Common practice, no source."""
LONG_LATE_DAYS = 30
"""A dose so long over is asked for, not called for: most often it was given or given up. Common practice, no source."""
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def name_of(lot: Lot) -> str:
    """What was given, in words."""
    return treatment_name(lot.get("agent"), lot.get("form"), lot.get("product"))


def guess_of(lot: Lot) -> list[str]:
    """What had to be assumed of what was given, in a sentence; nothing where the note said it."""
    agent = lot.assumed.get("agent")
    return [f"the note does not say of what active: {treatment_name(agent, None)} assumed"] if agent else []


def ordinal(n: int) -> str:
    """ "first", "second" … and "number 9" after the eighth."""
    return _ORDINALS[n - 1] if n <= len(_ORDINALS) else f"number {n}"


def take_out_items(ledger: Ledger) -> list[Draft]:
    """A placement that has a longest stay is due out between the label's least and longest days."""
    drafts = []
    for lot in ledger.treatments:
        for piece in lot.open_pieces():
            draft = _take_out(ledger, lot, piece)
            if draft:
                drafts.append(draft)
        if not lot.get("agent") and not lot.get("product"):
            drafts += [_ask_active(ledger, lot, p) for p in lot.pieces if _to_ask(ledger, lot, p)]
    return drafts


def _to_ask(ledger: Ledger, lot: Lot, piece: Piece) -> bool:
    """Whether to ask what was given: as long as it is in, and for some time after; or after it was told, where nobody
    knows whether anything stays in."""
    if not piece.placing_known or (piece.colony is not None and piece.colony.left is not None):
        return False
    if not lot.get("form"):
        return (ledger.day - lot.last).days <= ASK_FORM_DAYS
    return piece.end is None or (ledger.day - piece.end.last).days <= ASK_FORM_DAYS


def _ask_active(ledger: Ledger, lot: Lot, piece: Piece) -> Draft:
    """Something went in, and nobody said what: no label can be held to it."""
    name, many = name_of(lot), is_many(lot.get("form"))
    verb = ("were" if many else "was") + (" given" if is_single(lot) or not lot.get("form") else " put in")
    return Draft(
        what="answer",
        key=("active", lot.record.id),
        due=lot.first,
        latest=lot.first,
        do=f"what was the active of the {name} that {verb} {spoken_span(lot.first, lot.last, ledger.day)}?",
        records=[lot.record, *lot.also],
        reasons=[
            "Without it nobody can tell how long it stays in, nor whether supers may be on",
            "Say it with `fieldnotes fix`",
        ],
        sure=False,
        settle=True,
        at=of_piece(piece),
    )


def _take_out(ledger: Ledger, lot: Lot, piece: Piece) -> Draft | None:
    stay, said = ledger.stay(piece), lot.get("days")
    longest = stay.longest if stay else None
    if longest is None and said is None:
        return _ask_form(ledger, lot, piece)
    least, most, grounds, sure = _window(stay, said)
    due, latest = after(lot.last, least), after(lot.first, most)
    due = min(due, latest)
    since = spoken_span(lot.first, lot.last, ledger.day)
    name, many = name_of(lot), is_many(lot.get("form"))
    certain = not (lot.taken or lot.lost or lot.loose or lot.assumed or _not_noted_out(piece))
    return Draft(
        what="take_out",
        key=_key(lot, str(piece.dose), due.isoformat(), latest.isoformat()),
        due=due,
        latest=latest,
        do=f"take the {name} out",
        since=f", in since {since}",
        records=_records(lot, piece),
        reasons=[
            f"Went in {since}; {name}{_joint(grounds, many)}{grounds}",
            *guess_of(lot),
        ],
        notes=_notes(ledger, lot, piece),
        caution=treatment_caution(lot.get("agent"), lot.get("form")),
        sure=sure and lot.first == lot.last and certain,
        at=of_piece(piece),
    )


def _joint(grounds: str, many: bool) -> str:
    """What stands between the name and the grounds: "strips stay in …", "gel: stays in …", "strips, …"."""
    if not grounds.startswith(("stay in", "to stay in")):
        return ", "
    return " " if many else ": "


def _window(stay: Stay | None, said: float | None) -> tuple[int, int, str, bool]:
    """Least and most days in, the grounds in words, and whether no assumption was needed."""
    if stay is None or stay.longest is None:
        days = int(said or 0)
        return days, days, f"to stay in {days} days by the note; no label on file", True
    least = stay.least if stay.least is not None else stay.longest
    if said is None:
        return least, stay.longest, stay.grounds, stay.sure
    days = int(said)
    if days < stay.longest:
        return min(least, days), days, f"to stay in {days} days by the note; label: {stay.grounds}", stay.sure
    if days == stay.longest:
        return least, days, stay.grounds, stay.sure
    return least, stay.longest, f"the note says {days} days, the label's longest is less: {stay.grounds}", stay.sure


def _key(lot: Lot, *more: str) -> tuple[str, ...]:
    return (
        lot.get("agent") or "",
        lot.get("form") or "",
        lot.get("product") or "" if not lot.get("agent") else "",
        *more,
    )


def _records(lot: Lot, piece: Piece) -> list[StoredRecord]:
    part = [r for r in lot.touched if r.kind == "change" or (lot.loose and r.kind == "treatment")]
    done = [p.end.record for p in lot.pieces if p.apart and p.colony is None and p.end]
    return [lot.record, *lot.also, *piece.partly, *part, *done]


def _notes(ledger: Ledger, lot: Lot, piece: Piece) -> list[str]:
    """What is particular to a piece: fewer units out than in, hives out that nobody named, no removal noted."""
    notes = []
    name = name_of(lot)
    place = f"in {piece.colony.cid}" if piece.colony else "in some of them"
    if piece.partly and piece.units is not None:
        still = f"{piece.units:g} of {piece.given:g}" if piece.given else f"{piece.units:g}"
        notes.append(f"Only part came out: {still} still {place}")
    elif piece.partly:
        notes.append(f"Only part came out {place}")
    if lot.loose:
        notes.append(f"{lot.loose:g} of {lot.loose_of:g} did not come out, and nobody said from which colonies")
    if lot.taken:
        notes.append(f"{lot.taken} hives are done, but nobody said which")
    if lot.lost:
        notes.append(f"{lot.lost} hives are gone since, but nobody said which")
    old = _not_noted_out(piece)
    if old is not None:
        notes.append(f"No note says that the {name} of {spoken(old.lot.first, ledger.day)} came out first")
    return notes


def _not_noted_out(piece: Piece) -> Piece | None:
    """What was in before and was not said to have come out, where this is no further dose of its course."""
    old = piece.before
    if old is None or old.end is None or old.end.how != "renewed" or piece.dose != old.dose:
        return None
    return old


def _ask_form(ledger: Ledger, lot: Lot, piece: Piece) -> Draft | None:
    """An active that comes in forms that stay in and forms that do not: without the form nobody knows."""
    agent = lot.get("agent")
    if not agent or (ledger.day - lot.first).days > ASK_FORM_DAYS:
        return None
    if lot.get("form") or not forms_of(agent):
        return None if is_single(lot) else _ask_stay(ledger, lot, piece)
    forms = ", ".join(sorted(forms_of(agent)))
    do = f"in what form was the {name_of(lot)} given on {spoken(lot.first, ledger.day)} ({forms})?"
    return _question(lot, piece, "form", do, "Without the form nobody can tell how long it stays in")


def _ask_stay(ledger: Ledger, lot: Lot, piece: Piece) -> Draft:
    """What no label on file tells of: without its days nobody is told when it must come out."""
    name, many = name_of(lot), is_many(lot.get("form"))
    do = f"how long {'do' if many else 'does'} the {name} of {spoken(lot.first, ledger.day)} stay in?"
    enter = "Enter the days of the label in your hand in the roster, or say them with `fieldnotes fix`"
    return _question(lot, piece, "stay", do, "No label of it is on file", enter)


def _question(lot: Lot, piece: Piece, about: str, do: str, *reasons: str) -> Draft:
    """What is asked of a lot since the day it went in, and is settled by its answer."""
    return Draft(
        what="answer",
        key=_key(lot, about, lot.record.id),
        due=lot.first,
        latest=lot.first,
        do=do,
        records=[lot.record],
        reasons=list(reasons),
        sure=False,
        settle=True,
        at=of_piece(piece),
    )


def next_dose_items(ledger: Ledger) -> list[Draft]:
    """A course of several doses: the next is due after the label's interval, unless it came or all came out."""
    drafts = []
    for lot in ledger.treatments:
        for piece in lot.pieces:
            if waits_for_next(ledger, lot, piece):
                draft = _next_dose(ledger, lot, piece)
                if draft:
                    drafts.append(draft)
    return drafts


def waits_for_next(ledger: Ledger, lot: Lot, piece: Piece) -> bool:
    """Whether a further dose of the course is to come for a piece."""
    if not ledger.has_next(piece):
        return False
    if piece.followed or (piece.colony and piece.colony.left is not None):
        return False
    if ledger.latest.get(piece.colony or piece.yard, {}).get(lot.get("agent")) is not piece:
        return False
    if is_single(lot):
        agent, form = lot.get("agent"), lot.get("form")
        own = own_figures(agent, form, ledger.roster)
        by_count = (
            bool(agent) and counts_rounds(agent, form, country_of(ledger.roster)) and not (own and own.repeat_days)
        )
        return piece.counted or not by_count
    return piece.end is None


def _next_dose(ledger: Ledger, lot: Lot, piece: Piece) -> Draft | None:
    stay = ledger.stay(piece)
    if stay is None or stay.next_least is None or stay.next_longest is None:
        return None
    due, latest = after(lot.last, stay.next_least), after(lot.first, stay.next_longest)
    due = min(due, latest)
    name = name_of(lot)
    given = f"{'' if is_single(lot) else 'take the old out and '}give the {ordinal(piece.dose + 1)} dose of {name}"
    late = (
        f"no note tells of the {ordinal(piece.dose + 1)} dose of {name}: say whether it was given, or the course ended"
    )
    return Draft(
        what="next_dose",
        key=_key(lot, str(piece.dose), due.isoformat(), latest.isoformat()),
        due=due,
        latest=latest,
        do=late if ledger.day > after(latest, LONG_LATE_DAYS) else given,
        since=f", the {ordinal(piece.dose)} was {spoken_span(lot.first, lot.last, ledger.day)}",
        records=_records(lot, piece),
        reasons=[f"Dose {piece.dose} of {stay.doses} given; {stay.next_grounds}", *guess_of(lot)],
        caution=treatment_caution(lot.get("agent"), lot.get("form")),
        sure=stay.sure and lot.first == lot.last and not lot.assumed,
        at=of_piece(piece),
    )
