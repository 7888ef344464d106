"""Does a new statement begin at a group of colonies?"""

from __future__ import annotations

from fieldnotes.reader.mark import ALL_OVER, THINGS, WAYS, Mark
from fieldnotes.reader.parting.about import (
    GOVERNORS,
    done,
    done_to_what_leads,
    has_verb,
    led_work_ends,
    particle_ends,
    person_follows,
    predicate_follows,
)
from fieldnotes.reader.parting.at_things import hives_gone
from fieldnotes.reader.parting.governing import governed, other_number, points_on, relates
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails import (
    COUNTS,
    another_from,
    glue_tail,
    governing_tail,
    header_tail,
    next_along,
    own_phrase,
    prep_lead,
    with_joins,
    with_number,
    with_prep,
)


def at_colonies(at: Place) -> Tail:
    """Where a statement begins with the colonies, or None where they go with what is said already."""
    owns = at.q is not None and at.q.w == "'s" and at.z is not None and at.z.label in ("change", "fact")
    if owns and at.has_cue("not") and at.marks[-1].label == "verb":
        return []  # "five i never opened | nine's a deadout"
    if at.m.v.get("told") and not at.cols:
        return None  # "dead are | forty four and sixty", "queenless so far | three and nine"
    if at.m.v.get("as_said") and not at.cols:
        return None  # "lost three over there | forty four fifty and sixty three"
    if _listed_after(at):
        return None  # "weak 14, 15, light | 16"
    if (lead := next_along(at.marks)) and len(lead) < len(at.marks):
        return lead  # "put a super on | next one hive five is light"
    if at.marks[-1].w in ("and", "but") and particle_ends(at.marks[:-1]) and predicate_follows(at.row, at.i):
        return at.marks[-1:]  # "hive five put a super on | and hive six is hot"
    if at.m.v.get("hive") and at.q is not None and at.has_cue("plan") and not at.has(*_WORK) and len(at.marks) > 3:
        told = at.q.w in _FINE or predicate_follows(at.row, at.i)
        if told and at.marks[-1].label == "w" and at.marks[-1].w not in _TAKES and not done(at.marks):
            return []  # "needs a new queen she's run out | hive five good"
    if not at.cols and _done_to_it(at.marks) and _gets_a_thing(at):
        return []  # "so I split it | l five put two supers on", "splitting it friday | s eight a super and an excluder"
    if lead := _in_this_in_that(at):
        return lead
    if _after_work_on_many(at):
        return []
    is_governed = governed(at.marks, at.m) and not _subject_after_all(at)
    return _at_more(at, is_governed) if at.cols else _at_first(at, is_governed)


def _done_to_it(marks: list[Mark]) -> bool:
    """Whether the marks end in work on the colony spoken of and its day ("I split it", "requeening it on sunday")."""
    k = len(marks) - 1
    while k > 1 and (marks[k].label == "date" or marks[k].w == "on"):
        k -= 1
    return k > 0 and marks[k].w == "it" and marks[k - 1].label in ("change", "queen_work")


def _gets_a_thing(at: Place) -> bool:
    """Whether what is done to the colonies follows them, or what they get, counted or with its article."""
    q = at.q
    if q is not None and (q.label == "number" or q.w in ("a", "an", "another")):
        q = at.z
    return q is not None and (q.label == "verb" or q.label in THINGS or predicate_follows(at.row, at.i))


def _in_this_in_that(at: Place) -> list[Mark]:
    """ "in seventy there is eggs | in seventy four no eggs", "pads out of every hive | in nine I saw mice": where what
    was seen stands after the colony it is said of, the word of place before the next colony, with what joins them.
    """
    marks = at.marks
    if marks[-1].w not in _PLACED_IN or not _seen_there(at):
        return []
    seen = at.has("fact")
    if at.cols:
        leads = seen and len(at.cols) == 1 and not _heads_before(marks, at.cols[0])
    elif seen and at.statement.led:
        leads = True
    else:
        leads = not seen and at.has("hives", "every") and at.has(*THINGS) and done(marks)
        return [*with_joins(marks[:-1]), marks[-1]] if leads and marks[-2].label in _OF_ALL_DONE else []
    before = at.row[max(0, at.i - _NEAR) : at.i - 1]
    k = next((k for k in range(len(before) - 1, 0, -1) if before[k].label == "cols"), 0)
    return [*with_joins(marks[:-1]), marks[-1]] if leads and k and before[k - 1].w == marks[-1].w else []


