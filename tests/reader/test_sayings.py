"""Sayings as they are spoken or typed: terse rows, and streams that say several things in one breath."""

import pytest
from rule_examples import split_example, what_differs
from sayings import read_out, sayings


@pytest.mark.parametrize(
    "example",
    [
        *sayings("terse_dictation.toml"),
        *sayings("spoken_streams.toml"),
        *sayings("dealt_out.toml"),
        *sayings("written_tables.toml"),
    ],
)
def test_sayings(example: str) -> None:
    said, wanted = split_example(example)
    differs = what_differs(wanted, read_out(said))
    assert not differs, f"{said!r}\n{differs}"
