""" "Guards on at Home, Chapel and Station": the same at other yards."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.marks import index_of, number_of
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import GIVEN, HOW_MUCH, Message, day_of, same_again, without_how_much
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Place

_LISTED = frozenset("yard cols comma hive".split())
_BETWEEN_YARDS = listed("between_yards")
_DONE_OR_NOT = frozenset(["yet", "done", "finished"])
_ALL_OF = listed("all_of_a_yard")
""" "supers off all of the pond and | off all of larks"."""
_TO_A_YARD = listed("same_at_a_yard")
_BESIDE_SAME = frozenset(["yard", "same", "date", "comma", "filler", "verb", "person"])


def there_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "dead: Millpond 2, 9. Quarry 5", "fondant on: Quarry 5, Millpond 2": the same at another yard."""
    last, before = msg.newest, msg.before
    if last is None or before is None or not s.has("yard") or len(s.all("cols")) != 1:
        return False
    if not msg.just_told(last) or last.line != s.line or not _only_listed(s):
        return False
    heads = [k for k, m in enumerate(before.marks) if m.w == ":"]
    listed = _only_listed(before) or (bool(heads) and all(m.label in _LISTED for m in before.marks[heads[-1] + 1 :]))
    if not listed or (last.kind not in GIVEN and last.kind != "change") or "with" in last.slots:
        return False
    copy = same_again(last)
    state = last.slots.get("state", "done")
    finishing.finish(msg, i, s, Stance(state, today=stance.today, hemisphere=stance.hemisphere), copy)
    copy.slots.update(day_of(last))
    return True


def _ends_excepted(s: Statement) -> bool:
    """Whether the statement ends in a yard that is left out."""
    k = len(s.marks) - 1
    while k > 0 and (s.marks[k].label in ("yard", "comma", "filler") or s.marks[k].w in ("the", "at", "and")):
        k -= 1
    return s.marks[k].v.get("cue") == "except"


def _only_listed(s: Statement) -> bool:
    """Whether the statement only names a yard and colonies of it."""
    return s.has("yard") and all(m.label in _LISTED or m.w in ("and", "at", "the", "in") for m in s.marks)


def yards_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "guards on at Home, | Chapel and Station": the same over other yards, which only a list names."""
    last = msg.newest
    if last is None or s.has("cols") or not s.has("yard") or s.opens != "soft" or s.sentence != last.sentence:
        return False
    condition = next((m for m in s.all("cue") if m.v.get("cue") == "if"), None)
    listed = s.marks[: index_of(s, condition)] if condition is not None else s.marks
    if not msg.just_told(last) or not _lists_yards(listed, last) or _yard_of_what_follows(msg, i, s):
        return False
    made = [d for d in msg.thread.lately(msg.first_draft) if d.statement == last.statement]
    before = msg.before
    if before is not None and before.has("cue") and _ends_excepted(before):
        return False  # "wraps are on everywhere except wens | and the pond"
    if listed[-1].label == "date" and stance.said is not None and not (before is not None and before.has("date")):
        _put_day_of_all(msg, i, s, stance, made, condition is not None)
    too, not_there = _there_and_not_there(msg, s)
    found = _over(msg, made, too, before is not None and before.has("each"))
    return _over(msg, made, not_there, False, "not_done") or found


def _lists_yards(listed: list[Mark], last: Draft) -> bool:
    """Whether the marks only list yards, and maybe say of all of them when, or whether it is done."""
    if not listed:
        return False
    end = listed[-1]
    if end.label not in ("yard", "comma", "date") and end.w not in _DONE_OR_NOT and end.w not in _BETWEEN_YARDS:
        return False
    made_there = last.kind in GIVEN and bool(last.slots.get("every_colony"))
    return all(
        m.label in ("yard", "comma")
        or m.w in _DONE_OR_NOT
        or m.w in _BETWEEN_YARDS
        or (m.w in _ALL_OF and made_there)
        or _but_not(m)
        or m is end
        for m in listed
    )


def _yard_of_what_follows(msg: Message, i: int, s: Statement) -> bool:
    """ "supers on at Chapel, Station, | strips out": whether the yard is of the next statement, which has none."""
    coming = msg.statements[i + 1] if i + 1 < len(msg.statements) else None
    if coming is None or coming.sentence != s.sentence or any(m.w == "and" for m in s.marks):
        return False
    return not coming.has("yard")


def _put_day_of_all(msg: Message, i: int, s: Statement, stance: Stance, made: list[Draft], conditional: bool) -> None:
    """ "… and cut bank on Sunday", "… and wens tomorrow if it's over forty": the day of all the yards."""
    for d in made:
        ahead = stance.ahead is True and d.slots.get("state", "done") == "done"
        state = "planned" if ahead else d.slots.get("state", "done")
        finishing.put_day(msg, i, s, stance.turned(state, ahead=ahead or None), d)
        if ahead:
            d.put("state", "conditional" if conditional else "planned", "a day to come")


def _there_and_not_there(msg: Message, s: Statement) -> tuple[list[Mark], list[Mark]]:
    """The yards where it was so too, and those after "but not"."""
    before = msg.before.marks[-1] if msg.before is not None and msg.before.marks else None
    k = 0 if before is not None and _but_not(before) else len(s.marks)
    k = next((n for n, m in enumerate(s.marks) if _but_not(m)), k)
    return [m for m in s.marks[:k] if m.label == "yard"], [m for m in s.marks[k:] if m.label == "yard"]


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


def _over(msg: Message, drafts: list[Draft], yards: list[Mark], each: bool, state: str = "done") -> bool:
    """Copies of the records over a whole yard, for the other yards; whether there were any.

    `state` is "not_done" for yards of which it was said that it was not done there.
    """
    found = False
    for d in drafts:
        whole = d.slots.get("every_colony") and "except_colonies" not in d.slots
        if d.kind not in GIVEN or not whole:
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


def not_there_yet(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "strips in at Home. Didn't get to Ridge", "will do Station tomorrow": what was told last is undone there."""
    last, yards = msg.newest, s.all("yard")
    if last is None or stance.state not in ("not_done", "planned") or s.has("cols", "method", "check"):
        return False
    if stance.state == "planned" and not any(m.v.get("does") == "do" for m in s.all("verb")):
        return False
    given = last.kind in GIVEN and last.slots.get("state", "done") == "done"
    if not given or last.statement < msg.thread.statements - 2 or any(m.v.get("to") for m in yards):
        return False
    end = index_of(s, yards[-1]) + 1
    why = next((k for k in range(end, len(s.marks)) if s.marks[k].label in ("comma", "ignore")), len(s.marks))
    undone = all(m.label in _NOT_DONE_AT or m.v.get("does") == "do" or m.w in _GOT_THERE for m in s.marks[:why])
    reason = all(m.label not in HEADS for m in s.marks[why:]) or any(m.label == "ignore" for m in s.marks[why:])
    if not undone or not reason:
        return False
    for m in yards:
        if m.v["value"] != last.slots.get("yard"):
            copy = without_how_much(last)
            copy.spans.append((m.s, m.e))
            finishing.finish(msg, i, s, stance, copy, Place(m.v["value"], every=True))
    return True


