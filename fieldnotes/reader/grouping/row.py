"""The row of marks with what every question about it needs: neighbours, the roster, what stands near by."""

from __future__ import annotations

from fieldnotes.reader.grammar import grammar, listed
from fieldnotes.reader.mark import REACH, THINGS, Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit

BOXES = {"☐": "planned", "⬜": "planned", "□": "planned", "◻": "planned", "❌": "not_done"} | dict.fromkeys(
    "☑✅☒", "ticked"
)
"""The state of a line that begins with a box."""
BULLETS = frozenset("- * · • – — > + ◦ ▪ ‣ o ~".split()) | frozenset(BOXES)
PIECES = frozenset("pieces bits chunks lumps slabs".split())
RANGE = frozenset(["-", "–", "—", "to", "through", "till", "until"])
JOIN = frozenset(["and", "plus", "or", "/", "+"])
PREPS = frozenset("in on into onto from off of out under inside for".split())
OF_ONE = frozenset("stays is has was gets needs".split())
GLUE = frozenset(["filler", "approx"])
ENDS = frozenset(["stop", "line", "comma"])
NP = frozenset("item agent form feed unit amount queen_noun noun ratio".split())
ONE_HIVE_VERBS = listed("one_hive")
NEW_TOPIC = listed("new_topic")
FEW_HIVES = 12
"""A number of hives told of at once, without their names, is hardly higher: a higher one names a hive."""
FEW_GIVEN = 10
"""A number below this may say how many of a thing a hive got, though it stands where a colony could."""


_VALUES = grammar().tables["values"]
_BEFORE_VALUE, _SUBJECT_VERBS = frozenset(_VALUES["before"]), frozenset(_VALUES["subject_verbs"])


class Row:
    """The marks of a message, the roster, whether checks are spoken of, and what is known of the row so far."""

    def __init__(self, row: list[Mark], outfit: Outfit, checking: bool) -> None:
        self.row = row
        # Up to where it is known that no such run, order or list of counts begins.
        self.no_pairs_until = self.no_order_until = self.no_values_until = self.no_lists_until = 0
        self.outfit = outfit
        self.checking = checking
        self.last_ids: list[str] = []  # of the colonies named last
        self.going_on = -9  # where a count of frames went on to the next colony without its noun
        self.before_value: frozenset[str] = _BEFORE_VALUE
        self.subject_verbs: frozenset[str] = _SUBJECT_VERBS

    def back(self, i: int) -> int:
        """Index of the mark before `i`, fillers passed over; -1 at the start."""
        i -= 1
        while i >= 0 and self.row[i].label in GLUE:
            i -= 1
        return i

    def on(self, i: int) -> int:
        """Index of the mark after `i`, fillers passed over; the length of the row at the end."""
        i += 1
        while i < len(self.row) and self.row[i].label in GLUE:
            i += 1
        return i

    def at(self, i: int) -> Mark | None:
        """The mark at `i`, or None outside the row."""
        return self.row[i] if 0 <= i < len(self.row) else None


def past_the(r: Row, k: int) -> int:
    """`k`, or the index after a "the" that stands there."""
    m = r.at(k)
    return r.on(k) if m is not None and m.w == "the" else k


def number_in(m: Mark) -> float:
    """The number in a colony's id, or the number itself."""
    return float(m.v["n"].value) if "n" in m.v else float("".join(c for c in m.v["value"] if c.isdecimal()) or 0)


def deals_out(r: Row, i: int) -> bool:
    """Whether it is told near `i` how many of something each got: "gave 44 two strips and | 45 one"."""
    near = r.row[max(0, i - 10) : i]
    gave = any(m.w in ("gave", "give") for m in near) and any(m.label in THINGS or m.label == "amount" for m in near)
    return gave or sentence_has(r, i, "each")


def of_bees(r: Row, i: int) -> bool:
    """ "nine | out of three hundred": whether the number at `i` is the mites of so many bees."""
    after = r.at(r.on(i))
    return after is not None and after.label == "sample" and after.w.startswith("out of")


def whole(m: Mark) -> bool:
    """Whether the number can be an id by itself: whole, of one to four digits, said exactly."""
    number: Number = m.v["n"]
    return number.whole and 1 <= number.value <= 9999 and not number.approx


def id_of(m: Mark) -> str:
    """The number as an id."""
    return str(int(m.v["n"].value))


def colonies_of(run: list[Mark], bare: bool) -> Mark:
    """The mark of colonies named one after the other; `bare` where the first is a number alone."""
    named = [x.v["value"] if x.label == "colony" else id_of(x) for x in run]
    return Mark("cols", run[0].s, run[-1].e, " ".join(x.w for x in run), {"ids": named, "bare": bare}, "colonies")


def can_be_colonies(r: Row, run: list[Mark]) -> bool:
    """Whether each of the numbers is a colony's by the roster, full ids in any case."""
    return all(x.label == "colony" or r.outfit.could_be(id_of(x)) for x in run)


