"""Hesitations that part nothing: "the um quarry", "two strips uh each", "seventy you know is heavy".

A sound between two words is a hint that something new begins, and many a rule weighs it. Where the word before it
cannot end what was told, or the word after it can begin nothing, it is no hint, and is dropped before anything is asked
of the words beside it. The text keeps it, and what no record holds stays a leftover.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol

from fieldnotes.reader.grammar import grammar, listed
from fieldnotes.reader.homophones import HIVE_WORDS
from fieldnotes.reader.numbers import is_number_word

PAUSES = listed("pauses")
_LAST_WORDS = frozenset(phrase.split()[-1] for phrase in PAUSES)
_LONGEST_PAUSE = max(len(phrase.split()) for phrase in PAUSES)
_STOPS = frozenset([".", ";", ":", "!", "?", ",", "-", "–", "\n", "\n\n"])


class Words(Protocol):
    """The words as they were meant, their offsets, and as written."""

    w: list[str]
    s: list[int]
    e: list[int]
    raw: list[str]


@dataclass(slots=True)
class _Pause:
    """Where one hesitates: `before` and `after` are the words beside it, `earlier` and `later` those next to them."""

    lead: list[str]
    """The words up to `before`."""
    rest: list[str]
    """The words from `after` on."""
    before: str
    after: str
    earlier: str
    later: str
    letters: Collection[str]
    places: Mapping[str, list[list[str]]]

    @property
    def counted(self) -> bool:
        """Whether the word before is a number, or sounds like one where one is due."""
        if self.before in _SOUNDS:
            due = self.earlier in _COUNT_DUE or self.earlier in HIVE_WORDS or self.earlier in self.letters
            return due or is_number_word(self.earlier)
        return is_number_word(self.before) or self.before[0].isdecimal()


def drop_hesitations(heard: Words, letters: Collection[str], places: Mapping[str, list[list[str]]]) -> None:
    """Drops those that part nothing; `letters` are of the roster's ids, `places` its yards by their first words."""
    w = heard.w
    if _LAST_WORDS.isdisjoint(w):
        return
    for last in [i for i, word in enumerate(w) if word in _LAST_WORDS][::-1]:
        end = last + 1
        if end >= len(w) or w[end] in _STOPS or w[end] in _LAST_WORDS:
            continue  # of several, all are looked at with the last
        start = _begins(w, end)
        if not 0 < start < end or w[start - 1] in _STOPS:
            continue
        earlier, later = w[start - 2] if start > 1 else "", w[end + 1] if end + 1 < len(w) else ""
        near = w[max(0, start - _NEAR) : start]
        pause = _Pause(near, w[end : end + _FAR], w[start - 1], w[end], earlier, later, letters, places)
        if (w[start] not in _SPOKEN_TO or _no_question(pause)) and _parts_nothing(pause):
            for words in (heard.w, heard.s, heard.e, heard.raw):
                del words[start:end]


_OPENINGS = frozenset(["alright", "okay", "right"])
_SAID_SO_OF = listed("fine_after")
_RIGHT_AFTER = listed("right_after")
_OPENED = listed("right_before")


def hear_openings(w: list[str], letters: Collection[str]) -> None:
    """ "had four alright hive nine had none", "two per hive right they come out ...": said to go on, as "um" is."""
    if _OPENINGS.isdisjoint(w):
        return
    for i in range(1, len(w) - 1):
        if w[i] not in _OPENINGS or w[i - 1] in _SAID_SO_OF or w[i - 1] in _STOPS or w[i + 1] in _STOPS:
            continue
        if w[i] == "right" and (
            w[i - 1] in _RIGHT_AFTER
            or w[i - 2 : i] == ["left", "to"]
            or (w[i - 1].isdecimal() and w[i + 1].isdecimal())
        ):
            continue  # "left to right forty is calm"; a row of figures, with how the queen is
        begun = w[i + 1] in _OPENED or w[i + 1] in letters or is_number_word(w[i + 1]) or w[i + 1] in HIVE_WORDS
        if w[i] == "alright" or begun:
            w[i] = "um"


def _begins(w: list[str], end: int) -> int:
    """Where the hesitations begin that stand before the word at `end`; `end` where there is none."""
    start = end
    while start > 0 and w[start - 1] in _LAST_WORDS:
        n = next((n for n in range(1, _LONGEST_PAUSE + 1) if " ".join(w[max(0, start - n) : start]) in PAUSES), 0)
        if not n:
            return start
        start -= n
    return start


_NEAR, _FAR = 5, 12
_SPOKEN_TO = frozenset(["you", "let's"])


