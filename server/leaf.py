"""One page and one passage, as plain data and as pictures: what stands where, and what overrides it."""

import logging
from typing import Any

from indexer.errors import PageUnknown
from indexer.library.ocr_pages import failed_pages, recognized_of, unread_pages_of
from indexer.library.records import PageRecord, PassageRecord, PublicationRecord
from indexer.library.references import references_from, references_to
from indexer.reading.page import TextState, Word
from indexer.reading.recognized import is_doubtful
from indexer.reading.straightened import Straightening
from indexer.trade.evidence import Box, Origin
from server.applying import Applying
from server.currency import Currency
from server.current import Current, current_fields
from server.fleet import chosen, in_hand_fields
from server.looking import to_mark
from server.ocr_debt import owed
from server.ocr_words import read_fields, unread_words
from server.opened import OpenedLibrary
from server.page_lookup import passages_on, read_by_ocr
from server.question import Question, parse_question
from server.render import PageNotDrawn
from server.search import heading, publication_fields
from server.tag_fields import applies_fields, box_fields, evidence_fields, long_tags, page_box_fields
from server.tiles import Tile, TileUnknown
from server.words import publication_name

log = logging.getLogger(__name__)


def page(
    library: OpenedLibrary, publication_id: str, pdf_page: int, question: str = "", aircraft: str = ""
) -> dict[str, Any]:
    """One page: its size in points, its passages with boxes, and where the words of a question stand.

    aircraft   registration: the page and each passage say whether they apply
    Raises PublicationUnknown, PageUnknown, QueryProblem, AircraftUnknown.
    """
    asked = parse_question(question)
    with library.reading() as status:
        owner = library.publication(publication_id)
        sheet = page_of(library, owner, pdf_page)
        query = to_mark(library, asked)
        row = chosen(library, aircraft)
        applying = Applying(library.catalogue, row) if row else None
        return {
            "library_state": library.state(status).fields(),
            "publication": publication_fields(owner),
            "pdf_page": sheet.pdf_page,
            "printed_page": sheet.printed_page,
            "width": sheet.width,
            "height": sheet.height,
            "state": sheet.state.value,
            "problem": sheet.problem,
            "currency": list(Currency(library.catalogue).of_publication(owner)),
            "current": current_fields(Current(library.catalogue).of_page(owner, pdf_page)),
            "aircraft": in_hand_fields(row),
            "applies": applies_fields(applying and applying.of_page(owner, pdf_page)),
            "overridden_by": _overridden_by(Currency(library.catalogue), owner, pdf_page),
            "refers_to": _refers_to(library, owner, pdf_page),
            "referred_to_from": _referred_to_from(library, owner, pdf_page),
            "words": [box_fields(box) for box in marked_words(library, owner, sheet, asked)],
            "origin": sheet.origin.value,
            "read_by_ocr": sheet.origin is not Origin.DIGITAL,
            "not_read": ocr_owes(library, owner, sheet) or None,
            "doubtful_words": [box_fields(box) for box in doubtful_words(library, sheet)],
            "passages": [
                {
                    **passage_fields(record, owner),
                    "applies": applies_fields(applying and applying.of_passage(owner, record)),
                    "hit": asked.asks and bool(library.engine.marks(query, record.text)),
                    "boxes": [page_box_fields(place) for place in record.boxes if place.pdf_page == pdf_page],
                }
                for record in passages_on(library.catalogue, owner, pdf_page)
            ],
        }


def _overridden_by(currency: Currency, owner: PublicationRecord, pdf_page: int) -> list[dict[str, Any]]:
    return [
        {
            "publication": override.source_id,
            "pdf_page": override.source_pdf_page,
            "state": override.state.value,
            "words": currency.override_words(override),
            "evidence": evidence_fields(override.evidence),
        }
        for override in currency.overrides(owner, pdf_page)
    ]


def _refers_to(library: OpenedLibrary, owner: PublicationRecord, pdf_page: int) -> list[dict[str, Any]]:
    """What the passages that begin on the page refer to, in order of place."""
    found = references_from(library.catalogue, owner.id, pdf_page)
    read = read_by_ocr(library.catalogue, (reference.passage_id for reference in found))
    return [
        {
            "passage": reference.passage_id,
            "text": reference.citation.text,
            "kind": reference.citation.kind.value,
            "state": reference.state.value,
            "reason": reference.reason,
            "read_by_ocr": reference.passage_id in read,
            "targets": [
                {"publication": publication_id, "pdf_page": target_page, "passage": passage_id}
                for publication_id, target_page, passage_id in reference.targets
            ],
        }
        for reference in found
    ]


def _referred_to_from(
    library: OpenedLibrary, owner: PublicationRecord, pdf_page: int
) -> list[dict[str, Any]]:
    """Which passages refer to the page or to a passage on it."""
    found = references_to(library.catalogue, owner.id, pdf_page)
    passages = library.catalogue.passages(reference.passage_id for reference in found)
    return [
        {
            "publication": reference.publication_id,
            "pdf_page": passages[reference.passage_id].pdf_page,
            "passage": reference.passage_id,
            "text": reference.citation.text,
            "kind": reference.citation.kind.value,
            "state": reference.state.value,
            "read_by_ocr": passages[reference.passage_id].origin is not Origin.DIGITAL,
        }
        for reference in found
    ]


