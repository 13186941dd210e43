"""A page's printed rows -> its parts tables: logical rows of cells, the marks between them.

A row begins where an item or a part number is printed. A line with a name alone goes on with the row above
it, one with a name and units ends it when it has no units yet. A line that fits nothing becomes a row of its
own, flagged. Common practice of illustrated parts catalogs.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from indexer.tagging.parts_centred import uncentred
from indexer.tagging.parts_columns import Columns, CutRow, cut_row, find_columns
from indexer.tagging.parts_figures import read_figure_line
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_heads import Head, TableHead, side_by_side
from indexer.tagging.parts_lines import PlacedWord, PrintedRow
from indexer.tagging.parts_rows import RowFlag
from indexer.tagging.parts_second_column import with_second_column
from indexer.tagging.parts_table_lines import (
    HYPHENS,
    TableLine,
    by_column,
    line_pitch,
    ordered,
    tell_apart,
    tell_item_apart,
    tell_stock_number_apart,
    up_to_end,
)
from indexer.tagging.parts_tree import MarkKind, read_mark
from indexer.trade.evidence import Box, PageBox

_WRAP_PITCH = 1.9  # times the usual distance of lines: a name alone that stands lower is no wrapped name
_KIT = re.compile(  # what stands between a kit and its parts
    r"\(?(?:(?:THE |THIS )?KIT )?(?:CONSISTS? OF|CONSISTING OF|CONTAINS|INCLUDES|COMPOSED OF)"
    r"(?: THE FOLLOWING)?(?: PARTS)?\s*:?\)?",
    re.IGNORECASE,
)
_FEWEST_GOOD = 2  # rows that show that a page without heads goes on with the table before it
_SHORTEST_NUMBER = 3  # characters
_FEWEST_OF_A_HEAD = 3  # pieces
_GOOD_SHARE = 0.5  # of its lines


@dataclass(slots=True)
class GridRow:
    """One logical row, or a mark between rows.

    lines      the words by column, one entry for each printed line
    pages      1-based page of each printed line: a row may run over to the next page
    mark       what the line marks, when it is no row
    flags      what of its place in the table is not certain
    """

    lines: list[dict[Column, list[PlacedWord]]]
    pages: list[int]
    mark: MarkKind | None = None
    flags: list[RowFlag] = field(default_factory=list)

    def add(self, line: dict[Column, list[PlacedWord]], pdf_page: int) -> None:
        self.lines.append(line)
        self.pages.append(pdf_page)

    def words(self, column: Column) -> list[PlacedWord]:
        return [word for line in self.lines for word in line.get(column, ())]

    def text(self, column: Column) -> str:
        """Lines of a wrapped cell joined by a newline."""
        return "\n".join(
            " ".join(word.text for word in line[column]) for line in self.lines if line.get(column)
        )

    @property
    def quote(self) -> str:
        """Words in the order of the columns, line after line."""
        return " ".join(word.text for line in self.lines for words in ordered(line) for word in words)

    def boxes(self) -> tuple[PageBox, ...]:
        """One for each printed line, on the page as displayed."""
        return tuple(
            PageBox(page, union([word.shown for words in line.values() for word in words]))
            for page, line in zip(self.pages, self.lines, strict=True)
        )


@dataclass(slots=True)
class GridTable:
    """One table, its rows in printed order. top: points, of its head or first row on the page upright.

    goes_on   names at its top that may go on with the last row of the page before
    headless  its page prints no heads: it goes on with the table before it
    """

    head: TableHead
    columns: Columns
    top: float
    rows: list[GridRow]
    goes_on: GridRow | None = None
    headless: bool = False


def union(boxes: Sequence[Box]) -> Box:
    made = boxes[0]
    for box in boxes[1:]:
        made = made.union(box)
    return made


def read_tables(pdf_page: int, rows: Sequence[PrintedRow], heads: Sequence[TableHead]) -> list[GridTable]:
    """The tables under the page's heads, in printed order; tables side by side one after the other."""
    tables: list[GridTable] = []
    for number, head in enumerate(heads):
        end = heads[number + 1].first if number + 1 < len(heads) else len(rows)
        under = [row for row in rows[head.last + 1 : end]]
        columns = find_columns(with_second_column(head.heads, under), _close(under))
        made = _tables_of(pdf_page, head, columns, under, rows[head.first].top)
        tables += [table for table in made if not _only_counts(table)]
    return tables


