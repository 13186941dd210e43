"""What was read by OCR alone makes no publication superseded and no directive out of force: "cannot tell".

The publications are our own fiction; that OCR takes one figure for another is common practice, no source.
"""

from dataclasses import dataclass, replace

import pytest
from making import Made, take
from shop import DATE, bulletin, claim, directive, manual

from indexer.library.catalogue import Catalogue
from indexer.library.records import SupersessionKind
from indexer.library.relations import relate, supersessions_of
from indexer.tagging.tags import ClaimKind
from indexer.trade.evidence import Origin, Tag
from indexer.trade.publication_types import PublicationType as Type

CANNOT_TELL = SupersessionKind.CANNOT_TELL


@dataclass
class Scanned(Made):
    """A publication whose number, revision and date were read by OCR."""

    def publications(self):
        (one,) = super().publications()
        read = {
            name: _read(tag)
            for name in ("number", "revision", "date")
            if (tag := getattr(one.identity, name))
        }
        return (replace(one, identity=replace(one.identity, **read)),)


def _read(tag):
    return Tag(tag.value, replace(tag.evidence, origin=Origin.OCR, confidence=0.97))


def scanned(made):
    return Scanned(**vars(made))


def read_claim(*args, **more):
    stated = claim(*args, **more)
    return replace(stated, evidence=replace(stated.evidence, origin=Origin.OCR))


@pytest.fixture
def kinds(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:

        def found(*made):
            ids = [take(catalogue, tmp_path / "in", each).publications[0] for each in made]
            relate(catalogue)
            return {each.kind for one in ids for each in supersessions_of(catalogue, one)}

        yield found


OLD, NEW = manual("9", DATE(2030, 1, 1)), manual("10", DATE(2031, 1, 1))
AD = Type.AIRWORTHINESS_DIRECTIVE


@pytest.mark.parametrize("pair", [(scanned(OLD), NEW), (OLD, scanned(NEW)), (scanned(OLD), scanned(NEW))])
def test_a_revision_read_by_ocr_is_in_no_sure_order(kinds, pair):
    assert kinds(*pair) == {CANNOT_TELL}


def test_digital_revisions_are_in_order(kinds):
    assert kinds(OLD, NEW) == {SupersessionKind.NEWER_REVISION}


def test_a_statement_read_by_ocr_supersedes_nothing_for_sure(kinds):
    words = read_claim(ClaimKind.SUPERSEDES, "52-0009")
    held = [bulletin("52-0009", "A", DATE(2031, 3, 3)), bulletin("52-0010", "A", None, claims=(words,))]
    assert kinds(*held) == {CANNOT_TELL}


def test_a_directive_is_not_replaced_by_words_read_by_ocr(kinds):
    words = read_claim(ClaimKind.SUPERSEDES, "2029-11-02", type=AD)
    assert kinds(directive("2029-11-02"), directive("2031-04-07", words)) == {CANNOT_TELL}


def test_nor_a_directive_whose_number_was_read_by_ocr(kinds):
    words = claim(ClaimKind.SUPERSEDES, "2029-11-02", type=AD)
    assert kinds(scanned(directive("2029-11-02")), directive("2031-04-07", words)) == {CANNOT_TELL}
