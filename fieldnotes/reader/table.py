"""Tables with a row of headings: "hive | queen | brood frames | mites" over rows of cells.

The columns are known by their headings; each bare cell below is given the meaning of its column, as
marks, before the statements are made. Rows without such a heading are read as plain lists.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

from fieldnotes.reader.grammar import meanings
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.marking.colours import colour_in
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit

_COLUMNS = meanings("column_headings")
_QUEENS = meanings("queens_in_columns")
_OVER_HIVES = frozenset(["hive", "hives", "colony", "col", "#"])
"""What stands first in a line of headings that only blanks part."""
CELL_TYPES = frozenset(["emergency", "supersedure", "swarm"])


@dataclass(slots=True)
class _Table:
    """The table being read: how its cells are parted, where each begins, and what its headings say."""

    sign: str  # "|", "/", ",", "" where gaps part the cells, " " where single blanks do
    starts: list[int]
    columns: list[str]
    methods: dict[int, Mark]  # the methods of several columns of counts
    forms: dict[int, Mark]  # "strip" over cells that name the agent alone
    days: dict[int, Mark]  # the days over columns of counts
    above: list[list[Mark]] = field(default_factory=list)  # the cells of the row above, which ditto marks repeat


def read_tables(row: list[Mark], outfit: Outfit) -> list[Mark]:
    """The row of marks with the cells of tables given the meaning of their columns."""
    if (
        sum([m.label == "comma" or m.w == "/" for m in row]) < 3
        and (len(row) < 5 or sum([b.s - a.e > 1 and _gap(a, b) for a, b in pairwise(row)]) < 2)
        and not any(m.w in _OVER_HIVES and (k == 0 or row[k - 1].label == "line") for k, m in enumerate(row))
    ):
        return row
    lines = [line for line in _lines(row) if not _rule_between(line)]
    table: _Table | None = None
    checked = False  # whether a check stands on a line above
    out: list[Mark] = []
    for line, below in zip(lines, [*lines[1:], []], strict=True):
        headed = _headings(line, below)
        if headed is not None:
            table = headed
            said = [m for m in line if m.label in ("sample", "yard") or (m.label == "method" and not table.methods)]
            said += [
                Mark("sample", a.s, b.e, f"{a.w} {b.w}", {"bees": int(b.v["n"].value)}, "sample over a column")
                for a, b in pairwise(line)
                if _of_so_many(a, b)
            ]
            if said:
                out += [m for m in line if m.label == "line"] + said
            elif line[0].w == "¶¶" and below[0].label == "line":
                below[0].w = "¶¶"  # as if the rows stood there, under what stands over the table
            continue
        cells = _cells_below(table, line) if table is not None else []
        if table is not None and len(cells) == len(table.columns):
            cells = [table.above[k] if _is_ditto(c) and k < len(table.above) else c for k, c in enumerate(cells)]
            table.above = cells
            out += _row(line, cells, table, outfit)
            continue
        if table is not None and len(line) > 1 and len(_cells(line, table.sign)) < 2:
            table = None
        counted = _counted_row(line) if checked else None
        if counted is not None:
            out += counted
            continue
        checked = checked or any([m.label in ("method", "mites") for m in line])  # noqa: C419
        out += line
    return out


def _headings(line: list[Mark], below: list[Mark]) -> _Table | None:
    """The table that begins with the line: each cell names a column, and the line below has cells too."""
    if len(line) < 3 or len(below) < 3:
        return None
    for sign in ("|", "", "/", ",", ";", " "):
        cells = _cells(line, sign)
        if len(cells) < 2:
            continue
        rows = _cells(below, sign)
        named = [column_of(c) for c in cells]
        if len(rows) == len(cells) + 1 and _names_colony(rows[0]) and all(map(_is_day, cells)):
            cells = [[], *cells]  # days over columns of counts
            named = ["colony", *named]
        if (
            len(rows) > 1
            and named[0] is None
            and (not cells[0] or cells[0][0].label == "yard")
            and _names_colony(rows[0])
        ):
            named[0] = "colony"  # "Lower Mill | queen | notes" over rows that begin with colonies
        known = sum(h is not None for h in named)
        if known > 1 and sign in ("|", "") and named[0] == "colony" and _names_colony(rows[0]):
            named = [h or "other" for h in named]  # "hive | wash | bees | what next"
        if known < 2 or len(rows) < 2:  # over nothing "eggs seen, no queen" are no headings
            continue
        if (
            any(h is None for h in named)
            or not {"colony", "yard"} & set(named)
            or (sign in ("/", " ") and len(cells) < 3)
        ):
            continue
        if sign == " " and (named[0] != "colony" or not _names_colony(rows[0]) or len(rows) < len(cells) - 1):
            continue
        columns = [h or "other" for h in named]
        if not {"mites", "method"} & set(columns):
            columns = ["bee_frames" if h == "bees" else h for h in columns]  # of no sample
        first = next(c[0].s for c in cells if c)
        methods = {k: m for k, c in enumerate(cells) if columns[k] == "method" for m in c[:1]}
        methods = methods if len(methods) > 1 else {}
        forms = {k: m for k, c in enumerate(cells) if columns[k] == "other" for m in c if m.label == "form"}
        days = {k: c[0] for k, c in enumerate(cells) if columns[k] == "day"}
        return _Table(sign, [c[0].s - first if c else 0 for c in cells], columns, methods, forms, days)
    return None


def _rule_between(line: list[Mark]) -> bool:
    """ "|---|---|": the line that parts the headings from the rows, and holds no word."""
    signs = "".join([m.w for m in line if m.label != "line"])
    return "-" in signs and "|" in signs and set(signs) <= {"|", "-", ":", " "}


def _counted_row(line: list[Mark]) -> list[Mark] | None:
    """The row "11 | 2" below a check, its colony and its count made such; None of any other line."""
    cells = [m for m in line if m.label != "line"]
    if len(cells) != 3 or cells[1].w != "|" or cells[2].label != "number" or not _names_colony(cells[:1]):
        return None
    colony, sign, count = cells
    lines = [m for m in line if m.label == "line"]
    return [
        *lines,
        *_colonies([colony]),
        sign,
        Mark("value", count.s, count.e, count.w, dict(count.v), "column of mites"),
    ]


def _colonies(cell: list[Mark]) -> list[Mark]:
    """What a cell of a column of colonies names: one, or a list ("1-6", "S2, S5")."""
    if len(cell) > 1:
        listed = any(m.label in ("hive", "hives") for m in cell)
        return cell if listed else [Mark("hives", cell[0].s, cell[0].s, "hives"), *cell]
    m = cell[0]
    if m.label not in ("number", "colony"):
        return cell
    bare = m.label == "number"
    ids = [str(int(m.v["n"].value)) if bare else m.v["value"]]
    return [Mark("cols", m.s, m.e, m.w, {"ids": ids, "bare": bare}, "column of hives")]


def _names_colony(cell: list[Mark]) -> bool:
    return len(cell) == 1 and cell[0].label in ("number", "colony")


def _cells_below(table: _Table, line: list[Mark]) -> list[list[Mark]]:
    """The cells of a row, empty ones at its end with them; none where the line is no row of the table."""
    cells = _cells(line, table.sign)
    wanted = len(table.columns)
    unsaid = table.sign == "|" or (table.sign in (",", ";") and line[-1].w == table.sign)
    if unsaid and 1 < len(cells) < wanted:
        return cells + [[] for _ in range(wanted - len(cells))]  # the last cells are empty
    if table.sign == "" and 1 < len(cells) < wanted:
        return _aligned(table, line)
    if table.sign == " " and table.columns[-1] == "other" and len(cells) >= wanted - 1:
        return [*cells[: wanted - 1], [m for c in cells[wanted - 1 :] for m in c]]  # the last cell has several words
    return cells


def _aligned(table: _Table, line: list[Mark]) -> list[list[Mark]]:
    """The cells of a row parted where the headings begin ("seen (wh) 7 1/2" under "queen     brood")."""
    cells: list[list[Mark]] = [[] for _ in table.columns]
    marks = [m for m in line if m.label != "line"]
    at = 0
    for m in marks:
        begins = m.s - marks[0].s
        under = at
        while under + 1 < len(table.starts) and begins >= table.starts[under + 1]:
            under += 1
        if under > at and begins != table.starts[under]:
            return []
        at = under
        cells[at].append(m)
    return cells


def _lines(row: list[Mark]) -> list[list[Mark]]:
    lines: list[list[Mark]] = [[]]
    for m in row:
        if m.label == "line":
            lines.append([m])
        else:
            lines[-1].append(m)
    return lines


def _cells(line: list[Mark], sign: str) -> list[list[Mark]]:
    """The cells of a line: what stands between the signs, or between gaps where no sign parts them."""
    cells: list[list[Mark]] = [[]]
    for k, m in enumerate(line):
        if m.label == "line":
            continue
        if cells[-1] and (sign == " " or (sign == "" and _gap(line[k - 1], m))):
            cells.append([])
        if (m.w == sign and sign) or (sign == "," and m.label == "comma"):
            cells.append([])
        else:
            cells[-1].append(m)
    if not cells[0]:
        cells = cells[1:]
    if cells and not cells[-1]:
        cells = cells[:-1]
    return cells


def _is_ditto(cell: list[Mark]) -> bool:
    return len(cell) == 1 and (cell[0].w in ('"', "”", "〃", "''") or cell[0].label == "same")


def _gap(a: Mark, b: Mark) -> bool:
    """Whether two blanks or a tab part the marks, as columns are parted in typed tables."""
    return b.s - a.e > 1 and a.label != "line" and b.label != "line"


def _is_day(cell: list[Mark]) -> bool:
    return len(cell) == 1 and cell[0].label == "date"


def column_of(cell: list[Mark]) -> str | None:
    """The column a heading cell names; None where it is no heading."""
    if cell and all(m.label == "method" for m in cell):
        return "method"
    if _is_day(cell):
        return "day"
    if any(_of_so_many(a, b) for a, b in pairwise(cell)):
        cell = [m for m in cell if m.label != "number"]  # "mites in 300, alcohol wash"
    words = [w for m in cell for w in m.w.split() if w.isalpha() or w == "#"]
    if not words or any(m.label in ("number", "colony") for m in cell):
        return None
    joined = " ".join(words)
    if "brood" in words:
        return "brood_frames"
    if "frames" in words and ("bees" in words or "bee" in words):
        return "bee_frames"
    if "food" in words:
        return "food_frames"
    if "mites" in words or "mite" in words:
        return "mites"
    if "cells" in words:
        return "cells"
    return _COLUMNS.get(words[0]) or _COLUMNS.get(joined)


def _of_so_many(a: Mark, b: Mark) -> bool:
    """Whether "in 300" stands there, as it does over a column of mites."""
    return a.w in ("in", "of") and b.label == "number" and b.v["n"].value >= _FEWEST_BEES


_FEWEST_BEES = 50


def _row(line: list[Mark], cells: list[list[Mark]], table: _Table, outfit: Outfit) -> list[Mark]:
    out: list[Mark] = [m for m in line if m.label == "line"]
    first: list[Mark] = []
    rest: list[Mark] = []
    days: list[list[Mark]] = []
    for k, (cell, column) in enumerate(zip(cells, table.columns, strict=True)):
        if column in ("colony", "yard"):
            first += _colonies(cell) if column == "colony" and cell else cell
            continue
        if column in ("in", "out") and any(m.label == "date" for m in cell):
            day = next(m for m in cell if m.label == "date")
            if days:
                day.v["after"] = days[0][1].v["value"]
            days.append([Mark("w", day.s, day.s, column), day])
            continue
        if column == "day":
            if counts := cell_below(cell, "mites"):
                day = replace(table.days[k], s=counts[0].s, e=counts[0].s)
                days.append([Mark("comma", day.s, day.s, ","), *counts, day])
            continue
        given = cell_below(cell, column)
        if k in table.forms and any(m.label == "agent" for m in cell) and not any(m.label == "form" for m in cell):
            given = [*given, replace(table.forms[k], s=cell[-1].e, e=cell[-1].e)]
        if given:
            where = given[0].s
            if not days and _given_apart(rest, given):
                rest += [_line_at(line, where), *first]
            rest.append(Mark("comma", where, where, ","))
            if k in table.methods:
                rest.append(
                    Mark("method", where, where, table.methods[k].w, dict(table.methods[k].v), table.methods[k].rule)
                )
            rest += given
    if days:
        # columns "in" and "out", or of several days: a statement for each day
        line_mark = _line_at(line, days[0][0].s)
        parts = [[*first, *rest, *day] for day in days]
        joined = parts[0]
        for part in parts[1:]:
            joined = [*joined, line_mark, *part]
        return out + joined
    return out + first + rest


def _line_at(line: list[Mark], at: int) -> Mark:
    """The mark between two statements that one row makes."""
    begins = next((m.s for m in line if m.label == "line"), at)
    return Mark("line", begins, begins, "¶")


def _given_apart(rest: list[Mark], cell: list[Mark]) -> bool:
    """Whether the cell says what the hive was given, and those before it what was counted or seen in it."""
    found = any(m.label in ("value", "fact", "clean", "mites") for m in rest)
    return found and any(m.label in THINGS for m in cell) and not any(m.label in THINGS for m in rest)


def cell_below(cell: list[Mark], column: str) -> list[Mark]:
    if all(not m.w.isalnum() for m in cell) and all(m.label == "w" for m in cell):
        return []  # "-": nothing
    numbers = [m for m in cell if m.label in ("number", "value")]
    if column == "moisture" and numbers:
        return [Mark("moisture", m.s, m.e, m.w, dict(m.v), "column of moisture") for m in numbers[:1]]
    if column in ("brood_frames", "bee_frames", "food_frames") and numbers:
        m = numbers[0]
        return [Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "number": column, "n": m.v["n"]}, "column")]
    if column in ("mites", "method") and numbers and not any(x.label in ("mites", "percent") for x in cell):
        return [Mark("value", m.s, m.e, m.w, dict(m.v), "column of mites") if m in numbers else m for m in cell]
    if column == "bees" and numbers:
        m = numbers[0]
        return [Mark("sample", m.s, m.e, m.w, {"bees": int(m.v["n"].value)}, "column of bees")]
    if column == "supers" and numbers:
        m = numbers[0]
        return [m, Mark("item", m.s, m.e, "supers", {"item": "super"}, "column of supers"), Mark("w", m.e, m.e, "on")]
    if column == "eggs" and cell and (cell[0].w in ("yes", "y") or _is_no(cell)):
        m = cell[0]
        return [
            Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "set": {"eggs": m.w in ("yes", "y")}}, "column of eggs")
        ]
    if column == "queen":
        if _is_no(cell):
            seen = {"kind": "inspection", "set": {"queen": "not_seen"}}
            return [Mark("fact", cell[0].s, cell[0].e, cell[0].w, seen, "column of queens")]
        return _queen(cell)
    if column == "cells":
        return _queen_cells(cell, numbers)
    if column == "stores":
        return [_weighed(m) for m in cell]
    return cell


def _weighed(m: Mark) -> Mark:
    """ "fair" under "stores" is said of the food, not of the bees."""
    if m.label != "fact" or m.v.get("set") != {"strength": "fair"}:
        return m
    return replace(m, v={**m.v, "set": {"stores": "fair"}})


def _is_no(cell: list[Mark]) -> bool:
    """Whether the cell says no; "n" is heard as "and"."""
    return len(cell) == 1 and cell[0].w in ("no", "n", "and")


def _queen(cell: list[Mark]) -> list[Mark]:
    given = [m for m in cell if m.label == "fact" or m.label == "queen_work"]
    words = [m for m in cell if m.label not in ("fact", "queen_work", "comma")]
    negated = any(m.w in ("not", "no") or m.w.startswith("not ") for m in words)
    for m in words:
        value: Any = _QUEENS.get(m.w)
        if value:
            queen = "not_seen" if negated and value == "seen" else value
            begins = words[0].s if negated else m.s
            given.append(
                Mark("fact", begins, m.e, m.w, {"kind": "inspection", "set": {"queen": queen}}, "column of queens")
            )
        elif colour := colour_in(m.w):
            given.append(Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "mark": colour}, "column of queens"))
    return given


def _queen_cells(cell: list[Mark], numbers: list[Mark]) -> list[Mark]:
    if any(m.label == "fact" for m in cell):
        return cell
    if numbers:
        m = numbers[0]
        value: dict[str, Any] = {"kind": "inspection", "number": "queen_cells", "n": m.v["n"]}
        kind = next((word for x in cell for word in x.w.split()[:1] if word in CELL_TYPES), None)
        if kind:
            value["set"] = {"cell_type": kind}
        if m.v["n"].value == 0:
            value["n"] = Number(0, 0)
        return [Mark("fact", m.s, cell[-1].e, m.w, value, "column of cells")]
    return cell
