"""Lists and ranges: the colonies named together, from the first on."""

from __future__ import annotations

from fieldnotes.reader.grouping.row import JOIN, PREPS, RANGE, Row, id_of, sentence_has, whole
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.outfit import Outfit

_ONE_HIVE_VERBS = frozenset(
    "had has is was 's got gets needs looks came feels seems looked shows showed says said reads swarmed".split()
)
"""Verbs after a colony that may begin a statement of its own, though "and" joins it to a list."""
LONGEST_RANGE = 400


def colonies_from(r: Row, i: int, first: int) -> tuple[Mark, int]:
    """The list or range of colonies that begins at mark `i` (its hive word at `first`)."""
    row = r.row
    ids: list[str] = []
    bare = row[i].label == "number"
    letter = _letter(row[i])
    explicit = first < i or not bare
    before = r.at(r.back(first))
    after_same = bool(before and before.label == "same")
    governed = bool(before and (before.label in ("verb", "method", "same") or before.w in PREPS))
    j = i
    end = i
    while True:
        m = row[j]
        cid = _as_id(m, letter, r.outfit)
        # a range?
        sign = r.at(j + 1)
        far = r.at(j + 2)
        if far and far.label == "hive":
            far = r.at(j + 3)
            step = 3
        else:
            step = 2
        if (
            sign
            and far
            and (sign.w in RANGE)
            and far.label in ("colony", "number")
            and (far.label == "colony" or whole(far))
        ):
            ids_between = _between(cid, _as_id(far, letter, r.outfit))
            if ids_between and (
                explicit or sign.w != "to" or all(r.outfit.could_be(x) for x in (ids_between[0], ids_between[-1]))
            ):
                ids += [x for x in ids_between if x not in ids]
                j += step
                end = j
            else:
                ids.append(cid) if cid not in ids else None
                end = j
        else:
            if cid not in ids:
                ids.append(cid)
            end = j
        k = j + 1
        joined = False
        while (c := r.at(k)) and (
            c.label == "comma"
            or c.w in JOIN
            or c.label == "filler"
            or (c.w == "nor" and before is not None and before.w.startswith("neither"))
            or (c.label == "hive" and (joined or (k == j + 1 and first < i and (not r.checking or _goes_on(r, k)))))
            or (joined and before is not None and before.label == "w" and c.w == before.w and c.w in PREPS)
        ):
            joined = joined or c.label == "comma" or c.w in JOIN or c.w == "nor"
            joined = joined or (c.label == "hive" and first < i)
            k += 1
        c = r.at(k)
        if c is None:
            break
        if c.label == "colony" and not joined and c.v["value"] == cid:
            break  # "all of them but l nine | l nine is dead"
        if joined and c.label in ("colony", "number") and _as_id(c, letter, r.outfit) in ids and len(ids) > 1:
            break  # "thirteen through seventeen and | fourteen had beetles"
        if (
            joined
            and c.label in ("colony", "number")
            and (beyond := r.at(r.on(k)))
            and beyond.w in ("into", "with")
            and (sentence_has(r, first, "change"))
        ):
            break  # "split twelve into fifteen and | fourteen into sixteen"
        if joined and c.label in ("colony", "number"):
            verb = r.at(r.on(k))
            predicate = verb is not None and verb.w.split()[0] in _ONE_HIVE_VERBS
            if predicate and (after_same or governed or any(x.label == "filler" for x in row[j + 1 : k])):
                break
        if c.label == "colony":
            if after_same and not joined:
                break  # "n four same as n three | n five brood in all stages"
            if joined or k == j + 1:
                j = k
                continue
            break
        if c.label == "number" and whole(c) and joined and _extends(r, k, letter):
            j = k
            continue
        if c.label == "number" and whole(c) and k == j + 1 and (run := _spoken_run(r, j, k, letter)) is not None:
            for x in run[:-1]:
                ids.append(_as_id(row[x], letter, r.outfit))
            j = run[-1]
            continue
        if c.label == "number" and whole(c) and k == j + 1 and not r.checking and _extends(r, k, letter) and not letter:
            q = r.at(k + 1)
            if q is None or q.label in ("stop", "line", "comma", "number") or q.w == "and":
                j = k
                continue
        break
    s = row[first].s
    text = " ".join(x.w for x in row[first : end + 1])
    return Mark("cols", s, row[end].e, text, {"ids": ids, "bare": bare, "hive": first < i}, "colonies"), end + 1


