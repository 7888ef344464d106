"""`fieldnotes take`: keep notes in the book, and say what was understood."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import ByOption, HomeOption, LinesOption, OnOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.intake.files import Arrival, BadLine
    from fieldnotes.roster import Roster


def take(
    files: Annotated[list[Path] | None, typer.Argument(help="Text files, or - for standard input.")] = None,
    on: OnOption = None,
    by: ByOption = None,
    jsonl: LinesOption = False,
    home: HomeOption = None,
) -> None:
    """Keep notes in the book: each is stored as it came, then read."""
    from fieldnotes.commands.place import open_home
    from fieldnotes.intake.files import said_time
    from fieldnotes.roster import load_roster

    if on:
        said_time(on)
    with open_home(home) as (place, book):
        try:
            taker = Taker(book, load_roster(place.roster))
        except FieldnotesError:
            keep_unread(book, _arrivals(files or [Path("-")], jsonl, on, by))
            raise
        taker.finish_waiting()
        for item in _arrivals(files or [Path("-")], jsonl, on, by):
            taker.take(item)
        taker.sum_up()


def keep_unread(book: Book, items: Iterable[Arrival | BadLine | FieldnotesError]) -> None:
    """Store notes that cannot be read now, so that they are not lost, and say so."""
    from fieldnotes.commands.output import complain
    from fieldnotes.intake.files import Arrival

    batch = None
    for item in items:
        if isinstance(item, Arrival):
            taken = book.add_note(item, moment.stamp(), moment.user(), batch)
            batch = taken.batch if taken.new else batch
            complain(f"{_heading(item)}: kept, but not read yet; the next `fieldnotes take` reads it.")
        else:
            complain(str(item))


class Taker:
    """Takes notes one after the other into one batch, printing each, and counts them."""

    def __init__(self, book: Book, roster: Roster) -> None:
        self.book = book
        self.roster = roster
        self.batch: int | None = None
        self.new = self.known = self.bad = 0
        self.reasons: list[str] = []

    def take(self, item: Arrival | BadLine | FieldnotesError) -> None:
        """Store a note, read it and say what it says; or say what is wrong with it."""
        from fieldnotes.commands.output import complain
        from fieldnotes.intake.files import Arrival

        if not isinstance(item, Arrival):
            self.bad += 1
            self.reasons.append(str(item))
            complain(str(item))
            return
        taken = self.book.add_note(item, moment.stamp(), moment.user(), self.batch)
        if not taken.new and not taken.unread:
            self.known += 1
            print(f"{_heading(item)}: in the book already, not taken again.", flush=True)
            return
        if taken.new:
            self.batch = taken.batch
        self.new += 1
        self._read(taken.note_id, item)

    def finish_waiting(self) -> None:
        """Read the notes that an earlier run stored but did not get to read."""
        for note_id in self.book.waiting():
            self._read(note_id, self.book.note(note_id))

    def sum_up(self) -> None:
        """The last line; raises where a note could not be taken."""
        if self.new + self.known > 1:
            print(f"{self.new} taken" + (f", {self.known} in the book already." if self.known else "."))
        if self.bad:
            raise FieldnotesError(f"{self.bad} could not be taken; all others were.")

    def _read(self, note_id: str, arrival: Arrival) -> None:
        from fieldnotes.commands.output import reading_lines
        from fieldnotes.commands.reading import messages_of, read_arrival, reader_mark

        reading = read_arrival(arrival, self.roster)
        ids = self.book.add_reading(note_id, arrival.text, reading, messages_of(arrival, self.roster), reader_mark())
        print("\n".join([f"{_heading(arrival)}:", *reading_lines(arrival, reading, ids)]), flush=True)


def _heading(arrival: Arrival) -> str:
    from fieldnotes.book.plain_words import say_day
    from fieldnotes.intake.files import shown

    name = "" if arrival.source == "-" else f" ({shown(Path(arrival.source).name)}"
    if name:
        name += f", {shown(arrival.given_id)})" if arrival.given_id else ")"
    return f"{say_day(arrival.received)}{f', {shown(arrival.by)}' if arrival.by else ''}{name}"


def _arrivals(
    files: list[Path], jsonl: bool, on: str | None, by: str | None
) -> Iterator[Arrival | BadLine | FieldnotesError]:
    """Every note of every file, and what is wrong with those that are none."""
    from fieldnotes.commands.read import all_bytes, lines
    from fieldnotes.intake.files import line_arrivals, plain_arrival

    for file in files:
        try:
            if jsonl:
                yield from line_arrivals(lines(file), str(file), on, moment.now(), by)
            else:
                yield plain_arrival(all_bytes(file), str(file), on, moment.now(), by)
        except FieldnotesError as error:
            yield error
