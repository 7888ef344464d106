"""Mite checks: what a method, a sample size or a day said once holds for, and counts that come after their colonies."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.assertion import Stance, cues
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import days_of
from fieldnotes.reader.frames.checks import LIMITS, checks, method_of
from fieldnotes.reader.frames.marks import index_of, number_of, sample_size, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.checking import WASHES_IN
from fieldnotes.reader.grouping.counts import OF_SOME_HIVE
from fieldnotes.reader.making import (
    finishing,
    holding,
    placing,
)
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import Mark, is_others
from fieldnotes.reader.parting.left_out import excepted
from fieldnotes.reader.scope import Draft, Place, settle_ids

_PASSED_OVER = tuple(listed("passed_over"))
_SPEAKS_OF_CHECKS = frozenset("mites value method pronoun sample clean percent check days".split())


def check(msg: Message, i: int, s: Statement, stance: Stance, made: list[Draft]) -> None:
    """The mite checks of a statement; what its method, sample size and days hold for."""
    if stance.state != "not_done" and not s.has_any(_SPEAKS_OF_CHECKS) and s.words.isdisjoint(_WASHED_WITH):
        return  # as most statements: no check is spoken of, and none was left undone
    held, thread = msg.held, msg.thread
    if stance.state == "not_done" and _none_over(s):
        return
    if _said_at_the_end(msg, i, s) or (s.has("percent") and _as_percent(msg, s)):
        return
    if holding.of_other_work(msg, s):
        left_undone(msg, i, s, stance, made)
        return
    if held.method == "board" and (stay := s.first("days")) is not None and _nothing_but(s, stay):
        _were_in(msg, s, stay)
        return
    counting = any(d.kind == "mite_check" and "mites" in d.slots for d in thread.lately()[-3:])
    drafts, header = checks(s, held, stance.state, counting)
    if stance.state == "not_done" and drafts and {"mites", "per_100"} & drafts[0].slots.keys():
        # "neither had a mite", "ten was twelve, one of them fainted, not a nun, a bee": what was counted was done
        stance = Stance(state="done", carried=stance.when)
        drafts, header = checks(s, held, "done")
    row = held.cols is not None and held.cols_line == s.line and s.opens == "soft"  # "Hive 4: rain came, wash not done"
    lost = _lost_here(msg, s)
    if stance.state == "not_done" and not (row or lost) and not s.has("cols", "every", "yard", "hives", "pronoun"):
        return  # "forgot the boards": no colony that was left
    if stance.state == "conditional" and made:
        return  # "if B9 washes over two percent it gets …": the check is the condition
    sample = s.first("sample")
    said_after = method_after_counts(s)
    if said_after is not None and (_of_all(s) or _first_named(msg, s)):
        for d in thread.lately(msg.first_draft):
            said = d.slots.get("method")
            bare = said is None or (said in ("wash", "roll") and said_after.v["method"].endswith(said))
            if d.kind == "mite_check" and d.line == s.line and bare:
                d.put("method", said_after.v["method"], said_after.rule)
                if sample is not None and "bees" not in d.slots:
                    bees = sample_size(sample)
                    d.put("bees", bees, sample.rule)
                if said_after.v["method"] == "board" and (days := s.first("days")) is not None:
                    d.put("board_days", tidy(days_of(days)), days.rule)
    if sample is not None and (
        s.has("each")
        or not {"each", "ea", "all", "time", "always"}.isdisjoint(sample.w.split())
        or (s.marks[-1] is sample and any(m.w == "that's" for m in s.marks))  # "that's alcohol, half a cup"
        or any(m.w in ("lot", "all", "always") for m in s.marks)
        or any(m.w.startswith(("both", "all")) for m in s.all("pronoun", "every"))
        or (sample.w.endswith("cups") and bool(s.all("cols")))
    ):
        bees = sample_size(sample)
        for d in thread.lately(msg.first_draft):
            near = d.sentence == s.sentence or (d.line == s.line and d.statement >= thread.statements - 12)
            if _checked_otherwise(msg, s, d):
                continue
            if d.kind == "mite_check" and near and "bees" not in d.slots and "mites" in d.slots:
                d.put("bees", bees, "sample said for each")
    if not drafts and sample is not None and not s.has("cols", "agent", "feed"):
        bees = sample_size(sample)
        if _of_the_planned(msg, s, stance, sample):
            return
        if not later_counts(msg, i):
            for d in thread.lately(msg.first_draft):
                if d.kind == "mite_check" and d.line == s.line and "bees" not in d.slots and "mites" in d.slots:
                    d.put("bees", bees, sample.rule)  # "L26 10 mites, L28 2 mites. half cups"
        held.bees = sample_size(sample)
        held.bees_by_any = held.method is None
        thread.used.append((sample.s, sample.e))
        return
    due = held.method is not None or (counting and not s.has("verb") and not _puts_right(s))
    if not drafts and (not (stance.state == "not_done" and due) or _none_given(msg, s)):
        left_undone(msg, i, s, stance, made)
        return
    if not drafts:
        if (
            stance.state == "not_done"
            and not made
            and due
            and (s.has("cols") or lost or _that_one_undone(msg, s))
            and not s.has("fact", "agent", "item", "feed", "change", "queen_work", "form", "harvest", "sky")
        ):
            if not s.has("cols") and (before := _lost_just_now(msg)) is not None:
                before.spans += [(m.s, m.e) for m in s.marks if m.label in ("pronoun", "cue")]
                return  # "45 i spilled | so that one's not done"
            draft = Draft("mite_check")
            if held.method is not None:
                draft.put("method", held.method, "method that holds")
            finishing.finish(msg, i, s, stance, draft)
            made.append(draft)
        return
    method = method_of(s)
    cols = [m for m in s.all("cols") if not holding.is_exception(msg, s, m)]
    if method is not None:
        if method.v["method"] != held.method and not (
            method.v["method"] in ("wash", "roll") and held.method and held.method.endswith(method.v["method"])
        ):
            told_nearer = held.method in ("wash", "roll") and method.v["method"].endswith(held.method)
            held.method, held.board_days = method.v["method"], None
            held.bees = held.bees if held.bees_by_any or told_nearer else None
    sample = s.first("sample")
    heads = sample is not None and bool(cols) and sample.s < cols[0].s  # "half cup rolls, L3 one percent, L6 two"
    if sample is not None and ("per_100" not in drafts[0].slots or heads):
        held.bees = sample_size(sample)
        held.bees_of_one = not header and (
            sample.w.startswith("out of")
            or any(after is sample and m.w in ("of", "in", "/") for m, after in pairwise(s.marks))
        )
    days = s.first("days")
    if days is not None and held.method == "board":
        held.board_days = tidy(days_of(days))
        days_for_all(msg, s, days)
    if header:
        checked = [d for d in thread.lately(msg.first_draft) if d.kind == "mite_check" and d.sentence == s.sentence]
        if method is not None and checked and not cols and (s.has("pronoun", "every")) and stance.state == "done":
            for d in checked:
                if d.slots.get("method") in (None, "wash", "roll"):
                    d.put("method", method.v["method"], method.rule)
                    d.spans.append((method.s, method.e))
            return
        if _of_so_many_hives(msg, i, s, stance):
            finishing.finish(msg, i, s, stance, drafts[0])
            made.append(drafts[0])
            return
        if (
            stance.state == "done"
            and not (cols and check_verb(s))
            and not (cols and method is not None and later_counts(msg, i))
        ):
            for m in (method, sample, days, *s.all("check")):
                if m is not None:
                    thread.used.append((m.s, m.e))
            person = finishing.doer(msg, s)
            if (
                person is None
                and msg.last_person is not None
                and any(m.w in ("he", "she") and not finishing.tells(s, k) for k, m in enumerate(s.marks))
            ):
                person = msg.last_person[0]  # "Dov helped me today, he did the sugar rolls"
            if person is not None:
                msg.who_checked = (person, s.line)
            held.waiting = True
            held.titled = s.opens == "line" and held.yard_since < 0 and not held.cols
            return
        if stance.state == "done" and cols and not check_verb(s) and not later_counts(msg, i):
            return
    if not cols and not header and len(drafts) == 1 and (left := _of_the_exception(msg, s)) is not None:
        finishing.finish(msg, i, s, stance, drafts[0], left)
        made.append(drafts[0])
        return
    if not cols and len(drafts) > 1 and all(m.rule == OF_SOME_HIVE for m in s.all("value")) and s.has("value"):
        for draft in drafts:  # "washed three hives at larks and got two, four and nine"
            finishing.finish(msg, i, s, stance, draft, Place(held.yard))
            made.append(draft)
        held.waiting = False
        return
    pending = uncounted(msg, i, s)
    if not header and pending and not cols:
        fill_pending(msg, pending, drafts, s)
        return
    if not header and not cols and len(drafts) == 1 and (_another_count(msg, drafts[0]) or _nothing_of_it(msg, s)):
        return
    if (
        not header
        and not cols
        and not s.has("pronoun", "every")
        and not any("n" in m.v for m in s.all("hives"))
        and method is None
        and s.has("mites") is False
        and s.has("percent") is False
        and not (held.method and not held.cols and s.has("ordinal"))  # "the first had two and the second had none"
        and not (held.method and held.cols and (s.opens != "line" or held.cols_line == s.line))
        and not (held.cols and counting and s.opens == "soft" and _counted_since(s))
    ):
        return
    if cols:
        ids, yard = settle_ids(list(cols[0].v["ids"]), held.yard, msg.outfit)
        if len(drafts) == len(ids) and len(ids) > 1 and not header:
            for cid, draft in zip(ids, drafts, strict=True):
                draft.spans += [(m.s, m.e) for m in (cols[0], *s.all("yard"))]
                finishing.finish(msg, i, s, stance, draft, Place(yard, [cid]))
                made.append(draft)
            return
    pointed = s.first("pronoun")
    if not cols and pointed is not None and held.cols and not header and len(held.cols["ids"]) == len(drafts) > 1:
        for cid, draft in zip(list(held.cols["ids"]), drafts, strict=True):
            finishing.finish(
                msg, i, s, stance, draft, Place(held.cols["yard"] or held.yard, [cid])
            )  # "washed them: 5, 0, 7"
            made.append(draft)
        held.waiting = False
        return
    if msg.correcting and cols and not header:
        ids, _ = settle_ids(list(cols[0].v["ids"]), held.yard, msg.outfit)
        for old in reversed(thread.lately()):
            if old.kind == "mite_check" and old.slots.get("colonies") == ids and "mites" in old.slots:
                for slot in ("mites", "mites_high", "per_100", "bees"):
                    if slot in drafts[0].slots and (slot != "bees" or sample is not None):
                        old.put(slot, drafts[0].slots[slot], drafts[0].why.get(slot, ""))
                old.spans += drafts[0].spans
                old.statement = thread.statements
                return
    if cols and not header and _other_way_round(msg, i):
        _take_back(msg, list(cols[0].v["ids"]), s)
    one = not cols and any(a.label == "number" and a.w == "one" and b.w in _WAS for a, b in pairwise(s.marks))
    for draft in drafts:
        # "five were zero | and one was four": which one is not said
        finishing.finish(msg, i, s, stance, draft, Place(held.yard) if one else None)
        made.append(draft)
        if stance.state == "not_done" or _put_right_before(msg, i):
            finishing.said_twice(msg, draft, s)
    held.waiting = False


def _of_the_exception(msg: Message, s: Statement) -> Place | None:
    """ "all were clean except 53, | which had nine": the colonies that were left out."""
    if s.marks[0].w not in ("which", "that") or msg.before is None or not excepted(msg.before.marks):
        return None
    ids, yard = settle_ids(list(msg.before.marks[-1].v["ids"]), msg.held.yard, msg.outfit)
    return Place(yard, ids)


_WAS = frozenset(["was", "had"])


def _counted_since(s: Statement) -> bool:
    """ "had twelve last week | and four today", "eighteen before treatment | and now it's two"."""
    leads = s.marks[0].w in ("and", "before", "but", "now") or s.has("ignore") or s.marks[0].label == "value"
    joined = "and" in s.words or "now" in s.words or s.marks[0].label == "value"
    return joined and leads and (s.has("date") or "now" in s.words or s.marks[-1].w in ("after", "afterwards"))


def _of_so_many_hives(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "washed four of the hives at larks", and no counts told behind: so many hives were checked."""
    if stance.state != "done" or s.has("cols") or not any("n" in m.v for m in s.all("hives")):
        return False
    return not any(x.has("mites", "value", "clean", "percent") for x in msg.statements[i + 1 :])


