"""Which way things go: put in or on, taken out or off, or still where they were."""

from __future__ import annotations

import re

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of, neighbour
from fieldnotes.reader.mark import THINGS, WAYS
from fieldnotes.reader.parting.governing import gets_from

_OUT_WORDS = frozenset(["out", "off"])
_OUT_AFTER = frozenset(
    (
        "is are was were 's it them they they're those these all now there be been come get got 2 still not just back "
        "already tray trays"
    ).split()
)


def _on_to_another(statement: Statement, k: int) -> bool:
    """Whether a colony follows "from" at `k`, and "to" another one right behind it."""
    after = [m for m in statement.marks[k + 1 : k + 5] if m.w not in ("over", "up", "down")]
    return [m.label for m in after[:3]] == ["cols", "w", "cols"] and after[1].w == "to"


def going_out(statement: Statement) -> bool | None:
    """True where things come out or off, False where they go in or on, None where no word says."""
    found: bool | None = None
    if (
        statement.has("cue")
        and any("back" in m.w.split() for m in statement.all("cue"))
        and any(m.w == "for" for m in statement.marks)
    ):
        found = True  # "come back Tuesday for the supers"
    for k, m in enumerate(statement.marks):
        if m.label not in ("w", "verb", "cue"):
            continue
        if m.label == "verb" and m.v.get("dir"):
            before = neighbour(statement, k, -1)
            if before is not None and before.label == "yard":
                before = next((x for x in reversed(statement.marks[:k]) if x.label not in ("yard", "w")), None)
            if m.w == "took" and before is not None and before.label == "cols":
                found = False  # "eleven took three supers"
                continue
            if m.w in ("took", "take", "taking") and _back_to_colonies(statement, k):
                found = False  # "took the wet supers back to nine"
                continue
            found = m.v["dir"] == "out" if found is None or m.v["dir"] == "out" else found
        elif m.label == "verb" and m.w == "went into" and k and statement.marks[k - 1].label in THINGS:
            found = False  # "two supers went into nine", but "went into nine"
        elif m.label == "cue" and "out" in m.w.split():
            found = True  # "not out yet"
        elif (
            m.label == "w"
            and m.w == "home"
            and any(x.w in ("took", "brought", "came", "come") for x in statement.marks[:k])
        ):
            found = True  # "brought nine supers home from heath"
        elif m.label == "w" and m.w in _OUT_WORDS:
            before = neighbour(statement, k, -1)
            after = neighbour(statement, k, 1)
            if after is not None and after.w in ("me", "him", "us"):
                continue  # "gets pads off me tonight"
            of = after is not None and after.w == "of"
            if after is not None and (of or after.label == "cols") and gets_from(statement.marks[: k + 1 + of]):
                continue  # "nine gets a frame of brood off twelve"
            if before is not None and (
                before.label in ("change", "approx")
                or before.w in ("ran", "run")
                or (before.label == "w" and before.w not in _OUT_AFTER and before.w[-1].isalnum())  # "1 June: out"
            ):
                continue
            found = True
        elif m.w == "from" and found is None and _taken_from(statement, k):
            found = True  # "strips from 1 through 11"
        elif m.label == "w" and m.w in ("in", "on", "into", "onto") and found is None:
            before = neighbour(statement, k, -1)
            if before is None or before.label not in ("number", "value", "clean"):
                found = False
    return found


def _back_to_colonies(statement: Statement, k: int) -> bool:
    """Whether what is taken at `k` is taken to colonies."""
    words = [m.w if m.label == "w" else m.label for m in statement.marks[k:]]
    return ["back", "to", "cols"] in [words[i : i + 3] for i in range(len(words) - 2)]


def _taken_from(statement: Statement, k: int) -> bool:
    """Whether a treatment or gear stands before "from" at `k`, and the colonies or the yard it was in after it."""
    before, after = neighbour(statement, k, -1), neighbour(statement, k, 1)
    if before is not None and before.label == "comma":
        before = neighbour(statement, index_of(statement, before), -1)
    if after is not None and after.w == "the":
        after = neighbour(statement, k + 1, 1)
    thing = before is not None and before.label in ("agent", "form", "unit", "item")
    if not thing or after is None or after.label not in ("cols", "yard", "every"):
        return False
    return not _on_to_another(statement, k)  # "a frame of eggs from forty one to forty six"


def still_in(statement: Statement) -> bool:
    """ "strips still in": put in before, and not yet taken out."""
    words = statement.words
    if statement.has("cue") and (still_has_its(statement) or "still in" in words or "still on" in words):
        return True
    if ("left" in words or "leaving" in words) and _left_in(statement):
        return True
    marks = statement.marks
    return (
        "still" in words
        and any(
            a.w == "still"
            and b.w in ("in", "on")
            and a.label == b.label == "w"
            and not (
                after[:1] and (after[0].w == "a" or "ordinal" in [x.label for x in after])
            )  # "still on the first one"
            for a, b, after in ((marks[k], marks[k + 1], marks[k + 2 : k + 4]) for k in range(len(marks) - 1))
        )
    )


def still_has_its(statement: Statement) -> bool:
    """ "fourteen still has its strips in"."""
    return any(_STILL_HAS.match(m.w) for m in statement.all("cue"))


_STILL_HAS = re.compile(r"still (has|have|got) (its|their|hers|his|theirs)")
_LEFT_THOSE = frozenset("the its their his those hers".split())


def _left_in(statement: Statement) -> bool:
    """ "left the strips in seventeen": they were in before, and stay there; with a day or a time it is no more said."""
    if statement.has("date", "days", "each", "number", "unit"):
        return False
    marks = statement.marks
    for k, m in enumerate(marks[:-1]):
        thing = marks[k + 2 : k + 3] if marks[k + 1].w in _LEFT_THOSE else []
        named = bool(thing) and thing[0].label in ("form", "agent", "thing")
        if m.w in ("left", "leaving") and (named or marks[k + 1].label == "thing" or marks[k + 1].w in _LEFT_THEM):
            return any(x.w == "in" for x in marks[k + 2 :])
    return False


_LEFT_THEM = frozenset(["it", "them", "those", "em"])


def became(statement: Statement) -> bool:
    """ "supers: 41-45 on, 46 off": colonies, and which way there what was named before went; nothing else."""
    ways = [m for m in statement.marks if m.label == "w" and m.w in WAYS]
    if (
        not statement.has("cols")
        or len(ways) != 1
        or statement.marks.index(ways[0]) < statement.marks.index(statement.all("cols")[-1])
    ):
        return False
    rest = [m for m in statement.marks if m is not ways[0]]
    return all(m.label in ("cols", "comma", "filler", "date", "hive") or m.w in ("and", "then", "but") for m in rest)
