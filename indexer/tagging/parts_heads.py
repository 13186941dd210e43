"""Column heads over a parts list or a number index, in one to four printed rows."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from indexer.tagging.parts_head_words import (
    HEAD_WORDS,
    Column,
    column_named,
    head_word,
    is_item_over_number,
    is_level,
    is_number_over_name,
    is_of_another_list,
)
from indexer.tagging.parts_lines import PlacedWord, PrintedRow

_MOST_ROWS = 4  # of one head
_STRANGE_WORDS = 5  # words of a row, to one that no head we know has
_PIECES_OF_A_HEAD = 4  # or more, of a row with such a word
_PIECES_KNOWN = 3  # different columns named by pieces of a row that has strange words
_ROW_PITCH = 2.2  # times its height: rows of one head stand closer


@dataclass(frozen=True, slots=True)
class Head:
    """One column's head: where it is printed. levels: left edges of the figures 1 to 7 under it."""

    column: Column
    words: str
    x0: float
    x1: float
    levels: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class TableHead:
    """The heads of one table, or of several that stand side by side: a column that comes again begins the
    next one. first, last: 0-based places of its printed rows."""

    heads: tuple[Head, ...]
    first: int
    last: int

    @property
    def is_parts_list(self) -> bool:
        """Numbers and names, and besides them items, units or usage: more than a list of names."""
        columns = {head.column for head in self.heads}
        if {Column.ITEM_OVER_NUMBER, Column.NOMENCLATURE} <= columns:
            return not self.is_another_list
        if any(head.words.startswith("NEW ") for head in self.heads if head.column is Column.PART_NUMBER):
            return {Column.ITEM, Column.NOMENCLATURE} <= columns  # without items: what a bulletin supplies
        beside = columns & {Column.ITEM, Column.FIGURE, Column.UNITS}
        both = {Column.PART_NUMBER, Column.NOMENCLATURE} <= columns or Column.NUMBER_OVER_NAME in columns
        return both and bool(beside) and not self.is_another_list

    @property
    def is_another_list(self) -> bool:
        """A column that no parts list has: prices, intervals, torques, pages' dates."""
        return any(head.column is Column.OTHER and is_of_another_list(head.words) for head in self.heads)

    @property
    def is_number_index(self) -> bool:
        """Numbers with the figure and item of each, and no names."""
        columns = {head.column for head in self.heads}
        placed = Column.FIGURE in columns or any(
            head.column is Column.ITEM and re.search(r"FIG|PLATE", head.words.upper()) for head in self.heads
        )
        return Column.PART_NUMBER in columns and Column.NOMENCLATURE not in columns and placed


def find_heads(rows: Sequence[PrintedRow], *, fuzzy: bool) -> list[TableHead]:
    """Every head of a parts list or number index among the rows; fuzzy: letters may be misread (OCR)."""
    found: list[TableHead] = []
    at = 0
    while at < len(rows):
        head = _head_at(rows, at, fuzzy)
        if head is None:
            at += 1
        else:
            found.append(head)
            at = head.last + 1
    return found


def _head_at(rows: Sequence[PrintedRow], first: int, fuzzy: bool) -> TableHead | None:
    """The head that begins on this row; of several lengths the one that names most columns."""
    if not _may_be_head(rows[first], fuzzy) or all(is_level(word.text) for word in rows[first].words):
        return None  # figures alone may be callouts of the art above
    best: TableHead | None = None
    for last in range(first, min(first + _MOST_ROWS, len(rows))):
        if last > first:
            gap = rows[last].middle - rows[last - 1].middle
            if gap > _ROW_PITCH * (rows[last].bottom - rows[last].top) or not _may_be_head(rows[last], fuzzy):
                break
        heads = _heads_of(rows[first : last + 1], fuzzy)
        table = TableHead(heads, first, last)
        if not (table.is_parts_list or table.is_number_index):
            continue
        if best is None or _known(table) >= _known(best):
            best = table
    return best


def _known(table: TableHead) -> float:
    """More columns known are better, and more words of them; heads that are not known count against."""
    known = [head for head in table.heads if head.column is not Column.OTHER]
    return len(known) - 2 * (len(table.heads) - len(known)) + 0.01 * sum(len(head.words) for head in known)