def _none_over(s: Statement) -> bool:
    """ "none of the hives went over three in the wash": how the counts stand to a limit, and no check left undone."""
    return not s.words.isdisjoint(LIMITS) and any(m.w.startswith(("none", "neither")) for m in s.all("pronoun"))


def _puts_right(s: Statement) -> bool:
    """ "sorry, 15 not 14": whether a colony is named that was not meant."""
    return "not" in s.words and any(a.w == "not" and b.label == "cols" for a, b in pairwise(s.marks))


def _put_right_before(msg: Message, i: int) -> bool:
    """ "nine had five, no, make that four, | nine had four": a count just put right may be told once more as it is."""
    return any("struck" in m.v for x in msg.statements[max(0, i - 1) : i] for m in x.marks)


def _checked_otherwise(msg: Message, s: Statement, d: Draft) -> bool:
    """Whether the check was of another yard, and the statement names the way in which this one's were done."""
    method = method_of(s)
    other = method is not None and d.slots.get("method") not in (None, "wash", "roll", method.v["method"])
    return other and s.has("yard") and d.slots.get("yard") not in (None, msg.held.yard)


def _other_way_round(msg: Message, i: int) -> bool:
    """Whether "other way round" stands in the statements just before: what was counted of two hives is told anew."""
    near = msg.statements[max(0, i - 2) : i]
    return any(
        a.w == "way" and b.w in ("round", "around") for x in near if "way" in x.words for a, b in pairwise(x.marks)
    )


