"""Marks made of signs, before any number is looked at: "14/22/9", "H2-11", "40 x3", "41 (1)", "#2"."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from fieldnotes.reader.grouping.lists.listed import between
from fieldnotes.reader.grouping.row import BULLETS, PREPS, RANGE, id_of, number_in, whole
from fieldnotes.reader.mark import DRIEST, MOST_GIVEN, THINGS, WAYS, WETTEST, Mark
from fieldnotes.reader.marking.colours import is_colour
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit


def slashed(row: list[Mark], outfit: Outfit) -> None:
    """ "L1-L4: 14/22/9/61": numbers with slashes between are a list, and so are two that are hives of one yard or stand
    behind what was found: "70/71 from wens", "dead: 61 / 52", but "40 6/300"."""
    k = 0
    while k < len(row):
        end = k
        while (
            row[end].label == "number"
            and end + 2 < len(row)
            and row[end + 1].w == "/"
            and row[end + 2].label == "number"
        ):
            end += 2
        pair = end - k == 2 and row[k].e == row[k + 1].s
        listed = (
            k > 1 and end > k and row[k - 1].w == ":" and (row[k - 2].label in _FOUND_OR_GIVEN or row[k - 2].w in WAYS)
        )
        listed = listed and all(whole(m) and outfit.could_be(id_of(m)) for m in row[k : end + 1 : 2])
        if end - k >= 4 or listed or (pair and _hives_of_one_yard(row[k], row[end], outfit)):
            for m in row[k + 1 : end : 2]:
                m.label, m.w = "comma", ","
        k = end + 1


def _hives_of_one_yard(a: Mark, b: Mark, outfit: Outfit) -> bool:
    rising = whole(a) and whole(b) and a.v["n"].value < b.v["n"].value > 4  # "1/2", "3/4": parts of something
    return rising and id_of(a) in outfit.ids and outfit.of_one_yard((id_of(a), id_of(b)))


def so_many_of_it(row: list[Mark]) -> None:
    """ "pads x2 on 40", "swarm cells x6", "cells (6)", "nuc x3 made", "2x supers": how many of what is beside it."""
    for k in reversed(range(len(row) - 1)):
        m, x = row[k], row[k + 1]
        ahead = row[k + 2 : k + 4]
        glued = x.s == m.e or (ahead and ahead[0].label in THINGS)
        if x.w == "x" and x.label == "w" and m.label == "number" and glued:
            row[k : k + 2] = [Mark("number", m.s, x.e, m.w, m.v, m.rule)]
            continue
        if x.w == "x" and m.label == "amount" and ahead and ahead[0].label == "hives":
            row[k : k + 2] = [Mark("amount", m.s, x.e, m.w, m.v, m.rule)]  # "2 lb x 4 hives"
            continue
        counted = _crossed(x, ahead) or _bracketed(m, x, ahead)
        if counted is None:
            continue
        n, e, used = counted
        if m.w in ("in", "on") and k and row[k - 1].label in THINGS:  # "strips in x2"
            row[k + 1 : k + 1 + used] = [Mark("number", x.s, e, x.w, {"n": n}, "times"), Mark("each", e, e, "each")]
            continue
        made = _with_number(m, n, x.s, e)
        if made is None:
            continue
        then = row[k + 1 + used] if k + 1 + used < len(row) else None
        if m.label in THINGS and (then is None or then.label != "each"):
            made.append(Mark("each", e, e, "each", {}, "times"))
        row[k : k + 1 + used] = made


def _crossed(x: Mark, ahead: list[Mark]) -> tuple[Number, int, int] | None:
    """The number, its end and its marks of "x2" or "x 2" that begins with the mark."""
    if x.label != "w":
        return None
    if x.w == "x" and ahead and ahead[0].label == "number":
        return ahead[0].v["n"], ahead[0].e, 2
    return (Number(int(x.w[1:]), 0), x.e, 1) if x.w[:1] == "x" and x.w[1:].isdecimal() and len(x.w) < 4 else None


def _bracketed(m: Mark, x: Mark, ahead: list[Mark]) -> tuple[Number, int, int] | None:
    """The same of "(6)" behind queen cells."""
    if x.w != "(" or "cells_seen" not in m.v.get("set", {}) or len(ahead) < 2 or ahead[1].w != ")":
        return None
    return (ahead[0].v["n"], ahead[1].e, 3) if ahead[0].label == "number" else None


def _with_number(m: Mark, n: Number, s: int, e: int) -> list[Mark] | None:
    """What the mark becomes with the number behind it, which stands from `s` to `e`; None where nothing is counted."""
    found = m.v.get("set", {})
    if m.label == "fact" and "cells_seen" in found:
        kind = {k: v for k, v in found.items() if k != "cells_seen"}
        v = {"kind": "inspection", "number": "queen_cells", "n": n, "set": kind}
        return [Mark("fact", m.s, e, m.w, v, m.rule)]
    if m.v.get("step") == "split":
        return [Mark(m.label, m.s, e, m.w, {**m.v, "n": n}, m.rule)]
    if m.label == "hives" or m.v.get("noun") == "nuc":
        return [Mark("hives", m.s, e, m.w, {"counts": True, "n": n}, m.rule)]
    if m.label == "amount":
        return [m, Mark("hives", s, e, "hives", {"counts": True, "n": n}, "times")]
    if m.label not in THINGS and m.label not in _BEFORE_CROSS:
        return None
    return [m, Mark("number", s, e, str(int(n.value)), {"n": n}, "times")]


_BEFORE_CROSS = frozenset(["comma", "number", "colony"])


def times(row: list[Mark]) -> None:
    """ "40 x3, 41 x0": in a run of checks what stands after the cross is the count of the colony before it."""
    for k in range(len(row) - 1):
        m, x = row[k], row[k + 1]
        if (
            m.label in ("number", "colony")
            and x.label == "w"
            and x.w[:1] == "x"
            and x.w[1:].isdecimal()
            and len(x.w) < 5
        ):
            if m.label == "number" and whole(m):
                row[k] = Mark("colony", m.s, m.e, m.w, {"value": id_of(m)}, "colony")
            row[k + 1] = Mark("value", x.s, x.e, x.w, {"n": Number(int(x.w[1:]), 0)}, "count")


def dashed_counts(row: list[Mark]) -> None:
    """ "washes: H1-3, H2-11, H3-0", "boards: 1-12, 2-3, 5-40": colonies and their counts, since as ranges they would
    run into one another.
    """
    at = [
        k
        for k in range(len(row) - 2)
        if (row[k].label == "colony" or (row[k].label == "number" and row[k].v["n"].digits and whole(row[k])))
        and row[k + 1].w == "-"
        and row[k + 2].label == "number"
        and row[k + 2].v["n"].whole
    ]
    listed = {k for k in at if k + 4 in at and row[k + 3].label == "comma"}
    listed |= {k + 4 for k in listed}
    at = [k for k in at if row[k].label == "colony" or k in listed]
    ends = [(number_in(row[k]), row[k + 2].v["n"].value) for k in at]
    crossed = any(b <= a for a, b in ends) or any(later[0] <= one[1] for one, later in pairwise(ends))
    if len(at) < 2 or not crossed:
        return
    for k in at:
        row[k + 1] = Mark("w", row[k + 1].s, row[k + 1].e, ":")


SIGNS = frozenset([":", "=", "-", "–"])


def counts_behind_signs(row: list[Mark]) -> None:
    """ "1 > 2", "L4 -> 0": an arrow between a hive and its mites; "40 to 44 (7, 2, 0, 0, 19)": counts in brackets. Both
    are read as a colon. In place."""
    for k in reversed(range(1, len(row) - 1)):
        m = row[k]
        if m.w in _ARROWS and row[k + 1].label in _COUNTED:
            first = k - 1 if row[k - 1].w in ("-", "=") and row[k - 1].e == m.s else k
            if first and row[first - 1].label in ("number", "colony"):
                row[first : k + 1] = [Mark("w", row[first].s, m.e, ":")]
        elif m.w == "(" and row[k - 1].label in ("number", "colony"):
            end = k + 1
            while end < len(row) and (row[end].label in _COUNTED or row[end].label == "comma" or row[end].w == "and"):
                end += 1
            several = sum(x.label in _COUNTED for x in row[k + 1 : end]) > 1
            if several and end < len(row) and row[end].w == ")":
                del row[end]
                row[k] = Mark("w", m.s, m.e, ":")


_ARROWS = frozenset([">", "→", "➔", "➜"])
BEFORE_COUNTS = _ARROWS | {"("}
_COUNTED = frozenset(["number", "percent", "clean", "mites"])


def as_many_after(row: list[Mark], outfit: Outfit) -> None:
    """ "wash 71 74 77: 1% 2% 4%", "3 7 11 - 2 6 0": figures with as many counts behind a sign are all colonies."""
    for k in reversed([k for k, m in enumerate(row) if m.w in SIGNS and k > 1]):
        first = k
        while first and (
            row[first - 1].label == "comma"
            or (row[first - 1].label == "number" and _id_of_roster(row[first - 1], outfit))
        ):
            first -= 1
        before = [m for m in row[first:k] if m.label == "number"]
        end = k + 1
        while end < len(row) and (row[end].label in ("number", "percent", "clean", "comma") or row[end].w == "and"):
            end += 1
        behind = [m for m in row[k + 1 : end] if m.label in ("number", "percent", "clean")]
        if len(before) < 2 or len(before) != len(behind) or row[first].label != "number":
            continue
        if (end < len(row) and row[end].w in SIGNS) or (
            first and row[first - 1].w in SIGNS and first > 1 and row[first - 2].label == "number"
        ):
            continue  # "7: 3, 11: 2, 12: 5"
        if not all(m.label != "number" or m.v["n"].digits for m in behind) or (row[k].w == "-" and len(before) < 3):
            continue
        ids = [id_of(m) for m in before]
        text = " ".join(m.w for m in row[first:k])
        row[first:k] = [
            Mark("cols", row[first].s, row[k - 1].e, text, {"ids": ids, "bare": True, "hive": False}, "colonies")
        ]


def _id_of_roster(m: Mark, outfit: Outfit) -> bool:
    return bool(m.v["n"].digits) and whole(m) and outfit.could_be(id_of(m))


def rows_on_a_line(row: list[Mark]) -> None:
    """ "H1 queenright / H2 queenless / an excluder on H3": a slash with blanks parts what a line tells."""
    for k in range(1, len(row) - 1):
        m, before, after = row[k], row[k - 1], row[k + 1]
        if m.w != "/" or before.e == m.s or m.e == after.s:
            continue
        then = row[k + 2] if k + 2 < len(row) else after
        opens = then if after.label == "w" else after
        if before.label in ("yard", "date") and opens.label not in ("colony", "hive"):
            continue  # "Larkfield / not pulled yet": the cells of a row
        if opens.label == before.label == "fact":
            continue  # "eggs / larvae"
        if before.label == "mites" and after.label == "number" and after.v["n"].value >= _A_SAMPLE:
            row[k] = Mark("w", m.s, m.e, "in")  # "4 mites / 300"
            continue
        told = before.label != "number" or then.label in _TOLD_OF_HIVE or then.w in _OF_ONE  # "on 42 / 44 is calm"
        if opens.label in _OPENS_ROW or (opens.label == "number" and told):
            row[k] = Mark("stop", m.s, m.e, ";")


_A_SAMPLE = 50
"""So many bees and more are a sample. Common practice, no source."""


def told_behind_dashes(row: list[Mark]) -> None:
    """ "S2 robbed, reducer on it - S7 ok and calm - need to bring lids": a dash with blanks parts what a line tells,
    where another hive is told of behind it, or what is to be done. In place.
    """
    begins = 0
    for k in range(1, len(row) - 1):
        m = row[k]
        if m.label in ("line", "stop"):
            begins = k + 1
            continue
        if m.w not in DASHES or row[k - 1].e == m.s or m.e == row[k + 1].s:
            continue
        if _heads_list(row, begins, k):
            row[k] = Mark("w", m.s, m.e, ":")  # "dead - 40, 44"
            continue
        before = {x.label for x in row[begins:k]}
        if before.isdisjoint(_SAID) or before.isdisjoint(_SUBJECTS):
            continue  # "L4 - two supers on": the cells of a row
        if _told_next(row, k + 1):
            row[k] = Mark("stop", m.s, m.e, ";")
            begins = k + 1


def _heads_list(row: list[Mark], begins: int, k: int) -> bool:
    """Whether the line says no more before the sign at `k` than what was found or given, and behind it which hives."""
    head = [x for x in row[begins:k] if x.w not in BULLETS]
    told = [x for x in head if x.label in _FOUND_OR_GIVEN]
    if len(told) != 1 or any(x is not told[0] and x.label not in ("filler", "date") and x.w not in WAYS for x in head):
        return False
    j = k + 1
    while j < len(row) and (row[j].label in ("number", "comma") or row[j].w in ("and", "+", "/")):
        j += 1
    numbers = [x for x in row[k + 1 : j] if x.label == "number"]
    if not numbers or not all(x.v["n"].digits and whole(x) for x in numbers):
        return False
    ends = j == len(row) or row[j].label in ("line", "stop")
    return ends and (len(numbers) > 1 or numbers[0].v["n"].value > _MOST_LOST)


_FOUND_OR_GIVEN = THINGS | {"fact", "change"}
_MOST_LOST = 24
"""A higher number, alone behind "dead - ", is a hive's."""


