"""Running heads and feet told from the body: by repetition on neighbouring pages, else by place and form."""

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

from indexer.reading.printed_page import is_page_line
from indexer.reading.rows import Run
from indexer.reading.sheets import Sheet

Row = Sequence[Run]

_ZONE = 0.14  # of the page's height, at the top and at the bottom
_MOST_ROWS = 7  # of one head or foot
_WINDOW = 8  # pages to either side in which a line must come back
_RETURNS = 2  # other pages on which it must come back; in a file of two or three pages one is enough
_SHORT_FILE = 3  # pages
_SAME_HEIGHT = 5.0  # points
_MOST_CHARACTERS = 150  # of a running line
_SHARE = 0.5  # of a row's characters that must come back
_MOST_COHERING = 2  # rows that do not come back, inside those that do
_CLOSE = 0.5  # times the row's height: white between rows that belong together
_MARKS = ("R", "|")
_MARK_CLEAR = 4.0  # points between a revision mark and the text
_WORDS_OF_TEXT = 4  # a run of this many words is text
_FORM_ZONE = 0.12  # of the page's height, for heads and feet known by their form alone
_FORM_MOST_ROWS = 6
_FORM_MOST_WORDS = 40
_CLEAR = 1.2  # times the row's height: the white between a foot known by its form and the body
_NEXT_RUNNING = 1.2  # times the row's height: white between two rows of one head or foot, at most
_CELLS = 4  # of a row; a head or foot of so many parts is hardly ever two rows deep
_ALIGNED = 3  # of them that begin where a cell of the next row begins
_SAME_START = 3.0  # points
_NUMBERS_CLEAR = 0.6  # the same for a row of numbers only, which could be the last row of a table

_VARIES = re.compile(
    r"\b(?:jan|feb|mar|apr|may|jun|jul|aug|sep|sept|oct|nov|dec)[a-z]*\b|\b[ivxlc]+\b|\d+(?:[.,]\d+)*",
    re.IGNORECASE,
)
_NEVER = re.compile(r"\s*(?:WARNING|CAUTION|NOTE)\b[:\s]*")


@dataclass(slots=True)
class Margins:
    """What stands round the text of one sheet, top to bottom. `marks` are revision marks beside the text."""

    head: list[Row] = field(default_factory=list)
    foot: list[Row] = field(default_factory=list)
    marks: list[Row] = field(default_factory=list)


def running_rows(sheets: Sequence[Sheet], page_count: int) -> list[Margins]:
    """The running head and foot of each sheet of a file; `sheets` in page order."""
    zones = [(_zone_rows(sheet, head=True), _zone_rows(sheet, head=False)) for sheet in sheets]
    places = _places(sheets, zones)
    needed = 1 if page_count <= _SHORT_FILE else _RETURNS
    margins = []
    for sheet, (head, foot) in zip(sheets, zones, strict=True):
        found = Margins(
            head=_running(sheet, head, True, places, needed),
            foot=list(reversed(_running(sheet, foot, False, places, needed))),
        )
        # In a short file two pages with one line each look like two heads over nothing.
        is_all = len(found.head) + len(found.foot) >= len(sheet.rows)
        if is_all and page_count <= _SHORT_FILE:
            found = Margins()
        found.marks = _revision_marks(sheet)
        margins.append(found)
    return margins


def _revision_marks(sheet: Sheet) -> list[Row]:
    """Each "R" or bar that stands by itself outside the text, as a row. Common practice, no source."""
    text = [run for run in sheet.runs if len(run.words) >= _WORDS_OF_TEXT]
    if not text:
        return []
    left, right = min(run.x0 for run in text), max(run.x1 for run in text)
    return [
        [run]
        for run in sheet.runs
        if run.text in _MARKS and (run.x1 < left - _MARK_CLEAR or run.x0 > right + _MARK_CLEAR)
    ]


def _zone_rows(sheet: Sheet, head: bool) -> list[Row]:
    """The rows of the margin, from the page's edge inward."""
    if head:
        rows = [row for row in sheet.rows[:_MOST_ROWS] if row[0].middle < _ZONE * sheet.height]
    else:
        rows = [row for row in sheet.rows[-_MOST_ROWS:] if row[0].middle > (1 - _ZONE) * sheet.height]
        rows.reverse()
    return rows


_Places = dict[tuple[bool, str], list[tuple[int, float]]]


def _places(sheets: Sequence[Sheet], zones: Sequence[tuple[list[Row], list[Row]]]) -> _Places:
    """Where each pattern of a margin run stands: (pdf_page, distance from that edge of the page)."""
    places: _Places = defaultdict(list)
    for sheet, (head, foot) in zip(sheets, zones, strict=True):
        for is_head, rows in ((True, head), (False, foot)):
            for row in rows:
                for run in row:
                    places[is_head, _pattern(run.text)].append((sheet.pdf_page, _depth(sheet, run, is_head)))
    return places


def _pattern(text: str) -> str:
    """The text with what changes from page to page (numbers, months, roman numerals) taken out."""
    return _VARIES.sub("#", text.casefold())


def _depth(sheet: Sheet, run: Run, head: bool) -> float:
    return run.middle if head else sheet.height - run.middle


