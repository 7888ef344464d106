"""Who brought the news: "Dov phoned from Heath. 3 is starving, 4 is dead": what he saw is told in his name."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import Mark

_RINGS = listed("brings_news")
_CALLS = frozenset(["called", "calls", "calling"])
_AFTER_CALLED = frozenset("from me us just earlier at this and he she to in with over he's she's".split())
_NEWS_FROM = frozenset(["from", "with", "to"])
_HEARD = listed("hearing_news")
_SELF = frozenset("i i'm i've i'll i'd im ive we we've we're we'll me myself my".split())
_WE_ASKED = frozenset("said asked told thought think guess says know knew".split())
_THINKS = _WE_ASKED | {"believe", "reckon", "mean", "suppose", "heard", "hear", "am", "was", "want", "wanted", "need"}


def hear_news(msg: Message, s: Statement) -> None:
    """Keeps who brought the news while it is told, up to where the speaker tells of themselves ("and I …")."""
    if msg.reporter is not None and s.opens == "line":
        msg.reporter = None
    if msg.reporter is None and not s.has("person", "cue"):
        return
    for k, m in enumerate(s.marks):
        if m.label == "person" and _reports(s, k):
            msg.reporter = m
        elif m.label == "person" and msg.reporter is not None and m.v["value"] != msg.reporter.v["value"]:
            msg.reporter = None
        elif m.v.get("cue") == "report" and msg.last_person is not None and _he(s, k):
            msg.reporter = msg.last_person[0]  # "Bo was at the quarry, he tells me"
        elif m.label in ("w", "cue", "pronoun") and m.w.split()[0] in _SELF and not _said_back(s, k):
            msg.reporter = None


def news(msg: Message, s: Statement) -> Mark | None:
    """The person in whose name the statement is told, if any: not where it opens a sentence with a verb ("Put …")."""
    if msg.reporter is None or any(m is msg.reporter for m in s.marks):
        return msg.reporter
    first = next((m for m in s.marks if m.label not in ("filler", "comma")), None)
    return None if s.opens == "stop" and first is not None and first.label == "verb" else msg.reporter


def speaker(statements: list[Statement]) -> Mark | None:
    """Who says at the start of a message who speaks: "hi this is Ines, …", "Ines here, …"."""
    marks = [m for s in statements[:1] for m in s.marks[:_GREETS] if m.label not in ("filler", "comma", "stop")]
    k = next((k for k, m in enumerate(marks) if m.label == "person"), None)
    if k is None:
        return None
    before, after = " ".join(m.w for m in marks[:k]), marks[k + 1].w if k + 1 < len(marks) else ""
    if after in ("'s", "and"):
        return None
    named = before in _THIS_IS and k > 0
    return marks[k] if named or (k == 0 and after in _SPEAKING and len(marks) > k + 2) else None


_GREETS = 8
_THIS_IS = listed("speaker_before")
_SPEAKING = listed("speaker_after")


def _reports(s: Statement, k: int) -> bool:
    """Whether the person at `k` phones, says, or is who was heard from."""
    after = [m for m in s.marks[k + 1 : k + 6] if m.label not in ("filler", "comma", "date") and m.w not in _ADVERBS]
    if after:
        said = after[1].w if len(after) > 1 else ""
        first = after[0]
        if first.v.get("cue") == "report":
            return said not in ("to", "do") and not (len(after) > 1 and after[1].v.get("tense") == "base")
        if first.w.split()[0] in _CALLS:
            words = first.w.split()[1:2] or said.split()[:1]
            return not words or words[0] in _AFTER_CALLED or after[1].label in ("cols", "yard", "date")
        if first.label == "w" and first.w.split()[0] in _RINGS:
            return True
    before = [m.w for m in s.marks[max(0, k - 4) : k]]
    return bool(before) and before[-1] in _NEWS_FROM and not _HEARD.isdisjoint(w for x in before for w in x.split())


_ADVERBS = frozenset(["just", "'s", "has", "had", "only", "already", "also", "then", "now"])


def _he(s: Statement, k: int) -> bool:
    """ "he tells me", "says she": the cue at `k` is of him or her."""
    return s.marks[k].w.split()[-1] in ("he", "she") or (k > 0 and s.marks[k - 1].w in ("he", "she"))


def own_work(s: Statement) -> bool:
    """Whether the speaker did it: "today I sugar rolled fifty", "so we make S1"; not "I think six"."""
    return any(a.w in ("i", "we") and b.w.split()[0] not in _THINKS for a, b in pairwise(s.marks))


def _said_back(s: Statement, k: int) -> bool:
    """ "and I said", "he told me", "she rang us": the speaker only listens."""
    if s.marks[k].w in ("me", "us"):
        return True
    after = s.marks[k + 1].w.split()[0] if k + 1 < len(s.marks) else ""
    return after in _WE_ASKED
