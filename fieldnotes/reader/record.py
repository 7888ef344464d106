"""Statements → records: place, day and state for what the frames understood, and what is carried on.

What no frame took becomes leftovers (in `leftovers`); what is in doubt becomes a question.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from fieldnotes.reader.assertion import Stance, take_stance, tense
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.change import change
from fieldnotes.reader.frames.conditions import conditions
from fieldnotes.reader.frames.direction import going_out, still_in
from fieldnotes.reader.frames.feed import feed
from fieldnotes.reader.frames.gear import gear, goes_along
from fieldnotes.reader.frames.harvest import OF_HARVEST, harvest
from fieldnotes.reader.frames.inspection import inspection
from fieldnotes.reader.frames.queen_work import queen_work
from fieldnotes.reader.frames.treatment import treatment
from fieldnotes.reader.making import (
    changing,
    checking,
    dealing,
    finishing,
    holding,
    placing,
    promising,
    reporting,
    seeing,
    spreading,
    treating,
)
from fieldnotes.reader.making.amending.done import done_on
from fieldnotes.reader.making.amending.meant import leaving_out, not_these, only_these, skipped_that, the_ones_meant
from fieldnotes.reader.making.amending.more import modifiers, moisture_of_all
from fieldnotes.reader.making.amending.naming import named_after, set_down
from fieldnotes.reader.making.amending.putting_off import do_it, due_then, then_later
from fieldnotes.reader.making.amending.putting_right import amend, put_right_before
from fieldnotes.reader.making.message import NEAR, Message, Thread
from fieldnotes.reader.making.repeating.another_day import gap
from fieldnotes.reader.making.repeating.colours import marked_too
from fieldnotes.reader.making.repeating.doses import other_dose, other_measure
from fieldnotes.reader.making.repeating.ellipsis import ellipsis
from fieldnotes.reader.making.repeating.elsewhere import elsewhere
from fieldnotes.reader.making.repeating.harvests import harvest_row
from fieldnotes.reader.making.repeating.once_more import once_more
from fieldnotes.reader.making.repeating.others import (
    came_off_then,
    did_too,
    do_left,
    goes_too,
    had_theirs,
    left_undone,
    need_it,
    other_way,
    seen_or_not,
    the_rest,
)
from fieldnotes.reader.making.repeating.pairs import pair_again
from fieldnotes.reader.making.repeating.same import repeat
from fieldnotes.reader.making.repeating.too import these_too
from fieldnotes.reader.making.repeating.yards import (
    did_there,
    each_yard,
    not_there_yet,
    so_many_there_too,
    there_too,
    yards_too,
)
from fieldnotes.reader.mark import is_others
from fieldnotes.reader.parting.about import has_verb
from fieldnotes.reader.scope import Draft
from fieldnotes.reader.topic import lend_topics

_AT_A_HIVE = frozenset("marked clipped introduced released removed requeened cells_placed".split())
"""Queen work that is always done at some colony."""


def read(msg: Message) -> None:
    """Reads the statements of a message into the thread's drafts."""
    lend_topics(msg.statements)
    for k, s in enumerate(msg.statements):
        if s.has("yard", "verb") and s.has("cols", "hives", "number", "change"):
            changing.carried(s, msg.statements[k - 1] if k else None)
        if k and s.has("cols", "pronoun", "rest") and not s.has("change"):
            changing.go_there_too(s, msg.statements[max(0, k - 2) : k])
        if s.has("cols"):
            changing.joined_up(s)
            changing.nucs_given(s)
        if k and s.opens == "soft" and s.has("verb") and s.has("cols", "yard", "every"):
            dealing.out_of_there(msg.statements, k)
    msg.headed = holding.headings(msg)
    stances = [
        take_stance(s, msg.today, msg.hemisphere, heading)
        for s, heading in zip(msg.statements, msg.headed, strict=True)
    ]
    holding.named_today(msg, stances)
    for coming, s, stance in zip(holding.week_ahead(msg), msg.statements, stances, strict=True):
        if coming is not None and stance.state in ("done", "planned") and tense(s) != "past":
            stance.state, stance.said = (
                "planned",
                coming,
            )  # "This week", over "Thursday: supers on L20", said on Tuesday
    spreading.spread(msg, stances)
    for i, (statement, stance) in enumerate(zip(msg.statements, stances, strict=True)):
        msg.thread.statements += 1
        msg.before = msg.statements[i - 1] if i else None
        read_statement(msg, i, statement, stance, stances)
    checking.drop_announced(msg)
    treating.drop_headers(msg)
    dealing.drop_told_before(msg)
    promising.leave_in_store(msg)
    placing.yard_said_last(msg)
    placing.name_nucs(msg)


