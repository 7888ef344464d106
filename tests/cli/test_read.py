"""`fieldnotes read`: what a note says, storing nothing."""

import json
import subprocess
import sys

NOTE = "alcohol wash at quarry 12 had 3 mites and 14 had none"


def test_a_table_for_people(outfit):
    out = outfit.ok("read", "--on", "2026-06-01", "--by", "Ann", stdin=NOTE)
    assert "Note of Mon 1 Jun 2026, Ann" in out
    assert "12 at Quarry" in out
    assert "alcohol wash, no mites" in out
    assert outfit.ok("history").strip() == "The book says nothing of None." or "took" not in outfit.ok("history")


def test_json_has_the_shape_of_the_contract(outfit):
    reading = json.loads(outfit.ok("read", "--json", "--on", "2026-06-01", "--by", "Ann", stdin=NOTE))
    assert set(reading) == {"id", "records", "leftovers", "questions"}
    first, second = reading["records"]
    assert (first["kind"], first["colonies"], first["mites"], second["mites"]) == ("mite_check", ["12"], 3, 0)
    assert all(NOTE[a:b] for a, b in first["spans"])
    assert "why" not in first
    told = json.loads(outfit.ok("read", "--json", "--why", "--on", "2026-06-01", stdin=NOTE))
    assert set(told["records"][0]["why"]) >= {"mites", "colonies"}


def test_it_needs_no_home_and_no_roster(bare, tmp_path):
    (tmp_path / "note.txt").write_text("12 had 3 mites")
    assert "3 mites" in bare.ok("read", tmp_path / "note.txt")
    assert not bare.home.exists()


def test_many_notes_a_reading_a_line_in_order(outfit):
    lines = [
        {"id": f"n{n}", "text": f"{n} had {n} mites", "received": f"2026-06-0{n}T08:00", "by": "Ann", "mood": "good"}
        for n in range(2, 7)
    ]
    out = outfit.ok("read", "--jsonl", stdin="\n".join(map(json.dumps, lines)))
    readings = [json.loads(line) for line in out.splitlines()]
    assert [r["id"] for r in readings] == [line["id"] for line in lines]
    assert [r["records"][0]["mites"] for r in readings] == [2, 3, 4, 5, 6]
    assert [r["records"][0]["on"] for r in readings] == [line["received"][:10] for line in lines]


def test_several_processes_give_the_same_in_the_same_order(outfit, tmp_path):
    lines = [json.dumps({"id": f"n{n}", "text": f"{n % 24 + 1} had {n % 9} mites"}) for n in range(200)]
    lines[50] = "{"
    (tmp_path / "notes.jsonl").write_text("\n".join(lines))
    one, three = (outfit.run("read", "--jsonl", tmp_path / "notes.jsonl", "--jobs", jobs) for jobs in (1, 3))
    assert one.stdout == three.stdout
    assert one.stderr == three.stderr
    assert one.stdout.count("\n") == 199


def test_bad_lines_are_named_and_the_others_read(outfit):
    lines = ['{"id": "a", "text": "12 had 3 mites"}', "{", '{"id": "b"}', '{"id": "c", "text": "14 had 4 mites"}']
    done = outfit.run("read", "--jsonl", stdin="\n".join(lines))
    assert done.returncode == 2
    assert [json.loads(line)["id"] for line in done.stdout.splitlines()] == ["a", "c"]
    assert "Line 2 of what came in: it is not JSON." in done.stderr
    assert 'Line 3 of what came in: it has no "text"' in done.stderr
    assert "2 lines were not read" in done.stderr


def test_each_reading_is_there_as_soon_as_its_line_is(outfit):
    process = subprocess.Popen(
        [sys.executable, "-m", "fieldnotes", "read", "--jsonl"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=outfit.env, text=True,
    )  # fmt: skip
    assert process.stdin
    assert process.stdout
    for n in range(3):
        process.stdin.write(json.dumps({"id": f"n{n}", "text": "12 had 3 mites"}) + "\n")
        process.stdin.flush()
        assert json.loads(process.stdout.readline())["id"] == f"n{n}"
    process.stdin.close()
    assert process.wait(timeout=30) == 0


def test_odd_text_goes_through(outfit):
    text = "12 had 3 mites \ud83d \u0000 \u202e\U0001f41d e\u0301"
    out = outfit.ok("read", "--jsonl", stdin=json.dumps({"id": "\ud83d", "text": text}))
    assert json.loads(out)["id"] == "\ud83d"
    assert "3 mites" in outfit.ok("read", stdin="12 had 3 mites, Zoë".encode("cp1252"))
    assert "3 mites" in outfit.ok("read", stdin="12 had 3 mites".encode("utf-16"))
