"""Colony or count beside the things of the trade: what a hive was given, or lost, and how many of them."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import (
    ENDS,
    FEW_GIVEN,
    NP,
    PREPS,
    RANGE,
    deals_out,
    each_after,
    each_does,
    id_of,
    past_the,
    range_here,
    reaches_all,
    sentence_has,
    starts_line,
    whole,
)
from fieldnotes.reader.grouping.spot import Spot
from fieldnotes.reader.grouping.surroundings import placed_later
from fieldnotes.reader.mark import MOST_GIVEN, THINGS, WAYS, Mark, done_with_it


def owners(at: Spot) -> bool | None:
    """ "put fifty three and fifty four's supers back on": the hives whose things they are."""
    if at.after is None or at.after is at.q or at.after.w != "'s":
        return None
    thing = at.r.at(at.after_index + 1)
    return True if thing is not None and thing.label in ("item", "form", "agent", "queen_noun") else None


def list_before_thing(at: Spot) -> bool | None:
    """ "12, 14 and 15 supers": a list at the start of a statement, before a thing."""
    p, after = at.p, at.after
    opens = p is None or p.label in ("stop", "line") or (p.w == ":" and range_here(at.r, at.i))
    if opens and after is not at.q and after is not None and after.label in THINGS and at.number.value > 4:
        return True
    return None


def list_behind_thing(at: Spot) -> bool | None:
    """ "fondant nine and ten", "strips three seven and nine rest friday": a list of colonies that ends there."""
    p, r = at.p, at.r
    if p is None or p.label not in THINGS or not (p.label == "feed" or p.w.endswith("s")) or r.checking:
        return None
    k, last, joined = at.i, 0.0, False
    while (m := r.at(k)) is not None and (m.label in ("number", "comma") or m.w == "and"):
        if m.label == "number":
            if not whole(m) or m.v["n"].value <= last or id_of(m) not in r.outfit.ids:
                return None
            last = m.v["n"].value
        joined = joined or m.w == "and"
        k += 1
    ends = m is None or m.label in ("stop", "line", "date", "rest")
    return True if joined and ends and r.row[k - 1].label == "number" else None


def colony_before_thing(at: Spot) -> bool | None:
    """ "Quarry 45 super on", "seventy four super on as well", a row "45 vadescana in"."""
    p, q, number = at.p, at.q, at.number
    if not q:
        return None
    if p and p.label == "yard" and number.value > 4 and number.digits:
        if q.label in THINGS and not (q.label == "item" and q.w.endswith("s")):
            return True
    if q.label == "item" and not any(x.endswith("s") for x in q.w.split()) and number.value > 9:
        if at.starts and not (p and p.label == "verb"):
            return True
    if p and p.label == "line" and number.digits and number.value > 10:
        if q.label in ("agent", "item", "feed") and not placed_later(at.r, at.i):
            return not (q.w == "supers" and _below_honey(at))
    return None


def _below_honey(at: Spot) -> bool:
    """ "Honey, Quarry" over "14 supers pulled": whether the line above heads what honey was taken."""
    k = at.i - 1
    while k > 0 and at.r.row[k].label != "line":
        k -= 1
    above = at.r.row[max(0, k - _LONGEST_HEAD) : max(0, k)]
    head = next((n for n in range(len(above), 0, -1) if above[n - 1].label == "line"), 0)
    return any(m.label in ("honey", "harvest") for m in above[head:])


_LONGEST_HEAD = 8


def so_many_came_off(at: Spot) -> bool | None:
    """ "46 two supers off | 47 one super off": the colony before how many things came off or went on."""
    p, q, z = at.p, at.q, at.z
    if q is None or q.label != "number" or z is None or z.label not in THINGS or q.v["n"].value > MOST_GIVEN:
        return None
    if p is not None and (p.label == "verb" or p.w in ("of", "with", "about", "to")):
        return None
    ways = at.r.row[at.i + 3 : at.i + 4]
    if not ways or ways[0].w not in WAYS or not whole(at.m) or id_of(at.m) not in at.r.outfit.ids:
        return None
    return True


def _ends_before_thing(at: Spot, q: Mark) -> bool:
    """Whether the number ends what is told before it, and the thing `q` after it begins what is told next."""
    placed = at.p is not None and at.p.w.split()[-1] in PREPS
    if placed and q.label == "hives" and q.w.endswith(("of them", "of em")):
        return True  # "strips in forty nine, two of them"
    if id_of(at.m) not in at.r.outfit.ids:
        return False
    after = at.z.w if at.z is not None else ""
    if after in ("are", "is", "'s"):
        return True  # "caught the queen in 55 | pads are out of 40"
    own_way = q.label in ("item", "form", "feed") and (after in WAYS or (at.z is not None and at.z.label == "noun"))
    return placed and (q.label == "agent" or own_way)  # "a red queen in 52 | tau-fluvalinate strips in 61"


def number_of_things(at: Spot) -> bool | None:
    """ "2 each", "4 supers"; but "gave 12 a super"."""
    p, q = at.p, at.q
    if not q or q.label not in ("each", "item", "agent", "form", "feed", "queen_noun", "hives"):
        return None
    if q.label == "form" and q.v.get("treats") and q.w.endswith("ed"):
        return None  # "12 vaporized"
    if q.label == "item" and q.w.endswith("ed") and at.number.value > MOST_GIVEN:
        return None  # "took the feeder off 76 | wrapped 70"
    if q.label not in ("each", "hives") and q.w.split()[0] in ("a", "an", "another", "the"):
        return None  # "gave the bees in seventy one | a pollen patty"
    if each_does(at.r, at.i) and at.r.outfit.could_be(id_of(at.m)):
        return None  # "47 and 48 each need a super"
    if at.number.value > MOST_GIVEN and _ends_before_thing(at, q):
        return None
    placed = p is not None and p.label == "w" and p.w in PREPS and not (at.pp is not None and at.pp.label == "verb")
    if placed and id_of(at.m) in at.r.outfit.ids and reaches_all(at.r, at.i + 1):
        return True  # "one off eleven | escapes on the rest"
    if at.i + 1 < len(at.r.row) and at.r.row[at.i + 1].label == "filler":
        return None  # "pinched the queen in forty six, um, the new one is in there"
    given = (
        p
        and at.number.value > 4
        and ((p.label == "verb" and p.v.get("does") == "feed") or p.w in ("gave", "give", "gets", "hit", "giving"))
    )
    return None if given else False


def so_many_for_each(at: Spot) -> bool | None:
    """ "pads in at sawdust two for each hive", "larkfield 2 for all of them": so many, and no colony."""
    q, z = at.q, at.z
    if q is None or q.w not in ("for", "to") or z is None or z.label not in ("each", "every"):
        return None
    return False if sentence_has(at.r, at.i, *THINGS) else None


def each_of_them(at: Spot) -> bool | None:
    """ "47 and 48 each need a super"."""
    if at.after is None or at.after.label != "each" or at.after is at.q or not at.r.outfit.could_be(id_of(at.m)):
        return None
    return True if each_does(at.r, at.r.back(at.after_index)) else None


def treated_at_line_start(at: Spot) -> bool | None:
    """ "12 vaporized"."""
    q = at.q
    treated = q and q.label == "form" and q.v.get("treats") and q.w.endswith("ed")
    treated = treated or (q and q.w in ("received", "receives") and at.z is not None and at.z.w in ("a", "an", "one"))
    if treated and q and q.label == "verb" and at.r.outfit.could_be(id_of(at.m)):
        return True  # "…, and 45 received a frame of brood"
    return True if treated and starts_line(at.r, at.i) else None


def done_to(at: Spot) -> bool | None:
    """ "9 n 10 fed 1 gal", "12 and 14 treated with formic": colonies at the start, and what was done to them."""
    p, after = at.p, at.after
    opens = p is None or p.label in ("stop", "line")
    if p is not None and p.w == "me":
        return None  # "72 gave me nine um | pulled the sponges out of seventy"
    if not (opens or at.starts) or after is None or after.label != "verb" or after.v.get("tense") != "past":
        return None
    if after.v.get("dir") and after.w.split()[0] in _WORKED and at.number.value > 1:
        k = at.after_index
        thing = [m for m in at.r.row[k + 1 : k + 4] if m.w not in _ARTICLES][:1]
        return True if thing and thing[0].label in THINGS and id_of(at.m) in at.r.outfit.ids else None
    if not opens or after.v.get("does") not in ("feed", "treat") or not at.number.digits:
        return None
    return True if at.r.outfit.could_be(id_of(at.m)) else None


_WORKED = frozenset("pulled removed yanked swapped switched replaced exchanged traded put placed added".split())
_ARTICLES = frozenset("the its their both all a an".split())


def unwrapped(at: Spot) -> bool | None:
    """ "unwrapped 5"."""
    p, q = at.p, at.q
    worked = p and p.label == "item" and p.w.endswith("ed")
    if worked and q is not None and q.w in RANGE and at.z is not None and at.z.label == "number":
        return True  # "wrapped one to six"
    dated = q is not None and (q.label == "date" or (q.w == "on" and at.z is not None and at.z.label == "date"))
    if worked and dated and at.number.value > 30 and id_of(at.m) in at.r.outfit.ids:
        return True  # "wrapped seventy on friday": more than any yard has
    if worked and at.after is not q and (at.after is None or at.after.label not in NP | {"each", "hives"}):
        return True  # "supered eleven and twelve at the quarry": a list, and nothing that it counts
    return True if worked and (q is None or q.label in ENDS) else None


def measured(at: Spot) -> bool | None:
    """ "nine got half a gallon and | eleven a quart": no number counts what has a number already."""
    p, after = at.p, at.after
    given = after and after.label == "amount" and (after.w.startswith(("a ", "an ", "half ")) or "n" in after.v)
    pp = at.pp
    if given and p and p.label == "comma" and pp and pp.label in ("amount", "ratio", "feed", "each"):
        if after is at.q and id_of(at.m) in at.r.outfit.ids and sentence_has(at.r, at.i, "verb", "feed"):
            return True  # "fed 73 2 gal, 72 1 gal"
    return True if given and p and (p.w in ("and", "then") or p.label in ("each", "amount", "ratio")) else None


def so_many_each(at: Spot) -> bool | None:
    """ "supers four one each", "then nine and ten two each": what stands before "two each" got them."""
    p, r, after = at.p, at.r, at.after
    if after is None or after.label not in ("number", "amount"):
        return None
    opens = p is None or p.label in ("stop", "line") or (p.label in _SAID_OUT and at.number.value > MOST_GIVEN)
    opens = opens and after is not at.q and id_of(at.m) in r.outfit.ids
    if after.label == "amount":
        each = r.at(r.on(at.after_index))
        return True if opens and each is not None and each.label == "each" else None
    if not (opens or (p and (p.w == "then" or p.label == "each" or p.label in THINGS))):
        return None
    # after a list, the number is the next but one past the last of its joins
    return True if each_after(r, at.after_index) else None


_SAID_OUT = frozenset("fact date change amount unit".split())


def dealt_out(at: Spot) -> bool | None:
    """ "7, 8 and 10 a kilo each, 11 two kilos, 12 3": after what each got, a colony with a number of its own."""
    p, q, z, r = at.p, at.q, at.z, at.r
    if not (p and q and (p.label == "comma" or p.w == "and")) or r.checking:
        return None
    if q.label == "comma" and z and z.label == "number" and p.w == "and":
        q, z = z, r.at(r.on(r.on(r.on(at.i))))  # "2 each, and 75, 1"
    few = q.label == "number" and (q.v["n"].value < MOST_GIVEN or q.w == "none")
    if not (few or q.label == "amount") or not (
        z is None or z.label in ENDS | {"each", "number"} or z.w in ("and", "at")
    ):
        return None
    known = bool(r.last_ids) and id_of(at.m) in r.outfit.ids
    beside = known and r.outfit.of_one_yard((id_of(at.m), r.last_ids[-1]))
    return True if beside and deals_out(r, at.i) else None


def then_given(at: Spot) -> bool | None:
    """ "… laying workers | forty seven an excluder and a super on"."""
    p, q, z = at.p, at.q, at.z
    after = p and p.label in ("fact", "mites", "value", "clean", "item", "each", "date", "queen_work")
    return True if after and at.number.value > 4 and q and q.w in ("a", "an") and z and z.label == "item" else None


def as_much_elsewhere(at: Spot) -> bool | None:
    """ "twelve supers of honey from millpond, nine from larkfield": how much, and no colony, comes from a yard."""
    q = at.q
    if q is None or q.w not in ("from", "off") or at.p is None or at.p.label not in ("yard", "comma", "filler"):
        return None
    yard = at.r.at(past_the(at.r, at.r.on(at.r.on(at.i))))
    return False if yard is not None and yard.label == "yard" and sentence_has(at.r, at.i, "harvest") else None


def so_many_off(at: Spot) -> bool | None:
    """ "took supers off, two off 48, one off 50 and three from 51": how many of them, and no colony."""
    if at.q is None or at.q.w not in ("off", "from") or at.number.value > _FEW_THINGS or at.number.digits:
        return None
    named = at.z is not None and at.z.label in ("number", "colony", "hive") and not (at.p and at.p.w in PREPS)
    return False if named and sentence_has(at.r, at.i, "item") else None


_FEW_THINGS = 6


def still_in(at: Spot) -> bool | None:
    """ "strips are out of forty, still in forty two", but "still in two weeks on"."""
    left = (
        at.p is not None
        and at.p.w == "still in"
        and not (at.q is not None and (at.q.label in NP or at.q.label == "days"))
    )
    return True if left and at.r.outfit.could_be(id_of(at.m)) else None


def next_job(at: Spot) -> bool | None:
    """ "a super off eleven, amitraz strips out of twelve": the thing after the number belongs to the next hive."""
    p, pp, q = at.p, at.pp, at.q
    if p is None or p.w not in ("off", "on", "in", "from") or pp is None or pp.label not in THINGS or q is None:
        return None
    if q.label not in ("agent", "form", "item") or q.label == pp.label or not at.r.outfit.could_be(id_of(at.m)):
        return None
    k = at.r.on(at.i)
    while (m := at.r.at(k)) is not None and m.label in ("agent", "form", "item"):
        k = at.r.on(k)
    return True if m is not None and m.w in ("out", "off", "in", "on", "into", "onto", "from") else None


def of_plain_things(at: Spot) -> bool | None:
    """ "moved two pallets": a number of things that are none of the trade's."""
    q, p = at.q, at.p
    plural = q is not None and q.label == "w" and len(q.w) > 4 and q.w.endswith("s") and q.w not in at.r.subject_verbs
    after_work = p is not None and p.label in ("change", "verb", "queen_work")
    return False if plural and after_work and at.number.value <= MOST_GIVEN and not at.number.digits else None


