"""Which spans mean something? Words → one row of marks, each a label, a value and a span.

First the atoms (names of the roster, dates, colony ids, numbers), then the phrases of the grammar over
them, conflicts settled here and only here: the longest phrase wins, then the one whose rule stands first.
Words that no phrase took stay in the row as plain words; later stages need the small ones ("in", "and").
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from fieldnotes.reader.dates import date_at, date_openers
from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.hear import Heard, speech
from fieldnotes.reader.numbers import (
    Number,
    Words,
    is_number_word,
    joined_hundreds,
    number_at,
    number_openers,
    ordinal_at,
)
from fieldnotes.reader.outfit import Outfit
from fieldnotes.roster import colony_id

PLACE_WORDS = frozenset(
    ("at to from in over @ near by down up out of off for around toward towards into leaving visited").split()
)
_YARD_STOPS = frozenset(
    (
    "the a an my our your his her their this that these those every each whole entire all any no one same "
    "other home bee in at on to from of off and or for with by into over out up down front back church next "
    "last first new old far near bone rail ship junk farm stock grave whole mating which what then so but is "
    "was yards per both another hole 's"
    ).split()
) - {"church", "new", "old", "front", "farm", "far", "near"}  # fmt: skip
UNIT_WORDS = frozenset("gallon quart litre liter pound lb kilo patty bag jar bucket barrel gal qt kg dozen".split())
_NOT_IDS = frozenset(["co2", "c02", "h2o"])
_WORD_LABELS = {",": "comma", ".": "stop", ";": "stop", "!": "stop", "?": "question", "\n": "line", "\n\n": "line"}
_WASHED = frozenset(["washed", "rolled", "shook", "checked", "opened", "inspected"])
"""After these "twenty first" is colony 20 and then "first", not the 21st."""
_TIME_AFTER = frozenset(["am", "pm", "a.m", "p.m", "o'clock", "oclock", "ish"])
COPULAS = frozenset("is was are were had has have got gets showed shows".split())
_BEFORE_HUNDREDS = COPULAS | {"about", "maybe", "around", "counted", "to", "at", "with"}


@dataclass(slots=True)
class Mark:
    """A span that means something: `label`, `v` its value, `w` the words heard, `rule` the grammar rule that made it.

    `s` and `e` are character offsets into the note. Plain words have the label "w".
    """

    label: str
    s: int
    e: int
    w: str
    v: dict[str, Any] = field(default_factory=dict)
    rule: str = ""

    def __repr__(self) -> str:
        return f"{self.label}:{self.w}"


@dataclass(slots=True)
class _Atoms:
    """The words with names, dates, ids and numbers each folded into one."""

    w: list[str] = field(default_factory=list)
    s: list[int] = field(default_factory=list)
    e: list[int] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    v: list[Any] = field(default_factory=list)

    def plain(self, word: str, start: int, end: int) -> None:
        """A word that is only itself."""
        self.w.append(word)
        self.s.append(start)
        self.e.append(end)
        self.said.append(word)
        self.v.append(None)

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


def mark(heard: Heard, outfit: Outfit) -> list[Mark]:
    """The row of marks of a message."""
    atoms = _atoms(heard, outfit)
    rules = grammar().rules
    taken = [False] * len(atoms.w)
    chosen: dict[int, tuple[int, int]] = {}
    found = grammar().phrases.find(atoms.w)
    found.sort(key=lambda m: (m[0] - m[1], _is_number(atoms.w[m[0]]), m[0], m[2]))
    for i, j, index in found:
        if True not in taken[i:j] and not _misread(atoms, i, j, rules[index].mark):
            for k in range(i, j):
                taken[k] = True
            chosen[i] = (j, index)
    numbered = _numbered_lines(atoms)
    dotted = frozenset() if numbered else _dotted_rows(atoms)
    row: list[Mark] = []
    i = 0
    while i < len(atoms.w):
        if i in numbered:
            row.append(Mark("w", atoms.s[i], atoms.e[i + 1], "•"))
            i += 2
            continue
        if i in chosen:
            j, chosen_rule = chosen[i]
            rule = rules[chosen_rule]
            value = dict(rule.value)
            for k in range(i, j):
                shown = atoms.w[k]
                if shown[0] not in "{=":
                    continue
                if _is_number(shown) and not (
                    atoms.said[k] == "one"
                    and k == j - 1
                    and j > i + 1
                    and rule.mark in ("queen_noun", "queen_work", "pronoun", "rest", "every", "each")
                ):
                    value["n2" if "n" in value else "n"] = atoms.v[k]
                elif shown == "{ordinal}":
                    value["n"] = Number(atoms.v[k], 0)
            if "count" in rule.value:
                value["n"] = Number(float(rule.value["count"]), 0)
            if rule.value.get("colour"):
                colour = _colour(" ".join(atoms.w[i:j]))
                if colour:
                    value["mark"] = colour
            if rule.mark == "fact" and value.get("set", {}).get("queen") == "seen" and "mark" not in value:
                colour = _colour(" ".join(w for w in atoms.w[i:j] if w not in ("read", "why", "blew")))
                if colour:
                    value["mark"] = colour  # "saw the yellow queen"
            if rule.mark == "amount":
                value["words"] = atoms.w[i:j]
            row.append(Mark(rule.mark, atoms.s[i], atoms.e[j - 1], " ".join(atoms.said[i:j]), value, rule.name))
            i = j
            continue
        shown = atoms.w[i]
        if shown[0].isalpha():
            row.append(Mark("w", atoms.s[i], atoms.e[i], shown))
            i += 1
            continue
        if shown[0] in "{=" and len(shown) > 1:
            label = "number" if shown[0] == "=" else shown.strip("{}")
            value = {"value": atoms.v[i]}
            if label == "number":
                value = {"n": atoms.v[i]}
            elif label == "agent":
                value = dict(atoms.v[i])
            row.append(
                Mark(
                    label,
                    atoms.s[i],
                    atoms.e[i],
                    atoms.said[i],
                    value,
                    "roster" if label in ("yard", "person", "agent") else label,
                )
            )
        else:
            label = _WORD_LABELS.get(shown, "w")
            if shown == "." and i in dotted:
                row.append(Mark("w", atoms.s[i], atoms.e[i], ":"))  # "70. Queen seen"
                i += 1
                continue
            if shown == "." and i + 1 < len(atoms.w) and atoms.w[i + 1] == "." and atoms.s[i + 1] - atoms.e[i] < 2:
                j = i + 1
                while j + 1 < len(atoms.w) and atoms.w[j + 1] == ".":
                    j += 1
                after = atoms.w[j + 1] if j + 1 < len(atoms.w) else ""
                if after and after[0] != "\n" and (_is_number(after) or j - i > 1):
                    row.append(Mark("w", atoms.s[i], atoms.e[j], ":"))  # "2 .. 3": a leader of dots
                    i = j + 1
                    continue
            if shown == "|" or (
                shown == ";"
                and 0 < i < len(atoms.w) - 1
                and atoms.e[i - 1] == atoms.s[i]
                and atoms.e[i] == atoms.s[i + 1]
            ):
                label = "comma"  # the cells of a table
            row.append(Mark(label, atoms.s[i], atoms.e[i], shown.replace("\n", "¶")))
        i += 1
    return _headings(row)


REACH = 80
"""How many marks around a mark are looked at, at most: the time a note takes grows with its length only."""
_HEADING_CUES = {"planned": "plan", "not_done": "not"}


_LONE_HEADINGS = {
    "done": "done",
    "next": "planned",
    "later": "planned",
    "waiting": "planned",
    "pending": "planned",
    "finished": "done",
}
"""Words that head a list where they stand alone in their line."""


def _alone_in_line(row: list[Mark], k: int) -> bool:
    before = row[k - 1] if k else None
    after = k + 1
    while after < len(row) and row[after].w in (":", "-", "–", "!"):
        after += 1
    return (before is None or before.label == "line") and after < len(row) and row[after].label == "line"


def _headings(row: list[Mark]) -> list[Mark]:
    """A heading is a line of its own (a yard may stand with it); inside a line its words are a cue."""
    for k, m in enumerate(row):
        if m.w in _LONE_HEADINGS and m.label != "heading" and _alone_in_line(row, k):
            row[k] = Mark("heading", m.s, m.e, m.w, {"state": _LONE_HEADINGS[m.w]}, "heading of one word")
        if (
            m.w == "next"
            and m.label == "filler"
            and (not k or row[k - 1].label == "line")
            and k + 1 < len(row)
            and row[k + 1].w == ":"
        ):
            row[k] = Mark("cue", m.s, m.e, "next", {"cue": "plan"}, "plan")  # "Next: pads in L19 on Thursday"
        if m.label != "heading":
            continue
        a = k
        while a > max(0, k - REACH) and row[a - 1].label not in ("line", "stop"):
            a -= 1
        b = k
        while b + 1 < min(len(row), k + REACH) and row[b + 1].label not in ("line", "stop"):
            b += 1
        rest = [
            x
            for x in row[a : b + 1]
            if x is not m
            and x.label not in ("yard", "filler", "comma", "date", "person", "ordinal")
            and not (
                x.label == "w"
                and (
                    not x.w.isalnum()
                    or x.w
                    in (
                        "for",
                        "at",
                        "the",
                        "and",
                        "of",
                        "in",
                        "to",
                        "week",
                        "weekly",
                        "work",
                        "my",
                        "our",
                        "next",
                        "today's",
                        "list",
                        "this",
                        "half",
                    )
                )
            )
        ]
        if m.v["state"] == "not_done" and b + 1 >= len(row) and any(x.label == "yard" for x in row[a : b + 1]):
            m.label, m.v = "cue", {"cue": "not"}  # "hilltop yard not done", the last of a list
            continue
        if rest and m.w == "to do" and k and row[k - 1].w in ("had", "have", "has", "get", "got", "nothing"):
            m.label, m.v = "filler", {}
            continue
        if rest and not (k == a and k + 1 < len(row) and row[k + 1].w == ":"):
            kind = _HEADING_CUES.get(m.v["state"])
            m.label, m.v = ("cue", {"cue": kind}) if kind else ("filler", {})
    return row


_AFTER_ALL = frozenset(
    (
        ": , . ; ! are were got get have had look looking looked done clear calm strong heavy light queenright "
        "dead in out on off good fine need = - – check checked treated fed seem weak hot gentle feel going"
    ).split()
) | {"\n", "\n\n"}


_AFTER_MIGHT = frozenset("be have need get go want as still not do swarm".split())
_NONE_OF = frozenset("flow eggs egg queen brood cells mites chalk sign signs swarm nectar robbing disease".split())
_CELL_WORDS = frozenset(["cell", "cells", "sell", "sells", "queen", "qc", "qcs"])
_OVER_ENDS = frozenset([",", ".", "!", "\n", "\n\n", "um", "uh", "and", "okay", "next"])


def _is_number(word: str) -> bool:
    return word == "{number}" or (word[0] == "=" and len(word) > 1)


_EACH = frozenset(["every", "each", "per", "a", "single"])
_CAN_BE_MISREAD = frozenset(
    "every filler change queen_work amount fact temp mites harvest method clean pronoun cue each hives rest".split()
)
"""The labels that the questions of `_misread` below are asked of."""


def _misread(atoms: _Atoms, i: int, j: int, label: str) -> bool:
    """Whether the phrase i..j-1 takes a number that belongs to the words outside it.

    "hive 4 | mites", "2 pads each | hive 7": a number just after a hive word is the hive's.
    """
    before = atoms.w[i - 1] if i else ""
    if (
        _is_number(atoms.w[i])
        and not (label in ("unit", "amount", "ratio") and i > 1 and atoms.w[i - 2] in _EACH)
        and before in ("hive", "colony", "number", "#", "hives", "colonies")
    ):
        return not (before in ("hives", "colonies") and i > 1 and _is_number(atoms.w[i - 2]))
    if label not in _CAN_BE_MISREAD:
        return False
    if label == "every" and j == i + 1 and atoms.w[i] == "all":
        return before in ("after", "at", "above", "once") or (j < len(atoms.w) and atoms.w[j] not in _AFTER_ALL)
    if label == "filler" and j == i + 1 and atoms.w[i] == "over":
        return j < len(atoms.w) and atoms.w[j] not in _OVER_ENDS  # "over three percent", "over the landing board"
    if label == "change" and atoms.w[j - 1] in ("swarm", "swarms") and j < len(atoms.w) and atoms.w[j] in _CELL_WORDS:
        return True  # "got 3 swarm | cells"
    if (
        label == "queen_work"
        and atoms.w[i] == "got"
        and before in ("it's", "has", "have", "'s", "they've", "she's", "still")
    ):
        return True  # "it's got queen cells"
    if label == "filler" and before == "as" and atoms.w[i] == "well":
        return True  # "as well"
    if (
        label == "amount"
        and atoms.w[i] in UNIT_WORDS
        and (before in ("a", "half") or (before and _is_number(before)))
        and not (i > 1 and atoms.w[i - 2] in ("to", ":"))  # "two to one | gallon apiece"
    ):
        return True  # "half a | gallon each"
    if label == "amount" and "and" in atoms.w[i:j] and _is_number(atoms.w[j - 1]) and atoms.v[j - 1].value >= 1:
        return True  # "540 pounds and | seventeen"
    if label == "fact" and _is_number(atoms.w[i]) and before in ("in", "on") and atoms.w[j - 1] in _CELL_WORDS:
        return True  # "a virgin in fifty seven | emergency cells in fifty four"
    if label == "temp" and atoms.w[i] in ("hot", "warm", "cold", "mild") and j == i + 2:
        return True  # "fifty five hot | fifty six hot"
    if (
        label == "mites"
        and atoms.w[j - 1] == "one"
        and j < len(atoms.w)
        and atoms.w[j][0].isalpha()
        and atoms.w[j] not in ("um", "uh", "and")
    ):
        return True  # "just the one super"
    if (
        label == "harvest"
        and atoms.w[j - 1] == "in"
        and j < len(atoms.w)
        and atoms.w[j] in ("my", "the", "a", "his", "her")
    ):
        return True  # "honey in my hair"
    if label == "mites" and atoms.w[j - 1] in ("might", "mights") and j < len(atoms.w) and atoms.w[j] in _AFTER_MIGHT:
        return True  # "nine might be queenless"
    if (
        label == "method"
        and before == "a"
        and i > 1
        and atoms.w[i - 2] == "on"
        and j == i + 1
        and (j == len(atoms.w) or atoms.w[j] in ("today", "here", ".", "\n", "this", "{date}"))
    ):
        return True  # "on a roll today"
    if (
        label == "clean"
        and atoms.w[i] == "zip"
        and j < len(atoms.w)
        and atoms.w[j] in ("tie", "ties", "lock", "bag", "bags")
    ):
        return True
    if label == "pronoun" and any(_is_number(atoms.w[k]) and atoms.v[k].value == 0 for k in range(i, j)):
        return True  # "all zero"
    if label == "fact" and atoms.w[i] == "bees" and before and _is_number(before):
        return True  # "300 bees | 1 mite"
    if label == "fact" and _is_number(atoms.w[i]) and atoms.v[i].value > 30:
        return True  # "no queen that I saw seventy two | swarm cells"
    if label == "fact" and atoms.w[i] == "dead" and before in ("is", "are", "was", "were", "'s"):
        return True  # "l thirty is dead | mouse nest in the bottom"
    last = atoms.w[j - 1]
    if label == "cue" and last == "no" and j > i + 1 and j < len(atoms.w) and atoms.w[j] in _NONE_OF:
        return True  # "reducers on both um | no flow at all"
    if (
        label in ("each", "every", "hives", "pronoun", "rest")
        and last in ("hive", "colony", "nuc")
        and j < len(atoms.w)
    ):
        if (
            _is_number(atoms.w[j])
            and j + 1 < len(atoms.w)
            and atoms.w[j + 1] in speech().counted
            and atoms.w[j + 1] not in ("mite", "mites")
        ):
            return False  # "every hive | two strips each"
        if (
            label in ("each", "every")
            and atoms.w[j - 2 : j - 1] != ["each"]
            and _is_number(atoms.w[j])
            and j + 1 < len(atoms.w)
            and atoms.w[j + 1] in ("came", "had", "has", "was", "is", "got", "gave")
        ):
            return False  # "half a cup per hive | seventy came up with two"
        return _is_number(atoms.w[j]) or atoms.w[j] == "{colony}"
    return False


def _dotted_rows(atoms: _Atoms) -> frozenset[int]:
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


def _numbered_lines(atoms: _Atoms) -> frozenset[int]:
    """Where lines are numbered 1. 2. 3. the numbers are no colonies; their places."""
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
    if len(places) < 3 or [n for _, n in places] != list(range(1, len(places) + 1)):
        return frozenset()
    return frozenset(i for i, _ in places)


_COLOURS = {
    "blu": "blue",
    "wht": "white",
    "yel": "yellow",
    "grn": "green",
    "yllw": "yellow",
    "blew": "blue",
    "read": "red",
    "why": "white",
    "yello": "yellow",
    "greene": "green",
}


def _colour(words: str) -> str | None:
    for word in words.split():
        if word in ("blue", "white", "yellow", "red", "green"):
            return word
        if word in _COLOURS:
            return _COLOURS[word]
    return None


def _atoms(heard: Heard, outfit: Outfit) -> _Atoms:
    w = Words(heard.w)
    atoms = _Atoms()
    day_first = outfit.roster.day_first
    names: dict[int, tuple[int, Any]] = {}
    for i, j, index in outfit.phrases.find(w):
        name = outfit.names[index]
        opens = i == 0 and j < len(w) and is_number_word(w[j])  # "when's seventy through seventy four"
        if name.plain_word and not (i and w[i - 1] in PLACE_WORDS) and not opens:
            continue
        if i not in names or j > names[i][0]:
            names[i] = (j, name)
    vocabulary = grammar().vocabulary
    openers, only_dates = _openers(outfit)
    numbers = number_openers()
    yards_said = "yard" in w or "apiary" in w
    i, n = 0, len(w)
    while i < n:
        word = w[i]
        if i not in names and word not in openers and len(word) > 1 and word[0].isalpha() and not word[-1].isdecimal():
            unknown = _unknown_yard(w, i, outfit, vocabulary) if yards_said else None
            if unknown:
                i = atoms.take("{yard}", heard, i, unknown)
                continue
            atoms.plain(word, heard.s[i], heard.e[i])
            i += 1
            continue
        if i not in names and not word[0].isalnum() and (len(word) == 1 or word == "\n\n"):
            atoms.plain(word, heard.s[i], heard.e[i])  # a sign: no name, number or date begins with one
            i += 1
            continue
        if word in only_dates and i not in names:
            when = date_at(w, i, day_first)
            if when:
                i = atoms.take("{date}", heard, i, when)
                continue
            unknown = _unknown_yard(w, i, outfit, vocabulary) if yards_said else None
            if unknown:
                i = atoms.take("{yard}", heard, i, unknown)
                continue
            atoms.add(word, heard, i, i + 1)
            i += 1
            continue
        if i in names:
            j, name = names[i]
            if name.label == "product":
                atoms.add("{agent}", heard, i, j, (*name.agent, ("product", name.value)))
            else:
                atoms.add("{" + name.label + "}", heard, i, j, name.value)
            i = j
            continue
        numeric = word in numbers or word[0].isdecimal() or word[0] == "."  # whether a number may begin here
        clock = _clock(w, i) or _line_clock(heard, i) if numeric or word == "at" else None
        if clock:
            atoms.add("{clock}", heard, i, clock)
            i = clock
            continue
        when = date_at(w, i, day_first)
        if when:
            i = atoms.take("{date}", heard, i, when)
            continue
        found = _letter_id(w, i, outfit)
        if found:
            i = atoms.take("{colony}", heard, i, found)
            continue
        unknown = _unknown_yard(w, i, outfit, vocabulary) if yards_said else None
        if unknown:
            i = atoms.take("{yard}", heard, i, unknown)
            continue
        ordinal = ordinal_at(w, i) if numeric else None
        if ordinal and not (ordinal[1] == i + 2 and i and w[i - 1] in _WASHED):  # "washed twenty first"
            i = atoms.take("{ordinal}", heard, i, ordinal)
            continue
        number = _number(w, i, outfit) if numeric else None
        if number:
            shown = f"={int(number.value)}" if number.whole and 0 < number.value < 1000 else "{number}"
            atoms.add(shown, heard, i, number.end, number)
            i = number.end
            continue
        atoms.add(word, heard, i, i + 1)
        i += 1
    return atoms


def _openers(outfit: Outfit) -> tuple[frozenset[str], frozenset[str]]:
    """The words with which a date, number, ordinal, clock time or lettered id can begin; those only of dates."""
    if outfit.openers is None:
        others = number_openers() | frozenset(speech().letters) | outfit.low_letters | {"at"}
        outfit.openers = (others | date_openers(), frozenset(x for x in date_openers() - others if len(x) > 1))
    return outfit.openers


def _line_clock(heard: Heard, i: int) -> int | None:
    """The index after a clock time, written without blanks, that opens a line ("08:25 OAV …"), or None."""
    w = heard.w
    if i + 2 >= len(w) or w[i + 1] != ":" or not (w[i].isdecimal() and w[i + 2].isdecimal()) or len(w[i + 2]) != 2:
        return None
    if (i and w[i - 1] not in ("\n", "\n\n")) or heard.e[i] != heard.s[i + 1] or heard.e[i + 1] != heard.s[i + 2]:
        return None
    if int(w[i]) > 23 or int(w[i + 2]) > 59 or (i + 3 < len(w) and w[i + 3] in (",", "/")):
        return None
    return i + 3


def _clock(w: list[str], i: int) -> int | None:
    """The index after a clock time ("9:30", "5 pm", "five o'clock"); None where there is none."""
    n = len(w)
    if (
        i + 2 < n
        and w[i].isdecimal()
        and w[i + 1] == ":"
        and w[i + 2].isdecimal()
        and len(w[i + 2]) == 2
        and int(w[i]) < 24
        and int(w[i + 2]) < 60
    ):
        after = w[i + 3] if i + 3 < n else ""
        before = w[i - 1] if i else ""
        if after in _TIME_AFTER:
            return i + 4
        if before in ("at", "by", "until", "till", "around", "@", "since", "before", "after"):
            return i + 3
        return None
    number = number_at(w, i)
    if number and number.whole and number.value <= 12 and number.end < n:
        if w[number.end] in ("am", "pm", "o'clock", "oclock"):
            return number.end + 1
        if (
            i
            and w[i - 1] in ("at", "by", "around", "until", "till")
            and (
                w[number.end : number.end + 2]
                in (["at", "night"], ["this", "morning"], ["this", "evening"], ["this", "afternoon"])
                or w[number.end : number.end + 3]
                in (["in", "the", "morning"], ["in", "the", "evening"], ["in", "the", "afternoon"])
            )
        ):
            return number.end  # "at nine | at night"
    if word_is_noon(w, i):
        return i + 2
    return None


def word_is_noon(w: list[str], i: int) -> bool:
    """ "at noon", "at lunch"."""
    return (
        w[i] == "at"
        and i + 1 < len(w)
        and w[i + 1]
        in ("noon", "midday", "lunch", "lunchtime", "dawn", "dusk", "midnight", "sunup", "sundown", "night")
    )


_OF_HONEY = frozenset("honey moisture extracted harvest harvested crop barrels spun supers".split())
_WEIGHTS = frozenset(["pound", "pounds", "lb", "lbs", "kilo", "kilos", "kg"])


def _weighs(w: list[str], i: int, end: int) -> bool:
    """Whether a weight of honey follows the number that ends at `end`, or one that puts it right does."""
    if i and (w[i - 1] in ("hive", "hives", "colony", "to", "on", "in") or is_number_word(w[i - 1])):
        return False
    if w[end : end + 1] in (["no"], ["wait"]) and (again := joined_hundreds(w, end + 1)):
        end = again[1]
    return end < len(w) and w[end] in _WEIGHTS and not _OF_HONEY.isdisjoint(w)


def _number(w: list[str], i: int, outfit: Outfit) -> Number | None:
    number = number_at(w, i)
    if not number:
        return None
    if w[i] == "half" and (
        w[i + 1 : i + 2] in (["cup"], ["cups"], ["an"], ["of"], ["the"], ["-"])
        or w[i + 1 : i + 3] == ["a", "cup"]
        or (w[i + 1 : i + 2] == ["a"] and w[i + 2 : i + 3] and w[i + 2] in UNIT_WORDS)
    ):
        return None
    if number.value > 100 and not number.digits and i and w[i - 1] in ("in", "of", "per", "from"):
        # "seven in three hundred forty one had …": the sample ends at the hundreds
        hundreds = next((k for k in range(i, number.end) if w[k] == "hundred"), None)
        if hundreds is not None and hundreds + 1 < number.end and w[hundreds + 1] != "and":
            rest = number_at(w, hundreds + 1)
            if rest and outfit.could_be(str(int(rest.value))):
                return number_at(w[: hundreds + 1], i)
    joined = joined_hundreds(w, i)
    if (
        joined
        and i > 1
        and is_number_word(w[i - 1])
        and (w[i - 2] in ("hive", "colony") or w[i - 2] in outfit.low_letters)
    ):
        after = w[joined[1]] if joined[1] < len(w) else ""
        if after in ("", "hive", "colony", "um", "uh", "and", "mites", "\n", ".", ",") or after in outfit.low_letters:
            return Number(joined[0], joined[1])  # "hive four one twenty hive five …"
    if joined and outfit.known and str(joined[0]) in outfit.ids:
        return Number(joined[0], joined[1])  # "one oh four", "one twenty five": the roster has such numbers
    if joined and _weighs(w, i, joined[1]):
        return Number(joined[0], joined[1])  # "cut bank one ninety, no, one eighty pounds"
    if joined and number.end == i + 1 and w[i + 1] not in ("oh", "o", "zero"):
        before = w[i - 1] if i else ""
        after = w[joined[1]] if joined[1] < len(w) else ""
        counted = after in speech().counted and not is_number_word(after)
        if (counted or after in ("", "\n", ".", ",", "um", "uh", "and", "so")) and before in _BEFORE_HUNDREDS:
            return Number(joined[0], joined[1])
    return number


def _letter_id(w: list[str], i: int, outfit: Outfit) -> tuple[str, int] | None:
    """A colony id with a letter: "L4", "l four", "el nine", "n-5". (id, index after)."""
    word = w[i]
    n = len(w)
    if word[0].isalpha() and word[-1].isdecimal():
        if word in _NOT_IDS or (word[0] == "x" and "X" not in outfit.letters):
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
    if letter is None:
        return None
    j = i + 1
    if w[j] in ("-", "#") and j + 1 < n:
        j += 1
    number = number_at(w, j)
    if not number or not number.whole or w[j] in ("a", "an", "half", "couple", "dozen"):
        return None
    cid = f"{letter.upper()}{int(number.value)}"
    if outfit.known and cid not in outfit.ids and number.tail is not None:
        short = f"{letter.upper()}{int(number.value) - grammar().tables['units'][w[number.tail]]}"
        if short in outfit.ids:
            return short, number.tail
    if known and letter not in known and not word[0].isdecimal():
        if len(word) > 1 or letter in "aixwo" or w[j][0].isalpha():
            return None
    if not known and letter in ("a", "i", "x", "w", "o"):
        return None
    if letter == "a" and outfit.known and cid not in outfit.ids:
        return None
    if word in ("are", "see", "be", "why", "tea", "for", "sea", "inn") and cid not in outfit.ids:
        return None
    return cid, number.end


def _yard_words(outfit: Outfit) -> frozenset[str]:
    """The names of the roster's yards, in lower case."""
    return frozenset(x.lower() for yard in outfit.roster.yard for x in (yard.name, *yard.also))


