"""`fieldnotes morning`: what is overdue, due today, coming, and to settle."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands.options import DayOption, HomeOption, day_asked

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.commands.faces import Files
    from fieldnotes.records import Due
    from fieldnotes.roster import Roster


def morning(
    on: DayOption = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the items as JSON.")] = False,
    weather: Annotated[
        Path | None, typer.Option("--weather", help="Daily highs and lows: a CSV file with date, high, low.")
    ] = None,
    page: Annotated[
        Path | None, typer.Option("--page", help="Write it as an HTML page into FILE; - is standard output.")
    ] = None,
    calendar: Annotated[
        Path | None, typer.Option("--calendar", help="Write it as a calendar (.ics) into FILE, or -.")
    ] = None,
    mail: Annotated[
        Path | None, typer.Option("--mail", help="Write it as a mail (.eml) into FILE, or -; nothing is sent.")
    ] = None,
    home: HomeOption = None,
) -> None:
    """Show what is overdue, what is for today, what is coming, and what must be settled."""
    from fieldnotes.commands.place import not_the_book, open_home
    from fieldnotes.roster import load_roster

    day = day_asked(on)
    asked = {"page": page, "calendar": calendar, "mail": mail}
    files = {name: path for name, path in asked.items() if path is not None}
    with open_home(home) as (place, book):
        if weather:
            not_the_book(place, weather)
        if files:
            from fieldnotes.commands.faces import check_faces

            check_faces(files, place, as_json)
        show(book, load_roster(place.roster), day, as_json, weather, files)


def show(
    book: Book,
    roster: Roster,
    day: date,
    as_json: bool,
    weather: Path | None = None,
    files: Files | None = None,
) -> None:
    """Print the digest of a day, or write it into the files asked for; the same book and day give the same bytes."""
    from fieldnotes.commands.output import complain
    from fieldnotes.digest import morning_json, morning_text, print_morning

    items = items_of(book, roster, day, weather)
    if files:
        from fieldnotes.commands.faces import write_faces

        write_faces(files, items, day, roster.outfit, quiet=as_json)
    if as_json:
        sys.stdout.write(morning_json(items, day))
    elif files:
        pass  # said in the files
    elif not sys.stdout.isatty():
        sys.stdout.write(morning_text(items, day, roster.outfit))
    else:
        from rich.console import Console

        print_morning(items, day, roster.outfit, Console(highlight=False))
    waiting = len(book.waiting())
    if waiting:
        complain(f"{waiting} taken but not read yet (a run was cut short): the next `fieldnotes take` reads them.")


def items_of(book: Book, roster: Roster, day: date, weather: Path | None = None) -> list[Due]:
    """What is due on a day, but for what was closed by hand."""
    from fieldnotes.book.acts import closed
    from fieldnotes.book.settling import last_entry_of
    from fieldnotes.commands.needed import needed_records, settle_what_is_over
    from fieldnotes.schedule import due_items
    from fieldnotes.schedule.weather import load_weather

    known = load_weather(weather, roster) if weather else []
    last_entry = last_entry_of(book)
    found = needed_records(book, roster, day)
    items = due_items(found.records, book.open_questions(), roster, day, closed=closed(book), weather=known)
    settle_what_is_over(book, roster, day, found, last_entry)
    return items
