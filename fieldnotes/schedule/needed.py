"""Which records a digest still needs: those with something open, and those that new records may yet bear on.

A book of many seasons is mostly closed: strips that came out and were counted after, promises kept, colonies long gone.
`needed` picks the rest, so that a digest costs what is open and not what was ever written:

    due_items(needed(records), …, day) == due_items(records, …, day)     for the day it was made for and later ones,
                                                                         with whatever is told after it

The book may keep the ids that are not needed in a table of settled records and hand `due_items` only the others. To
keep that table, call `settled` over the unsettled records alone whenever their number has doubled: what was settled
before needs no second look. Two things make settled records matter again, and the book then takes the records of the
yards concerned out of the table: a record that `reaches_back`, and a settled record that is mended, rejected or undone.
"""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable, Sequence

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.colonies import Colony, Past
from fieldnotes.schedule.counted import AFTER_DAYS, BEFORE_DAYS, ROUND_DAYS, Treatment, treatments_of
from fieldnotes.schedule.counting import ending_place, last_endings, uncounted
from fieldnotes.schedule.days import first_day, iso
from fieldnotes.schedule.doubts import ODDITY_DAYS
from fieldnotes.schedule.failing import did_not_work_items
from fieldnotes.schedule.ledger import Ledger, event_day
from fieldnotes.schedule.levels import Placings, last_round
from fieldnotes.schedule.pieces import Lot, Piece
from fieldnotes.schedule.quiet import first_met, sift
from fieldnotes.schedule.replay import replay
from fieldnotes.schedule.staying import waits_for_next
from fieldnotes.schedule.supers import HONEY_KEPT_DAYS

RECENT_DAYS = 14
"""Every record of these last days is kept: notes are taken late and out of order."""
NEAR_DAYS = 90
"""Records of treatments, counts, boxes, queens and colonies are kept this long: further doses, counts before a
treatment and waiting times look back no further."""
NEAR_KINDS = ("treatment", "mite_check", "change", "queen_work", "gear", "conditions", "harvest")
SEASON_GEAR_DAYS = 420
FEW_HELD = 10_000
"""What is held of a book is gone through when it is twice what was left the last time, but not while it is fewer."""


def settled(
    records: Sequence[StoredRecord], roster: Roster, day: datetime.date, closed: Collection[str] = ()
) -> set[str]:
    """The ids of the records that no digest of `day` or later needs. See `needed`."""
    return {r.id for r in records} - needed(records, roster, day, closed)


def reaches_back(record: StoredRecord, day: datetime.date) -> bool:
    """Whether a record taken on `day` tells of a time of which settled records may have been let go."""
    return (day - event_day(record)).days > RECENT_DAYS


def needed_of_run(
    run: Iterable[Sequence[StoredRecord]],
    late: Sequence[StoredRecord],
    roster: Roster,
    day: datetime.date,
    always: Collection[str] = (),
    few: int = FEW_HELD,
) -> tuple[list[StoredRecord], list[str]]:
    """The records that a digest of `day` needs, and the ids of the others, out of a book read piece by piece.

    What is over is let go after each piece, so that a book of any length takes the memory of a piece of it.

    Args:
        run: the records of the book in the order in which they were said, in pieces.
        late: those of them that `reaches_back` when they were said: what is let go before they come must not be of
            their yards.
        roster: what the outfit knows.
        day: the day of the digest; records said later are left out of both.
        always: ids that are kept whatever comes.
        few: so many records are held before it is looked what is over.
    """
    held: list[StoredRecord] = []
    waiting: list[StoredRecord] = []
    over: list[str] = []
    until, stirred, grown = day, set[str](), few
    for piece in run:
        # Records of the last day may stand in the next piece too, so the book is kept up to the day before.
        until = min(iso(piece[-1].said) - datetime.timedelta(days=1), day)
        stirred = yards_of(r for r in late if iso(r.said) > until and reaches_back(r, until))
        told = [*waiting, *(r for r in piece if iso(r.said) <= day)]
        sifted = sift(told, held, stirred, frozenset(y.name for y in roster.yard if y.ids))
        held += sifted.loud
        # What is told late, or in the next piece, may yet bear on the last days.
        since = (until - datetime.timedelta(days=RECENT_DAYS)).isoformat()
        waiting = []
        for record in sifted.quiet:
            if record.said >= since or (record.slots.get("on") or "") >= since or record.id in always:
                waiting.append(record)
            else:
                over.append(record.id)
        if len(held) >= grown:
            held = _trimmed(held, over, roster, until, always, stirred)
            grown = 2 * max(len(held), few)
    return _trimmed(held, over, roster, until, always, stirred) + waiting, over


