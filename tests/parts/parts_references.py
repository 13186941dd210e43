"""What other tools make of the drawn parts lists: rows of cells from pdfplumber, words from pdftotext."""

import re
import subprocess
from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path

import pdfplumber
from parts_drawing import Book, RowTruth
from parts_score import plain

from indexer.tagging.parts_rows import PartsList

Cells = Sequence[str]  # of one row, left to right
# pdfplumber's own settings: lines drawn on the page, and lines told from the text.
STRATEGIES = {
    "pdfplumber, its default": {},
    "pdfplumber, text": {"vertical_strategy": "text", "horizontal_strategy": "text"},
}


def pdfplumber_rows(path: Path, strategy: dict[str, str]) -> list[Cells]:
    """Every row of every table that pdfplumber finds."""
    found: list[Cells] = []
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            for table in page.extract_tables(strategy):
                found += [[cell or "" for cell in row] for row in table]
            page.close()
    return found


def our_rows(parts: PartsList) -> list[Cells]:
    """Our rows, in the same form."""
    return [
        (row.item, row.part_number, row.nomenclature, ",".join(code.code for code in row.usage), row.units)
        for row in parts.rows
    ]


def right_rows(book: Book, read: Iterable[Cells]) -> int:
    """How many rows of the truth stand in one row as read, each of its cells as a cell of its own.

    Kind to all: the name may have its dots, leaders and notes; a dash may stand before the item.
    """
    rows = [{_bare(cell) for cell in cells if cell} for cells in read]
    by_number: dict[str, list[set[str]]] = {}
    for cells in rows:
        for cell in cells:
            by_number.setdefault(cell, []).append(cells)
    return sum(
        any(_has(row, cells) for cells in by_number.get(_bare(row.part_number), ())) for row in book.rows
    )


def _has(row: RowTruth, cells: set[str]) -> bool:
    items = {_bare(row.item), f"{row.figure}-{row.item}", f"{row.figure}- -{row.item}"}
    names = {_bare(row.name), _bare(row.printed)}
    rest = [_bare(text) for text in (row.units, ",".join(row.usage)) if text]
    return bool(not row.item or items & cells) and bool(names & cells) and all(text in cells for text in rest)


def _bare(text: str) -> str:
    return plain(re.sub(r"\.{3,}$", "", text.strip())).lstrip(".- ").strip()


def pdftotext_words(path: Path, pdf_page: int) -> Counter[str]:
    """The words of one page as `pdftotext -layout` gives them, leaders taken out."""
    command = ["pdftotext", "-layout", "-f", str(pdf_page), "-l", str(pdf_page), str(path), "-"]
    text = subprocess.run(command, capture_output=True, check=True, text=True).stdout
    return words_of(text)


def words_of(text: str) -> Counter[str]:
    """Words without the dots before and behind them."""
    return Counter(filter(None, (word.strip(".") for word in re.sub(r"\.{3,}", " ", text).split())))
