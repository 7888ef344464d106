"""Does a new statement begin at what was seen in a colony, or at the weather?"""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import SEEN_AT, THINGS
from fieldnotes.reader.parting.about import GLUE_WORDS, against, done, is_verb, predicate_follows
from fieldnotes.reader.parting.at_things import at_thing
from fieldnotes.reader.parting.left_out import excepted, left_out, not_yet, reason_for_none
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.tails.joining import glue_tail
from fieldnotes.reader.parting.tails.subjects import reason_tail

_LEFT = listed("left_undone")
_NOTICED = listed("noticed")


def at_weather(at: Place) -> Tail:
    """ "didn't get to sixty one | the rain came"."""
    if at.marks[-1].label == "each" and at.soft is None and at.cols:
        return []  # "seven to nine got two each | high of eighty four today"
    grounds = (bool(at.cols), at.soft is not None, at.has("cue"))
    return glue_tail(at.marks) if sum(grounds) >= 2 and not done(at.marks) else at_thing(at)


def at_fact(at: Place) -> Tail:
    """At what was seen: after work left undone it is said of the colony anew."""
    if _of_the_weather(at):
        return None
    begins = first_of(at, (_why_none, _noticed_after_work, _and_it_is))
    if begins is not None:
        return begins
    if at.q is not None and at.q.w in ("is", "are") and at.z is not None and at.z.label == "cols" and at.cols:
        if at.marks[-1] is at.cols[-1] and at.has("fact", "change"):
            return []  # "heavy is two four and nine | light is five and seven"
    if _qualifies_ones(at):
        return None
    begins = first_of(
        at, (_of_ones, _seen_again, _seen_over_there, _cause_of_job, _why_planned, _why_undone, _seen_in_exception)
    )
    if begins is not None:
        return begins
    if at.cols and any(x.w in _LEFT for x in at.marks if x.label == "cue"):
        return [] if at.marks[-1].label == "comma" else None  # "43: not done, | queenless"
    return at_thing(at)


def _of_the_weather(at: Place) -> bool:
    """ "it was forty degrees and calm"."""
    calm = len(at.marks) > 1 and at.marks[-1].w == "and" and at.marks[-2].label in ("temp", "sky")
    return calm and "temper" in at.m.v.get("set", {})


def _why_none(at: Place) -> Tail:
    """Why a colony got none, or so few."""
    marks = at.marks
    if at.cols and at.has("number") and not at.has("fact", "value"):
        why = next((k for k in range(max(1, len(marks) - 2), len(marks)) if marks[k].w in ("cause", "because")), 0)
        if why and marks[why - 1].label in ("number", "each"):
            return marks[why:]  # "and fifty one only the one | cause it's weak"
    return reason_for_none(marks)  # "13 none | (weak)", "45 none | it was heavy"


def _and_it_is(at: Place) -> Tail:
    """ "hive three has seven | and it's strong": a number by itself is told to its end."""
    marks = at.marks
    plain = len(marks) > 3 and marks[-3].label == "number" and not at.has("fact", "value", "mites")
    return marks[-2:] if plain and marks[-2].w == "and" and marks[-1].w in ("it's", "she's") and at.cols else None


def _noticed_after_work(at: Place) -> Tail:
    """What was noticed while the work was done."""
    marks = at.marks
    if at.m.w.split()[0] in _NOTICED and at.has("every") and not at.has("fact") and done(marks):
        return glue_tail(marks)  # "supers on every hive | saw the queen in four"
    if marks[-1].w in _NOTICED and done(marks[:-1]) and not at.has("fact"):
        return [*glue_tail(marks[:-1]), marks[-1]]  # "traps in every hive | saw beetles in three"
    return None


def _are_ones(at: Place) -> bool:
    """Whether "ones" follow that are such ("the light ones"), after what is complete."""
    return at.q is not None and at.q.label == "thing" and at.q.w.endswith("ones") and done(at.marks)


def _qualifies_ones(at: Place) -> bool:
    """ "supers on the strong ones, two and four"."""
    lead = [
        x for x in at.marks[-3:] if (x.label in ("w", "queen_work", "change", "each") or is_verb(x)) and x.w != "the"
    ]
    if not lead or not _are_ones(at):
        return False
    ends = at.z is None or at.z.label in _AFTER_ONES
    if lead[-1].w.split()[-1] not in _ON_TO:
        named = at.z is not None and at.z.label == "cols"  # "requeen the mean ones 40 and 52"
        return lead[-1].label != "w" and (ends or named) and not at.cols  # "requeened the hot ones"
    if ends:
        return at.marks[-1].w == "the" and (at.has_any(THINGS) or at.has("queen_work"))  # "fondant on the light ones"
    return at.z is not None and at.z.label in ("cols", "yard")


