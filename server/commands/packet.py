"""`hangarleaf packet`: the open job packets, and one of them as a PDF."""

from pathlib import Path

import click

from server.commands.options import json_option, library_option, opened


@click.group()
def packet() -> None:
    """Job packets: list the open ones, or save one as a PDF."""


@packet.command("list")
@json_option
@library_option
def list_packets(as_json: bool, library: str | None) -> None:
    """List the open packets, the one changed last first."""
    from server import console
    from server.packets import open_fields
    from server.words import count_of

    with opened(library) as held:
        answer = open_fields(held)
    if as_json:
        console.show_json(answer)
        return
    for each in answer["packets"]:
        click.echo(
            f"{each['id']}  {each['name']}; {each['aircraft_words']}; {count_of(each['count'], 'item')}"
        )
    if not answer["packets"]:
        click.echo("No packet is open.")


@packet.command("pdf")
@click.argument("packet_id")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@library_option
def save_pdf(packet_id: str, file: Path, library: str | None) -> None:
    """Save the packet with this id as a PDF. Exit code 1: pages could not be put in; each is named."""
    from server.packet_pdf import packet_pdf

    with opened(library) as held:
        made = packet_pdf(held, packet_id)
    file.write_bytes(made.data)
    click.echo(f"{file}: {made.sheets} pages.")
    for name in made.failed:
        click.echo(f"Could not be put in, a sheet says so: {name}", err=True)
    if made.failed:
        click.get_current_context().exit(1)
