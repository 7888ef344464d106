"""`fieldnotes read --why`: the words of a note with what each was taken for, and the rule behind each slot."""

import json
import re

NOTE = (
    "quarry okay 12 had three mites no wait four, 14 none. need to pull the greenies from 5 thru 9 friday 😳 odd thing"
)


def rows(out: str) -> dict[str, list[str]]:
    """The rows of all tables, by their first cell."""
    cells = [[c.strip() for c in line.split("│")] for line in out.splitlines() if "│" in line]
    return {row[0]: row[1:] for row in cells}


def test_the_note_with_its_marks_and_the_rules_of_its_slots(outfit):
    out = outfit.ok("read", "--why", "--on", "2026-06-10", "--by", "Ann", stdin=NOTE, env={"COLUMNS": "160"})
    assert "Note of Wed 10 Jun 2026, Ann" in out
    assert "[quarry] [okay] [12] had [three mites] [no wait] [four], [14] [none]. [need to] [pull]" in out
    found = rows(out)
    assert found["quarry"] == ["yard: Quarry", "roster"]
    assert found["three mites"][0] == "mites: 4"
    assert found["no wait"][0] == "put right"
    assert found["5 thru 9"][0] == "colonies: 5, 6, 7, 8, 9"
    assert found["need to"] == ["cue word: plan", "plan (grammars/assertion.toml)"]
    assert "12 at Quarry: mite check, 4 mites" in out
    assert found["product"] == ["greenies", "roster"]
    assert found["on"] == ["2026-06-12", "date"]
    assert re.search(r"Not read: .*odd thing", out)


def test_every_slot_names_what_made_it(outfit):
    reading = json.loads(outfit.ok("read", "--json", "--why", "--on", "2026-06-10", "--by", "Ann", stdin=NOTE))
    for record in reading["records"]:
        slots = set(record) - {"kind", "spans", "why"}
        assert slots == set(record["why"])


def test_a_note_that_says_nothing(outfit):
    out = outfit.ok("read", "--why", "--on", "2026-06-10", stdin="what a view")
    assert "what a view" in out
    assert "Nothing for the book." in out
