"""What OCR still owes, for every answer that it may be missing from; pages opened and searches that missed.

Each page is named once: as not yet read, as one that OCR could not read, or as a page without text that waits
for no OCR (a drawing, a page that failed to parse).
"""

import logging
from collections.abc import Callable, Collection
from functools import cache

from indexer.errors import HangarleafError
from indexer.library.catalogue import Catalogue
from indexer.library.fulltext import Filters
from indexer.library.ocr_pages import debt, debt_by_publication, not_placed_by_publication
from indexer.library.ocr_records import RunState
from indexer.library.ocr_wants import note_missed, note_wanted
from indexer.reading.ocr import find_engine
from indexer.reading.ocr_engine import NoOcrEngine
from indexer.settings import Settings
from server.kept import KeptByState
from server.ocr_words import Owed
from server.opened import OpenedLibrary
from server.page_lookup import count_not_searched

HARDLY_ANY = 3  # passages or fewer: what was looked for may stand on a page that is not read yet

_log = logging.getLogger(__name__)
_kept = KeptByState(most=4)


def owed(library: OpenedLibrary, publications: Collection[str] | None = None) -> Owed:
    """What OCR owes over the whole library, or of some of its publications by id; inside `reading`."""
    catalogue = library.catalogue
    total, counts = debt(catalogue), debt_by_publication(catalogue)
    without_text = waiting_for_nothing(catalogue)
    if publications is None:
        unread, failed, plain = total.pages_unread, total.pages_failed, sum(without_text.values())
        not_placed = total.not_placed
    else:
        here = [counts[each] for each in set(publications) if each in counts]
        unread = sum(each.pages_unread for each in here)
        failed = sum(each.pages_failed for each in here)
        plain = sum(without_text.get(each, 0) for each in set(publications))
        placing = not_placed_by_publication(catalogue) if total.not_placed else {}
        not_placed = sum(placing.get(each, 0) for each in set(publications))
    return Owed(
        unread,
        failed,
        plain,
        None if publications is None else total.pages_unread,
        total.running,
        total.seconds_left,
        _remedy(library.settings) if total.pages_unread > total.not_placed and not total.running else "",
        not_placed,
    )


def owed_by(library: OpenedLibrary, filters: Filters) -> Owed:
    """The same for what a search was asked of: publications, or types of publication."""
    if not (filters.publications or filters.types):
        return owed(library)
    return owed(library, _at_hand(library, filters))


def _at_hand(library: OpenedLibrary, filters: Filters) -> list[str]:
    return [
        each.id
        for each in library.every_publication()
        if (not filters.publications or each.id in filters.publications)
        and (not filters.types or (each.type.value if each.type else "") in filters.types)
    ]


def why_not_placed(pages: int, run: RunState | None) -> list[str]:
    """Why pages that were read are not in place and what to do, a sentence or two for each file."""
    if not pages:
        return []
    return list(run.not_placed if run else ()) or ["What was read is put in place by: hangarleaf ocr"]


def waiting_for_nothing(catalogue: Catalogue) -> dict[str, int]:
    """Pages without text that OCR does not owe, by publication."""
    kept = _kept.of(catalogue, catalogue.generation)
    counts = kept.once("not searched", lambda: count_not_searched(catalogue)).values()
    found: dict[str, int] = {}
    for by_publication in counts:
        for publication_id, pages in by_publication.items():
            found[publication_id] = found.get(publication_id, 0) + pages
    return found


def missed(library: OpenedLibrary, words: str, found: int) -> None:
    """Note a search that found nothing or hardly anything while pages are unread; outside `reading`.

    It never fails the search: what cannot be noted is logged.
    """
    if found <= HARDLY_ANY and words and debt(library.catalogue).pages_unread:
        _noting(lambda: note_missed(library.catalogue, words))


def wanted(library: OpenedLibrary, copy_id: str, pdf_page: int) -> None:
    """Note that a page was opened which is not read yet; outside `reading`. It never fails the page."""
    _noting(lambda: note_wanted(library.catalogue, copy_id, pdf_page))


def _noting(note: Callable[[], None]) -> None:
    try:
        note()
    except HangarleafError as problem:
        _log.warning("not noted for OCR: %s", problem)


@cache
def _remedy(settings: Settings) -> str:
    """What to do where no engine is installed; "" where one is."""
    try:
        found = find_engine(settings)
    except HangarleafError as problem:
        return f"{problem.what} {problem.remedy}".strip()
    if found is not None:
        return ""
    if settings.ocr_engine:
        return "OCR is switched off by the setting HANGARLEAF_OCR_ENGINE."
    missing = NoOcrEngine()
    return f"{missing.what} {missing.remedy}"
