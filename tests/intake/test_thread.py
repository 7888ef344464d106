"""Pasted threads: whose each message is, and when it was sent, in the forms in which threads are pasted."""

import pytest

from fieldnotes.intake.thread import messages
from fieldnotes.records import Note

PEOPLE = ("ada", "bo")


def sent(text: str) -> list[tuple[str | None, str, str]]:
    """Sender, time and words of each message of a note that Cy sends on 10 November 2026 at 9:00."""
    parts = messages(Note(text=text, received="2026-11-10T09:00", by="Cy"), PEOPLE)
    return [(p.by, p.received, text[p.start : p.end].strip()) for p in parts]


@pytest.mark.parametrize(
    "text",
    [
        "Ada » 08/11/26 16:20\nvapour in 5\nBo » 09/11/26 12:02\nvapour in 6",
        "Ada › 8 Nov 16:20: vapour in 5\nBo › 9 Nov 12:02: vapour in 6",
        "Ada • Nov 8, 4:20 PM\nvapour in 5\nBo • Nov 9, 12:02 PM\nvapour in 6",
        "Ada / 8 Nov 16:20 / vapour in 5\nBo / 9 Nov 12:02 / vapour in 6",
        "8 Nov 16:20 → Ada → vapour in 5\n9 Nov 12:02 → Bo → vapour in 6",
        "[Ada 8/11/2026 16:20] vapour in 5\n[Bo 9/11/2026 12:02] vapour in 6",
        "[08.11.26, 16:20:11] Ada: vapour in 5\n[09.11.26, 12:02:40] Bo: vapour in 6",
        "**Ada** 8 Nov 16:20\nvapour in 5\n**Bo** 9 Nov 12:02\nvapour in 6",
        "Ada, 8 Nov 16h20: vapour in 5\nBo, 9 Nov 12h02: vapour in 6",
        "Ada on Nov 8 at 4:20 pm: vapour in 5\nBo on Nov 9 at 12:02 pm: vapour in 6",
        "Fwd from Ada (8 Nov 16:20):\nvapour in 5\n\nfwd from Bo 9 Nov 12:02\nvapour in 6",
        "Text from Ada, 8 Nov 4:20 pm: vapour in 5\nVoicemail from Bo, 9 Nov 12:02: vapour in 6",
    ],
)
def test_forms(text: str) -> None:
    assert sent(text) == [
        ("Ada", "2026-11-08T16:20", "vapour in 5"),
        ("Bo", "2026-11-09T12:02", "vapour in 6"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Forwarded from Ada, 8 Nov 2026 16:20:\n> vapour in 5\nand I did 6",
        "Ada wrote on 8 Nov 2026 at 16:20:\n> vapour in 5\n\nand I did 6",
        "On Sun, Nov 8, 2026 at 4:20 PM Ada wrote:\n> vapour in 5\n\nand I did 6",
        "> Ada, 8 Nov 16:20: vapour in 5\nand I did 6",
    ],
)
def test_quoted(text: str) -> None:
    ada, cy = sent(text)
    assert ada[:2] == ("Ada", "2026-11-08T16:20")
    assert ada[2].strip("> ") == "vapour in 5"
    assert cy == ("Cy", "2026-11-10T09:00", "and I did 6")


def test_quoted_in_what_is_quoted() -> None:
    text = "On Nov 9 at 12:02 Bo wrote:\n> in 6\n> On Nov 8 at 16:20 Ada wrote:\n>> in 5\nand I did 7"
    assert [part[0] for part in sent(text)] == ["Bo", "Ada", "Cy"]


@pytest.mark.parametrize(
    "text",
    [
        "Ada wrote:\n> vapour in 5\nBo wrote:\n> and 6",
        "From Ada:\nvapour in 5\nFrom Bo:\nand 6",
        "Ada> vapour in 5\nBo> and 6",
    ],
)
def test_no_times(text: str) -> None:
    assert [part[0] for part in sent(text)] == ["Ada", "Bo"]


@pytest.mark.parametrize(
    "text",
    [
        "text from the county: spray at 9:30 near Heath",
        "note: 4 » 5 moved at 9:30",
        "Ada said 4 at 9:30 needs a super",
        "Low Field • 12 hives\nHeath • 9 hives",
        "forwarded the bill for 12.50 to Ada: pay it",
    ],
)
def test_no_thread(text: str) -> None:
    assert [part[0] for part in sent(text)] == ["Cy"]
