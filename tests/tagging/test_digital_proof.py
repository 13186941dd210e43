"""What was read by OCR is never called approved, by whichever way it would be: stamp, statement, approval
page, limitations section, approval paragraph, or the text of a directive.

Publications are invented; the limitations statement is that of 14 CFR part 23, A23.4; the directive is AD
2024-03-04, 89 FR 9764 (tests/data/directives/2024-02930.txt).
"""

from dataclasses import replace
from pathlib import Path

import pytest
from made_documents import document, document_of_text, page

from indexer.reading.page import Passage, PassageKind
from indexer.reading.recognized import OcrReason
from indexer.tagging.digital_proof import OCR_PAGE_CONDITION, OCR_WORDS_CONDITION, SHOWS_MORE_CONDITION
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import StandingValue
from indexer.trade.evidence import Origin, PageBox

APPROVED, UNDETERMINED = StandingValue.APPROVED, StandingValue.UNDETERMINED
READ = [Origin.OCR, Origin.HIDDEN_OCR]
STAMP = "FAA APPROVED  J. Doe  12 May 2004"
DIRECTIVE = Path(__file__).parent.parent / "data" / "directives" / "2024-02930.txt"
LIMITATIONS = (
    "The Airworthiness Limitations section is FAA approved and specifies maintenance\n"
    "required under 43.16 and 91.403 of Title 14 of the Code of Federal Regulations\n"
    "unless an alternative program has been FAA approved."
)
WAYS = {
    "a stamp in the foot": (page(1, "# STRUCTURAL REPAIR MANUAL"), page(2, "Drill.", foot=[STAMP])),
    "a stamp in the body": (page(1, "# FLIGHT MANUAL"), page(2, f"Drill out the rivets.\n{STAMP}")),
    "a statement of the manual": (
        page(1, "# STRUCTURAL REPAIR MANUAL\nThis manual is FAA approved."),
        page(2, "Drill."),
    ),
    "a designee": (
        page(1, "# STRUCTURAL REPAIR MANUAL\nThis manual is FAA-DER approved."),
        page(2, "Drill."),
    ),
    "the limitations section": (
        page(1, "# MAINTENANCE MANUAL"),
        page(2, LIMITATIONS, foot=["04-00-00 Page 1"], printed_page="1"),
        page(3, "Fitting: 8000 landings.", foot=["04-00-00 Page 2"], printed_page="2"),
    ),
    "the approval page": (
        page(1, "# STRUCTURAL REPAIR MANUAL\nRevision 2"),
        page(
            2,
            "# APPROVAL PAGE\nThe repairs on the pages of this manual that are listed below are\n"
            "FAA APPROVED\n"
            "53 All pages of 53-10-00 May 17, 2030",
        ),
        page(3, "Drill.", foot=["53-10-00 Page 201", "May 17, 2030"], printed_page="201"),
    ),
    "the approval paragraph": (
        page(
            1,
            "# SERVICE BULLETIN No. C88-32-0012\nSubject: Bolts\nF. Approval\n"
            "(1) The technical content of this service bulletin is FAA approved.",
        ),
        page(2, "3. ACCOMPLISHMENT INSTRUCTIONS\nReplace the bolts."),
    ),
}


def standings(made):
    return [each.standing for work in tag_document(made) for each in work.passages]


def read_by(origin, made, *numbers):
    """The document with these pages (all without numbers) read so."""
    wanted = numbers or tuple(each.pdf_page for each in made.pages)
    return replace(
        made,
        pages=tuple(replace(each, origin=origin) if each.pdf_page in wanted else each for each in made.pages),
    )


@pytest.mark.parametrize("way", WAYS)
def test_in_digital_text_each_way_approves(way):
    assert APPROVED in {each.value for each in standings(document(*WAYS[way]))}


