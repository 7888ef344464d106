""" "Same for 15", "ditto": the records of the colony before, once more.

First which records may be meant, then whom they are said of ("43: same as 42", "five the same"), then which of them
are said once more, all of one colony, then each copy, with its own count where one is said ("same in 14 but only two").
"""

from __future__ import annotations

from typing import NamedTuple

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of, number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import BULLETS
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.making.repeating.yards import same_there
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, settle_ids

_THE_SAME = listed("the_same")


class _Named(NamedTuple):
    """The colonies of "same": those before and after it, and the ids of the first after it."""

    before: list[Mark]
    after: list[Mark]
    ids: list[str]


def repeat(msg: Message, i: int, s: Statement, same: Mark, stance: Stance) -> bool:
    """ "same for 15", "ditto", "43: same as 42": the records of the colony before, once more."""
    drafts = _may_be_meant(msg)
    own = s.first("value", "number") or next((m for m in s.marks if m.w == "one"), None)
    if not drafts or (s.has("value", "mites", "percent") and not _but_so_many(s, own)):
        return False  # "same thing over at wens, seventy had three" says its own counts
    named = _named(msg, s, same)
    source: list[Draft] = []
    if not named.before and not named.after:
        return same_there(msg, i, s, same, stance, _done_last(drafts, stance))
    if _named_as_like(s, same, named, drafts):
        target = named.before[0]
        source = _told_of(drafts, named.ids) or _told_of(drafts, named.ids[:1])  # "same as 46 and | 50 had two"
        if not source:
            return False  # "51 same as 48", and of 48 nothing is known: not the same as the one before
    elif named.before and named.after and same.w in _THE_SAME and _right_after(s, named.before[-1], same):
        target = named.before[-1]  # "four gets a wafer and five the same, six I'm leaving alone"
        named = named._replace(after=[])
    else:
        target = (named.after or named.before)[0]
    source = source or _last_run(drafts)
    if same.w.startswith(("neither", "nor")):
        source = [d for d in source if _denied(d)]  # "six didn't make it and neither did seven"
    if same.w.split()[0] in ("get", "gets", "need", "needs") and stance.state == "done" and stance.ahead is not False:
        stance = stance.turned("planned")  # "and fifty gets the same by tuesday"
    if not _but_so_many(s, own) or not any(d.kind == "mite_check" for d in source):
        own = None
    ids, yard = settle_ids(list(target.v["ids"]), msg.held.yard, msg.outfit)
    for d in source:
        if own is not None and d.kind != "mite_check":
            continue
        copy = _copy_for(d, ids, stance, own)
        if yard:
            copy.put("yard", yard, "yard")
        if stance.when is not None:
            copy.put("on", stance.when[0].isoformat(), "date")
        counted = [own] if own is not None else []
        copy.spans += [(m.s, m.e) for m in (same, target, *counted, *named.after, *named.before)]
        msg.add(0, s, copy)
        if copy.kind == "treatment":
            msg.thread.last_treatment = copy
    return bool(source)


def _denied(d: Draft) -> bool:
    """Whether the record tells what is not there, or was not done."""
    lost = d.slots.get("step") == "died" or d.slots.get("queen") in ("less", "not_seen")
    return lost or d.slots.get("state") == "not_done" or any(value is False for value in d.slots.values())


def _may_be_meant(msg: Message) -> list[Draft]:
    """The records that "same" can be said of: those of this message, or of the note where it has none yet."""
    for lately in (msg.thread.lately(msg.first_draft), msg.thread.lately()):
        drafts = [d for d in lately if d.kind not in ("conditions", "todo")]
        if drafts:
            return drafts
    return []


def _named(msg: Message, s: Statement, same: Mark) -> _Named:
    at = index_of(s, same)
    before = [m for m in s.all("cols") if index_of(s, m) < at]
    after = [m for m in s.all("cols") if index_of(s, m) > at]
    ids = settle_ids(list(after[0].v["ids"]), msg.held.yard, msg.outfit)[0] if after else []
    return _Named(before, after, ids)


def _done_last(drafts: list[Draft], stance: Stance) -> Draft:
    """The record told last; what was done, where that one is a plan and the same is told of a day that is over."""
    last = drafts[-1]
    if last.slots.get("state") != "planned" or stance.state != "done" or stance.when is None:
        return last
    of_line = [d for d in drafts if d.line == last.line and d.slots.get("state", "done") == "done"]
    return next((d for d in reversed(of_line) if d.kind == last.kind), last)


def _told_of(drafts: list[Draft], ids: list[str]) -> list[Draft]:
    """The records of those colonies, and of no others."""
    return [d for d in drafts if d.slots.get("colonies") == ids]


def _named_as_like(s: Statement, same: Mark, named: _Named, drafts: list[Draft]) -> bool:
    """Whether the colonies after "same" only say like which the first ones are: "43: same as 42", "N4 - ditto N3"."""
    if not named.before or not named.after:
        return False
    if same.w.split()[-1] in ("as", "like", "with"):
        return True
    opens = next(m for m in s.marks if m.w not in BULLETS) is named.before[0]
    between = s.marks[index_of(s, named.before[0]) + 1 : index_of(s, same)]
    return opens and not any(m.w.isalnum() for m in between) and bool(_told_of(drafts, named.ids))


def _last_run(drafts: list[Draft]) -> list[Draft]:
    """The records told last, of one statement or line and of the same colonies."""
    last = drafts[-1]
    run: list[Draft] = []
    for d in reversed(drafts):
        if d.slots.get("colonies") != last.slots.get("colonies"):
            break
        if d.statement != last.statement and d.line != last.line:
            break
        run.append(d)
    return run[::-1]


def _copy_for(d: Draft, ids: list[str], stance: Stance, own: Mark | None) -> Draft:
    """The record once more, of those colonies; planned where it is still to be done, with its `own` count if any."""
    copy = Draft(d.kind, dict(d.slots), [], dict(d.why))
    if stance.state == "planned":
        copy.put("state", "planned", "gets the same")
        copy.slots.pop("on", None)
        copy.slots.pop("on_until", None)
    if own is not None:
        for slot in ("mites_high", "per_100", "approx"):
            copy.slots.pop(slot, None)
        copy.put("mites", tidy(number_of(own).value) if "n" in own.v else 1, "the same with another number")
    if "signs" in copy.slots:
        copy.slots["signs"] = list(copy.slots["signs"])
    copy.put("colonies", ids, "same for")
    for slot in ("every_colony", "except_colonies", "colony_count"):
        copy.slots.pop(slot, None)
    return copy


def _right_after(s: Statement, cols: Mark, same: Mark) -> bool:
    """Whether "same" stands right after the colonies, but for "the"."""
    return all(m.w == "the" for m in s.marks[index_of(s, cols) + 1 : index_of(s, same)])


def _but_so_many(s: Statement, number: Mark | None) -> bool:
    """ "same in 14 but only two": the same check with another count."""
    if number is None:
        return False
    before = {m.w for m in s.marks[: index_of(s, number)]}
    return not before.isdisjoint(("but", "only", "just"))
