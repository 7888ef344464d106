"""Small words that a colony before or after them makes mean something: "not three", "too windy to", "same"."""

from __future__ import annotations

from fieldnotes.reader.grouping.row import Row, id_of, sentence_has, starts_line
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.roster import id_parts

CAN_BE_COLONIES = frozenset(["number", "colony", "hive", "hives"])
TOLD_BY_NEIGHBOURS = frozenset('not but whole entire same as up made making mark clip laying to " ” 〃 ″'.split()) | {
    "to do"
}
"""The words that `by_neighbours` asks about."""
_QUEEN_VERBS = {"mark": "marked", "clip": "clipped"}
"""What is done with her where no queen is named: "five I'll mark tomorrow"."""
_HAD = frozenset(["had", "has", "got", "found", "was", "gave"])
_AND_MORE = frozenset(["+", "plus", "and", "with"])
_DITTOS = frozenset('" ” 〃 ″'.split())
_AFTER_SAME = frozenset(["line", "stop", "comma", "colony", "hive", "filler", "number", "again"])


def by_neighbours(r: Row, i: int, out: list[Mark], last: str) -> Mark:
    """The mark at `i`, or another where a colony before or after it makes a small word mean something."""
    m = r.row[i]
    if (
        m.label == "hives"
        and last == "cols"
        and r.checking
        and m.w.endswith(("of them", "of em"))
        and out[-1].w in _HAD
    ):
        return Mark("mites", m.s, m.e, m.w, {"n": m.v["n"]}, "count")  # "44 had 6 of em"
    if m.label == "hives" and last == "cols" and not r.checking and m.w.endswith(("of them", "of em")):
        q = r.at(i + 1)
        ends = q is None or q.label in ("stop", "line", "comma", "filler", "hive", "colony") or q.w == "and"
        if ends and out[-1].label == "cols" and sentence_has(r, i, *THINGS):
            return Mark("number", m.s, m.e, m.w, {"n": m.v["n"]}, "number")  # "supers off, hive three two of them"
    if m.label == "cue" and m.w == "not" and i:
        return _not_those(r, i, out)
    if m.w in ("to", "to do"):
        return _too_much_to(r, i)
    if m.label != "w":
        return m
    if m.w == "up" and out and out[-1].w in ("made", "make", "making"):
        q = r.at(i + 1)
        if q and q.label in ("number", "colony", "hive"):
            made = out.pop()  # "and made up N2 with it"
            return Mark("change", made.s, m.e, f"{made.w} up", {"step": "nuc_made"}, "nuc made")
    if m.w in _QUEEN_VERBS and i and r.row[i - 1].v.get("cue") in ("plan", "not") and r.row[i - 1].w != "no":
        q = r.at(i + 1)
        if q is None or q.label in ("date", "stop", "line", "comma", "filler") or q.w in ("next", "and", "later"):
            return Mark("queen_work", m.s, m.e, m.w, {"step": _QUEEN_VERBS[m.w]}, "queen work by its verb alone")
    if m.w == "laying":
        return _lays(r, i, out)
    if m.w in ("made", "making") and (q := r.at(i + 1)) and q.label == "colony":
        z = r.at(i + 2)
        if z is not None and z.w in ("out", "from", "off", "with"):
            return Mark("change", m.s, m.e, m.w, {"step": "nuc_made"}, "nuc made")  # "made N2 out of 12"
    if m.w == "but" and _all_told_of(r, i) and not _goes_its_own_way(r, i):
        told = _those_told_of(r, i)
        if told:
            r.row[i + 1 : told] = []  # "everybody got a gallon but the heavy ones l two and l eight"
        q = r.at(r.on(i))
        owns = (
            (then := r.at(r.on(r.on(i)))) is not None and then.w == "'s" and out and out[-1].label in ("item", "form")
        )
        if q and q.w == "the":
            q = r.at(r.on(r.on(i)))
        nucs = q is not None and q.w.split()[-1] == "nucs"
        if q and (nucs or q.label in ("number", "colony", "hive")) and not owns:
            return Mark("cue", m.s, m.e, "but", {"cue": "except"}, "all but")
    if m.w in ("whole", "entire") and (q := r.at(i + 1)) and q.label == "yard":
        return Mark("every", m.s, m.e, m.w, {}, "every colony")  # "the whole quarry"
    if (
        m.w == "same"
        and (last == "cols" or (out and out[-1].label == "cols") or _yard_said(out))
        and not (i > 1 and r.row[i - 2].w in ("of", "in", "on", "into") and r.row[i - 1].w == "the")
    ):
        q, then = r.at(i + 1), r.at(r.on(i + 1))
        if q is not None and q.w in _AND_MORE and then is not None and (then.label in THINGS or then.label == "amount"):
            r.row[i + 1] = q = Mark("stop", q.s, q.e, ";")  # "L14: same + pollen sub"
        if q is None or q.label in _AFTER_SAME or q.w in ("and", "so", "then"):
            return Mark("same", m.s, m.e, "same", {}, "same again")  # "L2: same"
    if m.w in _DITTOS and out and (out[-1].label == "cols" or (out[-1].w in (":", "-", "–") and last == "cols")):
        q = r.at(i + 1)
        opens = starts_line(r, i - 1 if out[-1].label == "cols" else i - 2)
        if opens and (q is None or q.label == "line"):
            return Mark("same", m.s, m.e, "same", {}, "ditto mark")  # 'L4  "' below "L3 hot"
    if m.w == "as" and last == "cols" and out[-1].w in ("-", "–", ":", ","):
        q = r.at(r.on(i))
        if q and q.label in ("hive", "colony", "number"):
            return Mark("same", m.s, m.e, "same as", {}, "same again")  # "No. 10 - as No. 9"
    return m


