"""From bytes to text: one note a file, or one note a line of JSON."""

from __future__ import annotations

import codecs
import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.thread import messages
from fieldnotes.records import Note

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
LONGEST = 2_000_000
"""Most bytes of one note: more than anybody says or types in a season, and about what can be read while one waits."""
THREAD = "thread from"
FILE = "file "
_HALVES = re.compile("[\ud800-\udfff]")
_CONTROL = re.compile(r"[\x00-\x08\x0e-\x1a\x1c-\x1f\x7f]")


@dataclass(frozen=True)
class Arrival:
    """A note as it came, before anything is read from it.

    `body` holds its bytes and `encoding` how they become `text`. `received` is a local ISO 8601 date
    and time. `told_by` is what tells this note from another of the same sender with the same bytes: of a pasted thread
    that says its own times, the first of them; else the minute, where one was said; else the name of its file, or for
    standard input the day. `source` names the file (or "-"), `given_id` the sender's own name for the note.
    """

    body: bytes
    encoding: str
    received: str
    told_by: str
    by: str | None
    source: str
    given_id: str = ""

    @property
    def text(self) -> str:
        return body_text(self.body, self.encoding)


@dataclass(frozen=True)
class BadLine:
    """A line of a JSON Lines file that holds no note, and why, in one sentence."""

    sentence: str

    def __str__(self) -> str:
        return self.sentence


def body_text(body: bytes, encoding: str) -> str:
    """The text of stored bytes. Lone surrogates, which JSON can carry, survive in "utf-8"."""
    return body.decode(encoding, "surrogatepass" if encoding == "utf-8" else "strict")


def read_bytes(path: Path) -> bytes:
    """The bytes of a file.

    Raises:
        FieldnotesError: no such file, a folder, or one that may not be read.
    """
    try:
        return path.read_bytes()
    except FileNotFoundError:
        raise FieldnotesError(f"There is no file {shown(path)}. Look at the name and try again.") from None
    except OSError as error:
        raise FieldnotesError(f"The file {shown(path)} cannot be read: {error.strerror}.") from None


def shown(path: Path | str) -> str:
    """A file name on one line, whatever is in it."""
    return "".join(c if c.isprintable() else "?" for c in str(path))


def _named(source: str) -> str:
    return "What came in" if source == "-" else shown(source)


def guess_encoding(data: bytes, source: str) -> str:
    """How these bytes are text: by their byte order mark, else UTF-8, UTF-16 without a mark, or Windows Latin.

    Raises:
        FieldnotesError: they are not text in any of these.
    """
    encoding = next((name for mark, name in _MARKS if data.startswith(mark)), None)
    if encoding is None and 0 in data[:4096] and len(data) % 2 == 0:
        # English in UTF-16 has a zero in every other byte: the high one, which tells the byte order.
        sample = data[:4096]
        high, low = sample[1::2].count(0), sample[0::2].count(0)
        if max(high, low) > len(sample) * 0.35 and min(high, low) < len(sample) * 0.05:
            encoding = "utf-16-le" if high > low else "utf-16-be"
    for name in [encoding] if encoding else ["utf-8", "cp1252"]:
        try:
            text = data.decode(name)
        except (UnicodeDecodeError, UnicodeError):
            continue
        if not _CONTROL.search(text):
            return name
    raise FieldnotesError(
        f"{_named(source)} is not text (it looks like a picture, a recording or another program's file)."
    )


def plain_arrival(data: bytes, source: str, on: str | None, now: datetime, by: str | None) -> Arrival:
    """The one note that a whole plain text is.

    Raises:
        FieldnotesError: not text, nothing in it, or `on` is no date.
    """
    _not_too_long(data, _named(source))
    encoding = guess_encoding(data, source)
    if not body_text(data, encoding).strip():
        raise FieldnotesError(f"{_named(source)} is empty: there is no note in it.")
    received = said_time(on) if on else now.isoformat(timespec="minutes")
    told_by = thread_start(body_text(data, encoding), received, by)
    told_by = told_by or (minute(received) if on else _place_or_day(source, received))
    return Arrival(data, encoding, received, told_by, by, source)


def dropped_arrival(data: bytes, source: str, written: datetime, by: str | None) -> Arrival:
    """The note in a file that was dropped somewhere: it is of the time the file was written.

    Dropped twice on one day, under whatever name, the same bytes are the same note.

    Raises:
        FieldnotesError: not text, or nothing in it.
    """
    arrival = plain_arrival(data, source, None, written, by)
    if arrival.told_by.startswith(THREAD):
        return arrival
    return replace(arrival, told_by=arrival.received[:10])