def _of_ones(at: Place) -> Tail:
    """ "three is heavy | the light ones get fondant"."""
    if not _are_ones(at):
        return None
    return at.marks[-1:] if at.marks[-1].w in ("the", "those") else []


def _seen_again(at: Place) -> Tail:
    """What was seen later, or in another colony."""
    marks = at.marks
    if marks[-1].w == "now" and marks[-2:-1] and marks[-2].w in ("and", "but") and at.has("date") and at.has("fact"):
        return marks[-2:]  # "no eggs last week | and now eggs"
    if at.q is not None and at.q.w == "in" and at.z is not None and at.z.label == "cols" and _tells_more_of(at):
        return []  # "no eggs in fifteen but i saw a virgin trotting about | no eggs in sixteen"
    return None


_AFTER_ONES = frozenset("line stop comma date each amount number".split())


def _seen_over_there(at: Place) -> Tail:
    """ "seventy three is queenless | so robbing like mad over at seventy two": what is seen in colonies named after."""
    if at.soft is None or not at.cols or not at.strong or at.soft.w not in ("so", "then", "but"):
        return None
    k = at.i + 1
    while k < min(len(at.row), at.i + 6) and (at.row[k].label in ("w", "filler", "approx") and at.row[k].w != "and"):
        k += 1
    if at.q is not None and at.q.w in SEEN_AT and at.z is not None and at.z.label == "cols" and at.has("fact"):
        return glue_tail(at.marks)  # "n two is queen right | but brood in all stages in twenty"
    there = k > at.i + 1 and k < len(at.row) and at.row[k].label == "cols" and at.row[k - 1].w in SEEN_AT
    return glue_tail(at.marks) if there and at.has("fact") and not predicate_follows(at.row, k) else None


def _cause_of_job(at: Place) -> Tail:
    """ "63 needs a reducer by thursday | the wasps are all over it"."""
    marks = at.marks
    if marks[-1].w != "the" or at.q is None or at.q.w not in ("are", "is", "were") or "sign" not in at.m.v:
        return None
    planned = at.has_cue("plan") and at.cols and at.has("item", "agent", "feed", "date")
    return glue_tail(marks) if planned and done(marks) else None


def _why_planned(at: Place) -> Tail:
    """ "64 needs a new queen soon | she's a drone layer"."""
    needs = at.has_cue("plan") and at.cols and at.has("queen_noun") and not done(at.marks)
    if not needs:
        return None
    if at.marks[-1].w in _IS_SO:
        return at.marks[-1:]
    return [] if at.m.w.split()[0] in _IS_SO else None


def _why_undone(at: Place) -> Tail:
    """What was seen instead of the work that was not done, or why it was not."""
    marks = at.marks
    if not at.has_cue("not"):
        return None
    if len(marks) > 2 and marks[-1].w in _SEEMED and marks[-2].w == "it":
        return marks[-2:]  # "hive four i didn't crack | it seemed heavy"
    if marks[-1].w == "it" and at.m.w.split()[0] in _SEEMED and len(marks) > 1:
        return marks[-1:]  # "hive four i didn't crack | it felt heavy"
    if at.cols and (at.has("thing", "queen_noun") or not_yet(at) or done(marks) or left_out(marks)):
        if tail := reason_tail(marks):
            return tail  # "fifty didn't get any | it's weak", "nine i didn't give one | since it's down to two frames"
        if at.m.w.split()[0] in _IS_SO and not marks[-1].w.endswith("wait"):
            return []  # "didn't give any to nine | she's too small", but "… no wait they're supersedure cells"
    return None


def _seen_in_exception(at: Place) -> Tail:
    """ "all queenright except 138, | no queen, no eggs"."""
    shut = at.marks[:-1] if at.marks[-1].label == "comma" or at.marks[-1].w == ":" else at.marks
    return at.marks[len(shut) :] if excepted(shut) and any(against(x, at.m) for x in shut) else None


_ON_TO = frozenset("on onto to in into of for from off".split())


def _tells_more_of(at: Place) -> bool:
    """Whether the statement goes on about the colonies before it ("but i saw a virgin trotting about") and ends in
    words of its own."""
    marks = at.marks
    goes_on = at.statement.opens == "soft" and marks[0].w in ("but", "though", "still")
    own_words = marks[-1].label in ("w", "approx", "verb") and marks[-1].w not in GLUE_WORDS
    return goes_on and at.has("fact") and not at.cols and own_words


_IS_SO = frozenset("she's it's they're he's that's".split())
_SEEMED = frozenset("felt feels looked looks seemed seems sounded was is".split())
