""" "And sixty two in a month": the same work or plan, for others, on another day."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.direction import became, going_out
from fieldnotes.reader.frames.marks import number_of
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import GIVEN, HOW_MUCH, Message, same_again
from fieldnotes.reader.making.repeating.yards import each_yard
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Place

_ON_ANOTHER_DAY = listed("beside_another_day")
_WHOSE_AND_WHEN = frozenset(["cols", "yard", "date", "same_day", "filler", "comma", "hive"])
_OF_THE_REST = frozenset(["rest", "verb", "person", "thing", "ignore"])


def gap(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "wash fifty nine in ten days and sixty two in a month": the same plan for another colony, another day."""
    last = msg.newest
    if last is None or not _can_go_on(msg, s, last):
        return False
    those, rest = _those_later(s, stance), _rest_later(s, last)
    named = s.has("cols", "yard") and (s.has("date", "same_day") or _and_there(msg, s, last))
    if not (named or those or rest) or not _says_only_when(s, those, rest):
        return False
    copy = same_again(last)
    _turn(s, copy, rest)
    planned = last.slots.get("state") == "planned" or (rest and stance.state == "planned")
    ahead = planned or _lies_ahead(msg, s, stance, last)
    if any(m.w in ("are", "is") for m in s.marks) or (ahead and (rest or not planned)):
        for slot in HOW_MUCH:  # "thirteen through twenty are for tomorrow", "half a patty each, rest tomorrow"
            copy.slots.pop(slot, None)
    if _day_of_both(msg, s, stance, last):
        finishing.put_day(msg, i, s, stance, last)  # "guards off larks and cut bank last weekend"
        if ahead:
            last.put("state", "planned", "date")
    turned = stance.turned("planned" if ahead else "done", ahead=ahead)
    finishing.finish(msg, i, s, turned, copy, _so_many_others(msg, s))
    each_yard(msg, s, [copy])
    return True


def _can_go_on(msg: Message, s: Statement, last: Draft) -> bool:
    """Whether the record was told right before, of work or of a plan."""
    near = last.line == s.line or (last.line == s.line - 1 and s.has("rest"))
    if not msg.just_told(last) or not near or last.kind in ("todo", "conditions", "change"):
        return False
    return last.kind in GIVEN or last.slots.get("state") == "planned"


def _says_only_when(s: Statement, those: bool, rest: bool) -> bool:
    """Whether the statement only says who or where else, and when."""
    return all(
        m.label in _WHOSE_AND_WHEN
        or m.w in _ON_ANOTHER_DAY
        or (m.w == "done" and m is s.marks[0])  # "one through six done | seven through twelve after lunch"
        or (those and m.label == "pronoun")
        or (m.label == "cue" and "wait" in m.w.split())  # "seven through twelve can wait till monday"
        or (rest and m.label in _OF_THE_REST)
        for m in s.marks
    )


def _turn(s: Statement, copy: Draft, rest: bool) -> None:
    """Puts which way it went or will go, where the statement says so: "strips 41-50 out and 51-60 in today"."""
    out = going_out(s)
    if rest and copy.kind == "gear" and s.has("verb") and out is not None:
        copy.put("step", "off" if out else "on", "put on or taken off")
    ways = {"gear": ("off", "on"), "treatment": ("out", "in")}.get(copy.kind)
    if ways is not None and "step" in copy.slots and became(s):
        copy.put("step", ways[0] if out else ways[1], "which way")


def _lies_ahead(msg: Message, s: Statement, stance: Stance, last: Draft) -> bool:
    """Whether work of the same sort is still to come, though that before it is done."""
    day = stance.turned("done").when
    after_today = bool(day and day[0] > msg.today)
    return _once(s) or stance.ahead is True or after_today or _goes_on_another_day(msg, s, stance, last)


def _day_of_both(msg: Message, s: Statement, stance: Stance, last: Draft) -> bool:
    """ "guards off larks and cut bank last weekend": whether the day is that of the yard before, too."""
    if s.has("cols") or (msg.before is not None and msg.before.has("date", "same_day")):
        return False
    plain = all(m.label in ("yard", "date", "comma") or m.w == "and" for m in s.marks)
    return plain and any(m.w == "and" for m in s.marks) and stance.when is not None and "on" in last.slots


def _so_many_others(msg: Message, s: Statement) -> Place | None:
    """ "the other five Friday", where no colonies are named: so many of the yard; else None."""
    others: Mark | None = s.first("pronoun")
    if others is None or "other" not in others.w.split() or "n" not in others.v or msg.held.cols is not None:
        return None
    return Place(msg.held.yard, count=int(number_of(others).value))


def _and_there(msg: Message, s: Statement, last: Draft) -> bool:
    """ "vaped every hive at the quarry and then | 1 through 20 at the pond": colonies of another yard."""
    joined = any(m.label == "filler" or m.w in ("and", "then") for m in s.marks[:2])
    return joined and s.has("cols") and s.has("yard") and msg.held.yard != last.slots.get("yard")


def _those_later(s: Statement, stance: Stance) -> bool:
    """ "all but five and six um | those two next wednesday": the ones left out, on a day to come."""
    pronoun = s.first("pronoun")
    if pronoun is None or pronoun.w.split()[0] not in ("those", "these", "the"):
        return False
    others = "other" in pronoun.w.split() and stance.said is not None and stance.said.form == "weekday"
    return stance.ahead is True or others  # "did strips in 41 to 45 | the other five Friday"


def _rest_later(s: Statement, last: Draft) -> bool:
    """ "reducers on H1 and H2 | Bo is putting the rest on tonight": the same for the others, on a day said."""
    if not s.has("rest"):
        return False
    plain = last.kind == "treatment" and not s.has("verb", "thing")
    return (last.kind in ("gear", "feed") or plain) and (s.has("date") or _once(s))


def _once(s: Statement) -> bool:
    """ "the rest of heath once the honey is off": then, and not yet."""
    return any(m.rule == "once it is off" for m in s.all("ignore"))


def _goes_on_another_day(msg: Message, s: Statement, stance: Stance, last: Draft) -> bool:
    """ "dribbled one through nine, ten through eighteen saturday": said of work done today, the day lies ahead."""
    said = stance.said
    return (
        said is not None
        and said.form == "weekday"
        and said.args[1] == "plain"
        and last.slots.get("on") == msg.today.isoformat()
        and s.has("cols", "rest", "pronoun")
        and s.marks[-1].label == "date"
        and not any(m.w in ("did", "finished") for m in s.all("verb"))  # "did the rest saturday"
    )
