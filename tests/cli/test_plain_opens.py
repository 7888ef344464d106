"""The book's file is SQLite's alone: opened as a plain file and closed, it loses the locks of its process."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from processes import book_held

from fieldnotes.book import create_book, open_book

AT = "2026-06-01T08:00:00+00:00"
NOTES = '{"text": "12 had 3 mites, bluegoo in 14"}\n{"text": "15 had 4 mites"}\n'


def tell_of_plain_opens(home):
    """Called in a process, it says on standard error where Python opens the book, or what stands beside it."""

    def hook(event, args):
        if event == "open" and isinstance(args[0], str | bytes | os.PathLike):
            name = Path(os.fsdecode(args[0]))
            if name.name.startswith("book.db") and name.resolve().parent == home.resolve():
                os.write(2, b"PLAIN OPEN\n")

    return lambda: sys.addaudithook(hook)


def test_no_command_opens_the_book_as_a_plain_file(outfit, tmp_path):
    (tmp_path / "notes.jsonl").write_text(NOTES)
    (tmp_path / "drop").mkdir()
    (tmp_path / "drop" / "a.txt").write_text("17 had 2 mites")
    link = tmp_path / "link.txt"
    link.symlink_to(outfit.home / "book.db")
    (tmp_path / "drop" / "b.txt").symlink_to(outfit.home / "book.db")
    record = re.findall(r"^  ([0-9a-f]{6})  ", outfit.ok("take", stdin="16 had 3 mites"), re.M)[0]
    book = outfit.home / "book.db"
    commands = [
        ("take", "--jsonl", tmp_path / "notes.jsonl"),
        *(("take", *options, file) for options in ((), ("--jsonl",)) for file in (book, link, f"{book}-wal")),
        ("morning",),
        ("morning", "--weather", book),
        *(("morning", "--page", file) for file in (book, link, f"{book}-wal")),
        ("settle", "--list"),
        ("fix", record, "--set", "mites=4"),
        ("reread", "--yes"),
        ("history",),
        ("history", "12"),
        ("find", "mites"),
        ("check",),
        ("worked",),
        ("watch", tmp_path / "drop", "--once", "--quiet", "0"),
        ("watch", outfit.home, "--once", "--quiet", "0"),
        ("backup", tmp_path / "copy.db"),
        ("export", tmp_path / "out.jsonl"),
        ("export", tmp_path / "out", "--format", "csv"),
        ("import", tmp_path / "out.jsonl"),
        ("import", tmp_path / "out"),
        ("import", book),
        ("undo",),
        ("restore", tmp_path / "copy.db"),
        ("restore", book),
    ]
    for command in commands:
        done = outfit.run(*command, before=tell_of_plain_opens(outfit.home))
        assert "PLAIN OPEN" not in done.stderr, command
        assert done.returncode in (0, 2), (command, done.stderr)
    assert "The book is sound" in outfit.ok("check")


def test_the_hook_sees_what_it_should(outfit, tmp_path):
    def open_it():
        tell_of_plain_opens(outfit.home)()
        (outfit.home / "book.db").read_bytes()

    assert "PLAIN OPEN" in outfit.run("check", before=open_it).stderr


@pytest.mark.parametrize("command", [("take",), ("take", "--jsonl"), ("import",), ("morning", "--weather")])
def test_the_book_is_not_taken_for_a_note(outfit, command):
    said = outfit.bad(*command, outfit.home / "book.db")
    assert "is the book itself" in said
    assert "The book is sound" in outfit.ok("check")


def test_a_home_is_not_watched(outfit):
    before = sorted(outfit.home.iterdir())
    said = outfit.bad("watch", outfit.home, "--once", "--quiet", "0")
    assert "holds the book and the roster" in said
    assert sorted(outfit.home.iterdir()) == before


def test_opening_a_book_a_second_time_leaves_the_first_its_locks(tmp_path):
    """Another process that thinks itself alone ends the log; what the first one writes then goes nowhere."""
    path = tmp_path / "book.db"
    first = create_book(path, AT)
    open_book(path, AT).close()
    leave = "import sqlite3, sys; db = sqlite3.connect(sys.argv[1]); db.execute('SELECT * FROM notes'); db.close()"
    subprocess.run([sys.executable, "-c", leave, path], check=True)
    assert path.with_name("book.db-wal").exists()
    first.close()


def test_a_book_that_cannot_be_opened_is_let_go(tmp_path):
    book = create_book(tmp_path / "book.db", AT)
    book.db.execute("INSERT INTO schema_version VALUES (99, ?)", (AT,))
    book.close()
    with pytest.raises(Exception, match="newer fieldnotes"):
        open_book(tmp_path / "book.db", AT)
    assert not book_held(tmp_path)
