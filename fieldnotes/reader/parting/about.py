"""Small questions about the marks of a statement: is it complete, has it a verb, what governs, what follows?"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.grammar import listed
from fieldnotes.reader.group import BULLETS
from fieldnotes.reader.mark import CALLS, GOES, THINGS, WAYS, Mark
from fieldnotes.reader.parting.statement import HEADS, Statement

LONGEST_STATEMENT = 150
"""Marks; where nothing ends a statement before, this does."""
ORDERS = listed("new_jobs")
"""What is done with things, but not to a hive."""
VERBS = frozenset(["verb", "queen_work", "change", "harvest", "check"])
GLUE_WORDS = frozenset(
    (
        "i'm im we're i've we've they've ive weve it's its they're she's he's that's there's theyre and then so but "
        "also plus or that because since cause cos cuz while when after before i we he she they there now just only - "
        "* · • – — ,"
    ).split()
)
GOVERNORS = frozenset("in on into onto from off of out outa to for with under inside at by around".split())
AUX = frozenset("is was are were be been being has have had get got gets getting 's".split())
TAIL_OK = frozenset(
    (
        "a an the another some my our its their her his this that these those new more extra fresh first second "
        "third other big little small up down back over out off in on into onto from of to for with under each i "
        "we he she they and just also went one all both today"
    ).split()
)
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
_HEADER_LABELS = frozenset(
    "method sample days yard date w filler person comma each clock heading round noun every".split()
)
_HEADER_LABELS_OR_VERB = _HEADER_LABELS | {"verb"}


def header_only(marks: list[Mark]) -> bool:
    """Only a method, a sample size, a place or a day: words that speak of what comes next."""
    return all(m.label in _HEADER_LABELS or (m.label == "verb" and m.v.get("does") == "do") for m in marks)


def is_verb(m: Mark) -> bool:
    """Whether the mark tells of work as a verb does ("washed", "unwrapped")."""
    if m.label in VERBS:
        return True
    if m.label == "method":
        return bool(m.v.get("verb")) and m.w.split()[-1].endswith("ed")
    if m.label == "form":
        return bool(m.v.get("treats")) and m.w.endswith(("ed", "ing"))
    if m.label == "item":
        return m.w.endswith("ed")
    return False


def has_verb(marks: list[Mark]) -> bool:
    """Whether any of the marks does."""
    return any(is_verb(x) for x in marks)


_THESE = frozenset(["they", "that"])
AWAY = ("out ", "off ")
"""How a verb begins that has its subject in it ("so out they come on the 13th")."""


def done(marks: list[Mark]) -> bool:
    """Whether the marks already make a statement by themselves."""
    labels = {m.label for m in marks}  # asked of every mark of a note, so most questions are settled by these alone
    said = not HEADS.isdisjoint(labels) or (
        "amount" in labels and ("verb" in labels or any(m.label == "w" and m.w in ("made", "gave") for m in marks))
    )
    if not said and "verb" in labels:
        said = any(
            m.label == "verb"
            and (m.v.get("dir") or m.w == "doing")
            and x.label == "pronoun"
            and x.w in ("them", "it", "those", "both", "em")
            for m, x in pairwise(marks)
        )  # "I pulled them"
        said = said or any(
            x.label == "verb" and x.v.get("dir") and x.w.split()[0] in GOES and (m.label == "pronoun" or m.w in _THESE)
            for m, x in pairwise(marks)
        )  # "those two come out"
        said = said or (
            "queen_noun" in labels
            and any(m.label == "queen_noun" and "cell" in m.w for m in marks)
            and any(m.label == "verb" and m.w in ("gets", "get", "got") for m in marks)
        )  # "it gets its cell"
        said = said or any(x.w == "theirs" and m.w in ("get", "got") for m, x in pairwise(marks))
        said = said or any(x.label == "verb" and x.w.startswith(AWAY) and x.w.count(" ") == 2 for x in marks)
    said = said or ("ratio" in labels and ({"amount", "cols"} <= labels or _fed(marks)))
    said = (
        said
        or ("cols" in labels and (_pair(marks) or names_made(marks) or _made_of_another(marks) or _none_for(marks)))
        or ("cue" in labels and _none_given(marks))
    )
    return (
        (said and not (labels <= _HEADER_LABELS_OR_VERB and header_only(marks)))
        or ("same" in labels and "cols" in labels)
        or ("rest" in labels and "date" in labels)
    )


def _made_of_another(marks: list[Mark]) -> bool:
    """ "made N5 out of 18 | and N6 out of 20 | both get a queen": two colonies and how the one came of the other."""
    named = [k for k, m in enumerate(marks) if m.label == "cols"]
    if len(named) != 2 or named[1] < 2 or marks[0].w not in ("and", "then"):
        return False
    source = named[0] > 0 and marks[named[0] - 1].w in ("from", "of", "off")
    between = [m.w for m in marks[named[0] + 1 : named[1]]]
    return between in (["out", "of"], ["from"], ["off"], ["off", "of"]) or (source and between[-1:] in _NAMED_SO)


_NAMED_SO = (["is"], ["that's"], ["it's"], ["called"])
_HALVES = listed("halves")


def names_made(marks: list[Mark]) -> bool:
    """ "the other half is 79 | and both got a super", "those are N1 and N2 | they get cells", "calling them N1 and N2":
    the name of what was made says enough by itself.
    """
    return any(
        y.label == "cols"
        and ((x.w in _ARE and (m.w.split()[-1] in _HALVES or m.w in NEW_ONES)) or (m.w in CALLS and x.w in NEW_ONES))
        for m, x, y in zip(marks, marks[1:], marks[2:], strict=False)
    )


_ARE = frozenset(["is", "are", "will be"])
NEW_ONES = frozenset(["it", "they", "them", "those", "these", "that", "this", "that one", "this one"])
"""How colonies made just now are pointed to where they are named."""


def _fed(marks: list[Mark]) -> bool:
    """ "fed hives one and two one to one": who was fed, and then with what."""
    fed = [m.label for m in marks if m.label in ("cols", "every", "ratio")]
    return fed[0] != "ratio" and fed[-1] == "ratio"


_GIVE = frozenset("get give given put place placed got do add want need".split())
_ANY = frozenset(["any", "any of it", "any of them", "one", "theirs"])


def _none_given(marks: list[Mark]) -> bool:
    """ "i didn't give any", "four didn't get one": left undone, and what is clear from what was said before."""
    at = next((k for k, m in enumerate(marks) if m.label == "cue" and m.v.get("cue") == "not"), len(marks))
    near = marks[at : at + 4]
    return any(m.w in _ANY and before.label in ("cue", "verb", "cols", "pronoun") for before, m in pairwise(near)) and (
        not _GIVE.isdisjoint(m.w.split()[-1] for m in near if m.label in ("cue", "verb"))
    )


def _none_for(marks: list[Mark]) -> bool:
    """ "none on 45": left out, and what of is clear from what was said before."""
    said = [m for m in marks if m.label not in ("comma", "filler") and m.w not in GLUE_WORDS]
    if len(said) < 3 or said[0].w not in ("none", "nothing") or said[1].w not in GOVERNORS or said[2].label != "cols":
        return False
    return all(m.label == "pronoun" or m.w in AUX for m in said[3:])


def _pair(marks: list[Mark]) -> bool:
    """ "and 44 into 45": the same change of another pair, said to its end."""
    k = next((k for k, m in enumerate(marks) if m.w in ("into", "with")), 0)
    return 0 < k < len(marks) - 1 and marks[k - 1].label == marks[k + 1].label == "cols"


def led(statement: Statement) -> bool:
    """Whether colonies led the statement ("hive six | put a super on"), or the one before it where it has none."""
    for m in statement.marks:
        if m.label == "cols":
            return True
        if m.label in HEADS or is_verb(m):
            return statement.led and not statement.has("cols")
    return statement.led


def particle_ends(marks: list[Mark]) -> bool:
    """Whether the marks end in a thing and which way it went ("took the reducer off")."""
    return (
        len(marks) > 1
        and marks[-1].label == "w"
        and marks[-1].w in WAYS
        and marks[-2].label in ("item", "agent", "form", "feed", "pronoun", "queen_noun", "verb")
    )


_DEALT_WITH = frozenset("item agent form feed number approx queen_noun".split())
_ARTICLES = frozenset("the a an its her both their my back just only all".split())


def led_work_ends(marks: list[Mark]) -> bool:
    """Whether colonies lead the marks, and what was done to them is told after them to its end: "L9 took the feeder
    off", "43 the excluder came off", "47 one super off".
    """
    k = len(marks) - 1
    if k < 2 or marks[k].w.split()[-1] not in WAYS or marks[k].label not in ("w", "verb"):
        return False
    moved = marks[k].label == "verb"
    k -= 1
    if (marks[k].label == "verb" or marks[k].w in ("is", "are", "'s", "was", "were")) and not moved:
        moved, k = True, k - 1  # "the reducer went on", "51's excluder is off"
    thing = False
    while k > 0 and (marks[k].label in _DEALT_WITH or marks[k].w in _ARTICLES):
        thing = thing or marks[k].label in THINGS
        k -= 1
    if not thing:
        return False
    if marks[k].label == "verb" and marks[k].v.get("dir") and not moved and k:
        k -= 1
        while k and marks[k].w in _ARTICLES:
            k -= 1  # "i only took the wraps off"
    if marks[k].w in ("i", "we", "'s") and k:
        k -= 1
    leads = all(m.label in ("filler", "comma", "hive") or m.w in ("and", "so", "then", "but") for m in marks[:k])
    return marks[k].label == "cols" and leads


def done_to_what_leads(marks: list[Mark]) -> bool:
    """ "the old girl in sixty i culled", "forty four's queen i marked yellow": a thing and its colonies lead, then what
    somebody did to it.
    """
    if len(marks) < 4 or marks[-1].label not in ("verb", "queen_work") or marks[-2].w not in ("i", "we"):
        return False
    at = next((k for k, m in enumerate(marks) if m.label == "cols"), 0)
    owned = marks[at + 1].w == "'s" and marks[at + 2 : -2] == marks[-3:-2]
    thing = marks[-3] if owned else marks[max(0, at - 2)]
    lead = marks[:at] if owned else marks[: max(0, at - 2)]
    placed = owned or (at > 1 and marks[at - 1].w in ("in", "on", "at", "from") and marks[at + 1] is marks[-2])
    plain = all(m.label in ("filler", "comma") or m.w in ("and", "the", "so", "then", "but") for m in lead)
    return placed and plain and (thing.label in THINGS or thing.label in ("queen_noun", "fact"))


def clausal(marks: list[Mark]) -> bool:
    """Whether marks without a head are a clause of their own: a cue or a verb, or several plain words."""
    if any(x.label == "cue" and x.v.get("cue") in ("plan", "not", "if", "ask") for x in marks):
        return True
    if any(x.label == "verb" and x.v.get("tense") == "past" for x in marks) and any(x.w in ("i", "we") for x in marks):
        return True  # "and then i ran out so um | ten through eighteen get theirs"
    plain = [x for x in marks if x.label == "w" and x.w.isalpha() and x.w not in GLUE_WORDS and x.w not in TAIL_OK]
    return (
        len(plain) >= 3
        or (any(x.label == "verb" for x in marks) and (bool(plain) or any(x.label == "rest" for x in marks)))
        or (
            any(x.label == "yard" for x in marks)
            and marks[-1].label != "yard"
            and any(x.label == "filler" for x in marks[1:])
        )
        or (any(x.label == "pronoun" for x in marks) and any(x.w in AUX or x.label in ("days", "date") for x in marks))
    )


def ends_in_subject(marks: list[Mark]) -> bool:
    """Whether the marks end in a thing that waits for its verb ("all the greenies there | come out")."""
    for x in reversed(marks[:-1] if marks and marks[-1].w in ("i", "we") else marks):
        if x.label in ("agent", "form", "item", "feed", "queen_noun", "method"):
            return True
        if x.label in ("filler", "approx", "comma", "pronoun", "person", "each", "every") or (
            x.label == "w"
            and x.w in ("there", "here", "now", "that", "i", "we", "just", "already", "also", "all", "still")
        ):
            if x.label in ("comma", "filler") or x.w in ("i", "we"):
                return False
            continue
        return False
    return False


def since_last_head(marks: list[Mark]) -> list[Mark]:
    """The marks after the last head; all where there is none."""
    for k in range(len(marks) - 1, -1, -1):
        if marks[k].label in HEADS:
            return marks[k + 1 :]
    return marks


def same_family(marks: list[Mark], m: Mark) -> bool:
    """Whether the mark is of the family (treatment, gear, feed …) of the last head."""
    family = _FAMILY.get(m.label)
    heads = [x for x in marks if x.label in HEADS]
    return bool(heads) and _FAMILY.get(heads[-1].label) == family


_THERE = frozenset(["right", "seen"])
_GONE = frozenset(["less", "drone_layer", "laying_workers"])


def against(one: Mark, other: Mark) -> bool:
    """Whether two things seen cannot be said of the same colony: "queenright" and "no queen", or "no eggs"."""
    a, b = (m.v.get("set", {}) if m.label == "fact" else {} for m in (one, other))
    if a.get("queen") in _THERE and b.get("queen") in _THERE:
        return False
    return (
        any(a[slot] != b[slot] for slot in a.keys() & b.keys() if slot in _ONE_OF)
        or (a.get("queen") in _THERE and b.get("eggs") is False)
        or (a.get("eggs") is True and b.get("queen") in _GONE)
    )


_ONE_OF = frozenset("queen eggs open_brood temper stores strength".split())
"""What a colony has only one of."""


def after_aux(marks: list[Mark]) -> bool:
    """Whether the verb that comes belongs to a cue or an auxiliary just before it ("need to | pull")."""
    for x in reversed(marks):
        if x.label == "cue" or (
            x.label == "verb" and (x.v.get("does") == "do" or x.w in ("got", "get", "gets", "going", "go"))
        ):
            return True
        if x.label == "w" and x.w in AUX:
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


def first_word(marks: list[Mark]) -> str:
    """The first word that is no filler, sign or joining word."""
    return next(
        (m.w for m in marks if m.label not in ("filler", "comma") and m.w not in BULLETS and m.w not in GLUE_WORDS), ""
    )


def hives_change_hands(marks: list[Mark]) -> bool:
    """Whether hives are moved, sold or made up, and no yard is named yet where they go."""
    return any(
        x.label == "change" and x.v.get("step") in ("moved", "combined", "sold", "bought", "nuc_made", "split")
        for x in marks
    ) and not any(x.label == "yard" and x.v.get("to") for x in marks)


def clause_follows(row: list[Mark], i: int) -> bool:
    """Whether a verb, a head or a colony follows the cue before the next boundary: it then opens a clause."""
    for x in row[i + 1 : i + 1 + LONGEST_STATEMENT]:
        if x.label in ("stop", "line", "question", "comma", "filler"):
            return False
        if (
            x.label in HEADS
            or x.label in ("verb", "cols", "item", "rest")
            or (x.label == "w" and x.w.isalpha() and len(x.w) > 3 and x.w not in TAIL_OK)
        ):
            return True
    return False


def person_follows(row: list[Mark], i: int) -> bool:
    """Whether "I" or "we" follows ("twelve I saw the queen")."""
    return i + 1 < len(row) and row[i + 1].w in ("i", "we")


def predicate_follows(row: list[Mark], i: int) -> bool:
    """Whether what comes after the colonies at `i` is said of them."""
    k = i + 1
    while k < len(row) and row[k].label == "filler" and row[k].w.split()[0] in _NEAR_OR_SO:
        k += 1  # "and forty one next to it has two frames"
    if k + 1 < len(row) and row[k].label == "approx" and row[k + 1].label in ("percent", "mites", "fact"):
        k += 1  # "s ten didn't get pads | s six about half a percent"
    if k < len(row) and row[k].label == "noun" and row[k].w == "nuc":
        k += 1  # "n two nuke has a virgin"
    while k < len(row) and row[k].label == "w" and row[k].w in _BESIDE:
        k += 1
    placed = next((n for n in range(k + 1, min(k + 4, len(row))) if row[n].label == "yard"), None)
    if placed is not None and row[k].w in ("at", "in") and all(x.w in _AT_THE for x in row[k:placed]):
        k = placed + 1  # "fifty seven at cut bank is a dead out"
    q = row[k] if k < len(row) else None
    if q is not None and q.w in ("all", "both") and row[k + 1 : k + 2] and row[k + 1].label in _FOUND:
        return True  # "s ten didn't get any | s one and s two all zero"
    if q is not None and q.label == "fact" and row[k + 1 : k + 2] and row[k + 1].w in ("in", "on"):
        if row[k + 2 : k + 3] and row[k + 2].label == "cols":
            return False  # "a pound each l five and l six | sacbrood in l nine"
    return q is not None and (
        q.label in ("fact", "change", "clean", "mites", "queen_work", "value", "percent")
        or (q.label == "method" and row[k + 1 : k + 2] != [] and row[k + 1].label in ("mites", "percent", "value"))
        or (q.w in ("it's", "she's") and row[k + 1 : k + 2] != [] and row[k + 1].label in ("fact", "change"))
        or (q.label == "form" and bool(q.v.get("treats")) and _measured_out(row[k + 1 : k + 3]))
        or (q.label == "ignore" and q.w.split()[0] in ("had", "has"))
        or (q.label == "filler" and q.w.split()[0] in _SEEMS and row[k + 1 : k + 2] and row[k + 1].label in _SEEN)
        or (q.label == "cue" and q.v.get("cue") in ("plan", "not"))
        or (q.label == "verb" and q.w.split()[0] in ("gets", "get", "got", "took", "went", "came"))
        or (q.label == "w" and q.w in ("still", "'s", "are", "were", "have"))
        or (q.label == "w" and (q.w in _ONE_HIVE_VERBS or q.w in ("stays", "stayed", ":", "=")))
    )


_FOUND = frozenset("value clean mites fact".split())
_SEEMS = frozenset("looks looked seems seemed sounds sounded feels felt smells".split())
_SEEN = frozenset(["fact", "change"])


_NEAR_OR_SO = frozenset("next right beside behind kinda sorta".split())
_BESIDE = frozenset("up over down here there out also still just only pretty real really very quite".split())


def _measured_out(after: list[Mark]) -> bool:
    """ "one, three and five dribbled | fifteen ml each": how much was given stands after the treating."""
    return bool(after) and after[0].label in ("amount", "unit")


_ONE_HIVE_VERBS = listed("one_hive")
_AT_THE = frozenset("over at in the".split())


def yard_leads(row: list[Mark], i: int) -> bool:
    """Whether the yard is the subject of what follows ("larks gets …", "cut bank: …")."""
    if i + 1 >= len(row):
        return False
    q = row[i + 1]
    return (
        q.w in (":", "=", "-", "–")
        or q.label == "change"
        or (
            q.label == "honey" and i + 2 < len(row) and row[i + 2].w in ("came", "was", "is", "made", "went", "weighed")
        )
        or (q.label == "verb" and q.v.get("tense") in ("base", "past") and q.w in ("gets", "get", "got", "made"))
        or (q.label == "w" and q.w in ("needs", "got", "has", "had", "is", "was", "made", "gave"))
        or (q.label == "cue" and q.v.get("cue") == "plan" and q.w.split()[0] not in _SOMEBODY_PLANS)
    )


_SOMEBODY_PLANS = frozenset("i'll we'll he'll she'll they'll i we i'm we're let's gotta i'd".split())
"""How a plan begins of which a person is the subject, not the yard before it."""
_WHOSE = frozenset("hers his its theirs their one the a all both them".split())


def before_thing(marks: list[Mark], k: int) -> Mark | None:
    """The mark before the one at `k`, a thing between them passed over ("gets hers introduced", "get their strips
    pulled").
    """
    k -= 1
    passed = max(-1, k - 4)
    while k > passed and (marks[k].w in _WHOSE or marks[k].label in ("agent", "form", "item", "thing")):
        k -= 1
    return marks[k] if k >= 0 else None