def _no_question(p: _Pause) -> bool:
    """ "do you know where it is", "so you know what to do" are no hesitation."""
    return p.before not in _ASKS and p.after not in _ASKED_FOR


_ASKS = frozenset("do did does if let so as".split())
_ASKED_FOR = frozenset("what where who how if why which when whether that about".split())


def _parts_nothing(p: _Pause) -> bool:
    """Whether the words on both sides of the hesitation go together."""
    if p.after == p.before or p.after in _ASIDES:
        return False
    return any(rule(p) for rule in _RULES)


_ASIDES = frozenset("sorry wait scratch make actually hang hold correction strike i'm".split())
_UNFINISHED = listed("unfinished")
_SELDOM_LAST = listed("seldom_last")
_SUBJECTS = listed("begins_anew")
_NEVER_FIRST = listed("never_first")
_ASKED_OF = listed("asked_of")
_SAID_OF_ONE = listed("said_of_one")
_SAID_OF_MANY = listed("said_of_many")
_NAMED = listed("named_by")
_COUNT_DUE = listed("count_due")
_PLURALS = listed("things_counted")
_SOUNDS = frozenset(grammar().tables["homophones"])
_WEEKDAYS = frozenset(grammar().tables["weekdays"])


def _unfinished(p: _Pause) -> bool:
    """ "a kilo of um fondant"; "went to uh the quarry", and not "had to um l three", where it is a two."""
    if p.before in _UNFINISHED:
        return True
    return p.before == "to" and (p.after in _VERBS or (not p.counted and p.after not in _PLURALS))


_VERBS = frozenset("be do go get put pull see check wash roll feed take come move keep make".split())


def _seldom_last(p: _Pause) -> bool:
    """ "nine is um light", and not "all we got um hive nine is light", "ours haven't um three is booming"."""
    if p.before not in _SELDOM_LAST:
        return False
    if p.after in _SUBJECTS:
        return p.after == "next" and p.later in _DAYS
    if p.after in p.letters:
        return p.before in ("are", "were", "that's")
    denied = p.before.endswith("n't") or p.before in ("not", "still")
    return not (denied and is_number_word(p.after))


_DAYS = _WEEKDAYS | {"week", "month", "year", "spring"}


def _never_first(p: _Pause) -> bool:
    """ "two strips er each", "nine um is calm"."""
    if p.after == "a":
        return p.counted and p.later in HIVE_WORDS
    if p.after in ("off", "out"):
        return p.lead[-3:-1] != [] and not _TAKING.isdisjoint(p.lead[:-1]) and _OUT.isdisjoint(p.lead)
    if p.after not in _NEVER_FIRST:
        return False
    return p.after in _TELLS or not (p.later in _ASKED_OF or (p.after == "each" and p.later == "one"))


_TELLS = frozenset("gets needs comes goes weighs stays doesn't because cause".split())
_TAKING = frozenset("took take taking pull pulled pulling".split())
_OUT = frozenset("out off from and then um uh".split())


def _predicate(p: _Pause) -> bool:
    """ "twelve um swarmed", "the feeders uh come off", "cut bank um made three barrels"."""
    if p.after in _SAID_OF_ONE and (p.counted or p.before in _NAMED):
        return True
    if p.after in _SAID_OF_MANY and p.before in _PLURALS:
        return True
    if p.after in _MOVES and p.later in _WHERE_TO:
        return p.before in _things()
    return p.after in _SAID_OF_YARD and _after_yard(p)


def _after_yard(p: _Pause) -> bool:
    """Whether a yard stands before, by itself: "cut bank um made three barrels", and not "at cut bank um made ..."."""
    for words in (x for found in p.places.values() for x in found if x[-1:] == [p.before]):
        n = len(words)
        if p.lead[-n:] == words:
            ahead = p.lead[:-n]
            ahead = ahead[:-1] if ahead[-1:] == ["the"] else ahead
            return ahead[-1:] == [] or ahead[-1] not in _AT
    return False


_SAID_OF_YARD = frozenset("made gave gets got lost had needs".split())
_AT = frozenset("at to from in of off for over on into".split())


_MOVES = frozenset("go goes went come comes came".split())
_WHERE_TO = frozenset("in on off out into back under over".split())


@lru_cache(maxsize=1)
def _things() -> frozenset[str]:
    from fieldnotes.reader.hear import speech  # late: that module asks for this one

    return speech().things - _WHERE_TO - {"with", "down", "up", "each", "new", "one"}


