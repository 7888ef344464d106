"""The list of colonies that is being read, and the ids that its marks mean."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.reader.grouping.row import PREPS, Row, id_of
from fieldnotes.reader.mark import REACH, THINGS, WAYS, Mark, done_with_it
from fieldnotes.reader.outfit import Outfit
from fieldnotes.roster import id_parts

LONGEST_RANGE = 400


@dataclass(slots=True)
class Listing:
    """A list being read: its first mark (maybe a hive word), the mark before that, the letter of its ids, the ids."""

    r: Row
    first: int
    before: Mark | None
    letter: str
    hive_first: bool
    explicit: bool  # a hive word or a full id begins it
    ids: list[str]

    @property
    def after_same(self) -> bool:
        """Whether "same as" stands before the list."""
        return self.before is not None and self.before.label == "same"

    @property
    def plural(self) -> bool:
        """Whether "hives" or "colonies" begins the list, so that several numbers are due."""
        return self.r.row[self.first].label == "hives"

    @property
    def governed(self) -> bool:
        """Whether a word before the list takes it as its object."""
        p = self.before
        if p is not None and p.w in WAYS and self._told_to_the_end():
            return False  # "l fourteen took the feeder off | l fourteen and l nineteen got candy boards"
        return p is not None and (
            p.label in ("verb", "method", "same")
            or (p.label == "each" and self._dealt_to())
            or p.w in PREPS
            or p.w in ("to", "at")
            or (p.w == "over" and self.first > 1 and self.r.row[self.first - 2].w == "all")
            or (p.label == "form" and bool(p.v.get("treats")))
        )

    @property
    def done_by_name(self) -> bool:
        """ "didn't wrap | seventy three": whether the thing before the list is the verb for giving it."""
        p = self.before
        if p is None or p.label != "item":
            return False
        at = self.r.back(self.first)
        return at > 0 and done_with_it(p, self.r.at(self.r.back(at)))

    def _dealt_to(self) -> bool:
        """ "pollen sub a pound each | l five six and nine": nobody is named yet to whom it was given."""
        for m in reversed(self.r.row[max(0, self.first - REACH) : self.first]):
            if m.label in ("stop", "line"):
                break
            if m.label in _NAMED_OR_COUNTED or (m.w in PREPS and m.w != "of"):
                return False
        return True

    def _told_to_the_end(self) -> bool:
        """Whether what was put on or taken off stands before the list, and the colony it was done to leads."""
        row, k = self.r.row, self.r.back(self.first) - 1
        if k < 2 or row[k].label not in THINGS:
            return False
        while k > 0 and (row[k].label in THINGS or row[k].label == "number" or row[k].w in ("the", "a", "an", "its")):
            k -= 1
        if row[k].label != "verb" or not k:
            return False
        led = row[k - 1] if row[k - 1].w not in ("i", "we") or k < 2 else row[k - 2]
        return led.label == "colony" or (led.label == "number" and self.r.outfit.could_be(id_of(led)))


_NAMED_OR_COUNTED = frozenset("colony number filler comma method sample".split())


def in_word_after_figures(m: Mark, after: Mark) -> bool:
    """Whether a number in a word follows one in figures: typed so, the one is an id and the other a count."""
    numbers = m.label == after.label == "number"
    return numbers and bool(m.v["n"].digits) and not after.v["n"].digits


def letter(m: Mark) -> str:
    """The letters of a full id ("L" of "L4"); empty for a bare number."""
    return id_parts(m.v["value"])[0] if m.label == "colony" else ""


def as_id(m: Mark, letter: str, outfit: Outfit) -> str:
    """The id that a mark of a list means: a bare number takes the letter before it where the roster has it so."""
    if m.label == "colony":
        return str(m.v["value"])
    bare = id_of(m)
    if letter and (not outfit.known or f"{letter}{bare}" in outfit.ids):
        return f"{letter}{bare}"
    return bare


def between(a: str, b: str) -> list[str]:
    """The ids from `a` to `b`, both with them ("L4", "9" → L4 … L9); none where they do not rise."""
    (letter, first), (last_letter, last) = id_parts(a), id_parts(b)
    if not first or not last or (last_letter and last_letter != letter):
        return []
    low, high = int(first), int(last)
    if not low < high or high - low > LONGEST_RANGE:
        return []
    return [f"{letter}{x}" for x in range(low, high + 1)]
