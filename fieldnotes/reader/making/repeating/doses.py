""" "52 got thirty mil", "hive 16 got a quart": what was given before, another dose."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.amounts import amount_of
from fieldnotes.reader.frames.marks import is_approx, number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message, day_of
from fieldnotes.reader.making.repeating.lasting import all_so_long, stays_so_long
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import WHOLE_YARD, Draft

_LIQUID = frozenset(["gallon", "quart", "pint", "litre"])
_GOT = listed("got_or_given")


def other_dose(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "52 got thirty mil": the treatment before, another dose."""
    if not s.has("unit") or not s.has("cols") or s.has("feed", "item") or stance.state != "done":
        return False
    heads = [m for m in s.marks if m.label in HEADS]
    last = msg.thread.last_treatment
    if len(heads) != 1 or heads[0].label != "unit" or last is None:
        return False
    if last.slots.get("step") != "in" or last.sentence < s.sentence - 1:
        return False
    if _of_whole_yard_just_now(msg, last):
        msg.thread.drafts.remove(last)
        last.slots.pop("every_colony", None)
        _put_dose(s, heads[0], last)
        day = day_of(last)
        finishing.finish(msg, i, s, stance, last)
        last.slots.update(day)
        return True
    if last.sentence != s.sentence:
        return False
    kept = {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step", "round")}
    copy = Draft("treatment", kept, [], dict(last.why))
    _put_dose(s, heads[0], copy)
    finishing.finish(msg, i, s, stance, copy)
    if s.has("days"):
        all_so_long(msg, s, copy)
    return True


def _of_whole_yard_just_now(msg: Message, last: Draft) -> bool:
    """ "sprayed the nucs at the pond, n one and n two thirty mil each": the dose names the colonies of a treatment that
    was told as of a whole yard, of which the weather at most was told since.
    """
    weather = sum(1 for d in msg.thread.lately(msg.first_draft)[-2:] if d.kind == "conditions")
    return (
        last in msg.thread.drafts[-1 - weather :]
        and last.why.get("every_colony") == WHOLE_YARD
        and "amount" not in last.slots
        and last.statement >= msg.thread.statements - 1 - weather
    )


def _put_dose(s: Statement, dose: Mark, treated: Draft) -> None:
    treated.put("amount", tidy(number_of(dose).value), dose.rule)
    stays_so_long(s, treated)
    treated.put("unit", dose.v["unit"], dose.rule)
    treated.spans.append((dose.s, dose.e))


def other_measure(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "half a gallon each on 9 and 10", "hive 16 got a quart": what was fed before, or is named just after."""
    amount = s.first("amount")
    if amount is None or stance.state != "done" or not s.has("cols", "pronoun"):
        return False
    if s.has_head or s.has("item", "honey", "thing", "noun", "ratio") or any(m.w not in _GOT for m in s.all("verb")):
        return False
    fed = msg.last("feed", s.sentence)
    if fed is not None and "feed" in fed.slots:
        copy = Draft("feed", {}, [], {})
        for slot in ("feed", "ratio"):
            if slot in fed.slots:
                copy.put(slot, fed.slots[slot], "what was fed before")
    elif (named := _named_just_after(msg, i, s) if s.has("cols") and s.has("each") else None) is not None:
        copy = named
    else:
        return False
    value, unit = amount_of(amount)
    whole = fed is not None and "feed" in fed.slots and fed.why.get("every_colony") == WHOLE_YARD
    if whole and fed is not None and not fed.slots.keys() & {"amount", "colony_count"}:
        copy.spans += fed.spans  # "syrup at the quarry, hives two and five a gallon each": not the whole yard
        msg.thread.drafts.remove(fed)
    if unit == "patty" and copy.slots["feed"] != "pollen_patty":
        return False  # "two pounds of fondant on 40 and a patty on 46"
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


def _named_just_after(msg: Message, i: int, s: Statement) -> Draft | None:
    """ "9 and 10 half a gallon each, of two to one": what is fed is named in one of the next statements; else None."""
    after = next((x for x in msg.statements[i + 1 : i + 4] if x.has("feed", "ratio")), None)
    if after is None or after.sentence != s.sentence or after.has("verb", "cue"):
        return None
    copy = Draft("feed")
    named, ratio = after.first("feed"), after.first("ratio")
    copy.put("feed", named.v["feed"] if named is not None else "syrup", "what is named just after")
    if ratio is not None and copy.slots["feed"] == "syrup":
        copy.put("ratio", ratio.v["ratio"], ratio.rule)
    return copy
