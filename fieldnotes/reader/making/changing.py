"""Colonies made, joined, moved, lost and sold; and queen work said twice."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.marks import index_of, neighbour, tidy
from fieldnotes.reader.frames.queen_work import AT_WORK, frames_along, queen_goes
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.making import (
    finishing,
    holding,
    placing,
)
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import THINGS, Mark, goes_along
from fieldnotes.reader.parting.governing import joins
from fieldnotes.reader.parting.words import SAID_OF_SUBJECT
from fieldnotes.reader.scope import Draft, Place, settle_ids


def same_work(msg: Message, draft: Draft) -> bool:
    """Joins the newest queen work with one of the same step, colony and day in its sentence ("…, in a cage")."""
    for old in msg.thread.lately(msg.first_draft):
        if (
            old is not draft
            and old.kind == "queen_work"
            and old.sentence == draft.sentence
            and old.slots.get("colonies")
            and all(old.slots.get(k) == draft.slots.get(k) for k in ("step", "colonies", "on", "state"))
        ):
            finishing.merge(old, draft, ("count", "mark"))
            old.statement = draft.statement
            msg.thread.drafts.remove(draft)
            return True
    return False


_OF_ITS_OWN = ("colonies", "count", "colony_count", "every_colony", "with", "to_yard", "mark", "state")


def announced(msg: Message, draft: Draft) -> None:
    """ "did the grafting this morning, grafted thirty out of S3": work that was only announced is that told of next."""
    before = [d for d in msg.thread.drafts[msg.first_draft :][-2:] if d is not draft]
    if not before or before[0].kind != draft.kind or before[0].statement < msg.thread.statements - 1:
        return
    old = before[0]
    if any(slot in old.slots for slot in _OF_ITS_OWN) or not any(slot in draft.slots for slot in _OF_ITS_OWN):
        return
    if any(draft.slots.get(slot) != value for slot, value in old.slots.items() if slot != "yard"):
        return
    if old.slots.get("yard") in (None, draft.slots.get("yard")):
        draft.spans += old.spans
        msg.thread.drafts.remove(old)


_NEW_QUEEN = frozenset(["introduced", "requeened", "released", "caught"])
_SHE_IS = frozenset("she's she is was it's they're which".split())


def marked_so(msg: Message, s: Statement, draft: Draft) -> bool:
    """ "introduced a new queen, she's marked blue": how the queen just spoken of is marked, and no work of today."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if draft.slots.get("step") != "marked" or "mark" not in draft.slots or s.has("cols", "person", "date", "yard"):
        return False
    if last is None or last.kind != "queen_work" or last.slots["step"] not in _NEW_QUEEN or "mark" in last.slots:
        return False
    work = s.first("queen_work")
    before = neighbour(s, index_of(s, work), -1) if work is not None else None
    bare = before is None and work is not None and work.w.split()[0] == "marked" and not work.w.startswith(AT_WORK)
    bare = bare and last.slots["step"] in ("introduced", "requeened")
    if not bare and (before is None or before.w not in _SHE_IS):
        return False  # "requeened fifty one, marked green", but "… and marked her green"
    if last.statement != msg.thread.statements - 1:
        return False
    last.put("mark", draft.slots["mark"], draft.why.get("mark", "mark"))
    last.spans += draft.spans
    last.statement = msg.thread.statements
    return True


