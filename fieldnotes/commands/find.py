"""`fieldnotes find`: notes by words."""

from __future__ import annotations

from typing import Annotated

import typer

from fieldnotes.commands.options import HomeOption


def find(
    words: Annotated[list[str], typer.Argument(help="Words of the note, or of the records made of it.")],
    limit: Annotated[int, typer.Option("--limit", min=1, help="How many notes to show at most.")] = 20,
    home: HomeOption = None,
) -> None:
    """Find notes that hold all these words."""
    from fieldnotes.book import search
    from fieldnotes.book.plain_words import say_day
    from fieldnotes.commands.output import one_line
    from fieldnotes.commands.place import open_home

    with open_home(home) as (_, book):
        hits = search.find(book, " ".join(words), limit)
        for hit in hits:
            back = " (undone)" if hit.undone else ""
            print(f"{say_day(hit.received)}  {hit.note_id[:6]}  {hit.sender or '?'}: {one_line(hit.piece)}{back}")
        if not hits:
            print("No note holds these words.")