def read_statement(msg: Message, i: int, s: Statement, stance: Stance, stances: list[Stance]) -> None:
    """One statement: what it says of place and day for others, and its own records."""
    held, thread = msg.held, msg.thread
    holding.days_of_board(msg, s, stance)
    if stance.asked:
        holding.note_cols(msg, i, s)  # "who left the lid off 62? It's queenright"
        treating.asked_after(msg, s)
        checking.asked_after(msg, s)
        return
    yards = s.all("yard")
    for person in s.all("person"):
        msg.last_person = (person, s.sentence)
    reporting.hear_news(msg, s)
    holding.hold_yard(msg, s, yards)
    holding.focus(msg, s)
    if s.topic:
        if stance.when is not None and s.has("date"):
            held.day = stance.when
        thread.used += [(m.s, m.e) for m in s.marks if m.label not in ("w", "comma", "filler")]
        msg.thread.last_treatment = treatment(s, None) or msg.thread.last_treatment
        return
    if holding.place_only(s) and s.opens == "soft":
        placing.place_of_last(msg, s)
    if holding.place_only(s):
        date_mark = s.first("date")
        if (
            (s.opens == "line" or holding.ends_heading(msg, i))
            and not s.bullet
            and date_mark is not None
            and not promising.imperative(s)  # "pick up the jars saturday" is no heading
            and holding.whole_line(msg, i)
            and stance.when is not None
            and not stance.when[0] < msg.today < stance.when[1]  # "this week", "August": no day of its own
        ):
            said = date_mark.v["value"]
            held.day = stance.when
            if said.form == "weekday" and said.args[1] == "plain" and said.args[0] == msg.today.weekday():
                held.day = (msg.today, msg.today)  # a heading "Sunday" over notes sent on a Sunday
            thread.used.append((date_mark.s, date_mark.e))
        if s.opens == "line" and not s.bullet:
            held.cols = None
            if s.has("yard") and not s.has("method") and s.blank_before and not held.titled:
                held.method = held.bees = None
        for m in s.all("yard", "heading"):
            thread.used.append((m.s, m.e))
    if stance.condition_only:
        if not (s.has("yard") and yards_too(msg, i, s, stance)):
            promising.only_if(msg, s)
        holding.note_cols(msg, i, s)
        return
    holding.day_of_line(msg, s, stance)
    holding.over_lines(msg, i, s, stance)
    drafts = make(msg, i, s, stance)
    if msg.correcting:
        put_right_before(msg, drafts)
    treating.but_not_there(msg, i, s, stance, drafts)
    if stance.state == "not_done" and s.has("cols"):
        dealing.take_out_undone(msg, drafts)
    promising.promise(msg, i, s, stance, drafts, stances)
    holding.note_cols(msg, i, s)


_NO_TREATMENT = frozenset("item feed ratio harvest queen_work queen_noun change fact method temp".split())
"""What is spoken of where "them" is no treatment."""


def _last_harvest(msg: Message, s: Statement) -> Draft | None:
    """The harvest that the statement may go on with: of its sentence, or one just before that has no amount yet."""
    last = msg.last("harvest", s.sentence)
    before = msg.last("harvest")
    if (
        last is None
        and before is not None
        and "amount" not in before.slots
        and before.sentence >= s.sentence - 1
        and before.slots.get("state", "done") == "done"
        and not s.has("each", "ratio")
    ):
        return before
    if last is None and before is not None and _of_its_water(s, before):
        return before  # "pulled 330 lb at Quarry. moisture 17.2"
    return last


def _of_its_water(s: Statement, before: Draft) -> bool:
    """Whether the statement only says how wet the honey of the statement before is."""
    told = s.has("moisture", "percent") and not s.has("amount", "harvest", "cols", "date", "item")
    return told and before.sentence >= s.sentence - 1 and "moisture" not in before.slots


