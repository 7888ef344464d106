"""What keeping notes costs beside reading them: `take` of many notes against reading them alone plus bulk inserts.

    python tests/bench/take_speed.py [NOTES]

All in one process and one run. The bulk inserts are of the same rows, by sqlite-utils, into an empty file.
"""

import contextlib
import io
import json
import random
import sys
import tempfile
import time
from pathlib import Path

import sqlite_utils

from fieldnotes.book import create_book
from fieldnotes.book.exchange import TABLES, rows_of
from fieldnotes.commands.reading import read_arrival
from fieldnotes.commands.take import AT_ONCE, Taker
from fieldnotes.intake.files import Arrival
from fieldnotes.roster import load_roster

SAMPLES = Path(__file__).parents[2] / "sample_notes"
AT = "2026-06-01T08:00:00+00:00"


def many_notes(count: int) -> list[Arrival]:
    """Notes like the sample notes, each of a time of its own."""
    chance = random.Random(1)
    lines = [json.loads(line) for line in (SAMPLES / "notes.jsonl").read_text(encoding="utf-8").splitlines()]
    notes = []
    for n in range(count):
        line = chance.choice(lines)
        when = f"2026-{chance.randrange(3, 11):02d}-{chance.randrange(1, 29):02d}T{n // 60 % 24:02d}:{n % 60:02d}"
        text = f"{line['text']} {n}"
        notes.append(Arrival(text.encode(), "utf-8", when, f"{when} {n}", line["by"], "notes.jsonl", str(n)))
    return notes


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    roster = load_roster(SAMPLES / "roster.toml")
    notes = many_notes(count)
    for note in notes[:50]:
        read_arrival(note, roster)
    with tempfile.TemporaryDirectory() as folder:
        began = time.perf_counter()
        for note in notes:
            read_arrival(note, roster)
        reading = time.perf_counter() - began

        book = create_book(Path(folder) / "book.db", AT)
        taker = Taker(book, roster)
        began = time.perf_counter()
        with contextlib.redirect_stdout(io.StringIO()):
            taker.take_all(notes, AT_ONCE)
        taking = time.perf_counter() - began

        rows = {table: list(rows_of(book, table)) for table in TABLES}
        began = time.perf_counter()
        bulk = sqlite_utils.Database(Path(folder) / "bulk.db")
        for table, held in rows.items():
            bulk.table(table).insert_all(held, batch_size=1000)
        inserting = time.perf_counter() - began
    print(f"{count} notes: take {taking:.1f} s; reading alone {reading:.1f} s, bulk inserts {inserting:.1f} s")
    print(f"  take is {taking / (reading + inserting):.2f} times reading plus inserts")


if __name__ == "__main__":
    main()
