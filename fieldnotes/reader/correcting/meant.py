"""After "no wait", "I mean": what is meant, and what said before it puts right."""

from __future__ import annotations

from fieldnotes.reader.correcting.anew import (
    count_named,
    counted_anew,
    given_anew,
    otherwise_there,
    range_to,
    thing_elsewhere,
    yard_meant,
)
from fieldnotes.reader.correcting.other_colonies import correct_colonies, other_end, was_other_colony
from fieldnotes.reader.correcting.striking import COUNTED_THINGS, FAR, SMALL, cut, ends, family_of, plain_number, strike
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.table import CELL_TYPES
from fieldnotes.roster import id_parts

_SKIP = frozenset(
    (
        "the a an at i'm im we're it it's its was is that's thats that in on , i am to from they're theyre they "
        "these those were had has got them he she you we did put make say said into of for actually now : hive "
        "colony number there with just only"
    ).split()
)


def correct(row: list[Mark], cue: int) -> tuple[list[Mark], int]:
    """Puts what follows the cue in the place of what it corrects: the row after it, and the index to go on at."""
    right = _past_leads(row, cue + 1)
    if cue > 0 and row[cue - 1].label == "percent" and row[right : right + 1] and row[right].label == "mites":
        return cut(row, cue - 1, cue, right)  # "eight percent, no wait, eight mites"
    right = _past_reason(row, cue, right)
    if right < len(row) and row[right].label not in ("stop", "line", "question"):
        while right + 1 < len(row) and row[right].w in ("out", "off", "under") and row[right + 1].w in ("of", "from"):
            right += 2  # "out of fifty, no, out of fifty two"
    if right >= len(row) or row[right].label in ("stop", "line", "question"):
        row[cue].label = "filler"
        return row, cue + 1
    right = _past_wrong_one(row, cue, right)
    for put in (otherwise_there, count_named, range_to, counted_anew, given_anew, thing_elsewhere):
        done = put(row, cue, right)
        if done is not None:
            return done
    if row[right].label == "yard":
        right = yard_meant(row, cue, right)
    r = row[right]
    if r.label == "change" and r.v.get("step") == "died" and cue and row[cue - 1].label == "fact":
        return cut(row, cue - 1, cue, right)  # "six is light, no wait, it's dead"
    if r.w in CELL_TYPES and (cells := _cells_before(row, cue)) is not None:
        cells.v["set"] = {**cells.v["set"], "cell_type": r.w}  # "2 swarm cells, no, make that supersedure"
        cells.v.setdefault("struck", []).append((row[cue].s, r.e))
        return row[:cue] + row[right + 1 :], cue
    if r.label in ("number", "value"):
        if (count := _count_it_was(row, cue, right)) is not None:
            row[count].v["n"] = r.v["n"]
            row[count].v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, r.e)])
            return row[:cue] + row[right + 1 :], cue
        if was_other_colony(row, cue, right):
            r.label, r.v = "cols", {"ids": [str(int(r.v["n"].value))], "bare": True}
    return correct_colonies(row, cue, right) if r.label == "cols" else _back_to_its_like(row, cue, right)


def _past_leads(row: list[Mark], right: int) -> int:
    """The index of what is meant: past fillers, small words and further cues of correction."""
    while (
        right < len(row)
        and (
            row[right].label in ("filler", "comma", "approx", "hive", "pronoun", "person")
            or row[right].w in _SKIP
            or (row[right].label == "cue" and row[right].v.get("cue") == "correct")
        )
        and row[right].label not in ("cols", "fact")
    ):
        right += 1
    return right


def _past_wrong_one(row: list[Mark], cue: int, right: int) -> int:
    """The index of what is meant, where "not" and the colony that was wrong stand before it."""
    if not row[cue].w.endswith("not"):
        return right
    named = next((m for m in reversed(row[max(0, cue - FAR) : cue]) if m.label == "cols"), None)
    if named is None:
        return right
    ids = row[right].v["ids"] if row[right].label == "cols" else []
    if len(ids) > 1 and named.v["ids"][-1] == ids[0]:
        row[right].v["ids"] = ids[1:]  # "l four and l nine, no, not l nine, l ten"
    if right + 1 < len(row) and row[right + 1].label in ("cols", "number"):
        wrong = plain_number(row[right])
        if wrong is not None and id_parts(named.v["ids"][-1])[1] == str(int(wrong.value)):
            named.v.setdefault("struck", []).append((row[right].s, row[right].e))
            return right + 1  # "s one, s two and s nine, no not nine, s eight"
    return right


