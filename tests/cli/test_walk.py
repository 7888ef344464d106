"""The whole walk as a user takes it: notes in, digest out, and everything that can be done to the book between."""

import json
import os
import re
import sqlite3
import time
from contextlib import closing
from pathlib import Path

import pytest
from processes import start

from fieldnotes.book import Book, opening
from fieldnotes.roster import load_roster

NOTE = "alcohol wash at quarry 12 had 3 mites and 14 had none. put greenies in 15, two each"
DAY = ("--on", "2026-06-01")


def ids(out):
    """The record ids that `take` printed, in order."""
    return re.findall(r"^  ([0-9a-f]{6})  ", out, re.M)


def test_take_says_what_was_understood_and_morning_what_is_due(outfit):
    out = outfit.ok("take", *DAY, "--by", "Ann", stdin=NOTE + ", blah")
    assert "12 at Quarry: alcohol wash, 3 mites\n" in out
    assert "15 at Quarry: greenies (amitraz strip) in" in out
    assert "not read: blah" in out
    out = outfit.ok("morning", "--on", "2026-08-20")
    assert "OVERDUE" in out
    assert "Truck red" in out
    assert "amitraz strips out" in out
    assert out == outfit.ok("morning", "--on", "2026-08-20")


def test_the_same_note_is_taken_once_and_said_so(outfit, tmp_path):
    (tmp_path / "note.txt").write_text(NOTE)
    outfit.ok("take", tmp_path / "note.txt")
    assert "in the book already" in outfit.ok("take", tmp_path / "note.txt")
    assert len(outfit.ok("history").splitlines()) == 1


def test_many_notes_with_a_bad_one_among_them(outfit, tmp_path):
    lines = ['{"text": "12 had 3 mites"}', "{", '{"text": "14 had 4 mites"}']
    (tmp_path / "notes.jsonl").write_text("\n".join(lines))
    done = outfit.run("take", "--jsonl", tmp_path / "notes.jsonl")
    assert done.returncode == 2
    assert "2 taken." in done.stdout
    assert "Line 2 of" in done.stderr
    assert "in the book already" in outfit.run("take", "--jsonl", tmp_path / "notes.jsonl").stdout


def test_a_note_that_stands_twice_in_a_file_is_taken_once(outfit, tmp_path):
    line = '{"text": "12 had 3 mites", "received": "2026-06-01T07:30"}\n'
    (tmp_path / "notes.jsonl").write_text(line * 3)
    out = outfit.ok("take", "--jsonl", tmp_path / "notes.jsonl")
    assert out.count("in the book already, not taken again") == 2
    assert "1 taken, 2 in the book already." in out


def test_of_several_files_the_good_ones_are_taken(outfit, tmp_path):
    (tmp_path / "a.txt").write_text("12 had 3 mites")
    (tmp_path / "b.txt").write_bytes(b"\x89PNG\x00\x00\x00")
    (tmp_path / "c\nd.txt").write_text("14 had 4 mites")
    done = outfit.run("take", *(tmp_path / name for name in ("a.txt", "none.txt", "b.txt", "c\nd.txt")))
    assert done.returncode == 2
    assert "2 taken." in done.stdout
    assert "none.txt" in done.stderr
    assert "b.txt is not text" in done.stderr
    assert len(outfit.ok("find", "mites").splitlines()) == 2


def test_an_overlapping_paste_brings_only_what_is_new(outfit):
    said = ["Ann, 6/1 8:05 am: 12 had 3 mites", "Bo, 6/1 9:10 am: 14 had 4 mites", "Ann, 6/2 7:00 am: 15 had 5 mites",
            "Bo, 6/2 7:30 am: 16 had 6 mites"]  # fmt: skip
    parts = ("\n".join(part) for part in (said[:3], said[1:], said))
    first, second, third = (outfit.ok("take", "--on", "2026-06-02", stdin=part) for part in parts)
    assert "already" not in first
    assert "2 of its 3 messages were in the book already, and count once." in second
    assert second.count(" (in the book already)") == 2
    assert "4 of its 4 messages were in the book already" in third
    for colony in ("12", "14", "15", "16"):
        assert len(outfit.ok("history", colony).splitlines()) == 1
    assert "2 Jun 2026" in outfit.ok("history", "16")


