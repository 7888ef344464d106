"""What was seen: one inspection a colony and day; the weather."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import pairwise

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.inspection import set_slot
from fieldnotes.reader.frames.marks import index_of, neighbour
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import (
    finishing,
    placing,
)
from fieldnotes.reader.making.message import NEAR, Message
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Place

_FORECASTS = listed("forecasts")


_AS_ONE = frozenset(["temper", "stores"])
"""What "it's hot" or "it's too heavy to lift" says of one thing only."""
_FOUND_SO = frozenset(["strength", "stores", "temper", "signs"])


def _as_it_is(draft: Draft) -> bool:
    """Whether only how a colony is was said, which cannot be planned ("hive two's too weak, do that one friday")."""
    return draft.slots.keys() <= _FOUND_SO


def _of_the_weather(s: Statement) -> bool:
    """Whether only "it's hot" is said, which after several colonies is the day's weather."""
    fact = s.first("fact")
    before = neighbour(s, index_of(s, fact), -1) if fact is not None else None
    if fact is not None and before is not None and before.w == "too":
        before = neighbour(s, index_of(s, before), -1)
    return before is not None and before.w in ("it's", "its", "it") and not s.has("cols", "pronoun", "every")


def inspect(msg: Message, i: int, s: Statement, stance: Stance, draft: Draft, made: list[Draft]) -> None:
    """What was seen, joined with what was seen of the same colony that day."""
    if draft.slots and stance.state == "conditional":
        return
    if not draft.slots and stance.state == "not_done" and placing.just_left_out(msg, s) is not None:
        return  # "strips out of all but 61, which I couldn't open": why it was left out
    if draft.slots and stance.state == "not_done":
        stance = Stance(state="done", carried=stance.when)
    if draft.slots and stance.state == "planned" and (stance.when is None or _as_it_is(draft)):
        # "still weak, will combine": what was seen was seen, whatever is planned in the same breath
        stance = Stance(state="done")
    if _swarmed_then(s):
        stance = Stance(state="done")  # "swarmed yesterday, no eggs, nine cells": seen today
    sized = any("strength" in m.w or "bees" in m.w for m in s.all("fact"))  # "fair, five frames of bees"
    weighed = "stores" not in draft.slots and not sized
    if draft.slots.get("strength") == "fair" and weighed and (stores_spoken_of(msg, s) or _hefted(msg, i, s)):
        draft.slots.pop("strength")
        draft.put("stores", "fair", draft.why.pop("strength"))  # "hefted … three's heavy, four is fair"
    before = msg.thread.drafts[-1] if msg.thread.drafts else None
    if (
        set(draft.slots) == {"mark"}
        and not s.has("cols")
        and before is not None
        and before.kind == "queen_work"
        and before.sentence == s.sentence
        and "mark" not in before.slots
    ):
        before.put("mark", draft.slots["mark"], draft.why.get("mark", ""))  # "requeened 41, green mark"
        before.spans += draft.spans
        return
    emptied = before is not None and before.kind in ("treatment", "gear") and before.slots.get("step") in ("out", "off")
    if emptied and draft.slots.get("stores") == "empty" and any(m.w == "they" for m in s.all("pronoun")):
        return  # "took the trays out, they were all empty": the trays
    place, used = placing.where(msg, i, s, "inspection", stance)
    if (draft.slots.get("stores") == "empty" or draft.slots.get("strength") == "weak") and _of_the_dead(msg, s, place):
        draft.slots.pop("strength", None)
        if any(m.w.split()[-1] == "empty" and "stores" not in m.w for m in s.all("fact")):
            del draft.slots["stores"]
        if not draft.slots:
            msg.thread.drafts[-1].spans += draft.spans
            return
    if len(place.colonies or ()) > 1 and len(draft.slots) == 1 and _AS_ONE & set(draft.slots) and _of_the_weather(s):
        return  # "pads in twelve and fourteen, one each cause it's hot"
    if not place.colonies and not place.every and place.count is None:
        return
    finishing.finish(msg, i, s, stance, draft, place, add=False)
    for m in used:
        draft.spans.append((m.s, m.e))
    if add_seen(msg, i, s, draft):
        made.append(draft)
    if "starving" in draft.slots.get("signs", ()) and stance.state == "done":
        _starved_out(msg, i, s, stance, place)


_TO_DEATH = ("starved out", "starved to death")


