"""Notes beside a part: superseded, alternate, see figure, order, before or after a bulletin."""

from dataclasses import dataclass

from indexer.tagging.parts_rows import PartNote


@dataclass(frozen=True, slots=True)
class FoundNote:
    """A note, and text[start:end] where its words stand, brackets around them included."""

    note: PartNote
    start: int
    end: int


def find_notes(text: str) -> list[FoundNote]:
    """Notes in the words of a row, in printed order; none overlaps another.

    text  the nomenclature or another cell; lines of a wrapped cell may be joined by a blank or by "\\n"
    """
    return []