def _told_next(row: list[Mark], k: int) -> bool:
    """Whether something is said of the hives named at `k`, or is to be done."""
    if row[k].label == "cue" and row[k].v.get("cue") == "plan":
        return True
    if row[k].label == "number" and k + 1 < len(row) and row[k + 1].label not in _MAY_FOLLOW:
        return False
    j = k
    while j < len(row) and (row[j].label in _LISTED or row[j].w in _JOINS_LIST):
        j += 1
    named = any(x.label in ("colony", "number") for x in row[k:j])
    return named and j < len(row) and (row[j].label in _SAID | {"cue", "filler"} or row[j].w in _HAVING)


DASHES = frozenset(["-", "–", "—"])
_SUBJECTS = frozenset("colony number hive hives every yard rest cols".split())
_SAID = frozenset("fact change queen_work verb item form agent feed harvest mites percent clean value amount".split())
_LISTED = frozenset(["colony", "number", "hive", "hives", "comma"])
_MAY_FOLLOW = _LISTED | _SAID | {"cue", "filler"}
_JOINS_LIST = frozenset(["and", "-", "–", "to", "through"])
_HAVING = frozenset("is has had was got gets are have not".split())
_OF_ONE = frozenset(["is", "has", "was", "got", "gets"])
_TOLD_OF_HIVE = frozenset("verb fact clean method item cue change queen_work".split())
_OPENS_ROW = frozenset(
    "colony hive item agent form feed method cue change queen_work queen_noun verb fact sky temp pronoun".split()
)


