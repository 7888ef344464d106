"""Whether the colonies only say whose the work was that is told before them."""

from __future__ import annotations

from fieldnotes.reader.mark import WAYS, Mark
from fieldnotes.reader.parting.about import predicate_follows
from fieldnotes.reader.parting.governing import other_number
from fieldnotes.reader.parting.place import Place
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.joining import glue_tail


def names_whose(at: Place, predicate: bool) -> bool:
    """Whether the colonies only say whose the work was that stands complete before them."""
    aside = predicate and at.q is not None and at.q.label == "filler"  # "a super and | 41 next to it has two frames"
    return (
        (_closes_work(at) and not aside)
        or (not predicate and _same_nucs(at))
        or _changed(at, predicate)
        or _queens_of(at, predicate)
        or _round_of(at, predicate)
        or _dose_of(at, predicate)
    )


def _dose_of(at: Place, predicate: bool) -> bool:
    """ "fed a gallon a hive one through nine": who got it."""
    return (
        at.marks[-1].label == "each"
        and not predicate
        and at.has("amount", "unit")
        and not at.has("fact", "mites", "value", "cue", "every", "hives", "pronoun")
        and (not at.has("yard") or bool(at.m.v.get("hive")))
    )


def _same_nucs(at: Place) -> bool:
    """ "no strips in the nucs, N1 to N6": which nucs those are."""
    named = [x for x in at.marks[-2:] if x.label != "comma"]
    return bool(named) and named[-1].label == "hives" and named[-1].w.split()[-1] == "nucs" and "n" not in named[-1].v


def _closes_work(at: Place) -> bool:
    """ "supers on at the ferry, 1 each, F1-F3 and F5-F8", "strips in, F1-F8 except F5"."""
    nxt = at.q
    if nxt is not None and nxt.label == "filler" and "next" in nxt.w.split()[:2]:
        return False  # "two supers on her and | hive six next door poor thing no eggs"
    return (
        (
            nxt is None
            or nxt.label in ("stop", "line", "comma", "filler", "date", "question", "rest", "cols")
            or nxt.w in ("then", "so")
            or _stays_so_long(nxt, at.z)
            or (nxt.w in ("they", "those") and at.z is not None and at.z.label in ("verb", "cue"))
            or (nxt.w == "and" and at.z is not None and at.z.label == "cols" and predicate_follows(at.row, at.i + 2))
            or (nxt.w == "and" and at.z is not None and at.z.label in ("method", "sample"))
            or (nxt.w == "and" and at.z is not None and at.z.v.get("tense") == "past" and len(at.m.v["ids"]) > 1)
            or (nxt.w == "and" and at.z is not None and at.z.label == "rest" and at.has("unit", "amount"))
            or (nxt.label == "yard" and not at.has("yard") and ends_in_place(at))  # "pulled strips 45-52 mill lane"
            or (nxt.v.get("cue") == "except" and len(at.m.v["ids"]) > 1)
            or (nxt.w in WAYS and _ends_in_particle(at))
            or (nxt.label in ("number", "amount", "each") and not at.has("number", "amount", "unit", "each", "verb"))
        )
        and at.has("item", "agent", "form", "feed", "queen_work")
        and not at.has("every", "hives", "fact", "mites", "value")
        and at.marks[-1].label != "filler"
        and not any(x.label == "filler" for x in glue_tail(at.marks))  # "and a trap, oh, and | fifty six next door"
    )


def ends_in_place(at: Place) -> bool:
    """ "queenless 94 at Ridge": after the colonies only their yard stands, and the end of what is said."""
    k = at.i + 1
    while k < len(at.row) and (at.row[k].label == "yard" or at.row[k].w in ("at", "in", "the")):
        k += 1
    return k == len(at.row) or at.row[k].label in ("stop", "line", "comma")


def _stays_so_long(nxt: Mark, then: Mark | None) -> bool:
    """ "strips went in at larks today L1 to L9 | they stay in six weeks": how long is told of what went in."""
    if nxt.label == "pronoun" and nxt.w in ("it", "they", "them"):
        return then is not None and (then.label == "days" or then.w.split()[0] in _STAY)
    return nxt.label == "days"


_STAY = frozenset("stay stays".split())


def _ends_in_particle(at: Place) -> bool:
    """ "Ferry: pads 2 each F1-F8 in 6/3", "F1-F8 out": what was done to them with the things named before."""
    if at.has("verb"):
        return False
    return at.z is None or at.z.label in ("stop", "line", "comma", "date")


def _changed(at: Place, predicate: bool) -> bool:
    """ "moved ten hives … L1 to L10"."""
    marks = at.marks
    head = next((x for x in reversed(marks) if x.label in HEADS), None)
    return (
        head is not None
        and head.label == "change"
        and head.v.get("step") in ("nuc_made", "split", "sold", "bought", "swarm_caught", "moved", "combined")
        and not (
            predicate and (glue_tail(marks) or any(x.label == "pronoun" for x in marks) or marks[-1].label == "date")
        )
        and not (marks[-1].label == "filler" and other_number(marks, len(at.m.v["ids"])))
        and not (predicate and ends_in_new_place(marks))
    )


def ends_in_new_place(marks: list[Mark]) -> bool:
    """ "moved six hives from the pond over to the heath | 77 is light": a place of which the roster knows nothing."""
    words = [m.w for m in marks[-4:] if m.label == "w"]
    hives = any(m.label in ("hives", "change") and "n" in m.v for m in marks)
    return hives and "to" in words[:-1] and marks[-1].label == "w" and marks[-1].w.isalpha()


def _queens_of(at: Place, predicate: bool) -> bool:
    """ "marked the queen 12"; but "pinched her | forty six is weak"."""
    marks = at.marks
    last = marks[-1]
    return (
        at.has("queen_work")
        and not at.has("fact", "mites", "value")
        and not glue_tail(marks)
        and last.label != "pronoun"
        and not predicate
        and not (last.label == "queen_work" and last.w.split()[-1] in ("her", "it", "them", "queen"))
    )


def _round_of(at: Place, predicate: bool) -> bool:
    """ "oxalic vapour, round 2, L1-L14, 2 g"."""
    return (
        at.marks[-1].label in ("round", "agent", "form", "each", "unit", "days")
        and not predicate
        and not at.has("fact", "mites", "value", "verb", "cue", "every", "hives", "yard")
    )
