"""A damaged book, a full disk, a folder without rights, a clock that runs backwards: named, and nothing lost."""

import ctypes
import importlib
import json
import os
import resource
import shutil
import struct
import subprocess
import sys
from datetime import datetime

import pytest
from harness import FULL

from fieldnotes.commands import moment

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
    """A file system of 8 MB."""
    place = bench.folder / "small"
    place.mkdir()
    done = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=8m", "tmpfs", place], capture_output=True, check=False)
    if done.returncode:
        pytest.skip("a file system cannot be mounted here")
    yield place
    subprocess.run(["umount", "-l", place], check=True)


def test_a_full_disk(bench, small_disk, monkeypatch):
    monkeypatch.setattr(importlib.import_module("fieldnotes.commands.take"), "AT_ONCE", 10)
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


def short_files(most):
    """Called in a process, it lets no file there grow beyond so many bytes, as a full disk or a quota does."""
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))


def long_notes(path, count):
    lines = [
        {"id": f"n{n}", "text": f"{n + 1} had {n % 9} mites, bluegoo in {n + 1}" + " the gate was painted blue" * 30,
         "by": "Ann", "received": "2026-06-01T07:30"}
        for n in range(count)
    ]  # fmt: skip
    path.write_text("".join(json.dumps(line) + "\n" for line in lines))
    return path


def test_taking_that_is_cut_short_where_the_file_may_not_grow(bench, monkeypatch):
    monkeypatch.setattr(importlib.import_module("fieldnotes.commands.take"), "AT_ONCE", 10)
    home, notes = bench.home("home"), long_notes(bench.folder / "notes.jsonl", 300)
    run = bench.start(home, "take", "--jsonl", notes, before=short_files(2_000_000))
    assert run.wait() == 2
    assert "cannot be written" in run.complained
    acknowledged = [line for line in run.printed.splitlines() if line.endswith("):")]
    there = bench.sound(home).db.execute("SELECT count(*) FROM notes").fetchone()[0]
    assert 0 < len(acknowledged) <= there < 300
    bench.ok(home, "take", "--jsonl", notes)
    assert len({r.note_id for r in bench.sound(home).records()}) == 300


def test_all_that_writes_where_files_may_not_grow(bench):
    """Mending, reading again, undoing, copying, handing out: one sentence, and nothing changed or left half done."""
    home, notes = bench.home("home"), long_notes(bench.folder / "notes.jsonl", 12)
    bench.ok(home, "take", "--jsonl", notes)
    (home / "roster.toml").write_text((home / "roster.toml").read_text() + '[words]\nbluegoo = "thymol gel"\n')
    records = [r.model_dump() for r in bench.sound(home).records()]
    for command in (
        ("take", bench.folder / "notes.jsonl"),
        ("fix", records[0]["id"], "--set", "mites=77"),
        ("fix", records[0]["id"], "--reject"),
        ("reread", "--yes"),
        ("undo",),
        ("backup", bench.folder / "copy.db"),
        ("export", bench.folder / "out.jsonl"),
        ("export", bench.folder / "tables", "--format", "csv"),
        ("export", bench.folder / "tables", "--format", "parquet"),
        ("restore", home / "book.db"),
    ):
        run = bench.start(home, *command, before=short_files(6_000))
        assert run.wait() == 2, (command, run.printed)
        assert run.complained.startswith("fieldnotes: "), run.complained
        assert "cannot be" in run.complained, (command, run.complained)
        assert [r.model_dump() for r in bench.sound(home).records()] == records
    assert not any((bench.folder / name).exists() for name in ("copy.db", "out.jsonl", "tables"))
    assert sorted(p.name for p in home.iterdir() if "book.db-" not in p.name) == ["book.db", "roster.toml"]
    bench.ok(home, "reread", "--yes")
    bench.ok(home, "backup", bench.folder / "copy.db")