def passage(library: OpenedLibrary, passage_id: str) -> dict[str, Any]:
    """One passage with its tags, evidence and places. Raises PassageUnknown."""
    with library.reading() as status:
        record = library.catalogue.passage(passage_id)
        owner = library.publication(record.publication_id)
        return {
            "library_state": library.state(status).fields(),
            **passage_fields(record, owner),
            "currency": list(Currency(library.catalogue).of_passage(owner, record)),
            "current": current_fields(Current(library.catalogue).of_passage(owner, record)),
            "boxes": [page_box_fields(place) for place in record.boxes],
            "pages": [
                {"pdf_page": number, "width": page.width, "height": page.height}
                for number in sorted({record.pdf_page, *(place.pdf_page for place in record.boxes)})
                for page in [library.catalogue.page(record.copy_id, number)]
            ],
        }


def passage_fields(record: PassageRecord, owner: PublicationRecord) -> dict[str, Any]:
    """A passage with its tags, as `hangarleaf tags` gives it too."""
    return {
        "passage": record.id,
        "publication": publication_fields(owner),
        "pdf_page": record.pdf_page,
        "printed_page": record.printed_page,
        **long_tags(record.numbers, record.page_block, record.standing),
        "heading": heading(record),
        "kind": record.kind.value,
        **read_fields(record),
        "text": record.text,
    }


def page_of(library: OpenedLibrary, record: PublicationRecord, pdf_page: int) -> PageRecord:
    """One page of a publication. Raises PageUnknown."""
    if not record.first_page <= pdf_page <= record.last_page:
        raise PageUnknown(record.number or publication_name(record), pdf_page, record.last_page)
    return library.catalogue.page(record.copy_id, pdf_page)


def marked_words(
    library: OpenedLibrary, owner: PublicationRecord, sheet: PageRecord, question: Question
) -> list[Box]:
    """Where the words of a question stand on a page; [] when the page's words cannot be read again."""
    if not question.asks or sheet.state is not TextState.TEXT:
        return []
    try:
        words = words_read(library, sheet) or library.words(owner, sheet.pdf_page)
    except PageNotDrawn as problem:
        log.warning("no words to mark: %s", problem)
        return []
    text, starts = "", []
    for word in words:
        starts.append(len(text))
        text += f"{word.text} "
    marks = library.engine.marks(to_mark(library, question), text)
    return [
        word.box
        for word, start in zip(words, starts, strict=True)
        if any(a < start + len(word.text) and b > start for a, b in marks)
    ]


def words_read(library: OpenedLibrary, sheet: PageRecord) -> tuple[Word, ...]:
    """What OCR read on a page, boxes on the page as displayed; () where its own text was taken."""
    if sheet.origin is not Origin.OCR:
        return ()
    read = recognized_of(library.catalogue, sheet.copy_id, sheet.pdf_page)
    if read is None:
        return ()
    way = Straightening(read.width, read.height, read.turned, read.skew)
    return tuple(
        Word(each.text, way.displayed(each.box), each.box.height, False, each.confidence)
        for each in read.words
    )


def doubtful_words(library: OpenedLibrary, sheet: PageRecord) -> list[Box]:
    """Where words stand that OCR was not certain of: those below the floor of confidence."""
    floor = library.settings.ocr_floor
    words = words_read(library, sheet)
    return [word.box for word in words if is_doubtful(word.text, word.confidence, floor)]


def ocr_owes(library: OpenedLibrary, owner: PublicationRecord, sheet: PageRecord) -> str:
    """That a page is not read yet, in words, and when it will be; "" for one that is, or needs no OCR."""
    if sheet.pdf_page not in unread_pages_of(library.catalogue, owner.id):
        return ""
    failed = {(each.copy_id, each.pdf_page): each for each in failed_pages(library.catalogue)}
    page = failed.get((sheet.copy_id, sheet.pdf_page))
    return unread_words(owed(library), page is not None, sheet.problem if page and not page.tries else "")


def picture(library: OpenedLibrary, publication_id: str, pdf_page: int, dpi: int) -> bytes:
    """One page as a JPEG. Raises PublicationUnknown, PageUnknown, PageNotDrawn."""
    with library.reading():
        owner = library.publication(publication_id)
        page_of(library, owner, pdf_page)
    return library.picture(owner, pdf_page, dpi)


def tile(library: OpenedLibrary, publication_id: str, pdf_page: int, wanted: Tile) -> bytes:
    """One tile of a page as a JPEG. Raises PublicationUnknown, PageUnknown, TileUnknown, PageNotDrawn."""
    with library.reading():
        owner = library.publication(publication_id)
        sheet = page_of(library, owner, pdf_page)
    jpeg = library.tile(owner, sheet, wanted)
    if jpeg is None:
        raise TileUnknown(owner.file, pdf_page, wanted)
    return jpeg
