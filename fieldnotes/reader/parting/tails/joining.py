"""Fillers, joining words and prepositions at the end of a statement, which belong to what comes next."""

from __future__ import annotations

import re

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.parting.about import AUX, GLUE_WORDS, GOVERNORS, done, has_verb


def glue_tail(marks: list[Mark]) -> list[Mark]:
    """Fillers, joining words and pronouns at the end: they belong to what comes next."""
    k = _person_at_end(marks)
    if k == len(marks) and k > 2 and [m.w for m in marks[-2:]] == ["to", "be"] and joins(marks[-3]):
        k -= 2  # "new queen introduced, to be | released sunday"
    while k > 0 and _is_glue(marks, k - 1):
        k -= 1
        if marks[k].label == "w" and marks[k].w == "to" and k > 0 and marks[k - 1].label == "date":
            k -= 1  # "…, back Saturday to | pull supers"
    return marks[k:]


_PERSONS = frozenset("i we he she they somebody someone".split())


_AFTER_PERSON = AUX | {"just", "also", "already", "then"}


def _person_at_end(marks: list[Mark]) -> int:
    """Where a person with an auxiliary or a date ("today I have just") ending the marks begins; else their length."""
    subject = len(marks) - 1
    while subject > 0 and marks[subject].label == "w" and marks[subject].w in _AFTER_PERSON:
        subject -= 1
    if subject <= 0:
        return len(marks)
    x, before = marks[subject], marks[subject - 1]
    person = x.label in ("person", "pronoun") or (x.label == "w" and x.w in _PERSONS)
    if not person or (subject == len(marks) - 1 and before.label != "date"):
        return len(marks)
    ahead = before.label == "date" and before.v["value"].ahead
    today = before.label == "date" and before.v["value"].form == "offset"
    opened = next((x for x in reversed(marks[: subject - 1]) if x.label != "w" or x.w in ("and", "but")), None)
    aside = opened is not None and (opened.label == "filler" or opened.w in ("and", "but"))
    if before.label == "date" and aside and marks[subject - 2].label == "w" and marks[subject - 2].w not in GLUE_WORDS:
        return next(
            k for k, x in enumerate(marks) if x is opened
        )  # "lost five at cut bank um and for the record last fall | I put …"
    worked = has_verb(marks[: subject - 1]) and not any(x.label in ("date", "fact") for x in marks[: subject - 1])
    if before.label == "date" and not today and worked:
        return subject  # "came out of six in late june | I had not written it down"
    if ahead and worked and marks[subject - 2].w.split()[-1] == "her" and x.w == "she":
        return subject - 1  # "pinched her | tomorrow she gets a cell"
    if ahead and before.v["value"].form == "offset" and is_over(marks[: subject - 1]):
        return subject - 1  # "the feeder there is broken | tomorrow i put new ones on"
    return subject - 1 if before.label == "date" and not ahead and done(marks[: subject - 1]) else subject


def _is_glue(marks: list[Mark], k: int) -> bool:
    """Whether the mark at `k`, all after it being glue, is glue too."""
    x = marks[k]
    before = marks[k - 1] if k > 0 else None
    if x.label == "person" and before is not None and before.w == "by":
        return False  # "two each yesterday by dov and | twelve has three"
    if x.label in ("comma", "filler", "approx", "person", "clock"):
        return True
    if x.label == "date" and before is not None and before.w == "there" and k > 1 and not joins(marks[k - 2]):
        return False  # "a new queen goes in there friday | also requeened 62", "wraps on the lot there next week | and"
    if x.label in ("pronoun", "date", "ordinal"):
        if so_since(marks, k):
            return False
        return before is not None and (joins(before) or (x.label == "ordinal" and before.w == "the"))
    if x.label != "w":
        return False
    if all_there(marks, k):
        return False
    if x.w in GLUE_WORDS or x.w in ("still", "never", "already", "later", "the", "a", "it", "back"):
        return True
    # "back Saturday to | pull supers", "friday to take the supers off and to | put the pads in"
    return x.w == "to" and before is not None and (before.label == "date" or before.w in ("back", "and"))


def so_since(marks: list[Mark], k: int) -> bool:
    """ "no queen since august | l eight has eggs", "the strips have been there since may | so": whether the day at `k`
    tells how long what was found, or what is in, has been so.
    """
    if k < 2 or marks[k - 1].w != "since":
        return False
    return marks[k - 2].label == "fact" or any(m.w in ("been", "in") for m in marks[max(0, k - 5) : k - 1])


def all_there(marks: list[Mark], k: int) -> bool:
    """ "I pulled all the wraps there | so sugar rolls at the pond": the yard where that was done."""
    before = marks[k - 1] if k > 0 else None
    return (
        marks[k].w == "there"
        and before is not None
        and before.label in THINGS
        and any(m.w.split()[0] == "all" for m in marks[max(0, k - 4) : k])
    )


def joins(m: Mark) -> bool:
    """Whether the mark joins or parts: a comma, a filler or a joining word."""
    return m.label in ("comma", "filler") or m.w in GLUE_WORDS


def is_over(marks: list[Mark]) -> bool:
    """Whether the marks tell of what was done or found, so that a day to come at their end belongs to what follows."""
    if any(x.v.get("tense") == "base" or x.v.get("cue") in ("plan", "if", "not") for x in marks):
        return False
    return any(
        x.v.get("tense") == "past"
        or x.label in ("fact", "moisture", "percent", "mites", "temp")
        or x.w in ("is", "was")
        for x in marks
    )


def with_joins(marks: list[Mark]) -> list[Mark]:
    """The fillers, commas and joining words at the end of the marks."""
    k = len(marks)
    while k > 0 and joins(marks[k - 1]):
        k -= 1
    return marks[k:]


def with_prep(marks: list[Mark]) -> list[Mark]:
    """The prepositions, joining words and commas at the end of the marks, before a yard."""
    k = len(marks)
    while k > 0 and (
        (marks[k - 1].label == "w" and marks[k - 1].w in _YARD_PREPS) or marks[k - 1].label in ("comma", "filler")
    ):
        k -= 1
    return marks[k:]


_YARD_PREPS = frozenset("at in to the from off over on for of then and out up down around back @ i we".split())


def prep_lead(marks: list[Mark]) -> list[Mark]:
    """The prepositions at the end of the marks with the joining word before them; empty where no such word is."""
    k = len(marks)
    while k > 0 and marks[k - 1].label == "w" and marks[k - 1].w in GOVERNORS:
        k -= 1
    if k < len(marks) and k > 0 and (marks[k - 1].label in ("filler", "comma") or marks[k - 1].w in _LEADS_ON):
        return marks[k - 1 :]
    return []


_LEADS_ON = frozenset("and then so but".split())


def next_along(marks: list[Mark]) -> list[Mark]:
    """ "and um next one" at the end of the marks, where somebody walks on to the colony that comes; else empty."""
    k = len(marks)
    while k > 0 and (marks[k - 1].label in ("filler", "comma") or marks[k - 1].w in ("and", "then", "so")):
        k -= 1
    goes_on = any(x.label == "filler" and _BEFORE_NEXT.sub("", x.w) in _NEXT_ALONG for x in marks[k:])
    return marks[k:] if goes_on else []


_NEXT_ALONG = listed("next_along")


_BEFORE_NEXT = re.compile(r"^(and |then )?(the |our )?")
