"""Done, planned, not done, conditional or asked? Cue words with their reach, the tense of the verb, the day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import islice, pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.dates import When, resolve
from fieldnotes.reader.frames.marks import alone_on_weekday, index_of
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import DEEDS, THINGS, Mark
from fieldnotes.reader.parting.about import before_thing
from fieldnotes.reader.parting.words import SAID_OF_SUBJECT

_HEAD_LABELS = frozenset(
    (
        "fact method mites clean percent value check agent form unit item feed harvest moisture queen_work change "
        "temp sky queen_noun noun"
    ).split()
)


@dataclass(slots=True)
class Stance:
    """How a statement is meant: `state`, whether it is a question, where its negation begins, and its day."""

    state: str = "done"
    asked: bool = False
    condition_only: bool = False
    negated_from: int | None = None
    said: When | None = None
    ahead: bool | None = None
    today: date = date.min
    hemisphere: str = "north"
    carried: tuple[date, date] | None = None

    @property
    def plan(self) -> bool:
        """Whether its day lies ahead of the message."""
        if self.state in ("planned", "conditional"):
            return True
        return self.state == "not_done" and self.ahead is True

    @property
    def when(self) -> tuple[date, date] | None:
        """First and last day said, worked out by the state as it stands now."""
        if self.said is None:
            return self.carried
        return resolve(self.said, self.today, self.plan, self.hemisphere)

    def turned(self, state: str, ahead: bool | None = None) -> Stance:
        """The same words of the day, meant of another state; its day lies `ahead` or not as said, if not given."""
        ahead = self.ahead if ahead is None else ahead
        return Stance(state, said=self.said, ahead=ahead, today=self.today, hemisphere=self.hemisphere)


def cues(statement: Statement, kind: str) -> list[Mark]:
    """The cue marks of that kind."""
    if not statement.has("cue"):
        return []
    return [m for m in statement.marks if m.label == "cue" and m.v.get("cue") == kind]


_FOUND = frozenset(["found", "saw", "noticed", "spotted"])
_TENSED = frozenset("verb harvest queen_work change method check form item".split())
"""Labels of the marks that can have a tense."""


_GIVEN_OUT = frozenset("mites value clean percent".split())
_A_LOOK = frozenset("first quick a good last proper".split())


def tense(statement: Statement) -> str:
    """ "past", "base", "ing" or "" by the verbs of work in the statement."""
    found = ""
    if not statement.has_any(_TENSED):
        return found
    for k, m in enumerate(statement.marks):
        if m.label == "w":
            if m.w in _FOUND:
                return "past"  # "found mites just looking at the bees"
            continue
        if m.label not in _TENSED:
            continue
        if m.v.get("does") == "feed" and k + 1 < len(statement.marks) and statement.marks[k + 1].w == ":":
            continue  # "feed: 41 42 2 gal": a heading, no order
        t = ""
        if m.label in ("verb", "harvest"):
            t = m.v.get("tense", "")
            if (
                m.w.startswith("look ")
                and k
                and (statement.marks[k - 1].label == "ordinal" or statement.marks[k - 1].w in _A_LOOK)
            ):
                continue  # "first look at heath and two gone"
            if m.v.get("does") == "do":
                t = (
                    "past"
                    if m.w.split()[0] in ("did", "done", "finished", "completed", "ran", "got", "took")
                    else ("ing" if m.w in ("doing", "doin") else "base")
                )
        else:
            t = m.v.get("tense") or _by_ending(m)
            if m.w in ("moves", "combines", "sells") and k and statement.marks[k - 1].label == "person":
                t = "base"  # "Ines moves ten hives on saturday"
            if m.label == "method" and m.w in ("wash", "roll") and _orders_a_check(statement, k):
                t = "base"  # "we wash hives one through five tuesday", "wash eight and nine on the twentieth"
        if (
            t == "base"
            and m.label != "verb"
            and " " not in m.w
            and k
            and statement.marks[k - 1].w in ("a", "the", "one", "another", "quick")
        ):
            t = ""  # "just a clip"
        if m.w == "gives" and k + 1 < len(statement.marks) and statement.marks[k + 1].label in _GIVEN_OUT:
            t = ""  # "hive nine gives six mites"
        if t == "ing" and k and statement.marks[k - 1].w in ("been", "was", "were"):
            t = "past"  # "been pulling honey all morning"
        if t == "base" and k and statement.marks[k - 1].w in ("have", "has", "had", "'ve", "i've", "we've"):
            t = "past"  # "the strips have come out"
        if t == "past" and k and statement.marks[k - 1].w == "to" and m.w.split()[0] in _SAME_IN_THE_PAST:
            t = "base"  # "and to put the pads in"
        if t == "base" and k > 1 and statement.marks[k - 1].w == "to" and statement.marks[k - 2].w == "had":
            t = "past"  # "had to pull the pads early"
        if t == "base" and k > 1 and statement.marks[k - 2].w in ("helped", "let", "made", "watched", "had"):
            t = "past" if statement.marks[k - 1].w in _MADE_TO else t  # "Ines helped me move N1"
        if t == "past" and k > 1 and statement.marks[k - 1].w == "being" and statement.marks[k - 2].w == "are":
            t = "ing"  # "two more nucs are being sold on the twentieth"
        if t == "past":
            before = before_thing(statement.marks, k)
            if (before is not None and before.label == "verb" and before.w in ("get", "gets", "getting")) or (
                before is not None and before.w == "be"
            ):
                found = "base"
                continue
            return "past"
        if t and not found:
            found = t
    return found


_SAME_IN_THE_PAST = frozenset(["put", "set", "split", "cut", "shut"])


def _orders_a_check(statement: Statement, k: int) -> bool:
    """Whether "wash" at `k` is the verb: after "we", or before the colonies, with a day and no count."""
    if k and statement.marks[k - 1].w in ("i", "we"):
        return True
    opens = all(m.label in ("filler", "comma") or m.w in ("so", "and", "then") for m in statement.marks[:k])
    named = k + 1 < len(statement.marks) and statement.marks[k + 1].label in ("cols", "every", "yard", "hive")
    return opens and named and statement.has("date") and not statement.has(*_GIVEN_OUT)


_BASE_WORDS = listed("to_be_done")
_PAST_WORDS = listed("was_done")
_LATE_TODAY = listed("late_today")
_TO_PLACE_CELLS = listed("to_place_cells")
_CHECKS_AGAIN = listed("checks_to_do")


_MADE_TO = frozenset("me us him her them".split())


def _by_ending(m: Mark) -> str:
    words = m.w.split()
    word = words[0]
    if m.label == "queen_work" and m.v.get("step") in ("cells_placed", "introduced"):
        if not _TO_PLACE_CELLS.isdisjoint(words) or words[:1] == ["to"]:
            return "base"
        if any(x.endswith("ing") for x in words):
            return "ing"
        return "past" if any(x.endswith("ed") or x in ("went", "gave", "put", "got") for x in words) else ""
    if m.label == "change" and "to" in words[1:-1]:
        return "base"  # "six nucs to make"
    if word.endswith("ed") or word in _PAST_WORDS:
        return "past"
    if word.endswith("ing"):
        return "ing"
    if m.label in ("method", "form", "item"):
        return ""
    return "base" if word in _BASE_WORDS else ""


_DONE_LABELS = frozenset(["verb", "queen_work", "change", "method"])


def _to_be_done(statement: Statement) -> Mark | None:
    """The "be" of "to be released Sunday", "to be combined with 41"; None where no such words are."""
    if "be" not in statement.words:
        return None
    said = statement.marks
    for k in range(1, len(said) - 1):
        if said[k].w == "be" and said[k - 1].w == "to" and said[k + 1].label in _DONE_LABELS:
            return said[k] if k < 2 or said[k - 2].w not in ("was", "were", "used", "seems", "seem") else None
    return None


def take_stance(statement: Statement, today: date, hemisphere: str, heading: str | None) -> Stance:
    """The stance of one statement by its own words; what its neighbours add is for the caller."""
    stance = Stance()
    cued = statement.has("cue")
    asks = cues(statement, "ask") if cued else []
    if statement.asked or (asks and any(_leads(statement, ask) for ask in asks)) or _asks_outright(statement):
        stance.asked = True
    t = tense(statement)
    if (
        t == "base"
        and "nobody" in [m.w for m in statement.marks if m.label != "filler"][:4]
        and not statement.has("change")
    ):
        stance.asked = True  # "nobody open them before the second": told, not done
    leads = _opening(statement)
    soft_when = leads is not None and leads.w == "when" and statement.opens == "soft"
    if soft_when and t != "past" and not statement.has("date", "cue", "fact", "mites"):
        stance.condition_only = True  # "I'll put it in | when they come off"
    plan: list[Mark] = []
    nots: list[Mark] = []
    ifs: list[Mark] = []
    if cued:
        plan, nots, ifs = cues(statement, "plan"), cues(statement, "not"), cues(statement, "if")
        plan = [m for m in plan if not arrived(statement, m)]
    if (
        not plan
        and statement.has("verb")
        and (dated := statement.first("date")) is not None
        and any(m.label == "w" and m.w == "back" for m in statement.marks[:3])
        and any(m.w == "to" for m in statement.marks[:6])
    ):
        plan = [dated]  # "back Saturday to pull supers"
    if not plan and not nots and (be := _to_be_done(statement)) is not None:
        plan = [be]
    if plan and plan[0].w.startswith("should") and not plan[0].w.endswith(" be") and _opening(statement) is plan[0]:
        ifs, plan = [plan[0], *ifs], plan[1:]  # "Should the queen fail to lay, I shall …"
    if cued and (but := _opening(statement)) is not None and but.v.get("cue") == "except" and but.w.endswith("not"):
        nots = [but, *nots]  # "the pads are out of 40 and 41 | but not out of 42"
    if nots and any(m.w == "out" for m in statement.marks):
        after = {m.w for m, x in zip(statement.marks[1:], statement.marks, strict=False) if x is nots[0]}
        if nots[0].w == "not" and after == {"in"}:
            nots = nots[1:]  # "the strips went out, not in"
    if nots and nots[0].w == "no" and _before_colony(statement, nots[0]):
        nots = nots[1:]  # "no 7 is dead": the number's word, or a "no" that puts right what was said before
    if nots and nots[0].w == "forgot" and _comma_after(statement, nots[0]):
        nots = nots[1:]  # "sorry, forgot, put 2 supers on 5 too": to say so
    if t == "past" and (none := _none_given(statement)):
        nots = [none, *nots]
    neither = [m for m in statement.all("pronoun") if m.w.startswith(("neither", "none"))]
    if neither:
        nots = [neither[0], *nots]
    date_mark = next(
        (
            m
            for m in statement.all("date")
            if not (_times_so_far(statement, m) or _of_forecast(statement, m) or _since_then(statement, m))
            and not _board_went_in(statement, m)
            and not _says_what_day(statement, m, today)
        ),
        None,
    )
    if date_mark is not None and date_mark.v["value"].form == "week" and (later := statement.all("date")[1:]):
        date_mark = next((m for m in later if m.v["value"].form == "weekday"), date_mark)
    if nots and date_mark is not None and _day_of_excuse(statement, nots[0], date_mark):
        date_mark = None
    if nots and _said_of_anybody(statement, nots[0]):
        stance.asked = True  # "he says you don't even need excluders": talk, and no work
    if _of_other_bees(statement) or _used_to(statement):
        stance.asked = True
    when: When | None = date_mark.v["value"] if date_mark else None
    ahead = when.ahead if when else None
    if (when is not None and ahead is None and when.form in ("weekday",) and when.args[1] == "this") or (
        when is not None and ahead is None and when.form == "ymd"
    ):
        day = resolve(when, today, when.form == "ymd", hemisphere)
        ahead = bool(day and day[0] > today) if day else None
    if ifs:
        first_head = next(
            (k for k, m in enumerate(statement.marks) if m.label in _HEAD_LABELS or _treats(m)), len(statement.marks)
        )
        at = statement.marks.index(ifs[0])
        then = next(
            (k for k, m in enumerate(statement.marks) if k > at and m.label == "cue" and m.v.get("cue") == "plan"), None
        )
        heads_after = (
            [m for m in statement.marks[then:] if m.label in _HEAD_LABELS or m.label == "verb"]
            if then is not None
            else [
                m
                for m in statement.marks[at:]
                if (m.label in _WORK_LABELS or _treats(m))
                and not (
                    m.label in ("method", "check")
                    and ifs[0].w not in ("might", "may", "could")
                    and not _done_by_us(statement, m)
                )
            ]
        )
        stance.state = "conditional"
        promised = any(statement.marks.index(m) < at for m in plan) and statement.has("thing")
        stance.condition_only = (
            not heads_after and at <= first_head and not promised
        )  # "50 gets hers friday if it holds"
    elif "asap" in statement.words and t == "" and not nots and statement.has(*THINGS):
        stance.state = "planned"
    elif nots:
        stance.state = "not_done"
        stance.negated_from = statement.marks.index(nots[0])
    elif heading == "ticked" and ahead is not True:
        stance.state = "done"  # "[x] feed 53 a gallon"
    elif (
        plan
        or (ahead is True and not (_tonight(date_mark) and (t == "past" or _told_tonight(statement, date_mark))))
        or (t != "ing" and when is None and _once_it_is(statement))
    ):
        stance.state = "planned"
    elif (
        t == "past"
        or (t == "base" and (when is None or _today(when)) and (_told(statement) or _i_do(statement)))
        or (t == "base" and ahead is not True and statement.has_any(_GIVEN_OUT) and _i_do(statement))
    ):
        stance.state = "done"
    elif t == "base" and statement.has(
        "agent",
        "form",
        "item",
        "feed",
        "queen_work",
        "change",
        "check",
        "method",
        "harvest",
        "pronoun",
        "queen_noun",
        "verb",
        "thing",
    ):
        stance.state = "done" if ahead is False else "planned"
    elif t == "ing" and when is not None and ahead is None and not _today(when):
        stance.state = "planned"
    elif heading == "not_done" and when is None:
        stance.state = "not_done"
    elif (
        (
            t == ""
            and when is not None
            and ahead is None
            and (when.form == "weekday" or when.form == "dom")
            and _no_verb_ahead(statement, date_mark, today)
            and statement.has("agent", "form", "item", "feed", "queen_work", "queen_noun")
        )
        or (t == "" and _so_then(statement, when))
        or (heading == "planned" and ahead is not False and not _today(when) and not _since(statement, date_mark))
        or (t == "" and ahead is None and _due_by(statement, date_mark))
        or (t == "" and when is not None and when.form == "weekday" and when.args[1] == "plain" and _i_make(statement))
        or (t == "" and _check_to_come(statement, when, today))
        or (t == "" and _nearer_ahead(statement, when, today))
    ):
        stance.state = "planned"
    elif statement.has("check") and not statement.has("mites", "value", "clean", "percent"):
        told = any(m.w in ("was", "were", "came", "showed") for m in statement.marks)  # "the recheck was …"
        stance.state = "planned" if _recheck(statement) and not told else "done"
    if stance.state == "done" and date_mark is not None and _until(statement, date_mark):
        when, ahead = None, None  # "it's queenless, i'm leaving it alone till the twentieth"
    stance.said, stance.ahead, stance.today, stance.hemisphere = when, ahead, today, hemisphere
    if stance.state == "done" and t != "past" and when is not None and when.form in ("wmd", "ymd"):
        day = resolve(when, today, False, hemisphere)
        if day is not None and day[0] > today:
            stance.state = "planned"  # "Wed 27 May: one cell into each", said on the 20th
    if stance.state == "done" and date_mark is not None and "after" in date_mark.v:
        began, ends = (resolve(x, today, False, hemisphere) for x in (date_mark.v["after"], when) if x is not None)
        if began and ends and ends[0] < began[0]:
            stance.state = "planned"  # a row "8 Aug | 19 Sep" under "in | out", in August: out is to come
    return stance


def _day_of_excuse(statement: Statement, cue: Mark, day: Mark) -> bool:
    """ "still haven't pulled the strips, I had the school thing on sunday": the day of what came between."""
    first, last = index_of(statement, cue), index_of(statement, day)
    row = statement.marks[first:last]
    at = next((k for k, m in enumerate(row[:-1]) if m.w in ("i", "we") and row[k + 1].w.split()[0] in _WAS_BUSY), None)
    return at is not None and any(m.label in _HEAD_LABELS or m.label in ("verb", "cols") for m in row[:at])


_WAS_BUSY = frozenset(["had", "was", "were", "got"])


def _said_of_anybody(statement: Statement, cue: Mark) -> bool:
    """ "you don't even need excluders": said of anybody, and of nobody here."""
    k = index_of(statement, cue)
    after = statement.marks[k + 1].w if k + 1 < len(statement.marks) else ""
    if k == 0 or statement.marks[k - 1].w != "you":
        return False
    return after.split()[:1] in (["need"], ["have"], ["want"]) or cue.w.split()[-2:] == ["want", "to"]


_OTHERS = listed("others_with_bees")
_OTHERS_OWN = frozenset("his her hers their theirs a the my our some".split())
_BEFORE_OTHERS = frozenset("and so but then now well you know see even plus because cause anyway".split())
_OUR_HANDS = frozenset("i we our ours i'm we're i've we've i'll we'll".split())


def _of_other_bees(statement: Statement) -> bool:
    """ "my neighbor lost six hives", "my grandfather fed his bees molasses": other people's bees, and no work here."""
    if statement.has("cols", "person", "every", "rest", "pronoun", "queen_noun"):
        return False
    if any(m.v.get("step") in ("sold", "bought") for m in statement.all("change")):
        return False  # "a fellow from the feed store bought five nucs": of us
    for k, m in enumerate(statement.marks[:-1]):
        if m.label == "w" and m.w.removesuffix("'s") in _OTHERS and k and statement.marks[k - 1].w in _OTHERS_OWN:
            after = [x.w for x in statement.marks[k:] if x.label in ("w", "yard")]
            opens = all(x.w in _BEFORE_OTHERS or x.label in ("filler", "comma") for x in statement.marks[: k - 1])
            if not opens or not _OUR_HANDS.isdisjoint(after):
                return False  # "bought two nucs from a neighbor", "the neighbor says we have foulbrood"
            return not statement.has("yard") or not _OTHERS_OWN.isdisjoint(after) or m.w.endswith("'s")
    return False


