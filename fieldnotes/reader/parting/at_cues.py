"""Does a new statement begin at a cue? "need to" plans, "didn't" denies, "if" and "who" leave open."""

from __future__ import annotations

from fieldnotes.reader.mark import PERSONS, SEEN_AT, THINGS, Mark, done_with_it, is_others
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
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.joining import glue_tail, is_over, with_prep
from fieldnotes.reader.parting.tails.subjects import thing_tail
from fieldnotes.reader.parting.words import CLOSED, I_WILL, IS_TO, SAID_OF_SUBJECT, STILL_THERE

_AGAIN = frozenset(["try", "redo", "retry", "rewash", "have"])
_DENIES = frozenset("didn't couldn't skipped forgot never haven't".split())
_WILL = frozenset(["i'll", "we'll"])


def at_cue(at: Place) -> Tail:
    """At "didn't", "need to", "except", "no wait" …; an exception goes on with the statement."""
    kind = at.m.v.get("cue")
    if kind in ("plan", "not"):
        if at.soft is not None and _fed_these(at.marks):
            return glue_tail(at.marks)  # "fed 40 and 41, | i'll wrap them tomorrow"
        if at.marks[-1].label == "comma" and at.statement.opens == "soft" and _only_yards(at.marks):
            return at.marks[-1:]  # "supered larks and the quarry, | haven't done the pond"
        return _at_plan(at) if kind == "plan" else _at_denial(at)
    if kind == "if":
        return _at_condition(at)
    if kind == "ask":
        return _at_question(at)
    if kind == "correct":
        return glue_tail(at.marks)
    if kind == "report":
        told = at.marks[-1].label == "person" and at.soft is not None and at.has("cols", "every") and done(at.marks)
        return glue_tail(at.marks) if told else None  # "nine looks bad and | dov said he'd wash it"
    return None


def _fed_these(marks: list[Mark]) -> bool:
    """Whether colonies were fed, and no more is said of it yet."""
    fed = next((k for k, m in enumerate(marks) if m.v.get("does") == "feed" and m.v.get("tense") == "past"), len(marks))
    if any(m.label == "cue" for m in marks):
        return False
    return any(m.label in _WHO_WAS for m in marks[fed:]) and marks[-1].label != "pronoun"


def _only_yards(marks: list[Mark]) -> bool:
    """Whether the marks only name yards, which go with what was told before."""
    return any(m.label == "yard" for m in marks) and all(
        m.label in ("yard", "comma") or m.w in ("and", "at", "the") for m in marks
    )


_WHO_WAS = frozenset(["cols", "every", "yard", "hives"])


def _at_plan(at: Place) -> Tail:
    """At "need to", "i'll", "due": what is to be done."""
    if _of_owned_thing(at):
        return None
    begins = first_of(at, (_nucs_keep_theirs, _others_plan, _plan_after_all, _own_plan, _person_after_places))
    if begins is not None:
        return begins
    if _subject_waits(at):
        return None
    begins = first_of(at, (_person_after_colonies, _plan_of_thing, _plan_of_colonies))
    if begins is not None:
        return begins
    if at.m.w.startswith("due") and at.q is not None and at.q.label == "date":
        return None  # "alcohol wash for 71, due the 25th"
    return _after_complete(at)


def _at_denial(at: Place) -> Tail:
    """At "didn't", "not", "still in": what was not done."""
    begins = _denied_of_exception(at)
    if begins is not None:
        return begins
    if _denies_before(at):
        return None
    begins = first_of(at, (_still_on_these, _nucs_keep_theirs))
    if begins is not None:
        return begins
    if _of_owned_thing(at) or (at.m.rule == "did not happen" and at.has_any(THINGS)):
        return None  # "the gel I was to put in 9 didn't happen", "… but it didn't happen"
    begins = first_of(at, (_person_after_places, _denied_of_others))
    if begins is not None:
        return begins
    if _subject_waits(at):
        return None
    return first_of(at, (_person_after_colonies, _after_complete))


