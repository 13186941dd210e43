"""Details printed once under several variants of an assembly belong to each that their codes allow.

A blank usage column means all, and codes tie details to variants: iSpec 2200, verified in the introduction of
an illustrated parts catalog. That variants in a row share what stands below them: common practice, no source.
The brake is the one drawn in sample_docs (qz62-parts-catalog.pdf), items 1 and 1A.
"""

from pathlib import Path

import pytest

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.parts_rows import PartNote, PartNoteKind, PartsRow, RowFlag, UsageCode
from indexer.tagging.parts_tree import with_tree
from indexer.tagging.parts_variants import with_variants
from indexer.trade.publication_types import PublicationType

CATALOG = Path(__file__).parents[2] / "sample_docs" / "pdf" / "qz62-parts-catalog.pdf"


def tie(*lines, **more):
    """Rows from "item words codes"; the words with their dots. more: fields of rows by item."""
    rows = []
    for line in lines:
        item, words, *codes = line.split()
        name = words.lstrip(".")
        usage = tuple(UsageCode(code) for code in codes)
        own = more.get(f"item_{item}", {})
        rows.append(
            PartsRow(
                len(rows),
                0,
                item,
                f"QZ{item}",
                name,
                len(words) - len(name),
                "1",
                1,
                (),
                line,
                usage=usage,
                **own,
            )
        )
    return with_variants(with_tree(rows))


def above(rows):
    """{item: items of the assembly above, the nearest first}."""
    return {
        row.item: [rows[each].item for each in (row.above, *row.above_also)]
        for row in rows
        if row.above is not None
    }


def test_a_detail_without_a_code_belongs_to_every_variant():
    assert above(tie("1 LEFT A", "1A RIGHT B", "1B BOTH", "2 .PLATE")) == {"2": ["1B", "1", "1A"]}


def test_a_detail_with_a_code_belongs_to_variants_with_that_code_or_none():
    rows = tie("1 LEFT A", "1A RIGHT B", "2 .PLATE A", "3 .PLATE B", "4 .PLATE A B", "5 .PLATE C")
    assert above(rows) == {"2": ["1"], "3": ["1A"], "4": ["1A", "1"], "5": ["1A"]}
    assert above(tie("1 LEFT A", "1A ANY", "2 .PLATE A", "3 .PLATE B")) == {"2": ["1A", "1"], "3": ["1A"]}


def test_variants_below_variants():
    rows = tie("1 BRAKE A", "1A BRAKE B", "5 .HOUSING A", "5A .HOUSING B", "6 ..PISTON", "7 ..CAP A")
    assert above(rows) == {"5": ["1"], "5A": ["1A"], "6": ["5A", "5"], "7": ["5"]}


def test_parts_before_and_after_a_bulletin_are_variants():
    pre = {"notes": (PartNote(PartNoteKind.PRE_BULLETIN, "PRE SB 32-1", "32-1"),)}
    post = {"notes": (PartNote(PartNoteKind.POST_BULLETIN, "POST SB 32-1", "32-1"),)}
    rows = tie(
        "15 CYLINDER", "15A CYLINDER", "16 .SEAL", "17 .SEAL", item_15=post, item_15A=pre, item_17=post
    )
    assert above(rows) == {"16": ["15A", "15"], "17": ["15"]}


@pytest.mark.parametrize(
    ("lines", "found"),
    [
        (("1 LEFT", "2 RIGHT", "3 .PLATE"), ["2"]),  # two parts
        (("1 LEFT", "1A .RIGHT", "3 ..PLATE"), ["1A"]),  # one below the other
        (("1 LEFT", "4 .CAP", "1A RIGHT", "3 .PLATE"), ["1A"]),  # the first has details of its own
        (("1 LEFT", "1 LEFT", "3 .PLATE"), ["1"]),  # one item printed twice: which is it?
        (("1 LEFT A", "1 LEFT B", "3 .PLATE"), ["1", "1"]),  # one item for each of two codes
    ],
)
def test_only_one_item_in_several_forms_right_after_each_other_is_variants(lines, found):
    assert above(tie(*lines))["3"] == found


def test_an_item_that_could_not_be_read_is_no_variant():
    doubt = {"flags": (RowFlag.ITEM,)}
    assert above(tie("1 LEFT", "1A RIGHT", "3 .PLATE", item_1A=doubt)) == {"3": ["1A"]}


def test_the_brake_of_the_sample_catalog():
    document = read_document(CATALOG, Settings())
    rows = read_parts_list(PublicationType.PARTS_CATALOG, document.pages).rows
    figure = {row.item: row for row in rows if row.part_number.startswith(("QZ32-44", "NAS", "MS"))}

    def items(*ordinals):
        return [rows[each].item for each in ordinals]

    plate, piston, left = figure["10"], figure["6"], figure["5"]
    assert plate.nomenclature == "PLATE ASSEMBLY, PRESSURE"
    assert items(plate.above, *plate.above_also) == ["1A", "1"]
    assert items(piston.above, *piston.above_also) == ["5A", "5"]
    assert (items(left.above), left.above_also) == (["1"], ())
    bolt = next(row for row in rows if row.part_number == "QZ32-4409-3")
    assert items(bolt.attaches, *bolt.attaches_also) == ["1A", "1"]
