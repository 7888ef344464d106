"""`fieldnotes done`, `worked`, `register`, and the weather in `morning`."""

import json


def test_a_promise_is_closed_by_hand_and_opened_again(outfit):
    outfit.ok("take", "--on", "2026-06-01", "--by", "Ann", stdin="need to bring the ladder to the quarry friday")
    late = ("--on", "2026-06-10")
    assert "ladder" in outfit.ok("morning", *late)
    listed = outfit.ok("done", *late)
    assert "ladder" in listed
    assert outfit.ok("done", "ladder", *late).startswith("Done: ")
    assert "ladder" not in outfit.ok("morning", *late)
    assert "did by hand" in outfit.ok("history")
    assert "Undone: thing done" in outfit.ok("undo").replace("1 ", "")
    assert outfit.ok("done", listed.split()[0], *late).startswith("Done: ")


def test_done_says_when_it_cannot_tell(outfit):
    for tool in ("ladder", "smoker"):
        outfit.ok("take", "--on", "2026-06-01", stdin=f"need to bring the {tool} to the quarry friday")
    late = ("--on", "2026-06-10")
    assert "lists what is due" in outfit.bad("done", "chalkbrood", *late)
    assert "2 things that are due" in outfit.bad("done", "bring", *late)


def test_worked_and_register(outfit):
    notes = [
        ("2026-07-01", "alcohol wash at quarry half cup each 12 had 24 mites 14 had 30"),
        ("2026-07-03", "put greenies in all of them at the quarry, two each, lot 4471B"),
        ("2026-08-20", "greenies out of all of them at the quarry"),
        ("2026-09-01", "alcohol wash at quarry half cup each 12 had 23 mites 14 had 31"),
    ]
    for day, text in notes:
        outfit.ok("take", "--on", day, "--by", "Ann", stdin=text)
    report = outfit.ok("worked", "--on", "2026-09-02")
    assert "Quarry" in report
    assert json.loads(outfit.ok("worked", "--on", "2026-09-02", "--json", "--agent", "amitraz"))
    assert "no active on file" in outfit.bad("worked", "--agent", "hope")
    assert "No such treatment" in outfit.ok("worked", "--on", "2026-09-02", "--agent", "thymol")
    assert outfit.ok("worked", "--on", "2026-09-02", "--yard", "QUARRY") == report
    assert '"Nowhere" is no yard' in outfit.bad("worked", "--yard", "Nowhere")
    table = outfit.ok("register", "--year", "2026", "--on", "2026-09-02")
    assert "amitraz" in table.lower() and "4471B" in table and "2 strips" in table
    assert "<html" in outfit.ok("register", "--form", "page", "--on", "2026-09-02").lower()
    assert outfit.ok("register", "--form", "csv", "--on", "2026-09-02").count("\n") >= 2
    assert "Choose table, csv or page" in outfit.bad("register", "--form", "song")


def test_the_weather_warns(outfit, tmp_path):
    outfit.ok("take", "--on", "2026-07-01", "--by", "Ann", stdin="put formic acid pads in 12 at the quarry, two pads")
    (tmp_path / "weather.csv").write_text("date,high,low\n2026-07-02,101,70\n")
    before = outfit.ok("morning", "--on", "2026-07-02")
    after = outfit.ok("morning", "--on", "2026-07-02", "--weather", tmp_path / "weather.csv")
    assert after != before
    assert "101" in after
    (tmp_path / "weather.csv").write_text("date,high\n2026-02-30,1\n")
    assert "line 2" in outfit.bad("morning", "--weather", tmp_path / "weather.csv")


def test_a_doubt_about_strips_is_asked_and_closed_by_hand(outfit):
    outfit.ok("take", "-", "--on", "2026-08-14", stdin="Quarry. Put 2 amitraz strips in 5 and 6.")
    outfit.ok("take", "-", "--on", "2026-10-05", stdin="Quarry. Pulled the strips from 6, pulled one strip from 5.")
    late = ("--on", "2026-10-06")
    assert "1 of 2 amitraz strips came out" in outfit.ok("morning", *late)
    assert outfit.ok("done", "did the other", *late).startswith("Done: Quarry 5: 1 of 2")
    left = outfit.ok("morning", *late)
    assert "to settle" not in left and "5: take the amitraz strips out" in left


def test_a_question_of_the_reader_is_not_closed_by_hand(outfit):
    outfit.ok("take", "-", "--on", "2026-08-14", stdin="Quarry. Put zorbles in 5.")
    late = ("--on", "2026-08-14")
    assert "1 to settle" in outfit.ok("morning", *late)
    assert "answer-" not in outfit.ok("done", *late)
