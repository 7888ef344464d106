"""Marks → records, one frame a kind: which marks fill which slots.

Each frame is a function of a statement that returns what it understood, without place, day or state; those
are the same for every kind and are filled in by `record`.
"""

from __future__ import annotations

from typing import Any

from fieldnotes.reader.clause import ORDERS, Statement
from fieldnotes.reader.inorder import RULE
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.scope import Draft, Held

_UNITS = {
    "gallon": "gallon gallons gal gals gl gallen gallens galon galons gallom",
    "quart": "quart quarts qt qts",
    "pint": "pint pints pt pts",
    "litre": "litre litres liter liters l ltr ltrs",
    "lb": "lb lbs pound pounds # lbz ibs pnds",
    "kg": "kg kgs kilo kilos kilogram kilograms",
    "gram": "g gram grams",
    "patty": "patty patties pattys patie paddies paddy",
    "jar": "jar jars",
    "bag": "bag bags",
    "bucket": "bucket buckets pail pails",
    "barrel": "barrel barrels drum drums",
}
UNIT_OF = {word: unit for unit, words in _UNITS.items() for word in words.split()}
QUEEN_RANK = ("right", "not_seen", "seen", "less", "virgin", "drone_layer", "laying_workers")
"""Of several things said of one queen the last in this row is the most telling."""
_OUT_WORDS = frozenset(["out", "off"])
_OUT_AFTER = frozenset(
    ("is are was were 's it them they those these all now there be been come get got 2 still not just").split()
)
_ARTICLES = frozenset(["a", "an", "another", "one", "its"])
_STRIP_UNITS = frozenset(["strip", "pad", "wafer", "sponge"])


def tidy(value: float) -> int | float:
    """A whole number as an int."""
    return int(value) if float(value).is_integer() else round(float(value), 4)


def number_of(m: Mark) -> Number:
    """The number that the mark carries."""
    number: Number = m.v["n"]
    return number


def index_of(statement: Statement, m: Mark) -> int:
    """Where the mark stands in its statement."""
    return next(k for k, x in enumerate(statement.marks) if x is m)


def index_in(statement: Statement, m: Mark) -> int:
    """Like `index_of`; -1 for a mark that is not in the statement."""
    return next((k for k, x in enumerate(statement.marks) if x is m), -1)


def neighbour(statement: Statement, k: int, step: int) -> Mark | None:
    """The mark before (-1) or after (1) index `k`, fillers passed over."""
    k += step
    while 0 <= k < len(statement.marks) and statement.marks[k].label in ("filler",):
        k += step
    return statement.marks[k] if 0 <= k < len(statement.marks) else None


def is_approx(statement: Statement, m: Mark) -> bool:
    """Whether "about", "maybe" or "or so" stands beside the number."""
    if "n" in m.v and number_of(m).approx:
        return True
    k = index_in(statement, m)
    if k < 0:
        return False
    before, after = neighbour(statement, k, -1), neighbour(statement, k, 1)
    if before is not None and before.w in ("of", "is", "was", ":", "like") and before.label == "w":
        before = neighbour(statement, k - 1, -1)
    return bool(
        (before and before.label == "approx" and before.w not in ("or so", "ish", "some", "a good"))
        or (
            after
            and after.label == "approx"
            and after.w in ("or so", "ish", "give or take", "or thereabouts", "more or less")
        )
    )


def going_out(statement: Statement) -> bool | None:
    """True where things come out or off, False where they go in or on, None where no word says."""
    found: bool | None = None
    if any("back" in m.w.split() for m in statement.all("cue")) and any(m.w == "for" for m in statement.marks):
        found = True  # "come back Tuesday for the supers"
    for k, m in enumerate(statement.marks):
        if m.label == "verb" and m.v.get("dir"):
            before = neighbour(statement, k, -1)
            if m.w == "took" and before is not None and before.label == "cols":
                found = False  # "eleven took three supers"
                continue
            found = m.v["dir"] == "out" if found is None or m.v["dir"] == "out" else found
        elif m.label == "cue" and "out" in m.w.split():
            found = True  # "not out yet"
        elif m.label == "w" and m.w in _OUT_WORDS:
            before = neighbour(statement, k, -1)
            after = neighbour(statement, k, 1)
            if after is not None and after.w in ("me", "him", "us"):
                continue  # "gets pads off me tonight"
            if before is not None and (
                before.label in ("change", "approx")
                or before.w in ("ran", "run")
                or (before.label == "w" and before.w not in _OUT_AFTER)
            ):
                continue
            found = True
        elif m.label == "w" and m.w in ("in", "on", "into", "onto") and found is None:
            before = neighbour(statement, k, -1)
            if before is None or before.label not in ("number", "value", "clean"):
                found = False
    return found


def _of_the(statement: Statement, k: int) -> Mark | None:
    """The "one" of "one of the two strips", where "two" stands at `k`."""
    before = statement.marks[max(0, k - 3) : k]
    if [m.w for m in before[-2:]] == ["of", "the"] and len(before) == 3 and "n" in before[0].v:
        return before[0]
    return None


