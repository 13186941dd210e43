"""Which pages an Airworthiness Limitations section has, from the page its statement stands on."""

import re
from collections.abc import Mapping, Sequence

from indexer.reading.page import Page, Passage
from indexer.tagging.flow import one_line, plain
from indexer.trade.chapters import ChapterNumber
from indexer.trade.publication_types import PublicationType as Type

_SECTION_PAGE = re.compile(r"(?P<section>[A-Z]{2,4}|\d{1,2}|[IVX]{1,5})-\d{1,3}[A-Z]?")
_NAME = re.compile(r"\bairworthiness\s+limitations?\b", re.IGNORECASE)


def limitations_pages(
    statement_page: int,
    kind: Type | None,
    pages: Sequence[Page],
    numbers: Mapping[int, ChapterNumber],
    passages: Sequence[Passage],
) -> frozenset[int]:
    """The pages (1-based) of the section, the statement's page always among them.

    numbers  per page the chapter number it is filed under
    By number where the page has one: all of chapter 04, else the same chapter and section (05-10). Without
    numbers the pages on, as long as each says "Airworthiness Limitations" in its running lines or stands
    under that heading.
    """
    if kind is Type.AIRWORTHINESS_LIMITATIONS:
        return frozenset(page.pdf_page for page in pages)
    number = numbers.get(statement_page)
    if number is not None:
        section = None if number.chapter == "04" else number.section
        return _same_number(statement_page, pages, numbers, (number.chapter, section))
    found = {statement_page}
    first = next(page for page in pages if page.pdf_page == statement_page)
    for page in pages:
        if page.pdf_page > statement_page:
            if page.pdf_page in numbers or not _goes_on(first, page, passages):
                break
            found.add(page.pdf_page)
    return frozenset(found)


def _same_number(
    statement_page: int,
    pages: Sequence[Page],
    numbers: Mapping[int, ChapterNumber],
    wanted: tuple[str, str | None],
) -> frozenset[int]:
    """Pages around the statement's without a gap, all filed under the wanted chapter and section."""
    order = [page.pdf_page for page in pages]
    place = order.index(statement_page)
    found = {statement_page}
    for step in (1, -1):
        at = place + step
        while 0 <= at < len(order) and _is_wanted(numbers.get(order[at]), wanted):
            found.add(order[at])
            at += step
    return frozenset(found)


def _is_wanted(number: ChapterNumber | None, wanted: tuple[str, str | None]) -> bool:
    chapter, section = wanted
    return number is not None and number.chapter == chapter and (section is None or number.section == section)


def _goes_on(first: Page, page: Page, passages: Sequence[Passage]) -> bool:
    """Whether a page without a number surely belongs to the section that its first page opens."""
    if any(_NAME.search(plain(one_line(line.text))) for line in (*page.head, *page.foot)):
        return True
    own = [passage for passage in passages if passage.pdf_page == page.pdf_page]
    headed = bool(own) and all(any(_NAME.search(name) for name in passage.heading_path) for passage in own)
    return headed and _section_of(page) is not None and _section_of(page) == _section_of(first)


def _section_of(page: Page) -> str | None:
    """ "4" of a page printed "4-2"; None for a page without such a number."""
    found = _SECTION_PAGE.fullmatch(plain(page.printed_page).strip())
    return found["section"] if found else None
