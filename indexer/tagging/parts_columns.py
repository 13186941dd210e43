"""Where the columns of a parts table lie, by its heads and by the white between its rows' pieces; a printed
row cut into its cells."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import median

from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_heads import Head
from indexer.tagging.parts_lines import Piece, PlacedWord, PrintedRow

_STEP = 1.0  # points: how finely the white between columns is looked for
_LEAST_PIECES = 3  # of a row that shows where columns lie
_NOISE = 0.04  # of such rows may have a piece in the white
_SAME_START = 3.0  # points
_WIDER = 1.3  # times the other gaps of a piece: a gap at a column's edge that parts two cells
_UNITS = re.compile(r"[0-9]{1,4}|A/?R|REF|RF|NP")
_ITEMS = re.compile(r"-?[0-9]{1,3}[A-Z]?|-")
_AWAY = 8.0  # points, between a head and a column whose own head was not read
_FEWEST_SHAPED = 3
_SHAPED_SHARE = 0.7
_MARGIN_MARKS = frozenset(["R", "|", "*", "#", "+", "N", "C"])  # revision marks left of a table


@dataclass(frozen=True, slots=True)
class Columns:
    """Heads from left to right, the cuts between them (one fewer), and where each column's cells begin."""

    heads: tuple[Head, ...]
    cuts: tuple[float, ...]
    starts: tuple[float | None, ...]

    def place(self, x: float) -> int:
        """Which column holds this x."""
        return sum(x >= cut for cut in self.cuts)


@dataclass(slots=True)
class CutRow:
    """One printed row, its words by the place of their column. crossing: a piece runs on over a cut."""

    row: PrintedRow
    cells: dict[int, list[PlacedWord]] = field(default_factory=dict)
    crossing: bool = False


def find_columns(heads: Sequence[Head], rows: Sequence[PrintedRow]) -> Columns:
    """The columns under the heads as the rows show them."""
    solid = [row for row in rows if len(row.pieces) >= _LEAST_PIECES]
    if not solid:
        solid = [row for row in rows if len(row.pieces) >= 2]
    pieces = [piece for row in solid for piece in row.pieces]
    heads = _with_lost_heads(heads, pieces)
    cuts: list[float] = []
    if not pieces:
        cuts = [(left.x1 + right.x0) / 2 for left, right in pairwise(heads)]
    else:
        cuts = _cuts(heads, pieces, len(solid))
    bare = Columns(tuple(heads), tuple(cuts), (None,) * len(heads))
    starts: list[Counter[float]] = [Counter() for _ in heads]
    for piece in pieces:
        starts[bare.place(piece.x0 + 0.5)][round(piece.x0)] += 1
    return Columns(bare.heads, bare.cuts, tuple(_usual(counter) for counter in starts))


def _with_lost_heads(heads: Sequence[Head], pieces: Sequence[Piece]) -> list[Head]:
    """The heads, and those of the items at the left or the units at the right when their words were not read
    (OCR): what stands there has the shape of one, well away from every other head."""
    made = list(heads)
    kinds = {head.column for head in heads}
    if not kinds & {Column.ITEM, Column.FIGURE}:
        left = [piece for piece in pieces if piece.x1 < heads[0].x0 - _AWAY]
        if _mostly(left, _ITEMS):
            made.insert(0, _head_over(Column.ITEM, left))
    if Column.UNITS not in kinds:
        right = [piece for piece in pieces if piece.x0 > heads[-1].x1 + _AWAY]
        if _mostly(right, _UNITS):
            made.append(_head_over(Column.UNITS, right))
    return made


def _mostly(pieces: Sequence[Piece], form: re.Pattern[str]) -> bool:
    shaped = sum(bool(form.fullmatch(piece.text)) for piece in pieces)
    return shaped >= _FEWEST_SHAPED and shaped >= _SHAPED_SHARE * len(pieces)


def _head_over(column: Column, pieces: Sequence[Piece]) -> Head:
    return Head(column, "", min(piece.x0 for piece in pieces), max(piece.x1 for piece in pieces))


def _usual(counter: Counter[float]) -> float | None:
    if not counter:
        return None
    start, count = counter.most_common(1)[0]
    return float(start) if count * 2 >= counter.total() else None


