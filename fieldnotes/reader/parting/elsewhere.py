"""What is told of other colonies right after what is complete, with no word to join it: a new statement begins."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.row import NEW_TOPIC
from fieldnotes.reader.mark import THINGS, WAYS, Mark
from fieldnotes.reader.parting.about import done, has_verb, led_work_ends, predicate_follows, same_family
from fieldnotes.reader.parting.governing import ONLY_WITH
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.tails.joining import glue_tail
from fieldnotes.reader.parting.tails.phrases import leads_on
from fieldnotes.reader.parting.words import HOW_MUCH

_SEEN = frozenset("fact percent mites value clean each round unit".split())
_BY_HAND = listed("done_by_hand")
DID_ANEW = listed("done_to_hives")


def told_of_others(at: Place) -> Tail:
    """Where the statement has its colonies and is complete, what is said of others right after it, no word between:
    "seventy six is weak | a wash on seventy seven came to two", "one pad each | nine mites in seventy three",
    "sixty one is strong | three supers on fifty and fifty one".
    """
    if at.m.label == "sample":
        return _sample_of_others(at)
    if (dealt := _dealt_to_others(at)) is not None:
        return dealt
    unjoined = at.soft is None and at.m.label in THINGS and bool(at.cols)
    whose = _whose_so_far(at)
    if whose is None and not unjoined:
        return None
    k = _past_thing(at)
    while at.m.label == "method" and k + 1 < len(at.row) and _when(at.row[k]):
        k += 1  # "co2 all morning | forty had nothing"
    follows = at.row[k : k + 3]
    if unjoined and (_on_all(at, k) or _on_list(at, k)):
        own = _article_and_number(at.marks)
        before = at.marks[: len(at.marks) - len(own)]
        return own if before and (_told_to_the_end(before, own) or _so_many_off(before)) else None
    if whose is None:
        return None
    if at.m.label == "method" and follows and follows[0].label == "cols":
        if at.marks[-1].label == "method" and at.has_cue("not") and at.cols and at.soft is None:
            return []  # "l nine i didn't roll | c o two test l four had nine"
        if at.has_any(_THINGS_DONE) and not at.has("method", "mites", "value"):
            return _washes_of_others(at)
        if at.q is not None and at.q.label == "method" and at.has_cue("not", "plan") and at.marks[-1] in at.cols[-1:]:
            return [] if at.soft is None and done(at.marks) else None  # "a roll on l nine | drone brood forked l eight"
    if not _at_others(at, follows, whose):
        return None
    own = _article_and_number(at.marks)
    checked = at.m.label in _CHECKED
    glued = (checked and not (at.soft is not None and at.soft.w == "there")) or _anew(at)
    joins = glue_tail(at.marks[: len(at.marks) - len(own)]) if glued else []
    if own and checked and own[0].label in ("unit", "amount"):
        own = []  # "lactic acid sprayed on three twenty mil | sticky board on one"
    joined_at = len(at.marks) - len(own) - len(joins)
    if joins and joins[0].w == "there" and joined_at and at.marks[joined_at - 1].w in _UP_THERE:
        joins = joins[1:]  # "sixty two died up there | and just one percent on 56"
    tail = [*joins, *own]  # "forty six is light | and just one percent on hive fifty six"
    before = at.marks[: len(at.marks) - len(tail)]
    if not before or not _told_to_the_end(before, tail):
        return None
    if at.m.label in THINGS:
        return tail if _thing_of_others(at, before, tail, whose) else None
    named = before[-1].label == "cols" and (
        [x.w for x in before[-2:-1]] == ["is"] or at.has("change")
    )  # "the other half is sixty three"
    if at.m.label == "fact" and before[-1].label not in _BEFORE_FACT and not named and not led_work_ends(before):
        return None
    if checked and not joins and before[-1] is whose and not (at.has_any(THINGS) or at.has("change")):
        return None  # "on l three nine mites, on l five two": the count of those before
    return tail


def _anew(at: Place) -> bool:
    """Whether "anyway" or the like stands before the mark: what comes is told of something else."""
    return at.soft is not None and at.soft.w in NEW_TOPIC


def _dealt_to_others(at: Place) -> Tail:
    """ "l ten i pinched the old queen | pollen sub a pound each l five and l six": a thing, how much each, to whom."""
    if at.m.label not in THINGS or at.soft is not None or not at.cols:
        return None
    if at.marks[-1].label in ("amount", "ratio") or at.marks[-1].w == "of":
        return None  # "gave 48 to 52 half a gallon of one to one | syrup each, fifty got two combs"
    follows = at.row[at.i + 1 : at.i + 7]
    k = next((k for k, x in enumerate(follows) if x.label == "each"), len(follows))
    if k + 1 >= len(follows) or follows[k + 1].label != "cols" or predicate_follows(at.row, at.i + k + 2):
        return None  # "one gallon of two to one syrup each | fifty one hasn't had any"
    if not all(x.label in HOW_MUCH or x.label in THINGS or x.w in ("a", "of") for x in follows[:k]):
        return None
    if follows[k + 2 : k + 3] and follows[k + 2].label == "each":
        return None  # "two sponges each | s one and s two each got a super"
    own = _article_and_number(at.marks)
    before = at.marks[: len(at.marks) - len(own)]
    return own if before and done(before) and not leads_on(before) else None


def _on_list(at: Place, k: int) -> bool:
    """ "six heavy | fondant nine and ten": whether several colonies stand right behind the thing, and that is all."""
    named = at.row[k] if k < len(at.row) else None
    if named is None or named.label != "cols" or len(named.v["ids"]) < 2:
        return False
    after = at.row[k + 1] if k + 1 < len(at.row) else None
    return after is None or after.label in ("stop", "line", "date", "rest")


def _so_many_off(before: list[Mark]) -> bool:
    """ "two supers off seven, | one off eleven | escapes on the rest": so many more of the thing before."""
    if len(before) < len(_ONE_OFF_SEVEN):
        return False
    one, off, seven = before[-3:]
    return (one.label, off.w in WAYS, seven.label) == _ONE_OFF_SEVEN


_ONE_OFF_SEVEN = ("number", True, "cols")


def _on_all(at: Place, k: int) -> bool:
    """ "l six dead robbed out | reducers on the whole yard": whether the thing goes on or comes off all, where single
    colonies are told of before. After more than two, "all of them" may be those."""
    placed = k < len(at.row) and at.row[k].w in _PLACED
    k += placed
    reach = at.row[k] if k < len(at.row) else None
    if reach is None or not (placed or reach.w.split()[0] in _PLACED):
        return False  # "ten light fondant, | rest okay"
    if reach.label == "pronoun" and reach.w.startswith("both") and at.marks[-1].label in ("value", "clean"):
        return True  # "wash nine three fourteen seven | strips in both"
    if reach.label == "rest" or (reach.label == "cue" and reach.v.get("cue") == "except" and "all" in reach.w.split()):
        return True
    few = sum(len(x.v["ids"]) for x in at.cols) <= _CALLED_BOTH
    return reach.label == "every" and (few or not _OF_ALL.isdisjoint(reach.w.split()))


_CALLED_BOTH = 2
"""So many colonies are both, not all of them."""
_OF_ALL = frozenset("whole every everything everybody yard hives".split())


def _sample_of_others(at: Place) -> Tail:
    """ "61 has no pads yet | half cup alcohol washes sixty one one 62 three": a sample, and how it was checked."""
    if at.q is None or at.soft is not None or not at.cols:
        return None
    lead = _with_article(at.marks)
    before = at.marks[: len(at.marks) - len(lead)]
    if not before or before[-1].w in _OUT_OF:
        return None  # "four mites in three hundred | soap wash on thirteen"
    dealt = before[-1] in at.cols[-1:] and (at.has_any(THINGS) or at.has("change"))
    told = dealt or before[-1].label in _TOLD or before[-1].w in _AFTER_ALL or led_work_ends(before)
    if at.q.label == "method" and told and not at.has("method", "mites", "value") and done(before):
        return lead
    full = at.q.label == "method" and at.q.w not in ONLY_WITH
    if full and at.has("method") and at.has("mites", "value", "percent", "clean"):
        return (
            lead if done(before) else None
        )  # "seven mites on a quick roll | quarter cup alcohol washes n one had two"
    if at.q.label == "method" and before[-1].label == "method" and at.has_cue("not"):
        return lead  # "l eleven couldn't wash | a half cup alcohol wash l nine had two"
    k = at.i + 1 + (at.q.label == "method")
    if k < len(at.row) and at.row[k].w in ("sample", "samples"):
        k += 1
    return lead if done(before) and _at_others(at, at.row[k : k + 2], at.cols[-1]) else None


def _whose_so_far(at: Place) -> Mark | None:
    """The colonies told of so far, or "it" ("looked in it, six cells | …"); None where the mark cannot begin anew."""
    joined = at.soft is not None and at.soft.w not in ("just", "only") and not _anew(at)
    if at.m.label not in _OF_OTHERS or (joined and at.m.label not in _CHECKED) or at.z is None:
        return None
    if cols := at.cols:
        return cols[-1]
    pronouns = [x for x in at.marks if x.label == "pronoun"]
    return pronouns[-1] if any(x.w in ("it", "her") for x in pronouns) else _subject(at)


def _subject(at: Place) -> Mark | None:
    """ "no super on 52 yet | it's queenless | excluders on 53": the word for the colony told of before, where what is
    said of it begins with it.
    """
    first = next((x for x in at.marks if x.label not in ("filler", "comma") and x.w not in ("and", "but", "so")), None)
    if at.statement.opens != "soft" or first is None or first is at.marks[-1]:
        return None
    return first if first.w.split()[0] in _IT else None


_IT = frozenset("it it's its she she's".split())


_OUT_OF = frozenset("in of from per out".split())


def _with_article(marks: list[Mark]) -> list[Mark]:
    """The article at the end of the marks: "the same quarter cup", "a three hundred bee"."""
    k = len(marks)
    while k and (marks[k - 1].w in ("a", "an", "the", "same", "the same", "another") and marks[k - 1].label != "cols"):
        k -= 1
    return marks[k:]


def _washes_of_others(at: Place) -> Tail:
    """ "46 and 49 got a kilo of fondant each | washes fifty one five": checks after what was told of others."""
    lead = [] if at.marks[-1].label in ("unit", "amount") else _article_and_number(at.marks)
    before = at.marks[: len(at.marks) - len(lead)]
    if not before or not done(before):
        return None
    dealt = before[-1] in at.cols[-1:] and at.has_any(THINGS)  # "strips went in 50 to 55 | co2 all morning 40 had none"
    return lead if dealt or before[-1].label in _TOLD or before[-1].w in _AFTER_ALL else None


def _at_others(at: Place, follows: list[Mark], whose: Mark) -> bool:
    """Whether colonies follow to which the thing at the mark belongs, others or the same told of anew."""
    if len(follows) < 2 or follows[0].w not in _PLACED or follows[1].label not in ("cols", "hive"):
        return False
    if at.m.label == "fact" and len(follows) > 2 and follows[2].w in ("i", "we"):
        return False  # "seven frames of brood, out of l four | i took three"
    same = follows[1].v.get("ids") == whose.v.get("ids", ())
    return not (same and (at.m.label in _CHECKED or same_family(at.marks, at.m)))


def _told_to_the_end(before: list[Mark], tail: list[Mark]) -> bool:
    """Whether the marks before the tail are complete, and no word at their end leads on to it."""
    last = before[-1]
    led = bool(tail) and tail[0].label == "verb"  # "ants under the lid | did a wash on seventy six"
    loose = last.label in _LOOSE or (last.label == "w" and not led and leads_on(before))
    there = last.w == "there" and len(before) > 1 and before[-2].w in _UP_THERE
    closed = there or last.w in _AFTER_ALL or _gone(before) or _is_done(before) or led_work_ends(before)
    return (not loose or closed) and done(before)


def _gone(before: list[Mark]) -> bool:
    """ "forty seven one super off | strips out of fifty": whether the marks end in the way a thing went."""
    return before[-1].w in ("off", "out")


def _thing_of_others(at: Place, before: list[Mark], tail: list[Mark], whose: Mark) -> bool:
    """Whether the thing at the mark is told of the others alone, and not dealt out to all that are named."""
    if not same_family(at.marks, at.m) and (_gone(before) or before[-1].label in _TOLD or led_work_ends(before)):
        return True  # "s two got a super | strips in s one"
    if at.has("change") and (len(at.cols) > 1 or len(whose.v.get("ids", ())) > 1):
        return True  # "s eight got split into s nine | a wafer in s twelve"
    if before[-1].label == "method" and at.has_cue("not"):
        return True  # "l nine i didn't roll | oxalic on l one"
    return any(m.label in ("number", "amount") for m in tail) and before[-1] is not whose


_CHECKED = frozenset(["mites", "percent", "method"])
_LOOSE = frozenset(["verb", "cue", "person", "comma", "filler"])
"""Labels at the end of a statement that lead on to what follows."""
_BEFORE_FACT = frozenset("fact change queen_work item feed form each".split())
_THINGS_DONE = THINGS | {"fact"}
_AFTER_ALL = frozenset("yet already too again now though".split())
_OF_OTHERS = frozenset("method mites percent item agent form feed fact amount".split())
_TOLD = frozenset("item agent form feed fact change each amount mites percent value".split())
_PLACED = frozenset("on in off of for at under from into to onto".split())
_COUNTED = frozenset("had has was is at to came gave".split())


def _when(m: Mark) -> bool:
    """Whether the mark is of a time: "all morning", "yesterday"."""
    return m.label == "date" or m.w.split()[-1] in ("all", "morning", "afternoon", "day")


def _so_many_of_it(m: Mark, after: Mark) -> bool:
    """Whether the mark is how many of a thing, or the thing that is counted so ("one | strip | each")."""
    return (m.label in ("number", "unit") and after.label in ("form", "each")) or (
        m.label == "form" and after.label == "each"
    )


def _past_somebody(row: list[Mark], k: int) -> int:
    """ "thymol gel | i have put | in seventy through 75": the index after who put or took it, or `k`."""
    if k >= len(row) or row[k].w not in ("i", "we", "i've", "we've"):
        return k
    n = k + 1
    while n < len(row) and row[n].w in ("have", "just", "already", "also"):
        n += 1
    return n + 1 if n < len(row) and row[n].label == "verb" and row[n].v.get("dir") else k


def _past_thing(at: Place) -> int:
    """The index after the thing at the mark, with its form, sample or way: where the other colonies are due."""
    k = at.i + 1
    if at.m.label == "method" and at.q is not None and at.q.label == "sample":
        k += 1  # "a sugar roll half cup on seventy two came out six"
    elif at.m.label == "method" and at.q is not None and at.q.label == "method":
        k += 1  # "drone brood forked on l eight"
    if at.m.label == "amount":
        while k < len(at.row) and (at.row[k].label in ("feed", "ratio") or at.row[k].w == "of"):
            k += 1  # "a gallon of syrup in thirteen"
    while at.m.label == "agent" and k < len(at.row) and at.row[k].label == "form":
        k += 1
    if k + 1 < len(at.row) and at.row[k].w in ("out", "off") and at.row[k + 1].w == "of":
        k += 1
    k = _past_somebody(at.row, k) if at.m.label in THINGS else k
    while k + 1 < len(at.row) and at.row[k].w in ("over", "up", "down", "back") and at.row[k + 1].w in _PLACED:
        k += 1  # "robbing over at seventy two"
    if at.m.label in ("agent", "form"):
        while k + 1 < len(at.row) and (at.row[k].label == "round" or _so_many_of_it(at.row[k], at.row[k + 1])):
            k += 1  # "hop strips second round one strip each in l twenty one"
        while k < len(at.row) and (at.row[k].label == "each" or (at.row[k].v.get("dir") == "in" and k > at.i + 1)):
            k += 1  # "two strips apiece went in fifty through fifty five"
    return k


def _is_done(marks: list[Mark]) -> bool:
    """ "and that's the row done | the wash on 51 …": whether the marks end in "done" behind what is over."""
    if len(marks) < 2 or marks[-1].w != "done":
        return False
    return marks[-2].label in ("w", "noun", "item") and marks[-2].w not in _HAVE_DONE


_UP_THERE = frozenset("up over out in down".split())
_HAVE_DONE = frozenset("i we have i've we've and then also just had".split())


def _article_and_number(marks: list[Mark]) -> list[Mark]:
    """The number or article at the end of the marks, small words before it with it ("just one", "a", "the")."""
    k = len(marks)
    counted = k > 1 and (marks[k - 2].label == "method" or marks[k - 2].w in _COUNTED)  # "rolled none", "had nine"
    if k and marks[k - 1].label in ("number", "amount", "unit", "ratio") and not counted:
        k -= 1
    while k and marks[k - 1].label == "w" and marks[k - 1].w in ("a", "an", "the", "just", "only", "another"):
        k -= 1
    if k and marks[k - 1].label == "verb" and marks[k - 1].v.get("does") == "do" and not _is_done(marks[:k]):
        k -= 1  # "did a wash on seventy six"
        if k and marks[k - 1].w in ("i", "we"):
            k -= 1
    return marks[k:]


def checked_later(at: Place) -> bool:
    """ "strips in 9 and 12 two each | wash them in three weeks", "two each | recheck mites on those in a month"."""
    if at.m.label not in ("method", "check") or at.soft is not None or at.marks[-1].label not in ("each", "every"):
        return False
    if at.m.w.split()[0] not in _TO_CHECK or at.has("method", "check") or not done(at.marks):
        return False
    for x in at.row[at.i + 1 : at.i + 8]:
        if x.label in ("stop", "line", "comma"):
            return False
        if x.label == "date":
            return bool(x.v["value"].is_to_come)
    return False


_TO_CHECK = listed("checks_later")


def worked_elsewhere(at: Place) -> Tail:
    """At work done, where the marks are complete and no word joins it to them: what is done to other colonies."""
    m, marks = at.m, at.marks
    if (lead := _works_on_its_own(at)) is not None:
        return lead
    if at.soft is not None:
        return None
    if not at.cols and at.q is not None and at.q.label == "cols" and marks[-1].label == "fact" and _subject(at):
        return []  # "nine i left | it's too weak | split ten and eleven"
    if m.w in _BY_HAND and not at.cols and _got_thing(marks):
        return []  # "every colony at wens got a wrap | put a shim on seventy three"
    if _after_all(at) if not at.cols else (m.w in _BY_HAND and _by_hand(at)):
        return []
    if m.label == "change" and m.w.split()[0] in DID_ANEW and [x.label for x in marks[-2:]] == ["each", "date"]:
        if at.cols and done(marks[:-1]):
            return marks[-1:]  # "a pound each | last night moved six hives"
    if m.label == "form" and m.v.get("treats") and led_work_ends(marks):
        return []  # "l ten i only took the wraps off | dribbled oxalic on l two"
    if at.cols and m.label in ("queen_work", "change") and _done_elsewhere(at):
        return []  # "ants under s three and s six | grafted thirty eight out of s two"
    someone = marks[-1:] if marks[-1].w in ("i", "we") else []
    if m.label == "verb" and at.cols and (someone or m.w.split()[0] in ("i", "we")) and _object_near(at):
        if m.v.get("tense") == "past" and done(marks[: len(marks) - len(someone)]) and not object_first(marks):
            return someone  # "41 had four mites | i put wraps on forty through forty four"
    if m.label in ("queen_work", "change") and len(marks) > 2 and at.has("item", "form"):
        if marks[-1].w in WAYS and marks[-2].w in ("is", "'s", "are"):
            return []  # "fifty one's excluder is off | introduced a queen"
    if m.w in _BY_HAND and marks[-1].label in _SEEN and at.q is not None and done(marks):
        others = any(x.label == "cols" for x in at.row[at.i + 1 : at.i + 8])
        if others and (at.q.label in ("number", "amount", "cols") or at.q.w in ("a", "an", "the", "some")):
            return []  # "forty five calm, nine frames of bees | put a super on forty four"
    return None


def _works_on_its_own(at: Place) -> Tail:
    """ "s two got a super | marked the queen in s three", "… a pint of syrup | i introduced a queen to s three": work
    that has its own object, told of other colonies after what is complete; the thing before it is not its subject.
    """
    marks = at.marks
    someone = marks[-1:] if marks[-1].w in ("i", "we") else []
    before = marks[: len(marks) - len(someone)]
    if not at.cols or not before or not (at.soft is None or (someone and at.soft is someone[0])):
        return None
    placed = before[-1] is at.cols[-1] and at.m.label == "queen_work" and at.has_any(THINGS)
    closed = (
        placed
        or before[-1].label in _GIVEN
        or led_work_ends(before)
        or (before[-1].label == "cue" and not leads_on(before))
    )
    befell = at.m.v.get("step") in ("died", "swarmed")
    if (
        not closed
        or at.m.label not in ("verb", "queen_work", "change")
        or befell
        or at.m.w.split()[0] in _MOVES
        or not _own_object(at)
    ):
        return None
    leads = (
        placed
        or at.m.label == "change"
        or next((m for m in before if m.label != "filler" and m.w not in _LEADS_IN), before[0]) is at.cols[0]
        or before[-1].label == "cue"
        or led_work_ends(before)
    )
    return someone if leads and done(before) else None


_LEADS_IN = frozenset("so and then but".split())
_GIVEN = frozenset("item agent form feed amount unit each".split())
_MOVES = frozenset("went goes go came comes come is are was were got gets get".split())


def _own_object(at: Place) -> bool:
    """Whether the work has its object with it or right after it, and colonies soon after that."""
    q = at.q
    if q is None or not (at.m.label == "verb" or at.m.v.get("step")):
        return False
    inside = at.m.label == "queen_work" and at.m.w.split()[-1] in ("queen", "q", "her", "cell", "cells")
    here = (
        q.label in _GIVEN
        or (q.label == "fact" and (at.m.label == "queen_work" or "n" in q.v))
        or q.label in ("number", "cols", "queen_noun", "hives")
        or q.w in ("a", "an", "the", "some")
    )
    return (inside or here) and any(x.label == "cols" for x in at.row[at.i + 1 : at.i + 11])


def has_own_object(at: Place) -> bool:
    """Whether hives are joined, sold or split, or something is taken, of which the thing before is no subject."""
    ends = at.marks[-1].label in _GIVEN or at.marks[-1].w in ("me", "us")
    ends = ends or any(m.w == "from" for m in at.marks[-3:-1])  # "got two combs from the truck | pinched"
    works = at.m.label == "change" and at.m.v.get("step") not in ("died", "swarmed")
    if (
        works
        and at.cols
        and ends
        and at.m.w.split()[0] == "took"
        and any(x.label == "cols" for x in at.row[at.i + 1 : at.i + 4])
    ):
        return True  # "got an excluder and two supers | took a nuc off 62"
    ends = ends or (works and at.marks[-1].label in ("date", "same_day") and at.has_cue("plan"))
    works = works or at.m.label == "queen_work" or at.m.w in ("took", "gave")
    return bool(at.cols) and ends and works and _own_object(at)


def _by_hand(at: Place) -> bool:
    """Whether what is put on, given or taken goes to or comes from other colonies than those that lead."""
    m, marks, last = at.m, at.marks, at.marks[-1]
    if last.label in ("method", "form", "check") and at.has_cue("not") and marks[0] is at.cols[0] and _object_near(at):
        return True  # "l twenty i didn't roll | pulled the sponges out of l one"
    if not done(marks):
        return False
    if last.label in ("amount", "feed", "item") and has_verb(marks) and not at.has_cue("not", "plan"):
        if _object_near(at):
            return True  # "l nine got a patty and a half | put wet supers back on l five"
    if m.w in ("gave", "fed"):
        if at.q is not None and at.q.label == "cols":
            return True  # "two quarts apiece of syrup in s one to s eight | gave s ten a tray"
    if m.w in ("pulled", "took", "put") and last.w in ("off", "out") and at.has("item", "form"):
        # "forty seven one super off | pulled the strips from forty three"
        return (not has_verb(marks) or led_work_ends(marks)) and any(x.label == "cols" for x in at.row[at.i : at.i + 8])
    return False


def _got_thing(marks: list[Mark]) -> bool:
    """Whether the marks end in a thing that somebody got, with its article or number."""
    k = len(marks) - 1
    if k < 2 or marks[k].label not in THINGS:
        return False
    k -= 1
    while k and (marks[k].label == "number" or marks[k].w in ("a", "an", "another")):
        k -= 1
    return marks[k].label == "verb" and marks[k].w in ("got", "gets", "get")


def _after_all(at: Place) -> bool:
    """ "feeders off at wens all of them | put a brood box on seventy one", "wraps off every hive | requeened nine":
    work on a colony, after what was done to all of a yard with no verb.
    """
    m, last = at.m, at.marks[-1]
    looked = m.v.get("does") in ("inspect", "treat") and m.v.get("tense") == "past"
    if m.label == "verb" and m.w not in _BY_HAND and not looked:
        return False
    if not (last.label in _ENDS_ALL or last.w in WAYS) or not at.has_any(THINGS):
        return False
    if has_verb(at.marks) or not done(at.marks):
        return False
    if not any(x.w in WAYS or x.label in ("each", "number") for x in at.marks):
        return False
    if m.label != "verb" or looked or (at.q is not None and at.q.label == "cols" and m.w in ("gave", "fed")):
        return any(x.label == "cols" for x in at.row[at.i + 1 : at.i + 5])
    follows = at.row[at.i + 1 : at.i + 9]
    k = next((k for k, x in enumerate(follows) if x.label == "cols" or x.label in _OVER), 0)
    return k > 1 and follows[k].label == "cols" and follows[k - 1].w in _PLACED  # "put a shim on seventy three"


_OVER = frozenset("stop line verb cue comma".split())
_ENDS_ALL = frozenset("every yard each date".split())


def _object_near(at: Place) -> bool:
    """Whether a thing and then colonies of its own follow the verb soon."""
    follows = at.row[at.i + 1 : at.i + 9]
    k = next((k for k, x in enumerate(follows) if x.label in THINGS), len(follows))
    return any(x.label == "cols" for x in follows[k:])


def _done_elsewhere(at: Place) -> bool:
    """Whether work on queens or colonies, told of colonies of its own, follows what was seen in others."""
    words = at.m.w.split()
    if words[0] not in DID_TO_QUEENS | DID_ANEW | {"took"}:
        return False
    if led_work_ends(at.marks):
        far = 3 if "her" in words else 8
        return any(x.label == "cols" for x in at.row[at.i + 1 : at.i + far])  # "51 i took the lid off | marked her 54"
    if "her" in words or not at.has_any(_SEEN):
        return False
    its_kind = len(at.marks) > 1 and at.marks[-1].w == "one" and at.marks[-2].label in _SEEN  # "is the weak one"
    if at.marks[-1] is not at.cols[-1] and at.marks[-1].label not in _SEEN and not its_kind:
        return False
    return any(x.label == "cols" for x in at.row[at.i + 1 : at.i + 8]) and done(at.marks)


DID_TO_QUEENS = listed("done_to_queens")


def object_first(marks: list[Mark]) -> bool:
    """Whether all that stands before "i have" at the end is what was put in or taken out."""
    lead = list(marks)
    while lead and lead[-1].label == "w" and lead[-1].w in ("i", "we", "have", "i've", "we've", "'ve", "just"):
        lead.pop()
    things = [x for x in lead if x.label in ("agent", "form", "item")]
    # "I'm at larks and the pads I've taken out"
    plain = all(x.label in _AT_A_YARD or x.w in _BEING_THERE for x in lead)
    return plain and bool(things) and len(lead) < len(marks)


_AT_A_YARD = frozenset(["agent", "form", "item", "filler", "comma", "yard"])
_BEING_THERE = frozenset("the those these and i am i'm we we're are at here in now so".split())
