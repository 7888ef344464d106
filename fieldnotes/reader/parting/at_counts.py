"""Does a new statement begin at a count, an amount or a dose?"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grouping.counts import SO_MANY_OF_THEM
from fieldnotes.reader.mark import SEEN_AT, THINGS, WAYS
from fieldnotes.reader.parting.about import done
from fieldnotes.reader.parting.at_things import after_yet, at_thing, hives_gone
from fieldnotes.reader.parting.left_out import excepted
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.tails.joining import glue_tail, with_joins
from fieldnotes.reader.parting.tails.numbers import with_number
from fieldnotes.reader.parting.words import CLOSED


def at_count(at: Place) -> Tail:
    """At a number, a count of mites or a clean check."""
    if at.marks[-1].w in ("had", "was") and at.marks[-2:-1] and at.marks[-2].w in ("that", "which"):
        if excepted(at.marks[:-2]):
            return at.marks[-2:]  # "all clean except seventy two | that had thirty"
    begins = first_of(
        at, (_more_given, _new_half, _counted_since, _all_clean, _none_on_the_rest, _came_home, _counted_elsewhere)
    )
    if begins is not None:
        return begins
    if _none(at) and at.has("ordinal") and any(x.label == "ordinal" for x in at.row[at.i + 1 : at.i + 5]):
        return None  # "five in the first and none in the second"
    begins = first_of(at, (_none_in_others, _so_many_now, _one_of_them))
    if begins is not None or at.m.label == "number":
        return begins
    return glue_tail(at.marks) if at.strong and at.has_cue("not") and not at.cols else after_yet(at)


def _more_given(at: Place) -> Tail:
    """So much more of what was given, on another day."""
    m, marks, q = at.m, at.marks, at.q
    if q is None:
        return None
    if m.w == "one" and q.w == "more" and done(marks) and at.has("round", "agent", "form", "feed"):
        return glue_tail(marks)  # "that's the third round | one more next thursday"
    if m.label in ("number", "value") and at.has("unit") and done(marks):
        if marks[-1].w == "another" and q.label == "date":
            return [*with_joins(marks[:-1]), marks[-1]]  # "fifty grams each | then another fifty on friday"
        if q.w == "more" and at.soft is not None and at.z is not None and at.z.label == "date":
            return glue_tail(marks)  # "fifty grams now | and fifty more on friday"
    return None


def _one_of_them(at: Place) -> Tail:
    """ "five were zero | and one was four"."""
    one = at.m.w == "one" and at.q is not None and at.q.w in ("was", "had") and at.has("hives") and at.has_any(_COUNTS)
    return with_joins(at.marks) if one and not at.cols else None


def _counted_elsewhere(at: Place) -> Tail:
    """ "zero mites in ten of them | and then thirty one in hive fourteen": after how many hives a count was of."""
    if at.m.label not in _COUNTS or not at.has("hives") or at.cols or at.q is None or at.z is None:
        return None
    elsewhere = at.q.w in SEEN_AT and at.z.label in ("cols", "hives", "rest") and at.marks[-1].label != "hives"
    return with_joins(at.marks) if elsewhere and (at.has_any(_COUNTS) or at.z.label == "hives") else None


_COUNTS = frozenset(["mites", "value", "clean"])
_CAN_COUNT = _COUNTS | {"number"}


def _came_home(at: Place) -> Tail:
    """ "took the escapes off at the quarry, whole yard | ten supers of honey came home": what all of it came to."""
    if at.q is None or at.q.v.get("item") != "super" or not at.has("every", "hives"):
        return None
    if not any(x.v.get("item") == "escape" for x in at.marks if x.label == "item"):
        return None
    k = len(at.marks)
    while k and (at.marks[k - 1].label == "verb" or at.marks[k - 1].w in _CAME_TO):
        k -= 1
    before = at.marks[:k]
    return [*glue_tail(before), *at.marks[k:]] if done(before) else None


_CAME_TO = frozenset("that it which came to was is that's".split())


def _new_half(at: Place) -> Tail:
    """ "it was fixing to swarm | the new half is N2"."""
    marks, q = at.marks, at.q
    if at.m.w != "half" or q is None or q.w not in ("is", "are", "was", "went") or len(marks) < 3:
        return None
    named = marks[-1].w in ("new", "other") and marks[-2].w == "the" and at.soft is None and at.has("ignore")
    return marks[-2:] if named else None


def _counted_since(at: Place) -> Tail:
    """ "had twelve mites last week | and four today": the number becomes the count of a check."""
    m, marks, q = at.m, at.marks, at.q
    if m.label not in _CAN_COUNT or q is None or q.label != "date" or len(marks) < 3:
        return None
    joins = marks[-1:] if marks[-1].w == "and" else []
    if not at.cols or marks[-1 - len(joins)].label != "date" or not at.has("mites", "value"):
        return None  # "two mites last month | eleven mites today"
    m.label = "value" if m.label == "number" else m.label
    return joins


def _all_clean(at: Place) -> Tail:
    """ "marked the queen in 48 | all clean fifty and fifty one, alcohol wash"."""
    clean = at.m.label == "clean" and at.m.w.startswith("all") and at.q is not None and at.q.label == "cols"
    return glue_tail(at.marks) if clean and at.cols and done(at.marks) else None


def _is_none(at: Place) -> bool:
    return at.m.label in ("number", "value") and "n" in at.m.v and bool(at.m.v["n"].value == 0)


def _none_on_the_rest(at: Place) -> Tail:
    """ "one on nine | and none on the rest"."""
    rest = at.q is not None and at.q.w in ("in", "on", "for") and at.z is not None and at.z.label == "rest"
    return with_joins(at.marks) if rest and at.cols and _is_none(at) else None


def _none(at: Place) -> bool:
    """Whether somebody got none, or something held none, after what is complete."""
    nothing = at.m.label == "clean" and at.m.w == "nothing" and at.has(*THINGS, "amount")
    nothing = nothing and not at.has("method", "mites", "value")
    return (
        (_is_none(at) or nothing)
        and at.soft is not None
        and at.q is not None
        and at.q.w in ("in", "on", "for", "to", "at")
        and not (at.z is not None and at.z.w in ("that", "order"))  # "five, six and none in that order"
        and done(at.marks)
    )


def _none_in_others(at: Place) -> Tail:
    """ "strips in 1-10, 2 each, | none in 11-18"."""
    return glue_tail(at.marks) if _none(at) else None


def _so_many_now(at: Place) -> Tail:
    """How many or how warm it is now ("that's five supers", "it's three today")."""
    m, marks, said = at.m, at.marks, at.marks[-1].w
    if m.label == "number" and said in ("that's", "thats") and at.q is not None and at.q.label in ("item", "form"):
        if len(marks) > 1 and marks[-2].w in WAYS:
            return marks[-1:]  # "hive seven took two off | that's five supers"
    if m.label == "value" and said == "it's" and at.has("value") and at.soft is not None:
        return glue_tail(marks)  # "was eight last week | and it's three today"
    if m.label == "number" and said == "it's" and any(x.label == "sky" for x in at.row[at.i + 1 : at.i + 4]):
        if done(marks) or at.has_cue("not"):
            return marks[-1:]  # "nine's alive | it's forty three and clear"
    return None


def _given_to_several(at: Place) -> Tail:
    """ "L2 is light, L5 light, | two pounds of fondant on both": more than the one colony before it was given that."""
    if not at.has("fact") or at.has_any(THINGS) or sum(len(x.v["ids"]) for x in at.cols) != 1:
        return None
    follows = at.row[at.i + 1 : at.i + 6]
    given = (b.label == "pronoun" and b.w in _SEVERAL for a, b in pairwise(follows) if a.w in ("on", "in", "to", "for"))
    both = any(given)
    return with_joins(at.marks) if both and done(at.marks) else None


_SEVERAL = frozenset(["both", "both of them", "the two", "the two of them", "both of those"])


def _out_of_a_yard(at: Place) -> bool:
    """ "honey at the pond 14 supers moisture 17, | then about four buckets out of the quarry": of another yard."""
    k = at.i + 1
    while k < len(at.row) and (at.row[k].w in ("out", "of", "off", "from", "honey") or at.row[k].label == "honey"):
        k += 1
    return k > at.i + 1 and k < len(at.row) and at.row[k].label == "yard"


def at_amount(at: Place) -> Tail:
    """ "put strips in those two, two each | and a quart of syrup on fifty four"."""
    follows = at.row[at.i + 1 : at.i + 7]
    on = any(
        (
            a.w in ("on", "in", "to", "into", "for", "of")
            and (b.label in ("cols", "every") or b.v.get("cue") == "except")
        )
        for a, b in pairwise(follows)
    )
    if (both := _given_to_several(at)) is not None:
        return both
    if at.has("harvest", "honey") and at.has("yard") and at.has("amount", "moisture") and _out_of_a_yard(at):
        lead = 1 if at.marks[-1].label == "approx" else 0
        return [*glue_tail(at.marks[: len(at.marks) - lead]), *at.marks[len(at.marks) - lead :]]
    if at.has("item") and any(x.w in ("when", "once") for x in follows[:2]) and "harvest" in {x.label for x in follows}:
        return glue_tail(at.marks)  # "pulled nine supers | about 300 pounds when we spin it"
    if at.q is not None and at.q.label == "harvest" and at.has("item", "every") and not at.has("harvest"):
        if done(at.marks):
            return glue_tail(at.marks)  # "took the supers off the whole yard | two hundred pounds extracted"
    if at.soft is None and on and hives_gone(at.marks):
        return []  # "l nine is dead | five pounds of dry sugar each on l eleven and l twelve"
    rest = at.q is not None and at.q.w in ("for", "to", "on", "in") and at.z is not None and at.z.label == "rest"
    if rest and at.cols and at.has("amount") and done(at.marks):
        return with_joins(at.marks)  # "a gallon each on 70 and 72 | half a gallon for the rest"
    if at.soft is None and at.marks[-1].label == "every" and on and at.has("agent", "form", "item") and done(at.marks):
        fed = any(x.label == "feed" for x in follows[:2])
        return [] if fed and not at.has("feed", "amount", "number", "unit") else None
    joined = at.soft is not None and (at.soft.w in ("and", "then") or at.soft.label == "filler")
    into = at.q is not None and at.q.w == "into" and at.z is not None and at.z.label == "cols"
    if joined and into and at.cols and at.has("amount") and done(at.marks):
        return with_joins(at.marks)  # "a gallon of two to one into S6 | and half a gallon into S7"
    if joined and on and at.has("fact", "change") and not at.has("agent", "form", "item", "feed", "verb"):
        return with_joins(at.marks) or None  # "it's light | and a gallon of syrup in five"
    if not joined or not on or not at.has("agent", "form", "item") or at.has("feed", "ratio"):
        return None
    return with_number(at.marks) if done(at.marks) else None


def at_noun(at: Place) -> Tail:
    """ "eleven buckets off the pond today and | there's forty frames more to pull"."""
    marks = at.marks
    there = marks[-1].w in ("there's", "theres") or [x.w for x in marks[-2:]] == ["there", "are"]
    k = len(marks) - (1 if marks[-1].w in ("there's", "theres") else 2)
    said = done(marks[:k]) or at.has("yard")
    if not there or at.m.v.get("noun") != "frames" or not said:
        return at_thing(at)
    return [*glue_tail(marks[:k]), *marks[k:]]


_THEY_GET = frozenset("get gets got have only are".split())


def at_part(at: Place) -> Tail:
    """ "grafted thirty two um | sixteen of them are going to wens"."""
    if at.m.w == "nucs" and at.q is not None and at.q.w in _THEY_GET:
        lead = at.marks[-1:] if at.marks[-1].w == "the" else []
        before = at.marks[: len(at.marks) - len(lead)]
        if before and before[-1].label in CLOSED and done(before):
            return lead  # "two pads a hive | the nucs get one"
    if at.m.rule == SO_MANY_OF_THEM and (at.has_any(_COUNTS) or at.has("method")):
        return with_joins(at.marks)  # "washed ten hives at larks | eight were clean"
    part = at.strong and at.m.w.endswith(("of them", "of em")) and not at.has("change", "item", "agent", "form")
    return glue_tail(at.marks) if part and done(at.marks) and at.has("queen_work") else at_thing(at)


def at_dose(at: Place) -> Tail:
    """At a dose after an aside: "all but 57, that one's dead um | one gram each"."""
    aside = at.strong and at.has("change", "fact") and not at.has("agent", "form", "unit", "feed")
    return glue_tail(at.marks) if aside and done(at.marks) else None
