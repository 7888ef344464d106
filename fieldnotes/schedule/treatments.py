"""Replaying treatments: what goes in, which dose it is, and what comes out again, whole or in part."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.days import first_day, last_day
from fieldnotes.schedule.ledger import SINGLE_FORMS, Ledger, Oddity, is_single
from fieldnotes.schedule.pieces import Aim, End, Lot, Piece, Reach, aim, expand, finish, form_of, open_lot, reach_of
from fieldnotes.trade.labels import country_of, forms_of, only_agent

SAME_PLACING_DAYS = 3
"""A second record of a placement this close to the first tells the same thing again (12 got 3 of the strips)."""
NEXT_DOSE_SLACK_DAYS = 14
"""How long after the label's interval a dose still counts as the next of its course."""
SAME_REMOVAL_DAYS = 14
"""A second removal this close to the first tells the same thing again."""
MOST_UNITS_EACH = 6
"""No label puts more strips, pads or trays in a colony: a larger number is the total. Common practice, no source."""
KNOWN_DAYS = 60
"""A removal this long after the last of the kind came out is of something else. Common practice, no source."""
MEASURES = ("gram", "ml", "oz")


def place(ledger: Ledger, record: StoredRecord) -> None:
    """A treatment went in (or was given)."""
    reach, day = reach_of(record), first_day(record)
    targets = expand(ledger.colonies, reach, record)
    keys: list[Colony | str] = [reach.yard] if targets is None else list(targets)
    what = _what(ledger, keys, record)
    before = {key: _before(ledger, key, record, what, reach) for key in keys}
    retold = [key for key, old in before.items() if old and _same_placing(old, record)]
    for key in retold:
        _retell(before[key], record)
    fresh = [key for key in keys if key not in retold]
    if not fresh:
        return
    end = End(day, last_day(record), "renewed", record)
    if targets is None and reach.count is None:
        for piece in ledger.inside.in_yard(reach.yard):
            if _same_kind(piece.lot, what) and piece.colony and piece.colony.cid not in reach.spared:
                ledger.inside.end(piece, end)
    for key in fresh:
        _renew(ledger, before[key], key, end)
    lot = open_lot(ledger.inside, record, reach, None if targets is None else [c for c in targets if c in fresh])
    ledger.treatments.append(lot)
    lot.assumed, lot.goes_on = what.assumed, [old.record for old in what.goes_on]
    lot.each = units_each(record, len(lot.pieces) if targets is not None else reach.count)
    if lot.each is None:
        lot.each = _each_before(before.get(key) for key in fresh)
    for piece in list(lot.pieces):
        key = piece.colony or piece.yard
        piece.given = piece.units = lot.each
        _number(ledger, piece, before.get(key), record)
        ledger.latest.setdefault(key, {})[what.agent] = piece
        if is_single(lot):
            ledger.inside.end(piece, End(lot.first, lot.last, "single", record))


@dataclass(frozen=True, slots=True)
class What:
    """What a record places: as said, or as it must be. `assumed` is the part that was not said, `goes_on` the lots that
    it may go on with."""

    agent: str | None
    form: str | None
    product: str | None
    assumed: dict[str, str] = field(default_factory=dict)
    goes_on: tuple[Lot, ...] = ()


def _what(ledger: Ledger, keys: Sequence[Colony | str], record: StoredRecord) -> What:
    """The active that goes in. Where none is said, nor a word of the outfit's: that of the course which a dose of this
    form goes on with, or the only one that labels of the country give in this form ("vaped them")."""
    slots = record.slots
    agent, form, product = slots.get("agent"), form_of(record), slots.get("product")
    if agent or product:
        return What(agent, form, product)
    lots = tuple(dict.fromkeys(lot for key in keys for lot in _goes_on_with(ledger, key, record, form)))
    found = {(lot.get("agent"), lot.get("form")) for lot in lots}
    if len(found) == 1:
        agent, of_course = found.pop()
        return What(agent, of_course, product, {"agent": agent} | ({} if form else {"form": of_course}), lots)
    agent = only_agent(form, country_of(ledger.roster)) if form in SINGLE_FORMS else None
    return What(agent, form, product, {"agent": agent} if agent else {}, lots)