def thread_start(text: str, received: str, by: str | None) -> str | None:
    """What tells a pasted thread whose messages all say when they were sent: the first one's time, not the paste's.

    So the same paste is the same note whenever and under whatever name it comes. None for any other note, and where a
    time in the thread leans on the day of the paste ("8:05 am" alone).
    """
    pasted = datetime.fromisoformat(received)
    later = timedelta(days=1 if pasted.year < 9999 else -1, minutes=-7)
    ways = []
    for moment in (pasted, pasted + later):
        note = Note(id="", text=_HALVES.sub("\ufffd", text), received=moment.isoformat(timespec="minutes"), by=by)
        ways.append([message.received for message in messages(note)])
        if len(ways[0]) < 2:
            return None
    return f"{THREAD} {ways[0][0]}" if ways[0] == ways[1] else None


def minute(received: str) -> str:
    """An ISO date and time to the minute: two phones seldom agree on the second."""
    return received[:16]


def _place_or_day(source: str, received: str) -> str:
    return received[:10] if source == "-" else f"{FILE}{Path(source).name}"


def said_time(words: str) -> str:
    """An ISO date (then noon is meant) or date and time, as `received` is kept.

    Raises:
        FieldnotesError: no such day or hour.
    """
    try:
        if len(words) == 10:
            return f"{date.fromisoformat(words).isoformat()}T12:00"
        moment = datetime.fromisoformat(words)
    except ValueError:
        raise FieldnotesError(f'"{shown(words)}" is not a date: write it like 2026-05-31.') from None
    return moment.isoformat(timespec="seconds" if moment.second else "minutes")


def line_arrivals(
    lines: Iterable[bytes], source: str, on: str | None, now: datetime, by: str | None
) -> Iterator[Arrival | BadLine]:
    """One note for each line of JSON; blank lines are passed over. A bad line does not stop the ones after it."""
    for number, line in enumerate(lines, 1):
        if line.strip():
            try:
                yield _line_arrival(line, number, source, on, now, by)
            except FieldnotesError as error:
                yield BadLine(f"Line {number} of {'what came in' if source == '-' else shown(source)}: {error}")


def _line_arrival(line: bytes, number: int, source: str, on: str | None, now: datetime, by: str | None) -> Arrival:
    data = _json_object(line.removeprefix(codecs.BOM_UTF8) if number == 1 else line)
    text = data.get("text")
    if not isinstance(text, str) or not text.strip():
        raise FieldnotesError('it has no "text", so there is no note in it.')
    sender = data.get("by", by)
    if sender is not None and not isinstance(sender, str):
        raise FieldnotesError('"by" is not a name.')
    when = data.get("received", on)
    if when is not None and not isinstance(when, str):
        raise FieldnotesError('"received" is not a date.')
    body = text.encode("utf-8", "surrogatepass")
    _not_too_long(body, "it")
    received = said_time(when) if when else now.isoformat(timespec="minutes")
    return Arrival(
        body=body,
        encoding="utf-8",
        received=received,
        told_by=thread_start(text, received, sender or None)
        or (minute(received) if when else _place_or_day(source, received)),
        by=sender or None,
        source=source,
        given_id=str(data.get("id", number)),
    )


def _not_too_long(body: bytes, name: str) -> None:
    if len(body) > LONGEST:
        raise FieldnotesError(f"{name} is {len(body) / 1e6:.0f} MB long, which is no note. Split it and try again.")


def _json_object(line: bytes) -> dict[str, Any]:
    try:
        data = json.loads(line)
    except UnicodeDecodeError:
        raise FieldnotesError("it is not UTF-8 text.") from None
    except (ValueError, RecursionError):
        raise FieldnotesError("it is not JSON.") from None
    if not isinstance(data, dict):
        raise FieldnotesError("it is JSON, but not one object with a note in it.")
    return data


def file_lines(path: Path) -> Iterator[bytes]:
    """The lines of a file, one at a time.

    Raises:
        FieldnotesError: no such file, a folder, or one that may not be read.
    """
    try:
        with path.open("rb") as file:
            yield from file
    except FileNotFoundError:
        raise FieldnotesError(f"There is no file {shown(path)}. Look at the name and try again.") from None
    except OSError as error:
        raise FieldnotesError(f"The file {shown(path)} cannot be read: {error.strerror}.") from None
