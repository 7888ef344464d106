"""Which numbers are colonies, which are counts? The row of marks → the same row with colonies grouped.

A number that no phrase took is a colony where its neighbours say so (a hive word, "in", "washed",
"had" after it), a count where they say that ("had", a colon after a colony), and where neither does, the
roster and the order decide: in a run of checks colony and count take turns.
Lists ("12, 14 and 15"), ranges ("3 through 9", "L4-L9") and repeated letters become one mark "cols".
Counts become the mark "value", sample sizes ("/ 300", "in 300") the mark "sample".
"""

from __future__ import annotations

from fieldnotes.reader.grammar import grammar
from fieldnotes.reader.mark import REACH, Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit

CHECK_LABELS = frozenset(["method", "mites", "percent", "sample", "check"])
BULLETS = frozenset("- * · • – — > + ◦ ▪ ‣ o ~".split())
_RANGE = frozenset(["-", "–", "—", "to", "through", "till", "until"])
_JOIN = frozenset(["and", "plus", "or", "/", "+"])
_PREPS = frozenset("in on into onto from off of out under inside for".split())
_GLUE = frozenset(["filler", "approx"])
_BOUNDARY_WORDS = frozenset("and then so but also plus next or that i we".split())
_NP = frozenset("item agent form feed unit amount queen_noun noun ratio".split())
_COUNT_UP = frozenset("came come comes up down went got get amounted close closer add adds worked works".split())
_ONE_HIVE_VERBS = frozenset(
    "had has is was 's got gets needs looks came feels seems looked shows showed says said reads swarmed".split()
)
"""Verbs after a colony that may begin a statement of its own, though "and" joins it to a list."""
_HAD = frozenset(["had", "has", "got", "found", "was", "gave"])
_DEAD = frozenset(["dead", "deadouts", "dead outs", "dead - outs", "lost", "died"])
_UNITS_MADE = frozenset("splits nucs nukes swarms deadouts".split())
LONGEST_RANGE = 400


_CAN_BE_COLONIES = frozenset(["number", "colony", "hive", "hives"])


class _Row:
    def __init__(self, row: list[Mark], outfit: Outfit, checking: bool) -> None:
        self.row = row
        # Up to where it is known that no such run, order or list of counts begins.
        self.no_pairs_until = self.no_order_until = self.no_values_until = 0
        self.outfit = outfit
        self.checking = checking
        self.last_ids: list[str] = []  # of the colonies named last
        values = grammar().tables["values"]
        self.before_value = frozenset(values["before"])
        self.subject_verbs = frozenset(values["subject_verbs"])

    def back(self, i: int) -> int:
        """Index of the mark before `i`, fillers passed over; -1 at the start."""
        i -= 1
        while i >= 0 and self.row[i].label in _GLUE:
            i -= 1
        return i

    def on(self, i: int) -> int:
        """Index of the mark after `i`, fillers passed over; the length of the row at the end."""
        i += 1
        while i < len(self.row) and self.row[i].label in _GLUE:
            i += 1
        return i

    def at(self, i: int) -> Mark | None:
        return self.row[i] if 0 <= i < len(self.row) else None


def group(row: list[Mark], outfit: Outfit, checking: bool) -> list[Mark]:
    """The row with colonies grouped; `checking` says that mite checks have been spoken of."""
    r = _Row(row, outfit, checking)
    out: list[Mark] = []
    owed = 0  # counts still to come of a list said "in that order"
    last = ""  # what the last number in this sentence was: "cols", "value" or ""
    i = 0
    n = len(row)
    while i < n:
        m = row[i]
        if m.label in ("stop", "line", "question"):
            last = ""
        if (
            m.w == "but"
            and m.label == "w"
            and any(x.label == "every" for x in row[max(0, i - 5) : i])
            and (q := r.at(r.on(i)))
            and q.label in ("number", "colony", "hive")
        ):
            m = row[i] = Mark("cue", m.s, m.e, "but", {"cue": "except"}, "all but")
        if m.label in CHECK_LABELS or m.label == "clean":
            r.checking = True
        if m.label == "w" and m.w in ("whole", "entire") and (q := r.at(i + 1)) and q.label == "yard":
            m = row[i] = Mark("every", m.s, m.e, m.w, {}, "every colony")  # "the whole quarry"
        if (
            m.w == "same"
            and m.label == "w"
            and last == "cols"
            and ((q := r.at(i + 1)) is None or q.label in ("line", "stop", "comma", "colony", "hive", "filler"))
        ):
            m = row[i] = Mark("same", m.s, m.e, "same", {}, "same again")  # "L2: same"
        if (
            m.label == "hives"
            and last == "cols"
            and r.checking
            and m.w.endswith(("of them", "of em"))
            and out[-1].w in _HAD
        ):
            m = row[i] = Mark("mites", m.s, m.e, m.w, {"n": m.v["n"]}, "count")  # "44 had 6 of em"
        if (
            m.w == "as"
            and m.label == "w"
            and last == "cols"
            and out[-1].w in ("-", "–", ":", ",")
            and ((q := r.at(r.on(i))) and q.label in ("hive", "colony", "number"))
        ):
            m = row[i] = Mark("same", m.s, m.e, "same as", {}, "same again")  # "No. 10 - as No. 9"
        if m.label in ("mites", "clean", "percent"):
            last = "value"
        if m.label not in _CAN_BE_COLONIES:
            out.append(m)
            i += 1
            continue
        run = _paired_run(r, i)
        if run:
            cols, j = run
            out.append(cols)
            last = "cols"
            owed = len(cols.v["ids"]) if _in_that_order(r, j) == len(cols.v["ids"]) else 0
            i = j
            continue
        if owed and m.label == "number":
            out.append(Mark("value", m.s, m.e, m.w, dict(m.v), "count in that order"))
            last = "value"
            owed -= 1
            i += 1
            continue
        ordered = _listed_in_order(r, i)
        if ordered:
            out.append(ordered[0])
            last = "cols"
            owed = len(ordered[0].v["ids"])
            i = ordered[1]
            continue
        bare = _bare_run(r, i)
        if bare:
            out.append(bare[0])
            last = "cols"
            i = bare[1]
            continue
        halves = _two_halves(r, i)
        if halves:
            out.extend(halves[0])
            last = "value"
            i = halves[1]
            continue
        values = _value_list(r, i)
        if values:
            out.extend(values[0])
            last = "value"
            i = values[1]
            continue
        start = i
        if m.label in ("hive", "hives") and not m.v.get("counts"):
            k = i + 1
            while k < n and row[k].label == "hive":
                k += 1
            nxt = r.at(k)
            if nxt and (nxt.label == "colony" or (nxt.label == "number" and _whole(nxt))):
                start = k
            else:
                out.append(m)
                i += 1
                continue
        m = row[start]
        if m.label == "colony" or (m.label == "number" and (start > i or _is_colony(r, start, last))):
            cols, j = _list(r, start, i)
            out.append(cols)
            r.last_ids = cols.v["ids"]
            last = "cols"
            i = j
            continue
        if m.label == "number":
            converted = _value(r, i, last)
            out.append(converted)
            if converted.label == "value":
                last = "value"
            i += 1
            continue
        out.append(m)
        i += 1
    return out


