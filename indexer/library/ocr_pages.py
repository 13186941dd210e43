"""Pages read by OCR as they are kept, and what is still to be read.

The queue is derived: every page on the shelf whose own text will not do and that was not read yet. So it
needs no keeping, and a run that was stopped goes on by itself. Keeping a page makes no generation: nothing
that readers see has changed until its copy is read again with it (Catalogue.read_again). What is looked for
and not found is noted in ocr_wants.py; the order of reading is ocr_order.py's.
"""

import sqlite3
import zlib
from collections.abc import Mapping
from weakref import WeakKeyDictionary

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json, to_json
from indexer.library.generations import meta, set_meta
from indexer.library.ocr_records import (
    FAILURES,
    MOST_TRIES,
    Debt,
    FailedPage,
    PageToRead,
    PublicationDebt,
    RunState,
)
from indexer.library.ocr_state import at_work, last_state
from indexer.reading.page import TextState
from indexer.reading.recognized import OcrReason, RecognizedPage
from indexer.reading.recognized_page import NO_WORDS_READ

_WAITING = """
    FROM page
    JOIN copy ON copy.id = page.copy_id AND copy.replaced_by IS NULL
    LEFT JOIN recognized_page AS read ON read.copy_id = page.copy_id AND read.pdf_page = page.pdf_page
    WHERE page.ocr_reason IS NOT NULL
"""
_NOT_TRIED_OUT = f"(read.copy_id IS NULL OR (read.problem <> '' AND read.tries < {MOST_TRIES}))"
_TRIED_OUT = f"(read.problem <> '' AND read.tries >= {MOST_TRIES})"
_READ_IN_VAIN = f"(page.state = '{TextState.GARBLED}' OR page.problem = '{NO_WORDS_READ}')"
_NO_WORDS = f"(read.problem = '' AND read.used AND {_READ_IN_VAIN})"
_FAILED = f"({_TRIED_OUT} OR {_NO_WORDS})"
_READ_AND_USED = f"(read.problem = '' AND read.used AND NOT {_READ_IN_VAIN})"
_WAIT_MS = 600_000  # for another writer: what was read in a minute is worth waiting for
_counted_placing: WeakKeyDictionary[Catalogue, tuple[tuple, dict[str, int]]] = WeakKeyDictionary()
_counted: WeakKeyDictionary[Catalogue, tuple[tuple[int, int], dict[str, PublicationDebt]]] = (
    WeakKeyDictionary()
)


# What is kept ---------------------------------------------------------------------------------------------


def keep_page(catalogue: Catalogue, copy_id: str, page: RecognizedPage) -> bool:
    """Keep what OCR read on one page, in place of what it read before; False when the copy is gone."""
    return _keep(
        catalogue,
        (copy_id, page.pdf_page, rows.now(), page.engine, page.confidence, page.seconds, "", 0, 0),
        zlib.compress(to_json(page).encode()),
    )


def keep_failure(catalogue: Catalogue, page: PageToRead, engine: str, problem: str) -> bool:
    """Note that a page could not be read in this run, and why; what was read before stays. False as above."""
    with catalogue.database.writing(_WAIT_MS) as connection:
        if not _held(connection, page.copy_id):
            return False
        connection.execute(
            "INSERT INTO recognized_page VALUES (?, ?, ?, ?, 0, 0, ?, 1, 0, NULL)"
            " ON CONFLICT (copy_id, pdf_page) DO UPDATE SET at = excluded.at, engine = excluded.engine,"
            " problem = excluded.problem, tries = tries + 1 WHERE recognized_page.record IS NULL",
            (page.copy_id, page.pdf_page, rows.now(), engine, problem),
        )
        _count_failure(connection)
    return True


def keep_unusable(catalogue: Catalogue, copy_id: str, pdf_page: int, problem: str) -> PageToRead | None:
    """Note that a copy cannot be read with what OCR read on a page, and why: it counts as one that could not
    be read until it is read anew. None when the copy is gone."""
    with catalogue.database.writing(_WAIT_MS) as connection:
        row = connection.execute(
            "SELECT page.copy_id, page.pdf_page, copy.file, page.ocr_reason FROM page"
            " JOIN copy ON copy.id = page.copy_id WHERE page.copy_id = ? AND page.pdf_page = ?",
            (copy_id, pdf_page),
        ).fetchone()
        if row is None:
            return None
        connection.execute(
            "UPDATE recognized_page SET problem = ?, tries = ?, used = 0 WHERE copy_id = ? AND pdf_page = ?",
            (problem, MOST_TRIES, copy_id, pdf_page),
        )
        _count_failure(connection)
    return _page_to_read(row)


