"""Colonies made, joined, moved, lost, bought and sold."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.marks import index_of, is_approx, left_aside, neighbour, said_of_each, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.scope import Draft

_BURNED = frozenset(["burned", "burnt"])


def _of_hives(statement: Statement, m: Mark) -> bool:
    """Whether colonies stand right before the word or right after it ("burned 40", "40 was burned")."""
    k = index_of(statement, m)
    near = [x for x in statement.marks[max(0, k - 2) : k + 2] if x.w not in ("is", "was", "got", "were", "are")]
    at = near.index(m)
    return any(x.label in ("cols", "pronoun") for x in near[max(0, at - 1) : at + 2])


def _at_its_yard(statement: Statement, m: Mark) -> bool:
    """ "lost six over the winter, two at larks": the number that stands right before the yard named."""
    k = index_of(statement, m)
    if k and statement.marks[k - 1].w == "of":
        return False  # "lost 6 of 18 at the quarry"
    after = statement.marks[k + 1 :][:3]
    while after and after[0].w in ("at", "in", "from", "the"):
        after.pop(0)
    return bool(after) and after[0].label == "yard"


def _made_before(statement: Statement, m: Mark, before: Mark) -> bool:
    """Whether splits are only spoken of: "N2 is the split", "looked for queens in the heath splits"."""
    split = neighbour(statement, index_of(statement, m), 1)
    if m.w == "split" and before.label == "yard" and split is not None and split.label == "cols":
        return False  # "at the pond split eight into N2"
    if before.label == "yard" and index_of(statement, before) > 1:
        lead = [x.w.split()[-1] for x in statement.marks[: index_of(statement, before)][-2:]]
        if (lead[0] if lead[-1] == "the" else lead[-1]) in ("in", "into", "to", "for", "on", "of"):
            return True  # "the cells go into the quarry splits"
    fed = any(x.v.get("does") == "feed" for x in statement.all("verb"))
    if m.w == "splits" and (fed or statement.has("feed", "item", "agent", "amount")) and "n" not in m.v:
        return True  # "feeding the Quarry splits 60-64": what they are
    if before.label != "yard":
        is_one = m.w.split()[0] in ("a", "it's", "they're") or before.w in (
            "new",
            "fresh",
            "brand",
            "young",
            "they're",
            "it's",
        )
        return before.w.split()[-1] in ("the", "my", "our", "every", "each") or (is_one and not statement.has("cols"))
    after = neighbour(statement, index_of(statement, m), 1)
    if after is not None and after.w == ":" and statement.has("fact"):
        return True  # "heath splits: 3 queenright"
    return any(m.w in ("in", "at", "of", "on", "through") for m in statement.marks[: index_of(statement, before)][-2:])


def _queen_moved(statement: Statement, m: Mark) -> bool:
    """ "moved the old queen to N2": she went there, and no hive."""
    after = [x for x in statement.marks[index_of(statement, m) + 1 :] if x.w not in _ARTICLES][:1]
    return bool(after) and after[0].label == "queen_noun" and after[0].w.split()[-1] in ("q", "queen")


def _moves_other(statement: Statement, m: Mark) -> bool:
    """Whether what is moved follows and is none of ours: an article and a plain word."""
    after = statement.marks[index_of(statement, m) + 1 :][:2]
    return len(after) > 1 and after[0].w in ("the", "a", "my", "our") and after[1].label == "w" and after[1].w.isalpha()


def _one_hive(statement: Statement) -> Mark | None:
    """ "a hive", "another colony"."""
    another = (x for a, x in pairwise(statement.marks) if x.label == "hive" and a.w == "another")
    return next((x for x in statement.all("each") if x.w in ("a nuc", "a hive", "a colony")), next(another, None))


_OF_IT = frozenset("its their his her half most some all a an the one of".split())
_HIVES = frozenset("hive hives colony colonies one ones nuc nucs bees few lot couple".split())


def _loses_other(statement: Statement, m: Mark) -> bool:
    """Whether what is lost follows and is no hive: "lost its lid", "lost half their stores", "lost two supers"."""
    k = index_of(statement, m) + 1
    after = statement.marks[k : k + 5]
    lead = next(
        (n for n, x in enumerate(after) if x.w not in _OF_IT and x.label not in ("number", "approx")), len(after)
    )
    whose = any(x.w in ("its", "their") for x in after[:lead])
    if lead == len(after):
        return whose
    thing = after[lead]
    if thing.label == "fact" and thing.w.split()[-1] in _QUEENS:
        thing.v["taken"] = True
        return True  # "lost a virgin out of N2"
    named = thing.label == "w" and thing.w.isalpha() and thing.w not in _HIVES
    return thing.label in THINGS or (named and lead > 0 and (whose or after[lead - 1].w == "the"))


def _a_swarm(statement: Statement, m: Mark) -> bool:
    """Whether a swarm is spoken of before the word."""
    return any("swarm" in x.w.split() for x in statement.marks[: index_of(statement, m)])


def _into_a_box(statement: Statement) -> bool:
    """Whether the colony goes into another box: "into a bigger hive", "to a full - size box"."""
    if statement.has("yard", "hives") or not statement.has("cols", "pronoun"):
        return False
    marks = statement.marks
    k = next((k for k, m in enumerate(marks[:-1]) if m.w in ("into", "to", "in") and marks[k + 1].w in _A), None)
    words = [] if k is None else [w for m in marks[k + 2 : k + 6] for w in m.w.split()]
    return bool(words) and any(w in _BOXES for w in words)


_A = frozenset(["a", "an", "its", "another"])
_BOXES = frozenset("box deep hive single double frame medium".split())
_ARTICLES = frozenset("the old her its their a that new his our".split())


def change(statement: Statement) -> list[Draft]:
    """Colonies made, joined, moved, lost, sold: a draft for each step said."""
    if not statement.has("change"):
        return []
    drafts = []
    marks = [
        m
        for before, m in pairwise([None, *statement.marks])
        # "N2 is the split": what one is, and nothing done
        if m is not None
        and m.label == "change"
        and not (m.w in ("split", "splits") and before is not None and _made_before(statement, m, before))
    ]
    steps = {m.v["step"] for m in marks}
    if "nuc_made" in steps:
        marks = [m for m in marks if m.v["step"] != "split"]
    seen: set[str] = set()
    for m in marks:
        step = _as_done_here(statement, m)
        if step == "moved" and _queen_moved(statement, m):
            continue
        if step in seen:
            continue
        if (
            step in ("sold", "bought")
            and not statement.has("cols", "hives", "number", "value", "pronoun", "each")
            and not statement.all("noun", "queen_noun")
            and "n" not in m.v
            and not m.w.startswith("picked up")
        ):
            continue  # "buy gloves"
        if (
            step in ("sold", "bought")
            and statement.has_any(THINGS)
            and not statement.has("cols", "hives", "noun", "queen_noun")
        ):
            continue  # "buy ten deep boxes"
        if step == "combined" and m.w in ("shook", "shake") and _shakes_frames(statement, m):
            continue
        if step == "combined" and m.w == "shook" and (statement.has("sample") or not statement.has("cols")):
            continue  # "Dov held the box and I shook it"
        if step == "moved" and m.w == "moves" and len(statement.marks) == 1:
            continue  # a heading
        if step == "moved" and statement.has("item") and any(x.w == "'s" for x in statement.marks):
            continue  # "moved nine's super over to ten"
        if step == "moved" and _into_a_box(statement):
            continue  # "moved N2 into a ten frame box": it stands where it stood
        if step == "moved" and (moved := neighbour(statement, index_of(statement, m), 1)) is not None:
            if moved.v.get("noun") == "frames":
                continue  # "moved two frames from 9 into a nuc"
        if step == "moved" and _moves_gear(statement, m):
            continue  # "moved the excluder up on 44"
        if step == "moved" and not statement.has("hives") and _moves_her(statement, m):
            continue  # "caught the queen in fifty and moved her to N1"
        if step == "moved" and not statement.has("cols", "hives", "pronoun", "every", "number", "noun", "yard", "rest"):
            continue  # "boxes moved to the barn"
        if (
            step == "moved"
            and not statement.has("cols", "hives", "number", "noun", "yard")
            and _moves_other(statement, m)
        ):
            continue  # "haul the tank to town because it leaks"
        if step == "moved" and statement.has_any(THINGS) and not statement.has("cols", "hives"):
            continue
        if step == "died" and _queen_died(statement, m):
            continue
        if step == "died" and (
            (m.w in ("lost", "dead", "is gone") and statement.has("queen_noun", "queen_work"))
            or (
                m.w == "lost"
                and not statement.has("cols", "hives", "number", "value", "pronoun", "every")
                and not _one_hive(statement)
            )
        ):
            continue
        if step == "died" and m.w.startswith("lost") and _loses_other(statement, m):
            continue  # "forty lost its lid"
        if step == "died" and m.w in ("was lost", "lost") and _a_swarm(statement, m):
            continue  # "the first swarm is in 61, the second was lost"
        if step == "died" and left_aside(statement, m):
            continue  # "fed every hive but the two dead ones"
        if step == "died" and m.w in _BURNED and not _of_hives(statement, m):
            continue  # "burned the old frames from 40"
        if m.w == "made up" and not _of_hives(statement, m):
            continue  # "made up syrup"
        if step == "died" and m.w.split()[-1] == "gone" and _thing_gone(statement, m):
            continue  # "the strips in nine are gone"
        seen.add(step)
        draft = Draft("change")
        draft.put("step", step, m.rule)
        draft.spans.append((m.s, m.e))
        if step in ("nuc_made", "split"):
            _went_along(statement, draft)
        number = m.v.get("n") if not m.w.endswith("into a nuc") else None  # "pulled her and four frames into a nuc"
        by = m
        if step == "died" and not statement.has("cols"):
            apart = next((x for x in statement.all("number", "value") if _at_its_yard(statement, x)), None)
            if apart is not None:
                number, by = apart.v["n"], apart
        hives = next((x for x in statement.all("hives") if "n" in x.v), None)
        if (
            step == "bought"
            and not statement.has("cols", "hives", "number", "value", "each")
            and any("cage" in x.w for x in statement.all("queen_noun", "w"))
        ):
            continue  # "buy queen cages"
        nouns = [x for x in statement.all("noun", "queen_noun") if "n" in x.v and x.v.get("noun") != "frames"]
        if (
            step in ("sold", "bought")
            and not nouns
            and number is None
            and hives is None
            and any(x.v.get("noun") == "frames" for x in statement.all("noun"))
        ):
            continue  # "buy 50 frames"
        if number is None and hives is not None:
            number, by = hives.v["n"], hives
        if number is None and nouns:
            number, by = nouns[0].v["n"], nouns[0]
        one = _one_hive(statement)
        if number is None and (step in ("sold", "bought") or m.w == "lost") and one is not None:
            number, by = Number(1, 0), one  # "sold a nuc", "lost a hive at the pond"
        if number is None and step == "split":
            each = [x for x in statement.all("number", "value") if said_of_each(statement, x)]
            if each:
                number, by = each[0].v["n"], each[0]  # "split 4, 6 and 9, 1 each"
        if number is None and not (step == "died" and m.w.split()[0] in ("is", "was", "'s", "a")):
            at = index_of(statement, m)
            loose = [
                x
                for x in statement.all("number", "value")
                if at - 2 <= index_of(statement, x) <= at + 2
                or ((more := neighbour(statement, index_of(statement, x), 1)) is not None and more.w == "more")
                or (more is not None and more.label == "noun" and step in ("sold", "bought") and "n" not in more.v)
                or (more is not None and more.w == "of" and step in ("moved", "sold", "died"))
                or (more is not None and more.w in ("out", "off", "from") and step in ("nuc_made", "split"))
            ]  # "sold eight", "and two more nucs are being sold", "the three nucs at Heath, I bought those"
            if loose and step in ("died", "split", "nuc_made", "sold", "bought", "swarm_caught", "moved"):
                number, by = loose[0].v["n"], loose[0]
        if number is not None and number.value > 0:
            slot = "colony_count" if step in ("died", "moved", "combined") else "count"
            draft.put(slot, tidy(number.value), by.rule)
            draft.spans.append((by.s, by.e))
            if by in statement.marks and is_approx(statement, by):
                draft.put("approx", True, "about")
        drafts.append(draft)
    return drafts


def _shakes_frames(statement: Statement, m: Mark) -> bool:
    """ "shook two frames of bees from nine into 14": bees, and no colony joined to another."""
    after = neighbour(statement, index_of(statement, m), 1)
    return after is not None and (after.v.get("noun") == "frames" or after.v.get("number") in _FRAMES)


_FRAMES = frozenset(["brood_frames", "bee_frames", "food_frames"])


def _went_along(statement: Statement, draft: Draft) -> None:
    """ "took a nuc out of seven with three frames of brood": what the new one got, and not what was seen in the old."""
    for with_, frames in pairwise(statement.marks):
        counted = frames.v.get("number") in _FRAMES
        if with_.w == "with" and (counted or (frames.v.get("noun") == "frames" and "n" in frames.v)):
            frames.v["taken"] = True
            draft.spans.append((frames.s, frames.e))


def _thing_gone(statement: Statement, m: Mark) -> bool:
    """Whether a thing in the colonies is what is gone."""
    k = index_of(statement, m) - 1
    while k > 0 and (statement.marks[k].label in ("cols", "yard", "hive") or statement.marks[k].w in _WHERE_IT_WAS):
        k -= 1
    if k >= 0 and statement.marks[k].label == "every" and not statement.has("cols"):
        return True  # "all the nucs are gone, sold the last four this morning"
    return k >= 0 and statement.marks[k].label in THINGS


_WHERE_IT_WAS = frozenset("in on at of from the all both".split())


def _queen_died(statement: Statement, m: Mark) -> bool:
    """ "eight's queen died in the cage", "the new queen in 12 is dead": she did, and no colony; a colony named is
    without one. Changes the mark in place.
    """
    k = index_of(statement, m) - 1
    while k > 0 and (statement.marks[k].label in _BESIDE_HER or statement.marks[k].w in _SAID_BESIDE_HER):
        k -= 1
    her = statement.marks[k] if k >= 0 else m
    if her.w in ("one", "old one", "other one") and statement.has("queen_noun"):
        return k == 0 or her.w != "one" or statement.marks[k - 1].w == "old"  # "a new queen in 12, old one's gone"
    words = her.w.removesuffix(" in").removesuffix(" into").split()
    if her.label not in ("queen_noun", "queen_work", "fact", "w") or words[-1] not in _QUEENS:
        return False
    behind = statement.marks[index_of(statement, m) :]
    if any(x.v.get("set", {}).get("queen") in ("right", "seen", "virgin") for x in behind):
        return True  # "the red queen in 9 is gone, there's an unmarked one in there laying"
    if words[-1] in _ONE_QUEEN and statement.has("cols"):
        her.v["taken"] = True  # "the virgin in N3 died"
        m.label, m.v = "fact", {"kind": "inspection", "set": {"queen": "less"}}
        statement.seal()
    return True


_ONE_QUEEN = frozenset(["queen", "q", "virgin", "girl", "layer"])
_QUEENS = _ONE_QUEEN | {"layer", "queens", "virgins", "cell", "cells"}
_BESIDE_HER = frozenset(["cols", "hive", "yard", "date", "filler"])
_SAID_BESIDE_HER = _WHERE_IT_WAS | set(
    "i we he she gave put had got was is has just found a i'd we'd that which".split()
)
_BUYERS = listed("buyers")


def _as_done_here(statement: Statement, m: Mark) -> str:
    """The step of a change as the outfit sees it: what buyers pick up is sold, a swarm shaken down is caught."""
    step: str = m.v["step"]
    before = statement.marks[: index_of(statement, m)]
    if step == "bought" and m.w.startswith(("picked up", "bought")) and any(x.w in _BUYERS for x in before):
        return "sold"
    after = statement.marks[index_of(statement, m) + 1 :]
    if step == "bought" and any(a.w == "of" and b.w in ("our", "my") for a, b in pairwise(after)):
        return "sold"  # "Tobiah is buying six of our nucs"
    shaken = step == "combined" and m.w in ("shook", "shake") and statement.has("cols")
    if shaken and any(x.w in ("swarm", "swarms") for x in before):
        return "swarm_caught"
    return step


def _moves_gear(statement: Statement, m: Mark) -> bool:
    """Whether a thing of a hive is what is moved."""
    k = index_of(statement, m) + 1
    while k < len(statement.marks) and (
        statement.marks[k].label == "number" or statement.marks[k].w in ("the", "a", "an", "its", "some", "one", "all")
    ):
        k += 1
    if k >= len(statement.marks):
        return False
    thing = statement.marks[k]
    return thing.label in THINGS or (thing.label == "queen_noun" and "cell" in thing.w)


def _moves_her(statement: Statement, m: Mark) -> bool:
    """Whether it is the queen who is moved."""
    k = index_of(statement, m)
    after = statement.marks[k + 1 : k + 3]
    if after and after[0].label == "w" and after[0].w in ("the", "my", "that"):
        after = after[1:]
    return bool(after) and (after[0].w in ("her", "the queen", "queen") or after[0].v.get("noun") == "queen")
