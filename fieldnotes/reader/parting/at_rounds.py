"""Does a new statement begin at "the second round", "next one" or "the first"?"""

from __future__ import annotations

from fieldnotes.reader.parting.about import done
from fieldnotes.reader.parting.at_things import at_thing
from fieldnotes.reader.parting.place import Place, Tail, first_of
from fieldnotes.reader.parting.tails.joining import glue_tail, with_joins
from fieldnotes.reader.parting.tails.numbers import with_number
from fieldnotes.reader.parting.words import CLOSED

_IS_ON = frozenset(["is", "'s", "goes"])


def at_round(at: Place) -> Tail:
    """At "the second round" as a subject."""
    begins = _round_of_its_own(at)
    if begins is not None:
        return begins
    the = at.marks[-1:] if at.marks[-1].w == "the" else []
    before = with_joins(told := at.marks[: len(at.marks) - len(the)])
    found = len(told) > len(before) and told[len(told) - len(before) - 1].label in ("fact", "change")
    if found and (at.soft is None or at.soft.w == "and") and done(at.marks) and _has_day_to_come(at):
        return [*before, *the]  # "s eleven dead | and the second round of oxalic a week from friday"
    closed = at.marks[-1].label in ("each", "every", "cols") or (at.has("days") and at.marks[-1].label in CLOSED)
    if at.soft is None and not at.has("round") and at.q is not None and closed:
        return [] if _is_later(at) and done(at.marks) else None
    return first_of(at, (_next_round, _joined_round))


def _round_of_its_own(at: Place) -> Tail:
    """A round with its article, where what follows is told of it."""
    q = at.q
    article = at.marks[-1:] if at.marks[-1].w in ("the", "a") else []
    before = at.marks[: len(at.marks) - len(article)]
    counted = at.soft is None and q is not None and q.w == "of" and bool(before)
    if counted and before[-1].label in ("mites", "value", "number") and at.cols and done(before):
        return article  # "twenty three had eleven | second round of hop strips goes in saturday"
    if at.soft is None and at.has("round") and before and before[-1].label in CLOSED and done(before):
        return article  # "the first round came out today, every hive | the second round goes in friday"
    if q is not None and q.w.startswith("due") and at.has("date") and done(at.marks):
        return article  # "gel in h1-h6 today | second tray due the 24th"
    if q is not None and q.w in _IS_ON and at.z is not None and at.z.label == "date" and done(at.marks):
        return article  # "all but nine, the battery died on that one | third go is next wednesday"
    return None


def _has_day_to_come(at: Place) -> bool:
    """Whether a day to come follows the round and what it is of."""
    goes = False
    for x in at.row[at.i + 1 : at.i + 8]:
        if x.label == "date":
            return bool(x.v["value"].is_to_come) or goes
        goes = goes or x.w.split()[0] in _GOES
        if x.label not in ("agent", "form", "w", "verb", "yard"):
            return False
    return False


_GOES = frozenset("goes go comes come".split())


def _is_later(at: Place) -> bool:
    """ "fifty mils a hive | second round is in a week", "50 g each | second dose on the 28th", "today, 50 g each |
    second dose friday".
    """
    q = at.q
    if q is None or q.label != "date":
        return q is not None and q.w in _IS_ON
    day = q.v["value"]
    if at.has("date"):
        return bool(day.form == "weekday" or day.is_to_come)
    return q.w.startswith("on ") or bool(day.is_to_come)


def _next_round(at: Place) -> Tail:
    """The next round, after the one before or what was found of it."""
    if at.q is not None and at.q.label == "date" and at.soft is not None and at.has("round") and at.has("date"):
        return with_joins(at.marks)  # "heath first round monday and | second round friday"
    if at.strong and at.has("fact") and not at.has("cols", "agent", "form") and done(at.marks):
        return with_joins(at.marks)  # "the trays were empty so | second round for S1 to S6"
    return None


def _joined_round(at: Place) -> Tail:
    """A round after a comma or a joining word, where a treatment was told of."""
    q = at.q
    if at.soft is None or q is None or not at.has("agent", "form", "temp") or not done(at.marks):
        return None
    again = at.has("round") and q.label in ("filler", "date")
    swapped = at.strong and q.w in ("in", "straight") and any(x.w in ("out", "off") for x in at.marks)
    later_day = q.label == "date" and q.v["value"].form == "weekday"
    later = q.label == "date" and q.v["value"].is_to_come  # "…, 2nd round in a week"
    opens = (
        again  # "that's the first round um | second round next wednesday"
        or swapped
        or (later_day and at.strong and at.has("date"))  # "vaped heath tuesday, | second round friday"
        or (later and at.strong and not at.has("cue"))
        or q.label in ("verb", "cue")
        or q.w in ("is", "i", "goes", "of")
    )
    return with_number(at.marks) if opens else None


def at_again(at: Place) -> Tail:
    """ "vaped heath | next one Sunday"."""
    return glue_tail(at.marks) if done(at.marks) or at.has("round") else None


_IN_ONE = frozenset(["in", "from", "on"])


def at_ordinal(at: Place) -> Tail:
    """ "didn't write down which hives | the first had two": after what was not done or asked, counts begin."""
    the = at.marks[-1:] if at.marks[-1].w == "the" else []
    if any(x.w in _IN_ONE for x in at.marks[-2:]) and at.has("mites", "value", "clean"):
        return None  # "four mites in the first and none in the second"
    if at.q is not None and at.q.label == "form" and at.z is not None and done(before := at.marks[: -len(the) or None]):
        if at.z.label == "date" or at.z.w in ("is", "goes", "comes") or at.z.v.get("cue") == "plan":
            return [*with_joins(before), *the]  # "one pad each cause it's hot | second pad a week from monday"
    if at.q is not None and at.q.label == "form" and at.has("form") and at.has("ordinal", "round") and not the:
        if at.marks[-1].label in ("yard", "cols", "every", "date") and done(at.marks):
            return []  # "second pads in at Heath | first pads out same time"
    if at.q is not None and at.q.w == "one" and at.z is not None and at.z.w in ("'s", "is", "goes"):
        day = at.row[at.i + 3] if at.i + 3 < len(at.row) else None
        if day is not None and day.label == "date" and at.has("agent", "form") and done(at.marks):
            return with_joins(at.marks)  # "that's the first vape done at heath | second one's on friday"
    counts = at.q is not None and at.q.w in ("had", "was", "got", "came", "gave")
    if not counts or not at.has_cue("not", "ask") or at.has("value", "mites", "clean"):
        return at_thing(at)
    return at.marks[-1:] if at.marks[-1].w == "the" else []
