"""Colony or count beside a change: lost, sold, split, moved, joined; and what a colony is called after it."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import (
    ENDS,
    FEW_HIVES,
    GLUE,
    ONE_HIVE_VERBS,
    RANGE,
    id_of,
    next_is_higher_colony,
    past_the,
    range_here,
    sentence_has,
    whole,
)
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.mark import CALLS, MOST_GIVEN, goes_along

_DEAD = listed("losses")
_JOINS = listed("putting_to_another") | listed("tipping_in")
_LOSSES_OF_YARDS = GLUE | {"number", "yard", "comma"}
_IN_LOSSES = frozenset("and : at in the so far over winter this last since".split())


def named_after_change(at: Spot) -> bool | None:
    """ "split it as 12", "it is 12 now"."""
    p, q, pp = at.p, at.q, at.pp
    if p and p.w == "as" and sentence_has(at.r, at.i, "change"):
        return True
    if p and p.w in ("it's", "that's") and at.r.outfit.could_be(id_of(at.m)) and _new_one_made(at):
        return True  # "a nuc from forty, it's 63 and the wash on fifty was two"
    if p and p.w in ("it", "her", "that one", "that") and pp and pp.w in CALLS and _new_one_made(at):
        return True if at.r.outfit.could_be(id_of(at.m)) else None  # "caught a swarm off the fence, calling it 24"
    if p and p.w == "called" and (q is None or q.w in ("now", "there") or q.label in ENDS):
        return True  # "took 63 over to Millpond, it's called 24 now"
    return True if p and p.w == "is" and pp and pp.w == "it" and q and q.w == "now" else None


def _new_one_made(at: Spot) -> bool:
    """Whether a hive was split, moved or made up near before, and the number counts nothing."""
    made = any(m.v.get("step") in _NEW_ONES for m in at.r.row[max(0, at.i - 9) : at.i])
    ends = at.q is None or at.q.label in ENDS or at.q.label in ("filler", "comma") or at.q.w in _AFTER_NAME
    others = at.q is not None and at.q.label == "number" and at.z is not None and at.z.w in ONE_HIVE_VERBS
    ends = ends or (at.q is not None and at.q.label == "amount")
    return made and (ends or (others and at.q is not None and id_of(at.q) in at.r.outfit.ids))


_NEW_ONES = frozenset(["split", "nuc_made", "moved", "swarm_caught"])
_AFTER_NAME = frozenset("so then and but now there".split())


def other_half(at: Spot) -> bool | None:
    """ "split it, the other half is 79", "new halves are 55 and 56"."""
    half = at.pp if at.p and at.p.w in ("is", "are") else at.p if at.after is not at.q else None
    named = half is not None and half.w.split()[-1] in _HALVES
    return True if named and sentence_has(at.r, at.i, "change") else None


_HALVES = listed("halves")


def introduced(at: Spot) -> bool | None:
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


def split_into(at: Spot) -> bool | None:
    """ "split 45 into 58 and 46 into 59"."""
    p, q = at.p, at.q
    opens = p is None or p.label in ("stop", "line") or p.w in ("and", "then", "so", "but")
    opens = opens or at.r.row[at.i - 1].label == "filler"
    if q is not None and q.w == "into" and opens and not sentence_has(at.r, at.i, "change"):
        near = at.r.row[at.i + 2 : at.i + 9]
        papered = any(m.w in ("newspaper", "paper") or m.v.get("step") == "combined" for m in near)
        return True if papered and at.r.outfit.could_be(id_of(at.m)) else None  # "47 into 48, newspaper"
    if not (p and q and q.w in ("into", "with")):
        return None
    goes_on = p.w in ("and", "then", ":") or p.label in ("comma", "change", "line", "date", "yard", "filler")
    pair = p.label in ("number", "colony") and at.pp is not None and at.pp.w in ("into", "with")
    goes_on = goes_on or (pair and at.last == "cols" and not at.r.checking)  # "40 into 41 | 53 into 54"
    return True if goes_on and sentence_has(at.r, at.i, "change") else None


_MOST_PARTS = 4


def into_parts(at: Spot) -> bool | None:
    """ "split forty three into two, the new one is 65": so many parts, and no hive two."""
    p, q = at.p, at.q
    if p is None or p.w != "into" or at.number.digits or not 1 < at.number.value <= _MOST_PARTS:
        return None
    ends = q is None or q.label in ("stop", "line", "comma", "filler", "date") or q.w in ("and", "so", "then")
    split = any(m.v.get("step") == "split" for m in at.r.row[max(0, at.i - 6) : at.i])
    return False if split and ends else None


def split_off(at: Spot) -> bool | None:
    """ "split two off forty four": so many new ones."""
    p, q = at.p, at.q
    off = p is not None and p.v.get("step") == "split" and q is not None and q.w in ("off", "out", "from")
    return False if off and at.number.value <= MOST_GIVEN else None


def put_to(at: Spot) -> bool | None:
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


def one_that_was_split(at: Spot) -> bool | None:
    """ "split eleven at the quarry, the new half is in eighteen", "… it's in eighteen now", "… and the queen stayed in
    eleven": one hive, of whose half or of which itself more is told.
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
        if m.w.split()[-1] in ("half", "into", "it's") or ("n" in m.v and m.v["n"].value == at.number.value):
            return True
    return None


