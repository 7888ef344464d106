"""Which numbers are colonies, which are counts? The row of marks → the same row with colonies grouped.

A number that no phrase took is a colony where its neighbours say so (a hive word, "in", "washed",
"had" after it), a count where they say that ("had", a colon after a colony), and where neither does, the
roster and the order decide: in a run of checks colony and count take turns.
Lists ("12, 14 and 15"), ranges ("3 through 9", "L4-L9") and repeated letters become one mark "cols".
Counts become the mark "value", sample sizes ("/ 300", "in 300") the mark "sample".
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any, NamedTuple

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.grouping.colony import is_colony
from fieldnotes.reader.grouping.counts import (
    SAMPLES,
    count_or_sample,
    samples_of_one,
    two_halves,
    value_list,
    with_so_many_each,
)
from fieldnotes.reader.grouping.lists.colonies import colonies_from
from fieldnotes.reader.grouping.orders import in_that_order, listed_in_order, listed_then_counted, numbers_from
from fieldnotes.reader.grouping.row import BULLETS, Row, colonies_of, id_of, number_in, sentence_has, whole
from fieldnotes.reader.grouping.runs import (
    as_many_as_said,
    bare_run,
    paired_run,
    run_of_all,
    run_told_before,
    typed_list,
)
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit
from fieldnotes.roster import id_parts

__all__ = ["BULLETS", "CHECK_LABELS", "group"]

CHECK_LABELS = frozenset(["method", "mites", "percent", "sample", "check"])
_CAN_BE_COLONIES = frozenset(["number", "colony", "hive", "hives"])
_TOLD_BY_NEIGHBOURS = frozenset("not but whole entire same as up made making mark clip laying to".split()) | {"to do"}
"""The words that `_by_neighbours` asks about."""
_QUEEN_VERBS = {"mark": "marked", "clip": "clipped"}
"""What is done with her where no queen is named: "five I'll mark tomorrow"."""
_HAD = frozenset(["had", "has", "got", "found", "was", "gave"])


def _sugar_named_after(row: list[Mark]) -> None:
    """ "did a roll on eighteen and nineteen, sugar, eighteen was two": what it was rolled in, and no feed."""
    for k, m in enumerate(row):
        if m.label == "feed" and m.w == "sugar" and any(x.v.get("method") == "roll" for x in row[max(0, k - 9) : k]):
            if not any(x.label == "verb" and x.w != "did" for x in row[max(0, k - 9) : k]):
                row[k] = Mark("method", m.s, m.e, m.w, {"method": "sugar_roll"}, "what it was rolled in")


class _Found(NamedTuple):
    """Marks made of several, the index after them, what the last is ("cols" or "value"), counts still to come."""

    marks: list[Mark]
    next: int
    last: str
    owed: int


def group(row: list[Mark], outfit: Outfit, checking: bool) -> list[Mark]:
    """The row with colonies grouped; `checking` says that mite checks have been spoken of."""
    words, labels = {m.w for m in row}, {m.label for m in row}
    checking = checking or "counts" in words  # "Ada wanted the counts, seventy was four"
    if "/" in words:
        _slashed(row)
        _rows_on_a_line(row)
    if "more" in words:
        _so_many_more(row)
    if "gone" in words or "down" in words:
        _so_many_gone(row, outfit)
    if checking:
        _sugar_named_after(row)
        _times(row)
        _dashed_counts(row)
    if not _SIGNS.isdisjoint(words) and (checking or not CHECK_LABELS.isdisjoint(labels)):
        _as_many_after(row, outfit)
    _once_it_is_off(row)
    if "hives" in labels:
        _so_many_there(row)
    if "change" in labels:
        _so_many_of(row)
    if "#" in words:
        _round_by_sign(row)
    if "(" in words or "=" in words:
        _dealt_in_signs(row, outfit)
    r = Row(row, outfit, checking)
    for k in reversed([k for k, m in enumerate(row) if m.label == "change" and "n" in m.v and k > 1]):
        _last_of_list(r, k)
    out: list[Mark] = []
    owed = 0  # counts still to come of a list said "in that order"
    last = ""  # what the last number in this sentence was: "cols", "value" or ""
    i = 0
    while i < len(row):
        m = row[i]
        if m.label == "w" and m.w not in _TOLD_BY_NEIGHBOURS:
            out.append(_washed_in(row, i) if m.w in _WASHES_IN else m)  # most marks: plain words
            i += 1
            continue
        if m.label in ("hives", "number") and "n" in m.v and m.v["n"].value == 0:
            m = _none_of(row, i)
        if m.label == "change" and "n" in m.v and (lost := _lost_these(r, i)):
            cols, i = colonies_from(r, i, i)
            out += [lost, cols]
            r.last_ids, last = cols.v["ids"], "cols"
            continue
        if m.label == "number" and _money(row, i):
            out.append(Mark("w", m.s, m.e, m.w))
            i += 1
            continue
        if m.label == "hives" or (m.w in _TOLD_BY_NEIGHBOURS and m.label in ("w", "cue")):
            m = row[i] = _by_neighbours(r, i, out, last)
        if m.label in ("stop", "line", "question"):
            last = ""
        if m.label in CHECK_LABELS or m.label == "clean" or m.v.get("noun") == "mites":
            r.checking = True
        for otherwise in _READ_OTHERWISE.get(m.label, ()):
            if parts := otherwise(r, i):
                row[i : i + 1] = parts
                m = row[i]
                break
        if m.label in ("again", "ordinal"):
            m = row[i] = _round_to_come(r, i)
        if m.label == "mites" and (parts := _tens_and_mites(r, i, last)):
            out.extend(parts)
            last = "value"
            i += 1
            continue
        if m.label == "colony" and r.checking and (parts := _tens_and_either(r, i)):
            out.extend(parts)
            r.last_ids, last = parts[0].v["ids"], "value"
            i += 1
            continue
        if m.label in ("mites", "clean", "percent"):
            last = "value"
        if m.label not in _CAN_BE_COLONIES:
            out.append(m)
            i += 1
            continue
        found = _several(r, i, owed)
        if found:
            out.extend(found.marks)
            if found.marks[0].label == "cols":
                r.last_ids = found.marks[0].v["ids"]
            i, last, owed = found.next, found.last, found.owed
            continue
        m, i, last = _single(r, i, last)
        out.append(m)
    _in_percent(out)
    _letters_again(out)
    return out


_WASHES_IN = {"alcohol": "alcohol_wash", "soap": "soap_wash", "soapy": "soap_wash"}


def _washed_in(row: list[Mark], i: int) -> Mark:
    """ "9 had 4 / 300 | alcohol", "that's | soap": what it was washed in, where the sample is named beside it."""
    m = row[i]
    before, after = row[i - 1] if i else None, row[i + 1] if i + 1 < len(row) else None
    opens = (
        after is not None and after.label == "sample" and not any(x.label == "method" for x in row[max(0, i - 8) : i])
    )
    if before is not None and (before.label == "sample" or before.w == "that's" or opens):
        row[i] = Mark("method", m.s, m.e, m.w, {"method": _WASHES_IN[m.w]}, "what it was washed in")
    return row[i]


def _dash_no_minus(r: Row, i: int) -> list[Mark] | None:
    """ "caged q - released": a dash with blanks is no minus, as in "q-"."""
    m = r.row[i]
    if not m.w.endswith((" -", "+")) or m.e - m.s != len(m.w):
        return None
    return [Mark("w", m.s, m.e, m.w)]


def _empty_box(r: Row, i: int) -> list[Mark] | None:
    """ "s five's box is | empty": the box, and no stores."""
    m, before, earlier = r.row[i], r.at(i - 1), r.at(i - 2)
    if before is None or m.v.get("set", {}).get("stores") != "empty":
        return None
    is_box = earlier is not None and before.w in ("is", "was") and earlier.w in _BOXES
    return [Mark("ignore", m.s, m.e, m.w, {}, "an empty box")] if before.w in _BOXES or is_box else None


def _has_cells(r: Row, i: int) -> list[Mark] | None:
    """ "ten's got | cells": they were seen there, and none was given."""
    m, got, has = r.row[i], r.at(i - 1), r.at(i - 2)
    said = got is not None and has is not None and got.w == "got" and has.w in _HAS
    if not said or "cell" not in m.w or m.w.startswith(("a ", "one ")) or not m.w.endswith("s"):
        return None
    if "n" in m.v:
        return [
            Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "number": "queen_cells", "n": m.v["n"]}, "has cells")
        ]
    return [Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "set": {"cells_seen": True}}, "has cells")]


def _all_so_many_bees(r: Row, i: int) -> list[Mark] | None:
    """ "wash H1 2 H2 0 H3 5, | all 300": the sample of each."""
    m = r.row[i]
    if m.v.get("n") is None or not r.checking or m.v["n"].value not in SAMPLES:
        return None
    bees = {"bees": int(m.v["n"].value)}
    return [Mark("sample", m.s, m.e, m.w, bees, "sample size"), Mark("each", m.e, m.e, "each", {}, "each")]


def _those_so_many_each(r: Row, i: int) -> list[Mark] | None:
    """ "beetles in five, seven and eleven, I put traps on | those | two each": three hives, and two for each."""
    m, q = r.row[i], r.at(i + 1)
    words = m.w.split()
    if m.v.get("n") is None or q is None or q.label != "each" or len(words) != 2 or words[0] not in ("those", "these"):
        return None
    if len(r.last_ids) < 2 or len(r.last_ids) == m.v["n"].value or m.e - m.s < len(m.w) - 1:
        return None
    cut = m.s + len(words[0])
    return [
        Mark("pronoun", m.s, cut, words[0], {}, m.rule),
        Mark("number", cut + 1, m.e, words[1], {"n": m.v["n"]}, "number"),
    ]


_NTH = {"the third": 3, "the fourth": 4, "the fifth": 5, "the sixth": 6, "the seventh": 7, "the eighth": 8}


def _one_of_them(r: Row, i: int) -> list[Mark] | None:
    """ "the first had two … | the third | had one": one of those counted, and no day."""
    m, q = r.row[i], r.at(i + 1)
    counted = m.w in _NTH and r.checking and q is not None and q.w in ("had", "was", "got", "gave", "came")
    if not counted or not any(x.label == "ordinal" for x in r.row[max(0, i - 10) : i]):
        return None
    return [Mark("ordinal", m.s, m.e, m.w, {"value": _NTH[m.w]}, "one after the other")]


_BOXES = frozenset("box boxes feeder jar can lid cage".split())
_HAS = frozenset(["'s", "has", "have", "'ve", "it's"])
_COINS = frozenset("dollars dollar bucks buck quid euros euro cash cents".split())


def _money(row: list[Mark], i: int) -> bool:
    """ "sold N3 for $200", "got 200 bucks for it": an amount of money, and no number of hives."""
    before, after = row[i - 1] if i else None, row[i + 1] if i + 1 < len(row) else None
    return (before is not None and before.w in ("$", "€", "£")) or (after is not None and after.w in _COINS)


def _cells_of_next(r: Row, i: int) -> list[Mark] | None:
    """ "7 dead out, | 9 swarm cells": no dead hive has cells; the number is a colony the roster has."""
    m = r.row[i]
    if m.v.get("number") != "queen_cells" or "n" not in m.v or i < 2 or r.row[i - 1].label != "comma":
        return None
    number: Number = m.v["n"]
    words = m.w.split()
    dead = r.row[i - 2].label == "change" and r.row[i - 2].v.get("step") == "died"
    then = r.at(i + 1)
    if not dead or not number.whole or str(int(number.value)) not in r.outfit.ids or m.e - m.s != len(m.w):
        return None
    if then is not None and then.label not in ("stop", "line", "comma", "filler"):
        return None
    cut = m.s + len(words[0])
    seen = {"cells_seen": True, **m.v.get("set", {})}
    cells = Mark("fact", cut + 1, m.e, " ".join(words[1:]), {"kind": "inspection", "set": seen}, m.rule)
    return [Mark("number", m.s, cut, words[0], {"n": number}, "number"), cells]


def _round_to_come(r: Row, i: int) -> Mark:
    """ "next one Sunday", "the third one is due Friday": a round yet to be given, where its day is said; else talk."""
    m, k = r.row[i], i + 1
    if m.label != "ordinal" and i and r.row[i - 1].v.get("cue") == "if":
        return Mark("pronoun", m.s, m.e, m.w, {}, "the next one")  # "if the next one's no better"
    treated = any(x.label in ("agent", "form", "round") for x in r.row[max(0, i - 12) : i])
    if m.label == "ordinal":
        one = r.at(k)
        many = r.at(k + 1)
        if treated and one is not None and one.w == "of" and many is not None and many.label == "number":
            if m.v["value"] <= many.v["n"].value <= 6:  # "vapour, first of three"
                text = f"{m.w} of {many.w}"
                r.row[i : i + 3] = [
                    Mark("round", m.s, many.e, text, {"n": Number(m.v["value"], 0)}, "round of so many")
                ]
                return r.row[i]
        if one is None or one.w != "one":
            return m
        k += 1
    while (q := r.at(k)) and (q.v.get("cue") == "plan" or q.w in _DUE):
        k += 1
    if q is None or q.label != "date" or not treated:
        return m if m.label == "ordinal" else Mark("filler", m.s, m.e, m.w, {}, "filler")
    if m.label == "ordinal":
        one = r.row[i + 1]
        r.row[i : i + 2] = [Mark("again", m.s, one.e, f"{m.w} {one.w}", {"round": m.v["value"]}, "next round")]
    return r.row[i]


_READ_OTHERWISE: dict[str, tuple[Callable[[Row, int], list[Mark] | None], ...]] = {
    "fact": (_dash_no_minus, _empty_box, _cells_of_next),
    "queen_noun": (_has_cells,),
    "date": (_one_of_them,),
    "pronoun": (_all_so_many_bees, _those_so_many_each),
}
"""By the label of a mark: what may find in its neighbours that it is something else, and gives what it is."""

_AFTER_SAME = frozenset(["line", "stop", "comma", "colony", "hive", "filler", "number", "again"])
_DUE = frozenset("is are on due in will be comes goes".split())


def _slashed(row: list[Mark]) -> None:
    """ "L1-L4: 14/22/9/61": three numbers or more with slashes between are a list."""
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
        if end - k >= 4:
            for m in row[k + 1 : end : 2]:
                m.label, m.w = "comma", ","
        k = end + 1


def _times(row: list[Mark]) -> None:
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


def _dashed_counts(row: list[Mark]) -> None:
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


_SIGNS = frozenset([":", "=", "-", "–"])


def _as_many_after(row: list[Mark], outfit: Outfit) -> None:
    """ "wash 71 74 77: 1% 2% 4%", "3 7 11 - 2 6 0": figures with as many counts behind a sign are all colonies."""
    for k in reversed([k for k, m in enumerate(row) if m.w in _SIGNS and k > 1]):
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
        if (end < len(row) and row[end].w in _SIGNS) or (
            first and row[first - 1].w in _SIGNS and first > 1 and row[first - 2].label == "number"
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


_ONCE = frozenset("after once when until till before".split())
_AS_SOON_AS = frozenset(["as soon as", "the minute", "the moment", "the second", "the day", "soon as"])
_THEY_ARE = frozenset("they're theyre it's its those're that's".split())
_TO_COME_OFF = frozenset("comes come is are 's 're gets get go goes".split())
_ITS_THING = frozenset(["item", "form", "agent", "honey", "pronoun", "harvest", "feed"])


def _once_it_is_off(row: list[Mark]) -> None:
    """ "treat heath | once the supers are off", "… after they come out", "… as soon as they're off": the time of
    something else, no work itself.

    With a day of its own it is work to be done then, and stays.
    """
    for k in range(len(row) - 2, 0, -1):
        opens = _opens_once(row, k)
        if not opens:
            continue
        j = k + opens
        while j < len(row) and row[j].w in ("the", "those", "all", "my", "our", "that", "they", "it"):
            j += 1
        named = j < len(row) and row[j].label in _ITS_THING
        j += named
        if j >= len(row):
            continue
        are = not named and row[j].w in _THEY_ARE
        if not (named or are or row[j - 1].w in ("they", "it")):
            continue
        words = row[j].w.split()
        if named and row[j - 1].w.endswith("'s") and row[j].w in ("off", "out"):
            end = j  # "the minute the honey's off"
        elif are and row[j + 1 : j + 2] and row[j + 1].w in ("off", "out"):
            end = j + 1
        elif row[j].label == "verb" and words[0] in _TO_COME_OFF and words[-1] in ("off", "out"):
            end = j
        elif row[j].w in ("do", "does") and named:
            end = j  # "excluders go back on when the supers do"
        elif words[0] in _TO_COME_OFF and j + 1 < len(row) and row[j + 1].w in ("off", "out"):
            end = j + 1
        else:
            continue
        if end + 1 < len(row) and row[end + 1].label == "date":
            continue
        clause = row[k : end + 1]
        row[k : end + 1] = [
            Mark("ignore", clause[0].s, clause[-1].e, " ".join(m.w for m in clause), {}, "once it is off")
        ]


def _opens_once(row: list[Mark], k: int) -> int:
    """How many marks from `k` on say "once", "as soon as", "the minute"; 0 where they say something else."""
    if row[k].label != "w":
        return 0
    if row[k].w in _ONCE:
        return 1
    if row[k].w not in ("as", "soon", "the"):
        return 0
    return next((n for n in (3, 2) if " ".join(m.w for m in row[k : k + n]) in _AS_SOON_AS), 0)


def _rows_on_a_line(row: list[Mark]) -> None:
    """ "H1 queenright / H2 queenless / H3 dead": a slash with blanks on both sides parts the colonies of a line."""
    for k in range(1, len(row) - 1):
        m, before, after = row[k], row[k - 1], row[k + 1]
        if m.w == "/" and before.e < m.s and m.e < after.s and after.label in ("colony", "hive"):
            row[k] = Mark("stop", m.s, m.e, ";")


def _so_many_more(row: list[Mark]) -> None:
    """ "escapes under 6 more": a number of hives, which are not named."""
    for k in range(len(row) - 2, 0, -1):
        more, z = row[k + 1], row[k + 2] if k + 2 < len(row) else None
        ends = z is None or z.label in ("stop", "line", "comma", "yard", "filler") or z.w in ("at", "and")
        if more.w == "more" and row[k].label == "number" and row[k - 1].w in _UPON and ends:
            row[k : k + 2] = [
                Mark("hives", row[k].s, more.e, f"{row[k].w} more", {**row[k].v, "counts": True}, "hives")
            ]


_MOST_GONE = 20
_AFTER_GONE = frozenset(["stop", "line", "comma", "yard", "number", "colony", "hive", "filler", "date"])
_ARE_DOWN = frozenset("i'm we're they're are am is i we it's".split())


def _so_many_gone(row: list[Mark], outfit: Outfit) -> None:
    """ "five gone that's one six …", "we're down four at larks": so many hives are lost."""
    for k in range(len(row) - 1, 0, -1):
        m, before = row[k - 1 if row[k].w == "gone" else k], row[k - 1]
        after = row[k + 1] if k + 1 < len(row) else None
        if m.label != "number" or not m.v["n"].whole or not 0 < m.v["n"].value <= _MOST_GONE:
            continue
        if row[k].w == "gone":
            yard = next((x.v["value"] for x in reversed(row[max(0, k - 5) : k]) if x.label == "yard"), None)
            stands = str(int(m.v["n"].value)) in outfit.yard_ids.get(yard or "", ())
            plain = after is None or after.label in _AFTER_GONE or after.w in ("that's", "and")
            plain = plain or (after is not None and after.w in ("at", "over") and row[k + 2 : k + 3] != [])
            opens = k < 2 or row[k - 2].label != "hive"
            if plain and opens and (not stands or (after is not None and after.w == "that's")):
                row[k - 1 : k + 1] = [Mark("change", m.s, row[k].e, f"{m.w} gone", {"step": "died", **m.v}, "lost")]
        elif before.w == "down" and (k < 2 or row[k - 2].w in _ARE_DOWN or row[k - 2].label in ("line", "stop")):
            if after is not None and (after.w in ("at", "in", "over") or after.label == "yard"):
                row[k - 1 : k + 1] = [Mark("change", before.s, m.e, f"down {m.w}", {"step": "died", **m.v}, "lost")]


def _so_many_of(row: list[Mark]) -> None:
    """ "3 of 12 dead": so many hives, and how many there were."""
    for k in range(len(row) - 4, -1, -1):
        near = row[k : k + 4]
        if len(near) < 4 or near[1].w not in ("of", "/"):
            continue  # the row is shorter where one was found after it
        few, of, all_, dead = near
        if few.label == all_.label == "number" and dead.v.get("step") == "died":
            if "n" not in dead.v and few.v["n"].value < all_.v["n"].value:
                text = f"{few.w} {of.w} {all_.w}"
                row[k : k + 3] = [Mark("hives", few.s, all_.e, text, {**few.v, "counts": True}, "hives")]


def _round_by_sign(row: list[Mark]) -> None:
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


_DONE_AT = frozenset("done at on in @ for went today".split())
_MOST_ROUNDS = 4


def _dealt_in_signs(row: list[Mark], outfit: Outfit) -> None:
    """ "supers on 41 (1), 42 (2)", "strips 41=2 42=4": colonies, each with how many things it was given."""
    k = 0
    while k < len(row):
        pairs: list[tuple[int, Mark, Mark]] = []  # the index after it, the colony, its number
        j = k
        while (pair := _in_signs(row, j, outfit)) is not None:
            pairs.append((j, row[j], row[j + 2]))
            j = pair
            while j < len(row) and (row[j].label == "comma" or row[j].w == "and"):
                j += 1
        if len(pairs) > 1 and _things_before(row, k):
            made: list[Mark] = []
            for n, (_, colony, number) in enumerate(pairs):
                cid = colony.v["value"] if colony.label == "colony" else id_of(colony)
                made += [Mark("comma", colony.s, colony.s, ",")] if n else []
                bare = colony.label == "number"
                made += [Mark("cols", colony.s, colony.e, colony.w, {"ids": [cid], "bare": bare}, "colonies"), number]
            row[k:j] = made
            k += len(made)
        k += 1


def _in_signs(row: list[Mark], k: int, outfit: Outfit) -> int | None:
    """The index after "41 (1)" or "41 = 1" at `k`; None where no colony and number stand so."""
    if k + 2 >= len(row) or row[k].label not in ("number", "colony") or row[k + 2].label != "number":
        return None
    named = row[k].label == "colony" or (whole(row[k]) and outfit.could_be(id_of(row[k])))
    few = row[k + 2].v["n"].value <= _MOST_GIVEN
    if not named or not few or row[k + 1].w not in ("(", "="):
        return None
    if row[k + 1].w == "=":
        return k + 3
    return k + 4 if k + 3 < len(row) and row[k + 3].w == ")" else None


_MOST_GIVEN = 12
"""More things than this are given to no colony."""


def _things_before(row: list[Mark], k: int) -> bool:
    """Whether a thing of the trade stands right before the mark at `k`, "on", "in", a colon and the like between."""
    k -= 1
    while k >= 0 and (row[k].w in _BEFORE_DEALT or row[k].label in ("filler", "yard", "comma")):
        k -= 1
    return k >= 0 and row[k].label in ("item", "form")


_BEFORE_DEALT = frozenset("on in to at : - – off out from of added for".split())


def _so_many_there(row: list[Mark]) -> None:
    """ "strips on 2 Quarry hives": so many hives at the yard named between."""
    for k in range(len(row) - 2):
        number, yard, hives = row[k : k + 3]
        typed = number.label == "number" and number.v["n"].digits
        if typed and yard.label == "yard" and hives.label == "hives" and hives.w in _SO_MANY:
            text = f"{number.w} {yard.w} {hives.w}"
            row[k] = Mark("hives", number.s, number.e, text, {**number.v, "counts": True}, "hives")
            hives.label, hives.v = "filler", {}


_SO_MANY = frozenset(["hives", "colonies"])
_UPON = frozenset(["on", "in", "under", "into", "off"])


def _in_percent(row: list[Mark]) -> None:
    """ "alcohol washes, in percent: 21 was one point five": every count after it is a percentage."""
    said = [k for k, m in enumerate(row) if m.w == "percent"]
    k = next((k for k in said if k and row[k - 1].w in ("in", "as")), len(row))
    for m in row[k:]:
        if m.label == "value":
            m.label, m.rule = "percent", "counts in percent"


def _letters_again(row: list[Mark]) -> None:
    """ "L4, L9 and L16 … | sixteen's weak": with no yard named, a number alone is the colony named with its letter."""
    lettered: dict[str, str] = {}
    groups = [m for m in row if m.label in ("cols", "yard")]
    if any(m.label == "yard" for m in groups):
        return
    for m in groups:
        if m.v.get("bare") and all(cid in lettered for cid in m.v["ids"]):  # not 4 of one to ten, for N4
            m.v["ids"] = [lettered[cid] for cid in m.v["ids"]]
        for cid in m.v["ids"]:
            number = cid.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
            if number != cid:
                lettered[number] = cid


def _tens_and_mites(r: Row, i: int, last: str) -> list[Mark] | None:
    """ "alcohol wash … forty three mites forty one none": colony 40 and three mites, where no colony was named yet and
    the roster and the colonies that follow have it so.
    """
    m = r.row[i]
    words = m.w.split()
    if last or not r.outfit.known or len(words) != 3 or m.e - m.s != len(m.w) or not sentence_has(r, i, "method"):
        return None
    tens = grammar().tables["tens"].get(words[0])
    unit = grammar().tables["units"].get(words[1])
    after = r.at(i + 1)
    if tens is None or unit is None or after is None or after.label != "number" or not whole(after):
        return None
    near = tens < after.v["n"].value < tens + 10 and not after.v["n"].digits
    if not near or str(tens) not in r.outfit.ids or not r.outfit.of_one_yard((str(tens), id_of(after))):
        return None
    end = m.s + len(words[0])
    colony = Mark("cols", m.s, end, words[0], {"ids": [str(tens)], "bare": True, "hive": False}, "colonies")
    return [colony, Mark("mites", end + 1, m.e, " ".join(words[1:]), {**m.v, "n": Number(unit, 1)}, m.rule)]


def _tens_and_either(r: Row, i: int) -> list[Mark] | None:
    """ "l nineteen six l twenty two or three": L20 had two or three, where the colony before was L19."""
    m, joint, other = r.row[i], r.at(i + 1), r.at(i + 2)
    if joint is None or other is None or joint.w != "or" or other.label != "number" or len(r.last_ids) != 1:
        return None
    letter, digits = id_parts(m.v["value"])
    words = m.w.split()
    unit = grammar().tables["units"].get(words[-1])
    if unit is None or len(words) < 2 or int(digits or 0) < 20 or other.v["n"].value != unit + 1:
        return None
    tens = f"{letter}{int(digits) - unit}"
    if tens not in r.outfit.ids or r.last_ids[0] != f"{letter}{int(digits) - unit - 1}":
        return None
    end = m.e - len(words[-1])
    return [
        Mark("cols", m.s, end - 1, " ".join(words[:-1]), {"ids": [tens], "bare": False, "hive": False}, "colonies"),
        Mark("value", end, m.e, words[-1], {"n": Number(unit, 1)}, "count"),
    ]


def _none_of(row: list[Mark], i: int) -> Mark:
    """ "none of them", "none of those three": the colonies spoken of, of which the contrary is so."""
    m = row[i]
    if m.label == "hives" and m.v.get("counts"):
        row[i] = Mark("pronoun", m.s, m.e, m.w, {}, "them")
    elif m.w == "none" and i + 2 < len(row) and row[i + 1].w == "of" and row[i + 2].label == "pronoun":
        those = row[i + 2]
        row[i : i + 3] = [Mark("pronoun", m.s, those.e, f"none of {those.w}", dict(those.v), those.rule)]
    return row[i]


def _lost_these(r: Row, i: int) -> Mark | None:
    """ "lost forty forty one and fifty": colonies, not a number of them. The number is put back into the row."""
    m, q = r.row[i], r.at(i + 1)
    words = m.w.split()
    number: Number = m.v["n"]
    listed = m.v.get("step") == "died" and words[0] == "lost" and words[-1] not in _HIVES_LOST
    if words[-1] == "one" and q is not None and q.label == "number":
        return None  # "lost one, seventy nine"
    joined = (
        q is not None
        and q.w == "and"
        and (z := r.at(i + 2)) is not None
        and z.label == "number"
        and _alike(r, number, z, r.at(i + 3))
    )
    listed = listed and (
        joined or (q is not None and q.label in ("number", "colony")) or _more_than_stand_there(r, i, number)
    )
    if not listed or len(words) < 2 or not number.whole or not r.outfit.could_be(str(int(number.value))):
        return None
    start = m.s + len(words[0]) + 1
    if m.e - start != len(" ".join(words[1:])):
        return None  # said in other words than it was heard
    r.row[i] = Mark("number", start, m.e, " ".join(words[1:]), {"n": number}, "number")
    return Mark("change", m.s, m.s + len(words[0]), words[0], {"step": "died"}, m.rule)


def _alike(r: Row, number: Number, other: Mark, after: Mark | None) -> bool:
    """ "lost eleven and sixteen": both can only be colonies of one yard, no number of hives at a place follows."""
    named = str(int(number.value)) if number.whole else ""
    if (
        named in r.outfit.ids
        and whole(other)
        and after is not None
        and (after.w in ("at", "in") or after.label == "yard")
    ):
        k = r.row.index(after)
        yard = next((m.v["value"] for m in r.row[k : k + 3] if m.label == "yard"), None)
        if yard is not None and {named, id_of(other)} <= r.outfit.yard_ids.get(yard, frozenset()):
            return True  # "lost four and nine at the quarry"
    placed = after is not None and (after.w in ("at", "in", "from") or after.label in ("hives", "noun", "yard"))
    known = named in r.outfit.ids and whole(other)
    return known and r.outfit.of_one_yard((named, id_of(other))) and not placed


_HIVES_LOST = frozenset(["hives", "colonies", "more", "winter"])


def _more_than_stand_there(r: Row, i: int, number: Number) -> bool:
    """ "lost seventy four over at Heath", where 74 stands among ten: the yard has the colony, and not so many.

    Without a yard it is more than stand in any yard; "lost 74 this winter" may then be said of them all.
    """
    said = str(int(number.value))
    near = [m for m in r.row[max(0, i - 3) : i + 9] if m.label not in ("stop", "line")]
    yard = next((m.v["value"] for m in near if m.label == "yard" and "value" in m.v), None)
    if yard is not None:
        there = r.outfit.ids_at(yard)
        return number.value > len(there) and said in there
    joined, other = r.at(i + 1), r.at(i + 2)
    listed = joined is not None and other is not None and joined.w in ("and", ",") and other.label == "number"
    most = max((len(ids) for ids in r.outfit.in_order.values()), default=0)
    season = any(m.label == "date" or "winter" in m.w for m in near)
    return number.value > most > 0 and said in r.outfit.ids and (listed or not season)


def _last_of_list(r: Row, k: int) -> None:
    """ "84 and 91 dead outs": the number of the change at `k` is the last of a list of colonies, and is put back."""
    m, number = r.row[k], r.row[k].v["n"]
    words = m.w.split()
    before = r.at(k - 2)
    if r.row[k - 1].w != "and" or before is None or before.label != "number" or len(words) < 2 or not number.whole:
        return
    last = str(int(number.value))
    if last not in r.outfit.ids or not r.outfit.of_one_yard((last, id_of(before))) or m.e - m.s != len(m.w):
        return
    a = k - 2
    while a > 0 and r.row[a - 1].label in ("number", "comma"):
        a -= 1
    opens = r.at(a - 1)
    if opens is None or opens.label in ("stop", "line", "yard", "filler", "date") or opens.w == ":":
        end = m.s + len(words[0])
        rest = {x: y for x, y in m.v.items() if x != "n"} | {"of_list": True}
        r.row[k : k + 1] = [
            Mark("number", m.s, end, words[0], {"n": number}, "number"),
            Mark("change", end + 1, m.e, " ".join(words[1:]), rest, m.rule),
        ]


def _one_and_other(r: Row, i: int) -> _Found | None:
    """ "17 and 18 have swarm cells, six in the one and nine in the other": which colonies those are."""
    ids = r.last_ids
    if len(ids) != 2 or r.row[i].label != "number":
        return None
    words = [m.w for m in r.row[i + 1 : i + 9]]
    for the in (["the"], []):
        first = ["in", *the, "one", "and"]
        k = len(first) + 1
        if words[: len(first)] == first and words[k : k + 3] == ["in", "the", "other"] and len(r.row) > i + k:
            one, other, count = r.row[i + k - 2], r.row[i + k + 3], r.row[i + k]
            if count.label != "number":
                return None
            counted = _as_counted(r, i)
            marks = [Mark(counted[0], m.s, m.e, m.w, {**counted[1], "n": m.v["n"]}, m.rule) for m in (r.row[i], count)]
            cols = [
                Mark("cols", m.s, m.e, m.w, {"ids": [x]}, "one and the other")
                for m, x in zip((one, other), ids, strict=True)
            ]
            found = [marks[0], r.row[i + 1], cols[0], r.row[i + k - 1], marks[1], r.row[i + k + 1], cols[1]]
            return _Found(found, i + k + 4, "cols", 0)
    return None


def _as_counted(r: Row, i: int) -> tuple[str, dict[str, Any]]:
    """What the counts from `i` on are of: of the cells named last, of mites, or of what is said before."""
    near = reversed(r.row[max(0, i - 6) : i])
    cells = next((m for m in near if m.label == "fact" and m.v.get("set", {}).get("cells_seen")), None)
    if cells is None:
        return "value" if r.checking else "number", {}
    kind = {"cell_type": cells.v["set"]["cell_type"]} if "cell_type" in cells.v["set"] else {}
    return "fact", {"kind": "inspection", "number": "queen_cells", "set": kind}


def _by_neighbours(r: Row, i: int, out: list[Mark], last: str) -> Mark:
    """The mark at `i`, or another where a colony before or after it makes a small word mean something."""
    m = r.row[i]
    if (
        m.label == "hives"
        and last == "cols"
        and r.checking
        and m.w.endswith(("of them", "of em"))
        and out[-1].w in _HAD
    ):
        return Mark("mites", m.s, m.e, m.w, {"n": m.v["n"]}, "count")  # "44 had 6 of em"
    if m.label == "hives" and last == "cols" and not r.checking and m.w.endswith(("of them", "of em")):
        q = r.at(i + 1)
        ends = q is None or q.label in ("stop", "line", "comma", "filler", "hive", "colony") or q.w == "and"
        if ends and out[-1].label == "cols" and sentence_has(r, i, *THINGS):
            return Mark("number", m.s, m.e, m.w, {"n": m.v["n"]}, "number")  # "supers off, hive three two of them"
    if m.label == "cue" and m.w == "not" and i:
        return _not_those(r, i, out)
    if m.w in ("to", "to do"):
        return _too_much_to(r, i)
    if m.label != "w":
        return m
    if m.w == "up" and out and out[-1].w in ("made", "make", "making"):
        q = r.at(i + 1)
        if q and q.label in ("number", "colony", "hive"):
            made = out.pop()  # "and made up N2 with it"
            return Mark("change", made.s, m.e, f"{made.w} up", {"step": "nuc_made"}, "nuc made")
    if m.w in _QUEEN_VERBS and i and r.row[i - 1].v.get("cue") in ("plan", "not") and r.row[i - 1].w != "no":
        q = r.at(i + 1)
        if q is None or q.label in ("date", "stop", "line", "comma", "filler") or q.w in ("next", "and", "later"):
            return Mark("queen_work", m.s, m.e, m.w, {"step": _QUEEN_VERBS[m.w]}, "queen work by its verb alone")
    if m.w == "laying":
        return _lays(r, i, out)
    if m.w in ("made", "making") and (q := r.at(i + 1)) and q.label == "colony":
        z = r.at(i + 2)
        if z is not None and z.w in ("out", "from", "off", "with"):
            return Mark("change", m.s, m.e, m.w, {"step": "nuc_made"}, "nuc made")  # "made N2 out of 12"
    if m.w == "but" and any(x.label == "every" or x.w == "all" for x in r.row[max(0, i - 5) : i]):
        told = _those_told_of(r, i)
        if told:
            r.row[i + 1 : told] = []  # "everybody got a gallon but the heavy ones l two and l eight"
        q = r.at(r.on(i))
        owns = (
            (then := r.at(r.on(r.on(i)))) is not None and then.w == "'s" and out and out[-1].label in ("item", "form")
        )
        if q and q.w == "the":
            q = r.at(r.on(r.on(i)))
        nucs = q is not None and q.w.split()[-1] in ("nucs", "nukes")
        if q and (nucs or q.label in ("number", "colony", "hive")) and not owns:
            return Mark("cue", m.s, m.e, "but", {"cue": "except"}, "all but")
    if m.w in ("whole", "entire") and (q := r.at(i + 1)) and q.label == "yard":
        return Mark("every", m.s, m.e, m.w, {}, "every colony")  # "the whole quarry"
    if (
        m.w == "same"
        and (last == "cols" or (out and out[-1].label == "cols"))
        and not (i > 1 and r.row[i - 2].w in ("of", "in", "on", "into") and r.row[i - 1].w == "the")
    ):
        q = r.at(i + 1)
        if q is None or q.label in _AFTER_SAME or q.w in ("and", "so", "then"):
            return Mark("same", m.s, m.e, "same", {}, "same again")  # "L2: same"
    if m.w == "as" and last == "cols" and out[-1].w in ("-", "–", ":", ","):
        q = r.at(r.on(i))
        if q and q.label in ("hive", "colony", "number"):
            return Mark("same", m.s, m.e, "same as", {}, "same again")  # "No. 10 - as No. 9"
    return m


_WORK = frozenset("verb change item method check form agent feed queen_work harvest".split())


def _too_much_to(r: Row, i: int) -> Mark:
    """ "9 was too weak to split", "too windy to open 12": what was not done; else the "to" as it is."""
    m, q = r.row[i], r.at(i + 1)
    working = m.label == "cue" or (q is not None and q.label in _WORK and q.v.get("tense") != "past")
    if (
        q is not None
        and q.v.get("does") == "inspect"
        and ((z := r.at(i + 2)) is None or z.label not in _CAN_BE_COLONIES)
    ):
        return m  # "too cold to open": a reason
    if i and working:
        before = [x.w for x in r.row[max(0, i - 3) : i]]
        if before[-1].startswith("too ") or (r.row[i - 1].label != "stop" and "too" in before[-3:-1]):
            return Mark("cue", m.s, m.e, m.w, {"cue": "not"}, "too much to")
    return m


_BEFORE_LAYING = frozenset("is are was were now still already both all 's".split())
_AFTER_LAYING = frozenset("and now well good fine nicely nice again but so i we too great already okay strong".split())
_AFTER_LAYING_MARKS = frozenset("stop line comma filler colony number hive hives fact person queen_work verb".split())


def _lays(r: Row, i: int, out: list[Mark]) -> Mark:
    """ "n one laying, n two is laying": the queen lays; but "two strips in nine laying on the floor"."""
    m, q = r.row[i], r.at(i + 1)
    k = len(out) - 1
    while k >= 0 and out[k].w in _BEFORE_LAYING:
        k -= 1
    subject = k >= 0 and out[k].label == "cols" and not (k and out[k - 1].w in ("in", "on", "of", "from", "at"))
    ends = q is None or q.label in _AFTER_LAYING_MARKS or q.w in _AFTER_LAYING
    if not (subject and ends):
        return m
    return Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "set": {"queen": "right"}}, "queenright")


def _those_told_of(r: Row, i: int) -> int:
    """The index after "the heavy ones" that stands between "but" at `i` and the colonies meant; 0 where none does."""
    k = i + 1
    the, fact, ones, named = r.at(k), r.at(k + 1), r.at(k + 2), r.at(k + 3)
    if the is None or fact is None or ones is None or named is None or the.w != "the" or fact.label != "fact":
        return 0
    return k + 3 if ones.label == "thing" and named.label in ("colony", "number", "hive") else 0


def _not_those(r: Row, i: int, out: list[Mark]) -> Mark:
    """ "pads came out of the whole yard, well, not three and not nine": "not" with colonies sets them apart."""
    m, p, q = r.row[i], r.row[i - 1], r.at(r.on(i))
    if q is None or q.label not in ("number", "colony", "hive"):
        return m
    listed = out[-1] if out and out[-1].label == "cols" else None
    if listed is not None and len(listed.v["ids"]) > 2 and q.label == "number":
        letter, _ = id_parts(listed.v["ids"][0])
        if f"{letter}{id_of(q)}" in listed.v["ids"][:-1] and not r.checking:
            return Mark("cue", m.s, m.e, m.w, {"cue": "except"}, "all but")  # "forty through forty five not forty four"
    near = r.row[max(0, i - 8) : i]
    whole_yard = any(x.label in ("every", "yard") for x in near) and not any(x.label == "cols" for x in out[-8:])
    if p.label in ("filler", "comma") and whole_yard and not r.checking:
        return Mark("cue", m.s, m.e, m.w, {"cue": "except"}, "all but")
    return m


def _several(r: Row, i: int, owed: int) -> _Found | None:
    """Colonies or counts that only several numbers together show to be such, or the next of the counts `owed`."""
    if parted := _one_and_other(r, i):
        return parted
    lists = _more_follow(r, i)
    if lists and (paired := paired_run(r, i)):
        cols, j = paired
        count = len(cols.v["ids"])
        return _Found([cols], j, "cols", count if in_that_order(r, j) == count else 0)
    m = r.row[i]
    if owed > 1 and m.label == "number" and not r.checking and sentence_has(r, i, "change"):
        return _now_called(r, i, owed)
    if owed and m.label == "number":
        return _Found([Mark("value", m.s, m.e, m.w, dict(m.v), "count in that order")], i + 1, "value", owed - 1)
    if not lists:
        return None
    if alike := run_of_all(r, i) or run_told_before(r, i) or as_many_as_said(r, i):
        return _Found([alike[0]], alike[1], "cols", 0)
    if ordered := listed_in_order(r, i) or listed_then_counted(r, i):
        return _Found([ordered[0]], ordered[1], "cols", len(ordered[0].v["ids"]))
    if bare := bare_run(r, i):
        return _Found([bare[0]], bare[1], "cols", owed)
    if typed := typed_list(r, i):
        return _Found([typed[0]], typed[1], "cols", owed)
    if alike := with_so_many_each(r, i):
        return _Found([alike[0]], alike[1], "cols", 0)
    if counts := samples_of_one(r, i) or two_halves(r, i) or value_list(r, i):
        return _Found(counts[0], counts[1], "value", owed)
    return None


_IN_LISTS = frozenset("number colony comma filler clean".split())


def _more_follow(r: Row, i: int) -> bool:
    """Whether what stands right after the mark at `i` goes on with a list of numbers, as in all that are asked for."""
    after = r.at(i + 1)
    return after is not None and (after.label in _IN_LISTS or after.w in ("and", "-", "–", "/", "+"))


def _now_called(r: Row, i: int, owed: int) -> _Found | None:
    """ "moved S3, S5 and S8, they're 70, 72 and 77 now, in that order": the new ids, not counts."""
    run, j = numbers_from(r, i, most=owed)
    return _Found([colonies_of(run, bare=True)], j, "cols", 0) if len(run) == owed else None


def _single(r: Row, i: int, last: str) -> tuple[Mark, int, str]:
    """The list of colonies, the count or the mark at `i`, the index after it, and what the last number now is."""
    start = _after_hive_words(r, i)
    m = r.row[start]
    if m.label == "colony" or (m.label == "number" and (start > i or is_colony(r, start, last))):
        cols, j = colonies_from(r, start, i)
        r.last_ids = cols.v["ids"]
        return cols, j, "cols"
    if m.label == "number":
        m = count_or_sample(r, i, last)
        return m, i + 1, "value" if m.label == "value" else last
    return m, i + 1, last


def _after_hive_words(r: Row, i: int) -> int:
    """The index of the colony that the hive words at `i` name; `i` where there are none, or none is named."""
    m = r.row[i]
    if m.label not in ("hive", "hives") or m.v.get("counts"):
        return i
    k = i + 1
    while k < len(r.row) and r.row[k].label == "hive":
        k += 1
    q, then = r.at(k), r.at(k + 1)
    if then is not None and then.label == "each" and then.w.split()[0] in ("a", "per"):
        return i  # "every hive | two a hive"
    return k if q and (q.label == "colony" or (q.label == "number" and whole(q))) else i
