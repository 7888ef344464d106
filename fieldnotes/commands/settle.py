"""`fieldnotes settle`: answer the open questions, one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import FieldnotesError
from fieldnotes.roster import colony_key, expand

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.home import Home
    from fieldnotes.records import StoredQuestion

NO_TREATMENT = "not a treatment"
NEW_COLONY = "new colony"
"""Choices of the reader's that mean something here."""


def settle(
    answer: Annotated[
        list[str] | None,
        typer.Option("--answer", help="question=answer, the question by its id or by the word it asks about."),
    ] = None,
    list_: Annotated[bool, typer.Option("--list", help="Only list the open questions.")] = False,
    home: HomeOption = None,
) -> None:
    """Answer the open questions. What a word means is kept in the roster, and earlier notes are read again with it."""
    from fieldnotes.commands.place import open_home

    with open_home(home) as (place, book):
        questions = book.open_questions()
        if answer:
            for given in answer:
                _take_answer(place, book, *_pick(questions, given))
            return
        if not questions:
            print("There is nothing to settle.")
        for question in questions:
            print(_shown(book, question))
            if not list_:
                words = typer.prompt("Answer (just Enter to leave it open)", default="", show_default=False).strip()
                if words:
                    _take_answer(place, book, question, words)


def _pick(questions: list[StoredQuestion], given: str) -> tuple[StoredQuestion, str]:
    which, equals, words = (part.strip() for part in given.partition("="))
    if not (which and equals and words):
        raise FieldnotesError(f'"{given}" does not say question=answer.')
    found = [q for q in questions if q.word.casefold() == which.casefold()]
    found = found or [q for q in questions if len(which) > 3 and q.id.startswith(which)]
    if len(found) != 1:
        many = "More than one open question is" if found else "No open question is"
        raise FieldnotesError(f'{many} about "{which}". `fieldnotes settle --list` shows them with their ids.')
    return found[0], words


def _take_answer(place: Home, book: Book, question: StoredQuestion, words: str) -> None:
    """Keep an answer, and do what follows from it."""
    words = _choice(question, words)
    match question.topic:
        case "unknown_word" if question.word:
            _learn_word(place, book, question, words)
        case "unknown_colony" if question.record_id:
            _settle_colony(place, book, question, words)
        case "left_out" if question.record_id and _ids(words):
            _settle_left_out(book, question, words)
        case _:
            _keep(book, question, words, {})


def _learn_word(place: Home, book: Book, question: StoredQuestion, meaning: str) -> None:
    from fieldnotes.commands.roster_edits import learn_word
    from fieldnotes.reader.outfit import Outfit
    from fieldnotes.roster import Roster

    learn_word(place.roster, question.word, meaning)
    batch = _keep(book, question, meaning, {"roster_word": question.word.lower()})
    taught = Outfit(Roster(words={question.word.lower(): meaning})).names
    if not any(name.label == "product" for name in taught) and meaning != NO_TREATMENT:
        print(f'No treatment is known as "{meaning}", so "{question.word}" now counts as none.')
    _read_again(place, book, _notes_with(book, question.word), batch)


def _settle_colony(place: Home, book: Book, question: StoredQuestion, words: str) -> None:
    """A colony not in the roster: a new one goes into it; another number mends the record."""
    from fieldnotes.book.acts import find_record, fix
    from fieldnotes.commands.roster_edits import learn_colonies
    from fieldnotes.roster import load_roster

    strange = [cid.strip() for cid in question.word.split(",")]
    held = find_record(book, question.record_id or "")
    yard = load_roster(place.roster).named(held.slots.get("yard", ""))
    if words == NEW_COLONY:
        data: dict[str, Any] = {"yard": yard.name, "colonies": strange} if yard else {}
        if yard:
            learn_colonies(place.roster, yard.name, strange)
        batch = _keep(book, question, words, data)
        same = [q.note_id for q in book.open_questions() if (q.topic, q.word) == (question.topic, question.word)]
        _read_again(place, book, same, batch)
        return
    meant = _ids(words)
    if len(meant) != len(strange):
        raise FieldnotesError(f'Say "{NEW_COLONY}", or which number was meant, such as {question.word}=12.')
    told = dict(zip(strange, meant, strict=True))
    slots = dict(held.slots)
    for slot in ("colonies", "except_colonies", "with"):
        if slot in slots:
            slots[slot] = sorted({told.get(cid, cid) for cid in slots[slot]}, key=colony_key)
    batch = _keep(book, question, words, {})
    fix(book, held, held.kind, slots, moment.stamp(), moment.user(), batch)


def _settle_left_out(book: Book, question: StoredQuestion, words: str) -> None:
    """Which hives "all but two hives" left out: the record is mended with their numbers."""
    from fieldnotes.book.acts import find_record, fix

    held = find_record(book, question.record_id or "")
    slots = {**held.slots, "except_colonies": sorted(set(_ids(words)), key=colony_key)}
    batch = _keep(book, question, words, {})
    fix(book, held, held.kind, slots, moment.stamp(), moment.user(), batch)


def _ids(words: str) -> list[str]:
    try:
        return [cid for part in words.split(",") for cid in expand(part) if any(c.isdigit() for c in cid)]
    except ValueError:
        return []


def _keep(book: Book, question: StoredQuestion, words: str, data: dict[str, Any]) -> int:
    from fieldnotes.book.acts import answer

    data = {"answer": words, "ask": question.ask} | data
    batch = answer(book, question.id, data, moment.stamp(), moment.user())
    print(f"Kept: {question.word or question.ask} = {words}")
    return batch


def _notes_with(book: Book, word: str) -> list[str]:
    return [note_id for note_id in book.taken_notes() if word.casefold() in book.note(note_id).text.casefold()]


def _read_again(place: Home, book: Book, note_ids: list[str], batch: int) -> None:
    from fieldnotes.commands.reread import apply, changed_notes
    from fieldnotes.roster import load_roster

    roster = load_roster(place.roster)
    apply(book, changed_notes(book, note_ids, roster), roster, batch)


def _choice(question: StoredQuestion, words: str) -> str:
    """A choice may be given by its number."""
    if words.isdigit() and 0 < int(words) <= len(question.choices):
        return question.choices[int(words) - 1]
    return words


def _shown(book: Book, question: StoredQuestion) -> str:
    from fieldnotes.book.plain_words import say_day
    from fieldnotes.commands.output import one_line

    note = book.note(question.note_id)
    by = f", {note.by}" if note.by else ""
    lines = [f"{question.id[:6]}  {question.ask}", f'        {say_day(question.said)}{by}: "{one_line(note.text)}"']
    lines += [f"        {n}) {choice}" for n, choice in enumerate(question.choices, 1)]
    return "\n".join(lines)
