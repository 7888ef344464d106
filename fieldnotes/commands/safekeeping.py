"""`fieldnotes check`, `backup` and `restore`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import FieldnotesError


def check(home: HomeOption = None) -> None:
    """See whether the book is sound: the file, its links, each note's hash, the state made anew from history."""
    from fieldnotes.book.soundness import faults
    from fieldnotes.commands.place import open_home

    with open_home(home) as (_, book):
        found = list(faults(book))
        (notes,) = book.db.execute("SELECT count(*) FROM notes").fetchone() if not found else (0,)
    for fault in found:
        print(fault)
    if found:
        raise FieldnotesError("The book is not sound. `fieldnotes restore FILE` brings a backup back.")
    print(f"The book is sound: {notes} {'note' if notes == 1 else 'notes'}, each as it came.")


def backup(
    file: Annotated[Path, typer.Argument(help="The new file to write.")],
    home: HomeOption = None,
) -> None:
    """Copy the whole book into a file, also while others write to it."""
    from fieldnotes.book.copies import back_up
    from fieldnotes.commands.place import open_home

    with open_home(home) as (_, book):
        back_up(book, file)
    print(f"Backup: {file}")


def restore(
    file: Annotated[Path, typer.Argument(help="A backup, as `fieldnotes backup` wrote it.")],
    home: HomeOption = None,
) -> None:
    """Bring a backup back. The book that is there is moved aside, not thrown away."""
    from fieldnotes.book.copies import restore as put_back
    from fieldnotes.home import find_home, make_home

    place = find_home(home)
    make_home(place)
    aside = put_back(file, place.book, moment.now(), _must_be_sound)
    if aside:
        print(f"The book that was there is kept as {aside}.")
    print(f"Restored: {place.book}")


def _must_be_sound(path: Path) -> None:
    from fieldnotes.book import open_book
    from fieldnotes.book.soundness import faults

    book = open_book(path, moment.stamp())
    try:
        found = list(faults(book))
    finally:
        book.close()
    if found:
        raise FieldnotesError(f"That backup is not sound: {found[0]} The book was left as it is.")
