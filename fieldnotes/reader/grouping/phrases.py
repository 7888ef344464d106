"""Colony or count by a turn of phrase: cues, ranges, things counted, rows of a list. Asked in the order given."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import (
    BULLETS,
    GLUE,
    JOIN,
    NP,
    PREPS,
    RANGE,
    Row,
    each_after,
    each_does,
    id_of,
    next_is_higher_colony,
    range_here,
    rises_to_colony,
    sentence_has,
    starts_line,
    whole,
)
from fieldnotes.reader.grouping.spot import Question, Spot
from fieldnotes.reader.grouping.surroundings import alone_or_listed, each_after_range, placed_later, sample_next
from fieldnotes.reader.mark import MOST_GIVEN, THINGS, WAYS, Mark
from fieldnotes.reader.marking.colours import is_colour
from fieldnotes.roster import id_parts

_OF_ONE_HIVE = listed("one_hive")
_GOVERNS = listed("passed_over") | {"to", "do", "on", "for", "with", "at", "reach"}
_DEAD = listed("losses")
_CHECKS_IN_NUMBERS = tuple(listed("checks_in_numbers"))
_JOINS = listed("putting_to_another") | listed("tipping_in")
_ENDS = frozenset(["stop", "line", "comma"])
_BECAME = frozenset("on off in out yes no done".split())
_LOSSES_OF_YARDS = GLUE | {"number", "yard", "comma"}
_IN_LOSSES = frozenset("and : at in the so far over winter this last since".split())
_IN_ROW = frozenset(["number", "colony", "comma", "filler", "date"])
_BETWEEN_IN_ROW = RANGE | JOIN | _BECAME | {":"}


def _one_of_a_kind(at: Spot) -> bool | None:
    """ "the old one", "every one"."""
    p = at.p
    kinds = ("old", "new", "that", "this", "the", "last", "next", "other", "big", "bad", "each", "every")
    return False if at.number.value == 1 and p and p.label == "w" and p.w in kinds else None


def _those_ones(at: Spot) -> bool | None:
    """ "the bad ones were three nine and fifteen", "those that had six were nine": colonies, no counts."""
    if at.p is None or at.p.w not in ("were", "are") or not at.r.outfit.could_be(id_of(at.m)):
        return None
    near = at.r.row[max(0, at.i - 8) : at.i]
    return True if any(m.label == "thing" and m.w.endswith("ones") for m in near) else None


def _counts_go_on(at: Spot) -> bool | None:
    """ "seventy has four frames of brood, seventy one three, seventy two five": the next colony, and how many."""
    q, r = at.q, at.r
    if r.checking or q is None or q.label != "number" or q.v["n"].value > _MOST_FRAMES or not r.last_ids:
        return None
    letter, digits = id_parts(r.last_ids[-1])
    if not digits:
        return None
    last = int(digits)
    said = next((m for m in reversed(r.row[max(0, at.i - 8) : at.i]) if m.label == "fact" and "n" in m.v), None)
    if said is None and not 0 <= at.i - r.going_on <= _NEXT_COUNT:
        return None
    own = f"{letter}{id_of(at.m)}"
    rises = at.number.value > last and r.outfit.of_one_yard((own, r.last_ids[-1]))
    if not rises or own not in r.outfit.ids or at.number.value - last > 6:
        return None
    after = r.at(r.on(r.on(at.i)))
    if after is not None and after.label in ("item", "agent", "form", "feed", "fact", "unit", "amount"):
        return None
    r.going_on = at.i
    return True


_MOST_FRAMES = 20
_NEXT_COUNT = 6
"""Marks from one colony with its number to the next."""


def _owners(at: Spot) -> bool | None:
    """ "put fifty three and fifty four's supers back on": the hives whose things they are."""
    if at.after is None or at.after is at.q or at.after.w != "'s":
        return None
    thing = at.r.at(at.after_index + 1)
    return True if thing is not None and thing.label in ("item", "form", "agent", "queen_noun") else None


def _light_ones(at: Spot) -> bool | None:
    """ "six light ones at the pond", "two weak ones": so many, and no colony."""
    q, z = at.q, at.z
    ones = q is not None and z is not None and q.label == "fact" and z.label == "thing" and z.w.endswith("ones")
    return False if ones else None


def _parts_of_all(at: Spot) -> bool | None:
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


def _checks_done(at: Spot) -> bool | None:
    """ "did 12 washes"."""
    p, q = at.p, at.q
    did = p and p.label == "verb" and p.v.get("does") == "do"
    return False if did and q and q.label in ("method", "check") else None


def _after_cue(at: Spot) -> bool | None:
    """ "didn't get to 12", "skipped 12", "if 12 is queenless"."""
    p, q = at.p, at.q
    if p and p.w == "and" and at.pp and at.pp.label == "hives":
        if any(m.v.get("cue") == "except" for m in at.r.row[max(0, at.i - 4) : at.i]):
            return True  # "every hive except the nucs and | fifteen"
    if not p or p.label != "cue":
        return None
    cue = p.v.get("cue")
    if cue in ("not", "plan") and p.w.split()[-1] in _GOVERNS:
        return not (q and (q.label in NP or q.label == "days"))
    if p.w == "not" and at.last == "cols":
        return True
    said_of_it = q and q.label in ("w", "verb", "fact", "change", "method", "cue") and q.w not in ("of", "to", "or")
    return True if cue == "if" and said_of_it else None


def _list_before_thing(at: Spot) -> bool | None:
    """ "12, 14 and 15 supers": a list at the start of a statement, before a thing."""
    p, after = at.p, at.after
    opens = p is None or p.label in ("stop", "line") or (p.w == ":" and range_here(at.r, at.i))
    if opens and after is not at.q and after is not None and after.label in THINGS and at.number.value > 4:
        return True
    return None


def _range_opens(at: Spot) -> bool | None:
    """ "the cells go in this Friday | forty through forty five"."""
    p, q = at.p, at.q
    upward = q is not None and q.w in ("on", "and") and at.z is not None and at.z.w in ("up", "upward", "upwards")
    closed = p is not None and p.label in ("date", "each", "comma", "filler", "cols")
    if upward and (closed or (p is not None and p.label == "number" and at.last == "cols")) and not at.r.checking:
        return True if id_of(at.m) in at.r.outfit.ids else None  # "got theirs today | fifty three on up tomorrow"
    if q is None or q.w not in RANGE or not rises_to_colony(at.r, at.i):
        return None
    changed = p is not None and p.label == "change"
    if p is not None and p.w == "and" and at.pp is not None and at.pp.label == "date" and not at.r.checking:
        return True  # "out of forty one today and | fifty to fifty five tomorrow"
    opens = (
        p is None
        or (changed and p.v.get("step") in ("sold", "bought", "moved", "split"))
        or p.label in ("date", "stop", "line", "comma", "yard", "each", "filler", "queen_work", "item", "days")
    )
    if p is not None and p.label == "form" and p.v.get("treats") and p.w.endswith("ed"):
        return True  # "she vaporized | 50 to 56 with oxalic"
    return True if opens and (not at.r.checking or changed) else None


def _colony_before_thing(at: Spot) -> bool | None:
    """ "Quarry 45 super on", "seventy four super on as well", a row "45 vadescana in"."""
    p, q, number = at.p, at.q, at.number
    if not q:
        return None
    if p and p.label == "yard" and number.value > 4 and number.digits:
        if q.label in THINGS and not (q.label == "item" and q.w.endswith("s")):
            return True
    if q.label == "item" and not q.w.split()[0].endswith("s") and number.value > 9:
        if at.starts and not (p and p.label == "verb"):
            return True
    if p and p.label == "line" and number.digits and number.value > 10:
        if q.label in ("agent", "item", "feed") and not placed_later(at.r, at.i):
            return True
    return None


def _so_many_came_off(at: Spot) -> bool | None:
    """ "46 two supers off | 47 one super off": the colony before how many things came off or went on."""
    p, q, z = at.p, at.q, at.z
    if q is None or q.label != "number" or z is None or z.label not in THINGS or q.v["n"].value > _FEW:
        return None
    if p is not None and (p.label == "verb" or p.w in ("of", "with", "about")):
        return None
    ways = at.r.row[at.i + 3 : at.i + 4]
    if not ways or ways[0].w not in WAYS or not whole(at.m) or id_of(at.m) not in at.r.outfit.ids:
        return None
    return True


def _ends_before_thing(at: Spot, q: Mark) -> bool:
    """Whether the number ends what is told before it, and the thing `q` after it begins what is told next."""
    placed = at.p is not None and at.p.w in PREPS
    if placed and q.label == "hives" and q.w.endswith(("of them", "of em")):
        return True  # "strips in forty nine, two of them"
    if id_of(at.m) not in at.r.outfit.ids:
        return False
    after = at.z.w if at.z is not None else ""
    if after in ("are", "is", "'s"):
        return True  # "caught the queen in 55 | pads are out of 40"
    own_way = q.label in ("item", "form", "feed") and after in WAYS
    return placed and (q.label == "agent" or own_way)  # "a red queen in 52 | tau-fluvalinate strips in 61"


def _number_of_things(at: Spot) -> bool | None:
    """ "2 each", "4 supers"; but "gave 12 a super"."""
    p, q = at.p, at.q
    if not q or q.label not in ("each", "item", "agent", "form", "feed", "queen_noun", "hives"):
        return None
    if q.label == "form" and q.v.get("treats") and q.w.endswith("ed"):
        return None  # "12 vaporized"
    if q.label not in ("each", "hives") and q.w.split()[0] in ("a", "an", "another"):
        return None  # "gave the bees in seventy one | a pollen patty"
    if each_does(at.r, at.i) and at.r.outfit.could_be(id_of(at.m)):
        return None  # "47 and 48 each need a super"
    if at.number.value > MOST_GIVEN and _ends_before_thing(at, q):
        return None
    if at.i + 1 < len(at.r.row) and at.r.row[at.i + 1].label == "filler":
        return None  # "pinched the queen in forty six, um, the new one is in there"
    given = (
        p
        and at.number.value > 4
        and ((p.label == "verb" and p.v.get("does") == "feed") or p.w in ("gave", "give", "gets", "hit", "giving"))
    )
    return None if given else False


def _so_many_for_each(at: Spot) -> bool | None:
    """ "pads in at sawdust two for each hive", "larkfield 2 for all of them": so many, and no colony."""
    q, z = at.q, at.z
    if q is None or q.w not in ("for", "to") or z is None or z.label not in ("each", "every"):
        return None
    return False if sentence_has(at.r, at.i, *THINGS) else None


def _more_of_the_count(at: Spot) -> bool | None:
    """ "12 had only 3"."""
    p = at.p
    counted = at.last == "cols" and at.r.checking and p and p.label == "w"
    more = ("also", "too", "only", "just", "still", "again", "another")
    return False if counted and p and p.w in more else None


_BESIDE = frozenset("beside behind opposite alongside".split())
_SIDES = frozenset("her him it them that".split())


def _beside_her(at: Spot) -> bool | None:
    """ "and 45 beside her is weak", "the odd thing is 61 was flying already": a colony, by what is said of it."""
    p, q, z = at.p, at.q, at.z
    if q is None or at.r.checking or at.number.value < 3 or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if q.w in _BESIDE and z is not None and z.w in _SIDES:
        return True
    return True if p is not None and p.w == "is" and q.w in _OF_ONE_HIVE and at.last != "cols" else None


def _each_of_them(at: Spot) -> bool | None:
    """ "47 and 48 each need a super"."""
    if at.after is None or at.after.label != "each" or at.after is at.q or not at.r.outfit.could_be(id_of(at.m)):
        return None
    return True if each_does(at.r, at.r.back(at.after_index)) else None


def _those_are(at: Spot) -> bool | None:
    """ "swarm cells in three hives, that's 4, 7 and 9": the colonies meant are named."""
    p, end = at.p, at.after
    if p is None or p.w not in _NAMED_BY or at.r.checking or end is at.q or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if p.w == "are" and (at.pp is None or at.pp.w not in ("those", "these", "they")):
        return None
    ends = end is None or end.label in ("stop", "line") or end.w in RANGE
    return True if ends else None


_NAMED_BY = frozenset("that's thats they're theyre those're are".split())


def _with_one(at: Spot) -> bool | None:
    """ "in the dark with one headlight": one of something, and no colony."""
    p, q = at.p, at.q
    if p is None or p.w != "with" or at.number.value != 1 or at.number.digits or q is None or q.label != "w":
        return None
    if q.w == "of":
        return False  # "requeened it with one of the banked ones"
    return False if len(q.w) > 3 and q.w.isalpha() and at.pp is not None and at.pp.label == "w" else None


_IS_IT = frozenset("has had is was needs wants i we he she".split())


def _alone_after_pronoun(at: Spot) -> bool | None:
    """ "that's 12", "it's 12 now", "it's 12 that's dead"."""
    p, q, pp = at.p, at.q, at.pp
    named = p and (p.w in ("that's", "it's", "its") or (p.w == "is" and pp and pp.w == "that"))
    if named and q and q.w in ("that's", "that", "which"):
        z = at.z
        return True if z and (z.label in ("fact", "change", "verb") or z.w in _IS_IT) else None
    if p and p.w == "be" and pp and pp.label == "cue" and q and q.w in ("there", "now"):
        named = True  # "moved 50 to the pond, it'll be twenty five there"
    return True if named and (q is None or q.w in ("now", "there") or q.label in ("stop", "line")) else None


def _came_in_at(at: Spot) -> bool | None:
    """ "came up 12"."""
    p, pp = at.p, at.pp
    came = p and p.w in ("up", "in", "out") and pp and pp.w.split()[0] in ("came", "comes")
    return False if came else None


def _threshold(at: Spot) -> bool | None:
    """ "if the next one isn't under 30", "counts all under 1"."""
    if not (at.p and at.p.w in ("under", "over", "above", "below", "past")):
        return None
    if at.pp is not None and (at.pp.w in _TOLD_OF_ALL or at.pp.label == "every") and at.number.value <= 9:
        return False
    near = at.r.row[max(0, at.i - 12) : at.i]
    return False if any(x.label == "cue" and x.v.get("cue") == "if" for x in near) else None


_TOLD_OF_ALL = frozenset("all both counts was were is are came come still well way".split())


def _named_after_change(at: Spot) -> bool | None:
    """ "split it as 12", "it is 12 now"."""
    p, q, pp = at.p, at.q, at.pp
    if p and p.w == "as" and sentence_has(at.r, at.i, "change"):
        return True
    if p and p.w == "called" and (q is None or q.w in ("now", "there") or q.label in _ENDS):
        return True  # "took 63 over to Millpond, it's called 24 now"
    return True if p and p.w == "is" and pp and pp.w == "it" and q and q.w == "now" else None


def _treated_at_line_start(at: Spot) -> bool | None:
    """ "12 vaporized"."""
    q = at.q
    treated = q and q.label == "form" and q.v.get("treats") and q.w.endswith("ed")
    treated = treated or (q and q.w in ("received", "receives") and at.z is not None and at.z.w in ("a", "an", "one"))
    if treated and q and q.label == "verb" and at.r.outfit.could_be(id_of(at.m)):
        return True  # "…, and 45 received a frame of brood"
    return True if treated and starts_line(at.r, at.i) else None


def _done_to(at: Spot) -> bool | None:
    """ "9 n 10 fed 1 gal", "12 and 14 treated with formic": colonies at the start, and what was done to them."""
    p, after = at.p, at.after
    opens = p is None or p.label in ("stop", "line")
    if not opens or after is None or after.label != "verb" or after.v.get("does") not in ("feed", "treat"):
        return None
    if after.v.get("tense") != "past" or not at.number.digits:
        return None
    return True if at.r.outfit.could_be(id_of(at.m)) else None


def _reported_count(at: Spot) -> bool | None:
    """ "gave me 12"; in a run of checks also after a word of reporting ("board says 12")."""
    p, pp, q = at.p, at.pp, at.q
    if p and p.v.get("cue") == "report" and q is not None and q.w in _OF_ONE_HIVE and at.r.outfit.could_be(id_of(at.m)):
        return None  # "she tells me 44 had four"
    if p and p.w == "me" and pp and pp.w.split()[0] in ("gave", "got"):
        return False
    return False if p and p.label == "cue" and p.v.get("cue") == "report" and at.r.checking else None


def _planned_with_date(at: Spot) -> bool | None:
    """ "gotta wash fifty nine in ten days and | sixty two in a month"."""
    if not (at.p and at.p.w == "and" and at.q and at.q.label == "date"):
        return None
    near = at.r.row[max(0, at.i - 12) : at.i]
    return True if any(x.label == "cue" and x.v.get("cue") == "plan" for x in near) else None


def _before_sample(at: Spot) -> bool | None:
    """ "17, half cup, 1 mite" after a count."""
    q = at.q
    turn = at.r.checking and at.last == "value" and q and q.label == "comma"
    return True if turn and sample_next(at.r, at.i) else None


def _count_on_colony(at: Spot) -> bool | None:
    """ "fifty mites on L30 and | ninety on L29"."""
    p, q = at.p, at.q
    if not at.r.checking or not p or not q:
        return None
    if q.w in ("on", "in", "for") and at.last != "cols" and at.number.value < 400:
        z = at.z
        if z and z.label in ("colony", "hive", "number") and p.label != "hive":
            if not (p.label == "w" and p.w in PREPS):
                return False
    return False if at.last == "cols" and p.w in ("and", "um", "then") and q.w == "on" else None


def _row_of_yard_or_date(at: Spot) -> bool | None:
    """A row "Quarry: 2", "Cut Bank: 50 to 54", "26 March: 75 and 76 from …"."""
    p, pp = at.p, at.pp
    if not (p and p.w == ":" and pp and pp.label in ("yard", "date") and not at.r.checking):
        return None
    if not alone_or_listed(at.r, at.i):
        return None
    here = pp.label == "date" or id_of(at.m) in at.r.outfit.yard_ids.get(pp.v["value"], ())
    return True if here else None


def _unwrapped(at: Spot) -> bool | None:
    """ "unwrapped 5"."""
    p, q = at.p, at.q
    worked = p and p.label == "item" and p.w.endswith("ed")
    dated = q is not None and (q.label == "date" or (q.w == "on" and at.z is not None and at.z.label == "date"))
    if worked and dated and at.number.value > 30 and id_of(at.m) in at.r.outfit.ids:
        return True  # "wrapped seventy on friday": more than any yard has
    if worked and at.after is not q and (at.after is None or at.after.label not in NP | {"each", "hives"}):
        return True  # "supered eleven and twelve at the quarry": a list, and nothing that it counts
    return True if worked and (q is None or q.label in _ENDS) else None


def _row_with_count_of_frames(at: Spot) -> bool | None:
    """ "9, 8 FOB"."""
    if not (at.opens_line and at.number.digits and at.q and at.q.label == "comma"):
        return None
    z = at.z
    return True if z and z.label == "fact" and "n" in z.v else None


def _should(at: Spot) -> bool | None:
    """ "should 9 go queenless"."""
    p, q = at.p, at.q
    asked = p and p.label == "cue" and p.w == "should" and at.pp is None
    return True if asked and q and q.label in ("verb", "w", "fact", "change") else None


def _digits_in_row(at: Spot) -> bool | None:
    """ "at pond: 1-12 2 ea", "70) queen right"."""
    if not at.number.digits:
        return None
    if range_here(at.r, at.i) and each_after_range(at.r, at.i):
        return True
    return True if at.q and at.q.w == ")" and starts_line(at.r, at.i) else None


def _row_of_fact(at: Spot) -> bool | None:
    """ "heavy: 1, 2, 7, 8", "dead: 11 (mice)"."""
    p, pp, r = at.p, at.pp, at.r
    if not (p and p.w == ":" and pp and pp.label in ("fact", "change") and not r.checking):
        return None
    return alone_or_listed(r, at.i) if starts_line(r, r.back(r.back(at.i))) else None


def _other_half(at: Spot) -> bool | None:
    """ "split it, the other half is 79", "new halves are 55 and 56"."""
    half = at.pp if at.p and at.p.w in ("is", "are") else at.p if at.after is not at.q else None
    named = half is not None and half.w.split()[-1] in _HALVES
    return True if named and sentence_has(at.r, at.i, "change") else None


_HALVES = listed("halves")


def _found_in(at: Spot) -> bool | None:
    """ "light: 41 44; heavy: 42": what was found, and the one colony it was found in."""
    pp, q = at.pp, at.q
    if at.p is None or at.p.w != ":" or pp is None or pp.label != "fact" or "n" in pp.v or "number" in pp.v:
        return None
    before = at.r.at(at.r.back(at.r.back(at.r.back(at.i))))
    opens = before is None or before.label in ("stop", "line", "comma", "yard")
    ends = q is None or q.label in ("stop", "line") or (q.label == "comma" and at.after is None)
    told = bool({"queen", "temper", "strength", "stores"} & set(pp.v.get("set", {}))) or "sign" in pp.v
    return True if opens and ends and told and at.number.digits and at.r.outfit.could_be(id_of(at.m)) else None


def _range_after_thing(at: Spot) -> bool | None:
    """ "pulled strips 45-52 cut bank"."""
    p, after = at.p, at.after
    if p and p.w == ":":
        p = at.pp  # "pollen sub: 41-44 1 lb each"
    if not (p and p.label in THINGS and at.number.digits):
        return None
    if not range_here(at.r, at.i) and not (
        at.q and at.q.w == "to" and at.number.value > 1 and rises_to_colony(at.r, at.i)
    ):
        return None
    ends = after is None or after.label in ("line", "stop", "yard", "comma", "date", "w", "amount", "ratio")
    return True if ends else None


def _spoken_range(at: Spot) -> bool | None:
    """ "I got one through twelve wrapped"."""
    q, r = at.q, at.r
    if not (q and q.w == "through" and range_here(r, at.i)):
        return None
    far = r.on(r.on(at.i))
    if not r.outfit.could_be(id_of(r.row[far])):
        return None
    beyond = r.at(r.on(far))
    return True if beyond is None or beyond.label not in ("days", "percent", "degrees", "amount") else None


def _number_of_checks(at: Spot) -> bool | None:
    """ "five alcohol washes"."""
    p, q = at.p, at.q
    checks = q and q.label == "method" and q.w.endswith(_CHECKS_IN_NUMBERS) and not q.v.get("verb")
    return False if checks and (p is None or p.label in GLUE or p.label in ("line", "stop", "filler")) else None


def _checks_were(at: Spot) -> bool | None:
    """ "sugar rolls at cut bank were | forty six twelve mites"."""
    p, q = at.p, at.q
    pair = q and q.w == "with" and at.z and at.z.label in ("mites", "number", "value") and p and p.w in ("were", "are")
    if at.r.checking and pair and at.r.outfit.could_be(id_of(at.m)):
        return True  # "the rolls were sixty two with five mites and sixty three with one"
    turn = at.r.checking and q and q.label == "mites" and at.last != "cols"
    return True if turn and p and p.w in ("was", "were", "are", "is") else None


def _said_again(at: Spot) -> bool | None:
    """ "twenty one was um twenty one was seven"."""
    again = at.p and at.p.label == "filler" and at.last == "cols"
    return True if again and at.r.last_ids == [id_of(at.m)] else None


def _introduced(at: Spot) -> bool | None:
    """What bought, split or little ones are called."""
    p, q, pp, r, i = at.p, at.q, at.pp, at.r, at.i
    if not p:
        return None
    if p.w in ("they're", "theyre") and sentence_has(r, i, "change"):
        return True  # "moved … they're seventy and seventy two now"
    if p.w == "that's" and q and q.label == "number" and whole(q) and next_is_higher_colony(r, i, q):
        return True  # "the little ones, that's forty forty one and forty seven"
    if p.label == "thing" and p.w.endswith("ones") and q and q.w == "and":
        return True  # "the two little ones forty eight and forty nine"
    if p.w in ("are", "is") and sentence_has(r, i, "change"):
        after = at.after
        if (after is not None and after.w in ("at", "now", "there")) or (pp is not None and pp.w == "they"):
            return True  # "the two hives I bought are sixteen and seventeen at the quarry now"
    return None


def _split_into(at: Spot) -> bool | None:
    """ "split 45 into 58 and 46 into 59"."""
    p, q = at.p, at.q
    if q is not None and q.w == "into" and (p is None or p.label in ("stop", "line")):
        near = at.r.row[at.i + 2 : at.i + 9]
        papered = any(m.w in ("newspaper", "paper") or m.v.get("step") == "combined" for m in near)
        return True if papered and at.r.outfit.could_be(id_of(at.m)) else None  # "47 into 48, newspaper"
    if not (p and q and q.w in ("into", "with")):
        return None
    goes_on = p.w in ("and", "then", ":") or p.label in ("comma", "change", "line", "date", "yard", "filler")
    pair = p.label in ("number", "colony") and at.pp is not None and at.pp.w in ("into", "with")
    goes_on = goes_on or (pair and at.last == "cols" and not at.r.checking)  # "40 into 41 | 53 into 54"
    return True if goes_on and sentence_has(at.r, at.i, "change") else None


def _split_off(at: Spot) -> bool | None:
    """ "split two off forty four": so many new ones."""
    p, q = at.p, at.q
    off = p is not None and p.v.get("step") == "split" and q is not None and q.w in ("off", "out", "from")
    return False if off and at.number.value <= _FEW else None


def _put_to(at: Spot) -> bool | None:
    """ "put fifty on top of fifty one", "stuck 71 in with 72": the one that is joined to another."""
    p, r = at.p, at.r
    if p is not None and p.w == "with" and at.pp is not None and at.pp.w in ("in", "back") and at.last == "cols":
        return True if not r.checking and r.outfit.could_be(id_of(at.m)) else None  # "put fifty in with | fifty one"
    if p is None or p.w.split()[-1] not in _JOINS or at.after is None:
        return None
    k = at.after_index
    way = [m.w for m in r.row[k : k + 4]]
    if way[:1] == ["back"]:
        way = way[1:]
    onto = way[:2] == ["in", "with"] or way[:3] == ["on", "top", "of"] or way[:3] == ["in", "front", "of"]
    onto = onto or (way[:1] == ["with"] and r.row[k].w == "back")
    paper = way[:1] in (["on"], ["onto"], ["over"]) and any(m.w in ("newspaper", "paper") for m in r.row[k : k + 8])
    return True if (onto or paper) and r.outfit.could_be(id_of(at.m)) else None


def _cell_of_table(at: Spot) -> bool | None:
    """A row "6    escape on"."""
    q = at.q
    gap = at.opens_line and at.number.digits and q and q.s - at.m.e > 1
    return True if gap and q and q.label not in ("stop", "days") else None


def _row_of_work(at: Spot) -> bool | None:
    """ "3 April – 1, 2 and 3 fed"."""
    p, after = at.p, at.after
    row = p and (p.w in BULLETS or p.w == ":") and at.number.digits
    if row and after is not at.q and after and after.label == "verb":
        return bool(after.v.get("tense") == "past")
    return None


def _row_of_direction(at: Spot) -> bool | None:
    """ "supers: 41-45 on, 46 off", "pads 41-50 out and 51-60 in": after a thing, colonies and what became of it."""
    listed = at.after is not at.q or range_here(at.r, at.i)
    if at.after is None or at.after.w not in _BECAME or not (listed or at.number.value > 9):
        return None
    k = at.i - 1
    while k > 0 and (at.r.row[k].label in _IN_ROW or at.r.row[k].w in _BETWEEN_IN_ROW):
        k -= 1
    if k < 0 or at.r.row[k].label not in THINGS or not at.number.digits:
        return None
    then = at.r.at(at.after_index + 1)
    return True if then is None or then.label in ("stop", "line", "comma", "date", "yard", "w") else None


def _all_over(at: Spot) -> bool | None:
    """ "wasps all over seventy seven"."""
    p, pp = at.p, at.pp
    return True if p and p.w == "over" and pp and (pp.label == "fact" or pp.w == "all") else None


def _told_in_brackets(at: Spot) -> bool | None:
    """ "lost 52 (wasps) | 60 (no queen)": what stands in brackets after the number is said of that colony."""
    p, q, z = at.p, at.q, at.z
    opens = p is None or p.label in ("comma", "stop", "line", "change", "fact") or p.w in (")", "and", ":")
    told = q is not None and q.w == "(" and z is not None and z.label in ("fact", "change")
    return True if opens and told and id_of(at.m) in at.r.outfit.ids else None


def _in_brackets(at: Spot) -> bool | None:
    """ "1 dead (14)"."""
    p, q, pp = at.p, at.q, at.pp
    bracketed = p and p.w == "(" and q and q.w == ")" and at.last != "cols"
    return True if bracketed and pp and pp.label == "change" else None


def _row_of_amount(at: Spot) -> bool | None:
    """ "fondant on: 7, 8, 10 a kilo each"."""
    p, q, after = at.p, at.q, at.after
    if p is None or q is None or after is None:
        return None
    if p.w == ":" and q.label == "comma" and after.label in ("amount", "unit"):
        return True
    if at.number.digits and id_of(at.m) in at.r.outfit.ids and (p.w == ":" or p.label == "comma"):
        k = at.i
        while (m := at.r.at(k)) and m.label == "number" and whole(m):
            k += 1
        given = m is not None and m.label == "amount" and "n" in m.v
        return True if given and _fed_in_rows(at) else None  # "feed: 41 42 2 gal, | 43 1 gal"
    return None


def _fed_in_rows(at: Spot) -> bool:
    """Whether feeding heads the row, with a colon after it."""
    k = at.i - 1
    while k > 0 and at.r.row[k].w != ":" and at.r.row[k].label not in ("stop", "line"):
        k -= 1
    head = at.r.at(k - 1)
    fed = head is not None and (head.label == "feed" or head.v.get("does") == "feed")
    return at.r.row[max(k, 0)].w == ":" and fed


def _measured(at: Spot) -> bool | None:
    """ "nine got half a gallon and | eleven a quart": no number counts what has a number already."""
    p, after = at.p, at.after
    given = after and after.label == "amount" and (after.w.startswith(("a ", "an ", "half ")) or "n" in after.v)
    pp = at.pp
    if given and p and p.label == "comma" and pp and pp.label in ("amount", "ratio", "feed", "each"):
        if after is at.q and id_of(at.m) in at.r.outfit.ids and sentence_has(at.r, at.i, "verb", "feed"):
            return True  # "fed 73 2 gal, 72 1 gal"
    return True if given and p and (p.w in ("and", "then") or p.label in ("each", "amount", "ratio")) else None


def _row_with_count_of_things(at: Spot) -> bool | None:
    """ "supers on 70 71, 2 each. 75 1 super.": a line of its own, the colony and how many things it got."""
    p, q, z = at.p, at.q, at.z
    opens = p is None or p.label in ("stop", "line")
    if not opens or q is None or z is None or not at.number.digits or q.label != "number":
        return None
    few = q.v["n"].digits and q.v["n"].value <= _FEW and at.r.outfit.could_be(id_of(at.m))
    return True if few and z.label in THINGS and not at.r.checking else None


def _to_be_done(at: Spot) -> bool | None:
    """ "9 to be requeened next week": the hive that opens the line."""
    q, z = at.q, at.z
    opens = at.p is None or at.p.label in ("stop", "line") or at.p.w in ("-", "*", "•")
    waits = q is not None and q.w == "to" and z is not None and z.w == "be" and at.r.outfit.could_be(id_of(at.m))
    return True if opens and waits and at.number.digits else None


def _only_these(at: Spot) -> bool | None:
    """ "light: 43 and 49 | empty just fifty eight"."""
    p, q, pp = at.p, at.q, at.pp
    named = p and p.w in ("just", "only") and pp and pp.label == "fact" and "n" not in pp.v
    return True if named and (q is None or q.label not in NP or at.number.value > 9) else None


def _one_that_was_split(at: Spot) -> bool | None:
    """ "split eleven at the quarry, the new half is in eighteen", "… and the queen stayed in eleven": one hive, of
    whose half or of which itself more is told.
    """
    p, q, r = at.p, at.q, at.r
    if p is None or p.v.get("step") != "split" or p.w.endswith("s") or q is None or q.w not in ("at", "over"):
        return None
    yard = next((m for m in r.row[at.i + 1 : at.i + 5] if m.label == "yard"), None)
    if yard is None or not at.number.whole or id_of(at.m) not in r.outfit.ids_at(yard.v["value"]):
        return None
    for m in r.row[at.i + 1 : at.i + 20]:
        if m.label in ("stop", "line"):
            break
        if m.w.split()[-1] in ("half", "into") or ("n" in m.v and m.v["n"].value == at.number.value):
            return True
    return None


def _so_many_lost(at: Spot) -> bool | None:
    """ "deadouts four at larks | two at the quarry": few hives, a yard after each number."""
    p, q, r = at.p, at.q, at.r
    if q and (q.label == "yard" or q.w in ("at", "in")) and _losses_counted(at):
        return False
    if p and p.label == "change" and p.w.split()[-1] in ("of", "from", "off"):
        return None  # "made two splits out of nine at the quarry"
    if not (p and q and q.w == "at" and at.number.value <= 12 and not at.number.digits):
        return None
    k = r.on(r.on(at.i))
    if (the := r.at(k)) and the.w == "the":
        k = r.on(k)
    yard = r.at(k)
    opens = p.label in ("yard", "change", "filler", "comma") or p.w in ("and", "then", "got", "had")
    return False if opens and yard and yard.label == "yard" and sentence_has(r, at.i, "change") else None


def _losses_counted(at: Spot) -> bool:
    """ "lost 4 larkfield, | 2 quarry", "lost over winter: | 4 larkfield, 2 quarry": so many hives, yard after yard."""
    k = at.i - 1
    while k > 0 and (at.r.row[k].label in _LOSSES_OF_YARDS or at.r.row[k].w in _IN_LOSSES):
        k -= 1
    lost = k >= 0 and at.r.row[k].label == "change" and at.r.row[k].v.get("step") == "died"
    yards = sum(m.label == "yard" for m in at.r.row[k : at.i + 4])
    return lost and k < at.i - 1 and (yards > 1 or at.r.row[at.i - 1].w == ":")


def _so_many_each(at: Spot) -> bool | None:
    """ "supers four one each", "then nine and ten two each": what stands before "two each" got them."""
    p, r, after = at.p, at.r, at.after
    if not (after and after.label == "number" and p and (p.w == "then" or p.label == "each" or p.label in THINGS)):
        return None
    # after a list, the number is the next but one past the last of its joins
    return True if each_after(r, at.after_index) else None


def _dealt_out(at: Spot) -> bool | None:
    """ "7, 8 and 10 a kilo each, 11 two kilos, 12 3": after what each got, a colony with a number of its own."""
    p, q, z, r = at.p, at.q, at.z, at.r
    if not (p and q and (p.label == "comma" or p.w == "and")) or r.checking:
        return None
    if q.label == "comma" and z and z.label == "number" and p.w == "and":
        q, z = z, r.at(r.on(r.on(r.on(at.i))))  # "2 each, and 75, 1"
    few = q.label == "number" and (q.v["n"].value < _FEW or q.w == "none")
    if not (few or q.label == "amount") or not (
        z is None or z.label in _ENDS | {"each", "number"} or z.w in ("and", "at")
    ):
        return None
    known = bool(r.last_ids) and id_of(at.m) in r.outfit.ids
    beside = known and r.outfit.of_one_yard((id_of(at.m), r.last_ids[-1]))
    return True if beside and sentence_has(r, at.i, "each") else None


_FEW = 12
"""About the most things that are given to one hive, or counted by hand."""


def _checked_next(at: Spot) -> bool | None:
    """ "then soap wash, seventy seven had four", "recheck seventy five for mites": the colony of a new check."""
    p, q, z = at.p, at.q, at.z
    if not (p and q and z) or at.number.value < 2 or not at.r.outfit.could_be(id_of(at.m)):
        return None
    had = (
        p.label == "method" and q.w in ("had", "has", "got", "was") and z.label in ("mites", "number", "clean", "value")
    )
    again = p.label == "check" and q.w == "for" and z.label in ("noun", "mites")
    return True if had or again else None


def _queen_of(at: Spot) -> bool | None:
    """ "marked the seventy seven queen white", "77 new q laying": the queen of that colony, and no number of queens."""
    p, q, z = at.p, at.q, at.r.at(at.i + 2)
    if q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    of_it = p and p.w.split()[-1] == "the" and q.label == "queen_noun" and q.w.split()[0] in ("queen", "q")
    if of_it and at.number.value > 4:
        return True
    words = q.w.split() if q.label != "w" or z is None else [q.w, *z.w.split()]
    new = words[0] in ("new", "old") and words[1:2] in (["queen"], ["q"])
    return True if new and at.starts and at.number.value > 1 else None


def _carried_over(at: Spot) -> bool | None:
    """ "took 63 over to Millpond", "41, 42 and 43 go to Heath": colonies of the roster, carried to a yard."""
    p, r, after = at.p, at.r, at.after
    if after is None or after.w == "more" or id_of(at.m) not in r.outfit.ids:
        return None
    k = at.after_index
    carried = p is not None and p.label in ("verb", "w") and p.w.split()[-1] in _CARRIES
    if after.label == "verb" and after.w.split()[-1] in _CARRIES and at.starts:
        carried, k = True, k + 1
    listed = after is not at.q or at.number.value > 9
    if after.w == "to" and listed and (p is None or p.label in ("line", "stop")):
        carried = True  # "41 and 42 to heath friday"
    if not carried:
        return None
    near = r.row[k : k + 5]
    to = next((k for k, m in enumerate(near) if m.label == "yard"), 0)
    ways = [m.w for m in near[:to] if m.label == "w"]
    return True if to and not _WAYS.isdisjoint(ways) and len(ways) == to else None


_WAYS = frozenset(["to", "from", "off"])


def _moved_too(at: Spot) -> bool | None:
    """ "moved fifty to the pond and | fifty one to the quarry": another colony, and the yard it is moved to."""
    p, r = at.p, at.r
    if at.after is None or at.after.w != "to" or p is None or not (p.label in ("comma", "yard") or p.w in _AND):
        return None
    yard = r.at(_past_the(r, r.on(at.after_index)))
    moved = any(m.v.get("step") == "moved" for m in r.row[max(0, at.i - 12) : at.i])
    return True if moved and yard is not None and yard.label == "yard" and id_of(at.m) in r.outfit.ids else None


_AND = frozenset(["and", "then", "plus"])


_CARRIES = listed("carrying")


def _marked_so(at: Spot) -> bool | None:
    """ "queens marked: 12 yellow, 14 white"."""
    q = at.q
    coloured = q and q.label == "w" and is_colour(q.w) and at.r.outfit.could_be(id_of(at.m))
    return True if coloured and sentence_has(at.r, at.i, "queen_work") else None


def _row_of_words(at: Spot) -> bool | None:
    """ "52 hopeless, laying workers"."""
    q, r = at.q, at.r
    if not (at.opens_line and at.number.digits and at.number.value > 10 and q and q.label == "w" and q.w.isalpha()):
        return None
    second = r.on(r.on(at.i))
    z, y = r.at(second), r.at(r.on(second))
    return True if z and z.label == "comma" and y and y.label == "fact" else None


def _now_called(at: Spot) -> bool | None:
    """ "swarm caught at Wen's, now 79"."""
    p, q = at.p, at.q
    now = p and p.w == "now" and (q is None or q.w == "there")
    if p and p.w == "now" and sentence_has(at.r, at.i, "change") and (range_here(at.r, at.i) or at.after is not q):
        now = at.after is None or at.after.label in _ENDS or at.after.w in RANGE  # "moved 50 and 51, now 16 and 17"
    return True if now and sentence_has(at.r, at.i, "change") else None


def _dead_in_yard(at: Spot) -> bool | None:
    """ "Millpond: 3 dead" is a number of hives, "Aunt Wen's: 71 dead" one that a yard of ten can only have as an id."""
    q, before = at.q, at.r.row[max(0, at.i - 2) : at.i]  # a comma between is passed over elsewhere
    if (
        len(before) == 2
        and before[1].w in (":", ",")
        and (pp := before[0]).label == "yard"
        and q
        and q.label == "change"
        and q.w in _DEAD
    ):
        return bool(at.number.value > len(at.r.outfit.yard_ids.get(pp.v["value"], ())) > 0)
    return None


def _beside_its_yard(at: Spot) -> bool | None:
    """ "queenless 94 at Ridge", "105 home one strip fell": a high number that the yard right after it has."""
    p, q, k = at.p, at.q, at.r.on(at.i)
    opens = p is None or p.label in ("stop", "line", "comma", "fact") or p.w in _BURNED
    if not opens or q is None or not at.number.digits:
        return None
    if at.opens_line and at.after is not None and at.after is not q:  # "9 and 10 at Millpond, spotty brood"
        k = at.after_index
    elif at.number.value <= _FEW:
        return None
    while (m := at.r.at(k)) and m.w in ("at", "the", "in"):
        k = at.r.on(k)
    yard = at.r.at(k)
    if yard is None or yard.label != "yard" or (p is not None and p.label == "fact" and "n" in p.v):
        return None
    ids = at.r.outfit.yard_ids.get(yard.v["value"], frozenset())
    return True if id_of(at.m) in ids and (at.number.value > len(ids) or at.after is not q) else None


_BURNED = frozenset(["burned", "burnt"])


def _next_row(at: Spot) -> bool | None:
    """Rows "5   swarmed", "6   escape on": the number after the one of the row before."""
    q, last = at.q, at.r.last_ids
    row = at.opens_line and at.number.digits and q and q.label in THINGS
    if not row or q is None or (q.label == "item" and q.w.split()[-1].endswith("s")):
        return None
    return True if len(last) == 1 and last[0] == str(int(at.number.value) - 1) else None


def _that_was(at: Spot) -> bool | None:
    """ "um fifty seven that was maybe a hundred"."""
    q, z = at.q, at.z
    said = q and z and q.w == "that" and z.w in ("was", "had", "is", "came") and at.r.row[at.i - 1].label == "filler"
    return True if said and at.last != "cols" and at.r.outfit.could_be(id_of(at.m)) else None


def _same_again(at: Spot) -> bool | None:
    """ "the one next to it, forty four, same"."""
    q, z = at.q, at.z
    ends = z is None or z.label in ("filler", "stop", "comma", "line", "number", "colony", "hive")
    the_same = q is not None and q.w == "the" and z is not None and z.w == "same" and at.starts
    return True if (q and q.w == "same" and ends and at.number.value > 1) or the_same else None


def _then_given(at: Spot) -> bool | None:
    """ "… laying workers | forty seven an excluder and a super on"."""
    p, q, z = at.p, at.q, at.z
    after = p and p.label in ("fact", "mites", "value", "clean", "item", "each", "date", "queen_work")
    return True if after and at.number.value > 4 and q and q.w in ("a", "an") and z and z.label == "item" else None


def _call_it(at: Spot) -> bool | None:
    """ "seventy nine call it about twenty five": the colony, and its count."""
    p, q, z = at.p, at.q, at.z
    if at.r.checking and q and z and q.w in ("call", "calling") and z.w == "it":
        return True
    near = at.r.row[max(0, at.i - 4) : at.i]
    called = any(a.w in ("call", "calling") and b.w == "it" for a, b in pairwise(near))
    return False if at.r.checking and called and p and (p.w == "it" or p.label == "approx") else None


def _past_the(r: Row, k: int) -> int:
    """`k`, or the index after a "the" that stands there."""
    m = r.at(k)
    return r.on(k) if m is not None and m.w == "the" else k


def _as_much_elsewhere(at: Spot) -> bool | None:
    """ "twelve supers of honey from millpond, nine from larkfield": how much, and no colony, comes from a yard."""
    q = at.q
    if q is None or q.w not in ("from", "off") or at.p is None or at.p.label not in ("yard", "comma", "filler"):
        return None
    yard = at.r.at(_past_the(at.r, at.r.on(at.r.on(at.i))))
    return False if yard is not None and yard.label == "yard" and sentence_has(at.r, at.i, "harvest") else None


def _so_many_off(at: Spot) -> bool | None:
    """ "took supers off, two off 48, one off 50 and three from 51": how many of them, and no colony."""
    if at.q is None or at.q.w not in ("off", "from") or at.number.value > _FEW_THINGS or at.number.digits:
        return None
    named = at.z is not None and at.z.label in ("number", "colony", "hive") and not (at.p and at.p.w in PREPS)
    return False if named and sentence_has(at.r, at.i, "item") else None


_FEW_THINGS = 6


def _placed_subject(at: Spot) -> bool | None:
    """ "fifteen and sixteen at the quarry got their supers pulled": colonies, their yard, and what of them."""
    after = at.after
    if not at.starts or after is None or after is at.q or after.w not in ("at", "in"):
        return None
    k = _past_the(at.r, at.r.on(at.after_index))
    yard, verb = at.r.at(k), at.r.at(at.r.on(k))
    said = verb is not None and (verb.w in at.r.subject_verbs or verb.label in ("fact", "change") or verb.w == "got")
    return True if yard is not None and yard.label == "yard" and said and at.r.outfit.could_be(id_of(at.m)) else None


def _owns_state(at: Spot) -> bool | None:
    """ "… last night, four's dead"."""
    said = at.q is not None and at.q.w == "'s" and at.z is not None and at.z.label in ("change", "fact")
    return True if said and at.r.outfit.could_be(id_of(at.m)) else None


def _counted_at(at: Spot) -> bool | None:
    """ "pulled the boards and counted, seventy had sixty one mites"."""
    counted = at.p is not None and at.p.w == "counted" and at.q is not None and at.q.w in ("had", "has", "got", "was")
    counts = counted and at.z is not None and at.z.label in ("number", "mites", "clean")
    return True if counts and at.r.outfit.could_be(id_of(at.m)) else None


def _still_in(at: Spot) -> bool | None:
    """ "strips are out of forty, still in forty two", but "still in two weeks on"."""
    left = (
        at.p is not None
        and at.p.w == "still in"
        and not (at.q is not None and (at.q.label in NP or at.q.label == "days"))
    )
    return True if left and at.r.outfit.could_be(id_of(at.m)) else None


def _next_job(at: Spot) -> bool | None:
    """ "a super off eleven, amitraz strips out of twelve": the thing after the number belongs to the next hive."""
    p, pp, q = at.p, at.pp, at.q
    if p is None or p.w not in ("off", "on", "in", "from") or pp is None or pp.label not in THINGS or q is None:
        return None
    if q.label not in ("agent", "form", "item") or q.label == pp.label or not at.r.outfit.could_be(id_of(at.m)):
        return None
    k = at.r.on(at.i)
    while (m := at.r.at(k)) is not None and m.label in ("agent", "form", "item"):
        k = at.r.on(k)
    return True if m is not None and m.w in ("out", "off", "in", "on", "into", "onto", "from") else None


def _checked_at(at: Spot) -> bool | None:
    """ "eighteen mites on the board at seventy two", "were over the line, those are forty and fifty two"."""
    p, pp = at.p, at.pp
    if p and p.w in ("on", "under") and pp and pp.v.get("method") == "board" and at.q and at.q.label == "days":
        return True if at.r.outfit.could_be(id_of(at.m)) else None  # "board on twelve for two days"
    if p and p.w == "at" and pp and pp.label == "method" and at.last == "value":
        return True if at.r.outfit.could_be(id_of(at.m)) else None
    listed = at.q is not None and (at.q.w == "and" or (at.q.label == "number" and rises_to_colony(at.r, at.i)))
    return True if p and p.w == "are" and pp and pp.w in ("those", "these") and listed else None


def _of_plain_things(at: Spot) -> bool | None:
    """ "moved two pallets": a number of things that are none of the trade's."""
    q, p = at.q, at.p
    plural = q is not None and q.label == "w" and len(q.w) > 4 and q.w.endswith("s") and q.w not in at.r.subject_verbs
    after_work = p is not None and p.label in ("change", "verb", "queen_work")
    return False if plural and after_work and at.number.value <= _FEW and not at.number.digits else None


