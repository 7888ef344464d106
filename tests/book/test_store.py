"""The book keeps notes as they came, once, and its state does not depend on the order of taking."""

import sqlite3
from dataclasses import replace
from datetime import datetime
from itertools import permutations

import pytest

from fieldnotes.book import Book, Message, create_book, open_book
from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.files import Arrival, minute, plain_arrival
from fieldnotes.records import Leftover, Question, Reading, Record

AT = "2026-06-01T08:00:00+00:00"


def arrival(text, received="2026-06-01T07:30", by="Ann", source="-", told_by=""):
    return Arrival(text.encode(), "utf-8", received, told_by or minute(received), by, source)


def one_message(note):
    return [Message(0, len(note.text), note.received, note.by, note.told_by)]


def count_reading(text, colony, mites):
    record = Record(kind="mite_check", slots={"colonies": [colony], "mites": mites}, spans=[(0, len(text))])
    return Reading(id="", records=[record])


def take(book, note, reading, messages=None):
    taken = book.add_note(note, AT, "ann")
    book.add_reading(taken.note_id, note.text, reading, messages or one_message(note), "test")
    return taken


@pytest.fixture
def book(tmp_path) -> Book:
    return create_book(tmp_path / "book.db", AT)


def test_a_note_is_kept_byte_for_byte(book):
    note = arrival("12 had 3\r\n\tmites \u2713")
    taken = book.add_note(note, AT, "ann")
    assert book.note(taken.note_id) == note
    assert book.waiting() == [taken.note_id]


def test_each_note_is_a_transaction_and_the_disk_is_waited_for_at_the_end(book):
    """Seen by what SQLite is told: a log that grows under FULL is waited for."""
    log = book.path.with_name("book.db-wal")
    known = arrival("12 had 3")
    book.add_note(known, AT, "ann")
    notes = [arrival(f"{n} had 3") for n in range(20, 25)]
    for batch, more in ((notes[:3], 0), ([*notes, known], 1), ([known], 1)):
        commits = []
        book.db.set_trace_callback(lambda words, seen=commits: words == "COMMIT" and seen.append(log.stat().st_size))
        before, new = log.stat().st_size, sum(taken.new for taken in book.add_notes(batch, AT, "ann"))
        book.db.set_trace_callback(None)
        assert len(commits) == len(batch) + more
        assert len({before, *commits, log.stat().st_size}) == 1 + new + more
        assert book.db.execute("PRAGMA synchronous").fetchone() == (2,)
        assert commits[-1] < log.stat().st_size


def test_notes_before_one_that_cannot_be_stored_are_kept(book):
    notes = [arrival("12 had 3"), arrival("13 had 4"), replace(arrival("14 had 5"), encoding=None), arrival("15 had 6")]
    with pytest.raises(sqlite3.IntegrityError):
        book.add_notes(notes, AT, "ann")
    assert {book.note(note_id).text for note_id in book.taken_notes()} == {"12 had 3", "13 had 4"}
    assert not book.db.in_transaction


def test_the_same_note_is_kept_once(book):
    first = take(book, arrival("12 had 3"), count_reading("12 had 3", "12", 3))
    again = book.add_note(arrival("12 had 3"), AT, "ann")
    assert (first.new, again.new, again.unread) == (True, False, False)
    assert again.note_id == first.note_id
    assert len(book.records()) == 1


def test_the_same_words_at_another_time_are_another_note(book):
    take(book, arrival("12 had 3"), count_reading("12 had 3", "12", 3))
    later = arrival("12 had 3", received="2026-06-02T07:30")
    assert take(book, later, count_reading("12 had 3", "12", 3)).new
    assert [r.said for r in book.records()] == ["2026-06-01", "2026-06-02"]


def test_a_file_without_a_time_of_its_own_is_the_same_note_on_another_day(book):
    def file(name, day):
        return plain_arrival(b"12 had 3", name, None, datetime(2026, 6, day, 7, 30), "Ann")

    notes = [file("a.txt", 1), file("in/a.txt", 2), file("b.txt", 2), file("-", 2), file("-", 2), file("-", 3)]
    assert [book.add_note(n, AT, None).new for n in notes] == [True, False, True, True, False, True]


def test_two_phones_send_the_same_message(book):
    take(book, arrival("12 had 3", received="2026-06-01T07:30:05"), count_reading("12 had 3", "12", 3))
    take(book, arrival("12  had 3\n", received="2026-06-01T07:30:40"), count_reading("12  had 3", "12", 3))
    assert len(book.records()) == 1


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("2026-06-01T07:30:58", "2026-06-01T07:31:03", True),
        ("2026-06-01T07:31:03", "2026-06-01T07:30:58", True),
        ("2026-06-01T23:59:59", "2026-06-02T00:00:01", True),
        ("2026-06-01T07:30:02", "2026-06-01T07:31:02", False),
        ("2026-06-01T07:30", "2026-06-01T07:31", False),
        ("2026-06-01T07:30:58", "2026-06-01T07:31", False),
        ("2026-06-01T07:30:58+02:00", "2026-06-01T07:31:03", False),
    ],
)
def test_two_phones_that_differ_by_seconds_over_the_turn_of_a_minute(book, one, other, same):
    take(book, arrival("12 had 3", received=one), count_reading("12 had 3", "12", 3))
    again = take(book, arrival("12 had 3", received=other), count_reading("12 had 3", "12", 3))
    assert again.new is not same
    assert len(book.records()) == (1 if same else 2)
    assert book.add_note(arrival("12 had 3", received=other, by="Bo"), AT, None).new


