"""Colony or count by the number itself: a hive word, the roster, "half", "six of eighteen", "no wait, nine"."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grouping.row import (
    ENDS,
    FEW_HIVES,
    PIECES,
    PREPS,
    RANGE,
    Row,
    id_of,
    range_here,
    rises_to_colony,
    sentence_has,
    whole,
)
from fieldnotes.reader.grouping.runs import then_named
from fieldnotes.reader.grouping.spot import Spot


def one_of_a_kind(at: Spot) -> bool | None:
    """ "the old one", "every one"."""
    p = at.p
    kinds = ("old", "new", "that", "this", "the", "last", "next", "other", "big", "bad", "each", "every")
    return False if at.number.value == 1 and p and p.label == "w" and p.w in kinds else None


def light_ones(at: Spot) -> bool | None:
    """ "six light ones at the pond", "two weak ones": so many, and no colony."""
    q, z = at.q, at.z
    ones = q is not None and z is not None and q.label == "fact" and z.label == "thing" and z.w.endswith("ones")
    return False if ones else None


def parts_of_all(at: Spot) -> bool | None:
    """ "six of the twelve at heath are strong, four are fair": so many of them, and no colony."""
    q, r = at.q, at.r
    if q is None or q.w not in ("are", "were", "look") or at.number.digits or at.number.value > 12:
        return None
    k = at.i - 1
    while k >= 0 and at.i - k < 16 and r.row[k].label not in ("stop", "line"):
        of = r.row[k + 1 : k + 4]
        if r.row[k].label == "number" and [m.w for m in of[:2]] == ["of", "the"] and of[-1].label == "number":
            return False
        k -= 1
    return None


def with_one(at: Spot) -> bool | None:
    """ "in the dark with one headlight": one of something, and no colony."""
    p, q = at.p, at.q
    if p is None or p.w != "with" or at.number.value != 1 or at.number.digits or q is None or q.label != "w":
        return None
    if q.w == "of":
        return False  # "requeened it with one of the banked ones"
    return False if len(q.w) > 3 and q.w.isalpha() and at.pp is not None and at.pp.label == "w" else None


def came_in_at(at: Spot) -> bool | None:
    """ "came up 12"."""
    p, pp = at.p, at.pp
    came = p and p.w in ("up", "in", "out") and pp and pp.w.split()[0] in ("came", "comes")
    if came and at.q is not None and at.q.w in ("had", "has", "was") and id_of(at.m) in at.r.outfit.ids:
        return True  # "the results came in, forty four had three percent"
    return False if came else None


def so_many_times(at: Spot) -> bool | None:
    """ "hive nine three times, four three and six": counts of one colony."""
    near = at.r.row[max(0, at.i - 8) : at.i]
    again = any(x.label == "ignore" and x.w.endswith(" times") for x in near)
    return False if again and at.r.checking and at.last in ("cols", "value") and not at.number.digits else None


def after_hive_word(at: Spot) -> bool | None:
    """ "hive 12"; but "every hive two a hive"."""
    if at.p and at.p.label == "hive" and at.q is not None and at.q.label == "each" and at.pp is not None:
        if at.pp.w.split()[-1] in ("every", "each"):
            return False
    return True if at.p and at.p.label == "hive" else None


def out_of_all(at: Spot) -> bool | None:
    """ "twenty one alive out of twenty five, dead are …": a number of all."""
    if at.q is not None and at.q.w in ("alive", "left", "living"):
        ahead = [m.w for m in at.r.row[at.i + 2 : at.i + 4]]
        return False if ahead in (["out", "of"], ["of", "the"]) or ahead[:1] == ["of"] else None
    out_of = at.p is not None and at.p.w == "of" and at.pp is not None and at.pp.w == "out"
    dead = at.q is not None and at.q.v.get("step") == "died"
    after = at.r.at(at.i + 2)
    return False if out_of and dead and after is not None and after.w in ("are", "is", "were", ":") else None


def of_each(at: Spot) -> bool | None:
    """ "excluders and supers on 3 and 8, 1 of each": so many, and no hive."""
    z = at.r.at(at.i + 2)
    several = at.q is not None and at.q.w == "of" and z is not None and z.w == "each"
    return False if several or (at.q is not None and at.q.w == "of each") else None


_NAMING = frozenset("it's its that's they're theyre is are be called as number".split())
_NOW = frozenset("now there here".split())


def not_in_the_roster(at: Spot) -> bool | None:
    """A number the roster does not have: a colony only where plainly spoken of as one (it is then asked about)."""
    if at.r.outfit.could_be(id_of(at.m)) or (at.p is not None and at.p.v.get("cue") == "except"):
        return None  # "pulled the strips, all but 31": left in 31, whether the roster has it or not
    p, q = at.p, at.q
    if p is not None and p.w in _NAMING and q is not None and q.w in _NOW and sentence_has(at.r, at.i, "change"):
        return True  # "moved L30 to Cut Bank and it's sixty five now": a number it is given today
    if p is not None and p.w == "into" and sentence_has(at.r, at.i, "change") and at.number.value < 1000:
        return True  # "split fifty one into sixty five"
    plain = q is not None and (
        q.w in ("has", "had", "is", "needs", "gets", "swarmed") or (q.label == "fact" and at.opens_line)
    )
    return (
        plain
        and at.number.value < 1000
        and at.starts
        and at.last != "cols"
        and (p is None or p.label in ("stop", "line", "comma", "yard", "filler") or p.w == ":")
    )


def one_and_the_other(at: Spot) -> bool | None:
    """ "six frames of brood in one and four in the other": which of two, and no ids."""
    words = [m.w for m in at.r.row[at.i + 1 : at.i + 8]]
    k = words.index("other") if "other" in words else words.index("the other") if "the other" in words else 0
    if not k or not {"in", "on", "off", "from"} & set(words[:k]):
        return None
    if at.m.w == "one" and words[0] == "and" and at.p is not None and at.p.w in PREPS:
        return False
    back = [m.w for m in at.r.row[max(0, at.i - 4) : at.i]]
    return False if words[0] in PREPS and back[-2:] == ["one", "and"] else None


def vague_number(at: Spot) -> bool | None:
    """ "a couple", "half"."""
    return False if at.m.w.split()[0] in ("a", "couple", "half", "dozen") else None


def part_of_fraction(at: Spot) -> bool | None:
    """ "12/300", "4%"."""
    p, q = at.p, at.q
    return False if (q and q.w in ("/", "%")) or (p and p.w == "/") else None


def second_guess(at: Spot) -> bool | None:
    """ "six or seven mites"."""
    p, pp = at.p, at.pp
    return False if p and p.w in ("or", "maybe") and at.last == "value" and pp and "n" in pp.v else None


def corrected(at: Spot) -> bool | None:
    """After "no wait" and a count: a colony only where something is said of it."""
    p, q, z = at.p, at.q, at.z
    if not (p and p.label == "cue" and p.v.get("cue") == "correct"):
        return None
    if at.last == "cols" and q and q.w == "and" and z and z.label == "number" and at.r.outfit.could_be(id_of(z)):
        return True  # "on eight and nineteen, no, nine and nineteen"
    before = at.r.at(at.i - 2)
    counted = q is not None and q.label in ("change", "hives", "noun", "queen_noun")
    if before is not None and before.label == "number" and at.last != "cols" and counted:
        return False  # "losses: six, no, sorry, seven dead"
    if at.last == "cols" and _other_hive(at):
        return True
    if at.last != "value":
        return None
    return bool(
        q
        and (
            q.w in at.r.subject_verbs
            or q.label in ("value", "clean", "mites")
            or (q.label == "number" and (q.v["n"].value == 0 or (at.number.value > 20 and not _has_its_own(at))))
        )
        and q.w != "and"
    )


def _has_its_own(at: Spot) -> bool:
    """ "forty had eleven, scratch that, twenty one | forty one had six": the next number is the colony."""
    z = at.z
    return z is not None and (
        z.w in at.r.subject_verbs or z.label == "clean" or (z.label == "number" and "n" in z.v and z.v["n"].value == 0)
    )


_GOES_ON = frozenset("it's its it she's she that that's has had is was and so but".split())
_COUNTABLE = frozenset(["item", "form", "agent", "feed", "unit", "noun", "queen_work", "queen_noun", "harvest"])
_MANY = 20
"""More things than this are not given to one hive."""


def _other_hive(at: Spot) -> bool:
    """ "fifty six swarmed, no wait, fifty seven", "fifty six got a super i mean fifty seven": nothing before it was
    counted that it could put right, so it is the hive.
    """
    q, r = at.q, at.r
    ends = q is None or q.label in ("stop", "line", "comma", "filler") or q.w in _GOES_ON
    if not ends or not r.outfit.could_be(id_of(at.m)):
        return False
    for m in reversed(r.row[max(0, at.i - 12) : at.i - 1]):
        if m.label in ("colony", "cols", "number"):
            return True  # the last number was a colony
        if m.label in ("amount", "value", "mites", "hives", "days", "date") or "n" in m.v:
            return False
        if m.label in _COUNTABLE and at.number.value <= _MANY:
            return False
    return False


def days_put_right(at: Spot) -> bool | None:
    """ "in for 42, no, make that 56 days": a number of days put right."""
    near = at.r.row[at.i + 1 : at.i + 5]
    for k, m in enumerate(near):
        if m.label == "cue" and m.v.get("cue") == "correct":
            return False if any(x.label == "days" for x in near[k + 1 :] + at.r.row[at.i + 5 : at.i + 7]) else None
        if m.label not in ("comma", "filler"):
            break
    return None


_FEW_ROUNDS = 5


def named_behind(at: Spot) -> bool | None:
    """ "requeened two, that was forty and forty one", "a super on two of them, that's nine and ten"."""
    q, z = at.q, at.z
    if q is None or z is None or q.w not in ("that", "those", "that's", "thats"):
        return None
    names = z if q.w.startswith("that'") or q.w == "thats" else at.r.at(at.r.on(at.r.on(at.r.on(at.i))))
    was = (q.w not in ("that", "those") or z.w in ("was", "were")) and (at.p is None or at.p.w not in PREPS)
    named = names is not None and names.label in ("number", "colony")
    return False if was and named and at.number.value < FEW_HIVES else None


def of_pieces(at: Spot) -> bool | None:
    """ "strips in forty to fifty, two pieces each"."""
    return False if at.q is not None and at.q.w in PIECES else None


def more_to_go(at: Spot) -> bool | None:
    """ "strips in three weeks ago at larks, three more to go"."""
    return False if at.q is not None and at.q.w == "more" and at.z is not None and at.z.w in ("to", "left") else None


def of_so_many(at: Spot) -> bool | None:
    """ "seven of eighteen need feed": so many of so many hives, and no colony."""
    p, pp, q = at.p, at.pp, at.q
    parts = p is not None and p.w == "of" and pp is not None and pp.label == "number"
    if parts and pp is not None and at.number.digits and q is not None and q.w == "'s":
        return None
    if parts and pp is not None and pp.v["n"].value <= at.number.value <= _FEW_ROUNDS and (q is None or q.w != "'s"):
        return False  # "vaped the lot, one of three"
    if parts and pp is not None and at.number.digits:
        return False if 1 < pp.v["n"].value <= at.number.value else None  # "cells capped 22 of 30"
    told = q is not None and (q.label in ("cue", "yard", "verb", "fact") or q.w in ("at", "are", "were", "have", "got"))
    return False if parts and told else None


def one_after_ordinal(at: Spot) -> bool | None:
    """ "the first one"."""
    return False if at.p and at.p.label == "ordinal" and at.number.value == 1 else None


def temperature_at_yard(at: Spot) -> bool | None:
    """ "millpond 52 and clear"."""
    p, q, z = at.p, at.q, None
    if p and p.label == "yard" and q and q.w == "and":
        z = at.z
    return False if z and z.label in ("sky", "temp") else None


_BEFORE_FIRST = frozenset(["yard", "days", "sample", "date"])


def one_of_them(at: Spot) -> bool | None:
    """ "one" is a colony's id only in a list or range, or where a hive, a colony or a count stands before it."""
    p, q = at.p, at.q
    if at.m.w != "one" or range_here(at.r, at.i):
        return None
    if p is not None and p.w == "for" and at.pp is not None and at.pp.label == "fact":
        return False  # "too weak for one"
    if p is not None and p.label in ENDS and q is not None and q.w in RANGE and rises_to_colony(at.r, at.i):
        return None  # "low field. | one to six all have eggs"
    if p is not None and p.label == "item" and p.w.endswith("ed") and q is not None and q.w in RANGE:
        return None  # "wrapped one to six"
    if p is not None and p.label == "each" and at.pp is not None and "n" in at.pp.v and q is not None:
        if q.w in at.r.subject_verbs:
            return None  # "three hundred each | one was three"
    if _one_by_what_is_said(at):
        return None
    listed = (q and (q.w in RANGE or q.label in ("number", "comma") or q.w == "and")) and (
        p is None
        or p.w in PREPS
        or p.w in ("and", "then")
        or p.label in ("verb", "check", "method", "every", "each", "yard", "filler")
        or (p.label == "date" and q is not None and q.label == "number")
        or p.v.get("cue") == "except"
    )
    if p is not None and p.w in ("into", "with") and sentence_has(at.r, at.i, "change"):
        return None  # "combine nine into one"
    if p is not None and p.label == "same" and p.w.split()[-1] == "as" and not (q and q.w in ("of", "more")):
        return True  # "hive four same as one"
    if p is not None and p.label in _BEFORE_FIRST and at.r.checking and q is not None and q.w in ("had", "was"):
        return None  # "washes at heath, one had two, two had four"
    if (
        p is not None
        and p.label == "number"
        and at.last == "cols"
        and at.r.last_ids[:1] == ["1"]
        and len(at.r.last_ids) > 1
    ):
        return None  # "opened one through six | one two and three have …"
    if (
        p is not None
        and p.w in ("inspection", "look", "visit", "today")
        and q is not None
        and q.w in ("is", "has", "was")
    ):
        return None  # "first inspection, one is strong, two is weak"
    if listed or p is None or p.label in ("hive", "cols", "value", "mites"):
        return None
    return None if p.label in ("method", "line") and at.r.checking else False


