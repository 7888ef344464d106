"""What is due: the book's records and a day in, due items out. Nothing here knows the clock or the book.

    due_items(records, questions, roster, day) -> list[Due]

The records are replayed in the order of days into a ledger (`replay`), from which each rule reads its findings
(`staying`, `counting`, `promises`, `failing`); `drafts` puts colonies alike into one item. The order in which notes
were taken does not matter, and what was said or done after `day` does not count.
"""

from fieldnotes.schedule.due import due_items
from fieldnotes.schedule.needed import needed, needed_of_run, reaches_back, settled

__all__ = ["due_items", "needed", "needed_of_run", "reaches_back", "settled"]
