"""Does a new statement begin at "they", "both", "the tray", "the rest", "they all" or "same"?"""

from __future__ import annotations

from fieldnotes.reader.mark import PERSONS, THINGS, WAYS, Mark, is_others
from fieldnotes.reader.parting.about import AUX, NEW_ONES, done, has_verb, names_made
from fieldnotes.reader.parting.at_things import at_thing
from fieldnotes.reader.parting.left_out import CAUSES, excepted
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.tails.joining import glue_tail, with_joins
from fieldnotes.reader.parting.words import I_WILL, IS_TO, STILL_THERE

_DOES = frozenset(["did", "do", "doing", "done", "finished"])
_THAT_ONE = frozenset(["this one", "that one"])


def at_pronoun(at: Place) -> Tail:
    """At "they", "all three" where they are the subject of what follows."""
    return first_of(
        at,
        (
            _both_are,
            _why_it_was_left,
            _as_it_was,
            _that_one,
            _left_them,
            _read_them,
            _named_them,
            _the_others,
            _so_many,
            _got_for_it,
            _it_has,
            _they_are,
        ),
    )


def _both_are(at: Place) -> Tail:
    """At "both": of the two that are left out, or the two told of last."""
    m, marks, q, cols = at.m, at.marks, at.q, at.cols
    if q is None or not m.w.startswith("both"):
        return None
    if m.w == "both" and q.label == "fact":
        shut = marks[:-1] if marks[-1].label == "comma" else marks
        if excepted(shut) and len(shut[-1].v["ids"]) == 2:
            return marks[len(shut) :]  # "all except 51 and 60, | both weak"
    if (q.label == "fact" or (q.w in AUX and at.z is not None and at.z.label == "fact")) and cols:
        if len(cols[-1].v["ids"]) == 1 and marks[-1].label in ("fact", "filler", "comma", "w"):
            if any(x.label == "fact" for x in marks[marks.index(cols[-1]) :]):
                return glue_tail(marks)  # "nine got a trap and ten has ants | both are strong"
    if m.w == "both" and cols and q.w in ("get", "gets", "got", "need") and at.has("mites", "value", "clean"):
        return []  # "l four and l six had nine and eleven mites | both get strips"
    if m.w == "both" and cols and q.v.get("cue") == "plan" and marks[-1].label in ("number", "fact"):
        return []  # "nine's got seven | both need another box"
    return None


def _why_it_was_left(at: Place) -> Tail:
    """ "forty five i skipped | because it swarmed", "didn't treat nine | since they had supers": what was found is no
    part of what was not done.
    """
    if at.marks[-1].w not in CAUSES or not at.cols or not at.has_cue("not") or at.q is None:
        return None
    told = at.z if at.q.w in AUX or at.q.w == "still" else at.q
    if told is not None and told.w in ("been", "still", "already", "had") and at.row[at.i + 3 : at.i + 4]:
        told = at.row[at.i + 3]
    return glue_tail(at.marks) if told is not None and told.label in _FOUND_THERE else None


_FOUND_THERE = THINGS | {"fact", "change"}


def _as_it_was(at: Place) -> Tail:
    """ "13 dead, | it was alive in february": how a dead one was before."""
    shut = at.marks[:-1] if at.marks[-1].label in ("comma", "filler") else at.marks
    was = at.m.w in ("it", "she", "they") and at.q is not None and at.q.w in ("was", "were", "had")
    died = len(shut) > 1 and shut[-1].v.get("step") == "died"
    return at.marks[len(shut) :] if was and died else None


def _that_one(at: Place) -> Tail:
    """ "out of every hive but 73 | this one I will pull thursday", "both are weak | those two I'm combining"."""
    q, many = at.q, "n" in at.m.v and at.m.w.startswith(("those", "these"))
    if not (many or at.m.w in _THAT_ONE) or q is None:
        return None
    if not (q.w in PERSONS or q.w in IS_TO or (q.label == "cue" and q.w.split()[0] in I_WILL)):
        return None
    closed = at.marks[-1].label in ("cols", "fact", "comma", "filler")
    return glue_tail(at.marks) if closed and (done(at.marks) or excepted(at.marks)) else None


