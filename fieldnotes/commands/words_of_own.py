"""The outfit's own words in its roster: adding one, and taking it out again, with the file's comments left alone."""

from __future__ import annotations

from pathlib import Path

from fieldnotes.errors import FieldnotesError
from fieldnotes.roster import parse_roster
from fieldnotes.setup_roster import write_roster


def learn_word(roster: Path, word: str, meaning: str) -> None:
    """Put `word = "meaning"` under [words].

    Raises:
        FieldnotesError: the roster cannot be read or written.
    """
    import tomlkit

    document = tomlkit.parse(_text(roster))
    if "words" not in document:
        document["words"] = tomlkit.table()
    document["words"][word.lower()] = meaning
    text = tomlkit.dumps(document)
    parse_roster(text, str(roster))
    write_roster(roster, text)


def forget_word(roster: Path, word: str, meaning: str) -> None:
    """Take the word out again, if it still means that."""
    import tomlkit

    document = tomlkit.parse(_text(roster))
    words = document.get("words", {})
    if words.get(word.lower()) == meaning:
        del words[word.lower()]
        write_roster(roster, tomlkit.dumps(document))


def _text(roster: Path) -> str:
    try:
        text = roster.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise FieldnotesError(f"The roster {roster} cannot be read as text: {error}.") from None
    parse_roster(text, str(roster))
    return text
