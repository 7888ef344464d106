"""`fieldnotes morning`: what is overdue, due today, coming, and to settle."""

from __future__ import annotations

import sys
from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.roster import Roster


def morning(
    on: Annotated[str | None, typer.Option("--on", help="The day to show, like 2026-05-31; otherwise today.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the items as JSON.")] = False,
    home: HomeOption = None,
) -> None:
    """Show what is overdue, what is for today, what is coming, and what must be settled."""
    from fieldnotes.commands.place import open_home
    from fieldnotes.roster import load_roster

    day = _day(on) if on else moment.now().date()
    with open_home(home) as (place, book):
        show(book, load_roster(place.roster), day, as_json)


def show(book: Book, roster: Roster, day: date, as_json: bool) -> None:
    """Print the digest of a day; the same book and day give the same bytes."""
    from fieldnotes.commands.output import complain
    from fieldnotes.digest import morning_json, print_morning
    from fieldnotes.schedule import due_items

    items = due_items(book.records(), book.open_questions(), roster, day)
    if as_json:
        sys.stdout.write(morning_json(items, day))
    else:
        from rich.console import Console

        print_morning(items, day, roster.outfit, Console(highlight=False))
    waiting = len(book.waiting())
    if waiting:
        complain(f"{waiting} taken but not read yet (a run was cut short): the next `fieldnotes take` reads them.")


def _day(words: str) -> date:
    try:
        return date.fromisoformat(words)
    except ValueError:
        raise FieldnotesError(f'"{words}" is not a day: write it like 2026-05-31.') from None
