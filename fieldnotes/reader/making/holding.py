"""What one statement leaves for the next, and a line for the lines below it: yard, colonies, day, doer."""

from __future__ import annotations

from dataclasses import replace

from fieldnotes.reader.assertion import Stance
from fieldnotes.reader.clause import Statement
from fieldnotes.reader.dates.when import When
from fieldnotes.reader.frames.checks import method_of
from fieldnotes.reader.frames.marks import index_of, left_aside, neighbour
from fieldnotes.reader.frames.queen_work import queen_goes
from fieldnotes.reader.grammar import listed, meanings
from fieldnotes.reader.grouping.row import BOXES, BULLETS
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.scope import Draft, settle_ids

_LEDGERS = listed("ledgers")


def headings(msg: Message) -> list[str | None]:
    """The state that the headings so far give to each statement; a heading with more behind it, to itself only."""
    found: list[str | None] = []
    holds: str | None = None
    of_line: tuple[int, str] | None = None
    of_box: tuple[int, str] | None = None
    for s in msg.statements:
        heads = s.opens == "line" and not s.bullet
        heading = s.first("heading") if heads or _heads_rest_of_line(s) else None
        if s.opens == "line" and (box := _box(s)) is not None:
            of_box = (s.line, box)
        if heading is None and of_box is not None and of_box[0] == s.line:
            found.append(of_box[1])
            continue
        if s.opens == "line" and not s.bullet and (_reminds(s) or _comes_next(s)):
            holds = "planned"
        if heading is not None and heads and not s.has_head:
            holds = str(heading.v["state"])
        after = neighbour(s, index_of(s, heading), 1) if heading is not None else None
        if heading is not None and after is not None and after.w == ":":
            of_line = (s.line, str(heading.v["state"]))  # "next visit: super H1, oxalic in H2"
        if heading is None and of_line is not None and of_line[0] == s.line and s.opens != "stop":
            found.append(of_line[1])
            continue
        found.append(str(heading.v["state"]) if heading is not None else holds)
    return found


def _heads_rest_of_line(s: Statement) -> bool:
    """ "OA dribble: 70, 71. Not done: 73": a heading that begins a sentence."""
    return s.opens == "stop" and s.marks[0].label == "heading" and [m.w for m in s.marks[1:2]] == [":"]


def _box(s: Statement) -> str | None:
    """The state of a line that begins with a box: "[x]" was done, "[ ]" is still to do."""
    words = [m.w for m in s.marks[:4] if m.w not in BULLETS or m.w in BOXES]
    if words[:1] == ["["] and words[1:3] in (["x", "]"], ["v", "]"], ["done", "]"]):
        return "ticked"
    if words[:2] == ["[", "]"]:
        return "planned"
    state = BOXES.get(words[0], "ticked" if words[0] in _TICKS else None) if words else None
    found = state == "not_done" and (s.has("fact") or any(m.v.get("step") == "died" for m in s.all("change")))
    return None if found else state  # a cross before what was found in a hive


_TICKS = frozenset(["✓", "✔"])


def _comes_next(s: Statement) -> bool:
    """A line "Strips next", "Next: supers" over what is to be done with them."""
    words = [m for m in s.marks if m.label != "comma" and m.w.isalnum()]
    return (
        len(words) > 1
        and "next" in (words[0].w, words[-1].w)
        and all(m.w == "next" or m.label in ("agent", "form", "item", "feed", "method") for m in words)
    )


def _reminds(s: Statement) -> bool:
    """A line "Don't forget" over what is not to be forgotten."""
    return (
        s.has("cue")
        and any(m.w.split()[-1] == "forget" for m in s.all("cue"))
        and all(m.label in ("cue", "comma", "filler") or not m.w.isalnum() for m in s.marks)
    )


def week_ahead(msg: Message) -> list[When | None]:
    """Of each statement in a list headed "This week" or "Next week", the day to come of that week that it names."""
    found: list[When | None] = []
    week = ""
    for s in msg.statements:
        date_mark = s.first("date")
        if s.opens == "line" and not s.bullet and date_mark is not None and date_mark.w in ("this week", "next week"):
            if all(m.label in ("date", "comma", "filler") or not m.w.isalnum() for m in s.marks):
                week = date_mark.w
        said: When | None = date_mark.v["value"] if date_mark is not None else None
        if not week or said is None or said.form != "weekday" or said.args[1] != "plain":
            found.append(None)
        elif week == "next week":
            found.append(replace(said, args=(said.args[0], "next", *said.args[2:])))
        else:
            found.append(said if said.args[0] >= msg.today.weekday() else None)
    return found


