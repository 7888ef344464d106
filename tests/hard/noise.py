"""Notes as no person would write them: real ones cut, doubled and shuffled, with noise of every kind thrown in."""

import json
import random
from pathlib import Path

from fieldnotes.intake.files import Arrival, minute

SAMPLES = Path(__file__).parents[2] / "sample_notes" / "notes.jsonl"
ODD = (
    "\x00", "\ud800", "\udfff", "\ufeff", "\u202e", "\u200d", "\u0301", "\u2028", "\x85", "\r", "\n", "\t", "\xa0",
    "\U0001f41d", "\U0001f468\u200d\U0001f33e", "شهد العسل", "蜂", "ñ", "½", "²", "¹²", "٣", "²³/₁", "1e999", "-0",
    "99999999999999999999", "0.0.0", "1/0", "12:61", "2026-02-30", "13/13", "#", "%", "'", '"', "\\", ";--", "$(x)",
    "%s", "{}", "<b>", "Ann, 6/1 8:05 am: ", "[6/1/26, 8:05] Ann: ", "> > ", "scratch that ", "no wait ",
    "same for 15 ", "all but ", "the rest ", "both ", "those ", "next ", "last ", " and ", " or ", " to ", "half ",
)  # fmt: skip


def pieces() -> list[str]:
    """The words of the sample notes."""
    texts = [json.loads(line)["text"] for line in SAMPLES.read_text(encoding="utf-8").splitlines()]
    return [word for text in texts for word in text.split(" ")]


def noisy(chance: random.Random, words: list[str]) -> str:
    """One such note; never one that is empty."""
    text: list[str] = []
    for _ in range(chance.randrange(1, 40)):
        start = chance.randrange(len(words))
        match chance.randrange(8):
            case 0:
                text.append(chance.choice(ODD))
            case 1:
                text.append("".join(chr(chance.randrange(1, 0x11000)) for _ in range(chance.randrange(1, 6))))
            case 2:
                word = words[start]
                cut = chance.randrange(len(word) + 1)
                text.append(word[cut:] + word[:cut])
            case 3:
                text.append(str(chance.randrange(10 ** chance.randrange(1, 12))))
            case _:
                text.append(" ".join(words[start : start + chance.randrange(1, 8)]))
    return chance.choice((" ", " ", " ", "", "\n", ", ")).join(text) + "x"


def paste(chance: random.Random, words: list[str]) -> str:
    """A pasted thread of such notes, its heads of every shape, some of them broken, some messages twice."""
    heads = ("[6/{d}/26, 8:0{m} AM] {who}: ", "{who}, 6/{d} 8:0{m} am: ", "2026-06-0{d} 08:0{m} {who}: ", "{who}: ",
             "{who} - 6/{d}/26 8:0{m} am\n", "> 8:0{m} {who}: ", "On 6/{d}/26, {who} wrote:\n> ",
             "{d}/6/26\n8:0{m} {who}: ", "[{d}/13/26, 25:0{m}] {who}: ")  # fmt: skip
    shape = chance.choice(heads)
    parts = []
    for _ in range(chance.randrange(2, 7)):
        head = (chance.choice(heads) if chance.random() < 0.2 else shape).format(
            d=chance.randrange(1, 10), m=chance.randrange(10), who=chance.choice(("Ann", "Bo Lee", "+1 555 0100", "ü"))
        )
        parts.append(head + noisy(chance, words)[:300])
    return "\n".join(parts + parts[: chance.randrange(2)])


def arrival(text: str, number: int) -> Arrival:
    """The note of that text, of a minute of its own."""
    received = f"20{number // 525_600 % 90 + 10:02d}-{number % 12 + 1:02d}-{number % 28 + 1:02d}T07:{number % 60:02d}"
    return Arrival(text.encode("utf-8", "surrogatepass"), "utf-8", received, f"{minute(received)} {number}", None, "-")
