"""Pages that OCR read, put in place: their copy read again with them, tagged, related, indexed.

The library is held only for that long, and never while pages are being read. How often it is done changes no
result: a copy's passages follow from its file and from the pages read, whatever came first.
"""

import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from indexer.errors import HangarleafError, LibraryBusy, PublicationUnknown, ReadingCrashed
from indexer.ingest import IN_WORKERS, Event, Read, held_copy, read_and_tag, settle
from indexer.library.catalogue import Catalogue, Taken
from indexer.library.fulltext import FullText
from indexer.library.lock import only_one
from indexer.settings import Settings
from indexer.workers import Workers

LEAST_WAIT_S = 60.0  # between two times that one copy is put in place while it still has pages to be read
SHARE = 20  # and at least so many times as long as the last time took
EARLY_SHARE = 5  # the same for pages that may tell an unknown publication, over all copies together


@dataclass(frozen=True, slots=True)
class PutInPlace:
    """Progress: what OCR read of a copy is searched now. `pages` = all that OCR read of it."""

    file: str
    pages: int
    taken: Taken


@dataclass(frozen=True, slots=True)
class NotPutInPlace:
    """Progress and report: a copy could not be read again with its pages; it stays as it was."""

    file: str
    problem: HangarleafError


class Placing:
    """Puts copies in place. Use it as a context manager: it keeps one worker."""

    def __init__(
        self,
        catalogue: Catalogue,
        settings: Settings,
        index: FullText | None,
        tell: Callable[[PutInPlace | NotPutInPlace | Event], None],
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
        self.problems: list[NotPutInPlace] = []
        self.placed: set[str] = set()

    def __enter__(self) -> "Placing":
        return self

    def __exit__(self, *problem: object) -> None:
        self._workers.__exit__(*problem)

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
        (done,) = self._workers.each(self._read, [held])
        problem = done.problem
        if problem is None:
            try:
                taken = self._catalogue.read_again(copy_id, *done.result, held.kept_at)
            except ValueError as wrong:
                problem = ReadingCrashed(held.copy.file, str(wrong))
        if problem is None:
            self.placed.add(copy_id)
            self._tell(PutInPlace(held.copy.file, len(held.recognized), taken))
        else:
            self.problems.append(NotPutInPlace(held.copy.file, problem))
            self._tell(self.problems[-1])


def wait_s(took_s: float | None) -> float:
    """Seconds for which pages wait for more of their copy before they are put in place. Pure.

    took_s  what putting that copy in place took the last time; None = it was not yet
    """
    return max(LEAST_WAIT_S, SHARE * (took_s or 0.0))
