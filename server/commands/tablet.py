"""The command `hangarleaf tablet`: devices that joined, and the shop's code that they join with."""

import click

from server.commands.options import json_option, library_option, settings_for

_AT_THE_MACHINE = "commands on this machine"  # in the history, where nobody says who


@click.group()
def tablet() -> None:
    """Tablets that joined, and the shop's code that they join with."""


@tablet.command("list")
@json_option
@library_option
def list_(as_json: bool, library: str | None) -> None:
    """Every device that joined, the one seen last on top."""
    from indexer.library import tablets
    from server import console

    with _catalogue(library) as catalogue:
        found = tablets.tablets(catalogue)
    if as_json:
        return console.show_json(
            [
                {
                    "id": one.id,
                    "name": one.name,
                    "joined_at": one.joined_at.isoformat(),
                    "last_seen": one.last_seen.isoformat(),
                    "ended_at": one.ended_at.isoformat() if one.ended_at else None,
                }
                for one in found
            ]
        )
    for one in found:
        ended = f", ended {one.ended_at:%Y-%m-%d}" if one.ended_at else ""
        click.echo(f"{one.id}  {one.name}, last seen {one.last_seen.astimezone():%Y-%m-%d %H:%M}{ended}")
    if not found:
        click.echo("No tablet has joined.")


@tablet.command()
@click.argument("number", type=click.IntRange(min=1))
@library_option
def end(number: int, library: str | None) -> None:
    """The tablet NUMBER of the list may not read any more, until it joins again."""
    from indexer.library import tablets

    with _catalogue(library) as catalogue:
        gone = tablets.end(catalogue, number, _AT_THE_MACHINE)
    click.echo(f"Ended: {gone.name}")


@tablet.command()
@click.option("--new", is_flag=True, help="Make a new code. Tablets that joined stay.")
@click.option("--end-all", is_flag=True, help="With --new: every tablet must join again.")
@library_option
def code(new: bool, end_all: bool, library: str | None) -> None:
    """Show the shop's code."""
    from indexer.library import tablets

    if end_all and not new:
        raise click.UsageError("--end-all goes with --new.")
    with _catalogue(library) as catalogue:
        shown = (
            tablets.change_code(catalogue, _AT_THE_MACHINE, end_all) if new else tablets.shop_code(catalogue)
        )
    click.echo(shown)


def _catalogue(library: str | None):
    """The catalogue alone: no index is needed for tablets. Raises LibraryProblem."""
    from indexer.library.catalogue import Catalogue

    return Catalogue.open(settings_for(library).library_folder)
