"""Nothing in silence: the words of a note that no record took, as leftovers."""

from __future__ import annotations

import re

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*|[^\s\w.,;:!?()\[\]\"'’*·•–—\-#&@/=+|<>~_☐⬜□◻☑✅❌☒]", re.UNICODE)
SMALL_WORDS = frozenset(
    (
        "a an the and or but so then to of in on at by for from with into onto up down off out over under as is "
        "are was were be been being it its it's i i'm im we we're you he she they them this that these those there "
        "here my our your his her their am do did does have has had just also too um uh er erm okay ok oh well "
        "like yeah yep hey right now all got get gets still only some any each ea per n s t w"
    ).split()
)
"""Words that carry no meaning of their own here."""


def leftovers(text: str, taken: list[tuple[int, int]], skipped: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Where runs of words lie outside `taken` (spans of records) and `skipped` (heads of messages, with their times).

    A run goes on over small words and is cut where a record's span lies between.
    """
    covered = _joined(taken + skipped)
    found: list[tuple[int, int]] = []
    start = end = passed = -1
    at, last = 0, len(covered)
    begins, ends = covered[0] if covered else (len(text), len(text))  # the span that the words have come to
    word = _WORD.search(text)
    while word is not None:
        first, after = word.span()
        while ends <= first and at < last:
            at += 1
            begins, ends = covered[at] if at < last else (len(text), len(text))
        if begins <= first and after <= ends:
            if start >= 0:
                found.append((start, end))
                start = -1
            blank = text.rfind(" ", after, ends) if at > passed else -1
            passed = at
            word = _WORD.search(text, max(after, blank))  # from the last blank of the span: all before it is taken
            continue
        said = word.group()
        word = _WORD.search(text, after)
        if said in SMALL_WORDS or said.lower().replace("’", "'") in SMALL_WORDS:
            continue
        if start >= 0 and ("\n" in text[end:first] or "." in text[end:first]):
            found.append((start, end))
            start = -1
        if start < 0:
            start = first
        end = after
    if start >= 0:
        found.append((start, end))
    return found


def _joined(spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The spans in order, those that touch made one."""
    joined: list[tuple[int, int]] = []
    for start, end in sorted(spans):
        if joined and start <= joined[-1][1]:
            if end > joined[-1][1]:
                joined[-1] = (joined[-1][0], end)
        else:
            joined.append((start, end))
    return joined


def merge_spans(spans: list[tuple[int, int]], text: str) -> list[tuple[int, int]]:
    """The spans in order, joined where only blanks, commas and small signs lie between."""
    merged: list[tuple[int, int]] = []
    for start, end in sorted(set(spans)):
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        elif merged and not text[merged[-1][1] : start].strip(" ,:'’-"):
            merged[-1] = (merged[-1][0], end)
        else:
            merged.append((start, end))
    return merged
