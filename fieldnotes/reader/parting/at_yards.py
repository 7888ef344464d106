"""Does a new statement begin at the name of a yard?"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import TAKEN_FROM, Mark
from fieldnotes.reader.parting.about import (
    AUX,
    done,
    ends_in_subject,
    has_verb,
    hives_change_hands,
    predicate_follows,
    yard_leads,
)
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.joining import with_prep
from fieldnotes.reader.parting.tails.numbers import another_from, with_count
from fieldnotes.reader.parting.words import CLOSED


def at_yard(at: Place) -> Tail:
    """At the second yard of a statement, or one that is the subject of what follows."""
    marks = at.marks
    if tail := another_from(marks):
        return tail  # "sold four nucs from the pond | and two from larks"
    if others := _of_other_hives(at):
        return others  # "l eleven has no eggs | then oxalic sponges in at wens"
    lead = with_prep(marks)
    if _place_of_what_was_said(at, lead):
        return None
    if _told_of_the_yard(at):
        return []
    complete = _complete(at)
    if complete and at.q is not None and (at.q.w == "next" or _somebody_works_there(at, lead)):
        paused = marks[-1:] if marks[-1].label == "filler" else []
        return lead or paused  # "escapes off all of them | um cut bank next"
    if begins := _goes_there(at, lead, complete) or (_then_that_day(marks, lead) if complete else []):
        return begins
    second = at.has("yard")
    if not second and complete and _bare_after_joint(at, lead):
        return lead  # "gave it some fondant | and quarry road alcohol wash", "got a reducer | so sawmill this morning"
    if second and _one_of_several(at):
        return None
    if second and complete and (job := _job_elsewhere(at)):
        return job  # "there at sawdust and um | the cells go in at the pond"
    if _heads_a_list(at):
        return None
    if at.has("round") and at.has("date") and lead and yard_leads(at.row, at.i):
        return lead  # "second round is in five days | and then wens gets strips"
    if not (complete or at.has("amount") or (second and (at.strong or at.has("number", "noun")))):
        return None
    if second and complete and not lead and at.q is not None and at.q.label == "cols":
        if marks[-1].label in CLOSED and predicate_follows(at.row, at.i + 1):
            return []  # "40 to 43 moved to the quarry last night | cut bank sixty two is light"
    placed = _placed(marks)
    if at.has("amount") and not (second or placed or lead) and at.q is not None and at.q.label in ("amount", "number"):
        return lead  # "gave three and a half buckets | the pond two barrels"
    headed = placed and not at.cols and at.q is not None and (at.q.w == ":" or _is_done(at))
    if not (second or (yard_leads(at.row, at.i) and not headed)) or hives_change_hands(marks):
        return None
    denied = marks[-len(lead) - 1] if len(marks) > len(lead) else None
    if denied is not None and denied.label == "cue" and denied.w in ("not", "but not") and has_verb(marks):
        return [denied, *lead]  # "put guards on heath | not at low field"
    return with_count(marks, lead)


def _is_done(at: Place) -> bool:
    """ "formic pads at larks - done on Monday"."""
    assert at.q is not None
    return at.q.w in ("-", "–", "—") and at.z is not None and at.z.v.get("does") == "do"


def _somebody_works_there(at: Place, lead: list[Mark]) -> bool:
    """ "moved ten over to the cider mill | and from cut bank i'm moving 63": who works there is said behind it."""
    if at.q is None or at.q.w not in ("i'm", "i", "we", "we're") or not lead or lead[0].w not in ("and", "then", "so"):
        return False
    return at.z is not None and at.z.label in ("change", "verb", "queen_work")


NEXT_PLACE = listed("next_place")
_TO_OTHERS = frozenset("moved combined sold bought nuc_made split swarm_caught".split())


def _of_other_hives(at: Place) -> list[Mark]:
    """What tells of another yard, where the roster has the colonies of the statement elsewhere; none where hives,
    queens or cells go from one yard to another.
    """
    marks = at.marks
    last = max((k for k, x in enumerate(marks) if x.label == "cols"), default=-1)
    if last < 0 or not marks[last].v.get("homes") or at.m.v["value"] in marks[last].v["homes"]:
        return []
    if any(x.v.get("step") == "sold" for x in marks) and at.q is not None and at.q.label == "cols":
        lead = with_prep(marks)
        if lead and at.m.v["value"] in at.q.v.get("homes", ()) and predicate_follows(at.row, at.i + 1):
            return lead  # "sold n one and n two | at wens seventy six is heavy"
    if at.has("queen_work", "queen_noun") or any(x.v.get("step") in _TO_OTHERS for x in marks):
        return []
    if _place_of_all(marks, with_prep(marks)):
        return []  # "hive five has eggs um that's at the pond"
    begins = [k for k in range(last + 1, len(marks)) if marks[k].label == "filler" and _told(marks[:k])]
    begins = begins or [k for k in range(last + 1, len(marks)) if marks[k].w in NEXT_PLACE]
    begins = begins or [k for k in range(last + 1, len(marks)) if marks[k].w in _JOINTS and _told(marks[:k])]
    return marks[begins[-1] :] if begins else []


def _told(marks: list[Mark]) -> bool:
    """Whether the marks are complete, or tell what was not done at their colonies ("I did not do hive twelve")."""
    return done(marks) or any(x.label == "cue" and x.v.get("cue") == "not" for x in marks)


def _placed(marks: list[Mark]) -> bool:
    """Whether a word of place stands right before the yard."""
    return marks[-1].label == "w" and marks[-1].w in ("at", "in", "from", "the", "@")


def _place_of_what_was_said(at: Place, lead: list[Mark]) -> bool:
    """Whether the yard is the place of what stands before it, or where that goes; `lead` are the words of place."""
    marks, last, q = at.marks, at.marks[-1], at.q
    if at.has("yard") and at.has("hives", "cols", "number") and _on_to(marks):
        return True  # "six hives from the pond over to larks"
    if last.label == "rest" or (len(marks) > 1 and marks[-2].label == "rest" and last.w in ("of", "at")):
        return True  # "the rest of cut bank comes out friday"
    if last.label == "harvest" and last.w.split()[-1] in ("off", "from", "out") and not at.has("yard"):
        return True  # "honey off Millpond: 14 supers"
    if lead and marks[-len(lead) - 1 :][0].w.split()[-1] == "harvest" and q is not None and q.w in AUX:
        return True  # "harvest at cut bank was ninety pounds"
    if len(marks) > 1 and last.w in ("at", "in", "of") and (marks[-2].label == "every" or marks[-2].w == "all"):
        if q is not None and q.label == "change" and at.z is not None and at.z.label == "cols":
            return True  # "feeders on everybody at cut bank | moved forty five to the quarry"
    if len(marks) > 1 and last.w in ("on", "of", "for") and marks[-2].w == "moisture":
        return True  # "moisture on the quarry honey was eighteen"
    if q is None or not lead or not _placed(marks):
        return False
    if q.w in AUX and at.cols and marks[-len(lead) - 1] is at.cols[-1]:
        return True  # "the wash on hive six at the quarry was twelve"
    if (q.label == "cue" or q.w in ("is", "are")) and not at.has("yard", "verb", "cols"):
        return ends_in_subject(marks[: -len(lead)])  # "supers at larks have to come off"
    return False


def _told_of_the_yard(at: Place) -> bool:
    """Whether something is told of the yard right after another yard, or the same, was named."""
    last, q = at.marks[-1], at.q
    if last.label != "yard" or at.soft is not None:
        return False
    if q is not None and q.w in ("is", "gets", "get", "needs"):
        return True  # "put the wraps on wens and sawdust | larks is next week"
    return bool(last.v["value"] == at.m.v["value"])  # "fourteen supers at larks | larks moisture was seventeen"


def _complete(at: Place) -> bool:
    """Whether the marks are complete enough for another yard to begin anew."""
    marks, q = at.marks, at.q
    if done(marks) or (at.has("yard") and at.has_cue("plan") and q is not None and q.label == "cols"):
        return True
    # "hive eight two, hive fourteen one um | and the pond honey came to 90 pounds"
    return at.statement.opens == "soft" and [m.label for m in marks[:2]] == ["cols", "number"]


def _goes_there(at: Place, lead: list[Mark], complete: bool) -> list[Mark]:
    """The words that tell that somebody is at the yard, or goes on to it; `lead` are the words of place."""
    marks = at.marks
    placed = _placed(marks)
    if complete and (whole := _place_of_all(marks, lead)):
        return whole  # "hive five has eggs um | that's at the pond"
    if at.cols and (lead or placed) and any(m.w in ("i'm", "we're") for m in marks[-4:]):
        if whole := _place_of_all(marks, lead):
            return whole  # "two supers on eight and one on nine and | i'm at the quarry myself"
    if not complete or not lead:
        return []
    if lead[0].w in ("then", "now", "next", "so") and lead[-1].w in ("to", "at", "the", "over"):
        return lead  # "hive seven is light | then over to cut bank"
    if lead[0].label == "filler" and at.q is not None and (at.q.label in HEADS or at.q.label in ("cols", "verb")):
        return lead  # "the flow is off um | sawmill 26 degrees", "two traps um | at the quarry took the guards off"
    if lead[0].w == "and" and lead[-1].w in ("at", "over") and at.q is not None and at.q.label in HEADS:
        return lead  # "the other two are heavy | and at larks alcohol wash half a cup"
    if placed and at.cols and len(lead) > 1 and (lead[0].label == "filler" or lead[0].w == "and"):
        return lead  # "hive three clean and | over at wens the strips are due out"
    return []


_JOINTS = frozenset("and so then".split())


def _bare_after_joint(at: Place, lead: list[Mark]) -> bool:
    """Whether only a joining word stands before the yard, and what is told of it comes after."""
    q = at.q
    if not lead or q is None or not all(m.label in ("filler", "comma") or m.w in _JOINTS for m in lead):
        return False
    if lead[-1].w == "and" and at.has("each", "every", "rest"):
        return False  # "strips in every hive there and at larks"
    return q.label in HEADS or q.label in ("cols", "date", "hive", "hives", "verb") or q.w in ("hive", "i", "we", "the")


def _then_that_day(marks: list[Mark], lead: list[Mark]) -> list[Mark]:
    """ "that got a reducer | then today in larkfield I make sugar roll": the joining word, the day and the words of
    place that end the marks.
    """
    k = len(marks) - len(lead) - 1
    if k < 2 or not lead or lead[-1].w not in ("in", "at", "the", "over") or marks[k].label != "date":
        return []
    return marks[k - 1 :] if marks[k - 1].w in ("then", "so", "and") and done(marks[: k - 1]) else []


def _one_of_several(at: Place) -> bool:
    """ "vaped heath and low field this morning"."""
    marks, q = at.marks, at.q
    joined = marks[-1].w == "and" and bool(marks[-2:-1]) and marks[-2].label == "yard"
    return joined and q is not None and q.label in ("date", "each", "unit") and not yard_leads(at.row, at.i)


def _heads_a_list(at: Place) -> bool:
    """ "also dead, Mill Lane: 55 and 61"."""
    if at.q is None or at.q.w != ":" or not at.has("change"):
        return False
    return all(x.label in ("change", "comma") or x.w == "also" for x in at.marks)


_TO_THERE = frozenset("to over up down out the".split())
_CARRIES = listed("carrying")


def _on_to(marks: list[Mark]) -> bool:
    """Whether the marks end in "to", "over to the", and something is carried from the yard named before."""
    k = len(marks)
    while k > 0 and marks[k - 1].w in _TO_THERE:
        k -= 1
    if "to" not in [m.w for m in marks[k:]] or any(m.label in HEADS for m in marks[:k]):
        return False
    left = any(x.label == "yard" and m.w in TAKEN_FROM for m, x in pairwise(marks[:k]))
    return left or any(m.w.split()[0] in _CARRIES for m in marks[:k] if m.label in ("verb", "w"))


def _job_elsewhere(at: Place) -> list[Mark]:
    """The marks after the first yard, where that ends what was said before and a job for the second yard follows."""
    k = next(x for x, m in enumerate(at.marks) if m.label == "yard") + 1
    before, job = at.marks[:k], at.marks[k:]
    joined = any(m.label == "filler" for m in job[:2]) and not at.cols
    return job if joined and not any(m.label in HEADS or m.label == "amount" for m in before) and done(job) else []


def _place_of_all(marks: list[Mark], lead: list[Mark]) -> list[Mark]:
    """ "um that's at", "this is all at", "and I'm at" before a yard: where all that was said before is."""
    end = len(marks) - len(lead)
    k = end
    while k > 0 and (marks[k - 1].w in ("all", "is", "was", "were") or marks[k - 1].w.startswith("that's all")):
        k -= 1
    named = ("that's", "i'm", "we're") if k == end else ("that's", "this", "these", "that", "those")
    if k > 0 and marks[k - 1].w in named:
        k -= 1
    elif k == end or not marks[k].w.startswith("that's"):
        return []
    while k > 0 and (marks[k - 1].label in ("filler", "comma") or marks[k - 1].w in ("and", "oh")):
        k -= 1
    if k > 0 and marks[k - 1].w in ("at", "in", "to", "from"):
        return []  # "five and six at larks, no not larks, i'm at the quarry, two each": the place put right
    return marks[k:]
