"""Columns said once: "frames of bees, frames of brood, in that order: four, six and five; nine, seven and four".

The kinds of frames are named without a number; each colony after them comes with as many numbers as kinds were
named. Where they do not, nothing is guessed: the words stay as they are.
"""

from __future__ import annotations

from functools import lru_cache

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.grouping.row import whole
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number, number_at
from fieldnotes.reader.outfit import Outfit

_JOINS = frozenset("and then , in that order first next last".split())
_BEFORE_ROWS = frozenset(
    "at the in on over up down out here so okay today are is were was goes these they : - –".split()
)
_BEFORE_NUMBER = frozenset("is was had has have got gets with on : = - – just only".split())
_COUNTED = frozenset(
    "item agent form feed queen_noun each days hives unit amount noun percent sample degrees round method mites".split()
)
"""What a number before it counts: it is then no cell of a column."""
_REACH = 12
"""Marks that may stand between the columns and their first colony."""


def spoken_columns(row: list[Mark], outfit: Outfit) -> list[Mark]:
    """The row with the numbers below columns said once made what the columns say they are."""
    openers = _openers()
    opened = {k for k, m in enumerate(row) if (m.w.split(" ", 1)[0] if " " in m.w else m.w) in openers}
    if not opened:
        return row
    i = 0
    while i < len(row):
        if i in opened:
            columns, end = _columns(row, i)
            if columns and (found := _rows(row, end, columns, outfit)):
                return _with_rows(row, i, end, found)
            i = max(i, end - 1) if columns else i
        i += 1
    return row


def _with_rows(row: list[Mark], start: int, end: int, rows: list[tuple[int, int, list[Mark]]]) -> list[Mark]:
    """The row with each of `rows` (from, to, the marks they become) in place and the columns' names taken out."""
    head = [(m.s, m.e) for m in row[start:end]]
    rows[0][2][-1].v["struck"] = head
    out = row[:start]
    at = end
    for first, after, made in rows:
        out += [*row[at:first], *made]
        at = after
    return out + row[at:]


@lru_cache(maxsize=1)
def _openers() -> frozenset[str]:
    return frozenset(said.split()[0] for said in grammar().tables["columns"])


def _columns(row: list[Mark], i: int) -> tuple[list[str], int]:
    """The slots of the columns named from `i` on, and the index after them; none where a number stands before."""
    known: dict[str, str] = grammar().tables["columns"]
    if i and row[i - 1].label in ("number", "ordinal"):
        return [], i
    slots: list[str] = []
    k = end = i
    while k < len(row):
        name = next((n for n in (4, 3, 2, 1) if " ".join(m.w for m in row[k : k + n]) in known), 0)
        if name:
            slots.append(known[" ".join(m.w for m in row[k : k + name])])
            k = end = k + name
        elif row[k].w in _JOINS or row[k].label in ("comma", "filler"):
            k += 1
            end = k if row[k - 1].w == "order" else end
        else:
            break
    if len(slots) == 1 and (not any("frames" in m.w for m in row[i:end]) or _work_before(row, i)):
        return [], i
    return (slots, end) if len(set(slots)) == len(slots) else ([], i)


def _work_before(row: list[Mark], i: int) -> bool:
    """Whether work stands before in the sentence: "pulled frames of brood" counts what was done."""
    for m in reversed(row[max(0, i - _REACH) : i]):
        if m.label in ("stop", "line"):
            return False
        if (m.label == "verb" and m.v.get("does") != "do") or (m.label == "cue" and m.v.get("cue") == "plan"):
            return True
    return False


def _rows(row: list[Mark], k: int, slots: list[str], outfit: Outfit) -> list[tuple[int, int, list[Mark]]]:
    """Where each colony with its numbers stands, from `k` on, and the marks it becomes; none where they are too few."""
    found: list[tuple[int, int, list[Mark]]] = []
    gap = 0
    while k < len(row) and row[k].w != "¶¶" and gap <= _REACH:
        made = _row(row, k, slots, outfit)
        if made is not None:
            found.append((k, *made))
            k, gap = made[0], 0
            continue
        if not found and not _may_stand_before(row[k]):
            return []
        if len(slots) == 1 and found and row[k].label in ("item", "feed", "agent", "form", "method"):
            break
        gap += 1
        k += 1
    return found if len(found) > 1 or (found and len(slots) > 1) else []


def _may_stand_before(m: Mark) -> bool:
    return m.label in ("yard", "comma", "filler", "stop", "line", "date") or m.w in _BEFORE_ROWS | _JOINS


def _row(row: list[Mark], k: int, slots: list[str], outfit: Outfit) -> tuple[int, list[Mark]] | None:
    """The index after the colony at `k` and its numbers, one for each column, and the marks they become."""
    start = k
    if row[k].label == "hive":
        k += 1
    m = row[k] if k < len(row) else None
    if m is None or not (m.label == "colony" or (m.label == "number" and whole(m))):
        return None
    cid = m.v["value"] if m.label == "colony" else str(int(m.v["n"].value))
    if m.label == "number" and k == start and not outfit.could_be(cid):
        return None
    value = {"ids": [cid], "bare": m.label == "number", "hive": k > start}
    made = [Mark("cols", row[start].s, m.e, m.w, value, "colonies")]
    k += 1
    while k < len(row) and (row[k].w in _BEFORE_NUMBER or row[k].label in ("comma", "filler", "approx")):
        k += 1
    for slot in slots:
        if slot != slots[0] and k < len(row) and (row[k].label in ("comma", "filler") or row[k].w == "and"):
            k += 1
        number = _number(row[k]) if k < len(row) else None
        if number is None:
            return None
        fact = {"kind": "inspection", "number": slot, "n": number}
        made.append(Mark("fact", row[k].s, row[k].e, f"{number.value:g}", fact, "column"))
        k += 1
    return None if k < len(row) and (row[k].label in _COUNTED or row[k].w in ("of", "or")) else (k, made)


def _number(m: Mark) -> Number | None:
    if m.label == "number":
        number: Number = m.v["n"]
        return number if number.value <= _MOST_FRAMES else None
    meant = grammar().tables["homophones"].get(m.w) if m.label == "w" else None
    return number_at([meant], 0) if meant else None


_MOST_FRAMES = 40
"""More frames than this are in no hive."""