def warmth_of_day(row: list[Mark]) -> None:
    """ "the high today was ninety seven", "the temperature this morning was 41": the day stands between. In place."""
    for k in reversed(range(len(row) - 3)):
        if k + 3 >= len(row):
            continue
        m, day, verb, number = row[k : k + 4]
        if m.w in WARMTH and m.label == "w" and day.label == "date" and verb.w in _WAS and number.label == "number":
            slot = {"slot": m.w} if m.w in ("high", "low") else {}
            row[k : k + 4] = [day, Mark("temp", m.s, number.e, m.w, {**slot, "n": number.v["n"]}, "warmth of a day")]


WARMTH = frozenset(["high", "low", "temp", "temperature"])
_WAS = frozenset(["was", "is", "hit"])


def round_by_sign(row: list[Mark]) -> None:
    """ "oav #2 done at heath", "OAV #3, H1-H6": the round, where all that was treated is named after it."""
    for k in range(1, len(row) - 2):
        if row[k].w != "#" or row[k].label != "hive" or row[k + 1].label != "number":
            continue
        j = k + 2
        while j < len(row) and (row[j].w in _DONE_AT or row[j].label in ("comma", "filler")):
            j += 1
        place = row[j] if j < len(row) else None
        rounds = row[k - 1].v.get("agent") == "oxalic_acid"
        treated = rounds and place is not None and place.label in ("yard", "every")
        if treated and row[k + 1].v["n"].value <= _MOST_ROUNDS:
            number = row[k + 1]
            row[k : k + 2] = [Mark("round", row[k].s, number.e, f"# {number.w}", dict(number.v), "round")]
            return


