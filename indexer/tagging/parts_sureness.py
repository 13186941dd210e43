"""How sure a part number is that OCR read: by confidence, shape and the number index of the catalog.

What is not sure is flagged, never put right."""

import re
from collections.abc import Sequence
from dataclasses import replace

from indexer.tagging.parts_rows import IndexedNumber, PartsRow, RowFlag
from indexer.trade.evidence import Origin
from indexer.trade.part_numbers import normalised

DOUBTFUL_BELOW = 0.8  # confidence below which a word read by OCR is doubtful; that of the setting ocr_floor
_SHAPE = re.compile(r"(?=[A-Z0-9./-]*[0-9])[A-Z0-9]+(?:[-/.][A-Z0-9]+)*")


def is_shaped_as_number(text: str) -> bool:
    """Whether a text has the shape of a part number: capitals and figures, parted by hyphens or the like."""
    return bool(_SHAPE.fullmatch(text))


def with_index_doubts(rows: Sequence[PartsRow], index: Sequence[IndexedNumber]) -> tuple[PartsRow, ...]:
    """The same rows; a number read by OCR that the catalog's own index does not hold is flagged."""
    indexed = {normalised(each.part_number) for each in index}
    if not indexed:
        return tuple(rows)
    return tuple(
        replace(row, flags=(*row.flags, RowFlag.DOUBTFUL_NUMBER)) if _is_missing(row, indexed) else row
        for row in rows
    )


def _is_missing(row: PartsRow, indexed: set[str]) -> bool:
    told = RowFlag.PART_NUMBER in row.flags or RowFlag.DOUBTFUL_NUMBER in row.flags
    return row.origin is not Origin.DIGITAL and not told and normalised(row.part_number) not in indexed