def named_today(msg: Message, stances: list[Stance]) -> None:
    """ "Sat - strips in" over "Sun - supers off", sent on a Sunday: the day after is the message's own. In place."""
    opened: set[int] = set()
    if len(msg.statements) == 1:
        return
    for s, stance in zip(msg.statements, stances, strict=True):
        first = next((m for m in s.marks if m.w not in BULLETS), None) if s.opens == "line" else None
        said = first.v["value"] if first is not None and first.label == "date" else None
        if said is None or said.form != "weekday" or said.args[1] != "plain":
            continue
        if said.args[0] == msg.today.weekday() and stance.state == "done" and (said.args[0] - 1) % 7 in opened:
            stance.said = When("offset", (0,))
        opened.add(said.args[0])


def over_lines(msg: Message, i: int, s: Statement, stance: Stance) -> None:
    """What a line over others holds for them: one colony ("Quarry, hive 3 ledger"), a day ("Soap washes, Monday"),
    who did it ("Quarry - Dov did these").
    """
    if s.opens != "line":
        return
    msg.column = _column(s) or (msg.column if s.has("cols") else None)
    nxt = msg.statements[i + 1] if i + 1 < len(msg.statements) else None
    below = nxt is not None and nxt.line > s.line
    if s.has("cols") or s.blank_before or (s.has("yard") and not s.has_head):
        msg.head_cols = None
    if s.has("yard"):
        msg.who_did = None
    if (
        below
        and nxt is not None
        and s.has("cols")
        and not s.has_head
        and not nxt.has("cols")
        and (any(m.label == "w" and m.w in _LEDGERS for m in s.marks) or _hive_alone(s))
    ):
        ids, yard = settle_ids(list(s.all("cols")[0].v["ids"]), msg.held.yard, msg.outfit)
        msg.head_cols = {"ids": ids, "yard": yard}
    if (
        below
        and nxt is not None
        and s.has("method")
        and s.has("date")
        and stance.when is not None
        and stance.state == "done"
        and not s.has("cols", "mites", "value", "verb")
        and nxt.has("cols")
        and nxt.opens == "line"
    ):
        msg.held.day = stance.when
    person = s.first("person")
    if below and person is not None and not s.has_head and not s.has("cols") and s.has("verb", "pronoun"):
        msg.who_did = person


def _hive_alone(s: Statement) -> bool:
    """Whether the line names one hive ("Hive 3", "Quarry, hive 3") and nothing else."""
    cols = s.all("cols")
    return (
        len(cols) == 1
        and all(m.label in ("cols", "yard", "comma", "hive") or not m.w.isalnum() for m in s.marks)
        and (bool(cols[0].v.get("hive")) or s.has("hive"))
    )


_FRAMES_BELOW = meanings("frames_over_lists")


def _column(s: Statement) -> str | None:
    """What the numbers of the lines below count: "Spring strength, Millpond, frames of bees"."""
    if s.has("cols", "number", "value") or s.has_head_but("item"):
        return None
    words = " ".join(m.w for m in s.marks).split()
    if "frames" not in words:
        return None
    k = words.index("frames")
    near = words[k + 1 : k + 3] + words[max(0, k - 1) : k]
    return next((slot for word, slot in _FRAMES_BELOW.items() if word in near), None)


def day_of_line(msg: Message, s: Statement, stance: Stance) -> None:
    """ "Larkfield, Friday: 3 barrels off. Sold L30.", "fri at the pond: 7 calm. 8 strong": a day before a colon or
    a dash holds for its line.
    """
    mark = s.first("date") if s.opens == "line" else None
    if mark is None or stance.when is None:
        return
    if place_only(s) and stance.when[1] <= msg.today and all(m.label in _PLACE_AND_DAY or _looked(m) for m in s.marks):
        follows = next((x for x in msg.statements if x.sentence == s.sentence + 1), None)
        if follows is not None and follows.line == s.line:
            msg.thread.used.append((mark.s, mark.e))
            msg.line_day = (s.line, stance.when)  # "yesterday at Larkfield with Dov. L4 queenless."
        return
    k = index_of(s, mark)
    end = next((n for n, m in enumerate(s.marks[k:], k) if m.w in (":", "-", "–", "—", "/", "|")), None)
    if end is None or not all(m.label in _BEFORE_COLON for m in s.marks[k + 1 : end]):
        return
    dash = s.marks[end].w != ":"
    if dash and (stance.state != "done" or s.marks[end].s == s.marks[end - 1].e):
        return
    ahead = stance.when[1] > msg.today  # "Friday: will feed 4. 5 is hot": hot today
    if not ahead and all(m.label in _BEFORE_COLON for m in s.marks[:k]):
        msg.line_day = (s.line, stance.when)


