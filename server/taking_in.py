"""Ingest as the command line shows it: progress while it runs, then what was taken and what was refused."""

import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.progress import Progress

from indexer.ingest import (
    Event,
    FileAlready,
    FileTaken,
    Found,
    Refused,
    Report,
    Stage,
    ingest,
    read_again,
    settle,
)
from indexer.library.catalogue import Catalogue
from indexer.library.fulltext import IndexedPassage
from indexer.library.lock import only_one
from indexer.library.outbox import indexed_passage
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.console import show_json
from server.opened import index_folder
from server.progress import progress_bar
from server.words import count_of

_STAGES = {
    "relating": "Working out how the documents stand to one another",
    "indexing": "Building the search index",
}


def take_in(paths: Sequence[Path], settings: Settings, as_json: bool = False) -> int:
    """Ingest with progress; prints every refused file with its reason and remedy. Returns how many.

    as_json  print what came of every file as JSON; the refused are named there too

    Raises NothingToIngest, LibraryProblem.
    """
    return _with_progress(partial(ingest, paths), "Taken", settings, as_json)


def take_again(settings: Settings, as_json: bool = False) -> int:
    """Read again what older rules have read, as `take_in` shows it. Returns how many could not be read.

    Raises LibraryProblem.
    """
    return _with_progress(read_again, "Read again", settings, as_json)


def _with_progress(work: Callable[..., Report], done: str, settings: Settings, as_json: bool) -> int:
    with progress_bar() as bar:
        report = work(
            library_folder=settings.library_folder,
            settings=settings,
            progress=_Shown(bar),
            engine=_engine(settings),
        )
    if as_json:
        show_json(_fields(report, settings))
    else:
        _print(report, done, settings, bar.console)
    return len(report.refused)


def rebuild(settings: Settings, as_json: bool = False) -> None:
    """Throw the search index away and build it from the catalogue. Raises LibraryProblem."""
    folder, engine = settings.library_folder, _engine(settings)
    with Catalogue.open(folder) as catalogue, only_one(folder):
        settle(catalogue, engine)  # so that the generation the index names is the one the catalogue has noted
        with catalogue.reading():
            engine.rebuild(engine.generation(), _all_passages(catalogue))
            passages = catalogue.status().passages
    said = f"The search index was built anew: {passages:,} passages."
    print(said, file=sys.stderr if as_json else sys.stdout)


def _all_passages(catalogue: Catalogue) -> Iterator[IndexedPassage]:
    for publication in catalogue.publications():
        for passage in catalogue.passages_of(publication.id):
            yield indexed_passage(publication, passage)


class _Shown:
    """Moves the bar with each event."""

    def __init__(self, bar: Progress):
        self._bar = bar
        self._task = bar.add_task("Looking for files", total=None)

    def __call__(self, event: Event) -> None:
        if isinstance(event, Found):
            self._bar.update(self._task, description="Reading", total=event.files)
        elif isinstance(event, Stage):
            self._bar.update(self._task, description=_STAGES.get(event.name, event.name))
        elif isinstance(event, (FileTaken, FileAlready, Refused)):
            self._bar.update(self._task, advance=1, description=f"Reading {event.path.name[:40]}")


def _fields(report: Report, settings: Settings) -> dict[str, Any]:
    return {
        "library": str(settings.library_folder),
        "generation": report.generation,
        "taken": [
            {"path": str(each.path), "pages": each.taken.pages, "passages": each.taken.passages}
            for each in report.taken
        ],
        "already": [str(path) for path in report.already],
        "refused": [
            {"path": str(each.path), "slug": each.slug, "what": each.what, "remedy": each.remedy}
            for each in report.refused
        ],
    }


def _print(report: Report, done: str, settings: Settings, console: Console) -> None:
    pages = count_of(sum(taken.taken.pages for taken in report.taken), "page")
    passages = count_of(sum(taken.taken.passages for taken in report.taken), "passage")
    print(f"{done}: {count_of(len(report.taken), 'file')}, {pages}, {passages}.")
    if report.already:
        print(f"Already held: {count_of(len(report.already), 'file')}.")
    if report.refused:
        print(f"Refused: {count_of(len(report.refused), 'file')}.")
    print(f"Library: {settings.library_folder}")
    for refused in report.refused:
        console.print(f"{refused.what} {refused.remedy}")


def _engine(settings: Settings) -> WhooshEngine:
    return WhooshEngine(index_folder(settings.library_folder), settings.search_cache_mb)
