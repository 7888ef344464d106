"""The atoms of a message: names, dates, colony ids and numbers, each folded into one word."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from fieldnotes.reader.dates import date_at, date_openers
from fieldnotes.reader.grammar import grammar, listed
from fieldnotes.reader.hear import Heard, speech
from fieldnotes.reader.mark import ROUNDS
from fieldnotes.reader.marking.clock import clock_time, line_clock, phone_number
from fieldnotes.reader.marking.ids import letter_id
from fieldnotes.reader.marking.spoken import spoken_number
from fieldnotes.reader.marking.yards import PLACE_WORDS, unknown_yard
from fieldnotes.reader.numbers import is_number_word, number_openers, ordinal_at, remember
from fieldnotes.reader.outfit import Name, Outfit

_WASHED = listed("looked_into")


def _two_numbers(w: list[str], i: int) -> bool:
    """ "washed twenty | first", "in all thirty | second tray goes in": what would be one ordinal is two."""
    return (i > 0 and w[i - 1] in _WASHED) or (i + 2 < len(w) and (w[i + 2] in ROUNDS or w[i + 2] in _FIRST_OF_ALL))


_FIRST_OF_ALL = frozenset(["thing", "chance"])
""" "treat forty | first thing tomorrow"."""


@dataclass(slots=True)
class Atoms:
    """The words with names, dates, ids and numbers each folded into one."""

    w: list[str] = field(default_factory=list)
    s: list[int] = field(default_factory=list)
    e: list[int] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    v: list[Any] = field(default_factory=list)

    def plain(self, heard: Heard, i: int, j: int) -> None:
        """The words from `i` to `j` that are only themselves."""
        words = heard.w[i:j]
        self.w += words
        self.s += heard.s[i:j]
        self.e += heard.e[i:j]
        self.said += words
        self.v += [None] * (j - i)

    def add(self, shown: str, heard: Heard, i: int, j: int, value: Any = None) -> None:
        self.w.append(shown)
        self.s.append(heard.s[i])
        self.e.append(heard.e[j - 1])
        self.said.append(" ".join(heard.w[i:j]))
        self.v.append(value)

    def take(self, shown: str, heard: Heard, i: int, found: tuple[Any, int]) -> int:
        """Folds the words from `i` on into what was found there: (its value, the index after it). Gives the index."""
        self.add(shown, heard, i, found[1], found[0])
        return found[1]


def is_number(word: str) -> bool:
    return word == "{number}" or (len(word) > 1 and word[0] == "=")


def find_atoms(heard: Heard, outfit: Outfit) -> Atoms:
    w = heard.w.copy()
    remember(w)
    atoms = Atoms()
    day_first = outfit.roster.day_first
    names: dict[int, tuple[int, Any]] = {}
    for i, j, index in outfit.phrases.find(w):
        name = outfit.names[index]
        if name.label == "product" and _plainly_said(w, i, j):
            continue
        if name.plain_word and not _names_place(w, i, j, name, outfit, names):
            continue
        if name.label == "yard" and _somebody(w, i, j):
            name = Name("filler", name.value)
        if i not in names or j > names[i][0]:
            names[i] = (j, name)
    vocabulary = grammar().vocabulary
    openers, only_dates = _openers(outfit)
    numbers = number_openers()
    yards_said = "yard" in w or "apiary" in w
    i, n = 0, len(w)
    plain_from = 0  # the plain words from here to `i` are still to be taken over, in one go
    while i < n:
        word = w[i]
        if i in names:
            atoms.plain(heard, plain_from, i)
            j, name = names[i]
            if name.label == "product":
                atoms.add("{agent}", heard, i, j, (*name.agent, ("product", name.value)))
            else:
                atoms.add("{" + name.label + "}", heard, i, j, name.value)
            plain_from = i = j
            continue
        if word not in openers and len(word) > 1 and word[0].isalpha() and not word[-1].isdecimal():
            unknown = unknown_yard(w, i, outfit, vocabulary) if yards_said else None
            if unknown:
                atoms.plain(heard, plain_from, i)
                plain_from = i = atoms.take("{yard}", heard, i, unknown)
                continue
            i += 1
            continue
        if not word[0].isalnum() and (len(word) == 1 or word == "\n\n"):
            i += 1  # a sign: no name, number or date begins with one
            continue
        if word in only_dates:
            shown = "{date}"
            found: tuple[Any, int] | None = date_at(w, i, day_first)
            if found is None and yards_said:
                shown, found = "{yard}", unknown_yard(w, i, outfit, vocabulary)
            if found is None:
                i += 1
                continue
            atoms.plain(heard, plain_from, i)
            plain_from = i = atoms.take(shown, heard, i, found)
            continue
        numeric = word in numbers or word[0].isdecimal() or word[0] == "."  # whether a number may begin here
        atoms.plain(heard, plain_from, i)
        plain_from = i
        phone = phone_number(heard, i) if numeric and len(word) == 3 else None
        if phone:
            atoms.add("{clock}", heard, i, phone)
            plain_from = i = phone
            continue
        clock = clock_time(w, i) or line_clock(heard, i) if numeric or word == "at" else None
        if clock:
            atoms.add("{clock}", heard, i, clock)
            plain_from = i = clock
            continue
        when = date_at(_in_its_column(heard, i) if numeric else w, i, day_first)
        if when:
            plain_from = i = atoms.take("{date}", heard, i, when)
            continue
        found = letter_id(w, i, outfit)
        if found and not _apart(heard, i, found, outfit):
            plain_from = i = atoms.take("{colony}", heard, i, found)
            continue
        unknown = unknown_yard(w, i, outfit, vocabulary) if yards_said else None
        if unknown:
            plain_from = i = atoms.take("{yard}", heard, i, unknown)
            continue
        ordinal = ordinal_at(w, i) if numeric else None
        if ordinal and not (ordinal[1] == i + 2 and _two_numbers(w, i)):
            plain_from = i = atoms.take("{ordinal}", heard, i, ordinal)
            continue
        number = spoken_number(w, i, outfit) if numeric else None
        if number:
            shown = f"={int(number.value)}" if number.whole and 0 <= number.value < 1000 else "{number}"
            atoms.add(shown, heard, i, number.end, number)
            plain_from = i = number.end
            continue
        i += 1
    atoms.plain(heard, plain_from, n)
    return atoms


_WORKED_AT = listed("worked_at")
_OPENS_ROW = listed("opens_row")
_TO_BEGIN = listed("to_begin")
_HOLD = frozenset("hold hang going working head hooked depends".split())
_HERE_IS = (["this", "is"], ["i", "mean"], ["i", "meant"], ["make", "that"])
_YIELDED = frozenset("made gave yielded brought".split())
_ASKED_OF = frozenset("round harvest first second third all".split())
_DUE = frozenset("due next going supposed happening getting gonna scheduled ready ?".split())
"""What is asked of a day to come: "when's hive nine due"."""


def _walk_begins(w: list[str], j: int) -> bool:
    """ "hive seventy has eggs", "soap wash half cups 70 one": work or hives with their numbers, and no question."""
    if j >= len(w) or w[j] not in _OPENS_ROW or w[j] in _ASKED_OF:
        return False
    return _DUE.isdisjoint(w[j : j + 8]) and any(is_number_word(x) or x.isdecimal() for x in w[j : j + 12])


def _names_place(w: list[str], i: int, j: int, name: Name, outfit: Outfit, names: dict[int, tuple[int, Any]]) -> bool:
    """Whether a plain word that is a yard's name too ("home") is meant as the name."""
    before, after = w[i - 1] if i else "\n", w[j] if j < len(w) else "\n"
    if i and before in PLACE_WORDS:
        return True
    if all(x in _TO_BEGIN for x in w[:i]) and (is_number_word(after) or _walk_begins(w, j)):
        return True  # "when's seventy through seventy four", "okay when's hive seventy has eggs"
    if name.label == "yard" and before in _WORKED_AT:
        return True  # "vaped when's today", "fed home"
    if name.label == "yard" and w[max(0, i - 2) : i] in _HERE_IS and not _DUE & set(w[j : j + 8]):
        return True  # "at cut bank, no wait, this is when's", "I mean when's"
    if name.label == "yard" and before == "on" and (i < 2 or w[i - 2] not in _HOLD):
        return True  # "vapour on when's this afternoon"
    if name.label == "yard" and after in _YIELDED and not _DUE & set(w[j : j + 8]):
        return True  # "and when's made four buckets"
    if name.label != "yard" or " ".join(w[i:j]).endswith("'s"):
        return False
    if before in ("\n", "\n\n", ".", ";") and (after == ":" or after in _OPENS_ROW or is_number_word(after)):
        return True  # "home strips out", "Home: 105 dead"
    if before in _WORKED_AT or before.upper() in outfit.yard_ids[name.value]:
        return True  # "vaped home", "105 home one strip fell"
    if before in ("and", ",", "&"):
        return any(end == i - 1 and n.label == "yard" for end, n in names.values())  # "chapel, home and ridge"
    k = j + 1 if after in ("and", ",", "&") else len(w)
    return any(w[k : k + len(words)] == words for words in outfit.places.get(w[k], ())) if k < len(w) else False


