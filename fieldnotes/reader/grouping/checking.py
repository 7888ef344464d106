"""What is told in a run of checks: what was washed or rolled in, counts in percent, a count heard with its colony."""

from __future__ import annotations

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.grouping.row import JOIN, RANGE, Row, id_of, sentence_has, whole
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.roster import id_parts


def sugar_named_after(row: list[Mark]) -> None:
    """ "did a roll on eighteen and nineteen, sugar, eighteen was two": what it was rolled in, and no feed."""
    for k, m in enumerate(row):
        if m.label == "feed" and m.w == "sugar" and any(x.v.get("method") == "roll" for x in row[max(0, k - 9) : k]):
            if not any(x.label == "verb" and x.w != "did" for x in row[max(0, k - 9) : k]):
                row[k] = Mark("method", m.s, m.e, m.w, {"method": "sugar_roll"}, "what it was rolled in")


WASHES_IN = {"alcohol": "alcohol_wash", "soap": "soap_wash", "soapy": "soap_wash"}


def washed_in(row: list[Mark], i: int) -> Mark:
    """ "9 had 4 / 300 | alcohol", "that's | soap": what it was washed in, where the sample is named beside it."""
    m = row[i]
    before, after = row[i - 1] if i else None, row[i + 1] if i + 1 < len(row) else None
    opens = (
        after is not None and after.label == "sample" and not any(x.label == "method" for x in row[max(0, i - 8) : i])
    )
    if before is not None and (before.label == "sample" or before.w == "that's" or opens):
        row[i] = Mark("method", m.s, m.e, m.w, {"method": WASHES_IN[m.w]}, "what it was washed in")
    return row[i]


def in_percent(row: list[Mark]) -> None:
    """ "alcohol washes, in percent: 21 was one point five": every count after it is a percentage."""
    said = [k for k, m in enumerate(row) if m.w == "percent"]
    k = next((k for k in said if k and row[k - 1].w in ("in", "as")), len(row))
    for m in row[k:]:
        if m.label == "value":
            m.label, m.rule = "percent", "counts in percent"
    if k == len(row):
        _percent_goes_on(row)


_MOST_PERCENT = 20
"""Mites in the hundred bees: no hive that still has bees to wash has many more. Common practice, no source."""
_ENDS_PERCENT = frozenset("stop line method mites sample harvest moisture fact change agent form item feed".split())


def _percent_goes_on(row: list[Mark]) -> None:
    """ "three percent in nine, two in ten, zero in eleven": where the first count is in percent, the next ones are."""
    goes_on, counted = False, False
    for k, m in enumerate(row):
        if m.label in _ENDS_PERCENT:
            goes_on = counted = False
        elif m.label == "percent":
            goes_on = not counted
        elif m.label == "value" and m.v["n"].value:  # none in the hundred is none
            if not goes_on or _or_mites(row[k + 1 : k + 3]) or m.v["n"].value > _MOST_PERCENT:
                goes_on, counted = False, True
            else:
                m.label, m.rule = "percent", "counts in percent"


def _or_mites(after: list[Mark]) -> bool:
    """ "five | or six mites": a count of mites after all."""
    return len(after) > 1 and after[0].w in ("or", "to") and after[1].label == "mites"


def number_and_count(r: Row, i: int, last: str) -> list[Mark] | None:
    """The colony and its count where both were heard as one number."""
    m = r.row[i]
    if m.label == "mites":
        return _tens_and_mites(r, i, last)
    if m.label != "colony" or not r.checking:
        return None
    parts = _tens_and_either(r, i)
    if parts:
        r.last_ids = parts[0].v["ids"]
    return parts


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


def looked_for_mites(row: list[Mark]) -> None:
    """ "check 12 and 14 for mites on friday": a mite check, though the hives stand within it."""
    for k in range(2, len(row)):
        if row[k].v.get("noun") != "mites" or row[k - 1].w != "for":
            continue
        x = k - 2
        while x > 0 and (row[x].label in ("number", "colony", "hive", "comma") or row[x].w in _WITHIN_CHECK):
            x -= 1
        if row[x].label == "verb" and row[x].w.split()[0] in _LOOKS and x < k - 2:
            row[x].label, row[x].v = "check", {}


_WITHIN_CHECK = JOIN | RANGE
_LOOKS = frozenset("check checked checking look looked looking".split())
