"""`fieldnotes worked`: what each treatment did, by the counts before and after."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.records import StoredRecord
    from fieldnotes.roster import Roster


def show_worked(
    home: Path | None, day: date, yard: str | None = None, agent: str | None = None, as_json: bool = False
) -> None:
    """Print the report of a day for the home's book; the same book and day give the same bytes.

    Raises:
        FieldnotesError: no home or book, a yard that is not known, or an active that is not one.
    """
    from fieldnotes.commands.place import open_home
    from fieldnotes.digest.worked import worked_json, worked_text
    from fieldnotes.roster import load_roster
    from fieldnotes.schedule.worked import worked

    with open_home(home) as (place, book):
        roster = load_roster(place.roster)
        records = book.records()
        report = worked(records, roster, day, yard=_yard(yard, roster, records), agent=_agent(agent))
    part = yard is not None or agent is not None
    sys.stdout.write(worked_json(report) if as_json else worked_text(report, roster.outfit, part))


def _yard(words: str | None, roster: Roster, records: Sequence[StoredRecord]) -> str | None:
    """The yard that a person typed, by any of its names."""
    if words is None:
        return None
    said = sorted({r.slots["yard"] for r in records if r.slots.get("yard")})
    found = [yard.name] if (yard := roster.called(words)) else [n for n in said if n.lower() == words.strip().lower()]
    if not found:
        known = ", ".join(dict.fromkeys([*(y.name for y in roster.yard), *said])) or "none yet"
        raise FieldnotesError(f'"{words}" is no yard of the roster or the book. There are: {known}.')
    return found[0]


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
