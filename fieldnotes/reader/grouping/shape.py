"""Colony or count by the number itself and the marks right beside it, asked first: roster, fractions, ordinals."""

from __future__ import annotations

from fieldnotes.reader.grouping.row import BULLETS, PREPS, RANGE, id_of, range_here, sentence_has
from fieldnotes.reader.grouping.runs import then_named
from fieldnotes.reader.grouping.spot import Question, Spot
from fieldnotes.reader.mark import MOST_GIVEN, THINGS


def _after_hive_word(at: Spot) -> bool | None:
    """ "hive 12"; but "every hive two a hive"."""
    if at.p and at.p.label == "hive" and at.q is not None and at.q.label == "each" and at.pp is not None:
        if at.pp.w.split()[-1] in ("every", "each"):
            return False
    return True if at.p and at.p.label == "hive" else None


def _out_of_all(at: Spot) -> bool | None:
    """ "twenty one alive out of twenty five, dead are …": a number of all."""
    if at.q is not None and at.q.w in ("alive", "left", "living"):
        ahead = [m.w for m in at.r.row[at.i + 2 : at.i + 4]]
        return False if ahead in (["out", "of"], ["of", "the"]) or ahead[:1] == ["of"] else None
    out_of = at.p is not None and at.p.w == "of" and at.pp is not None and at.pp.w == "out"
    dead = at.q is not None and at.q.v.get("step") == "died"
    after = at.r.at(at.i + 2)
    return False if out_of and dead and after is not None and after.w in ("are", "is", "were", ":") else None


def _of_each(at: Spot) -> bool | None:
    """ "excluders and supers on 3 and 8, 1 of each": so many, and no hive."""
    z = at.r.at(at.i + 2)
    several = at.q is not None and at.q.w == "of" and z is not None and z.w == "each"
    return False if several or (at.q is not None and at.q.w == "of each") else None


def _sold_by_name(at: Spot) -> bool | None:
    """ "sold seventy eight and seventy nine to the school": ids of the roster, and no number of nucs."""
    if at.p is None or at.p.v.get("step") != "sold" or "n" in at.p.v or at.q is None or at.q.w != "and":
        return None
    other, after = at.r.at(at.i + 2), at.r.at(at.i + 3)
    if other is None or other.label != "number" or not {id_of(at.m), id_of(other)} <= at.r.outfit.ids.keys():
        return None
    return True if after is None or after.label not in ("noun", "queen_noun", "hives", "unit", "number") else None


_NAMING = frozenset("it's its that's they're theyre is are be called as number".split())
_NOW = frozenset("now there here".split())


def _not_in_the_roster(at: Spot) -> bool | None:
    """A number the roster does not have: a colony only where plainly spoken of as one (it is then asked about)."""
    if at.r.outfit.could_be(id_of(at.m)) or (at.p is not None and at.p.v.get("cue") == "except"):
        return None  # "pulled the strips, all but 31": left in 31, whether the roster has it or not
    p, q = at.p, at.q
    if p is not None and p.w in _NAMING and q is not None and q.w in _NOW and sentence_has(at.r, at.i, "change"):
        return True  # "moved L30 to Cut Bank and it's sixty five now": a number it is given today
    if p is not None and p.w == "into" and sentence_has(at.r, at.i, "change") and at.number.value < 1000:
        return True  # "split fifty one into sixty five"
    plain = q is not None and (
        q.w in ("has", "had", "is", "needs", "gets", "swarmed") or (q.label == "fact" and at.opens_line)
    )
    return (
        plain
        and at.number.value < 1000
        and at.starts
        and at.last != "cols"
        and (p is None or p.label in ("stop", "line", "comma", "yard", "filler") or p.w == ":")
    )


