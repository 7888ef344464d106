"""Treatments: what "them" points to, what was not done beside what was, words that nobody has taught."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.dates.when import When, day_of
from fieldnotes.reader.frames.amounts import amount_of
from fieldnotes.reader.frames.direction import became, going_out, still_in
from fieldnotes.reader.frames.marks import index_of, neighbour, number_of, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.hear import common_words, speech
from fieldnotes.reader.making import (
    finishing,
    holding,
    placing,
)
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.making.repeating.lasting import all_so_long
from fieldnotes.reader.mark import WAYS, Mark
from fieldnotes.reader.scope import Draft, Place, place_of, settle_ids

TREATMENT_CHOICES = (
    "amitraz strips",
    "tau-fluvalinate strips",
    "flumethrin strips",
    "coumaphos strips",
    "formic acid pads",
    "oxalic acid vapour",
    "oxalic acid dribble",
    "oxalic acid strips",
    "thymol gel",
    "thymol wafers",
    "hop acid strips",
    "lactic acid spray",
    "vadescana",
)
"""What an unknown word in a treatment's place may mean: actives and forms, never a trade name."""


def treat(msg: Message, i: int, s: Statement, stance: Stance, draft: Draft, made: list[Draft]) -> None:
    """Adds a treatment, or what it says more of the one just made."""
    before = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    bare = not s.has("agent", "cols", "verb", "yard", "pronoun", "hives", "date", "cue") and not any(
        m.label == "w" and m.w in WAYS for m in s.marks
    )
    going = going_out(s) is not None
    placed = s.has("cols", "every", "hives", "yard", "rest", "number", "each") or msg.held.yard is not None
    treatments = [
        d
        for d in msg.thread.lately(msg.first_draft)
        if d.kind == "treatment" and (d.sentence == s.sentence or d.line == s.line)
    ]
    if bare and treatments and "amount" in draft.slots and "amount" not in treatments[-1].slots and before is not None:
        target = treatments[-1]
        for d in treatments:
            if d.statement == target.statement:
                finishing.merge(
                    d,
                    draft,
                    ("amount", "unit", "round", "days", "approx") + (("form",) if "form" not in d.slots else ()),
                )
                if s.has("every") and "colonies" not in d.slots:
                    d.put("every_colony", True, "every colony")
                for m in s.marks:
                    if m.label in ("each", "every"):
                        d.spans.append((m.s, m.e))
        return
    if s.opens == "line" and not s.has("verb", "cue", "date", "pronoun", "unit", "noun") and not going and not placed:
        msg.thread.last_treatment = draft  # "Formic pads" over a list: named, not given
        msg.thread.used += draft.spans
        return
    if not going and treatments and any(m.label == "w" and m.w in ("too", "also") for m in s.marks):
        draft.put("step", treatments[-1].slots["step"], "too")  # "strips out at heath, the gel too"
    finishing.finish(msg, i, s, stance, draft)
    made.append(draft)
    if before is not None:
        _same_place(before, draft)
    for other in _beside_it(s, draft):
        msg.thread.drafts.append(other)
        made.append(other)
    if before is not None and before.kind == "treatment" and before.statement == msg.thread.statements - 1:
        if before.sentence == s.sentence and before.slots.items() <= draft.slots.items():
            draft.spans += before.spans  # "we vaped it, vaped the whole Quarry but 6, second round": one and the same
            msg.thread.drafts.remove(before)


_PLACE = ("yard", "colonies", "every_colony", "except_colonies", "colony_count")


def _same_place(before: Draft, draft: Draft) -> None:
    """ "thymol out and amitraz in on 16": one thing for another in the same hives, which are named after both."""
    swapped = before.kind == "treatment" and before.sentence == draft.sentence
    if not swapped or before.slots.get("step") != "out" or draft.slots.get("step") != "in":
        return
    if before.slots.keys().isdisjoint(_PLACE[1:]) and before.slots.get("yard") in (None, draft.slots.get("yard")):
        for slot in _PLACE:
            if slot in draft.slots:
                before.put(slot, draft.slots[slot], "what went in instead")


