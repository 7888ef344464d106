""" "Three and a half in 51": the thing told of before, left out, with another number.

In this order: do colonies stand there with a bare number, and nothing that says otherwise; which record is the
antecedent (what was given, seen or taken last); is the number of that one, or of checks named since; then the copy with
its own number, or none.
"""

from __future__ import annotations

from datetime import date
from itertools import pairwise, takewhile

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.amounts import OWN_UNITS
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import is_approx, number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.inorder import RULE as IN_ORDER
from fieldnotes.reader.making import finishing, holding, seeing
from fieldnotes.reader.making.message import GIVEN, Message, same_again
from fieldnotes.reader.making.repeating.lasting import all_so_long
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.scope import WHOLE_YARD, Draft

REASONS = listed("reasons")
_WHICH_ONE = listed("that_one")
_AS_WELL = listed("needs_no_more")
_HAS = frozenset(["has", "have", "had", "got"])
_NUMBERED = ("count", "amount", "brood_frames", "bee_frames", "food_frames", "queen_cells")
"""Slots that another number can be of, the likeliest first."""
_SEEN = frozenset(["brood_frames", "bee_frames", "food_frames", "queen_cells", "cell_type"])


def ellipsis(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "supers on L1-L12 1 ea, L13 thru L20 2 ea"; "three and a half in 51": the same thing with another number."""
    if s.has("clean") and not msg.held.method and not s.has("method", "check") and not _mites_counted(msg):
        _none_of_it(s)
    _another_of_it(s)
    planned = _in_a_planned_row(msg, s) if stance.state == "done" else None
    numbers = _numbers_alone(msg, s, stance)
    stance = planned or stance
    if not numbers or _says_how_it_stands(s) or _speaks_of_else(msg, s, numbers):
        return False
    recent = _antecedents(msg, s, stance)
    if not recent or (msg.held.method and recent[-1].kind not in GIVEN):
        return False
    cells = "queen_cells" in recent[-1].slots and msg.just_told(recent[-1])
    if _none_seen(msg, i, s, stance, recent[-1], numbers):
        return True
    if any(number_of(m).value == 0 for m in numbers) and not cells:
        recent = [d for d in recent if d.kind != "inspection"] or recent  # "76 is heavy and 78 got nothing"
    last = recent[-1]
    if last.sentence != s.sentence and last.line not in (s.line - 1, s.line):
        return False
    if _counting_since(msg, i, last) or _counts_told(msg, i, s, numbers):
        return False  # "n five got a pint | mite counts from the pond | hive eleven had five"
    if number_of(numbers[0]).value == 0 and not cells:  # "l21 has no cells": that was seen
        return _none_given(msg, i, s, stance, last, numbers[0])
    copy = same_again(last, frozenset(["approx"]))
    if (way := _other_way(s)) is not None and copy.kind == "gear":
        copy.put("step", way, "put on or taken off")
    slot = _put_number(s, copy, numbers[0])
    one = copy.kind == "feed" and number_of(numbers[0]).value == 1
    if slot is None and not (one and stance.state in ("done", "planned") and not s.has("amount")):
        return False  # but "candy boards on 1 to 6 | and 8 gets one tomorrow"
    if copy.kind == "inspection" and slot is not None:
        _keep_counted(copy, slot)
    if cells and last.slots.get("queen_cells") == 0 and copy.slots.get("queen_cells"):
        _put_cell_type(copy, recent)
    _finish(msg, i, s, stance, copy, last)
    return True


def _in_a_planned_row(msg: Message, s: Statement) -> Stance | None:
    """ "tomorrow: supers on L1-L8 x1, | L9 x2": the plan goes on, where nothing but colonies and a number are said."""
    last = msg.newest_here
    if last is None or last.kind not in GIVEN or last.slots.get("state") != "planned" or s.opens != "soft":
        return None
    if (
        last.sentence != s.sentence
        or not msg.just_told(last)
        or any(m.label not in _OF_A_ROW and m.w not in _ON_TO for m in s.marks)
    ):
        return None
    on = last.slots.get("on")
    day = date.fromisoformat(on) if on else None
    return Stance(state="planned", carried=(day, day) if day else None)


_ON_TO = frozenset("on in and for to".split())
_OF_A_ROW = frozenset("cols number comma each hive".split())


def _numbers_alone(msg: Message, s: Statement, stance: Stance) -> list[Mark]:
    """The numbers said of colonies or of the rest, where no thing is named; none where the statement says more."""
    numbers = s.all("number", "value")
    of_rest = s.has("rest") and any("n" in m.v for m in numbers)
    if not (s.has("cols") or of_rest):
        return []
    if not numbers and s.has("verb"):
        numbers = [m for m in s.all("hives") if m.w.endswith(("of them", "of em"))]  # "and twelve got two of them"
    if not numbers or (stance.state != "done" and not cues(s, "plan") and not _needs_so_many(s)):
        return []
    said = takewhile(lambda m: m.w not in REASONS, s.marks)  # "the rest got one since they're single deeps"
    if any(m.label in HEADS and m.label != "value" for m in said):
        return []
    return numbers if of_rest or not all(holding.is_exception(msg, s, m) for m in s.all("cols")) else []


def _says_how_it_stands(s: Statement) -> bool:
    """Whether the number is of what a hive has already or still, and not of what it got."""
    for a, b in pairwise(s.marks):
        if a.w in ("already", "still") and b.w in _HAS:
            return True  # "s two already has two", "strips out of forty to fifty | fifty one still had two"
        if a.w == "full" and (b.w in ("in", "on") or b.label == "cols"):
            return True  # "feeders off 1 to 24, | still 1/2 full in 7 and 9"
        if a.w == "only" and b.w == "had" and s.has("cols"):
            return True  # "third round on forty to fifty, the others have only had two"
        if a.w in _WHICH_ONE and b.w == "one":
            return True  # "H9 old one still there"
    return False


def _speaks_of_else(msg: Message, s: Statement, numbers: list[Mark]) -> bool:
    """Whether the number is of something that the statement itself speaks of."""
    if s.has("method", "check", "sample", "queen_noun", "noun", "same") or held_value(s, msg.held.method):
        return True
    if any(m.rule == IN_ORDER for m in numbers):
        return True  # "two, zero and one, that's s seven, s eight and s twelve": counts of mites
    return any(m.w == "found" for m in s.marks[:3])  # "strips out of heath, | found two on the floor of H5": not given


def _antecedents(msg: Message, s: Statement, stance: Stance) -> list[Draft]:
    """The records that the number may be of the thing of: what was given, seen or taken, and meant alike."""
    needs = _needs_so_many(s)
    return [
        d
        for d in msg.thread.lately(msg.first_draft)
        if (d.kind in GIVEN or d.kind == "inspection" or d.slots.get("step") == "cells_placed" or _of_honey(d, s))
        and (d.slots.get("state", "done") == stance.state or (needs and d.kind in GIVEN))
    ]


_BROOD = ("eggs", "open_brood", "capped_brood")


def _none_seen(msg: Message, i: int, s: Statement, stance: Stance, last: Draft, numbers: list[Mark]) -> bool:
    """ "eggs in 1, 2, 3 and 5, none in 4": what was seen just before is not there."""
    seen = [x for x in _BROOD if last.slots.get(x) is True]
    if number_of(numbers[0]).value != 0 or len(seen) != 1 or len(numbers) > 1 or not msg.just_told(last):
        return False
    if numbers[0].w.startswith("nothing"):
        return False  # of what was given, or of all that might be seen
    if not all(m.label in ("number", "cols", "comma", "filler") or m.w in ("in", "and", "but") for m in s.marks):
        return False
    copy = Draft("inspection", {seen[0]: False}, [(numbers[0].s, numbers[0].e)], {seen[0]: "none in others"})
    finishing.finish(msg, i, s, stance, copy, add=False)
    seeing.add_seen(msg, i, s, copy)
    return True


def _none_given(msg: Message, i: int, s: Statement, stance: Stance, last: Draft, number: Mark) -> bool:
    """ "a super on 30, but none on 37": the thing was not given there."""
    if stance.state != "done" or (last.kind not in GIVEN and last.kind != "queen_work"):
        return False
    if msg.held.yard is not None and last.slots.get("yard") not in (None, msg.held.yard):
        return False  # "supers on 44 and 49 | then nucs at the pond, n one eggs, n three nothing"
    copy = same_again(last, frozenset(["approx", "count", "amount", "unit"]))
    copy.spans.append((number.s, number.e))
    _finish(msg, i, s, Stance(state="not_done", today=stance.today, hemisphere=stance.hemisphere), copy, last)
    return True


def _put_number(s: Statement, copy: Draft, number: Mark) -> str | None:
    """Puts the number into the slot it is of, and gives the slot; None where the record has no slot for a number."""
    slot: str | None = next((x for x in _NUMBERED if x in copy.slots), None)
    if slot is None:
        slot = {"gear": "count", "treatment": "amount", "queen_work": "count"}.get(copy.kind)
        if copy.kind == "feed" and copy.slots.get("feed") == "pollen_patty":
            slot = "amount"
            copy.put("unit", "patty", "number each")
        if slot is None:
            return None
        if slot == "amount" and copy.slots.get("form") in OWN_UNITS:
            copy.put("unit", copy.slots["form"], "form")
    copy.put(slot, tidy(number_of(number).value), "the same thing with another number")
    copy.spans.append((number.s, number.e))
    if is_approx(s, number):
        copy.put("approx", True, "about")
    return slot


def _keep_counted(copy: Draft, slot: str) -> None:
    """Of what was seen only what is counted anew is said of the other colony, and the sort of its cells."""
    typed = copy.slots.get("queen_cells") != 0
    copy.slots = {k: v for k, v in copy.slots.items() if k in _SEEN and (k == slot or (k == "cell_type" and typed))}


def _put_cell_type(copy: Draft, recent: list[Draft]) -> None:
    """ "l21 none, l22 two": cells of the kind told of before."""
    typed = next((d.slots["cell_type"] for d in reversed(recent) if "cell_type" in d.slots), None)
    if typed is not None:
        copy.put("cell_type", typed, "the kind of cell told of")


def _finish(msg: Message, i: int, s: Statement, stance: Stance, copy: Draft, last: Draft) -> None:
    """Adds the copy; its antecedent goes where it was said of a whole yard and the colonies are named after all."""
    went_in = any(m.w.split()[-1] in ("in", "into", "on", "onto") for m in s.all("verb"))
    if copy.kind == "gear" and copy.slots.get("step") == "off" and (went_in or going_out(s) is False):
        copy.put("step", "on", "in or on")  # "three frames came out of nine and two of them went into ten"
    seen = copy.kind == "inspection"
    finishing.finish(msg, i, s, stance, copy, add=not seen)
    if seen:
        seeing.add_seen(msg, i, s, copy)
    if copy.kind == "treatment" and s.has("days"):
        all_so_long(msg, s, copy)
    if (
        msg.thread.drafts[-2:-1] == [last]  # what was seen may have gone into the draft that was there
        and last.why.get("every_colony") == WHOLE_YARD
        and not {"count", "amount"} & set(last.slots)
        and msg.just_told(last)
    ):
        copy.spans += last.spans  # "patties on at larks, L1 to L9 one each": the colonies are named after all
        if "by" in last.slots:  # "bo did strips at larks, L1 to L9 two each"
            copy.put("by", last.slots["by"], last.why.get("by", "who did it"))
        msg.thread.drafts.remove(last)


def _counts_told(msg: Message, i: int, s: Statement, numbers: list[Mark]) -> bool:
    """ "at the quarry one had six, two had ten, alcohol wash all of them": counts of a check named just behind, in
    which nothing was given.
    """
    if any(m.label != "value" for m in numbers) or s.has("verb", "each"):
        return False
    if not any(m.w in ("had", "was") for m in s.marks):
        return False
    return any(x.has("method") and not x.has("agent", "form", "item") for x in msg.statements[i + 1 : i + 5])


def _counting_since(msg: Message, i: int, last: Draft) -> bool:
    """Whether checks were spoken of, and none of a colony told of, after the record."""
    since = msg.thread.statements - last.statement
    between = msg.statements[max(0, i - since + 1) : i]
    return any(x.has("method", "check") and not x.has("cols", "agent", "form", "item", "feed") for x in between)


def _needs_so_many(s: Statement) -> bool:
    """ "two supers on 46 | 48 needs one too": of the thing just told of, and not "one more look" or "two weeks"."""
    for k, m in enumerate(s.marks[:-1]):
        if (
            m.label in ("cue", "verb")
            and m.w in ("needs", "need", "wants", "gets", "get")
            and s.marks[k + 1].label == "number"
        ):
            after = s.marks[k + 2 : k + 3]
            return not after or after[0].w in _AS_WELL or after[0].label in ("date", "filler", "comma", "each")
    return False


def _of_honey(d: Draft, s: Statement) -> bool:
    """ "four frames of honey from 60 | and five from 61", "nine made two": as much again of what came of a colony."""
    if d.kind != "harvest" or "amount" not in d.slots or "colonies" not in d.slots:
        return False
    if any(m.w in ("from", "off", "of") and x.label == "cols" for m, x in pairwise(s.marks)):
        return True
    if d.sentence != s.sentence or not s.has("number"):
        return False
    after = next((m for a, m in pairwise(s.marks) if a.label == "cols"), None)
    bare = all(m.label in ("cols", "number", "comma", "filler") or m.w in ("and", "then") for m in s.marks)
    return bare or (after is not None and after.w in _MADE)


_MADE = frozenset("made gave yielded had did with".split())


def _mites_counted(msg: Message) -> bool:
    """ "l four two mites | l five nothing": whether the last thing told is a count of mites."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    return last is not None and last.kind == "mite_check" and "mites" in last.slots


def _none_of_it(s: Statement) -> None:
    """ "the rest got nothing", "nothing in 50": a number of what was given, and no count of mites."""
    for m in s.all("clean"):
        if m.w.startswith("nothing") and not s.has("mites", "value"):
            m.label, m.v = "number", {"n": Number(0, 1)}
            s.seal()


def _another_of_it(s: Statement) -> None:
    """ "a super on 41 | and another on 42", "… | and the other on 42": one more of what was given."""
    if s.words.isdisjoint(("another", "other")):
        return
    for m, on, place in zip(s.marks, s.marks[1:], s.marks[2:], strict=False):
        if (
            m.label == "w"
            and m.w in ("another", "other")
            and on.w in ("on", "in", "for", "to", "off")
            and place.label == "cols"
        ):
            m.label, m.v = "number", {"n": Number(1, 1)}
            s.seal()
            return


def _other_way(s: Statement) -> str | None:
    """ "the excluder came off | sixteen I put one on": which way the words of this statement say it went."""
    particle = s.marks[-1].w if s.marks[-1].label == "w" else ""
    ways = {m.v.get("dir") for m in s.all("verb")} - {None}
    if ways == {"in"} and not any(m.w in ("off", "out") for m in s.marks):
        return "on"  # "the excluder came off fifteen | sixteen got one"
    if ways == {"out"} and any(m.w in ("off", "out", "of") and x.label == "cols" for m, x in pairwise(s.marks)):
        return "off"  # "put a super on twelve and | took one off sixteen"
    if ways == {"out"} and any(m.w in ("off", "out") and m.label == "w" for m in s.marks):
        return "off"  # "l five got two | l six I took one off, it's sulking"
    if particle not in ("on", "off") or len(ways) != 1:
        return None
    return "on" if particle == "on" and "in" in ways else "off"


def held_value(s: Statement, method: str | None) -> bool:
    """Whether the statement counts mites by a method said before."""
    return method is not None and s.has("value", "mites", "clean", "percent")
