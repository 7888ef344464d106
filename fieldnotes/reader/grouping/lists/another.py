"""Does a colony that a word or a comma joins to a list begin what is told of others? "… on 12 and | 17 no eggs"."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.lists.behind import (
    NUC,
    THEY_SOUND,
    done_elsewhere,
    gets_another_thing,
    got_nothing,
    pair_as_subject,
    seen_elsewhere,
)
from fieldnotes.reader.grouping.lists.listed import Listing, as_id, in_word_after_figures
from fieldnotes.reader.grouping.row import (
    FEW_GIVEN,
    OF_ONE,
    ONE_HIVE_VERBS,
    PREPS,
    RANGE,
    Row,
    after_list,
    counted_in_bees,
    each_after,
    id_of,
    number_in,
    range_here,
    sentence_has,
)
from fieldnotes.reader.mark import ALL_OVER, SEEN_AT, THINGS, WAYS, Mark, is_others
from fieldnotes.roster import id_parts


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


_OWNED_DOES = frozenset("is are was were came went got has have still isn't aren't".split())


_BEHIND_COLON = frozenset(["fact", "queen_work", "change"])


def begins_another(of: Listing, j: int, k: int, c: Mark) -> bool:
    """Whether the colony at `k`, though joined to the list, begins a statement of its own."""
    r = of.r
    q = r.at(r.on(k))
    owned = r.at(r.on(r.on(k)))
    if q is not None and q.w == "'s" and owned is not None and owned.label in ("item", "form", "agent"):
        told = r.at(r.on(r.on(r.on(k))))  # "53 and 54's supers", but "off sixty and | forty five's formic is out"
        return told is not None and of.governed and (told.w.split()[0] in _OWNED_DOES)
    if of.governed and q is not None and q.w == ":" and owned is not None and owned.label in _BEHIND_COLON:
        return True  # "wax moth in 61, | 46: queen introduced"
    if of.governed and q is not None and q.w in ("only", "just") and not r.checking and _only_so_many(r, r.on(k)):
        return True  # "two each on forty to fifty and | fifty one only the one"
    if q is not None and q.label not in ("stop", "line", "comma") and as_id(c, of.letter, r.outfit) in of.ids:
        return True  # "thirteen through seventeen and | fourteen had beetles"
    if of.governed and q is not None and q.w in ("only", "just") and gets_another_thing(of, r.on(k)):
        return True  # "two pounds each on fifty six and fifty eight and | forty nine only got one pad"
    if of.governed and q is not None and q.label == "noun" and q.w in NUC and owned is not None:
        return owned.label in ("fact", "cue") or owned.w in OF_ONE  # "a super on nineteen and | n five nuc saw her"
    if of.governed and q is not None and q.w in ("a", "an", "the") and owned is not None and owned.label == "fact":
        is_so = (verb := r.at(r.on(r.on(r.on(k))))) is not None and verb.w in ("is", "are", "was", "were")
        # "banked five in q b and | s three a virgin", "l four the mice chewed in", but "the beetle is bad in both"
        return r.row[k + 1] is q and not (q.w == "the" and is_so)
    if of.governed and q is not None and q.w == "the" and owned is not None and owned.label in THINGS:
        moved = r.at(r.on(r.on(r.on(k))))
        its = r.row[k + 1] is q and not done_elsewhere(r, k + 1)
        if its and moved is not None and moved.w.split()[0] in ("came", "went", "is"):
            return True  # "brood in 56 and | forty three the excluder came off"
    if of.governed and q is not None and q.w in ("i", "we") and owned is not None and owned.w in _PASSED_OVER:
        return True  # "in forty to fifty and | fifty one i skipped"
    if q is not None and q.w in RANGE and _range_told_of(of, k):
        return True
    if q is not None and q.w in RANGE and range_here(r, k):
        q = r.at(r.on(r.on(r.on(k))))
    if of.governed and _range_got(of, k):
        return True
    if _got_after_exceptions(of, k, q):
        return True  # "guards on every hive except three and sixteen and | hive nine got a reducer"
    if not of.governed and not r.checking and q is not None and got_nothing(r, r.on(k)):
        return False  # "43 and 44 none"
    if q is None or (q.label == "each" and len(of.ids) > 1):
        return False  # "to hive three, hive six and hive eleven each one gallon"
    if of.after_same and r.checking and q.label in ("number", "mites", "clean"):
        return True  # "ditto l eleven and | l fourteen five or six"
    for asks in (_counts_things, _after_closed_list, _in_next_pair, _opens_next):
        answer = asks(of, j, k, q)
        if answer is not None:
            return answer
    return _said_of_it_alone(of, j, k, q)


def _got_after_exceptions(of: Listing, k: int, q: Mark | None) -> bool:
    """Whether the list of those left out had its "and" before, and the colony at `k` got or has something."""
    r = of.r
    excepted = of.before is not None and of.before.v.get("cue") == "except"
    closed = excepted and any(x.w == "and" for x in r.row[of.first : k - 1])
    if not closed or q is None or q.w not in ("got", "has", "gets", "needs"):
        return False
    return any(x.label in THINGS for x in r.row[k + 2 : k + 5])


def _counts_things(of: Listing, j: int, k: int, q: Mark) -> bool | None:
    """Whether the number at `k`, with `q` behind it, is no colony but how many things the next one got."""
    r, c = of.r, of.r.row[k]
    if c.label != "number":
        return None
    if not r.checking and in_word_after_figures(c, q) and q.v["n"].value < FEW_GIVEN:
        return each_after(r, r.on(k)) is None  # "supers on 1-8, | 13 none", but "pads in 15 and 16 two pads each"
    if r.checking and counted_in_bees(r, k):
        return True  # "washed 51, | 9 in 300"
    if q.w == "more":
        return True  # "twenty out of s two and | fifteen more out of s five"
    if q.w in PREPS and _rest_at(r, k):
        return True  # "two patties on three and five and | one on everybody else"
    if of.before is not None and of.before.w == q.w == "to" and c.v["n"].value < number_in(r.row[j]):
        return True if _named_at(r, k) else None  # "gave two to nine and | one to twelve"
    # "six frames of bees in eleven and | ten in twelve"
    return True if of.before is not None and _put_likewise(of, q) and _named_at(r, k) else None


def _after_closed_list(of: Listing, j: int, k: int, q: Mark) -> bool | None:
    """Whether the list had its "and" before, and a comma only leads to the colony at `k`."""
    r, c = of.r, of.r.row[k]
    closed = any(x.w == "and" for x in r.row[of.first : j])
    if r.row[j + 1].label != "comma" or not closed or r.row[k - 1].w == "and":
        return None
    if q.label in ("cue", "fact", "change", "mites", "clean") or q.w in r.subject_verbs:
        return True  # "out of 20 and 21, | 22 still to do"
    placed = of.governed or (of.before is not None and of.before.label in ("each", "unit", "amount"))
    if placed and sentence_has(r, of.first, *THINGS, "amount") and pair_as_subject(r, k):
        return True  # "two strips each in 12 and 14, | 15 and 16 none"
    # "washed 60 and 63, | 6 and 4"
    return True if r.checking and c.label == "number" and _of_other_yard(of, c) else None


def _in_next_pair(of: Listing, j: int, k: int, q: Mark) -> bool | None:
    """Whether the colony at `k` is split, joined or made by itself, as the one before it was."""
    r, c = of.r, of.r.row[k]
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
    return None


def _opens_next(of: Listing, j: int, k: int, q: Mark) -> bool | None:
    """Whether the colony at `k` is the subject of what is told next, or opens a row."""
    r = of.r
    paused = any(x.label == "filler" for x in r.row[j + 1 : k])
    if len(of.ids) > 1 and q.w.split()[0] in OF_ONE and any(x.w in RANGE for x in r.row[of.first : j + 1]):
        return True  # "l one to l ten and | l eleven stays here"
    if q.w in ("i", "we") and r.row[k - 1].label == "hive" and paused:
        return True  # "clipped the one in nine and um | hive eleven i found her"
    if q.label == "cue" and q.v.get("cue") == "plan" and paused:
        return True  # "released the one in forty six and um | fifty i'll requeen"
    if of.governed and len(of.ids) == 1 and r.row[k - 1].label == "comma" and _row_of_its_own(of, k, q):
        return True  # "two frames off S9, | S3 nine mites", "a box on 55, | 64 - calm"
    governed = of.governed or _put_by_it(of)
    if governed and r.row[k - 1].w == "and" and _several_told_of(of, k):
        return True  # "a trap in five and | one through six are all light"
    # "put a super on l twelve and | l seventeen no eggs"
    closed = of.before is not None and any(x.w == "and" for x in r.row[of.first : j])
    queens = of.before is not None and of.before.label == "queen_work"
    closed = closed and of.before is not None and (of.before.w in _NAMES or queens)
    closed = closed or (queens and q.label == "cue" and _not_so(q, _second_after(r, k)))
    return True if (governed or closed) and _has_news(of, k, q) else None


def _said_of_it_alone(of: Listing, j: int, k: int, q: Mark) -> bool:
    """Whether the verb behind the colony at `k` is said of that one alone, and those before it got something."""
    r = of.r
    named = of.before is not None and of.before.w in ("it's", "is") and len(of.ids) == 1
    if named and q.w in ("just", "only") and (seen := r.at(r.on(r.on(k)))) is not None:
        q = seen
    if named and (q.label in _TOLD or q.w in ("i", "we")) and sentence_has(r, of.first, "change"):
        return True  # "a nuc off 62, it's N5 and | forty queen seen"
    if q.w == "took" and sentence_has(r, of.first, "queen_work") and not _took_out(r, r.on(k)):
        return True  # "20 grafts from 44, | 16 took"
    if of.governed and q.w.split()[0] == "came" and _came_back_both(of, k):
        return False  # "the washes in L3 and L4 came back clean"
    if of.governed and q.w == "gave" and (me := r.at(r.on(r.on(k)))) is not None and me.w == "me":
        return True  # "caught the queen in four and | two gave me thirty six"
    one = ONE_HIVE_VERBS | OF_ONE
    then = (
        _second_after(r, k) if q.w in ("also", "still", "just", "only") else q
    )  # "efb in 74 and | 78 also has chalkbrood"
    if not any(
        m is not None and m.w.split()[0] in one for m in (r.row[k + 1], q, then)
    ):  # "and sixty | looks like it's queenless"
        return False
    before = of.before
    changed = before is not None and (before.label in ("change", "queen_work") or before.w in _NAMES)
    changed = changed and before is not None and not _befell(before)  # "is dead | 3 and 6 got a tray"
    into = before is not None and before.w in ("into", "with") and len(of.ids) == 1
    governed = of.after_same or of.governed or _put_by_it(of)
    return governed or changed or into or any(x.label == "filler" for x in r.row[j + 1 : k])


_NAMES = frozenset("is it's that's those're are".split())
_SO_MUCH = THINGS | {"amount", "number"}
_TOLD = frozenset("fact change queen_work mites clean percent cue".split())


def _range_told_of(of: Listing, k: int) -> bool:
    """ "wraps on one through six and | seven through twelve get theirs", "supers off 1 to 4 and | 5 to 9 come off
    monday": a range of which something is told as of several, behind those of which a thing is told.
    """
    r = of.r
    end = r.on(r.on(k))
    far, told = r.at(end), r.at(r.on(end))
    if told is None or told.w.partition(" ")[0] not in _OF_SEVERAL or far is None or far.label not in _NAMED:
        return False
    rises = "n" not in far.v or "n" not in r.row[k].v or far.v["n"].value > r.row[k].v["n"].value
    return rises and (of.governed or sentence_has(r, of.first, *THINGS))


_NAMED = frozenset(["number", "colony"])


_OF_SEVERAL = frozenset("get have need are were still come go stay".split())


def _range_got(of: Listing, k: int) -> bool:
    """ "boards on two and five and | seven through nine got a super apiece": a range that got another thing."""
    r = of.r
    way, far, got = (r.at(k + n) for n in (1, 2, 3))
    if way is None or far is None or got is None or not (way.w in RANGE or way.w == "to"):
        return False
    thing = r.at(k + 4)
    counted = got.label == "number" and thing is not None and thing.label in THINGS
    each = (after := r.at(k + 5)) is not None and after.label == "each"
    paused = counted and (
        each or r.row[k - 2].label == "filler"
    )  # "the trap off 79 oh and | 70 through 76 two pads each"
    if not (got.w in ("got", "i", "we") or paused):
        return False
    if far.label not in ("number", "colony") or not sentence_has(r, of.first, *THINGS, "queen_work"):
        return False
    return paused or any(m.label in _SO_MUCH for m in r.row[k + 4 : k + 7])


def _befell(before: Mark) -> bool:
    """Whether it is said of the colonies before that they died or swarmed, and nothing taken as an object."""
    return before.v.get("step") in _BEFALLS and before.w.split()[0] != "lost"


def _came_back_both(of: Listing, k: int) -> bool:
    """Whether checks or things before the list came back or came off, and no count of the colony at `k` follows."""
    r = of.r
    if of.first > 2 and r.row[of.first - 3].v.get("cue") == "not":
        return False  # "no wash on l thirteen and | l seventeen came out to two percent"
    way = r.at(r.on(r.on(k)))
    told = any(m.label in ("percent", "mites") for m in r.row[k + 2 : k + 5])
    if way is not None and (way.w == "to" or told) and not sentence_has(r, of.first, "method"):
        return False  # "a trap in fifty three and | sixty two came to one percent"
    thing = r.at(of.first - 2)
    return thing is not None and thing.label in ("method", "form", "item")


def _put_by_it(of: Listing) -> bool:
    """Whether the work before the list says where it was done ("made two splits off", "caged a queen in")."""
    before = of.before
    if before is not None and before.label == "item" and (before.w.endswith("ed") or of.done_by_name):
        return True  # "wrapped seventy and seventy one"
    return before is not None and before.label in ("queen_work", "change") and before.w.split()[-1] in PREPS


_DEALT = frozenset("item agent form feed queen_work mites percent change method".split())
"""What is told of colonies that are governed, so that an observation after the next one is that one's alone."""
_COUNTED = frozenset(["mites", "percent", "clean"])
_TO_A_DEGREE = frozenset("full crawling loaded covered really very pretty quite nothing still".split())
_BEFALLS = frozenset(["died", "swarmed"])
_PLURAL = frozenset("are were both all have look".split())
_NOT_PLURAL = frozenset("haven't aren't weren't don't".split())


