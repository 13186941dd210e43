"""The drawn parts lists printed, scanned at 300 dpi and read by OCR: part numbers are right or flagged.

A wrong part number without a flag is the worst result and may not happen at all. Measured with tesseract,
where it is installed.
"""

from dataclasses import dataclass

import pytest
from parts_layouts import books
from parts_scanning import scanned
from parts_score import pairs

from indexer.reading.document import read_document
from indexer.reading.ocr import find_engine, recognize_page
from indexer.reading.page import Page
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.parts_rows import PartsList, RowFlag
from indexer.trade.evidence import Origin
from indexer.trade.publication_types import PublicationType

# 1-based pages of the drawing: lists, and of the last the number index as well.
SCANNED = {"ruled": [3], "leaders": [2], "typed": [2], "number-index": [2, 4]}
INDEX_LINES = 60  # on the page of the index that is scanned
NUMBER_FLAGS = {RowFlag.DOUBTFUL_NUMBER, RowFlag.PART_NUMBER}
SETTINGS = Settings(ocr_engine="tesseract")


@dataclass(frozen=True)
class Scan:
    kind: PublicationType
    pages: tuple[Page, ...]
    parts: PartsList
    beside: list[tuple]  # (row of the truth, row as read); None = nothing stands beside it


@pytest.fixture(scope="module")
def scans(tmp_path_factory) -> dict[str, Scan]:
    engine = find_engine(Settings())
    if engine is None or not engine.name.startswith("tesseract"):
        pytest.skip("tesseract is not installed")
    folder = tmp_path_factory.mktemp("scanned")
    made = {}
    for book in books():
        pages = SCANNED.get(book.name)
        if not pages:
            continue
        path = scanned(book.write(folder), pages, folder)
        recognized = {
            count: recognize_page(path, count, SETTINGS, engine) for count in range(1, len(pages) + 1)
        }
        document = read_document(path, SETTINGS, recognized=recognized)
        kind = PublicationType(book.kind)
        parts = read_parts_list(kind, document.pages)
        true = [row for row in book.rows if row.pdf_page in pages]
        beside = [
            (None if t is None else true[t], None if r is None else parts.rows[r])
            for t, r in pairs([row.part_number for row in true], [row.part_number for row in parts.rows])
        ]
        made[book.name] = Scan(kind, document.pages, parts, beside)
    return made


def _all(scans):
    return [pair for scan in scans.values() for pair in scan.beside]


def test_no_row_is_lost_and_none_is_invented(scans):
    assert [true for true, read in _all(scans) if read is None] == []
    assert [read.quote for true, read in _all(scans) if true is None] == []


def test_nine_of_ten_part_numbers_are_right(scans):
    right = [true.part_number == read.part_number for true, read in _all(scans)]
    assert len(right) > 60
    assert sum(right) / len(right) >= 0.90


def test_a_wrong_part_number_is_always_flagged(scans):
    unflagged = [
        (true.part_number, read.part_number, read.confidence)
        for true, read in _all(scans)
        if true.part_number != read.part_number and not NUMBER_FLAGS & set(read.flags)
    ]
    assert unflagged == []


def test_most_right_part_numbers_are_not_flagged(scans):
    right = [read for true, read in _all(scans) if true.part_number == read.part_number]
    flagged = [read.part_number for read in right if NUMBER_FLAGS & set(read.flags)]
    assert len(flagged) <= 0.25 * len(right), flagged


def test_with_no_floor_every_row_is_read_all_the_same_and_fewer_are_flagged(scans):
    for scan in scans.values():
        lax = read_parts_list(scan.kind, scan.pages, ocr_floor=0.0)
        assert [row.part_number for row in lax.rows] == [row.part_number for row in scan.parts.rows]
        for row, usual in zip(lax.rows, scan.parts.rows, strict=True):
            assert set(row.flags) <= set(usual.flags)


@pytest.mark.parametrize(
    ("flag", "cell", "truth"),
    [
        (RowFlag.ITEM, "item", "item"),
        (RowFlag.UNITS, "units", "units"),
        (RowFlag.INDENTURE, "indenture", "dots"),
        (RowFlag.ATTACHING, "attaching", "attaching"),
    ],
)
def test_a_wrong_cell_is_flagged(flag, cell, truth, scans):
    unflagged = [
        (true.part_number, getattr(read, cell), getattr(true, truth))
        for true, read in _all(scans)
        if getattr(read, cell) != getattr(true, truth) and flag not in read.flags
    ]
    assert unflagged == []


def test_rows_read_by_ocr_say_so_with_their_confidence(scans):
    for _, read in _all(scans):
        assert read.origin is Origin.OCR
        assert read.confidence is not None and 0 <= read.confidence <= 1


def test_the_index_of_a_scanned_catalog_is_read_and_its_numbers_vouch_for_rows(scans):
    parts = scans["number-index"].parts
    book = next(book for book in books() if book.name == "number-index")
    indexed = {line.part_number for line in parts.index}
    true = {number for number, _, _ in book.index[:INDEX_LINES]}
    assert len(indexed & true) / len(true) >= 0.90
    for row in parts.rows:
        assert row.part_number in indexed or NUMBER_FLAGS & set(row.flags)
