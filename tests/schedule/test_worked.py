"""What treatments did over the seasons: pairing, pooling, untreated colonies, advice."""

import pytest
from sched_helpers import ROSTER, day, rec, strips_in, strips_out, wash

from fieldnotes.schedule.worked import worked

ALL = {"every_colony": True}


def season(year, before, after, agent="amitraz", form="strip", yard="Quarry", colonies=("1", "2", "3")):
    def treated(on, step):
        return rec("treatment", on, yard=yard, colonies=list(colonies), step=step, agent=agent, form=form)

    return [
        *(wash(f"{year}-08-10", yard, colonies=[c], mites=before, bees=300) for c in colonies),
        treated(f"{year}-08-14", "in"),
        treated(f"{year}-10-01", "out"),
        *(wash(f"{year}-10-12", yard, colonies=[c], mites=after, bees=300) for c in colonies),
    ]


def report(records, **how):
    return worked(records, ROSTER, day("2027-01-01"), **how)


@pytest.mark.parametrize(
    ("before", "after", "verdict", "says"),
    [
        (40, 0, "worked", "worked: at least 97 %"),
        (30, 12, "fell short", "fell short: at most 74 % fewer"),
        (20, 18, "fell short", "may only have held the line"),
        (10, 30, "fell short", "mites rose"),
        (10, 11, "fell short", "mites may even have risen"),
        (1, 0, "can't tell", "too few mites before"),
    ],
)
def test_verdicts_in_words(before, after, verdict, says):
    (result,) = report(season(2026, before, after)).treatments
    assert (result.verdict, result.counted) == (verdict, 3)
    assert says in result.says


def test_only_the_nearest_count_before_and_the_first_after_within_their_windows():
    book = season(2026, 30, 10, colonies=["1"])
    book += [
        wash("2026-07-20", "Quarry", colonies=["1"], mites=99, bees=300),
        wash("2026-11-20", "Quarry", colonies=["1"], mites=99, bees=300),
        wash("2026-09-10", "Quarry", colonies=["1"], mites=99, bees=300),
    ]
    (result,) = report(book).treatments
    assert (result.before.mites, result.after.mites) == (30, 10)
    late = [r for r in season(2026, 30, 10, colonies=["1"]) if r.said != "2026-10-12"]
    late.append(wash("2026-12-10", "Quarry", colonies=["1"], mites=3, bees=300))
    assert report(late).treatments[0].verdict == "not counted"
    early = [r for r in season(2026, 30, 10, colonies=["1"]) if r.said != "2026-08-10"]
    early.append(wash("2026-07-01", "Quarry", colonies=["1"], mites=3, bees=300))
    assert report(early).treatments[0].verdict == "not counted"


def test_a_late_count_may_show_that_it_worked_but_not_that_it_failed():
    oxalic = {"agent": "oxalic_acid", "form": "vapour"}

    def counted(after, on):
        book = [
            wash("2026-04-10", colonies=["3"], mites=40, bees=300),
            rec("treatment", "2026-04-12", yard="Millpond", colonies=["3"], step="in", **oxalic),
            wash(on, colonies=["3"], mites=after, bees=300),
        ]
        return report(book).treatments[0]

    assert counted(36, "2026-05-12").verdict == "fell short"
    late = counted(36, "2026-05-13")
    assert (late.verdict, late.counted) == ("can't tell", 1) and late.reduction.percent == 10
    assert late.says == "can't tell: counted 31 days after it ended, when mites may have come back"
    assert counted(0, "2026-06-10").verdict == "worked"


def test_two_actives_in_at_the_same_time_are_told_of_together():
    def treated(on, step, agent, form):
        return rec("treatment", on, yard="Quarry", colonies=["1", "2", "3"], step=step, agent=agent, form=form)

    book = [
        *season(2026, 40, 4),
        treated("2026-08-14", "in", "thymol", "gel"),
        treated("2026-09-11", "out", "thymol", "gel"),
    ]
    found = {t.agent: t for t in report(book).treatments}
    assert (found["amitraz"].beside, found["thymol"].beside) == (["thymol gel"], ["amitraz strips"])
    twice = [treated(on, "in", "oxalic_acid", "dribble") for on in ("2026-08-20", "2026-09-10")]
    found = {t.agent: t for t in report([*season(2026, 40, 4), *twice]).treatments}
    assert found["amitraz"].beside == ["oxalic acid dribble"]
    apart = [*season(2026, 40, 4), *season(2025, 40, 4, agent="thymol", form="gel")]
    assert [t.beside for t in report(apart).treatments] == [[], []]


