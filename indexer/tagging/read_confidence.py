"""How sure OCR was of the words of a quote: the least confidence among them. None for digital text."""

from collections.abc import Iterable

from indexer.reading.page import Page, Word
from indexer.trade.evidence import Box, Origin


def least_confidence(words: Iterable[Word]) -> float | None:
    """0.0 to 1.0; None when none of the words was read by OCR."""
    return min((word.confidence for word in words if word.confidence is not None), default=None)


def confidence_at(page: Page, box: Box) -> float | None:
    """Of the words whose middle lies in the box. Boxes as displayed, in points."""
    if page.origin is not Origin.OCR:
        return None
    lines = (*page.head, *page.body, *page.foot)
    return least_confidence(word for line in lines for word in line.words if _is_in(word.box, box))


def _is_in(word: Box, box: Box) -> bool:
    x, y = (word.x0 + word.x1) / 2, (word.top + word.bottom) / 2
    return box.x0 <= x <= box.x1 and box.top <= y <= box.bottom