@pytest.mark.parametrize("origin", READ)
@pytest.mark.parametrize("way", WAYS)
def test_read_by_ocr_none_approves_and_says_to_read_the_page(way, origin):
    digital = standings(document(*WAYS[way]))
    read = standings(read_by(origin, document(*WAYS[way])))
    for before, after in zip(digital, read, strict=True):
        assert after.value is not APPROVED
        assert not after.mandatory
        if before.value is APPROVED:
            assert after.value is UNDETERMINED
            assert OCR_WORDS_CONDITION in after.conditions
            assert after.quote == before.quote  # the words are still shown


@pytest.mark.parametrize("origin", READ)
@pytest.mark.parametrize("way", WAYS)
def test_no_page_read_by_ocr_is_approved_beside_digital_ones(way, origin):
    made = document(*WAYS[way])
    for number in range(1, len(made.pages) + 1):
        found = tag_document(read_by(origin, made, number))
        for each in (each for work in found for each in work.passages):
            proof = each.standing.evidence
            if each.standing.value is APPROVED:
                assert each.passage.pdf_page != number
                assert proof.pdf_page != number
            elif each.passage.pdf_page == number and each.standing.evidence and proof.pdf_page != number:
                assert each.standing.value is UNDETERMINED


def test_a_page_read_by_ocr_under_a_digital_statement_says_why_it_is_not_approved():
    made = read_by(Origin.OCR, document(*WAYS["a statement of the manual"]), 2)
    found = standings(made)
    assert [each.value for each in found] == [APPROVED, UNDETERMINED]
    assert OCR_PAGE_CONDITION in found[1].conditions


def test_a_passage_that_runs_over_to_a_page_read_by_ocr_is_not_approved():
    made = document(
        page(1, "# STRUCTURAL REPAIR MANUAL\nThis manual is FAA approved."),
        page(2, "Drill"),
        page(3, "rivet"),
    )
    boxes = tuple(PageBox(number, made.pages[number - 1].body[0].box) for number in (2, 3))
    crossing = replace(made, passages=(Passage(0, 2, boxes, (), "Drill\nrivet", PassageKind.STEP),))
    assert standings(crossing)[0].value is APPROVED
    assert standings(read_by(Origin.OCR, crossing, 3))[0].value is UNDETERMINED


def test_a_revision_read_by_ocr_does_not_show_that_words_of_another_revision_are_not_meant():
    made = document(
        page(1, "# STRUCTURAL REPAIR MANUAL\nRevision 8"),
        page(2, "This manual, Revision 8, is FAA approved.\nDrill out the rivets."),
    )
    assert standings(made)[1].value is APPROVED
    assert APPROVED not in {each.value for each in standings(read_by(Origin.OCR, made, 1))}


@pytest.mark.parametrize("origin", READ)
def test_a_directive_read_by_ocr_is_not_called_approved_and_may_be_required(origin):
    made = document_of_text(DIRECTIVE.read_text(encoding="utf-8"))
    rule = [each for each in standings(made) if each.mandatory]
    assert {each.value for each in rule} == {APPROVED}
    read = standings(read_by(origin, made))
    assert APPROVED not in {each.value for each in read}
    assert not any(each.mandatory for each in read)
    assert any("may also be required" in " ".join(each.conditions) for each in read)


@pytest.mark.parametrize("way", WAYS)
def test_no_page_that_shows_more_than_its_text_approves_or_is_approved(way):
    """A digital stamp over a scan that is still to be read: what the scan says beside it nobody knows yet."""
    made = document(*WAYS[way])
    for number in range(1, len(made.pages) + 1):
        pages = tuple(
            replace(each, ocr_reason=OcrReason.MISMATCH) if each.pdf_page == number else each
            for each in made.pages
        )
        for each in (each for work in tag_document(replace(made, pages=pages)) for each in work.passages):
            if each.standing.value is APPROVED:
                assert number not in (each.passage.pdf_page, each.standing.evidence.pdf_page)


def test_a_page_that_shows_more_than_its_text_says_why_it_is_not_approved():
    made = document(*WAYS["a stamp in the foot"])
    pages = tuple(replace(each, ocr_reason=OcrReason.MISMATCH) for each in made.pages)
    assert SHOWS_MORE_CONDITION in standings(replace(made, pages=pages))[1].conditions
