"""Does a new statement begin at work done ("gave", "requeened", "moved", "checked")?

Asked in this order: is the work part of what stands before it; is it told anew although nothing before it is complete;
then, after what is complete, is it work of a kind that begins anew, and what leads it in.
"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.parting.about import (
    AUX,
    AWAY,
    GLUE_WORDS,
    after_aux,
    before_thing,
    done,
    ends_in_subject,
    has_verb,
)
from fieldnotes.reader.parting.at_words import job_after_finding
from fieldnotes.reader.parting.elsewhere import DID_ANEW, DID_TO_QUEENS, has_own_object, object_first, worked_elsewhere
from fieldnotes.reader.parting.left_out import not_yet, reason_for_none
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.tails.joining import glue_tail, with_joins
from fieldnotes.reader.parting.tails.phrases import leads_on
from fieldnotes.reader.parting.tails.subjects import lead_nouns, passive_subject, reason_tail, so_many_cells
from fieldnotes.reader.parting.words import CLOSED

_SOMEBODY = frozenset("i'm we're he's she's they're i'll we'll he'll she'll i we he she".split())
_JOINS = frozenset("and but so cause because since then".split())
_NO_SUBJECT = frozenset(["agent", "form", "feed", "method"])
_ARTICLES = frozenset("the a an all my our its their both".split())
_GIVEN_TO = frozenset(["every", "each"])
_LOOK_AGAIN = frozenset(["check", "recheck", "retest", "rewash"])
_LEADS_TO_ING = GLUE_WORDS | frozenset(
    "for of from about without needs need start started try tried instead like was is are be been by before after "
    "while when than worth i'm we're he's she's they're it's not through".split()
)
"""Words after which "moving" or "merging" goes on with what stands before."""
_TAKES_NO_SUBJECT = frozenset("got gets get done gone going go went given".split())
"""Verbs that go on with the thing before them, where they have no verb before ("the pads | went in")."""


def at_work(at: Place) -> Tail:
    """At work done: it begins a statement where the one before has its verb, with the noun before it as its subject."""
    if _closes_the_clause(at):
        return None
    begins = first_of(
        at,
        (
            _why_left_out,
            _comes_out_then,
            _treated_for_it,
            _came_by_hives,
            _so_many_queens,
            _queen_that_is,
            worked_elsewhere,
            _after_the_rest,
            _after_denial,
            _by_another,
            _after_their_day,
            _looked_at_again,
            _honey_of_another_yard,
            _next_job,
        ),
    )
    if begins is not None:
        return begins
    marks = at.marks
    if not done(marks) or (at.m.w in ("split", "splits") and marks[-1].w in ("the", "my", "our")):
        return None  # "spray on the splits n one and n three"
    if _closes_complete_clause(at):
        return None
    begins = first_of(
        at,
        (
            _on_such_ones,
            _on_other_queens,
            _on_next_visit,
            _queens_to_come,
            _after_sight,
            _doing_those,
            _of_those_made,
            _before_treating,
        ),
    )
    return begins if begins is not None else _with_its_subject(at)


def _closes_the_clause(at: Place) -> bool:
    """Whether the work is the end of what stands before it: its verb, or the colony that is left out."""
    m, marks = at.m, at.marks
    if m.v.get("step") == "died" and any(x.v.get("cue") == "except" for x in marks[-2:]):
        return True  # "vapour on all but the dead one"
    if m.v.get("step") == "died" and marks[-1].label == "cols" and at.has("queen_work") and m.w.split()[0] in _WAS:
        if any(x.label == "queen_work" and "cell" in x.w for x in marks[-3:-1]):
            return True  # "the cell in 12 was dead"
    if m.v.get("step") == "died" and m.w.split()[0] in ("is", "was", "has") and _named_in(marks):
        return True  # "the caged queen in s four was dead"
    if m.v.get("step") == "died" and marks[-1].v.get("step") == "died" and m.w.split()[0] in _NO_BEES:
        return True  # "fourteen is dead no bees at all | seventeen is light"
    if m.w in ("got", "got about") and at.has("harvest") and not at.has("cols", "amount", "number", "item"):
        behind = [x for x in at.row[at.i + 1 : at.i + 4] if x.label != "approx"]
        if len(behind) > 1 and behind[0].label == "number" and behind[1].v.get("item") == "super":
            return True  # "honey off larks yesterday, we got 22 supers"
    if m.v.get("does") == "do" and m.v.get("tense", "past") != "ing" and _told_to_be_done(at):
        return True
    if m.label != "verb" or not m.v.get("dir"):
        return False
    if _of_same_subject(at):
        return True
    if object_first(marks):
        return True  # "thymol gel i have put in 70 to 75"
    k = len(marks)
    while k and marks[k - 1].w in _HAS_DONE:
        k -= 1  # "… i have taken off"
    if m.v["dir"] != "out" or k < _SHORTEST or marks[k - 2].label != "cols" or not _is_somebody(marks[k - 1]):
        return False
    if has_verb(marks) or not at.has("form", "agent", "item") or at.has("each", "unit", "number"):
        return False
    # "the gel in 55 he's taking out wednesday", "the excluder on 41 I took off"
    return at.q is None or at.q.label in ("date", "stop", "line", "comma", "filler") or at.q.w in _JOINS


def _told_to_be_done(at: Place) -> bool:
    """ "formic pads at larks - done on Monday, 2 per hive": that the work named before the dash is done."""
    dash = at.marks[-1].w in ("-", "–", "—") and at.m.w.split()[0] in ("done", "finished", "completed")
    return dash and not has_verb(at.marks) and at.has("agent", "form", "item", "method", "feed") and not at.cols


def _of_same_subject(at: Place) -> bool:
    """ "S11's feeder leaks and has been taken off": what was done to the thing that the clause before tells of."""
    if at.soft is None or at.soft.w not in ("and", "but") or at.m.v.get("tense") != "past" or has_verb(at.marks):
        return False
    k = len(at.marks)
    while k and at.marks[k - 1].w in AUX:
        k -= 1
    return 0 < k < len(at.marks) and at.marks[k - 1] is at.soft and at.has("item", "form", "agent")


_NO_BEES = frozenset("no not the bees all empty".split())


def _named_in(marks: list[Mark]) -> bool:
    """Whether the marks end in a queen and the colony she is in, and nothing is told yet."""
    if len(marks) < _SHORTEST or marks[-1].label != "cols":
        return False
    lead = marks[-3] if len(marks) > _SHORTEST and marks[-2].w == "in" else marks[-2]
    return lead.label in ("queen_noun", "queen_work") and "queen" in lead.w.split()


_WAS = frozenset(["was", "were", "is", "are"])
_HAS_DONE = frozenset("have already just also am".split())
_SHORTEST = 2
"""Marks of colonies and the person that works on them."""


def _is_somebody(m: Mark) -> bool:
    return m.label == "person" or m.w in _SOMEBODY


def _why_left_out(at: Place) -> Tail:
    """Why a colony was left out, in words of work."""
    m, marks = at.m, at.marks
    if m.v.get("step") == "died" and (reason := reason_for_none(marks)):
        return reason  # "51 none | (dead)"
    if m.w == "got" and marks[-1].w in ("it's", "they've", "she's") and at.has_cue("not"):
        if marks[-2:-1] == at.cols[-1:]:
            return glue_tail(marks)  # "skipped 42 | it's got plenty coming in"
    just = marks[-1:] if marks[-1].w == "just" else []
    shut = marks[: len(marks) - len(just)]
    closed = len(shut) > 1 and (shut[-1].label == "comma" or shut[-1].w in ("-", "–", "("))
    if closed and m.label in ("queen_work", "change") and at.cols and shut[-2].w.startswith("skip"):
        return [shut[-1], *just]  # "4: skip, | just requeened"
    if m.label == "change" and marks[-1].w in ("it's", "its", "they're") and at.has_cue("not") and at.cols:
        return glue_tail(marks)  # "skipped h four | because it's dead"
    return None


def _comes_out_then(at: Place) -> Tail:
    """ "pads in two weeks ago at wens | come out friday", "strips in nine today | pull them on the tenth": when what
    has gone in is to come out.
    """
    m, marks = at.m, at.marks
    if m.v.get("dir") != "out" or m.v.get("tense") != "base" or at.q is None or at.soft is not None:
        return None
    closed = marks[-1].label in CLOSED
    if at.q.label == "pronoun":
        then = any(x.label == "date" for x in at.row[at.i + 2 : at.i + 6])
        return [] if then and at.has("form", "agent") and at.has("date", "cols", "every") and closed else None
    since = any(b.label == "date" and a.w == "in" and b.v["value"].ahead is False for a, b in pairwise(marks))
    return [] if since and at.q.label == "date" and at.has("form", "agent") and closed else None


def _treated_for_it(at: Place) -> Tail:
    """ "hive two was nine percent | treated it with formic"."""
    treats = at.m.v.get("does") == "treat" and at.q is not None and at.q.w in ("it", "them", "her", "both")
    return [] if treats and at.marks[-1].label in _WHAT_WAS_COUNTED and at.cols else None


_WHAT_WAS_COUNTED = frozenset("percent mites value".split())


def _came_by_hives(at: Place) -> Tail:
    """How hives were come by: a swarm hived, hives bought at another yard."""
    m, marks = at.m, at.marks
    if m.label != "change":
        return None
    if marks[-1].label == "hives" and "n" in marks[-1].v and at.soft is None and at.cols and done(marks[:-1]):
        return marks[-1:]  # "n one and n two got fondant | three nucs died at the pond"
    if m.v.get("after_swarm", m.w.startswith("hived")) and at.has("sky"):
        if not at.has("cols", "change") and done(marks):
            return glue_tail(marks)  # "a swarm at larks in the rain | hived it as l nine"
    if marks[-1].label == "yard" and at.has("change", "date") and len(marks) > 4:
        place = next((k for k in range(len(marks) - 2, len(marks) - 5, -1) if marks[k].w == "and"), None)
        if place is not None and all(x.w in ("at", "in", "the", "over") for x in marks[place + 1 : -1]):
            if done(marks[:place]):
                return marks[place:]  # "sold eight nucs wednesday | and at Heath bought two hives"
    return None


def _so_many_queens(at: Place) -> Tail:
    """ "s eleven is dead | four spares are banked in QB", "two is weak | two more queens banked": the queens that the
    work was done to, told by their number, no word joining them to what is complete before.
    """
    marks = at.marks
    if at.m.label != "queen_work" or at.soft is not None:
        return None
    if marks[-1].label == "hives" and len(marks) > 1 and so_many_cells(marks[-1], marks[-2]):
        return [] if done(marks) else None  # "has emergency cells four of them | requeened s nine"
    k = len(marks) - (marks[-1].w in ("are", "were", "got"))
    while k > 1 and (marks[k - 1].label == "queen_noun" or marks[k - 1].w in _QUEENS_SAID):
        k -= 1
        if "n" in marks[k].v:
            break
    if k < len(marks) and "n" not in marks[k].v and k > 1:
        k -= 1
    if k == len(marks) or "n" not in marks[k].v or marks[k].label not in ("number", "queen_noun"):
        return None
    k -= len(glue_tail(marks[:k]))  # "escapes are off | while four spares are banked"
    return marks[k:] if k and done(marks[:k]) and not leads_on(marks[:k]) else None


def _queen_that_is(at: Place) -> Tail:
    """ "s three got a super | the breeder is still going strong": a queen with her verb is given to nobody."""
    marks, k = at.marks, len(at.marks)
    while k > 1 and marks[k - 1].w in ("still", "now", "just", "already"):
        k -= 1
    if k < 4 or marks[k - 1].w not in ("is", "was") or marks[k - 2].label != "queen_noun" or at.soft is not None:
        return None
    if marks[k - 3].w not in ("the", "my", "our", "that"):
        return None
    before = marks[: k - 3]
    return marks[k - 3 :] if done(before) and not leads_on(before) else None


_QUEENS_SAID = frozenset("spares extras queens virgins princesses more new old of them".split())


def _after_the_rest(at: Place) -> Tail:
    """ "the rest are good | put fondant on both", "the others strong | gave the weak ones brood"."""
    if not at.has("rest"):
        return None
    last = at.marks[-1]
    return [] if last.label == "fact" or last.w in ("good", "fine", "okay", "alright") else None


def _honey_of_another_yard(at: Place) -> Tail:
    """ "honey off larks six supers | honey off wens two supers"."""
    again = at.m.label == "harvest" and at.has("harvest") and at.has("yard") and at.has("item", "amount", "number")
    return [] if again and at.soft is None and at.q is not None and at.q.label == "yard" else None


def _looked_at_again(at: Place) -> Tail:
    """ "three has no eggs | check again in a week", "ten had two mites | recheck in a month", "treated nine | check it
    in a week": an order for a day to come, behind what was found or done.
    """
    m, last = at.m, at.marks[-1]
    if m.w.split()[0] not in _LOOKS or at.soft is not None or last.label == "cue" or last.w == "to":
        return None
    worked = bool(at.cols) and (last.w == "waiting" or has_verb(at.marks))
    if at.has_cue("plan") or not (worked or done(at.marks)):
        return None
    behind = at.row[at.i + 1 : at.i + 5]
    return [] if any(x.label == "date" and x.v["value"].ahead is not False for x in behind) else None


_LOOKS = _LOOK_AGAIN | {"look", "reinspect", "retreat"}


def _after_their_day(at: Place) -> Tail:
    """ "56 to 64 come out thursday | i washed forty two": what goes on a day to come, and then what was done."""
    marks = at.marks
    if len(marks) < 3 or marks[-1].w not in ("i", "we") or marks[-2].label != "date":
        return None
    past = at.m.v.get("tense") == "past" or (at.m.label == "method" and at.m.v.get("verb"))
    goes = any(x.label == "verb" and x.v.get("dir") and x.v.get("tense") == "base" for x in marks)
    return marks[-1:] if past and goes else None


def _on_such_ones(at: Place) -> Tail:
    """ "six is weak | supered the strong ones", "seven light | took a super off each of the heavy ones"."""
    if at.marks[-1].label not in ("fact", "change"):
        return None
    for m, after in pairwise(at.row[at.i + 1 : at.i + _AS_FAR]):
        if m.label in ("cols", "stop", "line", "pronoun"):
            return None
        if m.label == "fact":
            return [] if after.w.endswith("ones") else None
    return None


_AS_FAR = 9
"""How many marks on the colonies that work is done to may be told."""


def _after_denial(at: Place) -> Tail:
    """What was done instead of what was not done, or why it was not."""
    m, marks, q = at.m, at.marks, at.q
    if not at.has("cue"):
        return None
    of_it = q is not None and q.label == "pronoun"
    if m.label == "verb" and m.v.get("dir") and marks[-1].w in ("just", "instead") and at.has_cue("not"):
        if at.has("method", "check") and of_it:
            return glue_tail(marks)  # "I didn't even wash it | just gave it two pads"
    if m.label == "verb" and m.v.get("tense") == "past" and marks[-1].w == "just" and at.has_cue("not"):
        # "didn't open nine but | just fed it a quart"
        if not at.has("agent", "form", "item", "feed", "yard", "every") and (of_it or not at.cols):
            return marks[-1:]  # "I didn't hang about | just put candy boards on 71"
    if m.label in ("queen_work", "change") and at.cols and not_yet(at) and (reason := reason_tail(marks)):
        return reason  # "QB i skipped | because i just put a new queen in there"
    return None


def _by_another(at: Place) -> Tail:
    """ "fed one to nine and | marit fed the rest"."""
    fed = at.m.v.get("does") == "feed" and at.cols and at.marks[-1].label == "person" and has_verb(at.marks[:-1])
    return glue_tail(at.marks) if fed else None


def _next_job(at: Place) -> Tail:
    """The next thing to do, or the part of a plan that is done."""
    m, marks, q = at.m, at.marks, at.q
    if m.label == "check" and m.w.split()[0] in _LOOK_AGAIN and marks[-1].label in CLOSED and at.has_any(THINGS):
        if any(x.label == "date" and x.v["value"].is_to_come for x in at.row[at.i + 1 : at.i + 4]):
            return glue_tail(marks)  # "pads out of 41 today | recheck them in ten days"
    if m.label == "change" and job_after_finding(at):
        return []  # "41 is light | buy jars by friday"
    if m.w.startswith(AWAY) and at.has("days", "date") and at.has("pronoun"):
        return glue_tail(marks)  # "they stay 14 days | and out they come"
    if m.label == "queen_work" and m.w.split()[0] == "cells" and marks[-1].w == "took":
        return []  # "thirty six took | cells go in on the eighth"
    if m.w in _LOOK_AGAIN and marks[-1].label == "pronoun" and at.soft is None and q is not None:
        if q.label == "pronoun" and marks[-2:-1] and marks[-2].label == "w" and len(marks) > 4:
            return []  # "n two got a mated queen i caged her | check her in three days"
    if m.w == "did" and marks[-1].w in ("i", "we") and at.has_cue("plan") and at.has("item", "form", "agent"):
        if q is not None and q.label == "cols" and marks[-2:-1] and marks[-2].label not in ("cue", "person"):
            return marks[-1:]  # "all of larks needs wraps | I did one through nine today"
    return None


def _closes_complete_clause(at: Place) -> bool:
    """Whether the work belongs to the verb before it, although that is complete without it."""
    m, marks = at.m, at.marks
    if m.label == "queen_work" and marks[-1].w == "and" and marks[-2:-1] and marks[-2].label == "queen_work":
        if marks[-2].w in ("clipped", "marked", "clip", "mark"):
            return True  # "clipped and marked the queen in fifty"
    if m.label == "verb" and m.v.get("tense") == "past" and at.soft is None:
        gets = before_thing(marks, len(marks))
        if gets is not None and gets.w in ("get", "gets") and gets is not marks[-1]:
            return True  # "40 through 44 get theirs pulled thursday"
    # "20 got 1 frame of brood put in"
    return m.w == "put" and marks[-1].label == "fact" and at.q is not None and at.q.w == "in" and at.soft is None


def _on_other_queens(at: Place) -> Tail:
    """Work on some of the queens just told of, or on colonies that are joined or moved."""
    m, marks = at.m, at.marks
    if at.soft is not None or not at.cols:
        return None
    if m.label == "queen_work" and at.q is not None and at.q.w == "only":
        if at.z is not None and at.z.label == "cols":
            return []  # "l two and l seven all blue | clipped only l seven"
    if m.label in ("change", "queen_work") and m.w.split()[0].endswith("ing"):
        own = m.label == "change" and at.has("fact") and marks[-1].label == "w" and marks[-1].w not in _LEADS_TO_ING
        if marks[-1].label == "fact" or (own and not at.has("cue")):
            return []  # "l six no eggs | uniting with l seven tonight"
    return None


def _on_next_visit(at: Place) -> Tail:
    """What is to be done about what was found, where that is told without a verb."""
    m, marks, q = at.m, at.marks, at.q
    if at.soft is not None or q is None or has_verb(marks):
        return None
    tense = m.v.get("tense") if m.v.get("dir") else None
    if tense == "base" and q.label == "pronoun":
        if at.cols and at.has("fact"):
            return []  # "super on twelve weighs a ton | pull it next week"
        if at.has_cue("not") and marks[-1].label in ("yard", "cols", "every"):
            return []  # "the pads are still in at heath | pull them monday"
    if tense == "ing" and marks[-1].label in CLOSED and (q.label == "pronoun" or q.w in ("the", "both")):
        return []  # "strips in every hive but two | pulling those strips in six weeks"
    if m.w in _LOOK_AGAIN and at.cols and at.has("fact") and q.label in ("cols", "pronoun", "date"):
        return []  # "15 no eggs | recheck 15 sunday"
    if m.label == "check" and marks[-1].label == "fact":
        if any(x.label == "date" and x.v["value"].is_to_come for x in at.row[at.i + 1 : at.i + 4]):
            return []  # "cause it's queenless | check for cells in four days"
    return None


def _queens_to_come(at: Place) -> Tail:
    """Queens or cells that go in, or are let out, later."""
    if at.m.label != "queen_work":
        return None
    if at.m.w.split()[0] in ("cells", "queens") and at.has("fact") and at.soft is None:
        return []  # "left eight queenless on purpose | cells go in on the twenty first"
    if at.q is not None and at.q.label == "date" and at.has("date", "fact"):
        return glue_tail(at.marks)  # "fifty got a new queen yesterday | release friday"
    return None


def _after_sight(at: Place) -> Tail:
    """What was done to the whole yard, after what was seen in a colony or of the weather."""
    m, marks = at.m, at.marks
    if m.label != "verb" or m.v.get("tense") != "past" or at.soft is not None or has_verb(marks):
        return None
    if marks[-1].label == "fact" and at.cols and m.v.get("does") != "inspect" and _reaches_all(at):
        return []  # "74 is queenless no eggs | took the mouse guards off the whole yard"
    if marks[-1].label in ("sky", "temp") and m.v.get("dir") and not at.has("item", "agent", "form", "feed", "fact"):
        return []  # "fifty five and clear | took the mouse guards off"
    return None


def _reaches_all(at: Place) -> bool:
    """Whether the work is done to every colony, or to the rest: it is not told of the colony before it."""
    for x in at.row[at.i + 1 : at.i + 8]:
        if x.label in ("every", "rest"):
            return True
        if x.label in ("stop", "line", "comma", "filler", "cols", "verb", "cue") or x.w in ("and", "then"):
            return False
    return False


def _doing_those(at: Place) -> Tail:
    """Work on "those", "that": on what was just told of."""
    m, marks, q = at.m, at.marks, at.q
    if q is None:
        return None
    if m.w == "doing" and q.w == "that" and at.has_cue("not"):
        return []  # "the queen hasn't been released yet | doing that tomorrow"
    if q.label != "pronoun":
        return None
    if m.w == "doing":
        who = 2 if marks[-1].w in ("is", "are") and marks[-2:-1] and marks[-2].label == "person" else 1
        if marks[-who].label == "person" and done(marks[:-who]):
            return marks[-who:]  # "strips out of the pond friday | ines is doing those"
        return []  # "the guards are still on the truck | doing them saturday"
    if m.v.get("does") == "inspect" and m.v.get("tense") == "past" and at.cols and at.soft is None:
        return []  # "candy boards on four and six | hefted those two"
    return None


def _of_those_made(at: Place) -> Tail:
    """ "four nucs made up out of eleven um | two of them sold today"."""
    marks = at.marks
    if at.m.label != "change" or marks[-1].label != "hives" or "n" not in marks[-1].v:
        return None
    part = with_joins(marks[:-1])
    parted = bool(part) or marks[-2].w in (":", "-", "–") or marks[-1].w.endswith(("of them", "of em"))
    return [*part, marks[-1]] if parted and done(marks[: -1 - len(part)]) else None


def _before_treating(at: Place) -> Tail:
    """What was taken off before a treatment, and queens or colonies after it."""
    m, marks, q = at.m, at.marks, at.q
    if m.label == "verb" and m.v.get("dir") == "out" and m.v.get("tense") == "past" and at.has("agent", "form"):
        thing = at.z if q is not None and q.w in ("the", "all", "their") else q
        if thing is not None and thing.label == "item" and marks[-1].label in ("each", "date", "yard", "every", "unit"):
            return glue_tail(marks)  # "greenies in all of Heath today two a hive | took the supers off before"
    if m.label in ("queen_work", "change") and at.soft is None and at.cols and marks[-1].label in _NO_SUBJECT:
        if m.w.split()[0] in DID_TO_QUEENS | {"combined", "united"}:
            return []  # "s four is done with its pads | requeened s nine"
    return None


def _with_its_subject(at: Place) -> Tail:
    """The words before the work that lead it in, where no rule above begins or ends the statement."""
    m, marks, soft = at.m, at.marks, at.soft
    verb_before = has_verb(marks)
    if not soft and has_own_object(at):
        return []  # "l nine a super and an excluder | took two frames out of l twelve"
    if not verb_before and ends_in_subject(marks):
        return _waiting_subject(at) if soft is None else None
    if not soft and not verb_before and m.w in ("gave", "fed", "put", "took") and at.q is not None:
        if at.q.label == "pronoun" and at.cols and at.has("fact", "mites", "value"):
            return []  # "seventy three is plain empty | gave those last two a bag of sugar"
    if m.label == "verb" and not soft and not verb_before and m.w in _TAKES_NO_SUBJECT:
        return None
    tail = glue_tail(marks)
    if len(tail) > 1 and tail[0].label == "date" and tail[1].label == "person" and _dated_itself(at):
        tail = tail[1:]  # "wrapped one to twelve yesterday | Tobiah did 13 to 20 this morning"
    if soft is not None or tail:
        died = m.label == "change" and m.v.get("step") == "died"
        return None if died and not at.strong and not tail else tail
    if lead := passive_subject(marks):
        return lead  # "introduced a new one … and | the spare is banked in q b"
    if m.label == "change" and marks[-1].label in ("each", "days") and m.w.split()[0] in DID_ANEW:
        return []  # "one each they stay in fifty six days | moved seventy one to the quarry"
    if not verb_before or after_aux(marks):
        return None
    if m.label == "verb" and m.w.split()[0] in ("done", "did", "do", "does", "doing", "finished"):
        return None
    if m.w in ("gave", "took") or _puts_another_in(at):
        return []  # "gave hive four two supers | gave hive six one": no thing gives or takes
    lead = lead_nouns(marks)
    return [] if lead and _object_of_work(marks[: len(marks) - len(lead)]) else lead


def _object_of_work(before: list[Mark]) -> bool:
    """ "gave N2 a quart of syrup | dribbled N4", "vaped them with a gram of oxalic | looked in": the thing that comes
    behind the marks is what was given there, and no subject of the work after it.
    """
    if not before or before[-1].w in ("with", "of", "any"):
        return True
    work = next((m for m in reversed(before) if m.label == "verb"), None)
    given = work is not None and work.w.split()[0] in _GIVING
    given = given and (before[-1] is work or before[-1].label in ("cols", "pronoun", "ratio"))
    return given and not any(m.label in THINGS for m in before)


_GIVING = listed("giving")


def _puts_another_in(at: Place) -> bool:
    """ "pulled the strips | put pads in seven": what came out has its verb before it, what went in stands behind."""
    m, marks = at.m, at.marks
    if m.v.get("dir") != "in" or not THINGS & {x.label for x in at.row[at.i + 1 : at.i + 4]}:
        return False
    k = len(marks)
    while k > 0 and (marks[k - 1].label in THINGS or marks[k - 1].w in _ARTICLES):
        k -= 1
    return 0 < k < len(marks) and marks[k - 1].v.get("dir") == "out"


def _waiting_subject(at: Place) -> Tail:
    """The thing at the end of the marks, where it waits for its verb and what stands before it does not."""
    lead = lead_nouns(at.marks)
    before = at.marks[: len(at.marks) - len(lead)]
    if lead and before and before[-1].w == "any":
        return []  # "l ten did not get any syrup | dribbled oxalic on"
    if lead and any(x.label == "cols" for x in before):
        return lead  # "guards on all but l eleven | candy boards go on"
    if lead and at.m.v.get("dir") == "out" and any(x.label in _GIVEN_TO for x in before):
        return [*with_joins(before), *lead]  # "a wafer a hive the whole yard um | the wafers come out"
    return None


def _dated_itself(at: Place) -> bool:
    """Whether the work has a day of its own behind it."""
    for x in at.row[at.i + 1 : at.i + 8]:
        if x.label == "date":
            return True
        if x.label in ("stop", "line", "comma", "filler", "verb", "person") or x.w in ("and", "then", "so"):
            return False
    return False