def _whole(m: Mark) -> bool:
    number: Number = m.v["n"]
    return number.whole and 1 <= number.value <= 9999 and not number.approx


def _id(m: Mark) -> str:
    return str(int(m.v["n"].value))


def _paired_run(r: _Row, i: int) -> tuple[Mark, int] | None:
    """ "70 71 72: 1 1 6": a run of numbers before a colon and as many after it are colonies."""
    run: list[Mark] = []
    j = i
    if i < r.no_pairs_until or r.row[i].label not in ("number", "colony"):
        return None
    while len(run) < REACH and (m := r.at(j)) and (m.label == "colony" or (m.label == "number" and _whole(m))):
        run.append(m)
        j += 1
        if (c := r.at(j)) and c.label == "comma":
            j += 1
    if len(run) < 2:
        return None
    ordered = _in_that_order(r, i)
    if ordered is not None:
        half = ordered // 2
        ids = run[:half]
        if (
            ordered % 2 == 0
            and half >= 2
            and len(run) >= half
            and all(x.label == "colony" or r.outfit.could_be(_id(x)) for x in ids)
        ):
            end = i
            seen = 0
            while seen < half:
                seen += r.row[end].label in ("number", "colony")
                end += 1
            named = [x.v["value"] if x.label == "colony" else _id(x) for x in ids]
            return Mark(
                "cols", ids[0].s, ids[-1].e, " ".join(x.w for x in ids), {"ids": named, "bare": True}, "colonies"
            ), end
    if ordered is None and len(run) < REACH and (not (m := r.at(j)) or m.w not in (":", "=")):
        r.no_pairs_until = max(i, j - 1)
    if not (m := r.at(j)) or m.w not in (":", "=") or ((b := r.at(r.back(i))) and b.w in (":", "=")):
        return None
    if not all(x.label == "colony" or r.outfit.could_be(_id(x)) for x in run):
        return None
    count = 0
    k = j + 1
    while count <= len(run) and (m := r.at(k)) and m.label in ("number", "comma", "mites", "w"):
        if m.label == "w" and m.w != "and":
            break
        count += m.label in ("number", "mites")
        k += 1
    if count != len(run) or ((m := r.at(k)) and m.w in (":", "=")):
        return None
    named = [x.v["value"] if x.label == "colony" else _id(x) for x in run]
    return Mark(
        "cols",
        run[0].s,
        run[-1].e,
        " ".join(x.w for x in run),
        {"ids": named, "bare": run[0].label == "number"},
        "colonies",
    ), j


def _bare_run(r: _Row, i: int) -> tuple[Mark, int] | None:
    """ "71 73 76 hop strips 2 each": numbers that rise, at the start of a statement, before what was done to them."""
    m = r.at(i)
    if not m or m.label != "number" or not _whole(m):
        return None
    spoken = not m.v["n"].digits
    p = r.at(r.back(i))
    if not (
        p is None
        or p.label in ("stop", "line", "comma", "yard", "method", "change", "each")
        or p.w in BULLETS
        or p.w in ("on", "in", "into", "from", "of", "and", ":")
        or (p.w == "are" and _sentence_has(r, i, "change"))
    ):
        return None
    j = i
    if (p is None or p.label == "line") and (b := r.at(i + 1)) and b.s - m.e > 1:
        return None  # columns of a table
    run: list[Mark] = []
    while (
        (m := r.at(j))
        and m.label == "number"
        and _whole(m)
        and r.outfit.could_be(_id(m))
        and (not run or m.v["n"].value > run[-1].v["n"].value)
    ):
        run.append(m)
        j += 1
    if (
        run
        and (c := r.at(j))
        and c.w == "and"
        and (m := r.at(j + 1))
        and m.label == "number"
        and _whole(m)
        and m.v["n"].value > run[-1].v["n"].value
        and r.outfit.could_be(_id(m))
        and len(run) > 1
    ):
        run.append(m)  # "2 4 and 5 strong"
        j += 2
    if len(run) < 2 or (spoken and len(run) < 3):
        return None
    q = r.at(r.on(j - 1))
    if spoken and (
        q is None
        or q.label
        not in ("agent", "form", "item", "feed", "method", "each", "amount", "verb", "fact", "queen_work", "change")
        or len({r.outfit.ids.get(_id(x), ("?",)) for x in run}) > 1
    ):
        return None
    if q is not None and q.label == "method" and q.w.endswith("s"):
        pass  # "46 48 50 53 alcohol washes, all clean"
    elif p is not None and p.w == ":" and (r.checking or not (q is None or q.label in ("line", "stop", "comma"))):
        return None
    if r.checking and not (
        q and q.label in ("each", "agent", "item", "feed", "form", "fact", "change", "queen_work", "method", "amount")
    ):
        return None
    if q and q.label in ("number", "days", "hives", "unit", "mites"):
        return None
    return Mark(
        "cols",
        run[0].s,
        run[-1].e,
        " ".join(x.w for x in run),
        {"ids": [_id(x) for x in run], "bare": True},
        "colonies",
    ), j