_DOES_AS_PEOPLE = listed("people_do")
_CAME = frozenset(["came", "comes", "coming"])
_ON_A_VISIT = frozenset("over by along round around".split())


def _somebody(w: list[str], i: int, j: int) -> bool:
    """ "then Aunt Wen came over with lemonade": the person that a yard is named after, and not the yard."""
    if j + 1 >= len(w) or (i and w[i - 1] in PLACE_WORDS) or w[j - 1].endswith("'s"):
        return False
    if w[j] in _DOES_AS_PEOPLE:
        return True
    with_it = w[j + 1 : j + 3] == ["out", "with"] and not any(is_number_word(x) for x in w[j + 3 : j + 5])
    return w[j] in _CAME and (w[j + 1] in _ON_A_VISIT or with_it)


_SENSED = listed("sensed")


def _plainly_said(w: list[str], i: int, j: int) -> bool:
    """ "smells sour", "a sour smell": a plain word that only looks like the outfit's "sours"."""
    after = w[j] if j < len(w) else ""
    if i and w[i - 1] == "brood" and (after in _OF_THINGS or (after == "in" and w[j - 1].endswith("s"))):
        return False  # "one frame of brood | stinkies are in nine"
    return bool(i and w[i - 1] in _SENSED) or after in _SENSED


