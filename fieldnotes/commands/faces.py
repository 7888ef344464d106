"""The morning's digest in files: the page, the calendar, the mail."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from fieldnotes.disk import write_whole
from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.files import shown

if TYPE_CHECKING:
    from fieldnotes.home import Home
    from fieldnotes.records import Due

STDOUT = Path("-")
"""What stands for standard output."""
Files = Mapping[str, Path]
"""The files asked for, by what they are to hold: "page", "calendar", "mail"."""


def check_faces(files: Files, place: Home, as_json: bool) -> None:
    """See that each face has a place of its own.

    Raises:
        FieldnotesError: two in one place, or one in the place of the book or the roster.
    """
    taken = {"-": "the JSON"} if as_json else {}
    for name, path in files.items():
        where = "-" if path == STDOUT else os.path.realpath(path)
        if where in taken:
            there = "Standard output" if where == "-" else shown(path)
            raise FieldnotesError(f"{there} cannot hold {taken[where]} and the {name}: give each a file of its own.")
        taken[where] = f"the {name}"
        if place.holds(path):
            raise FieldnotesError(f"{shown(path)} is the book or the roster: give the {name} another file.")


def write_faces(files: Files, items: Sequence[Due], day: date, outfit: str, quiet: bool) -> None:
    """Write the faces asked for, and say which files they are unless something else is printed.

    Raises:
        FieldnotesError: a file cannot be written.
    """
    made = {name: (path, _face(name, items, day, outfit)) for name, path in files.items()}
    quiet = quiet or STDOUT in files.values()
    for name, (path, data) in made.items():
        if path == STDOUT:
            sys.stdout.flush()
            sys.stdout.buffer.write(data)
            sys.stdout.buffer.flush()
        else:
            _write(path, data, name)
            if not quiet:
                print(f"{name.capitalize()}: {shown(path)}")


def _face(name: str, items: Sequence[Due], day: date, outfit: str) -> bytes:
    if name == "page":
        from fieldnotes.digest.page import morning_page

        return morning_page(items, day, outfit).encode()
    if name == "calendar":
        from fieldnotes.digest.calendar import morning_calendar

        return morning_calendar(items, day, outfit)
    from fieldnotes.digest.mail import morning_mail

    return morning_mail(items, day, outfit)


def _write(path: Path, data: bytes, name: str) -> None:
    """Write it whole or not at all; what is no plain file (a pipe, a terminal) gets it as it is."""
    target = Path(os.path.realpath(path))
    try:
        if target.exists() and not target.is_file():
            target.write_bytes(data)
        else:
            write_whole(target, data)
    except OSError as error:
        raise FieldnotesError(f"The {name} {shown(path)} cannot be written: {error.strerror}.") from None
    except ValueError:
        raise FieldnotesError(f"The {name} {shown(path)} cannot be written: that is no file name.") from None
