"""A printed contents page -> its entries, and the page of the file that each of them means.

Contents pages are told by their heading and by lines that end in a page number, after leaders or in a column
of their own. An entry means the page that prints its number and bears its heading; several pages may print
one figure (each appendix of a circular begins again at 1), and a page may print none.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.page import Line, Page
from indexer.tagging.flow import one_line, plain
from indexer.trade.evidence import Box
from indexer.trade.own_numbers import roman_value

_HEADING = re.compile(r"(?:table\s+of\s+)?contents\b|index\s+of\s+(?:sections|chapters)\b", re.IGNORECASE)
_LIST_HEADING = re.compile(r"list\s+of\s+(?:figures|illustrations|tables|plates)\b", re.IGNORECASE)
_PAGE = r"(?:[0-9]{1,4}(?:-[0-9]{1,4})?[A-Z]?|[A-Z]{1,2}-[0-9]{1,3}|[ivxl]{1,7}|[IVXL]{1,7}(?:-[0-9]{1,3})?)"
_LED = re.compile(rf"(?P<title>\S.*?)\s*\.(?:\s?\.){{2,}}\s*(?P<page>{_PAGE})(?=\s|$)")
_LEADER = re.compile(r"\.\s?\.")
_LAST_PAGE = re.compile(_PAGE)
_NUMBERED = re.compile(
    r"(?P<number>(?:(?:chapter|section|appendix|figure|table|part|group|plate)\s+)(?:[IVXL]+|[0-9A-Z]+)(?:[-.][0-9A-Z]+)*"
    r"|[IVXL]+(?=[.\s])|[0-9]+(?:[-.][0-9]+)*[A-Z]?)\s*[.:-]*(?:\s+|$)(?P<title>.*)",
    re.IGNORECASE,
)
_NOTE_BEHIND = re.compile(r"\s*\((?:\d+\s+pages?|cont\S*|continued)\)\s*$", re.IGNORECASE)
_COLUMN_HEADS = frozenset("chapter group no number page paragraph part plate section subject title".split())
_LEAST_ENTRIES = 2
_LEAST_SHARE = 0.5  # of a page's lines that are entries, for a contents page that goes on from the one before
_GAP = 1.8  # of the line's height: space before a page number that stands in a column of its own


@dataclass(frozen=True, slots=True)
class ContentsEntry:
    """One line of a contents page, wrapped lines joined.

    number    as printed, with its word: "V", "5-12", "2.1", "CHAPTER 1", "Figure 2-1"; "" = none
    page      the page it names, as printed: "7", "iv", "5-3", "A-1"
    pdf_page  of the contents page, 1-based; box in points there
    """

    number: str
    title: str
    page: str
    pdf_page: int
    box: Box
    quote: str


@dataclass(frozen=True, slots=True)
class EntryTarget:
    """The page an entry means. `prints`: it prints the page number named; `heading`: the line that bears the
    entry's title, "" when none was found."""

    pdf_page: int
    prints: bool
    heading: str


def contents_pages(pages: Sequence[Page]) -> tuple[Page, ...]:
    """The pages of a work that print its contents, with those on which they go on, in page order."""
    found: list[Page] = []
    for page in pages:
        tops = [plain(line.text).strip() for line in (*page.head, *page.body[:4])]
        follows = bool(found) and found[-1].pdf_page == page.pdf_page - 1
        headed = any(map(_HEADING.match, tops))
        if not (headed or follows):
            continue
        entries = len(tuple(_entries(page)))
        mostly = entries >= _LEAST_SHARE * len(page.body) or any(map(_LIST_HEADING.match, tops))
        if entries >= _LEAST_ENTRIES and (headed or mostly):
            found.append(page)
    return tuple(found)


def contents_entries(pages: Sequence[Page]) -> tuple[ContentsEntry, ...]:
    """Every entry of the contents pages among `pages`, in the order printed."""
    return tuple(entry for page in contents_pages(pages) for entry in _entries(page))


