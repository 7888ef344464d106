"""The page, the calendar and the mail: the same items as the JSON, and whatever a note says stays words."""

import datetime
import email
import email.policy
import itertools
import json
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest
from icalendar import Calendar
from test_morning import BOOK, DAY, QUESTIONS, ROSTER, items

from fieldnotes.digest import morning_json, morning_text
from fieldnotes.digest.calendar import morning_calendar
from fieldnotes.digest.layout import visits
from fieldnotes.digest.mail import morning_mail
from fieldnotes.digest.page import morning_page
from fieldnotes.records import Because, Due
from fieldnotes.schedule import due_items

VOID = {"meta"}
HOSTILE = [
    "<script>alert(1)</script>",
    "</style></p><img src=x onerror=alert(1)>",
    "\"' onclick='x' & &lt; &#60;",
    "a\r\nEND:VEVENT\r\nBEGIN:VALARM",
    "a\nBcc: someone@example.org\n\n--=_",
    "semi;colon,comma\\back\\nslash:colon",
    "\x00\x1b[31m\x7f\x85\u2028",
    "half \ud83d pair",
    "turned \u202e round",
    "ж" * 90,
    "🐝" * 90,
    "=?utf-8?q?x?= <x@example.org>",
]


class Page(HTMLParser):
    """What stands in a page: the words of each item by its id, under which section, its headings, its tags."""

    def __init__(self, text):
        super().__init__()
        self.open, self.tags, self.attributes = [], [], []
        self.items, self.headings, self.section_of = {}, [], {}
        self.section = self.item = None
        self.feed(text)
        self.close()
        assert not self.open

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [name for name, _ in attrs]
        if tag not in VOID:
            self.open.append(tag)
        if tag == "section":
            self.section = dict(attrs)["id"]
        if tag == "li":
            self.item = dict(attrs)["id"]
            assert self.item not in self.items
            self.items[self.item], self.section_of[self.item] = [], self.section
        if re.fullmatch("h[1-6]", tag):
            self.headings.append((int(tag[1]), ""))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag
        if tag == "li":
            self.item = None

    def handle_data(self, data):
        if self.item:
            self.items[self.item].append(data)
        if self.open and re.fullmatch("h[1-6]", self.open[-1]):
            self.headings[-1] = (self.headings[-1][0], self.headings[-1][1] + data)

    def words(self, item):
        return " ".join("\n".join(self.items[item]).split())


def page(due, outfit=ROSTER.outfit, day=DAY):
    return Page(morning_page(due, day, outfit))


def events(due, outfit=ROSTER.outfit, day=DAY):
    calendar = Calendar.from_ical(morning_calendar(due, day, outfit))
    assert not calendar.errors and all(not event.errors for event in calendar.events)
    return {str(event["uid"]).removesuffix("@fieldnotes"): event for event in calendar.events}


def mail(due, outfit=ROSTER.outfit, day=DAY):
    message = email.message_from_bytes(morning_mail(due, day, outfit), policy=email.policy.default)
    for part in message.walk():
        assert not part.defects
        assert not [header for header in part.values() if header.defects]
    return message


def thing(n=1, **more):
    fields = {
        "id": f"promise-{n}", "what": "promise", "section": "today", "yard": "Quarry", "due": "2026-10-13",
        "latest": "2026-10-14", "says": "Quarry: bring the ladder.", "because": Because(records=["r1"], reason="Told."),
    }  # fmt: skip
    return Due(**fields | more)


def test_each_face_has_the_items_of_the_json():
    due = json.loads(morning_json(items(), DAY))["items"]
    here, there = page(items()), events(items())
    assert list(here.section_of) and set(here.items) == set(there) == {item["id"] for item in due}
    for item in due:
        words, event = here.words(item["id"]), there[item["id"]]
        says = item["says"].removeprefix(item["yard"] or "").lstrip(" ,:")
        assert says[1:] in words and item["because"]["reason"] in words
        assert here.section_of[item["id"]] == item["section"] == event["categories"].cats[0]
        assert str(event["summary"]).endswith(item["says"])
        assert str(event.get("location", "")) == (item["yard"] or "")
        assert item["because"]["reason"] in str(event["description"])
        if item["caution"]:
            assert f"Take care: {item['caution']}" in words
            assert f"Take care: {item['caution']}" in str(event["description"])


