""" "Today I did 47 through 50", "Dov did the rest": the same work on others, done or still to do."""

from __future__ import annotations

from itertools import pairwise, takewhile

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import finishing, seeing
from fieldnotes.reader.making.message import GIVEN, OWN_SLOTS, Message, same_again, without_how_much
from fieldnotes.reader.making.repeating.ellipsis import REASONS
from fieldnotes.reader.mark import GOES, WAYS, is_others
from fieldnotes.reader.scope import Draft, Place, place_of, settle_ids

_BESIDE_DID = frozenset(["cols", "date", "filler", "comma", "verb", "person", "hive", "yard", "ignore"])
_AFTER_DID = _BESIDE_DID | {"w", "pronoun"}
_BESIDE_NEED = frozenset(["cols", "cue", "pronoun", "thing", "date", "filler", "comma"])
_BESIDE_THE_REST = frozenset("rest verb person date cue thing filler comma yard ignore".split())
_DID = listed("did_it")
_DO = listed("does_it")
_WORDS_BESIDE_DID = listed("beside_did")
_BROOD = frozenset(["eggs", "open_brood", "capped_brood"])
_OF_OTHERS = frozenset("did had does has".split())
_BESIDE_OTHERS = _WORDS_BESIDE_DID - _OF_OTHERS
_WORDS_BESIDE_NEED = listed("beside_need")
_WORDS_BESIDE_REST = listed("beside_the_rest")


def did_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "Bo put hop strips in 40 through 46 on Saturday and today I did 47 through 50": the same work on others."""
    last, verbs = msg.newest_here, s.all("verb")
    if stance.state != "done" or len(verbs) != 1 or verbs[0].w not in _DID or last is None:
        return False
    if (last.kind not in GIVEN and last.kind != "queen_work") or not _told_right_before(msg, s, last):
        return False
    if last.slots.get("state", "done") != "done" and not _others_did(last, s):
        return False
    if not (last.slots.get("colonies") or last.slots.get("except_colonies") or last.heads):
        return False  # "the strips are out, Bo did 9": who did it
    if not _only_whose(s):
        return False
    finishing.finish(msg, i, s, stance, without_how_much(last))
    return True


def other_way(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "excluders off 1-9, | on 10-12": the same things, the other way."""
    last = msg.newest_here
    said = [m for m in s.marks if m.label not in ("comma", "filler", "hive") and m.w not in ("and", "but", "then")]
    if last is None or last.kind != "gear" or stance.state != "done" or last.slots.get("state", "done") != "done":
        return False
    if len(said) != 2 or said[0].w not in ("on", "off") or said[1].label != "cols" or said[0].label != "w":
        return False
    if not _told_right_before(msg, s, last) or last.slots["step"] == said[0].w:
        return False
    copy = without_how_much(last)
    copy.put("step", said[0].w, "on or off")
    copy.spans.append((said[0].s, said[0].e))
    finishing.finish(msg, i, s, stance, copy)
    return True


