"""A list of effective pages held against the pages that are there: right, wrong date, missing, extra.

The list says what a manual should hold; it proves nothing of which revision is current. A page older than its
manual's revision is right when the list gives it that date (common practice, no source).
"""

import datetime
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from indexer.library.catalogue import Catalogue
from indexer.library.list_check_records import ListCheck, PageFinding, PageState
from indexer.library.page_facts import listed_pages_of, page_marks_of
from indexer.library.records import PageRecord, PublicationRecord
from indexer.reading.page import TextState
from indexer.tagging.effective_pages import BLANK, INSERTED, INSERTED_BLANK, LISTED, TOTAL, UNREAD
from indexer.tagging.tags import ListedPage, PageMark
from indexer.trade.chapters import parse_number
from indexer.trade.dashes import plain_dashes
from indexer.trade.dates import date_words
from indexer.trade.evidence import Answer, Origin
from indexer.trade.revisions import same_revision

_FIRST_PAGE = ("title", "title page", "cover", "cover page", "front cover")


def list_check(catalogue: Catalogue, publication: PublicationRecord) -> ListCheck | None:
    """The list of a publication held against its pages; None when it has no list."""
    with catalogue.reading():
        listed = listed_pages_of(catalogue, publication.id)
        if not listed:
            return None
        pages = [
            page
            for page in catalogue.pages(publication.copy_id)
            if publication.first_page <= page.pdf_page <= publication.last_page
        ]
        return check_list(listed, page_marks_of(catalogue, publication.id), pages, publication.date)


def check_list(
    lines: Sequence[ListedPage],
    marks: Sequence[PageMark],
    pages: Sequence[PageRecord],
    revision_date: datetime.date | None,
) -> ListCheck | None:
    """Hold the lines against the pages. Pure.

    revision_date  of the manual as its title page prints it, None = not known
    None when no line lists a page.
    """
    whole = any(line.evidence.rule in (LISTED, BLANK) for line in lines)
    wanted = [line for line in lines if line.printed_page and _counts(line, whole)]
    if not wanted:
        return None
    own = frozenset(line.evidence.pdf_page for line in lines)
    date = _date_of_list(wanted, marks, own)
    nameless = _nameless(marks, pages, own)
    unread = sum(line.evidence.rule == UNREAD for line in lines)
    holding = _Holding(marks, pages[0].pdf_page if pages else 1, bool(nameless), date, revision_date)
    findings = list(holding.lines(wanted))
    if whole:
        findings += holding.not_listed(own, unread)
    notes = [
        *_notes_on_reading(lines, wanted, unread, nameless, whole),
        *_notes_on_age(date, revision_date, whole),
    ]
    complete = not unread and not nameless and _total_agrees(lines, wanted)
    age = (date > revision_date) - (date < revision_date) if date and revision_date and whole else 0
    return ListCheck(tuple(findings), len(wanted), date, whole, tuple(notes), complete, age)


def page_key(number: str, printed_page: str) -> tuple[str, str]:
    """Number and page for comparison: "32-41" and "32-41-00" are one; a worded number ("Section V") is ""."""
    return _chapter_key(number), _page_key(printed_page)


@lru_cache(4096)
def _chapter_key(number: str) -> str:
    found = parse_number(number) if number[:1].isdigit() else None
    return f"{found.chapter}-{found.section or '00'}-{found.subject or '00'}" if found else ""


@lru_cache(16_384)
def _page_key(printed_page: str) -> str:
    return plain_dashes(printed_page).replace(" ", "").casefold()


