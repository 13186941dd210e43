"""How much of each drawn parts list is read right, row by row and cell by cell."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from difflib import SequenceMatcher

from parts_drawing import Book, RowTruth

from indexer.tagging.parts_rows import PartsList, PartsRow

CELLS = (
    "figure",
    "item",
    "illustrated",
    "part_number",
    "stock_number",
    "name",
    "indenture",
    "usage",
    "effectivity",
    "units",
    "supplier",
    "attaching",
    "page",
)


@dataclass
class Score:
    """rows: of the truth; right: with every cell right; lost: found nowhere; invented: read and not there."""

    rows: int = 0
    right: int = 0
    lost: int = 0
    invented: int = 0
    faults: list[str] = field(default_factory=list)

    @property
    def share(self) -> float:
        return self.right / self.rows if self.rows else 1.0


def plain(text: str) -> str:
    """Words alone: how a cell is broken into lines and what ends it is not scored."""
    return re.sub(r"\s+", " ", text).strip(" ,.")


def read_cells(row: PartsRow, parts: PartsList) -> dict[str, object]:
    return {
        "figure": parts.figures[row.figure].figure,
        "item": row.item,
        "illustrated": row.illustrated,
        "part_number": row.part_number,
        "stock_number": row.stock_number,
        "name": plain(row.nomenclature),
        "indenture": row.indenture,
        "usage": tuple(code.code for code in row.usage),
        "effectivity": plain(row.effectivity),
        "units": row.units,
        "supplier": row.supplier,
        "attaching": row.attaching,
        "page": row.pdf_page,
    }


def true_cells(row: RowTruth) -> dict[str, object]:
    return {
        "figure": row.figure,
        "item": row.item,
        "illustrated": row.illustrated,
        "part_number": row.part_number,
        "stock_number": row.stock_number,
        "name": plain(row.name),
        "indenture": row.dots,
        "usage": row.usage,
        "effectivity": plain(row.effectivity),
        "units": row.units,
        "supplier": row.supplier,
        "attaching": row.attaching,
        "page": row.pdf_page,
    }


def pairs(truth: Sequence[str], read: Sequence[str]) -> list[tuple[int | None, int | None]]:
    """Places of the truth beside places of what was read, in order; None = nothing stands beside it.

    A stretch that differs is paired place by place: a row with a wrong number is not a lost row.
    """
    found: list[tuple[int | None, int | None]] = []
    for tag, a0, a1, b0, b1 in SequenceMatcher(a=list(truth), b=list(read), autojunk=False).get_opcodes():
        if tag == "equal":
            found += zip(range(a0, a1), range(b0, b1), strict=True)
            continue
        both = min(a1 - a0, b1 - b0)
        found += zip(range(a0, a0 + both), range(b0, b0 + both), strict=True)
        found += [(place, None) for place in range(a0 + both, a1)]
        found += [(None, place) for place in range(b0 + both, b1)]
    return found


def score_rows(book: Book, parts: PartsList) -> Score:
    """Hold every row against the truth; what is wrong is said in words."""
    score = Score(rows=len(book.rows))
    for true, read in pairs([r.part_number for r in book.rows], [r.part_number for r in parts.rows]):
        if read is None:
            score.lost += 1
            score.faults.append(f"lost {book.rows[true]}")
        elif true is None:
            score.invented += 1
            score.faults.append(f"invented {parts.rows[read].quote!r} on page {parts.rows[read].pdf_page}")
        else:
            want, got = true_cells(book.rows[true]), read_cells(parts.rows[read], parts)
            wrong = [cell for cell in CELLS if want[cell] != got[cell]]
            score.right += not wrong
            score.faults += [
                f"page {want['page']} {want['part_number']}: {cell} is {got[cell]!r}, not {want[cell]!r}"
                for cell in wrong
            ]
    return score


def score_index(book: Book, parts: PartsList) -> Score:
    """The lines of the number index: number, figure-items and quantity."""
    read = [(line.part_number, re.sub(r"\s+", " ", line.figure_item), line.quantity) for line in parts.index]
    score = Score(rows=len(book.index))
    for true, found in pairs([line[0] for line in book.index], [line[0] for line in read]):
        if found is None:
            score.lost += 1
            score.faults.append(f"lost index line {book.index[true]}")
        elif true is None:
            score.invented += 1
            score.faults.append(f"invented index line {read[found]}")
        else:
            score.right += book.index[true] == read[found]
            if book.index[true] != read[found]:
                score.faults.append(f"index line is {read[found]}, not {book.index[true]}")
    return score
