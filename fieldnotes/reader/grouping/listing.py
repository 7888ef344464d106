"""Lists and ranges: the colonies named together, from the first on."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import (
    FEW_GIVEN,
    GLUE,
    JOIN,
    NP,
    OF_ONE,
    ONE_HIVE_VERBS,
    PREPS,
    RANGE,
    Row,
    after_list,
    each_after,
    each_does,
    id_of,
    number_in,
    range_here,
    rises_to_colony,
    sentence_has,
    whole,
)
from fieldnotes.reader.mark import THINGS, Mark, is_others
from fieldnotes.reader.outfit import Outfit
from fieldnotes.roster import id_parts

_THEIR_VERBS = frozenset("only just are were have get both stay stays keep".split())
_AFTER_HIVES = frozenset("stop line comma number filler method verb fact change".split())
_OF_SEVERAL = frozenset("and then got have had are were all both".split())
_SAID_OF_LIST = frozenset("and then ( they've they're they".split())
LONGEST_RANGE = 400


@dataclass(slots=True)
class _Listing:
    """A list being read: its first mark (maybe a hive word), the mark before that, the letter of its ids, the ids."""

    r: Row
    first: int
    before: Mark | None
    letter: str
    hive_first: bool
    explicit: bool  # a hive word or a full id begins it
    ids: list[str]

    @property
    def after_same(self) -> bool:
        """Whether "same as" stands before the list."""
        return self.before is not None and self.before.label == "same"

    @property
    def plural(self) -> bool:
        """Whether "hives" or "colonies" begins the list, so that several numbers are due."""
        return self.r.row[self.first].label == "hives"

    @property
    def governed(self) -> bool:
        """Whether a word before the list takes it as its object."""
        p = self.before
        return p is not None and (
            p.label in ("verb", "method", "same")
            or p.w in PREPS
            or p.w in ("to", "at")
            or (p.label == "form" and bool(p.v.get("treats")))
        )


def colonies_from(r: Row, i: int, first: int) -> tuple[Mark, int]:
    """The list or range of colonies that begins at mark `i` (its hive word at `first`), and the index after it."""
    row = r.row
    bare = row[i].label == "number"
    of = _Listing(r, first, r.at(r.back(first)), _letter(row[i]), first < i, first < i or not bare, [])
    more = [i]
    while more:
        of.ids += [_as_id(row[x], of.letter, r.outfit) for x in more[:-1]]
        named = _same_ten(of, _as_id(row[more[-1]], of.letter, r.outfit))
        found, end = _range_or_one(of, more[-1], named)
        of.ids += [x for x in found if x not in of.ids]
        more = _goes_on_at(of, end, named)
    text = " ".join(x.w for x in row[first : end + 1])
    value = {"ids": of.ids, "bare": bare, "hive": first < i}
    return Mark("cols", row[first].s, row[end].e, text, value, "colonies"), end + 1


def _same_ten(of: _Listing, named: str) -> str:
    """ "seventy three and four": the next one of the same ten, where the yard of the first has no colony four."""
    last = of.ids[-1] if of.ids else ""
    if len(named) != 1 or not last.isdecimal() or int(last) < 20 or int(last) % 10 + 1 != int(named):
        return named
    yards = of.r.outfit.ids.get(last, ())
    meant = str(int(last) + 1)
    near = [of.r.outfit.ids_at(yard) for yard in yards]
    return meant if near and all(meant in ids and named not in ids for ids in near) else named


def _range_or_one(of: _Listing, j: int, named: str) -> tuple[list[str], int]:
    """The ids of the range that begins at `j` and the index of its last mark; only `named` where none begins."""
    r = of.r
    upward = _upward(of, j, named)
    if upward:
        return upward
    sign, end = r.at(j + 1), j + 2
    if (hive := r.at(end)) and hive.label == "hive":
        end += 1
    far = r.at(end)
    if not (sign and sign.w in RANGE and far and (far.label == "colony" or (far.label == "number" and whole(far)))):
        return [named], j
    if sign.w == "to" and (owns := r.at(end + 1)) is not None and owns.w == "'s":
        return [named], j  # "moved hive two to hive five's spot"
    ids = _between(named, _as_id(far, of.letter, r.outfit))
    known = of.explicit or sign.w != "to" or (ids and all(r.outfit.could_be(x) for x in (ids[0], ids[-1])))
    return (ids, end) if ids and known else ([named], j)


def _upward(of: _Listing, j: int, named: str) -> tuple[list[str], int] | None:
    """ "L15 up", "40 and upwards": from that colony to the last of its yard, by the roster."""
    r = of.r
    k = j + 2 if (m := r.at(j + 1)) is not None and m.w in ("and", "on") else j + 1
    word, after = r.at(k), r.at(k + 1)
    if (
        word is None
        or word.w not in _UP
        or not (
            word.w != "up"
            or after is None
            or after.label in ("stop", "line", "comma", "cue", "verb", "date", "number", "clean", "each", "filler")
            or after.w in _THEY_DO
        )
    ):
        return None
    yards = r.outfit.ids.get(named, ())
    if len(yards) > 1:
        told = [m.v["value"] for m in r.row[:j] if m.label == "yard"]
        yards = tuple(yard for yard in yards if told and yard == told[-1])
    ids = list(r.outfit.ids_at(yards[0])) if len(yards) == 1 else []
    later = ids[ids.index(named) :] if named in ids else []
    alike = [x for x in later if id_parts(x)[0] == id_parts(named)[0]]
    return (alike, k) if len(alike) > 1 else None


_THEY_DO = frozenset(
    "i we they still are have get gets got had has stay stays keep need needs will don't didn't haven't".split()
)
_UP = frozenset("up upward upwards onward onwards".split())


def _past_joins(of: _Listing, j: int) -> tuple[int, bool]:
    """The index after commas, "and", fillers and hive words that follow `j`, and whether any of them joins."""
    r, before, k, joined = of.r, of.before, j + 1, False
    hive_first = of.hive_first
    if (c := r.at(k)) and (c.w == "|" or (c.s - r.row[j].e > 1 and c.label == "number")):
        return k, False  # the next cell of a table
    if (c := r.at(k)) and c.label == "filler" and c.w in ("ok", "okay", "k"):
        return k, False  # "H1 ok, H2 ok, H3 hot"
    while (c := r.at(k)) and (
        c.label == "comma"
        or c.w in JOIN
        or c.label == "filler"
        or (c.w == "not" and joined and before is not None and before.v.get("cue") == "except")
        or c.w == "nor"  # "neither 5 nor 6", "not in sixty one nor in sixty two"
        or (c.w == "'s" and k == j + 1 and (n := r.at(k + 1)) is not None and n.w in ("and", "&"))  # "44's and 45's"
        or (c.label == "hive" and (joined or (k == j + 1 and hive_first and _hive_goes_on(r, k))))
        or (joined and before is not None and before.label == "w" and c.w == before.w and c.w in PREPS)
        or (joined and c.w == "one" and _one_more_under(of, k))
    ):
        joined = joined or c.label == "comma" or c.w in JOIN or c.w == "nor" or (c.label == "hive" and hive_first)
        k += 1
    return k, joined


def _one_more_under(of: _Listing, k: int) -> bool:
    """ "a board under seventy and one under | seventy six": another board."""
    under = of.r.at(k + 1)
    return of.before is not None and of.before.w == "under" and under is not None and under.w == "under"


def _goes_on_at(of: _Listing, j: int, named: str) -> list[int]:
    """The indexes of the next colonies of the list after `j`; none where it ends there."""
    r = of.r
    if r.row[j].label not in ("number", "colony"):
        return []  # "L15 and up"
    if r.going_on == of.first:
        return []  # "four frames of brood in 70, 71 | three, 72 five"
    k, joined = _past_joins(of, j)
    c = r.at(k)
    if c is None or c.label not in ("colony", "number") or (k == j + 1 and c.s - r.row[j].e > 1):
        return []
    if (joined and _begins_another(of, j, k, c)) or _given_to(of, j, k):
        return []
    if not joined and _stands_apart(of, j, k, named):
        return []
    if c.label == "colony":
        return [k]
    if not whole(c) or (not joined and _in_word_after_figures(r.row[j], c)):
        return []  # "supers: 40-44 | one, 45 two"
    if joined and r.checking and _counts_of_checks(of, k):
        return []
    if joined and _extends(r, k, of.letter):
        return [k]
    if k != j + 1 or _upward(of, k, _as_id(c, of.letter, r.outfit)) is not None:
        return []  # "forty to fifty eight | fifty nine and up are getting theirs"
    if of.before is not None and of.before.label == "check" and _rechecked(of, j, k):
        return [k]
    run = _spoken_run(r, j, k, of.letter)
    if run is not None:
        return [] if of.governed and _subjects(r, run[-1]) else run
    if of.plural and _extends(r, k, of.letter) and c.v["n"].value > number_in(r.row[j]):
        q = r.at(r.on(k))
        if q is None or q.label in _AFTER_HIVES or q.w in _OF_SEVERAL:
            return [k]
    if id_of(c) in of.ids:
        return []  # "checked one through six | two and five are light"
    if r.checking and _counted_before(of) and c.v["n"].digits and c.v["n"].value > number_in(r.row[j]):
        q = r.at(r.on(k))
        higher = q is not None and q.label == "number" and q.v["n"].value > c.v["n"].value
        if q is None or higher or q.label in ("stop", "line", "comma", "date") or q.w in ("(", "on", "in", "and"):
            return [k]  # "no mites in 40 41 42"
    if not r.checking and not of.letter and _extends(r, k, of.letter):
        q = r.at(k + 1)
        if of.governed and q is not None and q.label == "number" and c.v["n"].value < number_in(r.row[j]):
            return []  # "a red queen in 52 | 46 two supers off"
        if q is None or q.label in ("stop", "line", "comma", "number", "filler") or q.w in _SAID_OF_LIST:
            return [k]
        if c.v["n"].digits and id_of(c) in r.outfit.ids and (q.label == "date" or q.w == "with"):
            return [k]  # "treat 43 44 fri", "treated 43 44 w formic"
        if q.label == "fact" and c.v["n"].digits and of.before is not None and of.before.w == ":":
            return [k]  # "Quarry: 3 4 | 5 strong"
        if q.label == "amount" and "n" in q.v and c.v["n"].digits and id_of(c) in r.outfit.ids:
            return [k]  # "feed: 41 | 42 2 gal"
        each = r.at(k + 2)
        if q.label in ("amount", "unit") and each is not None and each.label == "each" and id_of(c) in r.outfit.ids:
            return [k]  # "fondant on forty | forty one a kilo each"
    return []


def _stands_apart(of: _Listing, j: int, k: int, named: str) -> bool:
    """Whether the colony at `k`, which no word joins to the list, begins what is told of others."""
    r, c = of.r, of.r.row[k]
    if of.governed and _given(of) and _pair_as_subject(r, k):
        return True  # "the reducer on s four | s two and s three have wasps"
    if of.before is not None and of.before.w in ("to", "into", "with", "onto") and _joins(r, of.first):
        return True  # "newspapered it to l four | l five and six just need room"
    if (owns := r.at(k + 1)) is not None and owns.w in ("'s", "she", "she's", "her"):
        return True  # "let her go in 41 | 42's was still in the cage"
    if c.label != "colony":
        return False
    if r.row[j].label == "colony" and not id_parts(r.row[j].v["value"])[1]:
        return True  # "gave it a cell from q b | l seven and l eight are calm"
    if any(x.w == "and" for x in r.row[of.first : j]) and id_parts(c.v["value"])[0] != of.letter:
        return True  # "out of hives three, seven and eleven | n one and n two"
    closed = any(x.w == "and" or x.w in RANGE for x in r.row[of.first : j])
    if (closed or of.governed) and _seen_alone(r, k, closed):
        return True  # "two frames in l thirty | l ten a little jumpy", "eggs out of l seven | l twelve booming"
    if _somebodys(r, k) and (closed or (of.governed and r.row[k + 1].label not in GLUE)):
        return True  # "in h one through h four | h five i didn't give any", "sold N1 to N4 | n six i saw her"
    if of.governed and _begins_own(of, k, closed, named):
        return True
    if c.v["value"] == named or c.v["value"] in of.ids:
        return True  # "all of them but l nine | l nine is dead"
    return of.after_same or k != j + 1  # "n four same as n three | n five brood in all stages"


def _begins_own(of: _Listing, k: int, closed: bool, named: str) -> bool:
    """Whether the colony at `k` has its own count, verb or range behind it, where the list before it is governed."""
    r = of.r
    q = r.at(r.on(k))
    falls = _falls(r, k, named)
    if q is not None and q.label == "mites" and (falls or _given(of)):
        return True  # "candy boards on l two l three and l eight | l one nineteen mites"
    if q is not None and q.label == "cue" and q.v.get("cue") == "not":
        return True  # "eleven in l eighteen | l twenty did not get done"
    if closed and _list_as_subject(r, k):
        return True  # "feeders off l two and l six | l nine l ten and l twelve have cells"
    if (closed or _alone_in(r, r.on(k))) and _subjects(r, k):
        return True  # "in s one, s two | s ten gets its patty tomorrow", "caught in l nine | l twelve has"
    if falls and q is not None and (q.w == "to" or q.w in RANGE):
        return True  # "a box on l sixteen | l one through l six two supers each"
    return closed and _range_as_subject(r, k)  # "beetles in l twenty and l twenty one | l one to l three got supers"


def _in_word_after_figures(m: Mark, after: Mark) -> bool:
    """Whether a number in a word follows one in figures: typed so, the one is an id and the other a count."""
    numbers = m.label == after.label == "number"
    return numbers and bool(m.v["n"].digits) and not after.v["n"].digits


def _counted_before(of: _Listing) -> bool:
    """Whether the count of all of them stands before the list ("no mites in")."""
    k = of.r.back(of.first)
    counted = of.r.at(of.r.back(k)) if k > 0 and of.r.row[k].w in ("in", "on", "from", "for") else None
    return counted is not None and counted.label in ("clean", "mites")


def _rechecked(of: _Listing, j: int, k: int) -> bool:
    """ "recheck 41 42 fri": colonies yet to be checked, which have no counts."""
    r = of.r
    to_do = of.before is not None and of.before.w.split()[0] in ("recheck", "check", "retest", "test", "re")
    q = r.at(r.on(k))
    rises = r.row[k].v["n"].digits and r.row[k].v["n"].value > number_in(r.row[j])
    ends = q is None or q.label in ("stop", "line", "date", "number", "comma") or q.w == "and"
    return to_do and rises and ends and _extends(r, k, of.letter)


def _counts_of_checks(of: _Listing, k: int) -> bool:
    """ "did two washes on 44, | six and eight": as many numbers follow the one colony as it had checks."""
    r, method = of.r, of.first - 2
    if len(of.ids) != 1 or method < 1 or r.row[method].label != "method" or r.row[method - 1].label != "number":
        return False
    number = r.row[method - 1].v["n"]
    follow = 0
    while (m := r.at(k)) and (m.label in ("number", "comma") or m.w == "and"):
        follow += m.label == "number"
        k += 1
    return bool(number.value > 1 and follow == number.value)


def _only_so_many(r: Row, i: int) -> bool:
    """Whether a bare number follows the "only" at `i`, and nothing that it counts."""
    k = r.on(i)
    while (m := r.at(k)) is not None and m.w in ("the", "got", "gets"):
        k = r.on(k)
    after = r.at(k + 1)
    bare = after is None or after.label not in ("item", "form", "agent", "feed", "noun", "unit", "amount")
    return m is not None and m.label == "number" and bare


def _took_out(r: Row, k: int) -> bool:
    """Whether a thing follows "took" at `k`: "requeened 72 and 74, took the strips out of 75"; no graft took there."""
    return any(m.label in THINGS for m in r.row[k + 1 : k + 5])


def _given(of: _Listing) -> bool:
    """Whether the list is governed as the place of some thing ("the reducer on s four"), not counted ("three of")."""
    told = (*THINGS, "queen_work", "queen_noun", "fact")
    return of.before is not None and of.before.w != "of" and sentence_has(of.r, of.first, *told)


def _pair_as_subject(r: Row, k: int) -> bool:
    """Whether the colony at `k` and one joined to it are what something is seen in: "s two and s three have wasps"."""
    joins = r.on(k)
    join, other, verb, seen = (r.at(joins + n) for n in range(4))
    if join is None or other is None or verb is None or seen is None:
        return False
    pair = join.w in ("and", "+", "&") and other.label in ("colony", "number")
    if not pair:
        return False
    if verb.w in ("i", "we"):
        # "h ten and h eleven i only took the wraps off", but "in l one l four and l eight i fed l nine"
        return not _done_elsewhere(r, joins + 2)
    return verb.label == "change" or (verb.w in _THEY_HAVE and seen.label in ("fact", "clean"))


_THEY_HAVE = frozenset("have are look were seem had both".split())


def _begins_another(of: _Listing, j: int, k: int, c: Mark) -> bool:
    """Whether the colony at `k`, though joined to the list, begins a statement of its own."""
    r = of.r
    q = r.at(r.on(k))
    owned = r.at(r.on(r.on(k)))
    if q is not None and q.w == "'s" and owned is not None and owned.label in ("item", "form", "agent"):
        return False  # "53 and 54's supers"
    if of.governed and q is not None and q.w in ("only", "just") and not r.checking and _only_so_many(r, r.on(k)):
        return True  # "two each on forty to fifty and | fifty one only the one"
    if q is not None and q.label not in ("stop", "line", "comma") and _as_id(c, of.letter, r.outfit) in of.ids:
        return True  # "thirteen through seventeen and | fourteen had beetles"
    if of.governed and q is not None and q.w in ("i", "we") and owned is not None and owned.w in _PASSED_OVER:
        return True  # "in forty to fifty and | fifty one i skipped"
    if q is not None and q.w in RANGE and range_here(r, k):
        q = r.at(r.on(r.on(r.on(k))))
        plural = ("get", "have", "need", "are", "were", "still")
        if q is not None and q.w.split()[0] in plural and of.governed:
            return True  # "on one through six and | seven through twelve get theirs"
    if q is None or (q.label == "each" and len(of.ids) > 1):
        return False  # "to hive three, hive six and hive eleven each one gallon"
    if c.label == "number" and not r.checking and _in_word_after_figures(c, q) and q.v["n"].value < FEW_GIVEN:
        return each_after(r, r.on(k)) is None  # "supers on 1-8, | 13 none", but "pads in 15 and 16 two pads each"
    if c.label == "number" and q.w == "more":
        return True  # "twenty out of s two and | fifteen more out of s five"
    if c.label == "number" and q.w in PREPS and _rest_at(r, k):
        return True  # "two patties on three and five and | one on everybody else"
    if c.label == "number" and of.before is not None and _put_likewise(of, q) and _named_at(r, k):
        return True  # "six frames of bees in eleven and | ten in twelve"
    if r.row[j + 1].label == "comma" and any(x.w == "and" for x in r.row[of.first : j]) and r.row[k - 1].w != "and":
        if q.label in ("cue", "fact", "change", "mites", "clean") or q.w in r.subject_verbs:
            return True  # "out of 20 and 21, | 22 still to do"
        if r.checking and c.label == "number" and _of_other_yard(of, c):
            return True  # "washed 60 and 63, | 6 and 4"
    if of.before is not None and of.before.v.get("cue") == "except" and q.label in THINGS:
        return False  # "all except two and five | feeders are off at Heath"
    paired = of.before is not None and of.before.w in ("into", "with")  # "split L1, L2 and L3 into …" is one list
    if paired and q.label in ("fact", "clean") and r.row[j + 1].label == "comma" and r.row[k - 1].w != "and":
        return True  # "combining 72 into 73, | 72 weak"
    if paired and sentence_has(r, of.first, "change"):
        far = after_list(r, k) if c.label == "number" else q
        if q.w in ("into", "with") or (far is not None and far.w in ("into", "with", "both") and far is not q):
            return True  # "split twelve into fifteen and | fourteen into sixteen"
    if q.w in ("from", "out", "off") and c.label == "colony" and sentence_has(of.r, of.first, "change"):
        if id_parts(c.v["value"])[0] != of.letter and of.before is not None and of.before.w in ("from", "of", "off"):
            return True  # "made up N1 and N2 from hive six and | N3 from hive seven"
    if len(of.ids) > 1 and q.w in OF_ONE and any(x.w in RANGE for x in r.row[of.first : j]):
        return True  # "l one to l ten and | l eleven stays here"
    if q.w in ("i", "we") and r.row[k - 1].label == "hive" and any(x.label == "filler" for x in r.row[j + 1 : k]):
        return True  # "clipped the one in nine and um | hive eleven i found her"
    if q.label == "cue" and q.v.get("cue") == "plan" and any(x.label == "filler" for x in r.row[j + 1 : k]):
        return True  # "released the one in forty six and um | fifty i'll requeen"
    if of.governed and len(of.ids) == 1 and r.row[k - 1].label == "comma" and _row_of_its_own(of, k, q):
        return True  # "two frames off S9, | S3 nine mites", "a box on 55, | 64 - calm"
    governed = of.governed or _put_by_it(of.before)
    if governed and r.row[k - 1].w == "and" and _several_told_of(of, k):
        return True  # "a trap in five and | one through six are all light"
    if governed and _has_news(of, k, q):
        return True  # "put a super on l twelve and | l seventeen no eggs"
    into = of.before is not None and of.before.w in ("into", "with") and len(of.ids) == 1
    if q.w == "took" and sentence_has(r, of.first, "queen_work") and not _took_out(r, r.on(k)):
        return True  # "20 grafts from 44, | 16 took"
    thing = r.at(of.first - 2)
    # "a trap in fifty three and | sixty two came to one percent"
    told = any(m.label in ("percent", "mites") for m in r.row[k + 2 : k + 5])
    measured = owned is not None and (owned.w == "to" or told) and not sentence_has(r, of.first, "method")
    if (
        of.governed
        and q.w.split()[0] == "came"
        and not measured
        and thing is not None
        and thing.label in ("method", "form", "item")
    ):
        return False  # "the washes in L3 and L4 came back clean"
    one = ONE_HIVE_VERBS | OF_ONE
    alone = any(m.w.split()[0] in one for m in (r.row[k + 1], q))  # "and sixty | looks like it's queenless"
    changed = of.before is not None and (of.before.label in ("change", "queen_work") or of.before.w == "is")
    return alone and (
        of.after_same or governed or changed or into or any(x.label == "filler" for x in r.row[j + 1 : k])
    )


def _put_by_it(before: Mark | None) -> bool:
    """Whether the work before the list says where it was done ("made two splits off", "caged a queen in")."""
    if before is not None and before.label == "item" and before.w.endswith("ed"):
        return True  # "wrapped seventy and seventy one"
    return before is not None and before.label in ("queen_work", "change") and before.w.split()[-1] in PREPS


_DEALT = frozenset("item agent form feed queen_work mites change method".split())
"""What is told of colonies that are governed, so that an observation after the next one is that one's alone."""
_COUNTED = frozenset(["mites", "percent", "clean"])
_TO_A_DEGREE = frozenset("full crawling loaded covered really very pretty quite nothing still".split())
_ALL_OVER = frozenset("over through down around throughout".split())
_WORK = frozenset("fact queen_work method change verb mites".split())
_BEFALLS = frozenset(["died", "swarmed"])
_PLURAL = frozenset("are were both all have look".split())
_NOT_PLURAL = frozenset("haven't aren't weren't don't".split())
_BREAKS = frozenset("stop line question filler comma".split())


