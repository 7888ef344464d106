"""Runs of numbers without commas, and lists of colonies with as many counts after a colon."""

from __future__ import annotations

from fieldnotes.reader.grouping.orders import in_that_order
from fieldnotes.reader.grouping.row import BULLETS, Row, id_of, sentence_has, whole
from fieldnotes.reader.mark import REACH, Mark


def paired_run(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "70 71 72: 1 1 6": a run of numbers before a colon and as many after it are colonies."""
    run: list[Mark] = []
    j = i
    if i < r.no_pairs_until or r.row[i].label not in ("number", "colony"):
        return None
    while len(run) < REACH and (m := r.at(j)) and (m.label == "colony" or (m.label == "number" and whole(m))):
        run.append(m)
        j += 1
        if (c := r.at(j)) and c.label == "comma":
            j += 1
    if len(run) < 2:
        return None
    ordered = in_that_order(r, i)
    if ordered is not None:
        half = ordered // 2
        ids = run[:half]
        if (
            ordered % 2 == 0
            and half >= 2
            and len(run) >= half
            and all(x.label == "colony" or r.outfit.could_be(id_of(x)) for x in ids)
        ):
            end = i
            seen = 0
            while seen < half:
                seen += r.row[end].label in ("number", "colony")
                end += 1
            named = [x.v["value"] if x.label == "colony" else id_of(x) for x in ids]
            return Mark(
                "cols", ids[0].s, ids[-1].e, " ".join(x.w for x in ids), {"ids": named, "bare": True}, "colonies"
            ), end
    if ordered is None and len(run) < REACH and (not (m := r.at(j)) or m.w not in (":", "=")):
        r.no_pairs_until = max(i, j - 1)
    if not (m := r.at(j)) or m.w not in (":", "=") or ((b := r.at(r.back(i))) and b.w in (":", "=")):
        return None
    if not all(x.label == "colony" or r.outfit.could_be(id_of(x)) for x in run):
        return None
    count = 0
    k = j + 1
    while count <= len(run) and (m := r.at(k)) and m.label in ("number", "comma", "mites", "w"):
        if m.label == "w" and m.w != "and":
            break
        count += m.label in ("number", "mites")
        k += 1
    if count != len(run) or ((m := r.at(k)) and m.w in (":", "=")):
        return None
    named = [x.v["value"] if x.label == "colony" else id_of(x) for x in run]
    return Mark(
        "cols",
        run[0].s,
        run[-1].e,
        " ".join(x.w for x in run),
        {"ids": named, "bare": run[0].label == "number"},
        "colonies",
    ), j


def bare_run(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "71 73 76 hop strips 2 each": numbers that rise, at the start of a statement, before what was done to them."""
    m = r.at(i)
    if not m or m.label != "number" or not whole(m):
        return None
    spoken = not m.v["n"].digits
    p = r.at(r.back(i))
    if not (
        p is None
        or p.label in ("stop", "line", "comma", "yard", "method", "change", "each")
        or p.w in BULLETS
        or p.w in ("on", "in", "into", "from", "of", "and", ":")
        or (p.w == "are" and sentence_has(r, i, "change"))
    ):
        return None
    j = i
    if (p is None or p.label == "line") and (b := r.at(i + 1)) and b.s - m.e > 1:
        return None  # columns of a table
    run: list[Mark] = []
    while (
        (m := r.at(j))
        and m.label == "number"
        and whole(m)
        and r.outfit.could_be(id_of(m))
        and (not run or m.v["n"].value > run[-1].v["n"].value)
    ):
        run.append(m)
        j += 1
    if (
        run
        and (c := r.at(j))
        and c.w == "and"
        and (m := r.at(j + 1))
        and m.label == "number"
        and whole(m)
        and m.v["n"].value > run[-1].v["n"].value
        and r.outfit.could_be(id_of(m))
        and len(run) > 1
    ):
        run.append(m)  # "2 4 and 5 strong"
        j += 2
    if len(run) < 2 or (spoken and len(run) < 3):
        return None
    q = r.at(r.on(j - 1))
    if spoken and (
        q is None
        or q.label
        not in ("agent", "form", "item", "feed", "method", "each", "amount", "verb", "fact", "queen_work", "change")
        or len({r.outfit.ids.get(id_of(x), ("?",)) for x in run}) > 1
    ):
        return None
    if q is not None and q.label == "method" and q.w.endswith("s"):
        pass  # "46 48 50 53 alcohol washes, all clean"
    elif p is not None and p.w == ":" and (r.checking or not (q is None or q.label in ("line", "stop", "comma"))):
        return None
    if r.checking and not (
        q and q.label in ("each", "agent", "item", "feed", "form", "fact", "change", "queen_work", "method", "amount")
    ):
        return None
    if q and q.label in ("number", "days", "hives", "unit", "mites"):
        return None
    return Mark(
        "cols",
        run[0].s,
        run[-1].e,
        " ".join(x.w for x in run),
        {"ids": [id_of(x) for x in run], "bare": True},
        "colonies",
    ), j
