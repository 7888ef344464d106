"""`fieldnotes done`: close a thing that is due, by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import DayOption, HomeOption, day_asked
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.records import Due

SHORTEST = 6
"""Fewest characters by which an item's id is known."""


def done(
    words: Annotated[list[str] | None, typer.Argument(help="Words of the item, or its id.")] = None,
    on: DayOption = None,
    home: HomeOption = None,
) -> None:
    """Close a thing that is due, such as a promise that was kept and not told of. Without words: list what is due."""
    from fieldnotes.book.acts import close
    from fieldnotes.commands.morning import items_of
    from fieldnotes.commands.place import open_home
    from fieldnotes.roster import load_roster

    day = day_asked(on)
    with open_home(home) as (place, book):
        asked = [question.ask.casefold() for question in book.open_questions()]  # `settle` answers these
        items = [i for i in items_of(book, load_roster(place.roster), day) if not _asks(i, asked)]
        if not words:
            print("\n".join(map(_line, items)) or "Nothing is due.")
            return
        item = _the_one(items, words)
        close(book, item.id, item.says, moment.stamp(), moment.user())
        print(f"Done: {item.says}")


def _the_one(items: list[Due], words: list[str]) -> Due:
    found = [item for item in items if len(words) == 1 and len(words[0]) >= SHORTEST and item.id.startswith(words[0])]
    found = found or [item for item in items if all(word.casefold() in _whole(item) for word in words)]
    said = " ".join(words)
    if not found:
        raise FieldnotesError(f'Nothing that is due says "{said}". `fieldnotes done` lists what is due.')
    if len(found) > 1:
        lines = "\n".join(map(_line, found))
        raise FieldnotesError(f'{len(found)} things that are due say "{said}"; say more, or give the id:\n{lines}')
    return found[0]


def _asks(item: Due, asked: list[str]) -> bool:
    return item.section == "settle" and any(ask in item.says.casefold() for ask in asked)


def _whole(item: Due) -> str:
    return f"{item.yard or ''} {item.says}".casefold()


def _line(item: Due) -> str:
    return f"{item.id}  {item.says}"
