"""What stands before and after a number: may a statement begin here, does what follows speak of a colony?"""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import (
    BULLETS,
    GLUE,
    NP,
    ONE_HIVE_VERBS,
    PREPS,
    Row,
    after_list,
    id_of,
    starts_line,
    whole,
)
from fieldnotes.reader.mark import PERSONS, REACH, THINGS, Mark

_BOUNDARY_WORDS = frozenset("and then so but also plus next or that i we".split())
_MADE_IN_NUMBERS = listed("made_in_numbers")
_GOVERN_NUMBERS = PREPS | frozenset("the a an about at to with by another these those than over under".split())
_DID = frozenset("got counted found did never have haven't plan want had will".split()) | listed("tipping_in")
_STATEMENT_MAY_FOLLOW = frozenset(
    (
        "stop line comma question mites clean percent value cue fact sample temp sky date days each pronoun "
        "every yard same_day amount unit moisture harvest heading method cols particle feed ratio round person clock "
        "noun thing ignore"
    ).split()
)


def starts_here(r: Row, i: int, p: Mark | None, last: str) -> bool:
    """Whether a new statement may begin at mark `i`."""
    if p is None or p.label in _STATEMENT_MAY_FOLLOW:
        return True
    if p.w in BULLETS:
        return True
    if p.label == "ordinal" and p.w == "first" and (q := r.at(r.on(i))) is not None and q.w in ("is", "has", "was"):
        return True  # "pinched the queen first | forty five is heavy now"
    if p.label == "number" and last == "value":
        return True
    if p.label in ("number", "colony") and last == "cols":
        q = r.at(r.on(i))
        if (
            q is not None
            and q.w in ("had", "has", "was", "is", "got")
            and (z := r.at(r.on(r.on(i))))
            and (z.label in ("number", "mites", "clean", "fact"))
        ) or (q is not None and q.w.split()[0] == "came"):
            return True  # "no wash on eight | fifteen had twenty seven"
        if q is not None and told_alone(r, i, q):
            return True  # "caught the one in forty eight | sixty three came to four percent"
        if q is not None and q.w in ("i", "we") and p.label == "number":
            return True  # "washed forty and forty one | forty two I ran out of alcohol for"
        return not r.checking or (q is not None and q.label in ("cue", "change", "fact", "clean", "mites", "percent"))
    if r.row[i - 1].label in GLUE:
        return True
    if p.label == "hives" and p.w.endswith("of them") and (q := r.at(r.on(i))) is not None and told_alone(r, i, q):
        return True  # "swarm cells five of them | seventy three i put a super on"
    if p.label == "hives" and "n" in p.v and r.checking and last != "cols":
        return True  # "washed 8 colonies, 80 2, 82 4"
    if p.label == "change" and p.v.get("step") in ("died", "swarmed"):
        return True
    if p.label == "item" or p.label == "form":
        return True
    return p.label == "w" and (p.w in _BOUNDARY_WORDS or not p.w.isalpha() or p.w not in _GOVERN_NUMBERS)


def told_alone(r: Row, i: int, q: Mark) -> bool:
    """Whether the number at `i` is a colony of the roster, too high to count what one hive has, and `q` after it a verb
    that is said of one colony, or of somebody who did not do it.
    """
    m = r.row[i]
    z = r.at(r.on(r.on(i)))
    counted = q.label == "method" and z is not None and z.label in ("mites", "percent", "clean")
    counted = counted or (q.label == "method" and q.w.endswith("ed") and z is not None and z.w in ("at", "out", "in"))
    if counted or (q.w == "gave" and z is not None and z.w == "me"):  # "um | twenty three wash four mites"
        return whole(m) and id_of(m) in r.outfit.ids
    if not whole(m) or m.v["n"].value <= _HIGH or id_of(m) not in r.outfit.ids:
        return False
    if q.w in ("i", "we"):
        did = z is not None and z.label in ("verb", "queen_work", "fact") and z.v.get("tense") != "base"
        return z is not None and (z.w == "never" or did or (z.label == "cue" and z.v.get("cue") == "not"))
    if (q.label == "ignore" and q.w.startswith("no ")) or q.label == "mites":
        return True  # "eighteen percent um | fifty three no chalkbrood", "reducers on 74 and 76 | 79 two mites"
    return q.w.split()[0] in _SAID_OF_ONE and q.label in ("w", "verb", "fact", "percent", "mites", "change")


_HIGH = 24
_SAID_OF_ONE = ONE_HIVE_VERBS | {"gave", "there's"}


