"""Pages that only list what stands elsewhere, held against the contents and index pages of public documents
(tests/data/SOURCES.md)."""

from pathlib import Path

import pytest

from indexer.library.listings import is_listing
from indexer.reading.document import read_document
from indexer.settings import Settings

REAL = Path(__file__).parent.parent / "data" / "real"


def of_document(name):
    """(heading path, whether it is taken for a listing) of each passage."""
    passages = read_document(REAL / name, Settings()).passages
    return [(each.heading_path, is_listing("\n".join(each.heading_path), each.text)) for each in passages]


def test_every_passage_of_a_printed_index_is_one():
    found = of_document("FAA-H-8083-32_index_pages_1_2.pdf")
    assert len(found) >= 4 and all(listing for _, listing in found)


def test_in_a_circular_the_contents_are_and_nothing_else_is():
    found = of_document("AC_43-210A_pages_1-15_18-34.pdf")
    listed = [heading for heading, listing in found if listing]
    assert len(listed) >= 4 and all(heading[0] == "CONTENTS" for heading in listed)
    assert len(found) > 80


@pytest.mark.parametrize("name", ["AC-43-9C_CHG_1.pdf", "JASC_Codes_2008_pages_9_12_20_21.pdf"])
def test_pages_without_contents_have_none(name):
    """The code table is a list that says what each code means: it is worth reading."""
    assert not any(listing for _, listing in of_document(name))


@pytest.mark.parametrize(
    ("heading", "text", "expected"),
    [
        ("Contents", "Brakes 12\nWheels 14\nTires 15\nStruts iv\nDoors 3-1", True),
        ("Wheels", "Brakes 12\nWheels 14\nTires 15\nStruts 16\nDoors 18", False),  # could be quantities
        ("Contents", "Brakes 12\nWheels 14", False),  # too few to be sure
        ("Contents of the kit", "1. Remove the wheel.\n2. Inspect it.", False),
        ("Leaders", "Brakes . . . . . . 12\nWheels . . . . . 14\nTires . . . . . 15", True),
        (
            "Form",
            "Name ........\nInspect the wheel as told below.\nThen sign.\nDate ........\nKeep it.",
            False,
        ),
        ("", "", False),
    ],
)
def test_listings(heading, text, expected):
    assert is_listing(heading, text) is expected