def _used_to(statement: Statement) -> bool:
    """ "we used to put strips in every fall": how it was done once."""
    return "used" in statement.words and any(
        a.w == "used" and b.w.split()[0] == "to" and (not k or statement.marks[k - 1].w not in _GROWN_USED)
        for k, (a, b) in enumerate(pairwise(statement.marks))
    )


_GROWN_USED = frozenset("got get gets getting not be being are am is i'm was were".split())


def _times_so_far(statement: Statement, m: Mark) -> bool:
    """ "swarmed again, second time this month": how often so far, and no day."""
    k = index_of(statement, m)
    if k > 0 and statement.marks[k - 1].label == "fact" and statement.marks[k - 1].w.split()[0] in ("hasn't", "hadn't"):
        return True  # "hasn't laid a thing in two weeks"
    return k > 1 and statement.marks[k - 1].w == "time" and statement.marks[k - 2].label == "ordinal"


_WEIGHED = frozenset("lb lbs pound pounds kg kilo kilos bucket buckets barrel barrels".split())


def _told(statement: Statement) -> bool:
    """ "check 66, wash: 5 mites", "harvest at Larkfield 220 lb", "feed 2:1, two gallons each": what is counted or
    weighed has been done, and what looks like an order is the name of the work.
    """
    verbs = [m for m in statement.marks if m.label in ("verb", "harvest")]
    if not verbs:
        return statement.has("check") and statement.has(
            "mites", "value", "clean", "percent"
        )  # "recheck: 42 three mites"
    if statement.has("mites", "value", "clean", "percent") and statement.has("method"):
        return all(m.v.get("does") in ("inspect", "do") for m in verbs)  # "I do soap wash, hive three is four mites"
    if any(m.label == "harvest" and m.w == "harvest" for m in verbs) and len(verbs) == 1:
        return any(not _WEIGHED.isdisjoint(m.w.split()) for m in statement.all("amount"))
    k = index_of(statement, verbs[0])
    after = statement.marks[k + 1] if k + 1 < len(statement.marks) else None
    opens = all(m.label in ("yard", "comma", "date", "filler") for m in statement.marks[:k])
    return (
        verbs[0].w == "feed" and len(verbs) == 1 and opens and after is not None and after.label in ("ratio", "amount")
    ) or (verbs[0].w == "feeding" and len(verbs) == 1 and opens and statement.has("amount"))


