""" "Lost five at Cut Bank and two at Wens": the same change, another number from elsewhere."""

from __future__ import annotations

from typing import Any

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.making.repeating.pairs import came_from
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Place, settle_ids

_ELSEWHERE = listed("so_many_elsewhere")
_COUNTED = frozenset(["number", "hives", "noun", "queen_noun"])
_BESIDE = frozenset(["yard", "filler", "comma", "approx", "cols", "hive"])
_NAMES_IT = frozenset(["that's", "that", "which", "is"])


def elsewhere(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "lost five at cut bank and two at wens", "thirty out of s two and ten more out of s five": the same change or
    graft, another number at another yard or from another colony.
    """
    number, cols = _number_elsewhere(s), s.first("cols")
    if number is None:
        return False
    last = msg.newest
    goes_on = last is not None and last.sentence == s.sentence
    if goes_on and last is not None and last.kind == "change" and number_of(number).value == 0:
        return True  # "three at millpond and none at larks": no loss there
    if goes_on and last is not None and last.kind in _kinds_counted(number):
        slot = _counted_slot(last, cols)
        if slot is None or not msg.just_told(last):
            return False
        kept: dict[str, Any] = {k: last.slots[k] for k in ("step", "item", "unit") if k in last.slots}
        copy = Draft(last.kind, kept, [], dict(last.why))
    else:
        lost = _losses_over_list(msg, i, s) if number.label == "number" else None
        if lost is None:
            return False
        slot = "colony_count"
        copy = Draft("change", {"step": "died"}, [(lost.s, lost.e)], {"step": lost.rule})
    copy.spans.append((number.s, number.e))
    place = Place(msg.held.yard)
    if cols is not None:
        place.colonies, place.yard = settle_ids(list(cols.v["ids"]), msg.held.yard, msg.outfit)
        copy.spans.append((cols.s, cols.e))
    if cols is None or came_from(s, cols):
        copy.put(slot, tidy(number_of(number).value), "the same at another yard")
    finishing.finish(msg, i, s, stance, copy, place)
    if last is not None and copy.kind == last.kind and stance.said is None and stance.state == "done":
        for kept_slot in ("state", "on", "on_until"):
            if kept_slot in last.slots:
                copy.put(kept_slot, last.slots[kept_slot], "as the one before")
    copy.spans += [(m.s, m.e) for m in s.all("yard")]
    return True


def _number_elsewhere(s: Statement) -> Mark | None:
    """The one number of a statement that gives no more than it and where it was, or what it came from; else None."""
    if not s.has("number", "hives", "noun", "queen_noun"):
        return None
    numbers, cols = [m for m in s.marks if m.label in _COUNTED and "n" in m.v], s.all("cols")
    if len(numbers) != 1 or len(cols) > 1 or not (s.has("yard") or (cols and came_from(s, cols[0]))):
        return None
    for m in s.marks:
        named = bool(cols) and m.w in _NAMES_IT  # "one at cut bank, that's sixty two"
        if m is not numbers[0] and m.label not in _BESIDE and m.w not in _ELSEWHERE and not named:
            return None
    return numbers[0]


def _kinds_counted(number: Mark) -> tuple[str, ...]:
    """The kinds of records that such a number can be of: a plain number of a thing too."""
    return ("change", "gear", "harvest", "queen_work") if number.label == "number" else ("change", "queen_work")


def _counted_slot(last: Draft, cols: Mark | None) -> str | None:
    """The slot of the record that holds its number."""
    if last.kind == "harvest" and cols is None:
        return "amount" if "amount" in last.slots else None
    return next((x for x in ("colony_count", "count") if x in last.slots), None)


def _losses_over_list(msg: Message, i: int, s: Statement) -> Mark | None:
    """ "deadouts: four at larks, two at the quarry": the losses named over the list; else None."""
    head = msg.statements[i - 1] if i else None
    lost = head.first("change") if head is not None and head.sentence == s.sentence else None
    if head is None or lost is None or lost.v.get("step") != "died" or head.has("cols", "yard", "number", "hives"):
        return None
    return lost
