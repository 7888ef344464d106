"""Every example of every rule and table: what is said → the records that come out; and where a rule must not fire."""

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from rule_examples import name_in_tests, records_of, rules_fired, split_example, what_differs

from fieldnotes.reader.grammar import Rule, Table, grammar

KNOWN = tomllib.loads(Path(__file__).with_name("known_failures.toml").read_text(encoding="utf-8"))


def params(which: str) -> list[object]:
    return list(_params(which))


def _params(which: str) -> Iterator[object]:
    for rule in grammar().rules:
        for number, example in enumerate(getattr(rule, which), 1):
            known = example in KNOWN[which].get(rule.name, ())
            marks = [pytest.mark.xfail(strict=True, reason="in known_failures.toml")] if known else []
            yield pytest.param(rule, example, id=f"{name_in_tests(rule.name)}-{number}", marks=marks)


@pytest.mark.parametrize(("rule", "example"), params("examples"))
def test_example(rule: Rule, example: str) -> None:
    said, wanted = split_example(example)
    differs = what_differs(wanted, records_of(said))
    assert not differs, f'grammars/{rule.file}, rule "{rule.name}": {said!r}\n{differs}'


@pytest.mark.parametrize(
    ("table", "example"),
    [
        pytest.param(table, example, id=f"{table.name}-{number}")
        for table in grammar().word_tables
        for number, example in enumerate(table.examples, 1)
    ],
)
def test_example_of_a_table(table: Table, example: str) -> None:
    said, wanted = split_example(example)
    differs = what_differs(wanted, records_of(said))
    assert not differs, f"grammars/{table.file}, table [{table.name}]: {said!r}\n{differs}"


@pytest.mark.parametrize(("rule", "example"), params("not_examples"))
def test_where_it_must_not_fire(rule: Rule, example: str) -> None:
    assert rule.name not in rules_fired(example), f'grammars/{rule.file}: "{rule.name}" fires in {example!r}'


@pytest.mark.parametrize("which", ["examples", "not_examples"])
def test_known_failures_are_still_examples(which: str) -> None:
    rules = {rule.name: rule for rule in grammar().rules}
    for name, listed in KNOWN[which].items():
        gone = [x for x in listed if name not in rules or x not in getattr(rules[name], which)]
        assert not gone, f"take out of known_failures.toml, {which}: {name}: {gone}"