def _row_of_its_own(of: Listing, k: int, q: Mark) -> bool:
    """Whether the colony at `k`, after a comma, opens a row: a sign and what was seen, a check and its count."""
    after = of.r.at(of.r.on(of.r.on(k)))
    if q.w in (">", "-", "–", "|") and after is not None:
        return after.label in ("fact", "queen_noun", "queen_work", "method", "change", "cue", "mites", "item")
    thing = sentence_has(of.r, of.first, *THINGS, "queen_work", "change", "fact")
    counted = q.label == "mites" or (q.label in ("method", "sample") and after is not None and after.label != "comma")
    return thing and counted and not _checked(of)


def _has_news(of: Listing, k: int, q: Mark) -> bool:
    """Whether what follows the colony at `k` is seen there or done there, while the list before got something."""
    r = of.r
    first = q.w.split()[0]
    frames = any(x.label == "fact" and "frame" in x.w for x in r.row[max(0, of.first - 6) : of.first])
    dealt = frames or _one_queen(of) or sentence_has(r, of.first, *_DEALT, "verb")  # "took two frames of brood out of"
    if first in _PLURAL or not (dealt or sentence_has(r, of.first, "fact")):
        return False
    for n in (k + 2, k + 3):
        x, over = r.at(n), r.at(n + 1)
        cells = q.label == "fact" and "cells_seen" in q.v.get("set", ())  # "l 16 supersedure cells three of them"
        plural = x is not None and ((x.label == "hives" and not cells) or x.w.split()[0] in _PLURAL)
        if plural and not (over is not None and over.w in ALL_OVER):
            return False  # "a box each on one and six, strong | all of them", but "chalkbrood | all over"
    denied = first == "never" or (first.endswith("n't") and first not in _NOT_PLURAL) or _not_so(q, _second_after(r, k))
    if q.label == "cue" and denied:
        worked = of.done_by_name or sentence_has(r, of.first, "verb", "queen_work", "fact", "mites")
        return worked and not done_elsewhere(r, r.on(k))  # "off nineteen and | n five didn't find her"
    z = r.at(r.on(r.on(k)))
    if q.w == "took" and z is not None and (z.label in ("item", "number", "form") or z.w in ("the", "a", "an")):
        return not done_elsewhere(r, r.on(k))  # "took a super off nine and | twelve took the excluder off"
    if q.label == "number" and z is not None and z.label == "item":
        way = r.at(r.on(r.on(r.on(k))))  # "excluder off sixty and | forty six two supers off"
        if not sentence_has(r, of.first, *THINGS) or (way is not None and way.w in WAYS):
            # "seven mites in forty four and | forty seven one super off", but "in 60 and 61, three supers on 55"
            return not seen_elsewhere(r, r.on(r.on(r.on(k))))
    if q.w in _TO_A_DEGREE:
        return any(x.label == "fact" for x in r.row[k + 2 : k + 4])
    if q.label in ("sample", "method"):  # "into nine and | ten half a cup of bees in alcohol gave eleven"
        return not sentence_has(r, of.first, "method", "sample") and not done_elsewhere(r, r.on(k))
    seen = _seen_in_one(of)
    if q.label == "fact" and z is not None and z.w in ("are", "is", "were"):
        return False  # "two in each of eight and eleven | wasps are getting at twelve"
    if q.label == "fact" and (dealt or seen or q.v.get("number") == "queen_cells"):
        beside = r.row[k + 1] is q or r.row[k + 1].w.split()[0] == "next"  # "56 | next door is | strong"
        return q.rule != "mark" and beside and not seen_elsewhere(r, k + 2)
    if q.label == "change":
        return ((dealt or seen) and q.v.get("step") in _BEFALLS) or _joined_to_another(r, k, q)
    if q.label in _COUNTED:
        return not _checked(of)
    if first not in ("i", "we") or done_elsewhere(r, r.on(k)) or _takes_that_out(of, k):
        return False
    return not _leads(of)