def _listed_in_order(r: _Row, i: int) -> tuple[Mark, int] | None:
    """ "one three five eight and nine in that order they were …": colonies, where as many counts follow."""
    if i < r.no_order_until or r.row[i].label not in ("number", "colony"):
        return None
    run: list[Mark] = []
    j = i
    while len(run) < REACH and (m := r.at(j)) and (m.label in ("number", "colony", "comma") or m.w == "and"):
        if m.label in ("number", "colony"):
            run.append(m)
        j += 1
    if len(run) < 2 or not (m := r.at(j)) or m.w != "in" or not (m := r.at(j + 1)) or m.w not in ("that", "order"):
        return None
    if not all(x.label == "colony" or (_whole(x) and r.outfit.could_be(_id(x))) for x in run):
        return None
    k = j
    counts = 0
    while (
        k < i + 3 * REACH
        and (m := r.at(k))
        and m.label in ("w", "pronoun", "comma", "filler", "number", "mites", "clean", "verb")
    ):
        counts += m.label in ("number", "mites", "clean")
        k += 1
    if counts < len(run):
        return None
    named = [x.v["value"] if x.label == "colony" else _id(x) for x in run]
    return Mark("cols", run[0].s, run[-1].e, " ".join(x.w for x in run), {"ids": named, "bare": True}, "colonies"), j


def _in_that_order(r: _Row, i: int) -> int | None:
    """How many numbers stand from `i` to "in that order"; None where nothing says so."""
    if i < r.no_order_until:
        return None
    count = 0
    k = i
    while k < i + 3 * REACH and (m := r.at(k)) and m.label not in ("line", "stop"):
        if m.w == "respectively" or (
            m.w == "in"
            and (a := r.at(k + 1))
            and a.w in ("that", "order")
            and (a.w == "order" or ((b := r.at(k + 2)) and b.w == "order"))
        ):
            return count
        if m.label in ("number", "colony", "mites", "clean"):
            count += 1
        elif m.label not in ("comma", "filler", "w", "method", "each", "sample", "feed", "pronoun", "date", "verb"):
            break
        k += 1
    if k < i + 3 * REACH:
        r.no_order_until = k
    return None


def _two_halves(r: _Row, i: int) -> tuple[list[Mark], int] | None:
    """ "washed 62 and 63, 4 and 11 mites": as many colonies as counts, "and" within each half, a comma between."""
    run = [r.at(i + k) for k in range(8)]
    if any(m is None for m in run[:8]) or not r.checking:
        return None
    a, j1, b, comma, c, j2, d = run[:7]
    assert a and j1 and b and comma and c and j2 and d
    if (
        a.label == b.label == c.label == "number"
        and j1.w == j2.w == "and"
        and comma.label == "comma"
        and d.label in ("mites", "number")
        and all(_whole(x) and r.outfit.could_be(_id(x)) for x in (a, b))
    ):
        cols = Mark("cols", a.s, b.e, f"{a.w} and {b.w}", {"ids": [_id(a), _id(b)], "bare": True}, "colonies")
        counts = [Mark("value", x.s, x.e, x.w, dict(x.v), "count in that order") for x in (c, d)]
        return [cols, comma, *counts], i + 7
    return None


def _value_list(r: _Row, i: int) -> tuple[list[Mark], int] | None:
    """ "1, 2, 0, 4, 7 mites": a list of counts that ends in "mites"."""
    m = r.at(i)
    if not m or m.label != "number" or i < r.no_values_until:
        return None
    found: list[Mark] = []
    j = i
    while len(found) < REACH and (m := r.at(j)) and m.label == "number":
        found.append(Mark("value", m.s, m.e, m.w, dict(m.v), "count in a list"))
        j += 1
        seen_join = False
        while (c := r.at(j)) and (c.label == "comma" or c.w == "and"):
            j += 1
            seen_join = True
        if not seen_join:
            r.no_values_until = j
            return None
    if len(found) < REACH and (not m or m.label != "mites"):
        r.no_values_until = j
    if m and m.label == "mites" and len(found) >= 1:
        if len(found) == 1:
            # "12 and 3 mites": one number before is more likely a colony, unless it cannot be one.
            if r.outfit.could_be(_id(found[0])) and found[0].v["n"].value >= 1:
                return None
        return found, j
    return None


