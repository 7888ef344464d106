"""Gear put on or taken off, and frames of brood moved."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import ORDERS, Statement
from fieldnotes.reader.frames.amounts import count_before
from fieldnotes.reader.frames.direction import going_out, still_has_its, still_in
from fieldnotes.reader.frames.harvest import comes_in, made_supers, water
from fieldnotes.reader.frames.inspection import handled
from fieldnotes.reader.frames.marks import (
    index_of,
    is_approx,
    neighbour,
    number_of,
    on_a_day_to_come,
    said_of_thing,
    tidy,
)
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import GIVES, WAYS, Mark
from fieldnotes.reader.scope import Draft

_SEEN_TO = listed("seen_to")
_HAVE = frozenset(["have", "has", "got", "had"])


def gear(statement: Statement, given_too: bool = False) -> list[Draft]:
    """Gear put on or taken off, a draft for each thing named; `given_too` where it goes on with what was given."""
    if statement.has("verb"):
        _bees_and_brood(statement)
    if not statement.has("item") and not any(m.v.get("number") == "brood_frames" for m in statement.all("fact")):
        return []
    drafts: list[Draft] = []
    honey = statement.first("honey")
    taken = honey is not None and not comes_in(statement, honey)
    harvest = taken or statement.has("harvest") or water(statement) is not None or made_supers(statement) is not None
    if (
        not statement.has("cols", "every", "yard", "hives", "rest", "verb", "pronoun", "heading")
        and any(m.label == "cue" and m.w in ("not", "no") for m in statement.marks)
        and not any(m.w == "yet" for m in statement.marks)
    ):
        return []  # "bees from the brood nest, not the supers"
    there = [m.w for m in statement.marks[:2]]
    if there and (there[0] == "there's" or there in _THERE_ARE) and not statement.has("verb"):
        return []  # "there's another super on 78 that isn't capped": what stands there
    out = going_out(statement)
    if (out is None and _so_many_boxes(statement)) or _stands_in(statement):
        return []
    dir_mark = next((m for m in statement.marks if m.label == "verb" and m.v.get("dir")), None)
    have = next(
        (k for k, (a, b) in enumerate(pairwise(statement.marks)) if a.w == "still" and b.w in _HAVE),
        len(statement.marks),
    )
    has_on = (statement.has("pronoun") and _have_on(statement)) or _theirs_on(statement)
    if not dir_mark and not statement.has("cue") and still_in(statement):
        return []  # "the escape is still on l twenty"
    for m in statement.all("item"):
        if _has_none(statement):
            continue  # "which don't have supers yet": how they stand
        if _ready_for(statement, m):
            continue  # "heath is ready for supers": none put on yet
        # "51 still have supers on": nothing was done; "feeders are off all but 51, it still had syrup": but that was
        stays = has_on or (have < len(statement.marks) and (not out or have < index_of(statement, m)))
        if stays or _left_on(statement, m) or _stands_by(statement, m) or _lost(statement, m):
            continue
        if _ordered(statement, m) or _told_of(statement, m) or _stands_so(statement, m):
            continue
        if harvest and m.v["item"] == "super" and not _honey_told_after(statement, m):
            continue
        if (
            _reason_beside(statement, m)
            or _inside(statement, m)
            or (not out and _seen_to(statement, m))
            or (out is None and _only_looked(statement))
        ):
            continue
        if m.w.startswith("empty comb") and out is None and not statement.has("verb", "number", "cue", "each"):
            continue  # "starved, empty combs": what was found
        if _needs_work(statement, m) or any(
            said_of_thing(statement, f) and index_of(statement, f) - index_of(statement, m) in (2, 3)
            for f in statement.all("fact")
        ):
            continue
        if (
            out is None
            and not given_too
            and not statement.has("cols", "every", "yard", "hives", "verb", "cue", "each", "rest", "heading")
            and not m.w.endswith("ed")
            and not on_a_day_to_come(statement, m)
            and not any(x.label == "w" and x.w in ("too", "also", "under", "over") for x in statement.marks)
            and not goes_along(statement)
        ):
            continue
        draft = Draft("gear")
        draft.put("item", m.v["item"], m.rule)
        given = (
            dir_mark is not None
            and dir_mark.w in ("gave", "give", "given")  # "gave it a frame out of forty"
            and not _off_before(statement, index_of(statement, dir_mark))
        )
        off = (bool(out) and not given) or m.w.startswith("unwrap") or _less(statement, m)
        off = off or still_has_its(statement)  # "forty one still has its feeder on": not taken off
        if len(statement.all("item")) > 1 and (way := _own_way(statement, index_of(statement, m))):
            off = way in ("off", "out")  # "the feeders are off and the reducers are on"
        beside = neighbour(statement, index_of(statement, m), 1)
        if off and statement.has("agent", "form") and beside is not None and beside.w == "on" and beside.label == "w":
            off = False  # "strips out, 1 super on"
        draft.put("step", "off" if off else "on", "out or off" if off else "in or on")
        draft.spans.append((m.s, m.e))
        if dir_mark is not None:
            draft.spans.append((dir_mark.s, dir_mark.e))
        amount, by = count_before(statement, m)
        k = index_of(statement, m)
        if amount is not None and amount > 1:
            amount, by = _share_of(statement, k, amount) or (amount, by)
        if amount is None and (m.w.startswith("another ") or _another(statement, k)):
            amount, by = 1, None  # "another super", "a second brood box"
        if amount is None and (of_them := _so_many_of_them(statement, k)) is not None:
            amount, by = number_of(of_them).value, of_them
        if amount is not None:
            draft.put("count", tidy(amount), "number before or each after")
            if by is not None:
                draft.spans.append((by.s, by.e))
                if is_approx(statement, by):
                    draft.put("approx", True, "about")
        twin = next((d for d in drafts if d.slots["item"] == draft.slots["item"] and "count" not in d.slots), None)
        if twin is not None:
            # "put supers on five and six, two supers each"
            if "count" in draft.slots:
                twin.put("count", draft.slots["count"], draft.why["count"])
            twin.spans += draft.spans
            continue
        drafts.append(draft)
    if len(drafts) == 1 and "count" not in drafts[0].slots and (so_many := _so_many_there(statement)) is not None:
        drafts[0].put("count", tidy(number_of(so_many).value), "number before the colony")
        drafts[0].spans.append((so_many.s, so_many.e))
    if len(drafts) > 1 and (of_each := _so_many_of_each(statement)) is not None:
        for draft in drafts:
            if "count" not in draft.slots:
                draft.put("count", tidy(number_of(of_each).value), "so many of each")
                draft.spans.append((of_each.s, of_each.e))
    given = dir_mark is not None and dir_mark.w in GIVES
    if not drafts or given:
        frames = [m for m in statement.all("fact") if m.v.get("number") == "brood_frames"]
        moving = (
            dir_mark is not None
            and dir_mark.w not in ("got", "gets", "went")
            and (
                any(m.label == "w" and m.w in ("to", "into", "from", "in", "out", "off") for m in statement.marks)
                or dir_mark.w.split()[-1] in ("out", "off")
                or (dir_mark.w in GIVES and statement.has("cols", "pronoun"))
            )
        )
        if (
            moving
            and dir_mark is not None
            and dir_mark.w == "get"
            and not any(m.w in _FROM_TO for m in statement.marks)
        ):
            did = neighbour(statement, index_of(statement, dir_mark), -1)
            moving = did is None or did.w != "did"  # "I did get four frames of brood in there": seen
        if frames and not moving and dir_mark is None and statement.has("cols"):
            after = neighbour(statement, index_of(statement, frames[0]), 1)
            moving = after is not None and after.w in ("into", "to", "out")  # "one brood frame into L11"
        if frames and not moving and dir_mark is not None and dir_mark.w in ("got", "gets") and statement.has("cols"):
            put = [m for m in statement.all("verb") if m is not dir_mark and m.v.get("dir") == "in"]
            moving = given_too or bool(put)  # "20 got 1 frame of brood put in"
        moving = moving or (bool(frames) and _went_in(statement, frames[0]))
        if frames and moving:
            draft = Draft("gear")
            draft.put("item", "brood_frame", frames[0].rule)
            into = any(a.w == "out" and b.w == "to" for a, b in pairwise(statement.marks))  # "2 fr brood out to N3"
            came_off = out and not into and not given
            draft.put("step", "off" if came_off else "on", "out or off" if out else "in or on")
            draft.put("count", tidy(number_of(frames[0]).value), frames[0].rule)
            draft.spans.append((frames[0].s, frames[0].e))
            frames[0].v["taken"] = True
            drafts.append(draft)
    return drafts


def _bees_and_brood(statement: Statement) -> None:
    """ "pulled 6 frames of bees and brood from 11": frames of brood. Changes the mark in place."""
    for m, joins, brood in zip(statement.marks, statement.marks[1:], statement.marks[2:], strict=False):
        if m.v.get("number") == "bee_frames" and joins.w == "and" and brood.w == "brood" and handled(statement, m):
            m.v = {**m.v, "number": "brood_frames"}


def _went_in(statement: Statement, frames: Mark) -> bool:
    """ "two frames of brood went into nine"."""
    words = [w for m in statement.marks[index_of(statement, frames) + 1 :][:2] for w in m.w.split()]
    return words[:1] in (["went"], ["goes"], ["go"]) and words[1:2] in (["in"], ["into"], ["to"])


def _honey_told_after(statement: Statement, supers: Mark) -> bool:
    """ "pulled supers off 1 to 12, 9 buckets of honey": the supers came off, and then how much was in them."""
    after = statement.marks[index_of(statement, supers) + 1 :]
    of_hives = next((k for k, m in enumerate(after) if m.label == "cols"), len(after))
    return any(m.label == "amount" for m in after[of_hives:]) and not any("n" in m.v for m in after[:of_hives])


def goes_along(statement: Statement) -> bool:
    """ "supers off 41, the excluders with them", "an excluder on 41 with a super on top": beside the first thing."""
    words = [m.w for m in statement.marks]
    return words[-2:] in (["with", "them"], ["with", "it"], ["on", "top"]) or words[-1] in (
        "above",
        "below",
        "underneath",
    )


def _share_of(statement: Statement, k: int, total: float) -> tuple[float, Mark] | None:
    """ "six supers on 40, 41 and 42, two each": what each got, where the thing's number is that of them all."""
    after = statement.marks[k + 1 :]
    ids: list[str] = next((m.v["ids"] for m in after if m.label == "cols"), [])
    shares = [a for a, b in pairwise(after) if b.label == "each" and a.label in ("number", "value") and "n" in a.v]
    if len(shares) != 1 or number_of(shares[0]).value * len(ids) != total:
        return None
    return number_of(shares[0]).value, shares[0]


