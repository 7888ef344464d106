"""Colony ids with a letter."""

from __future__ import annotations

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.hear import speech
from fieldnotes.reader.marking.counted import only_tens
from fieldnotes.reader.numbers import is_number_word, number_at
from fieldnotes.reader.outfit import Outfit
from fieldnotes.roster import colony_id

_NOT_IDS = frozenset(["co2", "c02", "h2o"])


def letter_id(w: list[str], i: int, outfit: Outfit) -> tuple[str, int] | None:
    """A colony id with a letter: "L4", "l four", "el nine", "n-5". (id, index after)."""
    word = w[i]
    n = len(w)
    if word[0].isalpha() and word[-1].isdecimal():
        if (
            word in _NOT_IDS
            or (word == "to1" and i and is_number_word(w[i - 1]))
            or (word[0] == "x" and "X" not in outfit.letters)
        ):
            return None
        return colony_id(word), i + 1
    if i + 1 >= n:
        return None
    letter = word if len(word) == 1 and word.isalpha() else None
    known = outfit.low_letters
    if letter is None:
        if word in outfit.long_letters and is_number_word(w[i + 1]):
            letter = word
        spelled = speech().letters.get(word)
        if (
            letter is None
            and spelled
            and (spelled in known if known else word in ("el", "en", "ess", "em", "eff", "ell"))
        ):
            letter = spelled
        if letter is None and len(word) == 1:
            return None
    if letter == "q" and outfit.known and "q" not in known:
        return None  # "marked q 14", "q 15 seen": a queen
    if letter is None or (letter == "b" and w[max(0, i - 2) : i] in (["e", "f"], ["a", "f"])):
        return None  # "e f b seventy three": foulbrood
    j = i + 1
    if w[j] in ("-", "#") and j + 1 < n:
        if word == "q" and "q" not in known:
            return None  # "H2 q- 3fob": no queen
        j += 1
    number = number_at(w, j)
    if not number or not number.whole or w[j] in ("a", "an", "half", "couple", "dozen"):
        return None
    cid = f"{letter.upper()}{int(number.value)}"
    named = i > 0 and w[i - 1] in ("into", "called", "as", "it's", "it", "now", "is")  # "split it into l thirty one"
    if outfit.known and cid not in outfit.ids and number.tail is not None and not named:
        short = f"{letter.upper()}{int(number.value) - grammar().tables['units'][w[number.tail]]}"
        if short in outfit.ids:
            return short, number.tail
    if tens := only_tens(w, j, number, outfit, letter) if j == i + 1 else None:
        return f"{letter.upper()}{int(tens.value)}", tens.end
    if known and letter not in known and not word[0].isdecimal():
        if len(word) > 1 or letter in "aixwo" or (w[j][0].isalpha() and not _numbers_others(w, letter)):
            return None
    if not known and letter in ("a", "i", "x", "w", "o"):
        return None
    if letter == "a" and outfit.known and cid not in outfit.ids:
        return None
    if word in ("are", "see", "be", "why", "tea", "for", "sea", "inn") and cid not in outfit.ids:
        return None
    return cid, number.end


def _numbers_others(w: list[str], letter: str) -> bool:
    """ "b one had two, b two had zero and b three had five": a letter of no yard that numbers colonies."""
    if letter not in _NO_WORDS:
        return False
    numbers = {w[k + 1] for k in range(len(w) - 1) if w[k] == letter and is_number_word(w[k + 1])}
    return len(numbers) > _FEW_NUMBERS


_NO_WORDS = frozenset("bdeghjkpqvyz")
"""Letters that stand for no word and no unit by themselves."""
_FEW_NUMBERS = 2
