"""Pages that OCR read, put in place: their copy read again with them, tagged, related, indexed.

The library is held only for that long, and never while pages are being read. How often it is done changes no
result: a copy's passages follow from its file and from the pages read, whatever came first.
"""

import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from textwrap import shorten

from indexer.errors import HangarleafError, LibraryBusy, PublicationUnknown, ReadingCrashed
from indexer.ingest import IN_WORKERS, Event, HeldCopy, Read, held_copy, read_and_tag, settle
from indexer.library.catalogue import Catalogue, Taken
from indexer.library.fulltext import FullText
from indexer.library.lock import only_one
from indexer.library.ocr_pages import keep_unusable, used_pages
from indexer.library.ocr_records import PageToRead
from indexer.library.taking import check
from indexer.ocr_at_fault import pages_at_fault
from indexer.settings import Settings
from indexer.workers import Done, Workers

LEAST_WAIT_S = 60.0  # between two times that one copy is put in place while it still has pages to be read
SHARE = 20  # and at least so many times as long as the last time took
_LONGEST_PROBLEM = 300  # characters
EARLY_SHARE = 5  # the same for pages that may tell an unknown publication, over all copies together


@dataclass(frozen=True, slots=True)
class PutInPlace:
    """Progress: what OCR read of a copy is searched now. `pages` = all that OCR read of it."""

    file: str
    pages: int
    taken: Taken


@dataclass(frozen=True, slots=True)
class NotPutInPlace:
    """Progress and report: a copy could not be read again with its pages; it stays as it was.

    pages  that OCR read, and that search does not find
    words  what happened and what to do, for a person
    """

    file: str
    problem: HangarleafError
    pages: int
    words: str


@dataclass(frozen=True, slots=True)
class PageUnusable:
    """Progress and report: a page was read, and reading its copy with it fails; the rest is in place."""

    page: PageToRead
    problem: str


