"""`fieldnotes watch`: take the text files that a phone or a sync service drops into a folder."""

from __future__ import annotations

import hashlib
import os
import time
from dataclasses import dataclass, field
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands.options import ByOption, HomeOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from fieldnotes.book import Book
    from fieldnotes.commands.take import Taker
    from fieldnotes.home import Home
    from fieldnotes.intake.files import Arrival, BadLine

UNFINISHED = (".part", ".partial", ".tmp", ".crdownload", ".download", "~")
"""Endings under which programs write files that they rename when whole."""
PATIENCE = 5
"""An empty file is likely one whose words are still to come: it is given this many times as long."""
LINGER = 120.0
"""Seconds for which a file that was moved is looked at: who writes slowly may go on writing to it, there."""
WHY = ".why.txt"
"""Put behind the name of a file that could not be taken, for the one that says why."""
LONGEST_NAME = 255
"""Bytes of a file's name, on most systems."""
LONGEST_ENDING = 20


@dataclass(frozen=True)
class Moved:
    """A file that was dealt with: where it is now, where it was, and its bytes, by number and hash.

    `note` is what it was taken as, if it was new.
    """

    now: Path
    was: Path
    size: int
    digest: str
    note: str | None
    at: float


@dataclass
class Seen:
    """What a watch remembers: files that may not be whole yet, files moved lately, and those of them that grew."""

    waiting: dict[Path, tuple[tuple[int, int], float]] = field(default_factory=dict)
    moved: list[Moved] = field(default_factory=list)
    grown: list[Moved] = field(default_factory=list)


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
    seen = Seen()
    trouble: dict[Path, str] = {}
    while True:
        for path, error in _taken_or_not(folder, seen, quiet, home, by):
            if error is None:
                trouble.pop(path, None)
                continue
            # The roster is being edited, or the disk is full: the file stays where it is, and gets another turn.
            said = _sentence(error)
            if not once and said not in trouble.values():
                complain(f"{said} It is tried again and again until it works.")
            trouble[path] = said
        if once and (not seen.waiting or folder in trouble):
            if trouble:
                raise FieldnotesError(" ".join(dict.fromkeys(trouble.values())))
            return
        time.sleep(min(quiet, 1.0) or 0.05)


def _taken_or_not(
    folder: Path, seen: Seen, quiet: float, home: Path | None, by: str | None
) -> Iterator[tuple[Path, FieldnotesError | OSError | None]]:
    """Look into the folder once, and take what is whole: the folder, book and files, with what went wrong with each."""
    from fieldnotes.commands.place import open_home
    from fieldnotes.commands.take import Taker
    from fieldnotes.home import find_home
    from fieldnotes.roster import load_roster

    try:
        _put_back(seen, time.monotonic())
        whole = whole_files(folder, seen.waiting, quiet, time.monotonic())
    except OSError as error:
        yield folder, error
        return
    yield folder, None
    if not whole and not seen.grown:
        return
    try:
        with open_home(home) as (place, book):  # anew each time: a restore may have put another in its place
            while seen.grown:
                _take_back(book, seen.grown[0])
                seen.grown.pop(0)
            for path in whole:
                try:
                    _take_file(Taker(book, load_roster(place.roster)), path, by, place, seen.moved)
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


def _put_back(seen: Seen, now: float) -> None:
    """Move files back into the folder that somebody went on writing to after they were taken for whole."""
    for one in list(seen.moved):
        try:
            size = one.now.stat().st_size
        except OSError:
            size = -1
        if size < 0 or now - one.at > LINGER:
            seen.moved.remove(one)
        elif size > one.size:
            with one.now.open("rb") as file:
                begins_so = _digest(file.read(one.size)) == one.digest
            seen.moved.remove(one)
            if begins_so:
                one.now.rename(next(name for name in _names(one.was.parent, one.was) if not name.exists()))
                one.now.with_name(f"{one.now.name}{WHY}").unlink(missing_ok=True)
                seen.grown.append(one)


def _take_back(book: Book, half: Moved) -> None:
    """Undo the taking of half a file: it is no note of its own."""
    from fieldnotes.book import acts
    from fieldnotes.commands import moment
    from fieldnotes.commands.output import complain
    from fieldnotes.intake.files import shown

    undone = half.note is not None and acts.take_back(book, half.note, moment.stamp(), moment.user())
    complain(
        f"{shown(half.was.name)} was still being written when it was dealt with"
        f"{', which is undone' if undone else ''}: it is taken again when it is whole."
    )


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _take_file(taker: Taker, path: Path, by: str | None, place: Home, moved: list[Moved]) -> None:
    """Take the notes of one file, then move it out of the way."""
    from fieldnotes.commands.place import not_the_book
    from fieldnotes.intake.files import read_bytes

    try:
        before = path.stat()
        data = read_bytes(not_the_book(place, path))
    except FileNotFoundError:
        return
    taker.take_all(_notes_in(path, data, datetime.fromtimestamp(before.st_mtime), by))
    now = _move(path, "unread" if taker.reasons else "taken", "\n".join(taker.reasons), before.st_mtime_ns)
    if now:
        # Of a file of many notes those that were whole stay: they are the same when it is taken again.
        note = next(iter(taker.queued), None) if not _is_of_many(path) else None
        moved.append(Moved(now, path, len(data), _digest(data), note, time.monotonic()))


def _is_of_many(path: Path) -> bool:
    return path.suffix.lower() == ".jsonl"


def _notes_in(
    path: Path, data: bytes, written: datetime, by: str | None
) -> Iterable[Arrival | BadLine | FieldnotesError]:
    from fieldnotes.intake.files import dropped_arrival, line_arrivals

    if _is_of_many(path):
        return line_arrivals(data.splitlines(), path.name, None, written, by)
    try:
        return [dropped_arrival(data, path.name, written, by)]
    except FieldnotesError as error:
        return [error]


def _move(path: Path, where: str, reason: str, written: int) -> Path | None:
    """Move a file that was dealt with, and say where to; one changed or moved meanwhile is left to the next look."""
    target_folder = path.parent / where
    target_folder.mkdir(exist_ok=True)
    why = reason + "\n"
    for target in _names(target_folder, path):
        beside = target.with_name(f"{target.name}{WHY}")
        if not target.exists() and (not reason or not beside.exists() or _says(beside, why)):
            break
    try:
        if path.stat().st_mtime_ns != written:
            return None
        if reason:
            beside.write_text(why, encoding="utf-8")
        path.rename(target)
    except FileNotFoundError:
        return None
    return target


def _names(folder: Path, path: Path) -> Iterator[Path]:
    """Names for the file in that folder: its own, then with a number; cut, where they would be too long with `WHY`."""
    ending = path.suffix if len(path.suffix) <= LONGEST_ENDING else ""
    for number in count(1):
        rest = ending if number == 1 else f"-{number}{ending}"
        stem = path.name.removesuffix(ending)
        while len(os.fsencode(f"{stem}{rest}{WHY}")) > LONGEST_NAME:
            stem = stem[:-1]
        yield folder / f"{stem}{rest}"


def _says(path: Path, words: str) -> bool:
    """Whether a file holds just these words, as one does that was written before this run, which was cut short."""
    try:
        return path.is_file() and path.read_bytes() == words.encode()
    except OSError:
        return False