def _row_of_its_own(of: _Listing, k: int, q: Mark) -> bool:
    """Whether the colony at `k`, after a comma, opens a row: a sign and what was seen, a check and its count."""
    after = of.r.at(of.r.on(of.r.on(k)))
    if q.w in (">", "-", "–", "|") and after is not None:
        return after.label in ("fact", "queen_noun", "queen_work", "method", "change", "cue", "mites", "item")
    thing = sentence_has(of.r, of.first, *THINGS, "queen_work", "change", "fact")
    counted = q.label == "mites" or (q.label in ("method", "sample") and after is not None and after.label != "comma")
    return thing and counted and not _checked(of)


def _has_news(of: _Listing, k: int, q: Mark) -> bool:
    """Whether what follows the colony at `k` is seen there or done there, while the list before got something."""
    r = of.r
    first = q.w.split()[0]
    frames = any(x.label == "fact" and "frame" in x.w for x in r.row[max(0, of.first - 6) : of.first])
    dealt = frames or _one_queen(of) or sentence_has(r, of.first, *_DEALT)  # "took two frames of brood out of"
    if first in _PLURAL or not (dealt or sentence_has(r, of.first, "fact")):
        return False
    for n in (k + 2, k + 3):
        x, over = r.at(n), r.at(n + 1)
        plural = x is not None and (x.label == "hives" or x.w.split()[0] in _PLURAL)
        if plural and not (over is not None and over.w in _ALL_OVER):
            return False  # "a box each on one and six, strong | all of them", but "chalkbrood | all over"
    if q.label == "cue" and first.endswith("n't") and first not in _NOT_PLURAL:
        worked = sentence_has(r, of.first, "verb", "queen_work", "fact", "mites")
        return worked and not _done_elsewhere(r, r.on(k))  # "off nineteen and | n five didn't find her"
    z = r.at(r.on(r.on(k)))
    if q.w == "took" and z is not None and (z.label in ("item", "number", "form") or z.w in ("the", "a", "an")):
        return True  # "took a super off nine and | twelve took the excluder off"
    if q.label == "number" and z is not None and z.label == "item" and not sentence_has(r, of.first, *THINGS):
        return True  # "seven mites in forty four and | forty seven one super off"
    if q.w in _TO_A_DEGREE:
        return any(x.label == "fact" for x in r.row[k + 2 : k + 4])
    if q.label in ("sample", "method"):  # "into nine and | ten half a cup of bees in alcohol gave eleven"
        return not sentence_has(r, of.first, "method", "sample") and not _done_elsewhere(r, r.on(k))
    if q.label == "fact" and (dealt or q.v.get("number") == "queen_cells"):
        beside = r.row[k + 1] is q or r.row[k + 1].w.split()[0] == "next"  # "56 | next door is | strong"
        return q.rule != "mark" and beside and not _seen_elsewhere(r, k + 2)
    if q.label == "change":
        return dealt and q.v.get("step") in _BEFALLS
    if q.label in _COUNTED or (q.label == "number" and z is not None and z.label in _COUNTED):
        return not _checked(of)
    return first in ("i", "we") and not _done_elsewhere(r, r.on(k))