def _back_to_its_like(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int]:
    """Goes back from the cue to what was said of the same kind, and puts that right; the cue is talk where none was."""
    r = row[right]
    family = family_of(r)
    for x in range(cue - 1, max(-1, cue - FAR), -1):
        m = row[x]
        if r.label == "queen_noun" and m.label == "queen_work" and "n" in r.v and m.v.get("step") == "cells_placed":
            m.v["n"] = r.v["n"]  # "put a cell in it no wait two cells"
            strike(row, cue, right + 1, x)
            return row, cue
        if r.label == "hives" and "n" in r.v and m.label == "change" and "n" in m.v:
            m.v["n"] = r.v["n"]  # "lost three no wait four hives"
            strike(row, cue, right + 1, x)
            return row, cue
        if m.label == "cols" and family.startswith("fact"):
            break  # a fact of another colony stays
        if family == "date" and m.label in _NEW_WORK:
            break  # "they come out in 14 days, recheck them a week after that, no, just say the 13th"
        if r.label == "days" and m.label == "date" and m.v["value"].form == "days":
            return cut(row, x, cue, right)  # "boards in 12 days, no sorry, 3 days"
        if family_of(m) != family and not _made_so_many(r, m):
            done = _colony_meant(row, x, cue, right)
        elif family == "count":
            done = _other_count(row, x, cue, right)
        elif r.label == "agent" and m.label == "form" and x and row[x - 1].label == "agent":
            done = _another_treatment(row, x, cue, right)
        elif r.label == "form" and x and row[x - 1].label == "agent" and _agent_again(row, right):
            row, cue = cut(row, x - 1, cue, right)
            row.insert(cue, Mark("cue", m.s, m.e, "", {"cue": "correct"}))
            done = cut(row, x - 1, cue, right - 1)
        else:
            done = cut(row, x, cue, right)
        if done is not None:
            return done
    row[cue].label = "filler"
    return row, cue + 1


def _agent_again(row: list[Mark], right: int) -> bool:
    """ "oxalic dribble …, no, we vaped it, oxalic vape": the agent is said again."""
    return any(y.label == "agent" for y in row[right : right + 6])


def _another_treatment(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int]:
    """ "pulled the formic pads, sorry, the amitraz strips": the form goes with the agent, where another one is said."""
    formed = right + 1 < len(row) and row[right + 1].label == "form"
    if not formed:
        return cut(row, x - 1, cue, right)
    row, cue = cut(row, x - 1, cue, right)
    row.insert(cue, Mark("cue", row[x - 1].s, row[x - 1].e, "", {"cue": "correct"}))
    return cut(row, x - 1, cue, cue + 1)


def _made_so_many(r: Mark, m: Mark) -> bool:
    """Whether a bare number may put right how many were made ("made five splits, no wait, six")."""
    return r.label in ("number", "value") and "n" in m.v and m.label in ("change", "queen_work", "queen_noun", "noun")


