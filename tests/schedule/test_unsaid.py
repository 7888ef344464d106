"""What notes leave unsaid and a beekeeper knows: which active, how many pads, which hives the supers came off."""

import pytest
from sched_helpers import ROSTER, day, due, one, rec, strips_in, strips_out, wash

from fieldnotes.roster import parse_roster
from fieldnotes.schedule.register import register
from fieldnotes.schedule.worked import worked

ALL = {"every_colony": True}
EUROPE = ROSTER.model_copy(update={"practice": ROSTER.practice.model_copy(update={"country": "eu"})})


def given(said, form="vapour", **slots):
    return rec("treatment", said, **({"yard": "Quarry", "step": "in", "form": form} | ALL | slots))


ROUNDS = [given("2026-03-30", agent="oxalic_acid", round=1), given("2026-04-05", round=2), given("2026-04-11", round=3)]


def test_vaped_again_goes_on_with_the_course():
    item = one(ROUNDS[:2], "2026-04-06", "next_dose")
    assert "third dose of oxalic acid vapour, the second was 5 April" in item.says
    assert not item.sure and "not say of what active: oxalic acid assumed" in item.because.reason
    assert due(ROUNDS, "2026-04-14", what="next_dose") == []
    assert "oxalic acid vapour was given 11 April" in one(ROUNDS, "2026-04-21", "check_after").says


def test_only_one_active_is_vaporised_in_the_us_and_two_in_europe():
    (item,) = due([given("2026-04-05", round=1)], "2026-04-08", what="next_dose")
    assert "oxalic acid vapour" in item.says and "respirator" in item.caution
    assert due([given("2026-04-05", round=1)], "2026-04-08", EUROPE, what="next_dose") == []


def test_a_dribble_is_held_to_the_label_of_the_acid():
    too_much = given("2026-11-21", "dribble", amount=60, unit="ml")
    assert any("60 ml of oxalic acid dribble" in i.says for i in due([too_much], "2026-11-22", what="answer"))


def test_a_second_tray_is_of_what_is_in():
    first = rec(
        "treatment", "2026-07-14", yard="Quarry", colonies=["3", "4"], step="in", agent="thymol", unit="tray", amount=1
    )
    second = rec("treatment", "2026-07-28", yard="Quarry", colonies=["3", "4"], step="in", unit="tray", amount=1)
    assert due([first, second], "2026-07-29", what="next_dose") == []
    item = one([first, second], "2026-08-12", "take_out")
    assert "thymol gel" in item.says and (item.due, item.latest) == ("2026-08-11", "2026-08-25")


def test_a_round_that_names_nothing_is_of_the_course():
    first = given("2026-04-05", agent="oxalic_acid", round=1)
    second = rec("treatment", "2026-04-10", yard="Quarry", **ALL, step="in", round=2)
    assert "third dose of oxalic acid vapour" in one([first, second], "2026-04-14", "next_dose").says


def test_of_two_that_may_be_meant_none_is_assumed():
    both = [
        rec("treatment", "2026-07-01", yard="Quarry", colonies=["3"], step="in", agent="amitraz", form="strip"),
        rec("treatment", "2026-07-02", yard="Quarry", colonies=["3"], step="in", agent="coumaphos", form="strip"),
    ]
    third = rec("treatment", "2026-07-06", yard="Quarry", colonies=["3"], step="in", form="strip")
    assert {r.active for r in register([*both, third], ROSTER, day("2026-07-07"))} == {"amitraz", "coumaphos", None}


def test_a_second_pad_has_the_clock_of_the_first():
    pads = {"yard": "Quarry", "colonies": ["3"], "agent": "formic_acid", "form": "pad"}
    records = [
        rec("treatment", "2026-06-26", step="in", amount=1, unit="pad", **pads),
        rec("treatment", "2026-07-06", step="out", note="n", **pads),
        rec("treatment", "2026-07-06", step="in", note="n", **pads),
    ]
    item = one(records, "2026-07-16", "take_out")
    assert (item.due, item.latest) == ("2026-07-16", "2026-07-16")
    assert due(records, "2026-07-18", what="check_after") == []


def test_the_register_shows_the_gap_and_what_is_likely():
    rows = register(ROUNDS, ROSTER, day("2026-04-12"))
    assert [r.active for r in rows] == ["oxalic acid", None, None]
    assert [r.waiting_days for r in rows] == [0, None, None]
    assert [r.note for r in rows] == ["given", "given; likely oxalic acid", "given; likely oxalic acid"]


def test_the_course_is_judged_as_one_treatment():
    counts = [wash("2026-03-29", "Quarry", colonies=[c], mites=9, bees=300) for c in ("1", "2")]
    later = [wash("2026-04-22", "Quarry", colonies=[c], mites=8, bees=300) for c in ("1", "2")]
    (result,) = worked([*counts, *ROUNDS, *later], ROSTER, day("2026-04-23")).treatments
    assert (result.name, result.start, result.verdict) == ("oxalic acid vapour", "2026-03-30", "fell short")
    assert "oxalic acid assumed" in result.assumed


