"""The only place that looks at the clock, and at who is sitting here."""

from __future__ import annotations

import getpass
from datetime import datetime


def now() -> datetime:
    """This moment, local time."""
    return datetime.now()


def stamp() -> str:
    """This moment as the book writes it: ISO 8601 with the offset from UTC, to the second."""
    return datetime.now().astimezone().isoformat(timespec="seconds")


def user() -> str | None:
    """The name of the person logged in here, if the system knows one."""
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return None
