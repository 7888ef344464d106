""" "Everything past fifty": all colonies of a yard from some number on, or up to it, by the roster."""

from __future__ import annotations

from fieldnotes.reader.grouping.row import RANGE
from fieldnotes.reader.mark import REACH, Mark
from fieldnotes.reader.outfit import Outfit
from fieldnotes.roster import id_parts

BEYOND = frozenset("past above over beyond under below from after".split())
_LOWER = frozenset(["under", "below"])
_UP = frozenset("up on onward onwards upward upwards".split())
_NOT_HIVES = frozenset("noun unit amount item days hives each percent number".split())


def beyond(row: list[Mark], outfit: Outfit) -> None:
    """Makes one mark of "everything past fifty", the colonies that the roster has there; a plain word of "everything"
    where no yard is clear. In place.
    """
    for k in range(len(row) - 3, -1, -1):
        if k + 3 > len(row):
            continue  # what stood there is one mark by now
        every, way, m = row[k : k + 3]
        if every.label != "every" or way.w not in BEYOND or m.label not in ("number", "colony"):
            continue
        end = k + 3
        after = row[end] if end < len(row) else None
        if after is not None and (after.label in _NOT_HIVES or (way.w == "from" and after.w in RANGE)):
            continue
        if way.w in ("from", "after") and after is not None and after.w == "on" and end + 1 < len(row):
            end += row[end + 1].w in _UP  # "from fifty on up"
        upward = after is not None and after.w in _UP
        if way.w == "from" and not upward:
            continue
        ids = _ids_there(row, k, m, way.w, outfit)
        if not ids:
            every.label = "w"
            continue
        end += upward and way.w in ("from", "after")
        text = " ".join(x.w for x in row[k:end])
        row[k:end] = [Mark("cols", every.s, row[end - 1].e, text, {"ids": ids, "bare": False}, "everything past")]


def _ids_there(row: list[Mark], k: int, m: Mark, way: str, outfit: Outfit) -> list[str]:
    """The colonies on that side of the one named, in its yard; none where its yard is not clear."""
    said = str(m.v["value"]) if m.label == "colony" else str(int(m.v["n"].value))
    yards = [x.v["value"] for x in row[max(0, k - REACH) : k + REACH] if x.label == "yard"]
    homes = outfit.homes_of(said)
    named = [y for y in yards if y in homes]
    if not named and len(homes) != 1:
        return []
    yard = named[-1] if named else next(iter(homes))
    letter, number = id_parts(said)
    letter = letter or ("" if said in outfit.yard_ids[yard] else outfit.single_letter.get(yard, ""))
    low = float(number)
    there = [(cid, *id_parts(cid)) for cid in outfit.ids_at(yard)]
    side = [(cid, float(n)) for cid, x, n in there if x == letter and n]
    if way in _LOWER:
        return [cid for cid, n in side if n < low]
    return [cid for cid, n in side if n > low or (n == low and way == "from")]