def _left_them(at: Place) -> Tail:
    """ "pads out at heath | left them in nine"."""
    before = at.marks[:-1]
    left = (
        at.marks[-1].w == "left" and at.q is not None and at.q.w in ("in", "on") and at.m.w in ("it", "them", "those")
    )
    return [*glue_tail(before), at.marks[-1]] if left and done(before) else None


def _read_them(at: Place) -> Tail:
    """ "sticky boards went in under six and seven | read them friday"."""
    if at.marks[-1].w not in _READ or at.q is None or at.q.label != "date" or not at.has("method"):
        return None
    before = at.marks[:-1]
    return [*glue_tail(before), at.marks[-1]] if at.m.w in _WHAT_IS_READ and done(before) else None


_READ = frozenset("read count reading counting".split())
_WHAT_IS_READ = frozenset("it them those these".split())


def _named_them(at: Place) -> Tail:
    """ "that one is N6 | it gets a cell"."""
    k = len(at.marks) - len(glue_tail(at.marks))
    named = at.m.w in NEW_ONES and k > 0 and at.marks[k - 1].label == "cols" and names_made(at.marks[:k])
    return at.marks[k:] if named and at.q is not None and at.q.label in ("verb", "queen_work", "cue", "fact") else None


def _the_others(at: Place) -> Tail:
    """At "the other six"."""
    marks, q = at.marks, at.q
    if q is None:
        return None
    others = is_others(at.m) or at.m.w == "the other one"
    if at.has("queen_work") and q.v.get("cue") == "not" and others and at.soft is None and _ends(at):
        return []  # "one was marked red | the other two not"
    if q.label == "date" and at.m.w.startswith(("the other", "those other")) and done(marks):
        return glue_tail(marks)  # "h1-h6 got strips | the other six tomorrow"
    if is_others(at.m) and q.w in PERSONS and at.z is not None and at.z.v.get("cue") == "not":
        if at.z.label == "cue" and (done(marks) or has_verb(marks)):
            return glue_tail(marks)  # "two pads each and | the other five I couldn't reach"
    return None


def _ends(at: Place) -> bool:
    """Whether the mark after the next ends what is told."""
    return at.z is None or at.z.label in ("stop", "line", "comma", "filler")


def _so_many(at: Place) -> Tail:
    """At "those three", and at "they" after a joining word."""
    marks = at.marks
    if "n" in at.m.v and marks[-1].label == "filler" and done(marks):
        return glue_tail(marks)  # "banked all three um | those three get new ones"
    if "n" in at.m.v and at.q is not None and at.q.label == "date" and at.has_cue("except") and done(marks):
        return glue_tail(marks)  # "all but five and six | those two next wednesday"
    return glue_tail(marks) if at.m.w == "they" and at.soft is not None and done(marks) else None


def _got_for_it(at: Place) -> Tail:
    """What they got for what was seen in them, or made up."""
    m, marks, q, z = at.m, at.marks, at.q, at.z
    if q is None or not at.cols:
        return None
    if m.w in ("they", "it") and marks[-1].label == "fact":
        if q.w in ("got", "get", "gets") or (q.label == "each" and z is not None and z.w in ("got", "get")):
            return []  # "12 and 16 are light | they each got two"
    if "n" not in q.v and (q.label == "hives" or q.v.get("noun") == "nuc"):
        if z is not None and z.w.split()[0] in _BOTH_GET and done(marks):
            return glue_tail(marks)  # "split 10 into N2 | both nucs get a cell"
    return None


