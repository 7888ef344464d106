"""The colour that a phrase names."""

from __future__ import annotations

_COLOURS = {
    "blu": "blue",
    "wht": "white",
    "yel": "yellow",
    "grn": "green",
    "yllw": "yellow",
    "blew": "blue",
    "read": "red",
    "why": "white",
    "yello": "yellow",
    "greene": "green",
}


def colour_in(words: str) -> str | None:
    for word in words.split():
        if word in ("blue", "white", "yellow", "red", "green"):
            return word
        if word in _COLOURS:
            return _COLOURS[word]
    return None
