"""Text for property tests: what the grammars say, shuffled with numbers, names of yards and signs."""

from __future__ import annotations

import json
import re
from functools import lru_cache
from pathlib import Path

from hypothesis import strategies as st

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.phrases import expand
from fieldnotes.roster import Roster, load_roster

LABELLED = Path(__file__).parents[1] / "labelled"
ROSTERS = ("", "quillfeather", "tannahill", "tinderbox")


def words(text: str) -> list[str]:
    """The words of `text`."""
    return text.split()


@lru_cache(maxsize=8)
def roster_named(name: str) -> Roster:
    """The roster of that name beside the labelled notes; an empty one for ""."""
    return load_roster(LABELLED / f"{name}.toml") if name else Roster()


@lru_cache(maxsize=1)
def phrases() -> list[str]:
    """Up to twelve phrases of each template of each rule, atoms left in."""
    found: dict[str, None] = {}
    for rule in grammar().rules:
        for template in rule.templates:
            for _, phrase in zip(range(12), expand(template), strict=False):
                found[phrase] = None
    return list(found)


@lru_cache(maxsize=1)
def names() -> list[str]:
    """What yards and people are called in the rosters, and colony ids of theirs."""
    found: dict[str, None] = {}
    for name in ROSTERS:
        roster = roster_named(name)
        for part in (*roster.yard, *roster.person):
            found |= dict.fromkeys([part.name, *part.also])
        for yard in roster.yard:
            found |= dict.fromkeys(yard.ids[:6])
        found |= dict.fromkeys(roster.words)
    return list(found)


NUMBERS = words("""
    0 1 2 3 4 5 7 9 12 14 22 43 64 100 101 300 341 1200 3.5 .5 17.2 1/2 3/300 2:1 6/3 6/3/26 2026-06-03 50% L4 N2 b7
    12-15 L1-L12 #9 one two to too for won three ten twelve forty fifty-five hundred half couple dozen none zero oh
""")
SMALL = words("""
    and in on of the a at from to had has is was were but so then no not i we he they it them for with all each out off
    today friday tomorrow monday yesterday june march may week weeks days ago next last this need will did if
""")
SIGNS = [
    ".",
    ",",
    ";",
    ":",
    "-",
    "–",
    "?",
    "!",
    "/",
    "#",
    "=",
    "\n",
    "\n\n",
    "\n- ",
    "|",
    "(",
    ")",
    '"',
    "’",
    "😳",
    "½",
    "%",
    "…",
]
HEADS = [
    "Marit 14:02\n",
    "[06/10/26, 14:02] Dov: ",
    "2026-06-09 07:15 - Ines: ",
    "> ",
    "Tuesday:\n",
    "On June 3 Dov wrote:\n",
]


def filled(template: str, number: str, name: str) -> str:
    """The phrase with its atoms filled in."""
    values = {"number": number, "ordinal": "14th", "date": "june 3", "yard": name, "person": name, "colony": "L4"}
    for atom, value in values.items():
        template = template.replace(f"{{{atom}}}", value)
    return template


def pieces() -> st.SearchStrategy[str]:
    """One piece of a note in our words."""
    phrase = st.builds(filled, st.sampled_from(phrases()), st.sampled_from(NUMBERS), st.sampled_from(names()))
    return st.one_of(
        phrase,
        phrase,
        st.sampled_from(NUMBERS),
        st.sampled_from(SMALL),
        st.sampled_from(names()),
        st.sampled_from(SIGNS),
    )


def shuffled_notes(longest: int = 40) -> st.SearchStrategy[str]:
    """Notes of our words in no order, some as threads, some glued together without blanks."""
    joined = st.builds(
        lambda parts, sign: sign.join(parts),
        st.lists(pieces(), max_size=longest),
        st.sampled_from([" ", " ", " ", " ", ", ", "\n", "", "  "]),
    )
    headed = st.builds(lambda head, body: head + body, st.sampled_from(HEADS), joined)
    thread = st.lists(headed, min_size=1, max_size=4).map("\n".join)
    return st.one_of(joined, joined, thread)


@lru_cache(maxsize=1)
def labelled_notes() -> list[list[str]]:
    """The labelled notes, word by word, with the blanks and ends of lines that stand between."""
    lines = [line for path in sorted(LABELLED.glob("*.jsonl")) for line in path.read_text("utf-8").splitlines()]
    return [re.split(r"(?<=\s)(?=\S)", json.loads(line)["text"]) for line in lines]


@st.composite
def cut_notes(draw: st.DrawFn, longest: int = 12) -> str:
    """Up to four notes as people write them, each begun and cut off at any word."""
    cuts = []
    for _ in range(draw(st.integers(1, 4))):
        note = draw(st.sampled_from(labelled_notes()))
        start = draw(st.integers(0, len(note) - 1))
        cuts.append("".join(note[start : start + draw(st.integers(1, longest))]).strip())
    return draw(st.sampled_from([" ", ", ", "\n", ". "])).join(cuts)


def any_text() -> st.SearchStrategy[str]:
    """Any Unicode text, also with our words in it, in any case."""
    mixed = st.lists(
        st.one_of(st.text(max_size=12), pieces(), pieces().map(str.upper), pieces().map(str.title)), max_size=20
    )
    return st.one_of(st.text(max_size=400), mixed.map(" ".join), mixed.map("".join), shuffled_notes())
