"""The reader: a note and a roster in, a reading out. A pure function; no clock, no book, no network.

The stages are the components of a spaCy pipeline over `spacy.blank("en")`, each in its own module:
hear (what was meant), mark (which spans mean something), clause (where statements end). What needs more
than one message of a note (who said what, which yard still holds) is in `record`.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from datetime import date
from typing import Any

import spacy
from spacy.language import Language
from spacy.tokens import Doc
from spacy.util import registry

from fieldnotes.intake.thread import messages
from fieldnotes.reader import clause, columns, fields, group, hear, inorder, putright, table
from fieldnotes.reader.grouping import totals
from fieldnotes.reader.leftovers import leftovers, merge_spans
from fieldnotes.reader.making import reporting
from fieldnotes.reader.making.message import Thread
from fieldnotes.reader.mark import Mark
from fieldnotes.reader.marking.row import marks_of
from fieldnotes.reader.outfit import Outfit, outfit_of
from fieldnotes.reader.record import read_message
from fieldnotes.reader.tokens import tokenizer
from fieldnotes.records import ORDER, Note, Question, Reading
from fieldnotes.roster import Roster


@Language.component("fieldnotes_hear")
def _hear(doc: Doc) -> Doc:
    doc.user_data["heard"] = hear.hear(doc, doc.user_data["outfit"])
    return doc


@Language.component("fieldnotes_mark")
def _mark(doc: Doc) -> Doc:
    outfit = doc.user_data["outfit"]
    row = table.read_tables(fields.read_fields(marks_of(doc.user_data["heard"], outfit)), outfit)
    row = totals.parts_of_a_sum(columns.spoken_columns(row, outfit))
    anew = putright.bare_noes(row)
    row = group.group(
        row, outfit, checking=doc.user_data["checking"] or not group.CHECK_LABELS.isdisjoint([m.label for m in row])
    )
    doc.user_data["marks"], correcting = putright.put_right(inorder.counts_in_order(row))
    doc.user_data["correcting"] = correcting or anew
    return doc


@Language.component("fieldnotes_clause")
def _clause(doc: Doc) -> Doc:
    doc.user_data["statements"] = clause.split(doc.user_data["marks"])
    return doc


def _make_tokenizer() -> Callable[[Language], Any]:
    return lambda nlp: tokenizer(nlp.vocab)


registry.tokenizers.register("fieldnotes.tokenizer", func=_make_tokenizer)


MOST_WORDS = 100_000
"""Different words that spaCy may remember."""
_nlp: Language | None = None
_components: tuple[Callable[[Doc], Doc], ...] = ()
"""Those of `_nlp`, in order: spaCy makes the list anew each time it is asked for it."""


def pipeline() -> Language:
    """The spaCy pipeline, made once, and again when its vocabulary has grown: memory must not grow with the notes."""
    global _nlp, _components
    if _nlp is None or len(_nlp.vocab) > MOST_WORDS:
        nlp = spacy.blank("en", config={"nlp": {"tokenizer": {"@tokenizers": "fieldnotes.tokenizer"}}})
        nlp.max_length = 10**9
        for name in ("fieldnotes_hear", "fieldnotes_mark", "fieldnotes_clause"):
            nlp.add_pipe(name)
        _nlp, _components = nlp, tuple(component for _, component in nlp.pipeline)
    return _nlp


def parse(text: str, outfit: Outfit, checking: bool = False) -> Doc:
    """The Doc of one message, with its words heard, its marks and its statements in `user_data`."""
    doc = pipeline().tokenizer(text)
    doc.user_data.update(outfit=outfit, checking=checking)
    for component in _components:
        doc = component(doc)
    return doc


def read(note: Note, roster: Roster | None = None, marks: list[Mark] | None = None) -> Reading:
    """What the note says.

    Args:
        note: the text, when it came (ISO 8601, local) and who sent it.
        roster: the outfit; without one, reading works by the words alone.
        marks: where a list is given, the marks found are added to it, for people who ask why.

    Returns:
        The reading: records in the order said, spans as offsets into `note.text`, leftovers, questions.
    """
    outfit = outfit_of(roster or Roster())
    thread = Thread(outfit)
    parts = messages(note, outfit.people, outfit.roster.day_first)
    skipped: list[tuple[int, int]] = []
    at = 0
    for part in parts:
        if part.start > at:
            skipped.append((at, part.start))
        at = part.end
    if len(parts) == 1 and parts[0].start == 0:
        skipped = []
    for part in parts:
        sender = _known(part.by, outfit)
        follows_check = bool(thread.drafts) and any(d.kind == "mite_check" for d in thread.drafts[-3:])
        doc = parse(note.text[part.start : part.end], outfit, checking=follows_check and part is not parts[0])
        statements = doc.user_data["statements"]
        for m in doc.user_data["marks"] if part.start else ():
            m.s += part.start
            m.e += part.start
            if "struck" in m.v:
                m.v["struck"] = [(a + part.start, b + part.start) for a, b in m.v["struck"]]
        if marks is not None:
            marks += doc.user_data["marks"]
        if (speaker := reporting.speaker(statements)) is not None:
            sender = speaker.v["value"]
            thread.used.append((speaker.s, speaker.e))
        first = len(thread.drafts)
        read_message(thread, statements, date.fromisoformat(part.received[:10]), sender, doc.user_data["correcting"])
        for draft in thread.drafts[first:]:
            if "by" not in draft.slots and sender is not None:
                draft.put("by", sender, "sender")
    _headings_to_records(thread, [part.start for part in parts])
    return _reading(note, thread, skipped)


def _headings_to_records(thread: Thread, starts: list[int]) -> None:
    """Ties each heading (a yard, a day, a method over a list) to the first record below it in its message, which it
    helped to make. A heading with no record below it stays untied, and so becomes a leftover.
    """
    placed = sorted((min(draft.spans), k) for k, draft in enumerate(thread.drafts) if draft.spans)
    for span in thread.used:
        at = bisect_right(placed, (span, len(placed)))
        if at < len(placed) and bisect_right(starts, placed[at][0][0]) == bisect_right(starts, span[0]):
            thread.drafts[placed[at][1]].spans.append(span)


def _known(name: str | None, outfit: Outfit) -> str | None:
    """The roster's name for a sender."""
    if name is None:
        return None
    low = name.lower().lstrip("@")
    for person in outfit.roster.person:
        if (
            low == person.name.lower()
            or low in (a.lower() for a in person.also)
            or low.split()[:1] == [person.name.lower()]
        ):
            return person.name
    return name


