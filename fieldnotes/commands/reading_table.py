"""A reading as a table for people."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fieldnotes.book.plain_words import say_aside, say_day, say_what, say_where
from fieldnotes.commands.output import one_line
from fieldnotes.intake.files import Arrival
from fieldnotes.records import Reading


def print_reading(arrival: Arrival, reading: Reading, why: bool) -> None:
    """Print the note's day and sender, a row a record, what was not read and what must be settled."""
    console = Console(highlight=False)
    sender = f", {arrival.by}" if arrival.by else ""
    console.print(Text(f"Note of {say_day(arrival.received)}{sender}", style="bold"))
    if reading.records:
        table = Table(show_edge=False, pad_edge=False)
        for heading in ("Where", "What", "When", *(["Why"] if why else [])):
            table.add_column(heading, overflow="fold")
        for record in reading.records:
            row = [
                say_where(record.slots),
                say_what(record.kind, record.slots),
                say_aside(record.slots, arrival.received, arrival.by),
            ]
            if why:
                row.append("\n".join(f"{slot}: {rule}" for slot, rule in record.why.items()))
            table.add_row(*map(Text, row))
        console.print(table)
    else:
        console.print("Nothing for the book.")
    for left in reading.leftovers:
        console.print(Text(f"Not read: {one_line(left.text)}"))
    for question in reading.questions:
        choices = f" [{' / '.join(question.choices)}]" if question.choices else ""
        console.print(Text(f"To settle: {question.ask}{choices}"))
