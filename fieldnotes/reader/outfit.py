"""A roster made ready for reading: its names as phrases, its colony ids as look-ups."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.phrases import Phrases, words_of
from fieldnotes.roster import Roster

_ARTICLES = ("the ", "a ", "our ", "my ")
_COMMON_AS_NAMES = frozenset("when's whens home north south east west hill river church school the".split())
"""Names of yards or people that are plain words too: taken as names only after "at", "to", "from" and the like."""


@dataclass(frozen=True, slots=True)
class Name:
    """What a name of the roster stands for: a yard, a person, a colony with a name, or a word for a treatment."""

    label: str
    value: str
    agent: tuple[tuple[str, str], ...] = ()
    plain_word: bool = False


class Outfit:
    """The roster as the reader needs it."""

    def __init__(self, roster: Roster) -> None:
        self.roster = roster
        self.names: list[Name] = []
        self.phrases = Phrases()  # names are matched as they are said: "Number Nine yard" is no nine
        self.known = bool(roster.yard)
        self.ids: dict[str, tuple[str, ...]] = roster.yards_of
        self._homes: dict[str, frozenset[str]] = {}
        self.letters = frozenset(m[1] for cid in self.ids if (m := re.match(r"^([A-Z]+)\d+$", cid)))
        self.people = tuple(n.lower() for p in roster.person for n in (p.name, *p.also))
        self.low_letters = frozenset(x.lower() for x in self.letters)
        self.long_letters = tuple(x for x in self.low_letters if len(x) > 1)
        self.openers: tuple[frozenset[str], frozenset[str]] | None = None
        self.single_letter: dict[str, str] = {}
        self.yard_ids: dict[str, frozenset[str]] = {}
        self.places: dict[str, list[list[str]]] = {}
        """The names of the yards, as words, by their first."""
        self.in_order: dict[str, tuple[str, ...]] = {}
        self.by_number: dict[str, list[str]] = {}
        for yard in roster.yard:
            self.yard_ids[yard.name] = frozenset(yard.ids)
            self.in_order[yard.name] = tuple(yard.ids)
            lettered = {m[1] for cid in yard.ids if (m := re.match(r"^([A-Z]+)\d+$", cid))}
            if len(lettered) == 1 and not any(cid[0].isdecimal() for cid in yard.ids):
                self.single_letter[yard.name] = next(iter(lettered))
            for cid in yard.ids:
                number = cid.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
                if number:
                    self.by_number.setdefault(number, []).append(cid)
            for said in (yard.name, *yard.also):
                self._add_name(said, "yard", yard.name)
                words = said.lower().replace("’", "'").split()
                self.places.setdefault(words[0] if words else "", []).append(words)
            first, _, last = yard.name.lower().partition(" ")
            for said in yard.also:  # "Aunt Wen's", also "when's": so "aunt when's" too
                if last and " " not in last and " " not in said and said[:1].lower() == last[:1]:
                    self._add_name(f"{first} {said}", "yard", yard.name)
        for person in roster.person:
            for said in (person.name, *person.also):
                self._add_name(said, "person", person.name)
        for cid in self.ids:
            if not any(c.isdecimal() for c in cid):
                for said in {cid.lower(), *_spelled(cid.lower())}:
                    self._add(said, Name("colony", cid))
        for word, meaning in roster.words.items():
            agent = _meaning(meaning)
            if not agent:
                continue  # the outfit has said that the word means no treatment
            for said in sorted(_with_singular(word.lower())):
                self._add(said, Name("product", word.lower(), tuple(sorted(agent.items()))))

    def _add_name(self, said: str, label: str, value: str) -> None:
        low = said.lower().replace("’", "'")
        forms = {low}
        for article in _ARTICLES:
            if low.startswith(article):
                forms.add(low.removeprefix(article))
            elif label == "yard":
                forms.add(article + low) if article == "the " else None
        for form in list(forms):
            forms.add(form.replace("'", ""))
            if form.endswith("s") and not form.endswith(("'s", "ss")):
                forms.add(form[:-1] + "'s")
            if label in ("person", "yard") and not form.endswith("s"):
                forms.add(form + "'s")
            if label == "yard":
                forms.add(form + " yard")
                if form.endswith("'s"):
                    forms.add(form + " place")
                if " " in form and not form.startswith("the "):
                    forms.add(form.replace(" ", ""))
        for form in sorted(forms):
            self._add(form, Name(label, value, plain_word=form in _COMMON_AS_NAMES))

    def _add(self, said: str, name: Name) -> None:
        words = words_of(said)
        if not words:
            return
        self.names.append(name)
        self.phrases.add(" ".join(w for w in words), len(self.names) - 1)

    def homes_of(self, cid: str) -> frozenset[str]:
        """The yards that have the colony; those of a bare number also where a letter stands before it."""
        found = self._homes.get(cid)
        if found is None:
            named = (cid, *self.by_number.get(cid, ()))
            found = frozenset(yard for x in named for yard in self.ids.get(x, ()))
            if found:
                self._homes[cid] = found
        return found

    def could_be(self, number: str) -> bool:
        """Whether a bare number can be a colony's, with or without the letter of its yard."""
        return not self.known or number in self.ids or number in self.by_number

    def of_one_yard(self, ids: Iterable[str]) -> bool:
        """Whether some yard has all the colonies: 3 and 19 where 3 stands in two yards and 19 in one of them.

        So also where the roster knows none of them.
        """
        homes = [frozenset(self.ids.get(cid, ())) for cid in ids]
        return not any(homes) or bool(frozenset.intersection(*homes))

    def ids_at(self, yard: str | None) -> tuple[str, ...]:
        """The ids of the yard's colonies, in the roster's order; none of a yard that it does not have."""
        return self.in_order.get(yard or "", ())

    def nucs_at(self, yard: str | None) -> list[str]:
        """The ids of the yard's nucs: those with an N before their number, where others there have another letter or
        none."""
        ids = self.ids_at(yard)
        nucs = [cid for cid in ids if cid[:1] == "N" and cid[1:].isdecimal()]
        return nucs if len(nucs) < len(ids) else []


