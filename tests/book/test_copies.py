"""Backups, bringing one back, and seeing whether a book is sound."""

import sqlite3
from contextlib import closing
from datetime import datetime

import pytest
from test_acts import held
from test_exchange import lived_in
from test_store import AT, arrival, count_reading, take

from fieldnotes.book import acts, copies, open_book, opening
from fieldnotes.book.copies import back_up, restore
from fieldnotes.book.search import find
from fieldnotes.book.soundness import faults
from fieldnotes.errors import FieldnotesError

NOW = datetime(2026, 6, 3, 12)


def no_check(_path):
    pass


def test_a_backup_is_the_book_at_one_moment(tmp_path):
    book = lived_in(tmp_path / "book.db")
    before = book.records()
    with book.writing():
        writer = open_book(tmp_path / "book.db", AT)
        back_up(writer, tmp_path / "copy.db")
    take(book, arrival("20 had 5"), count_reading("20 had 5", "20", 5))
    copy = open_book(tmp_path / "copy.db", AT)
    assert copy.records() == before
    assert list(faults(copy)) == []
    with pytest.raises(FieldnotesError, match="never overwrites"):
        back_up(book, tmp_path / "copy.db")


def test_restore_keeps_the_book_that_was_there(tmp_path):
    book = lived_in(tmp_path / "book.db")
    back_up(book, tmp_path / "copy.db")
    before = book.records()
    take(book, arrival("20 had 5"), count_reading("20 had 5", "20", 5))
    after = book.records()
    aside = restore(tmp_path / "copy.db", tmp_path / "book.db", NOW, no_check)
    assert aside == tmp_path / "book-until-20260603-120000.db"
    assert open_book(tmp_path / "book.db", AT).records() == before
    assert open_book(aside, AT).records() == after
    with pytest.raises(FieldnotesError, match="was replaced"):
        take(book, arrival("21 had 5"), count_reading("21 had 5", "21", 5))


def test_two_restores_in_one_second_keep_both_books_that_were_there(tmp_path):
    book = lived_in(tmp_path / "book.db")
    back_up(book, tmp_path / "copy.db")
    take(book, arrival("20 had 5"), count_reading("20 had 5", "20", 5))
    after = book.records()
    book.close()
    first, second = (restore(tmp_path / "copy.db", tmp_path / "book.db", NOW, no_check) for _ in range(2))
    assert first != second
    assert open_book(first, AT).records() == after
    assert open_book(second, AT).records() == open_book(tmp_path / "book.db", AT).records() != after


def test_who_has_the_book_open_sees_the_one_that_is_put_in(tmp_path):
    book = lived_in(tmp_path / "book.db")
    back_up(book, tmp_path / "copy.db")
    before = book.records()
    take(book, arrival("20 had 5"), count_reading("20 had 5", "20", 5))
    restore(tmp_path / "copy.db", tmp_path / "book.db", NOW, no_check)
    assert book.records() == before
    assert list(faults(book)) == []


def test_a_backup_with_pages_of_another_size_is_restored_too(tmp_path):
    book = lived_in(tmp_path / "book.db")
    back_up(book, tmp_path / "copy.db")
    want = book.records()
    book.close()
    with closing(sqlite3.connect(tmp_path / "copy.db", isolation_level=None)) as copy:
        copy.execute("PRAGMA page_size = 8192")
        copy.execute("VACUUM")
    for _ in range(2):
        restore(tmp_path / "copy.db", tmp_path / "book.db", NOW, no_check)
        assert open_book(tmp_path / "book.db", AT).records() == want
    assert len(list(tmp_path.glob("book-until-*.db"))) == 2


def test_a_restore_that_fails_leaves_nothing_behind(tmp_path, monkeypatch):
    book = lived_in(tmp_path / "book.db")
    back_up(book, tmp_path / "copy.db")
    take(book, arrival("20 had 5"), count_reading("20 had 5", "20", 5))
    after = book.records()
    monkeypatch.setattr(copies, "WAIT", 0.1)
    with book.writing(), pytest.raises(FieldnotesError, match="held by another program"):
        restore(tmp_path / "copy.db", tmp_path / "book.db", NOW, no_check)
    assert {p.name for p in tmp_path.iterdir()} == {"book.db", "book.db-wal", "book.db-shm", "copy.db"}
    assert book.records() == after


