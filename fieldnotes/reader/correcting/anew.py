"""What is told anew after a correction: where a range ends, what one colony got, which count or yard was meant."""

from __future__ import annotations

from fieldnotes.reader.correcting.striking import FAR, plain_number
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.roster import id_parts

_AS_FAR_AS = frozenset("only just up as far through to till until thru".split())


def range_to(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "out of fifty one through sixty, no, only through fifty five": the range ends elsewhere."""
    first = right
    while right < len(row) and row[right].w in _AS_FAR_AS:
        right += 1
    right -= 1
    if right < first or right + 1 >= len(row) or row[right].w in ("only", "just", "up", "far"):
        return None
    m = next((x for x in reversed(row[max(0, cue - FAR) : cue]) if x.label == "cols"), None)
    end = plain_number(row[right + 1])
    if row[right + 1].label == "cols" and len(row[right + 1].v["ids"]) == 1:
        digits = id_parts(row[right + 1].v["ids"][0])[1]
    elif end is not None and end.whole:
        digits = str(int(end.value))
    else:
        return None
    if m is None or len(m.v["ids"]) < 3:
        return None
    letter, _ = id_parts(m.v["ids"][0])
    ids = [cid for cid in m.v["ids"] if cid[len(letter) :].isdigit()]
    last = letter + digits
    if len(ids) != len(m.v["ids"]) or last not in ids:
        return None
    m.v["ids"] = ids[: ids.index(last) + 1]
    m.v.setdefault("struck", []).extend((y.s, y.e) for y in row[cue : right + 2])
    return row[:cue] + row[right + 2 :], cue


def otherwise_there(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "two strips each in 40 to 44, no, make that one in 44": some of the colonies got another number of it."""
    if row[right].label not in ("number", "amount", "unit", "value"):
        return None
    k = right + 1
    if k < len(row) and row[k].label in THINGS | {"noun"}:
        k += 1
    if k + 1 >= len(row) or row[k].w not in ("in", "on", "for", "into") or row[k + 1].label != "cols":
        return None
    m = next((x for x in reversed(row[max(0, cue - FAR) : cue]) if x.label == "cols"), None)
    ids = row[k + 1].v["ids"]
    if m is None or not set(ids) < set(m.v["ids"]):
        return None
    m.v["ids"] = [x for x in m.v["ids"] if x not in ids]
    row[cue].label, row[cue].v = "filler", {}
    return row, right


def thing_elsewhere(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "an excluder on 8, no, strike that, an excluder on 4", "mice in 74, i mean mice in 73": the same thing or sign,
    at another colony than was said first.
    """
    new = row[right : right + 3]
    if len(new) < 3 or new[0].label not in THINGS | {"fact"} or new[1].w not in ON or new[2].label != "cols":
        return None
    for x in range(cue - 3, max(-1, cue - FAR), -1):
        old = row[x : x + 3]
        if old[0].label == new[0].label:
            if old[0].v != new[0].v or old[1].w != new[1].w or old[2].label != "cols":
                return None
            if any(y.label == "cols" for y in row[x + 3 : cue]):
                return None
            old[2].v = {
                **new[2].v,
                "struck": [*old[2].v.get("struck", ()), *((y.s, y.e) for y in row[cue : right + 3])],
            }
            return row[:cue] + row[right + 3 :], cue
    return None


def counted_anew(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "two supers on 9, no, one super on 9": the thing is counted again, on the colony named or on another."""
    new = row[right : right + 4]
    if len(new) < 2 or new[0].label != "number" or new[1].label not in THINGS:
        return None
    placed = len(new) > 3 and new[2].w in ON and new[3].label == "cols"
    for x in range(cue - 1, max(-1, cue - FAR), -1):
        old = row[x]
        if old.label != new[1].label or _kind_of(old) != _kind_of(new[1]):
            continue
        there = next((m for m in row[x + 1 : cue] if m.label == "cols"), None)
        if placed and there is None:
            return None
        end = right + (4 if placed else 2)
        struck = [(y.s, y.e) for y in row[cue:end]]
        if placed and there is not None:
            there.v = {**there.v, "ids": new[3].v["ids"]}
        if x and row[x - 1].label == "number":
            struck = [*row[x - 1].v.get("struck", ()), *struck]
            row[x - 1].v = {**row[x - 1].v, "n": new[0].v["n"], "struck": struck}
            return row[:cue] + row[end:], cue
        number = Mark("number", old.s, old.e, new[0].w, {**new[0].v, "struck": struck}, new[0].rule)
        thing = Mark(old.label, old.s, old.e, new[1].w, new[1].v, old.rule)  # "a super on 9, no, two supers on 9"
        return [*row[:x], number, thing, *row[x + 1 : cue], *row[end:]], cue + 1
    return None


def _kind_of(thing: Mark) -> dict[str, object]:
    """What a mark says of its thing, whatever its words and their number."""
    return {k: v for k, v in thing.v.items() if k not in ("n", "struck")}


ON = frozenset(["on", "in", "into", "onto", "off", "from", "under", "over", "for"])
_ONLY = frozenset("only just the got gets had has took it was is gave".split())


def given_anew(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "two strips in 71, no, 71 only got the one strip": what the colony named again got, in the place of what was
    said first.
    """
    if row[right].label != "cols":
        return None
    x = next((x for x in range(cue - 1, max(-1, cue - FAR), -1) if row[x].label == "cols"), None)
    if x is None or row[x].v["ids"] != row[right].v["ids"]:
        return None
    k = right + 1
    while k < len(row) and row[k].w in _ONLY:
        k += 1
    if k == right + 1 or k >= len(row) or row[k].label not in ("number", "amount", "unit"):
        return None
    end = k + 1
    if row[k].label == "number":
        if end >= len(row) or row[end].label not in ("form", "item", "agent", "noun", "queen_noun"):
            return None
        end += 1
    last = row[end - 1].label
    led = range(max(0, x - 6), x) if row[x - 1].w in ON else ()  # "two strips in 71"
    for b in (*range(x + 1, cue), *led):
        m = row[b]
        bare = m.label == "number" and row[k].label in ("amount", "unit")  # "got one, no, 71 got two gallons"
        if (m.label != row[k].label and not bare) or any(y.label == "cols" for y in row[b + 1 : x]):
            continue
        if bare:
            m.label, m.w = row[k].label, row[k].w
        if m.label == "number" and not any(y.label == last for y in row[b + 1 : b + 4]):
            continue
        m.v = {**row[k].v, "struck": [*m.v.get("struck", ()), *((y.s, y.e) for y in row[cue:end])]}
        return row[:cue] + row[end:], cue
    return None


def count_named(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "no, the twenty six was twenty four", "no it wasn't eighteen, it was sixteen": the count that is put right, and
    the one it should be; None where they are not both said.
    """
    wrong = right + 1 if row[right].w in ("wasn't", "isn't", "not") else right
    k = wrong + 1
    joins = ("it", "was", "but", "is", "it's", "be", "should", ",")
    while k < len(row) and k < wrong + 5 and (row[k].w in joins or row[k].label == "filler"):
        k += 1
    if k >= len(row) or k == wrong + 1:
        return None
    old, new = plain_number(row[wrong]), plain_number(row[k])
    if old is None or new is None:
        return None
    for x in range(cue - 1, max(-1, cue - FAR), -1):
        m = row[x]
        if m.label in ("value", "number", "mites", "clean") and "n" in m.v and m.v["n"].value == old.value:
            m.v["n"] = new
        elif m.label == "cols" and wrong > right and id_parts(m.v["ids"][-1])[1] == str(int(old.value)):
            letters = m.v["ids"][-1].removesuffix(str(int(old.value)))
            m.v["ids"] = [*m.v["ids"][:-1], f"{letters}{int(new.value)}"]
            k = _said_before(row, x, k)
        else:
            continue
        m.v.setdefault("struck", []).extend((y.s, y.e) for y in row[cue : k + 1])
        return row[:cue] + row[k + 1 :], cue
    return None


def _said_before(row: list[Mark], x: int, k: int) -> int:
    """The index of the count after `k` where it only repeats that of the colony at `x` ("it was 16 that was nine")."""
    first = next((y.v["n"].value for y in row[x : x + 4] if y.label in ("value", "mites") and "n" in y.v), None)
    for j in range(k + 1, min(len(row), k + 4)):
        if row[j].label in ("value", "mites", "number") and "n" in row[j].v:
            return j if row[j].v["n"].value == first else k
        if row[j].w not in ("that", "was", "had", "with", "the"):
            break
    return k


def yard_meant(row: list[Mark], cue: int, right: int) -> int:
    """ "at larks, no not larks, i'm at the quarry": of two yards after the cue the one not said before."""
    said = {m.v["value"] for m in row[max(0, cue - FAR) : cue] if m.label == "yard"}
    if row[right].v["value"] not in said:
        return right
    for x in range(right + 1, min(len(row), right + 8)):
        if row[x].label == "yard":
            row[right].label, row[right].v = "filler", {}
            return x
        if row[x].label not in ("w", "filler", "comma", "cue"):
            break
    return right
