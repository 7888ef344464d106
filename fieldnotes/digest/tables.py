"""Plain tables of text: columns as wide as their longest cell, nothing cut."""

from __future__ import annotations

from collections.abc import Sequence


def table_lines(head: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[int] = ()) -> list[str]:
    """The lines of a table; columns numbered in `right` are set to the right."""
    cells = [list(head), *[list(row) for row in rows]]
    widths = [max(len(row[n]) for row in cells) for n in range(len(head))]

    def line(row: Sequence[str]) -> str:
        parts = [c.rjust(w) if n in right else c.ljust(w) for n, (c, w) in enumerate(zip(row, widths, strict=True))]
        return "  ".join(parts).rstrip()

    return [line(head), "  ".join("-" * w for w in widths), *[line(row) for row in rows]]
