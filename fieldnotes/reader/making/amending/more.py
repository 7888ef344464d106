""" "They stay in fourteen days", "two each": more said of what was just put in or taken."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import amount_of, days_of
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import number_of, tidy
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.making.repeating.lasting import all_so_long
from fieldnotes.reader.scope import Draft, place_of


def modifiers(msg: Message, i: int, s: Statement, made: list[Draft], stance: Stance) -> None:
    """ "they stay in fourteen days", "two each": more said of what was just put in."""
    if made or not s.has("days", "round", "unit", "amount", "every", "number") or msg.recent():
        return
    grafted = msg.last("queen_work", s.sentence)
    if (
        grafted is not None
        and grafted is msg.thread.drafts[-1]
        and grafted.slots.get("step") in ("grafted", "cells_placed")
        and "count" not in grafted.slots
        and any(m.v.get("does") == "do" for m in s.all("verb"))
        and len(s.all("number")) == 1
        and not s.has("cols")
    ):
        number = s.all("number")[0]  # "the grafts out of the breeder, I did thirty two yesterday"
        grafted.put("count", tidy(number_of(number).value), number.rule)
        grafted.spans.append((number.s, number.e))
        if s.has("date"):
            finishing.put_day(msg, i, s, stance, grafted)
        grafted.statement = msg.thread.statements
        return
    last = next(
        (
            d
            for d in reversed(msg.thread.lately(msg.first_draft))
            if d.kind in ("treatment", "gear", "feed") and (d.sentence >= s.sentence - 1)
        ),
        None,
    )
    if last is None or s.has("cols", "mites", "value"):
        return
    days = s.first("days")
    rounds = s.first("round")
    unit = s.first("unit")
    group = [d for d in msg.thread.lately(msg.first_draft) if d.statement == last.statement and d.kind == last.kind]
    if (
        rounds is not None
        and stance.state in ("planned", "not_done")
        and last.kind == "treatment"
        and last.slots.get("round") != number_of(rounds).value
        and last.slots.get("state", "done") == "done"
    ):
        copy = Draft(
            "treatment",
            {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step")},
            [(rounds.s, rounds.e)],
            dict(last.why),
        )
        copy.put("round", int(number_of(rounds).value), rounds.rule)
        if going_out(s) is False:
            copy.put("step", "in", "in or on")  # "thymol out. Will put the second tray in"
        finishing.finish(
            msg,
            i,
            s,
            stance,
            copy,
            place_of(last),
        )
        return
    if days is not None and last.kind == "treatment":
        all_so_long(msg, s, last)
    for d in group:
        if d.kind == "treatment":
            if days is not None and "days" not in d.slots:
                d.put("days", tidy(days_of(days)), days.rule)
                d.spans.append((days.s, days.e))
            if rounds is not None and "round" not in d.slots:
                d.put("round", int(number_of(rounds).value), rounds.rule)
                d.spans.append((rounds.s, rounds.e))
            if unit is not None and "amount" not in d.slots:
                d.put("amount", tidy(number_of(unit).value), unit.rule)
                d.put("unit", unit.v["unit"], unit.rule)
                d.spans.append((unit.s, unit.e))
        each = s.first("each")
        numbers = s.all("number")
        if each is not None and numbers:
            value = tidy(number_of(numbers[0]).value)
            if (
                d.kind == "treatment"
                and "amount" not in d.slots
                and d.slots.get("form") in ("strip", "pad", "wafer", "sponge")
            ):
                d.put("amount", value, "number each")
                d.put("unit", d.slots["form"], "form")
            elif d.kind == "gear" and "count" not in d.slots:
                d.put("count", value, "number each")
            elif d.kind == "feed" and "amount" not in d.slots and d.slots.get("feed") == "pollen_patty":
                d.put("amount", value, "number each")
                d.put("unit", "patty", "number each")
            d.spans += [(each.s, each.e), (numbers[0].s, numbers[0].e)]
        amount = s.first("amount")
        if d.kind == "feed" and amount is not None and "amount" not in d.slots:
            value, word = amount_of(amount)
            d.put("amount", tidy(value), amount.rule)
            if word:
                d.put("unit", word, amount.rule)
            d.spans.append((amount.s, amount.e))
        if (
            s.has("every")
            and not s.has("fact", "verb")
            and "colonies" not in d.slots
            and "colony_count" not in d.slots
            and d.slots.get("yard")
        ):
            d.put("every_colony", True, "every colony")
            for m in s.all("every"):
                d.spans.append((m.s, m.e))


def moisture_of_all(msg: Message, s: Statement, harvested: Draft) -> None:
    """ "eight buckets from heath and six from larks, all about seventeen percent": so wet was the honey of each."""
    said = any(m.w in ("all", "both") for m in s.marks) or any(
        m.w.split()[0] in ("all", "both") for m in s.all("every", "pronoun")
    )
    if "moisture" not in harvested.slots or not said:
        return
    for d in msg.thread.lately(msg.first_draft):
        if d.kind == "harvest" and d.sentence == s.sentence and d is not harvested and "moisture" not in d.slots:
            d.put("moisture", harvested.slots["moisture"], "moisture of all")