_WORK_LABELS = frozenset("agent item feed queen_work change method check form harvest".split())


def _treats(m: Mark) -> bool:
    """Whether the verb makes a record by itself ("treat cut bank on monday | if it's dry")."""
    return m.label == "verb" and m.v.get("does") in ("treat", "feed")


def arrived(statement: Statement, cue: Mark) -> bool:
    """ "got to heath about ten": somebody came there, and plans nothing."""
    if cue.w != "got to":
        return False
    k = index_of(statement, cue)
    after = [m for m in statement.marks[k + 1 : k + 3] if m.w != "the"]
    return bool(after) and after[0].label == "yard"


def _comma_after(statement: Statement, cue: Mark) -> bool:
    k = index_of(statement, cue)
    return k + 1 < len(statement.marks) and statement.marks[k + 1].label == "comma"


def _none_given(statement: Statement) -> Mark | None:
    """ "nobody fed 12", "pollen patty, none given": the word that says that none of it was done."""
    for k, m in enumerate(statement.marks):
        if m.w in ("nobody", "no one") or (m.w == "none" and m.label != "value"):  # a value is a count of mites
            after = statement.marks[k + 1] if k + 1 < len(statement.marks) else None
            if after is not None and after.label in ("verb", "queen_work", "item"):
                return m
    return None


