"""The shop's lists as CSV files: read for the commands, written by them, and what came of an import."""

from pathlib import Path
from typing import Any

import click

from indexer.library.shop_lists import Imported

file_to_take = click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
file_to_write = click.argument("file", required=False, type=click.Path(path_type=Path, dir_okay=False))


def text_of(file: Path) -> str:
    """The text of a list, with or without a mark at the head. Raises click.UsageError."""
    try:
        return file.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise click.UsageError(
            f"{file}: the file is not UTF-8 text. Save it as UTF-8, then try again."
        ) from None


def write(text: str, file: Path | None) -> None:
    """Write a list to the file, or to the terminal where none is named. Raises click.UsageError."""
    if file is None:
        return click.echo(text, nl=False)
    try:
        file.write_text(text, encoding="utf-8", newline="")
    except OSError as problem:
        raise click.UsageError(f"{file}: the file cannot be written ({problem.strerror}).") from None
    click.echo(f"{file}: written.", err=True)


def show_import(taken: Imported, fields: dict[str, Any], words: str, as_json: bool) -> int:
    """Print what came of an import, each wrong line by its number -> the exit code: 2 = nothing was taken."""
    from server import console

    if as_json:
        console.show_json(fields)
    else:
        for problem in taken.problems:
            click.echo(f"Line {problem.line}: {problem.what}", err=True)
        click.echo(words, err=bool(taken.problems))
    return 2 if taken.problems else 0
