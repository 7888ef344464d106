"""Marks within their statement: where one stands, what stands beside it, the number it carries."""

from __future__ import annotations

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.numbers import Number


def tidy(value: float) -> int | float:
    """A whole number as an int."""
    return int(value) if float(value).is_integer() else round(float(value), 4)


def number_of(m: Mark) -> Number:
    """The number that the mark carries."""
    number: Number = m.v["n"]
    return number


def sample_size(m: Mark) -> int:
    """How many bees the mark of a sample is of."""
    if "cup" in m.v:
        return round(float(m.v["cup"]) * number_of(m).value)  # "0.5 cup"
    return int(m.v["bees"]) if "bees" in m.v else int(number_of(m).value)


def index_of(statement: Statement, m: Mark) -> int:
    """Where the mark stands in its statement."""
    for k, x in enumerate(statement.marks):  # asked often: a loop takes half the time of a generator
        if x is m:
            return k
    raise ValueError(f"{m} stands in another statement")


def left_aside(statement: Statement, m: Mark) -> bool:
    """Whether "but the" or "except the" stands right before the mark: what it says only names those left out."""
    k = index_of(statement, m)
    before = statement.marks[k - 2] if k > 1 and statement.marks[k - 1].w == "the" else None
    return before is not None and (before.w in ("but", "except", "besides") or before.v.get("cue") == "except")


def index_in(statement: Statement, m: Mark) -> int:
    """Like `index_of`; -1 for a mark that is not in the statement."""
    for k, x in enumerate(statement.marks):
        if x is m:
            return k
    return -1


def neighbour(statement: Statement, k: int, step: int) -> Mark | None:
    """The mark before (-1) or after (1) index `k`, fillers passed over."""
    k += step
    marks = statement.marks
    while 0 <= k < len(marks):
        if marks[k].label != "filler":
            return marks[k]
        k += step
    return None


_NEARLY = frozenset("mostly almost nearly all about just half pretty well still now quite".split())
_TRAYS = listed("holds_a_dose")


def said_of_thing(statement: Statement, m: Mark) -> bool:
    """Whether the fact says how a thing is, and not the colony ("14's feeder is empty")."""
    k = index_of(statement, m)
    if k > 1 and m.w == "empty" and statement.marks[k - 1].w == "all":
        return any(x.label in ("item", "feed") for x in statement.marks[:k])  # "pulled the feeders, all empty but 75's"
    while k > 1 and (statement.marks[k - 1].label == "approx" or statement.marks[k - 1].w in _NEARLY):
        k -= 1  # "the trays were mostly empty"
    be, thing = neighbour(statement, k, -1), neighbour(statement, k - 1, -1)
    if be is None or thing is None or be.w not in ("is", "are", "was", "were", "'s"):
        return False
    if thing.label == "cols":  # "the feeder on nine was empty"
        k = index_of(statement, thing)
        on, thing = neighbour(statement, k, -1), neighbour(statement, k - 1, -1)
        return on is not None and on.w in ("on", "in") and thing is not None and thing.label in ("item", "feed")
    ones = neighbour(statement, k - 2, -1) if thing.w == "ones" else None
    if ones is not None and ones.w in ("first", "old", "last", "previous"):
        return True  # "second tray went in, the first ones were bone dry"
    return thing.label in ("item", "form", "agent") or thing.w.split()[-1] in _TRAYS


def on_a_day_to_come(statement: Statement, m: Mark) -> bool:
    """ "strips in ten days", "wraps next weekend", "excluders friday": the thing and behind it the day to come."""
    k = index_of(statement, m)
    after = neighbour(statement, k, 1)
    if after is not None and after.w == "on" and after.label == "w":
        after = neighbour(statement, k + 1, 1)  # "supers on monday"
    if after is None or after.label != "date":
        return False
    when = after.v["value"]
    return when.is_to_come or (alone_on_weekday(statement) and after is statement.marks[-1])


_SMALL = frozenset("the a some more new on in and then so oh also next put get".split())


def alone_on_weekday(statement: Statement) -> bool:
    """ "excluders friday": a thing and a bare weekday, and nothing that tells of the past or of a place."""
    date = statement.first("date")
    if date is None or date.v["value"].form != "weekday" or date.v["value"].args[1] != "plain":
        return False
    return all(
        m.label in THINGS
        or m.label in ("date", "number", "ordinal", "ratio", "filler", "comma")
        or (m.label == "w" and m.w in _SMALL)
        for m in statement.marks
    )


def is_approx(statement: Statement, m: Mark) -> bool:
    """Whether "about", "maybe" or "or so" stands beside the number."""
    if "n" in m.v and number_of(m).approx:
        return True
    k = index_in(statement, m)
    if k < 0:
        return False
    before, after = neighbour(statement, k, -1), neighbour(statement, k, 1)
    if before is not None and before.w in ("of", "is", "was", ":", "like") and before.label == "w":
        before = neighbour(statement, k - 1, -1)
    return bool(
        (before and before.label == "approx" and before.w not in ("or so", "ish", "some", "a good"))
        or (
            after
            and after.label == "approx"
            and after.w in ("or so", "ish", "give or take", "or thereabouts", "more or less")
        )
    )


def said_of_each(statement: Statement, m: Mark) -> bool:
    after = neighbour(statement, index_of(statement, m), 1)
    return bool(after and after.label == "each")