def _one_queen(of: _Listing) -> bool:
    """ "a virgin in fifty seven and | forty one eggs", "found the queen in six and | nine ants got it": of one hive."""
    near = of.r.row[max(0, of.first - 3) : of.first]
    return any(
        m.label == "fact" and "queen" in m.v.get("set", {}) and m.w.split()[0] in ("a", "the", "found", "saw")
        for m in near
    )


def _several_told_of(of: _Listing, k: int) -> bool:
    """Whether the colony at `k` begins a list or range of its own, of which something is said as of several."""
    r, j, joins = of.r, k, []
    if not sentence_has(r, of.first, *_DEALT, "fact"):
        return False
    while (m := r.at(j)) is not None and (m.label in _LISTED or m.w in ("and", "+") or m.w in RANGE):
        joins += [] if m.label in _LISTED else [m.w]
        j += 1
    closed = any(x.w == "and" for x in r.row[of.first : k - 1])
    if closed and m is not None and m.label == "each" and (got := r.at(j + 1)) is not None and got.w in ("got", "had"):
        return True  # "on each of two, four and six and | fourteen fifteen and sixteen each got a super"
    several = bool(joins) and r.row[k + 1].label not in _LISTED and sum(x in ("and", "+") for x in joins) < 2
    return several and m is not None and _plural_verb(m)


