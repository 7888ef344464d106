"""The digest as one HTML page: nothing to fetch, nothing to run, good on a phone and on paper."""

from __future__ import annotations

import datetime
import html
from collections.abc import Iterator, Sequence
from pathlib import Path

from fieldnotes.digest.layout import NOTHING, printable, says_there, sections, title, when, window
from fieldnotes.records import Due


def morning_page(items: Sequence[Due], day: datetime.date, outfit: str = "") -> str:
    """The digest as a whole HTML document, the same bytes for the same items and day."""
    return "\n".join(_lines(items, day, outfit)) + "\n"


def _lines(items: Sequence[Due], day: datetime.date, outfit: str) -> Iterator[str]:
    style = Path(__file__).with_name("page.css").read_text(encoding="utf-8")
    parts = sections(items)
    yield "<!doctype html>"
    yield '<html lang="en">'
    yield "<head>"
    yield '<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield '<meta name="color-scheme" content="light dark">'
    yield f"<title>{_escaped(title(day, outfit))}</title>"
    yield f"<style>\n{style}</style>"
    yield "</head>"
    yield "<body>"
    yield "<header>"
    yield f"<h1>{_escaped(title(day, outfit))}</h1>"
    links = (f'<a href="#{part.name}">{part.words}</a>' for part in parts)
    yield f"<p>{', '.join(links)}.</p>" if parts else f"<p>{NOTHING}</p>"
    yield "</header>"
    yield "<main>"
    for part in parts:
        yield f'<section id="{part.name}" aria-labelledby="{part.name}-heading">'
        yield f'<h2 id="{part.name}-heading">{part.heading} ({part.count})</h2>'
        for truck in part.trucks:
            if truck.heading:
                yield f'<h3 class="truck">{_escaped(truck.heading)}</h3>'
            level = "h4" if truck.heading else "h3"
            for yard in truck.yards:
                yield f"<{level}>{_escaped(yard.name)}</{level}>"
                yield "<ul>"
                for item in yard.items:
                    yield from _item(item, day)
                yield "</ul>"
        yield "</section>"
    yield "</main>"
    yield "</body>"
    yield "</html>"


def _item(item: Due, day: datetime.date) -> Iterator[str]:
    yield f'<li id="{_escaped(item.id)}">'
    late, good = when(item, day), window(item, day)
    if late:
        yield f'<p><span class="when">{late}</span> <span class="window">({good})</span></p>'
    yield f'<p class="says">{_escaped(says_there(item))}</p>'
    if not item.sure:
        yield '<p class="unsure">Not certain: the grounds say what was assumed.</p>'
    if item.caution:
        yield f'<p class="caution"><strong>Take care:</strong> {_escaped(item.caution)}</p>'
    if item.because.reason:
        yield f"<details><summary>Why</summary><p>{_escaped(item.because.reason)}</p></details>"
    yield "</li>"


def _escaped(text: str) -> str:
    return html.escape(printable(text))
