"""Colonies by the row they stand in: typed lines, a heading with a colon, brackets, bullets, tables."""

from __future__ import annotations

from fieldnotes.reader.grouping.questions.things import THINGS_AND_QUEENS
from fieldnotes.reader.grouping.row import BULLETS, JOIN, RANGE, id_of, range_here, starts_line, whole
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.grouping.surroundings import alone_or_listed, each_after_range
from fieldnotes.reader.mark import FOUND_IN_ALL, MOST_GIVEN, THINGS

_BECAME = frozenset("on off in out yes no done".split())
_IN_ROW = frozenset(["number", "colony", "comma", "filler", "date"])
_BETWEEN_IN_ROW = RANGE | JOIN | _BECAME | {":"}


def row_of_yard_or_date(at: Spot) -> bool | None:
    """A row "Quarry: 2", "Cut Bank: 50 to 54", "26 March: 75 and 76 from …", "Quarry - 3, 17"."""
    p, pp = at.p, at.pp
    if p is None or pp is None or pp.label not in ("yard", "date") or at.r.checking:
        return None
    if p.w != ":" and not (p.w in ("-", "–", "—") and _listed_at_yard(at)):
        return None
    if not alone_or_listed(at.r, at.i):
        return None
    here = pp.label == "date" or id_of(at.m) in at.r.outfit.yard_ids.get(pp.v["value"], ())
    return True if here else None


def _listed_at_yard(at: Spot) -> bool:
    """Whether figures stand behind the yard that opens the line: several, or one below a line of several."""
    place = at.r.back(at.r.back(at.i))
    several = at.after is not at.q or range_here(at.r, at.i) or len(at.r.last_ids) > 1
    return several and at.number.digits and at.r.row[place].label == "yard" and starts_line(at.r, place)


def row_with_count_of_frames(at: Spot) -> bool | None:
    """ "9, 8 FOB"."""
    if not (at.opens_line and at.number.digits and at.q and at.q.label == "comma"):
        return None
    z = at.z
    return True if z and z.label == "fact" and "n" in z.v else None


def digits_in_row(at: Spot) -> bool | None:
    """ "at pond: 1-12 2 ea", "70) queen right"."""
    if not at.number.digits:
        return None
    if range_here(at.r, at.i) and each_after_range(at.r, at.i):
        return True
    return True if at.q and at.q.w == ")" and starts_line(at.r, at.i) else None


def row_of_fact(at: Spot) -> bool | None:
    """ "heavy: 1, 2, 7, 8", "dead: 11 (mice)"."""
    p, pp, r = at.p, at.pp, at.r
    if not (p and p.w == ":" and pp and not r.checking):
        return None
    k = r.back(r.back(at.i))
    if pp.w == "only":  # "eggs only: 42, 43"
        k = r.back(k)
    found = r.at(k)
    if found is None or found.label not in ("fact", "change"):
        return None
    before = r.at(r.back(k))
    opens = starts_line(r, k) or (before is not None and before.label == "stop")
    return alone_or_listed(r, at.i) if opens else None


def found_in(at: Spot) -> bool | None:
    """ "light: 41 44; heavy: 42": what was found, and the one colony it was found in."""
    pp, q = at.pp, at.q
    if at.p is None or at.p.w != ":" or pp is None or pp.label != "fact" or "n" in pp.v or "number" in pp.v:
        return None
    before = at.r.at(at.r.back(at.r.back(at.r.back(at.i))))
    opens = before is None or before.label in ("stop", "line", "comma", "yard")
    ends = q is None or q.label in ("stop", "line") or (q.label == "comma" and at.after is None)
    told = bool({"queen", "temper", "strength", "stores"} & set(pp.v.get("set", {}))) or "sign" in pp.v
    return True if opens and ends and told and at.number.digits and at.r.outfit.could_be(id_of(at.m)) else None


def cell_of_table(at: Spot) -> bool | None:
    """A row "6    escape on"."""
    q = at.q
    gap = at.opens_line and at.number.digits and q and q.s - at.m.e > 1
    return True if gap and q and q.label not in ("stop", "days") else None


def row_of_work(at: Spot) -> bool | None:
    """ "3 April – 1, 2 and 3 fed"."""
    p, after = at.p, at.after
    row = p and (p.w in BULLETS or p.w == ":") and at.number.digits
    if row and after is not at.q and after and after.label == "verb":
        return bool(after.v.get("tense") == "past")
    return None


def row_of_direction(at: Spot) -> bool | None:
    """ "supers: 41-45 on, 46 off", "pads 41-50 out and 51-60 in": after a thing, colonies and what became of it."""
    listed = at.after is not at.q or range_here(at.r, at.i)
    if at.after is None or at.after.w not in _BECAME or not (listed or at.number.value > 9):
        return None
    k = at.i - 1
    while k > 0 and (at.r.row[k].label in _IN_ROW or at.r.row[k].w in _BETWEEN_IN_ROW):
        k -= 1
    if k < 0 or at.r.row[k].label not in THINGS or not at.number.digits:
        return None
    then = at.r.at(at.after_index + 1)
    return True if then is None or then.label in ("stop", "line", "comma", "date", "yard", "w") else None


