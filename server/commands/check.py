"""`hangarleaf check` and `hangarleaf checks`: is this source approved data, and the trail of the answers."""

import datetime
from pathlib import Path
from typing import Any

import click

from server.commands.options import json_option, library_option, opened

_FILE = click.Path(path_type=Path, dir_okay=False)


@click.command()
@click.argument("text", nargs=-1)
@click.option("--file", "text_file", type=_FILE, help="Read the entry from a text file.")
@click.option(
    "--csv", "csv_file", type=_FILE, help="Check every entry of a CSV file; the findings are CSV too."
)
@click.option("--out", "out_file", type=_FILE, help="With --csv: write the findings to this file.")
@click.option("--aircraft", default="", metavar="REG", help="Registration of the fleet list.")
@click.option("--work", default="", metavar="CLASS", help="minor, major, directive or inspection.")
@click.option("--on", "day", type=click.DateTime(["%Y-%m-%d"]), help="The day the work was done.")
@json_option
@library_option
def check(
    text: tuple[str, ...],
    text_file: Path | None,
    csv_file: Path | None,
    out_file: Path | None,
    aircraft: str,
    work: str,
    day: datetime.datetime | None,
    as_json: bool,
    library: str | None,
) -> None:
    """Find every source that an entry cites, and say of each what it is and whether it is enough.

    What was asked and answered is kept; see: hangarleaf checks.
    """
    from server import console
    from server.commands.check_console import show_check
    from server.sourcecheck import check as ask
    from server.sourcecheck_batch import check_csv, read_file, write_file

    given = [bool(text), text_file is not None, csv_file is not None]
    if sum(given) != 1:
        raise click.UsageError(
            "Give the entry's words, or --file with a text file, or --csv with a CSV file."
        )
    if out_file is not None and csv_file is None:
        raise click.UsageError("--out goes with --csv.")
    on = day.date() if day else None
    with opened(library) as held:
        if csv_file is not None:
            batch = check_csv(held, read_file(csv_file), aircraft, work, on)
            if out_file is not None:
                write_file(out_file, batch.text)
                click.echo(f"{out_file}: {batch.findings:,} findings of {batch.entries:,} entries.", err=True)
            else:
                click.echo(batch.text, nl=False)
            for problem in batch.problems:
                click.echo(problem, err=True)
            if batch.problems:
                click.get_current_context().exit(1)  # the other lines are checked and written
            return
        entry = read_file(text_file) if text_file is not None else " ".join(text)
        answer = ask(held, entry, aircraft, work, on).fields()
    if as_json:
        console.show_json(answer)
    else:
        show_check(answer)


@click.group(invoke_without_command=True)
@click.option(
    "--limit", type=click.IntRange(1, 200), default=20, show_default=True, help="Most checks shown."
)
@click.option("--offset", type=click.IntRange(min=0), default=0, help="Leave out the newest so many.")
@json_option
@library_option
@click.pass_context
def checks(context: click.Context, limit: int, offset: int, as_json: bool, library: str | None) -> None:
    """List the source checks that were kept, newest first."""
    if context.invoked_subcommand is not None:
        return
    from server import console
    from server.commands.check_console import show_list
    from server.sourcecheck import kept_list

    with opened(library) as held:
        answer = kept_list(held, limit, offset)
    if as_json:
        console.show_json(answer)
    else:
        show_list(answer)


@checks.command("show")
@click.argument("check_id", type=click.IntRange(min=1))
@json_option
@library_option
def show(check_id: int, as_json: bool, library: str | None) -> None:
    """Show a kept check as it was answered then."""
    from server.sourcecheck import kept

    with opened(library) as held:
        _told(kept(held, check_id), as_json)


@checks.command("again")
@click.argument("check_id", type=click.IntRange(min=1))
@json_option
@library_option
def again(check_id: int, as_json: bool, library: str | None) -> None:
    """Ask a kept check again, and say in what today's answer differs. Nothing is kept."""
    from server import console
    from server.commands.check_console import show_again
    from server.sourcecheck import again as ask_again

    with opened(library) as held:
        answer = ask_again(held, check_id)
    if as_json:
        console.show_json(answer.fields())
    else:
        show_again(answer)


def _told(answer: dict[str, Any], as_json: bool) -> None:
    from server import console
    from server.commands.check_console import show_check

    if as_json:
        console.show_json(answer)
    else:
        show_check(answer)
