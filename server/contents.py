"""A publication's contents: its headings with their pages, and the page that a reader names."""

import json
import re
from dataclasses import dataclass, replace

from indexer.library.records import PublicationRecord
from indexer.trade.dashes import plain_dashes
from server.opened import OpenedLibrary

DEEPEST = 3  # levels of headings listed
MOST = 3000  # headings listed
_NAME = re.compile(r"(?P<of_the_pdf>pdf )?(?:(?:pages?\b|pp?\b|pgs?\b)\.? ?)?(?P<label>.+)")


@dataclass(frozen=True, slots=True)
class Heading:
    """level  0 = outermost; pdf_page of the first passage that stands under it, 1-based"""

    level: int
    words: str
    pdf_page: int
    printed_page: str


@dataclass(frozen=True, slots=True)
class NamedPage:
    """by_print   whether it prints the number, or is the PDF page of it"""

    pdf_page: int
    printed_page: str
    by_print: bool = False


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
    typed   "iv", "5-12" with any dash, "page 201"; "PDF page 12" means that one alone
    """
    asked = _NAME.fullmatch(_plain(typed))
    if not asked:
        return []
    name = asked["label"]
    with library.catalogue.reading() as connection:
        found = connection.execute(
            "SELECT pdf_page, printed_page FROM page WHERE copy_id = ? AND pdf_page BETWEEN ? AND ?"
            " ORDER BY pdf_page",
            (owner.copy_id, owner.first_page, owner.last_page),
        )
        pages = [NamedPage(row["pdf_page"], row["printed_page"] or "") for row in found]
    printed = [
        replace(page, by_print=True)
        for page in pages
        if _plain(page.printed_page) == name and not asked["of_the_pdf"]
    ]
    held = {page.pdf_page for page in printed}
    return printed + [page for page in pages if str(page.pdf_page) == name and page.pdf_page not in held]


def _plain(label: str) -> str:
    return re.sub(r" ?- ?", "-", " ".join(plain_dashes(label).split())).casefold()