_PLACED_IN = frozenset(["in", "on"])
_NEAR = 24
_OF_ALL_DONE = frozenset("yard hives every each date filler amount unit".split())
_TOLD_THERE = frozenset("there there's theres i we she she's it it's no the".split())


def _heads_before(marks: list[Mark], cols: Mark) -> bool:
    """Whether anything that becomes a record is said before the colonies."""
    return any(m.label in HEADS for m in marks[: marks.index(cols)])


def _seen_there(at: Place) -> bool:
    """Whether what was seen in the colonies stands right after them."""
    if at.q is None:
        return False
    if at.q.label == "fact":
        return True
    if at.q.w in ("i", "we") and at.z is not None and at.z.label == "verb":
        return True  # "strips in every hive | on 43 I put two supers"
    return at.q.w in _TOLD_THERE and any(m.label == "fact" for m in at.row[at.i + 2 : at.i + 6])


def _after_work_on_many(at: Place) -> bool:
    """ "reducers on fourteen hives at the quarry | nine had wasps", "every hive has a wrap on | ten is light"."""
    if at.cols or not at.has("hives", "every", "rest") or not at.has(*THINGS):
        return False
    ends = at.marks[-1].label in ("yard", "hives", "every", "rest", "each", "date") or particle_ends(at.marks)
    return ends and predicate_follows(at.row, at.i)


def _listed_after(at: Place) -> bool:
    """Whether bare figures stand straight after a finding that begins the statement, and end it."""
    found = [x for x in at.marks if x.label != "comma"]
    if len(found) != 1 or found[0].label not in ("fact", "change") or not at.m.v.get("bare") or at.m.v.get("hive"):
        return False
    after = at.z if at.q is not None and at.q.label == "comma" else at.q
    return at.m.w[:1].isdecimal() and (after is None or after.label in ("stop", "line", "fact", "change"))


def _at_first(at: Place, is_governed: bool) -> Tail:
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
    if is_governed and complete and marks[-1].label in _OF_ALL and _gets_so_many(at):
        return []  # "put supers on at heath | h one got two"
    if marks[-1].label == "cue" and marks[-1].w in ("not done", "undone") and predicate_follows(at.row, at.i):
        return []  # "so that one's not done | l fifteen had two"
    predicate = predicate_follows(at.row, at.i)
    if predicate and not complete and at.has("yard") and _ends_in_new_place(marks):
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
    if is_governed and at.statement.led and complete and particle_ends(marks) and predicate:
        return []  # "hive six put a super on | hive nine is strong"
    if not predicate and all(x.label in ("clean", "filler") or x.w in _BEFORE_CLEAN for x in marks):
        return None  # "all clean fifty and fifty one, alcohol wash"
    if complete and _row_of_fact(at) and (marks[-1].w == ":" or (marks[-1].label == "fact" and _ends_in_place(at))):
        return None
    if at.q is not None and at.q.w == ":" and all(x.label in THINGS for x in marks):
        return None  # "supers 44, 45: two each", "OAV hive 70: 1 g"
    if is_governed or not complete or _names_whose(at, predicate):
        return None
    return header_tail(marks)


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
    counted = k > 1 and (at.marks[k - 1].label in COUNTS or at.marks[k - 1].label == "percent")
    ahead = k > 1 and at.marks[k - 1].label == "cols" and at.marks[0].label == "clean"  # "all clean 50 and 51 alcohol"
    counted = (counted and at.marks[0].label == "cols") or ahead
    if not counted or not any(x.label == "method" for x in how):
        return False
    seen = at.z if at.q is not None and at.q.w in ("is", "are", "has", "had", "'s") else at.q
    if seen is not None and seen.label in ("fact", "change"):
        return True  # "washed at six half cup alcohol | forty four boiling over": nothing is counted there
    if how[0].label != "method":
        return False
    begun = at.i - (len(at.marks) - k) - 1
    return not any(x.label == "method" or x.label in COUNTS for x in at.row[:begun])


