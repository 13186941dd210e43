"""Bulletins, letters, temporary revisions and AMOC letters: what they say of themselves and of others.

Papers are invented; paragraph names follow iSpec 2200 (from memory) and the shorter order of general aviation
(common practice, no source)."""

import datetime

import pytest
from made_documents import document, page

from indexer.tagging.publication import tag_document
from indexer.tagging.tags import ClaimKind
from indexer.trade.publication_types import PublicationType as Type

LONG = """# SERVICE BULLETIN No. C88-32-0012
Revision B: May 4, 2031
1. PLANNING INFORMATION
A. Effectivity
(1) C88 airplanes, serial numbers 1 through 40.
B. Reason
(1) Bolts broke. This bulletin supersedes Service Bulletin C88-32-0009, dated July 11, 2029.
E. Compliance
(1) Within 10 hours. The maker classes this as MANDATORY.
F. Approval
(1) The technical content of this service bulletin is FAA approved.
J. References
(1) Maintenance Manual D88-2, 32-42-00, Page 201.
3. ACCOMPLISHMENT INSTRUCTIONS
A. Do Part 1 of Service Bulletin C88-32-0010, Revision 1, first."""
SHORT = """# SERVICE BULLETIN No. 14
SUBJECT: Brake bolts
MODELS AFFECTED: C88, all serial numbers
COMPLIANCE: At the next inspection.
APPROVAL: Not applicable.
INSTRUCTIONS
Replace the bolts."""


def tagged(body):
    return tag_document(document(page(1, body)))[0]


def claims(body, kind):
    return [
        (claim.document, claim.revision, claim.date) for claim in tagged(body).claims if claim.kind is kind
    ]


def test_the_paragraphs_of_a_bulletin_in_the_long_order():
    facts = tagged(LONG).bulletin
    assert facts.compliance.value == "(1) Within 10 hours. The maker classes this as MANDATORY."
    assert facts.approval.value == "(1) The technical content of this service bulletin is FAA approved."
    assert facts.affected.value == "(1) C88 airplanes, serial numbers 1 through 40."
    assert facts.approval.evidence.pdf_page == 1
    assert facts.approval.evidence.box is not None


def test_the_paragraphs_of_a_bulletin_in_the_short_order():
    facts = tagged(SHORT).bulletin
    assert facts.compliance.value == "At the next inspection."
    assert facts.approval.value == "Not applicable."
    assert facts.affected.value == "C88, all serial numbers"


def test_a_bulletin_without_an_approval_paragraph_has_none():
    assert tagged(SHORT.replace("APPROVAL: Not applicable.\n", "")).bulletin.approval is None


def test_a_sentence_that_begins_with_a_paragraph_s_name_is_not_that_paragraph():
    body = "# SERVICE BULLETIN No. 14\nCompliance with this bulletin is not watched by the maker.\nText"
    assert tagged(body).bulletin.compliance is None


def test_what_is_superseded_and_what_is_only_named():
    assert claims(LONG, ClaimKind.SUPERSEDES) == [("C88-32-0009", "", datetime.date(2029, 7, 11))]
    mentioned = {document for document, _, _ in claims(LONG, ClaimKind.MENTIONS)}
    assert mentioned == {"D88-2", "C88-32-0010"}


def test_a_bulletin_requires_and_incorporates_nothing_of_the_law():
    kinds = {claim.kind for claim in tagged(LONG).claims}
    assert not kinds & {ClaimKind.REQUIRES, ClaimKind.INCORPORATES}


@pytest.mark.parametrize(
    "sentence, kind",
    [
        ("This bulletin cancels Service Bulletin C88-32-0009.", ClaimKind.SUPERSEDES),
        ("This bulletin is superseded by Service Bulletin C88-32-0020.", ClaimKind.SUPERSEDED_BY),
        ("This bulletin has been replaced by Service Bulletin C88-32-0020.", ClaimKind.SUPERSEDED_BY),
        ("Service Bulletin C88-32-0009 gives the same inspection.", ClaimKind.MENTIONS),
    ],
)
def test_words_of_replacement(sentence, kind):
    body = f"# SERVICE BULLETIN No. C88-32-0012\nSubject: Bolts\n{sentence}\nText"
    assert [claim.kind for claim in tagged(body).claims] == [kind]


def temporary_revision(instruction, foot="32-42-00 Page 402"):
    body = f"# TEMPORARY REVISION No. 32-07\nMaintenance Manual D88-2, Revision 6\n{instruction}"
    return tag_document(document(page(1, body, foot=[foot], printed_page="402")))[0]


@pytest.mark.parametrize(
    "instruction, pages",
    [
        ("Insert facing page 401 of 32-42-00.", (("32-42-00", "401"),)),
        ("Put this sheet so that it faces 32-42-00, Page 402.", (("32-42-00", "402"),)),
        (
            "Insert facing pages 401 thru 403 of 32-42-00.",
            tuple(("32-42-00", each) for each in ("401", "402", "403")),
        ),
        ("This revision replaces page 5-12.", (("32-42-00", "5-12"),)),
        (
            "Torque the bolts as given on page 501 of 24-31-00.",
            (("32-42-00", "402"),),
        ),  # a reference: the foot speaks
    ],
)
def test_the_pages_a_temporary_revision_changes(instruction, pages):
    (claim,) = temporary_revision(instruction).claims
    assert (claim.kind, claim.document, claim.revision) == (ClaimKind.CHANGES_PAGE, "D88-2", "6")
    assert claim.type is Type.MAINTENANCE_MANUAL
    assert claim.pages == pages


def test_a_temporary_revision_takes_the_page_blocks_of_the_manual_it_changes():
    (passage,) = temporary_revision("Insert facing page 402.").passages[:1]
    assert [str(tag.value) for tag in passage.numbers] == ["32-42-00"]
    assert passage.page_block.value == "Removal/installation"


AMOC = """U.S. Department of Transportation
Federal Aviation Administration
November 3, 2031
Subject: Alternative Method of Compliance (AMOC) to AD 2031-07-11
Dear Sir:
You ask to use Corrigan Service Bulletin C88-32-0114, Revision C, dated October 6, 2031, in its place.
{answer}
(1) This AMOC cannot be transferred."""


def test_an_amoc_letter_names_the_directive_and_the_document_to_be_used_instead():
    answer = (
        "We approve Part 2 of the Accomplishment Instructions of Revision C as an AMOC to paragraph (g) of "
        "AD 2031-07-11."
    )
    publication = tagged(AMOC.format(answer=answer))
    assert publication.identity.type.value is Type.AMOC_LETTER
    assert publication.identity.date.value == datetime.date(2031, 11, 3)
    found = {
        claim.document: (claim.revision, claim.paragraphs)
        for claim in publication.claims
        if claim.kind is ClaimKind.ALTERNATIVE
    }
    assert found == {"2031-07-11": ("", ("(g)",)), "C88-32-0114": ("C", ("Part 2",))}


def test_a_letter_that_refuses_names_no_alternative():
    answer = "We do not approve Revision C as an AMOC to paragraph (g) of AD 2031-07-11."
    assert not [
        claim for claim in tagged(AMOC.format(answer=answer)).claims if claim.kind is ClaimKind.ALTERNATIVE
    ]
