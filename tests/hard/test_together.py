"""Eight writers at once, with readers beside them: nothing lost, nothing doubled, nobody turned away."""

import json

from harness import FULL

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
