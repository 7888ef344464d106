"""Temperatures: said in notes, or given in a plain table of daily highs and lows."""

from __future__ import annotations

import csv
import datetime
import io
from dataclasses import dataclass
from pathlib import Path

from fieldnotes.errors import FieldnotesError
from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.days import first_day, last_day
from fieldnotes.schedule.ledger import Ledger

COLUMNS = ("date", "high", "low", "yard", "unit")


@dataclass(frozen=True, slots=True)
class Reading:
    """The temperature of one day, in degrees Celsius; `yard` is "" where it holds everywhere.

    `spot` marks a single reading, which says how hot it got at least, and nothing of the day's low.
    """

    day: datetime.date
    high_c: float | None
    low_c: float | None
    yard: str = ""
    source: str = ""
    spot: bool = False
    record: StoredRecord | None = None


def load_weather(path: Path, roster: Roster) -> list[Reading]:
    """The daily highs and lows in the CSV file `path`.

    The first line names the columns: `date` (like 2026-08-14) and `high`, and if wanted `low`, `yard`, and `unit`
    (F or C; without it, the roster's units). Later days may be a forecast.

    Raises:
        FieldnotesError: no such file, not text, or a line that cannot be read; with the line.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise FieldnotesError(f"There is no weather file at {path}. Give a CSV file with date, high and low.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise FieldnotesError(f"The weather file {path} cannot be read as text: {error}.") from None
    return parse_weather(text, roster, str(path))


def parse_weather(text: str, roster: Roster, source: str) -> list[Reading]:
    """The daily highs and lows written in `text` (CSV); `source` is named in errors.

    Raises:
        FieldnotesError: a column that is missing or unknown, or a line that cannot be read.
    """
    rows = csv.DictReader(io.StringIO(text), skipinitialspace=True)
    names = [(n or "").strip().lower() for n in rows.fieldnames or []]
    rows.fieldnames = names
    if "date" not in names or "high" not in names:
        raise FieldnotesError(f"The weather file {source}, line 1: it must name the columns date and high.")
    strange = sorted(set(names) - set(COLUMNS))
    if strange:
        raise FieldnotesError(f'The weather file {source}, line 1: no column "{strange[0]}" is known here.')
    return [
        _reading(row, roster, source, rows.line_num) for row in rows if any((v or "").strip() for v in row.values())
    ]


def _reading(row: dict[str, str], roster: Roster, source: str, line: int) -> Reading:
    unit = (row.get("unit") or "").strip().upper()[:1] or ("F" if roster.units == "us" else "C")
    try:
        day = datetime.date.fromisoformat((row.get("date") or "").strip())
        high = _celsius(float(row["high"]), unit)
        low = _celsius(float(row["low"]), unit) if (row.get("low") or "").strip() else None
    except (ValueError, TypeError):
        raise FieldnotesError(
            f"The weather file {source}, line {line}: a line needs a date like 2026-08-14 and a number for the high."
        ) from None
    if unit not in "FC":
        raise FieldnotesError(f"The weather file {source}, line {line}: the unit must be F or C.")
    where = (row.get("yard") or "").strip()
    yard = roster.called(where)
    return Reading(day, high, low, yard.name if yard else where, f"the weather file for {day.isoformat()}")


def readings_of(ledger: Ledger) -> list[Reading]:
    """The temperatures that notes tell of."""
    found = []
    for record in ledger.conditions:
        slots = record.slots
        unit = slots.get("unit") or ("F" if ledger.roster.units == "us" else "C")
        high, spot = slots.get("high"), "high" not in slots
        high = slots.get("temp") if high is None else high
        low = slots.get("low")
        if high is None and low is None:
            continue
        found.append(
            Reading(
                day=first_day(record),
                high_c=None if high is None else _celsius(high, unit),
                low_c=None if low is None else _celsius(low, unit),
                yard=slots.get("yard") or "",
                source=f"a note of {last_day(record).isoformat()}",
                spot=spot,
                record=record,
            )
        )
    return found


def _celsius(value: float, unit: str) -> float:
    return (value - 32) / 1.8 if unit == "F" else float(value)


def shown(celsius: float, roster: Roster) -> str:
    """A temperature in the outfit's units: "92 F" or "33 C"."""
    return f"{celsius * 1.8 + 32:.0f} F" if roster.units == "us" else f"{celsius:.0f} C"