_COLOURS = frozenset("white yellow red green blue dot paint".split())


def _subject_after_all(at: Place) -> bool:
    """Whether the words before do not take the colonies, since something is said of them: "marked her green | hive four
    is honey bound", "emergency cells all over | seventeen's fine".
    """
    last = at.marks[-1]
    if (
        at.q is not None
        and at.q.w == "'s"
        and at.z is not None
        and (at.z.w in _FINE or at.z.label in ("fact", "change"))
    ):
        return True
    if last.label == "filler" and person_follows(at.row, at.i) and done(at.marks) and not at.cols:
        return True  # "marked her blue um | fifty four I couldn't find the queen"
    told = predicate_follows(at.row, at.i) or (at.q is not None and at.q.w in ("she's", "she", "it's", "her"))
    if told and last.label in ("yard", "date") and not at.cols and hives_gone(at.marks):
        return True  # "four nucs died at the pond | n one and n two got fondant"
    if told and last.label == "change" and last.w.split()[-1] in ("deadouts", "deadout", "outs", "out"):
        return True  # "dead outs | forty one is alive"
    if told and last.label == "filler" and at.m.v.get("hive") and done(at.marks):
        return True  # "and I took it all out um | hive thirteen lost her queen"
    if told and last.label == "method" and at.has("mites", "value", "clean"):
        if last.w.split()[0] in ("in", "with") or [x.w for x in at.marks[-3:-1]] == ["on", "the"]:
            return True  # "3 to 5 had three mites each in alcohol | six had nine"
    if last.label == "filler":
        last = next((x for x in reversed(at.marks) if x.label != "filler"), last)  # "marked white um | 49 has beetles"
    told = told or (at.q is not None and at.q.label in ("method", "sample"))
    return told and last.label == "queen_work" and last.w.split()[-1] in _COLOURS


_HERS = frozenset(["queen_work", "queen_noun", "fact"])
_WORK = frozenset(["agent", "form", "item", "feed", "method", "check", "change"])
_FINE = frozenset("good fine okay ok alright great perfect same".split())
_TAKES = frozenset("in on to for from of at into with the off".split())
_BEFORE_CLEAN = frozenset("all both so and but then".split())
_TIMES_OF_DAY = frozenset("morning afternoon evening lunchtime midday noon".split())


def _ends_in_time(marks: list[Mark]) -> bool:
    """Whether the words end in when they are due: "call the inspector in the morning", "buy lids friday"."""
    last = marks[-1]
    return last.label == "date" or (last.label == "w" and last.w in _TIMES_OF_DAY)


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


def _ends_in_place(at: Place) -> bool:
    """ "queenless 94 at Ridge": after the colonies only their yard stands, and the end of what is said."""
    k = at.i + 1
    while k < len(at.row) and (at.row[k].label == "yard" or at.row[k].w in ("at", "in", "the")):
        k += 1
    return k == len(at.row) or at.row[k].label in ("stop", "line", "comma")


def _was_not_to_be(at: Place) -> bool:
    """Whether plain words with "not" or a question stand before, and something is said of the colonies after them."""
    last = at.marks[-1]
    return (
        (last.label in ("w", "filler") or last.w in ("it", "them", "those"))
        and last.w not in GOVERNORS
        and any(x.label == "cue" and x.v.get("cue") in ("not", "ask") for x in at.marks[:-1])
        and (predicate_follows(at.row, at.i) or person_follows(at.row, at.i))
    )


def _names_whose(at: Place, predicate: bool) -> bool:
    """Whether the colonies only say whose the work was that stands complete before them."""
    aside = predicate and at.q is not None and at.q.label == "filler"  # "a super and | 41 next to it has two frames"
    return (
        (_closes_work(at) and not aside)
        or _changed(at, predicate)
        or _queens_of(at, predicate)
        or _round_of(at, predicate)
        or _dose_of(at, predicate)
    )


