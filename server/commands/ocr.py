"""The command `hangarleaf ocr`: scanned pages read now, what is still owed, and pages read anew."""

import sys
from typing import Any

import click

from indexer.library.ocr_records import PageToRead
from indexer.library.records import PublicationRecord
from server.commands.options import json_option, library_option, opened, say_demonstration, settings_for

REFUSED, STOPPED = 1, 130


@click.command()
@click.option("--status", "only_status", is_flag=True, help="Show what is not yet read, by publication.")
@click.option("--pages", type=click.IntRange(min=1), default=None, help="Stop after so many pages.")
@click.option(
    "--minutes", type=click.FloatRange(min=0, min_open=True), default=None, help="Stop after so long."
)
@click.option(
    "--again", default="", metavar="PUBLICATION", help="Read its pages anew, as with another engine."
)
@click.option("--first", type=click.IntRange(min=1), default=1, help="With --again: the first PDF page.")
@click.option("--last", type=click.IntRange(min=1), default=None, help="With --again: the last PDF page.")
@json_option
@library_option
def ocr(
    only_status: bool,
    pages: int | None,
    minutes: float | None,
    again: str,
    first: int,
    last: int | None,
    as_json: bool,
    library: str | None,
) -> int:
    """Read scanned pages, the most wanted first. Stop any time with Ctrl-C: what was read is kept."""
    from server import console, ocr_status, reading_scans

    settings = settings_for(library)
    if only_status:
        with opened(library) as held:
            answer = ocr_status.status(held)
        if as_json:
            console.show_json(answer)
        else:
            click.echo("\n".join(ocr_status.lines(answer)))
        return 0
    if not again and (first > 1 or last):
        raise click.UsageError("Give --first and --last together with --again PUBLICATION.")
    from indexer.ocr_run import Limits
    from indexer.reading.ocr import find_engine
    from indexer.reading.ocr_engine import NoOcrEngine

    if last and last < first:
        raise click.UsageError(f"--first {first} comes after --last {last}: give the lower page first.")
    say_demonstration(settings)
    only = _asked(library, again, first, last or 0) if again else None
    engine = find_engine(settings)
    report = reading_scans.shown(settings, engine, Limits(pages or 0, minutes or 0.0), only)
    if engine is None:
        if settings.ocr_engine:
            raise click.UsageError(reading_scans.SWITCHED_OFF)
        raise NoOcrEngine()
    if as_json:
        console.show_json(_fields(report))
    else:
        reading_scans.say(report, sys.stdout)
    return STOPPED if report.stopped else REFUSED if report.failed or report.not_placed else 0


def _asked(library: str | None, publication: str, first: int, last: int) -> list[PageToRead]:
    from indexer.library.ocr_pages import pages_of
    from server import shelf

    with opened(library) as held:
        record = shelf.named(held, publication)
        for name, page in (("--first", first), ("--last", last)):
            if page > record.last_page:
                raise click.UsageError(
                    f"{name} {page}: {record.file} has {_pages_of(record)} of this publication."
                )
        found = pages_of(held.catalogue, record.id, first, last)
    if not found:
        raise click.UsageError(
            f"{record.file}: none of the pages asked for is to be read by OCR. Their own text will do."
        )
    return found


def _pages_of(record: PublicationRecord) -> str:
    if record.last_page > record.first_page:
        return f"PDF pages {record.first_page} to {record.last_page}"
    return f"PDF page {record.first_page} alone"


def _fields(report: Any) -> dict[str, Any]:
    return {
        "read": report.read,
        "failed": [
            {"file": page.file, "pdf_page": page.pdf_page, "problem": problem}
            for page, problem in report.failed
        ],
        "left": report.left,
        "not_searched_yet": report.waiting,
        "not_put_in_place": [
            {"file": each.file, "pages": each.pages, "problem": each.words} for each in report.not_placed
        ],
        "stopped": report.stopped,
        "seconds": round(report.seconds, 1),
    }
