"""Work that is first told as a whole and then dealt out: "supered heath, h1 to h4 got two each and h9 got one"."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.making import finishing
from fieldnotes.reader.making.message import GIVEN, Message, same_again
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import WHOLE_YARD, Draft, settle_ids

_DEALT: dict[str, tuple[str, ...]] = {
    "gear": ("item",),
    "treatment": ("agent", "form", "product"),
    "feed": ("feed", "ratio"),
    "queen_work": (),
}
"""What says, for each kind, which thing is dealt out."""
_NUMBERS = frozenset(["count", "amount"])


_DID = frozenset("did got done finished took pulled".split())
_BESIDE_DID = frozenset("and then but i we he she they i've we've on over there the in of at".split())


def _needed(msg: Message, last: Draft) -> bool:
    """ "all of larks needs wraps, | I did one to nine today": what was needed just before."""
    return last.slots.get("state") == "planned" and last.statement == msg.thread.statements - 1


def did_these(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "strips came out of the pond, | dov did one to twelve | and I did the nucs": who did how many of them."""
    verbs = s.all("verb")
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if (
        last is None
        or stance.state != "done"
        or last.kind not in ("treatment", "gear", "feed")
        or (last.slots.get("state", "done") != "done" and not (verbs and verbs[0].w == "did" and _needed(msg, last)))
        or last.line != s.line
        or last.statement < msg.thread.statements - 2
        or len(verbs) != 1
        or len(s.all("cols")) != 1
        or not (verbs[0].w in _DID and _whose(s))
        or any(
            m.label not in ("person", "verb", "cols", "date", "filler", "comma", "hive") and m.w not in _BESIDE_DID
            for m in s.marks
        )
    ):
        return False
    out = last.slots.get("step") in ("out", "off")
    if verbs[0].w != "did" and not out and verbs[0].w not in ("done", "finished"):
        return False
    copy = same_again(last)
    finishing.finish(msg, i, s, stance, copy)
    if not s.has("date"):
        for slot in ("on", "on_until"):
            if slot in last.slots:
                copy.put(slot, last.slots[slot], "the day of the work told")
    if last.why.get("every_colony") == WHOLE_YARD and last.slots.get("every_colony"):
        copy.spans += last.spans  # told as a whole, and now dealt out
        msg.thread.drafts.remove(last)
    return True


_TO_BE = frozenset(
    "are is were was 've have has now all and so on in off out up done finished theirs them got only just".split()
)