def _leads(of: Listing) -> bool:
    """ "and um on five and six i put guards": where something is done is said first, and nothing stands before it."""
    before = of.r.at(of.first - 2)
    opens = before is None or before.label in ("stop", "line", "filler", "comma") or before.w in ("and", "so", "then")
    return opens and of.before is not None and of.before.w in PREPS


def _second_after(r: Row, k: int) -> Mark | None:
    """The second mark after the one at `k`, fillers passed over."""
    return r.at(r.on(r.on(k)))


def _not_so(q: Mark, after: Mark | None) -> bool:
    """ "79 not so good", "58 did not get a board", but "wrapped 73 and 79, not 80"."""
    words = q.w.split()
    if words[0] in ("do", "are", "were", "have") or "not" not in words:
        return False
    return after is None or after.label not in ("number", "colony", "hive")


def _takes_that_out(of: Listing, k: int) -> bool:
    """ "the supers on nine and twelve i will take off on friday": what is in all of them, and no other thing, is taken
    out of them by somebody."""
    r = of.r
    thing = r.at(r.back(r.back(of.first)))
    if thing is None or thing.label not in THINGS:
        return False
    n = r.on(r.on(k))
    while (m := r.at(n)) is not None and (m.label == "cue" or m.w in ("am", "have", "already", "just")):
        n = r.on(n)
    after = r.at(r.on(n))
    takes = m is not None and m.label == "verb" and m.v.get("dir") == "out"
    return takes and (after is None or after.label in ("date", "stop", "line", "comma"))


