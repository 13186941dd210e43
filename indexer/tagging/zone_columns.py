"""Head and foot lines taken apart where wide white space parts them: left, middle and right of a page's edge.

A foot may hold "32-41-00" over "Page 401" at the right and a box of serial numbers in the middle; read
straight across, the words of the two run into each other.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.page import Line, Word
from indexer.tagging.flow import plain
from indexer.trade.evidence import Box

_WIDE_GAP = 1.8  # of the font size


@dataclass(frozen=True, slots=True)
class Segment:
    """Words of one line that stand together, with their box."""

    words: tuple[Word, ...]
    box: Box
    line: Line

    @property
    def text(self) -> str:
        """The words, dashes and quotes plain."""
        return plain(" ".join(word.text for word in self.words))

    def as_line(self) -> Line:
        """The segment as a line of its own."""
        return Line(self.words, self.box, self.line.column, self.line.heading_level)


def segments(line: Line) -> list[Segment]:
    """The line cut at its wide gaps, left to right."""
    groups: list[list[Word]] = []
    for word in line.words:
        if groups and word.box.x0 - groups[-1][-1].box.x1 <= _WIDE_GAP * max(word.font_size, 1.0):
            groups[-1].append(word)
        else:
            groups.append([word])
    return [_segment(group, line) for group in groups]


def zone_columns(lines: Sequence[Line]) -> list[list[Segment]]:
    """Segments gathered into columns: those that lie above each other, top to bottom; columns left to
    right."""
    columns: list[list[Segment]] = []
    for line in lines:
        for segment in segments(line):
            column = next((each for each in columns if _overlap(each, segment)), None)
            if column is None:
                columns.append([segment])
            else:
                column.append(segment)
    for column in columns:
        column.sort(key=lambda segment: segment.box.top)
    return sorted(columns, key=lambda column: column[0].box.x0)


def _overlap(column: list[Segment], segment: Segment) -> bool:
    return any(
        min(one.box.x1, segment.box.x1) - max(one.box.x0, segment.box.x0) > 0
        or abs(one.box.x0 - segment.box.x0) < 6
        or abs(one.box.x1 - segment.box.x1) < 6
        for one in column
    )


def _segment(words: list[Word], line: Line) -> Segment:
    box = words[0].box
    for word in words[1:]:
        box = box.union(word.box)
    return Segment(tuple(words), box, line)
