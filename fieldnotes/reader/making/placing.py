"""Where? The yard and the colonies that a record speaks of."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import index_of, left_aside, neighbour, number_of
from fieldnotes.reader.making import (
    holding,
)
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import SEEN_AT, THINGS, Mark
from fieldnotes.reader.parting.about import against
from fieldnotes.reader.parting.governing import gets_from
from fieldnotes.reader.scope import WHOLE_YARD, Draft, Place, place_of, settle_ids

_WHOLE_YARD = frozenset(["treatment", "gear", "feed"])


def where(msg: Message, i: int, s: Statement, kind: str, stance: Stance) -> tuple[Place, list[Mark]]:
    """The subject of a record of `kind` made from this statement, and the marks that say so."""
    held = msg.held
    place = Place()
    used: list[Mark] = []
    cols = s.all("cols")
    exceptions = [m for m in cols if holding.is_exception(msg, s, m)] if s.has("cue") else []
    if not cols and kind in _WHOLE_YARD and held.cols and held.cols.get("aside") and s.marks[0].w in ("and", "then"):
        if not s.has("pronoun", "thing"):
            held.cols = None  # "wrapped all but 64, it's dead, | and candy boards go on Friday": on all of them
    main = [m for m in cols if m not in exceptions and not (kind in _WHOLE_YARD and washed(s, m))]
    if kind == "gear" and len(main) == 2 and _from_to(s, *main):
        main = main[1:]  # "put the excluder from s seven on s nine"
    every = list(s.all("every"))
    hives = next(
        (
            m
            for m in s.all("hives")
            if m.v.get("counts")
            and "n" in m.v
            and m.v["n"].value >= 1
            and not (kind in _WHOLE_YARD and _of_the_things(s, m))
        ),
        None,
    )
    rest = s.first("rest")
    pronoun = s.first("pronoun")
    if rest is not None and kind in _WHOLE_YARD and pronoun is not None and _given_those(s, rest, pronoun):
        rest = None
    place.yard = held.yard
    if place.yard is None and kind == "harvest" and held.cols and any(m.w == "there" for m in s.marks):
        place.yard = held.cols["yard"]  # "l four is light and tomorrow the honey comes off there"
    used += [m for m in s.all("yard") if not m.v.get("to")]
    nth = _nth(s, held.cols)
    if (
        not main
        and nth is not None
        and kind == "mite_check"
        and held.cols
        and len(held.cols["ids"]) >= nth.v["value"] >= 1
        and len(held.cols["ids"]) > 1
    ):
        take_held(msg, place)  # "the first gave eight mites, the second none"
        place.colonies = [held.cols["ids"][nth.v["value"] - 1]]
        used.append(nth)
    elif (
        len(main) == 1
        and kind in ("gear", "queen_work")
        and held.cols
        and (given_from(s, main[0], pronoun) or (held.cols_sentence == s.sentence and _gave_from(s, main[0])))
    ):
        take_held(msg, place)  # "24 weak, gave it a frame of brood from 21"
        used += main
    elif main and kind == "queen_work" and held.cols and (_from_there(s, main[0]) or _caught_for(msg, s, main[0])):
        take_held(msg, place)  # "pinched the queen in 58 and introduced one from QB"
        used += main
    elif main:
        ids, place.yard = settle_ids(list(main[0].v["ids"]), held.yard, msg.outfit)
        if held.yard is not None and place.yard != held.yard and _placed_here(msg, s, kind, held.yard):
            place.yard = held.yard
        but = {cid for m in exceptions for cid in settle_ids(list(m.v["ids"]), held.yard, msg.outfit)[0]}
        place.colonies = [x for x in ids if x not in but] if but < set(ids) else ids  # "9, 10 and 11 all but 10"
        used.append(main[0])
        if kind == "inspection" and exceptions and _goes_on_of_it(s, exceptions[0]):
            place.colonies = settle_ids(list(exceptions[0].v["ids"]), held.yard, msg.outfit)[0]
        if kind == "inspection" and (pair := _both_last(msg, s, main[0], place)):
            place.colonies = pair
    elif pronoun is not None and not exceptions and those_left(msg, s, pronoun, stance.state):
        assert held.cols is not None
        place.yard, place.colonies = held.cols["yard"] or held.yard, list(held.cols.get("except") or held.cols["ids"])
        used.append(pronoun)
    elif pronoun is not None and not exceptions and except_those(s, pronoun) and held.cols and held.cols["ids"]:
        place.every, place.except_ = True, list(held.cols["ids"])
        place.yard = held.yard or held.cols["yard"]
        used += [pronoun, *cues(s, "except"), *every]
    elif not exceptions and held.cols and held.cols["ids"] and (ones := _but_the_ones(s)) is not None:
        place.every, place.except_ = True, list(held.cols["ids"])
        place.yard = held.yard or held.cols["yard"]
        used += [ones, *cues(s, "except"), *every]
    elif (
        (kind in _OF_ONE or (stance.state == "planned" and kind in _WHOLE_YARD and s.marks[0].w in ("which", ",")))
        and not exceptions
        and (left := just_left_out(msg, s) or (None if main else _why_left_out(msg, i, s))) is not None
    ):
        ids = list(left.v["ids"])
        one = any(m.w in ("'s", "is", "was", "it's", "that's", "its") or m.w.startswith("is ") for m in s.marks[:4])
        place.colonies, place.yard = settle_ids(ids[-1:] if one else ids, held.yard, msg.outfit)
        held.cols, held.cols_sentence = {"ids": place.colonies, "yard": place.yard, "aside": True}, s.sentence
        used.append(left)  # and what follows is of it: "… but 76, that one's light | so on went a feeder"
    elif exceptions and kind in ("inspection", "change") and said_of_exception(s, exceptions[0]):
        place.colonies, place.yard = settle_ids(list(exceptions[0].v["ids"]), held.yard, msg.outfit)
        used += exceptions
    elif not cols and (nucs := _but_the_nucs(msg, s)) is not None:
        place.every, place.except_ = True, msg.outfit.nucs_at(held.yard)
        used += [nucs, *cues(s, "except"), *every]
    elif exceptions:
        ids, place.yard = settle_ids(list(exceptions[0].v["ids"]), held.yard, msg.outfit)
        pointed = pronoun or _of_those_opened(msg, every)
        group = list(held.cols["ids"]) if pointed is not None and held.cols is not None else []
        if pointed is not None and set(ids) < set(group):
            place.colonies = [x for x in group if x not in ids]  # "those same four are light except fourteen"
            used.append(pointed)
        else:
            place.every, place.except_ = True, ids + _and_nucs(msg, s, exceptions[-1])
        used += exceptions + cues(s, "except") + every
    elif rest is not None and (others := holding.the_others(msg)) is not None:
        place.colonies, place.yard = others
        used.append(rest)
    elif rest is not None and held.cols:
        place.yard = held.cols["yard"] or held.yard
        treated = _so_far(msg, kind, place.yard) if s.has("yard") and kind in _WHOLE_YARD else []
        there = msg.outfit.yard_ids.get(place.yard or "", frozenset())  # of some the yard was named behind them
        spoken = list(
            dict.fromkeys(cid for cid, yard in held.recent if yard == place.yard or (yard is None and cid in there))
        )
        named = all_named(msg, i)
        open_ = [cid for cid in spoken if cid not in named]
        if treated:
            place.every, place.except_ = True, treated  # "strips into 7 today, all the rest of Heath monday"
        elif len(open_) >= 1 and len(spoken) >= 3:
            place.colonies = open_  # the rest of the ones spoken of
        else:
            place.every, place.except_ = True, named
        used.append(rest)
    elif (
        every
        and every[0].w.startswith(("all of them", "all of those", "all of these", "all of em", "they all", "them all"))
        and held.cols
        and len(held.cols["ids"]) > 1
        and held.cols_sentence == s.sentence
        and not s.has("yard")
    ):
        take_held(msg, place)  # "in one four six and nine … I pull all of them thursday"
        used += every
    elif every and kind in _WHOLE_YARD and not s.has("yard") and (counted := _just_counted(msg, every[0])) is not None:
        place.colonies, place.yard = counted
        used += every
    elif kind not in ("conditions", "harvest", "change") and (all_ := _of_those_opened(msg, every)) is not None:
        take_held(msg, place)
        used.append(all_)
    elif every and not (
        (kind == "queen_work" and every[0].w in ("all", "all of them", "them all", "they all"))
        or (kind == "inspection" and every[0].w == "everywhere" and held.cols and held.cols_sentence == s.sentence)
        or (pronoun and held.cols and held.cols_sentence == s.sentence and not _of_things(msg, s, pronoun, every[0]))
        or (kind == "change" and hives is not None)
        or (kind == "harvest" and every[0].w == "all of it")  # of the honey
    ):
        place.every = True
        used += every
        if place.yard is None and held.cols and held.cols_sentence == s.sentence:
            place.yard = held.cols["yard"]  # "boards went on L1 to L12 and wraps go on the whole yard"
    elif hives is not None and kind in _WHOLE_YARD and place.yard and after_except(s, hives):
        place.every = True  # "all but two hives": which two is left to be read by a person
    elif (
        hives is not None and kind != "change" and not (kind == "queen_work" and hives.w.endswith(("of them", "of em")))
    ):
        place.count = int(number_of(hives).value)
        used.append(hives)
    elif kind == "conditions" or any(m.v.get("unknown") for m in s.all("thing")):
        return place, used
    elif kind == "treatment" and pronoun is None and place.yard and after_a_round(msg, i, s):
        place.every = True
    elif pronoun is not None and "n" in pronoun.v and not so_many(msg, int(pronoun.v["n"].value)):
        place.count = int(pronoun.v["n"].value)  # "nine hives there … in those nine"
        used.append(pronoun)
    elif (
        kind in _WHOLE_YARD and held.cols and held.cols["ids"] and _into_it(msg, s) and held.cols_sentence == s.sentence
    ):
        take_held(msg, place)  # "if fourteen turns out that way then pads in there as well"
    elif kind in _WHOLE_YARD and place.yard and pronoun is None and any(m.w == "there" for m in s.marks):
        place.every = place.supposed = True  # "hive nine is light … pulled the wraps there"
    elif (
        kind in ("gear", "treatment")
        and held.cols
        and held.cols.get("every")
        and held.cols.get("except")
        and held.cols_sentence == s.sentence
        and any(m.w in ("their", "they", "its") for m in s.marks)
    ):
        place.yard, place.colonies = (
            held.cols["yard"],
            list(held.cols["except"]),
        )  # "all except 71, its supers come off"
    elif (
        kind == "treatment"
        and pronoun is None
        and s.has("form", "agent")
        and going_out(s)
        and (before := put_in(msg, s)) is not None
    ):
        place = before  # "… all but seventy five; seventy five has a cell; I take the wafers out in three weeks"
    elif pronoun is not None and kind in _WHOLE_YARD and got_otherwise(msg, s, pronoun):
        place = those_left_out(msg)
        used.append(pronoun)  # "two pads each on all but four and nine, they got one"
    elif msg.head_cols is not None and kind not in ("conditions", "harvest", "todo"):
        place.colonies, place.yard = list(msg.head_cols["ids"]), msg.head_cols["yard"] or held.yard
    elif inherits(msg, i, s, kind, pronoun):
        assert held.cols is not None
        take_held(msg, place)
        if pronoun is not None:
            used.append(pronoun)
    elif kind in _WHOLE_YARD and place.yard and not _some_of_it(msg, s):
        place.every = place.supposed = True
    return place, used


def _some_of_it(msg: Message, s: Statement) -> bool:
    """ "half of larks got strips", "anything over three percent | at wens gets strips": a part of the yard, and which
    hives is not said.
    """
    at = next((k for k, m in enumerate(s.marks) if m.label == "yard" and not m.v.get("to")), 0)
    part = [m.w for m in s.marks[max(0, at - 3) : at] if m.w not in ("of", "the")]
    if part[-1:] and part[-1] in _PARTS:
        return True
    before = msg.before.marks if msg.before is not None and msg.before.sentence == s.sentence else []
    return any(a.w in _ANYTHING and b.w in _SUCH for a, b in pairwise([*before[:4], *s.marks]))


_PARTS = frozenset(["half", "most", "some", "part", "parts"])
_ANYTHING = frozenset(["anything", "everything", "whatever", "any", "anyone", "everyone"])
_SUCH = frozenset(["over", "above", "under", "below", "with", "that", "that's", "past"])


def _of_those_opened(msg: Message, every: list[Mark]) -> Mark | None:
    """ "inspected 1 to 6. | All queenright": the "all" that is of the colonies just opened, and not of the yard."""
    before, held = msg.before, msg.held.cols
    if not every or every[0].w not in _ALL_THOSE or before is None or held is None or len(held["ids"]) < _SEVERAL:
        return None
    opened = any(m.v.get("does") == "inspect" for m in before.all("verb")) and before.has("cols")
    return every[0] if opened and not before.has_head and not before.has("cue") else None


_ALL_THOSE = frozenset(["all", "all of them", "they all", "all were", "all are", "everything", "every one"])
_SEVERAL = 3


def got_otherwise(msg: Message, s: Statement, pronoun: Mark) -> bool:
    """Whether it is told how much those got that were left out of what all the others got."""
    held = msg.held
    if held.cols is None or not held.cols.get("every") or held.cols_sentence != s.sentence:
        return False
    left = held.cols.get("except")
    got = any(m.w in ("got", "get", "gets") for m in s.all("verb")) and s.has("number", "amount", "unit")
    return bool(left) and got and (pronoun.w in ("they", "those", "both") if len(left or ()) > 1 else pronoun.w == "it")


def those_left_out(msg: Message) -> Place:
    """The colonies left out of what was told of all the others."""
    cols = msg.held.cols or {}
    return Place(cols.get("yard") or msg.held.yard, list(cols.get("except") or []))


def _of_things(msg: Message, s: Statement, pronoun: Mark, every: Mark) -> bool:
    """ "sponges in at wens, whole yard, they stay in eight weeks": whether the word points to things that went into
    every hive, or the colonies spoken of stand in another yard.
    """
    if _elsewhere(msg, s):
        return True
    after = index_of(s, every) < index_of(s, pronoun)
    return after and pronoun.w.split()[0] in ("they", "them", "it") and s.has("yard") and every.w in _EVERY_HIVE


_EVERY_HIVE = frozenset(["whole yard", "the whole yard", "every hive", "every colony", "all hives", "all the hives"])


def _elsewhere(msg: Message, s: Statement) -> bool:
    """Whether the statement tells of a yard in which the roster has none of the colonies spoken of before."""
    held = msg.held.cols
    if (
        held is None
        or not held["ids"]
        or any(d.slots.get("step") == "moved" for d in msg.thread.lately(msg.first_draft))
    ):
        return False
    yards = [m.v["value"] for m in s.all("yard") if not m.v.get("to")]
    homes = [msg.outfit.homes_of(cid) for cid in held["ids"]]
    return len(yards) == 1 and all(homes) and not any(yards[0] in x for x in homes)


def _given_those(s: Statement, rest: Mark, pronoun: Mark) -> bool:
    """ "the rest are heavy, gave those three a gallon": what is found of the rest, and then given to those named."""
    between = s.marks[index_of(s, rest) + 1 : index_of(s, pronoun)]
    given = any(m.label == "verb" and m.w in ("gave", "fed", "put") for m in between)
    return given and pronoun.w.split()[0] in ("those", "these", "both")


def _just_counted(msg: Message, every: Mark) -> tuple[list[str], str | None] | None:
    """ "L2 eleven, L4 four, L9 eight, so they all get strips": those whose mites were counted one by one."""
    if not every.w.startswith(("they all", "them all", "all of them", "all of those", "all of these")):
        return None
    ids: list[str] = []
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.statement < msg.thread.statements - _NEAR:
        return None
    yard = last.slots.get("yard")
    for d in reversed(msg.thread.lately(msg.first_draft)):
        if d.kind != "mite_check" or not d.slots.get("colonies") or d.slots.get("yard") != yard:
            break
        ids[:0] = [cid for cid in d.slots["colonies"] if cid not in ids]
    return (ids, yard) if len(ids) > 1 else None


_NEAR = 2


def _from_to(s: Statement, first: Mark, second: Mark) -> bool:
    """Whether a thing goes from the first colonies on to the second."""
    one, two = neighbour(s, index_of(s, first), -1), neighbour(s, index_of(s, second), -1)
    return one is not None and one.w == "from" and two is not None and two.w in ("on", "in", "into", "onto", "to")


_OF_THEM = ("of them", "of em", "of 'em")
_BEEN = frozenset("had were was are is have still just been".split())


def _of_the_things(s: Statement, hives: Mark) -> bool:
    """ "pulled the pads at the quarry, three of them had slid off": so many pads, and no number of hives."""
    if not hives.w.endswith(_OF_THEM) or not s.has_any(THINGS):
        return False
    k = index_of(s, hives)
    after = neighbour(s, k, 1)
    told = any(m.label in THINGS for m in s.marks[:k])
    return told and after is not None and after.w in _BEEN


def keep_nucs(msg: Message, s: Statement, draft: Draft) -> None:
    """ "fed the nucs at the pond": no colony is named, but the roster may say which ones those are."""
    given = draft.kind in _WHOLE_YARD or draft.kind == "mite_check"
    if not given or not draft.slots.get("every_colony") or "except_colonies" in draft.slots:
        return
    if any(m.w.split()[-1] not in _NUCS and m.w not in _EVERY_ONE for m in s.all("every")):
        return
    for k, m in enumerate(s.marks):
        if m.w.split()[-1] not in _NUCS or s.has("change", "queen_work", "pronoun", "rest"):
            continue
        before = s.marks[k - 1] if k else None
        each = m.w.split()[0] in ("each", "every", "all") or (
            before is not None and before.w.split()[-1] in ("each", "every")
        )
        if m.w.split()[-1] == "nuc" and not each:
            continue
        if not each and before is not None and not (before.label == "verb" or before.w in _TO_NUCS):
            continue
        if msg.outfit.nucs_at(draft.slots.get("yard")):
            msg.of_nucs.append((draft, m))


_NUCS = frozenset(["nucs", "nuc"])
_EVERY_ONE = frozenset(["every one", "every one of them", "all of them", "each one"])
_TO_NUCS = frozenset("the on in to of for all into".split())


def name_nucs(msg: Message) -> None:
    """Names the colonies of the records kept as those of the nucs, where nothing that followed named them."""
    for draft, m in msg.of_nucs:
        if draft.slots.get("every_colony") and any(d is draft for d in msg.thread.lately(msg.first_draft)):
            del draft.slots["every_colony"]
            draft.put("colonies", msg.outfit.nucs_at(draft.slots.get("yard")), "the nucs of the yard")
            draft.spans.append((m.s, m.e))


def _and_nucs(msg: Message, s: Statement, last: Mark) -> list[str]:
    """ "all but three, nine and the nucs": the ids of the nucs, where they end the list of exceptions."""
    after = [m for m in s.marks[index_of(s, last) + 1 :] if m.w != "the"][:2]
    if len(after) == 2 and after[0].w in ("and", "or") and after[1].w == "nucs":
        return msg.outfit.nucs_at(msg.held.yard)
    return []


def _but_the_nucs(msg: Message, s: Statement) -> Mark | None:
    """ "wraps off at the pond, everything but the nucs": the word, where the roster says which those are."""
    if not s.has("cue"):
        return None
    for k, m in enumerate(s.marks):
        if m.w not in _NUCS or k < 1:
            continue
        before = s.marks[k - 2] if s.marks[k - 1].w == "the" and k > 1 else s.marks[k - 1]
        if before.v.get("cue") == "except" and msg.outfit.nucs_at(msg.held.yard):
            return m
    return None


_OF_ONE = frozenset(["inspection", "change", "queen_work"])
"""What a reason told after an exception makes ("all but 41, which is dead", "… which I'm requeening")."""


def _placed_here(msg: Message, s: Statement, kind: str, yard: str) -> bool:
    """Whether the yard is named beside the colonies, heads the list they stand in, or they are new, so that the roster
    cannot have them. A yard whose ids all carry a letter has no bare number.
    """
    if yard in msg.outfit.single_letter:
        return False
    if kind == "change" and any(m.v["step"] in _MAKES_NEW for m in s.all("change")):
        return True
    if any(m.v["value"] == yard and not m.v.get("to") for m in s.all("yard")):
        return True
    before = msg.before
    if kind != "mite_check" or s.opens != "soft" or before is None or before.sentence != s.sentence:
        return False
    first = next(m for m in s.marks if m.label != "comma")
    return first.label == "cols" and first.w.isdecimal() and before.marks[-1].label == "value"  # "30 2, 31 4, 9 1"


_MAKES_NEW = frozenset(["swarm_caught", "bought"])
"""What brings a colony that was not there before."""


def those_left(msg: Message, s: Statement, pronoun: Mark, state: str) -> bool:
    """ "all but 78 and 79, I'll get the strips out of those in a week", "all but 44, no strips in that one yet": the
    exceptions, still to be done or left undone.
    """
    held = msg.held.cols
    if held is None or msg.held.cols_sentence != s.sentence:
        return False
    newest = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if "n" in pronoun.v and newest is not None and newest.slots.get("except_colonies") == held["ids"]:
        return state == "not_done"  # "those two" are spoken of already
    if not held.get("every") or not held.get("except"):
        return False
    one = len(held["except"]) == 1
    names = ("that one", "this one", "it") if one else ("those", "these", "them")
    if not pronoun.w.startswith(names) or s.has("cols", "every", "hives", "yard", "rest"):
        return False
    if "n" in pronoun.v and number_of(pronoun).value != len(held["except"]):
        return False
    if state == "not_done":
        return True
    if state != "planned":
        return False
    told = [m for m in s.marks if m.label not in ("comma", "filler") and m.w not in ("and", "but", "so")]
    named = pronoun.w.startswith(("that one", "this one")) or "n" in pronoun.v
    if told[0] is pronoun and (named or (len(told) > 1 and told[1].w in ("gets", "needs", "get"))):
        return True  # "all but L4, it gets one friday"
    return any(m.w in ("get", "do", "grab", "finish", "fetch") for m in s.all("verb"))


def _both_last(msg: Message, s: Statement, cols: Mark, place: Place) -> list[str]:
    """ "five dead | nine dead, starved both of them": what is seen last is said of the one before, too."""
    last = s.marks[-1]
    if last.label != "pronoun" or not last.w.startswith(("both", "the pair")) or not place.colonies:
        return []
    fact = neighbour(s, len(s.marks) - 1, -1)
    before = msg.held.recent[-1] if msg.held.recent else None
    if fact is None or fact.label != "fact" or len(s.all("fact")) != 1 or len(place.colonies) != 1 or before is None:
        return []
    alone = before[1] == place.yard and before[0] not in place.colonies
    return [before[0], *place.colonies] if alone else []


def put_in(msg: Message, s: Statement) -> Place | None:
    """Where what comes out now was put in, if this message said so."""
    forms = {m.v.get("form") for m in s.all("form", "agent")} - {None}
    for d in reversed(msg.thread.lately(msg.first_draft)):
        if d.kind == "treatment" and d.slots.get("step") == "in" and d.slots.get("state", "done") == "done":
            if forms and d.slots.get("form") not in forms:
                return None
            return place_of(d)
    return None


def so_many(msg: Message, n: int) -> bool:
    """Whether the colonies spoken of last are that many."""
    held = msg.held.cols
    return held is not None and (bool(held.get("every")) or held.get("count") == n or len(held["ids"]) == n)


def _so_far(msg: Message, kind: str, yard: str | None) -> list[str]:
    """The colonies of the yard that this message tells of one kind of work done to."""
    ids: list[str] = []
    for d in msg.thread.lately(msg.first_draft):
        if d.kind == kind and d.slots.get("yard") == yard and d.slots.get("state", "done") == "done":
            ids += [cid for cid in d.slots.get("colonies", []) if cid not in ids]
    return ids


def washed(s: Statement, cols: Mark) -> bool:
    """Whether those colonies are the washed ones ("strips are in every hive, I washed 20 first")."""
    before = neighbour(s, index_of(s, cols), -1)
    return before is not None and before.label == "method" and s.has("every")


def after_except(s: Statement, hives: Mark) -> bool:
    """Whether so many hives are the exception ("all but two hives")."""
    before = neighbour(s, index_of(s, hives), -1)
    return before is not None and before.label == "cue" and before.v.get("cue") == "except"


def given_from(s: Statement, cols: Mark, pronoun: Mark | None) -> bool:
    """Whether those colonies gave what "it" or "them" before got ("gave it a frame of brood from 21")."""
    k = index_of(s, cols)
    before = neighbour(s, k, -1)
    if gets_from(s.marks[:k]):
        return True  # "tomorrow she gets a cell off S2"
    if before is None or pronoun is None or index_of(s, pronoun) > k:
        return False
    if before.w == "of" and (x := neighbour(s, k - 1, -1)) is not None and x.w in ("out", "off"):
        gave = neighbour(s, index_of(s, pronoun), -1)
        return gave is not None and gave.w in ("gave", "give", "giving")  # "gave it a frame of eggs out of 7"
    return before.w == "from" and not going_out(s)


def _gave_from(s: Statement, cols: Mark) -> bool:
    """ "H2 queenless, gave a frame of eggs from H1", "no eggs in ten so i put in a frame of brood out of eleven":
    nothing says to whom, so to the colony spoken of.
    """
    k = index_of(s, cols)
    before = s.marks[k - 1].w if k else ""
    out_of = before == "from" or (before == "of" and k > 1 and s.marks[k - 2].w == "out")
    gave = any(m.w in ("gave", "give", "added", "add", "got") or m.v.get("dir") == "in" for m in s.all("verb"))
    return out_of and gave and s.opens == "soft" and not going_out(s)


def _from_there(s: Statement, cols: Mark) -> bool:
    """Whether a queen that is introduced comes from those colonies."""
    before = neighbour(s, index_of(s, cols), -1)
    given = any(m.v.get("step") in ("introduced", "requeened", "cells_placed") for m in s.all("queen_work"))
    return given and before is not None and before.w == "from"


def _caught_for(msg: Message, s: Statement, cols: Mark) -> bool:
    """ "N6 is laying, caught that queen for 13": the queen is caught where it was last, and goes to the other."""
    before = neighbour(s, index_of(s, cols), -1)
    caught = any(m.v.get("step") in ("caught", "banked") for m in s.all("queen_work"))
    return caught and before is not None and before.w == "for" and msg.held.cols_sentence == s.sentence


def said_of_exception(s: Statement, exception: Mark) -> bool:
    """ "all but F4 (still empty)": what follows the exception is said of it."""
    at = index_of(s, exception)
    facts = [index_of(s, m) for m in s.marks if m.label in ("fact", "change")]
    return bool(facts) and min(facts) > at


def _goes_on_of_it(s: Statement, exception: Mark) -> bool:
    """ "one to six all good but four, it's got sacbrood": what was seen is of the exception."""
    after = neighbour(s, index_of(s, exception), 1)
    return after is not None and after.w in ("it's", "she's", "it", "she", "that's") and said_of_exception(s, exception)


_REASONS = frozenset(["cause", "because", "since"])


def just_left_out(msg: Message, s: Statement) -> Mark | None:
    """ "all but 41, | that's dead", "except 72 | which is dead": the exception that the statement before ends in."""
    before = msg.before
    first = next((m for m in s.marks if m.label not in ("comma", "filler") and m.w not in _LED_IN), None)
    if (
        before is None
        or first is None
        or before.sentence != s.sentence
        or (before.marks[-1].label not in ("cols", "comma") and before.marks[-1].w != ")")
    ):
        return None
    her = first.w.split()[0] in _COULD_NOT and s.marks[-1].label == "fact" and s.marks[-1].w.split()[-1] in _HER
    if first.w.split()[0] not in _POINTS_BACK and not her and not any(against(m, first) for m in before.marks):
        return None
    cols = before.all("cols")
    return cols[-1] if cols and holding.is_exception(msg, before, cols[-1]) else None


def _why_left_out(msg: Message, i: int, s: Statement) -> Mark | None:
    """ "all but 51, which I couldn't get into because of | the wasps": the exception of which the reason is told."""
    told = [x for x in msg.statements[max(0, i - 2) : i] if x.sentence == s.sentence]
    if not told or [m.w for m in told[-1].marks[-2:]] != ["because", "of"]:
        return None
    for x in reversed(told):
        cols = x.all("cols")
        if cols:
            return cols[-1] if holding.is_exception(msg, x, cols[-1]) else None
    return None


_COULD_NOT = frozenset("she he couldn't can't didn't never i we no".split())
_HER = frozenset(["her", "queen"])
"""How one ends that says of her that she was not found: "marked every queen but S9's, couldn't find her"."""
_LED_IN = _REASONS | SEEN_AT
_POINTS_BACK = frozenset(
    "which where that's it's its that who they're is was dead those these both they it neither".split()
)


def except_those(s: Statement, pronoun: Mark) -> bool:
    """Whether "those" are the exception ("all but those")."""
    k = index_of(s, pronoun)
    before = neighbour(s, k, -1)
    return before is not None and before.label == "cue" and before.v.get("cue") == "except"


def _but_the_ones(s: Statement) -> Mark | None:
    """What tells the colonies apart that are the exception ("all but the light ones", "everybody but the deadout")."""
    return next((m for m in s.marks if m.v.get("of") == "ones" and left_aside(s, m)), None)


def take_held(msg: Message, place: Place) -> None:
    """Takes the colonies spoken of before."""
    held = msg.held.cols
    assert held is not None
    place.yard = held["yard"] or msg.held.yard
    if held.get("every"):
        place.every = True
        place.except_ = held.get("except")
    elif held.get("count") is not None:
        place.count = held["count"]
    else:
        place.colonies = list(held["ids"])


def all_named(msg: Message, i: int) -> list[str]:
    """The ids named in this message at the yard that holds, those too of which the yard was named behind them."""
    named: list[str] = []
    yard = (msg.held.cols or {}).get("yard")
    there = msg.outfit.yard_ids.get(yard or "", frozenset())
    for draft in msg.thread.lately(msg.first_draft):
        where = draft.slots.get("yard")
        for cid in draft.slots.get("colonies", []):
            if cid not in named and (where == yard or (where is None and cid in there)):
                named.append(cid)
    return named


def after_a_round(msg: Message, i: int, s: Statement) -> bool:
    """ "three was eleven, nine was thirteen, so we treat Saturday": after several counts the yard is meant."""
    if any(m.w in ("it's", "it", "its", "that's") for m in s.marks[:2]):
        return False  # "and if twenty comes out over three percent | it's getting strips"
    counted = [
        d.slots.get("colonies")
        for d in msg.thread.lately(msg.first_draft)
        if d.kind == "mite_check" and d.sentence == s.sentence and d.slots.get("state", "done") == "done"
    ]
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    return len({tuple(c or ()) for c in counted}) > 1 and last is not None and last.kind == "mite_check"


def place_of_last(msg: Message, s: Statement) -> None:
    """ "he pulled the gel last night | that's the quarry, whole yard": where what was just said was done."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    yard = s.first("yard")
    if last is None or yard is None or last.kind not in _WHOLE_YARD or last.sentence != s.sentence:
        return
    if cues(s, "plan") or (msg.before is not None and cues(msg.before, "except")):
        return  # "wraps off everywhere except larks and | I'll do larks on the weekend", "… except wens | and the pond"
    if {"yard", "colonies", "colony_count"} & set(last.slots) or last.statement != msg.thread.statements - 1:
        return
    last.put("yard", yard.v["value"], "yard named last")
    last.put("every_colony", True, "every colony" if s.has("every") else WHOLE_YARD)
    last.spans += [(m.s, m.e) for m in s.all("yard", "every")]


