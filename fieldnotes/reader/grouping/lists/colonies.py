"""Lists and ranges: the colonies named together, from the first on, and where the list ends."""

from __future__ import annotations

from fieldnotes.reader.grouping.lists.another import begins_another
from fieldnotes.reader.grouping.lists.apart import stands_apart
from fieldnotes.reader.grouping.lists.behind import subjects
from fieldnotes.reader.grouping.lists.listed import Listing, as_id, between, in_word_after_figures, letter
from fieldnotes.reader.grouping.row import (
    JOIN,
    ONE_HIVE_VERBS,
    PIECES,
    PREPS,
    RANGE,
    Row,
    deals_out,
    each_does,
    id_of,
    number_in,
    of_bees,
    rises_to_colony,
    sentence_has,
    whole,
)
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.roster import id_parts

_AFTER_HIVES = frozenset("stop line comma number filler method verb fact change".split())
_OF_SEVERAL = frozenset("and then got have had are were all both".split())
_SAID_OF_LIST = frozenset("and then ( they've they're they".split())


def colonies_from(r: Row, i: int, first: int, before: Mark | None = None) -> tuple[Mark, int]:
    """The list or range of colonies that begins at mark `i` (its hive word at `first`), and the index after it;
    `before` where the mark before it was just parted off it.
    """
    row = r.row
    bare = row[i].label == "number"
    of = Listing(r, first, before or r.at(r.back(first)), letter(row[i]), first < i, first < i or not bare, [])
    more = [i]
    while more:
        of.ids += [as_id(row[x], of.letter, r.outfit) for x in more[:-1]]
        named = _same_ten(of, as_id(row[more[-1]], of.letter, r.outfit))
        found, end = _range_or_one(of, more[-1], named)
        of.ids += [x for x in found if x not in of.ids]
        more = _goes_on_at(of, end, named)
    text = " ".join(x.w for x in row[first : end + 1])
    value = {"ids": of.ids, "bare": bare, "hive": first < i and row[first].w != "#"}
    return Mark("cols", row[first].s, row[end].e, text, value, "colonies"), end + 1


def _same_ten(of: Listing, named: str) -> str:
    """ "seventy three and four": the next one of the same ten, where the yard of the first has no colony four."""
    last = of.ids[-1] if of.ids else ""
    if len(named) != 1 or not last.isdecimal() or int(last) < 20 or int(last) % 10 + 1 != int(named):
        return named
    yards = of.r.outfit.ids.get(last, ())
    meant = str(int(last) + 1)
    near = [of.r.outfit.ids_at(yard) for yard in yards]
    return meant if near and all(meant in ids and named not in ids for ids in near) else named


def _range_or_one(of: Listing, j: int, named: str) -> tuple[list[str], int]:
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
    if sign.w == "to" and of.before is not None and of.before.w == "from" and _carried_over(of):
        return [named], j  # "a frame of eggs from forty one | to forty six"
    ids = between(named, as_id(far, of.letter, r.outfit))
    known = of.explicit or sign.w != "to" or (ids and all(r.outfit.could_be(x) for x in (ids[0], ids[-1])))
    return (ids, end) if ids and known else ([named], j)


def _carried_over(of: Listing) -> bool:
    """Whether frames stand before "from": they come from one hive and go to another."""
    near = of.r.row[max(0, of.first - 4) : of.first - 1]
    return any(
        "frame" in m.w.split() or "frames" in m.w.split() or m.v.get("item") in ("brood_frame", "comb_frame")
        for m in near
    )


def _upward(of: Listing, j: int, named: str) -> tuple[list[str], int] | None:
    """ "L15 up", "40 and upwards": from that colony to the last of its yard, by the roster."""
    r = of.r
    k = j + 2 if (m := r.at(j + 1)) is not None and m.w in ("and", "on") else j + 1
    word, after = r.at(k), r.at(k + 1)
    plus = word is not None and word.w == "+" and word.s == r.row[j].e  # "53+ still in"
    if plus and (after is None or "n" not in after.v):
        word = Mark("w", 0, 0, "upward")
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


def _past_joins(of: Listing, j: int) -> tuple[int, bool]:
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
        or (c.label == "hive" and (joined or (k == j + 1 and hive_first and _hive_goes_on(of, k))))
        or (joined and before is not None and before.label == "w" and c.w == before.w and c.w in PREPS)
        or (joined and c.w == "one" and _one_more_under(of, k))
    ):
        joined = joined or c.label == "comma" or c.w in JOIN or c.w == "nor" or (c.label == "hive" and hive_first)
        k += 1
    return k, joined


def _one_more_under(of: Listing, k: int) -> bool:
    """ "a board under seventy and one under | seventy six": another board."""
    under = of.r.at(k + 1)
    return of.before is not None and of.before.w == "under" and under is not None and under.w == "under"


