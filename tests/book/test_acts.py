"""What people say about the book: every act is one more entry, and can be taken back."""

from itertools import count

import pytest
from test_store import AT, arrival, count_reading, one_message, take

from fieldnotes.book import Book, Message, acts, create_book
from fieldnotes.book.placing import message_keys
from fieldnotes.book.rereading import add_revision, what_changes
from fieldnotes.errors import FieldnotesError
from fieldnotes.records import Question, Reading, Record


@pytest.fixture
def book(tmp_path) -> Book:
    return create_book(tmp_path / "book.db", AT)


NOTE = arrival("12 had 3 and 14 had 4")


def reading(*spans_and_mites):
    records = [Record(kind="mite_check", slots={"mites": mites}, spans=[span]) for span, mites in spans_and_mites]
    return Reading(id="", records=records)


BOTH = reading(((0, 8), 3), ((13, 21), 4))


def mites(book):
    return sorted(r.slots["mites"] for r in book.records())


def held(book, number):
    return acts.find_record(book, next(r.id for r in book.records() if r.slots["mites"] == number))


def reread(book, note, new, messages=None):
    note_id = take(book, note, BOTH).note_id
    return add_revision(book, note_id, note.text, new, messages or one_message(note), "test 2", AT, "ann", None)


def undo_last(book):
    acts.undo(book, acts.last_batch(book), AT, "ann")


def test_a_mended_record_takes_the_place_of_the_one_read_and_undo_brings_it_back(book):
    take(book, NOTE, BOTH)
    acts.fix(book, held(book, 3), "mite_check", {"mites": 30}, AT, "ann")
    assert mites(book) == [4, 30]
    acts.fix(book, held(book, 30), "mite_check", {"mites": 31}, AT, "ann")
    assert mites(book) == [4, 31]
    undo_last(book)
    assert mites(book) == [4, 30]
    undo_last(book)
    assert mites(book) == [3, 4]


def test_a_rejected_record_is_gone_until_undone(book):
    take(book, NOTE, BOTH)
    acts.reject(book, held(book, 3), AT, "ann")
    assert mites(book) == [4]
    undo_last(book)
    assert mites(book) == [3, 4]


def test_a_taken_note_can_be_undone_and_taken_again(book):
    take(book, NOTE, BOTH)
    undo_last(book)
    assert book.records() == []
    assert take(book, NOTE, BOTH).new
    assert mites(book) == [3, 4]


def test_when_nothing_is_left_there_is_nothing_to_undo(book):
    take(book, NOTE, BOTH)
    entries = acts.last_batch(book)
    acts.undo(book, entries, AT, "ann")
    assert acts.last_batch(book) == []
    with pytest.raises(FieldnotesError, match="undone already"):
        acts.undo(book, entries, AT, "ann")


def test_an_answer_closes_its_question_and_undo_opens_it(book):
    asked = Reading(id="", questions=[Question(ask="What is blue stuff?", topic="unknown_word", word="blue stuff")])
    for day in (1, 2):
        take(book, arrival("blue stuff in", received=f"2026-06-0{day}T07:30"), asked)
    (question,) = book.open_questions()
    acts.answer(book, question.id, {"answer": "thymol gel"}, AT, "ann")
    assert book.open_questions() == []
    undo_last(book)
    assert book.open_questions() == [question]


def test_a_record_changed_meanwhile_is_not_overwritten(book):
    take(book, NOTE, BOTH)
    seen = held(book, 3)
    acts.fix(book, seen, "mite_check", {"mites": 30}, AT, "ann")
    with pytest.raises(FieldnotesError, match="changed by another run"):
        acts.fix(book, seen, "mite_check", {"mites": 31}, AT, "bo")


@pytest.mark.parametrize(
    ("start", "reason"), [("ab", "at least 4"), ("%%%%", "at least 4"), ("0000000000000000", "no record")]
)
def test_a_record_that_is_not_there_is_named(book, start, reason):
    with pytest.raises(FieldnotesError, match=reason):
        acts.find_record(book, start)


def test_a_short_id_that_fits_several_is_refused(book, monkeypatch):
    numbers = count()
    monkeypatch.setattr("fieldnotes.book.ids.record_id", lambda *_: f"abcd{next(numbers):012}")
    take(book, NOTE, BOTH)
    with pytest.raises(FieldnotesError, match="begin with abcd"):
        acts.find_record(book, "abcd")
    assert acts.find_record(book, book.records()[0].id).id == book.records()[0].id