def these_done(msg: Message, s: Statement) -> bool:
    """ "pulled the strips at larks | 1 to 9 are out", "… | 1 to 9 got them": which of the yard's hives it was."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    cols = s.all("cols")
    if (
        last is None
        or last.kind not in _DEALT
        or not last.slots.get("every_colony")  # the reason stays behind where the slot was taken away
        or last.why.get("every_colony") != WHOLE_YARD
        or last.slots.get("state", "done") != "done"
        or last.line != s.line
        or last.statement != msg.thread.statements - 1
        or len(cols) != 1
        or len(s.marks) < 2
        or next(m for m in s.marks if m.label not in ("comma", "filler", "hive")) is not cols[0]
        or not all(m.label in ("cols", "comma", "filler", "hive") or set(m.w.split()) <= _TO_BE for m in s.marks)
        or (going_out(s) is not None and going_out(s) != (last.slots.get("step") in ("out", "off")))
    ):
        return False
    ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    if yard != last.slots.get("yard"):
        return False
    last.put("colonies", ids, "colonies")
    del last.slots["every_colony"]
    last.spans.append((cols[0].s, cols[0].e))
    last.statement = msg.thread.statements
    return True


def _whose(s: Statement) -> bool:
    """Whether somebody is named as the doer."""
    return s.has("person") or any(m.w in ("i", "we", "he", "she", "they") for m in s.marks)


def drop_told_before(msg: Message) -> None:
    """The work told as a whole is no record of its own where the very next words say what each colony got."""
    first = msg.thread.statements - len(msg.statements) + 1
    drafts = msg.thread.lately(msg.first_draft)
    for k, told in enumerate(drafts):
        if told.kind not in _DEALT or not _names_no_colony(told):
            continue
        over = msg.statements[told.statement - first]
        parts = _dealt_out(drafts[k + 1 :], told, few=any(m.w == "day" for m in over.marks))
        if not parts:
            continue
        under = msg.statements[parts[0].statement - first]
        if not _goes_right_on(under, titled=_is_title(over)):
            continue
        for part in parts:
            for slot in _DEALT[told.kind]:
                if slot in told.slots and slot not in part.slots:
                    part.put(slot, told.slots[slot], "what was dealt out")
        parts[0].spans += told.spans
        msg.thread.drafts.remove(told)


def take_out_undone(msg: Message, made: list[Draft]) -> None:
    """ "wraps on six, seven and eight, um, eight I skipped": one of a list that was left out after all."""
    for undone in made:
        ids = set(undone.slots.get("colonies", ()))
        if undone.kind not in GIVEN or undone.slots.get("state") != "not_done" or not ids:
            continue
        for d in msg.thread.lately(msg.first_draft)[-_NEAR:]:
            told = d.statement == undone.statement - 1 and d.sentence == undone.sentence and d.kind == undone.kind
            if told and d.slots.get("state", "done") == "done":
                same = all(d.slots.get(slot) == undone.slots.get(slot) for slot in ("step", "yard", *_DEALT[d.kind]))
                if same and ids < set(d.slots.get("colonies", ())):
                    d.put("colonies", [x for x in d.slots["colonies"] if x not in ids], "all but those left out")


_NEAR = 4


def _names_no_colony(told: Draft) -> bool:
    """Whether work was done, and neither the colonies nor a number of anything was said."""
    slots = told.slots
    if slots.get("state", "done") != "done" or "colonies" in slots or "colony_count" in slots:
        return False
    return _NUMBERS.isdisjoint(slots) and ("every_colony" not in slots or told.why.get("every_colony") == WHOLE_YARD)


def _dealt_out(after: list[Draft], told: Draft, few: bool = False) -> list[Draft]:
    """The records right after the one told as a whole that say of its thing how much some colonies got; of two
    colonies at least unless a `few` will do, for one alone may have got more than the others.
    """
    parts: list[Draft] = []
    for d in after:
        if d.kind != told.kind or d.statement != told.statement + len(parts) + 1 or not _is_part(d, told):
            break
        parts.append(d)
    return parts if few or sum(len(d.slots["colonies"]) for d in parts) > 1 else []


def _is_part(d: Draft, told: Draft) -> bool:
    """Whether the record says how much of the thing some colonies of the same yard got."""
    same = all(
        slot not in d.slots or slot not in told.slots or d.slots[slot] == told.slots[slot]
        for slot in (*_DEALT[d.kind], "step", "yard")
    )
    done = d.slots.get("state", "done") == "done"
    return same and done and "colonies" in d.slots and not _NUMBERS.isdisjoint(d.slots) and d.sentence == told.sentence


def _goes_right_on(s: Statement, titled: bool) -> bool:
    """Whether the statement opens with its colonies: "and h9 got two" adds to what was told, and deals nothing out.
    Under a mere title ("quarry supers") a pause may stand before them.
    """
    passed = ("ignore", "filler", "comma") if titled else ("ignore",)
    opening = next((m for m in s.marks if m.label not in passed), None)
    return opening is not None and opening.label == "cols"


def _is_title(s: Statement) -> bool:
    """ "quarry supers", "super day at larks": a yard and a thing, and nothing said of them."""
    a_day = any(m.w == "day" for m in s.marks)
    return all(m.label in _OF_TITLES or (a_day and m.label == "w") for m in s.marks)


_OF_TITLES = frozenset(["yard", "item", "feed", "agent", "form", "filler", "comma", "date"])
"""The marks of a title: a yard and a thing, and nothing said of them."""


_ITS_PLACE = frozenset(["cols", "yard", "every", "hives", "rest", "pronoun"])


def out_of_there(statements: list[Statement], k: int) -> None:
    """ "pulled the strips | and put pads in 7 and 9": what came out of the colonies that are named with what went in.
    Lends the statement before them, and the day. In place.
    """
    s, before = statements[k], statements[k - 1]
    first = next((m for m in s.marks if m.label not in ("filler", "comma") and m.w not in _BESIDE_DID), None)
    if first is None or first.v.get("dir") != "in" or s.sentence != before.sentence or before.has_any(_ITS_PLACE):
        return
    out = before.has("verb") and going_out(before)
    if not out or not before.has_any(_CAN_GO) or not s.has_any(_CAN_GO) or s.has("pronoun", "rest"):
        return
    if any(m.v.get("cue") != "plan" for m in [*before.all("cue"), *s.all("cue")]):
        return
    if any(x.sentence == s.sentence and x.has_any(_ITS_PLACE) for x in statements[max(0, k - 5) : k]):
        return  # "41 is weak, took its feeder off and put a super on 42"
    lent = s.all("cols", "yard", "every")
    lent += [] if before.has("date") else s.all("date")
    before.marks += [Mark(m.label, m.s, m.e, m.w, dict(m.v), m.rule) for m in lent]
    before.seal()


_CAN_GO = frozenset(["item", "agent", "form"])
