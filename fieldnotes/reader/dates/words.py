"""The words that dates are made of, looked up once."""

from __future__ import annotations

from fieldnotes.reader.grammar import grammar, meanings
from fieldnotes.reader.numbers import is_number_word, number_openers

PARTS = meanings("parts_of_months")


class Tables:
    """The word tables, looked up once."""

    def __init__(self) -> None:
        tables = grammar().tables
        self.weekdays: dict[str, int] = tables["weekdays"]
        self.months: dict[str, int] = tables["months"]
        self.seasons: dict[str, int] = tables["seasons"]
        self.spans: dict[str, int] = tables["spans"]
        ahead = frozenset(tables["ahead"]["words"])
        self.days = {
            tuple(k.split()): (v, True if k in ahead else (False if v < 0 else None)) for k, v in tables["days"].items()
        }
        self.longest: dict[str, int] = {}
        """How many words the longest of `days` has, by its first word."""
        for k in self.days:
            self.longest[k[0]] = max(len(k), self.longest.get(k[0], 0))
        self.before_numbers = frozenset(k[0] for k in self.days if len(k) > 1 and is_number_word(k[1]))
        self.starts = (
            frozenset(self.weekdays) | frozenset(self.months) | frozenset(self.seasons) | {k[0] for k in self.days}
            | frozenset(
                "on the this next last in a an one from at couple past over early mid late beginning end start "
                "middle back first second third fourth fifth few some several half".split()
            )
        )  # fmt: skip

        self.after_number = (
            frozenset(self.months) | frozenset(self.spans) | frozenset(f"{day}s" for day in self.weekdays)
            | frozenset("of day / - – to or more".split())
        )  # fmt: skip
        self.seconds = (
            frozenset(self.weekdays) | frozenset(self.months) | frozenset(self.seasons) | frozenset(self.spans)
            | frozenset(PARTS) | number_openers() | frozenset(word for k in self.days for word in k[1:2])
            | frozenset(
                "this next last coming past previous following the couple back day in of week weekend wkend "
                "month current few several some another pair to or more - –".split()
            )
        )  # fmt: skip


_tables: Tables | None = None


def tables() -> Tables:
    """The date words of the grammar."""
    global _tables
    if _tables is None:
        _tables = Tables()
    return _tables
