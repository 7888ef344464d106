"""Cuts a note into tokens: spaCy's Doc, our own cuts.

spaCy's English rules would cut "gonna" in two and leave "3/300" and "L1-L12" whole. Here a token is a
word with its apostrophes, a number with its decimals, an id such as "L4", an ordinal such as "14th",
one sign, or white space that is not a single blank. The text of the Doc is the text of the note, always.
"""

from __future__ import annotations

import re

from spacy.tokenizer import Tokenizer  # type: ignore[import-not-found]  # compiled, without type hints
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


def tokenizer(vocab: Vocab) -> Tokenizer:
    """spaCy's tokenizer with our cuts: it cuts at blanks, then each stretch at every token of ours that is in it."""
    return Tokenizer(vocab, infix_finditer=_TOKEN.finditer)
