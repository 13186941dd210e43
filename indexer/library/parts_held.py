"""Which publications on the shelf hold parts lists, how much was read of them, which figures a page has."""

from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.parts_records import FigureRecord
from indexer.tagging.parts_rows import PartsFigure


@dataclass(frozen=True, slots=True)
class ListHeld:
    """How much was read of one publication's parts list."""

    publication_id: str
    figures: int
    rows: int


def lists_held(catalogue: Catalogue) -> list[ListHeld]:
    """The parts lists of publications on the shelf, by id of the publication."""
    with catalogue.reading() as connection:
        held = connection.execute(
            "SELECT publication.id, COUNT(*) AS figures,"
            " (SELECT COUNT(*) FROM part_row WHERE part_row.publication_id = publication.id) AS rows"
            " FROM part_figure JOIN publication ON publication.id = part_figure.publication_id"
            " JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL"
            " GROUP BY publication.id ORDER BY publication.id"
        )
        return [ListHeld(each["id"], each["figures"], each["rows"]) for each in held]


@dataclass(frozen=True, slots=True)
class IndexHeld:
    """One publication's number index held against its rows.

    numbers      different part numbers in the index
    without_row  those of them that no row of the publication has; compared by loose key, so that a number
                 which OCR read otherwise in one of the two places does not count
    """

    numbers: int
    without_row: int


def indexes_held(catalogue: Catalogue) -> dict[str, IndexHeld]:
    """The number indexes read, by id of the publication; also of replaced copies."""
    with catalogue.reading() as connection:
        held = connection.execute(
            "SELECT publication_id, COUNT(*) AS numbers, SUM(NOT has_row) AS without_row FROM ("
            " SELECT DISTINCT publication_id, loose_key, EXISTS (SELECT 1 FROM part_row"
            " WHERE part_row.loose_key = indexed_number.loose_key"
            " AND part_row.publication_id = indexed_number.publication_id) AS has_row"
            " FROM indexed_number WHERE loose_key <> '') GROUP BY publication_id"
        )
        return {each["publication_id"]: IndexHeld(each["numbers"], each["without_row"]) for each in held}


def figures_on(catalogue: Catalogue, publication_id: str, pdf_page: int) -> list[FigureRecord]:
    """The figures of a publication that a page shows or lists, in printed order; also of a replaced copy."""
    with catalogue.reading() as connection:
        held = connection.execute(
            "SELECT record_json FROM part_figure WHERE publication_id = ? ORDER BY ordinal", (publication_id,)
        )
        found = [from_json(PartsFigure, each["record_json"]) for each in held]
    return [
        FigureRecord(publication_id, each)
        for each in found
        if pdf_page in each.art_pages or pdf_page in each.list_pages
    ]
