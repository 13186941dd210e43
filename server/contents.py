"""A publication's contents: its headings with their pages, and the page that a reader names."""

import json
from dataclasses import dataclass

from indexer.library.records import PublicationRecord
from server.opened import OpenedLibrary

DEEPEST = 3  # levels of headings listed
MOST = 3000  # headings listed


@dataclass(frozen=True, slots=True)
class Heading:
    """level  0 = outermost; pdf_page of the first passage that stands under it, 1-based"""

    level: int
    words: str
    pdf_page: int
    printed_page: str


@dataclass(frozen=True, slots=True)
class NamedPage:
    pdf_page: int
    printed_page: str


@dataclass(frozen=True, slots=True)
class Contents:
    """headings in the order of the pages, as printed there; left_out = how many more there are"""

    headings: tuple[Heading, ...]
    left_out: int = 0


def contents(library: OpenedLibrary, owner: PublicationRecord) -> Contents:
    """The headings that its passages stand under. A heading that comes again later is listed again."""
    with library.catalogue.reading() as connection:
        found = connection.execute(
            "SELECT passage.pdf_page, heading_path_json, page.printed_page FROM passage"
            " JOIN page ON page.copy_id = ? AND page.pdf_page = passage.pdf_page"
            " WHERE publication_id = ? ORDER BY ordinal",
            (owner.copy_id, owner.id),
        )
        passages = [
            (json.loads(row["heading_path_json"]), row["pdf_page"], row["printed_page"]) for row in found
        ]
    headings: list[Heading] = []
    above: list[str] = []
    for path, pdf_page, printed_page in passages:
        path = path[:DEEPEST]
        level = next(
            (at for at, (was, now) in enumerate(zip(above, path, strict=False)) if was != now),
            min(len(above), len(path)),
        )
        headings += [
            Heading(deep, path[deep], pdf_page, printed_page or "") for deep in range(level, len(path))
        ]
        above = path
    return Contents(tuple(headings[:MOST]), max(0, len(headings) - MOST))


def pages_named(library: OpenedLibrary, owner: PublicationRecord, typed: str) -> list[NamedPage]:
    """The pages that a number may mean: those that print it, then the PDF page of that number. [] for none.

    A printed number may stand on many pages, since page blocks begin anew in every section.
    """
    name = " ".join(typed.split()).casefold()
    if not name:
        return []
    with library.catalogue.reading() as connection:
        found = connection.execute(
            "SELECT pdf_page, printed_page FROM page WHERE copy_id = ? AND pdf_page BETWEEN ? AND ?"
            " ORDER BY pdf_page",
            (owner.copy_id, owner.first_page, owner.last_page),
        )
        pages = [NamedPage(row["pdf_page"], row["printed_page"] or "") for row in found]
    printed = [page for page in pages if page.printed_page.casefold() == name]
    counted = [page for page in pages if str(page.pdf_page) == name and page not in printed]
    return printed + counted
