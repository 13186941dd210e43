"""Runs of one page -> reading order: columns one after another, text that spans them in between.

A gutter is a strip of white that parts runs on its left from runs on its right over several rows. It is taken
for the white between two columns of text only when both sides read like text; the white between the columns
of a table, or between a step's number and its words, is not.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from indexer.reading.open_tables import are_parted_together, find_open_table
from indexer.reading.rows import Run, rows_of

_LEAST_RUNS = 6  # of a region, before it can hold columns
_LEAST_GUTTER = 5.0  # points
_EDGE = 1.5  # points by which a run may reach into a gutter
_LEAST_ROWS = 4  # of the longer column, to tell that there are columns
_LEAST_ROWS_APART = 2  # the same, where the file writes one side before the other
_LEAST_ROWS_KNOWN = 2  # the same, where a longer stretch of the page has shown the gutter
_LEAST_ROWS_OFF_STEP = 6  # of either side, to tell that they keep no step
_LEAST_WORDS = 12  # on the shorter side, in all column bands of one gutter
_LEAST_COLUMN = 0.12  # of the region's width
_PICTURE_HEIGHT = 40.0  # points
_DEEPEST = 8
_MOST_CANDIDATES = 24


@dataclass(frozen=True, slots=True)
class _Demand:
    """What both sides of a gutter must show to be columns of text."""

    words_per_row: float
    fill: float  # the middle row's length as a part of the column's width


# A file that writes one side whole before the other, or sets them at heights of their own, says itself that
# they are columns. Where both sides keep step, they may be the columns of a table, and must read like text.
_OWN_WAYS = _Demand(words_per_row=1.6, fill=0.35)
_IN_STEP = _Demand(words_per_row=3.0, fill=0.65)
_WRITTEN_APART_SHARE = 0.9
_SHARED_LINES = 0.6  # of the rows of the side that has fewer
_SAME_LINE = 2.0  # points
_LEAST_IN_STEP = 0.25  # of the region's width; a narrower side in step with the other holds labels of a table
_ALIKE = 6.0  # points by which the parts of two lists may stand differently
_LEAST_ROWS_ALIKE = 8
_FIGURES_SHARE = 0.8  # of the rows of a list that hold figures
_ALIKE_SHARE = 0.6  # of the rows that have a part at the same place
_FLUSH = 2.5  # points
_FLUSH_SHARE = 0.5  # of the right column's rows


@dataclass(slots=True)
class _Placed:
    """A run and its number in the order of the file."""

    run: Run
    order: int


def reading_order(runs: Sequence[Run]) -> list[tuple[int, list[Run]]]:
    """(column, runs of one printed row) in reading order; columns are numbered from 0, left to right.

    `runs` in the order of the file.
    """
    placed = [_Placed(run, order) for order, run in enumerate(runs)]
    ordered: list[tuple[int, list[Run]]] = []
    _region(placed, 0, 0, ordered)
    return ordered


def _region(placed: list[_Placed], column: int, depth: int, ordered: list[tuple[int, list[Run]]]) -> int:
    """Append the region's rows to `ordered`; gives how many columns it has."""
    parts = _parts(placed) if depth < _DEEPEST else [placed]
    if len(parts) > 1:
        return max(_region(part, column, depth + 1, ordered) for part in parts)
    best = _best_gutter(placed) if depth < _DEEPEST else None
    if best is None:
        table = find_open_table([each.run for each in placed]) if depth < _DEEPEST else None
        if table is None:
            ordered.extend((column, row) for row in rows_of([each.run for each in placed]))
            return 1
        order = {id(each.run): each for each in placed}
        _region([order[id(run)] for run in table.above], column, depth + 1, ordered)
        ordered.extend((column, row) for row in table.rows)
        _region([order[id(run)] for run in table.below], column, depth + 1, ordered)
        return 1
    columns = 1
    for band in best:
        if not band.columns:
            columns = max(columns, _region(band.left + band.right, column, depth + 1, ordered))
            continue
        left = _region(band.left, column, depth + 1, ordered)
        right = _region(band.right, column + left, depth + 1, ordered)
        columns = max(columns, left + right)
    return columns


