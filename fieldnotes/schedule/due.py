"""Everything that is due on a day."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Sequence

from fieldnotes.records import Due, StoredQuestion, StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.counting import awaiting_places, check_after_items, check_before_items
from fieldnotes.schedule.doubts import answer_items
from fieldnotes.schedule.drafts import Draft, finished
from fieldnotes.schedule.failing import did_not_work_items
from fieldnotes.schedule.heat import heat_clash_items, warn_of_weather
from fieldnotes.schedule.ledger import Ledger
from fieldnotes.schedule.levels import Placings, check_due_items, treat_items
from fieldnotes.schedule.limits import yearly_limit_items
from fieldnotes.schedule.promises import join_promises, promise_items, supers_off_items
from fieldnotes.schedule.queens import call_inspector_items, queen_look_items
from fieldnotes.schedule.replay import replay
from fieldnotes.schedule.season import season_items
from fieldnotes.schedule.staying import next_dose_items, take_out_items
from fieldnotes.schedule.supers import supers_clash_items, warn_of_supers
from fieldnotes.schedule.weather import Reading


def due_items(
    records: Sequence[StoredRecord],
    questions: Sequence[StoredQuestion],
    roster: Roster,
    day: datetime.date,
    closed: Collection[str] = (),
    weather: Sequence[Reading] = (),
) -> list[Due]:
    """What is overdue, due today, coming within seven days, and what a person must settle.

    Args:
        records: the records that stand in the book, in any order. Records said or done after `day` do not count.
        questions: the open questions of the book.
        roster: what the outfit knows; its own figures win over the built-in ones.
        day: the day asked for.
        closed: ids of items that a person has closed by hand.
        weather: daily temperatures, past and forecast, beside those that notes tell of.

    Returns:
        The items, most urgent first: overdue (longest first), today, coming, to settle.
    """
    ledger = replay(records, roster, day)
    promised = promise_items(ledger)
    drafts = [
        *take_out_items(ledger),
        *next_dose_items(ledger),
        *check_before_items(ledger),
        *_by_counts(ledger),
        *supers_clash_items(ledger),
        *heat_clash_items(ledger, weather),
        *yearly_limit_items(ledger),
        *supers_off_items(ledger),
        *queen_look_items(ledger),
        *call_inspector_items(ledger),
        *promised,
        *season_items(ledger, promised),
        *answer_items(ledger, questions, records),
    ]
    warn_of_weather(ledger, drafts, weather)
    warn_of_supers(ledger, drafts)
    items = finished(join_promises(drafts, day), ledger.colonies, roster, day)
    return [item for item in items if item.id not in closed]


def _by_counts(ledger: Ledger) -> list[Draft]:
    """Items that rest on counts, none said twice: a failed treatment says "treat", a count after a treatment and a
    treatment that is due say "count"."""
    placings = Placings(ledger)
    failed = did_not_work_items(ledger)
    said = {(d.at.yard, d.at.colony) for d in failed}
    treat = [d for d in treat_items(ledger, placings) if not {(d.at.yard, d.at.colony), (d.at.yard, None)} & said]
    later = check_after_items(ledger)
    taken = [*(d.at for d in (*failed, *treat, *later)), *awaiting_places(ledger)]
    return [*failed, *treat, *later, *check_due_items(ledger, placings, taken)]
