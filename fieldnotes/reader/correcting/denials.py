"""What "no", "not" and "still in" do where they deny nothing: they put right, strike, or are plain words."""

from __future__ import annotations

from fieldnotes.reader.correcting.meant import correct
from fieldnotes.reader.correcting.striking import FAR, same_side, strike
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.roster import id_parts

_NOT_OF_WORK = listed("not_of_work")


def no_cue_here(row: list[Mark], i: int) -> bool:
    """Whether the cue at `i` denies or corrects nothing where it stands; it is a plain word or a filler then."""
    m = row[i]
    if m.v.get("cue") == "not" and i + 1 < len(row) and (row[i + 1].w in _NOT_OF_WORK or _none_of_it(row, i)):
        m.label, m.v = "w", {}  # "cause i never liked that line": no work was left undone
        return True
    if m.w == "no" and i and i + 1 < len(row) and row[i + 1].v.get("cue") == "except":
        m.label, m.v = "filler", {}  # "vaped all of cut bank, no, all but 63"
        return True
    if m.w in ("still in", "still on") and any("queen" in x.w or x.w == "she's" for x in row[max(0, i - 2) : i]):
        m.label, m.v = "w", {}  # "the old queen's still in 62": where she is, and no work left undone
        return True
    return False


def at_no(row: list[Mark], i: int) -> tuple[list[Mark], int] | None:
    """What a bare "no" at `i` puts right, and the index to go on at; None where it denies something."""
    if i + 1 >= len(row):
        return None
    after, sorry = row[i + 1], row[i + 2] if i + 2 < len(row) else None
    if after.label in ("unit", "amount", "mites", "days"):
        if any(x.label == after.label for x in row[max(0, i - 3) : i]):
            return correct(row, i)
    if after.label in ("number", "value") and sorry is not None:
        if sorry.label == "cue" and sorry.w.startswith("sorry"):
            sorry.label = "filler"
            return correct(row, i)  # "twelve hives … no thirteen sorry"
    if i == 0:
        return None
    before = row[i - 1]
    if before.label == "fact" and "n" in before.v and after.label == "hives" and after.w.endswith("of them"):
        before.v["n"] = after.v["n"]  # "a supersedure cell, no, two of them"
        strike(row, i, i + 2, i - 1)
        return row, i
    if before.label == after.label == "date":
        before.v = same_side(before, after)  # "on monday, no, sunday, it was sunday"
        again = row[i + 2 : i + 5]
        said = len(again) == 3 and again[1].w == "was" and again[2].label == "date" and again[2].w == after.w
        strike(row, i, i + (5 if said else 2), i - 1)
        return row, i
    if _thing_again(row, i):
        _strike_before(row, i)  # "five, no, six deadouts"
        return row, i
    return _other_number(row, i) if _number_again(row, i) else None


def _other_number(row: list[Mark], i: int) -> tuple[list[Mark], int]:
    """ "lost five no six", "had nine no eight it was eight", "five or six no six"."""
    row[i - 1].v["n"] = row[i + 1].v["n"]
    again = row[i + 2 : i + 5]
    said = len(again) == 3 and [x.w for x in again[:2]] == ["it", "was"] and "n" in again[2].v
    said = said and again[2].v["n"].value == row[i + 1].v["n"].value
    strike(row, i, i + (5 if said else 2), i - 1)
    if i > 2 and row[i - 2].w == "or" and row[i - 3].label in ("value", "number", "mites"):
        row[i - 3].v["n"] = row[i - 1].v["n"]
        strike(row, i - 2, i, i - 3)
        return row, i - 2
    return row, i


def at_not(row: list[Mark], i: int) -> tuple[list[Mark], int] | None:
    """What "not" at `i` strikes: a thing or a count that was not meant; None where it denies something."""
    if i > 1 and row[i - 1].label == "cols" and row[i - 2].w in ("only", "just") and _closes_there(row, i + 1):
        only = row[i - 2]  # "one tray in every hive, only hive five not, because it's dead"
        only.label, only.v = "cue", {"cue": "except"}
        strike(row, i, i + 1, i - 1)
        return row, i
    if i and row[i - 1].label in THINGS:
        j = i + 2 if i + 1 < len(row) and row[i + 1].w in ("a", "an", "the") else i + 1
        if j < len(row) and row[j].label == row[i - 1].label:
            strike(row, i, j + 1, i - 1)
            return row, i  # "got a brood box, not a super"
    if i and i + 1 < len(row) and row[i - 1].label == row[i + 1].label == "date":
        strike(row, i, i + 2, i - 1)
        return row, i  # "went in on june eighth, not june first"
    counts = ("value", "number", "mites")
    if i + 1 < len(row) and row[i + 1].label in counts and any(x.label in counts for x in row[max(0, i - 4) : i]):
        strike(row, i, i + 2, i - 1)
        return row, i
    return None


def _closes_there(row: list[Mark], k: int) -> bool:
    """Whether what was said ends before `k`, or a reason for it follows."""
    return k >= len(row) or row[k].label in ("stop", "line", "comma", "filler") or row[k].w in _REASONS


_REASONS = frozenset("because cause since as it's she's it she so".split())


def only_not(row: list[Mark], i: int) -> bool:
    """ "supers on everything at the pond, only not on three and six": whether the cue at `i` leaves colonies out.
    Makes it say so, the preposition after it a plain filler.
    """
    only = row[i].w == "only not" or (row[i].w == "not" and i > 0 and row[i - 1].w == "only")
    k = i + 1 + (i + 1 < len(row) and row[i + 1].w in ("on", "in", "hive"))
    if not only or k >= len(row) or row[k].label != "cols":
        return False
    row[i].v = {"cue": "except"}
    for m in row[i + 1 : k]:
        m.label = "filler"
    return True


