"""Dates on pages and in lists of pages: dates in figures are read where the work shows which is the month."""

import datetime
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from indexer.reading.page import Page
from indexer.trade.dates import find_dates

_FIGURES = re.compile(
    r"^(?P<first>\d{1,2})(?P<joint>[/.-])(?P<second>\d{1,2})(?P=joint)(?P<year>\d{2}(?:\d{2})?)$"
)
_US_GOVERNMENT = re.compile(r"\bU\.\s?S\.\s+Department\b")
_IN_FIGURES = re.compile(r"\d[/.-]\d{1,2}[/.-]\d")
_HIGHEST_MONTH = 12
_FIRST_TWO_DIGIT_YEAR = 40  # as in trade.dates


@dataclass(frozen=True, slots=True)
class PageDate:
    """text[start:end] is the date as printed; `date` is None when it can be read two ways."""

    date: datetime.date | None
    start: int
    end: int


def month_first(texts: Iterable[str]) -> bool | None:
    """Whether a work writes the month first, from the dates in figures that can be read one way only.

    None when it has none of these, or has both kinds.
    """
    seen = set()
    for text in texts:
        for found in find_dates(text) if _IN_FIGURES.search(text) else ():
            figures = _FIGURES.match(found.text.strip())
            if figures:
                first, second = int(figures["first"]), int(figures["second"])
                if (first > _HIGHEST_MONTH) != (second > _HIGHEST_MONTH):
                    seen.add(second > _HIGHEST_MONTH)
    return seen.pop() if len(seen) == 1 else None


def written_order(pages: Sequence[Page]) -> bool | None:
    """month_first of a work. The US government writes the month first (common practice, no source)."""
    first = pages[0].body if pages else ()
    if any(_US_GOVERNMENT.search(line.text) for line in first):
        return True
    return month_first(line.text for page in pages for line in (*page.head, *page.foot, *page.body))


def dates_of(text: str, month_first: bool | None) -> list[PageDate]:
    """Every full date in the text, in order of place."""
    return [
        PageDate(found.date or _read(found.text, month_first), found.start, found.end)
        for found in find_dates(text)
    ]


def _read(text: str, month_first: bool | None) -> datetime.date | None:
    figures = _FIGURES.match(text.strip())
    if month_first is None or figures is None:
        return None
    first, second, year = int(figures["first"]), int(figures["second"]), int(figures["year"])
    if len(figures["year"]) == 2:
        year += 1900 if year >= _FIRST_TWO_DIGIT_YEAR else 2000
    month, day = (first, second) if month_first else (second, first)
    try:
        return datetime.date(year, month, day)
    except ValueError:
        return None