def _at_condition(at: Place) -> Tail:
    """At "if", "might"."""
    if at.soft is not None and at.cols and at.has_cue("not"):
        return glue_tail(at.marks)  # "l thirteen i didn't fork and | if l eleven goes over three percent"
    if at.soft is not None and at.has("amount") and at.has("yard"):
        return glue_tail(at.marks)  # "plus six buckets out of larks and | if the moisture comes down we harvest"
    return _after_complete(at)


def _at_question(at: Place) -> Tail:
    """At "who", "did anyone", "are we"."""
    if at.m.w in _RELATIVE:
        k = len(at.marks)
        while k and (at.marks[k - 1].label == "comma" or at.marks[k - 1].w in SEEN_AT):
            k -= 1
        if excepted(at.marks[:k]):
            return at.marks[k:]  # "all except 76 | which has no bees left", "all but 3, | in which I found two cells"
    if at.soft is None and at.m.w.split()[0] in SAID_OF_SUBJECT:
        return None  # "laying workers is my guess": no question
    if at.soft is not None and not done(at.marks) and at.has("verb", "cue"):
        return glue_tail(at.marks)  # "who's got the key and | are we feeding"
    return _after_complete(at)


_RELATIVE = frozenset(["which", "where"])


def _others_plan(at: Place) -> Tail:
    """ "boiling over | it needs two supers", "s7 to s12 thursday | and somebody has to buy more", "sold two | and the
    guy from the co op wants four": who or what the plan is of, after what is told to its end.
    """
    marks = at.marks
    if marks[-1].w in _IT and len(marks) > 1 and done(marks[:-1]) and at.m.w.split()[0] in _NEEDS:
        return [*glue_tail(marks[:-1]), marks[-1]]
    k = next((k for k in range(len(marks) - 1, 0, -1) if marks[k].w in _LEADS_OTHERS or marks[k].label == "filler"), 0)
    who = [*marks[k + 1 :], at.m]
    if not k or any(x.label not in ("w", "person") for x in who[:-1]):
        return None
    other = who[0].w.split()[0] in _SOMEBODY or who[0].label == "person"
    other = other or (who[0].w in _ARTICLES and len(who) > _SHORTEST_WHO)
    over = done(marks[:k]) or (at.has("date") and (bool(at.cols) or at.has_cue("plan")))
    return [*glue_tail(marks[:k]), *marks[k:]] if other and over else None


_SHORTEST_WHO = 2
_IT = frozenset(["it", "she"])
_NEEDS = frozenset("needs need wants".split())
_LEADS_OTHERS = frozenset(["and", "but", "so"])
_SOMEBODY = frozenset(["somebody", "someone", "everybody", "nobody"])
_ARTICLES = frozenset("the a my our this that some".split())


def _plan_after_all(at: Place) -> Tail:
    """A plan of something else than what stands before it."""
    m, marks, who = at.m, at.marks, at.m.w.split()[0]
    if who in I_WILL and marks[-1].label == "date" and len(marks) > 2:
        if marks[-1].v["value"].is_to_come and marks[-1].v["value"].form == "offset" and is_over(marks[:-1]):
            return marks[-1:]  # "it made 300 pounds | tomorrow i will put escapes on"
    if who == "jobs":
        return glue_tail(marks)  # "jobs for thursday … a wash on thirteen | jobs for saturday"
    if who in ("that'll", "it'll") and at.has_cue("not") and done(marks):
        return glue_tail(marks)  # "no pads in at heath yet | that'll be sunday"
    if m.w == "they'll" and marks[-1].label == "date" and at.q is not None and at.q.w == "be" and done(marks):
        return []  # "dropped a cell in each nuc last night | they'll be out thursday"
    if marks[-1].w == "you" and at.has("honey", "harvest") and has_verb(marks):
        return glue_tail(marks)  # "the honey is coming off thursday | so bo you need to get the escapes on"
    return glue_tail(marks) if _plans_again(at) else None


