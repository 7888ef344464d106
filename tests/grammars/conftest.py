"""Lets `pytest tests/grammars -k "<name of a rule or table>"` take names with blanks, "and" or "not" in them."""

import pytest
from rule_examples import name_in_tests

from fieldnotes.reader.grammar import grammar


def pytest_configure(config: pytest.Config) -> None:
    if config.option.keyword in {named.name for named in (*grammar().rules, *grammar().word_tables)}:
        config.option.keyword = name_in_tests(config.option.keyword)