def _plural_verb(m: Mark) -> bool:
    """Whether the mark tells of several colonies: "are", "have", "L15 and L16 | combined"."""
    return m.w.split()[0] in ("are", "were", "have") or m.w == "combined"


_LISTED = frozenset("number colony comma filler".split())


def _checked(of: _Listing) -> bool:
    """Whether the list is of colonies that were checked, and which have the count that follows."""
    r = of.r
    method = next((j for j in range(of.first - 1, max(-1, of.first - 8), -1) if r.row[j].label == "method"), None)
    if method is None:
        return sentence_has(r, of.first, "method")
    return not any(m.label == "cue" and m.v.get("cue") == "not" for m in r.row[max(0, method - 3) : method])


def _done_elsewhere(r: Row, k: int) -> bool:
    """ "strips in nine and twelve | i pulled the board in four": what follows is said of others than the last named."""
    work = False
    for n, m in enumerate(r.row[k : k + 8], k):
        if m.label in _BREAKS or m.w in ("and", "but", "so", "then"):
            break
        after = r.at(n + 1)
        if m.label == "number" and after is not None and after.label in NP:
            continue  # "l ten i put two supers on"
        if m.label in ("number", "colony", "hive", "hives", "rest", "every") or m.w in ("them", "both", "those", "all"):
            return True
        work = work or m.label in _WORK or m.v.get("cue") == "not"
    return not work


