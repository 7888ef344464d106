"""How long `fieldnotes morning` takes, as ratios to starting Python and to importing its libraries.

    python tests/bench/morning_start.py

Each command is run in turn, several rounds; the fastest round of each counts.
"""

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROUNDS = 15
SAMPLES = Path(__file__).parents[2] / "sample_notes"


def main() -> None:
    with tempfile.TemporaryDirectory() as home:
        env = os.environ | {"FIELDNOTES_HOME": home}
        for command in (
            ["setup", "--from", SAMPLES / "roster.toml"],
            ["take", "--jsonl", SAMPLES / "notes.jsonl"],
        ):
            subprocess.run([sys.executable, "-m", "fieldnotes", *command], env=env, check=True, capture_output=True)
        commands = {
            "python -c pass": ["-c", "pass"],
            "import typer, sqlite_utils, pydantic": ["-c", "import typer, sqlite_utils, pydantic"],
            "fieldnotes morning (39 notes)": ["-m", "fieldnotes", "morning", "--on", "2026-09-09"],
        }
        best = dict.fromkeys(commands, float("inf"))
        for _ in range(ROUNDS):
            for name, arguments in commands.items():
                began = time.perf_counter()
                subprocess.run([sys.executable, *arguments], env=env, check=True, capture_output=True)
                best[name] = min(best[name], time.perf_counter() - began)
    *bases, (name, seconds) = best.items()
    print(f"{name}: {seconds:.3f} s")
    for base, its in bases:
        print(f"  {seconds / its:6.2f} times {base} ({its:.3f} s)")


if __name__ == "__main__":
    main()