def test_the_same_paste_is_the_same_note_on_any_day(outfit):
    paste = "Ann, 6/1 8:05 am: 12 had 3 mites\nBo, 6/1 9:10 am: 14 had 4 mites"
    assert "already" not in outfit.ok("take", "--on", "2026-06-02", stdin=paste)
    assert "in the book already, not taken again" in outfit.ok("take", "--on", "2026-06-03", stdin=paste)
    assert "in the book already, not taken again" in outfit.ok("take", "--on", "2026-06-03T09:00", stdin=paste)
    undated = "Ann, 8:05 am: 12 had 3 mites\nBo, 9:10 am: 14 had 4 mites"
    for day in ("2026-06-04", "2026-06-05"):
        assert "already" not in outfit.ok("take", "--on", day, stdin=undated)
    assert len(outfit.ok("history", "12").splitlines()) == 3


def test_a_message_from_two_phones_counts_once_and_one_at_another_time_twice(outfit):
    for second in ("05", "40"):
        line = {"text": "12 had 3 mites", "received": f"2026-06-01T08:00:{second}", "by": "Ann"}
        outfit.ok("take", "--jsonl", stdin=json.dumps(line))
    assert len(outfit.ok("history", "12").splitlines()) == 1
    other = json.dumps(line | {"text": "12 had  3 mites\n"})
    assert "This message was in the book already, and counts once." in outfit.ok("take", "--jsonl", stdin=other)
    assert len(outfit.ok("history", "12").splitlines()) == 1
    outfit.ok("take", "--jsonl", stdin=json.dumps(line | {"received": "2026-06-01T17:00"}))
    assert len(outfit.ok("history", "12").splitlines()) == 2


THREAD = "[6/1/26, 8:00 AM] {}: 12 had 3 mites\n[6/1/26, 8:05 AM] Bo: 14 had 4"


def test_a_message_that_two_phones_have_under_two_names_of_one_person_counts_once(outfit):
    roster = outfit.home / "roster.toml"
    plain = roster.read_text()
    roster.write_text(plain.replace('name = "Ann"', 'name = "Ann"\nalso = ["annie"]'))
    outfit.ok("take", stdin=THREAD.format("Ann"))
    assert "2 of its 2 messages were in the book already" in outfit.ok("take", stdin=THREAD.format("Annie"))
    outfit.ok("take", stdin=THREAD.format("Mum"))
    assert len(outfit.ok("history", "12").splitlines()) == 2
    roster.write_text(plain.replace('name = "Ann"', 'name = "Ann"\nalso = ["annie", "mum"]'))
    outfit.ok("reread", "--yes")
    assert len(outfit.ok("history", "12").splitlines()) == 1
    outfit.ok("check")


def test_what_was_mended_survives_when_dates_are_read_with_the_day_first(outfit):
    outfit.ok("take", "--on", "2026-07-01", stdin=THREAD.format("Ann"))
    twelve, fourteen = (outfit.ok("history", colony).split()[4] for colony in ("12", "14"))
    outfit.ok("fix", twelve, "--set", "mites=9")
    outfit.ok("fix", fourteen, "--reject")
    roster = outfit.home / "roster.toml"
    roster.write_text("day_first = true\n" + roster.read_text())
    outfit.ok("reread", "--yes")
    assert "9 mites" in outfit.ok("history", "12").splitlines()[0]
    assert all("(rejected)" in line for line in outfit.ok("history", "14").splitlines() if "mite check" in line)


def test_the_same_words_a_minute_apart_count_twice_and_are_pointed_out(outfit, tmp_path):
    first, other = (f"[6/1/26, 8:0{n} AM] Ann: 12 had 3 mites\n[6/1/26, 8:05 AM] Bo: ok" for n in (0, 1))
    assert "count twice" not in outfit.ok("take", stdin=first)
    out = outfit.ok("take", stdin=other)
    assert "The same words came at 08:00 too, and count twice." in out
    assert out.count("came at") == 1  # of "ok" nothing is said: it made no record
    assert len(outfit.ok("history", "12").splitlines()) == 2
    outfit.ok("fix", re.search(r"fieldnotes fix ([0-9a-f]+) --reject", out)[1], "--reject")
    assert len([line for line in outfit.ok("history", "12").splitlines() if "rejected" not in line.lower()]) == 1
    later = first.replace("8:00", "8:03")
    assert "count twice" not in outfit.ok("take", stdin=later)


