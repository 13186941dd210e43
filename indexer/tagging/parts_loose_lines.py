"""Lines of a parts list that stand in no table that could be read: its heads are strange, misread, or none.

The promise is that no row is lost silently. Such a line becomes a row that is flagged: its columns could not
be told apart. It needs a part number, the place of a row (a page that shows a figure, or several lines of one
make), and the form of one: item, number and name, not a sentence. Front pages, indexes and lists of other
things hold part numbers as well and no rows. Common practice of parts catalogs, no source.
"""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from indexer.reading.page import Page
from indexer.tagging.parts_columns import Columns
from indexer.tagging.parts_figures import FigureLine, read_figure_line
from indexer.tagging.parts_grid import GridRow, GridTable
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_heads import Head, TableHead
from indexer.tagging.parts_lines import PlacedWord, PrintedRow
from indexer.tagging.parts_loose_forms import (
    SAME_COLUMN,
    LooseLine,
    halves,
    line_cells,
    number_columns,
    read_line,
)
from indexer.tagging.parts_loose_words import (
    closes_lists,
    is_divided_number,
    is_number,
    is_sentence,
    is_units,
    opens_front_page,
    page_of_front,
)
from indexer.tagging.parts_rows import PartsRow, RowFlag
from indexer.tagging.parts_tree import read_mark

_NEXT_LINE = 1.9  # times its height: a line that stands closer under a row may go on with it
_APART = 2.2  # times its height: a title stands so far from the row above it
_TITLE_WORDS = 8  # and no more
_FIGURE_NAMED = re.compile(
    r"(?:^|  )\s*(?:IPL\s+)?(?:FIGURE|FIG\.?|PLATE)\s*(?:NO\.?\s*)?[0-9]", re.IGNORECASE
)
_FEWEST_NUMBERS = 3  # words with the shape of part numbers, of a page that is worth a look
_NO_COLUMNS = Columns((Head(Column.OTHER, "", 0.0, 0.0),), (), (None,))  # the whole line is one


@dataclass(slots=True)
class LooseRow(GridRow):
    """A printed line taken for a row, and the lines that go on with it. Its cells are only what is plain."""

    @property
    def quote(self) -> str:
        """The words as printed, from left to right."""
        lines = ([word for words in line.values() for word in words] for line in self.lines)
        return " ".join(word.text for line in lines for word in sorted(line, key=lambda each: each.box.x0))


def may_hold_rows(page: Page) -> bool:
    """Quick look: whether the page has several words with the shape of part numbers."""
    found = 0
    for line in page.body:
        found += any(is_number(word.text) for word in line.words)
        if found >= _FEWEST_NUMBERS:
            return True
    return False


def first_listed(pages: Sequence[Page]) -> int:
    """1-based page that names the first figure behind the front matter; where none does, the first page."""
    for page in pages:
        lines = [line.text for line in (*page.head, *page.body, *page.foot)]
        named = any(_FIGURE_NAMED.search(text) for text in lines)
        if named and not (page_of_front(page.printed_page) or any(map(opens_front_page, lines[:6]))):
            return page.pdf_page
    return pages[0].pdf_page if pages else 0


def is_front(page: Page, rows: Sequence[PrintedRow]) -> bool:
    """Whether a page explains or lists other things: introduction, sample of a list, contents, index."""
    if page_of_front(page.printed_page):
        return True
    titles = [row.text for row in [row for row in rows if not row.margin][:2] if len(row.pieces) == 1]
    return any(opens_front_page(text) for text in (*titles, *_running(rows)))


def _running(rows: Sequence[PrintedRow]) -> list[str]:
    """What head and foot say; more than two pieces beside one another may be column heads."""
    return [piece.text for row in rows if row.margin and len(row.pieces) < 3 for piece in row.pieces]


def loose_tables(
    pdf_page: int,
    rows: Sequence[PrintedRow],
    tables: Sequence[GridTable],
    other_lists: Collection[int],
    shown: Sequence[FigureLine],
) -> list[GridTable]:
    """Rows of the page outside its tables, as tables without heads: one for each stretch between those.

    tables       that were read on the page
    other_lists  0-based places of heads of lists of other things: what stands under them is none of ours
    shown        names of figures on the page; without one, and without a table, only a run counts
    """
    taken = {
        id(word)
        for table in tables
        for row in (*table.rows, *([table.goes_on] if table.goes_on else ()))
        for line in row.lines
        for words in line.values()
        for word in words
    }
    heads = {place for table in tables for place in range(table.head.first, table.head.last + 1)}
    free = [
        row
        for place, row in enumerate(rows)
        if place in other_lists or (place not in heads and not any(id(word) in taken for word in row.words))
    ]
    closing = {id(rows[place]) for place in other_lists}
    lines = _lines(free, closing)
    columns = number_columns(lines)
    if columns:
        lines = _lines(free, closing, columns)
    if not (shown or tables or columns):
        return []
    found = _rows(pdf_page, free, lines, columns)
    bounds = sorted(table.top for table in tables)
    made: dict[int, GridTable] = {}
    for top, row in found:
        place = sum(bound < top for bound in bounds)
        if place not in made:
            made[place] = GridTable(TableHead((), -1, -1), _NO_COLUMNS, top, [], headless=True)
        made[place].rows.append(row)
    return [table for table in made.values() if any(row.mark is None for row in table.rows)]


