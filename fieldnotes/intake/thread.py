"""Splits a pasted thread into its messages, each with its sender, its time and its place in the text.

Plain paste forms are known by shape, not by where they come from: a line that begins with a time and a
name (in either order, with or without brackets), a name and a time on a line of their own, a day heading
with times below it. Lines without such a head go on with the message before.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import lru_cache

from fieldnotes.records import Note

_NAME = r"(?P<name>[^\W\d_][\w.'’\-]*(?: [^\W\d_][\w.'’\-]*){0,2})"
_MONTHS = (
    r"(?:january|february|march|april|may|june|july|august|september|october|november|december"
    r"|jan|feb|mar|apr|jun|jul|aug|sept|sep|oct|nov|dec)\b\.?"
)
_DAYS = r"(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day|mon|tues|tue|weds|wed|thurs|thur|thu|fri|sat|sun)\b\.?"
_CLOCK = r"(?:\d{1,2}h\d{2}|\d{1,2}[:.]\d{2}(?:[:.]\d{2})?(?:\s?[ap]\.?m\.?|[ap]\b)?|\d{1,2}\s?[ap]\.?m\.?)"
_DATE = (
    rf"(?:{_DAYS},?\s+)?(?:\d{{4}}-\d{{1,2}}-\d{{1,2}}|\d{{1,2}}[/.\-]\d{{1,2}}(?:[/.\-]\d{{2,4}})?"
    rf"|\d{{1,2}}(?:st|nd|rd|th)?\s+{_MONTHS}(?:,?\s+\d{{4}})?|{_MONTHS}\s+\d{{1,2}}(?:st|nd|rd|th)?(?:,?\s+\d{{4}})?)"
    rf"|(?:today|yesterday|{_DAYS})"
)
_WHEN = (
    rf"(?P<when>(?:{_DATE})?(?:\sat\s|,|T|\s|\s?[-–|·@]\s?)*(?:{_CLOCK})?"
    rf"|(?:{_CLOCK})(?:,|\s|\s?[-–|·]\s?)*(?:{_DATE})?)"
)


class _Shape:
    """A regular expression compiled when first needed: most notes are no threads, and these take long to compile."""

    def __init__(self, pattern: str, flags: int = 0) -> None:
        self._pattern, self._flags = pattern, flags
        self._found: re.Pattern[str] | None = None

    @property
    def _compiled(self) -> re.Pattern[str]:
        if self._found is None:
            self._found = re.compile(self._pattern, self._flags)
        return self._found

    def match(self, text: str) -> re.Match[str] | None:
        """As of a compiled expression."""
        return self._compiled.match(text)

    def search(self, text: str) -> re.Match[str] | None:
        """As of a compiled expression."""
        return self._compiled.search(text)

    def sub(self, replace: str | Callable[[re.Match[str]], str], text: str) -> str:
        """As of a compiled expression."""
        return self._compiled.sub(replace, text)


_HEADS = [
    _Shape(rf"^\s*[\[(<]{_WHEN}[\])>]\s*[-–—]?\s*[@<]?{_NAME}[>]?\s*:[ \t]*", re.I),
    _Shape(rf"^\s*{_WHEN}\s*[-–—|·,]\s*[@<]?{_NAME}[>]?\s*[:|][ \t]*", re.I),
    _Shape(rf"^\s*{_WHEN}\s+[@<]?{_NAME}[>]?\s*[:|>][ \t]*", re.I),
    _Shape(rf"^\s*[@<]?{_NAME}[>]?\s*[,|·]\s*{_WHEN}\s*[:|][ \t]*", re.I),
    _Shape(rf"^\s*[@<]?{_NAME}[>]?\s*[\[(]\s*{_WHEN}\s*[\])]\s*[:\-–—|]?[ \t]*", re.I),
    _Shape(rf"^\s*[@<]?{_NAME}[>]?\s*[-–—]\s*{_WHEN}\s*[:|]?[ \t]*$", re.I),
    _Shape(rf"^\s*[@<]?{_NAME}[>]?\s*[-–—]\s*{_WHEN}\s*[:|][ \t]*", re.I),
    _Shape(rf"^\s*[@<]?{_NAME}[>]?\s*[,|·]?\s+{_WHEN}\s*[:|]?[ \t]*$", re.I),
    _Shape(rf"^\s*[@<]?{_NAME}[>]?\s+{_WHEN}\s*[:|][ \t]*", re.I),
    _Shape(rf"^\s*From:?\s+{_NAME}\s*[,|·\-–(]*\s*{_WHEN}\)?[ \t]*$", re.I),
    _Shape(rf"^\s*[@<]{_NAME}>?\s+{_WHEN}\s*[:|]?[ \t]*", re.I),
    _Shape(rf"^\s*[\[(]{_NAME}\s*[,|·\-–—]?\s*{_WHEN}\s*[\])]\s*[-–—:]?[ \t]*", re.I),
    _Shape(rf"^\s*[\[(]{_WHEN}\s*[,|·\-–—]?\s*{_NAME}\s*[\])]\s*[-–—:]?[ \t]*", re.I),
]
_HANDED_ON = _Shape(
    r"^[\s\-–—=*]*(?:(?:fwd|fw|forwarded|message|msg|text|sms|voice\s?mail|e?mail|note|quoting|quote|reply|copied|pasted)"
    r"[\s:]+)+(?:(?:from|by|of)[\s:]+)?(?=[@<*\[]*[^\W\d_])",
    re.I,
)
"""What may stand before a head: "Forwarded from", "Fwd:", "Text from"."""
_SIGNS = _Shape(r"\*|(?<=\s)(?:::|--|->|=>|>>|[/•»›→~=⟩])(?=\s)")
"""Signs that part a name from a time, other than those of `_HEADS`."""
_SAID = _Shape(r"\s+(?:(?:wrote|writes|said|says|replied|texted|sent|at|on)\b\s*)+$", re.I)
"""What stands after a name and belongs to the head: "Dov wrote at"."""
_ANY_CLOCK = _Shape(_CLOCK, re.I)
_LONE_CLOCK = _Shape(rf"(?<![\d/.\-]){_CLOCK}(?![\d/.\-])", re.I)
_NO_NAME = _Shape(rf"(?:{_MONTHS}|{_DAYS}|today|yesterday|at|on)\Z", re.I)
_ENDS_IN_DATE = _Shape(rf"(?<!\w)(?:{_MONTHS}|{_DAYS})$", re.I)
_STACKED_WHEN = _Shape(rf"^\s*[\[(]?{_WHEN}[\])]?\s*$", re.I)
_STACKED_NAME = _Shape(rf"^\s*@?{_NAME}:?\s*$")
_NAME_SAID = _Shape(
    r"^\s*(?:from:?\s+)?@?(?P<name>[^\W\d_][\w.'’\-]*)\s*(?:wrote|writes|said|says|replied|texted)?\s*:\s*$", re.I
)
"""A head without a time on a line of its own: "Dov wrote:", "From Dov:"."""
_DAY_LINE = _Shape(rf"^\s*(?:[-–—=*#~_]{{1,}}\s*)?(?P<day>{_DATE})(?:\s+\d{{4}})?\s*(?:[-–—=*#~_]{{1,}})?:?\s*$", re.I)
_BARE_NAME = _Shape(rf"^\s*[@<]?{_NAME}(?:[>]?\s*:|>)[ \t]+(?=\S)")
_BRACKET_NAME = _Shape(rf"^\s*<@?{_NAME}>\s*[:\-]?[ \t]*(?=\S)")
_WROTE = _Shape(rf"^\s*On\s+{_WHEN}\s*,?\s+{_NAME}\s+(?:wrote|said|writes)\s*:\s*$", re.I)
_FROM = _Shape(rf"^\s*\*?From:?\*?\s+{_NAME}\b", re.I)
_SENT = _Shape(rf"^\s*\*?(?:Date|Sent|On|Time):?\*?\s+{_WHEN}", re.I)
_FIELD = _Shape(r"^\s*\*?(?:From|To|Cc|Date|Sent|Subject|Re|Time):", re.I)
_CLOCK_RE = re.compile(r"(\d{1,2})(?:[:.h](\d{2}))?(?:[:.]\d{2})?\s?([ap])?\.?m?\.?", re.I)
LONGEST_HEAD = 90


@dataclass(frozen=True, slots=True)
class Message:
    """One message: `text[start:end]` of the note, who sent it and when (local ISO 8601)."""

    start: int
    end: int
    by: str | None
    received: str


def messages(note: Note, people: tuple[str, ...] = (), day_first: bool = False) -> list[Message]:
    """The messages of a note, in order; a note that is no thread is one message.

    `people` are known names in lower case; a head without a time counts only with one of them.
    """
    whole = [Message(0, len(note.text), note.by, note.received)]
    if ":" not in note.text and "\n" not in note.text:
        return whole
    heads = _find_heads(note.text, people)
    if not heads:
        return whole
    order = _day_order(heads, note.received, day_first)
    base = datetime.fromisoformat(note.received)
    found: list[Message] = []
    if note.text[: heads[0][0]].strip():
        found.append(Message(0, heads[0][0], note.by, note.received))
    day: date | None = None
    for k, (_start, body, name, when, day_only) in enumerate(heads):
        end = heads[k + 1][0] if k + 1 < len(heads) else len(note.text)
        parsed_day = _day(when, order, base) if when else None
        if parsed_day is not None:
            day = parsed_day
        if day_only:
            if not note.text[body:end].strip():
                continue
            if name is None and not when:
                day = None  # the note's own sender goes on below what was quoted
            found.append(Message(body, end, note.by, f"{(day or base.date()).isoformat()}T{base:%H:%M}"))
            continue
        clock = _clock(when)
        at = day or base.date()
        received = f"{at.isoformat()}T{clock or f'{base:%H:%M}'}"
        found.append(Message(body, end, name, received))
    return found


def _find_heads(text: str, people: tuple[str, ...]) -> list[tuple[int, int, str | None, str, bool]]:
    """(start of line, start of body, name, time as written, is a day heading) of each head."""
    heads: list[tuple[int, int, str | None, str, bool]] = []
    lines = list(re.finditer(r"[^\n]*\n?", text))
    timed = 0
    days: list[tuple[int, int, str | None, str, bool]] = []
    bare: list[tuple[int, int, str | None, str, bool]] = []
    quoting = False  # whether lines with ">" go on what a head without it began
    k = 0
    while k < len(lines):
        m = lines[k]
        line = m.group().rstrip("\n")
        offset = m.start()
        quote = re.match(r"^[\s>|]*", line)
        lead = quote.end() if quote and ">" in quote.group() else 0
        k += 1
        shown = line[lead:]
        if not shown.strip():
            continue
        if quoting and not lead:
            heads.append((offset, offset, None, "", True))
            quoting = False
        low = shown.lower()
        wrote = _WROTE.match(shown) if "on" in low and ("wrote" in low or "said" in low or "writes" in low) else None
        if wrote:
            heads.append((offset, m.end(), wrote["name"], wrote["when"], False))
            timed += 1
            quoting = (quoting or not lead) and _quoted_next(lines, k)
            continue
        sender = _FROM.match(shown) if "from" in low else None
        if sender:
            block = k
            when = ""
            while block < len(lines) and _FIELD.match(lines[block].group()):
                sent = _SENT.match(lines[block].group())
                when = sent["when"].strip() if sent else when
                block += 1
            if when:
                start = offset
                if heads == [] and k > 1:
                    start = offset
                heads.append((start, lines[block - 1].end(), sender["name"], when, False))
                timed += 1
                k = block
                continue
        bracket = _BRACKET_NAME.match(shown)
        if bracket and (_is_person(bracket["name"], people) or bracket["name"][0].isupper()):
            bare.append((offset, offset + lead + bracket.end(), bracket["name"], "", False))
            continue
        found = _head(shown, people)
        if found is not None:
            body, name, when = found
            heads.append((offset, offset + lead + body, name, when, False))
            timed += 1
            below, said_here = _quoted_next(lines, k), bool(shown[body:].strip())
            quoting = (below or said_here) if lead else (below and not said_here)
            continue
        if len(shown) <= LONGEST_HEAD:
            name_match = _STACKED_NAME.match(shown)
            if name_match and _is_person(name_match["name"], people) and k < len(lines):
                when_match = _STACKED_WHEN.match(lines[k].group().strip())
                if when_match and when_match["when"].strip() and _timed(when_match["when"]):
                    heads.append((offset, lines[k].end(), name_match["name"], when_match["when"].strip(), False))
                    k += 1
                    timed += 1
                    continue
            said = _NAME_SAID.match(shown) if shown.rstrip().endswith(":") else _handed_on(shown, lines, k)
            if said and _is_person(said["name"], people) and k < len(lines):
                bare.append((offset, offset + len(m.group()), said["name"], "", False))
                quoting = _quoted_next(lines, k)
                timed += quoting
                continue
            day_match = _DAY_LINE.match(shown)
            if day_match:
                days.append((offset, offset + len(m.group()), None, day_match["day"], True))
                continue
        bare_match = _BARE_NAME.match(shown)
        if bare_match and _is_person(bare_match["name"], people):
            bare.append((offset, offset + lead + bare_match.end(), bare_match["name"], "", False))
    if timed:
        return sorted(heads + bare + days)
    if len({b[2] for b in bare}) > 1 or (bare and len(bare) > 1):
        return sorted(bare + days)
    return []


def _handed_on(shown: str, lines: list[re.Match[str]], k: int) -> re.Match[str] | None:
    """ "Fwd from Ines --" over quoted lines: a head with neither time nor colon."""
    prefix = _HANDED_ON.match(shown)
    if prefix is None or not _quoted_next(lines, k):
        return None
    return _NAME_SAID.match(f"{shown[prefix.end() :].rstrip(' .-–—>')}:")


def _quoted_next(lines: list[re.Match[str]], k: int) -> bool:
    """Whether the next line with words, from the index `k` on, is quoted ("> …")."""
    below = next((line.group().lstrip() for line in lines[k:] if line.group().strip()), "")
    return below.startswith(">")


def _is_person(name: str, people: tuple[str, ...]) -> bool:
    return name.lower() in people


def _head(line: str, people: tuple[str, ...]) -> tuple[int, str, str] | None:
    probe = line[:LONGEST_HEAD]
    if not _ANY_CLOCK.search(probe):
        return None
    handed_on = _HANDED_ON.match(probe)
    if handed_on:
        probe = " " * handed_on.end() + probe[handed_on.end() :]
    found = _head_of(probe, line, people)
    if found is None and _SIGNS.search(probe):
        # signs that no shape has are read as the one that all have; the places of words stay
        found = _head_of(_SIGNS.sub(lambda m: " " if m[0] == "*" else "|".ljust(len(m[0])), probe), line, people)
    return found


def _head_of(probe: str, line: str, people: tuple[str, ...]) -> tuple[int, str, str] | None:
    for pattern in _HEADS:
        m = pattern.match(probe)
        if not m:
            continue
        when = (m["when"] or "").strip(" ,-–|·@")
        if not when or not _timed(when):
            continue
        name = _SAID.sub("", m["name"].strip())
        if len(line) > LONGEST_HEAD and m.end() == len(probe):
            continue
        if not (_is_person(name, people) or name[0].isupper()) or _NO_NAME.match(name):
            continue
        if _ENDS_IN_DATE.search(name) and not _is_person(name, people):
            continue
        return m.end(), name, when
    return None


def _timed(when: str) -> bool:
    """Whether the head has a clock time: a bare date with a name is more likely prose."""
    return bool(_LONE_CLOCK.search(when))


def _numeric(when: str) -> tuple[int, int, int | None] | None:
    m = re.search(r"(?<!\d)(\d{1,2})[/.\-](\d{1,2})(?:[/.\-](\d{2,4}))?(?!\d)", when)
    if not m or re.search(r"\d{4}-\d", when) or re.fullmatch(rf"\s*{_CLOCK}\s*", when, re.I):
        return None
    if "." in m.group() and not m[3]:
        return None
    year = int(m[3]) if m[3] else None
    if year is not None and year < 100:
        year += 2000
    return int(m[1]), int(m[2]), year


def _day_order(heads: list[tuple[int, int, str | None, str, bool]], received: str, day_first: bool) -> bool:
    """Whether the dates have the day first: by a number over 12, else by what lies just before `received`."""
    pairs = [p for h in heads if (p := _numeric(h[3]))]
    if any(a > 12 for a, _, _ in pairs):
        return True
    if any(b > 12 for _, b, _ in pairs):
        return False
    if not pairs:
        return day_first
    base = datetime.fromisoformat(received).date()

    def gap(pair: tuple[int, int, int | None], first: bool) -> int:
        a, b, year = pair
        try:
            found = date(year or base.year, b if first else a, a if first else b)
        except ValueError:
            return 10**6
        days = (base - found).days
        return days if days >= 0 else 10**5 - days

    for pair in reversed(pairs):  # 08/08 tells nothing, 06/08 before it may
        by_day, by_month = gap(pair, True), gap(pair, False)
        if by_day != by_month:
            return by_day < by_month if min(by_day, by_month) <= 21 else day_first
    return day_first


@lru_cache(maxsize=4096)
def _written_day(text: str, base: str) -> date | None:
    import dateparser  # late: only threads with written-out dates need it

    found = dateparser.parse(
        text, languages=["en"], settings={"RELATIVE_BASE": datetime.fromisoformat(base), "PREFER_DATES_FROM": "past"}
    )
    return found.date() if found else None


def _day(when: str, day_first: bool, base: datetime) -> date | None:
    iso = re.search(r"(\d{4})-(\d{1,2})-(\d{1,2})", when)
    try:
        if iso:
            return date(int(iso[1]), int(iso[2]), int(iso[3]))
        numeric = _numeric(when)
        if numeric:
            a, b, year = numeric
            day, month = (a, b) if day_first else (b, a)
            if month > 12:
                day, month = month, day
            found = date(year or base.year, month, day)
            if year is None and found > base.date():
                found = date(base.year - 1, month, day)
            return found
    except ValueError:
        return None
    low = when.lower()
    if "today" in low:
        return base.date()
    if "yesterday" in low:
        return base.date() - timedelta(days=1)
    words = re.search(
        rf"\d{{1,2}}(?:st|nd|rd|th)?\s+{_MONTHS}(?:,?\s+\d{{4}})?|{_MONTHS}\s+\d{{1,2}}(?:st|nd|rd|th)?(?:,?\s+\d{{4}})?",
        low,
        re.I,
    )
    if words:
        return _written_day(words.group(), f"{base.date().isoformat()}T23:59")
    weekday = re.search(r"\b(mon|tue|wed|thu|fri|sat|sun)", low)
    if weekday:
        back = (base.weekday() - ("mon", "tue", "wed", "thu", "fri", "sat", "sun").index(weekday[1])) % 7
        return base.date() - timedelta(days=back)
    return None


def _clock(when: str) -> str | None:
    when = re.sub(r"\b\d{1,4}[/.\-]\d{1,2}[/.\-]\d{2,4}\b", " ", when)  # "08.11.26" is no clock
    m = re.search(rf"(?<![\d/.\-]){_CLOCK}(?![\d/\-])", when, re.I)
    if not m:
        return None
    parts = _CLOCK_RE.match(m.group())
    assert parts
    hour = int(parts[1])
    if parts[3]:
        hour = hour % 12 + (12 if parts[3].lower() == "p" else 0)
    return f"{hour:02d}:{int(parts[2] or 0):02d}" if hour < 24 else None
