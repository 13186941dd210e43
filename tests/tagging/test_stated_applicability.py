"""What a work prints of the models and serials it is for: taken from the right places, as printed.

Pages made by hand have the feet and headings of manuals (common practice, no source); the sample library is
drawn (sample_docs/README.md).
"""

from dataclasses import replace
from pathlib import Path

import pytest

from indexer.reading.document import read_document
from indexer.reading.page import PassageKind
from indexer.settings import Settings
from indexer.tagging.applicability import read_applicability
from indexer.tagging.letter_applicability import letter_applicability
from indexer.tagging.page_effectivity import page_effectivity
from indexer.tagging.passage_effectivity import passage_effectivity
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import ApplicabilityScope, TaggedPublication
from indexer.trade.evidence import Origin
from tests.tagging.made_documents import document, line, page, passage

SAMPLES = Path(__file__).parents[2] / "sample_docs" / "pdf"


def tagged(name: str) -> TaggedPublication:
    return tag_document(read_document(SAMPLES / name, Settings()))[0]


def stated(publication: TaggedPublication, scope: ApplicabilityScope) -> list[str]:
    return [each.words.value for each in publication.applicability if each.scope is scope]


@pytest.mark.parametrize(
    ("foot", "words"),
    [
        (["EFFECTIVITY: ALL", "Page 401"], "EFFECTIVITY: ALL"),
        (["EFFECTIVITY:", "QZ-001 THRU QZ-140", "Mar 14/2031"], "EFFECTIVITY: QZ-001 THRU QZ-140"),
        (["EFFECTIVITY: 001-004, 101-110", "32-41-00"], "EFFECTIVITY: 001-004, 101-110"),
        (["S/N 1001 thru 1050", "Page 4"], "S/N 1001 thru 1050"),
        (["32-41-00", "Page 401", "Mar 14/2031"], None),
    ],
)
def test_the_foot_of_a_page_gives_its_effectivity(foot, words):
    found = page_effectivity(page(1, "Remove the wheel.\nInstall the wheel.", foot=foot))
    assert (found.value if found else None) == words


def test_a_line_at_the_top_of_a_page_gives_it_too():
    found = page_effectivity(page(1, "EFFECTIVITY: QZ-001 AND ON\nRemove the wheel.\nInstall the wheel."))
    assert found.value == "EFFECTIVITY: QZ-001 AND ON"


def test_the_origin_of_the_text_is_kept():
    scanned = replace(page(1, "Remove the wheel.", foot=["EFFECTIVITY: ALL"]), origin=Origin.OCR)
    assert page_effectivity(scanned).evidence.origin is Origin.OCR


def told(headings: tuple[str, ...], *lines: str, kind: PassageKind = PassageKind.TEXT) -> list[str]:
    rows = [line(text, 100 + 12 * place) for place, text in enumerate(lines)]
    made = replace(passage(page(1, "x"), 0, headings, rows), kind=kind)
    return [tag.value for tag in passage_effectivity(made)]


@pytest.mark.parametrize(
    ("headings", "lines", "words"),
    [
        (("S/N 62-0101 and on",), ["Remove the wheel."], ["S/N 62-0101 and on"]),
        (("Removal (Pre SB QZ62-32-0114)",), ["Remove the wheel."], ["Pre SB QZ62-32-0114"]),
        (("POST SB QZ62-32-0114",), ["Remove the wheel."], ["POST SB QZ62-32-0114"]),
        (("Airplanes modified by SB QZ62-52-0093",), ["Open."], ["Airplanes modified by SB QZ62-52-0093"]),
        (("ELECTRICAL SYSTEM, MODEL H-14B",), ["The generator"], ["MODEL H-14B"]),
        (("Removal",), ["S/N 1001 thru 1050", "A. Remove the wheel."], ["S/N 1001 thru 1050"]),
        # A step speaks for itself, and other steps stand beside it.
        (("Removal",), ["(1) On airplanes S/N 1001 and on, remove the cap.", "(2) Remove the wheel."], []),
        (("Removal",), ["A. Remove the wheel.", "S/N 1001 thru 1050"], []),
        (("SERIAL NUMBERS",), ["Model H-14 has serial numbers H-101 thru H-240."], []),
        (("Fuel pump, part number QZ28-1000-1",), ["Remove the pump."], []),
    ],
)
def test_headings_and_lines_of_their_own_say_what_a_passage_is_for(headings, lines, words):
    assert told(headings, *lines) == words


