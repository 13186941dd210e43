"""The numerical index: part number -> figure and item, total quantity (verified in a printed introduction).

The forms of its lines: common practice, no source.
"""

import pytest

from indexer.tagging.parts_index import read_index_line
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
