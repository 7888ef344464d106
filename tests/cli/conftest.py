"""Runs the command as a user does: a process of its own, with a home of its own."""

import os
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace

import pytest
from processes import start

ROSTER = """
outfit = "Two Ponds"

[[yard]]
name = "Quarry"
also = ["the quarry"]
colonies = ["1-24"]
truck = "red"

[[yard]]
name = "Larkfield"
colonies = ["L1-L9"]

[[person]]
name = "Ann"

[words]
greenies = "amitraz strips"
"""


@dataclass
class Outfit:
    """A home to run commands in."""

    home: Path

    def run(self, *args, stdin: str | bytes = b"", env: dict[str, str] | None = None, before=None):
        """Run `fieldnotes ARGS`; gives the finished process, its output as text. `before` is called in it first."""
        given = stdin.encode() if isinstance(stdin, str) else stdin
        folder = self.home.parent / "output"
        folder.mkdir(exist_ok=True)
        run = start(folder, self.env | (env or {}), *args, stdin=given, before=before)
        done = SimpleNamespace(returncode=run.wait(), stdout=run.printed, stderr=run.complained)
        assert "Traceback" not in done.stderr, done.stderr
        return done

    @property
    def env(self) -> dict[str, str]:
        return os.environ | {"FIELDNOTES_HOME": str(self.home), "COLUMNS": "100", "PYTHONUTF8": "1"}

    def ok(self, *args, **more) -> str:
        """Run it; it must end well. Gives what it printed."""
        done = self.run(*args, **more)
        assert done.returncode == 0, done.stderr
        return done.stdout

    def bad(self, *args, **more) -> str:
        """Run it; it must leave one sentence and status 2. Gives the sentence."""
        done = self.run(*args, **more)
        assert done.returncode == 2, (done.returncode, done.stdout, done.stderr)
        return done.stderr


@pytest.fixture
def bare(tmp_path) -> Outfit:
    """A home with nothing in it."""
    return Outfit(tmp_path / "home")


@pytest.fixture
def outfit(tmp_path) -> Outfit:
    """A home with a roster and an empty book."""
    (tmp_path / "roster.toml").write_text(ROSTER)
    made = Outfit(tmp_path / "home")
    made.ok("setup", "--from", tmp_path / "roster.toml")
    return made