def _trimmed(
    held: list[StoredRecord],
    over: list[str],
    roster: Roster,
    until: datetime.date,
    always: Collection[str],
    stirred: Collection[str],
) -> list[StoredRecord]:
    """What is still needed of those held; the ids of the rest go to `over`."""
    wanted = needed(held, roster, until, also={*always, *(r.id for r in held if touches(r, stirred))})
    kept = [r for r in held if r.id in wanted]
    over += {r.id for r in held} - {r.id for r in kept}
    return kept


def yards_of(records: Iterable[StoredRecord]) -> set[str]:
    """The yards that records speak of; "" stands for any, where one names none."""
    return {
        yard or "" for r in records for yard in (r.slots.get("yard"), r.slots.get("to_yard") or r.slots.get("yard"))
    }


def touches(record: StoredRecord, yards: Collection[str]) -> bool:
    """Whether a record may speak of some of these yards: it names one, or none at all, or "" is among them."""
    if not yards:
        return False
    own = yards_of([record])
    return "" in yards or "" in own or not own.isdisjoint(yards)


def needed(
    records: Sequence[StoredRecord],
    roster: Roster,
    day: datetime.date,
    closed: Collection[str] = (),
    also: Collection[str] = (),
) -> set[str]:
    """The ids of the records that a digest of `day`, or of a later day, still needs.

    Args:
        records: the records of the book, or those not settled yet.
        roster: what the outfit knows.
        day: the day up to which the book was kept.
        closed: records (of todos, of foulbrood) whose items were closed by hand: they are let go.
        also: ids of records that are kept whatever they say, with all that hangs on them.
    """
    ledger = replay(records, roster, day)
    keep = _Keep(ledger)
    for record in records:
        if record.id in also or _recent(record, day):
            keep.record(record)
    for lot in ledger.lots():
        if _open(lot) or (lot in keep.treatments and _unfinished(ledger, lot, day)):
            keep.lot(lot)
    _keep_endings(ledger, keep)
    _keep_counts(ledger, keep, day)
    for colony in ledger.colonies.changed():
        keep.records(colony.history)
    _keep_season(ledger, keep, day)
    keep.records(f.record for f in ledger.foulbrood if f.record.id not in closed)
    keep.records(r for r in ledger.todos if r.id not in closed)
    keep.records(o.record for o in ledger.oddities if (day - iso(o.record.said)).days <= ODDITY_DAYS)
    keep.records(first_met(records, ledger.colonies.rostered).values())
    _keep_what_no_yard_may_mean(ledger, keep, records)
    kept = 0
    while kept < len(keep.ids()):
        kept = len(keep.ids())
        _keep_season_of_counts(ledger, keep)
        _keep_past(ledger, keep, records)
    return keep.ids()


def _keep_season_of_counts(ledger: Ledger, keep: _Keep) -> None:
    """With a count that is kept, what was said of brood and flow before it: by them it is judged."""
    kept = keep.ids()
    for place, checks in ledger.checks.by_place():
        for check in checks:
            if check.record.id in kept:
                _keep_words(ledger, keep, place, check.last)


def _keep_words(ledger: Ledger, keep: _Keep, place: Colony | str, day: datetime.date) -> None:
    """What is said by the end of a day of brood in a colony, or in a yard, and of the flow there."""
    yard, colony = (place.yard, place) if isinstance(place, Colony) else (place, None)
    broods, flow = ledger.season_words(yard, colony, day)
    keep.records(said.record for said in broods)
    if flow is not None:
        keep.record(flow.record)


def _keep_what_no_yard_may_mean(ledger: Ledger, keep: _Keep, records: Sequence[StoredRecord]) -> None:
    """With a record that names no yard, everything that was open then and that it may have meant: what it did mean
    hangs on how many there were."""
    unplaced = [r for r in records if not r.slots.get("yard") and r.kind != "todo"]
    if not unplaced:
        return
    every, by_number = list(ledger.lots()), dict[str, list[Lot]]()
    for lot in every:
        for cid in {c for p in lot.pieces for c in _numbers(p)}:
            by_number.setdefault(cid, []).append(lot)
    while unplaced:
        kept = keep.ids()
        new = [r for r in unplaced if r.id in kept]
        if not new:
            return
        unplaced = [r for r in unplaced if r.id not in kept]
        for record in new:
            day, numbers = event_day(record), record.slots.get("colonies")
            lots = [lot for cid in (*numbers, "") for lot in by_number.get(cid, ())] if numbers else every
            for lot in lots:
                if lot.first <= day and any(p.end is None or p.end.last >= day for p in lot.pieces):
                    keep.lot(lot)


