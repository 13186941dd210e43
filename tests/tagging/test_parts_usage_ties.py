"""Letters that tie a part to an assembly of its figure: where the introduction says so, and nowhere else.

That letters tie parts to variants of an assembly: the introduction named in test_parts_usage.py. The
sentences here are our own; the truth of the sample catalog is what its script draws.
"""

from pathlib import Path

import pytest

from indexer.reading.document import read_document
from indexer.reading.page import Line, Page, TextState, Word
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.parts_rows import PartsFigure, PartsRow, RowFlag, UsageCode
from indexer.tagging.parts_usage_ties import states_ties, with_assemblies
from indexer.trade.evidence import Box
from indexer.trade.publication_types import PublicationType

SAMPLE = Path(__file__).parent.parent.parent / "sample_docs/pdf/qz62-parts-catalog.pdf"
RULE = "Usage. Letters tie a part to the assemblies of the figure that have the same letter."
FIGURES = (PartsFigure(0, "1", "24-31-00", "Alternator", (2,), (3,)),)


@pytest.mark.parametrize(
    ("said", "ties"),
    [
        (RULE, True),
        ("A part that bears a code goes with the assembly that bears the same code.", True),
        ("Usage codes are letters. Each is explained under the list of its figure.", False),
        ("The same part may be used in several assemblies. Letters after an item show changes.", False),
        ("Parts of the same assembly are printed under it. A letter after an item is an added part.", False),
    ],
)
def test_the_rule_must_be_in_print(said, ties):
    assert states_ties(said.split("  ")) is ties
    assert states_ties([said[:30], said[30:]]) in (ties, False)


def _page(pdf_page: int, text: str) -> Page:
    words, x = [], 50.0
    for word in text.split():
        words.append(Word(word, Box(x, 100, x + 5 * len(word), 110), 10.0, False))
        x += 5 * len(word) + 4
    line = Line(tuple(words), Box(50, 100, x, 110))
    return Page(pdf_page, 612, 792, 0, TextState.TEXT, body=(line,))


def _row(ordinal: int, number: str, name: str, dots: int, code: str = "", **more) -> PartsRow:
    usage = (UsageCode(code),) if code else ()
    return PartsRow(ordinal, 0, str(ordinal), number, name, dots, "1", 3, (), name, usage=usage, **more)


def _rows(**first) -> list[PartsRow]:
    return [
        _row(0, "QZ24-3101-1", "ALTERNATOR, 85 AMPERE", 0, "A", **first),
        _row(1, "QZ24-3101-5", "ALTERNATOR, 120 AMPERE", 0, "B"),
        _row(2, "QZ24-3105-1", "FAN", 1, "A", above=1, above_also=(0,)),
        _row(3, "QZ24-3105-3", "FAN, WITH DUCT", 1, "B", above=1, above_also=(0,)),
        _row(4, "QZ24-3112-3", "ARM", 0, "A"),
    ]


def _words(rows) -> list[str]:
    return [code.words for row in rows for code in row.usage]


def test_a_letter_is_said_to_be_that_of_its_assembly():
    tied = with_assemblies(_rows(), FIGURES, [_page(1, RULE)])
    assert _words(tied) == [
        "",
        "",
        "as QZ24-3101-1, ALTERNATOR, 85 AMPERE",
        "as QZ24-3101-5, ALTERNATOR, 120 AMPERE",
        "",
    ]
    assert [code.of_assembly for row in tied for code in row.usage] == [False, False, True, True, False]


def test_without_the_rule_in_front_a_letter_says_nothing():
    assert with_assemblies(_rows(), FIGURES, [_page(1, "Letters are usage codes.")]) == tuple(_rows())
    assert with_assemblies(_rows(), FIGURES, [_page(3, RULE)]) == tuple(_rows())


def test_an_assembly_that_was_not_read_whole_is_not_named():
    tied = with_assemblies(_rows(flags=(RowFlag.DOUBTFUL_NUMBER,)), FIGURES, [_page(1, RULE)])
    assert _words(tied)[2:4] == ["", "as QZ24-3101-5, ALTERNATOR, 120 AMPERE"]


def test_the_sample_catalog_ties_its_letters():
    pages = read_document(SAMPLE, Settings()).pages
    rows = read_parts_list(PublicationType.PARTS_CATALOG, pages).rows
    said = {row.part_number: code.words for row in rows for code in row.usage}
    assert said["QZ24-3105-1"] == "as QZ24-3101-1, ALTERNATOR, 85 AMPERE"
    assert said["QZ24-3105-3"] == "as QZ24-3101-5, ALTERNATOR, 120 AMPERE"
    assert said["QZ52-1121-3"] == "as QZ52-1120-5, LATCH ASSEMBLY, CABIN DOOR"
    assert said["QZ24-3101-1"] == said["QZ28-2201-1"] == ""
