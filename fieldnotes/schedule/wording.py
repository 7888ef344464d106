"""Words for people: colonies in ranges, and where something is to be done."""

from __future__ import annotations

from collections.abc import Sequence

from fieldnotes.roster import colony_key

NO_YARD = "Yard not said"


def id_ranges(cids: Sequence[str]) -> str:
    """Colony ids as a person lists them: "3–9, 12, N1–N6"."""
    known = sorted({colony_key(c): c for c in cids}.items())
    parts: list[str] = []
    n = 0
    while n < len(known):
        (letters, number, rest), _ = known[n]
        last = n
        while last + 1 < len(known) and not rest and known[last + 1][0] == (letters, number + last + 1 - n, ""):
            last += 1
        if last - n >= 2:
            parts.append(f"{known[n][1]}–{known[last][1]}")
        else:
            parts += [cid for _, cid in known[n : last + 1]]
        n = last + 1
    return ", ".join(parts)


def where(yard: str, cids: Sequence[str], every: bool, spared: Sequence[str], count: int | None) -> str:
    """Where to do it: "Millpond 3–9, 12", "Quarry, every colony but 4", "Larkfield, 10 hives"."""
    name = yard or NO_YARD
    if every:
        return f"{name}, every colony" + (f" but {id_ranges(spared)}" if spared else "")
    if cids and count is not None:
        return f"{name}, {count} of {id_ranges(cids)}"
    if cids:
        return f"{name} {id_ranges(cids)}" if yard else f"{id_ranges(cids)} (yard not said)"
    if count is not None:
        return f"{name}, {count} {'hive' if count == 1 else 'hives'}"
    return yard
