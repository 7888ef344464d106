"""`fieldnotes demo`: the whole walk on the sample notes, in a throw-away home."""

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path

DAY = date(2026, 9, 9)
"""The morning of the demo: inside the season of the sample notes, so that it is the same whenever it is run."""
SHOWN = "31-bend-out"
"""The note that is shown with its records."""


def demo() -> None:
    """Take the sample notes into a throw-away home; show one note, its records, and the digest of a morning."""
    from fieldnotes.book import create_book
    from fieldnotes.commands import moment, morning
    from fieldnotes.commands.reading import messages_of, read_arrival, reader_mark
    from fieldnotes.commands.reading_table import print_reading
    from fieldnotes.datafiles import data_folder
    from fieldnotes.intake.files import Arrival, file_lines, line_arrivals
    from fieldnotes.roster import load_roster

    samples = data_folder("sample_notes")
    roster = load_roster(samples / "roster.toml")
    with tempfile.TemporaryDirectory(prefix="fieldnotes-demo-") as folder:
        book = create_book(Path(folder) / "book.db", moment.stamp())
        try:
            taken = 0
            for arrival in line_arrivals(file_lines(samples / "notes.jsonl"), "notes.jsonl", None, moment.now(), None):
                assert isinstance(arrival, Arrival)
                note_id = book.add_note(arrival, moment.stamp(), None).note_id
                reading = read_arrival(arrival, roster)
                book.add_reading(note_id, arrival.text, reading, messages_of(arrival, roster), reader_mark())
                taken += 1
                if arrival.given_id == SHOWN:
                    shown = arrival, reading
            print(f"{taken} sample notes of {roster.outfit} were taken. One of them:\n\n  {shown[0].text}\n")
            print_reading(*shown)
            print("\nThe digest of one morning:\n")
            morning.show(book, roster, DAY, as_json=False)
        finally:
            book.close()