def _told_of_harvest(msg: Message, s: Statement, stance: Stance) -> Draft | None:
    """The harvest of the sentence before, where this one only says again that honey was taken."""
    before = msg.last("harvest")
    again = stance.state == "done" and not s.has("cols", "yard", "date", "item", "amount", "number", "every", "hives")
    near = before is not None and before.sentence >= s.sentence - 1 and before.slots.get("state", "done") == "done"
    return before if again and near and "amount" in (before.slots if before else {}) else None


_ROW = frozenset(["yard", "cols", "every", "hives", "amount", "each", "comma", "filler", "ratio", "date"])
_TO_HIVES = frozenset("and then on onto to for in into got gets".split())


def _fed_in_a_row(msg: Message, s: Statement) -> Draft | None:
    """The feed of the sentence before, where this one only tells how much others got ("Heath H1-H4 half gallon")."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.kind != "feed" or last.statement != msg.thread.statements - 1:
        return None
    plain = all(m.label in _ROW or (m.label == "w" and (m.w in _TO_HIVES or not m.w.isalnum())) for m in s.marks)
    return last if plain and s.has("amount") and s.has("cols", "yard", "every") else None


def _points_back(s: Statement) -> bool:
    """Whether "that's what", "which we" opens the statement."""
    return any(m.w in ("that's", "thats", "which", "that", "what", "it's") for m in s.marks[:3])


def make(msg: Message, i: int, s: Statement, stance: Stance) -> list[Draft]:
    """The records that one statement makes, in the order of their kinds."""
    held, thread = msg.held, msg.thread
    made: list[Draft] = []
    # What each function needs in any case is asked here, once for all of them: most are not needed for most statements.
    cols, yard = s.has("cols"), s.has("yard")
    if (
        (msg.correcting and amend(msg, i, s))
        or named_after(msg, s)
        or (cols and (the_ones_meant(msg, s) or dealing.these_done(msg, s)))
        or (cols and stance.state == "not_done" and not_these(msg, s))
        or (not cols and s.has("pronoun") and not s.has_head and skipped_that(msg, s))
        or (cols and not s.has_head and only_these(msg, s))
        or (yard and set_down(msg, s))
        or (stance.state == "planned" and do_it(msg, i, s, stance))
        or (s.has("verb") and s.has("date", "person") and done_on(msg, i, s, stance))
        or (s.has("date") and (then_later(msg, i, s, stance) or due_then(msg, i, s, stance)))
    ):
        return msg.recent()
    if cols and s.has("cue"):
        leaving_out(msg, s)
    if s.has("queen_work"):
        seeing.cells_there(msg, s)
    if s.has("fact"):
        seeing.count_cells(s, msg.held.method)
    seeing.name_frames(msg, s)
    same = s.first("same")
    if same is not None and repeat(msg, i, s, same, stance):
        return msg.recent()
    head = s.has_head
    if (
        ((cols or s.has("rest")) and ellipsis(msg, i, s, stance))
        or (cols and not head and marked_too(msg, i, s, stance))
        or (cols and yard and there_too(msg, i, s, stance))
        or (cols and head and other_dose(msg, i, s, stance))
        or (not head and other_measure(msg, i, s, stance))
        or gap(msg, i, s, stance)
        or (cols and not head and did_too(msg, i, s, stance))
        or (cols and not head and stance.state == "not_done" and left_undone(msg, i, s, stance))
        or (cols and not head and other_way(msg, i, s, stance))
        or (cols and not head and seen_or_not(msg, i, s, stance))
        or (cols and not head and need_it(msg, i, s, stance))
        or (cols and not head and s.has("verb") and goes_too(msg, i, s, stance))
        or (not head and not cols and s.has("verb") and s.has("date") and came_off_then(msg, i, s, stance))
        or (not head and do_left(msg, i, s, stance))
        or (not head and not cols and s.has("verb") and s.has("date") and had_theirs(msg, i, s, stance))
        or once_more(msg, i, s, stance)
        or ((s.has("rest") or any(map(is_others, s.all("pronoun")))) and the_rest(msg, i, s, stance))
        or (cols and not head and dealing.did_these(msg, i, s, stance))
        or (cols and these_too(msg, s))
        or ((yard or cols) and elsewhere(msg, i, s, stance))
        or (yard and (yards_too(msg, i, s, stance) or so_many_there_too(msg, i, s, stance)))
        or (yard and not head and s.has("verb") and did_there(msg, i, s, stance))
        or (yard and stance.state in ("not_done", "planned") and not_there_yet(msg, i, s, stance))
        or (cols and pair_again(msg, i, s, stance))
        or (cols and s.has("queen_noun", "queen_work") and changing.split_with_her(msg, i, s, stance))
        or (not head and changing.new_queens(msg, i, s, stance))
        or (cols and not head and changing.swarm_from(msg, i, s, stance))
        or (cols and not head and s.has("verb") and changing.put_her_in(msg, i, s, stance))
    ):
        return msg.recent()
    if yard:
        harvest_row(msg, s)
    last_harvest = _last_harvest(msg, s) if s.has_any(OF_HARVEST) else None
    harvested = harvest(s, last_harvest)
    if harvested is not None:
        if last_harvest is not None and not harvested.slots and _points_back(s):
            finishing.finish(msg, i, s, stance, harvested)
            for slot in ("yard", "on", "on_until"):  # "340 pounds, and that's what we spun out of Cut Bank last night"
                if slot in harvested.slots:
                    last_harvest.put(slot, harvested.slots[slot], harvested.why.get(slot, "said of it"))
            last_harvest.spans += harvested.spans
        elif not harvested.slots and (told := _told_of_harvest(msg, s, stance)) is not None:
            told.spans += harvested.spans  # "140 lb off Quarry. Extracted with Ada": the same once more
        elif (
            last_harvest is not None
            and not s.has("harvest")
            and (not s.has("yard") or last_harvest.slots.get("yard") in (None, held.yard))
            and not (set(harvested.slots) & set(last_harvest.slots))
            and set(harvested.slots) <= {"moisture", "amount", "unit"}
        ):
            last_harvest.slots.update(harvested.slots)
            last_harvest.why.update(harvested.why)
            last_harvest.spans += harvested.spans
            if held.yard and "yard" not in last_harvest.slots:
                last_harvest.put("yard", held.yard, "yard that holds")
            for m in s.all("yard"):
                last_harvest.spans.append((m.s, m.e))
        else:
            finishing.finish(msg, i, s, stance, harvested)
            made.append(harvested)
        moisture_of_all(msg, s, harvested)
    queens = queen_work(s)
    for draft in queens:
        if changing.marked_so(msg, s, draft):
            continue
        place, marks = placing.where(msg, i, s, draft.kind, stance)
        if changing.some_of_them(s, draft, place):
            place = replace(place, every=False, colonies=None)
        in_hand = not place.colonies and changing.of_queens_caught(msg, s, draft)
        if in_hand:
            place = replace(place, every=False)
        nowhere = not place.colonies and not place.every and place.count is None and "count" not in draft.slots
        if nowhere and draft.slots["step"] in _AT_A_HIVE and not (in_hand or s.has("yard")):
            continue  # "marked today:" over a list
        new = changing.made_just_now(msg, s)
        if new is not None and draft.slots["step"] == "cells_placed" and s.has("each") and not cols:
            place = replace(place, every=False, colonies=new)  # "made up N5 and N6 from 18, a cell in each"
        if place.except_ and any(m.w == "there" for m in s.marks):
            place = replace(place, every=False, except_=None, colonies=place.except_)  # "(queen banked there)"
        finishing.finish(msg, i, s, stance, draft, place)
        draft.spans += [(m.s, m.e) for m in marks] + [(m.s, m.e) for m in s.all("yard") if m.v.get("source")]
        if not changing.same_work(msg, draft):
            changing.announced(msg, draft)
            made.append(draft)
    if cols and "(" in s.words and not s.has("change"):
        changing.lost_too(msg, i, s, stance, made)
    for draft in change(s):
        marks = [m for m in s.all("change") if m.v.get("after_swarm")]
        if marks and draft.slots["step"] == "swarm_caught":
            swarmed = any(d.kind == "change" and d.slots.get("step") == "swarmed" for d in thread.drafts[-3:]) or any(
                m.w == "swarm" for x in msg.statements[max(0, i - NEAR) : i + 1] for m in x.marks
            )
            if not swarmed:
                continue
        changing.finish_change(msg, i, s, stance, draft)
        changing.announced(msg, draft)
        made.append(draft)
    if stance.state == "done" and s.has("agent", "form") and still_in(s):
        stance = stance.turned("not_done")
    if s.has("agent") and not s.has_head_but("agent") and not s.has("cols", "yard", "every", "verb"):
        named = s.all("agent")[0]  # "formic. 2 pads in 10 tomorrow"
        keep = {k: v for k, v in named.v.items() if k in ("agent", "form", "product")}
        treating.named_behind(msg, s, keep)
        why = dict.fromkeys(keep, named.rule)
        msg.thread.last_treatment = Draft("treatment", keep, [(named.s, named.e)], why, s.sentence, s.line)
    stowed = promising.stowed(msg, s)
    if promising.orders(s) or (stowed and not going_out(s)):
        if stowed:
            treating.asked_after(msg, s)  # "the strips that rode around in the truck | I put them in N1"
        return made
    led = held.cols is not None and held.cols_sentence == s.sentence
    treated = treatment(s, treating.pointed_treatment(msg, s), led)
    if treated is not None and treating.round_of_looks(msg, s, treated):
        treated = None
    only_named = treated is None and s.has("form", "agent") and s.has("cols", "yard")
    if only_named:
        treating.found(msg, s)
    if treated is not None and not (s.has("feed") and not s.has("agent", "form")):
        treating.treat(msg, i, s, stance, treated, made)
    elif treated is None and not only_named and not s.has_any(_NO_TREATMENT):
        left = stance.state == "done" and s.has("cols", "hives", "pronoun") and still_in(s)
        pulled = treating.pulled(msg, i, s, stance.turned("not_done") if left else stance)
        pulled = pulled or treating.of_named(msg, i, s, stance)
        if pulled is not None:
            made.append(pulled)
    unplaced = treated is None and s.has("agent", "form") and msg.thread.last_treatment is None
    if unplaced and (s.has("days") or any(m.w in ("mail", "post", "arrived", "delivered") for m in s.marks)):
        treating.asked_after(msg, s)  # "the strips were in forty days | and I pulled them all out at heath"
    for draft in list(made):
        if draft.kind == "treatment" and s.has("pronoun"):
            finishing.said_twice(msg, draft, s)  # "it is done with its pads, I pulled them this morning"
    for draft in gear(s, changing.given_before(msg, s)) if s.has("item", "fact") else ():
        before = thread.drafts[-1] if thread.drafts else None
        too = any(m.label == "w" and m.w in ("too", "also") for m in s.marks) or goes_along(s)
        led = [m.w if m.label == "w" else m.label for m in s.marks[:2]] == ["also", "cols"]  # "also 1 to 6 two supers"
        if (
            too
            and not led
            and not s.has("cue")
            and before is not None
            and before.kind == "gear"
            and going_out(s) is None
            and not has_verb(s.marks)
        ):
            draft.put("step", before.slots["step"], "too")
        finishing.finish(msg, i, s, stance, draft)
        made.append(draft)
    fed: Draft | None = None
    feeds: list[Draft] = []
    if s.has("feed", "verb", "ratio", "amount") and harvested is None and not any(d.kind == "feed" for d in made):
        fed = msg.last("feed", s.sentence) or _fed_in_a_row(msg, s)
        feeds = feed(s, fed)
    for draft in feeds:
        if "feed" not in draft.slots and fed is not None and not s.has("feed"):
            if draft.slots.get("unit") == "patty" and fed.slots.get("feed") == "syrup":
                continue  # "gave 17 a quart of syrup and 18 a patty": of what was not said
            for slot in ("feed", "ratio"):
                if slot in fed.slots:
                    draft.put(slot, fed.slots[slot], "what was fed before")
        finishing.finish(msg, i, s, stance, draft)
        made.append(draft)
    checking.check(msg, i, s, stance, made)
    looked = inspection(s, stance.negated_from, stance.state)
    if looked is not None:
        seeing.inspect(msg, i, s, stance, looked, made)
    weather = conditions(s, msg.outfit.roster.units == "us")
    if weather is not None:
        seeing.weather(msg, i, s, stance, weather)
    if len(s.all("yard")) > 1:
        each_yard(msg, s, made)
    modifiers(msg, i, s, made, stance)
    if stowed or promising.ran_out(s):
        msg.from_store += made
    if not made and not msg.recent():
        treating.unknown_word(msg, i, s, stance, made)
    return made


def read_message(
    thread: Thread, statements: list[Statement], today: date, sender: str | None, correcting: bool
) -> None:
    """Reads one message's statements into the thread's drafts."""
    read(Message(thread, statements, today, sender, correcting))
