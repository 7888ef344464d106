"""Names of files beside the book."""

from __future__ import annotations

import os
from contextlib import suppress
from itertools import count
from pathlib import Path
from urllib.parse import quote


def unused(path: Path) -> Path:
    """This name if nothing has it, else the first free one with a number: book-2.db."""
    if not path.exists():
        return path
    numbered = (path.with_name(f"{path.stem}-{number}{path.suffix}") for number in count(2))
    return next(name for name in numbered if not name.exists())


def as_uri(path: Path, mode: str) -> str:
    """The path as SQLite takes it where more is to be said of how it is opened: "ro", "rw"."""
    return f"file:{quote(str(path.absolute()))}?mode={mode}"


def sync_folder(folder: Path) -> None:
    """Wait until the disk has the names in this folder, where the system lets one wait for that."""
    with suppress(OSError):
        here = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(here)
        finally:
            os.close(here)