def so_many_lost(at: Spot) -> bool | None:
    """ "deadouts four at larks | two at the quarry": few hives, a yard after each number."""
    p, q, r = at.p, at.q, at.r
    lost = at.pp.v.get("n") if p is not None and p.w == "of" and at.pp is not None else None
    if lost is not None and at.pp is not None and at.pp.v.get("step") == "died":
        return False if at.number.value >= lost.value else None  # "lost 6 of 18 at the quarry"
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


def given_on(at: Spot) -> bool | None:
    """ "a frame of eggs from forty one to forty six", "boosted 12 with two frames": who gets it."""
    if at.p is not None and at.p.w == "boosted":
        return True if id_of(at.m) in at.r.outfit.ids else None
    if at.p is None or at.p.w != "to" or at.pp is None or at.pp.label not in ("number", "colony", "cols"):
        return None
    near = at.r.row[max(0, at.i - 7) : at.i - 2]
    given = near[-1:] and near[-1].w == "from" and any("frame" in m.w or "comb" in m.w for m in near)
    return True if given and id_of(at.m) in at.r.outfit.ids else None


def carried_over(at: Spot) -> bool | None:
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


def moved_too(at: Spot) -> bool | None:
    """ "moved fifty to the pond and | fifty one to the quarry": another colony, and the yard it is moved to."""
    p, r = at.p, at.r
    if at.after is not None and id_of(at.m) in r.outfit.ids and goes_along(r.row, at.after_index - 1) is not None:
        return (
            True
            if any(m.v.get("step") == "moved" or m.w in _CARRIES for m in r.row[max(0, at.i - 12) : at.i])
            else None
        )
    if at.after is None or at.after.w != "to" or p is None or not (p.label in ("comma", "yard") or p.w in _AND):
        return None
    yard = r.at(past_the(r, r.on(at.after_index)))
    moved = any(m.v.get("step") == "moved" for m in r.row[max(0, at.i - 12) : at.i])
    return True if moved and yard is not None and yard.label == "yard" and id_of(at.m) in r.outfit.ids else None


_AND = frozenset(["and", "then", "plus"])
_CARRIES = listed("carrying")


def now_called(at: Spot) -> bool | None:
    """ "swarm caught at Wen's, now 79"."""
    p, q = at.p, at.q
    now = p and p.w == "now" and (q is None or q.w == "there")
    if p and p.w == "now" and sentence_has(at.r, at.i, "change") and (range_here(at.r, at.i) or at.after is not q):
        now = at.after is None or at.after.label in ENDS or at.after.w in RANGE  # "moved 50 and 51, now 16 and 17"
    return True if now and sentence_has(at.r, at.i, "change") else None


def dead_in_yard(at: Spot) -> bool | None:
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
    return _so_many_dead_at(at)


def _so_many_dead_at(at: Spot) -> bool | None:
    """ "six dead at larks | a pound of sub each on five and six", "two at the quarry were dead": few hives, where their
    yard is named behind them.
    """
    p, q = at.p, at.q
    if q is None or at.number.digits or at.number.value > FEW_HIVES:
        return None
    if p is not None and not (p.label in _OPENS or p.w in ("had", "got", "so", "then", "with")):
        return None
    dead = q.label == "change" and q.w in _DEAD
    k = first = at.r.on(at.r.on(at.i)) if dead else at.r.on(at.i)
    while (m := at.r.at(k)) is not None and m.w in _AT_THE:
        k = at.r.on(k)
    if m is None or m.label != "yard" or k == first:
        return None
    if dead:
        return False
    after = at.r.at(at.r.on(k))
    return False if after is not None and after.label == "change" and after.w in _WERE_DEAD else None


_WERE_DEAD = frozenset(["are dead", "were dead"])
_OPENS = frozenset("line stop comma filler yard date change".split())
_AT_THE = frozenset("at in over up down out the".split())


def sold_to_somebody(at: Spot) -> bool | None:
    """ "sold 57 to Tobiah's cousin": one hive, where so many are sold to nobody at once."""
    sold = at.p is not None and at.p.v.get("step") == "sold" and at.q is not None and at.q.w == "to"
    return True if sold and at.number.value > FEW_HIVES and at.r.outfit.could_be(id_of(at.m)) else None