def test_a_book_that_another_program_holds_is_not_called_damaged(tmp_path, monkeypatch):
    lived_in(tmp_path / "book.db").close()
    monkeypatch.setattr(opening, "BUSY_SECONDS", 0.1)
    with closing(sqlite3.connect(tmp_path / "book.db", isolation_level=None)) as other:
        other.execute("PRAGMA locking_mode = EXCLUSIVE")
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(FieldnotesError, match="held by another program"):
            open_book(tmp_path / "book.db", AT)
    book = open_book(tmp_path / "book.db", AT)
    with closing(sqlite3.connect(tmp_path / "book.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(FieldnotesError, match="held by another program"):
            take(book, arrival("20 had 5"), count_reading("20 had 5", "20", 5))


def test_restore_leaves_the_book_alone_where_the_backup_is_unsound(tmp_path):
    book = lived_in(tmp_path / "book.db")
    (tmp_path / "words.txt").write_text("not a backup at all, only words")

    def unsound(_path):
        raise FieldnotesError("unsound")

    for source, reason in (("words.txt", "cannot be read"), ("none.db", "is not there"), ("book.db", "unsound")):
        with pytest.raises(FieldnotesError, match=reason):
            restore(tmp_path / source, tmp_path / "book.db", NOW, unsound)
    assert {p.name for p in tmp_path.iterdir()} <= {"book.db", "book.db-wal", "book.db-shm", "words.txt"}
    assert len(book.records()) == 3


@pytest.mark.parametrize(
    ("sql", "reason"),
    [
        ("DROP TRIGGER notes_no_update", "lacks its trigger notes_no_update"),
        ("DROP VIEW mite_checks", "lacks its view mite_checks"),
        ("DROP INDEX messages_key", "lacks its index messages_key"),
        (
            "DROP TRIGGER notes_no_delete; CREATE TRIGGER notes_no_delete BEFORE DELETE ON notes BEGIN SELECT 1; END",
            "trigger notes_no_delete is not as it was made",
        ),
    ],
)
def test_what_somebody_took_out_of_a_book_is_said(tmp_path, sql, reason):
    book = lived_in(tmp_path / "book.db")
    book.db.execute("CREATE VIEW of_my_own AS SELECT * FROM notes")
    assert list(faults(book)) == []
    book.db.executescript(sql)
    assert any(reason in fault for fault in faults(book))


def tampered(book, sql):
    """The book after somebody went at it with another tool, past its guards."""
    for (name,) in book.db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        book.db.execute(f"DROP TRIGGER {name}")
    book.db.execute("PRAGMA foreign_keys = OFF")
    book.db.execute(sql)
    return list(faults(book))


@pytest.mark.parametrize(
    ("sql", "reason"),
    [
        ("UPDATE notes SET body = x'00'", "another hash"),
        ("UPDATE notes SET told_by = 'elsewhere'", "does not belong to its id"),
        ("DELETE FROM notes WHERE number = 1", "that is not there"),
        ("DELETE FROM entries WHERE act = 'take'", "nobody took it"),
        ("UPDATE entries SET target = 'feedfeed' WHERE act = 'fix'", "not in the book"),
        ("UPDATE questions SET record_id = 'feedfeed'", "not in the book"),
        ("UPDATE records SET kind = 'song'", "was never read so"),
        ("UPDATE records SET slots = '[]'", "was never read so"),
        ('UPDATE records SET slots = \'{"on": "soon"}\'', "was never read so"),
        ("UPDATE records SET spans = '[1]'", "spans that were never written so"),
        ("UPDATE readings SET leftovers = '[{}]'", "leftovers that were never written so"),
        ("UPDATE questions SET choices = '{}'", "choices that were never written so"),
        ("UPDATE entries SET data = '{}' WHERE act = 'fix'", "was never mended so"),
        ("DELETE FROM current_records", "lacks rows"),
        ("UPDATE current_records SET slots = '{}'", "rows too many"),
        ("DELETE FROM note_words", "cannot be found"),
        ("UPDATE note_words SET words = 'other'", "words that are not theirs"),
    ],
)
def test_what_is_wrong_with_a_book_is_said(tmp_path, sql, reason):
    assert any(reason in fault for fault in tampered(lived_in(tmp_path / "book.db"), sql))


def test_a_damaged_page_is_said(tmp_path):
    book = lived_in(tmp_path / "book.db")
    book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    book.close()
    data = bytearray((tmp_path / "book.db").read_bytes())
    data[4096 * 3 : 4096 * 5] = b"\x5a" * 8192
    (tmp_path / "book.db").write_bytes(data)
    try:
        found = list(faults(open_book(tmp_path / "book.db", AT)))
    except FieldnotesError as error:
        found = [str(error)]
    assert any("damaged" in fault for fault in found)


def test_notes_are_found_by_their_words_and_by_their_records(tmp_path):
    book = lived_in(tmp_path / "book.db")
    take(book, arrival("chalk brood at larks, Zoë \U0001f41d"), count_reading("chalk brood", "20", 5))
    assert [hit.piece for hit in find(book, "zoe larks", 5)] == ["chalk brood at larks, Zoë \U0001f41d"]
    assert len(find(book, "mite check 44", 5)) == 1
    assert len(find(book, "chal", 5)) == 1
    assert find(book, "", 5) == find(book, '" OR', 5) == find(book, "NOT AND (", 5) == []
    acts.reject(book, held(book, 44), AT, "ann")
    assert find(book, "mite check 44", 5) == []


def test_a_note_that_was_taken_back_is_found_and_marked(tmp_path):
    book = lived_in(tmp_path / "book.db")
    take(book, arrival("20 had 5"), count_reading("20 had 5", "20", 5))
    assert [hit.undone for hit in find(book, "20 had", 5)] == [False]
    acts.undo(book, acts.last_batch(book), AT, "ann")
    assert [hit.undone for hit in find(book, "20 had", 5)] == [True]


def test_any_tool_can_open_the_book(tmp_path):
    lived_in(tmp_path / "book.db").close()
    db = sqlite3.connect(tmp_path / "book.db")
    assert sorted(row[0] for row in db.execute("SELECT mites FROM mite_checks")) == [30, 44]
    assert db.execute("SELECT count(*) FROM treatments").fetchone() == (0,)
    assert db.execute("SELECT what FROM open_items").fetchall() == []
