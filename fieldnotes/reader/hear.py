"""What was meant? Speech mishearings and typos, repaired in a list of words beside the text.

The text is never changed: each heard word keeps the offsets of what was written. Repairs of whole
terms ("chalk brewed") stand in the grammars as `heard`; here are the repairs of single words that
need their neighbours ("to" for two, "n" for and), and typos by edit distance against the grammar's
own words.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, field
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import OSA
from spacy.tokens import Doc

from fieldnotes.reader.grammar import grammar, listed, meanings
from fieldnotes.reader.hesitations import PAUSES, drop_hesitations, hear_openings
from fieldnotes.reader.homophones import HIVE_WORDS, numbers_by_ear
from fieldnotes.reader.mark import THINGS
from fieldnotes.reader.numbers import is_number_word, number_at
from fieldnotes.reader.outfit import Outfit

LONGEST_NUMBER = 18
"""Digits; a longer row of them is not read as a number."""


@dataclass(slots=True)
class Heard:
    """The words of a note as they were meant (`w`), their offsets in the text (`s`, `e`), and as written (`raw`)."""

    w: list[str] = field(default_factory=list)
    s: list[int] = field(default_factory=list)
    e: list[int] = field(default_factory=list)
    raw: list[str] = field(default_factory=list)

    def add(self, meant: str, start: int, end: int, raw: str) -> None:
        """One word more."""
        self.w.append(meant)
        self.s.append(start)
        self.e.append(end)
        self.raw.append(raw)


class _Speech:
    def __init__(self) -> None:
        g = grammar()
        self.homophones: dict[str, str] = g.tables["homophones"]
        self.letters: dict[str, str] = g.tables["letters"]
        self.plain: dict[str, str] = g.tables["plain"]
        numbers: set[str] = set()
        for table in ("units", "teens", "tens", "scales", "ordinals", "weekdays", "months", "seasons", "spans"):
            numbers |= set(g.tables[table])
        numbers |= set(g.tables["zeros"]["words"])
        for phrase in g.tables["days"]:
            numbers |= set(phrase.split())
        self.number_words = frozenset(numbers)
        self.known = (
            frozenset(g.tables["spared"]["words"])
            | g.vocabulary
            | self.number_words
            | frozenset(self.plain)
            | frozenset(self.homophones)
        )
        spoken: set[str] = set()
        for rule in g.rules:
            for template in rule.templates[: rule.said]:  # a typo is of the right word, never of a mishearing
                spoken |= set(
                    template.replace("(", " ")
                    .replace(")", " ")
                    .replace("[", " ")
                    .replace("]", " ")
                    .replace("|", " ")
                    .split()
                )
        self.targets = tuple(
            sorted(w for w in (self.known & (spoken | self.number_words)) if len(w) >= 4 and w.isalpha())
        )
        self.heard_only = frozenset(w for w in g.vocabulary - spoken if len(w) >= 4 and w.isalpha())
        counted: set[str] = set()
        for rule in g.rules:
            for template in rule.templates:
                for chunk in template.split("{number} ")[1:]:
                    head = chunk.split(")")[0] if chunk.startswith(("(", "[")) else chunk.split()[0]
                    counted |= {
                        w
                        for part in head.strip("([ ").replace("]", "|").replace("(", "|").replace("[", "|").split("|")
                        for w in part.split()[:1]
                    }
        for rule in g.rules:
            if rule.mark in ("item", "form", "queen_noun") or rule.name == "nuc":
                counted |= {
                    w
                    for t in rule.templates
                    for w in t.replace("(", " ")
                    .replace(")", " ")
                    .replace("[", " ")
                    .replace("]", " ")
                    .replace("|", " ")
                    .split()
                }
        self.things = frozenset(
            w
            for rule in g.rules
            if rule.mark in THINGS
            for t in rule.templates[: rule.said]
            for w in t.replace("|", " ").replace("(", " ").replace(")", " ").split()
            if w.isalpha() and len(w) > 2
        )
        counted -= {
            "{number}",
            "of",
            "and",
            "with",
            *"took taken accepted got made emerged hatched out".split(),
            "in",
            "a",
            "the",
            "an",
            "day",
            "more",
            "out",
            "on",
            "strong",
            "times",
            "below",
            "old",
            "total",
        }
        counted |= set(g.tables["counts"]["words"])
        self.counted = frozenset(w for w in counted if w.isalpha() and len(w) > 1) | {"each", "per", "ea", "apiece"}


_SPEECH = _Speech()


def speech() -> _Speech:
    """The speech tables."""
    return _SPEECH


_AS_RARE_AS = 640
"""Words down to 10 ** -6.4 of all words are plain English ("mowed", "soundly"); below it typos begin ("miyes")."""


@lru_cache(maxsize=1)
def common_words() -> frozenset[str]:
    """Plain English words, which are never taken for a typo of ours."""
    from wordfreq import get_frequency_list  # late: its table is read only when a word is unknown

    return frozenset(word for bin_ in get_frequency_list("en", "large")[: _AS_RARE_AS + 1] for word in bin_)


def hear(doc: Doc, outfit: Outfit) -> Heard:
    """The words of `doc` as they were meant."""
    heard = Heard()
    w, s, e, raw = heard.w, heard.s, heard.e, heard.raw
    plain = speech().plain
    for token in doc:
        text, start = token.text, token.idx
        end = start + len(text)
        low = text.lower()
        if low.isalpha():  # most words: no sign and no digit in them to look after
            w.append(plain.get(low, low))
            s.append(start)
            e.append(end)
            raw.append(low)
            continue
        if text.isspace():
            if "\n" in text:
                line = "\n\n" if text.count("\n") > 1 else "\n"
                heard.add(line, start, end, line)
            continue
        if "’" in low:
            low = low.replace("’", "'")
        if len(low) > LONGEST_NUMBER and (low[0].isdecimal() or low[-1].isdecimal()):
            low = "…"  # no number that anyone could mean
        if low.endswith("'s") and (
            low[:-2] in _DAY_OWNERS
            or low[:-2] in speech().things
            or is_number_word(low[:-2])
            or (low[:-2] in speech().homophones and raw and _names_hive(raw[-1], outfit))
        ):
            heard.add(low[:-2], start, end - 2, low[:-2])  # "seventy five's queen": the number, then whose it is
            heard.add("'s", end - 2, end, "'s")
            continue
        if low.endswith("'ll") and is_number_word(low[:-3]):
            heard.add(low[:-3], start, end - 3, low[:-3])  # "four'll need more": the number, then "will"
            heard.add("will", end - 3, end, "'ll")
            continue
        w.append(plain.get(low, low))
        s.append(start)
        e.append(end)
        raw.append(low)
    if "@" in raw:
        _saturdays(heard)
    if "/" in raw:
        _slashed_words(heard)
    _glue(heard)
    _begun_again(heard.w, outfit.low_letters)
    _said_twice(heard.w)
    hear_openings(heard.w, outfit.low_letters)
    drop_hesitations(heard, outfit.low_letters, outfit.places)
    _owners(heard, outfit)
    _through(heard.w, outfit)
    _swarms(heard.w)
    if "slash" in heard.w:
        _slashes(heard.w)
    _tens_by_ear(heard)
    _brood(heard)
    _before(heard.w, outfit)
    _digits_for_words(heard.w, outfit.places)
    if "1" in heard.w:
        _ones(heard.w, outfit)
    _short_spans(heard)
    _shortened(heard)
    _letter_n(heard, outfit)
    _typos(heard.w, outfit)
    taught = frozenset(word.lower() for word in outfit.roster.words if " " not in word)
    apart, places = _ids_apart(heard.w, outfit)
    numbers_by_ear(apart, set(outfit.low_letters), outfit.ids, taught, outfit.places)
    if places:
        heard.w[:] = [heard.w[i] if k is None else apart[k] for i, k in enumerate(places)]
    return heard


def _saturdays(heard: Heard) -> None:
    """ "Sat @ Millpond": nobody sat there."""
    for i, sign in enumerate(heard.raw):
        if sign == "@" and i and heard.w[i - 1] == "sat":
            heard.w[i - 1] = "saturday"


def _slashed_words(heard: Heard) -> None:
    """ "combined w/ 45", "w/o a queen", "b/c of mice": short words with a slash in them."""
    w, s, e, raw = heard.w, heard.s, heard.e, heard.raw
    for i in range(len(w) - 2, 0, -1):
        if raw[i] != "/" or raw[i - 1] not in ("w", "b") or e[i - 1] != s[i]:
            continue
        glued = s[i + 1] == e[i]
        if raw[i - 1] == "b":
            meant, end = ("because", i + 1) if glued and raw[i + 1] == "c" else (None, i)
        else:
            meant, end = ("without", i + 1) if glued and raw[i + 1] == "o" else ("with", i)
        if meant is not None:
            w[i - 1], raw[i - 1], e[i - 1] = meant, meant, e[end]
            del w[i : end + 1], s[i : end + 1], e[i : end + 1], raw[i : end + 1]


def _ids_apart(w: list[str], outfit: Outfit) -> tuple[list[str], list[int | None]]:
    """The words with each "L7" as "l 7", so that what is asked of the words around a number holds for both; and where
    each of the words as they were stands in them, None for such an id. The same list and no places where there is none.
    """
    if not [word for word in w if word[-1].isdecimal() and not word[0].isdecimal()]:  # a list is faster here
        return w, []
    apart: list[str] = []
    places: list[int | None] = []
    for word in w:
        if word[-1].isdecimal() and (letter := word.rstrip(_FIGURES)) and letter in outfit.low_letters:
            places.append(None)
            apart += (letter, word[len(letter) :])
        else:
            places.append(len(apart))
            apart.append(word)
    return (apart, places) if None in places else (w, [])


_FIGURES = "0123456789"


_BEFORE_DECADES = frozenset("the in low mid high upper early late".split())
"""Before numbers of degrees or years: "in the low 50s"."""

_DAY_OWNERS = frozenset(
    "yesterday today tomorrow week monday tuesday wednesday thursday friday saturday sunday round".split()
)
"""Days that things belong to ("friday's counts"), and what may be on one ("second round's saturday")."""


def _through(w: list[str], outfit: Outfit) -> None:
    """ "l one threw l nine": through, between two numbers."""
    if "threw" not in w:
        return
    for i, word in enumerate(w[1:-1], 1):
        if (
            word == "threw"
            and (w[i - 1][-1].isdecimal() or is_number_word(w[i - 1]) or w[i - 1] in speech().homophones)
            and (w[i + 1][-1].isdecimal() or is_number_word(w[i + 1]) or w[i + 1] in outfit.low_letters)
        ):
            w[i] = "through"


_SWARMS_OFF = listed("swarms_off")
_SWARMS_CAUGHT = [["caught"], ["got"], ["took"], ["had"], ["have"], ["hived"], ["saw"], ["were"], ["are"], ["all"]]


def _swarms(w: list[str]) -> None:
    """ "seventy three swarms right in front of me", "l four just swarms while I watch": what it does, no swarms."""
    if "swarms" not in w:
        return
    for i, word in enumerate(w[1:-1], 1):
        if word != "swarms" or w[i + 1] not in _SWARMS_OFF:
            continue
        k = i
        while k and (is_number_word(w[k - 1]) or w[k - 1][-1].isdecimal()):
            k -= 1
        if w[i - 1] == "just" or (k < i and w[max(0, k - 1) : k] not in _SWARMS_CAUGHT):
            w[i] = "swarmed"


def _names_hive(word: str, outfit: Outfit) -> bool:
    """Whether a colony's number is due after the word: "hive", a letter of the roster's ids, "forty"."""
    return word in HIVE_WORDS or word in outfit.low_letters or word in grammar().tables["tens"]


def _glue(heard: Heard) -> None:
    """ "2nite", "2morrow": a digit run into the rest of a word."""
    w, s, e, raw = heard.w, heard.s, heard.e, heard.raw
    if "2" not in w:
        return
    glued = grammar().tables["glued"]
    places = {i for i in range(len(w) - 1) if w[i] == "2" and raw[i + 1] in glued and e[i] == s[i + 1]}
    if not places:
        return
    whole = Heard()
    for i, word in enumerate(w):
        if i in places:
            whole.add(glued[raw[i + 1]], s[i], e[i + 1], raw[i])
        elif i - 1 not in places:
            whole.add(word, s[i], e[i], raw[i])
    w[:], s[:], e[:], raw[:] = whole.w, whole.s, whole.e, whole.raw


_SHORT_SPANS = meanings("short_spans")


def _short_spans(heard: Heard) -> None:
    """ "in 10d", "for 6w": days and weeks by their letter, run into the number."""
    w, raw = heard.w, heard.raw
    if _SHORT_SPANS.keys().isdisjoint(raw):
        return
    for i in range(1, len(w)):
        glued = raw[i] in _SHORT_SPANS and w[i - 1].isdecimal() and heard.e[i - 1] == heard.s[i]
        if glued and (i < 2 or heard.e[i - 2] < heard.s[i - 1] or not w[i - 2][-1].isalnum()):
            w[i] = _SHORT_SPANS[raw[i]]


_SHORTENED = listed("shortened")
_GOES_ON = listed("after_shortened")


def _shortened(heard: Heard) -> None:
    """ "1 gal. syrup": a dot that shortens a measure ends no sentence."""
    w = heard.w
    if "." not in w:
        return
    for i in range(len(w) - 2, 0, -1):
        ratio = w[i + 2 : i + 3] == [":"] and w[i + 1] in ("1", "2")
        if w[i] == "." and w[i - 1] in _SHORTENED and (w[i + 1] in _GOES_ON or ratio) and heard.e[i - 1] == heard.s[i]:
            heard.e[i - 1] = heard.e[i]
            del w[i], heard.raw[i], heard.s[i], heard.e[i]


_UNFINISHED = frozenset("is are was were had has have got came gave showed took gets".split())


def _begun_again(w: list[str], letters: Collection[str]) -> None:
    """ "twenty one was um twenty one was seven", "a jar on it and l nine um l nine has eggs": what was broken off and
    begun again is said once.
    """
    if PAUSES.isdisjoint(w):
        return
    for i, word in enumerate(w):
        if word not in PAUSES or i < 2:
            continue
        hive = w[i - 1] not in _UNFINISHED
        if hive and not (is_number_word(w[i - 1]) or w[i - 1].isdecimal()):
            continue
        for n in range(min(5, i), 0, -1):
            if w[i - n : i] != w[i + 1 : i + 1 + n]:
                continue
            if n > 1 if not hive else _hive_alone(w, i - n, i, letters):
                w[i - n : i] = ["um"] * n
                break


def _hive_alone(w: list[str], start: int, end: int, letters: Collection[str]) -> bool:
    """Whether the words name one hive with which something new begins, and not the last of a list."""
    named = all(is_number_word(x) or x.isdecimal() or x in HIVE_WORDS or x in letters for x in w[start:end])
    before = w[start - 2] if start > 1 else ""
    in_list = is_number_word(before) or before[-1:].isdecimal() or before in HIVE_WORDS or before in speech().homophones
    return named and w[start - 1 : start] in _BEGINS_HIVE and not in_list


_BEGINS_HIVE = (["and"], ["then"], ["so"])


_JOINED = frozenset("and or to by through then with for of in on at".split())
_LONGEST_SAID_TWICE = 5


_SAID_OF_IT = frozenset("is was has had".split())


def _said_twice(w: list[str]) -> None:
    """ "a dozen a dozen mites", "it was two pounds two pounds of fondant": a number with its thing is meant once."""
    for n in range(2, _LONGEST_SAID_TWICE + 1):
        alike = 0  # how many words so far are the same as the one n before
        for i in range(n, len(w)):
            alike = alike + 1 if w[i] == w[i - n] else 0
            if alike != n:
                continue
            said = w[i - n + 1 : i + 1]
            numbers = [is_number_word(x) or x == "dozen" for x in said]
            if numbers[-1] and i + 1 < len(w) and (is_number_word(w[i + 1]) or w[i + 1] in _SAID_OF_IT):
                alike = 0
                continue  # "forty nine calm fifty calm fifty four": another number
            if any(numbers) and not all(numbers) and all(x.isalpha() for x in said):
                named = all(
                    number or x in HIVE_WORDS or (len(x) == 1 and x != "a")
                    for number, x in zip(numbers, said, strict=True)
                )
                whole = len(said[-1]) > 1 and said[-1] not in HIVE_WORDS  # and not "had twelve and l | twelve and l"
                if whole and not named and _JOINED.isdisjoint((said[0], said[-1])):  # "all but hive 9 | hive 9 is dead"
                    w[i - 2 * n + 1 : i - n + 1] = ["um"] * n
            alike = 0


_AFTER_TO = listed("to_as_digit")
_AFTER_TOO = listed("too_much")


_ON_THE_WAY = listed("on_the_way")


def _digits_for_words(w: list[str], places: dict[str, list[list[str]]]) -> None:
    """ "need 2 get", "over 2 heath", "no syrup 4 76": a digit written for "to" or "for"; `places` are the yards."""
    if "2" not in w and "4" not in w:
        return
    for i in range(1, len(w) - 1):
        if w[i] == "2" and w[i - 1] in ("need", "needs", "want", "wants", "have", "got", "going", "gotta", "needed"):
            w[i] = "to" if w[i + 1] in _AFTER_TO else "2"
        elif (
            w[i] == "4"
            and w[i - 1].isalpha()
            and w[i - 1] in speech().counted | {"syrup", "fondant"}
            and w[i + 1][0].isdecimal()
        ):
            w[i] = "for"
        elif w[i] == "2" and w[i - 1] in ("its", "it's", "are", "was", "is", "way", "far") and w[i + 1] in _AFTER_TOO:
            w[i] = "too"  # "64 stayed, its 2 weak"
        elif w[i] == "2" and w[i + 1] in ("the", "my", "our", "a") and w[i - 1].isalpha():
            if w[i + 1 : i + 3] not in _EACH_HIVE:  # "in every hive 2 a hive"
                w[i] = "to"  # "from the pond 2 the quarry"
        elif w[i] == "2" and w[i - 1] in _ON_THE_WAY and w[i + 1] in places:
            ends = (i + 1 + len(x) for x in places[w[i + 1]] if w[i + 1 : i + 1 + len(x)] == x)
            end = max(ends, default=0)
            if end and w[end : end + 1] not in [[x] for x in HIVE_WORDS]:
                w[i] = "to"  # "moved 45 over 2 heath", but "moved over 2 heath hives"


_EACH_HIVE = (["a", "hive"], ["a", "colony"], ["a", "nuc"], ["a", "box"], ["a", "piece"], ["a", "pop"])
_WHICH_ONE = listed("which_one")
_BRINGS = frozenset("bring bringing brought gets get got put gave give take took needs need wants want left".split())
_NO_PRONOUN = frozenset(": / - – & , . and to too through thru or".split())


def _ones(w: list[str], outfit: Outfit) -> None:
    """ "a super over each 1", "hive 5 gets 1 next week": a digit written for the one that points to a thing."""
    for i in range(1, len(w)):
        if w[i] != "1":
            continue
        after = w[i + 1] if i + 1 < len(w) else "\n"
        if is_number_word(after) or after in _NO_PRONOUN or after in speech().counted:
            continue
        if (w[i - 1] in _WHICH_ONE and w[i - 1] not in ("new", "good", "bad", "old")) or w[i - 1] in _BRINGS:
            w[i] = "one"


_TEA = frozenset(["tea", "tee", "teen"])
_TENS_BY_EAR = meanings("tens_by_ear")
_TEENS_BY_EAR = meanings("teens_by_ear")


def _tens_by_ear(heard: Heard) -> None:
    """ "for tea four" is forty four, "ate teen" eighteen: one number heard as two words."""
    w, s, e, raw = heard.w, heard.s, heard.e, heard.raw
    if _TEA.isdisjoint(w):
        return
    whole = Heard()
    i = 0
    while i < len(w):
        after = w[i + 1] if i + 1 < len(w) else ""
        third = w[i + 2] if i + 2 < len(w) else ""
        meant = None
        if after == "teen":
            meant = _TEENS_BY_EAR.get(w[i])
        elif after in ("tea", "tee") and (is_number_word(third.removesuffix("'s")) or third in speech().homophones):
            meant = _TENS_BY_EAR.get(w[i])
        if meant is None:
            whole.add(w[i], s[i], e[i], raw[i])
            i += 1
        else:
            whole.add(meant, s[i], e[i + 1], f"{raw[i]} {raw[i + 1]}")
            i += 2
    w[:], s[:], e[:], raw[:] = whole.w, whole.s, whole.e, whole.raw


def _owners(heard: Heard, outfit: Outfit) -> None:
    """ "12's are out": the sign and the letter after a number in digits are one word; also in "50s queen"."""
    w = heard.w
    if "s" not in w:
        return
    i = 0
    while i + 2 < len(w):
        if w[i][-1].isdecimal() and w[i + 1] in ("'", "’") and w[i + 2] == "s" and heard.e[i] == heard.s[i + 1]:
            w[i + 1], heard.raw[i + 1], heard.e[i + 1] = "'s", "'s", heard.e[i + 2]
            del w[i + 2], heard.raw[i + 2], heard.s[i + 2], heard.e[i + 2]
        elif w[i + 1] == "s" and w[i] in outfit.ids and heard.e[i] == heard.s[i + 1]:
            if i == 0 or w[i - 1] not in _BEFORE_DECADES:
                w[i + 1] = heard.raw[i + 1] = "'s"
        i += 1


def _before(w: list[str], outfit: Outfit) -> None:
    """ "b4 i forget": before, unless it is a colony."""
    if "b4" not in w:
        return
    none = bool(outfit.ids) and "B4" not in outfit.ids
    for i, word in enumerate(w[:-1]):
        if word == "b4" and (
            (none and w[i + 1].isdigit())
            or w[i + 1] in ("i", "we", "he", "she", "it", "the", "they", "dark", "noon", "lunch")
        ):
            w[i] = "before"  # also "ran out b4 6"


_BREWERS = frozenset("i we he she they you freshly home".split())
_DRINKS = frozenset("coffee tea beer up some a the us me more".split())


def _brood(heard: Heard) -> None:
    """ "frames of brewed": brood by ear, except where somebody brewed something; "5 fr brd"; "8f bees" are frames."""
    w, raw = heard.w, heard.raw
    if "brewed" in w:
        for i, word in enumerate(w):
            if word == "brewed" and not (i and w[i - 1] in _BREWERS) and w[i + 1 : i + 2] not in [[x] for x in _DRINKS]:
                w[i] = "brood"
    if "brd" in raw:
        for i, word in enumerate(raw):
            if word == "brd" and ((i and w[i - 1] in _BEFORE_BROOD) or not _HEADS_TABLE.isdisjoint(w[i - 1 : i + 2])):
                w[i] = "brood"
    if "f" in w or "fr" in w:
        for i in range(1, len(w) - 1):
            if w[i] in ("f", "fr") and w[i - 1][-1].isdecimal() and w[i + 1] in _IN_FRAMES:
                w[i] = "frames"


_BEFORE_BROOD = listed("before_brood")
_HEADS_TABLE = frozenset("q queen bees fob eggs food stores notes".split())
_IN_FRAMES = listed("in_frames")


def _slashes(w: list[str]) -> None:
    """ "on six slash three": a day in figures, said out loud. Changes `w` in place."""
    for i in range(1, len(w) - 1):
        before, after = number_at(w[: i + 1], i - 1), number_at(w, i + 1)
        if w[i] == "slash" and before and after and before.end == i and after.end == i + 2:
            w[i - 1], w[i], w[i + 1] = str(int(before.value)), "/", str(int(after.value))


_FRAMES = (["frame"], ["frames"], ["fr"], ["frms"], ["seams"], ["bars"])


def _letter_n(heard: Heard, outfit: Outfit) -> None:
    """ "n" is "and" ("61 n 62"), unless it is the letter of an id ("n three", "n to", "n 3 was 2 n 5 was 4")."""
    w = heard.w
    if "n" not in heard.raw:
        return
    named = False  # whether an id with this letter was named before
    for i, word in enumerate(heard.raw):
        if word == "n" and i + 1 < len(w):
            after_number = i > 0 and (w[i - 1][0].isdecimal() or w[i - 1][-1].isdecimal())
            nxt = w[i + 1] if w[i + 1] != "-" or i + 2 >= len(w) else w[i + 2]
            of_it = w[i + 2 : i + 3] == ["of"] and i > 0 and w[i - 1] in ("bees", "brood", "honey", "stores")
            if of_it:  # "4 frames of bees n 2 of brood"
                continue
            joins = after_number and nxt[0].isdecimal() and not (named and f"N{nxt}" in outfit.ids)
            number = number_at(w, i + 1)
            if number is not None and not joins:
                between = outfit.known and i > 0 and number_at(w, i - 1) is not None
                joins = between and f"N{number.value:g}" not in outfit.ids  # "fifty n fifty four"
                joins = joins or w[number.end : number.end + 1] in _FRAMES  # "n 5 frames"
            if (is_number_word(nxt) or nxt in speech().homophones) and not joins:
                w[i] = "n"
                named = True


@lru_cache(maxsize=20000)
def closest(word: str, extra: frozenset[str] = frozenset()) -> str | None:
    """The one word of the grammar (or of `extra`) that `word` is a typo of; None where there is no one such word."""
    limit = 1 if len(word) < 7 else 2
    near = process.extract(word, speech().targets, scorer=OSA.distance, score_cutoff=limit, limit=None)
    if extra:
        near += process.extract(word, tuple(extra), scorer=OSA.distance, score_cutoff=limit, limit=None)
    best: list[tuple[int, str]] = [(int(distance) * 2 - (target[0] == word[0]), target) for target, distance, _ in near]
    if not best:
        return None
    # "pulld" is "pulled", not "pull": of two as near, the one with the same ending
    best.sort(key=lambda found: (found[0], sorted(found[1]) != sorted(word), found[1][-1] != word[-1], found[1]))
    if best[0][0] > 2 and best[0][1].rstrip("s")[-1] != word.rstrip("s")[-1] and sorted(best[0][1]) != sorted(word):
        return None  # "zappers" is not "zapped": two letters off, and another ending
    if best[0][0] > 2 * limit - 1 and word[0] != best[0][1][0]:
        return None  # another first letter and at the limit: too far to be sure
    as_near = [target for found, target in best if found == best[0][0]]
    if all(_same_meaning(as_near[0], target) for target in as_near):
        return as_near[0]
    # "strops" are strips: straps are hardly ever written of
    daily = [target for target in as_near if target in listed("daily_words")]
    return daily[0] if daily and all(_same_meaning(daily[0], target) for target in daily) else None


def _same_meaning(a: str, b: str) -> bool:
    return a.rstrip("s") == b.rstrip("s") or a[:4] == b[:4]


_VOWELS = str.maketrans("", "", "aeiou")


@lru_cache(maxsize=1)
def _skeletons() -> dict[str, str | None]:
    """Consonants of the grammar's words → the word; None where more than one word has them."""
    found: dict[str, str | None] = {}
    for word in speech().targets:
        bones = word.translate(_VOWELS)
        if len(word) > 4 and len(bones) > 3:
            known = found.get(bones, word)
            found[bones] = word if known is not None and _same_meaning(known, word) else None
    return found


