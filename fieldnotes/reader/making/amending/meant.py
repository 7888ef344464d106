""" "That's 40, 41 and 44", "all but 58", "not S4 though": which colonies were meant by what was just said."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.making import holding
from fieldnotes.reader.making.message import GIVEN, Message
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, settle_ids


def the_ones_meant(msg: Message, s: Statement) -> bool:
    """ "2 dead. L8 and L23", "two clean, those being L2 and L8": the ids of the hives just counted."""
    cols = s.all("cols")
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if len(cols) != 1 or last is None or last.line != s.line:
        return False
    if any(m.label not in _NAMING and m.w not in _NAMING_WORDS for m in s.marks):
        return False
    if not (
        _counted_hives(last) == len(cols[0].v["ids"])
        or (_clean_ones(last) and s.has("pronoun"))
        or _said_just_before(msg, s, last)
        or _of_the_row(msg, cols[0], last)
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


_NAMING = frozenset(["cols", "comma", "filler", "hive", "pronoun"])


_NAMING_WORDS = frozenset(["and", ":", "-", "being", "are", "were", "so", "that's", "thats", "they're", "those're"])


def _counted_hives(d: Draft) -> int | None:
    return d.slots.get("colony_count") if d.kind in _IN_COLONIES else None


_IN_COLONIES = frozenset(["treatment", "gear", "feed", "inspection", "change", "queen_work"])


def _said_just_before(msg: Message, s: Statement, last: Draft) -> bool:
    """ "put escapes on at Mill Lane. That's 40, 41 and 44": the colonies of what was said just before."""
    if s.words.isdisjoint(THAT_IS) and s.words.isdisjoint(_THOSE):
        return False
    said = next((m.w for m in s.marks if m.label not in ("comma", "filler") and m.w not in ("and", "so")), "")
    if said not in THAT_IS and not (said in _THOSE and any(m.w == "are" for m in s.marks[:4])):
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


THAT_IS = frozenset("that's that'll they'll it'll they're it's".split())


_THOSE = frozenset(["those", "these", "they"])


def _clean_ones(d: Draft) -> bool:
    """Whether the record counts no mites, in colonies that are not named yet."""
    return d.kind == "mite_check" and d.slots.get("mites") == 0 and "colonies" not in d.slots


def only_these(msg: Message, s: Statement) -> bool:
    """ "strips out, whole yard | no wait, only out of 70 to 76": the work was done to these, and not to all."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    words = [m.w for m in s.marks if m.label == "w"]
    plain = all(m.label in ("cols", "comma", "filler") or m.v.get("cue") == "correct" or m.w in _ONLY for m in s.marks)
    if last is None or not plain or not {"only", "just"} & set(words) or not last.slots.get("every_colony"):
        return False
    if last.kind not in GIVEN or last.statement < msg.thread.statements - 2:
        return False
    ids, yard = settle_ids(list(s.all("cols")[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    last.slots.pop("every_colony")
    last.put("colonies", ids, "only these")
    if yard:
        last.put("yard", yard, "yard")
    last.spans += [(m.s, m.e) for m in s.all("cols")]
    return True


_ONLY = frozenset("only just out of in on from off the no not".split())


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
        or last.kind not in GIVEN
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
    if (wrong := _said_of_those(msg, last, ids)) is not None:
        last.spans += wrong.spans + [(m.s, m.e) for m in said]  # "S5 is dead", and then "S6 is dead, not S5"
        msg.thread.drafts.remove(wrong)
        return True
    old = last.slots.get("colonies", [])
    mine = [d for d in msg.thread.drafts[-3:] if d.kind in GIVEN and d.statement >= last.statement - 1]
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


def skipped_that(msg: Message, s: Statement) -> bool:
    """ "everything at the quarry got strips, hive eight was dead | so I skipped that one": left out of what all got."""
    said = [m for m in s.marks if m.label not in ("comma", "filler") and m.w not in _SO_I]
    words = " ".join(m.w for m in said)
    if not any(words == f"{left}{it}{out}" for left, out in _SKIPS for it in _ONE_OF_THEM):
        return False
    lately = [d for d in msg.thread.lately(msg.first_draft) if d.statement >= msg.thread.statements - 3]
    ids = lately[-1].slots.get("colonies", []) if lately and lately[-1].kind in ("change", "inspection") else []
    all_got = next((d for d in reversed(lately) if d.kind in GIVEN and d.line == s.line), None)
    if all_got is None or len(ids) != 1 or all_got.slots.get("state", "done") != "done":
        return False
    if all_got.slots.get("every_colony"):
        but = all_got.slots.get("except_colonies", [])
        all_got.put("except_colonies", [*but, *(x for x in ids if x not in but)], "skipped")
    elif set(ids) < set(all_got.slots.get("colonies", [])):
        all_got.put("colonies", [x for x in all_got.slots["colonies"] if x not in ids], "skipped")
    else:
        return False
    all_got.spans += [(m.s, m.e) for m in said]
    return True


_SO_I = frozenset("so i we and just then have had i've".split())
_SKIPS = (
    ("skipped ", ""),
    ("skip ", ""),
    ("left ", ""),
    ("left ", " out"),
    ("left ", " alone"),
    ("not ", ""),
    ("none in ", ""),
)
_ONE_OF_THEM = ("it", "that one", "that", "this one", "her", "him")


def _said_of_those(msg: Message, last: Draft, ids: list[str]) -> Draft | None:
    """What the sender said before of these colonies, where the newest record says just the same of others."""
    for d in reversed(msg.thread.lately()):
        if (
            d is not last
            and d.kind == last.kind
            and d.slots.get("colonies") == ids
            and d.slots.keys() == last.slots.keys()
        ):
            alike = all(d.slots[slot] == value for slot, value in last.slots.items() if slot not in ("colonies", "on"))
            return d if alike else None
    return None


_NEAR_CUE = 4
"""Marks from "not" to the colonies at most."""
