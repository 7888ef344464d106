""" "Oh, nine too": colonies that join those of the record before."""

from __future__ import annotations

from itertools import pairwise, takewhile

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import THINGS
from fieldnotes.reader.scope import Draft, settle_ids

_TOO = listed("beside_too")
_BESIDE = frozenset(["cols", "comma", "filler", "hive"])


def these_too(msg: Message, s: Statement) -> bool:
    """ "a pound each on five and six, oh, nine too": the colonies join those of the record before.

    In a sentence of their own ("pads into 40 and 41. 44 too") they have a record of their own.
    """
    cols, last = s.all("cols"), msg.newest_here
    if len(cols) != 1 or last is None or not _can_join(msg, s, last) or not _says_too(s) or not _only_names(s):
        return False
    if s.has_any(THINGS) or s.has("change", "fact"):
        return False  # "79 is empty, also 74 just one super"
    ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), msg.outfit)
    spans = [(m.s, m.e) for m in s.marks if m.label not in ("comma", "filler")]
    if last.sentence != s.sentence or last.kind == "inspection":  # "72 has chalkbrood, 73 too": of another colony
        for d in [d for d in msg.thread.drafts[msg.first_draft :] if d.statement == last.statement]:
            copy = Draft(d.kind, {**d.slots, "colonies": ids}, list(spans), dict(d.why))
            if yard:
                copy.put("yard", yard, "yard")
            copy.sentence, copy.line, copy.statement = d.sentence, d.line, msg.thread.statements
            msg.thread.drafts.append(copy)
        return True
    last.put("colonies", last.slots["colonies"] + [x for x in ids if x not in last.slots["colonies"]], "these too")
    last.spans += spans
    last.statement = msg.thread.statements
    return True


def _can_join(msg: Message, s: Statement, last: Draft) -> bool:
    """Whether the record told right before names colonies, and was done to them where it is of the same sentence."""
    if not msg.just_told(last) or last.line != s.line or not last.slots.get("colonies") or last.kind == "harvest":
        return False
    if last.sentence != s.sentence:
        return True
    return last.slots.get("state", "done") == "done" and last.kind not in ("change", "mite_check")


def _only_names(s: Statement) -> bool:
    """Whether the statement only names the colonies, up to a "just in case"."""
    said = takewhile(lambda m: m.w not in ("just", "in case", "for luck"), s.marks)
    return all(m.label in _BESIDE or m.w in _TOO for m in said)


def _says_too(s: Statement) -> bool:
    """Whether "too", "also" or "as well" is said."""
    if not s.words.isdisjoint(("too", "also", "as well")):
        return True
    return "well" in s.words and any(a.w == "as" and b.w == "well" for a, b in pairwise(s.marks))
