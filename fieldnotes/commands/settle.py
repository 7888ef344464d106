"""`fieldnotes settle`: answer the open questions, one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.book import Book
    from fieldnotes.home import Home
    from fieldnotes.records import StoredQuestion


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
    from fieldnotes.book import acts
    from fieldnotes.commands.reread import apply, changed_notes
    from fieldnotes.commands.words_of_own import learn_word
    from fieldnotes.roster import load_roster

    words = _choice(question, words)
    data = {"answer": words, "ask": question.ask}
    to_roster = question.topic == "unknown_word" and bool(question.word)
    if to_roster:
        learn_word(place.roster, question.word, words)
        data["roster_word"] = question.word.lower()
    batch = acts.answer(book, question.id, data, moment.stamp(), moment.user())
    print(f"Kept: {question.word or question.ask} = {words}")
    if to_roster:
        roster = load_roster(place.roster)
        about = [n for n in book.taken_notes() if question.word.casefold() in book.note(n).text.casefold()]
        apply(book, changed_notes(book, about, roster), roster, batch)


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
