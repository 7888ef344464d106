"""Files as no phone should write them, taken and dropped by real processes: kept to the byte, or named."""

import json
import os

import pytest

BIG = 50_000_000
WORDS = "wash at quarry, 12 had 3 mites"
TAKEN = {
    "utf-16.txt": WORDS.encode("utf-16"),
    "utf-16-be without a mark.txt": WORDS.encode("utf-16-be"),
    "latin-1.txt": (WORDS + ", café").encode("latin-1"),
    "right to left.txt": ("شهد العسل \u202eדבש\u202c " + WORDS).encode(),
    "a\nname\r\nof lines.txt": WORDS.encode() + b", one",
    "\u202ename.txt": WORDS.encode() + b", two",
    os.fsdecode(b"\xff\xfe.txt"): WORDS.encode() + b", three",
    "-": WORDS.encode() + b", four",
    "--by.txt": WORDS.encode() + b", five",
    "long line.txt": (WORDS + " and so on" * 10_000).encode(),
    "many lines.txt": (WORDS + "\n" * 50_000 + "14 had 4").encode(),
    "zwj.txt": "\ufeff12 had 3 mites \u200d\U0001f41d\U0001f3fd\u0301".encode(),
}
NAMED = {
    "nothing but zeros.txt": b"\0" * 100,
    "a zero in it.txt": b"12 had\x003 mites",
    "half a surrogate.txt": b"12 had 3 \xed\xa0\x80 mites, \x00",
    "utf-16 cut short.txt": WORDS.encode("utf-16")[:-1],
    "a picture.txt": b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR",
    "blank.txt": b" \n\t\r\n",
    "big.txt": b"12 had 3 mites. " * (BIG // 16),
    "big and one line.txt": b"a" * BIG,
    "big zeros.txt": b"\0" * BIG,
}


@pytest.fixture
def folder(bench):
    folder = bench.folder / "odd"
    folder.mkdir()
    for name, data in (TAKEN | NAMED).items():
        try:
            (folder / name).write_bytes(data)
        except (OSError, UnicodeEncodeError):
            continue  # this system cannot have a file of such a name
    return folder


def kept(book):
    return sorted(body for (body,) in book.db.execute("SELECT body FROM notes"))


def test_odd_files_are_taken_to_the_byte_or_named(bench, folder):
    home = bench.home("home")
    there = sorted(folder.iterdir())
    run = bench.start(home, "take", "--on", "2026-06-01", *there)
    assert run.wait() == 2
    assert "Traceback" not in run.complained
    assert f"{len(NAMED)} could not be taken" in run.complained
    assert len(run.complained.splitlines()) == len(NAMED) + 1
    assert kept(bench.sound(home)) == sorted(data for name, data in TAKEN.items() if folder / name in there)


def test_odd_files_dropped_into_a_folder(bench, folder):
    home = bench.home("home")
    want = {path.name: path.read_bytes() for path in folder.iterdir()}
    bench.ok(home, "watch", folder, "--once", "--quiet", "0")
    taken = {path.name: path.read_bytes() for path in (folder / "taken").iterdir()}
    unread = {path.name: path.read_bytes() for path in (folder / "unread").iterdir()}
    assert set(taken) | {name for name in unread if not name.endswith(".why.txt")} == set(want)
    assert all(data == want[name] for name, data in taken.items())
    assert all(unread[name] == data and unread[f"{name}.why.txt"].strip() for name, data in NAMED.items())
    assert kept(bench.sound(home)) == sorted(taken.values())


def test_lines_of_json_that_hold_anything(bench):
    home = bench.home("home")
    texts = [
        "12 \ud800 had 3 mites",
        "13 \0 had 3 mites",
        "\udc00\ud800 14 had 3",
        "\u202e15 had 3 mites",
        "\x85",
        "16\u2028had 3",
    ]
    lines = [json.dumps({"text": text, "received": "2026-06-01T07:30", "by": "A\ud800\0"}) for text in texts]
    lines += ["[" * 50_000, json.dumps({"text": "x" * BIG}), '{"text": "17 had 3", "received": "9999-12-31T23:59"}',
              '{"text": "[6/1/26, 8:05] Ann: 18 had 3\\n[6/1/26, 8:06] Bo: ok", "received": "9999-12-31T23:59"}',
              '{"text": "[6/1/26, 8:05] Ann: 18 had 3\\n[6/1/26, 8:06] Bo: ok", "received": "0001-01-01T00:00"}',
              ]  # fmt: skip
    (bench.folder / "lines.jsonl").write_text("\n".join(lines))
    run = bench.start(home, "take", "--jsonl", bench.folder / "lines.jsonl")
    assert run.wait() == 2
    assert "Traceback" not in run.complained
    assert "3 could not be taken" in run.complained, run.complained
    bodies = kept(bench.sound(home))
    assert {text.encode("utf-8", "surrogatepass") for text in texts if text.strip()} <= set(bodies)