def _numbers(piece: Piece) -> set[str]:
    """The numbers by which a piece may be meant: those its colony has or had; "" for unnamed hives."""
    return {piece.colony.cid, *(cid for _, cid in piece.colony.names)} if piece.colony else {""}


def _keep_past(ledger: Ledger, keep: _Keep, records: Sequence[StoredRecord]) -> None:
    """What became of colonies whose hives have new ones, where a kept record speaks of the hive before that."""
    past = list(ledger.colonies.past)
    while past:
        kept = keep.ids()
        named: dict[tuple[str, str], datetime.date] = {}
        whole: dict[str, datetime.date] = {}
        for record in records:
            if record.id not in kept or record.kind == "todo":
                continue
            for yard in {record.slots.get("yard") or "", record.slots.get("to_yard") or ""}:
                for cid in record.slots.get("colonies", ()):
                    named[yard, cid] = min(event_day(record), named.get((yard, cid), datetime.date.max))
                if not record.slots.get("colonies") and record.kind != "mite_check":
                    whole[yard] = min(event_day(record), whole.get(yard, datetime.date.max))
        matter = [p for p in past if _spoken_of(p, named, whole)]
        if not matter:
            return
        for one in matter:
            keep.records(one.history)
        past = [p for p in past if p not in matter]


def _spoken_of(past: Past, named: dict[tuple[str, str], datetime.date], whole: dict[str, datetime.date]) -> bool:
    """Whether a kept record names the hive, or its whole yard, before the new colony came."""
    late = datetime.date.max
    for yard, cid in past.names:
        days = (named.get((yard, cid), late), named.get(("", cid), late), whole.get(yard, late), whole.get("", late))
        if min(days) < past.until:
            return True
    return False


class _Keep:
    """What is kept. With a lot go all records that made it; with a record all lots that it opened, and those that it
    changed where it would change others in their place: a removal whose placing is gone, a placing whose removal is
    gone, queens out of a bank that is gone, or a number of hives would tell another story."""

    def __init__(self, ledger: Ledger) -> None:
        self.treatments = set(ledger.treatments)
        self._lots_of: dict[str, list[Lot]] = {}
        boxes = {*ledger.supers, *ledger.escapes}
        for lot in ledger.lots():
            for record in lot.told_by():
                opened = record is lot.record or record in lot.also
                if opened or lot not in boxes or record.slots.get("colony_count"):
                    self._lots_of.setdefault(record.id, []).append(lot)
        self._ids: set[str] = set()
        self._lots: set[Lot] = set()
        self._waiting: list[Lot] = []

    def record(self, record: StoredRecord) -> None:
        """Keep a record and what hangs on it."""
        if record.id not in self._ids:
            self._ids.add(record.id)
            self._waiting += self._lots_of.get(record.id, ())

    def records(self, records: Iterable[StoredRecord]) -> None:
        """Keep records and what hangs on them."""
        for record in records:
            self.record(record)

    def lot(self, lot: Lot) -> None:
        """Keep a lot with all its records."""
        self._waiting.append(lot)

    def ids(self) -> set[str]:
        """Follow what hangs together to its end."""
        while self._waiting:
            lot = self._waiting.pop()
            if lot in self._lots:
                continue
            self._lots.add(lot)
            self.records(lot.told_by())
            self._waiting += [p.before.lot for p in lot.pieces if p.before is not None]
        return self._ids

    def kept_lots(self) -> set[Lot]:
        """The lots kept so far."""
        self.ids()
        return self._lots


def _recent(record: StoredRecord, day: datetime.date) -> bool:
    told = (day - max(event_day(record), iso(record.said))).days
    near = record.kind in NEAR_KINDS and record.slots.get("state", "done") == "done"
    return told <= (NEAR_DAYS if near else RECENT_DAYS)


def _open(lot: Lot) -> bool:
    return any(p.end is None and (p.colony is None or p.colony.left is None) for p in lot.pieces)


def _unfinished(ledger: Ledger, lot: Lot, day: datetime.date) -> bool:
    """A treatment of this year, one that ended lately, or one that wants a further dose."""
    if _counts_towards_a_limit(lot, day) or any(waits_for_next(ledger, lot, p) for p in lot.pieces):
        return True
    for piece in lot.pieces:
        end = piece.end
        if end is None or (piece.colony is not None and piece.colony.left is not None):
            continue
        if (day - end.last).days <= NEAR_DAYS:
            return True
    return False


def _counts_towards_a_limit(lot: Lot, day: datetime.date) -> bool:
    """Of this year, or for what the label counts by winters, of the last twelve months."""
    return lot.first.year >= day.year or (lot.get("form") == "dribble" and (day - lot.first).days <= 366)