def count_before(statement: Statement, m: Mark) -> tuple[float | None, Mark | None]:
    """The number said of a thing: before it ("two supers"), as an article (1), or as "2 each" after it."""
    k = index_of(statement, m)
    j = k - 1
    while j >= 0 and (
        statement.marks[j].label in ("filler", "approx", "agent")
        or (
            statement.marks[j].label == "w"
            and statement.marks[j].w
            in ("more", "new", "fresh", "of", "full", "empty", "big", "good", "extra", "little", "second")
        )
    ):
        j -= 1
    if j >= 0:
        p = statement.marks[j]
        if p.label in ("number", "value") and "n" in p.v:
            p = _of_the(statement, j) or p
            return (number_of(p).value, p) if number_of(p).value > 0 else (None, None)
        if p.label == "w" and p.w in ("a", "an", "another"):
            half = statement.marks[j - 1] if j and statement.marks[j - 1].w == "half" else None
            return (0.5, half) if half is not None else (1, p)  # "half a pollen patty"
        if p.label == "each" and p.w in ("a box", "a nuc", "a hive"):
            return None, None
    for j in range(k + 1, len(statement.marks)):
        p = statement.marks[j]
        if p.label in ("number", "value") and "n" in p.v:
            after = neighbour(statement, j, 1)
            beyond = neighbour(statement, j + 1, 1)
            if after is not None and (
                after.label == "each"
                or (after.w in ("in", "on", "to") and beyond is not None and beyond.label == "every")
            ):
                return number_of(p).value, p
        if p.label in ("item", "agent", "feed"):
            break
    for j in range(k + 1, len(statement.marks)):
        p = statement.marks[j]
        before, after = statement.marks[j - 1], statement.marks[j + 1] if j + 1 < len(statement.marks) else None
        apart = before.label in ("comma", "cols") or before.w in ("-", "–", ":", "=", "—")
        if (
            p.label in ("number", "value")
            and "n" in p.v
            and apart
            and (after is None or after.label in ("comma", "days"))
        ):
            return number_of(p).value, p  # "hop strips in, 2"; a row of a table: "L5, supers on, 2"
    for j in range(k - 1, -1, -1):
        p = statement.marks[j]
        if p.label == "number":
            after = neighbour(statement, j, 1)
            if after is not None and after.label == "each":
                return number_of(p).value, p
    return None, None


def method_of(statement: Statement) -> Mark | None:
    """The method of the statement's counts: of several the last before them, the more telling of two of one kind."""
    methods = statement.all("method")
    counted = ("mites", "value", "clean", "percent")
    first_count = next((k for k, x in enumerate(statement.marks) if x.label in counted), len(statement.marks))
    method = next(
        (x for x in reversed(methods) if index_of(statement, x) < first_count), methods[0] if methods else None
    )
    if len(methods) > 1 and methods[-1].v["method"].endswith(methods[0].v["method"]):
        return methods[-1]
    if method is not None and method.v["method"] in ("wash", "roll"):
        telling = [m for m in methods if m.v["method"].endswith(method.v["method"])]
        return max(telling, key=lambda m: len(m.v["method"]))
    return method


def checks(statement: Statement, held: Held, state: str) -> tuple[list[Draft], bool]:
    """Mite checks, without their colonies; and whether the statement was only a heading for those that follow.

    One draft a count, in the order said. A draft without a count is one that was planned, left or not yet counted.
    """
    if not statement.has("method", "check", "mites", "value", "clean", "percent", "pronoun"):
        return [], False
    method = method_of(statement)
    check = next((m for m in statement.all("check") if not m.v.get("looks")), None)
    sample = statement.first("sample")
    days = statement.first("days")
    percents = statement.all("percent") if not statement.has("harvest", "honey", "moisture", "item") else []
    counts = [m for m in statement.marks if m.label in ("mites", "value", "clean")]
    if method is None and held.method is None and check is None:
        counts = [
            m
            for m in counts
            if (not (m.label == "mites" and m.w.startswith("counted")) and m.label != "clean")
            or "mite" in m.w
            or "varroa" in m.w
        ]
        if not statement.has("cols"):
            percents = [m for m in percents if "mite" in m.w or "infest" in m.w]
    if any(m.w.startswith("neither") for m in statement.all("pronoun")):
        singles = [
            m
            for m in statement.all("mites", "noun", "value")
            if (m.label == "mites" and number_of(m).value == 1) or m.v.get("noun") == "mites"
        ]
        if singles:
            counts = [Mark("clean", singles[0].s, singles[0].e, "no mites", {}, "neither")]
            state = "done"
    if method is None and check is None and statement.has("harvest", "honey", "feed", "agent"):
        counts = [m for m in counts if m.label == "mites" and "mite" in m.w]
        percents = []
    base: dict[str, tuple[Any, str]] = {}
    name = method.v["method"] if method else None
    if name == "wash" and method is not None:
        named = next((m.w for m in statement.marks if m.label == "w" and m.w in ("alcohol", "soap", "soapy")), None)
        name = {"alcohol": "alcohol_wash", "soap": "soap_wash", "soapy": "soap_wash"}.get(named or "", name)
        method.v["method"] = name
    if method is not None:
        if held.method and name in ("wash", "roll") and state != "planned" and held.method.endswith(name):
            name = held.method
        base["method"] = (name, method.rule)
    elif held.method and state != "planned" and (counts or percents or state == "not_done"):
        base["method"] = (held.method, "method that holds")
    same_method = method is None or name == held.method
    if sample is not None:
        base["bees"] = (sample.v["bees"] if "bees" in sample.v else int(number_of(sample).value), sample.rule)
    elif held.bees and same_method and (counts or percents) and state == "done":
        base["bees"] = (held.bees, "sample that holds")
    board = base.get("method", ("",))[0] == "board"
    if board and days is not None:
        base["board_days"] = (tidy(_days(days)), days.rule)
    elif board and held.board_days and same_method and counts:
        base["board_days"] = (held.board_days, "days that hold")
    if state in ("conditional", "planned"):
        counts, percents = [], []  # "if it comes back over forty": a threshold, no count
    drafts: list[Draft] = []
    k = 0
    while k < len(counts):
        m = counts[k]
        draft = Draft("mite_check")
        low = 0.0 if m.label == "clean" else number_of(m).value
        if m.label == "value" and low != int(low) and not board:
            draft.put(
                "per_100", tidy(low), m.rule
            )  # "S12 was only 0.6", after percents: no wash counts parts of a mite
            draft.spans.append((m.s, m.e))
            drafts.append(draft)
            k += 1
            continue
        if (
            low == 0
            and k + 1 < len(counts)
            and (counts[k + 1].label == "clean" or number_of(counts[k + 1]).value == 0)
            and index_in(statement, counts[k + 1]) - index_in(statement, m) == 1
            and not m.rule == counts[k + 1].rule == RULE
        ):
            k += 1  # "not one, nada": nothing said twice
            continue
        draft.put("mites", tidy(low), m.rule)
        draft.spans.append((m.s, m.e))
        used = [m]
        if k + 1 < len(counts) and counts[k + 1].label in ("value", "mites") and m.label != "clean":
            a, b = index_of(statement, m), index_of(statement, counts[k + 1])
            between = [x for x in statement.marks[a + 1 : b] if x.label not in ("filler", "approx")]
            if len(between) == 1 and between[0].w in ("or", "to", "-", "–") and number_of(counts[k + 1]).value > low:
                draft.put("mites_high", tidy(number_of(counts[k + 1]).value), counts[k + 1].rule)
                draft.spans.append((counts[k + 1].s, counts[k + 1].e))
                used.append(counts[k + 1])
                k += 1
        if any(is_approx(statement, x) for x in used):
            draft.put("approx", True, "about")
        drafts.append(draft)
        k += 1
    for m in percents:
        draft = Draft("mite_check")
        draft.put("per_100", tidy(number_of(m).value), m.rule)
        draft.spans.append((m.s, m.e))
        drafts.append(draft)
    header = False
    if not drafts:
        if method is None and check is None:
            return [], False
        drafts = [Draft("mite_check")]
        header = True
    for draft in drafts:
        for slot, (value, rule) in base.items():
            draft.put(slot, value, rule)
        for said in (method, check, sample, days if board else None):
            if said is not None:
                draft.spans.append((said.s, said.e))
    return drafts, header