def not_that_one(row: list[Mark], i: int) -> bool:
    """Whether "not" and a colony just named follow the cue at `i`, and then the one that was meant."""
    follows = row[i + 1 : i + 4]
    if len(follows) < 2 or follows[0].w != "not" or follows[1].label != "cols":
        return False
    meant = len(follows[1].v["ids"]) > 1 or (len(follows) > 2 and follows[2].v.get("cue") == "correct")
    named = next((m for m in reversed(row[max(0, i - FAR) : i]) if m.label == "cols"), None)
    return meant and named is not None and named.v["ids"][-1] == follows[1].v["ids"][0]


_IT_WAS = frozenset("that was that's thats it's its it is were they're those".split())


def another_one(row: list[Mark], i: int) -> tuple[list[Mark], int] | None:
    """ "… in L5 and L6, scratch L6, that was L16", "74 has eggs, not 74, I mean 76": the one meant in the place of the
    one named; None where none is.
    """
    k = i + 2
    while k < len(row) and (row[k].label in ("comma", "filler") or row[k].w in _IT_WAS or _corrects(row[k])):
        k += 1
    led = any(row[x].w in _IT_WAS or _corrects(row[x]) for x in range(i + 2, min(k, len(row))))
    if k >= len(row) or not led:
        return None
    wrong, meant = _id_said(row[i + 1]), _id_said(row[k])
    x = next((x for x in range(i - 1, max(-1, i - FAR), -1) if row[x].label == "cols"), None)
    if wrong is None or meant is None or x is None:
        return None
    ids = row[x].v["ids"]
    at = next((n for n, cid in enumerate(ids) if wrong in (cid, id_parts(cid)[1])), None)
    if at is None:
        return None
    letter = id_parts(ids[at])[0] if meant.isdecimal() else ""
    row[x].v["ids"] = [*ids[:at], letter + meant, *ids[at + 1 :]]
    row[x].v.setdefault("struck", []).extend((y.s, y.e) for y in row[i : k + 1])
    return row[:i] + row[k + 1 :], i


def _corrects(m: Mark) -> bool:
    return m.v.get("cue") == "correct"


def _id_said(m: Mark) -> str | None:
    """The id of the one colony named, or of a number that may be one."""
    if m.label == "cols":
        return m.v["ids"][0] if len(m.v["ids"]) == 1 else None
    return str(int(m.v["n"].value)) if m.label == "number" and m.v["n"].whole else None


NO_AT_ALL = frozenset(["um no", "uh no", "er no"])


def of_something_else(row: list[Mark], i: int) -> bool:
    """ "l one nineteen mites um no wash on thirteen": a thing of which nothing was said before is no other one."""
    thing = row[i + 1] if i + 1 < len(row) else None
    if thing is None or thing.label not in THINGS | {"method"}:
        return False
    return not any(x.label == thing.label for x in row[max(0, i - 10) : i])


_WORK = THINGS | {"noun", "queen_noun", "verb", "change", "queen_work", "method", "check", "harvest", "rest"}
_BEFORE_THING = frozenset(
    "more new other extra second spare fresh longer one way need to in on at for of yet just only".split()
)


def _none_of_it(row: list[Mark], i: int) -> bool:
    """ "fed nine no trouble", "it's dead, not a bee in it": what there was none of is no work."""
    k = i + 1
    if row[i].w == "not":
        if row[k].w not in ("a", "one"):
            return False
        k += 1
    elif row[i].w != "no":
        return False
    if k >= len(row) or row[k].label != "w" or not row[k].w.isalpha() or row[k].w in _BEFORE_THING:
        return False
    after = row[k + 1 : k + 3]  # "no time to feed them" and "not a breath of wind" deny what follows
    return not after or not (after[0].w in ("to", "of") or any(x.label in _WORK or x.label == "sky" for x in after))


def _thing_again(row: list[Mark], i: int) -> bool:
    """A bare number, "no", and a number of things: the first number is put right."""
    if i == 0 or i + 1 >= len(row):
        return False
    if row[i - 1].v.get("noun") == "frames" and row[i + 1].label == "fact":
        return "n" in row[i + 1].v  # "eight frames, no, nine frames of honey"
    if row[i - 1].label not in ("number", "value"):
        return False
    thing = row[i + 1].label in ("change", "queen_noun", "noun", "hives", "fact", "mites", "unit", "amount")
    return thing and "n" in row[i + 1].v


def _strike_before(row: list[Mark], i: int) -> None:
    row[i + 1].v.setdefault("struck", []).extend([(row[i - 1].s, row[i - 1].e), (row[i].s, row[i].e)])
    del row[i - 1 : i + 1]


def _number_again(row: list[Mark], i: int) -> bool:
    """A number, "no", a number, then the end: "no" puts the first right rather than denying the second."""
    if i == 0 or i + 1 >= len(row) or row[i + 1].label not in ("number", "value"):
        return False
    after = row[i + 2] if i + 2 < len(row) else None
    return "n" in row[i - 1].v and (
        after is None
        or after.label in ("stop", "line", "comma", "w", "item", "agent", "form", "filler", "pronoun")
        or (after.label in ("fact", "cols", "change") and row[i - 1].label == "value")
    )