def test_the_page_is_laid_out_as_the_text_is():
    text = [line.strip() for line in morning_text(items(), DAY, ROSTER.outfit).splitlines()]
    headings = [words for _, words in page(items()).headings]
    assert [h.upper() if h.endswith(")") else h for h in headings] == [t for t in text if t in {
        *(h.upper() if h.endswith(")") else h for h in headings)}]  # fmt: skip
    assert [h for h in headings if h.endswith(")")] == ["Overdue (2)", "Today (2)", "Coming (3)", "To settle (2)"]


def test_one_visit_is_one_item_on_every_face():
    first = thing(1, id="next_dose-1", what="next_dose")
    due = [first, thing(2, id="take_out-1", what="take_out"), thing(3)]
    shown = {item.id for item in visits(due)}
    assert shown == {"next_dose-1", "promise-3"} == set(page(due).items) == set(events(due))


def test_headings_go_down_step_by_step():
    no_trucks = [thing(1), thing(2, yard=None, section="settle")]
    for due in (items(), no_trucks, []):
        levels = [level for level, _ in page(due).headings]
        assert levels[0] == 1 and levels.count(1) == 1
        assert all(b <= a + 1 for a, b in itertools.pairwise(levels))


def test_the_page_fetches_and_runs_nothing():
    text = morning_page(items(), DAY, ROSTER.outfit)
    tags = set(Page(text).tags)
    assert tags <= {"html", "head", "meta", "title", "style", "body", "header", "main", "section", "h1", "h2", "h3",
                    "h4", "p", "a", "ul", "li", "span", "strong", "details", "summary"}  # fmt: skip
    assert not set(Page(text).attributes) & {"src", "style", "onclick"}
    assert "url(" not in text and "@import" not in text and "http" not in text
    assert re.findall(r'href="(.)', text) == ["#"] * 4
    assert "prefers-color-scheme: dark" in text and "@media print" in text and 'name="viewport"' in text


def test_what_is_overdue_is_said_in_words_and_first():
    here = page(items())
    assert list(here.section_of.values())[:2] == ["overdue"] * 2
    assert here.words(next(iter(here.items))).startswith("4 days over (in good time 25 September to 9 October)")


def test_what_was_assumed_is_said():
    assert "Not certain" in page([thing(sure=False)]).words("promise-1")
    assert "Not certain" not in page([thing()]).words("promise-1")


@pytest.mark.parametrize("words", HOSTILE)
def test_whatever_a_note_says_stays_words(words):
    due = [
        thing(
            1,
            yard=words,
            truck=words,
            says=f"{words}: {words}",
            caution=words,
            because=Because(records=["r1"], reason=words),
        )
    ]
    plain, there, message = page([thing(1, truck="red", caution="x")]), events(due, words), mail(due, words)
    here = page(due, words)
    assert here.tags == plain.tags and set(here.attributes) == set(plain.attributes)
    assert list(here.items) == list(there) == ["promise-1"]
    shown = re.sub("[\x00-\x1f\x7f-\x9f\u202a-\u202e\ud800-\udfff]", "\ufffd", " ".join(words.split()))
    assert here.words("promise-1").casefold().count(shown.casefold()) == 3
    assert str(there["promise-1"]["location"]) == shown
    assert not there["promise-1"].subcomponents
    assert {name.lower() for name in message} == {
        "subject", "from", "date", "message-id", "mime-version", "content-type"}  # fmt: skip
    assert message["from"] == "fieldnotes <fieldnotes@localhost>"
    assert shown.replace("=?", "= ?") in message["subject"]
    assert [part.get_content_type() for part in message.iter_parts()] == ["text/plain", "text/html"]
    assert not re.search("[\x00-\x09\x0b-\x1f\x7f-\x9f]", morning_text(due, DAY, words))


