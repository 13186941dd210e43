"""What OCR owes, which pages it could not read, and where the newest run stands: plain data, and words."""

import datetime
from typing import Any

from indexer.library.ocr_pages import debt, debt_by_publication, failed_pages, not_placed_by_publication
from indexer.library.ocr_state import at_work, last_state
from indexer.reading.ocr import find_engine
from indexer.reading.ocr_engine import NoOcrEngine
from indexer.settings import Settings
from indexer.trade.dates import date_words
from server.ocr_debt import why_not_placed
from server.ocr_words import duration, unread_or_not_placed
from server.opened import OpenedLibrary
from server.words import count_of


def status(library: OpenedLibrary) -> dict[str, Any]:
    """The debt by publication, the engine or what to do without one, failed pages, the newest run."""
    with library.reading():
        owed = debt(library.catalogue)
        by_publication = debt_by_publication(library.catalogue)
        records = library.catalogue.publications_with(list(by_publication))
        failed = failed_pages(library.catalogue)
        not_placed = not_placed_by_publication(library.catalogue)
    run = last_state(library.folder)
    return {
        "pages_not_read": owed.pages_unread,
        "pages_not_in_place": owed.not_placed,
        "pages_could_not_be_read": owed.pages_failed,
        "publications": [
            {
                "id": record.id,
                "name": " ".join(filter(None, (record.number, record.title))) or record.file,
                "file": record.file,
                "pages_not_read": by_publication[record.id].pages_unread,
                "pages_not_in_place": not_placed.get(record.id, 0),
                "pages_could_not_be_read": by_publication[record.id].pages_failed,
            }
            for record in sorted(records, key=lambda each: (each.file, each.first_page))
        ],
        "engine": _engine(library.settings),
        "failed": [
            {
                "file": page.file,
                "pdf_page": page.pdf_page,
                "problem": page.problem,
                "tries": page.tries,
                "tried_again": page.tried_again,
            }
            for page in failed
        ],
        "not_in_place": why_not_placed(owed.not_placed, run),
        "running": owed.running,
        "run": None
        if run is None
        else {
            "started": run.started,
            "last_heard_of": run.at,
            "engine": run.engine,
            "page": run.page if at_work(run) else "",
            "read": run.done,
            "failed": run.failed,
            "left": run.left,
            "seconds_left": owed.seconds_left,
            "ended": "" if owed.running else run.ended or "it was broken off: start it again",
        },
    }


def _engine(settings: Settings) -> dict[str, str | None]:
    """The engine's name, or why there is none and what to do."""
    try:
        found = find_engine(settings)
    except NoOcrEngine as problem:
        return {"name": None, "words": f"{problem.what} {problem.remedy}"}
    if found is not None:
        return {"name": found.name, "words": found.name}
    if settings.ocr_engine:
        return {"name": None, "words": "switched off by the setting HANGARLEAF_OCR_ENGINE"}
    missing = NoOcrEngine()
    return {"name": None, "words": f"{missing.what} {missing.remedy}"}


def lines(answer: dict[str, Any]) -> list[str]:
    """The status for a terminal."""
    said = [f"{unread_or_not_placed(answer['pages_not_read'], answer['pages_not_in_place'])}."]
    if answer["pages_could_not_be_read"]:
        said.append(f"{count_of(answer['pages_could_not_be_read'], 'page')} could not be read.")
    said += [
        f"  {each['name']} ({each['file']}): "
        + unread_or_not_placed(each["pages_not_read"], each["pages_not_in_place"])
        + (
            f", {each['pages_could_not_be_read']:,} could not be read"
            if each["pages_could_not_be_read"]
            else ""
        )
        for each in answer["publications"]
    ]
    said.append(f"OCR engine: {answer['engine']['words']}")
    said.append(_run_words(answer))
    if answer["not_in_place"]:
        said += ["Read but not in place:", *(f"  {words}" for words in answer["not_in_place"])]
    if answer["failed"]:
        said.append("Pages that could not be read:")
        said += [f"  {each['problem']} {_tries_words(each)}" for each in answer["failed"]]
    return said


def _tries_words(page: dict[str, Any]) -> str:
    if not page["tries"]:
        return "Read it as a picture."
    more = "tried again in the next run" if page["tried_again"] else "read it as a picture"
    return f"Tried {count_of(page['tries'], 'time')}; {more}."


def _run_words(answer: dict[str, Any]) -> str:
    run = answer["run"]
    if run is None:
        return "No run yet. Start one: hangarleaf ocr"
    read = f"{count_of(run['read'], 'page')} read, {run['failed']:,} failed, {run['left']:,} left"
    started = datetime.datetime.fromisoformat(run["started"]).astimezone()
    begun = f"begun {date_words(started.date())} at {started:%H:%M}"
    if not answer["running"]:
        return f"Last run, {begun}: {read}; {run['ended']}."
    left = (
        f", {duration(run['seconds_left'])} at the present speed" if run["seconds_left"] is not None else ""
    )
    page = f" Now: {run['page']}." if run["page"] else ""
    return f"A run is at work, {begun}: {read}{left}.{page}"
