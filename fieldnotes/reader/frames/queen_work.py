"""Work with queens and queen cells."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.colour import colour_beside
from fieldnotes.reader.frames.marks import index_in, index_of, is_approx, neighbour, said_of_each, tidy
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.scope import Draft


def queen_work(statement: Statement) -> list[Draft]:
    """Work with queens and cells, a draft for each step."""
    if not statement.has("queen_work", "queen_noun"):
        return []
    drafts: list[Draft] = []
    steps = [m for m in statement.all("queen_work") if not _banked_one(statement, m)]
    nouns = statement.all("queen_noun")
    if not steps and nouns:
        kind = next((m for m in nouns if m.v.get("noun") == "cells"), None)
        if (kind is not None and any(m.label == "verb" and m.v.get("dir") == "in" for m in statement.marks)) or (
            kind is not None
            and any(m.label == "w" and m.w in ("in", "into") for m in _until_seen(statement))
            and statement.has("cols", "yard")
            and not any(m.w in _CAME_OUT for m in statement.marks)
        ):
            steps = [
                Mark(
                    "queen_work",
                    kind.s,
                    kind.e,
                    kind.w,
                    {"step": "cells_placed"} | ({"n": kind.v["n"]} if "n" in kind.v else {}),
                    kind.rule,
                )
            ]
        elif kind is not None and (to := neighbour(statement, index_of(statement, kind), 1)) and to.w == "to":
            after = neighbour(statement, index_of(statement, to), 1)
            if after is not None and after.label == "cols":  # "ripe cells to 44, 46 and 51"
                placed = {"step": "cells_placed"} | ({"n": kind.v["n"]} if "n" in kind.v else {})
                steps = [Mark("queen_work", kind.s, kind.e, kind.w, placed, kind.rule)]
        elif _put_in(statement, nouns[0]) and not statement.has("fact"):
            noun = nouns[0]
            steps = [
                Mark(
                    "queen_work",
                    noun.s,
                    noun.e,
                    noun.w,
                    {"step": "cells_placed" if "cells" in noun.w.split() else "introduced"}
                    | ({"n": noun.v["n"]} if "n" in noun.v else {}),
                    noun.rule,
                )
            ]
    seen: set[str] = set()
    seen_queen = any(f.v.get("set", {}).get("queen") == "seen" for f in statement.all("fact"))
    for m in steps:
        step = m.v["step"]
        if step in seen:
            continue
        how_marked = step == "marked" and m.v.get("mark") and m.w.startswith("marked") and not m.w.startswith(AT_WORK)
        if how_marked and seen_queen:
            m.label, m.v = "fact", {"kind": "inspection", "mark": m.v["mark"]}
            statement.seal()
            continue
        if how_marked and drafts and drafts[-1].slots["step"] == "introduced" and "mark" not in drafts[-1].slots:
            drafts[-1].put("mark", m.v["mark"], "colour")
            drafts[-1].spans.append((m.s, m.e))
            continue  # "mated queen into fifty two, marked yellow"
        if how_marked and _right_before(statement, m):
            m.label, m.v = "fact", {"kind": "inspection", "mark": m.v["mark"]}
            statement.seal()
            continue  # "all queenright, marked green"
        if step == "removed" and m.w.split()[0] in _TAKEN_WITH and queen_goes(statement) is not None:
            continue
        if step == "introduced" and m.w.split()[0] in _NAMES_HER and _spoken_of(statement, m):
            continue
        if m.w == "caged one" and [x.w for x in statement.marks[:2]] == ["she's", "a"]:
            continue  # "she's a caged one from the bank": what she is
        if (
            _of_those_ones(statement, m)
            or (m.w == "graft" and m in statement.marks and _belongs(statement, m))
            or _named_only(statement, m)
            or (step == "cells_placed" and _cells_there(statement, m))
            or (step == "cells_placed" and any(x.v.get("step") == "died" for x in statement.all("change")))
            or (step == "cells_placed" and statement.has("mites"))  # "four mites in about forty cells"
            or (step == "cells_placed" and not _CAME_OUT.isdisjoint(statement.words))
            or (step == "removed" and _accepted(statement, m))
        ):
            continue
        seen.add(step)
        draft = Draft("queen_work")
        draft.put("step", step, m.rule)
        draft.spans.append((m.s, m.e))
        number = m.v.get("n")
        by = m
        words = m.w.split()
        if (
            number is None
            and step == "cells_placed"
            and ({"a", "one"} & set(words))
            and ({"cell", "qc", "sell"} & set(words))
        ):
            number = Number(1, 0)  # "gets a cell"
        if number is None and step == "cells_placed" and any(_one_cell(statement, x) for x in nouns):
            number = Number(1, 0)  # "gave s eleven a cell"
        pointed = statement.first("pronoun")
        of_them = next((x for x in statement.all("hives") if "n" in x.v and x.w.endswith(("of them", "of em"))), None)
        if number is None and step in ("banked", "introduced", "caught", "released") and of_them is not None:
            number, by = of_them.v["n"], of_them  # "banked four of them in QB"
        if number is None and step in ("banked", "introduced") and pointed is not None and "n" in pointed.v:
            straight = m in statement.marks and neighbour(statement, index_of(statement, m), 1) is pointed
            if step == "banked" or straight:
                number, by = pointed.v["n"], pointed  # "banked all three in QB", "introduced the other two into …"
        if number is None:
            for noun in nouns:
                if "n" in noun.v:
                    number, by = noun.v["n"], noun
        if number is None and (step in _IN_NUMBERS or step in ("introduced", "released")):
            other = statement.has("item", "form", "feed", "agent", "unit")
            dealt = step in ("caught", "introduced") and statement.has("cols")  # "queens caught in N1 and N3, one each"
            each = (step == "cells_placed" or dealt) and not other  # "cells put in two apiece"
            loose = [x for x in statement.all("number", "value") if each or not said_of_each(statement, x)]
            if dealt and step == "introduced":
                loose = [x for x in loose if said_of_each(statement, x)]
            if step in ("clipped", "marked"):  # "clipped two", but "clipped the one in nine"
                loose = [x for x in loose if x.v["n"].value > 1 and not statement.has("cols")]
            if loose and (dealt or step in _IN_NUMBERS):
                number, by = loose[0].v["n"], loose[0]
        if number is not None and number.value > 0:
            draft.put("count", tidy(number.value), by.rule)
            draft.spans.append((by.s, by.e))
            if is_approx(statement, by) if by in statement.marks else False:
                draft.put("approx", True, "about")
        colour = m.v.get("mark")
        for fact in statement.all("fact"):
            if fact.v.get("mark") and colour is None:
                colour = fact.v["mark"]
                fact.v["taken"] = True
                draft.spans.append((fact.s, fact.e))
        if colour and step in ("marked", "requeened", "introduced", "caught", "banked", "released"):
            draft.put("mark", colour, "colour")
        elif step in ("marked", "requeened", "introduced", "caught", "banked"):
            colour_beside(statement, draft)
        for noun in nouns:
            draft.spans.append((noun.s, noun.e))
        drafts.append(draft)
    return drafts


_CAME_OUT = frozenset("hatched hatching emerged emerging open opened chewed left torn".split())
"""What is said of cells that hang there already."""
AT_WORK = ("marked her ", "marked them ", "marked the ")
"""How somebody says that he marked her just then; "queen seen, marked white" tells how she was found."""


_IN_NUMBERS = ("grafted", "caught", "banked", "cells_placed", "clipped", "marked")
"""What may be done to so many queens or cells, of which no colony is said."""


def _banked_one(statement: Statement, m: Mark) -> bool:
    """ "got one of the banked queens", "swapped her for a banked one": which one it is, and nothing banked."""
    if m.w != "banked":
        return False
    k = index_of(statement, m)
    before, after = neighbour(statement, k, -1), neighbour(statement, k, 1)
    named = after is not None and (after.label == "queen_noun" or after.w in ("one", "ones"))
    return named and before is not None and before.w in ("the", "a", "those", "these", "my", "our", "last")


def _one_cell(statement: Statement, noun: Mark) -> bool:
    """ "a cell", "one ripe cell"."""
    words = noun.w.split()
    if words[-1] != "cell":
        return False
    before = neighbour(statement, index_in(statement, noun), -1)
    return "a" in words or (before is not None and before.w in ("a", "one"))


def _until_seen(statement: Statement) -> list[Mark]:
    """The marks up to what was seen: "cells in N1", but not "a cell chewed down, eggs, so the virgin is in there"."""
    end = next((k for k, m in enumerate(statement.marks) if m.label == "fact" and k), len(statement.marks))
    return list(statement.marks[:end])


_NAMES_HER = frozenset("new queen caged the that mated laying".split())
_SAID_OF_HER = frozenset("is 's was has isn't wasn't hasn't still got looks looked not".split())


def _spoken_of(statement: Statement, m: Mark) -> bool:
    """ "the new queen in forty is laying", "caged queen in nine still in the cage": a queen that is there."""
    k = index_in(statement, m)
    before = statement.marks[k - 1] if k > 0 else None
    named = m.w.startswith(("the ", "that ")) or (before is not None and before.w in ("the", "her", "its", "that"))
    after = statement.marks[k + 1 :]
    if m.w.endswith("in") and len(after) > 1 and after[0].label == "cols":
        said = after[1].w.split()[0]
        return said in _SAID_OF_HER and (named or m.w.startswith("caged") or said in ("has", "is", "was"))
    return named and not {"is", "'s", "was", "has"}.isdisjoint(x.w for x in after)


def _cells_there(statement: Statement, m: Mark) -> bool:
    """ "checked the cells in 9": cells that are there already, and looked at."""
    if not m.w.endswith(("cells in", "cell in", "cells into")):
        return False
    k = index_in(statement, m)
    caged = any(x.w in ("caged", "cage", "caging") for x in statement.marks[max(0, k - 3) : max(k, 0)])
    return caged or any(x.v.get("does") == "inspect" for x in statement.marks[max(0, k - 3) : max(k, 0)])


def _right_before(statement: Statement, m: Mark) -> bool:
    """Whether "queenright" stands right before."""
    before = neighbour(statement, index_of(statement, m), -1)
    if before is not None and before.label == "comma":
        before = neighbour(statement, index_of(statement, before), -1)
    named = before is not None and before.label in ("queen_noun", "queen_work") and "marked" not in before.w.split()
    if named and any(x.w in ("is", "'s", "is a") for x in statement.marks[: index_of(statement, m)]):
        return not statement.has("date")  # "46's queen is an old girl, marked white"
    return before is not None and before.v.get("set", {}).get("queen") == "right"


def _belongs(statement: Statement, m: Mark) -> bool:
    """Whether somebody's, or a certain one, is meant: "three's graft", "the graft"."""
    before = neighbour(statement, index_of(statement, m), -1)
    return before is not None and before.w in ("'s", "the", "that", "last")


