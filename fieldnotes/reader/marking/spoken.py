"""The number that stands at a word: which words belong to it, and which to a colony or a count beside it."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed, meanings
from fieldnotes.reader.hear import speech
from fieldnotes.reader.marking.counted import EACH_DOES, only_tens
from fieldnotes.reader.numbers import Number, is_number_word, joined_hundreds, number_at
from fieldnotes.reader.outfit import Outfit

_MEASURES = meanings("measures")
UNIT_WORDS = frozenset(_MEASURES) | {"dozen"}
_COPULAS = frozenset("is was are were had has have got gets showed shows".split())
_BEFORE_HUNDREDS = _COPULAS | {"about", "maybe", "around", "counted", "to", "at", "with"}
_OF_HONEY = listed("honey_spoken_of")
_WEIGHTS = frozenset(word for word, measure in _MEASURES.items() if measure in ("lb", "kg"))


def spoken_number(w: list[str], i: int, outfit: Outfit) -> Number | None:
    number = number_at(w, i)
    if not number:
        return None
    if w[i] == "half" and (
        w[i + 1 : i + 2] in (["cup"], ["cups"], ["an"], ["of"], ["the"], ["-"])
        or w[i + 1 : i + 3] == ["a", "cup"]
        or (w[i + 1 : i + 2] == ["a"] and w[i + 2 : i + 3] and w[i + 2] in _MEASURES)
    ):
        return None
    if number.tail is not None and _so_many_each(w, i, number, outfit):
        return number_at(w[: number.tail], i)
    if tens := only_tens(w, i, number, outfit):
        return tens
    if number.value > 100 and not number.digits and i and w[i - 1] in ("in", "of", "per", "from"):
        # "seven in three hundred forty one had …": the sample ends at the hundreds
        hundreds = next((k for k in range(i, number.end) if w[k] == "hundred"), None)
        if hundreds is not None and hundreds + 1 < number.end and w[hundreds + 1] != "and":
            rest = number_at(w, hundreds + 1)
            if rest and outfit.could_be(str(int(rest.value))):
                return number_at(w[: hundreds + 1], i)
    joined = joined_hundreds(w, i)
    if joined and (hive := _hive_before(w, i, outfit)) is not None:
        after = w[joined[1]] if joined[1] < len(w) else ""
        if _rises(hive, *divmod(joined[0], 100), outfit):
            return Number(joined[0] // 100, i + 1)  # "hive two | six | eleven and fourteen"
        named = after[-1:].isdecimal() and after.rstrip("0123456789") in outfit.low_letters
        if after in _AFTER_HUNDREDS or after in outfit.low_letters or named:
            return Number(joined[0], joined[1])  # "hive four one twenty hive five …"
    if joined and outfit.known and str(joined[0]) in outfit.ids:
        return Number(joined[0], joined[1])  # "one oh four", "one twenty five": the roster has such numbers
    if joined and _weighs(w, i, joined[1]):
        return Number(joined[0], joined[1])  # "cut bank one ninety, no, one eighty pounds"
    if joined and number.end == i + 1:
        before = w[i - 1] if i else ""
        after = w[joined[1]] if joined[1] < len(w) else ""
        if w[i + 1] in ("oh", "o", "zero"):  # "had one oh four", but "had one, oh, four had two"
            counts = before in _BEFORE_HUNDREDS and after not in ("had", "has", "was", "is", "got", "gets", "needs")
            listed = w[i + 1] == "zero" and (after in ("and", ",") or is_number_word(after))
            return (
                Number(joined[0], joined[1]) if counts and not listed else number
            )  # "were three | zero | one | and two"
        counted = after in speech().counted and not is_number_word(after)
        if before == "to" and i > 1 and is_number_word(w[i - 2]):
            return number  # "gel for one to six | fifty grams each"
        listed = after == "and" and is_number_word(w[joined[1] + 1] if joined[1] + 1 < len(w) else "")
        if (
            listed
            and (before in _COPULAS or before == "to")
            and w[joined[1] + 2 : joined[1] + 3] not in ([x] for x in _COPULAS)
        ):
            return number  # "the results are nine | twelve | and three"
        if (counted or after in ("", "\n", ".", ",", "um", "uh", "and", "so")) and before in _BEFORE_HUNDREDS:
            return Number(joined[0], joined[1])
    return number


def _so_many_each(w: list[str], i: int, number: Number, outfit: Outfit) -> bool:
    """ "strips in forty to fifty | two each": how many each of the range or list got, which nothing else says."""
    if number.tail != i + 1 or i < 2:
        return False
    if w[i - 1] not in _LEFT_OUT and (w[i - 1] not in ("to", "through", "thru", "and") or not is_number_word(w[i - 2])):
        return False
    tens = number_at(w[: i + 1], i)
    after = w[number.end + 1] if number.end + 1 < len(w) else ""
    each = w[number.end : number.end + 1] in (["each"], ["apiece"]) and after not in EACH_DOES
    each = each or w[number.end : number.end + 2] in _PER_HIVE
    return each and tens is not None and outfit.could_be(str(int(tens.value)))


_LEFT_OUT = frozenset("except bar but".split())
_PER_HIVE = [[word, hive] for word in ("a", "per") for hive in ("hive", "colony", "nuc", "box")]


_AFTER_HUNDREDS = frozenset(["", "hive", "colony", "um", "uh", "and", "so", "mites", "\n", ".", ","])


def _hive_before(w: list[str], i: int, outfit: Outfit) -> int | None:
    """The number of the hive named just before `i`: after "hive" or a letter, or in one word with its letter."""
    word = w[i - 1] if i else ""
    if not is_number_word(word):
        letter = word.rstrip("0123456789")
        return int(word[len(letter) :]) if letter != word and letter in outfit.low_letters else None
    for k in (i - 1, i - 2):
        if k > 0 and (w[k - 1] in ("hive", "colony") or w[k - 1] in outfit.low_letters):
            number = number_at(w[:i], k)
            return int(number.value) if number is not None and number.end == i else None
    return None


def _rises(before: int, first: int, second: int, outfit: Outfit) -> bool:
    """Whether three numbers rise and each can be a colony's, so that they are a list and no hundreds."""
    return before < first < second and all(outfit.could_be(str(n)) for n in (first, second))


def _weighs(w: list[str], i: int, end: int) -> bool:
    """Whether a weight of honey follows the number that ends at `end`, or one that puts it right does."""
    if i and (w[i - 1] in ("hive", "hives", "colony", "to", "on", "in") or is_number_word(w[i - 1])):
        return False
    if w[end : end + 1] in (["no"], ["wait"]) and (again := joined_hundreds(w, end + 1)):
        end = again[1]
    return end < len(w) and w[end] in _WEIGHTS and not _OF_HONEY.isdisjoint(w)