def yard_said_last(msg: Message) -> None:
    """ "hive two six, hive three eleven, that's all at the pond": the one yard named is of what was said."""
    named = [(s, m) for s in msg.statements for m in s.all("yard") if not m.v.get("to")]
    if len({m.v["value"] for _, m in named}) != 1:
        return
    statement, mark = named[0]
    here = msg.outfit.yard_ids.get(mark.v["value"], frozenset())
    of_all = statement is msg.statements[-1] and _of_all_above(statement)
    for d in msg.thread.lately(msg.first_draft):
        if d.kind == "todo" or "yard" in d.slots or not (of_all or d.sentence == statement.sentence):
            continue
        if d.kind in ("conditions", "harvest") and not d.slots.get("colonies"):
            d.put("yard", mark.v["value"], "yard named last")  # "eleven buckets, that's off the pond today"
            d.spans.append((mark.s, mark.e))
        if not d.slots.get("colonies"):
            continue
        ids, yard = settle_ids(d.slots["colonies"], mark.v["value"], msg.outfit)
        if yard == mark.v["value"] and here.issuperset(ids):
            d.put("yard", yard, "yard named last")
            d.slots["colonies"] = ids
            d.spans.append((mark.s, mark.e))


def _of_all_above(s: Statement) -> bool:
    """ "all at the pond", "both at Quarry" below a list: where all stand that are told of in it."""
    words = [m.w for m in s.marks if m.label in ("w", "pronoun", "every") and m.w.isalnum()]
    names = all(m.label in ("w", "pronoun", "every", "yard", "comma", "filler") for m in s.marks)
    return (
        s.opens == "line" and names and words[:1] in (["all"], ["both"], ["these"], ["everything"]) and len(words) < 4
    )


