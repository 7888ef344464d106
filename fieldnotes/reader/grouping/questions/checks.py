"""Colony or count where mites are counted, or frames of brood."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.counts import came_down, so_many_were
from fieldnotes.reader.grouping.row import (
    FEW_GIVEN,
    GLUE,
    ONE_HIVE_VERBS,
    PREPS,
    counted_in_bees,
    id_of,
    of_bees,
    rises_to_colony,
)
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.grouping.surroundings import sample_next, subject_follows, told_alone
from fieldnotes.reader.mark import MOST_GIVEN, THINGS
from fieldnotes.roster import id_parts

_CHECKS_IN_NUMBERS = tuple(listed("checks_in_numbers"))


def method_then_hive(at: Spot) -> bool | None:
    """ "22 swarmed, aw 20 4 mites", "63 hot, soap wash 48 half cup 6 mites": the hive between check and count."""
    p, q = at.p, at.q
    if p is None or p.label != "method" or q is None or not at.number.digits or at.last != "cols":
        return None
    counted = q.label == "mites" or (q.label == "sample" and at.z is not None and at.z.label == "mites")
    return True if counted and at.r.outfit.could_be(id_of(at.m)) else None


def counts_go_on(at: Spot) -> bool | None:
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


def checks_done(at: Spot) -> bool | None:
    """ "did 12 washes"."""
    p, q = at.p, at.q
    did = p and p.label == "verb" and p.v.get("does") == "do"
    return False if did and q and q.label in ("method", "check") else None


def more_of_the_count(at: Spot) -> bool | None:
    """ "12 had only 3"; but "73 is strong also | 79 was two percent": a colony something is said of, after what is told
    to its end.
    """
    p, pp, q = at.p, at.pp, at.q
    if not (at.last == "cols" and at.r.checking and p and p.label == "w" and p.w in _MORE):
        return None
    if q is not None and told_alone(at.r, at.i, q):
        return None
    few = at.number.value <= MOST_GIVEN and pp is not None and pp.label in ("number", "colony")
    goes_on = pp is None or few or pp.label == "verb" or pp.w in at.r.before_value
    named = id_of(at.m) in at.r.outfit.ids and subject_follows(at.r, at.i, at.after)
    return None if named and not goes_on else False


_MORE = frozenset("also too only just still again another".split())


def threshold(at: Spot) -> bool | None:
    """ "if the next one isn't under 30", "counts all under 1"."""
    if not (at.p and at.p.w in ("under", "over", "above", "below", "past")):
        return None
    if at.pp is not None and (at.pp.w in _TOLD_OF_ALL or at.pp.label == "every") and at.number.value <= 9:
        return False
    near = at.r.row[max(0, at.i - 12) : at.i]
    return False if any(x.label == "cue" and x.v.get("cue") == "if" for x in near) else None


_TOLD_OF_ALL = frozenset("all both counts was were is are came come still well way".split())


def reported_count(at: Spot) -> bool | None:
    """ "gave me 12"; in a run of checks also after a word of reporting ("board says 12")."""
    p, pp, q = at.p, at.pp, at.q
    reported = p is not None and p.v.get("cue") == "report"
    if reported and q is not None and q.w.split()[0] in ONE_HIVE_VERBS and at.r.outfit.could_be(id_of(at.m)):
        return None  # "she tells me 44 had four"
    if p and p.w == "me" and pp and pp.w.split()[0] in ("gave", "got"):
        return False
    return False if reported and p and p.label == "cue" and at.r.checking else None


def in_turn_between_commas(at: Spot) -> bool | None:
    """ "41, two mites, 43, none, 45, six": hive and count take turns, a comma behind each."""
    p, q, z = at.p, at.q, at.z
    if p is None or p.label != "comma" or at.pp is None or q is None or q.label != "comma" or z is None:
        return None
    k = at.r.back(at.r.back(at.i))
    before, named = at.r.at(at.r.back(k)), at.r.at(at.r.back(at.r.back(k)))
    counted = at.pp.label in _COUNTS or (at.pp.label == "number" and at.last == "value")
    counted = counted and before is not None and before.label == "comma"
    if not counted or named is None or named.label not in _HIVES or z.label not in _COUNTED:
        return None
    ids, here = at.r.last_ids, id_of(at.m)
    rises = ids and ids[-1].isdecimal() and at.number.value > float(ids[-1])
    return True if rises and at.r.outfit.of_one_yard([*ids[-1:], here]) and here in at.r.outfit.ids else None


_COUNTS = frozenset(["value", "mites", "clean"])
_COUNTED = _COUNTS | {"number"}
_HIVES = frozenset(["cols", "number", "colony"])


def some_of_those(at: Spot) -> bool | None:
    """ "washed six of them, five were zero"."""
    return False if at.q is not None and at.q.w == "were" and so_many_were(at.r, at.i) else None


def out_of_sample(at: Spot) -> bool | None:
    """ "nine out of three hundred in l four": a count of mites."""
    return False if at.q is not None and at.q.label == "sample" and of_bees(at.r, at.i) else None


def before_sample(at: Spot) -> bool | None:
    """ "17, half cup, 1 mite" after a count, "52, 2 in 300"."""
    q, z = at.q, at.z
    if not (at.r.checking and at.last == "value" and q and q.label == "comma"):
        return None
    if z is not None and z.label == "number" and counted_in_bees(at.r, at.r.on(at.r.on(at.i))):
        return True
    return True if sample_next(at.r, at.i) else None


def count_on_colony(at: Spot) -> bool | None:
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


def number_of_checks(at: Spot) -> bool | None:
    """ "five alcohol washes"."""
    p, q = at.p, at.q
    checks = q and q.label == "method" and q.w.endswith(_CHECKS_IN_NUMBERS) and not q.v.get("verb")
    return False if checks and (p is None or p.label in GLUE or p.label in ("line", "stop", "filler")) else None


def checks_were(at: Spot) -> bool | None:
    """ "sugar rolls at cut bank were | forty six twelve mites"."""
    p, q = at.p, at.q
    pair = q and q.w == "with" and at.z and at.z.label in ("mites", "number", "value") and p and p.w in ("were", "are")
    if at.r.checking and pair and at.r.outfit.could_be(id_of(at.m)):
        return True  # "the rolls were sixty two with five mites and sixty three with one"
    turn = at.r.checking and q and q.label == "mites" and at.last != "cols"
    return True if turn and p and p.w in ("was", "were", "are", "is") else None


def checked_next(at: Spot) -> bool | None:
    """ "then soap wash, seventy seven had four", "recheck seventy five for mites": the colony of a new check."""
    p, q, z = at.p, at.q, at.z
    if not (p and q and z) or at.number.value < 2 or not at.r.outfit.could_be(id_of(at.m)):
        return None
    had = (
        p.label == "method" and q.w in ("had", "has", "got", "was") and z.label in ("mites", "number", "clean", "value")
    )
    again = p.label == "check" and q.w == "for" and z.label in ("noun", "mites")
    return True if had or again else None


def call_it(at: Spot) -> bool | None:
    """ "seventy nine call it about twenty five": the colony, and its count."""
    p, q, z = at.p, at.q, at.z
    if at.r.checking and q and z and q.w in ("call", "calling") and z.w == "it":
        return True
    near = at.r.row[max(0, at.i - 4) : at.i]
    called = any(a.w in ("call", "calling") and b.w == "it" for a, b in pairwise(near))
    return False if at.r.checking and called and p and (p.w == "it" or p.label == "approx") else None


def counted_at(at: Spot) -> bool | None:
    """ "pulled the boards and counted, seventy had sixty one mites"."""
    counted = at.p is not None and at.p.w == "counted" and at.q is not None and at.q.w in ("had", "has", "got", "was")
    counts = counted and at.z is not None and at.z.label in ("number", "mites", "clean")
    return True if counts and at.r.outfit.could_be(id_of(at.m)) else None


def checked_at(at: Spot) -> bool | None:
    """ "eighteen mites on the board at seventy two", "were over the line, those are forty and fifty two"."""
    p, pp = at.p, at.pp
    if p and p.w in ("on", "under", "in") and pp and pp.v.get("method") == "board" and at.q and at.q.label == "days":
        return True if at.r.outfit.could_be(id_of(at.m)) else None  # "board on twelve for two days"
    if p and p.w == "at" and pp and pp.w in ("in", "on") and _board_before(at):
        return True if at.r.outfit.could_be(id_of(at.m)) else None  # "board in at seventy two"
    if p and p.w == "at" and pp and pp.label == "method" and at.last == "value":
        return True if at.r.outfit.could_be(id_of(at.m)) else None
    listed = at.q is not None and (at.q.w == "and" or (at.q.label == "number" and rises_to_colony(at.r, at.i)))
    return True if p and p.w == "are" and pp and pp.w in ("those", "these") and listed else None


def _board_before(at: Spot) -> bool:
    """Whether a board is named right before "in at"."""
    return any(m.v.get("method") == "board" for m in at.r.row[max(0, at.i - 3) : at.i - 2])


def same_days(at: Spot) -> bool | None:
    """ "sixty three same twenty four hours", "forty seven the same day only two"."""
    q = at.q
    if q and q.label == "same_day" and at.last != "cols":
        return True if at.r.outfit.could_be(id_of(at.m)) else None
    return True if q and q.label == "days" and q.w.split()[0] == "same" else None


def board_of_days(at: Spot) -> bool | None:
    """ "40  3 days  31" under boards: the colony, how long its board was in, and what fell."""
    if not at.r.checking or not (at.p is None or at.p.label in ("line", "comma") or at.p.w in (":", "*", "-", "|")):
        return None
    k = at.i + 1
    while (m := at.r.at(k)) is not None and m.label == "comma":
        k += 1
    if m is None or m.label != "days":
        return None
    k += 1
    while (m := at.r.at(k)) is not None and (m.label == "comma" or m.w in ("-", ":", "|", "=")):
        k += 1
    fell = m is not None and m.label in ("number", "mites", "clean")
    return True if fell and at.r.outfit.could_be(id_of(at.m)) else None


def was_before(at: Spot) -> bool | None:
    """ "fifty one down to two from eleven", "went from nineteen down to one": the count it had before, no colony."""
    p = at.p
    if at.r.checking and p is not None and p.w.split()[-1] == "from" and came_down(at.r, at.i):
        return False
    down = p is not None and p.w == "from" and at.last == "value" and at.r.checking
    if down and at.pp is not None and "n" in at.pp.v and at.r.row[at.i - 3].w in ("at", "to", "back"):
        return False  # "came back at one from nineteen"
    return False if down and any(m.w in ("down", "up") for m in at.r.row[max(0, at.i - 5) : at.i]) else None


_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def count_after_colon(at: Spot) -> bool | None:
    """ "L4: 12", in a run of checks also "5 - 1"."""
    if at.p is None or at.last != "cols":
        return None
    if at.q is not None and at.q.label == "fact" and "n" not in at.q.v and at.p.w == ":":
        if any(cid.lstrip(_LETTERS) == id_of(at.m) for cid in at.r.last_ids[1:] and at.r.last_ids):
            return True  # "hefted S1-6: | 1 light"
    dashed = at.p.w in ("-", "–", "—") and at.r.checking and at.pp is not None and at.pp.label == "number"
    return False if at.p.w in (":", "=") or dashed else None


def had_its_own(at: Spot) -> bool | None:
    """ "the recheck was seventy two had one": what had a count is a colony, whatever stands before it."""
    if not at.r.checking or at.q is None or at.q.w not in ("had", "has", "was") or at.z is None:
        return None
    verb_before = at.p is not None and at.p.w in ("had", "has", "got")  # "the only scoop i had, five was two mites"
    if not verb_before and (at.number.value < FEW_GIVEN or at.q.w == "was"):
        return None
    counted = at.z.label in ("number", "mites", "clean", "value")
    return True if counted and id_of(at.m) in at.r.outfit.ids else None


def count_before_the_next(at: Spot) -> bool | None:
    """ "23 gave one and 24 gave none": a count, though a number follows it."""
    if not at.r.checking or at.p is None or at.p.w not in ("gave", "had", "got", "was") or at.q is None:
        return None
    other, then = at.z, at.r.at(at.r.on(at.r.on(at.r.on(at.i))))
    follows = other is not None and other.label in ("number", "colony", "hive") and then is not None
    return (
        False if at.q.w == "and" and follows and then is not None and then.w in ("gave", "had", "got", "was") else None
    )


def about_so_many(at: Spot) -> bool | None:
    """ "40 board 5 days 62 mites, 41 board 5 days about 20, 43 board …": a count, though it heads no list."""
    about = at.r.at(at.i - 1)
    if not at.r.checking or about is None or about.label != "approx" or at.p is None:
        return None
    return False if at.p.label in ("method", "days", "sample") else None


def one_of_those(at: Spot) -> bool | None:
    """ "washed 105 106 107: 105 13 mites …": one of the colonies just named, before what it had."""
    listed = at.r.checking and len(at.r.last_ids) > 1 and id_of(at.m) in at.r.last_ids
    if listed and at.q is not None and at.q.w.split()[0] in _CAME_TO and (at.p is None or at.p.w not in _BEFORE_COUNT):
        return True  # "washed nine and ten again, nine went up to fourteen, ten stayed at three"
    if (
        not listed
        or at.last != "cols"
        or at.p is None
        or not (at.p.w in (":", "=", "-") or at.p.label in ("comma", "yard"))
    ):
        return None
    return True if at.q is not None and at.q.label in ("number", "mites", "clean") else None


_CAME_TO = frozenset("went was had came stayed jumped dropped held got rose climbed fell gave".split())
_BEFORE_COUNT = frozenset("at to had was got from with and or".split())


def came_out(at: Spot) -> bool | None:
    """ "feeder off 46 then a sugar roll on 42 came out six": the count of the check told of last, no thing."""
    if at.p is None or at.p.label != "verb" or at.p.w not in ("came out", "came back", "came up") or at.last != "cols":
        return None
    near = (m for m in reversed(at.r.row[max(0, at.i - 10) : at.i - 1]) if m.label in _CHECKED_OR_GIVEN)
    nearest = next(near, None)
    return False if nearest is not None and nearest.label == "method" and at.number.value < MOST_GIVEN else None


_CHECKED_OR_GIVEN = THINGS | {"method", "stop", "line"}