def test_the_calendar_keeps_to_its_standard():
    data = morning_calendar([*items(), *(thing(n, says=words) for n, words in enumerate(HOSTILE))], DAY, "x;y,ж" * 40)
    lines = data.split(b"\r\n")
    assert lines[0] == b"BEGIN:VCALENDAR" and lines[-2:] == [b"END:VCALENDAR", b""]
    assert all(len(line) <= 75 and b"\n" not in line and b"\r" not in line for line in lines)
    assert any(line.startswith(b" ") for line in lines)
    for line in lines:
        line.decode()  # no letter is cut in two
    calendar = Calendar.from_ical(data)
    assert calendar["version"] == "2.0" and calendar["prodid"]
    assert len({event["uid"] for event in calendar.events}) == len(calendar.events) == len(items()) + len(HOSTILE)
    for event in calendar.events:
        assert event["dtstamp"].dt == datetime.datetime(2026, 10, 13, tzinfo=datetime.UTC)
        assert event["dtstart"].params["VALUE"] == event["dtend"].params["VALUE"] == "DATE"
        assert event["dtend"].dt > event["dtstart"].dt


def test_an_event_lasts_to_the_end_of_its_last_day():
    for item in items():
        event = events(items())[item.id]
        last = datetime.date.fromisoformat(item.latest)
        if item.section in ("overdue", "settle"):
            last = DAY  # still to be done, so still to be seen
        assert event["dtstart"].dt.isoformat() == item.due
        assert event["dtend"].dt == last + datetime.timedelta(1)


def test_an_event_at_the_end_of_time():
    event = events([thing(due="9999-12-31", latest="9999-12-31", section="coming")])["promise-1"]
    assert event["dtstart"].dt == datetime.date.max and "dtend" not in event


def test_a_later_morning_changes_an_event_and_adds_no_second_one():
    later = DAY + datetime.timedelta(3)
    first, second = events(items()), events(due_items(BOOK, QUESTIONS, ROSTER, later), day=later)
    both = set(first) & set(second)
    assert len(both) >= 7
    for uid in both:
        assert first[uid]["uid"] == second[uid]["uid"] and first[uid]["dtstart"] == second[uid]["dtstart"]
        assert first[uid]["dtstamp"].dt < second[uid]["dtstamp"].dt


def test_what_is_closed_is_not_in_the_calendar():
    gone = items()[0].id
    due = due_items(BOOK, QUESTIONS, ROSTER, DAY, closed=[gone])
    assert set(events(items())) - set(events(due)) == {gone}


def test_the_mail_is_the_text_and_the_page():
    message = mail(items())
    text, html = message.iter_parts()
    assert text.get_content().replace("\r\n", "\n") == morning_text(items(), DAY, ROSTER.outfit)
    assert html.get_content().replace("\r\n", "\n") == morning_page(items(), DAY, ROSTER.outfit)
    assert message["subject"] == (
        "2 overdue, 2 for today, 3 coming, 2 to settle. Quillfeather Bee Yards: Tuesday 13 October 2026"
    )
    assert message["date"].datetime.date() == DAY
    assert message.get_content_type() == "multipart/alternative"


def test_the_mail_can_go_anywhere():
    data = morning_mail([thing(says="Quarry: ж" * 400)], DAY, "Ж" * 200)
    assert data.isascii() and b"\n" not in data.replace(b"\r\n", b"") and max(map(len, data.split(b"\r\n"))) <= 998


def test_nothing_due():
    assert "Nothing is due" in morning_page([], DAY)
    assert events([]) == {}
    assert mail([], "")["subject"].startswith("Nothing is due")


def test_the_same_bytes_in_any_process():
    script = (
        "import hashlib, sys; sys.path.insert(0, sys.argv[1]); from test_faces import *\n"
        "for make in (morning_page, morning_calendar, morning_mail):\n"
        "    made = make(items(), DAY, ROSTER.outfit)\n"
        "    print(hashlib.sha256(made.encode() if isinstance(made, str) else made).hexdigest())"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", script, str(Path(__file__).parent)],
            env={"PYTHONHASHSEED": seed, "TZ": zone},
            capture_output=True,
            check=True,
        ).stdout
        for seed, zone in (("1", "Pacific/Auckland"), ("2", "America/Chicago"))
    }
    assert len(said) == 1 and len(said.pop().split()) == 3