def _plans_again(at: Place) -> bool:
    """Whether a second plan follows one that has not been said to the end."""
    return (
        at.soft is not None
        and not done(at.marks)
        and at.has_cue("plan", "not")
        and len(glue_tail(at.marks)) < len(at.marks) - 1
    )


def _own_plan(at: Place) -> Tail:
    """ "i'll", "we'll", and what the speaker will do about what was told or left undone."""
    marks, who = at.marks, at.m.w.split()[0]
    if who in _WILL and at.statement.opens == "soft" and not at.cols and at.has_cue("not"):
        if at.q is not None and at.q.w in _AGAIN:
            waits = has_verb(marks[-1:]) or done(marks)
            return [] if waits else glue_tail(marks)  # "all but 61, which I couldn't open | I'll try that one again"
    if who in IS_TO and any(x.label == "cue" and x.w.startswith(STILL_THERE) for x in marks[-2:]):
        return []  # "fourteen still has hers in | I'll get it sunday"
    if (who in _WILL or who == "i'm") and marks[0].label == "cue" and marks[0].w == "no" and at.has_any(THINGS):
        return glue_tail(marks)  # "no formic | I'll do hop strips instead"
    if who in _WILL and at.cols:
        if any(x.w == "left" for x in marks[:4]):
            return glue_tail(marks)  # "and I left it in nine | I'll bring a bar next week"
        if _told_of_it(marks):
            return glue_tail(marks)  # "the lid on 41 is cracked | i'll bring a new one"
        if at.has_cue("not"):
            return glue_tail(marks)  # "sixteen to thirty haven't got theirs | i'll do those friday"
    if at.soft is not None and first_word(marks) in ORDERS and not done(marks):
        return glue_tail(marks)  # "and sharpen the tools oh and | I gotta call the welder"
    return None


def _told_of_it(marks: list[Mark]) -> bool:
    """Whether the marks tell how something is, in words of their own ("the excluder 's upside down on h two")."""
    return any(m.label == "w" and m.w in ("is", "'s", "are", "was") for m in marks[1:]) and len(marks) > 3


def _plan_of_thing(at: Place) -> Tail:
    """A plan whose subject stands at the end of the marks."""
    m, marks = at.m, at.marks
    if (thing := thing_tail(marks)) and (done(before := marks[: -len(thing)]) or _promises(before)):
        return thing  # "hive four needs a super and the stand | needs a new leg"
    if at.has_cue("if") and at.cols and m.w.split()[0] in I_WILL and _on_all_there(at):
        return glue_tail(marks)  # "if l four goes over five | i'll treat all of larks"
    if m.w.startswith("due out") and at.has("date") and at.has("form", "agent") and _went_in(marks):
        return glue_tail(marks)  # "strips went in on the first of may | due out on the twenty sixth of june"
    if m.w.startswith("due") and marks[-1].w in ("they're", "we're", "it's", "those", "that's") and done(marks[:-1]):
        return marks[-1:]  # "four strips each | they're due out october tenth"
    return None


def _on_all_there(at: Place) -> bool:
    """Whether all the hives of a yard are named right behind."""
    near = at.row[at.i + 1 : at.i + 8]
    return any(m.label == "every" for m in near) or (
        "all" in {m.w for m in near} and any(m.label == "yard" for m in near)
    )


def _went_in(marks: list[Mark]) -> bool:
    """Whether the marks tell what went in, or since when it has been in."""
    return any(x.v.get("dir") == "in" or x.v.get("does") == "treat" or x.w.split()[-1] in _BEEN_IN for x in marks)


_BEEN_IN = frozenset(["been", "in", "into"])


