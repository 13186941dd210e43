"""Pages that only lead to others: title page, contents, index, list of effective pages, record of revisions.

They name every system of a manual and are about none, so no chapter is worked out from their text.
"""

import re
from collections.abc import Sequence

from indexer.reading.page import Page
from indexer.tagging.contents_entries import contents_pages
from indexer.tagging.flow import plain

_LISTS = re.compile(
    r"(?:(?:alphabetical|numerical|subject|part\s+numbers?)\s+)?index$"
    r"|(?:lists?|index|table)\s+of\s+(?:effective\s+pages|figures|illustrations|tables|plates|changes|revisions"
    r"|service\s+bulletins|abbreviations|acronyms|contents)\b"
    r"|(?:record|log|highlights)\s+of\s+(?:temporary\s+)?(?:revisions|changes)\b"
    r"|(?:(?:temporary\s+)?revision|change)s?\s+(?:record|log|highlights|status|list)\b"
    r"|(?:effective\s+pages|numerical\s+index|table\s+of\s+contents)\b",
    re.IGNORECASE,
)
_LETTERED = re.compile(r"(?:T|TP|TC|TOC|LEP|LOEP|RR|RTR|TR|RTL|ROR|HL|LOI|LOF|LOT|INDEX|IDX)-[0-9]{1,3}")
_ENDS_IN_PAGES = re.compile(r".*[A-Za-z)].*?[\s.,][0-9IVX]{1,4}(?:-[0-9]{1,4})?$")
_LONGEST_TITLE_PAGE = 110  # words
_LEAST_PAGES = 3  # of a work that has a title page
_LEAST_LINES = 6
_LEAST_SHARE = 0.6  # of an index page's lines that end in a page number


def front_pages(pages: Sequence[Page]) -> frozenset[int]:
    """The pdf pages of a work that only lead to others, wherever they are bound."""
    found = {page.pdf_page for page in contents_pages(pages)}
    if len(pages) >= _LEAST_PAGES and _is_title_page(pages[0]):
        found.add(pages[0].pdf_page)
    listing = False
    for page in pages:
        listing = _is_listing(page) or (listing and _goes_on(page))
        if listing or _LETTERED.fullmatch(plain(page.printed_page).strip().upper()):
            found.add(page.pdf_page)
    return frozenset(found)


def _is_title_page(page: Page) -> bool:
    words = [word for line in page.body for word in line.words]
    return len(words) <= _LONGEST_TITLE_PAGE and any(line.heading_level for line in page.body)


def _is_listing(page: Page) -> bool:
    return any(_LISTS.match(plain(line.text).strip()) for line in (*page.head, *page.body[:3]))


def _goes_on(page: Page) -> bool:
    """Whether a page behind a list looks like more of it: most lines end in a page number."""
    ends = sum(_ENDS_IN_PAGES.fullmatch(plain(line.text)) is not None for line in page.body)
    return len(page.body) >= _LEAST_LINES and ends >= _LEAST_SHARE * len(page.body)
