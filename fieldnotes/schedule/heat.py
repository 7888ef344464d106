"""Heat and cold: temperatures outside the label's window while an agent works."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from fieldnotes.schedule.days import after, spoken
from fieldnotes.schedule.drafts import Draft, of_piece
from fieldnotes.schedule.ledger import Ledger, is_single
from fieldnotes.schedule.pieces import Lot, Piece
from fieldnotes.schedule.staying import guess_of, name_of
from fieldnotes.schedule.weather import Reading, readings_of, shown
from fieldnotes.trade.cautions import treatment_caution
from fieldnotes.trade.labels import Clock, country_of, editions

HEAT_DAYS = 7
"""How long after a day too hot or too cold it is told. Common practice, no source."""


def heat_clash_items(ledger: Ledger, weather: Sequence[Reading]) -> list[Draft]:
    """Days, said or forecast, whose temperature lies outside the label's window while an agent works."""
    readings = [*readings_of(ledger), *weather]
    drafts = []
    for lot in ledger.treatments:
        clocks = editions(lot.get("agent"), lot.get("form"), country_of(ledger.roster))[0] if lot.get("agent") else ()
        clock = next((c for c in clocks if c.low_c or c.high_c), None)
        if clock is None:
            continue
        for piece in lot.pieces:
            last = _works_until(clock, lot, piece)
            if not piece.placing_known or last < ledger.day or (piece.colony and piece.colony.left is not None):
                continue
            for reading in readings:
                words = outside(clock, reading, (reading.day - lot.first).days, is_single(lot))
                told = reading.day >= ledger.day - datetime.timedelta(days=HEAT_DAYS)
                if words and told and lot.first <= reading.day <= last and reading.yard in ("", piece.yard):
                    drafts.append(_heat(ledger, lot, piece, clock, reading, words))
    return drafts


def _works_until(clock: Clock, lot: Lot, piece: Piece) -> datetime.date:
    """The last day on which the temperature matters: while it is in; the day itself for a single dose; the first
    days for an agent whose label says so."""
    if is_single(lot):
        return lot.last
    end = piece.end.last if piece.end else datetime.date.max
    return min(end, after(lot.last, clock.danger_days.days)) if clock.danger_days else end


def outside(clock: Clock, reading: Reading, since: int, at_once: bool = False) -> str:
    """How a day lies outside the window of the label ("too hot", "too cold"), or "".

    The window is about the highest temperature of the day. Cold matters on the day of placement for an agent that
    works fast, and all the while for one that stays in longer. A single reading does not tell how warm it got later;
    for what is given and gone (`at_once`) it is the temperature it was given at.
    """
    high = reading.high_c
    if high is None:
        return ""
    if clock.danger_c and high > clock.danger_c.value:
        return "far too hot"
    if clock.high_c and high > clock.high_c.value:
        return "too hot"
    told = not reading.spot or at_once
    if clock.low_c and high < clock.low_c.value and told and (since == 0 or not clock.danger_days):
        return "too cold"
    return ""


def _heat(ledger: Ledger, lot: Lot, piece: Piece, clock: Clock, reading: Reading, words: str) -> Draft:
    name = name_of(lot)
    temperature = shown(reading.high_c or 0.0, ledger.roster)
    tense = "is forecast" if reading.day > ledger.day else "was the high" if reading.day < ledger.day else "is the high"
    if reading.spot:
        tense = "was read"
    # What is given and gone does no more harm in the heat: bees fly, and it misses them.
    little = "cold" in words or is_single(lot)
    advice = "it may do little" if little else "watch queens and brood, open the entrance"
    figure = clock.low_c if "cold" in words else clock.danger_c if "far" in words else clock.high_c
    assert figure is not None
    return Draft(
        what="heat_clash",
        at=of_piece(piece),
        key=(lot.get("agent") or "", lot.get("form") or "", lot.first.isoformat(), reading.day.isoformat()),
        due=reading.day,
        latest=reading.day,
        do=f"{temperature} {tense} on {spoken(reading.day, ledger.day)}, {words} for {name}; {advice}",
        records=[lot.record, *([reading.record] if reading.record else [])],
        reasons=[
            f"{name}: no {'colder' if 'cold' in words else 'hotter'} than {shown(figure.value, ledger.roster)} "
            f"by {figure.cite}",
            f"Temperature: {reading.source}",
            *(["One reading, which may not be of the very hour"] if reading.spot and "cold" in words else []),
            *guess_of(lot),
        ],
        caution=treatment_caution(lot.get("agent"), lot.get("form")),
        sure=not lot.assumed and not (reading.spot and "cold" in words),
    )


def warn_of_weather(ledger: Ledger, drafts: list[Draft], weather: Sequence[Reading]) -> None:
    """Say on a promised treatment, before it goes in, that its day is forecast too hot or too cold."""
    readings = [*readings_of(ledger), *weather]
    for draft in drafts:
        if draft.what != "promise" or draft.step[:2] != ("treatment", "in") or not draft.records:
            continue
        slots = draft.records[0].slots
        clocks = editions(slots.get("agent"), slots.get("form"), country_of(ledger.roster))[0]
        clock = next((c for c in clocks if c.agent == slots.get("agent") and (c.low_c or c.high_c)), None)
        for reading in readings if clock else ():
            within = draft.due <= reading.day <= draft.latest and reading.yard in ("", draft.at.yard)
            words = outside(clock, reading, 0) if clock and within else ""
            if words:
                high = shown(reading.high_c or 0.0, ledger.roster)
                draft.notes.append(f"{high} on {spoken(reading.day, ledger.day)} is {words} for it: choose another day")
