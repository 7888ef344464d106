"""Printing: readings as JSON, and tables and lines for people."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Sequence
from typing import Any

from fieldnotes.book import Message
from fieldnotes.book.plain_words import describe
from fieldnotes.book.store import Kept
from fieldnotes.intake.files import Arrival
from fieldnotes.records import Reading

SHORT = 6
"""How much of an id people are shown: enough to tell a record from some thousands of others."""


def complain(sentence: str) -> None:
    """One sentence on standard error."""
    print(sentence, file=sys.stderr, flush=True)


def json_line(value: Any) -> str:
    """One line of JSON; lone surrogates, which no encoding can print, stay as escapes."""
    line = json.dumps(value, ensure_ascii=False)
    try:
        line.encode()
    except UnicodeEncodeError:
        line = json.dumps(value)
    return line


def reading_data(reading: Reading, why: bool) -> dict[str, Any]:
    """A reading as it crosses the edge. `why` (slot to rule) is left out unless asked for."""
    data = reading.model_dump()
    if not why:
        for record in data["records"]:
            record.pop("why", None)
    return data


def reading_lines(arrival: Arrival, reading: Reading, messages: Sequence[Message], kept: Kept) -> Iterator[str]:
    """A stored reading for people: a line a record with the start of its id, what was not read, what to settle.

    Of messages that the book had already, out of another note, only the records are shown, and marked so.
    """
    for record, (home, rid) in zip(reading.records, kept.placed, strict=True):
        again = " (in the book already)" if home in kept.known else ""
        yield f"  {rid[:SHORT]}  {describe(record.kind, record.slots, arrival.received, arrival.by)}{again}"
    if not reading.records:
        yield "  (nothing for the book)"
    for left in reading.leftovers:
        if max((n for n, m in enumerate(messages) if m.first <= left.start), default=0) not in kept.known:
            yield f"  not read: {one_line(left.text)}"
    for question in reading.questions:
        if question.about is None or kept.placed[question.about][0] not in kept.known:
            choices = f" [{' / '.join(question.choices)}]" if question.choices else ""
            yield f"  ? {question.ask}{choices}"
    if kept.known:
        what = f"{len(kept.known)} of its {len(messages)} messages" if len(messages) > 1 else "This message"
        have = "were" if len(kept.known) > 1 else "was"
        yield f"  {what} {have} in the book already, and {'count' if have == 'were' else 'counts'} once."
    yield from _alike_lines(kept)


def _alike_lines(kept: Kept) -> Iterator[str]:
    """What to do about words that came twice within a minute, where they made records."""
    for number, minute in kept.alike.items():
        made = [rid[:SHORT] for home, rid in kept.placed if home == number]
        if made:
            yield (
                f"  The same words came at {minute[11:]} too, and count twice. If that is one message on two phones: "
                f"fieldnotes fix {made[0]} --reject" + (f" (and {', '.join(made[1:])})." if made[1:] else ".")
            )


def one_line(text: str) -> str:
    return " ".join(text.split())