_PLACE = {slot: place for place, slot in enumerate(ORDER)}


def _reading(note: Note, thread: Thread, skipped: list[tuple[int, int]]) -> Reading:
    records: list[dict[str, Any]] = []
    taken: list[tuple[int, int]] = []
    questions: list[Question] = []
    for draft in thread.drafts:
        spans = merge_spans([s for s in draft.spans if s[1] > s[0]], note.text)
        taken += spans
        if "queen_cells" in draft.slots:
            draft.slots.pop("cells_seen", None)
        placed = sorted([(_PLACE[k], k) for k in draft.slots if k in _PLACE])
        slots: dict[str, Any] = {k: draft.slots[k] for _, k in placed}
        why = {k: v for k, v in draft.why.items() if k in slots}
        records.append({"kind": draft.kind, "slots": slots, "spans": spans, "why": why})
    outfit = thread.outfit
    for asked_of, ask, choices, topic, word in thread.questions:
        about = next((k for k, d in enumerate(thread.drafts) if d is asked_of), None)
        questions.append(Question(about=about, ask=ask, choices=choices, topic=topic, word=word))
    if outfit.known:
        asked: set[str] = set()
        for index, record in enumerate(records):
            for question in _unknown_colonies(index, record["kind"], record["slots"], outfit):
                if question.ask not in asked:  # one note asks once
                    asked.add(question.ask)
                    questions.append(question)
    left = [{"start": s, "end": e, "text": note.text[s:e]} for s, e in leftovers(note.text, taken, skipped)]
    # pydantic makes the records and leftovers of a reading faster from plain values than one by one
    return Reading.model_validate({"id": note.id, "records": records, "leftovers": left, "questions": questions})


def _unknown_colonies(index: int, kind: str, slots: dict[str, Any], outfit: Outfit) -> list[Question]:
    yard: str | None = slots.get("yard")
    ids: list[str] = [*slots.get("colonies", ()), *slots.get("except_colonies", ())]
    if yard is not None and yard not in outfit.yard_ids:
        return []
    if kind == "change" and slots.get("step") in ("nuc_made", "split", "swarm_caught", "bought"):
        return []
    strange = [cid for cid in ids if cid not in outfit.ids]
    if not strange:
        return []
    where = f" at {yard}" if yard else ""
    plural = len(strange) > 1
    ask = (
        f"{'Colonies' if plural else 'Colony'} {', '.join(strange)}{where} {'are' if plural else 'is'} "
        "not in the roster. "
        f"{'Are they' if plural else 'Is it'} new, or was another number meant?"
    )
    return [
        Question(
            about=index,
            ask=ask,
            choices=["new colony", "another number"],
            topic="unknown_colony",
            word=", ".join(strange),
        )
    ]