def colours_in_brackets(row: list[Mark]) -> None:
    """ "marked queens: 3 (green), 12 (blue)": the brackets fall away. In place."""
    for k in range(len(row) - 4, -1, -1):
        named = row[k].label in ("number", "colony") and row[k + 1].w == "(" and row[k + 3].w == ")"
        if named and is_colour(row[k + 2].w) and any(m.label == "queen_work" for m in row[max(0, k - 16) : k]):
            row[k + 1 : k + 4] = [row[k + 2]]


_DONE_AT = frozenset("done at on in @ for went today".split())
_MOST_ROUNDS = 4


class _Dealt(NamedTuple):
    """Colonies by their ids, the marks that name them, what each of them was given or had, and the index after it."""

    ids: list[str]
    colonies: list[Mark]
    number: Mark
    each: list[Mark]
    sign: str
    end: int


def dealt_in_signs(row: list[Mark], outfit: Outfit) -> None:
    """ "supers on 41 (1), 42 (2)", "strips 41=2 42=4", "supers: 1 2 4 (+1 each)": how many things each was given."""
    k = 0
    while k < len(row):
        dealt: list[_Dealt] = []
        j = k
        while (one := _in_signs(row, j, outfit)) is not None:
            dealt.append(one)
            j = one.end
            while j < len(row) and (row[j].label == "comma" or row[j].w == "and"):
                j += 1
        several = len(dealt) > 1 or any(d.each and len(d.ids) > 1 for d in dealt)
        things = _things_before(row, k) if several else None
        counts = things is not None and things.label == "method"
        if counts and any(d.sign == "=" for d in dealt):
            things = None  # "41 = 3, 42 = 5 or 6": counts by themselves
        if things is not None and (counts or all(d.number.v["n"].value <= MOST_GIVEN for d in dealt)):
            made: list[Mark] = []
            for n, d in enumerate(dealt):
                first, last = d.colonies[0], d.colonies[-1]
                made += [Mark("comma", first.s, first.s, ",")] if n else []
                words = " ".join(m.w for m in d.colonies)
                v = {"ids": d.ids, "bare": first.label == "number"}
                number = Mark("value", d.number.s, d.number.e, d.number.w, d.number.v, "count") if counts else d.number
                made += [Mark("cols", first.s, last.e, words, v, "colonies"), number, *d.each]
            row[k:j] = made
            k += len(made)
        k += 1


