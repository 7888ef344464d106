"""A history as files: JSON Lines in one file; CSV or Parquet with a file a table.

How many rows there are is written last (the last line; the file `rows.json`), so that an export that was cut short on
its way, at the end of a line even, is known.
"""

from __future__ import annotations

import csv
import json
import shutil
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

from fieldnotes.book.exchange import MAY_LACK, TABLES, Row, rows_of
from fieldnotes.book.store import Book
from fieldnotes.errors import FieldnotesError

FORMATS = ("jsonl", "csv", "parquet")
END = "end"
COUNTS = "rows.json"
CHUNK = 10_000
"""Rows of a table held in memory at once."""


def write_history(book: Book, target: Path, form: str) -> None:
    """Write the history to a new file (JSON Lines) or into a new folder (CSV, Parquet), all as of one moment.

    Raises:
        FieldnotesError: something is there already, the disk refuses, or Parquet is not installed.
    """
    if target.exists():
        raise FieldnotesError(f"There is something at {target} already; an export never overwrites. Name another.")
    draft = target.with_name(f".{target.name}.new")
    book.db.execute("BEGIN")
    try:
        _remove(draft)
        if form == "jsonl":
            target.parent.mkdir(parents=True, exist_ok=True)
            _write_lines(book, draft)
        else:
            write = {"csv": _write_csv, "parquet": _write_parquet}[form]
            draft.mkdir(parents=True)
            counts: Counter[str] = Counter()
            for table in TABLES:
                write(draft / f"{table}.{form}", table, _counted(table, rows_of(book, table), counts))
            (draft / COUNTS).write_text(json.dumps(_whole(counts)) + "\n", encoding="utf-8")
        draft.rename(target)  # whole or not at all
    except OSError as error:
        raise FieldnotesError(f"The export {target} cannot be written: {error.strerror or error}.") from None
    finally:
        book.db.execute("ROLLBACK")
        _remove(draft)


def _counted(table: str, rows: Iterable[Row], counts: Counter[str]) -> Iterator[Row]:
    for row in rows:
        counts[table] += 1
        yield row


def _whole(counts: Counter[str]) -> dict[str, int]:
    return {table: counts[table] for table in TABLES}


def _remove(draft: Path) -> None:
    if draft.is_dir():
        shutil.rmtree(draft)
    else:
        draft.unlink(missing_ok=True)


def read_history(source: Path) -> Iterator[tuple[str, Row]]:
    """The (table, row) pairs of what `write_history` wrote.

    Raises:
        FieldnotesError: no such file or folder, or not one of ours; with the line.
    """
    counts: Counter[str] = Counter()
    if source.is_file():
        told = None
        for table, row in _read_lines(source):
            if table == END:
                told = row
                continue
            counts[table] += 1
            yield table, row
    else:
        form = next((form for form in ("csv", "parquet") if (source / f"notes.{form}").is_file()), None)
        if form is None:
            raise FieldnotesError(
                f"There is no export at {source}: neither a JSON Lines file nor a folder with tables."
            )
        read: Callable[[Path, str], Iterable[Row]] = {"csv": _read_csv, "parquet": _read_parquet}[form]
        for table in TABLES:
            for row in _counted(table, read(source / f"{table}.{form}", table), counts):
                yield table, row
        told = _told(source / COUNTS)
    if told != _whole(counts):
        raise FieldnotesError(
            f"The export {source} is not whole: it was cut short or changed on its way. Nothing was imported; "
            "copy it again, or export once more."
        )


def _told(path: Path) -> Any:
    """What an export says of its rows; None where that is missing."""
    try:
        return json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None


def _write_lines(book: Book, target: Path) -> None:
    with target.open("w", encoding="utf-8", newline="\n") as file:
        counts: Counter[str] = Counter()
        for table in TABLES:
            for row in _counted(table, rows_of(book, table), counts):
                file.write(json.dumps({"table": table, **row}, ensure_ascii=False) + "\n")
        file.write(json.dumps({"table": END, **_whole(counts)}) + "\n")


def _read_lines(source: Path) -> Iterator[tuple[str, Row]]:
    with source.open("rb") as file:
        for number, line in enumerate(file, 1):
            try:
                row = json.loads(line)
                table = row.pop("table")
                if table not in TABLES and table != END:
                    raise ValueError(table)
            except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
                raise FieldnotesError(
                    f"{source}, line {number}, is not a row of a book. Nothing was imported."
                ) from None
            yield table, row


def _write_csv(path: Path, table: str, rows: Iterable[Row]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, TABLES[table], quoting=csv.QUOTE_MINIMAL)
        writer.writeheader()
        writer.writerows(rows)


def _read_csv(path: Path, table: str) -> Iterator[Row]:
    csv.field_size_limit(sys.maxsize)
    try:
        with path.open(encoding="utf-8", newline="") as file:
            reader = csv.DictReader(file, strict=True)
            for row in reader:
                try:
                    yield {
                        column: _typed(column, TABLES[table].get(column, str), value) for column, value in row.items()
                    }
                except (ValueError, KeyError):
                    raise FieldnotesError(f"{path}, line {reader.line_num}, is not a row of {table}.") from None
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise FieldnotesError(f"{path} cannot be read: {error}.") from None


def _typed(column: str, kind: type, value: str) -> str | int | None:
    if value == "" and column in MAY_LACK:
        return None
    return int(value) if kind is int else value


def _write_parquet(path: Path, table: str, rows: Iterable[Row]) -> None:
    pa, pq = _parquet()
    schema = pa.schema([(name, pa.int64() if kind is int else pa.string()) for name, kind in TABLES[table].items()])
    with pq.ParquetWriter(path, schema) as writer:
        chunk: list[Row] = []
        for row in rows:
            chunk.append(row)
            if len(chunk) == CHUNK:
                writer.write_table(pa.Table.from_pylist(chunk, schema))
                chunk = []
        writer.write_table(pa.Table.from_pylist(chunk, schema))


def _read_parquet(path: Path, table: str) -> Iterator[Row]:
    pa, pq = _parquet()
    try:
        with pq.ParquetFile(path) as file:
            for batch in file.iter_batches(CHUNK):
                yield from batch.to_pylist()
    except (OSError, pa.ArrowException) as error:
        raise FieldnotesError(f"{path} cannot be read: {error}.") from None


def _parquet() -> tuple[Any, Any]:
    try:
        import pyarrow
        import pyarrow.parquet
    except ImportError:
        raise FieldnotesError('Parquet needs one more package: pip install "fieldnotes[parquet]".') from None
    return pyarrow, pyarrow.parquet
