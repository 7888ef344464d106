"""Promises that come due, and escapes left on."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import replace

from fieldnotes.records import StoredRecord
from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.days import after, first_day, iso, last_day, spoken, spoken_span
from fieldnotes.schedule.drafts import Draft, Place, of_piece
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import reach_of
from fieldnotes.schedule.supers import HONEY_TAKEN
from fieldnotes.schedule.tasks import task_words
from fieldnotes.schedule.treatments import fits_removal
from fieldnotes.trade.cautions import treatment_caution, work_caution
from fieldnotes.trade.habits import habit


def promise_items(ledger: Ledger) -> list[Draft]:
    """Planned records not done yet, and todos, which only a hand can close."""
    drafts = []
    for lot in ledger.promises:
        for piece in lot.open_pieces():
            if piece.colony is None or piece.colony.left is None:
                drafts.append(_promise(ledger, lot.record, of_piece(piece)))
    for record in ledger.todos:
        reach = reach_of(record)
        at = Place(reach.yard, cids=reach.cids, count=reach.count, spared=reach.spared, said_all=reach.said_all)
        drafts.append(_promise(ledger, record, at))
    return drafts


def _promise(ledger: Ledger, record: StoredRecord, at: Place) -> Draft:
    due, latest = promised_days(record)
    said = spoken(iso(record.said), ledger.day)
    work = task_words(record)
    if record.slots.get("on"):
        when = f", promised {said} for {spoken_span(due, latest, ledger.day)}"
        reason = ""
    else:
        when = f", promised {said} with no day"
        reason = f"No day was said, so it comes up {habit('promise').last} days after"
    slots = record.slots
    if not slots.get("every_colony"):
        at = replace(at, said_all=False)
    if slots.get("by"):
        when += f" ({slots['by']})"
    return Draft(
        what="promise",
        key=_promise_key(record, due, latest),
        due=due,
        latest=latest,
        do=work,
        since=when,
        records=[record],
        reasons=[reason] if reason else [],
        caution=_promise_caution(record),
        at=at,
        step=(record.kind, slots.get("step") or "", slots.get("item") or ""),
    )


def promised_days(record: StoredRecord) -> tuple[datetime.date, datetime.date]:
    """The window of a plan; without a day, the same number of days after it was said as the habit has."""
    if record.slots.get("on"):
        return first_day(record), last_day(record)
    day = after(iso(record.said), habit("promise").last)
    return day, day


def _promise_key(record: StoredRecord, due: datetime.date, latest: datetime.date) -> tuple[str, ...]:
    names = ("step", "item", "agent", "form", "feed", "round", "text")
    slots = (str(record.slots.get(name, "")).lower() for name in names)
    return (record.kind, *slots, due.isoformat(), latest.isoformat())


def _promise_caution(record: StoredRecord) -> str | None:
    if record.kind == "treatment":
        return treatment_caution(record.slots.get("agent"), record.slots.get("form"))
    if record.kind == "mite_check":
        return work_caution("mite_check")
    if record.kind == "gear" and record.slots.get("item") == "super" and record.slots.get("step") == "off":
        return work_caution("lifting")
    return None


JOINS: dict[tuple[str, str, str], tuple[str, ...]] = {
    ("treatment", "out", ""): ("take_out",),
    ("treatment", "in", ""): ("next_dose", "treat", "did_not_work"),
    ("mite_check", "", ""): ("check_after", "check_due"),
    ("gear", "off", "super"): ("supers_off", "supers_clash"),
    ("gear", "off", "escape"): ("supers_off",),
    ("inspection", "", ""): ("queen_look",),
    ("queen_work", "released", ""): ("queen_look",),
}
"""Which items a promise of (kind, step, item) says again."""


def join_promises(drafts: Sequence[Draft], day: datetime.date) -> list[Draft]:
    """Drafts with each promise that only repeats what is due anyway put into that item.

    If the promised day comes before the item is due, the item comes up on that day; if it comes before the item's
    latest day, it is late from that day on.
    """
    others = [d for d in drafts if d.what != "promise"]
    index: dict[tuple[str, Colony | str], list[Draft]] = {}
    for draft in others:
        place: Colony | str = draft.at.colony or draft.at.yard
        index.setdefault((draft.what, place), []).append(draft)
        if draft.at.colony is not None:
            index.setdefault((f"{draft.what}/yard", draft.at.yard), []).append(draft)
    kept: list[Draft] = []
    joined: set[str] = set()
    for draft in drafts:
        if draft.what == "promise":
            if _join(draft, index, day):
                joined.update(r.id for r in draft.records)
            else:
                kept.append(draft)
    return others + [d for d in kept if not _means_what_is_in(d, joined)]


def _means_what_is_in(promise: Draft, joined: set[str]) -> bool:
    """Whether a promise to take a treatment out of a yard as a whole joined what is in there: it means those hives."""
    if promise.step != ("treatment", "out", ""):
        return False
    return any(r.id in joined and reach_of(r).whole for r in promise.records)


def _join(promise: Draft, index: dict[tuple[str, Colony | str], list[Draft]], day: datetime.date) -> bool:
    found = []
    for what in JOINS.get(promise.step, ()):
        if promise.at.colony is not None:
            found += index.get((what, promise.at.colony), [])
        elif promise.at.count is None:
            found += index.get((what, promise.at.yard), []) + index.get((f"{what}/yard", promise.at.yard), [])
        else:
            found += [d for d in index.get((what, promise.at.yard), []) if d.at.count == promise.at.count]
    found = [d for d in found if _same_stuff(promise, d) and d.key[:1] != HONEY_TAKEN]
    for draft in found:
        _put_into(draft, promise, day)
    return bool(found)


def _is_for_all(promise: Draft) -> bool:
    reach = reach_of(promise.records[0])
    return reach.whole and not reach.spared


_LIMITS = {"take_out": "the longest stay is"}
"""What ends on the last day of an item, in words."""


def _put_into(draft: Draft, promise: Draft, day: datetime.date) -> None:
    """A promise made of what is due anyway: a promised day that is sooner than the last one is the one to keep."""
    first, last = draft.due, draft.latest
    with_day = bool(promise.records[0].slots.get("on"))
    by = promise.records[0].slots.get("by")
    draft.records += promise.records
    text = f"Promised {spoken(iso(promise.records[0].said), day)} "
    text += f"for {spoken_span(promise.due, promise.latest, day)}" if with_day else "with no day"
    text += f" ({by})" if by else ""
    if promise.due < first:
        draft.due = promise.due
        draft.moved += (promise.due.isoformat(),)
    if with_day and first <= promise.latest < last:
        draft.latest = promise.latest
        # A promise for the whole yard leaves the item what it was; one for some of its colonies parts them from it.
        draft.moved += () if _is_for_all(promise) else (promise.latest.isoformat(),)
        draft.since += f", promised for {spoken_span(promise.due, promise.latest, day)}"
        text += f"; {_LIMITS.get(draft.what, 'else in good time')} until {spoken(last, day)}"
    draft.reasons.append(text)
    if draft.what == "take_out" and promise.latest > last:
        draft.reasons.append(f"That is past the longest stay: {spoken(last, day)} is the last day")
    if draft.what == "take_out" and with_day and promise.latest < first:
        draft.reasons.append(f"That is before the least stay is up: {spoken(first, day)} is the first day")


def _same_stuff(promise: Draft, draft: Draft) -> bool:
    """A promised treatment joins an item of its own active and form, or any where it did not say."""
    if promise.step[0] != "treatment" or draft.what in ("treat", "did_not_work"):
        return True
    lot = draft.at.lot
    return lot is None or fits_removal(lot, promise.records[0])


def supers_off_items(ledger: Ledger) -> list[Draft]:
    """Escapes put on: supers off before the bees find a way back in."""
    own, usual = ledger.roster.practice.escape_days, habit("escapes")
    first, most = own or (usual.first, usual.last)
    grounds = "the outfit's roster" if own else usual.cite
    drafts = []
    for lot in ledger.escapes:
        due, latest = after(lot.last, first), after(lot.first, most)
        due = min(due, latest)
        for piece in lot.open_pieces():
            drafts.append(
                Draft(
                    what="supers_off",
                    key=("escape", due.isoformat(), latest.isoformat()),
                    due=due,
                    latest=latest,
                    do="take the supers off",
                    since=f", escapes on since {spoken_span(lot.first, lot.last, ledger.day)}",
                    records=[lot.record],
                    reasons=[f"Escapes stay on {first} to {most} days: {grounds}"],
                    caution=work_caution("lifting"),
                    sure=lot.first == lot.last,
                    at=of_piece(piece),
                )
            )
    return drafts
