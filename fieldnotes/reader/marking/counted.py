"""A colony's number of two words or of one: "in l twenty | four wafers each", "hive twenty | one mite"."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed, meanings
from fieldnotes.reader.numbers import Number, is_number_word, number_at
from fieldnotes.reader.outfit import Outfit

_MEASURES = frozenset(word for word in meanings("measures") if len(word) > 2) | {"mil", "mils", "ml"}
_UNCHANGED = frozenset("mil ml percent".split())
"""The same of one and of many."""
_DOSES = listed("doses")
_SPANS = frozenset("days weeks hours".split())
_CELL_KINDS = listed("kinds_of_cells")
_ONE_HIVE = frozenset(["hive", "colony", "nuc"])
_ANY_HIVE = frozenset("a per each every".split())
_AT_HIVES = frozenset("in on under into onto off from of".split())
_LOOKED_INTO = listed("looked_into")
_EACH = frozenset("each apiece".split())
EACH_DOES = frozenset("got get gets had has have need needs is are was were took has one".split())
_ENDS = frozenset(
    "um uh er and then so each apiece today yesterday tonight tomorrow this for but plus . , ;".split()
) | {"", "\n", "\n\n"}
_NEAR = 12
"""How many words before are looked at for the same thing with its number."""


def only_tens(w: list[str], i: int, number: Number, outfit: Outfit, letter: str = "") -> Number | None:
    """The tens of `number`, which begins at `i`, where its last word is the count of a thing that needs one, and the
    tens are a colony's; else None. `letter` is the letter of the id, at `i - 1`.
    """
    tail = number.tail
    if tail is None or tail != i + 1 or number.end != tail + 1 or number.end >= len(w):
        return None
    named = bool(letter) or (w[i - 1] in _ONE_HIVE and (i < 2 or w[i - 2] not in _ANY_HIVE))
    if w[tail] != "one" and _count_then_hive(w, i, number.end) and outfit.could_be(str(int(number.value) % 10)):
        return number_at(w[:tail], i)
    if not _needs_number(w, number.end, i, w[tail] == "one", named):
        return None
    tens = number_at(w[:tail], i)
    if tens is None:
        return None
    number_said = str(int(tens.value))
    known = f"{letter.upper()}{number_said}" in outfit.ids if letter and outfit.known else outfit.could_be(number_said)
    return tens if known else None


def _needs_number(w: list[str], k: int, i: int, one: bool, named: bool) -> bool:
    """Whether the thing at `k`, one or more of it, must have its number in the words from `i` on, behind a hive that is
    named by a letter or "hive", or not.
    """
    thing, after = w[k], w[k + 1] if k + 1 < len(w) else ""
    if thing in _EACH and named and i > 2:
        return w[i - 2] in _JOINED and after not in EACH_DOES  # "pads in l two and l twenty | one each"
    if not named and thing == w[i - 1] in _AT_HIVES and is_number_word(after):
        return i > 2 and (is_number_word(w[i - 2]) or is_number_word(w[i - 3]))  # "three supers off 71 | two off 72"
    if thing == "of":
        return named and after in ("them", "em", "'em", "those")  # "strips in l twenty | two of them"
    if thing not in _UNCHANGED and one == thing.endswith("s"):
        return False
    counted = thing in _MEASURES or thing in _DOSES
    before = w[i - 1] if i else ""
    if not named:
        listed = before in _JOINED and i > 1 and is_number_word(w[i - 2])
        if listed and counted and after in _EACH:
            return True  # "fifty eight fifty nine and sixty | two pads each", "40 through fifty | two pads each"
        if w[i] in _HIGH and _frames(thing, after) and w[k + 2 : k + 3] in (["brood"], ["bees"], ["brewed"], ["be"]):
            return True  # "seventy | five frames of brood": no hive has so many
        if thing == "percent":
            return before in _ENDS and w[i] in _HIGH  # "um seventy | four percent"
        at_hive = before in _AT_HIVES and (counted or thing in ("mites", "mite") or _frames(thing, after))
        return at_hive or (thing in ("mites", "mite") and before in _LOOKED_INTO)
    if thing in _MEASURES or thing in ("mites", "mite") or thing in _SPANS or _frames(thing, after):
        return True
    if one and (thing == "cell" or (thing in _CELL_KINDS and after == "cell") or counted):
        return True
    if after in _EACH and not is_number_word(thing):
        return True  # "supers on l nineteen and l twenty | two supers each"
    placed = i > 1 and w[i - 2] in _AT_HIVES and after in _ENDS
    return (counted and placed) or ((counted or thing in _BOXES) and _numbered_before(w, thing, i))


_JOINED = frozenset("and through thru to".split())
_BOXES = frozenset("super supers box boxes".split())


_HIGH = frozenset("forty fifty sixty seventy eighty ninety".split())
"""No bees have so many mites in the hundred."""
_COUNT_DUE = frozenset("had was got has is at".split())
_HAD = frozenset("had was got has came gave".split())
_NO_HIVE = frozenset("that it this which there i".split())
_NONE = frozenset("none zero nothing clean".split())


def _count_then_hive(w: list[str], i: int, end: int) -> bool:
    """ "nine had twenty | one had two": the count of one hive, and the next hive with its own."""
    if i < 2 or w[i - 1] not in _COUNT_DUE or w[i - 2] in _NO_HIVE or w[end] not in _HAD or end + 1 >= len(w):
        return False
    count = end + 2 if w[end] == "came" and w[end + 1] in ("up", "out", "in", "to", "back") else end + 1
    count += w[count : count + 1] in (["at"], ["to"], ["with"])
    return count < len(w) and (is_number_word(w[count]) or w[count] in _NONE)


def _frames(thing: str, after: str) -> bool:
    return thing in ("frames", "frame") and after == "of"


def _numbered_before(w: list[str], thing: str, i: int) -> bool:
    """Whether the same thing had its number shortly before: "l nine two supers l twenty | one super"."""
    one = thing.rstrip("s")
    return any(
        w[k].rstrip("s") == one and (is_number_word(w[k - 1]) or w[k - 1] in ("a", "an"))
        for k in range(max(1, i - _NEAR), i)
    )