class _Holding:
    """The pages that are there, to be found by what lines list."""

    def __init__(
        self,
        marks: Sequence[PageMark],
        first_page: int,
        nameless: bool,
        date: datetime.date | None,
        revision_date: datetime.date | None,
    ):
        self._marks = [mark for mark in marks if mark.printed_page]
        self._first = next((mark for mark in marks if mark.pdf_page == first_page), None)
        self._nameless = nameless
        self._list_date = date
        self._older = bool(date and revision_date and date < revision_date)
        self._by_key: dict[tuple[str, str], list[PageMark]] = {}
        self._by_page: dict[str, list[PageMark]] = {}
        for mark in self._marks:
            key = page_key(mark.number, mark.printed_page)
            self._by_key.setdefault(key, []).append(mark)
            self._by_page.setdefault(key[1], []).append(mark)
        self._found: set[int] = set()

    def lines(self, wanted: Sequence[ListedPage]) -> Iterator[PageFinding]:
        dates: dict[tuple[str, str], set] = {}
        alone = Counter(page_key("", line.printed_page)[1] for line in wanted)
        for line in wanted:
            dates.setdefault(page_key(line.number, line.printed_page), set()).add((line.date, line.revision))
        for line in wanted:
            key = page_key(line.number, line.printed_page)
            marks = self._marks_of(line, key, alone[key[1]] == 1)
            self._found |= {mark.pdf_page for mark in marks}
            if not marks:
                yield from self._not_here(line)
            elif len(dates[key]) > 1:
                why = "the list gives this page more than once, and not with one date"
                yield from (_finding(PageState.CANNOT_TELL, why, line, mark) for mark in marks)
            else:
                yield from (self._compared(line, mark) for mark in marks)

    def not_listed(self, own: frozenset[int | None], unread: int) -> Iterator[PageFinding]:
        """Pages with a printed number that no line lists, but for those that the list itself stands on."""
        for mark in self._marks:
            if mark.pdf_page in self._found or mark.pdf_page in own:
                continue
            why = "the list of effective pages does not list this page"
            state = PageState.EXTRA
            if unread:
                state, why = PageState.CANNOT_TELL, f"{why}, as far as it could be read"
            elif self._is_later(mark):
                state, why = PageState.CANNOT_TELL, f"{why}, and the list is older than the page"
            yield _finding(state, why, None, mark)

    def _marks_of(self, line: ListedPage, key: tuple[str, str], alone: bool) -> list[PageMark]:
        if line.printed_page.casefold() in _FIRST_PAGE and self._first:
            return [self._first]
        exact = self._by_key.get(key, [])
        if exact:
            return exact
        by_page = self._by_page.get(key[1], [])
        unnumbered = not key[0] or all(not page_key(mark.number, "x")[0] for mark in by_page)
        return by_page if alone and len(by_page) == 1 and unnumbered else []

    def _not_here(self, line: ListedPage) -> Iterator[PageFinding]:
        if line.evidence.rule in (BLANK, INSERTED_BLANK):
            return  # a blank back bears no number
        if self._nameless:
            why = "not found here, where pages without a number that could be read may be it"
            yield _finding(PageState.CANNOT_TELL, why, line, None)
        else:
            yield _finding(
                PageState.MISSING, "the list gives this page, and it is not in this file", line, None
            )

    def _compared(self, line: ListedPage, mark: PageMark) -> PageFinding:
        read = [line.evidence.origin, *(tag.evidence.origin for tag in (mark.date, mark.revision) if tag)]
        if any(origin is not Origin.DIGITAL for origin in read):
            why = "list or page was read by OCR, which may take one figure for another"
            return _finding(PageState.CANNOT_TELL, why, line, mark)
        if line.date and mark.date:
            if line.date == mark.date.value:
                return _finding(PageState.RIGHT, f"dated {date_words(line.date)}, as listed", line, mark)
            both = f"this page prints {date_words(mark.date.value)}, the list gives {date_words(line.date)}"
            if self._is_later(mark):
                return _finding(PageState.CANNOT_TELL, f"{both}, and is itself older", line, mark)
            return _finding(PageState.WRONG_DATE, both, line, mark)
        if line.date is None and line.revision and mark.revision:
            same = same_revision(line.revision, mark.revision.value)
            both = f"this page prints revision {mark.revision.value}, the list gives {line.revision}"
            if same is Answer.YES:
                return _finding(PageState.RIGHT, f"revision {line.revision}, as listed", line, mark)
            state = PageState.WRONG_DATE if same is Answer.NO else PageState.CANNOT_TELL
            return _finding(state, both, line, mark)
        lacking = "the page prints no date" if line.date else "the list gives no date"
        return _finding(PageState.CANNOT_TELL, f"{lacking} that could be read", line, mark)

    def _is_later(self, mark: PageMark) -> bool:
        """Whether an old list says nothing of a page: the page came after it."""
        later = bool(mark.date and self._list_date and mark.date.value > self._list_date)
        return later and self._older