def _colony_meant(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "put strips in nine, no wait, ten": a bare number right after the colony at `x` puts the colony right."""
    m, r = row[x], row[right]
    if m.label != "cols":
        return None
    if r.label in ("number", "value") and (
        all(y.label in ("w", "yard", "cue", "filler") for y in row[x + 1 : cue])
        or (ends(row, right + 1) and _only_seen(row[x + 1 : cue]))
    ):
        ids = list(m.v["ids"])
        ids[-1] = str(int(r.v["n"].value))
        m.v["ids"] = other_end(m, ids[-1]) or ids
        m.v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, r.e)])
        return row[:cue] + row[right + 1 :], x
    if r.label == "hives" and x == cue - 1 and m.v.get("bare"):
        return cut(row, x, cue, right)  # "one each in forty, no, fourteen hives"
    return None


def _other_count(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int] | None:
    """The count at `right` in the place of the one at `x`; None where the two are not counts of one thing."""
    m, r = row[x], row[right]
    if _either(row, x - 2) and _either(row, right):
        # "five or six, no, I mean six or seven"
        row[x - 2].v["n"], row[x].v["n"] = r.v["n"], row[right + 2].v["n"]
        row[x].v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, row[right + 2].e)])
        return row[:cue] + row[right + 3 :], cue
    if r.label in ("number", "value") and "n" in m.v:
        return _other_bare_count(row, x, cue, right)
    alike = (
        r.label == m.label
        or m.label in ("number", "value", "cols")
        or {r.label, m.label} <= {"mites", "clean", "value"}
        or (m.label == "noun" and r.label == "fact")  # "eight frames, no sorry, nine frames of honey"
    )
    return cut(row, x, cue, right) if alike else None


def _other_bare_count(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int]:
    """The bare number at `right` in the place of the count at `x`; what is said over again around it goes."""
    m, r = row[x], row[right]
    made = _made_so_many(r, m)
    m.v["n"] = r.v["n"]
    if x > 1 and row[x - 1].w == "or" and row[x - 2].label in ("value", "number", "mites"):
        m.v.setdefault("struck", []).extend((y.s, y.e) for y in (*row[x - 2 : x], row[cue], r))
        return [*row[: x - 2], m, *row[x + 1 : cue], *row[right + 1 :]], x - 2  # "five or six, no, six"
    if row[cue - 1].label == "yard":
        end = next((k for k in range(right, min(len(row), right + 4)) if row[k].label == "yard"), right)
        right = end if row[end].v == row[cue - 1].v else right
    said = row[right + 1 : right + 4]  # "had nine, no, eight, it was eight"
    if [y.w for y in said[:2]] == ["it", "was"] and said[2:] and said[2].v.get("n") is not None:
        right += 3 * (said[2].v["n"].value == r.v["n"].value)
    thing = row[x + 1] if x + 1 < cue and row[x + 1].label in COUNTED_THINGS else None
    if thing is not None and right + 1 < len(row) and row[right + 1].v == thing.v:
        m.v.setdefault("struck", []).append((row[right + 1].s, row[right + 1].e))
        del row[right + 1]
    again = row[right + 1] if made and right + 1 < len(row) else None
    if again is not None and again.label == m.label and again.w in m.w.split():
        # "made five splits at the pond, no wait, six splits"
        m.v.setdefault("struck", []).append((again.s, again.e))
        del row[right + 1]
    m.v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, r.e)])
    return row[:cue] + row[right + 1 :], x


def _count_it_was(row: list[Mark], cue: int, right: int) -> int | None:
    """ "three swarm cells in L20, no wait, it was four": the index of the count that is meant, where a count and then
    one colony of a far greater number was said.
    """
    said = " ".join(x.w for x in row[cue:right]).split()[-2:]
    if said not in (["it", "was"], ["there", "were"], ["it", "had"]) or row[right].v["n"].value > SMALL:
        return None
    named = next((x for x in range(cue - 1, max(-1, cue - FAR), -1) if row[x].label == "cols"), None)
    if named is None or len(row[named].v["ids"]) > 1:
        return None
    digits = id_parts(row[named].v["ids"][0])[1]
    if not digits.isdecimal() or int(digits) <= SMALL:
        return None
    for x in range(named - 1, max(-1, named - 6), -1):
        m = row[x]
        if m.label in ("cols", "stop", "line"):
            return None
        if "n" in m.v and (family_of(m) == "count" or m.label == "fact") and m.v["n"].value <= SMALL:
            return x
    return None


def _cells_before(row: list[Mark], cue: int) -> Mark | None:
    """The cells whose kind was said just before the correction."""
    near = row[max(0, cue - 3) : cue]
    return next((m for m in reversed(near) if m.label == "fact" and "cell_type" in m.v.get("set", {})), None)


def _only_seen(between: list[Mark]) -> bool:
    """ "4 has spotty brood at the quarry. I mean 5": no number stands between the colony and its correction."""
    labels = ("w", "yard", "cue", "filler", "fact", "comma", "stop")
    return sum(m.label == "stop" for m in between) < 2 and all(m.label in labels and "n" not in m.v for m in between)


_LONGEST_REASON = 6
"""Plain words between "no wait" and the number that is meant."""


def _past_reason(row: list[Mark], cue: int, right: int) -> int:
    """ "seven no hang on that's a bee leg six": the index of the count that follows the reason for the correction of a
    count; `right` where none does.
    """
    if not cue or row[cue - 1].label not in ("value", "mites", "number"):
        return right
    k = right
    while k < len(row) and k - right < _LONGEST_REASON and row[k].label in ("w", "noun", "filler", "thing"):
        k += 1
    if k == right or k >= len(row) or row[k].label not in ("number", "value") or "n" not in row[k].v:
        return right
    after = row[k + 1] if k + 1 < len(row) else None
    return k if after is None or after.label in ("stop", "line", "comma", "filler", "cols") else right


def _either(row: list[Mark], k: int) -> bool:
    """Whether "six or seven" stands at `k`."""
    if k < 0 or k + 2 >= len(row) or row[k + 1].w != "or":
        return False
    return all(row[j].label in ("value", "number") and "n" in row[j].v for j in (k, k + 2))


_NEW_WORK = frozenset(["check", "method", "queen_work", "change", "agent", "item", "feed"])
