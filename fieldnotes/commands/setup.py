"""`fieldnotes setup`: a roster and an empty book."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.setup_roster import Answers


def setup(
    from_file: Annotated[Path | None, typer.Option("--from", help="Use this roster; ask nothing.")] = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Replace a roster that is there (it is kept beside the new one).")
    ] = False,
    home: HomeOption = None,
) -> None:
    """Make a roster and an empty book. A book that is there is never touched."""
    from fieldnotes.book import create_book, open_book
    from fieldnotes.home import find_home, make_home
    from fieldnotes.intake.files import body_text, guess_encoding, read_bytes
    from fieldnotes.roster import load_roster, parse_roster
    from fieldnotes.setup_roster import keep_old, roster_text, write_roster

    place = find_home(home)
    written_before = place.roster.exists() and not place.book.exists() and not from_file and not overwrite
    if written_before:
        load_roster(place.roster)  # written by hand before there was a book: only the book is made
        create_book(place.book, moment.stamp()).close()
        print(f"Roster: {place.roster} (was there already, left as it is)")
        print(f"Book:   {place.book}")
        return
    if place.roster.exists() and not overwrite:
        raise FieldnotesError(f"There is a roster at {place.roster} already. To replace it, say --overwrite.")
    if from_file:
        data = read_bytes(from_file)
        text = body_text(data, guess_encoding(data, str(from_file)))
        parse_roster(text, str(from_file))
    else:
        text = roster_text(_ask())
        parse_roster(text, "just written")
    make_home(place)
    kept = keep_old(place.roster, moment.now())
    write_roster(place.roster, text)
    if kept:
        print(f"The old roster is kept as {kept}.")
    print(f"Roster: {place.roster} (a text file: change it as you like)")
    if place.book.exists():
        open_book(place.book, moment.stamp()).close()
        print(f"Book:   {place.book} (was there already, left as it is)")
    else:
        create_book(place.book, moment.stamp()).close()
        print(f"Book:   {place.book}")


def _ask() -> Answers:
    from fieldnotes.roster import expand
    from fieldnotes.setup_roster import Answers

    answers = Answers(outfit=_prompt("What is the outfit called?"))
    while name := _prompt("A yard (just Enter when there are no more)"):
        while True:
            colonies = [part.strip() for part in _prompt(f"Colonies at {name}, such as 1-24, N1-N6").split(",")]
            colonies = [part for part in colonies if part]
            try:
                for part in colonies:
                    expand(part)
            except ValueError as error:
                print(f"{error}. Once more, please.")
                continue
            break
        answers.yards.append((name, colonies))
    while words := _prompt("A word of your own for a treatment, such as: greenies = amitraz strips (Enter when done)"):
        word, equals, meaning = (part.strip() for part in words.partition("="))
        if not (word and equals and meaning):
            print("Write it with an equals sign between the word and what it means.")
            continue
        answers.words[word.lower()] = meaning
    return answers


def _prompt(question: str) -> str:
    try:
        return str(typer.prompt(question, default="", show_default=False)).strip()
    except typer.Abort:
        raise FieldnotesError("The questions were not answered; nothing was made. Or use --from FILE.") from None
