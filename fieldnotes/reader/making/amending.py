"""Statements that add to the record before them or put it right ("they stay in fourteen days", "nope, L1 and L2")."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.amounts import amount_of, days_of
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import index_in, neighbour, number_of, tidy
from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.making import (
    finishing,
    holding,
    placing,
)
from fieldnotes.reader.making.message import HOW_MUCH, OWN_SLOTS, Message, same_again
from fieldnotes.reader.making.repeating.lasting import all_so_long
from fieldnotes.reader.mark import MOST_GIVEN, Mark
from fieldnotes.reader.scope import Draft, Place, place_of, settle_ids

_NAMED = frozenset("as called now it's its is that's are they're 's be".split())


def amend(msg: Message, i: int, s: Statement) -> bool:
    """ "scratch that, 28", "nope, L1, L2 and L4": an opening correction puts the record before it right."""
    if not msg.correcting or i > 0 or not msg.thread.drafts or s.has("method", "agent", "item", "feed", "fact"):
        return False
    mine = [d for d in msg.thread.lately() if d.slots.get("by") == msg.sender] or msg.thread.lately()
    last = mine[-1]
    group = [d for d in mine if d.statement == last.statement]
    cols = s.all("cols") or _bare_ids(msg, s, last)
    counts = [m for m in s.marks if m.label in ("number", "value", "unit", "amount", "mites")]
    if not s.has("cols") and cols:
        counts = []
    if len(cols) == 1 and not counts:
        ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
        old = last.slots.get("colonies")
        again = len(ids) > 1 and not set(ids).isdisjoint(old or ())  # "sorry, L1-L9", of L1-L10: the list said over
        if not old or (len(old) != len(ids) and len(old) != 1 and not again):
            return False
        for d in group:
            if d.slots.get("colonies") == old:
                d.put("colonies", ids, "put right")
                d.spans.append((cols[0].s, cols[0].e))
                if yard:
                    d.put("yard", yard, "yard")
                d.statement = msg.thread.statements
    elif len(cols) == 2 and any(m.w == "not" for m in s.marks):
        new, _ = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
        old, _ = settle_ids(list(cols[1].v["ids"]), last.slots.get("yard"), msg.outfit)
        hit = [d for d in mine if d.slots.get("colonies") == old]
        if not hit:
            return False
        for d in hit[-1:]:
            d.put("colonies", new, "put right")
            d.spans += [(cols[0].s, cols[0].e), (cols[1].s, cols[1].e)]
            d.statement = msg.thread.statements
    elif len(cols) == 1 and len(counts) == 1 and counts[0].label in ("value", "mites"):
        # "sorry, 74 was 18": the check of that colony
        ids, _ = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
        hit = [d for d in mine if d.slots.get("colonies") == ids and "mites" in d.slots]
        if not hit:
            return False
        hit[-1].put("mites", tidy(number_of(counts[0]).value), "put right")
        hit[-1].spans += [(cols[0].s, cols[0].e), (counts[0].s, counts[0].e)]
        hit[-1].statement = msg.thread.statements
    elif len(counts) == 1 and not cols:
        m = counts[0]
        if m.label == "amount":
            value, unit = amount_of(m)
        else:
            value, unit = number_of(m).value, m.v.get("unit")
        slot = next((x for x in ("mites", "amount", "count", "colony_count") if x in last.slots), None)
        if slot is None:
            return False
        last.put(slot, tidy(value), "put right")
        if unit:
            last.put("unit", unit, "put right")
        last.spans.append((m.s, m.e))
        last.statement = msg.thread.statements
    else:
        return False
    msg.correcting = False
    return True


_HIGHEST_ID = 9999


def _bare_ids(msg: Message, s: Statement, last: Draft) -> list[Mark]:
    """ "sorry, 1-9", "oops 42": numbers alone that put right which colonies were meant. Where what was said before has
    a number of its own that a small one could be, that one is meant.
    """
    old = last.slots.get("colonies")
    numbers = s.all("number", "value")
    if not old or "mites" in last.slots or not numbers or not all(number_of(m).digits for m in numbers):
        return []
    if any(m not in numbers and m.w.isalnum() and m.label not in ("filler", "comma") for m in s.marks):
        return []
    if any(not 0 < number_of(m).value <= _HIGHEST_ID for m in numbers):
        return []
    ids = [str(int(number_of(m).value)) for m in numbers]
    ranged = len(ids) == 2 and any(m.w in ("-", "–", "through", "to") for m in s.marks)
    if ranged:
        ids = [str(x) for x in range(int(ids[0]), int(ids[1]) + 1)]
    ids, yard = settle_ids(ids, last.slots.get("yard"), msg.outfit)
    counted = {"count", "amount"} & set(last.slots)
    few = len(numbers) == 1 and number_of(numbers[0]).value <= MOST_GIVEN
    few = few or (len(numbers) == 1 and any(last.slots[x] > MOST_GIVEN for x in counted))  # "grafted 24", "28"
    if not ids or (few and counted) or yard != last.slots.get("yard"):
        return []
    if msg.outfit.known and not all(x in msg.outfit.ids for x in ids):
        return []
    return [Mark("cols", numbers[0].s, numbers[-1].e, "", {"ids": ids, "bare": True}, "colonies put right")]


def put_right_before(msg: Message, made: list[Draft]) -> None:
    """ "oops, no eggs in 11", "make that formic pads": a message that puts right what its sender said before changes
    the record of the same kind and the same colonies, and makes none of its own.
    """
    for new in list(made):
        old = _meant_by(msg, new)
        if old is None:
            continue
        if new.kind == "treatment" and new.slots.get("form", old.slots.get("form")) != old.slots.get("form"):
            for slot in ("agent", "form", "amount", "unit", "product"):
                old.slots.pop(slot, None)
        for slot, value in new.slots.items():
            if slot not in OWN_SLOTS or (slot in _WHICH and value != old.slots.get(slot)):
                old.put(slot, value, new.why.get(slot, "put right"))
        if "mites" in new.slots and "mites_high" not in new.slots:
            old.slots.pop("mites_high", None)
        old.spans += new.spans
        old.statement = msg.thread.statements
        msg.thread.drafts.remove(new)
        made.remove(new)
        msg.correcting = False


def _meant_by(msg: Message, new: Draft) -> Draft | None:
    """The sender's record that the new one puts right; None where there is none, or the new one stands by itself."""
    if new.kind in ("todo", "conditions", "change") or new not in msg.thread.lately(msg.first_draft):
        return None
    lately = msg.thread.lately()
    before = max(0, len(lately) - (len(msg.thread.drafts) - msg.first_draft))
    for old in reversed(lately[:before]):
        if old.kind != new.kind or old.slots.get("by", msg.sender) != msg.sender:
            continue
        if new.slots.get("state", old.slots.get("state")) != old.slots.get("state"):
            continue  # "didn't get to 44, sorry" puts nothing right
        if old.slots.get("yard") != new.slots.get("yard") or not _of_the_same(old, new):
            continue
        alike = ("item", "step") if new.kind in ("gear", "queen_work", "treatment") else ("method",)
        if all(slot not in new.slots or old.slots.get(slot) == new.slots[slot] for slot in alike):
            return old
    return None


