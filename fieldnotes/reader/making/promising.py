"""Promises that fit no other kind."""

from __future__ import annotations

from itertools import takewhile

from fieldnotes.reader.assertion import Stance, arrived, cues, tense
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.frames.direction import going_out
from fieldnotes.reader.frames.marks import index_of, neighbour
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.group import BULLETS
from fieldnotes.reader.making import checking, finishing
from fieldnotes.reader.making.message import Message
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.parting.about import AUX
from fieldnotes.reader.scope import Draft, Place

_JOBS = listed("jobs")
_GETS = listed("errands")
_REASON = frozenset("there's there because cause since it's he's she's they're that's".split())
_NO_JOB = listed("no_job")


_BEFORE_JOB = BULLETS | {"[", "]"}


def _job(m: Mark) -> bool:
    """Whether the word is a job's verb: "bring", "bringing"."""
    return m.w in _JOBS or m.w.removesuffix("ing") in _JOBS


def orders(s: Statement) -> bool:
    """ "need to order more fondant", "need 60 more strips on the truck": things to get, not given to any colony."""
    if s.has("cols", "every", "hives", "pronoun", "each") or not s.has("agent", "form", "item", "feed", "ratio"):
        return False
    thing = min(index_of(s, m) for m in s.all("agent", "form", "item", "feed", "ratio"))
    before = [m for m in s.marks[:thing] if m.w not in BULLETS]
    if any(m.w.split()[0] in _GETS or m.w == "bringing" for m in before if m.label in ("w", "change", "verb")):
        can = any(m.w in _CAN or m.w == "bringing" for m in before)  # "Dov can bring the patties"
        return bool(cues(s, "plan")) or before[0].w.split()[0] in _GETS or can
    after = [m.w for m in s.marks[thing + 1 :]]
    needed = any(m.w.split()[0] in ("need", "needs") and m.w.split()[-1] != "to" for m in cues(s, "plan"))
    return needed and "more" in [m.w for m in before] and not s.has("yard") and ("on" not in after or "truck" in after)


_STOWED_IN = listed("stowed_in")
_THE = frozenset("the my our his her your a".split())
_THERE = frozenset("in on into onto at to inside from off of with by under behind".split())
_LADEN = frozenset("load loading loaded list up".split())
_PARTS = frozenset("there's there but so because".split())
_TO_STOW = _THERE | _LADEN
_LIES = frozenset("is are was were 's still sitting left".split())


def stowed(msg: Message, s: Statement) -> bool:
    """ "six supers in the shed at wens", "load the truck: two feeders": things in store or on the way, on no hive."""
    placed = not s.words.isdisjoint(_STOWED_IN)
    if not placed and msg.stowing != msg.thread.statements - 1:
        return False
    if not (s.has_any(THINGS) or s.has("pronoun", "verb", "method")):
        return False
    if any(m.v.get("cue") == "not" for m in s.all("cue")):
        return False
    marks = s.marks
    k = next((k for k, m in enumerate(marks) if m.label == "w" and m.w in _STOWED_IN), None) if placed else None
    if k is None:
        goes_on = (
            s.opens == "soft" and msg.stowing == msg.thread.statements - 1 and (s.has_any(THINGS) or s.has("method"))
        )
        if not goes_on or s.has("cols", "hives", "rest", "yard", "verb", "every", "pronoun"):
            return False
    else:
        lies_there = k > 2 and marks[k - 3].w in _LIES  # "nine's super is in the barn"
        if s.has("cols", "hives", "rest") and not lies_there:
            return False
        if not _stowed_at(marks, k) or (going_out(s) and s.has("yard")):
            return False  # "took the supers off the quarry to the barn" tells of what came off
    msg.stowing = msg.thread.statements
    return True


