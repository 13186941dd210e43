"""An opened library: its catalogue, the index that follows it, and the pictures of its pages."""

import datetime
import logging
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from indexer.errors import LibraryBusy, PublicationUnknown
from indexer.ingest import settle
from indexer.library.catalogue import Catalogue
from indexer.library.day import demonstration_words, today
from indexer.library.fulltext import FullText
from indexer.library.identity import library_id
from indexer.library.lock import only_one
from indexer.library.ocr_wants import write_noted
from indexer.library.outbox import is_current
from indexer.library.records import PageRecord, PublicationRecord, Status
from indexer.library.whoosh_engine import WhooshEngine
from indexer.reading.page import Word
from indexer.settings import Settings
from server.render import PagePictures
from server.tiles import Tile

_LAST_WAIT_MS = 2000  # for another writer, before the library is closed

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class LibraryState:
    """Which state of the library an answer speaks of, and when it was given. Times in UTC."""

    generation: int
    changed_at: datetime.datetime
    publications: int
    shown_at: datetime.datetime
    up_to_date: bool  # False while an ingest is at work: index or relations lag behind
    library: str  # which library this is, since another may answer at the same address tomorrow
    day: datetime.date  # the day that the answer is given for, where none was asked for
    demonstration: str = ""  # in words, that this is no shop's library and has a day of its own

    @property
    def mark(self) -> str:
        """All that an answer follows from, in one word: what a tablet compares to learn of a change.

        The day is of it, for directives and checks of the register begin and end by it. So is the time of the
        last change: a library that is brought back from a backup counts the same generations again.
        """
        return f"{self.library}:{self.generation}:{self.changed_at:%Y%m%dT%H%M%S.%f}:{self.day}"

    def fields(self) -> dict[str, object]:
        return {
            "library": self.library,
            "mark": self.mark,
            "generation": self.generation,
            "changed_at": self.changed_at.isoformat(),
            "publications": self.publications,
            "shown_at": self.shown_at.isoformat(),
            "up_to_date": self.up_to_date,
            "day": self.day.isoformat(),
            "demonstration": self.demonstration or None,
        }


def index_folder(library: Path) -> Path:
    """Where the search index of a library lies: it holds the index and nothing else, and may be deleted."""
    return library / "index"


class OpenedLibrary:
    """Open one with `OpenedLibrary.open`; safe to use from many threads; use it as a context manager."""

    def __init__(
        self,
        folder: Path,
        catalogue: Catalogue,
        engine: FullText,
        pictures: PagePictures,
        settings: Settings | None = None,
    ):
        self.folder = folder
        self.settings = settings or Settings()
        self.catalogue = catalogue
        self.engine = engine
        self.pictures = pictures
        self.id = library_id(catalogue)
        self._catching_up = threading.Lock()
        self._publications: tuple[int, Mapping[str, PublicationRecord]] = (-1, {})

    @classmethod
    def open(cls, folder: Path, settings: Settings) -> "OpenedLibrary":
        """The library in `folder`, its index caught up. Raises NoLibrary, LibraryTooNew, LibraryDamaged."""
        catalogue = Catalogue.open(folder)
        library = cls(
            folder,
            catalogue,
            WhooshEngine(index_folder(folder), settings.search_cache_mb),
            PagePictures(folder / "cache" / "pages", settings),
            settings,
        )
        library.catch_up()
        return library

    def __enter__(self) -> "OpenedLibrary":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        self.pictures.close()
        if not write_noted(self.catalogue, _LAST_WAIT_MS):
            _log.warning("%s: what searches missed last is not kept: the library is busy", self.folder)
        self.catalogue.close()

    def catch_up(self) -> bool:
        """Bring relations and index up to date; False while an ingest is at work, which does it itself."""
        if self.up_to_date():
            return True
        with self._catching_up:
            if self.up_to_date():
                return True
            try:
                with only_one(self.folder):
                    settle(self.catalogue, self.engine)
            except LibraryBusy:
                return False
        return self.up_to_date()

    def up_to_date(self) -> bool:
        return is_current(self.catalogue, self.engine) and not self.catalogue.status().relations_pending

    @contextmanager
    def reading(self) -> Iterator[Status]:
        """One unchanging state of the catalogue for all that is read inside."""
        with self.catalogue.reading():
            yield self.catalogue.status()

    def publications(self) -> list[PublicationRecord]:
        """Every publication on the shelf, by id; read once for each generation."""
        return [record for record in self._held().values() if record.replaced is None]

    def publication(self, publication_id: str) -> PublicationRecord:
        """One publication, also of a replaced file. Raises PublicationUnknown."""
        record = self._held().get(publication_id)
        if record is None:
            raise PublicationUnknown(publication_id)
        return record

    def every_publication(self) -> list[PublicationRecord]:
        """Also those of replaced files."""
        return list(self._held().values())

    def _held(self) -> Mapping[str, PublicationRecord]:
        with self.catalogue.reading():
            generation, held = self.catalogue.generation, self._publications
            if held[0] != generation:
                records = self.catalogue.publications(replaced=True)
                held = self._publications = (generation, {record.id: record for record in records})
        return held[1]

    def state(self, status: Status) -> LibraryState:
        """The state an answer speaks of; call it inside `reading`."""
        return LibraryState(
            status.generation,
            status.changed_at,
            status.publications,
            datetime.datetime.now(datetime.UTC),
            not status.relations_pending and is_current(self.catalogue, self.engine),
            self.id,
            today(self.catalogue),
            demonstration_words(self.catalogue),
        )

    def picture(self, publication: PublicationRecord, pdf_page: int, dpi: int) -> bytes:
        """One page as a JPEG, from the library's own copy of the file. Raises PageNotDrawn."""
        file = self.catalogue.copy_file(publication.copy_id)
        return self.pictures.picture(file, publication.file, publication.copy_id, pdf_page, dpi)

    def tile(self, publication: PublicationRecord, page: PageRecord, tile: Tile) -> bytes | None:
        """One tile of a page as a JPEG; None where the page has no such tile. Raises PageNotDrawn."""
        file = self.catalogue.copy_file(publication.copy_id)
        size = (page.width, page.height)
        return self.pictures.tile(file, publication.file, publication.copy_id, page.pdf_page, size, tile)

    def words(self, publication: PublicationRecord, pdf_page: int) -> tuple[Word, ...]:
        """The words of one page with their boxes. Raises PageNotDrawn."""
        file = self.catalogue.copy_file(publication.copy_id)
        return self.pictures.words(file, publication.file, pdf_page)