def test_a_colony_not_in_the_roster_is_kept_and_asked_about(outfit):
    out = outfit.ok("take", *DAY, stdin="wash at quarry, hive 77 had 3 mites")
    assert "77 at Quarry: wash, 3 mites" in out
    assert "  ? Colony 77" in out
    assert "TO SETTLE" in outfit.ok("morning", "--on", "2026-06-02")
    outfit.ok("take", *DAY, stdin="looked at hive 77 at quarry, queen right")
    assert "Kept: 77 = new colony" in outfit.ok("settle", "--answer", f"{outfit.ok('settle', '--list')[:6]}=1")
    assert "There is nothing to settle" in outfit.ok("settle")
    assert load_roster(outfit.home / "roster.toml").yard[0].colonies == ["1-24", "77"]
    assert "answer" in outfit.ok("undo")
    assert "TO SETTLE" in outfit.ok("morning", "--on", "2026-06-02")
    assert load_roster(outfit.home / "roster.toml").yard[0].colonies == ["1-24"]


def test_another_number_was_meant(outfit):
    outfit.ok("take", *DAY, stdin="wash at quarry, hive 77 had 3 mites")
    assert "which number was meant" in outfit.bad("settle", "--answer", "77=2")
    outfit.ok("settle", "--answer", "77=17")
    assert "17 at Quarry: wash, 3 mites" in outfit.ok("history", "17")
    assert "nothing to settle" in outfit.ok("settle")
    outfit.ok("undo")
    assert "77 at Quarry" in outfit.ok("history", "77")


def test_which_hives_were_left_out_is_asked_and_put_into_the_record(outfit):
    outfit.ok("take", *DAY, stdin="amitraz strips out at quarry, all but two hives")
    assert "which?" in outfit.ok("settle", "--list")
    outfit.ok("settle", "--answer", "two hives=12, 14")
    assert "nothing to settle" in outfit.ok("settle")
    assert "all but 12, 14 at Quarry: amitraz strip out" in outfit.ok("history", "12")


def test_an_unknown_word_is_asked_once_and_its_answer_read_into_earlier_notes(outfit):
    for day, colony in (("01", "12"), ("02", "14")):
        outfit.ok("take", "--on", f"2026-06-{day}", stdin=f"put two zibbets in {colony} at the quarry")
    roster = outfit.home / "roster.toml"
    before = roster.read_text()
    asked = outfit.ok("settle", "--list")
    assert asked.count("zibbets") == 1 + 1  # in the question, and in the note it is from
    out = outfit.ok("settle", stdin="amitraz strips\n")
    assert out.count("+ ") == 2
    assert "zibbets (amitraz strip) in, 2 strips" in outfit.ok("history", "12") or "amitraz" in outfit.ok(
        "history", "12"
    )
    assert 'zibbets = "amitraz strips"' in roster.read_text()
    assert "take the amitraz strips out" in outfit.ok("morning", "--on", "2026-08-20")
    outfit.ok("undo")
    assert roster.read_text() == before
    assert "zibbets" in outfit.ok("settle", "--list")
    assert "counts as none" in outfit.ok("settle", "--answer", "zibbets=paint")


def test_fix_reject_undo_and_history(outfit):
    first, second, _ = ids(outfit.ok("take", *DAY, "--by", "Ann", stdin=NOTE))
    out = outfit.ok("fix", first, "--set", "mites=13", "--set", "colonies=12,16-18")
    assert "12, 16-18 at Quarry: alcohol wash, 13 mites" in out
    assert "Rejected" in outfit.ok("fix", second, "--reject")
    assert "no mites [Ann] (rejected)" in outfit.ok("history", "14")
    assert "1 rejected record" in outfit.ok("undo")
    back = outfit.ok("history", "14")
    assert "no mites [Ann]\n" in back
    assert f"rejected record {second} (undone" in back
    assert f"mended record {first}: 12, 16-18 at Quarry" in outfit.ok("history", "17")
    trail = outfit.ok("history", first)
    assert "read as: 12 at Quarry: alcohol wash, 3 mites" in trail
    assert f"mended record {first}" in trail
    for sentence in (
        outfit.bad("fix", first, "--set", "mites=lots"),
        outfit.bad("fix", first, "--set", "queens=2"),
        outfit.bad("fix", first, "--set", "method=guess"),
        outfit.bad("fix", first, "--kind", "song"),
        outfit.bad("fix", first, "--set", "mites"),
        outfit.bad("fix", first, "--set", "mites=2", "--reject"),
        outfit.bad("fix", first, "--set", "yard=Nowhere"),
    ):
        assert sentence.startswith("fieldnotes: ")
    assert "13 mites" in outfit.ok("history", "17")