def _done_by_us(statement: Statement, m: Mark) -> bool:
    """ "if l eighteen looks sick I wash it": the wash is what follows, and no condition."""
    k = index_of(statement, m)
    return k > 0 and statement.marks[k - 1].w in ("i", "we", "i'll", "we'll")


def _opening(statement: Statement) -> Mark | None:
    """The first mark, yards, fillers and bullets aside."""
    return next(
        (m for m in statement.marks if m.label not in ("yard", "filler") and m.w not in (":", "-", "–", "•", "*")), None
    )


def _before_colony(statement: Statement, cue: Mark) -> bool:
    """Whether a colony follows the cue at once, and something is said of it."""
    k = statement.marks.index(cue)
    after = statement.marks[k + 1 : k + 3]
    return len(after) == 2 and after[0].label == "cols" and after[1].label in ("change", "fact", "mites", "value", "w")


def _of_forecast(statement: Statement, day: Mark) -> bool:
    """Whether a forecast stands right before the day ("it's supposed to rain friday so pads in today")."""
    if not statement.has("ignore"):
        return False
    k = index_of(statement, day)
    return k > 0 and statement.marks[k - 1].rule == "forecast"


_NOT_YET = ("once", "when", "as soon", "soon as", "the minute", "the moment", "the second", "the day", "after")