def as_loose(row: PartsRow) -> PartsRow:
    """The row without a depth: what the place of its name shows is not known to be one."""
    return replace(row, indenture=None)


def _lines(
    rows: Sequence[PrintedRow], closing: Collection[int], columns: Sequence[float] = ()
) -> list[LooseLine]:
    """The lines with the form of a row, not those under a title of another list.

    columns  where the numbers of a run begin: behind an item, any word with a figure in it is a number there
    """
    found: list[LooseLine] = []
    closed = False
    above: PrintedRow | None = None
    for row in rows:
        if row.margin:
            continue
        if id(row) in closing or _is_closing(row, above):
            closed = True
        elif read_figure_line(row.text) is not None:
            closed = False
        elif not closed:
            mine = [line for part in halves(row, columns) if (line := read_line(row, part, columns))]
            found += mine
            above = row if mine else above
    return found


def _is_closing(row: PrintedRow, above: PrintedRow | None) -> bool:
    """Whether a line is the title of another list. Close under a row it may be the end of a long name."""
    near = above is not None and row.middle - above.middle <= _APART * (row.bottom - row.top)
    is_title = len(row.pieces) == 1 and len(row.words) <= _TITLE_WORDS
    return is_title and not near and closes_lists(row.text)


def _rows(
    pdf_page: int, free: Sequence[PrintedRow], lines: Sequence[LooseLine], columns: Sequence[float]
) -> list[tuple[float, GridRow]]:
    """(top, row) of every line, mark and wrapped name, in printed order."""
    by_row: dict[int, list[LooseLine]] = {}
    for line in lines:
        by_row.setdefault(id(line.row), []).append(line)
    found: list[tuple[float, GridRow]] = []
    last: LooseRow | None = None
    below = 0.0
    for row in free:
        if last is not None and _ends_number(row, last, below):
            last.add(_cells_below(row, last), pdf_page)
        elif mine := by_row.get(id(row)):
            for line in mine:
                last = LooseRow([line_cells(line, columns)], [pdf_page], flags=[RowFlag.COLUMNS])
                found.append((row.top, last))
            last = last if len(mine) == 1 else None
        elif (mark := read_mark(row.text)) is not None:
            found.append((row.top, GridRow([{Column.OTHER: row.words}], [pdf_page], mark)))
            last = None
        elif last is not None and _goes_on(row, last, below):
            last.add(_cells_below(row, last), pdf_page)
        else:
            last = None
        below = row.middle
    for _, each in found:
        _give_up_half(each)
    return found


def _ends_number(row: PrintedRow, last: LooseRow, below: float) -> bool:
    """Whether a line begins with the rest of the number above it, which is divided after a hyphen."""
    number = last.words(Column.PART_NUMBER)
    if not number or not is_divided_number(number[-1].text) or not _goes_on(row, last, below):
        return False
    return abs(row.pieces[0].x0 - number[0].box.x0) <= SAME_COLUMN


def _give_up_half(row: GridRow) -> None:
    """A number whose rest is not found is no number."""
    number = row.words(Column.PART_NUMBER)
    if number and is_divided_number(number[-1].text):
        for line in row.lines:
            line.setdefault(Column.OTHER, []).extend(line.pop(Column.PART_NUMBER, []))


def _goes_on(row: PrintedRow, last: LooseRow, below: float) -> bool:
    """Whether a line goes on with the name or the divided number of the row above it."""
    if row.margin or row.middle - below > _NEXT_LINE * (row.bottom - row.top):
        return False
    number = (last.words(Column.PART_NUMBER) or last.words(Column.OTHER))[0].box.x0
    return (
        len(row.pieces) <= 2
        and row.pieces[0].x0 >= number - SAME_COLUMN
        and not is_sentence([word.text for word in row.words])
    )


def _cells_below(row: PrintedRow, last: LooseRow) -> dict[Column, list[PlacedWord]]:
    """The words of a line that goes on with a row: the rest of its number, its name, its units."""
    number = last.words(Column.PART_NUMBER)
    cells: dict[Column, list[PlacedWord]] = {}
    for word in row.words:
        kind = Column.NOMENCLATURE
        if (
            number
            and is_divided_number(number[-1].text)
            and abs(word.box.x0 - number[0].box.x0) <= SAME_COLUMN
        ):
            kind = Column.PART_NUMBER
        elif word is row.words[-1] and len(row.pieces) > 1 and is_units(word.text):
            kind = Column.UNITS
        cells.setdefault(kind, []).append(word)
    return cells