def _beside_it(s: Statement, draft: Draft) -> list[Draft]:
    """ "amitraz strips and thymol gel in", "strips and gel out": another one named beside the first, gone its way."""
    others = []
    for m in s.all("agent", "form"):
        k = index_of(s, m)
        lead = [x.w for x in s.marks[max(0, k - 2) : k] if x.w != "the"]
        if not lead or lead[-1] not in ("and", "plus", "&") or m.v.get(m.label) in (None, draft.slots.get(m.label)):
            continue
        form = m.v.get("form") or next((x.v["form"] for x in s.marks[k + 1 : k + 2] if x.label == "form"), None)
        if m.label == "form" and draft.slots.get("form") is None:
            continue
        if form is None and any(x.v.get("treats") for x in s.all("form")):
            form = draft.slots.get("form")  # "trickled 20 with the oxalic and formic mix"
        own = ("agent", "form", "product", "amount", "unit")
        slots = {slot: value for slot, value in draft.slots.items() if slot not in own}
        other = replace(draft, slots=slots, why=dict(draft.why), spans=[(m.s, m.e)])
        for slot, value in (("agent", m.v.get("agent")), ("form", form), ("product", m.v.get("product"))):
            if value:
                other.put(slot, value, m.rule)
        others.append(other)
    return others


def _pull_then(s: Statement) -> bool:
    """ "2 per hive, hives 1-14. Pull on 9/16", "gel in 70 | and will be removed on the 8th": what was put in before
    comes out, on a day.
    """
    verbs = s.all("verb")
    return (
        len(verbs) == 1
        and verbs[0].v.get("dir") == "out"
        and (verbs[0].v.get("tense") == "base" or any(m.w.split()[-1] == "be" for m in cues(s, "plan")))
        and s.has("date")
        and all(m.label in ("verb", "date", "filler", "comma", "cue") or m.w in _BEFORE_DAY for m in s.marks)
    )


_BEFORE_DAY = frozenset("by on before around and then to".split())


def _of_what_is_taken(s: Statement, pronoun: Mark) -> bool:
    """ "take the tractor to the shop before it dies", "bring the truck in since it leaks": whether the word points to
    what the verb has for its object, and that is none of ours; or to nothing ("before it gets cold").
    """
    k = index_of(s, pronoun)
    lead = s.marks[k - 1].w if k else ""
    if lead not in _LEADS_CLAUSE:
        return False
    turns = [m for m in s.marks[k + 1 : k + 3] if m.label == "verb" or m.label == "w" or m.label == "fact"]
    if len(turns) == 2 and turns[0].w in ("gets", "get", "got", "goes") and turns[1].label != "verb":
        return pronoun.w == "it" and turns[1].w not in WAYS
    return any(
        (a.label == "verb" or a.w in _JOBS)
        and b.w in _ARTICLES
        and c.label == "w"
        and c.w.isalpha()
        and c.w not in WAYS
        for a, b, c in zip(s.marks[:k], s.marks[1:k], s.marks[2:k], strict=False)
    )


_JOBS = listed("jobs")
_LEADS_CLAUSE = frozenset("before because cause since while when until till after so if".split())
_ARTICLES = frozenset("the a an my our that".split())


def _of_no_treatment(s: Statement) -> bool:
    """ "on seventy three I left the lid off": which way something went that is no treatment."""
    return any(
        way.w in ("off", "out") and what.label == "w" and what.w.isalpha() and the.w in _ARTICLES
        for the, what, way in zip(s.marks, s.marks[1:], s.marks[2:], strict=False)
    )