def _days(m: Mark) -> float:
    if "days" in m.v:
        return float(m.v["days"])
    return float(round(number_of(m).value * float(m.v.get("times", 1)), 2))


def treatment(statement: Statement, last: Draft | None) -> Draft | None:
    """A treatment, without its place; `last` is the treatment that "them" or "the strips" may point to."""
    if not statement.has("agent", "form", "verb", "noun"):
        return None
    agents = [m for m in statement.all("agent") if not _only_named(statement, m)]
    forms = [m for m in statement.all("form") if not _only_named(statement, m)]
    units = statement.all("unit")
    treats = [m for m in statement.all("verb") if m.v.get("does") == "treat"]
    nouns = [m for m in statement.all("noun") if m.v.get("noun") == "treatment"]
    if (
        last is not None
        and statement.has("round")
        and statement.has("cols", "every", "hives", "yard")
        and any(m.v.get("does") == "do" or m.w in ("get", "gets") for m in statement.all("verb"))
    ):
        nouns.append(statement.all("round")[0])  # "the first round I did at the quarry"
    if (
        not agents
        and not forms
        and not treats
        and not (
            nouns and statement.has("cols", "every", "hives", "round") and not statement.has("mites", "value", "method")
        )
    ):
        return None
    out = going_out(statement)
    if out in (None, False) and any(m.w in ("found", "spotted", "noticed") for m in statement.marks[:3]):
        return None  # "found the other strip in 36"
    if (
        not agents
        and forms
        and out is None
        and not statement.has("cols", "every", "hives", "each")
        and not any(m.v.get("treats") for m in forms)
    ):
        if not (statement.has("unit", "round", "number", "value", "days") and last is not None):
            return None
    if (
        agents
        and not forms
        and out is None
        and not statement.has(
            "cols",
            "every",
            "hives",
            "verb",
            "unit",
            "number",
            "value",
            "date",
            "round",
            "days",
            "cue",
            "each",
            "yard",
            "pronoun",
            "noun",
        )
    ):
        return None
    if treats and not agents and not forms:
        if statement.has("clean"):
            return None  # "treated nothing"
        if not nouns and not statement.has("cols", "every", "hives", "pronoun", "each", "noun", "yard", "unit"):
            return None  # "might have to treat"
    if (
        not agents
        and not nouns
        and last is None
        and not statement.has("cols", "every", "hives", "yard", "pronoun", "each", "rest", "number", "cue", "date")
        and not any(m.v.get("treats") for m in forms)
    ):
        return None  # "poured the concrete pad for the shed"
    draft = Draft("treatment")
    for m in agents:
        for slot in ("agent", "form", "product"):
            if m.v.get(slot) and slot not in draft.slots:
                draft.put(slot, m.v[slot], m.rule)
        draft.spans.append((m.s, m.e))
    for m in forms:
        if "form" not in draft.slots:
            draft.put("form", m.v["form"], m.rule)
        draft.spans.append((m.s, m.e))
    for m in (*treats, *nouns):
        draft.spans.append((m.s, m.e))
    draft.put("step", "out" if out else "in", "out or off" if out else "in or on")
    if still_in(statement):
        draft.put("step", "out", "still in")
    _dose(statement, draft, units, forms, agents)
    rounds = statement.all("round")
    if rounds:
        draft.put("round", int(number_of(rounds[0]).value), rounds[0].rule)
        draft.spans.append((rounds[0].s, rounds[0].e))
    days = statement.first("days")
    if days is not None and not statement.has("method"):
        draft.put("days", tidy(_days(days)), days.rule)
        draft.spans.append((days.s, days.e))
    if (
        not agents
        and last is not None
        and (
            statement.has("pronoun")
            or draft.slots.get("form") == last.slots.get("form")
            or nouns
            or (set(last.slots) <= {"agent", "product"} and forms)
        )
        and "agent" not in draft.slots
    ):
        if draft.slots.get("form") == last.slots.get("form") or "form" not in draft.slots or "form" not in last.slots:
            for slot in ("agent", "form", "product"):
                if slot in last.slots and slot not in draft.slots:
                    draft.put(slot, last.slots[slot], "what it points to")
    return draft


def still_in(statement: Statement) -> bool:
    """ "strips still in": put in before, and not yet taken out."""
    return any(
        a.w == "still" and b.w in ("in", "on") and a.label == b.label == "w"
        for a, b in zip(statement.marks, statement.marks[1:], strict=False)
    )


def _only_named(statement: Statement, m: Mark) -> bool:
    """ "the wash after the redtags": a treatment that is only spoken of."""
    k = index_of(statement, m) - 1
    while (k >= 0 and statement.marks[k].label in ("agent", "form")) or (
        k >= 0 and statement.marks[k].w in ("the", "our", "those", "all")
    ):
        k -= 1
    return (
        k >= 0
        and statement.marks[k].label == "w"
        and statement.marks[k].w in ("after", "before", "since", "following", "without", "despite")
        and statement.has("method", "mites", "value", "check")
    )


