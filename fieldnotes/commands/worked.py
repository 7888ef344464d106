"""`fieldnotes worked`: what each treatment did, by the counts before and after."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

from fieldnotes.errors import FieldnotesError


def show_worked(
    home: Path | None, day: date, yard: str | None = None, agent: str | None = None, as_json: bool = False
) -> None:
    """Print the report of a day for the home's book; the same book and day give the same bytes.

    Raises:
        FieldnotesError: no home or book, or an active that is not one.
    """
    from fieldnotes.commands.place import open_home
    from fieldnotes.digest.worked import worked_json, worked_text
    from fieldnotes.roster import load_roster
    from fieldnotes.schedule.worked import worked

    with open_home(home) as (place, book):
        roster = load_roster(place.roster)
        report = worked(book.records(), roster, day, yard=yard, agent=_agent(agent))
    sys.stdout.write(worked_json(report) if as_json else worked_text(report, roster.outfit))


def _agent(words: str | None) -> str | None:
    """The active that a person typed: "oxalic acid", "oxalic_acid"."""
    from fieldnotes.trade.words import AGENTS

    if words is None:
        return None
    plain = words.strip().lower().replace("-", " ").replace("_", " ")
    for agent, name in AGENTS.items():
        if plain in (agent.replace("_", " "), name.replace("-", " ")):
            return agent
    raise FieldnotesError(f'"{words}" is no active on file. Choose one of: {", ".join(AGENTS.values())}.')
