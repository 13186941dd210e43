"""`hangarleaf fleet`: the shop's aircraft and what is fitted to them."""

import datetime
from pathlib import Path

import click

from indexer.library.fleet_records import FittedKind
from server.commands import csv_lists
from server.commands.options import json_option, library_option, opened, who_option, why_option

_HELD = "The day it was held against the aircraft"
on_option = click.option("--on", default="", metavar="DATE", help=f"{_HELD}; else today.")
entered_on_option = click.option(
    "--on", default="", metavar="DATE", help=f"{_HELD} by --who; without it the row is never confirmed."
)


@click.group()
def fleet() -> None:
    """The shop's aircraft: list them, add, change, confirm and remove them, as CSV too."""


@fleet.command("list")
@json_option
@library_option
def list_fleet(as_json: bool, library: str | None) -> None:
    """Show every aircraft with what is fitted, and when each row was confirmed."""
    from indexer.library.day import today
    from indexer.library.fleet import fleet as rows_of
    from server import console
    from server.fleet import fleet_list

    with opened(library) as held:
        if as_json:
            return console.show_json(fleet_list(held))
        rows, on = rows_of(held.catalogue), today(held.catalogue)
    for row in rows:
        _show(row, on)
    if not rows:
        click.echo("The fleet list is empty.")


@fleet.command()
@click.argument("registration")
@click.option("--model", required=True, help="As the data plate has it.")
@click.option("--serial", default="", help="Serial number of the airframe; it is not the registration.")
@click.option("--maker", default="", help="Maker of the airframe.")
@click.option("--note", default="", help="A remark.")
@entered_on_option
@who_option
@json_option
@library_option
def add(
    registration: str,
    model: str,
    serial: str,
    maker: str,
    note: str,
    on: str,
    who: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Add the aircraft with this REGISTRATION. It counts as confirmed only with --on: the day of holding it
    against the aircraft."""
    from indexer.library import fleet as list_

    with opened(library) as held:
        added = list_.add(held.catalogue, registration, model, who, serial, maker, note, (), on)
        _done(held, added, as_json)


@fleet.command()
@click.argument("registration")
@click.option("--registration", "new_registration", default=None, help="Its new registration.")
@click.option("--model", default=None, help="As the data plate has it.")
@click.option("--serial", default=None, help="Serial number of the airframe.")
@click.option("--maker", default=None, help="Maker of the airframe.")
@click.option("--note", default=None, help="A remark.")
@who_option
@why_option
@json_option
@library_option
def change(
    registration: str,
    new_registration: str | None,
    model: str | None,
    serial: str | None,
    maker: str | None,
    note: str | None,
    who: str,
    why: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Change what is given of an aircraft. This does not confirm the row."""
    from indexer.library import fleet as list_

    with opened(library) as held:
        changed = list_.change(
            held.catalogue, registration, who, why, new_registration, maker, model, serial, note
        )
        _done(held, changed, as_json)


@fleet.command()
@click.argument("registration")
@click.argument("kind", type=click.Choice([kind.value for kind in FittedKind]))
@click.option("--model", default="", help="Of an alteration: its number or name.")
@click.option("--serial", default="", help="Serial number of the article, never of the aircraft.")
@click.option("--maker", default="", help="Maker of the article.")
@click.option("--position", default="", help="Such as left, right, 1, 2; leave it out for the only one.")
@click.option("--note", default="", help="A remark.")
@click.option("--instead", is_flag=True, help="It takes the place of what is of its kind at its position.")
@click.option("--take-out", is_flag=True, help="Take out the one at --position, of --model or --serial.")
@who_option
@why_option
@json_option
@library_option
def fit(
    registration: str,
    kind: str,
    model: str,
    serial: str,
    maker: str,
    position: str,
    note: str,
    instead: bool,
    take_out: bool,
    who: str,
    why: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Enter an engine, propeller, appliance or alteration (KIND) of an aircraft, or take one out."""
    from indexer.library import fleet as list_
    from indexer.library.fleet_records import Fitted

    with opened(library) as held:
        if take_out:
            changed = list_.unfit(
                held.catalogue, registration, FittedKind(kind), who, why, position, model, serial
            )
        else:
            new = Fitted(FittedKind(kind), model, serial, maker, position, note)
            changed = list_.fit(held.catalogue, registration, new, who, why, instead)
        _done(held, changed, as_json)


@fleet.command()
@click.argument("registration")
@on_option
@who_option
@json_option
@library_option
def confirm(registration: str, on: str, who: str, as_json: bool, library: str | None) -> None:
    """Say that the row was held against the aircraft and its records."""
    from indexer.library import fleet as list_

    with opened(library) as held:
        _done(held, list_.confirm(held.catalogue, registration, who, on), as_json)


@fleet.command()
@click.argument("registration")
@who_option
@why_option
@json_option
@library_option
def remove(registration: str, who: str, why: str, as_json: bool, library: str | None) -> None:
    """Take an aircraft out of the list; the history keeps it."""
    from indexer.library import fleet as list_
    from server import console
    from server.fleet import aircraft_fields

    with opened(library) as held:
        gone = list_.remove(held.catalogue, registration, who, why)
    if as_json:
        return console.show_json(aircraft_fields(gone))
    click.echo(f"Taken out: {gone.registration}")


@fleet.command("import")
@csv_lists.file_to_take
@who_option
@click.option("--why", default="", help="The reason to change aircraft that the list has otherwise.")
@json_option
@library_option
def import_(file: Path, who: str, why: str, as_json: bool, library: str | None) -> int:
    """Add the aircraft of a CSV FILE: all lines, or none when one is wrong."""
    from indexer.library.fleet_list import import_csv
    from server.fleet import import_fields, import_words

    text = csv_lists.text_of(file)
    with opened(library) as held:
        taken = import_csv(held.catalogue, text, who, why)
    return csv_lists.show_import(taken, import_fields(taken), import_words(taken), as_json)


@fleet.command()
@csv_lists.file_to_write
@library_option
def export(file: Path | None, library: str | None) -> None:
    """Write the list as CSV to FILE, or to the terminal."""
    from indexer.library.fleet_list import export_csv

    with opened(library) as held:
        text = export_csv(held.catalogue)
    csv_lists.write(text, file)


def _done(held, row, as_json: bool) -> None:
    from indexer.library.day import today
    from server import console
    from server.fleet import aircraft_fields

    if as_json:
        return console.show_json(aircraft_fields(row))
    _show(row, today(held.catalogue))


def _show(row, on: datetime.date) -> None:
    from indexer.library.fleet_values import fitted_words
    from server.fleet import confirmed_words, serial_words

    named = " ".join(filter(None, (row.maker, row.model)))
    click.echo(f"{row.registration}  {named}, {serial_words(row.serial)}; {confirmed_words(row, on)}")
    for each in row.fitted:
        click.echo(f"    {fitted_words(each)}")
    if row.note:
        click.echo(f"    {row.note}")
