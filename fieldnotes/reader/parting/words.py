"""Small words and labels that more than one decision about a mark asks for."""

from __future__ import annotations

I_WILL = frozenset("i i'll we we'll i'm we're".split())
"""How a plan begins that is the speaker's own."""
IS_TO = frozenset("i'm i'll i'd we're we'll we'd he's he'll she's she'll".split())
"""Somebody who is about to do something."""
STILL_THERE = ("still ha", "still in", "still on")
"""How the cues begin that tell of what has not come out yet."""
NEXT = frozenset("and so but then also while".split())
"""Words that lead on to what is told next."""
SAID_OF_SUBJECT = frozenset("is are was were".split())
HOW_MUCH = frozenset("amount unit number approx".split())
"""Labels of what stands before a thing and tells how much of it."""
CLOSED = frozenset("date yard each every cols days rest temp".split())
"""The labels that mostly end a statement."""
