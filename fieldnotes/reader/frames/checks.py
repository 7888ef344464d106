"""Mite checks: method, sample and counts."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from fieldnotes.reader.clause import Statement
from fieldnotes.reader.frames.amounts import days_of
from fieldnotes.reader.frames.harvest import water
from fieldnotes.reader.frames.marks import index_in, index_of, is_approx, number_of, sample_size, tidy
from fieldnotes.reader.grouping.counts import OF_SOME_HIVE
from fieldnotes.reader.inorder import RULE
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.scope import Draft, Held


def method_of(statement: Statement) -> Mark | None:
    """The method of the statement's counts: of several the last before them, the more telling of two of one kind."""
    methods = statement.all("method")
    if not methods:
        return None
    counted = ("mites", "value", "clean", "percent")
    first_count = next((k for k, x in enumerate(statement.marks) if x.label in counted), len(statement.marks))
    method = next((x for x in reversed(methods) if index_of(statement, x) < first_count), methods[0])
    if len(methods) > 1 and methods[-1].v["method"].endswith(methods[0].v["method"]):
        return methods[-1]
    if method is not None and method.v["method"] in ("wash", "roll"):
        telling = [m for m in methods if m.v["method"].endswith(method.v["method"])]
        return max(telling, key=lambda m: len(m.v["method"]))
    return method


def _of_one_kind(statement: Statement, method: Mark | None) -> list[Mark]:
    """The method, and what names it more loosely beside it ("washed six, half a cup in alcohol")."""
    if method is None:
        return []
    return [m for m in statement.all("method") if m is method or method.v["method"].endswith(m.v["method"])]


def _listed(m: Mark, other: Mark) -> bool:
    """Whether two counts stand in a list ("2, 0, 0, 5 mites"), or are typed side by side: no figure is typed twice."""
    figures = all("n" in x.v and number_of(x).digits for x in (m, other))
    return figures or (m.rule == other.rule and m.rule in (RULE, OF_SOME_HIVE))


_TELLS_OF_IT = frozenset("that it which that's it's was came had".split())


def _one_sample(statement: Statement, one: Mark, counts: list[Mark]) -> bool:
    """ "… and then one on L28 that was zero": one wash, and what it came to."""
    k = index_of(statement, one)
    led = [x.label if x.label == "cols" else x.w for x in statement.marks[k + 1 : k + 3]]
    if len(counts) != 1 or led[1:] != ["cols"] or led[0] not in ("on", "in", "from", "for", "off"):
        return False
    between = statement.marks[k + 3 : index_of(statement, counts[0])]
    return any(x.w in _TELLS_OF_IT or x.w.split()[0] in _TELLS_OF_IT for x in between)


def _relative(statement: Statement, m: Mark) -> bool:
    """ "gave the ones that tested high a round": a check that only tells which colonies are meant."""
    before = statement.marks[index_of(statement, m) - 1 :][:1]
    return bool(before) and before[0].w in ("that", "which", "who") and index_of(statement, m) > 0


_EXCEEDS = frozenset("exceeded exceeding exceeds exceed".split())
LIMITS = _EXCEEDS | frozenset("over above under below past".split())
"""Words before a number that counts are held against."""


def _limited(statement: Statement, m: Mark) -> bool:
    """ "everything else was under three": what the counts of many did not reach, and no count."""
    k = index_of(statement, m)
    return k > 0 and statement.marks[k - 1].w in LIMITS


def _then(statement: Statement) -> bool:
    """ "before formic and one after": when it was counted."""
    return statement.marks[0].w in ("before", "after", "since")


def _at_most(statement: Statement, m: Mark) -> bool:
    """ "it's under two percent": what the count did not reach; but "just under two percent"."""
    k = index_of(statement, m)
    return (
        k > 0 and statement.marks[k - 1].w in ("under", "below") and statement.marks[k - 2].w not in ("just", "right")
    )


def _was_before(statement: Statement, m: Mark) -> bool:
    """ "went from forty mites to five": what the count was before."""
    k = index_of(statement, m)
    return k > 0 and statement.marks[k - 1].w == "from" and statement.marks[k + 1].w in ("to", "down", "up")


