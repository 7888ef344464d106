"""Columns said once: kinds of frames named without a number, then each colony with as many numbers."""

import pytest

from fieldnotes.reader import read
from fieldnotes.records import Note
from fieldnotes.roster import Roster


def frames_seen(text: str) -> dict[str, tuple[float | None, ...]]:
    reading = read(Note(text=text, received="2026-05-06T12:00", by="Ada"), Roster())
    return {
        record.slots["colonies"][0]: tuple(record.get(x) for x in ("bee_frames", "brood_frames", "food_frames"))
        for record in reading.records
        if record.kind == "inspection"
    }


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        (
            "frames of brood of bees of food in that order hive two is for six to hive three five eight one",
            {"2": (6, 4, 2), "3": (8, 5, 1)},
        ),
        ("bees, brood and stores in that order. 31: 8, 5, 2. 32: 9, 6, 3", {"31": (8, 5, 2), "32": (9, 6, 3)}),
        (
            "frames of bees first then brood um hive six nine and seven then hive seven ten and a half and for",
            {"6": (9, 7, None), "7": (10.5, 4, None)},
        ),
        (
            "brood frames hive one has four hive two six hive three just two",
            {x: (None, y, None) for x, y in (("1", 4), ("2", 6), ("3", 2))},
        ),
        ("frames of bees then frames of brood hive one nine hive two has eight", {}),
        ("pulled frames of brood hive three two hive five one", {}),
    ],
)
def test_each_number_goes_into_its_column(text: str, seen: dict[str, tuple[float | None, ...]]) -> None:
    assert frames_seen(text) == seen
