"""Words → one row of marks, by the phrases of the grammar over the atoms."""

from __future__ import annotations

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.hear import Heard
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.marking.all_but import all_but_the_ones
from fieldnotes.reader.marking.atoms import find_atoms, is_number
from fieldnotes.reader.marking.colours import colour_in
from fieldnotes.reader.marking.exchanged import exchanged
from fieldnotes.reader.marking.handed import handed_over
from fieldnotes.reader.marking.headings import headings
from fieldnotes.reader.marking.left_on import left_on
from fieldnotes.reader.marking.misread import misread
from fieldnotes.reader.marking.numbered import dotted_rows, numbered_lines
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit

_WORD_LABELS = {",": "comma", ".": "stop", ";": "stop", "!": "stop", "?": "question", "\n": "line", "\n\n": "line"}


def marks_of(heard: Heard, outfit: Outfit) -> list[Mark]:
    """The row of marks of a message."""
    atoms = find_atoms(heard, outfit)
    rules = grammar().rules
    taken = [False] * len(atoms.w)
    chosen: dict[int, tuple[int, int]] = {}
    found = grammar().phrases.find(atoms.w)
    longest_first = [(i - j, is_number(atoms.w[i]), i, index) for i, j, index in found]
    longest_first.sort()
    for less, _, i, index in longest_first:
        j = i - less
        if True not in taken[i:j] and not misread(atoms, i, j, rules[index].mark):
            for k in range(i, j):
                taken[k] = True
            chosen[i] = (j, index)
    numbered = numbered_lines(atoms)
    dotted = frozenset() if numbered else dotted_rows(atoms)
    row: list[Mark] = []
    exchanges = things = excepts = False
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
                if is_number(shown) and not (
                    atoms.said[k] in ("one", "1")
                    and (k == j - 1 or atoms.w[k - 1] in ("new", "old", "other"))
                    and j > i + 1
                    and rule.mark in ("queen_noun", "queen_work", "pronoun", "rest", "every", "each")
                ):
                    value["n2" if "n" in value else "n"] = atoms.v[k]
                elif shown == "{ordinal}":
                    value["n"] = Number(atoms.v[k], 0)
            if "count" in rule.value:
                value["n"] = Number(float(rule.value["count"]), 0)
            if rule.value.get("colour"):
                colour = colour_in(" ".join(atoms.w[i:j]))
                if colour:
                    value["mark"] = colour
            if rule.mark == "fact" and value.get("set", {}).get("queen") == "seen" and "mark" not in value:
                colour = colour_in(" ".join(w for w in atoms.w[i:j] if w not in ("read", "why", "blew")))
                if colour:
                    value["mark"] = colour  # "saw the yellow queen"
            excepts = excepts or rule.mark == "every" or rule.value.get("cue") == "except"
            exchanges = exchanges or rule.mark == "exchange"
            things = things or rule.mark == "item" or rule.value.get("number") == "brood_frames"
            if rule.mark == "amount":
                value["words"] = atoms.w[i:j]
            row.append(Mark(rule.mark, atoms.s[i], atoms.e[j - 1], " ".join(atoms.said[i:j]), value, rule.name))
            i = j
            continue
        shown = atoms.w[i]
        if shown[0].isalpha():
            row.append(Mark("w", atoms.s[i], atoms.e[i], "and" if shown == "plus" else shown))
            i += 1
            continue
        if shown[0] in "{=" and len(shown) > 1:
            label = "number" if shown[0] == "=" else shown.strip("{}")
            value = {"value": atoms.v[i]}
            if label == "number":
                value = {"n": atoms.v[i]}
            elif label == "agent":
                value = dict(atoms.v[i])
            elif label == "yard":
                _degrees_there(row)
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
                if after and after[0] != "\n" and (is_number(after) or j - i > 1):
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
    if things:
        row = handed_over(row)
    if "left" in atoms.w:
        left_on(row)
    if excepts:
        all_but_the_ones(row)
    return headings(exchanged(row) if exchanges else row)


_IT_IS = frozenset(["it's", "its", "was", "is"])
_COLDEST = 25
"""A lower number after "it was" counts hives or mites more often than degrees."""
_HOTTEST = 120
_ABOUT = frozenset("only about around maybe just already still over up down out in at".split())


def _degrees_there(row: list[Mark]) -> None:
    """ "it was ninety one at | the quarry": the number before the yard is of degrees. In place."""
    k = len(row) - 1
    if k < 2 or row[k].w not in ("at", "in"):
        return
    while k > 0 and row[k].w in _ABOUT:
        k -= 1
    m, first = row[k], k - 1
    while first > 0 and row[first].w in _ABOUT:
        first -= 1
    if m.label != "number" or first < 0 or row[first].w not in _IT_IS or not _COLDEST < m.v["n"].value < _HOTTEST:
        return
    if row[first].w in ("was", "is") and (first == 0 or row[first - 1].w != "it"):
        return
    m.label, m.rule = "temp", "degrees"
