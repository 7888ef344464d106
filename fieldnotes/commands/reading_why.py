"""Why a note was read as it was, for people: its words with what each was taken for, and the rule behind each slot."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fieldnotes.book.plain_words import describe
from fieldnotes.commands.output import one_line
from fieldnotes.commands.reading import note_of
from fieldnotes.commands.reading_table import print_asides, print_heading
from fieldnotes.intake.files import Arrival
from fieldnotes.roster import Roster

if TYPE_CHECKING:
    from fieldnotes.reader.mark import Mark

_UNMARKED = frozenset(["w", "comma", "stop", "line", "question"])
_NAMES = {"cols": "colonies", "value": "count", "clean": "no mites", "temp": "temperature", "cue": "cue word"}


def print_why(arrival: Arrival, roster: Roster) -> None:
    """Print the note with its marks in brackets, what each mark means and by which rule, and each slot's rule."""
    from fieldnotes.reader import read
    from fieldnotes.reader.grammar import grammar

    note = note_of(arrival)
    marks: list[Mark] = []
    reading = read(note, roster, marks)
    rows = [(m.s, m.e, _taken_for(m), m.rule) for m in marks if m.label not in _UNMARKED]
    rows += [(start, end, "put right", "correction") for m in marks for start, end in m.v.get("struck", ())]
    rows.sort()
    files = {rule.name: f"grammars/{rule.file}" for rule in grammar().rules}
    console = Console(highlight=False)
    print_heading(console, arrival)
    console.print(Text(bracketed(note.text, [(start, end) for start, end, *_ in rows])))
    if rows:
        console.print()
        console.print(
            _table(
                ("Words", "Taken for", "Rule"),
                ([one_line(note.text[start:end]), meant, _rule(rule, files)] for start, end, meant, rule in rows),
            )
        )
    for record in reading.records:
        console.print()
        console.print(Text(describe(record.kind, record.slots, arrival.received, arrival.by), style="bold"))
        console.print(
            _table(
                ("Slot", "Value", "Rule"),
                ([s, _shown(v), _rule(record.why.get(s, ""), files)] for s, v in record.slots.items()),
            )
        )
    if not reading.records:
        console.print("Nothing for the book.")
    print_asides(console, reading)


def bracketed(text: str, spans: list[tuple[int, int]]) -> str:
    """The text with each span (in order) in brackets; of spans that overlap the first."""
    parts, at = [], 0
    for start, end in spans:
        if start >= at:
            parts += [text[at:start], "[", text[start:end], "]"]
            at = end
    return "".join([*parts, text[at:]])


def _table(headings: tuple[str, ...], rows: Iterable[list[str]]) -> Table:
    table = Table(show_edge=False, pad_edge=False)
    for heading in headings:
        table.add_column(heading, overflow="fold")
    for row in rows:
        table.add_row(*map(Text, row))
    return table


def _taken_for(m: Mark) -> str:
    name = _NAMES.get(m.label, m.label.replace("_", " "))
    meant = ", ".join(filter(None, (_meant(key, value) for key, value in m.v.items())))
    return f"{name}: {meant}" if meant else name


def _meant(key: str, value: Any) -> str:
    """One value of a mark in words; "" for what only the reader needs."""
    if key == "n":
        return f"{value.value:g}"
    if key in ("ids", "value") and isinstance(value, list | str):
        return _shown(value)
    if key == "set" and isinstance(value, dict):
        return ", ".join(f"{slot} {_shown(v)}" for slot, v in value.items())
    if isinstance(value, str) and key != "kind":
        return value.replace("_", " ")
    return ""


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(map(_shown, value))
    return str(value).replace("_", " ")


def _rule(name: str, files: dict[str, str]) -> str:
    return f"{name} ({files[name]})" if name in files else name
