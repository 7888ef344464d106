""" "Split 45 into 58 and 46 into 59": the same change of another pair."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message, day_of
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Place, settle_ids

_BESIDE = frozenset(["cols", "comma", "filler", "hive", "date", "yard"])
_BETWEEN_TWO = listed("between_two")
_MADE_LIKEWISE = listed("made_likewise")
_MOVES = listed("moved_likewise")
_OF_TWO = frozenset(["split", "combined", "moved", "nuc_made"])
"""Changes that have two sides, each a colony."""


def pair_again(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "split 45 into 58 and 46 into 59": the same change of another pair."""
    last, cols = msg.newest, s.all("cols")
    if last is None or last.kind != "change" or last.sentence != s.sentence:
        return False
    if len(cols) == 1:
        return _moved_again(msg, i, s, stance, last)
    if len(cols) != 2 or last.slots.get("step") not in _OF_TWO or not _only_another_pair(s, last, cols[-1]):
        return False
    one, two = cols
    if last.slots["step"] == "nuc_made" and came_from(s, two):
        one, two = two, one  # "made N5 out of 18 | and N6 out of 20"
    ids, yard = settle_ids(list(one.v["ids"]), msg.held.yard, msg.outfit)
    other, _ = settle_ids(list(two.v["ids"]), yard, msg.outfit)
    copy = Draft("change", {"step": last.slots["step"], "with": other}, [(m.s, m.e) for m in cols], dict(last.why))
    if last.slots["step"] == "nuc_made" and any(m.w == "one" for m in s.all("number")):
        copy.put("count", 1, "one more")
    if "with" not in last.slots and "count" not in last.slots and set(ids) < set(last.slots.get("colonies", [])):
        copy.spans += last.spans  # "split nine and ten, | nine into N1": told as a whole, and now dealt out
        msg.thread.drafts.remove(last)
    own = _own_day(msg, s, stance)
    if own is not None:
        finishing.finish(msg, i, s, own, copy, Place(yard, ids))
        return True
    before = last.slots.get("state", "done")
    state = "planned" if cues(s, "plan") else before
    finishing.finish(msg, i, s, Stance(state, today=msg.today), copy, Place(yard, ids))
    if state == before:  # not so of "still to do: N1 into 20"
        _put_day_before(copy, last, "the day of the pair before")
    return True


def _only_another_pair(s: Statement, last: Draft, cols: Mark) -> bool:
    """Whether no more is said than who went where, but for an aside ("75 into 76 that leaves us eight")."""
    told = index_of(s, cols) + 1
    aside = told < len(s.marks) and s.marks[told].w in ("that", "which", "so", "the")
    return all(
        m.label in _BESIDE
        or m.w in _BETWEEN_TWO
        or (m.w in _MADE_LIKEWISE and last.slots["step"] == "nuc_made")
        or m.v.get("cue") == "plan"
        for m in (s.marks[:told] if aside else s.marks)
    )


def _put_day_before(copy: Draft, last: Draft, why: str) -> None:
    for slot, day in day_of(last).items():
        copy.put(slot, day, why)


def _moved_again(msg: Message, i: int, s: Statement, stance: Stance, last: Draft) -> bool:
    """ "moved 71 to the Quarry | and 75 to Larkfield": others, moved to another yard."""
    cols = s.all("cols")[0]
    yards = [m for m in s.all("yard") if m.v.get("to") or s.marks[index_of(s, m) - 1].w == "to"]
    if last.slots.get("step") != "moved" or len(yards) != 1:
        return False
    if any(m.label not in _BESIDE and m.w not in _MOVES for m in s.marks):
        return False
    ids, yard = settle_ids(list(cols.v["ids"]), last.slots.get("yard"), msg.outfit)
    copy = Draft("change", {"step": "moved", "to_yard": yards[0].v["value"]}, [], dict(last.why))
    copy.spans += [(m.s, m.e) for m in (cols, *yards)]
    finishing.finish(msg, i, s, stance.turned(last.slots.get("state", "done")), copy, Place(yard, ids))
    if not s.has("date"):
        _put_day_before(copy, last, "the day of the move before")
    return True


def _own_day(msg: Message, s: Statement, stance: Stance) -> Stance | None:
    """How the day said of another pair is meant: "n six goes into 22 on sunday" lies ahead, "44 into 45 tuesday" is
    as the pair before; None where no day is said.
    """
    if stance.said is None:
        return None
    goes = any(m.w.split()[0] in ("go", "goes") for m in s.marks) or bool(cues(s, "plan"))
    state = "planned" if goes or stance.ahead else msg.thread.drafts[-1].slots.get("state", "done")
    return stance.turned(state)


def came_from(s: Statement, cols: Mark) -> bool:
    """Whether "out of", "off" or "from" stands before the colonies."""
    before = [m.w for m in s.marks[: index_of(s, cols)] if m.label != "hive" and m.w != "the"]
    return before[-1:] in (["from"], ["off"]) or before[-2:] in (["out", "of"], ["off", "of"])
