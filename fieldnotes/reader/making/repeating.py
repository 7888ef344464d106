"""Statements that say the record before them once more, of another colony, day, number or yard."""

from __future__ import annotations

from itertools import pairwise, takewhile
from typing import Any

from fieldnotes.reader.assertion import Stance, cues, take_stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.amounts import HONEY_UNITS, amount_of, days_of
from fieldnotes.reader.frames.direction import became, going_out
from fieldnotes.reader.frames.marks import index_of, is_approx, number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import BULLETS
from fieldnotes.reader.inorder import RULE as IN_ORDER
from fieldnotes.reader.making import (
    finishing,
    holding,
    seeing,
)
from fieldnotes.reader.making.message import HOW_MUCH, Message, same_again
from fieldnotes.reader.mark import Mark, is_others
from fieldnotes.reader.marking.colours import colour_in, is_colour
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.scope import WHOLE_YARD, Draft, Place, place_of, settle_ids


def _same_there(msg: Message, i: int, s: Statement, same: Mark, stance: Stance, last: Draft) -> bool:
    """ "Low Field gets a dribble on the 1st | and Heath gets the same on the 2nd": the same over another yard."""
    yards = s.all("yard")
    plain = all(
        m.label in ("yard", "same", "date", "comma", "filler", "verb", "person")
        or m.w in _TO_A_YARD
        or m.v.get("cue") == "plan"
        for m in s.marks
    )
    if (
        len(yards) != 1
        or not plain
        or not last.slots.get("every_colony")
        or yards[0].v["value"] == last.slots.get("yard")
    ):
        return False
    if last.kind not in ("treatment", "gear", "feed") or last.statement < msg.thread.statements - 2:
        return False
    copy = same_again(last)
    copy.spans += [(m.s, m.e) for m in (same, *yards)]
    copy.slots.pop("except_colonies", None)
    gets = stance if stance.state == "planned" else stance.turned(last.slots.get("state", "done"))
    finishing.finish(msg, i, s, gets, copy, Place(yards[0].v["value"], every=True))
    return True


_TO_A_YARD = frozenset("and the then so got had for at in too on i we he she i'm we're over up will be".split())


def repeat(msg: Message, i: int, s: Statement, same: Mark, stance: Stance) -> bool:
    """ "same for 15", "ditto", "43: same as 42": the records of the colony before, once more."""
    cols = list(s.all("cols"))
    source: list[Draft] = []
    target = None
    at = index_of(s, same)
    after = [m for m in cols if index_of(s, m) > at]
    before = [m for m in cols if index_of(s, m) < at]
    drafts = [d for d in msg.thread.lately(msg.first_draft) if d.kind not in ("conditions", "todo")]
    if not drafts:
        drafts = [d for d in msg.thread.lately() if d.kind not in ("conditions", "todo")]
    own = s.first("value", "number") or next((m for m in s.marks if m.w == "one"), None)
    if not drafts or (s.has("value", "mites", "percent") and not _but_so_many(s, own)):
        return False  # "same thing over at wens, seventy had three" says its own counts
    ids, _ = settle_ids(list(after[0].v["ids"]), msg.held.yard, msg.outfit) if after else ([], None)
    told = [d for d in drafts if d.slots.get("colonies") == ids] if before and ids else []
    between = s.marks[index_of(s, before[0]) + 1 : at] if before else []
    opens = before and next(m for m in s.marks if m.w not in BULLETS) is before[0]
    row = opens and not any(m.w.isalnum() for m in between)  # "N4 - ditto N3"
    if before and after and (same.w.split()[-1] in ("as", "like", "with") or (row and told)):
        target = before[0]
        source = told or [d for d in drafts if d.slots.get("colonies") == ids[:1]]  # "same as 46 and | 50 had two"
        if not source:
            return False  # "51 same as 48", and of 48 nothing is known: not the same as the one before
    elif before and after and _right_after(s, before[-1], at) and same.w in _THE_SAME:
        target, after = before[-1], []  # "four gets a wafer and five the same, six I'm leaving alone"
    elif after or before:
        target = (after or before)[0]
    else:
        return _same_there(msg, i, s, same, stance, drafts[-1])
    ids, yard = settle_ids(list(target.v["ids"]), msg.held.yard, msg.outfit)
    if not source:
        last = drafts[-1]
        key = last.slots.get("colonies")
        run = []
        for d in reversed(drafts):
            if d.slots.get("colonies") != key or (d.statement != last.statement and d.line != last.line):
                break
            run.append(d)
        source = list(reversed(run))
    if same.w.split()[0] in ("get", "gets", "need", "needs") and stance.state == "done" and stance.ahead is not False:
        stance = stance.turned("planned")  # "and fifty gets the same by tuesday"
    if _but_so_many(s, own) and any(d.kind == "mite_check" for d in source):
        own_count = own
        source = [d for d in source if d.kind == "mite_check"]
    else:
        own_count = None
    for d in source:
        copy = Draft(d.kind, dict(d.slots.items()), [(same.s, same.e), (target.s, target.e)], dict(d.why))
        if stance.state == "planned":
            copy.put("state", "planned", "gets the same")
            copy.slots.pop("on", None)
            copy.slots.pop("on_until", None)
        if own_count is not None:
            for slot in ("mites_high", "per_100", "approx"):
                copy.slots.pop(slot, None)
            count = tidy(number_of(own_count).value) if "n" in own_count.v else 1
            copy.put("mites", count, "the same with another number")
            copy.spans.append((own_count.s, own_count.e))
        if "signs" in copy.slots:
            copy.slots["signs"] = list(copy.slots["signs"])
        copy.put("colonies", ids, "same for")
        for slot in ("every_colony", "except_colonies", "colony_count"):
            copy.slots.pop(slot, None)
        if yard:
            copy.put("yard", yard, "yard")
        if stance.when is not None:
            copy.put("on", stance.when[0].isoformat(), "date")
        for m in after + before:
            copy.spans.append((m.s, m.e))
        msg.add(0, s, copy)
        if copy.kind == "treatment":
            msg.thread.last_treatment = copy
    return bool(source)


