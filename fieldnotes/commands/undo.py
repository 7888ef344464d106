"""`fieldnotes undo`: take back the last act."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption

if TYPE_CHECKING:
    from fieldnotes.book.acts import Entry


def undo(home: HomeOption = None) -> None:
    """Take back what the last command did to the book. The history keeps both."""
    from fieldnotes.book import acts
    from fieldnotes.commands.place import open_home
    from fieldnotes.commands.roster_edits import forget_colonies, forget_word

    with open_home(home) as (place, book):
        entries = acts.last_batch(book)
        if not entries:
            print("There is nothing to undo.")
            return
        acts.undo(book, entries, moment.stamp(), moment.user())
        for entry in entries:
            if entry.act == "answer" and "roster_word" in entry.data:
                forget_word(place.roster, entry.data["roster_word"], entry.data["answer"])
            if entry.act == "answer" and "colonies" in entry.data:
                forget_colonies(place.roster, entry.data["yard"], entry.data["colonies"])
        print(f"Undone: {_said(entries)} ({entries[-1].at}).")


def _said(entries: list[Entry]) -> str:
    words = {
        "take": "taken note", "reread": "note read again", "fix": "mended record", "keep": "kept record",
        "reject": "rejected record", "answer": "answer", "close": "thing done",
    }  # fmt: skip
    counts = Counter(words[entry.act] for entry in entries)
    return ", ".join(f"{number} {_many(thing) if number > 1 else thing}" for thing, number in counts.items())


def _many(thing: str) -> str:
    """The plural: "taken notes", "notes read again", "things done"."""
    head, blank, rest = thing.partition(" ")
    return f"{head}s{blank}{rest}" if head in ("note", "thing") else f"{thing}s"