_NOT_DONE_AT = frozenset(["yard", "cue", "filler", "comma", "date"])
_GOT_THERE = frozenset("to at the yet and or there over been get still reach done".split())


def so_many_there_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "vapour round 2: Home (24), | Ridge (17)": the same at another yard, in so many hives."""
    last, yards, hives = msg.newest, s.all("yard"), s.all("hives")
    if last is None or not msg.just_told(last) or last.kind not in GIVEN or "colony_count" not in last.slots:
        return False
    if len(yards) != 1 or len(hives) != 1 or "n" not in hives[0].v or yards[0].v["value"] == last.slots.get("yard"):
        return False
    if not all(m.label in ("yard", "hives", "comma", "filler") or m.w in _BETWEEN_YARDS for m in s.marks):
        return False
    copy = same_again(last)
    copy.spans += [(m.s, m.e) for m in (*yards, *hives)]
    place = Place(yards[0].v["value"], count=int(number_of(hives[0]).value))
    finishing.finish(msg, i, s, stance.turned(last.slots.get("state", "done")), copy, place)
    copy.slots.update(day_of(last))
    return True


def same_there(msg: Message, i: int, s: Statement, same: Mark, stance: Stance, last: Draft) -> bool:
    """ "Low Field gets a dribble on the 1st | and Heath gets the same on the 2nd": the same over another yard."""
    yards = s.all("yard")
    if len(yards) != 1 or not last.slots.get("every_colony") or yards[0].v["value"] == last.slots.get("yard"):
        return False
    near = last.statement >= msg.thread.statements - 2 or last.line == s.line - 1
    if last.kind not in GIVEN or not near:
        return False
    so_many = next((m for m in s.all("pronoun") if "n" in m.v and m.w.startswith("all ")), None)
    own = [m for m in s.marks if m.label not in _BESIDE_SAME and m is not so_many]
    if any(m.w not in _TO_A_YARD and m.w.isalnum() and m.v.get("cue") != "plan" for m in own):
        return False
    copy = same_again(last)
    copy.spans += [(m.s, m.e) for m in (same, *yards)]
    copy.slots.pop("except_colonies", None)
    gets = stance if stance.state == "planned" else stance.turned(last.slots.get("state", "done"))
    count = int(number_of(so_many).value) if so_many is not None else None  # "Sawdust: same, all 12"
    finishing.finish(msg, i, s, gets, copy, Place(yards[0].v["value"], every=count is None, count=count))
    return True


def did_there(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "marit did the oxalic at the pond, | i did larks this afternoon": the same over another yard, by another."""
    last, yards = msg.newest, s.all("yard")
    if last is None or last.kind != "treatment" or not last.slots.get("every_colony") or len(yards) != 1:
        return False
    near = last.sentence == s.sentence and last.statement >= msg.thread.statements - 2
    did = any(m.v.get("does") == "do" for m in s.all("verb"))
    if not near or not did or s.has("cols", "rest") or s.has_head or yards[0].v["value"] == last.slots.get("yard"):
        return False
    if not all(m.label in _BESIDE_DONE or m.w in _DOERS or m.v.get("does") == "do" for m in s.marks):
        return False
    copy = same_again(last)
    copy.spans.append((yards[0].s, yards[0].e))
    copy.slots.pop("except_colonies", None)
    finishing.finish(msg, i, s, stance, copy, Place(yards[0].v["value"], every=True))
    if stance.said is None and stance.state == "done":
        copy.slots.update(day_of(last))
    return True


_BESIDE_DONE = frozenset("yard date comma filler person cue ignore".split())
_DOERS = frozenset("i we he she they and the then over at all of".split())
