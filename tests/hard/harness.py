"""Homes to hurt, and commands that are stopped in the middle."""

import os
import random
import shutil
import signal
import sqlite3
import time
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from processes import Run, start

from fieldnotes.book import Book, create_book, open_book, opening
from fieldnotes.book.soundness import faults

AT = "2026-06-01T08:00:00+00:00"
ROSTER = """
outfit = "Two Ponds"
[[yard]]
name = "Quarry"
colonies = ["1-400"]
"""
OLD_BOOK = Path(__file__).parents[1] / "book" / "books" / "version_1.sql"
FULL = os.environ.get("FIELDNOTES_HARD", "") != ""
"""Set FIELDNOTES_HARD=1 to run the hard tests at full length."""


@dataclass
class Bench:
    """Homes to hurt: `folder` for outputs, and a clock of how long a whole run takes."""

    folder: Path
    chance: random.Random
    opened: list[Book] = field(default_factory=list)

    def home(self, name: str, roster: str = ROSTER) -> Path:
        home = self.folder / name
        shutil.rmtree(home, ignore_errors=True)
        home.mkdir()
        (home / "roster.toml").write_text(roster)
        create_book(home / "book.db", AT).close()
        return home

    def old_home(self, name: str, dump: Path) -> Path:
        """A home with the book of an earlier version, dumped as SQL."""
        home = self.home(name)
        (home / "book.db").unlink()
        with closing(sqlite3.connect(home / "book.db")) as db:
            db.executescript(dump.read_bytes().decode())
            db.execute(f"PRAGMA application_id = {opening.APPLICATION_ID}")
        return home

    def open(self, path: Path) -> Book:
        """A book, open until the next process starts: none may carry a connection that another opened."""
        self.opened.append(open_book(path, AT))
        return self.opened[-1]

    def close(self) -> None:
        while self.opened:
            self.opened.pop().close()

    def start(self, home: Path, *args: object, before=None) -> Run:
        self.close()
        return start(self.folder, {"FIELDNOTES_HOME": str(home)}, *args, before=before)

    def ok(self, home: Path, *args: object) -> str:
        """Run to the end; it must end well."""
        run = self.start(home, *args)
        status = run.wait()
        assert status == 0, (args, status, run.complained)
        return run.printed

    def killed(self, home: Path, *args: object, within: float) -> Run:
        """Run it and kill it at a random moment of the time it takes."""
        run = self.start(home, *args)
        time.sleep(self.chance.uniform(0, within))
        status = run.kill()
        assert status in (0, -signal.SIGKILL), (args, status, run.complained)
        assert "Traceback" not in run.complained, run.complained
        return run

    def sound(self, home: Path) -> Book:
        """The book, which must be sound."""
        book = self.open(home / "book.db")
        assert list(faults(book)) == []
        return book


def timed(action) -> float:
    """Seconds that `action()` takes."""
    began = time.monotonic()
    action()
    return time.monotonic() - began