def _is_colony(r: _Row, i: int, last: str) -> bool:
    m = r.row[i]
    if not _whole(m):
        return False
    number = m.v["n"]
    p, q = r.at(r.back(i)), r.at(r.on(i))
    pp = r.at(r.back(r.back(i))) if p else None
    if p and p.label == "hive":
        return True
    if not r.outfit.could_be(_id(m)):
        # a number the roster does not have: a colony only where it is plainly spoken of as one (it is then asked about)
        plain = q is not None and (
            q.w in ("has", "had", "is", "needs", "gets", "swarmed")
            or (q.label == "fact" and (p is None or p.label == "line"))
        )
        return (
            plain
            and number.value < 1000
            and _starts_here(r, i, p, last)
            and last != "cols"
            and (p is None or p.label in ("stop", "line", "comma", "yard", "filler") or p.w == ":")
        )
    if m.w.split()[0] in ("a", "couple", "half", "dozen"):
        return False
    if q and q.label == "queen_work" and q.w.split()[0] in ("grafted", "banked", "grafts", "queens"):
        return False  # "28 grafted out of QB"
    if (q and q.w == "/") or (p and p.w == "/"):
        return False
    if q and q.w == "%":
        return False
    if p and p.w in ("or", "maybe") and last == "value" and pp and "n" in pp.v:
        return False
    if p and p.label == "cue" and p.v.get("cue") == "correct" and last == "value":
        return bool(
            q
            and (
                q.w in r.subject_verbs
                or q.label in ("value", "clean", "mites")
                or (q.label == "number" and (q.v["n"].value == 0 or number.value > 20))
            )
            and q.w != "and"
        )
    if p and p.label == "ordinal" and number.value == 1:
        return False
    if p and p.label == "yard" and q and q.w == "and" and (z := r.at(r.on(r.on(i)))) and z.label in ("sky", "temp"):
        return False  # "millpond 52 and clear"
    if p and p.w in (":", "=") and last == "cols":
        return False
    if (
        m.w == "one"
        and not _range_here(r, i)
        and not (
            q
            and (q.w in _RANGE or q.label in ("number", "comma") or q.w == "and")
            and (
                p is None
                or p.w in _PREPS
                or p.w in ("and", "then")
                or p.label in ("verb", "check", "method", "every", "each", "yard", "filler")
            )
        )
        and p
        and p.label not in ("hive", "cols", "value", "mites")
        and not (p.label in ("method", "line") and r.checking)
    ):
        return False
    if p and (p.w == "both" or p.label == "filler"):
        p = pp
    if (
        number.value == 1
        and p
        and p.label == "w"
        and p.w in ("old", "new", "that", "this", "the", "last", "next", "other", "big", "bad", "each", "every")
    ):
        return False
    if p and p.label == "comma" and pp and pp.label == "yard":
        p = pp
    if p and p.label == "verb" and p.v.get("does") == "do" and q and q.label in ("method", "check"):
        return False
    if (
        p
        and p.label == "cue"
        and p.v.get("cue") in ("not", "plan")
        and p.w.split()[-1] in ("to", "do", "on", "for", "with", "left", "missed", "skipped", "skip")
    ):
        return not (q and (q.label in _NP or q.label == "days"))
    if p and p.label == "cue" and p.w == "not" and last == "cols":
        return True
    if (
        p
        and p.label == "cue"
        and p.v.get("cue") == "if"
        and q
        and q.label in ("w", "verb", "fact", "change", "method", "cue")
        and q.w not in ("of", "to", "or")
    ):
        return True
    after = _after_list(r, i)
    if (
        (p is None or p.label in ("stop", "line"))
        and after is not q
        and after is not None
        and after.label in ("agent", "item", "feed", "form")
        and number.value > 4
    ):
        return True
    ranged = (
        q is not None
        and q.w in _RANGE
        and (z := r.at(r.on(r.on(i)))) is not None
        and z.label == "number"
        and _whole(z)
        and z.v["n"].value > number.value
        and r.outfit.could_be(_id(z))
    )
    if (
        ranged
        and (
            p is None
            or (p.label == "change" and p.v.get("step") in ("sold", "bought", "moved", "split"))
            or p.label in ("date", "stop", "line", "comma", "yard", "each", "filler", "queen_work", "item", "days")
        )
        and (not r.checking or (p is not None and p.label == "change"))
    ):
        return True  # "the cells go in this Friday | forty through forty five"
    if (
        p
        and p.label == "yard"
        and number.value > 4
        and number.digits
        and q
        and q.label in ("item", "agent", "form", "feed")
        and not (q.label == "item" and q.w.endswith("s"))
    ):
        return True
    if (
        q
        and q.label == "item"
        and not q.w.split()[0].endswith("s")
        and number.value > 9
        and _starts_here(r, i, p, last)
        and not (p and p.label == "verb")
    ):
        return True  # "seventy four super on as well"
    if (
        p
        and p.label == "line"
        and number.digits
        and number.value > 10
        and q
        and q.label in ("agent", "item", "feed")
        and not _placed_later(r, i)
    ):
        return True  # a row "45 vadescana in"
    if (
        q
        and q.label in ("each", "item", "agent", "form", "feed", "queen_noun", "hives")
        and not (
            p
            and number.value > 4
            and ((p.label == "verb" and p.v.get("does") == "feed") or p.w in ("gave", "give", "gets", "hit", "giving"))
        )
    ):
        return False
    if (
        last == "cols"
        and r.checking
        and p
        and p.label == "w"
        and p.w in ("also", "too", "only", "just", "still", "again", "another")
    ):
        return False
    if p and p.w in ("that's", "it's", "its") and (q is None or q.w == "now" or q.label in ("stop", "line")):
        return True
    if p and p.w in ("up", "in", "out") and pp and pp.w.split()[0] in ("came", "comes"):
        return False
    if (
        p
        and p.w in ("under", "over", "above", "below")
        and any(x.label == "cue" and x.v.get("cue") == "if" for x in r.row[max(0, i - 12) : i])
    ):
        return False  # "if the next one isn't under 30"
    if p and p.w == "as" and _sentence_has(r, i, "change"):
        return True
    if p and p.w == "is" and pp and pp.w == "it" and q and q.w == "now":
        return True
    if q and q.label == "form" and q.v.get("treats") and q.w.endswith("ed") and _starts_line(r, i):
        return True
    if p and p.w == "me" and pp and pp.w.split()[0] in ("gave", "got"):
        return False
    if p and p.label == "cue" and p.v.get("cue") == "report" and r.checking:
        return False
    if (
        p
        and p.w == "and"
        and q
        and q.label == "date"
        and any(x.label == "cue" and x.v.get("cue") == "plan" for x in r.row[max(0, i - 12) : i])
    ):
        return True  # "gotta wash fifty nine in ten days and | sixty two in a month"
    if r.checking and last == "value" and q and q.label == "comma" and _sample_next(r, i):
        return True
    if (
        r.checking
        and q
        and q.w in ("on", "in", "for")
        and last != "cols"
        and number.value < 400
        and (z := r.at(r.on(r.on(i))))
        and z.label in ("colony", "hive", "number")
        and p
        and p.label != "hive"
        and not (p.label == "w" and p.w in _PREPS)
    ):
        return False  # "fifty mites on L30 and | ninety on L29"
    if last == "cols" and r.checking and p and p.w in ("and", "um", "then") and q and q.w == "on":
        return False
    if (
        p
        and p.w == ":"
        and pp
        and pp.label in ("yard", "date")
        and not r.checking
        and _alone_or_listed(r, i)
        and (pp.label == "date" or _id(m) in r.outfit.yard_ids.get(pp.v["value"], ()))
    ):
        return True  # a row "Quarry: 2", "Cut Bank: 50 to 54", "26 March: 75 and 76 from …"
    if p and p.label == "item" and p.w.endswith("ed") and (q is None or q.label in ("stop", "line", "comma")):
        return True  # "unwrapped 5"
    if (p is None or p.label == "line") and number.digits and q and q.label == "comma":
        z = r.at(r.on(r.on(i)))
        if z and z.label == "fact" and "n" in z.v:
            return True  # "9, 8 FOB"
    if p and p.label == "cue" and p.w == "should" and pp is None and q and q.label in ("verb", "w", "fact", "change"):
        return True  # "should 9 go queenless"
    if number.digits and _range_here(r, i) and _each_after_range(r, i):
        return True  # "at pond: 1-12 2 ea"
    if q and q.w == ")" and number.digits and _starts_line(r, i):
        return True  # "70) queen right"
    if (
        p
        and p.w == ":"
        and pp
        and pp.label in ("fact", "change")
        and not r.checking
        and _starts_line(r, r.back(r.back(i)))
    ):
        return _alone_or_listed(r, i)  # "heavy: 1, 2, 7, 8", "dead: 11 (mice)"
    if p and p.w == "is" and pp and pp.w == "half" and _sentence_has(r, i, "change"):
        return True  # "split it, the other half is 79"
    if (
        p
        and p.label in ("form", "agent", "item", "feed")
        and number.digits
        and _range_here(r, i)
        and (after is None or after.label in ("line", "stop", "yard", "comma", "date", "w"))
    ):
        return True  # "pulled strips 45-52 cut bank"
    if q and q.w == "through" and _range_here(r, i) and r.outfit.could_be(_id(r.row[r.on(r.on(i))])):
        beyond = r.at(r.on(r.on(r.on(i))))
        if beyond is None or beyond.label not in ("days", "percent", "degrees", "amount"):
            return True  # "I got one through twelve wrapped"
    if (
        q
        and q.label == "method"
        and q.w.endswith("es")
        and not q.v.get("verb")
        and (p is None or p.label in _GLUE or p.label in ("line", "stop", "filler"))
    ):
        return False  # "five alcohol washes"
    if r.checking and q and q.label == "mites" and last != "cols" and p and p.w in ("was", "were", "are", "is"):
        return True  # "sugar rolls at cut bank were | forty six twelve mites"
    if p and p.label == "filler" and last == "cols" and r.last_ids == [_id(m)]:
        return True  # "twenty one was um twenty one was seven"
    if p and p.w in ("they're", "theyre") and _sentence_has(r, i, "change"):
        return True  # "moved … they're seventy and seventy two now"
    if p and p.w == "that's" and q and q.label == "number" and _whole(q) and _rises_to(r, i, q):
        return True  # "the little ones, that's forty forty one and forty seven"
    if p and p.label == "thing" and p.w.endswith("ones") and q and q.w == "and":
        return True  # "the two little ones forty eight and forty nine"
    if (
        p
        and p.w in ("are", "is")
        and _sentence_has(r, i, "change")
        and ((after is not None and after.w in ("at", "now", "there")) or (pp is not None and pp.w == "they"))
    ):
        return True  # "the two hives I bought are sixteen and seventeen at the quarry now"
    if (
        q
        and q.w in ("into", "with")
        and p
        and (p.w in ("and", "then") or p.label in ("comma", "change", "line") or p.w == ":")
        and (_sentence_has(r, i, "change"))
    ):
        return True  # "split 45 into 58 and 46 into 59"
    if (p is None or p.label == "line") and number.digits and q and q.s - m.e > 1 and q.label not in ("stop", "days"):
        return True  # a row "6    escape on"
    if p and (p.w in BULLETS or p.w == ":") and number.digits and after is not q and after and after.label == "verb":
        return after.v.get("tense") == "past"  # "3 April – 1, 2 and 3 fed"
    if p and p.w == "over" and pp and (pp.label == "fact" or pp.w == "all"):
        return True  # "wasps all over seventy seven"
    if p and p.w == "(" and q and q.w == ")" and last != "cols" and pp and pp.label == "change":
        return True  # "1 dead (14)"
    if p and p.w == ":" and q and q.label == "comma" and after and after.label in ("amount", "unit"):
        return True  # "fondant on: 7, 8, 10 a kilo each"
    if (
        (p is None or p.label == "line")
        and number.digits
        and number.value > 10
        and q
        and q.label == "w"
        and q.w.isalpha()
        and (z := r.at(r.on(r.on(i))))
        and z.label == "comma"
        and (y := r.at(r.on(r.on(r.on(i)))))
        and y.label == "fact"
    ):
        return True  # "52 hopeless, laying workers"
    if p and p.w == "now" and (q is None or q.w == "there") and _sentence_has(r, i, "change"):
        return True  # "swarm caught at Wen's, now 79"
    if p and p.w in (":", ",") and pp and pp.label == "yard" and q and q.label == "change" and q.w in _DEAD:
        # "Millpond: 3 dead" is a number of hives, "Aunt Wen's: 71 dead" one that a yard of ten can only have as an id
        return bool(number.value > len(r.outfit.yard_ids.get(pp.v["value"], ())) > 0)
    if q and q.label == "days" and q.w.split()[0] == "same":
        return True  # "sixty three same twenty four hours"
    starts = _starts_here(r, i, p, last)
    subject = _subject_follows(r, i, _after_list(r, i))
    if p is not None:
        if p.label == "same" or (p.label == "cue" and p.v.get("cue") == "except"):
            return True
        if p.label == "w" and p.w in r.before_value and p.w != "with" and p.w != "to" and p.w != "at":
            return p.w in ("gave", "give", "given") and q is not None and q.label != "stop"
        if p.label == "verb" and p.w in ("given", "giving"):
            return q is not None and (q.label in ("number", *_NP) or q.w in ("a", "an", "the", "some", "its"))
        if p.label == "verb" and p.w in ("got", "gave", "gets", "get", "found", "counted"):
            beyond = _after_list(r, i)
            return (
                p.w in ("gave", "gets", "get")
                and beyond is not None
                and beyond.label not in ("stop", "line", "comma")
                and not (r.checking and beyond is q)
            )
        if p.label == "w" and p.w == "at":
            return bool(pp and pp.label == "fact")  # "robbing at fifty five"
        if p.label == "w" and p.w == "with":
            return _sentence_has(r, i, "change")
        if p.label == "w" and p.w == "to":
            if pp and (pp.w in _COUNT_UP or (pp.label != "line" and pp.w.split()[-1] in _COUNT_UP)):
                return False
            return _sentence_has(r, i, "change", "queen_work") or bool(
                pp and pp.label in ("verb", "pronoun", "queen_noun", "feed", "item", "form", "agent", "cols")
            )
        if (p.label == "w" and p.w in _PREPS) or (
            p.label in ("w", "verb") and p.w.split()[-1] in ("in", "into", "on") and p.label == "verb"
        ):
            if q and q.label in ("days", "degrees", "hives"):
                return p.w == "under" and pp is not None and pp.label == "method"  # "the board under 74 for two days"
            if (
                p.w == "in"
                and number.value in (100, 200, 300, 400, 500, 600)
                and (last == "value" or not r.outfit.known)
            ):
                return False
            return not (p.w == "of" and number.value >= 100 and not r.outfit.known)
        if (
            p.label == "method"
            and pp
            and ((pp.label == "cue" and pp.v.get("cue") in ("plan", "not")) or pp.w in ("i", "we", "to"))
        ):
            return True
        if p.label == "method" and p.w.split()[-1] in ("washes", "rolls", "tests", "counts", "shakes"):
            return True  # "alcohol washes sixty one one sixty two none"
        if p.label == "method" or p.label == "check":
            return last != "cols" or (p.v.get("verb", False) and p.w.endswith("ed"))
        if p.label == "verb" and p.w.split()[-1] in ("off", "out") and p.w.split()[0] in ("come", "comes", "came"):
            return True  # "supers come off 51 and 52 friday"
        if p.label == "verb":
            if p.v.get("does") == "do" and q and q.w == "to" and z_rises(r, i):
                return True  # "doing 13 to 18 saturday"
            if p.v.get("does") in ("treat", "inspect", "feed", "do"):
                return not (q and q.label in _NP and p.v.get("does") != "feed") and not (q and q.w in ("to", "of"))
            return subject and (
                p.v.get("dir") is None or (after is not None and after.w in ("had", "has", "was", "is", "are", "were"))
            )
        if p.label in ("agent", "form"):
            return not (q and (q.label in ("each", *_NP) or q.w in ("in", "on", "into", "per", "to", "for"))) and (
                p.label == "agent" or bool(p.v.get("treats"))
            )
        if p.label in ("queen_work", "change"):
            if p.v.get("step") in ("sold", "bought") and (q is None or q.label in ("stop", "line", "comma")):
                return True
            if p.w.split()[-1] in ("of", "from", "off"):
                return True
            if p.v.get("step") == "cells_placed" and p.w.split()[-1] in ("in", "into") and not (q and q.label in _NP):
                return True  # "ripe cells go in seventy one"
            return not (q and q.label in ("queen_noun", "noun", *_NP)) and not (
                p.v.get("step")
                in ("grafted", "caught", "banked", "sold", "bought", "nuc_made", "swarm_caught", "cells_placed")
                and not subject
            )
        if (
            p.label in ("item", "feed")
            and q
            and q.label in ("comma", "line", "stop", "w")
            and q.w not in ("in", "on", "each")
        ):
            return starts and q.label != "w"
        if p.label == "yard" and not (q and q.label in _NP and q.label != "noun"):
            return True
    if starts and subject:
        return True
    if r.checking and starts and last != "cols":
        return q is not None and (
            q.label in ("number", "mites", "clean", "percent", "verb", "sample")
            or (q.label == "cue" and q.v.get("cue") in ("not", "plan", "correct"))
            or q.w in r.before_value
            or q.w in (":", "=", "-")
        )
    return False