def _keep_endings(ledger: Ledger, keep: _Keep) -> None:
    """The last treatment that ended where some treatment was never counted after, with those that ended beside it, and
    the last one of an active where a course of it was broken off."""
    last = last_endings(ledger)
    for group in uncounted(ledger).values():
        for other in dict.fromkeys(p for piece, _ in group.endings for p in piece.lot.pieces):
            newest = last.get(ending_place(other))
            keep.lot(newest[0].lot if newest else other.lot)
    for lot in ledger.treatments:
        for piece in lot.pieces:
            follower = ledger.latest.get(piece.colony or piece.yard, {}).get(lot.get("agent"))
            if follower is not None and follower is not piece and not piece.followed and ledger.has_next(piece):
                keep.lot(follower.lot)
            ending = last.get(ending_place(piece))
            if ending and piece.end and not ledger.checks.any_after(piece, piece.end.last):
                keep.lot(ending[0].lot)


def _keep_counts(ledger: Ledger, keep: _Keep, day: datetime.date) -> None:
    """The last counts of each colony and yard, and those around treatments that are not judged yet or failed."""
    keep.records(c.record for c in ledger.checks.last_ones())
    placings = Placings(ledger)
    for yard in ledger.checks.places():
        found = last_round(ledger, placings, yard)
        if found is not None:
            keep.records(c.record for c in found.checks)
        for check in ledger.checks.in_yard(yard)[-1:]:
            places: list[Colony | str] = [*ledger.checks.colonies(yard), yard]
            for place in places:
                for felled in placings.felling(place, check):
                    keep.lot(felled)
    for draft in did_not_work_items(ledger):
        keep.records(draft.records)
    for yard in ledger.checks.places():
        for colony in ledger.checks.colonies(yard):
            lot = placings.latest(colony, ledger.checks.named(colony)[-1].last)
            if lot is not None and colony.left is None:
                keep.lot(lot)
        samples = ledger.checks.samples(yard)
        lot = placings.latest(yard, samples[-1].last) if samples else None
        if lot is not None:
            keep.lot(lot)
    lots = keep.kept_lots()
    for treatment in treatments_of(ledger):
        if not lots.isdisjoint(treatment.lots) and _may_be_judged(treatment, day):
            since = treatment.start - datetime.timedelta(days=BEFORE_DAYS + ROUND_DAYS)
            yards = {p.yard for lot in treatment.lots for p in lot.pieces} | {treatment.yard}
            for place in yards:
                keep.records(c.record for c in ledger.checks.in_yard(place) if c.last >= since)
            for piece in _pieces(treatment):
                keep.records(c.record for c in ledger.checks.of(piece) if c.last >= since)


def _pieces(treatment: Treatment) -> list[Piece]:
    return [*treatment.pieces, *treatment.running]


def _may_be_judged(treatment: Treatment, day: datetime.date) -> bool:
    last = max((e.last for e in treatment.ends), default=None)
    return bool(treatment.running) or (last is not None and (day - last).days <= AFTER_DAYS + ROUND_DAYS)


def _keep_supers(ledger: Ledger, keep: _Keep, day: datetime.date) -> None:
    """Supers that came off before a treatment which is in, or was of late: honey may still be taken from them."""
    since: dict[str, datetime.date] = {}
    for lot in ledger.treatments:
        for piece in lot.pieces:
            if piece.end is None or (day - piece.end.last).days <= NEAR_DAYS:
                since[piece.yard] = min(lot.first, since.get(piece.yard, lot.first))
    for record in ledger.gear:
        start = since.get(record.slots.get("yard") or "")
        if record.slots.get("item") == "super" and start is not None:
            if first_day(record) >= start - datetime.timedelta(days=HONEY_KEPT_DAYS):
                keep.record(record)


def _keep_season(ledger: Ledger, keep: _Keep, day: datetime.date) -> None:
    """What was said of brood and flow of late, gear of the season, weather under what is in."""
    for place in (*ledger.brood, *ledger.flow):
        _keep_words(ledger, keep, place, day)
    tasks = {(t.item, t.step) for t in ledger.roster.practice.season}
    keep.records(
        g
        for g in ledger.gear
        if (g.slots.get("item"), g.slots.get("step")) in tasks and (day - first_day(g)).days <= SEASON_GEAR_DAYS
    )
    begun: dict[str, datetime.date] = {}
    for lot in ledger.treatments:
        for yard in {p.yard for p in lot.pieces if p.end is None}:
            begun[yard] = min(lot.first, begun.get(yard, lot.first))
    _keep_supers(ledger, keep, day)
    for record in (*ledger.conditions, *ledger.harvests):
        yard = record.slots.get("yard") or ""
        starts = [d for y, d in begun.items() if yard in ("", y)]
        if any(first_day(record) >= d for d in starts):
            keep.record(record)