def without_rights():
    """From now on the mode of a file holds for this process too, though it be root's."""
    if os.geteuid() == 0:
        head = struct.pack("=Ii", 0x20080522, 0)  # _LINUX_CAPABILITY_VERSION_3, this process; see capset(2)
        if ctypes.CDLL(None, use_errno=True).capset(head, bytes(24)):
            raise OSError(ctypes.get_errno(), "capset")


@pytest.mark.skipif(not sys.platform.startswith("linux") and os.name != "posix", reason="modes are another matter here")
@pytest.mark.skipif(
    os.name == "posix" and os.geteuid() == 0 and not sys.platform.startswith("linux"),
    reason="root cannot give its rights up here",
)
def test_a_folder_that_may_not_be_written(bench, lived_in):
    lived_in.chmod(0o555)
    for name in ("book.db", "roster.toml"):
        (lived_in / name).chmod(0o444)
    before = {path: path.read_bytes() for path in lived_in.iterdir()}
    for command in (("take", bench.folder / "one.txt"), ("undo",), ("reread", "--yes"), ("settle", "--answer", "a=b")):
        run = bench.start(lived_in, *command, before=without_rights)
        run.wait()
        assert "Traceback" not in run.complained
        if command[0] in ("take", "undo"):
            assert run.status == 2, run.complained
            assert "cannot be written" in run.complained
    for command in (("morning", "--on", "2026-06-02"), ("check",), ("find", "mites"), ("history", "17")):
        run = bench.start(lived_in, *command, before=without_rights)
        assert run.wait() == 0, (command, run.complained)
        assert run.printed
    assert {path: path.read_bytes() for path in lived_in.iterdir()} == before
    lived_in.chmod(0o755)


def test_a_folder_in_which_nothing_can_be_made(bench, lived_in):
    """Neither a home, nor a copy, nor an export; and a watched folder whose files cannot be moved."""
    closed = bench.folder / "closed"
    closed.mkdir()
    (closed / "a.txt").write_text("12 had 3 mites")
    closed.chmod(0o555)
    for command in (
        ("setup", "--home", closed / "home", "--from", lived_in / "roster.toml"),
        ("backup", closed / "copy.db"),
        ("export", closed / "out.jsonl"),
        ("export", closed / "tables", "--format", "csv"),
        ("watch", closed, "--once", "--quiet", "0"),
    ):
        run = bench.start(lived_in, *command, before=without_rights)
        assert run.wait() == 2, (command, run.printed)
        assert run.complained.startswith("fieldnotes: "), run.complained
        assert "cannot be" in run.complained, run.complained
    assert [p.name for p in closed.iterdir()] == ["a.txt"]
    closed.chmod(0o755)


def test_a_clock_set_back(bench, lived_in, monkeypatch):
    """What was done last is what undo takes back, and what was said last holds, whatever the clock says."""
    years = iter((2030, 1999, 2026, 1985))

    def at_next_year(*args):
        year = next(years)
        monkeypatch.setattr(moment, "stamp", lambda: f"{year}-01-01T00:00:00+00:00")
        monkeypatch.setattr(moment, "now", lambda: datetime(year, 1, 1))
        return bench.ok(lived_in, *args)

    assert "17 at Quarry: mite check, 3 mites" in at_next_year("take", bench.folder / "one.txt")
    (record,) = (r for r in bench.sound(lived_in).records() if r.slots.get("mites") == 3 and r.said == "2030-01-01")
    at_next_year("fix", record.id, "--set", "mites=33")
    at_next_year("fix", record.id, "--set", "mites=34")
    (now,) = (r for r in bench.sound(lived_in).records() if r.id == record.id)
    assert now.slots["mites"] == 34
    assert "(2026" in at_next_year("undo")
    assert "(1999" in bench.ok(lived_in, "undo")
    assert "1 taken note (2030" in bench.ok(lived_in, "undo")
    for day in ("1985-01-01", "2026-06-02", "2031-01-01"):
        bench.ok(lived_in, "morning", "--on", day)
    assert "in the book already" not in bench.ok(lived_in, "take", bench.folder / "one.txt")
    bench.sound(lived_in)
