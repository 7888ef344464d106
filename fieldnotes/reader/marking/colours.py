"""The colour that a phrase names."""

from __future__ import annotations

from fieldnotes.reader.grammar import meanings

_WRITTEN = meanings("colours")
_COLOURS = _WRITTEN | meanings("colours_by_ear")


def is_colour(word: str) -> bool:
    """Whether the word by itself is a colour, maybe in short."""
    return word in _WRITTEN


def colour_in(words: str) -> str | None:
    for word in words.split():
        if word in _COLOURS:
            return _COLOURS[word]
    return None
