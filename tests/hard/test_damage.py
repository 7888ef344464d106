"""A damaged book, a full disk, a folder without rights, a clock that runs backwards: named, and nothing lost."""

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest
import typer
from harness import AT, FULL

import fieldnotes
from fieldnotes.book import Message, open_book
from fieldnotes.intake.files import Arrival
from fieldnotes.records import Reading

FLIPS = 400 if FULL else 60
COMMANDS = (
    ("check",),
    ("morning", "--on", "2026-06-02"),
    ("find", "mites"),
    ("settle", "--list"),
    ("history",),
    ("history", "12"),
    ("take", "{note}"),
)


@pytest.fixture
def lived_in(bench):
    home = bench.home("home")
    lines = [
        {"id": f"n{n}", "text": f"{n + 1} had {n % 9} mites", "received": "2026-06-01T07:30", "by": "Ann"}
        for n in range(80)
    ]
    (bench.folder / "notes.jsonl").write_text("".join(json.dumps(line) + "\n" for line in lines))
    (bench.folder / "one.txt").write_text("17 had 3 mites")
    bench.ok(home, "take", "--jsonl", bench.folder / "notes.jsonl")
    return home


def hurt(bench, home, data):
    """Every command on a book with these bytes: it works, or leaves one sentence and status 2."""
    refused = 0
    for command in COMMANDS:
        (home / "book.db").write_bytes(data)
        for ending in ("-wal", "-shm"):
            (home / f"book.db{ending}").unlink(missing_ok=True)
        run = bench.start(home, *(word.format(note=bench.folder / "one.txt") for word in command))
        status = run.wait()
        assert status in (0, 2), (command, status, run.complained)
        assert "Traceback" not in run.complained, run.complained
        if status == 2:
            refused += 1
            assert run.complained.strip()
            assert "restore" in run.complained or "home" in run.complained or "newer" in run.complained, run.complained
    return refused


def test_a_truncated_book(bench, lived_in):
    data = (lived_in / "book.db").read_bytes()
    for _ in range(FLIPS // 6):
        assert hurt(bench, lived_in, data[: bench.chance.randrange(len(data))]) > 0


def test_a_bit_flipped_book(bench, lived_in):
    data = (lived_in / "book.db").read_bytes()
    for _ in range(FLIPS // 3):
        flipped = bytearray(data)
        flipped[bench.chance.randrange(len(data))] ^= 1 << bench.chance.randrange(8)
        hurt(bench, lived_in, bytes(flipped))


def test_a_flipped_bit_in_a_note_is_found(bench, lived_in):
    data = (lived_in / "book.db").read_bytes()
    place = data.index(b"17 had 7 mites")
    flipped = bytearray(data)
    flipped[place] ^= 1
    (lived_in / "book.db").write_bytes(flipped)
    run = bench.start(lived_in, "check")
    assert run.wait() == 2
    assert "another hash" in run.printed or "damaged" in run.printed
    assert "restore" in run.complained


def test_the_way_back(bench, lived_in):
    want = bench.ok(lived_in, "morning", "--on", "2026-06-02")
    bench.ok(lived_in, "backup", bench.folder / "copy.db")
    (lived_in / "book.db").write_bytes(b"SQLite format 3\x00" + b"\x00" * 5000)
    assert bench.start(lived_in, "morning").wait() == 2
    bench.ok(lived_in, "restore", bench.folder / "copy.db")
    assert bench.ok(lived_in, "morning", "--on", "2026-06-02") == want
    assert len(list(lived_in.glob("book-until-*.db"))) == 1


@pytest.fixture
def small_disk(bench):
    """A file system of 3 MB."""
    place = bench.folder / "small"
    place.mkdir()
    done = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=3m", "tmpfs", place], capture_output=True, check=False)
    if done.returncode:
        pytest.skip("a file system cannot be mounted here")
    yield place
    subprocess.run(["umount", "-l", place], check=True)


def test_a_full_disk(bench, small_disk):
    home = small_disk / "home"
    shutil.copytree(bench.home("home"), home)
    lines = [
        {"id": f"n{n}", "text": f"{n + 1} had {n % 9} mites " + "the gate was painted blue again " * 45, "by": "Ann",
         "received": "2026-06-01T07:30"}
        for n in range(400)
    ]  # fmt: skip
    (bench.folder / "notes.jsonl").write_text("".join(json.dumps(line) + "\n" for line in lines))
    run = bench.start(home, "take", "--jsonl", bench.folder / "notes.jsonl")
    assert run.wait() == 2
    assert "full" in run.complained or "disk" in run.complained
    assert "Traceback" not in run.complained
    acknowledged = [line for line in run.printed.splitlines() if line.endswith("):")]
    kept = bench.folder / "kept"
    shutil.copytree(home, kept)
    book = bench.sound(kept)
    assert len(acknowledged) <= book.db.execute("SELECT count(*) FROM notes").fetchone()[0]
    assert acknowledged
    bench.ok(kept, "take", "--jsonl", bench.folder / "notes.jsonl")
    assert len({r.note_id for r in bench.sound(kept).records()}) == len(lines)


def readable_by_nobody(file: str) -> bool:
    """Whether every folder on the way to an installed module may be entered by anybody."""
    return all(folder.stat().st_mode & 0o005 == 0o005 for folder in Path(file).resolve().parents)


def as_nobody():
    os.setgid(65534)
    os.setuid(65534)


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can become somebody without rights")
@pytest.mark.skipif(
    not all(readable_by_nobody(m.__file__) for m in (os, fieldnotes, typer)),
    reason="the packages stand in a folder that somebody without rights cannot read",
)
def test_a_folder_that_may_not_be_written(bench, lived_in):
    for folder in (bench.folder, *bench.folder.parents):
        if folder.stat().st_uid == os.geteuid() and folder != folder.parent:
            folder.chmod(folder.stat().st_mode | 0o055)
    lived_in.chmod(0o555)
    for name in ("book.db", "roster.toml"):
        (lived_in / name).chmod(0o444)
    for command in (("take", bench.folder / "one.txt"), ("undo",)):
        run = bench.start(lived_in, *command, before=as_nobody)
        assert run.wait() == 2, run.complained
        assert "Traceback" not in run.complained
        assert "cannot be written" in run.complained
    run = bench.start(lived_in, "morning", "--on", "2026-06-02", before=as_nobody)
    assert run.wait() == 0, run.complained
    assert "Two Ponds" in run.printed


def test_a_clock_set_back(bench, lived_in):
    book = open_book(lived_in / "book.db", AT)
    for n, at in enumerate(["2030-01-01T00:00:00+00:00", "1999-01-01T00:00:00+00:00"]):
        note = Arrival(f"note {n}".encode(), "utf-8", "2026-06-01T07:30", str(n), "Ann", "-")
        taken = book.add_note(note, at, "ann")
        whole = [Message(0, len(note.text), note.received, "Ann", str(n))]
        book.add_reading(taken.note_id, note.text, Reading(id=""), whole, "test")
    book.close()
    assert "1999" in bench.ok(lived_in, "undo")
    assert "2030" in bench.ok(lived_in, "undo")
    bench.sound(lived_in)
