"""Rows whose item and number stand at half the height of a name of several lines: lines put in reading order.

Such a name begins above the line of its number. In a list set from the top no line overlaps the next, so a
number between two lines of a name that it half overlaps shows that cells are centred.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_table_lines import TableLine

_OVERLAP = 0.9  # of a line's height: lines that stand closer overlap
_EVEN = 1.5  # points


def uncentred(lines: Sequence[TableLine]) -> list[TableLine]:
    """The lines as they are; where cells are centred, each number's line with its name's first line, then
    the others of the name."""
    if not _shows_centred(lines):
        return list(lines)
    anchors = [line for line in lines if not _is_name(line)]
    names: dict[int, list[TableLine]] = {id(line): [line] for line in anchors}
    for line in lines:
        if _is_name(line):
            nearest = min(anchors, key=lambda anchor: abs(anchor.row.middle - line.row.middle))
            names[id(nearest)].append(line)
    return [line for anchor in anchors for line in _in_order(anchor, names[id(anchor)])]


def _shows_centred(lines: Sequence[TableLine]) -> bool:
    found = 0
    for (above, line), (_, below) in pairwise(pairwise(lines)):
        if _is_name(above) and _is_name(below) and not _is_name(line):
            up, down = line.row.middle - above.row.middle, below.row.middle - line.row.middle
            close = max(up, down) < _OVERLAP * (line.row.bottom - line.row.top)
            found += close and abs(up - down) <= _EVEN and Column.NOMENCLATURE not in line.cells
    return found > 0


def _in_order(anchor: TableLine, held: Sequence[TableLine]) -> list[TableLine]:
    """The anchor with the first line of the name, then the name's other lines from top to bottom."""
    named = [line for line in held if Column.NOMENCLATURE in line.cells]
    named.sort(key=lambda line: line.row.middle)
    if not named:
        return [anchor]
    first, *others = named
    whole = replace(anchor, cells={**anchor.cells, Column.NOMENCLATURE: first.cells[Column.NOMENCLATURE]})
    only = [
        replace(line, cells={Column.NOMENCLATURE: line.cells[Column.NOMENCLATURE]}, crossing=False)
        for line in others
    ]
    return [whole, *only]


def _is_name(line: TableLine) -> bool:
    return set(line.cells) == {Column.NOMENCLATURE}