_ONLY_THINGS = frozenset(["trap", "super", "feeder", "escape"])


def _so_many_there(statement: Statement) -> Mark | None:
    """ "supers came off yesterday, three off S1": a number of the things right before where they were."""
    for m, way, cols in zip(statement.marks, statement.marks[1:], statement.marks[2:], strict=False):
        if m.label == "number" and way.w in ("off", "from", "on", "onto") and cols.label == "cols":
            return m
    return None


def _so_many_of_them(statement: Statement, k: int) -> Mark | None:
    """ "traps on at the sawmill, three of them": a number of the things, where no colony is named. Changes its mark."""
    m = statement.marks[k]
    if m.v["item"] not in _ONLY_THINGS or not m.w.endswith("s") or statement.has("cols", "each", "every"):
        return None
    after = [x for x in statement.marks[k + 1 :] if x.label == "hives" and x.w.endswith(("of them", "of em"))]
    if len(after) != 1 or any(x.label in ("item", "agent", "form", "feed", "cue") for x in statement.marks[k + 1 :]):
        return None
    beyond = neighbour(statement, index_of(statement, after[0]), 1)
    if beyond is not None and beyond.label not in ("date", "yard", "comma", "filler") and beyond.w not in ("and", "at"):
        return None
    after[0].label = "number"
    statement.seal()
    return after[0]