def somebody_did(at: Spot) -> bool | None:
    """ "um nineteen i gave some fondant too", "nine we fed": a colony first, and then what somebody did to it."""
    q, z = at.q, at.z
    opens = at.r.row[at.i - 1].label in ("filler", "comma", "stop", "line") if at.i else True
    did = q is not None and q.w in ("i", "we") and z is not None and z.label == "verb" and z.w in _GAVE
    return True if opens and did and at.r.outfit.could_be(id_of(at.m)) else None


_GAVE = listed("giving")


def goes_without(at: Spot) -> bool | None:
    """ "41 supered and excluder 42 no super it's too weak": a colony of the roster that got none of the thing."""
    if at.q is None or at.q.w != "no" or at.z is None or at.z.label not in THINGS or not at.starts:
        return None
    opens = at.p is None or at.p.label in ("stop", "line")
    return True if id_of(at.m) in at.r.outfit.ids and (opens or at.number.value > 9) else None


def to_super(at: Spot) -> bool | None:
    """ "super 12": work to be done on that hive, where no number of supers can be meant."""
    p, pp, q = at.p, at.pp, at.q
    worked = p is not None and p.label == "item" and (done_with_it(p, pp) or (p.w.endswith("ed") and _denied(pp)))
    counts = q is not None and (q.label in ("hives", "each") or q.w in ("of", "more"))
    if worked and not counts and at.number.value > 1 and id_of(at.m) in at.r.outfit.ids:
        return True  # "I did not super 55 | pads are out of 40"
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


