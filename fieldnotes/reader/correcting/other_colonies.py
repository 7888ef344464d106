"""Other colonies were meant: "strips in nine, no wait, ten", "21 13 mites, no wait, it was 22 with the 13"."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.correcting.anew import ON
from fieldnotes.reader.correcting.striking import COUNTED_THINGS, FAR, SMALL, cut, value_after
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.roster import id_parts


def was_other_colony(row: list[Mark], cue: int, right: int) -> bool:
    """ "21 13 mites, no wait it was 22 with the 13": the count said again shows that the number is a colony."""
    if (
        right + 2 < len(row)
        and row[right + 1].w == "not"
        and "n" in row[right + 2].v
        and any(
            m.label == "cols" and str(int(row[right + 2].v["n"].value)) in m.v["ids"]
            for m in row[max(0, cue - FAR) : cue]
        )
    ):
        row[right + 1].label = row[right + 2].label = "filler"  # "46 had six, sorry, 64 not 46"
        row[right + 1].v = row[right + 2].v = {}
        return True
    if right + 1 < len(row) and row[right + 1].label == "cols" and row[right].v["n"].whole:
        if row[right + 1].v["ids"] == [str(int(row[right].v["n"].value))]:
            return True  # "nine had four, no, that was ten, ten had four"
    if _row_again(row, cue, right) or _that_was_colony(row, cue, right):
        return True
    again = value_after(row, right)
    if again is None or row[right + 1].w not in ("with", "the", "that") or not row[right].v["n"].whole:
        return False
    counted = next((m for m in reversed(row[max(0, cue - FAR) : cue]) if m.label in ("mites", "value")), None)
    return counted is not None and "n" in counted.v and counted.v["n"].value == row[again].v["n"].value


def _that_was_colony(row: list[Mark], cue: int, right: int) -> bool:
    """ "42 had four swarm cells, sorry, that was 43": a number near the colony's, and far from any count said of it."""
    said = " ".join(x.w for x in row[cue:right]).split()[-2:]
    named = next((x for x in range(cue - 1, max(-1, cue - FAR), -1) if row[x].label == "cols"), None)
    if said != ["that", "was"] or named is None or len(row[named].v["ids"]) > 1 or not row[right].v["n"].whole:
        return False
    after = row[right + 1] if right + 1 < len(row) else None
    if after is not None and (after.label in COUNTED_THINGS | {"form", "agent"} or after.w in ("percent", "degrees")):
        return False
    counts = [x.v["n"].value for x in row[named + 1 : cue] if "n" in x.v]
    digits = id_parts(row[named].v["ids"][0])[1]
    value = int(row[right].v["n"].value)
    if not counts:
        return after is not None and after.label == "cols"
    return all(x <= SMALL for x in counts) and value > SMALL and digits.isdecimal() and abs(value - int(digits)) < FAR


def _row_again(row: list[Mark], cue: int, right: int) -> bool:
    """ "8 = 14, no wait, 8 = 4", "8 14 sorry 8 4": typed as the row before it was, so the first number is a colony."""
    if not row[right].v["n"].whole or right + 1 >= len(row):
        return False
    sign = row[right + 1].w if row[right + 1].w in ("=", ":") else ""
    count = row[right + 1 + bool(sign)] if right + 1 + bool(sign) < len(row) else None
    if count is None or "n" not in count.v or count.label not in ("number", "value", "mites"):
        return False
    near = row[max(0, cue - FAR) : cue]
    named = str(int(row[right].v["n"].value))
    return any(
        m.label == "cols" and (after.w == sign if sign else "n" in after.v and named in m.v["ids"])
        for m, after in pairwise(near)
    )


def correct_colonies(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int]:
    """Puts the colonies at `right` in the place of those named before the cue."""
    r = row[right]
    ids = r.v["ids"]
    wrong = row[right + 2] if right + 2 < len(row) and row[right + 1].w == "not" else None
    if (
        wrong is not None
        and wrong.label == "cols"
        and any(m.label == "cols" and set(wrong.v["ids"]) <= set(m.v["ids"]) for m in row[max(0, cue - FAR) : cue])
    ):
        r.v.setdefault("struck", []).append((row[right + 1].s, wrong.e))  # "board 64: 33, sorry 46 not 64"
        del row[right + 1 : right + 3]
    if (begun := _begun_on_another(row, cue, right)) is not None:
        return begun
    if _tells_anew(row, cue, right):
        row[cue].label = "filler"
        return row, cue + 1
    restated = _restated(row, right)
    earlier = _count_of(row, cue, ids) if restated else None
    if earlier is not None and (again := value_after(row, right)) is not None:
        # "61 1 mite, 62 4 mites, 63 none, oops 62 was 14": the count of the one named, not of the last
        row[earlier].v.update(row[again].v)
        row[earlier].v.setdefault("struck", []).extend((y.s, y.e) for y in row[cue : again + 1])
        return row[:cue] + row[again + 1 :], cue
    x = next((x for x in range(cue - 1, max(-1, cue - FAR), -1) if row[x].label == "cols"), None)
    if x is None:
        row[cue].label = "filler"
        return row, cue + 1
    again_done = x + 1 < cue and right + 1 < len(row) and row[x + 1].w == row[right + 1].w
    if (restated or again_done) and row[x].v["ids"] == ids:
        # "forty three had seven no wait forty three was eight": the first statement goes
        r.v.setdefault("struck", []).extend([(y.s, y.e) for y in row[x : cue + 1]])
        return row[:x] + row[cue + 1 :], x
    return _others_meant(row, x, cue, right)


