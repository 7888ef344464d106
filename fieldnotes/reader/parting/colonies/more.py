"""Does a statement begin at colonies where it has some already?"""

from __future__ import annotations

from fieldnotes.reader.mark import ALL_OVER, THINGS, WAYS, Mark, goes_along
from fieldnotes.reader.parting.about import (
    GOVERNORS,
    done,
    done_to_what_leads,
    led_work_ends,
    person_follows,
    predicate_follows,
)
from fieldnotes.reader.parting.colonies.subject import COLOURS, gets_a_thing
from fieldnotes.reader.parting.governing import governed, points_on, relates
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.governing import governing_tail
from fieldnotes.reader.parting.tails.headers import COUNTS, header_tail
from fieldnotes.reader.parting.tails.joining import glue_tail, prep_lead, with_joins, with_prep
from fieldnotes.reader.parting.tails.numbers import another_from, with_number
from fieldnotes.reader.parting.tails.phrases import own_phrase


def at_more(at: Place, is_governed: bool) -> Tail:
    """At colonies where the statement has some already: is it told to its end, or said of others too, or of a pair?"""
    predicate = predicate_follows(at.row, at.i)
    told = predicate or person_follows(at.row, at.i) or (at.q is not None and at.q.w in ("it's", "she's"))
    told = told or (at.has_cue("not") and not at.has_any(THINGS) and gets_a_thing(at))
    tail = _after_what_is_told(at, predicate, told)
    if tail is not None or _names_of_made(at):
        return tail  # of nucs just made: "made two nukes out of nine at the pond today, n four and n five"
    tail = _done_likewise(at, predicate)
    if tail is None:
        tail = _closes_right_there(at, is_governed, predicate)
    if tail is not None or _one_of_a_pair(at):
        return tail
    marks, last = at.marks, at.marks[-1]
    first = marks.index(at.cols[0])
    if last.label == "each" and marks[-2].label == "number" and any(x.label == "each" for x in marks[:first]):
        return [*with_number(marks[:-1]), last]  # "sponges, 2 each 70 71, | 1 each 75 76"
    if _became_each(at):
        return with_joins(marks)
    if _from_one_to_another(at):
        return None
    if is_governed:
        return _after_governing(at, predicate, told)
    if last.w in ("just", "only") and len(marks) > 2 and marks[-2].label == "fact" and not predicate:
        return marks[-2:] if done(marks[:-2]) else header_tail(marks)  # "48 weak and jumpy | empty just 58"
    return header_tail(marks)


def _last_said(at: Place) -> tuple[Mark, list[Mark]]:
    """The last mark that is no filler, and the fillers after it: "l eleven i didn't roll | um l twelve has …"."""
    k = len(at.marks) - 1
    while at.marks[k].label == "filler":
        k -= 1
    return at.marks[k], at.marks[k + 1 :]


def _after_what_is_told(at: Place, predicate: bool, told: bool) -> Tail:
    """Where what was done to the colonies before, or seen of them, is told to its end."""
    marks, cols, last = at.marks, at.cols, at.marks[-1]
    if predicate and last.w in ("yet", "too", "already", "now") and len(marks) > 2 and marks[-2] is cols[-1]:
        return []  # "i haven't split l twelve yet | l ten has a candy board", "it's in seventeen now | two is weak"
    said, fillers = _last_said(at)
    closes = said.label in _CLOSES and said.w.split()[-1] not in _OF_WHICH
    closes = closes or _is_way(marks, said) or said.v.get("cue") == "not"
    if told and closes and _told_of_its_own(marks, cols[0]):
        return fillers  # "l eighteen gets pads | l thirteen has four cells", "55 and 56 combined | 44 is dead"
    if _told_anew(at, told, said):
        return fillers
    if fillers and said.label in _SAID_OUT and person_follows(at.row, at.i) and done(marks):
        return fillers  # "gave forty one a litre of syrup um | forty four i shook out"
    return None


def _done_likewise(at: Place, predicate: bool) -> Tail:
    """Where the same is said of others in a word or two: moved, made or taken from another, counted as the first."""
    if at.q is not None and at.q.w == "to" and at.z is not None and at.z.label == "yard" and at.has("change", "yard"):
        if joins := with_joins(at.marks):
            return joins  # "moved 71 to the Quarry | and 75 to Larkfield"
    if tail := another_from(at.marks):
        return tail
    if len(at.cols) > 1 and any(x.v.get("step") == "nuc_made" for x in at.marks) and (lead := _made_from_another(at)):
        return lead
    thing = at.q is not None and at.q.w == "the" and at.z is not None and at.z.label in THINGS
    return glue_tail(at.marks) if (predicate or thing) and _after_count(at) else None


