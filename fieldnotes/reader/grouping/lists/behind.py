"""What is said behind a colony of a list: of that one alone, of several that begin with it, or of others?"""

from __future__ import annotations

from fieldnotes.reader.grouping.lists.listed import Listing
from fieldnotes.reader.grouping.row import NP, OF_ONE, ONE_HIVE_VERBS, PREPS, RANGE, Row, whole
from fieldnotes.reader.mark import THINGS, Mark

_THEIR_VERBS = frozenset("only just are were have get both stay stays keep".split())


def pair_as_subject(r: Row, k: int) -> bool:
    """Whether the colony at `k` and one joined to it are what something is seen in: "s two and s three have wasps"."""
    joins = r.on(k)
    join, other = r.at(joins), r.at(joins + 1)
    does = r.on(joins + 1)
    verb, seen = r.at(does), r.at(r.on(does))
    if join is None or other is None or verb is None:
        return False
    pair = join.w in ("and", "+", "&") and other.label in ("colony", "number")
    if not pair:
        return False
    if not r.checking and got_nothing(r, joins + 2):
        return True  # "strips in 12 and 14, | 15 and 16 none"
    if seen is None:
        return verb.label == "change"  # "wraps on s one through s six | s nine and s twelve dead"
    if verb.w in ("i", "we"):
        # "h ten and h eleven i only took the wraps off", but "in l one l four and l eight i fed l nine"
        return not done_elsewhere(r, does)
    if verb.w in ("got", "get", "need") and seen.label != "cols":
        return True  # "six frames of bees in l two | l fourteen and l nineteen got candy boards"
    if verb.label == "change":
        return seen.label not in (
            "colony",
            "number",
            "hive",
        )  # "in l one l four and l eight | joined l four and l five"
    return verb.w in _THEY_HAVE and seen.label in ("fact", "clean")


def got_nothing(r: Row, k: int) -> bool:
    """Whether "none" or "nothing" stands at `k`, and no thing of which there is none."""
    none, then = r.at(k), r.at(k + 1)
    zero = none is not None and (none.label == "clean" or (none.label == "number" and none.v["n"].value == 0))
    return zero and (then is None or then.label not in NP)


_THEY_HAVE = frozenset("have are look were seem had both".split())
_WORK = frozenset("fact queen_work method change verb mites".split())
_ONTO = frozenset("in into with onto to on over".split())
_LOOKED = frozenset("looked checked searched hunted".split())
_BREAKS = frozenset("stop line question filler comma".split())


def done_elsewhere(r: Row, k: int) -> bool:
    """ "strips in nine and twelve | i pulled the board in four": what follows is said of others than the last named."""
    work = False
    did, way = r.at(k + 1), r.at(k + 2)
    if did is not None and did.label == "change" and (did.w.split()[-1] in _ONTO or (way and way.w in _ONTO)):
        return False  # "clipped her in nine and | twelve i combined with fourteen"
    for n, m in enumerate(r.row[k : k + 8], k):
        if m.label in _BREAKS or m.w in ("and", "but", "so", "then"):
            break
        after = r.at(n + 1)
        if m.label == "number" and r.row[n - 1].w in ("counted", "or"):
            continue  # "l twenty six i counted eleven or twelve"
        if m.label == "number" and after is not None and after.label in NP:
            continue  # "l ten i put two supers on"
        if m.label in ("number", "colony", "hive", "hives", "rest", "every") or m.w in ("them", "both", "those", "all"):
            return True
        work = work or m.label in _WORK or bool(m.v.get("treats")) or m.v.get("cue") == "not" or m.w in _LOOKED
    return not work


def subjects(r: Row, k: int) -> bool:
    """ "a gallon on 70 through 75 | 76 and 77 only got half": what follows the last, at `k`, is said of them alone."""
    at = r.on(k)
    q = r.at(at)
    while q is not None and q.w in ("still", "already", "also", "on", "and", "up", "upwards") and at < k + 5:
        at += 1
        q = r.at(at)  # "feeders off L1 to L9 | L12 still had syrup"
    if q is not None and q.w in ("just", "only") and _so_many_each(r, r.on(at)):
        return False  # "pads in three five and seven just one pad each"
    return q is not None and (alone_in(r, at) or q.w in _THEIR_VERBS)


_A_LITTLE = frozenset("a little bit kinda pretty real really very so just still".split())


def seen_elsewhere(r: Row, at: int) -> bool:
    """Whether what was seen is placed in other colonies by the words at `at`: "in l twenty"."""
    way, other = r.at(at), r.at(r.on(at))
    return (
        way is not None
        and (way.w in PREPS or way.w == "at")
        and other is not None
        and other.label in ("colony", "number", "hive")
    )


