"""Evidence from words printed at one place of a page, with how sure OCR was of them."""

from indexer.reading.page import Page
from indexer.tagging.read_confidence import confidence_at
from indexer.trade.evidence import Basis, Box, Evidence


def printed_evidence(page: Page, box: Box, rule: str, quote: str) -> Evidence:
    """box in points, as displayed; the page says whether its words are digital or were read by OCR."""
    return Evidence(
        Basis.PRINTED,
        rule,
        quote,
        page.pdf_page,
        box,
        origin=page.origin,
        confidence=confidence_at(page, box),
    )
