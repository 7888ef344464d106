"""The colour of a queen's mark, said beside her."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.marking.colours import colour_in, is_colour
from fieldnotes.reader.scope import Draft


def colour_beside(statement: Statement, draft: Draft) -> None:
    """ "queen seen (white)", "requeened, blue": a colour by itself beside the queen."""
    colour = next((m for m in statement.marks if m.label == "w" and is_colour(m.w)), None)
    if colour is not None:
        draft.put("mark", colour_in(colour.w), "colour beside the queen")
        draft.spans.append((colour.s, colour.e))
