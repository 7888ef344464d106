"""Headings over lists: a line that names a treatment, a feed, gear, honey or moves speaks of the lines below it.

"Formic pads in, 2 each:" over lines of colonies, "Honey in" over yards and pounds, "Moves" over days and
places. The marks of such a heading are lent to each line below that says nothing of its own, before the
frames see it; spans stay those of the heading's words.
"""

from __future__ import annotations

from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import FOUND_IN_ALL, WAYS, Mark

_FAMILIES = {
    "agent": "treatment",
    "form": "treatment",
    "item": "gear",
    "feed": "feed",
    "ratio": "feed",
    "harvest": "harvest",
    "honey": "harvest",
    "change": "change",
}
_DOSES = frozenset(["unit", "amount", "each", "round", "days", "number", "value"])
_NEVER = frozenset("cols every hives mites fact clean percent pronoun method check queen_work rest temp sky".split())
_ROW_HEADS = frozenset(["unit", "round", "percent", "value", "moisture"])


def lend_topics(statements: list[Statement]) -> None:
    """Finds the headings among the statements of a message and lends their marks to the lines below. In place."""
    _lend_way(statements)
    topic: list[Mark] = []
    found = False  # whether the topic is what was found in all the hives below it
    inline = -1  # the line whose first words are the heading of the rest of it
    for i, s in enumerate(statements):
        if s.opens != "line" and not (s.opens == "stop" and topic) and not (topic and s.line == inline):
            continue
        if topic and _row_of_honey(s, topic):
            _lend(s, topic)
            continue
        if _finding_over_lists(statements, i):
            topic, found = [m for m in s.marks if m.label in _FOUND], True
            s.topic = True
            continue
        family = _topic_family(statements, i)
        if family is not None:
            found = False
            topic = [
                m for m in s.marks if m.label in _FAMILIES or m.label in _DOSES or (m.label == "w" and m.w in WAYS)
            ]
            topic += [m for m in s.marks if m.label == "verb" and m.v.get("dir") == "out"]
            s.topic = True
            inline = s.line if statements[i + 1].line == s.line else -1
            continue
        if found and not _names_colonies_alone(s):
            if s.has("cols") or s.has_head:
                topic, found = [], False
            continue
        if (
            topic
            and _takes_topic(s, _agent_alone(topic))
            and not (_other_work(s) and not any(m.label in ("feed", "ratio") for m in topic))
            and not _heads_more(s, topic)
            and not _job_there(s)
        ):
            _lend(s, topic)
        elif topic and s.opens == "line" and s.blank_before and s.has_head:
            topic = []


_FOUND = frozenset(["fact", "change", "queen_work"])
_BESIDE_FINDING = frozenset([*_FOUND, "date", "filler", "comma", "thing", "hives"])
_OF_LISTED = frozenset("died swarmed split requeened marked clipped".split())
"""What may have been done with, or become of, each of the hives listed below it."""
_SO_FAR = frozenset("so far now again".split())


def _finding_over_lists(statements: list[Statement], i: int) -> bool:
    """ "Dead", "Winter losses:", "Queenless" over lines with nothing but colonies and their yards."""
    s = statements[i]
    if s.opens != "line" or s.asked or i + 1 == len(statements) or not s.has_any(_FOUND):
        return False
    found = [m for m in s.marks if m.label in _FOUND]
    others = [m for m in s.marks if m.label not in _BESIDE_FINDING]
    if len(found) != 1 or any(m.label != "w" or (m.w.isalnum() and m.w not in _SO_FAR) for m in others):
        return False
    became = found[0].v.get("step") in _OF_LISTED and "n" not in found[0].v
    if not became and ("number" in found[0].v or not FOUND_IN_ALL & set(found[0].v.get("set", {}))):
        return False
    nxt = statements[i + 1]
    return nxt.line == s.line + 1 and nxt.opens == "line" and nxt.has("cols") and _names_colonies_alone(nxt)


def _names_colonies_alone(s: Statement) -> bool:
    named = ("cols", "hive", "hives", "yard", "comma")
    return all(m.label in named or (m.label == "w" and not m.w.isalnum()) for m in s.marks)


def _lend_way(statements: list[Statement]) -> None:
    """ "what came off today: hive three a super | hive five two supers": each thing of the sentence came off."""
    way: Mark | None = None
    sentence = -1
    for s in statements:
        if s.sentence != sentence or s.has("verb", "cue"):
            way = next((m for m in s.all("verb") if m.w.startswith("what ")), None)
            sentence = s.sentence
        elif way is not None and s.has("item", "agent", "form") and s.has("cols"):
            s.marks.insert(0, Mark("verb", way.s, way.e, way.w, dict(way.v), way.rule))
            s.seal()


def _heads_more(s: Statement, topic: list[Mark]) -> bool:
    """ "Today, Larkfield" under honey that was taken yesterday: a place and a day alone are no row of it."""
    honey = any(m.label in ("honey", "harvest") for m in topic) and s.blank_before and s.has("date")
    return honey and all(m.label in ("yard", "date", "comma") or not m.w.isalnum() for m in s.marks)


_JOBS = listed("jobs")


def _job_there(s: Statement) -> bool:
    """ "Sawdust - need to fix the fence", in a list of honey: a job, and no row of the list."""
    return s.has("cue") and not s.has("cols") and any(m.label == "w" and m.w in _JOBS for m in s.marks)


def _row_of_honey(s: Statement, topic: list[Mark]) -> bool:
    """Whether honey is the topic and the line says how many supers a yard gave: a row, no heading over gear."""
    supers = s.all("item")
    return (
        any(m.label in ("honey", "harvest") for m in topic)
        and bool(supers)
        and all(m.v["item"] == "super" for m in supers)
        and s.has("yard")
        and s.has("number")
        and not (s.has_any(_NEVER) or s.has("verb", "cue"))
        and not any(m.w in WAYS for m in s.marks)
    )