def _board_of_days(at: Spot) -> bool | None:
    """ "40  3 days  31" under boards: the colony, how long its board was in, and what fell."""
    if not at.r.checking or not (at.p is None or at.p.label in ("line", "comma") or at.p.w in (":", "*", "-", "|")):
        return None
    k = at.i + 1
    while (m := at.r.at(k)) is not None and m.label == "comma":
        k += 1
    if m is None or m.label != "days":
        return None
    k += 1
    while (m := at.r.at(k)) is not None and (m.label == "comma" or m.w in ("-", ":", "|", "=")):
        k += 1
    fell = m is not None and m.label in ("number", "mites", "clean")
    return True if fell and at.r.outfit.could_be(id_of(at.m)) else None


def _to_super(at: Spot) -> bool | None:
    """ "super 12": work to be done on that hive, where no number of supers can be meant."""
    p, pp, q = at.p, at.pp, at.q
    if p is None or p.w != "super" or p.label != "item" or at.number.value < 2:
        return None
    if not at.number.digits and (at.number.value <= MOST_GIVEN or pp is None or not pp.w.endswith("to")):
        return None  # "need to super forty four"
    opens = (
        pp is None
        or pp.w == "to"
        or pp.label in ("line", "stop", "comma", "cue", "heading")
        or pp.w in ("and", ":", "•", "-", "*")
    )
    ends = q is None or q.label in ("line", "stop", "comma", "date", "number") or q.w in ("and", "but")
    return True if opens and ends and at.r.outfit.could_be(id_of(at.m)) else None


def _has_its_own(at: Spot) -> bool | None:
    """ "gave 41 a super and 42 a super": no number counts what has its own "a" before it."""
    p, q, z = at.p, at.q, at.z
    a_thing = q is not None and z is not None and q.w in ("a", "an", "another") and z.label in _THINGS_AND_QUEENS
    a_thing = a_thing or (q is not None and q.label in ("queen_work", "queen_noun") and q.w.split()[0] == "a")
    if not a_thing or p is None or not (p.w in ("and", "then") or p.label == "comma") or at.number.value < 2:
        return None
    given = bool(at.r.last_ids) and sentence_has(at.r, at.i, *_THINGS_AND_QUEENS, "amount", "fact")
    return True if given and at.r.outfit.could_be(id_of(at.m)) else None


_THINGS_AND_QUEENS = THINGS | {"queen_noun"}


def _each_with_its_thing(at: Spot) -> bool | None:
    """ "feeder off 41 feeder off 42": where the first thing was put on or taken off, no number of the next one."""
    p, pp, q, z = at.p, at.pp, at.q, at.z
    if p is None or pp is None or q is None or z is None or p.w not in ("off", "on", "under", "in", "from"):
        return None
    again = pp.label == q.label == "item" and z.w in PREPS
    alone = at.number.value >= _FEW or (not q.w.endswith("s") and pp.v.get("item") == q.v.get("item"))
    return True if again and alone and at.r.outfit.could_be(id_of(at.m)) else None


def _one_and_the_other(at: Spot) -> bool | None:
    """ "six frames of brood in one and four in the other": which of two, and no ids."""
    words = [m.w for m in at.r.row[at.i + 1 : at.i + 8]]
    k = words.index("other") if "other" in words else words.index("the other") if "the other" in words else 0
    if not k or not {"in", "on", "off", "from"} & set(words[:k]):
        return None
    if at.m.w == "one" and words[0] == "and" and at.p is not None and at.p.w in PREPS:
        return False
    back = [m.w for m in at.r.row[max(0, at.i - 4) : at.i]]
    return False if words[0] in PREPS and back[-2:] == ["one", "and"] else None


def _its_queen(at: Spot) -> bool | None:
    """ "41 Q marked blue": one queen is no 41 queens."""
    if at.q is None or at.q.label != "queen_noun" or at.q.w not in ("q", "queen") or at.number.value < 2:
        return None
    opens = at.p is None or at.p.label in ("line", "stop", "comma", "yard")
    return True if opens and at.number.digits and at.r.outfit.could_be(id_of(at.m)) else None