def _goes_on_with(ledger: Ledger, key: Colony | str, record: StoredRecord, form: str | None) -> list[Lot]:
    """What is in there in this form, or has just come out; without a form, the course of which a round is counted."""
    found = []
    places = (key, key.yard) if isinstance(key, Colony) else (key,)
    for piece in (p for place in places for p in ledger.latest.get(place, {}).values()):
        lot, end = piece.lot, piece.end
        fits = lot.get("form") == form if form else record.slots.get("round", 1) > 1 and ledger.has_next(piece)
        if lot.get("agent") and fits and (end is None or _in_time(ledger, piece, end, record)):
            found.append(lot)
    return found


def _in_time(ledger: Ledger, last: Piece, end: End, record: StoredRecord) -> bool:
    """Whether a dose comes soon enough after one that ended to be the next of its course."""
    stay = ledger.stay(last)
    wait = (stay.next_longest or 0) if stay and end.how == "single" else 0
    return 0 <= (first_day(record) - end.last).days <= wait + NEXT_DOSE_SLACK_DAYS


def _each_before(before: Iterable[Piece | None]) -> float | None:
    """Units in each colony where a further dose does not say them: as many as the dose before it."""
    given = {piece.given if piece else None for piece in before}
    return given.pop() if len(given) == 1 else None


def _before(ledger: Ledger, key: Colony | str, record: StoredRecord, what: What, reach: Reach) -> Piece | None:
    """What of the same active and form this placement comes on top of, or follows in a course."""
    if isinstance(key, Colony):
        inside = [p for p in ledger.inside.of(key) if _same_kind(p.lot, what)]
        if not inside:
            pools = [p for p in ledger.inside.unnamed(key.yard) if p.count is None and key.cid not in p.spared]
            inside = [p for p in pools if _same_kind(p.lot, what)]
    elif reach.count is None:
        inside = [p for p in ledger.inside.unnamed(key) if p.count is None and _same_kind(p.lot, what)]
    else:
        inside = []
    if inside:
        return max(inside, key=lambda p: (p.lot.first, p.lot.record.id))
    last = ledger.latest.get(key, {}).get(what.agent)
    if last is None or last.end is None or last.end.how not in ("out", "single") or not _same_kind(last.lot, what):
        return None
    return last if _in_time(ledger, last, last.end, record) else None


def _same_kind(lot: Lot, what: What) -> bool:
    if what.agent != lot.get("agent"):
        return False
    if not what.agent and what.product != lot.get("product"):
        return False
    return what.form == lot.get("form") or not what.form or not lot.get("form")


def _same_placing(old: Piece, record: StoredRecord) -> bool:
    """Whether the record tells of a placing that is in the book already, perhaps with one more detail."""
    if not old.placing_known or (old.end is not None and old.end.how != "single"):
        return False
    apart = (first_day(record) - old.lot.first).days
    near = 0 if old.lot.get("form") in SINGLE_FORMS else SAME_PLACING_DAYS
    return apart <= near and record.slots.get("round", old.dose) == old.dose


def _retell(old: Piece | None, record: StoredRecord) -> None:
    assert old is not None
    each = units_each(record, None)
    old.given = old.units = max((u for u in (old.units, each) if u is not None), default=None)
    old.counted = old.counted or bool(record.slots.get("round"))
    if record not in old.lot.also:
        old.lot.also.append(record)


def _renew(ledger: Ledger, old: Piece | None, key: Colony | str, end: End) -> None:
    """What is placed where a dose is in takes that dose's place."""
    if old is None or old.end is not None:
        return
    if old.colony is None and isinstance(key, Colony):
        old.spared.add(key.cid)
        old.lot.touched.append(end.record)
    else:
        ledger.inside.end(old, end)


