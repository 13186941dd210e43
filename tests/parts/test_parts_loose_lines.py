"""No line of a parts list is lost silently: rows under heads that are not known come out flagged.

The rows and layouts were written down before they were read (parts_fiction.py, parts_strange_layouts.py).
"""

from collections import Counter
from dataclasses import replace

import pytest
from parts_drawing import Book
from parts_layouts import books
from parts_strange_layouts import strange_books

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging import parts_list
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.parts_rows import PartsList, RowFlag
from indexer.trade.publication_types import PublicationType

BOOKS = {book.name: book for book in strange_books()}
WITH_ROWS = [name for name, book in BOOKS.items() if book.rows]


def _read(book: Book, folder, kind: PublicationType | None) -> PartsList:
    return read_parts_list(kind, read_document(book.write(folder), Settings()).pages)


@pytest.fixture(scope="module")
def read(tmp_path_factory) -> dict[str, PartsList]:
    folder = tmp_path_factory.mktemp("strange")
    return {name: _read(book, folder, PublicationType(book.kind)) for name, book in BOOKS.items()}


@pytest.mark.parametrize("name", WITH_ROWS)
def test_every_row_is_kept_and_nothing_else_is(name, read):
    truth = Counter((row.pdf_page, row.part_number) for row in BOOKS[name].rows)
    found = Counter((row.pdf_page, _number(row, truth)) for row in read[name].rows)
    assert (truth - found, found - truth) == (Counter(), Counter())


def _number(row, truth) -> str:
    """The number, or that of the truth which the quote holds where it could not be told."""
    if row.part_number:
        return row.part_number
    return next((n for page, n in truth if page == row.pdf_page and n in row.quote.split()), row.quote)


@pytest.mark.parametrize("name", WITH_ROWS)
def test_what_the_heads_did_not_name_is_flagged_and_quoted(name, read):
    for row in read[name].rows:
        if name == "left-below" and RowFlag.COLUMNS not in row.flags:
            continue
        assert RowFlag.COLUMNS in row.flags
        assert (row.part_number == "") == (RowFlag.PART_NUMBER in row.flags)
        assert row.indenture is None
        assert row.above is None
        assert row.part_number in row.quote.split() or not row.part_number
        assert row.boxes


def test_rows_with_heads_are_read_as_ever_beside_those_without(read):
    plain = [row for row in read["left-below"].rows if RowFlag.COLUMNS not in row.flags]
    assert len(plain) == len(BOOKS["left-below"].rows) - 2


@pytest.mark.parametrize("name", WITH_ROWS)
def test_rows_stand_under_the_figure_of_their_page(name, read):
    truth = {row.pdf_page: row.figure for row in BOOKS[name].rows}
    parts = read[name]
    assert {row.pdf_page: parts.figures[row.figure].figure for row in parts.rows} == truth


def test_pages_that_only_name_part_numbers_have_no_rows(read):
    assert [row.quote for row in read["no-rows-at-all"].rows] == []


def test_a_publication_of_no_known_type_needs_rows_that_are_read_plainly(tmp_path):
    assert _read(BOOKS["strange-heads"], tmp_path, None).rows == ()
    assert len(_read(BOOKS["left-below"], tmp_path, None).rows) == len(BOOKS["left-below"].rows)


def test_front_pages_stay_out_when_figures_follow(tmp_path):
    """The sample list in the introduction is no part, and the strange list behind it is read."""
    front, listed = BOOKS["no-rows-at-all"], BOOKS["strange-heads"]
    sheets = [*front.sheets[:5], *listed.sheets]
    book = Book("bound", sheets=[replace(each, pdf_page=n) for n, each in enumerate(sheets, start=1)])
    found = _read(book, tmp_path, PublicationType.PARTS_CATALOG)
    assert {row.pdf_page for row in found.rows} == {6, 7}
    assert len(found.rows) == len(listed.rows)


@pytest.mark.parametrize("book", books(), ids=lambda book: book.name)
def test_no_row_of_a_layout_is_lost_when_no_head_is_known(book, tmp_path, monkeypatch):
    """The layouts of test_parts_layouts.py, read as if their heads were words that we never saw."""
    monkeypatch.setattr(parts_list, "find_heads", lambda rows, fuzzy: [])
    pages = read_document(book.write(tmp_path), Settings()).pages
    found = read_parts_list(PublicationType(book.kind), pages).rows
    truth = Counter(row.pdf_page for row in book.rows if row.part_number)
    assert Counter(row.pdf_page for row in found) == truth
    numbers = {(row.pdf_page, row.part_number) for row in book.rows}
    assert {(row.pdf_page, row.part_number) for row in found if row.part_number} <= numbers
    held = {row.part_number for row in found} | {word for row in found for word in row.quote.split()}
    assert {row.part_number for row in book.rows if row.part_number} <= held