_WHICH = frozenset(["colonies", "except_colonies"])


def _of_the_same(old: Draft, new: Draft) -> bool:
    """Whether two records are of the same colonies; also of all and of all but some, or of a list and a part of it:
    "strips in every hive | scratch that, in every hive but 71"."""
    if all(old.slots.get(slot) == new.slots.get(slot) for slot in ("colonies", "except_colonies")):
        return True
    if old.slots.get("every_colony") and new.slots.get("every_colony"):
        return "except_colonies" in new.slots
    mine, others = set(new.slots.get("colonies", ())), set(old.slots.get("colonies", ()))
    return len(mine) > 1 and len(others) > 1 and (mine < others or others < mine)


def _called(s: Statement) -> list[Mark]:
    """ "calling it fifty five": the number as a colony's id."""
    for verb, it, number in zip(s.marks, s.marks[1:], s.marks[2:], strict=False):
        if verb.w in ("calling", "call", "called", "named", "naming") and it.w in ("it", "that", "this", "her"):
            value = number_of(number).value if number.label == "number" else None
            if number.label == "cols":
                return [number]
            if value is not None and value == int(value):
                return [Mark("cols", number.s, number.e, number.w, {"ids": [str(int(value))]})]
    return []


_NEW_COLONY = frozenset(["swarm_caught", "moved", "bought", "nuc_made", "split"])
"""Changes after which a colony is given an id."""


