"""Texts that show real output: the demo's, and the sessions in README.md. Tests hold them against what comes out.

After a change that is meant to change them:

    python tests/cli/documents.py        # writes them anew
    git diff README.md tests/cli         # read what changed before you commit it
"""

import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
DEMO = Path(__file__).parent / "expected" / "demo.txt"
BLOCK = re.compile(r"^```console\n(.*?)^```$", re.M | re.S)
"""A session: lines that begin with "$ " are typed, those below each are what it prints."""


def run(command: str, folder: Path) -> str:
    """What a shell command prints, on both streams; `fieldnotes` is the one of this Python."""
    env = os.environ | {
        "COLUMNS": "100",
        "PYTHONUTF8": "1",
        "PATH": f"{Path(sys.executable).parent}:{os.environ['PATH']}",
    }
    env.pop("FIELDNOTES_HOME", None)
    done = subprocess.run(
        ["bash", "-c", command], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, cwd=folder, env=env, check=False
    )
    return done.stdout.decode()


def sessions(text: str) -> Iterator[tuple[str, str]]:
    """(block as it stands, block as it should be) for each session of a document, run in one folder in order."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "sample_notes").symlink_to(ROOT / "sample_notes")
        for block in BLOCK.finditer(text):
            commands = [line[2:] for line in block[1].splitlines() if line.startswith("$ ")]
            fresh = "\n".join(f"$ {command}\n{run(command, Path(folder))}" for command in commands)
            yield block[1], fresh


def demo() -> str:
    """What the demo prints."""
    return run("fieldnotes demo", ROOT)


def main() -> None:
    DEMO.parent.mkdir(exist_ok=True)
    DEMO.write_text(demo(), encoding="utf-8")
    text = README.read_text(encoding="utf-8")
    for old, fresh in sessions(text):
        text = text.replace(old, fresh, 1)
    README.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
