""" "I'll do those two Monday": what was left undone, or has no day yet, on a day to come."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.marks import neighbour, number_of, tidy
from fieldnotes.reader.making import finishing, holding, placing
from fieldnotes.reader.making.amending.meant import THAT_IS
from fieldnotes.reader.making.message import HOW_MUCH, Message, same_again
from fieldnotes.reader.mark import Mark, is_others
from fieldnotes.reader.scope import Draft, Place, place_of


def goes_in_later(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "we never put the gel in at the quarry | that goes in next tuesday, one tray each": the same, now planned."""
    if stance.state != "planned":
        return False
    last = msg.last("treatment", s.sentence) or msg.last("gear", s.sentence) or msg.last("feed", s.sentence)
    heads = {m.label for m in s.marks if m.label in HEADS}
    if (
        last is None
        or last is not msg.thread.drafts[-1]
        or last.slots.get("state") != "not_done"
        or heads - {"unit", "amount"}
        or s.has("cols", "yard", "every", "hives", "item", "queen_noun", "noun")
        or not any(m.label == "verb" and m.v.get("dir") and m.w.split()[0] in ("go", "goes", "going") for m in s.marks)
        or not (s.has("pronoun") or any(m.w in ("that", "they", "those", "that'll") for m in s.marks))
    ):
        return False
    draft = same_again(last)
    unit = s.first("unit")
    if unit is not None:
        draft.put("amount", tidy(number_of(unit).value), unit.rule)
        draft.put("unit", unit.v["unit"], unit.rule)
        draft.spans.append((unit.s, unit.e))
    finishing.finish(msg, i, s, stance, draft, place_of(last))
    return True