def _dose(statement: Statement, draft: Draft, units: list[Mark], forms: list[Mark], agents: list[Mark]) -> None:
    """Amount and unit of a treatment."""
    if units:
        m = units[0]
        draft.put("amount", tidy(number_of(m).value), m.rule)
        draft.put("unit", m.v["unit"], m.rule)
        draft.spans.append((m.s, m.e))
        if is_approx(statement, m):
            draft.put("approx", True, "about")
        return
    for m in (*forms, *agents):
        form = m.v.get("form")
        if form not in _STRIP_UNITS:
            continue
        amount, by = count_before(statement, m)
        if amount is not None:
            draft.put("amount", tidy(amount), "number before or each after")
            draft.put("unit", form, m.rule)
            if by is not None:
                draft.spans.append((by.s, by.e))
            return
    of_them = next((m for m in statement.all("hives") if "n" in m.v and m.w.endswith(("of them", "of em"))), None)
    if of_them is not None and statement.has("cols") and draft.slots.get("form") in _STRIP_UNITS:
        draft.put("amount", tidy(number_of(of_them).value), of_them.rule)
        draft.put("unit", draft.slots["form"], "form")
        draft.spans.append((of_them.s, of_them.e))
        return
    form = draft.slots.get("form")
    if form in _STRIP_UNITS and agents:
        amount, by = count_before(statement, agents[0])
        if amount is not None:
            draft.put("amount", tidy(amount), "number before or each after")
            draft.put("unit", form, "form")
            if by is not None:
                draft.spans.append((by.s, by.e))


def gear(statement: Statement) -> list[Draft]:
    """Gear put on or taken off, a draft for each thing named."""
    if not statement.has("item") and not any(m.v.get("number") == "brood_frames" for m in statement.all("fact")):
        return []
    drafts: list[Draft] = []
    harvest = statement.has("harvest", "honey")
    if (
        not statement.has("cols", "every", "yard", "hives", "rest", "verb", "pronoun", "heading")
        and any(m.label == "cue" and m.w in ("not", "no") for m in statement.marks)
        and not any(m.w == "yet" for m in statement.marks)
    ):
        return []  # "bees from the brood nest, not the supers"
    out = going_out(statement)
    dir_mark = next((m for m in statement.marks if m.label == "verb" and m.v.get("dir")), None)
    stays = any(
        a.w == "still" and b.w in ("have", "has", "got", "had")
        for a, b in zip(statement.marks, statement.marks[1:], strict=False)
    )
    for m in statement.all("item"):
        if stays or _stands_by(statement, m) or _ordered(statement, m):
            continue  # "51 still have supers on": nothing was done
        if harvest and m.v["item"] == "super":
            continue
        if (
            out is None
            and not statement.has("cols", "every", "yard", "hives", "verb", "cue", "each", "rest", "heading")
            and not m.w.endswith("ed")
            and not any(x.label == "w" and x.w in ("too", "also", "under", "over") for x in statement.marks)
        ):
            continue
        draft = Draft("gear")
        draft.put("item", m.v["item"], m.rule)
        off = bool(out) or m.w.startswith("unwrap")
        draft.put("step", "off" if off else "on", "out or off" if off else "in or on")
        draft.spans.append((m.s, m.e))
        if dir_mark is not None:
            draft.spans.append((dir_mark.s, dir_mark.e))
        amount, by = count_before(statement, m)
        k = index_of(statement, m)
        if amount is None and (m.w.startswith("another ") or _another(statement, k)):
            amount, by = 1, None  # "another super", "a second brood box"
        if amount is not None:
            draft.put("count", tidy(amount), "number before or each after")
            if by is not None:
                draft.spans.append((by.s, by.e))
                if is_approx(statement, by):
                    draft.put("approx", True, "about")
        twin = next((d for d in drafts if d.slots["item"] == draft.slots["item"] and "count" not in d.slots), None)
        if twin is not None:
            # "put supers on five and six, two supers each"
            if "count" in draft.slots:
                twin.put("count", draft.slots["count"], draft.why["count"])
            twin.spans += draft.spans
            continue
        drafts.append(draft)
    given = dir_mark is not None and dir_mark.w in ("gave", "give", "giving", "given")
    if not drafts or given:
        frames = [m for m in statement.all("fact") if m.v.get("number") == "brood_frames"]
        moving = (
            dir_mark is not None
            and dir_mark.w not in ("got", "gets", "went")
            and (
                any(m.label == "w" and m.w in ("to", "into", "from", "in", "out", "off") for m in statement.marks)
                or (dir_mark.w in ("gave", "give", "giving", "given") and statement.has("cols", "pronoun"))
            )
        )
        if frames and not moving and dir_mark is None and statement.has("cols"):
            after = neighbour(statement, index_of(statement, frames[0]), 1)
            moving = after is not None and after.w in ("into", "to")  # "one brood frame into L11"
        if frames and moving:
            draft = Draft("gear")
            draft.put("item", "brood_frame", frames[0].rule)
            draft.put("step", "off" if out else "on", "out or off" if out else "in or on")
            draft.put("count", tidy(number_of(frames[0]).value), frames[0].rule)
            draft.spans.append((frames[0].s, frames[0].e))
            frames[0].v["taken"] = True
            drafts.append(draft)
    return drafts


def _another(statement: Statement, k: int) -> bool:
    """Whether an ordinal before the thing at `k` makes it one more ("a second brood box"); "first" only comes first."""
    if k == 0 or statement.marks[k].w.endswith("s"):
        return False
    return statement.marks[k - 1].label == "ordinal" and statement.marks[k - 1].w != "first"


def _before_noun(statement: Statement, m: Mark) -> Mark | None:
    """The mark before a thing, over its number, articles and adjectives."""
    k = index_of(statement, m) - 1
    while k >= 0 and (
        statement.marks[k].label in ("number", "approx")
        or statement.marks[k].w in ("the", "a", "an", "new", "old", "more", "some", "another", "extra", "its", "our")
    ):
        k -= 1
    return statement.marks[k] if k >= 0 else None


