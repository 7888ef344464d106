""" "Today I did 47 through 50", "Dov did the rest": the same work on others, done or still to do."""

from __future__ import annotations

from itertools import pairwise, takewhile

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.making import finishing, seeing
from fieldnotes.reader.making.message import HOW_MUCH, OWN_SLOTS, Message, same_again
from fieldnotes.reader.making.repeating.ellipsis import REASONS
from fieldnotes.reader.mark import is_others
from fieldnotes.reader.scope import Draft, Place


def did_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "Bo put hop strips in 40 through 46 on Saturday and today I did 47 through 50": the same work on others."""
    verbs = s.all("verb")
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if (
        last is None
        or last.kind not in ("treatment", "gear", "feed", "queen_work")
        or not (last.slots.get("state", "done") == "done" or _others_did(last, s))
        or not (
            last.slots.get("colonies") or last.slots.get("except_colonies") or last.heads
        )  # "the strips are out, Bo
        # did 9": who did it
        or last.line != s.line
        or last.statement != msg.thread.statements - 1
        or stance.state != "done"
        or len(verbs) != 1
        or verbs[0].w not in _DID
    ):
        return False
    end = max(k for k, m in enumerate(s.marks) if m.label == "cols") + 1
    head, tail = s.marks[:end], s.marks[end:]
    if any(m.label not in _MARKS_BESIDE_DID and m.w not in _BESIDE_DID for m in head):
        return False
    goes_on = not tail or tail[0].label != "w" or tail[0].w in _BESIDE_DID
    if not goes_on or any(m.label not in _MARKS_BESIDE_DID | {"w", "pronoun"} for m in tail):
        return False  # "did nine's lid"
    finishing.finish(msg, i, s, stance, same_again(last, HOW_MUCH | {"approx"}))
    return True


_MARKS_BESIDE_DID = frozenset(["cols", "date", "filler", "comma", "verb", "person", "hive", "yard", "ignore"])


_DID = frozenset(["did", "done", "finished", "did do"])


_BESIDE_DID = frozenset(
    (
        "i we he she i've we've he's she's have has had and then but so also already just the rest of up there here "
        "myself it"
    ).split()
)


def _others_did(last: Draft, s: Statement) -> bool:
    """ "44 didn't get strips, | 45 did": done to others, what was left undone."""
    said = [m for m in s.marks if m.label not in ("filler", "comma")]
    while said and said[-1].w in _BESIDE_DID:
        said.pop()
    return last.slots.get("state") == "not_done" and len(said) > 1 and said[-1].w == "did" and said[-2].label == "cols"


_BROOD = frozenset(["eggs", "open_brood", "capped_brood"])
_OF_OTHERS = frozenset("did had does has".split())


def seen_or_not(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "41 had eggs, | 42 didn't", "no eggs in 41, | 42 did": brood that is there in one, and not in the other."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.kind != "inspection" or last.statement != msg.thread.statements - 1:
        return False
    seen = {slot: value for slot, value in last.slots.items() if slot not in OWN_SLOTS}
    beside = [m for m in s.marks if m.label not in ("cols", "filler", "comma") and m.w not in _BESIDE_DID - _OF_OTHERS]
    if len(seen) != 1 or not _BROOD & seen.keys() or len(beside) != 1:
        return False
    there = next(iter(seen.values()))
    denied = beside[0].label == "cue" and beside[0].w.split()[0].removesuffix("n't") in _OF_OTHERS
    if not denied if there else beside[0].w not in _OF_OTHERS:
        return False
    draft = Draft("inspection", dict.fromkeys(seen, not there), [(beside[0].s, beside[0].e)], dict(last.why))
    finishing.finish(msg, i, s, stance.turned("done"), draft, add=False)
    seeing.add_seen(msg, i, s, draft)
    return True


def do_left(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "strips out of every hive but 73, that one I'll do friday": the same work, yet to be done where it was left."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    left = last.slots.get("except_colonies") if last is not None else None
    pronoun, verbs = s.first("pronoun"), s.all("verb")
    does = verbs or [m for m in s.all("w") if m.w == "finish"]
    if (
        last is None
        or not left
        or last.kind not in ("treatment", "gear", "feed", "mite_check")
        or last.slots.get("state", "done") != "done"
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or stance.state != "planned"
        or pronoun is None
        or not pronoun.w.startswith(("that one", "this one") if len(left) == 1 else ("those", "these"))
        or len(does) != 1
        or does[0].w.split()[0] not in _DO
        or s.has("cols", "every", "yard", "rest", "thing", "hives")
    ):
        return False
    draft = same_again(last, HOW_MUCH | {"approx"})
    draft.spans.append((pronoun.s, pronoun.e))
    finishing.finish(msg, i, s, stance, draft, Place(last.slots.get("yard"), list(left)))
    return True


def need_it(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "pads in 1 to 6, | so 7 and 8 still need them tomorrow": the same work, to be done to others yet."""
    last = next(
        (d for d in reversed(msg.thread.lately(msg.first_draft)) if d.kind in ("treatment", "gear", "feed")), None
    )
    one = [m for m in s.all("number") if m.w == "one"]
    if (
        last is None
        or last.slots.get("state", "done") != "done"
        or last.line != s.line
        or last.statement < msg.thread.statements - 2
        or stance.state != "planned"
        or not (s.has("pronoun", "thing") or one)
        or not any("need" in m.w or "get" in m.w.split() for m in cues(s, "plan"))
        or any(
            m.label not in ("cols", "cue", "pronoun", "thing", "date", "filler", "comma")
            and m.w not in _NEEDS
            and m not in one
            for m in s.marks
        )
    ):
        return False
    draft = same_again(last, HOW_MUCH | {"approx"})
    if one and draft.kind == "gear":
        draft.put("count", 1, "needs one")  # "S5 got a second box | and S6 will need one by the weekend"
        draft.spans.append((one[0].s, one[0].e))
    finishing.finish(msg, i, s, stance, draft)
    return True


