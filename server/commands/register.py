"""`hangarleaf register`: what was found to be the current revision, by whom, against what.

And `hangarleaf effective`: what was effective on a day, page by page.
"""

import datetime
from pathlib import Path
from typing import Any

import click

from server.commands import csv_lists
from server.commands.options import (
    json_option,
    library_option,
    opened,
    settings_for,
    who_option,
    why_option,
)


@click.group()
def register() -> None:
    """The revision register: record what is current, per which source, on which day, by whom."""


@register.command("list")
@json_option
@library_option
def list_checks(as_json: bool, library: str | None) -> None:
    """Show every check, the newest first, and how it stands today."""
    from server import console
    from server.register import register as shown

    with opened(library) as held:
        answer = shown(held)
    if as_json:
        return console.show_json(answer)
    for check in answer["checks"]:
        _show(check)
    if not answer["checks"]:
        click.echo("The register is empty: nothing is known to be current.")


@register.command("overdue")
@json_option
@library_option
def list_overdue(as_json: bool, library: str | None) -> None:
    """Show the checks that have run out, the longest overdue first."""
    from server import console
    from server.register import register as shown

    with opened(library) as held:
        found = shown(held)["overdue"]
    if as_json:
        return console.show_json(found)
    for check in found:
        _show(check)
    if not found:
        click.echo("No check is overdue.")


@register.command()
@click.argument("publication")
@click.option("--revision", default="", help="The current revision, as the source prints it.")
@click.option("--date", default="", help="Its date, as year-month-day.")
@click.option("--source", required=True, help="Against what it was checked: the maker's list, a letter.")
@click.option("--on", "checked_on", default="", help="The day of the check, as year-month-day; else today.")
@click.option("--recheck-days", type=int, default=None, help="Days until the next check is due.")
@click.option("--note", default="", help="A remark.")
@who_option
@json_option
@library_option
def check(
    publication: str,
    revision: str,
    date: str,
    source: str,
    checked_on: str,
    recheck_days: int | None,
    note: str,
    who: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Record which revision of PUBLICATION (id, number, title or file) is current.

    For the authority's list of directives give "airworthiness directives".
    """
    from server import console
    from server.register import record

    days = settings_for(library).recheck_days if recheck_days is None else recheck_days
    with opened(library) as held:
        kept = record(held, publication, revision, date, source, checked_on, who, days, note)
    return console.show_json(kept) if as_json else _show(kept)


@register.command()
@click.argument("number", type=click.IntRange(min=1))
@who_option
@why_option
@json_option
@library_option
def undo(number: int, who: str, why: str, as_json: bool, library: str | None) -> None:
    """Take the check with this NUMBER back; it stays readable."""
    from server import console
    from server.register import undo as taken_back

    with opened(library) as held:
        gone = taken_back(held, number, who, why)
    return console.show_json(gone) if as_json else _show(gone)


@register.command("import")
@csv_lists.file_to_take
@who_option
@json_option
@library_option
def import_(file: Path, who: str, as_json: bool, library: str | None) -> int:
    """Add the lines of a CSV FILE (publication, revision, source, checked_on): all, or none."""
    from indexer.library.register_lists import import_csv
    from server.list_imports import import_fields
    from server.register import import_words

    text = csv_lists.text_of(file)
    with opened(library) as held:
        taken = import_csv(held.catalogue, text, who, settings_for(library).recheck_days)
    return csv_lists.show_import(taken, import_fields(taken), import_words(taken), as_json)


@register.command()
@csv_lists.file_to_write
@library_option
def export(file: Path | None, library: str | None) -> None:
    """Write the standing checks as CSV to FILE, or to the terminal."""
    from indexer.library.register_lists import export_csv

    with opened(library) as held:
        text = export_csv(held.catalogue)
    csv_lists.write(text, file)


@click.command()
@click.argument("publication")
@click.option("--on", "day", required=True, help="The day, as year-month-day.")
@json_option
@library_option
def effective(publication: str, day: str, as_json: bool, library: str | None) -> None:
    """Say page by page what was effective on a day, among the revisions of PUBLICATION held here."""
    from indexer.library.register import day_given
    from server import console
    from server.effective_on import effective_on
    from server.shelf import named

    with opened(library) as held:
        answer = effective_on(held, named(held, publication).id, day_given(day)).fields()
    if as_json:
        return console.show_json(answer)
    revision = answer["revision"]
    newest = (
        f"revision {revision['revision'] or 'without a number'} of {revision['date']}" if revision else "none"
    )
    click.echo(f"{answer['name']} on {answer['on']}. Newest revision held of that day: {newest}.")
    for note in answer["notes"]:
        click.echo(note)
    for page in answer["pages"]:
        place = f"PDF page {page['pdf_page']} of {page['publication']}" if page["publication"] else ""
        name = f"{page['number'] or ''} page {page['printed_page']}".strip()
        click.echo(f"{name:<22} {page['answer']:<12} {place}  {page['why']}")
        for change in page["temporary"]:
            click.echo(f"{'':<22} {change['words']}")


def _show(check: dict[str, Any]) -> None:
    due = datetime.date.fromisoformat(check["review_due"])
    state = check["state"]
    if state == "taken back":
        state = f"taken back by {check['undone_by']}: {check['undone_why']}"
    click.echo(f"{check['id']:>4}  {check['publication']}: {check['words']}")
    click.echo(f"      {state}; review due {due.isoformat()}{'; ' + check['note'] if check['note'] else ''}")
    for record in check["held"]:
        click.echo(f"      held here: {record['kind']}: {record['current']['state']}")
