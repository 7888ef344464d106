"""A number of hives ("3 of 12 dead", "under 6 more") or the hives themselves ("lost forty and forty one")?"""

from __future__ import annotations

from fieldnotes.reader.grouping.row import Row, id_of, whole
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.numbers import Number
from fieldnotes.reader.outfit import Outfit

_COINS = frozenset("dollars dollar bucks buck quid euros euro cash cents".split())


def money(row: list[Mark], i: int) -> bool:
    """ "sold N3 for $200", "got 200 bucks for it": an amount of money, and no number of hives."""
    before, after = row[i - 1] if i else None, row[i + 1] if i + 1 < len(row) else None
    return (before is not None and before.w in ("$", "€", "£")) or (after is not None and after.w in _COINS)


def so_many_more(row: list[Mark]) -> None:
    """ "escapes under 6 more": a number of hives, which are not named."""
    for k in range(len(row) - 2, 0, -1):
        more, z = row[k + 1], row[k + 2] if k + 2 < len(row) else None
        ends = z is None or z.label in ("stop", "line", "comma", "yard", "filler") or z.w in ("at", "and")
        if more.w == "more" and row[k].label == "number" and row[k - 1].w in _UPON and ends:
            row[k : k + 2] = [
                Mark("hives", row[k].s, more.e, f"{row[k].w} more", {**row[k].v, "counts": True}, "hives")
            ]


_MOST_GONE = 20
_AFTER_GONE = frozenset(["stop", "line", "comma", "yard", "number", "colony", "hive", "filler", "date"])
_ARE_DOWN = frozenset("i'm we're they're are am is i we it's".split())


def so_many_gone(row: list[Mark], outfit: Outfit) -> None:
    """ "five gone that's one six …", "we're down four at larks": so many hives are lost."""
    for k in range(len(row) - 1, 0, -1):
        m, before = row[k - 1 if row[k].w == "gone" else k], row[k - 1]
        after = row[k + 1] if k + 1 < len(row) else None
        if m.label != "number" or not m.v["n"].whole or not 0 < m.v["n"].value <= _MOST_GONE:
            continue
        if row[k].w == "gone":
            yard = next((x.v["value"] for x in reversed(row[max(0, k - 5) : k]) if x.label == "yard"), None)
            stands = str(int(m.v["n"].value)) in outfit.yard_ids.get(yard or "", ())
            plain = after is None or after.label in _AFTER_GONE or after.w in ("that's", "and")
            plain = plain or (after is not None and after.w in ("at", "over") and row[k + 2 : k + 3] != [])
            opens = k < 2 or row[k - 2].label != "hive"
            if plain and opens and (not stands or (after is not None and after.w == "that's")):
                row[k - 1 : k + 1] = [Mark("change", m.s, row[k].e, f"{m.w} gone", {"step": "died", **m.v}, "lost")]
        elif before.w == "down" and (k < 2 or row[k - 2].w in _ARE_DOWN or row[k - 2].label in ("line", "stop")):
            if after is not None and (after.w in ("at", "in", "over") or after.label == "yard"):
                row[k - 1 : k + 1] = [Mark("change", before.s, m.e, f"down {m.w}", {"step": "died", **m.v}, "lost")]


def so_many_of(row: list[Mark]) -> None:
    """ "3 of 12 dead": so many hives, and how many there were."""
    for k in range(len(row) - 4, -1, -1):
        near = row[k : k + 4]
        if len(near) < 4 or near[1].w not in ("of", "/"):
            continue  # the row is shorter where one was found after it
        few, of, all_, dead = near
        if few.label == all_.label == "number" and dead.v.get("step") == "died":
            if "n" not in dead.v and few.v["n"].value < all_.v["n"].value:
                text = f"{few.w} {of.w} {all_.w}"
                row[k : k + 3] = [Mark("hives", few.s, all_.e, text, {**few.v, "counts": True}, "hives")]


def so_many_there(row: list[Mark]) -> None:
    """ "strips on 2 Quarry hives": so many hives at the yard named between."""
    for k in range(len(row) - 2):
        number, yard, hives = row[k : k + 3]
        typed = number.label == "number" and number.v["n"].digits
        if typed and yard.label == "yard" and hives.label == "hives" and hives.w in _SO_MANY:
            text = f"{number.w} {yard.w} {hives.w}"
            row[k] = Mark("hives", number.s, number.e, text, {**number.v, "counts": True}, "hives")
            hives.label, hives.v = "filler", {}


_SO_MANY = frozenset(["hives", "colonies"])
_UPON = frozenset(["on", "in", "under", "into", "off"])


def none_of(row: list[Mark], i: int) -> Mark:
    """ "none of them", "none of those three": the colonies spoken of, of which the contrary is so."""
    m = row[i]
    if m.label == "hives" and m.v.get("counts"):
        row[i] = Mark("pronoun", m.s, m.e, m.w, {}, "them")
    elif m.w == "none" and i + 2 < len(row) and row[i + 1].w == "of" and row[i + 2].label == "pronoun":
        those = row[i + 2]
        row[i : i + 3] = [Mark("pronoun", m.s, those.e, f"none of {those.w}", dict(those.v), those.rule)]
    return row[i]


