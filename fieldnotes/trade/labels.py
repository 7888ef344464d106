"""Label clocks: how long each active and form stays in, by country and label edition, each figure with its source."""

from __future__ import annotations

from functools import cache
from typing import Literal

from pydantic import Field

from fieldnotes.roster import LabelFigures, Roster
from fieldnotes.trade.figures import Amount, Days, Figure, Part, Words, YesNo, table

Country = Literal["us", "canada", "uk", "eu", "germany"]

_NEXT_BEST: dict[str, tuple[str, ...]] = {
    "us": ("us", "canada"),
    "canada": ("canada", "us"),
    "uk": ("uk", "eu"),
    "eu": ("eu", "germany", "uk"),
    "germany": ("germany", "eu"),
}


class Dose(Part):
    """One dose of a course. Days it stays in (`least`, `longest`) and days until the next dose."""

    least: Days | None = None
    longest: Days | None = None
    next_least: Days | None = None
    next_longest: Days | None = None


class Clock(Part):
    """The label of one active and form in some countries: a clock is (active, form, country, label edition).

    `max_per_year` counts by calendar years, or from midsummer to midsummer where `per` is "winter": a dribble at
    Christmas and one in January meet the same bees. Temperatures are in degrees Celsius; `wait` is the days from
    removal until honey supers may go on, and after a summer course with `supers_next_year` they wait for the new year;
    `danger_c` is a high that does harm within the first `danger_days`.
    """

    agent: str
    forms: tuple[str, ...]
    countries: tuple[str, ...]
    edition: str
    each: int | None = None
    series: Literal["always", "when said"] = "always"
    dose: tuple[Dose, ...]
    supers: YesNo | None = None
    wait: Days | None = None
    supers_next_year: bool = False
    max_per_year: Amount | None = None
    per: Literal["year", "winter"] = "year"
    max_ml: Amount | None = None
    max_grams: Amount | None = None
    low_c: Amount | None = None
    high_c: Amount | None = None
    danger_c: Amount | None = None
    danger_days: Days | None = None
    amount: Words | None = None


class Stay(Part):
    """The window of one dose, as the schedule uses it.

    `least` and `longest` are days after placement, None for a dose that does not stay in. `next_least` and
    `next_longest` are the days until the following dose, None for the last one. `grounds` is the figure and
    its source in words; `sure` is False where a choice had to be made, which `grounds` then says.
    """

    least: int | None = None
    longest: int | None = None
    next_least: int | None = None
    next_longest: int | None = None
    doses: int = 1
    grounds: str
    next_grounds: str = ""
    sure: bool = True


class _File(Part):
    clock: tuple[Clock, ...] = Field(min_length=1)


@cache
def clocks() -> tuple[Clock, ...]:
    """Every built-in label clock."""
    return _File.model_validate(table("labels")).clock


def country_of(roster: Roster) -> str:
    """The roster's country; without one, the United States where units are US, else the European Union."""
    return roster.practice.country or ("us" if roster.units == "us" else "eu")


@cache
def forms_of(agent: str) -> frozenset[str]:
    """The forms in which any label gives this active."""
    return frozenset(form for clock in clocks() if clock.agent == agent for form in clock.forms)


@cache
def only_agent(form: str, country: str) -> str | None:
    """The one active that labels of a country give in this form, None where there are several or none."""
    found = {c.agent for c in clocks() if form in c.forms and country in c.countries}
    return found.pop() if len(found) == 1 else None


@cache
def editions(agent: str, form: str | None, country: str) -> tuple[tuple[Clock, ...], bool]:
    """The clocks that may hold, and whether they are of that country (True) or borrowed from another (False).

    With no form said, the clocks of every form of the active.
    """
    fitting = [c for c in clocks() if c.agent == agent and (form is None or form in c.forms)]
    for place in _NEXT_BEST.get(country, (country,)):
        found = tuple(c for c in fitting if place in c.countries)
        if found:
            return found, place == country or country in found[0].countries
    return tuple(fitting), False


def own_figures(agent: str | None, form: str | None, roster: Roster) -> LabelFigures | None:
    """The outfit's own figures for this active and form; those for the very form before those for any form."""
    fitting = [f for f in roster.label if f.agent == agent and f.form in (None, form)]
    return min(fitting, key=lambda f: f.form is None, default=None)