def subject_follows(r: Row, i: int, q: Mark | None) -> bool:
    """Whether `q`, after the number or list at `i`, says something of a colony, so that the number is its subject."""
    q = _past_place(r, i, q)
    if q is None:
        return False
    if q.w in (":", "=", "'", "'s", "|") or ((q.label == "ignore" or q.w == "there's") and told_alone(r, i, q)):
        return True
    if q.w in BULLETS:
        return _dash_parts(r, i, q)
    if q.label == "change" and q.w.split()[0] in _MADE_IN_NUMBERS and not q.v.get("of_list"):
        return False  # "8 splits made"
    if q.label in ("fact", "change", "clean", "mites", "percent", "queen_work", "same", "check", "method"):
        return True
    if q.label == "cue" and q.v.get("cue") == "ask" and q.w in ("is the", "is my", "is our"):
        return True  # "sixty four is the good one"
    if q.label == "ignore" and not r.checking and (q.w.split()[0].endswith("n't") or q.w.startswith("never ")):
        return True  # "nine didn't like the syrup"
    if q.label == "cue":
        may = q.v.get("cue") == "if" and q.w.split()[0] in ("might", "may")  # "nine might need a super"
        return may or (q.v.get("cue") in ("not", "plan") and q.w not in ("no", "without"))
    if q.w in ("the", "her", "its", "their"):
        third = r.at(r.on(_place_of(r, i, q)))
        return third is not None and third.label in ("fact", "queen_noun", "item")
    if q.w == "as" and (well := r.at(r.on(_place_of(r, i, q)))) is not None and well.w == "well":
        return True  # "pads in 40 and 41. 44 as well"
    if q.label == "w" and q.w not in PERSONS:
        given = q.w == "also" and (thing := r.at(r.on(_place_of(r, i, q)))) is not None and thing.label in THINGS
        # "none and two | also escapes went on"
        return q.w == "would" or (q.w in r.subject_verbs and not given)
    if q.label == "verb":
        return q.w.split()[0] in r.subject_verbs
    if q.label == "noun":
        return q.v.get("noun") == "nuc" and not q.w.endswith("s")
    if q.label in ("every", "pronoun") and (q.w.split()[0] in ("all", "both", "neither") or q.w == "that one"):
        return True
    if q.w in ("he", "she", "it") and (has := r.at(r.on(_place_of(r, i, q)))) is not None and has.w in ("has", "had"):
        return True  # "sixty two he has none"
    if q.w in PERSONS:
        return _somebody_acts(r, i, q)
    return q.label == "number" and _number_said_of_it(r, i)


def _place_of(r: Row, i: int, q: Mark) -> int:
    """The index of `q`, which stands after `i`."""
    return next(n for n in range(i, len(r.row)) if r.row[n] is q)


_IS = frozenset("is was are were has had looks looked".split())


def _past_place(r: Row, i: int, q: Mark | None) -> Mark | None:
    """What follows the place where the colonies stand, or "only": "twelve and fourteen at the pond | have robbing"."""
    if q is not None and q.w in ("only", "just") and (k := r.on(_place_of(r, i, q))) < len(r.row):
        return r.row[k] if r.row[k].w.split()[0] in r.subject_verbs else q  # "forty two only | got one"
    if q is None or q.label != "w" or q.w not in ("at", "in", "over", "out", "down", "up", "there", "here"):
        return q
    k = _place_of(r, i, q) + 1
    if q.w in ("there", "here"):
        return r.at(k) if (m := r.at(k)) and m.w in _IS else q  # "seventy seven there | is light"
    while (m := r.at(k)) and m.label == "w" and m.w in ("at", "the", "in", "by"):
        k += 1
    return r.at(r.on(k)) if m is not None and m.label == "yard" else q


def _dash_parts(r: Row, i: int, q: Mark) -> bool:
    """Whether a dash parts a colony from what is said of it: "40 - 2" is a colony and a count, "40-44" a range."""
    far = r.at(r.on(_place_of(r, i, q)))
    if far is None or far.label != "number":
        return True
    here = r.row[i]
    rising = here.label == "number" and far.v["n"].value > here.v["n"].value
    return not rising and starts_line(r, i)


def _somebody_acts(r: Row, i: int, q: Mark) -> bool:
    """Whether "I" or "we" with work, a plan or something not done follows ("twelve I saw the queen")."""
    place = _place_of(r, i, q)
    third = r.at(r.on(place))
    if third is not None and third.w in ("already", "just", "also"):
        place = r.on(place)
        third = r.at(r.on(place))  # "sixty two I already split"
    if third is None:
        return False
    if any(x.label == "cue" and x.v.get("cue") in ("not", "plan") for x in r.row[place + 1 : place + 8]):
        return True
    return third.label in ("queen_work", "verb", "change", "method", "fact", "ignore") or (
        third.label != "line" and third.w.split()[0] in _DID
    )


def _number_said_of_it(r: Row, i: int) -> bool:
    """Whether the number after the one at `i` is said of it: a count, or "72 five no six swarm cells"."""
    second = r.on(r.on(i))
    third = r.at(second)
    if r.checking:
        return third is None or third.label not in NP or third.label == "noun"
    fourth = r.at(r.on(second))
    if third is not None and third.w == "or" and fourth is not None and fourth.label == "fact" and "n" in fourth.v:
        return True  # "forty one five or six frames of bees"
    return bool(third and third.w == "no" and fourth and fourth.label == "fact")


def placed_later(r: Row, i: int) -> bool:
    """Whether "in" or "on" with a colony follows in the line, so that the number counts things."""
    k = i + 1
    while k < len(r.row) and k < i + REACH and r.row[k].label not in ("line", "stop"):
        if (
            r.row[k].w in ("in", "on", "into", "to")
            and k + 1 < len(r.row)
            and r.row[k + 1].label in ("number", "colony", "hive", "hives")
        ):
            return True
        k += 1
    return False


def each_after_range(r: Row, i: int) -> bool:
    """Whether a number "each" follows the range that begins at `i`."""
    k = r.on(r.on(r.on(i)))
    m, n = r.at(k), r.at(r.on(k))
    return m is not None and m.label == "number" and n is not None and n.label == "each"


def alone_or_listed(r: Row, i: int) -> bool:
    """Whether the number stands alone in its row, or begins a list or range with nothing counted after it."""
    after = after_list(r, i)
    return after is None or after.label in ("line", "stop", "comma", "w")


def sample_next(r: Row, i: int) -> bool:
    """ "17, half cup, 1 mite": a sample and a count in their own cells make the number a colony."""
    cells: list[str] = []
    k = r.on(i)
    while len(cells) < 4 and (m := r.at(k)) and m.label in ("comma", "sample", "method", "mites", "clean", "value"):
        cells.append(m.label)
        k = r.on(k)
    return cells[:2] in (["comma", "sample"], ["comma", "method"]) and cells[2:] in (
        ["comma", "mites"],
        ["comma", "clean"],
        ["comma", "value"],
    )
