"""From single findings to the items of the day: colonies alike share one, promises join what is due anyway."""

from __future__ import annotations

import datetime
import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass, field

from fieldnotes.records import Because, Due, Section, StoredRecord
from fieldnotes.roster import Roster, colony_key
from fieldnotes.schedule.colonies import Colonies, Colony
from fieldnotes.schedule.days import iso, spoken
from fieldnotes.schedule.pieces import Lot, Piece
from fieldnotes.schedule.wording import where

COMING_DAYS = 7


@dataclass(frozen=True, slots=True)
class Place:
    """Where a finding is: a colony, ids, a `count` of unnamed hives, or a yard as a whole but for `spared`.

    `origin` is the yard where it began, `lot` what it is part of; with `apart` the `count` is of these hives alone, and
    not of the lot with those that are out or gone since. `parted` says that others of the same are in another yard.
    """

    yard: str
    origin: str | None = None
    colony: Colony | None = None
    cids: tuple[str, ...] = ()
    count: int | None = None
    lot: Lot | None = None
    spared: frozenset[str] = frozenset()
    said_all: bool = False
    apart: bool = False
    parted: bool = False

    @property
    def shape(self) -> str:
        """ "named", "hives" or "yard"."""
        if self.colony is not None or self.cids:
            return "named"
        return "hives" if self.count is not None else "yard"


@dataclass(eq=False, slots=True)
class Draft:
    """One finding: one thing to do in one colony, in some unnamed hives, or in a yard.

    `key` is what makes it this item and no other: never the colony, never a day that passes. `do` and `since` make
    the sentence, `reasons` the grounds, `notes` what is particular to some of the colonies. `moved` are the days
    by which a promise parts it from others of the same key.
    """

    what: str
    at: Place
    key: tuple[str, ...]
    due: datetime.date
    latest: datetime.date
    do: str
    since: str = ""
    records: list[StoredRecord] = field(default_factory=list)
    reasons: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    caution: str | None = None
    sure: bool = True
    settle: bool = False
    step: tuple[str, str, str] = ("", "", "")
    moved: tuple[str, ...] = ()


def of_piece(piece: Piece) -> Place:
    """Where a piece is."""
    named = piece.colony is not None
    return Place(
        yard=piece.yard,
        origin=piece.lot.yard,
        colony=piece.colony,
        count=piece.count,
        lot=piece.lot,
        spared=frozenset() if named else frozenset(piece.spared),
        said_all=not named and piece.count is None,
        apart=piece.apart,
    )


def finished(drafts: Iterable[Draft], colonies: Colonies, roster: Roster, day: datetime.date) -> list[Due]:
    """The items of the day, in the order in which a person wants them: section, how late or how soon late, yard."""
    groups: dict[tuple[object, ...], list[Draft]] = {}
    for draft in drafts:
        groups.setdefault(_group(draft), []).append(draft)
    parted = _in_several_yards(groups.values())
    items = [_item(group, colonies, roster, day, parted) for group in groups.values()]
    order = {"overdue": 0, "today": 1, "coming": 2, "settle": 3}
    shown = [item for item in items if item is not None]

    def rank(item: Due) -> tuple[object, ...]:
        # What is due today goes by its last day, so that the nearest one warns before it is past.
        day = item.latest if item.section == "today" else item.due
        return order[item.section], -item.days_over, day, item.yard or "", item.what, item.colonies, item.says, item.id

    return sorted(shown, key=rank)


Name = tuple[str, str, str, tuple[str, ...]]


def _group(draft: Draft) -> tuple[object, ...]:
    at = draft.at
    return (draft.what, at.origin, at.yard, draft.key, at.shape, draft.due, draft.latest)


def _name(draft: Draft) -> Name:
    """What an item is, wherever its colonies went since."""
    at = draft.at
    return draft.what, at.yard if at.origin is None else at.origin, at.shape, draft.key


def _in_several_yards(groups: Iterable[list[Draft]]) -> set[Name]:
    """The items of which some colonies are in one yard and some in another."""
    yards: dict[Name, set[str]] = {}
    for group in groups:
        yards.setdefault(_name(group[0]), set()).add(group[0].at.yard)
    return {name for name, found in yards.items() if len(found) > 1}


