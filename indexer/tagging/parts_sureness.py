"""How sure a part number is that OCR read: by the confidence of its words, by its shape and by the number
index of the same catalog. What is not sure is flagged, never put right."""

import re
from collections.abc import Sequence
from dataclasses import replace

from indexer.tagging.parts_rows import IndexedNumber, PartsRow, RowFlag
from indexer.trade.evidence import Origin
from indexer.trade.part_numbers import normalised

_FLOOR = 0.8  # confidence below which a word read by OCR is doubtful; that of the setting ocr_floor
_SHAPE = re.compile(r"(?=[A-Z0-9./ -]*[0-9])[A-Z0-9]+(?:[-/. ]?[A-Z0-9]+)*")


def with_doubts(rows: Sequence[PartsRow], index: Sequence[IndexedNumber]) -> tuple[PartsRow, ...]:
    """The same rows; a number read by OCR that is not sure is flagged."""
    indexed = {normalised(each.part_number) for each in index}
    return tuple(
        replace(row, flags=(*row.flags, RowFlag.DOUBTFUL_NUMBER)) if _is_doubtful(row, indexed) else row
        for row in rows
    )


def _is_doubtful(row: PartsRow, indexed: set[str]) -> bool:
    if row.origin is Origin.DIGITAL or not row.part_number or RowFlag.PART_NUMBER in row.flags:
        return False
    if row.confidence is None or row.confidence < _FLOOR or not _SHAPE.fullmatch(row.part_number):
        return True
    return bool(indexed) and normalised(row.part_number) not in indexed
