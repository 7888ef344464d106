"""`fieldnotes reread`: read all notes again with today's grammar and roster."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import UnreadableError

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.records import Reading
    from fieldnotes.roster import Roster


def reread(
    yes: Annotated[bool, typer.Option("--yes", help="Apply without asking.")] = False,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Only show what would change.")] = False,
    home: HomeOption = None,
) -> None:
    """Read every note again with today's grammar and roster: show what would change, and apply it on yes."""
    from fieldnotes.commands.place import open_home
    from fieldnotes.roster import load_roster

    with open_home(home) as (place, book):
        roster = load_roster(place.roster)
        changed = changed_notes(book, book.taken_notes(), roster)
        if not changed:
            print("Nothing would change.")
            return
        print(f"{len(changed)} {'note' if len(changed) == 1 else 'notes'} would be read otherwise.")
        if dry_run or not (yes or typer.confirm("Apply?", default=False)):
            print("Nothing was changed.")
            return
        apply(book, changed, roster, None)
        print("Applied. `fieldnotes undo` takes it back.")


def changed_notes(book: Book, note_ids: Iterable[str], roster: Roster) -> dict[str, Reading]:
    """The notes that read otherwise today, with their new readings; each difference is printed."""
    from fieldnotes.book.placing import message_keys
    from fieldnotes.book.plain_words import say_day
    from fieldnotes.book.rereading import what_changes
    from fieldnotes.commands.output import complain, one_line
    from fieldnotes.commands.reading import messages_of, read_arrival

    changed = {}
    for note_id in note_ids:
        arrival = book.note(note_id)
        try:
            reading = read_arrival(arrival, roster)
        except UnreadableError as error:
            complain(f"{say_day(arrival.received)}, note {note_id[:6]}: not read again. {error}")
            continue
        keys = message_keys(arrival.text, messages_of(arrival, roster))
        change = what_changes(book, note_id, reading, keys)
        if change:
            changed[note_id] = reading
            print(f"{say_day(arrival.received)}, note {note_id[:6]}: {one_line(arrival.text)[:60]}")
            for line in change.gone:
                print(f"  - {line}")
            for line in change.come:
                print(f"  + {line}")
    return changed


def apply(book: Book, changed: dict[str, Reading], roster: Roster, batch: int | None) -> None:
    """Make the new readings count, as one batch."""
    from fieldnotes.book.rereading import add_revision
    from fieldnotes.commands.reading import messages_of, reader_mark

    at, who = moment.stamp(), moment.user()
    for note_id, reading in changed.items():
        arrival = book.note(note_id)
        batch = add_revision(
            book, note_id, arrival.text, reading, messages_of(arrival, roster), reader_mark(), at, who, batch
        )
