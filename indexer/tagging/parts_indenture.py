"""What the place of a name shows of its depth: where OCR lost dots, and in lists that print none."""

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from indexer.tagging.parts_grid import GridRow, GridTable
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_lines import PlacedWord
from indexer.trade.evidence import Origin

_DOTS = ".\u2026\u00b7"
_SURE_OF_STEP = 2  # rows whose dots show how far one dot moves the name
_WIDE_STEP = 8.0  # points: more than a dot and a blank take
_OFF_STEP = 0.25  # of a step
_LEAST_STEP = 3.5  # points: names set in by less cannot be told apart
_SAME_EDGE = 1.5  # points, of names that begin alike


def indentures(rows: Sequence[tuple[GridRow, GridTable, Origin]]) -> list[int | None]:
    """The depth that the place of each row's name shows; None where dots tell it, or nothing does.

    For rows read by OCR it is the only depth to be believed: dots are the first thing that OCR loses, and
    one of two dots lost is a part under the wrong assembly. How far one dot moves a name is learned from rows
    that kept theirs; where that is too little to be seen (dots printed against the name, which OCR takes into
    the name's box), no row has a depth. Digital lists that print no dots at all set names in by equal steps.
    """
    found: list[int | None] = [None] * len(rows)
    by_table: dict[tuple[int, bool], list[int]] = defaultdict(list)
    for place, (row, table, origin) in enumerate(rows):
        if _name_words(row):
            by_table[id(table), origin is not Origin.DIGITAL].append(place)
    for (_, ocr), places in by_table.items():
        grids = [rows[place][0] for place in places]
        table = rows[places[0]][1]
        depths = _by_place(grids, table) if ocr else _set_in(grids)
        for place, depth in zip(places, depths, strict=True):
            found[place] = depth
    return found


def _set_in(rows: Sequence[GridRow]) -> list[int | None]:
    """Depths of a digital list without dots; None for all when it has dots or no even steps."""
    nothing: list[int | None] = [None] * len(rows)
    if any(_dots(row) for row in rows):
        return nothing
    edge = min(_name_words(row)[0].box.x0 for row in rows)
    offsets = [_name_edge(row) - edge for row in rows]
    step = _step_without_dots(offsets)
    return nothing if step is None else [_depth(offset, step) for offset in offsets]


def _by_place(rows: Sequence[GridRow], table: GridTable) -> list[int | None]:
    """Depths of rows read by OCR; None where the place does not show it."""
    edge = _edge(rows, table)
    if edge is None:
        return [None] * len(rows)
    offsets = [_name_edge(row) - edge for row in rows]
    dotted = [(_dots(row), offset) for row, offset in zip(rows, offsets, strict=True) if _dots(row)]
    step = _step_of_dots(dotted) if dotted else _step_without_dots(offsets)
    if step is not None and step < _WIDE_STEP and any(_is_glued(row) for row in rows):
        step = None  # dots against the name: where one is lost, the name's box still begins with it
    if step is None:
        return [None] * len(rows)
    depths: list[int | None] = []
    for row, offset in zip(rows, offsets, strict=True):
        if not _begins_plainly(row):
            depths.append(None)
        else:
            depth = _depth(offset, step)
            depths.append(depth if not _dots(row) or depth == _dots(row) else None)
    return depths


def _step_of_dots(dotted: Sequence[tuple[int, float]]) -> float | None:
    """How far one dot moves a name, from (dots, offset) of rows that kept theirs; None when they disagree.

    A narrow step must hold for names of two depths: of two dots, one may have been lost everywhere.
    """
    step = median(offset / dots for dots, offset in dotted)
    steady = [dots for dots, offset in dotted if abs(offset / dots - step) <= _OFF_STEP * step]
    if len(steady) < max(_SURE_OF_STEP, len(dotted) / 2) or step < _LEAST_STEP:
        return None
    return step if step >= _WIDE_STEP or len(set(steady)) > 1 else None


def _edge(rows: Sequence[GridRow], table: GridTable) -> float | None:
    """The left edge of the names' column: where dots begin, or where its head does as well."""
    starts = [_name_words(row)[0].box.x0 for row in rows]
    dotted = [start for row, start in zip(rows, starts, strict=True) if _dots(row)]
    lowest = min(starts)
    if dotted and abs(min(dotted) - lowest) <= _SAME_EDGE:
        return lowest
    head = next((head for head in table.head.heads if head.column is Column.NOMENCLATURE), None)
    return lowest if head is not None and abs(head.x0 - lowest) <= _SAME_EDGE else None


def _depth(offset: float, step: float) -> int | None:
    deep = offset / step
    return round(deep) if abs(deep - round(deep)) <= _OFF_STEP else None


def _step_without_dots(offsets: Sequence[float]) -> float | None:
    """The step by which names are set in, when they all stand on its multiples; None when they do not."""
    edges: dict[float, int] = {}
    for offset in sorted(offsets):
        near = next((edge for edge in edges if abs(edge - offset) <= _SAME_EDGE), offset)
        edges[near] = edges.get(near, 0) + 1
    places = sorted(edge for edge, count in edges.items() if count > 1)
    if len(places) < 2 or len(places) < len(edges) / 2:
        return None
    step = min(two - one for one, two in pairwise(places))
    even = all(abs(edge / step - round(edge / step)) <= _OFF_STEP for edge in places)
    return step if step >= _LEAST_STEP and even else None


def _name_words(row: GridRow) -> list[PlacedWord]:
    return next((line[Column.NOMENCLATURE] for line in row.lines if line.get(Column.NOMENCLATURE)), [])


def _name_edge(row: GridRow) -> float:
    """Where the first word begins that is more than dots."""
    words = _name_words(row)
    word = next((word for word in words if word.text.strip(_DOTS)), words[0])
    glued = len(word.text) - len(word.text.lstrip(_DOTS))
    return word.box.x0 + (word.box.width * glued * 0.5 / len(word.text) if glued else 0.0)


def _begins_plainly(row: GridRow) -> bool:
    """Whether the name begins with a letter, figure or dot, and not with what may be a misread dot."""
    first = _name_words(row)[0].text[:1]
    return first.isalnum() or first in _DOTS or first == "("


def _is_glued(row: GridRow) -> bool:
    first = _name_words(row)[0].text
    return first[:1] in _DOTS and bool(first.strip(_DOTS))


def _dots(row: GridRow) -> int:
    count = 0
    for word in _name_words(row):
        bare = word.text.lstrip(_DOTS)
        count += len(word.text) - len(bare)
        if bare:
            break
    return count
