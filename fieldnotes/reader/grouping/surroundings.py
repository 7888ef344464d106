"""What stands before and after a number: may a statement begin here, does what follows speak of a colony?"""

from __future__ import annotations

from fieldnotes.reader.grouping.row import BULLETS, GLUE, NP, PREPS, Row, after_list, starts_line
from fieldnotes.reader.mark import REACH, Mark

_BOUNDARY_WORDS = frozenset("and then so but also plus next or that i we".split())
_UNITS_MADE = frozenset("splits nucs nukes swarms deadouts".split())


def starts_here(r: Row, i: int, p: Mark | None, last: str) -> bool:
    """Whether a new statement may begin at mark `i`."""
    if p is None or p.label in (
        "stop",
        "line",
        "comma",
        "question",
        "mites",
        "clean",
        "percent",
        "value",
        "cue",
        "fact",
        "sample",
        "temp",
        "sky",
        "date",
        "days",
        "each",
        "pronoun",
        "every",
        "yard",
        "amount",
        "unit",
        "harvest",
        "heading",
        "method",
        "cols",
        "particle",
        "feed",
        "round",
        "person",
        "clock",
        "noun",
        "thing",
    ):
        return True
    if p.w in BULLETS:
        return True
    if p.label == "number" and last == "value":
        return True
    if p.label in ("number", "colony") and last == "cols":
        q = r.at(r.on(i))
        if (
            q is not None
            and q.w in ("had", "has", "was", "is", "got")
            and (z := r.at(r.on(r.on(i))))
            and (z.label in ("number", "mites", "clean", "fact"))
        ):
            return True  # "no wash on eight | fifteen had twenty seven"
        return not r.checking or (q is not None and q.label in ("cue", "change", "fact", "clean", "mites"))
    if r.row[i - 1].label in GLUE:
        return True
    if p.label == "change" and p.v.get("step") in ("died", "swarmed"):
        return True
    if p.label == "item" or p.label == "form":
        return True
    return p.label == "w" and (
        p.w in _BOUNDARY_WORDS
        or not p.w.isalpha()
        or p.w
        not in PREPS
        | {"the", "a", "an", "about", "at", "to", "with", "by", "another", "these", "those", "than", "over", "under"}
    )


def subject_follows(r: Row, i: int, q: Mark | None) -> bool:
    if q is not None and q.label == "w" and q.w in ("at", "in", "over", "out", "down", "up"):
        # "twelve and fourteen at the pond have robbing"
        k = next(n for n in range(i, len(r.row)) if r.row[n] is q) + 1
        while (m := r.at(k)) and m.label == "w" and m.w in ("at", "the", "in", "by"):
            k += 1
        if m is not None and m.label == "yard":
            q = r.at(r.on(k))
    if q is None:
        return False
    if q.w in (":", "=", "'", "'s", "|"):
        return True
    if q.w in BULLETS:
        place = next(n for n in range(i, len(r.row)) if r.row[n] is q)
        far = r.at(r.on(place))  # "40 - 2" is a colony and a count, "40-44" a range
        here = r.row[i]
        rising = (
            far is not None
            and far.label == "number"
            and here.label == "number"
            and far.v["n"].value > here.v["n"].value
        )
        return far is None or far.label != "number" or (not rising and starts_line(r, i))
    if q.label == "change" and q.w.split()[0] in _UNITS_MADE:
        return False  # "8 splits made"
    if q.label in ("fact", "change", "clean", "mites", "percent", "queen_work", "same", "check"):
        return True
    if q.label == "cue":
        return q.v.get("cue") in ("not", "plan") and q.w not in ("no", "without")
    if q.w in ("the", "her", "its", "their"):
        k = next(n for n in range(i, len(r.row)) if r.row[n] is q)
        third = r.at(r.on(k))
        return third is not None and third.label in ("fact", "queen_noun", "item")
    if q.label == "w" and q.w not in ("i", "we", "he", "she"):
        return q.w in r.subject_verbs
    if q.label == "verb":
        return q.w.split()[0] in r.subject_verbs
    if q.label == "noun":
        return q.v.get("noun") == "nuc" and not q.w.endswith("s")
    if q.label == "method":
        return True
    if q.label in ("every", "pronoun") and q.w.split()[0] in ("all", "both", "neither"):
        return True
    if q.w in ("i", "we", "he", "she"):
        place = next(n for n in range(i, len(r.row)) if r.row[n] is q)
        third = r.at(r.on(place))
        nearby = [x for x in r.row[place + 1 : place + 5] if x.label == "cue" and x.v.get("cue") in ("not", "plan")]
        return third is not None and (
            bool(nearby)
            or third.label in ("queen_work", "verb", "change", "method", "fact")
            or (
                third.label != "line"
                and third.w.split()[0]
                in ("got", "counted", "found", "did", "never", "have", "haven't", "plan", "want", "had", "will")
            )
        )
    if q.label == "number" and not r.checking:
        third, fourth = r.at(r.on(r.on(i))), r.at(r.on(r.on(r.on(i))))
        return bool(third and third.w == "no" and fourth and fourth.label == "fact")  # "72 five no six swarm cells"
    if q.label == "number" and r.checking:
        third = r.at(r.on(r.on(i)))
        return third is None or third.label not in NP or third.label == "noun"
    return False


def placed_later(r: Row, i: int) -> bool:
    """Whether "in" or "on" with a colony follows in the line, so that the number counts things."""
    k = i + 1
    while k < len(r.row) and k < i + REACH and r.row[k].label not in ("line", "stop"):
        if (
            r.row[k].w in ("in", "on", "into", "to")
            and k + 1 < len(r.row)
            and r.row[k + 1].label in ("number", "colony", "hive", "hives")
        ):
            return True
        k += 1
    return False


def each_after_range(r: Row, i: int) -> bool:
    """Whether a number "each" follows the range that begins at `i`."""
    k = r.on(r.on(r.on(i)))
    m, n = r.at(k), r.at(r.on(k))
    return m is not None and m.label == "number" and n is not None and n.label == "each"


def alone_or_listed(r: Row, i: int) -> bool:
    """Whether the number stands alone in its row, or begins a list or range with nothing counted after it."""
    after = after_list(r, i)
    return after is None or after.label in ("line", "stop", "comma", "w")


def sample_next(r: Row, i: int) -> bool:
    """ "17, half cup, 1 mite": a sample and a count in their own cells make the number a colony."""
    cells: list[str] = []
    k = r.on(i)
    while len(cells) < 4 and (m := r.at(k)) and m.label in ("comma", "sample", "method", "mites", "clean", "value"):
        cells.append(m.label)
        k = r.on(k)
    return cells[:2] in (["comma", "sample"], ["comma", "method"]) and cells[2:] in (
        ["comma", "mites"],
        ["comma", "clean"],
        ["comma", "value"],
    )
