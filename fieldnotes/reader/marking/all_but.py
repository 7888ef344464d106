""" "All of Wens except the two heavy ones, 71 and 74": the exceptions are told twice, and named the second time."""

from __future__ import annotations

from fieldnotes.reader.mark import Mark

_ONES = frozenset("ones splits hives colonies two three four five six nucs".split())
_BETWEEN = frozenset("w number fact change thing hives noun pronoun ordinal".split())
_IDS = frozenset(["number", "colony"])
_ENDS = frozenset("stop line date filler question".split())
_THEN = frozenset("because cause since they which so but that".split())
_MOST = 7
"""How many marks the exceptions are described by, at most."""


def all_but_the_ones(row: list[Mark]) -> None:
    """Leaves out how exceptions are described, where their names follow behind a comma. In place."""
    for k in range(len(row) - 1, -1, -1):
        but = row[k].w == "but" and any(m.label == "every" for m in row[max(0, k - _MOST) : k])
        if not but and (row[k].label != "cue" or row[k].v.get("cue") != "except"):
            continue
        j = k + 1
        while j < min(len(row), k + _MOST) and row[j].label in _BETWEEN:
            j += 1
        if j < k + 2 or j >= len(row) or row[j].label != "comma" or row[j - 1].w.split()[-1] not in _ONES:
            continue
        end = j + 1
        while end < len(row) and (row[end].label in _IDS or row[end].label == "comma" or row[end].w == "and"):
            end += 1
        after = row[end] if end < len(row) else None
        if end > j + 1 and (after is None or after.label in _ENDS or after.w in _THEN):
            row[k].label, row[k].v, row[k].e = "cue", {"cue": "except"}, row[j].e
            del row[k + 1 : j + 1]
