"""The grammars as a whole: a phrase stands in one rule, every rule has an example, errors name what to mend."""

from collections.abc import Callable

import pytest
from rule_examples import name_in_tests, split_example

from fieldnotes.reader.grammar import GrammarError, grammar, listed, meanings, parse_grammar
from fieldnotes.reader.phrases import expand, words_of

NUMBERS = {"units", "teens", "tens"}


def test_each_phrase_stands_in_one_rule() -> None:
    digits = {word: str(n) for table in NUMBERS for word, n in grammar().tables[table].items()}
    owner: dict[str, str] = {}
    twice = set()
    for rule in grammar().rules:
        for template in rule.templates:
            for phrase in expand(template):
                # as the reader compares them: "don't" is "dont", "two" is "2"
                said = " ".join(digits.get(w, w) for w in words_of(phrase)).replace("n't", "nt")
                if owner.setdefault(said, rule.name) != rule.name:
                    twice.add(f'"{said}": {owner[said]}, {rule.name}')
    assert len(owner) > 10_000
    assert not twice, "in two rules:\n" + "\n".join(sorted(twice))


def test_each_rule_has_an_example() -> None:
    assert all(rule.examples for rule in grammar().rules)


def test_each_table_has_an_example_with_a_word_of_it() -> None:
    for table in grammar().word_tables:
        words = {w for key, value in table.content.items() for w in (value if isinstance(value, list) else [key])}
        said = [" ".join(words_of(split_example(example)[0].lower())) for example in table.examples]
        assert any(f" {' '.join(words_of(w))} " in f" {text} " for w in words for text in said), (
            f"grammars/{table.file}, table [{table.name}]: no word of it stands in its examples"
        )


def test_the_words_of_tables_can_be_said() -> None:
    for table in grammar().word_tables:
        words = [w for key, value in table.content.items() for w in (value if isinstance(value, list) else [key])]
        assert words == [w.lower() for w in words], f"[{table.name}]: words stand in small letters"
        assert len(set(words)) == len(words) or len(table.content) > 1, f"[{table.name}]: a word stands twice"


def test_names_of_rules_differ_in_the_names_of_tests() -> None:
    names = [name_in_tests(rule.name) for rule in (*grammar().rules, *grammar().word_tables)]
    assert len(set(names)) == len(names)


GOOD = """
[[rule]]
name = "strips"
mark = "form"
say = ["strip[s]"]
examples = ["strips in 9 => treatment step=in form=strip"]

[spots]
words = ["fence"]
examples = ["moved 9 to the fence => change colonies=9 step=moved"]
"""


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (('mark = "form"', 'mark = "shape"'), 'rule "strips": the mark "shape" is unknown'),
        (('name = "strips"\n', ""), "a rule has no name"),
        (('say = ["strip[s]"]\n', ""), 'rule "strips" says nothing'),
        (("strip[s]", "strip[s"), 'rule "strips": "strip[s" has a bracket that is not closed'),
        (("strip[s]", "strips]"), 'rule "strips": "strips]" closes a bracket that is not open'),
        (("strip[s]", "[strips]"), 'rule "strips": "[strips]" can be empty'),
        (("strip[s]", "{count} strips"), 'rule "strips": {count} is unknown'),
        (
            ('examples = ["strips in 9 => treatment step=in form=strip"]', ""),
            'rule "strips" has no examples',
        ),
        (('mark = "form"', "mark = form"), "is not TOML"),
        (
            ('examples = ["moved 9 to the fence => change colonies=9 step=moved"]', ""),
            "table [spots] has no examples",
        ),
        (('"fence"', ""), "table [spots] has no words"),
        (("\n[[rule]]", "loose = []\n[[rule]]"), "loose stands outside a rule or a table"),
    ],
)
def test_errors_name_file_rule_and_fault(change: tuple[str, str], says: str) -> None:
    parse_grammar({"own.toml": GOOD})
    with pytest.raises(GrammarError) as caught:
        parse_grammar({"own.toml": GOOD.replace(*change)})
    assert "own.toml" in str(caught.value)
    assert says in str(caught.value)


def test_a_rule_may_stand_once() -> None:
    with pytest.raises(GrammarError, match=r'the rule "strips" is also in a\.toml'):
        parse_grammar({"a.toml": GOOD, "b.toml": GOOD})


def test_a_table_may_stand_once() -> None:
    table = GOOD[GOOD.index("[spots]") :]
    with pytest.raises(GrammarError, match=r"the table \[spots\] is also in another file"):
        parse_grammar({"a.toml": table, "b.toml": table})


@pytest.mark.parametrize("ask", [listed, meanings])
def test_a_table_that_the_reader_asks_for_is_missed(ask: Callable[[str], object]) -> None:
    with pytest.raises(GrammarError, match=r"no table \[fences\]"):
        ask("fences")


def test_meanings_are_asked_for_by_their_words() -> None:
    assert meanings("colours")["grn"] == "green"
