"""Page blocks: what kind of work a page holds, by its printed number and its manual's type."""

import re
from dataclasses import dataclass
from functools import cache

from indexer.trade.chapter_tables import read_table
from indexer.trade.publication_types import PublicationType

# Which of the four sets of blocks in tables/page_blocks.csv a manual prints. Service, propeller and flight
# manuals number their pages in ways of their own, so their pages are in no block.
_BLOCKS_OF = {
    PublicationType.MAINTENANCE_MANUAL: "maintenance",
    PublicationType.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS: "maintenance",
    PublicationType.STANDARD_PRACTICES_MANUAL: "maintenance",
    PublicationType.ENGINE_MANUAL: "engine",
    PublicationType.COMPONENT_MAINTENANCE_MANUAL: "component",
    PublicationType.STRUCTURAL_REPAIR_MANUAL: "structural",
}
_PRINTED_PAGE = re.compile(
    r"(?:(?:page|pg\.?|p\.)\s*)?(?P<page>[0-9]{1,5})(?:[A-Z]|\.[0-9]{1,2})?", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class PageBlock:
    """A run of printed pages, both ends included, and the title the specification gives it.

    The maintenance manual's "Approved repairs" (801) is a title: it is no proof of approval.
    """

    title: str
    first: int
    last: int
    source: str


@cache
def page_blocks(manual: str) -> tuple[PageBlock, ...]:
    """The blocks of one set, in order: "maintenance", "engine", "component" or "structural"."""
    return tuple(
        PageBlock(row["title"], int(row["first"]), int(row["last"]), row["source"])
        for row in read_table("page_blocks.csv")
        if row["manual"] == manual
    )


def page_block(publication_type: PublicationType | None, printed_page: str) -> PageBlock | None:
    """The block of a page that carries a chapter-section-subject number; None when none is sure.

    printed_page is the text on the page: "401", "401A", "401.1", "Page 401". "T-1", "LEP-1", "iv", "5-12" are
    in no block. A component manual's pages 1001 to 1999 are in none either: they are the parts list in the
    older numbering and testing in the newer (from memory). Pages of a manual with its own order have no
    block: do not ask.
    """
    manual = _BLOCKS_OF.get(publication_type)
    match = _PRINTED_PAGE.fullmatch(printed_page.strip())
    if manual is None or match is None:
        return None
    page = int(match["page"])
    return next((block for block in page_blocks(manual) if block.first <= page <= block.last), None)