def resolve_entry(entry: ContentsEntry, pages: Sequence[Page]) -> EntryTarget | None:
    """The page of the file that an entry means; None when no page prints its number or bears its heading."""
    return resolve_entries([entry], pages)[0]


def resolve_entries(
    entries: Sequence[ContentsEntry], pages: Sequence[Page]
) -> tuple[EntryTarget | None, ...]:
    """As `resolve_entry`, for all entries of a work at once.

    A page that prints the number named and bears the heading wins; then the only page that prints it beside
    the entry's own number, or at all; then, of the pages without a number, the only one that bears the
    heading. A page that prints no number has the one that its neighbours leave to it.
    """
    contents = {page.pdf_page for page in contents_pages(pages)}
    texts = [_PageText(page) for page in pages if page.pdf_page not in contents]
    counted = _counted_pages([text.page for text in texts])
    return tuple(_target(entry, texts, counted) for entry in entries)


class _PageText:
    """A page's lines as bare words, for comparing."""

    def __init__(self, page: Page):
        self.page = page
        self.lines = [_words(line.text) for line in page.body]
        self.running = f" {' '.join(_words(line.text) for line in (*page.head, *page.foot))} "

    def heading(self, entry: ContentsEntry) -> str:
        """The line that bears the entry's title; "" when none does.

        A heading may be wrapped over three lines, run on into its paragraph, or stand under a line that holds
        its number alone. A title of one word and no number must be the whole line.
        """
        title, number = _words(_NOTE_BEHIND.sub("", entry.title)), _words(entry.number)
        for place, first in enumerate(self.lines if title else []):
            joined = " ".join(self.lines[place : place + 3])
            if not (joined.startswith(title) or (number and joined.startswith(f"{number} {title}"))):
                continue
            line = self.page.body[place]
            count = title.count(" ")
            long = count >= 2 or (count == 1 and line.heading_level > 0)
            if joined.startswith(f"{number} ") or first == title or long:
                return one_line(line.text)
        return ""

    def names(self, entry: ContentsEntry) -> bool:
        """Whether the running lines hold the entry's own number."""
        return bool(entry.number) and f" {_words(entry.number)} " in self.running


def _target(
    entry: ContentsEntry, texts: Sequence[_PageText], counted: dict[int, tuple[str, int]]
) -> EntryTarget | None:
    behind = [text for text in texts if text.page.pdf_page > entry.pdf_page]
    named = _page_key(entry.page)
    printing = [text for text in behind if counted.get(text.page.pdf_page) == named]
    for text in printing:
        heading = text.heading(entry)
        if heading:
            return EntryTarget(text.page.pdf_page, True, heading)
    for only in ([text for text in printing if text.names(entry)], printing):
        if len(only) == 1:
            return EntryTarget(only[0].page.pdf_page, True, "")
    silent = [text for text in behind if text.page.pdf_page not in counted]
    titled = [(text, heading) for text in silent if (heading := text.heading(entry))]
    if len(titled) == 1:
        return EntryTarget(titled[0][0].page.pdf_page, False, titled[0][1])
    return None


def _entries(page: Page) -> Iterator[ContentsEntry]:
    """The entries of one page; a line without a page number is joined to the next that goes on from it."""
    right = max((line.box.x1 for line in page.body), default=0.0)
    column = _page_column(page.body)
    begun: Line | None = None
    for line in page.body:
        text = plain(line.text)
        led = _LED.finditer(text) if _LEADER.search(text) else ()
        parts = [(match["title"], match["page"]) for match in led]
        if not parts and column:
            parts = _set_apart(line, column)
        if not parts:
            begun = line
            continue
        text, box = parts[0][0], line.box
        if begun and _goes_on(begun, line, right):
            text, box = f"{one_line(plain(begun.text))} {text}", box.union(begun.box)
        for title, named in ((text, parts[0][1]), *parts[1:]):
            if not {word.strip(".").lower() for word in title.split()} <= _COLUMN_HEADS:
                yield _entry(title, named, page.pdf_page, box, line)
        begun = None


