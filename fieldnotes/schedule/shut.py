"""Counting mites in the months in which nobody opens a hive.

A count that was missed in autumn stays missed; what changes in winter is how it can be made up for.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from fieldnotes.schedule.days import spoken
from fieldnotes.trade.growth import growth
from fieldnotes.trade.thresholds import growing_from, phase_on

if TYPE_CHECKING:
    from fieldnotes.schedule.drafts import Draft
    from fieldnotes.schedule.ledger import Ledger

FELLED = "What falls now may still be what the treatment killed"


def by_board(ledger: Ledger, draft: Draft, felled: bool = False) -> Draft:
    """The count that is due as it can be made today, or once it is due: in winter and without brood on a board.

    `felled` says that a treatment may still be killing mites, which a board catches too.
    """
    day = max(ledger.day, draft.due)
    brood, _ = ledger.season(draft.at.yard, None, day)
    if phase_on(day, ledger.roster.hemisphere, brood) != "dormant":
        return draft
    board = growth().winter
    spring = spoken(growing_from(day, ledger.roster.hemisphere), ledger.day)
    reasons = [f"No hive is opened for it in winter: a board for {board.days} days, or else a wash from {spring} on"]
    reasons.append(f"Boards in winter: {board.cite}")
    if felled:
        reasons.append(FELLED)
    return replace(
        draft,
        do=f"{draft.do} on a board, with the hives shut",
        reasons=[*draft.reasons, *reasons],
        caution=None,
    )