def _cuts(heads: Sequence[Head], pieces: Sequence[Piece], rows: int) -> list[float]:
    """The cuts between neighbouring heads: in the white that runs down between their pieces."""
    left = min(min(piece.x0 for piece in pieces), heads[0].x0)
    right = max(max(piece.x1 for piece in pieces), heads[-1].x1)
    cover = [0] * (int((right - left) / _STEP) + 2)
    for piece in pieces:
        for at in range(int((piece.x0 - left) / _STEP), int((piece.x1 - left) / _STEP) + 1):
            cover[at] += 1
    zones = _zones(cover, int(_NOISE * rows))
    owners = _owners(zones, heads, left)
    cuts: list[float] = []
    for place in range(len(heads) - 1):
        before = [zone for zone, owner in zip(zones, owners, strict=True) if owner <= place]
        after = [zone for zone, owner in zip(zones, owners, strict=True) if owner > place]
        shared = [
            zone
            for zone in zones
            if _touches(zone, heads[place], left) and _touches(zone, heads[place + 1], left)
        ]
        if shared:
            cuts.append(_cut_inside(cover, shared[0], heads[place], heads[place + 1], left))
        elif before and after:
            white = (left + (before[-1][1] + 1) * _STEP, left + after[0][0] * _STEP)
            # The column at the right begins where its cells or its head do: a cell of another row may be
            # longer, at the left of a number set flush right as at the right of a name.
            begin = min(white[1], max(heads[place + 1].x0, white[0]))
            cuts.append(max(begin - 2.0, white[0] + 0.5))
        else:
            cuts.append((heads[place].x1 + heads[place + 1].x0) / 2)
    return [max(cuts[: place + 1]) for place in range(len(cuts))]


def _zones(cover: Sequence[int], noise: int) -> list[tuple[int, int]]:
    """(first, last) of every stretch that pieces cover."""
    zones: list[tuple[int, int]] = []
    for at, count in enumerate(cover):
        if count <= noise:
            continue
        if zones and at - zones[-1][1] <= 2:
            zones[-1] = (zones[-1][0], at)
        else:
            zones.append((at, at))
    return zones


def _touches(zone: tuple[int, int], head: Head, left: float) -> bool:
    return left + zone[0] * _STEP < head.x1 and left + zone[1] * _STEP > head.x0


def _owners(zones: Sequence[tuple[int, int]], heads: Sequence[Head], left: float) -> list[int]:
    """The head whose column each zone is, never going back from left to right."""
    owners: list[int] = []
    for first, last in zones:
        x0, x1 = left + first * _STEP, left + last * _STEP
        near = min(
            range(len(heads)),
            key=lambda place: (
                max(heads[place].x0 - x1, x0 - heads[place].x1, 0.0),
                abs(heads[place].x0 + heads[place].x1 - x0 - x1),
            ),
        )
        owners.append(max(near, owners[-1] if owners else 0))
    return owners


def _cut_inside(cover: Sequence[int], zone: tuple[int, int], one: Head, two: Head, left: float) -> float:
    """The cut between two heads over one zone: where fewest pieces run on, nearest the right one."""
    middle = (one.x0 + one.x1) / 2
    first = max(int((middle - left) / _STEP), zone[0])
    last = min(int(((two.x0 + two.x1) / 2 - left) / _STEP), zone[1])
    if last <= first:
        return (one.x1 + two.x0) / 2
    least = min(cover[first : last + 1])
    places = [at for at in range(first, last + 1) if cover[at] == least]
    return left + min(places, key=lambda at: abs(left + at * _STEP - two.x0)) * _STEP


def cut_row(row: PrintedRow, columns: Columns) -> CutRow:
    """The row's words by column. A piece that reaches over a cut is parted only where its gap is
    wide or where the next column's cells begin."""
    cut = CutRow(row)
    for number, piece in enumerate(row.pieces):
        if (
            number == 0
            and len(row.pieces) > 1
            and piece.text in _MARGIN_MARKS
            and _left_of_all(piece, columns)
        ):
            continue
        groups = [[piece.words[0]]]
        for before, word in pairwise(piece.words):
            if columns.place(_middle(before)) != columns.place(_middle(word)):
                if _parts_here(piece, before, word, columns):
                    groups.append([])
                else:
                    cut.crossing = True
            groups[-1].append(word)
        for group in groups:
            place = columns.place(min(group[0].box.x0 + 1.5, _middle(group[0])))
            cut.cells.setdefault(place, []).extend(group)
    return cut


def _left_of_all(piece: Piece, columns: Columns) -> bool:
    start = columns.starts[0]
    return start is not None and piece.x1 < start - _SAME_START


def _parts_here(piece: Piece, before: PlacedWord, word: PlacedWord, columns: Columns) -> bool:
    if word is piece.words[-1] and columns.heads[columns.place(_middle(word))].column is Column.UNITS:
        return bool(_UNITS.fullmatch(word.text))  # a leader read as words, or a long name, runs up to it
    start = columns.starts[columns.place(_middle(word))]
    if start is not None and abs(word.box.x0 - start) <= _SAME_START:
        return True
    gaps = [b.box.x0 - a.box.x1 for a, b in pairwise(piece.words)]
    here = word.box.x0 - before.box.x1
    return len(gaps) > 1 and here > _WIDER * median(gaps) and here == max(gaps)


def _middle(word: PlacedWord) -> float:
    return (word.box.x0 + word.box.x1) / 2
