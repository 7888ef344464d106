"""Does a colony that no word joins to a list begin what is told of others? "… on L4 | L2 and L3 have wasps"."""

from __future__ import annotations

from fieldnotes.reader.grouping.lists.behind import (
    alone_in,
    done_elsewhere,
    gets_another_thing,
    list_as_subject,
    pair_as_subject,
    range_as_subject,
    seen_alone,
    subjects,
)
from fieldnotes.reader.grouping.lists.listed import Listing
from fieldnotes.reader.grouping.row import GLUE, RANGE, Row, sentence_has
from fieldnotes.reader.mark import THINGS, WAYS
from fieldnotes.roster import id_parts


def stands_apart(of: Listing, j: int, k: int, named: str) -> bool:
    """Whether the colony at `k`, which no word joins to the list, begins what is told of others."""
    r, c = of.r, of.r.row[k]
    if of.governed and _given(of) and pair_as_subject(r, k):
        return True  # "the reducer on s four | s two and s three have wasps"
    if of.before is not None and of.before.w == "is" and of.first > 1 and sentence_has(r, of.first, "change"):
        return True  # "split forty six, that half is sixty three | fifty and fifty four are light"
    if of.before is not None and of.before.w in ("to", "into", "with", "onto") and _joins(r, of.first):
        return True  # "newspapered it to l four | l five and six just need room"
    if (owns := r.at(k + 1)) is not None and owns.w in ("'s", "she", "she's", "her"):
        return True  # "let her go in 41 | 42's was still in the cage"
    if of.governed and owns is not None and owns.label == "filler" and "next" in owns.w.split()[:2]:
        is_so = r.at(r.on(k))
        if owns.w.split()[-1] in _NEXT_TO_IT_IS or (is_so is not None and is_so.w.split()[0] in _NEXT_TO_IT_IS):
            return True  # "gel in forty four | fifty six next door is strong"
    if c.label != "colony":
        return False
    if of.before is not None and of.before.label == "change" and pair_as_subject(r, k):
        return True  # "haven't split l twenty six | l ten and l eleven i only took the wraps off"
    if r.row[j].label == "colony" and not id_parts(r.row[j].v["value"])[1]:
        return True  # "gave it a cell from q b | l seven and l eight are calm"
    if any(x.w == "and" for x in r.row[of.first : j]) and id_parts(c.v["value"])[0] != of.letter:
        return True  # "out of hives three, seven and eleven | n one and n two"
    closed = any(x.w == "and" or x.w in RANGE for x in r.row[of.first : j])
    worked = of.before is not None and of.before.label in ("change", "queen_work")
    worked = worked and of.before is not None and of.before.v.get("step") not in ("died", "swarmed")
    if (closed or of.governed or worked) and seen_alone(r, k, closed):
        return True  # "two frames in l thirty | l ten a little jumpy", "eggs out of l seven | l twelve booming"
    if _somebodys(r, k) and (closed or worked or (of.governed and r.row[k + 1].label not in GLUE)):
        return True  # "in h one through h four | h five i didn't give any", "sold N1 to N4 | n six i saw her"
    if closed and of.before is not None and of.before.w in ("that's", "those're") and alone_in(r, r.on(k)):
        return True  # "that's s one s two and s nine | s twelve has dysentery"
    if (of.governed or worked or of.done_by_name or _went_in(of)) and _begins_own(of, k, closed, named):
        return True
    if of.before is not None and of.before.label in ("change", "queen_work") and alone_in(r, r.on(k)):
        return True  # "haven't split l twenty six | l ten has a candy board"
    if c.v["value"] == named or c.v["value"] in of.ids:
        return True  # "all of them but l nine | l nine is dead"
    return of.after_same or k != j + 1  # "n four same as n three | n five brood in all stages"


def _seen_in(of: Listing) -> bool:
    """ "sacbrood in | l five": whether what is seen in it stands before the list."""
    return (
        of.before is not None
        and of.before.w in ("in", "on", "at")
        and of.r.row[of.r.back(of.r.back(of.first))].label == "fact"
    )


def _given_to(of: Listing) -> bool:
    """ "gave two combs to | l seven": whether somebody gave something to the list before."""
    gave = (
        of.before is not None
        and of.before.w == "to"
        and any(m.w == "gave" for m in of.r.row[max(0, of.first - 8) : of.first])
    )
    return gave and _given(of)


def _went_in(of: Listing) -> bool:
    """ "beetle traps went in | s ten and s eleven": what went in or came off stands before the list."""
    return of.before is not None and of.before.label == "verb" and of.before.w.split()[-1] in WAYS