def hives_in_brackets(row: list[Mark]) -> None:
    """ "vapour round 2: pond (24), quarry (17 hives)": how many hives there. In place."""
    for k in range(len(row) - 4, -1, -1):
        if row[k].label != "yard" or [m.w for m in row[k + 1 : k + 4 : 2]] != ["(", ")"]:
            continue
        m = row[k + 2]
        treated = any(x.label in THINGS for x in row[max(0, k - _LONGEST_HEAD) : k])
        if treated and m.label in ("number", "hives") and "n" in m.v and m.v["n"].digits:
            v = {"counts": True, "n": m.v["n"]}
            row[k + 1 : k + 4] = [Mark("hives", row[k + 1].s, row[k + 3].e, f"{m.w} hives", v, "hives in brackets")]


_LONGEST_HEAD = 16


def made_from_each(row: list[Mark]) -> None:
    """ "made N1 from 4, N2 from 9": each of the nucs was made from its own. In place."""
    k = next((k for k, m in enumerate(row) if m.v.get("step") == "nuc_made"), None)
    if k is None:
        return
    made = row[k]
    for j in range(len(row) - 4, k, -1):
        sign, new, of, old = row[j : j + 4]
        pair = new.label == "colony" and of.w in ("from", "off") and old.label in ("colony", "number")
        ended = row[j - 1].label in ("colony", "number") and row[j - 2].w in ("from", "off")
        if pair and ended and (sign.label == "comma" or sign.w == "and"):
            row[j : j + 1] = [Mark("stop", sign.s, sign.e, ";"), Mark("change", made.s, made.e, made.w, {**made.v})]


