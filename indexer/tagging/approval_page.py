"""An approval page: a page that says which chapters and pages of its manual are FAA approved.

    The repairs on the pages of this manual that are listed below are FAA APPROVED
    53   All pages of 53-10-00 and 53-20-00   May 17/2030

Only what a row names is covered, and only a page that is not dated after the row's approval.
"""

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.page import Page
from indexer.tagging.flow import Flow, PrintedLine, one_line, plain
from indexer.trade.approval_vocabulary import FOREIGN, HOPE, LIMITED, NEGATION
from indexer.trade.chapters import ChapterNumber, find_numbers, is_chapter
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Answer, Evidence
from indexer.trade.revisions import find_revision, same_revision

_FRONT_PAGES = 12
_HEADING = re.compile(
    r"^\W*(?:FAA\s+)?(?:approval|approved)\b.{0,30}$|\bapproval\s+(?:page|sheet|statement|list)\b",
    re.IGNORECASE,
)
_STATEMENT = re.compile(
    r"(?P<subject>(?:^|(?<=[.)] ))[^.]{0,200}?\b(?:this\s+manual|pages?|chapters?|repairs?|data"
    r"|sections?)\b[^.]{0,120}?"
    r"\b(?:listed|shown|identified|named)\s+(?:below|in\s+the\s+(?:following|list"
    r"|table)[^.]{0,30}))\s*,?\s+(?:is|are|have\s+been)\s+(?:FAA[ -]APPROVED|approved\s+by\s+the\s+FAA)\b"
    r"|(?P<listed>(?:the\s+)?following\s+(?:pages|chapters|sections"
    r"|repairs)(?:\s+of\s+this\s+manual)?\s+(?:is|are|have\s+been)\s+"
    r"(?:FAA[ -]approved|approved\s+by\s+the\s+FAA)\b)",
    re.IGNORECASE,
)
_ROW = re.compile(r"^(?:chapter\s+)?(?P<chapter>\d{2})(?P<rest>(?:-\d{2}(?:-\d{2})?)?\b.*)$", re.IGNORECASE)
_PAGE_RANGE = re.compile(
    r"(?<![\d-])(?P<first>\d{1,4})\s*(?:thru|through|to|-)\s*(?P<last>\d{1,4})(?![\d-])", re.IGNORECASE
)
_ONE_PAGE = re.compile(r"\bpage\s+(?P<first>(?P<last>\d{1,4}))(?![\d-])", re.IGNORECASE)
_ALL_PAGES = re.compile(r"\ball\s+pages\b|(?<=\s)all\s*$", re.IGNORECASE)
_EXCEPT = re.compile(
    r"\bexcept\w*|\bother\s+than\b|\bexclud\w+|\bless\b|\bminus\b|\bbut\b|\bwithout\b|\bapart\s+from\b"
    r"|\bpart(?:ly|ial\w*)\b|\bonly\b",
    re.IGNORECASE,
)
_AS_NOTED = re.compile(
    r"\b(?:with|as|where|marked|see|when|per|changes?|exclud\w+)\b|[*\u2020\u2021]", re.IGNORECASE
)
_OTHER_APPROVAL = re.compile(rf"\b(?:{FOREIGN}|DERs?|accept\w*|customer|operator|maker)\b", re.IGNORECASE)
_SPEAKS_OF_A_LIST = re.compile(r"\b(?:listed|below|following|these)\b.*\bapprov", re.IGNORECASE)
_NOTED = re.compile(r"[*\u2020\u2021]|\bnotes?\b|\bsee\b", re.IGNORECASE)
_NUMBER_NAMED = re.compile(
    r"(?<![\d-])(?P<chapter>\d{2})-\d{2}|\bchapters?\s+(?P<name>\d{2})\b", re.IGNORECASE
)
_SENTENCE = re.compile(r"(?!except\b|but\b)[A-Z][a-z]+\s[^:]*\.$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class CoveredPages:
    """One row of the list. first and last are printed page numbers, None = all pages of the number."""

    number: ChapterNumber
    first: int | None
    last: int | None
    approved_on: datetime.date | None
    row: str

    def covers(self, number: ChapterNumber, printed_page: str, page_date: datetime.date | None) -> bool:
        """Whether a page of this number, printed page and date is surely in the row."""
        if not self.number.covers(number):
            return False
        if self.approved_on and (page_date is None or page_date > self.approved_on):
            return False  # changed since it was approved, or it cannot be told
        if self.first is None or self.last is None:
            return True
        return printed_page.isdigit() and self.first <= int(printed_page) <= self.last


@dataclass(frozen=True, slots=True)
class ApprovalPage:
    """The statement, where it stands, and the rows below it."""

    pdf_page: int
    evidence: Evidence
    rows: tuple[CoveredPages, ...]


def find_approval_page(pages: Sequence[Page], revision: str | None) -> ApprovalPage | None:
    """The approval page among the front pages; None without one, or when it is of another revision.

    revision  the manual's, as its title page prints it; None when it prints none
    """
    for page in pages[:_FRONT_PAGES]:
        lines = [PrintedLine(page.pdf_page, line, page.origin) for line in page.body]
        if not any(_HEADING.search(plain(one_line(line.text))) for line in lines[:6]):
            continue
        flow = Flow(lines)
        said = _STATEMENT.search(flow.plain)
        if not said or NEGATION.search(said[0]) or HOPE.search(said[0].replace("following", "")):
            continue
        if _EXCEPT.search(said[0]) or _limits(_rest_of_statement(flow, said.end())):
            continue
        if _of_another_revision(flow.plain[said.end() : said.end() + 120], revision):
            continue
        listed = [plain(one_line(line.text)) for start, line in flow.places() if start >= said.end()]
        rows = _listed_rows(listed)
        if rows:
            return ApprovalPage(page.pdf_page, flow.evidence(*said.span(), "approval page"), rows)
    return None


def page_date(page: Page) -> datetime.date | None:
    """The date in the page's foot or head; None when none or when it can be read two ways."""
    for line in (*page.foot, *page.head):
        for found in find_dates(line.text):
            if found.date:
                return found.date
    return None


def _rest_of_statement(flow: Flow, end: int) -> str:
    """What follows the words that grant, up to the first row of the list or the end of the sentence."""
    rest = []
    for start, printed in flow.places():
        if start + len(printed.text) <= end:
            continue
        if start >= end and _ROW.match(plain(one_line(printed.text))):
            break
        rest.append(flow.plain[max(start, end) : start + len(printed.text)])
        if rest[-1].rstrip().endswith("."):
            break
    return " ".join(rest)


def _limits(rest: str) -> bool:
    return _takes_back(rest) or _AS_NOTED.search(rest) is not None


def _takes_back(line: str) -> bool:
    return any(words.search(line) for words in (_EXCEPT, NEGATION, HOPE, LIMITED))


def _of_another_revision(after: str, revision: str | None) -> bool:
    found = find_revision(after)
    return bool(found) and (revision is None or same_revision(found.mark, revision) is not Answer.YES)


def _listed_rows(lines: Sequence[str]) -> tuple[CoveredPages, ...]:
    """The rows of the list that nothing else on the page takes back.

    A line that denies takes all rows back when it stands before the first. It ends the list when it leads in
    another ("NOT APPROVED", "not approved:"); it takes back the row it continues, and every row of a chapter
    it names.
    """
    found: list[CoveredPages] = []
    denied: set[str] = set()
    last: list[CoveredPages] = []
    for line in lines:
        rows = _rows(line)
        if rows:
            found += rows
            last = rows
            continue
        takes_back = _takes_back(line)
        if not found and (NEGATION.search(line) or HOPE.search(line)):
            return ()
        if takes_back:
            denied.update(match["chapter"] or match["name"] for match in _NUMBER_NAMED.finditer(line))
            leads_in = line.rstrip().endswith(":") or _SPEAKS_OF_A_LIST.search(line)
            if leads_in or len(line.split()) <= 4 and NEGATION.search(line):
                break
        if last and (takes_back or line[:1].islower()) and not _SENTENCE.match(line):
            found = [row for row in found if row not in last]
        last = []
    return tuple(row for row in found if row.number.chapter not in denied)


def _rows(line: str) -> list[CoveredPages]:
    """Coverage that a row of the list states; [] for any line that is not clearly one."""
    row = _ROW.match(line)
    if (
        not row
        or not is_chapter(row["chapter"])
        or _EXCEPT.search(line)
        or _NOTED.search(line)
        or _OTHER_APPROVAL.search(line)
        or NEGATION.search(line)
        or HOPE.search(line)
    ):
        return []
    dates = find_dates(line)
    text = line[: dates[0].start] if dates else line
    approved_on = dates[0].date if dates else None
    numbers = [found.number for found in find_numbers(text) if found.form == "chapter-section-subject"]
    numbers = [number for number in numbers if number.chapter == row["chapter"]] or [
        ChapterNumber(row["chapter"])
    ]
    pages = re.sub(r"\d{2}-\d{2}(?:-\d{2})?", " ", text[2:])
    if found := _PAGE_RANGE.search(pages) or _ONE_PAGE.search(pages):
        first, last = int(found["first"]), int(found["last"])
        return [CoveredPages(number, first, last, approved_on, line) for number in numbers]
    if _ALL_PAGES.search(text):
        return [CoveredPages(number, None, None, approved_on, line) for number in numbers]
    return []