def _it_has(at: Place) -> Tail:
    """Why it was left out, or what is still in them."""
    m, marks, q = at.m, at.marks, at.q
    if q is None:
        return None
    if m.w == "it" and marks[-1].label == "cols" and q.w in ("has", "had", "is", "was", "'s"):
        if any(x.label == "cue" and x.w.startswith("skip") for x in marks):
            return []  # "skipped nine | it has supers on"
    if m.w in ("it", "she") and marks[-1].label == "date" and at.cols:
        if q.w in ("had", "was", "has") and at.z is not None and at.z.label in _COUNTED and done(marks):
            return []  # "treat forty tomorrow | it had thirty mites"
    if m.w in ("those", "they", "these") and marks[-1].w.startswith(STILL_THERE) and marks[-1].label == "cue":
        if q.label in ("verb", "cue"):
            return []  # "nucs still have theirs | those come out sunday"
    if m.w in ("those", "they", "these") and at.cols and at.has_cue("not") and has_verb(marks):
        due = q.label == "verb" and q.v.get("dir") and at.z is not None and at.z.label == "date"
        if due and marks[-1].label in ("verb", "w", "filler", "comma"):
            return [] if marks[-1].w == "yet" else glue_tail(marks)  # "I haven't pulled yet | those come out friday"
    if m.w == "it" and at.cols and q.v.get("cue") == "not" and q.w.split()[0] in _WOULD_NOT:
        if at.soft is not None and marks[-1].w != "and" and not at.has_cue("not") and (done(marks) or has_verb(marks)):
            return glue_tail(marks)  # "fed every hive except l two, | it doesn't need any"
    return None


_COUNTED = frozenset(["mites", "value", "percent"])


def _on_another_day(at: Place) -> bool:
    """Whether a day to come follows what they do."""
    return any(x.label == "date" and x.v["value"].is_to_come for x in at.row[at.i + 1 : at.i + 7])


def _they_are(at: Place) -> Tail:
    """Where what follows is said of them."""
    m, marks, q = at.m, at.marks, at.q
    if q is None or m.w in ("it", "its", "her", "both"):
        return None
    if m.w == "they" and q.label == "verb" and at.has("date") and _on_another_day(at):
        return glue_tail(marks)  # "queens came today | they go into n one tomorrow"
    complete = done(marks)
    if not (complete or at.cols):
        return None
    if m.w in ("those", "they", "these") and marks[-1].label == "cols" and not (complete or has_verb(marks)):
        return None  # "l sixteen through l thirty, those come out a week from friday"
    out_again = m.w == "they" and complete and q.label == "verb" and q.w.split()[-1] in WAYS
    subject = (
        q.w in AUX
        or q.w in _THEY_ARE
        or (out_again and marks[-1].label == "form")  # "that's fifty strips | they come out november eighth"
        or (
            q.label in ("verb", "fact", "change", "cue")
            and marks[-1].label not in ("verb", "w", "queen_work", "change", "form", "method")
        )
    )
    return glue_tail(marks) if subject else None


_WOULD_NOT = frozenset("doesn't didn't don't won't isn't wasn't hasn't".split())
_THEY_ARE = frozenset("look looked seem need get all stay come go will were keep kept still can could".split())
_BOTH_GET = AUX | {"get", "need", "look", "looked", "took", "go", "want", "will"}


def at_them(at: Place) -> Tail:
    """At what stands for a thing: "the tray", "the ones", "theirs"."""
    m, marks = at.m, at.marks
    tray = at.cols and m.w.startswith("the tray") and marks[-1].label in ("cols", "comma", "filler")
    ones = at.soft is not None and m.w in ("the ones", "ones", "theirs")
    return glue_tail(marks) if tray or (ones and done(marks)) else None


def _so_many_on(at: Place) -> Tail:
    """ "two patties on 3 and 5 | and one on everybody else", "… | one on each of the others": how many the rest got."""
    k = len(at.marks)
    while k > 0 and (at.marks[k - 1].label == "each" or at.marks[k - 1].w in _UPON):
        k -= 1
    upon = at.marks[k:]
    counts = k > 0 and at.marks[k - 1].label == "number" and at.marks[k - 1].v["n"].value < _FEW_EACH
    if (
        not upon
        or upon[-1].w not in _UPON
        or not counts
        or not at.cols
        or not (done(at.marks[: k - 1]) or at.has("amount"))
    ):
        return None
    return [*with_joins(at.marks[: k - 1]), at.marks[k - 1], *upon]


_UPON = frozenset("on in into to for off from of under".split())
_FEW_EACH = 10


def at_rest(at: Place) -> Tail:
    """At "the rest" as the subject of what follows, or as what somebody did or has to do."""
    begins = first_of(at, (_did_the_rest, _rest_on_a_day, _so_many_on))
    if begins is not None:
        return begins
    # "pulled 1 to 12 | the rest come …"
    return glue_tail(at.marks) if _rest_is_subject(at) and _some_told(at) else at_thing(at)