def _closes_right_there(at: Place, is_governed: bool, predicate: bool) -> Tail:
    """Where a day, a yard, "same" or a thing right behind the colonies before closes what is said of them."""
    marks, cols, last = at.marks, at.cols, at.marks[-1]
    if last.label == "date" and predicate and not is_governed and len(marks) > 3:
        since = marks[marks.index(cols[-1]) :]
        if any(x.label == "verb" and x.v.get("does") == "inspect" and x.v.get("tense") != "past" for x in since):
            return []  # "forty nine, checking that again next weekend | fifty no queen"
    own = [m.label for m in marks[-3:-1] if m.w != "the"][-1:] == ["cols"]
    if last.label == "same" and not points_on(last) and (predicate or own):
        return []  # "seventy one same thing | seventy three has ten", "four the same | nine I …"
    if last.label == "yard" and marks[-2].w == "to" and at.has("change") and goes_along(at.row, at.i) is not None:
        return []  # "moved twelve to wens | fifteen goes over sunday"
    if last.label == "yard" and marks[-len(with_prep(marks[:-1])) - 2 : -1][:1] == cols[-1:] and predicate:
        return []  # "strips out of hive five at the quarry | hive six still has hers"
    if predicate and last.w == "and" and cols[-1] is marks[-2] and at.m.v["ids"] == cols[-1].v["ids"]:
        return marks[-1:]  # "the new half is hive 17 | and 17 gets its cell"
    if last.label == "item" and last.w.endswith("ed") and marks[-2] is cols[-1]:
        return []  # "forty supered | forty one supered and excluder"
    return None


def _one_of_a_pair(at: Place) -> bool:
    """Whether the colonies are the other side of a change told of those before ("split nine into twelve")."""
    cols = at.cols
    again = len(cols) > 1 and at.m.v["ids"] == cols[-1].v["ids"] and at.has("change") and at.has("fact")
    return not again and relates(at.marks, at.row, at.i)


def _from_one_to_another(at: Place) -> bool:
    """ "put the excluder from s seven on s nine", "a frame of eggs from forty one to forty six"."""
    marks = at.marks
    if marks[-1].w not in ("on", "into", "in", "to") or marks[-2] is not at.cols[-1]:
        return False
    return len(marks) > 2 and marks[-3].w == "from" and at.has("item")


def _after_governing(at: Place, predicate: bool, told: bool) -> Tail:
    """At colonies that the words before them take: where those words begin."""
    marks = at.marks
    person = person_follows(at.row, at.i)
    if person and (lead := prep_lead(marks)):
        return lead  # "a box on top and | out of l four i took three frames"
    somebody = person and at.z is not None and at.z.label != "cue"
    taken = somebody and at.z is not None and at.z.v.get("dir") == "out" and marks[-1].w in _OF_WHICH
    if (somebody or (predicate and at.q is not None and at.q.label == "fact")) and (lead := _fronted(marks, taken)):
        return lead
    if (fillers := _after_particle(at, predicate, told)) is not None:
        return fillers
    tail = governing_tail(marks)
    if (so_many := _so_many_before(at, tail)) is not None:
        return so_many
    if tail and (phrase := own_phrase(marks)) and _takes_the_phrase(marks, tail, phrase):
        return phrase
    if len(tail) == len(marks) - 1 and tail[0].label == "fact" and marks[-1].w in ALL_OVER and predicate:
        return []  # "l twelve chalkbrood all over | l sixteen has cells": nothing else is told of l twelve
    if not tail or tail[0].label != "date":
        return tail
    before = marks[-len(tail) - 1] if len(tail) < len(marks) else None
    if _day_of_the_plan(at, marks[: -len(tail)], tail):
        return tail[1:]
    if before is not None and at.q is not None and at.q.label == "date" and before.label in ("cols", "yard"):
        return tail[1:]  # "out of one to nine on friday | out of ten to twelve this morning": a day for each
    return tail


def _after_particle(at: Place, predicate: bool, told: bool) -> Tail:
    """ "l five put two supers on | l six …": where "on", "off", "in" or "out" closes the work on the colonies that
    lead, and something is told of the next, or done to them.
    """
    marks, cols = at.marks, at.cols
    said, fillers = _last_said(at)
    if said.label != "w" or said.w not in WAYS:
        return None
    sign = marks[-1].w == "in" and len(marks) > 1 and marks[-2].label == "fact"  # "six, chalkbrood in | 73"
    if sign and predicate and cols[0] is marks[0] and marks[1].w in ("i", "we") and at.q is not None:
        sign = at.q.w.split()[0] not in _ONE_HAS  # "l two i saw a virgin in | l six has swarm cells"
    acts = at.q is not None and (bool(at.q.v.get("dir")) or at.q.w == "left")
    walks = acts and _tells_of_work(marks, cols[-1])
    walks = walks or (_had_so_many(at.row, at.i) and cols[-1] in marks[:2])
    if sign or not (told or walks) or governed(marks[: marks.index(cols[0])], cols[0]):
        return None
    return fillers


