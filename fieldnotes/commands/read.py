"""`fieldnotes read`: what a note says; nothing is stored."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import ByOption, HomeOption, LinesOption, OnOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.intake.files import Arrival, BadLine
    from fieldnotes.roster import Roster


def read(
    file: Annotated[Path, typer.Argument(help="A text file, or - for standard input.")] = Path("-"),
    roster: Annotated[Path | None, typer.Option("--roster", help="A roster other than the one at home.")] = None,
    on: OnOption = None,
    by: ByOption = None,
    jsonl: LinesOption = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print the reading as JSON.")] = False,
    jobs: Annotated[int, typer.Option("--jobs", min=1, help="With --jsonl: how many processes read.")] = 1,
    why: Annotated[bool, typer.Option("--why", help="Say which rule made each slot.")] = False,
    home: HomeOption = None,
) -> None:
    """Show what a note says, storing nothing."""
    from fieldnotes.commands.many import in_order
    from fieldnotes.commands.output import complain, json_line, reading_data
    from fieldnotes.commands.reading import read_arrival, reading_roster
    from fieldnotes.home import find_home
    from fieldnotes.intake.files import line_arrivals, plain_arrival

    used = reading_roster(roster, find_home(home))
    if not jsonl:
        arrival = plain_arrival(all_bytes(file), str(file), on, moment.now(), by)
        if as_json:
            print(json_line(reading_data(read_arrival(arrival, used), why)))
        elif why:
            from fieldnotes.commands.reading_why import print_why

            print_why(arrival, used)
        else:
            from fieldnotes.commands.reading_table import print_reading

            print_reading(arrival, read_arrival(arrival, used))
        return
    bad = 0
    items = line_arrivals(lines(file), str(file), on, moment.now(), by)
    for item, line in in_order(partial(_reading_line, roster=used, why=why), items, jobs):
        if line is None:
            bad += 1
            complain(str(item))
        else:
            print(line, flush=True)
    if bad:
        raise FieldnotesError(f"{bad} {'line was' if bad == 1 else 'lines were'} not read; all others were.")


def _reading_line(item: Arrival | BadLine, roster: Roster, why: bool) -> str | None:
    """The reading of a note as a line of JSON; here or in a process of its own."""
    from fieldnotes.commands.output import json_line, reading_data
    from fieldnotes.commands.reading import read_arrival
    from fieldnotes.intake.files import BadLine

    return None if isinstance(item, BadLine) else json_line(reading_data(read_arrival(item, roster), why))


def all_bytes(file: Path) -> bytes:
    """All bytes of a file, or of standard input for "-"."""
    from fieldnotes.commands.output import complain
    from fieldnotes.intake.files import read_bytes

    if str(file) == "-" and sys.stdin.isatty():
        complain("Type the note; an end of file ends it (Ctrl-D, on Windows Ctrl-Z and Enter).")
    return sys.stdin.buffer.read() if str(file) == "-" else read_bytes(file)


def lines(file: Path) -> Iterator[bytes]:
    """The lines of a file, or of standard input for "-", each as soon as it is there."""
    from fieldnotes.intake.files import file_lines

    return iter(sys.stdin.buffer.readline, b"") if str(file) == "-" else file_lines(file)
