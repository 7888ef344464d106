"""Does a new statement begin at a second date?"""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import GEAR_VERBS, PERSONS, THINGS, Mark
from fieldnotes.reader.parting.about import done
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.tails.joining import glue_tail, with_joins, with_prep
from fieldnotes.reader.parting.words import I_WILL, IS_TO

_NOTICED = listed("noticed")
_TO_DO_THEN = listed("to_do_then")
_BEFORE_OUT = frozenset("cols each days filler every comma date".split())
_BEEN_IN = [["they've", "been", x, "since"] for x in ("in", "on")]


def at_date(at: Place) -> Tail:
    """At a second date, or the day of what is to be done next."""
    if at.marks[-1].w == "again" and at.has("date") and (at.has("form") or at.has("agent")) and done(at.marks[:-1]):
        return [*with_joins(at.marks[:-1]), at.marks[-1]]  # "vape it saturday | and again next saturday"
    begins = first_of(at, (_to_come_out, _to_do_then, _day_of_another, _day_after_undone, _day_of_plan))
    if begins is not None or not at.has("date"):
        return begins
    there = at.z is not None and at.z.label == "yard" and at.q is not None and at.q.w in ("at", "in")
    if at.soft is None and there and done(at.marks):
        return []  # "on june tenth i sold n one and n two | today at wens seventy six is heavy"
    if at.soft is None and at.has("sky", "temp"):
        if any(x.label in ("sky", "temp") for x in at.row[at.i + 1 : at.i + 5]):
            return []  # "yesterday it rained at wens | today clear and seventy six"
    if at.soft is not None and at.soft.w in ("there", "here") and len(at.marks) > 1 and at.marks[-2].label == "verb":
        return None  # "the mouse guards go on there in five days"
    if (at.strong and at.marks[-1].label == "filler") or (at.soft is not None and done(at.marks)):
        return glue_tail(at.marks)
    return None


def _to_come_out(at: Place) -> Tail:
    """ "strips went in fifty one | out november seventh", "strips in 41 to 46, | out by 7/22"."""
    marks = at.marks
    out = len(marks) - (2 if marks[-1].w == "by" else 1)
    if out < 2 or marks[out].w not in ("out", "off") or marks[out - 1].label not in _BEFORE_OUT:
        return None
    given = any(x.v.get("dir") == "in" or x.v.get("does") == "treat" or x.w in ("in", "into", "on") for x in marks)
    return [*glue_tail(marks[:out]), *marks[out:]] if given and done(marks[:out]) else None


def _to_do_then(at: Place) -> Tail:
    """What is to be done again on the day, or since when it has not been."""
    marks, last = at.marks, at.marks[-1]
    if last.label == "filler" and last.w == "next" and at.m.v["value"].form == "md" and done(marks[:-1]):
        return glue_tail(marks)  # "vapour 2 g a hive, all, | next 6/15"
    if [x.w for x in marks[-4:]] in _BEEN_IN and done(marks[:-4]):
        return marks[-4:]  # "get the strips out of mill lane | they've been in since april first"
    if last.w in _TO_DO_THEN and len(marks) > 2 and marks[-2].label in ("comma", "filler") and done(marks[:-2]):
        return [*glue_tail(marks[:-1]), last]  # "strips in 41 to 46, 2 each, | back on the 20th"
    return None


def _day_of_another(at: Place) -> Tail:
    """The day leads in what somebody did or will do."""
    marks, q = at.marks, at.q
    if marks[-1].label == "date" and "of" not in at.m.w.split() and done(marks):
        return []  # "out of QB on the tenth | today the cells went in"
    if q is None:
        return None
    somebody = q.w in PERSONS or q.w in IS_TO or q.label == "person"
    if somebody and at.soft is not None and at.soft.w not in ("there", "now", "just") and done(marks):
        return glue_tail(marks)  # "guards on every hive | and thursday i'm back with reducers"
    if at.has("date") and at.soft is None and done(marks) and _acts_then(at):
        return []  # "yesterday 71 swarmed | today i found 75 dead"
    if q.w == "they" and at.m.v["value"].is_to_come and at.soft is None and done(marks):
        return []  # "all three are fair strength | tomorrow they get a patty each"
    return None


