"""The pages of one run of OCR, the most wanted first, each given out once and the next one chosen anew."""

from collections.abc import Iterable, Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.ocr_queue import queue, queue_state
from indexer.library.ocr_records import PageToRead


class Pages:
    """What a run has to read: `only` these pages in this order, or the queue; never those of `skip`."""

    def __init__(
        self, catalogue: Catalogue, only: Sequence[PageToRead] | None, skip: Iterable[tuple[str, int]]
    ):
        self._catalogue = catalogue
        self._only = only
        self._given: set[tuple[str, int]] = set(skip)
        self._finished: set[tuple[str, int]] = set(skip)
        self._state: tuple[int, int] | None = None
        self._waiting: list[PageToRead] = []  # the most wanted last
        self._left: dict[str, set[int]] = {}  # pages that are not finished, by copy

    @property
    def left(self) -> int:
        return sum(map(len, self._left.values()))

    def left_of(self, copy_id: str) -> int:
        return len(self._left.get(copy_id, ()))

    def next(self) -> PageToRead | None:
        self.look()
        while self._waiting:
            page = self._waiting.pop()
            if _key(page) not in self._given:
                self._given.add(_key(page))
                return page
        return None

    def finished(self, page: PageToRead) -> None:
        self._finished.add(_key(page))
        self._left.get(page.copy_id, set()).discard(page.pdf_page)

    def tells_its_publication(self, page: PageToRead) -> bool:
        """Whether a page may tell which publication it is of: the first one of a publication not known."""
        return any(
            page.pdf_page == each.first_page and not (each.type or each.number or each.title)
            for each in self._catalogue.publications_in(page.copy_id)
        )

    def look(self) -> int:
        """Put the pages in order anew where anything that it follows from has changed; how many are left."""
        state = queue_state(self._catalogue) if self._only is None else (0, 0)
        if state != self._state:
            self._hold(queue(self._catalogue) if self._only is None else self._only)
            self._state = state
        return self.left

    def _hold(self, pages: Sequence[PageToRead]) -> None:
        waiting = [page for page in pages if _key(page) not in self._finished]
        self._waiting = waiting[::-1]
        self._left = {}
        for page in waiting:
            self._left.setdefault(page.copy_id, set()).add(page.pdf_page)


def _key(page: PageToRead) -> tuple[str, int]:
    return page.copy_id, page.pdf_page
