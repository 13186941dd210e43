"""What came of holding a list of effective pages against the pages that are there. Values only."""

import datetime
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from indexer.tagging.tags import ListedPage, PageMark


class PageState(StrEnum):
    """How a page stands to the list."""

    RIGHT = "as listed"
    WRONG_DATE = "another date than listed"
    MISSING = "listed and not here"
    EXTRA = "here and not listed"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class PageFinding:
    """One page of the list, or of the file.

    pdf_page  1-based, None when the page is not here
    why       in words for a person
    listed    the line, None when the page is not listed; mark: what the page prints, None when it is not here
    """

    state: PageState
    number: str
    printed_page: str
    pdf_page: int | None
    why: str
    listed: ListedPage | None = None
    mark: PageMark | None = None

    @property
    def name(self) -> str:
        """ "32-41-00, page 401" """
        page = f"page {self.printed_page}" if self.printed_page else f"PDF page {self.pdf_page}"
        return f"{self.number}, {page}" if self.number else page


@dataclass(frozen=True)
class ListCheck:
    """What came of holding a list against the pages.

    findings  in printed order of the list, pages that are not listed last
    listed    pages that the list gives
    age       of the list beside the revision that the file prints: -1 older, 1 newer, 0 neither or not known
    date      of the list: the newest that its own pages print, else the newest it gives; None = not known
    whole     False for the chart of a change, which lists only the pages that the change puts in
    notes     why the comparison is not complete, and how the list stands to the manual's revision
    complete  True when every line was read and every page's number is known
    """

    findings: tuple[PageFinding, ...]
    listed: int
    date: datetime.date | None
    whole: bool
    notes: tuple[str, ...]
    complete: bool
    age: int = 0

    def count(self, state: PageState) -> int:
        return sum(finding.state is state for finding in self.findings)

    def of_page(self, pdf_page: int) -> PageFinding | None:
        """The finding about a page of the file, the doubtful one first; None when nothing is said of it."""
        return self._by_page.get(pdf_page)

    @cached_property
    def _by_page(self) -> dict[int | None, PageFinding]:
        found: dict[int | None, PageFinding] = {}
        for each in self.findings:
            if each.pdf_page not in found or each.state is not PageState.RIGHT:
                found[each.pdf_page] = each
        return found
