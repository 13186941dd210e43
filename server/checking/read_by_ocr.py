"""What of a finding rests on text read by OCR, and what of the publication is not read at all.

OCR may take one figure, serial or revision for another: nothing of it is ever a yes. What it read of models
and serials is "cannot tell"; standing is so in standing_found.py, currency in server/current.py.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from indexer.library.catalogue import Catalogue
from indexer.library.ocr_pages import debt_by_publication, unread_pages_of
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.library.stated import stated_in
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Origin
from server.checking.places import MOST_PAGES, Place
from server.ocr_words import READ_THE_PAGE, doubt_words, doubts_of, not_read, ocr_label
from server.page_lookup import origins_of, passages_on

_MOST_NAMED = 12  # pages


@dataclass(frozen=True, slots=True)
class OcrFound:
    """How the place meant was read.

    label   "Read by OCR"; "" = born digital, or no place is meant
    doubts  what OCR was not certain of
    notes   in words for a person
    """

    label: str = ""
    doubts: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def ocr_found(catalogue: Catalogue, publication: PublicationRecord | None, place: Place) -> OcrFound:
    """What must be said of how a place was read, and of what is not read; call it inside `reading`."""
    if publication is None:
        return OcrFound()
    passages = _meant(catalogue, publication, place)
    label = ocr_label(each.origin for each in passages)
    doubts = doubts_of(passages)
    notes = []
    if not (place.passages or place.pdf_pages):
        label = ocr_label(origins_of(catalogue, publication.id))
        notes += [f"{label}: this publication, or a part of it. {READ_THE_PAGE}"] if label else []
    elif label:
        pages = _pages(each.pdf_page for each in passages if each.origin is not Origin.DIGITAL)
        notes.append(f"{label}: {pages}. {doubt_words(doubts) or READ_THE_PAGE}")
    return OcrFound(label, doubts, (*notes, *_not_read(catalogue, publication, place)))


def without_ocr(
    catalogue: Catalogue, publication: PublicationRecord | None, answer: ApplicabilityAnswer, found: OcrFound
) -> ApplicabilityAnswer:
    """The answer, or "cannot tell" where "applies" rests on words that OCR read."""
    if publication is None or answer.answer is not Applies.APPLIES:
        return answer
    if not found.label and not _rests_on_ocr(catalogue, publication, answer.quote):
        return answer
    why = f"{READ_THE_PAGE} OCR read what decides it, and may take one serial or model for another."
    return replace(answer, answer=Applies.CANNOT_TELL, why=why)


def _rests_on_ocr(catalogue: Catalogue, publication: PublicationRecord, quote: str) -> bool:
    if not quote:
        return any(tag.evidence.origin is not Origin.DIGITAL for tag in publication.identity.models)
    stated = [each.words for each in stated_in(catalogue, [publication.id])[publication.id]]
    holding = [each.evidence.origin for each in stated if quote in each.value]
    return bool(holding) and all(origin is not Origin.DIGITAL for origin in holding)


def _meant(catalogue: Catalogue, publication: PublicationRecord, place: Place) -> Sequence[PassageRecord]:
    if place.passages:
        return list(catalogue.passages(place.passages).values())
    return [
        passage
        for page in place.pdf_pages[:MOST_PAGES]
        for passage in passages_on(catalogue, publication, page)
    ]


def _not_read(catalogue: Catalogue, publication: PublicationRecord, place: Place) -> list[str]:
    owing = debt_by_publication(catalogue).get(publication.id)
    if owing is None:
        return []
    unread = unread_pages_of(catalogue, publication.id)
    here = [page for page in place.pdf_pages if page in unread]
    if here:
        return [f"{READ_THE_PAGE} {_pages(here)} of this publication is a scan that OCR has not read."]
    return [f"{not_read(len(unread))} in this publication: what they say is not in this answer."]


def _pages(pages: Iterable[int]) -> str:
    named = sorted(set(pages))
    more = f" and {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
    return f"PDF page{'s' if len(named) > 1 else ''} {', '.join(map(str, named[:_MOST_NAMED]))}{more}"