def _yard_said(out: list[Mark]) -> bool:
    """ "Larkfield - same", "Sawdust: same": whether a yard stands right before, but for signs."""
    k = len(out)
    while k and (out[k - 1].label == "comma" or out[k - 1].w in ("-", "–", ":")):
        k -= 1
    return k > 0 and out[k - 1].label == "yard"


_AROUND = frozenset("over around through throughout down along right".split())


def _all_told_of(r: Row, i: int) -> bool:
    """Whether "all" or "every" stands before the "but" at `i`, and no "all over"."""
    near = range(max(0, i - 5), i)
    alone = [k > 0 and r.row[k - 1].w in ("is", "was", "'s") for k in near]  # "n three is all laying workers"
    return any(
        r.row[k].label == "every" or (r.row[k].w == "all" and not one and r.row[k + 1].w not in _AROUND)
        for k, one in zip(near, alone, strict=True)
    )


_ALL_OF = frozenset(["every", "hives", "yard"])
_SO_MUCH = frozenset("amount number item form agent feed".split())
_OF_ONE_ALONE = frozenset("is was has isn't wasn't hasn't doesn't".split())


def _goes_its_own_way(r: Row, i: int) -> bool:
    """ "they're all light but | n six i saw her", "… but | nine is weak": of the hive after "but" more is told, and
    what is told of all has ended before; "all but nine is done" leaves it out.
    """
    k = i + 1
    while (m := r.at(k)) is not None and (m.label in ("number", "colony", "hive", "comma") or m.w in ("and", "the")):
        k += 1
    if (
        m is None
        or (r.row[i - 1].label in _ALL_OF and r.row[i - 1].w != "everywhere")
        or r.row[i - 1].w == "all"
        or k == i + 1
    ):
        return False
    after = r.at(k + 1)
    told = m.w.split()[0] in _OF_ONE_ALONE or m.label in ("percent", "mites")
    told = told or (m.w.split()[0] in ("took", "got") and after is not None and after.label in _SO_MUCH)
    told = told or (m.w == "took" and after is not None and after.w in ("the", "a"))
    seen = m.w in ("i", "we") and after is not None and (after.w in ("saw", "found") or after.label == "fact")
    return told or seen or (m.label == "fact" and m.w.split()[0] in ("i", "we"))


_WORK = frozenset("verb change item method check form agent feed queen_work harvest".split())


def _too_much_to(r: Row, i: int) -> Mark:
    """ "9 was too weak to split", "too windy to open 12": what was not done; else the "to" as it is."""
    m, q = r.row[i], r.at(i + 1)
    working = m.label == "cue" or (q is not None and q.label in _WORK and q.v.get("tense") != "past")
    if (
        q is not None
        and q.v.get("does") == "inspect"
        and ((z := r.at(i + 2)) is None or z.label not in CAN_BE_COLONIES)
    ):
        return m  # "too cold to open": a reason
    if i and working:
        before = [x.w for x in r.row[max(0, i - 3) : i]]
        if before[-1].startswith("too ") or (r.row[i - 1].label != "stop" and "too" in before[-3:-1]):
            return Mark("cue", m.s, m.e, m.w, {"cue": "not"}, "too much to")
    return m


_BEFORE_LAYING = frozenset("is are was were now still already both all 's".split())
_AFTER_LAYING = frozenset("and now well good fine nicely nice again but so i we too great already okay strong".split())
_AFTER_LAYING_MARKS = frozenset("stop line comma filler colony number hive hives fact person queen_work verb".split())


def _lays(r: Row, i: int, out: list[Mark]) -> Mark:
    """ "n one laying, n two is laying": the queen lays; but "two strips in nine laying on the floor"."""
    m, q = r.row[i], r.at(i + 1)
    k = len(out) - 1
    while k >= 0 and out[k].w in _BEFORE_LAYING:
        k -= 1
    subject = k >= 0 and out[k].label == "cols" and not (k and out[k - 1].w in ("in", "on", "of", "from", "at"))
    ends = q is None or q.label in _AFTER_LAYING_MARKS or q.w in _AFTER_LAYING
    if not (subject and ends):
        return m
    return Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "set": {"queen": "right"}}, "queenright")


def _those_told_of(r: Row, i: int) -> int:
    """The index after "the heavy ones" that stands between "but" at `i` and the colonies meant; 0 where none does."""
    k = i + 1
    the, fact, ones, named = r.at(k), r.at(k + 1), r.at(k + 2), r.at(k + 3)
    if the is None or fact is None or ones is None or named is None or the.w != "the" or fact.label != "fact":
        return 0
    return k + 3 if ones.label == "thing" and named.label in ("colony", "number", "hive") else 0


def _not_those(r: Row, i: int, out: list[Mark]) -> Mark:
    """ "pads came out of the whole yard, well, not three and not nine": "not" with colonies sets them apart."""
    m, p, q = r.row[i], r.row[i - 1], r.at(r.on(i))
    if q is None or q.label not in ("number", "colony", "hive"):
        return m
    listed = out[-1] if out and out[-1].label == "cols" else None
    if listed is not None and len(listed.v["ids"]) > 2 and q.label == "number":
        letter, _ = id_parts(listed.v["ids"][0])
        if f"{letter}{id_of(q)}" in listed.v["ids"][:-1] and not r.checking:
            return Mark("cue", m.s, m.e, m.w, {"cue": "except"}, "all but")  # "forty through forty five not forty four"
    near = r.row[max(0, i - 8) : i]
    whole_yard = any(x.label in ("every", "yard") for x in near) and not any(x.label == "cols" for x in out[-8:])
    if p.label in ("filler", "comma") and whole_yard and not r.checking:
        return Mark("cue", m.s, m.e, m.w, {"cue": "except"}, "all but")
    return m
