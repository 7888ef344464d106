"""Yards that the roster does not have, and the words that stand before a place."""

from __future__ import annotations

from rapidfuzz.distance import Levenshtein

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.numbers import is_number_word
from fieldnotes.reader.outfit import Outfit

PLACE_WORDS = frozenset(
    ("at to from in over @ near by down up out of off for around toward towards into leaving visited").split()
)
_YARD_STOPS = listed("no_names_of_yards")
_WITHOUT_HIVES = listed("yards_of_other_things")


def _yard_words(outfit: Outfit) -> frozenset[str]:
    """The names of the roster's yards, in lower case."""
    return frozenset(x.lower() for yard in outfit.roster.yard for x in (yard.name, *yard.also))


def unknown_yard(w: list[str], i: int, outfit: Outfit, vocabulary: frozenset[str]) -> tuple[str, int] | None:
    """A yard the roster does not have: up to three words before "yard". (name in Title Case, index after)."""
    if (
        i
        and w[i - 1].isalpha()
        and w[i - 1] not in _YARD_STOPS
        and w[i - 1] not in PLACE_WORDS
        and not _ends_name(w[i - 1], vocabulary)
    ):
        return None
    for length in (1, 2, 3):
        j = i + length
        if j < len(w) and w[j] in ("yard", "apiary"):
            words = w[i:j]
            if any(is_number_word(x) for x in words) or " ".join(words) in _yard_words(outfit):
                return None  # "number six quarry yard"
            if any(x in _YARD_STOPS or not x.replace("'", "").isalpha() or x in PLACE_WORDS for x in words):
                return None
            if words[-1] in _WITHOUT_HIVES:
                return None
            if length == 1 and words[0] in vocabulary and not (i and w[i - 1] in ("the", "at", "to", "from")):
                return None
            return _misheard(" ".join(words), outfit) or " ".join(x[0].upper() + x[1:] for x in words), j + 1
        if j >= len(w) or not w[i].isalpha():
            return None
    return None


_LONG_ENOUGH = 5
"""Shorter names are one slip from too many others."""


def _misheard(name: str, outfit: Outfit) -> str | None:
    """The one yard of the roster whose name is a slip or two away from that said ("the query yard")."""
    near = {
        yard.name
        for yard in outfit.roster.yard
        for known in (yard.name, *yard.also)
        if len(known) >= _LONG_ENOUGH
        and known[0].lower() == name[0]
        and Levenshtein.distance(known.lower(), name, score_cutoff=2) <= 1 + (len(known) > _LONG_ENOUGH)
    }
    return near.pop() if len(near) == 1 else None


def _ends_name(word: str, vocabulary: frozenset[str]) -> bool:
    """Whether a yard's name cannot begin before this word: it is a word of ours, not a part of a name."""
    return word in vocabulary