def pulled(msg: Message, i: int, s: Statement, stance: Stance) -> Draft | None:
    """ "I'll go back and get them out Sunday": what "them" points to comes out (or goes in)."""
    if any(m.v.get("does") == "feed" for m in s.all("verb")):
        return None  # "a frame of brood in nine | on friday it gets a proper feed"
    last = msg.thread.last_treatment
    bare_out = (
        s.has("date")
        and any(m.w in ("out", "off") for m in s.marks)
        and all(m.label in ("date", "filler", "comma") or m.w in _OUT_ON_A_DAY for m in s.marks)
    )  # "gel in 70 today, | to come out on July 8", "…, six weeks, so um | out on september twenty third"
    bare_out = bare_out or _pull_then(s)
    out = True if bare_out else going_out(s)
    pronoun = next((m for m in s.all("pronoun") if m.w not in ("its", "her")), None)
    if pronoun is not None and _of_what_is_taken(s, pronoun):
        return None
    pronoun = pronoun or next((m for m in s.marks if m.w in ("they're", "theyre")), None)
    if pronoun is None and s.marks[0].w == "that" and last is not None and last.sentence == s.sentence:
        pronoun = s.marks[0]  # "there's pads in l one | that come out friday"
    pronoun = pronoun or next((m for m in s.all("verb") if _GOT_THEM.match(m.w)), None)  # "got them off"
    all_of_them = ("all of", "them all") if s.has("days") else ("all of", "them all", "they all")
    pronoun = pronoun or next((m for m in s.all("every") if m.w.startswith(all_of_them)), None)
    if s.has("clean") and any(a.label == "pronoun" and b.label == "clean" for a, b in pairwise(s.marks)):
        return None  # "so I gave it nothing"
    if pronoun is not None and any(a.w in ("got", "gets", "get") and b.w == "none" for a, b in pairwise(s.marks)):
        return None  # "because it got none last week"
    if s.has("days") and not out and not s.has("cols", "unit", "rest"):
        return None  # "they get twenty days": more said of what is in
    if any(m.w.startswith("still ha") and not m.w.startswith("still haven") for m in cues(s, "not")):
        out = True  # "hive six still has hers"
    stays = still_in(s) or _not_found(s, stance, last)
    if stays:
        out = True  # "I left them in 42", "couldn't find the ones in seven so those are still in": not taken out
    owned = s.has("cols") and any(m.w == "'s" for m in s.marks)  # "I'll pull hive six's"
    if out is None and not s.has("thing"):
        return None
    verbs = [m for m in s.all("verb") if m.v.get("dir")]
    another = (
        (s.has("ordinal") or any(m.w == "another" for m in s.marks))
        and not out
        and not s.has("item", "form", "agent", "cols")
    )  # "so I put a third on"
    dealt = s.has("amount")  # "the feeder on nine was dry so it got a quart"
    if (pronoun is not None or another) and verbs and not dealt and (told := _told_thing(msg)) is not None:
        spans = [(m.s, m.e) for m in (told, pronoun, s.first("ordinal")) if m is not None]
        draft = Draft("gear", {"item": told.v["item"]}, spans, {"item": told.rule})
        if another:
            draft.put("count", 1, "one more")
        elif not out and pronoun is not None and stance.state == "done" and (dose := _bare_dose(s)) is not None:
            draft.put("count", tidy(number_of(dose).value), "so many of it")  # "ten was full so I gave it two"
            draft.spans.append((dose.s, dose.e))
        if msg.before is not None and still_in(msg.before) and all(m.w in ("get", "grab", "do") for m in verbs):
            out = True  # "the escape is still on 44, I'll get it Saturday"
        draft.put("step", "off" if out else "on", "out or off")  # "the super on 44 is full, I'll pull it Friday"
        finishing.finish(msg, i, s, stance, draft)
        return draft
    outs = any(m.label == "w" and m.w in ("out", "off") for m in s.marks)
    back = out is False and any(m.w in ("go back", "goes back", "come back", "going back") for m in cues(s, "plan"))
    due = bare_out or any(m.w in ("due out", "due to come out", "due off") for m in cues(s, "plan"))
    if due:
        out = outs = True  # "they're due out october tenth"
    left_out = any(m.w == "not" and then_in(s, m) for m in cues(s, "not"))  # "not in 11 through 18 yet"
    nucs = any(m.w == "nucs" for m in s.all("hives"))
    already = out is False and any(m.w == "already" for m in s.marks)  # "L10 to L12 already in"
    elliptic = (
        (nucs or s.has("cols", "rest"))
        and (stays or outs or (owned and verbs) or out or left_out or already)
        and not s.has("mites", "value", "clean", "percent")
        and not _of_no_treatment(s)
    )
    now = became(s)
    elliptic = elliptic or now
    thing = s.has("thing") and (verbs or stance.state != "done")
    if not (pronoun is not None and (verbs or outs or back or stays)) and not elliptic and not thing and not due:
        return None
    if any(m.label == "ignore" and "supers" in m.w.split() for m in s.marks) and out:
        draft = Draft("gear", {"item": "super"}, [(m.s, m.e) for m in s.all("pronoun")], {"item": "supers still on"})
        draft.put("step", "off", "out or off")  # "supers still on, pull them Friday"
        finishing.finish(msg, i, s, stance, draft)
        return draft
    newest = next((d for d in reversed(msg.thread.lately()) if d.kind in ("treatment", "gear", "feed")), None)
    if newest is None and last is None:
        return None
    if newest is not None and newest.slots.get("step") in ("out", "off") and out is False and stance.state == "done":
        if newest.slots.get("state") == "planned" and all(m.w.split()[0] == "went" for m in verbs):
            return None  # "50 to 55 come out tomorrow, those went in a day later"
    if newest is not None and newest.kind != "treatment":
        if newest.kind == "gear" and not (thing or pronoun is not None or (now and newest.sentence == s.sentence)):
            return None
        if newest.kind == "feed" and out:
            return None
        copy = Draft(
            newest.kind,
            {k: v for k, v in newest.slots.items() if k in ("item", "feed", "ratio")},
            [],
            dict(newest.why),
        )
        if newest.kind == "gear":
            copy.put("step", "off" if out else "on", "out or off")
            if (bare := _bare_dose(s)) is not None:
                copy.put("count", tidy(number_of(bare).value), "so many each")
            if s.has("thing") and out is not True and all(m.w in ("get", "do", "got") for m in verbs):
                copy.put("step", newest.slots["step"], "theirs")  # "supers are off … i'll get theirs next friday"
        elif (given := s.first("amount")) is not None:
            value, unit = amount_of(given)
            copy.put("amount", tidy(value), given.rule)  # "45 gets hers thursday, a pound"
            if unit:
                copy.put("unit", unit, given.rule)
            copy.spans.append((given.s, given.e))
        elif (bare := _bare_dose(s)) is not None and (
            unit := newest.slots.get("unit", "patty" if newest.slots.get("feed") == "pollen_patty" else None)
        ):
            copy.put("amount", tidy(number_of(bare).value), "so many each")  # "12 and 16 are light, they each got two"
            copy.put("unit", unit, "what it points to")
            copy.spans.append((bare.s, bare.e))
        for m in (pronoun, s.first("thing")):
            if m is not None:
                copy.spans.append((m.s, m.e))
        finishing.finish(msg, i, s, stance, copy, _left_for_later(s, stance, newest, verbs))
        return copy
    if last is not None and out and last.slots.get("state") == "not_done" and last.slots.get("step") == "in":
        last = next(
            (
                d
                for d in reversed(msg.thread.lately(msg.first_draft))
                if d.kind == "treatment" and d.slots.get("state", "done") == "done"
            ),
            last,
        )
    if last is None:
        return None
    draft = Draft("treatment")
    for slot in ("agent", "form", "product"):
        if slot in last.slots:
            draft.put(slot, last.slots[slot], "what it points to")
    if not outs and verbs and all(m.w in ("get", "do", "grab", "got", "getting") for m in verbs):
        out = last.slots.get("step") == "out"
    draft.put("step", "out" if out else "in", "out or off")
    if pronoun is not None:
        draft.spans.append((pronoun.s, pronoun.e))
    number = s.first("unit")
    if number is not None:
        draft.put("amount", tidy(number_of(number).value), number.rule)
        draft.put("unit", number.v["unit"], number.rule)
    elif (bare := _bare_dose(s)) is not None and (unit := last.slots.get("unit", last.slots.get("form"))) in _COUNTED:
        draft.put("amount", tidy(number_of(bare).value), "so many each")
        draft.put("unit", unit, "what it points to")
    place: Place | None = None
    if not s.has("cols", "every", "hives", "yard", "rest"):
        otherwise = pronoun is not None and placing.got_otherwise(msg, s, pronoun)
        place = placing.those_left_out(msg) if otherwise else place_of(last)
        if (
            msg.held.cols
            and not msg.held.cols.get("every")
            and msg.held.cols_sentence == s.sentence
            and (
                (pronoun is None and stance.state == "not_done" and s.has("thing"))  # "so I never put any in"
                or (pronoun is not None and not out and _others_get_it(s, pronoun, last, msg.held.cols["ids"]))
                or (
                    pronoun is not None
                    and (
                        not last.slots.get("colonies")
                        or s.has("thing")
                        or "n" in pronoun.v
                        or (stance.state == "conditional" and pronoun.w == "it")
                    )
                )
            )
        ):
            place = Place()
            placing.take_held(msg, place)
    elif nucs and not s.has("cols", "every", "yard", "rest"):
        place = Place(msg.held.yard, every=True)  # "the nucs still have theirs": which those are, the roster says
    if bare_out and stance.state == "done" and stance.ahead is not False and not _lately(stance.said, msg.today):
        stance = stance.turned("planned")
    if newest is not None and (later := _left_for_later(s, stance, newest, verbs)) is not None:
        place = later
    left_in = list(last.slots.get("except_colonies", []))
    if left_in and s.marks[0].w == "which" and not s.has("cols") and s.marks[1].w.split()[0] in _BY_US:
        place = Place(last.slots.get("yard"), left_in)  # "all of Quarry bar 11 and 12, | which I'll pull Friday"
    finishing.finish(msg, i, s, stance, draft, place)
    if s.has("days") and not out:
        all_so_long(msg, s, draft)
    msg.of_nucs += [(draft, m) for d, m in msg.of_nucs if d is last and place is not None][:1]
    return draft


