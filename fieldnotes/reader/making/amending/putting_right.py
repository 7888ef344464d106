""" "Scratch that, 28", "oops, no eggs in 11": what was said wrong before."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import amount_of
from fieldnotes.reader.frames.marks import number_of, tidy
from fieldnotes.reader.making.message import OWN_SLOTS, Message
from fieldnotes.reader.mark import MOST_GIVEN, Mark
from fieldnotes.reader.scope import Draft, settle_ids


def amend(msg: Message, i: int, s: Statement) -> bool:
    """ "scratch that, 28", "nope, L1, L2 and L4": an opening correction puts the record before it right."""
    if not msg.correcting or i > 0 or not msg.thread.drafts or s.has("method", "agent", "item", "feed", "fact"):
        return False
    mine = [d for d in msg.thread.lately() if d.slots.get("by") == msg.sender] or msg.thread.lately()
    cols = s.all("cols")
    counts = [m for m in s.marks if m.label in ("number", "value", "unit", "amount", "mites")]
    if not cols and (cols := _bare_ids(msg, s, mine[-1])):
        counts = []
    if len(cols) == 1 and not counts and "instead" in cols[0].v:
        return _instead_of(msg, mine, cols[0], mine[-1].slots.get("yard"))
    step = s.all("change")[0].v["step"] if s.has("change") else None
    if len(cols) == 1 and step is not None and mine[-1].slots.get("step") != step:
        mine = [d for d in mine if d.kind == "change" and d.slots.get("step") == step][-1:]
        if not mine:
            return False  # "I mean S6 is dead", where none was said to be so
    right = False
    if len(cols) == 1 and not counts:
        right = _other_colonies(msg, mine, cols[0])
    elif len(cols) == 2 and any(m.w == "not" for m in s.marks):
        right = _these_not_those(msg, mine, *cols)
    elif len(cols) == 1 and len(counts) == 1 and counts[0].label in ("value", "mites"):
        right = _other_count_of(msg, mine, cols[0], counts[0])
    elif len(counts) == 1 and not cols:
        right = _other_number(msg, mine[-1], counts[0])
    if right:
        msg.correcting = False
    return right


def _other_colonies(msg: Message, mine: list[Draft], cols: Mark) -> bool:
    """ "nope, L1, L2 and L4": other colonies were meant in what was told last."""
    last = mine[-1]
    ids, yard = settle_ids(list(cols.v["ids"]), last.slots.get("yard"), msg.outfit)
    old = last.slots.get("colonies")
    again = len(ids) > 1 and not set(ids).isdisjoint(old or ())  # "sorry, L1-L9", of L1-L10: the list said over
    if not old or (len(old) != len(ids) and len(old) != 1 and not again):
        return False
    statement = last.statement
    for d in mine:
        if d.statement == statement and d.slots.get("colonies") == old:
            d.put("colonies", ids, "put right")
            d.spans.append((cols.s, cols.e))
            if yard:
                d.put("yard", yard, "yard")
            d.statement = msg.thread.statements
    return True


def _these_not_those(msg: Message, mine: list[Draft], these: Mark, those: Mark) -> bool:
    """ "sorry, 15 not 14": the newest record of the second is of the first."""
    yard = mine[-1].slots.get("yard")
    new, _ = settle_ids(list(these.v["ids"]), yard, msg.outfit)
    old, _ = settle_ids(list(those.v["ids"]), yard, msg.outfit)
    meant = next((d for d in reversed(mine) if d.slots.get("colonies") == old), None)
    if meant is None:
        return False
    meant.put("colonies", new, "put right")
    meant.spans += [(these.s, these.e), (those.s, those.e)]
    meant.statement = msg.thread.statements
    return True


def _other_count_of(msg: Message, mine: list[Draft], cols: Mark, count: Mark) -> bool:
    """ "sorry, 74 was 18": the check of that colony had another count."""
    ids, _ = settle_ids(list(cols.v["ids"]), mine[-1].slots.get("yard"), msg.outfit)
    meant = next((d for d in reversed(mine) if d.slots.get("colonies") == ids and "mites" in d.slots), None)
    if meant is None:
        return False
    meant.put("mites", tidy(number_of(count).value), "put right")
    meant.spans += [(cols.s, cols.e), (count.s, count.e)]
    meant.statement = msg.thread.statements
    return True


def _other_number(msg: Message, last: Draft, number: Mark) -> bool:
    """ "scratch that, 28": the number of what was told last was another."""
    value, unit = amount_of(number) if number.label == "amount" else (number_of(number).value, number.v.get("unit"))
    slot = next((x for x in ("mites", "amount", "count", "colony_count") if x in last.slots), None)
    if slot is None:
        return False
    last.put(slot, tidy(value), "put right")
    if unit:
        last.put("unit", unit, "put right")
    last.spans.append((number.s, number.e))
    last.statement = msg.thread.statements
    return True


def _instead_of(msg: Message, mine: list[Draft], cols: Mark, yard: str | None) -> bool:
    """ "not S5, S6": the newest of the sender's records that is of the one wrong is of the one meant."""
    old, home = settle_ids(list(cols.v["instead"]), yard, msg.outfit)
    new, _ = settle_ids(list(cols.v["ids"]), home, msg.outfit)
    hit = next((d for d in reversed(mine) if set(old) <= set(d.slots.get("colonies", []))), None)
    if hit is None:
        return False
    hit.put("colonies", [x for x in hit.slots["colonies"] if x not in old] + new, "put right")
    hit.spans.append((cols.s, cols.e))
    hit.statement = msg.thread.statements
    msg.correcting = False
    return True