def _starved_out(msg: Message, i: int, s: Statement, stance: Stance, place: Place) -> None:
    """ "N6 starved out": dead, where nothing else says so."""
    starved = next((m for m in s.all("fact") if m.w in _TO_DEATH), None)
    if starved is None or not place.colonies:
        return
    before = neighbour(s, index_of(s, starved), -1)
    if before is not None and before.w.startswith(("look", "near", "almost", "about", "half")):
        return
    if any(m.v.get("step") == "died" for x in msg.statements[i + 1 : i + 3] for m in x.all("change")):
        return  # "starved out, | dead on the combs"
    for d in msg.thread.lately(msg.first_draft):
        dead = d.kind == "change" and d.slots["step"] == "died"
        if dead and (not d.slots.get("colonies") or set(place.colonies) & set(d.slots["colonies"])):
            return
    draft = Draft("change", {"step": "died"}, [(starved.s, starved.e)], {"step": starved.rule})
    finishing.finish(msg, i, s, stance, draft, place)


def _of_the_dead(msg: Message, s: Statement, place: Place) -> bool:
    """ "64 is empty, no bees, dead", "nine is dead just a fist of bees": of the box and what lay in it."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.slots.get("step") != "died" or last.sentence != s.sentence:
        return False
    return last.slots.get("colonies") == (place.colonies or [])


def _swarmed_then(s: Statement) -> bool:
    """Whether the day is that of a swarm, and what was seen is told after it."""
    labels = [m.v.get("step") if m.label == "change" else m.label for m in s.marks]
    if labels.count("date") != 1 or "fact" not in labels:
        return False
    if "swarmed" not in labels:  # "the queen I put in 63 last week is laying now"
        put = labels.index("verb") if "verb" in labels and s.marks[0].w in ("the", "that") else 0
        by_us = s.marks[put - 1].w in ("i", "we") and "queen_noun" in labels[:put]
        return by_us and put < labels.index("date") < labels.index("fact")
    return labels.index("swarmed") < labels.index("date") < labels.index("fact")


def add_seen(msg: Message, i: int, s: Statement, draft: Draft) -> bool:
    """Joins what was seen with what was seen of the same colonies that day; whether a record of its own is left."""
    for old in msg.thread.lately():
        if old.kind == "inspection" and same_visit(msg, old, draft):
            join(old, draft)
            old.statement = msg.thread.statements
            return False
    named = bool(draft.slots.get("colonies"))
    share_out(msg, i, s, draft)
    if named and not draft.slots.get("colonies"):
        return False
    msg.add(i, s, draft)
    return True


def stores_spoken_of(msg: Message, s: Statement) -> bool:
    """Whether the colonies before, in the same sentence or line, were spoken of by their stores."""
    near = [
        d
        for d in msg.thread.lately(msg.first_draft)
        if d.kind == "inspection" and (d.sentence == s.sentence or d.line in (s.line, s.line - 1))
    ]
    return any("stores" in d.slots for d in near) and not any("strength" in d.slots for d in near)


_HEFTS = frozenset("heft hefted hefting weighed weighing weights stores".split())


def _hefted(msg: Message, i: int, s: Statement) -> bool:
    """Whether hives were lifted for their weight in the words before, so that "fair" is said of their stores."""
    near = [x for x in msg.statements[max(0, i - NEAR) : i + 1] if s.line - x.line <= 1]
    return any(m.label in ("verb", "w") and not _HEFTS.isdisjoint(m.w.split()) for x in near for m in x.marks)


def share_out(msg: Message, i: int, s: Statement, draft: Draft) -> None:
    """One inspection a colony and day: what is said of a group goes to its colonies' own records, and back."""
    ids = list(draft.slots.get("colonies", []))
    if not ids:
        return
    for old in msg.thread.lately():
        mine = old.slots.get("colonies", [])
        common = [cid for cid in ids if cid in mine]
        if old.kind != "inspection" or not common or not same_visit(msg, old, draft, but=("colonies",)):
            continue
        if len(common) < len(mine):  # the group's record is split
            at = msg.thread.place_of(old)
            part = Draft(
                old.kind, dict(old.slots), list(old.spans), dict(old.why), old.sentence, old.line, old.statement
            )
            if "signs" in part.slots:
                part.slots["signs"] = list(part.slots["signs"])
            part.slots["colonies"] = common
            old.slots["colonies"] = [cid for cid in mine if cid not in common]
            msg.thread.drafts.insert(at + 1, part)
            old = part
        join(
            old,
            Draft(
                draft.kind,
                {k: v for k, v in draft.slots.items() if k != "colonies"},
                list(draft.spans),
                dict(draft.why),
            ),
        )
        old.statement = msg.thread.statements
        ids = [cid for cid in ids if cid not in common]
    if ids:
        draft.slots["colonies"] = ids
    else:
        draft.slots.pop("colonies")


