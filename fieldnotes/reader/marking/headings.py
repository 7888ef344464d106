"""Headings: words that head a list where they stand in a line of their own, and are a cue elsewhere."""

from __future__ import annotations

from fieldnotes.reader.grammar import listed, meanings
from fieldnotes.reader.group import BULLETS
from fieldnotes.reader.mark import REACH, Mark

_HEADING_CUES = {"planned": "plan", "not_done": "not"}
_LONE_HEADINGS = meanings("lone_headings")
_BESIDE_HEADINGS = listed("beside_headings")
"""Words that head a list where they stand alone in their line."""


def headings(row: list[Mark]) -> list[Mark]:
    """A heading is a line of its own (a yard may stand with it); inside a line its words are a cue."""
    _unbulleted(row)
    for k, m in enumerate(row):
        if m.w in _LONE_HEADINGS and m.label != "heading" and (_alone_in_line(row, k) or _over_list(row, k)):
            row[k] = Mark("heading", m.s, m.e, m.w, {"state": _LONE_HEADINGS[m.w]}, "heading of one word")
        if (
            m.w == "next"
            and m.label == "filler"
            and (not k or row[k - 1].label == "line")
            and k + 1 < len(row)
            and row[k + 1].w == ":"
        ):
            row[k] = Mark("cue", m.s, m.e, "next", {"cue": "plan"}, "plan")  # "Next: pads in L19 on Thursday"
        if m.label != "heading":
            continue
        a = k
        while a > max(0, k - REACH) and row[a - 1].label not in ("line", "stop"):
            a -= 1
        b = k
        while b + 1 < min(len(row), k + REACH) and row[b + 1].label not in ("line", "stop"):
            b += 1
        rest = [
            x
            for x in row[a : b + 1]
            if x is not m
            and x.label not in ("yard", "filler", "comma", "date", "person", "ordinal")
            and not (x.label == "w" and (not x.w.isalnum() or x.w in _BESIDE_HEADINGS))
        ]
        if m.v["state"] == "not_done" and b + 1 >= len(row) and any(x.label == "yard" for x in row[a : b + 1]):
            m.label, m.v = "cue", {"cue": "not"}  # "hilltop yard not done", the last of a list
            continue
        if m.w.startswith("to do") and a < k and _titled(row, a, k) and b + 1 < len(row):
            for x in row[a:k]:
                x.label = "filler"  # "Truck jobs, to do Wednesday 12 May", over a list
            rest = [x for x in rest if x.label != "filler"]
        if rest and m.w == "to do" and k and row[k - 1].w in ("had", "have", "has", "get", "got", "nothing"):
            m.label, m.v = "filler", {}
            continue
        headed = k == a and k + 1 < len(row) and row[k + 1].w == ":"
        if rest and not headed and not _jobs_below(row, a, b, rest):
            kind = _HEADING_CUES.get(m.v["state"])
            m.label, m.v = ("cue", {"cue": kind}) if kind else ("filler", {})
    return row


def _jobs_below(row: list[Mark], a: int, b: int, rest: list[Mark]) -> bool:
    """ "Jobs for the truck", "Things to do before winter" over a list with bullets: plain words, and nothing done."""
    plain = row[a].label == "heading" and row[a].v["state"] == "planned" and all(m.label == "w" for m in rest)
    return plain and b + 2 < len(row) and row[b + 1].label == "line" and row[b + 2].w in BULLETS


_TITLES = frozenset("jobs work list things plan plans tasks".split())


def _titled(row: list[Mark], a: int, k: int) -> bool:
    """Whether the line begins with the title of a list, with a comma or dash after it."""
    title = [m.w for m in row[a:k] if m.label != "comma" and m.w not in ("-", ":", "–")]
    parted = row[k - 1].label == "comma" or row[k - 1].w in ("-", ":", "–")
    return parted and 0 < len(title) <= _LONGEST_TITLE and title[-1].split()[0] in _TITLES


_LONGEST_TITLE = 3


def _unbulleted(row: list[Mark]) -> None:
    """ "- Sunday, Quarry", "* NEXT": a day, a yard or a heading with a bullet before it heads a list all the same."""
    for a in range(len(row) - 2, -1, -1):
        if row[a].w not in BULLETS or (a and row[a - 1].label != "line"):
            continue
        b = a + 1
        while b < len(row) and row[b].label != "line" and b - a < _LONGEST_HEADING:
            b += 1
        line = [m for m in row[a + 1 : b] if m.label != "comma" and m.w not in (":", "-", "–")]
        heads = all(m.label in ("date", "yard", "heading") or m.w in _LONE_HEADINGS for m in line)
        if line and heads and b < len(row) and row[b].label == "line":
            del row[a]


_LONGEST_HEADING = 8


def _alone_in_line(row: list[Mark], k: int) -> bool:
    before = row[k - 1] if k else None
    after = k + 1
    while after < len(row) and row[after].w in (":", "-", "–", "!"):
        after += 1
    return (before is None or before.label == "line") and after < len(row) and row[after].label == "line"


def _over_list(row: list[Mark], k: int) -> bool:
    """ "Done today at Larkfield", where a bullet begins the next line, or a colon ends this one."""
    if k and row[k - 1].label != "line":
        return False
    after, place = k + 1, False
    while after < len(row) and (row[after].label in ("yard", "date") or row[after].w in _BESIDE_HEADINGS):
        place = place or row[after].label in ("yard", "date")
        after += 1
    colon = after < len(row) and row[after].w == ":"
    below = row[after + colon : after + colon + 2]
    return place and len(below) > 1 and below[0].label == "line" and (colon or below[1].w in BULLETS)
