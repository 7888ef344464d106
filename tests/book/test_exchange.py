"""The history out and in again, whole and exact."""

import json

import pytest
from test_acts import BOTH, NOTE, held, reading, reread, undo_last
from test_store import AT, arrival, count_reading, take

from fieldnotes.book import acts, create_book
from fieldnotes.book.exchange import TABLES, rows_of, take_rows
from fieldnotes.book.exchange_files import FORMATS, read_history, write_history
from fieldnotes.book.soundness import faults
from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.files import Arrival
from fieldnotes.records import Question, Reading, Record


def lived_in(path):
    """A book with every kind of row and of trouble."""
    book = create_book(path, AT)
    take(book, NOTE, BOTH)
    acts.fix(book, held(book, 3), "mite_check", {"mites": 30}, AT, "ann")
    acts.fix(book, held(book, 4), "mite_check", {"mites": 44}, AT, None)
    reread(book, NOTE, reading(((0, 8), 3)))
    acts.reject(book, held(book, 30), AT, "bo")
    undo_last(book)
    odd = Arrival(b"\xff\xfe1\x002\x00", "utf-16", "2026-06-02T10:00", "x", None, 'a "b",\r\nc.txt')
    question = Question(ask='What is "x, y"?', choices=["a", "b"], topic="unknown_word", word="x,\ny")
    record = Record(kind="todo", slots={"text": "\ud800 12\x00 é\r"}, spans=[(0, 1)])
    take(book, odd, Reading(id="", records=[record], questions=[question]))
    acts.answer(book, book.open_questions()[0].id, {"answer": "thymol gel"}, AT, "ann")
    return book


def history(book):
    return {table: list(rows_of(book, table)) for table in TABLES}


@pytest.mark.parametrize("form", FORMATS)
def test_a_book_goes_out_and_comes_in_again_exactly(tmp_path, form):
    book = lived_in(tmp_path / "a.db")
    write_history(book, tmp_path / "out", form)
    other = create_book(tmp_path / "b.db", AT)
    new = take_rows(other, read_history(tmp_path / "out"))
    assert new["notes"] == 2
    assert history(other) == history(book)
    assert (other.records(), other.open_questions()) == (book.records(), book.open_questions())
    assert list(faults(other)) == []
    write_history(other, tmp_path / "again", form)
    for table in TABLES if form != "jsonl" else [""]:
        name = f"{table}.{form}" if table else ""
        assert (tmp_path / "again" / name).read_bytes() == (tmp_path / "out" / name).read_bytes()


def test_what_the_book_has_is_passed_over(tmp_path):
    book = lived_in(tmp_path / "a.db")
    write_history(book, tmp_path / "out.jsonl", "jsonl")
    before = history(book)
    assert sum(take_rows(book, read_history(tmp_path / "out.jsonl")).values()) == 0
    assert history(book) == before


def test_two_books_become_one_in_either_order(tmp_path):
    states = []
    for first, second in (("a", "b"), ("b", "a")):
        folder = tmp_path / first
        folder.mkdir()
        one = lived_in(folder / "a.db")
        other = create_book(folder / "b.db", AT)
        take(other, arrival("20 had 5"), count_reading("20 had 5", "20", 5))
        acts.fix(other, held(other, 5), "mite_check", {"mites": 55}, AT, "ann")
        books = {"a": one, "b": other}
        write_history(books[second], folder / "out.jsonl", "jsonl")
        take_rows(books[first], read_history(folder / "out.jsonl"))
        assert list(faults(books[first])) == []
        states.append(books[first].records())
    assert states[0] == states[1]
    assert {r.slots.get("mites") for r in states[0]} == {30, 44, 55, None}


