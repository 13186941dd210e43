"""What stands at the edges of a page: numbers in head and foot column by column, and the printed page
number."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.page import Line, Page
from indexer.tagging.flow import plain
from indexer.tagging.zone_columns import Segment, zone_columns
from indexer.trade.chapters import ChapterNumber, FoundNumber, find_numbers

_OF_ANOTHER = re.compile(
    r"\b(?:see|refer|per|supersedes?|replaces?|cancels?|dated|effective|accordance)\b", re.IGNORECASE
)
_PAGE_WORD = re.compile(r"\b(?:Page|PAGE|Pg\.?)\s+(?P<page>[A-Z]{0,4}-?\d{1,5}[A-Z]?)\b")
_TWO_NUMBERS = re.compile(r"(?<=\d-\d\d)/(?=\d\d-\d\d-\d\d)")  # "32-41-00/32-42-00"
_BOTTOM_EDGE = 0.85
_THREE_ELEMENTS = ("chapter-section-subject", "task", "figure-item")


@dataclass(frozen=True, slots=True)
class EdgeNumber:
    """A chapter number at a page's edge. `zone`: "foot" or "head"; `column`: all text of its column."""

    zone: str
    segment: Segment
    found: FoundNumber
    column: str


@dataclass(frozen=True, slots=True)
class PageEdges:
    """A page with the numbers of its foot, then of its head; none that a word beside it gives to another
    page."""

    page: Page
    numbers: tuple[EdgeNumber, ...]

    @property
    def firm(self) -> tuple[ChapterNumber, ...]:
        """The numbers of three elements."""
        return tuple(
            each.found.number
            for each in self.numbers
            if each.found.form in _THREE_ELEMENTS and each.found.number.subject is not None
        )


def page_edges(page: Page) -> PageEdges:
    """Read the edges of one page."""
    zones = (("foot", page.foot or page_end(page)), ("head", page.head))
    return PageEdges(page, tuple(number for zone, lines in zones for number in _zone_numbers(zone, lines)))


def speaks_of_another(text: str) -> bool:
    """Whether a word in an edge line gives its number to another page or paper ("see", "supersedes")."""
    return _OF_ANOTHER.search(text) is not None


def page_end(page: Page) -> tuple[Line, ...]:
    """The lines at the bottom edge of a page of which no foot is known, as of a single sheet.

    Below 85 % of the height and parted from the text above; only lines with a chapter number and "Page" in
    one column are worth reading, so () when no column has both.
    """
    low = [line for line in page.body if line.box.top >= _BOTTOM_EDGE * page.height]
    above = [line.box.bottom for line in page.body if line.box.top < _BOTTOM_EDGE * page.height]
    if not low or (above and min(line.box.top for line in low) - max(above) < 1.5 * low[0].box.height):
        return ()
    for column in zone_columns(low):
        text = "\n".join(segment.text for segment in column)
        if find_numbers(text) and _PAGE_WORD.search(text):
            return tuple(low)
    return ()


def printed_page_of(page: Page) -> str:
    """The page number as printed: read by the reader, else beside "Page" in the lines at the page's bottom
    edge."""
    if page.printed_page:
        return plain(page.printed_page).strip()
    for column in zone_columns(page_end(page)):
        for segment in column:
            found = _PAGE_WORD.search(segment.text)
            if found:
                return found["page"]
    return ""


def _zone_numbers(zone: str, lines: Sequence[Line]) -> Iterator[EdgeNumber]:
    """Numbers of a head or foot, column by column, each with its segment."""
    for column in zone_columns(lines):
        text = _TWO_NUMBERS.sub(" ", "\n".join(segment.text for segment in column))
        starts, place = [], 0
        for segment in column:
            starts.append(place)
            place += len(segment.text) + 1
        for found in find_numbers(text):
            segment = column[max(index for index, begin in enumerate(starts) if begin <= found.start)]
            if not speaks_of_another(segment.text):
                yield EdgeNumber(zone, segment, found, text)
