"""Lists of effective pages: every page a manual should have, with the date or revision the list gives it.

Also the page control chart of a change ("Remove pages ... Insert pages ..."), which lists only the pages
that the change puts in. What the lines say is held against the pages that are there in
library/effective_pages.py.
"""

import re
from collections.abc import Iterator, Sequence

from indexer.reading.page import Page, TextState
from indexer.tagging.flow import plain
from indexer.tagging.listed_lines import (
    Layout,
    ListLine,
    heading,
    is_head,
    prints_a_page_and_date,
    read_line,
    total_pages,
)
from indexer.tagging.listed_rows import GroupRow, group_rows
from indexer.tagging.page_edges import printed_page_of
from indexer.tagging.printed_evidence import printed_evidence
from indexer.tagging.tags import ListedPage
from indexer.trade.evidence import Evidence

# Names of the rules, by which library/effective_pages.py tells the lines apart.
LISTED = "line of a list of effective pages"
BLANK = "blank page of a list of effective pages"
TOTAL = "total of a list of effective pages"
UNREAD = "line of a list of effective pages that could not be read"
INSERTED = "page put in by a page control chart"
INSERTED_BLANK = "blank page put in by a page control chart"

_TITLE = re.compile(
    r"^(?:\W*(?:section|part)?\s*)?(?:lists?\s+of\s+(?:all\s+)?(?:effective|active|current)\s+pages"
    r"|(?:list\s+of\s+)?effective\s+pages?(?:\s+list)?|effectivity\s+page|effective\s+page\s+list"
    r"|active\s+page(?:s\s+list|\s+list)?|l\.?o?\.?e\.?p\.?)\b",
    re.IGNORECASE,
)
_CHART = re.compile(r"^\W*page\s+control\s+(?:chart|sheet)\b", re.IGNORECASE)
_LABEL = re.compile(r"(?:LEP|LOEP|EP|EFF)[-.]?\d{1,3}[A-Z]?$")
_OTHER_TITLE = re.compile(
    r"^\W*(?:table\s+of\s+contents|contents|index|record\s+of|highlights|introduction|log\s+of"
    r"|list\s+of\s+(?!effective|active|current))\b",
    re.IGNORECASE,
)
_TITLE_LINES = 8
_LEAST_LINES = 3  # rows that make a page without a title the rest of a list
_OWN_PAGE = re.compile(r"(?:\d{1,2}|[IVX]{1,5}|[A-Z])-\d{1,3}[A-Z]?")


def listed_pages(pages: Sequence[Page], month_first: bool | None = None) -> tuple[ListedPage, ...]:
    """Every line of the lists in a work, in printed order; a range is one ListedPage each.

    month_first  as in page_dates; None = not known
    Totals, and lines that could not be read, are lines without a page; see their rules. Pages that the list
    says are gone are left out.
    """
    own = any(_OWN_PAGE.fullmatch(printed_page_of(page)) for page in pages if not _is_front(page))
    found: list[ListedPage] = []
    going_on, number = False, ""
    for page in pages:
        if page.state is not TextState.TEXT:
            going_on = going_on and page.state is TextState.BLANK
            continue
        chart = _begins_at(page, _CHART)
        if chart is not None:
            found += _inserted(page, chart, month_first, own)
            going_on = False
            continue
        titled = _begins_at(page, _TITLE) is not None
        if not titled and not going_on:
            continue
        if titled and not going_on:
            number = ""
        lines, number = _of_page(page, number, month_first, own)
        if not titled and (_has_other_title(page) or len(lines) < _LEAST_LINES):
            going_on = False
            continue
        going_on = True
        found += lines
    return tuple(found)


def list_pages(pages: Sequence[Page]) -> frozenset[int]:
    """The pdf pages that bear the title of a list of effective pages."""
    return frozenset(page.pdf_page for page in pages if _begins_at(page, _TITLE) is not None)


def _is_front(page: Page) -> bool:
    return bool(re.match(r"[A-Z]{1,4}-", printed_page_of(page)))


def _begins_at(page: Page, title: re.Pattern) -> float | None:
    """The height at which a list's title stands on a page; None when it has none."""
    if title is _TITLE and _LABEL.fullmatch(printed_page_of(page).upper()):
        return 0.0
    if title is _TITLE:
        for line in page.head:
            if title.match(plain(line.text).strip()):
                return 0.0
    lines = page.body[:_TITLE_LINES] if title is _TITLE else page.body
    for line in lines:
        text = plain(line.text).strip()
        if title.match(text) and len(text.split()) <= _TITLE_LINES:
            return line.box.top
    return None


def _has_other_title(page: Page) -> bool:
    first = [*page.head, *page.body[:2]]
    return any(_OTHER_TITLE.match(plain(line.text).strip()) for line in first)


def _layout(rows: Sequence[GroupRow], month_first: bool | None, own: bool) -> Layout:
    heads = " ".join(row.text for row in rows if is_head(row.text))
    revisions = re.search(r"\b(?:rev(?:ision)?|change|issue|chg)\b", heads, re.IGNORECASE) is not None
    dates = re.search(r"\bdate", heads, re.IGNORECASE) is not None
    return Layout(revisions, dates or not heads, own, month_first)


def _of_page(page: Page, number: str, month_first: bool | None, own: bool) -> tuple[list[ListedPage], str]:
    """The lines of one page of a list, and the number that holds for the lines of the next page."""
    found: list[ListedPage] = []
    rows = group_rows(page)
    layout = _layout(rows, month_first, own)
    for row in rows:
        text = row.text
        total = total_pages(text)
        if total is not None:
            found.append(ListedPage("", "", None, "", _evidence(page, row, TOTAL, text)))
            continue
        if is_head(text):
            continue
        line = read_line(text, layout)
        if line is None:
            number = heading(text) or number
            if prints_a_page_and_date(text):
                found.append(ListedPage("", "", None, "", _evidence(page, row, UNREAD, text)))
            continue
        if line.number or line.title:
            number = line.number
        if not line.gone:
            found += _each_page(page, row, line, number, (LISTED, BLANK))
    return found, number


def _inserted(page: Page, top: float, month_first: bool | None, own: bool) -> list[ListedPage]:
    """The pages that a page control chart puts in: its right half, under "Insert"."""
    rows = group_rows(page, top)
    right = max((row.group for row in rows), default=0)
    if right == 0:
        return []
    found: list[ListedPage] = []
    for row in rows:
        line = read_line(row.text, Layout(own_pages=own, month_first=month_first))
        if row.group != right:
            continue
        if line and line.dated and not line.gone:
            found += _each_page(page, row, line, line.number, (INSERTED, INSERTED_BLANK))
        elif line is None and prints_a_page_and_date(row.text):
            found.append(ListedPage("", "", None, "", _evidence(page, row, UNREAD, row.text)))
    return found


def _each_page(
    page: Page, row: GroupRow, line: ListLine, number: str, rules: tuple[str, str]
) -> Iterator[ListedPage]:
    for printed in line.pages:
        rule = rules[1] if printed in line.blank else rules[0]
        yield ListedPage(number, printed, line.date, line.revision, _evidence(page, row, rule, row.text))


def _evidence(page: Page, row: GroupRow, rule: str, quote: str) -> Evidence:
    return printed_evidence(page, row.box, rule, quote)