def _once_it_is(statement: Statement) -> bool:
    """ "strips in twelve the minute the honey's off", "we put pads in once they come off": then, and not yet."""
    if statement.has("harvest") and _when_it_is_spun(statement):
        return True
    if not any(m.rule == "once it is off" and m.w.startswith(_NOT_YET) for m in statement.all("ignore")):
        return False
    verbs = [m for m in statement.all("verb") if m.v.get("tense") == "past"]
    return statement.has_any(THINGS) and all(m.w in ("put", "set", "hit") for m in verbs)


def _when_it_is_spun(statement: Statement) -> bool:
    """ "about 300 pounds when we spin it", "200 pounds once it's extracted": how much it will be."""
    k = next((k for k, m in enumerate(statement.marks) if m.label == "amount"), len(statement.marks))
    after = [m for m in statement.marks[k + 1 :] if m.label not in ("filler", "comma")][:4]
    if not after or after.pop(0).w not in ("when", "once") or not any(m.label == "harvest" for m in after):
        return False
    verb = next(m for m in after if m.label == "harvest")
    return verb.v.get("tense") == "base" or after[0].w in ("it's", "its", "they're")


def _tonight(mark: Mark | None) -> bool:
    """Whether the day is "tonight", which lies ahead only where the verb does not say that it is over."""
    return mark is not None and mark.w in _LATE_TODAY


