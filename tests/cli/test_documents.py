"""What README.md and the reviewed demo text show is what really comes out (see documents.py)."""

import re

import pytest
from documents import BLOCK, DEMO, README, demo, sessions

from fieldnotes.cli import COMMANDS


def test_the_demo_prints_the_reviewed_text():
    assert demo() == DEMO.read_text(encoding="utf-8")


def test_the_demo_shows_every_section():
    text = DEMO.read_text(encoding="utf-8")
    for heading in ("OVERDUE", "TODAY", "COMING", "TO SETTLE"):
        assert re.search(rf"^{heading} \(\d+\)$", text, re.M), heading


def test_the_readme_shows_real_sessions():
    text = README.read_text(encoding="utf-8")
    assert BLOCK.search(text)
    for shown, fresh in sessions(text):
        assert shown == fresh


@pytest.mark.parametrize("command", [c.__name__.rstrip("_") for cs in COMMANDS.values() for c in cs])
def test_the_readme_names_every_command(command):
    assert f"`fieldnotes {command}" in README.read_text(encoding="utf-8")