def test_what_has_no_group_and_fell_short_twice_is_no_case_of_resistance():
    def advised(book):
        return " ".join(report(list(book)).advice)

    gel = advised(r for year in (2025, 2026) for r in season(year, 30, 25, agent="thymol", form="gel"))
    assert "Thymol (no numbered group) fell short 2 times" in gel and "resistance" not in gel
    assert "the weather and the brood it was given in" in gel
    strips = advised([*season(2025, 30, 25), *season(2026, 30, 25)])
    assert "resistance test" in strips


def test_what_a_treatment_felled_is_no_count_after_it():
    acid = {"agent": "oxalic_acid", "form": "dribble"}

    def book(on, mites):
        return [
            wash("2026-01-08", "Quarry", colonies=["7"], method="board", mites=4, board_days=2),
            rec("treatment", "2026-01-10", yard="Quarry", colonies=["7"], step="in", **acid),
            wash(on, "Quarry", colonies=["7"], method="board", mites=mites, board_days=2),
        ]

    assert report(book("2026-01-12", 90)).treatments[0].verdict == "not counted"
    assert report(book("2026-01-31", 90)).treatments[0].verdict == "not counted"
    assert report(book("2026-02-01", 90)).treatments[0].verdict == "fell short"


def test_a_count_after_the_next_treatment_says_nothing():
    book = [r for r in season(2026, 30, 10, colonies=["1"]) if r.said != "2026-10-12"]
    book.append(rec("treatment", "2026-10-05", yard="Quarry", colonies=["1"], step="in", agent="oxalic_acid",
                    form="dribble"))  # fmt: skip
    book.append(wash("2026-10-12", "Quarry", colonies=["1"], mites=1, bees=300))
    by_name = {t.name: t.verdict for t in report(book).treatments}
    assert by_name["amitraz strips"] == "not counted"


def test_samples_of_the_yard_when_no_colony_has_both():
    book = [
        wash("2026-08-10", "Quarry", mites=60, bees=600),
        strips_in("2026-08-14", "Quarry", **ALL),
        strips_out("2026-10-01", "Quarry", **ALL),
        wash("2026-10-12", "Quarry", colonies=["4"], mites=30, bees=300),
        wash("2026-10-13", "Quarry", colonies=["9"], mites=10, bees=300),
    ]
    (result,) = report(book).treatments
    assert (result.before.mites, result.after.mites, result.after.exposure) == (60, 40, 600)


def test_a_course_is_one_treatment():
    def vapour(on, n):
        return rec("treatment", on, yard="Quarry", **ALL, step="in", agent="oxalic_acid", form="vapour", round=n)

    book = [
        wash("2026-11-01", "Quarry", colonies=["1"], mites=60, bees=300),
        vapour("2026-11-02", 1),
        vapour("2026-11-08", 2),
        vapour("2026-11-14", 3),
        wash("2026-11-26", "Quarry", colonies=["1"], mites=40, bees=300),
    ]
    (result,) = report(book).treatments
    assert (result.start, result.end, result.verdict) == ("2026-11-02", "2026-11-14", "fell short")


def test_untreated_colonies_that_were_counted_too():
    book = season(2026, 12, 3, colonies=["1"])
    book += [
        wash("2026-08-10", "Quarry", colonies=["9"], mites=10, bees=300),
        wash("2026-10-12", "Quarry", colonies=["9"], mites=15, bees=300),
        wash("2026-08-10", "Quarry", colonies=["8"], mites=10, bees=300),  # counted once only
    ]
    (result,) = report(book).treatments
    # Henderson-Tilton: 100 x (1 - (3 x 10) / (12 x 15)) = 83.33
    assert result.controls == 1 and result.against.percent == pytest.approx(83.33, abs=0.01)
    assert result.reduction.percent == pytest.approx(75)
    assert result.against.lower < 75


def untreated(before, after, colonies):
    return [
        wash(on, "Quarry", colonies=[c], mites=mites, bees=300)
        for c in colonies
        for on, mites in (("2026-08-10", before), ("2026-10-12", after))
    ]


def test_untreated_colonies_decide_where_the_plain_counts_cannot():
    # The counts alone cannot tell 93 % from 95 %, but the mites of the untreated grew fivefold meanwhile.
    book = season(2026, 100, 7, colonies=["1"])
    assert report(book).treatments[0].verdict == "can't tell"
    (result,) = report(book + untreated(40, 200, ["8", "9"])).treatments
    assert (result.verdict, result.controls) == ("worked", 2)
    # 100 x (1 - (7 x 80) / (100 x 400)) = 98.6
    assert result.against.percent == pytest.approx(98.6)
    assert "fewer mites than without it" in result.says