def _joins(r: Row, i: int) -> bool:
    """Whether the change that is told just before is one of colonies combined."""
    change = next((m for m in reversed(r.row[max(0, i - 5) : i]) if m.label == "change"), None)
    return change is not None and change.v.get("step") == "combined"


def _of_other_yard(of: _Listing, c: Mark) -> bool:
    """Whether the roster has the list in one yard, and the number only in others."""
    homes = [of.r.outfit.ids.get(x, ()) for x in of.ids]
    return (
        bool(homes)
        and len(set(homes)) == 1
        and len(homes[0]) == 1
        and homes[0][0] not in of.r.outfit.ids.get(id_of(c), ())
    )


def _somebodys(r: Row, k: int) -> bool:
    """Whether somebody does something to the colony at `k` alone ("h five I didn't")."""
    q = r.at(r.on(k))
    return q is not None and q.w in ("i", "we")


_PASSED_OVER = listed("passed_over")


def _put_likewise(of: _Listing, q: Mark) -> bool:
    """Whether `q` governs what follows as the word before the list does ("off forty and three | off forty one")."""
    before = of.before
    if before is None or q.label != "w":
        return False
    return (
        q.w in ("out", "of")
        if before.w == "of"
        else q.w == before.w and q.w in ("in", "on", "off", "from", "for", "under", "into")
    )


