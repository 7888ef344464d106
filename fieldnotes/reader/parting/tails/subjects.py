"""The subject or the reason at the end of a statement, of which the next tells: "… | and the spare is"."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.parting.about import GLUE_WORDS, done, has_verb
from fieldnotes.reader.parting.tails.joining import glue_tail, joins


def passive_subject(marks: list[Mark]) -> list[Mark]:
    """ "and the spare is" at the end of the marks, the subject of a verb to come; empty where none stands there."""
    if len(marks) > 4 and marks[-1].w == "being" and marks[-2].w == "are":
        k = len(marks) - 2
        while k > 0 and (marks[k - 1].label in ("noun", "hives", "number", "queen_noun") or marks[k - 1].w == "more"):
            k -= 1
        k -= len(glue_tail(marks[:k]))
        return marks[k:] if done(marks[:k]) else []  # "and two more nucs are being"
    if len(marks) < 4 or marks[-1].w not in ("is", "was", "are", "were") or marks[-2].label != "w":
        return []
    for k in (len(marks) - 3, len(marks) - 4):
        if (
            k > 0
            and (marks[k].w in ("the", "a", "that", "this", "its", "her") or marks[k].label == "number")
            and (marks[k - 1].w in ("and", "so", "then", "but") or marks[k - 1].label == "filler")
        ):
            return marks[k - 1 :] if done(marks[: k - 1]) else []
    return []


def reason_tail(marks: list[Mark]) -> list[Mark]:
    """ "since it's down to", "it's a" at the end of the marks: the reason that follows; empty where none begins."""
    k = len(marks)
    while k > 0 and _may_lead_reason(marks[k - 1]) and len(marks) - k < _LONGEST_NAME + 2:
        k -= 1
        if marks[k].w in _REASONS or (marks[k].w in _WHO and k + 1 < len(marks) and marks[k + 1].w in _WAS):
            return marks[k - 1 :] if k > 0 and marks[k - 1].w in _REASONS else marks[k:]
    return []


def _may_lead_reason(m: Mark) -> bool:
    return m.label == "w" or m.w in _WHO or joins(m)


_REASONS = frozenset("since because cause cos as it's they're he's she's that's".split())
_WHO = frozenset("she it they he".split())
_WAS = frozenset("was were is are".split())


def thing_tail(marks: list[Mark]) -> list[Mark]:
    """ "and the stand" at the end of the marks: a joining word, an article and a plain name; else empty."""
    k = len(marks)
    while k > 0 and len(marks) - k < _LONGEST_NAME and marks[k - 1].label in ("w", "noun", "ignore", "honey"):
        k -= 1
        if marks[k].w.split()[0] in ("the", "our", "my", "that"):
            named = k < len(marks) - 1 or " " in marks[k].w
            joined = k > 0 and named and joins(marks[k - 1])
            return marks[k - 1 :] if joined else []
        if marks[k].w in GLUE_WORDS or not marks[k].w[0].isalpha():
            break
    return []


_LONGEST_NAME = 4
"""Words in the name of a thing ("the honey house floor")."""


def so_many_cells(m: Mark, before: Mark) -> bool:
    """ "has supersedure cells three of them | put a comb in": the cells before are counted, no hives."""
    cells = before.label == "fact" and "cells_seen" in before.v.get("set", ())
    return cells and m.label == "hives" and m.w.endswith(("of them", "of em"))


def lead_nouns(marks: list[Mark]) -> list[Mark]:
    """The noun just before a verb is its subject ("… | the feeder came off")."""
    k = len(marks)
    things = ("item", "agent", "form", "feed", "queen_noun", "number")
    while k > 0 and (
        marks[k - 1].label
        in ("item", "agent", "form", "feed", "honey", "pronoun", "every", "rest", "queen_noun", "approx", "number")
        or (
            marks[k - 1].label == "hives"
            and marks[k - 1].w.endswith(("of them", "of em"))
            and not (k > 1 and so_many_cells(marks[k - 1], marks[k - 2]))
        )
        or (marks[k - 1].label == "w" and marks[k - 1].w in _BEFORE_SUBJECT)
        or (marks[k - 1].label == "thing" and marks[k - 1].w.endswith("ones"))
        or (marks[k - 1].label == "fact" and k < len(marks) and marks[k].label == "thing")  # "and | the light ones get"
    ):
        k -= 1
        if k > 1 and marks[k - 1].w == "of" and marks[k - 2].label in ("form", "amount", "unit"):
            k -= 2  # "and | two pads of formic go in"
            continue
        if k > 0 and marks[k - 1].label in _NOT_BEFORE.get(marks[k].label, ()):
            break  # "just a super | beetle traps went in", "three frames of comb | coumaphos strips came out"
        if (
            marks[k].label in ("item", "form", "agent")
            and k > 0
            and " " in marks[k - 1].w
            and marks[k - 1].label == "every"
        ):
            break  # "pads on the whole yard | pads come off friday"
        if (
            marks[k].w in ("the", "those", "these", "my", "our", "their", "its")
            and k > 0
            and (marks[k - 1].label in things or marks[k - 1].label in ("cols", "every"))
        ):
            break  # "gave us nine supers | the excluders come off"
    if k == len(marks):
        k = _with_origin(marks)
    if 0 < k < len(marks) and marks[k - 1].w == "with" and marks[k].label in THINGS:
        k += 1  # "need to treat 4 with thymol | they rolled at eleven"
    tail = marks[k:]
    if not (done(marks[:k]) or has_verb(marks[:k]) or _dealt_out(marks[:k])):
        return []
    if (
        k > 1
        and marks[k - 1].label == "date"
        and (marks[k - 2].label in ("comma", "filler") or marks[k - 2].w == "and")
    ):
        k -= 2  # "… and today | the fondant went on"
    return marks[k:] if tail else []


_BEFORE_SUBJECT = frozenset("the a an all their its those these my our still never they i we more".split())


_NOT_BEFORE = {
    "item": ("item",),
    "agent": ("item", "form", "feed"),
    "form": ("item", "feed"),
    "feed": ("item", "form", "agent"),
}
"""What does not stand before a thing of each sort in one name."""


def _dealt_out(marks: list[Mark]) -> bool:
    """ "l six half a gallon and | the feeders come off": an amount beside the colony that got it, in a list of such."""
    return any(a.label == "cols" and b.label == "amount" for a, b in pairwise(marks))


def _with_origin(marks: list[Mark]) -> int:
    """Where a thing with its origin begins ("the cells off the last batch") ending the marks; else their length."""
    for k in range(len(marks) - 1, max(0, len(marks) - 6), -1):
        if marks[k].label in ("queen_noun", "item", "agent", "form", "feed"):
            if k + 1 < len(marks) and marks[k + 1].w in ("off", "of", "from"):
                return k - 1 if marks[k - 1].w in ("the", "those", "these") else k
            break
        if marks[k].label != "w":
            break
    return len(marks)
