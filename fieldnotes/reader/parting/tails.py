"""Where the tail of a statement begins: the words at its end that belong to the next."""

from __future__ import annotations

import re
from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.grouping.counts import OF_A_SAMPLE
from fieldnotes.reader.mark import THINGS, Mark
from fieldnotes.reader.marking.colours import is_colour
from fieldnotes.reader.parting.about import AUX, GLUE_WORDS, GOVERNORS, TAIL_OK, done, has_verb, is_verb, led_work_ends
from fieldnotes.reader.parting.governing import ONLY_WITH, governed
from fieldnotes.reader.parting.statement import HEADS
from fieldnotes.reader.parting.words import HOW_MUCH

_PERSONS = frozenset("i we he she they somebody someone".split())
_AFTER_PERSON = AUX | {"just", "also", "already", "then"}
_BEFORE_SUBJECT = frozenset("the a an all their its those these my our still never they i we more".split())
_HEADER_LABELS = frozenset("method sample date days each comma filler yard hive approx person".split())
_HEADER_WORDS = frozenset("from on of at the in for my our by :".split())
_PLACE_WORDS = frozenset("in at the a on for still now here there down over".split())
_NEXT_ALONG = listed("next_along")
_BEFORE_NEXT = re.compile(r"^(and |then )?(the |our )?")
_YARD_PREPS = frozenset("at in to the from off over on for of then and out up down around back @ i we".split())


def _joins(m: Mark) -> bool:
    """Whether the mark joins or parts: a comma, a filler or a joining word."""
    return m.label in ("comma", "filler") or m.w in GLUE_WORDS


def glue_tail(marks: list[Mark]) -> list[Mark]:
    """Fillers, joining words and pronouns at the end: they belong to what comes next."""
    k = _person_at_end(marks)
    if k == len(marks) and k > 2 and [m.w for m in marks[-2:]] == ["to", "be"] and _joins(marks[-3]):
        k -= 2  # "new queen introduced, to be | released sunday"
    while k > 0 and _is_glue(marks, k - 1):
        k -= 1
        if marks[k].label == "w" and marks[k].w == "to" and k > 0 and marks[k - 1].label == "date":
            k -= 1  # "…, back Saturday to | pull supers"
    return marks[k:]


def _person_at_end(marks: list[Mark]) -> int:
    """Where a person with an auxiliary or a date ("today I have just") ending the marks begins; else their length."""
    subject = len(marks) - 1
    while subject > 0 and marks[subject].label == "w" and marks[subject].w in _AFTER_PERSON:
        subject -= 1
    if subject <= 0:
        return len(marks)
    x, before = marks[subject], marks[subject - 1]
    person = x.label in ("person", "pronoun") or (x.label == "w" and x.w in _PERSONS)
    if not person or (subject == len(marks) - 1 and before.label != "date"):
        return len(marks)
    ahead = before.label == "date" and before.v["value"].ahead
    today = before.label == "date" and before.v["value"].form == "offset"
    opened = next((x for x in reversed(marks[: subject - 1]) if x.label != "w" or x.w in ("and", "but")), None)
    aside = opened is not None and (opened.label == "filler" or opened.w in ("and", "but"))
    if before.label == "date" and aside and marks[subject - 2].label == "w" and marks[subject - 2].w not in GLUE_WORDS:
        return next(
            k for k, x in enumerate(marks) if x is opened
        )  # "lost five at cut bank um and for the record last fall | I put …"
    worked = has_verb(marks[: subject - 1]) and not any(x.label in ("date", "fact") for x in marks[: subject - 1])
    if before.label == "date" and not today and worked:
        return subject  # "came out of six in late june | I had not written it down"
    if ahead and worked and marks[subject - 2].w.split()[-1] == "her" and x.w == "she":
        return subject - 1  # "pinched her | tomorrow she gets a cell"
    if ahead and before.v["value"].form == "offset" and is_over(marks[: subject - 1]):
        return subject - 1  # "the feeder there is broken | tomorrow i put new ones on"
    return subject - 1 if before.label == "date" and not ahead and done(marks[: subject - 1]) else subject