def _range_here(r: _Row, i: int) -> bool:
    """Whether a rising range begins at the number ("one through six")."""
    q, z = r.at(r.on(i)), r.at(r.on(r.on(i)))
    return (
        q is not None
        and q.w in ("through", "-", "–")
        and z is not None
        and z.label == "number"
        and _whole(z)
        and z.v["n"].value > r.row[i].v["n"].value
    )


def _rises_to(r: _Row, i: int, q: Mark) -> bool:
    """Whether `q` is a greater number that can be a colony's."""
    return bool(q.v["n"].value > r.row[i].v["n"].value) and r.outfit.could_be(_id(q))


def _placed_later(r: _Row, i: int) -> bool:
    """Whether "in" or "on" with a colony follows in the line, so that the number counts things."""
    k = i + 1
    while k < len(r.row) and k < i + REACH and r.row[k].label not in ("line", "stop"):
        if (
            r.row[k].w in ("in", "on", "into", "to")
            and k + 1 < len(r.row)
            and r.row[k + 1].label in ("number", "colony", "hive", "hives")
        ):
            return True
        k += 1
    return False


def z_rises(r: _Row, i: int) -> bool:
    """Whether the number after the next mark is a colony's and greater than this one."""
    z = r.at(r.on(r.on(i)))
    return (
        z is not None
        and z.label == "number"
        and _whole(z)
        and z.v["n"].value > r.row[i].v["n"].value
        and r.outfit.could_be(_id(z))
    )