def one_of_a_measure(row: list[Mark]) -> None:
    """ "gal of 2:1 in each", "bag of sugar on 44", ", qt 1:1": a measure with no number is one. In place."""
    row.append(Mark("w", row[-1].e, row[-1].e, ""))  # so that three marks can be looked at to the end
    for k in range(len(row) - 2):
        opens = k == 0 or row[k - 1].label in ("comma", "line", "stop")
        fed = row[k + 1].w == "of" and row[k + 2].label in ("ratio", "feed")
        fed = fed or row[k + 1].label == "ratio" or (row[k + 1].label == "each" and row[k + 2].label == "ratio")
        if opens and fed and row[k].label == "w" and row[k].w in _MEASURES:
            v = {"n": Number(1, 0), "words": ["=1", row[k].w]}
            row[k] = Mark("amount", row[k].s, row[k].e, row[k].w, v, "one of a measure")
    row.pop()


_MEASURES = frozenset("gal gallon qt quart pt pint bag jar litre liter kilo pound".split())


def left_out_in_brackets(row: list[Mark]) -> None:
    """ "vapour at the pond (not 44)": the hives that were left out. In place."""
    for k in range(1, len(row) - 2):
        m, after = row[k], row[k + 1]
        if m.label == "cue" and m.w == "not" and row[k - 1].w == "(" and after.label in ("number", "colony", "hive"):
            end = next((x.w for x in row[k + 2 :] if x.w == ")" or x.label in ("line", "stop", "verb", "fact")), "")
            if end == ")":
                m.v = {"cue": "except"}


def dead_queens(row: list[Mark]) -> None:
    """ "got 10 queens in the mail, 4 dead": so many of the queens, and no colony. In place."""
    for k in range(3, len(row)):
        if row[k].v.get("step") != "died" or row[k - 1].label != "number" or row[k - 2].label != "comma":
            continue
        near = row[max(0, k - 10) : k - 2]
        queens = next((m for m in reversed(near) if m.label == "queen_noun" and "n" in m.v), None)
        cut = any(m.label in ("stop", "line", "colony", "hive") for m in near)
        if queens is not None and not cut and row[k - 1].v["n"].value <= queens.v["n"].value:
            row[k - 1] = Mark("w", row[k - 1].s, row[k - 1].e, row[k - 1].w)
            row[k] = Mark("w", row[k].s, row[k].e, row[k].w)


def named_in_brackets(row: list[Mark], outfit: Outfit) -> None:
    """ "three (2, 7, 9) were treated": as many hives as are named behind. In place."""
    for k in range(len(row) - 5, -1, -1):
        m = row[k]
        if m.label not in ("number", "hives") or "n" not in m.v or row[k + 1].w != "(":
            continue
        if m.label == "number" and m.v["n"].digits:
            continue
        shut = next((n for n in range(k + 2, min(len(row), k + 2 + 3 * MOST_GIVEN)) if row[n].w == ")"), None)
        inside = row[k + 2 : shut] if shut is not None else []
        named = [x for x in inside if x.label in ("number", "colony")]
        listed = all(x in named or x.label == "comma" or x.w == "and" for x in inside)
        ours = all(x.label == "colony" or (whole(x) and outfit.could_be(id_of(x))) for x in named)
        if shut is not None and listed and ours and len(named) == m.v["n"].value > 1:
            ids = [x.v["value"] if x.label == "colony" else id_of(x) for x in named]
            v = {"ids": ids, "bare": named[0].label == "number"}
            row[k : shut + 1] = [Mark("cols", m.s, row[shut].e, m.w, v, "colonies")]