def _of_those_ones(statement: Statement, m: Mark) -> bool:
    """ "checked the requeened ones at larks": which ones they are, and nothing done."""
    k = index_in(statement, m)
    before, after = statement.marks[max(0, k - 1) : k], statement.marks[k + 1 : k + 2]
    return [x.w for x in before] == ["the"] and bool(after) and after[0].w in ("ones", "hives", "colonies", "nucs")


def _accepted(statement: Statement, m: Mark) -> bool:
    """ "check whether 73 took its queen": the colony took her in, and nobody took her out."""
    before = neighbour(statement, index_in(statement, m), -1) if m.w.split()[0] in ("took", "take") else None
    return before is not None and (before.label == "cols" or before.w in ("has", "have"))


def _named_only(statement: Statement, m: Mark) -> bool:
    """ "my marked queen in twelve is gone": what she is called, and nothing done."""
    k = index_in(statement, m)
    before = statement.marks[k - 1].w if k > 0 else ""
    return m.w.startswith("marked") and "queen" in m.w.split() and before in ("my", "the", "a", "her", "our", "that")


_INTO = frozenset(["into", "went into", "go into", "went in", "went to", "to"])


def _put_in(statement: Statement, noun: Mark) -> bool:
    """Whether the words put something in; "the mean one I got stung going through" does not."""
    at = index_in(statement, noun)
    after = [m for m in statement.marks[at + 1 : at + 5] if m.label not in ("ignore", "filler")][:2]
    many = "n" in noun.v or (noun.w.endswith("queens") and after and after[0].label == "verb")
    if len(after) == 2 and many and after[0].w in _INTO and after[1].label == "cols":
        return True  # "8 queens from the bank went into N4, S3", "new queens went into 44 and 47"
    behind = statement.marks[at + 1 :]
    if any(a.w == "to" and b.label == "person" for a, b in pairwise(behind)):
        return False  # "gave the old queen from 9 to Ines"
    if any(
        a.w == "they" and b.w in _INTO and c.label == "cols"
        for a, b, c in zip(behind, behind[1:], behind[2:], strict=False)
    ):
        return True  # "the cells are ready tomorrow, they go into N1 to N6"
    for k, m in enumerate(statement.marks):
        if m.label != "verb" or m.v.get("dir") != "in":
            continue
        somebody = k > at and k > 0 and statement.marks[k - 1].w in ("i", "we") and m.w == "got"
        through = k + 1 < len(statement.marks) and statement.marks[k + 1].w in ("through", "over")
        if not somebody and not (m.w.startswith("going") and (through or m.w.endswith("through"))):
            return True
    return False


