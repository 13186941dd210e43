"""What pages print of their state, and what lists of effective pages say, read from the catalogue."""

from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.tagging.tags import ListedPage, PageMark
from indexer.trade.evidence import Tag

_FILED = """
    SELECT passage.pdf_page, page.printed_page, passage.page_block_json,
        number.scheme, number.chapter, number.section, number.subject
    FROM passage
    JOIN page ON page.copy_id = ?2 AND page.pdf_page = passage.pdf_page
    JOIN {table} AS number ON number.passage_id = passage.id AND number.rank = 0
    WHERE passage.publication_id = ?1 {only}
"""
_NOT_FILED_ANEW = "AND NOT EXISTS (SELECT 1 FROM filing WHERE filing.passage_id = passage.id)"


@dataclass(frozen=True, slots=True)
class FiledPage:
    """What a page has a passage of: its number as filed now, its page block ("" = none), the page printed."""

    pdf_page: int  # 1-based
    printed_page: str
    page_block: str
    number: tuple[str, str, str | None, str | None]  # scheme, chapter, section, subject


def filed_pages_of(catalogue: Catalogue, publication_id: str, copy_id: str) -> list[FiledPage]:
    """For each passage that begins on a page and is filed under a number, in one reading."""
    question = " UNION ALL ".join(
        (
            _FILED.format(table="number_tag", only=_NOT_FILED_ANEW),
            _FILED.format(table="filed_number", only=""),
        )
    )
    with catalogue.reading() as connection:
        return [
            FiledPage(page, printed, from_json(Tag[str], block).value if block else "", tuple(number))
            for page, printed, block, *number in connection.execute(question, (publication_id, copy_id))
        ]


def page_marks_of(catalogue: Catalogue, publication_id: str) -> list[PageMark]:
    """In page order; [] when its pages print nothing of their state."""
    return _records(catalogue, PageMark, "page_mark", "pdf_page", publication_id)


def listed_pages_of(catalogue: Catalogue, publication_id: str) -> list[ListedPage]:
    """Every line, in printed order; [] without a list."""
    return _records(catalogue, ListedPage, "listed_page", "ordinal", publication_id)


def _records(catalogue: Catalogue, kind: type, table: str, order: str, publication_id: str) -> list:
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT record_json FROM {table} WHERE publication_id = ? ORDER BY {order}", (publication_id,)
        )
        return [from_json(kind, row["record_json"]) for row in found]
