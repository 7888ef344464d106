"""Does a new statement begin at this mark? One decision for each sort of mark."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import THINGS, WAYS, Mark, done_with_it, is_others
from fieldnotes.reader.parting.about import (
    AUX,
    GLUE_WORDS,
    ORDERS,
    after_aux,
    against,
    before_thing,
    clausal,
    clause_follows,
    done,
    ends_in_subject,
    first_word,
    has_verb,
    header_only,
    hives_change_hands,
    is_verb,
    person_follows,
    predicate_follows,
    same_family,
    since_last_head,
    yard_leads,
)
from fieldnotes.reader.parting.at_colonies import at_colonies
from fieldnotes.reader.parting.elsewhere import (
    DID_ANEW,
    DID_TO_QUEENS,
    checked_later,
    object_first,
    told_of_others,
    worked_elsewhere,
)
from fieldnotes.reader.parting.governing import governed
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails import (
    another_from,
    glue_tail,
    header_tail,
    is_over,
    lead_nouns,
    passive_subject,
    reason_tail,
    thing_tail,
    with_count,
    with_joins,
    with_number,
    with_prep,
)

_PERSONS = ("i", "we", "he", "she")
_IS_TO = frozenset("i'm i'll i'd we're we'll we'd he's he'll she's she'll".split())
_LEFT = listed("left_undone")
_SAID_OF_SUBJECT = frozenset("is are was were".split())
_CLOSED = frozenset("date yard each every cols days rest temp".split())
"""What mostly ends a statement."""
_BEFORE_ORDER = _CLOSED | {"change", "amount", "moisture", "percent", "value", "sky"}
"""What an order may follow with no word between."""
_AGAIN = frozenset(["try", "redo", "retry", "rewash", "have"])
_DENIES = frozenset("didn't couldn't skipped forgot never haven't".split())
_STILL_THERE = ("still ha", "still in", "still on")
_DOES = frozenset(["did", "do", "doing", "done", "finished"])
_NOTICED = listed("noticed")
_TO_DO_THEN = listed("to_do_then")
_NUCS = frozenset(["nucs", "nukes"])
_MAY_BEGIN = frozenset("item agent form feed method sample temp sky fact honey moisture rest queen_noun round".split())
"""What after a complete statement and a joining word begins the next."""


_SAMPLE_LOST = "sample lost"
"""The rule of the words that say that a sample came to nothing."""


def new_statement(at: Place) -> Tail:
    """What a new statement begins with at this mark; None where the mark goes on with the one before."""
    tail = _clause_before_ends(at)
    if tail is not None:
        return tail
    tail = _another_treatment(at)
    if tail is not None:
        return tail
    if checked_later(at):
        return []
    tail = told_of_others(at)
    if tail is not None:
        return tail
    if at.m.rule == _SAMPLE_LOST and at.has("fact") and at.cols:
        return glue_tail(at.marks)  # "seventy six ants got it | couldn't count it"
    if at.marks[-1].rule == _SAMPLE_LOST and at.m.label in ("fact", "cue"):
        return []  # "forty four i couldn't read | ants all over it"
    if at.soft is not None and at.soft.w == "so" and at.m.w == "do" and at.marks[-2:-1]:
        if at.marks[-2].rule == _SAMPLE_LOST:
            return glue_tail(at.marks)  # "forty three i spilled | so do that one friday"
    decide = _BY_LABEL.get(at.m.label)
    if decide is not None:
        return decide(at)
    return _at_verb(at) if is_verb(at.m) else _at_thing(at)


def _another_treatment(at: Place) -> Tail:
    """ "thymol out | and amitraz in", "amitraz in, two each, | and a tray of thymol on top": a second active, where the
    first has gone in or out already."""
    if at.m.label == "form" and at.q is not None and at.q.w in ("too", "also"):
        forms = [x.v["form"] for x in at.marks if x.label == "form"]
        if forms and at.m.v["form"] not in forms and any(x.w in WAYS or x.v.get("dir") for x in at.marks):
            return with_number(at.marks)  # "strips out at heath, all of them, | the gel too"
    if at.m.label not in ("agent", "unit"):
        return None
    agent: Mark | None = at.m
    if at.m.label == "unit":
        agent = at.z if at.q is not None and at.q.w == "of" else None
    if agent is None or agent.label != "agent" or not agent.v.get("agent"):
        return None
    named = [k for k, x in enumerate(at.marks) if x.label == "agent" and x.v.get("agent")]
    if any(at.marks[k].v["agent"] == agent.v["agent"] for k in named):
        return None
    if not named and at.q is not None and at.q.label == "form":  # "wafers out | and amitraz strips in"
        named = [k for k, x in enumerate(at.marks) if x.label == "form" and x.v["form"] != at.q.v["form"]]
    if not named:
        return None
    if not any(x.label == "w" and (x.w in WAYS or x.w in ("into", "onto")) for x in at.marks[named[-1] :]):
        return None
    tail = with_number(at.marks)
    if len(tail) < len(at.marks) and at.marks[-len(tail) - 1].label in ("every", "each", "date") and _goes_in(at):
        return tail  # "amitraz strips out of the quarry all hives | formic pads in fifteen and sixteen"
    return tail if any(x.label in ("comma", "filler") or x.w in ("and", "then", "plus") for x in tail) else None


def _goes_in(at: Place) -> bool:
    """Whether colonies follow the treatment at the mark, or a word that says that it went in or out."""
    k = at.i + 1
    while k < len(at.row) and at.row[k].label in ("form", "agent"):
        k += 1
    follows = at.row[k : k + 3]
    if not follows or not (follows[0].w in WAYS or follows[0].w in ("into", "onto", "to") or follows[0].v.get("dir")):
        return False
    return follows[0].v.get("dir") is not None or any(x.label in ("cols", "yard", "every", "rest") for x in follows)


def _clause_before_ends(at: Place) -> Tail:
    """Where the marks are a clause that becomes no record, and after a strong boundary something new is said."""
    m, marks, soft = at.m, at.marks, at.soft
    if soft is None or not (at.strong or (soft.w in ("i", "we") and m.label == "verb" and m.v.get("tense") == "past")):
        return None
    if not (
        m.label in HEADS
        or m.label == "verb"
        or (m.label == "cue" and m.v.get("cue") in ("plan", "not", "if", "ask"))
        or (m.label == "cols" and (predicate_follows(at.row, at.i) or person_follows(at.row, at.i)))
        or (m.label == "pronoun" and "n" in m.v and at.q is not None and at.q.label in ("verb", "cue", "fact"))
    ):
        return None
    if done(marks) or not clausal(marks):
        return None
    tail = header_tail(marks)
    if not tail or len(tail) >= len(marks):
        return None
    last = marks[len(marks) - len(tail) - 1]
    follows = (
        m.label == "cue" and soft.w == "so" and last.label == "cols"
    )  # "mites on the bees in 61 so | I'll wash it"
    closed = (follows or last.label not in ("cue", "cols")) and not (last.label == "verb" and m.label != "cue")
    closed = closed or (last.w == "done" and at.has_cue("not"))  # "so that one isn't done um | 25 I'll get to tomorrow"
    broken_off = tail[0].label == "filler" and last.label == "cue" and last.v.get("cue") != "plan"
    return tail if closed or broken_off else None


def _never(at: Place) -> Tail:
    """It goes on with the statement."""
    return None


_I_WILL = frozenset("i i'll we we'll i'm we're".split())


def _at_cue(at: Place) -> Tail:
    """At "didn't", "need to", "except", "no wait" …"""
    m, marks, kind = at.m, at.marks, at.m.v.get("cue")
    if kind == "report":
        told = marks[-1].label == "person" and at.soft is not None and at.has("cols", "every") and done(marks)
        return glue_tail(marks) if told else None  # "nine looks bad and | dov said he'd wash it"
    if kind == "except":
        return None
    if kind == "plan" and m.w.split()[0] in _I_WILL and marks[-1].label == "date" and len(marks) > 2:
        if marks[-1].v["value"].is_to_come and marks[-1].v["value"].form == "offset" and is_over(marks[:-1]):
            return marks[-1:]  # "it made 300 pounds | tomorrow i will put escapes on"
    if kind == "not" and m.w == "not" and (why := _reason_for_none(marks)) is not None:
        return why  # "none on the rest | they're not ready"
    if _excepted(marks) and m.w == "which":
        return []  # "all except 76 | which has no bees left"
    if kind == "not" and _excepted(marks) and at.q is not None and at.q.label == "pronoun":
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
    if m.w == "no" and marks[-1].label in _CLOSED and at.q is not None and at.q.label in ("item", "form", "agent"):
        if at.has(at.q.label) and done(marks) and any(x.label == "rest" for x in at.row[at.i + 2 : at.i + 5]):
            return []  # "wraps on fifty to sixty today | no wraps on the others yet"
    if kind == "plan" and m.w.split()[0] in ("that'll", "it'll") and at.has_cue("not") and done(marks):
        return glue_tail(marks)  # "no pads in at heath yet | that'll be sunday"
    if m.w.startswith("still ha") and marks[-1].w in _NUCS and len(marks) > 2 and (at.cols or done(marks[:-2])):
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
    if kind == "plan" and any(x.label == "cue" and x.w.startswith(_STILL_THERE) for x in marks[-2:]):
        if m.w.split()[0] in _IS_TO:
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
    if kind in ("not", "plan") and marks[-1].w in _PERSONS and len(marks) > 2 and marks[-2].label == "date":
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
        own = m.w.split()[0] in _IS_TO and any(x.w in ("has", "have", "'s", "is", "are") for x in marks)
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
        and (marks[-1].w == "they" or marks[-1].w in _PERSONS)
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


def _at_count(at: Place) -> Tail:
    """At a number, a count of mites or a clean check."""
    m, marks, q = at.m, at.marks, at.q
    if m.w == "one" and q is not None and q.w == "more" and done(marks) and at.has("round", "agent", "form", "feed"):
        return glue_tail(marks)  # "that's the third round | one more next thursday"
    if m.label in ("number", "value") and at.has("unit") and q is not None and done(marks):
        if marks[-1].w == "another" and q.label == "date":
            return [*with_joins(marks[:-1]), marks[-1]]  # "fifty grams each | then another fifty on friday"
        if q.w == "more" and at.soft is not None and at.z is not None and at.z.label == "date":
            return glue_tail(marks)  # "fifty grams now | and fifty more on friday"
    if m.w == "half" and q is not None and q.w in ("is", "are", "was", "went") and len(marks) > 2:
        if marks[-1].w in ("new", "other") and marks[-2].w == "the" and at.soft is None and at.has("ignore"):
            return marks[-2:]  # "it was fixing to swarm | the new half is N2"
    if m.label in ("number", "value") and marks[-1].w == "and" and at.has("mites", "value") and at.has("date"):
        if at.cols and q is not None and q.label == "date" and len(marks) > 2 and marks[-2].label == "date":
            m.label = "value"
            return marks[-1:]  # "had twelve mites last week | and four today"
    if m.label == "clean" and m.w.startswith("all") and at.soft is None and at.cols and done(marks):
        if q is not None and q.label == "cols":
            return []  # "marked the queen in 48 | all clean fifty and fifty one, alcohol wash"
    none = m.label in ("number", "value") and "n" in m.v and m.v["n"].value == 0
    if none and at.cols and q is not None and q.w in ("in", "on", "for") and at.z is not None and at.z.label == "rest":
        return with_joins(marks)  # "one on nine | and none on the rest"
    if m.label in ("number", "value") and at.soft is not None and "n" in m.v and m.v["n"].value == 0:
        if done(marks) and q is not None and q.w in ("in", "on", "for", "to", "at"):
            if at.has("ordinal") and any(x.label == "ordinal" for x in at.row[at.i + 1 : at.i + 5]):
                return None  # "five in the first and none in the second"
            return glue_tail(marks)  # "strips in 1-10, 2 each, | none in 11-18"
    if m.label == "number" and marks[-1].w in ("that's", "thats") and q is not None and q.label in ("item", "form"):
        if len(marks) > 1 and marks[-2].w in WAYS:
            return marks[-1:]  # "hive seven took two off | that's five supers"
    if m.label == "value" and marks[-1].w == "it's" and at.has("value") and at.soft is not None:
        return glue_tail(marks)  # "was eight last week | and it's three today"
    if m.label != "number":
        return glue_tail(marks) if at.strong and at.has_cue("not") and not at.cols else _after_yet(at)
    if (
        marks[-1].w == "it's"
        and (done(marks) or at.has_cue("not"))
        and any(x.label == "sky" for x in at.row[at.i + 1 : at.i + 4])
    ):
        return marks[-1:]  # "nine's alive | it's forty three and clear"
    return None


_SOMEBODY = frozenset("i'm we're he's she's they're i'll we'll he'll she'll i we he she".split())


def _is_somebody(m: Mark) -> bool:
    return m.label == "person" or m.w in _SOMEBODY


_JOINS = frozenset("and but so cause because since then".split())


def _at_verb(at: Place) -> Tail:
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
    if m.label in ("queen_work", "change") and at.cols and _not_yet(at) and (reason := reason_tail(marks)):
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
    if m.v.get("dir") and m.v.get("tense") == "ing" and not soft and not verb_before and marks[-1].label in _CLOSED:
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


_THAT_ONE = frozenset(["this one", "that one"])


def _is_fact(m: Mark | None) -> bool:
    return m is not None and m.label == "fact"


def _at_pronoun(at: Place) -> Tail:
    """At "they", "all three" where they are the subject of what follows."""
    m, marks, q = at.m, at.marks, at.q
    if m.w == "both" and q is not None and q.label == "fact":
        shut = marks[:-1] if marks[-1].label == "comma" else marks
        if _excepted(shut) and len(shut[-1].v["ids"]) == 2:
            return marks[len(shut) :]  # "all except 51 and 60, | both weak"
    if m.w.startswith("both") and q is not None and (q.label == "fact" or (q.w in AUX and _is_fact(at.z))):
        if at.cols and len(at.cols[-1].v["ids"]) == 1 and marks[-1].label in ("fact", "filler", "comma", "w"):
            if any(x.label == "fact" for x in marks[marks.index(at.cols[-1]) :]):
                return glue_tail(marks)  # "nine got a trap and ten has ants | both are strong"
    complete = done(marks)
    if m.w in _THAT_ONE and q is not None and (q.w in _PERSONS or (q.label == "cue" and q.w.split()[0] in _I_WILL)):
        if (complete or _excepted(marks)) and marks[-1].label in ("cols", "fact", "comma", "filler"):
            return glue_tail(marks)  # "out of every hive but 73 | this one I will pull thursday"
    if marks[-1].w == "left" and q is not None and q.w in ("in", "on") and m.w in ("it", "them", "those"):
        if done(before := marks[:-1]):
            return [*glue_tail(before), marks[-1]]  # "pads out at heath | left them in nine"
    if complete and q is not None and q.label == "date" and m.w.startswith(("the other", "those other")):
        return glue_tail(marks)  # "h1-h6 got strips | the other six tomorrow"
    if is_others(m) and q is not None and q.w in _PERSONS:
        if at.z is not None and at.z.label == "cue" and at.z.v.get("cue") == "not" and (complete or has_verb(marks)):
            return glue_tail(marks)  # "two pads each and | the other five I couldn't reach"
    if complete and "n" in m.v and marks[-1].label == "filler":
        return glue_tail(marks)  # "banked all three um | those three get new ones"
    if complete and "n" in m.v and q is not None and q.label == "date" and at.has_cue("except"):
        return glue_tail(marks)  # "all but five and six | those two next wednesday"
    if complete and m.w == "they" and at.soft is not None:
        return glue_tail(marks)
    if m.w in ("they", "it") and at.cols and at.has("fact") and marks[-1].label == "fact" and q is not None:
        if q.w in ("got", "get", "gets") or (q.label == "each" and at.z is not None and at.z.w in ("got", "get")):
            return []  # "12 and 16 are light | they each got two"
    if complete and at.cols and q is not None and "n" not in q.v and (q.label == "hives" or q.v.get("noun") == "nuc"):
        z = at.z  # "split 10 into N2 | both nucs get a cell"
        return glue_tail(marks) if z is not None and z.w.split()[0] in _BOTH_GET else None
    if m.w == "it" and marks[-1].label == "cols" and q is not None and q.w in ("has", "had", "is", "was", "'s"):
        if any(x.label == "cue" and x.w.startswith("skip") for x in marks):
            return []  # "skipped nine | it has supers on"
    if m.w in ("those", "they", "these") and marks[-1].w.startswith(_STILL_THERE) and marks[-1].label == "cue":
        if q is not None and q.label in ("verb", "cue"):
            return []  # "nucs still have theirs | those come out sunday"
    if (
        m.w == "both"
        and at.cols
        and q is not None
        and q.v.get("cue") == "plan"
        and marks[-1].label in ("number", "fact")
    ):
        return []  # "nine's got seven | both need another box"
    if m.w == "it" and at.cols and q is not None and q.v.get("cue") == "not" and q.w.split()[0] in _WOULD_NOT:
        if at.soft is not None and marks[-1].w != "and" and (complete or has_verb(marks)) and not at.has_cue("not"):
            return glue_tail(marks)  # "fed every hive except l two, | it doesn't need any"
    if not (complete or at.cols) or m.w in ("it", "its", "her", "both") or q is None:
        return None
    if m.w in ("those", "they", "these") and marks[-1].label == "cols" and not (complete or has_verb(marks)):
        return None  # "l sixteen through l thirty, those come out a week from friday"
    out_again = m.w == "they" and complete and q.label == "verb" and q.w.split()[-1] in WAYS
    subject = (
        q.w in AUX
        or q.w in _THEY_ARE
        or (out_again and marks[-1].label == "form")  # "that's fifty strips | they come out november eighth"
        or (
            q.label in ("verb", "fact", "change", "cue")
            and marks[-1].label not in ("verb", "w", "queen_work", "change", "form", "method")
        )
    )
    return glue_tail(marks) if subject else None


_WOULD_NOT = frozenset("doesn't didn't don't won't isn't wasn't hasn't".split())
_THEY_ARE = frozenset("look looked seem need get all stay come go will were keep kept still can could".split())
_GIVEN_TO = frozenset(["every", "each"])
_LOOK_AGAIN = frozenset(["check", "recheck", "retest", "rewash"])
_BOTH_GET = AUX | {"get", "need", "look", "looked", "took", "go", "want", "will"}


def _at_them(at: Place) -> Tail:
    """At what stands for a thing: "the tray", "the ones", "theirs"."""
    m, marks = at.m, at.marks
    tray = at.cols and m.w.startswith("the tray") and marks[-1].label in ("cols", "comma", "filler")
    ones = at.soft is not None and m.w in ("the ones", "ones", "theirs")
    return glue_tail(marks) if tray or (ones and done(marks)) else None


def _so_many_on(at: Place) -> Tail:
    """ "two patties on 3 and 5 | and one on everybody else", "… | one on each of the others": how many the rest got."""
    k = len(at.marks)
    while k > 0 and (at.marks[k - 1].label == "each" or at.marks[k - 1].w in _UPON):
        k -= 1
    upon = at.marks[k:]
    counts = k > 0 and at.marks[k - 1].label == "number" and at.marks[k - 1].v["n"].value < _FEW_EACH
    if (
        not upon
        or upon[-1].w not in _UPON
        or not counts
        or not at.cols
        or not (done(at.marks[: k - 1]) or at.has("amount"))
    ):
        return None
    return [*with_joins(at.marks[: k - 1]), at.marks[k - 1], *upon]


_UPON = frozenset("on in into to for off from of under".split())
_FEW_EACH = 10


def _at_rest(at: Place) -> Tail:
    """At "the rest" as the subject of what follows, or as what somebody did or has to do."""
    verb, before = at.marks[-1], at.marks[:-1]
    does = verb.label == "verb" and verb.w.split()[0] in _DOES
    to_do = verb.w in ("got", "has", "have") and at.q is not None and at.q.v.get("cue") == "plan"
    if (does or to_do) and (done(before) or (at.cols and any(x.v.get("does") == "do" for x in before))):
        # "pads in one to nine at the quarry | did the rest saturday", "… | toby's got the rest to do tomorrow"
        return [*glue_tail(before), verb]
    if (
        at.q is not None
        and at.q.label == "date"
        and at.cols
        and not at.has_cue("not")
        and (at.has("verb") or done(at.marks) or _only_those(at.marks))
    ):
        return glue_tail(at.marks)  # "h1-h6 got strips, | the rest tomorrow"
    if at.q is not None and at.q.label == "number" and at.cols and (at.q.v["n"].value == 0 or at.has("number")):
        return glue_tail(at.marks)  # "11 to 20 half a gallon, | rest none needed"
    if (counted := _so_many_on(at)) is not None:
        return counted
    k = at.i + 1
    while k < len(at.row) and (at.row[k].label == "yard" or at.row[k].w in ("of", "the", "at")):
        k += 1  # "the rest of cut bank | comes out"
    q = at.row[k] if k < len(at.row) else None
    subject = q is not None and (q.w in AUX or q.w in _PERSONS or q.label in ("verb", "cue", "fact", "person"))
    told = q is not None and q.label == "cue" and q.v.get("cue") == "not" and has_verb(at.marks)
    told = told or (q is not None and q.v.get("cue") == "plan" and at.has("amount") and at.has("each"))
    told = told or (
        (at.soft is not None or at.statement.opens == "soft") and at.has("number", "amount") and not at.has("verb")
    )  # "L13 only one and | the rest get"
    told = told or _only_those(at.marks)  # "one to nine are out | the rest come out friday"
    does_so = told or done(at.marks) or (has_verb(at.marks) and not at.has_cue("plan"))
    given = bool(at.cols) or (at.has("each") and has_verb(at.marks))  # "put two in each, | the rest can wait"
    return glue_tail(at.marks) if subject and given and does_so else _at_thing(at)  # "pulled 1 to 12 | the rest come …"


def _only_those(marks: list[Mark]) -> bool:
    """Whether colonies alone are named, or said to be in, on, off or out: "one to nine are out", "s two and s nine";
    also with their day, after others ("1-6 today, | 7-12 thurs, | rest next week").
    """
    if [m.label for m in marks if m.label != "comma"] == ["cols", "date"]:
        return True
    plain = all(
        x.label in ("cols", "comma", "filler") or x.w in ("and", "are", "is", "were", "was") for x in marks[:-1]
    )
    ends = marks[-1].label == "cols" or (len(marks) > 2 and marks[-1].w in WAYS)
    return plain and ends and any(x.label == "cols" for x in marks)


_IS_ON = frozenset(["is", "'s", "goes"])


def _at_round(at: Place) -> Tail:
    """At "the second round" as a subject."""
    q = at.q
    article = at.marks[-1:] if at.marks[-1].w in ("the", "a") else []
    before = at.marks[: len(at.marks) - len(article)]
    counted = at.soft is None and q is not None and q.w == "of" and bool(before)
    if counted and before[-1].label in ("mites", "value", "number") and at.cols and done(before):
        return article  # "twenty three had eleven | second round of hop strips goes in saturday"
    if at.soft is None and at.has("round") and before and before[-1].label in _CLOSED and done(before):
        return article  # "the first round came out today, every hive | the second round goes in friday"
    if q is not None and q.w.startswith("due") and at.has("date") and done(at.marks):
        return article  # "gel in h1-h6 today | second tray due the 24th"
    if q is not None and q.w in _IS_ON and at.z is not None and at.z.label == "date" and done(at.marks):
        return article  # "all but nine, the battery died on that one | third go is next wednesday"
    if at.soft is None and not at.has("round") and q is not None and at.marks[-1].label in ("each", "every", "cols"):
        on_day = (
            q.label == "date" and q.w.startswith("on ") and not at.has("date")
        )  # "50 g each | second dose on the 28th"
        later = q.w in _IS_ON or on_day
        return [] if later and done(at.marks) else None  # "fifty mils a hive | second round is in a week"
    if q is not None and q.label == "date" and at.soft is not None and at.has("round") and at.has("date"):
        return with_joins(at.marks)  # "heath first round monday and | second round friday"
    if at.strong and at.has("fact") and not at.has("cols", "agent", "form") and done(at.marks):
        return with_joins(at.marks)  # "the trays were empty so | second round for S1 to S6"
    if at.soft is None or q is None or not at.has("agent", "form", "temp") or not done(at.marks):
        return None
    again = at.has("round") and q.label in (
        "filler",
        "date",
    )  # "that's the first round um | second round next wednesday"
    swapped = at.strong and q.w in ("in", "straight") and any(x.w in ("out", "off") for x in at.marks)
    later_day = q.label == "date" and q.v["value"].form == "weekday"
    later = q.label == "date" and q.v["value"].is_to_come  # "…, 2nd round in a week"
    opens = (
        again
        or swapped
        or (later_day and at.strong and at.has("date"))  # "vaped heath tuesday, | second round friday"
        or (later and at.strong and not at.has("cue"))
        or q.label in ("verb", "cue")
        or q.w in ("is", "i", "goes", "of")
    )
    return with_number(at.marks) if opens else None


def _at_again(at: Place) -> Tail:
    """ "vaped heath | next one Sunday"."""
    return glue_tail(at.marks) if done(at.marks) or at.has("round") else None


_IN_ONE = frozenset(["in", "from", "on"])


def _at_ordinal(at: Place) -> Tail:
    """ "didn't write down which hives | the first had two": after what was not done or asked, counts begin."""
    the = at.marks[-1:] if at.marks[-1].w == "the" else []
    if any(x.w in _IN_ONE for x in at.marks[-2:]) and at.has("mites", "value", "clean"):
        return None  # "four mites in the first and none in the second"
    if at.q is not None and at.q.label == "form" and at.z is not None and done(before := at.marks[: -len(the) or None]):
        if at.z.label == "date" or at.z.w in ("is", "goes", "comes") or at.z.v.get("cue") == "plan":
            return [*with_joins(before), *the]  # "one pad each cause it's hot | second pad a week from monday"
    if at.q is not None and at.q.label == "form" and at.has("form") and at.has("ordinal", "round") and not the:
        if at.marks[-1].label in ("yard", "cols", "every", "date") and done(at.marks):
            return []  # "second pads in at Heath | first pads out same time"
    if at.q is not None and at.q.w == "one" and at.z is not None and at.z.w in ("'s", "is", "goes"):
        day = at.row[at.i + 3] if at.i + 3 < len(at.row) else None
        if day is not None and day.label == "date" and at.has("agent", "form") and done(at.marks):
            return with_joins(at.marks)  # "that's the first vape done at heath | second one's on friday"
    counts = at.q is not None and at.q.w in ("had", "was", "got", "came", "gave")
    if not counts or not at.has_cue("not", "ask") or at.has("value", "mites", "clean"):
        return _at_thing(at)
    return at.marks[-1:] if at.marks[-1].w == "the" else []


def _at_same(at: Place) -> Tail:
    """At "same"."""
    return glue_tail(at.marks) if done(at.marks) else None


def _at_yard(at: Place) -> Tail:
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


def _at_every(at: Place) -> Tail:
    """At "every hive" after colonies, "they all" after a number from each."""
    if at.m.w.startswith("they") and at.has("number") and at.marks[-1].label in ("cols", "yard") and at.cols:
        return []  # "three nucs out of nine and two out of ten | they all get a cell"
    named = at.marks[-1] in at.cols and len(at.marks) > 2 and at.marks[-2].w in ("are", "is")
    if at.m.w.startswith("they") and named and at.q is not None and at.q.label in ("verb", "queen_work"):
        return []  # "they are n one n two and n three | they all get queen cells on saturday"
    return glue_tail(at.marks) if at.cols and at.soft is not None and done(at.marks) else None


def _at_weather(at: Place) -> Tail:
    """ "didn't get to sixty one | the rain came"."""
    if at.marks[-1].label == "each" and at.soft is None and at.cols and has_verb(at.marks):
        return []  # "seven to nine got two each | high of eighty four today"
    grounds = (bool(at.cols), at.soft is not None, at.has("cue"))
    return glue_tail(at.marks) if sum(grounds) >= 2 and not done(at.marks) else _at_thing(at)


def _not_yet(at: Place) -> bool:
    """Whether something was not done, and what is not said ("didn't do eleven")."""
    said_not = any(x.label == "cue" and (x.w.split()[0].endswith("n't") or x.w.startswith("skip")) for x in at.marks)
    return said_not and not done(at.marks)


def _at_fact(at: Place) -> Tail:
    """At what was seen: after work left undone it is said of the colony anew."""
    marks = at.marks
    if at.cols and at.has("number") and not at.has("fact", "value"):
        why = next((k for k in range(max(1, len(marks) - 2), len(marks)) if marks[k].w in ("cause", "because")), 0)
        if why and marks[why - 1].label in ("number", "each"):
            return marks[why:]  # "and fifty one only the one | cause it's weak"
    if (
        "temper" in at.m.v.get("set", {})
        and len(marks) > 1
        and marks[-1].w == "and"
        and marks[-2].label in ("temp", "sky")
    ):
        return None  # "it was forty degrees and calm"
    if (reason := _reason_for_none(marks)) is not None:
        return reason  # "13 none | (weak)", "45 none | it was heavy"
    if at.m.w.split()[0] in _NOTICED and at.has("every") and not at.has("fact") and done(marks):
        return glue_tail(marks)  # "supers on every hive | saw the queen in four"
    if marks[-1].w in _NOTICED and done(marks[:-1]) and not at.has("fact"):
        return [*glue_tail(marks[:-1]), marks[-1]]  # "traps in every hive | saw beetles in three"
    if at.q is not None and at.q.label == "thing" and at.q.w.endswith("ones") and done(marks):
        lead = [x.w for x in marks[-3:] if x.label == "w" and x.w != "the"]
        if lead and lead[-1] in _ON_TO and at.z is not None and at.z.label in ("cols", "yard"):
            return None  # "supers on the strong ones, two and four"
        return marks[-1:] if marks[-1].w in ("the", "those") else []  # "three is heavy | the light ones get fondant"
    if marks[-1].w == "now" and marks[-2:-1] and marks[-2].w in ("and", "but") and at.has("date") and at.has("fact"):
        return marks[-2:]  # "no eggs last week | and now eggs"
    if at.q is not None and at.q.w == "in" and at.z is not None and at.z.label == "cols" and _tells_more_of(at):
        return []  # "no eggs in fifteen but i saw a virgin trotting about | no eggs in sixteen"
    if marks[-1].w == "the" and at.q is not None and at.q.w in ("are", "is", "were") and at.has_cue("plan"):
        if at.cols and at.has("item", "agent", "feed", "date") and "sign" in at.m.v and done(marks):
            return glue_tail(marks)  # "63 needs a reducer by thursday | the wasps are all over it"
    if at.has_cue("not") and len(marks) > 2 and marks[-1].w in _SEEMED and marks[-2].w == "it":
        return marks[-2:]  # "hive four i didn't crack | it seemed heavy"
    if at.has_cue("not") and marks[-1].w == "it" and at.m.w.split()[0] in _SEEMED and len(marks) > 1:
        return marks[-1:]  # "hive four i didn't crack | it felt heavy"
    if at.cols and at.has_cue("not") and (at.has("thing") or _not_yet(at) or done(marks) or _left_out(marks)):
        if tail := reason_tail(marks):
            return tail  # "fifty didn't get any | it's weak", "nine i didn't give one | since it's down to two frames"
        if at.m.w.split()[0] in _IS_SO and not marks[-1].w.endswith("wait"):
            return []  # "didn't give any to nine | she's too small", but "… no wait they're supersedure cells"
    shut = marks[:-1] if marks[-1].label == "comma" or marks[-1].w == ":" else marks
    if _excepted(shut) and any(against(x, at.m) for x in shut):
        return marks[len(shut) :]  # "all queenright except 138, | no queen, no eggs"
    if at.cols and any(x.w in _LEFT for x in marks if x.label == "cue"):
        return [] if marks[-1].label == "comma" else None  # "43: not done, | queenless"
    return _at_thing(at)


_ON_TO = frozenset("on onto to in into for from off".split())
_REASONS = frozenset("( it it's its was is they're theyre they are were too so cause because since as - –".split())
_CAUSES = frozenset("cause because since as so".split())


def _reason_for_none(marks: list[Mark]) -> list[Mark] | None:
    """The words that lead in why a hive got none, after it and "none"; None where no such thing stands there."""
    k = len(marks)
    while k and (marks[k - 1].w in _REASONS or marks[k - 1].label == "comma"):
        k -= 1
    if k > 2 and marks[k - 1].label == "rest" and any(m.w == "none" for m in marks[max(0, k - 4) : k]):
        return marks[k:]  # "none on the rest | they're not ready"
    if k < 2 or marks[k - 1].label not in ("number", "clean"):
        return None
    why = marks[k - 1].w in ("none", "nothing", "zero", "0") or any(m.w in _CAUSES for m in marks[k:])
    at = k - 2
    while at and marks[at].w in ("only", "just", "got", "gets", "a"):
        at -= 1
    return marks[k:] if why and marks[at].label in ("cols", "rest") else None


def _left_out(marks: list[Mark]) -> bool:
    """ "supers on 40 to 50 | not 45 | it's weak": colonies left out of what was said, and nothing else of them."""
    k = next((k for k, x in enumerate(marks) if x.label == "cols"), 0)
    return k > 0 and marks[k - 1].w in ("not", "on", "in") and all(x.label in ("filler", "cue", "w") for x in marks[:k])


def _tells_more_of(at: Place) -> bool:
    """Whether the statement goes on about the colonies before it ("but i saw a virgin trotting about") and ends in
    words of its own."""
    marks = at.marks
    goes_on = at.statement.opens == "soft" and marks[0].w in ("but", "though", "still")
    own_words = marks[-1].label in ("w", "approx", "verb") and marks[-1].w not in GLUE_WORDS
    return goes_on and at.has("fact") and not at.cols and own_words


_IS_SO = frozenset("she's it's they're he's that's".split())
_LEADS_TO_ING = GLUE_WORDS | frozenset(
    "for of from about without needs need start started try tried instead like was is are be been by before after "
    "while when than worth i'm we're he's she's they're it's not through".split()
)
"""Words after which "moving" or "merging" goes on with what stands before."""
_SEEMED = frozenset("felt feels looked looks seemed seems sounded was is".split())


def _at_ignored(at: Place) -> Tail:
    """At talk that is no record."""
    if at.m.rule == "once it is off" and at.soft is None:
        return None  # "strips in twelve the minute the honey's off"
    if at.m.w.split()[0] == "from":
        return None  # "introduced queens from the bank to N4"
    return glue_tail(at.marks) if done(at.marks) or (at.cols and at.has("cue")) else None


def _at_word(at: Place) -> Tail:
    """At a plain word: an order ("mend the hole"), or what somebody did after "and I"."""
    m, marks = at.m, at.marks
    last = marks[-1]
    if m.w == "found" and last.label == "comma" and at.has("form", "agent", "item") and done(marks):
        return marks[-1:]  # "strips out of heath today, | found two on the floor of H5"
    if at.soft is None:
        return [] if m.w in ORDERS and _orders_anew(at) else None
    if m.w in ("out", "off") and at.q is not None and at.q.label == "date" and at.has("days"):
        if at.soft.w in ("so", "then"):
            return glue_tail(marks)  # "they stay forty two days | so out on september fifth"
    if last.label == "comma" and at.has("fact") and at.cols and not at.has("verb", "cue") and _job_on_a_day(at):
        return marks[-1:]  # "42 spotty, | calling the inspector monday"
    if m.w in ORDERS:
        if last.w in ("somebody", "someone", "please") and len(marks) > 2 and marks[-2].w in ("and", "um", "so"):
            return marks[-2:]  # "this is the quarry and | somebody bring the bait"
        if last.w == "so" and at.strong and clausal(marks) and not done(marks):
            return glue_tail(marks)  # "then I ran out um so | order another box"
        if last.w == "to" and marks[-2:-1] and marks[-2].w == "and" and at.has_cue("plan"):
            return marks[-2:]  # "promised to bring suits thursday and | to order frames by the first"
        if last.w == "and" and first_word(marks) in ORDERS:
            return marks[-1:]  # "pick up the cups saturday and | mend the hole"
        if at.has_cue("plan") and (last.label in ("filler", "comma") or last.w in ("and", "then", "also")):
            return glue_tail(marks)  # "list for the week um | fix the pallet"
    joined = last.w == "and" or (last.label == "filler" and marks[-2:-1] and marks[-2].w == "and")
    if m.w in _RINGS and joined and at.q is not None and (at.q.w in _WHOM or at.q.label == "person"):
        if (first_word(marks) in _JOBS or at.has_cue("plan")) and not at.has("cols", "verb"):
            return glue_tail(marks)  # "sharpen the tools oh and | call the vet back"
    if last.w in ("i'm", "we're") and len(marks) > 2 and _job_on_a_day(at):
        return glue_tail(marks)  # "so I closed it up | I'm calling the inspector tomorrow"
    if last.w in ("i'm", "we're") and m.w.endswith("ing") and len(marks) > 1 and not at.has("fact"):
        joined = marks[-2].label in ("filler", "comma") or marks[-2].w == "and"
        return (
            glue_tail(marks) if joined and done(marks) else None
        )  # "… in a week and | I'm reading the board on sunday"
    if last.w not in _PERSONS or len(marks) < 2 or m.w in AUX or m.w in GLUE_WORDS:
        return None
    joined = marks[-2].label in ("filler", "comma") or marks[-2].w in GLUE_WORDS
    return glue_tail(marks) if joined and done(marks) else None  # "… none um and | i spilled the sugar"


_JOBS = listed("jobs")
_RINGS = frozenset(["call", "ring", "phone", "email"])
_WHOM = frozenset("the my our that a him her them".split())


def _job_on_a_day(at: Place) -> bool:
    """Whether the word is that of a job done to no colony ("call", "ordering"), and a day follows in its sentence."""
    stem = at.m.w.removesuffix("ing")
    if at.m.w not in _JOBS and (stem == at.m.w or not {stem, stem + "e"} & _JOBS):
        return False
    for x in at.row[at.i + 1 : at.i + 7]:
        if x.label in ("stop", "line", "comma", "cols"):
            return False
        if x.label == "date":
            return True
    return False


def _orders_anew(at: Place) -> bool:
    """ "guards go on at larks next weekend | bring the drill": an order right after what is complete."""
    q = at.q
    if at.m.w == "pick" and q is not None and q.w == "up":
        q = at.z  # "pick up the jars"
    named = q is not None and (q.w in ("the", "a", "an", "some", "more", "extra", "my", "that") or q.label == "number")
    return named and at.marks[-1].label in _BEFORE_ORDER and done(at.marks)


def _at_amount(at: Place) -> Tail:
    """ "put strips in those two, two each | and a quart of syrup on fifty four"."""
    follows = at.row[at.i + 1 : at.i + 7]
    on = any(
        (
            a.w in ("on", "in", "to", "into", "for", "of")
            and (b.label in ("cols", "every") or b.v.get("cue") == "except")
        )
        for a, b in pairwise(follows)
    )
    last = at.marks[-1]
    if last.label == "change" and last.v.get("step") == "died" and at.cols and at.soft is None and on:
        return []  # "l nine is dead | five pounds of dry sugar each on l eleven and l twelve"
    rest = at.q is not None and at.q.w in ("for", "to", "on", "in") and at.z is not None and at.z.label == "rest"
    if rest and at.cols and at.has("amount") and done(at.marks):
        return with_joins(at.marks)  # "a gallon each on 70 and 72 | half a gallon for the rest"
    if at.soft is None and at.marks[-1].label == "every" and on and at.has("agent", "form", "item") and done(at.marks):
        fed = any(x.label == "feed" for x in follows[:2])
        return [] if fed and not at.has("feed", "amount", "number", "unit") else None
    joined = at.soft is not None and (at.soft.w in ("and", "then") or at.soft.label == "filler")
    if joined and on and at.has("fact", "change") and not at.has("agent", "form", "item", "feed", "verb"):
        return with_joins(at.marks) or None  # "it's light | and a gallon of syrup in five"
    if not joined or not on or not at.has("agent", "form", "item") or at.has("feed", "ratio"):
        return None
    return with_number(at.marks) if done(at.marks) else None


def _at_noun(at: Place) -> Tail:
    """ "eleven buckets off the pond today and | there's forty frames more to pull"."""
    marks = at.marks
    if at.m.w in _NUCS and at.q is not None and at.q.w in ("get", "gets", "got", "have", "only", "are") and done(marks):
        if marks[-1].label in _CLOSED:
            return []  # "two pads a hive | nukes get one"
    there = marks[-1].w in ("there's", "theres") or [x.w for x in marks[-2:]] == ["there", "are"]
    k = len(marks) - (1 if marks[-1].w in ("there's", "theres") else 2)
    said = done(marks[:k]) or at.has("yard")
    if not there or at.m.v.get("noun") != "frames" or not said:
        return _at_thing(at)
    return [*glue_tail(marks[:k]), *marks[k:]]


_BEEN_IN = [["they've", "been", x, "since"] for x in ("in", "on")]


def _at_date(at: Place) -> Tail:
    """At a second date."""
    marks, last = at.marks, at.marks[-1]
    k = len(marks) - (2 if last.w == "by" else 1)  # where "out" stands: "strips in 41 to 46, | out by 7/22"
    if (
        k > 1
        and marks[k].w in ("out", "off")
        and marks[k - 1].label in ("cols", "each", "days", "filler", "every", "comma")
    ):
        given = any(x.v.get("dir") == "in" or x.v.get("does") == "treat" or x.w in ("in", "into", "on") for x in marks)
        if given and done(marks[:k]):
            return [*glue_tail(marks[:k]), *marks[k:]]  # "strips went in fifty one | out november seventh"
    if last.label == "filler" and last.w == "next" and at.m.v["value"].form == "md" and done(marks[:-1]):
        return glue_tail(marks)  # "vapour 2 g a hive, all, | next 6/15"
    been = [x.w for x in marks[-4:]]
    if been in _BEEN_IN and done(marks[:-4]):
        return marks[-4:]  # "get the strips out of mill lane | they've been in since april first"
    if last.w in _TO_DO_THEN and len(marks) > 2 and marks[-2].label in ("comma", "filler") and done(marks[:-2]):
        return [*glue_tail(marks[:-1]), last]  # "strips in 41 to 46, 2 each, | back on the 20th"
    if last.label == "date" and done(marks) and "of" not in at.m.w.split():
        return []  # "out of QB on the tenth | today the cells went in"
    subject = at.q is not None and (at.q.w in _PERSONS or at.q.w in _IS_TO or at.q.label == "person")
    if subject and at.soft is not None and at.soft.w not in ("there", "now", "just") and done(marks):
        return glue_tail(marks)  # "guards on every hive | and thursday i'm back with reducers"
    if at.m.v["value"].is_to_come and at.q is not None and at.q.w == "they" and at.soft is None and done(marks):
        return []  # "all three are fair strength | tomorrow they get a patty each"
    if at.has("days") and at.soft is not None and at.soft.w == "and" and at.has("pronoun", "cue"):
        return glue_tail(marks)  # "they're to stay 28 days and | in 14 days I pull them"
    if at.strong and last.label == "filler" and at.cols and at.has_cue("not") and at.has("method", "item", "form"):
        return glue_tail(marks)  # "still haven't rolled sixty one um | saturday's rolls were …"
    if not at.has("date"):
        return None
    if (
        at.has("sky", "temp")
        and any(x.label in ("sky", "temp") for x in at.row[at.i + 1 : at.i + 5])
        and at.soft is None
    ):
        return []  # "yesterday it rained at wens | today clear and seventy six"
    if at.soft is not None and at.soft.w in ("there", "here") and len(marks) > 1 and marks[-2].label == "verb":
        return None  # "the mouse guards go on there in five days"
    if (at.strong and last.label == "filler") or (at.soft is not None and done(marks)):
        return glue_tail(marks)
    return None


def _after_yet(at: Place) -> Tail:
    """ "not yet | …": a head right after it is said of something else."""
    return [] if at.marks[-1].w == "yet" and at.m.label in HEADS and at.soft is None else None


def _to_super(at: Place) -> bool:
    """ "feed 41-44, | super 12": work on the colonies named straight after it."""
    return (
        at.m.w == "super"
        and at.q is not None
        and at.q.label == "cols"
        and at.soft is not None
        and bool(at.cols)
        and has_verb(at.marks)
    )


def _so_on_a_day(at: Place) -> Tail:
    """ "L2 is strong | so friday supers go on"."""
    marks = at.marks
    opens = len(marks) > 2 and marks[-1].label == "date" and marks[-2].w in ("so", "then")
    return marks[-2:] if opens and at.has("fact", "mites", "value") and not at.has("agent", "form", "item") else None


def _not_on_those(at: Place) -> Tail:
    """ "all but L13 and L14, | mouse guards not on those two yet": what the ones left out lack."""
    shut = at.marks[:-1] if at.marks[-1].label in ("comma", "filler") else at.marks
    if not _excepted(shut) or at.q is None or at.q.v.get("cue") != "not":
        return None
    those = any(x.label == "pronoun" for x in at.row[at.i + 2 : at.i + 5])
    return at.marks[len(shut) :] if those else None


def _at_thing(at: Place) -> Tail:
    """At a thing, a method, a fact …: whatever becomes a record and has no rule of its own."""
    if at.m.label in THINGS and (those := _not_on_those(at)) is not None:
        return those
    if at.m.label in THINGS and (day := _so_on_a_day(at)) is not None:
        return day
    if at.m.label in ("item", "form") and at.marks[-1].w in ("there's", "theres") and at.has_cue("not"):
        return at.marks[-1:]  # "nine didn't get one | there's strips in there still"
    there = at.marks[-1].w == "there" and len(at.marks) > 1
    if at.m.label == "moisture" and there and at.marks[-2].w in ("from", "of", "off"):
        return None  # "nine buckets of honey from there moisture seventeen"
    tail = _after_yet(at)
    off = [x.w for x in at.marks[-2:]] in (["'s", "off"], ["is", "off"], ["are", "off"]) and at.has("honey", "item")
    if off and at.m.label in THINGS and at.q is not None and at.q.w in AUX:
        return []  # "the honey's off | strips are in two each"
    if at.m.label == "form" and at.has_cue("if") and [x.label for x in at.marks[-2:]] == ["number", "number"]:
        return at.marks[-1:]  # "if it's under eighty five | two pads"
    if at.m.label in ("item", "agent", "form") and len(at.marks) > 2 and at.has("yard", "item", "agent", "form"):
        if at.marks[-2].w == "left" and at.marks[-1].w in ("the", "all"):
            return at.marks[-2:]  # "and eighteen off heath | left the escapes on"
    if at.m.label == "item" and tail is None and _to_super(at):
        return glue_tail(at.marks)
    if at.soft is not None and at.m.label in THINGS and _waits_for_not(at):
        return with_number(at.marks)  # "we wrap all of cut bank and | the mouse guard still isn't on 63"
    if tail is not None or at.m.label not in _MAY_BEGIN or not done(at.marks):
        return tail
    return _at_unjoined_thing(at) if at.soft is None else _at_joined_thing(at, at.soft)


def _at_unjoined_thing(at: Place) -> Tail:
    """At a thing right after what is complete, no comma or joining word between."""
    label, marks, last = at.m.label, at.marks, at.marks[-1]
    if last.w == "the" and label == "item" and at.q is not None and is_verb(at.q) and not same_family(marks, at.m):
        if at.q.v.get("tense") == "past" and at.q.v.get("dir") and marks[-2].label in _CLOSED:
            return marks[-1:]  # "strips are in at heath two each | the supers came off"
    if last.w == "the" and len(marks) > 1 and marks[-2].label in ("moisture", "percent") and label in THINGS:
        return marks[-1:]  # "moisture sixteen and a half | the supers on 61 come off friday"
    if last.w == "the" and at.cols and label in THINGS and at.q is not None:
        if at.q.label == "cue" and at.q.v.get("cue") in ("not", "plan"):
            return marks[-1:]  # "reducers on l1 to l12 | the wraps haven't gone on yet"
    if label in ("item", "form") and last.label == "cols" and at.z is not None and not same_family(marks, at.m):
        if at.q is not None and at.q.w in ("is", "are") and at.z.w in ("off", "on", "out", "in", "back"):
            return []  # "a pound for forty through forty four | mouse guards are off every hive"
    if label in THINGS and _excepted(marks) and not same_family(marks, at.m):
        return []  # "a pound on every hive bar forty one | oxalic vapor went in in january"
    if label in THINGS and last.label in ("date", "yard") and has_verb(marks) and at.q is not None:
        if at.q.w in AUX and at.has(*THINGS):
            return []  # "feeders came off at larks today | mouse guards are on"
    if label == "item" and last.label == "date" and at.q is not None and at.q.label == "date":
        return []  # "reducers went on last week | guards this week | wraps in november"
    if label == "item" and at.q is not None and at.q.w in ("are", "is", "were") and last.label in _CLOSED:
        if at.has("item") and not same_item(marks, at.m) and at.z is not None and at.z.w in _ALREADY:
            return []  # "guards go on this weekend at larks | reducers are already on"
    if label in THINGS and last.label in ("yard", "every") and _goes_its_own_way(at):
        return []  # "traps out of everything at larks | guards on L1 through L12"
    if last.label == "each" and label in THINGS and not same_family(marks, at.m) and at.q is not None:
        if at.q.w in WAYS:
            return []  # "a gallon each | wraps on at wens next week"
    if last.label == "change" and last.v.get("step") == "died" and label in THINGS and at.cols:
        if any(x.label == "cols" for x in at.row[at.i + 1 : at.i + 6]):
            return []  # "l three's a goner | pollen sub a pound each l five and six"
    weather = marks[-2] if last.label == "date" and len(marks) > 1 else last  # "frost last night | mouse guards go on"
    if label in THINGS and weather.label in ("moisture", "temp", "sky") and at.q is not None:
        return []  # "three barrels off larks sixteen point eight moisture | excluders off the whole yard"
    if label in ("item", "agent", "form") and last.label == "amount" and at.q is not None and is_verb(at.q):
        return []  # "the quarry made six gallons | strips go in thursday"
    if label in THINGS and last.label == "number" and not same_family(marks, at.m):
        tail = with_number(marks)  # "guards on every hive at larks | and two strips in each but three"
        led_on = tail[:1] and (tail[0].label == "filler" or tail[0].w in ("and", "so"))
        if (
            len(tail) > 1
            and led_on
            and at.cols
            and (marks[-len(tail) - 1].label in ("percent", "mites") or _goes_in_there(at))
        ):
            return tail  # "the wash on 61 was half a percent | and two hop strips apiece went in 50 to 55"
        closed = len(tail) > 1 and tail[0].w == "and" and marks[-len(tail) - 1].label in ("yard", "every", "each")
        if len(tail) > 1 and tail[0].w == "then" and marks[-len(tail) - 1].label in _CLOSED:
            return tail if done(marks[: -len(tail)]) else None  # "supers off tomorrow | then it's two pads a hive"
        return tail if closed and done(marks[: -len(tail)]) and at.has("yard", "every") else None
    if label == "method" and last.w == "the" and at.has("mites", "value") and at.has("method"):
        return marks[-1:]  # "uncapped drone brood, five mites | the wash on it was three"
    if label in THINGS and last.label == "every":
        if label == "item" and at.has("item"):
            return []  # "mouse guards went on last week every hive | reducers yesterday"
        if not same_family(marks, at.m) and any(x.w in WAYS for x in at.row[at.i + 1 : at.i + 3]):
            return []  # "strips out all of them | reducers on whole yard"
    if label == "method" and last.label == "date" and not header_only(marks):
        joined = with_joins(marks[:-1])  # "hive eight had two | and then um today sugar rolls"
        return [*joined, last] if joined else []
    return [] if label in ("temp", "sky") and not same_family(marks, at.m) else None


def _goes_in_there(at: Place) -> bool:
    """ "forty got a gallon each of syrup | and two hop strips apiece went in fifty": where the thing went follows."""
    follows = at.row[at.i + 1 : at.i + 6]
    went = next((k for k, x in enumerate(follows) if x.label == "verb" and x.w.split()[0] in ("went", "go")), None)
    if went is None or any(x.label not in ("form", "each") for x in follows[:went]):
        return False
    return [x.label for x in follows[went + 1 : went + 3]] == ["w", "cols"]


def _goes_its_own_way(at: Place) -> bool:
    """Whether the thing before went on or off somewhere, and this other one goes on or off colonies of its own."""
    ways = any(a.label == "item" and b.w in _WAYS_AND_UNDER for a, b in pairwise(at.marks))
    follows = at.row[at.i + 1 : at.i + 5]
    if not ways or same_item(at.marks, at.m) or not follows or follows[0].w not in _WAYS_AND_UNDER:
        return False
    places = [x for x in follows[1:] if x.w not in ("of", "the", "supers")]
    return bool(places) and places[0].label in ("cols", "every", "rest", "item")


_ALREADY = WAYS | {"already"}
_WAYS_AND_UNDER = WAYS | {"under"}


def same_item(marks: list[Mark], m: Mark) -> bool:
    """Whether the marks name that thing already."""
    return m.label == "item" and any(x.label == "item" and x.v["item"] == m.v["item"] for x in marks)


def _excepted(marks: list[Mark]) -> bool:
    """Whether the marks end in colonies that are an exception."""
    return len(marks) > 1 and marks[-1].label == "cols" and marks[-2].v.get("cue") == "except"


def _at_joined_thing(at: Place, soft: Mark) -> Tail:
    """At a thing after a comma or a joining word: one of the same family goes on with the statement."""
    m, marks, cols = at.m, at.marks, at.cols
    tail = glue_tail(marks)
    if not tail:
        return None
    if soft.w == "then" and m.label in ("agent", "form", "item", "feed", "queen_noun", "method"):
        return with_number(marks)
    if m.label == "method" and cols and any(x.label == "method" and x.v["method"] != m.v["method"] for x in marks):
        return tail
    if m.label == "sample" and cols and at.has("percent", "mites", "value") and _sample_of_next(at):
        return tail  # "seventy one four percent | and half cup soap wash seventy seven had four"
    alike = same_family(marks, m)
    if alike and m.label == "item" and at.q is not None and at.q.v.get("dir") and not same_item(marks, m):
        if has_verb(marks) or any(x.label == "item" and x.w.endswith("ing") for x in marks):
            return with_number(marks)  # "saturday we're wrapping Heath | and the mouse guards go on there in five days"
    since = since_last_head(marks)
    if alike and not any(x.label in ("cols", "date") or x.w in WAYS for x in since):
        return None
    if m.label == "method" and [x.label for x in since if x.label not in ("comma", "w")] == ["sample"]:
        return None  # "0 mites in 300, alcohol wash"
    if soft.w in ("and", "plus", "or", "-", "–") and not at.strong:
        if alike and not cols and not at.has("every"):
            return None
        if m.label == "fact" and cols and at.has("fact"):
            return None
    # "a tray each um | Dov is rolling all of them": the doer goes along
    return tail if any(x.label == "person" for x in tail) else with_number(marks)


def _sample_of_next(at: Place) -> bool:
    """Whether the method follows the sample, and then the colonies that were checked so."""
    method = at.q is not None and at.q.label == "method"
    return method and at.z is not None and at.z.label == "cols" and predicate_follows(at.row, at.i + 2)


def _waits_for_not(at: Place) -> bool:
    """Whether the thing is the subject of what was not done, and what stands before it is said to its end."""
    k = at.i + 1
    while k < len(at.row) and at.row[k].w in ("still", "just", "there"):
        k += 1
    cue = at.row[k] if k < len(at.row) else None
    before = with_number(at.marks)
    said = at.marks[: len(at.marks) - len(before)]
    denied = cue is not None and cue.label == "cue" and cue.v.get("cue") == "not" and cue.w.split()[-1].endswith("n't")
    worked = done(said) or any(is_verb(x) or x.label in ("method", "check") for x in said)
    return denied and bool(said) and said[-1].label in _CLOSED and worked


def _at_part(at: Place) -> Tail:
    """ "grafted thirty two um | sixteen of them are going to wens"."""
    part = at.strong and at.m.w.endswith(("of them", "of em")) and not at.has("change", "item", "agent", "form")
    return glue_tail(at.marks) if part and done(at.marks) and at.has("queen_work") else _at_thing(at)


def _at_unit(at: Place) -> Tail:
    """At a dose after an aside: "all but 57, that one's dead um | one gram each"."""
    aside = at.strong and at.has("change", "fact") and not at.has("agent", "form", "unit", "feed")
    return glue_tail(at.marks) if aside and done(at.marks) else None


_BY_LABEL: dict[str, Callable[[Place], Tail]] = {
    "cols": at_colonies,
    "cue": _at_cue,
    "heading": _never,
    "hives": _at_part,
    "unit": _at_unit,
    "number": _at_count,
    "value": _at_count,
    "mites": _at_count,
    "clean": _at_count,
    "pronoun": _at_pronoun,
    "thing": _at_them,
    "rest": _at_rest,
    "round": _at_round,
    "again": _at_again,
    "ordinal": _at_ordinal,
    "same": _at_same,
    "yard": _at_yard,
    "every": _at_every,
    "sky": _at_weather,
    "temp": _at_weather,
    "fact": _at_fact,
    "ignore": _at_ignored,
    "w": _at_word,
    "date": _at_date,
    "amount": _at_amount,
    "noun": _at_noun,
}
