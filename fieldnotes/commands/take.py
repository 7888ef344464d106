"""`fieldnotes take`: keep notes in the book, and say what was understood."""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain, islice
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import ByOption, HomeOption, LinesOption, OnOption
from fieldnotes.errors import FieldnotesError, UnreadableError

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.book.store import FirstReading, Kept
    from fieldnotes.home import Home
    from fieldnotes.intake.files import Arrival, BadLine
    from fieldnotes.records import Reading
    from fieldnotes.roster import Roster

    Done = tuple["Job", Reading | UnreadableError | None]

AT_ONCE = 200
"""Notes stored with one wait for the disk, before they are read; and readings kept in one transaction."""
MANY = 400
"""From so many notes on it pays to read in several processes."""


def take(
    files: Annotated[list[Path] | None, typer.Argument(help="Text files, or - for standard input.")] = None,
    on: OnOption = None,
    by: ByOption = None,
    jsonl: LinesOption = False,
    home: HomeOption = None,
) -> None:
    """Keep notes in the book: each is stored as it came, then read."""
    from fieldnotes.commands.place import open_home
    from fieldnotes.home import find_home
    from fieldnotes.intake.files import said_time
    from fieldnotes.roster import load_roster

    if on:
        said_time(on)
    items = _arrivals(files or [Path("-")], jsonl, on, by, find_home(home))
    # Where the notes are all there already, many are stored and read at a time; else each as soon as it comes.
    ahead = AT_ONCE if jsonl and all(map(_is_whole, files or [Path("-")])) else 1
    with open_home(home) as (place, book):
        try:
            taker = Taker(book, load_roster(place.roster))
        except FieldnotesError:
            keep_unread(book, items)
            raise
        taker.finish_waiting()
        taker.take_all(items, ahead)
        taker.sum_up()


def _is_whole(file: Path) -> bool:
    """Whether all of it is there, unlike what comes in through a pipe."""
    return stat.S_ISREG(os.fstat(sys.stdin.fileno()).st_mode) if str(file) == "-" else file.is_file()


def keep_unread(book: Book, items: Iterable[Arrival | BadLine | FieldnotesError]) -> None:
    """Store notes that cannot be read now, so that they are not lost, and say so."""
    from fieldnotes.commands.output import complain
    from fieldnotes.intake.files import Arrival

    batch = None
    for item in items:
        if isinstance(item, Arrival):
            taken = book.add_note(item, moment.stamp(), moment.user(), batch)
            batch = taken.batch if taken.new else batch
            if taken.unread:
                book.make_findable(taken.note_id)
            complain(f"{_heading(item)}: kept, but not read yet; the next `fieldnotes take` reads it.")
        else:
            complain(str(item))


@dataclass(frozen=True)
class Job:
    """What came, and the id under which it is stored, if it is a note that must be read."""

    item: Arrival | BadLine | FieldnotesError
    note_id: str | None


@dataclass(frozen=True)
class InBook:
    """What was read from a note, and how it was kept."""

    read: FirstReading
    kept: Kept


