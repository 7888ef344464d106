"""Options that several commands share."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.errors import FieldnotesError

HomeOption = Annotated[
    Path | None,
    typer.Option("--home", envvar="FIELDNOTES_HOME", help="Folder with your roster and book.", show_default=False),
]
OnOption = Annotated[
    str | None, typer.Option("--on", help="The day (2026-05-31) or moment the note is from; otherwise now.")
]
ByOption = Annotated[str | None, typer.Option("--by", envvar="FIELDNOTES_BY", help="Who said or wrote it.")]
DayOption = Annotated[str | None, typer.Option("--on", help="The day to show, like 2026-05-31; otherwise today.")]
LinesOption = Annotated[bool, typer.Option("--jsonl", help="Many notes: one JSON object a line.")]


def day_asked(on: str | None) -> date:
    """The day of a `--on`, or today.

    Raises:
        FieldnotesError: there is no such day.
    """
    if on is None:
        return moment.now().date()
    try:
        return date.fromisoformat(on)
    except ValueError:
        raise FieldnotesError(f'"{on}" is not a day: write it like 2026-05-31.') from None