def _promises(marks: list[Mark]) -> bool:
    """ "have to call the inspector also | the light has to be fixed": a job said to its end."""
    k = next((k for k, x in enumerate(marks) if x.label == "cue" and x.v.get("cue") == "plan"), len(marks))
    return sum(x.label == "w" and x.w not in GLUE_WORDS for x in marks[k + 1 :]) > 1


def _plan_of_colonies(at: Place) -> Tail:
    """ "they're S11 and S12 now and | sunday I have to bring the stands": the plan is no part of their naming."""
    named = at.soft is not None and at.cols and any(x.w == "now" for x in at.marks)
    return glue_tail(at.marks) if named else None


def _denied_of_exception(at: Place) -> Tail:
    """What says once more that the ones left out have none, or why."""
    if at.m.w == "not" and (why := reason_for_none(at.marks)) is not None:
        return why  # "none on the rest | they're not ready"
    if excepted(at.marks) and at.q is not None and at.q.label == "pronoun":
        return []  # "wrapped all but l three and l four | not done those two yet"
    return None


def _denies_before(at: Place) -> bool:
    """Whether the cue denies the thing named just before it."""
    m, marks = at.m, at.marks
    if m.w in ("not done", "undone") and marks[-1].label in ("method", "item", "form", "agent", "feed"):
        if at.cols and at.soft is None and not has_verb(marks):
            return True  # "l seventeen alcohol wash not done | and reducers on 1 to 12"
    # "the pads are still in at heath"
    return m.w in ("still in", "still on") and marks[-1].w in AUX and not has_verb(marks)


def _still_on_these(at: Place) -> Tail:
    """What has not come out of others, or not gone on the others, yet."""
    m, marks, q = at.m, at.marks, at.q
    if m.w == "still in" and at.cols and q is not None and q.label == "cols" and at.has("agent", "form"):
        return glue_tail(marks)  # "strips are out of forty and forty one | still in forty two"
    if m.w == "no" and marks[-1].label in CLOSED and q is not None and q.label in ("item", "form", "agent"):
        if at.has(q.label) and done(marks) and any(x.label == "rest" for x in at.row[at.i + 2 : at.i + 5]):
            return []  # "wraps on fifty to sixty today | no wraps on the others yet"
    return None


def _denied_of_others(at: Place) -> Tail:
    """Work done to some, and then not done to others."""
    m, marks, q = at.m, at.marks, at.q
    denies = m.w.split()[0]
    if at.cols and q is not None and (q.label == "rest" or is_others(q)) and done(marks):
        return glue_tail(marks)  # "two pads each in one to nine | couldn't reach the rest"
    if marks[-1].label == "each" and denies in _DENIES and done(marks):
        return []  # "formic at heath two pads each | didn't put any in nine"
    if at.cols and q is not None and done_with_it(q, m) and at.z is not None and at.z.label == "cols":
        if denies not in ("no", "not"):
            return glue_tail(marks)  # "one on l nine and l ten um | didn't super l eleven"
    if m.w.startswith("skip") and at.cols and has_verb(marks) and at.soft is not None:
        return glue_tail(marks)  # "gave eight twenty five because it's a single | and skipped nine"
    return None


def _nucs_keep_theirs(at: Place) -> Tail:
    """ "… | the nucs still have theirs"."""
    marks = at.marks
    if not at.m.w.startswith("still ha") or marks[-1].w != "nucs" or len(marks) < 3:
        return None
    if not (at.cols or done(marks[:-2])):
        return None
    return [*glue_tail(marks[:-2]), *marks[-2:]] if marks[-2].w == "the" else marks[-1:]


def _of_owned_thing(at: Place) -> bool:
    """ "forty one's feeder | i'll take off friday": whether only a thing that a hive has on or in it is named."""
    marks = at.marks
    return len(marks) == 3 and marks[1].w == "'s" and marks[-1].label in ("item", "form", "agent")