def _topic_family(statements: list[Statement], i: int) -> str | None:
    """The family a heading speaks of; None where the statement is no heading."""
    s = statements[i]
    if s.opens != "line" or s.bullet or s.asked or any(m.label in _NEVER and m.w != "everywhere" for m in s.marks):
        return None
    families = {_FAMILIES[m.label] for m in s.marks if m.label in _FAMILIES}
    if len(families) != 1:
        return None
    family = next(iter(families))
    if family == "change" and any(m.v.get("step") != "moved" for m in s.all("change")):
        return None
    if any(m.label == "cue" for m in s.marks) or any(
        m.label == "verb" and m.v.get("does") not in ("feed", "do") and m.v.get("dir") is None for m in s.marks
    ):
        return None
    if i + 1 == len(statements):
        return None
    nxt = statements[i + 1]
    last_line = statements[-1].line == s.line
    if family == "feed" and nxt.line == s.line and nxt.opens == "stop" and not s.has("amount"):
        return (
            family if nxt.has("cols") and nxt.has("amount") and _takes_topic(nxt) else None
        )  # "syrup 2:1. 1 gal each 41 42"
    if family in ("feed", "treatment", "gear") and nxt.line == s.line and nxt.opens == "soft" and s.marks[-1].w == ":":
        return family if nxt.has("cols") and _takes_topic(nxt) else None  # "fondant: L2 L5 2 lb, L14 4 lb"
    if family == "treatment" and nxt.line == s.line and last_line and not s.has_any(_DOSES):
        # "sawdust, minty. S1 thru S4, a tray each"
        return (
            family
            if nxt.opens == "stop" and nxt.has("cols") and _takes_topic(nxt) and nxt.has("unit", "number")
            else None
        )
    if family == "harvest" and nxt.line == s.line and nxt.opens == "soft" and s.marks[-1].w == ":":
        # "pulled honey: H1 2 supers, H2 1 super"
        return family if nxt.has("cols") and nxt.has("amount", "item") and _takes_topic(nxt) else None
    if nxt.has("same"):
        return None  # "strips in at Quarry" over "Larkfield - same"
    if nxt.line != s.line + 1 or (family != "feed" and _other_work(nxt)):
        return None
    if not _takes_topic(nxt, _agent_alone(s.marks)):
        return None
    if _under_colony(statements, i) and _colony_alone(nxt):
        return None  # a card: "HIVE 55", lines on it, "HIVE 56"
    if family == "harvest" and s.has("yard") and s.has("amount") and s.has("moisture"):
        return None  # "Wens - 212 lb extracted, 16.9%": told to the end
    if family == "harvest":
        return family if nxt.has("amount", "percent", "number", "noun", "item") else None
    if family == "change":
        return family if nxt.has("yard") else None
    return family


def _colony_alone(s: Statement) -> bool:
    """A line with one colony and nothing said of it."""
    return (
        s.opens == "line"
        and len(s.all("cols")) == 1
        and all(m.label in ("cols", "hive", "yard", "comma") or not m.w.isalnum() for m in s.marks)
    )


def _under_colony(statements: list[Statement], i: int) -> bool:
    """Whether the line stands on the card of one colony: the last line before that names any names one alone."""
    for s in reversed(statements[max(0, i - 12) : i]):
        if s.has("cols"):
            return _colony_alone(s)
    return False


def _agent_alone(marks: list[Mark]) -> bool:
    """Whether a treatment is named by its agent, and in what form it comes is left to the lines below."""
    return any(m.label == "agent" for m in marks) and not any(m.label == "form" for m in marks)


def _takes_topic(s: Statement, own_form: bool = False) -> bool:
    """A line of colonies, a yard or "every hive" that names nothing of its own, or no more than the form ("L1: 1 pad"
    under "formic", with `own_form`).
    """
    own = [
        m
        for m in s.marks
        if m.label in HEADS
        and m.label not in _ROW_HEADS
        and not (m.label == "item" and m.v.get("item") == "super")
        and not (own_form and m.label == "form" and not m.v.get("treats"))
    ]
    if any(m.label in ("fact", "method", "mites", "clean") for m in s.marks):
        return False
    due = s.has("round") and s.has("date", "cue")  # "round 4: due 22 Nov"
    return not own and (s.has("cols", "yard", "every", "hives") or due) and not s.has("heading")


def _other_work(s: Statement) -> bool:
    """ "Sat - oxalic at Heath" over "Sun - feed 41": feeding is no more of the treatment named above."""
    return any(m.v.get("does") in ("feed", "inspect") for m in s.all("verb"))


def _lend(s: Statement, topic: list[Mark]) -> None:
    has_dose = s.has("unit", "amount", "number", "value")
    harvest = any(m.label in ("harvest", "honey") for m in topic)
    if s.has("item") and not harvest:
        return
    lent = []
    for m in topic:
        if m.label in _DOSES and (s.has("round") if m.label == "round" else has_dose):
            continue
        if m.label == "w" and any(x.label == "w" and x.w in WAYS for x in s.marks):
            continue
        lent.append(Mark(m.label, m.s, m.e, m.w, dict(m.v), m.rule))
    if harvest and not any(m.label == "harvest" for m in lent):
        h = next(m for m in lent if m.label == "honey")
        lent.append(Mark("harvest", h.s, h.e, h.w, {"tense": "past"}, h.rule))
    s.marks = lent + s.marks
    s.seal()
