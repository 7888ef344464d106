"""Loads and checks the grammars: words and phrases as data, each rule beside its examples.

A grammar file is TOML with `[[rule]]` tables:

* `name`: the rule's own name, unique in all files;
* `mark`: what a match means to the reader (see `MARKS`);
* `say`: phrases; `[x]` may be missing, `(a|b)` is either, `{number}`, `{yard}` … stand for what the
  reader found before (see `ATOMS`);
* `heard`: more phrases, for what speech-to-text and hasty thumbs make of them;
* `examples`: `"what is said => kind slot=value …"`; the tests run each one;
* `not_examples`: sentences in which the rule must not fire;
* any other field is a value that the mark carries (such as `set` or `cue`).

Any other table, such as `[weekdays]`, is words by themselves: a list (`words`), words with what they mean, or meanings
with their lists of words. It has `examples` too.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

from fieldnotes.datafiles import data_folder
from fieldnotes.errors import FieldnotesError
from fieldnotes.reader.phrases import Phrases

ATOMS = ("{number}", "{ordinal}", "{date}", "{yard}", "{person}", "{colony}")
"""What the reader finds before it looks for phrases; each may stand in a `say`."""

MARKS = frozenset(
    (
        "fact method mites clean sample percent days check agent form unit round amount item feed ratio harvest "
        "moisture queen_work queen_noun change temp sky verb particle cue every rest pronoun hives hive each same "
        "filler approx need degrees thing honey heading ignore noun same_day again exchange"
    ).split()
)
"""The marks that a rule may make."""

_FIELDS = {"name", "mark", "say", "heard", "examples", "not_examples", "note"}


class GrammarError(FieldnotesError):
    """A grammar file that cannot be used: names the file, the rule and what to mend."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the grammar: what is said, as templates (the first `said` of them rightly), and its mark's value."""

    name: str
    mark: str
    file: str
    templates: tuple[str, ...]
    said: int
    value: dict[str, Any]
    examples: tuple[str, ...]
    not_examples: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table of words that are no phrases of a rule; what they are for is up to the code that asks for them."""

    name: str
    file: str
    content: dict[str, Any]
    examples: tuple[str, ...]


@dataclass(frozen=True)
class Grammar:
    """Everything said in `grammars/`: the rules, their phrases, and the tables of words."""

    rules: tuple[Rule, ...]
    phrases: Phrases = field(repr=False)
    word_tables: tuple[Table, ...] = field(repr=False)
    tables: dict[str, dict[str, Any]] = field(repr=False)
    """What stands in each of `word_tables`, by its name."""

    @property
    def vocabulary(self) -> frozenset[str]:
        """Every word that stands in a phrase."""
        return self.phrases.vocabulary


def _rule(entry: dict[str, Any], file: str) -> Rule:
    name = entry.get("name", "")
    where = f'Grammar {file}, rule "{name}"'
    if not name:
        raise GrammarError(f"Grammar {file}: a rule has no name. Give it one.")
    if entry.get("mark") not in MARKS:
        known = ", ".join(sorted(MARKS))
        raise GrammarError(f'{where}: the mark "{entry.get("mark")}" is unknown. Use one of: {known}.')
    if not entry.get("examples"):
        raise GrammarError(f"{where} has no examples. Add at least one under `examples`.")
    templates = [*entry.get("say", []), *entry.get("heard", [])]
    if not templates:
        raise GrammarError(f"{where} says nothing. Add phrases under `say`.")
    for template in templates:
        for atom in re.findall(r"\{\w*\}", template):
            if atom not in ATOMS:
                raise GrammarError(f"{where}: {atom} is unknown. Use one of: {', '.join(ATOMS)}.")
    value = {k: v for k, v in entry.items() if k not in _FIELDS}
    return Rule(
        name,
        entry["mark"],
        file,
        tuple(t.lower() for t in templates),
        len(entry.get("say", [])),
        value,
        tuple(entry["examples"]),
        tuple(entry.get("not_examples", ())),
    )


def _table(name: str, content: Any, file: str) -> Table:
    where = f"Grammar {file}, table [{name}]"
    if not isinstance(content, dict):
        raise GrammarError(f"Grammar {file}: {name} stands outside a rule or a table. Move it into one.")
    examples = content.pop("examples", ())
    if not examples:
        raise GrammarError(f"{where} has no examples. Add at least one under `examples`.")
    if not content or not all(words or words == 0 for words in content.values()):
        raise GrammarError(f"{where} has no words. Add some, or take the table out.")
    return Table(name, file, content, tuple(examples))


def parse_grammar(files: dict[str, str]) -> Grammar:
    """The grammar written in `files` (file name → TOML text).

    Raises:
        GrammarError: names the file, the rule and what to mend.
    """
    rules: list[Rule] = []
    tables: dict[str, Table] = {}
    seen: dict[str, str] = {}
    parsed: dict[str, dict[str, Any]] = {}
    for file, text in sorted(files.items()):
        try:
            parsed[file] = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            raise GrammarError(f"Grammar {file} is not TOML: {error}. Mend that line.") from None
    number_words = {
        word: value
        for data in parsed.values()
        for table in ("units", "teens", "tens")
        for word, value in data.get(table, {}).items()
    }
    number_words |= {"zero": 0, "hundred": 100}
    phrases = Phrases(number_words)
    for file, data in parsed.items():
        for entry in data.pop("rule", []):
            rule = _rule(entry, file)
            if rule.name in seen:
                raise GrammarError(f'Grammar {file}: the rule "{rule.name}" is also in {seen[rule.name]}. Rename one.')
            seen[rule.name] = file
            for template in rule.templates:
                try:
                    phrases.add(template, len(rules))
                except ValueError as error:
                    raise GrammarError(f'Grammar {file}, rule "{rule.name}": {error}.') from None
            rules.append(rule)
        for table, content in data.items():
            if table in tables:
                raise GrammarError(f"Grammar {file}: the table [{table}] is also in another file. Leave it in one.")
            tables[table] = _table(table, content, file)
    return Grammar(tuple(rules), phrases, tuple(tables.values()), {t.name: t.content for t in tables.values()})


def read_folder(folder: Path) -> Grammar:
    """The grammar in the `*.toml` files of `folder`."""
    return parse_grammar({path.name: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.toml"))})


@lru_cache(maxsize=1)
def grammar() -> Grammar:
    """The grammar that ships with the package."""
    return read_folder(data_folder("grammars"))


def listed(table: str) -> frozenset[str]:
    """The words of a table of the grammar that is a list."""
    return frozenset(_content(table)["words"])


def meanings(table: str) -> dict[str, str]:
    """Word → meaning, of a table of the grammar in which each meaning has its list of words."""
    return {word: meaning for meaning, said in _content(table).items() for word in said}


def _content(table: str) -> dict[str, Any]:
    tables = grammar().tables
    if table not in tables:
        raise GrammarError(f"The grammars have no table [{table}]. Put it back: the reader asks for it.")
    return tables[table]