def is_over(marks: list[Mark]) -> bool:
    """Whether the marks tell of what was done or found, so that a day to come at their end belongs to what follows."""
    if any(x.v.get("tense") == "base" or x.v.get("cue") in ("plan", "if", "not") for x in marks):
        return False
    return any(
        x.v.get("tense") == "past"
        or x.label in ("fact", "moisture", "percent", "mites", "temp")
        or x.w in ("is", "was")
        for x in marks
    )


def _all_there(marks: list[Mark], k: int) -> bool:
    """ "I pulled all the wraps there | so sugar rolls at the pond": the yard where that was done."""
    before = marks[k - 1] if k > 0 else None
    return (
        marks[k].w == "there"
        and before is not None
        and before.label in THINGS
        and any(m.w.split()[0] == "all" for m in marks[max(0, k - 4) : k])
    )


def _is_glue(marks: list[Mark], k: int) -> bool:
    """Whether the mark at `k`, all after it being glue, is glue too."""
    x = marks[k]
    before = marks[k - 1] if k > 0 else None
    if x.label == "person" and before is not None and before.w == "by":
        return False  # "two each yesterday by dov and | twelve has three"
    if x.label in ("comma", "filler", "approx", "person", "clock"):
        return True
    if x.label == "date" and before is not None and before.w == "there" and k > 1 and not _joins(marks[k - 2]):
        return False  # "a new queen goes in there friday | also requeened 62", "wraps on the lot there next week | and"
    if x.label in ("pronoun", "date", "ordinal"):
        return before is not None and (_joins(before) or (x.label == "ordinal" and before.w == "the"))
    if x.label != "w":
        return False
    if _all_there(marks, k):
        return False
    if x.w in GLUE_WORDS or x.w in ("still", "never", "already", "later", "the", "a", "it", "back"):
        return True
    return x.w == "to" and before is not None and (before.label == "date" or before.w == "back")


def passive_subject(marks: list[Mark]) -> list[Mark]:
    """ "and the spare is" at the end of the marks, the subject of a verb to come; empty where none stands there."""
    if len(marks) > 4 and marks[-1].w == "being" and marks[-2].w == "are":
        k = len(marks) - 2
        while k > 0 and (marks[k - 1].label in ("noun", "hives", "number", "queen_noun") or marks[k - 1].w == "more"):
            k -= 1
        k -= len(glue_tail(marks[:k]))
        return marks[k:] if done(marks[:k]) else []  # "and two more nucs are being"
    if len(marks) < 4 or marks[-1].w not in ("is", "was", "are", "were") or marks[-2].label != "w":
        return []
    for k in (len(marks) - 3, len(marks) - 4):
        if (
            k > 0
            and (marks[k].w in ("the", "a", "that", "this", "its", "her") or marks[k].label == "number")
            and (marks[k - 1].w in ("and", "so", "then", "but") or marks[k - 1].label == "filler")
        ):
            return marks[k - 1 :] if done(marks[: k - 1]) else []
    return []


_REASONS = frozenset("since because cause cos as it's they're he's that's".split())


def reason_tail(marks: list[Mark]) -> list[Mark]:
    """ "since it's down to", "it's a" at the end of the marks: the reason that follows; empty where none begins."""
    k = len(marks)
    while k > 0 and (marks[k - 1].label == "w" or _joins(marks[k - 1])) and len(marks) - k < _LONGEST_NAME + 2:
        k -= 1
        if marks[k].w in _REASONS:
            return marks[k - 1 :] if k > 0 and marks[k - 1].w in _REASONS else marks[k:]
    return []


_LONGEST_NAME = 4
"""Words in the name of a thing ("the honey house floor")."""


