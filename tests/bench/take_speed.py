"""What keeping notes costs beside reading them: `take` of many notes against reading them alone plus bulk inserts.

    python tests/bench/take_speed.py [NOTES]

All in one run, in blocks that take turns, so that a busy machine slows each of them alike: a block of notes is read
alone, in this process; taken into the book; and the rows that this made are inserted in bulk, by sqlite-utils, into a
file of its own. Given are the ratio of the time on the clock, and that of the processors' time (children's too), which
other work on the machine does not stretch as much, but in which waiting for the disk does not count.
"""

import contextlib
import io
import json
import multiprocessing
import random
import resource
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
BLOCK = 1000


class Watch:
    """Adds up the time on the clock, and the processors' time, of what is done under it."""

    def __init__(self) -> None:
        self.wall = self.work = 0.0

    def __enter__(self) -> None:
        self._wall, self._work = time.perf_counter(), worked()

    def __exit__(self, *_: object) -> None:
        self.wall += time.perf_counter() - self._wall
        self.work += worked() - self._work


def worked() -> float:
    """Seconds of processor time of this process and of its children that have ended."""
    both = [resource.getrusage(whose) for whose in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(use.ru_utime + use.ru_stime for use in both)


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
    reading, taking, inserting = Watch(), Watch(), Watch()
    seen = dict.fromkeys(TABLES, 0)
    with tempfile.TemporaryDirectory() as folder:
        book = create_book(Path(folder) / "book.db", AT)
        bulk = sqlite_utils.Database(Path(folder) / "bulk.db")
        for start in range(0, count, BLOCK):
            block = notes[start : start + BLOCK]
            with reading:
                for note in block:
                    read_arrival(note, roster)
            with taking, contextlib.redirect_stdout(io.StringIO()):
                Taker(book, roster).take_all(block, AT_ONCE)
                for child in multiprocessing.active_children():
                    child.join()
            rows = {table: list(rows_of(book, table)) for table in TABLES}
            with inserting:
                for table in TABLES:
                    bulk.table(table).insert_all(rows[table][seen[table] :], batch_size=1000)
            seen = {table: len(rows[table]) for table in TABLES}
    print(f"{count} notes, in blocks of {BLOCK}; {seen['records']} records")
    for name, of in (("on the clock", "wall"), ("processors", "work")):
        take, read, insert = (getattr(watch, of) for watch in (taking, reading, inserting))
        print(f"  {name}: take {take:.1f} s; reading alone {read:.1f} s, bulk inserts {insert:.1f} s: ", end="")
        print(f"take is {take / (read + insert):.2f} times reading plus inserts")


if __name__ == "__main__":
    main()
