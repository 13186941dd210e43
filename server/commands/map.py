"""The command `hangarleaf map`: the shop's map of manuals with their own order."""

from pathlib import Path

import click

from server.commands import csv_lists
from server.commands.options import json_option, library_option, opened, who_option, why_option


@click.group()
def shop_map() -> None:
    """The shop's map: which chapters the sections of a manual with its own order belong to."""


@shop_map.command("list")
@json_option
@library_option
def list_lines(as_json: bool, library: str | None) -> None:
    """Show every line of the map."""
    from server import console, shop_map_view
    from server.commands import desk_console

    with opened(library) as held:
        lines, why_none = shop_map_view.rows(held), shop_map_view.unreached(held)
    return console.show_json(lines) if as_json else desk_console.show_lines(lines, why_none)


@shop_map.command()
@click.argument("publication")
@json_option
@library_option
def sections(publication: str, as_json: bool, library: str | None) -> None:
    """Show a manual's own sections and what they are filed under.

    PUBLICATION: id, number, title, model and title ('H-14 Service Manual'), or file name.
    """
    from server import console, shop_map_view
    from server.commands import desk_console

    with opened(library) as held:
        answer = shop_map_view.sections(held, publication)
    return console.show_json(answer) if as_json else desk_console.show_sections(answer)


@shop_map.command()
@click.argument("publication")
@click.argument("first")
@click.argument("chapters")
@click.option("--to", "last", default="", help="The last section or paragraph; else FIRST alone.")
@who_option
@why_option
@json_option
@library_option
def add(
    publication: str,
    first: str,
    chapters: str,
    last: str,
    who: str,
    why: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Add a line: PUBLICATION (as for sections), FIRST section or paragraph, CHAPTERS ('32; 32-41')."""
    from server import console, shop_map_view
    from server.commands import desk_console

    with opened(library) as held:
        line = shop_map_view.add(held, publication, first, last, chapters, who, why)
    return console.show_json(line) if as_json else desk_console.show_lines([line])


@shop_map.command()
@click.argument("line", type=click.IntRange(min=1))
@who_option
@why_option
@library_option
def remove(line: int, who: str, why: str, library: str | None) -> None:
    """Take a LINE out, by its number; the history keeps it."""
    from server import shop_map_view
    from server.commands import desk_console

    with opened(library) as held:
        desk_console.show_lines([shop_map_view.remove(held, line, who, why)])


@shop_map.command("import")
@csv_lists.file_to_take
@who_option
@library_option
def import_lines(file: Path, who: str, library: str | None) -> None:
    """Add the lines of a CSV FILE: all of them, or none when one is wrong."""
    from server import shop_map_view

    text = csv_lists.text_of(file)
    with opened(library) as held:
        taken = shop_map_view.import_csv(held, text, who)
    click.echo(f"{taken.added} added; {taken.already} were there already.")
    if words := shop_map_view.not_held_words(taken):
        click.echo(words)


@shop_map.command()
@csv_lists.file_to_write
@library_option
def export(file: Path | None, library: str | None) -> None:
    """Write the map as CSV to FILE, or to the screen."""
    from indexer.library.shop_map import export_csv

    with opened(library) as held:
        text = export_csv(held.catalogue)
    csv_lists.write(text, file)