def _running(sheet: Sheet, rows: list[Row], head: bool, places: _Places, needed: int) -> list[Row]:
    """The rows of the margin that run, from the edge inward: up to the innermost one that comes back."""
    last = -1
    for index, row in enumerate(rows):
        if _comes_back(sheet, row, head, places, needed) and not _may_be_table(sheet, row, rows, index, head):
            if head and last >= 0 and _is_heading_of_body(sheet, rows, last, index):
                break
            last = index
    if last < 0:
        return _by_form(sheet, rows, head)
    return rows[: _cohering(sheet, rows, last, head) + 1]


def _cohering(sheet: Sheet, rows: list[Row], last: int, head: bool) -> int:
    """The innermost row that belongs to the head or foot ending at `last`: close to it, apart from the body.

    So a page number of a form of its own ("Page T-1" over a date that runs) stays with its foot.
    """
    for index in range(last + 1, min(last + 1 + _MOST_COHERING, len(rows))):
        if _white(rows[index - 1], rows[index]) > _CLOSE * _height(rows[index]):
            break
        inner = _next_inward(sheet, rows, index, head)
        if inner is not None and _white(rows[index], inner) >= _CLEAR * _height(rows[index]):
            return index
    return last


def _comes_back(sheet: Sheet, row: Row, head: bool, places: _Places, needed: int) -> bool:
    characters = returning = 0
    for run in row:
        text = run.text
        characters += len(text)
        if len(text) <= _MOST_CHARACTERS and not _NEVER.match(text):
            depth = _depth(sheet, run, head)
            pages = {
                page
                for page, other in places[head, _pattern(text)]
                if page != sheet.pdf_page
                and abs(page - sheet.pdf_page) <= _WINDOW
                and abs(other - depth) <= _SAME_HEIGHT
            }
            returning += len(text) if len(pages) >= needed else 0
    return returning >= _SHARE * characters


def _is_heading_of_body(sheet: Sheet, rows: list[Row], last: int, index: int) -> bool:
    """Whether a row is a numbered heading ("12.4 Tests") that happens to open several pages.

    It comes back like a running head and names no page, but stands nearer to the body than to the head, or
    under a title that stands apart from the head and does not come back ("SECTION 5. LANDING GEAR").
    `last` is the innermost row known to run.
    """
    row, outer = rows[index], rows[index - 1]
    texts = [run.text for run in row]
    if not any(map(_VARIES.search, texts)) or is_page_line(texts, lone=True):
        return False
    title = rows[last + 1]
    if index > last + 1 and _white(rows[last], title) > _NEXT_RUNNING * _height(title):
        return True
    inner = _next_inward(sheet, rows, index, head=True)
    above = _white(outer, row)
    return above > _NEXT_RUNNING * _height(row) and inner is not None and _white(row, inner) < above


def _may_be_table(sheet: Sheet, row: Row, rows: list[Row], index: int, head: bool) -> bool:
    """Whether the row stands so close to the next that both may be rows of one table.

    Either it holds numbers only, or both have many cells that begin at the same places.
    """
    inner = _next_inward(sheet, rows, index, head)
    if inner is None:
        return False
    if len(row) >= _CELLS and _white(row, inner) < _NEXT_RUNNING * _height(row):
        starts = [run.x0 for run in inner]
        aligned = sum(any(abs(run.x0 - start) <= _SAME_START for start in starts) for run in row)
        if aligned >= _ALIGNED:
            return True
    if any(character.isalpha() for run in row for character in run.text):
        return False
    return _white(row, inner) < _NUMBERS_CLEAR * _height(row)


def _by_form(sheet: Sheet, rows: list[Row], head: bool) -> list[Row]:
    """Rows at the edge, parted from the body by white, one of which names the page."""
    found: list[Row] = []
    block: list[Row] = []
    named = False
    for index, row in enumerate(rows[:_FORM_MOST_ROWS]):
        block.append(row)
        if sum(len(run.words) for each in block for run in each) > _FORM_MOST_WORDS:
            break
        if _depth(sheet, row[0], head) > _FORM_ZONE * sheet.height:
            break
        # A number alone is a page number at the foot; at the top only where nothing stands above it.
        named = named or is_page_line([run.text for run in row], lone=not head or index == 0)
        inner = _next_inward(sheet, rows, index, head)
        if named and inner is not None and _white(row, inner) >= _CLEAR * _height(row):
            found = list(block)
            named = False  # further rows belong to it only if they name a page too
    return found


def _next_inward(sheet: Sheet, rows: list[Row], index: int, head: bool) -> Row | None:
    if index + 1 < len(rows):
        return rows[index + 1]
    position = index + 1 if head else len(sheet.rows) - index - 2
    return sheet.rows[position] if 0 <= position < len(sheet.rows) else None


def _white(one: Row, two: Row) -> float:
    """Points of white between two rows."""
    upper, lower = (one, two) if one[0].middle < two[0].middle else (two, one)
    return min(run.top for run in lower) - max(run.bottom for run in upper)


def _height(row: Row) -> float:
    return max(run.height for run in row)
