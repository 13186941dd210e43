"""What each page prints of its own state in head or foot: number, page, date, revision.

A typical foot stacks "32-41-00 / Page 401 / Mar 14/2031" (common practice, no source). The running head of a
manual may print the date of the whole manual too: the date that stands in one column with the page or its
number is the page's own.
"""

import datetime
import re
from collections.abc import Sequence
from dataclasses import replace

from indexer.reading.page import Page, TextState
from indexer.tagging.flow import one_line
from indexer.tagging.page_dates import PageDate, dates_of
from indexer.tagging.page_edges import page_edges, page_end, printed_page_of
from indexer.tagging.printed_evidence import printed_evidence
from indexer.tagging.tags import PageMark
from indexer.tagging.zone_columns import Segment, zone_columns
from indexer.trade.chapters import find_numbers
from indexer.trade.evidence import Evidence, Tag
from indexer.trade.revisions import find_revision

_RULES = ("date beside the page number", "date in the foot", "date in the head")
_HEAD_RULE = _RULES[2]
_LEAST_RUNNING = 3  # pages
_REVISION_RULE = "revision in head or foot"
# Dates at a page's edge that are not the page's: of printing, of another page, of the copy.
_NOT_THE_PAGES = re.compile(
    r"\b(?:print(?:ed|out)|download(?:ed)?|copyright|\u00a9|\(c\)|supersed\w*|replac\w*|cancel\w*|see|refer"
    r"|retriev\w*|expir\w*|until|uncontrolled|original(?:ly)?\s+issued?)\b|\u00a9",
    re.IGNORECASE,
)
_PAGE_WORD = re.compile(r"\bp(?:age|g\.?)\b", re.IGNORECASE)


def page_marks(pages: Sequence[Page], month_first: bool | None = None) -> tuple[PageMark, ...]:
    """The mark of every page with text that prints any of the four; pages in order.

    month_first  how the work writes dates in figures, None = not known: then "4/7/17" is not read
    """
    marks = [_mark(page, month_first) for page in pages if page.state is TextState.TEXT]
    running = _running_date(marks)
    return tuple(mark for each in marks if _says(mark := _without(each, running)))


def _running_date(marks: Sequence[PageMark]) -> datetime.date | None:
    """The one date that the heads of all pages print, apart from page and number: it is the manual's."""
    dates = [mark.date.value for mark in marks if mark.date and mark.date.evidence.rule == _HEAD_RULE]
    return dates[0] if len(dates) >= _LEAST_RUNNING and len(set(dates)) == 1 else None


def _without(mark: PageMark, running: datetime.date | None) -> PageMark:
    taken = running and mark.date and mark.date.evidence.rule == _HEAD_RULE
    return replace(mark, date=None) if taken else mark


def _says(mark: PageMark) -> bool:
    return bool(mark.printed_page or mark.number or mark.date or mark.revision)


def _mark(page: Page, month_first: bool | None) -> PageMark:
    printed = printed_page_of(page)
    edges = page_edges(page)
    number = next((each.found.text for each in edges.numbers if each.found.number.subject), "")
    number = number or next((each.found.text for each in edges.numbers), "")
    columns = [
        *(("foot", column) for column in zone_columns(page.foot or page_end(page))),
        *(("head", column) for column in zone_columns(page.head)),
    ]
    date = _date(page, columns, printed, month_first)
    revision = _revision(page, columns)
    return PageMark(page.pdf_page, number, printed, date, revision)


def _date(
    page: Page, columns: Sequence[tuple[str, list[Segment]]], printed: str, month_first: bool | None
) -> Tag | None:
    """The date of the nearest place that prints one; None when that place prints two that differ."""
    places: list[list[tuple[PageDate, Segment]]] = [[], [], []]
    for zone, column in columns:
        own = any(_is_page_or_number(segment.text, printed) for segment in column)
        for segment in column:
            if _NOT_THE_PAGES.search(segment.text):
                continue
            nearness = 0 if own else 1 if zone == "foot" else 2
            places[nearness] += ((found, segment) for found in dates_of(segment.text, month_first))
    for found, rule in zip(places, _RULES, strict=True):
        if found:
            days = {each.date for each, _ in found}
            if len(days) != 1 or None in days:
                return None
            first, segment = found[0]
            return Tag(first.date, _evidence(page, segment, rule))
    return None


def _revision(page: Page, columns: Sequence[tuple[str, list[Segment]]]) -> Tag | None:
    """The revision that the page's edges print, where they print one alone."""
    found = [
        (revision.mark, segment)
        for _, column in columns
        for segment in column
        if not _NOT_THE_PAGES.search(segment.text) and (revision := find_revision(segment.text))
    ]
    if len({mark for mark, _ in found}) != 1:
        return None
    mark, segment = found[0]
    return Tag(mark, _evidence(page, segment, _REVISION_RULE))


def _is_page_or_number(text: str, printed: str) -> bool:
    words = text.split()
    return (bool(printed) and printed in words) or bool(_PAGE_WORD.search(text)) or bool(find_numbers(text))


def _evidence(page: Page, segment: Segment, rule: str) -> Evidence:
    return printed_evidence(page, segment.box, rule, one_line(segment.text))
