"""`fieldnotes export` and `import`: the whole history out, and in again."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import FieldnotesError


def export(
    target: Annotated[Path, typer.Argument(help="A new file (jsonl) or a new folder (csv, parquet).")],
    form: Annotated[str, typer.Option("--format", help="jsonl, csv or parquet.")] = "jsonl",
    home: HomeOption = None,
) -> None:
    """Write the whole book out: every note, reading, answer and act."""
    from fieldnotes.book.exchange_files import FORMATS, write_history
    from fieldnotes.commands.place import open_home

    if form not in FORMATS:
        raise FieldnotesError(f'"{form}" is not a format: it is one of {", ".join(FORMATS)}.')
    with open_home(home) as (_, book):
        write_history(book, target, form)
    print(f"Exported: {target}")


def import_(
    source: Annotated[Path, typer.Argument(help="What `fieldnotes export` wrote.")],
    home: HomeOption = None,
) -> None:
    """Take an export in. What the book has already is passed over."""
    from fieldnotes.book.exchange import take_rows
    from fieldnotes.book.exchange_files import read_history
    from fieldnotes.commands.place import not_the_book, open_home

    with open_home(home) as (place, book):
        new = take_rows(book, read_history(not_the_book(place, source)))
    print(f"{new['notes']} new notes, {new['entries']} new acts, {new['records']} new records.")
