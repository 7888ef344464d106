"""Honey taken: how much, how wet."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import HONEY_UNITS, amount_of, count_before
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import index_of, is_approx, neighbour, number_of, tidy
from fieldnotes.reader.mark import DRIEST, WETTEST, Mark
from fieldnotes.reader.scope import Draft

OF_HARVEST = frozenset(["harvest", "honey", "moisture", "percent", "amount", "noun", "fact"])
"""Without one of these no statement tells of a harvest."""
_YIELDS = frozenset(["made", "gave", "yielded"])
_BEFORE_WET = frozenset(["at", "that's", "was", "is", "reads", "read"])


def harvest(statement: Statement, last: Draft | None) -> Draft | None:
    """Honey taken; `last` is the harvest of the same sentence that a moisture may belong to."""
    yielded = made_supers(statement)
    if yielded is None and not statement.has_any(OF_HARVEST):
        return None
    marks = [m for m in statement.all("harvest") if not any(only(statement, m) for only in _NO_HARVEST)]
    if statement.has("harvest") and not marks and not statement.has("amount", "moisture", "honey"):
        return None
    honey = statement.first("honey")
    moisture = statement.first("moisture")
    metered = (
        last is not None and "moisture" not in last.slots and not statement.words.isdisjoint(("read", "reads", "meter"))
    )
    if last is not None and "amount" not in last.slots and statement.has("percent"):
        metered = metered or any(amount_of(x)[1] in HONEY_UNITS for x in statement.all("amount"))  # "2 barrels, 17.8%"
    wet = water(statement)
    percent = statement.first("percent") if (marks or honey or metered) and moisture is None else wet
    amounts = [m for m in statement.all("amount") if amount_of(m)[1] != "jar"]  # honey in jars was taken long before
    if not marks and _dealt_with(statement):
        return None
    supers = [m for m in statement.all("item") if m.v["item"] == "super"]
    if wet is not None and not marks and not honey:
        marks = amounts[:1] or supers[:1]
    if statement.has("feed", "agent"):
        return None
    frames = [
        m
        for m in statement.marks
        if (m.label == "noun" and m.v.get("noun") == "frames")
        or (m.label == "fact" and m.v.get("number") == "food_frames")
    ]
    seen = any(m.v.get("number") in ("bee_frames", "brood_frames") for m in statement.all("fact"))
    if seen and not marks and going_out(statement) is None:
        return None  # "eleven has six frames of bees and half a super of honey"
    if (
        supers
        and not marks
        and statement.has("fact")
        and statement.has("cols")
        and not statement.has("verb", "moisture")
    ):
        return None  # "the super of honey on twelve weighs a ton"
    if statement.has("clean", "mites", "value", "sample") and not amounts and not supers and honey is None:
        return None  # "the clover gave us nothing", "quarter cup off of twenty one gave us two mites"
    made = not statement.words.isdisjoint(("made", "came to", "gave"))
    said = statement.marks
    if "did" in statement.words and any(
        a.label == "yard" and b.w == "did" and c.label == "amount"
        for a, b, c in zip(said, said[1:], said[2:], strict=False)
    ):
        marks = [m for m in amounts if amount_of(m)[1] in HONEY_UNITS][:1] or marks  # "the pond did a barrel"
    if yielded is not None:
        marks, supers = marks or [yielded], [yielded]
    if "came" in statement.words and any(
        a.label == "yard" and b.w == "came" and c.w == "to" and d.label == "amount" and amount_of(d)[1] in HONEY_UNITS
        for a, b, c, d in zip(said, said[1:], said[2:], said[3:], strict=False)
    ):
        marks = marks or amounts[:1]  # "the pond came to 520 pounds"
    made = made or (
        last is not None and any(m.w == "got" for m in statement.marks) and not statement.has("cols", "fact")
    )
    if (
        not marks
        and not honey
        and moisture is None
        and statement.has("yard")
        and any(
            (m.label == "w" and m.w in ("off", "from", "out"))
            or (m.label == "verb" and m.w == "came off")
            or (k and m.label == "amount" and statement.marks[k - 1].w in ("took", "pulled", "harvested"))
            for k, m in enumerate(statement.marks)
        )
    ):
        # "got about 180 lb off Millpond", "eleven frames of honey off the quarry"
        if (
            amounts
            and amount_of(amounts[0])[1]
            in (("lb", "kg", "bucket", "barrel", "gallon") if last is not None else ("lb", "kg", "bucket", "barrel"))
            and not statement.has("cols", "item")
        ) or (frames and frames[0].label == "fact" and not statement.has("cols")):
            marks = [amounts[0] if amounts else frames[0]]
            wet = next((x for x in statement.all("percent") if DRIEST <= number_of(x).value <= WETTEST), None)
            percent = percent or wet  # "got 180 lb off Millpond saturday, 17.8%"
    if not marks and honey and statement.has("cue") and any(m.v.get("dir") == "out" for m in statement.all("verb")):
        marks = [honey]  # "honey not pulled yet"
    if not marks and honey and statement.has("date") and not statement.has("item", "fact") and _comes_off(statement):
        marks = [honey]  # "Millpond honey is coming off thursday"
    if not marks and frames and frames[0].label == "fact" and going_out(statement) and statement.has("cols"):
        k = index_of(statement, statement.all("cols")[0])
        before = neighbour(statement, k, -1)
        out_of = before is not None and before.w == "of" and statement.marks[k - 2].w == "out"
        if before is not None and (out_of or before.w.split()[-1] in ("off", "from")) and statement.has("verb"):
            marks = [frames[0]]  # "took nine frames of honey off seventy three"
            percent = statement.first("percent") if moisture is None else None
    if not marks and frames and "of comb" in frames[0].w and statement.has("yard") and not statement.has("cols"):
        marks = [frames[0]]  # "we cut twelve frames of comb honey at larks"
    if not marks and frames and last is not None and going_out(statement) and not statement.has("cols"):
        marks = [frames[0]]  # "eleven buckets off the pond and there's forty frames more to pull"
    if not marks and frames and frames[0].label == "fact" and _frames_from(statement, frames[0]):
        marks = [frames[0]]  # "3 frames of honey from S2"
    if not marks and frames and frames[0].label == "fact":
        before = neighbour(statement, index_of(statement, frames[0]), -1)
        if before is not None and before.label == "verb" and before.v.get("dir") == "out":
            marks = [frames[0]]  # "I pulled two frames of honey"
    if (
        not marks
        and not (metered and percent)
        and not (
            amounts
            and statement.has("yard", "percent")
            and amount_of(amounts[0])[1] in HONEY_UNITS
            and any(13 <= number_of(x).value <= 25 for x in statement.all("percent"))
            and not statement.has("cols", "method", "mites", "value", "item")
        )
        and not (honey and (amounts or supers or frames or moisture or percent) and not comes_in(statement, honey))
        and not (made and (amounts or (frames and statement.has("yard"))) and last is not None)
        and not (made and amounts and statement.has("yard") and amount_of(amounts[0])[1] in ("barrel", "bucket"))
        and not _weighed_out_of(statement, amounts)
        and not _weighed_there(statement, amounts)
        and not (_yielded(statement) and amounts and amount_of(amounts[0])[1] in HONEY_UNITS)
        and moisture is None
    ):
        if not (
            amounts and last is not None and not statement.has("cols", "fact", "verb") and "amount" not in last.slots
        ):
            return None
    if (
        not marks
        and amounts
        and statement.has("yard")
        and not statement.has("cols", "method", "mites", "value", "item")
    ):
        wet = statement.first("percent")
        if wet is not None and 13 <= number_of(wet).value <= 25 and amount_of(amounts[0])[1] in HONEY_UNITS:
            marks, percent = [amounts[0]], wet  # "Millpond 11 buckets 17.8%": so wet, it is honey
    draft = Draft("harvest")
    if moisture is not None and number_of(moisture).value < 10 and moisture in statement.marks:
        whole = neighbour(statement, index_of(statement, moisture), -1)
        if whole is not None and whole.label == "number" and DRIEST <= number_of(whole).value <= WETTEST:
            whole.v["n2"], moisture = number_of(moisture), whole  # "came out at eighteen one on the meter"
    if moisture is None and percent is None:
        moisture = _wet(statement, last)
    if moisture is None and amounts and amount_of(amounts[0])[1] in ("barrel", "bucket") and made:
        wet = next((m for m in statement.all("number", "value") if 13 <= number_of(m).value <= 25), None)
        before = neighbour(statement, index_of(statement, wet), -1) if wet is not None else None
        if wet is not None and before is not None and before.w == "at":
            moisture = wet  # "made two barrels at sixteen point eight"
    for m in (*marks, honey):
        if m is not None:
            draft.spans.append((m.s, m.e))
    if amounts:
        value, unit = amount_of(amounts[0])
        draft.put("amount", tidy(value), amounts[0].rule)
        if unit:
            draft.put("unit", unit, amounts[0].rule)
        draft.spans.append((amounts[0].s, amounts[0].e))
        if is_approx(statement, amounts[0]):
            draft.put("approx", True, "about")
    elif supers:
        number, by = count_before(statement, supers[0])
        if number is not None:
            draft.put("amount", tidy(number), supers[0].rule)
            draft.put("unit", "super", supers[0].rule)
            if by is not None and is_approx(statement, by):
                draft.put("approx", True, "about")
        draft.spans += [(supers[0].s, supers[0].e)] + ([(by.s, by.e)] if by is not None else [])
    elif (boxes := _boxes(statement)) is not None:
        draft.put("amount", tidy(number_of(boxes).value), "boxes of honey")
        draft.put("unit", "super", "boxes of honey")
        draft.spans.append((boxes.s, boxes.e))
    elif frames and "n" in frames[0].v:
        draft.put("amount", tidy(number_of(frames[0]).value), frames[0].rule)
        draft.put("unit", "frame", frames[0].rule)
        frames[0].v["taken"] = True
        draft.spans.append((frames[0].s, frames[0].e))
    for m in (moisture, percent):
        if m is not None:
            draft.put("moisture", tidy(number_of(m).value + _tenths(m)), m.rule)
            draft.spans.append((m.s, m.e))
    if not draft.slots and not marks and not statement.has("harvest") and not going_out(statement):
        return None  # "the honey in the supers tests wet so they stay"
    return draft


_DEALT_WITH = frozenset("sold sell selling owe owes owed deliver delivered dropped ordered wants want bought".split())


def _boxes(statement: Statement) -> Mark | None:
    """ "honey's off at the pond, twenty two boxes": the number of the boxes that came off."""
    if "boxes" not in statement.words:
        return None
    return next((a for a, b in pairwise(statement.marks) if a.label == "number" and b.w == "boxes"), None)


def _dealt_with(statement: Statement) -> bool:
    """ "sold two buckets of honey", "I owe Ines a bucket of honey": honey that was taken long before."""
    return any(
        m.w.split(maxsplit=1)[0] in _DEALT_WITH for m in statement.marks if m.label in ("w", "verb", "change", "cue")
    )


def _weighed_out_of(statement: Statement, amounts: list[Mark]) -> bool:
    """ "took 120 pounds off l one and l two": what is weighed and comes out of hives is their honey."""
    if (
        not amounts
        or amount_of(amounts[0])[1] not in ("lb", "kg")
        or statement.has("item", "form", "sample", "queen_noun")
    ):
        return False
    k = index_of(statement, amounts[0])
    before, after = statement.marks[:k], statement.marks[k + 1 : k + 4]
    taken = any(m.label == "verb" and m.v.get("dir") == "out" for m in before[-2:])
    return taken and bool(after) and after[0].w in _OFF and any(m.label in ("cols", "yard") for m in after)


def _weighed_there(statement: Statement, amounts: list[Mark]) -> bool:
    """ "at cut bank we got three hundred pounds there": what a yard gave by the weight."""
    if not amounts or amount_of(amounts[0])[1] not in ("lb", "kg", "barrel", "bucket"):
        return False
    if statement.has("cols", "item", "form", "fact", "each", "cue"):
        return False
    k = index_of(statement, amounts[0])
    got = k > 0 and statement.marks[k - 1].w in ("got", "took", "pulled", "made")
    return got and [m.w for m in statement.marks[k + 1 : k + 2]] == ["there"]


_OFF = frozenset(["off", "from", "out"])


def made_supers(statement: Statement) -> Mark | None:
    """ "larks made thirty supers", "nine made two supers", "fourteen supers rode home": what is made is honey."""
    if not statement.has("item"):
        return None
    said = statement.marks
    if statement.has("cols"):
        made = (d for a, b, c, d in zip(said, said[1:], said[2:], said[3:], strict=False) if _made_so_many(a, b, c, d))
        return next(made, None)
    for k, (n, supers) in enumerate(pairwise(said)):
        if n.label != "number" or supers.v.get("item") != "super" or (k and said[k - 1].w not in ("and", "so", "then")):
            continue
        if "home" in [m.w for m in said[k + 2 : k + 5]]:
            return supers
    if not statement.has("yard"):
        return None
    for a, b, c, d in zip(said, said[1:], said[2:], said[3:], strict=False):
        if a.label == "yard" and b.w in _YIELDS and c.label == "number" and d.label == "item":
            return d if d.v["item"] == "super" else None
    return None


def _made_so_many(a: Mark, b: Mark, c: Mark, d: Mark) -> bool:
    many = a.label == "cols" and b.w in ("made", "yielded") and (c.label == "number" or c.w == "a")
    return many and d.v.get("item") == "super"


def water(statement: Statement) -> Mark | None:
    """The percent that is the water in honey: "212 lb off L1 to L8, 17.4%", "14 supers pulled, 18.3 percent"."""
    if not statement.has("percent") or statement.has("method", "mites", "value", "clean", "feed", "agent", "form"):
        return None
    wet = next((m for m in statement.all("percent") if DRIEST <= number_of(m).value <= WETTEST), None)
    measured = any(amount_of(x)[1] in HONEY_UNITS for x in statement.all("amount"))
    pulled = going_out(statement) is not None and any(m.v["item"] == "super" for m in statement.all("item"))
    return wet if wet is not None and (measured or pulled) else None


def _frames_from(statement: Statement, frames: Mark) -> bool:
    """Whether the statement only says how many frames came from which colonies: they have them no longer."""
    k = index_of(statement, frames)
    after = [m for m in statement.marks[k + 1 :] if m.label != "yard" and m.w not in ("of", "hive")]
    lead = statement.marks[:k]
    if any(
        m.label not in ("filler", "comma", "number", "date") and m.w not in ("and", "also", "then", "-") for m in lead
    ):
        return False
    rest = [m for m in after[2:] if m.label not in ("date", "comma", "filler")]
    return len(after) > 1 and after[0].w in ("from", "off") and after[1].label == "cols" and not rest


def _only_a_time(statement: Statement, m: Mark) -> bool:
    """ "put the supers back on after the harvest": when, and no honey taken."""
    k = index_of(statement, m)
    before = [x.w for x in statement.marks[max(0, k - 2) : k]]
    named = m.w.split()[-1] in ("harvest", "extraction")
    return named and bool(before) and ("after" in before or "before" in before)


def _at_work(statement: Statement, m: Mark) -> bool:
    """ "extracting all day": what one is busy with, where neither amount nor place is told."""
    busy = m.w.split()[0].endswith("ing") and not statement.has("amount", "moisture", "yard", "cols", "item", "number")
    after = neighbour(statement, index_of(statement, m), 1)
    return busy and after is not None and after.w in ("all", "since", "till", "until")


def _came_to_nothing(statement: Statement, m: Mark) -> bool:
    """ "hive fourteen gave us nothing this year"."""
    after = neighbour(statement, index_of(statement, m), 1)
    return after is not None and (after.label == "clean" or after.w in ("none", "nothing", "zero"))


_NO_HARVEST = (_only_a_time, _came_to_nothing, _at_work)


def comes_in(statement: Statement, honey: Mark) -> bool:
    """ "up to two supers apiece, the honey's rolling in": told of the flow, and none taken."""
    return [m.w for m in statement.marks[index_of(statement, honey) + 1 :]][:3][-2:] in (
        ["rolling", "in"],
        ["pouring", "in"],
    )


def _comes_off(statement: Statement) -> bool:
    """Whether the honey is the subject of coming off."""
    honey = statement.first("honey")
    if honey is None:
        return False
    after = statement.marks[index_of(statement, honey) + 1 :][:2]
    return any(m.label == "verb" and m.w in ("coming off", "comes off", "came off", "come off") for m in after)


def _yielded(statement: Statement) -> bool:
    """ "the quarry made six gallons": what a yard makes by the measure is honey."""
    made = any(m.w == "made" for m in statement.marks) and statement.has("yard")
    return made and not statement.has("cols", "fact", "ratio", "each", "cue", "item")


def _tenths(m: Mark) -> float:
    """ "seventeen eight" is 17.8: the second number of a moisture, as tenths."""
    second = m.v.get("n2")
    return second.value / 10 if second is not None and 0 < second.value < 10 and number_of(m).whole else 0.0


def _wet(statement: Statement, last: Draft | None) -> Mark | None:
    """ "two barrels sixteen point eight", "… and that's seventeen and a half": a broken number that can be moisture."""
    spoken_of = any(m.w == "moisture" for m in statement.marks) or (last is not None and "moisture" in last.slots)
    for k, m in enumerate(statement.marks):
        if m.label not in ("number", "value") or not DRIEST <= number_of(m).value <= WETTEST:
            continue
        before, after = neighbour(statement, k, -1), neighbour(statement, k, 1)
        if after is not None and after.label in ("item", "noun", "each", "unit", "days", "hives", "agent", "form"):
            continue
        if not number_of(m).whole or (spoken_of and before is not None and before.w in _BEFORE_WET):
            return m
        if before is not None and before.w == "at" and any(x.w.split()[:1] == ["came"] for x in statement.marks[:k]):
            if after is not None and after.label in ("number", "value") and not number_of(m).digits:
                m.v["n2"] = number_of(after)  # "400 pounds came in at seventeen four"
            return m
    return None
