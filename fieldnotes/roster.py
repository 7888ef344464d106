"""What the outfit already knows: its yards and their colonies, its people, its own words, its own figures."""

from __future__ import annotations

import re
import tomllib
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from fieldnotes.errors import FieldnotesError

_RANGE = re.compile(r"^\s*([A-Za-z]*)[ -]?(\d+)\s*(?:-|–|to|thru|through)\s*([A-Za-z]*)[ -]?(\d+)\s*$")
LONGEST_RANGE = 2000


def colony_id(said: str) -> str:
    """The id as it is stored: letters upper case, digits without leading zeros, no dash, blank or hash."""
    bare = re.sub(r"[\s#.\-–]", "", said).upper()
    return re.sub(r"(?<!\d)0+(?=\d)", "", bare)


@lru_cache(maxsize=8192)
def colony_key(cid: str) -> tuple[str, int, str]:
    """Sorts colony ids the way a person lists them: by letter, then by number."""
    match = re.match(r"^(\D*)(\d*)(.*)$", cid)
    assert match
    return match[1], int(match[2] or 0), match[3]


def id_parts(cid: str) -> tuple[str, str]:
    """The letters of an id and its digits, as written: ("L", "4") of "L4"; either may be empty."""
    letters = cid.rstrip("0123456789")
    return letters, cid[len(letters) :]


def expand(spec: str) -> list[str]:
    """The ids that `"12"`, `"N1-N6"` or `"40-64"` stand for.

    Raises:
        ValueError: a range that runs backwards, changes letters or is longer than `LONGEST_RANGE`.
    """
    match = _RANGE.match(spec)
    if not match:
        return [colony_id(spec)]
    first_letters, first, last_letters, last = match[1].upper(), int(match[2]), match[3].upper(), int(match[4])
    if (last_letters and last_letters != first_letters) or last < first or last - first >= LONGEST_RANGE:
        raise ValueError(f'"{spec}" is not a range of colonies')
    return [f"{first_letters}{n}" for n in range(first, last + 1)]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class Yard(_Part):
    """A yard, its other names, its colonies (ids and ranges) and the truck that serves it."""

    name: str = Field(min_length=1)
    also: list[str] = []
    colonies: list[str] = []
    truck: str | None = None

    @cached_property
    def ids(self) -> tuple[str, ...]:
        """Every colony id of the yard, in order."""
        return tuple(dict.fromkeys(cid for spec in self.colonies for cid in expand(spec)))


class Person(_Part):
    """Someone of the outfit, and how the name gets misheard or shortened."""

    name: str = Field(min_length=1)
    also: list[str] = []


class LabelFigures(_Part):
    """The outfit's own label figures for one agent and form; each wins over the built-in one.

    Days are whole days; `days_in` is least and longest stay, `repeat_days` the interval to the next
    dose, `wait_days` the wait after removal before supers.
    """

    agent: str
    form: str | None = None
    days_in: tuple[int, int] | None = None
    repeat_days: tuple[int, int] | None = None
    doses: int | None = None
    wait_days: int | None = None
    supers_allowed: bool | None = None
    source: str = "the outfit's roster"


class SeasonTask(_Part):
    """Gear that goes on or off at a time of the year: `item` and `step` as in a gear record, `first` and `last` as
    month and day ("10-01"), `yards` where not everywhere."""

    item: Literal["feeder", "mouse_guard", "wrap", "entrance_reducer", "super", "excluder", "trap"]
    step: Literal["on", "off"]
    first: str = Field(pattern=r"^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$")
    last: str = Field(pattern=r"^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$")
    yards: list[str] = []


class Practice(_Part):
    """How the outfit works where it differs from the built-in habits; days unless said otherwise.

    `country` chooses the labels; without it, US units mean the United States and metric ones the
    European Union. `threshold` is in mites per 100 bees; without it the thresholds of `guide` hold, and on
    boards those of `board_guide`. `season` is gear that goes on or off by the calendar every year.
    """

    country: Literal["us", "canada", "uk", "eu", "germany"] | None = None

    check_after_days: tuple[int, int] | None = None
    check_before_days: int | None = None
    escape_days: tuple[int, int] | None = None
    threshold: float | None = None
    guide: str = "coalition"
    board_guide: str = "nbu-board"
    bank_days: int | None = None
    season: list[SeasonTask] = []