def _nth(s: Statement, cols: dict[str, Any] | None) -> Mark | None:
    """The ordinal that picks one of the colonies spoken of ("the first gave eight mites"); "the third" is a day too."""
    nth = s.first("ordinal")
    day = s.first("date")
    if day is not None and cols and len(cols["ids"]) > 1 and day.w in _NTH and s.has("verb"):
        return Mark("ordinal", day.s, day.e, day.w, {"value": _NTH[day.w]})
    return nth


_NTH = {"the first": 1, "the second": 2, "the third": 3, "the fourth": 4, "the fifth": 5}


def _the_yard(msg: Message, s: Statement) -> bool:
    """Whether "the yard", "the place" is said to have given it."""
    before = list(msg.before.marks[-2:]) if msg.before is not None else []
    words = [m.w for m in [*before, *s.marks]]
    return any(a == "the" and b in ("yard", "place", "apiary") for a, b in pairwise(words))


def _in_there(s: Statement) -> bool:
    """Whether something goes "in there", into the hive spoken of."""
    return any(a.w in ("in", "into") and b.w == "there" for a, b in pairwise(s.marks))


def _into_it(msg: Message, s: Statement) -> bool:
    """ "fourteen is light, so fondant in there": into the hive spoken of last; but the next round of a treatment it
    had no round of alone goes in the whole yard ("twenty is heavy and the second round goes in there friday").
    """
    if not _in_there(s) or not s.has("round") or msg.held.cols is None:
        return _in_there(s)
    ids = set(msg.held.cols["ids"])
    return any(d.kind == "treatment" and ids & set(d.slots.get("colonies", ())) for d in msg.thread.lately())


