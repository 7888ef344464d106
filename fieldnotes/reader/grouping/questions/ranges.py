"""Colonies by the range that begins with the number: "forty through forty five", "seventy five up"."""

from __future__ import annotations

from fieldnotes.reader.grouping.questions.things import THINGS_AND_QUEENS
from fieldnotes.reader.grouping.row import RANGE, id_of, range_here, rises_to_colony
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.mark import THINGS


def range_opens(at: Spot) -> bool | None:
    """ "the cells go in this Friday | forty through forty five"."""
    p, q = at.p, at.q
    upward = q is not None and q.w in ("on", "and") and at.z is not None and at.z.w in ("up", "upward", "upwards")
    closed = p is not None and p.label in ("date", "each", "comma", "filler", "cols")
    if upward and (closed or (p is not None and p.label == "number" and at.last == "cols")) and not at.r.checking:
        return True if id_of(at.m) in at.r.outfit.ids else None  # "got theirs today | fifty three on up tomorrow"
    if q is None or q.w not in RANGE or not rises_to_colony(at.r, at.i):
        return None
    changed = p is not None and p.label == "change"
    if p is not None and p.w == "and" and at.pp is not None and at.pp.label == "date" and not at.r.checking:
        return True  # "out of forty one today and | fifty to fifty five tomorrow"
    opens = (
        p is None
        or (changed and p.v.get("step") in ("sold", "bought", "moved", "split"))
        or p.label in ("date", "stop", "line", "comma", "yard", "each", "filler", "queen_work", "item", "days")
    )
    if p is not None and p.label == "form" and p.v.get("treats") and p.w.endswith("ed"):
        return True  # "she vaporized | 50 to 56 with oxalic"
    if opens and at.r.checking and not changed:
        far = at.r.at(at.r.on(at.r.on(at.r.on(at.i))))
        return (
            True if far is not None and far.label in ("every", "fact") else None
        )  # "one to six all queenright, washed"
    return True if opens else None


def range_after_thing(at: Spot) -> bool | None:
    """ "pulled strips 45-52 cut bank"."""
    p, after = at.p, at.after
    if p and p.w == ":":
        p = at.pp  # "pollen sub: 41-44 1 lb each"
    if not (p and p.label in THINGS and at.number.digits):
        return None
    if not range_here(at.r, at.i) and not (
        at.q and at.q.w == "to" and at.number.value > 1 and rises_to_colony(at.r, at.i)
    ):
        return None
    ends = after is None or after.label in ("line", "stop", "yard", "comma", "date", "w", "amount", "ratio")
    return True if ends else None


def spoken_range(at: Spot) -> bool | None:
    """ "I got one through twelve wrapped"."""
    q, r = at.q, at.r
    if not (q and q.w == "through" and range_here(r, at.i)):
        return None
    far = r.on(r.on(at.i))
    if not r.outfit.could_be(id_of(r.row[far])):
        return None
    beyond = r.at(r.on(far))
    return True if beyond is None or beyond.label not in ("days", "percent", "degrees", "amount") else None


def next_range(at: Spot) -> bool | None:
    """ "guards on one to nineteen | twenty to twenty four tomorrow": a range that goes on where the last one ended."""
    if at.last != "cols" or not at.r.last_ids or at.q is None or at.q.w not in RANGE or at.z is None:
        return None
    if at.z.label != "number" or at.z.v["n"].value <= at.number.value:
        return None
    before = at.r.last_ids[-1]
    follows = before.isdecimal() and at.number.value == int(before) + 1 and len(at.r.last_ids) > 1
    return True if follows and at.r.outfit.could_be(id_of(at.m)) else None


def range_opens_row(at: Spot) -> bool | None:
    """ "Quarry: 1-10 formic pads in Monday, 2 per hive": no 10 pads."""
    opens = at.p is None or at.p.label in ("line", "stop", "yard") or at.p.w == ":"
    if not opens or not at.number.digits or at.q is None or at.q.w not in ("-", "–") or at.z is None:
        return None
    if at.z.label != "number" or at.z.v["n"].value < at.number.value + 3 or not at.r.outfit.could_be(id_of(at.z)):
        return None
    thing = at.r.at(at.r.on(at.r.on(at.r.on(at.i))))
    given = thing is not None and thing.label in THINGS_AND_QUEENS
    return True if given and at.r.outfit.could_be(id_of(at.m)) else None


def from_there_up(at: Spot) -> bool | None:
    """ "seventy five up still need theirs", "fifteen same as fourteen"."""
    if at.q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if at.q.label == "same" and at.q.w.endswith(" as") and not (at.p is not None and at.p.label == "same"):
        return True
    word, after = at.q, at.z
    if word.w in ("on", "and") and after is not None:
        word, after = after, at.r.at(at.i + 3)  # "fifty three on up will have to wait"
    upward = word.w in ("up", "upward", "upwards", "onward", "onwards") and after is not None
    upward = upward or (word.w == "+" and word.s == at.m.e and after is not None)
    return True if upward and after is not None and after.w.split()[0] in _OF_SEVERAL else None


_OF_SEVERAL = frozenset("still need needs get have are got will i'll we'll nothing none".split())