def box(said, step, yard="Marsh", **slots):
    return rec("gear", said, yard=yard, item="super", step=step, **slots)


@pytest.mark.parametrize("on", [{"colony_count": 18}, ALL])
def test_unnamed_hives_that_lost_their_supers_are_those_that_were_treated(on):
    records = [
        box("2026-06-24", "on", **on),
        strips_in("2026-07-21", "Marsh", colony_count=14, note="n"),
        box("2026-07-21", "off", colony_count=14, note="n"),
    ]
    assert due(records, "2026-07-22", what="supers_clash") == []
    assert due([*records[:2], box("2026-07-21", "off", colony_count=9)], "2026-07-22", what="supers_clash") != []


def test_honey_out_of_supers_that_were_off_before_is_no_clash():
    harvest = rec("harvest", "2026-07-12", yard="Quarry", amount=220, unit="lb")
    off, strips = box("2026-07-09", "off", "Quarry", **ALL), strips_in("2026-07-11", "Quarry", **ALL)
    assert due([off, strips, harvest], "2026-07-12", what="supers_clash") == []
    assert due([strips, harvest], "2026-07-12", what="supers_clash") != []
    back_on = box("2026-07-10", "on", "Quarry", colonies=["4"])
    clashes = due([off, back_on, strips, harvest], "2026-07-12", what="supers_clash")
    assert [c.colonies for c in clashes] == [["4"], ["4"]]
    long_ago = box("2026-05-01", "off", "Quarry", **ALL)
    assert due([long_ago, strips, harvest], "2026-07-12", what="supers_clash") != []
    none_of_4 = box("2026-07-09", "off", "Quarry", every_colony=True, except_colonies=["4"])
    assert one([none_of_4, strips, harvest], "2026-07-12", "supers_clash").colonies == ["4"]


def test_promised_supers_are_warned_of_what_is_in():
    plan = rec("gear", "2026-07-01", yard="Quarry", **ALL, item="super", step="on", state="planned", on="2026-07-20")
    assert "Not while" not in one([plan], "2026-07-19", "promise").because.reason
    strips = strips_in("2026-07-10", "Quarry", **ALL)
    assert "Not while amitraz strips are in" in one([plan, strips], "2026-07-19", "promise").because.reason
    out = strips_out("2026-07-15", "Quarry", **ALL)
    assert "Not before 29 July, for amitraz strips" in one([plan, strips, out], "2026-07-19", "promise").because.reason


def test_promised_strips_are_warned_of_supers():
    plan = strips_in("2026-07-01", "Quarry", **ALL, state="planned", on="2026-07-20")
    on = box("2026-05-01", "on", "Quarry", **ALL)
    assert "Supers are on, and must come off first" in one([on, plan], "2026-07-19", "promise").because.reason
    off = box("2026-07-15", "off", "Quarry", **ALL)
    assert "come off first" not in one([on, off, plan], "2026-07-19", "promise").because.reason


def test_a_warning_without_a_roster_country():
    bare = parse_roster('units = "metric"', "r")
    assert due([given("2026-04-05", round=1)], "2026-04-08", bare, what="next_dose") == []


def test_strips_of_nobody_knows_what_are_asked_about_as_long_as_they_are_in():
    strips = rec("treatment", "2026-06-01", yard="Quarry", **ALL, step="in", form="strip", amount=2, unit="strip")
    item = one([strips], "2026-12-01", "answer")
    assert item.section == "settle" and "what was the active of the strips that were put in 1 June?" in item.says
    out = rec("treatment", "2026-08-01", yard="Quarry", **ALL, step="out", form="strip")
    assert one([strips, out], "2026-08-20", "answer").id == item.id
    assert due([strips, out], "2026-12-01", what="answer") == []
    told = strips.model_copy(update={"slots": strips.slots | {"agent": "amitraz"}})
    assert due([told], "2026-07-01", what="answer") == []
    treated = rec("treatment", "2026-06-03", yard="Quarry", colonies=["2"], step="in")
    assert "the treatment that was given 3 June" in one([treated], "2026-06-20", "answer").says
    assert due([treated], "2026-12-01", what="answer") == []


def test_what_no_label_on_file_tells_of_is_asked_about():
    pouch = rec("treatment", "2026-07-01", yard="Quarry", colonies=["3"], step="in", agent="vadescana")
    item = one([pouch], "2026-07-02", "answer")
    assert "how long does the vadescana of 1 July stay in?" in item.says and "No label" in item.because.reason
    said = rec("treatment", "2026-07-01", yard="Quarry", colonies=["3"], step="in", agent="vadescana", days=42)
    assert due([said], "2026-07-02", what="answer") == []
    assert one([said], "2026-08-12", "take_out").latest == "2026-08-12"
    own = parse_roster('[[label]]\nagent = "vadescana"\ndays_in = [30, 60]', "r")
    assert due([pouch], "2026-07-02", own, what="answer") == []
    assert due([pouch], "2027-07-02", what="answer") == []
