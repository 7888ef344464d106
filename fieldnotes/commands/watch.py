"""`fieldnotes watch`: take the text files that a phone or a sync service drops into a folder."""

from __future__ import annotations

import time
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands.options import ByOption, HomeOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from fieldnotes.commands.take import Taker
    from fieldnotes.home import Home
    from fieldnotes.intake.files import Arrival, BadLine

UNFINISHED = (".part", ".partial", ".tmp", ".crdownload", ".download", "~")
"""Endings under which programs write files that they rename when whole."""
PATIENCE = 5
"""An empty file is likely one whose words are still to come: it is given this many times as long."""


def watch(
    folder: Annotated[Path, typer.Argument(help="The folder that notes are dropped into.")],
    by: ByOption = None,
    quiet: Annotated[float, typer.Option("--quiet", help="Seconds a file must lie unchanged to be whole.")] = 2.0,
    once: Annotated[bool, typer.Option("--once", help="Take what is there now, then stop.")] = False,
    home: HomeOption = None,
) -> None:
    """Take every text file that is dropped into a folder; it is moved to taken/, or to unread/ with the reason."""
    from fieldnotes.commands.output import complain
    from fieldnotes.commands.place import open_home
    from fieldnotes.commands.take import Taker
    from fieldnotes.roster import load_roster

    if not 0 <= quiet < float("inf"):
        raise FieldnotesError(f"--quiet {quiet:g} is no number of seconds: it is 0 or more.")
    if not folder.is_dir():
        raise FieldnotesError(f"There is no folder {folder} to watch.")
    with open_home(home) as (place, book):
        if folder.samefile(place.folder):
            raise FieldnotesError(
                f"{folder} holds the book and the roster, which would be taken for notes. Drop notes into a folder of "
                "their own, and name that."
            )
        Taker(book, load_roster(place.roster)).finish_waiting()
    waiting: dict[Path, tuple[tuple[int, int], float]] = {}
    trouble: dict[Path, str] = {}
    while True:
        for path, error in _taken_or_not(folder, waiting, quiet, home, by):
            if error is None:
                trouble.pop(path, None)
                continue
            # The roster is being edited, or the disk is full: the file stays where it is, and gets another turn.
            said = _sentence(error)
            if not once and said not in trouble.values():
                complain(f"{said} It is tried again and again until it works.")
            trouble[path] = said
        if once and (not waiting or folder in trouble):
            if trouble:
                raise FieldnotesError(" ".join(dict.fromkeys(trouble.values())))
            return
        time.sleep(min(quiet, 1.0) or 0.05)


def _taken_or_not(
    folder: Path, waiting: dict[Path, tuple[tuple[int, int], float]], quiet: float, home: Path | None, by: str | None
) -> Iterator[tuple[Path, FieldnotesError | OSError | None]]:
    """Look into the folder once, and take what is whole: the folder, book and files, with what went wrong with each."""
    from fieldnotes.commands.place import open_home
    from fieldnotes.commands.take import Taker
    from fieldnotes.home import find_home
    from fieldnotes.roster import load_roster

    try:
        whole = whole_files(folder, waiting, quiet, time.monotonic())
    except OSError as error:
        yield folder, error
        return
    yield folder, None
    if not whole:
        return
    try:
        with open_home(home) as (place, book):  # anew each time: a restore may have put another in its place
            for path in whole:
                try:
                    _take_file(Taker(book, load_roster(place.roster)), path, by, place)
                except (FieldnotesError, OSError) as error:
                    yield path, error
                else:
                    yield path, None
            yield place.book, None
    except FieldnotesError as error:
        yield find_home(home).book, error


def _sentence(error: FieldnotesError | OSError) -> str:
    from fieldnotes.intake.files import shown

    if isinstance(error, FieldnotesError):
        return str(error)
    return f"{shown(error.filename) if error.filename else 'The folder'} cannot be used: {error.strerror or error}."


def whole_files(
    folder: Path, waiting: dict[Path, tuple[tuple[int, int], float]], quiet: float, now: float
) -> list[Path]:
    """The files that have lain unchanged for `quiet` seconds; `waiting` keeps what was seen of the others, and when.

    `now` only ever runs forward: the clock on the wall plays no part.
    """
    whole = []
    here = {}
    for path in sorted(folder.iterdir()):
        try:
            state = path.stat()
        except FileNotFoundError:
            continue
        if not path.is_file() or path.name.startswith(".") or path.name.endswith(UNFINISHED):
            continue
        seen = (state.st_size, state.st_mtime_ns)
        since = waiting[path][1] if waiting.get(path, (None, 0.0))[0] == seen else now
        if now - since >= quiet * (1 if state.st_size else PATIENCE) and path in waiting:
            whole.append(path)
        else:
            here[path] = (seen, since)
    waiting.clear()
    waiting.update(here)
    return whole


def _take_file(taker: Taker, path: Path, by: str | None, place: Home) -> None:
    """Take the notes of one file, then move it out of the way."""
    from fieldnotes.commands.place import not_the_book
    from fieldnotes.intake.files import read_bytes

    try:
        before = path.stat()
        data = read_bytes(not_the_book(place, path))
    except FileNotFoundError:
        return
    taker.take_all(_notes_in(path, data, datetime.fromtimestamp(before.st_mtime), by))
    _move(path, "unread" if taker.reasons else "taken", "\n".join(taker.reasons), before.st_mtime_ns)


def _notes_in(
    path: Path, data: bytes, written: datetime, by: str | None
) -> Iterable[Arrival | BadLine | FieldnotesError]:
    from fieldnotes.intake.files import dropped_arrival, line_arrivals

    if path.suffix.lower() == ".jsonl":
        return line_arrivals(data.splitlines(), path.name, None, written, by)
    try:
        return [dropped_arrival(data, path.name, written, by)]
    except FieldnotesError as error:
        return [error]


def _move(path: Path, where: str, reason: str, written: int) -> None:
    """Move a file that was dealt with; one that was changed or moved meanwhile is left to the next look."""
    target_folder = path.parent / where
    target_folder.mkdir(exist_ok=True)
    target = target_folder / path.name
    number = 1
    while target.exists():
        number += 1
        target = target_folder / f"{path.stem}-{number}{path.suffix}"
    try:
        if path.stat().st_mtime_ns != written:
            return
        if reason:
            target.with_name(f"{target.name}.why.txt").write_text(reason + "\n", encoding="utf-8")
        path.rename(target)
    except FileNotFoundError:
        return
