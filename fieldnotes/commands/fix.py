"""`fieldnotes fix`: mend a record by hand, or reject it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Annotated, Any

import typer

from fieldnotes.commands import moment
from fieldnotes.commands.options import HomeOption
from fieldnotes.errors import FieldnotesError

if TYPE_CHECKING:
    from fieldnotes.book.acts import Held
    from fieldnotes.home import Home


def fix(
    record: Annotated[str, typer.Argument(help="The record's id, or its first characters, as `take` prints it.")],
    set_: Annotated[
        list[str] | None, typer.Option("--set", help="slot=value; an empty value takes the slot out.")
    ] = None,
    kind: Annotated[str | None, typer.Option("--kind", help="Make it a record of this kind.")] = None,
    reject: Annotated[bool, typer.Option("--reject", help="Take the record out: it never happened.")] = False,
    home: HomeOption = None,
) -> None:
    """Mend a record (in your editor, or by --set), or reject it. What was read stays in the book's history.

    A record that was rejected is in the book again when it is mended.
    """
    from fieldnotes.book import acts
    from fieldnotes.book.plain_words import describe
    from fieldnotes.commands.place import open_home

    if reject and (set_ or kind):
        raise FieldnotesError(
            "--reject takes the whole record out: it goes without --set and --kind. Nothing was done."
        )
    with open_home(home) as (place, book):
        held = acts.find_rejected(book, record) or acts.find_record(book, record)
        if reject and held.rejected:
            raise FieldnotesError(f"Record {held.id[:6]} was rejected before; `--set slot=value` takes it in again.")
        if reject:
            acts.reject(book, held, moment.stamp(), moment.user())
            print(f"Rejected: {describe(held.kind, held.slots)}")
            return
        new_kind, slots = _by_options(held, kind, set_ or []) if set_ or kind else _in_editor(held)
        if (new_kind, slots) == (held.kind, held.slots) and not (held.rejected and set_):
            print("Nothing was changed.")
            return
        _name_yards(slots, held, place)
        acts.fix(book, held, new_kind, slots, moment.stamp(), moment.user())
        since = " (rejected)" if held.rejected else ""
        print(f"It was: {describe(held.kind, held.slots)}{since}\nNow:    {describe(new_kind, slots)}")


def _by_options(held: Held, kind: str | None, settings: list[str]) -> tuple[str, dict[str, Any]]:
    from fieldnotes.book.slots import slot_value, slots_of

    kind = kind or held.kind
    slots = {slot: value for slot, value in held.slots.items() if slot in slots_of(kind)}
    for setting in settings:
        slot, equals, words = setting.partition("=")
        if not equals:
            raise FieldnotesError(f'"{setting}" does not say slot=value.')
        if words.strip():
            slots[slot.strip()] = slot_value(kind, slot.strip(), words)
        elif slot.strip() not in slots_of(kind):
            slot_value(kind, slot.strip(), words)
        else:
            slots.pop(slot.strip(), None)
    return kind, slots


def _name_yards(slots: dict[str, Any], held: Held, place: Home) -> None:
    """Yards that were typed, by their names in the roster; the schedule knows a yard by nothing else.

    Raises:
        FieldnotesError: there is no such yard in the roster.
    """
    from fieldnotes.roster import load_roster

    for slot in ("yard", "to_yard"):
        words = slots.get(slot)
        if words is not None and words != held.slots.get(slot):
            roster = load_roster(place.roster)
            names = {name.casefold(): yard.name for yard in roster.yard for name in (*yard.also, yard.name)}
            if names and words.casefold() not in names:
                raise FieldnotesError(
                    f'There is no yard "{words}" in the roster. Name one of {", ".join(y.name for y in roster.yard)}, '
                    f"or add it to {place.roster} first."
                )
            slots[slot] = names.get(words.casefold(), words)


def _in_editor(held: Held) -> tuple[str, dict[str, Any]]:
    from fieldnotes.book.slots import slot_value, slots_of

    lines = [f"kind = {held.kind}", *(f"{slot} = {_typed(value)}" for slot, value in held.slots.items())]
    help_lines = [
        "# Change the values, add slots or take lines out; save and close. Lines with # are ignored.",
        f"# A {held.kind} may have: {', '.join(slots_of(held.kind))}",
    ]
    import click

    try:
        edited = click.edit("\n".join([*lines, "", *help_lines, ""]), extension=".txt")
    except click.ClickException as error:
        raise FieldnotesError(
            f"The editor did not work: {error.format_message()}. Name another in $EDITOR, or use --set slot=value."
        ) from None
    if edited is None:
        return held.kind, held.slots
    pairs: dict[str, str] = {}
    for line in edited.splitlines():
        if line.strip() and not line.lstrip().startswith("#"):
            slot, equals, words = line.partition("=")
            if not equals:
                raise FieldnotesError(f'The line "{line.strip()}" does not say slot = value; nothing was changed.')
            pairs[slot.strip()] = words.strip()
    if not pairs:
        raise FieldnotesError("Nothing was left in the editor, so nothing was changed; --reject takes the record out.")
    kind = pairs.pop("kind", held.kind)
    return kind, {slot: slot_value(kind, slot, words) for slot, words in pairs.items()}


def _typed(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return ", ".join(value) if isinstance(value, list) else value if isinstance(value, str) else json.dumps(value)
