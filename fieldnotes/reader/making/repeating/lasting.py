""" "Six weeks for the lot": how long what was given stays in, of one colony or of all."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import days_of
from fieldnotes.reader.frames.marks import tidy
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.scope import Draft


def all_so_long(msg: Message, s: Statement, last: Draft) -> None:
    """ "3 to 5 got two, the rest one each, eight weeks they stay in", "six weeks for the lot": of all of them."""
    days = s.all("days")[0]
    of_all = s.marks[-1] is days or any(not _ALL_OF_THEM.isdisjoint(m.w.split()) for m in s.marks)
    for d in msg.thread.lately(msg.first_draft) if of_all else ():
        alike = d.kind == "treatment" and all(d.slots.get(x) == last.slots.get(x) for x in ("agent", "form", "step"))
        if alike and d.sentence == s.sentence and d.slots.get("step") == "in" and d.slots.get("state") != "not_done":
            d.slots.setdefault("days", tidy(days_of(days)))
            d.spans.append((days.s, days.e))


_ALL_OF_THEM = frozenset("they all those them lot both everything everyone".split())


def stays_so_long(s: Statement, treated: Draft) -> None:
    """ "fifty grams each, it stays in fourteen days": how long what was given stays in."""
    days = s.first("days")
    if days is not None:
        treated.put("days", tidy(days_of(days)), days.rule)
        treated.spans.append((days.s, days.e))