def _told_tonight(statement: Statement, day: Mark | None) -> bool:
    """ "boards read tonight, two days", "boards tonight at Heath, 5 had thirty one": counted already."""
    if day is None or not statement.has("method"):
        return False
    k = index_of(statement, day)
    return statement.has("mites", "value", "percent") or (k > 0 and statement.marks[k - 1].w in ("read", "counted"))


def _since_then(statement: Statement, day: Mark) -> bool:
    """ "the swarm from last week got a spray", "had no queen since august": the day says which swarm it is, or how long
    it has been so, not when it was seen.
    """
    k = index_of(statement, day)
    if k > 1 and statement.marks[k - 1].w == "since" and statement.marks[k - 2].label == "fact":
        return True
    return k > 1 and statement.marks[k - 1].w == "from" and statement.marks[k - 2].w.split()[-1] in _CAME_THEN


def _board_went_in(statement: Statement, day: Mark) -> bool:
    """ "the boards i put in monday", "the board that went under forty on saturday had ninety": the day tells which
    boards are spoken of, not when they were read.
    """
    boards = [m for m in statement.all("method") if m.v["method"] == "board"]
    if not boards or statement.has("cue"):
        return False
    k = index_of(statement, boards[0])
    who, put = statement.marks[k + 1 : k + 2], statement.marks[k + 2 : k + 3]
    if not who or not put or k + 2 >= index_of(statement, day):
        return False
    placed = put[0].v.get("dir") == "in" or put[0].w.split()[0] in _SLID
    return placed and (who[0].w in ("i", "we", "that", "which", "he", "she") or who[0].label == "person")


_SLID = frozenset("put slid stuck set slipped slotted went".split())
_CAME_THEN = frozenset("swarm swarms split splits nuc nucs queen queens cells batch package packages".split())


def _today(when: When | None) -> bool:
    return when is not None and when.is_today and when.ahead is None