def _stowed_at(marks: list[Mark], k: int) -> bool:
    """Whether things are put into the place named at `k`, or are there."""
    lead = [m.w.split()[-1] for m in marks[max(0, k - 2) : k]]
    if k < 3 and (not lead or lead[-1] in _THE) and any(m.label in THINGS for m in marks[k:]):
        return k != 0 or any(m.w.split()[0] in _LADEN for m in marks[1:2])  # "on the truck: six supers", "truck list"
    if len(lead) < 2 or lead[1] not in _THE or lead[0] not in _TO_STOW:
        return False
    if k < 4 and marks[0].w in _LADEN:
        return True
    near = list(
        takewhile(lambda m: m.label not in ("date", "filler", "comma") and m.w not in _PARTS, reversed(marks[:k]))
    )
    return any(m.label in THINGS or m.label == "pronoun" for m in near)


_RAN = frozenset(
    "ran run running we're i'm are is was were be all completely clean right just nearly almost got".split()
)
_WANTING = (["low", "on"], ["short", "on"], ["short", "of"])


_GONE = frozenset("gone eaten finished untouched empty mouldy moldy hard soft".split())


def _all_gone(after: list[Mark]) -> bool:
    """ "the fondant on nine is nearly gone", "syrup's all gone": how much is left, and none given."""
    if any(m.w in ("is gone", "are gone", "'s gone") for m in after[:3]):
        return True
    be = next((k for k, m in enumerate(after) if m.w in ("is", "are", "was", "were", "'s")), len(after))
    if any(m.label not in ("cols", "yard", "w") for m in after[:be]):
        return False
    return any(m.w.split()[-1] in _GONE for m in after[be + 1 : be + 4])


def ran_out(s: Statement) -> bool:
    """ "ran out of syrup at forty eight", "we're out of patties", "two supers short": what is not there."""
    marks = s.marks
    if s.has("feed") and any(_all_gone(marks[k + 1 : k + 7]) for k, m in enumerate(marks) if m.label == "feed"):
        return True
    if s.words.isdisjoint(("of", "on", "short", "ran out of", "short on")):
        return False
    for k, m in enumerate(marks):
        if m.label in ("cols", "every"):
            return False  # "guards on S1 to S6 only, I ran out of guards"
        if m.label not in THINGS:
            continue
        lead = [w for x in marks[max(0, k - 3) : k] for w in x.w.split() if w not in ("the", "our", "my")]
        if lead[-2:] == ["out", "of"] and (len(lead) == k == 2 or (lead[-3:-2] and lead[-3] in _RAN)):
            return True
        if lead[-2:] in _WANTING:
            return True
        counted = k > 0 and marks[k - 1].label == "number"
        if counted and any(x.w == "short" for x in (*marks[k + 1 : k + 2], *marks[max(0, k - 2) : k - 1])):
            return True
    return False


def leave_in_store(msg: Message) -> None:
    """ "took two supers out of the truck and put them on nine": they came off no hive."""
    for draft in msg.from_store:
        if any(d is draft for d in msg.thread.lately(msg.first_draft)):
            msg.thread.drafts.remove(draft)


_CAN = frozenset("can could might should please".split())
_SOME_THING = frozenset("a an new more some the another extra my our".split())


def _gets_thing(s: Statement) -> bool:
    """ "get new drill bits by mar 1", "get a new hive tool": something to buy or fetch, and nothing done to a hive."""
    first = next((m for m in s.marks if m.label not in ("filler", "comma") and m.w not in BULLETS), None)
    if first is None or first.w != "get" or s.has_head or s.has("cols", "cue", "every", "rest"):
        return False
    after = neighbour(s, index_of(s, first), 1)
    return after is not None and after.label == "w" and after.w in _SOME_THING


def imperative(s: Statement) -> bool:
    """ "someone bring the long ladder Saturday": an order with a day, or said to somebody."""
    if _gets_thing(s):
        return True
    words = [
        m
        for m in s.marks
        if (m.label in ("w", "person") or m.w == "load" or (m.label == "change" and m.v["step"] == "bought"))
        and m.w.split()[0] not in BULLETS
        and m.w not in _BESIDE_ORDER
    ]
    someone = bool(words) and (words[0].w in ("someone", "somebody") or words[0].label == "person")
    first = words[1] if someone and len(words) > 1 else (words[0] if words else None)
    if first is not None and any(m.w == "they" for m in s.marks[: index_of(s, first)]):
        return False  # "they pick up monday": others do
    if first is not None and first.w in ("i'm", "we're", "i", "we") and s.has("date"):
        after = neighbour(s, index_of(s, first), 1)
        first = after if after is not None and _job(after) else first
    alone = first is s.marks[0] and not s.has("verb", "fact") and not any(m.w in AUX for m in s.marks)
    told = someone or s.has("date") or s.opens != "line" or s.bullet or alone  # "Order queen cages."
    if first is None or not _job(first) or not told or tense(s) == "past":
        return False
    after = neighbour(s, index_of(s, first), 1)
    return after is None or after.w.split()[0] not in _ARRIVES  # "order came in today"


