""" "52 got thirty mil", "hive 16 got a quart": what was given before, another dose."""

from __future__ import annotations

from typing import Any

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.amounts import amount_of
from fieldnotes.reader.frames.marks import is_approx, number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.making.repeating.lasting import all_so_long, stays_so_long
from fieldnotes.reader.scope import WHOLE_YARD, Draft


def other_dose(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "52 got thirty mil": the treatment before, another dose."""
    if not s.has("unit"):
        return False
    heads = [m for m in s.marks if m.label in HEADS]
    last = msg.thread.last_treatment
    if (
        not s.has("cols")
        or len(heads) != 1
        or heads[0].label != "unit"
        or last is None
        or stance.state != "done"
        or s.has("feed", "item")
    ):
        return False
    if last.slots.get("step") != "in" or last.sentence < s.sentence - 1:
        return False
    weather = [d for d in msg.thread.lately(msg.first_draft)[-2:] if d.kind == "conditions"]  # said in between
    if (
        last in msg.thread.drafts[-1 - len(weather) :]
        and last.why.get("every_colony") == WHOLE_YARD
        and "amount" not in last.slots
        and last.statement >= msg.thread.statements - 1 - len(weather)
    ):
        # "sprayed the nucs at the pond, n one and n two thirty mil each": the dose names the colonies
        msg.thread.drafts.remove(last)
        last.slots.pop("every_colony", None)
        last.put("amount", tidy(number_of(heads[0]).value), heads[0].rule)
        stays_so_long(s, last)
        last.put("unit", heads[0].v["unit"], heads[0].rule)
        last.spans.append((heads[0].s, heads[0].e))
        day: dict[str, Any] = {slot: last.slots[slot] for slot in ("on", "on_until") if slot in last.slots}
        finishing.finish(msg, i, s, stance, last)
        last.slots.update(day)
        return True
    if last.sentence != s.sentence:
        return False
    copy = Draft(
        "treatment",
        {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step", "round")},
        [],
        dict(last.why),
    )
    copy.put("amount", tidy(number_of(heads[0]).value), heads[0].rule)
    copy.put("unit", heads[0].v["unit"], heads[0].rule)
    copy.spans.append((heads[0].s, heads[0].e))
    stays_so_long(s, copy)
    finishing.finish(msg, i, s, stance, copy)
    if s.has("days"):
        all_so_long(msg, s, copy)
    return True


def other_measure(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "half a gallon each on 9 and 10", "hive 16 got a quart": what was fed before, or is named just after."""
    amount = s.first("amount")
    if (
        amount is None
        or not s.has("cols", "pronoun")
        or s.has_head
        or s.has("item", "honey", "thing", "noun", "ratio")
        or stance.state != "done"
        or any(m.w not in _GOT for m in s.all("verb"))
    ):
        return False
    fed = msg.last("feed", s.sentence)
    if fed is None and not s.has("cols"):
        return False
    copy = Draft("feed")
    if fed is not None and "feed" in fed.slots:
        for slot in ("feed", "ratio"):
            if slot in fed.slots:
                copy.put(slot, fed.slots[slot], "what was fed before")
        if fed.why.get("every_colony") == WHOLE_YARD and not {"amount", "colony_count"} & fed.slots.keys():
            copy.spans += fed.spans  # "syrup at the quarry, hives two and five a gallon each": not the whole yard
            msg.thread.drafts.remove(fed)
    elif s.has("each"):
        after = next((x for x in msg.statements[i + 1 : i + 4] if x.has("feed", "ratio")), None)
        if after is None or after.sentence != s.sentence or after.has("verb", "cue"):
            return False
        named, ratio = after.first("feed"), after.first("ratio")
        copy.put("feed", named.v["feed"] if named is not None else "syrup", "what is named just after")
        if ratio is not None and copy.slots["feed"] == "syrup":
            copy.put("ratio", ratio.v["ratio"], ratio.rule)
    else:
        return False
    value, unit = amount_of(amount)
    if unit != "jar" and (copy.slots["feed"] == "syrup") != (unit in _LIQUID):
        return False  # "gave 17 a quart of syrup and 18 a patty": what the patty is of was not said
    copy.put("amount", tidy(value), amount.rule)
    if unit:
        copy.put("unit", unit, amount.rule)
    copy.spans += [(m.s, m.e) for m in s.marks if m is amount or m.w == "same"]
    if is_approx(s, amount):
        copy.put("approx", True, "about")
    finishing.finish(msg, i, s, stance, copy)
    return True


_LIQUID = frozenset(["gallon", "quart", "pint", "litre"])


_GOT = listed("got_or_given")