def _not_found(s: Statement, stance: Stance, last: Draft | None) -> bool:
    """ "took the pads out, couldn't find the ones in seven": not taken out either."""
    taken = last is not None and last.slots.get("step") == "out" and last.slots.get("state", "done") == "done"
    return taken and stance.state == "not_done" and s.has("thing") and not s.has("verb")


_BY_US = frozenset("i i'll we we'll".split())


def _others_get_it(s: Statement, pronoun: Mark, last: Draft, ids: list[str]) -> bool:
    """ "51 to 64 are on the first one, | they get the second on Monday": those told of since, not those of `last`."""
    subject = all(
        m.label in ("comma", "filler") or m.w in ("so", "and", "but") for m in s.marks[: index_of(s, pronoun)]
    )
    gets = any(m.w.split()[0] in ("get", "gets", "got", "need", "needs") for m in s.all("verb", "cue"))
    return subject and gets and set(ids).isdisjoint(last.slots.get("colonies", []))


_COUNTED = frozenset("strip pad tray wafer sponge".split())
"""What is given by number, so that "2 each" says enough."""


def _bare_dose(s: Statement) -> Mark | None:
    """The number of "45 through 49 get theirs Thursday, 2 each"."""
    numbers = s.all("number", "value")
    if len(numbers) != 1 or "n" not in numbers[0].v:
        return None
    after = neighbour(s, index_of(s, numbers[0]), 1)
    got = any(m.w in ("got", "gets", "get", "gave", "give") for m in s.all("verb"))
    alone = got and after is None  # "47 is small so it got one"
    return numbers[0] if alone or (after is not None and after.label == "each") else None


