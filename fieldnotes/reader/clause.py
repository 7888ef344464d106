"""Where does one statement end and the next begin? The row of marks → statements.

Full stops and new lines part statements for sure. In a stream without them a new statement begins at a
new colony that nothing before it governs ("… two mites | fourteen had none"), at a verb of work or a
cue ("didn't", "need to") once the statement before is complete, and, where a colony is governed ("put a
wrap on l one"), at the words that govern it. A statement has one group of colonies at most.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import islice

from fieldnotes.reader.group import BULLETS
from fieldnotes.reader.mark import Mark

HEADS = frozenset(
    (
        "fact method mites clean percent value check agent form unit item feed harvest moisture queen_work change "
        "temp sky round"
    ).split()
)
ORDERS = frozenset(
    "bring order buy fetch find borrow return build assemble paint fix mend repair sharpen pick charge mow".split()
)
"""What is done with things, but not to a hive."""
VERBS = frozenset(["verb", "queen_work", "change", "harvest", "check"])
GLUE_WORDS = frozenset(
    (
        "i'm im we're i've we've ive weve it's its they're she's he's that's there's theyre and then so but also "
        "plus or that because since cause cos cuz while when after before i we he she they there now just only - * "
        "· • – — ,"
    ).split()
)
_STRONG = frozenset("then so but also because cause since while".split())
_GOVERNORS = frozenset("in on into onto from off of out outa to for with under inside at by around".split())
_LEFT = frozenset(["not done", "undone", "left alone", "didn't get done"])
_AUX = frozenset("is was are were be been being has have had get got gets getting 's".split())
_TAIL_OK = frozenset(
    (
        "a an the another some my our its their her his this that these those new more extra fresh first second "
        "third other big little small up down back over out off in on into onto from of to for with under each i "
        "we he she they and just also went one all both today"
    ).split()
)


LONGEST_STATEMENT = 150
"""Marks; where nothing ends a statement before, this does."""


@dataclass(slots=True)
class Statement:
    """The marks of one statement.

    `opens` is "line", "stop" or "soft": what stands before it. `line` numbers the lines of the message,
    `sentence` its sentences; `asked` is True where a question mark ends it; `bullet` True for the item of a list;
    `led` True where the colonies named last in its sentence stood before what was said of them.
    """

    marks: list[Mark] = field(default_factory=list)
    opens: str = "line"
    line: int = 0
    sentence: int = 0
    asked: bool = False
    bullet: bool = False
    blank_before: bool = False
    topic: bool = False
    led: bool = False
    by_label: dict[str, list[Mark]] | None = None

    def seal(self) -> None:
        """Sorts its marks by label, once they are settled: look-ups then need not go through them."""
        self.by_label = {}
        for m in self.marks:
            self.by_label.setdefault(m.label, []).append(m)

    def has(self, *labels: str) -> bool:
        """Whether a mark of one of the labels is in it."""
        if self.by_label is None:
            return any(m.label in labels for m in self.marks)
        for label in labels:  # noqa: SIM110 (asked at every turn; a plain loop takes half the time)
            if label in self.by_label:
                return True
        return False

    def all(self, *labels: str) -> list[Mark]:
        """Its marks of these labels, in order."""
        if self.by_label is not None:
            if len(labels) == 1:
                found = self.by_label.get(labels[0])
                return found.copy() if found else []
            if not self.has(*labels):
                return []
        return [m for m in self.marks if m.label in labels]

    def first(self, *labels: str) -> Mark | None:
        """The first of them, or None."""
        if self.by_label is not None:
            if len(labels) == 1:
                found = self.by_label.get(labels[0])
                return found[0] if found else None
            if not self.has(*labels):
                return None
        return next((m for m in self.marks if m.label in labels), None)

    def has_head_but(self, label: str) -> bool:
        """Whether it says anything that can become a record, marks of `label` aside."""
        return any(m.label in HEADS and m.label != label for m in self.marks)

    @property
    def has_head(self) -> bool:
        """Whether it says anything that can become a record."""
        if self.by_label is not None:
            return not HEADS.isdisjoint(self.by_label)
        return any(m.label in HEADS for m in self.marks)


def _header_only(marks: list[Mark]) -> bool:
    """Only a method, a sample size, a place or a day: words that speak of what comes next."""
    return all(
        m.label
        in (
            "method",
            "sample",
            "days",
            "yard",
            "date",
            "w",
            "filler",
            "person",
            "comma",
            "each",
            "clock",
            "heading",
            "round",
            "noun",
            "every",
        )
        or (m.label == "verb" and m.v.get("does") == "do")
        for m in marks
    )


def _is_verb(m: Mark) -> bool:
    if m.label in VERBS:
        return True
    if m.label == "method":
        return bool(m.v.get("verb")) and m.w.split()[-1].endswith("ed")
    if m.label == "form":
        return bool(m.v.get("treats")) and m.w.endswith(("ed", "ing"))
    if m.label == "item":
        return m.w.endswith("ed")
    return False


def _governed(marks: list[Mark], cols: Mark) -> bool:
    """Whether the words just before a group of colonies take it as their object."""
    back = [m for m in marks if m.label not in ("filler", "approx")]
    while len(back) > 1 and back[-1].label == "pronoun" and back[-1].w in ("both", "all", "these", "those"):
        back.pop()
    if not back:
        return False
    p = back[-1]
    if p.label == "w":
        if p.w in _GOVERNORS:
            return True
        if p.w == "the" and len(back) > 1 and back[-2].label in ("verb", "queen_work", "change", "method", "check"):
            return True
        if p.w == "over" and len(back) > 1 and (back[-2].label == "fact" or back[-2].w == "all"):
            return True  # "wasps all over seventy seven"
        return p.w in ("the", "both", "only") and len(back) > 1 and back[-2].w in _GOVERNORS
    if p.label == "cue":
        return p.v.get("cue") == "except" or (
            p.v.get("cue") in ("plan", "not")
            and p.w.split()[-1] in ("for", "with", "on", "in", "to", "left", "skipped", "skip", "missed")
        )
    if p.label == "same":
        return True
    if p.label == "verb" and p.w.split()[-1] in ("out", "off", "up"):
        if marks[-1] is not p:
            return False
        if len(back) > 1 and back[-2].label in ("item", "agent", "form", "feed"):
            # "L4 the feeder came off | L5 …", but "feeders off 40-44, the feeder comes off 45"
            since = next((k for k in range(len(marks) - 1, -1, -1) if marks[k].label == "cols"), None)
            return since is None or any(x.label == "comma" or x.w == "and" for x in marks[since:])
        return True
    if p.label == "change" and p.w.split()[-1] in ("dead", "deadouts", "deadout", "outs", "out"):
        return False  # "six deadouts um | forty one is alive"
    if p.label == "queen_work" and p.w.split()[-1] in ("her", "it", "them", "queen", "queens"):
        return False  # "pinched her | forty six is weak"
    if p.label in ("verb", "queen_work", "change", "check"):
        return True
    if p.label == "method":
        k = next(n for n, x in enumerate(marks) if x is p)
        counted = any(x.label in ("mites", "value", "clean") for x in marks[:k])
        return not (counted and k and any(x.w in ("in", "by", "with") for x in marks[max(0, k - 2) : k]))
    if p.label in ("agent", "form", "feed", "item", "honey") and not cols.v.get("hive"):
        return p.label == "agent" or bool(p.v.get("treats")) or p.w.endswith("ed")
    return p.label == "yard"


def _led(statement: Statement) -> bool:
    """Whether colonies led the statement ("hive six | put a super on"), or the one before it where it has none."""
    for m in statement.marks:
        if m.label == "cols":
            return True
        if m.label in HEADS or _is_verb(m):
            return statement.led and not statement.has("cols")
    return statement.led


def _particle_ends(marks: list[Mark]) -> bool:
    """Whether the marks end in a thing and which way it went ("took the reducer off")."""
    return (
        len(marks) > 1
        and marks[-1].label == "w"
        and marks[-1].w in ("on", "off", "in", "out")
        and marks[-2].label in ("item", "agent", "form", "feed", "pronoun", "queen_noun", "verb")
    )


def _done(marks: list[Mark]) -> bool:
    """Whether the marks already make a statement by themselves."""
    said = any(m.label in HEADS for m in marks) or (
        any(m.label == "amount" for m in marks)
        and any(m.label == "verb" or (m.label == "w" and m.w in ("made", "gave")) for m in marks)
    )
    repeated = any(m.label == "same" for m in marks) and any(m.label == "cols" for m in marks)
    return (said and not _header_only(marks)) or repeated


def split(row: list[Mark]) -> list[Statement]:
    """The statements of a message, in order."""
    statements: list[Statement] = []
    cur = Statement()
    line = sentence = 0
    soft: Mark | None = None  # the boundary word or sign just passed
    strong = False
    i = 0
    n = len(row)

    def close(opens: str) -> None:
        nonlocal cur, soft, strong
        if cur.marks:
            statements.append(cur)
        cur = Statement(opens=opens, line=line, sentence=sentence)
        soft, strong = None, False

    def start(tail: list[Mark]) -> None:
        """Begins a new statement with `tail`, taken off the end of the one before."""
        nonlocal cur, soft, strong
        if tail:
            cur.marks = cur.marks[: len(cur.marks) - len(tail)]
        if cur.marks:
            statements.append(cur)
            cur = Statement(opens="soft", line=line, sentence=sentence, bullet=cur.bullet, led=_led(cur))
        cur.marks = list(tail)
        soft, strong = None, False

    while i < n:
        m = row[i]
        if m.label == "line":
            line += 1
            sentence += 1
            close("line")
            cur.blank_before = m.w == "¶¶"
            if i + 1 < n and row[i + 1].w in BULLETS:
                cur.bullet = True
            i += 1
            continue
        if m.label in ("stop", "question"):
            if (
                m.w == "."
                and i > 0
                and i + 1 < n
                and row[i - 1].label == "w"
                and len(row[i - 1].w) == 1
                and row[i - 1].w.isalpha()
            ):
                i += 1
                continue
            if m.label == "question":
                cur.asked = True
                for back in reversed(statements):
                    if back.sentence != sentence:
                        break
                    back.asked = True
            sentence += 1
            close("stop")
            i += 1
            continue
        if m.w in BULLETS and not cur.marks:
            cur.bullet = True
            cur.marks.append(m)
            i += 1
            continue
        if m.label in ("comma", "filler") or (m.label == "w" and m.w in GLUE_WORDS):
            soft = m
            if m.label == "filler" or m.w in _STRONG or m.label == "comma":
                strong = True
            if len(cur.marks) >= LONGEST_STATEMENT:
                start([])
            cur.marks.append(m)
            i += 1
            continue
        if len(cur.marks) >= LONGEST_STATEMENT:
            start([])
        _decide(row, i, cur, soft, strong, start)
        cur.marks.append(m)
        if m.label not in ("w", "person", "pronoun", "approx", "date", "yard"):
            soft, strong = None, False
        elif m.label == "w" and m.w not in ("the", "a", "an", "this", "that", "it", "my", "our", "been"):
            if m.w not in _GOVERNORS:
                soft = (
                    soft
                    if m.w in ("still", "never", "already", "later", "somebody", "someone", "back") or m.w in _AUX
                    else None
                )
                strong = strong and soft is not None
        i += 1
    close("stop")
    said = [s for s in statements if any(m.label not in ("comma", "filler") for m in s.marks)]
    for s in said:
        s.seal()
    return said


def _glue_tail(marks: list[Mark]) -> list[Mark]:
    """Fillers, joining words and pronouns at the end: they belong to what comes next."""
    k = len(marks)
    subject = k - 1
    while (
        subject > 0 and marks[subject].label == "w" and marks[subject].w in _AUX | {"just", "also", "already", "then"}
    ):
        subject -= 1
    if (
        subject > 0
        and (
            marks[subject].label in ("person", "pronoun")
            or (
                marks[subject].label == "w"
                and marks[subject].w in ("i", "we", "he", "she", "they", "somebody", "someone")
            )
        )
        and (subject < k - 1 or marks[subject - 1].label == "date")
    ):
        k = subject
        if marks[k - 1].label == "date" and _done(marks[: k - 1]):
            k -= 1
    while k > 0 and (
        marks[k - 1].label in ("comma", "filler", "approx", "person", "clock")
        or (
            k > 1
            and marks[k - 1].label == "pronoun"
            and (marks[k - 2].label in ("comma", "filler") or marks[k - 2].w in GLUE_WORDS)
        )
        or (
            marks[k - 1].label == "date"
            and k > 1
            and (marks[k - 2].label in ("comma", "filler") or marks[k - 2].w in GLUE_WORDS)
        )
        or (
            marks[k - 1].label == "w"
            and (
                marks[k - 1].w in GLUE_WORDS
                or marks[k - 1].w in ("still", "never", "already", "later", "the", "a", "it", "back")
                or (marks[k - 1].w == "to" and k > 1 and (marks[k - 2].label == "date" or marks[k - 2].w == "back"))
            )
        )
    ):
        k -= 1
        if marks[k].label == "w" and marks[k].w == "to" and k > 0 and marks[k - 1].label == "date":
            k -= 1  # "…, back Saturday to | pull supers"
    return marks[k:]


def _decide(row: list[Mark], i: int, cur: Statement, soft: Mark | None, strong: bool, start) -> None:  # type: ignore[no-untyped-def]
    m = row[i]
    marks = cur.marks
    if not marks:
        return
    cols = [x for x in marks if x.label == "cols"]
    if (
        soft is not None
        and (strong or (soft.w in ("i", "we") and m.label == "verb" and m.v.get("tense") == "past"))
        and not _done(marks)
        and _clausal(marks)
        and (
            m.label in HEADS
            or m.label == "verb"
            or (m.label == "cue" and m.v.get("cue") in ("plan", "not", "if", "ask"))
            or (m.label == "cols" and (_predicate_follows(row, i) or _person_follows(row, i)))
        )
    ):
        tail = _header_tail(marks)
        if tail and len(tail) < len(marks):
            last = marks[len(marks) - len(tail) - 1]
            if (last.label not in ("cue", "cols") and not (last.label == "verb" and m.label != "cue")) or (
                tail[0].label == "filler" and last.label == "cue" and last.v.get("cue") != "plan"
            ):
                start(tail)
                return
    if m.label == "cols":
        _at_colonies(row, i, cur, cols, start)
        return
    if m.label == "hives" and m.v.get("counts"):
        return
    if m.label == "cue":
        kind = m.v.get("cue")
        if kind == "except" or kind == "report":
            return
        if kind == "correct":
            start(_glue_tail(marks))
            return
        if (
            not _done(marks)
            and kind == "plan"
            and soft is not None
            and any(x.label == "cue" and x.v.get("cue") in ("plan", "not") for x in marks)
            and len(_glue_tail(marks)) < len(marks) - 1
        ):
            start(_glue_tail(marks))
            return
        if (
            kind in ("not", "plan")
            and not _has_verb(marks)
            and _subject_thing(marks)
            and not any(x.label in ("value", "mites") for x in marks)
        ):
            return
        if (
            kind in ("not", "plan")
            and len(marks) > 2
            and marks[-1].w in ("i", "we", "he", "she", "they")
            and marks[-2].label == "cols"
            and _governed(marks[:-2], marks[-2])
            and _has_verb(marks)
        ):
            start(marks[-1:])  # "they came out, all but seventy six | i couldn't crack the lid"
            return
        if kind == "plan" and m.w.startswith("due") and i + 1 < len(row) and row[i + 1].label == "date":
            return  # "alcohol wash for 71, due the 25th"
        if kind == "ask" and soft is not None and not _done(marks) and any(x.label in ("verb", "cue") for x in marks):
            start(_glue_tail(marks))  # "who's got the key and | are we feeding"
            return
        if _done(marks) and _opens_clause(m):
            tail = _glue_tail(marks)
            if (
                not soft
                and not tail
                and not _goes_on(row, i)
                and not (
                    kind == "not"
                    and m.w.split()[0] in ("didn't", "forgot", "never", "haven't")
                    and (_has_verb(marks) or any(x.label in ("value", "mites", "fact") for x in marks))
                )
            ):
                return
            if kind == "not" and m.w in ("no", "not", "without") and not soft:
                return
            start(tail)
            return
        if (
            kind in ("if", "plan", "not", "ask")
            and cols
            and soft
            and strong
            and len(_glue_tail(marks)) < len(marks)
            and not _governs_end(marks)
        ):
            # "14 and 15, didn't check them": the colonies were the topic
            return
        return
    if m.label == "heading":
        return
    if (
        m.label in ("number", "value")
        and soft is not None
        and "n" in m.v
        and m.v["n"].value == 0
        and _done(marks)
        and i + 1 < len(row)
        and row[i + 1].w in ("in", "on", "for", "to", "at")
    ):
        start(_glue_tail(marks))  # "strips in 1-10, 2 each, | none in 11-18"
        return
    if (
        m.label in ("mites", "value", "clean")
        and strong
        and any(x.label == "cue" and x.v.get("cue") == "not" for x in marks)
        and not cols
    ):
        start(_glue_tail(marks))
        return
    if _is_verb(m):
        if not _done(marks):
            return
        if not soft and not _has_verb(marks) and _subject_thing(marks):
            lead = _lead_nouns(marks)
            if lead and any(x.label == "cols" for x in marks[: -len(lead)]):
                start(lead)  # "guards on all but l eleven | candy boards go on"
                return
        if (
            m.label == "verb"
            and m.w in ("got", "gets", "get", "done", "gone", "going", "go", "went", "given")
            and not soft
            and not _has_verb(marks)
        ):
            return
        tail = _glue_tail(marks)
        if not _has_verb(marks) and _subject_thing(marks):
            return
        if soft is not None or tail:
            if m.label == "change" and m.v.get("step") == "died" and not strong and not tail:
                return
            start(_with_lead(marks, tail))
            return
        if lead := _passive_subject(marks):
            start(lead)  # "introduced a new one … and | the spare is banked in q b"
            return
        if _has_verb(marks) and not _after_aux(marks) and not _passive(row, i):
            if m.label == "verb" and m.w.split()[0] in ("done", "did", "do", "does", "doing", "finished"):
                return
            lead = _lead_nouns(marks)
            start(lead)
        return
    if m.label == "pronoun":
        q = row[i + 1] if i + 1 < len(row) else None
        if _done(marks) and "n" in m.v and marks[-1].label == "filler":
            start(_glue_tail(marks))  # "banked all three um | those three get new ones"
            return
        if _done(marks) and m.w == "they" and soft is not None:
            start(_glue_tail(marks))
            return
        if (
            (_done(marks) or cols)
            and m.w not in ("it", "its", "her", "both")
            and q is not None
            and (
                q.w in _AUX
                or q.w in ("look", "looked", "seem", "need", "get", "all", "stay", "come", "go", "will", "were")
                or (
                    q.label in ("verb", "fact", "change", "cue")
                    and marks[-1].label not in ("verb", "w", "queen_work", "change", "form", "method")
                )
            )
        ):
            start(_glue_tail(marks))
        return
    if m.label == "thing":
        if cols and m.w.startswith("the tray") and marks[-1].label in ("cols", "comma", "filler"):
            start(_glue_tail(marks))
            return
        if _done(marks) and soft is not None and m.w in ("the ones", "ones", "theirs"):
            start(_glue_tail(marks))
        return
    if m.label == "round":
        if (
            soft is not None
            and any(x.label in ("agent", "form", "temp") for x in marks)
            and _done(marks)
            and i + 1 < len(row)
            and (row[i + 1].label in ("verb", "cue") or row[i + 1].w in ("is", "i", "goes", "of"))
        ):
            start(_with_number(marks, _glue_tail(marks)))
        return
    if m.label in ("same",):
        if _done(marks):
            start(_glue_tail(marks))
        return
    if m.label == "yard":
        placed = marks[-1].label == "w" and marks[-1].w in ("at", "in", "from", "the", "@")
        if (
            placed
            and row[i + 1 : i + 2]
            and row[i + 1].w in _AUX
            and _with_prep(marks)[:1]
            and cols
            and (marks[-len(_with_prep(marks)) - 1] is cols[-1])
        ):
            return  # "the wash on hive six at the quarry was twelve"
        lead = _with_prep(marks)
        if (
            _done(marks)
            and placed
            and lead
            and (lead[0].label == "filler" or lead[0].w == "and")
            and len(lead) > 1
            and cols
        ):
            start(lead)  # "hive three clean and | over at wens the strips are due out"
            return
        if (
            (
                _done(marks)
                or any(x.label == "amount" for x in marks)
                or (cur.has("yard") and (strong or any(x.label in ("number", "noun") for x in marks)))
            )
            and (cur.has("yard") or (_yard_leads(row, i) and not (placed and row[i + 1].w == ":" and not cols)))
            and not _sentence_change(marks)
        ):
            start(_with_count(marks, _with_prep(marks)))
        return
    if m.label == "every":
        if cols and _done(marks) and soft is not None:
            start(_glue_tail(marks))
        return
    if (
        m.label in ("sky", "temp")
        and cols
        and not _done(marks)
        and (soft is not None or any(x.label == "cue" for x in marks))
    ):
        start(_glue_tail(marks))  # "didn't get to sixty one | the rain came"
        return
    if m.label == "fact" and cols and m is not marks[-1] and any(x.w in _LEFT for x in marks if x.label == "cue"):
        if marks[-1].label == "comma":
            start([])  # "43: not done, | queenless"
        return
    if m.label == "ignore":
        if _done(marks) or (cols and any(x.label == "cue" for x in marks)):
            start(_glue_tail(marks))
        return
    if m.label == "w":
        if soft is not None and m.w in ORDERS and marks[-1].w == "and" and _first_word(marks) in ORDERS:
            start(marks[-1:])  # "pick up the cups saturday and | mend the hole"
            return
        if (
            soft is not None
            and m.w in ORDERS
            and any(x.label == "cue" and x.v.get("cue") == "plan" for x in marks)
            and (marks[-1].label in ("filler", "comma") or marks[-1].w in ("and", "then", "also"))
        ):
            start(_glue_tail(marks))  # "list for the week um | fix the pallet"
            return
        if (
            soft is not None
            and marks[-1].w in ("i", "we", "he", "she")
            and m.w not in _AUX
            and m.w not in GLUE_WORDS
            and len(marks) > 1
            and (marks[-2].label in ("filler", "comma") or marks[-2].w in GLUE_WORDS)
            and _done(marks)
        ):
            start(_glue_tail(marks))  # "… none um and | i spilled the sugar"
        return
    if (
        m.label == "number"
        and marks[-1].w == "it's"
        and _done(marks)
        and any(x.label == "sky" for x in row[i + 1 : i + 4])
    ):
        start(marks[-1:])  # "nine's alive | it's forty three and clear"
        return
    if m.label in ("sky", "temp") and soft is not None and not _done(marks) and any(x.label == "cue" for x in marks):
        start(_glue_tail(marks))
        return
    if marks[-1].w == "yet" and m.label in HEADS and soft is None:
        start([])
        return
    if m.label in (
        "item",
        "agent",
        "form",
        "feed",
        "method",
        "sample",
        "temp",
        "sky",
        "fact",
        "harvest",
        "honey",
        "moisture",
        "check",
        "rest",
        "queen_noun",
    ) and _done(marks):
        if soft is None:
            if m.label == "item" and marks[-1].label == "every" and any(x.label == "item" for x in marks):
                start([])  # "mouse guards went on last week every hive | reducers yesterday"
                return
            if m.label == "method" and marks and marks[-1].label == "date" and not _header_only(marks):
                start([])
                return
            if m.label == "method" and marks and marks[-1].label in ("w", "cols"):
                return
            if m.label in ("temp", "sky") and not _same_family(marks, m):
                start([])
            return
        tail = _glue_tail(marks)
        if not tail:
            return
        if (
            soft.w == "then"
            and _done(marks)
            and m.label in ("agent", "form", "item", "feed", "queen_noun", "method", "check")
        ):
            start(_with_number(marks, tail))
            return
        if m.label == "method" and cols and any(x.label == "method" and x.v["method"] != m.v["method"] for x in marks):
            start(tail)
            return
        if _same_family(marks, m) and not any(
            x.label in ("cols", "date") or x.w in ("in", "out", "on", "off") for x in _since_last_head(marks)
        ):
            return
        if soft.w in ("and", "plus", "or", "-", "–") and not strong:
            if _same_family(marks, m) and not cols and not any(x.label == "every" for x in marks):
                return
            if m.label == "fact" and cols and any(x.label == "fact" for x in marks):
                return
        if m.label in ("agent", "form", "feed", "item") and _trailing_amount(row, i):
            return
        start(_with_number(marks, tail))
    if m.label == "date" and marks[-1].label == "date" and _done(marks) and "of" not in m.w.split():
        start([])  # "out of QB on the tenth | today the cells went in"
        return
    if m.label == "date" and strong and marks[-1].label == "filler" and any(x.label == "date" for x in marks):
        start(_glue_tail(marks))
        return
    if m.label == "date" and soft is not None and _done(marks) and any(x.label == "date" for x in marks):
        start(_glue_tail(marks))


def _goes_on(row: list[Mark], i: int) -> bool:
    """Whether a verb, a head or a colony follows the cue before the next boundary: it then opens a clause."""
    for x in islice(row, i + 1, i + 1 + LONGEST_STATEMENT):
        if x.label in ("stop", "line", "question", "comma", "filler"):
            return False
        if (
            x.label in HEADS
            or x.label in ("verb", "cols", "item")
            or (x.label == "w" and x.w.isalpha() and len(x.w) > 3 and x.w not in _TAIL_OK)
        ):
            return True
    return False


def _clausal(marks: list[Mark]) -> bool:
    """Whether marks without a head are a clause of their own: a cue or a verb, or several plain words."""
    if any(x.label == "cue" and x.v.get("cue") in ("plan", "not", "if", "ask") for x in marks):
        return True
    plain = [x for x in marks if x.label == "w" and x.w.isalpha() and x.w not in GLUE_WORDS and x.w not in _TAIL_OK]
    return (
        len(plain) >= 3
        or (any(x.label == "verb" for x in marks) and bool(plain))
        or (
            any(x.label == "yard" for x in marks)
            and marks[-1].label != "yard"
            and any(x.label == "filler" for x in marks[1:])
        )
        or (any(x.label == "pronoun" for x in marks) and any(x.w in _AUX or x.label in ("days", "date") for x in marks))
    )


def _subject_thing(marks: list[Mark]) -> bool:
    """Whether the marks end in a thing that waits for its verb ("all the greenies there | come out")."""
    for x in reversed(marks[:-1] if marks and marks[-1].w in ("i", "we") else marks):
        if x.label in ("agent", "form", "item", "feed", "queen_noun", "method"):
            return True
        if x.label in ("filler", "approx", "comma", "pronoun", "person", "each", "every") or (
            x.label == "w" and x.w in ("there", "here", "now", "that", "i", "we", "just", "already", "also", "all")
        ):
            if x.label in ("comma", "filler") or x.w in ("i", "we"):
                return False
            continue
        return False
    return False


def _trailing_amount(row: list[Mark], i: int) -> bool:
    return False


def _since_last_head(marks: list[Mark]) -> list[Mark]:
    for k in range(len(marks) - 1, -1, -1):
        if marks[k].label in HEADS:
            return marks[k + 1 :]
    return marks


_FAMILY = {
    "agent": "treatment",
    "form": "treatment",
    "unit": "treatment",
    "round": "treatment",
    "item": "gear",
    "feed": "feed",
    "amount": "feed",
    "temp": "weather",
    "sky": "weather",
    "fact": "fact",
    "harvest": "harvest",
    "moisture": "harvest",
    "honey": "harvest",
    "method": "check",
    "sample": "check",
    "check": "check",
    "mites": "check",
    "value": "check",
    "clean": "check",
    "percent": "check",
    "queen_work": "queen",
    "queen_noun": "queen",
    "change": "change",
}


def _same_family(marks: list[Mark], m: Mark) -> bool:
    family = _FAMILY.get(m.label)
    heads = [x for x in marks if x.label in HEADS]
    return bool(heads) and _FAMILY.get(heads[-1].label) == family


def _opens_clause(m: Mark) -> bool:
    return m.v.get("cue") in ("plan", "not", "if", "ask")


def _has_verb(marks: list[Mark]) -> bool:
    return any(_is_verb(x) for x in marks)


def _after_aux(marks: list[Mark]) -> bool:
    """Whether the verb that comes belongs to a cue or an auxiliary just before it ("need to | pull")."""
    for x in reversed(marks):
        if x.label == "cue" or (
            x.label == "verb" and (x.v.get("does") == "do" or x.w in ("got", "get", "gets", "going", "go"))
        ):
            return True
        if x.label == "w" and x.w in _AUX:
            return True
        if x.label in ("w", "filler", "pronoun", "approx") and x.w in (
            "to",
            "and",
            "be",
            "just",
            "also",
            "only",
            "it",
            "them",
            "go",
            "already",
            "been",
            "still",
            "all",
        ):
            continue
        return False
    return False


def _passive_subject(marks: list[Mark]) -> list[Mark]:
    """ "and the spare is" at the end of the marks, the subject of a verb to come; empty where none stands there."""
    if len(marks) < 4 or marks[-1].w not in ("is", "was", "are", "were") or marks[-2].label != "w":
        return []
    for k in (len(marks) - 3, len(marks) - 4):
        if (
            k > 0
            and marks[k].w in ("the", "a", "that", "this", "its", "her")
            and marks[k - 1].w in ("and", "so", "then", "but")
        ):
            return marks[k - 1 :] if _done(marks[: k - 1]) else []
    return []


def _passive(row: list[Mark], i: int) -> bool:
    return False


def _governs_end(marks: list[Mark]) -> bool:
    return False


def _lead_nouns(marks: list[Mark]) -> list[Mark]:
    """The noun just before a verb is its subject ("… | the feeder came off")."""
    k = len(marks)
    things = ("item", "agent", "form", "feed", "queen_noun", "number")
    articles = (
        "the",
        "a",
        "an",
        "all",
        "their",
        "its",
        "those",
        "these",
        "my",
        "our",
        "still",
        "never",
        "they",
        "i",
        "we",
    )
    while k > 0 and (
        marks[k - 1].label
        in ("item", "agent", "form", "feed", "pronoun", "every", "rest", "queen_noun", "approx", "number")
        or (marks[k - 1].label == "w" and marks[k - 1].w in articles)
    ):
        k -= 1
        if k > 0 and marks[k].label == "item" and marks[k - 1].label == "item":
            break  # "just a super | beetle traps went in"
        if (
            marks[k].w in ("the", "those", "these", "my", "our", "their", "its")
            and k > 0
            and marks[k - 1].label
            in (
                *things,
                "cols",
            )
        ):
            break  # "gave us nine supers | the excluders come off"
    if k == len(marks):
        k = _with_origin(marks)
    tail = marks[k:]
    if not (_done(marks[:k]) or _has_verb(marks[:k])):
        return []
    if (
        k > 1
        and marks[k - 1].label == "date"
        and (marks[k - 2].label in ("comma", "filler") or marks[k - 2].w == "and")
    ):
        k -= 2  # "… and today | the fondant went on"
    return marks[k:] if tail else []


def _with_origin(marks: list[Mark]) -> int:
    """Where a thing with its origin begins ("the cells off the last batch") ending the marks; else their length."""
    for k in range(len(marks) - 1, max(0, len(marks) - 6), -1):
        if marks[k].label in ("queen_noun", "item", "agent", "form", "feed"):
            if k + 1 < len(marks) and marks[k + 1].w in ("off", "of", "from"):
                return k - 1 if marks[k - 1].w in ("the", "those", "these") else k
            break
        if marks[k].label != "w":
            break
    return len(marks)


def _with_lead(marks: list[Mark], tail: list[Mark]) -> list[Mark]:
    """The glue before a verb, with a date or a noun that stands between the glue and the verb."""
    return tail


def _with_prep(marks: list[Mark]) -> list[Mark]:
    k = len(marks)
    while k > 0 and (
        (
            marks[k - 1].label == "w"
            and marks[k - 1].w
            in (
                "at",
                "in",
                "to",
                "the",
                "from",
                "over",
                "on",
                "for",
                "of",
                "then",
                "and",
                "out",
                "up",
                "down",
                "around",
                "@",
                "i",
                "we",
            )
        )
        or marks[k - 1].label in ("comma", "filler")
    ):
        k -= 1
    return marks[k:]


def _with_count(marks: list[Mark], tail: list[Mark]) -> list[Mark]:
    """The tail with "and" and a number before it ("lost five at cut bank | and two at wens")."""
    k = len(marks) - len(tail)
    counted = k > 1 and marks[k - 1].label in ("number", "amount") and marks[k - 2].w == "and"
    return marks[k - 2 :] if counted else tail


def _with_number(marks: list[Mark], tail: list[Mark]) -> list[Mark]:
    k = len(marks)
    while k > 0 and (
        marks[k - 1].label in ("number", "filler", "comma", "approx", "ordinal", "cue", "person")
        or (
            marks[k - 1].label == "w"
            and (
                marks[k - 1].w in GLUE_WORDS
                or marks[k - 1].w in ("a", "an", "the", "another", "some", "no", "its", "their", "with")
            )
        )
    ):
        k -= 1
    return marks[k:]


def _sentence_change(marks: list[Mark]) -> bool:
    return any(
        x.label == "change" and x.v.get("step") in ("moved", "combined", "sold", "bought", "nuc_made", "split")
        for x in marks
    ) and not any(x.label == "yard" and x.v.get("to") for x in marks)


def _yard_leads(row: list[Mark], i: int) -> bool:
    """Whether the yard is the subject of what follows ("larks gets …", "cut bank: …")."""
    if i + 1 >= len(row):
        return False
    q = row[i + 1]
    return (
        q.w in (":", "=", "-", "–")
        or q.label == "change"
        or (q.label == "verb" and q.v.get("tense") in ("base", "past") and q.w in ("gets", "get", "got", "made"))
        or (q.label == "w" and q.w in ("needs", "got", "has", "had", "is", "was"))
        or (q.label == "cue" and q.v.get("cue") == "plan")
    )


def _at_colonies(row: list[Mark], i: int, cur: Statement, cols: list[Mark], start) -> None:  # type: ignore[no-untyped-def]
    m = row[i]
    marks = cur.marks
    governed = _governed(marks, m)
    if (
        not cols
        and not _done(marks)
        and not governed
        and marks[-1].w in ("and", "that")
        and _predicate_follows(row, i)
        and (any(x.label == "date" for x in marks))
    ):
        start(_glue_tail(marks))  # "cut the boards by friday and that | hive three is a dead out"
        return
    if (
        not cols
        and marks[-1].w in ("that's", "thats")
        and _done(marks)
        and any(x.label in ("item", "agent", "form", "feed") for x in marks)
    ):
        return  # "reducers on that's one through eighteen"
    if (
        not cols
        and not governed
        and not _done(marks)
        and marks[-1].label == "w"
        and marks[-1].w not in _GOVERNORS
        and any(x.label == "cue" and x.v.get("cue") in ("not", "ask") for x in marks[:-1])
        and (_predicate_follows(row, i) or _person_follows(row, i))
    ):
        start(_header_tail(marks))  # "… which I did not see coming | fifty six had seven"
        return
    if not cols:
        if governed and cur.led and _done(marks) and _particle_ends(marks) and _predicate_follows(row, i):
            start([])  # "hive six put a super on | hive nine is strong"
            return
        if governed or not _done(marks):
            return
        nxt = row[i + 1] if i + 1 < len(row) else None
        late = nxt is None or nxt.label in ("stop", "line", "comma", "filler", "date", "question")
        if (
            late
            and any(x.label in ("item", "agent", "form", "feed", "queen_work") for x in marks)
            and not any(x.label in ("every", "hives", "fact", "mites", "value") for x in marks)
            and marks[-1].label != "filler"
        ):
            return  # "supers on at the ferry, 1 each, F1-F3 and F5-F8"
        last_head = next((x for x in reversed(marks) if x.label in HEADS), None)
        if (
            last_head is not None
            and last_head.label == "change"
            and last_head.v.get("step") in ("nuc_made", "split", "sold", "bought", "swarm_caught", "moved")
            and not (_glue_tail(marks) and _predicate_follows(row, i))
            and not (marks[-1].label == "filler" and _other_number(marks, len(m.v["ids"])))
        ):
            return
        if (
            any(x.label == "queen_work" for x in marks)
            and not any(x.label in ("fact", "mites", "value") for x in marks)
            and not _glue_tail(marks)
            and marks[-1].label != "pronoun"
            and not _predicate_follows(row, i)
            and not (marks[-1].label == "queen_work" and marks[-1].w.split()[-1] in ("her", "it", "them", "queen"))
        ):
            return
        if (
            marks[-1].label in ("round", "agent", "form", "each", "unit", "days")
            and not _predicate_follows(row, i)
            and not any(x.label in ("fact", "mites", "value", "verb", "cue", "every", "hives", "yard") for x in marks)
        ):
            return  # "oxalic vapour, round 2, L1-L14, 2 g"
        start(_header_tail(marks))
        return
    if marks[-1].label == "same" and not _points_on(marks[-1]) and _predicate_follows(row, i):
        start([])  # "seventy one same thing | seventy three has ten"
        return
    if (
        marks[-1].label == "yard"
        and marks[-len(_with_prep(marks[:-1])) - 2 : -1][:1] == cols[-1:]
        and _predicate_follows(row, i)
    ):
        start([])  # "strips out of hive five at the quarry | hive six still has hers"
        return
    if _relates(marks, m, row, i):
        return
    if governed and _person_follows(row, i) and (lead := _prep_lead(marks)):
        start(lead)  # "a box on top and | out of l four i took three frames"
        return
    if governed:
        subject_next = _predicate_follows(row, i) and cols and not _governed(marks[: marks.index(cols[0])], cols[0])
        tail = _governing_tail(marks)
        if subject_next and marks[-1].label == "w" and marks[-1].w in ("on", "in", "off", "out"):
            start([])
            return
        start(tail)
        return
    start(_header_tail(marks))


def _prep_lead(marks: list[Mark]) -> list[Mark]:
    """The prepositions at the end of the marks with the joining word before them; empty where no such word is."""
    k = len(marks)
    while k > 0 and marks[k - 1].label == "w" and marks[k - 1].w in _GOVERNORS:
        k -= 1
    if k < len(marks) and k > 0 and (marks[k - 1].label in ("filler", "comma") or marks[k - 1].w in ("and", "then")):
        return marks[k - 1 :]
    return []


def _other_number(marks: list[Mark], ids: int) -> bool:
    """Whether a number of hives was said that is not the number of ids ("moved ten hives … um | l three stayed")."""
    return any(x.label == "hives" and "n" in x.v and x.v["n"].value != ids for x in marks)


def _person_follows(row: list[Mark], i: int) -> bool:
    """Whether "I" or "we" follows ("twelve I saw the queen")."""
    return i + 1 < len(row) and row[i + 1].w in ("i", "we")


def _first_word(marks: list[Mark]) -> str:
    """The first word that is no filler, sign or joining word."""
    return next(
        (m.w for m in marks if m.label not in ("filler", "comma") and m.w not in BULLETS and m.w not in GLUE_WORDS), ""
    )


def _points_on(same: Mark) -> bool:
    """Whether "same for", "same as" names what comes after it; a bare "same thing" looks back only."""
    return same.w.split()[-1] in ("for", "as", "with", "in", "on", "at", "into", "to", "w", "four")


def _predicate_follows(row: list[Mark], i: int) -> bool:
    k = i + 1
    while (
        k < len(row)
        and row[k].label == "w"
        and row[k].w in ("up", "over", "down", "here", "there", "out", "also", "still", "just")
    ):
        k += 1
    q = row[k] if k < len(row) else None
    return q is not None and (
        q.label in ("fact", "change", "clean", "mites", "queen_work", "value")
        or (q.label == "cue" and q.v.get("cue") in ("plan", "not"))
        or (q.label == "verb" and q.w.split()[0] in ("gets", "get", "got", "took", "went"))
        or (q.label == "w" and q.w in ("still", "'s", "are", "were"))
        or (q.label == "w" and q.w in ("had", "has", "is", "was", "got", "looks", "needs", "swarmed", ":", "="))
    )


def _relates(marks: list[Mark], m: Mark, row: list[Mark], i: int) -> bool:
    """Whether this second group of colonies is the other side of the first ("combined 76 into 77", "same as 42")."""
    p = marks[-1]
    if p.w in ("into", "with") and all(
        x.label in ("cols", "comma", "hive") or x.w in ("and", "then", "into", "with") for x in marks
    ):
        return True  # "and 79 into | 77"
    change = [x for x in marks if x.label == "change"]
    if p.label == "same" or (p.label == "cue" and p.v.get("cue") == "except"):
        return True
    if p.label == "cue" and p.v.get("cue") == "correct":
        return True
    if change:
        steps = {x.v.get("step") for x in change}
        if (p.w == "and" or p.label == "comma") and i + 1 < len(row) and row[i + 1].w in ("into", "with"):
            return False  # "split 45 into 58 and | 46 into 59"
        if p.label == "w" and p.w in (
            "into",
            "with",
            "to",
            "onto",
            "on",
            "in",
            "as",
            "called",
            "now",
            "from",
            "of",
            "out",
            "is",
            "make",
            "over",
            "under",
            "atop",
            "and",
            "for",
            "named",
            "becomes",
            "are",
        ):
            if steps & {"combined", "moved", "split", "nuc_made"}:
                return True
        if steps & {"nuc_made", "split"} and p.label in (
            "comma",
            "yard",
            "filler",
            "w",
            "verb",
            "noun",
            "hives",
            "cols",
        ):
            return p.label != "filler" or steps == {"nuc_made"}
        if (
            steps & {"sold", "bought", "swarm_caught"}
            and not _predicate_follows(row, i)
            and p.label in ("comma", "filler", "noun", "date")
        ):
            return True
    return bool(
        p.label == "w" and p.w == "from" and any(x.label == "item" and x.v.get("item") == "brood_frame" for x in marks)
    )


def _header_tail(marks: list[Mark]) -> list[Mark]:
    """What stands at the end of a statement but speaks of the colony that follows: joining words, a method, a day."""
    k = len(marks)
    method_at = None
    while k > 0 and (
        marks[k - 1].label
        in ("method", "sample", "date", "days", "each", "comma", "filler", "yard", "hive", "approx", "person")
        or (
            marks[k - 1].label == "w"
            and (
                marks[k - 1].w in GLUE_WORDS
                or marks[k - 1].w in ("from", "on", "of", "at", "the", "in", "for", "my", "our", "by", ":")
            )
        )
    ):
        k -= 1
        if marks[k].label == "method":
            method_at = k
    if (
        method_at
        and marks[method_at - 1].label == "w"
        and marks[method_at - 1].w in ("a", "the", "in", "by", "with", "of")
        and any(x.w in ("in", "by", "with", "from") for x in marks[max(0, method_at - 2) : method_at])
    ):
        method_at = None  # "two mites in a soap wash": the method of the count before it
    if method_at and _done(marks[:method_at]):
        while method_at > 0 and (
            marks[method_at - 1].label in ("comma", "filler")
            or marks[method_at - 1].w in GLUE_WORDS
            or marks[method_at - 1].w in ("the", "a", "did")
        ):
            method_at -= 1
        return marks[method_at:]
    k = len(marks)
    while k > 0:
        x = marks[k - 1]
        if (
            x.label in ("comma", "filler", "person", "clock", "heading", "hive")
            or (
                x.label == "pronoun"
                and k > 1
                and (marks[k - 2].label in ("comma", "filler") or marks[k - 2].w in GLUE_WORDS)
            )
            or (
                x.label == "w"
                and (
                    x.w in GLUE_WORDS
                    or x.w in ("in", "at", "the", "a", "on", "for", "still", "now", "here", "there", "down", "over")
                    or (x.w == "to" and k > 1 and marks[k - 2].w in ("down", "up"))
                )
            )
            or (
                x.label in ("method", "sample")
                and k - 1 > 0
                and (marks[k - 2].label in ("comma", "filler", "sample") or marks[k - 2].w in GLUE_WORDS)
            )
            or (
                x.label == "yard"
                and k - 1 > 0
                and (
                    marks[k - 2].label in ("filler", "comma")
                    or marks[k - 2].w in GLUE_WORDS
                    or (
                        marks[k - 2].w in ("at", "in", "from")
                        and k > 2
                        and (marks[k - 3].label in ("filler", "comma") or marks[k - 3].w in GLUE_WORDS)
                    )
                )
            )
            or (
                x.label == "date"
                and k - 1 > 0
                and (
                    marks[k - 2].label in ("filler", "comma")
                    or marks[k - 2].w in GLUE_WORDS
                    or any(y.label == "date" for y in marks[: k - 1])
                )
            )
        ):
            k -= 1
        else:
            break
    return marks[k:]


def _value_first(marks: list[Mark], at: int) -> bool:
    """Whether the count at `at` is of the colony that comes ("three mites on 13 and | one on 14")."""
    counted = ("mites", "value", "clean", "percent")
    last = max(k for k, x in enumerate(marks) if x.label == "cols")
    if last > at:
        return False
    if sum(1 for x in marks[last:] if x.label in counted) >= 2:
        return True
    if (
        at == len(marks) - 2
        and marks[at].label == "mites"
        and marks[-1].w in ("on", "in", "for", "from", "under")
        and len(marks[last].v["ids"]) > 1
    ):
        return True  # "boards under 29 and 30 for three days: fifty mites on | 30"
    return any(x.label in counted for x in marks[:last]) and _governed(marks[:last], marks[last])


def _governing_tail(marks: list[Mark]) -> list[Mark]:
    """The words at the end of a statement that govern the colony that follows."""
    k = len(marks)
    heads = verbs = words = 0
    while k > 0:
        x = marks[k - 1]
        if x.label == "cols":
            break
        if (
            x.label == "yard"
            and k > 1
            and marks[k - 2].w in ("at", "in", "the")
            and any(y.label == "cols" for y in marks[max(0, k - 4) : k - 1])
        ):
            break  # "out of hive eight at the pond … | while I was in eight"
        if x.label in ("mites", "value", "clean", "percent"):
            if heads or verbs or not _value_first(marks, k - 1):
                break
            heads += 1
            k -= 1
            continue
        if x.label in ("comma", "filler") or (x.label == "w" and x.w in ("and", "then", "so", "but", "also", "plus")):
            if heads or verbs or words:
                k -= 1 if x.label != "comma" else 0
                break
            k -= 1
            continue
        words += x.label == "w" and x.w.isalpha() and x.w not in GLUE_WORDS and x.w not in _TAIL_OK and x.w not in _AUX
        if x.label in HEADS:
            if x.label == "fact" and heads:
                break
            heads += 1
        if _is_verb(x):
            verbs += 1
        if x.label in ("date", "days", "each", "yard", "every") and not (heads or verbs):
            k -= 1
            continue
        if x.label in ("each", "days", "yard", "every") and (heads or verbs):
            break
        if x.label == "w" and x.w not in _TAIL_OK and x.w not in GLUE_WORDS and (heads or verbs):
            break
        k -= 1
        if verbs and x.label in ("cue", "person"):
            break
    return marks[k:]
