"""What each treatment did, over the seasons: by treatment, by yard and active, and what to rotate."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from pydantic import BaseModel

from fieldnotes.records import StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.colonies import Colony
from fieldnotes.schedule.counted import Counted, Outcome, Treatment, treatments_of
from fieldnotes.schedule.replay import replay
from fieldnotes.schedule.staying import guess_of
from fieldnotes.trade.modes import expectation, mode_of, same_mode
from fieldnotes.trade.words import treatment_name

if TYPE_CHECKING:
    from fieldnotes.trade.counts import Count
    from fieldnotes.trade.efficacy import Efficacy

HISTORY_YEARS = 5
"""So many seasons of what was used are named beside the advice to rotate."""
FAILURES = 2
"""Treatments of one active that fell short before the advice is to rotate."""


class Level(BaseModel):
    """A level with its exact 95 % interval. `unit` is "mites per 100 bees" or "mites a day"."""

    mites: float
    exposure: float
    rate: float
    lower: float
    upper: float
    unit: str


class Reduction(BaseModel):
    """Percent reduction with its exact 95 % interval; None where it cannot be computed."""

    percent: float | None
    lower: float | None
    upper: float | None


class TreatmentResult(BaseModel):
    """One treatment: what the counts before and after say of it.

    `verdict` is "worked", "fell short", "can't tell", or "not counted"; `says` the same in a sentence. `against` is
    the reduction set against `controls` untreated colonies of the yard (Henderson-Tilton), where some were counted.
    `end` is None while some of it is in; `partly_out` is then the day on which the last of the rest came out.
    `beside` are treatments with other actives that were in the same colonies at the time: counts tell of all together.
    """

    yard: str | None
    name: str
    agent: str | None
    group: str
    start: str
    end: str | None
    partly_out: str | None = None
    colonies: list[str]
    counted: int
    before: Level | None = None
    after: Level | None = None
    reduction: Reduction | None = None
    against: Reduction | None = None
    controls: int = 0
    expected: float
    verdict: Literal["worked", "fell short", "can't tell", "not counted"]
    says: str
    assumed: str = ""
    beside: list[str] = []
    records: list[str]


class AgentResult(BaseModel):
    """An active over the seasons, or in one yard: its counted treatments taken together."""

    agent: str
    name: str
    group: str
    yard: str | None
    treatments: int
    counted: int
    worked: int
    fell_short: int
    before: Level | None
    after: Level | None
    reduction: Reduction | None
    years: list[int]


class Worked(BaseModel):
    """The whole report. `advice` are sentences on rotation; `expectation` says where the expected share comes from."""

    treatments: list[TreatmentResult]
    agents: list[AgentResult]
    yards: list[AgentResult]
    advice: list[str]
    expectation: str


def worked(
    records: Sequence[StoredRecord],
    roster: Roster,
    day: datetime.date,
    yard: str | None = None,
    agent: str | None = None,
    since: datetime.date | None = None,
) -> Worked:
    """What each treatment did up to `day`, the newest first.

    Args:
        records: the records of the book, in any order.
        roster: what the outfit knows.
        day: the day of the report; what was said or done later does not count.
        yard: only this yard.
        agent: only this active.
        since: only treatments that began on or after this day.
    """
    ledger = replay(records, roster, day)
    counted = Counted(ledger)
    every = treatments_of(ledger)
    found = [
        (t, counted.outcome(t))
        for t in every
        if (yard is None or t.yard == yard) and (agent is None or t.agent == agent) and (not since or t.start >= since)
    ]
    found = [(t, o) for t, o in found if t.pieces or t.running]
    outcomes = [o for _, o in found if o is not None]
    return Worked(
        treatments=[_result(t, o, _beside(t, every, day)) for t, o in reversed(found)],
        agents=_by_agent([t for t, _ in found], outcomes, by_yard=False),
        yards=_by_agent([t for t, _ in found], outcomes, by_yard=True),
        advice=advice([t for t, _ in found], outcomes),
        expectation=expectation("amitraz").cite,
    )


def _beside(treatment: Treatment, every: list[Treatment], day: datetime.date) -> list[str]:
    """The treatments with another active that were in some of the same colonies at the same time."""
    places = _places(treatment)
    end = treatment.last_end or day
    names = (
        treatment_name(t.agent, t.form, t.product)
        for t in every
        if t.agent and t.agent != treatment.agent and t.start <= end and (t.last_end or day) >= treatment.start
        if not places.isdisjoint(_places(t))
    )
    return list(dict.fromkeys(names))  # what was given twice is named once


def _places(treatment: Treatment) -> set[Colony | str]:
    return {p.colony or p.yard for p in (*treatment.pieces, *treatment.running)}


def _result(treatment: Treatment, outcome: Outcome | None, beside: list[str]) -> TreatmentResult:
    ids = sorted({p.colony.cid for p in (*treatment.pieces, *treatment.running) if p.colony})
    mode = mode_of(treatment.agent)
    wanted = expectation(treatment.agent).value
    end = treatment.last_end
    result = TreatmentResult(
        yard=treatment.yard or None,
        name=treatment_name(treatment.agent, treatment.form, treatment.product),
        agent=treatment.agent,
        group=mode.group if mode else "",
        start=treatment.start.isoformat(),
        end=end.isoformat() if end else None,
        partly_out=treatment.partly_out.isoformat() if treatment.partly_out else None,
        colonies=ids,
        counted=0,
        expected=wanted,
        verdict="not counted",
        says="still in" if treatment.running else "no counts before and after",
        beside=beside,
        records=sorted({lot.record.id for lot in treatment.lots}),
    )
    if outcome is None:
        return result
    guessed = dict.fromkeys(words for lot in treatment.lots for words in guess_of(lot))
    return result.model_copy(
        update={
            "counted": len(outcome.pairs),
            "before": _level(outcome.before),
            "after": _level(outcome.after),
            "reduction": _ends(outcome.found),
            "against": _ends(outcome.control) if outcome.control else None,
            "controls": outcome.controls,
            "verdict": outcome.verdict,
            "says": in_words(outcome, wanted),
            "assumed": "; ".join(w for w in (*sorted({outcome.before.assumed, outcome.after.assumed}), *guessed) if w),
            "records": sorted({*result.records, *(c.record.id for p in outcome.pairs for c in (*p.before, *p.after))}),
        }
    )


def _ends(found: Efficacy) -> Reduction:
    """A reduction for the report: an open end of the interval is None."""

    def closed(value: float | None) -> float | None:
        return None if value is None or not math.isfinite(value) else round(value, 2)

    return Reduction(percent=closed(found.percent), lower=closed(found.lower), upper=closed(found.upper))


def _level(count: Count) -> Level:
    lower, upper = count.interval()
    return Level(
        mites=count.mites,
        exposure=count.exposure,
        rate=round(count.rate, 3),
        lower=round(lower, 3),
        upper=round(upper, 3),
        unit=count.unit,
    )


def in_words(outcome: Outcome, wanted: float) -> str:
    """The verdict as a sentence: brought down, only held the line, or why it cannot tell."""
    found = outcome.judged
    than = " than without it" if found is outcome.control else ""
    if outcome.verdict == "can't tell":
        return f"can't tell: {outcome.why}"
    if outcome.verdict == "worked":
        return f"worked: at least {found.lower:.0f} % fewer mites{than}, {wanted:g} % is expected"
    assert found.lower is not None and found.percent is not None and found.upper is not None
    if found.upper < 0:
        return f"fell short: mites rose, {wanted:g} % fewer is expected"
    if found.percent < 0:
        return f"fell short: mites may even have risen, {wanted:g} % fewer is expected"
    if found.lower <= 0:
        return f"fell short: it may only have held the line, {wanted:g} % fewer is expected"
    return f"fell short: at most {found.upper:.0f} % fewer mites{than}, {wanted:g} % is expected"


def _by_agent(treatments: list[Treatment], outcomes: list[Outcome], by_yard: bool) -> list[AgentResult]:
    keys = sorted(
        {(t.agent, t.yard if by_yard else None) for t in treatments if t.agent}, key=lambda k: (k[1] or "", k[0])
    )
    return [_agent_result(a, y, treatments, outcomes) for a, y in keys if a is not None]


def _agent_result(agent: str, yard: str | None, treatments: list[Treatment], outcomes: list[Outcome]) -> AgentResult:
    from fieldnotes.trade.counts import pooled
    from fieldnotes.trade.efficacy import reduction

    mine = [t for t in treatments if t.agent == agent and yard in (None, t.yard)]
    known = [o for o in outcomes if o.treatment in mine]
    family = max((o.before.family for o in known), key=[o.before.family for o in known].count, default=None)
    same = [o for o in known if o.before.family == family]
    before = pooled([o.before for o in same]) if same else None
    after = pooled([o.after for o in same]) if same else None
    mode = mode_of(agent)
    return AgentResult(
        agent=agent,
        name=treatment_name(agent, None),
        group=mode.group if mode else "",
        yard=yard,
        treatments=len(mine),
        counted=len(known),
        worked=sum(o.verdict == "worked" for o in known),
        fell_short=sum(o.verdict == "fell short" for o in known),
        before=_level(before) if before else None,
        after=_level(after) if after else None,
        reduction=_ends(reduction(before, after)) if before and after else None,
        years=sorted({t.start.year for t in mine}),
    )


def advice(treatments: list[Treatment], outcomes: list[Outcome]) -> list[str]:
    """What to rotate: actives that fell short twice or more, and yards that never changed the mode of action."""
    said = []
    for agent in sorted({o.treatment.agent for o in outcomes if o.treatment.agent}):
        short = [o for o in outcomes if o.treatment.agent == agent and o.verdict == "fell short"]
        if len(short) >= FAILURES:
            when = ", ".join(f"{o.treatment.yard or 'yard not said'} {o.treatment.start.year}" for o in short)
            mode = mode_of(agent)
            first = (
                "signs that it is failing. Rotate to another mode of action, by its label; ask your inspector for a "
                "resistance test."
                if mode and mode.group
                else "look first at the dose, the weather and the brood it was given in, by its label; then change to "
                "another mode of action."
            )
            said.append(
                f"{_named(agent)} fell short {len(short)} times ({when}): {first} "
                f"{_used({o.treatment.yard for o in short}, treatments)}"
            )
    for yard in sorted({t.yard for t in treatments}):
        run = _same_run([t for t in treatments if t.yard == yard and t.agent])
        if len(run) > FAILURES:
            names = " and ".join(dict.fromkeys(treatment_name(t.agent, None) for t in run))
            said.append(
                f"{yard or 'Yard not said'}: the last {len(run)} treatments were of one mode of action ({names}). "
                f"Rotate to another. {_used({yard}, treatments)}"
            )
    return said


def _used(yards: set[str], treatments: list[Treatment]) -> str:
    """What was used when in some yards over the last years: each active with its group and the months it went in."""
    when: dict[str, dict[str, None]] = {}
    since = max(t.start.year for t in treatments) - HISTORY_YEARS
    for t in treatments:
        if t.yard in yards and t.agent and t.start.year > since:
            when.setdefault(t.agent, {})[f"{t.start:%Y-%m}"] = None
    listed = [f"{_named(agent)} {', '.join(months)}" for agent, months in when.items()]
    return f"Used there: {'; '.join(listed)}."


def _named(agent: str) -> str:
    mode = mode_of(agent)
    name = treatment_name(agent, None)
    name = name[:1].upper() + name[1:]
    return f"{name} (group {mode.group})" if mode and mode.group else f"{name} (no numbered group)"


def _same_run(treatments: list[Treatment]) -> list[Treatment]:
    """The latest treatments that share one mode of action."""
    run: list[Treatment] = []
    for treatment in reversed(treatments):
        if run and not same_mode(treatment.agent, run[0].agent):
            break
        run.append(treatment)
    return run[::-1]
