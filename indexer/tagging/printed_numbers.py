"""Chapter numbers a page prints of itself, in foot, head or data module code, and whether to trust them.

A number in running text is a reference to another page and is never taken here.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from indexer.reading.page import Page, TextState
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.page_edges import EdgeNumber, PageEdges, speaks_of_another
from indexer.tagging.printed_evidence import printed_evidence
from indexer.tagging.zone_columns import Segment, segments
from indexer.trade.chapters import ChapterNumber, chapter_title, find_numbers, is_chapter
from indexer.trade.evidence import Evidence, Tag

_DATE_LIKE = re.compile(r"(?<![\w/.-])(\d{2})-(\d{2})-(\d{2})(?![\w/-])")
_OWN_PAGE = re.compile(r"(?:\d{1,2}|[IVX]{1,5}|[A-Z])-\d{1,3}[A-Z]?")
_OWN_SECTION = re.compile(r"^\W*(?:section|group)\s+(?:[IVX]{1,5}|\d{1,2})\b", re.IGNORECASE)
_LEAST_OWN_PAGES = 3
_LEAST_DASHES = 6  # of any data module code
_COMMON_TITLE_WORDS = {
    "and",
    "or",
    "the",
    "of",
    "general",
    "system",
    "systems",
    "standard",
    "practices",
    "equipment",
}


def own_order(edges: Sequence[PageEdges]) -> bool:
    """Whether a manual counts its sections in an order of its own, so that no number of it is an ATA chapter.

    True where pages are printed "2-14" or "V-3", or heads say "Section V", and at most a few pages print a
    chapter-section-subject number. In doubt True: a page filed nowhere is found by its words, a page filed
    under the wrong system is not.
    """
    own = numbered = 0
    for each in edges:
        if each.page.state is not TextState.TEXT:
            continue
        if each.firm:
            numbered += 1
        elif _prints_own_order(each.page):
            own += 1
    return own >= _LEAST_OWN_PAGES and own > numbered


def running_numbers(
    edges: PageEdges, dates: frozenset[str] = frozenset(), trust_dates: bool = False
) -> list[Tag[ChapterNumber]]:
    """The numbers in the foot, then in the head, of a page that is not in a manual of its own order.

    dates        numbers shaped like dates that stand beside a chapter number elsewhere: they are dates
    trust_dates  whether a lone "05-10-00", which can be a date, may be taken for a number
    """
    found: list[Tag[ChapterNumber]] = []
    for each in edges.numbers:
        tag = Tag(each.found.number, _evidence(edges.page, each.segment, f"number in {each.zone}"))
        if _own(each) and all(tag.value != other.value for other in found):
            found.append(tag)
    if not found and trust_dates:
        found.extend(_date_like(edges.page, dates))
    return found


def data_module_numbers(page: Page) -> list[Tag[ChapterNumber]]:
    """The number of the data module code in head or foot, or alone on a line of the page."""
    found: list[Tag[ChapterNumber]] = []
    running = [*page.foot, *page.head]
    for line in (*running, *page.body):
        text = plain(one_line(line.text))
        if text.count("-") < _LEAST_DASHES or speaks_of_another(text):
            continue
        for number in find_numbers(text):
            alone = number.end - number.start >= len(text) - 12 or line in running
            if number.form == "data module code" and alone:
                tag = Tag(
                    number.number,
                    PrintedLine(page.pdf_page, line, page.origin).evidence("data module code", number.text),
                )
                if all(tag.value != other.value for other in found):
                    found.append(tag)
    return found


def date_columns(edges: Sequence[PageEdges]) -> frozenset[str]:
    """Figures shaped like a chapter number that stand in foot or head beside a firm chapter number: dates."""
    beside: set[str] = set()
    for each in edges:
        firm = {str(number) for number in each.firm}
        if firm:
            for line in (*each.page.foot, *each.page.head):
                beside.update(
                    found[0] for found in _DATE_LIKE.finditer(plain(line.text)) if found[0] not in firm
                )
    return frozenset(beside)


def trusts_numbers(edges: Sequence[PageEdges]) -> bool:
    """Whether the work surely prints chapter numbers in its running lines: three pages at least, two
    numbers at least."""
    count: Counter[str] = Counter()
    for each in edges:
        count.update({str(number) for number in each.firm})
    return sum(count.values()) >= 3 and len(count) >= 2


def title_agrees(number: ChapterNumber, words: str) -> bool:
    """Whether words beside "Chapter 32" share a word with that chapter's title, so that it is an ATA
    chapter."""
    if not is_chapter(number.chapter):
        return False
    title = set(re.findall(r"[a-z]{3,}", chapter_title(number.chapter).lower())) - _COMMON_TITLE_WORDS
    said = set(re.findall(r"[a-z]{3,}", words.lower()))
    return any(_same_word(one, other) for one in title for other in said)


def _same_word(one: str, other: str) -> bool:
    return one == other or (min(len(one), len(other)) >= 4 and one.rstrip("s") == other.rstrip("s"))


def _own(number: EdgeNumber) -> bool:
    form = number.found.form
    if form in ("chapter-section-subject", "task", "figure-item", "ata chapter words"):
        return True
    if form == "chapter-section":
        return (
            number.segment.text.strip() != number.found.text
        )  # alone it may be a page of the manual's own order
    return form == "chapter words" and title_agrees(number.found.number, number.column)


def _evidence(page: Page, segment: Segment, rule: str) -> Evidence:
    return printed_evidence(page, segment.box, rule, one_line(segment.text))


def _date_like(page: Page, dates: frozenset[str]) -> Iterator[Tag[ChapterNumber]]:
    for zone, lines in (("foot", page.foot), ("head", page.head)):
        for segment in (segment for line in lines for segment in segments(line)):
            for found in _DATE_LIKE.finditer(segment.text):
                alone = len(segment.text) - len(found[0]) <= 12
                if (
                    alone
                    and found[0] not in dates
                    and is_chapter(found[1])
                    and not speaks_of_another(segment.text)
                ):
                    number = ChapterNumber(*found.groups())
                    yield Tag(number, _evidence(page, segment, f"number in {zone}, as on other pages"))


def _prints_own_order(page: Page) -> bool:
    if _OWN_PAGE.fullmatch(plain(page.printed_page).strip()):
        return True
    lines = [plain(one_line(line.text)) for line in (*page.head, *page.foot)]
    return any(
        _OWN_SECTION.match(line) or _OWN_PAGE.fullmatch(line.removeprefix("Page ").strip()) for line in lines
    )
