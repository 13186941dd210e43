"""Usage (effectivity) codes of a parts list, and what its footnotes and front pages say that they mean."""

from collections.abc import Mapping, Sequence

from indexer.reading.page import Page
from indexer.tagging.parts_rows import PartsFigure, PartsRow, UsageCode


def read_usage(text: str) -> tuple[str, ...]:
    """The codes of a usage cell in printed order: "A,B", "A/B", "AB" -> A, B; a model's name stays whole."""
    return ()


def usage_words(lines: Sequence[tuple[int, str]]) -> Mapping[str, UsageCode]:
    """Codes that the lines explain: "A  MODEL QZ62 S/N 001-050", "CODE A: ...", "A = ...".

    lines  (pdf_page, text), in printed order: the lines under one figure's list, or of the front pages
    A code explained twice in different words is left out: which of the two holds is not guessed.
    """
    return {}


def with_usage(
    rows: Sequence[PartsRow], figures: Sequence[PartsFigure], pages: Sequence[Page]
) -> tuple[PartsRow, ...]:
    """The same rows; each code with the words of its figure's pages, else of the front pages."""
    return tuple(rows)
