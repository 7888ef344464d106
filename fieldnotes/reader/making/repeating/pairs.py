""" "Split 45 into 58 and 46 into 59": the same change of another pair."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Place, settle_ids


def pair_again(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "split 45 into 58 and 46 into 59": the same change of another pair."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    cols = s.all("cols")
    if last is not None and last.kind == "change" and last.sentence == s.sentence and len(cols) == 1:
        return _moved_again(msg, i, s, stance, last)
    told = index_of(s, cols[-1]) + 1
    aside = s.marks[told].w in ("that", "which", "so", "the") if told < len(s.marks) else False
    if (
        last is None
        or last.kind != "change"
        or last.slots.get("step") not in ("split", "combined", "moved", "nuc_made")
        or last.sentence != s.sentence
        or len(cols) != 2
        or any(
            m.label not in ("cols", "comma", "filler", "hive", "date", "yard")
            and m.w not in ("and", "into", "with", "then", "goes", "went", "go", "goes into", "went into")
            and m.w not in ("at", "in", "over", "down", "up", "out")
            and m.w not in ("i", "newspaper", "paper", "both")
            and not (last.slots["step"] == "nuc_made" and m.w in _MADE_LIKEWISE)
            and m.v.get("cue") != "plan"
            for m in (s.marks[:told] if aside else s.marks)  # "75 into 76 that leaves us eight"
        )
    ):
        return False
    one, two = cols
    if last.slots["step"] == "nuc_made" and came_from(s, two):
        one, two = two, one  # "made N5 out of 18 | and N6 out of 20"
    ids, yard = settle_ids(list(one.v["ids"]), msg.held.yard, msg.outfit)
    other, _ = settle_ids(list(two.v["ids"]), yard, msg.outfit)
    copy = Draft("change", {"step": last.slots["step"], "with": other}, [], dict(last.why))
    if last.slots["step"] == "nuc_made" and any(m.w == "one" for m in s.all("number")):
        copy.put("count", 1, "one more")
    copy.spans += [(m.s, m.e) for m in cols]
    whole = last.slots.get("colonies", [])
    if "with" not in last.slots and "count" not in last.slots and set(ids) < set(whole):
        copy.spans += last.spans  # "split nine and ten, | nine into N1": told as a whole, and now dealt out
        msg.thread.drafts.remove(last)
    state = "planned" if cues(s, "plan") else last.slots.get("state", "done")
    own = _own_day(msg, s, stance)
    if own is not None:
        state = "planned" if own.plan else "done"
    finishing.finish(msg, i, s, own or Stance(state, today=msg.today), copy, Place(yard, ids))
    if own is not None or state != last.slots.get("state", "done"):
        return True  # "still to do: N1 into 20"
    for slot in ("on", "on_until"):
        if slot in last.slots:
            copy.put(slot, last.slots[slot], "the day of the pair before")
    return True


_MADE_LIKEWISE = frozenset("of from off one another also that that's is it it's called a nuc".split())


def _moved_again(msg: Message, i: int, s: Statement, stance: Stance, last: Draft) -> bool:
    """ "moved 71 to the Quarry | and 75 to Larkfield": others, moved to another yard."""
    yards = [m for m in s.all("yard") if m.v.get("to") or s.marks[index_of(s, m) - 1].w == "to"]
    plain = all(m.label in ("cols", "comma", "filler", "hive", "date", "yard") or m.w in _MOVES for m in s.marks)
    if last.slots.get("step") != "moved" or len(yards) != 1 or len(s.all("cols")) != 1 or not plain:
        return False
    ids, yard = settle_ids(list(s.all("cols")[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    copy = Draft("change", {"step": "moved", "to_yard": yards[0].v["value"]}, [], dict(last.why))
    copy.spans += [(m.s, m.e) for m in (*s.all("cols"), *yards)]
    finishing.finish(msg, i, s, stance.turned(last.slots.get("state", "done")), copy, Place(yard, ids))
    for slot in ("on", "on_until"):
        if slot in last.slots and not s.has("date"):
            copy.put(slot, last.slots[slot], "the day of the move before")
    return True


_MOVES = frozenset("and then to over went goes go".split())


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
