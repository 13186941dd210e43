"""Item numbers in the text layer of a figure's pages: the callouts of the rows."""

from collections.abc import Sequence

from indexer.reading.page import Page
from indexer.tagging.parts_rows import PartsFigure, PartsRow


def with_callouts(
    figures: Sequence[PartsFigure], rows: Sequence[PartsRow], pages: Sequence[Page]
) -> tuple[PartsRow, ...]:
    """The same rows, each with the places of its item number on its figure's art pages."""
    return tuple(rows)
