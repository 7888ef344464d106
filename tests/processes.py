"""Runs the command in processes of its own, without the wait for Python and the reader to start.

The rooms are imported once, here, and what a first run puts together (the options, the reader's grammar) is put
together once; each command then runs, from `main` on, in a process forked off this one. So hundreds of them can be run,
and killed, in a short time, and a kill meets them at their work and not while they get ready.
"""

import contextlib
import gc
import importlib
import io
import os
import pkgutil
import signal
import sys
import tempfile
import time
import traceback
from dataclasses import dataclass
from pathlib import Path

import rich.console
import rich.table  # noqa: F401
import typer.main

import fieldnotes
from fieldnotes import cli
from fieldnotes.datafiles import data_folder

for _, module, _ in pkgutil.walk_packages(fieldnotes.__path__, "fieldnotes."):
    if not module.endswith("__main__"):
        importlib.import_module(module)


def get_ready() -> None:
    """Put together what the first commands put together: the options, and what reading and printing need."""
    cli.app = typer.main.get_command(cli.app)
    samples = data_folder("sample_notes")
    with tempfile.TemporaryDirectory() as folder, contextlib.redirect_stdout(io.StringIO()):
        home, note = Path(folder) / "home", Path(folder) / "note.txt"
        note.write_text("alcohol wash at orchard 12 had 3 mites, bluegoo in 14 yesterday", encoding="utf-8")
        for words in (
            ("setup", "--from", samples / "roster.toml"),
            ("take", note),
            ("morning", "--on", "2026-06-02"),
            ("find", "mites"),
            ("history",),
            ("history", "12"),
            ("settle", "--list"),
            ("check",),
        ):
            cli.app([*map(str, words), "--home", str(home)], standalone_mode=False)
    gc.collect()
    gc.freeze()  # so that the collector of a process forked off leaves alone, and shares, what stands here


get_ready()

LONGEST = 300.0
"""Seconds that a command may take before it counts as hanging."""


@dataclass
class Run:
    """A command running in a process of its own."""

    pid: int
    out: Path
    err: Path
    status: int | None = None
    """The exit status when it is over; minus the signal, where one ended it."""

    def wait(self) -> int:
        """Wait for its end; gives the status."""
        until = time.monotonic() + LONGEST
        pause = 0.001
        while not self.over():
            assert time.monotonic() < until, f"it hangs: {self.printed}{self.complained}"
            time.sleep(pause)
            pause = min(pause * 1.5, 0.02)
        assert self.status is not None
        return self.status

    def over(self) -> bool:
        """Whether it has ended."""
        if self.status is None:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self.status = os.waitstatus_to_exitcode(status)
        return self.status is not None

    def kill(self) -> int:
        """Kill -9, unless it is over already."""
        if not self.over():
            with contextlib.suppress(ProcessLookupError):
                os.kill(self.pid, signal.SIGKILL)
        return self.wait()

    @property
    def printed(self) -> str:
        return _text(self.out)

    @property
    def complained(self) -> str:
        return _text(self.err)


def book_held(home: Path) -> bool:
    """Whether its book is open here. SQLite in a process forked off would take our locks on it for its own."""
    open_here = Path("/proc/self/fd")
    book = str(home.resolve() / "book.db")
    return open_here.is_dir() and book in {str(one.readlink()) for one in open_here.iterdir() if one.is_symlink()}


def start(folder: Path, env: dict[str, str], *args: object, stdin: bytes = b"", before=None) -> Run:
    """Start `fieldnotes ARGS`; `folder` takes what it prints. `before` is called in the new process first."""
    number = len(list(folder.glob("*.in")))
    given, out, err = (folder / f"{number}.{ending}" for ending in ("in", "out", "err"))
    given.write_bytes(stdin)
    assert not book_held(Path(env["FIELDNOTES_HOME"])), "a process must not carry a connection to its book with it"
    pid = os.fork()
    if pid:
        return Run(pid, out, err)
    status = 70
    try:
        os.dup2(os.open(given, os.O_RDONLY), 0)
        for stream, path in ((1, out), (2, err)):
            os.dup2(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), stream)
        sys.stdin = os.fdopen(0, encoding="utf-8", closefd=False)
        sys.stdout = os.fdopen(1, "w", encoding="utf-8", closefd=False)
        sys.stderr = os.fdopen(2, "w", encoding="utf-8", closefd=False)
        os.environ.update(env)
        sys.argv = ["fieldnotes", *map(str, args)]
        if before:
            before()
        try:
            cli.main()
            status = 0
        except SystemExit as leaving:
            status = leaving.code if isinstance(leaving.code, int) else int(bool(leaving.code))
        except BaseException:  # noqa: BLE001 (the test looks for what was printed)
            traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)


def _text(path: Path) -> str:
    """What a process wrote; nothing, where it was killed before it could open the file."""
    return path.read_text(encoding="utf-8") if path.exists() else ""