def _did_the_rest(at: Place) -> Tail:
    """ "pads in one to nine at the quarry | did the rest saturday", "… | toby's got the rest to do tomorrow"."""
    verb, before = at.marks[-1], at.marks[:-1]
    does = verb.label == "verb" and verb.w.split()[0] in _DOES
    to_do = verb.w in ("got", "has", "have") and at.q is not None and at.q.v.get("cue") == "plan"
    if (does or to_do) and (done(before) or (at.cols and any(x.v.get("does") == "do" for x in before))):
        return [*glue_tail(before), verb]
    return None


def _rest_on_a_day(at: Place) -> Tail:
    """The rest with a day or a number of their own."""
    q = at.q
    if q is None or not at.cols:
        return None
    if q.label == "date" and not at.has_cue("not") and (at.has("verb") or done(at.marks) or _only_those(at.marks)):
        return glue_tail(at.marks)  # "h1-h6 got strips, | the rest tomorrow"
    if q.label == "number" and (q.v["n"].value == 0 or at.has("number")):
        return glue_tail(at.marks)  # "11 to 20 half a gallon, | rest none needed"
    return None


def _after_rest(at: Place) -> Mark | None:
    """The mark after "the rest", the yard they are in passed over ("the rest of cut bank | comes out")."""
    k = at.i + 1
    while k < len(at.row) and (at.row[k].label == "yard" or at.row[k].w in ("of", "the", "at")):
        k += 1
    return at.row[k] if k < len(at.row) else None


def _rest_is_subject(at: Place) -> bool:
    """Whether what follows is said of the rest."""
    q = _after_rest(at)
    return q is not None and (q.w in AUX or q.w in PERSONS or q.label in ("verb", "cue", "fact", "person"))


def _some_told(at: Place) -> bool:
    """Whether what was told before is complete, and told of some, so that "the rest" are the others."""
    marks, q = at.marks, _after_rest(at)
    if not (at.cols or (at.has("each") and has_verb(marks))):  # "put two in each, | the rest can wait"
        return False
    if q is not None and q.label == "cue" and q.v.get("cue") == "not" and has_verb(marks):
        return True
    if q is not None and q.v.get("cue") == "plan" and at.has("amount") and at.has("each"):
        return True
    if (at.soft is not None or at.statement.opens == "soft") and at.has("number", "amount") and not at.has("verb"):
        return True  # "L13 only one and | the rest get"
    if _only_those(marks):
        return True  # "one to nine are out | the rest come out friday"
    return done(marks) or (has_verb(marks) and not at.has_cue("plan"))


def _only_those(marks: list[Mark]) -> bool:
    """Whether colonies alone are named, or said to be in, on, off or out: "one to nine are out", "s two and s nine";
    also with their day, after others ("1-6 today, | 7-12 thurs, | rest next week").
    """
    if [m.label for m in marks if m.label != "comma"] == ["cols", "date"]:
        return True
    plain = all(
        x.label in ("cols", "comma", "filler") or x.w in ("and", "are", "is", "were", "was") for x in marks[:-1]
    )
    ends = marks[-1].label == "cols" or (len(marks) > 2 and marks[-1].w in WAYS)
    return plain and ends and any(x.label == "cols" for x in marks)


def at_same(at: Place) -> Tail:
    """At "same"."""
    return glue_tail(at.marks) if done(at.marks) else None


def at_every(at: Place) -> Tail:
    """At "every hive" after colonies, "they all" after a number from each."""
    if at.m.w.startswith("they") and at.has("number") and at.marks[-1].label in ("cols", "yard") and at.cols:
        return []  # "three nucs out of nine and two out of ten | they all get a cell"
    named = at.marks[-1] in at.cols and len(at.marks) > 2 and at.marks[-2].w in ("are", "is")
    if at.m.w.startswith("they") and named and at.q is not None and at.q.label in ("verb", "queen_work"):
        return []  # "they are n one n two and n three | they all get queen cells on saturday"
    return glue_tail(at.marks) if at.cols and at.soft is not None and done(at.marks) else None
