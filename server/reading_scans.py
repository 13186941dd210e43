"""A run of OCR as the command line shows it: progress, an estimate once one can be made, what came of it."""

import sys
import time
from collections.abc import Sequence
from typing import Any, TextIO

from rich.progress import Progress

from indexer.ingest import Stage
from indexer.library.catalogue import Catalogue
from indexer.library.ocr_pages import pages_to_read, waiting_copies
from indexer.library.ocr_records import PageToRead
from indexer.library.problems import OcrAtWork
from indexer.library.whoosh_engine import WhooshEngine
from indexer.ocr_run import (
    LibraryWaits,
    Limits,
    OcrEvent,
    OcrReport,
    PageRead,
    PagesFound,
    recognize_pages,
)
from indexer.reading.ocr import NONE, find_engine
from indexer.reading.ocr_engine import NoOcrEngine
from indexer.settings import Settings
from server.ocr_words import duration
from server.opened import index_folder
from server.progress import progress_bar
from server.words import count_of

_SAY_EVERY_S = 60.0  # where no bar can be drawn
SWITCHED_OFF = "OCR is switched off by the setting HANGARLEAF_OCR_ENGINE."


def after_ingest(settings: Settings, as_json: bool = False) -> None:
    """Read the pages that have no usable text, as an ingest goes on to do; says so first.

    Without an engine that is said once, with the remedy. `as_json`: all is said on the error stream, as the
    other holds the JSON of the ingest. Raises SettingRefused, LibraryProblem.
    """
    with Catalogue.open(settings.library_folder) as catalogue:
        waiting, to_be_placed = len(pages_to_read(catalogue)), waiting_copies(catalogue)
    if not waiting and not to_be_placed:
        return
    missing = NoOcrEngine()
    try:
        engine = find_engine(settings)
    except NoOcrEngine as problem:  # the one that was asked for
        engine, missing = None, problem
    have = f"{count_of(waiting, 'page')} {'has' if waiting == 1 else 'have'} no usable text"
    if engine is None and waiting:
        switched_off = settings.ocr_engine.strip().lower() == NONE
        _say(f"{have}. {SWITCHED_OFF if switched_off else f'{missing.what} {missing.remedy}'}")
    elif waiting:
        them = "it" if waiting == 1 else "them, most wanted first"
        _say(f"{have}; reading {them}. Stop any time with Ctrl-C; hangarleaf ocr goes on.")
    try:
        report = shown(settings, engine)
    except OcrAtWork as problem:
        _say(f"{problem.what} {problem.remedy}")
        return
    say(report, sys.stderr if as_json else sys.stdout)


def shown(
    settings: Settings, engine: Any, limits: Limits | None = None, only: Sequence[PageToRead] | None = None
) -> OcrReport:
    """One run with its progress on the error stream. Arguments and errors as for `recognize_pages`."""
    with progress_bar() as bar:
        return recognize_pages(
            settings.library_folder,
            settings,
            engine,
            WhooshEngine(index_folder(settings.library_folder), settings.search_cache_mb),
            _Shown(bar, limits.pages if limits else 0),
            limits,
            only,
        )


def say(report: OcrReport, out: TextIO) -> None:
    """What came of a run, in plain sentences; failed pages with their reasons on the error stream."""
    print(f"Read by OCR: {count_of(report.read, 'page')}.", file=out)
    if report.failed:
        print(f"Could not be read: {count_of(len(report.failed), 'page')}.", file=out)
    if report.left:
        print(f"Not yet read: {count_of(report.left, 'page')}.", file=out)
    if report.waiting:
        print("Some of what was read is kept and not searched yet: the next run sees to it.", file=out)
    if report.stopped:
        _say("Stopped; hangarleaf ocr goes on where this ended.")
    for _, problem in report.failed:
        _say(problem)
    for each in report.not_placed:
        _say(each.words)


def progress_words(event: PageRead) -> str:
    """How far a run is, and how long it will take at its present speed once that can be told."""
    state = event.state
    said = f"{state.done + state.failed:,} read, {state.left:,} left"
    if state.seconds_left is None or not state.left:
        return said
    return f"{said}: {duration(state.seconds_left)} at the present speed"


class _Shown:
    """Moves the bar with each event; without a bar, says how far it is once a minute."""

    def __init__(self, bar: Progress, most: int):
        self._bar = bar
        self._most = most
        self._task = bar.add_task("Looking for pages", total=None)
        self._said = time.monotonic()

    def __call__(self, event: OcrEvent) -> None:
        if isinstance(event, PagesFound):
            total = min(event.pages, self._most) if self._most else event.pages
            self._bar.update(self._task, description=f"Reading with {event.engine}", total=total)
        elif isinstance(event, PageRead):
            self._bar.update(self._task, advance=1, description=progress_words(event))
            if self._bar.disable and time.monotonic() - self._said >= _SAY_EVERY_S:
                self._said = time.monotonic()
                _say(f"{progress_words(event)}.")
        elif isinstance(event, LibraryWaits):
            _say("The library is busy; what was read is put in place as soon as it is free.")
        elif isinstance(event, Stage):
            self._bar.update(self._task, description="Putting in place what was read")


def _say(words: str) -> None:
    print(words, file=sys.stderr, flush=True)
