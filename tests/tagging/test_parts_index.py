"""The numerical index: part number -> figure and item, total quantity (verified in a printed introduction).

The forms of its lines: common practice, no source.
"""

import pytest

from indexer.tagging.parts_index import IndexCheck, index_against_rows, read_index_line
from indexer.tagging.parts_rows import IndexedNumber, PartsFigure, PartsList, PartsRow
from indexer.trade.evidence import Box, Origin

BOX = Box(0, 0, 10, 10)


def line(cells, heads=(), before=""):
    found = read_index_line(cells, pdf_page=9, box=BOX, heads=heads, before=before)
    if found is None:
        return None
    assert (found.pdf_page, found.box, found.origin) == (9, BOX, Origin.DIGITAL)
    return found.part_number, found.figure_item, found.quantity, found.stock_number


@pytest.mark.parametrize(
    ("text", "before", "expected"),
    [
        ("AN4-12A 32-21-00-01-2 2", "", ("AN4-12A", "32-21-00-01-2", "2", "")),
        ("AN4-12A 1-15 4", "", ("AN4-12A", "1-15", "4", "")),
        ("AN4-12A 1-15A AR", "", ("AN4-12A", "1-15A", "AR", "")),
        ("AN4-12A 1--15 2", "", ("AN4-12A", "1--15", "2", "")),  # not illustrated
        ("AN4\u201312A 1\u201315 4", "", ("AN4-12A", "1-15", "4", "")),
        ("KT28-1400-1 28-22-00-01-1 RF", "", ("KT28-1400-1", "28-22-00-01-1", "RF", "")),
        ("KT28-1400-1 28-110-4471 28-22-00-01-1 1", "", ("KT28-1400-1", "28-22-00-01-1", "1", "28-110-4471")),
        ("51-2042-1 2-3 1", "", ("51-2042-1", "2-3", "1", "")),  # a part number that looks like a figure
        ("AN4-12A 1-15", "", ("AN4-12A", "1-15", "", "")),  # no quantity printed
        ("2-3 4", "AN4-12A", ("AN4-12A", "2-3", "4", "")),  # goes on with the number above
        ("2-3", "AN4-12A", ("AN4-12A", "2-3", "", "")),
        ("2-3 4", "", None),  # nothing above
        ("PART NUMBER FIG-ITEM QTY", "", None),
        ("NUMERICAL INDEX", "", None),
        ("Page 4", "", None),
        ("AN4-12A 4", "", None),  # no figure and item
        ("See 28-22 for the list of parts", "", None),
        ("", "", None),
    ],
)
def test_lines_read_by_form(text, before, expected):
    assert line(text.split(), before=before) == expected


@pytest.mark.parametrize(
    ("heads", "cells", "before", "expected"),
    [
        (
            ["PART NUMBER", "FIG-ITEM", "TTL REQ"],
            ["AN4-12A", "1-15", "4"],
            "",
            ("AN4-12A", "1-15", "4", ""),
        ),
        (
            ["PART NUMBER", "FIG.", "ITEM", "QTY"],
            ["AN4-12A", "1", "15", "4"],
            "",
            ("AN4-12A", "1-15", "4", ""),
        ),
        (["PART NO.", "FIG", "ITEM", "QTY"], ["AN4-12A", "1", "-15", ""], "", ("AN4-12A", "1 -15", "", "")),
        (
            ["PART NUMBER", "AIRLINE STOCK NO.", "FIG & ITEM NUMBER", "TOTAL NUMBER REQUIRED"],
            ["MS20470 AD4-6", "53-001", "1-15", "12"],
            "",
            ("MS20470 AD4-6", "1-15", "12", "53-001"),
        ),
        (
            ["PART NUMBER", "CH-SECT-UNIT", "FIG", "ITEM", "TTL REQ"],
            ["AN4-12A", "32-41-00", "01", "2", "4"],
            "",
            ("AN4-12A", "32-41-00-01-2", "4", ""),
        ),
        (
            ["PART NUMBER", "FIG-ITEM", "TTL REQ"],
            ["", "2-7", "1"],
            "AN4-12A",
            ("AN4-12A", "2-7", "1", ""),
        ),
        (["PART NUMBER", "FIG-ITEM", "TTL REQ"], ["", "2-7", "1"], "", None),
        (["PART NUMBER", "FIG-ITEM", "TTL REQ"], ["AN4-12A", "", ""], "", None),
        (["PART NUMBER", "FIG", "ITEM"], ["AN4-12A", "1", ""], "", None),
        (["PART NUMBER", "FIG-ITEM", "TTL REQ"], ["AN4-12A", "1-15", "?"], "", ("AN4-12A", "1-15", "", "")),
    ],
)
def test_lines_read_by_their_heads(heads, cells, before, expected):
    assert line(cells, heads, before) == expected


def parts(rows, index, origin=Origin.DIGITAL):
    figures = (
        PartsFigure(0, "1", "28-22-00", "Selector", (), ()),
        PartsFigure(1, "32-41-00-01", "32-41-00", "Wheel", (), ()),
    )
    made = tuple(
        PartsRow(ordinal, figure, item, number, "BOLT", 0, "1", 1, (), "", origin=origin)
        for ordinal, (figure, item, number) in enumerate(rows)
    )
    return PartsList(figures, made, tuple(IndexedNumber(n, at, "1", 9, BOX, "", origin) for n, at in index))


def test_an_index_that_agrees_with_its_rows():
    rows = [(0, "2", "AN4-12A"), (1, "5", "AN4-12A"), (0, "3", "MS20470AD4-6")]
    index = [("AN4-12A", "1-2"), ("AN4-12A", "32-41-00-01-5"), ("MS20470 AD4-6", "1-9, 28-22-00-01-3")]
    assert index_against_rows(parts(rows, index)) == IndexCheck()


def test_what_the_index_and_the_rows_do_not_tell_alike():
    rows = [(0, "2", "AN4-12A"), (0, "3", "AN4-12"), (0, "4", ""), (0, "5", "QZ1-1")]
    index = [("AN4-12A", "1-2"), ("AN4-12A", "1-9"), ("AN4-14A", "1-3"), ("QZ1-1", "2-5")]
    assert index_against_rows(parts(rows, index)) == IndexCheck(
        not_in_index=(1,), not_in_rows=(2,), elsewhere=(1, 3)
    )


def test_what_ocr_may_have_taken_for_another_character_is_no_difference():
    rows, index = [(0, "2", "AN4-I2A")], [("AN4-12A", "1-2")]
    assert index_against_rows(parts(rows, index)).not_in_index == (0,)
    assert index_against_rows(parts(rows, index, Origin.OCR)) == IndexCheck()


def test_a_catalog_without_an_index_misses_nothing():
    assert index_against_rows(parts([(0, "2", "AN4-12A")], [])) == IndexCheck()
