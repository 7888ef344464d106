"""Colony or count by the word before the number, which may take it as its object: asked last."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.counts import CAME_DOWN
from fieldnotes.reader.grouping.row import (
    NEW_TOPIC,
    NP,
    ONE_HIVE_VERBS,
    PREPS,
    id_of,
    next_is_higher_colony,
    rises_to_colony,
    sentence_has,
)
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.grouping.surroundings import told_alone
from fieldnotes.reader.mark import MOST_GIVEN, THINGS, Mark, done_with_it

_CHECKS_IN_NUMBERS = listed("checks_in_numbers")
_FEW_STRIPS = 4
_FEW = 10
_COUNT_UP = frozenset("came come comes up down went got get amounted close closer add adds worked works".split())
_A_THING = frozenset("a an her its their the another some his".split())
_COUNTED_CHANGES = frozenset("grafted caught banked sold bought nuc_made swarm_caught cells_placed".split())
"""Changes of which a number tells how many, not which colony."""


def answer(at: Spot, p: Mark, subject: bool) -> bool | None:
    """What the word `p` before the number says; `subject` tells whether what follows has a colony as its subject."""
    if at.r.row[at.i - 1].w in NEW_TOPIC:
        return None  # "that's all the comb i had anyway | forty two no eggs"
    if p.label == "same" or (p.label == "cue" and p.v.get("cue") == "except"):
        return True
    if p.label == "w":
        return _after_word(at, p)
    if p.label == "verb":
        return _after_verb(at, p, subject)
    if p.label in ("method", "check"):
        return _after_check(at, p, subject)
    if p.label in ("agent", "form"):
        return _after_treatment(at, p, subject)
    if p.label in ("queen_work", "change"):
        return _after_change(at, p, subject)
    if p.label == "harvest" and p.w.endswith(" off") and at.r.outfit.could_be(id_of(at.m)):
        closes = at.after is None or at.after.label in _CLOSES or at.after.w in ("and", "so", "too")
        return True if closes else None  # "took the excluders and the honey off fifty"
    if p.label == "item" and done_with_it(p, at.pp) and not (at.q is not None and at.q.label in NP):
        return True  # "need to super nine", "didn't wrap seven"
    if subject and at.q is not None and at.q.w == "the":
        return True  # "got two supers | seventy six the feeder's off"
    return _after_thing_or_yard(at, p, subject)


_CLOSES = frozenset(["stop", "line", "comma", "date", "filler"])


def _after_word(at: Spot, p: Mark) -> bool | None:
    """After a plain word: a preposition, or one that counts follow."""
    q, pp = at.q, at.pp
    if (
        p.w in ("had", "have")
        and pp is not None
        and pp.w in ("i", "we")
        and q is not None
        and told_alone(at.r, at.i, q)
    ):
        return True  # "that's all the comb i had | fifty eight got one patty"
    if p.w in at.r.before_value and p.w not in ("with", "to", "at"):
        return p.w in ("gave", "give", "given") and q is not None and q.label != "stop"
    if p.w in ("threshold", "limit"):
        return at.number.value > MOST_GIVEN and id_of(at.m) in at.r.outfit.ids  # "two are over threshold | 71 and 76"
    if p.w == "over" and pp is not None and pp.w in _TOPPLED:
        return True  # "the bear knocked over four and five"
    if p.w == "over" and pp is not None and pp.w == "paper":
        return True  # "dry sugar on paper over forty two"
    if p.w == "at":
        return (
            _found_there(at) or _checked_there(at) or (pp is not None and pp.w == "bees")
        )  # "robbing at fifty five", "all clean over at forty"
    if p.w == "with":
        return sentence_has(at.r, at.i, "change") or bool(pp and pp.w == "in" and at.r.outfit.known)
    if p.w == "to":
        return _after_to(at)
    return _after_preposition(at, p) if p.w in PREPS else None


_LIKE_MAD = frozenset("over down up out like mad crazy back in".split())


def _found_there(at: Spot) -> bool:
    """Whether what stands before "at" was seen or counted there, words like "over", "like mad" passed over."""
    k = at.i - 2
    if at.r.row[k].w in ("is", "are") and "sign" in at.r.row[k - 1].v:
        return True  # "the wasps are at thirteen"
    while k > 0 and at.i - k < 7 and (at.r.row[k].w in _LIKE_MAD or at.r.row[k].label == "filler"):
        k -= 1
    return k >= 0 and at.r.row[k].label in ("fact", "clean")


def _checked_there(at: Spot) -> bool:
    """ "wash at 44: 3 mites", "the roll at nine gave two": the check of that colony, and then its count."""
    pp, q = at.pp, at.q
    return (
        pp is not None
        and pp.label in ("method", "check")
        and q is not None
        and (q.w in at.r.subject_verbs or q.w == ":")
    )


def _after_to(at: Spot) -> bool:
    """ "came to 12" is a count, "moved it to 12" a colony."""
    pp = at.pp
    if pp and (pp.w in _COUNT_UP or (pp.label != "line" and pp.w.split()[-1] in _COUNT_UP)):
        return False
    if pp and pp.w == "back" and sentence_has(at.r, at.i, "item", "queen_noun") and not (at.q and at.q.label in NP):
        return True  # "took the wet supers back to forty and forty one"
    if (
        pp
        and (pp.label == "number" or "frame" in pp.w)
        and _GIVES & {m.w for m in at.r.row[max(0, at.i - 4) : at.i - 2]}
    ):
        return at.r.outfit.could_be(id_of(at.m))  # "gave two frames of brood to nine", "gave one to nine"
    if pp and pp.label == "number" and pp.v["n"].value < _FEW and (join := at.r.at(at.i - 3)) is not None:
        given = join.w in ("and", "then") and sentence_has(at.r, at.i, "amount", *_MADE_NUMBERS)
        given = given and any(m.w == "to" for m in at.r.row[max(0, at.i - 12) : at.i - 3])
        return given and at.r.outfit.could_be(id_of(at.m))  # "a gallon to 41 and two to | 42"
    if pp and pp.label in ("amount", "unit", "each") and at.q is not None and at.q.label in NP:
        return False
    if pp and pp.label in ("amount", "unit", "each"):
        return at.r.outfit.could_be(id_of(at.m))  # "fondant: 1 kg to 5"
    return sentence_has(at.r, at.i, "change", "queen_work") or bool(pp and pp.label in _GIVEN_TO)


_GIVEN_TO = frozenset("verb pronoun queen_noun feed ratio item form agent cols thing".split())
_GIVES = frozenset("gave give gives giving given".split())
_MADE_NUMBERS = frozenset("item noun fact feed form agent".split())


def _given_of_those(at: Spot) -> bool:
    """ "took two frames off four and gave one to nine": so many of the things named before, to the hive after it."""
    if at.number.value >= _FEW or not sentence_has(at.r, at.i, *_MADE_NUMBERS):
        return False
    end = at.r.on(at.r.on(at.r.on(at.i)))
    after = at.r.at(end)
    if after is not None and after.w == "and" and (then := at.r.at(at.r.on(end))) is not None:
        return then.label == "number" and (to := at.r.at(at.r.on(at.r.on(end)))) is not None and to.w == "to"
    return after is None or after.label in ("stop", "line", "comma", "date", "filler") or after.w in _ENDS_GIVING


_ENDS_GIVING = frozenset("so then too instead as".split())


def _after_preposition(at: Spot, p: Mark) -> bool:
    """ "in 12", but "in 12 days", "in 300" bees."""
    q, pp, value, known = at.q, at.pp, at.number.value, at.r.outfit.known
    if p.w == "from" and at.r.checking and pp is not None and pp.w in CAME_DOWN and q is not None and q.w == "to":
        return False  # "seven went from twelve to one"
    if q and q.label == "hives" and q.w.endswith(("of them", "of em")) and pp and pp.label in ("form", "item"):
        return True  # "hop strips in nine | two of them"
    if q and q.label in ("days", "degrees", "hives") and q.w.split()[0] not in ("for", "over"):
        return p.w == "under" and pp is not None and pp.label == "method"  # "the board under 74 for two days"
    if p.w == "in" and value in (100, 200, 300, 400, 500, 600) and (at.last == "value" or not known):
        return False
    return not (p.w == "of" and value >= 100 and not known)


_TOPPLED = frozenset("knocked tipped blew blown pushed flipped turned bowled toppled".split())


def _after_verb(at: Spot, p: Mark, subject: bool) -> bool:
    """ "fed 12" names a colony, "got 12" counts."""
    if p.w in ("dropped", "dropping") and at.r.checking:
        return False  # "seven dropped nineteen and ten dropped two"
    q, after, r = at.q, at.after, at.r
    if p.w == "gave" and r.checking and after is q and q is not None and q.w.split()[0] in _A_THING:
        return True  # "gave twenty four a wash"
    somebody = at.pp is None or at.pp.label in ("stop", "line", "filler") or at.pp.w in ("i", "we", "he", "she")
    if p.w == "gave" and somebody and q is not None and q.label == "number" and next_is_higher_colony(r, at.i, q):
        return True  # "gave forty forty one and forty two their formic"
    if p.w in ("gave", "give") and q is not None and q.label == "number" and at.z is not None and at.z.label in NP:
        return True  # "gave eleven two strips"
    if p.w in ("gave", "give", "given") and q is not None and q.w == "to" and rises_to_colony(r, at.i):
        return not _given_of_those(at)  # "gave 40 to 44 a gallon each"
    if p.w in _GIVES and q is not None and q.w == "to" and at.z is not None and at.z.label == "colony":
        return False  # "gave one to n six"
    if q is not None and q.w == "on" and at.z is not None and at.z.w == "top":
        return True  # "stacked 51 on top of 53"
    if p.w in ("given", "giving", "give"):
        return q is not None and (
            q.label in ("number", "thing") or q.label in NP or q.w in ("a", "an", "the", "some", "its")
        )
    if p.w in ("got", "gave", "gets", "get", "found", "counted"):
        if q is not None and q.label == "each" and q.w.split()[0] in ("a", "per"):
            return False  # "larks gets six per hive"
        return (
            p.w in ("gave", "gets", "get")
            and after is not None
            and after.label not in ("stop", "line", "comma")
            and not (r.checking and after is q)
        )
    if p.w.split()[-1] in ("in", "into", "on"):
        return _after_preposition(at, p)
    words = p.w.split()
    if p.w == "came out" and r.checking and at.last == "cols" and not sentence_has(r, at.i, "form", "item", "agent"):
        return False  # "the roll on 72 came out six"
    if words[-1] in ("off", "out") and (words[0] in ("come", "comes", "came") or len(words) > 2):
        return True  # "supers come off 51 and 52 friday", "got them off 51"
    if words[-1] == "off" and _taken_off_here(at):
        return True  # "the excluder got pulled off nine"
    does = p.v.get("does")
    if does in ("do", "feed", "treat", "inspect") and q and q.w == "to" and rises_to_colony(r, at.i):
        return True  # "doing 13 to 18 saturday", "fed 40 to 45 a gallon each"
    if does in ("treat", "inspect", "feed", "do"):
        return not (q and q.label in NP and does != "feed") and not (q and q.w in ("to", "of"))
    if p.w in ("took", "take") and any(
        x.v.get("step") == "combined" and "paper" in x.w for x in r.row[at.i : at.i + 6]
    ):
        return True  # "took forty eight and forty nine and | stacked them with newspaper onto …"
    if p.v.get("dir") and id_of(at.m) in r.outfit.ids and at.number.value > _FEW_STRIPS:
        closes = q is None or q.label in ("date", "stop", "line", "comma", "filler") or q.w in ("and", "too", "then")
        told = at.number.value > MOST_GIVEN or sentence_has(r, at.i, "form", "agent", "item")
        if closes and after is q and told:
            return True  # "strips out of nine, i will pull twelve monday"
    return subject and (
        p.v.get("dir") is None or (after is not None and after.w in ("had", "has", "was", "is", "are", "were"))
    )


def _taken_off_here(at: Spot) -> bool:
    """Whether the thing that was taken off stands before the verb: what follows it is where, unless it is counted."""
    thing = at.pp
    if thing is not None and thing.w in _WAS:
        thing = at.r.at(at.r.back(at.r.back(at.r.back(at.i))))
    return thing is not None and thing.label in THINGS and not (at.q is not None and at.q.label in NP)


_WAS = frozenset("got was were is are".split())
_SO_IT_IS = frozenset("has is looks feels seems smells needs got gets isn't hasn't doesn't swarmed".split())


def _after_check(at: Spot, p: Mark, subject: bool) -> bool:
    """ "washed 12" names a colony; a number after a colony and a method counts."""
    pp = at.pp
    if subject and pp is not None and pp.v.get("cue") == "not" and pp.w.split()[-1] in ("get", "got"):
        return id_of(at.m) in at.r.outfit.ids  # "fifty eight didn't get tested | forty five one swarm cell"
    if pp and pp.w in ("had", "has") and at.last == "cols":
        return False  # "l26 had rolled ten or eleven"
    if at.q is not None and at.q.w == "of" and at.z is not None and at.z.w in ("the", "those", "these", "my", "our"):
        return False  # "rolled two of the splits"
    if p.label == "method":
        if pp and ((pp.label == "cue" and pp.v.get("cue") in ("plan", "not")) or pp.w in ("i", "we", "to")):
            return True
        if p.w.split()[-1] in _CHECKS_IN_NUMBERS:
            return True  # "alcohol washes sixty one one sixty two none"
    if p.label == "method" and at.q is not None and at.q.w in _SO_IT_IS and told_alone(at.r, at.i, at.q):
        return True  # "sixty two i never read that board | sixty has queen cells"
    if p.label == "method" and at.q is not None and at.q.w.split()[0] == "came" and id_of(at.m) in at.r.outfit.ids:
        return True  # "a super on nineteen, alcohol wash nineteen came in at three percent"
    if p.label == "check" and id_of(at.m) in at.r.last_ids:
        return True  # "15 no eggs recheck 15 sunday"
    return at.last != "cols" or bool(p.v.get("verb", False) and p.w.endswith("ed"))


def _told_of_alone(at: Spot, subject: bool) -> bool:
    """ "needs hop strips, | 77 got robbed too", "one pad, | 79 feels empty": a colony of the roster, by what is said of
    it; no number that things are counted in.
    """
    q = at.q
    if q is not None and q.w in ("i", "we") and told_alone(at.r, at.i, q):
        return True  # "fifty got a brood box | forty three we never washed"
    if q is not None and q.w == "gave" and told_alone(at.r, at.i, q):
        return True  # "a tray of thymol gel | twenty one gave me seven mites"
    if not subject or q is None or at.number.value <= MOST_GIVEN or id_of(at.m) not in at.r.outfit.ids:
        return False
    if q.w == "went" and at.z is not None and at.z.w == "from":
        return True  # "after the strips | fifty three went from fourteen down to zero"
    if q.w in ("just", "only", "still") and at.z is not None:
        if at.z.label == "fact" or at.z.w in ("a", "an") or at.z.w.split()[0] in ONE_HIVE_VERBS:
            return True  # "two strips | forty two only got one", "got a brood frame | fifty two just chalkbrood"
    seen = ("fact", "change", "clean", "mites", "percent", "cue")
    return q.label in seen or (
        q.w.split()[0] in ONE_HIVE_VERBS and at.z is not None and at.z.label not in ("form", "agent")
    )


def _after_treatment(at: Spot, p: Mark, subject: bool) -> bool:
    """ "oxalic 12" names a colony, "strips 2 each" counts."""
    q = at.q
    if _told_of_alone(at, subject):
        return True
    counted = q and (q.label == "each" or q.label in NP or q.w in ("in", "on", "into", "per", "to", "for"))
    return not counted and (p.label == "agent" or bool(p.v.get("treats")))


def _after_change(at: Spot, p: Mark, subject: bool) -> bool:
    """ "requeened 12" names a colony, "sold 12 nucs" counts."""
    q, step = at.q, p.v.get("step")
    if step in ("sold", "bought") and (q is None or q.label in ("stop", "line", "comma")):
        return True
    if p.w.split()[-1] in ("of", "from", "off"):
        return True
    if step == "cells_placed" and p.w.split()[-1] in ("in", "into") and not (q and q.label in NP):
        return True  # "ripe cells go in seventy one"
    if p.w.split()[-1] in PREPS and at.number.value > MOST_GIVEN and id_of(at.m) in at.r.outfit.ids:
        return True  # "released the caged queen in 44 | amitraz strips in 41"
    if q and q.label in NP:
        return False
    return subject or step not in _COUNTED_CHANGES


def _placed_hive(at: Spot) -> bool:
    """Whether "hive three" stands right before the yard before the number, and the number ends what is said of it."""
    row, k = at.r.row, at.i - 2
    while k > 0 and row[k].w in ("at", "in", "the", "over"):
        k -= 1
    hive = row[k].label == "colony" or (row[k].label == "number" and k > 0 and row[k - 1].label == "hive")
    q = at.q
    closed = (
        q is None
        or q.label in ("hive", "stop", "line", "comma", "filler", "sample", "method")
        or q.w in ("and", "so", "alcohol", "soap")
    )
    return hive and closed


def _after_thing_or_yard(at: Spot, p: Mark, subject: bool) -> bool | None:
    """ "supers 12, 14", "Quarry 12"."""
    q = at.q
    if p.label in ("item", "feed") and _told_of_alone(at, subject):
        return True
    if (
        p.label in ("item", "feed")
        and q
        and q.w in ("has", "had", "is", "was", "looks")
        and at.z
        and at.z.label == "fact"
    ):
        return True  # "it got one super | forty one has six frames of brood"
    if p.label in ("item", "feed") and q and q.label in ("comma", "line", "stop", "w"):
        if q.w not in ("in", "on", "each"):
            return at.starts and q.label != "w"
    few = at.number.value <= 12 and q is not None and q.w in ("in", "on") and at.z is not None
    named = at.z is not None and (at.z.label in ("colony", "hive") or (at.z.label == "number" and at.last == "each"))
    if p.label == "yard" and at.r.checking and at.last == "cols" and _placed_hive(at):
        return False  # "hive three at the quarry | thirteen"
    if p.label == "yard" and few and named:
        return False  # "a trap in every hive at the sawmill | two in s nine"
    if p.label == "yard" and q is not None and q.w in ("for", "per") and at.z is not None and at.z.w in _A_THING:
        return False  # "pads at wens, two for the doubles"
    return True if p.label == "yard" and not (q and q.label in NP and q.label != "noun") else None
