"""Does a statement begin at the first colonies since the last one began?"""

from __future__ import annotations

from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.parting.about import GOVERNORS, done, has_verb, particle_ends, person_follows, predicate_follows
from fieldnotes.reader.parting.colonies.whose import ends_in_new_place, ends_in_place, names_whose
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.tails.headers import header_tail
from fieldnotes.reader.parting.tails.joining import glue_tail, prep_lead


def at_first(at: Place, is_governed: bool) -> Tail:
    """At the first colonies of a statement."""
    marks, complete = at.marks, done(at.marks)
    if complete and len(marks) > 3 and marks[-1].w in ("in", "on") and marks[-2].label == "number":
        if marks[-3].label in ("yard", "every") and at.has("every"):
            return marks[-2:]  # "a trap in every hive at the sawmill | two in s nine"
    if complete and person_follows(at.row, at.i) and (lead := prep_lead(marks)) and len(lead) < len(marks):
        before = marks[-len(lead) - 1]
        if before.label == "each" or (before.label == "date" and marks[-1].w == "in"):
            return lead  # "new queen gets introduced there thursday | um in n five i released one"
    if complete and at.statement.opens == "soft" and at.has("fact") and person_follows(at.row, at.i):
        if (lead := prep_lead(marks)) and not lead[0].v and marks[-len(lead) - 1].label == "fact":
            return lead  # "i see no eggs | and on l fourteen i put a super"
    if is_governed and (complete or has_verb(marks)) and (lead := _placed_after_them(at)):
        return lead
    if is_governed and complete and marks[-1].label in _OF_ALL and _gets_so_many(at):
        return []  # "put supers on at heath | h one got two"
    if marks[-1].label == "cue" and marks[-1].w in ("not done", "undone") and predicate_follows(at.row, at.i):
        return []  # "so that one's not done | l fifteen had two"
    predicate = predicate_follows(at.row, at.i)
    if predicate and not complete and at.has("yard") and ends_in_new_place(marks):
        return []  # "six hives from the pond over to the heath | seventy seven is light"
    if not complete and not is_governed and marks[-1].w == "and" and at.has_cue("plan") and at.has("date"):
        if person_follows(at.row, at.i):
            return glue_tail(marks)  # "need to call the inspector monday and | s seven I looked hard"
    dealt = has_verb(marks) or at.has("each", "every")
    if marks[-1].label == "yard" and complete and predicate and dealt and at.has(*THINGS, "amount"):
        return []  # "pulled the strips at cut bank | fifty two has chalkbrood"
    if not complete and not is_governed and marks[-1].w in ("and", "that") and predicate and at.has("date"):
        return glue_tail(marks)  # "cut the boards by friday and that | hive three is a dead out"
    if not complete and not is_governed and _ends_in_time(marks):
        owned = predicate or (at.q is not None and at.q.w in ("the", "a") and at.z is not None and at.z.label in _HERS)
        if owned and (at.has_cue("plan") or any(x.label == "verb" and x.v.get("tense") == "ing" for x in marks)):
            return []  # "it has to go in a full box this week | n four no queen seen"
    if complete and marks[-1].w in ("that's", "thats") and at.has(*THINGS):
        return None  # "reducers on that's one through eighteen"
    if complete and marks[-1].w in ("that's", "thats") and at.has("fact") and not at.has("hives", "every", "rest"):
        if at.q is None or at.q.label in ("stop", "line"):
            return None  # "swarm cells at mill lane, that's 44 and 46"
    if marks[-1].label == "thing" and marks[-1].w.endswith("ones") and at.has("fact"):
        return None  # "light ones two five and nine"
    if marks[-1].w in ("just", "only") and len(marks) > 1 and marks[-2].label == "fact" and not predicate:
        return None  # "empty just fifty eight"
    if (
        predicate
        and not complete
        and not is_governed
        and at.has("pronoun")
        and any(x.label == "days" and "stay" in x.w for x in marks)
    ):
        return glue_tail(marks)  # "they stay in fourteen days and | hive five is hot"
    if not complete and not is_governed and _was_not_to_be(at):
        return header_tail(marks)  # "… which I did not see coming | fifty six had seven"
    if (
        predicate
        and marks[-1].label == "date"
        and marks[0].label == "pronoun"
        and "n" in marks[0].v
        and len(marks) == 2
    ):
        return []  # "pads out all but 4 and 9, those two monday | 12 queenless"
    taken = at.q is not None and at.q.w in _OF_HONEY and not has_verb(marks)  # "a super off 63 reads eighteen percent"
    if is_governed and at.statement.led and complete and particle_ends(marks) and predicate and not taken:
        return []  # "hive six put a super on | hive nine is strong"
    if not predicate and all(x.label in ("clean", "filler") or x.w in _BEFORE_CLEAN for x in marks):
        return None  # "all clean fifty and fifty one, alcohol wash"
    if complete and _row_of_fact(at) and (marks[-1].w == ":" or (marks[-1].label == "fact" and ends_in_place(at))):
        return None
    if at.q is not None and at.q.w == ":" and all(x.label in THINGS for x in marks):
        return None  # "supers 44, 45: two each", "OAV hive 70: 1 g"
    if marks[-1].label == "harvest" and marks[-1].w.endswith(" off") and not predicate:
        return None  # "no honey came off l six, it was too light"
    if is_governed or not complete or names_whose(at, predicate):
        return None
    return header_tail(marks)


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
