"""Runs of numbers without commas, and lists of colonies with as many counts after a colon."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.orders import in_that_order
from fieldnotes.reader.grouping.row import (
    BULLETS,
    OF_ONE,
    PREPS,
    RANGE,
    Row,
    can_be_colonies,
    colonies_of,
    each_after,
    id_of,
    number_in,
    sentence_has,
    whole,
)
from fieldnotes.reader.mark import FOUND_IN_ALL, MOST_GIVEN, REACH, THINGS, Mark
from fieldnotes.reader.numbers import Number

_AFTER_RUN_OF_CHECKED = frozenset("each agent item feed form fact change queen_work method amount rest".split())
_CARRIES = listed("carrying")
_TOLD_BEFORE = frozenset("fact mites value clean percent queen_work".split())
_AFTER_SPOKEN_RUN = _AFTER_RUN_OF_CHECKED | {"verb"}


def paired_run(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "70 71 72: 1 1 6": a run of numbers before a colon and as many after it are colonies."""
    if i < r.no_pairs_until or r.row[i].label not in ("number", "colony"):
        return None
    run: list[Mark] = []
    j = i
    while len(run) < REACH and (m := r.at(j)) and (m.label == "colony" or (m.label == "number" and whole(m))):
        run.append(m)
        j += 1
        if (c := r.at(j)) and c.label == "comma":
            j += 1
    if len(run) < 2:
        return None
    ordered = in_that_order(r, i)
    if ordered is not None and (half := _half_in_order(r, i, run, ordered)):
        return half
    at = _past_sample(r, j)  # "70 71 72 (half cup) 1 1 6"
    colon = (m := r.at(at)) is not None and m.w in (":", "=")
    if at > j and not colon:
        colon, at = True, at - 1
    if ordered is None and len(run) < REACH and not colon:
        r.no_pairs_until = max(i, j - 1)
    if not colon or ((b := r.at(r.back(i))) and b.w in (":", "=")):
        return None
    if not can_be_colonies(r, run) or not _as_many_counts(r, at + 1, len(run)):
        return None
    return colonies_of(run, bare=run[0].label == "number"), j


_ALIKE = frozenset(["all", "also"])