def _dose_of(at: Place, predicate: bool) -> bool:
    """ "fed a gallon a hive one through nine": who got it."""
    return (
        at.marks[-1].label == "each"
        and not predicate
        and at.has("amount", "unit")
        and not at.has("fact", "mites", "value", "cue", "every", "hives", "pronoun")
        and (not at.has("yard") or bool(at.m.v.get("hive")))
    )


def _closes_work(at: Place) -> bool:
    """ "supers on at the ferry, 1 each, F1-F3 and F5-F8", "strips in, F1-F8 except F5"."""
    nxt = at.q
    if nxt is not None and nxt.label == "filler" and "next" in nxt.w.split()[:2]:
        return False  # "two supers on her and | hive six next door poor thing no eggs"
    return (
        (
            nxt is None
            or nxt.label in ("stop", "line", "comma", "filler", "date", "question", "rest", "cols")
            or nxt.w in ("then", "so")
            or _stays_so_long(nxt, at.z)
            or (nxt.w == "and" and at.z is not None and at.z.label == "cols" and predicate_follows(at.row, at.i + 2))
            or (nxt.w == "and" and at.z is not None and at.z.label in ("method", "sample"))
            or (nxt.w == "and" and at.z is not None and at.z.v.get("tense") == "past" and len(at.m.v["ids"]) > 1)
            or (nxt.w == "and" and at.z is not None and at.z.label == "rest" and at.has("unit", "amount"))
            or (nxt.label == "yard" and not at.has("yard") and _ends_in_place(at))  # "pulled strips 45-52 mill lane"
            or (nxt.v.get("cue") == "except" and len(at.m.v["ids"]) > 1)
            or (nxt.w in WAYS and _ends_in_particle(at))
            or (nxt.label in ("number", "amount", "each") and not at.has("number", "amount", "unit", "each", "verb"))
        )
        and at.has("item", "agent", "form", "feed", "queen_work")
        and not at.has("every", "hives", "fact", "mites", "value")
        and at.marks[-1].label != "filler"
        and not any(x.label == "filler" for x in glue_tail(at.marks))  # "and a trap, oh, and | fifty six next door"
    )


def _stays_so_long(nxt: Mark, then: Mark | None) -> bool:
    """ "strips went in at larks today L1 to L9 | they stay in six weeks": how long is told of what went in."""
    if nxt.label == "pronoun" and nxt.w in ("it", "they", "them"):
        return then is not None and (then.label == "days" or then.w.split()[0] in _STAY)
    return nxt.label == "days"


_STAY = frozenset("stay stays".split())


def _ends_in_particle(at: Place) -> bool:
    """ "Ferry: pads 2 each F1-F8 in 6/3", "F1-F8 out": what was done to them with the things named before."""
    if at.has("verb"):
        return False
    return at.z is None or at.z.label in ("stop", "line", "comma", "date")


def _changed(at: Place, predicate: bool) -> bool:
    """ "moved ten hives … L1 to L10"."""
    marks = at.marks
    head = next((x for x in reversed(marks) if x.label in HEADS), None)
    return (
        head is not None
        and head.label == "change"
        and head.v.get("step") in ("nuc_made", "split", "sold", "bought", "swarm_caught", "moved", "combined")
        and not (
            predicate and (glue_tail(marks) or any(x.label == "pronoun" for x in marks) or marks[-1].label == "date")
        )
        and not (marks[-1].label == "filler" and other_number(marks, len(at.m.v["ids"])))
        and not (predicate and _ends_in_new_place(marks))
    )


def _ends_in_new_place(marks: list[Mark]) -> bool:
    """ "moved six hives from the pond over to the heath | 77 is light": a place of which the roster knows nothing."""
    words = [m.w for m in marks[-4:] if m.label == "w"]
    hives = any(m.label in ("hives", "change") and "n" in m.v for m in marks)
    return hives and "to" in words[:-1] and marks[-1].label == "w" and marks[-1].w.isalpha()