def _take_back(msg: Message, ids: list[str], s: Statement) -> None:
    """Takes back what was counted of these colonies earlier in the sentence."""
    for d in msg.thread.lately(msg.first_draft):
        if d.kind == "mite_check" and d.slots.get("colonies") == ids and d.sentence == s.sentence:
            msg.thread.used += d.spans
            msg.thread.drafts.remove(d)
            return


def _first_named(msg: Message, s: Statement) -> bool:
    """ "six had two, nine four and eleven one on the sugar roll": no method was named before, so it is of all."""
    checked = [d for d in msg.thread.lately(msg.first_draft) if d.kind == "mite_check" and d.line == s.line]
    counted = s.has("mites", "value", "clean", "percent")
    return counted and msg.held.method is None and not any("method" in d.slots for d in checked)


def _lost_here(msg: Message, s: Statement) -> bool:
    """ "76 ants got it | couldn't count it": the sample of the colony spoken of came to nothing."""
    held = msg.held
    spoken_of = held.cols is not None and len(held.cols["ids"]) == 1 and held.cols_sentence == s.sentence
    return spoken_of and any(m.rule == "sample lost" for m in cues(s, "not"))


def _that_one_undone(msg: Message, s: Statement) -> bool:
    """ "forty three I spilled, so that one's not done"."""
    held = msg.held
    spoken_of = s.has("pronoun") and held.cols is not None and held.cols_sentence == s.sentence
    return spoken_of and any("done" in m.w.split() for m in s.marks)


