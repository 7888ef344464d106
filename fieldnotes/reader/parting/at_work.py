"""Does a new statement begin at work done ("gave", "requeened", "moved", "checked")?"""

from __future__ import annotations

from fieldnotes.reader.mark import Mark
from fieldnotes.reader.parting.about import GLUE_WORDS, after_aux, before_thing, done, ends_in_subject, has_verb
from fieldnotes.reader.parting.elsewhere import DID_ANEW, DID_TO_QUEENS, object_first, worked_elsewhere
from fieldnotes.reader.parting.left_out import not_yet
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.tails import glue_tail, lead_nouns, passive_subject, reason_tail, with_joins
from fieldnotes.reader.parting.words import CLOSED

_SOMEBODY = frozenset("i'm we're he's she's they're i'll we'll he'll she'll i we he she".split())


def _is_somebody(m: Mark) -> bool:
    return m.label == "person" or m.w in _SOMEBODY


_JOINS = frozenset("and but so cause because since then".split())


def at_work(at: Place) -> Tail:
    """At work done: it begins a statement where the one before has its verb, with the noun before it as its subject."""
    m, marks, soft = at.m, at.marks, at.soft
    if m.label == "change" and "dead" in m.w.split() and any(x.v.get("cue") == "except" for x in marks[-2:]):
        return None  # "vapour on all but the dead one"
    if m.w in ("got", "got about") and at.has("harvest") and not at.has("cols", "amount", "number", "item"):
        behind = [x for x in at.row[at.i + 1 : at.i + 4] if x.label != "approx"]
        if len(behind) > 1 and behind[0].label == "number" and behind[1].v.get("item") == "super":
            return None  # "honey off larks yesterday, we got 22 supers"
    if (
        m.w == "got"
        and marks[-1].w in ("it's", "they've", "she's")
        and marks[-2:-1] == at.cols[-1:]
        and at.has_cue("not")
    ):
        return glue_tail(marks)  # "skipped 42 | it's got plenty coming in"
    if m.label == "change" and marks[-1].w in ("it's", "its", "they're") and at.has_cue("not") and at.cols:
        return glue_tail(marks)  # "skipped h four | because it's dead"
    if m.label == "change" and m.v.get("after_swarm", m.w.startswith("hived")) and at.has("sky"):
        if not at.has("cols", "change") and done(marks):
            return glue_tail(marks)  # "a swarm at larks in the rain | hived it as l nine"
    if m.label == "verb" and m.v.get("dir") and object_first(marks):
        return None  # "thymol gel i have put in 70 to 75"
    if m.label == "change" and marks[-1].label == "yard" and at.has("change", "date") and len(marks) > 4:
        place = next((k for k in range(len(marks) - 2, len(marks) - 5, -1) if marks[k].w == "and"), None)
        if (
            place is not None
            and all(x.w in ("at", "in", "the", "over") for x in marks[place + 1 : -1])
            and done(marks[:place])
        ):
            return marks[place:]  # "sold eight nucs wednesday | and at Heath bought two hives"
    if m.label == "verb" and len(marks) > 1 and marks[-2].label == "cols" and _is_somebody(marks[-1]):
        out = m.v.get("dir") == "out" and not has_verb(marks)
        if out and at.has("form", "agent", "item") and not at.has("each", "unit", "number"):
            if at.q is None or at.q.label in ("date", "stop", "line", "comma", "filler") or at.q.w in _JOINS:
                return None  # "the gel in 55 he's taking out wednesday", "the excluder on 41 I took off"
    if soft is None and (elsewhere := worked_elsewhere(at)) is not None:
        return elsewhere
    if marks[-1].w in ("good", "fine", "okay", "alright") and at.has("rest") and m.v.get("dir"):
        return []  # "the rest are good | put fondant on both"
    if m.label == "verb" and m.v.get("dir") and marks[-1].w in ("just", "instead") and at.has_cue("not"):
        if at.has("method", "check") and at.q is not None and at.q.label == "pronoun":
            return glue_tail(marks)  # "I didn't even wash it | just gave it two pads"
    if m.label == "verb" and m.v.get("tense") == "past" and marks[-1].w == "just" and at.has_cue("not"):
        of_it = at.q is not None and at.q.label == "pronoun"  # "didn't open nine but | just fed it a quart"
        if not at.has("agent", "form", "item", "feed", "yard", "every") and (of_it or not at.cols):
            return marks[-1:]  # "I didn't hang about | just put candy boards on 71"
    if m.label in ("queen_work", "change") and at.cols and not_yet(at) and (reason := reason_tail(marks)):
        return reason  # "QB i skipped | because i just put a new queen in there"
    if m.v.get("does") == "feed" and at.cols and marks[-1].label == "person" and has_verb(marks[:-1]):
        return glue_tail(marks)  # "fed one to nine and | marit fed the rest"
    if m.label == "queen_work" and m.w.split()[0] == "cells" and marks[-1].w == "took":
        return []  # "thirty six took | cells go in on the eighth"
    if m.w in _LOOK_AGAIN and marks[-1].label == "pronoun" and soft is None and at.q is not None:
        if at.q.label == "pronoun" and marks[-2:-1] and marks[-2].label == "w" and len(marks) > 4:
            return []  # "n two got a mated queen i caged her | check her in three days"
    if m.w == "did" and marks[-1].w in ("i", "we") and at.has_cue("plan") and at.has("item", "form", "agent"):
        if at.q is not None and at.q.label == "cols" and marks[-2:-1] and marks[-2].label not in ("cue", "person"):
            return marks[-1:]  # "all of larks needs wraps | I did one through nine today"
    if not done(marks) or (m.w in ("split", "splits") and marks[-1].w in ("the", "my", "our")):
        return None  # "spray on the splits n one and n three"
    if m.label == "queen_work" and marks[-1].w == "and" and marks[-2:-1] and marks[-2].label == "queen_work":
        if marks[-2].w in ("clipped", "marked", "clip", "mark"):
            return None  # "clipped and marked the queen in fifty"
    if m.label == "queen_work" and at.q is not None and at.q.w == "only" and at.cols and soft is None:
        if at.z is not None and at.z.label == "cols":
            return []  # "l two and l seven all blue | clipped only l seven"
    if m.label in ("change", "queen_work") and m.w.split()[0].endswith("ing") and at.cols and soft is None:
        own = m.label == "change" and at.has("fact") and marks[-1].label == "w" and marks[-1].w not in _LEADS_TO_ING
        if marks[-1].label == "fact" or (own and not at.has("cue")):
            return []  # "l six no eggs | uniting with l seven tonight"
    verb_before = has_verb(marks)
    if m.label == "verb" and m.v.get("tense") == "past" and soft is None:
        gets = before_thing(marks, len(marks))
        if gets is not None and gets.w in ("get", "gets") and gets is not marks[-1]:
            return None  # "40 through 44 get theirs pulled thursday"
    if m.v.get("dir") and m.v.get("tense") == "base" and at.cols and at.has("fact") and not soft and not verb_before:
        if at.q is not None and at.q.label == "pronoun":
            return []  # "super on twelve weighs a ton | pull it next week"
    if m.v.get("dir") and m.v.get("tense") == "base" and not soft and not verb_before and at.has_cue("not"):
        if at.q is not None and at.q.label == "pronoun" and marks[-1].label in ("yard", "cols", "every"):
            return []  # "the pads are still in at heath | pull them monday"
    if m.v.get("dir") and m.v.get("tense") == "ing" and not soft and not verb_before and marks[-1].label in CLOSED:
        if at.q is not None and (at.q.label == "pronoun" or at.q.w in ("the", "both")):
            return []  # "strips in every hive but two | pulling those strips in six weeks"
    if m.w in _LOOK_AGAIN and at.cols and at.has("fact") and not soft and not verb_before and at.q is not None:
        if at.q.label in ("cols", "pronoun", "date"):
            return []  # "15 no eggs | recheck 15 sunday"
    if m.label == "check" and at.has("fact") and not soft and not verb_before and marks[-1].label == "fact":
        if any(x.label == "date" and x.v["value"].is_to_come for x in at.row[at.i + 1 : at.i + 4]):
            return []  # "cause it's queenless | check for cells in four days"
    if m.label == "queen_work" and m.w.split()[0] in ("cells", "queens") and at.has("fact") and not soft:
        return []  # "left eight queenless on purpose | cells go in on the twenty first"
    if m.label == "queen_work" and at.q is not None and at.q.label == "date" and at.has("date", "fact"):
        return glue_tail(marks)  # "fifty got a new queen yesterday | release friday"
    if m.w == "put" and marks[-1].label == "fact" and at.q is not None and at.q.w == "in" and not soft:
        return None  # "20 got 1 frame of brood put in"
    if not verb_before and not soft and marks[-1].label == "fact" and at.cols and m.v.get("tense") == "past":
        if m.label == "verb" and m.v.get("does") != "inspect" and _reaches_all(at):
            return []  # "74 is queenless no eggs | took the mouse guards off the whole yard"
    if not verb_before and not soft and marks[-1].label in ("sky", "temp") and m.label == "verb" and m.v.get("dir"):
        if m.v.get("tense") == "past" and not at.has("item", "agent", "form", "feed", "fact"):
            return []  # "fifty five and clear | took the mouse guards off"
    if m.w == "doing" and at.q is not None and at.q.w == "that" and at.has_cue("not") and done(marks):
        return []  # "the queen hasn't been released yet | doing that tomorrow"
    if m.w == "doing" and at.q is not None and at.q.label == "pronoun":
        who = 2 if marks[-1].w in ("is", "are") and marks[-2:-1] and marks[-2].label == "person" else 1
        if marks[-who].label == "person" and done(marks[:-who]):
            return marks[-who:]  # "strips out of the pond friday | ines is doing those"
        return []  # "the guards are still on the truck | doing them saturday"
    if m.v.get("does") == "inspect" and m.v.get("tense") == "past" and at.cols and at.q is not None:
        if at.q.label == "pronoun" and not soft:
            return []  # "candy boards on four and six | hefted those two"
    if m.label == "change" and marks[-1].label == "hives" and "n" in marks[-1].v:
        part = with_joins(marks[:-1])
        parted = bool(part) or marks[-2].w in (":", "-", "–") or marks[-1].w.endswith(("of them", "of em"))
        if parted and done(marks[: -1 - len(part)]):
            return [*part, marks[-1]]  # "four nucs made up out of eleven um | two of them sold today"
    if m.label == "verb" and m.v.get("dir") == "out" and m.v.get("tense") == "past" and at.has("agent", "form"):
        thing = at.z if at.q is not None and at.q.w in ("the", "all", "their") else at.q
        if thing is not None and thing.label == "item" and marks[-1].label in ("each", "date", "yard", "every", "unit"):
            return glue_tail(marks)  # "greenies in all of Heath today two a hive | took the supers off before"
    if m.label in ("queen_work", "change") and soft is None and at.cols and marks[-1].label in _NO_SUBJECT:
        if m.w.split()[0] in DID_TO_QUEENS | {"combined", "united"}:
            return []  # "s four is done with its pads | requeened s nine"
    subject_waits = not verb_before and ends_in_subject(marks)
    if not soft and subject_waits:
        lead = lead_nouns(marks)
        if lead and any(x.label == "cols" for x in marks[: -len(lead)]):
            return lead  # "guards on all but l eleven | candy boards go on"
        if lead and m.v.get("dir") == "out" and any(x.label in _GIVEN_TO for x in marks[: -len(lead)]):
            return [*with_joins(marks[: -len(lead)]), *lead]  # "a wafer a hive the whole yard um | the wafers come out"
    if subject_waits:
        return None
    if not soft and not verb_before and m.w in ("gave", "fed", "put", "took") and at.q is not None:
        if at.q.label == "pronoun" and at.cols and at.has("fact", "mites", "value"):
            return []  # "seventy three is plain empty | gave those last two a bag of sugar"
    if m.label == "verb" and not soft and not verb_before:
        if m.w in ("got", "gets", "get", "done", "gone", "going", "go", "went", "given"):
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
    if m.w in ("gave", "took"):
        return []  # "gave hive four two supers | gave hive six one": no thing gives or takes
    return lead_nouns(marks)


_NO_SUBJECT = frozenset(["agent", "form", "feed", "method"])


def _dated_itself(at: Place) -> bool:
    """Whether the work has a day of its own behind it."""
    for x in at.row[at.i + 1 : at.i + 8]:
        if x.label == "date":
            return True
        if x.label in ("stop", "line", "comma", "filler", "verb", "person") or x.w in ("and", "then", "so"):
            return False
    return False


def _reaches_all(at: Place) -> bool:
    """Whether the work is done to every colony, or to the rest: it is not told of the colony before it."""
    for x in at.row[at.i + 1 : at.i + 8]:
        if x.label in ("every", "rest"):
            return True
        if x.label in ("stop", "line", "comma", "filler", "cols", "verb", "cue") or x.w in ("and", "then"):
            return False
    return False


_GIVEN_TO = frozenset(["every", "each"])
_LOOK_AGAIN = frozenset(["check", "recheck", "retest", "rewash"])
_LEADS_TO_ING = GLUE_WORDS | frozenset(
    "for of from about without needs need start started try tried instead like was is are be been by before after "
    "while when than worth i'm we're he's she's they're it's not through".split()
)
"""Words after which "moving" or "merging" goes on with what stands before."""
