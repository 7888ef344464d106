"""`fieldnotes morning` into files: the page, the calendar, the mail."""

import email
import email.policy
import json
import os
import stat

import pytest
from icalendar import Calendar

DAY = ("--on", "2026-08-10")
FACES = (("--page", "<!doctype html>"), ("--calendar", "BEGIN:VCALENDAR"), ("--mail", "Subject: "))


@pytest.fixture
def told(outfit):
    """An outfit with things to do."""
    outfit.ok("take", "--on", "2026-06-01", "--by", "Ann", stdin="put greenies in 12 and 15 at the quarry")
    outfit.ok("take", "--on", "2026-08-01", "--by", "Ann", stdin="need to bring the <b>ladder</b> to larkfield")
    return outfit


def test_all_faces_at_once_hold_the_items_of_the_json(told, tmp_path):
    page, calendar, mail = (tmp_path / name for name in ("today.html", "due.ics", "today.eml"))
    said = told.ok("morning", *DAY, "--page", page, "--calendar", calendar, "--mail", mail)
    assert said == f"Page: {page}\nCalendar: {calendar}\nMail: {mail}\n"
    ids = {item["id"] for item in json.loads(told.ok("morning", *DAY, "--json"))["items"]}
    assert len(ids) >= 2
    assert {str(e["uid"]).split("@")[0] for e in Calendar.from_ical(calendar.read_bytes()).events} == ids
    text, html = email.message_from_bytes(mail.read_bytes(), policy=email.policy.default).iter_parts()
    assert text.get_content().replace("\r\n", "\n") == told.ok("morning", *DAY)
    assert html.get_content().replace("\r\n", "\n") == page.read_text(encoding="utf-8")
    assert all(f'<li id="{name}">' in page.read_text(encoding="utf-8") for name in ids)
    assert sorted(p.suffix for p in tmp_path.iterdir() if p.is_file()) == [".eml", ".html", ".ics", ".toml"]


@pytest.mark.parametrize(("option", "start"), FACES)
def test_a_dash_is_standard_output_and_each_run_gives_the_same_bytes(told, tmp_path, option, start):
    printed = told.ok("morning", *DAY, option, "-")
    assert printed.startswith(start)
    for _ in range(2):
        told.ok("morning", *DAY, option, tmp_path / "face")
        with (tmp_path / "face").open(encoding="utf-8") as file:
            assert file.read() == printed.replace("\r\n", "\n")


def test_what_is_closed_leaves_every_face(told):
    (gone,) = [i for i in json.loads(told.ok("morning", *DAY, "--json"))["items"] if "ladder" in i["says"]]
    told.ok("done", gone["id"], *DAY)
    for option, _ in FACES[:2]:
        assert gone["id"] not in told.ok("morning", *DAY, option, "-")


def test_the_json_beside_a_face(told, tmp_path):
    assert told.ok("morning", *DAY, "--json", "--page", tmp_path / "p.html") == told.ok("morning", *DAY, "--json")
    assert (tmp_path / "p.html").exists()


def test_one_place_holds_one_face(told, tmp_path):
    both = tmp_path / "both"
    (tmp_path / "link").symlink_to(both)
    for words in (
        ("--page", "-", "--mail", "-"),
        ("--json", "--calendar", "-"),
        ("--page", both, "--mail", both),
        ("--page", both, "--calendar", tmp_path / "link"),
    ):
        said = told.bad("morning", *DAY, *words)
        assert "cannot hold" in said and said.count("\n") == 1
    assert not both.exists()


@pytest.mark.parametrize(("option", "_"), FACES)
def test_a_place_that_cannot_be_written(told, tmp_path, option, _):
    (tmp_path / "file").write_text("words")
    for place in (tmp_path, tmp_path / "none" / "face", tmp_path / "file" / "face", tmp_path / ("x" * 300), ""):
        said = told.bad("morning", *DAY, option, place)
        assert "cannot be written" in said and said.count("\n") == 1
    assert (tmp_path / "file").read_text() == "words"
    assert not list(tmp_path.glob(".fieldnotes*"))


def test_the_book_and_the_roster_are_no_place_for_a_face(told, tmp_path):
    before = (told.home / "roster.toml").read_bytes()
    link = tmp_path / "link"
    link.symlink_to(told.home / "book.db")
    for name in ("book.db", "book.db-wal", "book.db-journal", "roster.toml", link):
        assert "the book or the roster" in told.bad("morning", *DAY, "--page", told.home / name)
    assert (told.home / "roster.toml").read_bytes() == before
    assert "sound" in told.ok("check")


def test_a_file_written_anew_keeps_its_rights_and_a_link_its_target(told, tmp_path):
    page, link = tmp_path / "page.html", tmp_path / "link.html"
    page.write_text("old " * 10_000)
    page.chmod(0o640)
    link.symlink_to(page)
    told.ok("morning", *DAY, "--page", link)
    assert link.is_symlink() and page.read_text().startswith("<!doctype html>") and "old old" not in page.read_text()
    assert stat.S_IMODE(page.stat().st_mode) == 0o640


def test_a_full_disk_leaves_the_old_file(told, tmp_path, monkeypatch):
    page = tmp_path / "page.html"
    page.write_text("old")

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert "cannot be written: No space left on device" in told.bad("morning", *DAY, "--page", page)
    assert page.read_text() == "old" and not list(tmp_path.glob(".fieldnotes*"))


def test_a_device_is_written_to_and_not_replaced(told):
    told.ok("morning", *DAY, "--page", "/dev/null")
    assert not os.path.isfile("/dev/null")  # noqa: PTH113
