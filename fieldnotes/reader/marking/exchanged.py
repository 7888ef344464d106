"""One thing for another: "swapped the strips for pads" tells of what came out and of what went in."""

from __future__ import annotations

from fieldnotes.reader.mark import THINGS, Mark

_GIVEN = THINGS - {"feed"}
"""Labels of what can come out of a hive again."""

_FOR = frozenset(["for", "with", "to"])
_SAME_BREATH = frozenset("w number approx".split()) | _GIVEN
"""What may stand between the work, the two things and the word that parts them, beside the colonies."""
_NEAR = 8


def exchanged(row: list[Mark]) -> list[Mark]:
    """The row, with each "swapped A for B" told as "pulled A and put B"; where no two things are named, the word is a
    plain one.
    """
    out: list[Mark] = []
    put_at: dict[int, Mark] = {}
    for i, m in enumerate(row):
        if i in put_at:
            work = put_at[i]
            out.append(Mark("w", m.s, m.s, "and"))
            put = {"dir": "in", "tense": work.v["tense"]}
            out.append(Mark("verb", m.s, m.e, "put", put, work.rule))
            continue
        if m.label == "exchange":
            between = _between(row, i)
            m.label = "verb" if between is not None else "w"
            if between is not None:
                put_at[between] = m
            else:
                m.v, m.rule = {}, ""
        out.append(m)
    return out


def _between(row: list[Mark], i: int) -> int | None:
    """The index of the word between the two things that change places at `i`; None where no two are named."""
    first = False
    for k in range(i + 1, min(len(row), i + _NEAR)):
        m = row[k]
        if m.w in _FOR and m.label == "w" and first:
            after = [x for x in row[k + 1 : k + 5] if x.label in _GIVEN or x.label not in _SAME_BREATH]
            return k if after and after[0].label in _GIVEN else None
        if m.label not in _SAME_BREATH and m.label not in ("colony", "every", "yard"):
            return None
        first = first or m.label in _GIVEN
    return None