def stay_of(agent: str | None, form: str | None, each: float | None, dose: int, roster: Roster) -> Stay | None:
    """The window of dose number `dose` (1 is the first) of this active and form, `each` units a colony if known.

    The outfit's own figures win over the label's. Where several editions may hold, the narrower window is
    used and the others are named. None where no figure is known, or where no form was said and some forms stay
    in and others do not.
    """
    if agent is None:
        return None
    own = own_figures(agent, form, roster)
    if own and own.days_in:
        return _own_stay(own, dose)
    found, at_home = editions(agent, form, country_of(roster))
    exact = [c for c in found if c.each is not None and c.each == each]
    found = tuple(exact or [c for c in found if c.each is None])
    if not found:
        return _own_stay(own, dose) if own else None
    stays_in = {c.dose[0].longest is not None for c in found}
    if len(stays_in) > 1:
        return None
    stay = _narrowest(found, dose)
    if not at_home:
        stay = _unsure(stay, f"no label of your country is on file, this one is of {_place(found[0])}")
    if form is None and len(forms_of(agent)) > 1:
        stay = _unsure(stay, "the form was not said")
    if own and (own.repeat_days or own.doses):
        stay = _with_own_course(stay, own, dose)
    return stay


def _own_stay(own: LabelFigures, dose: int) -> Stay:
    least, longest = own.days_in or (None, None)
    words = f"{own.source}: {_days(least, longest)} in" if longest is not None else f"{own.source}: no days given"
    return _with_own_course(Stay(least=least, longest=longest, grounds=words), own, dose)


def _with_own_course(stay: Stay, own: LabelFigures, dose: int) -> Stay:
    doses = own.doses or stay.doses
    again = own.repeat_days if own.repeat_days else (stay.next_least, stay.next_longest)
    if dose >= doses or again[0] is None or again[1] is None:
        return stay.model_copy(update={"doses": doses, "next_least": None, "next_longest": None})
    return stay.model_copy(
        update={
            "doses": doses,
            "next_least": again[0],
            "next_longest": again[1],
            "next_grounds": f"{own.source}: again after {_days(again[0], again[1])}",
        }
    )


def _narrowest(found: tuple[Clock, ...], dose: int) -> Stay:
    """One window out of the editions that may hold: the shortest longest stay, and the least that goes with it."""
    picked = [(c, c.dose[min(dose, len(c.dose)) - 1]) for c in found]
    clock, chosen = min(picked, key=lambda p: p[1].longest.days if p[1].longest else 10**6)
    least, longest = chosen.least, chosen.longest
    last = dose >= len(clock.dose)
    stay = Stay(
        least=least.days if least else None,
        longest=longest.days if longest else None,
        next_least=None if last or not chosen.next_least else chosen.next_least.days,
        next_longest=None if last or not chosen.next_longest else chosen.next_longest.days,
        doses=len(clock.dose),
        grounds=_window_words(least, longest),
        next_grounds="" if last else _window_words(chosen.next_least, chosen.next_longest, "again after"),
    )
    others = sorted({d.longest.days for _, d in picked if d.longest} - {stay.longest})
    if others and stay.longest is not None:
        more = " or ".join(str(n) for n in others)
        stay = stay.model_copy(
            update={"grounds": f"{stay.grounds}; other labels allow {more} days, so read the one in your hand"}
        )
    return stay


def _window_words(least: Days | None, longest: Days | None, verb: str = "stay in") -> str:
    if longest is None or least is None:
        return ""
    words = f"{verb} {_days(least.days, longest.days)}: "
    if least.cite == longest.cite:
        return words + longest.cite
    if least.days == longest.days:
        return f"{words}{least.cite}; {longest.cite}"
    return f"{words}{least.days} by {least.cite}; {longest.days} by {longest.cite}"


def _days(least: int | None, longest: int | None) -> str:
    return f"{longest} days" if least in (None, longest) else f"{least} to {longest} days"


def _unsure(stay: Stay, why: str) -> Stay:
    return stay.model_copy(update={"sure": False, "grounds": f"{stay.grounds}; {why}" if stay.grounds else why})


_PLACES = {"us": "the United States", "canada": "Canada", "uk": "the United Kingdom", "eu": "the European Union",
           "germany": "Germany"}  # fmt: skip


def _place(clock: Clock) -> str:
    return _PLACES[clock.countries[0]]


def counts_rounds(agent: str, form: str | None, country: str) -> bool:
    """Whether this active and form runs as a course only when the keeper counts rounds (vapour)."""
    found, _ = editions(agent, form, country)
    return bool(found) and all(c.series == "when said" for c in found)


__all__ = [
    "Clock",
    "Country",
    "Dose",
    "Figure",
    "Stay",
    "clocks",
    "country_of",
    "counts_rounds",
    "editions",
    "forms_of",
    "only_agent",
    "own_figures",
    "stay_of",
]
