"""Which numbers are colonies, which are counts? The row of marks → the same row with colonies grouped.

A number that no phrase took is a colony where its neighbours say so (a hive word, "in", "washed",
"had" after it), a count where they say that ("had", a colon after a colony), and where neither does, the
roster and the order decide: in a run of checks colony and count take turns.
Lists ("12, 14 and 15"), ranges ("3 through 9", "L4-L9") and repeated letters become one mark "cols".
Counts become the mark "value", sample sizes ("/ 300", "in 300") the mark "sample".
"""

from __future__ import annotations

from typing import Any, NamedTuple

from fieldnotes.reader.grouping.beyond import BEYOND, beyond
from fieldnotes.reader.grouping.checking import (
    WASHES_IN,
    in_percent,
    looked_for_mites,
    number_and_count,
    sugar_named_after,
    washed_in,
)
from fieldnotes.reader.grouping.colony import is_colony
from fieldnotes.reader.grouping.counts import (
    as_many_as_hives,
    count_or_sample,
    samples_of_one,
    two_halves,
    value_list,
    with_so_many_each,
)
from fieldnotes.reader.grouping.joins import LONG_JOINS, shorten_joins
from fieldnotes.reader.grouping.lists.colonies import colonies_from
from fieldnotes.reader.grouping.once import once_it_is_off
from fieldnotes.reader.grouping.orders import (
    in_that_order,
    listed_in_order,
    listed_then_counted,
    numbers_from,
    washed_in_a_row,
)
from fieldnotes.reader.grouping.otherwise import read_otherwise
from fieldnotes.reader.grouping.row import BULLETS, Row, colonies_of, sentence_has, whole
from fieldnotes.reader.grouping.runs import (
    as_many_as_said,
    bare_run,
    paired_run,
    run_of_all,
    run_told_before,
    typed_list,
)
from fieldnotes.reader.grouping.signs import (
    BEFORE_COUNTS,
    DASHES,
    SIGNS,
    WARMTH,
    arrows_between,
    as_many_after,
    colours_in_brackets,
    counts_behind_signs,
    dashed_counts,
    dead_queens,
    dealt_in_signs,
    dealt_to_letters,
    hives_in_brackets,
    how_wet,
    left_out_in_brackets,
    made_from_each,
    named_in_brackets,
    one_of_a_measure,
    pairs_of_changes,
    round_by_sign,
    rows_on_a_line,
    slashed,
    so_many_of_it,
    times,
    told_behind_dashes,
    warmth_of_day,
    why_left_out,
)
from fieldnotes.reader.grouping.small_words import CAN_BE_COLONIES, TOLD_BY_NEIGHBOURS, by_neighbours
from fieldnotes.reader.grouping.so_many import (
    last_of_list,
    lost_these,
    money,
    none_of,
    so_many_gone,
    so_many_more,
    so_many_of,
    so_many_there,
)
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.outfit import Outfit

__all__ = ["BULLETS", "CHECK_LABELS", "group"]

CHECK_LABELS = frozenset(["method", "mites", "percent", "sample", "check"])


class _Found(NamedTuple):
    """Marks made of several, the index after them, what the last is ("cols" or "value"), counts still to come."""

    marks: list[Mark]
    next: int
    last: str
    owed: int


def group(row: list[Mark], outfit: Outfit, checking: bool) -> list[Mark]:
    """The row with colonies grouped; `checking` says that mite checks have been spoken of."""
    words = frozenset([m.w for m in row])
    checking = checking or "counts" in words  # "Ada wanted the counts, seventy was four"
    _read_signs_and_turns(row, words, outfit, checking)
    r = Row(row, outfit, checking)
    for k in reversed([k for k, m in enumerate(row) if m.label == "change" and "n" in m.v and k > 1]):
        last_of_list(r, k)
    out: list[Mark] = []
    owed = 0  # counts still to come of a list said "in that order"
    percents = False  # whether a count in percent was told of
    last = ""  # what the last number in this sentence was: "cols", "value" or ""
    i = 0
    while i < len(row):
        m = row[i]
        if m.label == "w" and m.w not in TOLD_BY_NEIGHBOURS:
            out.append(washed_in(row, i) if m.w in WASHES_IN else m)  # most marks: plain words
            i += 1
            continue
        if m.label in ("hives", "number") and "n" in m.v and m.v["n"].value == 0:
            m = none_of(row, i)
        if m.label == "change" and "n" in m.v and (lost := lost_these(r, i)):
            cols, i = colonies_from(r, i, i, lost)
            out += [lost, cols]
            r.last_ids, last = cols.v["ids"], "cols"
            continue
        if m.label == "number" and money(row, i):
            out.append(Mark("w", m.s, m.e, m.w))
            i += 1
            continue
        if m.label == "hives" or (m.w in TOLD_BY_NEIGHBOURS and m.label in ("w", "cue")):
            m = row[i] = by_neighbours(r, i, out, last)
        if m.label in ("stop", "line", "question"):
            last = ""
        if m.label in CHECK_LABELS or m.label == "clean" or m.v.get("noun") == "mites":
            r.checking = True
        m = read_otherwise(r, i)
        if m.label in ("mites", "colony") and (parts := number_and_count(r, i, last)):
            out.extend(parts)
            last = "value"
            i += 1
            continue
        if m.label in ("mites", "clean", "percent"):
            last = "value"
            percents = percents or m.label == "percent"
        if m.label not in CAN_BE_COLONIES:
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
    if percents or "percent" in words:
        in_percent(out)
    _letters_again(out)
    if outfit.known and any(m.label == "yard" for m in out):
        _at_home(out, outfit)
    return out