def _none_in(s: Statement, days: Mark) -> bool:
    """ "no mites in two days": said of what fell, right before the days."""
    before = neighbour(s, index_of(s, days), -1)
    return before is not None and before.label == "clean"


def _looked(m: Mark) -> bool:
    """ "inspected Larkfield on Sunday. L4 queenless": a look at the hives of which is told then."""
    return m.label == "hives" or (m.label == "verb" and m.v.get("does") == "inspect" and m.v.get("tense") == "past")


_PLACE_AND_DAY = frozenset("date yard comma filler person w".split())
_BEFORE_COLON = frozenset("yard comma filler w method".split())


def days_of_board(msg: Message, s: Statement, stance: Stance) -> None:
    """ "thirty mites in two days" of a board is how long it was in, not a day to come."""
    mark = s.first("date")
    header = s.opens == "line" and not s.has("cue") and not s.has("cols")  # "boards in 1 day at the sawmill"
    if (
        mark is None
        or not (s.has("mites", "value") or header or _none_in(s, mark))
        or mark.v["value"].form != "days"
        or not mark.v["value"].ahead
    ):
        return
    method = method_of(s)
    if (method.v["method"] if method is not None else msg.held.method) == "board":
        mark.label, mark.rule = "days", "days of a board"
        s.seal()
        mark.v = {"days": mark.v["value"].args[0]}
        stance.said = None
        if stance.state == "planned":
            stance.state = "done"


def whole_line(msg: Message, i: int) -> bool:
    """Whether the statement is its line, or all but."""
    line = msg.statements[i].line
    return sum(1 for s in msg.statements[max(0, i - 2) : i + 3] if s.line == line) <= 2


def ends_heading(msg: Message, i: int) -> bool:
    """ "Soap wash, mites in 300. Sawdust, Fri 21 Aug", over lines of colonies: the end of what stands over them."""
    s = msg.statements[i]
    nxt = msg.statements[i + 1] if i + 1 < len(msg.statements) else None
    if s.opens != "stop" or nxt is None or nxt.line == s.line or not nxt.has("cols"):
        return False
    line = [x for x in msg.statements[max(0, i - 2) : i] if x.line == s.line]
    return bool(line) and line[0].opens == "line" and not any(x.has("cols", "value", "clean", "verb") for x in line)


def place_only(s: Statement) -> bool:
    """Whether a statement names a place, a day or a heading and nothing else."""
    return not s.has_head and not s.has("cols", "pronoun", "rest") and s.has("yard", "date", "heading")


def _yard_left_out(s: Statement, k: int) -> bool:
    """Whether the yard at `k` is named as the one where nothing is done ("everywhere but the pond")."""
    before = [m for m in s.marks[max(0, k - 4) : k] if m.w != "the"]
    if not before or not (before[-1].v.get("cue") == "except" or before[-1].w in ("but", "except")):
        return False
    if s.marks[0].w.split()[0] in ("all", "every", "everybody", "everything") and k > 2 and len(s.all("yard")) == 1:
        return True  # "all mouse guards are on except Wen's"
    words = " ".join(m.w for m in before[:-1])
    return words.endswith(("everywhere", "every yard", "all yards", "all the yards", "everything", "everybody"))