def _queens_of(at: Place, predicate: bool) -> bool:
    """ "marked the queen 12"; but "pinched her | forty six is weak"."""
    marks = at.marks
    last = marks[-1]
    return (
        at.has("queen_work")
        and not at.has("fact", "mites", "value")
        and not glue_tail(marks)
        and last.label != "pronoun"
        and not predicate
        and not (last.label == "queen_work" and last.w.split()[-1] in ("her", "it", "them", "queen"))
    )


def _round_of(at: Place, predicate: bool) -> bool:
    """ "oxalic vapour, round 2, L1-L14, 2 g"."""
    return (
        at.marks[-1].label in ("round", "agent", "form", "each", "unit", "days")
        and not predicate
        and not at.has("fact", "mites", "value", "verb", "cue", "every", "hives", "yard")
    )


def _at_more(at: Place, is_governed: bool) -> Tail:
    """At colonies where the statement has some already."""
    marks, cols, last = at.marks, at.cols, at.marks[-1]
    predicate = predicate_follows(at.row, at.i)
    if predicate and last.w in ("yet", "too", "already", "now") and len(marks) > 2 and marks[-2] is cols[-1]:
        return []  # "i haven't split l twelve yet | l ten has a candy board", "it's in seventeen now | two is weak"
    said = next(x for x in reversed(marks) if x.label != "filler")
    fillers = marks[marks.index(said) + 1 :]  # "l eleven i didn't roll | um l twelve has spotty brood"
    told = predicate or person_follows(at.row, at.i) or (at.q is not None and at.q.w in ("it's", "she's"))
    told = told or (at.has_cue("not") and not at.has(*THINGS) and _gets_a_thing(at))
    closes = said.label in _CLOSES or said.w in ("off", "out") or said.v.get("cue") == "not"
    if told and closes and _told_of_its_own(marks, cols[0]):
        return fillers  # "l eighteen gets pads | l thirteen has four cells", "55 and 56 combined | 44 is dead"
    if _told_anew(at, told, said):
        return fillers
    if fillers and said.label in _SAID_OUT and person_follows(at.row, at.i) and done(marks):
        return fillers  # "gave forty one a litre of syrup um | forty four i shook out"
    if _names_of_made(at):
        return None  # "made two nukes out of nine at the pond today, n four and n five"
    before = [m.label for m in marks[-3:-1] if m.w != "the"]
    own = before[-1:] == ["cols"]  # "n two same | n three still a virgin", "four the same | nine I …"
    if at.q is not None and at.q.w == "to" and at.z is not None and at.z.label == "yard" and at.has("change", "yard"):
        if joins := with_joins(marks):
            return joins  # "moved 71 to the Quarry | and 75 to Larkfield"
    if tail := another_from(marks):
        return tail
    if len(cols) > 1 and any(x.v.get("step") == "nuc_made" for x in marks) and (lead := _made_from_another(at)):
        return lead
    if predicate and _after_count(at):
        return glue_tail(marks)
    if last.label == "date" and predicate and not is_governed and len(marks) > 3:
        since = marks[marks.index(cols[-1]) :]
        if any(x.label == "verb" and x.v.get("does") == "inspect" and x.v.get("tense") != "past" for x in since):
            return []  # "forty nine, checking that again next weekend | fifty no queen"
    if last.label == "same" and not points_on(last) and (predicate or own):
        return []  # "seventy one same thing | seventy three has ten"
    if last.label == "yard" and marks[-len(with_prep(marks[:-1])) - 2 : -1][:1] == cols[-1:] and predicate:
        return []  # "strips out of hive five at the quarry | hive six still has hers"
    if predicate and last.w == "and" and cols[-1] is marks[-2] and at.m.v["ids"] == cols[-1].v["ids"]:
        return marks[-1:]  # "the new half is hive 17 | and 17 gets its cell"
    if last.label == "item" and last.w.endswith("ed") and marks[-2] is cols[-1]:
        return []  # "forty supered | forty one supered and excluder"
    again = len(cols) > 1 and at.m.v["ids"] == cols[-1].v["ids"] and at.has("change") and at.has("fact")
    if not again and relates(marks, at.row, at.i):
        return None
    if (
        last.label == "each"
        and marks[-2].label == "number"
        and any(x.label == "each" for x in marks[: marks.index(cols[0])])
    ):
        return [*with_number(marks[:-1]), last]  # "sponges, 2 each 70 71, | 1 each 75 76"
    if _became_each(at):
        return with_joins(marks)
    if (
        last.w in ("on", "into", "in", "to")
        and marks[-2] is cols[-1]
        and len(marks) > 2
        and marks[-3].w == "from"
        and at.has("item")
    ):
        return None  # "put the excluder from s seven on s nine", "a frame of eggs from forty one to forty six"
    if not is_governed:
        return header_tail(marks)
    if person_follows(at.row, at.i) and (lead := prep_lead(marks)):
        return lead  # "a box on top and | out of l four i took three frames"
    somebody = person_follows(at.row, at.i) and at.z is not None and at.z.label != "cue"
    if (somebody or (predicate and at.q is not None and at.q.label == "fact")) and (lead := _fronted(marks)):
        return lead
    sign = last.w == "in" and len(marks) > 1 and marks[-2].label == "fact"  # "six, chalkbrood in | 73"
    if sign and predicate and cols[0] is marks[0] and marks[1].w in ("i", "we") and at.q is not None:
        sign = at.q.w.split()[0] not in _ONE_HAS  # "l two i saw a virgin in | l six has swarm cells"
    acts = at.q is not None and (bool(at.q.v.get("dir")) or at.q.w == "left")
    walks = acts and _tells_of_work(marks, cols[-1])
    walks = walks or (_had_so_many(at.row, at.i) and cols[-1] in marks[:2])
    if said.label == "w" and said.w in WAYS and (told or walks) and not sign:
        if not governed(marks[: marks.index(cols[0])], cols[0]):
            return fillers
    tail = governing_tail(marks)
    if tail and (phrase := own_phrase(marks)):
        short = not any(x.label in HEADS for x in tail) or tail[0].w == "and"
        seen = tail[0].w == "and" and any(x.label == "fact" for x in phrase) and any(x.label in THINGS for x in tail)
        named = tail[0].w == "and" and any(x.label in THINGS for x in tail[: -len(phrase)])
        hers = any(x.label == "queen_work" and x.w.endswith(" her") for x in tail[: -len(phrase)])
        if (short and len(phrase) > len(tail)) or seen or named or hers or not done(marks[: -len(tail)]):
            return phrase  # "l nine got three frames of comb | coumaphos strips came out of l eleven"
    if len(tail) == len(marks) - 1 and tail[0].label == "fact" and last.w in ALL_OVER and predicate:
        return []  # "l twelve chalkbrood all over | l sixteen has cells": nothing else is told of l twelve
    if tail and tail[0].label == "date" and _day_of_the_plan(at, marks[: -len(tail)], tail):
        return tail[1:]
    if (
        tail
        and tail[0].label == "date"
        and at.q is not None
        and at.q.label == "date"
        and (marks[-len(tail) - 1] in cols or marks[-len(tail) - 1].label == "yard")
    ):
        return tail[1:]  # "out of one to nine on friday | out of ten to twelve this morning": a day for each
    return tail


_ONE_HAS = frozenset("is has was had 's".split())


def _fronted(marks: list[Mark]) -> list[Mark]:
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
    marked = before[-1].w.split()[-1] in _COLOURS  # "requeened two and four blue dot on"
    if before[-1].label == "fact" and not marked and done(before[:-1]):
        ends = False  # "is hot, saw the queen in | l nine"
    return marks[k:] if ends or at == k - 1 else []


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
    counted = q.label in ("number", "sample", "method", "amount") and not at.has("number", "amount")
    if (told or just or counted) and led_work_ends(marks):
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