def _parts(placed: list[_Placed]) -> list[list[_Placed]]:
    """Cut a region at white as high as a picture that goes all the way across: columns end above it."""
    if len(placed) < _LEAST_RUNS:
        return [placed]
    parts: list[list[_Placed]] = [[]]
    lowest = 0.0
    for each in sorted(placed, key=lambda each: each.run.top):
        if parts[-1] and each.run.top - lowest > _PICTURE_HEIGHT:
            parts.append([])
        lowest = max(lowest, each.run.bottom) if parts[-1] else each.run.bottom
        parts[-1].append(each)
    for part in parts:
        part.sort(key=lambda each: each.order)
    return parts


@dataclass(slots=True)
class _Band:
    """A stretch of the page from top to bottom: columns at one gutter, or text across it."""

    left: list[_Placed]
    right: list[_Placed]
    columns: bool = False

    @property
    def words(self) -> int:
        return min(_words(self.left), _words(self.right))


def _words(placed: Sequence[_Placed]) -> int:
    return sum(len(each.run.words) for each in placed)


def _best_gutter(placed: list[_Placed]) -> list[_Band] | None:
    """The bands of the gutter that makes the most text columns; None when the region has no columns."""
    if len(placed) < _LEAST_RUNS:
        return None
    by_height = sorted(placed, key=lambda each: (each.run.top, each.run.x0))
    left_edge = min(each.run.x0 for each in placed)
    right_edge = max(each.run.x1 for each in placed)
    best, best_words = None, _LEAST_WORDS - 1
    for gutter in _candidates(placed):
        at = (gutter[0] + gutter[1]) / 2
        if min(at - left_edge, right_edge - at) < _LEAST_COLUMN * (right_edge - left_edge):
            continue
        bands = _bands(by_height, at, gutter[1])
        words = sum(band.words for band in bands if band.columns)
        if words > best_words:
            best, best_words = bands, words
    return best


def _candidates(placed: Sequence[_Placed]) -> list[tuple[float, float]]:
    """Strips of white between right edges and the next left edges, as (x0, x1); the likeliest first."""
    starts = sorted({round(each.run.x0) for each in placed})
    weights: dict[tuple[float, float], int] = {}
    ends = sorted(each.run.x1 for each in placed)
    for start in starts:
        before = [end for end in ends if end <= start - _LEAST_GUTTER + 1]
        if before:
            weights[before[-1], float(start)] = sum(abs(each.run.x0 - start) <= _EDGE for each in placed)
    best = sorted(weights, key=lambda strip: -weights[strip])
    return best[:_MOST_CANDIDATES]


def _bands(by_height: Sequence[_Placed], at: float, start: float) -> list[_Band]:
    """Cut a region at the runs that cross a gutter, top to bottom. `start`: where the right column begins."""
    bands: list[_Band] = []
    open_band = _Band([], [])
    across: list[_Placed] = []
    for each in by_height:
        run = each.run
        if run.x0 < at - _EDGE and run.x1 > at + _EDGE:
            if open_band.left or open_band.right:
                bands.append(open_band)
                open_band = _Band([], [])
                across = []
            across.append(each)
            if not bands or bands[-1].left is not across:
                bands.append(_Band(across, []))
        elif run.x1 <= at + _EDGE:
            open_band.left.append(each)
        else:
            open_band.right.append(each)
    if open_band.left or open_band.right:
        bands.append(open_band)
    for band in bands:
        band.columns = _are_columns(band, start, _LEAST_ROWS)
    if any(band.columns for band in bands):
        # Where the page has columns already, a few rows between two headings are columns too.
        for band in bands:
            band.columns = band.columns or _are_columns(band, start, _LEAST_ROWS_KNOWN)
    return _merged(bands)


def _merged(bands: Sequence[_Band]) -> list[_Band]:
    """Neighbouring bands without columns, as one."""
    merged: list[_Band] = []
    for band in bands:
        if merged and not band.columns and not merged[-1].columns:
            last = merged[-1]
            merged[-1] = _Band(last.left + last.right + band.left + band.right, [])
        else:
            merged.append(band)
    return merged