def _plural_subject(at: Spot) -> bool | None:
    """ "the deal is twenty two and twenty four are getting combined": two or more of which something is said."""
    p, after = at.p, at.after
    listed = at.q is not None and (at.q.w == "and" or at.q.label == "comma") and after is not at.q
    said = after is not None and (after.w in _PLURAL or after.w.split()[0] in _PLURAL)
    opens = p is None or p.label in ("filler", "comma", "stop", "line") or p.w in ("is", "that", "so", "then", "and")
    return True if listed and said and opens and at.number.value > 1 and at.r.outfit.could_be(id_of(at.m)) else None


def _after_weather(at: Spot) -> bool | None:
    """ "clear and windy | two six and fourteen are light": several that rise, and what they are or have."""
    k, last, n = at.i, 0.0, 0
    if at.p is None or at.p.label not in ("sky", "temp"):
        return None
    while (m := at.r.at(k)) is not None and (m.label == "number" or m.w == "and"):
        if m.label == "number":
            if m.v["n"].value <= last or not at.r.outfit.could_be(id_of(m)):
                return None
            last, n = m.v["n"].value, n + 1
        k += 1
    said = m is not None and (m.label == "fact" or m.w.split()[0] in _PLURAL)
    return True if said and n > 1 else None


_PLURAL = frozenset("are were have get got need both".split())


