"""What was seen in a colony, and what was looked for and not seen."""

from __future__ import annotations

from typing import Any

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.colour import colour_beside
from fieldnotes.reader.frames.marks import index_of, is_approx, neighbour, number_of, said_of_thing, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft

_NOT_THERE = tuple(listed("not_there"))
QUEEN_RANK = ("right", "not_seen", "seen", "less", "virgin", "drone_layer", "laying_workers")
"""Of several things said of one queen the last in this row is the most telling."""


_TILL = frozenset(["till", "until", "til"])
_FINDS = frozenset("i we you she he it they it's she's they're i'm we're there's find see get are is a the".split())


def _until_seen(statement: Statement, m: Mark) -> bool:
    """ "holding off till I find a queen in there": what is waited for, and not seen."""
    k = index_of(statement, m) - 1
    while k > 0 and statement.marks[k].w in _FINDS:
        k -= 1
    return k >= 0 and statement.marks[k].w in _TILL


def inspection(statement: Statement, negated_from: int | None, state: str) -> Draft | None:
    """What was seen; facts that stand after a negation are turned round or dropped."""
    if not statement.has("fact", "noun", "verb", "check"):
        return _not_found(statement)
    facts = [m for m in statement.all("fact") if not m.v.get("taken") and not said_of_thing(statement, m)]
    if facts and statement.has("verb", "change"):
        facts = [m for m in facts if m.v.get("number") != "bee_frames" or not handled(statement, m)]
    if facts and statement.has("temp", "sky", "ordinal"):
        facts = [m for m in facts if not _of_the_day(statement, m)]
    frames = [m for m in statement.all("noun") if m.v.get("noun") == "frames" and "n" in m.v and not m.v.get("taken")]
    if facts and not _TILL.isdisjoint(statement.words):
        facts = [m for m in facts if not _until_seen(statement, m)]
    draft = Draft("inspection")
    got = looked_for = False
    for m in facts:
        k = index_of(statement, m)
        if state == "planned" and any(x.w == "for" for x in statement.marks[max(0, k - 3) : k]):
            draft.spans.append((m.s, m.e))
            looked_for = True  # "check 15 and 16 for eggs"
            continue
        negated = negated_from is not None and k > negated_from and not _reach_stops(statement, negated_from, k)
        negated = negated or _listed_after_no(statement, k) or _denied_after(statement, k)
        if negated and "unsaid" not in m.v and ("sign" in m.v or _of_none(statement, negated_from)):
            draft.spans.append((m.s, m.e))
            continue
        if negated and "unsaid" in m.v:
            for slot, value in m.v["unsaid"].items():
                set_slot(draft, slot, value, m.rule)
                got = True
            draft.spans.append((m.s, m.e))
            continue
        if m.v.get("cell_type_only"):
            if any(f.v.get("number") == "queen_cells" or f.v.get("set", {}).get("cells_seen") for f in facts):
                draft.put("cell_type", m.v["set"]["cell_type"], m.rule)
                draft.spans.append((m.s, m.e))
            continue
        for slot, value in m.v.get("set", {}).items():
            set_slot(draft, slot, value, m.rule)
        if m.v.get("sign"):
            signs = draft.slots.setdefault("signs", [])
            either = [m.v["sign"], *([m.v["or_sign"]] if "or_sign" in m.v else [])]
            signs += [sign for sign in either if sign not in signs]
            draft.why["signs"] = m.rule
        if m.v.get("number"):
            draft.put(m.v["number"], tidy(number_of(m).value), m.rule)
            if is_approx(statement, m):
                draft.put("approx", True, "about")
        if m.v.get("mark"):
            draft.put("mark", m.v["mark"], m.rule)
        if m.v.get("set", {}).get("queen") in ("seen", "right") and "mark" not in draft.slots:
            colour_beside(statement, draft)
        draft.spans.append((m.s, m.e))
        got = True
    if "found" in statement.words and (lost := _not_found(statement)) is not None:
        set_slot(draft, "queen", "not_seen", "could not be found")
        draft.spans += lost.spans
        got = True
    for m in frames:
        if (
            any(
                f.v.get("set", {}).get("eggs") is not None
                or f.v.get("set", {}).get("capped_brood")
                or f.v.get("set", {}).get("open_brood")
                for f in facts
            )
            and "brood_frames" not in draft.slots
        ):
            draft.put("brood_frames", tidy(number_of(m).value), m.rule)
            draft.spans.append((m.s, m.e))
    if looked_for and not got:
        return draft
    if not got and state == "planned":
        looks = [
            m
            for m in statement.marks
            if (m.label == "verb" and m.v.get("does") == "inspect" and not _thing_goes_in(statement, m))
            or (m.label == "check" and m.v.get("looks"))
        ]
        if looks:
            draft.spans += [(m.s, m.e) for m in looks]
            return draft
    if not got and state == "not_done" and _nothing_else(statement):
        return None
    if not got and state in ("not_done", "conditional"):
        looks = [m for m in statement.marks if m.label == "verb" and m.v.get("does") == "inspect"]
        looks = [m for m in looks if not _thing_goes_in(statement, m)]
        if looks and not statement.has("method", "check", "agent", "item", "feed"):
            draft.spans += [(m.s, m.e) for m in looks]
            return draft
    return draft if got else None


