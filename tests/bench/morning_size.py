"""`fieldnotes morning` over a large book against a small one, as ratios, with peak memory.

    python tests/bench/morning_size.py [RECORDS]

The large book tells of 20 years of an outfit with 2,000 colonies in 50 yards; the small one of its last weeks, with the
same things open. Rows go in by bulk, past the reader. The first morning on a large book settles what is over and is
slow; it is given apart.
"""

import json
import os
import sqlite3
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from contextlib import closing
from datetime import date, timedelta
from multiprocessing import get_context
from pathlib import Path

from fieldnotes.book import create_book
from fieldnotes.book.ids import content_hash, message_key, note_id, record_id

YARDS, COLONIES, YEARS = 50, 40, 20
DAY = date(2025, 9, 9)
AT = "2025-09-09T08:00:00+00:00"
ROUNDS = 5


def roster() -> str:
    """A roster of the outfit."""
    yards = [
        f'[[yard]]\nname = "Yard {n}"\ncolonies = ["{n * COLONIES + 1}-{(n + 1) * COLONIES}"]\n' for n in range(YARDS)
    ]
    return 'outfit = "Many Yards"\n' + "\n".join(yards)


def season(year: int, each: int):
    """(day, kind, slots) of one year; `each` looks into every colony."""
    for n in range(YARDS):
        yard = f"Yard {n}"
        ids = [str(n * COLONIES + k + 1) for k in range(COLONIES)]
        strips = {"yard": yard, "every_colony": True, "agent": "amitraz", "form": "strip"}
        for month, mites in ((4, 2), (7, 8)):
            for cid in ids[:8]:
                wash = {"yard": yard, "colonies": [cid], "method": "alcohol_wash", "mites": mites, "bees": 300}
                yield date(year, month, 2), "mite_check", wash
        yield date(year, 5, 10), "gear", {"yard": yard, "every_colony": True, "item": "super", "step": "on", "count": 1}
        yield date(year, 7, 5), "gear", {"yard": yard, "every_colony": True, "item": "super", "step": "off"}
        yield date(year, 7, 6), "treatment", strips | {"step": "in", "amount": 2, "unit": "strip"}
        if year < DAY.year or n % 10:
            yield date(year, 8, 20), "treatment", strips | {"step": "out"}
        for cid in ids[:8]:
            wash = {"yard": yard, "colonies": [cid], "method": "alcohol_wash", "mites": 0, "bees": 300}
            yield date(year, 9, 1), "mite_check", wash
        for k in range(each):
            for cid in ids:
                seen = {"yard": yard, "colonies": [cid], "queen": "seen", "brood_frames": 5 + k % 4}
                yield date(year, 4, 1) + timedelta(days=k * 130 // max(each, 1)), "inspection", seen


def fill(home: Path, records: int, first_year: int) -> int:
    """Make a home with about this many records, one a note; gives the number."""
    home.mkdir()
    (home / "roster.toml").write_text(roster())
    years = DAY.year - first_year + 1
    each = max(0, round((records / years - YARDS * 28) / (YARDS * COLONIES)))
    book = create_book(home / "book.db", AT)
    book.db.execute("BEGIN")
    number = 0
    for year in range(first_year, DAY.year + 1):
        rows = [row(number + n, *told) for n, told in enumerate(season(year, each), 1)]
        for n, table in enumerate(TABLES):
            book.db.executemany(f"INSERT INTO {table} VALUES ({marks(table)})", (r[n] for r in rows))
        number += len(rows)
    book.rebuild()
    book.db.execute("COMMIT")
    book.close()
    return number


TABLES = {
    "notes": 10,
    "entries (seq, batch, at, act, note_id)": 5,
    "readings": 5,
    "messages": 7,
    "records": 7,
}
"""The tables that a note goes into, with the number of columns."""


def marks(table: str) -> str:
    return ", ".join("?" * TABLES[table])


def row(number: int, day: date, kind: str, slots: dict) -> tuple:
    """What goes into each of the tables for one record, said in a note of its own."""
    text, received = f"{kind} {number}", f"{day.isoformat()}T08:00"
    digest = content_hash(text.encode())
    name, key = note_id(digest, "Ann", received), message_key(text, "Ann", received)
    return (
        (number, name, digest, text.encode(), "utf-8", received, received, "Ann", "-", ""),
        (number, number, f"{day.isoformat()}T08:00:00+00:00", "take", name),
        (number, name, number, "bulk", "[]"),
        (number, 0, key, 0, len(text), received, "Ann"),
        (number, 0, record_id(key, kind, [(0, len(text))], 0), 0, kind, json.dumps(slots), f"[[0,{len(text)}]]"),
    )


def counting(home: Path) -> float:
    """Seconds of a plain count of the records, the best of a few."""
    with closing(sqlite3.connect(home / "book.db")) as db:
        best = float("inf")
        for _ in range(ROUNDS):
            began = time.perf_counter()
            db.execute("SELECT count(*) FROM current_records").fetchone()
            best = min(best, time.perf_counter() - began)
    return best


def morning(home: Path) -> tuple[float, float, float]:
    """Seconds of processor time, seconds by the clock, and peak memory (MB) of one morning, in a process of its own."""
    began = time.perf_counter()
    command = [sys.executable, "-m", "fieldnotes", "morning", "--home", str(home), "--on", DAY.isoformat(), "--json"]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, env=os.environ)
    _, status, used = os.wait4(process.pid, 0)
    assert status == 0
    return used.ru_utime + used.ru_stime, time.perf_counter() - began, used.ru_maxrss / 1024


def main() -> None:
    records = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    with tempfile.TemporaryDirectory() as folder:
        results = {}
        for name, count, year in (("small", 10_000, DAY.year), ("large", records, DAY.year - YEARS + 1)):
            home = Path(folder) / name
            # In a process of its own: what this one holds would count as the memory of those that it starts.
            with ProcessPoolExecutor(1, get_context("spawn")) as apart:
                held = apart.submit(fill, home, count, year).result()
            _, first, memory = morning(home)
            best = min(morning(home) for _ in range(ROUNDS))
            results[name] = best[0]
            print(f"{name}: {held} records; first morning {first:.2f} s ({memory:.0f} MB)")
            print(f"  then {best[0]:.3f} s of processor, {best[1]:.3f} s by the clock ({best[2]:.0f} MB)")
            print(f"  select count(*) {counting(home):.4f} s")
        print(f"  large takes {results['large'] / results['small']:.2f} times the processor time of small")


if __name__ == "__main__":
    main()