def _told_thing(msg: Message) -> Mark | None:
    """The thing of which the statement before told how it is, without a record of its own."""
    before = msg.before
    if before is None or not before.has("cols", "yard", "every") or before.has("verb", "agent", "form"):
        return None
    if any(d.statement == msg.thread.statements - 1 and d.kind == "gear" for d in msg.thread.drafts[-3:]):
        return None
    things = before.all("item")
    if len(things) == 2 and any(m.w in ("under", "over") for m in before.marks):
        things = things[:1]  # "44 still has the escape under its super": the escape is spoken of
    told = any(m.w in _STANDS or m.w in _GOES_WRONG for m in before.marks)
    return things[0] if len(things) == 1 and told else None


_STANDS = frozenset("is 's are was were has have still".split())
_GOES_WRONG = listed("gear_goes_wrong")
_GOT_THEM = re.compile(r"got(ten)? (them|it|those|em) |(out|off) (it|they|those|these) ")
_OUT_ON_A_DAY = frozenset(["out", "off", "so", "and", "then", "by", "on", "to come", "due out", "due to come out"])


def _lately(when: When | None, today: date) -> bool:
    """ "in 4/1, out 5/20", said in June: the day of this year is over, and nearer than that of the next."""
    day = day_of(today.year, *when.args) if when is not None and when.form == "md" else None
    return day is not None and timedelta(0) < today - day < timedelta(days=183)