def _seen_in_one(of: Listing) -> bool:
    """ "laying workers in forty six and | forty eight wax moth": what is seen in one is told to its end."""
    if of.before is None or of.before.w not in SEEN_AT or len(of.ids) > 1:
        return False
    near = of.r.row[max(0, of.first - 6) : of.first - 1]
    told = next((m for m in reversed(near) if m.label not in ("w", "filler", "approx")), None)
    return told is not None and told.label == "fact" and "n" not in told.v


def _joined_to_another(r: Row, k: int, q: Mark) -> bool:
    """ "excluders on one to nine and | ten combined with eleven": whether the colony at `k` is joined to one named."""
    way, other = r.at(r.on(r.on(k))), r.at(r.on(r.on(r.on(k))))
    joined = q.v.get("step") == "combined" and way is not None and way.w in ("with", "into", "onto", "to")
    return joined and other is not None and other.label in ("number", "colony", "hive")


def _one_queen(of: Listing) -> bool:
    """ "a virgin in fifty seven and | forty one eggs", "found the queen in six and | nine ants got it": of one hive."""
    near = of.r.row[max(0, of.first - 3) : of.first]
    return any(
        m.label == "fact" and "queen" in m.v.get("set", {}) and m.w.split()[0] in ("a", "the", "found", "saw")
        for m in near
    )


