"""Terse dictation: bare numbers in turn, rows cut to the bone, corrections upon corrections."""

import tomllib
from pathlib import Path

import pytest
from rule_examples import NOON, split_example, what_differs

from fieldnotes.reader import read
from fieldnotes.records import Note
from fieldnotes.roster import Roster

OUTFIT = Roster.model_validate(
    {
        "yard": [
            {"name": "Low Field", "colonies": ["1-20", "N1-N4"]},
            {"name": "Mill Lane", "colonies": ["40-69"]},
            {"name": "Heath", "colonies": ["H1-H12"]},
        ],
        "person": [{"name": "Ada"}, {"name": "Bo"}],
        "words": {"blues": "formic pads"},
    }
)

SAID = tomllib.loads(Path(__file__).with_name("terse_dictation.toml").read_text(encoding="utf-8"))


def read_out(said: str) -> list[dict[str, object]]:
    """The records read from `said` with the roster above, their yards left out."""
    reading = read(Note(text=said, received=NOON), OUTFIT)
    return [{"kind": r.kind} | {k: v for k, v in r.slots.items() if k != "yard"} for r in reading.records]


@pytest.mark.parametrize("example", [x for group in SAID.values() for x in group])
def test_terse_dictation(example: str) -> None:
    said, wanted = split_example(example)
    differs = what_differs(wanted, read_out(said))
    assert not differs, f"{said!r}\n{differs}"