def _rest_at(r: Row, k: int) -> bool:
    """Whether "the others", or each of them, stands second after the mark at `k`."""
    k = r.on(r.on(k))
    while (m := r.at(k)) is not None and (m.w in ("of", "the") or m.label in ("each", "every")):
        k = r.on(k)
    return m is not None and (m.label == "rest" or is_others(m))


def _named_at(r: Row, k: int) -> bool:
    """Whether a colony stands second after the mark at `k` ("ten in | twelve")."""
    past = r.on(r.on(k))
    if (third := r.at(past)) is not None and third.w == "of":
        third = r.at(r.on(past))  # "one out of | forty one"
    return third is not None and third.label in ("number", "colony", "hive", "hives")


def _given_to(of: _Listing, j: int, k: int) -> bool:
    """ "1-4 two each, 5 | one", "one each on L1-L8, L9, | two": fewer than its number, after "each", is what it got."""
    c, q = of.r.row[k], of.r.at(of.r.on(k))
    few = c.label == "number" and c.v["n"].value < min(10, number_in(of.r.row[j]))
    ends = q is None or q.label in ("stop", "line", "comma", "number") or q.w in ("and", "at")
    before = of.r.back(of.first)
    if before > 0 and of.r.row[before].w == "and":
        before = of.r.back(before)
    dealt = of.hive_first and not of.r.checking and before >= 0 and of.r.row[before].label in ("number", "hives")
    if dealt and sentence_has(of.r, of.first, *THINGS):
        return few and ends  # "supers off hive three two hive eight one hive fourteen | one"
    return few and ends and sentence_has(of.r, of.first, "each")


