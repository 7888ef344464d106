""" "One more next Thursday": the same treatment again, on a day to come."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import NamedTuple

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.dates import resolve
from fieldnotes.reader.frames.marks import index_of, number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, place_of

_ONCE_MORE = listed("beside_once_more")
_REPEATS = listed("repeats")
_TOLD_BETWEEN = frozenset(["inspection", "conditions", "change"])
"""What may be told of between a treatment and the day of its repeat."""
_BESIDE = frozenset(["date", "filler", "comma", "pronoun", "person", "again", "round"])


class _Said(NamedTuple):
    """What the statement says of the repeat: the "pad" of "second pad", the ordinal of "second one", as much more."""

    form: Mark | None
    one: Mark | None
    dose: Mark | None


def once_more(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "vaped the nucs, one more next thursday", "…, repeat in a week": the same treatment on a day to come."""
    if not s.has("date"):
        return False
    said = _Said(s.first("form") if s.has("ordinal") else None, _nth_one(s), _as_much_more(s))
    last = _to_be_repeated(msg, s, said)
    if last is None or not _can_be_repeated(s, said, last) or not _only_repeats(s, said):
        return False
    if not _told_again(s, stance) and (stance.ahead is False or (said.one is None and said.dose is None)):
        return False
    copy = Draft("treatment", {k: last.slots[k] for k in ("agent", "form", "product", "step") if k in last.slots})
    copy.why = dict(last.why)
    _put_round_and_dose(s, said, copy, last)
    copy.spans += [(m.s, m.e) for m in s.marks if m.label == "w"]
    finishing.finish(msg, i, s, stance.turned("planned", ahead=True), copy, place_of(last))
    _after_the_last(stance, copy, last)
    msg.of_nucs += [(copy, m) for d, m in msg.of_nucs if d is last][:1]
    return True


def _after_the_last(stance: Stance, copy: Draft, last: Draft) -> None:
    """ "on the first and again on the fifteenth", said in June: the fifteenth after that first."""
    before, on = last.slots.get("on"), copy.slots.get("on")
    if stance.said is None or before is None or on is None or on > before or last.slots.get("state") != "planned":
        return
    when = resolve(stance.said, date.fromisoformat(before), True)
    if when is not None and when[0] == when[1]:
        copy.put("on", when[0].isoformat(), "after the one before")


def _to_be_repeated(msg: Message, s: Statement, said: _Said) -> Draft | None:
    """The treatment told last, or what was seen told between; None where it was told too long ago."""
    last, back = msg.newest, 1
    between = last is not None and last.kind in _TOLD_BETWEEN
    if said.form is not None:  # "one pad each cause it's hot | second pad a week from monday"
        last = next((d for d in reversed(msg.thread.drafts[-2:]) if d.kind == "treatment"), None)
        back = 2
    elif between and (s.has("again") or _redo(s)):
        last = next((d for d in reversed(msg.thread.drafts[-3:-1]) if d.kind == "treatment"), None)
        back = 2  # "strips in n one, no brood in it, so | gonna do it again in a week"
    if between and s.has("again"):
        back = 4  # "34F no wind. next one 12/20"
    return last if last is not None and last.statement >= msg.thread.statements - back else None


def _can_be_repeated(s: Statement, said: _Said, last: Draft) -> bool:
    """Whether something was put in, or will be before the day now said, of the form said."""
    if last.kind != "treatment" or last.slots.get("step") != "in":
        return False
    if last.slots.get("state", "done") != "done" and not _next_of_planned(s, last):
        return False
    return said.form is None or last.slots.get("form") in (None, said.form.v["form"])


def _only_repeats(s: Statement, said: _Said) -> bool:
    """Whether the statement says no more than that it is done again, and when."""
    return all(
        m.label in _BESIDE
        or (said.form is not None and (m is said.form or m.label == "ordinal" or m.v.get("dir") == "in"))
        or m is said.one
        or m is said.dose
        or m.v.get("cue") == "plan"
        or _ONCE_MORE.issuperset(m.w.split())
        for m in s.marks
    )


def _put_round_and_dose(s: Statement, said: _Said, copy: Draft, last: Draft) -> None:
    """Which round it will be, and how much of it, where that is said."""
    for m in s.all("again", "round"):
        if "round" in m.v or m.label == "round":
            copy.put("round", m.v["round"] if "round" in m.v else int(number_of(m).value), m.rule)
    if said.one is not None:
        copy.put("round", int(said.one.v["value"]), "which one")
    if said.dose is not None and "unit" in last.slots:
        copy.put("amount", tidy(number_of(said.dose).value), "as much more")
        copy.put("unit", last.slots["unit"], "as much more")
        copy.spans.append((said.dose.s, said.dose.e))


def _next_of_planned(s: Statement, last: Draft) -> bool:
    """ "wens tonight, two grams a hive, | next round in a week": the one after that which is still to be given."""
    return last.slots.get("state") == "planned" and "on" in last.slots and (s.has("again") or "again" in s.words)


def _nth_one(s: Statement) -> Mark | None:
    """The ordinal of "second one's on friday"."""
    return next((a for a, b in pairwise(s.marks) if a.label == "ordinal" and b.w == "one"), None)


def _as_much_more(s: Statement) -> Mark | None:
    """The number of "then another fifty in two weeks", "and fifty more on the tenth"."""
    for m in s.all("number", "value"):
        k = index_of(s, m)
        near = [x.w for x in (*s.marks[max(0, k - 1) : k], *s.marks[k + 1 : k + 2])]
        if not {"another", "more"}.isdisjoint(near) and number_of(m).value > 1:
            return m
    return None


def _redo(s: Statement) -> bool:
    """Whether "do it again" is said."""
    if "again" not in s.words and not any("again" in w or "repeat" in w for w in s.words):
        return False
    words = " ".join(m.w for m in s.marks)
    return any(x in words for x in ("do it again", "do them again", "do that again", "do em again", "repeat it"))


def _told_again(s: Statement, stance: Stance) -> bool:
    """Whether the words say that it is to be done another time, on a day that is not over."""
    if s.has("ordinal") and s.has("form") and stance.said is not None and stance.ahead is not False:
        return stance.said.form != "offset" or stance.ahead is True  # "second pad a week from monday"
    if s.has("again") or (s.has("round") and stance.said is not None and stance.said.form in ("weekday", "dom", "md")):
        return True  # "second round in at Quarry, third round Friday"
    more = any(a.w == "one" and b.w == "more" for a, b in pairwise(s.marks))
    again = any(not _REPEATS.isdisjoint(m.w.split()) for m in s.marks if m.label in ("w", "same", "verb", "cue"))
    today = stance.said is not None and stance.said.is_today
    return more or (again and stance.ahead is not False and not today)