def _unknown_yard(w: list[str], i: int, outfit: Outfit, vocabulary: frozenset[str]) -> tuple[str, int] | None:
    """A yard the roster does not have: up to three words before "yard". (name in Title Case, index after)."""
    if (
        i
        and w[i - 1].isalpha()
        and w[i - 1] not in _YARD_STOPS
        and w[i - 1] not in PLACE_WORDS
        and not _ends_name(w[i - 1], vocabulary)
    ):
        return None
    for length in (1, 2, 3):
        j = i + length
        if j < len(w) and w[j] in ("yard", "apiary"):
            words = w[i:j]
            if any(is_number_word(x) for x in words) or " ".join(words) in _yard_words(outfit):
                return None  # "number six quarry yard"
            if any(x in _YARD_STOPS or not x.replace("'", "").isalpha() or x in PLACE_WORDS for x in words):
                return None
            if length == 1 and words[0] in vocabulary and not (i and w[i - 1] in ("the", "at", "to", "from")):
                return None
            return " ".join(x[0].upper() + x[1:] for x in words), j + 1
        if j >= len(w) or not w[i].isalpha():
            return None
    return None


def _ends_name(word: str, vocabulary: frozenset[str]) -> bool:
    """Whether a yard's name cannot begin before this word: it is a word of ours, not a part of a name."""
    return word in vocabulary