_THE_SAME = frozenset(["same", "the same", "same thing", "the same thing", "ditto", "likewise", "same again"])


def _right_after(s: Statement, cols: Mark, at: int) -> bool:
    """Whether the mark at `at` stands right after the colonies, but for "the"."""
    return all(m.w == "the" for m in s.marks[index_of(s, cols) + 1 : at])


def _but_so_many(s: Statement, number: Mark | None) -> bool:
    """ "same in 14 but only two": the same check with another count."""
    if number is None:
        return False
    before = {m.w for m in s.marks[: index_of(s, number)]}
    return not before.isdisjoint(("but", "only", "just"))


_WHICH_ONE = frozenset("old new other same first last that this big little young".split())


def ellipsis(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "supers on L1-L12 1 ea, L13 thru L20 2 ea"; "three and a half in 51": the same thing with another number."""
    if s.has("clean") and not msg.held.method and not s.has("method", "check"):
        _none_of_it(s)
    _another_of_it(s)
    of_rest = s.has("rest") and any("n" in m.v for m in s.all("number", "value"))
    if not (s.has("cols") or of_rest) or not s.has("number", "value", "hives"):
        return False
    cols = [m for m in s.all("cols") if not holding.is_exception(msg, s, m)]
    said = list(takewhile(lambda m: m.w not in _REASONS, s.marks))  # "the rest got one since they're single deeps"
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


def all_so_long(msg: Message, s: Statement, last: Draft) -> None:
    """ "3 to 5 got two, the rest one each, eight weeks they stay in", "six weeks for the lot": of all of them."""
    days = s.all("days")[0]
    of_all = s.marks[-1] is days or any(not _ALL_OF_THEM.isdisjoint(m.w.split()) for m in s.marks)
    for d in msg.thread.lately(msg.first_draft) if of_all else ():
        alike = d.kind == "treatment" and all(d.slots.get(x) == last.slots.get(x) for x in ("agent", "form", "step"))
        if alike and d.sentence == s.sentence and d.slots.get("step") == "in" and d.slots.get("state") != "not_done":
            d.slots.setdefault("days", tidy(days_of(days)))
            d.spans.append((days.s, days.e))


_ALL_OF_THEM = frozenset("they all those them lot both everything everyone".split())


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


def _and_there(msg: Message, s: Statement, last: Draft) -> bool:
    """ "vaped every hive at the quarry and then | 1 through 20 at the pond": colonies of another yard."""
    joined = any(m.label == "filler" or m.w in ("and", "then") for m in s.marks[:2])
    return joined and s.has("cols") and s.has("yard") and msg.held.yard != last.slots.get("yard")


def _those_later(s: Statement, stance: Stance) -> bool:
    """ "all but five and six um | those two next wednesday": the ones left out, on a day to come."""
    pronoun = s.first("pronoun")
    if pronoun is None or pronoun.w.split()[0] not in ("those", "these", "the"):
        return False
    others = "other" in pronoun.w.split() and stance.said is not None and stance.said.form == "weekday"
    return stance.ahead is True or others  # "did strips in 41 to 45 | the other five Friday"


def _rest_later(s: Statement, last: Draft) -> bool:
    """ "reducers on H1 and H2 | Bo is putting the rest on tonight": the same for the others, on a day said."""
    plain = last.kind == "treatment" and not s.has("verb", "thing")
    return (last.kind in ("gear", "feed") or plain) and s.has("rest") and (s.has("date") or _once(s))


def _once(s: Statement) -> bool:
    """ "the rest of heath once the honey is off": then, and not yet."""
    return any(m.rule == "once it is off" for m in s.all("ignore"))


_ON_ANOTHER_DAY = frozenset(
    "me by myself on in off out and then at of the are is for get gets on be due i i'm we so".split()
)


def gap(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "wash fifty nine in ten days and sixty two in a month": the same plan for another colony, another day."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if (
        last is None
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or (last.slots.get("state") != "planned" and last.kind not in ("treatment", "gear", "feed"))
        or last.kind in ("todo", "conditions", "change")
        or not (
            (s.has("cols", "yard") and (s.has("date", "same_day") or _and_there(msg, s, last)))
            or _those_later(s, stance)
            or _rest_later(s, last)
        )
        or any(
            m.label not in ("cols", "yard", "date", "same_day", "filler", "comma", "hive")
            and not (m.w == "done" and m is s.marks[0])  # "one through six done | seven through twelve after lunch"
            and not (m.label == "pronoun" and _those_later(s, stance))
            and not (m.label == "cue" and "wait" in m.w.split())  # "seven through twelve can wait till monday"
            and not (m.label in ("rest", "verb", "person", "thing", "ignore") and _rest_later(s, last))
            and m.w not in _ON_ANOTHER_DAY
            for m in s.marks
        )
    ):
        return False
    copy = same_again(last)
    unsaid = any(m.w in ("are", "is") for m in s.marks)  # "thirteen through twenty are for tomorrow": how much
    if _rest_later(s, last) and last.kind == "gear" and s.has("verb") and going_out(s) is not None:
        copy.put("step", "off" if going_out(s) else "on", "put on or taken off")
    if became(s) and "step" in copy.slots:
        other = {"gear": ("off", "on"), "treatment": ("out", "in")}.get(last.kind)
        if other is not None:
            copy.put(
                "step", other[0] if going_out(s) else other[1], "which way"
            )  # "strips 41-50 out and 51-60 in today"
    ahead = last.slots.get("state") == "planned" or (_rest_later(s, last) and stance.state == "planned")
    unsaid = unsaid or (ahead and _rest_later(s, last))  # "half a patty each, rest tomorrow"
    if not ahead:
        day = stance.turned("done").when
        ahead = (
            _once(s)
            or stance.ahead is True
            or bool(day and day[0] > msg.today)
            or _goes_on_another_day(msg, s, stance, last)
        )
        unsaid = unsaid or ahead
    if unsaid:
        for slot in HOW_MUCH:
            copy.slots.pop(slot, None)
    if not s.has("cols") and not (msg.before is not None and msg.before.has("date", "same_day")):
        plain = all(m.label in ("yard", "date", "comma") or m.w == "and" for m in s.marks)
        if plain and any(m.w == "and" for m in s.marks) and stance.when is not None and "on" in last.slots:
            finishing.put_day(msg, i, s, stance, last)  # "guards off larks and cut bank last weekend": of both
            if ahead:
                last.put("state", "planned", "date")
    state = "planned" if ahead else "done"
    others = s.first("pronoun")
    unnamed = others is not None and "other" in others.w.split() and "n" in others.v and msg.held.cols is None
    place = Place(msg.held.yard, count=int(number_of(others).value)) if unnamed and others is not None else None
    finishing.finish(msg, i, s, stance.turned(state, ahead=ahead), copy, place)
    each_yard(msg, s, [copy])
    return True


_MARKS_BESIDE_DID = frozenset(["cols", "date", "filler", "comma", "verb", "person", "hive", "yard", "ignore"])
_DID = frozenset(["did", "done", "finished", "did do"])
_BESIDE_DID = frozenset(
    (
        "i we he she i've we've he's she's have has had and then so also already just the rest of up there here "
        "myself it"
    ).split()
)


def did_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "Bo put hop strips in 40 through 46 on Saturday and today I did 47 through 50": the same work on others."""
    verbs = s.all("verb")
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if (
        last is None
        or last.kind not in ("treatment", "gear", "feed", "queen_work")
        or last.slots.get("state", "done") != "done"
        or not (
            last.slots.get("colonies") or last.slots.get("except_colonies") or last.heads
        )  # "the strips are out, Bo
        # did 9": who did it
        or last.line != s.line
        or last.statement != msg.thread.statements - 1
        or stance.state != "done"
        or len(verbs) != 1
        or verbs[0].w not in _DID
    ):
        return False
    end = max(k for k, m in enumerate(s.marks) if m.label == "cols") + 1
    head, tail = s.marks[:end], s.marks[end:]
    if any(m.label not in _MARKS_BESIDE_DID and m.w not in _BESIDE_DID for m in head):
        return False
    goes_on = not tail or tail[0].label != "w" or tail[0].w in _BESIDE_DID
    if not goes_on or any(m.label not in _MARKS_BESIDE_DID | {"w", "pronoun"} for m in tail):
        return False  # "did nine's lid"
    finishing.finish(msg, i, s, stance, same_again(last, HOW_MUCH | {"approx"}))
    return True


def do_left(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "strips out of every hive but 73, that one I'll do friday": the same work, yet to be done where it was left."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    left = last.slots.get("except_colonies") if last is not None else None
    pronoun, verbs = s.first("pronoun"), s.all("verb")
    does = verbs or [m for m in s.all("w") if m.w == "finish"]
    if (
        last is None
        or not left
        or last.kind not in ("treatment", "gear", "feed", "mite_check")
        or last.slots.get("state", "done") != "done"
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or stance.state != "planned"
        or pronoun is None
        or not pronoun.w.startswith(("that one", "this one") if len(left) == 1 else ("those", "these"))
        or len(does) != 1
        or does[0].w.split()[0] not in _DO
        or s.has("cols", "every", "yard", "rest", "thing", "hives")
    ):
        return False
    draft = same_again(last, HOW_MUCH | {"approx"})
    draft.spans.append((pronoun.s, pronoun.e))
    finishing.finish(msg, i, s, stance, draft, Place(last.slots.get("yard"), list(left)))
    return True


_NEEDS = frozenset("so but and still it them theirs that the ones one some too yet also as well by".split())


def need_it(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "pads in 1 to 6, | so 7 and 8 still need them tomorrow": the same work, to be done to others yet."""
    last = next(
        (d for d in reversed(msg.thread.lately(msg.first_draft)) if d.kind in ("treatment", "gear", "feed")), None
    )
    one = [m for m in s.all("number") if m.w == "one"]
    if (
        last is None
        or last.slots.get("state", "done") != "done"
        or last.line != s.line
        or last.statement < msg.thread.statements - 2
        or stance.state != "planned"
        or not (s.has("pronoun", "thing") or one)
        or not any("need" in m.w or "get" in m.w.split() for m in cues(s, "plan"))
        or any(
            m.label not in ("cols", "cue", "pronoun", "thing", "date", "filler", "comma")
            and m.w not in _NEEDS
            and m not in one
            for m in s.marks
        )
    ):
        return False
    draft = same_again(last, HOW_MUCH | {"approx"})
    if one and draft.kind == "gear":
        draft.put("count", 1, "needs one")  # "S5 got a second box | and S6 will need one by the weekend"
        draft.spans.append((one[0].s, one[0].e))
    finishing.finish(msg, i, s, stance, draft)
    return True


_DO = frozenset("did do does done doing finished finish get gets got getting goes go got done".split())
_BESIDE_REST = frozenset(
    "the and but so then on in of at for to with by be is are was were being it i we he she they i'm we're he's she's "
    "still later over there up this that all been has have wait till til until same amount dose thing".split()
)


def the_rest(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "strips in 41 to 46, | dov did the rest on friday": the work just told, done to the others, too."""
    if s.has_head or s.has("cols", "every", "hives", "number", "noun", "queen_noun") or not s.has("verb", "cue"):
        return False
    last = next(
        (
            d
            for d in reversed(msg.thread.lately(msg.first_draft))
            if d.line == s.line and d.statement >= msg.thread.statements - 2
        ),
        None,
    )
    feeds = [m for m in s.all("verb") if m.v.get("does") == "feed"]
    if (
        last is None
        or last.kind not in ("treatment", "gear", "feed")
        or last.slots.get("state", "done") != "done"
        or "colonies" not in last.slots
        or any(m.w not in _DO and m not in feeds for m in s.all("verb"))
        or (feeds and last.kind != "feed")
        or any(
            m.label not in ("rest", "verb", "person", "date", "cue", "thing", "filler", "comma", "yard", "ignore")
            and m.w not in _BESIDE_REST
            and not is_others(m)
            for m in takewhile(lambda m: m.w not in _REASONS, s.marks)
        )
    ):
        return False
    if not s.has("verb") and not cues(s, "plan"):
        return False
    dealt = msg.before is not None and not msg.before.has("unit", "amount", "number", "each", "value")
    dealt = dealt and last.statement == msg.thread.statements - 1  # "three grams each, Bo did 1-9 | and I did the rest"
    dealt = dealt or any(a.w == "same" and b.w in ("amount", "dose") for a, b in pairwise(s.marks))
    copy = same_again(last, frozenset() if dealt else HOW_MUCH | {"approx"})  # how much the others got was not said
    doing = any(m.w == "doing" for m in s.all("verb")) and stance.state == "done" and not _is_past(s, stance)
    finishing.finish(msg, i, s, stance.turned("planned") if doing else stance, copy)
    return True


_REASONS = frozenset("because cause cos cuz since".split())


def _is_past(s: Statement, stance: Stance) -> bool:
    """Whether "doing" is said of what is over ("was doing the rest", "doing the rest yesterday")."""
    return stance.ahead is False or any(m.w in ("was", "were", "been") for m in s.marks)


_ONCE_MORE = frozenset(
    (
        "one more another again and then so last final time go to do with them it that this will need same repeat "
        "redo on is be in comes goes due we i doing going i'm we're 's the our from now after following"
    ).split()
)
_REPEATS = frozenset(["repeat", "redo", "again"])


def _next_of_planned(s: Statement, last: Draft) -> bool:
    """ "wens tonight, two grams a hive, | next round in a week": the one after that which is still to be given."""
    return last.slots.get("state") == "planned" and "on" in last.slots and s.has("again")


def once_more(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "vaped the nucs, one more next thursday", "…, repeat in a week": the same treatment on a day to come."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if not s.has("date"):
        return False
    form = s.first("form") if s.has("ordinal") else None
    one, dose = _nth_one(s), _as_much_more(s)
    form_or_aside = form is not None
    aside = last is not None and last.kind in _TOLD_BETWEEN and s.has("again")  # "34F no wind. next one 12/20"
    if form is None and last is not None and last.kind in _TOLD_BETWEEN and (aside or _redo(s)):
        last = next((d for d in reversed(msg.thread.drafts[-3:-1]) if d.kind == "treatment"), None)
        form_or_aside = True  # "strips in n one, no brood in it, so | gonna do it again in a week"
    elif form is not None:  # "one pad each cause it's hot | second pad a week from monday"
        last = next((d for d in reversed(msg.thread.drafts[-2:]) if d.kind == "treatment"), None)
    if (
        last is None
        or last.kind != "treatment"
        or last.slots.get("step") != "in"
        or (last.slots.get("state", "done") != "done" and not _next_of_planned(s, last))
        or last.statement < msg.thread.statements - (4 if aside else 2 if form_or_aside else 1)
        or (form is not None and last.slots.get("form") not in (None, form.v["form"]))
        or not (_told_again(s, stance) or ((one or dose) is not None and stance.ahead is not False))
        or any(
            m.label not in ("date", "filler", "comma", "pronoun", "person", "again", "round")
            and not (form is not None and (m is form or m.label == "ordinal" or m.v.get("dir") == "in"))
            and m is not one
            and m is not dose
            and m.v.get("cue") != "plan"
            and not _ONCE_MORE.issuperset(m.w.split())
            for m in s.marks
        )
    ):
        return False
    copy = Draft("treatment", {k: last.slots[k] for k in ("agent", "form", "product", "step") if k in last.slots})
    copy.why = dict(last.why)
    for m in s.all("again", "round"):
        if "round" in m.v or m.label == "round":
            copy.put("round", m.v["round"] if "round" in m.v else int(number_of(m).value), m.rule)
    if one is not None:
        copy.put("round", int(one.v["value"]), "which one")
    if dose is not None and "unit" in last.slots:
        copy.put("amount", tidy(number_of(dose).value), "as much more")
        copy.put("unit", last.slots["unit"], "as much more")
        copy.spans.append((dose.s, dose.e))
    again = stance.turned("planned", ahead=True)
    copy.spans += [(m.s, m.e) for m in s.marks if m.label == "w"]
    finishing.finish(msg, i, s, again, copy, place_of(last))
    return True


_TOLD_BETWEEN = frozenset(["inspection", "conditions", "change"])
"""What may be told of between a treatment and the day of its repeat."""


def _nth_one(s: Statement) -> Mark | None:
    """The ordinal of "second one's on friday"."""
    return next((a for a, b in pairwise(s.marks) if a.label == "ordinal" and b.w == "one"), None)


def _as_much_more(s: Statement) -> Mark | None:
    """The number of "then another fifty in two weeks", "and fifty more on the tenth"."""
    for m in s.all("number", "value"):
        k = index_of(s, m)
        near = [x.w for x in (*s.marks[max(0, k - 1) : k], *s.marks[k + 1 : k + 2])]
        if not {"another", "more"}.isdisjoint(near) and number_of(m).value > 1:
            return m
    return None


def _redo(s: Statement) -> bool:
    """Whether "do it again" is said."""
    words = " ".join(m.w for m in s.marks)
    return any(x in words for x in ("do it again", "do them again", "do that again", "do em again", "repeat it"))


def _told_again(s: Statement, stance: Stance) -> bool:
    """Whether the words say that it is to be done another time, on a day that is not over."""
    if s.has("ordinal") and s.has("form") and stance.said is not None and stance.ahead is not False:
        return stance.said.form != "offset" or stance.ahead is True  # "second pad a week from monday"
    if s.has("again") or (s.has("round") and stance.said is not None and stance.said.form in ("weekday", "dom", "md")):
        return True  # "second round in at Quarry, third round Friday"
    more = any(a.w == "one" and b.w == "more" for a, b in pairwise(s.marks))
    again = any(not _REPEATS.isdisjoint(m.w.split()) for m in s.marks if m.label in ("w", "same", "verb", "cue"))
    today = stance.said is not None and stance.said.is_today
    return more or (again and stance.ahead is not False and not today)


def _goes_on_another_day(msg: Message, s: Statement, stance: Stance, last: Draft) -> bool:
    """ "dribbled one through nine, ten through eighteen saturday": said of work done today, the day lies ahead."""
    said = stance.said
    return (
        said is not None
        and said.form == "weekday"
        and said.args[1] == "plain"
        and last.slots.get("on") == msg.today.isoformat()
        and s.has("cols", "rest", "pronoun")
        and s.marks[-1].label == "date"
        and not any(m.w in ("did", "finished") for m in s.all("verb"))  # "did the rest saturday"
    )


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
    if last.slots["step"] == "nuc_made" and _came_from(s, two):
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
_ELSEWHERE = frozenset("and at from in on off out of the then another i've we've got i we more only just".split())
_COUNTED = frozenset(["number", "hives", "noun", "queen_noun"])


def _own_day(msg: Message, s: Statement, stance: Stance) -> Stance | None:
    """How the day said of another pair is meant: "n six goes into 22 on sunday" lies ahead, "44 into 45 tuesday" is
    as the pair before; None where no day is said.
    """
    if stance.said is None:
        return None
    goes = any(m.w.split()[0] in ("go", "goes") for m in s.marks) or bool(cues(s, "plan"))
    state = "planned" if goes or stance.ahead else msg.thread.drafts[-1].slots.get("state", "done")
    return stance.turned(state)


def elsewhere(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "lost five at cut bank and two at wens", "thirty out of s two and ten more out of s five": the same change or
    graft, another number at another yard or from another colony.
    """
    numbers, cols = [m for m in s.marks if m.label in _COUNTED and "n" in m.v], s.all("cols")
    source = bool(cols) and _came_from(s, cols[0])
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


def _came_from(s: Statement, cols: Mark) -> bool:
    """Whether "out of", "off" or "from" stands before the colonies."""
    before = [m.w for m in s.marks[: index_of(s, cols)] if m.label != "hive" and m.w != "the"]
    return before[-1:] in (["from"], ["off"]) or before[-2:] in (["out", "of"], ["off", "of"])


def other_dose(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "52 got thirty mil": the treatment before, another dose."""
    if not s.has("unit"):
        return False
    heads = [m for m in s.marks if m.label in HEADS]
    last = msg.thread.last_treatment
    if (
        not s.has("cols")
        or len(heads) != 1
        or heads[0].label != "unit"
        or last is None
        or stance.state != "done"
        or s.has("feed", "item")
    ):
        return False
    if last.slots.get("step") != "in" or last.sentence < s.sentence - 1:
        return False
    weather = [d for d in msg.thread.lately(msg.first_draft)[-2:] if d.kind == "conditions"]  # said in between
    if (
        last in msg.thread.drafts[-1 - len(weather) :]
        and last.why.get("every_colony") == WHOLE_YARD
        and "amount" not in last.slots
        and last.statement >= msg.thread.statements - 1 - len(weather)
    ):
        # "sprayed the nucs at the pond, n one and n two thirty mil each": the dose names the colonies
        msg.thread.drafts.remove(last)
        last.slots.pop("every_colony", None)
        last.put("amount", tidy(number_of(heads[0]).value), heads[0].rule)
        _stays_so_long(s, last)
        last.put("unit", heads[0].v["unit"], heads[0].rule)
        last.spans.append((heads[0].s, heads[0].e))
        day: dict[str, Any] = {slot: last.slots[slot] for slot in ("on", "on_until") if slot in last.slots}
        finishing.finish(msg, i, s, stance, last)
        last.slots.update(day)
        return True
    if last.sentence != s.sentence:
        return False
    copy = Draft(
        "treatment",
        {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step", "round")},
        [],
        dict(last.why),
    )
    copy.put("amount", tidy(number_of(heads[0]).value), heads[0].rule)
    copy.put("unit", heads[0].v["unit"], heads[0].rule)
    copy.spans.append((heads[0].s, heads[0].e))
    _stays_so_long(s, copy)
    finishing.finish(msg, i, s, stance, copy)
    if s.has("days"):
        all_so_long(msg, s, copy)
    return True


def _stays_so_long(s: Statement, treated: Draft) -> None:
    """ "fifty grams each, it stays in fourteen days": how long what was given stays in."""
    days = s.first("days")
    if days is not None:
        treated.put("days", tidy(days_of(days)), days.rule)
        treated.spans.append((days.s, days.e))


def these_too(msg: Message, s: Statement) -> bool:
    """ "a pound each on five and six, oh, nine too": the colonies join those of the record before.

    In a sentence of their own ("pads into 40 and 41. 44 too") they have a record of their own.
    """
    cols = s.all("cols")
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    apart = last is not None and last.sentence != s.sentence
    if (
        len(cols) != 1
        or last is None
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or not last.slots.get("colonies")
        or (not apart and (last.slots.get("state", "done") != "done" or last.kind in ("change", "mite_check")))
        or last.kind == "harvest"
        or not _says_too(s)
        or any(
            m.label not in ("cols", "comma", "filler", "hive") and m.w not in _TOO
            for m in takewhile(lambda m: m.w not in ("just", "in case", "for luck"), s.marks)
        )
    ):
        return False
    ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    if apart or last.kind == "inspection":  # "72 has chalkbrood, 73 too": the same again, of another colony
        for d in [d for d in msg.thread.drafts[msg.first_draft :] if d.statement == last.statement]:
            copy = Draft(d.kind, {**d.slots, "colonies": ids}, [], dict(d.why))
            if yard:
                copy.put("yard", yard, "yard")
            copy.spans += [(m.s, m.e) for m in s.marks if m.label not in ("comma", "filler")]
            copy.sentence, copy.line, copy.statement = d.sentence, d.line, msg.thread.statements
            msg.thread.drafts.append(copy)
        return True
    last.put("colonies", last.slots["colonies"] + [x for x in ids if x not in last.slots["colonies"]], "these too")
    last.spans += [(m.s, m.e) for m in s.marks if m.label not in ("comma", "filler")]
    last.statement = msg.thread.statements
    return True


_TOO = frozenset("and too also got did on as well".split())


def _says_too(s: Statement) -> bool:
    """Whether "too", "also" or "as well" is said."""
    if any(m.w in ("too", "also", "as well") for m in s.marks):
        return True
    return any(a.w == "as" and b.w == "well" for a, b in pairwise(s.marks))


def harvest_row(msg: Message, s: Statement) -> None:
    """ "honey: cut bank nine supers, | quarry twelve frames": a yard and a number after a harvest are a harvest too."""
    if (
        not s.has("yard")
        or s.has(
            "harvest", "honey", "cols", "feed", "agent", "form", "method", "mites", "change", "hives", "cue", "verb"
        )
        or not msg.thread.drafts
        or msg.thread.drafts[-1].line < s.line - 1
        or not isinstance(msg.thread.drafts[-1].slots.get("amount"), (int, float))
        or msg.thread.drafts[-1].kind != "harvest"
        or any(a.label == "item" and b.w in ("on", "back") for a, b in pairwise(s.marks))  # "quarry two supers on"
    ):
        return
    if not s.has("item", "noun", "amount"):
        _as_much_again(s, msg.thread.drafts[-1])
    supers = [m for m in s.all("item") if m.v["item"] == "super"]
    frames_off = [m for m in s.all("noun") if m.v.get("noun") == "frames" and "n" in m.v]
    weighed = [m for m in s.all("amount") if amount_of(m)[1] in HONEY_UNITS]
    if len(s.all("item")) > len(supers) or not (weighed or frames_off or (supers and s.has("number"))):
        return
    first = s.marks[0]
    s.marks.insert(0, Mark("honey", first.s, first.s, "", {}, "a harvest as the one before"))
    s.seal()


def _as_much_again(s: Statement, last: Draft) -> None:
    """ "twenty frames of honey off larks and thirty five off the pond": a bare number in the measure said before."""
    k = next((k for k, m in enumerate(s.marks) if m.label == "number"), None)
    unit = last.slots.get("unit")
    if (
        k is None
        or unit is None
        or last.sentence != s.sentence
        or last.slots.get("yard") == s.all("yard")[0].v["value"]
    ):
        return
    after = s.marks[k + 1 : k + 4]
    if not all(m.w == "and" for m in s.marks[:k]) or len(after) < 2 or after[0].w not in ("off", "from", "out", "at"):
        return
    m = s.marks[k]
    if unit == "frame":
        m.label, m.v = "noun", {"noun": "frames", "n": m.v["n"]}
    elif unit == "super":
        s.marks.insert(k + 1, Mark("item", m.e, m.e, "", {"item": "super"}, "as much again"))
    else:
        m.label, m.v = "amount", {"words": [m.w, unit], "n": m.v["n"]}
    s.seal()


def other_measure(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "half a gallon each on 9 and 10", "hive 16 got a quart": what was fed before, or is named just after."""
    amount = s.first("amount")
    if (
        amount is None
        or not s.has("cols", "pronoun")
        or s.has_head
        or s.has("item", "honey", "thing", "noun", "ratio")
        or stance.state != "done"
        or any(m.w not in _GOT for m in s.all("verb"))
    ):
        return False
    fed = msg.last("feed", s.sentence)
    if fed is None and not s.has("cols"):
        return False
    copy = Draft("feed")
    if fed is not None and "feed" in fed.slots:
        for slot in ("feed", "ratio"):
            if slot in fed.slots:
                copy.put(slot, fed.slots[slot], "what was fed before")
        if fed.why.get("every_colony") == WHOLE_YARD and not {"amount", "colony_count"} & fed.slots.keys():
            copy.spans += fed.spans  # "syrup at the quarry, hives two and five a gallon each": not the whole yard
            msg.thread.drafts.remove(fed)
    elif s.has("each"):
        after = next((x for x in msg.statements[i + 1 : i + 4] if x.has("feed", "ratio")), None)
        if after is None or after.sentence != s.sentence or after.has("verb", "cue"):
            return False
        named, ratio = after.first("feed"), after.first("ratio")
        copy.put("feed", named.v["feed"] if named is not None else "syrup", "what is named just after")
        if ratio is not None and copy.slots["feed"] == "syrup":
            copy.put("ratio", ratio.v["ratio"], ratio.rule)
    else:
        return False
    value, unit = amount_of(amount)
    if unit != "jar" and (copy.slots["feed"] == "syrup") != (unit in _LIQUID):
        return False  # "gave 17 a quart of syrup and 18 a patty": what the patty is of was not said
    copy.put("amount", tidy(value), amount.rule)
    if unit:
        copy.put("unit", unit, amount.rule)
    copy.spans += [(m.s, m.e) for m in s.marks if m is amount or m.w == "same"]
    if is_approx(s, amount):
        copy.put("approx", True, "about")
    finishing.finish(msg, i, s, stance, copy)
    return True


def there_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "dead: Millpond 2, 9. Quarry 5", "fondant on: Quarry 5, Millpond 2": the same at another yard."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    before = msg.before
    if last is None or before is None or not s.has("yard") or len(s.all("cols")) != 1:
        return False
    if last.statement != msg.thread.statements - 1 or last.line != s.line or not _only_listed(s):
        return False
    heads = [k for k, m in enumerate(before.marks) if m.w == ":"]
    listed = _only_listed(before) or (bool(heads) and all(m.label in _LISTED for m in before.marks[heads[-1] + 1 :]))
    if not listed or last.kind not in ("change", "gear", "feed", "treatment") or "with" in last.slots:
        return False
    copy = same_again(last)
    state = last.slots.get("state", "done")
    stance = Stance(state, today=stance.today, hemisphere=stance.hemisphere)
    day: dict[str, Any] = {slot: last.slots[slot] for slot in ("on", "on_until") if slot in last.slots}
    finishing.finish(msg, i, s, stance, copy)
    copy.slots.update(day)
    return True


def yards_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "guards on at Home, | Chapel and Station": the same over other yards, which only a list names."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if last is None or s.has("cols") or not s.has("yard") or s.opens != "soft" or s.sentence != last.sentence:
        return False
    condition = next((m for m in s.all("cue") if m.v.get("cue") == "if"), None)
    listed = s.marks[: index_of(s, condition)] if condition is not None else s.marks
    made_there = last.kind in ("gear", "treatment", "feed") and bool(last.slots.get("every_colony"))
    if (
        last.statement != msg.thread.statements - 1
        or not listed
        or not all(
            m.label in ("yard", "comma")
            or m.w in ("yet", "done", "finished")
            or m.w in _BETWEEN_YARDS
            or (m.w in _ALL_OF and made_there)
            or _but_not(m)
            or m is listed[-1]
            for m in listed
        )
    ):
        return False
    closes = listed[-1].w in ("yet", "done", "finished") or listed[-1].w in _BETWEEN_YARDS
    if listed[-1].label not in ("yard", "comma", "date") and not closes:
        return False
    coming = msg.statements[i + 1] if i + 1 < len(msg.statements) else None
    if coming is not None and coming.sentence == s.sentence and not any(m.w == "and" for m in s.marks):
        if not coming.has("yard"):
            return False  # "supers on at Chapel, Station, | strips out": the yard of what follows
    made = [d for d in msg.thread.lately(msg.first_draft) if d.statement == last.statement]
    before = msg.before.marks[-1] if msg.before is not None and msg.before.marks else None
    k = 0 if before is not None and _but_not(before) else len(s.marks)
    k = next((n for n, m in enumerate(s.marks) if _but_not(m)), k)
    too, not_there = ([m for m in part if m.label == "yard"] for part in (s.marks[:k], s.marks[k:]))
    if (
        listed[-1].label == "date"
        and stance.said is not None
        and not (msg.before is not None and msg.before.has("date"))
    ):
        for d in made:  # "… and cut bank on Sunday", "… and wens tomorrow if it's over forty"
            ahead = stance.ahead is True and d.slots.get("state", "done") == "done"
            state = "planned" if ahead else d.slots.get("state", "done")
            finishing.put_day(msg, i, s, stance.turned(state, ahead=ahead or None), d)
            if ahead:
                d.put("state", "conditional" if condition is not None else "planned", "a day to come")
    found = _over(msg, made, too, msg.before is not None and msg.before.has("each"))
    return _over(msg, made, not_there, False, "not_done") or found


def _but_not(m: Mark) -> bool:
    """ "guards on at Home and Ridge | but not Chapel"."""
    return m.label == "cue" and (m.v.get("cue") == "except" or m.w == "not")


def each_yard(msg: Message, s: Statement, made: list[Draft]) -> None:
    """ "Home and Ridge supers on": what is said over several yards in a list is so of each of them."""
    yards = s.all("yard")
    if len(yards) < 2 or s.has("cols") or any(m.v.get("to") for m in yards):
        return
    k = len(s.marks) - 1
    while s.marks[k].label != "yard":
        k -= 1
    others: list[Mark] = []
    k -= 1
    while k >= 0 and (s.marks[k].label in ("yard", "comma") or s.marks[k].w in _BETWEEN_YARDS):
        if s.marks[k].label == "yard":
            others.insert(0, s.marks[k])
        k -= 1
    if others:
        _over(msg, made, others, s.has("each"))


_BETWEEN_YARDS = frozenset(["and", "&", "plus", "the", "at"])
_ALL_OF = frozenset("all of off out from on in everything whole every".split())
""" "supers off all of the pond and | off all of larks"."""


def _over(msg: Message, drafts: list[Draft], yards: list[Mark], each: bool, state: str = "done") -> bool:
    """Copies of the records over a whole yard, for the other yards; whether there were any.

    `state` is "not_done" for yards of which it was said that it was not done there.
    """
    found = False
    for d in drafts:
        whole = d.slots.get("every_colony") and "except_colonies" not in d.slots
        if d.kind not in ("treatment", "gear", "feed") or not whole:
            continue
        for m in yards:
            if m.v["value"] == d.slots.get("yard"):
                continue
            copy = Draft(d.kind, {**d.slots, "yard": m.v["value"]}, [*d.spans, (m.s, m.e)], dict(d.why))
            for slot in () if each else HOW_MUCH:
                copy.slots.pop(slot, None)  # "60 strips in at Home and Ridge": how many at each is not said
            if state != "done" and copy.slots.get("state", "done") == "done":
                copy.put("state", state, "but not there")
            copy.sentence, copy.line, copy.statement = d.sentence, d.line, msg.thread.statements
            msg.thread.drafts.append(copy)
            found = True
    return found


_LISTED = frozenset("yard cols comma hive".split())


def _only_listed(s: Statement) -> bool:
    """Whether the statement only names a yard and colonies of it."""
    return s.has("yard") and all(m.label in _LISTED or m.w in ("and", "at", "the", "in") for m in s.marks)


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
        copy = Draft(
            "queen_work", {k: last.slots[k] for k in ("step", "on", "on_until") if k in last.slots}, [], dict(last.why)
        )
        stance = Stance(last.slots.get("state", "done"), today=stance.today, hemisphere=stance.hemisphere)
    elif head is not None and said and said[0].v.get("step") in ("marked", "requeened", "introduced", "caught"):
        copy = Draft("queen_work", {"step": said[0].v["step"]}, [(said[0].s, said[0].e)], {"step": said[0].rule})
        stance = take_stance(head, msg.today, msg.hemisphere, None)
    else:
        return False
    copy.put("mark", colour, "the same work with another colour")
    copy.spans.append((words[0].s, words[0].e))
    day: dict[str, Any] = {slot: copy.slots[slot] for slot in ("on", "on_until") if slot in copy.slots}
    finishing.finish(msg, i, s, stance, copy)
    copy.slots.update(day)
    return True


def _right_before(msg: Message, last: Draft) -> bool:
    """Whether it was said last, or with only one between whose queen was not found: "three white, seven no sign"."""
    now = msg.thread.statements
    if last.statement == now - 1:
        return True
    missed = [d for d in msg.thread.drafts if d.statement == now - 1]
    return last.statement == now - 2 and [d.slots.get("queen") for d in missed] == ["not_seen"]


_BESIDE_COLOUR = frozenset("cols w comma filler hive yard".split())
_LIQUID = frozenset(["gallon", "quart", "pint", "litre"])
_GOT = listed("got_or_given")


def held_value(s: Statement, method: str | None) -> bool:
    """Whether the statement counts mites by a method said before."""
    return method is not None and s.has("value", "mites", "clean", "percent")