def same_visit(msg: Message, a: Draft, b: Draft, but: tuple[str, ...] = ()) -> bool:
    """Whether two inspections are of the same colonies, day and person."""
    return all(
        k in but or a.slots.get(k) == b.slots.get(k)
        for k in ("colonies", "on", "on_until", "yard", "every_colony", "except_colonies", "colony_count", "by")
    ) and a.slots.get("state") == b.slots.get("state")


def join(old: Draft, new: Draft) -> None:
    """Adds what the new inspection saw to the old one."""
    for slot, value in new.slots.items():
        if slot == "signs":
            old.slots["signs"] = [
                *old.slots.get("signs", []),
                *(x for x in value if x not in old.slots.get("signs", [])),
            ]
        elif slot == "queen" and value == "right" and new.why.get("queen") == "has a queen":
            if old.slots.get("queen") in (None, "less"):
                old.slots["queen"] = value  # "the red queen is gone, there's an unmarked one in there laying"
        elif slot == "queen":
            set_slot(old, "queen", value, new.why.get("queen", ""))
        else:
            old.slots[slot] = value
        old.why[slot] = new.why.get(slot, "")
    old.spans += new.spans
    if "queen_cells" in old.slots and old.slots.get("cells_seen"):
        del old.slots["cells_seen"]


def weather(msg: Message, i: int, s: Statement, stance: Stance, draft: Draft) -> None:
    """Weather, joined with what was said of the same yard and day."""
    if stance.state == "conditional":
        return  # "if it stays under sixty degrees": no weather yet
    before = msg.before
    if s.marks[0].label == "temp" and before is not None and any(m.w in ("till", "until") for m in before.marks[-4:]):
        return  # "can't do it till it's over | forty degrees": what is waited for
    named = any(m.w.split()[0] in _FORECASTS for m in s.marks)
    day = _day_beside(s) if s.has("date") else None
    if day is None and not s.has("date") and s.opens == "soft" and (last := msg.newest_here) is not None:
        if last.kind == "conditions" and msg.just_told(last) and "on" in last.slots:
            on = date.fromisoformat(last.slots["on"])
            stance = Stance(carried=(on, on))  # "rain on Thursday, high of 58"
    if day is not None and len(s.all("date")) > 1:
        stance = replace(stance, said=day.v["value"], ahead=day.v["value"].ahead, state="done")
    forecast = (s.has("temp") or day is not None) and stance.when is not None and stance.when[0] > msg.today
    forecast = forecast or (s.has("temp", "date") and named)
    forecast = forecast or (day is not None and stance.state == "done" and _soon(msg, s, day))
    if forecast and not (stance.carried and stance.said is None):
        when = stance.turned("planned", ahead=True).when
        stance = Stance(state="done", carried=when)  # "high of 91 tomorrow": the day it is said of
    elif stance.state != "done":
        stance = Stance(state="done", carried=stance.when if not stance.plan else None)
    there = msg.held.moved_to if _over_there(s) else None
    finishing.finish(msg, i, s, stance, draft, Place(there or msg.held.yard or finishing.only_yard(msg)), add=False)
    for m in s.all("yard"):
        draft.spans.append((m.s, m.e))
    for old in msg.thread.lately(msg.first_draft):
        if (
            old.kind == "conditions"
            and all(old.slots.get(k) == draft.slots.get(k) for k in ("yard", "on", "by"))
            and not (set(old.slots) & set(draft.slots) & {"temp", "high", "low", "sky", "flow"})
        ):
            old.slots.update(draft.slots)
            old.why.update(draft.why)
            old.spans += draft.spans
            return
    msg.add(i, s, draft)


def _day_beside(s: Statement) -> Mark | None:
    """The day right beside the weather ("rain on Thursday", "Thursday: rain"), which is then the day of it."""
    said = [m for m in s.marks if m.label not in ("filler", "comma") and m.w not in _BETWEEN]
    for a, b in pairwise(said):
        if a.label == "date" and b.label in _WEATHER:
            return a
        if b.label == "date" and a.label in _WEATHER:
            return b
    return None


_WEATHER = frozenset(["sky", "temp"])
_BETWEEN = frozenset("on : for looks like a".split())