_OF_SEVERAL = frozenset("are were have both get need".split())
_CAME_TO = frozenset("had was came gave showed".split())


def _one_by_what_is_said(at: Spot) -> bool:
    """Whether what is said shows that "one" may be a colony: a list of hives, colony one named before, or a walk that
    begins with it.
    """
    p, q, r = at.p, at.q, at.r
    if p is None or q is None or p.label == "each":
        return False
    if p.label == "change" and p.v.get("step") == "combined" and q.w in ("into", "with"):
        return True  # "combined one into eleven"
    if (
        p.label == "change"
        and p.v.get("step") == "split"
        and any(a.w == "into" and b.label == "colony" for a, b in pairwise(r.row[at.i + 1 : at.i + 6]))
    ):
        return True  # "split one at the pond into n six"
    named = "1" in r.last_ids
    if named and (p.w in PREPS or (r.checking and q.w in _CAME_TO and len(r.last_ids) > 1)):
        return True  # "all except hive one I took the feeder off one", "washed one and six, one was zero"
    if _several_are(r, at.i):
        return True  # "cold and windy one five and thirteen are light"
    if at.last or named or r.last_ids:
        return False
    first = q.w.split()[0]
    if r.checking and first in _CAME_TO:
        return any(m.label in ("number", "mites", "clean") for m in r.row[at.i + 2 : at.i + 6])
    return first in r.subject_verbs and _same_of_next(r, at.i, first)


def _several_are(r: Row, i: int) -> bool:
    """Whether a list begins at `i` and ends in "and", a number and "are" or another word said of several."""
    k, seen = i, 0
    while (m := r.at(k)) is not None and seen < _LONGEST_LIST and m.label in ("number", "comma"):
        seen, k = seen + (m.label == "number"), r.on(k)
    joined, last = r.at(k), r.at(r.on(k))
    if not seen or joined is None or joined.w != "and" or last is None or last.label != "number":
        return False
    verb = r.at(r.on(r.on(k)))
    return verb is not None and verb.w.split()[0] in _OF_SEVERAL


def _same_of_next(r: Row, i: int, verb: str) -> bool:
    """Whether the same verb is said of the next hive: "one has mice thirteen has ants"."""
    for k in range(i + 2, min(i + 10, len(r.row) - 1)):
        m, q = r.row[k], r.row[k + 1]
        if m.label == "number" and q.w.split()[:1] == [verb]:
            return m.v["n"].value > 1 and whole(m) and r.outfit.could_be(id_of(m))
    return False


_LONGEST_LIST = 8


def named_after_it(at: Spot) -> bool | None:
    """ "three dead at the quarry two four and eighteen": so many, which are named after it."""
    return False if then_named(at.r, at.i) else None
