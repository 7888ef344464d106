"""Does a new statement begin at a second date?"""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.parting.about import done
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.tails import glue_tail
from fieldnotes.reader.parting.words import IS_TO, PERSONS

_TO_DO_THEN = listed("to_do_then")
_BEEN_IN = [["they've", "been", x, "since"] for x in ("in", "on")]


def at_date(at: Place) -> Tail:
    """At a second date."""
    marks, last = at.marks, at.marks[-1]
    k = len(marks) - (2 if last.w == "by" else 1)  # where "out" stands: "strips in 41 to 46, | out by 7/22"
    if (
        k > 1
        and marks[k].w in ("out", "off")
        and marks[k - 1].label in ("cols", "each", "days", "filler", "every", "comma")
    ):
        given = any(x.v.get("dir") == "in" or x.v.get("does") == "treat" or x.w in ("in", "into", "on") for x in marks)
        if given and done(marks[:k]):
            return [*glue_tail(marks[:k]), *marks[k:]]  # "strips went in fifty one | out november seventh"
    if last.label == "filler" and last.w == "next" and at.m.v["value"].form == "md" and done(marks[:-1]):
        return glue_tail(marks)  # "vapour 2 g a hive, all, | next 6/15"
    been = [x.w for x in marks[-4:]]
    if been in _BEEN_IN and done(marks[:-4]):
        return marks[-4:]  # "get the strips out of mill lane | they've been in since april first"
    if last.w in _TO_DO_THEN and len(marks) > 2 and marks[-2].label in ("comma", "filler") and done(marks[:-2]):
        return [*glue_tail(marks[:-1]), last]  # "strips in 41 to 46, 2 each, | back on the 20th"
    if last.label == "date" and done(marks) and "of" not in at.m.w.split():
        return []  # "out of QB on the tenth | today the cells went in"
    subject = at.q is not None and (at.q.w in PERSONS or at.q.w in IS_TO or at.q.label == "person")
    if subject and at.soft is not None and at.soft.w not in ("there", "now", "just") and done(marks):
        return glue_tail(marks)  # "guards on every hive | and thursday i'm back with reducers"
    if at.m.v["value"].is_to_come and at.q is not None and at.q.w == "they" and at.soft is None and done(marks):
        return []  # "all three are fair strength | tomorrow they get a patty each"
    if at.has("days") and at.soft is not None and at.soft.w == "and" and at.has("pronoun", "cue"):
        return glue_tail(marks)  # "they're to stay 28 days and | in 14 days I pull them"
    if at.strong and last.label == "filler" and at.cols and at.has_cue("not") and at.has("method", "item", "form"):
        return glue_tail(marks)  # "still haven't rolled sixty one um | saturday's rolls were …"
    if not at.has("date"):
        return None
    if (
        at.has("sky", "temp")
        and any(x.label in ("sky", "temp") for x in at.row[at.i + 1 : at.i + 5])
        and at.soft is None
    ):
        return []  # "yesterday it rained at wens | today clear and seventy six"
    if at.soft is not None and at.soft.w in ("there", "here") and len(marks) > 1 and marks[-2].label == "verb":
        return None  # "the mouse guards go on there in five days"
    if (at.strong and last.label == "filler") or (at.soft is not None and done(marks)):
        return glue_tail(marks)
    return None