def _goes_on_at(of: Listing, j: int, named: str) -> list[int]:
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
    if (
        joined
        and (c.label == "colony" or whole(c))
        and (up := _upward(of, k, as_id(c, of.letter, r.outfit))) is not None
    ):
        told = r.at(up[1] + 1)
        if told is not None and (told.label == "cue" or told.w in _THEY_DO):
            return []  # "pulled strips from 40 to 52, | 53 and up still in"
    if (joined and begins_another(of, j, k, c)) or _given_to(of, j, k) or of_bees(r, k):
        return []
    if not joined and stands_apart(of, j, k, named):
        return []
    if c.label == "colony" or (whole(c) and r.row[k - 1].label == "hive"):
        return [k]
    if not whole(c) or (not joined and in_word_after_figures(r.row[j], c)):
        return []  # "supers: 40-44 | one, 45 two"
    if joined and r.checking and (_counts_of_checks(of, k) or _takes_turns(of, j, k)):
        return []
    if joined and _extends(r, k, of.letter):
        return [k]
    if k != j + 1 or _upward(of, k, as_id(c, of.letter, r.outfit)) is not None:
        return []  # "forty to fifty eight | fifty nine and up are getting theirs"
    if of.before is not None and of.before.label == "check" and _rechecked(of, j, k):
        return [k]
    run = _spoken_run(r, j, k, of.letter)
    if run is not None and of.governed and _left_by_us(r, run[-1]):
        return run[:-1]  # "out of 41 42 43 | 44 i haven't pulled yet"
    if run is not None:
        return [] if of.governed and subjects(r, run[-1]) else run
    return _rising_run(of, j, k) or ([k] if _one_more(of, j, k) else [])


def _left_by_us(r: Row, k: int) -> bool:
    """Whether somebody says of the colony at `k` that they did not do it."""
    who, cue = r.at(r.on(k)), r.at(r.on(r.on(k)))
    if who is not None and who.label == "cue":
        return who.v.get("cue") == "not" and who.w.split()[0] in ("i", "we")
    return who is not None and who.w in ("i", "we") and cue is not None and cue.v.get("cue") == "not"


def _rising_run(of: Listing, j: int, k: int) -> list[int]:
    """ "fed nineteen | twenty twenty one a gallon": the indexes from `k` on where three numbers or more that no word
    joins rise, all of one yard, and the last counts nothing. In checks colony and count may take turns: there only an
    odd number of them are hives for sure.
    """
    r = of.r
    found: list[int] = []
    last = number_in(r.row[j])
    while (m := r.at(k)) and m.label == "number" and whole(m) and m.v["n"].value > last:
        found.append(k)
        last = m.v["n"].value
        k += 1
    ids = [*of.ids, *(as_id(r.row[n], of.letter, r.outfit) for n in found)]
    before = of.before
    done = of.governed or (
        before is not None and (before.label in ("queen_work", "change") or before.v.get("cue") == "except")
    )
    if (
        len(ids) < 3
        or not done
        or any(x.w == "and" for x in r.row[of.first : j])
        or not r.outfit.of_one_yard(ids)
        or not all(r.outfit.could_be(x) for x in ids)
    ):
        return []
    q = r.at(k)
    if q is not None and (
        q.label in _COUNTED_BY or q.label == "number" or q.w in RANGE or q.w in PIECES or q.w in ("and", "point", "'s")
    ):
        return []
    if len(found) == 1 and any(x.w in RANGE for x in r.row[of.first : j]):
        return []  # "out of 41 to 43 | 44 is still to do"
    if _left_by_us(r, found[-1]):
        return found[:-1]
    return [] if subjects(r, found[-1]) or (r.checking and len(ids) % 2 == 0) else found


def _one_more(of: Listing, j: int, k: int) -> bool:
    """Whether the number at `k`, right after the list with no word between, is one more of it."""
    r, c = of.r, of.r.row[k]
    q = r.at(r.on(k))
    rises = c.v["n"].value > number_in(r.row[j])
    if of.plural and rises and _extends(r, k, of.letter):
        if q is None or q.label in _AFTER_HIVES or q.w in _OF_SEVERAL:
            return True
    if id_of(c) in of.ids:
        return False  # "checked one through six | two and five are light"
    if r.checking and _counted_before(of) and c.v["n"].digits and rises:
        higher = q is not None and q.label == "number" and q.v["n"].value > c.v["n"].value
        if q is None or higher or q.label in ("stop", "line", "comma", "date") or q.w in ("(", "on", "in", "and"):
            return True  # "no mites in 40 41 42"
    if of.governed and _all_hives_to_the_end(of, k):
        return True  # "sugar rolls on 50 52 54 56"
    return not r.checking and not of.letter and _extends(r, k, of.letter) and _list_may_end_with(of, j, k)


_COUNTED_BY = frozenset("item form queen_noun noun hives percent".split())
"""Labels of what a bare number before it may count."""
_MORE_THAN_COUNTED = 30
"""Mites; were all counts of a run above it, every hive would be past saving: such figures are hives. No source."""


