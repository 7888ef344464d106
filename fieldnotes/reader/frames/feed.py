"""Feed: what, how much, how strong."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import amount_of, count_before
from fieldnotes.reader.frames.marks import index_of, is_approx, neighbour, number_of, tidy
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft


def _eaten(statement: Statement) -> bool:
    """ "all the syrup is gone at wens": what was fed before."""
    return any(
        a.label == "feed" and b.label == "change" and b.w.split()[-1] == "gone" for a, b in pairwise(statement.marks)
    )


def _by_bees(statement: Statement, verb: Mark) -> bool:
    """ "they were feeding her through the cage": the bees did."""
    after = neighbour(statement, index_of(statement, verb), 1)
    return verb.w == "feeding" and after is not None and after.w in ("her", "the queen")


def feed(statement: Statement, fed_before: Draft | None) -> list[Draft]:
    """What was fed."""
    if not statement.has("feed", "verb", "ratio", "amount"):
        return []
    if _in_store(statement) or _eaten(statement):
        return []
    feeds = [m for m in statement.all("feed") if not _looked_at(statement, m)]
    fed = [m for m in statement.all("verb") if m.v.get("does") == "feed" and not _by_bees(statement, m)]
    ratio = statement.first("ratio")
    amount = statement.first("amount")
    if feeds and all(m.v.get("weak") for m in feeds) and not fed and amount is None and not statement.has("verb"):
        return []
    if amount is not None and (feeds or ratio is not None):
        feeds = _with_patties(statement, feeds)
    same = amount is not None and ("same" in statement.words or statement.has("same"))  # "a pint of the same"
    if fed_before is not None and amount is not None and statement.has("cols", "every", "hives", "pronoun", "rest"):
        same = same or not statement.has("agent", "form", "item", "harvest", "honey", "change")  # "74 got two quarts"
    patty = amount is not None and amount_of(amount)[1] == "patty" and not feeds  # "a patty on nine"
    same = same or (amount is not None and _gave(statement, amount))  # "gave 44 a gallon"
    if (
        not feeds
        and not fed
        and not same
        and not patty
        and not (ratio is not None and not statement.has("method", "mites", "value"))
    ):
        return []
    named = statement.has("cols", "every", "hives", "pronoun") or any(_whole_yard(statement, m) for m in fed)
    if not feeds and fed and not (ratio or amount or named or _fed_too(statement)):
        return []
    drafts = []
    if ratio is not None and feeds and not any(m.v["feed"] == "syrup" for m in feeds):
        feeds = [
            Mark("feed", ratio.s, ratio.e, ratio.w, {"feed": "syrup"}, ratio.rule),
            *feeds,
        ]  # "a pint of 1:1 and a patty"
        k = index_of(statement, ratio)
        statement.marks.insert(k, feeds[0])
        statement.seal()
    if feeds and _taken_off(statement):
        return []
    named_feeds: list[Mark | None] = [*feeds] if feeds else [None]
    for m in named_feeds:
        draft = Draft("feed")
        if m is not None:
            draft.put("feed", m.v["feed"], m.rule)
            draft.spans.append((m.s, m.e))
        elif patty and amount is not None:
            draft.put("feed", "pollen_patty", amount.rule)
        elif ratio is not None:
            draft.put("feed", "syrup", ratio.rule)
        before = fed_before.slots if fed_before is not None else {}
        alike = ratio is None and before.get("feed") == draft.slots.get("feed") and "ratio" in before
        said = [*m.w.split(), *(x.w for x, y in pairwise(statement.marks) if y is m)] if m is not None else []
        if alike and "same" in said:
            draft.put("ratio", before["ratio"], "the same syrup")
        if ratio is not None and draft.slots.get("feed") == "syrup":
            draft.put("ratio", ratio.v["ratio"], ratio.rule)
            draft.spans.append((ratio.s, ratio.e))
        amounts = statement.all("amount")
        if len(feeds) > 1 and m is not None:
            amounts = [x for x in amounts if _nearest(statement, x, feeds) is m]
        grams = [x for x in statement.all("unit") if x.v.get("unit") == "gram"]
        if amounts:
            chosen = amounts[0]
            value, unit = amount_of(chosen)
            draft.put("amount", tidy(value), chosen.rule)
            if unit:
                draft.put("unit", unit, chosen.rule)
            draft.spans.append((chosen.s, chosen.e))
            if is_approx(statement, chosen):
                draft.put("approx", True, "about")
        elif grams:
            draft.put("amount", tidy(number_of(grams[0]).value), grams[0].rule)
            gallons = draft.slots.get("feed") == "syrup" and grams[0].w.endswith("g") and number_of(grams[0]).value < 20
            draft.put("unit", "gallon" if gallons else "gram", grams[0].rule)  # "2:1, 1g ea"
            draft.spans.append((grams[0].s, grams[0].e))
        elif m is not None and m.v["feed"] == "pollen_patty":
            number, by = count_before(statement, m)
            if number is not None:
                draft.put("amount", tidy(number), m.rule)
                draft.put("unit", "patty", m.rule)
                if by is not None:
                    draft.spans.append((by.s, by.e))
            elif "n" in m.v:
                draft.put("amount", tidy(number_of(m).value), m.rule)
                draft.put("unit", "patty", m.rule)
        for x in fed:
            draft.spans.append((x.s, x.e))
        drafts.append(draft)
    return drafts


def _with_patties(statement: Statement, feeds: list[Mark]) -> list[Mark]:
    """ "a patty and a pound of fondant": patties are a feed of their own beside another one. Adds its mark."""
    if any(m.v["feed"] == "pollen_patty" for m in feeds):
        return feeds
    amounts = statement.all("amount")
    for m in amounts:
        k = index_of(statement, m)
        after, before = neighbour(statement, k, 1), neighbour(statement, k, -1)
        joined = len(amounts) > 1 or any(x is not None and x.w == "and" for x in (before, after))
        if amount_of(m)[1] == "patty" and joined and (after is None or (after.label != "feed" and after.w != "of")):
            patties = Mark("feed", m.s, m.e, m.w, {"feed": "pollen_patty"}, m.rule)
            statement.marks.insert(k + 1, patties)
            statement.seal()
            return sorted([*feeds, patties], key=lambda x: x.s)
    return feeds


_LIQUID = frozenset(["gallon", "quart", "pint", "litre", "jar"])


def _gave(statement: Statement, amount: Mark) -> bool:
    """Whether so much of what has no other name is given to hives."""
    if not statement.has("cols", "every", "pronoun", "rest") or amount_of(amount)[1] not in _LIQUID:
        return False
    k = index_of(statement, amount) + 1
    if k < len(statement.marks) and statement.marks[k].w == "of":
        return False  # "gave it a pint of oil"
    if statement.has("agent", "form", "item", "harvest", "honey", "change", "queen_work", "queen_noun", "method"):
        return False
    return any(m.label == "verb" and m.w.split()[0] in _GIVING for m in statement.marks)


_GIVING = frozenset(["gave", "give", "giving", "given", "got", "gets", "get"])


def _in_store(statement: Statement) -> bool:
    """ "I've got eleven gallons of syrup left", "we have six gallons in the barn": what there is, and none given."""
    first = statement.marks[:5]
    have = any(m.w in ("there's", "there is", "there are") for m in first) or any(
        ((a.w in ("i", "we") and b.w == "have") or (a.w in ("i've", "we've") and b.w == "got")) and c.label != "verb"
        for a, b, c in zip(first, first[1:], first[2:], strict=False)
    )
    if ("'s" in statement.words or "is" in statement.words) and any(
        a.w in ("'s", "is") and b.w.split()[0] == "all"
        for a, b in zip(statement.marks, statement.marks[1:], strict=False)
    ):
        return not statement.has("cols", "every", "yard")  # "twenty pounds of sugar's all we need"
    return have and not statement.has("cols", "every", "each") and statement.has("feed")


def _fed_too(statement: Statement) -> bool:
    """ "1, 3 and 5 light - fed": the colonies just spoken of, where nothing but that stands in the statement."""
    marks = [
        m for m in statement.marks if m.label not in ("comma", "filler") and m.w not in ("-", "–", "and", "so", "also")
    ]
    return statement.opens == "soft" and len(marks) == 1 and marks[0].w == "fed"


def _whole_yard(statement: Statement, fed: Mark) -> bool:
    """ "fed Heath", "fed all at Heath": the yard that comes after the verb was fed."""
    after = statement.marks[index_of(statement, fed) + 1 :]
    after = after[next((k for k, m in enumerate(after) if m.w not in _TO_YARD), len(after)) :]
    return bool(after) and after[0].label == "yard"


_TO_YARD = frozenset(["all", "of", "at", "the"])


def _nearest(statement: Statement, m: Mark, among: list[Mark]) -> Mark:
    k = index_of(statement, m)
    return min(among, key=lambda x: (abs(index_of(statement, x) - k), index_of(statement, x) < k))


def _looked_at(statement: Statement, m: Mark) -> bool:
    """ "fondant check: three has most of hers", "twelve still had some syrup": what is found there, and none given."""
    k = index_of(statement, m)
    if k + 1 < len(statement.marks) and statement.marks[k + 1].w == "check":
        return True
    before = [x.w for x in statement.marks[max(0, k - 4) : k] if x.label in ("w", "verb", "cue")]
    return "still" in before and before[-1] in ("had", "has", "have", "got", "of", "some")


def _taken_off(statement: Statement) -> bool:
    """ "pulled the candy board out of nine": what is taken off feeds nobody."""
    verbs = statement.all("verb")
    out = bool(verbs) and all(m.v.get("dir") == "out" for m in verbs) and not statement.has("amount", "item")
    return out and all(m.v.get("cue") == "except" for m in statement.all("cue"))
