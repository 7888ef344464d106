"""`fieldnotes morning` starts fast: it loads neither the reader nor what the reader needs."""

import json
import subprocess
import sys

import pytest

LOADED = """
import json, sys
from fieldnotes.cli import app
try:
    app(["morning", "--on", "2026-06-02", *sys.argv[1:]])
finally:
    print(json.dumps(sorted(sys.modules)), file=sys.stderr)
"""


@pytest.mark.parametrize("more", [[], ["--json"]])
def test_it_does_not_load_the_reader(outfit, more):
    outfit.ok("take", "--on", "2026-06-01", stdin="put greenies in 15 at the quarry. hive 77 had 3 mites")
    done = subprocess.run([sys.executable, "-c", LOADED, *more], env=outfit.env, capture_output=True, check=True)
    loaded = set(json.loads(done.stderr))
    assert not loaded & {"spacy", "dateparser", "fieldnotes.reader", "wordfreq", "sqlite_utils", "rapidfuzz"}
    assert not loaded & {"icalendar", "email.policy", "fieldnotes.commands.faces", "fieldnotes.digest.page"}
    assert done.stdout


def test_json_has_the_shape_of_the_contract(outfit):
    outfit.ok("take", "--on", "2026-06-01", "--by", "Ann", stdin="put greenies in 15 at the quarry")
    data = json.loads(outfit.ok("morning", "--on", "2026-08-01", "--json"))
    assert data["day"] == "2026-08-01"
    item = next(item for item in data["items"] if item["what"] == "take_out")
    assert item["section"] == "overdue"
    assert item["yard"] == "Quarry"
    assert item["colonies"] == ["15"]
    assert item["because"]["records"]


def test_the_order_of_taking_does_not_matter(outfit, tmp_path):
    notes = [
        {"text": "put greenies in 12 and 15 at the quarry", "received": "2026-06-01T08:00", "by": "Ann"},
        {"text": "pulled the greenies from 12", "received": "2026-07-20T08:00", "by": "Ann"},
        {"text": "alcohol wash at quarry 12 had 3 mites", "received": "2026-05-30T08:00", "by": "Bo"},
    ]
    digests = set()
    for turn in range(3):
        home = type(outfit)(tmp_path / f"home {turn}")
        home.ok("setup", "--from", tmp_path / "roster.toml")
        home.ok("take", "--jsonl", stdin="\n".join(map(json.dumps, notes[turn:] + notes[:turn])))
        digests.add(home.ok("morning", "--on", "2026-08-10", "--json"))
    assert len(digests) == 1
