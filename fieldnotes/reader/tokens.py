"""Cuts a note into tokens: spaCy's Doc, our own cuts.

spaCy's English rules would cut "gonna" in two and leave "3/300" and "L1-L12" whole. Here a token is a
word with its apostrophes, a number with its decimals, an id such as "L4", an ordinal such as "14th",
one sign, or white space that is not a single blank. The text of the Doc is the text of the note, always.
"""

from __future__ import annotations

import re

from spacy.tokens import Doc
from spacy.vocab import Vocab

_TOKEN = re.compile(
    r"\d+(?:st|nd|rd|th)(?![^\W\d_])"  # 14th
    r"|(?<![,;\w])\d{1,3}(?:,\d{3})+(?![\d,])"  # 3,000
    r"|\d{1,2}\.\d{1,2}\.(?:\d{4}|\d{2})(?!\d|\.\d)"  # 3.6.2026
    r"|\d+\.\d+(?!\d|\.\d)|(?<![\d.])\.\d+(?![.\d])|\d+"  # 17.5, .5, 12
    r"|(?:[A-Za-z]{1,2}\d+)(?![^\W_])"  # L4, QB2
    r"|[^\W\d_]+(?:['’][^\W\d_]+)*"  # wen's
    r"|\s+|.",
    re.DOTALL | re.IGNORECASE,
)


def pieces(text: str) -> list[str]:
    """The tokens of `text`, white space among them; joined they are the text again."""
    return _TOKEN.findall(text)


class Tokenizer:
    """A spaCy tokenizer: text → Doc."""

    def __init__(self, vocab: Vocab) -> None:
        self.vocab = vocab

    def __call__(self, text: str) -> Doc:
        """The Doc of `text`; a single blank after a token is its trailing space, other white space a token."""
        words: list[str] = []
        spaces: list[bool] = []
        for piece in _TOKEN.findall(text):
            if piece == " " and words and not spaces[-1] and not words[-1].isspace():
                spaces[-1] = True
            else:
                words.append(piece)
                spaces.append(False)
        doc = Doc(self.vocab, words=words, spaces=spaces)
        doc.user_data["words"] = words
        doc.user_data["spaces"] = spaces
        return doc
