"""Guided fuzzing of intake and reader: bytes in, no crash and true spans out.

    pip install atheris
    python tests/hard/fuzz_atheris.py -runs=100000

Not run with the tests; the inputs that it finds become tests.
"""

import sys
from datetime import datetime

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


if __name__ == "__main__":
    atheris.Setup(sys.argv, one)
    atheris.Fuzz()