def thing_tail(marks: list[Mark]) -> list[Mark]:
    """ "and the stand" at the end of the marks: a joining word, an article and a plain name; else empty."""
    k = len(marks)
    while k > 0 and len(marks) - k < _LONGEST_NAME and marks[k - 1].label in ("w", "noun", "ignore", "honey"):
        k -= 1
        if marks[k].w.split()[0] in ("the", "our", "my", "that"):
            named = k < len(marks) - 1 or " " in marks[k].w
            joined = k > 0 and named and _joins(marks[k - 1])
            return marks[k - 1 :] if joined else []
        if marks[k].w in GLUE_WORDS or not marks[k].w[0].isalpha():
            break
    return []


_NOT_BEFORE = {
    "item": ("item",),
    "agent": ("item", "form", "feed"),
    "form": ("item", "feed"),
    "feed": ("item", "form", "agent"),
}
"""What does not stand before a thing of each sort in one name."""


def lead_nouns(marks: list[Mark]) -> list[Mark]:
    """The noun just before a verb is its subject ("… | the feeder came off")."""
    k = len(marks)
    things = ("item", "agent", "form", "feed", "queen_noun", "number")
    while k > 0 and (
        marks[k - 1].label
        in ("item", "agent", "form", "feed", "honey", "pronoun", "every", "rest", "queen_noun", "approx", "number")
        or (marks[k - 1].label == "hives" and marks[k - 1].w.endswith(("of them", "of em")))
        or (marks[k - 1].label == "w" and marks[k - 1].w in _BEFORE_SUBJECT)
        or (marks[k - 1].label == "thing" and marks[k - 1].w.endswith("ones"))
        or (marks[k - 1].label == "fact" and k < len(marks) and marks[k].label == "thing")  # "and | the light ones get"
    ):
        k -= 1
        if k > 1 and marks[k - 1].w == "of" and marks[k - 2].label in ("form", "amount", "unit"):
            k -= 2  # "and | two pads of formic go in"
            continue
        if k > 0 and marks[k - 1].label in _NOT_BEFORE.get(marks[k].label, ()):
            break  # "just a super | beetle traps went in", "three frames of comb | coumaphos strips came out"
        if (
            marks[k].label in ("item", "form", "agent")
            and k > 0
            and " " in marks[k - 1].w
            and marks[k - 1].label == "every"
        ):
            break  # "pads on the whole yard | pads come off friday"
        if (
            marks[k].w in ("the", "those", "these", "my", "our", "their", "its")
            and k > 0
            and (marks[k - 1].label in things or marks[k - 1].label in ("cols", "every"))
        ):
            break  # "gave us nine supers | the excluders come off"
    if k == len(marks):
        k = _with_origin(marks)
    if 0 < k < len(marks) and marks[k - 1].w == "with" and marks[k].label in THINGS:
        k += 1  # "need to treat 4 with thymol | they rolled at eleven"
    tail = marks[k:]
    if not (done(marks[:k]) or has_verb(marks[:k]) or _dealt_out(marks[:k])):
        return []
    if (
        k > 1
        and marks[k - 1].label == "date"
        and (marks[k - 2].label in ("comma", "filler") or marks[k - 2].w == "and")
    ):
        k -= 2  # "… and today | the fondant went on"
    return marks[k:] if tail else []


def _dealt_out(marks: list[Mark]) -> bool:
    """ "l six half a gallon and | the feeders come off": an amount beside the colony that got it, in a list of such."""
    return any(a.label == "cols" and b.label == "amount" for a, b in pairwise(marks))


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


def next_along(marks: list[Mark]) -> list[Mark]:
    """ "and um next one" at the end of the marks, where somebody walks on to the colony that comes; else empty."""
    k = len(marks)
    while k > 0 and (marks[k - 1].label in ("filler", "comma") or marks[k - 1].w in ("and", "then", "so")):
        k -= 1
    goes_on = any(x.label == "filler" and _BEFORE_NEXT.sub("", x.w) in _NEXT_ALONG for x in marks[k:])
    return marks[k:] if goes_on else []


def with_joins(marks: list[Mark]) -> list[Mark]:
    """The fillers, commas and joining words at the end of the marks."""
    k = len(marks)
    while k > 0 and _joins(marks[k - 1]):
        k -= 1
    return marks[k:]