def so_many_moved(at: Spot) -> bool | None:
    """ "moved six hives to wens and four to the quarry": so many more of them."""
    to_yard = at.q is not None and at.q.w == "to" and at.z is not None and at.z.label == "yard"
    if not to_yard or at.p is None or at.p.w not in ("and", "hives", ","):
        return None
    near = at.r.row[max(0, at.i - 10) : at.i]
    counted = any(m.label == "hives" and "n" in m.v for m in near)
    return False if counted and any(m.v.get("step") == "moved" for m in near) else None


def sold_by_name(at: Spot) -> bool | None:
    """ "sold seventy eight and seventy nine to the school": ids of the roster, and no number of nucs."""
    if at.p is None or at.p.v.get("step") != "sold" or "n" in at.p.v or at.q is None or at.q.w != "and":
        return None
    other, after = at.r.at(at.i + 2), at.r.at(at.i + 3)
    if other is None or other.label != "number" or not {id_of(at.m), id_of(other)} <= at.r.outfit.ids.keys():
        return None
    return True if after is None or after.label not in ("noun", "queen_noun", "hives", "unit", "number") else None


def made_so(at: Spot) -> bool | None:
    """ "split 40 to make 58", "split 40, made 58 out of it"."""
    made = at.p is not None and at.p.w == "make" and at.pp is not None and at.pp.w == "to"
    made = made or (at.p is not None and at.p.w in _MADE and at.number.value >= _MANY_MADE and _out_of_it(at))
    return True if made and at.r.outfit.could_be(id_of(at.m)) and sentence_has(at.r, at.i, "change") else None


_MADE = frozenset("made make making got get is".split())
_MANY_MADE = 10
"""So many colonies nobody makes out of one."""


def _out_of_it(at: Spot) -> bool:
    """Whether "out of it" or "from that one" follows the number."""
    behind = [m.w for m in at.r.row[at.i + 1 : at.i + 4]]
    return bool(behind) and behind[0] in ("out", "from", "off") and not {"it", "that one"}.isdisjoint(behind)


def goes_elsewhere(at: Spot) -> bool | None:
    """ "moved 71 to the Quarry and 75 to Larkfield": one more that goes its own way."""
    joined = at.p is not None and (at.p.w in ("and", "then") or at.p.label == "comma")
    if not joined or at.q is None or at.q.w not in ("to", "into", "with") or at.z is None:
        return None
    goes = at.z.label in ("yard", "number", "colony", "cols") and sentence_has(at.r, at.i, "change")
    return True if goes and at.r.last_ids and id_of(at.m) in at.r.outfit.ids else None


def dead_outs(at: Spot) -> bool | None:
    """ "deadout at seventeen", "the dead hive, 8", "deadouts, 4 and 9", "two of the packages died, 50 and 53": which
    ones were dead.
    """
    p, r = at.p, at.r
    if p is None or id_of(at.m) not in r.outfit.ids or not (p.label == "comma" or p.w in _AT_DEAD):
        return None
    dead = at.pp
    if dead is not None and dead.label == "hive":
        dead = r.at(r.back(r.back(r.back(at.i))))
    if dead is None or dead.v.get("step") != "died" or "n" in dead.v or dead.w.split()[0] == "lost":
        return None
    if (
        at.after is not None
        and at.after.label not in ENDS
        and at.after.label not in ("comma", "fact", "filler", "date")
    ):
        return None
    one = dead.w.split()[-1] in ("deadout", "out") or (at.pp is not dead and at.pp is not None and at.pp.w == "hive")
    listed = sum(m.label == "number" for m in r.row[at.i : at.after_index])
    if one:
        return True if listed == 1 else None
    heads = r.row[0] is dead or r.at(r.back(r.back(r.back(at.i)))) is None
    said = p.label == "comma" and (dead.w.endswith("outs") or heads or _as_many_died(at, listed))
    return True if said and listed > 1 else None


_AT_DEAD = frozenset("at in on is was : - number".split())


def _as_many_died(at: Spot, listed: int) -> bool:
    """Whether so many were said to have died as ids follow."""
    near = at.r.row[max(0, at.i - 9) : at.i]
    return any("n" in m.v and m.v["n"].value == listed for m in near if m.label in ("number", "hives", "noun"))


def found_dead(at: Spot) -> bool | None:
    """ "found seventy five dead": more than are found dead at once."""
    found = at.p is not None and at.p.w == "found" and at.q is not None and at.q.v.get("step") == "died"
    return True if found and at.number.value > FEW_HIVES and at.r.outfit.could_be(id_of(at.m)) else None
