"""Files written whole."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Write a file whole or not at all: under another name first, named right when it is safe on the disk.

    A file that is there already is replaced, and the new one keeps its rights.

    Raises:
        OSError: the disk refuses; what was there is as it was.
    """
    draft = path.with_name(f".fieldnotes-{os.getpid()}.new")  # not of the file's name, which may be as long as can be
    try:
        draft.unlink(missing_ok=True)
        with draft.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            draft.chmod(path.stat().st_mode & 0o7777)
        draft.replace(path)
    except BaseException:
        with suppress(OSError):
            draft.unlink(missing_ok=True)
        raise
