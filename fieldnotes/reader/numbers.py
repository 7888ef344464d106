"""Numbers said in words or digits: "3", "a hundred and twelve", "three and a half", "two dozen"."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.reader.grammar import grammar, listed

_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75}
_HALVED = listed("halved")
_PARTS = (["2"], ["3"], ["4"])
_MEASURES = tuple(
    [x] for x in "gal gallon gallons quart qt pint lb lbs pound patty kilo kg tray oz litre liter".split()
)
_SPECIAL_START = frozenset("a an half couple dozen hundred thousand point .".split())


@dataclass(slots=True)  # not frozen: a frozen one takes twice as long to make, and there are many
class Number:
    """A number and where it ends.

    `whole` is False when a half or a decimal was said; `digits` True when it was typed as digits;
    `approx` True for "a couple"; `tail` is the index of the last word that could stand alone as a
    number of its own (the "seven" of "twenty seven"), or None.
    """

    value: float
    end: int
    whole: bool = True
    digits: bool = False
    approx: bool = False
    tail: int | None = None


class _Words:
    def __init__(self) -> None:
        tables = grammar().tables
        self.units: dict[str, int] = tables["units"]
        self.teens: dict[str, int] = tables["teens"]
        self.tens: dict[str, int] = tables["tens"]
        self.scales: dict[str, int] = tables["scales"]
        self.zeros = frozenset(tables["zeros"]["words"])
        self.ordinals: dict[str, int] = tables["ordinals"]
        self.small = self.units | self.teens
        self.starts = (
            frozenset(self.units)
            | frozenset(self.teens)
            | frozenset(self.tens)
            | self.zeros
            | _SPECIAL_START
            | frozenset(_FRACTIONS)
        )
        self.alone = frozenset(self.small) | frozenset(self.tens) | self.zeros
        self.openers = self.starts | frozenset(self.ordinals)


_WORDS = _Words()


def number_openers() -> frozenset[str]:
    """The words with which a number or an ordinal can begin."""
    return _WORDS.openers


def is_number_word(word: str) -> bool:
    """Whether the word alone is a number."""
    return word in _WORDS.alone or word[:1].isdecimal()


def _below_hundred(w: list[str], i: int, t: _Words) -> tuple[int, int, int | None] | None:
    """(value, index after, index of a unit that could stand alone)."""
    if i >= len(w):
        return None
    word = w[i]
    if word in t.tens:
        j = i + 1
        if j + 1 < len(w) and w[j] == "-" and w[j + 1] in t.units:
            return t.tens[word] + t.units[w[j + 1]], j + 2, None
        if j < len(w) and w[j] in t.units:
            return t.tens[word] + t.units[w[j]], j + 1, j
        return t.tens[word], j, None
    if word in t.small:
        return t.small[word], i + 1, None
    return None


def _below_thousand(w: list[str], i: int, t: _Words) -> tuple[int, int, int | None] | None:
    head = _below_hundred(w, i, t)
    if head and head[1] < len(w) and w[head[1]] in ("hundred", "hundreds") and head[0] < 100:
        value, j = head[0] * 100, head[1] + 1
    elif not head and i < len(w) and w[i] == "hundred":
        value, j = 100, i + 1
    elif not head and i + 1 < len(w) and w[i] in ("a", "an") and w[i + 1] == "hundred":
        value, j = 100, i + 2
    else:
        return head
    k = j + 1 if j < len(w) and w[j] == "and" else j
    rest = _below_hundred(w, k, t) or _typed_below_hundred(w, k)
    if rest and not (k > j and _bees_of_a_sample(w, i, rest[1])):
        return value + rest[0], rest[1], None
    return value, j, None


_OF_BEES = frozenset(["in", "per", "of"])
_HIVE_HAD = frozenset("had has was got came gave none zero at out mites".split())


def _bees_of_a_sample(w: list[str], i: int, end: int) -> bool:
    """ "51 had nine in three hundred and | fifty two had two": a count before it, and another one after it."""
    if i < 2 or w[i - 1] not in _OF_BEES or end >= len(w):
        return False
    if not (is_number_word(w[i - 2]) or w[i - 2] in ("mites", "out")):
        return False
    return w[end] in _HIVE_HAD or is_number_word(w[end])


def _typed_below_hundred(w: list[str], i: int) -> tuple[int, int, int | None] | None:
    """ "a hundred and 4": what goes on in figures."""
    if i < len(w) and w[i].isdecimal() and len(w[i]) < 3 and w[i][0] != "0":
        return int(w[i]), i + 1, None
    return None


def _hundreds_after_comma(w: list[str], j: int, t: _Words) -> tuple[int, int, int | None] | None:
    """What goes on after "one thousand" over a comma: ", two hundred and five", but no number below a hundred."""
    if w[j : j + 1] != [","]:
        return None
    found = _below_thousand(w, j + 1, t)
    return found if found and found[0] >= 100 else None


_remembered: tuple[list[str], dict[int, Number | None]] = ([], {})
"""A list of words that stays as it is, and the numbers found in it so far."""


def remember(w: list[str]) -> None:
    """What number begins where in these words, which stay as they are, is worked out once from now on."""
    global _remembered
    _remembered = (w, {})


def number_at(w: list[str], i: int) -> Number | None:
    """The number that begins at word `i`; None where there is none."""
    if i >= len(w):
        return None
    word = w[i]
    first = word[0]
    if word not in _WORDS.starts and not first.isdecimal() and not (first == "." and len(word) > 1):
        return None
    same, found = _remembered
    if w is not same:
        return _number_at(w, i)
    if i not in found:
        found[i] = _number_at(w, i)
    return found[i]


def _number_at(w: list[str], i: int) -> Number | None:
    t = _WORDS
    word = w[i]
    first = word[0]
    if first.isdecimal() or (first == "." and len(word) > 1):
        return _digits(w, i)
    n = len(w)
    if word in _FRACTIONS:
        return Number(_FRACTIONS[word], i + 1, whole=False)
    if word in t.zeros:
        if word == "zero" and i + 2 < n and w[i + 1] == "point":
            return _decimal(w, 0, i + 1, t)
        return Number(0, i + 1)
    if word == "half":
        if w[i + 1 : i + 3] == ["a", "dozen"]:
            return Number(6, i + 3)
        if w[i + 1 : i + 2] == ["dozen"]:
            return Number(6, i + 2)
        halved = w[i + 1 : i + 2] == ["a"] and w[i + 2 : i + 3] and w[i + 2] in _HALVED
        return Number(0.5, i + 2 if halved else i + 1, whole=False)  # "half a tray"
    if word in ("a", "an", "couple", "dozen"):
        j = i + 1 if word in ("a", "an") else i
        if j >= n:
            return None
        if w[j] == "couple":
            end = j + 2 if w[j + 1 : j + 2] == ["of"] else j + 1
            if w[end : end + 1] == ["dozen"]:
                return Number(24, end + 1, approx=True)
            return Number(2, end, approx=True)
        if w[j] == "pair" and word == "a":
            return Number(2, j + 2 if w[j + 1 : j + 2] == ["of"] else j + 1)
        if w[j] == "dozen":
            return Number(12, j + 1)
        if w[j] == "half" and w[j + 1 : j + 2] == ["dozen"]:
            return Number(6, j + 2)
        if w[j] == "half" and word == "a" and w[j + 1 : j + 2] != ["cup"] and w[j + 1 : j + 3] != ["-", "cup"]:
            return Number(0.5, j + 1, whole=False)
        if w[j] not in ("hundred", "thousand"):
            return None
    found = _below_thousand(w, i, t)
    if word in ("a", "an") and not found and w[i + 1] == "thousand":
        found = (1, i + 1, None)
    if word == "thousand":
        found = (1, i, None)
    if word == "point" or word == ".":
        return _decimal(w, 0, i, t) if word == "point" else None
    if not found:
        return None
    value, j, tail = found
    total = 0
    last_scale = 10**12
    while j < n and w[j] in t.scales and t.scales[w[j]] < last_scale:
        last_scale = t.scales[w[j]]
        total += value * last_scale
        j += 1
        k = j + 1 if j < n and w[j] == "and" else j
        more = _below_thousand(w, k, t) or _hundreds_after_comma(w, j, t)
        value, tail = 0, None
        if not more:
            break
        value, j = more[0], more[1]
    total += value
    if j < n and w[j] in ("dozen", "dozens"):
        return Number(total * 12, j + 1)
    if j < n and w[j] == "and":
        part = _part_after(w, j)
        if part is not None:
            return Number(total + part[0], part[1], whole=False)
    if j < n and w[j] == "point":
        decimal = _decimal(w, total, j, t)
        if decimal:
            return decimal
    return Number(total, j, tail=tail)


def _part_after(w: list[str], j: int) -> tuple[float, int] | None:
    """The part of one that goes on with the "and" at `j` ("and a half"), and the index after it."""
    said = w[j + 1 : j + 4]
    if said[:1] == ["half"] and said[1:2] not in (["cup"], ["a"], ["an"]):
        return 0.5, j + 2
    if said[:2] == ["a", "half"] and said[2:] != ["cup"]:
        return 0.5, j + 3
    if said[:2] == ["a", "quarter"] and said[2:] != ["cup"]:
        return 0.25, j + 3
    return (0.75, j + 3) if said[:2] == ["three", "quarters"] else None


def _decimal(w: list[str], whole: int, point: int, t: _Words) -> Number | None:
    """Digits said after "point": "three point one", "one point two five"."""
    j = point + 1
    digits = ""
    while j < len(w):
        word = w[j]
        if word in t.units:
            digits += str(t.units[word])
        elif word in ("zero", "oh", "o"):
            digits += "0"
        elif word in t.teens or word in t.tens:
            if digits:
                break  # "one point five | twenty two was …"
            pair = _below_hundred(w, j, t)
            assert pair
            digits += str(pair[0])
            j = pair[1]
            break
        elif word.isdecimal() and not digits:
            return Number(float(f"{whole}.{word}"), j + 1, whole=False)  # "one point five | 22 was …"
        else:
            break
        j += 1
    if not digits:
        return None
    return Number(float(f"{whole}.{digits}"), j, whole=False)


def _digits(w: list[str], i: int) -> Number | None:
    word = w[i].replace(",", "")
    if not word.replace(".", "", 1).isdecimal():
        if word[:-1].replace(".", "", 1).isdecimal() and word[-1] in _FRACTIONS:
            return Number(float(word[:-1]) + _FRACTIONS[word[-1]], i + 1, whole=False, digits=True)
        return None
    value = float(word)
    whole = value.is_integer() and "." not in word
    j = i + 1
    n = len(w)
    after = w[j] if j < n else ""
    if after in _FRACTIONS:
        return Number(value + _FRACTIONS[after], j + 1, whole=False, digits=True)
    if not whole or not after:
        return Number(value, j, whole=whole, digits=True)
    if after == "/" and w[j + 1 : j + 2] in _PARTS and w[j + 2 : j + 3] in _MEASURES:
        parts = int(w[j + 1])
        if 0 < value < parts:
            return Number(value / parts, j + 2, whole=False, digits=True)  # "1/2 gal each"
    if after == "and":
        part = _part_after(w, j)
        if part is not None and part[0] == 0.5:
            return Number(value + 0.5, part[1], whole=False, digits=True)
    if after in ("1", "3") and j + 2 < n and w[j + 1] == "/" and w[j + 2] in ("2", "4") and value < 100:
        return Number(value + int(after) / int(w[j + 2]), j + 3, whole=False, digits=True)
    if after in ("dozen", "dozens"):
        return Number(value * 12, j + 1, digits=True)
    if after in ("thousand", "million"):
        return Number(value * _WORDS.scales[after], j + 1, digits=True)
    if after == "point" and (decimal := _decimal(w, int(value), j, _WORDS)):
        decimal.digits = True
        return decimal
    if after == "hundred" and value < 100:
        return _hundreds(w, int(value), j)
    return Number(value, j, digits=True)


def _hundreds(w: list[str], many: int, j: int) -> Number:
    """ "9 hundred and 40": hundreds of which the first word was typed; `j` is the index of "hundred"."""
    k = j + 2 if w[j + 1 : j + 2] == ["and"] else j + 1
    rest = _below_hundred(w, k, _WORDS) or _typed_below_hundred(w, k)
    return Number(many * 100 + (rest[0] if rest else 0), rest[1] if rest else j + 1, digits=True)


def ordinal_at(w: list[str], i: int) -> tuple[int, int] | None:
    """The ordinal that begins at word `i` ("14th", "twenty first"): (value, index after)."""
    if i >= len(w):
        return None
    t = _WORDS
    word = w[i]
    if word[0].isdecimal():
        return (int(word[:-2]), i + 1) if word[-2:] in ("st", "nd", "rd", "th") and word[:-2].isdecimal() else None
    if word in t.ordinals:
        return t.ordinals[word], i + 1
    if word in t.tens:
        j = i + 2 if i + 1 < len(w) and w[i + 1] == "-" else i + 1
        if j < len(w) and 1 <= t.ordinals.get(w[j], 99) <= 9:
            return t.tens[word] + t.ordinals[w[j]], j + 1
        return None
    j = i + 1 if word in t.units or word == "a" else i
    after = w[j] if j < len(w) else ""
    if after == "hundredth":
        return t.units.get(word, 1) * 100, j + 1
    if after == "hundred" and w[j + 1 : j + 2] == ["and"]:
        rest = ordinal_at(w, j + 2)
        if rest and rest[0] < 100:
            return t.units.get(word, 1) * 100 + rest[0], rest[1]
    return None


def joined_hundreds(w: list[str], i: int) -> tuple[int, int] | None:
    """ "one twenty" meant as 120: a unit straight before tens or teens. (value, index after), or None."""
    t = _WORDS
    if i + 1 < len(w) and w[i] in t.units and (w[i + 1] in t.tens or w[i + 1] in t.teens):
        rest = _below_hundred(w, i + 1, t)
        if rest:
            return t.units[w[i]] * 100 + rest[0], rest[1]
    if i + 2 < len(w) and w[i] in t.units and w[i + 1] in ("oh", "o", "zero") and w[i + 2] in t.units:
        return t.units[w[i]] * 100 + t.units[w[i + 2]], i + 3
    return None