def _spelled(cid: str) -> set[str]:
    """An id of letters as it is spelled out, one of them at most by ear ("q b", "cue b")."""
    sounds = grammar().tables["letters"]
    said = {" ".join(cid)}
    for k, letter in enumerate(cid):
        said |= {" ".join([*cid[:k], word, *cid[k + 1 :]]) for word, means in sounds.items() if means == letter}
    return said if len(cid) > 1 else {cid}


def _with_singular(word: str) -> set[str]:
    """The word, and the same said of one ("stinkies", "stinky", "stinkie")."""
    forms = {word}
    if not word.endswith("s"):
        forms.add(word + "'s")  # "minty's in at the pond"
    if len(word) > 4 and word.endswith("s"):
        if word[:-1] not in grammar().tables["colours"]:  # "blues" is a strip, "blue" the mark of a queen
            forms.add(word[:-1])
        if word.endswith("ies"):
            forms.add(word[:-3] + "y")
    return forms


def _meaning(said: str) -> dict[str, str]:
    """Agent and form in "amitraz strips", read with the grammar's own words."""
    words = words_of(said.lower())
    found: dict[str, str] = {}
    rules = grammar().rules
    for _, _, index in sorted(grammar().phrases.find(words), key=lambda m: m[1] - m[0]):
        rule = rules[index]
        if rule.mark in ("agent", "form"):
            found.update({k: v for k, v in rule.value.items() if k in ("agent", "form")})
    return found


@lru_cache(maxsize=16)
def _outfit(key: str) -> Outfit:
    return Outfit(Roster.model_validate_json(key))


_last: tuple[Roster, Outfit] | None = None


def outfit_of(roster: Roster) -> Outfit:
    """The roster made ready; kept, since a whole season is read with one roster."""
    global _last
    if _last is None or _last[0] is not roster:
        _last = (roster, _outfit(roster.model_dump_json()))
    return _last[1]
