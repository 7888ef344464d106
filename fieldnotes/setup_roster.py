"""Writing the first roster, with comments that say what else it may hold."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from fieldnotes.disk import write_whole
from fieldnotes.errors import FieldnotesError


@dataclass
class Answers:
    """What setup asks: the outfit's name, its yards with their colonies, its own words for treatments."""

    outfit: str
    yards: list[tuple[str, list[str]]] = field(default_factory=list)
    words: dict[str, str] = field(default_factory=dict)


def roster_text(answers: Answers) -> str:
    """A commented roster (TOML)."""
    yards = "\n".join(_yard(name, colonies) for name, colonies in answers.yards) or _yard("Home", [])
    words = "".join(f"{_quoted(word)} = {_quoted(meaning)}\n" for word, meaning in answers.words.items())
    return f"""\
# What fieldnotes knows about your outfit. Change it whenever you like: it is read anew each time.

outfit = {_quoted(answers.outfit)}
day_first = false            # false: 6/3 is June 3. true: 6/3 is the 6th of March
units = "us"                 # or "metric": what a bare number of degrees or pounds means
hemisphere = "north"         # or "south"

# Your yards. `also` holds other names for one, as people say or mishear them; `truck` the truck that serves it.
{yards}
# People, and how their names get shortened or misheard.
# [[person]]
# name = "Sam"
# also = ["sammy"]

# Your own words for what you treat with.
[words]
{words or '# greenies = "amitraz strips"' + chr(10)}
# The figures on the label in your hand, where they differ from the built-in ones.
# [[label]]
# agent = "amitraz"
# form = "strip"
# days_in = [42, 56]

# Habits of your own.
# [practice]
# check_after_days = [10, 14]
# threshold = 2.0            # mites per 100 bees
"""


def keep_old(path: Path, now: datetime) -> Path | None:
    """Move a roster that is in the way aside, under a name with the moment in it; gives the new name."""
    if not path.exists():
        return None
    kept = path.with_name(f"{path.stem}-until-{now:%Y%m%d-%H%M%S}{path.suffix}")
    path.rename(kept)
    return kept


def write_roster(path: Path, text: str) -> None:
    """Write it whole or not at all.

    Raises:
        FieldnotesError: the disk refuses.
    """
    try:
        write_whole(path, text.encode())
    except OSError as error:
        raise FieldnotesError(f"The roster {path} cannot be written: {error.strerror}.") from None


def _yard(name: str, colonies: list[str]) -> str:
    listed = ", ".join(_quoted(part) for part in colonies)
    return f'[[yard]]\nname = {_quoted(name)}\ncolonies = [{listed}]\n# also = ["another name"]\n# truck = "red"\n'


def _quoted(words: str) -> str:
    """A TOML string: JSON's escapes are TOML's too."""
    return json.dumps(words, ensure_ascii=False)
