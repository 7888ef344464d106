"""Records in plain words."""

import pytest

from fieldnotes.book.plain_words import describe, list_ids


@pytest.mark.parametrize(
    ("kind", "slots", "line"),
    [
        (
            "mite_check",
            {"colonies": ["12", "14", "15"], "yard": "Quarry", "method": "alcohol_wash", "mites": 3},
            "12, 14, 15 at Quarry: alcohol wash, 3 mites",
        ),
        ("mite_check", {"colonies": ["2"], "mites": 0, "bees": 300}, "2: mite check, no mites, in 300 bees"),
        ("mite_check", {"colonies": ["2"], "mites": 5, "mites_high": 6}, "2: mite check, 5 or 6 mites"),
        (
            "treatment",
            {
                "every_colony": True,
                "except_colonies": ["4"],
                "yard": "Quarry",
                "agent": "amitraz",
                "form": "strip",
                "product": "greenies",
                "step": "in",
                "amount": 2,
                "unit": "strip",
            },
            "all but 4 at Quarry: greenies (amitraz strip) in, 2 strips",
        ),
        (
            "treatment",
            {"colonies": ["4"], "agent": "formic_acid", "step": "out", "state": "planned", "on": "2026-06-08"},
            "4: formic acid out (planned, Mon 8 Jun 2026)",
        ),
        ("gear", {"colony_count": 24, "item": "super", "step": "on", "count": 2}, "24 hives: 2 supers on"),
        ("gear", {"yard": "Quarry", "item": "brood_box", "count": 2, "step": "off"}, "Quarry: 2 brood boxes off"),
        (
            "feed",
            {"colonies": ["1"], "feed": "pollen_patty", "amount": 2, "unit": "patty"},
            "1: pollen patty, 2 patties",
        ),
        (
            "harvest",
            {"yard": "Quarry", "amount": 40.5, "unit": "lb", "moisture": 17.5},
            "Quarry: honey taken, 40.5 lb, 17.5 % water",
        ),
        (
            "inspection",
            {"colonies": ["1"], "queen": "seen", "eggs": False, "signs": ["wax_moth"]},
            "1: queen seen, no eggs, wax moth",
        ),
        ("change", {"colonies": ["7"], "step": "combined", "with": ["8"]}, "7: combined with 8"),
        ("conditions", {"temp": 41, "unit": "F", "sky": "clear"}, "41 F, clear"),
        ("todo", {"text": "bring the ladder", "state": "planned"}, "to do: bring the ladder (planned)"),
    ],
)
def test_a_record_is_said(kind, slots, line):
    assert describe(kind, slots) == line


def test_what_goes_without_saying_is_not_said():
    slots = {"colonies": ["1"], "mites": 2, "on": "2026-06-01", "by": "Ann"}
    assert describe("mite_check", slots, "2026-06-01T07:30", "Ann") == "1: mite check, 2 mites"
    assert describe("mite_check", slots, "2026-06-02", "Bo") == "1: mite check, 2 mites (Mon 1 Jun 2026, by Ann)"
    assert describe("mite_check", slots | {"state": "not_done"}, "2026-06-01", "Ann").endswith(
        "(not done, Mon 1 Jun 2026)"
    )


def test_ids_in_a_row_become_a_range():
    assert list_ids(["12", "3", "4", "5", "N2", "N1", "QB"]) == "3-5, 12, N1, N2, QB"
