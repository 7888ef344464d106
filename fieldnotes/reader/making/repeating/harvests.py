""" "Quarry twelve frames": a yard and a number after a harvest are a harvest too."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import HONEY_UNITS, amount_of
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft

_OF_ELSE = frozenset("harvest honey cols feed agent form method mites change hives cue verb".split())


def harvest_row(msg: Message, s: Statement) -> None:
    """ "honey: cut bank nine supers, | quarry twelve frames": a yard and a number after a harvest are a harvest too."""
    last = msg.newest
    if last is None or last.kind != "harvest" or last.line < s.line - 1 or not s.has("yard") or s.has_any(_OF_ELSE):
        return
    if not isinstance(last.slots.get("amount"), (int, float)):
        return
    if any(a.label == "item" and b.w in ("on", "back") for a, b in pairwise(s.marks)):
        return  # "quarry two supers on"
    if not s.has("item", "noun", "amount"):
        _as_much_again(s, last)
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
    if k is None or unit is None or last.sentence != s.sentence:
        return
    if last.slots.get("yard") == s.all("yard")[0].v["value"]:
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
