"""`fieldnotes worked` and `fieldnotes register`, as the command line takes them."""

from __future__ import annotations

from typing import Annotated

import typer

from fieldnotes.commands.options import DayOption, HomeOption, day_asked


def worked(
    yard: Annotated[str | None, typer.Option("--yard", help="Only this yard.")] = None,
    agent: Annotated[str | None, typer.Option("--agent", help='Only this active, such as "oxalic acid".')] = None,
    on: DayOption = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the report as JSON.")] = False,
    home: HomeOption = None,
) -> None:
    """Show what each treatment did, by the counts before and after it."""
    from fieldnotes.commands.worked import show_worked

    show_worked(home, day_asked(on), yard, agent, as_json)


def register(
    year: Annotated[int | None, typer.Option("--year", help="Only this year.")] = None,
    form: Annotated[str, typer.Option("--form", help="table, csv, or page (to print).")] = "table",
    on: DayOption = None,
    home: HomeOption = None,
) -> None:
    """Show the treatment register: what went in and out, where, when, by whom. Gaps are shown, not filled."""
    from fieldnotes.commands.register import show_register

    show_register(home, day_asked(on), year, form)
