"""Real processes on a real book, stopped in the middle.

The rooms are imported once, here; each command then runs in a process forked off this one, so that hundreds of them
can be started, and killed, in a short time.
"""

import contextlib
import os
import random
import shutil
import signal
import sys
import time
import traceback
from dataclasses import dataclass
from pathlib import Path

import pytest

import fieldnotes.digest
import fieldnotes.reader
import fieldnotes.schedule  # noqa: F401
from fieldnotes.book import create_book, open_book
from fieldnotes.book.soundness import faults
from fieldnotes.cli import main

AT = "2026-06-01T08:00:00+00:00"
ROSTER = """
outfit = "Two Ponds"
[[yard]]
name = "Quarry"
colonies = ["1-400"]
"""
FULL = os.environ.get("FIELDNOTES_HARD", "") != ""
"""Set FIELDNOTES_HARD=1 to run the hard tests at full length."""


@dataclass
class Run:
    """A command running in a forked process."""

    pid: int
    out: Path
    err: Path

    def wait(self) -> int:
        """Its exit status; minus the signal, where one ended it."""
        return os.waitstatus_to_exitcode(os.waitpid(self.pid, 0)[1])

    def kill(self) -> int:
        """Kill -9, unless it is over already."""
        with contextlib.suppress(ProcessLookupError):
            os.kill(self.pid, signal.SIGKILL)
        return self.wait()

    @property
    def printed(self) -> str:
        return _text(self.out)

    @property
    def complained(self) -> str:
        return _text(self.err)


def _text(path: Path) -> str:
    """What a process wrote; nothing, where it was killed before it could open the file."""
    return path.read_text(encoding="utf-8") if path.exists() else ""


def start(folder: Path, home: Path, *args: object, before=None) -> Run:
    """Start `fieldnotes ARGS` in a process of its own; `before` is called in it first."""
    number = len(list(folder.glob("*.out")))
    out, err = folder / f"{number}.out", folder / f"{number}.err"
    pid = os.fork()
    if pid:
        return Run(pid, out, err)
    status = 70
    try:
        for stream, path in ((1, out), (2, err)):
            file = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(file, stream)
        os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
        sys.stdin, sys.stdout, sys.stderr = (open(n, "r" if n == 0 else "w", closefd=False) for n in range(3))  # noqa: SIM115
        os.environ["FIELDNOTES_HOME"] = str(home)
        sys.argv = ["fieldnotes", *map(str, args)]
        if before:
            before()
        try:
            main()
            status = 0
        except SystemExit as leaving:
            status = leaving.code if isinstance(leaving.code, int) else int(bool(leaving.code))
        except BaseException:  # noqa: BLE001
            traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)


@dataclass
class Bench:
    """Homes to hurt: `folder` for outputs, and a clock of how long a whole run takes."""

    folder: Path
    chance: random.Random

    def home(self, name: str, roster: str = ROSTER) -> Path:
        home = self.folder / name
        shutil.rmtree(home, ignore_errors=True)
        home.mkdir()
        (home / "roster.toml").write_text(roster)
        create_book(home / "book.db", AT).close()
        return home

    def start(self, home: Path, *args: object, before=None) -> Run:
        return start(self.folder, home, *args, before=before)

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

    def sound(self, home: Path):
        """The book, which must be sound."""
        book = open_book(home / "book.db", AT)
        assert list(faults(book)) == []
        return book


@pytest.fixture
def bench(tmp_path) -> Bench:
    return Bench(tmp_path, random.Random(20260601))


def timed(action) -> float:
    """Seconds that `action()` takes."""
    began = time.monotonic()
    action()
    return time.monotonic() - began
