"""Everything that is due on a day."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Sequence

from fieldnotes.records import Due, StoredQuestion, StoredRecord
from fieldnotes.roster import Roster
from fieldnotes.schedule.counting import check_after_items, check_before_items
from fieldnotes.schedule.drafts import finished
from fieldnotes.schedule.failing import did_not_work_items
from fieldnotes.schedule.promises import answer_items, join_promises, promise_items, supers_off_items
from fieldnotes.schedule.replay import replay
from fieldnotes.schedule.staying import next_dose_items, take_out_items


def due_items(
    records: Sequence[StoredRecord],
    questions: Sequence[StoredQuestion],
    roster: Roster,
    day: datetime.date,
    closed: Collection[str] = (),
) -> list[Due]:
    """What is overdue, due today, coming within seven days, and what a person must settle.

    Args:
        records: the records that stand in the book, in any order. Records said or done after `day` do not count.
        questions: the open questions of the book.
        roster: what the outfit knows; its own figures win over the built-in ones.
        day: the day asked for.
        closed: ids of items that a person has closed by hand.

    Returns:
        The items, most urgent first: overdue (longest first), today, coming, to settle.
    """
    ledger = replay(records, roster, day)
    drafts = [
        *take_out_items(ledger),
        *next_dose_items(ledger),
        *check_after_items(ledger),
        *check_before_items(ledger),
        *did_not_work_items(ledger),
        *supers_off_items(ledger),
        *promise_items(ledger),
        *answer_items(ledger, questions, records),
    ]
    items = finished(join_promises(drafts, day), ledger.colonies, roster, day)
    return [item for item in items if item.id not in closed]