class Roster(_Part):
    """The whole roster. An empty one is good: reading works without."""

    outfit: str = ""
    day_first: bool = False
    units: Literal["us", "metric"] = "us"
    hemisphere: Literal["north", "south"] = "north"
    yard: list[Yard] = []
    person: list[Person] = []
    words: dict[str, str] = {}
    label: list[LabelFigures] = []
    practice: Practice = Practice()

    @cached_property
    def yards_of(self) -> dict[str, tuple[str, ...]]:
        """Colony id → names of the yards that have a colony of that id."""
        found: dict[str, tuple[str, ...]] = {}
        for yard in self.yard:
            for cid in yard.ids:
                found[cid] = (*found.get(cid, ()), yard.name)
        return found

    def called(self, words: str) -> Yard | None:
        """The yard that a person typed, by any of its names."""
        plain = words.strip().lower()
        return next((y for y in self.yard if plain in (name.strip().lower() for name in (y.name, *y.also))), None)

    def named(self, name: str) -> Yard | None:
        """The yard of that (stored) name."""
        return next((y for y in self.yard if y.name == name), None)


def parse_roster(text: str, source: str) -> Roster:
    """The roster written in `text` (TOML); `source` is named in errors.

    Raises:
        FieldnotesError: not TOML, or a field that is missing, unknown or of the wrong type; with line and reason.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise FieldnotesError(f"The roster {source} is not TOML: {error}. Mend that line and try again.") from None
    try:
        roster = Roster.model_validate(data)
        names = [y.name for y in roster.yard]
        for yard in roster.yard:
            _ = yard.ids
        twice = {n for n in names if names.count(n) > 1}
        if twice:
            raise ValueError(f"the yard {sorted(twice)[0]} is listed twice")
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(str(p) for p in first["loc"])
        line = _line_of(text, first["loc"])
        raise FieldnotesError(
            f"The roster {source}, line {line}: {where}: {_reason(first)}. Mend it and try again."
        ) from None
    except ValueError as error:
        quoted = re.search(r'"([^"]+)"', str(error))
        line = _line_with(text, quoted[1]) if quoted else 1
        raise FieldnotesError(f"The roster {source}, line {line}: {error}. Mend it and try again.") from None
    return roster


def load_roster(path: Path) -> Roster:
    """The roster in the file `path`.

    Raises:
        FieldnotesError: no such file, not text, or not a roster.
    """
    try:
        return parse_roster(path.read_text(encoding="utf-8"), str(path))
    except FileNotFoundError:
        raise FieldnotesError(f"There is no roster at {path}. Make one with `fieldnotes setup`.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise FieldnotesError(f"The roster {path} cannot be read as text: {error}.") from None


def _reason(error: Any) -> str:
    if error["type"] == "extra_forbidden":
        return "the roster has no such field"
    if error["type"] == "missing":
        return "this field is missing"
    return str(error["msg"])[0].lower() + str(error["msg"])[1:]


def _line_with(text: str, words: str) -> int:
    return next((n for n, line in enumerate(text.splitlines(), 1) if words in line), 1)


def _line_of(text: str, loc: tuple[int | str, ...]) -> int:
    """The line of the field at `loc`: good enough to look at, found by table heading and key."""
    lines = text.splitlines()
    start = 0
    if len(loc) > 1 and isinstance(loc[1], int):
        heads = [n for n, line in enumerate(lines) if re.match(rf"\s*\[\[\s*{re.escape(str(loc[0]))}\s*\]\]", line)]
        start = heads[loc[1]] if loc[1] < len(heads) else 0
    keys = [str(p) for p in loc if isinstance(p, str)]
    for n, line in enumerate(lines[start:], start + 1):
        if re.match(rf"\s*\[*\s*{re.escape(keys[-1])}\b", line):
            return n
    return start + 1
