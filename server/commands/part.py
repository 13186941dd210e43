"""`hangarleaf part`, `hangarleaf figure`, `hangarleaf part-list`: the parts lists."""

from pathlib import Path

import click

from server.commands.options import json_option, library_option, opened

_aircraft = click.option(
    "--aircraft", default="", metavar="REG", help="Say of each row whether it applies to it."
)


@click.command()
@click.argument("asked", nargs=-1)
@click.option("--figure", default="", help="Figure of the parts list, such as 14.")
@click.option("--item", default="", help="Item of the figure, such as 15A.")
@click.option("--catalogue", default="", help="Only this publication: its id, number or file name.")
@click.option(
    "--limit", type=click.IntRange(min=0), default=20, show_default=True, help="Most rows of a group."
)
@_aircraft
@json_option
@library_option
def part(
    asked: tuple[str, ...],
    figure: str,
    item: str,
    catalogue: str,
    limit: int,
    aircraft: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Find a part: by number (AN4-12A), words (brake lining), or place (fig 14 item 7, 32-42-00-01-15).

    With the id of a row, all that the parts lists say of that row.
    """
    from indexer.library.parts import row_key
    from server import console, parts_console
    from server.parts import find_parts, part_row

    question = " ".join(asked)
    with opened(library) as held:
        if row_key(question):
            answer, show = part_row(held, question, aircraft), parts_console.show_part
        else:
            answer = find_parts(held, question, catalogue, figure, item, aircraft, limit)
            show = parts_console.show_parts
    return console.show_json(answer) if as_json else show(answer)


@click.command()
@click.argument("catalogue")
@click.argument("figure", nargs=-1)
@click.option(
    "--csv", "csv_file", type=click.Path(path_type=Path, dir_okay=False), help="Write it to a CSV file."
)
@_aircraft
@json_option
@library_option
def figure(
    catalogue: str,
    figure: tuple[str, ...],
    csv_file: Path | None,
    aircraft: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Show a figure with its rows: name its parts list and its number (14, 32-42-00 fig 1, 32-42-00-01), or
    give the id of the figure alone.

    Where several figures of the list have the number, what to type for each is said.
    """
    from server import console, parts_console
    from server.parts_by_place import figure_named
    from server.parts_csv import figure_csv
    from server.parts_figure import figure_rows
    from server.sourcecheck_batch import write_file

    with opened(library) as held:
        figure_id = figure_named(held, catalogue, " ".join(figure)) if figure else catalogue
        answer = figure_rows(held, figure_id, aircraft)
        if csv_file:
            write_file(csv_file, figure_csv(held, figure_id, aircraft)[0])
            click.echo(f"{csv_file}: {answer['count']} rows written.", err=True)
    if as_json:
        return console.show_json(answer)
    return None if csv_file else parts_console.show_figure(answer)


@click.command("part-list")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option(
    "--csv", "csv_file", type=click.Path(path_type=Path, dir_okay=False), help="Write it to a CSV file."
)
@_aircraft
@library_option
def part_list(file: Path, csv_file: Path | None, aircraft: str, library: str | None) -> None:
    """Answer each part number of a CSV file: column part_number, or the first column."""
    from server.parts_batch import answer_list
    from server.sourcecheck_batch import read_file, write_file

    text = read_file(file)
    with opened(library) as held:
        answers = answer_list(held, text, aircraft)
    if csv_file is None:
        return click.echo(answers, nl=False)
    write_file(csv_file, answers)
    return click.echo(f"{csv_file}: written.", err=True)