def _each_after_range(r: _Row, i: int) -> bool:
    """Whether a number "each" follows the range that begins at `i`."""
    k = r.on(r.on(r.on(i)))
    m, n = r.at(k), r.at(r.on(k))
    return m is not None and m.label == "number" and n is not None and n.label == "each"


def _alone_or_listed(r: _Row, i: int) -> bool:
    """Whether the number stands alone in its row, or begins a list or range with nothing counted after it."""
    after = _after_list(r, i)
    return after is None or after.label in ("line", "stop", "comma", "w")


def _sample_next(r: _Row, i: int) -> bool:
    """ "17, half cup, 1 mite": a sample and a count in their own cells make the number a colony."""
    cells: list[str] = []
    k = r.on(i)
    while len(cells) < 4 and (m := r.at(k)) and m.label in ("comma", "sample", "method", "mites", "clean", "value"):
        cells.append(m.label)
        k = r.on(k)
    return cells[:2] in (["comma", "sample"], ["comma", "method"]) and cells[2:] in (
        ["comma", "mites"],
        ["comma", "clean"],
        ["comma", "value"],
    )


def _sentence_has(r: _Row, i: int, *labels: str) -> bool:
    j = i - 1
    while j >= max(0, i - 2 * REACH) and r.row[j].label not in ("stop", "line", "question"):
        if r.row[j].label in labels:
            return True
        j -= 1
    return False