def do_it(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "doing it next week", "I'll do those two Monday": what was just said to be left, now planned."""
    if stance.state != "planned" or any(m.v.get("does") in ("treat", "feed") for m in s.all("verb")):
        return False
    if goes_in_later(msg, i, s, stance):
        return True
    if s.has_head or s.has("queen_noun", "noun") or not _says_what(s) or not _says_to_do(msg, s):
        return False
    named = s.has("cols")
    last = _to_be_done(msg, s)
    if last is None or (last.kind == "inspection" and last.slots.get("state") != "not_done"):
        return False
    if named and (last.sentence < s.sentence - 1 or len(s.all("cols")) > 1):
        return False
    if last.slots.get("step") in _BEFALLS or any(a.w == "do" and b.w in ("a", "an") for a, b in pairwise(s.marks)):
        return False  # "nineteen is dead and twenty looks off, I want to do a sample"
    pronoun = s.first("pronoun")
    counted = pronoun is not None and ("n" in pronoun.v or pronoun.w.startswith("both"))
    left_out = list(last.slots.get("except_colonies") or ())
    again = pronoun is not None and bool(left_out) and any(m.w == "again" for m in s.marks)
    if last.slots.get("state") != "not_done" and not (counted or named or again or again_to_all(s, last, pronoun)):
        return False
    place: Place | None = place_of(last)
    if named:
        place = None
    elif counted and msg.held.cols and not msg.held.cols.get("every"):
        place = held = Place()
        placing.take_held(msg, held)
    elif pronoun is not None and is_others(pronoun):
        place = None  # "wrapped 40 and 41, will do the other two tomorrow": which ones nobody said
    elif (counted or again) and left_out:
        place = Place(last.slots.get("yard"), left_out)
    draft = same_again(last, HOW_MUCH | {"mites", "mites_high", "per_100", "bees", "approx"})
    if pronoun is not None:
        draft.spans.append((pronoun.s, pronoun.e))
    finishing.finish(msg, i, s, stance, draft, place)
    return True


def _says_what(s: Statement) -> bool:
    """Whether a pronoun or colonies, or "so", "that" or "wait", say what is to be done."""
    return s.has("pronoun", "cols") or any(not _SO_OR_WAIT.isdisjoint(m.w.split()) for m in s.marks)


def _says_to_do(msg: Message, s: Statement) -> bool:
    """Whether the words say that it will be done, or put off."""
    if _gets_to(s):
        return True
    if s.has("cols") and msg.held.method is not None and any(m.w == "get" for m in s.marks):
        if not holding.of_other_work(msg, s):
            return True
    return any(
        (m.label == "verb" and m.v.get("does") == "do" and not (m.w == "done" and m is s.marks[0]))
        or (m.label == "cue" and m.w.split()[-1] in ("doing", "do"))
        or "wait" in m.w.split()  # "didn't treat 44, going to wait till Friday"
        or m.w in ("redo", "rewash", "retry")  # "dropped the jar, will redo it tomorrow"
        or (m.w == "try" and any(x.w == "again" for x in s.marks))
        for m in s.marks
    )


def _to_be_done(msg: Message, s: Statement) -> Draft | None:
    """The record told last; of colonies named in a run of checks the check told last."""
    last = next((d for d in reversed(msg.thread.lately()) if d.kind not in ("conditions", "todo")), None)
    checked = msg.last("mite_check", s.sentence) if s.has("cols") and msg.held.method else None
    if checked is None or last is None or checked.sentence != last.sentence or holding.of_other_work(msg, s):
        return last
    return checked  # "seven about fifteen, and the brood in seven is spotty, eight I'll do tomorrow"


_BEFALLS = frozenset(["died", "swarmed"])
"""What befalls a colony, and is no job that can be done another day."""


_SO_OR_WAIT = frozenset(["that", "so", "this", "wait"])


def again_to_all(s: Statement, last: Draft, pronoun: Mark | None) -> bool:
    """ "oxalic vapor on the whole quarry sunday, she wants to do it again in five days": the same once more."""
    it = pronoun is not None and pronoun.w == "it" and s.has("date") and any(m.w == "again" for m in s.marks)
    return (
        it
        and last.kind in ("treatment", "feed", "mite_check")
        and last.slots.get("state", "done") == "done"
        and not s.has("cols")
    )


def _gets_to(s: Statement) -> bool:
    """ "76 and 77 I'll get tomorrow", "forty six we'll finish friday": those named first, and a day and no thing."""
    for k, m in enumerate(s.marks):
        before, after = neighbour(s, k, -1), neighbour(s, k, 1)
        if m.w in ("get", "finish", "hit") and before is not None and before.v.get("cue") == "plan":
            if after is not None and after.w == "to":
                after = neighbour(s, k + 1, 1)
            named = any(x.label == "cols" for x in s.marks[:k])
            return named and after is not None and after.label == "date"
    return False


def due_then(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "51 needs requeening but | I'm doing that on monday", "…, which I'll carry in on friday": the day of the plan
    just told, which has none yet.
    """
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if (
        last is None
        or last.slots.get("state") != "planned"
        or last.kind in ("conditions", "todo")
        or "on" in last.slots
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or stance.said is None
        or stance.ahead is False
        or not any(m.label in ("pronoun", "person") or m.w in _POINTS_BACK for m in s.marks)
        or not all(
            m.label in ("date", "filler", "comma", "pronoun", "person")
            or m.w in _DUE
            or (m.label == "cue" and (m.v.get("cue") == "plan" or m.w in ("forgot", "which")))
            or (m.label == "verb" and (m.v.get("does") == "do" or m.w.split()[0] in _DUE))
            for m in s.marks
        )
    ):
        return False
    finishing.put_day(msg, i, s, stance.turned("planned", ahead=True), last)
    for person in s.all("person")[:1]:
        last.put("by", person.v["value"], "person")
    last.spans += [(m.s, m.e) for m in s.marks if m.label not in ("comma", "filler")]
    last.statement = msg.thread.statements
    return True


_DUE = frozenset(
    "so and but again then i we he she it that that's thats which this one for be now in out on over instead i'll "
    "we'll will get bring carry take do".split()
)


_POINTS_BACK = frozenset(["that", "that's", "thats", "which", "this", "one"])


def then_later(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "didn't get the strips in | so that's tomorrow now", "no pads in | that'll be Sunday": put off to that day."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if (
        last is None
        or last.slots.get("state") != "not_done"
        or last.kind not in ("treatment", "gear", "feed", "mite_check")
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or stance.said is None
        or stance.ahead is False
        or stance.said.is_today
        or not any(m.w in THAT_IS for m in s.marks)
        or not all(
            m.label in ("date", "filler", "comma") or m.w in _PUT_OFF or m.v.get("cue") == "plan" for m in s.marks
        )
    ):
        return False
    copy = same_again(last, HOW_MUCH | {"approx"})
    copy.spans += [(m.s, m.e) for m in s.marks if m.label == "w"]
    finishing.finish(msg, i, s, stance.turned("planned", ahead=True), copy, place_of(last))
    return True


_PUT_OFF = THAT_IS | frozenset("so and but now then instead be for on a job".split())
