"""Pages of a list -> its rows, taken apart into the groups of columns that stand side by side.

A list of effective pages often prints two or three groups of "page, date" beside each other. Each group
ends at its column of dates, or of change numbers where the list gives no dates.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from indexer.reading.page import Page, Word
from indexer.tagging.flow import one_line, plain
from indexer.tagging.page_dates import dates_of
from indexer.trade.evidence import Box

_NEAR = 0.5  # of a word's height: how far two words of one row may differ in height
_STATUS = re.compile(r"[*+#\u2020\u2021|]|\(?[ADRNCO]\)?")
_SAME_COLUMN = 14.0  # points: how far the right edges of one column of dates may differ ...
_APART = 60.0  # ... and how far where no row has two: dates behind leaders may end unevenly
_MARK_REACH = 30.0  # points behind the dates within which a mark may belong to them
_LEAST_SHARE = 0.25  # of the largest column of dates that a column of dates has at least


@dataclass(frozen=True, slots=True)
class GroupRow:
    """The words of one row that stand in one group of columns.

    alone  True when no other group has words on this row
    """

    group: int
    words: tuple[Word, ...]
    alone: bool

    @property
    def text(self) -> str:
        return one_line(plain(" ".join(word.text for word in self.words)))

    @property
    def box(self) -> Box:
        box = self.words[0].box
        for word in self.words[1:]:
            box = box.union(word.box)
        return box


def group_rows(page: Page, top: float = 0.0) -> list[GroupRow]:
    """The rows of a page in the order they are read: group after group, top to bottom.

    top  points; what begins above it is left out
    Where headings stand over all groups together, the groups between two headings are read row by row.
    """
    rows = _printed_rows(word for line in page.body if line.box.top >= top for word in line.words)
    ends = _group_ends(rows)
    split = [_split(row, ends) for row in rows]
    groups = max(len(ends), 1)
    if groups > 1 and _reads_across(split):
        return [row for each in split for row in each]
    return [row for group in range(groups) for each in split for row in each if row.group == group]


def _printed_rows(words: Iterable[Word]) -> list[list[Word]]:
    rows: list[list[Word]] = []
    for word in sorted(words, key=lambda word: (word.box.top + word.box.bottom, word.box.x0)):
        middle = (word.box.top + word.box.bottom) / 2
        last = rows[-1][-1].box if rows else None
        if last and abs((last.top + last.bottom) / 2 - middle) <= _NEAR * max(word.box.height, 1.0):
            rows[-1].append(word)
        else:
            rows.append([word])
    return [sorted(row, key=lambda word: word.box.x0) for row in rows]


def _group_ends(rows: Sequence[Sequence[Word]]) -> list[float]:
    """The right edge of each column of dates, left to right; () when the page has none."""
    columns: list[list[tuple[float, int]]] = []  # (right edge, row) of its dates
    dates = sorted((edge, place) for place, row in enumerate(rows) for edge in _date_edges(row))
    for edge, place in dates:
        last = columns[-1] if columns else [(-_APART, -1)]
        beside = any(place == other for _, other in last)
        if edge - last[-1][0] <= (_SAME_COLUMN if beside else _APART):
            last.append((edge, place))
        else:
            columns.append([(edge, place)])
    most = max((len(column) for column in columns), default=0)
    return [column[-1][0] for column in columns if _is_group(column, columns, most)]


def _is_group(column: Sequence[tuple], columns: Sequence[Sequence[tuple]], most: int) -> bool:
    """Not a date of a heading or a sentence, which stands alone; a short last group stands at the right."""
    return len(column) >= max(min(most, 2), _LEAST_SHARE * most) or column is columns[-1]


def _date_edges(row: Sequence[Word]) -> list[float]:
    """The right edges of the dates on a row."""
    text, ends = "", []
    for word in row:
        text += f"{plain(word.text)} "
        ends.append((len(text) - 1, word.box.x1))
    return [next(edge for end, edge in ends if end >= found.end) for found in dates_of(text, None)]


def _split(row: Sequence[Word], ends: Sequence[float]) -> list[GroupRow]:
    groups: list[list[Word]] = [[] for _ in range(max(len(ends), 1))]
    for word in row:
        group = next((place for place, end in enumerate(ends) if word.box.x0 < end), len(groups) - 1)
        if group and groups[group - 1] and not groups[group] and _is_mark_behind(word, ends[group - 1], row):
            group -= 1
        groups[group].append(word)
    filled = [place for place, words in enumerate(groups) if words]
    return [GroupRow(place, tuple(groups[place]), len(filled) == 1) for place in filled]


def _is_mark_behind(word: Word, end: float, row: Sequence[Word]) -> bool:
    """Whether a word is a mark of the date before it: one that stands nearer to that than to what follows."""
    if not _STATUS.fullmatch(plain(word.text)) or word.box.x0 > end + _MARK_REACH:
        return False
    left = [other.box.x1 for other in row if other.box.x1 <= word.box.x0 + 0.1 and other is not word]
    right = [other.box.x0 for other in row if other.box.x0 >= word.box.x1 - 0.1 and other is not word]
    return not right or word.box.x0 - max(left) <= min(right) - word.box.x1


def _reads_across(split: Sequence[Sequence[GroupRow]]) -> bool:
    """Whether headings stand over all groups: no row without a date that stands beside another group's row,
    and at least one such row alone, between rows that fill more than one group."""
    dated = [place for place, each in enumerate(split) if len(each) > 1]
    if len(dated) < 2:
        return False
    heads = [
        (place, row)
        for place, each in enumerate(split)
        for row in each
        if not dates_of(row.text, None) and dated[0] < place < dated[-1]
    ]
    return bool(heads) and all(row.alone and row.group == 0 for _, row in heads)
