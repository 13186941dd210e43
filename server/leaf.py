"""One page and one passage, as plain data and as pictures: what stands where, and what overrides it."""

import logging
from typing import Any

from indexer.errors import PageUnknown
from indexer.library.records import PageRecord, PassageRecord, PublicationRecord
from indexer.library.references import references_from, references_to
from indexer.reading.page import TextState
from indexer.trade.evidence import Box
from server.applying import Applying
from server.currency import Currency
from server.current import Current, current_fields
from server.fleet import chosen, in_hand_fields
from server.looking import to_mark
from server.ocr_words import read_fields
from server.opened import OpenedLibrary
from server.page_lookup import passages_on
from server.question import Question, parse_question
from server.render import PageNotDrawn
from server.search import heading, publication_fields
from server.tag_fields import applies_fields, box_fields, evidence_fields, long_tags, page_box_fields
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
    return [
        {
            "passage": reference.passage_id,
            "text": reference.citation.text,
            "kind": reference.citation.kind.value,
            "state": reference.state.value,
            "reason": reference.reason,
            "targets": [
                {"publication": publication_id, "pdf_page": target_page, "passage": passage_id}
                for publication_id, target_page, passage_id in reference.targets
            ],
        }
        for reference in references_from(library.catalogue, owner.id, pdf_page)
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
        words = library.words(owner, sheet.pdf_page)
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


def picture(library: OpenedLibrary, publication_id: str, pdf_page: int, dpi: int) -> bytes:
    """One page as a JPEG. Raises PublicationUnknown, PageUnknown, PageNotDrawn."""
    with library.reading():
        owner = library.publication(publication_id)
        page_of(library, owner, pdf_page)
    return library.picture(owner, pdf_page, dpi)
