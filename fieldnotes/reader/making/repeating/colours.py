""" "Marked L2 white, L4 blue": the same work with a queen, another colour."""

from __future__ import annotations

from typing import Any

from fieldnotes.reader.assertion import Stance, take_stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message, day_of
from fieldnotes.reader.marking.colours import colour_in, is_colour
from fieldnotes.reader.scope import Draft


def marked_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "marked L2 white, L4 blue", "queens marked - L2 white": the same work with a queen, another colour."""
    if not s.has("cols") or s.has_head or any(m.label not in _BESIDE_COLOUR for m in s.marks):
        return False
    words = [m for m in s.marks if m.label == "w" and m.w not in ("and", "in", "-", "–", ":", "then", "*", "•")]
    colour = colour_in(words[0].w) if len(words) == 1 and is_colour(words[0].w) else None
    if colour is None:
        return False
    last = msg.last("queen_work")
    head = msg.before
    said = head.all("queen_work") if head is not None and not head.has("cols") else []
    if last is not None and "mark" in last.slots and _right_before(msg, last):
        kept: dict[str, Any] = {k: last.slots[k] for k in ("step", "on", "on_until") if k in last.slots}
        copy = Draft("queen_work", kept, [], dict(last.why))
        stance = Stance(last.slots.get("state", "done"), today=stance.today, hemisphere=stance.hemisphere)
    elif head is not None and said and said[0].v.get("step") in ("marked", "requeened", "introduced", "caught"):
        copy = Draft("queen_work", {"step": said[0].v["step"]}, [(said[0].s, said[0].e)], {"step": said[0].rule})
        stance = take_stance(head, msg.today, msg.hemisphere, None)
    else:
        return False
    copy.put("mark", colour, "the same work with another colour")
    copy.spans.append((words[0].s, words[0].e))
    day = day_of(copy)
    finishing.finish(msg, i, s, stance, copy)
    copy.slots.update(day)
    return True


def _right_before(msg: Message, last: Draft) -> bool:
    """Whether it was said last, or with only one between whose queen was not found: "three white, seven no sign"."""
    if msg.just_told(last):
        return True
    between = [d.slots.get("queen") for d in msg.thread.drafts if msg.just_told(d)]
    return last.statement == msg.thread.statements - 2 and between == ["not_seen"]


_BESIDE_COLOUR = frozenset("cols w comma filler hive yard".split())