def run_of_all(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "forty one forty two forty three all washed zero": numbers one after the other, of which all is said alike.
    Where they are not neighbours, colony and count may take turns: only an odd number of them are colonies for sure.
    """
    run: list[Mark] = []
    j = i
    while (m := r.at(j)) and m.label == "number" and whole(m) and (not run or number_in(m) > number_in(run[-1])):
        run.append(m)
        j += 1
        if (c := r.at(j)) and (c.label == "comma" or c.w == "and"):
            j += 1
    said = r.at(j)
    if len(run) < 3 or said is None or not can_be_colonies(r, run):
        return None
    alike = said.w in _ALIKE or said.w.startswith("all ")
    if alike and number_in(run[-1]) - number_in(run[0]) == len(run) - 1:
        return colonies_of(run, bare=True), j
    before = r.at(r.back(i))
    opens = before is None or before.label in _OPENS_RUN or before.w in ("and", "so", "then", "but")
    told = (alike or said.w in _SAID_OF_MANY) and len(run) % 2 and opens and _one_yard(r, run)
    return (colonies_of(run, bare=True), j) if told else None


_OPENS_RUN = frozenset("stop line filler date fact sky temp yard sample method clean".split())
_SAID_OF_MANY = frozenset(["are", "were", "have"])
_SAID_OF_SEVERAL = frozenset("are were have all each got look looked seem seemed both need get".split())
_TELLS_OF = frozenset(["are", "were", "is", "far", ":"])


def run_told_before(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "dead are 44 52 and 60", "queenless so far three nine and fourteen", "heavy is two four and nine light is five":
    which colonies what stands before is of.
    """
    p, k = r.at(i - 1), i - 2
    if p is None or p.w not in _TELLS_OF:
        return None
    if p.w == "far":
        k -= 1
    while k > i - 7 and (m := r.at(k)) is not None and (m.label == "yard" or m.w in ("at", "in", "the", "ones", "so")):
        k -= 1
    told = r.at(k)
    if told is None or not (told.label == "fact" or told.v.get("step") == "died"):
        return None
    before = r.at(k - 1)
    if (before is not None and before.label in ("colony", "cols", "hive", "queen_noun")) or sentence_has_counts(r, i):
        return None
    run: list[Mark] = []
    j = i
    while (m := r.at(j)) and m.label == "number" and whole(m) and (not run or number_in(m) > number_in(run[-1])):
        run.append(m)
        j += 1
        if (c := r.at(j)) and (c.label == "comma" or c.w == "and") and (n := r.at(j + 1)) and n.label == "number":
            j += 1
    after = r.at(j)
    one = p.w == "is" and len(run) == 1 and not FOUND_IN_ALL.isdisjoint(told.v.get("set", {}))
    then = r.at(j + 1)
    if after is not None and after.label in ("fact", "change") and then is not None and then.w in ("is", "are"):
        after = None  # "heavy is two four and nine | light is five and seven"
    if (len(run) < 2 and not one) or not (
        after is None or after.label in ("stop", "line", "comma", "filler", "verb", "cue")
    ):
        if after is None or after.w not in ("i", "so", "and", "we", "i'm", "then"):
            return None
    if not can_be_colonies(r, run):
        return None
    named = colonies_of(run, bare=True)
    named.v["told"] = True
    return named, j


_BEFORE_NAMES = frozenset(
    "over there here now at the in to up down out that's thats they're those were was are and of".split()
)
_COUNTED_HIVES = frozenset(["died", "sold", "moved", "swarmed", "split", "requeened", "introduced", "released"])


def as_many_as_said(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "lost three over there um forty four fifty and sixty three", "sold two hives to a fellow, 46 and 47", "four of
    them got a gallon each 2 3 8 and 15": as many colonies are named as were counted.
    """
    if r.checking or r.row[i].label not in ("number", "colony"):
        return None
    if i > 2 and r.row[i - 1].w == "in" and r.row[i - 2].label == "hives" and sentence_has(r, i, "queen_work"):
        return None  # "banked two of them in q b | and s three queen not seen"
    k = i - 1
    while k > i - _FAR and (m := r.at(k)) is not None and (_between_names(m) or m.label in _DONE_TO_HIVES):
        k -= 1
    counted = r.at(k)
    if counted is not None and counted.label != "hives" and any(m.label in _DONE_TO_HIVES for m in r.row[k + 1 : i]):
        return None
    if counted is None or "n" not in counted.v or counted.label not in ("change", "hives", "number", "noun"):
        return None
    run, j = _named_in_a_run(r, i, counted.v["n"])
    one = len(run) == 1 and counted.label == "change" and not counted.v["n"].digits
    if not (one or len(run) > 1) or counted.v["n"].value != len(run):
        return None
    if counted.label != "hives" and not _hives_told_of(r, k, i):
        return None
    after = r.at(j)
    if len(run) > 1 and after is not None and (after.w.split()[0] in _ONE_IS or after.w in ("couldn't", "didn't")):
        return None  # "made two splits off 77 and | 78 is weak"
    named = colonies_of(run, bare=run[0].label == "number")
    named.v["as_said"] = True
    return named, j


_ONE_IS = OF_ONE | {"'s"}


def then_named(r: Row, i: int) -> bool:
    """ "three dead at the quarry two four and eighteen": so many hives, and then as many of them named."""
    number = r.row[i].v["n"]
    if r.checking or not 1 < number.value <= _MOST_NAMED:
        return False
    k = i + 1
    while k < i + _FAR and (m := r.at(k)) is not None and (_between_names(m) or m.label == "fact"):
        k += 1
    if m is not None and m.w == "(" and r.at(i + 1) is not None:
        run, end = _named_in_a_run(r, k + 1)  # "2 queenless (L21, L24)"
        closing = r.at(end)
        return bool(len(run) == number.value and closing is not None and closing.w == ")")
    if number.digits or any(x.label == "fact" for x in r.row[i:k]):
        return False
    if k == i + 1 or (m := r.at(k)) is None or m.label not in ("number", "colony") or not _hives_told_of(r, i, k):
        return False
    return bool(len(_named_in_a_run(r, k, number)[0]) == number.value)


def _between_names(m: Mark) -> bool:
    """Whether the mark may stand between a number of hives and their names: a place, a day, what became of them."""
    return m.label in _PLACE or m.w in _BEFORE_NAMES or (m.label in ("change", "queen_work") and "n" not in m.v)


def _hives_told_of(r: Row, k: int, i: int) -> bool:
    """Whether what is counted at `k`, and named at `i`, are hives of which something is told."""
    steps = [m.v["step"] for m in r.row[max(0, k - 3) : i] if m.label in ("change", "queen_work")]
    return not _COUNTED_HIVES.isdisjoint(steps)


def _named_in_a_run(r: Row, i: int, counted: Number | None = None) -> tuple[list[Mark], int]:
    """The colonies named one after the other from `i`, and the index after the last; none where there are none. What
    is counted anew after as many as were `counted` is not one of them.
    """
    run: list[Mark] = []
    j = end = i
    while (m := r.at(j)) and (m.label in ("number", "colony", "comma") or m.w in ("and", "+")) and j < i + REACH:
        if m.label in ("number", "colony"):
            after = r.at(j + 1)
            anew = after is not None and (after.w in _AT_A_PLACE or after.label == "yard")
            if counted is not None and len(run) == counted.value and anew:
                break  # "lost two at heath, four and eleven, and | one at larks"
            run.append(m)
            end = j + 1
        j += 1
    if not run or not all(x.label == "colony" or whole(x) for x in run) or not can_be_colonies(r, run):
        return [], i
    after = r.at(j)
    return ([], i) if end == j and after is not None and after.label in _COUNTED_ON else (run, end)


_DONE_TO_HIVES = frozenset("fact amount each feed item form agent verb".split())
"""What may stand between hives that are counted and their names."""
_AT_A_PLACE = frozenset("at in from out off".split())
_MOST_NAMED = 12
_FAR = 8
_PLACE = frozenset(["filler", "comma", "yard", "date", "person"])
_COUNTED_ON = frozenset("item agent form feed unit amount queen_noun noun each hives days".split())


def sentence_has_counts(r: Row, i: int) -> bool:
    """Whether mites are counted in the sentence, so that the numbers may be counts."""
    return r.checking and sentence_has(r, i, "method", "mites", "percent")


def _past_sample(r: Row, j: int) -> int:
    """The index after the sample size, with its brackets or commas, that stands at `j`; `j` where none does."""
    k = j
    sized = False
    while (m := r.at(k)) and (m.label in ("sample", "comma", "each") or m.w in ("(", ")", "-", "–")):
        sized = sized or m.label == "sample"
        k += 1
    return k if sized else j


def _half_in_order(r: Row, i: int, run: list[Mark], numbers: int) -> tuple[Mark, int] | None:
    """The first half of the `numbers` that stand before "in that order": colonies, the others being their counts."""
    half = numbers // 2
    if numbers % 2 or half < 2 or len(run) < half or not can_be_colonies(r, run[:half]):
        return None
    end, seen = i, 0
    while seen < half:
        seen += r.row[end].label in ("number", "colony")
        end += 1
    return colonies_of(run[:half], bare=True), end


def _as_many_counts(r: Row, k: int, wanted: int) -> bool:
    """Whether just as many counts as `wanted` stand from `k` on, before something else than a colon."""
    count = 0
    while count <= wanted and (m := r.at(k)) and m.label in ("number", "comma", "mites", "clean", "w"):
        none = m.w in ("none", "zero")
        if m.label == "w" and m.w != "and" and not none:
            break
        count += none or m.label in ("number", "mites", "clean")
        k += 1
    return count == wanted and not ((m := r.at(k)) and m.w in (":", "="))


_BEFORE_OTHERS = frozenset("too now yet either also while again though".split())


def _told_of_others(r: Row, i: int, j: int) -> bool:
    """ "put a box on 41 | 50 and 54 are light": what was put on one, and how the two after it are."""
    verb, seen = r.at(j), r.at(j + 1)
    if verb is None or seen is None or verb.w not in ("are", "were", "have") or seen.label != "fact":
        return False
    return sentence_has(r, i, "verb") and sentence_has(r, i, *THINGS)


def _paused(r: Row, i: int, before: Mark) -> bool:
    """ "that's all i had anyway | 40 41 and 43 have eggs": after a pause, and no word before it that takes them."""
    return r.row[i - 1].label == "filler" and before.label == "w" and before.w not in PREPS


def _falls_from(r: Row, before: Mark, first: Mark) -> bool:
    """ "sacbrood in fifty six | forty five 47 and 52 were light": a lower number after a hive is none of its list."""
    hive = before.label == "number" and whole(before) and r.last_ids[-1:] == [id_of(before)]
    return hive and number_in(before) > number_in(first)


def bare_run(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "71 73 76 hop strips 2 each": numbers that rise, at the start of a statement, before what was done to them."""
    m = r.at(i)
    if not m or m.label != "number" or not whole(m):
        return None
    p = r.at(r.back(i))
    after_thing = p is not None and p.label in THINGS
    carried = p is not None and p.label == "verb" and p.w.split()[-1] in _CARRIES
    told = p is not None and (
        p.label in _TOLD_BEFORE or p.w in _BEFORE_OTHERS or _falls_from(r, p, m) or _paused(r, i, p)
    )
    if p is not None and p.w in ("off", "out") and (said := r.at(r.back(r.back(i)))) is not None:
        told = told or said.w in ("is", "'s", "are")  # "fifty one's excluder is off | 45 47 and 52 were all weak"
    if not after_thing and not carried and not told and not _run_may_begin(r, i, p):
        return None
    run, j = _rising_from(r, i)
    if len(run) > 2 and r.row[j - 2].w == "and" and p is not None and p.w in PREPS and _told_of_others(r, i, j):
        return None
    if (told or after_thing) and len(run) > 2 and r.row[j - 2].w == "and":
        verb = r.at(j)
        if verb is not None and verb.w in _SAID_OF_SEVERAL and run[0].v["n"].value > MOST_GIVEN and _one_yard(r, run):
            return colonies_of(run, bare=True), j  # "59 has hive beetles | 41 42 and 50 are light"
    if told:
        return None
    spoken = not m.v["n"].digits
    if len(run) < 2 or (spoken and len(run) < 3):
        return None
    q = r.at(r.on(j - 1))
    if q is not None and q.w == "the" and (rest := r.at(r.on(r.on(j - 1)))) and rest.label == "rest":
        q = rest  # "gel out of 4 5 9 | the rest comes out friday"
    if q is not None and q.label == "number" and (each := each_after(r, r.on(j - 1))):
        q = each
    if q is not None and q.w == "at" and (place := r.at(j + 1)) is not None and place.label == "yard":
        q = r.at(r.on(j + 1))  # "four five and nine at the pond got sugar"
        of_yard = {id_of(x) for x in run} <= r.outfit.yard_ids.get(place.v["value"], frozenset())
        if spoken and of_yard and not r.checking:
            return colonies_of(run, bare=True), j  # "one two and four at the pond | two is hot"
        if r.checking and of_yard and len(run) > 2 and _told_one_by_one(r, r.on(j + 1), run[0]):
            return colonies_of(run, bare=True), j
    if r.checking and len(run) > 2 and _told_one_by_one(r, j, run[0]):
        return colonies_of(run, bare=True), j
    if spoken and q is not None and q.w in ("i'd", "i", "we", "they"):
        return (colonies_of(run, bare=True), j) if _one_yard(r, run) else None
    if after_thing and not (q and q.label in ("each", "amount")):
        high = len(run) > 2 and not spoken and run[0].v["n"].value > 9 and _one_yard(r, run)
        if not high or (q is not None and q.label not in ("comma", "stop", "line")):
            return None  # "supers | 2 3 and 5 one each"
    ones = p is not None and p.label == "thing"  # "light ones | two five and nine"
    if carried and _one_yard(r, run) and (to := r.at(j)) and to.w == "to":
        return colonies_of(run, bare=True), j  # "take | 41 42 43 to heath"
    if len(run) > 2 and _one_yard(r, run) and _are_given(r, j):
        return colonies_of(run, bare=True), j  # "41 was 8 per 300 so | 42 43 44 get strips"
    if (spoken and not ones and not _spoken_together(r, run, q)) or _counted(r, p, q):
        return None
    return colonies_of(run, bare=True), j


def typed_list(r: Row, i: int) -> tuple[Mark, int] | None:
    """ "Quarry: 3, 4, 6 fondant 1 kg each": numbers that rise, parted by commas, at the start of what is said, before
    the thing that was given to them. Such a list counts nothing, least of all its last number.
    """
    p, first = r.at(r.back(i)), r.row[i]
    if first.label != "number" or not first.v["n"].digits or not _list_may_begin(p):
        return None
    run: list[Mark] = []
    ids: list[str] = []
    j, commas = i, 0
    while (m := r.at(j)) and m.label == "number" and m.v["n"].digits and _higher(r, j, run[-1:]):
        run.append(m)
        far = r.at(j + 2)
        if (sign := r.at(j + 1)) and sign.w in RANGE and far and far.label == "number" and _higher(r, j + 2, [m]):
            ids += [str(n) for n in range(int(m.v["n"].value), int(far.v["n"].value))]
            run.append(far)
            m, j = far, j + 2
        ids.append(id_of(m))
        j += 1
        joined = False
        while (c := r.at(j)) and (c.label == "comma" or c.w == "and" or (c.w == "/" and m.v["n"].value > 12)):
            commas += c.label == "comma" or c.w == "/"
            joined = True
            j += 1
        if not joined:
            break
    q = r.at(j)
    given = q is not None and (q.label in THINGS or q.label in ("amount", "ratio"))
    slashed = q is not None and any(x.w == "/" for x in r.row[i:j]) and q.label in ("fact", "change")
    if not commas or len(run) < 2 or q is None or not (given or slashed) or not _one_yard(r, run):
        return None
    z = r.at(j + 1)
    told = z is not None and (z.label in ("each", "amount", "number", "unit") or (z.label == "comma" and r.at(j + 2)))
    if len(run) == 2 and run[1].v["n"].value < 10 and not told:
        return None  # "3, 4 supers": so many, or so
    return Mark("cols", run[0].s, run[-1].e, " ".join(x.w for x in run), {"ids": ids, "bare": True}, "colonies"), j


def _list_may_begin(p: Mark | None) -> bool:
    """Whether a list of colonies may begin after the mark: at the start of a line or sentence, after a yard."""
    return p is None or p.label in ("line", "stop", "yard") or p.w in (":", "-", "–", "*", "•")


def _told_one_by_one(r: Row, k: int, first: Mark) -> bool:
    """ "washed 105 106 107: 105 13 mites, 106 none …": after a colon or comma the first of them is named again."""
    sign = r.at(k)
    again = r.at(r.on(k))
    parted = sign is not None and (sign.w in (":", "-", "–") or sign.label in ("comma", "stop", "line"))
    return parted and again is not None and again.label == "number" and id_of(again) == id_of(first)


def _run_may_begin(r: Row, i: int, p: Mark | None) -> bool:
    """Whether a statement or what a preposition governs begins at the number, and it is no column of a table."""
    if p is None or p.label == "line":
        following = r.at(i + 1)
        return following is None or following.s - r.row[i].e <= 1
    return (
        p.label in ("stop", "comma", "yard", "method", "change", "each", "date")
        or p.w in BULLETS
        or (p.label == "thing" and p.w.endswith("ones"))
        or p.w in ("worst", "best", "weakest", "strongest", "heaviest", "lightest")
        or p.w in ("on", "in", "into", "from", "of", "and", ":", "so", "then", "but", "that's", "thats")
        or (p.w == "are" and sentence_has(r, i, "change"))
    )


def _rising_from(r: Row, i: int) -> tuple[list[Mark], int]:
    """The rising numbers from `i` on that can be colonies, one after "and" with them, and the index after them."""
    run: list[Mark] = []
    j = i
    while (m := _higher(r, j, run)) is not None:
        run.append(m)
        j += 1
    if len(run) > 1 and (c := r.at(j)) and c.w == "and" and (m := _higher(r, j + 1, run)) is not None:
        run.append(m)  # "2 4 and 5 strong"
        j += 2
    return run, j


def _higher(r: Row, j: int, run: list[Mark]) -> Mark | None:
    """The number at `j` where it can be a colony and is higher than the last of the run."""
    m = r.at(j)
    if m is None or m.label != "number" or not whole(m) or not r.outfit.could_be(id_of(m)):
        return None
    return m if not run or m.v["n"].value > run[-1].v["n"].value else None


def _one_yard(r: Row, run: list[Mark]) -> bool:
    """Whether all of them stand in one and the same yard."""
    return r.outfit.of_one_yard(id_of(x) for x in run)


def _spoken_together(r: Row, run: list[Mark], q: Mark | None) -> bool:
    """Whether spoken numbers are of one yard, and work or something seen, or a verb of several, follows them."""
    said_of_them = q is not None and (q.label in _AFTER_SPOKEN_RUN or q.w in _SAID_OF_SEVERAL)
    return said_of_them and _one_yard(r, run)


_GET = frozenset("get gets got need needs".split())


def _are_given(r: Row, j: int) -> bool:
    """Whether from `j` on the colonies before it get or need a thing of the trade."""
    verb = r.at(j)
    if verb is None or verb.w not in _GET:
        return False
    k = j + 1
    while (m := r.at(k)) and (m.label in ("number", "approx", "filler") or m.w in ("a", "an", "the", "their", "some")):
        k += 1
    thing = r.at(k)
    return thing is not None and thing.label in THINGS


def _counted(r: Row, p: Mark | None, q: Mark | None) -> bool:
    """Whether what stands around the run shows that it counts something."""
    checks = q is not None and q.label == "method" and q.w.endswith("s")  # "46 48 50 53 alcohol washes, all clean"
    if not checks and p is not None and p.w == ":":
        worked = q is not None and q.label == "verb" and q.v.get("tense") == "past"  # "Wens: 70 71 73 fed 1 gal ea"
        if r.checking or not (worked or q is None or q.label in ("line", "stop", "comma")):
            return True
    if r.checking and not (q and q.label in _AFTER_RUN_OF_CHECKED):
        return True
    return q is not None and q.label in ("number", "days", "hives", "unit", "mites")