def test_a_message_in_two_pastes_counts_once_whatever_the_order(tmp_path):
    words = ["12 had 3", "14 had 0", "15 had 9"]

    def paste(some):
        text = "\n".join(some)
        starts = [text.index(w) for w in some]
        messages = [
            Message(
                s, s + len(w), f"2026-06-0{words.index(w) + 1}T07:30", "Ann", f"2026-06-0{words.index(w) + 1}T07:30"
            )
            for s, w in zip(starts, some, strict=True)
        ]
        records = [
            Record(kind="mite_check", slots={"colonies": [w[:2]], "mites": int(w[-1])}, spans=[(s, s + len(w))])
            for s, w in zip(starts, some, strict=True)
        ]
        return arrival(text), Reading(id="", records=records), messages

    pastes = [paste(words[:2]), paste(words[1:]), paste(words[1:2])]
    states = []
    for n, order in enumerate(permutations(pastes)):
        book = create_book(tmp_path / f"{n}.db", AT)
        for note, reading, messages in order:
            take(book, note, reading, messages)
        states.append([r.model_dump() for r in book.records()])
    assert [r["slots"]["mites"] for r in states[0]] == [3, 0, 9]
    assert all(state == states[0] for state in states)


def test_two_like_messages_of_one_minute_stay_two(book):
    note = arrival("ok\nok")
    messages = [Message(0, 2, "2026-06-01T07:30", "Ann", "x"), Message(3, 5, "2026-06-01T07:30", "Ann", "x")]
    records = [Record(kind="todo", slots={"text": "ok"}, spans=[span]) for span in ((0, 2), (3, 5))]
    take(book, note, Reading(id="", records=records), messages)
    assert len(book.records()) == 2


def test_the_day_of_a_fact_is_the_day_it_was_said_unless_it_is_planned(book):
    note = arrival("pulled 12, will pull 14")
    records = [
        Record(kind="gear", slots={"colonies": ["12"]}, spans=[(0, 9)]),
        Record(kind="gear", slots={"colonies": ["14"], "state": "planned"}, spans=[(11, 23)]),
    ]
    take(book, note, Reading(id="", records=records))
    days = {r.slots["colonies"][0]: r.slots.get("on") for r in book.records()}
    assert days == {"12": "2026-06-01", "14": None}


def test_one_question_about_a_word_in_two_notes_is_asked_once(book):
    question = Question(ask="What is blue stuff?", topic="unknown_word", word="blue stuff")
    for day in ("2026-06-02", "2026-06-01"):
        note = arrival("put blue stuff in", received=f"{day}T07:30")
        left = [Leftover(start=0, end=3, text="put")]
        take(book, note, Reading(id="", questions=[question, question], leftovers=left))
    (asked,) = book.open_questions()
    assert (asked.ask, asked.said) == ("What is blue stuff?", "2026-06-01")


def test_a_question_names_the_record_it_is_about(book):
    note = arrival("99 had 3")
    reading = count_reading("99 had 3", "99", 3)
    reading.questions.append(Question(about=0, ask="Is 99 yours?", topic="unknown_colony", word="99"))
    take(book, note, reading)
    assert book.open_questions()[0].record_id == book.records()[0].id


def test_what_is_written_is_never_changed(book):
    take(book, arrival("12 had 3"), count_reading("12 had 3", "12", 3))
    for table in ("notes", "entries", "readings", "messages", "records"):
        with pytest.raises(sqlite3.IntegrityError, match="only grows"):
            book.db.execute(f"DELETE FROM {table}")


def test_lone_surrogates_and_zeros_survive(book):
    note = Arrival(
        "12 \ud800\x00 had 3".encode("utf-8", "surrogatepass"), "utf-8", "2026-06-01T07:30", "x", "A\ud800", "-"
    )
    record = Record(kind="todo", slots={"text": "\ud800\x00"}, spans=[(0, 5)])
    taken = take(book, note, Reading(id="", records=[record]))
    assert book.note(taken.note_id).text == note.text
    assert book.records()[0].slots["text"] == "\ud800\x00"


def test_a_book_that_is_none_is_named(tmp_path):
    (tmp_path / "words.db").write_text("not a database, only words in a file")
    with pytest.raises(FieldnotesError, match="not a book"):
        open_book(tmp_path / "words.db", AT)
    sqlite3.connect(tmp_path / "other.db").execute("CREATE TABLE t (x)")
    with pytest.raises(FieldnotesError, match="not a book of fieldnotes"):
        open_book(tmp_path / "other.db", AT)
    with pytest.raises(FieldnotesError, match="no book at"):
        open_book(tmp_path / "nothing.db", AT)


def test_a_book_of_a_newer_version_is_refused(book, tmp_path):
    book.db.execute("INSERT INTO schema_version VALUES (99, ?)", (AT,))
    book.close()
    with pytest.raises(FieldnotesError, match="newer fieldnotes"):
        open_book(tmp_path / "book.db", AT)
