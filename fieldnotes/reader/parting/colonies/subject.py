"""Whether the colonies are the subject of the words after them, and not governed by those before."""

from __future__ import annotations

from fieldnotes.reader.mark import THINGS
from fieldnotes.reader.parting.about import done, person_follows, predicate_follows
from fieldnotes.reader.parting.at_things import hives_gone
from fieldnotes.reader.parting.place import Place


def subject_after_all(at: Place) -> bool:
    """Whether the words before do not take the colonies, since something is said of them: "marked her green | hive four
    is honey bound", "emergency cells all over | seventeen's fine".
    """
    last = at.marks[-1]
    if (
        at.q is not None
        and at.q.w == "'s"
        and at.z is not None
        and (at.z.w in FINE or at.z.label in ("fact", "change"))
    ):
        return True
    if last.label == "filler" and person_follows(at.row, at.i) and done(at.marks) and not at.cols:
        return True  # "marked her blue um | fifty four I couldn't find the queen"
    told = predicate_follows(at.row, at.i) or (at.q is not None and at.q.w in ("she's", "she", "it's", "her"))
    if told and last.label in ("yard", "date") and not at.cols and hives_gone(at.marks):
        return True  # "four nucs died at the pond | n one and n two got fondant"
    if told and last.label == "change" and last.w.split()[-1] in ("deadouts", "deadout", "outs", "out"):
        return True  # "dead outs | forty one is alive"
    if told and last.label == "filler" and at.m.v.get("hive") and done(at.marks):
        return True  # "and I took it all out um | hive thirteen lost her queen"
    if told and last.label == "method" and at.has("mites", "value", "clean"):
        if last.w.split()[0] in ("in", "with") or [x.w for x in at.marks[-3:-1]] == ["on", "the"]:
            return True  # "3 to 5 had three mites each in alcohol | six had nine"
    if last.label == "filler":
        last = next((x for x in reversed(at.marks) if x.label != "filler"), last)  # "marked white um | 49 has beetles"
    told = told or (at.q is not None and at.q.label in ("method", "sample")) or person_follows(at.row, at.i)
    return told and last.label == "queen_work" and last.w.split()[-1] in COLOURS


COLOURS = frozenset("white yellow red green blue dot paint".split())


def gets_a_thing(at: Place) -> bool:
    """Whether what is done to the colonies follows them, or what they get, counted or with its article."""
    q = at.q
    if q is not None and (q.label == "number" or q.w in ("a", "an", "another")):
        q = at.z
    return q is not None and (q.label == "verb" or q.label in THINGS or predicate_follows(at.row, at.i))


FINE = frozenset("good fine okay ok alright great perfect same".split())
