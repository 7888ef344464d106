"""How many, at the end of a statement, of what the next tells: "lost five at Cut Bank | and two at Wens"."""

from __future__ import annotations

from fieldnotes.reader.mark import Mark
from fieldnotes.reader.parting.about import GLUE_WORDS
from fieldnotes.reader.parting.tails.joining import all_there, with_joins


def with_count(marks: list[Mark], tail: list[Mark]) -> list[Mark]:
    """The tail with "and" and a number before it ("lost five at cut bank | and two at wens")."""
    k = len(marks) - len(tail)
    if k > 2 and marks[k - 1].label == "item" and marks[k - 2].label == "number" and marks[k - 3].w == "and":
        k -= 1  # "fourteen supers | and six supers from wens"
    if k > 2 and marks[k - 1].label == "item" and marks[k - 2].label == "number" and marks[k - 3].label == "yard":
        if not tail or tail[0].w not in ("at", "in", "from", "off"):
            return tail  # "larks 22 supers, | sawmill 9 supers"
        return marks[k - 2 :]  # "nineteen supers at cut bank | fourteen supers at larks"
    if k < 2 or not (marks[k - 1].label in ("number", "amount") or marks[k - 1].v.get("noun") == "frames"):
        return tail
    at = k - 2
    while at > 0 and marks[at].label in ("filler", "approx"):
        at -= 1
    after_yard = marks[at].label == "comma" and at > 0 and marks[at - 1].label == "yard"
    if marks[at].w in ("and", "plus") or after_yard:
        return marks[at:]  # "lost four at larks, | two at the quarry"
    placed = tail and tail[0].w in ("at", "in", "from", "off")
    return marks[k - 1 :] if marks[k - 2].label == "yard" and placed else tail  # "four at larks | two at the quarry"


def another_from(marks: list[Mark]) -> list[Mark]:
    """ "made two nucs off hive four | and another two off", "sold four from the pond | and two nucs from": so many
    more, before the colony or the yard they came from; empty where no such words end the marks.
    """
    k = len(marks)
    while k > 0 and (marks[k - 1].label == "hive" or marks[k - 1].w in ("the", "of", "off", "from", "out")):
        k -= 1
    words = [m.w for m in marks[k:] if m.label != "hive" and m.w != "the"]
    if words not in (["from"], ["off"], ["off", "of"], ["out", "of"]):
        return []
    if k > 0 and marks[k - 1].w == "more":
        k -= 1
    if k < 2 or marks[k - 1].label not in ("number", "hives", "noun", "queen_noun") or "n" not in marks[k - 1].v:
        return []
    k -= 1
    while k > 0 and (marks[k - 1].w in _OF_NUMBER or marks[k - 1].label == "approx"):
        k -= 1
    k -= len(with_joins(marks[:k]))
    before = marks[:k]
    worked = any(m.v.get("step") in _MADE for m in before if m.label in ("change", "queen_work"))
    return marks[k:] if worked and any(m.label in ("cols", "yard") for m in before) else []


_MADE = frozenset("nuc_made split sold bought died swarm_caught grafted caught banked".split())
"""Work that is counted by where it was done ("three nucs out of eight and one out of twelve")."""


_OF_NUMBER = frozenset(["another", "only", "just", "and"])


def with_number(marks: list[Mark]) -> list[Mark]:
    """The number, article or cue at the end of the marks with the joining words before it: a thing follows."""
    k = len(marks)
    while k > 0 and (
        marks[k - 1].label in ("number", "filler", "comma", "approx", "ordinal", "person")
        or (marks[k - 1].label == "cue" and marks[k - 1].rule != "did not happen")
        or (
            marks[k - 1].label == "w"
            and (
                (marks[k - 1].w in GLUE_WORDS and not all_there(marks, k - 1))
                or marks[k - 1].w in ("a", "an", "the", "another", "some", "no", "its", "their", "with", "all")
            )
        )
        or (
            marks[k - 1].label == "date"
            and k > 1
            and (marks[k - 2].w in ("and", "then", "but", ",") or marks[k - 2].label == "filler")
        )  # "… and tomorrow | fondant goes on"
    ):
        k -= 1
    return marks[k:]
