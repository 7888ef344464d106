"""Counts said after all their colonies, in the same order ("rolled 6, 7 and 8 … they came to one, none and four")."""

from __future__ import annotations

from fieldnotes.reader.mark import COUNTED, THINGS, Mark
from fieldnotes.reader.numbers import Number, number_at

_BETWEEN = frozenset(
    "they those these it came come to we i got had were was gave showed read so and then with at in the first "
    ": = - ( ) after straight afterwards counts count numbers results result know we'd i'd okay today here are is out "
    "up back he she said told says you all good fine okay counted read get found before beforehand".split()
)
_NTH = {"the second": 2, "the third": 3, "the fourth": 4, "the fifth": 5, "the sixth": 6}
_SEPARATORS = frozenset(["comma", "filler", "approx"])
RULE = "count in that order"
_FEW = 10
"""Fewer things than this are given to one hive."""
_FAR = 14
"""Marks that may stand between the colonies and their first count."""


_TELLING = frozenset(["ordinal", "date", "cols", "pronoun"])
"""Labels of the marks that say how many counts are due, or which one."""


def counts_in_order(row: list[Mark]) -> list[Mark]:
    """The row with a run of as many counts as there are colonies, after a check of several, made counts.

    Only a run of exactly that many becomes counts: of any other length, what is whose cannot be told.
    """
    k = 0
    sizes: set[int] = set()  # of the groups of colonies named so far
    ordered = -_FAR  # where the last ordinal stands
    while k < len(row):
        m = row[k]
        if m.label not in _TELLING:
            k += 1
            continue
        if m.label == "cols" and k > 1 and row[k - 1].w in _OF_COLONY and (chain := _counts_first(row, k)):
            begins, ends = (next(n for n, x in enumerate(row) if x is y) for y in (chain[0][0], chain[-1][1]))
            turned = _turned(row[begins : ends + 1], chain)
            row[begins : ends + 1] = turned
            k = begins + len(turned)
            continue
        if m.label == "ordinal":
            ordered = k
        elif m.label == "date" and m.w in _NTH and k - ordered < _FAR and sizes and _NTH[m.w] <= max(sizes):
            # "the second gave none and the third two": no day
            row[k] = Mark("ordinal", m.s, m.e, m.w, {"value": _NTH[m.w]}, RULE)
            ordered = k
        n = _named(m, sizes) if m.label in ("cols", "pronoun") else 0
        if m.w == "they" and k + 1 < len(row) and row[k + 1].label == "method":
            n = _size_before(row, k)  # "need to treat S2 and S4, they rolled at eleven and thirteen"
        start = _first_count(row, k) if n > 1 else None
        run = _run(row, start, n) if start is not None else None
        # "L1, L4, L7 three, none, two mites" needs no check before it.
        counted = n > 1 and (_checked(row, k) or (run is not None and row[run[-1]].label == "mites"))
        if counted and run is not None:
            if not all(row[j].label in ("value", "clean", "mites") for j in run):
                for j in run:
                    row[j] = _count(row[j])
                k = run[-1]
        elif n > 1 and row[k].label == "cols" and (first := _said_first(row, k, n)):
            dealt = [m for m in row[first[-1] + 1 : k] if m.label == "method"] + _dealt(row, k, first)
            row[first[0] : k + 1] = dealt
            k = first[0] + len(dealt) - 1
        elif n > 1 and row[k].label == "cols" and (given := _given(row, k, n)):
            row[k : given[-1] + 1] = _dealt(row, k, given)
        k += 1
    return row


_OF_COLONY = frozenset("in on from off for at under".split())
_BETWEEN_COUNTS = frozenset("and then plus & i got had found there was were also but with just".split())
_FEWEST_SAID = 2


def _counts_first(row: list[Mark], k: int) -> list[tuple[Mark, Mark]]:
    """ "found three in forty, none in 42 and nine in 46": the counts, each with the colonies after it, from the one at
    `k` on. Empty where a count follows the last colonies too: "in forty three, in 42 none" names the colony first.
    """
    chain: list[tuple[Mark, Mark]] = []
    at = _count_before(row, k)
    first = at
    while at is not None:
        group = at + 1
        while row[group].label != "cols":
            group += 1
        chain.append((row[at], row[group]))
        j = group + 1
        while j < len(row) and (row[j].label in _SEPARATORS or row[j].w in _BETWEEN_COUNTS):
            j += 1
        ahead = next((n for n in range(j + 1, min(len(row), j + 5)) if row[n].label == "cols"), None)
        at = _count_before(row, ahead) if ahead is not None else None
        if at != j:
            at = None
    if len(chain) < _FEWEST_SAID or first is None or (j < len(row) and _countable(row[j])):
        return []
    return chain if _of_mites(row, first, j, chain) else []