def _several_told_of(of: Listing, k: int) -> bool:
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
    shared = m is not None and m.w == "got" and any(x.label == "each" for x in r.row[j + 1 : j + 6])
    if shared and joins == ["and"] and len(of.ids) == 1:
        return True  # "sugar on 71 and | 76 and 79 got a kilo each"
    ranged = any(x.w in RANGE for x in r.row[of.first : k - 1])
    if ranged and "and" in joins and m is not None and m.w == "got" and (so := r.at(j + 1)) and so.label in _SO_MUCH:
        return True  # "sponges out of one through ten and | twelve and fifteen got a gallon each"
    several = bool(joins) and r.row[k + 1].label not in _LISTED and sum(x in ("and", "+") for x in joins) < 2
    after = r.at(j + 1)
    sound = m is not None and m.w in ("all", "both") and after is not None and after.w in THEY_SOUND
    falls = number_in(r.row[k]) < int(id_parts(of.ids[-1])[1] or 0)
    seen = m is not None and m.label == "fact" and (_one_queen(of) or (closed and falls))
    return several and m is not None and (_plural_verb(m) or sound or seen)


def _plural_verb(m: Mark) -> bool:
    """Whether the mark tells of several colonies: "are", "have", "L15 and L16 | combined"."""
    return m.w.split()[0] in ("are", "were", "have") or m.w == "combined"