def _by_skeleton(word: str) -> str | None:
    """ "swrmd" is "swarmed", "grds" "guards": a word written without its vowels."""
    if word.translate(_VOWELS) != word:
        return None
    return _skeletons().get(word)


@lru_cache(maxsize=20000)
def _misspelt(word: str) -> str | None:
    """The word of a rule's `say` that one of its `heard` misspells: "quen" is "queen" in every phrase, not in one."""
    limit = 1 if len(word) < 6 else 2
    said: set[str] = set()
    for rule in grammar().rules:
        if any(word in _words(template) for template in rule.templates[rule.said :]):
            said |= {w for template in rule.templates[: rule.said] for w in _words(template) if len(w) >= 4}
    alike = (w for w in said if w[0] == word[0] and OSA.distance(word, w, score_cutoff=limit) <= limit)
    letters = sorted(word)  # "mitse" is "mites", not "mite"
    return min(alike, key=lambda w: (OSA.distance(word, w), sorted(w) != letters, w[-1] != word[-1], w), default=None)


def _words(template: str) -> list[str]:
    """The words of a phrase as a rule has it: "(couldn't|could not) find [the] queen"."""
    return re.findall(r"[^\s()\[\]|]+", template)


def _past_form(word: str) -> str | None:
    """ "capd" is "capped", "markd" is "marked": a past tense without its vowel."""
    if word[-1] != "d" or word[-2] in "aeiou":
        return None
    known = speech().known
    found = next((w for w in (word[:-1] + "ed", word[:-1] + word[-2] + "ed") if w in known), None)
    return speech().plain.get(found, found) if found else None


def _typos(w: list[str], outfit: Outfit) -> None:
    known, heard_only = speech().known, speech().heard_only
    names = outfit.phrases.vocabulary
    for i, word in enumerate(w):
        if word in heard_only and word not in common_words():
            w[i] = _misspelt(word) or word
            continue
        if (
            len(word) < 4
            or word in known
            or word in names
            or not word.isalpha()
            or w[i + 1 : i + 2] in (["yard"], ["apiary"])
        ):
            continue
        meant = _past_form(word) or _by_skeleton(word) or closest(word, names)
        if meant and word not in common_words():
            w[i] = meant