def _owner(at: Spot) -> bool | None:
    """ "pulled 44's strips": the hive whose they are."""
    if at.q is None or at.q.w != "'s" or at.z is None:
        return None
    if at.z.w in ("and", "&") or at.z.label == "comma":
        other, own = at.r.at(at.i + 3), at.r.at(at.i + 4)  # "44's and 45's strips"
        if other is None or other.label != "number" or own is None or own.w != "'s":
            return None
    elif at.z.label not in _OWNED:
        return None
    return True if at.r.outfit.could_be(id_of(at.m)) else None


_OWNED = _THINGS_AND_QUEENS | {"fact", "unit", "noun", "method"}


def _gets_an_amount(at: Spot) -> bool | None:
    """ "fed 40 to 45 a gallon each": what has its own "a" is no 45 gallons."""
    p, after = at.p, at.after
    if p is None or p.label != "verb" or after is None or after.label != "amount":
        return None
    own = after.w.split()[0] in ("a", "an", "half", "one", "another")
    return True if own and at.r.outfit.could_be(id_of(at.m)) else None


def _vague_number(at: Spot) -> bool | None:
    """ "a couple", "half"."""
    return False if at.m.w.split()[0] in ("a", "couple", "half", "dozen") else None


def _number_of_cells(at: Spot) -> bool | None:
    """ "28 grafted out of QB"."""
    q = at.q
    if q and q.label == "fact" and q.w.split()[0] in ("cells", "cell", "qcs"):
        return False  # "forty one cells capped out of forty eight"
    if at.p is not None and at.p.label == "queen_work" and at.p.v.get("step") == "grafted" and at.q is not None:
        if at.q.w in ("took", "take", "accepted", "started") or (at.q.label == "verb" and at.q.w == "took"):
            return False  # "QB grafted forty eight took thirty nine"
    grafts = q and q.label == "queen_work" and q.w.split()[0] in ("grafted", "banked", "grafts", "queens")
    return False if grafts else None


def _part_of_fraction(at: Spot) -> bool | None:
    """ "12/300", "4%"."""
    p, q = at.p, at.q
    return False if (q and q.w in ("/", "%")) or (p and p.w == "/") else None


def _second_guess(at: Spot) -> bool | None:
    """ "six or seven mites"."""
    p, pp = at.p, at.pp
    return False if p and p.w in ("or", "maybe") and at.last == "value" and pp and "n" in pp.v else None


def _corrected(at: Spot) -> bool | None:
    """After "no wait" and a count: a colony only where something is said of it."""
    p, q, z = at.p, at.q, at.z
    if not (p and p.label == "cue" and p.v.get("cue") == "correct"):
        return None
    if at.last == "cols" and q and q.w == "and" and z and z.label == "number" and at.r.outfit.could_be(id_of(z)):
        return True  # "on eight and nineteen, no, nine and nineteen"
    before = at.r.at(at.i - 2)
    counted = q is not None and q.label in ("change", "hives", "noun", "queen_noun")
    if before is not None and before.label == "number" and at.last != "cols" and counted:
        return False  # "losses: six, no, sorry, seven dead"
    if at.last == "cols" and _other_hive(at):
        return True
    if at.last != "value":
        return None
    return bool(
        q
        and (
            q.w in at.r.subject_verbs
            or q.label in ("value", "clean", "mites")
            or (q.label == "number" and (q.v["n"].value == 0 or at.number.value > 20))
        )
        and q.w != "and"
    )


_GOES_ON = frozenset("it's its it she's she that that's has had is was and so but".split())
_COUNTABLE = frozenset(["item", "form", "agent", "feed", "unit", "noun", "queen_work", "queen_noun", "harvest"])
_MANY = 20
"""More things than this are not given to one hive."""


