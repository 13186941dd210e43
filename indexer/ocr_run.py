"""Scanned pages read by OCR: the most wanted first, each kept at once, their copies put in place.

A run may be stopped or killed at any moment and simply be started again: what was read is kept, and only the
pages that were being read are read anew. A page that cannot be read holds up no other.
"""

import os
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from indexer.errors import HangarleafError, PublicationUnknown
from indexer.ingest import IN_WORKERS, Event, Read, read_and_tag
from indexer.library.catalogue import Catalogue
from indexer.library.fulltext import FullText
from indexer.library.lock import only_one_ocr
from indexer.library.ocr_pages import keep_failure, keep_page, waiting_copies
from indexer.library.ocr_records import PageToRead, RunState
from indexer.ocr_next import Pages
from indexer.ocr_placing import NotPutInPlace, PageUnusable, Placing, PutInPlace, said_of
from indexer.ocr_telling import Telling, seconds_left
from indexer.reading.recognized import RecognizedPage
from indexer.settings import Settings
from indexer.workers import Done, Workers

GIVES_WAY = 10  # niceness of workers in the background of a service
LEAST_MEMORY_MB = 3000  # address space of a worker; rapidocr 1.4 takes 1,750 for a letter page at 300 dpi
_GRACE_S = 30.0  # over the engine's own time limit, so that its own words come first
_AGAIN_S = 1.0  # until a busy library is asked for again

Recognize = Callable[[Path, Settings, int, Any], RecognizedPage]


@dataclass(frozen=True, slots=True)
class PagesFound:
    """Progress: how many pages wait, and by what they are read."""

    pages: int
    engine: str


@dataclass(frozen=True, slots=True)
class PageRead:
    """Progress: a page was read and is kept, or could not be read: then the `problem` says why."""

    page: PageToRead
    words: int
    problem: str
    state: RunState


@dataclass(frozen=True, slots=True)
class LibraryWaits:
    """Progress: what was read is kept, and is put in place once another change of the library ends."""


OcrEvent = PagesFound | PageRead | LibraryWaits | PutInPlace | NotPutInPlace | PageUnusable | Event


@dataclass(slots=True)
class OcrReport:
    """What came of a run.

    read      pages that OCR read
    failed    pages that it could not read, or whose copy cannot be read with them, each with the reason
    placed    copies that were put in place
    waiting   True = some of what was read is kept, and is put in place by the next run
    left      pages that still wait
    stopped   the reader stopped it (Ctrl-C)
    """

    read: int = 0
    failed: list[tuple[PageToRead, str]] = field(default_factory=list)
    placed: int = 0
    not_placed: list[NotPutInPlace] = field(default_factory=list)
    waiting: bool = False
    left: int = 0
    stopped: bool = False
    seconds: float = 0.0


@dataclass(frozen=True, slots=True)
class Limits:
    """When a run ends before the queue does.

    pages    most pages; 0 = all
    minutes  no page is begun after so long; 0 = no limit
    stopped  asked every second or so: once it is set the run ends
    skip     (copy id, pdf_page) of pages that are left for another run
    """

    pages: int = 0
    minutes: float = 0.0
    stopped: threading.Event = field(default_factory=threading.Event)
    skip: frozenset[tuple[str, int]] = frozenset()


@dataclass(frozen=True, slots=True)
class _Task:
    path: Path  # of the library's own copy
    page: PageToRead
    given: tuple[int, Any]


def recognize(path: Path, settings: Settings, pdf_page: int, engine: Any) -> RecognizedPage:
    """In a worker: one page read from its picture."""
    from indexer.reading.ocr import recognize_page  # here: numpy and pdfium are loaded where pages are read

    return recognize_page(path, pdf_page, settings, engine)


def recognize_pages(
    library_folder: Path,
    settings: Settings,
    engine: Any,
    index: FullText | None = None,
    progress: Callable[[OcrEvent], None] | None = None,
    limits: Limits | None = None,
    only: Sequence[PageToRead] | None = None,
    background: bool = False,
    recognize: Recognize = recognize,
    read: Read = read_and_tag,
) -> OcrReport:
    """Read the pages that wait for OCR, and put them in place.

    engine      from reading.ocr.find_engine; None = none is installed: what was read before is put in place
    index       is fed as copies are put in place; None = that is left for later
    only        these pages in this order, read before or not; None = the queue
    background  True = give way to everything else: one worker fewer than cores, at low priority; when told to
                stop, leave what was read for the next run to put in place
    recognize   what a worker does with one page, `read` with one copy; both importable by name
    Raises NoLibrary, OcrAtWork, LibraryTooNew, LibraryDamaged, WorkersCannotRun.
    """
    limits = limits or Limits()
    began = time.monotonic()
    niceness = GIVES_WAY if background else 0
    with (
        Catalogue.open(library_folder) as catalogue,
        only_one_ocr(library_folder),
        Telling(library_folder, engine.name if engine else "") as telling,
    ):
        tell = progress or _silent
        with Placing(catalogue, settings, index, tell, niceness, read) as placing:
            run = _Run(catalogue, settings, engine, tell, limits, only, placing, telling)
            try:
                for copy_id in waiting_copies(catalogue):
                    placing.page_read(copy_id)
                placing.put_all()
                if engine is not None:
                    run.read_all(recognize, _workers(settings, background), niceness)
            except KeyboardInterrupt:
                run.report.stopped = True
            run.end(background)
            run.report.seconds = time.monotonic() - began
            return run.report


