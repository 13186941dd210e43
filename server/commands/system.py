"""`hangarleaf system`: everything that touches a system."""

from pathlib import Path

import click

from server.commands.options import json_option, library_option, settings_for


@click.command()
@click.argument("asked", nargs=-1, required=True)
@click.option(
    "--csv", "csv_file", type=click.Path(path_type=Path, dir_okay=False), help="Write it to a CSV file."
)
@click.option("--aircraft", default="", metavar="REG", help="Say of each line whether it applies to it.")
@click.option("--hide-not-applying", is_flag=True, help="Leave out what does not apply; the count is said.")
@json_option
@library_option
def system(
    asked: tuple[str, ...],
    csv_file: Path | None,
    aircraft: str,
    hide_not_applying: bool,
    as_json: bool,
    library: str | None,
) -> None:
    """List everything that touches a system: 32, 32-41, 3245, "JASC 3245", "landing gear", brakes.

    Complete, not the best few; what no listing can hold is counted at the end.
    """
    from server import console
    from server.opened import OpenedLibrary
    from server.system import everything_on
    from server.system_console import show_system
    from server.system_csv import NotWritten, system_csv
    from server.system_fields import answer_fields

    settings = settings_for(library)
    with OpenedLibrary.open(settings.library_folder, settings) as held:
        answer = everything_on(held, " ".join(asked), aircraft, hide_not_applying)
        if csv_file:
            try:
                csv_file.write_bytes(system_csv(answer).encode("utf-8-sig"))
            except OSError as problem:
                raise NotWritten(str(csv_file), problem.strerror or str(problem)) from None
            click.echo(
                f"{csv_file}: {answer.on.counts.lines + answer.may_be.counts.lines} lines written.", err=True
            )
        if as_json:
            return console.show_json(answer_fields(held, answer))
        if not csv_file:
            show_system(answer)