def _other_hive(at: Spot) -> bool:
    """ "fifty six swarmed, no wait, fifty seven", "fifty six got a super i mean fifty seven": nothing before it was
    counted that it could put right, so it is the hive.
    """
    q, r = at.q, at.r
    ends = q is None or q.label in ("stop", "line", "comma", "filler") or q.w in _GOES_ON
    if not ends or not r.outfit.could_be(id_of(at.m)):
        return False
    for m in reversed(r.row[max(0, at.i - 12) : at.i - 1]):
        if m.label in ("colony", "cols", "number"):
            return True  # the last number was a colony
        if m.label in ("amount", "value", "mites", "hives", "days", "date") or "n" in m.v:
            return False
        if m.label in _COUNTABLE and at.number.value <= _MANY:
            return False
    return False


def _days_put_right(at: Spot) -> bool | None:
    """ "in for 42, no, make that 56 days": a number of days put right."""
    near = at.r.row[at.i + 1 : at.i + 5]
    for k, m in enumerate(near):
        if m.label == "cue" and m.v.get("cue") == "correct":
            return False if any(x.label == "days" for x in near[k + 1 :] + at.r.row[at.i + 5 : at.i + 7]) else None
        if m.label not in ("comma", "filler"):
            break
    return None


def _was_before(at: Spot) -> bool | None:
    """ "fifty one down to two from eleven": the count it had before, and no colony."""
    p = at.p
    down = p is not None and p.w == "from" and at.last == "value" and at.r.checking
    return False if down and any(m.w in ("down", "up") for m in at.r.row[max(0, at.i - 5) : at.i]) else None


def _of_so_many(at: Spot) -> bool | None:
    """ "seven of eighteen need feed": so many of so many hives, and no colony."""
    p, pp, q = at.p, at.pp, at.q
    parts = p is not None and p.w == "of" and pp is not None and pp.label == "number"
    if parts and pp is not None and at.number.digits and q is not None and q.w == "'s":
        return None
    if parts and pp is not None and at.number.digits:
        return False if 1 < pp.v["n"].value <= at.number.value else None  # "cells capped 22 of 30"
    told = q is not None and (q.label in ("cue", "yard", "verb", "fact") or q.w in ("at", "are", "were", "have", "got"))
    return False if parts and told else None


def _one_after_ordinal(at: Spot) -> bool | None:
    """ "the first one"."""
    return False if at.p and at.p.label == "ordinal" and at.number.value == 1 else None


def _temperature_at_yard(at: Spot) -> bool | None:
    """ "millpond 52 and clear"."""
    p, q, z = at.p, at.q, None
    if p and p.label == "yard" and q and q.w == "and":
        z = at.z
    return False if z and z.label in ("sky", "temp") else None


def _count_after_colon(at: Spot) -> bool | None:
    """ "L4: 12", in a run of checks also "5 - 1"."""
    if at.p is None or at.last != "cols":
        return None
    dashed = at.p.w in ("-", "–", "—") and at.r.checking and at.pp is not None and at.pp.label == "number"
    return False if at.p.w in (":", "=") or dashed else None


def _had_its_own(at: Spot) -> bool | None:
    """ "the recheck was seventy two had one": what had a count is a colony, whatever stands before it."""
    if not at.r.checking or at.q is None or at.q.w not in ("had", "has", "was") or at.z is None:
        return None
    verb_before = at.p is not None and at.p.w in ("had", "has", "got")  # "the only scoop i had, five was two mites"
    if not verb_before and (at.number.value < _FEW or at.q.w == "was"):
        return None
    counted = at.z.label in ("number", "mites", "clean", "value")
    return True if counted and id_of(at.m) in at.r.outfit.ids else None


def _made_so(at: Spot) -> bool | None:
    """ "split 40 to make 58", "split 40, made 58 out of it"."""
    made = at.p is not None and at.p.w == "make" and at.pp is not None and at.pp.w == "to"
    made = made or (at.p is not None and at.p.w in _MADE and at.number.value >= _MANY_MADE and _out_of_it(at))
    return True if made and at.r.outfit.could_be(id_of(at.m)) and sentence_has(at.r, at.i, "change") else None


