"""A method, a day or a place at the end of a statement that speaks of the colonies that follow."""

from __future__ import annotations

from fieldnotes.reader.mark import Mark
from fieldnotes.reader.parting.about import GLUE_WORDS, done
from fieldnotes.reader.parting.governing import ONLY_WITH
from fieldnotes.reader.parting.tails.joining import joins, so_since


def header_tail(marks: list[Mark]) -> list[Mark]:
    """What stands at the end of a statement but speaks of the colony that follows: joining words, a method, a day."""
    if (
        marks[-1].w in ONLY_WITH
        and [m.label for m in marks[-2:-1]] == ["sample"]
        and any(m.label in COUNTS for m in marks)
    ):
        return []  # "washed at six, half cup alcohol | fifty one has sacbrood"
    checked = _method_tail(marks)
    if checked:
        return checked
    k = len(marks)
    while k > 0 and _speaks_on(marks, k - 1):
        k -= 1
    if k < len(marks) and marks[k].w in ("they're", "it's") and any(x.v.get("step") == "bought" for x in marks[:k]):
        place = next((n for n in range(k, len(marks)) if marks[n].label == "yard"), None)
        k = k if place is None else place + 1  # "bought five nucs, they're at the quarry now | and hive four is hot"
    return marks[k:]


def _method_tail(marks: list[Mark]) -> list[Mark]:
    """The tail from the method of the next check on; empty where no method stands there, or nothing complete before."""
    k = len(marks)
    at = None
    while k > 0 and (
        marks[k - 1].label in _HEADER_LABELS
        or (marks[k - 1].label == "w" and (marks[k - 1].w in GLUE_WORDS or marks[k - 1].w in _HEADER_WORDS))
    ):
        k -= 1
        if marks[k].label == "method":
            at = k
    if not at:
        return []
    lead = at
    if at > 1 and marks[at - 1].label == "w" and marks[at - 2].w in ("a", "an", "the"):
        lead -= 1  # "on a quick roll"
    before = marks[lead - 1]
    if marks[at].w.split()[0] in _MADE_WITH:
        return []  # "half a cup of bees in alcohol each time | three had four"
    if (
        before.label == "w"
        and before.w in ("a", "an", "the", "in", "by", "with", "of", "on", "that's", "were")
        and any(
            x.w in ("in", "by", "with", "from", "on", "that's", "was", "were") for x in marks[max(0, lead - 2) : lead]
        )
    ):
        if any(x.label in COUNTED for x in marks[:lead]):
            return []  # "two mites in a soap wash": the method of the count before it
        at = lead - (2 if before.w in ("a", "an", "the") else 1)
        return marks[at:] if at > 0 and done(marks[:at]) else []  # "there's eggs | with the alcohol wash l two has …"
    if (
        before.label == "sample"
        and marks[at].w in ("alcohol", "soap", "soapy")
        and any(x.label in COUNTS for x in marks)
    ):
        return marks[at + 1 :]  # "eight mites half cup alcohol | and nine has sacbrood"
    if not done(marks[:at]):
        return []
    while at > 0 and (joins(marks[at - 1]) or marks[at - 1].w in ("the", "a", "did")):
        at -= 1
    return marks[at:]


_HEADER_LABELS = frozenset("method sample date days each comma filler yard hive approx person".split())


_HEADER_WORDS = frozenset("from on of at the in for my our by all :".split())


_MADE_WITH = frozenset(["in", "with", "using"])
"""How the name of a method begins that goes with the sample before it."""


def _speaks_on(marks: list[Mark], k: int) -> bool:
    """Whether the mark at `k`, all after it belonging to the next statement, belongs to it too."""
    x = marks[k]
    if x.label == "person" and k > 0 and marks[k - 1].w == "by":
        return False  # "two each yesterday by dov and | twelve to thirty today by me"
    if x.label in ("comma", "filler", "person", "clock", "heading", "hive"):
        return True
    if x.label == "cue" and x.w == "not" and k == len(marks) - 1:
        return True  # "out of S7 this morning | not QB this time"
    if x.label == "w" and (x.w in GLUE_WORDS or x.w in _PLACE_WORDS):
        return True
    if k == 0:
        return False
    before = marks[k - 1]
    if x.label == "w":
        return x.w == "to" and before.w in ("down", "up")
    if x.label == "pronoun":
        return joins(before)
    if x.label in ("method", "sample"):
        return (joins(before) and before.w != "that") or before.label == "sample"  # "i never read that board | and"
    if x.label == "yard":
        return joins(before) or (before.w in ("at", "in", "from") and k > 1 and joins(marks[k - 2]))
    if so_since(marks, k):
        return False
    joined = joins(before) and before.w not in ("there", "now")  # "escapes go on there a week from thursday"
    return x.label == "date" and (joined or any(y.label == "date" for y in marks[:k]))


_PLACE_WORDS = frozenset("in at the a on for still now here there down over".split())


COUNTS = frozenset(["mites", "value", "clean"])


COUNTED = COUNTS | {"percent"}
