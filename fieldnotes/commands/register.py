"""`fieldnotes register`: the treatment register as a table, CSV, or a page to print."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

from fieldnotes.errors import FieldnotesError

FORMS = ("table", "csv", "page")


def show_register(home: Path | None, day: date, year: int | None = None, form: str = "table") -> None:
    """Print the register up to a day, or of one year; `form` is "table", "csv" or "page" (HTML).

    Raises:
        FieldnotesError: no home or book, or a form that is none of the three.
    """
    from fieldnotes.commands.place import open_home
    from fieldnotes.digest.register import register_csv, register_page, register_text
    from fieldnotes.roster import load_roster
    from fieldnotes.schedule.register import register

    if form not in FORMS:
        raise FieldnotesError(f'"{form}" is no form of the register. Choose table, csv or page.')
    with open_home(home) as (place, book):
        roster = load_roster(place.roster)
        rows = register(book.records(), roster, day, year, text_of=lambda note_id: book.note(note_id).text)
    if form == "csv":
        sys.stdout.write(register_csv(rows))
    elif form == "page":
        sys.stdout.write(register_page(rows, roster.outfit, year))
    else:
        sys.stdout.write(register_text(rows, roster.outfit, year))
