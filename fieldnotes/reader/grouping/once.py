"""The time of something else, no work itself: "once the supers are off", "as soon as they come out"."""

from __future__ import annotations

from fieldnotes.reader.mark import Mark

_ONCE = frozenset("after once when until till before".split())
_AS_SOON_AS = frozenset(["as soon as", "the minute", "the moment", "the second", "the day", "soon as"])
_THEY_ARE = frozenset("they're theyre it's its those're that's".split())
_TO_COME_OFF = frozenset("comes come is are 's 're gets get go goes".split())
_ITS_THING = frozenset(["item", "form", "agent", "honey", "pronoun", "harvest", "feed"])


def once_it_is_off(row: list[Mark]) -> None:
    """ "treat heath | once the supers are off", "… after they come out", "… as soon as they're off": the time of
    something else, no work itself.

    With a day of its own it is work to be done then, and stays.
    """
    for k in range(len(row) - 2, 0, -1):
        opens = _opens_once(row, k) if row[k].label == "w" else 0
        if not opens:
            continue
        j = k + opens
        while j < len(row) and row[j].w in ("the", "those", "all", "my", "our", "that", "they", "it"):
            j += 1
        named = j < len(row) and row[j].label in _ITS_THING
        j += named
        if j >= len(row):
            continue
        are = not named and row[j].w in _THEY_ARE
        if not (named or are or row[j - 1].w in ("they", "it")):
            continue
        words = row[j].w.split()
        if named and row[j - 1].w.endswith("'s") and row[j].w in ("off", "out"):
            end = j  # "the minute the honey's off"
        elif are and row[j + 1 : j + 2] and row[j + 1].w in ("off", "out"):
            end = j + 1
        elif row[j].label == "verb" and words[0] in _TO_COME_OFF and words[-1] in ("off", "out"):
            end = j
        elif row[j].w in ("do", "does") and named:
            end = j  # "excluders go back on when the supers do"
        elif words[0] in _TO_COME_OFF and j + 1 < len(row) and row[j + 1].w in ("off", "out"):
            end = j + 1
        else:
            continue
        if end + 1 < len(row) and row[end + 1].label == "date":
            continue
        clause = row[k : end + 1]
        row[k : end + 1] = [
            Mark("ignore", clause[0].s, clause[-1].e, " ".join(m.w for m in clause), {}, "once it is off")
        ]


def _opens_once(row: list[Mark], k: int) -> int:
    """How many marks from the plain word at `k` on say "once", "as soon as", "the minute", else 0."""
    if row[k].w in _ONCE:
        return 1
    if row[k].w not in ("as", "soon", "the"):
        return 0
    return next((n for n in (3, 2) if " ".join(m.w for m in row[k : k + n]) in _AS_SOON_AS), 0)