def told_in_brackets(at: Spot) -> bool | None:
    """ "lost 52 (wasps) | 60 (no queen)": what stands in brackets after the number is said of that colony."""
    p, q, z = at.p, at.q, at.z
    opens = p is None or p.label in ("comma", "stop", "line", "change", "fact") or p.w in (")", "and", ":")
    told = q is not None and q.w == "(" and z is not None and z.label in ("fact", "change")
    return True if opens and told and id_of(at.m) in at.r.outfit.ids else None


def in_brackets(at: Spot) -> bool | None:
    """ "1 dead (14)"."""
    p, q, pp = at.p, at.q, at.pp
    bracketed = p and p.w == "(" and q and q.w == ")" and at.last != "cols"
    return True if bracketed and pp and pp.label == "change" else None


def row_of_amount(at: Spot) -> bool | None:
    """ "fondant on: 7, 8, 10 a kilo each"."""
    p, q, after = at.p, at.q, at.after
    if p is None or q is None or after is None:
        return None
    if p.w == ":" and q.label == "comma" and after.label in ("amount", "unit"):
        return True
    if at.number.digits and id_of(at.m) in at.r.outfit.ids and (p.w == ":" or p.label == "comma"):
        k = at.i
        while (m := at.r.at(k)) and m.label == "number" and whole(m):
            k += 1
        given = m is not None and m.label == "amount" and "n" in m.v
        return True if given and _fed_in_rows(at) else None  # "feed: 41 42 2 gal, | 43 1 gal"
    return None


def _fed_in_rows(at: Spot) -> bool:
    """Whether feeding heads the row, with a colon after it."""
    k = at.i - 1
    while k > 0 and at.r.row[k].w != ":" and at.r.row[k].label not in ("stop", "line"):
        k -= 1
    head = at.r.at(k - 1)
    fed = head is not None and (head.label == "feed" or head.v.get("does") == "feed")
    return at.r.row[max(k, 0)].w == ":" and fed


def row_with_count_of_things(at: Spot) -> bool | None:
    """ "supers on 70 71, 2 each. 75 1 super.": a line of its own, the colony and how many things it got."""
    p, q, z = at.p, at.q, at.z
    opens = p is None or p.label in ("stop", "line")
    if not opens or q is None or z is None or not at.number.digits or q.label != "number":
        return None
    few = q.v["n"].digits and q.v["n"].value <= MOST_GIVEN and at.r.outfit.could_be(id_of(at.m))
    return True if few and z.label in THINGS and not at.r.checking else None


def to_be_done(at: Spot) -> bool | None:
    """ "9 to be requeened next week": the hive that opens the line."""
    q, z = at.q, at.z
    opens = at.p is None or at.p.label in ("stop", "line") or at.p.w in ("-", "*", "•")
    waits = q is not None and q.w == "to" and z is not None and z.w == "be" and at.r.outfit.could_be(id_of(at.m))
    return True if opens and waits and at.number.digits else None


def row_of_words(at: Spot) -> bool | None:
    """ "52 hopeless, laying workers", "75 hopeless, shook out in front of 71"."""
    q, r = at.q, at.r
    opens = at.opens_line or (at.p is not None and at.p.label == "stop" and id_of(at.m) in r.outfit.ids)
    if not (opens and at.number.digits and at.number.value > 10 and q and q.label == "w" and q.w.isalpha()):
        return None
    second = r.on(r.on(at.i))
    z, y = r.at(second), r.at(r.on(second))
    return True if z and z.label == "comma" and y and y.label in _TOLD_OF_IT else None


_TOLD_OF_IT = frozenset(["fact", "change", "queen_work", "verb"])


def before_comma(at: Spot) -> bool | None:
    """ "60, queen seen and eggs", "12, laying well, 14, no eggs", "41, two mites": a colony, a comma, what is told."""
    p, r = at.p, at.r
    k = at.after_index
    if not (p is None or p.label in _BEGINS) or r.at(k) is None or id_of(at.m) not in r.outfit.ids:
        return None
    comma = r.row[k]
    told = r.at(r.on(k))
    if comma.label != "comma" or comma.w != "," or told is None:
        return None
    if told.label == "w" and told.w in _LEADS_TO_FACT:
        told = r.at(r.on(r.on(k))) or told  # "60, just cranky"
    if told.label == "fact":
        return None if r.checking and not at.opens_line else True
    if told.label == "change":
        return True if told.v.get("step") in ("died", "swarmed") and "n" not in told.v else None
    count = told.label == "mites" or (told.label == "clean" and (at.number.value > MOST_GIVEN or at.opens_line))
    return True if count else None