def test_fix_in_the_editor(outfit, tmp_path):
    first = ids(outfit.ok("take", *DAY, stdin=NOTE))[0]
    editor = tmp_path / "edit.sh"
    editor.write_text('#!/bin/sh\nsed -i "s/^mites = .*/mites = 30/; /^method/d" "$1"\n')
    editor.chmod(0o755)
    out = outfit.ok("fix", first, env={"EDITOR": str(editor), "VISUAL": str(editor)})
    assert "Now:    12 at Quarry: mite check, 30 mites" in out
    editor.write_text("#!/bin/sh\ntrue\n")
    assert "Nothing was changed." in outfit.ok("fix", first, env={"EDITOR": str(editor), "VISUAL": str(editor)})
    none = str(tmp_path / "no such editor")
    assert "editor did not work" in outfit.bad("fix", first, env={"EDITOR": none, "VISUAL": none})


def test_a_record_fixed_to_another_colony_is_still_told_of_under_the_first(outfit):
    (record,) = ids(outfit.ok("take", *DAY, stdin="wash at quarry, 12 had 3 mites"))
    outfit.ok("fix", record, "--set", "colonies=13")
    assert "3 mites (mended since)" in outfit.ok("history", "12")
    assert "3 mites\n" in outfit.ok("history", "13")


def test_reading_again_with_a_changed_roster(outfit):
    out = outfit.ok("take", *DAY, stdin="put two pinkies each in 12 and 14 at the quarry. sugar roll on 3 was 4 mites")
    (check,) = re.findall("^  ([0-9a-f]{6})  .*sugar roll", out, re.M)
    outfit.ok("fix", check, "--set", "mites=40")
    assert "Nothing would change." in outfit.ok("reread")
    roster = outfit.home / "roster.toml"
    roster.write_text(roster.read_text() + 'pinkies = "amitraz strips"\n')
    out = outfit.ok("reread", "--dry-run")
    assert "  + 12, 14 at Quarry: pinkies (amitraz strip) in" in out
    assert "Nothing was changed." in outfit.ok("reread", stdin="n\n")
    assert "Applied." in outfit.ok("reread", stdin="y\n")
    assert "pinkies (amitraz strip)" in outfit.ok("history", "12")
    assert "40 mites" in outfit.ok("history", "3", "--yard", "Quarry")
    outfit.ok("undo")
    assert "pinkies (amitraz strip)" not in outfit.ok("history", "12")
    assert "40 mites" in outfit.ok("history", "3", "--yard", "Quarry")


def test_find_check_backup_restore_export_import(outfit, bare, tmp_path):
    outfit.ok("take", *DAY, "--by", "Ann", stdin=NOTE)
    assert "Ann: alcohol wash at quarry" in outfit.ok("find", "wash", "quarry")
    assert "No note" in outfit.ok("find", "chalkbrood")
    assert "The book is sound: 1 note, each as it came." in outfit.ok("check")
    before = outfit.ok("morning", "--on", "2026-08-20", "--json")
    outfit.ok("backup", tmp_path / "copy.db")
    outfit.ok("export", tmp_path / "out.jsonl")
    outfit.ok("export", tmp_path / "tables", "--format", "csv")
    outfit.ok("take", stdin="14 had 9 mites")
    outfit.ok("restore", tmp_path / "copy.db")
    assert outfit.ok("morning", "--on", "2026-08-20", "--json") == before
    for source in ("out.jsonl", "tables"):
        other = type(outfit)(tmp_path / f"home of {source}")
        other.ok("setup", "--from", tmp_path / "roster.toml")
        assert "1 new notes" in other.ok("import", tmp_path / source)
        assert other.ok("morning", "--on", "2026-08-20", "--json") == before
        assert "0 new notes" in other.ok("import", tmp_path / source)