def _only_counts(table: GridTable) -> bool:
    """Whether counts of one or two figures stand for part numbers: a time table, a list of chapters."""
    numbers = [text for row in table.rows if (text := row.text(Column.PART_NUMBER))]
    return len(numbers) >= _FEWEST_GOOD and all(
        len(text) < _SHORTEST_NUMBER and text.isdigit() for text in numbers
    )


def read_on(pdf_page: int, rows: Sequence[PrintedRow], before: GridTable) -> list[GridTable]:
    """The table of a page without heads that goes on with the one before; none when its rows do not fit."""
    inside = [row for row in rows if not row.margin]
    for columns in _perhaps_moved(before.columns, inside):
        cuts = [cut_row(row, columns) for row in inside]
        good = [place for place, cut in enumerate(cuts) if _is_good(cut, columns)]
        if len(good) < _FEWEST_GOOD:
            continue
        span = inside[good[0] : good[-1] + 1]
        own = [row for row in span if read_mark(row.text) is None and len(row.pieces) > 1]
        if len(good) < _GOOD_SHARE * len(own):
            continue
        if any(_is_strange_head(row) for row in inside[: good[0]]):
            return []
        first = good[0]
        while first and _may_go_before(cuts[first - 1], inside[first - 1], inside[first], columns):
            first -= 1
        refined = find_columns(columns.heads, span)
        fits = sum(_is_good(cut_row(row, refined), refined) for row in span)
        under = inside[first:]
        chosen = refined if fits >= len(good) else columns
        tables = _tables_of(pdf_page, before.head, chosen, under, inside[first].top)
        for table in tables:
            table.headless = True
        return tables
    return []


