"""Number words, against the published converter num2words, our own conventions, and outside lists of number phrases.

The outside lists are read where the environment variable FIELDNOTES_OUTSIDE names their folder; they are no part of
this project. `numerals_a.jsonl` holds phrases of an open-source parser of numbers and dates, `numerals_b.jsonl` cases
of two lines of a number-words converter, which disagree with one another by design.
"""

import json
import os
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from num2words import num2words

from fieldnotes.reader.numbers import joined_hundreds, number_at, ordinal_at
from fieldnotes.reader.tokens import pieces

OUTSIDE = os.environ.get("FIELDNOTES_OUTSIDE", "")


def words(text: str) -> list[str]:
    """The words the reader sees."""
    return [piece.lower() for piece in pieces(text) if not piece.isspace()]


def whole_number(text: str) -> float | None:
    """The number that the whole text says."""
    w = words(text)
    found = number_at(w, 0)
    if found and found.end == len(w):
        return found.value
    joined = joined_hundreds(w, 0)
    return joined[0] if joined and joined[1] == len(w) else None


def whole_ordinal(text: str) -> int | None:
    """The ordinal that the whole text says."""
    w = words(text)
    found = ordinal_at(w, 0)
    return found[0] if found and found[1] == len(w) else None


def ways_to_say(said: str) -> set[str]:
    """With and without hyphens, commas and "and"."""
    plain = said.replace("-", " ").replace(",", "")
    return {said, plain, said.replace(" and ", " "), plain.replace(" and ", " "), said.upper()}


@settings(max_examples=500, deadline=None)
@given(n=st.integers(min_value=0, max_value=10_000))
def test_integers_as_num2words_says_them(n: int) -> None:
    for said in ways_to_say(num2words(n)) | {str(n), f"{n:,}"}:
        assert whole_number(said) == n, said


def test_every_integer_to_a_thousand() -> None:
    wrong = [said for n in range(1001) for said in ways_to_say(num2words(n)) if whole_number(said) != n]
    assert wrong == []


@settings(max_examples=200, deadline=None)
@given(n=st.integers(min_value=10_001, max_value=10**9))
def test_large_integers(n: int) -> None:
    assert whole_number(num2words(n).replace(",", "")) == n


@settings(max_examples=300, deadline=None)
@given(n=st.integers(min_value=0, max_value=9_999), digits=st.integers(min_value=1, max_value=3))
def test_decimals_as_num2words_says_them(n: int, digits: int) -> None:
    value = n / 10**digits
    assert whole_number(num2words(value)) == pytest.approx(value)
    assert whole_number(f"{value:.{digits}f}") == pytest.approx(value)


def test_ordinals_as_num2words_says_them() -> None:
    wrong = [
        said
        for n in range(1, 1000)
        for said in (num2words(n, to="ordinal"), num2words(n, to="ordinal").replace("-", " "), f"{n}th")
        if whole_ordinal(said) != n
    ]
    assert wrong == []


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("a dozen", 12),
        ("two dozen", 24),
        ("half a dozen", 6),
        ("a couple", 2),
        ("a couple of", 2),
        ("a pair of", 2),
        ("a hundred", 100),
        ("a hundred and twelve", 112),
        ("hundred fifty", 150),
        ("half", 0.5),
        ("a half", 0.5),
        ("three and a half", 3.5),
        ("3 and a half", 3.5),
        ("3 1/2", 3.5),
        ("3½", 3.5),
        ("½", 0.5),
        ("three and a quarter", 3.25),
        ("two and three quarters", 2.75),
        (".5", 0.5),
        ("point five", 0.5),
        ("seventeen point two", 17.2),
        ("one twenty", 120),
        ("two fifty", 250),
        ("nineteen hundred", 1900),
        ("none", 0),
        ("zero", 0),
        ("fourty", 40),
        ("3,000", 3000),
    ],
)
def test_how_numbers_are_said_in_a_yard(said: str, value: float) -> None:
    assert whole_number(said) == value


@pytest.mark.parametrize("said", ["a few", "some", "a bunch", "several", "a", "an", "and", "hive", "half cup"])
def test_what_is_no_number(said: str) -> None:
    assert whole_number(said) is None


@pytest.mark.parametrize(
    ("said", "values"),
    [
        ("twelve thirteen", [12, 13]),
        ("twenty fifteen", [20, 15]),
        ("forty three forty four", [43, 44]),
        ("five zero", [5, 0]),
        ("sixty fifteen", [60, 15]),
        ("one two three", [1, 2, 3]),
    ],
)
def test_where_one_number_ends_and_the_next_begins(said: str, values: list[float]) -> None:
    w, found, i = words(said), [], 0
    while i < len(w):
        number = number_at(w, i)
        assert number is not None
        found.append(number.value)
        i = number.end
    assert found == values


# -- the outside lists -------------------------------------------------------------------------------------------------

OTHERWISE_A = {
    "single": "a plain word here (a single frame is read with its noun)",
    "a few": "no number is said",
    "few": "no number is said",
    "a dozen of": "the number ends before the word",
    "100,000.0": "thousands with decimals are not typed in a yard",
    "forty-five (45)": "said twice",
    "45 (forty five)": "said twice",
    "three thousand millions": "scales go down",
    "two point two million": "no decimals of millions",
}
_OTHER_TRADES = re.compile(
    r"\d\s?[kKmMgG]$|\b(lakhs?|lkhs?|l|lac|crores?|cr|koti|krores?|kr)\b|^-|^minus|^negative|^\d+/\d+$", re.IGNORECASE
)
"""Shortened thousands, Indian scales, numbers below zero and fractions in digits: here "3/300" is mites and bees, and a
temperature below zero is a matter of the weather rules."""

OTHERWISE_B = {
    "zero eight": "digits said one by one are so many numbers",
    "o eight": "digits said one by one are so many numbers",
    "zero zero hundred twenty five": "digits said one by one are so many numbers",
    "twenty-fifths": "no parts but halves and quarters",
    "fourty-oneths": "no parts but halves and quarters",
}


def outside(name: str) -> list[dict[str, Any]]:
    path = Path(OUTSIDE) / name
    return [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]


needs_outside = pytest.mark.skipif(not OUTSIDE, reason="FIELDNOTES_OUTSIDE names no folder")


@needs_outside
def test_outside_numerals_a() -> None:
    cases = [c for c in outside("numerals_a.jsonl") if not _OTHER_TRADES.search(c["phrase"])]
    assert len(cases) >= 60
    wrong = [
        (c["phrase"], c["value"], whole_number(c["phrase"]))
        for c in cases
        if c["phrase"] not in OTHERWISE_A and whole_number(c["phrase"]) != pytest.approx(c["value"])
    ]
    assert wrong == []


@needs_outside
def test_outside_numerals_b() -> None:
    cases = [c for c in outside("numerals_b.jsonl") if c["function"] in ("text2num", "text2digits")]
    assert len(cases) >= 50
    wrong = []
    for case in cases:
        said, expected = case["phrase"], case["expected"]
        if said in OTHERWISE_B:
            continue
        if isinstance(expected, str) and not expected.isdigit():
            got: float | None = whole_ordinal(said)
            expected = re.match(r"\d+", expected)[0]  # type: ignore[index]
        else:
            got = whole_number(said)
        if got != (None if expected is None else int(expected)):
            wrong.append((said, expected, got))
    assert wrong == []
