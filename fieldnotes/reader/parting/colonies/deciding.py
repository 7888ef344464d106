"""Does a new statement begin at a group of colonies? What is asked of any, first or not."""

from __future__ import annotations

from fieldnotes.reader.mark import CALLS, GIVES, THINGS, Mark
from fieldnotes.reader.parting.about import GOVERNORS, NEW_ONES, done, particle_ends, predicate_follows
from fieldnotes.reader.parting.colonies.first import at_first
from fieldnotes.reader.parting.colonies.more import at_more
from fieldnotes.reader.parting.colonies.subject import FINE, gets_a_thing, subject_after_all
from fieldnotes.reader.parting.governing import governed
from fieldnotes.reader.parting.place import Place, Tail
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.tails.joining import glue_tail, next_along, with_joins


def at_colonies(at: Place) -> Tail:
    """Where a statement begins with the colonies, or None where they go with what is said already."""
    owns = at.q is not None and at.q.w == "'s" and at.z is not None and at.z.label in ("change", "fact")
    if owns and at.has_cue("not") and at.marks[-1].label == "verb":
        return []  # "five i never opened | nine's a deadout"
    if at.m.v.get("told") and not at.cols:
        return None  # "dead are | forty four and sixty", "queenless so far | three and nine"
    if not at.cols and at.marks[-1].w in ("is", "are") and at.marks[-2:-1] and at.marks[-2].label == "fact":
        return None  # "strong are | l two and l five"
    if at.marks[-1].w == ":" and not at.cols and at.marks[0].v.get("cue") == "not":
        return None  # "not washed: | 7 and 8"
    if [m.w for m in at.marks[-2:]] == ["only", ":"] and not at.cols and at.has("fact"):
        return None  # "eggs only: | 42, 43"
    if at.m.v.get("as_said") and not at.cols:
        return None  # "lost three over there | forty four fifty and sixty three"
    if not at.cols and _as_many_as_named(at):
        return None  # "strips in the three hives | l one l two and l three two each"
    if not at.cols and _dead_named_behind(at):
        return None  # "cleaned up the deadouts, eight and eleven"
    if len(at.cols) == 1 and _frames_from(at):
        return None  # "gave 12 three frames of brood from | 11"
    if naming := _called_so(at):
        return naming
    if _listed_after(at):
        return None  # "weak 14, 15, light | 16"
    if (lead := next_along(at.marks)) and len(lead) < len(at.marks):
        return lead  # "put a super on | next one hive five is light"
    if at.marks[-1].w in ("and", "but") and particle_ends(at.marks[:-1]) and predicate_follows(at.row, at.i):
        return at.marks[-1:]  # "hive five put a super on | and hive six is hot"
    if at.m.v.get("hive") and at.q is not None and at.has_cue("plan") and not at.has_any(_WORK) and len(at.marks) > 3:
        told = at.q.w in FINE or predicate_follows(at.row, at.i)
        if told and at.marks[-1].label == "w" and at.marks[-1].w not in _TAKES and not done(at.marks):
            return []  # "needs a new queen she's run out | hive five good"
    if not at.cols and _done_to_it(at.marks) and gets_a_thing(at):
        return []  # "so I split it | l five put two supers on", "splitting it friday | s eight a super and an excluder"
    if lead := _in_this_in_that(at):
        return lead
    if _after_work_on_many(at):
        return []
    is_governed = governed(at.marks, at.m) and not subject_after_all(at)
    return at_more(at, is_governed) if at.cols else at_first(at, is_governed)


def _as_many_as_named(at: Place) -> bool:
    """Whether as many hives as are named here are what the words before them govern ("on the two nucs")."""
    last, many = at.marks[-1], at.marks[-1].v.get("n")
    if last.label != "hives" or many is None or many.value != len(at.m.v["ids"]) or len(at.marks) < 3:
        return False
    return at.marks[-2].w in GOVERNORS or (at.marks[-2].w == "the" and at.marks[-3].w in GOVERNORS)


def _dead_named_behind(at: Place) -> bool:
    """Whether the colonies end what is said, behind the word that some are dead."""
    dead = at.marks[-2] if len(at.marks) > 1 and at.marks[-1].label == "comma" else None
    return dead is not None and dead.v.get("step") == "died" and (at.q is None or at.q.label in ("stop", "line"))


def _frames_from(at: Place) -> bool:
    """Whether a colony got frames, and those are the colonies that they came from."""
    marks = at.marks
    k = len(marks) - (2 if marks[-1].w == "of" and marks[-2].w == "out" else 1)
    if k < _GIVEN or marks[-1].w not in ("from", "of") or marks[k - 1].v.get("number") not in _BROOD:
        return False
    to = marks[k - 3] if marks[k - 2].w == "with" else marks[k - 2]
    return to.label in ("cols", "pronoun") and any(m.w in GIVES for m in marks[: k - 2])


_BROOD = frozenset(["brood_frames", "bee_frames"])
_GIVEN = 3


def _called_so(at: Place) -> list[Mark]:
    """ "pulled a nuc from L6 | and called it N3", "two nucs from twelve | named N1 and N2": the words by which what was
    just made is named.
    """
    k = len(at.marks) - 1 - (at.marks[-1].w in NEW_ONES)
    if k < 1 or at.marks[k].w not in CALLS or at.marks[k - 1].w in _IS:
        return []
    before = at.marks[:k]
    return [*glue_tail(before), *at.marks[k:]] if at.cols or done(before) else []


_IS = frozenset("it's is 's they're are that's was were gets got".split())


_WORK = frozenset(["agent", "form", "item", "feed", "method", "check", "change"])


_TAKES = frozenset("in on to for from of at into with the off".split())


def _done_to_it(marks: list[Mark]) -> bool:
    """Whether the marks end in work on the colony spoken of and its day ("I split it", "requeening it on sunday")."""
    k = len(marks) - 1
    while k > 1 and (marks[k].label == "date" or marks[k].w == "on"):
        k -= 1
    return k > 0 and marks[k].w == "it" and marks[k - 1].label in ("change", "queen_work")


def _in_this_in_that(at: Place) -> list[Mark]:
    """ "in seventy there is eggs | in seventy four no eggs", "pads out of every hive | in nine I saw mice": where what
    was seen stands after the colony it is said of, the word of place before the next colony, with what joins them.
    """
    marks = at.marks
    if marks[-1].w not in _PLACED_IN:
        return []
    if len(marks) > 1 and marks[-2].label == "days" and "stay" in marks[-2].w:
        told = at.q is not None and (at.q.label in ("cue", "fact", "verb") or at.q.w in ("i", "we", "a", "there's"))
        return marks[-1:] if told else []  # "it stays in fourteen days | in s nine i did not put any"
    if not _seen_there(at):
        return []
    seen = at.has("fact")
    if at.cols:
        leads = seen and len(at.cols) == 1 and not _heads_before(marks, at.cols[0])
    elif seen and at.statement.led:
        leads = True
    else:
        leads = not seen and at.has("hives", "every") and at.has_any(THINGS) and done(marks)
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
    if at.cols or not at.has("hives", "every", "rest") or not at.has_any(THINGS):
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