def _turned(said: list[Mark], chain: list[tuple[Mark, Mark]]) -> list[Mark]:
    """Each colony of the chain before its count, and behind that the sample that was named between them."""
    turned: list[Mark] = []
    k = 0
    for count, group in chain:
        end = next(n for n in range(k, len(said)) if said[n] is group)
        samples = [m for m in said[k:end] if m.label == "sample"]
        turned += [Mark("comma", group.s, group.s, ","), group, _count(count), *samples]
        k = end
    return turned


def _count_before(row: list[Mark], k: int) -> int | None:
    """The place of the count that stands before the colonies at `k`, "in" or "on" between ("nine mites in")."""
    j = k - 1
    if j < 1 or row[j].w not in _OF_COLONY:
        return None
    j -= 1
    while j > 0 and (row[j].v.get("noun") == "mites" or row[j].label == "sample" or row[j].w in _OF_BEES):
        j -= 1
    return j if j >= 0 and _countable(row[j]) else None


_OF_BEES = frozenset("in out of per from".split())


def _countable(m: Mark) -> bool:
    return _number(m) is not None or (m.label == "mites" and "n" in m.v)


def _of_mites(row: list[Mark], first: int, end: int, chain: list[tuple[Mark, Mark]]) -> bool:
    """Whether the counts are of mites: a check is told of near by, and no thing nearer."""
    if any(count.label == "mites" and "mite" in count.w for count, _ in chain):
        return True
    if any(m.label == "sample" for m in row[first:end]):
        return True
    for m in reversed(row[max(0, first - _FAR) : first]):
        if m.label in ("method", "check", "mites", "sample"):
            return True
        if m.label in ("item", "agent", "form", "feed", "queen_noun", "queen_work", "fact", "change", "line"):
            return False
    return any(m.label == "method" for m in row[end : end + 8])


_WHOSE_THOSE_ARE = frozenset(
    (
        "counts numbers results on off those these that's thats they're are were is for hives hive colonies from of "
        ", : the in under board boards"
    ).split()
)
_OPENS = frozenset(["stop", "line", "question", "filler"])


def _said_first(row: list[Mark], k: int, n: int) -> list[int] | None:
    """The places of as many counts as there are colonies, said before them with "those are", "that's" between; of
    things found, the same one said over ("dead, dead and dead, two, nineteen and twenty four") needs none.
    """
    j = k - 1
    while j >= 0 and k - j < _FAR and (row[j].w in _WHOSE_THOSE_ARE or row[j].label in ("hive", "pronoun", "comma")):
        j -= 1
    pointed = any(row[x].w in ("those", "these", "that's", "thats", "they're") for x in range(j + 1, k))
    pointed = pointed or (row[k - 1].w in _OF_COLONY and _counts_of_mites(row, j, k))
    found: list[int] = []
    while j >= 0 and len(found) <= n:
        m = row[j]
        if pointed and found and _countable(row[found[-1]]) and not _countable(m) and row[j + 1].label == "filler":
            break  # "three is strong um one and none, that's seven and eight"
        if (pointed and _countable(m)) or m.label in ("change", "fact"):
            found.append(j)
        elif not (m.label in _SEPARATORS or m.w in ("and", "then", "&")):
            break
        j -= 1
    opens = j < 0 or row[j].label in _OPENS or row[j].label in ("w", "verb", "method")
    if len(found) != n or not (opens or row[j + 1].label == "filler" or row[j + 1].w in ("then", "so", "but")):
        return None
    found.reverse()
    alike = len({(row[x].label, str(row[x].v.get("step")), row[x].w) for x in found}) == 1
    if all(row[x].label == "change" or row[x].label == "fact" for x in found):
        return found if alike else None
    return found if all(_countable(row[x]) for x in found) else None


def _counts_of_mites(row: list[Mark], j: int, k: int) -> bool:
    """ "found four, two and nine mites in", "washes came to two, none and five on": whether counts of mites end at `j`,
    before the colonies at `k`.
    """
    if j < 0 or not _countable(row[j]):
        return False
    said = _number(row[j])
    if not (any(m.w == "and" for m in row[max(0, j - 3) : j]) or (said is not None and said.value == 0)):
        return False  # "sugar roll zero zero zero on seventy, 71 and 72"
    return row[j].label == "mites" or any(
        m.label in ("method", "check") or m.w in COUNTED or m.v.get("noun") == "mites" for m in row[max(0, j - 10) : k]
    )


def _given(row: list[Mark], k: int, n: int) -> list[int] | None:
    """The places of as many numbers as there are colonies, after a thing and a colon ("supers on 3, 4: 2, 1")."""
    sign = row[k + 1] if k + 1 < len(row) else None
    if sign is None or sign.w not in (":", "-", "–", "=") or not _thing_before(row, k):
        return None
    run = _run(row, k + 2, n)
    if run is None or any(row[j].label != "number" or row[j].v["n"].value >= _FEW for j in run):
        return None
    after = row[run[-1] + 1] if run[-1] + 1 < len(row) else None
    return run if after is None or after.label in ("stop", "line", "filler") else None


def _thing_before(row: list[Mark], k: int) -> bool:
    for m in reversed(row[max(0, k - 8) : k]):
        if m.label in ("stop", "line", "question", "cols"):
            return False
        if m.label in THINGS:
            return True
    return False


