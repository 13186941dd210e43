"""Notes that name an item of their own figure ("SUPSD BY ITEM 50C"), with the number that the item has."""

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from indexer.tagging.parts_rows import PartNote, PartsRow

_ITEM = re.compile(r"\bITEM\s*(?P<item>[0-9]+[A-Z]?)$", re.IGNORECASE)


def with_named_items(rows: Sequence[PartsRow]) -> tuple[PartsRow, ...]:
    """The same rows; a note that ends with one item has that item's part number, when the figure has one.

    The words stay as printed. Where two rows of the item have two numbers, which one is meant is not guessed.
    """
    numbers: dict[tuple[int, str], set[str]] = defaultdict(set)
    for row in rows:
        if row.item and row.part_number:
            numbers[row.figure, row.item].add(row.part_number)

    def named(row: PartsRow, note: PartNote) -> PartNote:
        item = None if note.number else _ITEM.search(note.words)
        found = numbers.get((row.figure, item["item"].upper()), set()) if item else set()
        return replace(note, number=min(found)) if len(found) == 1 else note

    return tuple(
        replace(row, notes=tuple(named(row, note) for note in row.notes)) if row.notes else row
        for row in rows
    )