def _dealt_to_all(msg: Message, last: Draft, ids: list[str]) -> bool:
    """ "two nucs out of 14 and one out of 16, they're N1, N2 and N3": to each as many of the ids as it gave nucs."""
    made: list[Draft] = []
    for d in reversed(msg.thread.lately(msg.first_draft)):
        if (
            d.kind != "change"
            or d.slots.get("step") != last.slots["step"]
            or "count" not in d.slots
            or "with" in d.slots
        ):
            break
        made.insert(0, d)
    if len(made) < 2 or sum(d.slots["count"] for d in made) != len(ids):
        return False
    for d in made:
        d.put("with", ids[: d.slots["count"]], "now called")
        ids = ids[d.slots["count"] :]
    return True


def named_after(msg: Message, s: Statement) -> bool:
    """ "it's colony 18 now", "he hived it as 79": the id that a caught or moved colony was given."""
    newest = [d for d in msg.thread.drafts[-2:] if d.kind != "conditions"]  # "caught at larks in the rain, hived as L9"
    if not newest or newest[-1].slots.get("step") not in _NEW_COLONY:
        return False
    cols = s.all("cols") or _called(s)
    hived = not s.has_head_but("change") and all(
        m.v.get("after_swarm") or (m.v.get("step") == "swarm_caught" and m.w.startswith(("hived it", "hived them")))
        for m in s.all("change")
    )
    facts = s.has("fact") and not s.has_head_but("fact")
    if len(cols) != 1 or (s.has_head and not hived and not facts):
        return False
    last = newest[-1]
    if s.has("cols") and _put_in(msg, s, last, cols[0]):
        return False  # what else it says of that colony is read
    if _new_half(msg, s, last, cols[0]):
        return True
    k = next(i for i, m in enumerate(s.marks) if m.s == cols[0].s)
    before = neighbour(s, k, -1)
    if k == 0 and len(s.marks) > 1 and s.marks[1].w == "now" and msg.before is not None:
        before = msg.before.marks[-1]  # "to Sawdust, it is | S10 now"
    naming = before is not None and (before.w in _NAMED or bool(_called(s)))
    caught = last.kind == "change" and last.slots.get("step") == "swarm_caught"
    if caught and before is not None and before.label == "change":
        naming = True  # "got a swarm out of the hedge and hived it in S12"
    put = s.has("change") or (s.has("pronoun") and s.has("verb"))
    gone = before is not None and before.label == "verb" and before.w.split()[-1] in ("in", "into")
    if last.slots.get("step") == "bought" and "colonies" not in last.slots and gone and s.has("pronoun"):
        naming = True  # "bought four nucs and they went into S7 to S10"
    if caught and before is not None and before.w in ("in", "into") and put:
        naming = True  # "caught two swarms, put them in 13 and 14"
    if (
        msg.before is not None
        and k == 0
        and [m.w for m in msg.before.marks[-2:]] in (["called", "it"], ["calling", "it"])
    ):
        naming = True  # "made a nuc off nine and called it | N2"
    if before is not None and before.w == "in" and s.marks[k + 1 : k + 2] and s.marks[k + 1].w == "now":
        naming = last.slots.get("step") == "swarm_caught"  # "a swarm … it's in S12 now"
    if last.kind != "change" or not naming:
        return False
    if last.slots["step"] in ("nuc_made", "split") and not _one_named(s):
        return False
    if last.slots["step"] in ("moved", "nuc_made", "split"):
        if "with" in last.slots:
            return False
        if _dealt_to_all(msg, last, list(cols[0].v["ids"])):
            last.spans.append((cols[0].s, cols[0].e))
            last.statement = msg.thread.statements
            return True
        last.put("with", list(cols[0].v["ids"]), "now called")
        if "to_yard" in last.slots:
            msg.held.yard = last.slots["to_yard"]
            msg.held.cols = {"ids": list(cols[0].v["ids"]), "yard": msg.held.yard}
    elif "colonies" in last.slots:
        return False
    else:
        where = msg.held.yard if s.has("yard") else last.slots.get("yard")
        ids, yard = settle_ids(list(cols[0].v["ids"]), where, msg.outfit)
        new = s.has("yard") or last.slots["step"] in ("swarm_caught", "bought")
        yard = (where or yard) if new else yard  # a new number at the yard named: no other yard's colony is meant
        last.put("colonies", ids, "now called")
        if yard:
            last.put("yard", yard, "yard that holds")
    last.spans.append((cols[0].s, cols[0].e))
    if facts:
        return False  # "it's 65 now and it has five frames of brood": what else is said of it is read
    last.statement = msg.thread.statements
    return True