def test_two_lines_in_one_passage_are_given_together():
    words = told(("Removal",), "S/N 1001 thru 1050", "Remove the cap.", "S/N 1051 and on", "Remove the ring.")
    assert words == ["S/N 1001 thru 1050\nS/N 1051 and on"]


def test_a_parts_row_gives_its_mark_of_a_bulletin():
    row = "-15A QZ32-4421-3 . BOLT, TIE, PRE SB QZ62-32-0114, SUPSD BY 4"
    assert told((), row, kind=PassageKind.PARTS_ROW) == ["PRE SB QZ62-32-0114"]


def test_a_manual_says_it_on_its_title_page_and_page_by_page():
    manual = tagged("qz62-structural-repair-manual.pdf")
    assert stated(manual, ApplicabilityScope.PUBLICATION) == ["QZ62 OUZEL and QZ62S OUZEL SURVEY"]
    pages = {
        each.pdf_page: each.words.value
        for each in manual.applicability
        if each.scope is ApplicabilityScope.PAGE
    }
    assert pages[10] == "EFFECTIVITY: QZS-001 AND ON"
    assert pages[3] == "EFFECTIVITY: ALL"


def test_a_directive_gives_its_paragraph_and_a_bulletin_its_own_with_the_heading():
    assert stated(tagged("ad-2032-03-05.pdf"), ApplicabilityScope.PUBLICATION) == [
        "This AD applies to Aldermoor Aircraft Corporation Model QZ62 airplanes, serial numbers QZ-001 "
        "through QZ-188, and Model QZ62S airplanes, serial numbers QZS-001 through QZS-034, certificated in "
        "any category."
    ]
    (words,) = stated(tagged("sb-qz62-32-0114-rev-b.pdf"), ApplicabilityScope.PUBLICATION)
    assert words.startswith("A. Effectivity (1) QZ62 airplanes, serial numbers QZ-001 through QZ-188")
    assert words.endswith("held as spares.")


SPLIT = """SERVICE BULLETIN No. 62-5
Date: March 3, 2031
Models Affected: QZ62
Serial Numbers Affected: QZ-001 through QZ-050
Compliance: Within 100 hours.
Instructions: Replace the bolt.
"""


def test_models_in_one_paragraph_and_serials_in_the_next_are_given_together():
    publication = tag_document(document(page(1, SPLIT)))[0]
    (words,) = stated(publication, ApplicabilityScope.PUBLICATION)
    assert "QZ62" in words and "QZ-001 through QZ-050" in words


LETTER = """November 3, 2031
Subject: Alternative Method of Compliance (AMOC) to Airworthiness Directive (AD) 2031-07-11
You ask to use Revision C for the airplane Model QZ62, serial number QZ-077.
"""


@pytest.mark.parametrize(
    ("limit", "words"),
    [
        (
            "For the airplane with serial number QZ-077 only, we approve it.",
            ["airplane Model QZ62, serial number QZ-077"],
        ),
        ("For the airplane with serial number QZ-077, we approve it.", []),
        ("For the airplane with serial number QZ-078 only, we approve it.", []),
        ("For the airplane with serial number QZ-077 only and for the airplane S/N QZ-9 only, we do.", []),
    ],
)
def test_an_amoc_letter_is_for_the_airplane_it_is_limited_to(limit, words):
    assert [tag.value for tag in letter_applicability([page(1, LETTER + limit)])] == words


def test_the_sample_letter_is_for_one_airplane():
    (words,) = stated(tagged("amoc-letter-2031-07-11.pdf"), ApplicabilityScope.PUBLICATION)
    answers = [read_applicability(words).applies("QZ62", serial).value for serial in ("QZ-077", "QZ-078")]
    assert answers == ["applies", "does not apply"]