def _takes_the_phrase(marks: list[Mark], tail: list[Mark], phrase: list[Mark]) -> bool:
    """ "l nine got three frames of comb | coumaphos strips came out of l eleven": whether the next statement begins
    with the thing and its verb, and not with the words alone that take the colonies.
    """
    named, joined = tail[: -len(phrase)], tail[0].w == "and"
    if (joined or not any(x.label in HEADS for x in tail)) and len(phrase) > len(tail):
        return True
    if joined and any(x.label == "fact" for x in phrase) and any(x.label in THINGS for x in tail):
        return True
    if joined and any(x.label in THINGS for x in named):
        return True
    return any(x.label == "queen_work" and x.w.endswith(" her") for x in named) or not done(marks[: -len(tail)])


_OF_WHICH = frozenset("off of from into".split())
_ONE_HAS = frozenset("is has was had 's".split())


def _made_from_another(at: Place) -> list[Mark]:
    """ "made N5 out of 18 | and N6 out of 20", "from 18 I made one, it's N5, | and from 20 also one, that's N6"."""
    if at.q is not None and at.q.w in ("out", "from", "off") and at.marks[-1].label != "w":
        return with_joins(at.marks)
    if at.q is not None and at.q.w in ("out", "from", "off") and at.marks[-1].w == "and":
        return at.marks[-1:]
    return prep_lead(at.marks) if at.marks[-1].w in ("from", "of", "off") else []


def _after_count(at: Place) -> bool:
    """ "four had zero alcohol wash half cup | nine had two": a method first said right after the first count is how
    that one was checked, and what the others go on from."""
    k = end = len(at.marks) - len(glue_tail(at.marks))
    while k > 0 and at.marks[k - 1].label in ("method", "sample", "each"):
        k -= 1
    how = at.marks[k:end]
    if any(x.label == "method" and x.w.endswith(("washes", "rolls", "tests")) for x in how):
        return False  # "came to one percent | soapy washes half cup 42 was zero"
    counted = k > 1 and (at.marks[k - 1].label in COUNTS or at.marks[k - 1].label == "percent")
    ahead = k > 1 and at.marks[k - 1].label == "cols" and at.marks[0].label == "clean"  # "all clean 50 and 51 alcohol"
    counted = (counted and at.marks[0].label == "cols") or ahead
    if not counted or not any(x.label == "method" for x in how):
        return False
    seen = at.z if at.q is not None and at.q.w in ("is", "are", "has", "had", "'s") else at.q
    if seen is not None and (seen.label in ("fact", "change") or seen.w == "the"):
        return True  # "washed at six half cup alcohol | forty four boiling over": nothing is counted there
    if how[0].label != "method":
        return False
    begun = at.i - (len(at.marks) - k) - 1
    return not any(x.label == "method" or x.label in COUNTS for x in at.row[:begun])


def _so_many_before(at: Place, tail: list[Mark]) -> list[Mark] | None:
    """ "wet supers on 75 and 76 one each in | 74 efb": how many each of those before got; None where none is said."""
    if [m.label for m in tail[:-1]] != ["number", "each"] or tail[-1].w not in ("in", "on"):
        return None
    seen = at.q is not None and at.q.label == "fact" and at.marks[-len(tail) - 1].label == "cols"
    return tail[-1:] if seen and at.has_any(THINGS) and not at.has("amount", "unit") else None


def _is_way(marks: list[Mark], said: Mark) -> bool:
    """Whether the mark is the way a thing went ("took the lid off"), and not what another was made "off"."""
    return said.w in ("off", "out") and marks[marks.index(said) - 1].label not in ("change", "queen_work")


def _fronted(marks: list[Mark], taken: bool) -> list[Mark]:
    """ "l four is light | out of l five i took …": the prepositions before the place where somebody works."""
    k = len(marks)
    while k and marks[k - 1].label == "w" and marks[k - 1].w in GOVERNORS:
        k -= 1
    before = marks[:k]
    at = next((n for n in range(len(before) - 1, -1, -1) if before[n].label == "cols"), None)
    if at is None or not k or not done(before):
        return []
    placed = at and before[at - 1].w in GOVERNORS  # "efb in six, chalkbrood | in nine": seen in nine
    ends = before[-1].label in ("fact", "change", "mites", "percent") and not placed
    marked = before[-1].w.split()[-1] in COLOURS  # "requeened two and four blue dot on"
    if before[-1].label == "fact" and not marked and not taken and done(before[:-1]):
        ends = False  # "is hot, saw the queen in | l nine"
    return marks[k:] if ends or taken or at == k - 1 else []


