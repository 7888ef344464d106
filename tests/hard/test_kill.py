"""Kill -9 at random moments: every note that was acknowledged is there, once, and the book is sound."""

import importlib
import json
import shutil

from harness import FULL, OLD_BOOK, ROSTER, timed

taking = importlib.import_module("fieldnotes.commands.take")
ROUNDS = 60 if FULL else 12
"""Kills of each command: 300 in all at full length."""
NOTES = 30


def note_lines():
    return [
        {
            "id": f"note-{n}",
            "text": f"alcohol wash at quarry {n + 1} had {n % 7} mites, bluegoo in {n + 1}",
            "received": f"2026-06-{n % 28 + 1:02d}T{n % 24:02d}:{n % 60:02d}",
            "by": "Ann",
        }
        for n in range(NOTES)
    ]


def write_notes(path):
    path.write_text("".join(json.dumps(line) + "\n" for line in note_lines()))
    return path


def state(book):
    return [(r.id, r.kind, r.slots) for r in book.records()]


def stored(book):
    return sorted(given for (given,) in book.db.execute("SELECT given_id FROM notes"))


def test_take(bench, monkeypatch):
    # Few notes to a transaction, and in half of the rounds processes that read, so that there is much to be cut short.
    monkeypatch.setattr(taking, "AT_ONCE", 7)
    notes = write_notes(bench.folder / "notes.jsonl")
    whole = bench.home("whole")
    within = timed(lambda: bench.ok(whole, "take", "--jsonl", notes))
    want = state(bench.sound(whole))
    for number in range(ROUNDS):
        monkeypatch.setattr(taking, "MANY", (400, 20)[number % 2])
        home = bench.home("home")
        run = bench.killed(home, "take", "--jsonl", notes, within=within)
        acknowledged = [line.split(", ")[-1].rstrip("):") for line in run.printed.splitlines() if line.endswith("):")]
        book = bench.sound(home)
        there = stored(book)
        assert len(there) == len(set(there))
        assert set(acknowledged) <= set(there)
        bench.ok(home, "take", "--jsonl", notes)
        assert state(bench.sound(home)) == want


def test_fix(bench):
    home = bench.home("home")
    bench.ok(home, "take", "--jsonl", write_notes(bench.folder / "notes.jsonl"))
    check = next(r for r in bench.sound(home).records() if r.kind == "mite_check")
    within = timed(lambda: bench.ok(home, "fix", check.id, "--set", "mites=99"))
    old = 99
    for new in range(100, 100 + ROUNDS):
        run = bench.killed(home, "fix", check.id, "--set", f"mites={new}", within=within)
        (now,) = (r.slots["mites"] for r in bench.sound(home).records() if r.id == check.id)
        assert now in ({new} if "Now:" in run.printed else {old, new})
        old = now


def test_reread(bench):
    home = bench.home("home")
    bench.ok(home, "take", "--jsonl", write_notes(bench.folder / "notes.jsonl"))
    before = state(bench.sound(home))
    untouched = bench.folder / "untouched"
    shutil.copytree(home, untouched)
    (home / "roster.toml").write_text(ROSTER + '[words]\nbluegoo = "thymol gel"\n')
    within = timed(lambda: bench.ok(home, "reread", "--yes"))
    after = state(bench.sound(home))
    assert after != before
    for _ in range(ROUNDS):
        shutil.rmtree(home)
        shutil.copytree(untouched, home)
        (home / "roster.toml").write_text(ROSTER + '[words]\nbluegoo = "thymol gel"\n')
        bench.killed(home, "reread", "--yes", within=within)
        bench.sound(home)
        bench.ok(home, "reread", "--yes")
        assert state(bench.sound(home)) == after


def test_watch(bench):
    def drop():
        folder = bench.folder / "drop"
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        for n, line in enumerate(note_lines()):
            (folder / f"{n}.txt").write_text(line["text"])
        (folder / "photo.txt").write_bytes(b"\x89PNG\x00\x00\x00")
        return folder

    watching = ("watch", "--once", "--quiet", "0", "--by", "Ann")
    within = timed(lambda: bench.ok(bench.home("whole"), *watching, drop()))
    for _ in range(ROUNDS):
        home, folder = bench.home("home"), drop()
        bench.killed(home, *watching, folder, within=within)
        done = {p.name for p in (folder / "taken").glob("*")}
        assert done <= set(stored_sources(bench.sound(home)))
        bench.ok(home, *watching, folder)
        there = stored_sources(bench.sound(home))
        assert sorted(there) == sorted(f"{n}.txt" for n in range(NOTES))
        assert {p.name for p in (folder / "taken").iterdir()} == set(there)
        assert {p.name for p in (folder / "unread").iterdir()} == {"photo.txt", "photo.txt.why.txt"}


def stored_sources(book):
    return [source for (source,) in book.db.execute("SELECT source FROM notes")]


def test_migration(bench):
    whole = bench.old_home("whole", OLD_BOOK)
    within = timed(lambda: bench.ok(whole, "check"))
    want = state(bench.sound(whole))
    for _ in range(ROUNDS):
        home = bench.old_home("home", OLD_BOOK)
        bench.killed(home, "check", within=within)
        assert state(bench.sound(home)) == want
        for copy in home.glob("book-version-1.db"):
            assert state(bench.open(copy)) == want


def test_restore(bench):
    home, copy = bench.home("home"), bench.folder / "copy.db"
    bench.ok(home, "take", "--jsonl", write_notes(bench.folder / "notes.jsonl"))
    want = state(bench.sound(home))
    bench.ok(home, "backup", copy)
    more = bench.folder / "more.txt"
    more.write_text("washed 12 at quarry, 8 mites")
    within = timed(lambda: bench.ok(home, "restore", copy))
    for number in range(max(ROUNDS // 3, 5)):
        bench.ok(home, "take", "--on", f"2026-07-{number % 28 + 1:02d}", more)
        before = state(bench.sound(home))
        bench.killed(home, "restore", copy, within=within)
        now = state(bench.sound(home))
        assert now in (before, want)
        if now == want:
            assert before in [state(bench.open(kept)) for kept in home.glob("book-until-*.db")]
        for kept in home.glob("book-until-*.db"):
            kept.unlink()
