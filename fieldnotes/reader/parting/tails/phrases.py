"""A thing with its verb and its preposition at the end of a statement: "… | strips came out of"."""

from __future__ import annotations

from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.parting.about import AUX, GLUE_WORDS, GOVERNORS, TAIL_OK, done, led_work_ends
from fieldnotes.reader.parting.words import HOW_MUCH


def own_phrase(marks: list[Mark]) -> list[Mark]:
    """The thing with its verb and its preposition at the end of the marks, which are complete without it and have
    colonies of their own: "L9 got three frames of comb | coumaphos strips came out of"; else empty.
    """
    k = len(marks)
    if not k or marks[k - 1].w not in GOVERNORS:
        return []
    worked = False
    while k and (marks[k - 1].label in _WHERE or (marks[k - 1].label == "verb" and marks[k - 1].v.get("dir"))):
        if marks[k - 1].w in ("and", "then", "but", "so"):
            return []
        worked = worked or marks[k - 1].label == "verb"
        k -= 1
    if k > 1 and marks[k - 1].label == "number" and marks[k - 2].label in THINGS:
        k -= 1  # "oxalic sponges two in each of"
    if not k or marks[k - 1].label not in _OWN_HEADS:
        return []
    k = _phrase_from(marks, k - 1)
    if not worked and k and marks[k - 1].label == "verb" and marks[k - 1].v.get("dir"):
        k -= 1
        if k and marks[k - 1].w in ("i", "we"):
            k -= 1
    while k and marks[k - 1].w in ("and", "then", "plus"):
        k -= 1
    before = marks[:k]
    if not before or not any(m.label == "cols" for m in before) or leads_on(before) or not done(before):
        return []
    return marks[k:]


_OWN_HEADS = frozenset("agent form item feed amount unit fact round method check".split())


_BEFORE_HEAD = {"form": ("agent",), "feed": ("ratio",)}


_WHERE = frozenset("w filler each every date days".split())


def _phrase_from(marks: list[Mark], head: int) -> int:
    """Where the phrase of the thing at `head` begins: how much of it, and what stands before it with "and"."""
    k = head
    if k and marks[k - 1].label in _BEFORE_HEAD.get(marks[head].label, ()):
        k -= 1
    if k > 1 and marks[k - 1].w == "of" and marks[k - 2].label in HOW_MUCH:
        k -= 1
    while k and marks[k].label != "fact" and marks[k - 1].label in HOW_MUCH:
        k -= 1
    while k and marks[k - 1].label == "w" and marks[k - 1].w in _A:
        k -= 1
    if k and (marks[k - 1].w == "half" or (marks[k].label in _UNDONE and marks[k - 1].v.get("cue") == "not")):
        k -= 1  # "half a patty on", "couldn't find her in"
    if k > 1 and marks[k - 1].w == "and" and marks[k - 2].label == marks[head].label and marks[head].label in THINGS:
        return _phrase_from(marks, k - 2)  # "an excluder and a super on"
    return k


_A = frozenset("a an the some another just only more".split())


_UNDONE = frozenset(["fact", "method"])


def leads_on(marks: list[Mark]) -> bool:
    """Whether the marks end in a word that needs what comes after it."""
    last = marks[-1]
    if last.label == "cue" and last.w.split()[-1] in LEFT_UNDONE:
        return False  # "the wash on fifty one didn't happen | poured"
    if last.label in ("verb", "cue", "comma", "filler", "person"):
        return not led_work_ends(marks)
    small = last.w in GLUE_WORDS or last.w in TAIL_OK or last.w in GOVERNORS or last.w in AUX
    small = small or last.w in _NEEDS_COUNT
    return last.label == "w" and small and last.w not in _AFTERTHOUGHTS and not led_work_ends(marks)


LEFT_UNDONE = frozenset("done happen happened undone".split())


_NEEDS_COUNT = frozenset("found counted gave gives showed shows came made saw rolled had".split())


_AFTERTHOUGHTS = frozenset("yet too already again now though also".split())