def _soon(msg: Message, s: Statement, day: Mark) -> bool:
    """ "rain Thursday", said on Wednesday: a bare weekday so near, and no word of what is over."""
    when = day.v["value"]
    bare = when.form == "weekday" and when.args[1] == "plain" and not s.has("verb", "cols", "change")
    near = bare and 0 < (when.args[0] - msg.today.weekday()) % 7 <= _NEAR_DAYS
    return near and not any(m.w.split()[-1] in _IS_OVER or m.w.endswith("ed") for m in s.marks)


_NEAR_DAYS = 3
_IS_OVER = frozenset("was had were since got".split())


def _over_there(s: Statement) -> bool:
    """ "moved twelve hives up to the orchard … the flow's on up there"."""
    return not s.has("yard") and any(
        a.w in ("up", "over", "down", "out") and b.w == "there" for a, b in pairwise(s.marks)
    )


def _brood_beside_bees(s: Statement) -> None:
    """ "8 fob 5 brood", "5 brood, 8 fob": frames of brood, beside the frames of bees. Changes the number's mark."""
    if not any(m.v.get("number") == "bee_frames" for m in s.all("fact")):
        return
    for m, brood in pairwise(s.marks):
        after = neighbour(s, index_of(s, brood), 1) if m.label == "number" and brood.w == "brood" else None
        if m.label == "number" and brood.w == "brood" and (after is None or after.label in ("comma", "fact")):
            m.label, m.v = "fact", {"kind": "inspection", "number": "brood_frames", "n": m.v["n"]}
            s.seal()
            return


def name_frames(msg: Message, s: Statement) -> None:
    """ "two: five frames of bees; three: six frames": bare frames are of the kind counted last, cells are seen."""
    if "brood" in s.words and s.has("number"):
        _brood_beside_bees(s)
    if s.has("number") and s.has("fact") and s.has("cols"):
        _as_many_more(msg, s)
    if not msg.column and not s.has("noun", "queen_noun"):
        return
    seen = [d for d in msg.thread.lately(msg.first_draft) if d.kind == "inspection" and d.sentence == s.sentence]
    kinds = ("bee_frames", "brood_frames", "food_frames")
    kind = next((x for d in reversed(seen) for x in kinds if x in d.slots), None)
    changed = False
    numbers = s.all("number")
    if msg.column and s.opens == "line" and len(numbers) == 1 and s.has("cols") and not s.has_head:
        number = numbers[0]  # a row under "frames of bees"
        number.label, number.v = "fact", {"kind": "inspection", "number": msg.column, "n": number.v["n"]}
        changed = True
    for m in s.all("noun", "queen_noun"):
        if "n" not in m.v or m.v.get("taken"):
            continue
        if m.v.get("noun") == "frames" and kind is not None and s.has("cols") and not s.has("verb", "honey", "harvest"):
            m.label, m.v = "fact", {"kind": "inspection", "number": kind, "n": m.v["n"]}
            changed = True
        elif (
            m.label == "queen_noun"
            and m.v.get("noun") == "cells"
            and (s.has("cols") or (bool(seen) and _goes_on_seeing(msg, s, seen[-1])))
            and not s.has("queen_work", "change")
            and not any(x.v.get("dir") for x in s.all("verb"))
            and not any(x.w in ("into", "in", "for") for x in s.marks if x.label == "w")
        ):
            m.label, m.v = "fact", {"kind": "inspection", "number": "queen_cells", "n": m.v["n"]}
            changed = True
    if changed:
        s.seal()


_FRAMES = ("bee_frames", "brood_frames", "food_frames")
_IN_ROW = frozenset("and but with only just down to is has had at 's".split())


def _as_many_more(msg: Message, s: Statement) -> None:
    """ "S1 eight frames of bees, S2 six, | S3 only four and no eggs": frames again, and what else was seen. Changes the
    number's mark in place.
    """
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    numbers = s.all("number")
    if last is None or last.kind != "inspection" or last.sentence != s.sentence or not msg.just_told(last):
        return
    kinds = [x for x in _FRAMES if x in last.slots]
    plain = all(m.label in ("cols", "number", "fact", "comma", "filler", "approx") or m.w in _IN_ROW for m in s.marks)
    if len(kinds) != 1 or len(numbers) != 1 or not plain or any("number" in m.v for m in s.all("fact")):
        return
    numbers[0].label = "fact"
    numbers[0].v = {"kind": "inspection", "number": kinds[0], "n": numbers[0].v["n"]}
    s.seal()