def lost_these(r: Row, i: int) -> Mark | None:
    """ "lost forty forty one and fifty": colonies, not a number of them. The number is put back into the row."""
    m, q = r.row[i], r.at(i + 1)
    words = m.w.split()
    number: Number = m.v["n"]
    listed = m.v.get("step") == "died" and words[0] == "lost" and words[-1] not in _HIVES_LOST
    if words[-1] == "one" and q is not None and q.label == "number":
        return None  # "lost one, seventy nine"
    joined = (
        q is not None
        and q.w == "and"
        and (z := r.at(i + 2)) is not None
        and z.label == "number"
        and _alike(r, number, z, r.at(i + 3))
    )
    listed = listed and (
        joined
        or _three_or_more(r, i, number)
        or (q is not None and q.label in ("number", "colony"))
        or _more_than_stand_there(r, i, number)
    )
    if not listed or len(words) < 2 or not number.whole or not r.outfit.could_be(str(int(number.value))):
        return None
    start = m.s + len(words[0]) + 1
    if m.e - start != len(" ".join(words[1:])):
        return None  # said in other words than it was heard
    r.row[i] = Mark("number", start, m.e, " ".join(words[1:]), {"n": number}, "number")
    return Mark("change", m.s, m.s + len(words[0]), words[0], {"step": "died"}, m.rule)


def _three_or_more(r: Row, i: int, number: Number) -> bool:
    """ "lost 3, 5 and 9 at the quarry": a list of ids, no yard behind each."""
    row = [r.at(i + k) for k in range(1, 5)]
    comma, second, joins, third = row
    if comma is None or second is None or joins is None or third is None or comma.label != "comma":
        return False
    if not (joins.label == "comma" or joins.w == "and") or {second.label, third.label} != {"number"}:
        return False
    said = str(int(number.value)) if number.whole else ""
    return whole(second) and whole(third) and {said, id_of(second), id_of(third)} <= r.outfit.ids.keys()


def _alike(r: Row, number: Number, other: Mark, after: Mark | None) -> bool:
    """ "lost eleven and sixteen": both can only be colonies of one yard, no number of hives at a place follows."""
    named = str(int(number.value)) if number.whole else ""
    if (
        named in r.outfit.ids
        and whole(other)
        and after is not None
        and (after.w in ("at", "in") or after.label == "yard")
    ):
        k = r.row.index(after)
        yard = next((m.v["value"] for m in r.row[k : k + 3] if m.label == "yard"), None)
        if yard is not None and {named, id_of(other)} <= r.outfit.yard_ids.get(yard, frozenset()):
            return True  # "lost four and nine at the quarry"
    placed = after is not None and (after.w in ("at", "in", "from") or after.label in ("hives", "noun", "yard"))
    known = named in r.outfit.ids and whole(other)
    return known and r.outfit.of_one_yard((named, id_of(other))) and not placed


_HIVES_LOST = frozenset(["hives", "colonies", "more", "winter"])


def _more_than_stand_there(r: Row, i: int, number: Number) -> bool:
    """ "lost seventy four over at Heath", where 74 stands among ten: the yard has the colony, and not so many.

    Without a yard it is more than stand in any yard; "lost 74 this winter" may then be said of them all.
    """
    said = str(int(number.value))
    near = [m for m in r.row[max(0, i - 3) : i + 9] if m.label not in ("stop", "line")]
    yard = next((m.v["value"] for m in near if m.label == "yard" and "value" in m.v), None)
    if yard is not None:
        there = r.outfit.ids_at(yard)
        return number.value > len(there) and said in there
    joined, other = r.at(i + 1), r.at(i + 2)
    listed = joined is not None and other is not None and joined.w in ("and", ",") and other.label == "number"
    most = max((len(ids) for ids in r.outfit.in_order.values()), default=0)
    season = any(m.label == "date" or "winter" in m.w for m in near)
    return number.value > most > 0 and said in r.outfit.ids and (listed or not season)


def last_of_list(r: Row, k: int) -> None:
    """ "84 and 91 dead outs": the number of the change at `k` is the last of a list of colonies, and is put back."""
    m, number = r.row[k], r.row[k].v["n"]
    words = m.w.split()
    before = r.at(k - 2)
    if r.row[k - 1].w != "and" or before is None or before.label != "number" or len(words) < 2 or not number.whole:
        return
    last = str(int(number.value))
    if last not in r.outfit.ids or not r.outfit.of_one_yard((last, id_of(before))) or m.e - m.s != len(m.w):
        return
    a = k - 2
    while a > 0 and r.row[a - 1].label in ("number", "comma"):
        a -= 1
    opens = r.at(a - 1)
    if opens is None or opens.label in ("stop", "line", "yard", "filler", "date") or opens.w == ":":
        end = m.s + len(words[0])
        rest = {x: y for x, y in m.v.items() if x != "n"} | {"of_list": True}
        r.row[k : k + 1] = [
            Mark("number", m.s, end, words[0], {"n": number}, "number"),
            Mark("change", end + 1, m.e, " ".join(words[1:]), rest, m.rule),
        ]
