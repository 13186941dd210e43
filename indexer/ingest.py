"""A folder of PDF files into a library: found, read in isolated workers, kept one by one, related, indexed.

One bad file never stops the rest, and a run that was stopped can simply be run again.
"""

import os
import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from indexer.errors import FileRefused, HangarleafError, NothingToIngest, ReadingCrashed, TooLarge
from indexer.library.catalogue import Catalogue, Taken
from indexer.library.copies import as_refusal, sha256_of
from indexer.library.fulltext import FullText
from indexer.library.lock import only_one
from indexer.library.ocr_pages import recognized_in
from indexer.library.outbox import feed
from indexer.library.problems import AlreadyHeld
from indexer.library.records import CopyRecord
from indexer.library.relations import relate
from indexer.reading.page import Document
from indexer.reading.recognized import RecognizedPage
from indexer.settings import Settings
from indexer.tagging.tags import TaggedPublication
from indexer.workers import Workers

RELATE_EVERY_S = 30.0  # while files are taken, so that a directive just taken does not wait for the last file
RELATE_SHARE = 0.05  # of the time at most: in a large library it is done less often
_PAGES_IN_TIME = 300  # pages that one time limit is meant for: a scan with a layer takes 0.1 to 0.5 s a page
_SCANNED_PAGE = 50_000  # bytes
_MOST_TIMES_LONGER = 12.0  # for a file of which only the size is known
_BACKGROUND_NICENESS = 10
IN_WORKERS = ("indexer.reading.document", "indexer.tagging.publication")

Read = Callable[..., tuple[Document, tuple[TaggedPublication, ...]]]  # path, settings, pages read by OCR


@dataclass(frozen=True, slots=True)
class Found:
    """Progress: how many files there are to look at."""

    files: int


@dataclass(frozen=True, slots=True)
class Stage:
    """Progress: what is done now, when it is not one file: "relating", "indexing"."""

    name: str


@dataclass(frozen=True, slots=True)
class FileBegun:
    """Progress: a file was handed to a worker, or is the next one for it."""

    path: Path


@dataclass(frozen=True, slots=True)
class FileTaken:
    """Progress: a file is in the library."""

    path: Path
    taken: Taken


@dataclass(frozen=True, slots=True)
class FileAlready:
    """Progress: the content of a file was in the library before."""

    path: Path


@dataclass(frozen=True, slots=True)
class Refused:
    """Progress and report: a file was set aside; `what` happened, and the `remedy`."""

    path: Path
    slug: str
    what: str
    remedy: str


Event = Found | Stage | FileBegun | FileTaken | FileAlready | Refused


@dataclass(slots=True)
class Report:
    """What came of every file, in the order of their paths."""

    taken: list[FileTaken] = field(default_factory=list)
    already: list[Path] = field(default_factory=list)
    refused: list[Refused] = field(default_factory=list)
    generation: int = 0  # of the catalogue, at the end


@dataclass(frozen=True, slots=True)
class _Task:
    path: Path
    sha256: str
    size: int  # bytes

    @property
    def times_longer(self) -> float:
        """Its pages are not known before it is read: told from its size, as if it were a scan."""
        return min(times_longer(self.size / _SCANNED_PAGE), _MOST_TIMES_LONGER)


@dataclass(frozen=True, slots=True)
class HeldCopy:
    """A copy to be read again: the library's own file, and what OCR read of it."""

    path: Path
    copy: CopyRecord
    recognized: Mapping[int, tuple[RecognizedPage, str]]

    @property
    def given(self) -> tuple:
        return ({number: page for number, (page, _) in self.recognized.items()},) if self.recognized else ()

    @property
    def times_longer(self) -> float:
        return times_longer(self.copy.pages)

    @property
    def kept_at(self) -> dict[int, str]:
        return {number: at for number, (_, at) in self.recognized.items()}


def times_longer(pages: float) -> float:
    """How many time limits a file of so many pages may take to read. Pure."""
    return max(1.0, pages / _PAGES_IN_TIME)


def held_copy(catalogue: Catalogue, copy_id: str) -> HeldCopy:
    """Raises PublicationUnknown."""
    return HeldCopy(catalogue.copy_file(copy_id), catalogue.copy(copy_id), recognized_in(catalogue, copy_id))


