"""Does a new statement begin at a cue ("didn't", "need to", "if", "except")?"""

from __future__ import annotations

from fieldnotes.reader.mark import THINGS, Mark, done_with_it, is_others
from fieldnotes.reader.parting.about import (
    AUX,
    GLUE_WORDS,
    ORDERS,
    clause_follows,
    done,
    ends_in_subject,
    first_word,
    has_verb,
)
from fieldnotes.reader.parting.governing import governed
from fieldnotes.reader.parting.left_out import excepted, reason_for_none
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.tails import glue_tail, is_over, thing_tail, with_prep
from fieldnotes.reader.parting.words import CLOSED, I_WILL, IS_TO, NUCS, PERSONS, STILL_THERE

_SAID_OF_SUBJECT = frozenset("is are was were".split())
_AGAIN = frozenset(["try", "redo", "retry", "rewash", "have"])
_DENIES = frozenset("didn't couldn't skipped forgot never haven't".split())


def at_cue(at: Place) -> Tail:
    """At "didn't", "need to", "except", "no wait" …"""
    m, marks, kind = at.m, at.marks, at.m.v.get("cue")
    if kind == "report":
        told = marks[-1].label == "person" and at.soft is not None and at.has("cols", "every") and done(marks)
        return glue_tail(marks) if told else None  # "nine looks bad and | dov said he'd wash it"
    if kind == "except":
        return None
    if kind == "plan" and m.w.split()[0] in I_WILL and marks[-1].label == "date" and len(marks) > 2:
        if marks[-1].v["value"].is_to_come and marks[-1].v["value"].form == "offset" and is_over(marks[:-1]):
            return marks[-1:]  # "it made 300 pounds | tomorrow i will put escapes on"
    if kind == "not" and m.w == "not" and (why := reason_for_none(marks)) is not None:
        return why  # "none on the rest | they're not ready"
    if excepted(marks) and m.w == "which":
        return []  # "all except 76 | which has no bees left"
    if kind == "not" and excepted(marks) and at.q is not None and at.q.label == "pronoun":
        return []  # "wrapped all but l three and l four | not done those two yet"
    if kind == "plan" and m.w.split()[0] == "jobs":
        return glue_tail(marks)  # "jobs for thursday … a wash on thirteen | jobs for saturday"
    if m.w in ("not done", "undone") and marks[-1].label in ("method", "item", "form", "agent", "feed"):
        if at.cols and at.soft is None and not has_verb(marks):
            return None  # "l seventeen alcohol wash not done | and reducers on 1 to 12"
    if m.w in ("still in", "still on") and marks[-1].w in AUX and not has_verb(marks):
        return None  # "the pads are still in at heath"
    if m.w == "still in" and at.cols and at.q is not None and at.q.label == "cols" and at.has("agent", "form"):
        return glue_tail(marks)  # "strips are out of forty and forty one | still in forty two"
    if kind == "correct":
        return glue_tail(marks)
    if m.w == "no" and marks[-1].label in CLOSED and at.q is not None and at.q.label in ("item", "form", "agent"):
        if at.has(at.q.label) and done(marks) and any(x.label == "rest" for x in at.row[at.i + 2 : at.i + 5]):
            return []  # "wraps on fifty to sixty today | no wraps on the others yet"
    if kind == "plan" and m.w.split()[0] in ("that'll", "it'll") and at.has_cue("not") and done(marks):
        return glue_tail(marks)  # "no pads in at heath yet | that'll be sunday"
    if m.w.startswith("still ha") and marks[-1].w in NUCS and len(marks) > 2 and (at.cols or done(marks[:-2])):
        return (
            [*glue_tail(marks[:-2]), *marks[-2:]] if marks[-2].w == "the" else marks[-1:]
        )  # "… | nucs still have theirs"
    if m.rule == "did not happen" and at.has(*THINGS):
        return None  # "the gel I was to put in 9 didn't happen", "… but it didn't happen"
    if kind == "plan" and m.w == "they'll" and marks[-1].label == "date" and at.q is not None and at.q.w == "be":
        if done(marks):
            return []  # "dropped a cell in each nuc last night | they'll be out thursday"
    if kind == "plan" and marks[-1].w == "you" and at.has("honey", "harvest") and has_verb(marks):
        return glue_tail(marks)  # "the honey is coming off thursday | so bo you need to get the escapes on"
    if kind == "plan" and _plans_again(at):
        return glue_tail(marks)
    if kind == "plan" and m.w.split()[0] in ("i'll", "we'll") and at.statement.opens == "soft" and not at.cols:
        if at.has_cue("not") and not has_verb(marks[-1:]) and not done(marks) and at.q is not None and at.q.w in _AGAIN:
            return glue_tail(marks)  # "all but 61, which I couldn't get into | I'll try that one again sunday"
        if at.has_cue("not") and at.q is not None and at.q.w in _AGAIN:
            return []
    if kind == "plan" and any(x.label == "cue" and x.w.startswith(STILL_THERE) for x in marks[-2:]):
        if m.w.split()[0] in IS_TO:
            return []  # "fourteen still has hers in | I'll get it sunday"
    if kind == "plan" and marks[0].label == "cue" and marks[0].w == "no" and m.w.split()[0] in ("i'll", "we'll", "i'm"):
        if at.has(*THINGS):
            return glue_tail(marks)  # "no formic | I'll do hop strips instead"
    if kind == "plan" and at.cols and m.w.split()[0] in ("i'll", "we'll") and any(x.w == "left" for x in marks[:4]):
        return glue_tail(marks)  # "and I left it in nine | I'll bring a bar next week"
    if kind in ("plan", "not") and len(marks) < 4 and [x.w for x in marks[1:2]] == ["'s"] and _owned(marks[-1]):
        return None  # "forty one's feeder | i'll take off friday"
    if kind == "plan" and at.cols and m.w.split()[0] in ("i'll", "we'll") and _told_of_it(marks):
        return glue_tail(marks)  # "the lid on 41 is cracked | i'll bring a new one"
    if kind == "plan" and at.cols and at.has_cue("not") and m.w.split()[0] in ("i'll", "we'll"):
        return glue_tail(marks)  # "sixteen to thirty haven't got theirs | i'll do those friday"
    if kind == "plan" and at.soft is not None and first_word(marks) in ORDERS and not done(marks):
        return glue_tail(marks)  # "and sharpen the tools oh and | I gotta call the welder"
    if kind in ("not", "plan") and marks[-1].w in PERSONS and len(marks) > 2 and marks[-2].label == "date":
        if at.has("yard") and all(x.label in ("yard", "date", "comma", "w") for x in marks):
            return marks[-1:]  # "… and cut bank on sunday | he hasn't done wens"
    if kind == "not" and at.cols and at.q is not None and (at.q.label == "rest" or is_others(at.q)) and done(marks):
        return glue_tail(marks)  # "two pads each in one to nine | couldn't reach the rest"
    if kind == "not" and marks[-1].label == "each" and m.w.split()[0] in _DENIES and done(marks):
        return []  # "formic at heath two pads each | didn't put any in nine"
    if kind == "not" and at.cols and at.q is not None and done_with_it(at.q, m) and at.z is not None:
        if at.z.label == "cols" and m.w.split()[0] not in ("no", "not"):
            return glue_tail(marks)  # "one on l nine and l ten um | didn't super l eleven"
    if kind == "not" and m.w.startswith("skip") and at.cols and has_verb(marks) and at.soft is not None:
        return glue_tail(marks)  # "gave eight twenty five because it's a single | and skipped nine"
    if kind in ("not", "plan"):
        own = m.w.split()[0] in IS_TO and any(x.w in ("has", "have", "'s", "is", "are") for x in marks)
        if not has_verb(marks) and ends_in_subject(_without_place(marks)) and not at.has("value", "mites") and not own:
            return None
        if _person_after_colonies(at):
            return marks[-1:]  # "they came out, all but seventy six | i couldn't crack the lid"
    if kind == "plan" and (thing := thing_tail(marks)) and (done(rest := marks[: -len(thing)]) or _promises(rest)):
        return thing  # "hive four needs a super and the stand | needs a new leg"
    if m.w.startswith("due") and marks[-1].w in ("they're", "it's", "those", "that's") and done(marks[:-1]):
        return marks[-1:]  # "four strips each | they're due out october tenth"
    if kind == "plan" and at.soft is not None and at.cols and any(x.w == "now" for x in marks):
        return glue_tail(marks)  # "they're S11 and S12 now and | sunday I have to bring the stands"
    if kind == "if" and at.soft is not None and at.cols and at.has_cue("not"):
        return glue_tail(marks)  # "l thirteen i didn't fork and | if l eleven goes over three percent"
    if kind == "if" and at.soft is not None and at.has("amount") and at.has("yard"):
        return glue_tail(marks)  # "plus six buckets out of larks and | if the moisture comes down we harvest"
    if kind == "plan" and m.w.startswith("due") and at.q is not None and at.q.label == "date":
        return None  # "alcohol wash for 71, due the 25th"
    if kind == "ask" and at.soft is None and m.w.split()[0] in _SAID_OF_SUBJECT:
        return None  # "laying workers is my guess": no question
    if kind == "ask" and at.soft is not None and not done(marks) and at.has("verb", "cue"):
        return glue_tail(marks)  # "who's got the key and | are we feeding"
    # "14 and 15, didn't check them": where nothing is complete yet the colonies were the topic
    return _at_cue_after_complete(at, kind) if kind in ("plan", "not", "if", "ask") and done(marks) else None


