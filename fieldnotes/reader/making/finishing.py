"""Place, state, day and person of a record, and its place among the records before it."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from fieldnotes.reader.assertion import Stance, take_stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.amounts import days_of
from fieldnotes.reader.frames.marks import index_of, neighbour
from fieldnotes.reader.making import (
    placing,
    reporting,
)
from fieldnotes.reader.making.message import NEAR, Message
from fieldnotes.reader.mark import WAYS, Mark
from fieldnotes.reader.scope import Draft, Place


def finish(
    msg: Message, i: int, s: Statement, stance: Stance, draft: Draft, place: Place | None = None, add: bool = True
) -> None:
    """Place, state, day and person of a draft."""
    used: list[Mark] = []
    if place is None:
        place, used = placing.where(msg, i, s, draft.kind, stance)
    if (
        place.supposed
        and draft.kind == "gear"
        and "count" in draft.slots
        and not (s.has("each") or placing.all_of_yard(s))
    ):
        place.every = False  # "3 traps off": a number was named, so not each colony is meant
    if draft.kind in ("queen_work",) and place.every and not s.has("every") and not s.has("cue"):
        place.every = False
    draft.heads = (
        s.has("agent")
        and not s.has("verb", "cue", "every", "date", "each")
        and (place.supposed or not s.has("cols", "pronoun", "rest", "yard", "number", "hives", "unit", "round"))
    )
    place.fill(draft)
    placing.keep_nucs(msg, s, draft)
    for m in used:
        draft.spans.append((m.s, m.e))
    put_day(msg, i, s, stance, draft)
    if stance.state == "done" and draft.kind in _DONE_TO_HIVES and draft.slots.get("on", "") > msg.today.isoformat():
        draft.put("state", "planned", "a day to come")  # nothing has been done on it yet
    if stance.state == "not_done" and draft.kind == "gear" and draft.slots.get("count") == 1:
        del draft.slots["count"]  # "haven't given twenty a super yet": none was given, so there is no number
    if stance.state == "not_done" and draft.kind == "treatment" and draft.slots.get("amount") == 1:
        for slot in ("amount", "unit"):  # "47 didn't get a wafer"
            draft.slots.pop(slot, None)
    if stance.state != "done":
        draft.put("state", stance.state, "cue")
        for m in s.all("cue"):
            if m.v.get("cue") in ("plan", "not", "if"):
                draft.spans.append((m.s, m.e))
    person = doer(msg, s)
    if "myself" in s.words and any(m.label == "w" and m.w == "myself" for m in s.marks):
        person = msg.actor = None
        if msg.sender is not None:
            draft.put("by", msg.sender, "myself")
    elif person is not None:
        draft.put("by", person.v["value"], "person")
        draft.spans.append((person.s, person.e))
        msg.last_person = (person, s.sentence)
        msg.actor = (person, msg.thread.statements)
        cols = s.first("cols")
        by_whom = s.has("method") and s.all("method")[0].s < person.s  # "washes by inez, S1 five, S2 eight"
        does = s.has("verb") or any(m.v.get("verb") for m in s.all("method"))
        if draft.kind == "mite_check" and (does or by_whom) and cols is not None and person.s < cols.s:
            msg.who_checked = (person, s.line)  # "Inez did the sawmill, washes: S1 three, S2 …"
    elif msg.actor is not None and msg.actor[1] >= msg.thread.statements - 1 and goes_on(s):
        draft.put("by", msg.actor[0].v["value"], "person")  # "inez marked her | and clipped her"
        msg.actor = (msg.actor[0], msg.thread.statements)
    elif (
        msg.last_person is not None
        and s.sentence - msg.last_person[1] <= 1
        and any(
            m.label in ("w", "cue") and m.w.split()[0] in _HE and not _of_colony(s, k) for k, m in enumerate(s.marks)
        )
    ):
        draft.put("by", msg.last_person[0].v["value"], "he or she")
    elif msg.who_did is not None:
        draft.put("by", msg.who_did.v["value"], "who did these")
    elif stance.state in ("done", "not_done") and (told := reporting.news(msg, s)) is not None:
        draft.put("by", told.v["value"], "who brought the news")
    elif draft.kind == "mite_check" and msg.who_checked is not None and reporting.own_work(s):
        msg.who_checked = None  # "Marit did washes at cut bank …, today I sugar rolled fifty"
    elif draft.kind == "mite_check" and msg.who_checked is not None and msg.who_checked[1] == s.line:
        draft.put("by", msg.who_checked[0].v["value"], "who took the samples")
    elif msg.sender is not None:
        draft.put("by", msg.sender, "sender")
    for m in s.marks:
        if "struck" in m.v:
            draft.spans += m.v["struck"]
        if m.label in ("verb", "each", "approx", "rest", "hive"):
            draft.spans.append((m.s, m.e))
    if add:
        msg.add(i, s, draft)
        if s.has("hives"):
            _ask_which_left(msg, s, draft)
    if draft.kind in ("treatment",):
        msg.thread.last_treatment = draft
    if place.every or place.count is not None:
        if draft.kind != "conditions":
            msg.held.cols = {
                "ids": [],
                "yard": place.yard,
                "every": place.every,
                "except": place.except_,
                "count": place.count,
            }
            msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line


_DONE_TO_HIVES = frozenset(["treatment", "gear", "feed", "change", "queen_work", "harvest", "mite_check"])
_HE = frozenset(["he", "she", "he's", "she's", "he'll", "she'll", "he'd", "she'd"])


def _of_colony(s: Statement, k: int) -> bool:
    """Whether "he", "she" at `k` is a colony: "sixty he has four mites", "because he is very angry"."""
    if s.has("verb", "queen_work", "change", "harvest"):
        return False
    if k and s.marks[k - 1].label == "cols":
        return True
    after = [m for m in s.marks[k + 1 : k + 4] if m.label not in ("filler", "comma")]
    has = s.marks[k].w.endswith("'s") or (after and after[0].w.split()[0] in ("has", "is", "was", "had"))
    return bool(has) and any(m.label in ("mites", "fact", "value", "number") for m in after)


def _ask_which_left(msg: Message, s: Statement, draft: Draft) -> None:
    """ "all but two hives": which two, only a person can say."""
    left = next((m for m in s.all("hives") if "n" in m.v and placing.after_except(s, m)), None)
    if left is None or not draft.slots.get("every_colony") or "except_colonies" in draft.slots:
        return
    where = f" at {draft.slots['yard']}" if "yard" in draft.slots else ""
    ask = f'"{left.w}" left out{where}: which?'
    draft.spans.append((left.s, left.e))
    msg.thread.questions.append((draft, ask, [], "left_out", left.w))


def goes_on(s: Statement) -> bool:
    """Whether the statement goes on with the doer of the one before: "and" and a verb or number, no doer of its own."""
    if s.opens != "soft" or not s.marks:
        return False
    if all(m.label in ("comma", "fact") for m in s.marks):
        return True  # "Marit found the queen in 22 | , green dot | and clipped her"
    first = next((m for m in s.marks if m.label != "comma"), s.marks[0])
    if first.w not in ("and", "then"):
        return False
    after = next((m for m in s.marks if m.label != "comma" and m.w not in ("and", "then", "also", "she", "he")), None)
    return after is not None and after.label in ("verb", "queen_work", "change", "method", "form", "number")


def _been_so_long(s: Statement, days: Mark) -> bool:
    """Whether "have been in" stands before the number of days, or "at", where they are days of a treatment."""
    k = index_of(s, days)
    marks = s.marks[:k]
    if (
        k
        and marks[-1].w in ("at", "we're at", "is at")
        and s.marks[k + 1 : k + 2]
        and s.marks[k + 1].w in ("on", "with")
    ):
        return True  # "wens is at ten days on the pads"
    while marks and marks[-1].label in ("yard", "cols", "every", "each", "hives"):
        marks = marks[:-1]  # "strips have been in at the quarry forty days"
    if "had" in s.words and not s.words.isdisjoint(("have", "has")):
        return True  # "forty has had its strips in for six weeks"
    return any("been" in m.w.split() for m in (*marks[-3:], days))


def put_day(msg: Message, i: int, s: Statement, stance: Stance, draft: Draft) -> None:
    """Fills `on` and `on_until`: the day said, the day carried on, else the day of the message."""
    days = s.first("days")
    if days is not None and "days" in draft.slots and not s.has("date") and _been_so_long(s, days):
        del draft.slots["days"]  # "the trays have been in three weeks": put in three weeks ago
        draft.put("on", (msg.today - timedelta(days=days_of(days))).isoformat(), days.rule)
        return
    when = stance.when
    date_mark = s.first("date")
    if stance.state == "planned" and stance.said is not None and stance.said.ahead is False:
        return  # "haven't been there since last tuesday, supers need checking": no day to do it
    if when is None and date_mark is None:
        when = day_carried(msg, i, s, stance, draft)
        if when is not None and stance.state in ("done", "not_done") and when[0] > msg.today:
            when = None  # "call the inspector monday and seven I looked at, queen right"
        if when is not None and stance.state in ("planned", "conditional") and when[1] < msg.today:
            when = None  # "Marit did larks yesterday … if the flow holds I'll put a super back"
        if when is None and msg.line_day is not None and msg.line_day[0] == s.line and stance.state == "done":
            when = msg.line_day[1]
        if when is None and msg.held.day is not None and stance.state in ("done", "not_done"):
            when = msg.held.day
        seen = (draft.kind == "inspection" or draft.slots.get("step") == "died") and stance.state == "done"
        if when is not None and (seen or stance.state == "not_done") and when[0] > msg.today:
            when = None  # nobody has seen, or left undone, what is to come
        if when is None and msg.held.day is not None and stance.state == "planned" and msg.held.day[0] > msg.today:
            when = msg.held.day
    if date_mark is not None:
        draft.spans.append((date_mark.s, date_mark.e))
    same_day = None
    if date_mark is None and s.has("same_day", "temp"):
        same_day = s.first("same_day") or next((m for m in s.all("temp") if "that day" in m.w), None)
    if same_day is not None and msg.thread.drafts and "on" in msg.thread.drafts[-1].slots:
        for slot in ("on", "on_until"):
            if slot in msg.thread.drafts[-1].slots:
                draft.put(slot, msg.thread.drafts[-1].slots[slot], same_day.rule)
        draft.spans.append((same_day.s, same_day.e))
        return
    if when is None:
        if stance.state in ("done", "not_done"):
            draft.put("on", msg.today.isoformat(), "day of the message")
        return
    if draft.kind == "conditions" and when[0] < msg.today <= when[1]:
        when = (msg.today, msg.today)  # "47 degrees in May"
    draft.put("on", when[0].isoformat(), "date")
    if when[1] != when[0]:
        draft.put("on_until", when[1].isoformat(), "date")


def _stands_so(before: Statement, s: Statement) -> bool:
    """Whether it tells how things are at a yard, after hives were moved."""
    moved = any(m.v.get("step") == "moved" for m in before.all("change"))
    are = any(a.w in ("are", "is") and b.w in WAYS for a, b in pairwise(s.marks))
    return moved and are and s.has("yard") and not s.has("cols", "verb", "change")


def _said_of_it_only(s: Statement, day: Mark) -> bool:
    """ "S2 got two cells, that was yesterday": the day closes what is said, and holds for nothing after it."""
    k = index_of(s, day)
    words = [m.w for m in s.marks[max(0, k - 2) : k]]
    return day is s.marks[-1] and (words == ["that", "was"] or words[-1:] == ["that's"])


def _out_since(msg: Message, before: Statement, draft: Draft) -> bool:
    """ "went in on the third, and I took it all out": the day that a thing went in is not that on which it came out."""
    went_in = next((d for d in reversed(msg.thread.drafts[-3:]) if d.kind == draft.kind == "treatment"), None)
    out = draft.slots.get("step") == "out"
    return out and went_in is not None and went_in.slots.get("step") == "in" and before.has("agent", "form")


def _another_doer(before: Statement, s: Statement) -> bool:
    """ "Marit put pads in nine yesterday, me I put pads in ten": the day of what somebody else did is theirs."""
    return before.has("person") and not s.has("person") and any(m.w in ("i", "me") for m in s.marks[:4])


_STILL_NOT = frozenset(["isn't", "aren't", "ain't"])


def day_carried(msg: Message, i: int, s: Statement, stance: Stance, draft: Draft) -> tuple[date, date] | None:
    """The day of the statement before, where this one goes on with it."""
    if s.marks[-1].w == "now" or (draft.kind == "inspection" and any(m.w == "now" for m in s.marks[:3])):
        return None  # "it was light in January and it's empty now", "no eggs last week and now eggs"
    if draft.slots.get("step") == "died" and any(m.label == "change" and _is_dead(s, m) for m in s.marks):
        return None  # "sold four nucs friday, fifty seven is a dead out": seen today
    if stance.state == "not_done" and any(m.label == "cue" and m.w.split()[-1] in _STILL_NOT for m in s.marks):
        return None  # "fed 40 on friday and the excluder isn't off sixty yet": as things stand today
    j = i - 1
    while j >= max(0, i - NEAR) and msg.statements[j].sentence == s.sentence:
        before = msg.statements[j]
        mark = before.first("date")
        if mark is not None:
            b_stance = take_stance(before, msg.today, msg.hemisphere, None)
            if draft.kind != "change" and any(m.v.get("step") == "swarmed" for m in before.all("change")):
                return None  # "l twelve swarmed monday, it's got nine swarm cells": seen today
            if _stands_so(before, s):
                return None  # "last night I moved 1 to 4 to heath, feeders are off at larks"
            if _said_of_it_only(before, mark) or _another_doer(before, s) or _out_since(msg, before, draft):
                return None
            if draft.kind == "conditions" and s.marks[0].label == "filler":
                return None  # "… and 40 to 49 yesterday um thirty three degrees out": today's weather
            if b_stance.asked:
                return None  # "did anybody wash wens in june | anyway seventy six is hot"
            if b_stance.when is None or (before.has("temp") and draft.kind != "conditions"):
                return None  # "a low of nineteen last night um wraps on everything"
            between = [d for d in msg.thread.lately(msg.first_draft) if d.statement > msg.thread.statements - (i - j)]
            at = msg.thread.statements - (i - j)
            if draft.kind != "todo" and any(d.kind == "todo" and d.statement >= at for d in msg.thread.drafts[-2:]):
                return None  # "pick up the cups saturday, and seventy nine's hot"
            if any(d.kind == draft.kind and d.slots.get("on") != b_stance.when[0].isoformat() for d in between):
                return None  # "sold five on friday um S2 is strong, it has seven frames of brood"
            pause = any(_pauses(x) for x in msg.statements[j + 1 : i + 1])
            same_kind = any(
                d.kind == draft.kind
                and not (pause and d.kind == "change" and d.slots["step"] != draft.slots["step"])
                and d.slots.get("state", "done") == stance.state
                and d.sentence == s.sentence
                for d in msg.thread.lately(msg.first_draft)
            )
            header = not before.has_head or all(
                m.label in ("method", "sample", "verb", "check") for m in before.marks if m.label in HEADS
            )
            # "wednesday I bought five colonies … um there's a trap in fourteen": a pause ends what a leading day holds
            stands = any(m.w in ("there's", "theres") for m in s.marks[:3])  # "so there's a trap in it": today
            leading = leads_sentence(before, mark) and not pause and not stands
            if (same_kind or header or (leading and not s.has("fact", "sky", "temp"))) and (
                b_stance.state == stance.state or (header and stance.state != "planned" and b_stance.plan is False)
            ):
                return b_stance.when
            return None
        j -= 1
    if msg.statements[i].line >= 0 and draft.kind == "mite_check" and stance.state == "done":
        j = i - 1
        while j >= max(0, i - NEAR) and msg.statements[j].line == s.line:
            before = msg.statements[j]
            mark = before.first("date")
            if (
                mark is not None
                and before.has("method")
                and all(m.label in ("method", "sample", "verb") for m in before.marks if m.label in HEADS)
            ):
                b_stance = take_stance(before, msg.today, msg.hemisphere, None)
                return b_stance.when if b_stance.state == "done" else None
            j -= 1
    return None


def _is_dead(s: Statement, m: Mark) -> bool:
    """ "is a dead out", "is dead", "fifty seven's a dead out"."""
    before = neighbour(s, index_of(s, m), -1)
    return m.w.split()[0] == "is" or (before is not None and before.w in ("is", "'s", "are"))


def _pauses(s: Statement) -> bool:
    """Whether the statement opens with a pause ("um", "oh")."""
    return any(m.label == "filler" and m.w in ("um", "uh", "oh", "er", "anyway") for m in s.marks[:3])


def leads_sentence(s: Statement, mark: Mark) -> bool:
    """Whether the day stands first in its sentence."""
    for m in s.marks:
        if m is mark:
            return True
        if m.label not in ("filler", "comma", "w", "yard", "person"):
            return False
    return False


_TELLS = frozenset("tells told asked asks wants wanted".split())


def tells(s: Statement, k: int) -> bool:
    """Whether the person at `k` tells somebody to do it: "Marit she tells me to make the rolls"."""
    return any(x.w.split()[0] in _TELLS for x in s.marks[k + 1 : k + 4] if x.label in ("w", "cue", "filler"))


_BEFORE_DEED = frozenset("and also just already had has was alcohol is can could should".split())


def doer(msg: Message, s: Statement) -> Mark | None:
    """The person who did it, where the words say so; None where they do not."""
    for k, m in enumerate(s.marks):
        if m.label != "person":
            continue
        before, after = neighbour(s, k, -1), neighbour(s, k, 1)
        if k + 1 < len(s.marks) and s.marks[k + 1].w.split()[0] in ("had", "has") and s.marks[k + 1].label == "filler":
            continue  # "Marit had me do the washes"
        owned = neighbour(s, k + 1, 1)
        if (
            after is not None
            and after.w in ("has", "'s got")
            and owned is not None
            and owned.w in ("the", "our", "all")
        ):
            continue  # "on monday, Marit has the strips"
        if tells(s, k):
            continue  # "Marit she tells me to make the rolls"
        if before is not None and before.w == "and" and k > 1 and s.marks[k - 2].w in ("me", "i", "myself"):
            continue  # "me and Dov moved eight hives"
        if (
            after is not None
            and after.w == "and"
            and k + 2 < len(s.marks)
            and s.marks[k + 2].w in ("me", "i", "myself")
        ):
            continue  # "Dov and I caught a swarm"
        if before is not None and before.w == "from" and s.has("agent") and s.has("verb"):
            return m  # "n1-n6 got an oxalic dribble from Dov"
        if (
            before is not None
            and before.label == "w"
            and before.w in ("to", "from", "with", "for", "at", "ask", "tell", "near", "by")
            and before.w != "by"
        ):
            continue
        if before is not None and before.w == "by":
            return m
        if after is not None and (
            after.label in ("verb", "method", "change", "queen_work", "harvest", "check", "cue", "form", "fact", "sky")
            or (after.label == "w" and after.w in _BEFORE_DEED)
            or after.label in ("date", "agent", "item")
            or (after.label == "mites" and after.w.startswith("counted"))
        ):
            if after.label == "w" and after.w in ("had", "has", "is", "was") and s.has("fact") and not s.has("verb"):
                continue
            told = neighbour(s, k + 1, 1)
            if (
                after.v.get("cue") == "report"
                and told is not None
                and (told.w == "do" or told.v.get("tense") == "base")
            ):
                continue  # "Dov says do the brood first": told, not done
            return m
    return None


def merge(target: Draft, source: Draft, names: tuple[str, ...]) -> None:
    """Gives the slots of `names` that the target lacks, and the spans."""
    for name in names:
        if name in source.slots and name not in target.slots:
            target.put(name, source.slots[name], source.why.get(name, ""))
    target.spans += source.spans


def said_twice(msg: Message, draft: Draft, s: Statement) -> None:
    """Takes the newest record back where one made in the same sentence says just the same."""
    for old in msg.thread.lately(msg.first_draft):
        if old is draft or old.kind != draft.kind or old.sentence != s.sentence:
            continue
        if old.slots == draft.slots:
            old.spans += draft.spans
            old.statement = draft.statement
            msg.thread.drafts.remove(draft)
            return
        day = {"on", "on_until"}
        if (
            old.slots.get("state") == draft.slots.get("state") == "planned"
            and not day & set(old.slots)
            and old.slots == {k: v for k, v in draft.slots.items() if k not in day}
        ):
            draft.spans += old.spans  # "22 still to do, I'll get that one Monday": the day of the same plan
            msg.thread.drafts.remove(old)
            return


def only_yard(msg: Message) -> str | None:
    """The yard of all that this sender has said so far, where no yard was named and the colonies give one."""
    yards = {d.slots.get("yard") for d in msg.thread.lately(msg.first_draft)}
    return next(iter(yards)) if len(yards) == 1 else None
