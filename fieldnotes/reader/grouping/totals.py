"""A sum told before its parts: "got three swarms, two at the pond and one at wens", "lost nine, four at larks …"."""

from __future__ import annotations

from fieldnotes.reader.mark import Mark

_PLACED = frozenset("at in on from off of out over to".split())
_BETWEEN = frozenset(["comma", "filler"])
_SUMMED = frozenset(["number", "change", "hives", "amount"])
_FAR = 8


def parts_of_a_sum(row: list[Mark]) -> list[Mark]:
    """The row with each sum that its parts, told by their yards, add up to turned into the first of them: nothing is
    counted twice. Where they do not add up, the row stays as it is.
    """
    yards = [k for k, m in enumerate(row) if m.label == "yard"]
    if len(yards) < 2:
        return row
    struck: set[int] = set()
    k = 0
    while k < len(yards):
        parts = [_number_before(row, yards[k])]
        while parts[-1] is not None and k + 1 < len(yards):
            number = _number_before(row, yards[k + 1])
            if number is None or not _follows(row, yards[k], number):
                break
            parts.append(number)
            k += 1
        numbers = [x for x in parts if x is not None]
        total = _sum_before(row, numbers) if len(numbers) > 1 else None
        if total is not None:
            first = row[numbers[0]]
            total.v["n"] = first.v["n"]
            total.v.setdefault("struck", []).append((first.s, first.e))
            struck.add(numbers[0])
        k += 1
    return [m for n, m in enumerate(row) if n not in struck] if struck else row


def _number_before(row: list[Mark], yard: int) -> int | None:
    """The index of the number that stands before the yard and its word of place: "| two | at the pond"."""
    k = yard - 1
    while k > 0 and (row[k].w in _PLACED or row[k].w == "the"):
        k -= 1
    plain = 0 <= k < yard - 1 and row[k].label == "number" and row[k].v["n"].whole
    return k if plain else None


def _follows(row: list[Mark], yard: int, number: int) -> bool:
    """Whether nothing but a joining word stands between the yard of one part and the number of the next."""
    return yard < number and all(m.label in _BETWEEN or m.w in ("and", "plus") for m in row[yard + 1 : number])


def _sum_before(row: list[Mark], parts: list[int]) -> Mark | None:
    """The number shortly before the parts that they add up to."""
    whole = sum(row[k].v["n"].value for k in parts)
    for m in reversed(row[max(0, parts[0] - _FAR) : parts[0]]):
        if m.label in ("stop", "line", "yard"):
            return None
        if m.label in _SUMMED and "n" in m.v:
            return m if m.v["n"].value == whole else None
    return None
