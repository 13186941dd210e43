"""Chapter-section-subject numbers a page prints of itself, in foot, head or data module code, and whether to trust them.

A number in running text is a reference to another page and is never taken here.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from indexer.reading.page import Line, Page, TextState
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.zone_columns import Segment, segments, zone_columns
from indexer.trade.chapters import ChapterNumber, FoundNumber, chapter_title, find_numbers, is_chapter
from indexer.trade.evidence import Basis, Evidence, Tag

_OF_ANOTHER = re.compile(r"\b(?:see|refer|per|supersedes?|replaces?|cancels?|dated|effective|accordance)\b", re.IGNORECASE)
_DATE_LIKE = re.compile(r"(?<![\w/.-])(\d{2})-(\d{2})-(\d{2})(?![\w/-])")
_OWN_PAGE = re.compile(r"(?:\d{1,2}|[IVX]{1,5}|[A-Z])-\d{1,3}[A-Z]?")
_OWN_SECTION = re.compile(r"^\W*section\s+(?:[IVX]{1,5}|\d{1,2})\b", re.IGNORECASE)
_PAGE_WORD = re.compile(r"\b(?:Page|PAGE|Pg\.?)\s+(?P<page>[A-Z]{0,4}-?\d{1,5}[A-Z]?)\b")
_BOTTOM_EDGE = 0.85
_LEAST_OWN_PAGES = 3
_THREE_ELEMENTS = ("chapter-section-subject", "task", "figure-item")
_COMMON_TITLE_WORDS = {"and", "or", "the", "of", "general", "system", "systems", "standard", "practices", "equipment"}


def own_order(pages: Sequence[Page]) -> bool:
    """Whether a manual counts its sections in an order of its own, so that no number of it is an ATA chapter.

    True where pages are printed "2-14" or "V-3", or heads say "Section V", and at most a few pages print a
    chapter-section-subject number. In doubt True: a page filed nowhere is found by its words, a page filed under
    the wrong system is not.
    """
    own = numbered = 0
    for page in pages:
        if page.state is not TextState.TEXT:
            continue
        if any(number for number in _firm(page)):
            numbered += 1
        elif _prints_own_order(page):
            own += 1
    return own >= _LEAST_OWN_PAGES and own > numbered


def running_numbers(page: Page, date_columns: frozenset[str], trust_dates: bool) -> list[Tag[ChapterNumber]]:
    """The numbers in the foot, then in the head, of a page that is not in a manual of its own order.

    date_columns  numbers shaped like dates that stand beside a chapter number elsewhere: they are dates
    trust_dates   whether a lone "05-10-00", which can be a date, may be taken for a number
    """
    found: list[Tag[ChapterNumber]] = []
    for zone, lines in (("foot", page.foot or page_end(page)), ("head", page.head)):
        for tag in _in_zone(page, zone, lines):
            if all(tag.value != other.value for other in found):
                found.append(tag)
    if not found and trust_dates:
        found.extend(_date_like(page, date_columns))
    return found


def page_end(page: Page) -> tuple[Line, ...]:
    """The lines at the bottom edge of a page of which no foot is known, as of a single sheet.

    Below 85 % of the height and parted from the text above; only lines with a chapter number and "Page" in one
    column are worth reading, so () when no column has both.
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
    """The page number as printed: read by the reader, else beside "Page" in the lines at the page's bottom edge."""
    if page.printed_page:
        return plain(page.printed_page).strip()
    for column in zone_columns(page_end(page)):
        for segment in column:
            found = _PAGE_WORD.search(segment.text)
            if found:
                return found["page"]
    return ""


def data_module_numbers(page: Page) -> list[Tag[ChapterNumber]]:
    """The number of the data module code in head or foot, or alone on a line of the page."""
    found: list[Tag[ChapterNumber]] = []
    running = [*page.foot, *page.head]
    for line in (*running, *page.body):
        text = plain(one_line(line.text))
        for number in find_numbers(text):
            alone = number.end - number.start >= len(text) - 12 or line in running
            if number.form == "data module code" and alone and not _OF_ANOTHER.search(text):
                tag = Tag(number.number, PrintedLine(page.pdf_page, line, page.origin).evidence("data module code", number.text))
                if all(tag.value != other.value for other in found):
                    found.append(tag)
    return found