def _dealt(row: list[Mark], k: int, run: list[int]) -> list[Mark]:
    """Each colony of the group at `k` beside its own number of the `run`."""
    group = row[k]
    dealt: list[Mark] = []
    if all(row[j].label in ("change", "fact") for j in run):  # the same of all: one group
        row[run[0]].v.setdefault("struck", []).extend((row[j].s, row[j].e) for j in run[1:])
        return [group, row[run[0]]]
    for cid, j in zip(group.v["ids"], run, strict=True):
        dealt += [Mark("comma", row[j].s, row[j].s, ",")] if dealt else []
        dealt += [Mark("cols", group.s, group.e, group.w, {**group.v, "ids": [cid]}, group.rule)]
        dealt.append(row[j] if row[j].label == "number" and run[0] > k else _count(row[j]))
    return dealt


def _named(m: Mark, sizes: set[int]) -> int:
    """How many colonies the mark names, or points to ("rolled those four after: five, none, three and none")."""
    if m.label == "cols":
        sizes.add(len(m.v.get("ids", ())))
        return len(m.v.get("ids", ()))
    n = int(m.v["n"].value) if m.label == "pronoun" and "n" in m.v else 0
    return n if n in sizes else 0


def _size_before(row: list[Mark], k: int) -> int:
    """How many colonies the group nearest before `k` is of."""
    near = next((m for m in reversed(row[max(0, k - _FAR) : k]) if m.label == "cols"), None)
    return len(near.v.get("ids", ())) if near is not None else 0


def _checked(row: list[Mark], k: int) -> bool:
    """Whether a method of counting stands before the colonies in their sentence, near by, or straight after them."""
    after = row[k + 1 : k + 3]
    if after and after[0].label == "comma":
        after = after[1:]
    if after and after[0].label == "method" and (row[k].label == "cols" or row[k].w == "they"):
        return True  # "fourteen fifteen seventeen boards in two days: thirty one, twenty six, about forty"
    for m in reversed(row[max(0, k - 8) : k]):
        if m.label in ("stop", "line", "question", "cols", "form", "agent", "fact"):
            return False
        if m.label in ("method", "check") or m.w in COUNTED:
            return True
    return False


def _first_count(row: list[Mark], k: int) -> int | None:
    stops = 0
    for j in range(k + 1, min(len(row), k + _FAR)):
        m = row[j]
        if _number(m) is not None or (m.label == "mites" and m.w.startswith("counted") and "n" in m.v):
            return j
        stops += m.label == "stop"
        if stops > 1 or not (
            m.label in ("date", "yard", "sample", "method", "filler", "each", "comma", "pronoun", "stop", "ordinal")
            or m.label in ("days", "every")
            or not _BETWEEN.isdisjoint(m.w.split()[:1])
            or m.w == "alcohol"
        ):
            return None
    return None


def _run(row: list[Mark], start: int, n: int) -> list[int] | None:
    """The places of exactly `n` counts that follow each other."""
    found: list[int] = []
    j = start
    closed = False
    end = start  # the last mark of the last count
    while j < len(row) and len(found) <= n:
        m = row[j]
        if _number(m) is not None or (m.label == "mites" and "n" in m.v and (found or m.w.startswith("counted"))):
            found.append(j)
            end, closed = j, row[j - 1].w == "and"
        elif found and m.w == "or" and j + 1 < len(row) and _number(row[j + 1]) is not None:
            j += 1  # "nine or ten": one count
            end = j
        elif not (m.label in _SEPARATORS or m.w in ("and", "then", "&", "/")):
            break
        j += 1
    if len(found) != n:
        return None
    after = row[end + 1] if end + 1 < len(row) else None
    ends = after is None or (
        after.label
        in ("stop", "line", "question", "comma", "filler", "cue", "pronoun", "every", "sample", "method", "date")
        or after.w in ("in", "and", "so", "mites", "that's", "which", "okay", "i", "we", "all", "those", "but")
    )
    if closed and after is not None and after.label in _ANEW:
        ends = True  # "two, zero and one | released the queen in 58"
    return found if ends else None


_ANEW = frozenset("verb queen_work change fact cols".split())


def _number(m: Mark) -> Number | None:
    if m.label in ("number", "value", "clean") and "n" in m.v:
        return m.v["n"] if m.v["n"].whole else None
    words = m.w.split()
    plain = m.label == "cols" and len(m.v.get("ids", ())) == 1
    if plain or (m.label in ("w", "number", "value", "clean") and m.w in ("none", "zero", "nothing", "one")):
        number = Number(0, 1) if m.w in ("none", "nothing") else number_at(words, 0)
        return number if number is not None and number.end == len(words) and number.whole else None
    return None


def _count(m: Mark) -> Mark:
    if m.label == "mites":
        return m
    return Mark("value", m.s, m.e, m.w, {**m.v, "n": _number(m)} if m.label == "value" else {"n": _number(m)}, RULE)