def _so_many_times(at: Spot) -> bool | None:
    """ "hive nine three times, four three and six": counts of one colony."""
    near = at.r.row[max(0, at.i - 8) : at.i]
    again = any(x.label == "ignore" and x.w.endswith(" times") for x in near)
    return False if again and at.r.checking and at.last in ("cols", "value") and not at.number.digits else None


def _somebody_did(at: Spot) -> bool | None:
    """ "um nineteen i gave some fondant too", "nine we fed": a colony first, and then what somebody did to it."""
    q, z = at.q, at.z
    opens = at.r.row[at.i - 1].label in ("filler", "comma", "stop", "line") if at.i else True
    did = q is not None and q.w in ("i", "we") and z is not None and z.label == "verb" and z.w in _GAVE
    return True if opens and did and at.r.outfit.could_be(id_of(at.m)) else None


_GAVE = listed("giving")


_BEFORE_NEXT = frozenset("and then but yet now too either".split())


def _has_none_of(at: Spot) -> bool | None:
    """ "and fifty three no chalkbrood": a sign that is not there is not there in a colony."""
    q, p = at.q, at.p
    absent = q is not None and q.label == "ignore" and q.w.startswith("no ")
    joined = p is None or p.label in ("filler", "comma", "fact", "stop", "line") or p.w in _BEFORE_NEXT
    joined = joined or (at.last == "cols" and p is not None and p.label == "number" and at.number.value > MOST_GIVEN)
    return True if absent and joined and at.r.outfit.could_be(id_of(at.m)) else None