def of_queens_caught(msg: Message, s: Statement, draft: Draft) -> bool:
    """ "caught six queens at the pond, marked them all white": the queens in hand, and no colony of theirs is known."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.kind != "queen_work" or last.sentence != s.sentence or s.has("cols", "rest"):
        return False
    in_hand = last.slots["step"] in ("caught", "marked", "clipped") and "colonies" not in last.slots
    them = any(m.w.split()[0] in ("them", "all", "every", "both") for m in s.all("pronoun", "every"))
    return in_hand and them and draft.slots["step"] in ("marked", "clipped")


_CARRIES = listed("carrying")


def _to_yard_alone(s: Statement, yard: Mark, before: Statement | None) -> bool:
    """ "H7 & H9 to mill lane Saturday", "moved fifty to the pond | and 51 to the quarry": colonies, "to" and a yard
    that is not theirs, and no more but a day.
    """
    k = index_of(s, yard)
    goes_on = before is not None and any(m.v.get("step") == "moved" for m in before.all("change"))
    if (s.opens == "soft" and not goes_on) or k < 2 or s.marks[k - 1].w != "to" or s.marks[k - 2].label != "cols":
        return False
    if not goes_on and not s.has("date", "cue") and k < len(s.marks) - 1:
        return False
    return all(m.label in ("date", "cue", "comma", "filler", "w", "sky") for m in s.marks[k + 1 :])


_GO = frozenset("go goes going went gone came come comes coming".split())
_TO_A_PLACE = frozenset("to into over onto up down the".split())


def carried(s: Statement, before: Statement | None) -> None:
    """ "took l four to the quarry", "six hives from the pond to larks": colonies carried to a yard are moved.
    Changes the mark of the verb, or of "to", in place.
    """
    yard = s.first("yard")
    if yard is not None and _took_nucs(s):
        return
    if _to_a_buyer(s):
        return
    if yard is None or s.has_head or not (s.has("cols", "hives") or _so_many(s)):
        return
    if not s.has("verb", "pronoun") and _to_yard_alone(s, yard, before):
        _is_moved(s, s.marks[index_of(s, yard) - 1], tense="past" if s.opens == "soft" else "base")
        yard.v["to"] = True
        return
    place = _new_place(s)
    to = next((y for y in s.all("yard") if _led_by_to(s, y)), place[0] if place else None)
    verb = next((m for m in s.marks if m.label in ("verb", "w") and m.w.split()[0] in _CARRIES), None)
    if to is None or s.has("rest"):
        return  # "four into h1 and h2 and the rest go to mill lane": the rest goes
    if verb is None:
        if not s.has("verb", "cue") and s.has("hives") and yard is not to and _from(s, yard):
            way = next(m for m in reversed(s.marks[: index_of(s, to)]) if m.w == "to")
            _is_moved(s, way, tense="past")
        return
    if verb.w.split()[0] in _GO and verb is not s.marks[0]:
        if s.marks[index_of(s, verb) - 1].w in ("i", "we", "then", "and"):
            return  # "did nine and ten and then went over to wens": who worked went there
    went = verb.w.split()[-1] in _GO  # "41 and 42 go to heath"; "took l four to the quarry" begins with the verb
    if went == (verb is not next(m for m in s.marks if m is verb or m.label in ("cols", "hives", "number"))):
        _is_moved(s, verb, tense=verb.v.get("tense", "past"))


def go_there_too(s: Statement, before: list[Statement]) -> None:
    """ "moved l three to the brick kiln yard um | l nine goes over there on wednesday": others moved to the same yard.
    Changes the mark of the verb in place.
    """
    if s.has_head or not s.has("cols", "pronoun", "rest") or s.has("yard"):
        return
    subject = next(m for m in reversed(s.marks) if m.label in ("cols", "pronoun", "rest"))
    verb = goes_along(s.marks, index_of(s, subject))
    moved = any(m.v.get("step") == "moved" for x in before for m in x.all("change"))
    if verb is not None and moved:
        _is_moved(s, verb, tense="past" if verb.w in ("went", "followed") else "base")
        verb.rule = _THERE_TOO


_THERE_TOO = "goes there too"


def _is_moved(s: Statement, m: Mark, tense: str) -> None:
    m.label, m.v, m.rule = "change", {"step": "moved", "tense": tense}, "carried to a yard"
    s.seal()


def _so_many(s: Statement) -> bool:
    """ "took eight more from larks to the quarry"."""
    return any(m.label == "number" and x.w in ("more", "of") for m, x in pairwise(s.marks))


_BUYERS = listed("buyers")
_FETCHED = frozenset(["took", "collected", "fetched", "takes", "taking"])


def _to_a_buyer(s: Statement) -> bool:
    """ "four nucs went to the school", "a fellow took six hives": sold. Changes the mark of the verb in place."""
    if s.has_head or not s.has("cols", "hives", "number"):
        return False
    for k, m in enumerate(s.marks):
        after = [x.w for x in s.marks[k + 1 : k + 4]]
        went = m.w.split()[-1] in _GO and after[:1] == ["to"] and not _BUYERS.isdisjoint(after)
        fetched = m.w in _FETCHED and k and s.marks[k - 1].w in _BUYERS
        if m.label in ("verb", "w") and (went or fetched):
            m.label, m.v, m.rule = "change", {"step": "sold", "tense": m.v.get("tense", "past")}, "to a buyer"
            s.seal()
            return True
    return False


def _took_nucs(s: Statement) -> bool:
    """ "took two nucs from the pond to larks": none is made, they are moved."""
    taken = next((m for m in s.all("change") if m.v["step"] == "nuc_made" and m.w.split()[0] in _CARRIES), None)
    if taken is None or s.has("cols") or not any(_led_by_to(s, y) for y in s.all("yard")):
        return False
    taken.v = {**taken.v, "step": "moved"}
    return True


def _from(s: Statement, yard: Mark) -> bool:
    k = index_of(s, yard)
    return bool({"from", "off", "of"} & {m.w for m in s.marks[max(0, k - 2) : k]})


def _led_by_to(s: Statement, yard: Mark) -> bool:
    """ "six went from Heath | over to Mill Lane"."""
    k = index_of(s, yard)
    return "to" in {m.w for m in s.marks[max(0, k - 3) : k] if m.w in _TO_A_PLACE}


def given_before(msg: Message, s: Statement) -> bool:
    """ "so it got one strip | and a beetle trap": whether a thing joined by "and" goes on with what was given."""
    before = msg.before
    taken = msg.thread.drafts[-1] if msg.thread.drafts else None
    if taken is not None and taken.slots.get("item") == "brood_frame" and taken.slots.get("step") == "off":
        return not s.has("item")  # "took 2 frames of brood out of 21 | 23 got 2 frames of brood"
    dated = s.has("item") and s.has("date") and all(m.label in ("item", "date", "comma", "filler") for m in s.marks)
    if dated and taken is not None and taken.kind == "gear" and taken.statement == msg.thread.statements - 1:
        return taken.slots.get("step") == "on"  # "reducers went on last week | guards this week"
    if before is None or before.sentence != s.sentence or not s.marks or s.marks[0].w not in ("and", "plus", "with"):
        return False
    given = any(m.v.get("dir") == "in" and m.v.get("tense") == "past" for m in before.all("verb"))
    return given and before.has_any(THINGS) and not s.has("verb", "cue", "number")


def _other_things_gone(msg: Message, s: Statement) -> bool:
    """ "they're S3 to S7 now and I brought doughnuts too | but those are gone": what somebody did stands between."""
    before = msg.before
    if before is None or s.has("cols", "hives", "every") or not s.has("pronoun"):
        return False
    if not any(m.w.split()[-1] == "gone" for m in s.all("change")):
        return False
    since = before.marks[max((k for k, m in enumerate(before.marks) if m.label == "cols"), default=-1) + 1 :]
    k = next((k for k, m in enumerate(since) if m.w in ("i", "we")), len(since))
    return len(since) - k > 3 and all(m.label == "w" for m in since[k:])


def _queens_dealt_in(msg: Message, s: Statement) -> bool:
    """ "the queens are out of the bank, sold the last eighteen": queens changed hands, and no hives."""
    before = msg.before
    if before is None or before.sentence != s.sentence or s.has("cols", "noun", "every", "yard"):
        return False
    if any(not m.w.endswith(("of them", "of em")) for m in s.all("hives")):
        return False
    queens = any(m.w.split()[-1] in ("queens", "virgins", "cells") for m in before.all("queen_noun", "queen_work"))
    return queens and s.has("pronoun", "number", "value", "hives") and not before.has("hives", "change")


def finish_change(msg: Message, i: int, s: Statement, stance: Stance, draft: Draft) -> None:
    """Place, other side and number of a change."""
    step = draft.slots["step"]
    if step in ("died", "swarmed") and stance.state == "planned" and stance.said is None:
        stance = stance.turned("done")  # "9: dead" below "To do": nobody plans it
    if step == "moved" and _cells_moved(msg, s):
        return
    if step == "died" and (stance.state == "not_done" or _other_things_gone(msg, s)):
        return  # "five isn't dead, just a softball of bees"
    if step == "died" and _swarm_lost(msg, s):
        return
    if step == "combined" and _told_again(msg, s, draft):
        return
    if step in ("sold", "bought") and _queens_dealt_in(msg, s):
        return
    cols = [m for m in s.all("cols") if not holding.is_exception(msg, s, m)]
    to = next((m for m in s.all("yard") if m.v.get("to")), None)
    place, used = placing.where(msg, i, s, "change", stance)
    if step == "bought" and not cols and not s.has("pronoun"):
        place.colonies = None  # "44 dead, buy nucs by may first": nothing of those told of before
    those: list[str] = []
    if len(cols) > 1:
        ids, _ = settle_ids(list(cols[1].v["ids"]), place.yard, msg.outfit)
        first = list(place.colonies or [])
        if step in ("nuc_made", "split") and made_from_second(s, cols):
            place.colonies, ids = ids, first
            place.colonies, place.yard = settle_ids(place.colonies, msg.held.yard, msg.outfit)
        again = step in ("nuc_made", "combined") and set(ids) <= set(
            place.colonies or []
        )  # "made n5 and n6, the queen is in n5"
        owns = neighbour(s, index_of(s, cols[1]), 1)
        if step == "moved" and ((owns is not None and owns.w == "'s") or on_top(s, cols[1])):
            pass  # "moved hive two to hive five's spot"
        elif step in ("combined", "moved", "split", "nuc_made") and not again:
            if step == "combined" and _right_after(s, "from", cols[1]):
                first, ids = ids, first  # "nine is queenless, shook in the nuc from N6": N6 goes into nine
                place.colonies, place.yard = settle_ids(first, msg.held.yard, msg.outfit)
            draft.put("with", ids, "the other side")
        elif step in ("sold", "died", "bought"):
            place.colonies = first + [x for x in ids if x not in first]
        draft.spans.append((cols[1].s, cols[1].e))
    elif (
        step in ("split", "combined")
        and len(cols) == 1
        and into(s, cols[0])
        and msg.held.cols
        and (not msg.held.cols.get("every") or (those := _those_left_out(msg, s)))
        and (
            s.has("pronoun")
            or (step == "split" and msg.held.cols_line == s.line)
            or _it_joins(msg, s, cols[0])
            or any(m.w in ("front", "infront") for m in s.marks)
        )
    ):
        draft.put("with", list(place.colonies or []), "the other side")
        place = Place()
        placing.take_held(msg, place)
        if those:
            place.every, place.except_, place.colonies = False, None, those
    elif step in ("nuc_made", "split") and len(cols) == 1 and _out_of_held(msg, s, cols[0]):
        draft.put("with", list(place.colonies or []), "what it is called now")
        draft.spans.append((cols[0].s, cols[0].e))
        place = Place()
        placing.take_held(msg, place)
    elif step == "nuc_made" and len(cols) == 1 and (made := _made_from(msg, s)) is not None:
        draft.put("with", settle_ids(list(made.v["ids"]), place.yard, msg.outfit)[0], "the new ones")
        draft.spans.append((made.s, made.e))
    elif step == "moved" and len(cols) == 1 and to is not None and msg.held.cols and _now(s, cols[0]):
        draft.put("with", list(cols[0].v["ids"]), "what it is called now")  # "HIVE 61 | moved to Quarry, is now 18"
        place = Place()
        placing.take_held(msg, place)
    elif step == "moved" and len(cols) == 1 and to is not None and _they_are_now(s, cols[0]):
        draft.put("with", settle_ids(list(cols[0].v["ids"]), to.v["value"], msg.outfit)[0], "what they are called now")
        place.colonies, place.yard = None, msg.held.yard
        if "colony_count" not in draft.slots:
            draft.put("colony_count", len(cols[0].v["ids"]), "as many as are named")
        draft.spans.append((cols[0].s, cols[0].e))
    elif step == "combined" and len(cols) == 1 and len(place.colonies or []) == 2 and _together(s):
        draft.put("with", (place.colonies or [])[1:], "the other side")
        place.colonies = (place.colonies or [])[:1]
    elif step in ("nuc_made", "split") and cols and (new := _listed_behind(place.colonies or [], draft)):
        draft.put("with", new, "the new ones")
        place.colonies = [x for x in place.colonies or [] if x not in new]
        if place.yard is None:
            place.colonies, place.yard = settle_ids(place.colonies, None, msg.outfit)
    elif step == "nuc_made" and cols and named_nucs(s, cols[0]):
        draft.put("with", place.colonies, "the new ones")
        place.colonies = None
    left = next((m for m in s.all("yard") if m.v.get("left")), None) if step == "moved" else None
    if left is not None:
        draft.put("to_yard", msg.held.yard, "moved here")
        place.yard = left.v["value"]
    elif to is not None:
        draft.put("to_yard", to.v["value"], "to the yard")
        draft.spans.append((to.s, to.e))
    elif step == "moved" and draft.why["step"] == _THERE_TOO:
        moved = msg.last("change")
        if moved is not None and "to_yard" in moved.slots:
            draft.put("to_yard", moved.slots["to_yard"], "where the others went")
            draft.spans += [(m.s, m.e) for m in s.marks if m.w in ("over", "there", "too")]
            if place.colonies:
                place.colonies, place.yard = settle_ids(place.colonies, moved.slots.get("yard"), msg.outfit)
    elif step == "moved" and len(cols) < 2 and (away := _new_place(s)):
        draft.put("to_yard", " ".join(m.w.title() for m in away), "to a place not in the roster")
        draft.spans.append((away[0].s, away[-1].e))
    if (
        place.colonies
        and draft.slots.get("colony_count") is not None
        and step in ("died", "moved", "combined")
        and (step != "moved" or s.has("cols", "pronoun"))
    ):
        del draft.slots["colony_count"]
    if draft.slots.get("colony_count") is not None and step == "moved" and not s.has("cols", "pronoun"):
        place.colonies = None  # "combined it into 25 … moved ten hives over to the orchard"
    if "colony_count" in draft.slots:
        place.count = None  # "oxalic on nine hives there, lost one"
    if "colony_count" in draft.slots and place.every and not s.has("every"):
        place.every, place.except_ = False, None
    if (
        step == "died"
        and not place.colonies
        and not place.every
        and "colony_count" not in draft.slots
        and place.count is None
    ):
        hives = next((m for m in s.all("hives") if "n" in m.v), None)
        if hives is None and not msg.held.cols:
            return
    for m in used:
        draft.spans.append((m.s, m.e))
    if step == "swarmed" and not (place.colonies or place.every or place.yard or place.count or "count" in draft.slots):
        return  # "the neighbour's hive swarmed"
    if step == "swarm_caught" and not cols:
        place.colonies = None
    if step == "sold" and not cols and any("n" in m.v for m in s.all("hives")):
        place.colonies = None  # "made four nucs out of eleven, two of them sold": nucs, not the hives they came from
    caught = msg.last("change", s.sentence)
    if (
        step == "swarm_caught"
        and caught is not None
        and caught.slots.get("step") == "swarm_caught"
        and "colonies" not in caught.slots
        and place.colonies
        and "count" not in draft.slots
    ):
        caught.put("colonies", list(place.colonies), "hived as")
        if place.yard:
            caught.put("yard", place.yard, "yard that holds")
        caught.spans += draft.spans
        caught.statement = msg.thread.statements
        return
    finishing.finish(msg, i, s, stance, draft, place)
    if step == "died" and place.colonies:
        _empty_box(msg, draft)
    if place.colonies:
        finishing.said_twice(msg, draft, s)  # "L3's a goner, just a dead cluster": one loss


def _swarm_lost(msg: Message, s: Statement) -> bool:
    """ "a swarm from 14 in the apple tree, lost it": it flew off."""
    lost, before = s.first("change"), msg.before
    if lost is None or lost.w != "lost":
        return False
    k = index_of(s, lost)
    it = neighbour(s, k, 1)
    told = [*(before.marks if before is not None and before.sentence == s.sentence else []), *s.marks[:k]]
    return it is not None and it.label == "pronoun" and any("swarm" in m.w.split() for m in told)


def _empty_box(msg: Message, draft: Draft) -> None:
    """ "hive 62 is empty, | must have absconded": the box was empty, and not its stores."""
    before = msg.thread.drafts[-2:-1]
    if not before or before[0].kind != "inspection" or before[0].sentence != draft.sentence:
        return
    seen, said = before[0].slots, msg.before
    bare = said is not None and any(m.w.split()[-1] == "empty" and "stores" not in m.w for m in said.all("fact"))
    if bare and seen.get("stores") == "empty" and seen.get("colonies") == draft.slots["colonies"]:
        del seen["stores"]
        if seen.keys() <= {"yard", "colonies", "on", "by", "state"}:
            draft.spans += before[0].spans
            msg.thread.drafts.remove(before[0])


def _together(s: Statement) -> bool:
    """ "joined four and five together", "55 + 56 combined": two that are made one."""
    return s.marks[-1].label == "change" or any(m.w == "together" for m in s.marks)


def _it_joins(msg: Message, s: Statement, cols: Mark) -> bool:
    """ "H4 weak, combine with H5": the colony spoken of right before, which no word names again."""
    held = msg.held
    spoken = held.cols is not None and held.cols_sentence == s.sentence and len(held.cols["ids"]) == 1
    return spoken and s.opens == "soft" and held.cols is not None and held.cols["ids"] != list(cols.v["ids"])


def _those_left_out(msg: Message, s: Statement) -> list[str]:
    """ "wraps on every hive but N2 and N5, those two I combine into 24": the exceptions, where they are as many."""
    held, pronoun = msg.held.cols, s.first("pronoun")
    if held is None or pronoun is None or "n" not in pronoun.v:
        return []
    left = list(held.get("except") or [])
    return left if len(left) == pronoun.v["n"].value else []


def _cells_moved(msg: Message, s: Statement) -> bool:
    """ "grafted thirty … and I'm moving them to the finisher in S6": the grafts, no hives."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.kind != "queen_work" or last.slots.get("step") not in ("grafted", "caught", "banked"):
        return False
    return last.sentence == s.sentence and s.has("pronoun") and not s.has("hives", "yard")


