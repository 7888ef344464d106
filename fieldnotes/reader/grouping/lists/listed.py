"""The list of colonies that is being read, and the ids that its marks mean."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.reader.grouping.row import PREPS, Row, id_of
from fieldnotes.reader.mark import Mark
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
        return p is not None and (
            p.label in ("verb", "method", "same")
            or p.w in PREPS
            or p.w in ("to", "at")
            or (p.label == "form" and bool(p.v.get("treats")))
        )


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
