"""What was meant? Speech mishearings and typos, repaired in a list of words beside the text.

The text is never changed: each heard word keeps the offsets of what was written. Repairs of whole
terms ("chalk brewed") stand in the grammars as `heard`; here are the repairs of single words that
need their neighbours ("to" for two, "n" for and), and typos by edit distance against the grammar's
own words.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from rapidfuzz.distance import OSA
from spacy.tokens import Doc

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.numbers import is_number_word
from fieldnotes.reader.outfit import Outfit

STOPS = frozenset(".;!?\n") | {"\n\n"}
HIVE_WORDS = frozenset("hive hives colony colonies number numbers # nuc nucs nuke nukes".split())
_VALUE_VERBS = frozenset("had has have got is was were found counted gave showed shows made count".split())
_JOINERS = frozenset("and hive hives um uh then so , . ; but colony next with okay ok also oh er for".split()) | {"\n", "\n\n"}
_NOT_NUMBER_AFTER = frozenset(
    "the a an my our your it them him her us me be do go get put pull see check wash roll feed take come move keep make "
    "that this those these there here some any all every each which what".split()
)  # fmt: skip
_NOT_TWO_BEFORE = frozenset("going due close next up down back over add need needs want wants used have has got ought way went goes go came come".split())


@dataclass(slots=True)
class Heard:
    """The words of a note as they were meant: `w` the words, `s` and `e` their offsets in the text."""

    w: list[str] = field(default_factory=list)
    s: list[int] = field(default_factory=list)
    e: list[int] = field(default_factory=list)


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
        self.known = g.vocabulary | self.number_words | frozenset(self.plain) | frozenset(self.homophones)
        spoken: set[str] = set()
        for rule in g.rules:
            for template in rule.templates[: len(rule.templates)]:
                spoken |= {w for w in template.replace("(", " ").replace(")", " ").replace("[", " ").replace("]", " ").replace("|", " ").split()}
        self.targets = tuple(sorted(w for w in (self.known & (spoken | self.number_words)) if len(w) >= 4 and w.isalpha()))
        counted: set[str] = set()
        for rule in g.rules:
            for template in rule.templates:
                for chunk in template.split("{number} ")[1:]:
                    head = chunk.split(")")[0] if chunk.startswith(("(", "[")) else chunk.split()[0]
                    counted |= {w for part in head.strip("([ ").replace("]", "|").replace("(", "|").replace("[", "|").split("|") for w in part.split()[:1]}
        for rule in g.rules:
            if rule.mark in ("item", "form", "queen_noun") or rule.name == "nuc":
                counted |= {w for t in rule.templates for w in t.replace("(", " ").replace(")", " ").replace("[", " ").replace("]", " ").replace("|", " ").split()}
        counted -= {"{number}", "of", "in", "a", "the", "an", "day", "more", "out", "on", "strong", "times", "below", "old", "total"}
        self.counted = frozenset(w for w in counted if w.isalpha() and len(w) > 1) | {"each", "per", "ea", "apiece"}


@lru_cache(maxsize=1)
def speech() -> _Speech:
    """The speech tables, made ready once."""
    return _Speech()


@lru_cache(maxsize=1)
def common_words() -> frozenset[str]:
    """Plain English words, which are never taken for a typo of ours."""
    from wordfreq import get_frequency_dict  # late: its table is read only when a word is unknown

    return frozenset(get_frequency_dict("en", "small"))


def hear(doc: Doc, outfit: Outfit) -> Heard:
    """The words of `doc` as they were meant."""
    heard = Heard()
    w, s, e = heard.w, heard.s, heard.e
    plain = speech().plain
    for token in doc:
        text = token.text
        if text.isspace():
            if "\n" in text:
                w.append("\n\n" if text.count("\n") > 1 else "\n")
                s.append(token.idx)
                e.append(token.idx + len(text))
            continue
        low = text.lower()
        if "’" in low:
            low = low.replace("’", "'")
        if low.endswith("'s") and is_number_word(low[:-2]):
            low = low[:-2]
        w.append(plain.get(low, low))
        s.append(token.idx)
        e.append(token.idx + len(text))
    _glue(heard)
    _letter_n(w, doc)
    _typos(w, outfit)
    _numbers_by_ear(w, outfit)
    return heard


def _glue(heard: Heard) -> None:
    """ "2nite", "2morrow": a digit run into the rest of a word."""
    glued = grammar().tables["glued"]
    w = heard.w
    for i in range(len(w) - 2, -1, -1):
        if w[i] == "2" and w[i + 1] in glued and heard.e[i] == heard.s[i + 1]:
            w[i : i + 2] = [glued[w[i + 1]]]
            del heard.s[i + 1], heard.e[i]


def _letter_n(w: list[str], doc: Doc) -> None:
    """ "n" is "and" ("61 n 62"), unless it is the letter of an id ("n three")."""
    if "and" not in w:
        return
    said = [t.text.lower() for t in doc if not (t.is_space and "\n" not in t.text)]
    if len(said) != len(w):
        return
    for i, word in enumerate(said):
        if word == "n" and i + 1 < len(w):
            after_number = i > 0 and (w[i - 1][0].isdecimal() or w[i - 1][-1].isdecimal())
            nxt = w[i + 1] if w[i + 1] != "-" or i + 2 >= len(w) else w[i + 2]
            if is_number_word(nxt) and not (after_number and nxt[0].isdecimal()):
                w[i] = "n"


@lru_cache(maxsize=20000)
def closest(word: str, extra: frozenset[str] = frozenset()) -> str | None:
    """The one word of the grammar (or of `extra`) that `word` is a typo of; None where there is no one such word."""
    limit = 1 if len(word) < 7 else 2
    best: list[tuple[int, str]] = []
    for target in (*speech().targets, *extra):
        if abs(len(target) - len(word)) > limit:
            continue
        distance = OSA.distance(word, target, score_cutoff=limit)
        if distance <= limit:
            best.append((distance * 2 - (target[0] == word[0]), target))
    if not best:
        return None
    best.sort()
    if best[0][0] > 2 * limit - 1 and word[0] != best[0][1][0]:
        return None  # another first letter and at the limit: too far to be sure
    if len(best) > 1 and best[1][0] == best[0][0] and not _same_meaning(best[0][1], best[1][1]):
        return None
    return best[0][1]


def _same_meaning(a: str, b: str) -> bool:
    return a.rstrip("s") == b.rstrip("s") or a[:4] == b[:4]


def _typos(w: list[str], outfit: Outfit) -> None:
    known = speech().known
    names = outfit.phrases.vocabulary
    for i, word in enumerate(w):
        if len(word) < 4 or word in known or word in names or not word.isalpha() or word in common_words() or w[i + 1 : i + 2] in (["yard"], ["apiary"]):
            continue
        meant = closest(word, names)
        if meant:
            w[i] = meant


def _numbers_by_ear(w: list[str], outfit: Outfit) -> None:
    """ "to" after "forty", after a hive word or a letter, before mites: two. Changes `w` in place."""
    t = speech()
    tens = grammar().tables["tens"]
    letters = {x.lower() for x in outfit.letters}
    n = len(w)
    for i, word in enumerate(w):
        meant = t.homophones.get(word)
        if not meant or (word == "oh" and i and is_number_word(w[i - 1]) and is_number_word(w[i + 1] if i + 1 < n else "")):
            continue
        before = w[i - 1] if i else ""
        after = w[i + 1] if i + 1 < n else "\n"
        after_is_number = is_number_word(after) or after in t.homophones
        if before in tens and word != "oh":
            third = w[i + 2] if i + 2 < n else ""
            ranging = word == "to" and is_number_word(after) and not (third in _VALUE_VERBS)
            if (after not in _NOT_NUMBER_AFTER or w[i + 1 : i + 3] == ["a", "dozen"]) and not ranging:
                w[i] = meant
        elif before in HIVE_WORDS or _is_letter(before, w, i, letters, t):
            if after not in _NOT_NUMBER_AFTER and not (before in ("hives", "colonies", "nucs", "colony", "nuc") and word in ("to", "for")):
                w[i] = meant
        elif before == "to" and i > 1 and w[i - 2] in ("came", "come", "comes") and word in ("for", "won", "ate", "too", "to", "tree"):
            w[i] = meant
        elif word in ("to", "too", "for", "won", "ate", "tree", "free") and before in _VALUE_VERBS and (
            after in _JOINERS or after in STOPS or (after_is_number and before not in ("has", "have")) or _letter_id(w, i + 1, letters)
        ):
            if not (word == "for" and after_is_number and before in ("got", "was", "is")):
                w[i] = meant
        elif after in t.counted and word in ("to", "too", "tu") and before not in _NOT_TWO_BEFORE:
            w[i] = meant
        elif after in t.counted and word in ("for", "tree", "free", "won", "ate", "sicks", "tin", "fore") and before in _VALUE_VERBS | {"put", "and", "fed", "pulled", "added"} and not (word == "for" and before in ("and", "pulled", "is", "was")):
            w[i] = meant
        elif word in ("to", "too") and after in ("a", "per") and i + 2 < n and w[i + 2] in ("hive", "colony", "box", "nuc") and before not in _NOT_TWO_BEFORE and not (before.endswith("ed") or before in ("put", "gave", "give", "strip", "pad")):
            w[i] = meant
        elif word in ("to", "too") and after == "of" and i + 2 < n and w[i + 2] in ("them", "em", "the", "those"):
            w[i] = meant
        elif word in ("to", "too") and before in ("the", "those", "these", "all", "other") and after not in _NOT_NUMBER_AFTER:
            w[i] = meant


def _is_letter(before: str, w: list[str], i: int, letters: set[str], t: _Speech) -> bool:
    if len(before) == 1 and before.isalpha():
        return before in letters or (not letters and before not in "aio" and i >= 1)
    return before in t.letters and t.letters[before] in letters and before not in ("are", "see", "be", "why", "sea", "tea")


def _letter_id(w: list[str], i: int, letters: set[str]) -> bool:
    return i + 1 < len(w) and len(w[i]) == 1 and w[i] in letters and (is_number_word(w[i + 1]) or w[i + 1] in speech().homophones)