def _put_in(msg: Message, s: Statement, last: Draft, cols: Mark) -> bool:
    """ "caught a swarm … put it in sixty four at Cut Bank, calm as anything": where the swarm went."""
    before = neighbour(s, index_in(s, cols), -1)  # "calling it 55" makes a mark that no statement has
    put = s.has("pronoun") and s.has("verb") and before is not None and before.w in ("in", "into")
    if not put or not s.has("fact") or last.slots.get("step") != "swarm_caught" or "colonies" in last.slots:
        return False
    ids, yard = settle_ids(list(cols.v["ids"]), msg.held.yard, msg.outfit)
    last.put("colonies", ids, "put in")
    if yard:
        last.put("yard", yard, "yard that holds")
    last.spans.append((cols.s, cols.e))
    return True


def _one_named(s: Statement) -> bool:
    """Whether the statement only gives the new one its name ("that's N3", "they are N2 and N3 now")."""
    if s.has("pronoun"):
        told = [m.w for m in s.marks if m.label not in ("cols", "comma", "filler") and m.w not in ("and", "now")]
        return len(told) == 2 and told[0] in _NEW_ONES and told[1] in ("are", "is", "were", "was")
    return not s.has_head and not s.has("verb", "cue", "fact") and len(s.marks) <= 5


_NEW_ONES = frozenset(["they", "those", "it", "the other half", "the other one"])


_NAMING = frozenset(["cols", "comma", "filler", "hive", "pronoun"])
_NAMING_WORDS = frozenset(["and", ":", "-", "being", "are", "were", "so", "that's", "thats", "they're", "those're"])


def _counted_hives(d: Draft) -> int | None:
    return d.slots.get("colony_count") if d.kind in _IN_COLONIES else None


_IN_COLONIES = frozenset(["treatment", "gear", "feed", "inspection", "change", "queen_work"])


def _said_just_before(msg: Message, s: Statement, last: Draft) -> bool:
    """ "put escapes on at Mill Lane. That's 40, 41 and 44": the colonies of what was said just before."""
    said = next((m.w for m in s.marks if m.label not in ("comma", "filler") and m.w not in ("and", "so")), "")
    if said not in _THAT_IS and not (said in _THOSE and any(m.w == "are" for m in s.marks[:4])):
        return False
    before = msg.before
    return (
        last.kind in _IN_COLONIES
        and last.statement == msg.thread.statements - 1
        and before is not None
        and not before.has("cols", "every", "rest", "cue")
        and not {"colonies", "except_colonies"} & set(last.slots)
        and last.slots.get("step") != "moved"
    )


def _of_the_row(msg: Message, cols: Mark, last: Draft) -> bool:
    """ "guards went on the whole row today, | fifty five to sixty two": the ids of a row that is no whole yard."""
    every = msg.before.first("every") if msg.before is not None else None
    row = every is not None and every.w.split()[-1] in _ROWS and len(cols.v["ids"]) > 1
    told = last.kind in _IN_COLONIES and last.slots.get("every_colony") and "except_colonies" not in last.slots
    return bool(row and told) and last.statement == msg.thread.statements - 1


_ROWS = frozenset(["row", "rows", "line", "lot", "bunch", "pallet"])
_THAT_IS = frozenset("that's that'll they'll it'll they're it's".split())
_THOSE = frozenset(["those", "these", "they"])


def _clean_ones(d: Draft) -> bool:
    """Whether the record counts no mites, in colonies that are not named yet."""
    return d.kind == "mite_check" and d.slots.get("mites") == 0 and "colonies" not in d.slots