def with_prep(marks: list[Mark]) -> list[Mark]:
    """The prepositions, joining words and commas at the end of the marks, before a yard."""
    k = len(marks)
    while k > 0 and (
        (marks[k - 1].label == "w" and marks[k - 1].w in _YARD_PREPS) or marks[k - 1].label in ("comma", "filler")
    ):
        k -= 1
    return marks[k:]


def with_count(marks: list[Mark], tail: list[Mark]) -> list[Mark]:
    """The tail with "and" and a number before it ("lost five at cut bank | and two at wens")."""
    k = len(marks) - len(tail)
    if k > 2 and marks[k - 1].label == "item" and marks[k - 2].label == "number" and marks[k - 3].w == "and":
        k -= 1  # "fourteen supers | and six supers from wens"
    if k > 2 and marks[k - 1].label == "item" and marks[k - 2].label == "number" and marks[k - 3].label == "yard":
        if not tail or tail[0].w not in ("at", "in", "from", "off"):
            return tail  # "larks 22 supers, | sawmill 9 supers"
        return marks[k - 2 :]  # "nineteen supers at cut bank | fourteen supers at larks"
    if k < 2 or not (marks[k - 1].label in ("number", "amount") or marks[k - 1].v.get("noun") == "frames"):
        return tail
    at = k - 2
    while at > 0 and marks[at].label in ("filler", "approx"):
        at -= 1
    after_yard = marks[at].label == "comma" and at > 0 and marks[at - 1].label == "yard"
    if marks[at].w in ("and", "plus") or after_yard:
        return marks[at:]  # "lost four at larks, | two at the quarry"
    placed = tail and tail[0].w in ("at", "in", "from", "off")
    return marks[k - 1 :] if marks[k - 2].label == "yard" and placed else tail  # "four at larks | two at the quarry"


_MADE = frozenset("nuc_made split sold bought died swarm_caught grafted caught banked".split())
"""Work that is counted by where it was done ("three nucs out of eight and one out of twelve")."""
_OF_NUMBER = frozenset(["another", "only", "just", "and"])


def another_from(marks: list[Mark]) -> list[Mark]:
    """ "made two nucs off hive four | and another two off", "sold four from the pond | and two nucs from": so many
    more, before the colony or the yard they came from; empty where no such words end the marks.
    """
    k = len(marks)
    while k > 0 and (marks[k - 1].label == "hive" or marks[k - 1].w in ("the", "of", "off", "from", "out")):
        k -= 1
    words = [m.w for m in marks[k:] if m.label != "hive" and m.w != "the"]
    if words not in (["from"], ["off"], ["off", "of"], ["out", "of"]):
        return []
    if k > 0 and marks[k - 1].w == "more":
        k -= 1
    if k < 2 or marks[k - 1].label not in ("number", "hives", "noun", "queen_noun") or "n" not in marks[k - 1].v:
        return []
    k -= 1
    while k > 0 and (marks[k - 1].w in _OF_NUMBER or marks[k - 1].label == "approx"):
        k -= 1
    k -= len(with_joins(marks[:k]))
    before = marks[:k]
    worked = any(m.v.get("step") in _MADE for m in before if m.label in ("change", "queen_work"))
    return marks[k:] if worked and any(m.label in ("cols", "yard") for m in before) else []


def with_number(marks: list[Mark]) -> list[Mark]:
    """The number, article or cue at the end of the marks with the joining words before it: a thing follows."""
    k = len(marks)
    while k > 0 and (
        marks[k - 1].label in ("number", "filler", "comma", "approx", "ordinal", "person")
        or (marks[k - 1].label == "cue" and marks[k - 1].rule != "did not happen")
        or (
            marks[k - 1].label == "w"
            and (
                (marks[k - 1].w in GLUE_WORDS and not _all_there(marks, k - 1))
                or marks[k - 1].w in ("a", "an", "the", "another", "some", "no", "its", "their", "with", "all")
            )
        )
        or (
            marks[k - 1].label == "date"
            and k > 1
            and (marks[k - 2].w in ("and", "then", "but", ",") or marks[k - 2].label == "filler")
        )  # "… and tomorrow | fondant goes on"
    ):
        k -= 1
    return marks[k:]