def dealt_to_letters(row: list[Mark]) -> None:
    """ "4 supers harvested L3, 2 L5, 1 L8", "2 supers on L3, 1 L5": so many off or on the next. In place."""
    for k in range(len(row) - 2, 1, -1):
        number, colony = row[k], row[k + 1]
        if number.label != "number" or colony.label != "colony" or row[k - 1].label != "comma":
            continue
        near = row[max(0, k - 12) : k - 1]
        item = next((n for n, m in enumerate(near) if m.label == "item" and n and near[n - 1].label == "number"), None)
        if item is None or any(m.label in ("stop", "line") for m in near[item:]):
            continue
        if number.v["n"].value > MOST_GIVEN or near[-1].label != "colony":
            continue
        taken = any(m.label == "harvest" or m.v.get("dir") == "out" or m.w in ("off", "from") for m in near)
        way = "from" if taken else "on"
        row.insert(k + 1, Mark("w", colony.s, colony.s, way))
        first = next(n for n, m in enumerate(near) if m.label == "colony") + max(0, k - 12)
        if row[first - 1].w not in PREPS:
            row.insert(first, Mark("w", row[first].s, row[first].s, way))


def how_wet(row: list[Mark]) -> None:
    """ "40 lbs off 2 @ 17.4, 55 off 7": the water in the honey just weighed. In place."""
    for k in range(2, len(row)):
        m = row[k]
        if row[k - 1].w != "at" or m.label != "number" or m.v["n"].whole or not DRIEST < m.v["n"].value < WETTEST:
            continue
        if any(x.label == "amount" for x in row[max(0, k - 6) : k - 1]):
            row[k] = Mark("moisture", m.s, m.e, m.w, m.v, "moisture")


def arrows_between(row: list[Mark]) -> None:
    """ "split 12 -> N3, 14 -> N4": each into its own. In place."""
    for k in range(len(row) - 2, 0, -1):
        long = row[k].w == ">" and row[k - 1].w == "-" and row[k - 1].e == row[k].s
        first = k - 1 if long else k
        if not long and row[k].w not in ("→", "➔", "➜"):
            continue
        beside = row[first - 1 : first] + row[k + 1 : k + 2]
        if len(beside) == 2 and first and all(m.label in ("number", "colony") for m in beside):
            row[first : k + 1] = [Mark("w", row[first].s, row[k].e, "into")]


def why_left_out(row: list[Mark]) -> None:
    """ "all but 57 (too small) and 60": the reason in brackets goes behind the list of exceptions. In place."""
    for k in reversed([k for k, m in enumerate(row) if m.v.get("cue") == "except"]):
        opened = next((n for n in range(k + 2, min(len(row), k + 5)) if row[n].w == "("), None)
        shut = next((n for n in range(opened, min(len(row), opened + 6)) if row[n].w == ")"), None) if opened else None
        if opened is None or shut is None or shut + 2 >= len(row) or row[opened - 1].label not in ("number", "colony"):
            continue
        joined = row[shut + 1].w == "and" or row[shut + 1].label == "comma"
        listed = joined and row[shut + 2].label in ("number", "colony")
        if listed and all(m.label in ("w", "filler") for m in row[opened : shut + 1]):
            end = shut + 2
            while end + 2 < len(row) and (row[end + 1].w == "and" or row[end + 1].label == "comma"):
                if row[end + 2].label not in ("number", "colony"):
                    break
                end += 2
            row[opened : end + 1] = row[shut + 1 : end + 1] + row[opened : shut + 1]