def _begins_own(of: Listing, k: int, closed: bool, named: str) -> bool:
    """Whether the colony at `k` has its own count, verb or range behind it, where the list before it is governed."""
    r = of.r
    q = r.at(r.on(k))
    falls = _falls(r, k, named)
    if q is not None and q.label == "mites" and (falls or _given(of)):
        return True  # "candy boards on l two l three and l eight | l one nineteen mites"
    if q is not None and q.label == "cue" and q.v.get("cue") == "not":
        return True  # "eleven in l eighteen | l twenty did not get done"
    if q is not None and q.label == "item" and (moved := r.at(r.on(r.on(k)))) is not None and moved.label == "verb":
        if moved.w.split()[0] in _MOVES:
            return True  # "beetle traps in s ten and s eleven | s eight feeder came off"
    if q is not None and q.label == "same_day" and not sentence_has(r, of.first, "method"):
        return True  # "mites on the bees in l four | l six the same day ten out of three hundred"
    if q is not None and q.w in ("couldn't", "didn't") and (hers := r.at(r.on(r.on(k)))) is not None:
        if hers.label == "fact":
            return True  # "banked two in q b | s three couldn't find her"
    if (closed or falls or _seen_in(of) or _given_to(of)) and list_as_subject(r, k):
        return True  # "feeders off l two and l six | l nine l ten and l twelve have cells"
    if q is not None and q.label in ("sample", "method") and not sentence_has(r, of.first, "method", "sample"):
        after = r.at(r.on(r.on(k)))
        if (after is not None and after.w in _CAME_TO) or not done_elsewhere(r, r.on(k)):
            return True  # "the strips came out of s seven | s ten half a cup of bees in alcohol gave eleven"
    if q is not None and q.w in ("only", "just") and gets_another_thing(of, r.on(k)):
        return True  # "a drone layer in s twelve | s seven only got the excluder"
    if q is not None and q.label == "verb" and q.v.get("dir") and _to_the_end(r, r.on(k)):
        return True  # "clipped the queen in l two | l sixteen took the excluder off"
    if (closed or alone_in(r, r.on(k))) and subjects(r, k):
        return True  # "in s one, s two | s ten gets its patty tomorrow", "caught in l nine | l twelve has"
    if falls and q is not None and (q.w == "to" or q.w in RANGE):
        return True  # "a box on l sixteen | l one through l six two supers each"
    if (
        closed
        and q is not None
        and q.w.split()[0] in _WORKED_OUT
        and any(m.label == "percent" for m in r.row[k + 2 : k + 5])
    ):
        return True  # "candy boards on n one n two and n five | n six worked out to one percent"
    return (closed or _seen_in(of)) and range_as_subject(
        r, k
    )  # "beetles in l twenty and l twenty one | l one to l three got supers"


def _given(of: Listing) -> bool:
    """Whether the list is governed as the place of some thing ("the reducer on s four"), not counted ("three of")."""
    told = (*THINGS, "queen_work", "queen_noun", "fact", "change", "method")
    if of.before is None:
        return False
    many = of.r.row[of.r.back(of.r.back(of.first))]
    counted = of.before.w == "of" and (many.label in _HOW_MANY or many.w in _SOME_OF)
    return not counted and sentence_has(of.r, of.first, *told)


_WORKED_OUT = frozenset("worked works".split())
_MOVES = frozenset("came comes went goes is".split())
_CAME_TO = frozenset("again came gave had was got".split())
_HOW_MANY = frozenset(["number", "hives", "value"])
_SOME_OF = frozenset("none some all half any both most".split())
_NEXT_TO_IT_IS = frozenset(["is", "has", "had", "was"])


def _to_the_end(r: Row, k: int) -> bool:
    """Whether the work told from the verb at `k` on ends in a thing and its way, with no colony of its own."""
    follows = r.row[k + 1 : k + 6]
    thing = next((n for n, m in enumerate(follows) if m.label in THINGS), None)
    if thing is None or any(m.label not in ("w", "number") for m in follows[:thing]) or thing + 1 >= len(follows):
        return False
    return follows[thing + 1].w in WAYS and not done_elsewhere(r, k)


def _joins(r: Row, i: int) -> bool:
    """Whether the change that is told just before is one of colonies combined."""
    change = next((m for m in reversed(r.row[max(0, i - 5) : i]) if m.label == "change"), None)
    return change is not None and change.v.get("step") == "combined"


def _somebodys(r: Row, k: int) -> bool:
    """Whether somebody does something to the colony at `k` alone ("h five I didn't")."""
    q = r.at(r.on(k))
    return q is not None and q.w in ("i", "we") and not done_elsewhere(r, r.on(k))


def _falls(r: Row, k: int, before: str) -> bool:
    """Whether the colony at `k` has a lower number than the one before it in the list, with the same letter."""
    (letter, number), (other, last) = id_parts(r.row[k].v["value"]), id_parts(before)
    return letter == other and bool(number and last) and int(number) < int(last)