def _looks_like(at: Spot) -> bool | None:
    """ "forty five looks like it's about to swarm"."""
    q = at.r.at(at.i + 1)
    said = q is not None and q.label == "filler" and q.w.split()[0] in ("looks", "seems", "feels", "sounds", "smells")
    return True if said and at.starts else None


def _same_days(at: Spot) -> bool | None:
    """ "sixty three same twenty four hours", "forty seven the same day only two"."""
    q = at.q
    if q and q.label == "same_day" and at.last != "cols":
        return True if at.r.outfit.could_be(id_of(at.m)) else None
    return True if q and q.label == "days" and q.w.split()[0] == "same" else None


def _other_hive_meant(at: Spot) -> bool | None:
    """ "forty six, sorry no, that's forty seven with the chalkbrood": the one begun on, and the one that is meant."""
    q, r = at.q, at.r
    if q is None or q.v.get("cue") != "correct" or r.checking or not at.starts or id_of(at.m) not in r.outfit.ids:
        return None
    if at.p is not None and at.p.label == "w" and at.p.w not in ("and", "then", "so"):
        return None  # "losses at the quarry: it is six, no sorry, seven dead"
    k = r.on(r.on(at.i))
    while (m := r.at(k)) and (m.label in ("comma", "cue") or m.w in ("that's", "it's", "that", "was", "it")):
        k = r.on(k)
    then = r.at(r.on(k))
    meant = m is not None and m.label == "number" and id_of(m) in r.outfit.ids and then is not None
    said = then is not None and (then.label in ("fact", "change") or then.w in ("with", "is", "has", "had", "was"))
    return True if meant and said else None