_MADE = frozenset("made make making got get is".split())
_MANY_MADE = 10
"""So many colonies nobody makes out of one."""


def _out_of_it(at: Spot) -> bool:
    """Whether "out of it" or "from that one" follows the number."""
    behind = [m.w for m in at.r.row[at.i + 1 : at.i + 4]]
    return bool(behind) and behind[0] in ("out", "from", "off") and not {"it", "that one"}.isdisjoint(behind)


def _goes_elsewhere(at: Spot) -> bool | None:
    """ "moved 71 to the Quarry and 75 to Larkfield": one more that goes its own way."""
    joined = at.p is not None and (at.p.w in ("and", "then") or at.p.label == "comma")
    if not joined or at.q is None or at.q.w not in ("to", "into", "with") or at.z is None:
        return None
    goes = at.z.label in ("yard", "number", "colony", "cols") and sentence_has(at.r, at.i, "change")
    return True if goes and at.r.last_ids and id_of(at.m) in at.r.outfit.ids else None


def _next_range(at: Spot) -> bool | None:
    """ "guards on one to nineteen | twenty to twenty four tomorrow": a range that goes on where the last one ended."""
    if at.last != "cols" or not at.r.last_ids or at.q is None or at.q.w not in RANGE or at.z is None:
        return None
    if at.z.label != "number" or at.z.v["n"].value <= at.number.value:
        return None
    before = at.r.last_ids[-1]
    follows = before.isdecimal() and at.number.value == int(before) + 1 and len(at.r.last_ids) > 1
    return True if follows and at.r.outfit.could_be(id_of(at.m)) else None


def _after_bullet(at: Spot) -> bool | None:
    """ "1) 70. Alcohol wash, 1 mite": what stands by itself after the number of the line."""
    if at.p is None or at.p.w not in BULLETS or at.p.w == "-" or not at.r.outfit.could_be(id_of(at.m)):
        return None
    return True if at.q is not None and (at.q.label == "stop" or at.q.w == ":") else None


def _range_opens_row(at: Spot) -> bool | None:
    """ "Quarry: 1-10 formic pads in Monday, 2 per hive": no 10 pads."""
    opens = at.p is None or at.p.label in ("line", "stop", "yard") or at.p.w == ":"
    if not opens or not at.number.digits or at.q is None or at.q.w not in ("-", "–") or at.z is None:
        return None
    if at.z.label != "number" or at.z.v["n"].value < at.number.value + 3 or not at.r.outfit.could_be(id_of(at.z)):
        return None
    thing = at.r.at(at.r.on(at.r.on(at.r.on(at.i))))
    given = thing is not None and thing.label in _THINGS_AND_QUEENS
    return True if given and at.r.outfit.could_be(id_of(at.m)) else None


def _count_before_the_next(at: Spot) -> bool | None:
    """ "23 gave one and 24 gave none": a count, though a number follows it."""
    if not at.r.checking or at.p is None or at.p.w not in ("gave", "had", "got", "was") or at.q is None:
        return None
    other, then = at.z, at.r.at(at.r.on(at.r.on(at.r.on(at.i))))
    follows = other is not None and other.label in ("number", "colony", "hive") and then is not None
    return (
        False if at.q.w == "and" and follows and then is not None and then.w in ("gave", "had", "got", "was") else None
    )


def _from_there_up(at: Spot) -> bool | None:
    """ "seventy five up still need theirs", "fifteen same as fourteen"."""
    if at.q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    if at.q.label == "same" and at.q.w.endswith(" as") and not (at.p is not None and at.p.label == "same"):
        return True
    word, after = at.q, at.z
    if word.w in ("on", "and") and after is not None:
        word, after = after, at.r.at(at.i + 3)  # "fifty three on up will have to wait"
    upward = word.w in ("up", "upward", "upwards", "onward", "onwards") and after is not None
    return True if upward and after is not None and after.w.split()[0] in _OF_SEVERAL else None