def ingest(
    paths: Sequence[Path],
    library_folder: Path,
    settings: Settings,
    progress: Callable[[Event], None] | None = None,
    engine: FullText | None = None,
    read: Read | None = None,
    stopped: Callable[[], bool] = lambda: False,
    background: bool = False,
) -> Report:
    """Take every PDF file of `paths` (files, or folders with all their subfolders) into the library.

    progress  is told of every event, in this thread
    engine    is fed at the end; None = the index is left for later
    read      what a worker does with one file; must be importable by name
    stopped   once it is true, no more is read: what was taken is kept, relations and index are left for later
    background  True = the workers give way to everything else on this machine
    Raises NothingToIngest, LibraryBusy, LibraryTooNew, LibraryDamaged; a bad file is in the report and in the
    catalogue's list of refused files instead.
    """
    files, gone = find_files(paths, library_folder)
    if not files and not gone:
        raise NothingToIngest(", ".join(str(path) for path in paths))
    with only_one(library_folder), Catalogue.open(library_folder, create=True) as catalogue:
        run = _Run(catalogue, settings, progress or _silent, _BACKGROUND_NICENESS if background else 0)
        run.tell(Found(len(files) + len(gone)))
        catalogue.sweep()
        for problem in gone:
            run.refuse(problem.path, problem.problem)
        run.take_all(files, read or read_and_tag, stopped)
        if not stopped():
            settle(catalogue, engine, run.tell)
        return run.finished()


def read_again(
    library_folder: Path,
    settings: Settings,
    progress: Callable[[Event], None] | None = None,
    engine: FullText | None = None,
    everything: bool = False,
    read: Read | None = None,
) -> Report:
    """Read the library's own copies again that were read by older rules; all of them with `everything`.

    Each is replaced in one transaction, and stays as it was where reading fails. What OCR read is used again,
    what people entered stays and finds its place anew. Arguments and errors as for `ingest`, but
    NothingToIngest; raises NoLibrary.
    """
    with only_one(library_folder), Catalogue.open(library_folder) as catalogue:
        run = _Run(catalogue, settings, progress or _silent)
        held = catalogue.copies() if everything else catalogue.read_by_older_rules()
        run.tell(Found(len(held)))
        run.read_again(held, read or read_and_tag)
        settle(catalogue, engine, run.tell)
        return run.finished()


def settle(
    catalogue: Catalogue, engine: FullText | None, tell: Callable[[Event], None] | None = None
) -> None:
    """Work out relations, then bring the index up to date. Does nothing where nothing has changed."""
    tell = tell or _silent
    tell(Stage("relating"))
    relate(catalogue)
    if engine is not None:
        tell(Stage("indexing"))
        feed(catalogue, engine)


def read_and_tag(
    path: Path, settings: Settings, recognized: Mapping[int, RecognizedPage] | None = None
) -> tuple[Document, tuple[TaggedPublication, ...]]:
    """In a worker: one file to its publications.

    recognized  by pdf_page, what OCR read on pages whose own text will not do
    The lines of its pages stay behind: the passages hold the text.
    """
    # Here and not above: the PDF libraries are loaded where files are read, not where the library is kept.
    from indexer.reading.document import read_document
    from indexer.tagging.publication import tag_document

    document = read_document(path, settings, **({"recognized": recognized} if recognized else {}))
    publications = tag_document(document, settings.ocr_floor)
    pages = tuple(replace(page, head=(), foot=(), body=(), tables=()) for page in document.pages)
    return replace(document, pages=pages, passages=()), publications


@dataclass(frozen=True, slots=True)
class Gone:
    """A place that was named and cannot be looked into."""

    path: Path
    problem: FileRefused


def find_files(paths: Iterable[Path], library_folder: Path) -> tuple[list[Path], list[Gone]]:
    """PDF files under `paths` in order, each once, and the places that cannot be looked into.

    A file that is named itself is taken whatever its name. In folders, hidden and temporary files are passed
    over, and so is the library with its own copies.
    """
    library = library_folder.expanduser().absolute()
    found: dict[Path, None] = {}
    gone: list[Gone] = []

    def unreadable(problem: OSError) -> None:
        place = Path(problem.filename)
        gone.append(Gone(place, as_refusal(place, problem)))

    for path in (Path(path).expanduser().absolute() for path in paths):
        if path.is_dir():
            found.update((file, None) for file in _walk(path, library, unreadable))
        elif path.exists():
            found[path] = None
        else:
            gone.append(Gone(path, as_refusal(path, FileNotFoundError())))
    return sorted(found), gone