def _denied(m: Mark | None) -> bool:
    return m is not None and m.v.get("cue") == "not"


def has_its_own(at: Spot) -> bool | None:
    """ "gave 41 a super and 42 a super": no number counts what has its own "a" before it."""
    p, q, z = at.p, at.q, at.z
    a_thing = q is not None and z is not None and q.w in ("a", "an", "another") and z.label in THINGS_AND_QUEENS
    a_thing = a_thing or (q is not None and q.label in ("queen_work", "queen_noun") and q.w.split()[0] == "a")
    if not a_thing or p is None or not (p.w in ("and", "then") or p.label == "comma") or at.number.value < 2:
        return None
    given = bool(at.r.last_ids) and sentence_has(at.r, at.i, *THINGS_AND_QUEENS, "amount", "fact")
    return True if given and at.r.outfit.could_be(id_of(at.m)) else None


THINGS_AND_QUEENS = THINGS | {"queen_noun"}


def each_with_its_thing(at: Spot) -> bool | None:
    """ "feeder off 41 feeder off 42": where the first thing was put on or taken off, no number of the next one."""
    p, pp, q, z = at.p, at.pp, at.q, at.z
    if p is None or pp is None or q is None or z is None or p.w not in ("off", "on", "under", "in", "from"):
        return None
    again = pp.label == q.label == "item" and z.w in PREPS
    alone = at.number.value >= FEW_GIVEN or (not q.w.endswith("s") and pp.v.get("item") == q.v.get("item"))
    return True if again and alone and at.r.outfit.could_be(id_of(at.m)) else None