def _number(ledger: Ledger, piece: Piece, old: Piece | None, record: StoredRecord) -> None:
    """Which dose of its course this is: as the keeper counts, else one more than the last."""
    said = record.slots.get("round")
    stay = ledger.stay(piece)
    piece.counted = bool(said) or bool(old and old.counted)
    next_of_course = old is not None and (said > 1 if said else old.dose < (stay.doses if stay else 1))
    if old is not None and next_of_course:
        piece.dose = int(said or old.dose + 1)
        old.followed = True
    else:
        piece.dose = int(said or 1)
    if old is not None and (next_of_course or (old.end and old.end.how == "renewed")):
        piece.before = old


def units_each(record: StoredRecord, hives: int | None) -> float | None:
    """Units in each colony: the amount said, or its share where it can only be the total. Weights and measures
    are left alone, since they are not counted out again."""
    amount = record.slots.get("amount")
    if amount is None or record.slots.get("unit") in MEASURES:
        return None
    if amount > MOST_UNITS_EACH:
        return float(amount / hives) if hives and amount % hives == 0 else None
    return float(amount)


def take_out(ledger: Ledger, record: StoredRecord) -> None:
    """A treatment came out."""
    reach = reach_of(record)
    end = End(first_day(record), last_day(record), "out", record)
    target = aim(
        ledger.inside, ledger.colonies, reach, lambda lot: fits_removal(lot, record) and not _unknown(lot, record)
    )
    if not target.hit:
        target = aim(ledger.inside, ledger.colonies, reach, lambda lot: fits_removal(lot, record))
    if not target.hit:
        _out_without_in(ledger, record, reach, end)
        return
    missed = [c for c in target.missed if c.left is None and _told_before(ledger, c, record, end) is None]
    if missed:
        words = "the book has nothing of the kind in there"
        ledger.oddities.append(Oddity(record, missed[0].yard, words, tuple(c.cid for c in missed)))
    if target.surplus:
        words = f"{target.surplus} hives more than the book has it in"
        ledger.oddities.append(Oddity(record, target.yard, words))
    _hold_back(ledger, record, target)
    for piece in finish(ledger.inside, ledger.colonies, target, end):
        ledger.latest.setdefault(piece.colony or piece.yard, {})[piece.lot.get("agent")] = piece


def _unknown(lot: Lot, record: StoredRecord) -> bool:
    """What is in under a word that nobody knows is meant by a removal of a known kind only if nothing else is."""
    known = record.slots.get("agent") or record.slots.get("form")
    same_word = record.slots.get("product") == lot.get("product")
    return bool(known) and not same_word and not lot.get("agent") and not lot.get("form")


def fits_removal(lot: Lot, record: StoredRecord) -> bool:
    """Whether a removal can mean what this lot placed. What was not said fits anything."""
    slots = record.slots
    agent, form, product = slots.get("agent"), slots.get("form"), slots.get("product")
    if agent and lot.get("agent") and agent != lot.get("agent"):
        return False
    if product and lot.get("product") and product != lot.get("product") and not (agent and lot.get("agent")):
        return False
    if form and lot.get("form"):
        return bool(form == lot.get("form"))
    if form and lot.get("agent"):
        known = forms_of(lot.get("agent"))
        return form in known or not known
    return True


def _hold_back(ledger: Ledger, record: StoredRecord, target: Aim) -> None:
    """Where fewer units came out than went in, the rest stays open; where more did, a person is asked.

    A number no larger than what one colony got means each colony; a larger one is the total of all of them.
    """
    amount, unit = record.slots.get("amount"), record.slots.get("unit")
    if amount is None or unit in MEASURES:
        return
    if any(p.lot.get("unit") and unit and p.lot.get("unit") != unit for p in target.pieces):
        return
    loose = next((p.lot for p in target.pieces if p.lot.loose is not None), None)
    if loose is not None and loose.loose is not None:
        _hold_back_loose(ledger, record, target, loose, float(amount))
        return
    if not target.pieces:
        _hold_back_pools(record, target, float(amount))
        return
    inside = [p.units for p in target.pieces]
    units = [u for u in inside if u is not None]
    if len(units) < len(inside) or any(p.colony is None for p in target.pieces):
        return
    if amount <= max(units):
        _hold_back_each(record, target, float(amount))
    elif amount < sum(units):
        lot = target.pieces[0].lot
        lot.loose, lot.loose_of = sum(units) - amount, sum(units)
        lot.touched.append(record)
        target.pieces = []
    elif amount > sum(units):
        words = f"{_number_of(amount)} came out where the book has {_number_of(sum(units))} in"
        cids = tuple(p.colony.cid for p in target.pieces if p.colony)
        ledger.oddities.append(Oddity(record, target.pieces[0].yard, words, cids))