def _so_many_boxes(statement: Statement) -> bool:
    """ "H8 3 deeps 2 supers, strong": the boxes a colony stands in, and none put on."""
    boxes = [m for m in statement.all("item") if m.v["item"] in ("brood_box", "super")]
    bare = not statement.has("verb", "cue", "each", "every", "hives", "yard", "rest")
    kinds = {m.v["item"] for m in boxes if count_before(statement, m)[0] is not None}
    return bare and statement.has("cols") and len(kinds) == 2


_FROM_TO = frozenset(["to", "into", "from", "off", "out"])


def _have_on(statement: Statement) -> bool:
    """ "those two have supers on": how they stand, and nothing done."""
    marks = statement.marks
    return any(
        a.w in ("have", "has", "had") and b.label == "item" and c.w == "on"
        for a, b, c in zip(marks, marks[1:], marks[2:], strict=False)
    )


def _theirs_on(statement: Statement) -> bool:
    """ "they've got supers on still", "because it's got a super on", "since there's an excluder on": how they stand."""
    marks = [m for m in statement.marks if m.w not in _ARTICLES]
    if any(
        a.w in ("they've", "it's", "she's") and b.w == "got" and c.label == "item" and d.w == "on"
        for a, b, c, d in zip(marks, marks[1:], marks[2:], marks[3:], strict=False)
    ):
        return True
    return any(a.w in _SINCE and b.w in ("there's", "there") for a, b in pairwise(marks))