def then_no(at: Spot) -> bool | None:
    """ "44 dead, 46 no cage no queen no eggs": the next colony, and what it has not."""
    begins = at.p is None or at.p.label in _BEGINS or at.p.w in ("and", "then")
    if not begins or at.q is None or at.q.w != "no" or at.r.checking or at.number.value <= MOST_GIVEN:
        return None
    return True if id_of(at.m) in at.r.outfit.ids else None


_BEGINS = frozenset(["line", "stop", "comma"])
_LEADS_TO_FACT = frozenset(
    "just still only a bit pretty very quite really real so has had have is looks good nice".split()
)


def beside_its_yard(at: Spot) -> bool | None:
    """ "queenless 94 at Ridge", "105 home one strip fell": a high number that the yard right after it has."""
    p, q, k = at.p, at.q, at.r.on(at.i)
    opens = p is None or p.label in ("stop", "line", "comma", "fact") or p.w in _BURNED
    if not opens or q is None or not at.number.digits:
        return None
    if at.opens_line and at.after is not None and at.after is not q:  # "9 and 10 at Millpond, spotty brood"
        k = at.after_index
    elif at.number.value <= MOST_GIVEN:
        return None
    while (m := at.r.at(k)) and m.w in ("at", "the", "in"):
        k = at.r.on(k)
    yard = at.r.at(k)
    if yard is None or yard.label != "yard" or (p is not None and p.label == "fact" and "n" in p.v):
        return None
    ids = at.r.outfit.yard_ids.get(yard.v["value"], frozenset())
    return True if id_of(at.m) in ids and (at.number.value > len(ids) or at.after is not q) else None


_BURNED = frozenset(["burned", "burnt"])


def next_row(at: Spot) -> bool | None:
    """Rows "5   swarmed", "6   escape on": the number after the one of the row before."""
    q, last = at.q, at.r.last_ids
    row = at.opens_line and at.number.digits and q and q.label in THINGS
    if not row or q is None or (q.label == "item" and q.w.split()[-1].endswith("s")):
        return None
    return True if len(last) == 1 and last[0] == str(int(at.number.value) - 1) else None


def after_bullet(at: Spot) -> bool | None:
    """ "1) 70. Alcohol wash, 1 mite": what stands by itself after the number of the line."""
    sign = at.r.at(at.r.back(at.i))
    if sign is None or sign.w not in BULLETS or sign.w == "-" or not at.r.outfit.could_be(id_of(at.m)):
        return None
    return True if at.q is not None and (at.q.label == "stop" or at.q.w == ":") else None


def listed_after(at: Spot) -> bool | None:
    """ "queenless 3 9", "weak 14, 15": typed after what is found in them, as a line or a sentence of its own."""
    p, pp = at.p, at.pp
    if p is None or p.label not in ("fact", "change") or not at.number.digits or not at.r.outfit.could_be(id_of(at.m)):
        return None
    found = p.v.get("step") == "died" and "n" not in p.v
    found = found or bool(FOUND_IN_ALL & set(p.v.get("set", {})) and "number" not in p.v)
    k = at.i
    while (m := at.r.at(k)) is not None and (m.label in ("number", "comma") or m.w in ("and", "&")):
        k += 1
    opens = pp is None or pp.label in ("line", "stop") or (pp.label == "comma" and at.last == "cols")
    ends = m is None or m.label in ("line", "stop", "fact", "change")
    return True if found and opens and ends else None


def listed_behind_colon(at: Spot) -> bool | None:
    """ "strips in: 40, 41, 43": figures that rise, to the end of the sentence, after what was done; behind a yard, to
    what was found: "Quarry: 3 4 5 strong".
    """
    if at.p is None or at.p.w != ":" or at.pp is None or not at.number.digits or at.r.checking:
        return None
    if not (
        at.pp.label in THINGS_AND_QUEENS
        or at.pp.label == "yard"
        or at.pp.label == "verb"
        or at.pp.w in ("in", "on", "off", "out", "to")
    ):
        return None
    rising, k, joined, last = 0, at.i, False, 0.0
    while (m := at.r.at(k)) is not None:
        if m.label == "number" and m.v["n"].digits and m.v["n"].value > last and at.r.outfit.could_be(id_of(m)):
            rising, last = rising + 1, m.v["n"].value
        elif m.label == "comma" or m.w in ("and", "&"):
            joined = True
        elif not (m.w in RANGE and rising):
            break
        k += 1
    ends = m is None or m.label in ("line", "stop", "date", "cue") or m.w == "("
    found = at.pp.label == "yard" and m is not None and m.label == "fact"
    return True if rising > 1 and ((joined and ends and at.pp.label != "yard") or found) else None
