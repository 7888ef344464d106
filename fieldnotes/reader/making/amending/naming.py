""" "It's colony 18 now", "set them down at the Quarry": what a new colony is called, and where it went."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_in, neighbour, number_of
from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.making import holding
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import CALLS, Mark
from fieldnotes.reader.parting.about import NEW_ONES
from fieldnotes.reader.scope import Draft, settle_ids


def named_after(msg: Message, s: Statement) -> bool:
    """ "it's colony 18 now", "he hived it as 79": the id that a caught or moved colony was given."""
    newest = [d for d in msg.thread.drafts[-2:] if d.kind != "conditions"]  # "caught at larks in the rain, hived as L9"
    if not newest or newest[-1].slots.get("step") not in _NEW_COLONY:
        return False
    last, cols = newest[-1], s.all("cols") or _called(s)
    facts = s.has("fact") and not s.has_head_but("fact")
    if len(cols) != 1 or (s.has_head and not facts and not _hived(s)):
        return False
    if s.has("cols") and _put_in(msg, s, last, cols[0]):
        return False  # what else it says of that colony is read
    if _new_half(msg, s, last, cols[0]):
        return True
    if last.kind != "change" or not _names_it(msg, s, last, cols[0]):
        return False
    all_named = False
    if last.slots["step"] in ("moved", "nuc_made", "split"):
        if "with" in last.slots or (last.slots["step"] != "moved" and not _one_named(s)):
            return False
        all_named = _dealt_to_all(msg, last, list(cols[0].v["ids"]))
        if not all_named:
            _put_new_half(msg, last, cols[0])
    elif not _put_its_own(msg, s, last, cols[0]):
        return False
    last.spans.append((cols[0].s, cols[0].e))
    if facts and not all_named:
        return False  # "it's 65 now and it has five frames of brood": what else is said of it is read
    last.statement = msg.thread.statements
    return True


def _hived(s: Statement) -> bool:
    """Whether nothing but the hiving of a swarm is told."""
    return not s.has_head_but("change") and all(
        m.v.get("after_swarm") or (m.v.get("step") == "swarm_caught" and m.w.startswith(("hived it", "hived them")))
        for m in s.all("change")
    )


def _names_it(msg: Message, s: Statement, last: Draft, cols: Mark) -> bool:
    """Whether the words before the id say that it is a name, or that the new colony went there."""
    k = next(i for i, m in enumerate(s.marks) if m.s == cols.s)
    said = msg.before.marks if msg.before is not None else []
    before, after = neighbour(s, k, -1), s.marks[k + 1 : k + 2]
    if k == 0 and after and after[0].w == "now" and msg.before is not None:
        before = said[-1]  # "to Sawdust, it is | S10 now"
    caught = last.slots.get("step") == "swarm_caught"
    if before is not None and before.w == "in" and after and after[0].w == "now":
        return caught  # "a swarm … it's in S12 now"
    if k == 0 and [m.w for m in said[-2:]] in (["called", "it"], ["calling", "it"]):
        return True  # "made a nuc off nine and called it | N2"
    if before is None:
        return False
    if before.w in _NAMED or _called(s):
        return True
    if caught and before.label == "change":
        return True  # "got a swarm out of the hedge and hived it in S12"
    if caught and before.w in ("in", "into") and (s.has("change") or (s.has("pronoun") and s.has("verb"))):
        return True  # "caught two swarms, put them in 13 and 14"
    gone = before.label == "verb" and before.w.split()[-1] in ("in", "into")
    bought = last.slots.get("step") == "bought" and "colonies" not in last.slots
    into = before.w.split()[-1] in ("in", "into") and any(m.v.get("dir") or m.w == "went" for m in s.all("verb"))
    first = next((m for m in s.marks if m.label != "comma" and m.w != "and"), None)
    led = s.opens == "soft" and first is not None and first.label == "verb" and not s.has("item", "form", "agent")
    return (gone or into) and bought and (s.has("pronoun") or led)  # "bought four nucs and they went into S7 to S10"


def _put_new_half(msg: Message, last: Draft, cols: Mark) -> None:
    """The id is of what was moved, or made from another colony."""
    last.put("with", list(cols.v["ids"]), "now called")
    if "to_yard" in last.slots:
        msg.held.yard = last.slots["to_yard"]
        msg.held.cols = {"ids": list(cols.v["ids"]), "yard": msg.held.yard}


def _put_its_own(msg: Message, s: Statement, last: Draft, cols: Mark) -> bool:
    """The id is of what was bought or caught, which has none yet."""
    if "colonies" in last.slots:
        return False
    where = msg.held.yard if s.has("yard") else last.slots.get("yard")
    ids, yard = settle_ids(list(cols.v["ids"]), where, msg.outfit)
    new = s.has("yard") or last.slots["step"] in ("swarm_caught", "bought")
    yard = (where or yard) if new else yard  # a new number at the yard named: no other yard's colony is meant
    last.put("colonies", ids, "now called")
    if yard:
        last.put("yard", yard, "yard that holds")
    return True


_NAMED = frozenset([*"as called now it's its is that's are they're 's be".split(), "will be"])


_NEW_COLONY = frozenset(["swarm_caught", "moved", "bought", "nuc_made", "split"])
"""Changes after which a colony is given an id."""


def _called(s: Statement) -> list[Mark]:
    """ "calling it fifty five": the number as a colony's id."""
    if s.marks[0].w in CALLS and len(s.marks) > 1 and s.marks[1].label == "cols":
        return [s.marks[1]]  # "two nucs from twelve | named N1 and N2"
    for verb, it, number in zip(s.marks, s.marks[1:], s.marks[2:], strict=False):
        if verb.w in CALLS and (it.w in NEW_ONES or it.w == "her"):
            value = number_of(number).value if number.label == "number" else None
            if number.label == "cols":
                return [number]
            if value is not None and value == int(value):
                return [Mark("cols", number.s, number.e, number.w, {"ids": [str(int(value))]})]
    return []


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
        return (len(told) == 2 and told[0] in _NEW_ONES and told[1] in _ARE) or bool(_called(s))
    return not s.has_head and not s.has("verb", "cue", "fact") and len(s.marks) <= 5


_NEW_ONES = NEW_ONES | {"the other half", "the other one"}
_ARE = frozenset(["are", "is", "were", "was", "will be"])


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
