"""`find` over many notes, as a ratio to the bare full-text query of SQLite.

    python tests/bench/find_speed.py [NOTES]

The notes go in by bulk, past the reader; each has the words of several sample notes.
Fastest of several rounds in turns.
"""

import json
import random
import sys
import tempfile
import time
from pathlib import Path

from fieldnotes.book import create_book
from fieldnotes.book.search import find

SAMPLES = Path(__file__).parents[2] / "sample_notes"
QUERIES = ("deformed wings", "chalkbrood larkfield", "redtags orchard", "mites")
ROUNDS = 9
BARE = "SELECT rowid FROM note_words WHERE note_words MATCH ? ORDER BY rank LIMIT ?"
LIMIT = 20


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    chance = random.Random(1)
    words = " ".join(
        json.loads(line)["text"] for line in (SAMPLES / "notes.jsonl").read_text(encoding="utf-8").splitlines()
    ).split()
    words += ["chalkbrood"] * 2 + ["larkfield"] * 2
    with tempfile.TemporaryDirectory() as folder:
        book = create_book(Path(folder) / "book.db", "2026-06-01T08:00:00+00:00")
        book.db.execute("BEGIN")
        for n in range(count):
            text = " ".join(chance.choices(words, k=25))
            row = (n + 1, f"{n:016x}", "", text.encode(), "utf-8", "2026-06-01T07:30", str(n), "Ann", "-", "")
            book.db.execute("INSERT INTO notes VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", row)
            book.db.execute("INSERT INTO note_words (rowid, words, facts) VALUES (?, ?, '')", (n + 1, text))
        book.db.execute("COMMIT")
        print(f"{count} notes")
        for query in QUERIES:
            bare = " ".join(f'"{word}"' for word in query.split())
            ours, its = fastest(
                lambda query=query: find(book, query, LIMIT),
                lambda bare=bare: book.db.execute(BARE, (bare, LIMIT)).fetchall(),
            )
            print(f"  {query}: find {ours * 1000:.1f} ms, {ours / its:.2f} times the bare query ({its * 1000:.1f} ms)")


def fastest(*actions) -> list[float]:
    """Seconds of the fastest of several rounds of each of these, which take turns."""
    times = [[] for _ in actions]
    for _ in range(ROUNDS):
        for action, took in zip(actions, times, strict=True):
            began = time.perf_counter()
            action()
            took.append(time.perf_counter() - began)
    return [min(took) for took in times]


if __name__ == "__main__":
    main()
