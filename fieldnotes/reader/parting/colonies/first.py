"""Does a statement begin at the first colonies since the last one began?"""

from __future__ import annotations

from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.parting.about import GOVERNORS, done, has_verb, particle_ends, person_follows, predicate_follows
from fieldnotes.reader.parting.colonies.whose import ends_in_new_place, ends_in_place, names_whose
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.tails.headers import header_tail
from fieldnotes.reader.parting.tails.joining import glue_tail, prep_lead


def at_first(at: Place, is_governed: bool) -> Tail:
    """At the first colonies of a statement: in turn where one begins, and where they only go with what is said."""
    complete, predicate = done(at.marks), predicate_follows(at.row, at.i)
    tail = _after_what_is_told(at, is_governed, complete)
    if tail is None:
        tail = _tells_of_them(at, is_governed, complete, predicate)
    if tail is not None or _named_for_it(at, complete, predicate):
        return tail
    tail = _after_what_went_before(at, is_governed, complete, predicate)
    if tail is not None or _only_listed(at, complete, predicate):
        return tail
    if is_governed or not complete or names_whose(at, predicate):
        return None
    return header_tail(at.marks)


def _after_what_is_told(at: Place, is_governed: bool, complete: bool) -> Tail:
    """Where what was done or seen is told to its end, and the words that lead to other colonies follow."""
    marks = at.marks
    if complete and len(marks) > 3 and marks[-1].w in ("in", "on") and marks[-2].label == "number":
        if marks[-3].label in ("yard", "every") and at.has("every"):
            return marks[-2:]  # "a trap in every hive at the sawmill | two in s nine"
    person = person_follows(at.row, at.i)
    if complete and person and (lead := prep_lead(marks)) and len(lead) < len(marks):
        before = marks[-len(lead) - 1]
        if before.label == "each" or (before.label == "date" and marks[-1].w == "in"):
            return lead  # "new queen gets introduced there thursday | um in n five i released one"
    if complete and person and at.statement.opens == "soft" and at.has("fact"):
        if (lead := prep_lead(marks)) and not lead[0].v and marks[-len(lead) - 1].label == "fact":
            return lead  # "i see no eggs | and on l fourteen i put a super"
    if is_governed and (complete or has_verb(marks)) and (lead := _placed_after_them(at)):
        return lead
    if is_governed and complete and marks[-1].label in _OF_ALL and _gets_so_many(at):
        return []  # "put supers on at heath | h one got two"
    return None


def _tells_of_them(at: Place, is_governed: bool, complete: bool, predicate: bool) -> Tail:
    """Where something is told of the colonies, and what stands before was to be done, or was done to all of a yard."""
    marks, last = at.marks, at.marks[-1]
    if predicate and last.label == "cue" and last.w in ("not done", "undone"):
        return []  # "so that one's not done | l fifteen had two"
    if predicate and not complete and at.has("yard") and ends_in_new_place(marks):
        return []  # "six hives from the pond over to the heath | seventy seven is light"
    alone = not complete and not is_governed
    if alone and last.w == "and" and person_follows(at.row, at.i) and at.has_cue("plan") and at.has("date"):
        return glue_tail(marks)  # "need to call the inspector monday and | s seven I looked hard"
    if predicate and complete and last.label == "yard" and (at.has_any(THINGS) or at.has("amount")):
        if has_verb(marks) or at.has("each", "every"):
            return []  # "pulled the strips at cut bank | fifty two has chalkbrood"
    if predicate and alone and last.w in ("and", "that") and at.has("date"):
        return glue_tail(marks)  # "cut the boards by friday and that | hive three is a dead out"
    if alone and _ends_in_time(marks):
        owned = predicate or (at.q is not None and at.q.w in ("the", "a") and at.z is not None and at.z.label in _HERS)
        if owned and (at.has_cue("plan") or any(x.label == "verb" and x.v.get("tense") == "ing" for x in marks)):
            return []  # "it has to go in a full box this week | n four no queen seen"
    return None


def _named_for_it(at: Place, complete: bool, predicate: bool) -> bool:
    """Whether the colonies only say which ones the thing or the finding before is of."""
    last = at.marks[-1]
    that_was = last.w in ("was", "were") and at.marks[-2:-1] and at.marks[-2].w in ("that", "those", "these")
    if complete and (last.w in ("that's", "thats") or that_was):
        if at.has_any(THINGS):
            return True  # "reducers on that's one through eighteen"
        ends = at.q is None or at.q.label in ("stop", "line")
        if ends and at.has("fact") and not at.has("hives", "every", "rest"):
            return True  # "swarm cells at mill lane, that's 44 and 46"
    if last.label == "thing" and last.w.endswith("ones") and at.has("fact"):
        return True  # "light ones two five and nine"
    if last.label == "comma" and not predicate and _end_in_ones(at.marks):
        return True  # "fed the light ones, two and five"
    found = len(at.marks) > 1 and at.marks[-2].label == "fact"
    return last.w in ("just", "only") and found and not predicate  # "empty just fifty eight"