_BESIDE_ORDER = frozenset("and then also so please hey just , to : can could should".split())
_ARRIVES = AUX | {"came", "comes", "arrived", "showed"}


def has_deadline(s: Statement) -> bool:
    """ "mow the track by the 9th": an order with a last day."""
    date_mark = s.first("date")
    if date_mark is None or s.has_head or s.has("cols", "verb", "pronoun", "cue"):
        return False
    before = neighbour(s, index_of(s, date_mark), -1)
    words = [m for m in s.marks if m.label == "w" and m.w.isalpha()]
    return before is not None and before.w == "by" and len(words) > 2 and words[0].w not in _NO_JOB


def _back_for(s: Statement) -> bool:
    """Whether somebody goes or comes "back for" what was left."""
    return " back for " in " ".join(("", *(m.w for m in s.marks), ""))


def _sees_to(s: Statement) -> bool:
    """Whether somebody sees or gets to what was left ("those two I shall see to next Monday")."""
    said = " ".join(("", *(m.w for m in s.marks), ""))
    return any(f" {words} " in said for words in ("see to", "get to", "deal with", "follow", "finish", "i'll get"))


def _left_in(msg: Message, s: Statement) -> Draft | None:
    """The removal whose exceptions "I'll go back for them Saturday", "still to pull there" speak of."""
    held = msg.held.cols or {}
    later = s.has("pronoun") and (_back_for(s) or _sees_to(s))
    there = any(m.w == "there" for m in s.marks) and going_out(s) and not s.has("cols")
    if not later and not there:
        return None
    for d in reversed(msg.thread.lately(msg.first_draft)):
        undone = d.slots.get("state") == "not_done" and d.slots.get("colonies")
        if undone and later and d.kind in ("treatment", "gear", "feed", "mite_check"):
            return d
        if d.kind == "treatment" and d.slots.get("step") == "out":
            left = d.slots.get("except_colonies")
            spoken_of = held.get("every") or held.get("ids") in (None, [], left)
            return d if left and (spoken_of or there) else None
    return None


def _go_back(msg: Message, i: int, s: Statement, stance: Stance, left: Draft) -> None:
    """A planned removal from the colonies that were left out of one."""
    draft = Draft(left.kind)
    for slot in ("step", "agent", "form", "product", "item", "feed", "ratio", "method"):
        if slot in left.slots:
            draft.put(slot, left.slots[slot], "what was left in")
    stance.state = "planned"
    ids = left.slots.get("except_colonies") or left.slots["colonies"]
    place = Place(left.slots.get("yard"), list(ids))
    draft.spans += [(m.s, m.e) for m in s.marks if m.w == "for" or m.label in ("pronoun", "cue")]
    finishing.finish(msg, i, s, stance, draft, place)


_NEEDS = frozenset(["needs", "need", "wants"])


def _said_of_thing(cue: Mark, words: list[Mark]) -> bool:
    """ "the gate needs mending", "the gate has to be mended": cues whose subject is what the job is done to."""
    return cue.w in _NEEDS or cue.w.endswith(" be") or (bool(words) and words[0].w == "be")


_NO_SUBJECT = frozenset("i we you they it that this he she somebody someone and so then but also there".split())
"""Words that end the search for what needs something, going back from "needs"."""


_OF_THINGS = frozenset("w number item noun yard thing feed method ignore honey".split())


