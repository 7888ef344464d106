"""The words at the end of a statement that govern the colonies that follow."""

from __future__ import annotations

from fieldnotes.reader.grouping.counts import OF_A_SAMPLE
from fieldnotes.reader.mark import FOUND_IN_ALL, THINGS, WAYS, Mark
from fieldnotes.reader.marking.colours import is_colour
from fieldnotes.reader.parting.about import AUX, GLUE_WORDS, GOVERNORS, TAIL_OK, done, is_verb, led_work_ends
from fieldnotes.reader.parting.governing import governed
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.headers import COUNTED, COUNTS
from fieldnotes.reader.parting.tails.phrases import LEFT_UNDONE
from fieldnotes.reader.parting.tails.subjects import so_many_cells


def _seen_before_work(fact: Mark, work: Mark) -> bool:
    """ "s seven is strong | looked in": how a colony is, or what was seen before another was opened."""
    if "sign" in fact.v and work.w.startswith("got"):
        return False  # "wasps got into nine"
    how = not FOUND_IN_ALL.isdisjoint(fact.v.get("set", ()))
    return work.label == "verb" and (how or work.v.get("does") == "inspect")


def _otherwise_told(head: Mark, after: list[Mark]) -> bool:
    """ "that's the third round | wasps all over", "had zero alcohol wash | put one more box on": what comes after the
    head is seen, or was put there, and goes with none such.
    """
    if any(y.label == "fact" for y in after):
        return head.label != "fact"
    if head.label == "agent":
        return any(y.label == "agent" for y in after)  # "with a gram of oxalic | thymol wafers in"
    if head.label == "unit":
        return any(y.label == "method" for y in after)  # "sprayed on three twenty mil | sticky board one"
    if head.label == "round":
        return not any(
            y.label in ("agent", "form") for y in after
        )  # "a wafer each second round | five pounds of sugar"
    if head.label in ("feed", "item"):
        return head.label == "feed" and any(
            y.label in ("agent", "round") for y in after
        )  # "syrup | third round of strips"
    again = any(
        y.label == "method" and not is_verb(y) for y in after
    )  # "half a percent alcohol wash | alcohol wash on"
    return head.label == "method" and not is_verb(head) and (again or any(_worked(y) for y in after))


def _told_to_its_end(before: list[Mark]) -> bool:
    """ "took the excluder off | no dry sugar on", "beetles in nine put a trap | no dry sugar on"."""
    return led_work_ends(before) or (bool(before) and before[-1].label in THINGS and done(before))


def _begins_other(after: list[Mark], thing: Mark) -> bool:
    """Whether a verb, or another sort of thing, stands right after the way the thing went."""
    return bool(after) and (after[0].label == "verb" or (after[0].label in THINGS and after[0].label != thing.label))


def _worked(m: Mark) -> bool:
    """Whether the mark is of what is given or done in hives, mites never being looked for with it."""
    return m.label in THINGS or m.label in ("queen_work", "change") or m.v.get("does") == "inspect"


def _its_own_work(thing: Mark, work: Mark) -> bool:
    """ "l nine didn't get a super | made two splits off": a thing is neither split nor joined."""
    return thing.label in THINGS and work.label in ("change", "queen_work")