def _are_columns(band: _Band, start: float, least_rows: int) -> bool:
    left, right = band.left, band.right
    if not left or not right:
        return False
    written_apart = _written_apart(left, right)
    if written_apart:
        least_rows = min(least_rows, _LEAST_ROWS_APART)
    if max(len(left), len(right)) < least_rows:
        return False
    left_rows, right_rows = rows_of([each.run for each in left]), rows_of([each.run for each in right])
    if max(len(left_rows), len(right_rows)) < least_rows or not _is_flush(right_rows, start):
        return False
    if are_parted_together(left_rows, right_rows):
        return False
    in_step = _keep_step(left_rows, right_rows) and not _are_built_alike(left_rows, right_rows)
    narrower = min(_width(left_rows), _width(right_rows))
    if in_step and narrower < _LEAST_IN_STEP * _width(left_rows + right_rows):
        return False
    demand = _IN_STEP if in_step and not written_apart else _OWN_WAYS
    return all(_reads_like_text(rows, demand) for rows in (left_rows, right_rows))


def _width(rows: Sequence[Sequence[Run]]) -> float:
    return max(run.x1 for row in rows for run in row) - min(run.x0 for row in rows for run in row)


def _is_flush(rows: Sequence[Sequence[Run]], start: float) -> bool:
    """Whether enough rows begin where the column does; white that wanders through a text has no such edge."""
    return sum(abs(row[0].x0 - start) <= _FLUSH for row in rows) >= _FLUSH_SHARE * len(rows)


def _keep_step(left_rows: Sequence[Sequence[Run]], right_rows: Sequence[Sequence[Run]]) -> bool:
    """Whether the rows of both sides stand at the same heights, as those of a table do."""
    if min(len(left_rows), len(right_rows)) < _LEAST_ROWS_OFF_STEP:
        return True
    middles = [row[0].middle for row in left_rows]
    shared = sum(any(abs(row[0].middle - middle) <= _SAME_LINE for middle in middles) for row in right_rows)
    return shared >= _SHARED_LINES * min(len(left_rows), len(right_rows))


def _written_apart(left: Sequence[_Placed], right: Sequence[_Placed]) -> bool:
    """Whether the file writes (nearly) all of one side before the other."""
    first, second = (left, right) if _mean_order(left) < _mean_order(right) else (right, left)
    orders = sorted(each.order for each in first), sorted(each.order for each in second)
    late = orders[0][round(_WRITTEN_APART_SHARE * (len(first) - 1))]
    early = orders[1][round((1 - _WRITTEN_APART_SHARE) * (len(second) - 1))]
    return late < early


def _mean_order(placed: Sequence[_Placed]) -> float:
    return sum(each.order for each in placed) / len(placed)


def _are_built_alike(left_rows: Sequence[Sequence[Run]], right_rows: Sequence[Sequence[Run]]) -> bool:
    """Whether both sides are the same list, set in two: "Page Date | Page Date".

    A form with two pairs of label and value in a row is built so too, and is read across; but its rows do not
    all hold figures.
    """
    if min(len(left_rows), len(right_rows)) < _LEAST_ROWS_ALIKE:
        return False
    left, right = _usual_starts(left_rows), _usual_starts(right_rows)
    if not 1 < len(left) <= len(right):
        return False
    if any(abs(one - two) > _ALIKE for one, two in zip(left, right, strict=False)):
        return False
    return all(_rows_with_figures(rows) >= _FIGURES_SHARE * len(rows) for rows in (left_rows, right_rows))


def _rows_with_figures(rows: Sequence[Sequence[Run]]) -> int:
    return sum(any(any(map(str.isdigit, run.text)) for run in row) for row in rows)


def _usual_starts(rows: Sequence[Sequence[Run]]) -> list[float]:
    """Where the runs of most rows begin, from the left edge of the column."""
    edge = min(row[0].x0 for row in rows)
    starts = Counter(round((run.x0 - edge) / _ALIKE) for row in rows for run in row)
    return [key * _ALIKE for key in sorted(starts) if starts[key] >= _ALIKE_SHARE * len(rows)]


def _reads_like_text(rows: Sequence[Sequence[Run]], demand: _Demand) -> bool:
    words = sum(len(run.words) for row in rows for run in row)
    if words < demand.words_per_row * len(rows):
        return False
    x0 = min(run.x0 for row in rows for run in row)
    x1 = max(run.x1 for row in rows for run in row)
    filled = median(sum(run.x1 - run.x0 for run in row) for row in rows)
    return filled >= demand.fill * (x1 - x0)