def _restated(row: list[Mark], right: int) -> bool:
    """Whether something is said, maybe anew, of the colonies at `right`."""
    return right + 1 < len(row) and (
        row[right + 1].label in ("value", "mites", "clean", "percent", "fact", "number")
        or row[right + 1].w in ("was", "had", "got", "is", "has", ":", "=", "with")
    )


def _ids_meant(m: Mark, ids: list[str]) -> list[str]:
    """The ids of the colonies at `m`, put right by `ids`: the range, the whole list or the end of it."""
    old = list(m.v["ids"])
    if len(ids) == 1 and (ranging := other_end(m, ids[0])) is not None:
        return ranging
    if len(ids) > 1 and set(ids) & set(old):
        return list(ids)  # the list said over again
    if len(ids) >= len(old):
        return list(ids)
    return old[: len(old) - len(ids)] + list(ids)


def _others_meant(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int]:
    """The colonies at `right` in the place of those at `x`, with what is said over again of them."""
    m, r = row[x], row[right]
    ids, old = r.v["ids"], list(m.v["ids"])
    if len(old) > 1 and set(ids) < set(old) and right + 1 < len(row) and _does(row[right + 1]):
        m.v["ids"] = [x for x in old if x not in ids]  # "supers on 4, 5 and 6, scratch that, 6 got a box"
        r.v.setdefault("struck", []).append((row[cue].s, row[cue].e))
        return row[:cue] + row[cue + 1 :], cue
    value_again = value_after(row, right)
    value_before = [y for y in row[x + 1 : cue] if y.label in ("value", "mites", "clean")]
    if value_again is not None and not value_before and _restated(row, right):
        if len(old) == 1 and all(y.label in ("filler", "comma") for y in row[x + 1 : cue]):
            return cut(row, x, cue, right)  # "hive seven, no sorry, hive eight got one"
        return row[:cue] + row[cue + 1 :], cue
    again = _said_again(row[x + 1 : cue], row[right + 1 :]) or _fact_again(row[x + 1 : cue], row[right + 1 :])
    m.v["ids"] = _ids_meant(m, ids)
    if again:
        m.v.setdefault("struck", []).extend((y.s, y.e) for y in row[cue : right + 1 + again])
        return row[:cue] + row[right + 1 + again :], x + 1
    m.v["bare"] = r.v.get("bare", False)
    m.v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, r.e)])
    if value_before and (end := _said_over(row, right, ids, value_before[-1])) is not None:
        m.v["struck"].extend((y.s, y.e) for y in row[right + 1 : end])
        return row[:cue] + row[end:], x + 1
    if value_again is not None and value_before:
        value_before[-1].v.update(row[value_again].v)
        m.v["struck"].append((row[value_again].s, row[value_again].e))
        return row[:cue] + row[right + 1 : value_again] + row[value_again + 1 :], x + 1
    return row[:cue] + row[right + 1 :], x + 1


_RANGING = frozenset("through thru to - – until till".split())


def other_end(m: Mark, last: str) -> list[str] | None:
    """ "strips in three through seven, no wait, eight": the range up to the other end; None where none was said."""
    ids = m.v["ids"]
    letter, first = id_parts(ids[0])
    _, end = id_parts(last)
    said = m.w.replace("-", " - ").split()
    if len(ids) < 3 or _RANGING.isdisjoint(said) or "and" in said or "," in m.w:
        return None
    if not (first.isdecimal() and end.isdecimal()) or id_parts(last)[0] not in ("", letter):
        return None
    if not int(first) + 1 < int(end) < int(first) + 2 * len(ids):
        return None
    return [f"{letter}{k}" for k in range(int(first), int(end) + 1)]


