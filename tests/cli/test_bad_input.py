"""Bad input: one clear sentence, status 2, no traceback, nothing lost."""

import sqlite3
from contextlib import closing

import pytest


def test_no_home_yet(bare):
    assert "fieldnotes setup" in bare.bad("morning")
    assert "fieldnotes setup" in bare.bad("take", stdin="12 had 3 mites")


def test_a_book_that_is_none(outfit):
    (outfit.home / "book.db").write_text("not a book, only words")
    for command in (("morning",), ("take", "-"), ("check",), ("find", "x")):
        assert "is not a book" in outfit.bad(*command, stdin="12 had 3 mites")


def test_another_programs_database(outfit):
    (outfit.home / "book.db").unlink()
    with closing(sqlite3.connect(outfit.home / "book.db")) as db:
        db.execute("CREATE TABLE t (x)")
    assert "not a book of fieldnotes" in outfit.bad("morning")


@pytest.mark.parametrize(
    ("table", "change"),
    [
        ("notes", "received = '-06-01T07:30'"),
        ("notes", "received = '2026-06-02T07:30'"),
        ("current_records", "received = 'x'"),
        ("current_records", 'slots = \'{"on": "soon"}\''),
        ("current_records", "slots = '[]'"),
        ("current_records", "kind = 'song'"),
        ("records", "slots = '[]', kind = 'song'"),
        ("entries", "data = '[]'"),
    ],
)
def test_a_value_that_was_never_written_so_is_the_books_fault(outfit, table, change):
    outfit.ok("take", "--on", "2026-06-01T07:30", stdin="12 had 3 mites at the quarry, zibbets in 14")
    with closing(sqlite3.connect(outfit.home / "book.db")) as db:
        for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            db.execute(f"DROP TRIGGER {name}")
        db.execute(f"UPDATE {table} SET {change}")
        db.commit()
    if table != "entries":
        assert "not sound" in outfit.bad("check")
    for command in (("find", "mites"), ("morning", "--on", "2026-06-02"), ("history", "12"), ("history",),
                    ("settle", "--list"), ("worked",), ("register",), ("done",), ("undo",)):  # fmt: skip
        done = outfit.run(*command)
        assert done.returncode in (0, 2), (command, done.stderr)
        assert done.returncode == 0 or "damaged" in done.stderr, (command, done.stderr)


def test_a_roster_that_is_missing_or_broken(outfit):
    assert "There is no roster at" in outfit.bad("read", "--roster", "none.toml", stdin="12 had 3 mites")
    (outfit.home / "roster.toml").write_text('outfit = "x"\n[[yard]]\nname = 3\n')
    for command in (("morning",), ("take", "-"), ("read", "-")):
        assert "line 3" in outfit.bad(*command, stdin="12 had 3 mites")


def test_a_note_is_kept_though_the_roster_is_broken(outfit):
    good = (outfit.home / "roster.toml").read_text()
    (outfit.home / "roster.toml").write_text("outfit = \n")
    said = outfit.bad("take", "--by", "Ann", stdin="12 had 3 mites")
    assert "line 1" in said
    assert "kept, but not read yet" in said
    (outfit.home / "roster.toml").write_text(good)
    assert "1 taken but not read yet" in outfit.run("morning").stderr
    assert "3 mites" in outfit.ok("take", stdin="14 had 4 mites")
    assert "12 had 3 mites" in outfit.ok("find", "12 had")


@pytest.mark.parametrize("day", ["2026-02-30", "31/5/2026", "yesterday"])
def test_an_impossible_date(outfit, day):
    assert "2026-05-31" in outfit.bad("morning", "--on", day)
    assert "is not a date" in outfit.bad("read", "--on", day, stdin="12 had 3 mites")
    assert "is not a date" in outfit.bad("take", "--on", day, stdin="12 had 3 mites")


@pytest.mark.parametrize("data", [b"\x89PNG\r\n\x1a\n\x00\x00\x00\r", b"", b"  \n"])
def test_no_text_or_no_words(outfit, tmp_path, data):
    (tmp_path / "note.txt").write_bytes(data)
    reason = "is not text" if data.strip() else "is empty"
    assert reason in outfit.bad("read", tmp_path / "note.txt")
    assert reason in outfit.bad("take", tmp_path / "note.txt")


def test_a_file_that_is_not_there_or_is_a_folder(outfit, tmp_path):
    assert "There is no file" in outfit.bad("read", tmp_path / "none.txt")
    assert "cannot be read" in outfit.bad("read", tmp_path)
    assert "cannot be read" in outfit.bad("take", "--jsonl", tmp_path)


@pytest.mark.parametrize(
    "command",
    [
        ("fix", "abcdef", "--reject"),
        ("settle", "--answer", "what=that"),
        ("settle", "--answer", "what"),
        ("export", "somewhere", "--format", "xls"),
        ("import", "nowhere"),
        ("restore", "nowhere"),
        ("watch", "nowhere"),
        ("no-such-command",),
    ],
)
def test_commands_say_what_they_miss(outfit, command):
    assert outfit.bad(*command).strip()
