""" "And sixty two in a month": the same work or plan, for others, on another day."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.direction import became, going_out
from fieldnotes.reader.frames.marks import number_of
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import HOW_MUCH, Message, same_again
from fieldnotes.reader.making.repeating.yards import each_yard
from fieldnotes.reader.scope import Draft, Place


def gap(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "wash fifty nine in ten days and sixty two in a month": the same plan for another colony, another day."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if (
        last is None
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or (last.slots.get("state") != "planned" and last.kind not in ("treatment", "gear", "feed"))
        or last.kind in ("todo", "conditions", "change")
        or not (
            (s.has("cols", "yard") and (s.has("date", "same_day") or _and_there(msg, s, last)))
            or _those_later(s, stance)
            or _rest_later(s, last)
        )
        or any(
            m.label not in ("cols", "yard", "date", "same_day", "filler", "comma", "hive")
            and not (m.w == "done" and m is s.marks[0])  # "one through six done | seven through twelve after lunch"
            and not (m.label == "pronoun" and _those_later(s, stance))
            and not (m.label == "cue" and "wait" in m.w.split())  # "seven through twelve can wait till monday"
            and not (m.label in ("rest", "verb", "person", "thing", "ignore") and _rest_later(s, last))
            and m.w not in _ON_ANOTHER_DAY
            for m in s.marks
        )
    ):
        return False
    copy = same_again(last)
    unsaid = any(m.w in ("are", "is") for m in s.marks)  # "thirteen through twenty are for tomorrow": how much
    if _rest_later(s, last) and last.kind == "gear" and s.has("verb") and going_out(s) is not None:
        copy.put("step", "off" if going_out(s) else "on", "put on or taken off")
    if became(s) and "step" in copy.slots:
        other = {"gear": ("off", "on"), "treatment": ("out", "in")}.get(last.kind)
        if other is not None:
            copy.put(
                "step", other[0] if going_out(s) else other[1], "which way"
            )  # "strips 41-50 out and 51-60 in today"
    ahead = last.slots.get("state") == "planned" or (_rest_later(s, last) and stance.state == "planned")
    unsaid = unsaid or (ahead and _rest_later(s, last))  # "half a patty each, rest tomorrow"
    if not ahead:
        day = stance.turned("done").when
        ahead = (
            _once(s)
            or stance.ahead is True
            or bool(day and day[0] > msg.today)
            or _goes_on_another_day(msg, s, stance, last)
        )
        unsaid = unsaid or ahead
    if unsaid:
        for slot in HOW_MUCH:
            copy.slots.pop(slot, None)
    if not s.has("cols") and not (msg.before is not None and msg.before.has("date", "same_day")):
        plain = all(m.label in ("yard", "date", "comma") or m.w == "and" for m in s.marks)
        if plain and any(m.w == "and" for m in s.marks) and stance.when is not None and "on" in last.slots:
            finishing.put_day(msg, i, s, stance, last)  # "guards off larks and cut bank last weekend": of both
            if ahead:
                last.put("state", "planned", "date")
    state = "planned" if ahead else "done"
    others = s.first("pronoun")
    unnamed = others is not None and "other" in others.w.split() and "n" in others.v and msg.held.cols is None
    place = Place(msg.held.yard, count=int(number_of(others).value)) if unnamed and others is not None else None
    finishing.finish(msg, i, s, stance.turned(state, ahead=ahead), copy, place)
    each_yard(msg, s, [copy])
    return True


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
    plain = last.kind == "treatment" and not s.has("verb", "thing")
    return (last.kind in ("gear", "feed") or plain) and s.has("rest") and (s.has("date") or _once(s))


def _once(s: Statement) -> bool:
    """ "the rest of heath once the honey is off": then, and not yet."""
    return any(m.rule == "once it is off" for m in s.all("ignore"))


_ON_ANOTHER_DAY = frozenset(
    "me by myself on in off out and then at of the are is for get gets on be due i i'm we so".split()
)


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
