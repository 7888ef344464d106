"""The report and the register on paper."""

import csv
import datetime
import io
from html.parser import HTMLParser

from fieldnotes.digest.register import register_csv, register_page, register_text
from fieldnotes.digest.worked import worked_json, worked_text
from fieldnotes.records import StoredRecord
from fieldnotes.roster import parse_roster
from fieldnotes.schedule.register import register
from fieldnotes.schedule.worked import Worked, worked

DAY = datetime.date(2026, 12, 31)
ROSTER = parse_roster('outfit = "Quillfeather & Co"\n[[yard]]\nname = "Quarry"\ncolonies = ["1-18"]', "r")


def rec(n, kind, on, **slots):
    return StoredRecord(
        id=f"r{n}",
        note_id=f"n{n}",
        received=f"{on}T12:00",
        said=on,
        sender="Marit",
        kind=kind,
        slots={"on": on} | slots,
    )


def washes(n, on, mites):
    return [
        rec(n + i, "mite_check", on, yard="Quarry", colonies=[str(i)], mites=m, bees=300)
        for i, m in enumerate(mites, 1)
    ]


STRIPS = {"yard": "Quarry", "every_colony": True, "agent": "amitraz", "form": "strip"}
BOOK = [
    *washes(0, "2026-08-10", [30, 28, 33]),
    rec(10, "treatment", "2026-08-14", step="in", product="<b>greenies</b>", amount=2, unit="strip", **STRIPS),
    rec(11, "treatment", "2026-10-01", step="out", **STRIPS),
    *washes(20, "2026-10-12", [26, 30, 29]),
    rec(30, "treatment", "2026-11-20", step="in", yard="Quarry", colonies=["4"], agent="oxalic_acid", form="dribble"),
]


def test_the_report_says_it_on_one_screen():
    text = worked_text(worked(BOOK, ROSTER, DAY), ROSTER.outfit)
    lines = text.splitlines()
    assert lines[0] == "Quillfeather & Co: did it work?"
    assert len(lines) <= 24
    assert any(line.split()[:2] == ["amitraz", "19"] and "10.1" in line and "9.4" in line for line in lines)
    assert "it may only have held the line" in text and "fell short" in text
    assert "EMA" in text


def test_an_empty_book():
    assert "No treatment is in the book" in worked_text(worked([], ROSTER, DAY))
    assert "No treatment is in the book" in register_text([])


def test_the_report_as_json():
    report = worked(BOOK, ROSTER, DAY)
    assert Worked.model_validate_json(worked_json(report)) == report


def test_the_csv_has_every_field_and_empty_gaps():
    rows = register(BOOK, ROSTER, DAY)
    table = list(csv.DictReader(io.StringIO(register_csv(rows))))
    assert len(table) == 2
    assert table[0]["date in"] == "2026-08-14" and table[0]["waiting days"] == "14"
    assert table[0]["lot number"] == "" and table[0]["vet"] == ""
    assert table[1]["colonies"] == "4" and table[1]["date out"] == "2026-11-20"


def test_no_cell_is_a_formula():
    evil = [rec(1, "treatment", "2026-08-14", step="in", yard="Quarry", every_colony=True, product="=1+1")]
    assert "'=1+1" in register_csv(register(evil, ROSTER, DAY))


class Cells(HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags, self.gaps = [], 0

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.gaps += ("class", "gap") in attrs


def test_the_page_prints_gaps_and_escapes_what_was_written():
    page = register_page(register(BOOK, ROSTER, DAY), ROSTER.outfit, 2026)
    cells = Cells()
    cells.feed(page)
    assert cells.tags.count("tr") == 3 and cells.tags.count("td") == 2 * cells.tags.count("th")
    assert cells.gaps >= 8 and "b" not in cells.tags
    assert "&lt;b&gt;greenies" in page and "Quillfeather &amp; Co, 2026" in page
    assert "@page" in page and "5 years" in page


def test_the_table_shows_gaps():
    text = register_text(register(BOOK, ROSTER, DAY), ROSTER.outfit, 2026)
    assert "not said" in text and "every colony" not in text and "1–18" in text
    assert text.splitlines()[0] == "Treatment register, Quillfeather & Co, 2026"