def _thing_counted(p: _Pause) -> bool:
    """ "got one er super", "nine to um supers each", "one to one you know syrup"."""
    thing = p.after in _PLURALS or f"{p.after}s" in _PLURALS
    if p.before in ("to", "too", "for") and (p.after in _PLURALS or p.after in _SETS):
        return True
    if p.after == "syrup":
        return p.earlier == "to"
    if p.before in _SOME:
        return p.after in _PLURALS or p.after in _things()
    number = p.before in _SOUNDS or p.counted
    return thing and number and (p.earlier in _COUNT_DUE or p.earlier in _GIVEN or p.later in _DEALT)


_SETS = frozenset(["nucs", "splits", "swarms"])
_SOME = frozenset("any more some no those these few".split())
_GIVEN = frozenset("gets get put add added needs need gave give took take another of us on".split())
_DEALT = frozenset("each apiece a per ea or".split())


def _number_by_ear(p: _Pause) -> bool:
    """ "l sixteen uh to l four none", "hive three had to you know hive five had none": the two is a number."""
    named = p.earlier in HIVE_WORDS or p.earlier in p.letters
    if (
        p.before in ("to", "too", "for")
        and (p.counted or p.before != "too")
        and (p.after in HIVE_WORDS or p.after in p.letters)
    ):
        return True
    if p.before == "to" and p.earlier in _COUNT_DUE and is_number_word(p.after):
        return True
    return p.counted and p.after in ("to", "too", "for") and (named or p.later in _PLURALS)


def _of_colonies(p: _Pause) -> bool:
    """ "fifty mites on uh l thirty and ninety on l four", and not "supers on um l thirty is light"."""
    if p.before not in ("on", "in", "over") or not (
        is_number_word(p.after) or p.after in p.letters or p.after in HIVE_WORDS
    ):
        return False
    k = 0
    while k < len(p.rest) and (is_number_word(p.rest[k]) or p.rest[k] in p.letters or p.rest[k] in _LISTING):
        k += 1
    rest = p.rest[k : k + 2]
    return not rest or rest[0] in _STOPS or rest[0] in _GOES_ON


_LISTING = HIVE_WORDS | {"through", "thru"}
_GOES_ON = frozenset("and so then but um uh er at i we today yesterday tomorrow".split())


def _wants_object(p: _Pause) -> bool:
    """ "call um the county", "gave it uh a super"."""
    if p.before in _TAKES and p.earlier not in _PASSIVE:
        return p.after not in _SUBJECTS
    return (
        p.before in ("it", "them", "her") and p.earlier in ("gave", "give", "gives") and p.after in ("a", "two", "one")
    )


_TAKES = listed("takes_object")
_PASSIVE = frozenset("is are was were be been get gets got".split())


def _tail(p: _Pause) -> bool:
    """ "went in um wednesday and ...", "into fourteen uh at the pond": a day or a yard at the end of what was told."""
    k = 0
    while n := _day(p.rest, k) or _place(p, k):
        k += n
    if not k:
        return False
    rest = p.rest[k : k + 2]
    if not rest or rest[0] in _STOPS:
        return True
    return rest[0] in _JOINS and rest[1:] != [] and not _day(p.rest, k + 1)


_JOINS = frozenset("and so then but um uh er plus".split())
_ONE_WORD_DAYS = _WEEKDAYS | {"today", "tomorrow", "yesterday", "tonight"}
_POINTING = frozenset("on this next last".split())
_PARTS = frozenset("morning afternoon evening night week".split())


def _day(w: list[str], k: int) -> int:
    """How many words name a day at `k`."""
    if k < len(w) and w[k] in _ONE_WORD_DAYS:
        return 1
    if k + 1 < len(w) and w[k] in _POINTING and (w[k + 1] in _WEEKDAYS or w[k + 1] in _PARTS):
        return 2
    return 0


def _place(p: _Pause, k: int) -> int:
    """How many words tell at which yard, at `k` of the rest."""
    if p.rest[k : k + 1] not in (["at"], ["from"]):
        return 0
    k += 1
    the = p.rest[k : k + 1] == ["the"]
    for first in (k, k + 1) if the else (k,):
        word = p.rest[first] if first < len(p.rest) else ""
        found = [len(x) for x in p.places.get(word, ()) if p.rest[first : first + len(x)] == x]
        if found:
            return 1 + first - k + max(found)
    return 0


_RULES = (
    _unfinished,
    _seldom_last,
    _never_first,
    _predicate,
    _thing_counted,
    _number_by_ear,
    _of_colonies,
    _wants_object,
    _tail,
)