def left_undone(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "OA dribble: 70, 71. Not done: 73", "supers on 1 to 5 | not on 6": the same work, not done to others."""
    last = msg.newest_here
    if stance.state != "not_done" or last is None or last.slots.get("state", "done") != "done":
        return False
    if (last.kind not in GIVEN and last.kind != "mite_check") or last.line not in (s.line - 1, s.line):
        return False
    heading = s.first("heading")
    if heading is None and not (s.marks[0].w == "not" and [m.w for m in s.marks[1:2]] in _NOT_THERE):
        return False
    ids, _ = settle_ids(list(s.all("cols")[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    if not set(ids).isdisjoint(last.slots.get("colonies", ids)):
        return False
    copy = without_how_much(last)
    copy.slots = {slot: value for slot, value in copy.slots.items() if slot not in _COUNTED}
    if heading is not None:
        copy.spans.append((heading.s, heading.e))
    finishing.finish(msg, i, s, stance, copy)
    return True


_COUNTED = frozenset(["mites", "mites_high", "per_100", "board_days"])


_NOT_THERE = (["on"], ["in"], ["for"], ["to"])


def _told_right_before(msg: Message, s: Statement, last: Draft) -> bool:
    """Whether the record was told in the statement before, on the same line."""
    return last.line == s.line and msg.just_told(last)


def _others_did(last: Draft, s: Statement) -> bool:
    """ "44 didn't get strips, | 45 did": done to others, what was left undone."""
    said = [m for m in s.marks if m.label not in ("filler", "comma")]
    while said and said[-1].w in _WORDS_BESIDE_DID:
        said.pop()
    return last.slots.get("state") == "not_done" and len(said) > 1 and said[-1].w == "did" and said[-2].label == "cols"


def _only_whose(s: Statement) -> bool:
    """Whether "did" takes the colonies and nothing else ("did nine's lid")."""
    end = max(k for k, m in enumerate(s.marks) if m.label == "cols") + 1
    head, tail = s.marks[:end], s.marks[end:]
    if any(m.label not in _BESIDE_DID and m.w not in _WORDS_BESIDE_DID for m in head):
        return False
    goes_on = not tail or tail[0].label != "w" or tail[0].w in _WORDS_BESIDE_DID
    return goes_on and all(m.label in _AFTER_DID for m in tail)


def seen_or_not(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "41 had eggs, | 42 didn't", "no eggs in 41, | 42 did": brood that is there in one, and not in the other."""
    last = msg.newest_here
    if last is None or last.kind != "inspection" or not msg.just_told(last):
        return False
    seen = {slot: value for slot, value in last.slots.items() if slot not in OWN_SLOTS}
    beside = [m for m in s.marks if m.label not in ("cols", "filler", "comma") and m.w not in _BESIDE_OTHERS]
    if len(seen) != 1 or not seen.keys() & _BROOD or len(beside) != 1:
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
    last, pronoun = msg.newest_here, s.first("pronoun")
    if stance.state != "planned" or pronoun is None or last is None:
        return False
    left = last.slots.get("except_colonies")
    if not left or (last.kind not in GIVEN and last.kind != "mite_check") or not _told_right_before(msg, s, last):
        return False
    if last.slots.get("state", "done") != "done":
        return False
    does = s.all("verb") or [m for m in s.all("w") if m.w == "finish"]
    if (
        not pronoun.w.startswith(("that one", "this one") if len(left) == 1 else ("those", "these"))
        or len(does) != 1
        or does[0].w.split()[0] not in _DO
        or s.has("cols", "every", "yard", "rest", "thing", "hives")
    ):
        return False
    draft = without_how_much(last)
    draft.spans.append((pronoun.s, pronoun.e))
    finishing.finish(msg, i, s, stance, draft, Place(last.slots.get("yard"), list(left)))
    return True


def had_theirs(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "oxalic on all but S3, | that one got done last week", "… but 70, | which I did monday": the same work, done on
    an earlier day where it was left out.
    """
    last, day = msg.newest_here, stance.when
    if stance.state != "done" or last is None or day is None or day[0] >= msg.today:
        return False
    left = last.slots.get("except_colonies")
    if not left or last.kind not in GIVEN or not _told_right_before(msg, s, last) or s.has_head:
        return False
    verbs = s.all("verb")
    if len(verbs) != 1 or verbs[0].w.split()[-1] not in _HAD_IT or s.has("cols", "every", "yard", "rest", "hives"):
        return False
    draft = same_again(last)
    draft.slots.pop("except_colonies", None)
    draft.spans += [(m.s, m.e) for m in s.all("pronoun")]
    finishing.finish(msg, i, s, stance, draft, Place(last.slots.get("yard"), list(left)))
    return True


_HAD_IT = frozenset("did done got".split())


def need_it(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "pads in 1 to 6, | so 7 and 8 still need them tomorrow": the same work, to be done to others yet."""
    if stance.state != "planned":
        return False
    one = [m for m in s.all("number") if m.w == "one"]
    if not (one or s.has("pronoun", "thing")) or not any(
        "need" in m.w or "get" in m.w.split() for m in cues(s, "plan")
    ):
        return False
    last = next((d for d in reversed(msg.thread.lately(msg.first_draft)) if d.kind in GIVEN), None)
    if last is None or last.slots.get("state", "done") != "done" or last.line != s.line:
        return False
    if last.statement < msg.thread.statements - 2:
        return False
    if any(m.label not in _BESIDE_NEED and m.w not in _WORDS_BESIDE_NEED and m not in one for m in s.marks):
        return False
    draft = without_how_much(last)
    if one and draft.kind == "gear":
        draft.put("count", 1, "needs one")  # "S5 got a second box | and S6 will need one by the weekend"
        draft.spans.append((one[0].s, one[0].e))
    finishing.finish(msg, i, s, stance, draft)
    return True


def goes_too(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "supers off L1 to L10 and | L11 to L20 come off monday", "wraps are on 1 to 6, | 7 goes on friday": the same
    thing goes the same way in others.
    """
    last = _thing_that_goes(msg, s, _WORDS_BESIDE_NEED)
    if last is None or last.slots.get("state", "done") != "done":
        return False
    if going_out(s) is not (last.slots.get("step") in ("out", "off")):
        return False
    finishing.finish(msg, i, s, stance, without_how_much(last))
    return True


def came_off_then(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "formic went on at the quarry on the 15th and | came off on the 29th": the other way, another day."""
    last = _thing_that_goes(msg, s, _THEN)
    other = {"in": "out", "on": "off"}.get(last.slots.get("step", "")) if last is not None else None
    if last is None or other is None or not s.has("date") or not going_out(s):
        return False
    draft = without_how_much(last)
    for slot in ("days", "round", "count"):
        draft.slots.pop(slot, None)
    draft.put("step", other, "came off")
    finishing.finish(msg, i, s, stance, draft, place_of(last))
    return True


def _thing_that_goes(msg: Message, s: Statement, beside: frozenset[str]) -> Draft | None:
    """What was told right before of a thing that goes in or comes off, where nothing but such a verb, days, colonies
    and words of `beside` are said now; else None.
    """
    last, verbs = msg.newest_here, s.all("verb")
    if last is None or last.kind not in ("gear", "treatment") or not _told_right_before(msg, s, last):
        return None
    if len(verbs) != 1 or verbs[0].w.partition(" ")[0] not in GOES:
        return None
    plain = all(m.label in _BESIDE_GOES or m.w in beside or m.w in _WAY for m in s.marks)
    return last if plain else None


_THEN = frozenset(["and", "then", "on", "they", "it", "again", "back"])
_BESIDE_GOES = frozenset(["cols", "cue", "verb", "date", "filler", "comma"])
_WAY = WAYS | {"'s", "then", "both"}


def the_rest(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "strips in 41 to 46, | dov did the rest on friday": the work just told, done to the others, too."""
    if s.has_head or s.has("cols", "every", "hives", "number", "noun", "queen_noun"):
        return False
    if not s.has("verb") and not cues(s, "plan"):
        return False
    since = msg.thread.statements - 2
    lately = reversed(msg.thread.lately(msg.first_draft))
    last = next((d for d in lately if d.line == s.line and d.statement >= since), None)
    if last is None or last.kind not in GIVEN:
        return False
    if last.slots.get("state", "done") != "done" or "colonies" not in last.slots or not _done_to_the_rest(s, last):
        return False
    copy = same_again(last) if _as_much_each(msg, s, last) else without_how_much(last)
    doing = any(m.w == "doing" for m in s.all("verb")) and stance.state == "done" and not _is_past(s, stance)
    finishing.finish(msg, i, s, stance.turned("planned") if doing else stance, copy)
    return True


def _done_to_the_rest(s: Statement, last: Draft) -> bool:
    """Whether the statement says no more than that the work was or will be done to the rest."""
    for m in s.all("verb"):
        fed = m.v.get("does") == "feed"
        if (m.w not in _DO and not fed) or (fed and last.kind != "feed"):
            return False
    return all(
        m.label in _BESIDE_THE_REST or m.w in _WORDS_BESIDE_REST or is_others(m)
        for m in takewhile(lambda m: m.w not in REASONS, s.marks)
    )


def _as_much_each(msg: Message, s: Statement, last: Draft) -> bool:
    """ "three grams each, Bo did 1-9 | and I did the rest", "the rest same dose": whether the others got as much."""
    if any(a.w == "same" and b.w in ("amount", "dose") for a, b in pairwise(s.marks)):
        return True
    before = msg.before
    return before is not None and msg.just_told(last) and not before.has("unit", "amount", "number", "each", "value")


def _is_past(s: Statement, stance: Stance) -> bool:
    """Whether "doing" is said of what is over ("was doing the rest", "doing the rest yesterday")."""
    return stance.ahead is False or any(m.w in ("was", "were", "been") for m in s.marks)