def _subject_waits(at: Place) -> bool:
    """Whether the thing before the cue is its subject ("supers at larks | have to come off")."""
    marks = at.marks
    if not has_verb(marks) and _does_to_what_leads(at):
        return True
    own = at.m.w.split()[0] in IS_TO and any(x.w in ("has", "have", "'s", "is", "are") for x in marks)
    return not has_verb(marks) and ends_in_subject(_without_place(marks)) and not at.has("value", "mites") and not own


def _does_to_what_leads(at: Place) -> bool:
    """ "the greenies in l one to l fifteen i | will take out on tuesday": a thing and the colonies it is in lead, and
    what somebody will do names no other thing."""
    marks = at.marks
    if marks[-1].w in PERSONS:
        marks = marks[:-1]
    elif at.m.w.split()[0] not in IS_TO and at.m.w.split()[0] not in PERSONS:
        return False
    if len(marks) < 3 or marks[-1].label != "cols" or marks[-2].w not in ("in", "on", "at", "from"):
        return False
    if marks[-3].label not in THINGS or any(
        x.label in HEADS or x.label == "cols" for x in marks[:-3] if x.label not in THINGS
    ):
        return False
    verb, after = at.q, at.z
    acts = verb is not None and verb.label == "verb" and verb.v.get("dir")
    return bool(acts) and (after is None or after.label in _AFTER_WORK or after.w in ("and", "then"))


_AFTER_WORK = frozenset("date stop line comma filler w".split())


def _without_place(marks: list[Mark]) -> list[Mark]:
    """The marks without the yard that ends them ("supers at larks | have to come off")."""
    if len(marks) > 2 and marks[-1].label == "cols" and marks[-2].w in ("in", "on", "at") and not has_verb(marks):
        return marks[:-2]  # "the strips in 70 through 79 | have to come out"
    if len(marks) < 3 or marks[-1].label != "yard":
        return marks
    lead = with_prep(marks[:-1])
    return marks[: len(marks) - 1 - len(lead)] if lead else marks


def _person_after_places(at: Place) -> Tail:
    """ "… and cut bank on sunday | he hasn't done wens": who it is said of, after nothing but yards and days."""
    marks = at.marks
    if marks[-1].w not in PERSONS or len(marks) < 3 or marks[-2].label != "date" or not at.has("yard"):
        return None
    return marks[-1:] if all(x.label in ("yard", "date", "comma", "w") for x in marks) else None


def _person_after_colonies(at: Place) -> Tail:
    """ "they came out, all but seventy six | i couldn't crack the lid": a person right before the cue, and before that
    colonies that a verb governs.
    """
    marks = at.marks
    if len(marks) < 3 or not (marks[-1].w == "they" or marks[-1].w in PERSONS) or marks[-2].label != "cols":
        return None
    return marks[-1:] if governed(marks[:-2], marks[-2]) and has_verb(marks) else None


def _after_complete(at: Place) -> Tail:
    """At a cue that may open a clause, where what stands before it is complete; colonies alone were the topic ("14 and
    15, didn't check them").
    """
    m, marks = at.m, at.marks
    if not done(marks):
        return None
    tail = glue_tail(marks)
    denial = at.m.v.get("cue") == "not"
    own = len(marks) - (marks[-1].w == "still")
    if denial and own > 3 and marks[own - 1].label in THINGS and marks[own - 2].w == "the":
        lead = glue_tail(marks[: own - 2])
        before = marks[: own - 2 - len(lead)]
        if before and done(before) and (lead or before[-1].label in ("each", "fact", "item", "form", "feed")):
            return [*lead, *marks[own - 2 :]]  # "s two got a super and | the super hasn't come off s twelve"
    if not at.soft and not tail and not clause_follows(at.row, at.i):
        denies = denial and m.w.split()[0] in ("didn't", "forgot", "never", "haven't")
        if not (denies and (has_verb(marks) or at.has("value", "mites", "fact"))):
            return None
    return None if denial and m.w in ("no", "not", "without") and not at.soft else tail