def _perhaps_moved(columns: Columns, rows: Sequence[PrintedRow]) -> Iterator[Columns]:
    """The columns where they stood, then moved to where this page's rows begin (bound at either side)."""
    yield columns
    start = columns.starts[0]
    lefts = sorted(row.pieces[0].x0 for row in rows if len(row.pieces) > 2)
    if start is None or not lefts:
        return
    shift = lefts[len(lefts) // 4] - start
    if abs(shift) > 1:
        heads = tuple(
            Head(h.column, h.words, h.x0 + shift, h.x1 + shift, tuple(x + shift for x in h.levels))
            for h in columns.heads
        )
        starts = tuple(None if x is None else x + shift for x in columns.starts)
        yield Columns(heads, tuple(cut + shift for cut in columns.cuts), starts)


def _is_strange_head(row: PrintedRow) -> bool:
    """Whether a line above may be the head of another table: several pieces, and no figure in any word."""
    return len(row.pieces) >= _FEWEST_OF_A_HEAD and not any(letter.isdigit() for letter in row.text)


def _may_go_before(cut: CutRow, row: PrintedRow, below: PrintedRow, columns: Columns) -> bool:
    """Whether a line above the first whole row of a page without heads is of the table: a wrapped name."""
    near = below.middle - row.middle <= _WRAP_PITCH * 1.3 * max(row.bottom - row.top, 1.0)
    kinds = {columns.heads[place].column for place in cut.cells}
    return (
        near
        and not cut.crossing
        and kinds <= {Column.NOMENCLATURE, Column.UNITS, Column.USAGE}
        and bool(kinds)
    )


def _is_good(cut: CutRow, columns: Columns) -> bool:
    """Whether a printed line has a part number and a name where they belong."""
    if cut.crossing:
        return False
    cells = by_column(cut, columns, 0, len(columns.heads))
    tell_apart(cells)
    tell_item_apart(cells)
    number = "".join(word.text for word in cells.get(Column.PART_NUMBER, ()))
    if not any(letter.isdigit() for letter in number):
        return False
    return bool(cells.get(Column.NOMENCLATURE)) or not any(
        head.column is Column.NOMENCLATURE for head in columns.heads
    )


def _close(rows: Sequence[PrintedRow]) -> list[PrintedRow]:
    """The rows that may show where columns lie: not the running lines, nor lines of one piece."""
    return [row for row in rows if not row.margin]


def _tables_of(
    pdf_page: int, head: TableHead, columns: Columns, rows: Sequence[PrintedRow], top: float
) -> list[GridTable]:
    tables = []
    cuts = [cut_row(row, columns) for row in rows]
    parts = side_by_side(columns.heads)
    for first, last in parts:
        lines = []
        for cut in cuts:
            cells = by_column(cut, columns, first, last)
            if cells:
                tell_apart(cells)
                tell_item_apart(cells)
                tell_stock_number_apart(cells)
                lines.append(TableLine(cut.row, cells, cut.crossing))
        own = TableHead(tuple(columns.heads[first:last]), head.first, head.last)
        table = GridTable(own, columns, top, [])
        _fill(table, lines, pdf_page)
        tables.append(table)
    return tables


def _fill(table: GridTable, lines: Sequence[TableLine], pdf_page: int) -> None:
    """Take the lines as rows, wrapped text and marks, up to the end of the table."""
    lines = uncentred(up_to_end(lines))
    last: GridRow | None = None
    below: float | None = None
    pitch = line_pitch(lines)
    for line in lines:
        mark = read_mark(line.whole)
        if mark is not None:
            table.rows.append(GridRow([line.cells], [pdf_page], mark))
            last, below = None, line.row.middle
            continue
        if _KIT.fullmatch(line.whole):
            continue
        if read_figure_line(line.whole) is not None and not line.text(Column.UNITS):
            continue  # the title of the figure printed again
        near = below is None or line.row.middle - below <= _WRAP_PITCH * pitch
        if _begins_row(line, last, table):
            last = GridRow([line.cells], [pdf_page])
            table.rows.append(last)
        elif last is not None and (near or not _is_name_alone(line)):
            last.add(line.cells, pdf_page)
        elif last is None and not table.rows and not line.crossing and _is_name_alone(line):
            table.goes_on = table.goes_on or GridRow([], [])
            table.goes_on.add(line.cells, pdf_page)
        else:
            last = GridRow([line.cells], [pdf_page], flags=[RowFlag.COLUMNS])
            table.rows.append(last)
        below = line.row.middle


def _begins_row(line: TableLine, last: GridRow | None, table: GridTable) -> bool:
    item, number = line.text(Column.ITEM) or line.text(Column.FIGURE), line.text(Column.PART_NUMBER)
    name, units = line.text(Column.NOMENCLATURE), line.text(Column.UNITS)
    if item:
        return True
    if number:
        if last is not None and set(line.cells) == {Column.PART_NUMBER} and _lacks_number(last):
            return False  # the number of the item stands under it
        wraps = last is not None and last.text(Column.PART_NUMBER).endswith(HYPHENS)
        return not wraps
    if last is None:
        return bool(name and units)
    if table.head.is_number_index:
        return False
    if name and not last.text(Column.NOMENCLATURE):
        return False  # the row's name stands on its second line
    if name.startswith((".", "·")):
        return True
    return bool(units and last.text(Column.UNITS) and (name or line.text(Column.UNITS)))


def _lacks_number(row: GridRow) -> bool:
    return bool(row.text(Column.ITEM)) and not row.text(Column.PART_NUMBER)


def _is_name_alone(line: TableLine) -> bool:
    return set(line.cells) <= {Column.NOMENCLATURE, Column.OTHER}
