"""Counts said after all their colonies: each colony its own, or, where their numbers differ, none guessed."""

import pytest

from fieldnotes.reader import read
from fieldnotes.records import Note
from fieldnotes.roster import Roster


def counted(text: str) -> dict[str, float]:
    reading = read(Note(text=text, received="2026-09-06T12:00", by="Ada"), Roster())
    found: dict[str, float] = {}
    for record in reading.records:
        if record.kind == "mite_check" and "mites" in record.slots and "colonies" in record.slots:
            for colony in record.slots["colonies"]:
                assert colony not in found, f"two counts for {colony}: {reading.records}"
                found[colony] = record.slots["mites"]
    return found


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("sugar rolled 16, 17 and 18 today, they came to one none and four in that order", {"16": 1, "17": 0, "18": 4}),
        ("alcohol wash half cup on 3, 5 and 9 four two and six", {"3": 4, "5": 2, "9": 6}),
        ("soap washed hives 31 and 32 so we know. half cup, 9 and 16", {"31": 9, "32": 16}),
        (
            "washed hives 40 to 43 this morning half cup zero zero three and eleven",
            {"40": 0, "41": 0, "42": 3, "43": 11},
        ),
        ("washed hives 40 and 41. 2 strips in each", {}),
        ("rolled hives 8 and 9, 10 and 11 tomorrow", {}),
    ],
)
def test_each_colony_has_its_own_count(text: str, counts: dict[str, float]) -> None:
    assert counted(text) == counts