def _goes_on_seeing(msg: Message, s: Statement, last: Draft) -> bool:
    """ "twelve has brood in all stages | and eleven cells": more of what was seen just before."""
    return last.statement == msg.thread.statements - 1 and s.marks[0].w in ("and", "plus", "with")


def _each_follows(s: Statement, number: Mark) -> bool:
    """Whether "each" or "in each" follows the number ("supersedure cells, two in each")."""
    after = neighbour(s, index_of(s, number), 1)
    return after is not None and after.label == "each"


_OF_CELLS = ("capped", "sealed", "open", "started", "charged", "swarm", "queen", "super", "emerg", "cell")


_SEEN_OR_CUT = listed("cells_only_seen")


def _just_after(s: Statement, cells: Mark, number: Mark) -> bool:
    """ "swarm cells, five or so of them", "swarm cells maybe ten": nothing else stands between, or behind."""
    k, at = index_of(s, cells), index_of(s, number)
    between = all(m.label in ("comma", "approx", "filler") for m in s.marks[k + 1 : at])
    behind = s.marks[at + 1 : at + 3]
    ends = (
        not behind
        or behind[0].label in ("approx", "comma", "filler")
        or behind[0].w in ("of them", "in there", "total")
    )
    return between and ends and number.v["n"].value <= _MOST_CELLS


_MOST_CELLS = 60


def cells_there(msg: Message, s: Statement) -> None:
    """ "saw three capped cells in nine", "left | the cells in nine": cells that hang there, none placed."""
    work = s.first("queen_work")
    if work is None or work.v.get("step") != "cells_placed" or not work.w.endswith(("cells in", "cell in")):
        return
    k = index_of(s, work)
    before = s.marks[max(0, k - 6) : k]
    if k < _ARTICLE and s.opens == "soft" and msg.before is not None:
        before = [*msg.before.marks[-1:], *before]
    seen = any(m.w.split()[0] in _SEEN_OR_CUT for m in before)
    seen = seen or any(a.label == "fact" and b.w in ("and", "with") for a, b in pairwise(before))
    if not seen or any(m.v.get("dir") == "in" for m in before):
        return
    number = neighbour(s, k, -1)
    if "n" not in work.v and number is not None and number.label in ("number", "value") and number.v["n"].whole:
        work.v, number.label = {**work.v, "n": number.v["n"], "struck": [(number.s, number.e)]}, "w"
    counted = {"number": "queen_cells", "n": work.v["n"]} if "n" in work.v else {"set": {"cells_seen": True}}
    struck = {"struck": work.v["struck"]} if "struck" in work.v else {}
    work.label, work.v = "fact", {"kind": "inspection", **counted, **struck}
    s.seal()


_ARTICLE = 2
"""Where the noun stands that at most an article leads."""


def _right_after(s: Statement, cells: Mark, m: Mark) -> bool:
    """ "seventy two swarm cells, I counted six": the count straight after the cells, also where checks were told of."""
    between = s.marks[index_of(s, cells) + 1 : index_of(s, m)]
    return all(x.label in ("comma", "filler") or x.w in ("i", "we", "and") for x in between)


def count_cells(s: Statement, method: str | None) -> None:
    """ "swarm cells in 18, I counted seven", "supersedure cells, three of them": the number is of the cells."""
    cells = next((m for m in s.all("fact") if m.v.get("set", {}).get("cells_seen") and "n" not in m.v), None)
    if cells is None:
        return
    before = neighbour(s, index_of(s, cells), -1)
    if before is not None and before.label == "number" and before.v["n"].whole and cells.w.startswith(_OF_CELLS):
        cells.v = {**cells.v, "number": "queen_cells", "n": before.v["n"], "struck": [(before.s, before.e)]}
        before.label, before.v = "w", {}
        s.seal()
        return  # "no queen and a dozen capped cells"
    for m in s.marks[index_of(s, cells) + 1 :]:
        if m.label == "fact":
            return
        counted = m.label == "mites" and m.w.startswith(("counted", "i counted")) and "mite" not in m.w
        counted = counted and (method is None or _right_after(s, cells, m))
        in_each = m.label == "number" and m.v["n"].whole and (_each_follows(s, m) or _just_after(s, cells, m))
        if counted or in_each or (m.label == "hives" and m.w.endswith(("of them", "of em"))):
            cells.v = {**cells.v, "number": "queen_cells", "n": m.v["n"]}
            cells.v.setdefault("struck", []).append((m.s, m.e))
            m.label, m.v = "w", {}
            s.seal()
            return
