"""Sayings with the records read from them, beside one small roster."""

import tomllib
from pathlib import Path

from rule_examples import NOON

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


def sayings(name: str) -> list[str]:
    """All sayings of the file `name` in this folder."""
    groups = tomllib.loads(Path(__file__).with_name(name).read_text(encoding="utf-8"))
    return [saying for group in groups.values() for saying in group]


def read_out(said: str) -> list[dict[str, object]]:
    """The records read from `said` with the roster above, their yards left out."""
    reading = read(Note(text=said, received=NOON), OUTFIT)
    return [{"kind": r.kind} | {k: v for k, v in r.slots.items() if k != "yard"} for r in reading.records]