_NEEDS = frozenset("so but and still it them theirs that the ones one some too yet also as well by".split())


_DO = frozenset("did do does done doing finished finish get gets got getting goes go got done".split())


def the_rest(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "strips in 41 to 46, | dov did the rest on friday": the work just told, done to the others, too."""
    if s.has_head or s.has("cols", "every", "hives", "number", "noun", "queen_noun") or not s.has("verb", "cue"):
        return False
    last = next(
        (
            d
            for d in reversed(msg.thread.lately(msg.first_draft))
            if d.line == s.line and d.statement >= msg.thread.statements - 2
        ),
        None,
    )
    feeds = [m for m in s.all("verb") if m.v.get("does") == "feed"]
    if (
        last is None
        or last.kind not in ("treatment", "gear", "feed")
        or last.slots.get("state", "done") != "done"
        or "colonies" not in last.slots
        or any(m.w not in _DO and m not in feeds for m in s.all("verb"))
        or (feeds and last.kind != "feed")
        or any(
            m.label not in ("rest", "verb", "person", "date", "cue", "thing", "filler", "comma", "yard", "ignore")
            and m.w not in _BESIDE_REST
            and not is_others(m)
            for m in takewhile(lambda m: m.w not in REASONS, s.marks)
        )
    ):
        return False
    if not s.has("verb") and not cues(s, "plan"):
        return False
    dealt = msg.before is not None and not msg.before.has("unit", "amount", "number", "each", "value")
    dealt = dealt and last.statement == msg.thread.statements - 1  # "three grams each, Bo did 1-9 | and I did the rest"
    dealt = dealt or any(a.w == "same" and b.w in ("amount", "dose") for a, b in pairwise(s.marks))
    copy = same_again(last, frozenset() if dealt else HOW_MUCH | {"approx"})  # how much the others got was not said
    doing = any(m.w == "doing" for m in s.all("verb")) and stance.state == "done" and not _is_past(s, stance)
    finishing.finish(msg, i, s, stance.turned("planned") if doing else stance, copy)
    return True


_BESIDE_REST = frozenset(
    "the and but so then on in of at for to with by be is are was were being it i we he she they i'm we're he's she's "
    "still later over there up this that all been has have wait till til until same amount dose thing".split()
)


def _is_past(s: Statement, stance: Stance) -> bool:
    """Whether "doing" is said of what is over ("was doing the rest", "doing the rest yesterday")."""
    return stance.ahead is False or any(m.w in ("was", "were", "been") for m in s.marks)
