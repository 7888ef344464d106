"""Corrections inside a row of marks: what follows "no wait", "scratch that", "I mean" replaces what it corrects.

Only the corrected fact is left; the struck words stay tied to it by their spans.
"""

from __future__ import annotations

from fieldnotes.reader.correcting.anew import range_to
from fieldnotes.reader.correcting.denials import (
    NO_AT_ALL,
    another_one,
    at_no,
    at_not,
    no_cue_here,
    not_that_one,
    of_something_else,
    only_not,
)
from fieldnotes.reader.correcting.doers import other_doer, who_it_was
from fieldnotes.reader.correcting.meant import correct
from fieldnotes.reader.correcting.noes import bare_noes
from fieldnotes.reader.correcting.striking import FAR, ends
from fieldnotes.reader.mark import Mark

__all__ = ["bare_noes", "put_right"]

_BEFORE_OPENING = frozenset("w filler comma stop line".split())


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
        first = max(0, len(done) - FAR - 5)
        near = done[first:] + rest[: -2 * FAR - 1 : -1]
        del rest[-2 * FAR :]
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
    if no_cue_here(row, i):
        return row, i + 1, False
    if m.w == "no" and m.v.get("cue") == "not" and (shorter := range_to(row, i, i + 1)) is not None:
        return *shorter, False  # "n one through n six, no, only as far as n four"
    if m.w == "who" and (answer := who_it_was(row, i)) is not None:
        return *answer, False
    if m.w in NO_AT_ALL and of_something_else(row, i):
        m.v = {"cue": "not"}
        m.w = "no"
        return row, i + 1, False
    if from_start and m.w == "not" and _this_not_that(row, i):
        return row, i + 1, True
    if m.w in ("not", "scratch", "strike") and i + 1 < len(row) and (meant := another_one(row, i)) is not None:
        return *meant, False
    if m.v.get("cue") == "strike":
        m.label, m.v = "w", {}
        return row, i + 1, False
    if m.v.get("cue") == "correct":
        return _at_correction(row, i, from_start)
    if only_not(row, i):
        return row, i + 1, False
    done = at_no(row, i) if m.w == "no" else at_not(row, i) if m.w == "not" else None
    return (row, i + 1, False) if done is None else (*done, False)


def _at_correction(row: list[Mark], i: int, from_start: bool) -> tuple[list[Mark], int, bool]:
    """What "no wait", "I mean", "scratch that" at `i` do."""
    m = row[i]
    if i and row[i - 1].label == "line":
        row[i - 1].label, row[i - 1].w = "stop", ";"  # sent in a line of its own: "7 mites", "no wait 17"
    if (other := other_doer(row, i)) is not None:
        return *other, False
    if not_that_one(row, i):
        m.w, m.e = f"{m.w} not", row[i + 1].e
        row = row[: i + 1] + row[i + 2 :]  # "in 72 and 74, no wait, not 74, I mean 76"
    if from_start and all(x.label in _BEFORE_OPENING or x.w == "no" for x in row[:i]):
        for x in row[: i + 1]:
            x.label = "filler" if x.label == "cue" else x.label
        _that_not_this(row, i + 1)
        return row, i + 1, True
    trailing = ends(row, i + 1) and from_start and any(x.label == "cols" for x in row[:i])
    return *correct(row, i), trailing  # "S5 was 2, I mean"


def _that_not_this(row: list[Mark], k: int) -> None:
    """ "sorry, S6 not S5": which colony is meant, and which was said before: one mark. In place."""
    while k < len(row) and row[k].label in ("filler", "comma"):
        k += 1
    if [m.label for m in row[k : k + 3 : 2]] == ["cols", "cols"] and row[k + 1].w == "not" and ends(row, k + 3):
        _one_for_other(row, k, k + 3, row[k].v["ids"], row[k + 2].v["ids"])
    elif k + 1 < len(row) and row[k].w == "not":
        _this_not_that(row, k)


def _this_not_that(row: list[Mark], i: int) -> bool:
    """ "not S5, S6", "not S5, S6 is the dead one" at the start of a message: S6 is meant, for S5. In place."""
    if any(x.label not in ("filler", "comma") for x in row[:i]):
        return False
    named: list[str] = []
    k, parted = i + 1, False
    while k < len(row) and len(named) < _BOTH and row[k].label in ("cols", "number", "comma"):
        if row[k].label == "cols":
            named += row[k].v["ids"]
            parted = parted or "," in row[k].w
        elif row[k].label == "number" and row[k].v["n"].whole:
            named.append(str(int(row[k].v["n"].value)))
        parted = parted or row[k].label == "comma"
        k += 1
    said = k
    while k < len(row) and row[k].w in _IS_THE_ONE:
        k += 1
    if k > said and k < len(row) and row[k].label in ("change", "fact"):
        k += 1
        while k < len(row) and row[k].w == "one":
            k += 1
    if len(named) != _BOTH or not parted or not ends(row, k):
        return False
    _one_for_other(row, i, k, named[1:], named[:1])
    return True


def _one_for_other(row: list[Mark], i: int, k: int, meant: list[str], wrong: list[str]) -> None:
    value = {"ids": list(meant), "bare": False, "instead": list(wrong)}
    row[i:k] = [Mark("cols", row[i].s, row[k - 1].e, " ".join(m.w for m in row[i:k]), value, "colonies")]


_BOTH = 2
_IS_THE_ONE = frozenset("is the that's thats was it's 's".split()) | {"is the", "was the"}
