"""Promises: what is left to be taken out is a removal promised, other jobs are jobs."""

import pytest

from fieldnotes.reader import read
from fieldnotes.records import Note, Record
from fieldnotes.roster import Roster


def told(text: str) -> list[Record]:
    return read(Note(text=text, received="2026-08-27T16:00", by="Ada"), Roster()).records


def test_going_back_for_those_left_promises_their_removal() -> None:
    records = told("pulled the amitraz strips at Low Field except hives 31 and 32, i'll go back for those saturday")
    later = [r for r in records if r.get("state") == "planned"]
    assert [(r.kind, r.get("step"), r.get("agent"), r.get("colonies"), r.get("on")) for r in later] == [
        ("treatment", "out", "amitraz", ["31", "32"], "2026-08-29")
    ]


def test_an_exception_is_kept_whether_the_roster_has_it_or_not() -> None:
    outfit = Roster.model_validate({"yard": [{"name": "Low Field", "colonies": ["1-9"]}]})
    note = Note(text="pulled the amitraz strips at Low Field except 31 and 32", received="2026-08-27T16:00", by="Ada")
    (record,) = read(note, outfit).records
    assert record.get("except_colonies") == ["31", "32"]


def test_some_hives_left_out_are_not_the_only_ones_done() -> None:
    reading = read(
        Note(text="pulled the amitraz strips at River yard, all but two hives", received="2026-08-27T16:00", by="Ada"),
        Roster(),
    )
    (record,) = reading.records
    assert "colony_count" not in record.slots
    assert [(q.about, q.topic, q.word) for q in reading.questions] == [(0, "left_out", "two hives")]


@pytest.mark.parametrize(
    ("text", "job"),
    [
        ("someone bring the long ladder saturday, there's a swarm in the wall", "bring the long ladder"),
        ("somebody please fix the gate by friday", "fix the gate"),
        ("i'm mending the trailer lights on sunday", "mending the trailer lights"),
    ],
)
def test_a_job_is_kept_in_its_words(text: str, job: str) -> None:
    assert [r.get("text") for r in told(text) if r.kind == "todo"] == [job]


def test_a_caught_swarm_that_is_called_by_a_number_in_words() -> None:
    text = "28 swarmed this morning, caught it off the fence and put it in a box at the bricks calling it fifty five"
    assert [(r.get("step"), r.get("colonies")) for r in told(text) if r.kind == "change"] == [
        ("swarmed", ["28"]),
        ("swarm_caught", ["55"]),
    ]


def test_a_full_id_before_a_bare_number_in_a_range_is_read() -> None:
    records = told("strips in L2 and L4 through 9 had mites")
    assert records[0].get("colonies")[0] == "L2"
