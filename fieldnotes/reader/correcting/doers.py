"""Who did it: "who pinched the queen … that was Bo", "no, it was Bo who clipped her"."""

from __future__ import annotations

from fieldnotes.reader.correcting.striking import FAR
from fieldnotes.reader.mark import DEEDS, Mark

_IT_WAS = frozenset("it that was it's that's its thats actually".split())
_ASKED = frozenset("asked asks wondered me us asking is was wanted to know wants".split())


def who_it_was(row: list[Mark], cue: int) -> tuple[list[Mark], int] | None:
    """ "Ada asked me who pinched the queen in nine, well, that was Bo": the answer stands in the place of "who"."""
    k = next((k for k in range(cue + 1, min(len(row) - 2, cue + FAR // 2)) if row[k].w in ("that", "it")), None)
    if k is None or row[k + 1].w != "was" or row[k + 2].label != "person":
        return None
    between = row[cue + 1 : k]
    if any(x.label == "line" for x in between) or not any(x.label in DEEDS for x in between):
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


def other_doer(row: list[Mark], cue: int) -> tuple[list[Mark], int] | None:
    """ "Ada clipped her on Saturday, no, it was Bo who clipped her": somebody else did it."""
    k = cue + 1
    while k < len(row) and row[k].w in _IT_WAS:
        k += 1
    said = k > cue + 1 or row[cue].w.split()[-1] in _IT_WAS  # "no, sorry, it was", "no it was"
    if not said or k == len(row) or row[k].label != "person":
        return None
    near = row[max(0, cue - FAR) : cue]
    old = next((x for x in reversed(near) if x.label == "person"), None)
    if old is None:
        return None
    end = k + 1
    if end < len(row) and row[end].w in ("who", "that"):
        end += 1
        if end < len(row) and row[end].label in DEEDS:
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