_ARTICLES = frozenset("a an the its her their still".split())
_SINCE = frozenset("because cause since cos as".split())


def _stands_in(statement: Statement) -> bool:
    """ "forty has two supers": how many a colony has, and none put on."""
    marks = statement.marks
    return not statement.has("verb", "cue", "each") and any(
        a.label == "cols" and b.w in ("has", "have", "had") and c.label == "number" and d.v.get("item") == "super"
        for a, b, c, d in zip(marks, marks[1:], marks[2:], marks[3:], strict=False)
    )


def _another(statement: Statement, k: int) -> bool:
    """Whether an ordinal before the thing at `k` makes it one more ("a second brood box"); "first" only comes first."""
    if k == 0 or statement.marks[k].w.endswith("s"):
        return False
    return statement.marks[k - 1].label == "ordinal" and statement.marks[k - 1].w != "first"


def _before_noun(statement: Statement, m: Mark) -> Mark | None:
    """The mark before a thing, over its number, articles and adjectives."""
    k = index_of(statement, m) - 1
    while k >= 0 and (
        statement.marks[k].label in ("number", "approx")
        or statement.marks[k].w
        in (
            "the",
            "a",
            "an",
            "new",
            "old",
            "more",
            "some",
            "another",
            "extra",
            "its",
            "our",
            "top",
            "bottom",
            "full",
            "single",
        )
    ):
        k -= 1
    return statement.marks[k] if k >= 0 else None


def _has_none(statement: Statement) -> bool:
    """Whether "don't have", "doesn't have" says what a hive has not."""
    return any(
        a.label == "cue" and a.w in ("don't", "doesn't", "do not", "does not", "didn't") and b.w == "have"
        for a, b in pairwise(statement.marks)
    )


def _own_way(statement: Statement, k: int) -> str:
    """Which way the thing at `k` is said to be right after it ("reducers are on"); empty where that is not said."""
    marks = statement.marks
    if k + 2 < len(marks) and marks[k + 1].w in ("is", "are", "'s", "were") and marks[k + 2].w in WAYS:
        return marks[k + 2].w
    return ""


def _off_before(statement: Statement, k: int) -> bool:
    """ "reducers off 40 to 45, gave each of them a patty": the things went off before anything was given at `k`."""
    marks = statement.marks[:k]
    return any(a.label == "item" and b.w in ("off", "out") for a, b in pairwise(marks))


def _left_on(statement: Statement, m: Mark) -> bool:
    """ "left the feeder on l twelve": what was there already stays."""
    k = index_of(statement, m)
    before = [x.w for x in statement.marks[max(0, k - 2) : k]]
    if m.w.endswith("ed") and before and before[-1] in ("stay", "stays", "stayed", "staying", "still", "keep", "kept"):
        return True  # "l sixteen on up stay wrapped"
    return before[:1] == ["left"] and before[-1] in ("the", "its", "their", "his", "hers", "those", "both", "left")


def _lost(statement: Statement, m: Mark) -> bool:
    """ "forty lost its wrap in the wind": gone, and nobody took it off."""
    before = _before_noun(statement, m)
    return before is not None and before.w.startswith(("lost", "blew"))