def _end_in_ones(marks: list[Mark]) -> bool:
    """Whether "the light ones" stands before the comma that ends the marks."""
    return len(marks) > 2 and marks[-2].w.endswith("ones") and marks[-3].label == "fact"


def _after_what_went_before(at: Place, is_governed: bool, complete: bool, predicate: bool) -> Tail:
    """Where what is said before is of colonies, or of things, told of in an earlier statement."""
    marks, last = at.marks, at.marks[-1]
    alone = not complete and not is_governed
    if predicate and alone and at.has("pronoun") and any(x.label == "days" and "stay" in x.w for x in marks):
        return glue_tail(marks)  # "they stay in fourteen days and | hive five is hot"
    if alone and _was_not_to_be(at):
        return header_tail(marks)  # "… which I did not see coming | fifty six had seven"
    those = len(marks) == 2 and marks[0].label == "pronoun" and "n" in marks[0].v
    if predicate and those and last.label == "date":
        return []  # "pads out all but 4 and 9, those two monday | 12 queenless"
    taken = at.q is not None and at.q.w in _OF_HONEY and not has_verb(marks)  # "a super off 63 reads eighteen percent"
    if is_governed and at.statement.led and complete and particle_ends(marks) and predicate and not taken:
        return []  # "hive six put a super on | hive nine is strong"
    return None


def _only_listed(at: Place, complete: bool, predicate: bool) -> bool:
    """Whether the colonies are a list, behind or before what is said of each of them."""
    marks, last = at.marks, at.marks[-1]
    if not predicate and all(x.label in ("clean", "filler") or x.w in _BEFORE_CLEAN for x in marks):
        return True  # "all clean fifty and fifty one, alcohol wash"
    if complete and _row_of_fact(at) and (last.w == ":" or (last.label == "fact" and ends_in_place(at))):
        return True  # "heavy: 1, 2, 7", "queenless 94 at Ridge"
    if at.q is not None and at.q.w == ":" and all(x.label in THINGS for x in marks):
        return True  # "supers 44, 45: two each", "OAV hive 70: 1 g"
    ends = at.q is None or at.q.label in ("stop", "line", "filler", "cols")
    if complete and last.label == "date" and ends and not predicate and has_verb(marks):
        if any(x.label == "hives" and "n" not in x.v for x in marks):
            return True  # "put the pads on the pond hives last night one through ten"
    # "no honey came off l six, it was too light"
    return last.label == "harvest" and last.w.endswith(" off") and not predicate


def _placed_after_them(at: Place) -> list[Mark]:
    """ "I clipped all three of them | um in l six no eggs": where work on those told of before ends, and after a pause
    something is seen in another.
    """
    lead = prep_lead(at.marks)
    if not lead or lead[0].label != "filler" or len(lead) == len(at.marks):
        return []
    told = person_follows(at.row, at.i) or (at.q is not None and (at.q.label == "fact" or at.q.w in _THERE_IS))
    last = at.marks[-len(lead) - 1]
    closed = last.label == "pronoun" or (last.label == "fact" and at.has("pronoun"))
    return lead if told and closed else []


_THERE_IS = frozenset(["there", "there's", "theres", "it's", "she's"])


def _ends_in_time(marks: list[Mark]) -> bool:
    """Whether the words end in when they are due: "call the inspector in the morning", "buy lids friday"."""
    last = marks[-1]
    return last.label == "date" or (last.label == "w" and last.w in _TIMES_OF_DAY)


_TIMES_OF_DAY = frozenset("morning afternoon evening lunchtime midday noon".split())


_OF_HONEY = frozenset("reads read weighs weighed tests tested".split())
_HERS = frozenset(["queen_work", "queen_noun", "fact"])


_BEFORE_CLEAN = frozenset("all both so and but then also while".split())


_OF_ALL = frozenset(["yard", "every", "agent", "form", "item", "feed"])


def _gets_so_many(at: Place) -> bool:
    """Whether the colonies are the subject of what follows: "h one got two", "seventy gets a gallon"."""
    got = at.q is not None and at.q.w in ("got", "gets", "had", "took")
    return got and at.z is not None and at.z.label in ("number", "amount", "unit", "value")


def _row_of_fact(at: Place) -> bool:
    """ "heavy: 1, 2, 7", "dead: 11": what was found, over a line of the colonies it is said of."""
    return at.statement.opens in ("line", "stop") and all(
        x.label in ("fact", "change", "filler", "comma") or x.w in (":", "-", "–", "•", "*") for x in at.marks
    )


def _was_not_to_be(at: Place) -> bool:
    """Whether plain words with "not" or a question stand before, and something is said of the colonies after them."""
    last = at.marks[-1]
    return (
        (last.label in ("w", "filler") or last.w in ("it", "them", "those"))
        and last.w not in GOVERNORS
        and any(x.label == "cue" and x.v.get("cue") in ("not", "ask") for x in at.marks[:-1])
        and (predicate_follows(at.row, at.i) or person_follows(at.row, at.i))
    )