_TAKEN_WITH = frozenset("took take takes pulled moved move put went goes lifted shifted transferred brought".split())
_OLD_QUEEN = frozenset(["queen", "q", "girl", "lady"])


def queen_goes(s: Statement) -> Mark | None:
    """ "took the old queen and four frames over to N3", "old queen and three frames went into N3": where she goes, in a
    new colony made for her.
    """
    cols = s.all("cols")
    if not cols or not s.has("queen_noun", "queen_work"):
        return None
    k = index_of(s, cols[-1])
    way = s.marks[k - 1].w.split()[-1] if k else ""
    if way not in ("to", "into", "in", "onto") or (s.has("fact") and not frames_along(s)):
        return None
    work = s.all("queen_work")
    if any(m.v.get("step") not in ("removed", "caught") for m in work):
        return None
    her = any(m.w.split()[-1] in _OLD_QUEEN for m in (*s.all("queen_noun"), *work) if index_of(s, m) < k)
    verb = any(m.w.split()[0] in _TAKEN_WITH for m in s.marks[:k])
    return cols[-1] if her and verb else None


def frames_along(s: Statement) -> list[Mark]:
    """Frames that go along, so many."""
    frames = [m for m in s.all("noun") if m.v.get("noun") == "frames" and "n" in m.v]
    frames += [m for m in s.all("fact") if m.v.get("number") in ("brood_frames", "bee_frames")]
    return frames + [m for m in s.all("item") if m.v.get("item") == "brood_frame"]