_LEADS_ON = frozenset("and then so but".split())


def prep_lead(marks: list[Mark]) -> list[Mark]:
    """The prepositions at the end of the marks with the joining word before them; empty where no such word is."""
    k = len(marks)
    while k > 0 and marks[k - 1].label == "w" and marks[k - 1].w in GOVERNORS:
        k -= 1
    if k < len(marks) and k > 0 and (marks[k - 1].label in ("filler", "comma") or marks[k - 1].w in _LEADS_ON):
        return marks[k - 1 :]
    return []


def header_tail(marks: list[Mark]) -> list[Mark]:
    """What stands at the end of a statement but speaks of the colony that follows: joining words, a method, a day."""
    if (
        marks[-1].w in ONLY_WITH
        and [m.label for m in marks[-2:-1]] == ["sample"]
        and any(m.label in COUNTS for m in marks)
    ):
        return []  # "washed at six, half cup alcohol | fifty one has sacbrood"
    checked = _method_tail(marks)
    if checked:
        return checked
    k = len(marks)
    while k > 0 and _speaks_on(marks, k - 1):
        k -= 1
    if k < len(marks) and marks[k].w in ("they're", "it's") and any(x.v.get("step") == "bought" for x in marks[:k]):
        place = next((n for n in range(k, len(marks)) if marks[n].label == "yard"), None)
        k = k if place is None else place + 1  # "bought five nucs, they're at the quarry now | and hive four is hot"
    return marks[k:]


def _method_tail(marks: list[Mark]) -> list[Mark]:
    """The tail from the method of the next check on; empty where no method stands there, or nothing complete before."""
    k = len(marks)
    at = None
    while k > 0 and (
        marks[k - 1].label in _HEADER_LABELS
        or (marks[k - 1].label == "w" and (marks[k - 1].w in GLUE_WORDS or marks[k - 1].w in _HEADER_WORDS))
    ):
        k -= 1
        if marks[k].label == "method":
            at = k
    if not at:
        return []
    lead = at
    if at > 1 and marks[at - 1].label == "w" and marks[at - 2].w in ("a", "an", "the"):
        lead -= 1  # "on a quick roll"
    before = marks[lead - 1]
    if marks[at].w.split()[0] in _MADE_WITH:
        return []  # "half a cup of bees in alcohol each time | three had four"
    if (
        before.label == "w"
        and before.w in ("a", "an", "the", "in", "by", "with", "of", "on", "that's", "were")
        and any(
            x.w in ("in", "by", "with", "from", "on", "that's", "was", "were") for x in marks[max(0, lead - 2) : lead]
        )
    ):
        return []  # "two mites in a soap wash": the method of the count before it
    if (
        before.label == "sample"
        and marks[at].w in ("alcohol", "soap", "soapy")
        and any(x.label in COUNTS for x in marks)
    ):
        return marks[at + 1 :]  # "eight mites half cup alcohol | and nine has sacbrood"
    if not done(marks[:at]):
        return []
    while at > 0 and (_joins(marks[at - 1]) or marks[at - 1].w in ("the", "a", "did")):
        at -= 1
    return marks[at:]


COUNTS = frozenset(["mites", "value", "clean"])
COUNTED = COUNTS | {"percent"}
_MADE_WITH = frozenset(["in", "with", "using"])
"""How the name of a method begins that goes with the sample before it."""


