"""`fieldnotes setup`."""

import pytest

from fieldnotes.roster import load_roster

ANSWERS = 'Two Ponds\nQuarry\n1-9, N1-N3\nAunt Wen\'s "old" place\n\n\ngreenies = amitraz strips\nwhat\n\n'


def test_it_asks_only_what_it_must(bare):
    bare.ok("setup", stdin=ANSWERS)
    roster = load_roster(bare.home / "roster.toml")
    assert roster.outfit == "Two Ponds"
    assert [yard.name for yard in roster.yard] == ["Quarry", 'Aunt Wen\'s "old" place']
    assert roster.words == {"greenies": "amitraz strips"}
    assert (bare.home / "book.db").exists()


def test_a_roster_written_by_hand_gets_its_book(bare):
    bare.home.mkdir()
    (bare.home / "roster.toml").write_text('outfit = "Two Ponds"\n')
    assert "was there already, left as it is" in bare.ok("setup")
    assert (bare.home / "roster.toml").read_text() == 'outfit = "Two Ponds"\n'
    assert (bare.home / "book.db").exists()
    assert "--overwrite" in bare.bad("setup")


def test_a_range_that_is_none_is_asked_again(bare):
    out = bare.ok("setup", stdin="Two Ponds\nQuarry\n9-1\n1-9\n\n\n")
    assert '"9-1" is not a range of colonies. Once more, please.' in out
    assert load_roster(bare.home / "roster.toml").yard[0].ids[-1] == "9"


def test_questions_left_open_make_nothing(bare):
    assert "nothing was made" in bare.bad("setup", stdin="Two Ponds\nQuarry\n")
    assert not bare.home.exists()


def test_a_roster_is_not_overwritten_unless_told_to_and_then_kept(outfit, tmp_path):
    before = (outfit.home / "roster.toml").read_text()
    (tmp_path / "new.toml").write_text('outfit = "Three Ponds"\n')
    assert "--overwrite" in outfit.bad("setup", "--from", tmp_path / "new.toml")
    assert (outfit.home / "roster.toml").read_text() == before
    out = outfit.ok("setup", "--from", tmp_path / "new.toml", "--overwrite")
    assert "was there already, left as it is" in out
    assert load_roster(outfit.home / "roster.toml").outfit == "Three Ponds"
    (kept,) = outfit.home.glob("roster-until-*.toml")
    assert kept.read_text() == before


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ('outfit = "x\n', "line 1"),
        ('outfit = "x"\n\n[[yard]]\nname = "A"\ncolonies = ["9-1"]\n', "line 5"),
        ('outfit = "x"\ncolour = "red"\n', "line 2: colour: the roster has no such field"),
    ],
)
def test_a_broken_roster_is_named_by_line_and_reason(bare, tmp_path, text, reason):
    (tmp_path / "broken.toml").write_text(text)
    assert reason in bare.bad("setup", "--from", tmp_path / "broken.toml")
    assert not bare.home.exists()


def test_a_missing_roster_is_named(bare, tmp_path):
    assert "There is no file" in bare.bad("setup", "--from", tmp_path / "none.toml")


def test_a_home_where_none_can_be_is_named(bare, tmp_path):
    (tmp_path / "file").write_text("x")
    assert "cannot be made" in bare.bad("setup", "--home", tmp_path / "file" / "home", stdin="A\n\n\n")
