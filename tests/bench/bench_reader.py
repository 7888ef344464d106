"""What reading costs, as ratios in one run and one process.

    python tests/bench/bench_reader.py [ROUNDS]

* whole notes read, against `dateparser.search.search_dates` finding the dates of the same notes;
* against bare spaCy tokenisation and one PhraseMatcher pass over the same notes, no two of them alike;
* time for each MB of text as notes grow to 1 MB, hostile repeats among them;
* `fieldnotes read` of one short note, against `python -c "import spacy; spacy.blank('en')"`.

The fastest of the rounds counts, by processor time, and rounds of the two sides take turns. `growth` alone as an
argument runs only the long part.
"""

from __future__ import annotations

import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import spacy
from dateparser.search import search_dates
from spacy.matcher import PhraseMatcher

from fieldnotes.reader import read
from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.phrases import expand
from fieldnotes.records import Note
from fieldnotes.roster import load_roster

LABELLED = Path(__file__).parents[1] / "labelled"
ROSTER = LABELLED / "quillfeather.toml"
HOSTILE = {
    "one word": "strips ",
    "numbers": "12 ",
    "numbers said": "twenty three ",
    "colonies": "12, 14 and ",
    "ranges": "3-9, ",
    "counts": "12 had 3 mites ",
    "corrections": "no wait ",
    "corrected counts": "12 had 3 no wait 4 ",
    "same again": "same for 12 ",
    "pronouns": "both of them need those pulled ",
    "headings": "Millpond\n",
    "lines": "\n",
    "questions": "did you? ",
    "if": "if 9 is over two we treat ",
    "planned": "need to pull the strips friday ",
    "the rest": "the rest are calm ",
    "yards": "millpond larkfield ",
    "dates": "monday june 3 6/3 ",
    "inspections": "12 queen seen eggs 13 hot ",
    "treatments": "two amitraz strips in 12 each ",
    "typos": "stirps frams quen ",
    "no blanks": "a",
    "digits": "1",
    "emoji": "😳",
    "glued": "2nite ",
    "brackets": "((((",
    "quotes": "> ",
    "heads": "Marit 14:02\n12: 5\n",
    "brackets of heads": "[06/10/26, 14:02] ",
    "tables": "12: 5\n",
}


def varied_notes(count: int) -> list[Note]:
    """Notes made of the labelled ones, no two alike: every number in them is another."""
    chance = random.Random(1)
    lines = [json.loads(line) for path in sorted(LABELLED.glob("*_[ab].jsonl")) for line in path.open(encoding="utf-8")]
    notes = []
    for n in range(count):
        line = lines[n % len(lines)]
        text = re.sub(r"(?<![\d:/-])\d\d?(?![\d:/-])", lambda m: str(chance.randrange(1, 64)), line["text"])
        notes.append(Note(id=str(n), text=text, received=line["received"], by=line["by"]))
    return notes


def fastest(works: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    """Seconds of processor time of the fastest of the rounds, by name of the work; they take turns."""
    best = dict.fromkeys(works, float("inf"))
    for _ in range(rounds):
        for name, work in works.items():
            began = time.process_time()
            work()
            best[name] = min(best[name], time.process_time() - began)
    return best


def reading_ratios(rounds: int) -> None:
    roster = load_roster(ROSTER)
    notes = varied_notes(300)
    blank = spacy.blank("en")
    matcher = PhraseMatcher(blank.vocab, attr="LOWER")
    for rule in grammar().rules:
        phrases = [p for template in rule.templates for _, p in zip(range(30), expand(template), strict=False)]
        matcher.add(rule.name, [blank.make_doc(phrase) for phrase in phrases if "{" not in phrase])
    for note in notes:
        read(note, roster)

    def read_all() -> None:
        for note in notes:
            read(note, roster)

    def match_all() -> None:
        for note in notes:
            matcher(blank.make_doc(note.text))

    def dates_of_some() -> None:
        for note in notes[::10]:
            search_dates(note.text, languages=["en"])

    for work in (match_all, dates_of_some):
        work()
    took = fastest({"read": read_all, "match": match_all, "dates": dates_of_some}, rounds)
    reading, matching, dating = took["read"], took["match"], took["dates"] * 10
    size = sum(len(note.text) for note in notes)
    print(f"reading {len(notes)} notes ({size} characters): {1000 * reading / len(notes):.2f} ms a note")
    print(f"  {reading / dating:8.3f} times dateparser.search.search_dates (aim: below 1)")
    print(f"  {reading / matching:8.2f} times blank tokenisation and one PhraseMatcher pass (aim: at most 15)")


def growth() -> None:
    roster = load_roster(ROSTER)
    whole = " ".join(note.text for note in varied_notes(6000))
    lines = "\n".join(note.text for note in varied_notes(6000))
    kinds = {"notes in one line": whole, "notes in lines": lines} | {
        name: unit * (1_000_000 // len(unit) + 1) for name, unit in HOSTILE.items()
    }
    print("time for each MB, at 125 kB and at 1 MB (linear growth: the ratio stays near 1)")
    for name, text in kinds.items():
        each = []
        for size in (125_000, 1_000_000):
            note = Note(text=text[:size], received="2026-06-10T12:00", by="Dov")
            began = time.process_time()
            read(note, roster)
            each.append((time.process_time() - began) * 1_000_000 / size)
        print(f"  {name:20} {each[0]:8.2f} s {each[1]:8.2f} s   ratio {each[1] / each[0]:.2f}", flush=True)


def start_ratio(rounds: int) -> None:
    with tempfile.TemporaryDirectory() as home:
        note = Path(home) / "note.txt"
        note.write_text(
            "millpond okay twelve had three mites thirteen none pulled the strips from 14", encoding="utf-8"
        )
        env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"} | {"FIELDNOTES_HOME": home}
        commands = {
            "blank": [sys.executable, "-c", "import spacy; spacy.blank('en')"],
            "read": [sys.executable, "-m", "fieldnotes", "read", "--roster", str(ROSTER), str(note)],
        }
        best = dict.fromkeys(commands, float("inf"))
        for _ in range(rounds * 3):
            for name, command in commands.items():
                began = sum(os.times()[2:4])
                subprocess.run(command, env=env, check=True, capture_output=True)
                best[name] = min(best[name], sum(os.times()[2:4]) - began)
    print(f"`fieldnotes read` of one short note: {best['read']:.3f} s")
    print(f"  {best['read'] / best['blank']:8.2f} times importing spaCy and a blank pipeline (aim: at most 1.5)")


def main() -> None:
    if sys.argv[1:] == ["growth"]:
        growth()
        return
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    reading_ratios(rounds)
    start_ratio(rounds)
    growth()


if __name__ == "__main__":
    main()
