"""Does a new statement begin at this mark? One decision for each sort of mark, in a module beside this one."""

from __future__ import annotations

from collections.abc import Callable

from fieldnotes.reader.mark import THINGS, WAYS
from fieldnotes.reader.parting.about import clausal, done, is_verb, names_made, person_follows, predicate_follows
from fieldnotes.reader.parting.at_counts import at_amount, at_count, at_dose, at_noun, at_part
from fieldnotes.reader.parting.at_cues import at_cue
from fieldnotes.reader.parting.at_days import at_date
from fieldnotes.reader.parting.at_facts import at_fact, at_weather
from fieldnotes.reader.parting.at_pronouns import at_every, at_pronoun, at_rest, at_same, at_them
from fieldnotes.reader.parting.at_rounds import at_again, at_ordinal, at_round
from fieldnotes.reader.parting.at_things import another_treatment, at_thing
from fieldnotes.reader.parting.at_words import at_ignored, at_word
from fieldnotes.reader.parting.at_work import at_work
from fieldnotes.reader.parting.at_yards import at_yard
from fieldnotes.reader.parting.colonies.deciding import at_colonies
from fieldnotes.reader.parting.elsewhere import checked_later, told_of_others
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.headers import header_tail
from fieldnotes.reader.parting.tails.joining import glue_tail

_SAMPLE_LOST = "sample lost"
"""The rule of the words that say that a sample came to nothing."""


def new_statement(at: Place) -> Tail:
    """What a new statement begins with at this mark; None where the mark goes on with the one before."""
    tail = _clause_before_ends(at)
    if tail is not None:
        return tail
    if _with_the_first(at):
        return None
    if (
        at.m.label in THINGS
        and at.marks[-1].label == "comma"
        and at.marks[-2:-1]
        and at.has("yard")
        and at.has(*THINGS)
    ):
        if at.marks[-2].w in ("done", "not done", "undone", "not done yet"):
            return at.marks[-1:]  # "supers at Larkfield done, | excluders at the quarry not done yet"
    tail = another_treatment(at)
    if tail is not None:
        return tail
    if checked_later(at):
        return []
    if at.m.label == "feed" and at.marks[-1].label == "ratio":
        return None  # "a quart of one to one syrup each"
    tail = told_of_others(at)
    if tail is not None:
        return tail
    if at.m.rule == _SAMPLE_LOST and at.has("fact") and at.cols:
        return glue_tail(at.marks)  # "seventy six ants got it | couldn't count it"
    if at.marks[-1].rule == _SAMPLE_LOST and at.m.label in ("fact", "cue"):
        return []  # "forty four i couldn't read | ants all over it"
    if at.m.label == "fact" and at.marks[-1].w == "was" and at.marks[-2:-1] and at.marks[-2].rule == _SAMPLE_LOST:
        return at.marks[-1:]  # "forty four i couldn't read it | was full of ants"
    if at.soft is not None and at.soft.w == "so" and at.m.w == "do" and at.marks[-2:-1]:
        if at.marks[-2].rule == _SAMPLE_LOST:
            return glue_tail(at.marks)  # "forty three i spilled | so do that one friday"
    decide = _BY_LABEL.get(at.m.label)
    if decide is not None:
        return decide(at)
    return at_work(at) if is_verb(at.m) else at_thing(at)


def _clause_before_ends(at: Place) -> Tail:
    """Where the marks are a clause that becomes no record, and after a strong boundary something new is said."""
    m, marks, soft = at.m, at.marks, at.soft
    if m.label in _AFTER_NAMING and marks[-1].label == "cols" and names_made(marks[-3:]):
        return []  # "called it N3 | gave it a cell"
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


def _with_the_first(at: Place) -> bool:
    """ "took the strips and | the feeders out of nine", "put two strips and | a feeder on nine": one verb for both, and
    where they were, or went, behind the second.
    """
    harvest = at.m.label == "harvest" and at.m.w == "honey off"
    if at.m.label not in THINGS and not harvest:
        return False
    marks, k = at.marks, len(at.marks) - 1
    while k > 0 and marks[k].label in _BEFORE_THING:
        if marks[k].w == "and":
            break
        k -= 1
    if k < 2 or marks[k].w != "and" or marks[k - 1].label not in THINGS or (marks[k - 1].label == at.m.label != "form"):
        return False
    k -= 1
    while k > 0 and (marks[k].label in THINGS or (marks[k].label in _BEFORE_THING and marks[k].w not in WAYS)):
        k -= 1
    if marks[k].label != "verb" or not marks[k].v.get("dir"):
        return False
    if harvest:
        return at.q is not None and at.q.label in _WHERE
    if at.q is None or at.q.w not in _TO_OR_FROM or at.z is None:
        return False
    return at.z.label in _WHERE or (
        at.z.w == "of" and at.row[at.i + 3 : at.i + 4] != [] and at.row[at.i + 3].label in _WHERE
    )


_BEFORE_THING = frozenset(["w", "number", "approx"])
_TO_OR_FROM = frozenset("off out from on in into onto".split())
_WHERE = frozenset(["cols", "yard", "every"])
_AFTER_NAMING = frozenset(["verb", "queen_work"])


def _never(at: Place) -> Tail:
    """It goes on with the statement."""
    return None


_BY_LABEL: dict[str, Callable[[Place], Tail]] = {
    "cols": at_colonies,
    "cue": at_cue,
    "heading": _never,
    "hives": at_part,
    "unit": at_dose,
    "number": at_count,
    "value": at_count,
    "mites": at_count,
    "clean": at_count,
    "pronoun": at_pronoun,
    "thing": at_them,
    "rest": at_rest,
    "round": at_round,
    "again": at_again,
    "ordinal": at_ordinal,
    "same": at_same,
    "yard": at_yard,
    "every": at_every,
    "sky": at_weather,
    "temp": at_weather,
    "fact": at_fact,
    "ignore": at_ignored,
    "w": at_word,
    "date": at_date,
    "amount": at_amount,
    "noun": at_noun,
}
