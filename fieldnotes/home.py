"""Where an outfit's roster and book are kept."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import platformdirs

from fieldnotes.errors import FieldnotesError


@dataclass(frozen=True)
class Home:
    """The folder that holds one outfit's roster and book."""

    folder: Path

    @property
    def roster(self) -> Path:
        return self.folder / "roster.toml"

    @property
    def book(self) -> Path:
        return self.folder / "book.db"


def find_home(given: Path | None) -> Home:
    """The home in `given` (from `--home` or `$FIELDNOTES_HOME`), else where this system keeps user data."""
    return Home(given.expanduser() if given else platformdirs.user_data_path("fieldnotes", appauthor=False))


def make_home(home: Home) -> None:
    """Make the folder.

    Raises:
        FieldnotesError: something else is in the way, or the disk refuses.
    """
    try:
        home.folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FieldnotesError(
            f"The folder {home.folder} cannot be made: {error.strerror}. Name another with --home."
        ) from None
