"""Words for parts lists that pages, JSON API, command and CSV files share. Pure."""

import re
from collections.abc import Sequence
from functools import lru_cache

from indexer.tagging.parts_rows import PartNoteKind
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Origin
from indexer.trade.part_numbers import Match, compare

CAUTION = (
    "A parts list shows how the maker put a thing together. It never proves by itself that a part may be "
    "installed: the directives, the type certificate and its supplements, the bulletins and the part's own "
    "papers decide, and the person who signs."
)
OCR_CAUTION = "Some of these rows were read by OCR, which may misread figures: compare each with its page."
SUPERSEDED_CAUTION = (
    "Rows of superseded publications are shown after the others. Do not order or fit from them."
)
SUPPLIER_WORDS = (
    "It may be the code of a supplier: rows are not found by those here. Search the text of the pages for it."
)
GROUPS = {  # in the order shown
    "exact": "The same number",
    "normalised": "The same number written otherwise",
    "loose": "Looks alike (O and 0, I and 1, S and 5, B and 8, rn and m), or read by OCR: compare the page",
    "named": "In no row of its own: named in the row of another part",
    "figure and item": "At this place of the parts list",
    "words": "All the words stand in the row",
    "other words": "Under another word",
    "assembly words": "A word stands in the assembly above it or in the title of its figure",
}


def reads_by_ocr(origin: Origin) -> bool:
    return origin is not Origin.DIGITAL


@lru_cache(16_384)
def is_same(a: str, b: str) -> bool:
    """Whether two part numbers are the same number, written one way or another."""
    return compare(a, b) in (Match.EXACT, Match.NORMALISED)


def ocr_words(origin: Origin, confidence: float | None, floor: float) -> str:
    """How sure OCR was of a row; "" = it was not read by OCR.

    confidence  of the least sure word of its item, number and units; None = not known
    floor       the setting ocr_floor
    """
    if not reads_by_ocr(origin):
        return ""
    how = "read by OCR" if origin is Origin.OCR else "read by OCR, from a hidden text layer"
    if confidence is None:
        return f"{how}; how surely is not known: compare with the page"
    if confidence < floor:
        return f"{how}, and not surely: compare with the page"
    return f"{how}: compare with the page"


@lru_cache(16_384)
def folded_number(text: str) -> str:
    """A figure, item or section number for comparing: capitals, plain dashes, no leading zeros in a part."""
    plain = re.sub(r"\s+", "", plain_dashes(text)).upper().strip("-.")
    return "-".join(part.lstrip("0") or "0" for part in re.split("[-.]", plain)) if plain else ""


def place_words(figure: str, item: str, section: str = "") -> str:
    """ "figure 14, item 7", "32-42-00 figure 14, item 7": books by chapter begin each with figure 1."""
    section = "" if section and section in figure else section
    named = " ".join(filter(None, (section, f"figure {figure}" if figure else "")))
    parts = [named, f"item {item}" if item else ""]
    return ", ".join(part for part in parts if part) or "a place that was not read"


def not_read_words(pages: int, rows: int) -> str:
    """What no answer about parts can show; "" = nothing."""
    parts = []
    if pages:
        have = "1 page has" if pages == 1 else f"{pages:,} pages have"
        parts.append(f"{have} no text that can be searched: parts listed there are not found.")
    if rows:
        of = "1 row" if rows == 1 else f"{rows:,} rows"
        parts.append(f"The part number of {of} could not be read.")
    return " ".join(parts)


def joined(words: Sequence[str]) -> str:
    """ "a, b and c"."""
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


DIRECTIONS = {  # from the part of the row to the number it names
    PartNoteKind.SUPERSEDED_BY: "replaced_by",
    PartNoteKind.REPLACED_BY: "replaced_by",
    PartNoteKind.SUPERSEDES: "replaces",
    PartNoteKind.REPLACES: "replaces",
    PartNoteKind.OPTIONAL: "either_way",
    PartNoteKind.ALTERNATE: "either_way",
    PartNoteKind.ORDER: "order",
}
BACKWARD = {"replaced_by": "replaces", "replaces": "replaced_by", "either_way": "either_way"}