def _subjects(r: Row, k: int) -> bool:
    """ "a gallon on 70 through 75 | 76 and 77 only got half": what follows the last, at `k`, is said of them alone."""
    at = r.on(k)
    q = r.at(at)
    while q is not None and q.w in ("still", "already", "on", "and", "up", "upwards") and at < k + 5:
        at += 1
        q = r.at(at)  # "feeders off L1 to L9 | L12 still had syrup"
    if q is not None and q.w in ("just", "only") and _so_many_each(r, r.on(at)):
        return False  # "pads in three five and seven just one pad each"
    return q is not None and (_alone_in(r, at) or q.w in _THEIR_VERBS)


_A_LITTLE = frozenset("a little bit kinda pretty real really very so just still".split())


def _seen_elsewhere(r: Row, at: int) -> bool:
    """Whether what was seen is placed in other colonies by the words at `at`: "in l twenty"."""
    way, other = r.at(at), r.at(r.on(at))
    return way is not None and way.w in PREPS and other is not None and other.label in ("colony", "number", "hive")


def _seen_alone(r: Row, k: int, closed: bool) -> bool:
    """Whether right after the colony at `k` it is said what was seen in it, or what became of it."""
    at = r.on(k)
    while (q := r.at(at)) is not None and q.w in _A_LITTLE and at < k + 5:
        at = r.on(at)
    if q is None:
        return False
    if _seen_elsewhere(r, r.on(at)):
        return False  # "caught out of l seven and l ten | hive beetles in l twenty"
    washed = q.label == "method" and q.w.endswith("ed")  # "out of s three | s six washed out at one percent"
    return washed or q.label in ("fact", "change", "percent") or (closed and q.w in ("it's", "she's", "it", "its"))


def _list_as_subject(r: Row, k: int) -> bool:
    """Whether the colonies from `k` on are a list of which something is told: "l nine l ten and l two have cells"."""
    at = k
    while (m := r.at(at)) is not None and (m.label in ("colony", "comma", "hive") or m.w == "and"):
        at += 1
    q, seen = r.at(at), r.at(r.on(at))
    if q is not None and q.w in ("all", "both") and seen is not None and seen.w in _THEY_SOUND:
        seen = r.at(r.on(r.on(at)))  # "l nine l ten and l eleven all sound strong"
    if q is not None and q.label == "each" and seen is not None and seen.w in ("got", "get", "have", "need"):
        return True  # "on l three and l ten | l fourteen and l sixteen each got a super"
    verb = q is not None and (q.w in _THEY_HAVE or q.w in ("all", "both"))
    return verb and seen is not None and seen.label in ("fact", "clean")


_THEY_SOUND = frozenset("sound look have feel got are seem were".split())


def _falls(r: Row, k: int, before: str) -> bool:
    """Whether the colony at `k` has a lower number than the one before it in the list, with the same letter."""
    (letter, number), (other, last) = id_parts(r.row[k].v["value"]), id_parts(before)
    return letter == other and bool(number and last) and int(number) < int(last)


def _alone_in(r: Row, k: int) -> bool:
    """Whether the verb at `k` is said of one colony alone ("has", "is", "swarmed")."""
    q = r.at(k)
    return q is not None and (q.w.split()[0] in ONE_HIVE_VERBS or q.w in OF_ONE or q.label == "percent")


def _range_as_subject(r: Row, k: int) -> bool:
    """Whether a range begins at `k` of which something is said: "l one to l three got supers"."""
    way = r.on(k)
    to, last = r.at(way), r.at(r.on(way))
    if to is None or last is None or (to.w not in RANGE and to.w != "to") or last.label not in ("colony", "number"):
        return False
    return _subjects(r, r.on(way))