def starts_line(r: Row, i: int) -> bool:
    """Whether the mark stands first in its line, bullets and hive words aside."""
    p = r.at(r.back(i))
    return p is None or p.label == "line" or p.w in BULLETS or p.label in ("hive", "hives")


def sentence_has(r: Row, i: int, *labels: str) -> bool:
    """Whether a mark of one of the labels stands before `i` in its sentence."""
    j = i - 1
    while j >= max(0, i - 2 * REACH) and r.row[j].label not in ("stop", "line", "question"):
        if r.row[j].label in labels:
            return True
        j -= 1
    return False


def after_list(r: Row, i: int) -> Mark | None:
    """The mark after the list of bare numbers that begins at `i`."""
    return r.at(list_end(r, i))


def list_end(r: Row, i: int) -> int:
    """Where the mark after the list of bare numbers that begins at `i` stands; the row's length or more at its end."""
    k = r.on(i)
    while True:
        m = r.at(k)
        if k > i + 2 * REACH or m is None or not (m.label == "comma" or m.w in JOIN or (m.w in RANGE and m.w != "-")):
            if (
                m is not None
                and m.w in BULLETS
                and (f := r.at(r.on(k)))
                and f.label == "number"
                and whole(f)
                and f.v["n"].value > r.row[i].v["n"].value
            ):
                k = r.on(r.on(k))
                continue
            return k
        j = r.on(k)
        while (x := r.at(j)) and (x.label == "comma" or x.w in JOIN):
            j = r.on(j)
        x = r.at(j)
        if x is None or x.label != "number" or not whole(x) or not r.outfit.could_be(id_of(x)):
            return k
        k = r.on(j)


def range_here(r: Row, i: int) -> bool:
    """Whether a rising range begins at the number ("one through six")."""
    q, z = r.at(r.on(i)), r.at(r.on(r.on(i)))
    return (
        q is not None
        and q.w in ("through", "-", "–")
        and z is not None
        and z.label == "number"
        and whole(z)
        and "n" in r.row[i].v  # a full id has none
        and z.v["n"].value > r.row[i].v["n"].value
    )


_OF_SAMPLE = frozenset(["in", "per", "/"])
_SAMPLES = (100, 200, 300, 400, 600)


def counted_in_bees(r: Row, i: int) -> bool:
    """Whether the number at `i` is counted in a sample: "9 in 300", "4 in half a cup"."""
    q, z = r.at(r.on(i)), r.at(r.on(r.on(i)))
    if q is not None and q.label == "sample":
        return q.w.split()[0] in _OF_SAMPLE
    if q is None or z is None or q.w not in _OF_SAMPLE:
        return False
    return z.label == "sample" or (z.label == "number" and number_in(z) in _SAMPLES)


def rises_to_colony(r: Row, i: int) -> bool:
    """Whether the number after the next mark is a colony's and greater than this one."""
    z = r.at(r.on(r.on(i)))
    return (
        z is not None
        and z.label == "number"
        and whole(z)
        and z.v["n"].value > r.row[i].v["n"].value
        and r.outfit.could_be(id_of(z))
    )


def next_is_higher_colony(r: Row, i: int, q: Mark) -> bool:
    """Whether `q` is a greater number that can be a colony's."""
    return bool(q.v["n"].value > r.row[i].v["n"].value) and r.outfit.could_be(id_of(q))


_EACH_DOES = frozenset("need needs want wants get gets got have has had took take".split())


def each_does(r: Row, i: int) -> bool:
    """ "47 and | 48 | each need a super": what each of the colonies named needs or gets, no number of it."""
    j = r.on(i)
    each, does = r.at(j), r.at(r.on(j))
    return each is not None and each.label == "each" and does is not None and does.w.split()[0] in _EACH_DOES


def each_after(r: Row, i: int) -> Mark | None:
    """ "seven eight and ten | two each", "seven and eight | two pads in each": "each" after the number at `i`."""
    j = r.on(i)
    if (thing := r.at(j)) and thing.label in THINGS:
        j = r.on(j)
        if (way := r.at(j)) and way.label == "w" and way.w in PREPS:
            j = r.on(j)  # "1 super on ea"
    m = r.at(j)
    return m if m is not None and m.label == "each" else None


def reaches_all(r: Row, k: int) -> bool:
    """Whether the thing at `k` is said to go on, or come off, all colonies, the rest or both."""
    thing = r.at(k)
    if thing is None or thing.label not in THINGS:
        return False
    while (m := r.at(k)) is not None and m.label in THINGS:
        k += 1
    if m is not None and m.label == "w" and m.w in PREPS:
        m = r.at(k + 1)
    return m is not None and (m.label in ("every", "rest") or (m.label == "pronoun" and m.w.startswith("both")))
