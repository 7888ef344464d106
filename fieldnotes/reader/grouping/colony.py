"""Is this number a colony? The questions are asked in turn; the first that has an answer settles it."""

from __future__ import annotations

from fieldnotes.reader.grouping import governing
from fieldnotes.reader.grouping.questions.order import OF_ITS_PHRASE, OF_THE_NUMBER
from fieldnotes.reader.grouping.row import Row, sentence_has, whole
from fieldnotes.reader.grouping.spot import Spot, spot_at
from fieldnotes.reader.grouping.surroundings import subject_follows


def is_colony(r: Row, i: int, last: str) -> bool:
    """Whether the number at `i` names a colony; `last` says what the number before it was."""
    if not whole(r.row[i]):
        return False
    at = spot_at(r, i, last)
    for question in OF_THE_NUMBER:
        answer = question(at)
        if answer is not None:
            return answer
    _pass_over(at)
    for question in OF_ITS_PHRASE:
        answer = question(at)
        if answer is not None:
            return answer
    subject = subject_follows(r, i, at.after)
    if at.p is not None:
        answer = governing.answer(at, at.p, subject)
        if answer is not None:
            return answer
    return (at.starts and subject) or _takes_turns(at)


def _pass_over(at: Spot) -> None:
    """Looks past "both", a filler, or the comma after a yard to the word that counts."""
    p, pp = at.p, at.pp
    several = at.after is not at.q or (at.q is not None and at.q.label == "number")
    listed = several and sentence_has(at.r, at.i, "item", "agent", "form", "feed", "queen_work", "change")
    if p and p.label == "date" and pp and pp.label == "yard" and listed:
        at.p, p = pp, None  # "put excluders on at the quarry today | one two five and six"
    just = p and p.w in ("just", "only") and pp and pp.w in ("on", "in", "from", "off", "of")  # "guards on just three"
    if p and (p.w == "both" or just or p.label == "filler" or (p.label == "comma" and pp and pp.label == "yard")):
        at.p = pp


def _takes_turns(at: Spot) -> bool:
    """In a run of checks colony and count take turns: this number is a colony where the last one was none."""
    q = at.q
    return (
        at.r.checking
        and at.last != "cols"
        and q is not None
        and at.starts
        and (
            q.label in ("number", "mites", "clean", "percent", "verb", "sample")
            or (q.label == "cue" and q.v.get("cue") in ("not", "plan", "correct"))
            or q.w in at.r.before_value
            or q.w in (":", "=", "-")
        )
    )