def _in_signs(row: list[Mark], k: int, outfit: Outfit) -> _Dealt | None:
    """What stands at `k` like "41 (1)", "41 = 1", "1 2 4 (+1 each)"; None where no colonies and number stand so."""
    ids: list[str] = []
    colonies: list[Mark] = []
    at = k
    while at < len(row) and _may_be_dealt(row[at], colonies, outfit):
        named = str(row[at].v["value"]) if row[at].label == "colony" else id_of(row[at])
        ranged = bool(colonies) and row[at - 1].w in RANGE
        ids += between(ids[-1], named)[1:] if ranged else [named]
        colonies.append(row[at])
        at += 1
        if at < len(row) and (row[at].label == "comma" or row[at].w == "and" or row[at].w in RANGE):
            at += 1
    sign = row[at] if at < len(row) else None
    if not ids or sign is None or sign.w not in ("(", "="):
        return None
    at += 1 + (row[at + 1 : at + 2] != [] and row[at + 1].w == "+")  # "9 (+2)"
    if at >= len(row) or row[at].label != "number":
        return None
    number, each = row[at], [m for m in row[at + 1 : at + 2] if m.label == "each"]
    at += 1 + len(each)
    if sign.w == "=":
        return _Dealt(ids, colonies, number, each, "=", at)
    return _Dealt(ids, colonies, number, each, "(", at + 1) if at < len(row) and row[at].w == ")" else None


def _may_be_dealt(m: Mark, before: list[Mark], outfit: Outfit) -> bool:
    """Whether the mark names a colony, of a higher number than those before it in the list."""
    if m.label == "colony":
        return not before or before[-1].label == "colony"
    if m.label != "number" or not whole(m) or not outfit.could_be(id_of(m)):
        return False
    return not before or (before[-1].label == "number" and before[-1].v["n"].value < m.v["n"].value)


def _things_before(row: list[Mark], k: int) -> Mark | None:
    """The things or the check that stand right before the mark at `k`, "on", "in", a colon and the like between."""
    k -= 1
    while k >= 0 and (row[k].w in _BEFORE_DEALT or row[k].label in ("filler", "yard", "comma")):
        k -= 1
    dealt = k >= 0 and (row[k].label in ("item", "form", "method") or row[k].v.get("feed") == "pollen_patty")
    return row[k] if dealt else None


_BEFORE_DEALT = frozenset("on in to at : - – off out from of added for".split())


_PAIRED = frozenset(["split", "combined"])
_OTHER_SIDE = frozenset(["to", "into", "with"])


def pairs_of_changes(row: list[Mark]) -> None:
    """ "splits: L3 to L21 L7 to L22": as ranges they would run into one another, so each is split into the other. In
    place: "to" becomes "into", and a comma parts the pairs.
    """
    k = next((k for k, m in enumerate(row) if m.label == "change" and m.v.get("step") in _PAIRED), len(row)) + 1
    pairs: list[int] = []
    while k + 2 < len(row):
        one, to, other = row[k : k + 3]
        if one.label in ("number", "colony") and other.label in ("number", "colony") and to.w in _OTHER_SIDE:
            pairs.append(k)
            k += 2
        elif not (one.w in (":", "and", "from", "-", "hive") or one.label in ("comma", "hive", "filler")):
            break
        k += 1
    joined = any(m.v.get("step") == "combined" for m in row[: pairs[0]] if m.label == "change") if pairs else False
    if len(pairs) < 2 or not (joined or any(_no_range(row, a, b) for a, b in pairwise(pairs))):
        return
    for k in reversed(pairs):
        if row[k + 1].w == "to":
            row[k + 1].w = "into"
        for m in (row[k], row[k + 2]):
            if m.label == "number" and whole(m):
                m.label, m.v = "colony", {"value": id_of(m)}
        if k != pairs[0] and row[k - 1].label in ("number", "colony"):
            row.insert(k, Mark("comma", row[k].s, row[k].s, ","))


def _no_range(row: list[Mark], a: int, b: int) -> bool:
    """Whether the pairs at `a` and `b` cannot both be ranges, one after the other."""
    if row[a + 1].w != "to" or row[b + 1].w != "to":
        return True
    first, last, then = (number_in(row[k]) for k in (a, a + 2, b))
    letters = {row[k].v["value"][0] if row[k].label == "colony" else "" for k in (a, a + 2)}
    return first < then <= last or len(letters) > 1