def _stands_by(statement: Statement, m: Mark) -> bool:
    """ "mice chewed in under the wrap": where something is, not what was done."""
    before = _before_noun(statement, m)
    return before is not None and before.w in ("under", "behind", "beneath", "inside", "through", "between", "around")


def _ordered(statement: Statement, m: Mark) -> bool:
    """ "order foundation", "bring supers": a job, and nothing put on."""
    before = _before_noun(statement, m)
    return before is not None and before.label in ("w", "change") and before.w in ORDERS


def amount_of(m: Mark) -> tuple[float, str | None]:
    """Number and unit of an amount ("two gallons", "a bag")."""
    words: list[str] = m.v["words"]
    unit = next((UNIT_OF[w] for w in reversed(words) if w in UNIT_OF), None)
    if "and" in words:  # "a kilo and a half": the half is a number of its own
        return (m.v["n"].value + m.v["n2"].value if "n2" in m.v else 1 + m.v["n"].value), unit
    if "n" in m.v:
        return number_of(m).value, unit
    return (0.5 if "half" in words else 1), unit


def feed(statement: Statement, fed_before: Draft | None) -> list[Draft]:
    """What was fed."""
    if not statement.has("feed", "verb", "ratio", "amount"):
        return []
    feeds = statement.all("feed")
    fed = [m for m in statement.all("verb") if m.v.get("does") == "feed"]
    ratio = statement.first("ratio")
    amount = statement.first("amount")
    if feeds and all(m.v.get("weak") for m in feeds) and not fed and amount is None and not statement.has("verb"):
        return []
    same = amount is not None and any(
        m.w == "same" or m.label == "same" for m in statement.marks
    )  # "a pint of the same"
    if fed_before is not None and amount is not None and statement.has("cols", "every", "hives", "pronoun"):
        same = same or not statement.has("agent", "form", "item", "harvest", "honey", "change")  # "74 got two quarts"
    if not feeds and not fed and not same and not (ratio is not None and not statement.has("method", "mites", "value")):
        return []
    if not feeds and fed and not (ratio or amount or statement.has("cols", "every", "hives", "pronoun")):
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
    for m in feeds or [None]:  # type: ignore[list-item]
        draft = Draft("feed")
        if m is not None:
            draft.put("feed", m.v["feed"], m.rule)
            draft.spans.append((m.s, m.e))
        elif ratio is not None:
            draft.put("feed", "syrup", ratio.rule)
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
            draft.put("unit", "gram", grams[0].rule)
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


def _nearest(statement: Statement, m: Mark, among: list[Mark]) -> Mark:
    k = index_of(statement, m)
    return min(among, key=lambda x: (abs(index_of(statement, x) - k), index_of(statement, x) < k))


HONEY_UNITS = frozenset(["bucket", "barrel", "gallon", "lb", "kg"])


_DRIEST, _WETTEST = 13, 25
"""Percent of water in honey, between which a bare number beside an amount of honey is its moisture."""
_BEFORE_WET = frozenset(["at", "that's", "was", "is", "reads", "read"])


def _wet(statement: Statement, last: Draft | None) -> Mark | None:
    """ "two barrels sixteen point eight", "… and that's seventeen and a half": a broken number that can be moisture."""
    spoken_of = any(m.w == "moisture" for m in statement.marks) or (last is not None and "moisture" in last.slots)
    for k, m in enumerate(statement.marks):
        if m.label not in ("number", "value") or not _DRIEST <= number_of(m).value <= _WETTEST:
            continue
        before, after = neighbour(statement, k, -1), neighbour(statement, k, 1)
        if after is not None and after.label in ("item", "noun", "each", "unit", "days", "hives", "agent", "form"):
            continue
        if not number_of(m).whole or (spoken_of and before is not None and before.w in _BEFORE_WET):
            return m
    return None


OF_HARVEST = ("harvest", "honey", "moisture", "amount", "noun", "fact")
"""Without one of these no statement tells of a harvest."""