def _keep(catalogue: Catalogue, columns: tuple, record: bytes) -> bool:
    copy_id, pdf_page = columns[:2]
    with catalogue.database.writing(_WAIT_MS) as connection:
        if not _held(connection, copy_id):
            return False
        failed = connection.execute(
            "SELECT 1 FROM recognized_page AS read JOIN page USING (copy_id, pdf_page)"
            f" WHERE copy_id = ? AND pdf_page = ? AND (read.problem <> '' OR {_NO_WORDS})",
            (copy_id, pdf_page),
        ).fetchone()
        connection.execute(
            "INSERT OR REPLACE INTO recognized_page VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", (*columns, record)
        )
        connection.execute("DELETE FROM wanted_page WHERE copy_id = ? AND pdf_page = ?", (copy_id, pdf_page))
        if failed:
            _count_failure(connection)
    return True


def recognized_in(catalogue: Catalogue, copy_id: str) -> dict[int, tuple[RecognizedPage, str]]:
    """What OCR read of one copy and can be used, by pdf_page, each with the moment at which it was kept,
    which `Catalogue.read_again` takes to tell what was used."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT pdf_page, at, record FROM recognized_page WHERE copy_id = ? AND record IS NOT NULL"
            " AND problem = '' ORDER BY pdf_page",
            (copy_id,),
        ).fetchall()
    return {
        row["pdf_page"]: (from_json(RecognizedPage, zlib.decompress(row["record"]).decode()), row["at"])
        for row in found
    }


def recognized_of(catalogue: Catalogue, copy_id: str, pdf_page: int) -> RecognizedPage | None:
    """What OCR read on one page; None when it was not read."""
    with catalogue.reading() as connection:
        row = connection.execute(
            "SELECT record FROM recognized_page WHERE copy_id = ? AND pdf_page = ? AND record IS NOT NULL",
            (copy_id, pdf_page),
        ).fetchone()
    return from_json(RecognizedPage, zlib.decompress(row["record"]).decode()) if row else None


def used_pages(catalogue: Catalogue, copy_id: str) -> frozenset[int]:
    """The pages (pdf_page) of a copy that OCR read and that its passages were cut with."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT pdf_page FROM recognized_page WHERE copy_id = ? AND problem = '' AND used", (copy_id,)
        )
        return frozenset(row["pdf_page"] for row in found)


def waiting_copies(catalogue: Catalogue) -> list[str]:
    """Copies on the shelf with pages that were read and are not in their passages yet, by id."""
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT DISTINCT page.copy_id {_WAITING} AND read.problem = '' AND NOT read.used ORDER BY 1"
        )
        return [row["copy_id"] for row in found]


# What is still to be read ---------------------------------------------------------------------------------


def pages_to_read(catalogue: Catalogue) -> list[PageToRead]:
    """The queue, in no order: pages on the shelf that wait for OCR, also those that failed in few runs."""
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT page.copy_id, page.pdf_page, copy.file, page.ocr_reason {_WAITING} AND {_NOT_TRIED_OUT}"
        )
        return [_page_to_read(row) for row in found]