def governing_tail(marks: list[Mark]) -> list[Mark]:
    """The words at the end of a statement that govern the colony that follows."""
    k = len(marks)
    heads = verbs = words = 0
    while k > 0:
        x = marks[k - 1]
        if x.label == "cols" or (k > 1 and marks[k - 2].label == "cols" and is_colour(x.w)):
            break  # "marked the queen in L2 white | and in L4 green"
        if (
            x.label == "yard"
            and k > 1
            and marks[k - 2].w in ("at", "in", "the")
            and any(y.label == "cols" for y in marks[max(0, k - 4) : k - 1])
        ):
            break  # "out of hive eight at the pond … | while I was in eight"
        if x.label in ("mites", "value", "clean", "percent"):
            if x.rule == OF_A_SAMPLE:
                break  # "two samples off three: seven and nine | then one off ten"
            if heads or verbs or not _value_first(marks, k - 1):
                break
            heads += 1
            k -= 1
            continue
        if x.label in ("comma", "filler") or (x.label == "w" and x.w in ("and", "then", "so", "but", "also", "while")):
            if k < len(marks) and marks[k].label == "yard" and not (heads or verbs) and done(marks[: k - 1]):
                return marks[k - 1 :]  # "six got a jar of syrup | then cut bank sixty two"
            if heads or verbs or words:
                k -= 1 if x.label != "comma" else 0
                break
            k -= 1
            continue
        if x.w in WAYS and k > 1 and marks[k - 2].label in THINGS and _begins_other(marks[k:], marks[k - 2]):
            break  # "strong, two supers on | took the excluder off", "two supers on | strips in 61"
        if x.label == "hives" and k > 1 and so_many_cells(x, marks[k - 2]):
            break
        words += x.label == "w" and x.w.isalpha() and x.w not in GLUE_WORDS and x.w not in TAIL_OK and x.w not in AUX
        if x.label == "cue" and (verbs or heads) and x.w.split()[-1] in LEFT_UNDONE:
            break  # "the wash on fifty one didn't happen | split"
        if x.label == "sample" and any(y.v.get("does") == "treat" or _worked(y) for y in marks[k:]):
            break  # "three had thirteen, alcohol, half cup each | treating three today"
        if x.label == "sample" and heads and k > 1 and marks[k - 2].w in ("in", "of", "from"):
            break  # "four mites in three hundred | soap wash on thirteen"
        if x.label == "sample" and k > 1 and x.w.startswith(("in ", "of ", "out of ")) and marks[k - 2].label in COUNTS:
            break  # "nine was four in three hundred bees | and on ten two"
        if x.label == "round" and any(y.label == "queen_noun" for y in marks[k:]):
            break  # "a wafer each second round | queen in l two marked"
        if x.label in HEADS:
            if x.label == "fact" and (heads or (verbs and _seen_before_work(x, marks[k]))):
                break
            if heads and (_otherwise_told(x, marks[k:]) or (verbs and _its_own_work(x, marks[k]))):
                break
            if x.label == "queen_work" and heads and x.w.split()[-1] not in GOVERNORS:
                break  # "marked the queen yellow | alcohol wash 41 …", "marked her green | half a pound each for"
            if (
                x.label == "method"
                and k > 1
                and marks[k - 2].label in COUNTED
                and any(y.label == "fact" for y in marks[k:])
            ):
                break  # "half a percent alcohol wash | laying workers in"
            heads += 1
        if is_verb(x):
            verbs += 1
        if x.label == "each" and any(y.label in ("number", "amount") for y in marks[k:]):
            break  # "got a super each | two on 42"
        if x.label == "each" and any(y.label == "queen_noun" for y in marks[k:]):
            break  # "two pads each | the old queen in sixty"
        if x.label == "each" and k < len(marks) and marks[k].w == "and" and k > 2 and done(marks[:k]):
            break  # "two pads each in one to five, or one to five two pads each | and in six one pad"
        went = x.label == "each" and k < len(marks) and marks[k].label == "verb" and bool(marks[k].v.get("dir"))
        if went and k > 1 and marks[k - 2].label in THINGS:
            k -= 1  # "two strips apiece | went in"
            continue
        if x.label in ("date", "days", "each", "yard", "every") and not (heads or verbs):
            k -= 1
            continue
        if x.label in ("each", "days", "yard", "every") and (heads or verbs):
            break
        if x.label == "w" and x.w not in TAIL_OK and x.w not in GLUE_WORDS and (heads or verbs):
            break
        k -= 1
        if (verbs or (x.w == "no" and _told_to_its_end(marks[:k]))) and x.label in ("cue", "person"):
            break  # "l fifteen took the excluder off | no dry sugar on"
    return marks[k:]


def _value_first(marks: list[Mark], at: int) -> bool:
    """Whether the count at `at` is of the colony that comes ("three mites on 13 and | one on 14")."""
    counted = ("mites", "value", "clean", "percent")
    last = max(k for k, x in enumerate(marks) if x.label == "cols")
    if last > at:
        return False
    if sum(1 for x in marks[last:] if x.label in counted) >= 2:
        return True
    if (
        at == len(marks) - 2
        and marks[at].label == "mites"
        and marks[-1].w in ("on", "in", "for", "from", "under")
        and len(marks[last].v["ids"]) > 1
    ):
        return True  # "boards under 29 and 30 for three days: fifty mites on | 30"
    if at == len(marks) - 2 and marks[-1].w in ("on", "in") and _check_begins(marks[last:at]):
        return True  # "ten in twelve and a wash on each, three mites | in eleven"
    return any(x.label in counted for x in marks[:last]) and governed(marks[:last], marks[last])


def _check_begins(marks: list[Mark]) -> bool:
    """Whether a check of each is announced."""
    return any(x.label == "method" for x in marks) and any(x.label == "each" or x.w == "both" for x in marks)