def harvest(statement: Statement, last: Draft | None) -> Draft | None:
    """Honey taken; `last` is the harvest of the same sentence that a moisture may belong to."""
    if not statement.has(*OF_HARVEST):
        return None
    marks = statement.all("harvest")
    honey = statement.first("honey")
    moisture = statement.first("moisture")
    metered = (
        last is not None
        and "moisture" not in last.slots
        and any(m.w in ("read", "reads", "meter") for m in statement.marks)
    )
    if last is not None and "amount" not in last.slots and statement.has("percent"):
        metered = metered or any(amount_of(x)[1] in HONEY_UNITS for x in statement.all("amount"))  # "2 barrels, 17.8%"
    percent = statement.first("percent") if (marks or honey or metered) and moisture is None else None
    amounts = statement.all("amount")
    supers = [m for m in statement.all("item") if m.v["item"] == "super"]
    if statement.has("feed", "agent"):
        return None
    frames = [
        m
        for m in statement.marks
        if (m.label == "noun" and m.v.get("noun") == "frames")
        or (m.label == "fact" and m.v.get("number") == "food_frames")
    ]
    if statement.has("clean") and not amounts:
        return None  # "the clover gave us nothing"
    made = any(m.w in ("made", "came to", "gave") for m in statement.marks)
    made = made or (
        last is not None and any(m.w == "got" for m in statement.marks) and not statement.has("cols", "fact")
    )
    if (
        not marks
        and not honey
        and moisture is None
        and statement.has("yard")
        and any(
            (m.label == "w" and m.w in ("off", "from", "out")) or (m.label == "verb" and m.w == "came off")
            for m in statement.marks
        )
    ):
        # "got about 180 lb off Millpond", "eleven frames of honey off the quarry"
        if (
            amounts
            and amount_of(amounts[0])[1]
            in (("lb", "kg", "bucket", "barrel", "gallon") if last is not None else ("lb", "kg", "bucket", "barrel"))
            and not statement.has("cols", "item")
        ) or (frames and frames[0].label == "fact" and not statement.has("cols")):
            marks = [amounts[0] if amounts else frames[0]]
    if not marks and frames and frames[0].label == "fact" and going_out(statement) and statement.has("cols"):
        k = index_of(statement, statement.all("cols")[0])
        before = neighbour(statement, k, -1)
        if before is not None and before.w.split()[-1] in ("off", "from") and statement.has("verb"):
            marks = [frames[0]]  # "took nine frames of honey off seventy three"
    if (
        not marks
        and not (metered and percent)
        and not (
            amounts
            and statement.has("yard", "percent")
            and amount_of(amounts[0])[1] in HONEY_UNITS
            and any(13 <= number_of(x).value <= 25 for x in statement.all("percent"))
            and not statement.has("cols", "method", "mites", "value", "item")
        )
        and not (honey and (amounts or supers or frames or moisture or percent))
        and not (made and (amounts or (frames and statement.has("yard"))) and last is not None)
        and not (made and amounts and statement.has("yard") and amount_of(amounts[0])[1] in ("barrel", "bucket"))
        and moisture is None
    ):
        if not (
            amounts and last is not None and not statement.has("cols", "fact", "verb") and "amount" not in last.slots
        ):
            return None
    if (
        not marks
        and amounts
        and statement.has("yard")
        and not statement.has("cols", "method", "mites", "value", "item")
    ):
        wet = statement.first("percent")
        if wet is not None and 13 <= number_of(wet).value <= 25 and amount_of(amounts[0])[1] in HONEY_UNITS:
            marks, percent = [amounts[0]], wet  # "Millpond 11 buckets 17.8%": so wet, it is honey
    draft = Draft("harvest")
    if moisture is None and percent is None:
        moisture = _wet(statement, last)
    if moisture is None and amounts and amount_of(amounts[0])[1] in ("barrel", "bucket") and made:
        wet = next((m for m in statement.all("number", "value") if 13 <= number_of(m).value <= 25), None)
        before = neighbour(statement, index_of(statement, wet), -1) if wet is not None else None
        if wet is not None and before is not None and before.w == "at":
            moisture = wet  # "made two barrels at sixteen point eight"
    for m in (*marks, honey):
        if m is not None:
            draft.spans.append((m.s, m.e))
    if amounts:
        value, unit = amount_of(amounts[0])
        draft.put("amount", tidy(value), amounts[0].rule)
        if unit:
            draft.put("unit", unit, amounts[0].rule)
        draft.spans.append((amounts[0].s, amounts[0].e))
        if is_approx(statement, amounts[0]):
            draft.put("approx", True, "about")
    elif supers:
        number, by = count_before(statement, supers[0])
        if number is not None:
            draft.put("amount", tidy(number), supers[0].rule)
            draft.put("unit", "super", supers[0].rule)
            if by is not None and is_approx(statement, by):
                draft.put("approx", True, "about")
        draft.spans += [(supers[0].s, supers[0].e)] + ([(by.s, by.e)] if by is not None else [])
    elif frames and "n" in frames[0].v:
        draft.put("amount", tidy(number_of(frames[0]).value), frames[0].rule)
        draft.put("unit", "frame", frames[0].rule)
        frames[0].v["taken"] = True
        draft.spans.append((frames[0].s, frames[0].e))
    for m in (moisture, percent):
        if m is not None:
            draft.put("moisture", tidy(number_of(m).value), m.rule)
            draft.spans.append((m.s, m.e))
    return draft


