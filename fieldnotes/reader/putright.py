"""Corrections inside a row of marks: what follows "no wait", "scratch that", "I mean" replaces what it corrects.

Only the corrected fact is left; the struck words stay tied to it by their spans.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.table import CELL_TYPES
from fieldnotes.roster import id_parts

_COUNTS = frozenset("number value mites percent unit amount sample days temp moisture hives clean".split())
_SKIP = frozenset(
    (
        "the a an at i'm im we're it it's its was is that's thats that in on , i am to from they're theyre they "
        "these those were had has got them he she you we did put make say said into of for actually now : hive "
        "colony number there with just only"
    ).split()
)
_BEFORE_OPENING = frozenset("w filler comma stop line".split())
_FAR = 30


_PASSED = frozenset("just only it was that that's it's make actually the wasn't isn't".split())
_COUNTED_THINGS = THINGS | {"noun", "queen_noun"}
_NOT_OF_WORK = listed("not_of_work")
_NUMBERED = frozenset("number mites hives amount unit days item noun queen_noun".split())


def bare_noes(row: list[Mark]) -> bool:
    """ "had seven no eight", "on l nine no l ten": a "no" from one spoken number to another puts the first right.

    True where a colony "should say" something else than was said of it before.
    """
    anew = False
    for i, m in enumerate(row):
        if m.label == "cue" and m.w in _SHOULD:
            anew = _should_be(row, i) or anew
        if m.w != "no" or m.label != "cue":
            continue
        before = next((x for x in range(i - 1, max(-1, i - 4), -1) if row[x].label not in ("filler", "comma")), None)
        j = i + 1
        while j < len(row) and (
            row[j].label in ("filler", "comma")
            or row[j].w in _PASSED
            or (row[j].w in ("in", "on", "at") and before and row[before - 1].w == row[j].w)
        ):
            j += 1
        if before is not None and j < len(row) and (_puts_right(row, before, j) or _said_anew(row, i, j)):
            m.v = {"cue": "correct"}
    return anew


_SHOULD = frozenset(["should say", "should be", "should", "should have", "should've"])
_SAY = frozenset("read say be been said have".split())


def _should_be(row: list[Mark], i: int) -> bool:
    """ "13 should say 1", "S4 should have been 12": what a colony had, said anew."""
    before = row[i - 1] if i else None
    end = i + 1
    while end < len(row) and row[end].label == "w" and row[end].w in _SAY:
        end += 1
    after = row[end] if end < len(row) else None
    if before is None or before.label not in ("number", "colony") or after is None or after.label != "number":
        return False
    if i > 1 and not (row[i - 2].label in ("stop", "line", "filler", "comma", "hive") or row[i - 2].v.get("cue")):
        return False
    row[i].label, row[i].w, row[i].v, row[i].e = "w", "was", {}, row[end - 1].e
    del row[i + 1 : end]
    return True


_NEAR = 8
"""Marks back to the same thing with its other number."""


def _said_anew(row: list[Mark], no: int, j: int) -> bool:
    """ "moved eight hives to heath, no, ten hives", "a gallon on nine, no, two gallons": another number of it."""
    after = row[j]
    near = row[max(0, no - _NEAR) : no]
    if any(m.label in ("stop", "line", "question") for m in near):
        return False
    if after.label == "colony":  # "h two four, no, h two was fourteen"
        said = row[j + 1].w if j + 1 < len(row) else ""
        return said in ("had", "was", "is", "got", "has") and any(m.v.get("value") == after.v["value"] for m in near)
    if after.label == "number" and j + 1 < len(row) and row[j + 1].label in THINGS:
        # "took six supers of honey off the quarry, no, seven supers"
        return any(m.label == row[j + 1].label and before.label == "number" for before, m in pairwise(near))
    if after.label not in ("hives", "amount", "unit") or "n" not in after.v:
        return False
    return any(m.label == after.label and "n" in m.v and m.v.get("unit") == after.v.get("unit") for m in near)


def _puts_right(row: list[Mark], i: int, j: int) -> bool:
    """Whether the mark at `j`, said after "no", can stand in the place of the one at `i`."""
    before, after = row[i], row[j]
    if before.label == after.label == "colony":
        return True
    if before.label == "fact":
        return False
    if after.label == "number" and i and j + 1 < len(row) and _same_count(before, row[j + 1]):
        first = row[i - 1]
        return first.label == "number" and first.v["n"].digits == after.v["n"].digits  # "46 eleven, no, 47 eleven"
    if before.label == "yard" and after.label == "number":  # "two at the quarry, no, three at the quarry"
        again = [m for m in row[j + 1 : j + 4] if m.label == "yard"]
        return bool(again) and again[0].v == before.v and any(m.label == "number" for m in row[max(0, i - 3) : i])
    if after.label not in _NUMBERED or "n" not in after.v or after.v["n"].digits or after.v["n"].value <= 0:
        return False
    end = row[j + 1] if j + 1 < len(row) else None
    if after.w == "one" and end is not None and end.label == "w" and end.w not in ("and", "so", "then"):
        return False  # "no one else"
    return "n" in before.v or (before.label == "item" and i > 0 and row[i - 1].label == "number")  # "4 supers, no, 3"


def _same_count(one: Mark, other: Mark) -> bool:
    """Whether both are counts, and the same."""
    counts = ("number", "mites", "value")
    return one.label in counts and other.label in counts and "n" in one.v and one.v["n"].value == other.v["n"].value


def put_right(row: list[Mark]) -> tuple[list[Mark], bool]:
    """The row with corrections carried out, and whether it opens with one (of an earlier message)."""
    if not any([m.label == "cue" for m in row]):  # noqa: C419 (a list is faster than a generator here)
        return row, False
    opens = False
    done: list[Mark] = []
    rest = row[::-1]  # what is still to come, the next mark last
    while rest:
        if rest[-1].label != "cue":
            done.append(rest.pop())
            continue
        # A correction sees only what stands near it: of many, each takes no longer than one alone.
        first = max(0, len(done) - _FAR - 5)
        near = done[first:] + rest[: -2 * _FAR - 1 : -1]
        del rest[-2 * _FAR :]
        near, at, opening = _at_cue(near, len(done) - first, first == 0)
        opens = opens or opening
        done[first:] = near[:at]
        rest.extend(reversed(near[at:]))
    return done, opens


def _at_cue(row: list[Mark], i: int, from_start: bool) -> tuple[list[Mark], int, bool]:
    """What the cue at `i` does: the row after it, the index to go on at, and whether it corrects an earlier message.

    `from_start` says that the row begins where the message does.
    """
    m = row[i]
    if m.v.get("cue") == "not" and i + 1 < len(row) and (row[i + 1].w in _NOT_OF_WORK or _none_of_it(row, i)):
        m.label, m.v = "w", {}  # "cause i never liked that line": no work was left undone
        return row, i + 1, False
    if m.w == "no" and i and i + 1 < len(row) and row[i + 1].v.get("cue") == "except":
        m.label, m.v = "filler", {}  # "vaped all of cut bank, no, all but 63"
        return row, i + 1, False
    if m.w in ("still in", "still on") and any("queen" in x.w or x.w == "she's" for x in row[max(0, i - 2) : i]):
        m.label, m.v = "w", {}  # "the old queen's still in 62": where she is, and no work left undone
        return row, i + 1, False
    if m.w == "no" and m.v.get("cue") == "not" and (shorter := _range_to(row, i, i + 1)) is not None:
        return *shorter, False  # "n one through n six, no, only as far as n four"
    if m.w == "who" and (answer := _who_it_was(row, i)) is not None:
        return *answer, False
    if m.w in _NO_AT_ALL and _of_something_else(row, i):
        m.v = {"cue": "not"}
        m.w = "no"
        return row, i + 1, False
    if m.v.get("cue") == "correct" and (other := _other_doer(row, i)) is not None:
        return *other, False
    if m.v.get("cue") == "correct" and _not_that_one(row, i):
        m.w, m.e = f"{m.w} not", row[i + 1].e
        row = row[: i + 1] + row[i + 2 :]  # "in 72 and 74, no wait, not 74, I mean 76"
    if m.v.get("cue") == "correct":
        if from_start and all(x.label in _BEFORE_OPENING or x.w == "no" for x in row[:i]):
            for x in row[: i + 1]:
                x.label = "filler" if x.label == "cue" else x.label
            return row, i + 1, True
        trailing = _ends(row, i + 1) and from_start and any(x.label == "cols" for x in row[:i])
        return *_correct(row, i), trailing  # "S5 was 2, I mean"
    if (
        m.w == "no"
        and i + 1 < len(row)
        and row[i + 1].label in ("unit", "amount", "mites", "days")
        and any(x.label == row[i + 1].label for x in row[max(0, i - 3) : i])
    ):
        return *_correct(row, i), False
    if (
        m.w == "no"
        and i + 2 < len(row)
        and row[i + 1].label in ("number", "value")
        and row[i + 2].label == "cue"
        and row[i + 2].w.startswith("sorry")
    ):
        row[i + 2].label = "filler"
        return *_correct(row, i), False  # "twelve hives … no thirteen sorry"
    if (
        m.w == "no"
        and 0 < i < len(row) - 1
        and row[i - 1].label == "fact"
        and "n" in row[i - 1].v
        and row[i + 1].label == "hives"
        and row[i + 1].w.endswith("of them")
    ):
        row[i - 1].v["n"] = row[i + 1].v["n"]  # "a supersedure cell, no, two of them"
        _strike(row, i, i + 2, i - 1)
        return row, i, False
    if m.w == "no" and 0 < i < len(row) - 1 and row[i - 1].label == row[i + 1].label == "date":
        row[i - 1].v = _same_side(row[i - 1], row[i + 1])  # "on monday, no, sunday, it was sunday"
        again = row[i + 2 : i + 5]
        said = len(again) == 3 and again[1].w == "was" and again[2].label == "date" and again[2].w == row[i + 1].w
        _strike(row, i, i + (5 if said else 2), i - 1)
        return row, i, False
    if m.w == "no" and _thing_again(row, i):
        _strike_before(row, i)  # "five, no, six deadouts"
        return row, i, False
    if m.w == "no" and _number_again(row, i):
        # "lost five no six"
        row[i - 1].v["n"] = row[i + 1].v["n"]
        again = row[i + 2 : i + 5]
        said = len(again) == 3 and [x.w for x in again[:2]] == ["it", "was"] and "n" in again[2].v
        said = said and again[2].v["n"].value == row[i + 1].v["n"].value  # "had nine no eight it was eight"
        _strike(row, i, i + (5 if said else 2), i - 1)
        if i > 2 and row[i - 2].w == "or" and row[i - 3].label in ("value", "number", "mites"):
            row[i - 3].v["n"] = row[i - 1].v["n"]  # "five or six no six"
            _strike(row, i - 2, i, i - 3)
            return row, i - 2, False
        return row, i, False
    if m.w == "not" and i and row[i - 1].label in THINGS:
        j = i + 2 if i + 1 < len(row) and row[i + 1].w in ("a", "an", "the") else i + 1
        if j < len(row) and row[j].label == row[i - 1].label:
            _strike(row, i, j + 1, i - 1)
            return row, i, False  # "got a brood box, not a super"
    if (
        m.w == "not"
        and i + 1 < len(row)
        and row[i + 1].label in ("value", "number", "mites")
        and any(x.label in ("value", "mites", "number") for x in row[max(0, i - 4) : i])
    ):
        _strike(row, i, i + 2, i - 1)
        return row, i, False
    return row, i + 1, False


def _not_that_one(row: list[Mark], i: int) -> bool:
    """Whether "not" and a colony just named follow the cue at `i`, and then the one that was meant."""
    follows = row[i + 1 : i + 4]
    if len(follows) < 2 or follows[0].w != "not" or follows[1].label != "cols":
        return False
    meant = len(follows[1].v["ids"]) > 1 or (len(follows) > 2 and follows[2].v.get("cue") == "correct")
    named = next((m for m in reversed(row[max(0, i - _FAR) : i]) if m.label == "cols"), None)
    return meant and named is not None and named.v["ids"][-1] == follows[1].v["ids"][0]


_NO_AT_ALL = frozenset(["um no", "uh no", "er no"])


def _of_something_else(row: list[Mark], i: int) -> bool:
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


def _same_side(old: Mark, new: Mark) -> dict[str, Any]:
    """The day put right lies behind where the wrong one did, and ahead where that did ("yesterday, no, saturday")."""
    was, now = old.v["value"], new.v["value"]
    ahead = was.args[0] > 0 if was.ahead is None and was.form == "offset" and was.args[0] else was.ahead
    if ahead is None or now.ahead is not None:
        return dict(new.v)
    return {**new.v, "value": replace(now, ahead=ahead)}


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


def _strike(row: list[Mark], i: int, j: int, keeper: int) -> None:
    """Takes the marks i..j-1 out of the row; their spans go to the mark that stays at `keeper` (an index before i)."""
    keep = row[keeper]
    keep.v.setdefault("struck", []).extend((x.s, x.e) for x in row[i:j])
    del row[i:j]


def _family(m: Mark) -> str:
    if m.label in _COUNTS or (m.label == "fact" and "number" in m.v) or m.v.get("noun") == "frames":
        return "count"
    if m.label in ("agent", "form"):
        return "treatment"
    if m.label == "fact":
        return "fact:" + ",".join(sorted(m.v.get("set", {}))) + str(m.v.get("sign", "") and "sign")
    if m.label in ("verb", "change", "queen_work"):
        return "verb"
    return m.label


def _cut(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int]:
    """Strikes mark `x` and the cue; the correction itself stays where it is."""
    keep = row[right]
    if keep.label == row[x].label and keep.label in ("amount", "unit", "date") and _moves_little(row, x, cue, right):
        return _in_place(row, x, cue, right)
    end = x + 1
    if keep.label == row[x].label == "date":
        keep.v = _same_side(row[x], keep)
    if row[x].label in ("amount", "unit") and end + 1 < cue and row[end].w == "of" and row[end + 1].label == "pronoun":
        end += 2  # "got a quart of it, no, sorry, two quarts"
    keep.v.setdefault("struck", []).extend([(row[x].s, row[end - 1].e), (row[cue].s, row[cue].e)])
    new = row[:x] + row[end:cue] + row[cue + 1 :]
    return new, cue - (end - x)


def _moves_little(row: list[Mark], x: int, cue: int, right: int) -> bool:
    """Whether what is put right belongs where the wrong was: a full stop stands between, or its thing is said again."""
    if any(y.label in ("stop", "line") for y in row[x + 1 : cue]):
        return True
    return row[x].label != "date" and x + 2 < cue and row[x + 1].w == "of" and row[x + 2].label != "pronoun"


def _in_place(row: list[Mark], x: int, cue: int, right: int) -> tuple[list[Mark], int]:
    """Puts the correction in the place of `x`; the same thing said over after it goes ("a pound of fondant, no, two
    pounds of fondant").
    """
    m, keep = row[x], row[right]
    end = right + 1
    thing = row[x + 1 : x + 3]
    if [y.label for y in row[end : end + 2]] == [y.label for y in thing] and row[end].w == "of":
        end += 2
    m.v = {**(_same_side(m, keep) if m.label == "date" else keep.v), "struck": [*m.v.get("struck", [])]}
    m.v["struck"] += [(y.s, y.e) for y in row[cue:end]]
    first = cue
    while first > x + 1 and row[first - 1].label in ("stop", "comma", "filler"):
        first -= 1
    return row[:first] + row[end:], first


def _correct(row: list[Mark], cue: int) -> tuple[list[Mark], int]:
    right = cue + 1
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
    if cue > 0 and row[cue - 1].label == "percent" and row[right : right + 1] and row[right].label == "mites":
        return _cut(row, cue - 1, cue, right)  # "eight percent, no wait, eight mites"
    right = _past_reason(row, cue, right)
    if right >= len(row) or row[right].label in ("stop", "line", "question"):
        row[cue].label = "filler"
        return row, cue + 1
    while right + 1 < len(row) and row[right].w in ("out", "off", "under") and row[right + 1].w in ("of", "from"):
        right += 2  # "out of fifty, no, out of fifty two"
    if right >= len(row):
        row[cue].label = "filler"
        return row, cue + 1
    if row[cue].w.endswith("not") and row[right].label == "cols" and len(row[right].v["ids"]) > 1:
        named = next((m for m in reversed(row[max(0, cue - _FAR) : cue]) if m.label == "cols"), None)
        if named is not None and named.v["ids"][-1] == row[right].v["ids"][0]:
            row[right].v["ids"] = row[right].v["ids"][1:]  # "l four and l nine, no, not l nine, l ten"
    if row[cue].w.endswith("not") and right + 1 < len(row) and row[right + 1].label in ("cols", "number"):
        named = next((m for m in reversed(row[max(0, cue - _FAR) : cue]) if m.label == "cols"), None)
        wrong = _plain_number(row[right])
        if named is not None and wrong is not None and id_parts(named.v["ids"][-1])[1] == str(int(wrong.value)):
            named.v.setdefault("struck", []).append((row[right].s, row[right].e))
            right += 1  # "s one, s two and s nine, no not nine, s eight"
    counted = _otherwise_there(row, cue, right)
    if counted is None:
        counted = _count_named(row, cue, right)
    if counted is None:
        counted = _range_to(row, cue, right)
    if counted is None:
        counted = _given_anew(row, cue, right)
    if counted is not None:
        return counted
    if (elsewhere := _thing_elsewhere(row, cue, right)) is not None:
        return elsewhere
    r = row[right]
    if r.label == "yard":
        right = _yard_meant(row, cue, right)
        r = row[right]
    if r.label == "change" and r.v.get("step") == "died" and cue and row[cue - 1].label == "fact":
        return _cut(row, cue - 1, cue, right)  # "six is light, no wait, it's dead"
    if r.w in CELL_TYPES and (cells := _cells_before(row, cue)) is not None:
        cells.v["set"] = {**cells.v["set"], "cell_type": r.w}  # "2 swarm cells, no, make that supersedure"
        cells.v.setdefault("struck", []).append((row[cue].s, r.e))
        return row[:cue] + row[right + 1 :], cue
    family = _family(r)
    bare = r.label in ("number", "value")
    if bare and (count := _count_it_was(row, cue, right)) is not None:
        row[count].v["n"] = r.v["n"]
        row[count].v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, r.e)])
        return row[:cue] + row[right + 1 :], cue
    back = range(cue - 1, max(-1, cue - _FAR), -1)
    if r.label in ("number", "value") and _was_other_colony(row, cue, right):
        r.label, r.v = "cols", {"ids": [str(int(r.v["n"].value))], "bare": True}
    if r.label == "cols":
        return _correct_colonies(row, cue, right)
    for x in back:
        m = row[x]
        if r.label == "queen_noun" and m.label == "queen_work" and "n" in r.v and m.v.get("step") == "cells_placed":
            m.v["n"] = r.v["n"]  # "put a cell in it no wait two cells"
            _strike(row, cue, right + 1, x)
            return row, cue
        if m.label == "cols" and family.startswith("fact"):
            break  # a fact of another colony stays
        if family == "date" and m.label in _NEW_WORK:
            break  # "they come out in 14 days, recheck them a week after that, no, just say the 13th"
        made = bare and "n" in m.v and m.label in ("change", "queen_work", "queen_noun", "noun")
        if r.label == "days" and m.label == "date" and m.v["value"].form == "days":
            return _cut(row, x, cue, right)  # "boards in 12 days, no sorry, 3 days"
        if _family(m) != family and not made:
            if (
                family == "count"
                and m.label == "cols"
                and r.label in ("number", "value")
                and (
                    all(y.label in ("w", "yard", "cue", "filler") for y in row[x + 1 : cue])
                    or (_ends(row, right + 1) and _only_seen(row[x + 1 : cue]))
                )
            ):
                # "put strips in nine, no wait, ten": a bare number right after a colony puts the colony right
                ids = list(m.v["ids"])
                ids[-1] = str(int(r.v["n"].value))
                m.v["ids"] = _other_end(m, ids[-1]) or ids
                m.v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, r.e)])
                return row[:cue] + row[right + 1 :], x
            if r.label == "hives" and m.label == "cols" and x == cue - 1 and m.v.get("bare"):
                return _cut(row, x, cue, right)  # "one each in forty, no, fourteen hives"
            continue
        if family == "count":
            if _either(row, x - 2) and _either(row, right):
                # "five or six, no, I mean six or seven"
                row[x - 2].v["n"], row[x].v["n"] = r.v["n"], row[right + 2].v["n"]
                row[x].v.setdefault("struck", []).extend([(row[cue].s, row[cue].e), (r.s, row[right + 2].e)])
                return row[:cue] + row[right + 3 :], cue
            if bare and "n" in m.v:
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
                thing = row[x + 1] if x + 1 < cue and row[x + 1].label in _COUNTED_THINGS else None
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
            if (
                r.label == m.label
                or m.label in ("number", "value", "cols")
                or {r.label, m.label} <= {"mites", "clean", "value"}
                or (m.label == "noun" and r.label == "fact")  # "eight frames, no sorry, nine frames of honey"
            ):
                return _cut(row, x, cue, right)
            continue
        if (
            r.label == "form"
            and x
            and row[x - 1].label == "agent"
            and any(y.label == "agent" for y in row[right : right + 6])
        ):
            row, cue = _cut(
                row, x - 1, cue, right
            )  # "oxalic dribble …, no, we vaped it, oxalic vape": the agent is said again
            row.insert(cue, Mark("cue", m.s, m.e, "", {"cue": "correct"}))
            return _cut(row, x - 1, cue, right - 1)
        return _cut(row, x, cue, right)
    if family == "fact:queen_cells" or r.v.get("cell_type_only"):
        row[cue].label = "filler"
        return row, cue + 1
    row[cue].label = "filler"
    return row, cue + 1


_SMALL = 12


def _count_it_was(row: list[Mark], cue: int, right: int) -> int | None:
    """ "three swarm cells in L20, no wait, it was four": the index of the count that is meant, where a count and then
    one colony of a far greater number was said.
    """
    said = " ".join(x.w for x in row[cue:right]).split()[-2:]
    if said not in (["it", "was"], ["there", "were"], ["it", "had"]) or row[right].v["n"].value > _SMALL:
        return None
    named = next((x for x in range(cue - 1, max(-1, cue - _FAR), -1) if row[x].label == "cols"), None)
    if named is None or len(row[named].v["ids"]) > 1:
        return None
    digits = id_parts(row[named].v["ids"][0])[1]
    if not digits.isdecimal() or int(digits) <= _SMALL:
        return None
    for x in range(named - 1, max(-1, named - 6), -1):
        m = row[x]
        if m.label in ("cols", "stop", "line"):
            return None
        if "n" in m.v and (_family(m) == "count" or m.label == "fact") and m.v["n"].value <= _SMALL:
            return x
    return None


def _cells_before(row: list[Mark], cue: int) -> Mark | None:
    """The cells whose kind was said just before the correction."""
    near = row[max(0, cue - 3) : cue]
    return next((m for m in reversed(near) if m.label == "fact" and "cell_type" in m.v.get("set", {})), None)


def _ends(row: list[Mark], k: int) -> bool:
    return k >= len(row) or row[k].label in ("stop", "line")


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


_IT_WAS = frozenset("it that was it's that's its thats actually".split())
_DEEDS = frozenset(["verb", "queen_work", "change", "method", "check", "harvest"])
_ASKED = frozenset("asked asks wondered me us asking is was wanted to know wants".split())


def _who_it_was(row: list[Mark], cue: int) -> tuple[list[Mark], int] | None:
    """ "Ada asked me who pinched the queen in nine, well, that was Bo": the answer stands in the place of "who"."""
    k = next((k for k in range(cue + 1, min(len(row) - 2, cue + _FAR // 2)) if row[k].w in ("that", "it")), None)
    if k is None or row[k + 1].w != "was" or row[k + 2].label != "person":
        return None
    between = row[cue + 1 : k]
    if any(x.label == "line" for x in between) or not any(x.label in _DEEDS for x in between):
        return None
    doer = row[k + 2]
    who = Mark("person", row[cue].s, row[cue].e, doer.w, {**doer.v, "struck": [(x.s, x.e) for x in row[k : k + 3]]})
    first = cue
    while first > 0 and cue - first < 6 and (row[first - 1].w in _ASKED or row[first - 1].label in ("person", "cue")):
        first -= 1
    asker = [x for x in row[first:cue] if x.label not in ("person", "cue")] if row[first].label == "person" else []
    before = row[:first] + asker if asker else row[:cue]
    kept = [x for x in between if x.label not in ("question", "stop")]
    while kept[-1].label in ("filler", "comma"):
        kept.pop()
    return [*before, who, *kept, *row[k + 3 :]], len(before) + 1


def _other_doer(row: list[Mark], cue: int) -> tuple[list[Mark], int] | None:
    """ "Ada clipped her on Saturday, no, it was Bo who clipped her": somebody else did it."""
    k = cue + 1
    while k < len(row) and row[k].w in _IT_WAS:
        k += 1
    said = k > cue + 1 or row[cue].w.split()[-1] in _IT_WAS  # "no, sorry, it was", "no it was"
    if not said or k == len(row) or row[k].label != "person":
        return None
    near = row[max(0, cue - _FAR) : cue]
    old = next((x for x in reversed(near) if x.label == "person"), None)
    if old is None:
        return None
    end = k + 1
    if end < len(row) and row[end].w in ("who", "that"):
        end += 1
        if end < len(row) and row[end].label in _DEEDS:
            again = row[end]
            if not any(x.label == again.label and x.v.get("step") == again.v.get("step") for x in near):
                return None
            end += 1
            while end < len(row) and (
                row[end].label == "pronoun" or (row[end].label == "date" and any(x.label == "date" for x in near))
            ):
                end += 1
    old.v = {**row[k].v, "struck": [*old.v.get("struck", ()), *((x.s, x.e) for x in row[cue:end])]}
    return row[:cue] + row[end:], cue


_AS_FAR_AS = frozenset("only just up as far through to till until thru".split())


def _range_to(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "out of fifty one through sixty, no, only through fifty five": the range ends elsewhere."""
    first = right
    while right < len(row) and row[right].w in _AS_FAR_AS:
        right += 1
    right -= 1
    if right < first or right + 1 >= len(row) or row[right].w in ("only", "just", "up", "far"):
        return None
    m = next((x for x in reversed(row[max(0, cue - _FAR) : cue]) if x.label == "cols"), None)
    end = _plain_number(row[right + 1])
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


def _otherwise_there(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "two strips each in 40 to 44, no, make that one in 44": some of the colonies got another number of it."""
    if row[right].label not in ("number", "amount", "unit", "value"):
        return None
    k = right + 1
    if k < len(row) and row[k].label in THINGS | {"noun"}:
        k += 1
    if k + 1 >= len(row) or row[k].w not in ("in", "on", "for", "into") or row[k + 1].label != "cols":
        return None
    m = next((x for x in reversed(row[max(0, cue - _FAR) : cue]) if x.label == "cols"), None)
    ids = row[k + 1].v["ids"]
    if m is None or not set(ids) < set(m.v["ids"]):
        return None
    m.v["ids"] = [x for x in m.v["ids"] if x not in ids]
    row[cue].label, row[cue].v = "filler", {}
    return row, right


def _thing_elsewhere(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "an excluder on 8, no, strike that, an excluder on 4": the same thing on another colony than was said first."""
    new = row[right : right + 3]
    if len(new) < 3 or new[0].label not in THINGS or new[1].w not in _ON or new[2].label != "cols":
        return None
    for x in range(cue - 3, max(-1, cue - _FAR), -1):
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


_ON = frozenset(["on", "in", "into", "onto", "off", "from", "under", "over", "for"])
_ONLY = frozenset("only just the got gets had has took it was is gave".split())


def _given_anew(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
    """ "two strips in 71, no, 71 only got the one strip": what the colony named again got, in the place of what was
    said first.
    """
    if row[right].label != "cols":
        return None
    x = next((x for x in range(cue - 1, max(-1, cue - _FAR), -1) if row[x].label == "cols"), None)
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
    for b in range(max(0, x - 6), cue):
        m = row[b]
        if m.label != row[k].label or any(y.label == "cols" for y in row[b + 1 : x]):
            continue
        if m.label == "number" and not any(y.label == last for y in row[b + 1 : b + 4]):
            continue
        m.v = {**row[k].v, "struck": [*m.v.get("struck", ()), *((y.s, y.e) for y in row[cue:end])]}
        return row[:cue] + row[end:], cue
    return None


def _count_named(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int] | None:
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
    old, new = _plain_number(row[wrong]), _plain_number(row[k])
    if old is None or new is None:
        return None
    for x in range(cue - 1, max(-1, cue - _FAR), -1):
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


_NEW_WORK = frozenset(["check", "method", "queen_work", "change", "agent", "item", "feed"])


def _plain_number(m: Mark) -> Number | None:
    """The number said, be it read as a count or as one colony."""
    if m.label == "cols":
        digits = id_parts(m.v["ids"][0])[1]
        return Number(int(digits), 0) if len(m.v["ids"]) == 1 and digits.isdecimal() else None
    return m.v.get("n") if m.label in ("number", "value", "mites", "clean") else None


def _said_before(row: list[Mark], x: int, k: int) -> int:
    """The index of the count after `k` where it only repeats that of the colony at `x` ("it was 16 that was nine")."""
    first = next((y.v["n"].value for y in row[x : x + 4] if y.label in ("value", "mites") and "n" in y.v), None)
    for j in range(k + 1, min(len(row), k + 4)):
        if row[j].label in ("value", "mites", "number") and "n" in row[j].v:
            return j if row[j].v["n"].value == first else k
        if row[j].w not in ("that", "was", "had", "with", "the"):
            break
    return k


def _yard_meant(row: list[Mark], cue: int, right: int) -> int:
    """ "at larks, no not larks, i'm at the quarry": of two yards after the cue the one not said before."""
    said = {m.v["value"] for m in row[max(0, cue - _FAR) : cue] if m.label == "yard"}
    if row[right].v["value"] not in said:
        return right
    for x in range(right + 1, min(len(row), right + 8)):
        if row[x].label == "yard":
            row[right].label, row[right].v = "filler", {}
            return x
        if row[x].label not in ("w", "filler", "comma", "cue"):
            break
    return right


def _was_other_colony(row: list[Mark], cue: int, right: int) -> bool:
    """ "21 13 mites, no wait it was 22 with the 13": the count said again shows that the number is a colony."""
    if (
        right + 2 < len(row)
        and row[right + 1].w == "not"
        and "n" in row[right + 2].v
        and any(
            m.label == "cols" and str(int(row[right + 2].v["n"].value)) in m.v["ids"]
            for m in row[max(0, cue - _FAR) : cue]
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
    again = _value_after(row, right)
    if again is None or row[right + 1].w not in ("with", "the", "that") or not row[right].v["n"].whole:
        return False
    counted = next((m for m in reversed(row[max(0, cue - _FAR) : cue]) if m.label in ("mites", "value")), None)
    return counted is not None and "n" in counted.v and counted.v["n"].value == row[again].v["n"].value


def _that_was_colony(row: list[Mark], cue: int, right: int) -> bool:
    """ "42 had four swarm cells, sorry, that was 43": a number near the colony's, and far from any count said of it."""
    said = " ".join(x.w for x in row[cue:right]).split()[-2:]
    named = next((x for x in range(cue - 1, max(-1, cue - _FAR), -1) if row[x].label == "cols"), None)
    if said != ["that", "was"] or named is None or len(row[named].v["ids"]) > 1 or not row[right].v["n"].whole:
        return False
    after = row[right + 1] if right + 1 < len(row) else None
    if after is not None and (after.label in _COUNTED_THINGS | {"form", "agent"} or after.w in ("percent", "degrees")):
        return False
    counts = [x.v["n"].value for x in row[named + 1 : cue] if "n" in x.v]
    digits = id_parts(row[named].v["ids"][0])[1]
    value = int(row[right].v["n"].value)
    if not counts:
        return after is not None and after.label == "cols"
    return (
        all(x <= _SMALL for x in counts) and value > _SMALL and digits.isdecimal() and abs(value - int(digits)) < _FAR
    )


def _row_again(row: list[Mark], cue: int, right: int) -> bool:
    """ "8 = 14, no wait, 8 = 4", "8 14 sorry 8 4": typed as the row before it was, so the first number is a colony."""
    if not row[right].v["n"].whole or right + 1 >= len(row):
        return False
    sign = row[right + 1].w if row[right + 1].w in ("=", ":") else ""
    count = row[right + 1 + bool(sign)] if right + 1 + bool(sign) < len(row) else None
    if count is None or "n" not in count.v or count.label not in ("number", "value", "mites"):
        return False
    near = row[max(0, cue - _FAR) : cue]
    named = str(int(row[right].v["n"].value))
    return any(
        m.label == "cols" and (after.w == sign if sign else "n" in after.v and named in m.v["ids"])
        for m, after in pairwise(near)
    )


def _correct_colonies(row: list[Mark], cue: int, right: int) -> tuple[list[Mark], int]:
    r = row[right]
    ids = r.v["ids"]
    wrong = row[right + 2] if right + 2 < len(row) and row[right + 1].w == "not" else None
    if (
        wrong is not None
        and wrong.label == "cols"
        and any(m.label == "cols" and set(wrong.v["ids"]) <= set(m.v["ids"]) for m in row[max(0, cue - _FAR) : cue])
    ):
        r.v.setdefault("struck", []).append((row[right + 1].s, wrong.e))  # "board 64: 33, sorry 46 not 64"
        del row[right + 1 : right + 3]
    if (begun := _begun_on_another(row, cue, right)) is not None:
        return begun
    restated = right + 1 < len(row) and (
        row[right + 1].label in ("value", "mites", "clean", "percent", "fact", "number")
        or row[right + 1].w in ("was", "had", "got", "is", "has", ":", "=", "with")
    )
    earlier = _count_of(row, cue, ids) if restated else None
    if earlier is not None and (again := _value_after(row, right)) is not None:
        # "61 1 mite, 62 4 mites, 63 none, oops 62 was 14": the count of the one named, not of the last
        row[earlier].v.update(row[again].v)
        row[earlier].v.setdefault("struck", []).extend((y.s, y.e) for y in row[cue : again + 1])
        return row[:cue] + row[again + 1 :], cue
    for x in range(cue - 1, max(-1, cue - _FAR), -1):
        m = row[x]
        if m.label != "cols":
            continue
        again_done = x + 1 < cue and right + 1 < len(row) and row[x + 1].w == row[right + 1].w
        if (restated or again_done) and m.v["ids"] == ids:
            # "forty three had seven no wait forty three was eight": the first statement goes
            struck = [(y.s, y.e) for y in row[x : cue + 1]]
            r.v.setdefault("struck", []).extend(struck)
            return row[:x] + row[cue + 1 :], x
        old = list(m.v["ids"])
        if len(ids) == 1 and (ranging := _other_end(m, ids[0])) is not None:
            new_ids = ranging
        elif len(ids) > 1 and set(ids) & set(old):
            new_ids = list(ids)  # the list said over again
        elif len(ids) >= len(old) or len(old) == 1:
            new_ids = list(ids) if len(ids) >= len(old) else old[:-1] + list(ids)
        else:
            new_ids = old[: len(old) - len(ids)] + list(ids)
        if len(old) > 1 and set(ids) < set(old) and right + 1 < len(row) and _does(row[right + 1]):
            m.v["ids"] = [x for x in old if x not in ids]  # "supers on 4, 5 and 6, scratch that, 6 got a box"
            r.v.setdefault("struck", []).append((row[cue].s, row[cue].e))
            return row[:cue] + row[cue + 1 :], cue
        value_again = _value_after(row, right)
        value_before = [y for y in row[x + 1 : cue] if y.label in ("value", "mites", "clean")]
        if restated and value_again is not None and not value_before:
            if len(old) == 1 and all(y.label in ("filler", "comma") for y in row[x + 1 : cue]):
                return _cut(row, x, cue, right)  # "hive seven, no sorry, hive eight got one"
            return row[:cue] + row[cue + 1 :], cue
        again = _said_again(row[x + 1 : cue], row[right + 1 :]) or _fact_again(row[x + 1 : cue], row[right + 1 :])
        m.v["ids"] = new_ids
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
    row[cue].label = "filler"
    return row, cue + 1


_RANGING = frozenset("through thru to - – until till".split())


def _other_end(m: Mark, last: str) -> list[str] | None:
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
    if m.label == "number" and x > 0 and m.v["n"].whole and row[x - 1].w not in _ON:
        return _cut(row, x, cue, right)
    if m.label != "cols" or len(m.v["ids"]) == 1 or x == 0 or row[x - 1].w not in _ON or row[right + 1].w not in _GETS:
        return None
    if m.w.split()[-2:-1] == ["through"] or not any(y.label in THINGS for y in row[right + 2 : right + 5]):
        return None
    m.v["ids"] = m.v["ids"][:-1]  # "supers on 40 to 44 and 50, no, I mean 51 got an excluder"
    row[right].v.setdefault("struck", []).append((row[cue].s, row[cue].e))
    return row[:cue] + row[cue + 1 :], cue


_GETS = frozenset(["got", "gets", "get", "took"])


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
    for x in range(cue - 1, max(-1, cue - _FAR), -1):
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
    """1 where what is said first of the corrected colony was said of the other ("nine was dead …, no ten was dead")."""
    if not second or second[0].label not in ("change", "fact"):
        return 0
    return int(any(y.label == second[0].label and y.v == second[0].v for y in first))


def _value_after(row: list[Mark], right: int) -> int | None:
    """The index of a count said again straight after the corrected colony ("55 with the 9")."""
    k = right + 1
    while k < len(row) and row[k].w in ("with", "the", "was", "had", "that", "got", "is", ":", "="):
        k += 1
    dose = k + 1 < len(row) and row[k + 1].label in ("each", "item", "form", "agent", "feed", "queen_noun")
    if k < len(row) and k > right and row[k].label in ("value", "number", "mites") and not dose:
        return k
    return None
