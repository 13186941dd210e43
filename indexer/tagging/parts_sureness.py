"""How sure a part number is that OCR read: by its shape, its letters and the number index of the catalog.

What is not sure is flagged, never put right.
"""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from indexer.tagging.parts_rows import IndexedNumber, PartsRow, RowFlag
from indexer.trade.evidence import Origin
from indexer.trade.part_numbers import normalised

_SHAPE = re.compile(r"(?=[A-Z0-9./-]*[0-9])[A-Z0-9]+(?:[-/.][A-Z0-9]+)*")
_LETTERS = re.compile(r"[A-Z]+")
_STANDARDS = frozenset("AN AND MS NAS NASM AS MIL".split())  # letters that begin numbers of standards
_LIKE_FIGURES = frozenset("OQDISZBG")  # letters that OCR takes figures for
_SEEN_ELSEWHERE = 3  # numbers of one catalog with the same letters: they are no misread figures


def is_shaped_as_number(text: str) -> bool:
    """Whether a text has the shape of a part number: capitals and figures, parted by hyphens or the like."""
    return bool(_SHAPE.fullmatch(text))


def with_number_doubts(rows: Sequence[PartsRow], index: Sequence[IndexedNumber]) -> tuple[PartsRow, ...]:
    """The same rows; a number read by OCR is flagged that the catalog's own index does not hold.

    Without an index: one whose first letters no standard and no other number here has, or with a letter that
    may be a misread figure ("ANS-44A" for AN5-44A).
    """
    indexed = {normalised(each.part_number) for each in index}
    letters = Counter(run for row in rows for run in set(_runs(row.part_number)))
    return tuple(
        replace(row, flags=(*row.flags, RowFlag.DOUBTFUL_NUMBER))
        if _may_be_doubted(row) and _is_doubtful(row.part_number, indexed, letters)
        else row
        for row in rows
    )


def _may_be_doubted(row: PartsRow) -> bool:
    told = RowFlag.PART_NUMBER in row.flags or RowFlag.DOUBTFUL_NUMBER in row.flags
    return row.origin is not Origin.DIGITAL and bool(row.part_number) and not told


def _is_doubtful(number: str, indexed: set[str], letters: Counter[tuple[bool, str]]) -> bool:
    if indexed:
        return normalised(number) not in indexed
    return any(
        (first or _LIKE_FIGURES & set(run))
        and not (first and run in _STANDARDS)
        and letters[first, run] < _SEEN_ELSEWHERE
        for first, run in _runs(number)
    )


def _runs(number: str) -> list[tuple[bool, str]]:
    """Every run of letters in a number, and whether it begins the number."""
    return [(found.start() == 0, found.group()) for found in _LETTERS.finditer(number)]