def _left_for_later(s: Statement, stance: Stance, newest: Draft, verbs: list[Mark]) -> Place | None:
    """Those left out before, where "I'll get that one in a week", "I'll get theirs Friday" speaks of them."""
    left = newest.slots.get("except_colonies")
    if not left or stance.state != "planned" or s.has("cols", "every", "hives", "yard", "rest"):
        return None
    gets = bool(verbs) and all(m.w in ("get", "do", "grab", "finish") for m in verbs)
    if newest.slots.get("step") in ("out", "off") and newest.slots.get("state", "done") == "done" and going_out(s):
        gets = True  # "pads out, all but 4 and 9, those come out Friday": what is out comes out no more
    them = s.has("thing") or any(m.w.startswith(("that one", "this one", "those", "them")) for m in s.all("pronoun"))
    return Place(newest.slots.get("yard"), list(left)) if gets and them else None


def asked_after(msg: Message, s: Statement) -> None:
    """ "how many wafers of thymol are left? 3 to 9 got two wafers each": what was asked about is what was given."""
    keep = {k: v for m in s.all("agent", "form") for k, v in m.v.items() if k in ("agent", "form", "product")}
    if keep:
        spans = [(m.s, m.e) for m in s.all("agent", "form")]
        why = dict.fromkeys(keep, "what was named before")
        msg.thread.last_treatment = Draft("treatment", keep, spans, why, s.sentence, s.line)


def of_named(msg: Message, i: int, s: Statement, stance: Stance) -> Draft | None:
    """ "the formic pads arrived so | the quarry gets two each on friday": of what was only named, so many each."""
    named = msg.thread.last_treatment
    bare = _bare_dose(s)
    if (
        named is None
        or bare is None
        or named.sentence != s.sentence
        or set(named.slots) - {"agent", "form", "product"}
        or named.slots.get("form") not in _COUNTED
        or not s.has("cols", "yard", "every")
        or s.has_head_but("value")
        or not any(m.w.split()[0] in ("get", "gets", "got") for m in s.all("verb"))
    ):
        return None
    draft = Draft("treatment", dict(named.slots), list(named.spans), dict(named.why))
    draft.put("step", "in", "gets")
    draft.put("amount", tidy(number_of(bare).value), "so many each")
    draft.put("unit", named.slots["form"], "what it points to")
    draft.spans.append((bare.s, bare.e))
    finishing.finish(msg, i, s, stance, draft)
    return draft


