"""Reading notes on behalf of the commands: the roster to use, the reader, the messages of a note."""

from __future__ import annotations

import os
import re
from pathlib import Path

from fieldnotes import __version__
from fieldnotes.book import Message
from fieldnotes.errors import FieldnotesError, UnreadableError
from fieldnotes.home import Home
from fieldnotes.intake.files import Arrival, minute
from fieldnotes.records import Note, Reading
from fieldnotes.roster import Roster, load_roster

_HALVES = re.compile("[\ud800-\udfff]")


def reading_roster(given: Path | None, home: Home) -> Roster:
    """The roster named, else the one at home, else an empty one (reading works without)."""
    if given:
        return load_roster(given)
    return load_roster(home.roster) if home.roster.exists() else Roster()


def read_arrival(arrival: Arrival, roster: Roster) -> Reading:
    """What one note says.

    Raises:
        UnreadableError: the reader has a fault that this note brings out.
    """
    from fieldnotes.reader import read  # slow to import: only those who read pay for it

    try:
        return read(note_of(arrival), roster)
    except FieldnotesError:
        raise
    except Exception as error:
        fault = f"{type(error).__name__} {error}".strip()
        raise UnreadableError(f"The reader stumbled over this note ({fault:.100}): a fault of its own.") from error


def messages_of(arrival: Arrival, roster: Roster) -> list[Message]:
    """The messages a note falls into: itself, unless it is a pasted thread.

    A sender is named as in the roster: two phones may have one person under two names.
    """
    from fieldnotes.intake.thread import messages

    people = tuple(name.lower() for person in roster.person for name in (person.name, *person.also))
    parts = messages(note_of(arrival), people, roster.day_first)
    if len(parts) < 2:
        return [Message(0, len(arrival.text), arrival.received, _named(arrival.by, roster), arrival.told_by)]
    return [
        Message(part.start, part.end, part.received, _named(part.by, roster), minute(part.received)) for part in parts
    ]


def _named(sender: str | None, roster: Roster) -> str | None:
    """A sender's name as it stands in the roster, where it does."""
    low = (sender or "").casefold()
    known = (one.name for one in roster.person if low in (one.name.casefold(), *(name.casefold() for name in one.also)))
    return next(known, sender)


def note_of(arrival: Arrival) -> Note:
    """The note as the reader takes it."""
    name = arrival.given_id or ("" if arrival.source == "-" else arrival.source)
    # The reader cannot hold halves of a character (lone surrogates); one sign for each keeps the places right.
    text = _HALVES.sub("\ufffd", arrival.text)
    return Note(id=name, text=text, received=arrival.received, by=arrival.by)


def processes_for(count: int, many: int) -> int:
    """How many processes should read `count` notes: as many as there are processors, from `many` notes on."""
    return (os.cpu_count() or 1) if count >= many else 1


def reader_mark() -> str:
    """Names the reader that made a reading."""
    return __version__
