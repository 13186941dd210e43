"""Lines of a parts list that stand in no table that could be read: its heads are strange, misread, or none.

The promise is that no row is lost silently. Such a line becomes a row that is flagged: its columns could not
be told apart. It needs a part number, the place of a row (a page that shows a figure, or several lines of one
make), and the form of one: item, number and name, not a sentence. Front pages, indexes and lists of other
things hold part numbers as well and no rows. Common practice of parts catalogs, no source.
"""

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from indexer.reading.page import Page
from indexer.tagging.parts_columns import Columns
from indexer.tagging.parts_figures import FigureLine, read_figure_line
from indexer.tagging.parts_grid import GridRow, GridTable
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_heads import Head, TableHead
from indexer.tagging.parts_lines import Piece, PlacedWord, PrintedRow
from indexer.tagging.parts_loose_words import (
    closes_lists,
    is_item,
    is_name,
    is_number,
    is_sentence,
    is_short_number,
    is_units,
    opens_front_page,
    page_of_front,
)
from indexer.tagging.parts_rows import PartsRow, RowFlag
from indexer.tagging.parts_tree import read_mark

_FEWEST_OF_A_RUN = 4  # lines with their numbers under one another: a list, whatever stands over it
_SAME_COLUMN = 4.0  # points
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


@dataclass(slots=True)
class _Line:
    """A printed line, or the half of one, that has the form of a row. number: of its words, the first that
    is a part number; alone: nothing but an item stands in one piece with it."""

    row: PrintedRow
    words: list[PlacedWord]
    number: int
    alone: bool

    @property
    def x0(self) -> float:
        return self.words[self.number].box.x0


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
    titles = [row.text for row in rows if not row.margin][:2]
    return any(opens_front_page(text) for text in (*titles, *_running(rows)))


def _running(rows: Sequence[PrintedRow]) -> list[str]:
    return [piece.text for row in rows if row.margin for piece in row.pieces]


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
    column = _column(lines)
    if column is not None:
        lines = _lines(free, closing, column)
    if not (shown or tables) and column is None:
        return []
    found = _rows(pdf_page, free, lines, column)
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


def _lines(rows: Sequence[PrintedRow], closing: Collection[int], column: float | None = None) -> list[_Line]:
    """The lines with the form of a row, not those under a title of another list.

    column  where the numbers of a run begin: behind an item, any word with a figure in it is a number there
    """
    found: list[_Line] = []
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
            mine = [line for part in _halves(row) if (line := _line(row, part, column))]
            found += mine
            above = row if mine else above
    return found


def _is_closing(row: PrintedRow, above: PrintedRow | None) -> bool:
    """Whether a line is the title of another list. Close under a row it may be the end of a long name."""
    near = above is not None and row.middle - above.middle <= _APART * (row.bottom - row.top)
    return len(row.words) <= _TITLE_WORDS and not near and closes_lists(row.text)


def _halves(row: PrintedRow) -> Iterator[tuple[Piece, ...]]:
    """The pieces of a line, cut where an item and a number begin the row of a list beside it."""
    start, seen = 0, False
    for place, piece in enumerate(row.pieces):
        follows = place + 1 < len(row.pieces) and is_number(row.pieces[place + 1].text)
        if seen and follows and is_item(piece.text):
            yield row.pieces[start:place]
            start, seen = place, False
        seen = seen or is_number(piece.text)
    yield row.pieces[start:]


def _line(row: PrintedRow, pieces: Sequence[Piece], column: float | None) -> _Line | None:
    """The line when it has the form of a row: [item] number name, or [item] name number, [units]."""
    words = [word for piece in pieces for word in piece.words]
    texts = [word.text for word in words]
    number = next(
        (place for place in range(len(texts)) if is_number(texts[place], before=texts[:place])), None
    )
    if number is None and column is not None:
        number = _in_column(words, column)
    if number is None or is_sentence(texts):
        return None
    alone = any(
        piece.words[-1] is words[number] and all(is_item(word.text) for word in piece.words[:-1])
        for piece in pieces
    )
    before, after = texts[:number], texts[number + 1 :]
    if after and is_units(after[-1]):
        after = after[:-1]
    has_item = any(is_item(text) for text in before)
    if all(is_item(text) for text in before):
        named = is_name(after)
        fits = alone and (named or has_item) and (named or not after)
        return _Line(row, words, number, alone) if fits or (named and has_item) else None
    plain = [text for text in before if not is_item(text)]
    return _Line(row, words, number, alone) if alone and is_name(plain) else None