def checks(statement: Statement, held: Held, state: str, counting: bool = False) -> tuple[list[Draft], bool]:
    """Mite checks, without their colonies; and whether the statement was only a heading for those that follow.

    `counting` says that mites were counted just before, so that "S2 clean" after "S1 12 mites" is a count.

    One draft a count, in the order said. A draft without a count is one that was planned, left or not yet counted.
    """
    if not statement.has("method", "check", "mites", "value", "clean", "percent", "pronoun"):
        return [], False
    method = method_of(statement)
    check = next((m for m in statement.all("check") if not (m.v.get("looks") or _relative(statement, m))), None)
    sample = statement.first("sample")
    days = statement.first("days")
    of_honey = statement.has("harvest", "honey", "moisture", "item") or any(
        m.v.get("taken") for m in statement.all("fact")
    )
    percents = [] if of_honey or water(statement) is not None else statement.all("percent")
    counts = [
        m
        for m, after in pairwise([*statement.marks, None])
        if m is not None
        and m.label in ("mites", "value", "clean")
        and not (m.label == "value" and after is not None and after.w == "with")  # "I saw two with bad wings"
    ]
    if counts and counts[0].w == "one" and _one_sample(statement, counts[0], counts[1:]):
        counts = counts[1:]
    if method is None and held.method is None and check is None:
        counts = [
            m
            for m in counts
            if (not (m.label == "mites" and m.w.startswith("counted")) and m.label != "clean")
            or "mite" in m.w
            or "zero" in m.w
            or "varroa" in m.w
            or (counting and m.label == "clean" and statement.has("cols"))
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
    if "from" in statement.words and len(counts) > 1:
        counts = [m for m in counts if m is counts[-1] or not _was_before(statement, m)]
    if "under" in statement.words or "below" in statement.words:
        counts = [m for m in counts if not _at_most(statement, m)]
        percents = [m for m in percents if not _at_most(statement, m)]
    if percents and not _EXCEEDS.isdisjoint(statement.words):
        percents = [m for m in percents if not _limited(statement, m)]  # "three (2, 7, 9) exceeded 3 per cent"
    many = (statement.has("rest", "every", "hives") and not statement.has("cols")) or "all" in statement.words
    if many and not LIMITS.isdisjoint(statement.words):
        counts = [m for m in counts if not _limited(statement, m)]
        percents = [m for m in percents if not _limited(statement, m)]
    if method is None and check is None and statement.has("harvest", "honey", "feed", "agent") and not _then(statement):
        counts = [m for m in counts if m.label == "mites" and "mite" in m.w]
        percents = []
    base: dict[str, tuple[Any, str]] = {}
    name = method.v["method"] if method else None
    if name == "wash" and method is not None:
        named = next((m.w for m in statement.marks if m.label == "w" and m.w in ("alcohol", "soap", "soapy")), None)
        name = {"alcohol": "alcohol_wash", "soap": "soap_wash", "soapy": "soap_wash"}.get(named or "", name)
        method.v["method"] = name
    if method is None and counts and sample is not None and statement.marks[-1].w in ("alcohol", "soap"):
        base["method"] = (f"{statement.marks[-1].w}_wash", "what washed the sample")
    if method is not None:
        if held.method and name in ("wash", "roll") and state != "planned" and held.method.endswith(name):
            name = held.method
        base["method"] = (name, method.rule)
    elif "method" not in base and held.method and state != "planned" and (counts or percents or state == "not_done"):
        base["method"] = (held.method, "method that holds")
    same_method = method is None or name == held.method
    counted = bool(counts) or not held.bees_of_one  # "ten had 11 out of 300 and 13 came to four percent"
    if sample is not None:
        base["bees"] = (sample_size(sample), sample.rule)
    elif held.bees and (same_method or held.bees_by_any) and (counts or percents) and state == "done" and counted:
        base["bees"] = (held.bees, "sample that holds")
    board = base.get("method", ("",))[0] == "board"
    if board and days is not None:
        base["board_days"] = (tidy(days_of(days)), days.rule)
    elif board and held.board_days and same_method and counts:
        base["board_days"] = (held.board_days, "days that hold")
    if state in ("conditional", "planned"):
        counts, percents = [], []  # "if it comes back over forty": a threshold, no count
    if state == "not_done" and any(m.w.split()[-1] in ("it", "jar", "sample", "wash") for m in statement.all("cue")):
        counts = [m for m in counts if m.label != "clean" and number_of(m).value]  # "I spilled it so nothing there"
    if len(counts) > 1 and all(m.label == "clean" or number_of(m).value == 0 for m in counts):
        zeros = sum(m.label == "value" and m.w not in ("nothing", "none") for m in counts)
        if any(x.w.startswith("all") for x in statement.marks) and zeros < len(counts):
            counts = counts[-1:]  # "nothing on the boards, 1, 2 and 3 all zero": said twice
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
            and not _listed(m, counts[k + 1])
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
    if len(drafts) == len(percents) == 1 and drafts[0].spans[0] < (percents[0].s, 0):
        told = percents.pop()  # "eighteen mites, that's three percent": the count said again in percent
        drafts[0].put("per_100", tidy(number_of(told).value), told.rule)
        drafts[0].spans.append((told.s, told.e))
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
        for said in (*_of_one_kind(statement, method), check, sample, days if board else None):
            if said is not None:
                draft.spans.append((said.s, said.e))
    return drafts, header
