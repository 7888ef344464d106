"""Statements → records: place, day and state for what the frames understood, and what is carried on.

What no frame took becomes leftovers (in `leftovers`); what is in doubt becomes a question.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from fieldnotes.reader import frames
from fieldnotes.reader.assertion import Stance, cues, take_stance, tense
from fieldnotes.reader.clause import HEADS, Statement
from fieldnotes.reader.group import BULLETS
from fieldnotes.reader.hear import common_words, speech
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.outfit import Outfit
from fieldnotes.reader.scope import WHOLE_YARD, Draft, Held, Place, settle_ids
from fieldnotes.reader.topic import lend_topics

_WHOLE_YARD = frozenset(["treatment", "gear", "feed"])
_TODO_VERBS = frozenset(
    (
        "pick charge mow load "
        "bring order call ring fix mend buy fetch remember return sharpen paint replace repair pay tell email phone"
    ).split()
)
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
_EMPTY_TODO = frozenset(
    ("do it that them this check see there be go get you me us so the a then out to know say tell let one").split()
)
"""Words that make no promise by themselves ("I'll do it")."""


_OWN_SLOTS = frozenset("yard colonies every_colony except_colonies colony_count state on on_until by".split())
"""Slots that each record takes from its own statement: where, when, by whom and how meant."""
_LEDGERS = frozenset("ledger card log sheet record history diary page book".split())
"""Words of a line that heads what was done to one colony."""
_AT_A_HIVE = frozenset("marked clipped introduced released removed requeened cells_placed".split())
"""Queen work that is always done at some colony."""
LOOK_BACK = 300
"""How many records back a statement can refer to."""
NEAR = 60
"""How many statements back a statement can go on with."""


@dataclass(slots=True)
class Thread:
    """What is carried along a note: what holds for each sender, and the records so far."""

    outfit: Outfit
    held: dict[str | None, Held] = field(default_factory=dict)
    drafts: list[Draft] = field(default_factory=list)
    last_treatment: Draft | None = None
    statements: int = 0
    questions: list[tuple[Draft | None, str, list[str], str, str]] = field(default_factory=list)
    used: list[tuple[int, int]] = field(default_factory=list)

    def lately(self, first: int = 0) -> list[Draft]:
        """The records made last, none before the index `first`: looking back must not take longer as a note goes on."""
        return self.drafts[max(first, len(self.drafts) - LOOK_BACK) :]

    def place_of(self, draft: Draft) -> int:
        """The index of that very record."""
        return next(k for k in range(len(self.drafts) - 1, -1, -1) if self.drafts[k] is draft)

    def of(self, sender: str | None) -> Held:
        """What holds for that sender."""
        return self.held.setdefault(sender, Held())


class _Message:
    """One message being read."""

    def __init__(
        self, thread: Thread, statements: list[Statement], today: date, sender: str | None, correcting: bool
    ) -> None:
        self.thread = thread
        self.outfit = thread.outfit
        self.held = thread.of(sender)
        if not self.held.waiting:
            self.held.method = self.held.bees = self.held.board_days = None
        self.held.titled = False
        self.held.day = None
        self.today = today
        self.sender = sender
        self.statements = statements
        self.correcting = correcting
        self.first_draft = len(thread.drafts)
        self.hemisphere = thread.outfit.roster.hemisphere
        self.last_person: tuple[Mark, int] | None = None
        self.who_checked: tuple[Mark, int] | None = None
        self.before: Statement | None = None
        self.headed: list[str | None] = []
        self.who_did: Mark | None = None
        self.head_cols: dict[str, Any] | None = None
        self.actor: tuple[Mark, int] | None = None
        self.line_day: tuple[int, tuple[date, date]] | None = None

    def read(self) -> None:
        lend_topics(self.statements)
        self.headed = self._headings()
        stances = [
            take_stance(s, self.today, self.hemisphere, heading)
            for s, heading in zip(self.statements, self.headed, strict=True)
        ]
        self._spread(stances)
        for i, (statement, stance) in enumerate(zip(self.statements, stances, strict=True)):
            self.thread.statements += 1
            self.before = self.statements[i - 1] if i else None
            self._statement(i, statement, stance, stances)
        self._drop_announced()

    def _drop_announced(self) -> None:
        """ "did a wash on two and sixteen … two was one, sixteen six": a check announced is no record of its own."""
        counted: set[str] = set()
        announced = []
        for d in self.thread.lately(self.first_draft):
            if d.kind != "mite_check" or d.slots.get("state", "done") != "done":
                continue
            if {"mites", "per_100"} & set(d.slots):
                counted.update(d.slots.get("colonies", []))
            elif d.slots.get("colonies"):
                announced.append(d)
        for d in announced:
            ids = d.slots["colonies"]
            number = "".join(c for c in ids[0] if c.isdecimal())
            if set(ids) <= counted or (len(ids) == 1 and number == str(len(counted))):  # "washed three today, L4 1, …"
                self.thread.used += d.spans
                self.thread.drafts.remove(d)

    def _headings(self) -> list[str | None]:
        """The state that the headings so far give to each statement; a heading with more behind it, to itself only."""
        found: list[str | None] = []
        holds: str | None = None
        for s in self.statements:
            heading = s.first("heading") if s.opens == "line" and not s.bullet else None
            if heading is not None and not s.has_head:
                holds = str(heading.v["state"])
            found.append(str(heading.v["state"]) if heading is not None else holds)
        return found

    def _spread(self, stances: list[Stance]) -> None:
        """What an "if" or a plan does to its neighbours in the same sentence."""
        s = self.statements
        for i, stance in enumerate(stances):
            if stance.state == "conditional" and stance.condition_only:
                after = i + 1
                while (
                    after < min(len(s), i + NEAR)
                    and s[after].sentence == s[i].sentence
                    and not s[after].has_head
                    and not s[after].has("pronoun", "verb")
                ):
                    after += 1
                planned_before = (
                    i > 0
                    and s[i].opens == "soft"
                    and s[i - 1].sentence == s[i].sentence
                    and stances[i - 1].state == "planned"
                    and s[i - 1].has("agent", "form", "item", "feed")
                    and not (after < len(s) and s[after].has("agent", "form", "item", "feed", "queen_work", "change"))
                )
                if (
                    after < len(s)
                    and not planned_before
                    and s[after].sentence == s[i].sentence
                    and stances[after].state in ("done", "planned", "not_done")
                    and (tense(s[after]) != "past" or cues(s[after], "plan") or self._either_tense(s[after]))
                ):
                    stances[after].state = "conditional"
                    continue
                before = i - 1
                if (
                    before >= 0
                    and s[before].sentence == s[i].sentence
                    and (
                        stances[before].state == "planned"
                        or (
                            stances[before].state == "done"
                            and tense(s[before]) == ""
                            and s[before].has("agent", "form", "item", "feed")
                            and any(m.w == "for" for m in s[before].marks)
                        )
                    )
                ):
                    stances[before].state = "conditional"  # "oxalic for S9 if it doesn't come down"
            if (
                i
                and stance.state == "done"
                and stances[i - 1].state in ("planned", "not_done", "conditional")
                and s[i - 1].sentence == s[i].sentence
                and self._shares_cue(s[i - 1], s[i])
            ):
                stance.state = stances[i - 1].state
                if stance.said is None and stance.state == "planned":
                    stance.carried = stances[i - 1].when
            if (
                i
                and stances[i - 1].asked
                and s[i].opens == "soft"
                and s[i].sentence == s[i - 1].sentence
                and not stance.asked
            ):
                lead = list(s[i].marks[:3])
                if any(m.w in ("or", "and") for m in lead[:1]) and not s[i].has("cols"):
                    stance.asked = True

    @staticmethod
    def _either_tense(s: Statement) -> bool:
        """ "if 9 is over two percent | we put strips in": "put" is no past tense here."""
        return any(
            m.label == "verb" and m.w in ("put", "set", "hit") and k and s.marks[k - 1].w in ("i", "we", "they")
            for k, m in enumerate(s.marks)
        )

    @staticmethod
    def _shares_cue(before: Statement, s: Statement) -> bool:
        """ "need to pull strips from 4 and put supers on 5": one cue for both."""
        if s.opens != "soft" or not s.marks:
            return False
        lead = []
        for m in s.marks:
            if m.label in ("comma", "filler") or (m.label == "w" and m.w in ("and", "then", "also", "plus", "or")):
                lead.append(m)
                continue
            break
        if not lead or any(m.label == "filler" for m in lead):
            return False
        if (
            any(m.w == "then" for m in lead)
            and s.has("agent", "form", "item", "feed")
            and not s.has("verb", "date", "cols")
        ):
            return True
        rest = s.marks[len(lead) :]
        if not rest:
            return False
        first = rest[0]
        plan_base = any(m.label == "cue" and m.v.get("cue") == "plan" for m in before.marks)
        if first.label == "verb":
            return (
                first.w.split()[0] in ("put", "set", "hit", "split", "get", "give", "add", "take", "pull", "feed", "do")
                and plan_base
            )
        return (
            first.label in ("agent", "form", "item", "feed", "number")
            and any(m.w in ("and", "or") for m in lead)
            and not s.has("verb")
            and plan_base
            and all(m.label != "comma" for m in lead)
        )

    # -- one statement ---------------------------------------------------------------------------------------------

    def _statement(self, i: int, s: Statement, stance: Stance, stances: list[Stance]) -> None:
        held, thread = self.held, self.thread
        self._days_of_board(s, stance)
        if stance.asked:
            return
        yards = s.all("yard")
        for person in s.all("person"):
            self.last_person = (person, s.sentence)
        self._hold_yard(s, yards)
        self._focus(s)
        if s.topic:
            if stance.when is not None and s.has("date"):
                held.day = stance.when
            thread.used += [(m.s, m.e) for m in s.marks if m.label not in ("w", "comma", "filler")]
            self.thread.last_treatment = frames.treatment(s, None) or self.thread.last_treatment
            return
        if self._place_only(s):
            date_mark = s.first("date")
            if (
                s.opens == "line"
                and not s.bullet
                and date_mark is not None
                and self._whole_line(i)
                and stance.when is not None
                and not stance.when[0] < self.today < stance.when[1]  # "this week", "August": no day of its own
            ):
                said = date_mark.v["value"]
                held.day = stance.when
                if said.form == "weekday" and said.args[1] == "plain" and said.args[0] == self.today.weekday():
                    held.day = (self.today, self.today)  # a heading "Sunday" over notes sent on a Sunday
                thread.used.append((date_mark.s, date_mark.e))
            if s.opens == "line" and not s.bullet:
                held.cols = None
                if s.has("yard") and not s.has("method") and s.blank_before and not held.titled:
                    held.method = held.bees = None
            for m in s.all("yard", "heading"):
                thread.used.append((m.s, m.e))
        if stance.condition_only:
            self._note_cols(i, s)
            return
        self._day_of_line(s, stance)
        self._over_lines(i, s, stance)
        drafts = self._drafts(i, s, stance)
        self._but_not_there(i, s, stance, drafts)
        self._todo(i, s, stance, drafts, stances)
        self._note_cols(i, s)

    def _but_not_there(self, i: int, s: Statement, stance: Stance, drafts: list[Draft]) -> None:
        """ "put a super on 9 but not on 12": what was done to the one was not done to the other."""
        others = [m for m in s.all("cols") if self._is_exception(s, m)]
        if not others or len(s.all("cols")) == len(others) or stance.state != "done":
            return
        for d in drafts:
            if d.kind not in ("gear", "treatment", "feed") or d.slots.get("every_colony"):
                continue
            keep = ("agent", "form", "product", "step", "item", "feed", "ratio")
            copy = Draft(d.kind, {k: v for k, v in d.slots.items() if k in keep}, [], dict(d.why))
            copy.spans += [(m.s, m.e) for m in (*others, *cues(s, "except"))]
            ids, yard = settle_ids(list(others[0].v["ids"]), self.held.yard, self.outfit)
            undone = Stance("not_done", said=stance.said, today=stance.today, hemisphere=stance.hemisphere)
            self._finish(i, s, undone, copy, Place(yard, ids))

    def _over_lines(self, i: int, s: Statement, stance: Stance) -> None:
        """What a line over others holds for them: one colony ("Quarry, hive 3 ledger"), a day ("Soap washes, Monday"),
        who did it ("Quarry - Dov did these").
        """
        if s.opens != "line":
            return
        nxt = self.statements[i + 1] if i + 1 < len(self.statements) else None
        below = nxt is not None and nxt.line > s.line
        if s.has("cols") or s.blank_before or (s.has("yard") and not s.has_head):
            self.head_cols = None
        if s.has("yard"):
            self.who_did = None
        words = {m.w for m in s.marks if m.label == "w" and m.w.isalpha()}
        alone = len(s.all("cols")) == 1 and all(
            m.label in ("cols", "yard", "comma", "hive") or not m.w.isalnum() for m in s.marks
        )
        alone = alone and (s.all("cols")[0].v.get("hive", False) or s.has("hive"))
        if (
            below
            and nxt is not None
            and s.has("cols")
            and not s.has_head
            and not nxt.has("cols")
            and (words & _LEDGERS or alone)
        ):
            ids, yard = settle_ids(list(s.all("cols")[0].v["ids"]), self.held.yard, self.outfit)
            self.head_cols = {"ids": ids, "yard": yard}
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
            self.held.day = stance.when
        person = s.first("person")
        if below and person is not None and not s.has_head and not s.has("cols") and s.has("verb", "pronoun"):
            self.who_did = person

    def _day_of_line(self, s: Statement, stance: Stance) -> None:
        """ "Larkfield, Friday: 3 barrels off. Sold L30.": a day before a colon holds for its line."""
        mark = s.first("date") if s.opens == "line" else None
        if mark is None or stance.when is None:
            return
        k = frames.index_of(s, mark)
        after = frames.neighbour(s, k, 1)
        if (
            after is not None
            and after.w == ":"
            and all(m.label in ("yard", "comma", "w", "filler") for m in s.marks[:k])
        ):
            self.line_day = (s.line, stance.when)

    def _days_of_board(self, s: Statement, stance: Stance) -> None:
        """ "thirty mites in two days" of a board is how long it was in, not a day to come."""
        mark = s.first("date")
        header = s.opens == "line" and not s.has("cue") and not s.has("cols")  # "boards in 1 day at the sawmill"
        if (
            mark is None
            or not (s.has("mites", "value") or header)
            or mark.v["value"].form != "days"
            or not mark.v["value"].ahead
        ):
            return
        method = frames.method_of(s)
        if (method.v["method"] if method is not None else self.held.method) == "board":
            mark.label, mark.rule = "days", "days of a board"
            s.seal()
            mark.v = {"days": mark.v["value"].args[0]}
            stance.said = None
            if stance.state == "planned":
                stance.state = "done"

    def _whole_line(self, i: int) -> bool:
        line = self.statements[i].line
        return sum(1 for s in self.statements[max(0, i - 2) : i + 3] if s.line == line) <= 2

    @staticmethod
    def _place_only(s: Statement) -> bool:
        return not s.has_head and not s.has("cols", "pronoun") and s.has("yard", "date", "heading")

    def _hold_yard(self, s: Statement, yards: list[Mark]) -> None:
        moving = any(m.v.get("step") in ("moved", "sold", "combined") for m in s.all("change"))
        for m in yards:
            k = frames.index_of(s, m)
            before = frames.neighbour(s, k, -1)
            if before is not None and before.w in ("the",):
                before = frames.neighbour(s, k - 1, -1)
            if moving and before is not None and before.w in ("to", "into", "for", "over", "onto"):
                m.v["to"] = True
                continue
            newest = self.thread.drafts[-1] if len(self.thread.drafts) > self.first_draft else None
            if self.held.yard is None and newest is not None and newest.kind == "conditions" and newest.line == s.line:
                newest.put("yard", m.v["value"], "yard named next")  # "windy as anything out at the quarry"
            self.held.yard = m.v["value"]
            self.held.yard_since = self.thread.statements
            if not s.has("cols", "pronoun"):
                self.held.cols = None

    def _note_cols(self, i: int, s: Statement) -> None:
        exceptions = [m for m in s.all("cols") if self._is_exception(s, m)]
        cols = [m for m in s.all("cols") if m not in exceptions]
        if cols:
            for m in cols:
                ids, yard = settle_ids(list(m.v["ids"]), self.held.yard, self.outfit)
                self.held.recent += [(cid, yard) for cid in ids]
                self.held.groups = [*self.held.groups[-7:], (ids, yard)]
                if len(cols) == 1 or any(x.v.get("step") in ("nuc_made", "split") for x in s.all("change")):
                    self.held.cols = {"ids": ids, "yard": yard}
            del self.held.recent[:-40]
            self.held.cols_sentence = s.sentence
            self.held.cols_line = s.line
        elif exceptions:
            ids, yard = settle_ids([cid for m in exceptions for cid in m.v["ids"]], self.held.yard, self.outfit)
            self.held.recent += [(cid, yard) for cid in ids]

    def _focus(self, s: Statement) -> None:
        """ "both", "all three of those": as many of the colonies named last as are said."""
        pronoun = s.first("pronoun")
        if pronoun is None or s.has("cols"):
            return
        words = pronoun.w.split()
        count = 2 if "both" in words or "neither" in words else None
        if "n" in pronoun.v:
            count = int(pronoun.v["n"].value)
        held = self.held.cols
        if any(m.w == "new" for m in s.marks) and (made := self._made_new()):
            self.held.cols = {"ids": made, "yard": self.held.yard}  # "both the new ones get a feeder"
            self.held.cols_sentence, self.held.cols_line = s.sentence, s.line
            return
        if count is None or not 2 <= count <= 12 or (held and len(held["ids"]) == count and not held.get("every")):
            return
        if "other" in words and held and not held.get("every"):
            whole = next((g for g in reversed(self.held.groups) if set(held["ids"]) < set(g[0])), None)
            if whole is not None:
                self.held.cols = {"ids": [x for x in whole[0] if x not in held["ids"]], "yard": whole[1]}
                self.held.cols_sentence, self.held.cols_line = s.sentence, s.line
                return
        group = next((g for g in reversed(self.held.groups) if len(g[0]) == count), None) if count > 2 else None
        if group is not None:
            self.held.cols = {"ids": list(group[0]), "yard": group[1]}
            self.held.cols_sentence, self.held.cols_line = s.sentence, s.line
            return
        last: list[tuple[str, str | None]] = []
        for pair in reversed(self.held.recent):
            if pair not in last:
                last.append(pair)
        last = list(reversed(last[:count]))
        if len(last) == count and len({yard for _, yard in last}) == 1:
            self.held.cols = {"ids": [cid for cid, _ in last], "yard": last[0][1]}
            self.held.cols_sentence, self.held.cols_line = s.sentence, s.line

    def _made_new(self) -> list[str]:
        """The ids of the colonies that the changes of this message made."""
        made: list[str] = []
        for d in self.thread.lately(self.first_draft):
            if d.kind == "change" and d.slots.get("step") in ("split", "nuc_made"):
                made += [x for x in d.slots.get("with", []) if x not in made]
        return made

    def _is_exception(self, s: Statement, m: Mark) -> bool:
        if not s.has("cue"):
            return False
        k = frames.index_of(s, m)
        before = frames.neighbour(s, k, -1)
        return before is not None and before.label == "cue" and before.v.get("cue") == "except"

    def _place(self, i: int, s: Statement, kind: str, stance: Stance) -> tuple[Place, list[Mark]]:
        """The subject of a record of `kind` made from this statement, and the marks that say so."""
        held = self.held
        place = Place()
        used: list[Mark] = []
        cols = s.all("cols")
        exceptions = [m for m in cols if self._is_exception(s, m)]
        main = [m for m in cols if m not in exceptions]
        every = list(s.all("every"))
        hives = next((m for m in s.all("hives") if m.v.get("counts") and "n" in m.v), None)
        rest = s.first("rest")
        pronoun = s.first("pronoun")
        place.yard = held.yard
        used += [m for m in s.all("yard") if not m.v.get("to")]
        nth = s.first("ordinal")
        if (
            not main
            and nth is not None
            and kind == "mite_check"
            and held.cols
            and len(held.cols["ids"]) >= nth.v["value"] >= 1
            and len(held.cols["ids"]) > 1
        ):
            self._take_held(place)  # "the first gave eight mites, the second none"
            place.colonies = [held.cols["ids"][nth.v["value"] - 1]]
            used.append(nth)
        elif main:
            ids, place.yard = settle_ids(list(main[0].v["ids"]), held.yard, self.outfit)
            place.colonies = ids
            used.append(main[0])
        elif pronoun is not None and self._except_those(s, pronoun) and held.cols and held.cols["ids"]:
            place.every, place.except_ = True, list(held.cols["ids"])
            place.yard = held.yard or held.cols["yard"]
            used += [pronoun, *cues(s, "except"), *every]
        elif exceptions and kind in ("inspection", "change") and self._said_of_exception(s, exceptions[0]):
            place.colonies, place.yard = settle_ids(list(exceptions[0].v["ids"]), held.yard, self.outfit)
            used += exceptions
        elif exceptions:
            ids, place.yard = settle_ids(list(exceptions[0].v["ids"]), held.yard, self.outfit)
            place.every, place.except_ = True, ids
            used += exceptions + cues(s, "except") + every
        elif rest is not None and held.cols:
            place.yard = held.cols["yard"] or held.yard
            spoken = list(dict.fromkeys(cid for cid, yard in held.recent if yard == place.yard))
            named = self._all_named(i)
            open_ = [cid for cid in spoken if cid not in named]
            if len(open_) >= 1 and len(spoken) >= 3:
                place.colonies = open_  # the rest of the ones spoken of
            else:
                place.every, place.except_ = True, named
            used.append(rest)
        elif (
            every
            and every[0].w.startswith(("all of them", "all of those", "all of these", "all of em"))
            and held.cols
            and len(held.cols["ids"]) > 1
            and held.cols_sentence == s.sentence
            and not s.has("yard")
        ):
            self._take_held(place)  # "in one four six and nine … I pull all of them thursday"
            used += every
        elif every and not (pronoun and held.cols and held.cols_sentence == s.sentence):
            place.every = True
            used += every
        elif hives is not None and kind != "change":
            place.count = int(frames.number_of(hives).value)
            used.append(hives)
        elif kind == "conditions":
            return place, used
        elif kind == "treatment" and pronoun is None and place.yard and self._after_a_round(i, s):
            place.every = True
        elif pronoun is not None and "n" in pronoun.v and not self._so_many(int(pronoun.v["n"].value)):
            place.count = int(pronoun.v["n"].value)  # "nine hives there … in those nine"
            used.append(pronoun)
        elif kind in _WHOLE_YARD and place.yard and pronoun is None and any(m.w == "there" for m in s.marks):
            place.every = place.supposed = True  # "hive nine is light … pulled the wraps there"
        elif (
            kind in ("gear", "treatment")
            and held.cols
            and held.cols.get("every")
            and held.cols.get("except")
            and held.cols_sentence == s.sentence
            and any(m.w in ("their", "they", "its") for m in s.marks)
        ):
            place.yard, place.colonies = (
                held.cols["yard"],
                list(held.cols["except"]),
            )  # "all except 71, its supers come off"
        elif (
            kind == "treatment"
            and pronoun is None
            and s.has("form", "agent")
            and frames.going_out(s)
            and (before := self._put_in(s)) is not None
        ):
            place = before  # "… all but seventy five; seventy five has a cell; I take the wafers out in three weeks"
        elif self.head_cols is not None and kind not in ("conditions", "harvest", "todo"):
            place.colonies, place.yard = list(self.head_cols["ids"]), self.head_cols["yard"] or held.yard
        elif self._inherits(i, s, kind, pronoun):
            assert held.cols is not None
            self._take_held(place)
            if pronoun is not None:
                used.append(pronoun)
        elif kind in _WHOLE_YARD and place.yard:
            place.every = place.supposed = True
        return place, used

    def _put_in(self, s: Statement) -> Place | None:
        """Where what comes out now was put in, if this message said so."""
        forms = {m.v.get("form") for m in s.all("form", "agent")} - {None}
        for d in reversed(self.thread.lately(self.first_draft)):
            if d.kind == "treatment" and d.slots.get("step") == "in" and d.slots.get("state", "done") == "done":
                if forms and d.slots.get("form") not in forms:
                    return None
                return Place(
                    d.slots.get("yard"),
                    d.slots.get("colonies"),
                    bool(d.slots.get("every_colony")),
                    d.slots.get("except_colonies"),
                    d.slots.get("colony_count"),
                )
        return None

    def _so_many(self, n: int) -> bool:
        """Whether the colonies spoken of last are that many."""
        held = self.held.cols
        return held is not None and (bool(held.get("every")) or held.get("count") == n or len(held["ids"]) == n)

    @staticmethod
    def _said_of_exception(s: Statement, exception: Mark) -> bool:
        """ "all but F4 (still empty)": what follows the exception is said of it."""
        at = frames.index_of(s, exception)
        facts = [frames.index_of(s, m) for m in s.marks if m.label in ("fact", "change")]
        return bool(facts) and min(facts) > at

    @staticmethod
    def _except_those(s: Statement, pronoun: Mark) -> bool:
        k = frames.index_of(s, pronoun)
        before = frames.neighbour(s, k, -1)
        return before is not None and before.label == "cue" and before.v.get("cue") == "except"

    def _take_held(self, place: Place) -> None:
        held = self.held.cols
        assert held is not None
        place.yard = held["yard"] or self.held.yard
        if held.get("every"):
            place.every = True
            place.except_ = held.get("except")
        elif held.get("count") is not None:
            place.count = held["count"]
        else:
            place.colonies = list(held["ids"])

    def _all_named(self, i: int) -> list[str]:
        named: list[str] = []
        for draft in self.thread.lately(self.first_draft):
            for cid in draft.slots.get("colonies", []):
                if cid not in named and draft.slots.get("yard") == (self.held.cols or {}).get("yard"):
                    named.append(cid)
        return named

    def _after_a_round(self, i: int, s: Statement) -> bool:
        """ "three was eleven, nine was thirteen, so we treat Saturday": after several counts the yard is meant."""
        counted = [
            d.slots.get("colonies")
            for d in self.thread.lately(self.first_draft)
            if d.kind == "mite_check" and d.sentence == s.sentence and d.slots.get("state", "done") == "done"
        ]
        last = self.thread.drafts[-1] if self.thread.drafts else None
        return len({tuple(c or ()) for c in counted}) > 1 and last is not None and last.kind == "mite_check"

    def _inherits(self, i: int, s: Statement, kind: str, pronoun: Mark | None) -> bool:
        held = self.held
        if not held.cols:
            return False
        if any(not m.v.get("to") for m in s.all("yard")) and not pronoun:
            return False
        if pronoun is not None:
            return True
        if held.cols_sentence == s.sentence:
            return kind != "harvest" or not held.cols.get("every")
        if held.cols_line == s.line:
            return kind in ("inspection", "mite_check", "queen_work", "gear", "feed", "treatment", "change")
        return False

    # -- records ---------------------------------------------------------------------------------------------------

    def _drafts(self, i: int, s: Statement, stance: Stance) -> list[Draft]:
        held, thread = self.held, self.thread
        made: list[Draft] = []
        if self._amend(i, s) or self._named_after(s) or self._the_ones_meant(s) or self._do_it(i, s, stance):
            return self._recent()
        _count_cells(s, self.held.method)
        self._name_frames(s)
        same = s.first("same")
        if same is not None and self._same(s, same, stance):
            return self._recent()
        if (
            self._ellipsis(i, s, stance)
            or self._other_dose(i, s, stance)
            or self._gap(i, s, stance)
            or self._elsewhere(i, s, stance)
            or self._pair_again(i, s, stance)
        ):
            return self._recent()
        last_harvest = self._last("harvest", s.sentence)
        if (
            last_harvest is None
            and (before := self._last("harvest")) is not None
            and "amount" not in before.slots
            and before.sentence >= s.sentence - 1
        ):
            last_harvest = before
        harvested = frames.harvest(s, last_harvest)
        if harvested is not None:
            if (
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
                self._finish(i, s, stance, harvested)
                made.append(harvested)
        queens = frames.queen_work(s)
        for draft in queens:
            place, marks = self._place(i, s, draft.kind, stance)
            nowhere = not place.colonies and not place.every and place.count is None and "count" not in draft.slots
            if nowhere and draft.slots["step"] in _AT_A_HIVE and not s.has("yard"):
                continue  # "marked today:" over a list
            self._finish(i, s, stance, draft, place)
            draft.spans += [(m.s, m.e) for m in marks]
            if not self._same_work(draft):
                made.append(draft)
        for draft in frames.change(s):
            marks = [m for m in s.all("change") if m.v.get("after_swarm")]
            if marks and draft.slots["step"] == "swarm_caught":
                swarmed = any(
                    d.kind == "change" and d.slots.get("step") == "swarmed" for d in thread.drafts[-3:]
                ) or any(m.w == "swarm" for x in self.statements[max(0, i - NEAR) : i + 1] for m in x.marks)
                if not swarmed:
                    continue
            self._finish_change(i, s, stance, draft)
            made.append(draft)
        if frames.still_in(s) and s.has("agent", "form") and stance.state == "done":
            stance = Stance(
                state="not_done", said=stance.said, ahead=stance.ahead, today=stance.today, hemisphere=stance.hemisphere
            )
        if s.has("agent") and not s.has_head_but("agent") and not s.has("cols", "yard", "every", "verb"):
            named = s.all("agent")[0]  # "formic. 2 pads in 10 tomorrow"
            keep = {k: v for k, v in named.v.items() if k in ("agent", "form", "product")}
            self.thread.last_treatment = Draft(
                "treatment", keep, [(named.s, named.e)], sentence=s.sentence, line=s.line
            )
        treated = frames.treatment(s, self._pointed_treatment(s))
        if treated is not None and not (s.has("feed") and not s.has("agent", "form")):
            self._treatment(i, s, stance, treated, made)
        elif treated is None and not s.has("item", "feed", "harvest", "queen_work", "change", "fact", "method"):
            pulled = self._pulled(i, s, stance)
            if pulled is not None:
                made.append(pulled)
        for draft in frames.gear(s):
            before = thread.drafts[-1] if thread.drafts else None
            too = any(m.label == "w" and m.w in ("too", "also") for m in s.marks)
            if (
                too
                and before is not None
                and before.kind == "gear"
                and frames.going_out(s) is None
                and not s.has("verb")
            ):
                draft.put("step", before.slots["step"], "too")
            self._finish(i, s, stance, draft)
            made.append(draft)
        feeds = [] if harvested is not None else frames.feed(s, None)
        for draft in feeds:
            fed = self._last("feed", s.sentence)
            if "feed" not in draft.slots and fed is not None and not s.has("feed"):
                for slot in ("feed", "ratio"):
                    if slot in fed.slots:
                        draft.put(slot, fed.slots[slot], "what was fed before")
            self._finish(i, s, stance, draft)
            made.append(draft)
        self._checks(i, s, stance, made)
        looked = frames.inspection(s, stance.negated_from, stance.state)
        if looked is not None:
            self._inspection(i, s, stance, looked, made)
        weather = frames.conditions(s, self.outfit.roster.units == "us")
        if weather is not None:
            self._weather(i, s, stance, weather)
        self._modifiers(i, s, made, stance)
        if not made and not self._recent():
            self._unknown_word(i, s, stance, made)
        return made

    def _amend(self, i: int, s: Statement) -> bool:
        """ "scratch that, 28", "nope, L1, L2 and L4": an opening correction puts the record before it right."""
        if not self.correcting or i > 0 or not self.thread.drafts or s.has("method", "agent", "item", "feed", "fact"):
            return False
        mine = [d for d in self.thread.lately() if d.slots.get("by") == self.sender] or self.thread.lately()
        last = mine[-1]
        group = [d for d in mine if d.statement == last.statement]
        cols = s.all("cols")
        counts = [m for m in s.marks if m.label in ("number", "value", "unit", "amount", "mites")]
        if len(cols) == 1 and not counts:
            ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), self.outfit)
            old = last.slots.get("colonies")
            if not old or (len(old) != len(ids) and len(old) != 1):
                return False
            for d in group:
                if d.slots.get("colonies") == old:
                    d.put("colonies", ids, "put right")
                    d.spans.append((cols[0].s, cols[0].e))
                    if yard:
                        d.put("yard", yard, "yard")
                    d.statement = self.thread.statements
        elif len(cols) == 2 and any(m.w == "not" for m in s.marks):
            new, _ = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), self.outfit)
            old, _ = settle_ids(list(cols[1].v["ids"]), last.slots.get("yard"), self.outfit)
            hit = [d for d in mine if d.slots.get("colonies") == old]
            if not hit:
                return False
            for d in hit[-1:]:
                d.put("colonies", new, "put right")
                d.spans += [(cols[0].s, cols[0].e), (cols[1].s, cols[1].e)]
                d.statement = self.thread.statements
        elif len(cols) == 1 and len(counts) == 1 and counts[0].label in ("value", "mites"):
            # "sorry, 74 was 18": the check of that colony
            ids, _ = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), self.outfit)
            hit = [d for d in mine if d.slots.get("colonies") == ids and "mites" in d.slots]
            if not hit:
                return False
            hit[-1].put("mites", frames.tidy(frames.number_of(counts[0]).value), "put right")
            hit[-1].spans += [(cols[0].s, cols[0].e), (counts[0].s, counts[0].e)]
            hit[-1].statement = self.thread.statements
        elif len(counts) == 1 and not cols:
            m = counts[0]
            if m.label == "amount":
                value, unit = frames.amount_of(m)
            else:
                value, unit = frames.number_of(m).value, m.v.get("unit")
            slot = next((x for x in ("mites", "amount", "count", "colony_count") if x in last.slots), None)
            if slot is None:
                return False
            last.put(slot, frames.tidy(value), "put right")
            if unit:
                last.put("unit", unit, "put right")
            last.spans.append((m.s, m.e))
            last.statement = self.thread.statements
        else:
            return False
        self.correcting = False
        return True

    def _named_after(self, s: Statement) -> bool:
        """ "it's colony 18 now", "he hived it as 79": the id that a caught or moved colony was given."""
        cols = s.all("cols")
        if len(cols) != 1 or s.has_head or not self.thread.drafts:
            return False
        last = self.thread.drafts[-1]
        k = frames.index_of(s, cols[0])
        before = frames.neighbour(s, k, -1)
        if k == 0 and len(s.marks) > 1 and s.marks[1].w == "now" and self.before is not None:
            before = self.before.marks[-1]  # "to Sawdust, it is | S10 now"
        naming = before is not None and before.w in (
            "as",
            "called",
            "now",
            "it's",
            "its",
            "is",
            "that's",
            "are",
            "they're",
        )
        if last.kind != "change" or last.slots.get("step") not in ("swarm_caught", "moved", "bought") or not naming:
            return False
        if last.slots["step"] == "moved":
            if "with" in last.slots:
                return False
            last.put("with", list(cols[0].v["ids"]), "now called")
        elif "colonies" in last.slots:
            return False
        else:
            where = self.held.yard if s.has("yard") else last.slots.get("yard")
            ids, yard = settle_ids(list(cols[0].v["ids"]), where, self.outfit)
            last.put("colonies", ids, "now called")
            if yard:
                last.put("yard", yard, "yard that holds")
        last.spans.append((cols[0].s, cols[0].e))
        last.statement = self.thread.statements
        return True

    def _the_ones_meant(self, s: Statement) -> bool:
        """ "2 dead. L8 and L23": the ids of the hives just counted."""
        cols = s.all("cols")
        last = self.thread.drafts[-1] if self.thread.drafts else None
        if (
            len(cols) != 1
            or last is None
            or last.kind != "change"
            or last.slots.get("colony_count") != len(cols[0].v["ids"])
            or last.line != s.line
            or any(m.label not in ("cols", "comma", "filler", "hive") and m.w not in ("and", ":", "-") for m in s.marks)
        ):
            return False
        ids, yard = settle_ids(list(cols[0].v["ids"]), last.slots.get("yard"), self.outfit)
        last.put("colonies", ids, "colonies")
        del last.slots["colony_count"]
        if yard:
            last.put("yard", yard, "yard that holds")
        last.spans.append((cols[0].s, cols[0].e))
        last.statement = self.thread.statements
        return True

    def _do_it(self, i: int, s: Statement, stance: Stance) -> bool:
        """ "doing it next week", "I'll do those two Monday": what was just said to be left, now planned."""
        named = s.has("cols")
        if (
            stance.state != "planned"
            or s.has_head
            or s.has("queen_noun", "noun")
            or (not s.has("pronoun", "cols") and not any(m.w in ("that", "so", "this") for m in s.marks))
        ):
            return False
        if not any(
            (m.label == "verb" and m.v.get("does") == "do") or (m.label == "cue" and m.w.split()[-1] in ("doing", "do"))
            for m in s.marks
        ):
            return False
        last = next((d for d in reversed(self.thread.lately()) if d.kind not in ("conditions", "todo")), None)
        if last is None or (last.kind == "inspection" and last.slots.get("state") != "not_done"):
            return False
        if named and last.sentence < s.sentence - 1:
            return False
        pronoun = s.first("pronoun")
        counted = pronoun is not None and ("n" in pronoun.v or pronoun.w.startswith("both"))
        if last.slots.get("state") != "not_done" and not counted and not named:
            return False
        draft = Draft(
            last.kind,
            {
                k: v
                for k, v in last.slots.items()
                if k not in _OWN_SLOTS and k not in ("amount", "unit", "count", "mites", "mites_high", "bees")
            },
            [],
            dict(last.why),
        )
        place = Place(
            last.slots.get("yard"),
            last.slots.get("colonies"),
            bool(last.slots.get("every_colony")),
            last.slots.get("except_colonies"),
            last.slots.get("colony_count"),
        )
        if named:
            place = None  # type: ignore[assignment]
        elif counted and self.held.cols and not self.held.cols.get("every"):
            place = Place()
            self._take_held(place)
        elif counted and last.slots.get("except_colonies"):
            place = Place(last.slots.get("yard"), list(last.slots["except_colonies"]))
        if pronoun is not None:
            draft.spans.append((pronoun.s, pronoun.e))
        self._finish(i, s, stance, draft, place)
        return True

    def _recent(self) -> list[Draft]:
        return [d for d in self.thread.lately() if d.statement == self.thread.statements]

    def _last(self, kind: str, sentence: int | None = None) -> Draft | None:
        for draft in reversed(self.thread.lately(self.first_draft)):
            if draft.kind == kind and (sentence is None or draft.sentence == sentence):
                return draft
        return None

    def _pointed_treatment(self, s: Statement) -> Draft | None:
        return self.thread.last_treatment

    def _add(self, i: int, s: Statement, draft: Draft) -> None:
        draft.sentence, draft.line, draft.statement = s.sentence, s.line, self.thread.statements
        self.thread.drafts.append(draft)

    def _finish(
        self, i: int, s: Statement, stance: Stance, draft: Draft, place: Place | None = None, add: bool = True
    ) -> None:
        """Place, state, day and person of a draft."""
        used: list[Mark] = []
        if place is None:
            place, used = self._place(i, s, draft.kind, stance)
        if place.supposed and draft.kind == "gear" and "count" in draft.slots and not s.has("each"):
            place.every = False  # "3 traps off": a number was named, so not each colony is meant
        if draft.kind in ("queen_work",) and place.every and not s.has("every") and not s.has("cue"):
            place.every = False
        place.fill(draft)
        for m in used:
            draft.spans.append((m.s, m.e))
        self._day(i, s, stance, draft)
        if stance.state != "done":
            draft.put("state", stance.state, "cue")
            for m in s.all("cue"):
                if m.v.get("cue") in ("plan", "not", "if"):
                    draft.spans.append((m.s, m.e))
        person = self._person(s)
        if person is not None:
            draft.put("by", person.v["value"], "person")
            draft.spans.append((person.s, person.e))
            self.last_person = (person, s.sentence)
            self.actor = (person, self.thread.statements)
            cols = s.first("cols")
            if draft.kind == "mite_check" and s.has("verb") and cols is not None and person.s < cols.s:
                self.who_checked = (person, s.line)  # "Inez did the sawmill, washes: S1 three, S2 …"
        elif self.actor is not None and self.actor[1] >= self.thread.statements - 1 and self._goes_on(s):
            draft.put("by", self.actor[0].v["value"], "person")  # "inez marked her | and clipped her"
            self.actor = (self.actor[0], self.thread.statements)
        elif (
            self.last_person is not None
            and s.sentence - self.last_person[1] <= 1
            and any(m.label == "w" and m.w in ("he", "she", "he's", "she's") for m in s.marks)
        ):
            draft.put("by", self.last_person[0].v["value"], "he or she")
        elif self.who_did is not None:
            draft.put("by", self.who_did.v["value"], "who did these")
        elif draft.kind == "mite_check" and self.who_checked is not None and self.who_checked[1] == s.line:
            draft.put("by", self.who_checked[0].v["value"], "who took the samples")
        elif self.sender is not None:
            draft.put("by", self.sender, "sender")
        for m in s.marks:
            for span in m.v.get("struck", ()):
                draft.spans.append(span)
            if m.label in ("verb", "each", "approx", "rest", "hive"):
                draft.spans.append((m.s, m.e))
        if add:
            self._add(i, s, draft)
        if draft.kind in ("treatment",):
            self.thread.last_treatment = draft
        if place.every or place.count is not None:
            if draft.kind != "conditions":
                self.held.cols = {
                    "ids": [],
                    "yard": place.yard,
                    "every": place.every,
                    "except": place.except_,
                    "count": place.count,
                }
                self.held.cols_sentence, self.held.cols_line = s.sentence, s.line

    @staticmethod
    def _goes_on(s: Statement) -> bool:
        """Whether the statement goes on with the doer of the one before: "and" and a verb, with no doer of its own."""
        if s.opens != "soft" or not s.marks or s.marks[0].w not in ("and", "then"):
            return False
        after = next((m for m in s.marks if m.w not in ("and", "then", "also", "she", "he")), None)
        return after is not None and after.label in ("verb", "queen_work", "change", "method", "form")

    def _day(self, i: int, s: Statement, stance: Stance, draft: Draft) -> None:
        when = stance.when
        date_mark = s.first("date")
        if when is None and date_mark is None:
            when = self._day_carried(i, s, stance, draft)
            if when is None and self.line_day is not None and self.line_day[0] == s.line and stance.state == "done":
                when = self.line_day[1]
            if when is None and self.held.day is not None and stance.state in ("done", "not_done"):
                when = self.held.day
            if (
                when is None
                and self.held.day is not None
                and stance.state == "planned"
                and self.held.day[0] > self.today
            ):
                when = self.held.day
        if date_mark is not None:
            draft.spans.append((date_mark.s, date_mark.e))
        same_day = s.first("same_day")
        if same_day is not None and date_mark is None and self.thread.drafts and "on" in self.thread.drafts[-1].slots:
            for slot in ("on", "on_until"):
                if slot in self.thread.drafts[-1].slots:
                    draft.put(slot, self.thread.drafts[-1].slots[slot], same_day.rule)
            draft.spans.append((same_day.s, same_day.e))
            return
        if when is None:
            if stance.state in ("done", "not_done"):
                draft.put("on", self.today.isoformat(), "day of the message")
            return
        if draft.kind == "conditions" and when[0] < self.today <= when[1]:
            when = (self.today, self.today)  # "47 degrees in May"
        draft.put("on", when[0].isoformat(), "date")
        if when[1] != when[0]:
            draft.put("on_until", when[1].isoformat(), "date")

    def _day_carried(self, i: int, s: Statement, stance: Stance, draft: Draft) -> tuple[date, date] | None:
        """The day of the statement before, where this one goes on with it."""
        j = i - 1
        while j >= max(0, i - NEAR) and self.statements[j].sentence == s.sentence:
            before = self.statements[j]
            mark = before.first("date")
            if mark is not None:
                b_stance = take_stance(before, self.today, self.hemisphere, None)
                if b_stance.when is None:
                    return None
                same_kind = any(
                    d.kind == draft.kind and d.slots.get("state", "done") == stance.state and d.sentence == s.sentence
                    for d in self.thread.lately(self.first_draft)
                )
                header = not before.has_head or all(
                    m.label in ("method", "sample", "verb", "check") for m in before.marks if m.label in HEADS
                )
                leading = self._leads_sentence(before, mark)
                if (same_kind or header or (leading and not s.has("fact", "sky", "temp"))) and (
                    b_stance.state == stance.state or (header and stance.state != "planned" and b_stance.plan is False)
                ):
                    return b_stance.when
                return None
            j -= 1
        if self.statements[i].line >= 0 and draft.kind == "mite_check" and stance.state == "done":
            j = i - 1
            while j >= max(0, i - NEAR) and self.statements[j].line == s.line:
                before = self.statements[j]
                mark = before.first("date")
                if (
                    mark is not None
                    and before.has("method")
                    and all(m.label in ("method", "sample", "verb") for m in before.marks if m.label in HEADS)
                ):
                    b_stance = take_stance(before, self.today, self.hemisphere, None)
                    return b_stance.when if b_stance.state == "done" else None
                j -= 1
        return None

    @staticmethod
    def _leads_sentence(s: Statement, mark: Mark) -> bool:
        for m in s.marks:
            if m is mark:
                return True
            if m.label not in ("filler", "comma", "w", "yard", "person"):
                return False
        return False

    def _person(self, s: Statement) -> Mark | None:
        for k, m in enumerate(s.marks):
            if m.label != "person":
                continue
            before, after = frames.neighbour(s, k, -1), frames.neighbour(s, k, 1)
            if before is not None and before.w == "from" and s.has("agent") and s.has("verb"):
                return m  # "n1-n6 got an oxalic dribble from Dov"
            if (
                before is not None
                and before.label == "w"
                and before.w in ("to", "from", "with", "for", "at", "ask", "tell", "near", "by")
                and before.w != "by"
            ):
                continue
            if before is not None and before.w == "by":
                return m
            if after is not None and (
                after.label
                in ("verb", "method", "change", "queen_work", "harvest", "check", "cue", "form", "fact", "sky")
                or (
                    after.label == "w"
                    and after.w in ("and", "also", "just", "already", "had", "has", "was", "alcohol", "is")
                )
                or after.label in ("date", "agent", "item")
            ):
                if (
                    after.label == "w"
                    and after.w in ("had", "has", "is", "was")
                    and s.has("fact")
                    and not s.has("verb")
                ):
                    continue
                return m
        return None

    # -- kinds with ways of their own ------------------------------------------------------------------------------

    def _treatment(self, i: int, s: Statement, stance: Stance, draft: Draft, made: list[Draft]) -> None:
        before = self.thread.drafts[-1] if len(self.thread.drafts) > self.first_draft else None
        bare = not s.has("agent", "cols", "verb", "yard", "pronoun", "hives", "date", "cue") and not any(
            m.label == "w" and m.w in ("in", "out", "off", "on") for m in s.marks
        )
        going = frames.going_out(s) is not None
        placed = s.has("cols", "every", "hives", "yard", "rest", "number", "each") or self.held.yard is not None
        treatments = [
            d
            for d in self.thread.lately(self.first_draft)
            if d.kind == "treatment" and (d.sentence == s.sentence or d.line == s.line)
        ]
        if (
            bare
            and treatments
            and "amount" in draft.slots
            and "amount" not in treatments[-1].slots
            and before is not None
        ):
            target = treatments[-1]
            for d in treatments:
                if d.statement == target.statement:
                    self._merge(
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
        if (
            s.opens == "line"
            and not s.has("verb", "cue", "date", "pronoun", "unit", "noun")
            and not going
            and not placed
        ):
            self.thread.last_treatment = draft  # "Formic pads" over a list: named, not given
            self.thread.used += draft.spans
            return
        self._finish(i, s, stance, draft)
        made.append(draft)

    @staticmethod
    def _merge(target: Draft, source: Draft, names: tuple[str, ...]) -> None:
        for name in names:
            if name in source.slots and name not in target.slots:
                target.put(name, source.slots[name], source.why.get(name, ""))
        target.spans += source.spans

    def _pulled(self, i: int, s: Statement, stance: Stance) -> Draft | None:
        """ "I'll go back and get them out Sunday": what "them" points to comes out (or goes in)."""
        last = self.thread.last_treatment
        out = frames.going_out(s)
        pronoun = next((m for m in s.all("pronoun") if m.w not in ("its", "her")), None)
        pronoun = pronoun or next((m for m in s.marks if m.w in ("they're", "theyre")), None)
        if s.has("days") and not out and not s.has("cols", "unit"):
            return None  # "they get twenty days": more said of what is in
        if any(m.w.startswith("still ha") for m in cues(s, "not")):
            out = True  # "hive six still has hers"
        owned = s.has("cols") and any(m.w == "'s" for m in s.marks)  # "I'll pull hive six's"
        if out is None and not s.has("thing"):
            return None
        verbs = [m for m in s.all("verb") if m.v.get("dir")]
        outs = any(m.label == "w" and m.w in ("out", "off") for m in s.marks)
        left_out = any(m.w == "not" and self._then_in(s, m) for m in cues(s, "not"))  # "not in 11 through 18 yet"
        elliptic = (
            s.has("cols")
            and (outs or (owned and verbs) or out or left_out)
            and not s.has("mites", "value", "clean", "percent")
        )
        thing = s.has("thing") and (verbs or stance.state != "done")
        if not (pronoun is not None and (verbs or outs)) and not elliptic and not thing:
            return None
        newest = next((d for d in reversed(self.thread.lately()) if d.kind in ("treatment", "gear", "feed")), None)
        if newest is None:
            return None
        if newest.kind != "treatment":
            if newest.kind == "gear" and not (thing or pronoun is not None):
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
            for m in (pronoun, s.first("thing")):
                if m is not None:
                    copy.spans.append((m.s, m.e))
            self._finish(i, s, stance, copy)
            return copy
        if last is not None and out and last.slots.get("state") == "not_done" and last.slots.get("step") == "in":
            last = next(
                (
                    d
                    for d in reversed(self.thread.lately(self.first_draft))
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
            draft.put("amount", frames.tidy(frames.number_of(number).value), number.rule)
            draft.put("unit", number.v["unit"], number.rule)
        place: Place | None = None
        if not s.has("cols", "every", "hives", "yard", "rest"):
            place = Place(
                last.slots.get("yard"),
                last.slots.get("colonies"),
                bool(last.slots.get("every_colony")),
                last.slots.get("except_colonies"),
                last.slots.get("colony_count"),
            )
            if (
                self.held.cols
                and not self.held.cols.get("every")
                and self.held.cols_sentence == s.sentence
                and pronoun is not None
                and (
                    not last.slots.get("colonies")
                    or s.has("thing")
                    or "n" in pronoun.v
                    or (stance.state == "conditional" and pronoun.w == "it")
                )
            ):
                place = Place()
                self._take_held(place)
        self._finish(i, s, stance, draft, place)
        return draft

    def _same_work(self, draft: Draft) -> bool:
        """Joins the newest queen work with one of the same step, colony and day in its sentence ("…, in a cage")."""
        for old in self.thread.lately(self.first_draft):
            if (
                old is not draft
                and old.kind == "queen_work"
                and old.sentence == draft.sentence
                and old.slots.get("colonies")
                and all(old.slots.get(k) == draft.slots.get(k) for k in ("step", "colonies", "on", "state"))
            ):
                self._merge(old, draft, ("count", "mark"))
                old.statement = draft.statement
                self.thread.drafts.remove(draft)
                return True
        return False

    def _said_twice(self, draft: Draft, s: Statement) -> None:
        """Takes the newest record back where one made in the same sentence says just the same."""
        for old in self.thread.lately(self.first_draft):
            if old is not draft and old.kind == draft.kind and old.sentence == s.sentence and old.slots == draft.slots:
                old.spans += draft.spans
                old.statement = draft.statement
                self.thread.drafts.remove(draft)
                return

    @staticmethod
    def _then_in(s: Statement, m: Mark) -> bool:
        after = frames.neighbour(s, frames.index_of(s, m), 1)
        return after is not None and after.w in ("in", "on")

    def _finish_change(self, i: int, s: Statement, stance: Stance, draft: Draft) -> None:
        step = draft.slots["step"]
        cols = [m for m in s.all("cols") if not self._is_exception(s, m)]
        to = next((m for m in s.all("yard") if m.v.get("to")), None)
        place, used = self._place(i, s, "change", stance)
        if len(cols) > 1:
            ids, _ = settle_ids(list(cols[1].v["ids"]), place.yard, self.outfit)
            first = list(place.colonies or [])
            if step in ("nuc_made", "split") and self._made_from_second(s, cols):
                place.colonies, ids = ids, first
                place.colonies, place.yard = settle_ids(place.colonies, self.held.yard, self.outfit)
            if step in ("combined", "moved", "split", "nuc_made"):
                draft.put("with", ids, "the other side")
            elif step in ("sold", "died", "bought"):
                place.colonies = first + [x for x in ids if x not in first]
            draft.spans.append((cols[1].s, cols[1].e))
        elif (
            step in ("split", "combined")
            and len(cols) == 1
            and self._into(s, cols[0])
            and self.held.cols
            and not self.held.cols.get("every")
            and (s.has("pronoun") or (step == "split" and self.held.cols_line == s.line))
        ):
            draft.put("with", list(place.colonies or []), "the other side")
            place = Place()
            self._take_held(place)
        elif step == "nuc_made" and cols and self._named_nucs(s, cols[0]):
            draft.put("with", place.colonies, "the new ones")
            place.colonies = None
        if to is not None:
            draft.put("to_yard", to.v["value"], "to the yard")
            draft.spans.append((to.s, to.e))
        if (
            place.colonies
            and draft.slots.get("colony_count") is not None
            and step in ("died", "moved", "combined")
            and (step != "moved" or s.has("cols", "pronoun"))
        ):
            del draft.slots["colony_count"]
        if draft.slots.get("colony_count") is not None and step == "moved" and not s.has("cols", "pronoun"):
            place.colonies = None  # "combined it into 25 … moved ten hives over to the orchard"
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
            if hives is None and not self.held.cols:
                return
        for m in used:
            draft.spans.append((m.s, m.e))
        if step == "swarmed" and not (
            place.colonies or place.every or place.yard or place.count or "count" in draft.slots
        ):
            return  # "the neighbour's hive swarmed"
        if step == "swarm_caught" and not cols:
            place.colonies = None
        caught = self._last("change", s.sentence)
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
            caught.statement = self.thread.statements
            return
        self._finish(i, s, stance, draft, place)
        if place.colonies:
            self._said_twice(draft, s)  # "L3's a goner, just a dead cluster": one loss

    @staticmethod
    def _made_from_second(s: Statement, cols: list[Mark]) -> bool:
        k = frames.index_of(s, cols[1])
        before = frames.neighbour(s, k, -1)
        return before is not None and before.w in ("of", "from", "off")

    @staticmethod
    def _into(s: Statement, cols: Mark) -> bool:
        """ "split it into L29", "combine them with 79": what stands after "into" is the other side."""
        k = frames.index_of(s, cols)
        before = frames.neighbour(s, k, -1)
        half = k > 1 and s.marks[k - 2].w == "half"  # "split it, the other half is 79"
        return before is not None and (before.w in ("into", "with", "onto") or (before.w == "is" and half))

    @staticmethod
    def _named_nucs(s: Statement, cols: Mark) -> bool:
        """ "made up nucs N1 to N4": the ids are of the new ones, not of the one they came from."""
        k = frames.index_of(s, cols)
        before = frames.neighbour(s, k, -1)
        if before is not None and before.w.split()[-1] in ("of", "from", "off"):
            return False
        return before is not None and (
            before.label in ("change", "comma", "hives", "noun") or before.w in (":", "called", "as", "is", "are")
        )

    def _checks(self, i: int, s: Statement, stance: Stance, made: list[Draft]) -> None:
        held, thread = self.held, self.thread
        drafts, header = frames.checks(s, held, stance.state)
        if any(m.w.startswith("neither") for m in s.all("pronoun")) and drafts and "mites" in drafts[0].slots:
            stance = Stance(state="done", carried=stance.when)
        if stance.state == "not_done" and not s.has("cols", "every", "yard", "hives", "pronoun"):
            return  # "forgot the boards": no colony that was left
        if stance.state == "conditional" and made:
            return  # "if B9 washes over two percent it gets …": the check is the condition
        sample = s.first("sample")
        said_after = method_after_counts(s)
        if said_after is not None and (s.has("each") or any(m.w == "all" for m in s.marks)):
            for d in thread.lately(self.first_draft):
                if d.kind == "mite_check" and d.line == s.line and "method" not in d.slots:
                    d.put("method", said_after.v["method"], said_after.rule)
                    if sample is not None and "bees" not in d.slots:
                        bees = sample.v["bees"] if "bees" in sample.v else int(frames.number_of(sample).value)
                        d.put("bees", bees, sample.rule)
        if sample is not None and (s.has("each") or any(m.w.startswith(("both", "all")) for m in s.all("pronoun"))):
            bees = sample.v["bees"] if "bees" in sample.v else int(frames.number_of(sample).value)
            for d in thread.lately(self.first_draft):
                if d.kind == "mite_check" and d.sentence == s.sentence and "bees" not in d.slots and "mites" in d.slots:
                    d.put("bees", bees, "sample said for each")
        if not drafts and sample is not None and not s.has("each", "cols", "agent", "feed"):
            bees = sample.v["bees"] if "bees" in sample.v else int(frames.number_of(sample).value)
            if not self._later_counts(i):
                for d in thread.lately(self.first_draft):
                    if d.kind == "mite_check" and d.line == s.line and "bees" not in d.slots and "mites" in d.slots:
                        d.put("bees", bees, sample.rule)  # "L26 10 mites, L28 2 mites. half cups"
            held.bees = sample.v["bees"] if "bees" in sample.v else int(frames.number_of(sample).value)
            thread.used.append((sample.s, sample.e))
            return
        if not drafts and not (stance.state == "not_done" and held.method):
            self._left_undone(i, s, stance, made)
            return
        if not drafts:
            if (
                stance.state == "not_done"
                and not made
                and held.method
                and s.has("cols")
                and not s.has("fact", "agent", "item", "feed", "change", "queen_work", "form", "harvest", "sky")
            ):
                draft = Draft("mite_check")
                draft.put("method", held.method, "method that holds")
                self._finish(i, s, stance, draft)
                made.append(draft)
            return
        method = frames.method_of(s)
        cols = [m for m in s.all("cols") if not self._is_exception(s, m)]
        if method is not None:
            if method.v["method"] != held.method and not (
                method.v["method"] in ("wash", "roll") and held.method and held.method.endswith(method.v["method"])
            ):
                held.method, held.bees, held.board_days = method.v["method"], None, None
        sample = s.first("sample")
        if sample is not None and "per_100" not in drafts[0].slots:
            held.bees = sample.v["bees"] if "bees" in sample.v else int(frames.number_of(sample).value)
        days = s.first("days")
        if days is not None and held.method == "board":
            held.board_days = frames.tidy(frames._days(days))
            self._days_for_all(s, days)
        if header:
            checked = [
                d for d in thread.lately(self.first_draft) if d.kind == "mite_check" and d.sentence == s.sentence
            ]
            if method is not None and checked and not cols and (s.has("pronoun", "every")) and stance.state == "done":
                for d in checked:
                    if d.slots.get("method") in (None, "wash", "roll"):
                        d.put("method", method.v["method"], method.rule)
                        d.spans.append((method.s, method.e))
                return
            if (
                stance.state == "done"
                and not (cols and self._check_verb(s))
                and not (cols and method is not None and self._later_counts(i))
            ):
                for m in (method, sample, days, *s.all("check")):
                    if m is not None:
                        thread.used.append((m.s, m.e))
                person = self._person(s)
                if person is None and self.last_person is not None and any(m.w in ("he", "she") for m in s.marks):
                    person = self.last_person[0]  # "Dov helped me today, he did the sugar rolls"
                if person is not None:
                    self.who_checked = (person, s.line)
                held.waiting = True
                held.titled = s.opens == "line" and held.yard_since < 0 and not held.cols
                return
            if stance.state == "done" and cols and not self._check_verb(s) and not self._later_counts(i):
                return
        pending = self._pending(i, s)
        if not header and pending and not cols:
            self._fill_pending(pending, drafts, s)
            return
        if (
            not header
            and not cols
            and not s.has("pronoun", "every")
            and method is None
            and s.has("mites") is False
            and s.has("percent") is False
            and not (held.method and held.cols and (s.opens != "line" or held.cols_line == s.line))
        ):
            return
        if cols:
            ids, yard = settle_ids(list(cols[0].v["ids"]), held.yard, self.outfit)
            if len(drafts) == len(ids) and len(ids) > 1 and not header:
                for cid, draft in zip(ids, drafts, strict=True):
                    draft.spans.append((cols[0].s, cols[0].e))
                    self._finish(i, s, stance, draft, Place(yard, [cid]))
                    made.append(draft)
                return
        pointed = s.first("pronoun")
        if not cols and pointed is not None and held.cols and not header and len(held.cols["ids"]) == len(drafts) > 1:
            for cid, draft in zip(list(held.cols["ids"]), drafts, strict=True):
                self._finish(
                    i, s, stance, draft, Place(held.cols["yard"] or held.yard, [cid])
                )  # "washed them: 5, 0, 7"
                made.append(draft)
            held.waiting = False
            return
        if self.correcting and cols and not header:
            ids, _ = settle_ids(list(cols[0].v["ids"]), held.yard, self.outfit)
            for old in reversed(thread.lately()):
                if old.kind == "mite_check" and old.slots.get("colonies") == ids and "mites" in old.slots:
                    for slot in ("mites", "mites_high", "per_100", "bees"):
                        if slot in drafts[0].slots and (slot != "bees" or sample is not None):
                            old.put(slot, drafts[0].slots[slot], drafts[0].why.get(slot, ""))
                    old.spans += drafts[0].spans
                    old.statement = thread.statements
                    return
        for draft in drafts:
            self._finish(i, s, stance, draft)
            made.append(draft)
            if stance.state == "not_done":
                self._said_twice(draft, s)
        held.waiting = False

    def _days_for_all(self, s: Statement, days: Mark) -> None:
        """ "all of those were in three days", said after the counts."""
        if not s.has("pronoun", "every"):
            return
        for d in self.thread.lately(self.first_draft):
            if (
                d.kind == "mite_check"
                and d.slots.get("method") == "board"
                and d.sentence == s.sentence
                and "board_days" not in d.slots
            ):
                d.put("board_days", self.held.board_days, days.rule)
                d.spans.append((days.s, days.e))

    def _left_undone(self, i: int, s: Statement, stance: Stance, made: list[Draft]) -> None:
        """ "didn't do B11": what was just done to others was not done to these."""
        if (
            stance.state != "not_done"
            or made
            or not s.has("cols")
            or s.has_head
            or s.has("noun", "queen_noun", "thing", "pronoun")
        ):
            return
        undone = (
            cues(s, "not")[-1:] == s.marks[-1:]
            or any(m.label == "verb" and m.v.get("does") == "do" for m in s.marks)
            or any(m.w.split()[-1] in ("do", "done", "to", "did") for m in cues(s, "not"))
        )
        last = next(
            (d for d in reversed(self.thread.lately(self.first_draft)) if d.kind in ("treatment", "gear", "feed")),
            None,
        )
        if not undone or last is None or last.sentence < s.sentence - 1:
            return
        keep = ("agent", "form", "product", "step", "item", "feed", "ratio")
        draft = Draft(last.kind, {k: v for k, v in last.slots.items() if k in keep}, [], dict(last.why))
        self._finish(i, s, stance, draft)
        made.append(draft)

    @staticmethod
    def _check_verb(s: Statement) -> bool:
        return any(
            (m.label == "method" and m.w.split()[-1].endswith("ed"))
            or (m.label == "check" and m.w.split()[0].endswith("ed"))
            or (m.label == "verb" and m.v.get("tense") == "past")
            for m in s.marks
        )

    def _later_counts(self, i: int) -> bool:
        """Whether the statement after this one has counts and no colony of its own."""
        after = (s for s in self.statements[i + 1 : i + 3] if not s.has("sample") or s.has("cols", "mites", "value"))
        nxt = next(after, None)  # "half cup" between the colonies and their counts is passed over
        return (
            nxt is not None
            and nxt.has("mites", "value", "clean", "percent")
            and not nxt.has("cols")
            and nxt.line == self.statements[i].line
        )

    def _pending(self, i: int, s: Statement) -> list[Draft]:
        """Checks of the statement before that still lack their count."""
        drafts = [
            d
            for d in self.thread.lately(self.first_draft)
            if d.kind == "mite_check"
            and (
                d.statement == self.thread.statements - 1
                or (d.statement == self.thread.statements - 2 and d is self.thread.drafts[-1] and d.line == s.line)
            )
        ]
        return [d for d in drafts if not {"mites", "per_100"} & set(d.slots) and d.slots.get("state", "done") == "done"]

    def _fill_pending(self, pending: list[Draft], drafts: list[Draft], s: Statement) -> None:
        target = pending[0]
        ids = target.slots.get("colonies", [])
        extra = ("mites", "mites_high", "per_100", "bees", "approx", "board_days")
        if len(drafts) == len(ids) and len(ids) > 1:
            at = self.thread.place_of(target)
            copies = []
            for cid, draft in zip(ids, drafts, strict=True):
                copy = Draft(
                    target.kind,
                    dict(target.slots),
                    list(target.spans),
                    dict(target.why),
                    target.sentence,
                    target.line,
                    self.thread.statements,
                )
                copy.slots["colonies"] = [cid]
                self._merge(copy, draft, extra)
                copies.append(copy)
            self.thread.drafts[at : at + 1] = copies
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
                    self.thread.statements,
                )
                self._merge(copy, draft, extra)
                self.thread.drafts.append(copy)
            else:
                self._merge(target, draft, extra)
                target.statement = self.thread.statements

    def _inspection(self, i: int, s: Statement, stance: Stance, draft: Draft, made: list[Draft]) -> None:
        if draft.slots and stance.state == "conditional":
            return
        if draft.slots and stance.state == "not_done":
            stance = Stance(state="done", carried=stance.when)
        if draft.slots and stance.state == "planned" and stance.when is None:
            # "still weak, will combine": what was seen was seen, whatever is planned in the same breath
            stance = Stance(state="done")
        if draft.slots.get("strength") == "fair" and self._stores_spoken_of(s):
            draft.slots.pop("strength")
            draft.put("stores", "fair", draft.why.pop("strength"))  # "hefted … three's heavy, four is fair"
        before = self.thread.drafts[-1] if self.thread.drafts else None
        if (
            set(draft.slots) == {"mark"}
            and not s.has("cols")
            and before is not None
            and before.kind == "queen_work"
            and before.sentence == s.sentence
            and "mark" not in before.slots
        ):
            before.put("mark", draft.slots["mark"], draft.why.get("mark", ""))  # "requeened 41, green mark"
            before.spans += draft.spans
            return
        place, used = self._place(i, s, "inspection", stance)
        if not place.colonies and not place.every and place.count is None:
            return
        self._finish(i, s, stance, draft, place, add=False)
        for m in used:
            draft.spans.append((m.s, m.e))
        for old in self.thread.lately():
            if old.kind == "inspection" and self._same_visit(old, draft):
                self._join(old, draft)
                old.statement = self.thread.statements
                return
        self._share(i, s, draft)
        if draft.slots.get("colonies") or not place.colonies:
            self._add(i, s, draft)
            made.append(draft)

    def _stores_spoken_of(self, s: Statement) -> bool:
        """Whether the colonies before, in the same sentence or line, were spoken of by their stores."""
        near = [
            d
            for d in self.thread.lately(self.first_draft)
            if d.kind == "inspection" and (d.sentence == s.sentence or d.line in (s.line, s.line - 1))
        ]
        return any("stores" in d.slots for d in near) and not any("strength" in d.slots for d in near)

    def _share(self, i: int, s: Statement, draft: Draft) -> None:
        """One inspection a colony and day: what is said of a group goes to its colonies' own records, and back."""
        ids = list(draft.slots.get("colonies", []))
        if not ids:
            return
        for old in self.thread.lately():
            mine = old.slots.get("colonies", [])
            common = [cid for cid in ids if cid in mine]
            if old.kind != "inspection" or not common or not self._same_visit(old, draft, but=("colonies",)):
                continue
            if len(common) < len(mine):  # the group's record is split
                at = self.thread.place_of(old)
                part = Draft(
                    old.kind, dict(old.slots), list(old.spans), dict(old.why), old.sentence, old.line, old.statement
                )
                if "signs" in part.slots:
                    part.slots["signs"] = list(part.slots["signs"])
                part.slots["colonies"] = common
                old.slots["colonies"] = [cid for cid in mine if cid not in common]
                self.thread.drafts.insert(at + 1, part)
                old = part
            self._join(
                old,
                Draft(
                    draft.kind,
                    {k: v for k, v in draft.slots.items() if k != "colonies"},
                    list(draft.spans),
                    dict(draft.why),
                ),
            )
            old.statement = self.thread.statements
            ids = [cid for cid in ids if cid not in common]
        if ids:
            draft.slots["colonies"] = ids
        else:
            draft.slots.pop("colonies")

    def _same_visit(self, a: Draft, b: Draft, but: tuple[str, ...] = ()) -> bool:
        return all(
            k in but or a.slots.get(k) == b.slots.get(k)
            for k in ("colonies", "on", "on_until", "yard", "every_colony", "except_colonies", "colony_count", "by")
        ) and a.slots.get("state") == b.slots.get("state")

    @staticmethod
    def _join(old: Draft, new: Draft) -> None:
        for slot, value in new.slots.items():
            if slot == "signs":
                old.slots["signs"] = [
                    *old.slots.get("signs", []),
                    *(x for x in value if x not in old.slots.get("signs", [])),
                ]
            elif slot == "queen":
                frames._set_slot(old, "queen", value, new.why.get("queen", ""))
            else:
                old.slots[slot] = value
            old.why[slot] = new.why.get(slot, "")
        old.spans += new.spans
        if "queen_cells" in old.slots and old.slots.get("cells_seen"):
            del old.slots["cells_seen"]

    def _weather(self, i: int, s: Statement, stance: Stance, draft: Draft) -> None:
        if stance.state == "conditional":
            return  # "if it stays under sixty degrees": no weather yet
        if stance.state != "done":
            stance = Stance(state="done", carried=stance.when if not stance.plan else None)
        self._finish(i, s, stance, draft, Place(self.held.yard or self._only_yard()), add=False)
        for m in s.all("yard"):
            draft.spans.append((m.s, m.e))
        for old in self.thread.lately(self.first_draft):
            if (
                old.kind == "conditions"
                and all(old.slots.get(k) == draft.slots.get(k) for k in ("yard", "on", "by"))
                and not (set(old.slots) & set(draft.slots) & {"temp", "high", "low", "sky", "flow"})
            ):
                old.slots.update(draft.slots)
                old.why.update(draft.why)
                old.spans += draft.spans
                return
        self._add(i, s, draft)

    def _only_yard(self) -> str | None:
        """The yard of all that this sender has said so far, where no yard was named and the colonies give one."""
        yards = {d.slots.get("yard") for d in self.thread.lately(self.first_draft)}
        return next(iter(yards)) if len(yards) == 1 else None

    def _name_frames(self, s: Statement) -> None:
        """ "two: five frames of bees; three: six frames": bare frames are of the kind counted last, cells are seen."""
        last = self._last("inspection", s.sentence)
        kind = next(
            (x for x in ("bee_frames", "brood_frames", "food_frames") if last is not None and x in last.slots), None
        )
        changed = False
        for m in s.all("noun", "queen_noun"):
            if "n" not in m.v or m.v.get("taken"):
                continue
            if (
                m.v.get("noun") == "frames"
                and kind is not None
                and s.has("cols")
                and not s.has("verb", "honey", "harvest")
            ):
                m.label, m.v = "fact", {"kind": "inspection", "number": kind, "n": m.v["n"]}
                changed = True
            elif (
                m.label == "queen_noun"
                and m.v.get("noun") == "cells"
                and s.has("cols")
                and not s.has("queen_work", "change")
                and not any(x.v.get("dir") for x in s.all("verb"))
                and not any(x.w in ("into", "in", "for") for x in s.marks if x.label == "w")
            ):
                m.label, m.v = "fact", {"kind": "inspection", "number": "queen_cells", "n": m.v["n"]}
                changed = True
        if changed:
            s.seal()

    def _unknown_word(self, i: int, s: Statement, stance: Stance, made: list[Draft]) -> None:
        """ "put bluebands in 12": a word nobody has taught, in the place of a treatment, becomes a question."""
        if s.has_head or not s.has("cols", "every", "hives", "yard") or frames.going_out(s) is None:
            return
        earlier = self.statements[i - 1] if i and self.statements[i - 1].sentence == s.sentence else None
        if earlier is not None and not earlier.has_head and s.has("cols") and s.has("each") and s.has("verb"):
            # "got some bluetabs off a fella, put 2 each in H3 and H4"
            word = next((m for m in earlier.marks if m.label == "w" and self._strange(m.w)), None)
            if word is not None:
                self._ask_word(i, s, stance, made, word)
                return
        for k, m in enumerate(s.marks):
            if m.label != "w" or not self._strange(m.w):
                continue
            before, after = frames.neighbour(s, k, -1), frames.neighbour(s, k, 1)
            if (
                before is not None
                and before.label == "w"
                and before.w in ("the", "a", "an", "some", "those", "all", "more", "of")
            ):
                before = frames.neighbour(s, k - 1, -1)
            placed = (
                before is None
                or before.label in ("number", "value", "comma", "cue", "filler", "cols")
                or (before.label == "verb" and before.v.get("dir"))
                or before.w in (":", "-", "–", "and")
            )
            put = after is not None and (
                after.w in ("in", "on", "out", "off", "into", "from", "onto")
                or after.label in ("verb", "each", "every")
            )
            if not (placed and put):
                continue
            self._ask_word(i, s, stance, made, m)
            return

    def _ask_word(self, i: int, s: Statement, stance: Stance, made: list[Draft], m: Mark) -> None:
        draft = Draft("treatment")
        draft.put("product", m.w, "a word not known")
        draft.put("step", "out" if frames.going_out(s) else "in", "in or out")
        number = next((x for x in s.all("number", "value") if "n" in x.v), None)
        if number is not None:
            draft.put("amount", frames.tidy(frames.number_of(number).value), "number beside it")
            draft.spans.append((number.s, number.e))
        draft.spans.append((m.s, m.e))
        self._finish(i, s, stance, draft)
        made.append(draft)
        ask = f'What is "{m.w}"? If it is a treatment, say which; it is then kept in the roster under [words].'
        self.thread.questions.append((draft, ask, [*TREATMENT_CHOICES, "not a treatment"], "unknown_word", m.w))

    def _strange(self, word: str) -> bool:
        if len(word) < 4 or not word.isalpha() or word in speech().known or word in self.outfit.phrases.vocabulary:
            return False
        known = {w.lower() for w in self.outfit.roster.words}
        return word not in known and word not in common_words()

    def _modifiers(self, i: int, s: Statement, made: list[Draft], stance: Stance) -> None:
        """ "they stay in fourteen days", "two each": more said of what was just put in."""
        if made or self._recent():
            return
        grafted = self._last("queen_work", s.sentence)
        if (
            grafted is not None
            and grafted is self.thread.drafts[-1]
            and grafted.slots.get("step") in ("grafted", "cells_placed")
            and "count" not in grafted.slots
            and any(m.v.get("does") == "do" for m in s.all("verb"))
            and len(s.all("number")) == 1
            and not s.has("cols")
        ):
            number = s.all("number")[0]  # "the grafts out of the breeder, I did thirty two yesterday"
            grafted.put("count", frames.tidy(frames.number_of(number).value), number.rule)
            grafted.spans.append((number.s, number.e))
            if s.has("date"):
                self._day(i, s, stance, grafted)
            grafted.statement = self.thread.statements
            return
        last = next(
            (
                d
                for d in reversed(self.thread.lately(self.first_draft))
                if d.kind in ("treatment", "gear", "feed") and (d.sentence >= s.sentence - 1)
            ),
            None,
        )
        if last is None or s.has("cols", "mites", "value"):
            return
        days = s.first("days")
        rounds = s.first("round")
        unit = s.first("unit")
        group = [
            d for d in self.thread.lately(self.first_draft) if d.statement == last.statement and d.kind == last.kind
        ]
        if (
            rounds is not None
            and stance.state == "planned"
            and last.kind == "treatment"
            and last.slots.get("round") != frames.number_of(rounds).value
            and last.slots.get("state", "done") == "done"
        ):
            copy = Draft(
                "treatment",
                {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step")},
                [(rounds.s, rounds.e)],
                dict(last.why),
            )
            copy.put("round", int(frames.number_of(rounds).value), rounds.rule)
            self._finish(
                i,
                s,
                stance,
                copy,
                Place(
                    last.slots.get("yard"),
                    last.slots.get("colonies"),
                    bool(last.slots.get("every_colony")),
                    last.slots.get("except_colonies"),
                    last.slots.get("colony_count"),
                ),
            )
            return
        for d in group:
            if d.kind == "treatment":
                if days is not None and "days" not in d.slots:
                    d.put("days", frames.tidy(frames._days(days)), days.rule)
                    d.spans.append((days.s, days.e))
                if rounds is not None and "round" not in d.slots:
                    d.put("round", int(frames.number_of(rounds).value), rounds.rule)
                    d.spans.append((rounds.s, rounds.e))
                if unit is not None and "amount" not in d.slots:
                    d.put("amount", frames.tidy(frames.number_of(unit).value), unit.rule)
                    d.put("unit", unit.v["unit"], unit.rule)
                    d.spans.append((unit.s, unit.e))
            each = s.first("each")
            numbers = s.all("number")
            if each is not None and numbers:
                value = frames.tidy(frames.number_of(numbers[0]).value)
                if (
                    d.kind == "treatment"
                    and "amount" not in d.slots
                    and d.slots.get("form") in ("strip", "pad", "wafer", "sponge")
                ):
                    d.put("amount", value, "number each")
                    d.put("unit", d.slots["form"], "form")
                elif d.kind == "gear" and "count" not in d.slots:
                    d.put("count", value, "number each")
                elif d.kind == "feed" and "amount" not in d.slots and d.slots.get("feed") == "pollen_patty":
                    d.put("amount", value, "number each")
                    d.put("unit", "patty", "number each")
                d.spans += [(each.s, each.e), (numbers[0].s, numbers[0].e)]
            amount = s.first("amount")
            if d.kind == "feed" and amount is not None and "amount" not in d.slots:
                value, word = frames.amount_of(amount)
                d.put("amount", frames.tidy(value), amount.rule)
                if word:
                    d.put("unit", word, amount.rule)
                d.spans.append((amount.s, amount.e))
            if (
                s.has("every")
                and not s.has("fact", "verb")
                and "colonies" not in d.slots
                and "colony_count" not in d.slots
                and d.slots.get("yard")
            ):
                d.put("every_colony", True, "every colony")
                for m in s.all("every"):
                    d.spans.append((m.s, m.e))

    def _same(self, s: Statement, same: Mark, stance: Stance) -> bool:
        """ "same for 15", "ditto", "43: same as 42": the records of the colony before, once more."""
        cols = list(s.all("cols"))
        source: list[Draft] = []
        target = None
        at = frames.index_of(s, same)
        after = [m for m in cols if frames.index_of(s, m) > at]
        before = [m for m in cols if frames.index_of(s, m) < at]
        drafts = [d for d in self.thread.lately(self.first_draft) if d.kind not in ("conditions", "todo")]
        if not drafts:
            drafts = [d for d in self.thread.lately() if d.kind not in ("conditions", "todo")]
        if not drafts or s.has("value", "mites", "percent"):
            return False  # "same thing over at wens, seventy had three" says its own counts
        if before and after and same.w.split()[-1] in ("as", "with"):
            target = before[0]
            ids, _ = settle_ids(list(after[0].v["ids"]), self.held.yard, self.outfit)
            source = [d for d in drafts if d.slots.get("colonies") == ids]
        elif after or before:
            target = (after or before)[0]
        else:
            return False
        ids, yard = settle_ids(list(target.v["ids"]), self.held.yard, self.outfit)
        if not source:
            last = drafts[-1]
            key = last.slots.get("colonies")
            run = []
            for d in reversed(drafts):
                if d.slots.get("colonies") != key or (d.statement != last.statement and d.line != last.line):
                    break
                run.append(d)
            source = list(reversed(run))
        for d in source:
            copy = Draft(d.kind, dict(d.slots.items()), [(same.s, same.e), (target.s, target.e)], dict(d.why))
            if "signs" in copy.slots:
                copy.slots["signs"] = list(copy.slots["signs"])
            copy.put("colonies", ids, "same for")
            for slot in ("every_colony", "except_colonies", "colony_count"):
                copy.slots.pop(slot, None)
            if yard:
                copy.put("yard", yard, "yard")
            if stance.when is not None:
                copy.put("on", stance.when[0].isoformat(), "date")
            for m in after + before:
                copy.spans.append((m.s, m.e))
            self._add(0, s, copy)
            if copy.kind == "treatment":
                self.thread.last_treatment = copy
        return bool(source)

    def _ellipsis(self, i: int, s: Statement, stance: Stance) -> bool:
        """ "supers on L1-L12 1 ea, L13 thru L20 2 ea"; "three and a half in 51": the same thing with another number."""
        cols = [m for m in s.all("cols") if not self._is_exception(s, m)]
        heads = [m for m in s.marks if m.label in HEADS and m.label not in ("value",)]
        numbers = s.all("number", "value")
        if not cols or heads or (stance.state != "done" and not cues(s, "plan")):
            return False
        if s.has("method", "check", "queen_noun", "noun", "same") or held_value(s, self.held.method):
            return False
        recent = [
            d
            for d in self.thread.lately(self.first_draft)
            if d.kind in ("gear", "treatment", "feed", "inspection") and d.slots.get("state", "done") == stance.state
        ]
        if not recent or not numbers or (self.held.method and recent[-1].kind not in ("gear", "treatment", "feed")):
            return False
        last = recent[-1]
        if last.sentence != s.sentence and last.line != s.line - 1 and last.line != s.line:
            return False
        source = [d for d in recent if d.statement == last.statement and d.kind == last.kind][-1:]
        number = numbers[0] if numbers else None
        none = number is not None and frames.number_of(number).value == 0
        if none:
            if stance.state != "done" or source[0].kind not in ("gear", "treatment", "feed"):
                return False
            stance = Stance(
                state="not_done", today=stance.today, hemisphere=stance.hemisphere
            )  # "a super on 30, but none on 37"
        done = False
        for d in source:
            copy = Draft(
                d.kind,
                {k: v for k, v in d.slots.items() if k not in _OWN_SLOTS and k != "approx"},
                [],
                dict(d.why),
            )
            if none:
                for dropped in ("count", "amount", "unit"):
                    copy.slots.pop(dropped, None)
                copy.spans.append((number.s, number.e))  # type: ignore[union-attr]
            elif number is not None:
                value = frames.tidy(frames.number_of(number).value)
                slot: str | None = next(
                    (
                        x
                        for x in ("count", "amount", "brood_frames", "bee_frames", "food_frames", "queen_cells")
                        if x in copy.slots
                    ),
                    None,
                )
                if slot is None:
                    slot = {"gear": "count", "treatment": "amount"}.get(d.kind)
                    if d.kind == "feed" and d.slots.get("feed") == "pollen_patty":
                        slot = "amount"
                        copy.put("unit", "patty", "number each")
                    if slot is None:
                        return False
                    if slot == "amount" and d.slots.get("form") in ("strip", "pad", "wafer", "sponge"):
                        copy.put("unit", d.slots["form"], "form")
                copy.put(slot, value, "the same thing with another number")
                copy.spans.append((number.s, number.e))
                if frames.is_approx(s, number):
                    copy.put("approx", True, "about")
            if d.kind == "inspection":
                copy.slots = {
                    k: v
                    for k, v in copy.slots.items()
                    if k in ("brood_frames", "bee_frames", "food_frames", "queen_cells", "cell_type")
                    and (k == slot or k == "cell_type")
                }
            self._finish(i, s, stance, copy)
            if (
                d is self.thread.drafts[-2]
                and d.why.get("every_colony") == WHOLE_YARD
                and not {"count", "amount"} & set(d.slots)
                and d.statement == self.thread.statements - 1
            ):
                copy.spans += d.spans  # "patties on at larks, L1 to L9 one each": the colonies are named after all
                self.thread.drafts.remove(d)
            done = True
        return done

    def _gap(self, i: int, s: Statement, stance: Stance) -> bool:
        """ "wash fifty nine in ten days and sixty two in a month": the same plan for another colony, another day."""
        last = self.thread.drafts[-1] if self.thread.drafts else None
        if (
            last is None
            or last.statement != self.thread.statements - 1
            or last.line != s.line
            or (last.slots.get("state") != "planned" and last.kind not in ("treatment", "gear", "feed"))
            or last.kind in ("todo", "conditions", "change")
            or not (s.has("cols", "yard") and s.has("date"))
            or any(
                m.label not in ("cols", "yard", "date", "filler", "comma", "hive") and m.w not in ("and", "at", "the")
                for m in s.marks
            )
        ):
            return False
        copy = Draft(last.kind, {k: v for k, v in last.slots.items() if k not in _OWN_SLOTS}, [], dict(last.why))
        ahead = last.slots.get("state") == "planned"
        if not ahead:
            day = Stance(
                "done", said=stance.said, ahead=stance.ahead, today=stance.today, hemisphere=stance.hemisphere
            ).when
            ahead = stance.ahead is True or bool(day and day[0] > self.today)
        state = "planned" if ahead else "done"
        self._finish(
            i, s, Stance(state, said=stance.said, ahead=ahead, today=stance.today, hemisphere=stance.hemisphere), copy
        )
        return True

    def _pair_again(self, i: int, s: Statement, stance: Stance) -> bool:
        """ "split 45 into 58 and 46 into 59": the same change of another pair."""
        last = self.thread.drafts[-1] if self.thread.drafts else None
        cols = s.all("cols")
        if (
            last is None
            or last.kind != "change"
            or last.slots.get("step") not in ("split", "combined", "moved")
            or last.sentence != s.sentence
            or len(cols) != 2
            or any(
                m.label not in ("cols", "comma", "filler", "hive") and m.w not in ("and", "into", "with", "then")
                for m in s.marks
            )
        ):
            return False
        ids, yard = settle_ids(list(cols[0].v["ids"]), self.held.yard, self.outfit)
        other, _ = settle_ids(list(cols[1].v["ids"]), yard, self.outfit)
        copy = Draft("change", {"step": last.slots["step"], "with": other}, [], dict(last.why))
        copy.spans += [(m.s, m.e) for m in cols]
        self._finish(i, s, Stance(last.slots.get("state", "done"), today=self.today), copy, Place(yard, ids))
        for slot in ("on", "on_until"):
            if slot in last.slots:
                copy.put(slot, last.slots[slot], "the day of the pair before")
        return True

    def _elsewhere(self, i: int, s: Statement, stance: Stance) -> bool:
        """ "lost five at cut bank and two at wens": the same change, another number at another yard."""
        last = self.thread.drafts[-1] if self.thread.drafts else None
        numbers = s.all("number")
        if (
            last is None
            or last.kind != "change"
            or last.sentence != s.sentence
            or last.statement != self.thread.statements - 1
            or len(numbers) != 1
            or not s.has("yard")
            or any(
                m.label not in ("number", "yard", "filler", "comma", "approx")
                and m.w not in ("and", "at", "from", "in", "the", "then", "another")
                for m in s.marks
            )
        ):
            return False
        slot = next((x for x in ("colony_count", "count") if x in last.slots), None)
        if slot is None:
            return False
        copy = Draft("change", {"step": last.slots["step"]}, [(numbers[0].s, numbers[0].e)], dict(last.why))
        copy.put(slot, frames.tidy(frames.number_of(numbers[0]).value), "the same at another yard")
        self._finish(i, s, stance, copy, Place(self.held.yard))
        for m in s.all("yard"):
            copy.spans.append((m.s, m.e))
        return True

    @staticmethod
    def _imperative(s: Statement) -> bool:
        """ "someone bring the long ladder Saturday": an order with a day, or said to somebody."""
        words = [
            m
            for m in s.marks
            if (m.label in ("w", "person") or (m.label == "change" and m.v["step"] == "bought"))
            and m.w.split()[0] not in BULLETS
            and m.w not in ("and", "then", "also", "so", "please", "hey", "just", ",", "to")
        ]
        someone = bool(words) and (words[0].w in ("someone", "somebody") or words[0].label == "person")
        first = words[1] if someone and len(words) > 1 else (words[0] if words else None)
        if first is not None and first.w in ("i'm", "we're", "i", "we") and s.has("date"):
            after = frames.neighbour(s, frames.index_of(s, first), 1)
            first = after if after is not None and after.w.removesuffix("ing") in _TODO_VERBS else first
        return (
            first is not None
            and first.w.removesuffix("ing") in _TODO_VERBS
            and (someone or s.has("date") or s.opens != "line")
            and tense(s) != "past"
        )

    @staticmethod
    def _deadline(s: Statement) -> bool:
        """ "mow the track by the 9th": an order with a last day."""
        date_mark = s.first("date")
        if date_mark is None or s.has_head or s.has("cols", "verb", "pronoun", "cue"):
            return False
        before = frames.neighbour(s, frames.index_of(s, date_mark), -1)
        words = [m for m in s.marks if m.label == "w" and m.w.isalpha()]
        return before is not None and before.w == "by" and len(words) > 2 and words[0].w not in _EMPTY_TODO

    def _other_dose(self, i: int, s: Statement, stance: Stance) -> bool:
        """ "52 got thirty mil": the treatment before, another dose."""
        heads = [m for m in s.marks if m.label in HEADS]
        last = self.thread.last_treatment
        if (
            not s.has("cols")
            or len(heads) != 1
            or heads[0].label != "unit"
            or last is None
            or stance.state != "done"
            or s.has("feed", "item")
        ):
            return False
        if last.slots.get("step") != "in" or last.sentence < s.sentence - 1:
            return False
        if (
            last is self.thread.drafts[-1]
            and last.why.get("every_colony") == WHOLE_YARD
            and "amount" not in last.slots
            and last.statement == self.thread.statements - 1
        ):
            # "sprayed the nucs at the pond, n one and n two thirty mil each": the dose names the colonies
            self.thread.drafts.pop()
            last.slots.pop("every_colony")
            last.put("amount", frames.tidy(frames.number_of(heads[0]).value), heads[0].rule)
            last.put("unit", heads[0].v["unit"], heads[0].rule)
            last.spans.append((heads[0].s, heads[0].e))
            day: dict[str, Any] = {slot: last.slots[slot] for slot in ("on", "on_until") if slot in last.slots}
            self._finish(i, s, stance, last)
            last.slots.update(day)
            return True
        if last.sentence != s.sentence:
            return False
        copy = Draft(
            "treatment",
            {k: v for k, v in last.slots.items() if k in ("agent", "form", "product", "step", "round")},
            [],
            dict(last.why),
        )
        copy.put("amount", frames.tidy(frames.number_of(heads[0]).value), heads[0].rule)
        copy.put("unit", heads[0].v["unit"], heads[0].rule)
        copy.spans.append((heads[0].s, heads[0].e))
        self._finish(i, s, stance, copy)
        return True

    def _todo(self, i: int, s: Statement, stance: Stance, drafts: list[Draft], stances: list[Stance]) -> None:
        if drafts or stance.asked or self._recent() or s.has("days"):
            return
        plans = cues(s, "plan")
        heading = stance.state == "planned" and not plans and s.opens == "line" and self.headed[i] == "planned"
        if not plans and not heading and self._imperative(s):
            stance.state = "planned"
            plans = [next(m for m in s.marks if m.w.removesuffix("ing") in _TODO_VERBS)]
            at_verb = True
        else:
            at_verb = False
        deadline = not plans and not heading and self._deadline(s)
        if deadline:
            stance.state = "planned"
        if not plans and not heading and not deadline:
            return
        signs_only = all("sign" in m.v for m in s.all("fact")) and not s.has("cols", "pronoun") and bool(plans)
        if s.has("mites", "value") or (
            s.has("fact") and not (signs_only and plans[0].w.startswith(("need", "remember")))
        ):
            return  # "need to set mouse poison in the shed" is a job, and no sign of mice
        if plans and plans[0].w.endswith("doing") and not s.has("date"):
            return  # "I'm doing this on my own"
        if plans and (
            cues(s, "not")
            or plans[0].w.startswith("coming")
            or (plans[0].w in ("plan", "plans", "ahead") and not s.has("date"))
        ):
            return  # "wasn't gonna stop", "plan from here"
        at = frames.index_of(s, plans[0]) - at_verb if plans else -1
        need = plans and plans[0].w in ("need", "needs", "want", "wants", "still need", "still needs", "need some")
        words: list[Mark] = []
        for m in s.marks[at + 1 :]:
            if m.label in ("comma", "filler", "date") or m.w in ("*", "-", "·", "•", "–", ":"):
                if words and m.label in ("filler",) and m.w not in ("like",):
                    break
                continue
            if m.label == "yard" and (heading or m is s.marks[at + 1]) and not words:
                continue
            if m.label == "yard" and words and words[-1].w in ("at",):
                words.pop()
                continue
            words.append(m)
        while words and words[-1].w in ("by", "on", "before", "until", "till", "for", "and", "so", "the", "in"):
            words.pop()
        while words and words[0].w in ("and", "the", "i", "we", "to", "then"):
            words.pop(0)
        if s.has("heading") or not any(
            m.label not in ("w", "pronoun", "verb") or m.w not in _EMPTY_TODO for m in words
        ):
            return
        if (len(words) < 2 and not need) or not words:
            return
        draft = Draft("todo")
        text = " ".join(m.w for m in words)
        if need:
            text = f"need {text}"
        draft.put("text", text, "plan without a kind")
        draft.put("state", "planned", "cue")
        when = stance.when
        if when is not None:
            draft.put("on", when[0].isoformat(), "date")
            if when[1] != when[0]:
                draft.put("on_until", when[1].isoformat(), "date")
        if self.held.yard and s.has("yard"):
            draft.put("yard", self.held.yard, "yard that holds")
        draft.spans.append((words[0].s, words[-1].e))
        for m in (*plans, *s.all("date", "yard")):
            draft.spans.append((m.s, m.e))
        person = self._person(s)
        if person is not None:
            draft.put("by", person.v["value"], "person")
        self._add(i, s, draft)


def method_after_counts(s: Statement) -> Mark | None:
    """The method where it is said after the counts ("… and sixteen none, that was alcohol wash")."""
    method = s.first("method")
    count = s.first("mites", "value", "clean")
    if method is None or (count is not None and frames.index_of(s, method) < frames.index_of(s, count)):
        return None
    return method


def _count_cells(s: Statement, method: str | None) -> None:
    """ "swarm cells in 18, I counted seven", "supersedure cells, three of them": the number is of the cells."""
    cells = next((m for m in s.all("fact") if m.v.get("set", {}).get("cells_seen") and "n" not in m.v), None)
    if cells is None:
        return
    for m in s.marks[frames.index_of(s, cells) + 1 :]:
        if m.label == "fact":
            return
        counted = m.label == "mites" and m.w.startswith("counted") and method is None
        if counted or (m.label == "hives" and m.w.endswith("of them")):
            cells.v = {**cells.v, "number": "queen_cells", "n": m.v["n"]}
            cells.v.setdefault("struck", []).append((m.s, m.e))
            m.label, m.v = "w", {}
            s.seal()
            return


def held_value(s: Statement, method: str | None) -> bool:
    """Whether the statement counts mites by a method said before."""
    return method is not None and s.has("value", "mites", "clean", "percent")


def read_message(
    thread: Thread, statements: list[Statement], today: date, sender: str | None, correcting: bool
) -> None:
    """Reads one message's statements into the thread's drafts."""
    _Message(thread, statements, today, sender, correcting).read()
