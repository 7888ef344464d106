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
from fieldnotes.reader.parting.words import NEXT


def governing_tail(marks: list[Mark]) -> list[Mark]:
    """The words at the end of a statement that govern the colony that follows, found from the last one back."""
    k = len(marks)
    heads = verbs = words = 0
    while k > 0:
        x, busy = marks[k - 1], heads or verbs
        if _of_those_before(marks, k):
            break
        if x.label in COUNTED:
            if x.rule == OF_A_SAMPLE or busy or not _value_first(marks, k - 1):
                break  # "two samples off three: seven and nine | then one off ten"
            heads += 1
            k -= 1
            continue
        if x.label in ("comma", "filler") or (x.label == "w" and x.w in NEXT):
            if k < len(marks) and marks[k].label == "yard" and not busy and done(marks[: k - 1]):
                return marks[k - 1 :]  # "six got a jar of syrup | then cut bank sixty two"
            if busy or words:
                return marks[k:] if x.label == "comma" else marks[k - 1 :]
            k -= 1
            continue
        words += x.label == "w" and x.w.isalpha() and x.w not in GLUE_WORDS and x.w not in TAIL_OK and x.w not in AUX
        if (busy and _left_undone(x)) or _sample_of_count_before(marks, k, heads):
            break
        if x.label in HEADS:
            if _told_of_those_before(marks, k, heads, verbs):
                break
            heads += 1
        verbs += is_verb(x)
        if _closes_with_each(marks, k):
            break
        if _each_went(marks, k):
            k -= 1
            continue
        if (heads or verbs) and _ends_what_is_said(x):
            break
        k -= 1
        if (verbs or (x.w == "no" and _told_to_its_end(marks[:k]))) and x.label in ("cue", "person"):
            break  # "l fifteen took the excluder off | no dry sugar on"
    return marks[k:]


def _of_those_before(marks: list[Mark], k: int) -> bool:
    """Whether the mark before `k` is of the colonies before: their name, their yard, the colour of their queen."""
    x = marks[k - 1]
    if x.label == "hives" and k > 1 and so_many_cells(x, marks[k - 2]):
        return True
    if x.w in WAYS and k > 1 and marks[k - 2].label in THINGS and _begins_other(marks[k:], marks[k - 2]):
        return True  # "strong, two supers on | took the excluder off", "two supers on | strips in 61"
    if x.label == "cols" or (k > 1 and marks[k - 2].label == "cols" and is_colour(x.w)):
        return True  # "marked the queen in L2 white | and in L4 green"
    if x.label != "yard" or k < 2 or marks[k - 2].w not in ("at", "in", "the"):
        return False
    # "out of hive eight at the pond … | while I was in eight"
    return any(y.label == "cols" for y in marks[max(0, k - 4) : k - 1])


def _left_undone(x: Mark) -> bool:
    """ "the wash on fifty one didn't happen | split": what was not done closes what is said of those before."""
    return x.label == "cue" and x.w.split()[-1] in LEFT_UNDONE


def _sample_of_count_before(marks: list[Mark], k: int, heads: int) -> bool:
    """Whether the mark before `k` is the sample of a count before it."""
    x, before = marks[k - 1], marks[k - 2] if k > 1 else None
    if x.label != "sample":
        return False
    if any(y.v.get("does") == "treat" or _worked(y) for y in marks[k:]):
        return True  # "three had thirteen, alcohol, half cup each | treating three today"
    if before is None:
        return False
    if heads and before.w in ("in", "of", "from"):
        return True  # "four mites in three hundred | soap wash on thirteen"
    # "nine was four in three hundred bees | and on ten two"
    return before.label in COUNTS and x.w.startswith(("in ", "of ", "out of "))


def _told_of_those_before(marks: list[Mark], k: int, heads: int, verbs: int) -> bool:
    """Whether the head before `k` is told of the colonies before, since there is one already for those to come."""
    x = marks[k - 1]
    if x.label == "fact" and (heads or (verbs and _seen_before_work(x, marks[k]))):
        return True
    if x.label == "round" and any(y.label == "queen_noun" for y in marks[k:]):
        return True  # "a wafer each second round | queen in l two marked"
    if heads and (_otherwise_told(x, marks[k:]) or (verbs and _its_own_work(x, marks[k]))):
        return True
    if x.label == "queen_work" and heads and x.w.split()[-1] not in GOVERNORS:
        return True  # "marked the queen yellow | alcohol wash 41 …", "marked her green | half a pound each for"
    counted = x.label == "method" and k > 1 and marks[k - 2].label in COUNTED
    return counted and any(y.label == "fact" for y in marks[k:])  # "half a percent alcohol wash | laying workers in"


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
    if head.label == "round":  # "a wafer each second round | five pounds of sugar"
        return not any(y.label in ("agent", "form") for y in after)
    if head.label in ("feed", "item"):  # "syrup | third round of strips"
        return head.label == "feed" and any(y.label in ("agent", "round") for y in after)
    # "half a percent alcohol wash | alcohol wash on"
    again = any(y.label == "method" and not is_verb(y) for y in after)
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


def _closes_with_each(marks: list[Mark], k: int) -> bool:
    """Whether the mark before `k` is the "each" that closes what those before got."""
    if marks[k - 1].label != "each":
        return False
    if any(y.label in ("number", "amount", "queen_noun") for y in marks[k:]):
        return True  # "got a super each | two on 42", "two pads each | the old queen in sixty"
    # "two pads each in one to five, or one to five two pads each | and in six one pad"
    return k < len(marks) and marks[k].w == "and" and k > 2 and done(marks[:k])


def _each_went(marks: list[Mark], k: int) -> bool:
    """ "two strips apiece | went in": whether a verb says which way the thing went of which each got so many."""
    if marks[k - 1].label != "each" or k < 2 or marks[k - 2].label not in THINGS:
        return False
    return k < len(marks) and marks[k].label == "verb" and bool(marks[k].v.get("dir"))


def _ends_what_is_said(x: Mark) -> bool:
    """Whether a mark before the thing or the verb that takes the colonies to come ends what is said of those before."""
    if x.label in ("each", "days", "yard", "every"):
        return True
    return x.label == "w" and x.w not in TAIL_OK and x.w not in GLUE_WORDS


def _value_first(marks: list[Mark], at: int) -> bool:
    """Whether the count at `at` is of the colony that comes ("three mites on 13 and | one on 14")."""
    last = max(k for k, x in enumerate(marks) if x.label == "cols")
    if last > at:
        return False
    if sum(1 for x in marks[last:] if x.label in COUNTED) >= 2:
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
    return any(x.label in COUNTED for x in marks[:last]) and governed(marks[:last], marks[last])


def _check_begins(marks: list[Mark]) -> bool:
    """Whether a check of each is announced."""
    return any(x.label == "method" for x in marks) and any(x.label == "each" or x.w == "both" for x in marks)