def test_mites_that_fell_by_themselves_are_no_success_of_the_treatment():
    # 97 % fewer, but the untreated lost nine in ten as well: 100 x (1 - (2 x 600) / (200 x 60)) = 90
    book = season(2026, 200, 2, colonies=["1"])
    assert report(book).treatments[0].verdict == "worked"
    (result,) = report(book + untreated(300, 3, ["8", "9"])).treatments
    assert result.against.percent == pytest.approx(0)
    assert result.verdict == "fell short"


def test_untreated_colonies_too_few_to_tell_leave_it_to_the_plain_counts():
    (result,) = report(season(2026, 30, 25, colonies=["1"]) + untreated(1, 2, ["9"])).treatments
    assert result.controls == 1 and result.verdict == "fell short"
    assert "only have held the line" in result.says


def test_an_active_over_the_seasons():
    book = season(2024, 40, 0) + season(2025, 30, 25) + season(2026, 30, 28)
    (agent,) = report(book).agents
    assert (agent.treatments, agent.counted, agent.worked, agent.fell_short) == (3, 3, 1, 2)
    assert agent.years == [2024, 2025, 2026] and agent.group == "19"
    assert agent.before.mites == 300 and agent.after.mites == 159


def test_two_failures_ask_for_rotation():
    assert report(season(2025, 30, 25)).advice == []
    said = report(season(2025, 30, 25) + season(2026, 30, 28)).advice
    assert len(said) == 1 and "Amitraz (group 19) fell short 2 times (Quarry 2025, Quarry 2026)" in said[0]
    assert "Rotate to another mode of action" in said[0]
    assert said[0].endswith("Used there: Amitraz (group 19) 2025-08, 2026-08.")


def test_what_was_used_when_names_every_group_of_the_last_seasons():
    book = [r for year in (2017, 2024, 2025, 2026) for r in season(year, 30, 28)]
    book += season(2023, 40, 0, agent="formic_acid", form="pad") + season(2026, 40, 0, yard="Millpond")
    said = next(a for a in report(book).advice if "fell short" in a)
    used = said.split("Used there: ")[1]
    assert used == "Formic acid (no numbered group) 2023-08; Amitraz (group 19) 2024-08, 2025-08, 2026-08."


def test_one_mode_of_action_again_and_again():
    book = []
    for year, agent in ((2024, "tau_fluvalinate"), (2025, "flumethrin"), (2026, "tau_fluvalinate")):
        book += season(year, 40, 0, agent=agent)
    said = report(book).advice
    assert len(said) == 1 and "the last 3 treatments were of one mode of action" in said[0]
    assert report(book + season(2026, 40, 0, agent="formic_acid", form="pad")).advice == []


def test_by_yard_and_with_a_filter():
    book = season(2026, 30, 25) + season(2026, 40, 0, agent="formic_acid", form="pad", yard="Millpond")
    whole = report(book)
    assert [(a.yard, a.agent) for a in whole.yards] == [("Millpond", "formic_acid"), ("Quarry", "amitraz")]
    assert [t.yard for t in report(book, yard="Quarry").treatments] == ["Quarry"]
    assert [t.agent for t in report(book, agent="formic_acid").treatments] == ["formic_acid"]
    assert report(book, since=day("2026-09-01")).treatments == []


def test_what_runs_and_what_was_never_counted():
    book = [strips_in("2026-08-14", "Quarry", **ALL), strips_out("2026-10-01", "Millpond", **ALL)]
    by_yard = {t.yard: t for t in report(book).treatments}
    assert by_yard["Quarry"].says == "still in" and by_yard["Quarry"].end is None
    assert by_yard["Millpond"].verdict == "not counted"


def test_a_treatment_of_which_a_part_is_still_in():
    book = [r for r in season(2026, 40, 0) if r.slots.get("step") != "out"]
    book.append(strips_out("2026-10-01", "Quarry", colonies=["1", "2"]))
    (result,) = report(book).treatments
    assert (result.end, result.partly_out, result.counted) == (None, "2026-10-01", 2)
    (whole,) = report(season(2026, 40, 0)).treatments
    assert (whole.end, whole.partly_out) == ("2026-10-01", None)
