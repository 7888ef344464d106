"""Where does one statement end and the next begin? The row of marks → statements.

Full stops and new lines part statements for sure. In a stream without them a new statement begins at a
new colony that nothing before it governs ("… two mites | fourteen had none"), at a verb of work or a
cue ("didn't", "need to") once the statement before is complete, and, where a colony is governed ("put a
wrap on l one"), at the words that govern it. A statement has one group of colonies at most.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fieldnotes.reader.group import BULLETS
from fieldnotes.reader.grouping.row import NEW_TOPIC
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.parting.about import AUX, GLUE_WORDS, GOVERNORS, LONGEST_STATEMENT, ORDERS, done, led
from fieldnotes.reader.parting.at_yards import NEXT_PLACE
from fieldnotes.reader.parting.deciding import new_statement
from fieldnotes.reader.parting.place import Place
from fieldnotes.reader.parting.statement import HEADS, Statement

__all__ = ["HEADS", "ORDERS", "Statement", "split"]

_STRONG = frozenset("then so but also because cause since while".split())
_KEEP_BOUNDARY = frozenset(["w", "person", "pronoun", "approx", "date", "yard"])
"""Labels after which the boundary passed before them still counts, of plain words only those that follow."""
_SMALL_WORDS = GOVERNORS | {"all", "the", "a", "an", "this", "that", "it", "my", "our", "been"}
_ADVERBS = AUX | {"still", "never", "already", "later", "somebody", "someone", "back", "saw", "noticed"}


@dataclass(slots=True)
class _Open:
    """The statements so far and the one that is being filled.

    `soft` is the boundary word or sign just passed, `strong` tells whether it parts statements by itself.
    """

    done: list[Statement] = field(default_factory=list)
    cur: Statement = field(default_factory=Statement)
    line: int = 0
    sentence: int = 0
    soft: Mark | None = None
    strong: bool = False

    def close(self, opens: str) -> None:
        """Ends the statement for sure, at a stop or a new line."""
        if self.cur.marks:
            self.done.append(self.cur)
        self.cur = Statement(opens=opens, line=self.line, sentence=self.sentence)
        self.soft, self.strong = None, False

    def start(self, tail: list[Mark]) -> None:
        """Begins a new statement with `tail`, taken off the end of the one before."""
        cur = self.cur
        if tail:
            cur.marks = cur.marks[: len(cur.marks) - len(tail)]
        if cur.marks:
            self.done.append(cur)
            self.cur = Statement(opens="soft", line=self.line, sentence=self.sentence, bullet=cur.bullet, led=led(cur))
        self.cur.marks = list(tail)
        self.soft, self.strong = None, False

    def part_guess(self) -> None:
        """ "N2 no queen, no eggs, virgin?": what was seen is told, and only what stands last is asked."""
        marks = self.cur.marks
        k = next((k for k in range(len(marks) - 1, 0, -1) if marks[k].label == "comma"), 0)
        guess, told = marks[k + 1 :], marks[:k]
        if not k or len(guess) > _GUESS or any(m.label not in ("fact", "queen_noun", "approx") for m in guess):
            return
        before = self.done[-1].marks if self.done and self.done[-1].sentence == self.sentence else []
        if not any(m.label == "cols" for m in (*told, *before)):
            return
        if not any(m.label in ("fact", "change", "queen_noun") for m in told):
            return
        if any(m.label in ("cue", "verb", "person") or m.w in AUX for m in told):
            return
        self.cur.marks = told
        self.sentence += 1
        self.close("stop")
        self.cur.marks = list(guess)

    def ask(self) -> None:
        """A question mark: what its sentence holds is asked."""
        self.cur.asked = True
        for back in reversed(self.done):
            if back.sentence != self.sentence:
                break
            back.asked = True


def split(row: list[Mark]) -> list[Statement]:
    """The statements of a message, in order."""
    now = _Open()
    for i, m in enumerate(row):
        if m.label == "line":
            now.line += 1
            now.sentence += 1
            now.close("line")
            now.cur.blank_before = m.w == "¶¶"
            if i + 1 < len(row) and row[i + 1].w in BULLETS:
                now.cur.bullet = True
        elif m.label in ("stop", "question"):
            if _after_initial(row, i):
                continue
            if m.label == "question" and _suspected(now.cur) and not (i + 1 < len(row) and row[i + 1].w in _NO):
                m.label, m.w = "comma", ","
                _take(now, row, i)
                continue
            if m.label == "question":
                now.part_guess()
                now.ask()
            now.sentence += 1
            now.close("stop")
        elif m.w in BULLETS and not now.cur.marks:
            now.cur.bullet = True
            now.cur.marks.append(m)
        else:
            _take(now, row, i)
    now.close("stop")
    said = [s for s in now.done if any(m.label not in ("comma", "filler") for m in s.marks)]
    for s in said:
        s.seal()
    return said


_GUESS = 2
"""Marks of a guess at most."""
_NO = frozenset(["no", "nope", "nah", "not"])
_DISEASES = frozenset(["afb", "efb"])


def _suspected(s: Statement) -> bool:
    """ "AFB? ropy in 40": a disease and no more before the question mark: it is suspected, and nobody is asked."""
    named = any(m.label == "fact" and m.v.get("sign") in _DISEASES for m in s.marks)
    return named and all(
        m.label in ("fact", "cols", "yard", "comma", "filler") or m.w in ("in", "at", ":", "and") for m in s.marks
    )


_TO_PLACE = frozenset("at over in down up out the then now so and um uh to we're i'm".split())


_WORDS_TO_PLACE = 6
"""How far ahead the place of what is told next is looked for."""


def _yard_ahead(row: list[Mark], i: int) -> bool:
    """Whether the name of a yard comes straight after the filler at `i`, small words passed over."""
    for k in range(i + 1, min(len(row), i + _WORDS_TO_PLACE)):
        if row[k].label == "yard":
            return all(m.label in ("filler", "date") or m.w in _TO_PLACE for m in row[i + 1 : k]) or (
                row[k - 1].w in ("at", "from", "in") and row[i + 1].w not in ("at", "from", "in")
            )
        if row[k].label in ("cols", "stop", "line", "number", "each", "change"):
            return False
    return False


def _after_initial(row: list[Mark], i: int) -> bool:
    """Whether the full stop only ends a letter that stands for a name ("J. came by")."""
    if row[i].w != "." or not 0 < i < len(row) - 1:
        return False
    before = row[i - 1]
    return before.label == "w" and before.w.isalpha() and (len(before.w) == 1 or before.w in _TITLES)


_TITLES = frozenset(["mr", "mrs", "ms", "dr"])


def _take(now: _Open, row: list[Mark], i: int) -> None:
    """Takes the mark into the statement, or into a new one where one begins here."""
    m = row[i]
    if m.label in ("comma", "filler") or (m.label == "w" and m.w in GLUE_WORDS):
        if m.label == "filler" and m.w in NEW_TOPIC:
            if any(x.label == "cue" and x.v.get("cue") == "ask" for x in now.cur.marks):
                now.start([])  # "who left the lid off | anyway it's fine, queen seen"
        if m.label == "filler" and m.w in NEXT_PLACE and _yard_ahead(row, i) and done(now.cur.marks):
            now.start([])  # "frost in the shade | okay quarry road alcohol wash …"
        now.soft = m
        if m.label == "filler" and now.cur.marks and now.cur.marks[-1].w == "which":
            now.soft = None  # "except nine which um is dead"
        elif m.label in ("filler", "comma") or m.w in _STRONG:
            now.strong = True
        if len(now.cur.marks) >= LONGEST_STATEMENT:
            now.start([])
        now.cur.marks.append(m)
        return
    if len(now.cur.marks) >= LONGEST_STATEMENT:
        now.start([])
    marks = now.cur.marks
    # a plain word begins none without a boundary before it, but for an order ("bring the drill")
    if marks and (m.label != "w" or now.soft is not None or m.w in ORDERS):
        after = row[i + 1] if i + 1 < len(row) else None
        tail = new_statement(Place(row, i, m, after, now.cur, marks, now.soft, now.strong))
        if tail is not None:
            now.start(tail)
    now.cur.marks.append(m)
    if m.label not in _KEEP_BOUNDARY or (m.label == "w" and m.w not in _SMALL_WORDS and m.w not in _ADVERBS):
        now.soft, now.strong = None, False
