"""Is a number that is no colony a count of mites or a sample size?"""

from __future__ import annotations

from fieldnotes.reader.grouping.row import Row, id_of, sentence_has, whole
from fieldnotes.reader.mark import REACH, Mark
from fieldnotes.reader.numbers import Number


def two_halves(r: Row, i: int) -> tuple[list[Mark], int] | None:
    """ "washed 62 and 63, 4 and 11 mites": as many colonies as counts, "and" within each half, a comma between."""
    run = [r.at(i + k) for k in range(8)]
    if any(m is None for m in run[:8]) or not r.checking:
        return None
    a, j1, b, comma, c, j2, d = run[:7]
    assert a and j1 and b and comma and c and j2 and d
    if (
        a.label == b.label == c.label == "number"
        and j1.w == j2.w == "and"
        and comma.label == "comma"
        and d.label in ("mites", "number")
        and all(whole(x) and r.outfit.could_be(id_of(x)) for x in (a, b))
    ):
        cols = Mark("cols", a.s, b.e, f"{a.w} and {b.w}", {"ids": [id_of(a), id_of(b)], "bare": True}, "colonies")
        counts = [Mark("value", x.s, x.e, x.w, dict(x.v), "count in that order") for x in (c, d)]
        return [cols, comma, *counts], i + 7
    return None


def value_list(r: Row, i: int) -> tuple[list[Mark], int] | None:
    """ "1, 2, 0, 4, 7 mites": a list of counts that ends in "mites"."""
    m = r.at(i)
    if not m or m.label != "number" or i < r.no_values_until:
        return None
    found: list[Mark] = []
    j = i
    while len(found) < REACH and (m := r.at(j)) and m.label == "number":
        found.append(Mark("value", m.s, m.e, m.w, dict(m.v), "count in a list"))
        j += 1
        seen_join = False
        while (c := r.at(j)) and (c.label == "comma" or c.w == "and"):
            j += 1
            seen_join = True
        if not seen_join:
            r.no_values_until = j
            return None
    if len(found) < REACH and (not m or m.label != "mites"):
        r.no_values_until = j
    if m and m.label == "mites" and len(found) >= 1:
        if len(found) == 1:
            # "12 and 3 mites": one number before is more likely a colony, unless it cannot be one.
            if r.outfit.could_be(id_of(found[0])) and found[0].v["n"].value >= 1:
                return None
        return found, j
    return None


def count_or_sample(r: Row, i: int, last: str) -> Mark:
    """The number as a count of mites or a sample size where it must be one, else as it is."""
    m = r.row[i]
    number: Number = m.v["n"]
    p = r.at(r.back(i))
    q = r.at(r.on(i))
    if not r.checking:
        return m
    if (q and q.label in ("item", "agent", "form", "feed", "queen_noun", "each")) or (
        q and q.label == "w" and q.w in ("frame", "box")
    ):
        return m
    if (
        p
        and number.value == 1
        and m.w == "one"
        and (p.label == "ordinal" or p.w in ("another", "this", "that", "the", "each", "every", "which", "new"))
    ):
        return Mark("w", m.s, m.e, "one")
    if p and p.label == "ordinal" and last == "value":
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")  # "the first gave six mites and the second four"
    if (
        p
        and p.w in ("/", "in", "of", "per", "from", "out", "over")
        and number.whole
        and number.value >= 50
        and last in ("value", "cols")
    ):
        return Mark("sample", m.s, m.e, m.w, {"bees": int(number.value)}, "sample size")
    if (
        q
        and q.w in ("on", "in")
        and (z := r.at(r.on(r.on(i))))
        and z.label in ("colony", "hive", "number")
        and not (p and p.label == "verb")
        and sentence_has(r, i, "method", "mites", "clean", "check")
    ):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count of a colony")
    if p and (p.w == "me" or (p.label == "cue" and p.v.get("cue") == "report")):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if (
        last == "cols"
        or (p and (p.w in r.before_value or p.label == "cols" or p.label == "method" or p.w in (":", "=")))
        or (q and q.w == "/")
        or (p and (p.w in ("or", "to", "-", "maybe")) and last == "value")
        or (q and q.w in ("or",))
    ):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if (
        p
        and (p.w in ("then", "and") or p.label == "comma")
        and last == "value"
        and (
            q is None
            or q.label in ("stop", "line", "comma", "ordinal")
            or q.w in ("then", "in", "and", "or")
            or (q.w == "the" and (z := r.at(r.on(r.on(i)))) and z.label == "ordinal")
        )
    ):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if p and p.label in ("filler", "approx", "verb", "w", "mites", "value") and number.value == 0:
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    return Mark("number", m.s, m.e, m.w, dict(m.v), m.rule)
