""" "Same for 15", "ditto": the records of the colony before, once more."""

from __future__ import annotations

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of, number_of, tidy
from fieldnotes.reader.grouping.row import BULLETS
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.making.repeating.yards import same_there
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, settle_ids


def repeat(msg: Message, i: int, s: Statement, same: Mark, stance: Stance) -> bool:
    """ "same for 15", "ditto", "43: same as 42": the records of the colony before, once more."""
    cols = list(s.all("cols"))
    source: list[Draft] = []
    target = None
    at = index_of(s, same)
    after = [m for m in cols if index_of(s, m) > at]
    before = [m for m in cols if index_of(s, m) < at]
    drafts = [d for d in msg.thread.lately(msg.first_draft) if d.kind not in ("conditions", "todo")]
    if not drafts:
        drafts = [d for d in msg.thread.lately() if d.kind not in ("conditions", "todo")]
    own = s.first("value", "number") or next((m for m in s.marks if m.w == "one"), None)
    if not drafts or (s.has("value", "mites", "percent") and not _but_so_many(s, own)):
        return False  # "same thing over at wens, seventy had three" says its own counts
    ids, _ = settle_ids(list(after[0].v["ids"]), msg.held.yard, msg.outfit) if after else ([], None)
    told = [d for d in drafts if d.slots.get("colonies") == ids] if before and ids else []
    between = s.marks[index_of(s, before[0]) + 1 : at] if before else []
    opens = before and next(m for m in s.marks if m.w not in BULLETS) is before[0]
    row = opens and not any(m.w.isalnum() for m in between)  # "N4 - ditto N3"
    if before and after and (same.w.split()[-1] in ("as", "like", "with") or (row and told)):
        target = before[0]
        source = told or [d for d in drafts if d.slots.get("colonies") == ids[:1]]  # "same as 46 and | 50 had two"
        if not source:
            return False  # "51 same as 48", and of 48 nothing is known: not the same as the one before
    elif before and after and _right_after(s, before[-1], at) and same.w in _THE_SAME:
        target, after = before[-1], []  # "four gets a wafer and five the same, six I'm leaving alone"
    elif after or before:
        target = (after or before)[0]
    else:
        return same_there(msg, i, s, same, stance, drafts[-1])
    ids, yard = settle_ids(list(target.v["ids"]), msg.held.yard, msg.outfit)
    if not source:
        last = drafts[-1]
        key = last.slots.get("colonies")
        run = []
        for d in reversed(drafts):
            if d.slots.get("colonies") != key or (d.statement != last.statement and d.line != last.line):
                break
            run.append(d)
        source = list(reversed(run))
    if same.w.split()[0] in ("get", "gets", "need", "needs") and stance.state == "done" and stance.ahead is not False:
        stance = stance.turned("planned")  # "and fifty gets the same by tuesday"
    if _but_so_many(s, own) and any(d.kind == "mite_check" for d in source):
        own_count = own
        source = [d for d in source if d.kind == "mite_check"]
    else:
        own_count = None
    for d in source:
        copy = Draft(d.kind, dict(d.slots.items()), [(same.s, same.e), (target.s, target.e)], dict(d.why))
        if stance.state == "planned":
            copy.put("state", "planned", "gets the same")
            copy.slots.pop("on", None)
            copy.slots.pop("on_until", None)
        if own_count is not None:
            for slot in ("mites_high", "per_100", "approx"):
                copy.slots.pop(slot, None)
            count = tidy(number_of(own_count).value) if "n" in own_count.v else 1
            copy.put("mites", count, "the same with another number")
            copy.spans.append((own_count.s, own_count.e))
        if "signs" in copy.slots:
            copy.slots["signs"] = list(copy.slots["signs"])
        copy.put("colonies", ids, "same for")
        for slot in ("every_colony", "except_colonies", "colony_count"):
            copy.slots.pop(slot, None)
        if yard:
            copy.put("yard", yard, "yard")
        if stance.when is not None:
            copy.put("on", stance.when[0].isoformat(), "date")
        for m in after + before:
            copy.spans.append((m.s, m.e))
        msg.add(0, s, copy)
        if copy.kind == "treatment":
            msg.thread.last_treatment = copy
    return bool(source)


_THE_SAME = frozenset(["same", "the same", "same thing", "the same thing", "ditto", "likewise", "same again"])


def _right_after(s: Statement, cols: Mark, at: int) -> bool:
    """Whether the mark at `at` stands right after the colonies, but for "the"."""
    return all(m.w == "the" for m in s.marks[index_of(s, cols) + 1 : at])


def _but_so_many(s: Statement, number: Mark | None) -> bool:
    """ "same in 14 but only two": the same check with another count."""
    if number is None:
        return False
    before = {m.w for m in s.marks[: index_of(s, number)]}
    return not before.isdisjoint(("but", "only", "just"))