def _lost_just_now(msg: Message) -> Draft | None:
    """The check that the statement before told to be left undone."""
    last = msg.thread.drafts[-1] if msg.thread.drafts else None
    if last is None or last.kind != "mite_check" or last.slots.get("state") != "not_done":
        return None
    return last if last.statement == msg.thread.statements - 1 else None


_BESIDE_STAY = frozenset(
    "they these those all were was in on under there for of that's them left sat been had stayed they'd and so".split()
)


def _nothing_but(s: Statement, days: Mark) -> bool:
    """Whether the statement only says how long ("3 days", "they were in for three days")."""
    return all(
        m is days
        or m.label in ("comma", "filler", "each", "pronoun")
        or m.w in _BESIDE_STAY
        or (m.label == "w" and not m.w.isalnum())
        for m in s.marks
    )


def _were_in(msg: Message, s: Statement, days: Mark) -> None:
    """ "Boards: 41 12, 45 30. 3 days": how long the boards just told of were in, or those whose counts follow."""
    boards = [
        d for d in msg.thread.lately(msg.first_draft) if d.kind == "mite_check" and d.slots.get("method") == "board"
    ]
    if msg.held.waiting or not boards:
        msg.held.board_days = tidy(days_of(days))  # "board numbers from the pond, they were in two days | 3 had …"
        msg.thread.used.append((days.s, days.e))
        return
    for d in boards:
        if "board_days" not in d.slots:
            d.put("board_days", tidy(days_of(days)), days.rule)
            d.spans.append((days.s, days.e))


def days_for_all(msg: Message, s: Statement, days: Mark) -> None:
    """ "all of those were in three days", said after the counts."""
    if (
        not s.has("pronoun", "every")
        and not any(m.w in ("that's", "all") for m in s.marks)
        and not days.w.startswith("all")
    ):
        return
    for d in msg.thread.lately(msg.first_draft):
        if (
            d.kind == "mite_check"
            and d.slots.get("method") == "board"
            and d.sentence == s.sentence
            and "board_days" not in d.slots
        ):
            d.put("board_days", msg.held.board_days, days.rule)
            d.spans.append((days.s, days.e))