def _may_be_head(row: PrintedRow, fuzzy: bool) -> bool:
    """Quick look: only words that may stand in a head."""
    words = [head_word(word.text, fuzzy) for word in row.words]
    strange = sum(not (word in HEAD_WORDS or is_level(word) or not word) for word in words)
    if strange and not fuzzy and len(row.pieces) < _PIECES_OF_A_HEAD:
        return False  # prose that names columns is one piece
    return bool(words) and (strange <= len(words) // _STRANGE_WORDS or _names_columns(row, fuzzy))


def _names_columns(row: PrintedRow, fuzzy: bool) -> bool:
    """Whether most pieces of a row name columns, the part number's among them; the others may name any."""
    named = [
        column_named(" ".join(head_word(word.text, fuzzy) for word in piece.words)) for piece in row.pieces
    ]
    known = [column for column in named if column is not Column.OTHER]
    return len(set(known)) >= _PIECES_KNOWN and Column.PART_NUMBER in known


def _heads_of(rows: Sequence[PrintedRow], fuzzy: bool) -> tuple[Head, ...]:
    """The heads of the rows taken as one head, left to right."""
    levels = tuple((row, word) for row in rows for word in _level_words(row))
    level_ids = {id(word) for _, word in levels}
    groups: list[list[PlacedWord]] = []
    for piece in (piece for row in rows for piece in row.pieces):
        words = [word for word in piece.words if id(word) not in level_ids]
        for part in _split(words, fuzzy) if words else ():
            groups.append(part)
    columns = _overlapping(groups)
    heads = []
    for words in columns:
        text = " ".join(filter(None, (head_word(word.text, fuzzy) for word in words)))
        column = column_named(text)
        if is_number_over_name(text) and len({round(word.box.top) for word in words}) > 1:
            column = Column.NUMBER_OVER_NAME
        elif is_item_over_number(text) and len({round(word.box.top) for word in words}) > 1:
            column = Column.ITEM_OVER_NUMBER
        x0, x1 = min(word.box.x0 for word in words), max(word.box.x1 for word in words)
        heads.append(Head(column, text, x0, x1))
    heads.sort(key=lambda head: head.x0)
    heads = _last_number_is_units(heads)
    return tuple(_with_levels(heads, [word for _, word in levels]))


def _last_number_is_units(heads: list[Head]) -> list[Head]:
    """ "No. | Part No. | Name | No.": the last is how many."""
    columns = [head.column for head in heads]
    last = heads[-1]
    if Column.UNITS in columns or columns.count(Column.ITEM) != 2 or columns.count(Column.PART_NUMBER) != 1:
        return heads
    if last.column is not Column.ITEM:
        return heads
    return [*heads[:-1], Head(Column.UNITS, last.words, last.x0, last.x1)]


def _level_words(row: PrintedRow) -> list[PlacedWord]:
    """The figures 1 to 7 over the nomenclature, which stand for the indenture."""
    words = [word for word in row.words if is_level(word.text.strip("."))]
    together = "".join(word.text.strip(".") for word in words)
    return words if is_level(together) and len(together) >= 3 else []


def _with_levels(heads: Sequence[Head], levels: Sequence[PlacedWord]) -> list[Head]:
    """Heads, the nomenclature's with the left edges of its figures."""
    if not levels:
        return list(heads)
    edges: list[float] = []
    for word in levels:
        text = word.text.strip(".")
        edges += [word.box.x0 + word.box.width * place / len(text) for place in range(len(text))]
    made = []
    for head in heads:
        if head.column is Column.NOMENCLATURE:
            wide = Head(
                head.column, head.words, min(head.x0, edges[0]), max(head.x1, levels[-1].box.x1), tuple(edges)
            )
            made.append(wide)
        else:
            made.append(head)
    return made


def _split(words: Sequence[PlacedWord], fuzzy: bool) -> list[list[PlacedWord]]:
    """One piece of a head as it stands, or cut where several heads are printed close together."""
    texts = [head_word(word.text, fuzzy) for word in words]
    if len(words) < 3 or column_named(" ".join(filter(None, texts))) is not Column.OTHER:
        return [list(words)]
    best: tuple[float, list[int]] | None = None
    gaps = [right.box.x0 - left.box.x1 for left, right in pairwise(words)]
    for mask in range(1, 1 << min(len(gaps), 8)):
        cuts = [place + 1 for place in range(len(gaps)) if mask >> place & 1]
        bounds = [0, *cuts, len(words)]
        if any(column_named(" ".join(filter(None, texts[a:b]))) is Column.OTHER for a, b in pairwise(bounds)):
            continue
        score = sum(gaps[cut - 1] for cut in cuts) / len(cuts) - len(cuts) * 0.5
        if best is None or score > best[0]:
            best = (score, bounds)
    return [list(words[a:b]) for a, b in pairwise(best[1])] if best else [list(words)]


def _overlapping(groups: Sequence[list[PlacedWord]]) -> list[list[PlacedWord]]:
    """Groups of words that stand over one another, joined from top to bottom."""
    columns: list[list[PlacedWord]] = []
    for group in groups:
        x0, x1 = group[0].box.x0, group[-1].box.x1
        over = [
            column
            for column in columns
            if min(x1, max(word.box.x1 for word in column)) - max(x0, min(word.box.x0 for word in column)) > 0
        ]
        if not over:
            columns.append(list(group))
            continue
        over[0].extend(group)
        for other in over[1:]:
            over[0].extend(other)
            columns.remove(other)
    return columns


def side_by_side(heads: Sequence[Head]) -> list[tuple[int, int]]:
    """The tables that share one head, as (first, past last) of the heads: the first column that comes again
    begins the next table."""
    if not heads:
        return []
    if sum(head.column is Column.PART_NUMBER for head in heads) < 2:
        return [(0, len(heads))]
    first = next((head.column for head in heads if head.column is not Column.OTHER), heads[0].column)
    starts = [place for place, head in enumerate(heads) if head.column is first]
    starts[0] = 0
    return list(pairwise([*starts, len(heads)]))