def date_columns(pages: Sequence[Page]) -> frozenset[str]:
    """Figures shaped like a chapter number that stand in foot or head beside a firm chapter number: dates."""
    beside: set[str] = set()
    for page in pages:
        firm = {str(number) for number in _firm(page)}
        if firm:
            for line in (*page.foot, *page.head):
                beside.update(found[0] for found in _DATE_LIKE.finditer(plain(line.text)) if found[0] not in firm)
    return frozenset(beside)


def trusts_numbers(pages: Sequence[Page]) -> bool:
    """Whether the work surely prints chapter numbers in its running lines: three pages at least, two numbers at least."""
    count: Counter[str] = Counter()
    for page in pages:
        count.update({str(number) for number in _firm(page)})
    return sum(count.values()) >= 3 and len(count) >= 2


def title_agrees(number: ChapterNumber, words: str) -> bool:
    """Whether words beside "Chapter 32" share a word with that chapter's title, so that it is an ATA chapter."""
    if not is_chapter(number.chapter):
        return False
    title = set(re.findall(r"[a-z]{3,}", chapter_title(number.chapter).lower())) - _COMMON_TITLE_WORDS
    said = set(re.findall(r"[a-z]{3,}", words.lower()))
    return any(_same_word(one, other) for one in title for other in said)


def _same_word(one: str, other: str) -> bool:
    return one == other or (min(len(one), len(other)) >= 4 and one.rstrip("s") == other.rstrip("s"))


def _in_zone(page: Page, zone: str, lines: Sequence[Line]) -> Iterator[Tag[ChapterNumber]]:
    for segment, found, column in _zone_numbers(lines):
        if _own(found, column, segment.text):
            yield Tag(found.number, _evidence(page, segment, f"number in {zone}"))


def _zone_numbers(lines: Sequence[Line]) -> Iterator[tuple[Segment, FoundNumber, str]]:
    """Numbers of a head or foot, column by column, each with its segment and the whole text of its column."""
    for column in zone_columns(lines):
        text = "\n".join(segment.text for segment in column)
        start = 0
        starts = []
        for segment in column:
            starts.append(start)
            start += len(segment.text) + 1
        for found in find_numbers(text):
            place = max(index for index, begin in enumerate(starts) if begin <= found.start)
            yield column[place], found, text


def _evidence(page: Page, segment: Segment, rule: str) -> Evidence:
    return Evidence(Basis.PRINTED, rule, one_line(segment.text), page.pdf_page, segment.box, origin=page.origin)


def _own(found: FoundNumber, text: str, line: str) -> bool:
    if _OF_ANOTHER.search(line):
        return False
    if found.form in ("chapter-section-subject", "task", "figure-item", "ata chapter words"):
        return True
    if found.form == "chapter-section":
        return line.strip() != found.text  # alone it may be a page number of the manual's own order
    return found.form == "chapter words" and title_agrees(found.number, text)


def _firm(page: Page) -> Iterator[ChapterNumber]:
    """Three-element numbers in foot and head that cannot be a date."""
    for lines in (page.foot, page.head):
        for segment, found, _ in _zone_numbers(lines):
            if found.form in _THREE_ELEMENTS and found.number.subject is not None and not _OF_ANOTHER.search(segment.text):
                yield found.number


def _date_like(page: Page, dates: frozenset[str]) -> Iterator[Tag[ChapterNumber]]:
    for zone, lines in (("foot", page.foot), ("head", page.head)):
        for line in lines:
            for segment in segments(line):
                for found in _DATE_LIKE.finditer(segment.text):
                    alone = len(segment.text) - len(found[0]) <= 12
                    if alone and found[0] not in dates and is_chapter(found[1]) and not _OF_ANOTHER.search(segment.text):
                        number = ChapterNumber(*found.groups())
                        yield Tag(number, _evidence(page, segment, f"number in {zone}, as on other pages"))


def _prints_own_order(page: Page) -> bool:
    if _OWN_PAGE.fullmatch(plain(page.printed_page).strip()):
        return True
    lines = [plain(one_line(line.text)) for line in (*page.head, *page.foot)]
    return any(_OWN_SECTION.match(line) or _OWN_PAGE.fullmatch(line.removeprefix("Page ").strip()) for line in lines)