_HIGHEST_ID = 9999


def _bare_ids(msg: Message, s: Statement, last: Draft) -> list[Mark]:
    """ "sorry, 1-9", "oops 42": numbers alone that put right which colonies were meant. Where what was said before has
    a number of its own that a small one could be, that one is meant.
    """
    old = last.slots.get("colonies")
    numbers = s.all("number", "value")
    if not old or "mites" in last.slots or not numbers or not all(number_of(m).digits for m in numbers):
        return []
    if any(m not in numbers and m.w.isalnum() and m.label not in ("filler", "comma") for m in s.marks):
        return []
    if any(not 0 < number_of(m).value <= _HIGHEST_ID for m in numbers):
        return []
    ids = [str(int(number_of(m).value)) for m in numbers]
    ranged = len(ids) == 2 and any(m.w in ("-", "–", "through", "to") for m in s.marks)
    if ranged:
        ids = [str(x) for x in range(int(ids[0]), int(ids[1]) + 1)]
    ids, yard = settle_ids(ids, last.slots.get("yard"), msg.outfit)
    counted = {"count", "amount"} & set(last.slots)
    few = len(numbers) == 1 and number_of(numbers[0]).value <= MOST_GIVEN
    few = few or (len(numbers) == 1 and any(last.slots[x] > MOST_GIVEN for x in counted))  # "grafted 24", "28"
    if not ids or (few and counted) or yard != last.slots.get("yard"):
        return []
    if msg.outfit.known and not all(x in msg.outfit.ids for x in ids):
        return []
    return [Mark("cols", numbers[0].s, numbers[-1].e, "", {"ids": ids, "bare": True}, "colonies put right")]


def put_right_before(msg: Message, made: list[Draft]) -> None:
    """ "oops, no eggs in 11", "make that formic pads": a message that puts right what its sender said before changes
    the record of the same kind and the same colonies, and makes none of its own.
    """
    for new in list(made):
        old = _meant_by(msg, new)
        if old is None:
            continue
        if new.kind == "treatment" and new.slots.get("form", old.slots.get("form")) != old.slots.get("form"):
            for slot in ("agent", "form", "amount", "unit", "product"):
                old.slots.pop(slot, None)
        for slot, value in new.slots.items():
            if slot not in OWN_SLOTS or (slot in _WHICH and value != old.slots.get(slot)):
                old.put(slot, value, new.why.get(slot, "put right"))
        if "mites" in new.slots and "mites_high" not in new.slots:
            old.slots.pop("mites_high", None)
        old.spans += new.spans
        old.statement = msg.thread.statements
        msg.thread.drafts.remove(new)
        made.remove(new)
        msg.correcting = False


def _meant_by(msg: Message, new: Draft) -> Draft | None:
    """The sender's record that the new one puts right; None where there is none, or the new one stands by itself."""
    if new.kind in ("todo", "conditions", "change") or new not in msg.thread.lately(msg.first_draft):
        return None
    lately = msg.thread.lately()
    before = max(0, len(lately) - (len(msg.thread.drafts) - msg.first_draft))
    for old in reversed(lately[:before]):
        if old.kind != new.kind or old.slots.get("by", msg.sender) != msg.sender:
            continue
        if new.slots.get("state", old.slots.get("state")) != old.slots.get("state"):
            continue  # "didn't get to 44, sorry" puts nothing right
        if old.slots.get("yard") != new.slots.get("yard") or not _of_the_same(old, new):
            continue
        alike = ("item", "step") if new.kind in ("gear", "queen_work", "treatment") else ("method",)
        if all(slot not in new.slots or old.slots.get(slot) == new.slots[slot] for slot in alike):
            return old
    return None


_WHICH = frozenset(["colonies", "except_colonies"])


def _of_the_same(old: Draft, new: Draft) -> bool:
    """Whether two records are of the same colonies; also of all and of all but some, or of a list and a part of it:
    "strips in every hive | scratch that, in every hive but 71"."""
    if all(old.slots.get(slot) == new.slots.get(slot) for slot in ("colonies", "except_colonies")):
        return True
    if old.slots.get("every_colony") and new.slots.get("every_colony"):
        return "except_colonies" in new.slots
    mine, others = set(new.slots.get("colonies", ())), set(old.slots.get("colonies", ()))
    return len(mine) > 1 and len(others) > 1 and (mine < others or others < mine)
