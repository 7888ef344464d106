"""Sayings as they are spoken or typed, in the files of sayings beside this one, with the records read from them."""

from pathlib import Path

import pytest
from rule_examples import split_example, what_differs
from sayings import read_out, sayings

FILES = sorted(path.name for path in Path(__file__).parent.glob("*.toml"))


@pytest.mark.parametrize("example", [saying for name in FILES for saying in sayings(name)])
def test_sayings(example: str) -> None:
    said, wanted = split_example(example)
    differs = what_differs(wanted, read_out(said))
    assert not differs, f"{said!r}\n{differs}"