def found(msg: Message, s: Statement) -> None:
    """ "found the other strip in 36": nothing done, but what "and pulled it" points to, and where."""
    keep = {k: v for m in s.all("agent", "form") for k, v in m.v.items() if k in ("agent", "form", "product")}
    spans = [(m.s, m.e) for m in s.all("agent", "form", "cols")]
    place: dict[str, Any] = {"every_colony": True, "yard": msg.held.yard}
    if s.has("cols"):
        ids, yard = settle_ids(list(s.all("cols")[0].v["ids"]), msg.held.yard, msg.outfit)
        place = {"colonies": ids} | ({"yard": yard} if yard else {})
    why = dict.fromkeys(keep | place, "what was found")
    msg.thread.last_treatment = Draft("treatment", keep | place, spans, why, s.sentence, s.line)


def unknown_word(msg: Message, i: int, s: Statement, stance: Stance, made: list[Draft]) -> None:
    """ "put bluebands in 12": a word nobody has taught, in the place of a treatment, becomes a question."""
    if s.has_head or not s.has("cols", "every", "hives", "yard") or going_out(s) is None:
        return
    earlier = msg.statements[i - 1] if i and msg.statements[i - 1].sentence == s.sentence else None
    if earlier is not None and not earlier.has_head and s.has("cols") and s.has("each") and s.has("verb"):
        # "got some bluetabs off a fella, put 2 each in H3 and H4"
        word = next((m for m in earlier.marks if m.label == "w" and strange(msg, m.w)), None)
        if word is not None:
            ask_word(msg, i, s, stance, made, word)
            return
    for k, m in enumerate(s.marks):
        if m.label != "w" or not strange(msg, m.w):
            continue
        before, after = neighbour(s, k, -1), neighbour(s, k, 1)
        if (
            before is not None
            and before.label == "w"
            and before.w in ("the", "a", "an", "some", "those", "all", "more", "of")
        ):
            before = neighbour(s, k - 1, -1)
        placed = (
            before is None
            or before.label in ("number", "value", "comma", "cue", "filler", "cols")
            or (before.label == "verb" and before.v.get("dir"))
            or before.w in (":", "-", "–", "and")
        )
        put = after is not None and (
            after.w in ("in", "on", "out", "off", "into", "from", "onto") or after.label in ("verb", "each", "every")
        )
        if not (placed and put):
            continue
        ask_word(msg, i, s, stance, made, m)
        return


def ask_word(msg: Message, i: int, s: Statement, stance: Stance, made: list[Draft], m: Mark) -> None:
    """A treatment with that word as its product, and the question what it is."""
    draft = Draft("treatment")
    draft.put("product", m.w, "a word not known")
    draft.put("step", "out" if going_out(s) else "in", "in or out")
    number = next((x for x in s.all("number", "value") if "n" in x.v), None)
    if number is not None:
        draft.put("amount", tidy(number_of(number).value), "number beside it")
        draft.spans.append((number.s, number.e))
    draft.spans.append((m.s, m.e))
    finishing.finish(msg, i, s, stance, draft)
    made.append(draft)
    ask = f'What is "{m.w}"? If it is a treatment, say which; it is then kept in the roster under [words].'
    msg.thread.questions.append((draft, ask, [*TREATMENT_CHOICES, "not a treatment"], "unknown_word", m.w))


def strange(msg: Message, word: str) -> bool:
    """Whether nobody taught the word: it is no word of the grammar, the roster or plain English."""
    if len(word) < 4 or not word.isalpha() or word in speech().known or word in msg.outfit.phrases.vocabulary:
        return False
    known = {w.lower() for w in msg.outfit.roster.words}
    return word not in known and word not in common_words()


