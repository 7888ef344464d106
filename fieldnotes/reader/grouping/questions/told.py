"""Colonies by what is told of them: what they are or have, a cue before them, a pronoun that names them."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.lists.behind import got_nothing
from fieldnotes.reader.grouping.row import JOIN, NP, ONE_HIVE_VERBS, RANGE, id_of, past_the, sentence_has
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.mark import FOUND_IN_ALL, MOST_GIVEN, REACH, SEEN_AT, THINGS

_GOVERNS = listed("passed_over") | {"to", "do", "on", "for", "with", "at", "reach", "owe"}


def those_ones(at: Spot) -> bool | None:
    """ "the bad ones were three nine and fifteen", "those that had six were nine": colonies, no counts."""
    if at.p is None or at.p.w not in ("were", "are") or not at.r.outfit.could_be(id_of(at.m)):
        return None
    near = at.r.row[max(0, at.i - 8) : at.i]
    return True if any(m.label == "thing" and m.w.endswith("ones") for m in near) else None


def left_undone(at: Spot) -> bool | None:
    """ "not done: 73 and 79", "not washed: 7": what was left undone, and behind the colon where."""
    if at.p is None or at.p.w != ":" or at.pp is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if at.pp.label == "heading":
        return True if at.pp.v.get("state") == "not_done" else None
    k = at.r.back(at.r.back(at.r.back(at.i)))
    denied = at.r.at(k) if at.pp.label in _WORK else at.pp
    return True if denied is not None and denied.v.get("cue") == "not" else None


_WORK = frozenset(["method", "verb", "item", "agent", "queen_work"])


def told_in_aside(at: Spot) -> bool | None:
    """ "44, which died in March, …", "6, in which I saw two cells": a colony of which something is told in passing."""
    if (at.p is not None and at.p.label not in ("stop", "line")) or at.q is None or at.q.label != "comma":
        return None
    k = at.r.on(at.r.on(at.i))
    which = at.r.at(at.r.on(k)) if at.z is not None and at.z.w in SEEN_AT else at.z
    return True if which is not None and which.w in ("which", "where") and id_of(at.m) in at.r.outfit.ids else None


def named_in_commas(at: Spot) -> bool | None:
    """ "the two by the gate, 71 and 72, still need guards", "the weak one, 52, got a patty": which those are."""
    r, k, many = at.r, at.i, 0
    that_is = at.p is not None and at.p.w in ("that's", "thats") and at.pp is not None and at.pp.label == "comma"
    if at.p is None or at.q is None or not (at.p.label == "comma" or that_is) or not r.outfit.could_be(id_of(at.m)):
        return None
    while (m := r.at(k)) is not None and (m.label in ("number", "comma") or m.w in JOIN):
        if k > at.i + REACH:
            return None  # hives named in passing are few, and every one of them asks
        many += m.label == "number"
        k += 1
    ends = m is None or m.label in ("stop", "line")
    said = m is not None and (m.label in _SAID_OF_THOSE or m.w in _THEY_DO) and r.row[k - 1].label != "number"
    said = said or (that_is and m is not None and m.w in ("a", "an") and r.row[k - 1].label == "comma")
    if not ends and not said:
        return None
    for j in range(at.i - 2 - that_is, max(-1, at.i - 12), -1):
        m, before = r.row[j], r.row[j - 1] if j else None
        if m.label in ("stop", "line", "comma"):
            return None
        one = m.w == "one" and before is not None and before.label == "fact"
        numbered = m.label == "number" and before is not None and (before.w in _THOSE or before.label == "fact")
        if one or numbered or (m.label == "pronoun" and "n" in m.v):
            return True if one or m.v["n"].value == many else None
        if (m.label == "thing" and m.w.endswith("ones")) or m.label == "hives" or m.w in ("the pair", "pair"):
            return True if many > 1 else None
    return None


_SAID_OF_THOSE = frozenset("verb cue change each amount".split())
_THEY_DO = frozenset("have has had are is were was still both all got get never".split())
_THOSE = frozenset("the my our those these".split())


def after_cue(at: Spot) -> bool | None:
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


_BESIDE = frozenset("beside behind opposite alongside".split())
_SIDES = frozenset("her him it them that".split())


def beside_her(at: Spot) -> bool | None:
    """ "and 45 beside her is weak", "the odd thing is 61 was flying already": a colony, by what is said of it."""
    p, q, z = at.p, at.q, at.z
    if q is None or at.r.checking or at.number.value < 3 or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if q.w in _BESIDE and z is not None and z.w in _SIDES:
        return True
    return True if p is not None and p.w == "is" and q.w in ONE_HIVE_VERBS and at.last != "cols" else None


def those_are(at: Spot) -> bool | None:
    """ "swarm cells in three hives, that's 4, 7 and 9": the colonies meant are named."""
    p, end = at.p, at.after
    if p is None or p.w not in _NAMED_BY or at.r.checking or end is at.q or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if p.w in ("are", "was", "were") and (at.pp is None or at.pp.w not in ("those", "these", "they", "that")):
        return None
    if end is not None and end.w == "and":
        last = at.r.at(at.after_index + 1)
        end = at.r.at(at.after_index + 2) if last is not None and last.label == "number" else end
    ends = end is None or end.label in ("stop", "line") or end.w in RANGE
    return True if ends else None


_NAMED_BY = frozenset("that's thats they're theyre those're are was were".split())
_IS_IT = frozenset("has had is was needs wants i we he she".split())


def after_okay(at: Spot) -> bool | None:
    """ "four is okay five is dead": "okay" ends what is said of the one before."""
    near = at.r.row[max(0, at.i - 2) : at.i]
    okay = len(near) == 2 and near[1].w in _OKAY and near[0].w in _IS_OKAY
    if not okay or at.q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    return True if at.q.label in ("fact", "change", "cue") or at.q.w in _IS_SO else None


_OKAY = frozenset(["okay", "ok", "alright", "good", "fine"])
_IS_OKAY = frozenset(["is", "'s", "are", "was", "looks", "seems", "looked", "seemed"])


def with_any_other(at: Spot) -> bool | None:
    """ "so three and anything over nine gets formic", "pads in 4 and all the others"."""
    if at.q is None or at.q.w != "and" or at.z is None or at.z.w.split()[0] not in _ANY_OTHER:
        return None
    return True if at.p is not None and at.p.w in ("so", "but", "then") and at.r.outfit.could_be(id_of(at.m)) else None


_ANY_OTHER = frozenset("anything anyone everything anybody everybody those".split())


def fondly(at: Spot) -> bool | None:
    """ "oh poor seventy four, it's dead", "old nine is booming", "good little 12 she's heavy"."""
    p, q = at.p, at.q
    a_little = at.pp is not None and at.pp.w == "a"
    if p is None or p.w not in _FONDLY or a_little or q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if q.label == "comma":
        q = at.z
    told = q is not None and (q.label in ("fact", "change", "cue") or q.w in _IS_SO)
    return True if told else None


_FONDLY = frozenset("poor old little dear".split())
_IS_SO = frozenset("it's she's its is was has had 's got looks looked".split())


def alone_after_pronoun(at: Spot) -> bool | None:
    """ "that's 12", "it's 12 now", "it's 12 that's dead"."""
    p, q, pp = at.p, at.q, at.pp
    named = p and (p.w in ("that's", "it's", "its") or (p.w == "is" and pp and pp.w == "that"))
    if named and q and q.w in ("that's", "that", "which"):
        z = at.z
        return True if z and (z.label in ("fact", "change", "verb") or z.w in _IS_IT) else None
    if p and p.w == "be" and pp and pp.label == "cue" and q and q.w in ("there", "now"):
        named = True  # "moved 50 to the pond, it'll be twenty five there"
    if named and p and p.w == "it's" and at.last == "value" and at.r.checking and at.number.value <= _MOST_COUNTED:
        if not sentence_has(at.r, at.i, "change"):
            return False  # "twelve before the vape and it's two now"
    return True if named and (q is None or q.w in ("now", "there") or q.label in ("stop", "line")) else None


def planned_with_date(at: Spot) -> bool | None:
    """ "gotta wash fifty nine in ten days and | sixty two in a month"."""
    if not (at.p and at.p.w == "and" and at.q and at.q.label == "date"):
        return None
    near = at.r.row[max(0, at.i - 12) : at.i]
    return True if any(x.label == "cue" and x.v.get("cue") == "plan" for x in near) else None


def should(at: Spot) -> bool | None:
    """ "should 9 go queenless"."""
    p, q = at.p, at.q
    asked = p and p.label == "cue" and p.w == "should" and at.pp is None
    return True if asked and q and q.label in ("verb", "w", "fact", "change") else None


def said_again(at: Spot) -> bool | None:
    """ "twenty one was um twenty one was seven"."""
    again = at.i and at.r.row[at.i - 1].label == "filler" and at.last == "cols"
    return True if again and at.r.last_ids == [id_of(at.m)] else None


def all_over(at: Spot) -> bool | None:
    """ "wasps all over seventy seven"."""
    p, pp = at.p, at.pp
    return True if p and p.w == "over" and pp and (pp.label == "fact" or pp.w == "all") else None


def only_these(at: Spot) -> bool | None:
    """ "light: 43 and 49 | empty just fifty eight"."""
    p, q, pp = at.p, at.q, at.pp
    named = p and p.w in ("just", "only") and pp and pp.label == "fact" and "n" not in pp.v
    if p and p.w == "is" and pp and pp.label == "fact" and not FOUND_IN_ALL.isdisjoint(pp.v.get("set", {})):
        named = q is None or q.label in ("stop", "line", "comma", "filler")  # "… weak is nine"
    return True if named and (q is None or q.label not in NP or at.number.value > 9) else None


def that_was(at: Spot) -> bool | None:
    """ "um fifty seven that was maybe a hundred"."""
    q, z = at.q, at.z
    said = q and z and q.w == "that" and z.w in ("was", "had", "is", "came") and at.r.row[at.i - 1].label == "filler"
    return True if said and at.last != "cols" and at.r.outfit.could_be(id_of(at.m)) else None


def same_again(at: Spot) -> bool | None:
    """ "the one next to it, forty four, same"."""
    q, z = at.q, at.z
    ends = z is None or z.label in ("filler", "stop", "comma", "line", "number", "colony", "hive")
    the_same = q is not None and q.w == "the" and z is not None and z.w == "same" and at.starts
    return True if (q and q.w == "same" and ends and at.number.value > 1) or the_same else None


def placed_subject(at: Spot) -> bool | None:
    """ "fifteen and sixteen at the quarry got their supers pulled": colonies, their yard, and what of them."""
    after = at.after
    if not at.starts or after is None or after is at.q or after.w not in ("at", "in"):
        return None
    k = past_the(at.r, at.r.on(at.after_index))
    yard, verb = at.r.at(k), at.r.at(at.r.on(k))
    said = verb is not None and (verb.w in at.r.subject_verbs or verb.label in ("fact", "change") or verb.w == "got")
    return True if yard is not None and yard.label == "yard" and said and at.r.outfit.could_be(id_of(at.m)) else None


def owns_state(at: Spot) -> bool | None:
    """ "… last night, four's dead"."""
    said = at.q is not None and at.q.w == "'s" and at.z is not None and at.z.label in ("change", "fact")
    return True if said and at.r.outfit.could_be(id_of(at.m)) else None


def plural_subject(at: Spot) -> bool | None:
    """ "the deal is twenty two and twenty four are getting combined": two or more of which something is said."""
    p, after = at.p, at.after
    listed = at.q is not None and (at.q.w == "and" or at.q.label == "comma") and after is not at.q
    said = after is not None and (after.w in _PLURAL or after.w.split()[0] in _PLURAL)
    opens = p is None or p.label in ("filler", "comma", "stop", "line") or p.w in ("is", "that", "so", "then", "and")
    opens = opens or at.r.row[at.i - 1].label == "filler" or (p is not None and p.w.endswith(_OF_THEM))
    falls = p is not None and p.label == "number" and at.last == "cols" and at.number.value > _MOST_COUNTED
    opens = opens or (falls and p is not None and p.v["n"].value > at.number.value)  # "on 56 | 49 and 56 got a super"
    if listed and said and opens and at.number.value > 1 and at.r.outfit.could_be(id_of(at.m)):
        return True
    return _plural_after_thing(at)


_OF_THEM = (" of them", " of em", " of those")


def _plural_after_thing(at: Spot) -> bool | None:
    """ "got one pollen patty | forty three and forty eight are light": after a thing, too many to count it."""
    if at.p is None or not (at.p.label in NP or at.p.label in ("each", "same_day", "date") or at.p.w == "well"):
        return None
    k, joined = at.i, False
    while (m := at.r.at(k)) is not None and (m.label in ("number", "comma") or m.w == "and"):
        if m.label == "number" and (m.v["n"].value <= _MOST_COUNTED or id_of(m) not in at.r.outfit.ids):
            return None
        joined = joined or m.w == "and"
        k += 1
    return True if joined and m is not None and m.w.split()[0] in _PLURAL else None


_MOST_COUNTED = 24
"""A hive never gets more of anything than this."""


def how_warm(at: Spot) -> bool | None:
    """ "flow's off up there and it's seventy three": a temperature, though the roster has such a hive."""
    p, q = at.p, at.q
    if p is None or p.w not in _IT_IS or (q is not None and q.label not in _CLOSES and q.w not in ("and", "out")):
        return None
    told = any(m.label in ("sky", "temp") for m in at.r.row[max(0, at.i - 6) : at.i])
    return False if told and at.last != "cols" and at.number.value > _COLDEST else None


_IT_IS = frozenset(["it's", "its", "it is", "is"])
_CLOSES = frozenset("stop line comma filler date sky".split())
_COLDEST = 20
"""A lower number after "it's" is hardly a temperature at which anybody opens hives."""


def several_so(at: Spot) -> bool | None:
    """ "clear and windy | two six and fourteen are light", "found six nine and eleven dead": several that rise, and
    what they are or have.
    """
    k, last, n = at.i, 0.0, 0
    if at.p is None or not (at.p.label in ("sky", "temp") or at.p.w == "found"):
        return None
    while (m := at.r.at(k)) is not None and (m.label == "number" or m.w == "and"):
        if m.label == "number":
            if m.v["n"].value <= last or not at.r.outfit.could_be(id_of(m)):
                return None
            last, n = m.v["n"].value, n + 1
        k += 1
    said = m is not None and (m.label == "fact" or m.v.get("step") == "died" or m.w.split()[0] in _PLURAL)
    return True if said and n > 1 else None


_PLURAL = frozenset("are were have get got need both".split())
_BEFORE_NEXT = frozenset("and then but yet now too either".split())


def has_none_of(at: Spot) -> bool | None:
    """ "and fifty three no chalkbrood": a sign that is not there is not there in a colony."""
    q, p = at.q, at.p
    absent = q is not None and q.label == "ignore" and q.w.startswith("no ")
    joined = p is None or p.label in ("filler", "comma", "fact", "stop", "line") or p.w in _BEFORE_NEXT
    joined = joined or (at.last == "cols" and p is not None and p.label == "number" and at.number.value > MOST_GIVEN)
    return True if absent and joined and at.r.outfit.could_be(id_of(at.m)) else None


def looks_like(at: Spot) -> bool | None:
    """ "forty five looks like it's about to swarm"."""
    q = at.r.at(at.i + 1)
    said = q is not None and q.label == "filler" and q.w.split()[0] in ("looks", "seems", "feels", "sounds", "smells")
    return True if said and at.starts else None


def other_hive_meant(at: Spot) -> bool | None:
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


def meant_hive(at: Spot) -> bool | None:
    """ "56 swarmed I mean fifty seven um | pads out of fifty": what was meant, by the pause no number of pads."""
    r = at.r
    meant = at.p is not None and at.p.v.get("cue") == "correct" and not r.checking and at.number.value > MOST_GIVEN
    paused = at.i + 1 < len(r.row) and r.row[at.i + 1].label == "filler"
    return True if meant and paused and r.outfit.could_be(id_of(at.m)) else None


_AFTER_DID = frozenset("and but so then too though".split())


def did_get_it(at: Spot) -> bool | None:
    """ "44 didn't get strips | forty five did": which others did get what was not given."""
    did = at.after
    if did is None or did.w not in ("did", "had") or not at.r.outfit.could_be(id_of(at.m)):
        return None
    k = at.after_index if did is not at.q else at.r.on(at.i)
    then = at.r.at(k + 1)
    ends = then is None or then.label in ("stop", "line", "comma", "filler", "number", "colony") or then.w in _AFTER_DID
    near = at.r.row[max(0, at.i - 8) : at.i]
    denied = any(m.v.get("cue") == "not" or False in m.v.get("set", {}).values() for m in near)
    return True if ends and denied else None


_NEAR_THING = 16


def got_none(at: Spot) -> bool | None:
    """ "two strips each in 12 and 14, | fifteen and sixteen none": several that got nothing of what others did."""
    none = at.after
    if none is None or at.r.checking or id_of(at.m) not in at.r.outfit.ids:
        return None
    if none is at.q:  # "strips 40-50 two each. | 51 none"
        opens = at.p is not None and at.p.label in ("stop", "line") and got_nothing(at.r, at.after_index)
        given = opens and any(m.label in THINGS for m in at.r.row[max(0, at.i - _NEAR_THING) : at.i])
        return True if given else None
    if at.q is None or (at.q.w not in ("and", "&") and at.number.value <= MOST_GIVEN):
        return None  # "40 one, 41 | two, 42 none"
    return True if got_nothing(at.r, at.after_index) and sentence_has(at.r, at.i, *THINGS, "amount") else None