def seen_alone(r: Row, k: int, closed: bool) -> bool:
    """Whether right after the colony at `k` it is said what was seen in it, or what became of it."""
    at = r.on(k)
    while (q := r.at(at)) is not None and (q.w in _A_LITTLE or q.w in NUC) and at < k + 5:
        at = r.on(at)
    if q is None:
        return False
    if seen_elsewhere(r, r.on(at)):
        return False  # "caught out of l seven and l ten | hive beetles in l twenty"
    if (q.w in OF_ONE or q.label in ("sample", "method")) and r.row[at - 1].w in NUC:
        return True  # "caught her out of n three | n four nuke is queenless"
    if q.w in ("i", "we") and r.row[at - 1].w in NUC:
        return True  # "in hive twenty | n one nuke i saw the queen"
    marked = r.at(r.on(at)) if q.label == "queen_work" else None
    if q.label == "queen_work" and (q.w.split()[1:2] == ["her"] or (marked is not None and marked.label == "fact")):
        return True  # "pinched the queen in s ten | s nine requeened blue dot"
    washed = q.label == "method" and q.w.endswith("ed")  # "out of s three | s six washed out at one percent"
    after = r.at(r.on(at))
    its = closed or (after is not None and after.label == "fact")  # "mites seen in l four | l eleven it's too weak"
    seen = q.label in ("fact", "change", "percent") or q.w == "laying"
    return washed or seen or (its and q.w in ("it's", "she's", "it", "its"))


NUC = frozenset(["nuc", "nucleus"])


def gets_another_thing(of: Listing, k: int) -> bool:
    """ "… in s twelve | s seven only got the excluder": after "only" at `k` a thing of another sort than before."""
    r, at = of.r, of.r.on(k)
    while (m := r.at(at)) is not None and (m.w in _GOT_A or m.label == "number") and at < k + 5:
        at = r.on(at)
    if m is None or m.label not in _SORTS:
        return False
    same = any(x.label in _SORTS and _sort(x) == _sort(m) for x in r.row[max(0, of.first - 8) : of.first])
    shared = any(x.label == "each" or x.w in ("both", "all") for x in r.row[at + 1 : at + 4])
    return not same and not shared


_GOT_A = frozenset("got gets had the a an one".split())
_SORTS = frozenset("item agent form feed queen_work".split())


def _sort(m: Mark) -> str:
    """What sort of thing it is: an item by its name, all that treats alike."""
    return str(m.v.get("item")) if m.label == "item" else "agent" if m.label == "form" else m.label


def list_as_subject(r: Row, k: int) -> bool:
    """Whether the colonies from `k` on are a list of which something is told: "l nine l ten and l two have cells"."""
    at, ended = k, False
    while (m := r.at(at)) is not None and (m.label in ("colony", "comma", "hive") or m.w == "and" or _one_of(r, at)):
        if ended and m.label == "colony" and r.row[at - 1].label in ("colony", "number"):
            return False  # "out of s five | s two and s eight s ten had no brood": two lists
        ended = ended or m.w == "and"
        at += 1
    q, seen = r.at(at), r.at(r.on(at))
    if q is not None and q.w in ("all", "both") and seen is not None and seen.w in THEY_SOUND:
        seen = r.at(r.on(r.on(at)))  # "l nine l ten and l eleven all sound strong"
    if q is not None and q.label == "each" and seen is not None and seen.w in ("got", "get", "have", "need"):
        return True  # "on l three and l ten | l fourteen and l sixteen each got a super"
    if seen is None or q is None:
        return False
    if q.w in ("got", "get", "need") or (q.w in _THEY_HAVE and seen.label == "each"):
        return at > k + 1  # "out of l three and l nine | l twelve and l fifteen got a gallon each"
    return (q.w in _THEY_HAVE or q.w in ("all", "both")) and seen.label in ("fact", "clean")


def _one_of(r: Row, k: int) -> bool:
    """Whether the number at `k` is one of a list, not how many of a thing."""
    m, after = r.row[k], r.at(k + 1)
    return m.label == "number" and whole(m) and after is not None and after.label not in NP


THEY_SOUND = frozenset("sound look have feel got are seem were".split())


def alone_in(r: Row, k: int) -> bool:
    """Whether the verb at `k` is said of one colony alone ("has", "is", "swarmed")."""
    q = r.at(k)
    return q is not None and (q.w.split()[0] in ONE_HIVE_VERBS or q.w in OF_ONE or q.label == "percent")


def range_as_subject(r: Row, k: int) -> bool:
    """Whether a range begins at `k` of which something is said: "l one to l three got supers"."""
    way = r.on(k)
    to, last = r.at(way), r.at(r.on(way))
    if to is None or last is None or (to.w not in RANGE and to.w != "to") or last.label not in ("colony", "number"):
        return False
    return subjects(r, r.on(way))


def _so_many_each(r: Row, k: int) -> bool:
    """Whether a number or an amount stands at `k`, and "each" behind it or what is counted."""
    counted, thing, after = r.at(k), r.at(r.on(k)), r.at(r.on(r.on(k)))
    if counted is None or counted.label not in ("number", "amount") or thing is None:
        return False
    return thing.label == "each" or (thing.label in THINGS and after is not None and after.label == "each")
