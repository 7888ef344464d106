"""Does what stands before a group of colonies take it as its object, or set it beside another group?"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import NEW_TOPIC
from fieldnotes.reader.mark import THINGS, WAYS, Mark, done_with_it, goes_along
from fieldnotes.reader.parting.about import GOVERNORS, done, person_follows, predicate_follows
from fieldnotes.reader.parting.words import NEXT

ONLY_WITH = frozenset("alcohol soap soapy co2".split())
"""What a sample was washed with, said by itself after its size."""
_AFTER_CUES = listed("passed_over") | {"for", "with", "on", "in", "to"}
_TO_THE_OTHER = frozenset(
    "into with to onto on in as called now from of out is make over under atop and for named becomes are".split()
)
"""Words between the two sides of a change ("split 45 into | 58")."""
_LOTS = frozenset("lot bunch pair row rows yard stand".split())


def governed(marks: list[Mark], cols: Mark) -> bool:
    """Whether the words just before a group of colonies take it as their object."""
    if marks and marks[-1].w in NEW_TOPIC:
        return False  # "74 is dead with mice inside anyway | 75 is calm"
    back = [m for m in marks if m.label not in ("filler", "approx")]
    while len(back) > 1 and back[-1].label == "pronoun" and back[-1].w in ("both", "all", "these", "those"):
        back.pop()
    if not back:
        return False
    p = back[-1]
    if (
        cols.v.get("hive")
        and len(back) > 2
        and back[-2].w == "the"
        and back[-3].label in ("queen_work", "verb", "method")
    ):
        return p.label in ("w", "fact") and p.w not in _LOTS  # "requeened the mean hive forty seven"
    if p.label == "w":
        put = p.w in WAYS and len(back) > 2 and back[-2].label in THINGS and back[-3].w in ("a", "the", "one", "two")
        if (p.w == "off" or put) and marks[-1].label == "filler" and any(x.label == "cols" for x in marks):
            return False  # "L15 took the excluder off um | L16 eight frames", "L20 I put a brood box on um | L11 …"
        if (
            p.w in WAYS
            and len(back) > 2
            and back[-2].w in ("is", "are", "they're", "it's")
            and back[-3].label == "cols"
        ):
            return False  # "two is out | three they're out"
        if p.w in GOVERNORS:
            return True
        if p.w == "the" and len(back) > 1 and back[-2].label in ("verb", "queen_work", "change", "method", "check"):
            return True
        if p.w == "over" and len(back) > 1 and (back[-2].label == "fact" or back[-2].w == "all"):
            return True  # "wasps all over seventy seven"
        if p.w in ("only", "just") and len(back) > 1 and back[-2].label == "queen_work":
            return True  # "clipped only H7"
        return p.w in ("the", "both", "only") and len(back) > 1 and back[-2].w in GOVERNORS
    if p.label == "cue":
        return p.v.get("cue") == "except" or (p.v.get("cue") in ("plan", "not") and p.w.split()[-1] in _AFTER_CUES)
    if p.label == "same":
        return points_on(p) or marks[-1] is p  # "forty is calm, forty one the same um | forty two is hot"
    if p.label == "verb" and p.w.split()[-1] in ("out", "off", "up"):
        if marks[-1] is not p:
            return False
        if len(back) > 1 and back[-2].label in THINGS:
            # "L4 the feeder came off | L5 …", but "feeders off 40-44, the feeder comes off 45"
            since = next((k for k in range(len(marks) - 1, -1, -1) if marks[k].label == "cols"), None)
            return since is None or any(x.label == "comma" or x.w == "and" for x in marks[since:])
        return True
    bare = "n" in p.v or marks[-1] is not p or len(back) > 1
    if p.label == "change" and bare and p.w.split()[-1] in _DEAD:
        return False  # "six deadouts um | forty one is alive", "four dead hives | l thirty has dysentery"
    if p.label == "change" and p.v.get("step") in ("died", "swarmed") and p.w.split()[0] != "lost" and len(back) > 1:
        if back[-2].label == "cols" or [x.w for x in back[-2:-1]] == ["'s"]:
            return False  # "l two died | l twenty two is weak", "nine's a goner um | ten is weak"
    if p.label == "queen_work" and (p.w.split()[-1] in _QUEEN_DONE or "her" in p.w.split()):
        return False  # "pinched her | forty six is weak", "marked her yellow | forty six gave it a super"
    if p.label == "queen_work" and p.w.split()[0] in ("got", "gets", "get", "received"):
        return False  # "n one got a cell | n two got a cell"
    if p.label == "queen_work" and len(back) > 1 and back[-2].w == "a":
        return False  # "seventy five just a clip um | seventy two is light"
    if p.label == "check" and len(back) > 2 and back[-2].v.get("cue") == "not" and back[-2].w.endswith("get"):
        return back[-3].label != "cols"  # "58 didn't get tested | 45 is calm"
    if p.label in ("verb", "queen_work", "change", "check"):
        return True
    if p.label == "method":
        k = next(n for n, x in enumerate(marks) if x is p)
        counted = any(x.label in ("mites", "value", "clean") for x in marks[:k])
        quick = k > 1 and marks[k - 1].label == "w" and marks[k - 2].w in ("a", "the")  # "on a quick roll"
        how = k - quick
        made = any(x.w in ("in", "by", "with") for x in marks[max(0, how - 2) : k])
        made = made or [x.w for x in marks[max(0, how - 2) : how]] in (["on", "a"], ["on", "the"])
        made = made or (k > 0 and marks[k - 1].label == "sample" and p.w in ONLY_WITH)
        return not (counted and k and made)  # "nine had two mites on a wash | ten had six"
    if p.label in ("agent", "form") and len(back) > 1 and back[-2].w == "of" and any(x.label == "cols" for x in marks):
        return False  # "eleven got two strips of amitraz | twelve got one"
    if p.label in ("agent", "form") and any(
        x.w.split()[0] in _GAVE and y.label == "cols" for x, y in pairwise(back) if x.label == "verb"
    ):
        return False  # "gave n five the lactic acid spray | n one was one mite"
    if p.label in ("agent", "form") and _got_it(back):
        return (
            False  # "if that doesn't drop l eighteen gets pads | l six is strong", "40 and 41 each got two pads | 42"
        )
    if p.label in ("agent", "form") and marks[-1].label == "filler" and any(x.label == "cols" for x in marks):
        return False  # "dribbled nine oxalic um | ten is weak"
    if p.label == "item" and (p.w.endswith("ed") or done_with_it(p, back[-2] if len(back) > 1 else None)):
        return True  # "wrapped hives one through nine", "need to super nine"
    if p.label == "form" and p.v.get("treats") and cols.v.get("hive") and len(back) > 1 and back[-2].v.get("cue"):
        return True  # "i did not vape hive three"
    if p.label in ("agent", "form", "feed", "item", "honey") and not cols.v.get("hive"):
        return p.label == "agent" or bool(p.v.get("treats")) or p.w.endswith("ed")
    return p.label == "yard" and marks[-1].label != "filler"  # "three dead ones at larks um | nine is light"


_DEAD = frozenset("dead deadouts deadout outs out ones hives colonies nucs boxes".split())
_QUEEN_DONE = frozenset("her it them queen queens go loose out".split())
_TIPS = listed("tipping_in")
_JOINS = listed("putting_to_another") | _TIPS
_ONTO = (
    "in with",
    "back with",
    "on top of",
    "in on",
    "in front of",
    "infront of",
    "back into",
    "back in with",
    "back onto",
)
"""What stands before the colony that another is joined to, with any of these verbs."""
_GO = frozenset("go goes going went".split())
_IS = frozenset("'s is are was were".split())
_OVER = frozenset("on onto over into to with".split())
_PAPER = frozenset(["newspaper", "paper"])


def joins(marks: list[Mark], after: list[Mark]) -> Mark | None:
    """ "fifty went on top of | 51", "stuck it on | 51 | with newspaper": the verb by which a colony is joined to the
    one that comes; `after` is what stands after that one.
    """
    verb = next(
        (m for m in reversed(marks) if m.label in ("verb", "w", "change") and not _JOINS.isdisjoint(m.w.split())), None
    )
    if verb is None or not marks or verb is marks[-1]:
        return None
    way = " ".join(m.w for m in marks[-3:] if m.label == "w")
    at = next(k for k, m in enumerate(marks) if m is verb)
    if at == len(marks) - 2 and marks[-1].w == "into" and verb.w.split()[-1] in _GO and at:
        said = marks[at - 2 if marks[at - 1].w in _IS and at > 1 else at - 1]
        if said.label == "cols":
            return verb  # "n six goes into | 22", "78 's going into | 79"
    plain = marks[-1].w in _OVER
    tipped = marks[-1].w == "into" and not _TIPS.isdisjoint(verb.w.split())
    papered = plain and any(m.w.split()[-1] in _PAPER for m in (*after[:6], *marks[-4:]))
    return verb if way.endswith(_ONTO) or tipped or papered else None


_LIKEWISE = frozenset("and then out of from off also another one that is that's it it's called a nuc".split())
_LIKEWISE_FAR = 16


def _made_likewise(marks: list[Mark], before: list[Mark]) -> bool:
    """ "made N5 out of 18 | and N6 out of | 20", "… | and from 20 also one that's | N6": the same made of another."""
    if marks[-1].w not in ("of", "from", "off", "is", "that's", "it's", "called"):
        return False
    if marks[0].w not in ("and", "then") or not any(x.v.get("step") == "nuc_made" for x in before):
        return False
    return all(x.label in ("cols", "comma", "hive", "filler") or x.w in _LIKEWISE for x in marks)


_WHERE = frozenset("on onto in into".split())


def _gave_so_many(marks: list[Mark]) -> bool:
    """ "hive six made three nucs | N1, N2 and N3", "forty gave me two nucs | N5 and N6": hives made of the first."""
    k = len(marks) - 1
    made = marks[k].v.get("step") == "nuc_made" and marks[k].w.split()[-1] in _NUCS
    while k and (marks[k].label in ("change", "verb") or marks[k].w in ("me", "us")):
        k -= 1
    return made and marks[k].label == "cols"


_NUCS = frozenset("nuc nucs split splits".split())


def relates(marks: list[Mark], row: list[Mark], i: int) -> bool:
    """Whether this second group of colonies is the other side of the first ("combined 76 into 77", "same as 42")."""
    p = marks[-1]
    if sum(x.label == "cols" for x in marks) == 1 and joins(marks, row[i + 1 : i + 7]) is not None:
        return True  # "fifty went on top of | fifty one"
    if (
        p.w in ("into", "with")
        and len(marks) > 1
        and marks[-2].label == "verb"
        and not (len(marks) > 2 and marks[-3].label == "fact")
        and sum(x.label == "cols" for x in marks) == 1
    ):
        return True  # "n six goes into | twenty two"
    if p.w in ("into", "with") and all(
        x.label in ("cols", "comma", "hive", "filler")
        or x.w in ("and", "then", "so", "but", "into", "with", "both")
        or x.v.get("cue") == "plan"
        for x in marks
    ):
        return True  # "and 79 into | 77"
    if _made_likewise(marks, row[max(0, i - _LIKEWISE_FAR) : i]) or _gave_so_many(marks):
        return True
    told = predicate_follows(row, i)
    if p.label == "filler" and (person_follows(row, i) or (told and any(x.label == "change" for x in marks))):
        return False  # "made two nucs out of sixty then um | sixty one I was going to split"
    if p.w == "and" and len(marks) > 1 and marks[-2].label == "cols" and told:
        return False  # "combined it into fifty one and | fifty four has cells"
    change = [x for x in marks if x.label == "change"]
    if change and p.w in ("of", "off", "from") and any(x.label == "fact" for x in marks[: marks.index(change[-1])]):
        if marks[-2] is change[-1] or marks[-1] is change[-1]:
            return False  # "forty has efb | made one split off of 44"
    if change and p.w in ("on", "in") and marks[-2].w in NEXT and person_follows(row, i):
        return False  # "splits, one off each and on | l fourteen i put an excluder"
    if change and (p.label == "cols" or p.w in ("yet", "too", "now")) and _gets_its_own(row[i + 1 : i + 5]):
        return False  # "two nucs out of sixty | forty six two supers off", "split l twelve yet | l five put two supers"
    if any(x.v.get("step") == "moved" for x in change) and goes_along(row, i) is not None:
        return False  # "moved l three to the orchard and | l four goes there friday"
    if p.label == "same" or (p.label == "cue" and p.v.get("cue") == "except"):
        return True
    if p.label == "cue" and p.v.get("cue") == "correct":
        return True
    if change:
        steps = {x.v.get("step") for x in change}
        if (p.w == "and" or p.label in ("comma", "cols", "yard", "date", "filler")) and i + 1 < len(row):
            if row[i + 1].w in ("into", "with") or (
                row[i + 1].w == "both" and row[i + 2 : i + 3] and row[i + 2].w == "into"
            ):
                return False  # "split 45 into 58 and | 46 into 59"
            if row[i + 1].w == "to" and steps == {"moved"} and any(x.label == "yard" for x in row[i + 2 : i + 4]):
                return False  # "moved fifty to the pond and | 51 to the quarry"
        checked = i + 1 < len(row) and row[i + 1].label in ("sample", "method")  # "and | ten half a cup gave eleven"
        if p.w in NEXT and (checked or told or person_follows(row, i)):
            return False  # "nine was split in june and | twelve died", "two splits off 67 so | 68 is weak"
        since = marks[marks.index(change[-1]) :]
        if p.w in ("of", "off") and any(x.label in ("agent", "form") for x in since):
            return False  # "shook it out in front of 61 | pads are out of 40"
        given = any(x.label in THINGS for x in since)  # "split 12 yet so | wafers on 29"
        told_in = p.w in ("in", "on") and marks[-2].label in ("queen_noun", "fact")
        told_in = told_in and (told or person_follows(row, i))  # "queen | in 55 is a virgin"
        if p.label == "w" and p.w in _TO_THE_OTHER and not (given and p.w in _WHERE) and not told_in:
            if steps & {"combined", "moved", "split", "nuc_made"}:
                return True
        if p.label == "change" and p.w.endswith(" up") and p.v.get("step") == "nuc_made":
            return True  # "took three frames out of L9 and made up | N2"
        if p.label == "cols" and (told or checked or person_follows(row, i)):
            return False  # "split eleven | nine gets split friday"
        if (
            steps & {"nuc_made", "split"}
            and not (given and p.w in ("on", "in", "off", "of"))
            and p.label
            in (
                "comma",
                "yard",
                "filler",
                "w",
                "verb",
                "noun",
                "hives",
                "cols",
            )
        ):
            return p.label != "filler" or steps == {"nuc_made"}
        if steps & {"sold", "bought", "swarm_caught"} and not told and p.label in ("comma", "filler", "noun", "date"):
            return True
    return (_giver(marks) and _moved_between(marks) and not _taken_anew(marks)) or gets_from(marks)


def _gets_its_own(after: list[Mark]) -> bool:
    """Whether something was put on, or taken off, the colonies before these marks."""
    if after and after[0].label == "verb" and after[0].v.get("dir"):
        return any(x.label in THINGS for x in after[1:])
    return [x.label for x in after[:1]] == ["number"] and [x.label in THINGS for x in after[1:2]] == [True]


def _giver(marks: list[Mark]) -> bool:
    """Whether the marks end in "from" or "out of"."""
    p = marks[-1]
    return p.label == "w" and (p.w == "from" or (p.w == "of" and len(marks) > 1 and marks[-2].w in ("out", "off")))


def _moved_between(marks: list[Mark]) -> bool:
    """Whether frames of brood are spoken of, which come from one colony and go to another."""
    return any(x.label == "item" and x.v.get("item") == "brood_frame" for x in marks)


def _taken_anew(marks: list[Mark]) -> bool:
    """ "forty has chalkbrood | took a frame of brood out of 44": taken after what was seen, and not for that one."""
    taken = next((k for k, x in enumerate(marks) if x.label == "verb" and x.v.get("dir") == "out"), 0)
    return bool(taken) and done(marks[:taken])


_GOT = frozenset("verb item queen_work queen_noun number w".split())
"""The sorts of mark from "gets" to the colony that gave."""
_GAVE = frozenset("gave give fed".split())
_GETS = frozenset("get gets got getting".split())
_SO_MUCH = frozenset("a an the one only just their its another also".split())


def _got_it(back: list[Mark]) -> bool:
    """Whether the thing that ends the marks is what the colonies before it got."""
    k = len(back) - 2
    while k > 0 and (back[k].label in ("number", "form", "agent", "approx") or back[k].w in _SO_MUCH):
        k -= 1
    return k > 0 and back[k].w in _GETS and back[k - 1].label in ("cols", "each", "pronoun", "yard", "every")


def gets_from(marks: list[Mark]) -> bool:
    """ "sixty gets a cell off | S2": the marks tell what a colony gets, to the word before the one that gave it."""
    if not marks or not (_giver(marks) or (marks[-1].label == "w" and marks[-1].w == "off")):
        return False
    k = next((k for k, x in enumerate(marks) if x.label in ("verb", "queen_work") and x.w.split()[0] in _GETS), None)
    if k is None or any(x.label not in _GOT or x.w == "and" for x in marks[k:]):
        return False
    thing = any(x.label in ("item", "queen_work", "queen_noun") for x in marks[k:])
    return thing and any(x.label in ("cols", "pronoun") or x.w in ("she", "he") for x in marks[:k])


def points_on(same: Mark) -> bool:
    """Whether "same for", "same as" names what comes after it; a bare "same thing" looks back only."""
    return same.w.split()[-1] in ("for", "as", "like", "with", "in", "on", "at", "into", "to", "w", "four")


def other_number(marks: list[Mark], ids: int) -> bool:
    """Whether a number of hives was said that is not the number of ids ("moved ten hives … um | l three stayed")."""
    if any(x.label == "hives" and "n" in x.v and x.v["n"].value != ids for x in marks):
        return True
    return any(x.label == "number" and y.label == "noun" and x.v["n"].value != ids for x, y in pairwise(marks))