def _starts_here(r: _Row, i: int, p: Mark | None, last: str) -> bool:
    """Whether a new statement may begin at mark `i`."""
    if p is None or p.label in (
        "stop",
        "line",
        "comma",
        "question",
        "mites",
        "clean",
        "percent",
        "value",
        "cue",
        "fact",
        "sample",
        "temp",
        "sky",
        "date",
        "days",
        "each",
        "pronoun",
        "every",
        "yard",
        "amount",
        "unit",
        "harvest",
        "heading",
        "method",
        "cols",
        "particle",
        "feed",
        "round",
        "person",
        "clock",
        "noun",
        "thing",
    ):
        return True
    if p.w in BULLETS:
        return True
    if p.label == "number" and last == "value":
        return True
    if p.label in ("number", "colony") and last == "cols":
        q = r.at(r.on(i))
        if (
            q is not None
            and q.w in ("had", "has", "was", "is", "got")
            and (z := r.at(r.on(r.on(i))))
            and (z.label in ("number", "mites", "clean", "fact"))
        ):
            return True  # "no wash on eight | fifteen had twenty seven"
        return not r.checking or (q is not None and q.label in ("cue", "change", "fact", "clean", "mites"))
    if r.row[i - 1].label in _GLUE:
        return True
    if p.label == "change" and p.v.get("step") in ("died", "swarmed"):
        return True
    if p.label == "item" or p.label == "form":
        return True
    return p.label == "w" and (
        p.w in _BOUNDARY_WORDS
        or not p.w.isalpha()
        or p.w
        not in _PREPS
        | {"the", "a", "an", "about", "at", "to", "with", "by", "another", "these", "those", "than", "over", "under"}
    )


def _subject_follows(r: _Row, i: int, q: Mark | None) -> bool:
    if q is not None and q.label == "w" and q.w in ("at", "in", "over", "out", "down", "up"):
        # "twelve and fourteen at the pond have robbing"
        k = next(n for n in range(i, len(r.row)) if r.row[n] is q) + 1
        while (m := r.at(k)) and m.label == "w" and m.w in ("at", "the", "in", "by"):
            k += 1
        if m is not None and m.label == "yard":
            q = r.at(r.on(k))
    if q is None:
        return False
    if q.w in (":", "=", "'", "'s", "|"):
        return True
    if q.w in BULLETS:
        place = next(n for n in range(i, len(r.row)) if r.row[n] is q)
        far = r.at(r.on(place))  # "40 - 2" is a colony and a count, "40-44" a range
        here = r.row[i]
        rising = (
            far is not None
            and far.label == "number"
            and here.label == "number"
            and far.v["n"].value > here.v["n"].value
        )
        return far is None or far.label != "number" or (not rising and _starts_line(r, i))
    if q.label == "change" and q.w.split()[0] in _UNITS_MADE:
        return False  # "8 splits made"
    if q.label in ("fact", "change", "clean", "mites", "percent", "queen_work", "same", "check"):
        return True
    if q.label == "cue":
        return q.v.get("cue") in ("not", "plan") and q.w not in ("no", "without")
    if q.w in ("the", "her", "its", "their"):
        k = next(n for n in range(i, len(r.row)) if r.row[n] is q)
        third = r.at(r.on(k))
        return third is not None and third.label in ("fact", "queen_noun", "item")
    if q.label == "w" and q.w not in ("i", "we", "he", "she"):
        return q.w in r.subject_verbs
    if q.label == "verb":
        return q.w.split()[0] in r.subject_verbs
    if q.label == "noun":
        return q.v.get("noun") == "nuc" and not q.w.endswith("s")
    if q.label == "method":
        return True
    if q.label in ("every", "pronoun") and q.w.split()[0] in ("all", "both", "neither"):
        return True
    if q.w in ("i", "we", "he", "she"):
        place = next(n for n in range(i, len(r.row)) if r.row[n] is q)
        third = r.at(r.on(place))
        nearby = [x for x in r.row[place + 1 : place + 5] if x.label == "cue" and x.v.get("cue") in ("not", "plan")]
        return third is not None and (
            bool(nearby)
            or third.label in ("queen_work", "verb", "change", "method", "fact")
            or (
                third.label != "line"
                and third.w.split()[0]
                in ("got", "counted", "found", "did", "never", "have", "haven't", "plan", "want", "had", "will")
            )
        )
    if q.label == "number" and not r.checking:
        third, fourth = r.at(r.on(r.on(i))), r.at(r.on(r.on(r.on(i))))
        return bool(third and third.w == "no" and fourth and fourth.label == "fact")  # "72 five no six swarm cells"
    if q.label == "number" and r.checking:
        third = r.at(r.on(r.on(i)))
        return third is None or third.label not in _NP or third.label == "noun"
    return False


def _starts_line(r: _Row, i: int) -> bool:
    p = r.at(r.back(i))
    return p is None or p.label == "line" or p.w in BULLETS or p.label in ("hive", "hives")


def _after_list(r: _Row, i: int) -> Mark | None:
    """The mark after the list of bare numbers that begins at `i`."""
    k = r.on(i)
    while True:
        m = r.at(k)
        if k > i + 2 * REACH or m is None or not (m.label == "comma" or m.w in _JOIN or (m.w in _RANGE and m.w != "-")):
            if (
                m is not None
                and m.w in BULLETS | {"-", "–"}
                and (f := r.at(r.on(k)))
                and f.label == "number"
                and _whole(f)
                and f.v["n"].value > r.row[i].v["n"].value
            ):
                k = r.on(r.on(k))
                continue
            return m
        j = r.on(k)
        while (x := r.at(j)) and (x.label == "comma" or x.w in _JOIN):
            j = r.on(j)
        x = r.at(j)
        if x is None or x.label != "number" or not _whole(x) or not r.outfit.could_be(_id(x)):
            return m
        k = r.on(j)


