"""The digest as plain text and on a terminal."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import TYPE_CHECKING

from fieldnotes.digest.layout import morning_lines
from fieldnotes.records import Due

if TYPE_CHECKING:
    from rich.console import Console


def morning_text(items: Sequence[Due], day: datetime.date, outfit: str = "") -> str:
    """The digest as plain text: no colour, a fixed width, the same bytes for the same items and day."""
    return "\n".join(line.text.rstrip() for line in morning_lines(items, day, outfit)) + "\n"


def print_morning(items: Sequence[Due], day: datetime.date, outfit: str, console: Console) -> None:
    """The digest on `console`: in colour on a terminal, else the very bytes of `morning_text`."""
    if not console.is_terminal:
        console.file.write(morning_text(items, day, outfit))
        return
    from rich.text import Text

    for line in morning_lines(items, day, outfit):
        console.print(Text(line.text.rstrip(), style=line.style), soft_wrap=True, highlight=False)