def check_verb(s: Statement) -> bool:
    """Whether the words say that the samples were taken, or that boards are in."""
    return ("under" in s.words and not s.words.isdisjoint(("are", "is", "there's", "theres"))) or any(
        (m.label == "method" and m.w.split()[-1].endswith("ed"))
        or (m.label == "check" and m.w.split()[0].endswith("ed"))
        or (m.label == "verb" and m.v.get("tense") == "past")
        for m in s.marks
    )


def later_counts(msg: Message, i: int) -> bool:
    """Whether the statement after this one has counts and no colony of its own."""
    after = (s for s in msg.statements[i + 1 : i + 3] if not s.has("sample") or s.has("cols", "mites", "value"))
    nxt = next(after, None)  # "half cup" between the colonies and their counts is passed over
    return (
        nxt is not None
        and nxt.has("mites", "value", "clean", "percent")
        and not nxt.has("cols")
        and nxt.line == msg.statements[i].line
    )


def uncounted(msg: Message, i: int, s: Statement) -> list[Draft]:
    """Checks of the statement before that still lack their count."""
    drafts = [
        d
        for d in msg.thread.lately(msg.first_draft)
        if d.kind == "mite_check"
        and (
            d.statement == msg.thread.statements - 1
            or (d.statement == msg.thread.statements - 2 and d is msg.thread.drafts[-1] and d.line == s.line)
        )
    ]
    return [d for d in drafts if not {"mites", "per_100"} & set(d.slots) and d.slots.get("state", "done") == "done"]


def fill_pending(msg: Message, pending: list[Draft], drafts: list[Draft], s: Statement) -> None:
    """Gives the counts of a statement to the checks before it that lack theirs."""
    target = pending[0]
    ids = target.slots.get("colonies", [])
    extra = ("mites", "mites_high", "per_100", "bees", "approx", "board_days")
    nth = s.first("ordinal")
    if nth is not None and len(drafts) == 1 and 1 <= nth.v["value"] <= len(ids) > 1:
        # "the first gave eight mites": the check of all waits for the counts of the others
        spans = [*target.spans, (nth.s, nth.e)]
        copy = Draft(target.kind, dict(target.slots), spans, dict(target.why), target.sentence, target.line)
        copy.put("colonies", [ids[nth.v["value"] - 1]], "the one of that place")
        copy.statement = target.statement = msg.thread.statements
        finishing.merge(copy, drafts[0], extra)
        msg.thread.drafts.append(copy)
        return
    if len(drafts) == len(ids) and len(ids) > 1:
        at = msg.thread.place_of(target)
        copies = []
        for cid, draft in zip(ids, drafts, strict=True):
            copy = Draft(
                target.kind,
                dict(target.slots),
                list(target.spans),
                dict(target.why),
                target.sentence,
                target.line,
                msg.thread.statements,
            )
            copy.slots["colonies"] = [cid]
            finishing.merge(copy, draft, extra)
            copies.append(copy)
        msg.thread.drafts[at : at + 1] = copies
        return
    for draft in drafts:
        if draft is not drafts[0]:
            copy = Draft(
                target.kind,
                {k: v for k, v in target.slots.items() if k not in extra},
                list(target.spans),
                dict(target.why),
                target.sentence,
                target.line,
                msg.thread.statements,
            )
            finishing.merge(copy, draft, extra)
            msg.thread.drafts.append(copy)
        else:
            finishing.merge(target, draft, extra)
            target.statement = msg.thread.statements


def _another_count(msg: Message, draft: Draft) -> bool:
    """ "nine did the same | and got just one": the check said to be the same came to another count."""
    told = msg.thread.statements - 1
    copies = [d for d in msg.thread.drafts[-3:] if d.statement == told and d.why.get("colonies") == "same for"]
    check = next((d for d in copies if d.kind == "mite_check"), None)
    if check is None or "mites" not in draft.slots or check.slots.get("state", "done") != "done":
        return False
    for d in copies:
        if d is not check:
            msg.thread.drafts.remove(d)  # "the same" was said of the check
            check.spans += d.spans
    for slot in ("mites_high", "per_100", "approx"):
        check.slots.pop(slot, None)
    for slot in ("mites", "mites_high", "bees"):
        if slot in draft.slots and (slot != "bees" or draft.why.get("bees") != "sample that holds"):
            check.put(slot, draft.slots[slot], "the same with another number")
    check.spans += draft.spans
    check.statement = msg.thread.statements
    return True


