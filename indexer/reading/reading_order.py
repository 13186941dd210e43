"""The order in which boxes of text are read: down one column, then down the next. Pure.

White space is cut along, recursively: first between what stands over the whole breadth and what stands in
columns, then between the columns (the X-Y cut of Nagy and Seth, 1984).
"""

from collections.abc import Sequence
from statistics import median

from indexer.trade.evidence import Box

_GUTTER = 0.8  # of a line's usual height: the least white space between columns
_BREAK = 0.6  # the same, between blocks one below the other
_LEAST_LINES = 2  # of a column


def in_reading_order(boxes: Sequence[Box]) -> list[int]:
    """Indices of the boxes (one a line of text) in reading order."""
    if not boxes:
        return []
    height = max(median(box.height for box in boxes), 1e-6)
    return _ordered(boxes, list(range(len(boxes))), height)


def _ordered(boxes: Sequence[Box], part: list[int], height: float) -> list[int]:
    if len(part) < 2:
        return part
    columns = _cut([(boxes[index].x0, boxes[index].x1, index) for index in part], _GUTTER * height)
    if len(columns) > 1 and min(len(column) for column in columns) >= _LEAST_LINES:
        return [index for column in columns for index in _ordered(boxes, column, height)]
    blocks = _cut([(boxes[index].top, boxes[index].bottom, index) for index in part], _BREAK * height)
    if len(blocks) > 1:
        return [index for block in blocks for index in _ordered(boxes, block, height)]
    widest = max(part, key=lambda index: boxes[index].width)  # a heading over columns keeps them together
    rest = [index for index in part if index != widest]
    above = [index for index in rest if boxes[index].top < boxes[widest].top]
    below = [index for index in rest if boxes[index].top >= boxes[widest].top]
    if len(_cut([(boxes[index].x0, boxes[index].x1, index) for index in rest], _GUTTER * height)) > 1:
        return [*_ordered(boxes, above, height), widest, *_ordered(boxes, below, height)]
    return sorted(part, key=lambda index: (boxes[index].top, boxes[index].x0))


def _cut(spans: list[tuple[float, float, int]], least_gap: float) -> list[list[int]]:
    """Indices grouped where nothing stands between: `least_gap` or more of white space parts two groups."""
    groups: list[list[int]] = []
    reach = float("-inf")
    for start, end, index in sorted(spans):
        if not groups or start - reach >= least_gap:
            groups.append([])
        groups[-1].append(index)
        reach = max(reach, end)
    return groups
