"""Times of the clock."""

from __future__ import annotations

from fieldnotes.reader.hear import Heard
from fieldnotes.reader.numbers import number_at

_TIMES_OF_DAY = frozenset("noon midday lunch lunchtime dawn dusk midnight sunup sundown night".split())
_TIME_AFTER = frozenset(["am", "pm", "a.m", "p.m", "o'clock", "oclock", "ish"])


def phone_number(heard: Heard, i: int) -> int | None:
    """The index after a telephone number ("555-0134", "555-010-0134"); None where there is none."""
    w = heard.w
    j = i
    if not (w[j].isdecimal() and len(w[j]) == 3):
        return None
    while w[j + 1 : j + 2] in (["-"], ["."]) and j + 2 < len(w) and w[j + 2].isdecimal() and len(w[j + 2]) in (3, 4):
        if heard.e[j] != heard.s[j + 1] or heard.e[j + 1] != heard.s[j + 2]:
            return None
        j += 2
        if len(w[j]) == 4:
            return j + 1
    return None


def clock_time(w: list[str], i: int) -> int | None:
    """The index after a clock time ("9:30", "5 pm", "five o'clock"); None where there is none."""
    n = len(w)
    if (
        i + 2 < n
        and w[i].isdecimal()
        and w[i + 1] == ":"
        and w[i + 2].isdecimal()
        and len(w[i + 2]) == 2
        and int(w[i]) < 24
        and int(w[i + 2]) < 60
    ):
        after = w[i + 3] if i + 3 < n else ""
        before = w[i - 1] if i else ""
        if after in _TIME_AFTER:
            return i + 4
        if before in ("at", "by", "until", "till", "around", "@", "since", "before", "after"):
            return i + 3
        return None
    number = number_at(w, i)
    if number and number.whole and number.value <= 12 and number.end < n:
        if w[number.end] in ("am", "pm", "o'clock", "oclock"):
            return number.end + 1
        if (
            i
            and w[i - 1] in ("at", "by", "around", "until", "till")
            and (
                w[number.end : number.end + 2]
                in (["at", "night"], ["this", "morning"], ["this", "evening"], ["this", "afternoon"])
                or w[number.end : number.end + 3]
                in (["in", "the", "morning"], ["in", "the", "evening"], ["in", "the", "afternoon"])
            )
        ):
            return number.end  # "at nine | at night"
    if _is_noon(w, i):
        return i + 2
    return None


def line_clock(heard: Heard, i: int) -> int | None:
    """The index after a clock time, written without blanks, that opens a line ("08:25 OAV …"), or None."""
    w = heard.w
    if i + 2 >= len(w) or w[i + 1] != ":" or not (w[i].isdecimal() and w[i + 2].isdecimal()) or len(w[i + 2]) != 2:
        return None
    if (i and w[i - 1] not in ("\n", "\n\n")) or heard.e[i] != heard.s[i + 1] or heard.e[i + 1] != heard.s[i + 2]:
        return None
    if int(w[i]) > 23 or int(w[i + 2]) > 59 or (i + 3 < len(w) and w[i + 3] in (",", "/")):
        return None
    return i + 3


def _is_noon(w: list[str], i: int) -> bool:
    """ "at noon", "at lunch"."""
    return w[i] == "at" and i + 1 < len(w) and w[i + 1] in _TIMES_OF_DAY
