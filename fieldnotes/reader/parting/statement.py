"""A statement: the marks that belong together, and look-ups in them."""

from __future__ import annotations

from dataclasses import dataclass, field

from fieldnotes.reader.mark import Mark

HEADS = frozenset(
    (
        "fact method mites clean percent value check agent form unit item feed harvest moisture queen_work change "
        "temp sky round"
    ).split()
)


@dataclass(slots=True)
class Statement:
    """The marks of one statement.

    `opens` is "line", "stop" or "soft": what stands before it. `line` numbers the lines of the message,
    `sentence` its sentences; `asked` is True where a question mark ends it; `bullet` True for the item of a list;
    `led` True where the colonies named last in its sentence stood before what was said of them.
    """

    marks: list[Mark] = field(default_factory=list)
    opens: str = "line"
    line: int = 0
    sentence: int = 0
    asked: bool = False
    bullet: bool = False
    blank_before: bool = False
    topic: bool = False
    led: bool = False
    by_label: dict[str, list[Mark]] | None = None
    words: frozenset[str] = frozenset()
    """What its marks say, once they are settled: "about" is in it where a mark says that and no more."""
    makes: bool = False
    """Whether one of them, once they are settled, can become a record."""

    def seal(self) -> None:
        """Sorts its marks by label, once they are settled: look-ups then need not go through them."""
        by_label: dict[str, list[Mark]] = {}
        for m in self.marks:
            if m.label in by_label:
                by_label[m.label].append(m)
            else:
                by_label[m.label] = [m]
        self.by_label = by_label
        self.words = frozenset([m.w for m in self.marks])
        self.makes = not HEADS.isdisjoint(by_label)

    def has(self, label: str, *more: str) -> bool:
        """Whether a mark of one of the labels is in it."""
        by_label = self.by_label
        if by_label is None:
            return any(m.label == label or m.label in more for m in self.marks)
        if label in by_label:
            return True
        for other in more:  # noqa: SIM110 (asked at every turn; a plain loop takes half the time)
            if other in by_label:
                return True
        return False

    def has_any(self, labels: frozenset[str]) -> bool:
        """Whether a mark of one of these labels is in it."""
        if self.by_label is not None:
            return not labels.isdisjoint(self.by_label)
        return any(m.label in labels for m in self.marks)

    def all(self, label: str, *more: str) -> list[Mark]:
        """Its marks of these labels, in order."""
        by_label = self.by_label
        if by_label is not None and not more:
            return list(by_label[label]) if label in by_label else []
        labels = (label, *more)
        if by_label is not None and by_label.keys().isdisjoint(labels):
            return []
        return [m for m in self.marks if m.label in labels]

    def first(self, label: str, *more: str) -> Mark | None:
        """The first of them, or None."""
        by_label = self.by_label
        if by_label is not None and not more:
            return by_label[label][0] if label in by_label else None
        labels = (label, *more)
        if by_label is not None and by_label.keys().isdisjoint(labels):
            return None
        return next((m for m in self.marks if m.label in labels), None)

    def has_head_but(self, label: str) -> bool:
        """Whether it says anything that can become a record, marks of `label` aside."""
        return any(m.label in HEADS and m.label != label for m in self.marks)

    @property
    def has_head(self) -> bool:
        """Whether it says anything that can become a record."""
        if self.by_label is not None:
            return self.makes
        return any(m.label in HEADS for m in self.marks)