def _nothing_of_it(msg: Message, s: Statement) -> bool:
    """ "nine I couldn't get bees from | so nothing for that one": no count of a check just told to be left undone."""
    lost = _lost_just_now(msg)
    if lost is None or not s.has("clean", "pronoun") or s.has("mites", "value", "percent"):
        return False
    lost.spans += [(m.s, m.e) for m in s.marks if m.label in ("clean", "pronoun")]
    return any(m.w.startswith("nothing") for m in s.all("clean"))


def read_later(msg: Message, i: int, s: Statement, stance: Stance) -> bool:
    """ "put boards under 70 and 76, I'll read them friday": the boards that are in, to be counted on that day."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if not any(m.w.split()[0] in _READ for m in s.marks) or not s.has("pronoun", "every") or s.has_head:
        return False
    to_read = s.marks[0].w in _READ and s.has("date") and stance.ahead is not False and not later_counts(msg, i)
    placed = last is not None and last.statement == msg.thread.statements - 1 and last.slots.get("method") == "board"
    if not placed and _board_named(msg.before, s) and (stance.state == "planned" or to_read):
        stance = stance.turned("planned")
        draft = Draft("mite_check", {"method": "board"}, [], {"method": "board named before"})
        before = msg.before.all("method", "cols") if msg.before is not None else []
        draft.spans += [(m.s, m.e) for m in (*before, *s.marks) if m in before or m.w.split()[0] in _READ]
        finishing.finish(msg, i, s, stance, draft)
        return True
    if (
        last is None
        or last.kind != "mite_check"
        or last.slots.get("method") != "board"
        or {"mites", "per_100"} & set(last.slots)
        or not (last.slots.get("state", "done") == "done" or last.slots.get("on") == msg.today.isoformat())
        or last.statement < msg.thread.statements - 2
        or last.line != s.line
    ):
        return False
    when = stance.turned("planned").when
    last.put("state", "planned", "to be read")
    for slot in ("on", "on_until"):
        last.slots.pop(slot, None)
    if when is not None and when[0] >= msg.today:
        last.put("on", when[0].isoformat(), "date")
        if when[1] != when[0]:
            last.put("on_until", when[1].isoformat(), "date")
    last.spans += [(m.s, m.e) for m in s.marks if m.label in ("cue", "date", "pronoun") or m.w.split()[0] in _READ]
    last.statement = msg.thread.statements
    return True


def _board_named(before: Statement | None, s: Statement) -> bool:
    """ "mite board in on 72, | I'll read it thursday": whether boards were named right before, and nothing else."""
    if before is None or before.line != s.line or before.has("mites", "value", "clean", "percent", "verb", "cue"):
        return False
    methods = before.all("method")
    named = bool(methods) and all(m.v["method"] == "board" for m in methods) and before.has("cols", "every")
    return named and not before.has("agent", "form", "item", "feed", "fact", "change", "queen_work", "harvest")


_READ = frozenset("read count reading counting check checking pull pulling".split())


def asked_after(msg: Message, s: Statement) -> None:
    """ "what did you get on the roll for nine? ten had two, eleven five": counts by the method that was asked about."""
    method = s.first("method")
    if s.asked or method is None or msg.held.method is not None:
        return  # a question that ends in its sign is answered by nobody here
    if method.w.split()[-1] not in ("jar", "shaker", "alcohol"):
        msg.held.method = method.v["method"]


def drop_announced(msg: Message) -> None:
    """ "did a wash on two and sixteen … two was one, sixteen six": a check announced is no record of its own."""
    counted: set[str] = set()
    undone: set[str] = set()
    announced = []
    for d in msg.thread.lately(msg.first_draft):
        if d.kind == "mite_check" and d.slots.get("state") == "not_done":
            undone.update(d.slots.get("colonies", []))
        if d.kind != "mite_check" or d.slots.get("state", "done") != "done":
            continue
        if {"mites", "per_100"} & set(d.slots):
            counted.update(d.slots.get("colonies", []))
        elif d.slots.get("colonies"):
            announced.append(d)
    for d in announced:
        ids = d.slots["colonies"]
        number = "".join(c for c in ids[0] if c.isdecimal())
        if set(ids) <= counted | undone or (
            len(ids) == 1 and (number == str(len(counted)) or (len(counted) > 1 and _so_many_there(msg, d)))
        ):  # "washed three today, L4 1, …"
            msg.thread.used += d.spans
            msg.thread.drafts.remove(d)
        elif len(ids) > 1 and counted & set(ids):
            d.put("colonies", [x for x in ids if x not in counted], "those not counted")


def _so_many_there(msg: Message, d: Draft) -> bool:
    """ "washed five at the quarry, three was four mites, six was none": a number of hives, of which some are told."""
    for s in msg.statements:
        for k, m in enumerate(s.marks[:-2]):
            if m.label == "cols" and (m.s, m.e) in d.spans:
                there = s.marks[k + 1].w in ("at", "in", "over") and any(
                    x.label == "yard" for x in s.marks[k + 2 : k + 5]
                )
                checked = k > 0 and s.marks[k - 1].label in ("method", "check", "verb")
                return there and checked and bool(m.v.get("bare")) and not m.v.get("hive")
    return False


def left_undone(msg: Message, i: int, s: Statement, stance: Stance, made: list[Draft]) -> None:
    """ "didn't do B11": what was just done to others was not done to these."""
    left = any(placing.those_left(msg, s, m, stance.state) for m in s.all("pronoun")[:1])
    if (
        stance.state != "not_done"
        or made
        or not (left or s.has("cols", "rest") or any(map(is_others, s.all("pronoun"))))
        or s.has_head
        or s.has("noun", "queen_noun")
        or not (left or all(map(is_others, s.all("pronoun")[:1])))
        or any(m.w != "any" for m in s.all("thing"))
    ):
        return
    undone = (
        _none_given(msg, s)
        or cues(s, "not")[-1:] == s.marks[-1:]
        or any(m.w.startswith(_PASSED_OVER) for m in cues(s, "not"))
        or any(m.label == "verb" and m.v.get("does") == "do" for m in s.marks)
        or any(m.w.split()[-1] in ("do", "done", "to", "did", "at", "reach") for m in cues(s, "not"))
    )
    last = next(
        (
            d
            for d in reversed(msg.thread.lately(msg.first_draft))
            if d.kind in ("treatment", "gear", "feed")
            or (d.kind == "queen_work" and d.slots.get("step") in ("cells_placed", "introduced", "requeened"))
        ),
        None,
    )
    if not undone or last is None or last.sentence < s.sentence - 1:
        return
    keep = ("agent", "form", "product", "step", "item", "feed", "ratio")
    draft = Draft(last.kind, {k: v for k, v in last.slots.items() if k in keep}, [], dict(last.why))
    finishing.finish(msg, i, s, stance, draft)
    made.append(draft)


def _none_given(msg: Message, s: Statement) -> bool:
    """ "didn't put one on B8", "six didn't get any", where something was given last and no check was made."""
    kinds = ("treatment", "gear", "feed", "queen_work", "mite_check")
    last = next((d for d in reversed(msg.thread.lately(msg.first_draft)) if d.kind in kinds), None)
    if last is not None and last.kind == "mite_check":
        return False
    none = s.has("thing") or any(m.w == "one" for m in s.all("number", "w"))
    given = s.has("verb") or any(m.w.split()[-1] in ("get", "got") for m in cues(s, "not"))
    words = {m.w for m in s.marks}
    given = given or {"have", "yet"} <= words  # "46 doesn't have one yet"
    return none and given


def _of_the_planned(msg: Message, s: Statement, stance: Stance, sample: Mark) -> bool:
    """ "will wash H1-H5 monday, | half cup each": the sample, and perhaps the day, of the check that is to come."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if (
        last is None
        or last.kind != "mite_check"
        or last.slots.get("state") != "planned"
        or last.statement != msg.thread.statements - 1
        or last.line != s.line
        or s.has_head_but("sample")
    ):
        return False
    if "bees" not in last.slots:
        last.put("bees", sample_size(sample), sample.rule)
        last.spans.append((sample.s, sample.e))
    day = s.first("date")
    if day is not None and "on" not in last.slots and (when := stance.turned("planned").when) is not None:
        last.put("on", when[0].isoformat(), "date")
        if when[1] != when[0]:
            last.put("on_until", when[1].isoformat(), "date")
        last.spans.append((day.s, day.e))
    return True


