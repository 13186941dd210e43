"""`hangarleaf words`: the shop's own list of words."""

from pathlib import Path

import click

from server.commands import csv_lists
from server.commands.options import json_option, library_option, opened, who_option, why_option


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

    with opened(library) as held:
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

    with opened(library) as held:
        word = add_word(
            held.catalogue, term, [one for each in manual_terms for one in each.split(";")], who, note
        )
    if as_json:
        return console.show_json(word_fields(word))
    click.echo(f"Added as number {word.id}: {word.term} = {'; '.join(word.manual_terms)}")


@words.command()
@click.argument("number", type=click.IntRange(min=1))
@who_option
@why_option
@json_option
@library_option
def remove(number: int, who: str, why: str, as_json: bool, library: str | None) -> None:
    """Take the word with this NUMBER out of the list; the history keeps it."""
    from indexer.library.shop_words import remove_word
    from server import console
    from server.words_list import word_fields

    with opened(library) as held:
        gone = remove_word(held.catalogue, number, who, why)
    if as_json:
        return console.show_json(word_fields(gone))
    click.echo(f"Taken out: {gone.term} = {'; '.join(gone.manual_terms)}")


@words.command("import")
@csv_lists.file_to_take
@who_option
@json_option
@library_option
def import_(file: Path, who: str, as_json: bool, library: str | None) -> int:
    """Add the lines of a CSV FILE (term, manual_terms, note): all, or none when one is wrong."""
    from indexer.library.shop_words import import_csv
    from server.list_imports import import_fields
    from server.words_list import import_words

    text = csv_lists.text_of(file)
    with opened(library) as held:
        taken = import_csv(held.catalogue, text, who)
    return csv_lists.show_import(taken, import_fields(taken), import_words(taken), as_json)


@words.command()
@csv_lists.file_to_write
@library_option
def export(file: Path | None, library: str | None) -> None:
    """Write the list as CSV to FILE, or to the terminal."""
    from indexer.library.shop_words import export_csv

    with opened(library) as held:
        text = export_csv(held.catalogue)
    csv_lists.write(text, file)