def test_a_file_that_has_grown_since_it_was_taken_is_pointed_out(outfit, tmp_path):
    notes = tmp_path / "notes.txt"
    notes.write_text("12 had 3 mites\n")
    first = outfit.ok("take", notes)
    assert "said anew" in outfit.ok("take", notes)
    notes.write_text("12 had 3 mites\n14 had 4 mites\n")
    out = outfit.ok("take", notes)
    (note,) = re.findall(r"taken before, shorter, as note (\w{6}): what that says counts twice", out)
    assert "12 had 3 mites" in outfit.ok("history", note) and "14 had 4" not in outfit.ok("history", note)
    outfit.ok("undo")
    (tmp_path / "other.txt").write_text(notes.read_text())
    assert "shorter" not in first + outfit.ok("take", tmp_path / "other.txt")


def test_an_empty_book_has_no_history_and_a_limit_is_at_least_one(outfit):
    assert "Nothing was done" in outfit.ok("history")
    assert "--limit" in outfit.bad("history", "--limit", "0") + outfit.bad("find", "mites", "--limit", "-1")


def test_a_rejected_record_is_taken_in_again_when_it_is_mended(outfit):
    (record,) = ids(outfit.ok("take", *DAY, stdin="12 had 3 mites"))
    outfit.ok("fix", record, "--reject")
    outfit.ok("take", *DAY, stdin="14 had 4 mites")
    assert "rejected before" in outfit.bad("fix", record, "--reject")
    assert "(rejected)" in outfit.ok("fix", record, "--set", "mites=3")
    assert "3 mites" in outfit.ok("history", "12").splitlines()[0]
    assert "(rejected)" not in outfit.ok("history", "12").splitlines()[0]
    outfit.ok("fix", record, "--reject")
    outfit.ok("fix", record, "--set", "mites=5")
    assert "5 mites" in outfit.ok("history", "12").splitlines()[0]
    outfit.ok("undo")
    assert "(rejected)" in outfit.ok("history", "12").splitlines()[0]
    outfit.ok("check")


def test_of_a_rejected_record_nothing_is_asked(outfit):
    out = outfit.ok("take", *DAY, stdin="wash at quarry, hive 88 had 3 mites")
    assert "88" in outfit.ok("settle", "--list")
    outfit.ok("fix", ids(out)[0], "--reject")
    assert "nothing to settle" in outfit.ok("settle", "--list")
    outfit.ok("undo")
    assert "88" in outfit.ok("settle", "--list")


