"""Bytes become text, or a sentence that says why not."""

import json
from datetime import datetime

import pytest

from fieldnotes.errors import FieldnotesError
from fieldnotes.intake.files import BadLine, line_arrivals, plain_arrival, read_bytes, said_time

NOW = datetime(2026, 6, 1, 7, 30)
WORDS = "pulled strips at Zoë’s, 12 and 14"


def plain(data: bytes, on=None):
    return plain_arrival(data, "note.txt", on, NOW, "Ann")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252"])
def test_text_is_read_in_the_encodings_that_phones_and_desks_write(encoding):
    arrival = plain(WORDS.encode(encoding))
    assert arrival.text == WORDS
    assert arrival.body == WORDS.encode(encoding)


@pytest.mark.parametrize("data", [b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", b"\x00" * 64, bytes(range(256))])
def test_a_file_that_is_no_text_is_named(data):
    with pytest.raises(FieldnotesError, match=r"note\.txt is not text"):
        plain(data)


def test_a_file_too_long_for_a_note_is_named():
    with pytest.raises(FieldnotesError, match=r"note\.txt is 50 MB long"):
        plain(b"12 had 3 mites. " * (50_000_000 // 16))
    line = json.dumps({"text": "x" * 3_000_000}).encode()
    (bad,) = line_arrivals([line], "n.jsonl", None, NOW, None)
    assert "Line 1 of n.jsonl: it is 3 MB long" in str(bad)


@pytest.mark.parametrize("data", [b"", b" \n\t\r\n", "\ufeff".encode()])
def test_an_empty_note_is_named(data):
    with pytest.raises(FieldnotesError, match=r"note\.txt is empty"):
        plain(data)


def test_the_time_of_a_note():
    assert plain(b"x").received == "2026-06-01T07:30"
    assert plain(b"x", on="2026-05-03").received == "2026-05-03T12:00"
    assert plain(b"x", on="2026-05-03T06:15").received == "2026-05-03T06:15"


@pytest.mark.parametrize("words", ["2026-02-30", "2026-13-01", "tomorrow", "2026-05-03T25:00", ""])
def test_an_impossible_date_is_named(words):
    with pytest.raises(FieldnotesError, match="is not a date"):
        said_time(words)


def test_lines_keep_their_own_name_time_and_sender_and_unknown_keys_are_ignored():
    line = {"id": "a", "text": "hi", "received": "2026-05-03T06:15", "by": "Bo", "records": [], "mood": 3}
    (arrival,) = line_arrivals([json.dumps(line).encode()], "n.jsonl", None, NOW, "Ann")
    assert (arrival.given_id, arrival.text, arrival.received, arrival.by) == ("a", "hi", "2026-05-03T06:15", "Bo")


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        (b"{", "not JSON"),
        (b"[" * 100_000, "not JSON"),
        (b'"words"', "not one object"),
        (b'{"received": "2026-05-03"}', 'no "text"'),
        (b'{"text": " "}', 'no "text"'),
        (b'{"text": "x", "received": "2026-02-30"}', "not a date"),
        (b'{"text": "x", "received": 5}', "not a date"),
        (b'{"text": "x", "by": 5}', "not a name"),
        (b'{"text": "\xff"}', "not UTF-8"),
    ],
)
def test_a_bad_line_is_named_by_its_number_and_the_others_are_read(line, reason):
    good = b'{"text": "good"}'
    first, second, third = line_arrivals([good, b"\n", line, good], "n.jsonl", None, NOW, None)
    assert first.text == third.text == "good"
    assert isinstance(second, BadLine)
    assert str(second).startswith("Line 3 of n.jsonl: ")
    assert reason in str(second)


def test_a_missing_file_and_a_folder_are_named(tmp_path):
    with pytest.raises(FieldnotesError, match="no file"):
        read_bytes(tmp_path / "none.txt")
    with pytest.raises(FieldnotesError, match="cannot be read"):
        read_bytes(tmp_path)
