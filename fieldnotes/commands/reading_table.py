"""A reading as a table for people."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fieldnotes.book.plain_words import say_aside, say_day, say_what, say_where
from fieldnotes.commands.output import one_line
from fieldnotes.intake.files import Arrival
from fieldnotes.records import Reading


def print_reading(arrival: Arrival, reading: Reading) -> None:
    """Print the note's day and sender, a row a record, what was not read and what must be settled."""
    console = Console(highlight=False)
    print_heading(console, arrival)
    if reading.records:
        table = Table(show_edge=False, pad_edge=False)
        for heading in ("Where", "What", "When"):
            table.add_column(heading, overflow="fold")
        for record in reading.records:
            row = [
                say_where(record.slots),
                say_what(record.kind, record.slots),
                say_aside(record.slots, arrival.received, arrival.by),
            ]
            table.add_row(*map(Text, row))
        console.print(table)
    else:
        console.print("Nothing for the book.")
    print_asides(console, reading)


def print_heading(console: Console, arrival: Arrival) -> None:
    """Print whose note it is, and of which day."""
    sender = f", {arrival.by}" if arrival.by else ""
    console.print(Text(f"Note of {say_day(arrival.received)}{sender}", style="bold"))


def print_asides(console: Console, reading: Reading) -> None:
    """Print what was not read and what must be settled."""
    for left in reading.leftovers:
        console.print(Text(f"Not read: {one_line(left.text)}"))
    for question in reading.questions:
        choices = f" [{' / '.join(question.choices)}]" if question.choices else ""
        console.print(Text(f"To settle: {question.ask}{choices}"))
