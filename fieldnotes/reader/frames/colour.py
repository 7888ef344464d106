"""The colour of a queen's mark, said beside her."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.scope import Draft

_COLOUR_WORDS = {
    "blue": "blue", "white": "white", "yellow": "yellow", "red": "red", "green": "green",
    "blu": "blue", "wht": "white", "yel": "yellow", "yllw": "yellow", "grn": "green",
}  # fmt: skip


def colour_beside(statement: Statement, draft: Draft) -> None:
    """ "queen seen (white)", "requeened, blue": a colour by itself beside the queen."""
    colour = next((m for m in statement.marks if m.label == "w" and _COLOUR_WORDS.get(m.w)), None)
    if colour is not None:
        draft.put("mark", _COLOUR_WORDS[colour.w], "colour beside the queen")
        draft.spans.append((colour.s, colour.e))