def _what_needs(s: Statement, at: int) -> list[Mark]:
    """ "the trailer light needs fixing": what stands before the cue at `at`; empty where that is a person."""
    k = at
    while k > 0 and s.marks[k - 1].label in _OF_THINGS:
        if s.marks[k - 1].w in _NO_SUBJECT or not s.marks[k - 1].w[0].isalnum():
            break
        k -= 1
    subject = s.marks[k:at]
    while subject and subject[0].w in ("the", "a", "our", "at", "in"):
        subject.pop(0)
    return subject if any(m.label != "number" for m in subject) else []


_POINTS = frozenset(["it", "that", "them", "those", "these", "this"])


def _said_last(s: Statement) -> list[Mark]:
    """What a statement ends in that becomes no record: all of it, or what follows its last "and" or pause."""
    if not s.has_head:
        return s.marks
    joints = [k for k, m in enumerate(s.marks) if m.label in ("filler", "comma") or m.w in ("and", "also", "so")]
    tail = s.marks[joints[-1] + 1 :] if joints else []
    return [] if any(m.label in HEADS for m in tail) else tail


def _spoken_of(msg: Message, i: int, s: Statement, at: int, words: list[Mark], cue: str) -> list[Mark]:
    """ "the ladder's still at Heath, need to get it friday": what "it" stands for, where that is no record."""
    told = [m.w for m in words[:2]]
    bare = len(words) == 1 and words[0].label in ("w", "verb") and told[0] not in _NO_JOB
    if not bare and (not told or (told[0] not in _POINTS and (len(told) < 2 or told[1] not in _POINTS))):
        return []
    if told[0] in _POINTS and cue.split()[-1] in ("to", "ll", "will"):
        return []
    k = next((k for k, m in enumerate(s.marks) if m.label not in ("filler", "comma") and m.w not in ("and", "so")), 0)
    before = s.marks[k:at]
    if not before and i and msg.statements[i - 1].sentence == s.sentence:
        before = _said_last(msg.statements[i - 1])
    plain = [m for m in before if m.label not in ("filler", "comma", "date")]
    while plain and (plain[-1].w == "to" or plain[-1].w in _NO_SUBJECT):
        plain.pop()
    return plain if sum(m.label == "w" and len(m.w) > 3 for m in plain) >= 2 else []


def only_if(msg: Message, s: Statement) -> None:
    """ "nine gets its pads tonight | if it's under eighty five": what was planned just before hangs on it."""
    before = msg.before
    ifs = [m for m in s.all("cue") if m.v.get("cue") == "if"]
    if before is None or before.sentence != s.sentence or s.opens != "soft" or not ifs or s.has("cols", "yard"):
        return
    if s.marks[0] is not ifs[0] or ifs[0].w.split()[0] not in ("if", "unless", "provided", "only", "as"):
        return  # "washing it tomorrow and if it is over nine …": the condition of what follows
    for d in msg.thread.lately(msg.first_draft):
        if d.statement == msg.thread.statements - 1 and d.slots.get("state") == "planned" and d.kind != "todo":
            d.put("state", "conditional", ifs[0].rule)
            d.spans.append((ifs[0].s, ifs[0].e))