def failed_pages(catalogue: Catalogue) -> list[FailedPage]:
    """Pages on the shelf that OCR could not read so far, or read as what is not words, by file and page."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT page.copy_id, page.pdf_page, copy.file, CASE WHEN read.problem <> '' THEN read.problem"
            " ELSE copy.file || ', PDF page ' || page.pdf_page || ': ' || page.problem END,"
            " CASE WHEN read.record IS NULL THEN read.tries ELSE 0 END"
            f" {_WAITING} AND (read.problem <> '' OR {_NO_WORDS})"
            " ORDER BY copy.file, page.copy_id, page.pdf_page"
        )
        return [FailedPage(*row) for row in found]


def debt(catalogue: Catalogue) -> Debt:
    """What OCR still owes: counted once for each change, so that every answer can say it."""
    counts = debt_by_publication(catalogue).values()
    state = last_state(catalogue.folder)
    running = at_work(state)
    unread = sum(each.pages_unread for each in counts)
    return Debt(
        pages_unread=unread,
        pages_failed=sum(each.pages_failed for each in counts),
        publications=sum(each.pages_unread > 0 for each in counts),
        seconds_left=state.seconds_left if state and running else None,
        running=running,
        not_placed=sum(_not_placed(catalogue, state).values()) if unread and not running else 0,
    )


def not_placed_by_publication(catalogue: Catalogue) -> Mapping[str, int]:
    """How many pages of each publication OCR read that are not in place; none while a run is at work."""
    state = last_state(catalogue.folder)
    return {} if at_work(state) else _not_placed(catalogue, state)


def _not_placed(catalogue: Catalogue, state: RunState | None) -> dict[str, int]:
    """Counted once for each run that ended, and for each generation: no page is kept but by a run."""
    with catalogue.reading() as connection:
        key = (catalogue.generation, catalogue.own_number(FAILURES), state and (state.started, state.at))
        held = _counted_placing.get(catalogue)
        if held is None or held[0] != key:
            found = connection.execute(
                f"SELECT publication.id, COUNT(*) FROM (SELECT page.copy_id, page.pdf_page {_WAITING}"
                " AND read.problem = '' AND NOT read.used) AS waiting"
                " JOIN publication ON publication.copy_id = waiting.copy_id"
                " AND waiting.pdf_page BETWEEN publication.first_page AND publication.last_page"
                " GROUP BY publication.id"
            )
            held = _counted_placing[catalogue] = (key, {row[0]: row[1] for row in found})
        return held[1]


def debt_by_publication(catalogue: Catalogue) -> Mapping[str, PublicationDebt]:
    """Publications on the shelf with pages that are not read or not searched yet, or could not be read.

    Counted once for each generation: a page that is kept stays owed until its copy is put in place.
    """
    with catalogue.reading() as connection:
        state = (catalogue.generation, catalogue.own_number(FAILURES))
        held = _counted.get(catalogue)
        if held is None or held[0] != state:
            found = connection.execute(
                "SELECT publication.id, SUM(NOT failed), SUM(failed) FROM ("
                f" SELECT page.copy_id, page.pdf_page, IFNULL({_FAILED}, 0) AS failed"
                f" {_WAITING} AND NOT IFNULL({_READ_AND_USED}, 0)) AS waiting"
                " JOIN publication ON publication.copy_id = waiting.copy_id"
                " AND waiting.pdf_page BETWEEN publication.first_page AND publication.last_page"
                " GROUP BY publication.id ORDER BY publication.id"
            )
            held = _counted[catalogue] = (state, {row[0]: PublicationDebt(*row) for row in found})
        return held[1]


def unread_pages_of(catalogue: Catalogue, publication_id: str) -> tuple[int, ...]:
    """The pages (pdf_page) of a publication whose text will not do and that are not read or not searched yet.

    Those that could not be read are among them. () for a publication that is not here, or was replaced.
    """
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT page.pdf_page FROM publication JOIN page ON page.copy_id = publication.copy_id"
            " AND page.pdf_page BETWEEN publication.first_page AND publication.last_page"
            " JOIN copy ON copy.id = page.copy_id AND copy.replaced_by IS NULL"
            " LEFT JOIN recognized_page AS read"
            " ON read.copy_id = page.copy_id AND read.pdf_page = page.pdf_page"
            " WHERE publication.id = ? AND page.ocr_reason IS NOT NULL"
            f" AND NOT IFNULL({_READ_AND_USED}, 0) ORDER BY page.pdf_page",
            (publication_id,),
        )
        return tuple(row["pdf_page"] for row in found)


def pages_of(catalogue: Catalogue, publication_id: str, first: int = 1, last: int = 0) -> list[PageToRead]:
    """The pages of a publication whose own text will not do, read by OCR or not; `last` 0 = to its end."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT page.copy_id, page.pdf_page, copy.file, page.ocr_reason FROM publication"
            " JOIN copy ON copy.id = publication.copy_id JOIN page ON page.copy_id = copy.id"
            " AND page.pdf_page BETWEEN publication.first_page AND publication.last_page"
            " WHERE publication.id = ?1 AND page.ocr_reason IS NOT NULL"
            " AND page.pdf_page >= ?2 AND (?3 = 0 OR page.pdf_page <= ?3) ORDER BY page.pdf_page",
            (publication_id, first, last),
        )
        return [_page_to_read(row) for row in found]


def _page_to_read(row: sqlite3.Row) -> PageToRead:
    return PageToRead(row["copy_id"], row["pdf_page"], row["file"], OcrReason(row["ocr_reason"]))


def _count_failure(connection: sqlite3.Connection) -> None:
    set_meta(connection, FAILURES, meta(connection, FAILURES) + 1)


def _held(connection: sqlite3.Connection, copy_id: str) -> bool:
    return connection.execute("SELECT 1 FROM copy WHERE id = ?", (copy_id,)).fetchone() is not None
