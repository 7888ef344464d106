""" "Guards on at Home, Chapel and Station": the same at other yards."""

from __future__ import annotations

from typing import Any

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import HOW_MUCH, Message, same_again
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Place


def there_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "dead: Millpond 2, 9. Quarry 5", "fondant on: Quarry 5, Millpond 2": the same at another yard."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    before = msg.before
    if last is None or before is None or not s.has("yard") or len(s.all("cols")) != 1:
        return False
    if last.statement != msg.thread.statements - 1 or last.line != s.line or not _only_listed(s):
        return False
    heads = [k for k, m in enumerate(before.marks) if m.w == ":"]
    listed = _only_listed(before) or (bool(heads) and all(m.label in _LISTED for m in before.marks[heads[-1] + 1 :]))
    if not listed or last.kind not in ("change", "gear", "feed", "treatment") or "with" in last.slots:
        return False
    copy = same_again(last)
    state = last.slots.get("state", "done")
    stance = Stance(state, today=stance.today, hemisphere=stance.hemisphere)
    day: dict[str, Any] = {slot: last.slots[slot] for slot in ("on", "on_until") if slot in last.slots}
    finishing.finish(msg, i, s, stance, copy)
    copy.slots.update(day)
    return True


_LISTED = frozenset("yard cols comma hive".split())


def _only_listed(s: Statement) -> bool:
    """Whether the statement only names a yard and colonies of it."""
    return s.has("yard") and all(m.label in _LISTED or m.w in ("and", "at", "the", "in") for m in s.marks)


def yards_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "guards on at Home, | Chapel and Station": the same over other yards, which only a list names."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if last is None or s.has("cols") or not s.has("yard") or s.opens != "soft" or s.sentence != last.sentence:
        return False
    condition = next((m for m in s.all("cue") if m.v.get("cue") == "if"), None)
    listed = s.marks[: index_of(s, condition)] if condition is not None else s.marks
    made_there = last.kind in ("gear", "treatment", "feed") and bool(last.slots.get("every_colony"))
    if (
        last.statement != msg.thread.statements - 1
        or not listed
        or not all(
            m.label in ("yard", "comma")
            or m.w in ("yet", "done", "finished")
            or m.w in _BETWEEN_YARDS
            or (m.w in _ALL_OF and made_there)
            or _but_not(m)
            or m is listed[-1]
            for m in listed
        )
    ):
        return False
    closes = listed[-1].w in ("yet", "done", "finished") or listed[-1].w in _BETWEEN_YARDS
    if listed[-1].label not in ("yard", "comma", "date") and not closes:
        return False
    coming = msg.statements[i + 1] if i + 1 < len(msg.statements) else None
    if coming is not None and coming.sentence == s.sentence and not any(m.w == "and" for m in s.marks):
        if not coming.has("yard"):
            return False  # "supers on at Chapel, Station, | strips out": the yard of what follows
    made = [d for d in msg.thread.lately(msg.first_draft) if d.statement == last.statement]
    before = msg.before.marks[-1] if msg.before is not None and msg.before.marks else None
    k = 0 if before is not None and _but_not(before) else len(s.marks)
    k = next((n for n, m in enumerate(s.marks) if _but_not(m)), k)
    too, not_there = ([m for m in part if m.label == "yard"] for part in (s.marks[:k], s.marks[k:]))
    if (
        listed[-1].label == "date"
        and stance.said is not None
        and not (msg.before is not None and msg.before.has("date"))
    ):
        for d in made:  # "… and cut bank on Sunday", "… and wens tomorrow if it's over forty"
            ahead = stance.ahead is True and d.slots.get("state", "done") == "done"
            state = "planned" if ahead else d.slots.get("state", "done")
            finishing.put_day(msg, i, s, stance.turned(state, ahead=ahead or None), d)
            if ahead:
                d.put("state", "conditional" if condition is not None else "planned", "a day to come")
    found = _over(msg, made, too, msg.before is not None and msg.before.has("each"))
    return _over(msg, made, not_there, False, "not_done") or found


def _but_not(m: Mark) -> bool:
    """ "guards on at Home and Ridge | but not Chapel"."""
    return m.label == "cue" and (m.v.get("cue") == "except" or m.w == "not")


def each_yard(msg: Message, s: Statement, made: list[Draft]) -> None:
    """ "Home and Ridge supers on": what is said over several yards in a list is so of each of them."""
    yards = s.all("yard")
    if len(yards) < 2 or s.has("cols") or any(m.v.get("to") for m in yards):
        return
    k = len(s.marks) - 1
    while s.marks[k].label != "yard":
        k -= 1
    others: list[Mark] = []
    k -= 1
    while k >= 0 and (s.marks[k].label in ("yard", "comma") or s.marks[k].w in _BETWEEN_YARDS):
        if s.marks[k].label == "yard":
            others.insert(0, s.marks[k])
        k -= 1
    if others:
        _over(msg, made, others, s.has("each"))


_BETWEEN_YARDS = frozenset(["and", "&", "plus", "the", "at"])


_ALL_OF = frozenset("all of off out from on in everything whole every".split())
""" "supers off all of the pond and | off all of larks"."""


def _over(msg: Message, drafts: list[Draft], yards: list[Mark], each: bool, state: str = "done") -> bool:
    """Copies of the records over a whole yard, for the other yards; whether there were any.

    `state` is "not_done" for yards of which it was said that it was not done there.
    """
    found = False
    for d in drafts:
        whole = d.slots.get("every_colony") and "except_colonies" not in d.slots
        if d.kind not in ("treatment", "gear", "feed") or not whole:
            continue
        for m in yards:
            if m.v["value"] == d.slots.get("yard"):
                continue
            copy = Draft(d.kind, {**d.slots, "yard": m.v["value"]}, [*d.spans, (m.s, m.e)], dict(d.why))
            for slot in () if each else HOW_MUCH:
                copy.slots.pop(slot, None)  # "60 strips in at Home and Ridge": how many at each is not said
            if state != "done" and copy.slots.get("state", "done") == "done":
                copy.put("state", state, "but not there")
            copy.sentence, copy.line, copy.statement = d.sentence, d.line, msg.thread.statements
            msg.thread.drafts.append(copy)
            found = True
    return found


def same_there(msg: Message, i: int, s: Statement, same: Mark, stance: Stance, last: Draft) -> bool:
    """ "Low Field gets a dribble on the 1st | and Heath gets the same on the 2nd": the same over another yard."""
    yards = s.all("yard")
    plain = all(
        m.label in ("yard", "same", "date", "comma", "filler", "verb", "person")
        or m.w in _TO_A_YARD
        or m.v.get("cue") == "plan"
        for m in s.marks
    )
    if (
        len(yards) != 1
        or not plain
        or not last.slots.get("every_colony")
        or yards[0].v["value"] == last.slots.get("yard")
    ):
        return False
    if last.kind not in ("treatment", "gear", "feed") or last.statement < msg.thread.statements - 2:
        return False
    copy = same_again(last)
    copy.spans += [(m.s, m.e) for m in (same, *yards)]
    copy.slots.pop("except_colonies", None)
    gets = stance if stance.state == "planned" else stance.turned(last.slots.get("state", "done"))
    finishing.finish(msg, i, s, gets, copy, Place(yards[0].v["value"], every=True))
    return True


_TO_A_YARD = frozenset("and the then so got had for at in too on i we he she i'm we're over up will be".split())