_OF_THINGS = frozenset("are were went go going came come out off".split())


def _openers(outfit: Outfit) -> tuple[frozenset[str], frozenset[str]]:
    """The words with which a date, number, ordinal, clock time or lettered id can begin; those only of dates."""
    if outfit.openers is None:
        others = number_openers() | frozenset(speech().letters) | outfit.low_letters | {"at"}
        outfit.openers = (others | date_openers(), frozenset(x for x in date_openers() - others if len(x) > 1))
    return outfit.openers


def _in_its_column(heard: Heard, i: int) -> list[str]:
    """The words up to a wide gap after a month: "10 Aug    25 Sep" over two columns are two days."""
    k = i + 1
    if k + 1 < len(heard.w) and heard.w[k].isalpha() and heard.s[k + 1] - heard.e[k] > 1:
        return heard.w[: k + 1]
    return heard.w


def _apart(heard: Heard, i: int, found: tuple[str, int], outfit: Outfit) -> bool:
    """Whether the letter at `i` is not of the number after it: "1g 2:1", "y    8" in a table, "n 0" of no such hive."""
    if len(heard.w[i]) > 1 or found[1] != i + 2:
        return False
    glued = i > 0 and heard.e[i - 1] == heard.s[i] and heard.w[i - 1][-1].isdecimal()
    typed = heard.w[i + 1].isdecimal()
    gap = heard.s[i + 1] - heard.e[i]
    yes_or_no = typed and gap and outfit.known and heard.w[i] in ("y", "n", "v") and found[0] not in outfit.ids
    return glued or gap > 1 or bool(yes_or_no)