def queen_work(statement: Statement) -> list[Draft]:
    """Work with queens and cells, a draft for each step."""
    if not statement.has("queen_work", "queen_noun"):
        return []
    drafts: list[Draft] = []
    steps = statement.all("queen_work")
    nouns = statement.all("queen_noun")
    if not steps and nouns:
        kind = next((m for m in nouns if m.v.get("noun") == "cells"), None)
        if (kind is not None and any(m.label == "verb" and m.v.get("dir") == "in" for m in statement.marks)) or (
            kind is not None
            and any(m.label == "w" and m.w in ("in", "into") for m in statement.marks)
            and statement.has("cols", "yard")
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
        elif any(m.label == "verb" and m.v.get("dir") == "in" for m in statement.marks) and not statement.has("fact"):
            noun = nouns[0]
            steps = [
                Mark(
                    "queen_work",
                    noun.s,
                    noun.e,
                    noun.w,
                    {"step": "introduced"} | ({"n": noun.v["n"]} if "n" in noun.v else {}),
                    noun.rule,
                )
            ]
    seen: set[str] = set()
    seen_queen = any(f.v.get("set", {}).get("queen") == "seen" for f in statement.all("fact"))
    for m in steps:
        step = m.v["step"]
        if step in seen:
            continue
        if step == "marked" and m.v.get("mark") and seen_queen and m.w.startswith("marked"):
            m.label, m.v = "fact", {"kind": "inspection", "mark": m.v["mark"]}
            statement.seal()
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
        if number is None and step in (
            "grafted",
            "caught",
            "banked",
            "cells_placed",
            "introduced",
            "released",
            "marked",
        ):
            other = statement.has("item", "form", "feed", "agent", "unit")
            each = step == "cells_placed" and not other  # "cells put in two apiece"
            loose = [x for x in statement.all("number", "value") if each or not _eachless(statement, x)]
            if loose and step in ("grafted", "caught", "banked", "cells_placed"):
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
            _bare_colour(statement, draft)
        for noun in nouns:
            draft.spans.append((noun.s, noun.e))
        drafts.append(draft)
    return drafts


def _eachless(statement: Statement, m: Mark) -> bool:
    after = neighbour(statement, index_of(statement, m), 1)
    return bool(after and after.label == "each")


def change(statement: Statement) -> list[Draft]:
    """Colonies made, joined, moved, lost, sold: a draft for each step said."""
    if not statement.has("change"):
        return []
    drafts = []
    words = [m.w for m in statement.marks]
    marks = [
        m
        for m in statement.all("change")
        # "N2 is the split": what one is, and nothing done
        if not (m.w == "split" and words[max(0, words.index("split") - 2) : words.index("split")] == ["is the", "the"])
        and not (m.w == "split" and len(words) > 1 and words[-2:] in (["the", "split"], ["is the", "split"]))
    ]
    steps = {m.v["step"] for m in marks}
    if "nuc_made" in steps:
        marks = [m for m in marks if m.v["step"] != "split"]
    seen: set[str] = set()
    for m in marks:
        step = m.v["step"]
        if step in seen:
            continue
        if (
            step in ("sold", "bought")
            and not statement.has("cols", "hives", "number", "value", "pronoun", "each")
            and not statement.all("noun", "queen_noun")
            and "n" not in m.v
        ):
            continue  # "buy gloves"
        if (
            step in ("sold", "bought")
            and statement.has("item", "agent", "form", "feed")
            and not statement.has("cols", "hives", "noun", "queen_noun")
        ):
            continue  # "buy ten deep boxes"
        if step == "combined" and m.w == "shook" and not statement.has("cols"):
            continue  # "Dov held the box and I shook it"
        if step == "moved" and m.w == "moves" and len(statement.marks) == 1:
            continue  # a heading
        if step == "moved" and statement.has("item", "feed", "agent", "form") and not statement.has("cols", "hives"):
            continue
        if step == "died" and (
            (m.w in ("lost", "dead") and statement.has("queen_noun"))
            or (m.w == "lost" and not statement.has("cols", "hives", "number", "value", "pronoun", "every"))
        ):
            continue
        seen.add(step)
        draft = Draft("change")
        draft.put("step", step, m.rule)
        draft.spans.append((m.s, m.e))
        number = m.v.get("n")
        by = m
        hives = next((x for x in statement.all("hives") if "n" in x.v), None)
        if (
            step == "bought"
            and not statement.has("cols", "hives", "number", "value", "each")
            and any("cage" in x.w for x in statement.all("queen_noun", "w"))
        ):
            continue  # "buy queen cages"
        nouns = [x for x in statement.all("noun", "queen_noun") if "n" in x.v and x.v.get("noun") != "frames"]
        if (
            step in ("sold", "bought")
            and not nouns
            and number is None
            and hives is None
            and any(x.v.get("noun") == "frames" for x in statement.all("noun"))
        ):
            continue  # "buy 50 frames"
        if number is None and hives is not None:
            number, by = hives.v["n"], hives
        if number is None and nouns:
            number, by = nouns[0].v["n"], nouns[0]
        one = next((x for x in statement.all("each") if x.w in ("a nuc", "a hive", "a colony")), None)
        if number is None and step in ("sold", "bought") and one is not None:
            number, by = Number(1, 0), one  # "sold a nuc"
        if number is None and step == "split":
            each = [x for x in statement.all("number", "value") if _eachless(statement, x)]
            if each:
                number, by = each[0].v["n"], each[0]  # "split 4, 6 and 9, 1 each"
        if number is None and not (step == "died" and m.w.split()[0] in ("is", "was", "'s", "a")):
            at = index_of(statement, m)
            loose = [x for x in statement.all("number", "value") if at - 2 <= index_of(statement, x) <= at + 2]
            if loose and step in ("died", "split", "nuc_made", "sold", "bought", "swarm_caught", "moved"):
                number, by = loose[0].v["n"], loose[0]
        if number is not None and number.value > 0:
            slot = "colony_count" if step in ("died", "moved", "combined") else "count"
            draft.put(slot, tidy(number.value), by.rule)
            draft.spans.append((by.s, by.e))
            if by in statement.marks and is_approx(statement, by):
                draft.put("approx", True, "about")
        drafts.append(draft)
    return drafts


def inspection(statement: Statement, negated_from: int | None, state: str) -> Draft | None:
    """What was seen; facts that stand after a negation are turned round or dropped."""
    if not statement.has("fact", "noun", "verb", "check"):
        return None
    facts = [m for m in statement.all("fact") if not m.v.get("taken")]
    frames = [m for m in statement.all("noun") if m.v.get("noun") == "frames" and "n" in m.v and not m.v.get("taken")]
    draft = Draft("inspection")
    got = looked_for = False
    for m in facts:
        k = index_of(statement, m)
        if state == "planned" and any(x.w == "for" for x in statement.marks[max(0, k - 3) : k]):
            draft.spans.append((m.s, m.e))
            looked_for = True  # "check 15 and 16 for eggs"
            continue
        negated = negated_from is not None and k > negated_from and not _reach_stops(statement, negated_from, k)
        negated = negated or _listed_after_no(statement, k) or _denied_after(statement, k)
        if negated and "unsaid" not in m.v and "sign" in m.v:
            draft.spans.append((m.s, m.e))
            continue
        if negated and "unsaid" in m.v:
            for slot, value in m.v["unsaid"].items():
                _set_slot(draft, slot, value, m.rule)
                got = True
            draft.spans.append((m.s, m.e))
            continue
        if m.v.get("cell_type_only"):
            if any(f.v.get("number") == "queen_cells" or f.v.get("set", {}).get("cells_seen") for f in facts):
                draft.put("cell_type", m.v["set"]["cell_type"], m.rule)
                draft.spans.append((m.s, m.e))
            continue
        for slot, value in m.v.get("set", {}).items():
            _set_slot(draft, slot, value, m.rule)
        if m.v.get("sign"):
            signs = draft.slots.setdefault("signs", [])
            if m.v["sign"] not in signs:
                signs.append(m.v["sign"])
            draft.why["signs"] = m.rule
        if m.v.get("number"):
            draft.put(m.v["number"], tidy(number_of(m).value), m.rule)
            if is_approx(statement, m):
                draft.put("approx", True, "about")
        if m.v.get("mark"):
            draft.put("mark", m.v["mark"], m.rule)
        if m.v.get("set", {}).get("queen") == "seen" and "mark" not in draft.slots:
            _bare_colour(statement, draft)
        draft.spans.append((m.s, m.e))
        got = True
    for m in frames:
        if (
            any(
                f.v.get("set", {}).get("eggs") is not None
                or f.v.get("set", {}).get("capped_brood")
                or f.v.get("set", {}).get("open_brood")
                for f in facts
            )
            and "brood_frames" not in draft.slots
        ):
            draft.put("brood_frames", tidy(number_of(m).value), m.rule)
            draft.spans.append((m.s, m.e))
    if looked_for and not got:
        return draft
    if not got and state == "planned":
        looks = [
            m
            for m in statement.marks
            if (m.label == "verb" and m.v.get("does") == "inspect") or (m.label == "check" and m.v.get("looks"))
        ]
        if looks:
            draft.spans += [(m.s, m.e) for m in looks]
            return draft
    if not got and state in ("not_done", "conditional"):
        looks = [m for m in statement.marks if m.label == "verb" and m.v.get("does") == "inspect"]
        if looks and not statement.has("method", "check", "agent", "item", "feed"):
            draft.spans += [(m.s, m.e) for m in looks]
            return draft
    return draft if got else None


_COLOUR_WORDS = {
    "blue": "blue", "white": "white", "yellow": "yellow", "red": "red", "green": "green",
    "blu": "blue", "wht": "white", "yel": "yellow", "yllw": "yellow", "grn": "green",
}  # fmt: skip


def _listed_after_no(statement: Statement, k: int) -> bool:
    """ "no eggs or open brood", "no chalkbrood, sacbrood or wax moth": the "no" goes on over the list."""
    marks = statement.marks
    alternatives = any(m.w in ("or", "nor") for m in marks[k : k + 4])
    j = k - 1
    while j >= 0 and (marks[j].label in ("comma", "fact", "ignore") or marks[j].w in ("or", "nor")):
        alternatives = alternatives or marks[j].w in ("or", "nor")
        if marks[j].label in ("fact", "ignore") and marks[j].w.startswith("no "):
            return alternatives and j < k - 1
        j -= 1
    return False


def _denied_after(statement: Statement, k: int) -> bool:
    """ "chalkbrood not seen", "chalkbrood ruled out", "chalkbrood absent"."""
    if "sign" not in statement.marks[k].v:
        return False
    words = " ".join(m.w for m in statement.marks[k + 1 : k + 3])
    return words.startswith(("not seen", "not found", "ruled out", "absent", "not present"))


def _bare_colour(statement: Statement, draft: Draft) -> None:
    """ "queen seen (white)", "requeened, blue": a colour by itself beside the queen."""
    colour = next((m for m in statement.marks if m.label == "w" and _COLOUR_WORDS.get(m.w)), None)
    if colour is not None:
        draft.put("mark", _COLOUR_WORDS[colour.w], "colour beside the queen")
        draft.spans.append((colour.s, colour.e))


def _reach_stops(statement: Statement, a: int, b: int) -> bool:
    """Whether the reach of a negation at `a` ends before the fact at `b` ("didn't see the queen but eggs")."""
    between = statement.marks[a + 1 : b]
    if any(m.label == "verb" and m.w == "got" for m in between) and any(
        m.label == "w" and len(m.w) > 3 and m.w not in ("have", "been", "really", "even", "even") for m in between
    ):
        return True  # "doesn't smell right, got foulbrood in it"
    for m in statement.marks[a + 1 : b]:
        if m.label == "w" and m.w in ("but", "though", "except", "yet", "however", "then", "so"):
            return True
        if m.label in ("comma", "filler") and any(x.label == "fact" for x in statement.marks[a + 1 : b]):
            return True
    negator = statement.marks[a]
    if negator.w in ("no", "not", "without") or negator.w.startswith("no "):
        return any(x.label == "fact" for x in statement.marks[a + 1 : b]) and not any(
            x.w in ("or", "nor", "and") for x in statement.marks[a + 1 : b]
        )
    return any(x.label == "fact" for x in statement.marks[a + 1 : b]) and not any(
        x.w in ("or", "nor") for x in statement.marks[a + 1 : b]
    )


def _set_slot(draft: Draft, slot: str, value: Any, rule: str) -> None:
    if slot == "queen" and "queen" in draft.slots and QUEEN_RANK.index(value) < QUEEN_RANK.index(draft.slots["queen"]):
        return
    draft.put(slot, value, rule)


def _other_time(statement: Statement, m: Mark) -> bool:
    """ "after the first hard frost", "before the rain": weather that only dates something else."""
    k = index_of(statement, m)
    return any(
        x.label == "w" and x.w in ("after", "before", "until", "till") for x in statement.marks[max(0, k - 3) : k]
    )


def conditions(statement: Statement, us: bool) -> Draft | None:
    """Weather and flow."""
    temps, skies = statement.all("temp"), statement.all("sky")
    if not temps and not skies:
        return None
    nots = [k for k, m in enumerate(statement.marks) if m.label == "cue" and m.v.get("cue") == "not"]
    skies = [
        m
        for m in skies
        if (m.v.get("flow") or not any(k < index_of(statement, m) for k in nots)) and not _other_time(statement, m)
    ]
    if not temps and not skies:
        return None
    draft = Draft("conditions")
    loose = statement.all("number", "value")
    if (
        not temps
        and len(loose) == 1
        and not statement.has("cols", "method", "mites", "feed", "item", "amount")
        and -30 <= number_of(loose[0]).value <= 115
        and number_of(loose[0]).value != 0
        and loose[0].w not in ("one", "two", "three")
    ):
        temps = loose  # "76 and clear"
    for m in temps:
        if "unit" not in m.v and m.w.split()[-1] in ("c", "celsius", "°c"):
            m.v["unit"] = "C"
        value = number_of(m).value * m.v.get("sign", 1)
        draft.put(m.v.get("slot", "temp"), tidy(value), m.rule)
        draft.put("unit", m.v.get("unit", "F" if us else "C"), m.rule)
        draft.spans.append((m.s, m.e))
        if is_approx(statement, m):
            draft.put("approx", True, "about")
    for m in skies:
        for slot in ("sky", "flow"):
            if m.v.get(slot):
                draft.put(slot, m.v[slot], m.rule)
        draft.spans.append((m.s, m.e))
    return draft
