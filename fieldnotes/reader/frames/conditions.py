"""Weather and flow."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of, is_approx, number_of, tidy
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft


def conditions(statement: Statement, us: bool) -> Draft | None:
    """Weather and flow."""
    if not statement.has("temp", "sky"):
        return None
    temps, skies = statement.all("temp"), statement.all("sky")
    nots = [k for k, m in enumerate(statement.marks) if m.label == "cue" and m.v.get("cue") == "not"]
    skies = [
        m
        for m in skies
        if (m.v.get("flow") or not any(k < index_of(statement, m) for k in nots)) and not _other_time(statement, m)
    ]
    if not temps and not skies:
        return None
    draft = Draft("conditions")
    loose = statement.all("number", "value")
    if not temps and skies and (beside := _beside(statement, skies[0])):
        temps = [beside]
    elif (
        not temps
        and len(loose) == 1
        and not statement.has("cols", "method", "mites", "feed", "item", "amount")
        and -30 <= number_of(loose[0]).value <= 115
        and number_of(loose[0]).value != 0
        and loose[0].w not in ("one", "two", "three")
    ):
        temps = loose  # "76 and clear"
    for m in temps:
        if "unit" not in m.v and m.w.split()[-1] in ("c", "celsius", "°c"):
            m.v["unit"] = "C"
        value = number_of(m).value * m.v.get("sign", 1)
        draft.put(m.v.get("slot", "temp"), tidy(value), m.rule)
        draft.put("unit", m.v.get("unit", "F" if us else "C"), m.rule)
        draft.spans.append((m.s, m.e))
        if is_approx(statement, m):
            draft.put("approx", True, "about")
    for m in skies:
        for slot in ("sky", "flow"):
            if m.v.get(slot):
                draft.put(slot, m.v[slot], m.rule)
        draft.spans.append((m.s, m.e))
    return draft


def _beside(statement: Statement, sky: Mark) -> Mark | None:
    """ "quarry thirty four and windy, hefted two and nine": the number that the weather says is one of degrees, also
    where more is told in its breath.
    """
    before = statement.marks[: index_of(statement, sky)]
    if len(before) < 2 or before[-1].w != "and" or before[-2].label != "number":
        return None
    opens = all(m.label in ("yard", "date", "filler", "comma") or m.w in _LEADS for m in before[:-2])
    return before[-2] if opens and _FEW < number_of(before[-2]).value <= 115 else None


_LEADS = frozenset("at it was it's so okay and here".split())
_FEW = 12
"""Up to about so many hives or things are spoken of more often than degrees."""


def _other_time(statement: Statement, m: Mark) -> bool:
    """ "after the first hard frost", "before the rain": weather that only dates something else."""
    k = index_of(statement, m)
    if any(x.label == "cue" and x.w.endswith("supposed to") for x in statement.marks[max(0, k - 3) : k]):
        return True  # "we're supposed to get frost saturday"
    return any(
        x.label == "w" and x.w in ("after", "before", "until", "till") for x in statement.marks[max(0, k - 3) : k]
    )
