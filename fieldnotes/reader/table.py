"""Tables with a row of headings: "hive | queen | brood frames | mites" over rows of cells.

The columns are known by their headings; each bare cell below is given the meaning of its column, as
marks, before the statements are made. Rows without such a heading are read as plain lists.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from fieldnotes.reader.grammar import meanings
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit

_COLUMNS = meanings("column_headings")
_QUEENS = meanings("queens_in_columns")
_COLOURS = frozenset(meanings("colours").values())
_CELL_TYPES = {"emergency": "emergency", "supersedure": "supersedure", "swarm": "swarm"}


def read_tables(row: list[Mark], outfit: Outfit) -> list[Mark]:
    """The row of marks with the cells of tables given the meaning of their columns."""
    commas = [m for m in row if m.label == "comma"]
    if len(commas) < 4 and (len(row) < 5 or sum(b.s - a.e > 1 and _gap(a, b) for a, b in pairwise(row)) < 4):
        return row
    lines = _lines(row)
    columns: list[str] | None = None
    methods: dict[int, Mark] = {}
    above: list[list[Mark]] = []  # the cells of the row above, which ditto marks repeat
    out: list[Mark] = []
    for line, below in zip(lines, [*lines[1:], []], strict=True):
        cells = _cells(line)
        headings = [_column(c) for c in cells]
        if (
            len(cells) >= 2
            and sum(h is not None for h in headings) >= 2
            and all(h is not None for h in headings if h != "")
            and len(_cells(below)) > 1  # over nothing "eggs seen, queen not seen" are no headings
        ):
            columns = [h or "other" for h in headings]
            said = [next((m for m in c if m.label == "method"), None) for c in cells]
            methods = {k: m for k, m in enumerate(said) if m is not None and columns[k] == "method"}
            out += [m for m in line if m.label in ("line", "sample") or (m.label == "method" and len(methods) < 2)]
            continue
        if columns is not None and 1 < len(cells) < len(columns) and any(m.w == "|" for m in line):
            cells = cells + [[] for _ in range(len(columns) - len(cells))]  # the last cells are empty
        if columns is not None and cells and len(cells) == len(columns) and "colony" in columns:
            cells = [above[k] if _is_ditto(c) and k < len(above) else c for k, c in enumerate(cells)]
            above = cells
            out += _row(line, cells, columns, outfit, methods if len(methods) > 1 else {})
            continue
        if (
            columns is not None
            and not any(m.label == "comma" for m in line)
            and not any(_gap(a, b) for a, b in pairwise(line))
            and any(m.label not in ("line", "w") for m in line)
        ):
            columns = None
        out += line
    return out


def _lines(row: list[Mark]) -> list[list[Mark]]:
    lines: list[list[Mark]] = [[]]
    for m in row:
        if m.label == "line":
            lines.append([m])
        else:
            lines[-1].append(m)
    return lines


def _cells(line: list[Mark]) -> list[list[Mark]]:
    if not any(m.w == "|" for m in line) and any(_gap(a, b) for a, b in pairwise(line)):
        parted: list[list[Mark]] = [[]]
        for k, m in enumerate(line):
            if parted[-1] and _gap(line[k - 1], m):
                parted.append([])
            if m.label != "line":
                parted[-1].append(m)
        if len(parted) > 2:
            return parted
    cells: list[list[Mark]] = [[]]
    barred = sum(m.w == "|" for m in line) > 1  # then a comma parts words inside a cell ("seen, red")
    for m in line:
        if m.label == "comma" and (m.w == "|" or not barred):
            cells.append([])
        elif m.label != "line":
            cells[-1].append(m)
    if cells and not cells[0]:
        cells = cells[1:]
    if cells and not cells[-1]:
        cells = cells[:-1]
    return cells


def _is_ditto(cell: list[Mark]) -> bool:
    return len(cell) == 1 and (cell[0].w in ('"', "”", "〃", "''") or cell[0].label == "same")


def _gap(a: Mark, b: Mark) -> bool:
    """Whether two blanks or a tab part the marks, as columns are parted in typed tables."""
    return b.s - a.e > 1 and a.label != "line" and b.label != "line"


def _column(cell: list[Mark]) -> str | None:
    """The column a heading cell names; None where it is no heading."""
    if cell and all(m.label == "method" for m in cell):
        return "method"
    words = [w for m in cell for w in m.w.split() if w.isalpha() or w == "#"]
    if not words or any(m.label in ("number", "colony") for m in cell):
        return None
    joined = " ".join(words)
    if "brood" in words:
        return "brood_frames"
    if "bees" in words and "frames" in words:
        return "bee_frames"
    if "food" in words:
        return "food_frames"
    if "mites" in words or "mite" in words:
        return "mites"
    if "cells" in words:
        return "cells"
    return _COLUMNS.get(words[0]) or _COLUMNS.get(joined)


def _row(
    line: list[Mark], cells: list[list[Mark]], columns: list[str], outfit: Outfit, methods: dict[int, Mark]
) -> list[Mark]:
    out: list[Mark] = [m for m in line if m.label == "line"]
    first: list[Mark] = []
    rest: list[Mark] = []
    days: list[list[Mark]] = []
    for k, (cell, column) in enumerate(zip(cells, columns, strict=True)):
        if column in ("colony", "yard"):
            for m in cell:
                if column == "colony" and m.label == "number":
                    m = Mark(
                        "cols", m.s, m.e, m.w, {"ids": [str(int(m.v["n"].value))], "bare": True}, "column of hives"
                    )
                elif column == "colony" and m.label == "colony":
                    m = Mark("cols", m.s, m.e, m.w, {"ids": [m.v["value"]], "bare": False}, "column of hives")
                first.append(m)
            continue
        if column in ("in", "out") and any(m.label == "date" for m in cell):
            day = next(m for m in cell if m.label == "date")
            days.append([Mark("w", day.s, day.s, column), day])
            continue
        given = _cell(cell, column)
        if given:
            where = given[0].s
            rest.append(Mark("comma", where, where, ","))
            if k in methods:
                rest.append(Mark("method", where, where, methods[k].w, dict(methods[k].v), methods[k].rule))
            rest += given
    if days:
        # columns "in" and "out": a statement for each day
        line_mark = next((m for m in line if m.label == "line"), Mark("line", first[0].s, first[0].s, "¶"))
        parts = [[*first, *rest, *day] for day in days]
        joined = parts[0]
        for part in parts[1:]:
            joined = [*joined, Mark("line", line_mark.s, line_mark.s, "¶"), *part]
        return out + joined
    return out + first + rest


def _cell(cell: list[Mark], column: str) -> list[Mark]:
    numbers = [m for m in cell if m.label in ("number", "value")]
    if column in ("brood_frames", "bee_frames", "food_frames") and numbers:
        m = numbers[0]
        return [Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "number": column, "n": m.v["n"]}, "column")]
    if column in ("mites", "method") and numbers and not any(x.label in ("mites", "percent") for x in cell):
        return [Mark("value", m.s, m.e, m.w, dict(m.v), "column of mites") for m in numbers] + [
            m for m in cell if m.w == "or"
        ]
    if column == "bees" and numbers:
        m = numbers[0]
        return [Mark("sample", m.s, m.e, m.w, {"bees": int(m.v["n"].value)}, "column of bees")]
    if column == "supers" and numbers:
        m = numbers[0]
        return [m, Mark("item", m.s, m.e, "supers", {"item": "super"}, "column of supers"), Mark("w", m.e, m.e, "on")]
    if column == "eggs" and cell and cell[0].w in ("yes", "y", "no", "n"):
        m = cell[0]
        return [
            Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "set": {"eggs": m.w in ("yes", "y")}}, "column of eggs")
        ]
    if column == "queen":
        return _queen(cell)
    if column == "cells":
        return _queen_cells(cell, numbers)
    return cell


def _queen(cell: list[Mark]) -> list[Mark]:
    given = [m for m in cell if m.label == "fact" or m.label == "queen_work"]
    words = [m for m in cell if m.label not in ("fact", "queen_work", "comma")]
    negated = any(m.w in ("not", "no") or m.w.startswith("not ") for m in words)
    for m in words:
        value: Any = _QUEENS.get(m.w)
        if value:
            queen = "not_seen" if negated and value == "seen" else value
            given.append(
                Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "set": {"queen": queen}}, "column of queens")
            )
        elif m.w in _COLOURS:
            given.append(Mark("fact", m.s, m.e, m.w, {"kind": "inspection", "mark": m.w}, "column of queens"))
    return given


def _queen_cells(cell: list[Mark], numbers: list[Mark]) -> list[Mark]:
    if any(m.label == "fact" for m in cell):
        return cell
    if numbers:
        m = numbers[0]
        value: dict[str, Any] = {"kind": "inspection", "number": "queen_cells", "n": m.v["n"]}
        kind = next((_CELL_TYPES[x.w.split()[0]] for x in cell if x.w.split() and x.w.split()[0] in _CELL_TYPES), None)
        if kind:
            value["set"] = {"cell_type": kind}
        if m.v["n"].value == 0:
            value["n"] = Number(0, 0)
        return [Mark("fact", m.s, cell[-1].e, m.w, value, "column of cells")]
    return cell
