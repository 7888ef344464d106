"""More treatments in a year, or more in a dose, than the label allows."""

from __future__ import annotations

import datetime

from fieldnotes.schedule.days import after, spoken
from fieldnotes.schedule.drafts import Draft, of_piece
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.pieces import Lot, Piece
from fieldnotes.schedule.staying import guess_of, name_of, ordinal
from fieldnotes.trade.cautions import closing
from fieldnotes.trade.labels import Clock, country_of, editions
from fieldnotes.trade.thresholds import northern_month

MIDSUMMER = 7
"""The month in which the next winter's count begins, in the north; in the south a calendar year holds one winter."""
COLD_MONTHS = (10, 11, 12, 1, 2, 3)
"""Months of the northern year that anybody calls "this winter", with the weeks before and after it."""
SAME_BEES_DAYS = 42
"""Doses this close together are on the same bees, on whatever side of midsummer. Common practice, no source."""
TOTAL_ML, TOTAL_GRAMS = 100, 10
"""A larger amount can only be that of several colonies. Common practice, no source."""


def yearly_limit_items(ledger: Ledger) -> list[Draft]:
    """More treatments in a year, or more in a dose, than the label allows."""
    drafts = []
    counted: dict[tuple[object, ...], int] = {}
    last: dict[tuple[object, ...], tuple[datetime.date, tuple[str, int]]] = {}
    for lot in ledger.treatments:
        agent, form = lot.get("agent"), lot.get("form")
        clocks = editions(agent, form, country_of(ledger.roster))[0] if agent else ()
        if not clocks:
            continue
        strict = next((c for c in clocks if c.max_per_year), None)
        most = strict.max_per_year if strict else None
        season = _season(ledger, strict, lot.first)
        for piece in lot.pieces:
            if most is not None and ledger.starts_anew(piece) and not _part(piece):
                place = (piece.colony or piece.yard, agent, form)
                before = last.get(place)
                same_bees = before is not None and lot.first <= after(before[0], SAME_BEES_DAYS)
                last[place] = (lot.first, before[1] if before and same_bees else season)
                key = (*place, last[place][1])
                counted[key] = counted.get(key, 0) + 1
                if counted[key] > most.value and season == _season(ledger, strict, ledger.day):
                    within, each = _in_words(ledger, lot, season)
                    times = f"the {ordinal(counted[key])} time{within}"
                    allowed = _allowed(most.source, f"{most.value:g}{each}")
                    words = f"{name_of(lot)} went in for {times} on {spoken(lot.first, ledger.day)}; {allowed}"
                    drafts.append(_limit(lot, piece, words, most.cite, "year"))
        if lot.first.year == ledger.day.year:
            drafts += _too_much(ledger, lot, clocks)
    return drafts


def _allowed(source: str, times: str) -> str:
    """Who gives the number of times: the label, or a guide that speaks of it where no label was at hand."""
    if any(word in source.lower() for word in _LABELS):
        return f"the label allows {times}: read it again"
    return f"guides give {times}: read the label"


_LABELS = ("label", "notice", "product characteristics", "leaflet")


def _too_much(ledger: Ledger, lot: Lot, clocks: tuple[Clock, ...]) -> list[Draft]:
    """More in a dose than the label allows."""
    drafts = []
    for unit, total, limit, of_what in (
        ("ml", TOTAL_ML, next((c.max_ml for c in clocks if c.max_ml), None), ""),
        ("gram", TOTAL_GRAMS, next((c.max_grams for c in clocks if c.max_grams), None), " for each brood box"),
    ):
        each = _each(lot, unit, total)
        if limit is not None and each is not None and each > limit.value:
            words = (
                f"{each:g} {unit if unit == 'ml' else 'g'} of {name_of(lot)} on {spoken(lot.first, ledger.day)}; "
                f"the label stops at {limit.value:g}{of_what}"
            )
            drafts += [_limit(lot, p, words, limit.cite, unit) for p in lot.pieces if not _part(p)]
    return drafts


def _season(ledger: Ledger, clock: Clock | None, day: datetime.date) -> tuple[str, int]:
    """The year, or the winter by the year in which it began, that a label's yearly limit counts a day to."""
    if clock is None or clock.per == "year" or ledger.roster.hemisphere == "south":
        return (clock.per if clock else "year"), day.year
    return "winter", day.year if day.month >= MIDSUMMER else day.year - 1


def _in_words(ledger: Ledger, lot: Lot, season: tuple[str, int]) -> tuple[str, str]:
    """What is said after "the second time" and after "the label allows 1"."""
    if season[0] == "winter" and northern_month(lot.first, ledger.roster.hemisphere) not in COLD_MONTHS:
        return "", " a winter"
    return f" this {season[0]}", ""


def _part(piece: Piece) -> bool:
    return piece.lot.whole and piece.colony is not None and any(p.colony is None for p in piece.lot.pieces)


def _each(lot: Lot, unit: str, total: float) -> float | None:
    """The amount for each colony; one over `total` is that of all of them."""
    if lot.get("unit") != unit or lot.get("amount") is None:
        return None
    hives = sum(p.count or 1 for p in lot.pieces)
    unnamed = any(p.colony is None and p.count is None for p in lot.pieces)
    return None if unnamed else float(lot.get("amount")) / (hives if lot.get("amount") > total else 1)


def _limit(lot: Lot, piece: Piece, words: str, cite: str, sort: str) -> Draft:
    return Draft(
        what="answer",
        at=of_piece(piece),
        key=("limit", sort, lot.record.id),
        due=lot.last,
        latest=lot.last,
        do=words,
        records=[lot.record],
        reasons=[f"Label: {cite}", *guess_of(lot)],
        caution=closing(),
        sure=not lot.assumed,
        settle=True,
    )
