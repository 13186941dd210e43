"""Printed lines of one parts table: their cells by column, and where the table ends above its notes."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from indexer.tagging.parts_columns import Columns, CutRow
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_lines import PlacedWord, PrintedRow
from indexer.tagging.parts_tree import read_mark

_TABLE_PITCH = 4.0  # times the usual distance of rows: what stands lower is no row of the table
_ITEM = re.compile(
    r"[-*]?\s*[0-9IlOoSBZ]{1,3}[A-Z]{0,2}|[-–—]+|[0-9]{1,2}(?:-[0-9]{1,3}[A-Z]?){0,5}\s*-?\s*[0-9]{0,3}[A-Z]?"
)
_NOTE = re.compile(
    r"\(?\*|NOTES?\b|LEGEND\b|[-–—]?\s*ITEMS? NOT ILL|CODE\b|USAGE\b|EFFECTIVITY\b|END OF\b", re.IGNORECASE
)
_NSN = re.compile(r"\(?(?:NSN:?\s+)?[0-9]{4}-[0-9]{2}-[0-9]{3}-[0-9]{4}\)?|NSN:?\s+[0-9-]{9,}")
HYPHENS = ("-", "–", "—")


@dataclass(slots=True)
class TableLine:
    """One printed line of one table."""

    row: PrintedRow
    cells: dict[Column, list[PlacedWord]]
    crossing: bool

    def text(self, column: Column) -> str:
        return " ".join(word.text for word in self.cells.get(column, ()))

    @property
    def whole(self) -> str:
        return " ".join(word.text for words in ordered(self.cells) for word in words)


def ordered(cells: dict[Column, list[PlacedWord]]) -> list[list[PlacedWord]]:
    return sorted(cells.values(), key=lambda words: words[0].box.x0)


def tell_apart(cells: dict[Column, list[PlacedWord]]) -> None:
    """In a column that holds numbers over names: a single word with a figure in it, on a line without units,
    is the number; all else is a name."""
    words = cells.pop(Column.NUMBER_OVER_NAME, None)
    if words:
        text = words[0].text
        shaped = len(words) == 1 and any(letter.isdigit() for letter in text) and text[0] not in "(."
        cells[Column.PART_NUMBER if shaped and Column.UNITS not in cells else Column.NOMENCLATURE] = words


def tell_item_apart(cells: dict[Column, list[PlacedWord]]) -> None:
    """In a column that holds items over numbers: one beside a name or units is the item."""
    words = cells.pop(Column.ITEM_OVER_NUMBER, None)
    if words:
        beside = Column.NOMENCLATURE in cells or Column.UNITS in cells
        text = " ".join(word.text for word in words)
        cells[Column.ITEM if beside and _ITEM.fullmatch(text) else Column.PART_NUMBER] = words


def tell_stock_number_apart(cells: dict[Column, list[PlacedWord]]) -> None:
    """A national stock number alone on a line stands under the part number that it belongs to."""
    words = cells.get(Column.PART_NUMBER)
    if words and set(cells) == {Column.PART_NUMBER} and _NSN.fullmatch(" ".join(word.text for word in words)):
        cells[Column.STOCK_NUMBER] = cells.pop(Column.PART_NUMBER)


def by_column(cut: CutRow, columns: Columns, first: int, last: int) -> dict[Column, list[PlacedWord]]:
    cells: dict[Column, list[PlacedWord]] = {}
    for place, words in sorted(cut.cells.items()):
        if first <= place < last:
            cells.setdefault(columns.heads[place].column, []).extend(words)
    return cells


def line_pitch(lines: Sequence[TableLine]) -> float:
    """The usual distance of printed lines, the narrower half counted: wrapped lines stand closest."""
    gaps = sorted(two.row.middle - one.row.middle for one, two in pairwise(lines))
    gaps = [gap for gap in gaps if gap > 1]
    height = median(line.row.bottom - line.row.top for line in lines) if lines else 10.0
    return max(gaps[len(gaps) // 4] if gaps else 0.0, height)


def up_to_end(lines: Sequence[TableLine]) -> list[TableLine]:
    """The lines up to the last that is surely a row or goes on with one; notes below and running lines go."""
    kept: list[TableLine] = []
    sure: list[int] = []
    for line in lines:
        if line.row.margin and not _is_whole_row(line):
            continue
        kept.append(line)
    pitch = _row_pitch([line for line in kept if _looks_like_row(line)])
    for place, line in enumerate(kept):
        far = sure and line.row.middle - kept[place - 1].row.middle > _TABLE_PITCH * pitch
        if far and not _is_whole_row(line):
            break
        if _looks_like_row(line) or (read_mark(line.whole) is not None and not far):
            sure.append(place)
    if not sure:
        return []
    end = sure[-1] + 1
    usual = line_pitch(kept[:end])
    while end < len(kept) and _wraps_under(kept[end], kept[end - 1], usual):
        end += 1
    return kept[:end]


def _wraps_under(line: TableLine, above: TableLine, pitch: float) -> bool:
    """Whether a line under the last whole row goes on with it."""
    if (
        line.crossing
        or line.row.margin
        or _NOTE.match(line.whole)
        or line.row.middle - above.row.middle > 1.5 * pitch
    ):
        return False
    if set(line.cells) == {Column.PART_NUMBER} and Column.PART_NUMBER not in above.cells:
        return Column.ITEM in above.cells  # the number of the item stands under it
    divided = above.text(Column.PART_NUMBER).endswith(HYPHENS) and Column.PART_NUMBER in line.cells
    return Column.ITEM not in line.cells and (Column.NOMENCLATURE in line.cells or divided)


def _row_pitch(lines: Sequence[TableLine]) -> float:
    gaps = [two.row.middle - one.row.middle for one, two in pairwise(lines)]
    return median(gaps) if gaps else 14.0


def _is_whole_row(line: TableLine) -> bool:
    number = line.text(Column.PART_NUMBER)
    return (
        not line.crossing
        and any(letter.isdigit() for letter in number)
        and (Column.NOMENCLATURE in line.cells or Column.ITEM in line.cells)
        and len(line.cells) >= 3
    )


def _looks_like_row(line: TableLine) -> bool:
    """Whether a printed line holds at least two of item, number, name and units, each of its kind."""
    if _NOTE.match(line.whole):
        return False
    item = line.text(Column.ITEM) or line.text(Column.FIGURE)
    number, name = line.text(Column.PART_NUMBER), line.text(Column.NOMENCLATURE)
    has_item = bool(_ITEM.fullmatch(item.strip()))
    has_number = any(letter.isdigit() for letter in number) and len(number.split()) <= 3
    if item and not has_item and line.crossing:
        return False
    if line.crossing and not (has_item and has_number):
        return False
    if item and not has_item and not has_number:
        return False
    others = sum((bool(name), bool(line.text(Column.UNITS)), bool(line.text(Column.USAGE))))
    return (
        (has_number and (others > 0 or has_item)) or (has_item and others > 0) or (others > 1 and not number)
    )