def _day_of_the_plan(at: Place, before: list[Mark], tail: list[Mark]) -> bool:
    """ "strips go in l one april first | sacbrood in l five": the day is that of the plan, not of the sight."""
    if not any(x.label == "fact" for x in tail) or any(x.label == "date" for x in before) or before[-1].label != "cols":
        return False
    return at.has_cue("plan") or any(x.label == "verb" and x.v.get("dir") and x.w.split()[0] in _COMES for x in before)


_COMES = frozenset("go goes come comes".split())


def _told_anew(at: Place, told: bool, said: Mark) -> bool:
    """Whether what was done to the colonies that lead is told to its end, and something is said of others after it:
    "76 i took the feeder off | 74 just one super", "the old girl in sixty i culled | fifty six is jumpy".
    """
    marks, q = at.marks[: at.marks.index(said) + 1], at.q
    if q is None:
        return False
    just = q.w in ("just", "only", "still", "also") or (q.label == "filler" and "next" in q.w.split())
    undone = q.label == "filler" and at.z is not None and at.z.v.get("cue") == "not"  # "l eleven um couldn't wash"
    counted = q.label in ("number", "sample", "method", "amount") and not at.has("number", "amount")
    if (told or just or counted or undone) and led_work_ends(marks):
        return True
    return told and done_to_what_leads(marks)


def _names_of_made(at: Place) -> bool:
    """Whether as many colonies follow, after a place or a day, as nucs were made of the one before."""
    made = [x for x in at.marks if x.label == "change"]
    ids = at.m.v["ids"]
    after = at.marks[-1].label in ("date", "yard") and len(at.cols) == 1 and len(at.cols[0].v["ids"]) == 1
    if not after or len(made) != 1 or made[0].v.get("step") != "nuc_made" or len(ids) < 2 or "n" not in made[0].v:
        return False
    return bool(made[0].v["n"].value == len(ids)) and not predicate_follows(at.row, at.i)


_SAID_OUT = frozenset("feed item form agent each amount fact mites value percent ratio".split())


_CLOSES = frozenset("agent form item feed change verb method percent queen_work".split())
"""What may close the words about one colony, and would govern the next but for what is said of that."""


def _told_of_its_own(marks: list[Mark], cols: Mark) -> bool:
    """Whether the colonies lead, or what is in them does, and what was done to them is told to its end after them."""
    k = next(k for k, m in enumerate(marks) if m is cols)
    after = [m for m in marks[k + 1 :] if m.label not in ("filler", "comma")]
    if not after or not (done(marks) or any(m.v.get("cue") == "not" for m in after)):
        return False  # nor anything left undone: "seventy five i didn't open | seventy seven i took the feeder off"
    leads = all(m.label in ("filler", "comma") or m.w in ("and", "so", "then", "but", "the") for m in marks[:k])
    if not leads:
        thing = all(m.label in ("agent", "form", "item", "filler") or m.w in ("the", "in", "on") for m in marks[:k])
        return thing and [m.label for m in after] == ["verb"] and bool(after[0].v.get("dir"))
    while len(after) > 1 and after[0].w in ("just", "only", "also", "still"):
        after = after[1:]
    does = ("verb", "cue", "change", "percent", "mites", "value", "queen_work")
    return after[0].label in does or after[0].w in ("i", "we", "had", "has", "needs")


def _had_so_many(row: list[Mark], i: int) -> bool:
    """ "46 two supers off | 47 one super off": whether how many came off or went on is said after the colonies."""
    after = row[i + 1 : i + 4]
    if [m.label for m in after[:1]] != ["number"] or len(after) < 3:
        return False
    return after[1].label in ("item", "form", "agent") and after[2].w in WAYS


def _became_each(at: Place) -> bool:
    """ "supers: 41-45 on, | 46 off": a direction closes what is said of the colonies before it, as the next will."""
    part = with_prep(at.marks)
    k = len(at.marks) - len(part)
    said = [m for m in part if m.label == "w" and m.w not in ("and", "then")]
    return (
        [m.w in WAYS for m in said] == [True]
        and said[0] is part[0]
        and len(part) > 1
        and at.marks[k - 1].label == "cols"
        and at.q is not None
        and at.q.w in WAYS
    )


def _tells_of_work(marks: list[Mark], cols: Mark) -> bool:
    """ "hive one put two supers on | hive two put …": the colonies lead, and the work is told right after them."""
    k = next(k for k, m in enumerate(marks) if m is cols)
    return k + 1 < len(marks) and marks[k + 1].label == "verb" and bool(marks[k + 1].v.get("dir"))