def promise(msg: Message, i: int, s: Statement, stance: Stance, drafts: list[Draft], stances: list[Stance]) -> None:
    """A job that fits no other kind, where the words promise or ask for one."""
    if drafts or stance.asked or msg.recent() or s.has("days", "sky", "temp"):
        return  # "we're supposed to get frost saturday" is no job
    if checking.read_later(msg, i, s, stance):
        return
    plans = [m for m in cues(s, "plan") if not arrived(s, m)]
    if plans and (left := _left_in(msg, s)) is not None:
        _go_back(msg, i, s, stance, left)
        return
    heading = stance.state == "planned" and not plans and s.opens == "line" and msg.headed[i] == "planned"
    if not plans and not heading and imperative(s):
        stance.state = "planned"
        plans = [next(m for m in s.marks if _job(m) or m.w == "get")]
        at_verb = True
    else:
        at_verb = False
    deadline = not plans and not heading and has_deadline(s)
    if deadline:
        stance.state = "planned"
    if not plans and not heading and not deadline:
        return
    signs_only = all("sign" in m.v for m in s.all("fact")) and not s.has("cols", "pronoun") and bool(plans)
    if s.has("mites", "value") or (s.has("fact") and not (signs_only and plans[0].w.startswith(("need", "remember")))):
        return  # "need to set mouse poison in the shed" is a job, and no sign of mice
    if plans and plans[0].w.endswith("doing") and not s.has("date"):
        return  # "I'm doing this on my own"
    if plans and plans[0].w.split()[-1] == "forget" and s.has("cols", "number"):
        return  # "don't forget 27 and 33 this time": no job by itself
    if plans and (
        cues(s, "not")
        or plans[0].w.startswith("coming")
        or (plans[0].w in ("plan", "plans", "ahead") and not s.has("date"))
    ):
        return  # "wasn't gonna stop", "plan from here"
    at = index_of(s, plans[0]) - at_verb if plans else -1
    mark = s.first("heading")
    after = neighbour(s, index_of(s, mark), 1) if mark is not None else None
    headed = after is not None and after.w == ":"  # "To do: buy queen cages by 1 June"
    if headed and mark is not None:
        at = max(at, index_of(s, mark))
    need = plans and plans[0].w in ("need", "needs", "want", "wants", "still need", "still needs", "need some")
    words: list[Mark] = []
    for k, m in enumerate(s.marks[at + 1 :], at + 1):
        if m.label == "comma" and len(words) > 1 and any(x.w in _REASON for x in s.marks[k + 1 : k + 2]):
            break  # "bring the ladder, there's a swarm in the wall"
        if m.label in ("comma", "filler", "date") or m.w == ":" or m.w in (BULLETS if words else _BEFORE_JOB):
            if words and m.label in ("filler",) and m.w not in ("like",):
                break
            continue
        if m.label == "yard" and (heading or m is s.marks[at + 1]) and not words:
            continue
        if m.label == "yard" and words and words[-1].w in ("at",):
            words.pop()
            continue
        words.append(m)
    while words and words[-1].w in ("by", "on", "before", "until", "till", "for", "and", "so", "the", "in", "to"):
        words.pop()
    while words and words[0].w in ("and", "the", "i", "we", "to", "then"):
        words.pop(0)
    topic = _spoken_of(msg, i, s, at, words, plans[0].w) if plans and not at_verb else []
    if (s.has("heading") and not headed) or (
        not topic
        and not any(
            m.v.get("cue") != "plan" and (m.label not in ("w", "pronoun", "verb") or m.w not in _NO_JOB) for m in words
        )
    ):
        return
    subject = _what_needs(s, at) if plans and not at_verb and _said_of_thing(plans[0], words) else []
    named = bool(plans) and plans[0].w.endswith(" the")  # "don't let me forget the ladder on monday"
    if (len(words) < 2 and not (need or subject or topic or named)) or not words:
        return
    draft = Draft("todo")
    text = " ".join(m.w for m in words)
    if subject:
        text = f"{' '.join(m.w for m in subject)} {plans[0].w} {text}"
    elif need:
        text = f"need {text}"
    elif topic:
        verb = f"{plans[0].w.split()[-1]} " if words[0].w in _POINTS else ""  # "need to get | it"
        text = f"{verb}{text} ({' '.join(m.w for m in topic)})"
    draft.put("text", text, "plan without a kind")
    draft.put("state", "planned", "cue")
    when = stance.when
    if when is None and stance.said is None and msg.headed[i] == "planned" and msg.held.day is not None:
        first, last = msg.held.day
        when = (first, last) if msg.today < first == last else None  # "To do Wednesday" over a list
    if when is not None and not (stance.said is not None and stance.said.ahead is False):
        draft.put("on", when[0].isoformat(), "date")
        if when[1] != when[0]:
            draft.put("on_until", when[1].isoformat(), "date")
    if msg.held.yard and s.has("yard"):
        draft.put("yard", msg.held.yard, "yard that holds")
    draft.spans.append(((subject or words)[0].s, words[-1].e))
    if topic:
        draft.spans.append((topic[0].s, topic[-1].e))
    for m in (*plans, *s.all("date", "yard")):
        draft.spans.append((m.s, m.e))
    person = finishing.doer(msg, s)
    if person is not None:
        draft.put("by", person.v["value"], "person")
    msg.add(i, s, draft)
