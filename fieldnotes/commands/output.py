"""Printing: readings as JSON, and tables and lines for people."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Sequence
from typing import Any

from fieldnotes.book.plain_words import describe
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


def reading_lines(arrival: Arrival, reading: Reading, ids: Sequence[str]) -> Iterator[str]:
    """A stored reading for people: a line a record with the start of its id, what was not read, what to settle."""
    for record, rid in zip(reading.records, ids, strict=True):
        yield f"  {rid[:SHORT]}  {describe(record.kind, record.slots, arrival.received, arrival.by)}"
    if not reading.records:
        yield "  (nothing for the book)"
    for left in reading.leftovers:
        yield f"  not read: {one_line(left.text)}"
    for question in reading.questions:
        choices = f" [{' / '.join(question.choices)}]" if question.choices else ""
        yield f"  ? {question.ask}{choices}"


def one_line(text: str) -> str:
    return " ".join(text.split())
