"""`hangarleaf words`: the shop's own list of words."""

from contextlib import AbstractContextManager
from pathlib import Path

import click

from server.commands.options import json_option, library_option, settings_for

who_option = click.option("--who", required=True, help="The name of the person who does it.")


@click.group()
def words() -> None:
    """What people here say and what manuals print: list it, add to it, take out of it."""


@words.command("list")
@json_option
@library_option
def list_words(as_json: bool, library: str | None) -> None:
    """Show the list."""
    from server import console
    from server.words_list import words_list

    with _opened(library) as held:
        answer = words_list(held)
    if as_json:
        return console.show_json(answer)
    for word in answer["words"]:
        note = f" ({word['note']})" if word["note"] else ""
        said = f"{word['term']} = {'; '.join(word['manual_terms'])}{note}"
        click.echo(f"{word['id']:>4}  {said}   {word['who']}, {word['made_at'][:10]}")
    if not answer["words"]:
        click.echo("The list is empty.")


@words.command()
@click.argument("term")
@click.argument("manual_terms", nargs=-1, required=True)
@who_option
@click.option("--note", default="", help="A remark.")
@json_option
@library_option
def add(
    term: str, manual_terms: tuple[str, ...], who: str, note: str, as_json: bool, library: str | None
) -> None:
    """Add TERM, as people here say it, and MANUAL_TERMS, as manuals print it.

    Quote a term of several words: hangarleaf words add donut "rubber shock disc" --who "R. Quill".
    """
    from indexer.library.shop_words import add_word
    from server import console
    from server.words_list import word_fields

    with _opened(library) as held:
        word = add_word(
            held.catalogue, term, [one for each in manual_terms for one in each.split(";")], who, note
        )
    if as_json:
        return console.show_json(word_fields(word))
    click.echo(f"Added as number {word.id}: {word.term} = {'; '.join(word.manual_terms)}")


@words.command()
@click.argument("number", type=click.IntRange(min=1))
@who_option
@click.option("--why", required=True, help="The reason.")
@json_option
@library_option
def remove(number: int, who: str, why: str, as_json: bool, library: str | None) -> None:
    """Take the word with this NUMBER out of the list; the history keeps it."""
    from indexer.library.shop_words import remove_word
    from server import console
    from server.words_list import word_fields

    with _opened(library) as held:
        gone = remove_word(held.catalogue, number, who, why)
    if as_json:
        return console.show_json(word_fields(gone))
    click.echo(f"Taken out: {gone.term} = {'; '.join(gone.manual_terms)}")


@words.command("import")
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@who_option
@json_option
@library_option
def import_(file: Path, who: str, as_json: bool, library: str | None) -> int:
    """Add the lines of a CSV FILE (term, manual_terms, note): all, or none when one is wrong."""
    from indexer.library.shop_words import import_csv
    from server import console
    from server.words_list import import_fields, import_words

    try:
        text = file.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise click.UsageError(
            f"{file}: the file is not UTF-8 text. Save it as UTF-8, then try again."
        ) from None
    with _opened(library) as held:
        taken = import_csv(held.catalogue, text, who)
    if as_json:
        console.show_json(import_fields(taken))
    else:
        for problem in taken.problems:
            click.echo(f"Line {problem.line}: {problem.what}", err=True)
        click.echo(import_words(taken), err=bool(taken.problems))
    return 2 if taken.problems else 0


@words.command()
@click.argument("file", required=False, type=click.Path(path_type=Path, dir_okay=False))
@library_option
def export(file: Path | None, library: str | None) -> None:
    """Write the list as CSV to FILE, or to the terminal."""
    from indexer.library.shop_words import export_csv

    with _opened(library) as held:
        text = export_csv(held.catalogue)
    if file is None:
        return click.echo(text, nl=False)
    try:
        file.write_text(text, encoding="utf-8", newline="")
    except OSError as problem:
        raise click.UsageError(f"{file}: the file cannot be written ({problem.strerror}).") from None
    click.echo(f"{file}: written.", err=True)


def _opened(library: str | None) -> AbstractContextManager:
    """The opened library. Raises LibraryProblem."""
    from server.opened import OpenedLibrary

    settings = settings_for(library)
    return OpenedLibrary.open(settings.library_folder, settings)