def _hold_back_loose(ledger: Ledger, record: StoredRecord, target: Aim, lot: Lot, amount: float) -> None:
    """Some units were still in somewhere: with the last of them the whole lot is out."""
    assert lot.loose is not None
    left = lot.loose - amount
    if left < 0:
        words = f"{_number_of(amount)} came out where the book has {_number_of(lot.loose)} in"
        ledger.oddities.append(
            Oddity(record, target.yard, words, tuple(p.colony.cid for p in target.pieces if p.colony))
        )
    others = [p for p in target.pieces if p.lot is not lot]
    target.pieces = others if left > 0 else others + lot.open_pieces()
    lot.loose = max(left, 0.0)
    lot.touched.append(record)


def _hold_back_each(record: StoredRecord, target: Aim, amount: float) -> None:
    done = []
    for piece in target.pieces:
        if piece.units is not None and piece.units > amount:
            piece.partly.append(record)
            piece.lot.touched.append(record)
            piece.units -= amount
        else:
            done.append(piece)
    target.pieces = done


def _hold_back_pools(record: StoredRecord, target: Aim, amount: float) -> None:
    lots = {lot for lot, _ in target.hives} | {p.lot for p, _ in target.out_of}
    if any(lot.each is not None and amount < lot.each for lot in lots):
        for lot in lots:
            lot.touched.append(record)
            for piece in lot.open_pieces():
                piece.partly.append(record)
        target.hives, target.out_of = [], []


def _number_of(amount: float) -> str:
    return f"{amount:g}"


def _told_before(ledger: Ledger, key: Colony | str, record: StoredRecord, end: End) -> StoredRecord | None:
    """The record by which the same removal is in the book already."""
    for piece in ledger.latest.get(key, {}).values():
        known = piece.end is not None and piece.end.how == "out" and fits_removal(piece.lot, record)
        if known and piece.end and (end.last - piece.end.last).days <= SAME_REMOVAL_DAYS:
            return piece.end.record
    return None


def _lately_there(ledger: Ledger, key: Colony | str, record: StoredRecord) -> bool:
    """Whether something that the removal may mean was given there, or came out, not long before."""
    pieces = ledger.latest.get(key, {}).values()
    ends = [p.end for p in pieces if fits_removal(p.lot, record)]
    return any(end is None or (last_day(record) - end.last).days <= KNOWN_DAYS for end in ends)


def _out_without_in(ledger: Ledger, record: StoredRecord, reach: Reach, end: End) -> None:
    """A removal of what the book never saw go in still ends a treatment; when it went in is asked."""
    if not reach.yard and reach.whole:
        if any(fits_removal(p.lot, record) for p in ledger.inside.everything()):
            ledger.oddities.append(Oddity(record, "", "it is in at more than one yard, so say at which"))
        return
    targets = expand(ledger.colonies, reach)
    keys: list[Colony | str] = [reach.yard] if targets is None else list(targets)
    told = {key: _told_before(ledger, key, record, end) for key in keys}
    fresh = [key for key in keys if told[key] is None]
    if not fresh:
        return
    lot = open_lot(ledger.inside, record, reach, None if targets is None else [c for c in targets if c in fresh])
    lot.touched += [earlier for earlier in told.values() if earlier is not None]
    unheard = [k for k in fresh if not _lately_there(ledger, k, record)]
    if unheard and lot.pieces:
        words = "no note tells of it going in there: say when, for the register"
        cids = tuple(k.cid for k in unheard if isinstance(k, Colony))
        ledger.oddities.append(Oddity(record, reach.yard, words, cids))
    ledger.treatments.append(lot)
    for piece in list(lot.pieces):
        piece.placing_known = False
        ledger.inside.end(piece, end)
        ledger.latest.setdefault(piece.colony or piece.yard, {})[record.slots.get("agent")] = piece
