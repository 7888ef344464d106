"""A mark: a span of a message that means something."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any


@dataclass(slots=True, eq=False)  # two marks are never the same, and comparing all they hold takes long
class Mark:
    """A span that means something: `label`, `v` its value, `w` the words heard, `rule` the grammar rule that made it.

    `s` and `e` are character offsets into the note. Plain words have the label "w".
    """

    label: str
    s: int
    e: int
    w: str
    v: dict[str, Any] = field(default_factory=dict)
    rule: str = ""

    def __repr__(self) -> str:
        return f"{self.label}:{self.w}"


THINGS = frozenset(["item", "agent", "form", "feed"])
"""Labels of what a hive is given or relieved of."""
COUNTED = frozenset(["mites", "mite", "counts"])
"""Words that tell what numbers are of, by themselves."""
GOES = frozenset("come comes came coming go goes went going".split())
"""Verbs of things that go in or come out by themselves, as they are told."""
DRIEST, WETTEST = 13, 25
"""Percent of water in honey, between which a bare number beside an amount of honey is its moisture."""
ROUNDS = frozenset("round rounds rnd dose doses treatment application tray trays vape".split())
"""What is given several times over."""
WAYS = frozenset(["on", "off", "in", "out"])
"""Words that say which way a thing went."""
FOUND_IN_ALL = frozenset(["queen", "temper", "strength", "stores"])
"""Slots of a finding that may be told of many hives at once."""
SEEN_AT = frozenset(["in", "on", "at", "over", "under"])
"""Words before a colony in which something was seen ("… brood in twenty")."""
CALLS = frozenset("call called calling name named naming".split())
"""Words by which somebody gives a colony its name ("calling it 24")."""
GIVES = frozenset(["gave", "give", "giving", "given", "boosted"])
"""Verbs by which a colony gets what follows ("gave 12 three frames of brood")."""
TAKEN_FROM = frozenset(["from", "off", "of"])
"""Words before what a thing, a colony or somebody came from."""
PERSONS = frozenset(["i", "we", "he", "she"])
DEEDS = frozenset(["verb", "queen_work", "change", "method", "check", "harvest"])
"""Labels of what somebody does."""
ALL_OVER = frozenset("over through throughout down around".split())
"""Words that say of a whole yard what was found in it ("calm all through")."""
MOST_GIVEN = 12
"""About the most of a thing that one hive is given: a higher number is a colony. Common practice, no source."""
REACH = 80
"""How many marks around a mark are looked at, at most: the time a note takes grows with its length only."""


GEAR_VERBS = frozenset(["super", "wrap", "unwrap", "wrap up"])


def done_with_it(m: Mark, before: Mark | None) -> bool:
    """Whether a thing's name is the verb for putting it on or taking it off: "need to super nine", "didn't wrap 7"."""
    if m.label != "item" or m.w not in GEAR_VERBS or before is None:
        return False
    return (before.label == "cue" and before.v.get("cue") in ("plan", "not") and before.w not in _NO_VERB) or (
        before.label == "w" and before.w == "to"
    )


_NO_VERB = frozenset("no not without needs need wants want due".split())


def is_others(m: Mark) -> bool:
    """ "the other five", "those other two"."""
    return m.label == "pronoun" and "n" in m.v and "other" in m.w.split()


def goes_along(row: list[Mark], i: int) -> Mark | None:
    """ "l nine goes over there on wednesday", "nine and ten follow thursday": the verb by which what stands at `i` goes
    where others went that were told of before; None where no such verb follows.
    """
    k = i + 1
    while k < len(row) and (row[k].w in _WILL or row[k].v.get("cue") == "plan"):
        k += 1
    if k == len(row) or row[k].label not in ("verb", "w"):
        return None
    verb = row[k].w.split()
    if verb[0] in _FOLLOWS:
        return row[k]
    near = [row[k].w.split()[-1], *(m.w for m in row[k + 1 : k + 4] if m.label in ("w", "filler"))]
    along = verb[0] in _GO and not _ALONG.isdisjoint(w for x in near for w in x.split())
    return row[k] if along and not any(m.label == "yard" for m in row[k + 1 : k + 5]) else None


_GO = frozenset("go goes going went".split())
_WILL = frozenset("will is are 's 'll be to all also".split())
_FOLLOWS = frozenset("follow follows following followed".split())
_ALONG = frozenset("there too over across".split())
