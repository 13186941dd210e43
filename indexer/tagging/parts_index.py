"""Lines of a numerical index: part number -> figure and item, quantity; the index held against the rows."""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.tagging.parts_rows import IndexedNumber, PartsList
from indexer.trade.evidence import Box, Origin


def read_index_line(
    cells: Sequence[str],
    *,
    pdf_page: int,
    box: Box,
    heads: Sequence[str] = (),
    before: str = "",
    origin: Origin = Origin.DIGITAL,
) -> IndexedNumber | None:
    """One printed line of one column of a numerical index; None when it is no line of an index.

    cells   its words or cells from left to right; with `heads` one cell a column, "" = empty
    heads   the column heads as printed, when they are known: "PART NUMBER", "FIG", "ITEM", "QTY" ...
    before  part number of the line above: a line without one goes on with it
    """
    return None


@dataclass(frozen=True, slots=True)
class IndexCheck:
    """What the index and the rows of one catalog do not tell alike.

    not_in_index  ordinals of rows whose part number no index line holds
    not_in_rows   places (0-based) in `PartsList.index` of lines whose part number no row holds
    elsewhere     places in the index of lines whose part number has rows, but none at that figure and item
    """

    not_in_index: tuple[int, ...] = ()
    not_in_rows: tuple[int, ...] = ()
    elsewhere: tuple[int, ...] = ()


def index_against_rows(parts: PartsList) -> IndexCheck:
    """The numerical index of a catalog held against its rows; empty when it prints no index."""
    return IndexCheck()
