"""The colour that a phrase names."""

from __future__ import annotations

from fieldnotes.reader.grammar import meanings

_COLOURS = meanings("colours") | meanings("colours_by_ear")


def colour_in(words: str) -> str | None:
    for word in words.split():
        if word in _COLOURS:
            return _COLOURS[word]
    return None
