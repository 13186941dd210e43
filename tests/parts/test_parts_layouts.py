"""Drawn parts lists are read row by row and cell by cell; the same rows in lists of tools or limits are not.

The rows and layouts were written down before they were read (parts_fiction.py, parts_layouts.py).
"""

import pytest
from parts_drawing import Book
from parts_layouts import books
from parts_score import score_index, score_rows

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.parts_rows import PartsList
from indexer.trade.publication_types import PublicationType

BOOKS = {book.name: book for book in books()}


@pytest.fixture(scope="module")
def read(tmp_path_factory) -> dict[str, PartsList]:
    folder = tmp_path_factory.mktemp("parts")
    return {name: _read(book, folder) for name, book in BOOKS.items()}


def _read(book: Book, folder) -> PartsList:
    document = read_document(book.write(folder), Settings())
    return read_parts_list(PublicationType(book.kind), document.pages)


@pytest.mark.parametrize("name", BOOKS)
def test_every_row_of_a_layout_is_read_and_no_other(name, read):
    score = score_rows(BOOKS[name], read[name])
    assert (score.lost, score.invented) == (0, 0), score.faults
    assert score.share >= 0.98, score.faults


def test_the_layouts_hold_rows_enough_to_say_something(read):
    assert len(BOOKS) >= 6
    assert sum(len(book.rows) for book in BOOKS.values()) >= 500


def test_every_line_of_a_number_index_in_two_columns_is_read(read):
    score = score_index(BOOKS["number-index"], read["number-index"])
    assert score.rows > 100
    assert (score.right, score.lost, score.invented) == (score.rows, 0, 0), score.faults


def test_a_row_that_runs_over_the_page_has_a_box_on_both(read):
    split = [row for row in read["spanning"].rows if len({box.pdf_page for box in row.boxes}) > 1]
    assert [row.part_number for row in split] == ["KT28-1406-1"]
    assert split[0].pdf_page == split[0].boxes[0].pdf_page


@pytest.mark.parametrize("name", BOOKS)
def test_boxes_lie_on_the_page_and_the_number_in_its_row(name, read):
    sizes = {sheet.pdf_page: (sheet.width, sheet.height) for sheet in BOOKS[name].sheets}
    if name == "turned":
        sizes = {
            page: (height, width) if page == 2 else (width, height) for page, (width, height) in sizes.items()
        }
    for row in read[name].rows:
        for place in row.boxes:
            width, height = sizes[place.pdf_page]
            assert 0 <= place.box.x0 < place.box.x1 <= width
            assert 0 <= place.box.top < place.box.bottom <= height
        first = row.boxes[0].box
        assert (row.number_box is None) == (row.part_number == "")
        if row.number_box is None:
            continue
        assert first.x0 - 1 <= row.number_box.x0 and row.number_box.top >= first.top - 1


def test_figures_know_their_art_and_their_lists(read):
    figures = {
        name: [(f.number, f.figure, f.title, f.art_pages, f.list_pages) for f in read[name].figures]
        for name in ("ruled", "spanning", "typed", "component")
    }
    assert figures["ruled"] == [
        ("28-22-00", "1", "Fuel Selector Valve Installation", (2,), (3,)),
        ("32-41-00", "2", "Main Wheel and Tire", (4,), (5,)),
    ]
    assert figures["spanning"] == [("28-22-00", "7", "Cockpit Controls", (), (2, 3, 4))]
    assert figures["typed"] == [
        ("Group 7", "7-1", "Tail wheel and fork", (2,), (2,)),
        ("Group 9", "9-4", "Rudder pedals", (3,), (3,)),
    ]
    assert figures["component"] == [("32-42-51", "1", "Brake Assembly", (7,), (8,))]


@pytest.mark.parametrize(
    "kind", [kind for kind in PublicationType if "catalog" not in kind and "component" not in kind]
)
def test_only_catalogs_and_component_manuals_are_looked_at(kind, tmp_path):
    document = read_document(BOOKS["ruled"].write(tmp_path), Settings())
    assert read_parts_list(kind, document.pages) == PartsList()
