""" "Oh, nine too": colonies that join those of the record before."""

from __future__ import annotations

from itertools import pairwise, takewhile

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.scope import Draft, settle_ids


def these_too(msg: Message, s: Statement) -> bool:
    """ "a pound each on five and six, oh, nine too": the colonies join those of the record before.

    In a sentence of their own ("pads into 40 and 41. 44 too") they have a record of their own.
    """
    cols = s.all("cols")
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    apart = last is not None and last.sentence != s.sentence
    if (
        len(cols) != 1
        or last is None
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or not last.slots.get("colonies")
        or (not apart and (last.slots.get("state", "done") != "done" or last.kind in ("change", "mite_check")))
        or last.kind == "harvest"
        or not _says_too(s)
        or any(
            m.label not in ("cols", "comma", "filler", "hive") and m.w not in _TOO
            for m in takewhile(lambda m: m.w not in ("just", "in case", "for luck"), s.marks)
        )
    ):
        return False
    ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    if apart or last.kind == "inspection":  # "72 has chalkbrood, 73 too": the same again, of another colony
        for d in [d for d in msg.thread.drafts[msg.first_draft :] if d.statement == last.statement]:
            copy = Draft(d.kind, {**d.slots, "colonies": ids}, [], dict(d.why))
            if yard:
                copy.put("yard", yard, "yard")
            copy.spans += [(m.s, m.e) for m in s.marks if m.label not in ("comma", "filler")]
            copy.sentence, copy.line, copy.statement = d.sentence, d.line, msg.thread.statements
            msg.thread.drafts.append(copy)
        return True
    last.put("colonies", last.slots["colonies"] + [x for x in ids if x not in last.slots["colonies"]], "these too")
    last.spans += [(m.s, m.e) for m in s.marks if m.label not in ("comma", "filler")]
    last.statement = msg.thread.statements
    return True


_TOO = frozenset("and too also got did on as well".split())


def _says_too(s: Statement) -> bool:
    """Whether "too", "also" or "as well" is said."""
    if any(m.w in ("too", "also", "as well") for m in s.marks):
        return True
    return any(a.w == "as" and b.w == "well" for a, b in pairwise(s.marks))