class _Run:
    """One run at work."""

    def __init__(
        self,
        catalogue: Catalogue,
        settings: Settings,
        engine: Any,
        tell: Callable[[OcrEvent], None],
        limits: Limits,
        only: Sequence[PageToRead] | None,
        placing: Placing,
        telling: Telling,
    ):
        self._catalogue = catalogue
        self._settings = settings
        self._engine = engine
        self._tell = tell
        self._limits = limits
        self._placing = placing
        self._telling = telling
        self._pages = Pages(catalogue, only, limits.skip)
        self._given = 0
        self._read: set[tuple[str, int]] = set()
        self._began = time.monotonic()
        self.report = OcrReport()

    def read_all(self, recognize: Recognize, workers: int, niceness: int) -> None:
        """Read pages until none is left or a limit is met; put copies in place on the way."""
        self._began = time.monotonic()
        while self._pages.look() and not self._over():
            self._read_those_there(recognize, workers, niceness)

    def _read_those_there(self, recognize: Recognize, workers: int, niceness: int) -> None:
        self._tell(PagesFound(self._pages.left, self._engine.name))
        self._telling.change(left=self._pages.left)
        limit_s = self._settings.ocr_page_time_limit_s + _GRACE_S
        with Workers(
            _with_room(self._settings),
            self._catalogue.folder,
            (*IN_WORKERS, "indexer.reading.ocr"),
            workers,
            limit_s,
            0,
            niceness,
        ) as pool:
            for done in pool.each(recognize, self._tasks(), self._limits.stopped.is_set):
                self._keep(done)
                self._placing.put_due(lambda copy_id: not self._pages.left_of(copy_id))

    def end(self, background: bool) -> None:
        """Put in place what is not yet, and note how the run ended."""
        if background and self._limits.stopped.is_set():
            self.report.waiting = bool(waiting_copies(self._catalogue))
        else:
            self._put_rest()
        self.report.left = self._pages.look()
        self.report.placed = len(self._placing.placed)
        self.report.not_placed = self._placing.problems
        for each in self._placing.unusable:
            self.report.failed.append((each.page, each.problem))
            self.report.read -= (each.page.copy_id, each.page.pdf_page) in self._read
        self._telling.change(
            ended=self._ended(),
            done=self.report.read,
            failed=len(self.report.failed),
            left=self._pages.left,
            not_placed=tuple(each.words for each in self.report.not_placed),
        )

    def _ended(self) -> str:
        if self._engine is None:
            return "no OCR engine is installed"
        if self.report.stopped or self._limits.stopped.is_set():
            return "stopped"
        if self._pages.left:
            return "stopped at its limit"
        files = len(self.report.not_placed)
        if files:
            return f"{files:,} file{'' if files == 1 else 's'} could not be put in place"
        return "some of what was read is not in place yet" if self.report.waiting else "all pages are read"

    def _put_rest(self) -> None:
        told = False
        while not self._placing.put_all():
            if not told:
                self._tell(LibraryWaits())
                told = True
            if self._limits.stopped.wait(_AGAIN_S):
                self.report.waiting = True
                return

    def _tasks(self) -> Iterator[_Task]:
        """The next page each time a worker is free: what is wanted most may have changed since the last."""
        while not self._over():
            page = self._pages.next()
            if page is None:
                return
            try:
                path = self._catalogue.copy_file(page.copy_id)
            except PublicationUnknown:  # taken out of the library since
                self._pages.finished(page)
                continue
            self._given += 1
            self._telling.change(page=f"{page.file}, PDF page {page.pdf_page}")
            yield _Task(path, page, (page.pdf_page, self._engine))

    def _over(self) -> bool:
        limits = self._limits
        return (
            limits.stopped.is_set()
            or bool(limits.pages and self._given >= limits.pages)
            or bool(limits.minutes and time.monotonic() - self._began >= 60 * limits.minutes)
        )

    def _keep(self, done: Done) -> None:
        page: PageToRead = done.item.page
        problem, words = "", 0
        if done.problem is None:
            words = len(done.result.words)
            kept = keep_page(self._catalogue, page.copy_id, done.result)
            if kept:
                self.report.read += 1
                self._read.add((page.copy_id, page.pdf_page))
                self._placing.page_read(page.copy_id, self._pages.tells_its_publication(page))
        else:
            problem = _in_words(done.problem, done.item)
            kept = keep_failure(self._catalogue, page, self._engine.name, problem)
            if kept:
                self.report.failed.append((page, problem))
        self._pages.finished(page)
        tried = self.report.read + len(self.report.failed)
        state = self._telling.change(
            done=self.report.read,
            failed=len(self.report.failed),
            left=self._pages.left,
            seconds_left=seconds_left(tried, time.monotonic() - self._began, self._pages.left),
        )
        if kept:
            self._tell(PageRead(page, words, problem, state))


def _workers(settings: Settings, background: bool) -> int:
    if settings.workers or not background:
        return settings.workers
    return max(1, (os.cpu_count() or 1) - 1)


def _with_room(settings: Settings) -> Settings:
    """An engine that loads models and large pictures needs more address space than reading a PDF does."""
    if not settings.worker_memory_mb:
        return settings
    return replace(settings, worker_memory_mb=max(settings.worker_memory_mb, LEAST_MEMORY_MB))


def _in_words(problem: HangarleafError, task: _Task) -> str:
    file, place = task.page.file, f"{task.page.file}, PDF page {task.page.pdf_page}:"
    said = said_of(problem, task.path, file)
    return said if said.startswith(place) else said.replace(f"{file}:", place, 1)


def _silent(event: OcrEvent) -> None:
    """Nobody listens."""
