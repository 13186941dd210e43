"""What publications print about the models and serials they are for, read from the catalogue."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.holding import pages_of
from indexer.tagging.tags import ApplicabilityScope, StandingValue, StatedApplicability
from indexer.trade.evidence import Tag

_BATCH = 500  # SQLite takes 999 parameters in its smallest build
_OF_THE_WHOLE = (
    "(scope = 'publication' OR (scope = 'page' AND COALESCE(pdf_page, 0) = 0)"
    " OR (scope = 'passage' AND COALESCE(passage_id, '') = ''))"
)


@dataclass(frozen=True, slots=True)
class Stated:
    """Words of one publication about what it is for.

    pdf_page    of PAGE and PASSAGE, 1-based; None for the whole publication
    passage_id  of PASSAGE, else None
    """

    scope: ApplicabilityScope
    words: Tag[str]
    pdf_page: int | None
    passage_id: str | None


def stated_in(
    catalogue: Catalogue, publication_ids: Iterable[str], of_the_whole: bool = False
) -> dict[str, tuple[Stated, ...]]:
    """By publication, in printed order; () for one that prints none.

    of_the_whole   only words that speak of the whole publication, those without a page or passage among them
    """
    where = f" AND {_OF_THE_WHOLE}" if of_the_whole else ""
    wanted = list(dict.fromkeys(publication_ids))
    found: dict[str, list[Stated]] = {each: [] for each in wanted}
    with catalogue.reading() as connection:
        for start in range(0, len(wanted), _BATCH):
            batch = wanted[start : start + _BATCH]
            marks = ", ".join("?" * len(batch))
            for row in connection.execute(
                f"SELECT * FROM applicability WHERE publication_id IN ({marks}){where}"
                " ORDER BY publication_id, ordinal",
                batch,
            ):
                record = from_json(StatedApplicability, row["record_json"])
                found[row["publication_id"]].append(
                    Stated(record.scope, record.words, row["pdf_page"], row["passage_id"])
                )
    return {each: tuple(stated) for each, stated in found.items()}


def passages_reaching(
    catalogue: Catalogue, publication_id: str, pdf_pages: Collection[int], passage_ids: Collection[str]
) -> Mapping[str, tuple[int, ...]]:
    """Passages of a publication with a part on one of the pages, and those named; each with all its pages."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT id, pdf_page, boxes_json FROM passage WHERE publication_id = ? ORDER BY ordinal",
            (publication_id,),
        ).fetchall()
    reaching = {}
    for row in found:
        pages = tuple(sorted(pages_of(row["pdf_page"], row["boxes_json"])))
        if row["id"] in passage_ids or not pdf_pages.isdisjoint(pages):
            reaching[row["id"]] = pages
    return reaching


def raised_by_directive(catalogue: Catalogue) -> dict[str, str]:
    """Passages that a directive makes approved data, each with the id of the directive's publication."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT passage_id, directive_id FROM directive_standing WHERE value = ?"
            " AND passage_id NOT IN (SELECT passage_id FROM entered_standing)",
            (StandingValue.APPROVED.value,),
        )
        return {row["passage_id"]: row["directive_id"] for row in found}


def documents_generation(catalogue: Catalogue) -> int:
    """The generation that last changed what documents say: what is read here stays true until the next."""
    return catalogue.own_number("documents_generation")
