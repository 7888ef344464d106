""" "They stay in fourteen days", "two each": more said of what was just put in or taken."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import OWN_UNITS, amount_of, days_of
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import number_of, tidy
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import GIVEN, HOW_MUCH, Message
from fieldnotes.reader.making.repeating.lasting import all_so_long
from fieldnotes.reader.scope import Draft, place_of


def modifiers(msg: Message, i: int, s: Statement, made: list[Draft], stance: Stance) -> None:
    """ "they stay in fourteen days", "two each": more said of what was just put in."""
    if made or not s.has("days", "round", "unit", "amount", "every", "number") or msg.recent():
        return
    if _so_many_grafted(msg, i, s, stance):
        return
    lately = msg.thread.lately(msg.first_draft)
    last = next((d for d in reversed(lately) if d.kind in GIVEN and d.sentence >= s.sentence - 1), None)
    if last is None or s.has("cols", "mites", "value") or _next_round(msg, i, s, stance, last):
        return
    days = s.first("days")
    if days is not None and last.kind == "treatment":
        all_so_long(msg, s, last)
    for d in _told_with(lately, last, listed=s.has("each")):
        if d.kind == "treatment":
            _add_to_treatment(s, d)
        _add_number_each(s, d)
        _add_measure(s, d)
        if s.has("every") and not s.has("fact", "verb"):
            _add_every(s, d)


def _told_with(lately: list[Draft], last: Draft, listed: bool) -> list[Draft]:
    """The records of the statement of the last one, and those of the list that it ends where each got so many: "strips
    in: Home, Ridge. 2 each", or lines below "strips in".
    """
    found = [d for d in lately if d.statement == last.statement and d.kind == last.kind]
    if not listed:
        return found
    at = last.statement
    for d in reversed(lately):
        if d.statement >= at and d.statement == last.statement:
            continue
        one_list = d.sentence == last.sentence or not set(d.spans).isdisjoint(last.spans)
        alike = all(d.slots.get(slot) == last.slots.get(slot) for slot in _ALIKE)
        if d.kind != last.kind or at - d.statement > 1 or not one_list or not alike:
            break
        if not HOW_MUCH.isdisjoint(d.slots):
            break
        found.append(d)
        at = d.statement
    return found


_ALIKE = ("state", "agent", "form", "product", "item", "feed", "ratio", "step", "round")


def _so_many_grafted(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "the grafts out of the breeder, I did thirty two yesterday": how many, where that was not said yet."""
    grafted, numbers = msg.last("queen_work", s.sentence), s.all("number")
    if grafted is None or grafted is not msg.newest or "count" in grafted.slots or len(numbers) != 1 or s.has("cols"):
        return False
    if grafted.slots.get("step") not in ("grafted", "cells_placed"):
        return False
    if not any(m.v.get("does") == "do" for m in s.all("verb")):
        return False
    grafted.put("count", tidy(number_of(numbers[0]).value), numbers[0].rule)
    grafted.spans.append((numbers[0].s, numbers[0].e))
    if s.has("date"):
        finishing.put_day(msg, i, s, stance, grafted)
    grafted.statement = msg.thread.statements
    return True


def _next_round(msg: Message, i: int, s: Statement, stance: Stance, last: Draft) -> bool:
    """ "thymol in. Second round in two weeks": another round of what was just given, still to come or left out."""
    rounds = s.first("round")
    if rounds is None or stance.state not in ("planned", "not_done") or last.kind != "treatment":
        return False
    if last.slots.get("round") == number_of(rounds).value or last.slots.get("state", "done") != "done":
        return False
    kept = {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step")}
    copy = Draft("treatment", kept, [(rounds.s, rounds.e)], dict(last.why))
    copy.put("round", int(number_of(rounds).value), rounds.rule)
    if going_out(s) is False:
        copy.put("step", "in", "in or on")  # "thymol out. Will put the second tray in"
    finishing.finish(msg, i, s, stance, copy, place_of(last))
    return True


def _add_to_treatment(s: Statement, d: Draft) -> None:
    """How long it stays in, which round it is, and how much was given."""
    days, rounds, unit = s.first("days"), s.first("round"), s.first("unit")
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


def _add_number_each(s: Statement, d: Draft) -> None:
    """ "two each": so many strips, supers or patties."""
    each, number = s.first("each"), s.first("number")
    if each is None or number is None:
        return
    value = tidy(number_of(number).value)
    if d.kind == "treatment" and "amount" not in d.slots and d.slots.get("form") in OWN_UNITS:
        d.put("amount", value, "number each")
        d.put("unit", d.slots["form"], "form")
    elif d.kind == "gear" and "count" not in d.slots:
        d.put("count", value, "number each")
    elif d.kind == "feed" and "amount" not in d.slots and d.slots.get("feed") == "pollen_patty":
        d.put("amount", value, "number each")
        d.put("unit", "patty", "number each")
    d.spans += [(each.s, each.e), (number.s, number.e)]


def _add_measure(s: Statement, d: Draft) -> None:
    """ "a gallon each": how much was fed."""
    amount = s.first("amount")
    if d.kind != "feed" or amount is None or "amount" in d.slots:
        return
    value, word = amount_of(amount)
    d.put("amount", tidy(value), amount.rule)
    if word:
        d.put("unit", word, amount.rule)
    d.spans.append((amount.s, amount.e))


def _add_every(s: Statement, d: Draft) -> None:
    """ "all of them": every hive of the yard, where no others were named."""
    if "colonies" in d.slots or "colony_count" in d.slots or not d.slots.get("yard"):
        return
    d.put("every_colony", True, "every colony")
    d.spans += [(m.s, m.e) for m in s.all("every")]


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