def _owned(m: Mark) -> bool:
    """Whether it is a thing that a hive has on or in it."""
    return m.label in ("item", "form", "agent")


def _told_of_it(marks: list[Mark]) -> bool:
    """Whether the marks tell how something is, in words of their own ("the excluder 's upside down on h two")."""
    return any(m.label == "w" and m.w in ("is", "'s", "are", "was") for m in marks[1:]) and len(marks) > 3


def _without_place(marks: list[Mark]) -> list[Mark]:
    """The marks without the yard that ends them ("supers at larks | have to come off")."""
    if len(marks) > 2 and marks[-1].label == "cols" and marks[-2].w in ("in", "on", "at") and not has_verb(marks):
        return marks[:-2]  # "the strips in 70 through 79 | have to come out"
    if len(marks) < 3 or marks[-1].label != "yard":
        return marks
    lead = with_prep(marks[:-1])
    return marks[: len(marks) - 1 - len(lead)] if lead else marks


def _promises(marks: list[Mark]) -> bool:
    """ "have to call the inspector also | the light has to be fixed": a job said to its end."""
    k = next((k for k, x in enumerate(marks) if x.label == "cue" and x.v.get("cue") == "plan"), len(marks))
    return sum(x.label == "w" and x.w not in GLUE_WORDS for x in marks[k + 1 :]) > 1


def _plans_again(at: Place) -> bool:
    """Whether a second plan follows one that has not been said to the end."""
    return (
        at.soft is not None
        and not done(at.marks)
        and at.has_cue("plan", "not")
        and len(glue_tail(at.marks)) < len(at.marks) - 1
    )


def _person_after_colonies(at: Place) -> bool:
    """Whether a person stands right before the cue, and colonies that a verb governs before the person."""
    marks = at.marks
    return (
        len(marks) > 2
        and (marks[-1].w == "they" or marks[-1].w in PERSONS)
        and marks[-2].label == "cols"
        and governed(marks[:-2], marks[-2])
        and has_verb(marks)
    )


def _at_cue_after_complete(at: Place, kind: str) -> Tail:
    """At a cue that may open a clause, what stands before it being complete."""
    m, marks, soft = at.m, at.marks, at.soft
    tail = glue_tail(marks)
    if not soft and not tail and not clause_follows(at.row, at.i):
        denies = kind == "not" and m.w.split()[0] in ("didn't", "forgot", "never", "haven't")
        if not (denies and (has_verb(marks) or at.has("value", "mites", "fact"))):
            return None
    if kind == "not" and m.w in ("no", "not", "without") and not soft:
        return None
    return tail
