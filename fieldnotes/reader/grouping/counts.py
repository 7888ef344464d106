"""Is a number that is no colony a count of mites or a sample size?"""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import (
    JOIN,
    PREPS,
    Row,
    colonies_of,
    id_of,
    of_bees,
    reaches_all,
    sentence_has,
    whole,
)
from fieldnotes.reader.mark import REACH, THINGS, Mark
from fieldnotes.reader.numbers import Number

_BEFORE_ONE = listed("which_one")
_SAMPLE_WORDS = listed("a_sample") | {"one"}


SO_MANY_OF_THEM = "so many of those checked"
"""The rule of a number of hives of which the same was counted."""
OF_SOME_HIVE = "count of one of so many hives"
"""The rule of as many counts as hives were checked, which nobody named."""
OF_A_SAMPLE = "count of a sample"
"""The rule of the counts that several samples of one colony came to."""


def samples_of_one(r: Row, i: int) -> tuple[list[Mark], int] | None:
    """ "two samples off hive three at the pond, | seven and nine": as many numbers as there were samples of the one."""
    if i < 4 or r.row[i].label != "number" or r.row[i - 1].label != "yard":
        return None
    k = i - 2
    while k > 0 and (r.row[k].w in ("at", "in", "the") or r.row[k].label == "comma"):
        k -= 1
    if r.row[k].label not in ("number", "colony"):
        return None
    k -= 2 if r.row[k - 1].label == "hive" else 1
    if k < 2 or r.row[k].w not in ("off", "on", "from", "of", "in"):
        return None
    said, number = r.row[k - 1], r.row[k - 2]
    samples = said.label in ("method", "check") or said.w in ("samples", "jars", "scoops")
    if not samples or number.label != "number" or number.v["n"].value < 2:
        return None
    found: list[Mark] = []
    j = i
    while len(found) < number.v["n"].value and (m := r.at(j)) and (m.label in ("number", "comma") or m.w == "and"):
        if m.label == "number":
            found.append(Mark("value", m.s, m.e, m.w, dict(m.v), OF_A_SAMPLE))
        j += 1
    return (found, j) if len(found) == number.v["n"].value else None


_GOT = frozenset("got were was came to at had counts".split())


def as_many_as_hives(r: Row, i: int) -> tuple[list[Mark], int] | None:
    """ "washed three hives at larks and got | two four and nine": as many counts as hives were checked."""
    if not r.checking or r.row[i].label != "number" or (p := r.at(r.back(i))) is None or p.w not in _GOT:
        return None
    k = i - 1
    while k > i - 10 and k >= 0 and r.row[k].label not in ("hives", "stop", "line", "number", "colony", "cols"):
        k -= 1
    hives = r.row[k] if k >= 0 else None
    if hives is None or hives.label != "hives" or "n" not in hives.v:
        return None
    found: list[Mark] = []
    j = i
    while (m := r.at(j)) and (m.label == "number" or m.label == "comma" or m.w == "and"):
        if m.label == "number":
            found.append(Mark("value", m.s, m.e, m.w, dict(m.v), OF_SOME_HIVE))
        j += 1
    return (found, j) if len(found) == hives.v["n"].value else None


def two_halves(r: Row, i: int) -> tuple[list[Mark], int] | None:
    """ "washed 62 and 63, 4 and 11 mites": as many colonies as counts, "and" within each half, a comma between."""
    if not r.checking or i + 7 > len(r.row):
        return None
    a, j1, b, comma, c, j2, d = r.row[i : i + 7]
    if (
        a.label == b.label == c.label == "number"
        and j1.w == j2.w == "and"
        and comma.label == "comma"
        and d.label in ("mites", "number")
        and all(whole(x) and r.outfit.could_be(id_of(x)) for x in (a, b))
    ):
        cols = Mark("cols", a.s, b.e, f"{a.w} and {b.w}", {"ids": [id_of(a), id_of(b)], "bare": True}, "colonies")
        counts = [Mark("value", x.s, x.e, x.w, dict(x.v), "count in that order") for x in (c, d)]
        return [cols, comma, *counts], i + 7
    return None


