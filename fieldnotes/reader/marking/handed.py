"""A thing that goes from one hive to another: "moved a super from eight to fourteen" tells of what came off the one and
of what went on the other.
"""

from __future__ import annotations

from fieldnotes.reader.mark import Mark

_BESIDE_THING = frozenset("a an the its their one another that old full empty".split())
_OVER = frozenset("over across back up straight right down".split())
_TO = frozenset("to into onto".split())
_WENT = frozenset("went goes is are was".split())
_IDS = frozenset(["number", "colony"])
_IT = frozenset(["it", "that one", "this one"])
_BEGINS = frozenset(["stop", "line", "comma", "filler"])
FROM_HIVE_TO_HIVE = "from one hive to another"


def handed_over(row: list[Mark]) -> list[Mark]:
    """The row, with each thing that goes from one hive to another told as taken off there and put on here."""
    out: list[Mark] = []
    at = 0
    for k, m in enumerate(row):
        if k >= at and (m.label == "item" or m.v.get("number") == "brood_frames"):
            found = _goes_over(row, k)
            if found is not None:
                gone, ids, tense, owner = found
                taken = row[at:gone]
                if owner is not None:  # "moved nine's super to ten": the super off nine
                    hive = row[owner]
                    hive.e = row[owner + 1].e
                    taken = [*row[at:owner], *row[owner + 2 : gone], Mark("w", hive.e, hive.e, "off"), hive]
                out += [*taken, *_put_on(row, k, row[gone], tense)]
                at = ids
    return out + row[at:] if at else row


def _goes_over(row: list[Mark], k: int) -> tuple[int, int, str, int | None] | None:
    """Where the words begin that say to which hive the thing at `k` goes, where that hive is named, the tense, and
    where the hive is named whose the thing is. Changes the mark of the verb in place.
    """
    first = k
    while first and (row[first - 1].w in _BESIDE_THING or row[first - 1].label in ("number", "approx")):
        first -= 1
    owner = first - 2 if first > 1 and row[first - 1].w == "'s" and row[first - 2].label in _IDS else None
    lead = (first if owner is None else owner) - 1
    verb = row[lead] if lead >= 0 and _takes(row[lead]) else None
    gone = k + 1 if owner is not None else _past_hive(row, k + 1)
    if gone is None or gone >= len(row) or (owner is not None and verb is not None and verb.label == "verb"):
        return None
    way = gone
    if verb is None:
        if row[gone].w not in _WENT or (lead >= 0 and row[lead].label not in _BEGINS and row[lead].w != "and"):
            return None
        way += 1
    while way < len(row) and row[way].w in _OVER:
        way += 1
    if [m.w for m in row[way : way + 3]] == ["on", "top", "of"]:
        row[way + 2].w = "on"  # "the deep from nine went on top of ten"
        way += 2
    if way + 1 >= len(row) or row[way].label != "w" or not _is_hive(row, way + 1):
        return None
    if row[way].w not in _TO and not (row[way].w == "on" and (verb is None or verb.label != "verb")):
        return None
    if verb is not None and verb.label == "verb" and row[way].w == "to" and not _only_one(row, k):
        return None  # "took the supers from one to ten"
    if verb is None:
        return gone, way + 1, "past", owner
    tense = _tense(verb)
    verb.label, verb.v, verb.rule = "verb", {"dir": "out", "tense": tense}, FROM_HIVE_TO_HIVE
    return gone, way + 1, tense, owner


def _takes(m: Mark) -> bool:
    """Whether the mark is a verb of moving, or of taking off."""
    return m.v.get("step") == "moved" or m.label == "exchange" or (m.label == "verb" and m.v.get("dir") == "out")


def _tense(verb: Mark) -> str:
    if "tense" in verb.v:
        return str(verb.v["tense"])
    return "ing" if verb.w.endswith("ing") else "past" if verb.w.endswith("ed") else "base"


def _past_hive(row: list[Mark], k: int) -> int | None:
    """The index after "from" at `k` and the hive behind it; None where no hive is."""
    if k + 2 < len(row) and row[k].w in ("out", "off") and row[k + 1].w in ("of", "from"):
        k += 1
    elif not (k < len(row) and row[k].w in ("from", "off")):
        return None
    k += 2 if k + 1 < len(row) and row[k + 1].label == "hive" else 1
    return k + 1 if k < len(row) and (row[k].label in _IDS or row[k].w in _IT) else None


def _is_hive(row: list[Mark], k: int) -> bool:
    """Whether a hive is named at `k`, and no number of things."""
    if row[k].label == "hive" and k + 1 < len(row):
        k += 1
    after = row[k + 1].label if k + 1 < len(row) else ""
    return row[k].label == "colony" or (row[k].label == "number" and after not in ("item", "noun", "hives", "days"))


def _only_one(row: list[Mark], k: int) -> bool:
    """Whether one thing is taken, and so not off each hive of a range."""
    return k > 0 and row[k - 1].w in ("a", "an", "one")


def _put_on(row: list[Mark], k: int, by: Mark, tense: str) -> list[Mark]:
    """The marks that say that the thing at `k` was put on, made of the words from `by` on."""
    number = [row[k - 1]] if k and (row[k - 1].label == "number" or row[k - 1].w in ("a", "an", "one")) else []
    again = [Mark(m.label, by.s, by.s, m.w, dict(m.v), m.rule) for m in [*number, row[k]]]
    put = Mark("verb", by.s, by.e, "put", {"dir": "in", "tense": tense}, FROM_HIVE_TO_HIVE)
    return [Mark("w", by.s, by.s, "and"), put, *again, Mark("w", by.s, by.s, "on")]