def test_watch_takes_whole_text_files_once(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    (folder / "a.txt").write_text("12 had 3 mites")
    (folder / "same.txt").write_text("12 had 3 mites")
    (folder / "b\nc.md").write_text("14 had 4 mites")
    (folder / "many.jsonl").write_text('{"text": "15 had 5 mites", "received": "2026-06-01T07:30"}\n{\n')
    (folder / "photo.txt").write_bytes(b"\x89PNG\x00\x00\x00")
    (folder / "empty.txt").write_text("")
    (folder / "half.txt.part").write_text("16 had")
    (folder / ".hidden").write_text("17 had 3 mites")
    outfit.ok("watch", folder, "--once", "--quiet", "0.05", "--by", "Ann")
    assert {p.name for p in (folder / "taken").iterdir()} == {"a.txt", "same.txt", "b\nc.md"}
    assert {p.name for p in folder.iterdir()} == {"taken", "unread", "half.txt.part", ".hidden"}
    unread = {p.name: p for p in (folder / "unread").iterdir()}
    assert set(unread) == {f"{n}{e}" for n in ("many.jsonl", "photo.txt", "empty.txt") for e in ("", ".why.txt")}
    assert "is not text" in unread["photo.txt.why.txt"].read_text()
    assert "Line 2" in unread["many.jsonl.why.txt"].read_text()
    assert len(outfit.ok("find", "mites").splitlines()) == 3
    (folder / "a.txt").write_text("12 had 3 mites")
    assert "in the book already" in outfit.ok("watch", folder, "--once", "--quiet", "0.05", "--by", "Ann")
    assert {p.name for p in (folder / "taken").iterdir()} == {"a.txt", "a-2.txt", "same.txt", "b\nc.md"}


def test_watch_takes_a_file_again_that_somebody_went_on_writing_to(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    run = start(tmp_path, outfit.env, "watch", folder, "--quiet", "0.05")
    until = time.monotonic() + 60
    lines = [json.dumps({"text": f"{n} had {n} mites", "received": "2026-06-01T07:30"}) for n in (4, 5)]
    for name, first, rest, where in (
        ("slow.txt", "12 had 3 mites. ", "13 had 9 mites", "taken"),
        ("many.jsonl", lines[0] + "\n" + lines[1][:9], lines[1][9:] + "\n", "unread"),
    ):
        with (folder / name).open("w") as file:
            file.write(first)
            file.flush()
            while not (folder / where / name).exists() and time.monotonic() < until:
                time.sleep(0.05)
            file.write(rest)
        while (first + rest not in text_of(folder / "taken" / name)) and time.monotonic() < until:
            time.sleep(0.05)
    while run.printed.count("5 mites") < 1 and time.monotonic() < until:
        time.sleep(0.05)
    run.kill()
    assert "slow.txt was still being written when it was dealt with, which is undone" in run.complained
    assert [len(outfit.ok("history", colony).splitlines()) for colony in ("12", "13", "4", "5")] == [1, 1, 1, 1]
    assert sorted(p.name for p in (folder / "taken").iterdir()) == ["many.jsonl", "slow.txt"]
    assert list((folder / "unread").iterdir()) == []
    outfit.ok("check")


def text_of(path):
    return path.read_text() if path.exists() else ""


def test_watch_writes_over_no_file_that_was_dropped(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    for name in ("a.txt.why.txt", "a.txt"):
        (folder / name).write_bytes(b"\x89PNG\x00 " + name.encode())
        outfit.ok("watch", folder, "--once", "--quiet", "0")
    kept = {path.read_bytes() for path in (folder / "unread").iterdir()}
    assert {b"\x89PNG\x00 a.txt.why.txt", b"\x89PNG\x00 a.txt"} <= kept
    assert "is not text" in (folder / "unread" / "a-2.txt.why.txt").read_text()


def test_watch_moves_files_whose_names_leave_no_room(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    for name in ("n" * 251 + ".txt", "m" * 251 + ".txt", "ü" * 127, "x." + "y" * 253):
        (folder / name).write_bytes(b"12 had 3 mites" if name.startswith("m") else b"\x89PNG\x00")
    for _ in range(2):
        outfit.ok("watch", folder, "--once", "--quiet", "0")
        (folder / ("m" * 251 + ".txt")).write_text("12 had 3 mites")
    outfit.ok("watch", folder, "--once", "--quiet", "0")
    assert sorted(p.name for p in folder.iterdir()) == ["taken", "unread"]
    assert len(list((folder / "unread").iterdir())) == 6
    assert len(list((folder / "taken").iterdir())) == 3


def test_watch_waits_out_what_is_in_its_way(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    (folder / "taken").write_text("a file where the folder goes")
    (folder / "a.txt").write_text("12 had 3 mites")
    said = outfit.bad("watch", folder, "--once", "--quiet", "0.05")
    assert "taken cannot be used" in said
    (folder / "taken").unlink()
    assert "in the book already" in outfit.ok("watch", folder, "--once", "--quiet", "0.05")
    assert (folder / "taken" / "a.txt").exists()


def test_an_editor_left_empty_changes_nothing(outfit, tmp_path):
    (record,) = ids(outfit.ok("take", *DAY, stdin="12 had 3 mites"))
    editor = tmp_path / "empties"
    editor.write_text('#!/bin/sh\n: > "$1"\n')
    editor.chmod(0o755)
    assert "--reject takes the record out" in outfit.bad("fix", record, env={"EDITOR": str(editor)})
    assert "12 at Quarry: mite check, 3 mites" in outfit.ok("history", "12")


def test_the_trail_of_a_record_that_was_taken_back_and_taken_again(outfit, tmp_path):
    (tmp_path / "a.txt").write_text("put bluegoo in 12")
    (record,) = ids(outfit.ok("take", *DAY, tmp_path / "a.txt"))
    outfit.ok("undo")
    outfit.ok("take", *DAY, tmp_path / "a.txt")
    outfit.ok("settle", "--answer", "bluegoo=thymol gel")
    outfit.ok("undo")
    trail = re.sub(r"20\d\d-\S+?\+00:00", "AT", outfit.ok("history", record))
    told = [line.strip().removeprefix("AT  ").partition("  ")[2] or line.strip() for line in trail.splitlines()[1:]]
    note = re.search(r"took note (\w+)", trail)[1]
    assert told == [
        f"took note {note}: put bluegoo in 12 (undone AT)",
        "read as: 12 at Quarry: bluegoo in (Mon 1 Jun 2026)",
        f"took note {note}: put bluegoo in 12",
        f"read note {note} again (undone AT)",
        "read as: 12 at Quarry: bluegoo (thymol gel) in (Mon 1 Jun 2026)",
    ]


def test_history_says_which_notes_were_taken(outfit):
    outfit.ok("take", *DAY, stdin="12 had 3 mites\nand 14 had none " + "at all " * 20)
    assert ": 12 had 3 mites and 14 had none at all at all" in outfit.ok("history")
    assert outfit.ok("history").endswith(" …\n")
    name = re.search(r"took note (\w+):", outfit.ok("history"))[1]
    assert "2026, typed or piped in:" in outfit.ok("history", name)


@pytest.mark.parametrize("seconds", ["-1", "nan", "inf"])
def test_no_number_of_seconds(outfit, tmp_path, seconds):
    (tmp_path / "a.txt").write_text("12 had 3 mites")
    assert "no number of seconds" in outfit.bad("watch", tmp_path, "--once", "--quiet", seconds)


def test_nothing_came_in(outfit):
    said = outfit.bad("take", stdin="")
    assert "What came in is empty" in said
    assert said.endswith("1 could not be taken.\n")


def test_a_folder_is_no_backup(outfit, tmp_path):
    assert "is a folder" in outfit.bad("restore", tmp_path)
    assert "is not there" in outfit.bad("restore", tmp_path / "none.db")


def test_watch_passes_by_a_file_that_cannot_be_taken(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    (folder / "a.txt").symlink_to(outfit.home / "book.db")
    (folder / "b.txt").write_text("12 had 3 mites")
    said = outfit.bad("watch", folder, "--once", "--quiet", "0.05")
    assert said.count("is the book itself") == 1
    assert (folder / "taken" / "b.txt").exists()
    assert sorted(p.name for p in folder.iterdir()) == ["a.txt", "taken"]


def test_watch_goes_on_in_a_book_that_was_restored_meanwhile(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    run = start(tmp_path, outfit.env, "watch", folder, "--quiet", "0.05")

    def dropped(name, text):
        (folder / name).write_text(text)
        until = time.monotonic() + 60
        while not (folder / "taken" / name).exists() and time.monotonic() < until:
            time.sleep(0.05)

    dropped("a.txt", "12 had 3 mites")
    outfit.ok("backup", tmp_path / "copy.db")
    dropped("b.txt", "14 had 4 mites")
    outfit.ok("restore", tmp_path / "copy.db")
    dropped("c.txt", "15 had 5 mites")
    run.kill()
    assert not run.complained
    assert [len(outfit.ok("find", colony).splitlines()) for colony in ("12", "15")] == [1, 1]
    assert "No note" in outfit.ok("find", "14")
    assert "The book is sound: 2 notes" in outfit.ok("check")


def test_watch_says_once_what_stands_in_its_way(outfit, tmp_path):
    folder = tmp_path / "drop"
    folder.mkdir()
    (folder / "a.txt").symlink_to(outfit.home / "book.db")
    run = start(tmp_path, outfit.env, "watch", folder, "--quiet", "0.05")
    until = time.monotonic() + 60
    while "tried again" not in run.complained and time.monotonic() < until:
        time.sleep(0.05)
    time.sleep(1)  # some twenty looks
    (folder / "b.txt").write_text("12 had 3 mites")
    while not (folder / "taken" / "b.txt").exists() and time.monotonic() < until:
        time.sleep(0.05)
    run.kill()
    assert run.complained.count("is the book itself") == 1
    assert (folder / "taken" / "b.txt").exists()


def test_an_older_backup_is_brought_up_to_date_and_nothing_is_left_lying_about(bare, tmp_path):
    old = Path(__file__).parents[1] / "book" / "books" / "version_1.sql"
    with closing(sqlite3.connect(tmp_path / "old.db")) as db:
        db.executescript(old.read_bytes().decode())
        db.execute(f"PRAGMA application_id = {opening.APPLICATION_ID}")
    before = (tmp_path / "old.db").read_bytes()
    bare.home.mkdir()
    bare.ok("restore", tmp_path / "old.db")
    assert "The book is sound: 2 notes" in bare.ok("check")
    assert [p.name for p in bare.home.iterdir()] == ["book.db"]
    assert (tmp_path / "old.db").read_bytes() == before


def test_where_nobody_takes_what_is_printed(outfit):
    outfit.ok("take", *DAY, stdin=NOTE)
    full = Path("/dev/full")
    if not full.exists():
        pytest.skip("this system has no file that is always full")
    said = outfit.bad("history", before=lambda: os.dup2(os.open(full, os.O_WRONLY), 1))
    assert said.startswith("fieldnotes: The system refused: ")


def test_a_note_on_which_the_reader_stumbles_is_kept_and_keeps_nothing_else_from_being_read(outfit, monkeypatch):
    from fieldnotes import reader

    def stumbles(note, roster, *, read=reader.read):
        if "13" in note.text:
            raise IndexError("no such token")
        return read(note, roster)

    lines = [json.dumps({"text": f"{n} had 3 mites", "received": "2026-06-01T07:30"}) for n in (12, 13, 14)]
    with monkeypatch.context() as patch:
        patch.setattr(reader, "read", stumbles)
        done = outfit.run("take", "--jsonl", stdin="\n".join(lines))
        assert done.returncode == 2
        assert done.stdout.count("3 mites") == 2
        assert "kept, but not read. The reader stumbled over this note (IndexError no such token)" in done.stderr
        assert "tries again" in done.stderr
        assert "15 at Quarry: mite check" in outfit.ok("take", stdin="15 had 3 mites")
        assert "The reader stumbled" in outfit.bad("read", stdin="13 had 3 mites")
    assert "13 at Quarry: mite check, 3 mites" in outfit.ok("take", stdin="16 had 3 mites")
    assert "14 had 3" in outfit.ok("find", "14 had")
    with monkeypatch.context() as patch:
        patch.setattr(reader, "read", stumbles)
        assert "not read again. The reader stumbled" in outfit.run("reread").stderr


def test_a_reading_that_does_not_fit_the_book_keeps_no_other_out_and_its_note_is_found(outfit, tmp_path, monkeypatch):
    lines = [{"text": f"{n} had {n} mites", "received": f"2026-06-0{n}T07:30"} for n in range(1, 6)]
    (tmp_path / "notes.jsonl").write_text("".join(json.dumps(line) + "\n" for line in lines))
    write = Book._write_reading

    def stumbles(book, note_id, entry, reading, *more):
        if reading.records[0].slots["mites"] == 3:
            raise sqlite3.IntegrityError("CHECK constraint failed")
        write(book, note_id, entry, reading, *more)

    monkeypatch.setattr(Book, "_write_reading", stumbles)
    said = outfit.bad("take", "--jsonl", tmp_path / "notes.jsonl")
    assert "does not fit the book (IntegrityError CHECK constraint failed)" in said
    assert "1 note is kept, but not read" in said
    assert "(undone)" not in outfit.ok("find", "3 mites") != "No note holds these words.\n"
    assert "7 mites" in outfit.ok("take", *DAY, stdin="7 had 7 mites")
    assert [len(outfit.ok("find", f"{n} mites").splitlines()) for n in (2, 4, 5, 7)] == [1, 1, 1, 1]
    monkeypatch.undo()
    assert "3 mites" in outfit.ok("take", "--jsonl", tmp_path / "notes.jsonl")
    assert "sound: 6 notes" in outfit.ok("check")