def _speaks_on(marks: list[Mark], k: int) -> bool:
    """Whether the mark at `k`, all after it belonging to the next statement, belongs to it too."""
    x = marks[k]
    if x.label == "person" and k > 0 and marks[k - 1].w == "by":
        return False  # "two each yesterday by dov and | twelve to thirty today by me"
    if x.label in ("comma", "filler", "person", "clock", "heading", "hive"):
        return True
    if x.label == "cue" and x.w == "not" and k == len(marks) - 1:
        return True  # "out of S7 this morning | not QB this time"
    if x.label == "w" and (x.w in GLUE_WORDS or x.w in _PLACE_WORDS):
        return True
    if k == 0:
        return False
    before = marks[k - 1]
    if x.label == "w":
        return x.w == "to" and before.w in ("down", "up")
    if x.label == "pronoun":
        return _joins(before)
    if x.label in ("method", "sample"):
        return _joins(before) or before.label == "sample"
    if x.label == "yard":
        return _joins(before) or (before.w in ("at", "in", "from") and k > 1 and _joins(marks[k - 2]))
    joined = _joins(before) and before.w not in ("there", "now")  # "escapes go on there a week from thursday"
    return x.label == "date" and (joined or any(y.label == "date" for y in marks[:k]))


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
    if at == len(marks) - 2 and marks[-1].w in ("on", "in") and _check_begins(marks[last:at]):
        return True  # "ten in twelve and a wash on each, three mites | in eleven"
    return any(x.label in counted for x in marks[:last]) and governed(marks[:last], marks[last])


def _check_begins(marks: list[Mark]) -> bool:
    """Whether a check of each is announced."""
    return any(x.label == "method" for x in marks) and any(x.label == "each" or x.w == "both" for x in marks)


_OWN_HEADS = frozenset("agent form item feed amount unit fact round method check".split())
_BEFORE_HEAD = {"form": ("agent",), "feed": ("ratio",)}
_WHERE = frozenset("w filler each every date days".split())
_A = frozenset("a an the some another just only more".split())


def own_phrase(marks: list[Mark]) -> list[Mark]:
    """The thing with its verb and its preposition at the end of the marks, which are complete without it and have
    colonies of their own: "L9 got three frames of comb | coumaphos strips came out of"; else empty.
    """
    k = len(marks)
    if not k or marks[k - 1].w not in GOVERNORS:
        return []
    worked = False
    while k and (marks[k - 1].label in _WHERE or (marks[k - 1].label == "verb" and marks[k - 1].v.get("dir"))):
        if marks[k - 1].w in ("and", "then", "but", "so"):
            return []
        worked = worked or marks[k - 1].label == "verb"
        k -= 1
    if k > 1 and marks[k - 1].label == "number" and marks[k - 2].label in THINGS:
        k -= 1  # "oxalic sponges two in each of"
    if not k or marks[k - 1].label not in _OWN_HEADS:
        return []
    k = _phrase_from(marks, k - 1)
    if not worked and k and marks[k - 1].label == "verb" and marks[k - 1].v.get("dir"):
        k -= 1
        if k and marks[k - 1].w in ("i", "we"):
            k -= 1
    while k and marks[k - 1].w in ("and", "then", "plus"):
        k -= 1
    before = marks[:k]
    if not before or not any(m.label == "cols" for m in before) or leads_on(before) or not done(before):
        return []
    return marks[k:]


def _phrase_from(marks: list[Mark], head: int) -> int:
    """Where the phrase of the thing at `head` begins: how much of it, and what stands before it with "and"."""
    k = head
    if k and marks[k - 1].label in _BEFORE_HEAD.get(marks[head].label, ()):
        k -= 1
    if k > 1 and marks[k - 1].w == "of" and marks[k - 2].label in HOW_MUCH:
        k -= 1
    while k and marks[k].label != "fact" and marks[k - 1].label in HOW_MUCH:
        k -= 1
    while k and marks[k - 1].label == "w" and marks[k - 1].w in _A:
        k -= 1
    if k and (marks[k - 1].w == "half" or (marks[k].label in _UNDONE and marks[k - 1].v.get("cue") == "not")):
        k -= 1  # "half a patty on", "couldn't find her in"
    if k > 1 and marks[k - 1].w == "and" and marks[k - 2].label == marks[head].label and marks[head].label in THINGS:
        return _phrase_from(marks, k - 2)  # "an excluder and a super on"
    return k


_UNDONE = frozenset(["fact", "method"])