def _not_found(statement: Statement) -> Draft | None:
    """ "the queen in 48 could not be found"."""
    marks = statement.marks
    queen = next((m for m in marks if m.label == "queen_noun" and m.w.split()[-1] in ("queen", "q")), None)
    for k, m in enumerate(marks[:-2]):
        if queen is not None and m.label == "cue" and m.v.get("cue") == "not" and queen.s < m.s:
            after = [x.w for x in marks[k + 1 : k + 4] if x.w != "to"]
            if after[:2] in (["be", "found"], ["be", "seen"], ["be", "located"]):
                spans = [(queen.s, queen.e), (m.s, m.e), (marks[k + 2].s, marks[k + 2].e)]
                return Draft("inspection", {"queen": "not_seen"}, spans, {"queen": "could not be found"})
    return None


_HANDLES = frozenset(
    "shook shake gave give pulled pull took take added moved stole robbed boosted boost dumped".split()
)
_BESIDE_FRAMES = frozenset("it them her with another about in".split())


def handled(statement: Statement, frames: Mark) -> bool:
    """ "gave 14 two frames of bees", "shook two frames of bees from nine into 14": given or taken, and not counted."""
    k = index_of(statement, frames) - 1
    while k > 0 and (statement.marks[k].label in ("cols", "approx") or statement.marks[k].w in _BESIDE_FRAMES):
        k -= 1
    return k >= 0 and statement.marks[k].label in ("verb", "change", "w") and statement.marks[k].w in _HANDLES


def _thing_goes_in(statement: Statement, verb: Mark) -> bool:
    """ "strips go into 40 on the 20th", "the supers will go in friday": they go in, and nobody to look."""
    if verb.w.split()[-1] not in ("in", "into"):
        return False
    before = [m for m in statement.marks[: index_of(statement, verb)] if m.label not in ("cue", "filler", "comma")]
    things = ("form", "item", "agent", "feed", "queen_noun", "thing", "number")
    return bool(before) and (before[-1].label in things or before[-1].w in ("they", "those", "these"))


def _nothing_else(statement: Statement) -> bool:
    """ "didn't open anything else": said of the others, and not of the colony before."""
    return not statement.has("cols", "every", "yard", "hives") and any(
        m.label == "w" and m.w in ("else", "anything", "others") for m in statement.marks
    )


def _of_the_day(statement: Statement, fact: Mark) -> bool:
    """ "forty degrees and calm", "at first light": said of the weather or the hour, of no bees."""
    before = neighbour(statement, index_of(statement, fact), -1)
    if before is not None and before.w == "and":
        before = neighbour(statement, index_of(statement, before), -1)
    weather = (
        before is not None
        and before.label in ("temp", "sky")
        and len(statement.all("fact")) == 1
        and not statement.has("cols", "every")
        and "temper" in fact.v.get("set", {})
    )
    hour = before is not None and before.label == "ordinal" and before.w.endswith("first") and fact.w == "light"
    return weather or hour


def _of_none(statement: Statement, negated_from: int | None) -> bool:
    """ "none of them is hot": of no colony, so nothing was seen."""
    return negated_from is not None and statement.marks[negated_from].label == "pronoun"


def _listed_after_no(statement: Statement, k: int) -> bool:
    """ "no eggs or open brood", "no chalkbrood, sacbrood or wax moth": the "no" goes on over the list."""
    marks = statement.marks
    alternatives = any(m.w in ("or", "nor") for m in marks[k : k + 4])
    j = k - 1
    while j >= 0 and (marks[j].label in ("comma", "fact", "ignore") or marks[j].w in ("or", "nor")):
        alternatives = alternatives or marks[j].w in ("or", "nor")
        if marks[j].label in ("fact", "ignore") and marks[j].w.startswith("no "):
            return alternatives and j < k - 1
        j -= 1
    return False


def _denied_after(statement: Statement, k: int) -> bool:
    """ "chalkbrood not seen", "chalkbrood ruled out", "chalkbrood absent"."""
    if "sign" not in statement.marks[k].v:
        return False
    words = " ".join(m.w for m in statement.marks[k + 1 : k + 3])
    return words.startswith(_NOT_THERE)


def _reach_stops(statement: Statement, a: int, b: int) -> bool:
    """Whether the reach of a negation at `a` ends before the fact at `b` ("didn't see the queen but eggs")."""
    between = statement.marks[a + 1 : b]
    if any(m.label == "verb" and m.w == "got" for m in between) and any(
        m.label == "w" and len(m.w) > 3 and m.w not in ("have", "been", "really", "even", "even") for m in between
    ):
        return True  # "doesn't smell right, got foulbrood in it"
    for m in statement.marks[a + 1 : b]:
        if m.label == "queen_work":
            return True  # "the other two not marked, eggs in all three"
        if m.w in ("there's", "theres", "there are"):
            return True  # "couldn't find her and there's cells started"
        if m.label == "w" and m.w in ("but", "though", "except", "yet", "however", "then", "so"):
            return True
        if m.label in ("comma", "filler") and any(x.label == "fact" for x in statement.marks[a + 1 : b]):
            return True
    negator = statement.marks[a]
    if negator.w in ("no", "not", "without") or negator.w.startswith("no "):
        return any(x.label == "fact" for x in statement.marks[a + 1 : b]) and not any(
            x.w in ("or", "nor", "and") for x in statement.marks[a + 1 : b]
        )
    return any(x.label == "fact" for x in statement.marks[a + 1 : b]) and not any(
        x.w in ("or", "nor") for x in statement.marks[a + 1 : b]
    )


def set_slot(draft: Draft, slot: str, value: Any, rule: str) -> None:
    if slot == "queen" and "queen" in draft.slots and QUEEN_RANK.index(value) < QUEEN_RANK.index(draft.slots["queen"]):
        return
    draft.put(slot, value, rule)