def owner(at: Spot) -> bool | None:
    """ "pulled 44's strips": the hive whose they are."""
    if at.q is None or at.q.w != "'s" or at.z is None:
        return None
    if at.z.w in ("and", "&") or at.z.label == "comma":
        other, own = at.r.at(at.i + 3), at.r.at(at.i + 4)  # "44's and 45's strips"
        if other is None or other.label != "number" or own is None or own.w != "'s":
            return None
    elif at.z.label not in _OWNED and not (at.z.w in WAYS and at.p is not None and at.p.label == "verb"):
        return None  # but "took 54's off", of the supers told of
    return True if at.r.outfit.could_be(id_of(at.m)) else None


_OWNED = THINGS_AND_QUEENS | {"fact", "unit", "noun", "method", "honey"}


def gets_an_amount(at: Spot) -> bool | None:
    """ "fed 40 to 45 a gallon each": what has its own "a" is no 45 gallons."""
    p, after = at.p, at.after
    if p is None or p.label != "verb" or after is None or after.label != "amount":
        return None
    own = after.w.split()[0] in ("a", "an", "half", "one", "another")
    return True if own and at.r.outfit.could_be(id_of(at.m)) else None


def as_much_there(at: Spot) -> bool | None:
    """ "mill lane gave us nine buckets and heath twelve": so many buckets, no colony."""
    if at.p is None or at.p.label != "yard":
        return None
    near = at.r.row[max(0, at.i - 8) : at.i - 1]
    weighed = any(m.label == "amount" for m in near) and any(m.label in ("harvest", "honey") for m in near)
    return False if weighed and any(m.label == "yard" for m in near) else None