_OF_SEVERAL = frozenset("still need needs get have are got will i'll we'll nothing none".split())


def _after_its_queen(at: Spot) -> bool | None:
    """ "eight has the good queen nine was laying workers": no queen has that number, for something is said of it."""
    if at.p is None or at.p.label != "queen_noun" or at.q is None or at.q.w not in ("was", "is", "has", "had"):
        return None
    return True if at.last == "cols" and at.r.outfit.could_be(id_of(at.m)) else None


def _about_so_many(at: Spot) -> bool | None:
    """ "40 board 5 days 62 mites, 41 board 5 days about 20, 43 board …": a count, though it heads no list."""
    about = at.r.at(at.i - 1)
    if not at.r.checking or about is None or about.label != "approx" or at.p is None:
        return None
    return False if at.p.label in ("method", "days", "sample") else None


def _one_of_those(at: Spot) -> bool | None:
    """ "washed 105 106 107: 105 13 mites …": one of the colonies just named, before what it had."""
    listed = at.r.checking and len(at.r.last_ids) > 1 and at.last == "cols" and id_of(at.m) in at.r.last_ids
    if not listed or at.p is None or not (at.p.w in (":", "=", "-") or at.p.label in ("comma", "yard")):
        return None
    return True if at.q is not None and at.q.label in ("number", "mites", "clean") else None


_BEFORE_FIRST = frozenset(["yard", "days", "sample", "date"])


def _one_of_them(at: Spot) -> bool | None:
    """ "one" is a colony's id only in a list or range, or where a hive, a colony or a count stands before it."""
    p, q = at.p, at.q
    if at.m.w != "one" or range_here(at.r, at.i):
        return None
    if p is not None and p.w == "for" and at.pp is not None and at.pp.label == "fact":
        return False  # "too weak for one"
    if p is not None and p.label == "each" and at.pp is not None and "n" in at.pp.v and q is not None:
        if q.w in at.r.subject_verbs:
            return None  # "three hundred each | one was three"
    listed = (q and (q.w in RANGE or q.label in ("number", "comma") or q.w == "and")) and (
        p is None
        or p.w in PREPS
        or p.w in ("and", "then")
        or p.label in ("verb", "check", "method", "every", "each", "yard", "filler")
        or (p.label == "date" and q is not None and q.label == "number")
    )
    if p is not None and p.w in ("into", "with") and sentence_has(at.r, at.i, "change"):
        return None  # "combine nine into one"
    if p is not None and p.label == "same" and p.w.split()[-1] == "as" and not (q and q.w in ("of", "more")):
        return True  # "hive four same as one"
    if p is not None and p.label in _BEFORE_FIRST and at.r.checking and q is not None and q.w in ("had", "was"):
        return None  # "washes at heath, one had two, two had four"
    if (
        p is not None
        and p.label == "number"
        and at.last == "cols"
        and at.r.last_ids[:1] == ["1"]
        and len(at.r.last_ids) > 1
    ):
        return None  # "opened one through six | one two and three have …"
    if (
        p is not None
        and p.w in ("inspection", "look", "visit", "today")
        and q is not None
        and q.w in ("is", "has", "was")
    ):
        return None  # "first inspection, one is strong, two is weak"
    if listed or p is None or p.label in ("hive", "cols", "value", "mites"):
        return None
    return None if p.label in ("method", "line") and at.r.checking else False


def _as_much_there(at: Spot) -> bool | None:
    """ "mill lane gave us nine buckets and heath twelve": so many buckets, no colony."""
    if at.p is None or at.p.label != "yard":
        return None
    near = at.r.row[max(0, at.i - 8) : at.i - 1]
    weighed = any(m.label == "amount" for m in near) and any(m.label in ("harvest", "honey") for m in near)
    return False if weighed and any(m.label == "yard" for m in near) else None


