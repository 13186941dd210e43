"""The hits of a question in one publication, in the order of its pages: where a reader stands among them."""

from dataclasses import dataclass, replace

from indexer.library.fulltext import FullTextQuery
from indexer.library.records import PublicationRecord
from server.opened import OpenedLibrary

MOST = 2000  # hits of one publication that are put in order


@dataclass(frozen=True, slots=True)
class HitPlace:
    passage_id: str
    pdf_page: int


@dataclass(frozen=True, slots=True)
class HitsIn:
    """at   which of the hits the reader is at, 1-based; 0 = at none"""

    total: int = 0
    at: int = 0
    previous: HitPlace | None = None
    next: HitPlace | None = None


def hits_in(
    library: OpenedLibrary,
    query: FullTextQuery,
    owner: PublicationRecord,
    pdf_page: int,
    passage_id: str = "",
) -> HitsIn:
    """Where a reader stands among the hits: at the passage named, else at the first hit of the page.

    query   as it was looked for (looking.to_mark), so that the hits are those whose words are marked
    """
    if not (query.words or query.phrases):
        return HitsIn()
    within = replace(query, filters=replace(query.filters, publications=(owner.id,)))
    found = {hit.passage_id for hit in library.engine.search(within, MOST, 0).top}
    with library.catalogue.reading() as connection:
        in_order = connection.execute(
            "SELECT id, pdf_page FROM passage WHERE publication_id = ? ORDER BY ordinal", (owner.id,)
        )
        places = [HitPlace(row["id"], row["pdf_page"]) for row in in_order if row["id"] in found]
    return among(places, pdf_page, passage_id)


def among(places: list[HitPlace], pdf_page: int, passage_id: str) -> HitsIn:
    """Pure: `places` in reading order."""
    here = next((at for at, place in enumerate(places) if place.passage_id == passage_id), None)
    if here is None:
        here = next((at for at, place in enumerate(places) if place.pdf_page == pdf_page), None)
    if here is None:
        before = [place for place in places if place.pdf_page < pdf_page]
        after = places[len(before) :]
        return HitsIn(len(places), 0, before[-1] if before else None, after[0] if after else None)
    return HitsIn(
        len(places),
        here + 1,
        places[here - 1] if here else None,
        places[here + 1] if here + 1 < len(places) else None,
    )
