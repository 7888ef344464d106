"""Options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

HomeOption = Annotated[
    Path | None,
    typer.Option("--home", envvar="FIELDNOTES_HOME", help="Folder with your roster and book.", show_default=False),
]
OnOption = Annotated[
    str | None, typer.Option("--on", help="The day (2026-05-31) or moment the note is from; otherwise now.")
]
ByOption = Annotated[str | None, typer.Option("--by", help="Who said or wrote it.")]
LinesOption = Annotated[bool, typer.Option("--jsonl", help="Many notes: one JSON object a line.")]
