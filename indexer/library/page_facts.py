"""What pages print of their state, and what lists of effective pages say, read from the catalogue."""

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.tagging.tags import ListedPage, PageMark


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