def but_not_there(msg: Message, i: int, s: Statement, stance: Stance, drafts: list[Draft]) -> None:
    """ "put a super on 9 but not on 12": what was done to the one was not done to the other."""
    if not drafts or not s.has("cue"):
        return
    others = [m for m in s.all("cols") if holding.is_exception(msg, s, m)]
    if not others or len(s.all("cols")) == len(others) or stance.state != "done":
        return
    for d in drafts:
        if d.kind not in ("gear", "treatment", "feed") or d.slots.get("every_colony"):
            continue
        keep = ("agent", "form", "product", "step", "item", "feed", "ratio")
        copy = Draft(d.kind, {k: v for k, v in d.slots.items() if k in keep}, [], dict(d.why))
        copy.spans += [(m.s, m.e) for m in (*others, *cues(s, "except"))]
        ids, yard = settle_ids(list(others[0].v["ids"]), msg.held.yard, msg.outfit)
        undone = Stance("not_done", said=stance.said, today=stance.today, hemisphere=stance.hemisphere)
        finishing.finish(msg, i, s, undone, copy, Place(yard, ids))


def then_in(s: Statement, m: Mark) -> bool:
    """Whether "in" or "on" follows the mark."""
    after = neighbour(s, index_of(s, m), 1)
    return after is not None and after.w in ("in", "on")


def round_of_looks(msg: Message, s: Statement, treated: Draft) -> bool:
    """ "Heath, first round, Sunday": a round of looks, where nothing was given or done, and no
    other round is told of.
    """
    which = s.first("round")
    if which is None or treated.slots.get("round") != 1 or s.has("verb", "noun", "unit", "agent", "form"):
        return False
    if msg.thread.last_treatment is not None or which.w.split()[-1] not in _LOOKS:
        return False
    return not any(x is not s and x.has("round") for x in msg.statements)


_LOOKS = frozenset(["round", "rounds", "rnd", "one"])


def pointed_treatment(msg: Message, s: Statement) -> Draft | None:
    """The treatment that "them" or "the strips" points to."""
    return msg.thread.last_treatment


_SAID_OVER = frozenset("on yard yard kind state every_colony agent form product step by".split())


def drop_headers(msg: Message) -> None:
    """ "Thymol gel at Heath. 1 and 2 got a tray each, 3 gets its gel tomorrow": what only heads a list is no record."""
    drafts = msg.thread.lately(msg.first_draft)
    for k, d in enumerate(drafts):
        if d.kind != "treatment" or not d.heads or not set(d.slots) <= _SAID_OVER | {"colonies"}:
            continue
        below = [x for x in drafts[k + 1 :] if x.kind == "treatment" and x.slots.get("yard") == d.slots.get("yard")]
        alike = [x for x in below if x.slots.get("agent") == d.slots.get("agent")]
        states = {x.slots.get("state", "done") for x in alike}
        left = "not_done" in states and "done" not in states  # "it is out, but I left it in nine"
        if alike and not left and all(x.slots.get("colonies") for x in alike):
            msg.thread.used += d.spans
            msg.thread.drafts.remove(d)


def named_behind(msg: Message, s: Statement, named: dict[str, object]) -> None:
    """ "strips out of 10 and 11, | amitraz": what the treatment just told of was, where only its form was said."""
    if not all(m.label in ("agent", "form", "comma", "filler", "round") for m in s.marks):
        return
    for d in msg.thread.lately(msg.first_draft):
        told = d.kind == "treatment" and d.sentence == s.sentence and d.statement == msg.thread.statements - 1
        if told and "agent" not in d.slots:
            for slot, value in named.items():
                if slot not in d.slots:
                    d.put(slot, value, "named just after")
            d.spans += [(m.s, m.e) for m in s.all("agent", "form")]
