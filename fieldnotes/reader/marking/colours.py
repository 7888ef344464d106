"""The colour that a phrase names."""

from __future__ import annotations

from fieldnotes.reader.grammar import meanings

_COLOURS = meanings("colours") | meanings("colours_by_ear")


_SHORT = frozenset("blue white yellow red green blu wht yel grn yllw".split())
"""Words that are a colour wherever they stand: the others of the table only in a phrase of one."""


def is_colour(word: str) -> bool:
    """Whether the word by itself is a colour, maybe in short."""
    return word in _SHORT


def colour_in(words: str) -> str | None:
    for word in words.split():
        if word in _COLOURS:
            return _COLOURS[word]
    return None
