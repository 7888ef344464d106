"""What the reader asks at every mark is asked of a row that is there already, and not of one built for the question."""

from __future__ import annotations

import ast
from pathlib import Path

READER = Path(__file__).parents[2] / "fieldnotes" / "reader"


def test_nothing_is_looked_for_in_a_row_that_unpacks_another() -> None:
    """`x in ("a", *MORE)` builds the row anew each time; `x == "a" or x in MORE` is meant."""
    found = [
        f"{path.relative_to(READER)}:{node.lineno}"
        for path in READER.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Compare) and isinstance(node.ops[-1], (ast.In, ast.NotIn))
        if any(isinstance(x, ast.Starred) for x in getattr(node.comparators[-1], "elts", ()))
    ]
    assert found == []