def _read_signs_and_turns(row: list[Mark], words: frozenset[str], outfit: Outfit, checking: bool) -> None:
    """Marks of the row made of signs and turns of phrase, before any number is looked at by itself."""
    labels = {m.label for m in row}
    if not LONG_JOINS.isdisjoint(words):
        shorten_joins(row)
    if not DASHES.isdisjoint(words):
        told_behind_dashes(row)
    if "/" in words:
        slashed(row, outfit)
        rows_on_a_line(row)
    if "more" in words:
        so_many_more(row)
    if "gone" in words or "down" in words:
        so_many_gone(row, outfit)
    if checking:
        sugar_named_after(row)
        times(row)
        dashed_counts(row)
    if "(" in words:
        named_in_brackets(row, outfit)
    if not BEFORE_COUNTS.isdisjoint(words) and (checking or not CHECK_LABELS.isdisjoint(labels)):
        counts_behind_signs(row)
        words = frozenset([m.w for m in row])
    if not SIGNS.isdisjoint(words) and (checking or not CHECK_LABELS.isdisjoint(labels)):
        as_many_after(row, outfit)
    if "for" in words and any(m.v.get("noun") == "mites" for m in row):
        looked_for_mites(row)
    if "(" in words or [w for w in words if w[0] == "x"]:  # a list is faster here
        so_many_of_it(row)
    if "every" in labels and outfit.known and not BEYOND.isdisjoint(words):
        beyond(row, outfit)
    once_it_is_off(row)
    if "hives" in labels:
        so_many_there(row)
    if "at" in words and "amount" in labels:
        how_wet(row)
    if "colony" in labels and "item" in labels:
        dealt_to_letters(row)
    if "change" in labels:
        if ">" in words or "→" in words:
            arrows_between(row)
        if "queen_noun" in labels:
            dead_queens(row)
        so_many_of(row)
        pairs_of_changes(row)
    if "date" in labels and not WARMTH.isdisjoint(words):
        warmth_of_day(row)
    if "#" in words:
        round_by_sign(row)
    if "(" in words or "=" in words:
        dealt_in_signs(row, outfit)
    if "(" in words and "cue" in labels:
        why_left_out(row)
    if "(" in words and "queen_work" in labels:
        colours_in_brackets(row)
    if "(" in words and "yard" in labels:
        hives_in_brackets(row)
    if "change" in labels and "from" in words:
        made_from_each(row)
    if not labels.isdisjoint(("ratio", "feed")) and ("of" in words or "ratio" in labels):
        one_of_a_measure(row)
    if "(" in words and "not" in words:
        left_out_in_brackets(row)


def _at_home(row: list[Mark], outfit: Outfit) -> None:
    """Tells each group of colonies the yards that can be theirs, where the roster has them all: the yard named last, or
    where that has none such, any that has them.
    """
    last: str | None = None
    for m in row:
        if m.label == "yard":
            last = m.v["value"]
        elif m.label == "cols":
            homes = frozenset.intersection(*(outfit.homes_of(cid) for cid in m.v["ids"])) if m.v["ids"] else frozenset()
            m.v["homes"] = frozenset([last]) if last in homes else homes


def _letters_again(row: list[Mark]) -> None:
    """ "L4, L9 and L16 … | sixteen's weak": with no yard named, a number alone is the colony named with its letter."""
    lettered: dict[str, str] = {}
    first = next((k for k, m in enumerate(row) if m.label == "yard"), len(row))
    if first < len(row) and first > 0 and row[first - 1].w in ("at", "in", "the"):
        first = max((k for k in range(first) if row[k].label == "cols"), default=0)
    for m in row[:first]:
        if m.label != "cols":
            continue
        if m.v.get("bare") and all(cid in lettered for cid in m.v["ids"]):  # not 4 of one to ten, for N4
            m.v["ids"] = [lettered[cid] for cid in m.v["ids"]]
        for cid in m.v["ids"]:
            number = cid.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
            if number != cid:
                lettered[number] = cid


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
    if checked := as_many_as_hives(r, i):
        return _Found(checked[0], checked[1], "value", owed)
    if alike := run_of_all(r, i) or run_told_before(r, i) or as_many_as_said(r, i):
        return _Found([alike[0]], alike[1], "cols", 0)
    if ordered := listed_in_order(r, i):
        return _Found([ordered[0]], ordered[1], "cols", len(ordered[0].v["ids"]))
    if counted := listed_then_counted(r, i):
        return _Found([counted[0]], counted[1], "cols", counted[2])
    if washed := washed_in_a_row(r, i):
        return _Found([washed[0]], washed[1], "cols", owed)
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