def _said_at_the_end(msg: Message, i: int, s: Statement) -> bool:
    """ "H1 4, H2 5, H3 0. half cup alc": how all the checks before were made, said after them and nothing else said.

    Whether it is so: what is said of them is then put to the checks of the line; of the message, where it is a line.
    """
    if not s.has("sample", "method") and s.words.isdisjoint(_WASHED_WITH):
        return False
    if any(m.label not in _OF_A_CHECK and m.w not in _AROUND_A_CHECK and not _is_today(m) for m in s.marks):
        return False
    nxt = msg.statements[i + 1] if i + 1 < len(msg.statements) else None
    if nxt is not None and (nxt.has("mites", "value", "clean", "percent") or (s.opens == "line" and not s.bullet)):
        return False
    checked = [d for d in msg.thread.lately(msg.first_draft) if d.kind == "mite_check" and "mites" in d.slots]
    alone = s.opens == "line"
    checked = [d for d in checked if alone or d.line == s.line]
    named = {d.slots.get("method") for d in checked}
    loose = named <= {None, "wash", "roll"} and not any("bees" in d.slots for d in checked)  # "wash results", over them
    if not checked or (
        alone and named != {None} and not loose and (s.has("method") or any("bees" in d.slots for d in checked))
    ):
        return False
    method = next((m for m in s.marks if m.label == "method" or m.w in _WASHED_WITH), None)
    sample = s.first("sample")
    how = None if method is None else _WASHED_WITH.get(method.w) or str(method.v["method"])
    if how is not None and any(x is not None and not how.endswith(x) for x in named):
        return False
    if how is not None and any(x is None or x != how for x in named) is False and sample is None:
        return False
    for d in checked:
        if how is not None and method is not None and d.slots.get("method") != how:
            d.put("method", how, "said after the counts")
            d.spans.append((method.s, method.e))
        if sample is not None and "bees" not in d.slots:
            d.put("bees", sample_size(sample), "said after the counts")
            d.spans.append((sample.s, sample.e))
    return True


