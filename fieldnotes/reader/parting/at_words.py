"""Does a new statement begin at a plain word (an order, "and I …"), or at talk that is no record?"""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import PERSONS, THINGS
from fieldnotes.reader.parting.about import AUX, GLUE_WORDS, ORDERS, clausal, done, first_word
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.tails.joining import glue_tail
from fieldnotes.reader.parting.words import CLOSED

_BEFORE_ORDER = CLOSED | {"change", "amount", "moisture", "percent", "value", "sky"}
"""What an order may follow with no word between."""


def at_ignored(at: Place) -> Tail:
    """At talk that is no record."""
    if at.m.rule == "once it is off" and at.soft is None:
        return None  # "strips in twelve the minute the honey's off"
    if at.m.w.split()[0] in ("from", "on", "right"):
        return None  # "introduced queens from the bank to N4", "second tray goes on top of the first one | today"
    return glue_tail(at.marks) if done(at.marks) or (at.cols and at.has("cue")) else None


def at_word(at: Place) -> Tail:
    """At a plain word: an order ("mend the hole"), or what somebody did after "and I"."""
    marks = at.marks
    if at.m.w == "found" and marks[-1].label == "comma" and at.has("form", "agent", "item") and done(marks):
        return marks[-1:]  # "strips out of heath today, | found two on the floor of H5"
    if at.soft is None:
        return [] if at.m.w in ORDERS and (_orders_anew(at) or job_after_finding(at)) else None
    return first_of(at, (_out_then, _job_after_sight, _next_order, _calls_somebody, _somebody_is, _somebody_did))


def _out_then(at: Place) -> Tail:
    """ "they stay forty two days | so out on september fifth"."""
    out = at.m.w in ("out", "off") and at.soft is not None and at.soft.w in ("so", "then")
    return glue_tail(at.marks) if out and at.q is not None and at.q.label == "date" and at.has("days") else None


def _job_after_sight(at: Place) -> Tail:
    """ "42 spotty, | calling the inspector monday"."""
    seen = at.marks[-1].label == "comma" and at.has("fact") and at.cols and not at.has("verb", "cue")
    return at.marks[-1:] if seen and _job_on_a_day(at) else None


def _next_order(at: Place) -> Tail:
    """At the next order of several, or one for somebody."""
    marks, last = at.marks, at.marks[-1]
    if at.m.w not in ORDERS:
        return None
    if last.w in ("somebody", "someone", "please") and len(marks) > 2 and marks[-2].w in ("and", "um", "so"):
        return marks[-2:]  # "this is the quarry and | somebody bring the bait"
    if last.w == "so" and at.strong and clausal(marks) and not done(marks):
        return glue_tail(marks)  # "then I ran out um so | order another box"
    if last.w == "to" and marks[-2:-1] and marks[-2].w == "and" and at.has_cue("plan"):
        return marks[-2:]  # "promised to bring suits thursday and | to order frames by the first"
    if last.w == "and" and first_word(marks) in ORDERS:
        return marks[-1:]  # "pick up the cups saturday and | mend the hole"
    if last.label == "comma" and at.cols and not at.has("fact") and done(marks) and _orders_something(at):
        return marks[-1:]  # "grafted thirty out of S5, | bring the ladder friday"
    if at.has_cue("plan") and (last.label in ("filler", "comma") or last.w in ("and", "then", "also")):
        return glue_tail(marks)  # "list for the week um | fix the pallet"
    return None


def _calls_somebody(at: Place) -> Tail:
    """ "sharpen the tools oh and | call the vet back"."""
    marks, last, q = at.marks, at.marks[-1], at.q
    if at.m.w not in _RINGS or q is None or not (q.w in _WHOM or q.label == "person"):
        return None
    joined = last.w == "and" or (last.label == "filler" and marks[-2:-1] and marks[-2].w == "and")
    among_jobs = (first_word(marks) in _JOBS or at.has_cue("plan")) and not at.has("cols", "verb")
    return glue_tail(marks) if joined and among_jobs else None


def _somebody_is(at: Place) -> Tail:
    """ "I'm" and what somebody is doing."""
    marks = at.marks
    if marks[-1].w not in ("i'm", "we're"):
        return None
    if len(marks) > 2 and _job_on_a_day(at):
        return glue_tail(marks)  # "so I closed it up | I'm calling the inspector tomorrow"
    if not at.m.w.endswith("ing") or len(marks) < 2 or at.has("fact"):
        return None
    joined = marks[-2].label in ("filler", "comma") or marks[-2].w == "and"
    return glue_tail(marks) if joined and done(marks) else None  # "… in a week and | I'm reading the board on sunday"


def _somebody_did(at: Place) -> Tail:
    """ "… none um and | i spilled the sugar"."""
    marks = at.marks
    if marks[-1].w not in PERSONS or len(marks) < 2 or at.m.w in AUX or at.m.w in GLUE_WORDS:
        return None
    joined = marks[-2].label in ("filler", "comma") or marks[-2].w in GLUE_WORDS
    return glue_tail(marks) if joined and done(marks) else None


_JOBS = listed("jobs")
_RINGS = frozenset(["call", "ring", "phone", "email"])
_WHOM = frozenset("the my our that a him her them".split())


def _job_on_a_day(at: Place) -> bool:
    """Whether the word is that of a job done to no colony ("call", "ordering"), and a day follows in its sentence."""
    stem = at.m.w.removesuffix("ing")
    if at.m.w not in _JOBS and (stem == at.m.w or not {stem, stem + "e"} & _JOBS):
        return False
    return _day_follows(at)


_FOUND = frozenset("fact mites value clean percent change".split())


def job_after_finding(at: Place) -> bool:
    """ "41 is light | order lids by march tenth", "43 dead | buy nucs friday": what is to be got, and by when."""
    if at.m.w not in ORDERS or at.soft is not None or not at.cols or at.has("verb", "cue", *THINGS):
        return False
    last = at.marks[-1]
    if last.label == "w" and last.w == "smell":
        last = at.marks[-2]
    return last.label in _FOUND and _day_follows(at)


def _day_follows(at: Place) -> bool:
    for x in at.row[at.i + 1 : at.i + 7]:
        if x.label in ("stop", "line", "comma", "cols"):
            return False
        if x.label == "date":
            return True
    return False


def _orders_something(at: Place) -> bool:
    """ "bring the ladder", "pick up two boxes": whether a thing is named after the order."""
    q = at.q
    if at.m.w == "pick" and q is not None and q.w == "up":
        q = at.z
    return q is not None and (q.w in ("the", "a", "an", "some", "more", "extra", "my", "that") or q.label == "number")


def _orders_anew(at: Place) -> bool:
    """ "guards go on at larks next weekend | bring the drill": an order right after what is complete."""
    return _orders_something(at) and at.marks[-1].label in _BEFORE_ORDER and done(at.marks)