def _entry(text: str, named: str, pdf_page: int, box: Box, line: Line) -> ContentsEntry:
    match = _NUMBERED.fullmatch(text.strip())
    number, title = (match["number"], match["title"]) if match and match["title"] else ("", text)
    return ContentsEntry(number, title.strip(" ."), named, pdf_page, box, one_line(line.text))


def _goes_on(begun: Line, line: Line, right: float) -> bool:
    """Whether an entry begun on one line ends on the next: it had no room, or its number stands apart."""
    text = plain(begun.text).strip()
    if abs(begun.box.top - line.box.top) < begun.box.height / 2:
        return _NUMBERED.fullmatch(f"{text} x") is not None and begun.box.x1 <= line.box.x0
    if line.box.top - begun.box.bottom > 1.5 * line.box.height or begun.box.x1 < 0.6 * right:
        return False
    hangs = line.box.x0 > begun.box.x0 + 4
    return hangs or (_NUMBERED.fullmatch(text) is not None and not _NUMBERED.match(plain(line.text)))


def _page_column(lines: Sequence[Line]) -> tuple[float, ...]:
    """Where page numbers set apart from titles stand: the edges that three of them share; () = nowhere."""
    ends = [line.words[-1].box for line in lines if _apart(line)]
    edges = [edge for box in ends for edge in (box.x0, box.x1)]
    return tuple(edge for edge in edges if sum(abs(edge - other) < 3 for other in edges) >= 3)


def _set_apart(line: Line, column: Sequence[float]) -> list[tuple[str, str]]:
    if not _apart(line):
        return []
    last = line.words[-1].box
    if not any(abs(edge - last.x0) < 3 or abs(edge - last.x1) < 3 for edge in column):
        return []
    return [(plain(" ".join(word.text for word in line.words[:-1])), plain(line.words[-1].text))]


def _apart(line: Line) -> bool:
    """Whether a line ends in a page number with space before it and a title before that."""
    if len(line.words) < 2 or not _LAST_PAGE.fullmatch(plain(line.words[-1].text)):
        return False
    before, last = line.words[-2].box, line.words[-1].box
    return last.x0 - before.x1 > _GAP * line.box.height and any(c.isalpha() for c in line.words[-2].text)


def _counted_pages(pages: Sequence[Page]) -> dict[int, tuple[str, int]]:
    """Per pdf page the number it prints, or the one its printed neighbours leave to it."""
    keys = {page.pdf_page: _page_key(page.printed_page) for page in pages if page.printed_page}
    counted = {number: key for number, key in keys.items() if key}
    taken = set(counted.values())
    known = dict(counted)
    for order, step in ((pages, 1), (tuple(reversed(pages)), -1)):
        last: tuple[int, tuple[str, int]] | None = None
        for page in order:
            if page.pdf_page in known:
                last = (page.pdf_page, known[page.pdf_page])
            elif last and not page.printed_page and abs(page.pdf_page - last[0]) == 1:
                key = (last[1][0], last[1][1] + step)
                last = None if key in taken or key[1] < 1 else (page.pdf_page, key)
                if last and page.pdf_page not in counted:
                    counted[page.pdf_page] = key
            else:
                last = None
    return counted


def _page_key(printed: str) -> tuple[str, int] | None:
    """A printed page number for comparison: what stands before its last figures, and those; None = no number.

    The span "1-6", where pages are plain figures, is not told from page 6 of section 1.
    """
    text = plain(printed).strip().upper().removeprefix("PAGE ")
    match = re.fullmatch(r"(?P<before>.*?)(?P<figures>[0-9]+)", text)
    if match:
        return match["before"], int(match["figures"])
    value = roman_value(text)
    return None if value is None else ("roman", value)


def _words(text: str) -> str:
    """Letters and figures alone, in small letters, for comparing a title with a heading."""
    return " ".join(re.findall(r"[a-z0-9]+", plain(text).casefold()))