def _ready_for(statement: Statement, m: Mark) -> bool:
    """Whether "ready for" stands before the thing and its article."""
    before = _before_noun(statement, m)
    k = index_of(statement, before) if before is not None and before.w == "for" else 0
    if k < 1:
        return False
    word = statement.marks[k - 1]
    enough = word.w == "enough" or (word.label == "fact" and bool({"too", "enough"} & set(word.w.split())))
    return word.w in ("ready", "room", "time") or enough or (k > 1 and statement.marks[k - 2].w == "too")


def _stands_by(statement: Statement, m: Mark) -> bool:
    """ "mice chewed in under the wrap": where something is, not what was done."""
    before = _before_noun(statement, m)
    after = neighbour(statement, index_of(statement, m), 1)
    if before is not None and before.w in ("it's", "they're", "that's") and (after is None or after.w not in WAYS):
        return True  # "twelve only got one pad, it's a single deep"
    if (
        before is not None
        and before.w == "with"
        and after is not None
        and after.w == "on"
        and not goes_along(statement)
    ):
        return True  # "not treating anything with supers on"
    if before is not None and before.w in ("above", "below", "over"):
        return m is not statement.first("item")  # "put the super back above the excluder"
    if before is not None and before.w == "of" and statement.has("cols") and not statement.has("verb"):
        return True  # "1 has drawn out only half of its super"
    return before is not None and before.w in ("under", "behind", "beneath", "inside", "through", "between", "around")


def _only_looked(statement: Statement) -> bool:
    """ "checked the supers with Bo": looked at, and none put on."""
    verbs = statement.all("verb")
    return bool(verbs) and all(m.v.get("does") == "inspect" and m.v.get("tense") == "past" for m in verbs)


def _reason_beside(statement: Statement, m: Mark) -> bool:
    """ "every hive but H3 (supers)": why one is left out, and nothing put on."""
    before = statement.marks[: index_of(statement, m)]
    return len(before) > 2 and before[-1].w == "(" and before[-3].v.get("cue") == "except"


def _seen_to(statement: Statement, m: Mark) -> bool:
    """ "checked the feeders on 44", "filled the feeders": work on what is there already."""
    before = _before_noun(statement, m)
    after = neighbour(statement, index_of(statement, m), 1)
    ends = statement.marks[-1].w in _SEEN_TO and not statement.has("verb")
    if (after is not None and after.w in _SEEN_TO) or ends:
        return True  # "all traps emptied at heath"
    if before is None:
        return False
    looked = before.v.get("does") == "inspect" and before.v.get("tense") == "past"
    return looked or before.w in _SEEN_TO


_SEEN_INSIDE = frozenset("brood bees eggs larvae queen pollen nectar".split())


def _inside(statement: Statement, m: Mark) -> bool:
    """ "she was up in the super in 58", "they've got brood in the supers": where the queen, bees or brood are."""
    k = index_of(statement, m)
    before = [x.w for x in statement.marks[max(0, k - 3) : k]]
    if m.v["item"] in ("super", "brood_box") and before[1:] == ["in", "the"] and before[0] in _SEEN_INSIDE:
        return not any(x.v.get("dir") and x.w.split()[0] not in ("got", "they've") for x in statement.all("verb"))
    words = " ".join([*before, m.w])
    return m.v["item"] == "super" and any(f"{be} in the super" in words for be in ("was", "is", "'s", "up", "were"))


def _needs_work(statement: Statement, m: Mark) -> bool:
    """ "supers need checking", "the feeders want cleaning": a job, and nothing put on."""
    k = index_of(statement, m)
    cue, work = neighbour(statement, k, 1), neighbour(statement, k + 1, 1)
    if cue is None or work is None or cue.label != "cue" or cue.w not in ("need", "needs", "want", "wants"):
        return False
    return work.w.endswith("ing") and not work.v.get("dir")