def _walk(folder: Path, library: Path, unreadable: Callable[[OSError], None]) -> Iterator[Path]:
    for place, folders, files in os.walk(folder, onerror=unreadable):
        folders[:] = sorted(
            name for name in folders if not name.startswith(".") and Path(place, name) != library
        )
        for name in sorted(files):
            if name.casefold().endswith(".pdf") and not name.startswith((".", "~")):
                yield Path(place, name)


class _Run:
    """One ingest at work."""

    def __init__(
        self, catalogue: Catalogue, settings: Settings, tell: Callable[[Event], None], niceness: int = 0
    ):
        self.catalogue = catalogue
        self.settings = settings
        self.tell = tell
        self.niceness = niceness
        self.report = Report()

    def take_all(self, files: Iterable[Path], read: Read, stopped: Callable[[], bool]) -> None:
        next_relating = time.monotonic() + RELATE_EVERY_S
        with Workers(self.settings, self.catalogue.folder, IN_WORKERS, niceness=self.niceness) as workers:
            for done in workers.each(read, self._to_read(files), stopped):
                if done.problem:
                    self.refuse(done.item.path, done.problem, done.item.sha256)
                else:
                    self._take(done.item, *done.result)
                begun = time.monotonic()
                if begun >= next_relating:
                    relate(self.catalogue)
                    took_s = time.monotonic() - begun
                    next_relating = begun + max(RELATE_EVERY_S, took_s / RELATE_SHARE)

    def read_again(self, held: Iterable[CopyRecord], read: Read) -> None:
        files = (held_copy(self.catalogue, copy.id) for copy in held)
        with Workers(self.settings, self.catalogue.folder, IN_WORKERS) as workers:
            for done in workers.each(read, files):
                copy = done.item.copy
                seen = Path(copy.paths[0] if copy.paths else copy.file)
                problem = done.problem
                if problem is None:
                    try:
                        taken = self.catalogue.read_again(copy.id, *done.result, done.item.kept_at)
                    except ValueError as wrong:
                        problem = ReadingCrashed(copy.file, str(wrong))
                if problem is None:
                    self.report.taken.append(FileTaken(seen, taken))
                    self.tell(self.report.taken[-1])
                else:
                    remedy = f"It stays as it was read before. {problem.remedy}"
                    self.report.refused.append(Refused(seen, problem.slug, problem.what, remedy))
                    self.tell(self.report.refused[-1])

    def finished(self) -> Report:
        self.report.taken.sort(key=lambda event: event.path)
        self.report.already.sort()
        self.report.refused.sort(key=lambda refused: refused.path)
        self.report.generation = self.catalogue.generation
        return self.report

    def refuse(self, path: Path, problem: HangarleafError, sha256: str = "") -> None:
        self.catalogue.refuse(path, problem, sha256)
        self.report.refused.append(Refused(path, problem.slug, problem.what, problem.remedy))
        self.tell(self.report.refused[-1])

    def _to_read(self, files: Iterable[Path]) -> Iterator[_Task]:
        """The files whose content is not held yet; drawn as workers become free."""
        for path in files:
            try:
                size = self._checked_size(path)
                sha256 = sha256_of(path)
            except FileRefused as problem:
                self.refuse(path, problem)
                continue
            if self.catalogue.seen_again(path, sha256):
                self._already(path)
            else:
                self.tell(FileBegun(path))
                yield _Task(path, sha256, size)

    def _checked_size(self, path: Path) -> int:
        """Bytes. Raises TooLarge, or what keeps the file from being looked at."""
        try:
            size = path.stat().st_size
        except OSError as problem:
            raise as_refusal(path, problem) from problem
        limit_mb = self.settings.max_file_mb
        if limit_mb and size > limit_mb * 1e6:
            raise TooLarge(
                str(path), f"its size of {size / 1e6:.0f} MB", f"{limit_mb} MB", "HANGARLEAF_MAX_FILE_MB"
            )
        return size

    def _take(self, task: _Task, document: Document, publications: tuple[TaggedPublication, ...]) -> None:
        try:
            taken = self.catalogue.take(task.path, document, publications)
        except AlreadyHeld:
            self._already(task.path)
        except FileRefused as problem:
            self.refuse(task.path, problem, task.sha256)
        except ValueError as problem:
            self.refuse(task.path, ReadingCrashed(str(task.path), str(problem)), task.sha256)
        else:
            self.report.taken.append(FileTaken(task.path, taken))
            self.tell(self.report.taken[-1])

    def _already(self, path: Path) -> None:
        self.report.already.append(path)
        self.tell(FileAlready(path))


def _silent(event: Event) -> None:
    """Nobody listens."""