def _no_verb_ahead(statement: Statement, date_mark: Mark | None, today: date) -> bool:
    """ "hop strips in 20 monday", "cells into N1 on the 5th": no verb, and the day stands last, after the colonies."""
    if any(m.label == "w" and m.w in ("into", "for") for m in statement.marks):
        return True
    cols = statement.first("cols") or next((m for m in statement.all("pronoun") if m.w.startswith("both")), None)
    if cols is None or date_mark is None or statement.has("verb", "fact", "mites", "value") or date_mark.s < cols.s:
        return False
    if _just_past(date_mark.v["value"], today):
        return False  # "hop strips in 72 thru 77 friday", said on Saturday
    k = index_of(statement, cols)
    placed = statement.has("agent", "form", "queen_work", "queen_noun", "feed")
    return statement.marks[k - 1].w in ("in", "on") and placed


def _since(statement: Statement, day: Mark | None) -> bool:
    """ "strips in since Friday": done by then."""
    k = index_of(statement, day) if day is not None else 0
    return k > 0 and statement.marks[k - 1].w == "since"


def _due_by(statement: Statement, day: Mark | None) -> bool:
    """ "strips out of 9 by the 12th": a day by which, and no verb that says it is over."""
    if day is None:
        return False
    k = index_of(statement, day)
    return k > 0 and statement.marks[k - 1].w == "by" and not statement.has("mites", "value", "fact", "person")


def _i_do(statement: Statement) -> bool:
    """ "i give the syrup to 3", "so i mark her": told as it is done, by those who speak of what is past so."""
    if statement.has("days") or any(m.v.get("cue") != "except" for m in statement.all("cue")):
        return False
    # "I do the oxalic in the quarry" is told, "9 to 12 I do next" and "I do the rest" are not
    others = statement.has("rest", "pronoun") or any(m.w in _NEXT for m in statement.marks)
    return any(
        a.w in ("i", "we")
        and (b.v.get("tense", "base") == "base" or (b.w == "do" and not others))
        and b.label in DEEDS
        and b.w.split()[0] not in _MEANT
        for a, b in pairwise(statement.marks)
    )


_NEXT = frozenset("next later soon then".split())
_MEANT = frozenset("want need have get got go come".split())


def _says_what_day(statement: Statement, day: Mark, today: date) -> bool:
    """ "it is Saturday morning": the day on which this is said."""
    k = index_of(statement, day)
    before = " ".join(m.w for m in statement.marks[max(0, k - 2) : k])
    said = day.v["value"]
    named = said.form == "weekday" and said.args[0] == today.weekday()
    return named and before.endswith(("it is", "it's", "today is"))


def _i_make(statement: Statement) -> bool:
    """ "on Saturday I make the vapour in N6": what lies ahead, by those who speak of it so."""
    return any(a.w in ("i", "we") and b.w in ("make", "do") for a, b in pairwise(statement.marks))


def _until(statement: Statement, day: Mark) -> bool:
    """Whether the day is one until which something is so."""
    k = index_of(statement, day)
    return k > 0 and statement.marks[k - 1].w in ("till", "until", "til", "'til")


def _so_then(statement: Statement, when: When | None) -> bool:
    """ "so oxalic vapour thursday night on all three": what follows from what was found, with a day."""
    first = statement.marks[0].w if statement.marks else ""
    weekday = when is not None and when.form == "weekday" and when.args[1] == "plain"
    return weekday and first == "so" and statement.has_any(THINGS) and not statement.has("fact")


def _just_past(when: When, today: date) -> bool:
    """Whether the weekday was yesterday's or that of the day before: it is then rarely meant of next week."""
    return when.form == "weekday" and when.args[1] == "plain" and 0 < (today.weekday() - when.args[0]) % 7 < 3


