"""How many pages of which publications are filed under each chapter, and how that is known: plain data.

A page counts under a chapter when a passage that lies on it is filed there; a page of two chapters counts
under both, and once in the totals.
"""

import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

from indexer.library.catalogue import Catalogue
from indexer.reading.page import TextState
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis
from server.kept import KeptByState
from server.opened import OpenedLibrary

_BOX_PAGE = re.compile(r'"pdf_page":\s*(\d+)')
_SEEN = (TextState.TEXT.value, TextState.BLANK.value)
_ON_SHELF = """
    FROM publication JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
"""
_PASSAGES = f"""
    SELECT passage.publication_id, passage.id, passage.pdf_page, passage.boxes_json {_ON_SHELF}
    JOIN passage ON passage.publication_id = publication.id
"""
_NUMBERS = """
    SELECT passage_id, scheme, chapter, section, subject, json_extract(evidence_json, '$.basis')
    FROM number_now WHERE scheme <> 'OWN'
"""
_PAGES = f"""
    SELECT publication.id, page.pdf_page, page.state {_ON_SHELF}
    JOIN page ON page.copy_id = publication.copy_id
        AND page.pdf_page BETWEEN publication.first_page AND publication.last_page
"""
_kept = KeptByState(most=1)


class How(IntEnum):
    """How the chapter of a page is known; of several ways on one page the highest counts."""

    INFERRED = 0  # worked out from the text
    PRINTED = 1  # printed, in the outline, or following from what is printed
    ENTERED = 2  # by a person of the shop, through the map or an entry


@dataclass(frozen=True, slots=True)
class Counted:
    """Pages by how their chapter is known; `pages` is their sum."""

    printed: int = 0
    inferred: int = 0
    entered: int = 0

    @property
    def pages(self) -> int:
        return self.printed + self.inferred + self.entered


@dataclass(frozen=True, slots=True)
class PublicationPages:
    """first_page   the first PDF page (1-based) that counts here"""

    publication_id: str
    counted: Counted
    first_page: int


@dataclass(frozen=True, slots=True)
class ChapterPages:
    """One chapter ("32") and its publications, those with the most pages first."""

    chapter: str
    counted: Counted
    publications: tuple[PublicationPages, ...]


@dataclass(frozen=True, slots=True)
class ChapterPicture:
    """chapters   in order of their numbers
    filed        pages filed under any chapter, each once
    not_numbered pages with text that no chapter follows from
    not_read     pages that show something and have no text: search cannot find them
    empty        pages with nothing on them to file, such as blank ones
    The last four add up to all pages of the publications on the shelf.
    """

    chapters: tuple[ChapterPages, ...]
    filed: Counted
    not_numbered: int
    not_read: int
    empty: int

    @property
    def pages(self) -> int:
        return self.filed.pages + self.not_numbered + self.not_read + self.empty


def chapter_picture(library: OpenedLibrary) -> ChapterPicture:
    """Worked out once for each state of the library; inside `reading`."""
    catalogue = library.catalogue
    kept = _kept.of(catalogue, catalogue.generation, catalogue.own_number("related_generation"))
    return kept.once("picture", lambda: _picture(catalogue))


_Page = tuple[str, int]  # publication id, pdf_page


def _picture(catalogue: Catalogue) -> ChapterPicture:
    with catalogue.reading() as connection:
        filed_as = _filed_as(catalogue)
        chapters: dict[str, dict[_Page, How]] = defaultdict(dict)
        with_text: set[_Page] = set()
        for publication_id, passage_id, first, boxes in connection.execute(_PASSAGES):
            for number in _pages_of(first, boxes):
                page = (publication_id, number)
                with_text.add(page)
                for chapter, how in filed_as.get(passage_id, ()):
                    here = chapters[chapter]
                    here[page] = max(how, here.get(page, how))
        states = {(owner, number): state for owner, number, state in connection.execute(_PAGES)}
    anywhere: dict[_Page, How] = {}
    for pages in chapters.values():
        for page, how in pages.items():
            anywhere[page] = max(how, anywhere.get(page, how))
    rest = states.keys() - with_text
    return ChapterPicture(
        tuple(_chapter(chapter, chapters[chapter]) for chapter in sorted(chapters)),
        _counted(anywhere.values()),
        len(with_text - anywhere.keys()),
        sum(states[page] not in _SEEN for page in rest),
        sum(states[page] in _SEEN for page in rest),
    )


def _filed_as(catalogue: Catalogue) -> dict[str, list[tuple[str, How]]]:
    """The chapters each passage is filed under, by its id; see indexer/library/filing.py."""
    chapter_of: dict[tuple, str] = {}
    found: dict[str, list[tuple[str, How]]] = defaultdict(list)
    with catalogue.reading() as connection:
        rows = connection.execute(_NUMBERS).fetchall()
    for passage_id, scheme, chapter, section, subject, basis in rows:
        key = (scheme, chapter, section, subject)
        if key not in chapter_of:
            ata = ChapterNumber(chapter, section, subject, Scheme(scheme)).ata()
            chapter_of[key] = ata.chapter if ata else ""
        if chapter_of[key]:
            found[passage_id].append((chapter_of[key], _how(basis)))
    return found


def _how(basis: str) -> How:
    if basis == Basis.SHOP_ENTRY:
        return How.ENTERED
    return How.INFERRED if basis == Basis.INFERRED else How.PRINTED


def _pages_of(first: int, boxes_json: str) -> set[int]:
    """The PDF pages that a passage lies on."""
    return {first, *map(int, _BOX_PAGE.findall(boxes_json))}


def _chapter(chapter: str, pages: dict[_Page, How]) -> ChapterPages:
    by_publication: dict[str, dict[int, How]] = defaultdict(dict)
    for (publication_id, number), how in pages.items():
        by_publication[publication_id][number] = how
    publications = (
        PublicationPages(publication_id, _counted(held.values()), min(held))
        for publication_id, held in by_publication.items()
    )
    ordered = sorted(publications, key=lambda each: (-each.counted.pages, each.publication_id))
    return ChapterPages(chapter, _counted(pages.values()), tuple(ordered))


def _counted(ways: Iterable[How]) -> Counted:
    held = list(ways)
    return Counted(held.count(How.PRINTED), held.count(How.INFERRED), held.count(How.ENTERED))
