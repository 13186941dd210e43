"""A list in two columns whose heads stand over the left one alone: the same heads, moved over the right."""

from collections import Counter
from collections.abc import Sequence
from itertools import chain

from indexer.tagging.parts_heads import Head, side_by_side
from indexer.tagging.parts_lines import PrintedRow

_FEWEST_PIECES = 3  # of a row of the right column
_FEWEST_ROWS = 2  # that have so many
_SAME_START = 3.0  # points
_FIT = 0.75  # of the pieces at the right begin where those at the left do, moved


def with_second_column(heads: Sequence[Head], rows: Sequence[PrintedRow]) -> tuple[Head, ...]:
    """The heads, and once more over a second column where the rows under them show one."""
    heads = tuple(heads)
    if len(side_by_side(heads)) != 1:
        return heads
    edge = heads[-1].x1
    beside = [
        (left, right)
        for row in rows
        if not row.margin
        for left in [[piece.x0 for piece in row.pieces if piece.x0 <= edge]]
        for right in [[piece.x0 for piece in row.pieces if piece.x0 > edge]]
        if left and len(right) >= _FEWEST_PIECES
    ]
    if len(beside) < _FEWEST_ROWS:
        return heads
    begins = Counter(round(left[0]) for left, _ in beside).most_common(1)[0][0]
    over = Counter(round(right[0]) for _, right in beside).most_common(1)[0][0] - begins
    starts = {x for left, _ in beside for x in left}
    moved = [x - over for x in chain.from_iterable(right for _, right in beside)]
    fitting = sum(any(abs(x - start) <= _SAME_START for start in starts) for x in moved)
    if over <= edge - heads[0].x0 or fitting < _FIT * len(moved):
        return heads
    return (*heads, *(_moved(head, over) for head in heads))


def _moved(head: Head, by: float) -> Head:
    return Head(head.column, head.words, head.x0 + by, head.x1 + by, tuple(x + by for x in head.levels))