def _goes_on(r: Row, k: int) -> bool:
    """Whether the hive named at `k` is one of a list: after it comes "and", a comma, another hive or the end."""
    number = r.at(r.on(k))
    after = r.at(r.on(r.on(k)))
    return (
        number is not None
        and number.label in ("number", "colony")
        and (after is None or after.label in ("hive", "comma", "stop", "line") or after.w == "and")
    )


def _spoken_run(r: Row, j: int, k: int, letter: str) -> list[int] | None:
    """ "ten | eleven and twelve": numbers without commas that rise and end in "and": the indexes from `k` on."""
    found: list[int] = []
    last = _number_in(r.row[j])
    while (m := r.at(k)) and m.label == "number" and whole(m) and m.v["n"].value > last and r.outfit.could_be(id_of(m)):
        found.append(k)
        last = m.v["n"].value
        k += 1
        if (
            (c := r.at(k))
            and c.w == "and"
            and (m := r.at(k + 1))
            and m.label == "number"
            and whole(m)
            and m.v["n"].value > last
            and r.outfit.could_be(id_of(m))
        ):
            return [*found, k + 1]
    return None


def _number_in(m: Mark) -> float:
    return (
        float(m.v["n"].value) if m.label == "number" else float("".join(c for c in m.v["value"] if c.isdecimal()) or 0)
    )


def _letter(m: Mark) -> str:
    return m.v["value"].rstrip("0123456789") if m.label == "colony" else ""


def _as_id(m: Mark, letter: str, outfit: Outfit) -> str:
    if m.label == "colony":
        return str(m.v["value"])
    bare = id_of(m)
    if letter and (not outfit.known or f"{letter}{bare}" in outfit.ids):
        return f"{letter}{bare}"
    return bare


def _extends(r: Row, k: int, letter: str) -> bool:
    """Whether the number at `k`, after a comma or "and", goes on with the list of colonies."""
    m = r.row[k]
    bare = id_of(m)
    if not (r.outfit.could_be(bare) or (letter and f"{letter}{bare}" in r.outfit.ids)):
        return False
    q = r.at(r.on(k))
    if q is not None and (q.label == "comma" or q.w == "and") and (z := r.at(r.on(r.on(k)))) and z.label == "mites":
        return False  # "S1 and S2, 4 and 0 mites"
    if (
        q is not None
        and q.label in ("item", "agent", "feed", "form")
        and m.v["n"].value >= 10
        and r.row[k - 1].w in ("and", "or")
    ):
        return True
    if q is not None and (
        q.label in ("each", "agent", "item", "feed", "form", "queen_noun", "round") or q.w in ("/", "%")
    ):
        return False
    third = r.at(r.on(r.on(k)))
    if q is not None and q.w in ("on", "in") and third is not None and third.label in ("hive", "colony"):
        return False  # "hive 2, 10 in hive 7"
    if q is not None and q.label == "w" and q.w in ("on", "in", "into", "to") and m.v["n"].value <= 4:
        # "a super on 5 and two on 6": a number of things, put where the next words say
        return not (third is not None and third.label in ("number", "colony", "hive", "hives"))
    return True


def _between(a: str, b: str) -> list[str]:
    letter = a.rstrip("0123456789")
    last_letter = b.rstrip("0123456789")
    first, last = a[len(letter) :], b[len(last_letter) :]
    if not first or not last or (last_letter and last_letter != letter):
        return []
    low, high = int(first), int(last)
    if not low < high or high - low > LONGEST_RANGE:
        return []
    return [f"{letter}{x}" for x in range(low, high + 1)]
