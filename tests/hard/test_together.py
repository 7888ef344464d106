"""Eight writers at once, with readers beside them: nothing lost, nothing doubled, nobody turned away."""

import json
import sqlite3
from contextlib import closing

from harness import FULL, OLD_BOOK

from fieldnotes.book.soundness import faults

WRITERS = 8
EACH = 500 if FULL else 60
COPIES = 5
"""Backups made while the others write."""
SHARED = EACH // 5
"""Notes that every writer brings: they must be stored once."""


def test_many_writers_and_readers(bench):
    home = bench.home("home")
    runs = []
    for writer in range(WRITERS):
        path = bench.folder / f"{writer}.jsonl"
        names = [f"w{writer}-{n}" for n in range(EACH - SHARED)] + [f"all-{n}" for n in range(SHARED)]
        lines = [
            {
                "id": name,
                "text": f"{name}: {n % 300 + 1} had {n % 9} mites",
                "received": "2026-06-01T07:30",
                "by": "Ann",
            }
            for n, name in enumerate(names)
        ]
        path.write_text("".join(json.dumps(line) + "\n" for line in lines))
        runs.append(bench.start(home, "take", "--jsonl", path))
    readers, copies = [], []
    while any(not run.over() for run in runs):
        readers.append(bench.start(home, "morning", "--json", "--on", "2026-06-02"))
        readers[-1].wait()
        if len(copies) < COPIES:
            copies.append(bench.folder / f"copy-{len(copies)}.db")
            readers.append(bench.start(home, "backup", copies[-1]))
            readers[-1].wait()
    assert copies
    for copy in copies:
        assert list(faults(bench.open(copy))) == []
    for run in [*runs, *readers]:
        assert run.status == 0, run.complained
        assert "locked" not in run.printed + run.complained
    book = bench.sound(home)
    names = [name for (name,) in book.db.execute("SELECT given_id FROM notes")]
    assert len(names) == len(set(names)) == WRITERS * (EACH - SHARED) + SHARED
    assert len({r.note_id for r in book.records()}) == len(names)


def test_many_come_at_once_to_a_book_of_an_earlier_version(bench):
    """As after an upgrade: one of them migrates it, the others wait; the copy is of the book as it was."""
    for _ in range(20 if FULL else 5):
        home = bench.old_home("home", OLD_BOOK)
        for run in [bench.start(home, "history") for _ in range(6)]:
            assert run.wait() == 0, run.complained
        (kept,) = home.glob("book-version-*")
        with closing(sqlite3.connect(kept)) as db:
            assert db.execute("SELECT max(version) FROM schema_version").fetchone() == (1,)
        bench.sound(home)


def test_a_restore_while_others_write(bench):
    """What was acknowledged is in the book, or in one of those that were there before; all of them are sound."""
    home, copy = bench.home("home"), bench.folder / "copy.db"
    bench.ok(home, "backup", copy)
    runs = []
    acknowledged = set()

    def let_one_take(number):
        path = bench.folder / f"{number}.txt"
        path.write_text(f"12 had {number} mites")
        runs.append((bench.start(home, "take", path), path.name))

    for number in range(240 if FULL else 40):
        let_one_take(number)
        if number % 4 == 3:
            bench.ok(home, "restore", copy)
        if len(runs) > 6:
            settle_one(runs, acknowledged)
    while runs:
        settle_one(runs, acknowledged)
    there = set()
    for path in [home / "book.db", *home.glob("book-until-*.db")]:
        book = bench.open(path)
        assert list(faults(book)) == []
        there |= {source.rsplit("/", 1)[-1] for (source,) in book.db.execute("SELECT source FROM notes")}
    assert len(list(home.glob("book-until-*.db"))) == (60 if FULL else 10)
    assert acknowledged and acknowledged <= there


def settle_one(runs, acknowledged):
    """Wait for the first of these runs; it took its note, or was told that the book was replaced."""
    run, name = runs.pop(0)
    assert run.wait() == 0 or "was replaced" in run.complained, run.complained
    if f"({name})" in run.printed:
        acknowledged.add(name)