class Taker:
    """Takes notes one after the other into one batch, printing each, and counts them."""

    def __init__(self, book: Book, roster: Roster) -> None:
        self.book = book
        self.roster = roster
        self.batch: int | None = None
        self.new = self.known = self.bad = self.unreadable = 0
        self.reasons: list[str] = []
        self.queued: set[str] = set()
        """Notes that this run reads: should one come twice, it is read once."""

    def take_all(self, items: Iterable[Arrival | BadLine | FieldnotesError], ahead: int = 1) -> None:
        """Store notes, `ahead` at a time, read each and say what it says, or what is wrong with it."""
        from fieldnotes.commands.many import in_order
        from fieldnotes.commands.reading import processes_for

        source = iter(items)
        first = list(islice(source, MANY if ahead > 1 else 1))
        jobs = self._stored(chain(first, source), ahead)
        work = partial(_read_job, roster=self.roster)
        done = in_order(work, jobs, processes_for(len(first), MANY))
        while some := list(islice(done, ahead)):
            self._tell(some)

    def finish_waiting(self) -> None:
        """Read the notes that an earlier run stored but did not get to read."""
        for note_id in self.book.waiting():
            job = Job(self.book.note(note_id), note_id)
            self._tell([(job, _read_job(job, self.roster))])
        self.unreadable = 0  # these are said, and are not for this run to answer for

    def _stored(self, items: Iterable[Arrival | BadLine | FieldnotesError], ahead: int) -> Iterator[Job]:
        from fieldnotes.intake.files import Arrival

        source = iter(items)
        while some := list(islice(source, ahead)):
            notes = [item for item in some if isinstance(item, Arrival)]
            taken = self.book.add_notes(notes, moment.stamp(), moment.user(), self.batch)
            self.batch = next((t.batch for t in taken if t.new), self.batch)
            stored = iter(taken)
            for item in some:
                one = next(stored) if isinstance(item, Arrival) else None
                to_read = one is not None and one.unread and one.note_id not in self.queued
                if one and to_read:
                    self.queued.add(one.note_id)
                yield Job(item, one.note_id if one and to_read else None)

    def _tell(self, done: Sequence[Done]) -> None:
        """Keep these readings, and say what each note says, or what is wrong with it."""
        from fieldnotes.commands.output import complain, reading_lines
        from fieldnotes.intake.files import FILE, Arrival

        read = self._keep(done)
        for job, reading in done:
            result = read.get(job.note_id or "", reading)
            if not isinstance(job.item, Arrival):
                self.bad += 1
                self.reasons.append(str(job.item))
                complain(str(job.item))
            elif isinstance(result, UnreadableError):
                self.unreadable += 1
                complain(f"{_heading(job.item)}: kept, but not read. {result}")
                if job.note_id:
                    self.book.make_findable(job.note_id)
            elif not isinstance(result, InBook):
                self.known += 1
                by_name = job.item.told_by.startswith(FILE) and not job.item.given_id
                anew = " Is it the same words, said anew? Then give their day: --on." if by_name else ""
                print(f"{_heading(job.item)}: in the book already, not taken again.{anew}", flush=True)
            else:
                self.new += 1
                one, kept = result.read, result.kept
                lines = [*reading_lines(job.item, one.reading, one.messages, kept), *self._begun_as(job, one)]
                print("\n".join([f"{_heading(job.item)}:", *lines]), flush=True)

    def _begun_as(self, job: Job, one: FirstReading) -> Iterator[str]:
        """What to do about a file that has grown since it was taken; in a thread, each message counts once anyway."""
        from fieldnotes.intake.files import Arrival

        if (
            isinstance(job.item, Arrival)
            and job.item.source != "-"
            and not job.item.given_id
            and len(one.messages) == 1
        ):
            for other in self.book.begun_as(one.note_id):
                yield (
                    f"  This file was taken before, shorter, as note {other[:6]}: what that says counts twice. To have "
                    "it once: fieldnotes undo, then take by itself what is new."
                )

    def _keep(self, done: Sequence[Done]) -> dict[str, InBook | UnreadableError]:
        """Keep the readings among these, in one transaction; by note. One that does not fit keeps no other out."""
        from fieldnotes.book.store import FirstReading
        from fieldnotes.commands.reading import messages_of
        from fieldnotes.intake.files import Arrival
        from fieldnotes.records import Reading

        read = [
            FirstReading(job.note_id, job.item.text, reading, messages_of(job.item, self.roster))
            for job, reading in done
            if isinstance(job.item, Arrival) and job.note_id is not None and isinstance(reading, Reading)
        ]
        kept = self._kept(read)
        if any(isinstance(one, UnreadableError) for one in kept):
            kept = [alone for one in read for alone in self._kept([one])]
        return {one.note_id: this for one, this in zip(read, kept, strict=True)}

    def _kept(self, read: Sequence[FirstReading]) -> Sequence[InBook | UnreadableError]:
        """Keep readings in one transaction: all of them, or none."""
        import sqlite3

        from fieldnotes.commands.reading import reader_mark

        try:
            kept = self.book.add_readings(read, reader_mark()) if read else []
        except (sqlite3.IntegrityError, sqlite3.DataError, ValueError, OverflowError) as error:
            fault = f"{type(error).__name__} {error}"
            return [UnreadableError(f"What was read does not fit the book ({fault:.100}).")] * len(read)
        return [InBook(one, this) for one, this in zip(read, kept, strict=True)]

    def sum_up(self) -> None:
        """The last line; raises where a note could not be taken."""
        if self.new + self.known > 1:
            print(f"{self.new} taken" + (f", {self.known} in the book already." if self.known else "."))
        if self.unreadable:
            raise FieldnotesError(
                f"{self.unreadable} {'note is' if self.unreadable == 1 else 'notes are'} kept, but not read;"
                " `fieldnotes take` tries again each time it runs."
            )
        if self.bad:
            others = "; all others were" if self.new + self.known else ""
            raise FieldnotesError(f"{self.bad} could not be taken{others}.")


def _read_job(job: Job, roster: Roster) -> Reading | UnreadableError | None:
    """Read the note of a job, if it is to be read; here or in a process of its own."""
    from fieldnotes.commands.reading import read_arrival
    from fieldnotes.intake.files import Arrival

    if not job.note_id or not isinstance(job.item, Arrival):
        return None
    try:
        return read_arrival(job.item, roster)
    except UnreadableError as error:
        return error


def _heading(arrival: Arrival) -> str:
    from fieldnotes.book.plain_words import say_day
    from fieldnotes.intake.files import shown

    name = "" if arrival.source == "-" else f" ({shown(Path(arrival.source).name)}"
    if name:
        name += f", {shown(arrival.given_id)})" if arrival.given_id else ")"
    return f"{say_day(arrival.received)}{f', {shown(arrival.by)}' if arrival.by else ''}{name}"


def _arrivals(
    files: list[Path], jsonl: bool, on: str | None, by: str | None, place: Home
) -> Iterator[Arrival | BadLine | FieldnotesError]:
    """Every note of every file, and what is wrong with those that are none."""
    from fieldnotes.commands.place import not_the_book
    from fieldnotes.commands.read import all_bytes, lines
    from fieldnotes.intake.files import line_arrivals, plain_arrival

    for file in files:
        try:
            not_the_book(place, file)
            if jsonl:
                yield from line_arrivals(lines(file), str(file), on, moment.now(), by)
            else:
                yield plain_arrival(all_bytes(file), str(file), on, moment.now(), by)
        except FieldnotesError as error:
            yield error
