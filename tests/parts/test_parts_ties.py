"""What ties the rows of the drawn parts lists together: assemblies, attaching parts, notes, codes, callouts.

What is expected follows from the rows as written down (parts_fiction.py) by the rule of the trade: dots give
the assembly, attaching parts follow their item at its indenture (introduction of a parts catalog).
"""

import re

import pytest
from parts_drawing import RowTruth
from parts_fiction import USAGE_NOTES
from parts_layouts import books

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.parts_rows import PartsList
from indexer.trade.part_numbers import Match, compare, normalised
from indexer.trade.publication_types import PublicationType

BOOKS = {book.name: book for book in books()}


@pytest.fixture(scope="module")
def read(tmp_path_factory) -> dict[str, PartsList]:
    folder = tmp_path_factory.mktemp("ties")
    return {
        name: read_parts_list(PublicationType(book.kind), read_document(book.write(folder), Settings()).pages)
        for name, book in BOOKS.items()
    }


def assembly(rows: list[RowTruth], place: int) -> int | None:
    """Place of the row that holds this one: the nearest before it with fewer dots, no attaching part."""
    for before in range(place - 1, -1, -1):
        if rows[before].figure != rows[place].figure:
            break
        if not rows[before].attaching and rows[before].dots < rows[place].dots:
            return before if rows[before].dots == rows[place].dots - 1 else None
    return None


def item(rows: list[RowTruth], place: int) -> int:
    """Place of the row that an attaching part attaches: the last before its group at its own indenture.

    Of the pitot mast's screws that is the mast, though a gasket of the mast stands right before them.
    """
    return next(
        before
        for before in range(place, -1, -1)
        if not rows[before].attaching and rows[before].dots == rows[place].dots
    )


@pytest.mark.parametrize("name", BOOKS)
def test_each_row_knows_its_assembly_and_each_attaching_part_its_item(name, read):
    truth, rows = list(BOOKS[name].rows), read[name].rows
    assert [row.part_number for row in rows] == [row.part_number for row in truth]
    for place, (true, row) in enumerate(zip(truth, rows, strict=True)):
        if true.attaching:
            assert row.attaches == item(truth, place), row
        else:
            assert (row.above, row.attaches) == (assembly(truth, place), None), row
    assert not any(row.flags for row in rows)


# Part number, kind of note, number named: as printed in braces in parts_fiction.py.
NOTED = {
    ("KT28-1400-1", "next higher assembly", "28-20-00-01"),
    ("KT28-1410-1", "superseded by", "KT28-1410-3"),
    ("KT28-1410-3", "supersedes", "KT28-1410-1"),
    ("51-2044-5", "after the bulletin", "KT-32-0011"),
    ("51-2060-1", "see figure", "32-42-00-03"),
    ("51-3102-1", "not procurable", ""),
    ("51-3111-6", "optional", "51-3111-4"),
    ("KT24-0130-1", "before the bulletin", "KT-24-0003"),
    ("KT24-0130-3", "after the bulletin", "KT-24-0003"),
    ("KT52-2020-3", "replaces", "KT52-2020-1"),
    ("KT52-2040-1", "see figure", "56-20-00-01"),
}


@pytest.mark.parametrize("name", BOOKS)
def test_notes(name, read):
    found = {(row.part_number, str(note.kind), note.number) for row in read[name].rows for note in row.notes}
    numbers = {row.part_number for row in BOOKS[name].rows}
    assert found == {note for note in NOTED if note[0] in numbers}


def test_the_codes_under_a_list_take_their_words_from_there(read):
    usage = [code for row in read["unruled"].rows for code in row.usage]
    assert usage
    assert all(code.words == dict(USAGE_NOTES)[code.code] for code in usage)
    assert {code.pdf_page for code in usage} <= {
        page for figure in read["unruled"].figures for page in figure.list_pages
    }


@pytest.mark.parametrize("name", ["ruled", "leaders", "two-tables", "number-index"])
def test_codes_that_the_catalog_explains_nowhere_have_no_words(name, read):
    assert {code.words for row in read[name].rows for code in row.usage} <= {""}


@pytest.mark.parametrize(("name", "drawn"), [("ruled", 9), ("unruled", 9), ("leaders", 9), ("component", 9)])
def test_every_callout_drawn_is_found(name, drawn, read):
    parts = read[name]
    for figure in parts.figures:
        rows = [row for row in parts.rows if row.figure == figure.ordinal]
        assert sum(bool(row.callouts) for row in rows) == drawn
        for row in rows:
            assert {place.pdf_page for place in row.callouts} <= set(figure.art_pages)
            assert row.illustrated or not row.callouts


def test_the_number_index_agrees_with_the_rows_of_its_figures(read):
    parts = read["number-index"]
    indexed = {normalised(line.part_number) for line in parts.index}
    assert {normalised(row.part_number) for row in parts.rows if row.part_number} <= indexed
    places = {f"{parts.figures[row.figure].figure}-{row.item}" for row in parts.rows}
    for line in parts.index:
        held = [row for row in parts.rows if normalised(row.part_number) == normalised(line.part_number)]
        if held:
            assert places & set(re.split("[,; ]+", line.figure_item)), line
        else:  # parts of figures that the book leaves out
            assert all(compare(line.part_number, row.part_number) is Match.DIFFERENT for row in parts.rows)


def test_the_books_hold_what_is_looked_for(read):
    assert sum(row.attaches is not None for parts in read.values() for row in parts.rows) > 40
    assert {note[1] for note in NOTED} >= {"superseded by", "supersedes", "optional", "replaces"}
