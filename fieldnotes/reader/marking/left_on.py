""" "Pulled the feeders at Heath, left the one on nine": what was left as it was is an exception of the work."""

from __future__ import annotations

from fieldnotes.reader.mark import REACH, WAYS, Mark

_ENDS = frozenset(["stop", "line", "question"])
_IDS = frozenset(["number", "colony", "hive"])
_ALONE = frozenset(["alone", "be", "wrapped"])


def left_on(row: list[Mark]) -> None:
    """Makes "left" the cue of an exception, where it leaves alone hives of those that were worked on. In place."""
    for k, m in enumerate(row):
        if m.w != "left" or m.label != "w" or k + 2 >= len(row):
            continue
        first = k + 1
        theirs = row[first].label == "thing" and row[first + 1].w in ("on", "in")
        first += 2 if theirs else 0
        end = first
        while end < len(row) and (row[end].label in _IDS or row[end].w in ("and", "'s")):
            end += 1
        after = row[end].w if end < len(row) else ""
        owned = end > first and row[end - 1].w == "'s" and after in WAYS
        nucs = theirs and [x.w for x in row[first : first + 2]] == ["the", "nucs"]
        if nucs:
            end = first + 2
        if end == first or not (theirs or owned or after in _ALONE) or not _worked(row, k, taken=after != "alone"):
            continue
        if not _among_them(row, k, [x for x in row[first:end] if x.label in _IDS]):
            continue  # "took the feeders off 61 and 62, left 63's on"
        m.label, m.v, m.rule = "cue", {"cue": "except"}, "left as it was"
        if owned:
            row[end - 2].e = row[end - 1].e
        for x in () if nucs else row[first : end + (not theirs)]:
            if x.label not in _IDS and x.w != "and":
                x.label = "filler"
        if theirs:
            m.e = row[first - 1].e
            del row[k + 1 : first]
        if k and (row[k - 1].label == "comma" or row[k - 1].w in ("but", "and")):
            row[k - 1].label = "filler"


def _worked(row: list[Mark], k: int, taken: bool) -> bool:
    """Whether work on things is told of before `k` in its sentence, and, if `taken`, that they came off or out."""
    thing = off = False
    for m in row[max(0, k - REACH) : k]:
        if m.label in _ENDS:
            thing = off = False
        thing = thing or m.label in ("item", "form", "agent")
        off = off or m.w in ("off", "out") or m.v.get("dir") == "out" or m.w.startswith("unwrap")
    return thing and (off or not taken)


def _among_them(row: list[Mark], k: int, left: list[Mark]) -> bool:
    """Whether no hives are named before `k` in its sentence, or a range of them that holds those left."""
    named: list[int] = []
    for j in range(max(1, k - REACH), k):
        if row[j].label in _ENDS:
            named = []
        elif row[j].label == "colony" or (row[j].label == "number" and row[j - 1].w in _BEFORE_HIVES):
            named.append(j)
    if not named:
        return True
    if len(named) != 2 or row[named[1] - 1].w not in _RANGE or any("n" not in x.v for x in left):
        return False
    low, high = (row[j].v["n"].value if "n" in row[j].v else 0 for j in named)
    return bool(all(low <= x.v["n"].value <= high for x in left))


_RANGE = frozenset("to through thru -".split())
_BEFORE_HIVES = frozenset("on off of in from hive hives and to through thru".split())
