"""Which passages stand on a page, and which pages search cannot find.

Asked by page, so that a manual of thousands of passages is not read for one of its pages.
"""

from collections.abc import Iterable, Iterator

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.records import PageRecord, PassageRecord, PublicationRecord
from indexer.reading.page import TextState
from indexer.trade.evidence import Origin
from server.kept import KeptByState
from server.ocr_words import HowRead
from server.standing_today import StandingToday

SEARCHED = (TextState.TEXT, TextState.BLANK)  # any other page holds what search cannot find
_NOT_SEARCHED = f"""
    FROM page
    JOIN copy ON copy.id = page.copy_id AND copy.replaced_by IS NULL
    JOIN publication ON publication.copy_id = page.copy_id
        AND page.pdf_page BETWEEN publication.first_page AND publication.last_page
    LEFT JOIN recognized_page AS read ON read.copy_id = page.copy_id AND read.pdf_page = page.pdf_page
    WHERE page.state NOT IN (?1, ?2) AND (
        page.ocr_reason IS NULL OR (read.problem = '' AND read.used AND page.state <> '{TextState.GARBLED}')
    )
"""
_BATCH = 500  # SQLite takes 999 parameters in its smallest build
_kept = KeptByState(most=4)
_RUNS_ON = 3  # pages: how far a passage is followed that begins on an earlier page


def passages_on(catalogue: Catalogue, publication: PublicationRecord, pdf_page: int) -> list[PassageRecord]:
    """The passages that have a part on a page, in reading order, their standing as of the library's today."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT id FROM passage WHERE publication_id = ? AND pdf_page BETWEEN ? AND ? ORDER BY ordinal",
            (publication.id, pdf_page - _RUNS_ON, pdf_page),
        )
        near = catalogue.passages(row["id"] for row in found.fetchall())
    on_day = StandingToday(catalogue)
    return [
        on_day.passage(passage)
        for passage in near.values()
        if passage.pdf_page == pdf_page or any(place.pdf_page == pdf_page for place in passage.boxes)
    ]


def holds_ocr(catalogue: Catalogue) -> bool:
    """Whether any page was read by OCR, our own or a hidden layer's; inside `reading` it is asked once."""
    with catalogue.reading() as connection:
        kept = _kept.of(catalogue, catalogue.generation)
        found = "SELECT 1 FROM page WHERE origin <> ? LIMIT 1"
        return kept.once(
            "ocr", lambda: connection.execute(found, (Origin.DIGITAL.value,)).fetchone() is not None
        )


def origins_of(catalogue: Catalogue, publication_id: str) -> tuple[Origin, ...]:
    """In what ways the passages of a publication were read."""
    if not holds_ocr(catalogue):
        return (Origin.DIGITAL,)
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT DISTINCT origin FROM passage WHERE publication_id = ? ORDER BY 1", (publication_id,)
        )
        return tuple(Origin(row["origin"]) for row in found)


def read_by_ocr(catalogue: Catalogue, passage_ids: Iterable[str]) -> dict[str, HowRead]:
    """Those of the passages that OCR read, by id."""
    ids = list(dict.fromkeys(passage_ids))
    read: dict[str, HowRead] = {}
    if not ids or not holds_ocr(catalogue):
        return read
    with catalogue.reading() as connection:
        for start in range(0, len(ids), _BATCH):
            batch = ids[start : start + _BATCH]
            found = connection.execute(
                "SELECT id, origin, doubtful_json, IIF(doubtful_json = '[]', '', text) AS text FROM passage"
                f" WHERE origin <> ? AND id IN ({','.join('?' * len(batch))})",
                (Origin.DIGITAL.value, *batch),
            )
            for row in found:
                doubtful = from_json(tuple[str, ...], row["doubtful_json"])
                read[row["id"]] = HowRead(Origin(row["origin"]), doubtful, row["text"])
    return read


def pages_not_searched(catalogue: Catalogue) -> Iterator[tuple[str, PageRecord]]:
    """(publication id, page) of every page on the shelf that shows something and has no text to search.

    Those that OCR still owes or could not read are not among them (indexer/library/ocr_pages.py).
    """
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT publication.id, page.copy_id, page.pdf_page {_NOT_SEARCHED}"
            " ORDER BY copy.file, page.copy_id, page.pdf_page",
            SEARCHED,
        )
        for row in found.fetchall():
            yield row["id"], catalogue.page(row["copy_id"], row["pdf_page"])


def count_not_searched(catalogue: Catalogue) -> dict[TextState, dict[str, int]]:
    """The same pages counted: state of the page -> publication id -> how many."""
    counts: dict[TextState, dict[str, int]] = {}
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT page.state, publication.id, COUNT(*) {_NOT_SEARCHED} GROUP BY 1, 2 ORDER BY 1, 2",
            SEARCHED,
        )
        for state, publication_id, pages in found.fetchall():
            counts.setdefault(TextState(state), {})[publication_id] = pages
    return counts