def test_reading_again_shows_what_changes_and_nothing_where_nothing_does(book):
    note_id = take(book, NOTE, BOTH).note_id
    keys = message_keys(NOTE.text, one_message(NOTE))
    assert what_changes(book, note_id, BOTH, keys) is None
    change = what_changes(book, note_id, reading(((0, 8), 3), ((13, 21), 40)), keys)
    assert (change.gone, change.come) == (["mite check, 4 mites"], ["mite check, 40 mites"])
    assert what_changes(book, note_id, BOTH, ["another key"]) is not None


def test_a_new_reading_counts_and_undo_brings_the_old_one_back(book):
    reread(book, NOTE, reading(((0, 8), 3), ((13, 21), 40)))
    assert mites(book) == [3, 40]
    undo_last(book)
    assert mites(book) == [3, 4]


@pytest.mark.parametrize(
    "new",
    [
        reading(((0, 8), 3), ((13, 21), 5)),
        reading(((0, 8), 3), ((9, 21), 5)),
        reading(((13, 21), 5), ((0, 8), 3)),
    ],
    ids=["same words", "more words", "other order"],
)
def test_a_record_mended_by_hand_survives_reading_again(book, new):
    take(book, NOTE, BOTH)
    acts.fix(book, held(book, 4), "mite_check", {"mites": 44}, AT, "ann")
    reread(book, NOTE, new)
    assert mites(book) == [3, 44]
    undo_last(book)
    assert mites(book) == [3, 44]


THREAD = arrival("one: 12 had 3\ntwo: 14 had 4")
IN_THREAD = reading(((5, 13), 3), ((19, 27), 4))


def thread(day, *senders):
    return [Message(a, b, day, who, day) for (a, b), who in zip(((0, 13), (14, 27)), senders, strict=True)]


@pytest.mark.parametrize(
    "messages",
    [thread("2026-01-06T07:30", "Ann", "Bo"), thread("2026-06-01T07:30", "Anna", "Bob")],
    ids=["another day", "other senders"],
)
def test_what_people_say_survives_where_a_message_is_of_another_day_or_sender(book, messages):
    note_id = take(book, THREAD, IN_THREAD, thread("2026-06-01T07:30", "Ann", "Bo")).note_id
    acts.fix(book, held(book, 4), "mite_check", {"mites": 44}, AT, "ann")
    acts.reject(book, held(book, 3), AT, "ann")

    def again(new):
        return add_revision(book, note_id, THREAD.text, new, messages, "test 2", AT, "ann", None)

    again(IN_THREAD)
    assert mites(book) == [44]
    undo_last(book)
    again(reading(((5, 13), 3)))
    assert mites(book) == [44]
    again(IN_THREAD)
    assert mites(book) == [44]


def test_a_rejected_record_stays_rejected_when_read_again_from_more_words(book):
    take(book, NOTE, BOTH)
    acts.reject(book, held(book, 4), AT, "ann")
    reread(book, NOTE, reading(((0, 8), 3), ((9, 21), 5)))
    assert mites(book) == [3]


def test_a_mended_record_that_is_found_no_more_is_kept_and_can_be_mended_again(book):
    take(book, NOTE, BOTH)
    acts.fix(book, held(book, 4), "mite_check", {"mites": 44}, AT, "ann")
    reread(book, NOTE, reading(((0, 8), 3)))
    assert mites(book) == [3, 44]
    acts.fix(book, held(book, 44), "mite_check", {"mites": 45}, AT, "ann")
    assert mites(book) == [3, 45]
    reread(book, NOTE, reading(((0, 8), 3), ((12, 21), 6)))
    assert mites(book) == [3, 45]
    reread(book, NOTE, BOTH)
    assert mites(book) == [3, 45]
    acts.reject(book, held(book, 45), AT, "ann")
    assert mites(book) == [3]


def test_a_mending_holds_in_a_longer_paste_of_the_same_message(book):
    note = arrival("14 had 4")
    take(book, note, reading(((0, 8), 4)), [Message(0, 8, "2026-06-01T07:30", "Ann", "2026-06-01T07:30")])
    acts.fix(book, held(book, 4), "mite_check", {"mites": 44}, AT, "ann")
    paste = arrival("12 had 3\n14 had 4")
    messages = [
        Message(0, 8, "2026-06-01T07:20", "Ann", "2026-06-01T07:20"),
        Message(9, 17, "2026-06-01T07:30", "Ann", "2026-06-01T07:30"),
    ]
    take(book, paste, reading(((0, 8), 3), ((9, 17), 4)), messages)
    assert mites(book) == [3, 44]


def test_count_readings_are_independent(book):
    take(book, arrival("7 had 1"), count_reading("7 had 1", "7", 1))
    take(book, NOTE, BOTH)
    undo_last(book)
    assert mites(book) == [1]
