"""A printed line that has the form of a row of a parts list, where no heads say what its columns are."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_lines import Piece, PlacedWord, PrintedRow
from indexer.tagging.parts_loose_words import (
    is_divided_number,
    is_item,
    is_name,
    is_number,
    is_sentence,
    is_short_number,
    is_units,
)

SAME_COLUMN = 4.0  # points
_FEWEST_OF_A_RUN = 4  # lines with their numbers under one another: a list, whatever stands over it


@dataclass(slots=True)
class LooseLine:
    """A printed line, or the half of one, that has the form of a row. number: of its words, the first that
    is a part number; alone: nothing but an item stands in one piece with it."""

    row: PrintedRow
    words: list[PlacedWord]
    number: int
    alone: bool

    @property
    def x0(self) -> float:
        return self.words[self.number].box.x0


def halves(row: PrintedRow, columns: Sequence[float]) -> Iterator[tuple[Piece, ...]]:
    """The pieces of a line, cut where an item and a number begin the row of a list beside it."""
    start = 0
    for place, piece in enumerate(row.pieces[:-1]):
        begun = not all(is_item(each.text) or is_units(each.text) for each in row.pieces[start:place])
        after = row.pieces[place + 1]
        follows = is_number(after.text) or (stands_in(after.x0, columns) and is_short_number(after.text))
        if begun and follows and is_item(piece.text):
            yield row.pieces[start:place]
            start = place
    yield row.pieces[start:]


def read_line(row: PrintedRow, pieces: Sequence[Piece], columns: Sequence[float]) -> LooseLine | None:
    """The line when it has the form of a row: [item] number name, or [item] name number, [units]."""
    words = [word for piece in pieces for word in piece.words]
    texts = [word.text for word in words]
    number = next(
        (place for place in range(len(texts)) if is_number(texts[place], before=texts[:place])), None
    )
    short = _in_column(words, columns)
    if short is not None and (number is None or short < number):
        number = short
    if number is None or is_sentence(texts):
        return None
    alone = any(
        piece.words[-1] is words[number] and all(is_item(word.text) for word in piece.words[:-1])
        for piece in pieces
    )
    before, after = texts[:number], texts[number + 1 :]
    if after and is_units(after[-1]):
        after = after[:-1]
    has_item = any(is_item(text) for text in before)
    if all(is_item(text) or is_units(text) for text in before):
        named = is_name(after)
        fits = alone and (named or has_item) and (named or not after)
        return LooseLine(row, words, number, alone) if fits or (named and has_item) else None
    plain = [text for text in before if not is_item(text)]
    return LooseLine(row, words, number, alone) if alone and is_name(plain) else None


def _in_column(words: Sequence[PlacedWord], columns: Sequence[float]) -> int | None:
    """Place of a short number ("KP6A"), or of one that goes on below ("KT28-"), behind an item."""
    for place, word in enumerate(words[1:], start=1):
        short = stands_in(word.box.x0, columns) and is_short_number(word.text)
        if short or is_divided_number(word.text):
            before = words[place - 1].text
            return place if is_item(before) or is_units(before) else None
    return None


def stands_in(x0: float, columns: Sequence[float]) -> bool:
    return any(abs(x0 - column) <= SAME_COLUMN for column in columns)


def number_columns(lines: Sequence[LooseLine]) -> list[float]:
    """Where the numbers of runs of rows begin, those of several lists beside one another; empty = no run."""
    starts = sorted(line.x0 for line in lines if line.alone or len(line.words) > 2)
    found: list[float] = []
    while starts:
        best = max(([x for x in starts if start <= x <= start + SAME_COLUMN] for start in starts), key=len)
        if len(best) < _FEWEST_OF_A_RUN:
            break
        found.append(best[len(best) // 2])
        starts = [x for x in starts if x not in best]
    return found


def line_cells(line: LooseLine, columns: Sequence[float]) -> dict[Column, list[PlacedWord]]:
    """The words by column as far as they are plain. A number that stands with others under one another is
    told by that; another only when no second word of the line looks like one."""
    texts = [word.text for word in line.words]
    numbers = [place for place in range(len(texts)) if is_number(texts[place], before=texts[:place])]
    stands = stands_in(line.x0, columns)
    beside = sum(_is_alone(line, place) for place in numbers)
    told = len(numbers) < 2 or (stands and line.alone and beside == 1)
    cells: dict[Column, list[PlacedWord]] = {}
    for place, word in enumerate(line.words):
        if place == line.number and told:
            kind = Column.PART_NUMBER
        elif place == 0 and line.number and is_item(word.text):
            kind = Column.ITEM
        elif place == len(texts) - 1 and place > line.number and is_units(word.text):
            kind = Column.UNITS if stands else Column.OTHER
        elif place in numbers and not told:
            kind = Column.OTHER
        else:
            kind = Column.NOMENCLATURE if place > line.number else Column.OTHER
        cells.setdefault(kind, []).append(word)
    return cells


def _is_alone(line: LooseLine, place: int) -> bool:
    """Whether a number is a piece of its own, with no more than an item before it."""
    return any(
        piece.words[-1] is line.words[place] and all(is_item(word.text) for word in piece.words[:-1])
        for piece in line.row.pieces
    )