def hold_yard(msg: Message, s: Statement, yards: list[Mark]) -> None:
    """Keeps the yard named here for the statements that follow; a yard moved to is only marked."""
    if not yards:
        return
    moving = any(m.v.get("step") in ("moved", "sold", "combined") for m in s.all("change"))
    caught = any(m.v.get("step") in ("caught", "banked") for m in s.all("queen_work")) and s.has("cols")
    for m in yards:
        k = index_of(s, m)
        if _yard_left_out(s, k):
            m.v["to"] = True  # "strips go in everywhere but the pond": no work is done there
            continue
        before = neighbour(s, k, -1)
        if before is not None and before.w in ("the",):
            before = neighbour(s, k - 1, -1)
        if lives_there(s, k) if moving else now_elsewhere(msg, s):
            m.v["to"] = True  # "moved six hives out of the pond and they live at Heath now"
            msg.held.moved_to = m.v["value"]
            continue
        if moving and before is not None and before.w in ("to", "into", "for", "over", "onto", ">"):
            m.v["to"] = True
            msg.held.moved_to = m.v["value"]
            continue
        if caught and before is not None and before.w == "for":
            m.v["to"] = True  # "caught the queens out of N1 and N2 for Cut Bank"
            continue
        if (to := queen_goes(s)) is not None and index_of(s, to) < k and before is not None and before.w == "at":
            m.v["to"] = True  # "took the queen and four frames over to N3 at the pond"
            msg.held.moved_to = m.v["value"]
            continue
        if before is not None and before.w in ("from", "of") and _queens_from(msg, s, m):
            m.v["to"] = m.v["source"] = True
            continue
        if moving and before is not None and before.w == "from" and msg.held.yard not in (None, m.v["value"]):
            if any(x.w == "here" for x in s.marks):
                m.v["left"] = True  # "6 hives moved here from Cut Bank": what follows is said of here
                continue
        newest = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
        if msg.held.yard is None and newest is not None and newest.kind == "conditions" and newest.line == s.line:
            told = (d.slots.get("yard") for d in reversed(msg.thread.lately(msg.first_draft)[:-1]) if d.line == s.line)
            here = next((yard for yard in told if yard is not None), m.v["value"])
            newest.put("yard", here, "yard named next")  # "windy as anything out at the quarry"
        msg.held.yard = m.v["value"]
        msg.held.yard_since = msg.thread.statements
        rest_of_it = s.has("rest") and msg.held.cols is not None and msg.held.cols["yard"] == m.v["value"]
        if not s.has("cols", "pronoun") and not rest_of_it:
            msg.held.cols = None


def _queens_from(msg: Message, s: Statement, yard: Mark) -> bool:
    """ "requeened 2 and 5 with queens from wens", "gave nine a cell from larks": where the queens came from, and the
    colonies stand elsewhere.
    """
    k = index_of(s, yard)
    before = [m for m in s.marks[:k] if m.w not in ("the", "from", "out", "of")][-1:]
    kind = any(m.w == "with" for m in s.marks[max(0, k - 6) : k])  # "requeened nine with a mated carniolan from wens"
    queens = before and (before[0].label in ("queen_noun", "queen_work") or before[0].w in ("one", "ones", "bank"))
    if not queens and not kind:
        return False
    if not s.has("queen_work", "queen_noun") or any(m.v.get("step") == "caught" for m in s.all("queen_work")):
        return False
    there = msg.outfit.yard_ids.get(yard.v["value"], frozenset())
    named = [cid for m in s.all("cols") for cid in m.v["ids"]]
    if not named:
        return msg.held.yard is not None and s.has("pronoun")
    return any(len(msg.outfit.homes_of(cid)) != 1 for cid in named) or there.isdisjoint(named)


_LIVE = frozenset(
    "they're it's are is live lives living sit sits sitting stand stands standing home staying parked went".split()
)
_AT_THE = frozenset("at in the over on is up down out to".split())


def lives_there(s: Statement, yard: int) -> bool:
    """ "moved six hives off the quarry, they sit at Heath now": whether the yard is where they are since."""
    moved = next((k for k, m in enumerate(s.marks) if m.label == "change"), yard)
    between = s.marks[moved + 1 : yard]
    if any(m.v.get("to") for m in between):
        return False
    k = len(between)
    while k > 0 and between[k - 1].w in _AT_THE and between[k - 1].w not in _LIVE:
        k -= 1
    return k > 1 and between[k - 1].w in _LIVE and not any(m.label == "cue" for m in between)


