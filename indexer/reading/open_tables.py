"""Tables without rulings whose cells run over several lines, such as trouble, cause and remedy.

They are told by white: between two rows of such a table a strip of white goes across all columns, and within
a row every piece of text begins where one of the columns does. Text in columns has its paragraph gaps at
heights of its own. Common practice, no source.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from indexer.reading.markers import is_bullet, numbering_depth
from indexer.reading.rows import Run, rows_of

_ROW_GAP = 0.3  # of the line's height, beyond the usual white between lines
_FEWEST_ROWS = 3  # of a table
_FEWEST_LONG = 2  # of them with a cell of several lines
_SHARED_GAPS = 0.7  # of the gaps of the side that has more
_SAME_START = 4.0  # points
_START_SHARE = 0.5  # of the table's rows that begin a cell at a column's place
_CROSSING = 0.05  # of the pieces that may reach into the next column
_FULL_SHARE = 0.8  # of the lines of a list that have a piece in every column
_CELL_MOST_ROWS = 3  # a row whose cells are longer is read cell by cell, as in a ruled table
_ROW_MOST_WORDS = 60

Row = list[Run]


@dataclass(frozen=True, slots=True)
class OpenTable:
    """A table and what stands above and below it. `rows` are in reading order, each to be one line."""

    above: list[Run]
    rows: list[Row]
    below: list[Run]


def find_open_table(runs: Sequence[Run]) -> OpenTable | None:
    """The first table among the runs of a region without columns of text; None when there is none."""
    rows = rows_of(runs)
    bands = _bands(rows)
    start = 0
    while start < len(bands):
        end = start
        while end < len(bands) and _has_cells(bands[end]):
            end += 1
        if end - start >= _FEWEST_ROWS:
            columns = _columns(bands[start:end])
            if columns is not None:
                table = [line for band in bands[start:end] for line in _lines(band, columns)]
                return OpenTable(_flat(bands[:start]), table, _flat(bands[end:]))
        start = max(end, start + 1)
    return None


def are_parted_together(left_rows: Sequence[Row], right_rows: Sequence[Row]) -> bool:
    """Whether the wide white of two sides lies at the same heights, as between the rows of a table."""
    left, right = _wide_gaps(left_rows), _wide_gaps(right_rows)
    if min(len(left), len(right)) < _FEWEST_ROWS - 1:
        return False
    shared = sum(any(top < lower and upper < bottom for upper, lower in right) for top, bottom in left)
    return shared >= _SHARED_GAPS * max(len(left), len(right))


def _wide_gaps(rows: Sequence[Row]) -> list[tuple[float, float]]:
    """(top, bottom) of the white between rows that is wider than usual."""
    bands = _bands(rows)
    return [(_bottom(one[-1]), _top(two[0])) for one, two in zip(bands, bands[1:], strict=False)]


def _bands(rows: Sequence[Row]) -> list[list[Row]]:
    """Rows grouped where no wide white parts them."""
    gaps = [_top(two) - _bottom(one) for one, two in zip(rows, rows[1:], strict=False)]
    if not gaps:
        return [list(rows)] if rows else []
    usual = median(gaps)
    closest = [gap for gap in gaps if gap <= usual]
    bands = [[rows[0]]]
    for gap, row in zip(gaps, rows[1:], strict=True):
        if gap > median(closest) + _ROW_GAP * (_bottom(row) - _top(row)):
            bands.append([])
        bands[-1].append(row)
    return bands


def _has_cells(band: Sequence[Row]) -> bool:
    """Whether a band holds two pieces side by side, and is not a step beside its number."""
    first = band[0]
    if len(first) < 2 or any(run.solid for row in band for run in row):
        return False
    marks = first[0].text
    return not (numbering_depth(f"{marks} A") or is_bullet(f"{marks} "))


def _columns(bands: Sequence[Sequence[Row]]) -> list[float] | None:
    """Where the table's columns begin; None when the bands do not make a table."""
    if sum(len(band) > 1 for band in bands) < _FEWEST_LONG:
        return None
    counts: Counter[float] = Counter()
    for band in bands:
        counts.update({_key(run.x0) for run in band[0]})
    columns = sorted(start for start, count in counts.items() if count >= _START_SHARE * len(bands))
    apart = [two for one, two in zip(columns, columns[1:], strict=False) if two - one > 2 * _SAME_START]
    columns = [*columns[:1], *apart]
    if len(columns) < 2:
        return None
    runs = [run for band in bands for row in band for run in row]
    astray = sum(not _fits(run, columns) for run in runs)
    return columns if astray <= _CROSSING * len(runs) else None


def _key(x: float) -> float:
    return round(x / _SAME_START) * _SAME_START


def _fits(run: Run, columns: Sequence[float]) -> bool:
    """Whether a run begins in one column and ends before the next begins."""
    slot = _slot(run, columns)
    return slot + 1 == len(columns) or run.x1 <= columns[slot + 1] + _SAME_START


def _slot(run: Run, columns: Sequence[float]) -> int:
    return max(sum(run.x0 >= start - _SAME_START for start in columns) - 1, 0)


def _lines(band: Sequence[Row], columns: Sequence[float]) -> list[Row]:
    """One row of the table: as one line, or cell after cell where the cells are long."""
    cells: list[list[Row]] = [[] for _ in columns]
    full = sum(len({_slot(run, columns) for run in row}) == len(columns) for row in band)
    if len(band) > _CELL_MOST_ROWS and full >= _FULL_SHARE * len(band):
        return list(band)  # many short rows with no white between them
    for row in band:
        pieces: dict[int, Row] = {}
        for run in row:
            pieces.setdefault(_slot(run, columns), []).append(run)
        for slot, piece in pieces.items():
            cells[slot].append(piece)
    words = sum(len(run.words) for row in band for run in row)
    if max(map(len, cells)) <= _CELL_MOST_ROWS and words <= _ROW_MOST_WORDS:
        return [[run for cell in cells for piece in cell for run in piece]]
    return [piece for cell in cells for piece in cell]


def _flat(bands: Sequence[Sequence[Row]]) -> list[Run]:
    return [run for band in bands for row in band for run in row]


def _top(row: Row) -> float:
    return min(run.top for run in row)


def _bottom(row: Row) -> float:
    return max(run.bottom for run in row)