def _list(r: _Row, i: int, first: int) -> tuple[Mark, int]:
    """The list or range of colonies that begins at mark `i` (its hive word at `first`)."""
    row = r.row
    ids: list[str] = []
    bare = row[i].label == "number"
    letter = _letter(row[i])
    explicit = first < i or not bare
    before = r.at(r.back(first))
    after_same = bool(before and before.label == "same")
    governed = bool(before and (before.label in ("verb", "method", "same") or before.w in _PREPS))
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
            and (sign.w in _RANGE)
            and far.label in ("colony", "number")
            and (far.label == "colony" or _whole(far))
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
            or c.w in _JOIN
            or c.label == "filler"
            or (c.w == "nor" and before is not None and before.w.startswith("neither"))
            or (c.label == "hive" and (joined or (k == j + 1 and first < i and (not r.checking or _goes_on(r, k)))))
            or (joined and before is not None and before.label == "w" and c.w == before.w and c.w in _PREPS)
        ):
            joined = joined or c.label == "comma" or c.w in _JOIN or c.w == "nor"
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
            and (_sentence_has(r, first, "change"))
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
        if c.label == "number" and _whole(c) and joined and _extends(r, k, letter):
            j = k
            continue
        if c.label == "number" and _whole(c) and k == j + 1 and (run := _spoken_run(r, j, k, letter)) is not None:
            for x in run[:-1]:
                ids.append(_as_id(row[x], letter, r.outfit))
            j = run[-1]
            continue
        if (
            c.label == "number"
            and _whole(c)
            and k == j + 1
            and not r.checking
            and _extends(r, k, letter)
            and not letter
        ):
            q = r.at(k + 1)
            if q is None or q.label in ("stop", "line", "comma", "number") or q.w == "and":
                j = k
                continue
        break
    s = row[first].s
    text = " ".join(x.w for x in row[first : end + 1])
    return Mark("cols", s, row[end].e, text, {"ids": ids, "bare": bare, "hive": first < i}, "colonies"), end + 1


def _goes_on(r: _Row, k: int) -> bool:
    """Whether the hive named at `k` is one of a list: after it comes "and", a comma, another hive or the end."""
    number = r.at(r.on(k))
    after = r.at(r.on(r.on(k)))
    return (
        number is not None
        and number.label in ("number", "colony")
        and (after is None or after.label in ("hive", "comma", "stop", "line") or after.w == "and")
    )


def _spoken_run(r: _Row, j: int, k: int, letter: str) -> list[int] | None:
    """ "ten | eleven and twelve": numbers without commas that rise and end in "and": the indexes from `k` on."""
    found: list[int] = []
    last = _number_in(r.row[j])
    while (m := r.at(k)) and m.label == "number" and _whole(m) and m.v["n"].value > last and r.outfit.could_be(_id(m)):
        found.append(k)
        last = m.v["n"].value
        k += 1
        if (
            (c := r.at(k))
            and c.w == "and"
            and (m := r.at(k + 1))
            and m.label == "number"
            and _whole(m)
            and m.v["n"].value > last
            and r.outfit.could_be(_id(m))
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
    bare = _id(m)
    if letter and (not outfit.known or f"{letter}{bare}" in outfit.ids):
        return f"{letter}{bare}"
    return bare


def _extends(r: _Row, k: int, letter: str) -> bool:
    """Whether the number at `k`, after a comma or "and", goes on with the list of colonies."""
    m = r.row[k]
    bare = _id(m)
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


def _value(r: _Row, i: int, last: str) -> Mark:
    """The number as a count of mites or a sample size where it must be one, else as it is."""
    m = r.row[i]
    number: Number = m.v["n"]
    p = r.at(r.back(i))
    q = r.at(r.on(i))
    if not r.checking:
        return m
    if (q and q.label in ("item", "agent", "form", "feed", "queen_noun", "each")) or (
        q and q.label == "w" and q.w in ("frame", "box")
    ):
        return m
    if (
        p
        and number.value == 1
        and m.w == "one"
        and (p.label == "ordinal" or p.w in ("another", "this", "that", "the", "each", "every", "which", "new"))
    ):
        return Mark("w", m.s, m.e, "one")
    if p and p.label == "ordinal" and last == "value":
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")  # "the first gave six mites and the second four"
    if (
        p
        and p.w in ("/", "in", "of", "per", "from", "out", "over")
        and number.whole
        and number.value >= 50
        and last in ("value", "cols")
    ):
        return Mark("sample", m.s, m.e, m.w, {"bees": int(number.value)}, "sample size")
    if (
        q
        and q.w in ("on", "in")
        and (z := r.at(r.on(r.on(i))))
        and z.label in ("colony", "hive", "number")
        and not (p and p.label == "verb")
        and _sentence_has(r, i, "method", "mites", "clean", "check")
    ):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count of a colony")
    if p and (p.w == "me" or (p.label == "cue" and p.v.get("cue") == "report")):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if (
        last == "cols"
        or (p and (p.w in r.before_value or p.label == "cols" or p.label == "method" or p.w in (":", "=")))
        or (q and q.w == "/")
        or (p and (p.w in ("or", "to", "-", "maybe")) and last == "value")
        or (q and q.w in ("or",))
    ):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if (
        p
        and (p.w in ("then", "and") or p.label == "comma")
        and last == "value"
        and (
            q is None
            or q.label in ("stop", "line", "comma", "ordinal")
            or q.w in ("then", "in", "and", "or")
            or (q.w == "the" and (z := r.at(r.on(r.on(i)))) and z.label == "ordinal")
        )
    ):
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    if p and p.label in ("filler", "approx", "verb", "w", "mites", "value") and number.value == 0:
        return Mark("value", m.s, m.e, m.w, dict(m.v), "count")
    return Mark("number", m.s, m.e, m.w, dict(m.v), m.rule)
