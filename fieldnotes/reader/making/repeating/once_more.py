""" "One more next Thursday": the same treatment again, on a day to come."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of, number_of, tidy
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, place_of


def once_more(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "vaped the nucs, one more next thursday", "…, repeat in a week": the same treatment on a day to come."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if not s.has("date"):
        return False
    form = s.first("form") if s.has("ordinal") else None
    one, dose = _nth_one(s), _as_much_more(s)
    form_or_aside = form is not None
    aside = last is not None and last.kind in _TOLD_BETWEEN and s.has("again")  # "34F no wind. next one 12/20"
    if form is None and last is not None and last.kind in _TOLD_BETWEEN and (aside or _redo(s)):
        last = next((d for d in reversed(msg.thread.drafts[-3:-1]) if d.kind == "treatment"), None)
        form_or_aside = True  # "strips in n one, no brood in it, so | gonna do it again in a week"
    elif form is not None:  # "one pad each cause it's hot | second pad a week from monday"
        last = next((d for d in reversed(msg.thread.drafts[-2:]) if d.kind == "treatment"), None)
    if (
        last is None
        or last.kind != "treatment"
        or last.slots.get("step") != "in"
        or (last.slots.get("state", "done") != "done" and not _next_of_planned(s, last))
        or last.statement < msg.thread.statements - (4 if aside else 2 if form_or_aside else 1)
        or (form is not None and last.slots.get("form") not in (None, form.v["form"]))
        or not (_told_again(s, stance) or ((one or dose) is not None and stance.ahead is not False))
        or any(
            m.label not in ("date", "filler", "comma", "pronoun", "person", "again", "round")
            and not (form is not None and (m is form or m.label == "ordinal" or m.v.get("dir") == "in"))
            and m is not one
            and m is not dose
            and m.v.get("cue") != "plan"
            and not _ONCE_MORE.issuperset(m.w.split())
            for m in s.marks
        )
    ):
        return False
    copy = Draft("treatment", {k: last.slots[k] for k in ("agent", "form", "product", "step") if k in last.slots})
    copy.why = dict(last.why)
    for m in s.all("again", "round"):
        if "round" in m.v or m.label == "round":
            copy.put("round", m.v["round"] if "round" in m.v else int(number_of(m).value), m.rule)
    if one is not None:
        copy.put("round", int(one.v["value"]), "which one")
    if dose is not None and "unit" in last.slots:
        copy.put("amount", tidy(number_of(dose).value), "as much more")
        copy.put("unit", last.slots["unit"], "as much more")
        copy.spans.append((dose.s, dose.e))
    again = stance.turned("planned", ahead=True)
    copy.spans += [(m.s, m.e) for m in s.marks if m.label == "w"]
    finishing.finish(msg, i, s, again, copy, place_of(last))
    return True


_ONCE_MORE = frozenset(
    (
        "one more another again and then so last final time go to do with them it that this will need same repeat "
        "redo on is be in comes goes due we i doing going i'm we're 's the our from now after following"
    ).split()
)


_REPEATS = frozenset(["repeat", "redo", "again"])


def _next_of_planned(s: Statement, last: Draft) -> bool:
    """ "wens tonight, two grams a hive, | next round in a week": the one after that which is still to be given."""
    return last.slots.get("state") == "planned" and "on" in last.slots and s.has("again")


_TOLD_BETWEEN = frozenset(["inspection", "conditions", "change"])
"""What may be told of between a treatment and the day of its repeat."""


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