_LISTED = frozenset("number colony comma filler".split())


def _checked(of: Listing) -> bool:
    """Whether the list is of colonies that were checked, and which have the count that follows."""
    r = of.r
    method = next((j for j in range(of.first - 1, max(-1, of.first - 8), -1) if r.row[j].label == "method"), None)
    if method is None:
        return sentence_has(r, of.first, "method")
    return not any(m.label == "cue" and m.v.get("cue") == "not" for m in r.row[max(0, method - 3) : method])


def _of_other_yard(of: Listing, c: Mark) -> bool:
    """Whether the roster has the list in one yard, and the number only in others."""
    homes = [of.r.outfit.ids.get(x, ()) for x in of.ids]
    return (
        bool(homes)
        and len(set(homes)) == 1
        and len(homes[0]) == 1
        and homes[0][0] not in of.r.outfit.ids.get(id_of(c), ())
    )


_PASSED_OVER = listed("passed_over")


def _put_likewise(of: Listing, q: Mark) -> bool:
    """Whether `q` governs what follows as the word before the list does ("off forty and three | off forty one")."""
    before = of.before
    if before is None or q.label != "w":
        return False
    way = before.w.split()[-1] if before.label == "verb" else before.w  # "came off nine and | two off eleven"
    return (
        q.w in ("out", "of")
        if way == "of"
        else q.w == way and q.w in ("in", "on", "off", "from", "for", "under", "into")
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
