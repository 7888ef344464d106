"""The report on what treatments did, on one screen."""

from __future__ import annotations

import textwrap

from fieldnotes.digest.tables import table_lines
from fieldnotes.schedule.wording import id_ranges
from fieldnotes.schedule.worked import AgentResult, Level, Reduction, TreatmentResult, Worked

WIDTH = 110
NEWEST = 20
"""Treatments shown one by one; the JSON has all of them."""


def worked_json(report: Worked) -> str:
    """The report as JSON, indented by two, ending in a line break."""
    return report.model_dump_json(indent=2) + "\n"


def worked_text(report: Worked, outfit: str = "", part: bool = False) -> str:
    """The report as plain text: actives first, then advice, then the treatments, the newest first.

    `part` says that it is of one yard or one active.
    """
    lines = [f"{outfit}: did it work?" if outfit else "Did it work?", ""]
    if not report.treatments:
        none = "No such treatment is in the book." if part else "No treatment is in the book."
        return "\n".join([*lines, none]) + "\n"
    lines += _agents("BY ACTIVE", report.agents, with_yard=False)
    for sentence in report.advice:
        lines += _wrapped(sentence, "! ")
    if report.advice:
        lines.append("")
    lines += _treatments(report.treatments)
    if len({a.yard for a in report.yards}) > 1:
        lines += _agents("BY YARD", report.yards, with_yard=True)
    lines += _wrapped(
        "Fewer mites: percent, with the exact 95 % interval. A verdict goes by the interval, not by the percent alone. "
        f"Expected: {report.expectation}.",
        "",
    )
    return "\n".join(lines) + "\n"


def _agents(heading: str, agents: list[AgentResult], with_yard: bool) -> list[str]:
    head = ["active", "group", "years", "times", "counted", "worked", "short", "before", "after", "fewer mites"]
    rows = []
    for a in agents:
        row = [a.name, a.group or "-", id_ranges([str(y) for y in a.years])]
        row += [str(n) for n in (a.treatments, a.counted, a.worked, a.fell_short)]
        row += [_level(a.before), _level(a.after), _reduction(a.reduction)]
        rows.append([a.yard or "yard not said", *row] if with_yard else row)
    right = [3, 4, 5, 6, 7, 8]
    if with_yard:
        head, right = ["yard", *head], [n + 1 for n in right]
    return [heading, *table_lines(head, rows, right), ""]


def _treatments(treatments: list[TreatmentResult]) -> list[str]:
    head = ["in", "out", "yard", "treatment", "group", "hives", "counted", "before", "after", "fewer mites", "verdict"]
    rows = [
        [
            t.start,
            t.end or (f"{t.partly_out}, not all" if t.partly_out else "still in"),
            t.yard or "yard not said",
            t.name,
            t.group or "-",
            str(len(t.colonies)) if t.colonies else "?",
            str(t.counted),
            _level(t.before),
            _level(t.after),
            _reduction(t.reduction),
            t.verdict,
        ]
        for t in treatments[:NEWEST]
    ]
    lines = ["BY TREATMENT, the newest first", *table_lines(head, rows, [5, 6, 7, 8])]
    if len(treatments) > NEWEST:
        lines.append(f"and {len(treatments) - NEWEST} older ones")
    for t in treatments[:NEWEST]:
        if t.verdict in ("fell short", "can't tell") or t.against or (t.counted and t.beside):
            lines += _wrapped(_remark(t), "  ")
    return [*lines, ""]


def _remark(t: TreatmentResult) -> str:
    words = f"{t.start} {t.yard or ''} {t.name}: {t.says}."
    if t.against and t.against.percent is not None:
        words += (
            f" Against {t.controls} untreated {'colony' if t.controls == 1 else 'colonies'} of the yard: "
            f"{_reduction(t.against)} (Henderson-Tilton)."
        )
    if t.counted and t.beside:
        words += f" With {' and '.join(t.beside)} in at the same time: the counts tell of both together."
    return words + (f" {t.assumed[:1].upper()}{t.assumed[1:]}." if t.assumed else "")


def _level(level: Level | None) -> str:
    if level is None:
        return "-"
    return f"{level.rate:.1f}" if level.unit.endswith("bees") else f"{level.rate:.1f}/day"


def _reduction(found: Reduction | None) -> str:
    if found is None or found.percent is None:
        return "-"
    low = f"{found.lower:.0f}" if found.lower is not None else "?"
    high = f"{found.upper:.0f}" if found.upper is not None else "?"
    return f"{found.percent:.0f} % ({low} to {high})"


def _wrapped(text: str, lead: str) -> list[str]:
    return textwrap.wrap(" ".join(text.split()), WIDTH, initial_indent=lead, subsequent_indent=" " * len(lead))
