"""Marks that their neighbours make something else of: "9 swarm cells" after a dead hive, "the third had one"."""

from __future__ import annotations

from collections.abc import Callable

from fieldnotes.reader.grouping.counts import SAMPLES
from fieldnotes.reader.grouping.row import Row, sentence_has
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.numbers import Number


def _dash_no_minus(r: Row, i: int) -> list[Mark] | None:
    """ "caged q - released": a dash with blanks is no minus, as in "q-"."""
    m = r.row[i]
    if not m.w.endswith((" -", "+")) or m.e - m.s != len(m.w):
        return None
    return [Mark("w", m.s, m.e, m.w)]


def _empty_box(r: Row, i: int) -> list[Mark] | None:
    """ "s five's box is | empty": the box, and no stores."""
    m, before, earlier = r.row[i], r.at(i - 1), r.at(i - 2)
    if before is None or m.v.get("set", {}).get("stores") != "empty":
        return None
    is_box = earlier is not None and before.w in ("is", "was") and earlier.w in _BOXES
    return [Mark("ignore", m.s, m.e, m.w, {}, "an empty box")] if before.w in _BOXES or is_box else None


def _has_cells(r: Row, i: int) -> list[Mark] | None:
    """ "ten's got | cells": they were seen there, and none was given."""
    m, got, has = r.row[i], r.at(i - 1), r.at(i - 2)
    said = got is not None and has is not None and got.w == "got" and has.w in _HAS
    if not said or "cell" not in m.w or m.w.startswith(("a ", "one ")) or not m.w.endswith("s"):
        return None
    if "n" in m.v:
        return [
            Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "number": "queen_cells", "n": m.v["n"]}, "has cells")
        ]
    return [Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "set": {"cells_seen": True}}, "has cells")]


def _all_so_many_bees(r: Row, i: int) -> list[Mark] | None:
    """ "wash H1 2 H2 0 H3 5, | all 300": the sample of each."""
    m = r.row[i]
    if m.v.get("n") is None or not r.checking or m.v["n"].value not in SAMPLES:
        return None
    bees = {"bees": int(m.v["n"].value)}
    return [Mark("sample", m.s, m.e, m.w, bees, "sample size"), Mark("each", m.e, m.e, "each", {}, "each")]


def _those_so_many_each(r: Row, i: int) -> list[Mark] | None:
    """ "beetles in five, seven and eleven, I put traps on | those | two each": three hives, and two for each."""
    m, q = r.row[i], r.at(i + 1)
    words = m.w.split()
    if m.v.get("n") is None or q is None or q.label != "each" or len(words) != 2 or words[0] not in ("those", "these"):
        return None
    if len(r.last_ids) < 2 or len(r.last_ids) == m.v["n"].value or m.e - m.s < len(m.w) - 1:
        return None
    cut = m.s + len(words[0])
    return [
        Mark("pronoun", m.s, cut, words[0], {}, m.rule),
        Mark("number", cut + 1, m.e, words[1], {"n": m.v["n"]}, "number"),
    ]


def _the_other_half(r: Row, i: int) -> list[Mark] | None:
    """ "strips in l one through l fifteen, | the other half | tomorrow": the rest of those that are given something."""
    m = r.row[i]
    if m.v.get("n") is None or m.v["n"].whole:
        return None
    rest = sentence_has(r, i, *THINGS) and not sentence_has(r, i, "change")
    return [Mark("rest" if rest else "w", m.s, m.e, m.w, {}, "the other half")]


_NTH = {"the third": 3, "the fourth": 4, "the fifth": 5, "the sixth": 6, "the seventh": 7, "the eighth": 8}


def _one_of_them(r: Row, i: int) -> list[Mark] | None:
    """ "the first had two … | the third | had one": one of those counted, and no day."""
    m, q = r.row[i], r.at(i + 1)
    counted = m.w in _NTH and r.checking and q is not None and q.w in ("had", "was", "got", "gave", "came")
    if not counted or not any(x.label == "ordinal" for x in r.row[max(0, i - 10) : i]):
        return None
    return [Mark("ordinal", m.s, m.e, m.w, {"value": _NTH[m.w]}, "one after the other")]