def _nearer_ahead(statement: Statement, when: When | None, today: date) -> bool:
    """ "wraps on 51-64 monday", "oav there sunday": what is given, no verb, and the day to come is about as near as
    the one that is over.
    """
    if when is not None and when.form == "md" and statement.has_any(THINGS):
        past, ahead = resolve(when, today, False), resolve(when, today, True)
        near = past is not None and ahead is not None and (ahead[0] - today).days < 60 < 200 < (today - past[0]).days
        return near and not statement.has("fact", "mites", "value", "person")  # "6/15 strips out", said on 6/10
    if when is not None and when.form == "month" and when.ahead is None and statement.has("item", "feed"):
        ahead = resolve(when, today, True)  # "wraps in november", said in October
        return ahead is not None and 0 < (ahead[0] - today).days < 62 and not statement.has("fact", "verb", "person")
    if when is not None and when.form == "dom" and statement.has("round", "item", "feed"):
        past, ahead = resolve(when, today, False), resolve(when, today, True)
        near = past is not None and ahead is not None and 2 * (ahead[0] - today).days < (today - past[0]).days
        near = near and not any(m.w in ("had", "has", "was", "were") for m in statement.marks)
        return near and not statement.has("fact", "mites", "value", "person", "verb")  # "OAV on the 14th", on the 7th
    if when is None or when.form != "weekday" or when.args[1] != "plain" or "had" in statement.words:
        return False
    if not statement.has("item", "feed", "agent", "form") or statement.has("fact", "mites", "value", "verb", "person"):
        return False
    if alone_on_weekday(statement):
        return True
    if statement.has("agent", "form") and (statement.bullet or any(m.w in _ROW_OR_OUT for m in statement.marks)):
        return False  # "79: oxalic vapour on Friday", over what was done; "strips out sunday"
    if any("struck" in m.v for m in statement.all("date")):
        return False  # "yesterday, no sorry, saturday"
    nearest = 4 if statement.has("agent", "form") and statement.has("unit", "each", "amount") else 5
    return bool(0 < (when.args[0] - today.weekday()) % 7 < nearest)  # how much is told rather of what is done


_ROW_OR_OUT = frozenset(": - – — out off done over finished still".split())


def _check_to_come(statement: Statement, when: When | None, today: date) -> bool:
    """ "8: alcohol wash on Sunday": no verb, no count and a weekday: a check that is still to be done."""
    if when is None or when.form not in ("weekday", "md"):
        return False
    if when.form == "md":  # "sugar rolls on N1 to N6 june fourteenth", said in May
        past, ahead = resolve(when, today, False), resolve(when, today, True)
        if past is None or ahead is None or not (ahead[0] - today).days < 60 < 200 < (today - past[0]).days:
            return False
    return (
        (when.form == "md" or when.args[1] == "plain")
        and statement.has("method")
        and statement.has("cols", "every", "yard", "pronoun")
        and not statement.has("mites", "value", "clean", "percent", "fact", "person", "verb", "sample", "days")
        and statement.marks[-1].label == "date"
    )


def _recheck(statement: Statement) -> bool:
    check = statement.first("check")
    assert check is not None
    k = index_of(statement, check)
    if k and statement.marks[k - 1].w == "the" and not statement.has("cue", "date"):
        return False  # "the recheck on 6 and 10, they were four and none"
    return check.w.split()[0] in _CHECKS_AGAIN


_BEFORE_ASK = frozenset(
    "and so or but also then hey um quick question now wait thinking wondering wonder think asking".split()
)


def _asks_outright(statement: Statement) -> bool:
    """ "is thymol supposed to go in …": the verb before its subject."""
    if not statement.has("agent", "form", "item", "feed", "yard", "person"):
        return False
    said = (m for m in statement.marks if m.label not in ("filler", "comma") and m.w not in ("the", "our", "my"))
    first = list(islice(said, 2))
    return (
        len(first) == 2
        and first[0].w in ("is", "are", "does", "do", "should", "can")
        and first[1].label in ("agent", "form", "item", "feed", "yard", "person")
        and (statement.opens != "soft" or first[0] is not statement.marks[0])
    )


def _leads(statement: Statement, ask: Mark) -> bool:
    """Whether the question word opens the statement: only small words stand before it."""
    near = " to know" in ask.w or ask.w.split()[0] in ("which", "where", "who", "how", "why", "whose")
    for k, m in enumerate(statement.marks):
        if m is ask:
            before = statement.marks[k - 1] if k else None
            if (
                not near
                and not ask.w.startswith(("asked", "asks", "wonder"))  # "somebody asked whether sponges work"
                and before is not None
                and before.label == "w"
                and before.w.isalpha()
                and before.w not in _BEFORE_ASK
            ):
                return False  # "so here is the lot" asks nothing
            if (
                before is not None
                and before.label in ("cols", "fact", "pronoun")
                and ask.w.split()[0] in SAID_OF_SUBJECT
            ):
                return False  # "N2 is the split", "these are the washes"
            relative = statement.opens == "soft" and k == 0 and ask.w.split()[0] in ("which", "where", "who", "whose")
            return not relative and (not near or k <= 3)  # "… at twenty one | which is ugly" asks nothing
        if near and m.label in ("comma", "yard"):
            return False
        if m.label == "cue" and m.v.get("cue") == "ask":
            continue
        if m.label not in ("filler", "comma", "person", "w", "pronoun", "date", "yard", "approx"):
            return False
    return False
