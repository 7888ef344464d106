"""Does a new statement begin at a thing, a method, a treatment …: whatever has no rule of its own?"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.mark import THINGS, WAYS, Mark
from fieldnotes.reader.parting.about import (
    AUX,
    GOVERNORS,
    done,
    has_verb,
    header_only,
    is_verb,
    predicate_follows,
    same_family,
    since_last_head,
)
from fieldnotes.reader.parting.left_out import excepted
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.joining import glue_tail, with_joins
from fieldnotes.reader.parting.tails.numbers import with_number
from fieldnotes.reader.parting.words import CLOSED

_MAY_BEGIN = frozenset("item agent form feed method sample temp sky fact honey moisture rest queen_noun round".split())
"""What after a complete statement and a joining word begins the next."""


def another_treatment(at: Place) -> Tail:
    """ "thymol out | and amitraz in", "amitraz in, two each, | and a tray of thymol on top": a second active, where the
    first has gone in or out already."""
    if at.m.label == "form" and at.q is not None and at.q.w in ("too", "also"):
        forms = [x.v["form"] for x in at.marks if x.label == "form"]
        if forms and at.m.v["form"] not in forms and any(x.w in WAYS or x.v.get("dir") for x in at.marks):
            return with_number(at.marks)  # "strips out at heath, all of them, | the gel too"
    if at.m.label not in ("agent", "unit"):
        return None
    agent: Mark | None = at.m
    if at.m.label == "unit":
        agent = at.z if at.q is not None and at.q.w == "of" else None
    if agent is None or agent.label != "agent" or not agent.v.get("agent"):
        return None
    named = [k for k, x in enumerate(at.marks) if x.label == "agent" and x.v.get("agent")]
    if any(at.marks[k].v["agent"] == agent.v["agent"] for k in named):
        return None
    if not named and at.q is not None and at.q.label == "form":  # "wafers out | and amitraz strips in"
        named = [k for k, x in enumerate(at.marks) if x.label == "form" and x.v["form"] != at.q.v["form"]]
    if not named:
        return None
    if not any(x.label == "w" and (x.w in WAYS or x.w in ("into", "onto")) for x in at.marks[named[-1] :]):
        return None
    tail = with_number(at.marks)
    if len(tail) < len(at.marks) and at.marks[-len(tail) - 1].label in ("every", "each", "date") and _goes_in(at):
        return tail  # "amitraz strips out of the quarry all hives | formic pads in fifteen and sixteen"
    return tail if any(x.label in ("comma", "filler") or x.w in ("and", "then", "plus") for x in tail) else None


def _goes_in(at: Place) -> bool:
    """Whether colonies follow the treatment at the mark, or a word that says that it went in or out."""
    k = at.i + 1
    while k < len(at.row) and at.row[k].label in ("form", "agent"):
        k += 1
    follows = at.row[k : k + 3]
    if not follows or not (follows[0].w in WAYS or follows[0].w in ("into", "onto", "to") or follows[0].v.get("dir")):
        return False
    return follows[0].v.get("dir") is not None or any(x.label in ("cols", "yard", "every", "rest") for x in follows)


def after_yet(at: Place) -> Tail:
    """ "not yet | …": a head right after it is said of something else."""
    return [] if at.marks[-1].w == "yet" and at.m.label in HEADS and at.soft is None else None


def _to_super(at: Place) -> Tail:
    """ "feed 41-44, | super 12": work on the colonies named straight after it."""
    if at.m.label != "item" or at.m.w != "super" or at.q is None or at.q.label != "cols":
        return None
    return glue_tail(at.marks) if at.soft is not None and at.cols and has_verb(at.marks) else None


def _so_on_a_day(at: Place) -> Tail:
    """ "L2 is strong | so friday supers go on"."""
    marks = at.marks
    if at.m.label not in THINGS:
        return None
    opens = len(marks) > 2 and marks[-1].label == "date" and marks[-2].w in ("so", "then")
    return marks[-2:] if opens and at.has("fact", "mites", "value") and not at.has("agent", "form", "item") else None


def _after_they_moved(at: Place) -> Tail:
    """ "moved L1 to L4 over to cut bank | feeders are off at larks": what stands after the place they went to."""
    q, last = at.q, at.marks[-1]
    if at.m.label not in THINGS or at.soft is not None or last.label != "yard":
        return None
    if "to" not in [x.w for x in at.marks[-3:-1]]:
        return None
    moved = any(x.v.get("step") == "moved" for x in at.marks) and at.has("cols", "hives", "number")
    so = q is not None and (q.w in AUX or q.w in WAYS or q.label == "verb")
    return [] if moved and so else None


def _after_next_check(at: Place) -> Tail:
    """ "recheck them in ten days | supers back on both": what was done now, after a check that is still to come."""
    if at.m.label not in THINGS or at.soft is not None or not at.has("check", "method") or at.marks[-1].label != "date":
        return None
    first = next((x for x in at.marks if x.label not in ("filler", "comma") and x.w not in ("and", "then")), None)
    if first is None or first.label not in ("check", "method") or not at.marks[-1].v["value"].is_to_come:
        return None
    return [] if at.q is not None and (at.q.w in WAYS or at.q.w == "back") else None


def _given_on_a_day(at: Place) -> Tail:
    """ "41 strong | supers friday", "41 light | fondant on monday": what one is to get on the day behind it."""
    if at.m.label not in THINGS or at.soft is not None or not at.cols or has_verb(at.marks) or at.has("cue"):
        return None
    found = at.marks[-2] if at.marks[-1].label == "ordinal" and at.marks[-2:-1] else at.marks[-1]
    day = at.z if at.q is not None and at.q.w == "on" else at.q
    if found.label != "fact" or day is None or day.label != "date":
        return None
    return at.marks[-1:] if found is not at.marks[-1] else []


def _not_on_those(at: Place) -> Tail:
    """ "all but L13 and L14, | mouse guards not on those two yet": what the ones left out lack."""
    if at.m.label not in THINGS:
        return None
    shut = at.marks[:-1] if at.marks[-1].label in ("comma", "filler") else at.marks
    if not excepted(shut) or at.q is None or at.q.v.get("cue") != "not":
        return None
    those = any(x.label == "pronoun" for x in at.row[at.i + 2 : at.i + 5])
    return at.marks[len(shut) :] if those else None


def at_thing(at: Place) -> Tail:
    """At a thing, a method, a fact …: whatever becomes a record and has no rule of its own."""
    if _moisture_from_there(at):
        return None
    begins = first_of(
        at,
        (
            _not_on_those,
            _so_on_a_day,
            _there_still,
            _after_what_is_off,
            _dose_on_condition,
            _left_there,
            _goes_again,
            _after_the_move,
            after_yet,
            _to_super,
            _given_on_a_day,
            _after_they_moved,
            _after_next_check,
            _waits_for_not,
            _after_unopened,
        ),
    )
    if begins is not None or at.m.label not in _MAY_BEGIN or not done(at.marks):
        return begins
    return _at_unjoined_thing(at) if at.soft is None else _at_joined_thing(at, at.soft)


def _after_unopened(at: Place) -> Tail:
    """ "rest not checked | oxalic when warm", "nine not opened | fondant on ten": a thing is no part of the look."""
    look = at.marks[-1]
    if at.m.label not in THINGS or at.soft is not None or look.label != "verb" or look.v.get("does") != "inspect":
        return None
    return [] if at.marks[-2:-1] and at.marks[-2].w == "not" and at.has("cols", "rest", "every") else None


def _moisture_from_there(at: Place) -> bool:
    """ "nine buckets of honey from there moisture seventeen": whether the honey told of has that moisture."""
    there = at.m.label == "moisture" and at.marks[-1].w == "there" and len(at.marks) > 1
    return there and at.marks[-2].w in ("from", "of", "off")


def _there_still(at: Place) -> Tail:
    """ "nine didn't get one | there's strips in there still"."""
    there = at.m.label in ("item", "form") and at.marks[-1].w in ("there's", "theres") and at.has_cue("not")
    return at.marks[-1:] if there else None


def _after_what_is_off(at: Place) -> Tail:
    """ "the honey's off | strips are in two each"."""
    if at.m.label not in THINGS or at.q is None or at.q.w not in AUX or not at.has("honey", "item"):
        return None
    return [] if [x.w for x in at.marks[-2:]] in (["'s", "off"], ["is", "off"], ["are", "off"]) else None


def _dose_on_condition(at: Place) -> Tail:
    """ "if it's under eighty five | two pads": of two numbers the second counts what goes in."""
    numbers = at.m.label == "form" and [x.label for x in at.marks[-2:]] == ["number", "number"] and at.has_cue("if")
    return at.marks[-1:] if numbers else None


def _after_the_move(at: Place) -> Tail:
    """ "moved forty four to wens last night | oxalic dribble at larks this morning": work at another yard."""
    if at.m.label not in THINGS or at.soft is not None or at.marks[-1].label not in ("date", "yard"):
        return None
    moved = any(x.v.get("step") in ("moved", "sold") for x in at.marks)
    elsewhere = any(x.label == "yard" for x in at.row[at.i + 1 : at.i + 5])
    return [] if moved and elsewhere and at.has("yard") and done(at.marks) else None


def _goes_again(at: Place) -> Tail:
    """ "pads in at the pond | the pads come out in two weeks", "supers on at wens | and the supers there come off in
    august": what went in is told of again, with what becomes of it.
    """
    m, marks = at.m, at.marks
    if m.label not in THINGS or marks[-1].w not in ("the", "those", "these") or not same_family(marks, m):
        return None
    k = at.i + 1
    while k < min(len(at.row), at.i + _AS_FAR) and (at.row[k].label in _OF_IT or at.row[k].w in _THERE):
        k += 1
    verb = at.row[k] if k < len(at.row) else None
    goes = verb is not None and verb.label == "verb" and verb.w.split()[0] in _GOES
    return with_joins(marks[:-1]) + marks[-1:] if goes and done(marks[:-1]) else None


_AS_FAR = 8
"""Marks up to the verb of a thing: a longer way has none, and would be gone anew from each thing on it."""
_OF_IT = frozenset(["form", "filler", "yard"])
_THERE = frozenset(["there", "in", "at", "the"])
_GOES = frozenset("come comes go goes get gets need needs".split())


def _left_there(at: Place) -> Tail:
    """ "and eighteen off heath | left the escapes on"."""
    marks = at.marks
    if at.m.label not in ("item", "agent", "form") or len(marks) < 3 or not at.has("yard", "item", "agent", "form"):
        return None
    return marks[-2:] if marks[-2].w == "left" and marks[-1].w in ("the", "all") else None


def _at_unjoined_thing(at: Place) -> Tail:
    """At a thing right after what is complete, no comma or joining word between."""
    begins = (_with_article, _thing_of_its_own_place, _after_sight, _counted_thing, _checked_anew, _then_checked)
    return first_of(at, begins)


def _with_article(at: Place) -> Tail:
    """ "… | the supers came off": a thing with its article."""
    label, marks, q = at.m.label, at.marks, at.q
    if marks[-1].w != "the":
        return None
    if label == "item" and q is not None and is_verb(q) and not same_family(marks, at.m):
        if q.v.get("tense") == "past" and q.v.get("dir") and marks[-2].label in CLOSED:
            return marks[-1:]  # "strips are in at heath two each | the supers came off"
    if label in THINGS and len(marks) > 1 and marks[-2].label in ("moisture", "percent"):
        return marks[-1:]  # "moisture sixteen and a half | the supers on 61 come off friday"
    if label in THINGS and at.cols and q is not None and q.label == "cue" and q.v.get("cue") in ("not", "plan"):
        return marks[-1:]  # "reducers on l1 to l12 | the wraps haven't gone on yet"
    if label == "method" and at.has("mites", "value") and at.has("method"):
        return marks[-1:]  # "uncapped drone brood, five mites | the wash on it was three"
    return None


def _thing_of_its_own_place(at: Place) -> Tail:
    """At a thing after colonies, a yard, a day or "each", where it goes its own way."""
    label, marks, last, q = at.m.label, at.marks, at.marks[-1], at.q
    if label not in THINGS:
        return None
    others = not same_family(marks, at.m)
    if others and excepted(marks):
        return []  # "a pound on every hive bar forty one | oxalic vapor went in in january"
    if last.label in ("yard", "every") and _goes_its_own_way(at):
        return []  # "traps out of everything at larks | guards on L1 through L12"
    if last.label == "every" and label == "item" and at.has("item"):
        return []  # "mouse guards went on last week every hive | reducers yesterday"
    if last.label == "every" and others and any(x.w in WAYS for x in at.row[at.i + 1 : at.i + 3]):
        return []  # "strips out all of them | reducers on whole yard"
    if q is None:
        return None
    if label in ("item", "form") and last.label == "cols" and at.z is not None and others:
        if q.w in ("is", "are") and at.z.w in ("off", "on", "out", "in", "back"):
            return []  # "a pound for forty through forty four | mouse guards are off every hive"
    if last.label in ("date", "yard") and has_verb(marks) and q.w in AUX and at.has_any(THINGS):
        return []  # "feeders came off at larks today | mouse guards are on"
    if label == "item" and last.label == "date" and q.label == "date":
        return []  # "reducers went on last week | guards this week | wraps in november"
    if last.label in CLOSED and label != "agent" and _other_on_a_day(at, q):
        return []  # "mouse guards on l one to l twenty | wraps next weekend"
    if label == "item" and q.w in ("are", "is", "were") and last.label in CLOSED and at.has("item"):
        if not same_item(marks, at.m) and at.z is not None and at.z.w in _ALREADY:
            return []  # "guards go on this weekend at larks | reducers are already on"
    if last.label == "each" and others and q.w in WAYS:
        return []  # "a gallon each | wraps on at wens next week"
    return None


def _other_on_a_day(at: Place, q: Mark) -> bool:
    """Whether a thing not told of yet has a day to come right behind it, and what stands before has none."""
    if at.has("date", "cue") or q.label != "date" or not q.v["value"].is_to_come:
        return False
    return at.has_any(THINGS) and not any(x.v == at.m.v for x in at.marks) and not _base_verb(at.marks)


def _base_verb(marks: list[Mark]) -> bool:
    """Whether something is to be done, by its verb."""
    return any(x.label == "verb" and x.v.get("tense") == "base" for x in marks)


def _after_sight(at: Place) -> Tail:
    """At a thing after a colony that died, the weather, the moisture of honey, or how much there was."""
    label, marks, last = at.m.label, at.marks, at.marks[-1]
    if label in ("temp", "sky"):
        return [] if not same_family(marks, at.m) else None
    if label not in THINGS:
        return None
    if any(x.label == "cols" for x in at.row[at.i + 1 : at.i + 6]):
        lead = with_number(marks) if last.label == "number" else []
        if hives_gone(marks[: len(marks) - len(lead)]) or (_given_on(at) and _some_died(marks)):
            return lead  # "l three's a goner | pollen sub a pound each l five", "sold six at larks | two pads in nine"
    if last.label == "change" and last.v.get("step") == "died" and at.cols:
        if any(x.label == "date" and x.v["value"].is_to_come for x in at.row[at.i + 1 : at.i + 4]):
            return []  # "s eleven dead | wraps on next weekend": not on the dead one
    if at.q is None:
        return None
    weather = marks[-2] if last.label == "date" and len(marks) > 1 else last  # "frost last night | mouse guards go on"
    if weather.label in ("moisture", "temp", "sky"):
        return []  # "three barrels off larks sixteen point eight moisture | excluders off the whole yard"
    if label in ("item", "agent", "form") and last.label == "amount" and is_verb(at.q):
        return []  # "the quarry made six gallons | strips go in thursday"
    return None


def hives_gone(marks: list[Mark]) -> bool:
    """Whether the marks end in the colony that died, or in how many did and where: "four deadouts at the quarry", "lost
    three at cut bank yesterday", "sold six nucs at larks".
    """
    if not marks:
        return False
    if any(x.label == "cols" for x in marks):
        return marks[-1].label == "change" and marks[-1].v.get("step") == "died"
    k, counted = len(marks) - 1, False
    while k and (marks[k].label in _OF_THOSE or marks[k].w in _WHERE):
        counted = counted or "n" in marks[k].v
        k -= 1
    if marks[k].label != "change" or marks[k].v.get("step") not in _GONE:
        return False
    counted = counted or "n" in marks[k].v
    while k and not counted and (marks[k - 1].label in _OF_THOSE or marks[k - 1].w in _WHERE):
        k -= 1  # "two more dead", "three of the nucs at the pond are dead"
        counted = "n" in marks[k].v
    return counted


def _given_on(at: Place) -> bool:
    """Whether the thing at the mark goes on or in colonies that follow it."""
    k = at.i + 1
    while k < len(at.row) and at.row[k].label in _WITH_THING:
        k += 1
    follows = at.row[k : k + 2]
    return len(follows) > 1 and follows[0].w in ("on", "in", "to", "into") and follows[1].label == "cols"


_WITH_THING = THINGS | {"each", "amount"}


def _some_died(marks: list[Mark]) -> bool:
    """ "lost half of cut bank over winter | pollen sub on forty five": the dead are given nothing."""
    if any(x.label == "cols" or x.label in THINGS for x in marks) or marks[-1].w in GOVERNORS:
        return False
    return any(x.label == "change" and x.v.get("step") == "died" for x in marks)


_OF_THOSE = frozenset("yard date number hives noun".split())
_GONE = frozenset("died swarmed sold bought swarm_caught".split())
_WHERE = frozenset("at in over on the down up there here so far more of them".split())


def _counted_thing(at: Place) -> Tail:
    """ "guards on every hive at larks | and two strips in each but three": so many, after what they are no part of."""
    marks = at.marks
    if at.m.label not in THINGS or marks[-1].label != "number":
        return None
    tail = with_number(marks)
    if len(tail) < 2:
        return None
    if same_family(marks, at.m):
        return tail if at.cols and tail[0].w != "and" and _with_others_elsewhere(at) else None
    before, first = marks[: -len(tail)], tail[0]
    last = before[-1]
    if at.cols and (first.label == "filler" or first.w in ("and", "so", "but")):
        if (
            last.label in ("percent", "mites")
            or _goes_in_there(at)
            or _just_named(before)
            or _with_others_elsewhere(at)
        ):
            return tail  # "the wash on 61 was half a percent | and two hop strips apiece went in 50 to 55"
    if first.w == "then" and last.label in CLOSED:
        return tail if done(before) else None  # "supers off tomorrow | then it's two pads a hive"
    if first.w == "then" and last.label in ("fact", "change") and _goes_in_there(at):
        return tail  # "forty four is getting robbed | then two hop strips apiece went in fifty"
    closed = first.w == "and" and last.label in ("yard", "every", "each")
    return tail if closed and done(before) and at.has("yard", "every") else None


def _with_others_elsewhere(at: Place) -> bool:
    """ "a super apiece um | one excluder and one super on sixty": more things, all of which others got."""
    k = at.i + 1
    joined = False
    while k < min(len(at.row), at.i + 8) and (at.row[k].label in _OF_LIST or at.row[k].w in ("and", "a", "an")):
        joined = joined or at.row[k].w == "and"
        k += 1
    ways = k
    while k < len(at.row) and at.row[k].w in _WAYS_AND_UNDER:
        k += 1
    return joined and k > ways and k < len(at.row) and at.row[k].label == "cols"


_OF_LIST = THINGS | {"number"}


def _just_named(marks: list[Mark]) -> bool:
    """ "the new half is sixty two | and four combs into sixty": the marks end in what a new hive is called."""
    named = len(marks) > 1 and marks[-1].label == "cols" and marks[-2].w in ("is", "it's")
    return named and any(x.label == "change" for x in marks)


def _checked_anew(at: Place) -> Tail:
    """ "hive eight had two | and then um today sugar rolls", "traps on both of them | sugar roll on s ten": a check
    with its day or its colony."""
    if at.m.label != "method":
        return None
    if (
        at.marks[-1].label == "pronoun"
        and at.has_any(THINGS)
        and at.q is not None
        and at.q.w in ("on", "in", "of", "from")
    ):
        return [] if at.z is not None and at.z.label == "cols" else None
    if at.marks[-1].label != "date" or header_only(at.marks):
        return None
    joined = with_joins(at.marks[:-1])
    return [*joined, at.marks[-1]] if joined else []


def _then_checked(at: Place) -> Tail:
    """ "I gave those two a gallon each | alcohol wash on l nine had one mite": a check of others, after work."""
    last = at.marks[-1]
    if at.m.label != "method" or last.label not in ("each", "feed", "amount", "form", "item", "ratio"):
        return None
    if (
        at.q is None
        or at.q.w not in ("on", "in", "from", "under", "of", "off")
        or not at.has("pronoun", "every", "rest")
    ):
        return None
    return [] if at.z is not None and at.z.label == "cols" and not at.has("method", "mites", "value") else None


def _goes_in_there(at: Place) -> bool:
    """ "forty got a gallon each of syrup | and two hop strips apiece went in fifty": where the thing went follows."""
    follows = at.row[at.i + 1 : at.i + 6]
    went = next((k for k, x in enumerate(follows) if x.label == "verb" and x.w.split()[0] in ("went", "go")), None)
    if went is None or any(x.label not in ("form", "each") for x in follows[:went]):
        return False
    return [x.label for x in follows[went + 1 : went + 3]] == ["w", "cols"]


def _goes_its_own_way(at: Place) -> bool:
    """Whether the thing before went on or off somewhere, and this other one goes on or off colonies of its own."""
    ways = any(a.label == "item" and b.w in _WAYS_AND_UNDER for a, b in pairwise(at.marks))
    follows = at.row[at.i + 1 : at.i + 5]
    if not ways or same_item(at.marks, at.m) or not follows or follows[0].w not in _WAYS_AND_UNDER:
        return False
    places = [x for x in follows[1:] if x.w not in ("of", "the", "supers")]
    return bool(places) and places[0].label in ("cols", "every", "rest", "item")


_ALREADY = WAYS | {"already"}
_WAYS_AND_UNDER = WAYS | {"under"}


def same_item(marks: list[Mark], m: Mark) -> bool:
    """Whether the marks name that thing already."""
    return m.label == "item" and any(x.label == "item" and x.v["item"] == m.v["item"] for x in marks)


def _at_joined_thing(at: Place, soft: Mark) -> Tail:
    """At a thing after a comma or a joining word: one of the same family goes on with the statement."""
    m, marks, cols = at.m, at.marks, at.cols
    tail = glue_tail(marks)
    if not tail:
        return None
    if soft.w == "then" and m.label in ("agent", "form", "item", "feed", "queen_noun", "method"):
        return with_number(marks)
    if m.label == "method" and cols and any(x.label == "method" and x.v["method"] != m.v["method"] for x in marks):
        return tail
    if (
        m.label == "sample"
        and cols
        and (at.has("percent", "mites", "value") or at.has_cue("not"))
        and _sample_of_next(at)
    ):
        return tail  # "seventy one four percent | and half cup soap wash seventy seven had four"
    if m.label in THINGS and cols and at.q is not None and at.q.w in ("off", "out") and at.z is not None:
        if at.z.label in ("cols", "every") and soft.w in ("but", "so") and not any(x.w in WAYS for x in marks):
            return with_number(marks)  # "l three got two supers | but excluder off l sixteen"
    alike = same_family(marks, m)
    if alike and m.label == "item" and at.q is not None and at.q.v.get("dir") and not same_item(marks, m):
        if has_verb(marks) or any(x.label == "item" and x.w.endswith("ing") for x in marks):
            return with_number(marks)  # "saturday we're wrapping Heath | and the mouse guards go on there in five days"
    since = since_last_head(marks)
    if alike and not any(x.label in ("cols", "date") or x.w in WAYS for x in since):
        return None
    if m.label == "method" and [x.label for x in since if x.label not in ("comma", "w")] == ["sample"]:
        return None  # "0 mites in 300, alcohol wash"
    if soft.w in ("and", "plus", "or", "-", "–") and not at.strong:
        if alike and not cols and not at.has("every"):
            return None
        if m.label == "fact" and cols and at.has("fact"):
            return None
    # "a tray each um | Dov is rolling all of them": the doer goes along
    return tail if any(x.label == "person" for x in tail) else with_number(marks)


def _sample_of_next(at: Place) -> bool:
    """Whether the colonies follow that were checked with that sample: "full cup | alcohol wash on l thirty had one",
    "quarter cup on seventy eight one mite".
    """
    k = at.i + 1
    while k < min(len(at.row), at.i + 3) and (at.row[k].label == "method" or at.row[k].w in _OF_WHICH):
        k += 1
    named = at.i + 1 < k < len(at.row) and at.row[k].label == "cols"
    return named and predicate_follows(at.row, k)


_OF_WHICH = frozenset("on from off in of".split())


def _waits_for_not(at: Place) -> Tail:
    """ "we wrap all of cut bank and | the mouse guard still isn't on 63": the subject of what was not done, what stands
    before it being said to its end.
    """
    if at.soft is None or at.m.label not in THINGS:
        return None
    k = at.i + 1
    while k < len(at.row) and at.row[k].w in ("still", "just", "there"):
        k += 1
    cue = at.row[k] if k < len(at.row) else None
    if cue is None or cue.label != "cue" or cue.v.get("cue") != "not" or not cue.w.split()[-1].endswith("n't"):
        return None
    tail = with_number(at.marks)
    said = at.marks[: len(at.marks) - len(tail)]
    worked = done(said) or any(is_verb(x) or x.label in ("method", "check") for x in said)
    return tail if said and said[-1].label in CLOSED and worked else None
