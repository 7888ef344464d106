"""What answers put into the roster, and take out again when undone; the file's comments are left alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from fieldnotes.errors import FieldnotesError
from fieldnotes.roster import parse_roster
from fieldnotes.setup_roster import write_roster


def learn_word(roster: Path, word: str, meaning: str) -> None:
    """Put `word = "meaning"` under [words].

    Raises:
        FieldnotesError: the roster cannot be read or written. So for all of these.
    """
    import tomlkit

    with _edited(roster) as document:
        if "words" not in document:
            document["words"] = tomlkit.table()
        document["words"][word.lower()] = meaning


def forget_word(roster: Path, word: str, meaning: str) -> None:
    """Take the word out again, if it still means that."""
    with _edited(roster) as document:
        words = document.get("words", {})
        if words.get(word.lower()) == meaning:
            del words[word.lower()]


def learn_colonies(roster: Path, yard: str, ids: Sequence[str]) -> None:
    """Add colonies to a yard that the roster knows."""
    with _edited(roster) as document:
        for entry in document.get("yard", []):
            if entry["name"] == yard:
                entry.setdefault("colonies", []).extend(ids)


def forget_colonies(roster: Path, yard: str, ids: Sequence[str]) -> None:
    """Take the colonies out again, where they stand by themselves."""
    with _edited(roster) as document:
        for entry in document.get("yard", []):
            if entry["name"] == yard:
                for cid in ids:
                    if cid in entry.get("colonies", []):
                        entry["colonies"].remove(cid)


@contextmanager
def _edited(roster: Path) -> Iterator[Any]:
    """The roster as a document to change; written back if it is still a good one."""
    import tomlkit

    try:
        before = roster.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise FieldnotesError(f"The roster {roster} cannot be read as text: {error}.") from None
    parse_roster(before, str(roster))
    document = tomlkit.parse(before)
    yield document
    after = tomlkit.dumps(document)
    parse_roster(after, str(roster))
    if after != before:
        write_roster(roster, after)