def _as_percent(msg: Message, s: Statement) -> bool:
    """ "drone brood in 14, 1 mite of 20. ~5%": the count just told, as a percentage, and nothing else said."""
    last, percent = msg.newest_here, s.first("percent")
    if last is None or percent is None or last.kind != "mite_check" or not msg.just_told(last) or last.line != s.line:
        return False
    if not last.slots.get("mites") or "per_100" in last.slots or s.opens == "soft":
        return False
    if any(m.label not in ("percent", "approx", "filler", "comma") and m.w not in _SO_MUCH for m in s.marks):
        return False
    last.put("per_100", tidy(number_of(percent).value), percent.rule)
    last.spans.append((percent.s, percent.e))
    last.statement = msg.thread.statements
    return True


_SO_MUCH = frozenset("so that's thats = is ( )".split())


def _is_today(m: Mark) -> bool:
    return m.label == "date" and bool(m.v["value"].is_today)


_OF_A_CHECK = frozenset("sample method comma filler each".split())
_WASHED_WITH = {"alcohol": "alcohol_wash", "soap": "soap_wash"}
_AROUND_A_CHECK = frozenset("( ) - – : with in was were by using alcohol soap".split())


def _of_all(s: Statement) -> bool:
    """Whether the words say that what they tell of is so of all counts before."""
    words = [m.w for m in s.marks]
    of_all = s.has("each") or any(m.w.startswith("all") for m in s.all("every"))
    that = ("that" in words and "was" in words) or "that's" in words
    return of_all or that or not _OF_THEM_ALL.isdisjoint(words)


_OF_THEM_ALL = frozenset(["all", "just", "quick", "those", "these"])
"""With these a method said after counts is of all of them ("hive 12 four, hive 15 ten, just a quick wash")."""


def method_after_counts(s: Statement) -> Mark | None:
    """The method where it is said after the counts ("… and sixteen none, that was alcohol wash")."""
    method = method_of(s)
    if method is None:
        end = s.marks[-1]
        if end.w not in WASHES_IN or not s.has("sample") or not s.has("every", "pronoun"):
            return None
        return Mark("method", end.s, end.e, end.w, {"method": WASHES_IN[end.w]}, "all in alcohol")
    count = s.first("mites", "value", "clean", "percent")
    if count is not None and index_of(s, method) < index_of(s, count):
        return None
    return method