def now_elsewhere(msg: Message, s: Statement) -> bool:
    """ "moved six hives out last night | and they live at Heath now": where hives told of just before were moved."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    if last is None or last.slots.get("step") != "moved" or "to_yard" in last.slots:
        return False
    if last.statement != msg.thread.statements - 1 or last.line != s.line:
        return False
    if s.has_head or not s.has("pronoun") or s.has("cols", "hives", "number", "date", "cue"):
        return False
    return any(m.w in _LIVE for m in s.marks)


def note_cols(msg: Message, i: int, s: Statement) -> None:
    """Keeps the colonies named here for the statements that follow."""
    if (left := _still_left(s)) is not None:
        msg.held.cols = {"ids": [], "yard": msg.held.yard, "count": left}
        msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
    if not s.has("cols"):
        return
    cols = s.all("cols")
    exceptions = [m for m in cols if is_exception(msg, s, m)] if s.has("cue") else []
    if exceptions:
        cols = [m for m in cols if m not in exceptions]
    if cols:
        for m in cols:
            ids, yard = settle_ids(list(m.v["ids"]), msg.held.yard, msg.outfit)
            msg.held.recent += [(cid, yard) for cid in ids]
            msg.held.groups = [*msg.held.groups[-7:], (ids, yard)]
            given = len(cols) == 2 and m is cols[0] and _giver(s, cols[1])
            to_it = len(cols) == 1 and msg.held.cols is not None and s.has("pronoun") and _giver(s, m)
            if to_it:
                continue  # "gave it a frame of brood from l two | and it gets a feeder friday"
            if len(cols) == 1 or given or any(x.v.get("step") in ("nuc_made", "split") for x in s.all("change")):
                msg.held.cols = {"ids": ids, "yard": yard}
        if msg.held.cols and len(cols) == 1 and any(x.v.get("step") == "died" for x in s.all("change")):
            msg.held.cols["died"] = not s.has("cue", "pronoun")
        del msg.held.recent[:-40]
        msg.held.cols_sentence = s.sentence
        msg.held.cols_line = s.line
    elif exceptions:
        ids, yard = settle_ids([cid for m in exceptions for cid in m.v["ids"]], msg.held.yard, msg.outfit)
        msg.held.recent += [(cid, yard) for cid in ids]
        after = s.marks[index_of(s, exceptions[-1]) + 1 :]
        if after and after[0].w.split()[0] in ("which", "that", "who") and any(m.label == "fact" for m in after):
            msg.held.cols = {"ids": ids, "yard": yard}  # "all good except 59, which has wings | I'll wash it"
            msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line


def _giver(s: Statement, cols: Mark) -> bool:
    """ "gave twenty one a frame of eggs from seventeen": what is said next is said of twenty one."""
    before = neighbour(s, index_of(s, cols), -1)
    return before is not None and before.w == "from" and s.has("item")


def _alike(msg: Message) -> int:
    """ "ten has six frames of brood, same for eleven, each of those …": of how many colonies the same was said last."""
    drafts = msg.thread.lately(msg.first_draft)
    last = {k: v for k, v in drafts[-1].slots.items() if k != "colonies"} if drafts else {}
    ids: set[str] = set()
    for d in reversed(drafts):
        if {k: v for k, v in d.slots.items() if k != "colonies"} != last:
            break
        ids.update(d.slots.get("colonies", []))
    return len(ids)


_TWO = frozenset(["both", "neither", "pair", "either"])


def _still_left(s: Statement) -> int | None:
    """ "fourteen hives done, four hives left | those get theirs tomorrow": how many are still to be done."""
    hives = s.all("hives")
    if not hives or "n" not in hives[-1].v:
        return None
    after = neighbour(s, index_of(s, hives[-1]), 1)
    return int(hives[-1].v["n"].value) if after is not None and after.w in ("left", "to go") else None


def focus(msg: Message, s: Statement) -> None:
    """ "both", "all three of those": as many of the colonies named last as are said."""
    pronoun = s.first("pronoun")
    if not s.has("cols") and (ones := _ones(msg, s)):
        _, yard = settle_ids(ones, msg.held.yard, msg.outfit)
        msg.held.cols = {"ids": ones, "yard": yard}  # "the light ones get fondant tomorrow"
        msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
        return
    if pronoun is None or s.has("cols"):
        return
    words = [word for m in s.all("pronoun") for word in m.w.split()]
    count = 2 if not _TWO.isdisjoint(words) else None
    if "n" in pronoun.v:
        count = int(pronoun.v["n"].value)
    if words[:2] == ["each", "of"]:
        count = _alike(msg)
    held = msg.held.cols
    new = "new" in words or any(m.w == "new" for m in s.marks)
    made = made_new(msg) if new or _of_nucs(s, pronoun) or _just_made(msg, count) else []
    if made and (new or len(made) == count):
        msg.held.cols = {
            "ids": made,
            "yard": msg.held.yard or msg.thread.drafts[-1].slots.get("yard"),
        }  # "both the new ones get a feeder"
        msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
        return
    if count is None or not 2 <= count <= 12:
        return
    if held and len(held["ids"]) == count and not held.get("every") and "other" not in words:
        return
    if "other" in words and held and not held.get("every"):
        others = the_others(msg, count)
        if others is not None:
            msg.held.cols = {"ids": others[0], "yard": others[1]}
            msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
            return
    if "other" in words and held and not held.get("every"):
        spoken = [p for p in dict.fromkeys(msg.held.recent) if p[1] == held["yard"] and p[0] not in held["ids"]]
        if len(spoken) == count:
            msg.held.cols = {"ids": [cid for cid, _ in spoken], "yard": held["yard"]}
            msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
            return  # "forty one … forty eight … fifty two … forty one's light, the other two are heavy"
        named = {cid for cid, yard in msg.held.recent if yard == held["yard"]}
        unnamed = [cid for cid in msg.outfit.ids_at(held["yard"]) if cid not in named]
        if len(unnamed) == count:
            msg.held.cols = {"ids": unnamed, "yard": held["yard"]}
            msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
            return  # "seventy through seventy four got gel, the other five get theirs friday"
        letter = _letter(held["ids"])
        alike = [cid for cid in unnamed if _letter([cid]) == letter]
        if letter and len(alike) == count:
            msg.held.cols = {"ids": alike, "yard": held["yard"]}
            msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
            return  # "gel in n one to n four, the other two nucs never got theirs"
        if len(unnamed) > count or len(held["ids"]) == count:
            msg.held.cols = None  # "strips in 41 to 45, the other five Friday": which of the many nobody said
            return
    together = count == len(_TWO_OF_THEM) and _pair_before_one(msg, words)
    group = next((g for g in reversed(msg.held.groups) if len(g[0]) == count), None) if count > 2 or together else None
    if group is not None:
        msg.held.cols = {"ids": list(group[0]), "yard": group[1]}
        msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line
        return
    last: list[tuple[str, str | None]] = []
    for pair in reversed(msg.held.recent):
        if pair not in last:
            last.append(pair)
    last = list(reversed(last[:count]))
    if len(last) == count and len({yard for _, yard in last}) == 1:
        msg.held.cols = {"ids": [cid for cid, _ in last], "yard": last[0][1]}
        msg.held.cols_sentence, msg.held.cols_line = s.sentence, s.line


_TWO_OF_THEM = ("those", "these")


def _pair_before_one(msg: Message, words: list[str]) -> bool:
    """ "four and five were light, six was heavy, those two got a gallon": the two named together."""
    sizes = [len(ids) for ids, _ in msg.held.groups[-2:]]
    return words[0] in _TWO_OF_THEM and sizes == [2, 1]


def _just_made(msg: Message, count: int | None) -> bool:
    """ "made up N1 and N2 from hive nine, gave them both a dribble": as many were made just before."""
    last = msg.thread.drafts[-1] if len(msg.thread.drafts) > msg.first_draft else None
    made = last is not None and last.kind == "change" and last.slots.get("step") in ("nuc_made", "split")
    return made and last is not None and count is not None and len(last.slots.get("with", ())) == count


def _of_nucs(s: Statement, pronoun: Mark) -> bool:
    """ "cells go in all three nucs": the pronoun stands before the nucs it is said of."""
    after = neighbour(s, index_of(s, pronoun), 1)
    if after is None:
        return False
    return after.v.get("noun") == "nuc" or (after.label == "hives" and after.w.startswith("n"))


def _letter(ids: list[str]) -> str:
    """The letter that all the ids carry before their numbers; empty where there is no such."""
    letters = {cid[: len(cid) - len(cid.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))] for cid in ids}
    return letters.pop() if len(letters) == 1 else ""


def the_others(msg: Message, count: int | None = None) -> tuple[list[str], str | None] | None:
    """ "8, 9 and 10 look hungry, 8 is dead, the others got fondant": those of the group that are not named last."""
    held = msg.held.cols
    if not held or not held["ids"]:
        return None
    whole = next((g for g in reversed(msg.held.groups) if set(held["ids"]) < set(g[0])), None)
    if whole is None:
        return None
    named = set(held["ids"]) | _named_since(msg, list(whole[0]))
    others = [x for x in whole[0] if x not in named]
    if count is not None and len(others) != count:
        others = [x for x in whole[0] if x not in held["ids"]]  # "the other two": but the one named last
    return others, whole[1]


def _named_since(msg: Message, group: list[str]) -> set[str]:
    """Those named one by one since the whole group was: "wraps on 40-60. 58 dead, 59 dead. …"."""
    recent = [cid for cid, _ in msg.held.recent]
    starts = range(len(recent) - len(group), -1, -1)
    at = next((k for k in starts if recent[k : k + len(group)] == group), None)
    return set(recent[at + len(group) :]) if at is not None else set()


def _ones(msg: Message, s: Statement) -> list[str]:
    """The colonies that "the light ones" and "the deadouts" are: those just found so. The word then only names them."""
    if not s.has("thing", "cue", "change"):
        return []
    found_so = next((m for m in s.marks if _names_ones(s, m)), None)
    if found_so is None:
        return []
    yard = next((m.v["value"] for m in s.all("yard") if not m.v.get("to")), None)
    found: list[str] = []
    for d in msg.thread.lately(msg.first_draft):
        if yard is not None and d.slots.get("yard") not in (None, yard):
            continue
        if _is_so(d, found_so):
            found += [cid for cid in d.slots.get("colonies", []) if cid not in found]
    after = neighbour(s, index_of(s, found_so), 1)
    several = after is not None and after.w.endswith("ones")
    worked = s.has_any(THINGS) or (s.marks[0].label == "verb" and not s.has("cols"))
    unknown = not found and several and found_so.label == "fact" and worked
    if found and not several and len(found) > 1 and found_so.label == "fact":
        return []  # "the light one", where several are
    if found or unknown:
        found_so.label, found_so.v = "w", {"of": "ones"}
        s.seal()
    if unknown and after is not None:  # "nine is empty, the light ones get fondant": nine is none of them
        after.v["unknown"] = True
        msg.held.cols = None
    return found


def _names_ones(s: Statement, m: Mark) -> bool:
    """Whether a finding only says which colonies are meant: "the light ones", "all but the hot one", "the deadouts"."""
    if m.v.get("step") == "died":
        return left_aside(s, m)
    if m.label != "fact" or not m.v.get("set"):
        return False
    k = index_of(s, m)
    after = neighbour(s, k, 1)
    if after is None or (after.label != "thing" and after.w != "one"):
        return False
    return after.w.endswith("ones") or left_aside(s, m)


def _is_so(d: Draft, m: Mark) -> bool:
    if m.label == "change":
        return d.kind == "change" and d.slots.get("step") == "died"
    return d.kind == "inspection" and all(d.slots.get(k) == v for k, v in m.v["set"].items())


def made_new(msg: Message) -> list[str]:
    """The ids of the colonies that the changes of this message made."""
    made: list[str] = []
    for d in msg.thread.lately(msg.first_draft):
        if d.kind == "change" and d.slots.get("step") in ("split", "nuc_made"):
            made += [x for x in d.slots.get("with", []) if x not in made]
    return made


def is_exception(msg: Message, s: Statement, m: Mark) -> bool:
    """Whether the colonies are named as an exception ("all but 4")."""
    if not s.has("cue"):
        return False
    k = index_of(s, m)
    before = neighbour(s, k, -1)
    return before is not None and before.label == "cue" and before.v.get("cue") == "except"


_OF_CHECKS = frozenset(["method", "check", "mites", "value", "sample", "clean", "percent"])


def of_other_work(msg: Message, s: Statement) -> bool:
    """ "… boards at the quarry; gel at the sawmill one to six, | seven to twelve I haven't done": work told of at this
    yard, since there were checks at another.
    """
    if s.has_any(_OF_CHECKS):
        return False
    drafts = msg.thread.lately(msg.first_draft)
    last = next((d for d in reversed(drafts) if d.kind not in ("conditions", "inspection")), None)
    checked = next((d for d in reversed(drafts) if d.kind == "mite_check"), None)
    if last is None or checked is None or last.kind not in ("treatment", "gear", "feed"):
        return False
    return msg.held.yard is not None and last.slots.get("yard") == msg.held.yard != checked.slots.get("yard")
