"""Colony or count beside a queen, a cell or a graft."""

from __future__ import annotations

from fieldnotes.reader.grouping.row import id_of, sentence_has
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.marking.colours import is_colour


def queen_of(at: Spot) -> bool | None:
    """ "marked the seventy seven queen white", "77 new q laying": the queen of that colony, and no number of queens."""
    p, q, z = at.p, at.q, at.r.at(at.i + 2)
    if q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    of_it = p and p.w.split()[-1] == "the" and q.label == "queen_noun" and q.w.split()[0] in ("queen", "q")
    if of_it and at.number.value > 4:
        return True
    words = q.w.split() if q.label != "w" or z is None else [q.w, *z.w.split()]
    new = words[0] in ("new", "old") and words[1:2] in (["queen"], ["q"])
    return True if new and at.starts and at.number.value > 1 else None


def marked_so(at: Spot) -> bool | None:
    """ "queens marked: 12 yellow, 14 white"."""
    q = at.q
    coloured = q and q.label == "w" and is_colour(q.w) and at.r.outfit.could_be(id_of(at.m))
    return True if coloured and sentence_has(at.r, at.i, "queen_work") else None


def its_queen(at: Spot) -> bool | None:
    """ "41 Q marked blue": one queen is no 41 queens."""
    if at.q is None or at.q.label != "queen_noun" or at.q.w not in ("q", "queen") or at.number.value < 2:
        return None
    opens = at.p is None or at.p.label in ("line", "stop", "comma", "yard")
    return True if opens and at.number.digits and at.r.outfit.could_be(id_of(at.m)) else None


_DONE_TO_QUEENS = frozenset("clipped marked caged caught banked released clip mark cage".split())


def some_of_the_queens(at: Spot) -> bool | None:
    """ "caught three queens, clipped two and marked all of them": so many of those counted before, and no hive."""
    p, q = at.p, at.q
    if p is None or p.w not in _DONE_TO_QUEENS or at.number.digits:
        return None
    counted = [m.v["n"].value for m in at.r.row[max(0, at.i - _NEAR) : at.i - 1] if "n" in m.v and _of_queens(m)]
    ends = q is None or q.label in _AFTER_SOME or q.w in ("and", "of", "then", "so")
    return False if ends and counted and 0 < at.number.value <= counted[-1] else None


_NEAR = 12
_AFTER_SOME = frozenset(["stop", "line", "comma", "filler", "queen_work"])


def _of_queens(m: Mark) -> bool:
    return m.label in ("queen_work", "queen_noun") and "queens" in m.w.split()


def number_of_cells(at: Spot) -> bool | None:
    """ "28 grafted out of QB"."""
    q = at.q
    if q and q.label == "fact" and q.w.split()[0] in ("cells", "cell", "qcs"):
        return False  # "forty one cells capped out of forty eight"
    if at.p is not None and at.p.label == "queen_work" and at.p.v.get("step") == "grafted" and at.q is not None:
        if at.q.w in ("took", "take", "accepted", "started") or (at.q.label == "verb" and at.q.w == "took"):
            return False  # "QB grafted forty eight took thirty nine"
    grafts = q and q.label == "queen_work" and q.w.split()[0] in ("grafted", "banked", "grafts", "queens")
    return False if grafts else None


def after_its_queen(at: Spot) -> bool | None:
    """ "eight has the good queen nine was laying workers": no queen has that number, for something is said of it."""
    if at.p is None or at.p.label != "queen_noun" or at.q is None or at.q.w not in ("was", "is", "has", "had"):
        return None
    return True if at.last == "cols" and at.r.outfit.could_be(id_of(at.m)) else None
