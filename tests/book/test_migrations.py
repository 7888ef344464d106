"""A book of each earlier version is brought up to today's, and a copy of it kept."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from test_exchange import history, lived_in
from test_store import AT

from fieldnotes.book import create_book, open_book, opening
from fieldnotes.book.search import find
from fieldnotes.book.soundness import faults
from fieldnotes.errors import FieldnotesError

BOOKS = Path(__file__).parent / "books"
"""One book of each earlier version, as it was written at the time, dumped as SQL."""


def old_book(version, path):
    with closing(sqlite3.connect(path)) as db:
        db.executescript((BOOKS / f"version_{version}.sql").read_bytes().decode())
        db.execute(f"PRAGMA application_id = {opening.APPLICATION_ID}")
    return path


def shape(book):
    return book.db.execute("SELECT type, name, tbl_name FROM sqlite_master ORDER BY 1, 2").fetchall()


def test_there_is_a_book_of_each_earlier_version():
    assert sorted(p.name for p in BOOKS.iterdir()) == [f"version_{n}.sql" for n in range(1, opening.VERSION)]


@pytest.mark.parametrize("version", range(1, opening.VERSION))
def test_an_older_book_becomes_like_a_new_one_and_keeps_all_it_held(tmp_path, version):
    book = open_book(old_book(version, tmp_path / "book.db"), AT)
    new = lived_in(tmp_path / "new.db")
    assert list(faults(book)) == []
    assert shape(book) == shape(new)
    assert history(book) == history(new)
    assert book.records() == new.records()
    assert find(book, "had", 5) == find(new, "had", 5) != []
    kept = tmp_path / f"book-version-{version}.db"
    with closing(sqlite3.connect(kept)) as db:
        assert db.execute("SELECT max(version) FROM schema_version").fetchone() == (version,)
        assert db.execute("SELECT count(*) FROM notes").fetchone() == (2,)


def test_a_step_that_fails_leaves_the_book_as_it_was(tmp_path, monkeypatch):
    def fails(_book):
        raise sqlite3.OperationalError("disk full")

    monkeypatch.setitem(opening.AFTER, 2, fails)
    with pytest.raises(FieldnotesError, match="disk full"):
        open_book(old_book(1, tmp_path / "book.db"), AT)
    monkeypatch.undo()
    assert list(faults(open_book(tmp_path / "book.db", AT))) == []


def test_without_a_copy_nothing_is_changed(tmp_path, monkeypatch):
    (tmp_path / ".book-version-1.db.new").mkdir()
    with pytest.raises(FieldnotesError, match="no copy of it"):
        open_book(old_book(1, tmp_path / "book.db"), AT)
    with closing(sqlite3.connect(tmp_path / "book.db")) as db:
        assert db.execute("SELECT max(version) FROM schema_version").fetchone() == (1,)


def test_a_copy_of_another_book_is_not_written_over(tmp_path):
    open_book(old_book(1, tmp_path / "book.db"), AT).close()
    first = (tmp_path / "book-version-1.db").read_bytes()
    (tmp_path / "book.db").unlink()
    with closing(sqlite3.connect(old_book(1, tmp_path / "book.db"))) as db:
        db.execute("UPDATE schema_version SET applied_at = '2020-01-01'")
        db.commit()
    open_book(tmp_path / "book.db", AT).close()
    assert (tmp_path / "book-version-1.db").read_bytes() == first
    assert (tmp_path / "book-version-1-2.db").read_bytes() != first


def test_who_comes_late_to_a_migration_keeps_no_copy_of_the_migrated_book(tmp_path, monkeypatch):
    path = old_book(1, tmp_path / "book.db")
    known = opening._known_version

    def and_then_another_migrates(path, db):
        version = known(path, db)
        monkeypatch.setattr(opening, "_known_version", known)
        open_book(path, AT).close()
        return version

    monkeypatch.setattr(opening, "_known_version", and_then_another_migrates)
    assert list(faults(open_book(path, AT))) == []
    (kept,) = tmp_path.glob("book-version-*")
    with closing(sqlite3.connect(kept)) as db:
        assert db.execute("SELECT max(version) FROM schema_version").fetchone() == (1,)


def test_a_new_book_is_of_todays_version(tmp_path):
    book = create_book(tmp_path / "book.db", AT)
    versions = [n for (n,) in book.db.execute("SELECT version FROM schema_version ORDER BY 1")]
    assert versions == list(range(1, opening.VERSION + 1))
