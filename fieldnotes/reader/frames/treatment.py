"""Treatments: agent, form, dose, round, put in or taken out."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import OWN_UNITS, count_before, days_of
from fieldnotes.reader.frames.direction import going_out, still_in
from fieldnotes.reader.frames.marks import index_of, is_approx, neighbour, number_of, on_a_day_to_come, tidy
from fieldnotes.reader.grammar import listed
from fieldnotes.reader.mark import ROUNDS, WAYS, Mark
from fieldnotes.reader.scope import WHOLE_YARD, Draft

_FELL = listed("fell")
_FLOOR = frozenset(["floor", "ground"])


def _for_the_year(statement: Statement, treating: Mark) -> bool:
    """Whether treating is over "for the year", "this season"."""
    words = [m.w for m in statement.marks]
    k = index_of(statement, treating)
    over = k > 0 and words[k - 1].split()[-1] in ("done", "finished", "through", "quit", "stopped")
    return over and not {"year", "season", "winter", "this year", "this season"}.isdisjoint(words[k + 1 :])


def _of_them(statement: Statement) -> None:
    """ "it gets pads tonight, two of them": a number of pads, not of hives. Changes the mark in place."""
    form = statement.first("form")
    hives = next((m for m in statement.all("hives") if m.w.endswith(("of them", "of em"))), None)
    if form is None or hives is None:
        return
    k = index_of(statement, hives)
    if not statement.has("pronoun", "cols") and index_of(statement, form) != k - 1:
        return
    between = statement.marks[index_of(statement, form) + 1 : k]
    beside = all(m.label in ("date", "comma", "filler", "cols") or m.w in ("in", "into", "on") for m in between)
    if index_of(statement, form) < k and beside:
        hives.label, hives.v = "unit", {"n": hives.v["n"], "unit": form.v.get("form", "strip")}
        statement.seal()


def _plain(statement: Statement) -> list[Mark]:
    """The marks without articles."""
    return [m for m in statement.marks if m.w not in _ARTICLES]


def _as_it_stands(statement: Statement, m: Mark) -> bool:
    """ "one strip fell on the floor", "the pads in forty are dried up", "ten strips left in the bucket": what became of
    the thing or how it is, and nobody put it in.
    """
    k = index_of(statement, m) + 1
    if _we_have(statement, m) and statement.marks[k : k + 1] and statement.marks[k].w in ("in", "on"):
        return True
    while k < len(statement.marks) and (statement.marks[k].label in _BESIDE or statement.marks[k].w in _WHERE_IT_IS):
        k += 1
    said = statement.marks[k:]
    if not said or m.v.get("treats"):
        return False
    if (
        said[0].w in ("have", "has")
        and statement.has("days")
        and not ("been" in statement.words or statement.has("cue"))
    ):
        return True  # "the strips have got another ten days in l four"
    if said[0].w.split()[0] in _FELL or (said[0].label == "change" and said[0].w.endswith("gone")):
        beside = said[0] is statement.marks[index_of(statement, m) + 1]
        return beside or count_before(statement, m)[0] is None  # but "two strips in nine laying flat" were put in
    if any(x.v.get("dir") or x.v.get("does") for x in statement.all("verb")):
        return False
    if any(x.v.get("cue") in ("plan", "not", "if") for x in statement.all("cue")):
        return False
    if said[0].w == "left":
        in_hives = [x.label for x in said[2:3]] in (["cols"], ["every"], ["hives"], ["hive"])
        return count_before(statement, m)[0] is not None and not in_hives
    said = [x for x in said if x.w not in _JUST_SO] if said[0].w in _IS else []
    return (
        len(said) > 1
        and said[1].label in ("w", "fact", "change")
        and said[1].w.isalpha()
        and said[1].w not in _OF_ITS_WAY
    )


def _we_have(statement: Statement, m: Mark) -> bool:
    """ "i have strips in forty", "there's pads in nine": how it stands, and nothing put in now."""
    words = " ".join(x.w for x in statement.marks[: index_of(statement, m)] if x.w not in _JUST_SO)
    return words.endswith(_HAVE)


_HAVE = (
    "i have", "we have", "there's", "there is", "there are", "we've got", "i've got", "have the", "we have some",
    "there's some", "there are some",
)  # fmt: skip
_BESIDE = frozenset("agent form cols yard hive filler".split())
_WHERE_IT_IS = frozenset("in on at the of from".split())
_IS = frozenset("is are was were look looks looked".split())
_JUST_SO = frozenset("all both still already just almost mostly nearly pretty really".split())
_OF_ITS_WAY = WAYS | frozenset("done due going coming over there ready been to for back with finished a an".split())


def treatment(statement: Statement, last: Draft | None, led: bool = False) -> Draft | None:
    """A treatment, without its place; `last` is the treatment that "them" or "the strips" may point to, `led` tells
    whether colonies were named before it in its sentence.
    """
    if not statement.has("agent", "form", "verb", "noun", "round"):
        return None
    if statement.has("hives") and statement.has("form"):
        _of_them(statement)
    agents = [m for m in statement.all("agent") if not _only_named(statement, m)]
    forms = [m for m in statement.all("form") if not _only_named(statement, m)]
    units = [m for m in statement.all("unit") if "n" in m.v]  # an ounce that was put right has none
    treats = [m for m in statement.all("verb") if m.v.get("does") == "treat"]
    nouns = [m for m in statement.all("noun") if m.v.get("noun") == "treatment"]
    if (
        last is not None
        and statement.has("round")
        and statement.has("cols", "every", "hives", "yard")
        and any(m.v.get("does") == "do" or m.w in ("get", "gets") for m in statement.all("verb"))
    ):
        nouns.append(statement.all("round")[0])  # "the first round I did at the quarry"
    elif not nouns and statement.has("round") and (_round_given(statement) or (last and _goes_in(statement))):
        nouns.append(statement.all("round")[0])
    if (
        not agents
        and not forms
        and not treats
        and not (
            nouns and statement.has("cols", "every", "hives", "round") and not statement.has("mites", "value", "method")
        )
    ):
        return None
    if any(a.w == "is" and b.w.startswith("all") for a, b in pairwise(statement.marks)) and not statement.has(
        "cols", "yard"
    ):
        return None  # "four ounces of thymol is all that's left"
    if any(a.v.get("does") == "inspect" and b.label in ("form", "agent") for a, b in pairwise(_plain(statement))):
        return None  # "checked on the strips in fifty"
    if any(a.v.get("step") == "moved" and b.label in ("form", "agent") for a, b in pairwise(_plain(statement))):
        return None  # "moved the strips closer to the brood"
    if any(a.w == "enough" and b.w in ("for", "to") for a, b in pairwise(statement.marks)):
        return None  # "sixty strips left, that's enough for thirty hives"
    if not statement.has("cols", "every", "hives", "yard") and any(m.w in _DELIVERED for m in statement.marks):
        return None  # "thirty strips came in the mail"
    if forms and "left" in statement.words and statement.has("number") and _left_behind(statement):
        return None  # "left one strip in twelve": put there, or not taken out?
    out = True if still_in(statement) and (agents or forms or not treats) else going_out(statement)
    if out in (None, False) and not _ENDED.isdisjoint(statement.words) and _ended(statement):
        out = True  # "stopped the treatment in l six early"
    if out in (None, False) and any(a.w == "still" and b.w == "had" for a, b in pairwise(statement.marks)):
        return None  # "fourteen still had both its pads"
    if out in (None, False) and any(m.w in ("found", "spotted", "noticed") for m in statement.marks[:3]):
        return None  # "found the other strip in 36"
    if out in (None, False) and any(_as_it_stands(statement, m) for m in statement.all("agent", "form", "unit")):
        return None  # "one strip fell on the floor", "the pads in forty are dried up"
    words = {m.w for m in statement.marks}
    if out in (None, False) and not _FLOOR.isdisjoint(words) and not words.isdisjoint(("had", "has")):
        return None  # "sixty had a strip on the floor"
    if (
        not agents
        and forms
        and out is None
        and not statement.has("cols", "every", "hives", "each")
        and not any(m.v.get("treats") for m in forms)
    ):
        more = statement.has("unit", "round", "number", "value", "days") or statement.marks[-1].w in ("too", "also")
        if (not more or last is None) and not on_a_day_to_come(statement, forms[0]):
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
    getting = bool(treats) and any(m.w == "getting" for m in statement.all("verb"))  # "so it's getting treated"
    if treats and not agents and not forms:
        if statement.has("clean"):
            return None  # "treated nothing"
        if _for_the_year(statement, treats[0]):
            return None  # "done treating heath for the year": no more of it, and nothing done today
        named = statement.has("cols", "every", "hives", "pronoun", "each", "noun", "yard", "unit", "date")
        if not nouns and not named and not getting:
            return None  # "might have to treat"
    if (
        not agents
        and not nouns
        and last is None
        and not statement.has("cols", "every", "hives", "yard", "pronoun", "each", "rest", "number", "cue", "date")
        and not any(m.v.get("treats") for m in forms)
        and not (led and (getting or _done_with_it(statement)))
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
    if any(m.v.get("treats") for m in forms):
        draft.put("step", "in", "given")  # "the vape on nine didn't take": what is vaped is never taken out
    elif out and (agents or forms or not treats) and still_in(statement):
        draft.put("step", "out", "still in")
    _dose(statement, draft, units, forms, agents)
    rounds = statement.all("round") or _ordinal_tray(statement)
    if rounds:
        nth = number_of(rounds[0]).value if "n" in rounds[0].v else rounds[0].v["value"]
        draft.put("round", int(nth), rounds[0].rule or "ordinal before it")
        if "form" not in draft.slots and not {"vape", "vapes"}.isdisjoint(rounds[0].w.split()):
            draft.put("form", "vapour", "third and last vape")
        draft.spans.append((rounds[0].s, rounds[0].e))
    elif (which := _which_dose(statement, forms)) is not None:
        draft.put("round", int(which.v["value"]), which.rule or "which dose")
        draft.spans.append((which.s, which.e))
    days = next((m for m in statement.all("days") if not _between_doses(statement, m)), None)
    if days is not None and not statement.has("method") and (not out or draft.slots["step"] == "in"):
        draft.put("days", tidy(days_of(days)), days.rule)
        draft.spans.append((days.s, days.e))
    if (
        not agents
        and last is not None
        and (
            statement.has("pronoun")
            or draft.slots.get("form") == last.slots.get("form")
            or nouns
            or (set(last.slots) <= {"agent", "product"} and forms)
            or (forms and "form" not in last.slots and _heads_it(statement, last))
        )
        and "agent" not in draft.slots
    ):
        if draft.slots.get("form") == last.slots.get("form") or "form" not in draft.slots or "form" not in last.slots:
            for slot in ("agent", "form", "product"):
                if slot in last.slots and slot not in draft.slots:
                    draft.put(slot, last.slots[slot], "what it points to")
    return draft


def _done_with_it(statement: Statement) -> bool:
    """ "H2 is weak so | I put the strips in", "… and pulled the pads": a verb that says which way it went, and right
    behind it the thing, or its article and then the thing.
    """
    for k, m in enumerate(statement.marks):
        if m.v.get("dir") is not None:
            behind = [x for x in statement.marks[k + 1 : k + 5] if x.w not in _ARTICLES and x.w not in WAYS]
            if behind and behind[0].label == "form":
                return True
    return False


_ARTICLES = frozenset("the its their both all a".split())


def _left_behind(statement: Statement) -> bool:
    """Whether so many of it were left, and no other verb tells what was done."""
    if any(m.v.get("dir") or m.v.get("does") for m in statement.all("verb")):
        return False
    return any(a.w == "left" and b.label == "number" for a, b in pairwise(statement.marks))


def _ended(statement: Statement) -> bool:
    """Whether what was stopped or ended is a treatment."""
    return any(
        a.w in _ENDED and (b.label in ("agent", "form") or b.v.get("noun") == "treatment")
        for a, b in pairwise(_plain(statement))
    )


_ENDED = frozenset("stopped ended quit".split())
_DELIVERED = frozenset("mail post arrived delivered delivery parcel courier showed".split())


def _heads_it(statement: Statement, last: Draft) -> bool:
    """ "flumethrin in at Heath, 3 to 5 got two strips": named over the whole yard first, then dealt out."""
    return last.sentence == statement.sentence and last.why.get("every_colony") == WHOLE_YARD and statement.has("cols")


def _between_doses(statement: Statement, days: Mark) -> bool:
    """ "and again five days after that", "every seven days": when the next one is due, and no stay."""
    if "every" in days.w.split():
        return True
    k = index_of(statement, days)
    before, after = neighbour(statement, k, -1), neighbour(statement, k, 1)
    if before is not None and before.w == "every":
        return True
    return after is not None and after.w in ("after", "later", "apart", "ago", "before")


def _which_dose(statement: Statement, forms: list[Mark]) -> Mark | None:
    """ "second dribble on 20", "third and last trickle": which dose it was, said right before it."""
    for m in forms:
        k = index_of(statement, m) - 1
        while m.v.get("treats") and k >= 0 and statement.marks[k].w in ("and", "last", "final", "oxalic", "acid"):
            k -= 1
        if m.v.get("treats") and k >= 0 and statement.marks[k].label == "ordinal":
            return statement.marks[k]
    return None


def _ordinal_tray(statement: Statement) -> list[Mark]:
    """ "second thymol tray on forty": the ordinal of a round that has the agent between its words."""
    marks = statement.marks
    return [
        a
        for a, b, c in zip(marks, marks[1:], marks[2:], strict=False)
        if a.label == "ordinal" and b.label == "agent" and c.w in ("tray", "trays", "round", "dose", "treatment")
    ]


_OTHER_WORK = frozenset("method mites value check feed item queen_work queen_noun fact harvest change".split())


def _goes_in(statement: Statement) -> bool:
    """ "the gel in nine is used up so | the second tray went in today"."""
    verbs = statement.all("verb")
    return bool(verbs) and all(m.w.split()[0] in _GO for m in verbs) and not statement.has_any(_OTHER_WORK)


_GO = frozenset("go goes went going".split())
_SAYS_MORE = frozenset("that's that this these those it's it was is were are gone".split())


def _round_given(statement: Statement) -> bool:
    """ "Chapel third round", "second tray in 30 and 31": a round of what is given, and of nothing else."""
    which = statement.all("round")[0]
    after = neighbour(statement, index_of(statement, which), 1)
    if after is not None and after.w == "of":
        return False  # "second round of inspections at the quarry", "first round of the year"
    if statement.has_any(_OTHER_WORK) or not statement.has("cols", "every", "yard", "hives"):
        return False
    if any(m.w in _SAYS_MORE for m in statement.marks):
        return False  # "that's round one of three": said of what was given before
    return not ROUNDS.isdisjoint(statement.all("round")[0].w.split()) and all(
        m.v.get("dir") or m.v.get("does") in ("do", "treat") for m in statement.all("verb")
    )


def _only_named(statement: Statement, m: Mark) -> bool:
    """ "the wash after the redtags", "a talk on oxalic", "formic doesn't work": a treatment that is only spoken of."""
    if not statement.has("cols", "every", "hives", "yard", "unit", "number", "date") and _talked_of(statement, m):
        return True
    does = statement.marks[index_of(statement, m) + 1 :][:1]
    if does and does[0].w.split()[0] in _HARMS:
        return True  # "formic burned the brood in sixty one"
    k = index_of(statement, m)
    if _did_its_work(statement, k):
        return True
    k -= 1
    while (k >= 0 and statement.marks[k].label in ("agent", "form")) or (
        k >= 0 and statement.marks[k].w in ("the", "our", "those", "all")
    ):
        k -= 1
    return (
        k >= 0
        and statement.marks[k].label == "w"
        and statement.marks[k].w in ("after", "before", "since", "following", "without", "despite")
        and (
            statement.has("method", "mites", "value", "check")
            or not statement.has("cols", "every", "hives", "yard", "unit", "number", "date", "verb", "pronoun")
            or (statement.has("number") and not any(x.v.get("dir") or x.v.get("does") for x in statement.all("verb")))
            or any(x.v.get("does") == "inspect" for x in statement.marks)
        )
    )


_HARMS = listed("harm_done_by_treating")
_TALK = listed("talk_of_treatments")
_OF_ITS_WORK = listed("said_of_treatments")


def _talked_of(statement: Statement, m: Mark) -> bool:
    """Whether words of talk lead to the treatment, or it is the subject of what treatments do or are."""
    k = index_of(statement, m)
    if any(x.w.split()[0] in _TALK for x in statement.marks[max(0, k - 5) : k]):
        return True
    after = _said_of(statement, k)
    return bool(after) and after[0].w in _OF_ITS_WORK


def _said_of(statement: Statement, k: int) -> list[Mark]:
    """What is said of the treatment at `k`."""
    return [x for x in statement.marks[k + 1 :] if x.label not in ("agent", "form", "filler", "cue")]


def _did_its_work(statement: Statement, k: int) -> bool:
    """ "the formic worked in nine", "the strips didn't work in twelve", "oxalic did its job on forty": how well what
    was given did, and nothing given.
    """
    after = [x.w for x in _said_of(statement, k)[:3]]
    return bool(after) and (after[0] in _WORKED or (after[0] in ("did", "doing", "does") and after[2:] in _JOB))


_WORKED = frozenset(["worked", "work", "works", "working", "helped", "failed"])
_JOB = (["job"], ["trick"], ["work"])


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
    trays = [b for a, b in pairwise(statement.marks) if a.label == "agent" and b.w in ("tray", "trays")]
    if trays:
        amount, by = count_before(statement, trays[0])
        if amount is not None and by is not None:  # "two thymol trays in 5"
            draft.put("amount", tidy(amount), "number before or each after")
            draft.put("unit", "tray", "trays of it")
            draft.spans += [(by.s, by.e), (trays[0].s, trays[0].e)]
            return
    for m in (*forms, *agents):
        form = m.v.get("form")
        if form not in OWN_UNITS:
            continue
        amount, by = count_before(statement, m)
        if amount is not None:
            draft.put("amount", tidy(amount), "number before or each after")
            draft.put("unit", form, m.rule)
            if by is not None:
                draft.spans.append((by.s, by.e))
            return
    of_them = next((m for m in statement.all("hives") if "n" in m.v and m.w.endswith(("of them", "of em"))), None)
    told = of_them is not None and any(index_of(statement, m) < index_of(statement, of_them) for m in (*forms, *agents))
    if of_them is not None and told and statement.has("cols") and draft.slots.get("form") in OWN_UNITS:
        draft.put("amount", tidy(number_of(of_them).value), of_them.rule)
        draft.put("unit", draft.slots["form"], "form")
        draft.spans.append((of_them.s, of_them.e))
        return
    form = draft.slots.get("form")
    if form in OWN_UNITS and agents:
        amount, by = count_before(statement, agents[0])
        if amount is not None:
            draft.put("amount", tidy(amount), "number before or each after")
            draft.put("unit", form, "form")
            if by is not None:
                draft.spans.append((by.s, by.e))
