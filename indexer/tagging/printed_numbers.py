"""Chapter-section-subject numbers a page prints of itself, in foot, head or data module code, and whether to trust them.

A number in running text is a reference to another page and is never taken here.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from indexer.reading.page import Page, TextState
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.trade.chapters import ChapterNumber, FoundNumber, chapter_title, find_numbers, is_chapter
from indexer.trade.evidence import Tag

_OF_ANOTHER = re.compile(r"\b(?:see|refer|per|supersedes?|replaces?|cancels?|dated|effective|accordance)\b", re.IGNORECASE)
_DATE_LIKE = re.compile(r"(?<![\w/.-])(\d{2})-(\d{2})-(\d{2})(?![\w/-])")
_OWN_PAGE = re.compile(r"(?:\d{1,2}|[IVX]{1,5}|[A-Z])-\d{1,3}[A-Z]?")
_OWN_SECTION = re.compile(r"^\W*section\s+(?:[IVX]{1,5}|\d{1,2})\b", re.IGNORECASE)
_LEAST_OWN_PAGES = 3
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
    for zone, lines in (("foot", page.foot), ("head", page.head)):
        for tag in _in_zone(page, zone, lines):
            if all(tag.value != other.value for other in found):
                found.append(tag)
    if not found and trust_dates:
        found.extend(_date_like(page, date_columns))
    return found


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


def _in_zone(page: Page, zone: str, lines: Sequence) -> Iterator[Tag[ChapterNumber]]:
    text = plain_zone(lines)
    starts = _line_starts(lines)
    for found in find_numbers(text):
        place = max(index for index, start in enumerate(starts) if start <= found.start)
        line = lines[place]
        if not _own(found, text, plain(line.text)):
            continue
        printed = PrintedLine(page.pdf_page, line, page.origin)
        yield Tag(found.number, printed.evidence(f"number in {zone}"))


def plain_zone(lines: Sequence) -> str:
    """Head or foot lines as one text, a line a line."""
    return "\n".join(plain(line.text) for line in lines)


def _line_starts(lines: Sequence) -> list[int]:
    starts, place = [], 0
    for line in lines:
        starts.append(place)
        place += len(line.text) + 1
    return starts


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
        for found in find_numbers(plain_zone(lines)):
            if found.form in ("chapter-section-subject", "task", "figure-item") and found.number.subject is not None:
                yield found.number


def _date_like(page: Page, dates: frozenset[str]) -> Iterator[Tag[ChapterNumber]]:
    for zone, lines in (("foot", page.foot), ("head", page.head)):
        for line in lines:
            text = plain(one_line(line.text))
            for found in _DATE_LIKE.finditer(text):
                alone = len(text) - len(found[0]) <= 12
                if alone and found[0] not in dates and is_chapter(found[1]) and not _OF_ANOTHER.search(text):
                    number = ChapterNumber(*found.groups())
                    printed = PrintedLine(page.pdf_page, line, page.origin)
                    yield Tag(number, printed.evidence(f"number in {zone}, as on other pages"))


def _prints_own_order(page: Page) -> bool:
    if _OWN_PAGE.fullmatch(plain(page.printed_page).strip()):
        return True
    lines = [plain(one_line(line.text)) for line in (*page.head, *page.foot)]
    return any(_OWN_SECTION.match(line) or _OWN_PAGE.fullmatch(line.removeprefix("Page ").strip()) for line in lines)
