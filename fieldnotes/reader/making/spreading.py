"""What an "if" or a plan does to its neighbours in the same sentence."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance, cues, tense
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.making.message import NEAR, Message


def spread(msg: Message, stances: list[Stance]) -> None:
    """What an "if" or a plan does to its neighbours in the same sentence."""
    s = msg.statements
    for i, stance in enumerate(stances):
        if stance.state == "conditional" and stance.condition_only:
            after = i + 1
            while (
                after < min(len(s), i + NEAR)
                and s[after].sentence == s[i].sentence
                and not s[after].has_head
                and not s[after].has("pronoun", "verb")
            ):
                after += 1
            planned_before = (
                i > 0
                and s[i].opens == "soft"
                and s[i - 1].sentence == s[i].sentence
                and stances[i - 1].state == "planned"
                and s[i - 1].has("agent", "form", "item", "feed")
                and not (after < len(s) and s[after].has("agent", "form", "item", "feed", "queen_work", "change"))
            )
            if (
                after < len(s)
                and not planned_before
                and s[after].sentence == s[i].sentence
                and stances[after].state in ("done", "planned", "not_done")
                and (tense(s[after]) != "past" or cues(s[after], "plan") or either_tense(s[after]))
            ):
                stances[after].state = "conditional"
                continue
            before = i - 1
            if (
                before >= 0
                and s[before].sentence == s[i].sentence
                and (
                    stances[before].state == "planned"
                    or (
                        stances[before].state == "done"
                        and tense(s[before]) == ""
                        and s[before].has("agent", "form", "item", "feed")
                        and any(m.w == "for" for m in s[before].marks)
                    )
                )
            ):
                stances[before].state = "conditional"  # "oxalic for S9 if it doesn't come down"
        if (
            i
            and stance.state == "done"
            and stances[i - 1].state in ("planned", "not_done", "conditional")
            and s[i - 1].sentence == s[i].sentence
            and shares_cue(s[i - 1], s[i])
        ):
            stance.state = stances[i - 1].state
            if stance.said is None and stance.state == "planned":
                stance.carried = stances[i - 1].when
        if (
            i
            and stances[i - 1].asked
            and s[i].opens == "soft"
            and s[i].sentence == s[i - 1].sentence
            and not stance.asked
        ):
            lead = list(s[i].marks[:3])
            if any(m.w in ("or", "and") for m in lead[:1]) and not s[i].has("cols"):
                stance.asked = True


def either_tense(s: Statement) -> bool:
    """ "if 9 is over two percent | we put strips in": "put" is no past tense here."""
    return any(
        m.label == "verb" and m.w in ("put", "set", "hit") and k and s.marks[k - 1].w in ("i", "we", "they")
        for k, m in enumerate(s.marks)
    )


def shares_cue(before: Statement, s: Statement) -> bool:
    """ "need to pull strips from 4 and put supers on 5": one cue for both."""
    if s.opens != "soft" or not s.marks:
        return False
    lead = []
    for m in s.marks:
        if m.label in ("comma", "filler") or (m.label == "w" and m.w in ("and", "then", "also", "plus", "or")):
            lead.append(m)
            continue
        break
    if not lead or any(m.label == "filler" for m in lead):
        return False
    if (
        any(m.w == "then" for m in lead)
        and s.has("agent", "form", "item", "feed")
        and not s.has("verb", "date", "cols")
    ):
        return True
    rest = s.marks[len(lead) :]
    if not rest:
        return False
    first = rest[0]
    plan_base = any(m.label == "cue" and m.v.get("cue") == "plan" for m in before.marks)
    if first.label == "verb":
        return (
            first.w.split()[0] in ("put", "set", "hit", "split", "get", "give", "add", "take", "pull", "feed", "do")
            and plan_base
        )
    return (
        first.label in ("agent", "form", "item", "feed", "number")
        and any(m.w in ("and", "or") for m in lead)
        and not s.has("verb")
        and plan_base
        and all(m.label != "comma" for m in lead)
    )
