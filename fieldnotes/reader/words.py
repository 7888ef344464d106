"""The words of a message, and the numbers found in them so far."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldnotes.reader.numbers import Number


class Words(list[str]):
    """Words that stay as they are, so that what number begins where is worked out once."""

    numbers: dict[int, Number | None]
