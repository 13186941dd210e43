"""Everything that tagging takes from pages read by OCR says so, and none of it approves anything.

The sample publications are our own fiction; here each is taken as if all its pages had been read by OCR.
"""

from dataclasses import fields, is_dataclass, replace
from functools import cache
from pathlib import Path

import pytest

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import StandingValue
from indexer.trade.evidence import Basis, Evidence, Origin

SAMPLES = Path(__file__).parent.parent.parent / "sample_docs" / "pdf"
NAMES = (
    "qz62-structural-repair-manual",
    "qz62-maintenance-manual",
    "qz62-parts-catalog",
    "ad-2031-07-11",
    "amoc-letter-2031-07-11",
    "asb-qz62-35a0031",
    "sb-qz62-32-0114-rev-c",
    "qz62-temporary-revision-32-07",
    "qz62s-flight-manual-supplement-4",
    "sl-0219",
)
PRINTED = (Basis.PRINTED, Basis.LINKED_DIRECTIVE)


@cache
def _tagged(name, by_ocr):
    document = read_document(SAMPLES / f"{name}.pdf", Settings())
    if by_ocr:
        document = replace(
            document,
            pages=tuple(_read(page) for page in document.pages),
            passages=tuple(replace(passage, origin=Origin.OCR) for passage in document.passages),
        )
    return tag_document(document)


def _read(page):
    def lines(of):
        return tuple(
            replace(line, words=tuple(replace(word, confidence=0.9) for word in line.words)) for line in of
        )

    return replace(
        page, origin=Origin.OCR, head=lines(page.head), body=lines(page.body), foot=lines(page.foot)
    )


def _evidence(value):
    """Every Evidence anywhere inside a value."""
    if isinstance(value, Evidence):
        yield value
    elif is_dataclass(value):
        for each in fields(value):
            yield from _evidence(getattr(value, each.name))
    elif isinstance(value, tuple | list):
        for each in value:
            yield from _evidence(each)
    elif isinstance(value, dict):
        for each in value.values():
            yield from _evidence(each)


@pytest.mark.parametrize("name", NAMES)
def test_all_printed_evidence_is_said_to_be_ocr(name):
    found = [each for one in _tagged(name, True) for each in _evidence(one) if each.basis in PRINTED]
    assert found
    wrong = {(each.rule, each.quote[:40]) for each in found if each.origin is not Origin.OCR}
    assert wrong == set()


@pytest.mark.parametrize("name", NAMES)
def test_a_quote_with_a_place_says_how_sure_ocr_was(name):
    found = [
        each
        for one in _tagged(name, True)
        for each in _evidence((one.identity, one.page_marks, one.listed_pages, one.claims, one.directive))
        if each.basis is Basis.PRINTED and each.box is not None
    ]
    assert found and {each.confidence for each in found} == {0.9}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_approved(name):
    standings = {passage.standing.value for one in _tagged(name, True) for passage in one.passages}
    assert StandingValue.APPROVED not in standings
    assert not any(passage.standing.mandatory for one in _tagged(name, True) for passage in one.passages)


def test_in_digital_text_some_of_them_are():
    names = [
        name
        for name in NAMES
        if any(
            passage.standing.value is StandingValue.APPROVED
            for one in _tagged(name, False)
            for passage in one.passages
        )
    ]
    assert "qz62-structural-repair-manual" in names
