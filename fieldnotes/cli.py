"""The command line: one command a file in `fieldnotes.commands`; bad input leaves one sentence and status 2."""

from __future__ import annotations

import contextlib
import io
import os
import sys
from typing import TextIO

import typer

from fieldnotes.commands.demo import demo
from fieldnotes.commands.done import done
from fieldnotes.commands.exchange import export, import_
from fieldnotes.commands.find import find
from fieldnotes.commands.fix import fix
from fieldnotes.commands.history import history
from fieldnotes.commands.morning import morning
from fieldnotes.commands.read import read
from fieldnotes.commands.reports import register, worked
from fieldnotes.commands.reread import reread
from fieldnotes.commands.safekeeping import backup, check, restore
from fieldnotes.commands.settle import settle
from fieldnotes.commands.setup import setup
from fieldnotes.commands.take import take
from fieldnotes.commands.undo import undo
from fieldnotes.commands.watch import watch
from fieldnotes.errors import FieldnotesError

app = typer.Typer(
    help="Say or text what was done in the yard; know every morning what is overdue.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
COMMANDS = {
    "Every day": (setup, read, take, morning, settle, done, watch),
    "Putting right": (fix, undo, reread),
    "Looking up": (find, history, worked, register),
    "Keeping safe": (check, backup, restore, export, import_),
    "Trying out": (demo,),
}
for panel, commands in COMMANDS.items():
    for command in commands:
        app.command(command.__name__.rstrip("_"), rich_help_panel=panel)(command)


def main() -> None:
    """The console script."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            # Notes hold any text there is; printing must not fail on what the terminal cannot show.
            stream.reconfigure(errors="backslashreplace")
    try:
        try:
            app()
        finally:
            sys.stdout.flush()
    except FieldnotesError as error:
        print(f"fieldnotes: {error}", file=sys.stderr)
        sys.exit(2)
    except OSError as error:
        _hush(sys.stdout)
        if not isinstance(error, BrokenPipeError):
            where = f" ({error.filename})" if error.filename else ""
            print(f"fieldnotes: The system refused: {error.strerror or error}{where}.", file=sys.stderr)
        sys.exit(2)


def _hush(stream: TextIO) -> None:
    """Send the rest of what stands in a stream nowhere: nobody takes it, and Python would complain at the end."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