_BOXES = frozenset("box boxes feeder jar can lid cage".split())
_HAS = frozenset(["'s", "has", "have", "'ve", "it's"])


def _cells_of_next(r: Row, i: int) -> list[Mark] | None:
    """ "7 dead out, | 9 swarm cells": no dead hive has cells; the number is a colony the roster has."""
    m = r.row[i]
    if m.v.get("number") != "queen_cells" or "n" not in m.v or i < 2 or r.row[i - 1].label != "comma":
        return None
    number: Number = m.v["n"]
    words = m.w.split()
    dead = r.row[i - 2].label == "change" and r.row[i - 2].v.get("step") == "died"
    then = r.at(i + 1)
    if not dead or not number.whole or str(int(number.value)) not in r.outfit.ids or m.e - m.s != len(m.w):
        return None
    if then is not None and then.label not in ("stop", "line", "comma", "filler"):
        return None
    cut = m.s + len(words[0])
    seen = {"cells_seen": True, **m.v.get("set", {})}
    cells = Mark("fact", cut + 1, m.e, " ".join(words[1:]), {"kind": "inspection", "set": seen}, m.rule)
    return [Mark("number", m.s, cut, words[0], {"n": number}, "number"), cells]


def _round_to_come(r: Row, i: int) -> Mark:
    """ "next one Sunday", "the third one is due Friday": a round yet to be given, where its day is said; else talk."""
    m, k = r.row[i], i + 1
    if m.label != "ordinal" and i and r.row[i - 1].v.get("cue") == "if":
        return Mark("pronoun", m.s, m.e, m.w, {}, "the next one")  # "if the next one's no better"
    treated = any(x.label in ("agent", "form", "round") for x in r.row[max(0, i - 12) : i])
    if m.label == "ordinal":
        one = r.at(k)
        many = r.at(k + 1)
        if treated and one is not None and one.w == "of" and many is not None and many.label == "number":
            if m.v["value"] <= many.v["n"].value <= 6:  # "vapour, first of three"
                text = f"{m.w} of {many.w}"
                r.row[i : i + 3] = [
                    Mark("round", m.s, many.e, text, {"n": Number(m.v["value"], 0)}, "round of so many")
                ]
                return r.row[i]
        if one is None or one.w != "one":
            return m
        k += 1
    while (q := r.at(k)) and (q.v.get("cue") == "plan" or q.w in _DUE):
        k += 1
    if q is None or q.label != "date" or not treated:
        return m if m.label == "ordinal" else Mark("filler", m.s, m.e, m.w, {}, "filler")
    if m.label == "ordinal":
        one = r.row[i + 1]
        r.row[i : i + 2] = [Mark("again", m.s, one.e, f"{m.w} {one.w}", {"round": m.v["value"]}, "next round")]
    return r.row[i]


_READ_OTHERWISE: dict[str, tuple[Callable[[Row, int], list[Mark] | None], ...]] = {
    "fact": (_dash_no_minus, _empty_box, _cells_of_next),
    "queen_noun": (_has_cells,),
    "date": (_one_of_them,),
    "pronoun": (_all_so_many_bees, _those_so_many_each, _the_other_half),
}
"""By the label of a mark: what may find in its neighbours that it is something else, and gives what it is."""


def read_otherwise(r: Row, i: int) -> Mark:
    """The mark at `i`, or what its neighbours make of it, put into the row in its place."""
    for otherwise in _READ_OTHERWISE.get(r.row[i].label, ()):
        if parts := otherwise(r, i):
            r.row[i : i + 1] = parts
            break
    if r.row[i].label in ("again", "ordinal"):
        r.row[i] = _round_to_come(r, i)
    return r.row[i]


_DUE = frozenset("is are on due in will be comes goes".split())