def _id(draft: Draft, parted: set[Name]) -> str:
    """The same for as long as the thing is open: it knows neither the day nor the colonies.

    What was one thing and is in several yards by now is one in each; where it began it keeps its name.
    """
    what, origin, shape, key = name = _name(draft)
    parts: list[str] = [what, origin, shape, *key]
    if origin != draft.at.yard and (name in parted or _part_elsewhere(draft.at)):
        parts.append(draft.at.yard)
    parts += draft.moved
    return f"{what}-{hashlib.sha256(json.dumps(parts).encode()).hexdigest()[:12]}"


def _part_elsewhere(at: Place) -> bool:
    """Whether other colonies of the same are in another yard, also if theirs is over by now."""
    return at.parted or (at.lot is not None and any(p.yard != at.yard for p in at.lot.pieces))


def section_of(draft: Draft, day: datetime.date) -> Section | None:
    """Where it stands today, None when it is not shown yet."""
    if draft.settle:
        return "settle"
    if day > draft.latest:
        return "overdue"
    if day >= draft.due:
        return "today"
    return "coming" if (draft.due - day).days <= COMING_DAYS else None


def _item(group: list[Draft], colonies: Colonies, roster: Roster, day: datetime.date, parted: set[Name]) -> Due | None:
    first = group[0]
    section = section_of(first, day)
    if section is None:
        return None
    ids, every, spared, count = _who(group, colonies)
    place = where(first.at.yard, ids, every, spared, count)
    yard = roster.named(first.at.yard)
    return Due(
        id=_id(first, parted),
        what=first.what,
        section=section,
        yard=first.at.yard or None,
        truck=yard.truck if yard else None,
        colonies=ids,
        every_colony=every,
        except_colonies=spared,
        colony_count=count,
        due=first.due.isoformat(),
        latest=first.latest.isoformat(),
        days_over=max(0, (day - first.latest).days) if section == "overdue" else 0,
        says=_sentence(f"{place}: {first.do}{first.since}" if place else f"{first.do}{first.since}"),
        because=_because(group, day),
        caution=first.caution,
        sure=all(d.sure for d in group),
    )


def _who(group: list[Draft], colonies: Colonies) -> tuple[list[str], bool, list[str], int | None]:
    """Ids, whether it is every colony, which are spared, and how many hives where that is all that is known."""
    at = group[0].at
    ids = sorted({c for d in group for c in ((d.at.colony.cid,) if d.at.colony else d.at.cids)}, key=colony_key)
    count = sum(d.at.count or 0 for d in group) or None
    for lot in dict.fromkeys(d.at.lot for d in group if d.at.lot is not None and not d.at.apart):
        gone = lot.taken + lot.lost
        if gone and (ids or count):
            count = max(1, (count or len(ids)) - gone)
    if at.said_all:
        return [], True, sorted(frozenset[str]().union(*(d.at.spared for d in group)), key=colony_key), count
    all_in = at.yard in colonies.rostered and set(ids) == colonies.ids(at.yard)
    every = count is None and len(ids) > 1 and all_in
    return [] if every else ids, every, [], count


def _because(group: list[Draft], day: datetime.date) -> Because:
    reasons = dict.fromkeys(r for d in group for r in d.reasons)
    notes = dict.fromkeys(n for d in group for n in d.notes)
    records = sorted({r.id: r for d in group for r in d.records}.values(), key=lambda r: (r.said, r.received, r.id))
    words = [*reasons, *notes, _told(records, day)]
    return Because(records=[r.id for r in records], reason=" ".join(_sentence(w) for w in words if w))


def _told(records: list[StoredRecord], day: datetime.date) -> str:
    """Whose notes it rests on, and of which days."""
    notes: dict[str, list[str]] = {}
    for record in records:
        days = notes.setdefault(record.sender or "", [])
        said = spoken(iso(record.said), day)
        if said not in days:
            days.append(said)
    parts = [f"{who or 'note of'} {_listed(days)}" for who, days in notes.items()]
    return f"Told: {'; '.join(parts)}" if parts else ""


def _listed(words: list[str]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]


def _sentence(text: str) -> str:
    text = text.strip()
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