def _listed_after(at: Spot) -> bool | None:
    """ "queenless 3 9", "weak 14, 15": typed after what is found in them, as a line or a sentence of its own."""
    p, pp = at.p, at.pp
    if p is None or p.label not in ("fact", "change") or not at.number.digits or not at.r.outfit.could_be(id_of(at.m)):
        return None
    found = p.v.get("step") == "died" and "n" not in p.v
    found = found or bool(_FOUND_IN_ALL & set(p.v.get("set", {})) and "number" not in p.v)
    k = at.i
    while (m := at.r.at(k)) is not None and (m.label in ("number", "comma") or m.w in ("and", "&")):
        k += 1
    opens = pp is None or pp.label in ("line", "stop") or (pp.label == "comma" and at.last == "cols")
    ends = m is None or m.label in ("line", "stop", "fact", "change")
    return True if found and opens and ends else None


def _listed_behind_colon(at: Spot) -> bool | None:
    """ "strips in: 40, 41, 43": figures that rise, to the end of the sentence, after what was done; behind a yard, to
    what was found: "Quarry: 3 4 5 strong".
    """
    if at.p is None or at.p.w != ":" or at.pp is None or not at.number.digits or at.r.checking:
        return None
    if not (
        at.pp.label in _THINGS_AND_QUEENS
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


def _dealt_in_words(at: Spot) -> bool | None:
    """ "supers: 40-44 one, 45 two, 46 none": the hives in figures, and how many each got in a word."""
    if not at.number.digits or at.q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    k = at.i + 1
    if at.q.w in RANGE and (far := at.r.at(k + 1)) is not None and far.label == "number":
        k += 2
    given, then = at.r.at(k), at.r.at(k + 1)
    if given is None or given.label != "number" or given.v["n"].digits or given.v["n"].value >= _FEW:
        return None
    ends = then is None or then.label in ("line", "stop", "comma", "pronoun", "each") or then.w in ("and", "(", "-")
    ends = ends or (given.v["n"].value == 0 and then is not None and then.w in _BEFORE_REASON)
    return True if ends and sentence_has(at.r, at.i, *_THINGS_AND_QUEENS, "verb", "amount") else None


_FEW = 10
_BEFORE_REASON = frozenset("too so since as cause because its was needed yet".split())
_FOUND_IN_ALL = frozenset(["queen", "temper", "strength", "stores"])


def _found_dead(at: Spot) -> bool | None:
    """ "found seventy five dead": more than are found dead at once."""
    found = at.p is not None and at.p.w == "found" and at.q is not None and at.q.v.get("step") == "died"
    return True if found and at.number.value > _FEW_DEAD and at.r.outfit.could_be(id_of(at.m)) else None


_FEW_DEAD = 12


def _then_named(at: Spot) -> bool | None:
    """ "three dead at the quarry two four and eighteen": so many, which are named after it."""
    return False if then_named(at.r, at.i) else None


QUESTIONS: tuple[Question, ...] = (
    _after_hive_word,
    _then_named,
    _found_dead,
    _out_of_all,
    _of_each,
    _sold_by_name,
    _not_in_the_roster,
    _board_of_days,
    _has_its_own,
    _each_with_its_thing,
    _one_and_the_other,
    _its_queen,
    _owner,
    _to_super,
    _gets_an_amount,
    _vague_number,
    _number_of_cells,
    _part_of_fraction,
    _second_guess,
    _corrected,
    _days_put_right,
    _was_before,
    _of_so_many,
    _one_after_ordinal,
    _temperature_at_yard,
    _after_bullet,
    _range_opens_row,
    _count_before_the_next,
    _had_its_own,
    _next_range,
    _from_there_up,
    _after_its_queen,
    _goes_elsewhere,
    _made_so,
    _one_of_those,
    _about_so_many,
    _count_after_colon,
    _one_of_them,
    _as_much_there,
    _listed_after,
    _dealt_in_words,
    _listed_behind_colon,
)