class Placing:
    """Puts copies in place. Use it as a context manager: it keeps one worker."""

    def __init__(
        self,
        catalogue: Catalogue,
        settings: Settings,
        index: FullText | None,
        tell: Callable[[PutInPlace | NotPutInPlace | PageUnusable | Event], None],
        niceness: int = 0,
        read: Read = read_and_tag,
    ):
        self._catalogue = catalogue
        self._index = index
        self._tell = tell
        self._read = read
        self._workers = Workers(settings, catalogue.folder, IN_WORKERS, number=1, niceness=niceness)
        self._took_s: dict[str, float] = {}
        self._since: dict[str, float] = {}  # when the first page was read that is not in place
        self._early: set[str] = set()
        self._next_early = float("-inf")
        self._problems: dict[str, NotPutInPlace] = {}
        self.unusable: list[PageUnusable] = []
        self.placed: set[str] = set()

    def __enter__(self) -> "Placing":
        return self

    def __exit__(self, *problem: object) -> None:
        self._workers.__exit__(*problem)

    @property
    def problems(self) -> list[NotPutInPlace]:
        """Copies that could not be put in place the last time it was tried."""
        return list(self._problems.values())

    def page_read(self, copy_id: str, early: bool = False) -> None:
        """A page of a copy was read and is kept. `early`: do not wait for the usual time."""
        self._since.setdefault(copy_id, time.monotonic())
        if early:
            self._early.add(copy_id)

    def put_due(self, finished: Callable[[str], bool]) -> None:
        """Put in place what is due: copies that are `finished`, and those that have waited long enough."""
        now = time.monotonic()
        early = self._early if now >= self._next_early else set()
        due = [
            copy_id
            for copy_id, since in self._since.items()
            if finished(copy_id) or copy_id in early or now - since >= wait_s(self._took_s.get(copy_id))
        ]
        if due:
            self.put(due)

    def put_all(self) -> bool:
        """Put in place everything that was read. False while the library is busy."""
        return self.put(list(self._since))

    def put(self, copy_ids: Iterable[str]) -> bool:
        """Put copies in place. False while the library is busy: nothing is done then, and nothing is lost."""
        waiting = list(copy_ids)
        if not waiting:
            return True
        try:
            with only_one(self._catalogue.folder):
                began = time.monotonic()
                for copy_id in waiting:
                    self._put(copy_id)
                settle(self._catalogue, self._index)
                took_s = time.monotonic() - began
        except LibraryBusy:
            return False
        self._next_early = time.monotonic() + EARLY_SHARE * took_s
        self._early.difference_update(waiting)
        for copy_id in waiting:
            self._took_s[copy_id] = took_s
            self._since.pop(copy_id, None)
        return True

    def _put(self, copy_id: str) -> None:
        try:
            held = held_copy(self._catalogue, copy_id)
        except PublicationUnknown:  # taken out of the library since, and its pages with it
            return
        done = self._read_again(held)
        if isinstance(done.problem, ReadingCrashed):
            held, done = self._without_pages_at_fault(held, done)
        problem = done.problem
        if problem is None:
            try:
                taken = self._catalogue.read_again(copy_id, *done.result, held.kept_at)
            except ValueError as wrong:
                problem = ReadingCrashed(held.copy.file, str(wrong))
        if problem is None:
            self.placed.add(copy_id)
            self._problems.pop(copy_id, None)
            self._tell(PutInPlace(held.copy.file, len(held.recognized), taken))
        else:
            self._problems[copy_id] = _not_put(held, problem, used_pages(self._catalogue, copy_id))
            self._tell(self._problems[copy_id])

    def _read_again(self, held: HeldCopy) -> Done:
        (done,) = self._workers.each(self._read, [held])
        if done.problem is None:
            try:
                check(*done.result)
            except ValueError as wrong:
                return Done(held, problem=ReadingCrashed(held.copy.file, str(wrong)))
        return done

    def _without_pages_at_fault(self, held: HeldCopy, failed: Done) -> tuple[HeldCopy, Done]:
        """The copy read without the pages that stop it, which are noted as failed; as given where none is."""
        worked: list[tuple[HeldCopy, Done]] = []
        why: dict[int, HangarleafError] = {}

        def fails(pages: Sequence[int]) -> bool:
            part = replace(held, recognized={page: held.recognized[page] for page in pages})
            done = self._read_again(part)
            if done.problem is None:
                worked.append((part, done))
            why.update(dict.fromkeys(pages, done.problem) if done.problem else {})
            return done.problem is not None

        used = used_pages(self._catalogue, held.copy.id)
        new = sorted(held.recognized.keys() - used)
        bad = pages_at_fault(fails, new, sorted(held.recognized.keys() & used))
        if not bad or (
            len(bad) > 1 and len(bad) == len(held.recognized)
        ):  # no page works: it is none of them
            return held, failed
        for pdf_page in bad:
            problem = _page_words(held, pdf_page, why.get(pdf_page) or failed.problem)
            page = keep_unusable(self._catalogue, held.copy.id, pdf_page, problem)
            if page is not None:
                self.unusable.append(PageUnusable(page, problem))
                self._tell(self.unusable[-1])
        return worked[-1]


def said_of(problem: HangarleafError, path: Path, file: str) -> str:
    """What happened, with the file called as people know it and not as the library keeps it."""
    said = problem.what.replace(str(path), file).replace(path.name, file)
    return shorten(said.replace("; the file is set aside", ""), _LONGEST_PROBLEM)


def _page_words(held: HeldCopy, pdf_page: int, problem: HangarleafError) -> str:
    file = held.copy.file
    why = said_of(problem, held.path, file).removeprefix(f"{file}: ").rstrip(".")
    return f"{file}, PDF page {pdf_page}: OCR read it, but what it read cannot be used: {why}."


def _not_put(held: HeldCopy, problem: HangarleafError, used: frozenset[int]) -> NotPutInPlace:
    file, pages = held.copy.file, len(held.recognized.keys() - used)
    why = said_of(problem, held.path, file).removeprefix(f"{file}: ").rstrip(".")
    what = f"{pages:,} page{' was' if pages == 1 else 's were'} read"
    return NotPutInPlace(
        file,
        problem,
        pages,
        f"{file}: {what}, but the file could not be put in place: {why}. {_remedy(problem)}",
    )


def _remedy(problem: HangarleafError) -> str:
    again = "What was read is kept; try again with: hangarleaf ocr"
    if isinstance(problem, ReadingCrashed):
        return f"{again}. If that fails too, print the file to a new PDF and ingest that."
    return f"{problem.remedy} {again}"


def wait_s(took_s: float | None) -> float:
    """Seconds for which pages wait for more of their copy before they are put in place. Pure.

    took_s  what putting that copy in place took the last time; None = it was not yet
    """
    return max(LEAST_WAIT_S, SHARE * (took_s or 0.0))
