"""Numbers at the beginning of lines: rows of hives, and lines that are only numbered."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.marking.atoms import Atoms


def dotted_rows(atoms: Atoms) -> frozenset[int]:
    """Where several lines begin with a number and a stop, the places of these stops: rows of hives."""
    if "." not in atoms.w:
        return frozenset()
    stops = [
        i
        for i in range(1, len(atoms.w) - 1)
        if atoms.w[i] == "."
        and atoms.w[i - 1][0] == "="
        and len(atoms.w[i - 1]) > 1
        and (i == 1 or atoms.w[i - 2] in ("\n", "\n\n"))
        and atoms.e[i - 1] == atoms.s[i] < atoms.s[i + 1] - 1
    ]
    return frozenset(stops) if len(stops) > 1 else frozenset()


def numbered_lines(atoms: Atoms) -> frozenset[int]:
    """Where lines are numbered 1. 2. 3. the numbers are no colonies; their places."""
    if all(sign not in atoms.w for sign in (".", ")", "]")):
        return frozenset()
    places = []
    for i, word in enumerate(atoms.w[:-1]):
        if word[0] != "=":
            continue
        bracketed = i > 0 and atoms.w[i - 1] in ("[", "(") and atoms.w[i + 1] in ("]", ")")
        if (
            len(word) > 1
            and (bracketed or atoms.w[i + 1] in (".", ")"))
            and (i <= bracketed or atoms.w[i - 1 - bracketed] in ("\n", "\n\n"))
        ):
            places.append((i, int(word[1:])))
    closed = all(atoms.w[i + 1] == ")" for i, _ in places)  # two rows of hives may be "1. … 2. …", hardly "1) … 2) …"
    if len(places) < (2 if closed else 3) or not _counts_up([n for _, n in places]):
        return frozenset()
    return frozenset(i for i, _ in places)


def _counts_up(numbers: list[int]) -> bool:
    """Whether they count 1, 2, 3 from the first, perhaps from 1 again under another heading."""
    return numbers[0] == 1 and len(numbers) > numbers.count(1) and all(b in (a + 1, 1) for a, b in pairwise(numbers))
