"""The treatment register as a table, as CSV, and as a page to print. A gap is shown as a gap."""

from __future__ import annotations

import csv
import html
import io
from collections.abc import Callable, Sequence

from fieldnotes.digest.tables import table_lines
from fieldnotes.schedule.register import KEEP_YEARS, RegisterRow
from fieldnotes.schedule.wording import id_ranges

GAP = "not said"
_COLUMNS: tuple[tuple[str, Callable[[RegisterRow], str | None]], ...] = (
    ("date in", lambda r: r.date_in),
    ("date out", lambda r: r.date_out or (r.note if r.note == "still in" else None)),
    ("yard", lambda r: r.yard),
    ("colonies", lambda r: _colonies(r)),
    ("active", lambda r: r.active),
    ("form", lambda r: r.form),
    ("product as written", lambda r: r.product),
    ("amount", lambda r: _amount(r)),
    ("dose", lambda r: str(r.dose) if r.dose else ""),
    ("who", lambda r: _people(r)),
    ("waiting days", lambda r: str(r.waiting_days) if r.waiting_days is not None else None),
    ("free from", lambda r: r.free_from if r.free_from or r.date_out else ""),
    ("days in", lambda r: str(r.days_in) if r.days_in is not None else ""),
    ("temperature", lambda r: r.temperature),
    ("count before", lambda r: r.count_before),
    ("count after", lambda r: r.count_after if r.count_after or r.date_out else ""),
    ("lot number", lambda r: r.lot),
    ("supplier", lambda r: r.supplier),
    ("bought", lambda r: r.bought),
    ("vet", lambda r: r.vet),
    ("note", lambda r: r.note if r.note != "still in" else ""),
)
_COUNTED = ("strip", "pad", "tray", "wafer", "sponge", "gram")
_SHORT = frozenset(
    ["date in", "date out", "yard", "colonies", "active", "form", "amount", "who", "waiting days", "lot number", "note"]
)


def register_csv(rows: Sequence[RegisterRow]) -> str:
    """The register as CSV (RFC 4180), with every field; a gap is an empty cell."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow([name for name, _ in _COLUMNS])
    for row in rows:
        writer.writerow([_cell(get(row)) for _, get in _COLUMNS])
    return out.getvalue()


def _cell(value: str | None) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{value}" if value and value[0] in "=+-@\t\r" else value or ""


def register_text(rows: Sequence[RegisterRow], outfit: str = "", year: int | None = None) -> str:
    """The register as a table for people: the fields that notes hold, and the gaps."""
    if not rows:
        return f"{title(outfit, year)}\n\nNo treatment is in the book for that time.\n"
    columns = [(n, get) for n, get in _COLUMNS if n in _SHORT]
    cells = [[GAP if (value := get(row)) is None else value for _, get in columns] for row in rows]
    table = table_lines([n for n, _ in columns], cells)
    gaps = sum(get(row) is None for row in rows for _, get in _COLUMNS)
    foot = f"{len(rows)} treatments, {gaps} gaps: the CSV and the page have every field. Keep it {KEEP_YEARS} years."
    return "\n".join([title(outfit, year), "", *table, "", foot]) + "\n"


def title(outfit: str, year: int | None) -> str:
    """The heading of the register."""
    return ", ".join(p for p in ("Treatment register", outfit, str(year) if year else "") if p)


def register_page(rows: Sequence[RegisterRow], outfit: str = "", year: int | None = None) -> str:
    """The register as one HTML page to print: every field, gaps marked and wide enough to write in."""
    head = "".join(f"<th>{html.escape(name)}</th>" for name, _ in _COLUMNS)
    body = "\n".join(f"<tr>{''.join(_html_cell(get(row)) for _, get in _COLUMNS)}</tr>" for row in rows)
    heading = html.escape(title(outfit, year))
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>{heading}</title>
<style>
@page {{ size: landscape; margin: 8mm; }}
body {{ font: 10pt/1.3 sans-serif; margin: 1em; }}
@media print {{ body {{ font-size: 6pt; margin: 0; }} h1 {{ font-size: 12pt; }} p {{ font-size: 8pt; }} }}
table {{ border-collapse: collapse; width: 100%; }}
th, td {{ border: 1px solid #666; padding: 2px 4px; text-align: left; vertical-align: top; }}
th {{ background: #eee; }}
tr {{ break-inside: avoid; }}
thead {{ display: table-header-group; }}
td.gap {{ background: #fff6cc; color: #777; min-width: 4em; }}
</style>
</head>
<body>
<h1>{heading}</h1>
<table>
<thead><tr>{head}</tr></thead>
<tbody>
{body}
</tbody>
</table>
<p>A yellow cell is a gap: nothing was said, so nothing is filled in. Fields: Regulation (EU) 2019/6, article 108(2),
and the UK Veterinary Medicines Regulations. Keep this register {KEEP_YEARS} years, also for colonies that died or were
sold. Waiting times are those of the label on file: the label in your hand and local law win.</p>
</body>
</html>
"""


def _html_cell(value: str | None) -> str:
    return '<td class="gap">not said</td>' if value is None else f"<td>{html.escape(value)}</td>"


def _colonies(row: RegisterRow) -> str | None:
    if row.every_colony:
        return "every colony"
    if row.colonies:
        return id_ranges(row.colonies)
    return f"{row.hives} hives, not named" if row.hives else None


def _amount(row: RegisterRow) -> str | None:
    """ "2 strips", "35 ml"; a number alone where no unit was said."""
    if row.amount is None:
        return None
    unit = f"{row.unit}s" if row.unit in _COUNTED and row.amount != 1 else row.unit
    return f"{row.amount:g} {unit}" if unit else f"{row.amount:g}"


def _people(row: RegisterRow) -> str | None:
    names = dict.fromkeys(n for n in (row.who_in, row.who_out) if n)
    return ", ".join(names) if names else None
