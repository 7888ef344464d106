"""What an "if" or a plan does to its neighbours in the same sentence."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance, cues, tense
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.making.message import NEAR, Message
from fieldnotes.reader.mark import THINGS
from fieldnotes.reader.marking.handed import FROM_HIVE_TO_HIVE

_SHARES = grammar().tables["one_cue_for_both"]


def spread(msg: Message, stances: list[Stance]) -> None:
    """What an "if" or a plan does to its neighbours in the same sentence."""
    s = msg.statements
    planned_day = None
    planning = -1  # the sentence that "plan for the week" opened
    for i, stance in enumerate(stances):
        if i and s[i].opens == "soft" and any(m.rule == FROM_HIVE_TO_HIVE for m in s[i].all("verb")):
            _as_one(stances[i - 1], stance)
        if stance.state == "done" and s[i].has("cols") and "for" in s[i].words and _meant_for(s[i]):
            stance.state = "planned"
        if _opens_plan(s[i]):
            planning = s[i].sentence
            planned_day = stance.when if s[i].has("date") else None
        elif _plan_leads(s, i):
            stance.state = "planned"
            if stance.said is None:
                stance.carried = stances[i - 1].when
        elif stance.state == "done" and s[i].sentence == planning:
            if tense(s[i]) == "past" or stance.ahead is False or s[i].has("mites", "value", "fact"):
                planning = -1
            elif s[i].has("date") or planned_day is not None:
                stance.carried = planned_day
                stance.state = "planned"  # "plan for the week: dribble at the quarry wednesday | thursday patties"
        elif stance.state == "planned" and s[i].sentence == planning and not s[i].has("date"):
            stance.carried = stance.carried or planned_day  # "… and we need to bring the cages"
        if stance.state == "conditional" and stance.condition_only and not _may_be(s[i]):
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
                and s[i - 1].has_any(THINGS)
                and not (after < len(s) and s[after].has("agent", "form", "item", "feed", "queen_work", "change"))
            )
            if (
                after < len(s)
                and not planned_before
                and s[after].sentence == s[i].sentence
                and stances[after].state in ("done", "planned", "not_done")
                and (tense(s[after]) != "past" or cues(s[after], "plan") or either_tense(s[after]))
                and not (s[i].marks[-1].v.get("cue") != "if" and _only_told(s[after]))
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
                        and s[before].has_any(THINGS)
                        and not s[before].has("mites", "value", "fact", "each")
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
            and not _days_of_count(s[i - 1])
        ):
            stance.state = stances[i - 1].state
            if stance.said is None and stance.state == "planned":
                stance.carried = stances[i - 1].when
        if i and stance.state == "planned" and stance.said is None and _to_do_as_well(s[i - 1], s[i]):
            stance.carried = stance.carried or stances[i - 1].when
        if stance.state == "done" and i + 1 < len(stances) and _will_do_it(s[i], stance, s[i + 1], stances[i + 1]):
            stance.state = "planned"
        if i and stance.state == "done" and _planned_too(s[i - 1], stances[i - 1], s[i], stance):
            stance.state = "planned"
        if (
            i
            and stances[i - 1].asked
            and s[i].opens == "soft"
            and s[i].sentence == s[i - 1].sentence
            and not stance.asked
        ):
            lead = list(s[i].marks[:3])
            if any(m.w in ("or", "and", "before", "after") for m in lead[:1]) and not s[i].has("cols"):
                stance.asked = True


def _to_do_as_well(before: Statement, s: Statement) -> bool:
    """ "going there on Friday to take the supers off | and to put the pads in": the same day."""
    lead = [m.w for m in s.marks if m.label not in ("comma", "filler")][:2]
    return lead == ["and", "to"] and s.opens == "soft" and before.sentence == s.sentence


_ARE = frozenset("is are they're those're 's were".split())


def _meant_for(s: Statement) -> bool:
    """ "the eight frames of foundation are for 53", "the guards, they're for 70": what things are to be put on."""
    said = s.marks
    meant = any(
        a.w in _ARE and b.w == "for" and c.label == "cols" for a, b, c in zip(said, said[1:], said[2:], strict=False)
    )
    return meant and s.has("item", "feed", "form") and not s.has("date", "cue", "each")


def _as_one(taken: Stance, put: Stance) -> None:
    """ "need to move a super from eight | to fourteen tomorrow": taken off and put on in one go."""
    taken.state = put.state = put.state if taken.state == "done" else taken.state
    taken.said = put.said = put.said or taken.said


def _may_be(s: Statement) -> bool:
    """ "she might be about to lay, | look again thursday": a guess, on which nothing hangs."""
    return any(m.w.split()[0] in ("might", "may") for m in cues(s, "if"))


def _only_told(s: Statement) -> bool:
    """ "if not I leave it, | L13 had four": counted or seen, and nothing that hangs on the "if"."""
    told = s.has("cols") and s.has("mites", "value", "clean", "percent", "fact")
    return told and not s.has("agent", "form", "item", "feed", "verb", "cue", "queen_work", "change")


_OF_DOING = frozenset("do it that those them i we the he she and so".split())


def _will_do_it(s: Statement, stance: Stance, after: Statement, then: Stance) -> bool:
    """ "oav at wens on saturday, whole yard, | I'll do it": who will do it says that the day lies ahead."""
    if then.state != "planned" or after.sentence != s.sentence or then.said is not None or not after.has("pronoun"):
        return False
    if not all(m.label in ("cue", "pronoun", "comma", "filler", "person") or m.w in _OF_DOING for m in after.marks):
        return False
    does = any(m.w in ("do", "take") for m in after.all("verb", "w")) or any(
        m.w.endswith(" do") for m in after.all("cue")
    )
    day = stance.said
    bare = day is not None and day.form in ("weekday", "dom", "md") and day.ahead is None
    return does and bare and tense(s) == "" and (s.has_any(THINGS) or s.has("method", "queen_work"))


def _planned_too(before: Statement, held: Stance, s: Statement, stance: Stance) -> bool:
    """ "need to charge the battery | then cells into one monday | supers off two friday": jobs, each with its day."""
    day = stance.said
    if held.state != "planned" or before.sentence != s.sentence or day is None or day.form not in ("weekday", "dom"):
        return False
    joined = any(m.w in ("and", "then") or m.label == "comma" for m in s.marks[:2])
    return (
        joined
        and day.ahead is None
        and tense(s) == ""
        and s.has("agent", "form", "item", "feed", "queen_work", "method")
    )


def _opens_plan(s: Statement) -> bool:
    """Whether "plan for the week", "the list for tomorrow" or the like opens the statement."""
    told = [m for m in s.marks if m.label not in ("filler", "comma") and m.w not in _BEFORE_PLAN]
    if [m.w for m in told[1:2]] == ["'s"] and told[0].label == "date" and told[2:]:
        return bool(told[0].v["value"].ahead is not False and told[2].w in _PLANS)  # "tomorrow's list, at larks …"
    if not told or told[0].label not in ("cue", "w"):
        return False
    first = told[0].w.removeprefix("the ").split()[0]
    if first == "for":  # "for tomorrow, supers on l four, then …"
        return len(told) > 1 and told[1].label == "date" and bool(told[1].v["value"].is_to_come) and tense(s) != "past"
    return told[0].label == "cue" and first in _PLANS


_PLANS = frozenset("plan plans jobs list".split())
_BEFORE_PLAN = frozenset("so and the okay my our here's that's this is".split())


def _days_of_count(s: Statement) -> bool:
    """Whether "in two days" is said of a count ("S7 six mites in two days"): how long a board was in, no plan."""
    mark = s.first("date")
    return mark is not None and mark.v["value"].form == "days" and s.has("mites", "value")


def _plan_leads(s: list[Statement], i: int) -> bool:
    """ "the plan is early june | we put supers on everything"."""
    if i == 0 or s[i - 1].sentence != s[i].sentence or s[i - 1].has_head:
        return False
    said = [m.w.removeprefix("the ") for m in cues(s[i - 1], "plan")]
    leads = bool(said) and said[0].split()[0] in ("plan", "plan's") and any("is" in m.w.split() for m in s[i - 1].marks)
    return leads and (either_tense(s[i]) or tense(s[i]) != "past") and s[i].has("agent", "form", "item", "feed", "verb")


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
    if any(m.w == "then" for m in lead) and s.has_any(THINGS) and not s.has("verb", "date", "cols"):
        return True
    rest = s.marks[len(lead) :]
    if not rest:
        return False
    first = rest[0]
    plan_base = any(m.label == "cue" and m.v.get("cue") == "plan" for m in before.marks)
    if first.label == "verb":
        return first.w.split()[0] in _SHARES["work"] and plan_base
    if first.label in ("method", "check") and plan_base:
        return first.w.split()[0] in _SHARES["checks"]
    return (
        first.label in ("agent", "form", "item", "feed", "number")
        and any(m.w in ("and", "or") for m in lead)
        and not s.has("verb")
        and plan_base
        and all(m.label != "comma" for m in lead)
    )
