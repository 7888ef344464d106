"""What was left out or left undone, and the words that lead in why."""

from __future__ import annotations

from fieldnotes.reader.mark import Mark
from fieldnotes.reader.parting.about import done
from fieldnotes.reader.parting.place import Place


def not_yet(at: Place) -> bool:
    """Whether something was not done, and what is not said ("didn't do eleven")."""
    said_not = any(x.label == "cue" and (x.w.split()[0].endswith("n't") or x.w.startswith("skip")) for x in at.marks)
    return said_not and not done(at.marks)


_REASONS = frozenset("( it it's its was is they're theyre they are were too so cause because since as - –".split())
CAUSES = frozenset("cause because since as so".split())


def reason_for_none(marks: list[Mark]) -> list[Mark] | None:
    """The words that lead in why a hive got none, after it and "none"; None where no such thing stands there."""
    k = len(marks)
    while k and (marks[k - 1].w in _REASONS or marks[k - 1].label == "comma"):
        k -= 1
    if k > 2 and marks[k - 1].label == "rest" and any(m.w == "none" for m in marks[max(0, k - 4) : k]):
        return marks[k:]  # "none on the rest | they're not ready"
    if k < 2 or marks[k - 1].label not in ("number", "clean"):
        return None
    why = marks[k - 1].w in ("none", "nothing", "zero", "0") or any(m.w in CAUSES for m in marks[k:])
    at = k - 2
    while at and marks[at].w in ("only", "just", "got", "gets", "a"):
        at -= 1
    return marks[k:] if why and marks[at].label in ("cols", "rest") else None


def left_out(marks: list[Mark]) -> bool:
    """ "supers on 40 to 50 | not 45 | it's weak": colonies left out of what was said, and nothing else of them."""
    k = next((k for k, x in enumerate(marks) if x.label == "cols"), 0)
    return k > 0 and marks[k - 1].w in ("not", "on", "in") and all(x.label in ("filler", "cue", "w") for x in marks[:k])


def excepted(marks: list[Mark]) -> bool:
    """Whether the marks end in colonies that are an exception."""
    return len(marks) > 1 and marks[-1].label == "cols" and marks[-2].v.get("cue") == "except"
