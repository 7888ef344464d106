"""`fieldnotes history`: the trail of a note, a record or a colony, or the last acts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands.options import HomeOption

if TYPE_CHECKING:
    from fieldnotes.book import Book


def history(
    what: Annotated[
        str | None, typer.Argument(help="A colony (L22), or the id of a note or record; otherwise the last acts.")
    ] = None,
    yard: Annotated[
        str | None, typer.Option("--yard", help="Which yard's colony, where several have that number.")
    ] = None,
    limit: Annotated[int, typer.Option("--limit", min=1, help="How many acts to show.")] = 20,
    home: HomeOption = None,
) -> None:
    """Show the trail of a note, a record or a colony: said, read, mended, settled or undone, by whom and when."""
    from fieldnotes.book import trail
    from fieldnotes.commands.place import open_home
    from fieldnotes.roster import colony_id, load_roster

    with open_home(home) as (place, book):
        if what is None:
            lines = trail.last_acts(book, limit)
        else:
            lines = _of_id(book, what) or trail.of_colony(book, colony_id(what), yard, load_roster(place.roster))
        nothing = f"The book says nothing of {what}." if what else "Nothing was done to this book yet."
        print("\n".join(lines) if lines else nothing)


def _of_id(book: Book, what: str) -> list[str]:
    from fieldnotes.book import trail

    return trail.of_id(book, what.strip().lower()) if len(what.strip()) > 3 else []