def _acts_then(at: Place) -> bool:
    """Whether right after the day somebody did something, or a thing went on or off ("today the excluders went on")."""
    q, z = at.q, at.z
    if q is None or z is None:
        return False
    if q.w in ("i", "we") or q.label == "person":
        return z.w in _NOTICED or z.v.get("tense") == "past" or z.label == "method"
    then = at.row[at.i + 3] if at.i + 3 < len(at.row) else None
    return q.w == "the" and z.label in THINGS and then is not None and then.label == "verb"


def _day_after_undone(at: Place) -> Tail:
    """The day of a plan, or of work, after what is to stay or was not done."""
    if at.has("days") and at.soft is not None and at.soft.w == "and" and at.has("pronoun", "cue"):
        return glue_tail(at.marks)  # "they're to stay 28 days and | in 14 days I pull them"
    undone = at.strong and at.marks[-1].label == "filler" and at.cols and at.has_cue("not")
    if undone and at.has("method", "item", "form"):
        return glue_tail(at.marks)  # "still haven't rolled sixty one um | saturday's rolls were …"
    return None


def _day_of_plan(at: Place) -> Tail:
    """ "haven't pulled hers yet | friday i'll get to it": the day leads in what is to be done, which names no other."""
    marks, day = at.marks, at.m.v["value"]
    if at.q is None or day.ahead is False or (day.form == "offset" and not day.is_to_come) or not _plans(at):
        return None
    if not (done(marks) or at.has_cue("not")) or (not at.has("date") and any(_is_own_plan(x) for x in marks)):
        return None
    due = (
        at.z is not None and at.z.label == "cue" and at.z.w.startswith("due")
    )  # "friday we're due for the third this friday"
    for x in at.row[at.i + (3 if due else 2) : at.i + _PLANNED_WITHIN]:
        if x.label in ("stop", "line", "cue", "filler"):
            break
        if x.label == "date":
            return None  # "strips out sunday | i'll wash them tuesday"
    return [*glue_tail(marks[: len(marks) - len(lead)]), *lead] if (lead := with_prep(marks)) else glue_tail(marks)


_PLANNED_WITHIN = 12


def _plans(at: Place) -> bool:
    """Whether a plan follows the day: "i'll", "need to", "we're moving", "we check", "the guards go on"."""
    q, z, to_come = at.q, at.z, at.m.v["value"].is_to_come
    if q is None or z is None:
        return False
    if q.w in PERSONS or q.label == "person":
        return (z.label == "cue" and z.v.get("cue") == "plan") or _present(z, True)
    if q.w in ("the", "their", "its") and z.label in THINGS:
        return at.i + 3 < len(at.row) and at.row[at.i + 3].v.get("tense") == "base"
    if q.label == "item" and q.w in GEAR_VERBS and z.label in ("cols", "pronoun", "every", "rest"):
        return True  # "feeders off at wens | saturday wrap them all"
    return _is_own_plan(q) or q.w in IS_TO or (_present(q, to_come) and not at.has_cue("plan"))


def _is_own_plan(m: Mark) -> bool:
    return m.label == "cue" and m.v.get("cue") == "plan" and m.w.split()[0] in _IS_GOING_TO


def _present(m: Mark, to_come: bool) -> bool:
    """Whether the mark is work told in the present: "we | pull the supers", on a day to come also "we | check both"."""
    if m.label == "verb":
        return m.v.get("tense") == "base" or (to_come and m.w == "do")
    return to_come and m.label in ("method", "check") and not m.w.endswith("ed")


_IS_GOING_TO = I_WILL | IS_TO | frozenset("gonna going need gotta have must should wanna want".split())