def _it_went(s: Statement, kind: str, pronoun: Mark) -> bool:
    """ "pulled it at the quarry on the ninth": what was put in or pulled, not the colonies it was in."""
    before = neighbour(s, index_of(s, pronoun), -1)
    moved = before is not None and before.label == "verb" and before.v.get("dir")
    return kind == "treatment" and pronoun.w in ("it", "them") and bool(moved) and not s.has("agent", "form")


def all_of_yard(s: Statement) -> bool:
    """ "all of the sawmill got an excluder and a super": each hive there."""
    return any(
        a.w == "all" and b.w == "of" and c.label == "yard"
        for a, b, c in zip(s.marks, s.marks[1:], s.marks[2:], strict=False)
    )


def inherits(msg: Message, i: int, s: Statement, kind: str, pronoun: Mark | None) -> bool:
    """Whether a record of that kind takes the colonies spoken of before."""
    held = msg.held
    if not held.cols:
        return False
    if any(not m.v.get("to") for m in s.all("yard")) and (not pronoun or _it_went(s, kind, pronoun)):
        return False
    if held.cols.get("died") and pronoun is None and kind in _WHOLE_YARD and held.yard and not going_out(s):
        return False  # "s eleven dead, second round of oxalic a week from friday": none for the dead one
    if kind == "change" and s.has("yard") and any(m.v.get("step") == "swarm_caught" for m in s.all("change")):
        return False  # "caught a swarm at the quarry, it was up in the cedar"
    if pronoun is not None and _elsewhere(msg, s) and not s.has("queen_work", "queen_noun"):
        return False  # "l nine is light | two strips in each of the quarry hives so they're due out friday"
    if pronoun is not None:
        banked = any(m.v.get("step") == "banked" for m in s.all("queen_work"))
        return not (banked and s.has("yard"))  # "caught her in 14, gonna bank her at the sawmill"
    own_thing = s.has("item", "feed") and held.cols_sentence == s.sentence
    if own_thing and kind in _WHOLE_YARD and held.cols.get("every") and held.cols.get("except"):
        return False  # "excluders off everything but nine, wraps go on the first": the wraps on all of them
    placed = held.yard or held.cols["yard"]
    if kind == "harvest" and placed and any(m.w == "there" for m in s.marks) and not _in_there(s):
        return False  # "45 is hot and sunday i'm pulling the honey there", "we got nine buckets from there"
    if kind == "harvest" and _the_yard(msg, s):
        return False  # "took the escapes off l5 and the yard gave us two hundred pounds"
    if held.cols_sentence == s.sentence:
        return kind != "harvest" or not held.cols.get("every")
    if held.cols_line == s.line:
        return kind in ("inspection", "mite_check", "queen_work", "gear", "feed", "treatment", "change")
    return False
