""" "Lost five at Cut Bank and two at Wens": the same change, another number from elsewhere."""

from __future__ import annotations

from typing import Any

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import number_of, tidy
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.making.repeating.pairs import came_from
from fieldnotes.reader.scope import Draft, Place, settle_ids


def elsewhere(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "lost five at cut bank and two at wens", "thirty out of s two and ten more out of s five": the same change or
    graft, another number at another yard or from another colony.
    """
    numbers, cols = [m for m in s.marks if m.label in _COUNTED and "n" in m.v], s.all("cols")
    source = bool(cols) and came_from(s, cols[0])
    if len(numbers) != 1 or len(cols) > 1 or not (s.has("yard") or source):
        return False
    named = {"that's", "that", "which", "is"} if cols else set()  # "one at cut bank, that's sixty two"
    if any(
        m is not numbers[0]
        and m.label not in ("yard", "filler", "comma", "approx", "cols", "hive")
        and m.w not in _ELSEWHERE
        and m.w not in named
        for m in s.marks
    ):
        return False
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    none = number_of(numbers[0]).value == 0
    if none and last is not None and last.kind == "change" and last.sentence == s.sentence:
        return True  # "three at millpond and none at larks": no loss there
    kinds = ("change", "gear", "harvest", "queen_work") if numbers[0].label == "number" else ("change", "queen_work")
    if last is not None and last.kind in kinds and last.sentence == s.sentence:
        counted = ("amount",) if last.kind == "harvest" and not cols else ("colony_count", "count")
        slot = next((x for x in counted if x in last.slots), None)
        if slot is None or last.statement != msg.thread.statements - 1:
            return False
        kept: dict[str, Any] = {k: last.slots[k] for k in ("step", "item", "unit") if k in last.slots}
        copy = Draft(last.kind, kept, [], dict(last.why))
    elif numbers[0].label != "number":
        return False
    else:
        head = msg.statements[i - 1] if i else None  # "deadouts: four at larks, two at the quarry"
        lost = head.first("change") if head is not None and head.sentence == s.sentence else None
        if lost is None or lost.v.get("step") != "died" or head is None or head.has("cols", "yard", "number", "hives"):
            return False
        copy = Draft("change", {"step": "died"}, [(lost.s, lost.e)], {"step": lost.rule})
        slot = "colony_count"
    copy.spans.append((numbers[0].s, numbers[0].e))
    place = Place(msg.held.yard)
    if cols:
        place.colonies, place.yard = settle_ids(list(cols[0].v["ids"]), msg.held.yard, msg.outfit)
        copy.spans.append((cols[0].s, cols[0].e))
    if source or not cols:
        copy.put(slot, tidy(number_of(numbers[0]).value), "the same at another yard")
    finishing.finish(msg, i, s, stance, copy, place)
    if last is not None and copy.kind == last.kind and stance.said is None and stance.state == "done":
        for kept_slot in ("state", "on", "on_until"):
            if kept_slot in last.slots:
                copy.put(kept_slot, last.slots[kept_slot], "as the one before")
    for m in s.all("yard"):
        copy.spans.append((m.s, m.e))
    return True


_ELSEWHERE = frozenset("and at from in on off out of the then another i've we've got i we more only just".split())


_COUNTED = frozenset(["number", "hives", "noun", "queen_noun"])