def new_queens(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "pinched the old queen in fifty and put new ones in fifty and 46": queens, where queens were taken out."""
    if s.has_head or not any(m.v.get("dir") == "in" for m in s.all("verb")):
        return False
    taken = msg.last("queen_work", s.sentence)
    if taken is None or taken.slots.get("step") != "removed" or taken.statement < msg.thread.statements - 3:
        return False
    if "new one" not in " ".join(m.w for m in s.marks):
        return False
    draft = Draft("queen_work")
    draft.put("step", "introduced", "new ones")
    draft.spans += [(m.s, m.e) for m in s.all("verb", "thing", "number")]
    finishing.finish(msg, i, s, stance, draft)
    return True


def put_her_in(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "caught a virgin in three and put her in nine": the queen just taken, introduced elsewhere."""
    if s.has_head or len(s.all("cols")) != 1 or not any(m.v.get("dir") == "in" for m in s.all("verb")):
        return False
    taken = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    her = any(m.w in ("her", "she") for m in s.marks)
    if taken is None or not her or taken.slots.get("step") not in ("caught", "removed") or s.has("item", "agent"):
        return False
    if taken.statement != msg.thread.statements - 1 or taken.slots.get("colonies") == list(s.all("cols")[0].v["ids"]):
        return False
    draft = Draft("queen_work", {"step": "introduced"}, [(m.s, m.e) for m in s.all("verb")], {"step": "put in"})
    finishing.finish(msg, i, s, stance, draft)
    there = msg.outfit.yard_ids.get(draft.slots.get("yard") or "", frozenset())
    if there.isdisjoint(draft.slots.get("colonies", ())):
        draft.slots.pop("yard", None)  # "caught a queen at wens and put her in nine", which stands elsewhere
    return True


def lost_too(msg: Message, i: int, s: Statement, stance: Stance, made: list[Draft]) -> None:
    """ "lost 52 (wasps), | 60 (no queen)": the next of a list of losses, each with its reason in brackets."""
    last = next((d for d in reversed(msg.thread.drafts[-3:]) if d.kind == "change"), None)
    if last is None or last.slots.get("step") != "died" or last.statement < msg.thread.statements - 2:
        return
    before = msg.before
    bracketed = before is not None and before.marks[-1].w == ")" and before.sentence == s.sentence
    if not bracketed or not all(m.label in ("cols", "fact", "comma") or m.w in ("(", ")", "and") for m in s.marks):
        return
    draft = Draft("change", {"step": "died"}, [], {"step": "one more of the losses"})
    finishing.finish(msg, i, s, stance, draft)
    made.append(draft)


def split_with_her(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """Where the queen goes into a new colony: the other side of the split just told of, or, where frames go along, a
    nuc that is made.
    """
    to = queen_goes(s)
    if to is None or stance.state != "done":
        return False
    last = next((d for d in reversed(msg.thread.drafts[msg.first_draft :][-3:]) if d.kind == "change"), None)
    yard = next((m for m in s.all("yard") if m.v.get("to")), None)
    ids = settle_ids(list(to.v["ids"]), yard.v["value"] if yard is not None else None, msg.outfit)[0]
    told = [(m.s, m.e) for m in s.marks if m.label not in ("w", "comma", "filler")]
    if last is not None and last.sentence == s.sentence and last.slots["step"] in ("split", "nuc_made"):
        if "with" not in last.slots and not set(ids) & set(last.slots.get("colonies", ())):
            last.put("with", ids, "where the queen went")
            last.spans += told
            last.statement = msg.thread.statements
            if yard is not None and yard.v["value"] != last.slots.get("yard"):
                last.put("to_yard", yard.v["value"], "where the queen went")
            return True
    if not frames_along(s):
        return False
    draft = Draft("change", {"step": "nuc_made"}, told, {"step": "the queen and frames"})
    draft.put("with", ids, "where the queen went")
    place, _ = placing.where(msg, i, s, "change", stance)
    if to is s.all("cols")[0]:
        place = Place()
        if msg.held.cols is not None and msg.held.cols_line == s.line:
            placing.take_held(msg, place)
    if not place.colonies or set(place.colonies) & set(ids):
        return False
    finishing.finish(msg, i, s, stance, draft, place)
    return True


_CAME_OUT = (
    *(
        "came out of",
        "came from",
        "was from",
        "is from",
        "was out of",
        "come out of",
        "it left",
        "came off",
        "come off",
    ),
    *("came off of", "issued from", "poured out of", "boiled out of", "left", "was off", "is off", "out of", "off"),
)


def swarm_from(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "big swarm in the pear tree … it came out of 75": the colony it came from has swarmed."""
    cols = s.all("cols")
    if len(cols) != 1 or s.has_head or stance.state != "done" or stance.asked:
        return False
    k = index_of(s, cols[0])
    said = " ".join(m.w for m in s.marks[max(0, k - 4) : k])
    alone = said in _SWARM_FROM and not s.has("verb") and "caught" not in s.words  # "swarm from 22 on Sunday"
    if not said.endswith(_CAME_OUT) and not alone:
        return False
    near = [x for x in msg.statements[max(0, i - 3) : i + 1] if x.sentence == s.sentence]
    if not any("swarm" in m.w.split() for x in near for m in x.marks):
        return False
    draft = Draft("change")
    draft.put("step", "swarmed", "where the swarm came from")
    draft.spans += [(m.s, m.e) for m in s.marks[max(0, k - 4) : k]]
    finishing.finish(msg, i, s, stance, draft)
    finishing.said_twice(msg, draft, s)
    return True


_SWARM_FROM = frozenset(["swarm from", "a swarm from", "big swarm from", "- swarm from"])
_ONE_COLONY = frozenset(["it", "that one", "this one", "them", "those", "those two", "both"])
_BESIDE_JOIN = frozenset("got gets get was were is are 's i've we've i'm i we he she they just then had has".split())


def joined_up(s: Statement) -> None:
    """ "knock it into fifteen", "put nine in with ten": two colonies are made one. Changes the verb's mark in place."""
    cols = s.all("cols")
    if not cols or len(cols) > 2 or s.has("queen_noun"):
        return
    k = index_of(s, cols[-1])
    if any(m.label in HEADS and m.label != "change" for m in s.marks[:k]):
        return
    said = [m for m in s.marks[:k] if m.label not in ("filler", "comma") and m.w not in ("and", "then", "so", "but")]
    if len(cols) == 2 and said[:1] == cols[:1] and [m.w for m in said[1:]] == ["into"] and not s.has("verb", "cue"):
        papered = any(m.w in ("newspaper", "paper") for m in s.marks[k + 1 : k + 5])
        if len(cols[1].v["ids"]) == 1 and (papered or s.opens != "soft"):  # "47 into 48, newspaper"
            said[1].label, said[1].v, said[1].rule = "change", {"step": "combined", "tense": "past"}, "into"
            s.seal()
            return
    verb = joins(s.marks[:k], s.marks[k + 1 :])
    if verb is None or (s.has("change") and verb.label != "change"):
        return
    at = index_of(s, verb)
    what = s.marks[at + 1]
    before = [m for m in s.marks[:at] if m.label not in ("filler", "comma", "verb") and m.w not in _BESIDE_JOIN]
    led = len(cols) == 2 and before[-1:] == cols[:1]
    left_out = len(cols) == 1 and s.opens == "soft" and not before
    if what is cols[0] or led or left_out or (what.label == "pronoun" and what.w in _ONE_COLONY):
        tense = verb.v.get("tense") if verb.w in ("goes", "go") else None  # "put" may be past or not
        verb.label, verb.v, verb.rule = "change", {"step": "combined"}, "put in with another"
        if tense:
            verb.v["tense"] = tense
        s.seal()


_GAVE = frozenset("gave give gives made yielded produced".split())
_GOT = frozenset(["got", "i", "we", "i've", "we've"])
_EACH_GAVE = frozenset("each both all me us i've and so then that's too also".split())


def nucs_given(s: Statement) -> None:
    """ "two nucs out of hive four", "got a nuc out of forty", "nine and ten each gave me two nucs": nucs made, where no
    verb of making says so. Changes the mark of the nucs in place.
    """
    nucs = next((m for m in s.marks if _are_nucs(m)), None)
    cols = s.all("cols")
    if nucs is None or not 0 < len(cols) < 3 or s.has_head:
        return
    k = index_of(s, nucs)
    after = [m.w for m in s.marks[k + 1 : k + 4] if m.label != "hive"]
    before = [m for m in s.marks[:k] if m.label not in ("filler", "comma", "each") and m.w not in _EACH_GAVE]
    gave = len(before) > 1 and before[-1].w in _GAVE and before[-2].label in ("cols", "pronoun", "yard")
    out_of = after[:2] == ["out", "of"] or after[:1] in (["from"], ["off"])
    got = all(m.w in _GOT for m in before)
    if (out_of and got and not s.has("cue")) or (gave and before[0].label == "cols"):
        nucs.label, nucs.v, nucs.rule = "change", {**nucs.v, "step": "nuc_made", "tense": "past"}, "nucs given"
        s.seal()


def _are_nucs(m: Mark) -> bool:
    """ "two nucs", "a nuc"."""
    return (m.label in ("hives", "noun") and "n" in m.v and m.w.split()[-1] in _NUC_WORDS) or m.w == "a nuc"


_NUC_WORDS = frozenset(["nuc", "nucs"])
_ENDS_PLACE = listed("ends_of_places")


def _new_place(s: Statement) -> list[Mark]:
    """The words after "over to the", "up to the" that name a place the roster does not have ("Thistle Farm")."""
    for k in range(1, len(s.marks) - 1):
        from_here = s.marks[k - 1].label in ("yard", "hives", "cols", "change", "verb")
        if s.marks[k].w != "to" or not (s.marks[k - 1].w in _WAYS or from_here):
            continue
        k += 1 + (s.marks[k + 1].w == "the")
        words: list[Mark] = []
        while k < len(s.marks) and len(words) < 3 and s.marks[k].label == "w" and s.marks[k].w not in _ENDS_PLACE:
            words.append(s.marks[k])
            k += 1
        named = words and all(m.w.replace("'", "").isalpha() and m.w not in _SPOTS for m in words)
        return words if named else []
    return []


_SPOTS = listed("spots")
_WAYS = frozenset("over up down out across back off home".split())


def _made_from(msg: Message, s: Statement) -> Mark | None:
    """ "N1 | made from 14": the new colony named just before."""
    before = msg.before
    if before is None or before.sentence != s.sentence or before.has_head or len(before.all("cols")) != 1:
        return None
    change = s.first("change")
    made = change is not None and change.w.split()[-1] in ("from", "of", "off") and s.marks[0] is change
    return before.all("cols")[0] if made else None


def _right_after(s: Statement, word: str, m: Mark) -> bool:
    before = neighbour(s, index_of(s, m), -1)
    return before is not None and before.w == word


def _they_are_now(s: Statement, cols: Mark) -> bool:
    """ "moved the four singles to cut bank, they're 53 to 56 now": what the moved ones are called."""
    k = index_of(s, cols)
    before, after = neighbour(s, k, -1), neighbour(s, k, 1)
    named = before is not None and before.w in ("they're", "it's", "are", "as", "called", "become", "became")
    return named and after is not None and after.w == "now" and not s.has("pronoun")


def _out_of_held(msg: Message, s: Statement, cols: Mark) -> bool:
    """ "two has cells | so made a nuc out of it and that's eighteen now": what is made of the colony spoken of."""
    pronoun, held = s.first("pronoun"), msg.held.cols
    if pronoun is None or held is None or held.get("every") or not held["ids"] or cols.v["ids"] == held["ids"]:
        return False
    k, at = index_of(s, pronoun), index_of(s, cols)
    out = neighbour(s, k, -1)
    named = neighbour(s, at, -1)
    from_it = (
        out is not None
        and out.w.split()[-1] in ("of", "from", "off")
        and pronoun.w.split()[0] in ("it", "that", "this")
    )
    return from_it and k < at and named is not None and named.w in _NAMED_SO


_NAMED_SO = frozenset("that's it's is called named now as she's".split())


def _now(s: Statement, cols: Mark) -> bool:
    """Whether a moved colony is named only by what it is now, at the start of the statement its move."""
    before = neighbour(s, index_of(s, cols), -1)
    return before is not None and before.w in ("now", "called") and s.marks[0].label == "change"


def made_from_second(s: Statement, cols: list[Mark]) -> bool:
    """Whether the second colonies are those that the new ones came from ("N1 and N2 out of 14")."""
    k = index_of(s, cols[1])
    before = neighbour(s, k, -1)
    return before is not None and before.w in ("of", "from", "off")


def made_just_now(msg: Message, s: Statement) -> list[str] | None:
    """The new colonies that the change told just before made, in the same sentence."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.kind != "change" or last.sentence != s.sentence:
        return None
    return list(last.slots.get("with", [])) or None if last.slots.get("step") in ("nuc_made", "split") else None


def on_top(s: Statement, cols: Mark) -> bool:
    """ "they sit on top of 7 to 12": where the hives stand now, and no other side."""
    k = index_of(s, cols)
    return " ".join(m.w for m in s.marks[max(0, k - 3) : k]).endswith(("top of", "next to", "beside", "behind", "by"))


def into(s: Statement, cols: Mark) -> bool:
    """ "split it into L29", "combine them with 79": what stands after "into" is the other side."""
    k = index_of(s, cols)
    before = neighbour(s, k, -1)
    if joins(s.marks[:k], s.marks[k + 1 :]) is not None:
        return True  # "shook her bees out in front of 58", "stuck it on 51 with newspaper"
    if before is not None and before.w == "to" and k > 1 and s.marks[k - 2].v.get("step") == "split":
        return True  # "44 swarm cells, split to N4"
    if before is not None and before.w == "to" and any(m.v.get("step") == "combined" for m in s.all("change")):
        return True  # "newspapered it to 77"
    if before is not None and before.w == "make" and k > 1 and s.marks[k - 2].w == "to":
        return True  # "split 40 to make 58"
    half = k > 1 and s.marks[k - 2].w == "half"  # "split it, the other half is 79"
    return before is not None and (before.w in ("into", "with", "onto") or (before.w == "is" and half))


def _listed_behind(ids: list[str], draft: Draft) -> list[str]:
    """ "two nucs out of 19, N2 and N5": as many as were made, their ids with a letter and the first with none."""
    number = int(draft.slots.get("count", 1))
    old, new = ids[:-number], ids[-number:]
    if not old or any(x.isdecimal() for x in new):
        return []
    letters = {x[0] for x in new}
    return new if len(letters) == 1 and not any(x[0] in letters for x in old) else []


def named_nucs(s: Statement, cols: Mark) -> bool:
    """ "made up nucs N1 to N4": the ids are of the new ones, not of the one they came from."""
    k = index_of(s, cols)
    before, after = neighbour(s, k, -1), neighbour(s, k, 1)
    if before is not None and before.w.split()[-1] in ("of", "from", "off"):
        return False
    if after is not None and after.label == "change" and after.w.split()[-2:] == ["made", "up"]:
        return True  # "N1-N4 made up"
    return before is not None and (
        before.label in ("change", "comma", "hives", "noun") or before.w in (":", "called", "as", "is", "are")
    )


def _told_again(msg: Message, s: Statement, draft: Draft) -> bool:
    """ "9 into 12, | united with newspaper": only how the two of the statement before were joined."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.slots.get("step") != "combined" or last.sentence != s.sentence or "with" not in last.slots:
        return False
    if s.has_head_but("change") or s.has("cols", "yard", "hives", "number", "pronoun", "every", "date", "cue"):
        return False
    last.spans += draft.spans
    return True


def some_of_them(s: Statement, draft: Draft, place: Place) -> bool:
    """ "N1, N2 and N3 all laying, one was marked red": work on fewer queens than the colonies told of: on which of
    them is not said. Puts the number right.
    """
    if draft.slots.get("step") not in ("marked", "clipped") or len(place.colonies or []) < _SEVERAL:
        return False
    k = next((k for k, m in enumerate(s.marks) if m.label == "queen_work"), 0) - 1
    while k >= 0 and s.marks[k].w in SAID_OF_SUBJECT:
        k -= 1
    m = s.marks[k] if k >= 0 else None
    if m is None or m.label != "number" or not 0 < m.v["n"].value < len(place.colonies or []):
        return False
    draft.put("count", tidy(m.v["n"].value), "number before the work")
    draft.spans.append((m.s, m.e))
    return True


_SEVERAL = 2
