"""Does a new statement begin at the name of a yard?"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.parting.about import AUX, done, ends_in_subject, has_verb, hives_change_hands, yard_leads
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails import another_from, with_count, with_prep


def at_yard(at: Place) -> Tail:
    """At the second yard of a statement, or one that is the subject of what follows."""
    marks, cols, q = at.marks, at.cols, at.q
    if tail := another_from(marks):
        return tail  # "sold four nucs from the pond | and two from larks"
    if at.has("yard") and at.has("hives", "cols", "number") and _on_to(marks):
        return None  # "six hives from the pond over to larks"
    if marks[-1].label == "rest" or (len(marks) > 1 and marks[-2].label == "rest" and marks[-1].w in ("of", "at")):
        return None  # "the rest of cut bank comes out friday"
    if marks[-1].label == "yard" and at.soft is None and q is not None and q.w in ("is", "gets", "get", "needs"):
        return []  # "put the wraps on wens and sawdust | larks is next week"
    if marks[-1].label == "yard" and at.soft is None and marks[-1].v["value"] == at.m.v["value"]:
        return []  # "fourteen supers at larks | larks moisture was seventeen"
    if marks[-1].label == "harvest" and marks[-1].w.split()[-1] in ("off", "from", "out") and not at.has("yard"):
        return None  # "honey off Millpond: 14 supers"
    if len(marks) > 1 and marks[-1].w in ("on", "of", "for") and marks[-2].w == "moisture":
        return None  # "moisture on the quarry honey was eighteen"
    placed = marks[-1].label == "w" and marks[-1].w in ("at", "in", "from", "the", "@")
    lead = with_prep(marks)
    if placed and q is not None and q.w in AUX and lead and cols and marks[-len(lead) - 1] is cols[-1]:
        return None  # "the wash on hive six at the quarry was twelve"
    complete = done(marks) or (at.has("yard") and at.has_cue("plan") and q is not None and q.label == "cols")
    # "hive eight two, hive fourteen one um | and the pond honey came to 90 pounds"
    complete = complete or (at.statement.opens == "soft" and [m.label for m in marks[:2]] == ["cols", "number"])
    said_of_it = q is not None and (q.label == "cue" or q.w in ("is", "are"))
    if placed and lead and said_of_it and not at.has("yard", "verb", "cols"):
        if ends_in_subject(marks[: -len(lead)]):
            return None  # "supers at larks have to come off"
    if complete and (whole := _place_of_all(marks, lead)):
        return whole  # "hive five has eggs um | that's at the pond"
    if cols and (lead or placed) and any(m.w in ("i'm", "we're") for m in marks[-4:]):
        if whole := _place_of_all(marks, lead):
            return whole  # "two supers on eight and one on nine and | i'm at the quarry myself"
    if complete and lead and lead[0].w in ("then", "now", "next") and lead[-1].w in ("to", "at", "the", "over"):
        return lead  # "hive seven is light | then over to cut bank"
    if complete and placed and cols and len(lead) > 1 and (lead[0].label == "filler" or lead[0].w == "and"):
        return lead  # "hive three clean and | over at wens the strips are due out"
    second = at.has("yard")
    if marks[-1].w == "and" and marks[-2:-1] and marks[-2].label == "yard" and not yard_leads(at.row, at.i):
        if q is not None and q.label in ("date", "each", "unit"):
            return None  # "vaped heath and low field this morning"
    if second and complete and (job := _job_elsewhere(at)):
        return job  # "there at sawdust and um | the cells go in at the pond"
    listed_below = q is not None and q.w == ":" and all(x.label in ("change", "comma") or x.w == "also" for x in marks)
    if listed_below and at.has("change"):
        return None  # "also dead, Mill Lane: 55 and 61"
    if not (complete or at.has("amount") or (second and (at.strong or at.has("number", "noun")))):
        return None
    if at.has("amount") and not (second or placed or lead) and q is not None and q.label in ("amount", "number"):
        return lead  # "gave three and a half buckets | the pond two barrels"
    headed = placed and not cols and q is not None and q.w == ":"
    if not (second or (yard_leads(at.row, at.i) and not headed)) or hives_change_hands(marks):
        return None
    denied = marks[-len(lead) - 1] if len(marks) > len(lead) else None
    if denied is not None and denied.label == "cue" and denied.w in ("not", "but not") and has_verb(marks):
        return [denied, *lead]  # "put guards on heath | not at low field"
    return with_count(marks, lead)


_TO_THERE = frozenset("to over up down out the".split())
_FROM_THERE = frozenset(["from", "off", "of"])
_CARRIES = listed("carrying")


def _on_to(marks: list[Mark]) -> bool:
    """Whether the marks end in "to", "over to the", and something is carried from the yard named before."""
    k = len(marks)
    while k > 0 and marks[k - 1].w in _TO_THERE:
        k -= 1
    if "to" not in [m.w for m in marks[k:]] or any(m.label in HEADS for m in marks[:k]):
        return False
    left = any(x.label == "yard" and m.w in _FROM_THERE for m, x in pairwise(marks[:k]))
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
