"""Finds the phrases of the grammar in a list of words: longest match from each word on.

Templates with optional and alternative parts would blow up if each phrase were listed, so they are
compiled to a small automaton (a node a word, shared inside a template) which is made deterministic
only along the paths that notes really take.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_TOKEN = re.compile(r"\{\w+\}|\d+(?:st|nd|rd|th)|[a-z]{1,2}\d+|\d+(?:\.\d+)?|[^\W\d_]+(?:['’][^\W\d_]+)*|[^\w\s]")


_IN_FULL = {"can't": "can", "won't": "will", "ain't": "is", "shan't": "shall"}


def words_of(phrase: str) -> list[str]:
    """The plain phrase cut into words the way the reader cuts a note."""
    phrase = phrase.replace("’", "'")
    if phrase.startswith("'s"):
        return ["'s", *_TOKEN.findall(phrase[2:])]  # "(honey|crop) ('s|is) in": what is parted off a word
    return _TOKEN.findall(phrase)


def _chunks(template: str) -> Iterator[str]:
    """The template cut at the blanks that are outside all brackets."""
    depth = 0
    start = 0
    for i, sign in enumerate(template):
        if sign in "[(":
            depth += 1
        elif sign in "])":
            depth -= 1
            if depth < 0:
                raise ValueError(f'"{template}" closes a bracket that is not open')
        elif sign == " " and depth == 0:
            if i > start:
                yield template[start:i]
            start = i + 1
    if depth:
        raise ValueError(f'"{template}" has a bracket that is not closed')
    if start < len(template):
        yield template[start:]


def _alternatives(inside: str) -> list[str]:
    parts, depth, start = [], 0, 0
    for i, sign in enumerate(inside):
        depth += (sign in "[(") - (sign in "])")
        if sign == "|" and depth == 0:
            parts.append(inside[start:i])
            start = i + 1
    return [*parts, inside[start:]]


def _whole_group(chunk: str) -> bool:
    """Whether the chunk is one bracket from its first sign to its last."""
    if chunk[0] not in "[(":
        return False
    depth = 0
    for i, sign in enumerate(chunk):
        depth += (sign in "[(") - (sign in "])")
        if depth == 0:
            return i == len(chunk) - 1
    return False


def expand(template: str) -> Iterator[str]:
    """Every plain phrase that the template stands for, blanks folded."""
    match = re.search(r"\[([^\[\]()]*)\]|\(([^\[\]()]*)\)", template)
    if not match:
        yield " ".join(template.split())
        return
    choices = ["", *match[1].split("|")] if match[1] is not None else match[2].split("|")
    for choice in choices:
        yield from expand(template[: match.start()] + choice + template[match.end() :])


class _State:
    """A deterministic state: where each word leads, and the rule that ends here (or -1)."""

    __slots__ = ("next", "nodes", "rule")

    def __init__(self, nodes: frozenset[int], rule: int) -> None:
        self.nodes = nodes
        self.next: dict[str, _State | None] = {}
        self.rule = rule


class Phrases:
    """The automaton. `add` templates with the index of their rule, then `find`.

    With `number_words` a number in a template ("2", "two") stands for that number however it is said; in the words
    given to `find` a number is then "=2", or "{number}" where it is no whole number.
    """

    def __init__(self, number_words: dict[str, int] | None = None) -> None:
        self._number_words = number_words or {}
        self._arrows: list[dict[str, list[int]]] = [{}]
        self._ends: dict[int, int] = {}
        self._words: set[str] = set()
        self._states: dict[frozenset[int], _State] = {}
        self._start: _State | None = None
        self._vocabulary: frozenset[str] | None = None

    @property
    def vocabulary(self) -> frozenset[str]:
        """Every word of every phrase, without the `{atoms}`."""
        if self._vocabulary is None:
            self._vocabulary = frozenset(w for w in self._words if w[0] not in "{=")
        return self._vocabulary

    def add(self, template: str, rule: int) -> None:
        """Adds what `template` stands for.

        Raises:
            ValueError: brackets that do not match, or a template that can be empty.
        """
        ends = self._sequence([0], template)
        if 0 in ends:
            raise ValueError(f'"{template}" can be empty: leave at least one word outside [ ]')
        for end in ends:
            self._ends.setdefault(end, rule)
        self._start = self._vocabulary = None
        self._states.clear()

    def _sequence(self, froms: list[int], template: str, to: int | None = None) -> list[int]:
        """Adds `template` behind the nodes `froms`; its last words lead to the node `to`, or to a new one. Its ends."""
        chunks = list(_chunks(template))
        for k, chunk in enumerate(chunks):
            target = to if k == len(chunks) - 1 else None
            if _whole_group(chunk):
                target = self._node() if target is None else target  # the ways through a group end in one node
                outs: dict[int, None] = {}
                for part in _alternatives(chunk[1:-1]):
                    outs.update(dict.fromkeys(self._sequence(froms, part, target)))
                if chunk[0] == "[":
                    outs.update(dict.fromkeys(froms))
                froms = list(outs)
            elif "[" in chunk or "(" in chunk:
                target = self._node() if target is None else target
                outs = {}
                for phrase in expand(chunk):
                    outs.update(dict.fromkeys(self._words_on(froms, words_of(phrase), target)))
                froms = list(outs)
            else:
                froms = self._words_on(froms, words_of(chunk), target)
        return froms

    def _node(self) -> int:
        self._arrows.append({})
        return len(self._arrows) - 1

    def _words_on(self, froms: list[int], words: list[str], to: int | None = None) -> list[int]:
        for k, word in enumerate(words):
            number = self._number_words.get(word) if not word.isdecimal() else int(word)
            if number is not None:
                word = f"={number}"
            new = to if to is not None and k == len(words) - 1 else self._node()
            for spelling in {word, word.replace("'", "") if word.endswith("n't") else word}:
                self._words.add(spelling)
                for node in froms:
                    self._arrows[node].setdefault(spelling, []).append(new)
            if word.endswith("n't"):
                self._in_full(froms, word, new)
            froms = [new]
        return froms

    def _in_full(self, froms: list[int], word: str, new: int) -> None:
        """Leads to `new` by "was not", too, where a template says "wasn't"."""
        verb, between = _IN_FULL.get(word, word[:-3]), self._node()
        self._words.update((verb, "not"))
        for node in froms:
            self._arrows[node].setdefault(verb, []).append(between)
        self._arrows[between]["not"] = [new]

    def _state(self, nodes: frozenset[int]) -> _State:
        found = self._states.get(nodes)
        if found is None:
            rule = min((self._ends[n] for n in nodes if n in self._ends), default=-1)
            found = self._states[nodes] = _State(nodes, rule)
        return found

    def _step(self, state: _State, word: str) -> _State | None:
        nodes = frozenset(t for n in state.nodes for t in self._arrows[n].get(word, ()))
        if word[0] == "=" and len(word) > 1:  # a number said outright is also any number
            nodes |= frozenset(t for n in state.nodes for t in self._arrows[n].get("{number}", ()))
        found = self._state(nodes) if nodes else None
        if found is not None or word in self._words:
            # Words that no phrase has are not remembered: memory must not grow with what people write.
            state.next[word] = found
        return found

    def find(self, words: list[str]) -> list[tuple[int, int, int]]:
        """Every phrase in `words`, several from one word on where several end: (first, index after, rule)."""
        if self._start is None:
            self._start = self._state(frozenset([0]))
        start = self._start
        begins = start.next
        known = self._words
        found: list[tuple[int, int, int]] = []
        for i, first in enumerate(words):
            if begins.get(first, start) is None:
                continue  # known to begin no phrase, as most words do
            if first not in known:
                if first[0] != "=" or len(first) == 1:
                    continue
                first = "{number}"
            state: _State | None = start
            j = i
            n = len(words)
            while state is not None and j < n:
                word = words[j]
                nxt = state.next.get(word, state)
                if nxt is state and word not in known:
                    if word[0] != "=" or len(word) == 1:
                        break
                    word = "{number}"
                    nxt = state.next.get(word, state)
                if nxt is state:
                    nxt = self._step(state, word)
                if nxt is None:
                    break
                j += 1
                if nxt.rule >= 0:
                    found.append((i, j, nxt.rule))
                state = nxt
        return found