def _all_hives_to_the_end(of: Listing, k: int) -> bool:
    """Whether figures that rise, all of them hives of the yard of those before, stand from `k` on to the line's end."""
    r, ids, last = of.r, list(of.ids), -1.0
    while (m := r.at(k)) is not None and m.label == "number" and whole(m) and m.v["n"].digits:
        if m.v["n"].value <= max(last, _MORE_THAN_COUNTED) or id_of(m) not in r.outfit.ids:
            return False
        last = m.v["n"].value
        ids.append(id_of(m))
        k += 1
    ends = m is None or m.label in ("stop", "line", "date")
    return ends and len(ids) > 2 and r.outfit.of_one_yard(ids)


def _list_may_end_with(of: Listing, j: int, k: int) -> bool:
    """Whether what stands right after the number at `k` may be said of all of the list, or goes on with it."""
    r, c = of.r, of.r.row[k]
    q = r.at(k + 1)
    if of.governed and q is not None and q.label == "number" and c.v["n"].value < number_in(r.row[j]):
        return False  # "a red queen in 52 | 46 two supers off"
    if q is not None and q.label in ("filler", "fact") and q.w.split()[0] in ("looks", "feels", "seems", "smells"):
        return False  # "released the one in forty six | fifty seven looks like afb"
    if q is None or q.label in ("stop", "line", "comma", "number", "filler") or q.w in _SAID_OF_LIST:
        return True
    typed, known = c.v["n"].digits, id_of(c) in r.outfit.ids
    if typed and known and (q.label == "date" or q.w == "with"):
        return True  # "treat 43 44 fri", "treated 43 44 w formic"
    if q.label == "fact" and typed and of.before is not None and of.before.w == ":":
        return True  # "Quarry: 3 4 | 5 strong"
    if q.label == "amount" and "n" in q.v and typed and known:
        return True  # "feed: 41 | 42 2 gal"
    each = r.at(k + 2)
    # "fondant on forty | forty one a kilo each"
    return known and q.label in ("amount", "unit") and each is not None and each.label == "each"


def _counted_before(of: Listing) -> bool:
    """Whether the count of all of them stands before the list ("no mites in")."""
    k = of.r.back(of.first)
    counted = of.r.at(of.r.back(k)) if k > 0 and of.r.row[k].w in ("in", "on", "from", "for") else None
    return counted is not None and counted.label in ("clean", "mites")


def _rechecked(of: Listing, j: int, k: int) -> bool:
    """ "recheck 41 42 fri": colonies yet to be checked, which have no counts."""
    r = of.r
    to_do = of.before is not None and of.before.w.split()[0] in ("recheck", "check", "retest", "test", "re")
    q = r.at(r.on(k))
    rises = r.row[k].v["n"].digits and r.row[k].v["n"].value > number_in(r.row[j])
    ends = q is None or q.label in ("stop", "line", "date", "number", "comma") or q.w == "and"
    return to_do and rises and ends and _extends(r, k, of.letter)


def _takes_turns(of: Listing, j: int, k: int) -> bool:
    """ "L1, 3 mites, L2, | 4, L3, none": a bare number between two ids with their letter counts what the first had."""
    r = of.r
    if len(of.ids) > 1 or r.row[j].label != "colony" or r.row[k - 1].label != "comma" or of.first < 2:
        return False
    at = r.back(r.back(of.first))
    counted, comma = r.at(at), r.at(k + 1)
    told = counted is not None and counted.label in ("mites", "value", "clean")
    if counted is not None and counted.label == "number":
        told = (before := r.at(r.back(r.back(at)))) is not None and before.label in ("colony", "cols")
    return (
        told and comma is not None and comma.label == "comma" and (m := r.at(k + 2)) is not None and m.label == "colony"
    )


def _counts_of_checks(of: Listing, k: int) -> bool:
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


def _given_to(of: Listing, j: int, k: int) -> bool:
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
    return few and ends and deals_out(of.r, of.first)


def _goes_on(r: Row, k: int) -> bool:
    """Whether the hive named at `k` is one of a list: after it comes "and", a comma, another hive or the end."""
    number = r.at(r.on(k))
    after = r.at(r.on(r.on(k)))
    return (
        number is not None
        and number.label in ("number", "colony")
        and (after is None or after.label in ("hive", "comma", "stop", "line") or after.w == "and")
    )


def _hive_goes_on(of: Listing, k: int) -> bool:
    """Whether the hive named at `k`, with no word to join it, goes on with the list: nothing is said of it alone, as
    in "split hive eleven | hive nine gets split friday". Of hives that open a line nothing is said before them.
    """
    r = of.r
    q = r.at(r.on(r.on(k)))
    opens = of.before is None or of.before.label in ("stop", "line")
    alone = q is not None and q.w.split()[0] in ONE_HIVE_VERBS and not opens
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


_NOT_COUNTED = frozenset(["syrup", "fondant", "sugar"])
"""What is fed by measure, so that a bare number before it is no number of it."""


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
    if q is not None and q.label == "feed" and r.row[k - 1].w == "and" and q.w.split()[-1] in _NOT_COUNTED:
        return True  # "feed 7 and 8 syrup"
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
