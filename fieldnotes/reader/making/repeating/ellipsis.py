""" "Three and a half in 51": the thing told of before, left out, with another number."""

from __future__ import annotations

from itertools import pairwise, takewhile

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import is_approx, number_of, tidy
from fieldnotes.reader.inorder import RULE as IN_ORDER
from fieldnotes.reader.making import finishing, holding, seeing
from fieldnotes.reader.making.message import Message, same_again
from fieldnotes.reader.making.repeating.lasting import all_so_long
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.scope import WHOLE_YARD, Draft


def ellipsis(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "supers on L1-L12 1 ea, L13 thru L20 2 ea"; "three and a half in 51": the same thing with another number."""
    if s.has("clean") and not msg.held.method and not s.has("method", "check"):
        _none_of_it(s)
    _another_of_it(s)
    of_rest = s.has("rest") and any("n" in m.v for m in s.all("number", "value"))
    if not (s.has("cols") or of_rest) or not s.has("number", "value", "hives"):
        return False
    cols = [m for m in s.all("cols") if not holding.is_exception(msg, s, m)]
    said = list(takewhile(lambda m: m.w not in REASONS, s.marks))  # "the rest got one since they're single deeps"
    heads = [m for m in said if m.label in HEADS and m.label not in ("value",)]
    numbers = s.all("number", "value")
    if not numbers and s.has("verb"):
        numbers = [m for m in s.all("hives") if m.w.endswith(("of them", "of em"))]  # "and twelve got two of them"
    told_ahead = stance.state != "done" and not cues(s, "plan") and not _needs_so_many(s)
    if not (cols or of_rest) or heads or told_ahead:
        return False
    if any(a.w == "already" and b.w in ("has", "have", "had", "got") for a, b in pairwise(s.marks)):
        return False  # "s one got a second brood box, s two already has two": how it stands
    if any(a.w == "still" and b.w in ("had", "has", "have", "got") for a, b in pairwise(s.marks)):
        return False  # "strips out of forty to fifty | fifty one still had two": how it was found
    if any(a.w == "only" and b.w == "had" for a, b in pairwise(s.marks)) and s.has("cols"):
        return False  # "third round on forty to fifty, the others have only had two": how it stands
    if any(m.rule == IN_ORDER for m in numbers):
        return False  # "two, zero and one, that's s seven, s eight and s twelve": counts of mites
    if any(m.w == "found" for m in s.marks[:3]):
        return False  # "strips out of heath, | found two on the floor of H5": nothing done
    if s.has("method", "check", "sample", "queen_noun", "noun", "same") or held_value(s, msg.held.method):
        return False
    if any(a.w in _WHICH_ONE and b.w == "one" for a, b in pairwise(s.marks)):
        return False  # "H9 old one still there"
    recent = [
        d
        for d in msg.thread.lately(msg.first_draft)
        if (
            d.kind in ("gear", "treatment", "feed", "inspection")
            or d.slots.get("step") == "cells_placed"
            or _of_honey(d, s)
        )
        and (d.slots.get("state", "done") == stance.state or (d.kind in _GIVEN and _needs_so_many(s)))
    ]
    if not recent or not numbers or (msg.held.method and recent[-1].kind not in ("gear", "treatment", "feed")):
        return False
    cells = bool(recent) and "queen_cells" in recent[-1].slots and recent[-1].statement == msg.thread.statements - 1
    if any(number_of(m).value == 0 for m in numbers) and not cells:
        recent = [d for d in recent if d.kind != "inspection"] or recent  # "76 is heavy and 78 got nothing"
    last = recent[-1]
    if last.sentence != s.sentence and last.line != s.line - 1 and last.line != s.line:
        return False
    if _counting_since(msg, i, last) or _counts_told(msg, i, s, numbers):
        return False  # "n five got a pint | mite counts from the pond | hive eleven had five"
    source = [d for d in recent if d.statement == last.statement and d.kind == last.kind][-1:]
    number = numbers[0] if numbers else None
    none = number is not None and number_of(number).value == 0 and not cells  # "l21 has no cells": that was seen
    if none:
        if stance.state != "done" or source[0].kind not in ("gear", "treatment", "feed", "queen_work"):
            return False
        if msg.held.yard is not None and last.slots.get("yard") not in (None, msg.held.yard):
            return False  # "supers on 44 and 49 | then nucs at the pond, n one eggs, n three nothing"
        stance = Stance(
            state="not_done", today=stance.today, hemisphere=stance.hemisphere
        )  # "a super on 30, but none on 37"
    done = False
    for d in source:
        copy = same_again(d, frozenset(["approx"]))
        turned = None if none else _other_way(s)
        if turned is not None and d.kind == "gear":
            copy.put("step", turned, "put on or taken off")
        if none and number is not None:
            for dropped in ("count", "amount", "unit"):
                copy.slots.pop(dropped, None)
            copy.spans.append((number.s, number.e))
        elif number is not None:
            value = tidy(number_of(number).value)
            slot: str | None = next(
                (
                    x
                    for x in ("count", "amount", "brood_frames", "bee_frames", "food_frames", "queen_cells")
                    if x in copy.slots
                ),
                None,
            )
            if slot is None:
                slot = {"gear": "count", "treatment": "amount", "queen_work": "count"}.get(d.kind)
                if d.kind == "feed" and d.slots.get("feed") == "pollen_patty":
                    slot = "amount"
                    copy.put("unit", "patty", "number each")
                if slot is None:
                    return False
                if slot == "amount" and d.slots.get("form") in ("strip", "pad", "wafer", "sponge"):
                    copy.put("unit", d.slots["form"], "form")
            copy.put(slot, value, "the same thing with another number")
            copy.spans.append((number.s, number.e))
            if is_approx(s, number):
                copy.put("approx", True, "about")
        went_in = any(m.w.split()[-1] in ("in", "into", "on", "onto") for m in s.all("verb"))
        if d.kind == "gear" and copy.slots.get("step") == "off" and (went_in or going_out(s) is False):
            copy.put("step", "on", "in or on")  # "three frames came out of nine and two of them went into ten"
        if d.kind == "inspection":
            copy.slots = {
                k: v
                for k, v in copy.slots.items()
                if k in ("brood_frames", "bee_frames", "food_frames", "queen_cells", "cell_type")
                and (k == slot or (k == "cell_type" and copy.slots.get("queen_cells") != 0))
            }
        if cells and d.slots.get("queen_cells") == 0 and copy.slots.get("queen_cells"):
            typed = next((x.slots["cell_type"] for x in reversed(recent) if "cell_type" in x.slots), None)
            if typed is not None:
                copy.put("cell_type", typed, "the kind of cell told of")  # "l21 none, l22 two"
        seen = d.kind == "inspection"
        finishing.finish(msg, i, s, stance, copy, add=not seen)
        if seen:
            seeing.add_seen(msg, i, s, copy)
        if copy.kind == "treatment" and s.has("days"):
            all_so_long(msg, s, copy)
        if (
            msg.thread.drafts[-2:-1] == [d]  # what was seen may have gone into the draft that was there
            and d.why.get("every_colony") == WHOLE_YARD
            and not {"count", "amount"} & set(d.slots)
            and d.statement == msg.thread.statements - 1
        ):
            copy.spans += d.spans  # "patties on at larks, L1 to L9 one each": the colonies are named after all
            if "by" in d.slots:
                copy.put(
                    "by", d.slots["by"], d.why.get("by", "who did it")
                )  # "bo did strips at larks, L1 to L9 two each"
            msg.thread.drafts.remove(d)
        done = True
    return done


_WHICH_ONE = frozenset("old new other same first last that this big little young".split())


def _counts_told(msg: Message, i: int, s: Statement, numbers: list[Mark]) -> bool:
    """ "at the quarry one had six, two had ten, alcohol wash all of them": counts of a check named just behind, in
    which nothing was given.
    """
    if (
        any(m.label != "value" for m in numbers)
        or s.has("verb", "each")
        or not any(m.w in ("had", "was") for m in s.marks)
    ):
        return False
    return any(x.has("method") and not x.has("agent", "form", "item") for x in msg.statements[i + 1 : i + 5])


def _counting_since(msg: Message, i: int, last: Draft) -> bool:
    """Whether checks were spoken of, and none of a colony told of, after the record."""
    since = msg.thread.statements - last.statement
    between = msg.statements[max(0, i - since + 1) : i]
    return any(x.has("method", "check") and not x.has("cols", "agent", "form", "item", "feed") for x in between)


_GIVEN = frozenset(["gear", "treatment", "feed"])


_AS_WELL = frozenset(["too", "also", "as", "and", "but", "so", "by"])


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
    """ "four frames of honey from 60 | and five from 61": as much again of what was taken of a colony."""
    if d.kind != "harvest" or "amount" not in d.slots or "colonies" not in d.slots:
        return False
    return any(m.w in ("from", "off", "of") and x.label == "cols" for m, x in pairwise(s.marks))


def _none_of_it(s: Statement) -> None:
    """ "the rest got nothing", "nothing in 50": a number of what was given, and no count of mites."""
    for m in s.all("clean"):
        if m.w.startswith("nothing") and not s.has("mites", "value"):
            m.label, m.v = "number", {"n": Number(0, 1)}
            s.seal()


def _another_of_it(s: Statement) -> None:
    """ "a super on 41 | and another on 42": one more of what was given."""
    for m, on, place in zip(s.marks, s.marks[1:], s.marks[2:], strict=False):
        if m.label == "w" and m.w == "another" and on.w in ("on", "in", "for", "to", "off") and place.label == "cols":
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


REASONS = frozenset("because cause cos cuz since".split())