def _goes_without(at: Spot) -> bool | None:
    """ "41 supered and excluder 42 no super it's too weak": a colony of the roster that got none of the thing."""
    if at.q is None or at.q.w != "no" or at.z is None or at.z.label not in THINGS or not at.starts:
        return None
    opens = at.p is None or at.p.label in ("stop", "line")
    return True if id_of(at.m) in at.r.outfit.ids and (opens or at.number.value > 9) else None


COUNTS_AND_CUES: tuple[Question, ...] = (
    _so_many_off,
    _those_ones,
    _parts_of_all,
    _owners,
    _light_ones,
    _counts_go_on,
    _other_hive_meant,
    _goes_without,
    _queen_of,
    _checked_next,
    _cell_of_table,
    _call_it,
    _so_many_times,
    _of_plain_things,
    _plural_subject,
    _after_weather,
    _checked_at,
    _owns_state,
    _counted_at,
    _still_in,
    _next_job,
    _placed_subject,
    _as_much_elsewhere,
    _only_these,
    _one_that_was_split,
    _so_many_lost,
    _one_of_a_kind,
    _checks_done,
    _after_cue,
    _list_before_thing,
    _range_opens,
    _colony_before_thing,
    _so_many_came_off,
    _number_of_things,
    _so_many_for_each,
    _more_of_the_count,
    _beside_her,
    _each_of_them,
    _those_are,
    _with_one,
    _alone_after_pronoun,
    _came_in_at,
    _threshold,
    _named_after_change,
    _treated_at_line_start,
    _done_to,
    _reported_count,
    _planned_with_date,
    _before_sample,
    _count_on_colony,
)
TURNS: tuple[Question, ...] = (
    _row_of_yard_or_date,
    _unwrapped,
    _row_with_count_of_frames,
    _should,
    _digits_in_row,
    _row_of_fact,
    _other_half,
    _range_after_thing,
    _found_in,
    _spoken_range,
    _number_of_checks,
    _checks_were,
    _said_again,
    _introduced,
    _split_into,
    _split_off,
    _put_to,
)
ROWS: tuple[Question, ...] = (
    _row_of_work,
    _row_of_direction,
    _all_over,
    _told_in_brackets,
    _in_brackets,
    _row_of_amount,
    _row_with_count_of_things,
    _to_be_done,
    _measured,
    _so_many_each,
    _dealt_out,
    _marked_so,
    _carried_over,
    _moved_too,
    _row_of_words,
    _now_called,
    _dead_in_yard,
    _beside_its_yard,
    _next_row,
    _that_was,
    _same_again,
    _then_given,
    _looks_like,
    _somebody_did,
    _has_none_of,
    _same_days,
)
