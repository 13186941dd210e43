"""Ruled tables: the cells that a page's rulings make, and the words in each. Alone in importing pdfplumber.

pdfplumber's own page parser takes about 170 ms a page. Only its geometry (edges -> cells -> tables) is used
here, on the rulings and words that pdfium has read already, and only on pages that have a grid.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pdfplumber.table import Table as CellTable
from pdfplumber.table import cells_to_tables, edges_to_intersections, intersections_to_cells, merge_edges

from indexer.reading.page import Word
from indexer.reading.rows import Run, printed_runs, rows_of
from indexer.trade.evidence import Box

_TOLERANCE = 3.0  # points within which rulings meet
_LEAST_RULING = 8.0  # points, after pieces in line are joined
_OVERSHOOT = 12.0  # points by which rulings across may reach over the outermost ones down
_LEAST_RULINGS_OPEN = 4  # of a table that is open at a side
_LEAST_EACH_WAY = 2  # rulings across, and as many down: the least that make a cell
_MOST_CROSSINGS = 1500  # more is graph paper or a drawing
_COLUMNS_OF_ONE_ROW = 3  # that a table ruled only between its columns must have
_LINES_OF_ROWS = 3  # in every cell, to be rows without rulings and not text that runs on
_LEAST_FILLED = 0.1  # of the cells; a drawing's boxes are mostly empty, a blank form has a header
_BIGGEST_CELL = 0.7  # of the words: more in one cell is a frame round the page, not a table

_Cell = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class CellWords:
    """One cell and the printed rows of its words; empty for a cell without any."""

    rows: Sequence[Sequence[Run]]

    @property
    def text(self) -> str:
        return " ".join(run.text for row in self.rows for run in row)

    @property
    def word_count(self) -> int:
        return sum(len(run.words) for row in self.rows for run in row)


@dataclass(frozen=True, slots=True)
class FoundTable:
    """A ruled table; `rows` of cells, left to right; `words` are all the words that lie in its cells."""

    box: Box
    rows: Sequence[Sequence[CellWords]]
    words: frozenset[int]  # id() of each Word


def find_tables(rulings: Sequence[Box], words: Sequence[Word]) -> list[FoundTable]:
    """The ruled tables of one page, top to bottom. Boxes in points."""
    across = sum(ruling.width >= ruling.height for ruling in rulings)
    if min(across, len(rulings) - across) < _LEAST_EACH_WAY:
        return []
    edges = [
        edge
        for edge in merge_edges([_edge(ruling) for ruling in rulings], *[_TOLERANCE] * 4)
        if max(edge["width"], edge["height"]) >= _LEAST_RULING
    ]
    edges += _open_sides(edges)
    crossings = edges_to_intersections(edges, _TOLERANCE, _TOLERANCE)
    if not 6 <= len(crossings) <= _MOST_CROSSINGS:
        return []
    found = []
    for cells in cells_to_tables(intersections_to_cells(crossings)):
        table = _table(cells, words)
        if table is not None:
            found.append(table)
    return found


def _open_sides(edges: Sequence[dict]) -> list[dict]:
    """Edges for the sides that a table leaves open.

    Such a table has two or more rulings across of one length, and others down between their ends.
    """
    by_reach: dict[tuple[int, int], list[dict]] = {}
    for edge in edges:
        if edge["orientation"] == "h":
            reach = round(edge["x0"] / _TOLERANCE), round(edge["x1"] / _TOLERANCE)
            by_reach.setdefault(reach, []).append(edge)
    down = [edge for edge in edges if edge["orientation"] == "v"]
    sides = []
    for across in by_reach.values():
        if len(across) > 1:
            x0, x1 = min(edge["x0"] for edge in across), max(edge["x1"] for edge in across)
            sides += _missing_sides(x0, x1, across, down)
    return sides


def _missing_sides(x0: float, x1: float, across: Sequence[dict], down: Sequence[dict]) -> list[dict]:
    inner = [edge for edge in down if x0 + _OVERSHOOT < edge["x0"] < x1 - _OVERSHOOT]
    tops = [edge["top"] for edge in across if any(_meet(edge, other) for other in inner)]
    inner = [edge for edge in inner if any(_meet(other, edge) for other in across)]
    if len(tops) < 2 or len(tops) + len(inner) < _LEAST_RULINGS_OPEN:
        return []
    top = min(*tops, *(edge["top"] for edge in inner))
    bottom = max(*tops, *(edge["bottom"] for edge in inner))
    sides = [
        _edge(Box(x, top, x, bottom))
        for x in (x0, x1)
        if not any(abs(edge["x0"] - x) <= _OVERSHOOT and edge["top"] < bottom for edge in down)
    ]
    # One ruling down that goes on alone is a line of its own; two that end together end the table.
    for y in (top, bottom):
        ends = sum(min(abs(edge["top"] - y), abs(edge["bottom"] - y)) <= _TOLERANCE for edge in inner)
        if ends > 1 and not any(abs(y - other) <= _TOLERANCE for other in tops):
            sides.append(_edge(Box(x0, y, x1, y)))
    return sides


def _meet(across: dict, down: dict) -> bool:
    return down["top"] - _TOLERANCE <= across["top"] <= down["bottom"] + _TOLERANCE


def _edge(ruling: Box) -> dict:
    """A ruling as pdfplumber holds an edge: a line without thickness."""
    if ruling.width >= ruling.height:
        x0, x1 = ruling.x0, ruling.x1
        top = bottom = (ruling.top + ruling.bottom) / 2
        orientation = "h"
    else:
        x0 = x1 = (ruling.x0 + ruling.x1) / 2
        top, bottom = ruling.top, ruling.bottom
        orientation = "v"
    return {
        "x0": x0,
        "x1": x1,
        "top": top,
        "bottom": bottom,
        "doctop": top,
        "y0": -bottom,
        "y1": -top,
        "width": x1 - x0,
        "height": bottom - top,
        "orientation": orientation,
    }


def _table(cells: list[_Cell], words: Sequence[Word]) -> FoundTable | None:
    grid = [row.cells for row in CellTable(None, cells).rows]
    columns = max(sum(cell is not None for cell in row) for row in grid)
    if columns < (2 if len(grid) > 1 else _COLUMNS_OF_ONE_ROW):
        return None
    in_cell = _words_by_cell(cells, words)
    counts = [len(in_cell.get(cell, ())) for cell in cells]
    total = sum(counts)
    if total == 0 or sum(count > 0 for count in counts) < _LEAST_FILLED * len(cells):
        return None
    if max(counts) > _BIGGEST_CELL * total and len(cells) > 2:
        return None
    rows = [[_cell_words(in_cell.get(cell, ())) for cell in row if cell is not None] for row in grid]
    rows = [part for row in rows for part in _unruled_rows(row)]
    x0s, tops, x1s, bottoms = zip(*cells, strict=True)
    return FoundTable(
        box=Box(min(x0s), min(tops), max(x1s), max(bottoms)),
        rows=rows,
        words=frozenset(id(word) for inside in in_cell.values() for word in inside),
    )


def _unruled_rows(cells: list[CellWords]) -> list[list[CellWords]]:
    """The rows of a table ruled only between its columns: every cell holds a line for each of them."""
    filled = [cell for cell in cells if cell.rows]
    lines = len(filled[0].rows) if filled else 0
    if lines < _LINES_OF_ROWS or len(filled) < _COLUMNS_OF_ONE_ROW:
        return [cells]
    middles = [row[0].middle for row in filled[0].rows]
    for cell in filled:
        if len(cell.rows) != lines:
            return [cells]
        apart = [abs(row[0].middle - middle) for row, middle in zip(cell.rows, middles, strict=True)]
        if max(apart) > _TOLERANCE:
            return [cells]
    return [
        [CellWords(cell.rows[index : index + 1]) if cell.rows else cell for cell in cells]
        for index in range(lines)
    ]


def _cell_words(words: Sequence[Word]) -> CellWords:
    return CellWords(rows_of(printed_runs(words)))


def _words_by_cell(cells: Sequence[_Cell], words: Sequence[Word]) -> dict[_Cell, list[Word]]:
    """Each word goes to the cell that holds its middle."""
    tops = sorted({edge for cell in cells for edge in (cell[1], cell[3])})
    strips: list[list[_Cell]] = [
        [cell for cell in cells if cell[1] <= upper and cell[3] >= lower] for upper, lower in _pairs(tops)
    ]
    in_cell: dict[_Cell, list[Word]] = {}
    for word in words:
        x, y = (word.box.x0 + word.box.x1) / 2, (word.box.top + word.box.bottom) / 2
        strip = bisect_right(tops, y) - 1
        if not 0 <= strip < len(strips):
            continue
        for cell in strips[strip]:
            if cell[0] <= x < cell[2]:
                in_cell.setdefault(cell, []).append(word)
                break
    return in_cell


def _pairs(edges: Sequence[float]) -> Iterator[tuple[float, float]]:
    return zip(edges, edges[1:], strict=False)