def test_a_changed_note_is_refused_and_nothing_is_taken(tmp_path):
    write_history(lived_in(tmp_path / "a.db"), tmp_path / "out.jsonl", "jsonl")
    lines = (tmp_path / "out.jsonl").read_text().splitlines()
    row = json.loads(lines[1])
    row["body"] = "AAAA"
    lines[1] = json.dumps(row)
    (tmp_path / "out.jsonl").write_text("\n".join(lines))
    other = create_book(tmp_path / "b.db", AT)
    with pytest.raises(FieldnotesError, match=r"Row 2 \(notes\) .* not as it came"):
        take_rows(other, read_history(tmp_path / "out.jsonl"))
    assert not any(history(other).values())


@pytest.mark.parametrize(
    "line", ["{", "[]", "5", '{"table": "thieves"}', '{"table": "notes"}', '{"table": "entries", "seq": "1"}']
)
def test_a_line_that_is_no_row_is_named(tmp_path, line):
    (tmp_path / "out.jsonl").write_text(line)
    with pytest.raises(FieldnotesError, match=r"line 1|Row 1"):
        take_rows(create_book(tmp_path / "b.db", AT), read_history(tmp_path / "out.jsonl"))


@pytest.mark.parametrize("form", FORMATS)
def test_an_export_that_was_cut_short_is_refused_whole(tmp_path, form):
    book = lived_in(tmp_path / "a.db")
    other = create_book(tmp_path / "b.db", AT)
    write_history(book, tmp_path / "out", form)
    if form == "jsonl":
        lines = (tmp_path / "out").read_text().splitlines(keepends=True)
        cuts = [("out", "".join(lines[:n])) for n in range(1, len(lines))]
    elif form == "csv":
        texts = {name: (tmp_path / "out" / f"{name}.csv").read_bytes().decode() for name in TABLES}
        cuts = [(f"out/{name}.csv", text[: text.rstrip("\r\n").rindex("\r\n") + 2]) for name, text in texts.items()]
    else:
        (tmp_path / "out" / "rows.json").unlink()
        cuts = []
    for name, text in cuts:
        whole = (tmp_path / name).read_bytes()
        (tmp_path / name).write_text(text, newline="")
        with pytest.raises(FieldnotesError, match=r"not whole|does not fit|not be sound|is not a row|cannot be read"):
            take_rows(other, read_history(tmp_path / "out"))
        (tmp_path / name).write_bytes(whole)
    if not cuts:
        with pytest.raises(FieldnotesError, match="not whole"):
            take_rows(other, read_history(tmp_path / "out"))
    assert not any(history(other).values())


def test_an_import_that_would_leave_the_book_unsound_is_refused(tmp_path):
    book = lived_in(tmp_path / "a.db")
    rows = [(table, row) for table in TABLES for row in rows_of(book, table) if table not in ("records", "questions")]
    other = create_book(tmp_path / "b.db", AT)
    with pytest.raises(FieldnotesError, match="would not be sound"):
        take_rows(other, rows)
    assert not any(history(other).values())


@pytest.mark.parametrize(
    ("table", "column", "value", "reason"),
    [
        ("entries", "seq", 2**70, "no number of ours"),
        ("entries", "seq", 2**63 - 1, "no number of ours"),
        ("readings", "id", -1, "no number of ours"),
        ("notes", "encoding", "rot13", "would not be sound"),
    ],
)
def test_a_value_that_was_never_written_so_is_refused_in_one_sentence(tmp_path, table, column, value, reason):
    book = lived_in(tmp_path / "a.db")
    rows = [(name, row) for name in TABLES for row in rows_of(book, name)]
    next(row for name, row in rows if name == table)[column] = value
    other = create_book(tmp_path / "b.db", AT)
    with pytest.raises(FieldnotesError, match=reason):
        take_rows(other, rows)
    assert not any(history(other).values())


def test_an_export_never_overwrites(tmp_path):
    book = lived_in(tmp_path / "a.db")
    with pytest.raises(FieldnotesError, match="never overwrites"):
        write_history(book, tmp_path / "a.db", "jsonl")
    with pytest.raises(FieldnotesError, match="no export at"):
        list(read_history(tmp_path / "nothing"))