def _begun_on_another(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "40 to 46 got two gallons each, 49, no, I mean 48 got one": the number before the cue began a statement of its
    own, and the colonies named earlier stay; None where it did not.
    """
    if len(row[right].v["ids"]) > 1 or right + 1 >= len(row) or not _does(row[right + 1]):
        return None
    x = cue - 1
    while x > 0 and row[x].label in ("filler", "comma"):
        x -= 1
    m = row[x]
    if m.label == "number" and x > 0 and m.v["n"].whole and row[x - 1].w not in ON:
        return cut(row, x, cue, right)
    if m.label != "cols" or len(m.v["ids"]) == 1 or x == 0 or row[x - 1].w not in ON or row[right + 1].w not in _GETS:
        return None
    if m.w.split()[-2:-1] == ["through"] or not any(y.label in THINGS for y in row[right + 2 : right + 5]):
        return None
    m.v["ids"] = m.v["ids"][:-1]  # "supers on 40 to 44 and 50, no, I mean 51 got an excluder"
    row[right].v.setdefault("struck", []).append((row[cue].s, row[cue].e))
    return row[:cue] + row[cue + 1 :], cue


_GETS = frozenset(["got", "gets", "get", "took"])


def _tells_anew(row: list[Mark], cue: int, right: int) -> bool:
    """ "strips out of 50 and 52, oops, 53 still has his", "formic on nine and ten, oops, eleven has supers on": another
    colony comes to mind, of which something else is told.
    """
    k = right + 1
    while k < len(row) and row[k].label in ("filler", "comma"):
        k += 1
    if k >= len(row) or row[right].w.startswith("not"):
        return False
    first = row[k].w.partition(" ")[0]
    if first in _STILL or first.endswith("n't"):
        return True
    x = next((x for x in range(cue - 1, max(-1, cue - FAR), -1) if row[x].label == "cols"), None)
    if not x or first not in _IS or not (row[x - 1].w in ON or row[x - 1].label in ("verb", "method")):
        return False  # "nine had four, sorry, ten had four": said of both alike
    said = {y.w for y in row[max(0, x - FAR) : cue] if y.label in _TOLD}
    told = [y for y in row[k + 1 : k + 4] if y.label in _TOLD or y.w == "one"]
    return bool(told) and said.isdisjoint(y.w for y in told)


_STILL = frozenset(["still", "needs", "also"])
_IS = frozenset(["has", "had", "is", "was"])
_TOLD = THINGS | {"verb", "fact", "change"}


def _said_over(row: list[Mark], right: int, ids: list[str], count: Mark) -> int | None:
    """ "56 had seven, no, that was 57, 57 had seven": where the words end that say the count of the colony meant over
    again; None where they do not.
    """
    k = right + 1
    while k < len(row) and row[k].label in ("filler", "comma"):
        k += 1
    if k >= len(row) or row[k].label != "cols" or row[k].v["ids"] != ids or "n" not in count.v:
        return None
    again = next((j for j in range(k + 1, min(len(row), k + 4)) if row[j].label in ("value", "mites", "number")), None)
    return again + 1 if again is not None and row[again].v["n"].value == count.v["n"].value else None


def _does(m: Mark) -> bool:
    """Whether the mark begins what is said anew of a colony."""
    return m.label in ("verb", "change", "fact") or m.w in ("got", "gets", "has", "had", "is", "was")


def _count_of(row: list[Mark], cue: int, ids: list[str]) -> int | None:
    """The index of the count of these colonies, where others were named after them; else None."""
    for x in range(cue - 1, max(-1, cue - FAR), -1):
        if row[x].label == "cols" and row[x].v["ids"] == ids:
            others = [k for k in range(x + 1, cue) if row[k].label == "cols"]
            counts = [k for k in range(x + 1, cue) if row[k].label in ("mites", "value") and "n" in row[k].v]
            return counts[0] if others and counts and counts[0] < others[0] else None
    return None


def _said_again(first: list[Mark], second: list[Mark]) -> int:
    """How many marks after the colony repeat what was said of the first ("10 says 8, I mean 11 says 8")."""
    n = len(first)
    if n and len(second) >= n and [y.w for y in first] == [y.w for y in second[:n]]:
        return n
    return 0


def _fact_again(first: list[Mark], second: list[Mark]) -> int:
    """How many marks say of the corrected colony what was said of the other: "nine was dead …, no ten was dead", "no
    wait it's ten that's dead".
    """
    k = 0
    while k < len(second) and second[k].w in _THAT_IS:
        k += 1
    if k == len(second) or second[k].label not in ("change", "fact"):
        return 0
    return k + 1 if any(y.label == second[k].label and y.v == second[k].v for y in first) else 0


_THAT_IS = frozenset("that's that who's which is thats who".split())