def _counts(line: ListedPage, whole: bool) -> bool:
    rules = (LISTED, BLANK) if whole else (INSERTED, INSERTED_BLANK)
    return line.evidence.rule in rules


def _finding(state: PageState, why: str, line: ListedPage | None, mark: PageMark | None) -> PageFinding:
    number = (line.number if line else "") or (mark.number if mark else "")
    printed = (mark.printed_page if mark else "") or (line.printed_page if line else "")
    return PageFinding(state, number, printed, mark.pdf_page if mark else None, why, line, mark)


def _date_of_list(
    wanted: Iterable[ListedPage], marks: Iterable[PageMark], own: frozenset[int | None]
) -> datetime.date | None:
    printed = [mark.date.value for mark in marks if mark.pdf_page in own and mark.date]
    return max(printed or [line.date for line in wanted if line.date], default=None)


def _nameless(
    marks: Sequence[PageMark], pages: Sequence[PageRecord], own: frozenset[int | None]
) -> list[PageRecord]:
    """Pages that may be listed ones: they show something, and no page number could be read on them."""
    named = {mark.pdf_page for mark in marks if mark.printed_page} | own
    return [page for page in pages[1:] if page.state is not TextState.BLANK and page.pdf_page not in named]


def _total_agrees(lines: Iterable[ListedPage], wanted: Sequence[ListedPage]) -> bool:
    return all(_total(line) == len(wanted) for line in lines if line.evidence.rule == TOTAL)


def _total(line: ListedPage) -> int:
    figures = "".join(each for each in line.evidence.quote.rsplit(None, 1)[-1] if each.isdigit())
    return int(figures or 0)


def _notes_on_reading(
    lines: Sequence[ListedPage],
    wanted: Sequence[ListedPage],
    unread: int,
    nameless: Sequence[PageRecord],
    whole: bool,
) -> Iterator[str]:
    if not whole:
        yield "This chart lists only the pages that a change puts in; it says nothing of the others."
    if unread:
        count = "1 line of the list" if unread == 1 else f"{unread} lines of the list"
        yield f"Not complete: {count} could not be read."
    if nameless:
        first = ", ".join(str(page.pdf_page) for page in nameless[:5])
        them = f"{_pages(len(nameless))} (PDF page {first}{' ...' if len(nameless) > 5 else ''})"
        yield f"Not complete: no page number could be read on {them}."
    for line in lines:
        if line.evidence.rule == TOTAL and _total(line) != len(wanted):
            yield f"The list says \u201c{line.evidence.quote}\u201d; {len(wanted)} were read in it."


def _notes_on_age(
    date: datetime.date | None, revision_date: datetime.date | None, whole: bool
) -> Iterator[str]:
    if date is None:
        yield "The list bears no date that could be read."
    elif revision_date and whole and date < revision_date:
        yield (
            f"The list is of {date_words(date)}, older than the revision of {date_words(revision_date)} that "
            "this file prints as its own: it says nothing of pages that came after it."
        )
    elif revision_date and whole and date > revision_date:
        yield (
            f"The list is of {date_words(date)}, newer than the revision of {date_words(revision_date)} "
            "that this file prints as its own."
        )


def _pages(count: int) -> str:
    return "1 page" if count == 1 else f"{count} pages"
