"""Guided fuzzing of intake and reader: bytes in, no crash and true spans out.

    pip install atheris
    python tests/hard/fuzz_atheris.py -runs=100000 -timeout=20

It begins with the sample notes, one by one and as pasted threads. Not run with the tests; the inputs that it finds
become tests.
"""

import json
import sys
import tempfile
from datetime import datetime
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["fieldnotes"]):
    import fieldnotes.reader.pipeline  # noqa: F401
    from fieldnotes.commands.reading import messages_of, read_arrival
    from fieldnotes.datafiles import data_folder
    from fieldnotes.errors import FieldnotesError
    from fieldnotes.intake.files import Arrival, line_arrivals, plain_arrival
    from fieldnotes.roster import load_roster

ROSTER = load_roster(data_folder("sample_notes") / "roster.toml")
NOW = datetime(2026, 6, 1, 7, 30)


def one(data: bytes) -> None:
    try:
        items = [plain_arrival(data, "x", None, NOW, None)]
    except FieldnotesError:
        items = list(line_arrivals(data.splitlines(), "x", None, NOW, None))
    for item in items:
        if isinstance(item, Arrival):
            reading = read_arrival(item, ROSTER)
            assert messages_of(item, ROSTER)
            for record in reading.records:
                assert all(0 <= a < b <= len(item.text) for a, b in record.spans)


def write_seeds(folder: Path) -> None:
    """The sample notes as files: each alone, and three at a time as a paste."""
    lines = (data_folder("sample_notes") / "notes.jsonl").read_text(encoding="utf-8").splitlines()
    notes = [json.loads(line) for line in lines]
    for number, note in enumerate(notes):
        (folder / f"{number}").write_text(note["text"], encoding="utf-8")
        some = enumerate(notes[number : number + 3], 1)
        thread = [f"[6/{n}/26, 8:{n:02d} AM] {one['by']}: {one['text']}" for n, one in some]
        (folder / f"thread {number}").write_text("\n".join(thread), encoding="utf-8")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as seeds:
        write_seeds(Path(seeds))
        atheris.Setup([sys.argv[0], "-max_len=2000", *sys.argv[1:], seeds], one)
        atheris.Fuzz()