def _new_half(msg: Message, s: Statement, last: Draft, cols: Mark) -> bool:
    """ "split L12, the new one is L29": the other side of the split."""
    words = [m.w for m in s.marks if m is not cols and m.label not in ("comma", "filler", "hive", "date")]
    said = " ".join(words).removesuffix(" now")
    if last.kind != "change" or last.slots.get("step") != "split" or "with" in last.slots or s.has_head:
        return False
    if said not in _NEW_HALF or not last.slots.get("colonies"):
        return False
    ids, _ = settle_ids(list(cols.v["ids"]), last.slots.get("yard"), msg.outfit)
    last.put("with", ids, "the new one")
    last.spans += [(m.s, m.e) for m in s.marks if m.label not in ("comma", "filler")]
    last.statement = msg.thread.statements
    return True


_NEW_ONE = grammar().tables["new_half"]
_NEW_HALF = frozenset(
    f"{start}{the}{new}{thing} {verb}"
    for start in ("", "and ", "so ")
    for the in ("", "the ")
    for new in ("", "new ", "other ")
    for thing in _NEW_ONE["things"]
    for verb in _NEW_ONE["verbs"]
)


def set_down(msg: Message, s: Statement) -> bool:
    """ "bought six nucs off a man and set them down at the quarry": where they went."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    yard = s.first("yard")
    if last is not None and yard is not None and yard.v.get("to") and holding.now_elsewhere(msg, s):
        last.put("to_yard", yard.v["value"], "where they are now")
        last.spans += [(m.s, m.e) for m in s.marks if m.label in ("verb", "pronoun", "yard")]
        last.statement = msg.thread.statements
        return True
    if last is None or yard is None or last.slots.get("step") not in ("bought", "swarm_caught") or s.has_head:
        return False
    if s.has("cols", "hives", "number") or last.sentence != s.sentence or "colonies" in last.slots:
        return False
    if not s.has("pronoun") or not s.has("verb") or last.slots.get("state", "done") != "done":
        return False
    last.put("yard", yard.v["value"], "set down at")
    last.spans += [(m.s, m.e) for m in s.marks if m.label in ("verb", "pronoun", "yard")]
    last.statement = msg.thread.statements
    return True


def the_ones_meant(msg: Message, s: Statement) -> bool:
    """ "2 dead. L8 and L23", "two clean, those being L2 and L8": the ids of the hives just counted."""
    cols = s.all("cols")
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if (
        len(cols) != 1
        or last is None
        or not (
            _counted_hives(last) == len(cols[0].v["ids"])
            or (_clean_ones(last) and s.has("pronoun"))
            or _said_just_before(msg, s, last)
            or _of_the_row(msg, cols[0], last)
        )
        or last.line != s.line
        or any(m.label not in _NAMING and m.w not in _NAMING_WORDS for m in s.marks)
    ):
        return False
    ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    last.put("colonies", ids, "colonies")
    last.slots.pop("colony_count", None)
    last.slots.pop("every_colony", None)
    if yard:
        last.put("yard", yard, "yard that holds")
    last.spans.append((cols[0].s, cols[0].e))
    last.statement = msg.thread.statements
    return True


_ONLY = frozenset("only just out of in on from off the no not".split())


def only_these(msg: Message, s: Statement) -> bool:
    """ "strips out, whole yard | no wait, only out of 70 to 76": the work was done to these, and not to all."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    words = [m.w for m in s.marks if m.label == "w"]
    plain = all(m.label in ("cols", "comma", "filler") or m.v.get("cue") == "correct" or m.w in _ONLY for m in s.marks)
    if last is None or not plain or not {"only", "just"} & set(words) or not last.slots.get("every_colony"):
        return False
    if last.kind not in ("treatment", "gear", "feed") or last.statement < msg.thread.statements - 2:
        return False
    ids, yard = settle_ids(list(s.all("cols")[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    last.slots.pop("every_colony")
    last.put("colonies", ids, "only these")
    if yard:
        last.put("yard", yard, "yard")
    last.spans += [(m.s, m.e) for m in s.all("cols")]
    return True


def leaving_out(msg: Message, s: Statement) -> None:
    """ "strips in at Cut Bank, 2 each. All but 58, it's dead": colonies left out after all."""
    if not s.has("cue") or not s.has("cols"):
        return
    lead = [m for m in s.marks if m.label not in ("comma", "filler") and m.w not in ("and", "but")]
    first = next((m for m in lead if m.label != "every"), None)  # "scratch that, every hive except 71"
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    earlier = last is None and msg.correcting
    if earlier:  # "I mean all but L13", in a message of its own
        last = next((d for d in reversed(msg.thread.lately()) if d.slots.get("by") == msg.sender), None)
    cols = s.first("cols")
    if (
        first is None
        or first.label != "cue"
        or first.v.get("cue") != "except"
        or cols is None
        or last is None
        or s.has("agent", "form", "item", "feed", "method", "verb", "yard")
        or last.kind not in ("treatment", "gear", "feed")
        or last.slots.get("state", "done") != "done"
        or {"colonies", "except_colonies", "colony_count"} & set(last.slots)
        or (last.sentence < s.sentence - 1 and not earlier)
        or not holding.is_exception(msg, s, cols)
    ):
        return
    ids, _ = settle_ids(list(cols.v["ids"]), last.slots.get("yard"), msg.outfit)
    last.put("every_colony", True, "all but")
    last.put("except_colonies", ids, "all but")
    last.spans += [(first.s, first.e), (cols.s, cols.e)]
    last.statement = msg.thread.statements


def not_these(msg: Message, s: Statement) -> bool:
    """ "excluders on S1 through S6 and a super over each, | not S4 though": left out of what was just said of all."""
    said = [m for m in s.marks if m.label not in ("comma", "filler") and m.w not in ("well", "but", "and", "just")]
    if not said or said[0].label != "cue" or said[0].w != "not" or s.has_head:
        return False
    k = next((k for k, m in enumerate(said) if m.label == "cols"), 0)
    if not 0 < k < _NEAR_CUE or any(m.label != "w" or m.w not in ("on", "in", "hive", "for") for m in said[1:k]):
        return False
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.statement < msg.thread.statements - 2 or last.slots.get("state", "done") != "done":
        return False
    ids, _ = settle_ids(list(said[k].v["ids"]), last.slots.get("yard"), msg.outfit)
    old = last.slots.get("colonies", [])
    mine = [d for d in msg.thread.drafts[-3:] if d.kind in _GIVEN and d.statement >= last.statement - 1]
    mine = [d for d in mine if d.slots.get("colonies", []) == old and not d.slots.get("except_colonies")]
    every = last.slots.get("every_colony") and not old
    if last not in mine or not (every or (set(ids) < set(old))):
        return False
    for d in mine:
        if every:
            d.put("except_colonies", ids, "not these")
        else:
            d.put("colonies", [x for x in old if x not in ids], "not these")
    last.spans += [(m.s, m.e) for m in said]
    last.statement = msg.thread.statements
    msg.held.cols = {"ids": ids, "yard": last.slots.get("yard")}
    return True


_GIVEN = frozenset(["treatment", "gear", "feed"])
_NEAR_CUE = 4
"""Marks from "not" to the colonies at most."""


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


_BEFALLS = frozenset(["died", "swarmed"])
"""What befalls a colony, and is no job that can be done another day."""


_DUE = frozenset(
    "so and but again then i we he she it that that's thats which this one for be now in out on over instead i'll "
    "we'll will get bring carry take do".split()
)


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


_POINTS_BACK = frozenset(["that", "that's", "thats", "which", "this", "one"])


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


def do_it(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "doing it next week", "I'll do those two Monday": what was just said to be left, now planned."""
    if stance.state != "planned" or any(m.v.get("does") in ("treat", "feed") for m in s.all("verb")):
        return False
    named = s.has("cols")
    if goes_in_later(msg, i, s, stance):
        return True
    if (
        s.has_head
        or s.has("queen_noun", "noun")
        or not (s.has("pronoun", "cols") or any(not _SO_OR_WAIT.isdisjoint(m.w.split()) for m in s.marks))
    ):
        return False
    other_work = holding.of_other_work(msg, s)
    counting = named and msg.held.method is not None and not other_work and any(m.w == "get" for m in s.marks)
    counting = counting or _gets_to(s)
    if not counting and not any(
        (m.label == "verb" and m.v.get("does") == "do" and not (m.w == "done" and m is s.marks[0]))
        or (m.label == "cue" and m.w.split()[-1] in ("doing", "do"))
        or "wait" in m.w.split()  # "didn't treat 44, going to wait till Friday"
        or m.w in ("redo", "rewash", "retry")  # "dropped the jar, will redo it tomorrow"
        or (m.w == "try" and any(x.w == "again" for x in s.marks))
        for m in s.marks
    ):
        return False
    last = next((d for d in reversed(msg.thread.lately()) if d.kind not in ("conditions", "todo")), None)
    checked = msg.last("mite_check", s.sentence)
    if (
        named
        and checked is not None
        and msg.held.method
        and not other_work
        and len({d.sentence for d in (checked, last) if d}) == 1
    ):
        last = checked  # "seven about fifteen, and the brood in seven is spotty, eight I'll do tomorrow"
    if last is None or (last.kind == "inspection" and last.slots.get("state") != "not_done"):
        return False
    if named and (last.sentence < s.sentence - 1 or len(s.all("cols")) > 1):
        return False
    if last.slots.get("step") in _BEFALLS or any(a.w == "do" and b.w in ("a", "an") for a, b in pairwise(s.marks)):
        return False  # "nineteen is dead and twenty looks off, I want to do a sample"
    pronoun = s.first("pronoun")
    counted = pronoun is not None and ("n" in pronoun.v or pronoun.w.startswith("both"))
    again = pronoun is not None and bool(last.slots.get("except_colonies")) and any(m.w == "again" for m in s.marks)
    once_more = again_to_all(s, last, pronoun)
    if last.slots.get("state") != "not_done" and not counted and not named and not again and not once_more:
        return False
    draft = same_again(last, HOW_MUCH | {"mites", "mites_high", "bees", "approx"})
    place: Place | None = place_of(last)
    if named:
        place = None
    elif counted and msg.held.cols and not msg.held.cols.get("every"):
        place = held = Place()
        placing.take_held(msg, held)
    elif (counted or again) and last.slots.get("except_colonies"):
        place = Place(last.slots.get("yard"), list(last.slots["except_colonies"]))
    if pronoun is not None:
        draft.spans.append((pronoun.s, pronoun.e))
    finishing.finish(msg, i, s, stance, draft, place)
    return True


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


def _went_so(last: Draft, verb: Mark, s: Statement) -> bool:
    """Whether "took em", "put them on" is said of work that went that way; it takes a doer."""
    if not s.has("person") or not s.has("pronoun") or last.slots.get("step") not in ("in", "on", "out", "off"):
        return False
    return verb.v.get("tense") == "past" and verb.v.get("dir") == (
        "in" if last.slots["step"] in ("in", "on") else "out"
    )


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
        or not any(m.w in _THAT_IS for m in s.marks)
        or not all(
            m.label in ("date", "filler", "comma") or m.w in _PUT_OFF or m.v.get("cue") == "plan" for m in s.marks
        )
    ):
        return False
    copy = same_again(last, HOW_MUCH | {"approx"})
    copy.spans += [(m.s, m.e) for m in s.marks if m.label == "w"]
    finishing.finish(msg, i, s, stance.turned("planned", ahead=True), copy, place_of(last))
    return True


_SO_OR_WAIT = frozenset(["that", "so", "this", "wait"])
_PUT_OFF = _THAT_IS | frozenset("so and but now then instead be for on a job".split())
_IT_WAS = frozenset("it is was that all and them on em 'em those these off in out this".split())


def moisture_of_all(msg: Message, s: Statement, harvested: Draft) -> None:
    """ "eight buckets from heath and six from larks, all about seventeen percent": so wet was the honey of each."""
    said = any(m.w in ("all", "both") for m in s.marks) or any(
        m.w.split()[0] in ("all", "both") for m in s.all("every", "pronoun")
    )
    if "moisture" not in harvested.slots or not said:
        return
    for d in msg.thread.lately(msg.first_draft):
        if d.kind == "harvest" and d.sentence == s.sentence and d is not harvested and "moisture" not in d.slots:
            d.put("moisture", harvested.slots["moisture"], "moisture of all")


def modifiers(msg: Message, i: int, s: Statement, made: list[Draft], stance: Stance) -> None:
    """ "they stay in fourteen days", "two each": more said of what was just put in."""
    if made or not s.has("days", "round", "unit", "amount", "every", "number") or msg.recent():
        return
    grafted = msg.last("queen_work", s.sentence)
    if (
        grafted is not None
        and grafted is msg.thread.drafts[-1]
        and grafted.slots.get("step") in ("grafted", "cells_placed")
        and "count" not in grafted.slots
        and any(m.v.get("does") == "do" for m in s.all("verb"))
        and len(s.all("number")) == 1
        and not s.has("cols")
    ):
        number = s.all("number")[0]  # "the grafts out of the breeder, I did thirty two yesterday"
        grafted.put("count", tidy(number_of(number).value), number.rule)
        grafted.spans.append((number.s, number.e))
        if s.has("date"):
            finishing.put_day(msg, i, s, stance, grafted)
        grafted.statement = msg.thread.statements
        return
    last = next(
        (
            d
            for d in reversed(msg.thread.lately(msg.first_draft))
            if d.kind in ("treatment", "gear", "feed") and (d.sentence >= s.sentence - 1)
        ),
        None,
    )
    if last is None or s.has("cols", "mites", "value"):
        return
    days = s.first("days")
    rounds = s.first("round")
    unit = s.first("unit")
    group = [d for d in msg.thread.lately(msg.first_draft) if d.statement == last.statement and d.kind == last.kind]
    if (
        rounds is not None
        and stance.state in ("planned", "not_done")
        and last.kind == "treatment"
        and last.slots.get("round") != number_of(rounds).value
        and last.slots.get("state", "done") == "done"
    ):
        copy = Draft(
            "treatment",
            {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step")},
            [(rounds.s, rounds.e)],
            dict(last.why),
        )
        copy.put("round", int(number_of(rounds).value), rounds.rule)
        if going_out(s) is False:
            copy.put("step", "in", "in or on")  # "thymol out. Will put the second tray in"
        finishing.finish(
            msg,
            i,
            s,
            stance,
            copy,
            place_of(last),
        )
        return
    if days is not None and last.kind == "treatment":
        all_so_long(msg, s, last)
    for d in group:
        if d.kind == "treatment":
            if days is not None and "days" not in d.slots:
                d.put("days", tidy(days_of(days)), days.rule)
                d.spans.append((days.s, days.e))
            if rounds is not None and "round" not in d.slots:
                d.put("round", int(number_of(rounds).value), rounds.rule)
                d.spans.append((rounds.s, rounds.e))
            if unit is not None and "amount" not in d.slots:
                d.put("amount", tidy(number_of(unit).value), unit.rule)
                d.put("unit", unit.v["unit"], unit.rule)
                d.spans.append((unit.s, unit.e))
        each = s.first("each")
        numbers = s.all("number")
        if each is not None and numbers:
            value = tidy(number_of(numbers[0]).value)
            if (
                d.kind == "treatment"
                and "amount" not in d.slots
                and d.slots.get("form") in ("strip", "pad", "wafer", "sponge")
            ):
                d.put("amount", value, "number each")
                d.put("unit", d.slots["form"], "form")
            elif d.kind == "gear" and "count" not in d.slots:
                d.put("count", value, "number each")
            elif d.kind == "feed" and "amount" not in d.slots and d.slots.get("feed") == "pollen_patty":
                d.put("amount", value, "number each")
                d.put("unit", "patty", "number each")
            d.spans += [(each.s, each.e), (numbers[0].s, numbers[0].e)]
        amount = s.first("amount")
        if d.kind == "feed" and amount is not None and "amount" not in d.slots:
            value, word = amount_of(amount)
            d.put("amount", tidy(value), amount.rule)
            if word:
                d.put("unit", word, amount.rule)
            d.spans.append((amount.s, amount.e))
        if (
            s.has("every")
            and not s.has("fact", "verb")
            and "colonies" not in d.slots
            and "colony_count" not in d.slots
            and d.slots.get("yard")
        ):
            d.put("every_colony", True, "every colony")
            for m in s.all("every"):
                d.spans.append((m.s, m.e))
