"""What the catalogue hands out of parts lists. Values only."""

from dataclasses import dataclass

from indexer.tagging.parts_rows import IndexedNumber, PartsFigure, PartsRow

RowKey = tuple[str, int]  # publication id, ordinal of the row in it


@dataclass(frozen=True, slots=True)
class PartRecord:
    """One row of a parts list and where it is kept."""

    publication_id: str
    printed_page: str  # of the page it begins on; "" = none was found
    row: PartsRow

    @property
    def id(self) -> str:
        return row_id(self.key)

    @property
    def key(self) -> RowKey:
        return self.publication_id, self.row.ordinal


@dataclass(frozen=True, slots=True)
class NumberedRow:
    """What of a row tells its number and its place."""

    publication_id: str
    ordinal: int
    figure: int  # ordinal of its figure
    item: str
    part_number: str
    origin: str

    @property
    def key(self) -> RowKey:
        return self.publication_id, self.ordinal


@dataclass(frozen=True, slots=True)
class CountedNumber:
    """A part number as printed in one publication, and how many rows there have it."""

    publication_id: str
    part_number: str
    origin: str
    rows: int


@dataclass(frozen=True, slots=True)
class PlacedRow:
    """What of a row tells its place in the tree of its figure."""

    publication_id: str
    ordinal: int
    figure: int  # ordinal of its figure
    item: str
    above: tuple[int, ...]  # ordinals of the next higher assembly and of its variants, the nearest first
    nomenclature: str

    @property
    def key(self) -> RowKey:
        return self.publication_id, self.ordinal


@dataclass(frozen=True, slots=True)
class FigureRecord:
    """One figure of a parts list."""

    publication_id: str
    figure: PartsFigure

    @property
    def id(self) -> str:
        return figure_id(self.publication_id, self.figure.ordinal)


@dataclass(frozen=True, slots=True)
class IndexedRecord:
    """One line of a number index."""

    publication_id: str
    printed_page: str
    line: IndexedNumber


def row_id(key: RowKey) -> str:
    return f"{key[0]}-part-{key[1]}"


def figure_id(publication_id: str, ordinal: int) -> str:
    return f"{publication_id}-figure-{ordinal}"