def _in_column(words: Sequence[PlacedWord], column: float) -> int | None:
    """Place of the short number that stands in the column behind an item ("KP6A"); None = none does."""
    for place, word in enumerate(words[1:], start=1):
        if abs(word.box.x0 - column) <= _SAME_COLUMN and is_short_number(word.text):
            return place if is_item(words[place - 1].text) else None
    return None


def _column(lines: Sequence[_Line]) -> float | None:
    """Where the numbers of a run of rows begin; None = no run."""
    best: list[float] = []
    starts = sorted(line.x0 for line in lines if line.alone or len(line.words) > 2)
    for start in starts:
        near = [x for x in starts if start <= x <= start + _SAME_COLUMN]
        best = max(best, near, key=len)
    return best[len(best) // 2] if len(best) >= _FEWEST_OF_A_RUN else None


def _rows(
    pdf_page: int, free: Sequence[PrintedRow], lines: Sequence[_Line], column: float | None
) -> list[tuple[float, GridRow]]:
    """(top, row) of every line, mark and wrapped name, in printed order."""
    by_row: dict[int, list[_Line]] = {}
    for line in lines:
        by_row.setdefault(id(line.row), []).append(line)
    found: list[tuple[float, GridRow]] = []
    last: LooseRow | None = None
    below = 0.0
    for row in free:
        if mine := by_row.get(id(row)):
            for line in mine:
                last = LooseRow([_cells(line, column)], [pdf_page], flags=[RowFlag.COLUMNS])
                found.append((row.top, last))
            last = last if len(mine) == 1 else None
        elif (mark := read_mark(row.text)) is not None:
            found.append((row.top, GridRow([{Column.OTHER: row.words}], [pdf_page], mark)))
            last = None
        elif last is not None and _goes_on(row, last, below):
            last.add({Column.NOMENCLATURE: row.words}, pdf_page)
        else:
            last = None
        below = row.middle
    return found


def _goes_on(row: PrintedRow, last: LooseRow, below: float) -> bool:
    """Whether a line goes on with the name of the row above it."""
    number = last.words(Column.PART_NUMBER) or last.words(Column.OTHER)
    close = row.middle - below <= _NEXT_LINE * (row.bottom - row.top)
    set_in = row.pieces[0].x0 > number[0].box.x0 + _SAME_COLUMN
    return not row.margin and len(row.pieces) <= 2 and close and set_in


def _cells(line: _Line, column: float | None) -> dict[Column, list[PlacedWord]]:
    """The words by column as far as they are plain. A number that stands with others under one another is
    told by that; another only when no second word of the line looks like one."""
    texts = [word.text for word in line.words]
    numbers = [place for place in range(len(texts)) if is_number(texts[place], before=texts[:place])]
    stands = column is not None and abs(line.x0 - column) <= _SAME_COLUMN
    beside = sum(_is_alone(line, place) for place in numbers)
    told = len(numbers) < 2 or (stands and line.alone and beside == 1)
    cells: dict[Column, list[PlacedWord]] = {}
    for place, word in enumerate(line.words):
        if place == line.number and told:
            kind = Column.PART_NUMBER
        elif place == 0 and line.number and is_item(word.text):
            kind = Column.ITEM
        elif place == len(texts) - 1 and place > line.number and is_units(word.text):
            kind = Column.UNITS if stands else Column.OTHER
        elif place in numbers and not told:
            kind = Column.OTHER
        else:
            kind = Column.NOMENCLATURE if place > line.number else Column.OTHER
        cells.setdefault(kind, []).append(word)
    return cells


def _is_alone(line: _Line, place: int) -> bool:
    """Whether a number is a piece of its own, with no more than an item before it."""
    return any(
        piece.words[-1] is line.words[place] and all(is_item(word.text) for word in piece.words[:-1])
        for piece in line.row.pieces
    )
