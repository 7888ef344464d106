"""What a date is made of: weekday, month, day of the month, year."""

from __future__ import annotations

from datetime import MAXYEAR, MINYEAR

from fieldnotes.reader.dates.words import Tables
from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.numbers import number_at, ordinal_at

_WORDS = grammar().tables
_NOT_SAT_BEFORE, _NOT_SAT_AFTER = frozenset(_WORDS["sat"]["before"]), frozenset(_WORDS["sat"]["after"])
_NOT_SUN_BEFORE = frozenset(_WORDS["sun"]["before"])
_NOT_MAY_AFTER = frozenset(_WORDS["may"]["after"])
_NOT_MARCH_AFTER = frozenset(_WORDS["march"]["after"])


_OPENS_LINE = frozenset(["\n", "\n\n", "-", "*", "•"])


def weekday_at(w: list[str], i: int, t: Tables) -> int | None:
    """The weekday at word `i`, unless the word is more likely itself ("sat down", "full sun")."""
    if i >= len(w) or w[i] not in t.weekdays:
        return None
    before, after = (w[i - 1] if i else ""), (w[i + 1] if i + 1 < len(w) else "")
    opens = before in _OPENS_LINE and after in ("at", "in")  # "Sat at Millpond: 4 light", below a line
    if w[i] == "sat" and (before in _NOT_SAT_BEFORE or after in _NOT_SAT_AFTER) and not opens:
        return None
    if w[i] == "sun" and (before in _NOT_SUN_BEFORE):
        return None
    return t.weekdays[w[i]]


def month_at(w: list[str], i: int, t: Tables) -> int | None:
    """The month at word `i`, unless the word is more likely itself ("9 may be queenless", "they march over")."""
    if i >= len(w):
        return None
    after = w[i + 1] if i + 1 < len(w) else ""
    if (w[i] == "may" and after in _NOT_MAY_AFTER) or (w[i] == "march" and after in _NOT_MARCH_AFTER):
        return None
    return t.months.get(w[i].rstrip("."))


def day_of_month(w: list[str], i: int) -> tuple[int, int, bool] | None:
    """A day of the month: (day, index after, said as an ordinal)."""
    if i >= len(w):
        return None
    ordinal = ordinal_at(w, i)
    if ordinal and 1 <= ordinal[0] <= 31:
        return ordinal[0], ordinal[1], True
    found = number_at(w, i)
    if found and found.value == int(found.value) and 1 <= found.value <= 31 and found.whole:
        return int(found.value), found.end, False
    return None


def year_at(w: list[str], i: int) -> tuple[int | None, int]:
    """A year at word `i` (with or without a comma), and the index after it."""
    j = i + 1 if i < len(w) and w[i] in (",", "/", "-") else i
    if j < len(w) and w[j].isdecimal() and len(w[j]) == 4 and 1900 <= int(w[j]) <= 2100:
        return int(w[j]), j + 1
    return None, i


def short_year(word: str) -> int | None:
    if word.isdecimal() and len(word) == 2:
        return 2000 + int(word) if int(word) < 70 else 1900 + int(word)
    if word.isdecimal() and len(word) == 4 and MINYEAR < int(word) < MAXYEAR:
        return int(word)
    return None