def leads_on(marks: list[Mark]) -> bool:
    """Whether the marks end in a word that needs what comes after it."""
    last = marks[-1]
    if last.label == "cue" and last.w.split()[-1] in _LEFT_UNDONE:
        return False  # "the wash on fifty one didn't happen | poured"
    if last.label in ("verb", "cue", "comma", "filler", "person"):
        return not led_work_ends(marks)
    small = last.w in GLUE_WORDS or last.w in TAIL_OK or last.w in GOVERNORS or last.w in AUX
    small = small or last.w in _NEEDS_COUNT
    return last.label == "w" and small and last.w not in _AFTERTHOUGHTS and not led_work_ends(marks)


_LEFT_UNDONE = frozenset("done happen happened undone".split())
_NEEDS_COUNT = frozenset("found counted gave gives showed shows came made saw rolled had".split())
_AFTERTHOUGHTS = frozenset("yet too already again now though also".split())


def governing_tail(marks: list[Mark]) -> list[Mark]:
    """The words at the end of a statement that govern the colony that follows."""
    k = len(marks)
    heads = verbs = words = 0
    while k > 0:
        x = marks[k - 1]
        if x.label == "cols" or (k > 1 and marks[k - 2].label == "cols" and is_colour(x.w)):
            break  # "marked the queen in L2 white | and in L4 green"
        if (
            x.label == "yard"
            and k > 1
            and marks[k - 2].w in ("at", "in", "the")
            and any(y.label == "cols" for y in marks[max(0, k - 4) : k - 1])
        ):
            break  # "out of hive eight at the pond … | while I was in eight"
        if x.label in ("mites", "value", "clean", "percent"):
            if x.rule == OF_A_SAMPLE:
                break  # "two samples off three: seven and nine | then one off ten"
            if heads or verbs or not _value_first(marks, k - 1):
                break
            heads += 1
            k -= 1
            continue
        if x.label in ("comma", "filler") or (x.label == "w" and x.w in ("and", "then", "so", "but", "also", "plus")):
            if k < len(marks) and marks[k].label == "yard" and not (heads or verbs) and done(marks[: k - 1]):
                return marks[k - 1 :]  # "six got a jar of syrup | then cut bank sixty two"
            if heads or verbs or words:
                k -= 1 if x.label != "comma" else 0
                break
            k -= 1
            continue
        words += x.label == "w" and x.w.isalpha() and x.w not in GLUE_WORDS and x.w not in TAIL_OK and x.w not in AUX
        if x.label == "sample" and any(y.v.get("does") == "treat" for y in marks[k:]):
            break  # "three had thirteen, alcohol, half cup each | treating three today"
        if x.label == "sample" and heads and k > 1 and marks[k - 2].w in ("in", "of", "from"):
            break  # "four mites in three hundred | soap wash on thirteen"
        if x.label == "sample" and k > 1 and x.w.startswith(("in ", "of ", "out of ")) and marks[k - 2].label in COUNTS:
            break  # "nine was four in three hundred bees | and on ten two"
        if x.label in HEADS:
            if x.label == "fact" and heads:
                break
            if (
                x.label == "method"
                and k > 1
                and marks[k - 2].label in COUNTED
                and any(y.label == "fact" for y in marks[k:])
            ):
                break  # "half a percent alcohol wash | laying workers in"
            heads += 1
        if is_verb(x):
            verbs += 1
        if x.label == "each" and any(y.label in ("number", "amount") for y in marks[k:]):
            break  # "got a super each | two on 42"
        if x.label == "each" and any(y.label == "queen_noun" for y in marks[k:]):
            break  # "two pads each | the old queen in sixty"
        if x.label == "each" and k < len(marks) and marks[k].w == "and" and k > 2 and done(marks[:k]):
            break  # "two pads each in one to five, or one to five two pads each | and in six one pad"
        if x.label in ("date", "days", "each", "yard", "every") and not (heads or verbs):
            k -= 1
            continue
        if x.label in ("each", "days", "yard", "every") and (heads or verbs):
            break
        if x.label == "w" and x.w not in TAIL_OK and x.w not in GLUE_WORDS and (heads or verbs):
            break
        k -= 1
        if verbs and x.label in ("cue", "person"):
            break
    return marks[k:]