def with_so_many_each(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "washes on 40 and 41, 3 mites each": colonies, all with the same count."""
    run: list[Mark] = []
    j = end = i
    while len(run) < REACH and (m := r.at(j)) and m.label == "number" and r.outfit.could_be(id_of(m)):
        run.append(m)
        j = end = j + 1
        while (c := r.at(j)) and (c.label == "comma" or c.w == "and"):
            j += 1
    mites, each = r.at(j), r.at(j + 1)
    if len(run) < 2 or mites is None or mites.label != "mites" or each is None or each.label != "each":
        return None
    return colonies_of(run, bare=True), end


def value_list(r: Row, i: int) -> tuple[list[Mark], int] | None:
    """ "1, 2, 0, 4, 7 mites": a list of counts that ends in "mites"."""
    first = r.at(i)
    if not first or first.label != "number" or i < r.no_values_until:
        return None
    found: list[Mark] = []
    j = i
    while len(found) < REACH and (m := r.at(j)) and m.label == "number":
        found.append(Mark("value", m.s, m.e, m.w, dict(m.v), "count in a list"))
        j += 1
        seen_join = False
        while (c := r.at(j)) and (c.label == "comma" or c.w == "and"):
            j += 1
            seen_join = True
        if not seen_join:
            r.no_values_until = j
            return None
    if len(found) < REACH and (not m or m.label != "mites"):
        r.no_values_until = j
    if m and m.label == "mites" and len(found) >= 1:
        if len(found) == 1:
            # "12 and 3 mites": one number before is more likely a colony, unless it cannot be one.
            if r.outfit.could_be(id_of(found[0])) and found[0].v["n"].value >= 1:
                return None
        return found, j
    return None


def count_or_sample(r: Row, i: int, last: str) -> Mark:
    """The number as a count of mites or a sample size where it must be one, else as it is."""
    m = r.row[i]
    number: Number = m.v["n"]
    p, q = r.at(r.back(i)), r.at(r.on(i))
    if q is not None and q.w == "of" and (of := r.at(r.on(r.on(i)))) is not None and of.w in ("the", "those", "these"):
        return m  # "rolled two of the splits"
    if p is not None and p.label == "queen_work" and p.v.get("step") in _COUNTED_QUEENS:
        return m  # "banked four in QB and grafted thirty out of S2"
    if p is not None and p.w in ("found", "lost") and q is not None and q.v.get("step") == "died":
        return m  # "found five dead at larks"
    if q is not None and q.label == "sample" and of_bees(r, i):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count of a sample")
    if p is not None and p.label == "method" and m.w.split()[0] in ("a", "half") and _at_yard(r, i):
        return Mark("hives", m.s, m.e, m.w, {**m.v, "counts": True}, "hives washed")  # "rolled a dozen at larks"
    if q is not None and q.w == "were" and so_many_were(r, i):
        return Mark("hives", m.s, m.e, m.w, {**m.v, "counts": True}, SO_MANY_OF_THEM)
    if m.w == "one" and p is not None and p.w in ("had", "have") and _why_somebody(r, i):
        return m  # "got two supers because i had one"
    if q is not None and q.w == "in" and any(x.w.startswith("banked") for x in r.row[max(0, i - 6) : i]):
        return m  # "rolled s two, banked five more so there's eleven in q b"
    if _samples_told_apart(r, i, q):
        return m  # "hive twelve two sugar rolls, first one three mites, second one seven"
    named = p is not None and p.w in ("new", "other", "that") and q is not None and q.w in ("is", "went", "in")
    if m.w == "half" and named:
        return m  # "L8 split, new half is L28. L12 wash, 1 mite"
    if (
        p is not None
        and p.w in ("in", "into")
        and (what := r.at(r.back(r.back(i))))
        and what.label in ("form", "agent")
    ):
        return m  # "six had eleven so strips in nine"
    if p is not None and p.w == "and" and q is not None and q.w in ("in", "on") and _after_fact(r, i):
        return m  # "six frames of bees in eleven and ten in twelve"
    told = p is not None and (p.label == "method" or (number.value in SAMPLES and (p.w == "(" or p.label == "comma")))
    over = (
        q is not None and number.value in SAMPLES and (q.w in _OVER or q.label in ("line", "comma"))
    )  # "AW 300: H1 3"
    if r.checking and told and q and (q.label == "each" or over) and number.whole and number.value >= 50:
        return Mark("sample", m.s, m.e, m.w, {"bees": int(number.value)}, "sample size")  # "soap washes, 300 each"
    if q is not None and q.label in ("method", "check") and q.w.endswith("s") and not _parted(r, i, p, last) and p:
        if p.label == "verb":
            return m  # "on 44 i did two washes"
        if p.w in ("read", "counted", "checked"):
            return Mark("w", m.s, m.e, m.w)  # "read two boards"
    if last == "cols" and _of_a_sample(r, i):
        r.checking = True  # "41 was 8 per 300", "41 had 8 in 300"
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count of a sample")
    if m.w == "one" and p is not None and p.w == "for" and (why := r.at(r.back(r.back(i)))) and why.label == "fact":
        return Mark("w", m.s, m.e, "one")  # "too weak for one"
    if m.w == "one" and _other_named(r, i):
        return Mark("w", m.s, m.e, "one")  # "six frames of brood in one and four in the other"
    if q is not None and q.w in ("in", "on") and last == "cols" and _dealt_on(r, i):
        return m  # "2 sponges in 54, 1 in 53", under a list of washes
    if m.w == "half" and q is not None and q.w == "dead":
        r.row[r.on(i)] = Mark("fact", q.s, q.e, q.w, {"kind": "inspection", "set": {"strength": "weak"}}, "weak")
    if m.w == "half" and q is not None and q.w in _HALF_SO:
        return Mark("w", m.s, m.e, m.w)  # "forty three is half dead", "half asleep"
    said = _parted(r, i, p, last) or (p is not None and p.w in ("was", "is") and last == "cols" and not _thing_of_it(q))
    goes = r.at(r.on(r.on(i)))  # "had eleven | stinkies go in tonight"
    subject = goes is not None and goes.label == "verb" and goes.w.split()[0] in ("go", "goes", "went", "come", "came")
    said = said or (last == "cols" and p is not None and p.w in ("had", "got") and subject and not _thing_of_it(q))
    said = said or (last == "cols" and p is not None and p.w == "to" and _came_before(r, i))
    said = said or (last == "cols" and (_each_had(r, i, p, q) or _then_a_pause(r, i, p) or _none_there(r, i, p, q)))
    said = said or (last == "value" and p is not None and p.w == "was" and _then_a_pause(r, i, p))
    said = said or (last == "cols" and p is not None and _then_on_all(r, i, p))
    if not r.checking or (_counts_things(q, r.at(r.on(r.on(i)))) and not said) or _of_each(r, i, q) or _some_with(m, q):
        return m
    if (
        p
        and number.value == 1
        and m.w == "one"
        and (p.label == "ordinal" or p.w.split()[-1:] == ["the"] or p.w in _BEFORE_ONE)
    ):
        return Mark("w", m.s, m.e, "one")
    if p and p.w in _SAMPLE_WORDS and (pp := r.at(r.back(r.back(i)))) and pp.label == "ordinal":
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")  # "first one fourteen, second jar six"
    if p and p.label == "ordinal" and (last == "value" or sentence_has(r, i, "method", "sample")):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")  # "the first gave six mites and the second four"
    from_it = p is not None and p.w.split()[-1] == "from"
    if from_it and number.value < _FEWEST_BEES and (last == "value" or came_down(r, i)):
        return Mark("w", m.s, m.e, m.w)  # "down to two from eleven", "went from eleven to two": what it was before
    if p and p.w == "to" and _from_before(r, i):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if p and p.w in ("/", "in", "of", "per", "from", "out", "over") and number.whole and number.value >= 50:
        of_mites = (pp := r.at(r.back(r.back(i)))) is not None and pp.v.get("noun") == "mites"  # "mites in 300"
        if last in ("value", "cols") or p.w == "per" or of_mites:
            return Mark("sample", m.s, m.e, m.w, {"bees": int(number.value)}, "sample size")
    if _of_colony_after(r, i, p, q):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count of a colony")
    if _said_to_count(r, p, q, last) or (last == "value" and _next_count(r, i, p, q)):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if p and p.w in ("the", "that") and number.value == 0:
        return Mark("w", m.s, m.e, m.w)  # "I don't believe the zero"
    if p and p.label in ("filler", "approx", "verb", "w", "mites", "value") and number.value == 0:
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    return Mark("number", m.s, m.e, m.w, dict(m.v), m.rule)


def so_many_were(r: Row, i: int) -> bool:
    """ "washed six of them, five were zero": whether the number says of how many of those hives something is told."""
    q, p = r.at(i + 1), r.at(i - 1)
    if not r.checking or q is None or p is None or q.w != "were" or p.label in ("number", "colony") or p.w in JOIN:
        return False
    many = next((m for m in reversed(r.row[max(0, i - REACH) : i]) if m.label == "hives" and "n" in m.v), None)
    return many is not None and bool(1 < r.row[i].v["n"].value <= many.v["n"].value)


def _at_yard(r: Row, i: int) -> bool:
    """Whether a yard follows, "at" or "over at" between."""
    k = i + 1
    while k < i + 4 and (m := r.at(k)) is not None and m.w in ("at", "over", "in", "the"):
        k += 1
    return k > i + 1 and (m := r.at(k)) is not None and m.label == "yard"


def _came_before(r: Row, i: int) -> bool:
    """ "came to five | queen in 55": whether a count comes to the number."""
    verb = r.at(r.back(r.back(i)))
    return verb is not None and verb.w.split()[0] in ("came", "comes", "worked", "works", "added")


def _why_somebody(r: Row, i: int) -> bool:
    """Whether "because i had" stands right before the number."""
    near = [m.w for m in r.row[max(0, i - 3) : i - 1]]
    return near[-1:] in (["i"], ["we"]) and near[0] in ("because", "cause", "since")


def _parted(r: Row, i: int, p: Mark | None, last: str) -> bool:
    """ "forty nine came out at three um | strips out of sixty one": a count, by the pause no number of what follows."""
    if p is None or last not in ("cols", "value") or i + 1 >= len(r.row) or r.row[i + 1].label != "filler":
        return False
    came = p.label == "verb" and p.w.split()[0] in ("came", "come", "comes")
    return came or p.w in r.before_value or p.w in ("or", "at", "out")


_OVER = frozenset(": - – — ) =".split())
_HALF_SO = frozenset("dead asleep drowned done empty full gone starved frozen awake open size sized".split())
_COUNTED_QUEENS = frozenset(["grafted", "caught", "banked"])


def _samples_told_apart(r: Row, i: int, q: Mark | None) -> bool:
    """Whether the number says how many checks there were, and the first and the second are told of near behind."""
    if q is None or q.label != "method" or not q.w.endswith("s") or not 1 < r.row[i].v["n"].value < _FEW_SAMPLES:
        return False
    told = [m for m in r.row[i + 1 : i + _NEAR_BEHIND] if m.label == "ordinal"]
    return len(told) > 1


_FEW_SAMPLES = 6
_NEAR_BEHIND = 14


def _other_named(r: Row, i: int) -> bool:
    """Whether "the other" stands near behind "in one"."""
    p = r.at(r.back(i))
    ahead = {w for m in r.row[i + 1 : i + 7] for w in m.w.split()}
    return p is not None and p.w in ("in", "on", "off", "from") and "other" in ahead


CAME_DOWN = frozenset("went dropped down came gone fell goes drop jumped climbed rose grew up".split())


def came_down(r: Row, i: int) -> bool:
    """Whether "went from" or the like stands right before, and "to" follows."""
    p, verb = r.at(r.back(i)), r.at(r.back(r.back(i)))
    went = p is not None and p.w.split()[0] in CAME_DOWN
    went = went or (verb is not None and verb.w.split()[-1] in CAME_DOWN)
    return went and any(m.w in ("to", "through") for m in r.row[i + 1 : i + 4])


def _from_before(r: Row, i: int) -> bool:
    """Whether "went from" and a number stand before "to"."""
    words = [m.w for m in r.row[max(0, i - 5) : i]]
    return "from" in words and not CAME_DOWN.isdisjoint(w for x in words for w in x.split())


_FEWEST = 50
"""Fewer bees than this are no sample."""
_FEWEST_BEES = 50
SAMPLES = frozenset([100, 150, 200, 250, 300, 400, 500, 600])


def _of_a_sample(r: Row, i: int) -> bool:
    """Whether "per" or "in" and the bees of a sample follow, a number that no colony has."""
    k = r.on(i)
    if (out := r.at(k)) is not None and out.w == "out":
        k = r.on(k)
    per, bees = r.at(k), r.at(r.on(k))
    if per is None or bees is None or per.w not in ("per", "in", "of", "from", "/"):
        return False
    sized = bees.label == "number" and bees.v["n"].value in SAMPLES and id_of(bees) not in r.outfit.ids
    return sized or (bees.label == "sample" and (bees.v.get("bees") or bees.v["n"].value) >= _FEWEST)  # no "8/10 bees"


def _dealt_on(r: Row, i: int) -> bool:
    """Whether a thing of the trade was put in a colony right before, so many, and a colony follows again."""
    far = r.at(r.on(r.on(i)))
    given = [m for m in r.row[max(0, i - 6) : i] if m.label in ("form", "item", "stop", "line", "method", "mites")]
    thing = bool(given) and given[-1].label in ("form", "item")
    return thing and far is not None and far.label in ("number", "colony", "hive", "hives")


_MORE = frozenset("more extra new fresh empty full spare other".split())


def _counts_things(q: Mark | None, then: Mark | None = None) -> bool:
    """Whether the number counts what stands after it: things, queens, frames."""
    if q is None:
        return False
    if q.w in _MORE and then is not None:
        q = then  # "two more supers"
    things = ("item", "agent", "form", "feed", "queen_noun", "each")
    return q.label in things or (q.label == "w" and q.w in ("frame", "box"))


def _after_fact(r: Row, i: int) -> bool:
    """Whether of the counts before the number a fact's ("six frames of bees") stands nearest, and no check's."""
    for m in reversed(r.row[max(0, i - 8) : i]):
        if m.label in ("method", "mites", "clean", "check", "stop", "line"):
            return False
        if m.label == "fact" and "n" in m.v:
            return True
    return False


def _thing_of_it(q: Mark | None) -> bool:
    """Whether the number counts what has a name of its own ("was eight frames"): "was eight | drawn comb into 61"."""
    return q is not None and q.label not in THINGS


def _of_each(r: Row, i: int, q: Mark | None) -> bool:
    """ "splits, three and seven, one off each": so many are taken of each."""
    z = r.at(r.on(r.on(i)))
    return q is not None and q.w in ("off", "from", "out") and z is not None and z.label == "each"


def _each_had(r: Row, i: int, p: Mark | None, q: Mark | None) -> bool:
    """ "43 and 44 had three each": of mites, where no thing was spoken of that they could have got."""
    if p is None or q is None or q.label != "each" or q.w not in ("each", "apiece"):
        return False
    counted = p.w in ("had", "were", "was", "showed", "gave", "came to") or p.label in ("number", "colony")
    things = ("item", "form", "agent", "feed", "amount", "queen_noun", "queen_work", "unit")
    return counted and not sentence_has(r, i, *things)


def _none_there(r: Row, i: int, p: Mark | None, q: Mark | None) -> bool:
    """ "l six had one l nine none | formic pad goes in l two", "nine zero | oxalic goes in …": of mites, where they are
    counted; "none" counts nothing that stands after it, nor does "zero" what goes in.
    """
    if r.row[i].v["n"].value or p is None or not (p.label in ("number", "colony") or p.w in _BEFORE_NONE):
        return False
    if r.row[i].w != "none":
        k = r.on(i)
        while (m := r.at(k)) and m.label in THINGS:
            k = r.on(k)
        if q is None or q.label not in THINGS or m is None or m.label != "verb" or m.w.split()[0] not in _GOES:
            return False
    for m in reversed(r.row[max(0, i - _NEAR_BEHIND) : i]):
        if m.label in ("method", "mites", "clean", "check") or m.w in ("counts", "count"):
            return True
        if m.label in THINGS or m.label in ("each", "amount", "unit", "stop", "line"):
            return False
    return False


_BEFORE_NONE = frozenset("had has was got is".split())
_GOES = frozenset("go goes went going come comes came".split())
_TOLD_COUNT = frozenset("had was to".split())
"""Words before a count of mites ("had", "came to") that stand before nothing given."""


def _then_a_pause(r: Row, i: int, p: Mark | None) -> bool:
    """ "78 had zero okay oxalic dribble at wens": what was counted, a pause, and then something else."""
    paused = i + 1 < len(r.row) and r.row[i + 1].label == "filler"
    return (
        paused
        and p is not None
        and (p.w in _TOLD_COUNT or p.label in ("number", "colony") or (p.w == "got" and r.row[i].v["n"].value == 0))
    )


def _then_on_all(r: Row, i: int, p: Mark) -> bool:
    """ "wash nine three fourteen seven | strips in both": the count of the colony right before it, in a run of counts,
    and then what went on all that were told of."""
    if not r.checking:
        return False
    if p.w in ("had", "has") and sentence_has(r, i, "method", "mites", "sample"):
        return _given_elsewhere(r, r.on(i))
    if p.label not in ("number", "colony", "cols"):
        return False
    thing, form = r.at(r.on(i)), r.at(r.on(r.on(i)))
    counted = thing is not None and "form" in thing.v  # "no wash on eight | two greenies came out"
    if (
        thing is not None
        and thing.label == "agent"
        and not counted
        and not (form is not None and form.label in ("form", "unit"))
    ):
        return True  # "l nine thirteen | thymol in l nine": nobody counts thymol
    if thing is not None and thing.label == "feed" and thing.v.get("feed") in _UNCOUNTED:
        return True  # "l nine five | dry sugar on l one"
    return reaches_all(r, r.on(i))


def _given_elsewhere(r: Row, k: int) -> bool:
    """ "washes L9 had nine | escapes on L11": whether the thing at `k` is put on, or off, a colony named behind it."""
    if (thing := r.at(k)) is None or thing.label not in THINGS:
        return False
    while (m := r.at(k)) is not None and m.label in THINGS:
        k += 1
    if m is None or m.w not in PREPS:
        return False
    while (m := r.at(k)) is not None and m.label == "w" and m.w in PREPS:
        k += 1
    return m is not None and (m.label == "colony" or (m.label == "number" and r.outfit.could_be(id_of(m))))


_UNCOUNTED = frozenset(["dry_sugar", "syrup", "pollen_sub"])


def _some_with(m: Mark, q: Mark | None) -> bool:
    """ "six had a couple with deformed wings": bees, not mites."""
    return m.w.startswith("a couple") and q is not None and q.w in ("with", "that")


def _of_colony_after(r: Row, i: int, p: Mark | None, q: Mark | None) -> bool:
    """ "six on L4", said of checks."""
    if q is None or q.w not in ("on", "in") or (p and p.label == "verb"):
        return False
    z = r.at(r.on(r.on(i)))
    named = z is not None and z.label in ("colony", "hive", "number")
    return named and sentence_has(r, i, "method", "mites", "clean", "check")


def _said_to_count(r: Row, p: Mark | None, q: Mark | None, last: str) -> bool:
    """Whether a colony or a word that counts follow stands before the number, or a sign of a count after it."""
    if last == "cols" or (q and q.w in ("/", "or")):
        return True
    if p is None:
        return False
    return (
        p.w in ("me", ":", "=")
        or (p.label == "yard" and last == "cols")
        or (p.w == "it's" and last == "value" and (q is None or q.label in _THEN or q.w == "now"))
        or (p.label == "cue" and p.v.get("cue") == "report")
        or p.w in r.before_value
        or p.label in ("cols", "method")
        or (p.w in ("or", "to", "-", "maybe") and last == "value")
    )


_THEN = frozenset("date stop line comma".split())


def _next_count(r: Row, i: int, p: Mark | None, q: Mark | None) -> bool:
    """Whether the number, after "then", "and" or a comma, goes on with counts: it ends there or another is joined."""
    if p is None or not (p.w in ("then", "and") or p.label == "comma"):
        return False
    if q is None or q.label in ("stop", "line", "comma", "filler", "ordinal"):
        return True
    if q.w in ("then", "in", "and", "or", "so", "which", "but", "also", "while"):
        return True
    z = r.at(r.on(r.on(i))) if q.w == "the" else None
    return z is not None and z.label == "ordinal"