def _so_many_each(r: Row, k: int) -> bool:
    """Whether a number or an amount stands at `k`, and "each" behind it or what is counted."""
    counted, thing, after = r.at(k), r.at(r.on(k)), r.at(r.on(r.on(k)))
    if counted is None or counted.label not in ("number", "amount") or thing is None:
        return False
    return thing.label == "each" or (thing.label in THINGS and after is not None and after.label == "each")


def _goes_on(r: Row, k: int) -> bool:
    """Whether the hive named at `k` is one of a list: after it comes "and", a comma, another hive or the end."""
    number = r.at(r.on(k))
    after = r.at(r.on(r.on(k)))
    return (
        number is not None
        and number.label in ("number", "colony")
        and (after is None or after.label in ("hive", "comma", "stop", "line") or after.w == "and")
    )


def _hive_goes_on(r: Row, k: int) -> bool:
    """Whether the hive named at `k`, with no word to join it, goes on with the list: nothing is said of it alone, as
    in "split hive eleven | hive nine gets split friday".
    """
    q = r.at(r.on(r.on(k)))
    alone = q is not None and q.w.split()[0] in ONE_HIVE_VERBS
    return not alone and (not r.checking or _goes_on(r, k))


def _spoken_run(r: Row, j: int, k: int, letter: str) -> list[int] | None:
    """ "ten | eleven and twelve": numbers without commas that rise and end in "and": the indexes from `k` on."""
    found: list[int] = []
    last = number_in(r.row[j])
    while (m := r.at(k)) and m.label == "number" and whole(m) and m.v["n"].value > last and r.outfit.could_be(id_of(m)):
        found.append(k)
        last = m.v["n"].value
        k += 1
        if (
            (c := r.at(k))
            and c.w == "and"
            and (m := r.at(k + 1))
            and m.label == "number"
            and whole(m)
            and m.v["n"].value > last
            and r.outfit.could_be(id_of(m))
        ):
            return [*found, k + 1]
    return None


def _letter(m: Mark) -> str:
    """The letters of a full id ("L" of "L4"); empty for a bare number."""
    return id_parts(m.v["value"])[0] if m.label == "colony" else ""


def _as_id(m: Mark, letter: str, outfit: Outfit) -> str:
    """The id that a mark of a list means: a bare number takes the letter before it where the roster has it so."""
    if m.label == "colony":
        return str(m.v["value"])
    bare = id_of(m)
    if letter and (not outfit.known or f"{letter}{bare}" in outfit.ids):
        return f"{letter}{bare}"
    return bare


def _extends(r: Row, k: int, letter: str) -> bool:
    """Whether the number at `k`, after a comma or "and", goes on with the list of colonies."""
    m = r.row[k]
    bare = id_of(m)
    excepted = any(x.v.get("cue") == "except" for x in r.row[max(0, k - 5) : k])  # "all but 31 and 32"
    if not (excepted or r.outfit.could_be(bare) or (letter and f"{letter}{bare}" in r.outfit.ids)):
        return False
    q = r.at(r.on(k))
    if excepted and r.row[k - 1].label == "hive" and q is not None and q.label in THINGS:
        return True  # "all except hive two and hive five | feeders are off at Heath"
    if q is not None and (q.label == "comma" or q.w == "and") and (z := r.at(r.on(r.on(k)))) and z.label == "mites":
        return False  # "S1 and S2, 4 and 0 mites"
    if q is not None and q.label in THINGS and m.v["n"].value >= 10 and r.row[k - 1].w in ("and", "or"):
        return True
    if q is not None and q.label == "each" and r.row[k - 1].label == "hive":
        return True  # "to hive three and hive eleven each one gallon"
    if each_does(r, k):
        return True  # "47 and 48 each need a super"
    if q is not None and (q.label in ("each", "agent", "item", "feed", "form", "queen_noun") or q.w in ("/", "%")):
        return False
    third = r.at(r.on(r.on(k)))
    if q is not None and q.w == "of" and third is not None and third.label == "each":
        return False  # "feeders and reducers on 43 and 44, | one of each"
    if q is not None and q.w in ("on", "in") and third is not None and third.label in ("hive", "colony"):
        return False  # "hive 2, 10 in hive 7"
    if q is not None and q.w == "to" and rises_to_colony(r, k) and not sentence_has(r, k, "amount", "unit", "change"):
        return True  # "supers on one and three to eight"
    if q is not None and q.label == "w" and q.w in ("on", "in", "into", "to") and m.v["n"].value <= 4:
        # "a super on 5 and two on 6": a number of things, put where the next words say
        return not (third is not None and third.label in ("number", "colony", "hive", "hives"))
    return True


def _between(a: str, b: str) -> list[str]:
    """The ids from `a` to `b`, both with them ("L4", "9" → L4 … L9); none where they do not rise."""
    (letter, first), (last_letter, last) = id_parts(a), id_parts(b)
    if not first or not last or (last_letter and last_letter != letter):
        return []
    low, high = int(first), int(last)
    if not low < high or high - low > LONGEST_RANGE:
        return []
    return [f"{letter}{x}" for x in range(low, high + 1)]