def dealt_in_words(at: Spot) -> bool | None:
    """ "supers: 40-44 one, 45 two, 46 none": the hives in figures, and how many each got in a word."""
    if not at.number.digits or at.q is None or not at.r.outfit.could_be(id_of(at.m)):
        return None
    k = at.i + 1
    if at.q.w in RANGE and (far := at.r.at(k + 1)) is not None and far.label == "number":
        k += 2
    given, then = at.r.at(k), at.r.at(k + 1)
    if given is None or given.label != "number" or given.v["n"].digits or given.v["n"].value >= FEW_GIVEN:
        return None
    ends = then is None or then.label in ("line", "stop", "comma", "pronoun", "each") or then.w in ("and", "(", "-")
    ends = ends or (given.v["n"].value == 0 and then is not None and then.w in _BEFORE_REASON)
    return True if ends and sentence_has(at.r, at.i, *THINGS_AND_QUEENS, "verb", "amount") else None


_BEFORE_REASON = frozenset("too so since as cause because its was needed yet".split())


def went_to(at: Spot) -> bool | None:
    """ "the super that was on fifty five went to fifty four": the colony that it went to, also among checks."""
    if at.p is None or at.p.w != "to" or at.pp is None or at.pp.w.split()[-1] not in ("went", "goes", "go", "moved"):
        return None
    ends = at.q is None or at.q.label in ENDS or at.q.label in ("filler", "comma", "date") or at.q.w in _AFTER_PLACE
    return True if ends and sentence_has(at.r, at.i, "item") and at.r.outfit.could_be(id_of(at.m)) else None


_AFTER_PLACE = frozenset("and then so but now too".split())


def somebody_gave(at: Spot) -> bool | None:
    """ "and I gave seventy nine two frames of brood", told among checks: the one that was given so many."""
    giver = at.p is not None and at.p.w in ("gave", "fed") and at.pp is not None and at.pp.w in ("i", "we", "he", "she")
    if not giver or at.q is None or at.number.value <= MOST_GIVEN or not at.r.outfit.could_be(id_of(at.m)):
        return None
    return True if at.q.label in ("number", "amount") or (at.q.label == "fact" and "n" in at.q.v) else None
