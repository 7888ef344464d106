""" "Done 6/8", "Bo took em": day and doer of what was just said."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft


def done_on(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "oxalic dribble H1-H12, done 6/8", "feeders off heath, bo took em": day and doer of what was just said."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if last is None or last.statement != msg.thread.statements - 1 or last.line != s.line or s.opens != "soft":
        if last is None or not s.has("person") or last.statement != msg.thread.statements - 1 or last.line != s.line:
            return False
    done = [m for m in s.all("verb") if m.w in ("done", "did", "doing") or _went_so(last, m, s)]
    he = msg.last_person[0] if msg.last_person is not None and any(m.w in ("he", "she") for m in s.marks) else None
    if len(done) != 1 or not all(
        m.label in ("verb", "date", "comma", "filler", "person", "ignore")
        or m.w in _IT_WAS
        or (he and m.w in ("he", "she"))
        for m in s.marks
    ):
        return False
    doing = done[0].w == "doing" and s.has("person") and s.has("pronoun") and not s.has("date")
    state = "planned" if doing else "done"  # "the strips come out thursday, | bo's doing it"
    if last.slots.get("state", "done") != state or last.slots.get("by", msg.sender) != msg.sender:
        return False
    dated = msg.before is not None and msg.before.has("date")
    last_day = last.slots.get("on")
    if not doing and s.has("date") == dated and (dated or not s.has("person")):
        return False
    several = last.kind == "mite_check" and any(m.w in ("them", "those", "these") for m in s.all("pronoun"))
    for d in msg.thread.lately(msg.first_draft):
        counted = several and d.kind == "mite_check" and d.sentence == last.sentence and d.slots.get("on") == last_day
        if d.statement != last.statement and not counted:
            continue
        if s.has("date"):
            finishing.put_day(msg, i, s, stance.turned("done"), d)
        for person in s.all("person")[:1] or ([he] if he is not None else []):
            d.put("by", person.v["value"], "person")
            d.spans.append((person.s, person.e))
        d.spans += [(m.s, m.e) for m in s.all("verb", "pronoun")]
        d.statement = msg.thread.statements
    return True


_IT_WAS = frozenset("it is was that all and them on em 'em those these off in out this".split())


def _went_so(last: Draft, verb: Mark, s: Statement) -> bool:
    """Whether "took em", "put them on" is said of work that went that way; it takes a doer."""
    if not s.has("person") or not s.has("pronoun") or last.slots.get("step") not in ("in", "on", "out", "off"):
        return False
    return verb.v.get("tense") == "past" and verb.v.get("dir") == (
        "in" if last.slots["step"] in ("in", "on") else "out"
    )