def _told_of(statement: Statement, m: Mark) -> bool:
    """ "the feeders at heath are all empty": how the things are, and nothing put on."""
    k = index_of(statement, m)
    after = statement.marks[k + 1 :]
    so = any(x.w in ("is", "are", "was", "were", "'s", "has", "have") for x in after)
    so = so and (statement.has("fact", "ignore") or any(x.w in _SO for x in after))
    so = so or any(x.w in _GOES_WRONG for x in after[:3])
    how = after[1] if after[:1] and (after[0].label == "number" or after[0].w in _BOTH) and len(after) > 1 else None
    if how is not None and how.w in _SO and not statement.has("verb"):
        return True  # "1: queenright, 2 supers 1 full": how many it has
    before = statement.marks[k - 1] if k else None
    there = before is None or before.w in ("the", "'s", "my", "our") or before.label in ("every", "stop")
    there = there or after[:1] == [] or after[0].w in ("is", "are", "'s")
    put = any(x.w in WAYS for x in statement.marks[k:] if x.w not in ("on", "in") or not _where(statement, x))
    return so and there and not statement.has("verb", "cue") and not put


def _stands_so(statement: Statement, m: Mark) -> bool:
    """ "the feeder on nine was bone dry so it got a quart", "the reducer fell off nine": how it is, no work."""
    k = index_of(statement, m)
    after = statement.marks[k + 1 : k + 6]
    if any(x.v.get("dir") for x in statement.marks[:k] if x.label == "verb") or len(after) < 2:
        return False
    if statement.has("pronoun") and any(x.v.get("dir") == "out" for x in statement.all("verb")):
        return False  # "the supers on 50 are ready, take them off friday"
    if after[0].w in _BEFELL:
        return True
    if len(after) < 4 or after[0].w not in _AT_HIVE or after[1].label != "cols":
        return False
    if after[2].w in _BEFELL:
        return True
    so = after[3]
    told_of_hive = so.label == "fact" and "stores" not in so.v.get("set", {}) and "sign" not in so.v
    put = so.v.get("dir") or so.w in WAYS or so.label in ("date", "cue", "change", "queen_noun")
    return after[2].w in _HOW_IT_IS and not told_of_hive and not put


_THERE_ARE = (["there", "is"], ["there", "are"], ["there", "was"], ["there", "were"])
_BEFELL = frozenset("fell blew leaked tipped cracked rotted warped weighs came broke split".split())
_HOW_IT_IS = frozenset("is are was were 's had looks looked still".split())
_AT_HIVE = frozenset(["on", "in", "under"])


def _where(statement: Statement, on: Mark) -> bool:
    """Whether "on" says where the thing is ("the super on 44 is full", "the excluder's on upside down on h two")."""
    after = neighbour(statement, index_of(statement, on), 1)
    return after is not None and (after.label == "cols" or after.w in _SO)


_SO = listed("how_gear_is")
_BOTH = frozenset(["both", "all", "half", "nearly", "almost", "mostly"])
_GOES_WRONG = listed("gear_goes_wrong")


def _ordered(statement: Statement, m: Mark) -> bool:
    """ "order foundation", "bring supers": a job, and nothing put on."""
    before = _before_noun(statement, m)
    if before is not None and before.v.get("step") == "moved":
        return True  # "moved the excluder up on 44"
    return before is not None and before.label in ("w", "change") and before.w in ORDERS


def _less(statement: Statement, m: Mark) -> bool:
    """ "43: -2 supers": a minus glued to the number after a colon."""
    k = index_of(statement, m)
    minus = statement.marks[k - 1] if k > 1 else None
    if minus is not None and minus.w in ("-", "–") and minus.e == m.s and statement.marks[k - 2].e < minus.s:
        return True  # "H4 -super"
    if k < 3 or statement.marks[k - 1].label != "number":
        return False
    colon, sign = statement.marks[k - 3 : k - 1]
    return colon.w == ":" and sign.w in ("-", "–") and sign.e == statement.marks[k - 1].s and colon.e < sign.s


def _so_many_of_each(statement: Statement) -> Mark | None:
    """ "excluders and supers on 3 and 8, one of each": the number, which is of all that is named."""
    for m, of, each in zip(statement.marks, statement.marks[1:], [*statement.marks[2:], None], strict=False):
        if m.label in ("number", "value") and (
            of.w == "of each" or (each is not None and (of.w, each.w) == ("of", "each"))
        ):
            return m
    return None
