"""What the shop looks for and hardly finds: searches that missed, and pages opened before they were read.

Noting it makes no generation, and never makes a request wait for an ingest: what cannot be written at once is
kept in memory and written at the next occasion. Bounded: the oldest are dropped.
"""

import logging
import sqlite3
import threading
from weakref import WeakKeyDictionary

from indexer.library import rows
from indexer.library.analysis import printed_words
from indexer.library.catalogue import Catalogue
from indexer.library.database import is_busy
from indexer.library.generations import meta, set_meta
from indexer.library.ocr_records import WANTED

MOST_KEPT = 2000  # rows of either kind
_WAIT_MS = 50  # for another writer
_MOST_WORDS = 20

_log = logging.getLogger(__name__)


class _Noted:
    """What is not written yet, of one catalogue; the latest last."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.missed: dict[str, tuple[int, str]] = {}  # words -> times, when
        self.opened: dict[tuple[str, int], str] = {}  # page -> when


_noted: WeakKeyDictionary[Catalogue, _Noted] = WeakKeyDictionary()
_noted_lock = threading.Lock()


def note_missed(catalogue: Catalogue, words: str) -> None:
    """Note that a search for `words`, as typed, found (almost) nothing. Call it outside `reading`."""
    kept = folded_words(words)
    if not kept:
        return
    noted = _of(catalogue)
    with noted.lock:
        times, _ = noted.missed.pop(kept, (0, ""))
        noted.missed[kept] = (times + 1, rows.now())
        _drop_oldest(noted.missed)
    write_noted(catalogue)


def note_wanted(catalogue: Catalogue, copy_id: str, pdf_page: int) -> None:
    """Note that a page was opened; kept only where the page waits to be read. Call it outside `reading`."""
    noted = _of(catalogue)
    with noted.lock:
        noted.opened.pop((copy_id, pdf_page), None)
        noted.opened[(copy_id, pdf_page)] = rows.now()
        _drop_oldest(noted.opened)
    write_noted(catalogue)


def write_noted(catalogue: Catalogue, wait_ms: int = _WAIT_MS) -> bool:
    """Write what was noted. False while another writer is at work, or inside `reading`: kept for later."""
    noted = _of(catalogue)
    if catalogue.database.connection().in_transaction:
        return False
    with noted.lock:
        if not (noted.missed or noted.opened):
            return True
        missed, opened = dict(noted.missed), dict(noted.opened)
        try:
            with catalogue.database.writing(wait_ms) as connection:
                _write(connection, missed, opened)
        except sqlite3.OperationalError as problem:
            if not is_busy(problem):
                raise
            _log.info("%s and %s wait for another writer", len(missed), len(opened))
            return False
        noted.missed.clear()
        noted.opened.clear()
        return True


def folded_words(words: str) -> str:
    """What was asked, as it is kept: the words of a search, each once, in order of the alphabet."""
    return " ".join(sorted(set(printed_words(words)))[:_MOST_WORDS])


def _of(catalogue: Catalogue) -> _Noted:
    with _noted_lock:
        return _noted.setdefault(catalogue, _Noted())


def _drop_oldest(held: dict) -> None:
    while len(held) > MOST_KEPT:
        del held[next(iter(held))]


def _write(
    connection: sqlite3.Connection,
    missed: dict[str, tuple[int, str]],
    opened: dict[tuple[str, int], str],
) -> None:
    connection.executemany(
        "INSERT INTO missed_search VALUES (?1, ?2, ?3) ON CONFLICT (words) DO UPDATE"
        " SET times = times + ?2, last_at = ?3",
        ((words, times, at) for words, (times, at) in missed.items()),
    )
    connection.executemany(
        "INSERT INTO wanted_page SELECT copy_id, pdf_page, ?3 FROM page"
        " WHERE copy_id = ?1 AND pdf_page = ?2 AND ocr_reason IS NOT NULL AND (copy_id, pdf_page) NOT IN"
        " (SELECT copy_id, pdf_page FROM recognized_page WHERE problem = '')"
        " ON CONFLICT (copy_id, pdf_page) DO UPDATE SET last_at = ?3",
        ((copy_id, pdf_page, at) for (copy_id, pdf_page), at in opened.items()),
    )
    for table, key in (("missed_search", "words"), ("wanted_page", "copy_id, pdf_page")):
        connection.execute(
            f"DELETE FROM {table} WHERE ({key}) IN"
            f" (SELECT {key} FROM {table} ORDER BY last_at DESC, {key} LIMIT -1 OFFSET {MOST_KEPT})"
        )
    set_meta(connection, WANTED, meta(connection, WANTED) + 1)
